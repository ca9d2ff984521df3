"""How long do milling, drilling, tapping and screw-cutting take?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation


@calculation
def drilling_time(travel: float, feed: float, spindle_speed: float, holes: int = 1) -> float:
    """Time to drill, ream or counterbore holes.

    Equation:
        t = k * L / (f * n)

    Parameters:
        travel: L [mm] (L >= 0) travel of the drill under feed, point and clearances in it: see drill_travel
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        holes: k [1] (k >= 1, whole number) number of holes alike

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the cut itself; withdrawing to clear chips, moving and changing drills are extra.

    Example:
        Five holes 30 mm deep, 1350 per minute, 0.2 mm: 33.3 s.
        >>> round(drilling_time(30, 0.2, 1350, holes=5) * 60, 1)
        33.3

    Source:
        Cutting-tool maker's training page on drilling (page read).

    Trust: exact
    """
    return holes * travel / (feed * spindle_speed)


@calculation
def milling_time(length: float, diameter: float, feed_rate: float, cuts: int = 1, clearance: float = 2.0) -> float:
    """Time to mill a length with the cutter run on and off completely.

    Equation:
        t = k * (L + D + 2 * c) / v_f

    Parameters:
        length: L [mm] (L >= 0) length of the work along the feed
        diameter: D [mm] (D > 0) cutter diameter
        feed_rate: v_f [mm/min] (v_f > 0) travel of the table in a minute
        cuts: k [1] (k >= 1, whole number) number of cuts
        clearance: c [mm] (c >= 0) idle travel at each end

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for full run-on and run-off. A side cut needs less: see side_milling_run_in.

    Example:
        >>> round(milling_time(100, 20, 62, cuts=2), 2)
        4.0

    Source:
        Cutting-tool maker's page on machining time (page read).

    Trust: exact

    Checked: a sum of lengths over a rate: nothing is printed that says more than the equation does.
    """
    return cuts * (length + diameter + 2 * clearance) / feed_rate


@calculation
def side_milling_run_in(width: float, diameter: float) -> float:
    """Travel from first touch until a side cut is at its full width.

    Equation:
        x = sqrt(a_e * (D - a_e))

    Parameters:
        width: a_e [mm] (a_e > 0) width of the cut, not more than the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        x [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Exact.

    Example:
        >>> side_milling_run_in(2, 20)
        6.0

    Source:
        Geometry of a circle.

    Trust: exact
    """
    if width > diameter:
        raise OutOfRange("width", width, "mm", f"not more than the cutter ({diameter:g} mm)")
    return math.sqrt(width * (diameter - width))


@calculation
def arc_milling_time(path_diameter: float, angle: float, feed_rate: float, cuts: int = 1) -> float:
    """Time to mill an arc, a ring or a round on the rotary table.

    Equation:
        t = k * alpha * d / (2 * v_f)

    Parameters:
        path_diameter: d [mm] (d > 0) diameter of the path of the cutter's centre
        angle: alpha [deg] (0 < alpha <= 360) arc swept
        feed_rate: v_f [mm/min] (v_f > 0) rate along the path
        cuts: k [1] (k >= 1, whole number) number of cuts

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(arc_milling_time(50, 360, 60), 3)
        2.618

    Source:
        Geometry of a circle.

    Trust: exact
    """
    return cuts * math.radians(angle) * path_diameter / (2 * feed_rate)


@calculation
def threading_time(length: float, pitch: float, spindle_speed: float, cuts: int, return_share: float = 0.5) -> float:
    """Time to screw-cut a thread with a single-point tool.

    Equation:
        t = k * L / (P * n) * (1 + r)

    Parameters:
        length: L [mm] (L > 0) length of thread, run-in and run-out with it
        pitch: P [mm] (P > 0) lead of the thread
        spindle_speed: n [1/min] (n > 0) spindle speed
        cuts: k [1] (k >= 1, whole number) number of cuts
        return_share: r [1] (r >= 0) time to bring the tool back, as a share of the cut: 1 with the spindle reversed at
            the same speed

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the travel; catching the thread, clearing and setting are in return_share.

    Example:
        >>> round(threading_time(20, 1, 100, cuts=10), 2)
        3.0

    Source:
        Definition.

    Trust: exact

    Checked: a sum of lengths over a rate: nothing is printed that says more than the equation does.
    """
    return cuts * length / (pitch * spindle_speed) * (1 + return_share)


@calculation
def tapping_time(depth: float, pitch: float, spindle_speed: float, reverse_ratio: float = 1.0, holes: int = 1) -> float:
    """Time to tap a hole by power and back out.

    Equation:
        t = k * L / (P * n) * (1 + 1 / q)

    Parameters:
        depth: L [mm] (L > 0) travel of the tap
        pitch: P [mm] (P > 0) pitch
        spindle_speed: n [1/min] (n > 0) spindle speed
        reverse_ratio: q [1] (q > 0) how much faster the tap comes out
        holes: k [1] (k >= 1, whole number) number of holes alike

    Returns:
        t [min] time

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the travel.

    Example:
        >>> round(tapping_time(12, 1, 120), 2)
        0.2

    Source:
        Definition.

    Trust: exact

    Checked: a sum of lengths over a rate: nothing is printed that says more than the equation does.
    """
    return holes * depth / (pitch * spindle_speed) * (1 + 1 / reverse_ratio)
