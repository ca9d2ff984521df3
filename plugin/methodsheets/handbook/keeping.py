"""How are new records put to those that are there, so that none is ever lost or counted twice?

One program at a time (a lock); the file as it was is copied first; the new one is written whole or not at all.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from filelock import FileLock, Timeout

from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.problem import Place, Problem, Problems
from methodsheets.reading.source import LARGEST, read_source, shown_path

from .library import Found
from .model import Record
from .records import COLUMNS, FOLDER, HEADING, column_of, delimiter_of, records_of, said_of

BEFORE = ".before"
"""Ending of the copy of a file of records as it was before the last records were put to it."""
LOCK = ".records.lock"
PATIENCE = 20
"""Seconds to wait for another program that is writing records."""


@dataclass(frozen=True)
class Kept:
    """What became of new records: how many were put in, how many were there already, and what is wrong."""

    added: int
    known: int
    problems: tuple[Problem, ...]


def keep_records(found: Found, fresh: Sequence[Record], path: str, root: Path) -> Kept:
    """Put records to those of a method, in `records/<method>.csv` of its folder of methods.

    What is there already is passed over; what says otherwise than a record that is there is told and not put in.

    Parameters:
        path: the file that they come from, as problems show it
        root: paths in problems are given from here

    Raises:
        RefusedError: the file cannot be written, or another program is writing it.
    """
    door = Inside(found.root)
    lock = door.place(f"{FOLDER}/{LOCK}")
    try:
        lock.parent.mkdir(exist_ok=True)
        with FileLock(lock, timeout=PATIENCE):
            return _keep(door, found, fresh, path, root)
    except Timeout as error:
        what = f"another program is writing the records of `{found.slug}`"
        raise RefusedError(what, "try again when it has ended") from error
    except OSError as error:
        raise RefusedError(f"the records cannot be written ({error.strerror})", "check the folder's rights") from error


def _keep(door: Inside, found: Found, fresh: Sequence[Record], path: str, root: Path) -> Kept:
    before = records_of(found, root)
    if before.problems:
        what = f"the records of `{found.slug}` that are there cannot all be read"
        problem = Problem(Place(path), what, "nothing is put to a file that is not understood", "mend that file first")
        return Kept(0, 0, (*before.problems, problem))
    there = {said_of(one): one for one in before.records}
    new, known, wrong = list[Record](), 0, list[Problem]()
    for one in fresh:
        other = there.get(said_of(one))
        if other is None:
            new.append(one)
        elif (other.measured, other.minutes, other.note) == (one.measured, one.minutes, one.note):
            known += 1
        else:
            what = f"operation {one.operation} {one.limit} of {one.date} is recorded otherwise"
            wrong.append(Problem(Place(path, one.line), what, "a record is never changed", "mend one of the two files"))
    if new:
        _append(door, found, new, root)
    return Kept(len(new), known, tuple(wrong))


def _append(door: Inside, found: Found, new: Iterable[Record], root: Path) -> None:
    """Write a file of records anew with lines at its end, in its own columns and with its own signs between them."""
    rows = [_cells(one) for one in new]
    said = {name for row in rows for name, cell in row.items() if cell}
    name, text, raw = _place(door, found, said, root)
    heading = text.split("\n")[0] if text else HEADING
    between = delimiter_of(heading)
    names = [column_of(words) for words in next(csv.reader([heading], delimiter=between))]
    out = io.StringIO()
    writer = csv.writer(out, delimiter=between, lineterminator="\n")
    writer.writerows([row.get(name, "") for name in names] for row in rows)
    if text:
        door.write(f"{name}{BEFORE}", raw, lasting=True)
    whole = f"{text if text else HEADING}".rstrip("\n") + "\n" + out.getvalue()
    door.write(name, whole.encode("utf-8"), lasting=True)


def _place(door: Inside, found: Found, said: set[str], root: Path) -> tuple[str, str, bytes]:
    """The first file of records that has a column for everything that is said, its text and its bytes."""
    for number in range(100):
        name = f"{FOLDER}/{found.slug}{f'--{number}' if number else ''}.csv"
        file = door.root / name
        if not file.exists():
            return name, "", b""
        source = read_source(file, door.root, Problems(), shown_path(file, root))
        if source is not None and source.text.strip():
            heading = source.text.split("\n")[0]
            cells = next(csv.reader([heading], delimiter=delimiter_of(heading)))
            if said <= {column_of(words) for words in cells}:
                return name, source.text, door.read(file, LARGEST)
    raise RefusedError(f"`{found.slug}` has too many files of records", "put some of them together")


def _cells(one: Record) -> dict[str, str]:
    """A record as the cells of a line."""
    given = {name: getattr(one, "part_number" if name == "part" else name) for name in COLUMNS}
    return {name: _cell(value) for name, value in given.items()}


def _cell(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".")
    words = "" if value in (None, 0) else str(value)
    # A spreadsheet takes words that begin so for a formula; an apostrophe keeps them words.
    return f"'{words}" if words[:1] in ("=", "+", "-", "@", "\t", "\r") else words
