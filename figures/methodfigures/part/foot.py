"""What stands at the foot of the drawing of a part: limits, tables, remarks, pictorial, title block?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from methodfigures.paper import text as lettering
from methodfigures.paper.arrangement import draw_symbol
from methodfigures.paper.lanes import scale_words
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import NARROW, WIDE, Layer, Sheet
from methodfigures.part.placing import EDGE
from methodfigures.part.spec import PartDrawing
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import ViewBook, centred, extent, pictorial_basis

PICTORIAL: Final = (62.0, 40.0)
ROW: Final = 5.2
"""Height of a row of the limits and of the title block, mm."""


def _title_rows(spec: PartDrawing) -> list[list[tuple[str, str, float]]]:
    """Rows of cells (label, words, width) that fill the width of the sheet, about equally full."""
    room = spec.width - 2 * EDGE
    block = [(label, "\n".join(lettering.wrap(words, room - 4.0))) for label, words in spec.block]
    cells = [(a, b, max(lettering.width(a), lettering.width(b)) + 4.0) for a, b in block]
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


TITLE_ROW: Final = 10.2


def _row_height(cells: Sequence[tuple[str, str, float]]) -> float:
    """Height of a row of the title block: a long name takes two lines."""
    more = max(words.count("\n") for _, words, _ in cells)
    return TITLE_ROW + more * lettering.HEIGHT * lettering.LEADING


def foot_height(spec: PartDrawing) -> float:
    """Height that the foot takes, with its free border, mm."""
    tables, picture = _table_height(spec), PICTORIAL[1]
    beside = max(picture, tables) if _side_by_side(spec) else picture + tables + 3.0
    return EDGE + sum(map(_row_height, _title_rows(spec))) + 3.0 + beside + 3.0


def _side_by_side(spec: PartDrawing) -> bool:
    """Whether the pictorial stands beside the tables; under them on a narrow sheet."""
    return spec.width >= 2 * PICTORIAL[0] + 20.0


def _table_height(spec: PartDrawing) -> float:
    rows = len(spec.limits) + (1 if spec.limits else 0) + len(spec.holes) + len(spec.items)
    return ROW * (rows + len(_remarks(spec))) + 2.0


def _remarks(spec: PartDrawing) -> list[str]:
    room = spec.width - 2 * EDGE - (PICTORIAL[0] + 6.0 if _side_by_side(spec) else 2.0)
    return [line for remark in spec.remarks for line in lettering.wrap(remark, room)]


def draw_foot(sheet: Sheet, spec: PartDrawing, book: ViewBook, scale: float, foot: float) -> None:
    """Put the foot on the sheet; `foot` = its height, mm."""
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
        sheet.text(x + 1.5, y + high - 3.7, label, align="left")
        sheet.text(x + 1.5, y + high - TITLE_ROW + 1.8, words, align="left")
        x += wide


def _table(sheet: Sheet, spec: PartDrawing, top: float) -> None:
    """Limits of the toleranced sizes and places of holes, then remarks, left at the foot."""
    x, y = EDGE + 1.0, top - ROW
    limits = [(limit.name, limit.upper, limit.lower) for limit in spec.limits]
    if limits:
        y = _rows(sheet, [("Size", "not over", "not under"), *limits], x, y)
    for rows in (spec.holes, spec.items):
        if rows:
            y = _rows(sheet, rows, x, y)
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
    view = pictorial_basis(face, up)
    if spec.apart:
        solids = tuple(mesh.moved(by) for mesh, by in zip(spec.solids, spec.apart, strict=True))
    else:
        solids = spec.whole or spec.solids
    corner, other = extent(view, solids)
    wide, high = other - corner
    scale = min((PICTORIAL[0] - 20.0) / wide, PICTORIAL[1] / high)
    centre = (sheet.width - EDGE - PICTORIAL[0] / 2 - 8.0, low + PICTORIAL[1] / 2)
    draw_pictorial(sheet, book, solids, (), centred(view, float(scale), centre, solids))
