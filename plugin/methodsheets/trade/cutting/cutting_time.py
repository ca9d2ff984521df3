"""How long does a turning, facing or parting cut take?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation


@calculation
def travel_time(travel: float, feed_rate: float, cuts: int = 1) -> float:
    """Time for a tool or table to travel a distance at a rate, once for each cut.

    Equation:
        t = k * L / v_f

    Parameters:
        travel: L [mm] (L >= 0) distance under feed
        feed_rate: v_f [mm/min] (v_f > 0) travel in a minute
        cuts: k [1] (k >= 1, whole number) number of cuts

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the feeding part; return strokes and measuring are extra.

    Example:
        >>> travel_time(120, 240)
        0.5

    Source:
        Definition.

    Trust: exact

    Checked: a sum of lengths over a rate: nothing is printed that says more than the equation does.
    """
    return cuts * travel / feed_rate


@calculation
def turning_time(length: float, feed: float, spindle_speed: float, cuts: int = 1, clearance: float = 0.0) -> float:
    """Time to turn, bore or taper a length at a constant spindle speed.

    Equation:
        t = k * (L + c) / (f * n)

    Parameters:
        length: L [mm] (L >= 0) length along the feed
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        cuts: k [1] (k >= 1, whole number) number of cuts
        clearance: c [mm] (c >= 0) run-in and run-out together

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the cut itself; setting, measuring and running back are extra.

    Example:
        1.5 in bar, 4 in long, 225 ft/min, 0.004 in feed.
        >>> round(turning_time(101.6, 0.1016, 572.96), 3)
        1.745

    Source:
        Examination case: 573 per minute and 1.745 min (inputs read, result worked out).

    Trust: exact
    """
    return cuts * (length + clearance) / (feed * spindle_speed)


@calculation
def turning_time_at_speed(length: float, diameter: float, feed: float, cutting_speed: float, cuts: int = 1) -> float:
    """Time to turn a length when the drive holds the cutting speed.

    Equation:
        t = k * pi * d * L / (f * v)

    Parameters:
        length: L [mm] (L >= 0) length along the feed
        diameter: d [mm] (d > 0) diameter of the cut; the mean of the cuts when there are several
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed
        cuts: k [1] (k >= 1, whole number) number of cuts

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the cut itself. The spindle must be able to reach the speed.

    Example:
        >>> round(turning_time_at_speed(100, 50, 0.2, 100), 3)
        0.785

    Source:
        Cutting-tool maker's page on machining time (page read).

    Trust: exact
    """
    return cuts * math.pi * diameter * length / (feed * cutting_speed * 1000)


@calculation
def facing_time(outer: float, feed: float, spindle_speed: float, inner: float = 0.0, cuts: int = 1) -> float:
    """Time to face, groove or part between two diameters at a constant spindle speed.

    Equation:
        t = k * (D - d) / (2 * f * n)

    Parameters:
        outer: D [mm] (D > 0) outer diameter
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        inner: d [mm] (d >= 0) inner diameter; 0 to the centre
        cuts: k [1] (k >= 1, whole number) number of cuts

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above, or the inner diameter is not the smaller.

    Validity:
        Exact for the cut itself.

    Example:
        >>> round(facing_time(50, 0.1, 500), 2)
        0.5

    Source:
        Cutting-tool maker's page on machining time (page read).

    Trust: exact
    """
    _check_inner(inner, outer)
    return cuts * (outer - inner) / (2 * feed * spindle_speed)


@calculation
def facing_time_at_speed(
    outer: float, feed: float, cutting_speed: float, fastest: float, inner: float = 0.0, cuts: int = 1
) -> float:
    """Time to face, groove or part when the drive holds the cutting speed as far in as it can.

    Equation:
        d_s = max(d, min(D, v / (pi * n_m)))
        t = k * (pi * (D^2 - d_s^2) / (4 * f * v) + (d_s - d) / (2 * f * n_m))

    Parameters:
        outer: D [mm] (D > 0) outer diameter
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed held
        fastest: n_m [1/min] (n_m > 0) fastest spindle speed: inside of d_s it holds this
        inner: d [mm] (d >= 0) inner diameter; 0 to the centre
        cuts: k [1] (k >= 1, whole number) number of cuts

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above, or the inner diameter is not the smaller.

    Validity:
        Exact for a drive that follows at once.

    Example:
        Half the time at a constant spindle speed, but for the last bit at top speed.
        >>> round(facing_time_at_speed(50, 0.1, 78.54, 5000), 2)
        0.25

    Source:
        Integral of the feed along the radius; from memory: standard treatment in handbooks.

    Trust: exact
    """
    _check_inner(inner, outer)
    switch = max(inner, min(outer, 1000 * cutting_speed / (math.pi * fastest)))
    held = math.pi * (outer**2 - switch**2) / (4 * feed * cutting_speed * 1000)
    return cuts * (held + (switch - inner) / (2 * feed * fastest))


@calculation
def parting_time(
    diameter: float,
    feed: float,
    spindle_speed: float,
    bore: float = 0.0,
    slow_inside: float = 0.0,
    slow_share: float = 0.5,
) -> float:
    """Time to part off, with the feed eased near the centre.

    Equation:
        d_s = max(d, min(D, s))
        t = (D - d_s) / (2 * f * n) + (d_s - d) / (2 * f * n * q)

    Parameters:
        diameter: D [mm] (D > 0) diameter of the bar
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        bore: d [mm] (d >= 0) hole through the bar
        slow_inside: s [mm] (s >= 0) diameter inside which the feed is eased; 0 for not at all
        slow_share: q [1] (0 < q <= 1) share of the feed kept there

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above, or the bore is not smaller than the bar.

    Validity:
        Exact for the cut itself at a constant spindle speed.

    Example:
        >>> round(parting_time(20, 0.05, 400, slow_inside=5), 3)
        0.625

    Source:
        Cut-off maker's guide: feed falls to a half or a third near the centre (page read); time by definition.

    Trust: exact
    """
    _check_inner(bore, diameter)
    switch = max(bore, min(diameter, slow_inside))
    rate = 2 * feed * spindle_speed
    return (diameter - switch) / rate + (switch - bore) / (rate * slow_share)


def _check_inner(inner: float, outer: float) -> None:
    if inner >= outer:
        raise OutOfRange("inner diameter", inner, "mm", f"smaller than the outer ({outer:g} mm)")
