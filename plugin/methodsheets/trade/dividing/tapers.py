"""What angle, rate and set-over does a taper want?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import number, read_table


@dataclass(frozen=True)
class StandardTaper:
    """A taper by name."""

    name: str
    rate: float
    half_angle: float
    included_angle: float
    large: float | None
    small: float | None
    length: float | None
    note: str


@dataclass(frozen=True)
class SetOver:
    """How far the tailstock is moved across for a long taper."""

    exact: float
    usual: float
    half_angle: float
    share_of_length: float
    note: str


@calculation
def taper_half_angle(large: float, small: float, length: float) -> float:
    """Half angle of a taper from its end diameters: the angle of one side with the axis.

    Equation:
        alpha = atan((D - d) / (2 * l))

    Parameters:
        large: D [mm] (D > 0) diameter at the large end
        small: d [mm] (d >= 0) diameter at the small end
        length: l [mm] (l > 0) length between them

    Returns:
        alpha [deg] angle half angle: where the top slide is set

    Raises:
        OutOfRange: the large end is smaller than the small end.

    Validity:
        Exact.

    Example:
        >>> round(taper_half_angle(0.475, 0.369, 2.125), 3)
        1.429

    Source:
        Sizes of Morse 1 on a bench-tool supplier's page (0.475, 0.369 and 2.13 inch).

    Trust: exact
    """
    if small > large:
        raise OutOfRange("small", small, "mm", "not larger than the large end")
    return math.degrees(math.atan((large - small) / (2 * length)))


@calculation
def taper_rate(large: float, small: float, length: float) -> float:
    """Taper on the diameter for each unit of length: 0.05 is 1 in 20; times 12 it is inch per foot.

    Equation:
        c = (D - d) / l

    Parameters:
        large: D [mm] (D > 0) diameter at the large end
        small: d [mm] (d >= 0) diameter at the small end
        length: l [mm] (l > 0) length between them

    Returns:
        c [1] ratio taper on the diameter

    Raises:
        OutOfRange: the large end is smaller than the small end.

    Validity:
        Exact.

    Example:
        >>> round(12 * taper_rate(0.938, 0.778, 3.1875), 4)
        0.6024

    Source:
        Sizes of Morse 3 on a bench-tool supplier's page; its taper is printed as 0.6024 inch per foot.

    Trust: exact
    """
    if small > large:
        raise OutOfRange("small", small, "mm", "not larger than the large end")
    return (large - small) / length


@calculation
def half_angle_of_rate(rate: float) -> float:
    """Half angle of a taper from its rate on the diameter.

    Equation:
        alpha = atan(c / 2)

    Parameters:
        rate: c [1] (c >= 0) taper on the diameter: 1/20 for 1 in 20, inch per foot over 12

    Returns:
        alpha [deg] angle half angle

    Raises:
        OutOfRange: the rate is below nothing.

    Validity:
        Exact.

    Heed:
        c > 0.35: steeper than 7 in 24: a taper in inches to the foot is written with its unit, 0.5986 in/ft

    Example:
        >>> round(half_angle_of_rate(0.6246 / 12), 4)
        1.4908

    Source:
        Morse 0 on a bench-tool supplier's page of standard tapers.

    Trust: exact
    """
    return math.degrees(math.atan(rate / 2))


@calculation
def rate_of_angle(included_angle: float) -> float:
    """Taper on the diameter for each unit of length, from the included angle.

    Equation:
        c = 2 * tan(theta / 2)

    Parameters:
        included_angle: theta [deg] (0 <= theta < 180) angle from side to side

    Returns:
        c [1] ratio taper on the diameter

    Raises:
        OutOfRange: the angle is not below 180 degrees.

    Validity:
        Exact.

    Example:
        >>> round(rate_of_angle(10), 5)
        0.17498

    Source:
        A table of 1902 (public domain) prints 0.17498 inch per inch; its entries for 4 and 15 degrees are misprints.

    Trust: exact
    """
    return 2 * math.tan(math.radians(included_angle) / 2)


@calculation
def diameter_along_taper(large: float, rate: float, distance: float) -> float:
    """Diameter of a taper at a distance from its large end.

    Equation:
        d = D - c * l

    Parameters:
        large: D [mm] (D > 0) diameter at the large end
        rate: c [1] (c >= 0) taper on the diameter
        distance: l [mm] (l >= 0) distance from the large end

    Returns:
        d [mm] size diameter there

    Raises:
        OutOfRange: the taper has run out before that.

    Validity:
        Exact.

    Heed:
        c > 0.35: steeper than 7 in 24: a taper in inches to the foot is written with its unit, 0.5986 in/ft

    Example:
        >>> round(diameter_along_taper(12.065, 0.5986 / 12, 53.975), 3)
        9.373

    Source:
        Morse 1: 0.475 inch to 0.369 inch in 2.125 inch (a bench-tool supplier's page).

    Trust: exact
    """
    diameter = large - rate * distance
    if diameter < 0:
        raise OutOfRange("distance", distance, "mm", f"not beyond the point, {large / rate:g} mm from the large end")
    return diameter


@calculation
def taper_advance(diameter_change: float, rate: float) -> float:
    """How far a taper goes further into its socket when the diameter is changed.

    Equation:
        l = w / c

    Parameters:
        diameter_change: w [mm] (w >= 0) metal taken off the diameter
        rate: c [1] (c > 0) taper on the diameter

    Returns:
        l [mm] length it goes in by this

    Raises:
        OutOfRange: the rate is not above nothing.

    Validity:
        Exact. The other way round: a socket gauge that stands off by l wants w off the diameter.

    Heed:
        c > 0.35: steeper than 7 in 24: a taper in inches to the foot is written with its unit, 0.5986 in/ft

    Example:
        >>> round(taper_advance(0.1, 1 / 20), 6)
        2.0

    Source:
        Definition of the rate.

    Trust: exact
    """
    return diameter_change / rate


@calculation
def standard_taper(name: str) -> StandardTaper:
    """A standard taper by name: Morse, chuck, milling and collet tapers.

    Table: tapers

    Parameters:
        name: [text] Morse 2, MT2, JT33, R8, 7 in 24, ER collet, 1 in 50 ...

    Returns:
        name: [text] text name of the taper
        rate: c [1] ratio taper on the diameter; times 12 it is inch per foot
        half_angle: alpha [deg] angle angle of one side with the axis
        included_angle: theta [deg] angle angle from side to side
        large: D [mm] length diameter at the large end of the plug; nothing where unknown
        small: d [mm] length diameter at the small end of the plug; nothing where unknown
        length: l [mm] length length between them; nothing where unknown
        note: [text] text what else to know

    Raises:
        NotInTable: the table has no such taper.

    Validity:
        Rates are exact; ends are for laying out, the socket you have goes first.

    Example:
        >>> round(standard_taper("MT2").half_angle, 4)
        1.4307

    Source:
        A bench-tool supplier's page of standard tapers (0.5994 inch per foot); other rows as the table says.

    Trust: table
    """
    wanted = _plain(name)
    rows = read_table("tapers").rows
    for row in rows:
        if wanted in {_plain(word) for word in (row["name"], *row["also"].split("|"))}:
            rate = float(take(row)["per_foot"]) / 12
            half = math.degrees(math.atan(rate / 2))
            ends = (number(row["large"]), number(row["small"]), number(row["length"]))
            return StandardTaper(row["name"], rate, half, 2 * half, *ends, row["note"])
    raise NotInTable(name, "standard taper", tuple(row["name"] for row in rows))


@calculation
def top_slide_setting(half_angle: float, zero_across: bool = False) -> float:
    """Reading of the top slide's scale for a taper.

    Equation:
        b = alpha

    Parameters:
        half_angle: alpha [deg] (0 <= alpha <= 90) angle of the side with the axis
        zero_across: [flag] whether the scale reads nothing with the slide square to the bed

    Returns:
        b [deg] angle what to set on the scale

    Raises:
        OutOfRange: the angle is not between 0 and 90 degrees.

    Validity:
        The equation is for a scale that reads nothing with the slide along the bed; for the other it is 90 degrees less
        the angle. The scale is good to half a degree at best: blue the taper in its socket, or clock a known taper.

    Example:
        >>> top_slide_setting(45), top_slide_setting(1.5)
        (45, 1.5)

    Source:
        "Turning and Boring" (1914, public domain): a valve seat of 90 degrees included is set at 45, an angle of 30
        with the axis at 60 where the scale reads from the cross-slide.

    Trust: exact
    """
    return 90 - half_angle if zero_across else half_angle


@calculation
def tailstock_set_over(rate: float, total_length: float) -> SetOver:
    """How far the tailstock is set over to turn a taper between centres.

    Equation:
        alpha = atan(c / 2)
        s = L * sin(alpha)
        s_u = L * c / 2
        n = s / L

    Parameters:
        rate: c [1] (0 <= c < 1) taper on the diameter
        total_length: L [mm] (L > 0) whole length of the work between the centres, not of the taper

    Returns:
        exact: s [mm] length set-over, exact for ball-ended centres in the end faces
        usual: s_u [mm] length set-over by the usual rule
        half_angle: alpha [deg] angle half angle of the taper
        share_of_length: n [1] ratio set-over over the length
        note: [text] text a warning when it is more than centres bear

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Centres bear on the edge of the holes; above 2 per cent of the length use ball centres or the top slide
        (from memory). The two rules differ by 0.2 per cent at 3.6 degrees.

    Heed:
        c > 0.35: steeper than 7 in 24: a taper in inches to the foot is written with its unit, 0.5986 in/ft

    Example:
        >>> round(tailstock_set_over(1 / 12, 9 * 25.4).usual / 25.4, 3)
        0.375

    Source:
        "Turning and Boring" (1914, public domain): 1 inch per foot, 9 inch long, 0.375 inch.

    Trust: exact
    """
    half = math.atan(rate / 2)
    exact = total_length * math.sin(half)
    share = exact / total_length
    note = "more than plain centres bear (2 % of the length)" if share > 0.02 else ""
    return SetOver(exact, total_length * rate / 2, math.degrees(half), share, note)


def _plain(name: str) -> str:
    return "".join(name.lower().split()).replace("-", "")
