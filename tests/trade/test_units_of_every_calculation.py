"""Whatever unit is written into whatever parameter of whatever calculation: a value of the right size, or a problem.

The sizes of the units are exact by definition: 1 in = 25.4 mm, one turn = 2 pi rad = 360 deg, 1 degF = 5/9 K.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations, wrap
from methodsheets.formula.display import shown
from methodsheets.formula.scope import Scope
from methodsheets.formula.values import Record, Value
from methodsheets.reading.problem import MethodError
from methodsheets.trade.form.calculation import Calculation, catalogue
from methodsheets.trade.form.sheet import Parameter

from .examples import examples

ALL = catalogue()
FUNCTIONS = builtins().with_functions(from_calculations(ALL))

FOREIGN = (
    "", "mm", "in", "tpi", "1/mm", "deg", "rad", "rad/s", "deg/s", "1/s", "mm/deg", "N*m/rad", "degC", "degF", "K",
    "delta_degF", "1/degF", "%", "kg", "HB", "psi", "l/min",
)  # fmt: skip
"""Units to put where another is due: every family, and those that look alike."""

TWINS: dict[str, tuple[str, float]] = {
    "mm": ("in", 1 / 25.4), "um": ("thou", 1 / 25.4), "mm^2": ("in^2", 25.4**-2), "mm^4": ("in^4", 25.4**-4),
    "deg": ("rad", math.pi / 180), "1/min": ("rad/s", 2 * math.pi / 60), "m/min": ("ft/min", 1 / 0.3048),
    "mm/min": ("in/s", 1 / 25.4 / 60), "N": ("lbf", 1 / 4.4482216152605), "MPa": ("kN/cm^2", 0.1),
    "kW": ("W", 1000.0), "W": ("kW", 0.001), "g": ("kg", 0.001), "kg": ("g", 1000.0), "N*m": ("N*mm", 1000.0),
    "g*mm": ("kg*m", 1e-6), "delta_degC": ("K", 1.0), "1/K": ("1/degF", 5 / 9), "min": ("h", 1 / 60),
    "1": ("%", 100.0), "kg/m^3": ("g/cm^3", 0.001), "cm^3/min": ("l/min", 0.001),
    "m": ("cm", 100.0), "s": ("min", 1 / 60), "mm^3": ("cm^3", 0.001), "N/mm": ("kN/m", 1.0), "mm/m": ("%", 0.1),
    "mm/s": ("m/min", 0.06),
}  # fmt: skip
"""Unit of a parameter -> another unit for the same thing, and how many of it make one."""


def _shape_of(raw: Any) -> Calculation:
    name = type(raw).__name__
    return next(entry for entry in ALL.values() if entry.function.__annotations__["return"] == name)


def _called(entry: Calculation, arguments: dict[str, Any], changed: dict[str, str]) -> Value:
    """The value of the call, each argument as an author would write it; `changed` are written as they stand."""
    scope = Scope()
    parameters = {parameter.name: parameter for parameter in entry.parameters}
    written = {name: changed.get(name) or _written(parameters[name], v, scope) for name, v in arguments.items()}
    return value_of(f"{entry.name}({', '.join(f'{n}={w}' for n, w in written.items())})", scope, FUNCTIONS)


def _written(parameter: Parameter, value: Any, scope: Scope) -> str:
    if parameter.many:
        return "[" + ", ".join(_one(parameter, item, scope) for item in value) + "]"
    return _one(parameter, value, scope)


def _one(parameter: Parameter, value: Any, scope: Scope) -> str:
    if isinstance(value, bool | str):
        return str(value).lower() if isinstance(value, bool) else f'"{value}"'
    if not parameter.is_number:
        name = f"given_{parameter.name}"
        scope.define(name, wrap(value, _shape_of(value).results, {entry: ALL[entry].results for entry in ALL}))
        return name
    return f"({value!r}{'' if parameter.unit == '1' else f' {parameter.unit}'})"


def _value_or_problem(entry: Calculation, arguments: dict[str, Any], changed: dict[str, str]) -> str:
    """What the page would print, or what the problem says; every other exception is our fault."""
    try:
        return str(shown(_called(entry, arguments, changed)))
    except MethodError as error:
        return error.problem.what


def _numbers(value: Value) -> list[float]:
    if isinstance(value.data, Record):
        return [number for item in value.data.fields.values() for number in _numbers(item)]
    if value.is_quantity:
        return [value.magnitude]
    return [number for item in value.items if item is not value for number in _numbers(item)]


def _single(entry: Calculation, arguments: dict[str, Any]) -> list[Parameter]:
    return [p for p in entry.parameters if p.is_number and not p.many and arguments.get(p.name) is not None]


@pytest.mark.parametrize("name", ALL)
def test_a_foreign_unit_is_converted_or_refused_with_a_place(name: str) -> None:
    entry, arguments = ALL[name], examples()[name][0]
    for parameter in _single(entry, arguments):
        for unit in FOREIGN:
            written = {parameter.name: f"({arguments[parameter.name]!r} {unit})"}
            assert _value_or_problem(entry, arguments, written), f"{name}, {parameter.name} in {unit}"


@pytest.mark.parametrize("name", ALL)
def test_the_same_thing_in_another_unit_gives_the_same(name: str) -> None:
    entry, arguments = ALL[name], examples()[name][0]
    expected = _numbers(_called(entry, arguments, {}))
    for parameter in _single(entry, arguments):
        if parameter.unit not in TWINS:
            continue
        unit, factor = TWINS[parameter.unit]
        there = float(arguments[parameter.name]) * factor
        found = _numbers(_called(entry, arguments, {parameter.name: f"({there!r} {unit})"}))
        assert found == pytest.approx(expected, rel=1e-6, abs=1e-9), f"{name}, {parameter.name} in {unit}"


def test_every_unit_of_a_parameter_has_a_twin_or_stands_alone() -> None:
    used = {parameter.unit for entry in ALL.values() for parameter in entry.parameters if parameter.is_number}
    assert used - set(TWINS) <= {"HB", "degC", "money", "money/kg", "money/m"}
