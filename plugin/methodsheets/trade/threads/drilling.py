"""How far does a drill travel, how often is it drawn out, and how is a deep hole eased?"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from ..form.calculation import calculation, takes
from ..form.rows import take
from ..form.tables import read_table

_LAST_SLIVER = 0.25
"""What is left after a peck is drilled with it when it is thinner than this share of the diameter."""


@calculation
def drill_point_length(diameter: float, point_angle: float = 118.0) -> float:
    """Length of a drill's point, from the corners of the lips to the tip.

    Equation:
        L = d / (2 * tan(sigma / 2))

    Parameters:
        diameter: d [mm] (d > 0) drill diameter
        point_angle: sigma [deg] (0 < sigma < 180) angle of the point; 118 for common drills, 135 for split points

    Returns:
        L [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for a straight cone; the chisel edge shortens it a little.

    Example:
        No. 37 drill, 0.104 in: 0.031 in.
        >>> round(drill_point_length(2.642) / 25.4, 3)
        0.031

    Source:
        Public page on drill points, 0.104 in at 118 degrees (page read). Short rule: 0.300 d at 118, 0.207 d at 135
        degrees.

    Trust: exact
    """
    return diameter / (2 * math.tan(math.radians(point_angle) / 2))


@calculation
def drill_travel(
    depth: float,
    diameter: float,
    point_angle: float = 118.0,
    through: bool = True,
    approach: float = 1.0,
    overrun: float = 1.0,
) -> float:
    """Travel of a drill under feed: depth, point and clearances.

    Equation:
        L = t + d / (2 * tan(sigma / 2)) + c_1 + c_2

    Parameters:
        depth: t [mm] (t > 0) thickness drilled through, or depth of the full diameter
        diameter: d [mm] (d > 0) drill diameter
        point_angle: sigma [deg] (0 < sigma < 180) angle of the point
        through: [flag] whether the hole goes through: then the overrun counts
        approach: c_1 [mm] (c_1 >= 0) gap before the drill touches
        overrun: c_2 [mm] (c_2 >= 0) travel past the far face; not used in a blind hole

    Returns:
        L [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. In a blind hole the point lies beyond the depth of the full diameter: leave metal for it.

    Example:
        15 mm drill, 50 mm plate, 2 mm clear at each side: 35.1 s at 500 per minute and 0.2 mm.
        >>> round(drill_travel(50, 15, approach=2, overrun=2) / (0.2 * 500) * 60, 1)
        35.1

    Source:
        Maker's page on drilling time (formula read, result worked out).

    Trust: exact
    """
    point = drill_point_length(diameter, point_angle)
    return depth + point + approach + (overrun if through else 0.0)


@dataclass(frozen=True)
class Pecks:
    """Depths at which a drill is drawn out to clear its chips."""

    depths: tuple[float, ...]
    count: int
    note: str


@calculation
@takes(lambda depth, diameter, least, **_: 6 * depth / diameter / least)
def peck_depths(depth: float, diameter: float, first: float = 2.0, later: float = 1.0, least: float = 0.5) -> Pecks:
    """Depths at which to draw the drill out and clear the chips.

    Table:
        deep_holes

    Parameters:
        depth: t [mm] (t > 0) depth of the hole
        diameter: d [mm] (d > 0) drill diameter
        first: [1] (first > 0) depth of the first peck, in diameters
        later: [1] (later > 0) depth of the second peck, in diameters; each later one is 0.8 of the one before
        least: [1] (least > 0) no peck is shorter than this, in diameters

    Returns:
        depths: [mm, ...] length  depths from the surface, the last is the full depth
        count: [1] count  number of pecks
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Free-cutting and brittle metals need fewer, aluminium and stainless more: draw out as soon as the flutes are
        full.

    Example:
        >>> peck_depths(30.0, 8).depths
        (16.0, 24.0, 30.0)

    Source:
        From memory: common practice; the first two or three diameters in one go, then about one at a time and less.

    Trust: common practice

    Checked: common practice of the workshop: books give the rule and no cases of it.
    """
    marks: list[float] = []
    step = first * diameter
    at = step
    while at < depth - _LAST_SLIVER * diameter:
        marks.append(at)
        step = later * diameter if len(marks) == 1 else max(least * diameter, 0.8 * step)
        at += step
    ratio = depth / diameter
    shallow = float(take(read_table("deep_holes").rows[0], "ratio")["ratio"])
    note = "" if ratio <= shallow else f"depth is {ratio:.1f} diameters: ease the speed and feed, see deep_hole_factors"
    return Pecks((*marks, depth), len(marks) + 1, note)


@dataclass(frozen=True)
class DeepHoleFactors:
    """Shares of speed and feed to keep in a deep hole."""

    speed: float
    feed: float
    note: str


@calculation
def deep_hole_factors(depth: float, diameter: float) -> DeepHoleFactors:
    """Shares of the speed and feed of a drill to keep when the hole is deep.

    Table:
        deep_holes

    Parameters:
        depth: t [mm] (t > 0) depth of the hole
        diameter: d [mm] (d > 0) drill diameter

    Returns:
        speed: [1] ratio  share of the speed
        feed: [1] ratio  share of the feed
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Three to six diameters. Less needs no easing; beyond six the last entry stays and the note says so.

    Example:
        Five diameters: speed 30 % less, feed 20 % less.
        >>> factors = deep_hole_factors(50, 10)
        >>> factors.speed, factors.feed
        (0.7, 0.8)

    Source:
        Drilling reference guide, reductions at 3, 4, 5, 6 diameters (page read); in between interpolated.

    Trust: table
    """
    table = read_table("deep_holes").rows
    take(table[0])
    rows = [(float(row["ratio"]), float(row["speed"]), float(row["feed"])) for row in table]
    ratio = depth / diameter
    if ratio < rows[0][0]:
        return DeepHoleFactors(1.0, 1.0, "")
    if ratio > rows[-1][0]:
        note = f"{ratio:.1f} diameters: beyond the table, which ends at {rows[-1][0]:g}; peck often"
        return DeepHoleFactors(rows[-1][1], rows[-1][2], note)
    left, right = next(pair for pair in itertools.pairwise(rows) if ratio <= pair[1][0])
    share = (ratio - left[0]) / (right[0] - left[0])
    speed, feed = (left[column] + share * (right[column] - left[column]) for column in (1, 2))
    return DeepHoleFactors(speed, feed, "draw out to clear the chips, see peck_depths")
