"""What does work in the vice, or clamped to the table, look like?  One function draws any such set-up.

Section A–A through the cut and the jaws, beside it the plan with the cutter's path or, for a cut across, the front
view that shows its profile; and a small pictorial that names the faces.  The cutter is drawn raised in the elevations,
at the start of its path in the plan (solid) and at the end of it (phantom).
"""

from __future__ import annotations

from typing import Final

import numpy as np

from methodfigures.paper import dimensions as dim
from methodfigures.paper.arrangement import FIRST, checked, draw_scale, exchange, words_of
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note, scale_words
from methodfigures.paper.palette import TOOL
from methodfigures.paper.shapes import circle, lines_in
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.setups import inside_thread
from methodfigures.setups.standing import put_parts, upright
from methodfigures.setups.vice import notes as vice_notes
from methodfigures.setups.vice.holding import draw_front, draw_plan, draw_side
from methodfigures.setups.vice.layout import MARK, staged
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.setups.vice.stage import ViceStage
from methodfigures.solids.views import ViewBook, draw_cut, draw_look
from methodtooling import fixtures
from methodtooling.cutters import cutter_parts, disc_edge, disc_face

SAME: Final = 1e-6


def draw_vice_setup(spec: ViceSetup, book: ViewBook | None = None) -> Drawing:
    """The set-up figure of any operation on six-face work, 170 mm wide; `book` shares views with other figures."""
    sheet = compose_vice_setup(spec, book or ViewBook())
    return sheet.drawing(spec.title or _title(spec), spec.description or describe(spec))


def compose_vice_setup(spec: ViceSetup, book: ViewBook) -> Sheet:
    """The sheet of `draw_vice_setup` before it becomes a drawing."""
    stage = staged(spec, book)
    before = [] if stage.two else _front(stage)
    beside = _side(stage)
    if stage.two:
        _plan(stage)
    spots, wide = _cutters(stage)
    vice_notes.heights(stage)
    vice_notes.widths(stage)
    vice_notes.zero_corner(stage)
    vice_notes.places(stage)
    vice_notes.marks(stage)
    vice_notes.tool(stage, spots, wide)
    vice_notes.names(stage, before, beside)
    vice_notes.right_column(stage)
    if checked(spec.projection) == FIRST:  # the section is seen from the right
        exchange(stage.sheet, stage.level, "x", low=0.0)
    draw_scale(stage.sheet, scale_words(stage.scale), spec.projection)
    return stage.sheet


# ---------------------------------------------------------------------- views
def _front(stage: ViceStage) -> list[Note]:
    spec, sheet, place = stage.spec, stage.sheet, stage.place(stage.front)
    inside = spec.plunging or spec.verb in ("pocket", "profile", "slot")
    look = stage.book.look(spec.after, stage.front, hidden=inside)
    draw_look(sheet, look, place, z=2.0)
    sheet.removed(place.shape(stage.book.ghost(spec.after, spec.removed, stage.front).shown), 4.4)
    cover, found = draw_front(stage)
    for q in lines_in(place.lines(look.lines.sharp + look.lines.contour), cover):
        sheet.line(q, "hidden", 5.9)
    for q in lines_in(place.lines(look.lines.hidden), cover):
        sheet.line(q, "hidden", 5.9, width=NARROW * 0.8)
    return found


def _side(stage: ViceStage) -> list[Note]:
    spec, sheet, place = stage.spec, stage.sheet, stage.place(stage.side)
    found = draw_side(stage)
    draw_cut(sheet, stage.book.cut(spec.after, stage.side, stage.section_depth), place, pitches=(1.9, 1.4), z=2.5)
    sheet.removed(place.shape(stage.book.section(spec.removed, stage.side, stage.section_depth)), 4.4)
    for x, y in _threaded(stage):
        if abs(x - stage.section_x) < SAME:
            mouth, end = (place.spot(_work(stage, x, y, depth)) for depth in (0.0, spec.box[4]))
            inside_thread.along(sheet, mouth, end, _root(stage), through=spec.through)
    return found


def _threaded(stage: ViceStage) -> tuple[tuple[float, float], ...]:
    """Places of the holes that get a thread."""
    return stage.spec.places if stage.spec.pitch > 0 else ()


def _root(stage: ViceStage) -> float:
    return inside_thread.root(stage.spec.diameter, stage.spec.pitch, stage.scale)


def _work(stage: ViceStage, x: float, y: float, depth: float) -> np.ndarray:
    """A point of the work by its place on the upper face and its depth."""
    right, away, up = np.array(stage.spec.rotation)
    point: np.ndarray = np.array(stage.spec.origin) + right * x + away * y - up * depth
    return point


def _plan(stage: ViceStage) -> None:
    spec, sheet, place = stage.spec, stage.sheet, stage.place(stage.plan)
    draw_plan(stage)
    draw_look(sheet, stage.book.look(spec.after, stage.plan), place, z=3.0)
    sheet.removed(place.shape(stage.book.ghost(spec.after, spec.removed, stage.plan).shown), 4.6, pitch=0.9)
    for x, y in _threaded(stage):
        inside_thread.from_its_end(sheet, (stage.x(x), stage.yp(y)), _root(stage))
    r = spec.cutter_diameter / 2 * stage.scale
    (ax, ay), (bx, by) = [(stage.x(p[0]), stage.yp(p[1])) for p in stage.path]
    if spec.plunging or r <= 0:
        return
    sheet.circle((ax, ay), r, "narrow", Layer.TOOL, fill=TOOL, width=0.35)
    sheet.centre_mark((ax, ay), r, 1.2)
    if r > 1.2:
        turn = (160, 20) if stage.along == "width" else (250, 110)
        dim.turn_arrow(sheet, (ax, ay), r + 1.7, *turn, z=Layer.TOOL)
    if np.hypot(bx - ax, by - ay) > 1.0:
        sheet.outline(circle((bx, by), r), "phantom", Layer.TOOL)
        sheet.centre_line((ax, ay), (bx, by), r + 1.2)
    _plan_feed(stage, (bx, by))


def _plan_feed(stage: ViceStage, b: tuple[float, float]) -> None:
    """Feed arrow of the plan: right of the jaws, or below them."""
    sheet, words = stage.sheet, stage.spec.words("feed", "feed")
    r = stage.spec.cutter_diameter / 2 * stage.scale
    if stage.along == "width":
        x = max(stage.right, b[0] + r) + 5.5
        y = (stage.yp(stage.span[1]) + stage.yp(stage.span[4])) / 2
        dim.block_arrow(sheet, (x, y - 7), (x, y + 7))
        sheet.text(x + 5.5, y, words, turn=90)
        return
    y = stage.plan_room[0] - MARK - 4.0
    x = max(3.0, min(stage.x(stage.section_x) - 12.0, stage.level - 28.0))
    dim.block_arrow(sheet, (x, y), (x + 14, y))
    sheet.text(x + 16, y, words, align="left", level="middle")


# ---------------------------------------------------------------------- cutters
def _cutters(stage: ViceStage) -> tuple[tuple[float, ...], float]:
    """The cutter raised above the elevations; (paper x of its axes, half its width)."""
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    d = spec.cutter_diameter or spec.diameter
    edge = disc_edge(spec.disc, d, spec.box[4], (-14 / k, 14 / k)) if spec.disc else ()
    parts = edge or cutter_parts(
        spec.verb,
        d,
        k,
        angle=spec.tool_angle,
        pitch=spec.pitch,
        kind=spec.cutter,
        high=spec.cutter_high,
        neck=spec.cutter_neck,
        reach=spec.box[4],
    )
    beside = disc_face(spec.disc) if spec.disc else parts
    wide = max(abs(fixtures.bounds(one)[i]) for one in (parts, beside) for i in (1, 3)) * k
    y, (ax, ay) = stage.cutter_y, stage.path[0]
    low, high = stage.right + 4.0, sheet.width - 4.0
    there = _between(stage.xs(ay), low + wide, high)
    spots = (there,) if stage.two else (_between(stage.x(ax), wide + 3, low - 4), there)
    for x in spots:
        window = (low, high) if x == there else (2.0, low + 10)
        put_parts(sheet, beside if x == there else parts, upright(x, y, k), (window[0], 0, window[1], sheet.height - 1))
        sheet.centre_line((x, y), (x, sheet.height - 1), 0.8)
    return spots, wide


def _between(x: float, low: float, high: float) -> float:
    return min(max(x, low), max(high, low))


# ---------------------------------------------------------------------- words


def _title(spec: ViceSetup) -> str:
    return f"{spec.verb.capitalize()}, {spec.faces[0]} up, {spec.faces[1]} towards you"


def describe(spec: ViceSetup) -> str:
    """What the figure shows, in words, for a reader who cannot see it."""
    n = spec.number
    held = {
        "clamps": "is clamped to the table",
        "angle-plate": "is clamped to an angle plate",
        "magnet": "stands on the magnetic table",
    }.get(spec.holding, f"stands in the {spec.holding.replace('-', ' ')}")
    out = [f"The work {held}, {spec.faces[0]} up, {spec.faces[1]} towards you."]
    if spec.jawed and spec.grip > 0:
        out.append(f"{n(spec.grip)} of its height is between the jaws.")
    x0, y0, x1, y1, depth = spec.box
    if spec.places:
        where = "; ".join(f"{n(x)} from the left and {n(y)} from the edge towards you" for x, y in spec.places[:12])
        deep = "through" if spec.through else f"{n(depth)} deep"
        out.append(f"Operation: {spec.verb}, {deep}, at {where}, with the {vice_notes.tool_name(spec)}.")
    else:
        out.append(
            f"Operation: {spec.verb}, from {n(x0)} to {n(x1)} from the left, {n(y0)} to {n(y1)} from the edge "
            f"towards you, {n(depth)} deep, with the {vice_notes.tool_name(spec)}."
        )
    if spec.removed_text:
        out.append(f"The metal removed is shown crossed: {spec.removed_text}.")
    out.append(words_of(spec.projection))
    return " ".join(out)
