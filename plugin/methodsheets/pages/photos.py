"""Which pictures of an author's own belong to a method? Photos that lie beside its file, or below it.

Only what its first bytes say is a photo: a drawing that an author made as SVG can hold a script of its own.
"""

from __future__ import annotations

import base64
import re
from pathlib import Path

from methodsheets.handbook.model import Entry
from methodsheets.reading.inside import Inside, RefusedError, fit_name

LARGEST = 10_000_000
"""Bytes that a photo may have, to be published or to travel."""

_REFERENCE = re.compile(r"!\[[^\]\n]{0,500}\]\(<?([^()<>\s]{1,500})")
_KINDS = ((b"\x89PNG\r\n\x1a\n", "png"), (b"\xff\xd8\xff", "jpeg"), (b"GIF8", "gif"), (b"RIFF", "webp"))


def photos_of(entry: Entry) -> dict[str, Path]:
    """The photos that a method shows, by the words with which it names them."""
    found: dict[str, Path] = {}
    for name in dict.fromkeys(_REFERENCE.findall(entry.file_text)):
        path = _beside(entry, name)
        if path is not None and photo_kind(path):
            found[name] = path
    return found


def _beside(entry: Entry, name: str) -> Path | None:
    try:
        return entry.file.parent.joinpath(*fit_name(name))
    except RefusedError:
        return None


def photo_kind(path: Path) -> str:
    """'png', 'jpeg', 'gif' or 'webp' by the first bytes of a file; '' where it is none, or lies elsewhere."""
    try:
        door = Inside(path.parent)
        start = door.read(path, 12)
        large = door.file(path).stat().st_size > LARGEST
    except (RefusedError, OSError):
        return ""
    kind = next((kind for mark, kind in _KINDS if start.startswith(mark)), "")
    return "" if large or (kind == "webp" and start[8:12] != b"WEBP") else kind


def packed(path: Path) -> str:
    """A photo as an address that holds all of it; '' where it is none."""
    kind = photo_kind(path)
    if not kind:
        return ""
    try:
        data = Inside(path.parent).read(path, LARGEST)
    except RefusedError:
        return ""
    return f"data:image/{kind};base64,{base64.b64encode(data).decode('ascii')}"
