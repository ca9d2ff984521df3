"""How do a hole and a shaft fit?"""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from .iso286 import Limits, limits, make_limits

_FIT = re.compile(r"^\s*([A-Z][A-Za-z]?\s*\d{1,2})\s*[/\s-]\s*([a-z]{1,2}\s*\d{1,2})\s*$")


@dataclass(frozen=True)
class Fit:
    """A hole and a shaft put together. A clearance below nothing is an interference."""

    name: str
    nominal: float
    hole: Limits
    shaft: Limits
    clearance_max: float
    clearance_min: float
    interference_max: float
    interference_min: float
    kind: str


@calculation
def fit(size: float, name: str) -> Fit:
    """Fit of a hole and a shaft by their ISO 286 classes, with its kind found from the numbers.

    Table: iso286_deviations, iso286_grades

    Parameters:
        size: D [mm] (0 < D <= 500) nominal size
        name: [text] the two classes, hole first: H7/g6

    Returns:
        name: [text] text the fit as it is written
        nominal: D [mm] length nominal size
        hole: [Limits] result limits of the hole
        shaft: [Limits] result limits of the shaft
        clearance_max: S_max [mm] clearance largest hole less smallest shaft; below nothing it is an interference
        clearance_min: S_min [mm] clearance smallest hole less largest shaft; below nothing it is an interference
        interference_max: U_max [mm] clearance the same as clearance_min, counted the other way
        interference_min: U_min [mm] clearance the same as clearance_max, counted the other way
        kind: [text] text clearance, transition or interference

    Raises:
        OutOfRange: the size is not over 0 and up to 500 mm.
        NotInTable: the name is not a hole class and a shaft class, or the standard gives no such class there.

    Validity:
        At 20 degC, both parts at one temperature. The kind goes by the numbers, never by the letters: H7/p6 is a
        transition fit up to 3 mm. A fit that just reaches nothing at one end keeps the name of its own side.

    Example:
        >>> seat = fit(25, "H7/g6")
        >>> seat.clearance_min, seat.clearance_max, seat.kind
        (0.007, 0.041, 'clearance')

    Source:
        ISO 286-1. The example is the one printed with a published library of ISO 286 (compared as a whole in the
        tests). Names of the three kinds: from memory of ISO 286-1.

    Trust: table
    """
    found = _FIT.match(name)
    if found is None:
        raise NotInTable(name, "fit (hole class, then shaft class)", ("H7/g6", "H7/h6", "H7/p6", "H7/s6", "F8/h7"))
    return put_together(limits(size, found[1]), limits(size, found[2]))


@calculation
def fit_from_limits(hole_upper: float, hole_lower: float, shaft_upper: float, shaft_lower: float) -> Fit:
    """Fit of a hole and a shaft whose limits are given as sizes.

    Equation:
        S_max = D_u - d_l
        S_min = D_l - d_u

    Parameters:
        hole_upper: D_u [mm] (D_u > 0) largest hole
        hole_lower: D_l [mm] (D_l > 0) smallest hole
        shaft_upper: d_u [mm] (d_u > 0) largest shaft
        shaft_lower: d_l [mm] (d_l > 0) smallest shaft

    Returns:
        name: [text] text empty: this fit has no name
        nominal: D [mm] length the smallest hole
        hole: [Limits] result limits of the hole
        shaft: [Limits] result limits of the shaft
        clearance_max: S_max [mm] clearance largest hole less smallest shaft
        clearance_min: S_min [mm] clearance smallest hole less largest shaft
        interference_max: U_max [mm] clearance the same as clearance_min, counted the other way
        interference_min: U_min [mm] clearance the same as clearance_max, counted the other way
        kind: [text] text clearance, transition or interference

    Raises:
        OutOfRange: an upper limit is below its lower limit.

    Validity:
        Exact.

    Example:
        >>> running = fit_from_limits(30.02, 30.0, 29.995, 29.982)
        >>> running.clearance_max, running.clearance_min, running.kind
        (0.038, 0.005, 'clearance')

    Source:
        A published textbook of production engineering, example 9.5.

    Trust: exact
    """
    if hole_upper < hole_lower:
        raise OutOfRange("hole_upper", hole_upper, "mm", "not below hole_lower")
    if shaft_upper < shaft_lower:
        raise OutOfRange("shaft_upper", shaft_upper, "mm", "not below shaft_lower")
    hole = make_limits(hole_lower, "", "hole", hole_upper - hole_lower, 0.0)
    shaft = make_limits(hole_lower, "", "shaft", shaft_upper - hole_lower, shaft_lower - hole_lower)
    return put_together(hole, shaft)


@calculation
def fit_by_allowance(size: float, hole_tolerance: float, shaft_tolerance: float, allowance: float) -> Fit:
    """Fit on a hole that starts at the nominal size, from two tolerances and the least clearance wanted.

    Equation:
        S_min = a
        S_max = a + T_h + T_s

    Parameters:
        size: D [mm] (D > 0) nominal size, which is the smallest hole
        hole_tolerance: T_h [mm] (T_h >= 0) the hole may be larger by this
        shaft_tolerance: T_s [mm] (T_s >= 0) the shaft may be smaller by this
        allowance: a [mm] least clearance; below nothing for a press fit

    Returns:
        name: [text] text empty: this fit has no name
        nominal: D [mm] length nominal size
        hole: [Limits] result limits of the hole
        shaft: [Limits] result limits of the shaft
        clearance_max: S_max [mm] clearance largest hole less smallest shaft
        clearance_min: S_min [mm] clearance smallest hole less largest shaft
        interference_max: U_max [mm] clearance the same as clearance_min, counted the other way
        interference_min: U_min [mm] clearance the same as clearance_max, counted the other way
        kind: [text] text clearance, transition or interference

    Raises:
        OutOfRange: a tolerance is below nothing.

    Validity:
        Exact.

    Example:
        >>> loose = fit_by_allowance(75, 0.075, 0.075, 0.1)
        >>> loose.hole.upper, loose.shaft.upper, loose.shaft.lower
        (75.075, 74.9, 74.825)

    Source:
        A published textbook of production engineering, example 9.2.

    Trust: exact
    """
    hole = make_limits(size, "", "hole", hole_tolerance, 0.0)
    shaft = make_limits(size, "", "shaft", -allowance, -allowance - shaft_tolerance)
    return put_together(hole, shaft)


@calculation
def fit_by_interference(size: float, interference_min: float, interference_max: float) -> Fit:
    """Fit with a stated least and greatest interference, for working out a press fit without a class.

    Equation:
        S_max = -U_min
        S_min = -U_max

    Parameters:
        size: D [mm] (D > 0) nominal size; the hole is taken to be this size
        interference_min: U_min [mm] least interference on the diameter
        interference_max: U_max [mm] greatest interference on the diameter

    Returns:
        name: [text] text empty: this fit has no name
        nominal: D [mm] length nominal size
        hole: [Limits] result the hole, at the nominal size
        shaft: [Limits] result limits of the shaft
        clearance_max: S_max [mm] clearance least interference, counted the other way
        clearance_min: S_min [mm] clearance greatest interference, counted the other way
        interference_max: U_max [mm] clearance greatest interference
        interference_min: U_min [mm] clearance least interference
        kind: [text] text clearance, transition or interference

    Raises:
        OutOfRange: the greatest interference is below the least.

    Validity:
        Exact.

    Example:
        >>> fit_by_interference(20, 0.010, 0.020).kind
        'interference'

    Source:
        Definition: interference is the shaft less the hole before assembly (from memory of ISO 286-1).

    Trust: exact
    """
    if interference_max < interference_min:
        raise OutOfRange("interference_max", interference_max, "mm", "not below interference_min")
    hole = make_limits(size, "", "hole", 0.0, 0.0)
    return put_together(hole, make_limits(size, "", "shaft", interference_max, interference_min))


@calculation
def fit_as_measured(hole: float, shaft: float, measuring_error: float = 0.0) -> Fit:
    """Fit of two parts that are already made, from what was measured.

    Equation:
        S_max = D - d + 2 * u
        S_min = D - d - 2 * u

    Parameters:
        hole: D [mm] (D > 0) measured hole
        shaft: d [mm] (d > 0) measured shaft
        measuring_error: u [mm] (u >= 0) how far each measurement may be out, either way

    Returns:
        name: [text] text empty: this fit has no name
        nominal: D [mm] length the measured hole
        hole: [Limits] result the hole with its measuring error
        shaft: [Limits] result the shaft with its measuring error
        clearance_max: S_max [mm] clearance greatest clearance it can be
        clearance_min: S_min [mm] clearance least clearance it can be
        interference_max: U_max [mm] clearance the same as clearance_min, counted the other way
        interference_min: U_min [mm] clearance the same as clearance_max, counted the other way
        kind: [text] text clearance, transition or interference

    Raises:
        OutOfRange: a size is not above nothing.

    Validity:
        Both parts measured at one temperature.

    Example:
        >>> fit_as_measured(25.012, 25.040).interference_max
        0.028

    Source:
        Worked out here: shaft less hole, 25.040 - 25.012.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    bore = make_limits(hole, "", "hole", measuring_error, -measuring_error)
    pin = make_limits(hole, "", "shaft", shaft - hole + measuring_error, shaft - hole - measuring_error)
    return put_together(bore, pin)


def put_together(hole: Limits, shaft: Limits) -> Fit:
    """Make the fit of a hole and a shaft of the same nominal size."""
    clearance_max = round(hole.upper - shaft.lower, 9)
    clearance_min = round(hole.lower - shaft.upper, 9)
    return Fit(
        name=f"{hole.name}/{shaft.name}" if hole.name else "",
        nominal=hole.nominal,
        hole=hole,
        shaft=shaft,
        clearance_max=clearance_max,
        clearance_min=clearance_min,
        interference_max=-clearance_min + 0.0,
        interference_min=-clearance_max + 0.0,
        kind=kind_of_fit(clearance_min, clearance_max),
    )


def kind_of_fit(clearance_min: float, clearance_max: float) -> str:
    """Name a fit by its least and greatest clearance; one that just reaches nothing keeps its own side's name."""
    if clearance_min >= 0:
        return "clearance"
    return "interference" if clearance_max <= 0 else "transition"
