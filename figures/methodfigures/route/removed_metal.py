"""How much metal goes?  The part in its stock, and one operation with its metal drawn off along the axis."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

import numpy as np

from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.sheet import FINE, SHEET_WIDTH, Layer, Sheet
from methodfigures.solids.mesh import Mesh
from methodfigures.solids.shading import shade_lines
from methodfigures.solids.views import Place, ViewBook, centred, draw_ghost, draw_look, extent, pictorial_basis

PANE = 78.0
TALL = 66.0


@dataclass(frozen=True)
class RemovedMetal:
    """Left: the finished `part` in its `stock`; right: the solids `after` an operation and the metal `removed`, drawn
    `off` mm towards the reader's end.  `face` and `off_face` = outward directions of the ends that look at you, `up` =
    what is up at the left; captions may hold line breaks.  Without `removed` the left picture stands alone.
    """

    part: tuple[Mesh, ...]
    stock: tuple[Mesh, ...]
    caption: str
    face: tuple[float, float, float] = (0.0, 0.0, 1.0)
    after: tuple[Mesh, ...] = ()
    removed: tuple[Mesh, ...] = ()
    off: float = 0.0
    off_face: tuple[float, float, float] = (0.0, 0.0, -1.0)
    off_caption: str = ""
    up: tuple[float, float, float] | None = None
    title: str = "Metal removed"
    description: str = ""

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        solids = [[m.key() for m in group] for group in (self.part, self.stock, self.after, self.removed)]
        rest = (
            self.caption,
            self.face,
            self.up,
            self.off,
            self.off_face,
            self.off_caption,
            self.title,
            self.description,
        )
        return hashlib.sha256(repr((solids, rest)).encode()).hexdigest()


def draw_removed_metal(spec: RemovedMetal, book: ViewBook | None = None) -> Drawing:
    """Two pictorials side by side: part in its stock with ruled shading, and one operation taken apart."""
    words = spec.description or f"{spec.caption} {spec.off_caption}".replace("\n", " ").strip()
    return compose_removed_metal(spec, book or ViewBook()).drawing(spec.title, words)


def compose_removed_metal(spec: RemovedMetal, book: ViewBook) -> Sheet:
    """The sheet of `draw_removed_metal` before it becomes a drawing."""
    captions = [c for c in (spec.caption, spec.off_caption if spec.removed else "") if c]
    foot = max(c.count("\n") + 1 for c in captions or [""]) * lettering.HEIGHT * lettering.LEADING + 6
    shift = np.asarray(spec.off_face, float) * spec.off
    gone = tuple(m.moved(shift) for m in spec.removed)
    left, right = pictorial_basis(spec.face, spec.up or (1, 0, 0)), pictorial_basis(spec.off_face)
    scale = min(_fit(left, (*spec.stock, *spec.part)), _fit(right, (*spec.after, *gone)) if gone else 99.0)
    tall = max(_tall(left, (*spec.stock, *spec.part)), _tall(right, (*spec.after, *gone)) if gone else 0.0) * scale
    sheet = Sheet(SHEET_WIDTH, foot + tall + 6)
    y = foot + tall / 2 + 2
    x = 44.0 if gone else SHEET_WIDTH / 2
    _in_stock(sheet, book, spec, centred(left, scale, (x, y), [*spec.stock, *spec.part]))
    sheet.text(x, foot - 4, spec.caption)
    if gone:
        place = centred(right, scale, (126.0, y), [*spec.after, *gone])
        draw_look(sheet, book.look([*spec.after, *gone], right), place, wide=0.35, narrow=FINE)
        draw_ghost(sheet, book.ghost(spec.after, gone, right), place, phantom=False)
        sheet.text(126.0, foot - 4, spec.off_caption)
    return sheet


def _fit(view: np.ndarray, solids: tuple[Mesh, ...]) -> float:
    low, high = extent(view, solids)
    return float(min(PANE / (high - low)[0], TALL / (high - low)[1]))


def _tall(view: np.ndarray, solids: tuple[Mesh, ...]) -> float:
    low, high = extent(view, solids)
    return float((high - low)[1])


def _in_stock(sheet: Sheet, book: ViewBook, spec: RemovedMetal, place: Place) -> None:
    """The stock in phantom lines behind the shaded part."""
    for line in place.lines(book.look(spec.stock, place.basis).lines.visible()):
        sheet.line(line, "phantom", Layer.HOLDER, ink=False)
    look = book.look(spec.part, place.basis)
    draw_look(sheet, look, place, wide=0.35, narrow=FINE)
    sheet.lines(place.lines(shade_lines(book, spec.part, place.basis)), 0.11, Layer.EDGE, ink=False)
    sheet.outline(place.shape(look.silhouette), "wide", Layer.EDGE + 0.3, width=0.6, ink=False)
