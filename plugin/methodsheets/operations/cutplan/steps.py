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
PLAIN = 0.1
"""mm: passes of tenths, or of five thou, are set and counted without a slip; a little time is given for them."""
FOR_A_PLAIN = 8
"""One pass more in so many is taken so that all of them are plain (common practice, from memory)."""
FEW = 6
"""Fewer roughing passes than so many are never made more."""
ABOVE = 1.03
"""A pass may be so much deeper than the deepest, so that it is round: forces are not known closer than that."""
LEAST_TAIL = 0.4
"""Share of a pass that the last roughing pass has at least."""
LEAST_EXTRA = 0.15
"""The same where all others can be plain only so: a light pass before the finishing cut does no harm."""


def round_steps(graduation: float, *, inch: bool = False) -> tuple[float, ...]:
    """Round amounts that a dial of this graduation can show, mm; all of them where the graduation is not known (0)."""
    steps = INCHES if inch else METRIC
    if graduation <= 0:
        return steps
    return tuple(step for step in steps if abs(step / graduation - round(step / graduation)) < 1e-6) or (graduation,)


def round_passes(total: float, most: float, last: float, steps: tuple[float, ...], above: float = ABOVE) -> list[float]:
    """Depths of the passes, which add up to the total: equal and round, and a finishing cut where one is wanted.

    All but the last are whole graduations. Where only the smallest would divide the depth in the fewest passes, a
    pass is added if that makes them tenths.

    Parameters:
        total: [mm] to be taken off, on the slide
        most: [mm] deepest pass
        last: [mm] wanted of the finishing cut, 0 where there is none
        steps: [mm] round amounts, the roundest first
        above: how much deeper than the deepest a round pass may be; 1 where a motor sets the depth
    """
    rough = total - last
    if rough <= DUST:
        return [total]
    count = max(1, math.ceil(rough / most - 1e-6))
    deepest = above * most + 1e-6
    plain, fine = [step for step in steps if step >= PLAIN - DUST], [step for step in steps if step < PLAIN - DUST]
    if found := _divided(total, count, deepest, last, plain, steps[-1]):
        return found
    for added in range(1 + max(1, count // FOR_A_PLAIN)) if count >= FEW else ():
        if found := _divided(total, count + added, deepest, last, plain, steps[-1], tail=LEAST_EXTRA):
            return found
    if found := _divided(total, count, deepest, last, fine, steps[-1]):
        return found
    return _uneven(rough, deepest, count, last, steps[-1])


def _divided(
    total: float, count: int, deepest: float, last: float, steps: list[float], least: float, tail: float = LEAST_TAIL
) -> list[float]:
    """So many passes of one of the steps, the roundest that will do; nothing where none will."""
    even = (total - last) / count
    for step in steps if last else ():
        if step >= ROUND - DUST and (found := _with_finish(total, even, count, deepest, last, step=step)):
            return found
    for step in steps:
        if found := _with_tail(total, even, count, deepest, last, step=step, least=least, share=tail):
            return found
    return []


def _uneven(rough: float, deepest: float, count: int, last: float, least: float) -> list[float]:
    """Passes that no one round number divides: whole graduations, some of them one more; the rest is the last's."""
    units = math.floor(rough / least + 1e-6)
    rest = rough - units * least
    while count < units and _deepest_of(units, count, least, 0.0 if last else rest) > deepest:
        count += 1
    fewer, deeper = divmod(units, count)
    if not fewer or _deepest_of(units, count, least, 0.0 if last else rest) > deepest:
        return [rough / count] * count + ([last] if last else [])
    laid = [(fewer + 1) * least] * deeper + [fewer * least] * (count - deeper) + ([last] if last else [])
    return [*laid[:-1], laid[-1] + rest]


def _deepest_of(units: int, count: int, least: float, rest: float) -> float:
    """The deepest of so many passes of whole graduations; the rest goes to the last of the lighter ones."""
    fewer, deeper = divmod(units, count)
    return max((fewer + bool(deeper)) * least, fewer * least + rest)


def _with_finish(total: float, even: float, count: int, deepest: float, last: float, step: float) -> list[float]:
    """Equal round passes, and a finishing cut of what is left."""
    for steps in (math.ceil(even / step - 1e-6), math.floor(even / step + 1e-6)):
        depth = steps * step
        left = total - count * depth
        if 0 < depth <= deepest and LEAST_LAST * last <= left <= MOST_LAST * last:
            return [depth] * count + [left]
    return []


def _with_tail(
    total: float, even: float, count: int, deepest: float, last: float, step: float, least: float, share: float
) -> list[float]:
    """Equal round passes, the last roughing one lighter, in whole graduations where a finishing cut takes the rest."""
    depth = math.ceil(even / step - 1e-6) * step
    tail = total - last - (count - 1) * depth
    if last:
        tail = math.floor(tail / least + 1e-6) * least
    if depth <= deepest and max(share * depth, DUST) <= tail <= depth + 1e-6:
        return [depth] * (count - 1) + [tail] + ([total - (count - 1) * depth - tail] if last else [])
    return []
