"""What does each operation of a method cut, seen in section?  A strip of sections, one for each operation."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from methodfigures.paper.drawing import Drawing
from methodfigures.paper.sheet import FINE, SHEET_WIDTH, Sheet
from methodfigures.route.storyboard import Cell, Grid, describe, draw_caption, tell_rest, tell_rest_height
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.views import Place, ViewBook, basis, draw_cut, extent

ROUND, GAP = 0.97, 0.4
"""Share of the greatest radius that an outermost corner reaches, and radians between two of them at most."""


@dataclass(frozen=True)
class SectionStrip:
    """The cells of a method in order; `axes` = (x, y) of axes along z to show as centre lines."""

    cells: tuple[Cell, ...]
    columns: int = 3
    axes: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    title: str = "Route of the method in sections"
    description: str = ""
    rest: str = ""
    """What is left out, in words, at the foot."""

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        parts = ([c.key() for c in self.cells], self.columns, self.axes, self.title, self.description, self.rest)
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@dataclass(frozen=True, eq=False)
class _Chosen:
    """The section that shows an operation: view, height of the cutting plane, across the axis or along it."""

    view: Floats
    depth: float
    across: bool


def draw_section_strip(spec: SectionStrip, book: ViewBook | None = None) -> Drawing:
    """Sections along the axis; where the removed metal shows better across the axis, a cross-section."""
    return compose_section_strip(spec, book or ViewBook()).drawing(spec.title, spec.description or describe(spec.cells))


def compose_section_strip(spec: SectionStrip, book: ViewBook) -> Sheet:
    """The sheet of `draw_section_strip` before it becomes a drawing."""
    grid = Grid(spec.cells, spec.columns, 1)
    chosen = [_choose(book, c) for c in spec.cells]
    sizes = [extent(q.view, [*c.after, *c.removed]) for c, q in zip(spec.cells, chosen, strict=True)]
    wide = max(float((high - low)[0]) for low, high in sizes)
    tall = max(float((high - low)[1]) for low, high in sizes)
    scale = min((grid.width - 8) / wide, 0.62 * grid.width / tall)
    rows = [
        max(float((h - low)[1]) for low, h in sizes[i * spec.columns : (i + 1) * spec.columns]) * scale
        for i in range(grid.rows)
    ]
    heights = [grid.heading(i) + rows[i] + grid.caption(i) + 6.0 for i in range(grid.rows)]
    sheet = Sheet(SHEET_WIDTH, sum(heights) + 2.5 + tell_rest_height(spec.rest))
    tell_rest(sheet, spec.rest)
    top = sheet.height - 1.5
    for i, height in enumerate(heights):
        grid.draw_heading(sheet, i, top)
        for j, cell in enumerate(grid.row(i)):
            n = i * spec.columns + j
            centre = np.array([(j + 0.5) * grid.width, top - grid.heading(i) - 2.5 - rows[i] / 2])
            middle = (sizes[n][0] + sizes[n][1]) / 2
            place = Place(chosen[n].view, scale, centre - middle * scale)
            _draw_cell(sheet, book, cell, chosen[n], place, spec.axes)
            base = top - height + grid.caption(i) - 1.6
            draw_caption(sheet, j * grid.width + 2, base, cell.number, cell.words, grid.width - 4, 1)
        top -= height
    return sheet


def _choose(book: ViewBook, cell: Cell) -> _Chosen:
    """The plane through which most of the removed metal is cut; the usual one when all of it is turned."""
    t = float(cell.face[2]) or 1.0
    along = [basis((0, 0, t), up) for up in ((1, 0, 0), (0, 1, 0))]
    best = _Chosen(along[0], 0.0, False)
    solids = [m for m in cell.removed if not m.empty]
    if not solids or all(_round(m) for m in solids) or _turned(cell, solids):
        return best
    across = basis((1, 0, 0), (0, 1, 0)) if t > 0 else basis((0, 1, 0), (1, 0, 0))
    z = [m.vertices[:, 2] for m in solids]
    middle = float(np.mean([(v.min() + v.max()) / 2 for v in z]))
    options = [best, _Chosen(along[1], 0.0, False), _Chosen(across, float(across[2] @ (0, 0, middle)), True)]
    areas = [book.section(cell.removed, o.view, o.depth).area for o in options]
    return options[int(np.argmax(np.array(areas) * (1.02, 1.0, 0.98)))]


def _round(mesh: Mesh) -> bool:
    """Whether a solid is round all about an axis along the work: a ring that is turned off, what a drill takes.

    Its outermost corners stand all the way round the middle of its box.
    """
    across = mesh.vertices[:, :2]
    out = across - (across.min(0) + across.max(0)) / 2
    far = np.hypot(out[:, 0], out[:, 1])
    at = np.sort(np.arctan2(*out[far > ROUND * far.max()].T))
    return bool(np.diff(at, append=at[0] + 2 * np.pi).max() < GAP)


def _turned(cell: Cell, solids: Sequence[Mesh]) -> bool:
    """Whether the removed metal reaches as far across as the work: turned, if not about its own middle."""
    whole = np.concatenate([m.vertices[:, :2] for m in (*cell.after, *solids)])
    gone = np.concatenate([m.vertices[:, :2] for m in solids])
    return bool((np.ptp(gone, axis=0) >= 0.8 * np.ptp(whole, axis=0)).all())


def _draw_cell(
    sheet: Sheet, book: ViewBook, cell: Cell, chosen: _Chosen, place: Place, axes: Sequence[tuple[float, float]]
) -> None:
    cut = book.cut(cell.after, chosen.view, chosen.depth)
    draw_cut(sheet, cut, place, pitches=(1.5, 1.1), wide=0.35, narrow=0.1, hatch=FINE)
    sheet.removed(place.shape(book.section(cell.removed, chosen.view, chosen.depth)), pitch=0.8)
    low, high = (place.points(p) for p in extent(chosen.view, [*cell.after, *cell.removed]))
    for x, y in axes:
        if chosen.across:
            c = place.spot((x, y, 0.0))
            sheet.centre_line((low[0], c[1]), (high[0], c[1]), 1.2)
            sheet.centre_line((c[0], low[1]), (c[0], high[1]), 1.2)
        else:
            level = float(place.spot((x, y, 0.0))[1])
            sheet.centre_line((low[0], level), (high[0], level), 1.5)
