"""How long does an edge last when it is driven harder?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation


@calculation
def tool_life_ratio(speed_ratio: float, exponent: float = 0.263) -> float:
    """How the life of an edge changes when the cutting speed changes.

    Equation:
        L = q^(-1 / n)

    Parameters:
        speed_ratio: q [1] (0.3 <= q <= 3) new speed over old speed
        exponent: n [1] (0.05 <= n <= 1) of V T^n = C: carbide about 0.25, high-speed steel about 0.125 (from memory)

    Returns:
        L [1] ratio

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Near the speed the exponent was found at; wear by other causes, built-up edge or chipping, follows other
        rules.

    Example:
        20 % faster halves the life.
        >>> round(tool_life_ratio(1.2), 2)
        0.5

    Source:
        Open lesson on cutting speed: 20 % more speed halves edge life, carbide (page read).

    Trust: estimate, one published point
    """
    return float(speed_ratio ** (-1 / exponent))


@calculation
def speed_ratio_for_life(life_ratio: float, exponent: float = 0.263) -> float:
    """How much the cutting speed must change for an edge to last longer or shorter.

    Equation:
        q = L^(-n)

    Parameters:
        life_ratio: L [1] (0.01 <= L <= 100) wanted life over present life
        exponent: n [1] (0.05 <= n <= 1) of V T^n = C

    Returns:
        q [1] ratio

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As tool_life_ratio.

    Example:
        >>> round(speed_ratio_for_life(0.5), 2)
        1.2

    Source:
        Open lesson on cutting speed: 20 % more speed halves edge life, carbide (page read).

    Trust: estimate, one published point
    """
    return float(life_ratio**-exponent)


@calculation
def life_exponent(speed_ratio: float, life_ratio: float) -> float:
    """Exponent of tool life from two speeds and their lives.

    Equation:
        n = -log(q) / log(L)

    Parameters:
        speed_ratio: q [1] (q > 0, not 1) second speed over first
        life_ratio: L [1] (L > 0, not 1) second life over first

    Returns:
        n [1] ratio

    Raises:
        OutOfRange: a value lies outside the range given above, or both lives are the same.

    Validity:
        Exact for the two points.

    Example:
        >>> round(life_exponent(1.2, 0.5), 3)
        0.263

    Source:
        V T^n = C; 20 % more speed halves edge life (page read), exponent worked out.

    Trust: exact
    """
    if life_ratio == 1:
        raise OutOfRange("life_ratio", life_ratio, "1", "two different lives")
    return -math.log(speed_ratio) / math.log(life_ratio)
