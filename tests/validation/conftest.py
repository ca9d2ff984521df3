"""Prints what the validation tests compared: set METHODSHEETS_VALIDATION=1, or run `python -m tests.validation`."""

from __future__ import annotations

import os

import pytest

from .record import RECORDS, table

SWITCH = "METHODSHEETS_VALIDATION"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table after the tests, when it is asked for."""
    if os.environ.get(SWITCH, "0") not in ("", "0"):
        terminalreporter.section("checked against the world")
        for line in table(tuple(RECORDS), sources=os.environ[SWITCH] != "short"):
            terminalreporter.write_line(line)
