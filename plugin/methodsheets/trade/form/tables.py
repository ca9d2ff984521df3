"""What is in the handbook's tables? Reads the commented text files that hold them."""

from __future__ import annotations

import csv
import functools
import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

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
    rows: tuple[Mapping[str, str], ...]


@functools.cache
def read_table(name: str) -> Table:
    """Read a table by name (without `.csv`).

    The file starts with a comment block: `# title: …`, `# source: …`, `# column NAME [unit]: …` and free notes.
    Then come a line of headings and the rows. Cells are given as text; an empty cell is an unknown value.

    Raises:
        KeyError: there is no such table.
        ValueError: the file does not keep to its form.
    """
    path = FOLDER / f"{name}.csv"
    if not path.is_file():
        raise KeyError(f"no table called {name}")
    comments, lines = _divide(path.read_text(encoding="utf-8"))
    reader = csv.DictReader(lines, skipinitialspace=True, strict=True)
    rows = tuple(_row(path, row) for row in reader)
    columns = tuple(_column(line) for line in comments if _COLUMN.match(line))
    if tuple(reader.fieldnames or ()) != tuple(column.name for column in columns):
        raise ValueError(f"{path.name}: the headings are not the columns described above them")
    return Table(
        name=name,
        title=_said(comments, "title"),
        source=_said(comments, "source"),
        notes=tuple(line for line in comments if not re.match(r"(title|source):|column\s", line)),
        columns=columns,
        rows=rows,
    )


def table_names() -> tuple[str, ...]:
    """Return the names of all tables, sorted."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.csv")))


@functools.cache
def table_digest() -> str:
    """Return a digest of every table's bytes: a number worked out from them is stale when it changes."""
    digest = hashlib.sha256()
    for path in sorted(FOLDER.glob("*.csv")):
        digest.update(path.name.encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()


@functools.cache
def table_keys(name: str) -> Mapping[str, str]:
    """Return the sources spelled out in a table's head (`# key KEY: …`), by key."""
    found = (re.match(r"key (\S+): (.*)", note) for note in read_table(name).notes)
    return {match[1]: match[2] for match in found if match}


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


def _row(path: Path, row: Mapping[str, str | None]) -> Mapping[str, str]:
    if None in row or None in row.values():
        raise ValueError(f"{path.name}: a row has more or fewer cells than there are headings: {list(row.values())}")
    return {heading: (cell or "").strip() for heading, cell in row.items()}
