"""How much metal comes off in a minute?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation


@calculation
def turning_removal_rate(depth: float, feed: float, cutting_speed: float) -> float:
    """Metal turned off in a minute.

    Equation:
        Q = a * f * v

    Parameters:
        depth: a [mm] (a > 0) depth of cut on the radius
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed

    Returns:
        Q [cm^3/min] removal_rate

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Within a few percent while the depth is small against the diameter; exact with the speed at the mean diameter.

    Example:
        0.100 in deep, 0.012 in feed, 300 ft/min: 4.32 in^3/min is 70.8 cm^3/min.
        >>> round(turning_removal_rate(2.54, 0.3048, 91.44), 1)
        70.8

    Source:
        Machining handbook's unit-power example, as quoted on a public page (page read).

    Trust: exact
    """
    return depth * feed * cutting_speed


@calculation
def milling_removal_rate(depth: float, width: float, feed_rate: float) -> float:
    """Metal milled off in a minute.

    Equation:
        Q = a_p * a_e * v_f

    Parameters:
        depth: a_p [mm] (a_p > 0) depth along the cutter's axis
        width: a_e [mm] (a_e > 0) width across the cutter
        feed_rate: v_f [mm/min] (v_f > 0) travel of the table in a minute

    Returns:
        Q [cm^3/min] removal_rate

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(milling_removal_rate(2, 80, 280), 1)
        44.8

    Source:
        Cutting-tool maker's page on face-milling power, its worked example (page read).

    Trust: exact
    """
    return depth * width * feed_rate / 1000


@calculation
def drilling_removal_rate(diameter: float, feed_rate: float, bored_before: float = 0.0) -> float:
    """Metal drilled out in a minute.

    Equation:
        Q = pi / 4 * (d^2 - d_0^2) * v_f

    Parameters:
        diameter: d [mm] (d > 0) drill diameter
        feed_rate: v_f [mm/min] (v_f > 0) travel of the drill in a minute
        bored_before: d_0 [mm] (d_0 >= 0) pilot hole, smaller than the drill

    Returns:
        Q [cm^3/min] removal_rate

    Raises:
        OutOfRange: a value lies outside the range given above, or the pilot hole is as large as the drill.

    Validity:
        Exact.

    Example:
        2.25 in drill at 0.196 in/min: 0.78 in^3/min is 12.8 cm^3/min.
        >>> round(drilling_removal_rate(57.15, 4.978), 1)
        12.8

    Source:
        Public page on material removal in drilling (page read).

    Trust: exact
    """
    if bored_before >= diameter:
        raise OutOfRange("bored_before", bored_before, "mm", f"smaller than the drill ({diameter:g} mm)")
    return math.pi / 4 * (diameter**2 - bored_before**2) * feed_rate / 1000
