"""What does a turning set-up look like?  One function draws any of them; nothing is placed by hand.

Outside work is a view, inside work a full section with the tool drawn back.  The plane of the picture holds the axis
of rotation and the direction of the throw.  Removed metal is the section of the removed solids by that plane.
"""

from __future__ import annotations

from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.cropping import Window, cropped
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.shapes import polygons, strings
from methodfigures.paper.sheet import FINE, NARROW, TALLEST, Layer, Sheet
from methodfigures.setups.turning import notes as turning_notes
from methodfigures.setups.turning.spec import HOLDER_NAMES, TurningSetup
from methodfigures.setups.turning.stage import EVERY, Stage, staged
from methodfigures.solids.pictorial import add_before_after, before_after_size
from methodfigures.solids.views import ViewBook, draw_lines
from methodtooling import fixtures
from methodtooling.fixtures import Part, Parts


def draw_turning_setup(spec: TurningSetup, book: ViewBook | None = None) -> Drawing:
    """The set-up figure of any turning operation, 170 mm wide; `book` shares views with other figures."""
    sheet = compose_turning_setup(spec, book or ViewBook())
    return sheet.drawing(spec.title or _title(spec), spec.description or describe(spec))


def compose_turning_setup(spec: TurningSetup, book: ViewBook) -> Sheet:
    """The sheet of `draw_turning_setup` before it becomes a drawing."""
    sheet = _best(spec, book, TALLEST)
    return sheet if not sheet.clashes() else _best(spec, book, HIGHER)


HIGHER: Final = 130.0
"""mm that a set-up may be high whose names and dimensions find no room otherwise."""


def _best(spec: TurningSetup, book: ViewBook, tallest: float) -> Sheet:
    sheet, fits = _composed(spec, book, tallest)
    return sheet if fits else _composed(spec, book, tallest, crowded=True)[0]


def _composed(spec: TurningSetup, book: ViewBook, tallest: float, *, crowded: bool = False) -> tuple[Sheet, bool]:
    """The sheet, and whether the names at its foot fit; `crowded` = they stand one above the other."""
    face = (0.0, 0.0, -1.0 if spec.out == "A" else 1.0)
    room = before_after_size(spec.before, spec.after, face)[1] if spec.pictorials else 0.0
    stage = staged(spec, book, room, crowded=crowded, tallest=tallest)
    windows = _draw_parts(stage, stage.rig.holder)
    windows |= _draw_parts(stage, stage.rig.tail)
    removed = book.section(spec.removed, stage.view, stage.section_depth())
    _draw_work(stage, removed)
    windows |= _draw_parts(stage, stage.rig.tool)
    _draw_start(stage)
    _axis(stage)
    _feed(stage)
    turning_notes.lengths(stage)
    _datum(stage)
    notes = turning_notes.diameters(stage)
    turning_notes.right_column(stage, notes, removed)
    fits = turning_notes.names(stage, windows)
    if spec.pictorials:
        add_before_after(stage.sheet, book, spec.before, spec.after, spec.removed, face)
    return stage.sheet, fits


# ---------------------------------------------------------------------- parts
def _window(stage: Stage, part: Part) -> Window:
    """The part of the paper in which a part may show."""
    width, ay = stage.sheet.width, stage.axis_y
    left = _left_edge(stage)
    right = min(width - 3, stage.face_x + 40)
    low, high = ay - stage.crop, ay + stage.crop
    if part.kind == "tool" and not (stage.spec.bored or stage.spec.axial):
        low, high = ay - stage.tool_low, EVERY
    elif part.name in ("drill chuck", "die holder"):
        right = min(width - 4, stage.x(part.bounds[2]) + 16)
    elif part.kind == "tail" and part.name in ("steady", "finger", "finger tip"):
        low, high = ay - stage.radius - 11, ay + stage.radius + 8.5
    return left, low, right, high


def _left_edge(stage: Stage) -> float:
    """Paper x at which the holder is broken off: some way behind the front of its body or the end of the grip."""
    front = stage.x(max(stage.spec.grip[1], stage.rig.holder[0].bounds[0]))
    return max(front - (27.0 if stage.spec.holding in ("centres", "mandrel", "faceplate") else 17.0), 9.5)


def _draw_parts(stage: Stage, parts: Parts) -> dict[str, BaseGeometry]:
    """Fill, hatch and outline parts, broken off at their windows; what shows of each name."""
    sheet = stage.sheet
    shown: dict[str, list[BaseGeometry]] = {}

    def paper(shape: BaseGeometry) -> BaseGeometry:
        return stage.tool_paper(shape, parts) if part.kind == "tool" else stage.paper(shape)

    for part in parts:
        wide = 0.35 if part.kind == "tool" else NARROW
        for piece in cropped(paper(part.polygon), _window(stage, part)):
            sheet.area(piece.area, part.role, part.level)
            if part.hatch:
                sheet.hatch(piece.area, *part.hatch, FINE, part.level + 0.03)
            sheet.lines(piece.outline, wide, part.level + 0.06)
            sheet.lines(piece.breaks, NARROW, part.level + 0.06, ink=False)
            for line in part.detail:
                inner = paper(shapely.LineString(line)).intersection(piece.area)
                sheet.lines(strings(inner), FINE, part.level + 0.05, ink=False)
            shown.setdefault(part.name, []).append(piece.area)
    return {name: shapely.union_all(areas) for name, areas in shown.items()}


def _draw_start(stage: Stage) -> None:
    """The tool where the cut began, in phantom lines, if it stands clear of the tailstock."""
    if not stage.rig.start or fixtures.outline(stage.rig.start).intersects(fixtures.outline(stage.rig.tail)):
        return
    low = shapely.box(0, stage.axis_y - stage.tool_low, stage.sheet.width, EVERY)
    for part in stage.rig.start:
        for p in polygons(stage.tool_paper(part.polygon, stage.rig.start)):
            for line in strings(p.exterior.intersection(low)):
                stage.sheet.line(line, "phantom", Layer.AXIS + 0.1)


# ---------------------------------------------------------------------- work
def _draw_work(stage: Stage, removed: BaseGeometry) -> None:
    sheet, spec = stage.sheet, stage.spec
    if spec.cut_open:
        cut = stage.book.cut(spec.after, stage.view, stage.section_depth())
        cover, lines, faces = cut.silhouette, cut.lines, cut.faces
    else:
        look = stage.book.look(spec.after, stage.view)
        cover, lines, faces = look.silhouette, look.lines, ()
    for place in stage.places():
        sheet.area(place.shape(cover), "paper", Layer.WORK)
        draw_lines(sheet, lines, place)
        for i, face in enumerate(faces):
            g = place.shape(face)
            sheet.hatch(g, (45, -45)[i % 2], (2.0, 1.4)[i % 2], z=Layer.WORK + 0.3)
            sheet.outline(g, "wide", Layer.EDGE)
        sheet.removed(place.shape(removed))
    _surface_symbols(stage)
    _ends(stage)


def _surface_symbols(stage: Stage) -> None:
    """Thread by narrow lines (ISO 6410-1, from memory), knurl by crossed lines (common practice)."""
    spec, sheet = stage.spec, stage.sheet
    a, b, r = spec.cut_start, min(spec.cut_end, spec.grip[1]), spec.cut_diameter / 2
    if b - a < 1e-6 or r <= 0:
        return
    if spec.verb in ("thread", "tap") and spec.pitch > 0:
        thin = r - 0.61 * spec.pitch if not spec.bored else r
        for side in (1, -1):
            line = stage.paper(shapely.LineString([(a, side * thin), (b, side * thin)]))
            sheet.lines(strings(line), NARROW, Layer.EDGE, ink=False)
        if not spec.bored:
            end = stage.paper(shapely.LineString([(b, -r), (b, r)]))
            sheet.lines(strings(end), 0.5, Layer.EDGE, ink=False)
    if spec.verb == "knurl" and not any(m.marks for m in spec.after):
        zone = stage.paper(shapely.box(a, -r, b, r))
        for angle in (30.0, -30.0):
            sheet.hatch(zone, angle, max(1.0, min(1.6, r * stage.scale / 5)), FINE, Layer.HATCH)
        for s in (a, b):
            sheet.lines([[stage.at(s, -r), stage.at(s, r)]], NARROW, Layer.EDGE, ink=False)


def _ends(stage: Stage) -> None:
    """Where the work enters the holder, and the freehand lines of a break."""
    spec, sheet = stage.spec, stage.sheet
    s1 = spec.grip[1]
    if spec.holding in ("three-jaw", "four-jaw"):
        across = stage.after.intersection(shapely.LineString([(s1, -EVERY), (s1, EVERY)]))
        if not across.is_empty:
            b = across.bounds
            sheet.lines([[stage.at(s1, b[1]), stage.at(s1, b[3])]], NARROW, Layer.EDGE)
    if spec.holding == "collet":
        s = s1 + 17 / stage.scale + 2
        across = stage.after.intersection(shapely.LineString([(s, -EVERY), (s, EVERY)]))
        if not across.is_empty:
            b = across.bounds
            sheet.break_line((stage.x(s), stage.y(b[1])), (stage.x(s), stage.y(b[3])), 0.6, Layer.EDGE + 0.1)
    for s in stage.gap or ():
        b = stage.before.intersection(shapely.LineString([(s, -EVERY), (s, EVERY)])).bounds
        x = stage.x(s)
        sheet.break_line((x, stage.y(b[1]) - 1), (x, stage.y(b[3]) + 1), 0.7, Layer.EDGE + 0.2)


# ---------------------------------------------------------------------- axis and movement
def _axis(stage: Stage) -> None:
    sheet, spec, ay = stage.sheet, stage.spec, stage.axis_y
    long = spec.bored or spec.axial or bool(stage.rig.tail and stage.spec.centred)
    right = min(stage.face_x + (36 if long else 6), sheet.width - 4)
    if spec.holding == "mandrel":
        right = max(right, min(stage.x(fixtures.bounds(stage.rig.holder)[0]) + 4, sheet.width - 4))
    left = _left_edge(stage) - 3
    sheet.centre_line((left, ay), (right, ay), 0)
    if spec.throw > 1e-9:
        y, x = stage.y(-spec.throw), stage.x(spec.grip[1]) - 7  # on the chuck body nothing else is in the way
        sheet.centre_line((x, y), (stage.face_x + 1, y), 2)
        words = spec.words("throw", spec.number(spec.throw))
        dim.linear(sheet, (x, y), (x, ay), x, words, "y", extension=False)
    dim.turn_arrow(sheet, (left - (3.5 if spec.holding == "collet" else -1.0), ay), 2.6, 55, 305, across=7.5)


def _datum(stage: Stage) -> None:
    """Letter of the end that looks at you, in a frame on the line from which all lengths are counted (ISO 5459)."""
    x, y = stage.face_x, stage.datum_y
    frame = shapely.box(x - 2, y, x + 2, y + 4)
    foot = stage.axis_y + stage.lanes[1] + 1.6
    stage.sheet.lines([[(x, foot), (x, y)]], NARROW, Layer.DIMENSION)
    stage.sheet.height = max(stage.sheet.height, y + 5)
    stage.sheet.outline(frame, "narrow", Layer.DIMENSION, ink=False)
    stage.sheet.text(x, y + 2, stage.spec.out, level="middle")


def _feed(stage: Stage) -> None:
    """Feed arrow beside the tool, clear of the tool and its start; before it where it is too wide."""
    sheet, spec, ay = stage.sheet, stage.spec, stage.axis_y
    b = stage.tool_paper(fixtures.outline(stage.rig.tool), stage.rig.tool).bounds
    if spec.bored or spec.axial:
        y = min(max(stage.y(fixtures.bounds(stage.rig.tool)[1]), ay - stage.crop) - 4.5, ay - 8)
        x = stage.face_x + 34
        dim.block_arrow(sheet, *(((x - 13, y), (x, y)) if spec.feed == "out" else ((x, y), (x - 13, y))))
        sheet.text(x + 2, y - lettering.HEIGHT / 2, "feed", align="left")
    elif spec.crosswise:
        beside = b[2] + 9 + lettering.width("feed") < sheet.width - 1
        x, y = b[2] + 6 if beside else b[0] - 5, ay - stage.tool_low + 1
        dim.block_arrow(sheet, (x, y), (x, y + 12))
        sheet.text(x + 3 if beside else x - 3, y + 3, "feed", align="left" if beside else "right")
    else:
        y, x1 = ay - stage.radius - 8.0, b[2] + 3
        x0 = x1 + 14
        if stage.rig.start and not fixtures.outline(stage.rig.start).intersects(fixtures.outline(stage.rig.tail)):
            x0 = min(stage.tool_paper(fixtures.outline(stage.rig.start), stage.rig.start).bounds[0] - 2, x1 + 24)
        if x1 + 14 > sheet.width - 1:
            x0, x1 = b[0] - 3, b[0] - 17
        slope = 0.0
        if spec.verb == "taper" and spec.end_diameter is not None and spec.cut_end > spec.cut_start:
            slope = (spec.end_diameter - spec.cut_diameter) / 2 / (spec.cut_end - spec.cut_start)
        lean = max(-3.0, min(3.0, slope * (x0 - x1)))
        ends = ((x1, y - lean), (x0, y)) if spec.feed == "out" else ((x0, y), (x1, y - lean))
        dim.block_arrow(sheet, *ends)
        sheet.text((x0 + x1) / 2, y + 3.0 + max(0.0, -lean), "feed", mask=True)


# ---------------------------------------------------------------------- words
def _title(spec: TurningSetup) -> str:
    made = f" Ø{spec.number(spec.cut_diameter)}" if spec.cut_diameter > 0 and spec.verb != "face" else ""
    held = spec.holder_name or HOLDER_NAMES[spec.holding]
    return f"{spec.verb.capitalize()}{made}, held by the {held}".replace("by the soft", "in soft")


def describe(spec: TurningSetup) -> str:
    """What the figure shows, in words, for a reader who cannot see it."""
    n = spec.number
    held = spec.holder_name or HOLDER_NAMES[spec.holding]
    out = [
        f"The work is held by the {held} on diameter {n(spec.grip_diameter)}, "
        f"from {n(spec.grip[0])} to {n(spec.grip[1])} behind the face of end {spec.out}."
    ]
    if spec.throw > 1e-9:
        out.append(f"The gripped round lies {n(spec.throw)} off the axis of rotation.")
    if spec.steadied:
        travels = spec.support == "travelling steady"
        out.append("A steady travels with the tool." if travels else "A steady supports it.")
    if spec.centred:
        out.append("A centre in the tailstock supports it.")
    size = f" to diameter {n(spec.cut_diameter)}" if spec.cut_diameter > 0 and spec.verb != "face" else ""
    a, b = spec.cut_start, spec.cut_end
    where = f" from {n(a)} to {n(b)} behind the face" if b > a else ""
    name = spec.tool_name or "tool"
    way = "across" if spec.crosswise else "along"
    out.append(f"Operation: {spec.verb}{size}{where}, with the {name}, fed {way} the axis.")
    if spec.removed_text:
        out.append(f"The metal removed is shown crossed: {spec.removed_text}.")
    return " ".join(out)
