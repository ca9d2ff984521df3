"""How is a taper measured with rollers, balls or discs?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation


@dataclass(frozen=True)
class MeasuredTaper:
    """A taper as it was measured."""

    half_angle: float
    rate: float
    diameter: float


@calculation
def taper_over_rollers(small: float, half_angle: float, roller: float, height: float = 0.0) -> float:
    """Measurement over two equal rollers beside a plug taper that stands on its small end.

    Equation:
        b = d + 2 * h * tan(alpha)
        M = b + w * (1 + 1 / tan(pi / 4 - alpha / 2))

    Parameters:
        small: d [mm] (d > 0) diameter at the small end, sharp
        half_angle: alpha [deg] (0 <= alpha < 60) angle of the side with the axis
        roller: w [mm] (w > 0) diameter of the rollers
        height: h [mm] (h >= 0) gauge blocks under the rollers

    Returns:
        M [mm] size measurement over the rollers

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. The small end's edge is the sharp corner, as if it had no chamfer.

    Example:
        >>> round(taper_over_rollers(20, 0, 6), 6)
        32.0

    Source:
        Geometry, worked out here: a parallel plug measures its diameter and two rollers.

    Trust: exact
    """
    alpha = math.radians(half_angle)
    return small + 2 * height * math.tan(alpha) + roller * (1 + 1 / math.tan(math.pi / 4 - alpha / 2))


@calculation
def taper_from_rollers(lower: float, upper: float, height: float, roller: float) -> MeasuredTaper:
    """Half angle and small end of a plug taper from two measurements over rollers.

    Equation:
        alpha = atan((M_2 - M_1) / (2 * h))
        c = (M_2 - M_1) / h
        d = M_1 - w * (1 + 1 / tan(pi / 4 - alpha / 2))

    Parameters:
        lower: M_1 [mm] (M_1 > 0) measurement with the rollers on the plate
        upper: M_2 [mm] (M_2 > 0) measurement with the rollers on gauge blocks
        height: h [mm] (h > 0) height of the gauge blocks
        roller: w [mm] (w > 0) diameter of the rollers

    Returns:
        half_angle: alpha [deg] angle angle of the side with the axis
        rate: c [1] ratio taper on the diameter
        diameter: d [mm] size diameter at the small end, sharp

    Raises:
        OutOfRange: the upper measurement is smaller than the lower.

    Validity:
        Exact. An error of 0.01 mm in one measurement over 50 mm of blocks is 20 seconds of arc.

    Heed:
        h < w: the rollers stand closer together than their size: the angle is poorly known

    Example:
        >>> plug = taper_from_rollers(32.0, 34.0, 40, 6)
        >>> round(plug.rate, 6), round(plug.half_angle, 4)
        (0.05, 1.4321)

    Source:
        Geometry, worked out here: 1 in 20 is 1.4321 degrees.

    Trust: exact
    """
    if upper < lower:
        raise OutOfRange("upper", upper, "mm", "not below the lower measurement: stand the plug on its small end")
    alpha = math.atan((upper - lower) / (2 * height))
    small = lower - roller * (1 + 1 / math.tan(math.pi / 4 - alpha / 2))
    return MeasuredTaper(math.degrees(alpha), (upper - lower) / height, small)


@calculation
def bore_taper_from_balls(
    small_ball: float, large_ball: float, small_depth: float, large_depth: float
) -> MeasuredTaper:
    """Half angle and mouth of a taper bore from two balls let into it.

    Equation:
        r_1 = w_1 / 2
        r_2 = w_2 / 2
        alpha = asin((r_2 - r_1) / (h_1 + r_1 - h_2 - r_2))
        c = 2 * tan(alpha)
        D = 2 * (r_2 / cos(alpha) + (h_2 + r_2) * tan(alpha))

    Parameters:
        small_ball: w_1 [mm] (w_1 > 0) diameter of the smaller ball
        large_ball: w_2 [mm] (w_2 > 0) diameter of the larger ball
        small_depth: h_1 [mm] depth from the face to the top of the smaller ball
        large_depth: h_2 [mm] depth from the face to the top of the larger ball; below nothing when it stands proud

    Returns:
        half_angle: alpha [deg] angle angle of the side with the axis
        rate: c [1] ratio taper on the diameter
        diameter: D [mm] size diameter at the mouth, sharp

    Raises:
        OutOfRange: the sizes do not make a taper.

    Validity:
        Exact. The farther apart the balls sit, the better.

    Example:
        >>> bore = bore_taper_from_balls(10, 15, 47.5, 2.5)
        >>> round(bore.half_angle, 3), round(bore.diameter, 3)
        (3.372, 16.205)

    Source:
        Geometry, worked out here: centres 42.5 mm apart, radii 2.5 mm apart.

    Trust: exact
    """
    r1, r2 = small_ball / 2, large_ball / 2
    apart = small_depth + r1 - large_depth - r2
    if r2 <= r1 or apart <= r2 - r1:
        raise OutOfRange("large_depth", large_depth, "mm", "such that the larger ball sits well above the smaller one")
    alpha = math.asin((r2 - r1) / apart)
    mouth = 2 * (r2 / math.cos(alpha) + (large_depth + r2) * math.tan(alpha))
    return MeasuredTaper(math.degrees(alpha), 2 * math.tan(alpha), mouth)


@calculation
def disc_gauge_centres(small_disc: float, large_disc: float, half_angle: float) -> float:
    """Distance between two discs whose common edges make a taper.

    Equation:
        a = (D - d) / (2 * sin(alpha))

    Parameters:
        small_disc: d [mm] (d > 0) diameter of the smaller disc
        large_disc: D [mm] (D > 0) diameter of the larger disc
        half_angle: alpha [deg] (0 < alpha < 90) half the angle between the edges

    Returns:
        a [mm] size distance between the centres

    Raises:
        OutOfRange: the larger disc is not the larger, or the discs would overlap.

    Validity:
        Exact.

    Example:
        >>> round(disc_gauge_centres(1, 3, 10), 3)
        5.759

    Source:
        "Turning and Boring" (1914, public domain), disc taper gauge.

    Trust: exact
    """
    if large_disc <= small_disc:
        raise OutOfRange("large_disc", large_disc, "mm", "larger than the small disc")
    return (large_disc - small_disc) / (2 * math.sin(math.radians(half_angle)))
