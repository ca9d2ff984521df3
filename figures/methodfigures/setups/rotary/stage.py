"""At what scale and where does round work stand on the table: elevation above, plan below, settings beside?"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.lanes import scale_for
from methodfigures.paper.palette import JAW, PAPER
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import SHEET_WIDTH, Sheet
from methodfigures.setups.lists import list_width
from methodfigures.setups.rotary.spec import RotarySetup
from methodfigures.setups.standing import ToPaper, upright
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook
from methodfigures.tooling import fixtures
from methodfigures.tooling.fixtures import Part, Parts, ring, symmetric

RIGHT: Final = 52.0
"""Room for settings, names and pictorials."""
CUTTER: Final = 30.0
TABLE: Final = 9.0
EVERY: Final = 9e4
BESIDE: Final = 9
"""Up to so many settings stand beside the plan."""
BLOCKS: Final = 3
NARROW_LIST: Final = 41.0
"""Most blocks at the foot of the sheet; widest list that stands beside the plan."""


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
    centre: Points = field(default_factory=lambda: np.zeros(2))
    face_y: float = 0.0
    foot: float = 0.0
    holder: Parts = ()
    tool_s: float = 0.0
    cutter_x: float = 0.0
    foot_room: float = 0.0
    feed_at: tuple[tuple[float, float], tuple[float, float]] | None = None
    sheet: Sheet = field(default_factory=Sheet)

    def x(self, r: float) -> float:
        """Paper x of a distance right of the axis."""
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
    _fit(stage, bottom)
    _rise(stage)
    return stage


def _fit(stage: RotaryStage, bottom: float) -> None:
    spec = stage.spec
    wide = max(stage.swing, spec.grip_diameter / 2 + (22 if spec.holding == "collet" else 12))
    d = spec.cutter_diameter or spec.diameter
    limits = [40 / wide, 78 / (bottom - stage.top + 25), 4.0]
    if d and not spec.plunging:
        limits += [26 / d]
    stage.scale = k = scale_for(min(limits))
    stage.ring = max(min(spec.table_radius * k, 46.0), stage.swing * k + 8, 30.0)
    stage.holder, stage.foot = _holder(spec, k, bottom, stage)
    out = max(fixtures.bounds(stage.holder)[3] * k + 4 if stage.holder else 0.0, 0.0)
    stage.ring = min(max(stage.ring, min(out, 50.0)), 50.0)


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


# ---------------------------------------------------------------------- heights
def _rise(stage: RotaryStage) -> None:
    spec, k = stage.spec, stage.scale
    left = 13.0 + stage.ring
    stage.foot_room = foot_height(spec)
    middle = max(left, min(62.0, SHEET_WIDTH - RIGHT - 12 - stage.ring))
    stage.centre = np.array([middle, 14.0 + stage.ring + stage.foot_room])
    low = stage.centre[1] + stage.ring + 11.0
    if 55 < -spec.angle % 360 <= 120:  # the 0° mark points up
        low += 6.0
    table_y = low + TABLE
    stage.face_y = table_y + stage.foot * k
    up = stage.y(stage.above)
    if spec.plunging:
        stage.cutter_x = stage.x(spec.radius if spec.angles and spec.radius else 0.0)
        stage.tool_s = min(_top_at(stage, (stage.cutter_x - stage.x(0)) / k), spec.start) - 6 / k
    else:
        stage.tool_s = spec.end
        stage.cutter_x = stage.x(cutter_r(stage))
    tool_y = stage.y(stage.tool_s)
    high = max(up + 13, tool_y + CUTTER, tool_y + spec.cutter_diameter * k + 14)
    stage.sheet = Sheet(SHEET_WIDTH, high + 4)


def cutter_r(stage: RotaryStage) -> float:
    """Distance of the cutter's axis from the table's axis in the elevation, mm."""
    spec = stage.spec
    if spec.verb == "flat":
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


def foot_height(spec: RotarySetup) -> float:
    """Height of the settings when they are too many to stand beside the plan."""
    blocks = list_blocks(spec)
    return (-(-len(spec.table_rows) // blocks) + 1) * 5.0 + 12.0 if blocks else 0.0


def list_blocks(spec: RotarySetup) -> int:
    """In how many blocks side by side the settings stand at the foot; 0 = there is room beside the plan."""
    wide = list_width([spec.table_columns, *spec.table_rows])
    if len(spec.table_rows) <= BESIDE and wide <= NARROW_LIST:
        return 0
    return max(1, min(BLOCKS, int(164.0 / (wide + 4.0))))
