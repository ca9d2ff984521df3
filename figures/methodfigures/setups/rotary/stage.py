"""At what scale and where does round work stand on the table: elevation, plan beside it, settings above the plan?"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import SCALES, scale_for
from methodfigures.paper.palette import JAW, PAPER
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import SHEET_WIDTH, TALLEST, Sheet
from methodfigures.setups.lists import list_width
from methodfigures.setups.rotary.spec import RotarySetup
from methodfigures.setups.standing import ToPaper, upright
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook
from methodtooling import fixtures
from methodtooling.fixtures import Part, Parts, ring, symmetric

CUTTER: Final = 20.0
"""Height of the tool that shows."""
TABLE: Final = 7.0
EVERY: Final = 9e4
RING: Final = 25.0
"""Largest radius of the table in the plan."""
AIR: Final = {"clamps": 13.0}
"""Room on the table round the work for what holds it from above; else `JAWS`."""
JAWS: Final = 6.0
OUTER: Final = (-58.0, 120.0)
"""Directions of the 0° mark in which it leaves the table, with its words outside."""
STEP: Final = 4.4
"""Height of a row of the settings."""


@dataclass
class RotaryStage:
    """Everything that is fixed before the first line is drawn; s, r in mm, the rest on paper."""

    spec: RotarySetup
    book: ViewBook
    plan: Floats
    elevation: Floats
    swing: float
    top: float
    scale: float = 1.0
    ring: float = 0.0
    side: float = 0.0
    axis_x: float = 0.0
    centre: Points = field(default_factory=lambda: np.zeros(2))
    face_y: float = 0.0
    foot: float = 0.0
    holder: Parts = ()
    tool_s: float = 0.0
    cutter_x: float = 0.0
    notes_x: float = 0.0
    names_to: float = 0.0
    upper: float = 0.0
    feed_at: tuple[tuple[float, float], tuple[float, float]] | None = None
    sheet: Sheet = field(default_factory=Sheet)

    def x(self, r: float) -> float:
        """Paper x in the elevation of a distance right of the axis."""
        return self.axis_x + r * self.scale

    def xp(self, r: float) -> float:
        """Paper x in the plan of a distance right of the axis."""
        return float(self.centre[0]) + r * self.scale

    def y(self, s: float) -> float:
        """Paper y in the elevation of a length below the face."""
        return self.face_y - s * self.scale

    def yp(self, r: float) -> float:
        """Paper y in the plan of a distance behind the axis."""
        return float(self.centre[1]) + r * self.scale

    @property
    def paper(self) -> ToPaper:
        """Parts in (s, r) to paper in the elevation."""
        return upright(self.x(0), self.face_y, self.scale)

    @property
    def axis_point(self) -> Floats:
        """Where the axis meets the upper face, in the work."""
        return np.array([*self.spec.axis, self.spec.face_z])

    def places(self) -> tuple[Place, Place]:
        """Where elevation and plan go."""
        k, at = self.scale, self.axis_point
        up = Place(self.elevation, k, np.array([self.x(0), self.face_y]) - self.elevation[:2] @ at * k)
        return up, Place(self.plan, k, self.centre - self.plan[:2] @ at * k)

    @property
    def table_y(self) -> float:
        """Paper y of the table's face."""
        return self.y(self.foot)

    @property
    def above(self) -> float:
        """Least length on the way up: of the work, the holder and what stands over the face (negative)."""
        return min(self.top, fixtures.bounds(self.holder)[0] if self.holder else 0.0)


def staged(spec: RotarySetup, book: ViewBook) -> RotaryStage:
    """Scale, holder and heights of a set-up."""
    n, f = spec.outward, spec.face
    plan = np.stack([n, np.cross(f, n), f])
    elevation = np.stack([n, f, np.cross(n, f)])
    v = np.concatenate([m.vertices for m in spec.before]) - np.array([*spec.axis, spec.face_z])
    swing = float(np.hypot(v[:, 0], v[:, 1]).max())
    top = min(0.0, -float((v @ f).max()))
    stage = RotaryStage(spec, book, plan, elevation, swing, top)
    bottom = -float((v @ f).min())
    air = AIR.get(spec.holding, JAWS)
    limit = min((RING - air) / max(swing, 1e-3), 4.0)
    for scale in [k for k in SCALES if k <= limit * (1 + 1e-9)] or [scale_for(limit)]:
        stage.scale = scale
        stage.ring = max(min(spec.table_radius * scale, RING), swing * scale + air, 18.0)
        stage.holder, stage.foot = _holder(spec, scale, bottom, stage)
        _rise(stage)
        if _abreast(stage) <= SHEET_WIDTH and stage.sheet.height <= TALLEST:
            break
    return stage


def _holder(spec: RotarySetup, k: float, bottom: float, stage: RotaryStage) -> tuple[Parts, float]:
    """(parts, length from the upper face down to the table)."""
    r, grip = spec.grip_diameter / 2, spec.grip
    if spec.holder_parts is not None:
        return spec.holder_parts, max(fixtures.bounds(spec.holder_parts)[2], bottom)
    body = min(max(22.0, 12 / k), 22 / k)
    if spec.holding == "collet":
        foot = max(grip[1] + 18, bottom + 3)
        behind = _behind(stage, grip[1])
        return fixtures.collet(r, grip, bore=behind, foot=foot), foot
    if spec.holding == "mandrel":
        return _mandrel(r, grip, k), grip[1] + 9 / k
    if spec.holding == "clamps":
        parts = fixtures.faceplate(r, grip, strap=min(max(6.0, 3 / k), 6 / k))
        return tuple(p for p in parts if p.name != "faceplate"), max(bottom, grip[1])
    big = min(max(40.0, r + 14), 46 / k)
    if spec.holding == "soft jaws":
        parts = fixtures.soft_jaws(r, grip)
    elif spec.holding == "four-jaw":
        parts = fixtures.four_jaw(r, grip, body_radius=big)
    else:
        parts = fixtures.three_jaw(r, grip, body_radius=big)
    front = parts[0].bounds[0]
    foot = max(front + body, bottom + 3 if bottom > grip[1] + 0.5 else 0.0)
    make_body = fixtures.body(parts[0].bounds[3], front, foot - front)
    return (make_body, *parts[1:]), foot


def _behind(stage: RotaryStage, s: float) -> float:
    """Radius of the work below the length s, with some air; 0 when it ends there."""
    spec = stage.spec
    v = np.concatenate([m.vertices for m in spec.before]) - np.array([*(spec.grip_axis or spec.axis), spec.face_z])
    low = -(v @ spec.face) > s + 0.01
    return float(np.hypot(v[low, 0], v[low, 1]).max()) + 1.0 if low.any() else 0.0


def _mandrel(r: float, grip: tuple[float, float], k: float) -> Parts:
    """Stub mandrel in a base that stands on the table, nut and washer on top."""
    s0, s1 = grip
    foot, big = s1 + 9 / k, max(1.7 * r, r + 5)
    stud, t = 0.8 * r, max(1.6, 0.16 * r)
    base = Part("base", symmetric([(s1, big), (foot, big)]), role=PAPER, hatch=(-45, 2.4), level=2.0, turns=True)
    shaft = Part("mandrel", symmetric([(s0 + 0.4, r), (min(s1 + 6 / k, foot - 1 / k), r)]), role=PAPER, level=5.6)
    tall = max(2.5, 0.9 * r)
    out = [
        base,
        shaft,
        Part("mandrel", symmetric([(s0 - t - tall - 0.5 * r, stud), (s0 + 0.4, stud)]), role=PAPER, level=5.6),
    ]
    out.append(Part("washer", symmetric([(s0 - t, 1.55 * r), (s0, 1.55 * r)]), level=5.8))
    side = ring([(s0 - t, 0.66 * r), (s0 - t - tall, 0.66 * r)])
    nut = symmetric([(s0 - t - tall, 1.32 * r), (s0 - t, 1.32 * r)])
    out.append(Part("nut", nut, role=JAW, level=5.9, detail=(side, fixtures.mirrored(side))))
    return tuple(out)


# ---------------------------------------------------------------------- places
def _rise(stage: RotaryStage) -> None:
    """Heights: the table at the foot, the tool over the work, the plan beside them."""
    spec, k = stage.spec, stage.scale
    stage.face_y = 2.0 + TABLE + stage.foot * k
    if spec.start > 1e-9 and not spec.plunging:  # the words of the length stand below it
        words = spec.words("length", spec.number(spec.end - spec.start))
        stage.face_y += max(0.0, lettering.width(words) + 7.0 - stage.y(spec.end))
    up = stage.y(stage.above)
    stage.axis_x = 0.0
    if spec.plunging:
        stage.cutter_x = spec.radius * k if spec.angles and spec.radius else 0.0
        stage.tool_s = min(_top_at(stage, stage.cutter_x / k), spec.start) - 3 / k
    else:
        stage.tool_s = spec.end
        stage.cutter_x = cutter_r(stage) * k
    tool_y = stage.y(stage.tool_s)
    if spec.start > 1e-9:  # its words stand above it where they do not fit between its heads
        up = max(up, stage.y(0.0) + lettering.width(spec.words("start", spec.number(spec.start))))
    high = max(up + 6, tool_y + CUTTER + 4, tool_y + min(spec.cutter_diameter * k, 20.0) + 8)
    marked = 4.0 if 55 < -spec.angle % 360 <= 120 else 0.0  # the 0° mark points up
    around = 2 * stage.ring + 12.0 + 11.0 + marked
    stage.upper = max(high + 1.0, around) - around
    if listed(spec):
        need = (-(-len(spec.table_rows) // list_blocks(spec)) + 1) * STEP + _around_list(spec)
        stage.upper = max(stage.upper, min(need, TALLEST - around))
    elif spec.removed_text:
        stage.upper = max(stage.upper, 7.0)
    stage.sheet = Sheet(SHEET_WIDTH, around + stage.upper)


def _abreast(stage: RotaryStage) -> float:
    """Where the views stand beside each other; the right end of all of it."""
    spec, k = stage.spec, stage.scale
    out = max(fixtures.bounds(stage.holder)[3] * k if stage.holder else 0.0, stage.swing * k)
    stage.side = min(max(out + 4.0, 12.0), stage.ring)
    d = spec.diameter if spec.plunging else spec.cutter_diameter or spec.width
    out = max(out, stage.side)
    right = max(out, stage.cutter_x + d * k / 2)
    if spec.plunging:
        right = max(out, stage.cutter_x + max(d * k / 2, 6.5) + 9.0 + lettering.width(spec.words("feed", "feed")))
    if spec.verb == "graduate":
        right = max(right, stage.swing * k + 20.0)
    stage.axis_x = (16.0 if _measured(spec) else 4.0) + out
    if spec.holding in ("mandrel", "clamps"):  # named on the left
        stage.axis_x = max(stage.axis_x, 36.0)
    stage.cutter_x += stage.axis_x
    stage.notes_x = stage.axis_x + right + 5.0
    turned = (-spec.angle + 180.0) % 360.0 - 180.0
    outer = OUTER[0] <= turned <= OUTER[1]
    marked = 13.0 + lettering.width(spec.words("zero", "0°")) if outer else 7.0
    radius = (
        lettering.width(spec.words("radius", f"R{spec.number(spec.radius)}")) if spec.plunging and spec.radius else 0.0
    )
    before = max(stage.ring + 9.0, 0.71 * (stage.ring + 5.5) + radius + 4.0)
    wide = stage.notes_x + WORDS + before + stage.ring + marked
    spare = max(0.0, SHEET_WIDTH - wide)
    stage.axis_x += 0.3 * spare
    stage.cutter_x += 0.3 * spare
    stage.notes_x += 0.3 * spare
    x = stage.notes_x + WORDS + 0.3 * spare + before
    stage.centre, stage.names_to = np.array([x, 12.0 + stage.ring]), x - before + 2.0
    return wide


WORDS: Final = 30.0
"""Room between the views for the names of tool, holder and cut."""


def _measured(spec: RotarySetup) -> bool:
    """Whether there are lengths left of the elevation."""
    return spec.start > 1e-9 or not spec.plunging


def cutter_r(stage: RotaryStage) -> float:
    """Distance of the cutter's axis from the table's axis in the elevation, mm."""
    spec = stage.spec
    if spec.verb in ("flat", "round"):
        return spec.radius + spec.cutter_diameter / 2
    if spec.verb == "graduate":
        return stage.swing
    if spec.in_face:
        return stage.swing + spec.cutter_diameter / 2 + 3 / stage.scale
    return spec.radius + (spec.cutter_diameter or spec.width) / 2


def _top_at(stage: RotaryStage, r: float) -> float:
    """Length at which the work begins under a tool at the distance r, mm."""
    shape = stage.book.silhouette(stage.spec.before, stage.elevation)
    at = stage.elevation[:2] @ stage.axis_point
    cut: BaseGeometry = shape.intersection(shapely.LineString([(at[0] + r, -EVERY), (at[0] + r, EVERY)]))
    return 0.0 if cut.is_empty else float(at[1] - cut.bounds[3])


def listed(spec: RotarySetup) -> bool:
    """Whether the settings of the handle stand in the figure: where they say more than the index."""
    return len(spec.table_rows) > 1


def _around_list(spec: RotarySetup) -> float:
    return 7.0 if spec.table_caption else 3.0


def list_rows(stage: RotaryStage) -> int:
    """How many settings there is room for in a block."""
    return max(1, int((stage.upper - _around_list(stage.spec)) / STEP + 1e-6) - bool(stage.spec.table_columns))


def list_blocks(spec: RotarySetup) -> int:
    """In how many blocks side by side the settings stand."""
    wide = list_width([spec.table_columns, *spec.table_rows])
    return max(1, min(3, int(76.0 / (wide + 3.0)), -(-len(spec.table_rows) // 4)))
