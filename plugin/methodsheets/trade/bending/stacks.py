"""How do tolerances and run-outs add up?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation


@dataclass(frozen=True)
class Stack:
    """A chain of sizes added up: the gap it leaves, at worst and by statistics."""

    nominal: float
    middle: float
    worst: float
    likely: float
    worst_least: float
    worst_greatest: float
    likely_least: float
    likely_greatest: float
    note: str


@dataclass(frozen=True)
class RunOutChain:
    """Run-outs of several settings added up."""

    worst: float
    likely: float
    offset_worst: float
    offset_likely: float


@calculation
def stack(
    sizes: Sequence[float],
    upper: Sequence[float],
    lower: Sequence[float] = (),
    ways: Sequence[float] = (),
    pieces: float = 1,
) -> Stack:
    """Gap that a chain of toleranced sizes leaves, at worst and by root-sum-square.

    Sizes that make the gap larger count +1, sizes that make it smaller -1. Unequal limits are moved to their middle
    first.

    Equation:
        t = (u - l) / 2
        m = L + (u + l) / 2
        t_w = t_a + t_b + t_n
        t_r = sqrt(t_a ** 2 + t_b ** 2 + t_n ** 2)
        g = w_a * m_a + w_b * m_b + w_n * m_n
        g_1 = g - t_w
        g_2 = g + t_w
        g_3 = g - t_r
        g_4 = g + t_r

    Parameters:
        sizes: L [mm, ...] nominal sizes
        upper: u [mm, ...] upper deviation of each; plus and minus this where no lower one is said
        lower: l [mm, ...] lower deviation of each, below nothing as a rule
        ways: w [1, ...] (-1 <= w <= 1) +1 makes the gap larger, -1 smaller; all +1 where it is not said
        pieces: n [1] (n >= 1, whole number) number you make; the statistics mean nothing for one-off parts

    Returns:
        nominal: g_0 [mm] size gap by the nominal sizes
        middle: g [mm] size gap by the middles of the limits
        worst: t_w [mm] clearance plus and minus at worst: all tolerances together
        likely: t_r [mm] clearance plus and minus by root-sum-square: three standard deviations
        worst_least: g_1 [mm] size least gap at worst
        worst_greatest: g_2 [mm] size greatest gap at worst
        likely_least: g_3 [mm] size least gap by statistics
        likely_greatest: g_4 [mm] size greatest gap by statistics
        note: [text] text when only the worst case counts

    Raises:
        OutOfRange: the lists differ in length, or an upper deviation is below its lower one.

    Validity:
        The statistics want independent sizes, each in the middle of its limits with the limits at three standard
        deviations: 0.27 per cent fall outside. For a few parts made to measure, only the worst case counts.

    Example:
        >>> gap = stack([2.0, 1.5, 0.5, 4.02], [0.005, 0.003, 0.002, 0.005], ways=[-1, -1, -1, 1])
        >>> round(gap.nominal, 3), round(gap.worst, 4), round(gap.likely, 5)
        (0.02, 0.015, 0.00794)

    Source:
        A published page on tolerance stacks: three plates in a housing, 0.020, 0.015 and 0.00794 inch.

    Trust: exact
    """
    links = _links(sizes, upper, lower, ways)
    nominal = math.fsum(way * size for size, _, _, way in links)
    middle = math.fsum(way * (size + (high + low) / 2) for size, high, low, way in links)
    halves = [abs(way) * (high - low) / 2 for _, high, low, way in links]
    worst, likely = math.fsum(halves), math.sqrt(math.fsum(half**2 for half in halves))
    return Stack(
        nominal=nominal,
        middle=middle,
        worst=worst,
        likely=likely,
        worst_least=middle - worst,
        worst_greatest=middle + worst,
        likely_least=middle - likely,
        likely_greatest=middle + likely,
        note="one-off parts: only the worst case counts" if pieces < 20 else "",
    )


@calculation
def runout_chain(readings: Sequence[float]) -> RunOutChain:
    """Run-out that several settings of the work build up between its first and its last surface.

    Equation:
        M_w = M_a + M_b + M_n
        M_r = sqrt(M_a ** 2 + M_b ** 2 + M_n ** 2)
        E_w = M_w / 2
        E_r = M_r / 2

    Parameters:
        readings: M [mm, ...] (M >= 0) run-out of each setting by the dial (total reading)

    Returns:
        worst: M_w [mm] clearance run-out by the dial at worst: all one way
        likely: M_r [mm] clearance run-out by the dial by root-sum-square: directions at hazard
        offset_worst: E_w [mm] clearance distance of the two axes at worst: half the reading
        offset_likely: E_r [mm] clearance distance of the two axes, likely

    Raises:
        OutOfRange: a reading is below nothing.

    Validity:
        Surfaces cut in one setting share it and add nothing. Directions are independent.

    Example:
        >>> chain = runout_chain([0.08, 0.02])
        >>> chain.worst, round(chain.likely, 4)
        (0.1, 0.0825)

    Source:
        Worked out here: 0.08 and 0.02 mm.

    Trust: exact
    """
    worst, likely = math.fsum(readings), math.sqrt(math.fsum(reading**2 for reading in readings))
    return RunOutChain(worst, likely, worst / 2, likely / 2)


@calculation
def tolerance_share(total: float, parts: float, method: str = "worst case") -> float:
    """Tolerance each of several equal links may have so that they keep a total.

    Equation:
        t_1 = t / n

    Parameters:
        total: t [mm] (t > 0) plus and minus allowed in the end
        parts: n [1] (n >= 1, whole number) number of links
        method: [text] (one of worst case, statistical) how they add up

    Returns:
        t_1 [mm] clearance plus and minus for each link; by statistics the total over the root of the number

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        The equation is the worst case. The statistical one wants many parts, made on the middle.

    Example:
        >>> tolerance_share(0.2, 4)
        0.05

    Source:
        The sum of tolerances, turned round.

    Trust: exact
    """
    return total / (math.sqrt(parts) if method.strip().lower() == "statistical" else parts)


def _links(
    sizes: Sequence[float], upper: Sequence[float], lower: Sequence[float], ways: Sequence[float]
) -> list[tuple[float, float, float, float]]:
    """Put size, upper, lower and way of each link together."""
    for name, values in (("upper", upper), ("lower", lower), ("ways", ways)):
        if len(values) != len(sizes) and (values or name == "upper"):
            raise OutOfRange(name, len(values), "count", f"one for each of the {len(sizes)} sizes")
    lows = lower or tuple(-abs(high) for high in upper)
    links = list(zip(sizes, upper, lows, ways or (1.0,) * len(sizes), strict=True))
    for _, high, low, _ in links:
        if high < low:
            raise OutOfRange("upper", high, "mm", f"not below the lower deviation {low:g} mm")
    return links
