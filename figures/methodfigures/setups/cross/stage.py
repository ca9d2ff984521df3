"""At what scale and where does round work lie on the table: elevation, face to the right, and end view left of it?"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import SCALES, scale_for
from methodfigures.paper.shapes import pairs
from methodfigures.paper.sheet import SHEET_WIDTH, TALLEST, Sheet
from methodfigures.setups.cross import head
from methodfigures.setups.cross.spec import CrossSetup
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook
from methodtooling.cutters import ARBOR

END_X: Final = 35.0
"""Middle of the end view."""
BETWEEN: Final = 66.0
"""Where the end view ends and the elevation begins."""
LEFT: Final = 74.0
RIGHT: Final = 20.0
BESIDE: Final = 28.0
"""Room right of the axis in the end view, where a cutter on its arbor stands."""
TOOL: Final = 16.0
"""Height of the tool that shows."""
TABLE: Final = 6.0
LARGEST: Final = 5.0
EVERY: Final = 9e4


@dataclass
class CrossStage:
    """Everything that is fixed before the first line is drawn; s, r and h (height above the axis) in mm."""

    spec: CrossSetup
    book: ViewBook
    elevation: Floats
    end_view: Floats
    length: float
    swing: float
    shape: BaseGeometry
    scale: float = 1.0
    face_x: float = 0.0
    shown: float = 0.0
    axis_y: float = 0.0
    floor: float = 0.0
    block_top: float = 0.0
    block: tuple[float, float] = (0.0, 0.0)
    lanes: tuple[float, float] = (0.0, 0.0)
    tool_y: float = 0.0
    names_y: float = 4.0
    sheet: Sheet = field(default_factory=Sheet)

    def x(self, s: float) -> float:
        """Paper x in the elevation of a length from the face."""
        return self.face_x - s * self.scale

    def y(self, h: float) -> float:
        """Paper y of a height above the axis."""
        return self.axis_y + h * self.scale

    def places(self) -> tuple[Place, Place]:
        """Where elevation and end view go."""
        k, at = self.scale, self.spec.face_point
        up = Place(self.elevation, k, np.array([self.face_x, self.axis_y]) - self.elevation[:2] @ at * k)
        return up, Place(self.end_view, k, np.array([END_X, self.axis_y]) - self.end_view[:2] @ at * k)

    def top(self, s: float) -> float:
        """Height of the work above the axis at the length s, mm."""
        cut = self.shape.intersection(shapely.LineString([(s, -EVERY), (s, EVERY)]))
        return 0.0 if cut.is_empty else float(cut.bounds[3])

    @property
    def radius(self) -> float:
        """Radius of the gripped round, mm."""
        return self.spec.grip_diameter / 2

    @property
    def tool_x(self) -> float:
        """Paper x of the tool in the end view."""
        return END_X + float(self.end_view[0] @ self.spec.aside) * self.scale

    @property
    def cut_depth(self) -> float:
        """Where the plane of the elevation is, towards the reader."""
        return float(self.elevation[2] @ (self.spec.face_point + self.spec.aside))

    @property
    def end_depth(self) -> float:
        """Where the plane of the end view is, towards the reader."""
        a, b = self.spec.span
        return float(self.end_view[2] @ self.spec.face_point) - (a + b) / 2


def staged(spec: CrossSetup, book: ViewBook) -> CrossStage:
    """Scale and heights of a set-up."""
    n, f = spec.upward, spec.face
    elevation = np.stack([f, n, np.cross(f, n)])
    end_view = np.stack([np.cross(n, f), n, f])
    zero = elevation[:2] @ spec.face_point
    shape = shapely.transform(
        book.silhouette(spec.before, elevation), lambda p: pairs(zero[0] - p[:, 0], p[:, 1] - zero[1])
    )
    _, low, length, high = shape.bounds
    end = book.silhouette(spec.before, end_view).bounds
    swing = max(-low, high, *(abs(v - float(end_view[0] @ spec.face_point)) for v in (end[0], end[2])))
    stage = CrossStage(
        spec=spec, book=book, elevation=elevation, end_view=end_view, length=length, swing=swing, shape=shape
    )
    for largest in [k for k in SCALES if k <= LARGEST]:
        if spec.holder_parts:
            head.fit(stage, LEFT - 6.0, RIGHT, largest)
        else:
            _fit(stage, largest)
        _rise(stage)
        if stage.sheet.height <= TALLEST:
            break
    return stage


def beside(spec: CrossSetup) -> list[float]:
    """Largest scale at which a cutter on its arbor has room beside the work in the end view."""
    return [BESIDE / (spec.floor + spec.cutter_diameter / 2 + ARBOR / 2)] if spec.disc else []


def _fit(stage: CrossStage, largest: float) -> None:
    spec = stage.spec
    room = SHEET_WIDTH - LEFT - RIGHT
    last = max(spec.span[1], spec.span[0]) + max(0.4 * stage.radius, 2.0)
    limits = [16.5 / stage.swing, (room - 6) / last, 15 / stage.radius, largest, *beside(spec)]
    if spec.cutter_diameter:
        limits.append(24 / spec.cutter_diameter)
    whole = room / stage.length
    stage.scale = k = scale_for(max(min(limits), min(whole, *limits)))
    stage.shown = min(stage.length, room / k)
    left_over = room - stage.shown * k
    stage.face_x = SHEET_WIDTH - RIGHT - 0.4 * left_over
    low, high = spec.grip if len(spec.grip) == 2 else _lies_on(stage)
    stage.block = max(0.0, low), min(max(high, low + 6 / k), stage.length)


def _lies_on(stage: CrossStage) -> tuple[float, float]:
    """The longest stretch whose underside is the gripped round, a little shortened."""
    at = np.linspace(0.0, stage.shown, 121)
    cuts = [stage.shape.intersection(shapely.LineString([(s, -EVERY), (s, EVERY)])) for s in at]
    fits = [not c.is_empty and abs(c.bounds[1] + stage.radius) < 0.02 * stage.radius + 0.02 for c in cuts]
    best = run = (0, -1)
    for i, good in enumerate(fits):
        run = (run[0], i) if good and run[1] == i - 1 else (i, i) if good else run
        best = run if run[1] - run[0] > best[1] - best[0] else best
    if best[1] - best[0] < 6:
        return 0.15 * stage.shown, 0.85 * stage.shown
    a, b = float(at[best[0]]), float(at[best[1]])
    spare = 0.08 * (b - a)
    return a + spare, b - spare if b < stage.length - 1e-6 else b


def _rise(stage: CrossStage) -> None:
    spec, k, r = stage.spec, stage.scale, stage.radius
    below = max(1.42 * r + max(0.5 * r, 5 / k) if spec.holding == "vee-block" else r + 6 / k, stage.swing + 2 / k)
    stage.floor = stage.names_y + 5.5 + TABLE
    stage.axis_y = stage.floor + (head.above_table(stage) if spec.holder_parts else below * k)
    stage.block_top = -0.25 * r if spec.holding == "vee-block" else 0.35 * r
    a, b = spec.span
    top = stage.y(max(stage.swing, stage.top((a + b) / 2)))
    first = top + 6.0
    stage.lanes = (first, first + 7.0)
    stage.tool_y = first + 14.0
    rows = 1 + (abs(spec.angle % 360.0) > 0.5 or bool(spec.words("reading", "")))  # words over the end view
    stage.sheet = Sheet(SHEET_WIDTH, stage.tool_y + TOOL + 2.5 + rows * lettering.LEADING * lettering.HEIGHT)
