"""Which file does an address of the host mean, and which address a file?"""

from __future__ import annotations

import os
import posixpath
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote, unquote

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import get_plugin_logger
from mkdocs.structure.files import File, Files

from methodsheets.reading.inside import RefusedError, fit_name, real
from methodsheets.reading.method_file import is_method

log = get_plugin_logger(__name__)


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


def url_of(files: Files, uri: str) -> str:
    """Address below the site of a page or a file; '' where it is not published."""
    found = files.get_file_from_path(uri)
    return found.url if found else ""


def root_of(config: MkDocsConfig) -> Path:
    """The folder of `mkdocs.yml`, from which paths are given, wherever the command was typed."""
    return real(Path(config.config_file_path)).parent if config.config_file_path else Path.cwd()


def lies_in(path: Path, folder: Path) -> bool:
    """Whether a path lies below a folder, links followed."""
    return real(path).is_relative_to(real(folder))


def fits(uri: str) -> bool:
    """Whether a file may have that place; told where not, for a page of the author's own may have an odd name."""
    try:
        fit_name(uri)
    except RefusedError as refused:
        log.warning("not made: %s; %s", refused.what, refused.remedy)
        return False
    return True
