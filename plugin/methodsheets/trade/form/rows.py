"""Which row of which table does a number rest on, who says so, and how far is it believed?

Every row names its source by a key that the head of its table spells out with its trust. A lookup takes up the row it
used with `take`; whoever wants to know which rows a piece of work rests on opens `taking` round it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

TRUSTS = ("read", "common practice", "from memory")
"""From the firmest to the weakest. Read: on a page or in a file that is named. From memory: nothing was looked up."""
MEMORY = TRUSTS[-1]


@dataclass(frozen=True)
class Origin:
    """Where a value comes from and how far it is believed."""

    source: str
    trust: str


@dataclass(frozen=True)
class Taken:
    """A row that was used: the title of its table, its name, and its origin."""

    table: str
    row: str
    source: str
    trust: str


@dataclass(frozen=True, eq=False)
class Row(Mapping[str, str]):
    """One row: its cells as text by heading, the table it stands in, and where its cells come from."""

    table: str
    name: str
    cells: Mapping[str, str]
    origins: Mapping[str, Origin]
    """By column; under '' for every column that has none of its own."""

    def __getitem__(self, heading: str) -> str:
        return self.cells[heading]

    def __iter__(self) -> Iterator[str]:
        return iter(self.cells)

    def __len__(self) -> int:
        return len(self.cells)

    def origin(self, *columns: str) -> Origin:
        """Where some cells come from, all of them where none is named: their sources, and the trust of the weakest."""
        wanted = columns or tuple(self.cells)
        found = list(dict.fromkeys(self.origins.get(column, self.origins[""]) for column in wanted))
        weakest = max(found, key=lambda one: TRUSTS.index(one.trust))
        return Origin("; ".join(dict.fromkeys(one.source for one in found)), weakest.trust)


_taken: ContextVar[list[Taken] | None] = ContextVar("rows taken", default=None)


def take(row: Row, *columns: str) -> Row:
    """Take up a row that a lookup uses; `columns` are the cells that count where not all of them do."""
    rows = _taken.get()
    if rows is not None:
        origin = row.origin(*columns)
        used = Taken(row.table, row.name, origin.source, origin.trust)
        if used not in rows:
            rows.append(used)
    return row


@contextmanager
def taking() -> Iterator[list[Taken]]:
    """Collect the rows that are taken up within; an outer collection gets them as well."""
    outer = _taken.get()
    rows: list[Taken] = []
    token = _taken.set(rows)
    try:
        yield rows
    finally:
        _taken.reset(token)
        if outer is not None:
            outer.extend(one for one in rows if one not in outer)


def read_keys(notes: tuple[str, ...]) -> dict[str, Origin]:
    """The sources spelled out in the head of a table: `# key NAME [trust]: who says so`."""
    found: dict[str, Origin] = {}
    for note in notes:
        said = re.match(r"key (\S+) \[([^\]]+)\]: (.+)", note)
        if said is None:
            continue
        if said[2] not in TRUSTS:
            raise ValueError(f"key {said[1]}: {said[2]!r} is none of {', '.join(TRUSTS)}")
        found[said[1]] = Origin(said[3], said[2])
    return found


def origins_of(cell: str, keys: Mapping[str, Origin]) -> dict[str, Origin]:
    """Read a cell of the column `key`: `memory`, `page+file`, or `memory; density=page; yield=page`."""
    found: dict[str, Origin] = {}
    for entry in filter(None, (part.strip() for part in cell.split(";"))):
        column, equals, names = entry.rpartition("=")
        found[column.strip() if equals else ""] = _joined([keys[name] for name in names.split("+")])
    if "" not in found:
        raise KeyError(f"no source for the whole row in {cell!r}")
    return found


def _joined(origins: list[Origin]) -> Origin:
    """Several sources that agree: as firm as the firmest of them."""
    firmest = min(origins, key=lambda one: TRUSTS.index(one.trust))
    return Origin("; ".join(dict.fromkeys(one.source for one in origins)), firmest.trust)
