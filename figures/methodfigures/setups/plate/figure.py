"""What does a block look like that turns in the lathe?  One function draws it on any plate or in the four-jaw chuck.

The face as you see it from the tailstock, with jaws or clamps, the balance weight and the place that runs true; and the
section along the axis with plate, block and tool.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.arrangement import checked, draw_scale, words_of
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note, scale_for
from methodfigures.paper.palette import INK, JAW, PAPER, TINT
from methodfigures.paper.shapes import pairs
from methodfigures.paper.sheet import SHEET_WIDTH, Sheet
from methodfigures.setups import inside_thread
from methodfigures.setups.plate.spec import Clamp, PlateSetup
from methodfigures.setups.standing import direction, hexagon, piece, put_parts, swatch
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook, draw_cut, draw_look
from methodtooling import tools
from methodtooling.cutters import cutter_parts

FACE: Final = 30.0
"""Most paper mm of the plate to either side of the axis."""
MIDDLE: Final = 46.0
"""Paper x of the axis in the face view."""
PLATE: Final = 10.0
SECTION: Final = 92.0
"""Thickness of the plate that shows, and paper x at which it begins."""
STRAP: Final = 3.2
STEP: Final = 3.4
"""Half width of a strap on the paper, and its thickness."""
NAMES: Final = 5.0


@dataclass
class PlateStage:
    """Everything that is fixed before the first line is drawn; mm of the work, the rest on paper."""

    spec: PlateSetup
    book: ViewBook
    face: Floats
    side: Floats
    scale: float
    axis_y: float
    front: float
    sheet: Sheet

    @property
    def radius(self) -> float:
        """Paper radius of the plate as far as it shows."""
        return min(self.spec.plate_radius * self.scale, FACE)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Paper place in the face view."""
        return MIDDLE + (x - self.spec.axis[0]) * self.scale, self.axis_y + (y - self.spec.axis[1]) * self.scale

    def s(self, depth: float) -> float:
        """Paper x in the section of a depth from the face."""
        return self.front - depth * self.scale

    def places(self) -> tuple[Place, Place]:
        """Where the face view and the section go."""
        rows, k = np.asarray(self.spec.rotation, float), self.scale
        centre = np.asarray(self.spec.origin, float) + rows[0] * self.spec.axis[0] + rows[1] * self.spec.axis[1]
        face = Place(self.face, k, np.array([MIDDLE, self.axis_y]) - self.face[:2] @ centre * k)
        return face, Place(self.side, k, np.array([self.front, self.axis_y]) - self.side[:2] @ centre * k)

    @property
    def cut_at(self) -> float:
        """Where the plane of the section is, towards its reader."""
        rows = np.asarray(self.spec.rotation, float)
        centre = np.asarray(self.spec.origin, float) + rows[0] * self.spec.axis[0] + rows[1] * self.spec.axis[1]
        return float(self.side[2] @ centre)


def draw_plate_setup(spec: PlateSetup, book: ViewBook | None = None) -> Drawing:
    """The set-up figure of a block that turns in the lathe, 170 mm wide; `book` shares views with other figures."""
    sheet = compose_plate_setup(spec, book or ViewBook())
    return sheet.drawing(spec.title or f"{spec.verb.capitalize()}, the block in the lathe", describe(spec))


def compose_plate_setup(spec: PlateSetup, book: ViewBook) -> Sheet:
    """The sheet of `draw_plate_setup` before it becomes a drawing."""
    stage = _staged(spec, book)
    notes = _plate(stage)
    _views(stage)
    notes += {"four-jaw": _jaws, "faceplate": _clamps, "angle-plate": _angle_plate}[spec.holding](stage)
    weight = _weight(stage)
    _sizes(stage, _tool(stage))
    _names(stage, notes, weight)
    return stage.sheet


def _staged(spec: PlateSetup, book: ViewBook) -> PlateStage:
    right, away, up = np.asarray(spec.rotation, float)
    (x, y), (length, width, high) = spec.axis, spec.size
    reach = float(np.hypot(max(x, length - x), max(y, width - y)))
    far = max(reach + 8.0, min(spec.plate_radius, 1.5 * reach))
    k = scale_for(min(FACE / far, 24.0 / high, 3.0))
    shown = min(max(spec.plate_radius, reach) * k, FACE)
    axis_y = NAMES + 11.0 + shown
    sheet = Sheet(SHEET_WIDTH, axis_y + shown + 13.0 + (6.0 if spec.weight else 0.0))
    gap = 0.0 if spec.holding != "four-jaw" else 2.0
    front = SECTION + PLATE + gap + high * k
    return PlateStage(
        spec=spec,
        book=book,
        face=np.stack([right, away, up]),
        side=np.stack([up, away, -right]),
        scale=k,
        axis_y=axis_y,
        front=front,
        sheet=sheet,
    )


# ---------------------------------------------------------------------- views
def _views(stage: PlateStage) -> None:
    spec, sheet = stage.spec, stage.sheet
    face, side = stage.places()
    draw_look(sheet, stage.book.look(spec.after, stage.face), face, z=3.0)
    sheet.removed(face.shape(stage.book.ghost(spec.after, spec.removed, stage.face).shown), 4.6, pitch=0.9)
    draw_cut(sheet, stage.book.cut(spec.after, stage.side, stage.cut_at), side, pitches=(1.9, 1.4), z=3.0)
    sheet.removed(side.shape(stage.book.section(spec.removed, stage.side, stage.cut_at)), 4.6)
    if spec.pitch > 0:
        wide = inside_thread.root(spec.diameter, spec.pitch, stage.scale)
        inside_thread.from_its_end(sheet, (MIDDLE, stage.axis_y), wide)
        mouth, end = ((stage.s(depth), stage.axis_y) for depth in (0.0, spec.depth))
        inside_thread.along(sheet, mouth, end, wide, through=spec.through)
    r = stage.radius
    sheet.centre_line((MIDDLE - r, stage.axis_y), (MIDDLE + r, stage.axis_y), 2.0)
    sheet.centre_line((MIDDLE, stage.axis_y - r), (MIDDLE, stage.axis_y + r), 2.0)
    sheet.centre_line((SECTION, stage.axis_y), (SHEET_WIDTH - 6.0, stage.axis_y), 2.0)
    sheet.text(MIDDLE, sheet.height - lettering.HEIGHT - 1.2, spec.words("face view", "seen from the tailstock"))


def _plate(stage: PlateStage) -> list[Note]:
    """The plate or the chuck's body, with its slots, in both views."""
    spec, sheet, r, y = stage.spec, stage.sheet, stage.radius, stage.axis_y
    whole = spec.plate_radius * stage.scale
    disc = shapely.Point(MIDDLE, y).buffer(whole, quad_segs=64)
    window = (MIDDLE - r - 0.01, y - r - 0.01, MIDDLE + r + 0.01, y + r + 0.01)
    piece(sheet, disc, window, TINT, z=1.0)
    if spec.holding != "four-jaw":
        for angle in range(0, 360, 45):
            along, aside = direction(angle + 22.5), direction(angle + 112.5)
            corners = [np.array([MIDDLE, y]) + along * a + aside * b
                       for a, b in ((0.35 * r, -1.0), (0.92 * r, -1.0), (0.92 * r, 1.0), (0.35 * r, 1.0))]  # fmt: skip
            piece(sheet, shapely.Polygon(corners), fill=PAPER, z=1.2)
    body = shapely.box(SECTION - 4.0, y - whole, SECTION + PLATE, y + whole)
    piece(sheet, body, (SECTION, y - r - 0.01, SECTION + PLATE + 1.0, y + r + 0.01), TINT, z=1.0)
    words = "four-jaw chuck" if spec.holding == "four-jaw" else "faceplate"
    return [Note((SECTION + 0.5 * PLATE, y - 0.75 * r), spec.words("holder", words), True)]


def _jaws(stage: PlateStage) -> list[Note]:
    """Four jaws, each on its side of the block, in the line of the axis."""
    spec, sheet, k, y = stage.spec, stage.sheet, stage.scale, stage.axis_y
    (ax, ay), (length, width, high) = spec.axis, spec.size
    half = max(0.11 * spec.plate_radius * k, 2.4)
    out = {0: length - ax, 90: width - ay, 180: ax, 270: ay}
    for angle, near in out.items():
        along, aside = direction(angle), direction(angle + 90)
        far = min(near * k + max(0.35 * spec.plate_radius * k, 8.0), stage.radius + 2.0)
        corners = [np.array([MIDDLE, y]) + along * a + aside * b
                   for a, b in ((near * k, -half), (far, -half), (far, half), (near * k, half))]  # fmt: skip
        piece(sheet, shapely.Polygon(corners), fill=JAW, z=3.6)
    back, grip = SECTION + PLATE, (spec.grip or 0.5 * high) * k
    for sign, edge in ((1, width - ay), (-1, -ay)):
        low, top = sorted((y + edge * k, y + (edge + sign * 0.3 * spec.plate_radius) * k))
        step = back + 2.0 + grip
        window = (back - 1.0, y - stage.radius - 2.0, step + 1.0, y + stage.radius + 2.0)
        piece(sheet, shapely.box(back, low, step, top), window, JAW, z=3.6)
    low = max(y - (ay + 0.15 * spec.plate_radius) * k, y - stage.radius + 1.0)
    return [Note((back + 0.5 * grip, low), spec.words("jaw", "jaw"), True)]


def _clamps(stage: PlateStage) -> list[Note]:
    """Straps where the check put them: over the edge of the block, bolted to the plate, on packing of its thickness."""
    for clamp in stage.spec.clamps:
        _strap(stage, clamp)
    shown = [c for c in stage.spec.clamps if abs(c.out[1]) > 0.5]
    found: list[Note] = []
    for clamp in shown:
        spot = _strap_in_section(stage, clamp)
        found = [Note(spot, stage.spec.words("clamp", "clamp on packing"), True)] if clamp.out[1] < 0 else found
    return found


def _strap(stage: PlateStage, clamp: Clamp) -> None:
    sheet, (x, y) = stage.sheet, stage.at(clamp.x, clamp.y)
    along = np.array(clamp.out)
    aside = np.array([-along[1], along[0]])
    lap, far = min(7.0 * stage.scale, 4.0), 9.5
    corners = [np.array([x, y]) + along * a + aside * b
               for a, b in ((-lap, -STRAP), (far, -STRAP), (far, STRAP), (-lap, STRAP))]  # fmt: skip
    piece(sheet, shapely.Polygon(corners), fill=JAW, z=5.0)
    bolt = np.array([x, y]) + along * 3.6
    piece(sheet, hexagon(bolt, 4.0), fill=JAW, z=5.2)
    sheet.circle((float(bolt[0]), float(bolt[1])), 1.1, "narrow", 5.4, ink=False)


def _strap_in_section(stage: PlateStage, clamp: Clamp) -> tuple[float, float]:
    """The strap from the side; a spot on it."""
    sheet, sign, lap = stage.sheet, 1 if clamp.out[1] > 0 else -1, min(7.0 * stage.scale, 4.0)
    edge, front, back = stage.at(clamp.x, clamp.y)[1], stage.front, SECTION + PLATE

    def box(x0: float, x1: float, a: float, b: float, z: float, fill: str = JAW) -> None:
        low, top = sorted((edge + sign * a, edge + sign * b))
        piece(sheet, shapely.box(x0, low, x1, top), fill=fill, z=z)

    box(back, front, 6.4, 9.0, 2.6)
    box(back - PLATE - 1.0, front + STEP + 4.0, 2.8, 4.4, 2.8)
    box(front, front + STEP, -lap, 9.5, 5.0)
    box(front + STEP, front + STEP + 2.6, 1.6, 5.6, 5.2)
    return front + 0.5 * STEP, edge + sign * 7.5


def _angle_plate(stage: PlateStage) -> list[Note]:
    """The block lies on the ledge of an angle plate that is bolted to the faceplate, one strap across it."""
    spec, sheet, k, y = stage.spec, stage.sheet, stage.scale, stage.axis_y
    (ax, ay), (length, width, _) = spec.axis, spec.size
    left, right, low, top = MIDDLE - ax * k, MIDDLE + (length - ax) * k, y - ay * k, y + (width - ay) * k
    piece(sheet, shapely.box(left - 5.0, low - 3.4, right + 5.0, low), fill=JAW, z=3.4)
    piece(sheet, shapely.box(left - 5.0, low - 12.0, right + 5.0, low - 3.4), fill=TINT, z=1.6)
    back = SECTION + PLATE
    ledge = shapely.union_all(
        [shapely.box(back, low - 3.4, stage.front - 1.0, low), shapely.box(back, low - 12.0, back + 3.4, low)]
    )
    piece(sheet, ledge, hatch=(-45, 2.2), z=2.4)
    piece(sheet, shapely.box(left - 4.5, top, right + 4.5, top + 3.0), fill=JAW, z=5.0)
    for x in (left - 2.5, right + 2.5):
        piece(sheet, shapely.box(x - 0.9, low - 5.0, x + 0.9, top + 5.5), fill=JAW, z=2.8)
        piece(sheet, shapely.box(x - 2.0, top + 3.0, x + 2.0, top + 5.0), fill=JAW, z=5.2)
    middle = (back + stage.front) / 2
    piece(sheet, shapely.box(middle - 3.0, top, middle + 3.0, top + 3.0), fill=JAW, z=5.0)
    return [Note((middle, low - 1.7), spec.words("angle plate", "angle plate"), True)]


def _weight(stage: PlateStage) -> list[Note]:
    """The balance weight, bolted to the plate opposite the heavy side."""
    if stage.spec.weight is None or stage.spec.holding == "four-jaw":
        return []
    angle, radius, grams = stage.spec.weight
    c = np.array([MIDDLE, stage.axis_y]) + direction(angle) * min(radius * stage.scale, stage.radius - 4.0)
    along, aside = direction(angle), direction(angle + 90)
    corners = [c + along * a + aside * b for a, b in ((-3.2, -4.5), (3.2, -4.5), (3.2, 4.5), (-3.2, 4.5))]
    piece(stage.sheet, shapely.Polygon(corners), fill=INK, z=4.9)
    words = stage.spec.words("weight", f"balance weight {grams:.0f} g")
    return [Note((float(c[0]), float(c[1])), words, True)]


# ---------------------------------------------------------------------- tool, sizes, names
def _tool(stage: PlateStage) -> float:
    """The tool before the face, its feed and its name; the height up to which that takes room."""
    spec, sheet, k, y = stage.spec, stage.sheet, stage.scale, stage.axis_y
    bar = spec.verb == "bore"
    parts = tools.boring_bar(spec.diameter, spec.size[2] + 30.0 / k) if bar else cutter_parts(
        spec.verb, spec.diameter, k, pitch=spec.pitch)  # fmt: skip
    lift = -spec.diameter / 2 if bar else 0.0
    tip = stage.front + 11.0

    def paper(g: shapely.geometry.base.BaseGeometry) -> shapely.geometry.base.BaseGeometry:
        return shapely.transform(g, lambda p: pairs(tip - p[:, 0] * k, y + (p[:, 1] + lift) * k))

    shown = put_parts(sheet, parts, paper, (tip - 1.0, 0.0, SHEET_WIDTH - 4.0, sheet.height))
    wide = max((shape.bounds[3] for shape in shown.values()), default=y) - y
    low = y - max(spec.diameter / 2 * k, wide) - 5.0
    dim.block_arrow(sheet, (tip + 16.0, low), (tip + 4.0, low))
    sheet.text(tip + 18.0, low, spec.words("feed", "feed"), align="left", level="middle")
    high = y + max(wide, 3.0) + 8.0
    if spec.tool_name:
        x = min(tip + 20.0, SHEET_WIDTH - 8.0)
        landing = (SHEET_WIDTH - 6.0 - lettering.width(spec.tool_name), high)
        dim.leader(sheet, (x, y + 0.3 * wide), landing, spec.tool_name, dot=True, right=True)
    return high


def _sizes(stage: PlateStage, free: float) -> None:
    """From the edges to the place that runs true; the size of the hole."""
    spec, sheet, r = stage.spec, stage.sheet, stage.radius
    (ax, ay), (low_x, low_y) = spec.axis, stage.at(0.0, 0.0)
    dim.linear(sheet, (low_x, low_y), (MIDDLE, stage.axis_y), stage.axis_y - r - 4.0, spec.words("x", spec.number(ax)))
    dim.linear(sheet, (low_x, low_y), (MIDDLE, stage.axis_y), MIDDLE - r - 4.0, spec.words("y", spec.number(ay)), "y")
    if spec.diameter:
        deep = "through" if spec.through else f"× {spec.number(spec.depth)} deep"
        words = spec.words("hole", f"Ø{spec.number(spec.diameter)} {deep}")
        tip = (stage.s(0.0), stage.axis_y + spec.diameter / 2 * stage.scale)
        over = 12.0 if spec.holding == "faceplate" else 6.0
        high = max(stage.at(0.0, spec.size[1])[1] + over, free + 5.0)
        dim.leader(sheet, tip, (tip[0] + 6.0, min(high, sheet.height - 10.0)), words, right=True)


def _names(stage: PlateStage, notes: list[Note], weight: list[Note]) -> None:
    sheet, spec = stage.sheet, stage.spec
    high = draw_scale(sheet, lanes.scale_words(stage.scale), checked(spec.projection)) - 3.0
    for note, x, right in lanes.row(notes, 3.0, 3.0, high, sheet.register.in_the_way()):
        dim.leader(sheet, note.spot, (x, 3.0), note.words, dot=note.dot, right=right)
    top = sheet.height - 2 * lettering.HEIGHT - 5.0
    for note, x, right in lanes.row(weight, top, 3.0, SECTION - 6.0, sheet.register.in_the_way()):
        dim.leader(sheet, note.spot, (x, top), note.words, dot=note.dot, right=right)
    if spec.removed_text:
        wide = (lettering.width(spec.removed_text) + 8.0) / 2
        swatch(sheet, SHEET_WIDTH - 4.0 - wide, sheet.height - lettering.HEIGHT - 1.2, spec.removed_text)


def describe(spec: PlateSetup) -> str:
    """What the figure shows, in words, for a reader who cannot see it."""
    n = spec.number
    held = {
        "four-jaw": "is held by the four jaws of an independent chuck",
        "faceplate": f"is clamped to the faceplate by {len(spec.clamps)} clamps",
        "angle-plate": "is clamped on an angle plate that is bolted to the faceplate",
    }[spec.holding]
    out = [f"The block {held} and turns about the place {n(spec.axis[0])} from the left and {n(spec.axis[1])} from the "
           f"edge towards you."]  # fmt: skip
    deep = "through" if spec.through else f"{n(spec.depth)} deep"
    out.append(f"Operation: {spec.verb}, diameter {n(spec.diameter)}, {deep}, with the {spec.tool_name or 'tool'}.")
    if spec.weight is not None:
        out.append(f"A balance weight of {spec.weight[2]:.0f} g stands opposite the heavy side.")
    if spec.removed_text:
        out.append(f"The metal removed is shown crossed: {spec.removed_text}.")
    return " ".join([*out, words_of(spec.projection)])
