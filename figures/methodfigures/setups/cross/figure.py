"""What does a hole or a slot across round work look like, the work lying in a vee block or a vice?

Elevation along the axis with the face to the right and a local section where the cut is, and the end view from that
face, cut through the place of the cut.  First angle: the view from the right stands on the left.
"""

from __future__ import annotations

import math

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.arrangement import THIRD, checked, draw_scale, exchange, words_of
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note
from methodfigures.paper.shapes import arc, polygon, strings
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.setups import inside_thread
from methodfigures.setups.cross import arbor, head
from methodfigures.setups.cross import holding as cross_holding
from methodfigures.setups.cross.spec import CrossSetup
from methodfigures.setups.cross.stage import BETWEEN, END_X, EVERY, TOOL, CrossStage, staged
from methodfigures.setups.standing import (
    direction,
    free_leader,
    free_text,
    is_leader_free,
    put_parts,
    signed,
    swatch,
    upright,
)
from methodfigures.solids.views import Cut, Place, ViewBook, draw_cut, draw_lines, draw_look
from methodtooling import tools
from methodtooling.cutters import CUTTER_NAMES, cutter_parts


def draw_cross_setup(spec: CrossSetup, book: ViewBook | None = None) -> Drawing:
    """The set-up figure of any cut across round work, 170 mm wide; `book` shares views with other figures."""
    sheet = compose_cross_setup(spec, book or ViewBook())
    return sheet.drawing(spec.title or _title(spec), spec.description or describe(spec))


def compose_cross_setup(spec: CrossSetup, book: ViewBook) -> Sheet:
    """The sheet of `draw_cross_setup` before it becomes a drawing."""
    stage = staged(spec, book)
    found = cross_holding.draw(stage)
    _elevation(stage)
    _end_view(stage)
    _tools(stage)
    _lengths(stage)
    _angle(stage)
    _cut_notes(stage)
    third = checked(spec.projection) == THIRD
    if third:
        found = [_with_its_view(note, stage.sheet.width) for note in found]
        exchange(stage.sheet, BETWEEN, "x")
    _names(stage, found, 2.0 if third else BETWEEN + 6.0)
    return stage.sheet


def _with_its_view(note: Note, width: float) -> Note:
    """The note pointing at the same spot after the views have changed places."""
    x, y = note.spot
    return Note((x + width - BETWEEN if x < BETWEEN else x - BETWEEN, y), note.words, note.dot)


# ---------------------------------------------------------------------- views
def _windows(stage: CrossStage) -> tuple[float, float, float, float]:
    """(left, start of the local section, its end, right) on the paper."""
    a, b = stage.spec.span
    spare = max(3.2, 0.25 * stage.radius * stage.scale)
    left = stage.x(stage.shown) if stage.shown < stage.length - 1e-6 else stage.x(stage.length) - 5
    start, end = stage.x(b) - spare, stage.x(a) + spare
    end = end if end < stage.face_x - 2.5 else stage.sheet.width
    return left, start if start > max(left, stage.x(stage.length)) + 2.5 else left, end, stage.sheet.width


def _elevation(stage: CrossStage) -> None:
    spec, sheet = stage.spec, stage.sheet
    up = stage.places()[0]
    left, start, end, right = _windows(stage)
    look = stage.book.look(spec.after, stage.elevation)
    cut = stage.book.cut(spec.after, stage.elevation, stage.cut_depth)
    for x0, x1 in ((left, start), (end, right)):
        if x1 > x0:
            draw_look(sheet, look, Place(up.basis, up.scale, up.origin, shapely.box(x0, -99, x1, 999)), z=3.5)
    local = Place(up.basis, up.scale, up.origin, shapely.box(start, -99, end, 999))
    _local_section(stage, cut, local)
    gone = stage.book.section(spec.removed, stage.elevation, stage.cut_depth)
    sheet.removed(up.shape(gone).intersection(shapely.box(left, -99, right, 999)), 5.3, pitch=0.9)
    _thread(stage, stage.x(spec.at))
    ends = {start, end} | ({left} if stage.shown < stage.length - 1e-6 else set())
    for x in sorted(ends):
        _break(stage, x)
    sheet.centre_line((left, stage.axis_y), (stage.face_x, stage.axis_y), 3)


def _thread(stage: CrossStage, x: float) -> None:
    """The thread of a tapped hole whose axis stands at the paper x, from the top of the work down."""
    spec = stage.spec
    if spec.plunging and spec.pitch > 0:
        top = stage.top(spec.at)
        low = top - spec.depth if spec.depth else -top
        wide = inside_thread.root(spec.diameter, spec.pitch, stage.scale)
        inside_thread.along(stage.sheet, (x, stage.y(top)), (x, stage.y(low)), wide, through=spec.through)


def _local_section(stage: CrossStage, cut: Cut, place: Place) -> None:
    """The cut faces inside the window, outlined only where the metal really ends."""
    sheet, window = stage.sheet, place.window
    assert window is not None
    sheet.area(place.shape(cut.silhouette), "paper", 3.5)
    open_place = Place(place.basis, place.scale, place.origin)
    draw_lines(sheet, cut.lines, place, z=4.9)
    for i, face in enumerate(cut.faces):
        sheet.hatch(place.shape(face), (45, -45)[i % 2], (2.0, 1.4)[i % 2], z=3.8)
        edge = open_place.shape(face).boundary.intersection(window)
        sheet.lines(strings(edge), 0.5, 5.0)


def _break(stage: CrossStage, x: float) -> None:
    """Freehand line across the work."""
    s = (stage.face_x - x) / stage.scale
    cut = stage.shape.intersection(shapely.LineString([(s, -EVERY), (s, EVERY)]))
    if not cut.is_empty:
        stage.sheet.break_line((x, stage.y(cut.bounds[1])), (x, stage.y(cut.bounds[3])), 0.5, Layer.EDGE + 0.2)


def _end_view(stage: CrossStage) -> None:
    spec, sheet = stage.spec, stage.sheet
    place = stage.places()[1]
    draw_cut(sheet, stage.book.cut(spec.after, stage.end_view, stage.end_depth), place, pitches=(1.8, 1.3), z=3.5)
    gone = place.shape(stage.book.section(spec.removed, stage.end_view, stage.end_depth))
    sheet.removed(gone, 5.3, pitch=0.9)
    _thread(stage, stage.tool_x)
    r = stage.radius * stage.scale
    sheet.centre_line((END_X - r, stage.axis_y), (END_X + r, stage.axis_y), 2.5)
    sheet.centre_line((stage.tool_x, stage.y(stage.block_top) - 2), (stage.tool_x, stage.tool_y), 1.5)
    words = spec.words("end view", f"seen from end {spec.out}")
    sheet.text(END_X, sheet.height - lettering.HEIGHT - 1.2, words)
    if spec.words("reading", ""):
        sheet.text(END_X, sheet.height - 2 * lettering.HEIGHT - 3.2, spec.words("reading", ""))


# ---------------------------------------------------------------------- tools
def _tools(stage: CrossStage) -> None:
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    if spec.disc:
        deep = f", {spec.number(spec.depth)} deep" if spec.depth else ""
        arbor.draw(stage, tool_name(spec) + deep)
        return
    d = spec.diameter if spec.plunging else spec.cutter_diameter or spec.width
    parts = cutter_parts(spec.verb, d, k, angle=spec.tool_angle, pitch=spec.pitch)
    if not spec.plunging:
        parts = tools.end_mill(d, min(max(1.3 * d, 9 / k), 14 / k), 99 / k)
    top = stage.tool_y + TOOL
    x = stage.x(spec.at if spec.plunging else spec.start + d / 2)
    wide = 0.0
    for at in (x, stage.tool_x):
        shown = put_parts(sheet, parts, upright(at, stage.tool_y, k), (at - 14, 0, at + 14, top))
        wide = max(g.bounds[2] for g in shown.values()) - at
        low = stage.y(stage.top(spec.at)) if spec.plunging else stage.tool_y - 2
        sheet.centre_line((at, low), (at, top), 1.5)
    feed = spec.words("feed", "feed")
    if spec.plunging:
        right = stage.tool_x + wide + 5
        dim.block_arrow(sheet, (right, stage.tool_y + 12), (right, stage.tool_y + 1.5))
        sheet.text(right + 3, stage.tool_y + 5, feed, align="left")
    else:
        dim.block_arrow(sheet, (x - wide - 3, stage.tool_y + 3), (x - wide - 16, stage.tool_y + 3))
        sheet.text(x - wide - 9, stage.tool_y + 6.2, feed)
    name, y = tool_name(spec), stage.tool_y + 11.0
    right = x + wide + 5 + lettering.width(name) < sheet.width - 2
    sign = 1 if right else -1
    dim.leader(
        sheet,
        (x + (0.0 if spec.plunging else 0.2 * wide * sign), y - 3),
        (x + sign * (wide + 4), y),
        name,
        dot=True,
        right=right,
    )


# ---------------------------------------------------------------------- dimensions
def _lengths(stage: CrossStage) -> None:
    """From the face to the hole, or to the start and the end of the slot."""
    spec, sheet = stage.spec, stage.sheet
    y = stage.lanes[0]
    if spec.plunging:
        ends = (stage.x(0.0), stage.y(stage.top(1e-3))), (stage.x(spec.at), stage.y(stage.top(spec.at)))
        dim.linear(sheet, *ends, y, spec.words("at", spec.number(spec.at)), side=1)
        return
    a, b = spec.start, spec.end
    if a > 1e-9:
        ends = (stage.x(0.0), stage.y(stage.top(1e-3))), (stage.x(a), stage.y(stage.top(a - 1e-3)))
        dim.linear(sheet, *ends, y, spec.words("start", spec.number(a)), side=1)
    ends = (stage.x(a), stage.y(stage.top(a + 1e-3))), (stage.x(b), stage.y(stage.top(b - 1e-3)))
    dim.linear(sheet, *ends, y, spec.words("length", spec.number(b - a)), side=-1 if a > 1e-9 else 1)


def _cut_notes(stage: CrossStage) -> None:
    """Size of the hole, or width and depth of the slot, in the end view."""
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    if spec.plunging:
        deep = "through" if spec.through else f"× {spec.number(spec.depth)} deep"
        words = spec.words("hole", f"Ø{spec.number(spec.diameter)} {deep}" if spec.diameter else "")
        if words:
            _hole(stage, words)
        return
    if spec.disc:
        return  # its depth is dimensioned where the cutter stands
    top = stage.y(stage.top((spec.start + spec.end) / 2))
    if spec.width:
        w = spec.width / 2 * k
        turned = 0.5 < abs(signed(spec.angle)) <= 100  # the angle's arc takes the first lane
        foot = stage.axis_y + math.sqrt(max((top - stage.axis_y) ** 2 - w * w, 0.0))
        words = spec.words("width", spec.number(spec.width))
        if head.before_the_face(spec) and spec.depth:  # no room for a dimension of its own
            words = f"{words} × {spec.number(spec.depth)} deep"
        side = -1 if 0.5 < spec.angle % 360 < 180 else 1
        dim.linear(sheet, (END_X - w, foot), (END_X + w, foot), stage.lanes[turned], words, side=side)
    if spec.depth and not head.before_the_face(spec):
        low, x = top - spec.depth * k, stage.x(spec.start)
        words = spec.words("depth", spec.number(spec.depth))
        dim.linear(sheet, (x, low), (x, top), stage.face_x + 9.0, words, "y", side=-1)


def _hole(stage: CrossStage, words: str) -> None:
    """What the hole is, in the elevation: left of it, else over its axis, whose centre line gives way to the words.

    To the right the length from the face stands in the way.
    """
    spec, k = stage.spec, stage.scale
    r, top = spec.diameter / 2 * k, stage.y(stage.top(spec.at))
    y = top - min(0.25 * stage.radius * k, 0.4 * (spec.depth or 2 * stage.radius) * k)
    tip = (stage.x(spec.at) - r, y)
    elbows = [(tip[0] - away, lane, False) for lane in stage.lanes for away in (5.0, 2.0)]
    elbows = [e for e in elbows if e[0] - lettering.width(words) > BETWEEN + 2.0]  # the views may change places
    free = next((e for e in elbows if is_leader_free(stage.sheet, tip, e, words)), None)
    if free is not None:
        dim.leader(stage.sheet, tip, free[:2], words, right=False)
    else:
        dim.leader(stage.sheet, tip, (tip[0] - 3.0, stage.lanes[1]), words, right=True, mask=True)


def _angle(stage: CrossStage) -> None:
    """The 0° mark in the end view and the angle from it to the cut; in words when the mark lies in the holder."""
    spec, sheet = stage.spec, stage.sheet
    if spec.words("reading", ""):
        return  # what the head reads is the angle
    a = signed(spec.angle)
    r, c = stage.radius * stage.scale, np.array([END_X, stage.axis_y])
    out, zero = max(r, stage.swing * stage.scale), 90.0 - a
    q = direction(zero)
    text = spec.words("angle", spec.degrees(a))
    words = spec.words("zero", "0°")
    if abs(a) < 0.5:
        tips = [c + (out + d) * direction(a) for d in (4.5, 7.0, 10.0) for a in (133, 122, 145)]
        free_leader(sheet, c + r * direction(112), [(float(p[0]), float(p[1]), False) for p in tips], words)
        return
    if abs(a) > 100 or (out + 9.3) * q[1] < stage.block_top * stage.scale + 3.5:
        n = np.array([-q[1], q[0]])
        size = min(2.6, 0.4 * r)
        sheet.area(
            polygon([c + q * r, c + q * (r - size) + n * size * 0.4, c + q * (r - size) - n * size * 0.4]), "ink", 5.6
        )
        sheet.centre_line(c, c + q * (r - size), 0.0)
        sheet.text(END_X, sheet.height - 2 * lettering.HEIGHT - 3.2, angle_note(spec))
        return
    _arc(stage, zero, out, text)
    side = "left" if q[0] >= 0 else "right"
    ends = [c + q * (out + 9.3) + d for d in ((0, -1.2), (0, 1.0), (0, -3.5), 3 * q - (0, 1.2), 5 * q - (0, 1.2))]
    free_text(sheet, [(float(p[0]), float(p[1]), side) for p in ends], words)


def angle_note(spec: CrossSetup) -> str:
    """Where the 0° mark is, in words."""
    a = signed(spec.angle)
    return spec.words("angle note", f"0° mark: the cut is at {spec.degrees(a)}")


def _arc(stage: CrossStage, zero: float, out: float, text: str) -> None:
    """Angle from the 0° mark at `zero` degrees on the paper to the cut, outside everything."""
    sheet, c, q = stage.sheet, np.array([END_X, stage.axis_y]), direction(zero)
    sheet.centre_line(c + q * 0.3 * out, c + q * (out + 8.5), 0)
    radius = out + 5.5
    p = arc(c, radius, min(zero, 90.0), max(zero, 90.0))
    sheet.lines([p], NARROW, Layer.AXIS + 0.1)
    dim.head(sheet, p[0], p[0] - p[1])
    dim.head(sheet, p[-1], p[-1] - p[-2])
    spots = []
    for share in (0.42, 0.55, 0.3, 0.68) if abs(zero - 90) > 24 else (0.5, -16 / abs(90 - zero), -26 / abs(90 - zero)):
        m = math.radians(zero + (90 - zero) * share)
        reach = radius + 1.4 + abs(math.cos(m)) * lettering.width(text) / 2 + abs(math.sin(m)) * 1.3
        spots.append((END_X + reach * math.cos(m), stage.axis_y + reach * math.sin(m) - lettering.HEIGHT / 2, "centre"))
    free_text(sheet, spots, text)


# ---------------------------------------------------------------------- names
def _names(stage: CrossStage, found: list[Note], left: float) -> None:
    """Names at the foot; the key to the removed metal over the elevation, whose room begins at `left`."""
    sheet, spec = stage.sheet, stage.spec
    high = draw_scale(sheet, lanes.scale_words(stage.scale), spec.projection) - 3.0
    y, way = stage.names_y, sheet.register.in_the_way()
    placed = lanes.row(found, y, 3.0, high, way)
    if lanes.crossings(placed, y, way):  # the table explains itself
        table = spec.words("table", "table")
        placed = lanes.row([note for note in found if note.words != table], y, 3.0, high, way)
    for note, x, right in placed:
        dim.leader(sheet, note.spot, (x, stage.names_y), note.words, dot=note.dot, right=right)
    if spec.removed_text:
        words = spec.removed_text
        swatch(sheet, left + (lettering.width(words) + 8) / 2, sheet.height - lettering.HEIGHT - 1.2, words)


def tool_name(spec: CrossSetup) -> str:
    """What the tool is called in the figure."""
    if spec.tool_name:
        return spec.tool_name
    d = spec.diameter if spec.plunging else spec.cutter_diameter or spec.width
    name = CUTTER_NAMES.get(spec.verb, "cutter")
    return f"{name} Ø{spec.number(d)}" if d and spec.verb != "tap" else name


def _holder(spec: CrossSetup) -> str:
    """What the work lies in, in words."""
    if spec.holding != "head":
        return spec.holding.replace("-", " ")
    tail = ", its end held up by a tailstock," if spec.tail_parts else ""
    return f"{spec.words('head', 'dividing head')}, the axis level{tail}"


def _title(spec: CrossSetup) -> str:
    return f"{spec.verb.capitalize()}, the work lying in the {_holder(spec)}"


def describe(spec: CrossSetup) -> str:
    """What the figure shows, in words, for a reader who cannot see it."""
    n = spec.number
    out = [
        f"The work lies in the {_holder(spec)} on diameter {n(spec.grip_diameter)}, turned so that "
        f"the place of the cut, {round(spec.angle, 3):g} degrees from the 0° mark, "
        + ("lies beside it, towards the cutter on its upright arbor." if spec.disc else "is uppermost.")
    ]
    if spec.plunging:
        deep = "through" if spec.through else f"{n(spec.depth)} deep"
        out.append(
            f"Operation: {spec.verb}, diameter {n(spec.diameter)}, {deep}, {n(spec.at)} from the face of end "
            f"{spec.out}, with the {tool_name(spec)}."
        )
    else:
        out.append(
            f"Operation: {spec.verb}, from {n(spec.start)} to {n(spec.end)} behind the face of end {spec.out}, "
            f"{n(spec.width)} wide, {n(spec.depth)} deep, with the {tool_name(spec)}."
        )
    if spec.removed_text:
        out.append(f"The metal removed is shown crossed: {spec.removed_text}.")
    out.append(words_of(spec.projection))
    return " ".join(out)
