"""How are angles, radii and dovetails set out and measured?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation


@dataclass(frozen=True)
class CompoundAngle:
    """Two tilts put together."""

    angle: float
    direction: float
    turn_then_tilt: str


@calculation
def sine_bar_height(angle: float, length: float) -> float:
    """Height of the gauge blocks under one roller of a sine bar.

    Equation:
        h = L * sin(a)

    Parameters:
        angle: a [deg] (0 <= a <= 90) angle wanted
        length: L [mm] (L > 0) distance between the rollers

    Returns:
        h [mm] size height of the blocks

    Raises:
        OutOfRange: the angle is not between 0 and 90 degrees.

    Validity:
        Exact; poor above 45 degrees, where a small height is a large angle.

    Heed:
        a > 45: above 45 degrees a small error of height is a large one of angle

    Example:
        >>> round(sine_bar_height(27, 5), 2)
        2.27

    Source:
        A metrology supplier's page: 27 degrees on a 5 inch bar, 2.270 inch.

    Trust: exact
    """
    return length * math.sin(math.radians(angle))


@calculation
def sine_bar_angle(height: float, length: float) -> float:
    """Angle that gauge blocks under a sine bar give.

    Equation:
        a = asin(h / L)

    Parameters:
        height: h [mm] (h >= 0) height of the blocks
        length: L [mm] (L > 0) distance between the rollers

    Returns:
        a [deg] angle the angle

    Raises:
        OutOfRange: the blocks are higher than the bar is long.

    Validity:
        Exact; poor above 45 degrees.

    Heed:
        a > 45: above 45 degrees a small error of height is a large one of angle

    Example:
        >>> round(sine_bar_angle(2.5, 5), 6)
        30.0

    Source:
        A published article: 30 degrees on a 5 inch bar is 2.5 inch.

    Trust: exact
    """
    if height > length:
        raise OutOfRange("height", height, "mm", "not higher than the bar is long")
    return math.degrees(math.asin(height / length))


@calculation
def radius_by_chord(chord: float, height: float) -> float:
    """Radius of an arc from its chord and the height of the arc over it.

    Equation:
        R = c ** 2 / (8 * h) + h / 2

    Parameters:
        chord: c [mm] (c > 0) straight distance across
        height: h [mm] (h > 0) height of the arc over the chord

    Returns:
        R [mm] size radius

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Exact. A small height makes a poor measurement: its error counts c^2 / 8 h^2 times.

    Heed:
        h < 0.05 * c: the arc is flat against its chord: an error of the height counts many times

    Example:
        >>> radius_by_chord(8, 2)
        5.0

    Source:
        Geometry: chord 8, height 2, radius 5 (3, 4, 5 triangle).

    Trust: exact
    """
    return chord**2 / (8 * height) + height / 2


@calculation
def height_of_arc(radius: float, chord: float) -> float:
    """Height of an arc over its chord.

    Equation:
        h = R - sqrt(R ** 2 - c ** 2 / 4)

    Parameters:
        radius: R [mm] (R > 0) radius
        chord: c [mm] (c >= 0) straight distance across

    Returns:
        h [mm] size height

    Raises:
        OutOfRange: the chord is longer than the diameter.

    Validity:
        Exact; the smaller arc.

    Example:
        >>> height_of_arc(5, 8)
        2.0

    Source:
        Geometry: chord 8, height 2, radius 5 (3, 4, 5 triangle).

    Trust: exact
    """
    if chord > 2 * radius:
        raise OutOfRange("chord", chord, "mm", "not longer than the diameter")
    return radius - math.sqrt(radius**2 - chord**2 / 4)


@calculation
def radius_over_rollers(over: float, roller: float) -> float:
    """Radius of a round edge that stands on a plate, from the measurement over two equal rollers beside it.

    Equation:
        R = (M - w) ** 2 / (8 * w)

    Parameters:
        over: M [mm] (M > 0) measurement over the rollers, both on the plate and touching the edge
        roller: w [mm] (w > 0) diameter of the rollers

    Returns:
        R [mm] size radius of the edge

    Raises:
        OutOfRange: the measurement is not larger than two rollers.

    Validity:
        Exact for an edge that is round as far as the rollers touch.

    Example:
        >>> radius_over_rollers(60, 12)
        24.0

    Source:
        Geometry, worked out here: centres of circles of 24 and 6 mm radius on one plate are 2 sqrt(24 6) = 24 mm apart.

    Trust: exact
    """
    if over <= 2 * roller:
        raise OutOfRange("over", over, "mm", "larger than the two rollers")
    return (over - roller) ** 2 / (8 * roller)


@calculation
def dovetail_over_pins(width: float, angle: float, pin: float) -> float:
    """Measurement over two pins in the corners of an outside dovetail (a slide).

    Equation:
        M = b + w * (1 + 1 / tan(a / 2))

    Parameters:
        width: b [mm] (b > 0) width across the sharp inner corners, where it is narrowest
        angle: a [deg] (0 < a < 90) angle of the side with the base, often 60 or 55
        pin: w [mm] (w > 0) diameter of the pins

    Returns:
        M [mm] size measurement over the pins

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact; the pins must touch side and base, not a relief in the corner.

    Example:
        >>> round(dovetail_over_pins(30, 60, 6), 3)
        46.392

    Source:
        Handbook formula, from memory; for 60 degrees it is 2.732 pins more.

    Trust: exact
    """
    return width + pin * (1 + 1 / math.tan(math.radians(angle) / 2))


@calculation
def dovetail_between_pins(width: float, angle: float, pin: float) -> float:
    """Measurement between two pins in the corners of an inside dovetail (a way).

    Equation:
        M = b - w * (1 + 1 / tan(a / 2))

    Parameters:
        width: b [mm] (b > 0) width across the sharp inner corners, where it is widest
        angle: a [deg] (0 < a < 90) angle of the side with the base
        pin: w [mm] (w > 0) diameter of the pins

    Returns:
        M [mm] size measurement between the pins

    Raises:
        OutOfRange: the pins do not leave room between them.

    Validity:
        Exact; the pins must touch side and base.

    Example:
        >>> round(dovetail_between_pins(50, 60, 6), 3)
        33.608

    Source:
        Handbook formula, from memory; for 60 degrees it is 2.732 pins less.

    Trust: exact
    """
    between = width - pin * (1 + 1 / math.tan(math.radians(angle) / 2))
    if between <= 0:
        raise OutOfRange("pin", pin, "mm", "small enough to leave room between the pins")
    return between


@calculation
def dovetail_width(wide: float, depth: float, angle: float) -> float:
    """Narrow width of a dovetail from its wide width and its depth.

    Equation:
        b = B - 2 * h / tan(a)

    Parameters:
        wide: B [mm] (B > 0) width where it is widest, across sharp corners
        depth: h [mm] (h > 0) depth of the dovetail
        angle: a [deg] (0 < a <= 90) angle of the side with the base

    Returns:
        b [mm] size width where it is narrowest

    Raises:
        OutOfRange: the sides meet before that depth.

    Validity:
        Exact.

    Example:
        >>> round(dovetail_width(50, 10, 60), 3)
        38.453

    Source:
        Geometry, worked out here.

    Trust: exact
    """
    narrow = wide - 2 * depth / math.tan(math.radians(angle))
    if narrow <= 0:
        raise OutOfRange("depth", depth, "mm", "less than where the sides meet")
    return narrow


@calculation
def compound_angle(tilt_x: float, tilt_y: float) -> CompoundAngle:
    """True slope and its direction of a face that is tilted both ways.

    Equation:
        c = atan(sqrt(tan(a) ** 2 + tan(b) ** 2))

    Parameters:
        tilt_x: a [deg] (-89 <= a <= 89) slope seen along the y direction: rise for going along x
        tilt_y: b [deg] (-89 <= b <= 89) slope seen along the x direction: rise for going along y

    Returns:
        angle: c [deg] angle steepest slope
        direction: d [deg] angle direction of the steepest rise, anticlockwise from x
        turn_then_tilt: [text] text how to set it in a swivel vice or on a sine plate

    Raises:
        OutOfRange: a tilt is not between -89 and 89 degrees.

    Validity:
        Exact. The slopes are those seen square on in the two side views, not two turns one after the other.

    Example:
        >>> face = compound_angle(30, 30)
        >>> round(face.angle, 3), round(face.direction, 6)
        (39.232, 45.0)

    Source:
        Geometry, worked out here: tan 30 sqrt 2 = 0.8165.

    Trust: exact
    """
    x, y = math.tan(math.radians(tilt_x)), math.tan(math.radians(tilt_y))
    angle = math.degrees(math.atan(math.hypot(x, y)))
    direction = math.degrees(math.atan2(y, x)) % 360
    return CompoundAngle(angle, direction, f"turn {direction:.2f} deg about the upright, then tilt {angle:.2f} deg")
