"""How is a depth divided into equal passes that are round numbers on the dial?"""

from __future__ import annotations

import math

THOU = 0.0254
METRIC = (1.0, 0.5, 0.25, 0.2, 0.1, 0.05, 0.02, 0.01)
"""mm: round amounts by which a slide is moved, the roundest first."""
INCHES = tuple(THOU * thou for thou in (50, 25, 20, 10, 5, 2, 1))
DUST = 1e-9
LEAST_LAST, MOST_LAST = 0.75, 1.75
"""A finishing cut may become so much thinner or thicker than wanted, so that the passes before it are round."""
ROUND = 0.05
"""mm: a coarse round number, for passes that are all alike."""
ABOVE = 1.03
"""A pass may be so much deeper than the deepest, so that it is round: forces are not known closer than that."""
LEAST_TAIL = 0.4
"""Share of a pass that the last of several passes has at least."""


def round_steps(graduation: float, *, inch: bool = False) -> tuple[float, ...]:
    """Round amounts that a dial of this graduation can show, mm; all of them where the graduation is not known (0)."""
    steps = INCHES if inch else METRIC
    if graduation <= 0:
        return steps
    return tuple(step for step in steps if abs(step / graduation - round(step / graduation)) < 1e-6) or (graduation,)


def round_passes(total: float, most: float, last: float, steps: tuple[float, ...]) -> list[float]:
    """Depths of the passes, which add up to the total: equal and round, and a finishing cut where one is wanted.

    Parameters:
        total: [mm] to be taken off, on the slide
        most: [mm] deepest pass
        last: [mm] wanted of the finishing cut, 0 where there is none
        steps: [mm] round amounts, the roundest first
    """
    rough = total - last
    if rough <= DUST:
        return [total]
    count = max(1, math.ceil(rough / most - 1e-6))
    even = rough / count
    coarse = [step for step in steps if step >= ROUND]
    for step in coarse if last else ():
        if found := _with_finish(total, even, count, most, last, step):
            return found
    for step in steps:
        if found := _with_tail(rough, even, count, most, step):
            return found + ([last] if last else [])
    return [even] * count + ([last] if last else [])


def _with_finish(total: float, even: float, count: int, most: float, last: float, step: float) -> list[float]:
    """Equal round passes, and a finishing cut of what is left."""
    for steps in (math.ceil(even / step - 1e-6), math.floor(even / step + 1e-6)):
        depth = steps * step
        left = total - count * depth
        if 0 < depth <= ABOVE * most and LEAST_LAST * last <= left <= MOST_LAST * last:
            return [depth] * count + [left]
    return []


def _with_tail(rough: float, even: float, count: int, most: float, step: float) -> list[float]:
    """Equal round passes, the last of them lighter."""
    depth = math.ceil(even / step - 1e-6) * step
    tail = rough - (count - 1) * depth
    if depth <= ABOVE * most and LEAST_TAIL * depth <= tail <= depth + 1e-6:
        return [depth] * (count - 1) + [tail]
    return []
