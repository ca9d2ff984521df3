"""What is in the handbook's tables? Reads the commented text files that hold them."""

from __future__ import annotations

import csv
import functools
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from .rows import TRUSTS, Row, origins_of, read_keys

FOLDER = Path(__file__).resolve().parents[1] / "tables"

_COLUMN = re.compile(r"^column\s+(\S+)(?:\s+\[([^\]]+)\])?:\s*(.*)$")


@dataclass(frozen=True)
class Column:
    """One column: its heading, unit (`text` for words) and what it holds."""

    name: str
    unit: str
    text: str


@dataclass(frozen=True)
class Table:
    """A table: what it says of itself, and its rows as text, each by column heading."""

    name: str
    title: str
    source: str
    notes: tuple[str, ...]
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]


@functools.cache
def read_table(name: str) -> Table:
    """Read a table by name (without `.csv`).

    The file starts with a comment block: `# title: …`, `# source: …`, `# key NAME [trust]: who says so`,
    `# names: the columns that name a row`, `# column NAME [unit]: …` and free notes. Then come a line of headings and
    the rows, each with its sources in the column `key`. Cells are text; an empty cell is an unknown value.

    Raises:
        KeyError: there is no such table.
        ValueError: the file does not keep to its form.
    """
    path = FOLDER / f"{name}.csv"
    if not path.is_file():
        raise KeyError(f"no table called {name}")
    comments, lines = _divide(path.read_text(encoding="utf-8"))
    reader = csv.DictReader(lines, skipinitialspace=True, strict=True)
    notes = tuple(line for line in comments if not re.match(r"(title|source):|column\s", line))
    made = _maker(path, _said(comments, "title"), _said(comments, "names"), notes)
    rows = tuple(made(row) for row in reader)
    columns = tuple(_column(line) for line in comments if _COLUMN.match(line))
    if tuple(reader.fieldnames or ()) != tuple(column.name for column in columns):
        raise ValueError(f"{path.name}: the headings are not the columns described above them")
    return Table(
        name=name,
        title=_said(comments, "title"),
        source=_said(comments, "source"),
        notes=notes,
        columns=columns,
        rows=rows,
    )


def table_names() -> tuple[str, ...]:
    """Return the names of all tables, sorted."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.csv")))


@functools.cache
def find_row(table: str, **cells: str) -> Row:
    """Return the row whose cells these are.

    Raises:
        KeyError: there is none.
    """
    for row in read_table(table).rows:
        if all(row[heading] == cell for heading, cell in cells.items()):
            return row
    raise KeyError(f"{table} has no row with {cells}")


@functools.cache
def counted_by_trust() -> Mapping[str, Mapping[str, int]]:
    """Return how many rows of each table are read, common practice and from memory, by the weakest of their cells."""
    found: dict[str, dict[str, int]] = {}
    for name in table_names():
        table = read_table(name)
        trusts = [row.origin(*_valued(row)).trust for row in table.rows]
        found[table.title] = {trust: trusts.count(trust) for trust in TRUSTS}
    return found


def _valued(row: Row) -> tuple[str, ...]:
    """The columns of a row in which a value stands that a source has to answer for."""
    return tuple(heading for heading, cell in row.items() if cell and heading not in ("note", "key", "also"))


def number(text: str) -> float | None:
    """Return a cell as a number, or nothing where the cell is empty."""
    return float(text) if text.strip() else None


def _divide(text: str) -> tuple[list[str], list[str]]:
    """Part the comment lines from the rest; a comment line that goes on is indented."""
    comments: list[str] = []
    rest: list[str] = []
    for line in text.splitlines():
        if line.startswith("#"):
            said = line[1:]
            if said.startswith("   ") and comments:
                comments[-1] += " " + said.strip()
            else:
                comments.append(said.strip())
        elif line.strip():
            rest.append(line)
    return [line for line in comments if line], rest


def _column(line: str) -> Column:
    found = _COLUMN.match(line)
    assert found is not None
    return Column(found[1], found[2] or "text", found[3])


def _said(comments: list[str], key: str) -> str:
    """Return every line that starts with a key, joined."""
    return " ".join(line[len(key) + 1 :].strip() for line in comments if line.startswith(f"{key}:"))


def _maker(path: Path, title: str, names: str, notes: tuple[str, ...]) -> Callable[[Mapping[str, str | None]], Row]:
    """Return what makes a row of this table: its cells, its name, and where its cells come from."""
    keys = read_keys(notes)
    naming = [name.strip() for name in names.split(",") if name.strip()]

    def made(row: Mapping[str, str | None]) -> Row:
        if None in row or None in row.values():
            raise ValueError(f"{path.name}: a row has more or fewer cells than there are headings: {[*row.values()]}")
        cells = {heading: (cell or "").strip() for heading, cell in row.items()}
        try:
            origins = origins_of(cells["key"], keys)
        except KeyError as error:
            raise ValueError(f"{path.name}: a row does not say where it comes from: {cells}") from error
        name = ", ".join(cells[column] for column in naming or list(cells)[:1] if cells[column])
        return Row(title, name, cells, origins)

    return made
