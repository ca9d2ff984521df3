"""Which input gives the wanted output? A bracketed search within stated bounds that says when there is none."""

from __future__ import annotations

import math
from collections.abc import Callable

from methodsheets.formula.errors import FormulaError
from methodsheets.reading.problem import MethodError

INTERVALS = 32
MOST_ROUNDS = 100
RELATIVE = 1e-12
REFUSALS = ("out-of-range", "no-number", "division", "too-large")
"""Where the equation has no value for these reasons, the search goes on beside that place."""


def find_root(gap: Callable[[float], float], low: float, high: float, name: str, unit: str) -> float:
    """The `x` between `low` and `high` at which `gap(x)` is nothing.

    Looks at 33 places first, then halves the interval in which the sign changes. FormulaError where the sign never
    changes, where it changes more than once (the answer would be a guess), or where it jumps.
    """
    places = [low + (high - low) * step / INTERVALS for step in range(INTERVALS + 1)]
    values = [_gap_or_none(gap, place) for place in places]
    known = [value for value in values if value is not None]
    if not known:
        gap(low)
        raise FormulaError("the equation has no value between the bounds", "", "check the bounds", code="solve")
    hits = _hits(places, values)
    if not hits:
        raise _none_there(places, values, name, unit)
    roots = [_narrow(gap, a, b, fa, max(map(abs, known))) for a, b, fa in hits]
    found = sorted({root for root in roots if root is not None})
    if not found:
        raise FormulaError(
            f"the two sides jump past each other near {_shown(hits[0][0], unit)}",
            "",
            "check the equation",
            code="solve",
        )
    if len(found) > 1:
        shown = " and ".join(_shown(root, unit) for root in found[:4])
        raise FormulaError(
            f"more than one value of `{name}` fits (got {shown})",
            "the bounds hold one of them",
            "narrow the bounds",
            code="solve",
        )
    return found[0]


def _gap_or_none(gap: Callable[[float], float], place: float) -> float | None:
    try:
        value = gap(place)
    except MethodError as error:
        if error.problem.code in REFUSALS:
            return None
        raise
    return value if math.isfinite(value) else None


def _hits(places: list[float], values: list[float | None]) -> list[tuple[float, float, float]]:
    """Intervals in which the sign changes, with the value at their lower end; a hit on a place is one of no width."""
    hits = []
    for index, value in enumerate(values):
        if value == 0:
            hits.append((places[index], places[index], 0.0))
        following = values[index + 1] if index + 1 < len(values) else None
        if value is not None and following is not None and value * following < 0:
            hits.append((places[index], places[index + 1], value))
    return hits


def _narrow(gap: Callable[[float], float], a: float, b: float, at_a: float, scale: float) -> float | None:
    """Bisection with secant steps; None where the sign changes by a jump and not through nothing."""
    at_b = gap(b) if a != b else at_a
    for round_ in range(MOST_ROUNDS):
        if a == b or abs(b - a) <= RELATIVE * max(abs(a), abs(b)):
            break
        middle = (a + b) / 2
        if round_ % 3 and at_a != at_b:
            secant = a - at_a * (b - a) / (at_b - at_a)
            middle = min(max(secant, a + 0.01 * (b - a)), b - 0.01 * (b - a))
        value = _gap_or_none(gap, middle)
        if value is None:
            return None
        if value == 0:
            return middle
        if value * at_a < 0:
            b, at_b = middle, value
        else:
            a, at_a = middle, value
    best, left = (a, abs(at_a)) if abs(at_a) <= abs(at_b) else (b, abs(at_b))
    return best if left <= 1e-6 * scale else None


def _none_there(places: list[float], values: list[float | None], name: str, unit: str) -> FormulaError:
    known = [(abs(value), place) for place, value in zip(places, values, strict=True) if value is not None]
    _, nearest = min(known)
    return FormulaError(
        f"no value of `{name}` fits between {_shown(places[0], unit)} and {_shown(places[-1], unit)}",
        f"the two sides come nearest at {_shown(nearest, unit)}",
        "widen the bounds or check the equation",
        code="solve",
    )


def _shown(number: float, unit: str) -> str:
    return f"{number:.5g}" + ("" if unit == "1" else f" {unit}")
