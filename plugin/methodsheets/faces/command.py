"""How does a command say that it cannot be carried out?"""

from __future__ import annotations

from pathlib import Path

FAILED = 1
"""Exit status where something is wrong with what was given; 2 is a wrong command line."""
NOT_KNOWN = 3
"""Exit status of `check` where nothing is wrong, but a check of the work could not be made: something was not said."""


class CommandError(Exception):
    """A command that cannot be carried out; its words go to the person who typed it."""


def as_typed(path: Path) -> str:
    """A path as one would type it here: from this folder where it lies below it."""
    try:
        return path.resolve().relative_to(Path.cwd().resolve()).as_posix() or "."
    except ValueError:
        return path.as_posix()
