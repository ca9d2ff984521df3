"""May this file be read, and what does it say: bytes to text, with the first thing that is wrong with them."""

from __future__ import annotations

import contextlib
import hashlib
import os
from dataclasses import dataclass
from pathlib import Path

from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.limits import FILE_BYTES
from methodsheets.reading.problem import MethodError, Place, Problems
from methodsheets.reading.shape import check_lines, check_page

LARGEST = FILE_BYTES
PAGES = frozenset({".md", ".markdown"})
"""Endings of files that become pages."""


@dataclass(frozen=True)
class Source:
    """The text of a file as the rest of the package sees it."""

    path: str
    """The path as problems show it."""
    text: str
    """Without byte-order mark; every line ends in one line feed."""
    digest: str
    """SHA-256 of the bytes as they lie on the disk."""


def read_source(path: Path, root: Path, problems: Problems, shown: str | None = None) -> Source | None:
    """Read a text file that lies under `root`.

    `shown` is the path used in problems; without it the path below `root`.
    Gives None and notes a problem if the file is missing, too large or of no shape that can be read, not UTF-8,
    holds NUL bytes, or lies (perhaps by a symbolic link) outside `root`.
    """
    name = shown if shown is not None else shown_path(path, root)
    try:
        return _source(_bytes_of(path, root, name), name, path.suffix.lower())
    except MethodError as error:
        problems.extend([error.problem])
        return None


def given_source(raw: bytes, name: str, problems: Problems) -> Source | None:
    """The text of a file that lies nowhere yet, from its bytes; None and a problem as `read_source` has them."""
    try:
        if len(raw) > LARGEST:
            raise _too_large(Place(name), len(raw))
        return _source(raw, name, Path(name).suffix.lower())
    except MethodError as error:
        problems.extend([error.problem])
        return None


def _source(raw: bytes, name: str, ending: str) -> Source:
    text = _decode(raw, name, wide=ending == ".csv")
    check_lines(text, name)
    if ending in PAGES:
        check_page(text, name)
    return Source(name, text, hashlib.sha256(raw).hexdigest())


def unify_lines(text: str) -> str:
    """The text with one line feed at the end of every line, whatever system it was written on."""
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def shown_path(path: Path, root: Path) -> str:
    """The path as problems show it: from the root where it lies below it."""
    try:
        return in_words(path.relative_to(root).as_posix())
    except ValueError:
        return in_words(path.as_posix())


def in_words(name: str) -> str:
    r"""The name of a file as it may stand in a text: the same whatever language the system is set to.

    Where the system takes names for ASCII, Python keeps the bytes of other letters as halves of pairs, which no text
    may hold. They are read as UTF-8; a byte that is none stands as `\xfc`.
    """
    if name.isascii():
        return name
    return os.fsencode(name).decode("utf-8", "backslashreplace")


def _bytes_of(path: Path, root: Path, name: str) -> bytes:
    place = Place(name)
    try:
        door = Inside(root)
        size = door.file(path).stat().st_size
        raw = door.read(path, LARGEST + 1) if size <= LARGEST else b""
    except RefusedError as refused:
        code = "outside" if refused.outside else "unreadable"
        raise MethodError(
            place, refused.what, "only files of the folder itself are read", refused.remedy, code=code
        ) from refused
    if max(size, len(raw)) > LARGEST:
        raise _too_large(place, max(size, len(raw)))
    return raw


def _too_large(place: Place, size: int) -> MethodError:
    return MethodError(
        place,
        f"the file is too large (got {size:,} bytes)",
        f"a file may have {LARGEST:,} bytes",
        "write one file for each method",
        code="too-large",
    )


def _decode(raw: bytes, name: str, *, wide: bool = False) -> str:
    """The text; `wide` = two bytes a sign are understood too, as spreadsheets save tables, where a mark says so."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        if wide:
            with contextlib.suppress(UnicodeDecodeError):
                raw = raw.decode("utf-16").encode("utf-8", "replace")
                return _decode(raw, name)
        raise _not_utf8(Place(name), "UTF-16")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        place = _place_in(raw, error.start, name)
        raise _not_utf8(place, f"byte 0x{raw[error.start]:02x}") from error
    nul = text.find("\0")
    if nul >= 0:
        line = text.count("\n", 0, nul) + 1
        raise MethodError(
            Place(name, line, nul - text.rfind("\n", 0, nul)),
            "the file holds a NUL byte (got 0x00)",
            "a method file is text",
            "save it again as plain text in UTF-8",
            code="not-text",
        )
    return unify_lines(text)


def _not_utf8(place: Place, got: str) -> MethodError:
    return MethodError(
        place,
        f"the file is not UTF-8 (got {got})",
        "method files are text in UTF-8",
        "save it again with the encoding UTF-8",
        code="not-utf8",
    )


def _place_in(raw: bytes, index: int, name: str) -> Place:
    before = raw[:index].decode("utf-8-sig", errors="replace")
    return Place(name, before.count("\n") + 1, len(before) - before.rfind("\n"))
