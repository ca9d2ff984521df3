"""What tolerance holds where the drawing gives none?"""

from __future__ import annotations

from collections.abc import Mapping

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table
from .iso286 import Limits, make_limits


@calculation
def general_tolerance(size: float, tolerance_class: str = "m") -> float:
    """General tolerance of a length: plus and minus, where the drawing gives none.

    Table: general_tolerances

    Parameters:
        size: L [mm] (0.5 <= L <= 4000) the length or diameter
        tolerance_class: [text] (one of f, m, c, v) fine, medium, coarse or very coarse

    Returns:
        t [mm] clearance plus and minus this

    Raises:
        OutOfRange: the size is outside the table; below 0.5 mm there is no general tolerance.
        NotInTable: the class has no value at that size.

    Validity:
        Lengths, diameters, steps, radii of bends; not broken edges (see general_tolerance_edge).

    Example:
        >>> general_tolerance(2.5, "c")
        0.2

    Source:
        ISO 2768-1: a published data file and a published page that agree. Pages that print 0.15 there give the
        older DIN 7168.

    Trust: table
    """
    return _look_up("linear", size, tolerance_class.strip().lower())


@calculation
def general_limits(size: float, tolerance_class: str = "m") -> Limits:
    """Limits of a length by the general tolerance, where the drawing gives none.

    Table: general_tolerances

    Parameters:
        size: L [mm] (0.5 <= L <= 4000) the length or diameter
        tolerance_class: [text] (one of f, m, c, v) fine, medium, coarse or very coarse

    Returns:
        name: [text] text ISO 2768 and the class
        part: [text] text length
        nominal: L [mm] length the length on the drawing
        upper: L_max [mm] size largest length allowed
        lower: L_min [mm] size smallest length allowed
        upper_deviation: d_u [mm] deviation plus this
        lower_deviation: d_l [mm] deviation minus this
        tolerance: T [mm] clearance the whole width
        middle: L_m [mm] size the size to aim at

    Raises:
        OutOfRange: the size is outside the table; below 0.5 mm there is no general tolerance.
        NotInTable: the class has no value at that size.

    Validity:
        As for general_tolerance.

    Example:
        >>> length = general_limits(50, "m")
        >>> length.upper, length.lower
        (50.3, 49.7)

    Source:
        ISO 2768-1: a published data file and a published page that agree.

    Trust: table
    """
    letter = tolerance_class.strip().lower()
    plus = _look_up("linear", size, letter)
    return make_limits(size, f"ISO 2768-{letter}", "length", plus, -plus)


@calculation
def general_tolerance_edge(size: float, tolerance_class: str = "m") -> float:
    """General tolerance of an outside radius or a chamfer height: plus and minus.

    Table: general_tolerances

    Parameters:
        size: r [mm] (r >= 0.5) radius or height of the chamfer
        tolerance_class: [text] (one of f, m, c, v) fine, medium, coarse or very coarse

    Returns:
        t [mm] clearance plus and minus this

    Raises:
        OutOfRange: the size is below 0.5 mm, where there is no general tolerance.

    Validity:
        Broken edges only. Above 6 mm the value stays the same.

    Example:
        >>> general_tolerance_edge(4, "m")
        0.5

    Source:
        ISO 2768-1: a published data file and a published page that agree.

    Trust: table
    """
    return _look_up("edge", size, tolerance_class.strip().lower())


@calculation
def general_tolerance_angle(shorter_leg: float, tolerance_class: str = "m") -> float:
    """General tolerance of an angle: plus and minus, by the length of its shorter leg.

    Table: general_tolerances

    Parameters:
        shorter_leg: L [mm] (L > 0) shorter side of the angle
        tolerance_class: [text] (one of f, m, c, v) fine, medium, coarse or very coarse

    Returns:
        t [deg] angle plus and minus this

    Raises:
        OutOfRange: the length is not above nothing.

    Validity:
        Angles that are not written, too, such as a right angle; not where part 2 is called up.

    Example:
        >>> round(general_tolerance_angle(40, "m") * 60)
        30

    Source:
        From memory of ISO 2768-1: 30 minutes over 10 and up to 50 mm, class m.

    Trust: table
    """
    return _look_up("angle", shorter_leg, tolerance_class.strip().lower())


@calculation
def general_tolerance_form(what: str, size: float, tolerance_class: str = "K") -> float:
    """General tolerance of form and position: the width of the zone.

    Table: general_tolerances

    Parameters:
        what: [text] (one of straightness, squareness, symmetry, runout) flatness goes as straightness
        size: L [mm] (0 < L <= 3000) length of the feature (the longer for flatness, the shorter leg for squareness)
        tolerance_class: [text] (one of h, k, l) H, K or L

    Returns:
        t [mm] clearance width of the tolerance zone

    Raises:
        OutOfRange: the size is outside the table.

    Validity:
        ISO 2768-2 was withdrawn in 2021 (from memory); many drawings still call it up as "ISO 2768-mK".

    Example:
        >>> general_tolerance_form("runout", 20, "K")
        0.2

    Source:
        From memory of ISO 2768-2.

    Trust: table

    Checked: one cell of the standard's table is known for certain beside those that the table was typed from.
    """
    return _look_up(what.strip().lower(), size, tolerance_class.strip().upper())


def _look_up(what: str, size: float, tolerance_class: str) -> float:
    """Return the value of one class at one size; a range ends with its upper size."""
    rows = [row for row in read_table("general_tolerances").rows if row["what"] == what and _covers(row, size)]
    if not rows:
        raise OutOfRange("size", size, "mm", "inside the table of ISO 2768")
    for row in rows:
        if row["class"] == tolerance_class:
            return float(take(row)["value"])
    raise NotInTable(tolerance_class, f"class for {what} at {size:g} mm", tuple(row["class"] for row in rows))


def _covers(row: Mapping[str, str], size: float) -> bool:
    over, upto = float(row["over"]), float(row["upto"] or "inf")
    # Part 1 begins with 0.5 mm itself, every other range above its first size.
    return (over < size or over == 0.5 == size) and size <= upto
