"""Plain geometry on paper: polygons and strings of a shape, hatching, line patterns, freehand breaks, arcs."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable, Sequence
from typing import Any, Final

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from shapely.geometry.base import BaseGeometry

Points = NDArray[np.float64]
"""An (n, 2) array of paper or view coordinates."""

PATTERNS: Final = {
    "hidden": (12.0, 3.0),
    "centre": (24.0, 3.0, 0.5, 3.0),
    "phantom": (24.0, 3.0, 0.5, 3.0, 0.5, 3.0),
}
"""Dash, gap, dot … in line widths: ISO 128-2 line types 02, 04 and 05 (dash lengths from memory)."""


def points(given: ArrayLike) -> Points:
    """`given` as an (n, 2) array of floats."""
    return np.asarray(given, float).reshape(-1, 2)


def pairs(x: ArrayLike, y: ArrayLike) -> Points:
    """Points from their x and their y."""
    across = np.asarray(x, float)
    found = np.empty((len(across), 2))
    found[:, 0], found[:, 1] = across, y
    return found


def point(given: ArrayLike) -> Points:
    """`given` as an array of two floats."""
    return np.asarray(given, float).reshape(2)


def polygons(shape: BaseGeometry | None) -> list[shapely.Polygon]:
    """All polygons of a shape; nothing from None, lines and points."""
    if shape is None or shape.is_empty:
        return []
    if isinstance(shape, shapely.Polygon):
        return [shape]
    return [p for part in getattr(shape, "geoms", ()) for p in polygons(part)]


def strings(shape: BaseGeometry | None) -> list[Points]:
    """All line strings of a shape as arrays."""
    if shape is None or shape.is_empty:
        return []
    if shape.geom_type in ("LineString", "LinearRing"):
        return [shapely.get_coordinates(shape)]
    return [p for part in getattr(shape, "geoms", ()) for p in strings(part)]


def line_shapes(lines: Sequence[Points]) -> NDArray[Any]:
    """Every polyline as a shape; all at once, for one by one is slow."""
    if not len(lines):
        return np.empty(0, object)
    owner = np.repeat(np.arange(len(lines)), [*map(len, lines)])
    return np.asarray(shapely.linestrings(np.concatenate(lines), indices=owner), object).reshape(-1)


def lines_in(lines: Sequence[Points], area: BaseGeometry) -> list[Points]:
    """The parts of polylines that lie in an area."""
    shapely.prepare(area)
    shapes = line_shapes(lines)
    touching = shapely.intersects(area, shapes)
    whole = shapely.contains_properly(area, shapes)
    cut = shapely.intersection(shapes[touching & ~whole], area)
    return _in_turn(lines, whole, touching & ~whole, cut)


def lines_off(lines: Sequence[Points], area: BaseGeometry) -> list[Points]:
    """The parts of polylines that lie beside an area."""
    shapely.prepare(area)
    shapes = line_shapes(lines)
    touching = shapely.intersects(area, shapes)
    return _in_turn(lines, ~touching, touching, shapely.difference(shapes[touching], area))


def _in_turn(lines: Sequence[Points], whole: NDArray[np.bool_], part: NDArray[np.bool_], cut: Any) -> list[Points]:
    pieces = iter(np.atleast_1d(cut).tolist())
    out: list[Points] = []
    for line, as_it_is, in_part in zip(lines, whole.tolist(), part.tolist(), strict=True):
        if as_it_is:
            out.append(line)
        elif in_part:
            out += strings(next(pieces))
    return out


def rings(shape: BaseGeometry | None) -> list[Points]:
    """Closed outlines of a shape, outer rings anticlockwise and holes clockwise; first point = last point."""
    return [
        shapely.get_coordinates(ring)
        for p in polygons(shape)
        for q in (shapely.orient_polygons(p),)
        for ring in (q.exterior, *q.interiors)
    ]


def mirrored(shape: BaseGeometry) -> BaseGeometry:
    """The shape turned over the x axis."""
    return shapely.transform(shape, lambda xy: xy * (1.0, -1.0))


def moved(shape: BaseGeometry, dx: float, dy: float = 0.0, scale: float = 1.0) -> BaseGeometry:
    """The shape scaled about the origin, then shifted."""
    return shapely.transform(shape, lambda xy: xy * scale + (dx, dy))


def union(shapes: Iterable[BaseGeometry]) -> BaseGeometry:
    """All shapes as one."""
    return shapely.union_all(list(shapes))


def hatch_lines(shape: BaseGeometry | None, angle: float, pitch: float) -> list[Points]:
    """Segments that fill `shape` at `angle` degrees, `pitch` mm apart; the ruling is that of the whole sheet,
    so neighbouring cuts of one body run on.
    """
    found = [shapely.get_coordinates(ring) for p in polygons(shape) for ring in (p.exterior, *p.interiors)]
    if not found:
        return []
    a = math.radians(angle)
    turn = np.array([[math.cos(a), -math.sin(a)], [math.sin(a), math.cos(a)]])
    turned = [ring @ turn for ring in found]  # (along the ruling, across it)
    p, q = np.concatenate([r[:-1] for r in turned]), np.concatenate([r[1:] for r in turned])
    low, high = np.minimum(p[:, 1], q[:, 1]) / pitch, np.maximum(p[:, 1], q[:, 1]) / pitch
    first, count = _between(low, high)
    side = np.repeat(np.arange(len(p)), count)
    rule = first[side] + np.arange(len(side)) - np.repeat(np.cumsum(count) - count, count)
    share = (rule * pitch - p[side, 1]) / (q[side, 1] - p[side, 1])
    at = p[side, 0] + share * (q[side, 0] - p[side, 0])
    order = np.lexsort((at, rule))
    ends = np.stack([at[order], rule[order] * pitch], 1).reshape(-1, 2, 2)
    return list(ends[ends[:, 1, 0] - ends[:, 0, 0] > 1e-9] @ turn.T)


def _between(low: NDArray[np.float64], high: NDArray[np.float64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """(first, how many) whole numbers above `low` and up to `high`: a corner counts for one of its sides only."""
    first = np.floor(low).astype(np.int64) + 1
    return first, np.floor(high).astype(np.int64) + 1 - first


def dashes(line: ArrayLike, kind: str, width: float) -> list[Points]:
    """The pieces of a broken line of `kind` ("hidden", "centre", "phantom") and `width` mm, stretched a little
    so that it begins and ends with a dash.
    """
    p = points(line)
    if len(p) == 2:
        length = math.hypot(*(p[1] - p[0]).tolist())
    else:
        s = np.concatenate([[0.0], np.cumsum(np.hypot(*(p[1:] - p[:-1]).T))])
        length = float(s[-1])
    pattern = [part * width for part in PATTERNS[kind]]
    first, whole = pattern[0], sum(pattern)
    if length <= 0:
        return []
    n = max(0, round((length - first) / whole)) or (1 if length > 0.9 * first else 0)
    if n == 0:
        return [p]
    marks = np.cumsum([0.0, *pattern * n, first]) * (length / (n * whole + first))
    if len(p) == 2:
        return list((p[0] + (marks / length)[:, None] * (p[1] - p[0])).reshape(-1, 2, 2))
    ends = np.stack([np.interp(marks, s, p[:, 0]), np.interp(marks, s, p[:, 1])], 1)
    inner = np.searchsorted(s, marks[::2], "right"), np.searchsorted(s, marks[1::2], "left")
    return [
        np.concatenate([ends[2 * i : 2 * i + 1], p[a:b], ends[2 * i + 1 : 2 * i + 2]])
        for i, (a, b) in enumerate(zip(*(found.tolist() for found in inner), strict=True))
    ]


def freehand(start: ArrayLike, end: ArrayLike, height: float = 0.8) -> Points:
    """A freehand break line (ISO 128-2 type 01.1.18, from memory) from start to end, `height` mm deep at most."""
    p, q = point(start), point(end)
    length = math.hypot(*(q - p))
    along = (q - p) / max(length, 1e-9)
    across = np.array([-along[1], along[0]])
    t = np.linspace(0, 1, max(9, min(49, int(length * 1.6))))
    swell = np.sin(2 * np.pi * t * 1.5) + 0.35 * np.sin(2 * np.pi * t * 3.4 + 1)
    return p + np.outer(t * length, along) + np.outer(height * swell * np.sqrt(np.abs(np.sin(np.pi * t))), across)


def arc(centre: ArrayLike, radius: float, start: float, end: float, other: float | None = None) -> Points:
    """Points on an arc from `start` to `end` degrees; `other` = radius across for an ellipse."""
    return point(centre) + _unit_arc(float(start), float(end)) * (radius, other or radius)


@functools.lru_cache(maxsize=256)
def _unit_arc(start: float, end: float) -> Points:
    n = max(9, math.ceil(abs(end - start) / 3.0) + 1)
    t = np.radians(np.linspace(start, end, n))
    return pairs(np.cos(t), np.sin(t))


def circle(centre: ArrayLike, radius: float) -> shapely.Polygon:
    """A disc as a polygon."""
    return shapely.Polygon(arc(centre, radius, 0, 360))


def polygon(ring: ArrayLike) -> shapely.Polygon:
    """A polygon from one ring of points."""
    return shapely.Polygon(points(ring))


def along(p: ArrayLike, q: ArrayLike) -> tuple[Points, Points, float]:
    """Unit vector from p to q, unit vector to its left, and the distance."""
    a, b = point(p), point(q)
    length = math.hypot(*(b - a))
    d = (b - a) / max(length, 1e-12)
    return d, np.array([-d[1], d[0]]), length


def nearest(steps: Sequence[float], size: float) -> float:
    """The step nearest to `size` by ratio."""
    return min(steps, key=lambda v: abs(math.log(v / size)))
