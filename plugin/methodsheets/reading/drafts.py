"""How is a file written whole or not at all, and what becomes of the draft of a program that was killed?

The draft lies beside the file, and its writer holds it locked. One that nobody holds was left by a program that ended
in the middle: the next that writes into the folder takes it away.
"""

from __future__ import annotations

import contextlib
import os
import re
import secrets
from pathlib import Path
from typing import BinaryIO

try:
    from fcntl import LOCK_EX, LOCK_NB, flock
except ImportError:  # a system on which nobody can take a file away that another program has open

    def _hold(opened: BinaryIO) -> None:
        """An open file is held by itself."""

    HELD_BY_ITSELF = True
else:

    def _hold(opened: BinaryIO) -> None:
        """Lock an open file; BlockingIOError where another program has locked it."""
        flock(opened, LOCK_EX | LOCK_NB)

    HELD_BY_ITSELF = False

_DRAFT = re.compile(r"\.[0-9a-f]{16}\.part")
_TRIES = 3
"""Another program may take a draft away in the moment before it is locked; then it is written again."""


def write_whole(path: Path, data: bytes, *, lasting: bool) -> None:
    """Write a file beside its place and put it there in one step.

    Parameters:
        lasting: wait until it lies on the disk

    Raises:
        OSError: it cannot be written; what was there is as it was.
    """
    for left in reversed(range(_TRIES)):
        try:
            _write(path, path.with_name(f".{secrets.token_hex(8)}.part"), data, lasting)
        except FileNotFoundError:
            if not left:
                raise
        else:
            break


def _write(path: Path, draft: Path, data: bytes, lasting: bool) -> None:
    try:
        with draft.open("xb") as opened:
            with contextlib.suppress(OSError):  # a disk without locks: it is written all the same
                _hold(opened)
            opened.write(data)
            opened.flush()
            if lasting:
                os.fsync(opened.fileno())
            if not HELD_BY_ITSELF:
                draft.replace(path)
        if HELD_BY_ITSELF:
            draft.replace(path)
    finally:
        with contextlib.suppress(OSError):
            draft.unlink(missing_ok=True)


def clear_drafts(folder: Path) -> None:
    """Take away what programs that were killed left in a folder; the drafts of those that still write stay."""
    with contextlib.suppress(OSError):
        names = [one.name for one in os.scandir(folder) if _DRAFT.fullmatch(one.name)]
        for draft in (folder / name for name in names):
            with contextlib.suppress(OSError):
                if draft.is_file() and not draft.is_symlink():
                    _clear(draft)


def _clear(draft: Path) -> None:
    if HELD_BY_ITSELF:
        draft.unlink()
        return
    with draft.open("rb") as opened:
        _hold(opened)
        draft.unlink()
