"""Prints what the validation tests compared: set METHODSHEETS_VALIDATION=1, or run `python -m tests.validation`."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

from .record import COPYING, RECORDS, table

SWITCH = "METHODSHEETS_VALIDATION"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table after the tests, when it is asked for."""
    if os.environ.get(SWITCH, "0") not in ("", "0"):
        terminalreporter.section("checked against the world")
        for line in table(tuple(RECORDS), sources=os.environ[SWITCH] != "short"):
            terminalreporter.write_line(line)


def pytest_configure(config: pytest.Config) -> None:
    """Make the mark known."""
    config.addinivalue_line("markers", "copied: holds a table against the page it was copied from, or another copy")


@pytest.fixture(autouse=True)
def _copied_or_worked(request: pytest.FixtureRequest) -> Iterator[None]:
    """Note for the table what sort of comparison runs."""
    token = COPYING.set(request.node.get_closest_marker("copied") is not None)
    yield
    COPYING.reset(token)
