"""What was given on the command line to be taken in: a file, read through one door and not without bound."""

from __future__ import annotations

from pathlib import Path

from methodsheets.faces.command import CommandError
from methodsheets.reading.inside import Inside, real
from methodsheets.reading.source import LARGEST

LARGEST_PAGE = 50_000_000
"""Bytes that a travelling page may have; one with forty pictures has about a tenth of that."""


def is_page(file: Path) -> bool:
    """Whether a file is taken for a method that travels alone."""
    return file.suffix.lower() in {".html", ".htm"}


def read_given(file: Path) -> bytes:
    """The bytes of a file.

    Raises:
        CommandError: it is not there, or larger than what is read.
        RefusedError: it is no file, or cannot be read.
    """
    if not file.is_file():
        raise CommandError(f"there is no file {file}")
    size, most = file.stat().st_size, LARGEST_PAGE if is_page(file) else LARGEST
    if size > most:
        raise CommandError(f"{file} is too large ({size:,} bytes; {most:,} are read)")
    return Inside(real(file).parent).read(file, most)
