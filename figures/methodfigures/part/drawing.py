"""How is the drawing of a finished part put on paper: views, sizes, notes, limits, pictorial, title block?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.arrangement import draw_symbol
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note, column, scale_words
from methodfigures.paper.shapes import Points, arc, rings
from methodfigures.paper.sheet import HATCH, NARROW, WIDE, Layer, Sheet
from methodfigures.part.notes import Room, flights
from methodfigures.part.placing import EDGE, FIRST_LANE, LANE, Placed, column_step, notes_of, place
from methodfigures.part.spec import Cutting, PartDrawing, Side, Size, Thread
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import Cut, Place, ViewBook, centred, draw_look, extent, pictorial_basis

TALLEST: Final = 205.0
"""mm of paper that the views may take."""
PICTORIAL: Final = (62.0, 40.0)
ROW: Final = 5.2
"""Height of a row of the limits and of the title block, mm."""
ANGLES: Final = (45.0, -45.0, 30.0, -30.0)
PITCHES: Final = (2.2, 1.6, 2.8, 1.3)
"""Hatching of the first bodies: direction and spacing differ (ISO 128-50)."""


def draw_part(spec: PartDrawing, book: ViewBook | None = None) -> Drawing:
    """The finished part as a drawing office shows it.

    Views by ISO 5456-2 at the largest scale of ISO 5455 that fits, sizes by ISO 129-1, threads by ISO 6410-1.
    """
    return compose_part(spec, book or ViewBook()).drawing(spec.title, spec.description or spec.title)


def compose_part(spec: PartDrawing, book: ViewBook) -> Sheet:
    """The sheet of `draw_part` before it becomes a drawing."""
    views, scale, high = place(spec, spec.width, TALLEST)
    foot = _foot_height(spec)
    sheet = Sheet(spec.width, foot + high + EDGE)
    for one in views:
        one.origin = one.origin + np.array([0.0, foot])
        _picture(sheet, spec, book, one, scale)
        _centre_lines(sheet, one, scale)
        for thread in one.view.threads:
            _thread(sheet, one, scale, thread)
        _labels(sheet, one, scale)
        _sizes(sheet, one, scale)
        _notes(sheet, one, scale)
    _foot(sheet, spec, book, scale, foot)
    return sheet


def _labels(sheet: Sheet, one: Placed, scale: float) -> None:
    """Names of holes at their upper right; names of points on the far side of the middle of them all."""
    points = [one.spot(label.spot, scale) for label in one.view.labels if not label.diameter]
    middle = np.mean(points, axis=0) if points else np.zeros(2)
    for label in one.view.labels:
        at = one.spot(label.spot, scale)
        out = at - middle if not label.diameter else np.ones(2)
        right, above = out[0] > -1e-6, out[1] > -1e-6
        reach = 0.36 * label.diameter * scale + 1.2
        x, y = at[0] + (reach if right else -reach), at[1] + (reach if above else -reach - lettering.HEIGHT)
        sheet.text(float(x), float(y), label.words, align="left" if right else "right", mask=True)


# ------------------------------------------------------------------------------------------------ the views
def _picture(sheet: Sheet, spec: PartDrawing, book: ViewBook, one: Placed, scale: float) -> None:
    view = one.view
    whole = Place(one.basis, scale, one.origin)
    if view.cutting is Cutting.FULL:
        _cut(sheet, book.cut(spec.solids, one.basis, view.plane, spec.uncut), whole)
    elif view.cutting is Cutting.HALF:
        level = float(one.spot(view.lines[0].start, scale)[1])
        upper = Place(one.basis, scale, one.origin, shapely.box(-999, level, 999, 999))
        lower = Place(one.basis, scale, one.origin, shapely.box(-999, -999, 999, level))
        draw_look(sheet, book.look(spec.solids, one.basis), upper, narrow=HATCH)
        _cut(sheet, book.cut(spec.solids, one.basis, view.plane, spec.uncut), lower)
    else:
        draw_look(sheet, book.look(spec.solids, one.basis), whole, narrow=HATCH)
    if view.title and one.by_arrow:
        _named(sheet, one, scale)
    elif view.title:
        low, high = one.box(scale)
        y = float(low[1]) - one.margins[Side.BELOW] + 1.0
        sheet.text(float(low[0] + high[0]) / 2, y, view.title)


def _named(sheet: Sheet, one: Placed, scale: float) -> None:
    """The name of a view that stands apart, over it; its reference arrow stands at the end that it shows."""
    low, _ = one.box(scale)
    words = f"{one.view.title}, seen from outside"
    sheet.text(float(low[0]), float(low[1]) - one.margins[Side.BELOW] + 1.0, words, align="left")


def _cut(sheet: Sheet, cut: Cut, where: Place) -> None:
    """A section, as far as its window lets it be seen; the edge of the window is no edge of the part."""
    sheet.area(where.shape(cut.silhouette), "paper", Layer.WORK)
    for lines, width in ((cut.lines.sharp, WIDE), (cut.lines.contour, WIDE), (cut.lines.smooth, HATCH)):
        sheet.lines(where.lines(lines), width, Layer.EDGE, ink=width == WIDE)
    for i, face in enumerate(cut.faces):
        sheet.hatch(where.shape(face), ANGLES[i % len(ANGLES)], PITCHES[i % len(PITCHES)])
        sheet.lines(where.lines(rings(face)), WIDE, Layer.EDGE)


def _centre_lines(sheet: Sheet, one: Placed, scale: float) -> None:
    for line in one.view.lines:
        sheet.centre_line(one.spot(line.start, scale), one.spot(line.end, scale))
    for circle in one.view.circles:
        centre, radius = one.spot(circle.centre, scale), circle.diameter / 2 * scale
        if circle.mark:
            sheet.centre_mark(centre, radius, over=1.5)
        else:
            sheet.line(arc(centre, radius, 0, 360), "centre", Layer.AXIS)


def _thread(sheet: Sheet, one: Placed, scale: float, thread: Thread) -> None:
    """ISO 6410-1: seen along the axis three quarters of a circle, else two narrow lines and the end of the thread."""
    start, end = one.spot(thread.start, scale), one.spot(thread.end, scale)
    line = (thread.major if thread.inside else thread.minor) / 2 * scale
    along = end - start
    length = float(np.hypot(*along))
    if length < 0.1:
        sheet.lines([arc(start, line, 80, 350)], NARROW, Layer.EDGE + 0.1, ink=False)
        return
    if thread.inside and one.view.cutting is Cutting.NONE:
        return
    across = np.array([-along[1], along[0]]) / length
    sides = (-1.0, 1.0) if one.view.cutting is not Cutting.HALF or not thread.inside else (-1.0,)
    if across[1] < 0:
        across = -across
    for side in sides:
        shift = across * line * side
        sheet.lines([[start + shift, end + shift]], NARROW, Layer.EDGE + 0.1, ink=False)
        edge = across * thread.major / 2 * scale * side
        sheet.lines([[end, end + edge]], WIDE, Layer.EDGE + 0.1, ink=False)


# ------------------------------------------------------------------------------------------------ what is written
def _sizes(sheet: Sheet, one: Placed, scale: float) -> None:
    low, high = one.box(scale)
    edge = {Side.LEFT: low[0], Side.RIGHT: high[0], Side.BELOW: low[1], Side.ABOVE: high[1]}
    for side, lanes in one.lanes.items():
        outwards = 1.0 if side in (Side.RIGHT, Side.ABOVE) else -1.0
        for lane in lanes:
            at = float(edge[side]) + outwards * (FIRST_LANE + LANE * lane.lane)
            _size(sheet, one, scale, lane.size, at)


def _size(sheet: Sheet, one: Placed, scale: float, size: Size, at: float) -> None:
    axis = "y" if size.side.upright else "x"
    dim.linear(sheet, one.spot(size.first, scale), one.spot(size.second, scale), at, size.text, axis)


def _notes(sheet: Sheet, one: Placed, scale: float) -> None:
    notes = notes_of(one, scale, sheet.width)
    if not notes:
        return
    if one.notes_side.upright:
        _column(sheet, one, scale, notes)
    else:
        _level(sheet, one, scale, notes)


def _column(sheet: Sheet, one: Placed, scale: float, notes: Sequence[Note]) -> None:
    """Notes one above the other beside the view."""
    low, high = one.box(scale)
    right = one.notes_side is Side.RIGHT
    step = column_step(notes)
    mirror = 1.0 if right else -1.0
    mirrored = [Note((mirror * n.spot[0], n.spot[1]), n.words, n.dot) for n in notes]
    x = float(high[0]) if right else -float(low[0])
    lanes = one.count(one.notes_side)
    x += (FIRST_LANE + LANE * (lanes - 1) + 4.0 if lanes else 0.0) + 5.0
    for note, y in column(mirrored, x, float(low[1]) + 1.0, float(high[1]) + 4.0, step):
        tip = (mirror * note.spot[0], note.spot[1])
        dim.leader(sheet, tip, (mirror * x, y), note.words, right=right, dot=note.dot)


def _level(sheet: Sheet, one: Placed, scale: float, notes: Sequence[Note]) -> None:
    """Notes over the view, mirrored where they stand below it."""
    low, high = one.box(scale)
    mirror = 1.0 if one.notes_side is Side.ABOVE else -1.0
    edge = float(high[1]) if mirror > 0 else -float(low[1])
    turned = [Note((n.spot[0], mirror * n.spot[1]), n.words, n.dot) for n in notes]
    y = edge + one.clear + (2.0 if mirror > 0 else 5.0)
    middle = float(low[0] + high[0]) / 2
    for standing in flights(turned, Room(y, middle, EDGE + 1.0, sheet.width - EDGE - 1.0)):
        x, level = standing.note.spot
        elbow = (standing.x, mirror * standing.y)
        note = standing.note
        dim.leader(sheet, (x, mirror * level), elbow, note.words, right=standing.right, dot=note.dot)


# ------------------------------------------------------------------------------------------------ the foot of the sheet
def _title_rows(spec: PartDrawing) -> list[list[tuple[str, str, float]]]:
    """Rows of cells (label, words, width) that fill the width of the sheet, about equally full."""
    room = spec.width - 2 * EDGE
    block = [(label, "\n".join(lettering.wrap(words, room - 4.0))) for label, words in spec.block]
    cells = [(a, b, max(lettering.width(a, 1.8), lettering.width(b)) + 4.0) for a, b in block]
    count = math.ceil(sum(need for _, _, need in cells) / room - 1e-9)
    share = sum(need for _, _, need in cells) / max(count, 1)
    rows: list[list[tuple[str, str, float]]] = [[]]
    used = 0.0
    for cell in cells:
        if rows[-1] and (used + cell[2] > room or used + cell[2] / 2 > share):
            rows.append([])
            used = 0.0
        rows[-1].append(cell)
        used += cell[2]
    return [
        [(label, words, need + (room - sum(n for _, _, n in line)) / len(line)) for label, words, need in line]
        for line in rows
        if line
    ]


TITLE_ROW: Final = 9.0


def _row_height(cells: Sequence[tuple[str, str, float]]) -> float:
    """Height of a row of the title block: a long name takes two lines."""
    more = max(words.count("\n") for _, words, _ in cells)
    return TITLE_ROW + more * lettering.HEIGHT * lettering.LEADING


def _foot_height(spec: PartDrawing) -> float:
    tables, picture = _table_height(spec), PICTORIAL[1]
    beside = max(picture, tables) if _side_by_side(spec) else picture + tables + 3.0
    return EDGE + sum(map(_row_height, _title_rows(spec))) + 3.0 + beside + 3.0


def _side_by_side(spec: PartDrawing) -> bool:
    """Whether the pictorial stands beside the tables; under them on a narrow sheet."""
    return spec.width >= 2 * PICTORIAL[0] + 20.0


def _table_height(spec: PartDrawing) -> float:
    rows = len(spec.limits) + (1 if spec.limits else 0) + len(spec.holes)
    return ROW * (rows + len(_remarks(spec))) + 2.0


def _remarks(spec: PartDrawing) -> list[str]:
    room = spec.width - 2 * EDGE - (PICTORIAL[0] + 6.0 if _side_by_side(spec) else 2.0)
    return [line for remark in spec.remarks for line in lettering.wrap(remark, room)]


def _foot(sheet: Sheet, spec: PartDrawing, book: ViewBook, scale: float, foot: float) -> None:
    rows = _title_rows(spec)
    y = top = EDGE + sum(map(_row_height, rows))
    for cells in rows:
        y -= _row_height(cells)
        _cells(sheet, cells, y)
    sheet.lines([_box(EDGE, EDGE, sheet.width - EDGE, top)], WIDE, Layer.EDGE)
    _table(sheet, spec, foot - 3.0)
    _pictorial(sheet, spec, book, top + 3.0)
    words = f"{scale_words(scale)}"
    y = top + 3.0
    sheet.text(sheet.width - EDGE, y, words, align="right")
    draw_symbol(sheet, sheet.width - EDGE - lettering.width(words) - 3.0, y - 0.3, spec.projection)


def _box(x0: float, y0: float, x1: float, y1: float) -> Points:
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1], [x0, y0]])


def _cells(sheet: Sheet, cells: Sequence[tuple[str, str, float]], y: float) -> None:
    x, high = EDGE, _row_height(cells)
    for label, words, wide in cells:
        sheet.lines([_box(x, y, x + wide, y + high)], NARROW, Layer.EDGE)
        sheet.text(x + 1.5, y + high - 2.9, label, 1.8, align="left")
        sheet.text(x + 1.5, y + high - TITLE_ROW + 1.8, words, align="left")
        x += wide


def _table(sheet: Sheet, spec: PartDrawing, top: float) -> None:
    """Limits of the toleranced sizes and places of holes, then remarks, left at the foot."""
    x, y = EDGE + 1.0, top - ROW
    limits = [(limit.name, limit.upper, limit.lower) for limit in spec.limits]
    if limits:
        y = _rows(sheet, [("Size", "not over", "not under"), *limits], x, y)
    if spec.holes:
        y = _rows(sheet, spec.holes, x, y)
    for line in _remarks(spec):
        sheet.text(x, y, line, align="left")
        y -= ROW


def _rows(sheet: Sheet, rows: Sequence[Sequence[str]], x: float, y: float) -> float:
    """A table with its first row as the heading; the height at which the next thing stands."""
    wide = [max(lettering.width(cell) for cell in column) + 5.0 for column in zip(*rows, strict=True)]
    for i, row in enumerate(rows):
        at = x
        for cell, width in zip(row, wide, strict=True):
            sheet.text(at, y, cell, align="left")
            at += width
        if i == 0:
            sheet.lines([[(x, y - 1.4), (at, y - 1.4)]], NARROW, Layer.EDGE)
        y -= ROW
    return y


def _pictorial(sheet: Sheet, spec: PartDrawing, book: ViewBook, low: float) -> None:
    face, up = spec.pictorial
    solids = spec.whole or spec.solids
    view = pictorial_basis(face, up)
    corner, other = extent(view, solids)
    wide, high = other - corner
    scale = min((PICTORIAL[0] - 20.0) / wide, PICTORIAL[1] / high)
    centre = (sheet.width - EDGE - PICTORIAL[0] / 2 - 8.0, low + PICTORIAL[1] / 2)
    draw_pictorial(sheet, book, solids, (), centred(view, float(scale), centre, solids))


__all__ = ["compose_part", "draw_part"]
