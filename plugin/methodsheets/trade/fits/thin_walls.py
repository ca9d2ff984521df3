"""What does a pressure inside do to a thin wall?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import calculation


@dataclass(frozen=True)
class ThinWall:
    """Stresses in a thin tube or vessel under pressure."""

    hoop: float
    along: float


@calculation
def thin_wall_stress(pressure: float, inside: float, wall: float, seam: float = 1.0) -> ThinWall:
    """Stresses in the wall of a thin tube under pressure from within.

    Equation:
        s_h = p * d / (2 * t * e)
        s_l = p * d / (4 * t * e)

    Parameters:
        pressure: p [MPa] (p >= 0) over that outside
        inside: d [mm] (d > 0) inside diameter
        wall: t [mm] (0 < t < 0.5 * d) thickness of the wall
        seam: e [1] (0 < e <= 1) strength of the seam over that of the plate: 1 for drawn tube

    Returns:
        hoop: s_h [MPa] stress round the wall
        along: s_l [MPa] stress along it, where closed ends are held by the wall

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Walls up to a twentieth of the diameter; there the true stress at the bore is 5 % more. Not at ends, holes and
        flanges. What holds steam, gas or pressure is built, tested and inspected by the rules of its own trade.

    Heed:
        t > 0.05 * d: the wall is thicker than a twentieth of the diameter: take thick_ring_stress, which gives more

    Example:
        >>> tube = thin_wall_stress(0.6, 100, 2.5)
        >>> tube.hoop, tube.along
        (12.0, 6.0)

    Source:
        From memory: statics of a cut through the tube; the thick-walled equations (Lame) go over into it, which the
        tests show.

    Trust: exact
    """
    hoop = pressure * inside / (2 * wall * seam)
    return ThinWall(hoop, hoop / 2)
