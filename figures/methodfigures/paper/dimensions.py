"""Dimensions, leaders, notes and arrows on a sheet, after ISO 129-1.

Filled heads, text above the line and readable from below or from the right.  The text comes from the caller: a
dimension is what the operation says, never what the picture happens to measure.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import ArrayLike

from methodfigures.paper import text as lettering
from methodfigures.paper.clash import Tip
from methodfigures.paper.palette import INK, PAPER
from methodfigures.paper.shapes import Points, along, arc, circle, point, polygon
from methodfigures.paper.sheet import FINE, NARROW, Layer, Sheet

HEAD = 2.6
"""Length of an arrow head in mm; its angle is 20 degrees."""
CLEAR = 0.9
"""Distance of lettering from its dimension line or landing."""
TIGHT = 7.0
"""A dimension shorter than this has its heads outside."""


def head(sheet: Sheet, tip: ArrayLike, direction: ArrayLike, size: float = HEAD, z: float = Layer.ARROW) -> None:
    """Filled arrow head whose tip points along `direction`."""
    t, d = point(tip), point(direction)
    d = d / math.hypot(*d)
    n, back = np.array([-d[1], d[0]]), t - d * size
    sheet.area(polygon([t, back + n * size * 0.17, back - n * size * 0.17]), INK, z)


def fits_inside(text: str, length: float, height: float = lettering.HEIGHT) -> bool:
    """Whether a dimension of `length` mm has room for its own text between the heads."""
    return lettering.width(text, height) <= length - 1.8


def linear(
    sheet: Sheet,
    first: ArrayLike,
    second: ArrayLike,
    at: float,
    text: str,
    axis: str = "x",
    *,
    height: float = lettering.HEIGHT,
    extension: bool = True,
    outside: bool | None = None,
    text_at: float | None = None,
    side: int = 1,
) -> None:
    """Linear dimension between two points.

    `axis` "x": level line at y = `at`; "y": upright line at x = `at`.  Short ones have their heads outside and, when
    the text does not fit, the text on the prolonged line beyond the second end (`side` 1) or the first (-1), counted
    in the direction of the axis.  `text_at` = distance of the middle of the text from the first end.
    """
    i = 0 if axis == "x" else 1
    p, q = sorted((point(first), point(second)), key=lambda v: v[i])
    u, v = np.eye(2)[i], np.eye(2)[1 - i]
    a, b = u * p[i] + v * at, u * q[i] + v * at
    length = float(q[i] - p[i])
    if extension:
        _extensions(sheet, ((p, a), (q, b)), v)
    outside = length < TIGHT if outside is None else outside
    sheet.lines([[a - u * 5.5, b + u * 5.5] if outside else [a, b]], NARROW, Layer.DIMENSION)
    sheet.register.barriers.append(("a dimension line", shapely.LineString([a, b])))
    head(sheet, a, u if outside else -u)
    head(sheet, b, -u if outside else u)
    middle = (a + b) / 2 if text_at is None else a + u * text_at
    if text_at is None and not fits_inside(text, length, height):
        w = lettering.width(text, height)
        end = b if side > 0 else a
        middle = end + u * side * (4.0 + w / 2)
        sheet.lines([[end, end + u * side * (4.0 + w)]], NARROW, Layer.DIMENSION)
    if axis == "x":
        sheet.text(middle[0], at + CLEAR, text, height, mask=True)
    else:
        sheet.text(at - CLEAR, middle[1], text, height, turn=90, mask=True)


def _extensions(sheet: Sheet, pairs: tuple[tuple[Points, Points], ...], v: Points) -> None:
    for start, end in pairs:
        d = float((end - start) @ v)
        if abs(d) > 0.8:
            sheet.lines([[start + v * math.copysign(0.8, d), end + v * math.copysign(1.6, d)]], NARROW, Layer.DIMENSION)


def angular(
    sheet: Sheet,
    centre: ArrayLike,
    radius: float,
    start: float,
    end: float,
    text: str,
    *,
    height: float = lettering.HEIGHT,
    text_at: float | None = None,
    both: bool = True,
) -> None:
    """Angle between two directions in degrees on an arc of `radius`; `text_at` = direction of the text."""
    p = arc(centre, radius, start, end)
    sheet.lines([p], NARROW, Layer.AXIS + 0.1)
    if both:
        head(sheet, p[0], p[0] - p[1])
    head(sheet, p[-1], p[-1] - p[-2])
    m = math.radians((start + end) / 2 if text_at is None else text_at)
    w = lettering.width(text, height)
    r = radius + 1.1 + abs(math.cos(m)) * w / 2 + abs(math.sin(m)) * height / 2
    c = point(centre)
    sheet.text(c[0] + r * math.cos(m), c[1] + r * math.sin(m), text, height, level="middle", mask=True)


def leader(
    sheet: Sheet,
    tip: ArrayLike,
    elbow: ArrayLike,
    text: str,
    *,
    height: float = lettering.HEIGHT,
    right: bool | None = None,
    dot: bool = False,
    mask: bool = False,
) -> None:
    """Leader with a landing under its text; `dot` ends in an area, otherwise a head ends on a line (ISO 128-2)."""
    t, e = point(tip), point(elbow)
    to_right = e[0] >= t[0] if right is None else right
    end = e + np.array([(lettering.width(text, height) + 1) * (1 if to_right else -1), 0])
    sheet.lines([[t, e, end]], NARROW, Layer.TOOL + 0.5)
    sheet.register.leaders.append(shapely.LineString([t, e, end]))
    sheet.register.tips.append(Tip(t, dot))
    if dot:
        sheet.area(circle(t, 0.55), INK, Layer.ARROW)
    else:
        head(sheet, t, t - e)
    rows = text.count("\n")
    sheet.text((e[0] + end[0]) / 2, e[1] + CLEAR + rows * height * lettering.LEADING, text, height, mask=mask)


def balloon(sheet: Sheet, centre: ArrayLike, text: str, radius: float = 2.9) -> None:
    """Number in a circle."""
    sheet.circle(centre, radius, "narrow", Layer.TEXT - 0.2, fill=PAPER, ink=False)
    x, y = point(centre)
    sheet.text(x, y, text, level="middle")


def block_arrow(
    sheet: Sheet,
    start: ArrayLike,
    end: ArrayLike,
    *,
    width: float = 1.4,
    size: float = 4.0,
    fill: str = INK,
    z: float = Layer.ARROW,
) -> None:
    """Heavy arrow: feed, force, weight."""
    d, n, length = along(start, end)
    p, q = point(start), point(end)
    s, w = q - d * min(size, length), width / 2
    shape = polygon([p + n * w, s + n * w, s + n * 2.6 * w, q, s - n * 2.6 * w, s - n * w, p - n * w])
    sheet.area(shape, fill, z)
    sheet.outline(shape, "narrow", z + 0.01)
    sheet.register.arrows.append(shape)


def turn_arrow(
    sheet: Sheet,
    centre: ArrayLike,
    radius: float,
    start: float,
    end: float,
    *,
    across: float | None = None,
    size: float = HEAD,
    z: float = Layer.TOOL,
) -> None:
    """Arc with a head: direction of rotation; `across` = other radius when seen at an angle."""
    p = arc(centre, radius, start, end, across)
    sheet.lines([p[:-1]], NARROW, z)
    head(sheet, p[-1], p[-1] - p[-3], size, z)


def mass_mark(sheet: Sheet, centre: ArrayLike, radius: float = 2.0, z: float = Layer.TEXT) -> None:
    """Centre of mass: a quartered circle."""
    c = point(centre)
    sheet.circle(c, radius, "narrow", z + 0.1, fill=PAPER, width=FINE)
    for a in (0, 180):
        sheet.area(polygon(np.vstack([c[None], arc(c, radius, a, a + 90)])), INK, z + 0.09)
