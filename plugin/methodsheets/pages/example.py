"""What goes into the worked example of a calculation, and how does its answer move from there?"""

from __future__ import annotations

import doctest
import inspect
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from .charts import Plot, round_steps

if TYPE_CHECKING:
    from methodsheets.trade.form.calculation import Calculation

SPREAD = 2.0
"""A curve goes from the example divided by this to the example multiplied by it."""
POINTS = 33
FEWEST = 20
"""So many points of the curve must be there; a calculation that refuses more has no curve worth a picture."""


@dataclass(frozen=True)
class Worked:
    """One call of a calculation with what it gave; numbers in the units listed."""

    arguments: Mapping[str, Any]
    result: Any


def worked(one: Calculation) -> Worked | None:
    """The first call of the calculation in its own example; None where the example does not call it.

    The example is a piece of our own source, and is run as the tests run it.
    """
    calls: list[Worked] = []

    def noted(*given: Any, **named: Any) -> Any:
        result = one.function(*given, **named)
        bound = inspect.signature(one.function).bind(*given, **named)
        calls.append(Worked(dict(bound.arguments), result))
        return result

    module = inspect.getmodule(inspect.unwrap(one.function))
    names = {**vars(module), one.name: noted} if module else {one.name: noted}
    for line in doctest.DocTestParser().get_examples(one.example):
        exec(compile(line.source, one.name, "exec"), names)
        if calls:
            return calls[0]
    return None


def value_of(result: Any, name: str) -> Any:
    """One of the values that came out, by its name; a plain number, word or list is the only one."""
    plain = not name or isinstance(result, bool | int | float | str | list | tuple)
    return result if plain else getattr(result, name, None)


def answers(one: Calculation, result: Any) -> Iterator[tuple[int, Any]]:
    """The place among the results and the value of each that is no echo of what went in."""
    went_in = {given.symbol or given.name for given in one.parameters}
    for index, given in enumerate(one.results):
        if len(one.results) == 1 or (given.symbol or given.name) not in went_in:
            yield index, value_of(result, given.name)


def number_of(one: Calculation, result: Any) -> tuple[float, int] | None:
    """The first number of what came out that is no echo of what went in, with its place among the results."""
    for index, value in answers(one, result):
        if isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
            return float(value), index
    return None


def picture(one: Calculation, example: Worked | None, unit: Callable[[str], str]) -> str:
    """How the answer moves with what moves it most, as SVG text with the example marked; empty where nothing does.

    Parameters:
        one: the calculation.
        example: its worked example.
        unit: words of a unit.
    """
    found = number_of(one, example.result) if example else None
    if example is None or found is None:
        return ""
    curves: list[tuple[float, str, list[tuple[float, float]]]] = []
    for name, value in _sizes(one, example).items():
        points = _curve(one, example, name, value, found[1])
        heights = [y for _, y in points]
        if one.results[found[1]].unit == "1" and all(y == round(y) for y in heights):
            continue  # a count goes in steps, and a line through them would be false between two
        if len(points) >= FEWEST and max(heights) - min(heights) > 0.02 * max(map(abs, heights)):
            curves.append(((max(heights) - min(heights)) / max(map(abs, heights)), name, points))
    if not curves:
        return ""
    _, name, points = max(curves, key=lambda curve: curve[0])
    return _drawn(one, name, points, (float(example.arguments[name]), found[0]), found[1], unit)


def _sizes(one: Calculation, example: Worked) -> dict[str, float]:
    """What goes into the example and can be a little more or less: no words, no counts, no noughts."""
    whole = {name for name, entry in inspect.signature(one.function).parameters.items() if entry.annotation == "int"}
    sizes = {}
    for parameter in one.parameters:
        value = example.arguments.get(parameter.name)
        if isinstance(value, bool) or not isinstance(value, int | float) or not value:
            continue
        if not parameter.choices and parameter.name not in whole:
            sizes[parameter.name] = float(value)
    return sizes


def why_no_picture(one: Calculation, example: Worked | None) -> str:
    """Why there is no curve, where there is none."""
    if example is None or number_of(one, example.result) is None:
        return "No curve: what comes out is not one number."
    if not _sizes(one, example):
        return "No curve: what goes in are words, counts or lists; the answer goes from one row of a table to another."
    return "No curve: near the example the answer stays as it is, or goes in steps."


def _curve(one: Calculation, example: Worked, name: str, value: float, index: int) -> list[tuple[float, float]]:
    """The answer for values around that of the example; those that it refuses are left out."""
    points = []
    for step in range(POINTS):
        x = value / SPREAD + (value * SPREAD - value / SPREAD) * step / (POINTS - 1)
        try:
            found = number_of(one, one.function(**{**example.arguments, name: x}))
        except (ValueError, ArithmeticError, LookupError, TypeError):
            continue
        if found is not None and found[1] == index:
            points.append((x, found[0]))
    return sorted(points)


def _drawn(
    one: Calculation,
    name: str,
    points: list[tuple[float, float]],
    at: tuple[float, float],
    index: int,
    unit: Callable[[str], str],
) -> str:
    parameter, result = next(p for p in one.parameters if p.name == name), one.results[index]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    low, high = min(0.0, *ys), max(0.0, *ys)
    plot = Plot(440, 230, (min(xs), max(xs)), (low, high + 0.06 * (high - low)), right=24)
    plot.grid(round_steps(*plot.x), round_steps(*plot.y, 4), _plain, _plain)
    across = _axis(name, unit(parameter.unit))
    up = _axis(result.name if result.name and len(one.results) > 1 else one.name, unit(result.unit))
    plot.axes(across, up)
    plot.line([plot.at(x, y) for x, y in points], width=2.4)
    plot.line([plot.at(at[0], plot.y[0]), plot.at(*at), plot.at(plot.x[0], at[1])], width=0.9, dash="4 3")
    plot.dot(*at, filled=True)
    return plot.svg(f"{up} against {across}; the worked example is marked")


def _axis(name: str, unit: str) -> str:
    """What a scale is, with its unit."""
    return " ".join(filter(None, (name.replace("_", " "), f"({unit})" if unit and unit != "number" else "")))


def _plain(value: float) -> str:
    return f"{value:g}"
