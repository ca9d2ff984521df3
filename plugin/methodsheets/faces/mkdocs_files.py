"""Which file does an address of the host mean, and which address a file?"""

from __future__ import annotations

import os
import posixpath
from pathlib import Path
from urllib.parse import quote, unquote

from mkdocs.structure.files import File, Files


def photo_at(page: File, files: Files, address: str) -> Path | None:
    """The file behind the address of a picture on a page."""
    wanted = posixpath.normpath(posixpath.join(posixpath.dirname(page.dest_uri), unquote(address)))
    found = next((file for file in files if file.dest_uri == wanted and file.abs_src_path), None)
    return Path(str(found.abs_src_path)) if found else None


def edit_path(file: Path, docs: Path) -> str:
    """Where the pencil leads, as it may stand in an address: a file's name may hold any sign."""
    return quote(Path(os.path.relpath(file, docs)).as_posix())
