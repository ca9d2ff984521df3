"""Do the printed equation and the program agree? Works the equation lines out with numbers."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from methodsheets.trade.form.calculation import Calculation
from methodsheets.trade.form.expression import worth
from methodsheets.trade.form.sheet import UNITS


@dataclass(frozen=True)
class Step:
    """One equation line with its value.

    `value` is in the result's or parameter's unit where the symbol has one; otherwise in coherent SI units
    (or in the listed units, for an equation that holds only in them) and `unit` is empty.
    """

    equation: str
    symbol: str
    value: float
    unit: str


def work_out(
    calculation: Calculation,
    arguments: Mapping[str, Any],
    result: Any = None,
    table_values: Mapping[str, tuple[float, str]] | None = None,
) -> tuple[Step, ...]:
    """Work out the equation lines for given arguments, by parameter name.

    A line that uses a symbol nobody gave (a table value, say) is left out, as is a line that is no assignment. With the
    calculation's own `result`, each line is worked out from its values, so that every line is judged by itself.
    `table_values` are further symbols, each with its unit.
    """
    scale = _stated if calculation.equation_in_stated_units else _coherent
    known = {"pi": math.pi, "e": math.e} | _from_result(calculation, result, scale)
    known |= _given(calculation, arguments, scale)
    known |= {symbol: value * scale(unit) for symbol, (value, unit) in (table_values or {}).items()}
    units = {entry.symbol: entry.unit for entry in calculation.results if entry.unit in UNITS and not entry.many}
    steps: list[Step] = []
    for line in calculation.equations:
        symbol, equals, expression = line.partition("=")
        symbol = symbol.strip()
        if not equals or not symbol.isidentifier():
            continue
        try:
            value = worth(expression, known)
        except KeyError:
            continue
        if result is None or symbol not in units:
            known[symbol] = value
        unit = units.get(symbol, "")
        steps.append(Step(line, symbol, value / (scale(unit) if unit else 1.0), unit))
    return tuple(steps)


def check_equation(
    calculation: Calculation,
    arguments: Mapping[str, Any],
    result: Any,
    relative: float = 1e-6,
    table_values: Mapping[str, tuple[float, str]] | None = None,
) -> tuple[str, ...]:
    """Compare the equation with the function's own result; return the symbols that were compared.

    `result` is a number or the result object; `table_values` are symbols that the function takes from its tables.

    Raises:
        AssertionError: they differ by more than `relative`.
    """
    by_symbol = {entry.symbol: entry for entry in calculation.results}
    compared: list[str] = []
    for step in work_out(calculation, arguments, result, table_values):
        if not step.unit:
            continue
        entry = by_symbol[step.symbol]
        actual = _field(result, entry.name)
        if not math.isclose(step.value, float(actual), rel_tol=relative, abs_tol=1e-12):
            raise AssertionError(f"{calculation.name}: {step.equation} gives {step.value}, the function {actual}")
        compared.append(step.symbol)
    return tuple(compared)


def _given(calculation: Calculation, arguments: Mapping[str, Any], scale: Callable[[str], float]) -> dict[str, float]:
    """Bring the numbers among the arguments to the units the equation is worked in."""
    given: dict[str, float] = {}
    for parameter in calculation.parameters:
        value = arguments.get(parameter.name, parameter.default)
        if parameter.is_number and not parameter.many and value is not None:
            given[parameter.symbol] = float(value) * scale(parameter.unit)
    return given


def _field(result: Any, name: str) -> Any:
    return getattr(result, name) if hasattr(result, "__dataclass_fields__") else result


def _from_result(calculation: Calculation, result: Any, scale: Callable[[str], float]) -> dict[str, float]:
    """Return the calculation's own values by their symbols."""
    if result is None:
        return {}
    found = {
        entry.symbol: (_field(result, entry.name), scale(entry.unit))
        for entry in calculation.results
        if entry.unit in UNITS and not entry.many
    }
    return {symbol: float(value) * factor for symbol, (value, factor) in found.items() if value is not None}


def _coherent(unit: str) -> float:
    return UNITS[unit]


def _stated(unit: str) -> float:
    """Numbers as listed; only angles go to radians, so that sin and cos mean what they say."""
    return UNITS["deg"] if unit == "deg" else 1.0
