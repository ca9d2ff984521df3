"""To what size is a part made when the one it must fit is already made and measured?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .fits import Fit
from .iso286 import Limits


@dataclass(frozen=True)
class MadeToMeasured:
    """The sizes between which the second part keeps the fit with a first part already made."""

    upper: float
    lower: float
    aim: float
    clearance_max: float
    clearance_min: float
    other_within_limits: bool
    note: str


@calculation
def shaft_for_measured_hole(measured: float, seat: Fit, measuring_error: float = 0.0) -> MadeToMeasured:
    """Size to turn a shaft so that it has the wanted fit with a hole that is already made.

    The hole's tolerance is spent once it is measured, so the shaft may have the whole of the fit to itself.

    Equation:
        S_max = H_max - h_min
        S_min = H_min - h_max
        d_max = D - S_min - u
        d_min = D - S_max + u
        d = D - (S_max + S_min) / 2

    Parameters:
        measured: D [mm] (D > 0) measured hole
        seat: [Fit] the fit wanted
        measuring_error: u [mm] (u >= 0) how far the measurement may be out, either way

    Returns:
        upper: d_max [mm] size largest shaft that keeps the fit
        lower: d_min [mm] size smallest shaft that keeps the fit
        aim: d [mm] size the size to aim at: the middle of the fit
        clearance_max: S_max [mm] clearance clearance with the smallest shaft; below nothing it is an interference
        clearance_min: S_min [mm] clearance clearance with the largest shaft; below nothing it is an interference
        other_within_limits: [flag] flag whether the measured hole keeps its own limits
        note: [text] text what to say beside the size

    Raises:
        OutOfRange: the measuring error is so large that no size is sure to keep the fit.

    Validity:
        H and h are the limits of the hole and the shaft of the fit. Keeps the clearance or interference of the fit,
        whether or not the hole kept its own limits; a part made so fits its own partner, not another. Measure both at
        one temperature.

    Example:
        >>> from methodsheets.trade.fits.fits import fit
        >>> to_turn = shaft_for_measured_hole(16.03, fit(16, "H7/s6"))
        >>> to_turn.lower, to_turn.upper, to_turn.other_within_limits
        (16.04, 16.069, False)

    Source:
        Definition of a fit (ISO 286-1): H7/s6 at 16 mm is +18/0 and +39/+28 um, interference 10 to 39 um.

    Trust: exact

    Checked: the definition of a fit turned round: nothing is printed that says more.
    """
    upper = measured - seat.clearance_min - measuring_error
    lower = measured - seat.clearance_max + measuring_error
    return _to_measured(upper, lower, measured, seat.hole, seat, measuring_error)


@calculation
def hole_for_measured_shaft(measured: float, seat: Fit, measuring_error: float = 0.0) -> MadeToMeasured:
    """Size to bore a hole so that it has the wanted fit with a shaft that is already made.

    Equation:
        S_max = H_max - h_min
        S_min = H_min - h_max
        D_max = d + S_max - u
        D_min = d + S_min + u
        D = d + (S_max + S_min) / 2

    Parameters:
        measured: d [mm] (d > 0) measured shaft
        seat: [Fit] the fit wanted
        measuring_error: u [mm] (u >= 0) how far the measurement may be out, either way

    Returns:
        upper: D_max [mm] size largest hole that keeps the fit
        lower: D_min [mm] size smallest hole that keeps the fit
        aim: D [mm] size the size to aim at: the middle of the fit
        clearance_max: S_max [mm] clearance clearance with the largest hole; below nothing it is an interference
        clearance_min: S_min [mm] clearance clearance with the smallest hole; below nothing it is an interference
        other_within_limits: [flag] flag whether the measured shaft keeps its own limits
        note: [text] text what to say beside the size

    Raises:
        OutOfRange: the measuring error is so large that no size is sure to keep the fit.

    Validity:
        As for the shaft: the part fits its own partner, not another.

    Example:
        >>> from methodsheets.trade.fits.fits import fit
        >>> to_bore = hole_for_measured_shaft(9.98, fit(10, "H7/g6"))
        >>> to_bore.lower, to_bore.upper
        (9.985, 10.009)

    Source:
        Definition of a fit (ISO 286-1): H7/g6 at 10 mm is +15/0 and -5/-14 um, clearance 5 to 29 um.

    Trust: exact

    Checked: the definition of a fit turned round: nothing is printed that says more.
    """
    upper = measured + seat.clearance_max - measuring_error
    lower = measured + seat.clearance_min + measuring_error
    return _to_measured(upper, lower, measured, seat.shaft, seat, measuring_error)


def _to_measured(
    upper: float, lower: float, measured: float, other: Limits, seat: Fit, measuring_error: float
) -> MadeToMeasured:
    if upper < lower:
        most = (seat.clearance_max - seat.clearance_min) / 2
        raise OutOfRange("measuring_error", measuring_error, "mm", f"at most {most:g} mm: half the width of the fit")
    within = other.lower <= measured <= other.upper
    side = "larger" if measured > other.upper else "smaller"
    note = "" if within else f"the measured {other.part} is {side} than its limits: these two parts fit only each other"
    return MadeToMeasured(
        upper=round(upper, 9),
        lower=round(lower, 9),
        aim=round((upper + lower) / 2, 9),
        clearance_max=seat.clearance_max,
        clearance_min=seat.clearance_min,
        other_within_limits=within,
        note=note,
    )
