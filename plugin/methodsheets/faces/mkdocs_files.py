"""Which file does an address of the host mean, and which address a file?"""

from __future__ import annotations

import os
import posixpath
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote, unquote

from mkdocs.structure.files import File, Files

from methodsheets.reading.method_file import is_method


def photo_at(page: File, files: Files, address: str) -> Path | None:
    """The file behind the address of a picture on a page."""
    wanted = posixpath.normpath(posixpath.join(posixpath.dirname(page.dest_uri), unquote(address)))
    found = next((file for file in files if file.dest_uri == wanted and file.abs_src_path), None)
    return Path(str(found.abs_src_path)) if found else None


def edit_path(file: Path, docs: Path) -> str:
    """Where the pencil leads, as it may stand in an address: a file's name may hold any sign."""
    return quote(Path(os.path.relpath(file, docs)).as_posix())


def method_pages(files: Files) -> Iterator[File]:
    """The pages among the site's own that are method files."""
    for file in files.documentation_pages():
        if file.abs_src_path is None or file.generated_by is not None:
            continue
        try:
            text = file.content_string
        except (OSError, ValueError):
            continue
        if is_method(text):
            yield file
