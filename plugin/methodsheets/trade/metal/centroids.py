"""Where is the middle of a sector, a segment or a built-up section?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation


@dataclass(frozen=True)
class Area:
    """An area and the distance of its middle from the centre of its circle."""

    area: float
    centroid: float


@dataclass(frozen=True)
class Middle:
    """An area put together and its middle."""

    area: float
    x: float
    y: float


@calculation
def sector(radius: float, half_angle: float, inner_radius: float = 0.0) -> Area:
    """Area and middle of a sector of a disc, or of a ring.

    Equation:
        A = a * (R ** 2 - r ** 2)
        x = 2 * sin(a) * (R ** 3 - r ** 3) / (3 * a * (R ** 2 - r ** 2))

    Parameters:
        radius: R [mm] (R > 0) outer radius
        half_angle: a [deg] (0 < a <= 180) half the angle of the sector
        inner_radius: r [mm] (r >= 0) inner radius; nothing for a whole sector

    Returns:
        area: A [mm^2] area area
        centroid: x [mm] length distance of its middle from the centre

    Raises:
        OutOfRange: the inner radius is not smaller than the outer.

    Validity:
        Exact.

    Example:
        >>> web = sector(30, 45)
        >>> round(web.area, 3), round(web.centroid, 4)
        (706.858, 18.0063)

    Source:
        Handbook formula, from memory; checked by numerical integration.

    Trust: exact
    """
    if inner_radius >= radius:
        raise OutOfRange("inner_radius", inner_radius, "mm", "smaller than the outer radius")
    a = math.radians(half_angle)
    area = a * (radius**2 - inner_radius**2)
    return Area(area, 2 * math.sin(a) * (radius**3 - inner_radius**3) / (3 * area))


@calculation
def segment(radius: float, half_angle: float) -> Area:
    """Area and middle of a segment: what is left of a disc on one side of a chord.

    Equation:
        A = R ** 2 * (2 * a - sin(2 * a)) / 2
        x = 4 * R * sin(a) ** 3 / (3 * (2 * a - sin(2 * a)))

    Parameters:
        radius: R [mm] (R > 0) radius
        half_angle: a [deg] (0 < a <= 180) half the angle of the arc

    Returns:
        area: A [mm^2] area area
        centroid: x [mm] length distance of its middle from the centre of the circle

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> flat = segment(30, 60)
        >>> round(flat.area, 3), round(flat.centroid, 4)
        (552.766, 21.1506)

    Source:
        Handbook formula, from memory; checked by numerical integration.

    Trust: exact
    """
    a = math.radians(half_angle)
    swept = 2 * a - math.sin(2 * a)
    return Area(radius**2 * swept / 2, 4 * radius * math.sin(a) ** 3 / (3 * swept))


@calculation
def segment_height(radius: float, half_angle: float) -> float:
    """Height of a segment: how deep a flat is cut for a half angle.

    Equation:
        h = R * (1 - cos(a))

    Parameters:
        radius: R [mm] (R > 0) radius
        half_angle: a [deg] (0 <= a <= 180) half the angle of the arc

    Returns:
        h [mm] length height of the segment

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(segment_height(30, 60), 6)
        15.0

    Source:
        Geometry: the cosine of 60 degrees is a half.

    Trust: exact
    """
    return radius * (1 - math.cos(math.radians(half_angle)))


@calculation
def built_up_area(areas: Sequence[float], x: Sequence[float], y: Sequence[float] = ()) -> Middle:
    """Middle of an area put together from pieces; holes count below nothing.

    Equation:
        A_m = A_a + A_b + A_n
        x_m = (A_a * x_a + A_b * x_b + A_n * x_n) / A_m

    Parameters:
        areas: A [mm^2, ...] area of each piece; below nothing for a hole
        x: x [mm, ...] place of the middle of each
        y: y [mm, ...] place of the middle of each across; nothing where it is not said

    Returns:
        area: A_m [mm^2] area area of the whole
        x: x_m [mm] length place of its middle
        y: y_m [mm] length place of its middle across

    Raises:
        OutOfRange: the lists differ in length, or nothing is left.

    Validity:
        Exact.

    Example:
        >>> beam = built_up_area([20, 30, 40], [18, 9.5, 1])
        >>> round(beam.x, 3)
        7.611

    Source:
        A published textbook of engineering mechanics, example 7.2: an I section; a worked copy of it prints 7.5, having
        taken the web's area for the flange.

    Trust: exact
    """
    across = y or (0.0,) * len(x)
    for name, values in (("x", x), ("y", across)):
        if len(values) != len(areas):
            raise OutOfRange(name, len(values), "count", f"one for each of the {len(areas)} pieces")
    total = math.fsum(areas)
    if total <= 0:
        raise OutOfRange("areas", total, "mm^2", "above nothing together")
    along = math.fsum(a * place for a, place in zip(areas, x, strict=True))
    side = math.fsum(a * place for a, place in zip(areas, across, strict=True))
    return Middle(total, along / total, side / total)
