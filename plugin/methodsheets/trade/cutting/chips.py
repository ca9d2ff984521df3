"""How thick is the chip, and what feed makes it right?"""

from __future__ import annotations

import math

from ..form.calculation import OutOfRange, calculation


@calculation
def engagement_angle(width: float, diameter: float) -> float:
    """Angle over which a tooth is in the metal when the cutter works with its side.

    Equation:
        phi = acos(1 - 2 * a_e / D)

    Parameters:
        width: a_e [mm] (a_e > 0) width of the cut across the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        phi [deg] angle

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Exact for a cut at the cutter's side; a cut set over the middle has 2 asin(a_e / D).

    Example:
        0.05 in wide with a 0.5 in cutter.
        >>> round(engagement_angle(1.27, 12.7), 2)
        36.87

    Source:
        Public page on radial chip thinning (page read).

    Trust: exact
    """
    _check_width(width, diameter)
    return math.degrees(math.acos(1 - 2 * width / diameter))


@calculation
def thickest_chip(feed: float, width: float, diameter: float) -> float:
    """Thickest chip a side-milling tooth cuts.

    Equation:
        x = min(a_e / D, 1/2)
        h = 2 * f_z * sqrt(x * (1 - x))

    Parameters:
        feed: f_z [mm] (f_z > 0) feed for one tooth
        width: a_e [mm] (a_e > 0) width of the cut across the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        h [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Exact while the feed is small against the cutter; no thinning from half the diameter on.

    Example:
        >>> round(thickest_chip(0.1, 2, 20), 3)
        0.06

    Source:
        Public page on radial chip thinning: factor 0.600 at a tenth of the diameter (page read).

    Trust: exact
    """
    _check_width(width, diameter)
    return feed * _thinning(width, diameter)


@calculation
def feed_for_chip(chip_thickness: float, width: float, diameter: float) -> float:
    """Feed for one tooth that gives a wanted thickest chip in a side cut.

    Equation:
        x = min(a_e / D, 1/2)
        f_z = h / (2 * sqrt(x * (1 - x)))

    Parameters:
        chip_thickness: h [mm] (h > 0) chip wanted: what the cutter's maker calls feed for a tooth at full width
        width: a_e [mm] (a_e > 0) width of the cut across the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        f_z [mm] feed

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        As thickest_chip. The machine and the cutter's chip space set a limit of their own.

    Example:
        0.002 in wanted, 0.05 in wide, 0.5 in cutter: 0.00333 in.
        >>> round(feed_for_chip(0.0508, 1.27, 12.7) / 25.4, 5)
        0.00333

    Source:
        Public page on radial chip thinning (page read).

    Trust: exact
    """
    _check_width(width, diameter)
    return chip_thickness / _thinning(width, diameter)


@calculation
def mean_chip(feed: float, width: float, diameter: float) -> float:
    """Mean thickness of the chip in a side cut.

    Equation:
        phi = acos(1 - 2 * a_e / D)
        h_m = 2 * f_z * a_e / (D * phi)

    Parameters:
        feed: f_z [mm] (f_z > 0) feed for one tooth
        width: a_e [mm] (a_e > 0) width of the cut across the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        h_m [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Exact mean over the arc in cut. The usual short form f_z sqrt(a_e / D) is a few percent to 10 % greater.

    Example:
        >>> round(mean_chip(0.1, 5, 20), 4)
        0.0477

    Source:
        Integral over the arc; the tool maker's short form gives 0.05 for the same cut (formula read).

    Trust: exact
    """
    _check_width(width, diameter)
    angle = math.acos(1 - 2 * width / diameter)
    return 2 * feed * width / (diameter * angle)


@calculation
def mean_chip_short(feed: float, width: float, diameter: float) -> float:
    """Mean thickness of the chip in a side cut, by the tool makers' short form.

    Equation:
        h_m = f_z * sqrt(a_e / D)

    Parameters:
        feed: f_z [mm] (f_z > 0) feed for one tooth
        width: a_e [mm] (a_e > 0) width of the cut across the cutter
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        h_m [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Cuts narrower than half the diameter; a few percent to 10 % greater than the true mean.

    Heed:
        a_e > 0.5 * D: wider than half the cutter: take mean_chip

    Example:
        >>> round(mean_chip_short(0.1, 5, 20), 4)
        0.05

    Source:
        Tool maker's milling formulas (formula read, result worked out).

    Trust: exact
    """
    _check_width(width, diameter)
    return feed * math.sqrt(width / diameter)


@calculation
def feed_for_lead(chip_thickness: float, approach: float) -> float:
    """Feed that gives a wanted chip when the cutting edge stands at an angle.

    Equation:
        f = h / sin(kappa)

    Parameters:
        chip_thickness: h [mm] (h > 0) chip wanted
        approach: kappa [deg] (0 < kappa <= 90) angle between edge and feed

    Returns:
        f [mm] feed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for a straight edge.

    Example:
        >>> round(feed_for_lead(0.08, 42), 2)
        0.12

    Source:
        Cutting-tool maker's page on lead angles, 0.08 mm at 42 degrees (page read).

    Trust: exact
    """
    return chip_thickness / math.sin(math.radians(approach))


@calculation
def round_insert_factor(depth: float, insert_diameter: float) -> float:
    """How much more feed a round tip allows because its chip is thin.

    Equation:
        q = 1 / sin(acos(1 - 2 * a / d))

    Parameters:
        depth: a [mm] (a > 0) depth of cut, not more than half the tip
        insert_diameter: d [mm] (d > 0) diameter of the round tip

    Returns:
        q [1] ratio

    Raises:
        OutOfRange: a value lies outside the range given above, or the cut is deeper than half the tip.

    Validity:
        Exact for the thickest chip. Published tables round it by up to 7 %.

    Example:
        12 mm tip, 0.1 in deep: the table prints 1.3.
        >>> round(round_insert_factor(2.54, 12), 2)
        1.22

    Source:
        Table for a 12 mm round tip on a public page (page read).

    Trust: exact
    """
    if depth > insert_diameter / 2:
        raise OutOfRange("depth", depth, "mm", f"not more than half the tip ({insert_diameter / 2:g} mm)")
    return 1 / math.sin(math.acos(1 - 2 * depth / insert_diameter))


def _check_width(width: float, diameter: float) -> None:
    if width > diameter:
        raise OutOfRange("width", width, "mm", f"not more than the cutter ({diameter:g} mm)")


def _thinning(width: float, diameter: float) -> float:
    """Return thickest chip over feed for a tooth: 1 from half the diameter on."""
    share = min(width / diameter, 0.5)
    return 2 * math.sqrt(share * (1 - share))
