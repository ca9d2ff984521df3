"""Where does the part that a method makes differ from the part that was wanted?  Faults numbered in their places."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import INK, PAPER
from methodfigures.paper.shapes import polygons
from methodfigures.paper.sheet import FINE, NARROW, SHEET_WIDTH, Layer, Sheet
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.views import Place, ViewBook, basis, draw_look, extent

STEP: Final = 5.6
TEXT: Final = 2.2
LANE: Final = 11.0
"""Room above and below a view for its balloons."""
COLUMNS: Final = (
    ("no.", 14.0, "centre"),
    ("", 24.0, "left"),
    ("belongs to", 54.0, "left"),
    ("where", 92.0, "left"),
    ("mm³", 140.0, "right"),
    ("mm thick", 162.0, "right"),
)


@dataclass(frozen=True)
class Fault:
    """Metal that is `kind` "left on" or "missing": its solid, what it belongs to, where, how much, how thick."""

    kind: str
    solid: Mesh
    belongs_to: str
    where: str
    volume: str = ""
    thickness: str = ""

    def key(self) -> str:
        """A digest of everything in the fault."""
        parts = (self.kind, self.solid.key(), self.belongs_to, self.where, self.volume, self.thickness)
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@dataclass(frozen=True)
class Proof:
    """The part that was wanted and the faults found; `side` and `end` = (right, up) directions of the two views."""

    wanted: tuple[Mesh, ...]
    faults: tuple[Fault, ...]
    side: tuple[tuple[float, float, float], tuple[float, float, float]] = ((0, 0, -1), (1, 0, 0))
    end: tuple[tuple[float, float, float], tuple[float, float, float]] = ((1, 0, 0), (0, 1, 0))
    side_name: str = "from the front, end A right"
    end_name: str = "from end B"
    axes: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    title: str = "What the method leaves wrong"
    description: str = ""

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        parts = (
            [m.key() for m in self.wanted],
            [f.key() for f in self.faults],
            self.side,
            self.end,
            self.side_name,
            self.end_name,
            self.axes,
            self.title,
            self.description,
        )
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@dataclass
class _View:
    """One of the two views with the faults shown in it: (shape on the paper, number, kind)."""

    place: Place
    left: float
    right: float
    marks: list[tuple[BaseGeometry, int, str]]


def draw_proof(spec: Proof, book: ViewBook | None = None) -> Drawing:
    """Side and end view of the wanted part in narrow lines; metal left on black, metal missing hatched; a table."""
    return compose_proof(spec, book or ViewBook()).drawing(spec.title, spec.description or describe(spec))


def compose_proof(spec: Proof, book: ViewBook) -> Sheet:
    """The sheet of `draw_proof` before it becomes a drawing."""
    side, end = basis(*spec.side), basis(*spec.end)
    scale, (w0, h0), (w1, h1) = _scale(spec, side, end)
    tall = max(h0, h1) * scale
    table = STEP * (len(spec.faults) + 1)
    sheet = Sheet(SHEET_WIDTH, table + tall + 2 * LANE + 16)
    cy = sheet.height - LANE - 3 - tall / 2
    gap = max(12.0, (SHEET_WIDTH - 16 - (w0 + w1) * scale) / 3)
    x0 = 8 + max(0.0, (SHEET_WIDTH - 16 - (w0 + w1) * scale - gap) / 2) + w0 * scale / 2
    x1 = x0 + w0 * scale / 2 + gap + w1 * scale / 2
    middle = x0 + w0 * scale / 2 + gap / 2
    views = [
        _View(_centred(spec, side, scale, (x0, cy)), 5.0, middle - 1, []),
        _View(_centred(spec, end, scale, (x1, cy)), middle + 1, SHEET_WIDTH - 5, []),
    ]
    for view in views:
        draw_look(sheet, book.look(spec.wanted, view.place.basis), view.place, wide=NARROW, narrow=FINE, z=2.0)
    _axes(sheet, spec, views, scale)
    _shade(sheet, spec, views, book)
    for view in views:
        _balloons(sheet, view, cy, tall / 2 + LANE - 4)
    y = table + 6.5
    sheet.text(x0, y, _key_words(spec, w0 * scale), TEXT)
    sheet.text(x1, y, spec.end_name, TEXT)
    _table(sheet, spec.faults, table + 3.0)
    return sheet


def _scale(spec: Proof, side: Floats, end: Floats) -> tuple[float, tuple[float, float], tuple[float, float]]:
    solids = [*spec.wanted, *(f.solid for f in spec.faults)]
    sizes = []
    for view in (side, end):
        low, high = extent(view, solids)
        sizes.append((float(high[0] - low[0]), float(high[1] - low[1])))
    k = lanes.scale_for(min((SHEET_WIDTH - 34) / (sizes[0][0] + sizes[1][0]), 60 / max(sizes[0][1], sizes[1][1])))
    return k, sizes[0], sizes[1]


def _centred(spec: Proof, view: Floats, scale: float, centre: tuple[float, float]) -> Place:
    low, high = extent(view, [*spec.wanted, *(f.solid for f in spec.faults)])
    return Place(view, scale, np.array(centre) - (low + high) / 2 * scale)


def _key_words(spec: Proof, room: float) -> str:
    long = f"{spec.side_name}; black: left on, hatched: missing"
    return long if lettering.width(long, TEXT) < room + 30 else "black: left on, hatched: missing"


def _axes(sheet: Sheet, spec: Proof, views: Sequence[_View], scale: float) -> None:
    for view in views:
        low, high = (view.place.points(p) for p in extent(view.place.basis, spec.wanted))
        for x, y in spec.axes:
            p = view.place.spot((x, y, 0.0))
            if abs(view.place.basis[2, 2]) > 0.5:
                reach = min(max(high[0] - p[0], p[0] - low[0]), max(high[1] - p[1], p[1] - low[1]))
                sheet.centre_mark(p, float(reach), 2.5)
            else:
                sheet.centre_line((low[0], p[1]), (high[0], p[1]), 3)


def _shade(sheet: Sheet, spec: Proof, views: Sequence[_View], book: ViewBook) -> None:
    """Each fault in the view in which it covers least: that view shows its thickness."""
    for number, fault in enumerate(spec.faults, 1):
        shapes = [v.place.shape(book.silhouette([fault.solid], v.place.basis)) for v in views]
        i = int(np.argmin([g.area for g in shapes]))
        g = shapes[i]
        if fault.kind == "left on":
            sheet.area(g, INK, 7.0)
            sheet.outline(g, "wide", 7.1, width=0.3, ink=False)
        else:
            sheet.area(g, PAPER, 7.2)
            sheet.hatch(g, 45, 0.7, FINE, 7.3)
            sheet.outline(g, "wide", 7.4, width=0.25, ink=False)
        views[i].marks.append((g, number, fault.kind))


def _own(view: _View, i: int) -> BaseGeometry:
    """The part of a fault that no other fault covers, if there is one."""
    mine = view.marks[i][0]
    others = shapely.union_all([m[0] for j, m in enumerate(view.marks) if j != i])
    free = mine.difference(others.buffer(0.3))
    return max(polygons(free) or polygons(mine), key=lambda p: p.area)


def _balloons(sheet: Sheet, view: _View, cy: float, reach: float) -> None:
    """Numbers in two lanes, above and below the view, in the order of their spots, so that leaders do not cross."""
    rows: dict[int, list[tuple[float, float, int, str]]] = {1: [], -1: []}
    for i, (_, number, kind) in enumerate(view.marks):
        p = _own(view, i).representative_point()
        above = p.y > cy + 0.5 or (p.y > cy - 0.5 and len(rows[1]) <= len(rows[-1]))
        rows[1 if above else -1].append((p.x, p.y, number, kind))
    for side, row in rows.items():
        row.sort()
        y = cy + side * reach
        for (px, py, number, kind), x in zip(
            row, lanes.spread([r[0] - 3.5 for r in row], [7.0] * len(row), view.left, view.right), strict=True
        ):
            sheet.lines([[(px, py), (x + 3.5, y - side * 2.9)]], NARROW, Layer.ARROW, ink=False)
            sheet.register.leaders.append(shapely.LineString([(px, py), (x + 3.5, y - side * 2.9)]))
            spot = PAPER if kind == "left on" else INK
            sheet.circle((px, py), 0.45, "narrow", Layer.ARROW + 0.1, fill=spot, width=FINE, ink=False)
            dim.balloon(sheet, (x + 3.5, y), str(number))


def _table(sheet: Sheet, faults: Sequence[Fault], top: float) -> None:
    rows = [tuple(name for name, _, _ in COLUMNS)]
    rows += [(str(i), f.kind, f.belongs_to, f.where, f.volume, f.thickness) for i, f in enumerate(faults, 1)]
    limits = (8.0, 28.0, 36.0, 40.0, 20.0, 20.0)
    for i, row in enumerate(rows):
        sheet.lines([[(8, top - i * STEP), (164, top - i * STEP)]], NARROW if i < 2 else FINE, 2.0)
        for (_, x, align), words, limit in zip(COLUMNS, row, limits, strict=True):
            if words:
                sheet.text(x, top - i * STEP - 4, lettering.shortened(words, limit, 1, TEXT)[0], TEXT, align=align)
    sheet.lines([[(8, top - len(rows) * STEP), (164, top - len(rows) * STEP)]], NARROW, 2.0)


def describe(spec: Proof) -> str:
    """The faults in words."""
    if not spec.faults:
        return "No fault: the part comes out as it was wanted."
    lines = [f"{i}: {f.kind}, {f.belongs_to}, {f.where}" for i, f in enumerate(spec.faults, 1)]
    return f"{len(spec.faults)} faults. " + "; ".join(lines) + "."
