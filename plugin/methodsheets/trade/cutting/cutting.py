"""How fast does the spindle turn, how fast does metal come off, and in how many cuts?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation

_COUNT_SLACK = 1e-9
"""A last cut thinner than this share of the depth is rounding dust, not a cut."""


@calculation
def spindle_speed(cutting_speed: float, diameter: float) -> float:
    """Spindle speed that gives a cutting speed at a diameter.

    Equation:
        n = v / (pi * d)

    Parameters:
        cutting_speed: v [m/min] (0 < v <= 3000) speed of the work's surface past the tool
        diameter: d [mm] (d > 0) largest diameter of the cut; of the cutter when the tool turns

    Returns:
        n [1/min] spindle_speed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. At a constant spindle speed the cutting speed falls to nothing at the centre when facing.

    Example:
        >>> round(spindle_speed(25, 12))
        663

    Source:
        Machine-tool dealer's tips page, 12 mm end mill at 25 m/min (page read).

    Trust: exact
    """
    return 1000 * cutting_speed / (math.pi * diameter)


@calculation
def cutting_speed(spindle_speed: float, diameter: float) -> float:
    """Cutting speed at a diameter when the spindle turns at a given speed.

    Equation:
        v = pi * d * n

    Parameters:
        spindle_speed: n [1/min] (n > 0) turns of the work, or of the cutter, in a minute
        diameter: d [mm] (d >= 0) diameter at the cut; of the cutter when the tool turns

    Returns:
        v [m/min] cutting_speed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(cutting_speed(1350, 12), 1)
        50.9

    Source:
        Cutting-tool maker's training page on drilling (page read).

    Trust: exact
    """
    return math.pi * diameter * spindle_speed / 1000


@calculation
def diameter_at_speed(cutting_speed: float, spindle_speed: float) -> float:
    """Largest diameter that may be cut at a given spindle speed without passing a cutting speed.

    Equation:
        d = v / (pi * n)

    Parameters:
        cutting_speed: v [m/min] (v > 0) speed not to be passed
        spindle_speed: n [1/min] (n > 0) speed the machine has

    Returns:
        d [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. Useful with a lathe whose slowest speed is still quick.

    Example:
        >>> round(diameter_at_speed(110, 700), 1)
        50.0

    Source:
        Cutting-tool maker's page "formula for turning", 50 mm at 700 per minute is 110 m/min (page read).

    Trust: exact
    """
    return 1000 * cutting_speed / (math.pi * spindle_speed)


@calculation
def feed_rate(feed: float, spindle_speed: float, teeth: int = 1) -> float:
    """Travel of the tool or table in a minute.

    Equation:
        v_f = f * z * n

    Parameters:
        feed: f [mm] (f > 0) travel in one turn when turning and drilling, for one tooth when milling
        spindle_speed: n [1/min] (n > 0) spindle speed
        teeth: z [1] (z >= 1, whole number) cutting teeth of the milling cutter; 1 when turning and drilling

    Returns:
        v_f [mm/min] feed_rate

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. For an arc milled inside or outside, this is the rate of the cutter's edge only when straight.

    Example:
        >>> round(feed_rate(0.065, 663, teeth=3))
        129

    Source:
        Machine-tool dealer's tips page, three-lipped 12 mm end mill (page read).

    Trust: exact
    """
    return feed * teeth * spindle_speed


@calculation
def feed_per_turn(feed_rate: float, spindle_speed: float) -> float:
    """Travel in one turn of the spindle, from travel in a minute.

    Equation:
        f = v_f / n

    Parameters:
        feed_rate: v_f [mm/min] (v_f > 0) travel in a minute
        spindle_speed: n [1/min] (n > 0) spindle speed

    Returns:
        f [mm] feed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(feed_per_turn(120, 500), 3)
        0.24

    Source:
        Cutting-tool maker's page "formula for turning" (page read).

    Trust: exact
    """
    return feed_rate / spindle_speed


@calculation
def feed_per_tooth(feed_rate: float, spindle_speed: float, teeth: int) -> float:
    """Travel for one tooth of a milling cutter, from travel in a minute.

    Equation:
        f_z = v_f / (z * n)

    Parameters:
        feed_rate: v_f [mm/min] (v_f > 0) travel of the table in a minute
        spindle_speed: n [1/min] (n > 0) spindle speed
        teeth: z [1] (z >= 1, whole number) cutting teeth

    Returns:
        f_z [mm] feed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact when every tooth cuts alike; a cutter that runs out cuts with one tooth more than with the others.

    Example:
        >>> round(feed_per_tooth(500, 500, teeth=10), 3)
        0.1

    Source:
        From memory: tool maker's face-mill formula page.

    Trust: exact
    """
    return feed_rate / (teeth * spindle_speed)


@calculation
def passes(start: float, finish: float, depth: float) -> int:
    """Number of cuts that take work from one diameter to another.

    The last cut may be thinner than the others; none is thicker than the depth.

    Equation:
        k = ceil(abs(D_1 - D_2) / (2 * a))

    Parameters:
        start: D_1 [mm] (D_1 >= 0) diameter before (boring: the smaller one)
        finish: D_2 [mm] (D_2 >= 0) diameter wanted
        depth: a [mm] (a > 0) deepest cut, on the radius

    Returns:
        k [1] count

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. To count a finishing cut too: passes(start, finish + 2 * finishing depth, depth) + 1.

    Example:
        >>> passes(40, 38, 0.4)
        3

    Source:
        Cutting-tool maker's page on turning time (page read): cuts = (D1 - D2) / (2 ap), rounded up.

    Trust: exact

    Checked: counted, and tried by brute force in `tests/trade`: no table of such cases is printed.
    """
    return _cuts(abs(start - finish) / 2, depth)


@calculation
def cuts_for_depth(total: float, depth: float) -> int:
    """Number of cuts that take off a thickness: facing, milling, sawing down a slot.

    Equation:
        k = ceil(t / a)

    Parameters:
        total: t [mm] (t >= 0) thickness to come off
        depth: a [mm] (a > 0) deepest cut

    Returns:
        k [1] count

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> cuts_for_depth(2.5, 1)
        3

    Source:
        Definition.

    Trust: exact

    Checked: counted, and tried by brute force in `tests/trade`: no table of such cases is printed.
    """
    return _cuts(total, depth)


@calculation
def even_depth(start: float, finish: float, depth: float) -> float:
    """Depth on the radius when the same number of cuts is shared out evenly.

    Equation:
        a_e = abs(D_1 - D_2) / (2 * ceil(abs(D_1 - D_2) / (2 * a)))

    Parameters:
        start: D_1 [mm] (D_1 >= 0) diameter before
        finish: D_2 [mm] (D_2 >= 0) diameter wanted, not the same
        depth: a [mm] (a > 0) deepest cut, on the radius

    Returns:
        a_e [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or both diameters are the same.

    Validity:
        Exact.

    Example:
        >>> round(even_depth(40, 38, 0.4), 4)
        0.3333

    Source:
        Definition.

    Trust: exact

    Checked: counted, and tried by brute force in `tests/trade`: no table of such cases is printed.
    """
    cuts = passes(start, finish, depth)
    if cuts == 0:  # nothing comes off, or no more than the dust of rounding
        raise OutOfRange("finish", finish, "mm", "not the diameter the work has already")
    return abs(start - finish) / 2 / cuts


def _cuts(thickness: float, depth: float) -> int:
    return math.ceil(thickness / depth - _COUNT_SLACK)
