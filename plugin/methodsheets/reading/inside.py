"""May this path be used? One door to a folder: nothing is read, written or taken away that does not lie in it."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterable
from pathlib import Path

from methodsheets.reading.drafts import clear_drafts, write_whole
from methodsheets.reading.slug import DEVICES

LONGEST_NAME = 200
"""Letters of one name; file systems take some 255 bytes."""

_UNFIT = re.compile(r'[\x00-\x1f\x7f<>:"|?*\\]')
"""Signs that no name may hold on some system, or that mean something else on another."""


def real(path: Path) -> Path:
    """The true place of a path, links followed as far as they lead; a circle of links is left as it is.

    `Path.resolve` raises for a circle, and a stranger's folder may hold one.
    """
    return Path(os.path.realpath(path))


def why_none(words: str) -> str:
    """Why no file or folder can be there at all; '' where one could."""
    try:
        Path(words or "\0").resolve()
    except RuntimeError:
        return "the links lead in a circle"
    except (OSError, ValueError):
        return "no such name can be"
    return ""


class RefusedError(Exception):
    """A path that is not used.

    Parameters:
        what: what is wrong with it, as a problem says it
        remedy: what to do about it
        outside: whether it leads out of its folder
    """

    def __init__(self, what: str, remedy: str, *, outside: bool = False) -> None:
        super().__init__(what)
        self.what, self.remedy, self.outside = what, remedy, outside


class Inside:
    """A folder and what lies in it.

    Links are followed when the folder itself is named, for it is the keeper's choice. Below it a link is read only
    where it leads to a file of the same folder, and never written through.

    Raises:
        RefusedError: what is named can be no folder.
    """

    def __init__(self, root: Path) -> None:
        try:
            self.root = Path(os.path.realpath(root))
        except ValueError as error:
            raise _unreadable(error) from error
        self._cleared: set[Path] = set()
        """Folders that were looked through for what a killed program left."""

    def file(self, path: Path) -> Path:
        """The true place of a file that may be read.

        Raises:
            RefusedError: it is missing, lies outside the folder, or is no regular file.
        """
        try:
            there = path.resolve(strict=True)
            kind = there.stat().st_mode
        except (OSError, RuntimeError, ValueError) as error:
            raise _unreadable(error) from error
        if not there.is_relative_to(self.root):
            what = f"the file lies outside its folder (got a link to {there.name})"
            raise RefusedError(what, "put a copy into the folder", outside=True)
        if not stat.S_ISREG(kind):
            raise RefusedError(f"this is no file but {_called(kind)}", "take it out of the folder")
        return there

    def read(self, path: Path, most: int) -> bytes:
        """The first bytes of a file, as many as are wanted; a pipe put in its place meanwhile is not waited for.

        Raises:
            RefusedError: as `file` does, or it cannot be read.
        """
        there = self.file(path)
        try:
            with os.fdopen(os.open(there, os.O_RDONLY | _AT_ONCE), "rb") as opened:
                if not stat.S_ISREG(os.fstat(opened.fileno()).st_mode):
                    raise RefusedError("this is no file any more", "take it out of the folder")
                return opened.read(most)
        except OSError as error:
            raise _unreadable(error) from error

    def place(self, name: str) -> Path:
        """The path of a file that is to be written: `name` with slashes, below the folder.

        Raises:
            RefusedError: the name leads outside, holds a sign or a word that a system keeps for itself, or there is
                a link on the way.
        """
        parts = fit_name(name)
        try:
            return self._place(parts, name)
        except OSError as error:
            raise _unreadable(error) from error

    def _place(self, parts: Iterable[str], name: str) -> Path:
        path = self.root
        if path.exists() and not path.is_dir():
            raise RefusedError(f"{path.name} is {_called(path.stat().st_mode)}, no folder", "name another folder")
        for part in parts:
            path = path / part
            if path.is_symlink():
                raise RefusedError(f"`{name}` would be written through a link (at {part})", "take the link away")
        if path.exists() and not path.is_file():
            raise RefusedError(f"`{name}` is {_called(path.stat().st_mode)}, no file", "give it another name")
        return path

    def write(self, name: str, data: bytes, *, new: bool = False, lasting: bool = False) -> Path:
        """Write a file whole or not at all; gives its path.

        Parameters:
            new: refuse to write over a file that is there
            lasting: wait until it lies on the disk, for what cannot be made again

        Raises:
            RefusedError: as `place` does, or it cannot be written.
        """
        path = self.place(name)
        if new and path.exists():
            raise RefusedError(f"`{name}` is there already and is not overwritten", "rename one of the two")
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            if path.parent not in self._cleared:
                self._cleared.add(path.parent)
                clear_drafts(path.parent)
            write_whole(path, data, lasting=lasting)
        except OSError as error:
            raise RefusedError(f"`{name}` cannot be written ({error.strerror})", "check the folder's rights") from error
        return path

    def remove(self, name: str) -> bool:
        """Take a file away; gives whether there was one.

        Raises:
            RefusedError: as `place` does.
        """
        path = self.place(name)
        there = path.is_file()
        path.unlink(missing_ok=True)
        return there


_AT_ONCE = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)


def fit_name(name: str) -> list[str]:
    """The parts of a name with slashes that may be one of a file or folder below another, on every system.

    Raises:
        RefusedError: it leads elsewhere, or holds a sign or a word that a system keeps for itself.
    """
    parts = name.split("/")
    for part in parts:
        _check_name(part, name)
    return parts


def _check_name(part: str, name: str) -> None:
    known = part.partition(".")[0].strip().lower()
    if part in ("", ".", "..") or _UNFIT.search(part) or known in DEVICES or part != part.rstrip(". "):
        raise RefusedError(f"`{name}` is no name for a file below the folder", "use letters, digits and hyphens")
    if len(part.encode("utf-8", "surrogatepass")) > LONGEST_NAME:
        raise RefusedError(f"a name is too long (got {len(part)} letters)", f"use at most {LONGEST_NAME}")


def _unreadable(error: Exception) -> RefusedError:
    reason = getattr(error, "strerror", None) or (
        "the links lead in a circle" if isinstance(error, RuntimeError) else "no name"
    )
    return RefusedError(f"the file cannot be read ({reason})", "check its name and its rights")


def _called(mode: int) -> str:
    kinds = (
        (stat.S_ISREG, "a file"),
        (stat.S_ISDIR, "a folder"),
        (stat.S_ISFIFO, "a pipe"),
        (stat.S_ISSOCK, "a socket"),
    )
    return next((words for is_kind, words in kinds if is_kind(mode)), "a device")
