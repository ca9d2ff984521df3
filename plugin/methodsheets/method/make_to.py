"""To what size is a part made, once the one that it must fit has been made and measured?"""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.formula.errors import FormulaError
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.made_to_measured import hole_for_measured_shaft, shaft_for_measured_hole


@dataclass(frozen=True)
class MakeTo:
    """What to add to a size still to be measured, and the limits that hold where it comes out at its nominal."""

    measured: str
    part: str
    nominal: float
    lower: float
    upper: float
    add_low: float
    add_high: float
    name: str


def make_to(seat: Fit, measured: str, part: str = "shaft", measuring_error: float = 0.0) -> MakeTo:
    """Size of a part that is made to another one, already made and measured, so that the two have the fit.

    Equation:
        d_min = D + a_low
        d_max = D + a_high

    Parameters:
        seat: [Fit] the fit wanted
        measured: [text] name of the size that is measured: "bore", "journal"
        part: [text] (one of shaft, hole) which of the two is made now
        measuring_error: u [mm] (u >= 0) how far the measurement may be out, either way

    Returns:
        nominal: D [mm] size nominal size
        lower: d_min [mm] size least size where the other is at its nominal
        upper: d_max [mm] size greatest size where the other is at its nominal
        add_low: a_low [mm] deviation what to add to the measured size, at least
        add_high: a_high [mm] deviation what to add to the measured size, at most
        name: [text] text what is made to what

    Validity:
        The part fits its own partner and no other. Measure both at one temperature.

    Source:
        Definition of a fit (ISO 286-1).

    Trust: exact
    """
    if part not in ("shaft", "hole"):
        words = f"`part` is shaft or hole (got `{part}`)"
        raise FormulaError(words, "", 'write part="hole"', code="wrong-value", argument="part")
    work_out = shaft_for_measured_hole if part == "shaft" else hole_for_measured_shaft
    nominal = float(seat.nominal)
    found = work_out(nominal, seat, measuring_error)
    low, high = (round(size - nominal, 9) for size in (found.lower, found.upper))
    return MakeTo(
        measured=measured,
        part=part,
        nominal=nominal,
        lower=found.lower,
        upper=found.upper,
        add_low=low,
        add_high=high,
        name=f"{part} to the measured {measured}",
    )
