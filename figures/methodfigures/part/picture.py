"""How is one view of a part drawn: edges, cuts, breaks, threads, centre lines, rings round what is enlarged?"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.shapes import Points, arc, circle, line_shapes, lines_in, lines_off, polygons, rings, strings
from methodfigures.paper.sheet import FINE, HATCH, NARROW, THREAD, WIDE, Layer, Sheet
from methodfigures.part.details import SEEN
from methodfigures.part.naming import name
from methodfigures.part.placing import OVER, Placed
from methodfigures.part.spec import CUT_NAME, Cutting, PartDrawing, Side, Thread
from methodfigures.solids.views import Cut, Look, Place, ViewBook

ANGLES: Final = (45.0, -45.0, 30.0, -30.0)
PITCHES: Final = (2.2, 1.6, 2.8, 1.3)
"""Hatching of the first bodies: direction and spacing differ (ISO 128-3)."""
FAR: Final = 999.0
SAME: Final = 0.15
"""mm: lines that are no further apart are one line."""
STROKE: Final = 4.0
"""mm of the wide strokes at the ends of a cut's line."""
RING: Final = 2.2
"""mm: the circle round a place that is enlarged has this radius at least."""


def draw_view(sheet: Sheet, spec: PartDrawing, book: ViewBook, one: Placed, scale: float) -> None:
    """A view or a detail without its dimensions."""
    view = one.view
    look = book.look(spec.solids, one.basis) if view.cutting is not Cutting.FULL else None
    planes = view.planes or ((-FAR, view.plane),)
    cuts = [book.cut(spec.solids, one.basis, at, spec.uncut) for _, at in planes if view.cutting is not Cutting.NONE]
    cut = cuts[0] if cuts else None
    for window, where in _panes(one, scale):
        if view.cutting is Cutting.HALF:
            level = float(one.spot(view.lines[0].start, scale)[1])
            upper, lower = (shapely.box(-FAR, level, FAR, FAR), shapely.box(-FAR, -FAR, FAR, level))
            halves: Iterable[tuple[Look | Cut | None, shapely.Polygon]] = ((look, upper), (cut, lower))
        elif cuts:
            halves = zip(cuts, _stretches(one, planes, scale), strict=True)
        else:
            halves = ((look, shapely.box(-FAR, -FAR, FAR, FAR)),)
        for shown, half in halves:
            if shown is not None:
                pane = Place(where.basis, where.scale, where.origin, _common(half, window))
                _picture(sheet, shown, pane, _quiet(one, scale))
        for thread in view.threads:
            _thread(sheet, one, thread, Place(where.basis, where.scale, where.origin, window))
    _break_lines(sheet, one, scale, look or cut)
    _frame(sheet, one, scale)
    _centre_lines(sheet, one, scale)
    _name(sheet, one, scale)


def _panes(one: Placed, scale: float) -> Iterator[tuple[shapely.Polygon, Place]]:
    """Every piece of a broken view: the part of the paper that it fills, and where its view coordinates land there."""
    whole = _circle(one, scale) if one.detail else None
    for pane in one.squeeze.panes():
        where = Place(one.basis, scale, one.origin + pane.shift * scale)
        low, high = where.points(pane.low), where.points(pane.high)
        window = shapely.box(*np.clip([*low, *high], -FAR, FAR).tolist())
        yield window if whole is None else whole, where


def _stretches(one: Placed, planes: Sequence[tuple[float, float]], scale: float) -> list[shapely.Polygon]:
    """The part of the paper that each stretch of a cut fills: no line parts it from the next (ISO 128-3)."""
    inner = [float(one.seen(np.array([start, 0.0]), scale)[0]) for start, _ in planes[1:]]
    return [shapely.box(a, -FAR, b, FAR) for a, b in itertools.pairwise([-FAR, *inner, FAR])]


def _common(half: shapely.Polygon, window: shapely.Polygon) -> shapely.Polygon:
    both = polygons(half.intersection(window))
    return both[0] if both else shapely.Polygon()


def _circle(one: Placed, scale: float) -> shapely.Polygon:
    low, high = one.box(scale)
    return circle((low + high) / 2, float(high[0] - low[0]) / 2)


def _quiet(one: Placed, scale: float) -> BaseGeometry:
    """Where lines are drawn narrow, for wide ones would run together: what is told there stands in a detail."""
    return shapely.union_all([circle(one.seen(s.centre, scale), s.reach * scale + 0.3) for s in one.small])


def _picture(sheet: Sheet, shown: Look | Cut, where: Place, quiet: BaseGeometry) -> None:
    """A view from outside or a section, as far as its window lets it be seen; the window's edge is no edge of it."""
    cover = where.shape(shown.silhouette)
    sheet.area(cover, "paper", Layer.WORK)
    edges = where.lines(shown.lines.sharp) + where.lines(shown.lines.contour)
    close = crowded(edges, cover)
    _wide(sheet, [line for line, flag in zip(edges, close, strict=True) if not flag], quiet)
    sheet.lines([line for line, flag in zip(edges, close, strict=True) if flag], HATCH, Layer.EDGE)
    sheet.lines(where.lines(shown.lines.smooth), HATCH, Layer.EDGE, ink=False)
    if isinstance(shown, Cut):
        for i, face in enumerate(shown.faces):
            sheet.hatch(where.shape(face), ANGLES[i % len(ANGLES)], PITCHES[i % len(PITCHES)])
            _wide(sheet, where.lines(rings(face)), quiet)


def crowded(lines: Sequence[Points], cover: BaseGeometry) -> list[bool]:
    """Which edges run so close beside another one that two wide lines would be a blot; the outline is none of them."""
    shapes = line_shapes(lines)
    found = [False] * len(lines)
    outline = shapely.boundary(cover)
    near = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=SEEN)
    for i, j in near.T.tolist():
        if i == j or found[i]:
            continue
        apart = shapely.distance(shapely.points(lines[i]), shapes[j])
        beside = SAME < float(apart.max()) < SEEN
        found[i] = beside and float(shapely.distance(shapely.points(_middles(lines[i])), outline).max()) > SAME
    return found


def _middles(line: Points) -> Points:
    return np.asarray((line[1:] + line[:-1]) / 2)


def _wide(sheet: Sheet, lines: Sequence[Points], quiet: BaseGeometry) -> None:
    if quiet.is_empty:
        sheet.lines(lines, WIDE, Layer.EDGE)
        return
    sheet.lines(lines_off(lines, quiet), WIDE, Layer.EDGE)
    sheet.lines(lines_in(lines, quiet), FINE, Layer.EDGE)


def _break_lines(sheet: Sheet, one: Placed, scale: float, shown: Look | Cut | None) -> None:
    """A freehand line on each side of what is left out, across what is cut off there."""
    if shown is None or not one.squeeze:
        return
    for i, gaps in enumerate((one.squeeze.across, one.squeeze.upright)):
        for gap in gaps:
            for value in gap:
                across = np.array([[value, -FAR * 10], [value, FAR * 10]])[:, (0, 1) if i == 0 else (1, 0)]
                for line in strings(shown.silhouette.intersection(shapely.LineString(across))):
                    sheet.break_line(one.seen(line[0], scale), one.seen(line[-1], scale), 0.7)


def _frame(sheet: Sheet, one: Placed, scale: float) -> None:
    """The edge of a detail."""
    if one.detail:
        low, high = one.box(scale)
        sheet.circle((low + high) / 2, float(high[0] - low[0]) / 2, "narrow", Layer.EDGE + 0.2)


def _name(sheet: Sheet, one: Placed, scale: float) -> None:
    """The title of a view under it; one that stands apart says that its arrow shows whence it is seen."""
    if not one.view.title:
        return
    low, high = one.box(scale)
    y = float(low[1]) - one.margins[Side.BELOW] + 1.0 + one.title.count("\n") * lettering.HEIGHT * lettering.LEADING
    sheet.text(float(low[0] + high[0]) / 2, y, one.title)


def _centre_lines(sheet: Sheet, one: Placed, scale: float) -> None:
    for line in one.view.lines:
        sheet.centre_line(one.spot(line.start, scale), one.spot(line.end, scale))
    for ring in one.view.circles:
        centre, radius = one.spot(ring.centre, scale), ring.diameter / 2 * scale
        if ring.mark:
            sheet.centre_mark(centre, radius, over=OVER)
        else:
            sheet.line(arc(centre, radius, 0, 360), "centre", Layer.AXIS)


def _thread(sheet: Sheet, one: Placed, thread: Thread, where: Place) -> None:
    """ISO 6410-1: seen along the axis three quarters of a circle, else two narrow lines and the end of the thread."""
    start, end = where.spot(thread.start), where.spot(thread.end)
    outer, inner = thread.major / 2 * where.scale, thread.minor / 2 * where.scale
    line = max(outer, inner + THREAD) if thread.inside else max(min(inner, outer - THREAD), 0.0)
    along = end - start
    length = float(np.hypot(*along))
    if length < 0.1:
        _in_window(sheet, [arc(start, line, 80, 350)], NARROW, where)
        return
    if thread.inside and one.view.cutting is Cutting.NONE:
        return
    across = np.array([-along[1], along[0]]) / length
    sides = (-1.0, 1.0) if one.view.cutting is not Cutting.HALF or not thread.inside else (-1.0,)
    if across[1] < 0:
        across = -across
    for side in sides:
        shift = across * line * side
        _in_window(sheet, [np.array([start + shift, end + shift])], NARROW, where)
        edge = across * (line if thread.inside else outer) * side
        _in_window(sheet, [np.array([end, end + edge])], WIDE, where)


def _in_window(sheet: Sheet, lines: Sequence[Points], width: float, where: Place) -> None:
    seen = lines if where.window is None else lines_in(lines, where.window)
    sheet.lines(seen, width, Layer.EDGE + 0.1, ink=False)


# ------------------------------------------------------------------------------------------------ where it is cut
def draw_cut_line(sheet: Sheet, one: Placed, scale: float) -> None:
    """The line of a cut in steps: narrow, wide at its ends and bends, an arrow in the direction of sight and a letter
    at both ends: the letter finds free paper, and names of holes keep clear of it.
    """
    p = [one.spot(at, scale) for at in one.cut_line]
    if not p:
        return
    aside = np.array([STROKE, 0.0])
    p[0], p[-1] = p[0] - aside - (1.2, 0.0), p[-1] + aside + (1.2, 0.0)
    sheet.line(p, "centre", Layer.AXIS, ink=False)
    sheet.lines([[p[0], p[0] + aside], [p[-1], p[-1] - aside]], WIDE, Layer.TOOL, cap="butt")
    for before, at, after in zip(p, p[1:], p[2:], strict=False):
        out = [at + (other - at) / max(float(np.hypot(*(other - at))), 1e-9) * min(
            2.0, float(np.hypot(*(other - at))) / 2) for other in (before, after)]  # fmt: skip
        sheet.lines([[out[0], at, out[1]]], WIDE, Layer.TOOL, cap="butt")
    for end, side in ((p[0], -1.0), (p[-1], 1.0)):
        tail = end - (0.0, 6.0)
        sheet.lines([[tail, end]], NARROW, Layer.TOOL)
        dim.head(sheet, end, (0.0, 1.0), 3.0)
        name(sheet, CUT_NAME[0], tail, 0.6, 180.0 if side < 0 else 0.0, lettering.LARGE)


# ------------------------------------------------------------------------------------------------ what is enlarged
def draw_rings(sheet: Sheet, one: Placed, scale: float) -> None:
    """Circle and letter of each place of a view that a detail enlarges, last of all: the letter finds free paper."""
    for detail in one.details:
        for place in detail.places:
            centre, radius = one.seen(place, scale), max(detail.radius * scale, RING)
            sheet.circle(centre, radius, "narrow", Layer.EDGE + 0.2)
            name(sheet, detail.letter, centre, radius + 1.4)
