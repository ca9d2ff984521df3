"""Does the workshop come along? It is put beside the others, never over one, and what differs is said."""

from __future__ import annotations

import argparse
import difflib
from collections.abc import Iterable
from pathlib import Path, PurePosixPath
from types import TracebackType

from methodsheets.faces.command import CommandError, as_typed
from methodsheets.faces.given import is_page, read_given
from methodsheets.handbook.project import Project
from methodsheets.handbook.shops import FOLDER, SUFFIXES
from methodsheets.reading.inside import Inside
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import LARGEST, in_words

_MOST_LINES = 12
"""So many lines of two workshops are shown beside each other."""


class Along:
    """A workshop that is tried with a method, and stays only when the method is taken in.

    Parameters:
        offered: key of the workshop that travels in the page, wanted or not; "" where none does
        name: name of the file of the one that is wanted; "" where none is
        raw: its bytes
        folder: where the workshops are
    """

    def __init__(self, offered: str = "", name: str = "", raw: bytes = b"", folder: Path | None = None) -> None:
        self.offered = offered
        self.key = file_slug(PurePosixPath(name).stem) if name else ""
        self.told: tuple[str, ...] = ()
        self._raw, self._folder = raw, folder
        self._put: Path | None = None

    def __enter__(self) -> Along:
        """Put it beside the others, so that the method can be worked out in it."""
        if not self.key or self._folder is None:
            return self
        there = _there(self._folder, self.key)
        if there is None:
            self._put = Inside(self._folder).write(f"{self.key}{SUFFIXES[0]}", self._raw, new=True)
        else:
            mine = Inside(self._folder).read(there, LARGEST)
            self.told = tuple(_compared(as_typed(there), mine, self._raw))
        return self

    def stays(self) -> list[Path]:
        """The file that was put there, which is kept now."""
        kept, self._put = self._put, None
        return [kept] if kept else []

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """Take it away again where the method was not taken in."""
        if self._put is not None and self._folder is not None:
            Inside(self._folder).remove(self._put.name)
            self._put = None


def along_with(options: argparse.Namespace, folder: Path, project: Project) -> Along:
    """The workshop that comes along with the method that is added.

    Raises:
        CommandError: one is wanted, and none travels in the page, or the file is none of a workshop.
    """
    file, wanted = Path(options.file), options.with_workshop
    carried = _carried(file) if is_page(file) else None
    offered = file_slug(PurePosixPath(carried[0]).stem) if carried else ""
    if wanted is None:
        return Along(offered)
    beside = project.workshops or folder / FOLDER
    if wanted is True:
        if carried is None:
            raise CommandError(f"no workshop travels in {file}; ask for its file, and name it: --with-workshop FILE")
        return Along(offered, *carried, beside)
    named = Path(wanted)
    if named.suffix.lower() not in SUFFIXES:
        raise CommandError(f"{named} is no file of a workshop; it ends in {' or '.join(SUFFIXES)}")
    return Along(offered, in_words(named.name), read_given(named), beside)


def _carried(file: Path) -> tuple[str, bytes] | None:
    from methodsheets.pages.selfcontained import workshop_of

    found = workshop_of(read_given(file).decode("utf-8", errors="replace"))
    if found is not None and len(found[1]) > LARGEST:
        raise CommandError(f"the workshop in {file} is too large ({len(found[1]):,} bytes; {LARGEST:,} are read)")
    return found


def _there(folder: Path, key: str) -> Path | None:
    """The workshop that has this key already, however its file writes it."""
    if not folder.is_dir():
        return None
    files = (one for one in sorted(folder.iterdir()) if one.suffix.lower() in SUFFIXES)
    return next((one for one in files if file_slug(in_words(one.stem)) == key), None)


def _compared(shown: str, mine: bytes, theirs: bytes) -> Iterable[str]:
    """What tells a workshop that is here from the one of that name that came."""
    if mine == theirs:
        yield f"{shown} is here already and the same."
        return
    yield f"{shown} is here already and says something else; it is not overwritten, and the method was tried in it."
    yield "To have both: give the file that came another name, and say --workshop and --with-workshop with that name."
    here, came = (raw.decode("utf-8", errors="replace").splitlines() for raw in (mine, theirs))
    changed = list(difflib.unified_diff(here, came, n=0, lineterm=""))[2:]  # the names of the two files come first
    changed = [one for one in changed if one[0] in "+-"]
    for line in changed[:_MOST_LINES]:
        said = "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in line[1:]).strip()
        yield f"  {'here' if line[0] == '-' else 'came'}: {said[:100]}"
    if len(changed) > _MOST_LINES:
        yield f"  … and {len(changed) - _MOST_LINES} lines more"
