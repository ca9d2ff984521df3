"""How does work stand in the vice, and where on the paper is a place of it?

Where section A–A shows the profile of the cut: plan and section.  Where it shows from the front: front view and
section.  They stand side by side in the order of the projection, named faces below or beside the section.  Sizes
without a unit are paper millimetres; x, y, h are millimetres of the work from its left edge, the edge towards you and
its lower face.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely

from methodfigures.paper.sheet import Sheet
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook

LEFT: Final = 17.0
"""Room for the heights left of the front view."""
BETWEEN: Final = 25.0
"""Room between front view and section: feed arrow, clamping force."""
MOVING: Final = 13.0
FIXED: Final = 17.0
"""Thickness of the jaws that shows in section."""
PACKING: Final = 4.0
"""Height of what stands under clamped work that is drilled through."""
BED: Final = 4.5
"""Height of the table or of the vice's bed that shows."""
JAW_PLAN: Final = 5.0
CUTTER: Final = 12.0
"""Height of the cutter that shows."""
CHUCKED: Final = 17.0
"""Height of a drill that shows, with the mouth of its chuck."""
LANE: Final = 6.0
"""Distance of two dimension lines below the plan."""
COLUMN: Final = 38.0
"""Height that the pictorial and its captions need beside the plan."""
OVERHANG: Final = 9.0
CLAMP: Final = 14.0
"""Most that jaws, and that clamps stand beyond the work on each side."""


@dataclass
class ViceStage:
    """Everything that is fixed before the first line is drawn."""

    spec: ViceSetup
    book: ViewBook
    front: Floats
    plan: Floats
    side: Floats
    span: tuple[float, float, float, float, float, float]
    gripped: tuple[float, float]
    along: str
    path: tuple[tuple[float, float], tuple[float, float]]
    section_x: float
    two: bool
    scale: float = 1.0
    front_x: float = 0.0
    side_x: float = 0.0
    floor: float = 0.0
    under: float = 0.0
    plan_y: float = 0.0
    cutter_y: float = 0.0
    lanes: tuple[float, float, float] = (0.0, 0.0, 0.0)
    names_y: float = 0.0
    level: float = 0.0
    column: float = 0.0
    column_foot: float = 0.0
    column_top: float = 0.0
    plan_room: tuple[float, float] = (0.0, 0.0)
    sheet: Sheet = field(default_factory=Sheet)

    # ------------------------------------------------------------- places on the paper
    def x(self, v: float) -> float:
        """Paper x in front view and plan of a length from the left edge."""
        return self.front_x + (v - self.span[0]) * self.scale

    def y(self, h: float) -> float:
        """Paper y in front view and section of a height above the lower face."""
        return self.floor + self.under + h * self.scale

    def xs(self, v: float) -> float:
        """Paper x in the section of a width from the edge towards you."""
        return self.side_x + (v - self.span[1]) * self.scale

    def yp(self, v: float) -> float:
        """Paper y in the plan of a width from the edge towards you."""
        return self.plan_y + (v - self.span[1]) * self.scale

    @property
    def height(self) -> float:
        """Height of the work before the cut, mm."""
        return self.span[5] - self.span[2]

    def h(self, depth: float) -> float:
        """Height above the lower face of a depth below the upper face."""
        return -depth - self.span[2]

    def place(self, view: Floats) -> Place:
        """Where a view of the work goes."""
        zero = (view[:2] @ np.asarray(self.spec.origin, float)) * self.scale
        at = {
            id(self.front): (self.x(0), self.y(self.h(0))),
            id(self.side): (self.xs(0), self.y(self.h(0))),
            id(self.plan): (self.x(0), self.yp(0)),
        }[id(view)]
        return Place(view, self.scale, np.asarray(at) - zero)

    @property
    def section_depth(self) -> float:
        """Where section A–A is, towards the reader of the section."""
        return float(self.side[2] @ np.asarray(self.spec.origin, float)) + self.section_x

    @property
    def jaw(self) -> tuple[float, float, bool]:
        """(left, right) of the jaws on the paper and whether they are longer than shown."""
        x0, x1 = self.x(self.span[0]), self.x(self.span[3])
        if self.spec.holding == "clamps":
            return x0 - CLAMP, x1 + CLAMP, False
        half, c = self.spec.jaw_length * self.scale / 2, (x0 + x1) / 2
        if half > (x1 - x0) / 2 + OVERHANG:
            return x0 - OVERHANG, x1 + OVERHANG, True
        return c - half, c + half, False

    @property
    def left(self) -> float:
        """Left end of everything in the front view."""
        return min(self.x(self.span[0]), self.jaw[0])

    @property
    def right(self) -> float:
        """Right end of everything in the front view."""
        return max(self.x(self.span[3]), self.jaw[1])


def looked_at(spec: ViceSetup, book: ViewBook) -> ViceStage:
    """The work in its three directions, what the jaws hold of it, and the cutter's path."""
    r = np.asarray(spec.rotation, float)
    right, away, up = r
    front, plan, side = np.stack([right, up, -away]), np.stack([right, away, up]), np.stack([away, up, right])
    v = np.concatenate([m.vertices for m in spec.before]) @ r.T - r @ np.asarray(spec.origin, float)
    (a0, b0, c0), (a1, b1, c1) = v.min(0).tolist(), v.max(0).tolist()
    span = (a0, b0, c0, a1, b1, c1)
    gripped = (span[1], span[4])
    if spec.jawed and spec.grip > 0:
        low = span[2] + float(up @ np.asarray(spec.origin, float))
        band = shapely.box(-9e4, low, 9e4, low + spec.grip * 0.98)
        held = book.silhouette(spec.before, side).intersection(band)
        shift = float(away @ np.asarray(spec.origin, float))
        if not held.is_empty:
            gripped = (held.bounds[0] - shift, held.bounds[2] - shift)
    along = "width" if spec.disc else _run(spec) if spec.verb in ("profile", "pocket") or not spec.along else spec.along
    path = _path(spec, along, span)
    x0, _, x1, _, _ = spec.box
    section = spec.places[0][0] if spec.places else (x0 + x1) / 2
    whole = spec.box[0] <= span[0] + 1e-6 and spec.box[2] >= span[3] - 1e-6
    two = spec.plunging or along == "length" or whole
    return ViceStage(
        spec=spec,
        book=book,
        front=front,
        plan=plan,
        side=side,
        span=span,
        gripped=gripped,
        along=along,
        path=path,
        section_x=section,
        two=two,
    )


def _run(spec: ViceSetup) -> str:
    """Direction of the feed: along the open or longer side of the cut."""
    x0, y0, x1, y1, _ = spec.box
    if spec.verb in ("profile", "pocket"):
        return "length"
    return "length" if x1 - x0 >= y1 - y0 else "width"


def _path(spec: ViceSetup, along: str, span: tuple[float, ...]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the cutter's axis starts and ends, mm."""
    x0, y0, x1, y1, _ = spec.box
    r = (spec.disc or spec.cutter_diameter) / 2
    if spec.disc:
        middle = x0 + spec.cutter_diameter / 2
        return (middle, y0 - r - 3), (middle, y1 + r + 3)
    if spec.plunging and spec.places:
        return spec.places[0], spec.places[-1]
    if spec.verb == "profile":
        return (x0 - r, y0 - r), (x1 + r, y0 - r)
    mid_x, mid_y = _middle(x0, x1, r, span[0], span[3]), _middle(y0, y1, r, span[1], span[4])
    if spec.verb == "chamfer":
        mid_x, mid_y = x1 + 0.25 * r, y0 - 0.25 * r
    if along == "length":
        a = x0 - r - 3 if x0 <= span[0] + 1e-6 else x0 + r
        b = x1 + r + 3 if x1 >= span[3] - 1e-6 else x1 - r
        return (a, mid_y), (max(a, b), mid_y)
    a = y0 - r - 3 if y0 <= span[1] + 1e-6 else y0 + r
    b = y1 + r + 3 if y1 >= span[4] - 1e-6 else y1 - r
    return (mid_x, a), (mid_x, max(a, b))


def _middle(low: float, high: float, r: float, first: float, last: float) -> float:
    """Where the cutter runs across a cut from `low` to `high`: in its middle, or beyond an open side."""
    if high - low >= 2 * r - 1e-6 or r == 0:
        return (low + high) / 2 if high - low < 2.2 * r or (low <= first + 1e-6 and high >= last - 1e-6) else low + r
    if high >= last - 1e-6 and low > first + 1e-6:
        return low + r
    if low <= first + 1e-6 and high < last - 1e-6:
        return high - r
    return (low + high) / 2
