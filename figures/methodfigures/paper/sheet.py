"""A drawing sheet in paper millimetres: lines, areas, hatching and lettering to drawing practice.

Origin in the lower left corner, y upwards.  Line types and widths after ISO 128-2, group 0.5: visible outlines wide
(0.5), everything else narrow (0.25), hatching narrower still.  Whatever is put on the sheet is also entered in its
register, and `clashes` tells what lies over what.  Order on the paper is by `z`, never by the order of the calls.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Final

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import clash, writer
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.marks import CLOSE, CURVE, LINE, MOVE, Mark, PathMark, Style, TextMark
from methodfigures.paper.palette import INK, LIGHT, PAPER, REMOVED
from methodfigures.paper.shapes import (
    PATTERNS,
    Points,
    dashes,
    freehand,
    hatch_lines,
    pairs,
    point,
    points,
    polygons,
    rings,
)

WIDE: Final = 0.5
NARROW: Final = 0.25
HATCH: Final = 0.18
FINE: Final = 0.13
"""Line widths in mm."""

THREAD: Final = 0.7
"""mm of paper at least between the two lines of a thread (ISO 6410-1, from memory)."""
SHEET_WIDTH: Final = 170.0
"""Width of every set-up figure in mm."""
TALLEST: Final = 95.0
"""Height of a set-up figure in mm at most: two stand on a page, and neither is made smaller to fit."""


class Layer:
    """Heights of the usual things on the paper; larger = nearer to the reader."""

    HOLDER = 2.0
    WORK = 3.5
    HATCH = 4.0
    REMOVED = 4.3
    EDGE = 5.0
    DIMENSION = 6.0
    AXIS = 6.5
    TOOL = 7.0
    ARROW = clash.ARROW
    TEXT = 9.0


class Sheet:
    """An empty sheet of `width` × `height` mm; the height may be set later, as long as it is set before output."""

    def __init__(self, width: float = SHEET_WIDTH, height: float = 100.0) -> None:
        self.width = width
        self.height = height
        self.marks: list[Mark] = []
        self.register = clash.Register()
        self._clashes: tuple[tuple[float, ...], tuple[str, ...]] | None = None

    # ------------------------------------------------------------------ lines
    def lines(
        self,
        lines: Iterable[ArrayLike],
        width: float = NARROW,
        z: float = Layer.EDGE,
        *,
        cap: str = "round",
        ink: bool = True,
        role: str = INK,
    ) -> None:
        """Solid polylines `width` mm wide; `ink` = no lettering may touch them."""
        style = Style(None, role, width, cap)
        for line in lines:
            p = points(line)
            if len(p) < 2:
                continue
            self.marks.append(PathMark(z, style, p))
            if ink:
                self.register.inks.append(clash.Ink(p, width, z))

    def line(
        self,
        line: ArrayLike,
        kind: str = "wide",
        z: float = Layer.EDGE,
        *,
        width: float | None = None,
        ink: bool = True,
    ) -> None:
        """One polyline of `kind` "wide", "narrow", "hidden", "centre" or "phantom"."""
        if kind in PATTERNS:
            w = width or NARROW
            self.lines(dashes(line, kind, w), w, z, cap="butt", ink=ink and kind != "hidden")
        else:
            self.lines([line], width or (WIDE if kind == "wide" else NARROW), z, ink=ink)

    def outline(
        self,
        shape: BaseGeometry,
        kind: str = "wide",
        z: float = Layer.EDGE,
        *,
        width: float | None = None,
        ink: bool = True,
    ) -> None:
        """All outlines of a shape."""
        for ring in rings(shape):
            self.line(ring, kind, z, width=width, ink=ink)

    def centre_line(self, start: ArrayLike, end: ArrayLike, over: float = 3.0, z: float = Layer.AXIS) -> None:
        """Long-dash-dot line that runs `over` mm beyond both points."""
        p, q = point(start), point(end)
        d = (q - p) / max(math.hypot(*(q - p)), 1e-9)
        self.line([p - d * over, q + d * over], "centre", z)

    def centre_mark(self, centre: ArrayLike, radius: float, over: float = 2.0, angle: float = 0.0) -> None:
        """Two crossing centre lines of a circle."""
        c, a = point(centre), math.radians(angle)
        for d in (np.array([math.cos(a), math.sin(a)]), np.array([-math.sin(a), math.cos(a)])):
            self.centre_line(c - d * radius, c + d * radius, over)

    def break_line(self, start: ArrayLike, end: ArrayLike, height: float = 0.8, z: float = Layer.EDGE) -> Points:
        """Freehand break line; its points."""
        p = freehand(start, end, height)
        self.lines([p], NARROW, z, ink=False)
        self.register.barriers.append(("a break", shapely.LineString(p)))
        return p

    def circle(
        self,
        centre: ArrayLike,
        radius: float,
        kind: str | None = "narrow",
        z: float = Layer.EDGE,
        *,
        fill: str | None = None,
        width: float | None = None,
        ink: bool = True,
    ) -> None:
        """Circle with real arcs; `fill` = role of the area or None."""
        ring = _CIRCLE * radius + point(centre)
        codes = _CIRCLE_CODES
        outline = point(centre) + radius * _ROUND
        if fill:
            self.marks.append(PathMark(z - 0.02, Style(fill), ring, codes))
            self.register.fills.append((z - 0.02, shapely.Polygon(outline)))
        if kind in PATTERNS:
            self.line(outline, str(kind), z, width=width, ink=ink)
        elif kind:
            w = width or (WIDE if kind == "wide" else NARROW)
            self.marks.append(PathMark(z, Style(None, INK, w), ring, codes))
            if ink:
                self.register.inks.append(clash.Ink(outline, w, z))

    # ------------------------------------------------------------------ areas
    def area(self, shape: BaseGeometry | None, fill: str = PAPER, z: float = Layer.WORK) -> None:
        """Fill a shape with the colour of a role."""
        style = Style(fill)
        for p in polygons(shape):
            loops = rings(p)
            codes = np.frombuffer(b"".join(_MOVED + _DRAWN * (len(r) - 2) + _CLOSED for r in loops), np.uint8)
            self.marks.append(PathMark(z, style, np.concatenate(loops), codes))
            self.register.fills.append((z, p))

    def hatch(
        self,
        shape: BaseGeometry | None,
        angle: float = 45.0,
        pitch: float = 2.0,
        width: float = HATCH,
        z: float = Layer.HATCH,
    ) -> None:
        """Hatching of a cut face: one angle and pitch for each body."""
        self.lines(hatch_lines(shape, angle, pitch), width, z, cap="butt", ink=False)

    def removed(
        self, shape: BaseGeometry | None, z: float = Layer.REMOVED, *, pitch: float = 1.1, outline: bool = True
    ) -> None:
        """Metal taken away: tint, fine crossed hatching that survives a photocopier, phantom outline."""
        self.area(shape, REMOVED, z - 0.1)
        for angle in (45.0, -45.0):
            self.hatch(shape, angle, pitch, FINE, z)
        if outline:
            for ring in rings(shape):
                self.lines(dashes(ring, "phantom", FINE * 1.4), 0.2, z + 0.1, cap="butt", ink=False)

    # ------------------------------------------------------------------ lettering
    def text(
        self,
        x: float,
        y: float,
        words: str,
        height: float = lettering.HEIGHT,
        *,
        align: str = "centre",
        level: str = "base",
        turn: float = 0.0,
        mask: bool = False,
        weight: str = "normal",
        z: float = Layer.TEXT,
    ) -> None:
        """Lettering with capitals of `height` mm.

        `align` "left", "centre" or "right" of x; `level` "base", "middle" or "top" of the first line (of the whole
        for "middle") at y; `turn` degrees anticlockwise about (x, y); `mask` = on a patch of paper that breaks
        narrow lines.  A line break starts a new line below.
        """
        rows = words.split("\n")
        a = math.radians(turn)
        turned = np.array([[math.cos(a), math.sin(a)], [-math.sin(a), math.cos(a)]])
        drop = {"base": 0.0, "top": -height, "middle": -height / 2 + (len(rows) - 1) * height * lettering.LEADING / 2}
        for i, row in enumerate(rows):
            if not row.strip():
                continue
            w = lettering.width(row, height, weight)
            left = -w * {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
            base = drop[level] - i * height * lettering.LEADING
            low = base - lettering.DESCENT * height
            box = np.array([[left, low], [left + w, low], [left + w, base + height], [left, base + height]])
            self.register.texts.append(clash.TextBox(shapely.Polygon(box @ turned + (x, y)), row, mask, z))
            if mask:
                grown = box + np.array([[-0.5, -0.1], [0.5, -0.1], [0.5, 0.4], [-0.5, 0.4]])
                self.area(shapely.Polygon(grown @ turned + (x, y)), PAPER, z - 0.1)
                self.register.fills.pop()
            px, py = np.array([left, base]) @ turned + (x, y)
            self.marks.append(
                TextMark(z=z, text=row, x=float(px), y=float(py), height=height, width=w, turn=turn, weight=weight)
            )

    # ------------------------------------------------------------------ output
    def clashes(self) -> tuple[str, ...]:
        """Every overlap on the sheet (see `clash`)."""
        r = self.register
        drawn = (
            len(r.texts),
            len(r.inks),
            len(r.fills),
            len(r.leaders),
            len(r.arrows),
            len(r.barriers),
            self.width,
            self.height,
        )
        if self._clashes is None or self._clashes[0] != drawn:
            self._clashes = (drawn, clash.found(r, self.width, self.height))
        return self._clashes[1]

    def raster(self, dpi: float = 96.0, colours: Mapping[str, str] = LIGHT) -> NDArray[np.uint8]:
        """The sheet as a picture, (rows, columns) of grey 0 … 255, in a scheme; for tests and previews."""
        from methodfigures.paper.raster import raster

        return raster(self._all_marks(), self.width, self.height, dpi, colours)

    def _all_marks(self) -> list[Mark]:
        self.height = math.ceil(self.height * 10) / 10
        return [PathMark(-1.0, Style(PAPER), _frame(self.width, self.height), _FRAME_CODES), *self.marks]

    def drawing(self, title: str, description: str) -> Drawing:
        """The finished drawing with its overlap test."""
        body = writer.document(self._all_marks(), self.width, self.height, title, description)
        return Drawing(body, self.width, self.height, title, description, self.clashes())


_BOW = 0.5522847498
"""Length of the handles by which four cubic curves follow a circle of radius 1 within 0.03 %."""
_CIRCLE = np.array(
    [
        [1, 0],
        [1, _BOW],
        [_BOW, 1],
        [0, 1],
        [-_BOW, 1],
        [-1, _BOW],
        [-1, 0],
        [-1, -_BOW],
        [-_BOW, -1],
        [0, -1],
        [_BOW, -1],
        [1, -_BOW],
        [1, 0],
        [1, 0],
    ],
    float,
)
_CIRCLE_CODES = np.array([MOVE, *[CURVE] * 12, CLOSE], np.uint8)
_MOVED, _DRAWN, _CLOSED = bytes([MOVE]), bytes([LINE]), bytes([CLOSE])
_TURN = np.radians(np.arange(0, 361, 6))
_ROUND = pairs(np.cos(_TURN), np.sin(_TURN))
_FRAME_CODES = np.array([MOVE, LINE, LINE, LINE, CLOSE], np.uint8)


def _frame(width: float, height: float) -> Points:
    return np.array([[0, 0], [width, 0], [width, height], [0, height], [0, 0]], float)
