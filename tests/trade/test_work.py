"""Does every calculation take as few lines as it says, whatever goes in? Counted line by line, never timed."""

from __future__ import annotations

import contextlib
import doctest
import functools
import importlib
import inspect
import itertools
import sys
from collections.abc import Iterator
from types import FrameType
from typing import Any

import pytest

from methodsheets.trade.form.calculation import LINES_AN_ITEM, MOST_LINES, USUAL_LINES, Calculation, TooMuch, catalogue

ALL = catalogue()
FACTORS = (1e-6, 1e-3, 0.1, 0.5, 2.0, 7.0, 50.0, 1e3, 1e6, 1e12, 1e60)
"""What every number of the worked example is multiplied by, in turn."""


class Counted:
    """Counts the lines that our own calculations go through; stops where they are far too many."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.lines = 0

    def __enter__(self) -> Counted:
        self.before = sys.gettrace()
        sys.settrace(self.call)
        return self

    def __exit__(self, *_: object) -> None:
        sys.settrace(self.before)

    def call(self, frame: FrameType, event: str, value: Any) -> Any:
        name = frame.f_globals.get("__name__", "")
        if name.startswith("methodsheets.trade.") or name in ("fractions", "difflib"):
            return self.line
        return None

    def line(self, frame: FrameType, event: str, value: Any) -> Any:
        self.lines += event == "line"
        if self.lines > self.most:
            raise RuntimeError(f"more than {self.most} lines")
        return self.line


def examples(entry: Calculation) -> list[dict[str, Any]]:
    """The arguments of the worked example in the docstring."""
    found: list[dict[str, Any]] = []

    @functools.wraps(entry.function)
    def recorder(*args: Any, **kwargs: Any) -> Any:
        found.append(dict(inspect.signature(entry.function).bind(*args, **kwargs).arguments))
        return entry.function(*args, **kwargs)

    module = importlib.import_module(entry.function.__module__)
    test = doctest.DocTestParser().get_doctest(
        entry.example, {**vars(module), entry.name: recorder}, entry.name, None, None
    )
    doctest.DocTestRunner().run(test, out=lambda text: None)
    return found[:1]


def variations(entry: Calculation, given: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The example, and with every argument far smaller, far larger, and a list far longer; also two at once."""
    defaults = {name: one.default for name, one in inspect.signature(entry.function).parameters.items()}
    whole = {name: given.get(name, defaults[name]) for name in defaults}
    whole = {name: value for name, value in whole.items() if value is not inspect.Parameter.empty}
    yield whole
    numbers = [name for name, value in whole.items() if isinstance(value, int | float) and not isinstance(value, bool)]
    lists = [name for name, value in whole.items() if isinstance(value, list | tuple) and value]
    for name, factor in itertools.product(numbers, FACTORS):
        yield whole | {name: type(whole[name])(whole[name] * factor)}
    for (one, other), factors in itertools.product(
        itertools.combinations(numbers[:5], 2), [(1e-3, 1e3), (1e3, 1e-3), (1e3, 1e3), (30, 30)]
    ):
        yield whole | {
            one: type(whole[one])(whole[one] * factors[0]),
            other: type(whole[other])(whole[other] * factors[1]),
        }
    for name, times in itertools.product(lists, (5, 30, 150)):
        yield whole | {name: (whole[name] * times)[:1000]}


@pytest.mark.parametrize("name", ALL)
def test_a_calculation_is_no_longer_than_it_says(name: str) -> None:
    entry = ALL[name]
    for given in examples(entry):
        entry.function(**given)  # what is read once, is read
        for said in variations(entry, given):
            allowed = said_lines(entry, said)
            refusals = contextlib.suppress(ValueError, LookupError, ArithmeticError, TypeError)
            with Counted(allowed) as counted, refusals:
                entry.function(**said)
            assert counted.lines <= allowed, (said, counted.lines)


def said_lines(entry: Calculation, said: dict[str, Any]) -> int:
    try:
        return entry.lines(said)
    except TooMuch:
        items = sum(len(value) for value in said.values() if isinstance(value, list | tuple))
        return USUAL_LINES + LINES_AN_ITEM * items  # and then it is refused when its values have been looked at


def test_what_goes_on_too_long_is_refused_before_it_begins() -> None:
    with pytest.raises(TooMuch, match="smaller numbers or fewer"):
        ALL["threading_infeeds"].function(1.0, MOST_LINES * 10)
