"""What must be known of a method file before it is worked out: its workshop, and what it may refer to?"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from methodsheets.method.record import RecordError, pack, unpack
from methodsheets.reading.problem import Problems
from methodsheets.reading.slug import file_slug

from .digests import digest_of
from .library import Found
from .store import Store

if TYPE_CHECKING:
    from methodsheets.reading.method_file import MethodFile

_QUOTED = re.compile(r"[\"“']([^\"”'\n]{1,80})[\"”']")
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")


@dataclass(frozen=True)
class FileNote:
    """What the front matter and the blocks of one file say without being worked out.

    Parameters:
        workshop: the workshop named; '' where none is
        names: every name in the blocks that could be the name of another method or part
    """

    workshop: str = ""
    part: str = ""
    names: tuple[str, ...] = ()


def read_file(found: Found) -> tuple[MethodFile | None, Problems]:
    """Read a found file, with what is wrong with it; the text was checked when it was found."""
    from methodsheets.reading.method_file import parse_method

    problems = Problems()
    if not found.digest:
        return None, problems
    return parse_method(found.text, found.path, problems), problems


def note_of(found: Found, store: Store, base: str, *, fresh: bool = False) -> FileNote:
    """The note of a file, from the store if it has it."""
    key = digest_of("note", base, found.digest)
    kept = None if fresh else store.note(key)
    if kept is not None:
        try:
            return unpack(FileNote, kept)
        except RecordError:
            pass
    made = _make(found)
    store.keep_note(key, pack(made))
    return made


def _make(found: Found) -> FileNote:
    """Read the file for its note."""
    file, _ = read_file(found)
    if file is None:
        return FileNote()
    front = file.front
    lines = [text.value for text in (front.stock, front.intended, front.part) if text is not None]
    lines += [block.source for block in file.blocks]
    words = "\n".join(lines)
    names = {file_slug(name) for name in _QUOTED.findall(words)}
    names |= {file_slug(name) for name in _NAME.findall(words)}
    if front.intended is not None:
        names.add(file_slug(front.intended.value))
    return FileNote(
        workshop=front.workshop.value if front.workshop else "",
        part=front.part.value if front.part else "",
        names=tuple(sorted(names)),
    )
