"""At what scale and where do the views of work in the vice stand?

Front view upper left, section A–A beside it, plan below (first angle), named faces lower right.  Sizes without a unit
are paper millimetres; x, y, h are millimetres of the work from its left edge, the edge towards you and its lower face.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import scale_for
from methodfigures.paper.sheet import SHEET_WIDTH, Sheet
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
BED: Final = 6.0
"""Height of the table or of the vice's bed that shows."""
JAW_PLAN: Final = 8.0
CUTTER: Final = 16.0
"""Height of the cutter that shows."""
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
    scale: float = 1.0
    front_x: float = 0.0
    side_x: float = 0.0
    floor: float = 0.0
    under: float = 0.0
    plan_y: float = 0.0
    cutter_y: float = 0.0
    lanes: tuple[float, float, float] = (0.0, 0.0, 0.0)
    names_y: float = 0.0
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


def staged(spec: ViceSetup, book: ViewBook) -> ViceStage:
    """Scale, places and lanes of a set-up."""
    stage = _looked_at(spec, book)
    _fit(stage)
    _rise(stage)
    return stage


def _looked_at(spec: ViceSetup, book: ViewBook) -> ViceStage:
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
    along = _run(spec) if spec.verb in ("profile", "pocket") or not spec.along else spec.along
    path = _path(spec, along, span)
    x0, _, x1, _, _ = spec.box
    section = spec.places[0][0] if spec.places else (x0 + x1) / 2
    return ViceStage(spec, book, front, plan, side, span, gripped, along, path, section)


def _run(spec: ViceSetup) -> str:
    """Direction of the feed: along the open or longer side of the cut."""
    x0, y0, x1, y1, _ = spec.box
    if spec.verb in ("profile", "pocket"):
        return "length"
    return "length" if x1 - x0 >= y1 - y0 else "width"


def _path(spec: ViceSetup, along: str, span: tuple[float, ...]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the cutter's axis starts and ends, mm."""
    x0, y0, x1, y1, _ = spec.box
    r = spec.cutter_diameter / 2
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


# ---------------------------------------------------------------------- scale
def _fit(stage: ViceStage) -> None:
    spec = stage.spec
    x0, y0, _, x1, y1, _ = stage.span
    d = max(spec.cutter_diameter, 0.0)
    over = CLAMP if spec.holding == "clamps" else OVERHANG
    room = SHEET_WIDTH - LEFT - BETWEEN - MOVING - FIXED - 13
    limits = [(room - 2 * over) / (x1 - x0 + y1 - y0), 30 / stage.height, 52 / (x1 - x0), 27 / (y1 - y0), 5.0]
    if d and not spec.plunging:
        (ax, ay), (bx, by) = stage.path
        limits += [30 / d, 88 / (max(bx + d / 2, x1) - min(ax - d / 2, x0)), 96 / (abs(by - ay) + d)]
    stage.scale = scale_for(min(limits))
    k = stage.scale
    if spec.jawed:
        stage.under = min(max((spec.jaw_height - spec.grip) * k, 6.0), 10.0)
    elif spec.packed:
        stage.under = PACKING
    before = (min(stage.path[0][0] - d / 2, x0) - x0) * k if not spec.plunging else 0.0
    used = LEFT + 2 * over + (x1 - x0 + y1 - y0) * k + BETWEEN + MOVING + FIXED + 13
    spare = max(0.0, SHEET_WIDTH - used)
    stage.front_x = max(LEFT + over + 0.3 * spare, 4.0 - before)
    stage.side_x = max(
        stage.right + BETWEEN + MOVING, stage.front_x + (x1 - x0) * k + over + BETWEEN + MOVING + 0.3 * spare
    )
    stage.side_x = min(stage.side_x, SHEET_WIDTH - (y1 - y0) * k - FIXED - 12)


# ---------------------------------------------------------------------- heights
def _rise(stage: ViceStage) -> None:
    spec, k = stage.spec, stage.scale
    _, y0, _, _, y1, _ = stage.span
    wide, d = (y1 - y0) * k, spec.cutter_diameter * k
    low, high = JAW_PLAN, JAW_PLAN
    if not spec.plunging:
        ends = [p[1] for p in stage.path]
        low = max(low, (y0 - min(ends)) * k + d / 2 + 3)
        high = max(high, (max(ends) - y1) * k + d / 2 + 3)
    if stage.along == "length" and not spec.plunging:
        low += 9  # the feed arrow
    levels = sorted({round(p[0], 6) for p in spec.places})
    few = spec.few
    below = (4.0 + 7.0 * len([v for v in levels if abs(v) > 1e-9])) if few and spec.places else 0.0
    right_column = _right_column(stage)
    foot = 3.0 + below
    stage.plan_y = foot + low
    stage.plan_room = (foot, stage.plan_y + wide + high)
    top = max(stage.plan_room[1], right_column + 3)
    stage.names_y = top + (9.0 if spec.places else 6.0)
    stage.floor = stage.names_y + BED + 13.0
    y_top = stage.y(stage.height)
    if spec.holding == "clamps":
        y_top += 9.0
    closed, lift = len(_cut_widths(stage)), _lift(stage)
    clear = y_top + (2.5, 9.5, 17.0)[closed] + lift
    stage.lanes = (y_top + 5.5 + lift, y_top + (12.5 if closed == 2 else 5.5) + lift, clear)
    stage.cutter_y = max(clear + (8.5 if _over_mark(stage) else 1.5), y_top + _above_work(stage))
    stage.sheet = Sheet(SHEET_WIDTH, stage.cutter_y + CUTTER + 4)


def _above_work(stage: ViceStage) -> float:
    """How high the text of the height left of the work reaches above it, where a cutter comes in from there."""
    tall, words = _left_text(stage)
    outside = not dim.fits_inside(words, tall) or tall < dim.TIGHT
    return lettering.width(words) + 6.0 if outside and not stage.spec.plunging else 0.0


def _left_text(stage: ViceStage) -> tuple[float, str]:
    """(length on the paper, words) of the upper dimension left of the work."""
    spec, k = stage.spec, stage.scale
    if spec.jawed and spec.grip > 0:
        return (stage.height - spec.grip) * k, spec.words("above", spec.number(stage.height - spec.grip))
    return stage.height * k, spec.words("height", spec.number(stage.height))


def _over_mark(stage: ViceStage) -> bool:
    """Whether the cutter or its feed stands over the upper end of the cutting plane, so that both need their height."""
    spec, k = stage.spec, stage.scale
    x, mark = stage.x(stage.path[0][0]), stage.x(stage.section_x)
    r = (spec.cutter_diameter or spec.diameter) / 2 * k
    return spec.plunging or stage.along == "width" or x + r + 19 > mark - 2 or mark - 2 < x + r


def _lift(stage: ViceStage) -> float:
    """How much higher the lanes must be so that a text left of the work clears the one above the height's dimension."""
    spec, k = stage.spec, stage.scale
    tall, above = _left_text(stage)
    first = spec.words("x0", spec.number(spec.box[0]))
    outside = not dim.fits_inside(above, tall) or tall < dim.TIGHT
    beside = spec.box[0] > 0 and not dim.fits_inside(first, spec.box[0] * k) and "x" in _cut_widths(stage)
    return lettering.width(above) + 2.0 if outside and beside else 0.0


def _right_column(stage: ViceStage) -> float:
    """Height that the pictorial, its captions and the list of places need."""
    rows = len(stage.spec.rows())
    return 49.0 + (rows * 5.0 + 4 if rows else 0.0)


def _cut_widths(stage: ViceStage) -> set[str]:
    """Across which edges the cut is closed, so that it has a width there: "x", "y"."""
    x0, y0, x1, y1, _ = stage.spec.box
    a0, b0, _, a1, b1, _ = stage.span
    if stage.spec.plunging or stage.spec.verb == "chamfer":
        return set()
    out = set()
    if x0 > a0 + 1e-6 or x1 < a1 - 1e-6:
        out.add("x")
    if y0 > b0 + 1e-6 or y1 < b1 - 1e-6:
        out.add("y")
    return out


cut_widths = _cut_widths
