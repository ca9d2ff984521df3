"""Is every calculation held against two published values at least, or does it say why not?

The validation tests run once more by themselves, so that their counts are whole whatever part of the tests runs here.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from methodsheets.trade.form.calculation import catalogue

HERE = Path(__file__).parent
ENOUGH = 2
LEAST = 1500
"""Published values that the handbook is held against, at the least."""


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    file = tmp_path_factory.mktemp("checks") / "counts.json"
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", str(HERE)]
    command += ["--ignore", str(HERE / Path(__file__).name), "-k", "not finite_elements"]
    kept = {key: value for key, value in os.environ.items() if not key.startswith(("PYTEST_", "METHODSHEETS_"))}
    run = subprocess.run(
        command, cwd=HERE.parents[1], env={**kept, "METHODSHEETS_CHECKS": str(file)}, capture_output=True, text=True
    )
    assert run.returncode == 0, run.stdout[-3000:]
    found: dict[str, Any] = json.loads(file.read_text("utf-8"))
    return found


@pytest.fixture(scope="module")
def counts(ran: dict[str, Any]) -> dict[str, int]:
    found: dict[str, int] = ran["calculations"]
    return found


def test_there_are_many_published_values(ran: dict[str, Any]) -> None:
    assert ran["values"] >= LEAST


def test_every_calculation_has_two_checks_or_says_why_not(counts: dict[str, int]) -> None:
    silent = [n for n, entry in catalogue().items() if counts.get(n, 0) < ENOUGH and not entry.checked]
    assert silent == [], "too few checks in tests/validation, and no `Checked:` in the docstring that says why"


def test_who_says_why_has_not_two_checks(counts: dict[str, int]) -> None:
    """A reason that is no longer one is taken out."""
    stale = [n for n, entry in catalogue().items() if counts.get(n, 0) >= ENOUGH and entry.checked]
    assert stale == []
