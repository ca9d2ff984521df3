"""What must be known of a method file before it is worked out: its workshop, and what it may refer to?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Problem, Problems
from methodsheets.sheet.records import RecordError, pack, unpack

from .digests import digest_of
from .library import Found
from .store import Store

if TYPE_CHECKING:
    from methodsheets.reading.method_file import MethodFile


@dataclass(frozen=True)
class FileNote:
    """What the front matter and the blocks of one file say without being worked out.

    Parameters:
        workshop: the workshop named; '' where none is
        names: what it says that it is made from: stock of another method, its part, a piece of it
    """

    workshop: str = ""
    part: str = ""
    names: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()
    """What the program failed at."""

    @property
    def lasting(self) -> bool:
        """Whether it may be kept."""
        return not self.problems


def read_file(found: Found) -> tuple[MethodFile | None, Problems]:
    """Read a found file, with what is wrong with it; the text was checked when it was found."""
    from methodsheets.reading.method_file import parse_method

    problems = Problems()
    if not found.digest:
        return None, problems

    def failed(problem: Problem) -> None:
        problems.extend([problem])

    return through(
        found.path, "this file could not be read", lambda: parse_method(found.text, found.path, problems), failed
    ), problems


def note_of(found: Found, store: Store, base: str, *, fresh: bool = False) -> FileNote:
    """The note of a file, from the store if it has it."""
    key = digest_of("note", base, found.digest)
    kept = None if fresh else store.note(key)
    if kept is not None:
        try:
            return unpack(FileNote, kept)
        except RecordError:
            pass
    made = through(found.path, "this file could not be read", lambda: _make(found), _failed)
    if made.lasting:
        store.keep_note(key, pack(made))
    return made


def _failed(problem: Problem) -> FileNote:
    return FileNote(problems=(problem,))


def _make(found: Found) -> FileNote:
    """Read the file for its note."""
    from methodsheets.method.references import references

    file, _ = read_file(found)
    if file is None:
        return FileNote()
    front = file.front
    return FileNote(
        workshop=front.workshop.value if front.workshop else "",
        part=front.part.value if front.part else "",
        names=references(file),
    )
