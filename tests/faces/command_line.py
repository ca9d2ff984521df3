"""A command line as one would type it, and what it says."""

from __future__ import annotations

import pytest

from methodsheets.faces.cli import main


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(list(words))
    told = capsys.readouterr()
    return status, told.out, told.err
