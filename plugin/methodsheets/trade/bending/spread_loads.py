"""How far does a beam bend under a load spread along it, its own weight for one?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import calculation
from .beams import STEEL

_FACTORS: Mapping[str, tuple[float, float]] = {
    "one end held": (1 / 8, 1 / 2),
    "two ends resting": (5 / 384, 1 / 8),
    "held and resting": (1 / 184.6, 1 / 8),
    "both ends held": (1 / 384, 1 / 12),
}
"""By support: share of W L^3 / (E I) that it bends, share of W L that is the greatest bending moment."""


@dataclass(frozen=True)
class SpreadLoad:
    """How a beam bears a load spread evenly along it."""

    deflection: float
    moment: float


@calculation
def spread_load(
    load: float, length: float, second_moment: float, support: str = "two ends resting", modulus: float = STEEL
) -> SpreadLoad:
    """Greatest deflection and bending moment of a beam under a load spread evenly along its length.

    Equation:
        w = k_w * W * L ** 3 / (E * I)
        M = k_m * W * L

    Parameters:
        load: W [N] (W >= 0) the whole load; a bar's own weight is its mass times 9.81 m/s^2
        length: L [mm] (L > 0) free length
        second_moment: I [mm^4] (I > 0) second moment of area
        support: [text] (one of one end held, two ends resting, held and resting, both ends held) how it is borne
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said

    Returns:
        deflection: w [mm] clearance where it bends most
        moment: M [N*m] moment the greatest, at the held end or in the middle

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        k_w is 1/8, 5/384, 1/184.6 and 1/384, k_m is 1/2, 1/8, 1/8 and 1/12, in the order of the ways it is borne.
        Longer than about five times its depth; what holds it does not give.

    Example:
        >>> bar = spread_load(100, 1000, 8000, "two ends resting", 206000)
        >>> round(bar.deflection, 3), bar.moment
        (0.79, 12.5)

    Source:
        From memory: the usual table of beams. The factors are worked out afresh in the tests by integrating the
        bending moment.

    Trust: exact
    """
    bends, turns = _FACTORS[support.strip().lower()]
    return SpreadLoad(bends * load * length**3 / (modulus * second_moment), turns * load * length / 1000)
