"""How does a command say that it cannot be carried out?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from methodsheets.reading.inside import real

if TYPE_CHECKING:
    from methodsheets.handbook.project import Project

FAILED = 1
"""Exit status where something is wrong with what was given; 2 is a wrong command line."""
NOT_KNOWN = 3
"""Exit status of `check` where nothing is wrong, but a check of the work could not be made: something was not said."""


class CommandError(Exception):
    """A command that cannot be carried out; its words go to the person who typed it."""


def as_typed(path: Path) -> str:
    """A path as one would type it here: from this folder where it lies below it."""
    try:
        return real(path).relative_to(real(Path.cwd())).as_posix() or "."
    except ValueError:
        return path.as_posix()


def refuse_taken(project: Project, folder: Path, slug: str, remedy: str) -> None:
    """Refuse a new method whose address a file has already, however that file writes its name.

    Raises:
        CommandError: there is a file of that name in the folder, or a method of it anywhere in the handbook.
    """
    from methodsheets.handbook.library import SUFFIXES, find_methods
    from methodsheets.reading.slug import file_slug
    from methodsheets.reading.source import in_words

    beside = sorted(file for file in folder.iterdir() if file.suffix.lower() in SUFFIXES) if folder.is_dir() else ()
    taken = next((file for file in beside if file_slug(in_words(file.stem)) == slug), None)
    if taken is None:
        library = find_methods((one for one in project.methods if one.is_dir()), project.inside(), project.root)
        taken = library.methods[slug].file if slug in library.methods else None
    if taken is not None:
        raise CommandError(f"{as_typed(taken)} is there already and is not overwritten; {remedy}")
