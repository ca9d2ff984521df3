"""Prints what the validation tests compared: set METHODSHEETS_VALIDATION=1, or run `python -m tests.validation`.

Every calculation is listened to while the tests run, so that it is known which of them a published value was held
against, however the test came to call it. METHODSHEETS_CHECKS names a file for the counts.
"""

from __future__ import annotations

import functools
import json
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from methodsheets.trade.form.calculation import catalogue

from .record import CALLED, COPYING, RECORDS, checks_of, table

SWITCH = "METHODSHEETS_VALIDATION"
COUNTS = "METHODSHEETS_CHECKS"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table after the tests, when it is asked for."""
    if os.environ.get(SWITCH, "0") not in ("", "0"):
        terminalreporter.section("checked against the world")
        for line in table(tuple(RECORDS), sources=os.environ[SWITCH] != "short"):
            terminalreporter.write_line(line)
        for line in _by_calculation():
            terminalreporter.write_line(line)
    if os.environ.get(COUNTS):
        found = {"values": len(RECORDS), "calculations": checks_of(RECORDS)}
        Path(os.environ[COUNTS]).write_text(json.dumps(found), "utf-8")


def _by_calculation() -> Iterator[str]:
    counts = checks_of(RECORDS)
    two = [name for name in catalogue() if counts.get(name, 0) >= 2]
    yield f"{len(two)} of {len(catalogue())} calculations are held against two published values or more; the others say why:"
    for name, entry in catalogue().items():
        if name not in two:
            yield f"    {name} ({counts.get(name, 0)}): {entry.checked or 'NOT SAID'}"


def pytest_configure(config: pytest.Config) -> None:
    """Make the mark known, and listen to every calculation."""
    config.addinivalue_line("markers", "copied: holds a table against the page it was copied from, or another copy")
    depth = [0]
    for name, entry in catalogue().items():
        checked: Any = entry.function
        inner = checked.__closure__[checked.__code__.co_freevars.index("function")]
        if not hasattr(inner.cell_contents, "__listened__"):
            inner.cell_contents = _listening(name, inner.cell_contents, depth)


def _listening(name: str, function: Callable[..., Any], depth: list[int]) -> Callable[..., Any]:
    """The function inside a calculation, which notes that a test called it; what it calls itself does not count."""

    @functools.wraps(function)
    def listened(*args: Any, **kwargs: Any) -> Any:
        if not depth[0]:
            CALLED.add(name)
        depth[0] += 1
        try:
            return function(*args, **kwargs)
        finally:
            depth[0] -= 1

    listened.__listened__ = True  # type: ignore[attr-defined]
    return listened


@pytest.fixture(autouse=True)
def _copied_or_worked(request: pytest.FixtureRequest) -> Iterator[None]:
    """Note for the table what sort of comparison runs, and which calculations it calls."""
    token = COPYING.set(request.node.get_closest_marker("copied") is not None)
    CALLED.clear()
    yield
    CALLED.clear()
    COPYING.reset(token)
