"""What went into a result: digests of the program, of its tables, and of the libraries it stands on.

A key holds everything that a published number depends on and nothing that it does not; never a time.
"""

from __future__ import annotations

import hashlib
from functools import cache
from importlib import metadata
from importlib.util import find_spec
from pathlib import Path

from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.source import LARGEST
from methodsheets.sheet.model import SCHEMA

NOT_IN_IT = frozenset({"pages", "faces", "__pycache__"})
"""Rooms that a worked-out method does not depend on: how it is laid out on a page does not change it."""

LIBRARIES = ("pint", "numpy", "manifold3d", "shapely", "matplotlib", "pyyaml")
"""The libraries whose version may change a number or a line."""

KEPT = frozenset({".py", ".csv", ".yml", ".txt", ".json", ".ttf"})


def digest_of(*parts: str) -> str:
    """One digest of several texts; each is set off from the next, so that ('ab', 'c') is not ('a', 'bc')."""
    made = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "surrogatepass")
        made.update(len(data).to_bytes(8, "big"))
        made.update(data)
    return made.hexdigest()


def file_digest(path: Path) -> str:
    """SHA-256 of a file's bytes, as far as they are read; '' where it is no file of its folder."""
    try:
        return hashlib.sha256(Inside(path.parent).read(path, LARGEST + 1)).hexdigest()
    except RefusedError:
        return ""


def folder_digest(folder: Path) -> str:
    """Digest of all source and table files below a folder, by name."""
    made = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.suffix in KEPT and "__pycache__" not in path.parts:
            made.update(path.relative_to(folder).as_posix().encode())
            made.update(path.read_bytes())
    return made.hexdigest()


@cache
def program_digest() -> str:
    """Digest of our own source and tables, as far as a result depends on them."""
    here = Path(__file__).resolve().parent.parent
    found = [find_spec(name) for name in ("methodfigures", "methodtooling")]
    drawn = [folder_digest(Path(one.origin).parent) for one in found if one is not None and one.origin]
    rooms = sorted(room for room in here.iterdir() if room.is_dir() and room.name not in NOT_IN_IT)
    return digest_of(str(SCHEMA), *drawn, *(f"{room.name} {folder_digest(room)}" for room in rooms))


@cache
def versions() -> tuple[tuple[str, str], ...]:
    """The versions of the libraries a result depends on, and our own."""
    return tuple((name, _version(name)) for name in ("mkdocs-methodsheets", *LIBRARIES))


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return "not installed"


def base_digest(style: str = "") -> str:
    """Digest of everything that all results depend on alike."""
    return digest_of(program_digest(), style, *(f"{name} {version}" for name, version in versions()))
