"""At what scale and where on the sheet does a turning set-up stand?

The face that looks at you is to the right, the headstock to the left, the operator below.  Slender work is shortened
by a break in a stretch where neither before nor after changes.  Heights of the lanes follow from the work, the
holder and the notes; only then is the sheet made.  Numbers without a name are paper millimetres.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import SCALES, scale_for
from methodfigures.paper.shapes import Points, pairs
from methodfigures.paper.sheet import SHEET_WIDTH, TALLEST, Sheet
from methodfigures.setups.turning.rig import Rig, holder_parts, tail_parts, tool_parts
from methodfigures.setups.turning.spec import HOLDER_NAMES, TurningSetup
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook, basis
from methodtooling import fixtures
from methodtooling.fixtures import Parts

LEFT: Final = 36.0
RIGHT: Final = 50.0
"""Room for the holder, and for tailstock, drawn-back tool and notes."""
LANE: Final = 7.0
DATUM: Final = 9.5
"""How far the letter of the face, in its frame, reaches over the second lane."""
STAIR: Final = 5.5
"""Pitch of the names at the bottom when they stand one above the other."""
TALL: Final = 33.0
"""Greatest height of the work above the axis."""
GAP: Final = 3.0
"""Width of a break on the paper."""
EVERY: Final = 9e4


@dataclass
class Stage:
    """Everything that is fixed before the first line is drawn; lengths s and radii r in mm, the rest on paper."""

    spec: TurningSetup
    book: ViewBook
    view: Floats
    direction: float
    lift: float
    face_z: float
    before: BaseGeometry
    after: BaseGeometry
    swing: float
    scale: float = 1.0
    gap: tuple[float, float] | None = None
    face_x: float = 0.0
    rig: Rig = field(default_factory=lambda: Rig((), (), (), (), ""))
    crop: float = 0.0
    tool_low: float = 0.0
    lanes: tuple[float, float, float] = (0.0, 0.0, 0.0)
    cut_side: int = 1
    axis_y: float = 0.0
    names_y: float = 0.0
    crowded: bool = False
    beside: bool = False
    datum_y: float = 0.0
    sheet: Sheet = field(default_factory=Sheet)

    # ------------------------------------------------------------- places
    @property
    def radius(self) -> float:
        """Swing of the work on the paper."""
        return self.swing * self.scale

    def x(self, s: float) -> float:
        """Paper x of the length s."""
        if self.gap and s >= self.gap[1]:
            s -= self.gap[1] - self.gap[0] - GAP / self.scale
        elif self.gap and s > self.gap[0]:
            s = self.gap[0]
        return self.face_x - s * self.scale

    def y(self, r: float) -> float:
        """Paper y of the radius r."""
        return self.axis_y + r * self.scale

    def at(self, s: float, r: float) -> Points:
        """Paper point."""
        return np.array([self.x(s), self.y(r)])

    def local(self, shape: BaseGeometry) -> BaseGeometry:
        """View coordinates to (s, r)."""
        zero = self.direction * self.face_z
        return shapely.transform(shape, lambda p: pairs(zero - p[:, 0], p[:, 1] - self.lift))

    def paper(self, shape: BaseGeometry) -> BaseGeometry:
        """A shape in (s, r) on the paper, without the stretch that is broken out."""
        k, fx, ay = self.scale, self.face_x, self.axis_y
        if not self.gap:
            return shapely.transform(shape, lambda p: pairs(fx - p[:, 0] * k, ay + p[:, 1] * k))
        a, b = self.gap
        shift = (b - a) * k - GAP
        near = shape.intersection(shapely.box(-EVERY, -EVERY, a, EVERY))
        far = shape.intersection(shapely.box(b, -EVERY, EVERY, EVERY))
        return shapely.union_all(
            [
                shapely.transform(near, lambda p: pairs(fx - p[:, 0] * k, ay + p[:, 1] * k)),
                shapely.transform(far, lambda p: pairs(fx - p[:, 0] * k + shift, ay + p[:, 1] * k)),
            ]
        )

    def tool_paper(self, shape: BaseGeometry, parts: Parts) -> BaseGeometry:
        """A shape of a tool on the paper: a break never cuts a tool, the whole tool goes with its foremost point."""
        lead = fixtures.bounds(parts)[2]
        shift = self.x(lead) - (self.face_x - lead * self.scale)
        k, x0, y0 = self.scale, self.face_x + shift, self.axis_y
        return shapely.transform(shape, lambda p: pairs(x0 - p[:, 0] * k, y0 + p[:, 1] * k))

    def places(self) -> list[Place]:
        """Where the solids' views go: one window, or two when the work is broken."""
        beyond = self.spec.back + (17 / self.scale + 2 if self.spec.holding == "collet" else 0)
        zero = np.array([self.direction * self.face_z, self.lift]) * self.scale
        origin = np.array([self.face_x, self.axis_y]) - zero
        left, w = self.x(beyond), self.sheet.width
        if not self.gap:
            return [Place(self.view, self.scale, origin, shapely.box(left, -99, w, 999))]
        a, b = self.gap
        shift = np.array([(b - a) * self.scale - GAP, 0.0])
        return [
            Place(self.view, self.scale, origin, shapely.box(self.x(a), -99, w, 999)),
            Place(self.view, self.scale, origin + shift, shapely.box(left, -99, self.x(b), 999)),
        ]

    def radius_at(self, s: float) -> float:
        """How far the work before the cut reaches above the axis at the length s; 0 where there is none."""
        cut = self.before.intersection(shapely.LineString([(s, 0), (s, EVERY)]))
        return 0.0 if cut.is_empty else float(cut.bounds[3])

    def section_depth(self) -> float:
        """Height of the axis of rotation towards the reader, in view coordinates."""
        return float(self.view[2] @ np.array([*self.spec.axis, 0.0]))


def staged(
    spec: TurningSetup, book: ViewBook, below: float, *, crowded: bool = False, tallest: float = TALLEST
) -> Stage:
    """Scale, break, parts and lanes of a set-up at the largest scale at which it is not over `tallest` mm high.

    `below` = room to leave under the figure, `crowded` = the names at its foot stand one above the other.
    """
    stage = _looked_at(spec, book)
    stage.crowded = crowded
    largest = SCALES[0]
    while True:
        stage.gap = None
        _fit(stage, largest)
        _rise(stage, below)
        smaller = [k for k in SCALES if k < stage.scale]
        if stage.sheet.height - below <= tallest or not smaller:
            return stage
        largest = smaller[0]


def _looked_at(spec: TurningSetup, book: ViewBook) -> Stage:
    direction = -1.0 if spec.out == "A" else 1.0
    g = spec.grip_axis or spec.axis
    up = np.array([spec.axis[0] - g[0], spec.axis[1] - g[1], 0.0])
    view = basis((0, 0, direction), up if np.hypot(*up[:2]) > 1e-9 else (1.0, 0.0, 0.0))
    face_z = spec.end_z[0] if spec.out == "A" else spec.end_z[1]
    lift = float(view[1] @ np.array([*spec.axis, 0.0]))
    stage = Stage(
        spec=spec,
        book=book,
        view=view,
        direction=direction,
        lift=lift,
        face_z=face_z,
        before=shapely.Polygon(),
        after=shapely.Polygon(),
        swing=1.0,
    )
    stage.before = stage.local(book.silhouette(spec.before, view))
    stage.after = stage.local(book.silhouette(spec.after, view))
    free = stage.before.intersection(shapely.box(-EVERY, -EVERY, max(spec.grip[0], 0.5), EVERY))
    if spec.holding in ("centres", "mandrel", "faceplate") or free.is_empty:
        free = stage.before
    stage.swing = max(abs(free.bounds[1]), abs(free.bounds[3]))
    return stage


def _fit(stage: Stage, largest: float) -> None:
    """Scale, `largest` at most, and break."""
    spec = stage.spec
    length, room = spec.back, SHEET_WIDTH - LEFT - RIGHT
    by_length, by_height = room / length, min(TALL / stage.swing, largest)
    if spec.holding == "collet":  # closing nut and chuck body must show
        by_height = min(by_height, 44.0 / (spec.grip_diameter / 2 + 17))
    k = scale_for(min(by_length, by_height))
    plain = _plain_stretch(stage) if k * stage.swing < 7 and by_length < by_height else None
    for want in SCALES if plain else ():
        spare = length - room / want + (GAP + 1) / want
        if plain and 1.4 * k < want <= min(13.0 / stage.swing, by_height) and spare < plain[1] - plain[0] - 14 / want:
            middle = (plain[0] + plain[1]) / 2
            k, stage.gap = want, (middle - spare / 2, middle + spare / 2)
            break
    stage.scale = k
    shown = (length - (stage.gap[1] - stage.gap[0] if stage.gap else 0.0)) * k + (GAP if stage.gap else 0.0)
    stage.face_x = LEFT + max(0.0, min(room - shown, room * 0.5)) * 0.5 + shown


def _plain_stretch(stage: Stage) -> tuple[float, float] | None:
    """The longest stretch in front of the holder in which neither before nor after changes."""
    spec = stage.spec
    end = spec.grip[0] - 2
    s = {0.0, end}
    for mesh in (*spec.before, *spec.after):
        z = np.unique(np.round(mesh.vertices[:, 2], 4))
        s |= {round(float(v), 3) for v in stage.direction * (stage.face_z - z)}
    if spec.steady_at is not None:
        s.add(spec.steady_at)
    inside = sorted(v for v in s if 0 <= v <= end)
    return max(itertools.pairwise(inside), key=lambda p: p[1] - p[0], default=None)


def _rise(stage: Stage, below: float) -> None:
    """Parts, lanes and height of the sheet."""
    spec, k = stage.spec, stage.scale
    holder = holder_parts(spec, k, _behind_collet(stage))
    tail = tail_parts(
        spec,
        k,
        max(
            stage.radius_at(spec.steady_at or 0.25 * spec.grip[0]) if spec.steadied else stage.radius_at(0.01),
            0.5,
        ),
    )
    tall = max(abs(fixtures.bounds(holder)[1]), fixtures.bounds(holder)[3]) * k
    stage.crop = min(tall, max(stage.radius + 12, 24), 36.0)
    if spec.holding == "collet":  # from the work to the closing nut
        stage.crop = min(tall, max(stage.crop, (spec.grip_diameter / 2 + 18.5) * k))
    stage.tool_low = stage.radius + 17
    tool, start, name = tool_parts(spec, k, stage.swing, stage.tool_low)
    if spec.bored or spec.axial:
        stage.tool_low = max(stage.radius, 8.0, min(-fixtures.bounds(tool)[1] * k, stage.crop)) + 8
    stage.rig = Rig(holder, tail, tool, start, name)
    notes = (19.0 if spec.axial else 13.5) + LANE * (note_rows(spec) - 1) - 5
    first = max(stage.radius + 9.0, _lift(stage), notes)
    if spec.steadied:
        first = max(first, stage.radius + 11)
    third = max(first + 2 * LANE, stage.crop + 5)
    if third - first < LANE + DATUM:  # the third lane passes over the letter of the face
        third = first + LANE + DATUM
    stage.lanes = (first, first + LANE, third)
    stage.names_y = below + 3.0
    stage.axis_y = below + max(stage.crop + 6, stage.tool_low + 6) + 3 + _name_room(stage)
    stage.datum_y = stage.axis_y + stage.lanes[1] + 4.2
    stage.sheet = Sheet(SHEET_WIDTH, stage.axis_y + stage.lanes[2] + LANE)


def _name_room(stage: Stage) -> float:
    """Extra height of the bottom lane when its names must stand one above the other."""
    spec = stage.spec
    more = {"centres": "dog", "faceplate": "clamp"}.get(spec.holding, "packing" if spec.packing else "")
    names = [
        spec.holder_name or HOLDER_NAMES[spec.holding],
        stage.rig.tool_name,
        more,
        "steady" if spec.steadied else "",
    ]
    stage.crowded |= sum(lettering.width(n) + 6 for n in names if n) > 84
    return STAIR * (sum(map(bool, names)) - 1) if stage.crowded else 0.0


def _behind_collet(stage: Stage) -> float:
    """Radius of the work behind the grip, with some air; 0 when it ends in the collet."""
    spec = stage.spec
    behind = stage.before.intersection(shapely.box(spec.grip[1] + 0.01, -EVERY, EVERY, EVERY))
    return 0.0 if behind.is_empty else max(abs(behind.bounds[1]), abs(behind.bounds[3])) + 1.0


def cut_text(spec: TurningSetup) -> tuple[float, float, str] | None:
    """(from, to, words) of the length that the cut itself makes."""
    a, b = spec.cut_start, spec.cut_end
    if b - a < 1e-9 or spec.verb in ("chamfer", "centre") or (spec.through and spec.bored):
        return None
    if spec.verb == "face":
        return 0.0, b, spec.words("length", spec.number(b))
    if spec.bored and a < 1e-9 and spec.verb != "groove":
        return 0.0, b, spec.words("depth", f"{spec.number(b)} deep")
    return a, b, spec.words("length", spec.number(b - a))


def reach_text(spec: TurningSetup) -> tuple[float, float, str] | None:
    """(from, to, words) of the second lane: stick-out, or what stands for it when nothing sticks out."""
    s0, s1 = spec.grip
    if spec.holding == "centres":
        return 0.0, spec.back, spec.words("stick-out", f"between centres {spec.number(spec.back)}")
    if spec.holding == "mandrel":
        return (0.0, s1, spec.words("stick-out", "")) if "stick-out" in spec.dimension_texts else None
    if s0 < 1e-9:
        return None
    return 0.0, s0, spec.words("stick-out", f"stick-out {spec.number(s0)}")


def grip_text(spec: TurningSetup) -> str:
    """Grip and gripped diameter in one text, so the stock's diameter needs no dimension of its own."""
    s0, s1 = spec.grip
    what = f"grip {spec.number(s1 - s0)} on Ø{spec.number(spec.grip_diameter)}"
    if spec.grip_inside:
        what = f"grip {spec.number(s1 - s0)} in Ø{spec.number(spec.grip_diameter)}"
    elif spec.holding == "mandrel":
        what = f"{spec.number(s1 - s0)} on mandrel Ø{spec.number(spec.grip_diameter)}"
    elif spec.holding == "faceplate":
        what = f"clamped {spec.number(s1 - s0)} thick"
    return spec.words("grip", what)


def _lift(stage: Stage) -> float:
    """Least height of lane 1 that keeps text to the right of the face above the notes."""
    spec, k = stage.spec, stage.scale
    beside = False
    text = cut_text(spec)
    stage.cut_side = 1
    if text:
        a, b, words = text
        w = lettering.width(words)
        narrow = w > (b - a) * k - 1.8
        left_free = stage.x(b) - stage.x(spec.grip[0]) >= w + 9
        stage.cut_side = -1 if left_free else 1
        beside = narrow and not left_free
        beside |= a > 0 and lettering.width(spec.words("start", spec.number(a))) > stage.x(0) - stage.x(a) - 6
    reach = reach_text(spec)
    if reach and lettering.width(reach[2]) > stage.x(reach[0]) - stage.x(reach[1]) - 6:
        beside = True
    w = lettering.width(grip_text(spec))
    if spec.grip[0] < 1e-9 and w > spec.grip[1] * k - 1.8 and stage.x(spec.grip[1]) <= w + 7:
        beside = True
    stage.beside = bool(beside)
    return (19.0 if spec.axial else 13.5) + LANE * note_rows(spec) - 2 if beside else 0.0


def note_rows(spec: TurningSetup) -> int:
    """The most notes that may stand right of the face."""
    sized = spec.verb in ("turn", "taper", "bore", "thread", "knurl", "groove", "profile", "chamfer")
    return max(
        2,
        bool(spec.removed_text)
        + sized
        + ("note" in spec.dimension_texts and spec.verb != "chamfer")
        + ("mark" in spec.dimension_texts)
        + (spec.verb == "taper")
        + spec.centred
        + (spec.support == "travelling steady"),
    )
