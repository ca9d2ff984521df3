"""Lets these tests use the sample handbook of the pages' tests, and a handbook of their own."""

import sys
from pathlib import Path

import pytest

from methodsheets.faces.cli import main

sys.path.insert(0, str(Path(__file__).parent.parent / "pages"))


@pytest.fixture
def handbook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """A new handbook, and the command line in it."""
    monkeypatch.chdir(tmp_path)
    assert main(["start", "club"]) == 0
    monkeypatch.chdir(tmp_path / "club")
    capsys.readouterr()
    return tmp_path / "club"
