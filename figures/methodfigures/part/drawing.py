"""How is the drawing of a finished part put on paper: views, sizes, notes, limits, pictorial, title block?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from methodfigures.paper import dimensions as dim
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note, column
from methodfigures.paper.sheet import Sheet
from methodfigures.part.arranging import place
from methodfigures.part.foot import draw_foot, foot_height
from methodfigures.part.naming import name
from methodfigures.part.notes import Room, flights
from methodfigures.part.picture import draw_cut_line, draw_rings, draw_view
from methodfigures.part.placing import EDGE, FIRST_LANE, LANE, Placed, beside_view, column_step, first_stair, notes_of
from methodfigures.part.spec import PartDrawing, Side, Size
from methodfigures.part.symbols import draw_note
from methodfigures.solids.views import ViewBook

CROWD: Final = 9.0
"""mm: holes that are nearer than this are in the way of each other's names."""
TALLEST: Final = 205.0
"""mm of paper that the views may take."""


def draw_part(spec: PartDrawing, book: ViewBook | None = None) -> Drawing:
    """The finished part as a drawing office shows it.

    Views by ISO 5456-2 at the largest scale of ISO 5455 that fits, sizes by ISO 129-1, threads by ISO 6410-1; what is
    too small to be seen is enlarged in a detail, what is long and thin is broken (ISO 128-3).
    """
    return compose_part(spec, book or ViewBook()).drawing(spec.title, spec.description or spec.title)


def compose_part(spec: PartDrawing, book: ViewBook) -> Sheet:
    """The sheet of `draw_part` before it becomes a drawing."""
    laid = place(spec, spec.width, TALLEST)
    foot = foot_height(spec)
    sheet = Sheet(spec.width, foot + laid.under + laid.high + EDGE)
    for one in laid.views:
        scale = one.own(laid.scale)
        one.origin = one.origin + np.array([0.0, foot])
        draw_view(sheet, spec, book, one, scale)
        _sizes(sheet, one, scale)
        _notes(sheet, one, scale)
    draw_foot(sheet, spec, book, laid.scale, foot)
    for one in laid.views:
        draw_cut_line(sheet, one, laid.scale)
    for one in laid.views:
        _labels(sheet, one, one.own(laid.scale))
        draw_rings(sheet, one, laid.scale)
    return sheet


def _labels(sheet: Sheet, one: Placed, scale: float) -> None:
    """Names of holes at their upper right; names of points on the far side of the middle of them all.

    Those that have most others near them choose first.
    """
    points = [one.spot(label.spot, scale) for label in one.view.labels if not label.diameter]
    middle = np.mean(points, axis=0) if points else np.zeros(2)
    spots = np.array([one.spot(label.spot, scale) for label in one.view.labels]).reshape(-1, 2)
    crowd = [int((np.hypot(*(spots - spot).T) < CROWD).sum()) for spot in spots]
    for _, label in sorted(zip(crowd, one.view.labels, strict=True), key=lambda two: -two[0]):
        at = one.spot(label.spot, scale)
        out = math.degrees(math.atan2(*(at - middle)[::-1])) if not label.diameter else 45.0
        name(sheet, label.words, at, label.diameter * scale / 2 + 0.7, out)


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
    x += (FIRST_LANE + LANE * (lanes - 1) + 4.0 if lanes else 0.0) + beside_view(one)
    for note, y in column(mirrored, x, float(low[1]) + 1.0, float(high[1]) + 4.0, step):
        tip = (mirror * note.spot[0], note.spot[1])
        draw_note(sheet, tip, (mirror * x, y), note.words, right=right, dot=note.dot)


def _level(sheet: Sheet, one: Placed, scale: float, notes: Sequence[Note]) -> None:
    """Notes over the view, mirrored where they stand below it."""
    low, high = one.box(scale)
    mirror = 1.0 if one.notes_side is Side.ABOVE else -1.0
    edge = float(high[1]) if mirror > 0 else -float(low[1])
    turned = [Note((n.spot[0], mirror * n.spot[1]), n.words, n.dot) for n in notes]
    y = edge + one.clear + first_stair(one, notes)
    middle = float(low[0] + high[0]) / 2
    for standing in flights(turned, Room(y, middle, EDGE + 1.0, sheet.width - EDGE - 1.0)):
        x, level = standing.note.spot
        elbow = (standing.x, mirror * standing.y)
        note = standing.note
        draw_note(sheet, (x, mirror * level), elbow, note.words, right=standing.right, dot=note.dot)


__all__ = ["compose_part", "draw_part"]
