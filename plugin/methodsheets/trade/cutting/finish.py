"""How smooth will a turned or milled surface be?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation

_LEAST_FEED = 0.05


@dataclass(frozen=True)
class TurnedRoughness:
    """Height of the feed marks and what may be measured."""

    height: float
    mean: float
    expected_low: float
    expected_high: float
    note: str


@calculation
def turned_roughness(feed: float, nose_radius: float) -> TurnedRoughness:
    """Roughness that the feed and the nose radius leave when turning.

    Equation:
        R_t = f^2 / (8 * r)
        R_a = f^2 / (32 * r)
        R_low = 1.5 * R_a
        R_high = 3 * R_a

    Parameters:
        feed: f [mm] (f > 0) feed in one turn
        nose_radius: r [mm] (r > 0) radius of the tool's corner

    Returns:
        height: R_t [um] roughness  height of the marks, peak to valley
        mean: R_a [um] roughness  mean roughness, by the usual approximation
        expected_low: R_low [um] roughness  a good cut in kind metal
        expected_high: R_high [um] roughness  usual in a small workshop; more with built-up edge
        note: [text] text  says when the feed is too coarse or too fine for the formula

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Feed not more than the nose radius, or the straight edges cut too; below about 0.05 mm the least chip rules.
        The exact arc profile gives f^2 / (31.2 r).

    Heed:
        f > r: the feed is greater than the nose radius: the straight edges cut too
        f < 0.05: below about 0.05 mm the least chip rules, and the finish is rougher than this

    Example:
        0.2 mm feed, 0.8 mm radius: 6.25 um.
        >>> round(turned_roughness(0.2, 0.8).height, 2)
        6.25

    Source:
        Engineering course question, 0.2 mm and 0.8 mm (question read, result worked out). A page that prints 0.258
        for 258 microinch, and a sheet with f^2/(8 r) as Ra, are in error.

    Trust: exact
    """
    height = 1000 * feed**2 / (8 * nose_radius)
    mean = height / 4
    return TurnedRoughness(height, mean, 1.5 * mean, 3 * mean, _finish_note(feed, nose_radius))


@calculation
def feed_for_roughness(mean: float, nose_radius: float) -> float:
    """Feed that leaves a wanted mean roughness in theory.

    Equation:
        f = sqrt(32 * R_a * r)

    Parameters:
        mean: R_a [um] (R_a > 0) mean roughness wanted; halve it for a margin
        nose_radius: r [mm] (r > 0) radius of the tool's corner

    Returns:
        f [mm] feed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As turned_roughness. The surface will measure 1.5 to 3 times rougher.

    Heed:
        f > r: the feed is greater than the nose radius: the straight edges cut too

    Example:
        >>> round(feed_for_roughness(1.5625, 0.8), 3)
        0.2

    Source:
        Inverse of the roughness formula.

    Trust: exact
    """
    return math.sqrt(32 * mean / 1000 * nose_radius)


@calculation
def nose_radius_for_roughness(mean: float, feed: float) -> float:
    """Nose radius that leaves a wanted mean roughness at a feed.

    Equation:
        r = f^2 / (32 * R_a)

    Parameters:
        mean: R_a [um] (R_a > 0) mean roughness wanted
        feed: f [mm] (f > 0) feed in one turn

    Returns:
        r [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As turned_roughness. A large radius makes slender work chatter.

    Heed:
        f > r: the feed is greater than the nose radius: the straight edges cut too

    Example:
        >>> round(nose_radius_for_roughness(1.5625, 0.2), 3)
        0.8

    Source:
        Inverse of the roughness formula.

    Trust: exact
    """
    return feed**2 / (32 * mean / 1000)


@calculation
def exact_arc_roughness(feed: float, nose_radius: float) -> float:
    """Height of the feed marks from the exact circle, not the usual approximation.

    Equation:
        R_t = r - sqrt(r^2 - f^2 / 4)

    Parameters:
        feed: f [mm] (f > 0) feed in one turn, or step between paths of a ball-nosed cutter; less than two radii
        nose_radius: r [mm] (r > 0) radius of the tool's corner or ball

    Returns:
        R_t [um] roughness

    Raises:
        OutOfRange: a value lies outside the range given above, or the feed is two radii or more.

    Validity:
        Exact; also the scallops a ball-nosed cutter leaves on a flat.

    Heed:
        f < 0.05: below about 0.05 mm the least chip rules, and the finish is rougher than this

    Example:
        >>> round(exact_arc_roughness(0.2, 0.8), 2)
        6.27

    Source:
        Geometry of a circle.

    Trust: exact
    """
    if feed >= 2 * nose_radius:
        raise OutOfRange("feed", feed, "mm", f"less than two nose radii ({2 * nose_radius:g} mm)")
    return 1000 * (nose_radius - math.sqrt(nose_radius**2 - feed**2 / 4))


@calculation
def milled_roughness(feed: float, diameter: float) -> float:
    """Height of the tooth marks on a flat left by the side of a cylindrical cutter.

    Equation:
        R_t = f_z^2 / (4 * D)

    Parameters:
        feed: f_z [mm] (f_z > 0) feed for one tooth; for one turn if the cutter runs out
        diameter: D [mm] (D > 0) cutter diameter

    Returns:
        R_t [um] roughness

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Feed small against the cutter. Run-out makes one tooth rule: then the feed for a whole turn counts.

    Heed:
        f_z > 0.1 * D: the feed is no longer small against the cutter

    Example:
        >>> round(milled_roughness(0.2, 16), 3)
        0.625

    Source:
        Geometry: f^2 / (8 r) with r = D / 2; from memory.

    Trust: exact
    """
    return 1000 * feed**2 / (4 * diameter)


def _finish_note(feed: float, nose_radius: float) -> str:
    if feed > nose_radius:
        return "the feed is more than the nose radius: the straight edges cut too, and it will be rougher"
    if feed < _LEAST_FEED:
        return "below 0.05 mm the tool rubs: the least chip it can cut sets the finish, not the feed"
    return ""
