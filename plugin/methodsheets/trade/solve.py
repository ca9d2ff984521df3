"""Which input gives a wanted output?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass

from .calculation import OutOfRange

STEPS = 64
"""Stretches the range is looked at in, so that more than one answer can be found."""


@dataclass(frozen=True)
class Solution:
    """What was found.

    `value` is the smallest input that gives the wanted output, or nothing; `values` are all that were found. `monotone`
    says whether the output only rises or only falls, so that one answer is all there can be. Where there is no answer
    `nearest_input` and `nearest_output` say how near it comes and `reason` says it in words.
    """

    value: float | None
    values: tuple[float, ...]
    monotone: bool
    nearest_input: float | None
    nearest_output: float | None
    reason: str


def solve(
    function: Callable[[float], float], wanted: float, low: float, high: float, tolerance: float = 1e-10
) -> Solution:
    """Find the inputs between two bounds that give a wanted output.

    `function` takes and gives a number, in whatever units; where it refuses an input (`OutOfRange`, or a division by
    nothing) that input is passed over. `tolerance` is relative to the width of the bounds.

    Answers nearer to each other than a 64th of the range may be taken for one, or missed when the output only touches
    what is wanted between two looks.

    Raises:
        OutOfRange: the upper bound is not above the lower.

    Example:
        >>> solve(lambda depth: depth**2, 2, 0, 10).value
        1.4142135623...
    """
    if not high > low:
        raise OutOfRange("high", high, "1", f"above the lower bound {low:g}")
    looked = [(x, _try(function, x)) for x in (low + (high - low) * step / STEPS for step in range(STEPS + 1))]
    known = [(x, y) for x, y in looked if y is not None]
    if not known:
        return Solution(None, (), False, None, None, f"no input from {low:g} to {high:g} can be worked out")
    roots = _roots(function, wanted, looked, tolerance * (high - low))
    falls_or_rises = _is_monotone([y for _, y in known])
    at, nearest = min(known, key=lambda pair: abs(pair[1] - wanted))
    if roots:
        more = "" if len(roots) == 1 else f"{len(roots)} inputs give it: " + ", ".join(f"{root:g}" for root in roots)
        return Solution(roots[0], roots, falls_or_rises, roots[0], wanted, more)
    return Solution(None, (), falls_or_rises, at, nearest, _why_none(known, wanted, low, high, at, nearest))


def _roots(
    function: Callable[[float], float], wanted: float, looked: list[tuple[float, float | None]], width: float
) -> tuple[float, ...]:
    """Return every input at which the output passes through what is wanted; of a level stretch its beginning."""
    roots: list[float] = []
    on_level = False
    for (x, y), (next_x, next_y) in itertools.pairwise([*looked, (math.inf, None)]):
        if y == wanted and not on_level:
            roots.append(x)
        elif y is not None and next_y is not None and (y - wanted) * (next_y - wanted) < 0:
            root = _halve(function, wanted, x, next_x, width)
            if root is not None:
                roots.append(root)
        on_level = y == wanted
    return tuple(roots)


def _halve(function: Callable[[float], float], wanted: float, low: float, high: float, width: float) -> float | None:
    """Close in on a crossing by halving; nothing where the output jumps over what is wanted."""
    at_low, at_high = function(low), function(high)
    first_gap = abs(at_high - at_low)
    while high - low > max(width, 4 * math.ulp(max(abs(low), abs(high)))):
        middle = (low + high) / 2
        at_middle = _try(function, middle)
        if at_middle is None:
            return None
        if at_middle == wanted:
            return middle
        if (at_middle - wanted) * (at_low - wanted) < 0:
            high, at_high = middle, at_middle
        else:
            low, at_low = middle, at_middle
    # Across a jump the two sides stay as far apart as they were; across a crossing they have closed up.
    if abs(at_high - at_low) > 1e-3 * first_gap:
        return None
    return low + (wanted - at_low) / (at_high - at_low) * (high - low)


def _try(function: Callable[[float], float], value: float) -> float | None:
    """Return the output for an input, or nothing where the calculation refuses it."""
    try:
        found = float(function(value))
    except (OutOfRange, ArithmeticError):
        return None
    return found if math.isfinite(found) else None


def _is_monotone(outputs: list[float]) -> bool:
    steps = [after - before for before, after in itertools.pairwise(outputs)]
    return all(step >= 0 for step in steps) or all(step <= 0 for step in steps)


def _why_none(
    known: list[tuple[float, float]], wanted: float, low: float, high: float, at: float, nearest: float
) -> str:
    """Say why there is no answer, and how near it comes."""
    least, most = min(y for _, y in known), max(y for _, y in known)
    come = f"the nearest is {nearest:g} at {at:g}"
    if wanted > most:
        return f"no input from {low:g} to {high:g} gives as much as {wanted:g}; {come}"
    if wanted < least:
        return f"no input from {low:g} to {high:g} gives as little as {wanted:g}; {come}"
    return f"the output jumps over {wanted:g} between {low:g} and {high:g}; {come}"
