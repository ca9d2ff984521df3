"""Is every range that a docstring states held to, for every calculation, and is every thing to heed said?

The ranges are the docstrings' own; what lies outside the published ground of a calculation is refused or noted.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Any

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.functions import Called
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.working import line_working
from methodsheets.reading.problem import MethodError
from methodsheets.trade.form.calculation import Calculation, OutOfRange, catalogue
from methodsheets.trade.form.expression import names_of
from methodsheets.trade.form.ranges import Bound, read_range
from methodsheets.trade.form.sheet import UNITS, Heed, Parameter
from methodsheets.trade.threads.drills import drill, drills_of

from .examples import examples

ALL = catalogue()
FUNCTIONS = builtins().with_functions(from_calculations(ALL))
COUNTED = frozenset(
    """holes counts gears circles divisions ends sides long_every middle_every pieces parts places apart circle planes runs
    cuts teeth most_gears dial_teeth dial_marks""".split()  # noqa: SIM905
)
"""Names of what is counted: there is no half of one."""


def _put(entry: Calculation, arguments: dict[str, Any], parameter: Parameter, value: float) -> dict[str, Any]:
    return {**arguments, parameter.name: (value,) if parameter.many else value}


def _outside(parameter: Parameter, known: dict[str, float]) -> Iterator[float]:
    """Values just outside what the docstring allows."""
    span = parameter.range
    low, high = (bound.value(known) if bound else None for bound in (span.low, span.high))
    if low is not None:
        yield low - max(abs(low), 1.0) * 1e-3
        if span.low is not None and span.low.is_open:
            yield low
    if high is not None:
        yield high + max(abs(high), 1.0) * 1e-3
        if span.high is not None and span.high.is_open:
            yield high
    if span.whole:
        yield (low or 1) + 0.5
    if span.never is not None:
        yield span.never


def _by_symbol(entry: Calculation, arguments: dict[str, Any], parameter: Parameter) -> dict[str, float]:
    given = {p: arguments.get(p.name, p.default) for p in entry.parameters}
    return {
        p.symbol: value * UNITS[p.unit] / UNITS[parameter.unit]
        for p, value in given.items()
        if p.is_number and not p.many and isinstance(value, int | float)
    }


@pytest.mark.parametrize("name", ALL)
def test_a_value_outside_its_range_is_refused(name: str) -> None:
    entry, arguments = ALL[name], examples()[name][0]
    for parameter in entry.parameters:
        if not parameter.is_number:
            continue
        for value in _outside(parameter, _by_symbol(entry, arguments, parameter)):
            with pytest.raises(OutOfRange) as caught:
                entry.function(**_put(entry, arguments, parameter, value))
            assert caught.value.parameter == parameter.name, f"{name}: {value} of {parameter.name}"


@pytest.mark.parametrize("name", ALL)
def test_what_is_counted_is_whole(name: str) -> None:
    for parameter in ALL[name].parameters:
        if parameter.unit == "1" and parameter.name in COUNTED:
            assert parameter.range.whole, f"{name}: {parameter.name} counts something"


@pytest.mark.parametrize("name", ALL)
def test_a_bound_speaks_of_another_parameter_and_a_heed_of_parameters_and_results(name: str) -> None:
    entry = ALL[name]
    given = {p.symbol for p in entry.parameters if p.is_number and not p.many}
    worked = {r.symbol for r in entry.results if r.unit in UNITS and not r.many}
    for parameter in entry.parameters:
        assert set(parameter.range.symbols) <= given - {parameter.symbol}
    for heed in entry.sheet.heeds:
        assert names_of(heed.condition) <= given | worked, heed


HEEDS = [(name, heed) for name, entry in ALL.items() for heed in entry.sheet.heeds]


FACTORS = (1.5, 3, 10, 30, 100, 0.97, 0.94, 0.9, 0.5, 0.2, 0.05, 0.01, 0.001)


def _notes(entry: Calculation, arguments: dict[str, Any]) -> tuple[str, ...]:
    try:
        return entry.notes(arguments, entry.function(**arguments))
    except OutOfRange:
        return ()


@pytest.mark.parametrize(("name", "heed"), HEEDS, ids=[f"{name}: {heed.condition}" for name, heed in HEEDS])
def test_what_is_to_be_heeded_is_said_when_it_is_so_and_not_before(name: str, heed: Heed) -> None:
    entry, arguments = ALL[name], examples()[name][0]
    assert heed.text not in entry.notes(arguments, entry.function(**arguments)), "the example lies inside"
    given = {p.name: arguments.get(p.name, p.default) for p in entry.parameters if p.is_number and not p.many}
    numbers = [parameter for parameter, value in given.items() if isinstance(value, float | int) and value]
    for moved in itertools.product(numbers, FACTORS, numbers, (1, 0.1, 3)):
        outside = {**arguments, moved[2]: given[moved[2]] * moved[3]}
        outside[moved[0]] = given[moved[0]] * moved[1]
        if heed.text in _notes(entry, outside):
            return
    pytest.fail(f"no number brings out {heed.condition}")


def test_what_is_to_be_heeded_stands_in_the_working() -> None:
    calls: list[Called] = []
    node = parse("turned_roughness(1.2 mm, 0.4 mm)")
    from methodsheets.formula.evaluate import evaluate

    value = evaluate(node, Scope(), FUNCTIONS, calls=calls)
    working = line_working("", "", node, value, Scope(), calls)
    assert working.steps[0].heed == ("The feed is greater than the nose radius: the straight edges cut too.",)


@pytest.mark.parametrize(
    "expression",
    [
        'drill("13/65")', 'drill("99 mm")', 'drill("0.201")', 'drill("3 7/64")', 'drill("5.237 mm")', 'drill("0.2075 in")',
        'thread_engagement("M6", 2 mm)', "life_exponent(1, 0.5)", "life_exponent(0.9, 1)",
        "change_gears(1 mm, 3 mm, [20, 30.5, 40])", "divide(7.5)", 'thread_limits("M1", "6H")',
        'press_fit(fit_by_interference(50 mm, 4.9 mm, 5 mm), 30 mm, 80 mm, hub_material="EN3B")',
        'interface_pressure(5 mm, 50 mm, 80 mm, 206 GPa, 0.3, 206 GPa, 0.3)', "pin_shear(1 kN, 5 mm, planes=1.5)",
    ],
)  # fmt: skip
def test_what_does_not_exist_is_refused_with_a_place(expression: str) -> None:
    with pytest.raises(MethodError) as caught:
        value_of(expression, Scope(), FUNCTIONS)
    assert caught.value.problem.place.column >= 1


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("0.201 in", "No. 7"),
        ("5.2", "5.2 mm"),
        ("13/64", "13/64"),
        ("#7", "No. 7"),
        ("1 1/8 in", "1 1/8"),
        ("2 in", "2 in"),
    ],
)
def test_drills_that_do_exist(written: str, name: str) -> None:
    assert drill(written).name == name


def test_every_drill_of_every_system_has_its_name() -> None:
    for entry in drills_of("all"):
        assert math.isclose(drill(entry.name).diameter, entry.diameter, abs_tol=1e-9), entry


@pytest.mark.parametrize(
    ("rule", "inside", "outside"),
    [
        ("0 < d <= 2 * D", (0.1, 20.0), (0.0, 20.1)), ("d < D", (9.9, -5.0), (10.0,)), ("z >= 8, whole number", (8, 9.0), (7, 8.5)),
        ("q > 0, not 1", (0.9, 1.1), (1.0, 0.0)), ("-pi <= a < pi", (-math.pi, 3.0), (math.pi,)),
    ],
)  # fmt: skip
def test_ranges_are_read(rule: str, inside: tuple[float, ...], outside: tuple[float, ...]) -> None:
    span = read_range(rule)
    assert span is not None
    assert all(span.holds(value, {"D": 10.0}) for value in inside)
    assert not any(span.holds(value, {"D": 10.0}) for value in outside)


def test_a_bound_that_was_not_given_does_not_bind() -> None:
    assert Bound(2.0, "D").value({}) is None
    assert read_range("somewhere") is None
    assert read_range("d > 0, sometimes") is None
