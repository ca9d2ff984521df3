"""Which dimensions, names and captions does work in the vice carry, and where do they go?"""

from __future__ import annotations

import itertools

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import Note
from methodfigures.paper.palette import INK, PAPER
from methodfigures.paper.sheet import Layer
from methodfigures.setups.lists import draw_list, list_width
from methodfigures.setups.standing import (
    cutting_plane,
    face_room,
    free_leader,
    free_number,
    free_text,
    is_free,
    letter_face,
    swatch,
)
from methodfigures.setups.vice.layout import MARK, cut_widths
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.setups.vice.stage import BED, FIXED, LANE, ViceStage
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import Place, centred, extent, pictorial_basis
from methodtooling.cutters import CUTTER_NAMES


def heights(stage: ViceStage) -> None:
    """Height above the jaws and grip: left of the front view, or right of the section beyond the depth of the cut."""
    spec, sheet = stage.spec, stage.sheet
    outer = max(stage.xs(stage.span[4]), stage.xs(stage.gripped[1]) + FIXED) + 6.0
    depth = not spec.plunging and spec.box[4] > 0 and spec.verb != "chamfer"
    if depth:
        y1 = spec.box[3]
        cut = min(stage.xs(y1), stage.xs(stage.span[4]))
        top, low = stage.y(stage.h(0.0)), stage.y(stage.h(spec.box[4]))
        words = spec.words("depth", spec.number(spec.box[4]))
        dim.linear(sheet, (cut, low), (stage.xs(stage.span[4]), top), outer, words, "y", side=1)
    if stage.two:
        x, edge, jaw = outer + (7.0 if depth else 0.0), stage.xs(stage.span[4]), stage.xs(stage.gripped[1]) + FIXED
    else:
        x, edge, jaw = stage.left - 8.0, stage.x(stage.span[0]), stage.jaw[0]
    if spec.jawed and spec.grip > 0:
        above = spec.words("above", spec.number(stage.height - spec.grip))
        dim.linear(sheet, (jaw, stage.y(spec.grip)), (edge, stage.y(stage.height)), x, above, "y", side=1)
        grip = spec.words("grip", spec.number(spec.grip))
        dim.linear(sheet, (edge, stage.y(0)), (jaw, stage.y(spec.grip)), x, grip, "y", side=-1)
    else:
        words = spec.words("height", spec.number(stage.height))
        dim.linear(sheet, (edge, stage.y(0)), (edge, stage.y(stage.height)), x, words, "y")


def widths(stage: ViceStage) -> None:
    """Lanes above plan or front view, and above the section: where the cut begins and how wide it is."""
    spec = stage.spec
    x0, y0, x1, y1, _ = spec.box
    closed = cut_widths(stage)
    top = stage.y(stage.height)
    upper = stage.yp(stage.span[4]) if stage.two else top
    if "x" in closed:
        _chain(stage, (stage.x(0.0), stage.x(x0), stage.x(x1)), (x0, x1 - x0), ("x0", "width x"), upper, stage.lanes[0])
    if "y" in closed:
        _chain(
            stage, (stage.xs(0.0), stage.xs(y0), stage.xs(y1)), (y0, y1 - y0), ("y0", "width y"), top, stage.lanes[1]
        )
    if spec.verb == "chamfer":
        words = spec.words("note", f"{spec.number(spec.box[4])} × 45°")
        spot = stage.xs(y0) + 0.5 * spec.box[4] * stage.scale, top - 0.5 * spec.box[4] * stage.scale
        x = stage.xs(stage.span[1])
        elbows = [(x - 5, top + d, False) for d in (4.0, 7.0, 10.0)] + [(x + 3, top + d, True) for d in (7.0, 10.0)]
        free_leader(stage.sheet, spot, elbows, words)


def _chain(
    stage: ViceStage,
    at: tuple[float, float, float],
    sizes: tuple[float, float],
    names: tuple[str, str],
    top: float,
    y: float,
) -> None:
    """Start and width of a cut in one lane."""
    spec, sheet = stage.spec, stage.sheet
    first = spec.words(names[0], spec.number(sizes[0]) if sizes[0] > 1e-6 else "")
    open_end = at[2] - at[1] < 1e-6
    if sizes[0] > 1e-6 and first and not _ends_there(stage, names[0]):
        dim.linear(sheet, (at[0], top), (at[1], top), y, first, side=-1)
    if not open_end:
        dim.linear(sheet, (at[1], top), (at[2], top), y, spec.words(names[1], spec.number(sizes[1])), side=1)


def _ends_there(stage: ViceStage, name: str) -> bool:
    """Whether the cut runs to the far edge: its width alone says where it begins."""
    x0, y0, x1, y1, _ = stage.spec.box
    return (x1 >= stage.span[3] - 1e-6 and x0 > 0) if name == "x0" else (y1 >= stage.span[4] - 1e-6 and y0 > 0)


# ---------------------------------------------------------------------- holes
def places(stage: ViceStage) -> None:
    """Places of holes in the plan: each its own dimensions while there are few, otherwise numbers."""
    spec, sheet = stage.spec, stage.sheet
    if not spec.places:
        return
    r = max(spec.diameter / 2 * stage.scale, 0.6)
    for x, y in spec.places:
        p = stage.x(x), stage.yp(y)
        sheet.centre_mark(p, r, 1.6)
    if spec.few:
        _place_dimensions(stage, r)
    _hole_note(stage, r)
    for i, (x, y) in enumerate(spec.places[: numbered(stage)]):
        free_number(sheet, (stage.x(x), stage.yp(y)), r, str(i + 1))


def zero_corner(stage: ViceStage) -> None:
    """The corner from which every x and y is counted: a dot in a ring with its name where something is free."""
    sheet, at = stage.sheet, (stage.x(0.0), stage.yp(0.0) if stage.two else stage.y(stage.h(0.0)))
    sheet.circle(at, 1.1, "narrow", Layer.TEXT, fill=PAPER, width=0.35)
    sheet.circle(at, 0.5, None, Layer.TEXT, fill=INK)
    free_number(sheet, at, 1.1, "0, 0", first=150.0)


def _place_dimensions(stage: ViceStage, r: float) -> None:
    """Distances from the left edge below the plan, from the near edge left of it, the shorter nearer."""
    spec, sheet = stage.spec, stage.sheet
    xs = {round(p[0], 6): p for p in reversed(spec.places)}
    ys = {round(p[1], 6): p for p in reversed(spec.places)}
    y = stage.plan_room[0] - MARK - 5.5
    zero = stage.x(0.0), stage.yp(stage.span[1])
    for i, v in enumerate(sorted(xs)):
        if abs(v) > 1e-9:
            words = spec.words(f"x {i + 1}", spec.number(v))
            dim.linear(sheet, zero, (stage.x(v), stage.yp(xs[v][1]) - r), y, words)
            y -= LANE
    x = stage.left - 6.0
    for i, v in enumerate(sorted(ys)):
        if abs(v) > 1e-9:
            words = spec.words(f"y {i + 1}", spec.number(v))
            start = (stage.x(stage.span[0]), stage.yp(0.0))
            dim.linear(sheet, start, (stage.x(ys[v][0]) - r, stage.yp(v)), x, words, "y", side=1 if i else -1)
            x -= 6.5


def _hole_note(stage: ViceStage, r: float) -> None:
    """What the holes are, from the rightmost one to the right."""
    spec, sheet = stage.spec, stage.sheet
    deep = "through" if spec.through else f"× {spec.number(spec.box[4])} deep"
    count = f"{len(spec.places)} × " if len(spec.places) > 1 else ""
    words = spec.words("hole", f"{count}Ø{spec.number(spec.diameter)} {deep}" if spec.diameter else "")
    if not words:
        return
    x, y = max(spec.places, key=lambda p: (p[0], p[1]))
    tip = np.array([stage.x(x), stage.yp(y)]) + r * np.array([0.8, 0.6])
    top = stage.plan_room[1] + MARK + 0.5
    w = lettering.width(words)
    spots = [(tip[0] + d, top + h, True) for h in (0.0, 4.0) for d in (4.0, 14.0, 2.0, 9.0)]
    spots = [s for s in spots if s[0] + w < stage.level - 2.0]
    spots += [(tip[0] + d, top + h, False) for h in (0.0, 4.0) for d in (2.0, -4.0, -10.0)]
    spots += [(max(2.0, stage.level - 3.0 - w), top + h, True) for h in (0.0, 4.0)]
    free_leader(sheet, tip, spots, words)


# ---------------------------------------------------------------------- names
def names(stage: ViceStage, before: list[Note], beside: list[Note]) -> None:
    """Names of the parts that hold, in the lane below front view and section; the section's own name."""
    sheet, spec = stage.sheet, stage.spec
    _names(stage, before, 3.0, stage.level - 1.0)
    placed = lanes.row(beside, stage.names_y, stage.level + 1.0, sheet.width - 3, sheet.register.in_the_way())
    if any(x + lettering.width(n.words) > sheet.width - 2 for n, x, right in placed if right):
        table = spec.words("table", "table")  # explains itself
        beside = [n for n in beside if n.words != table]
    _names(stage, beside, stage.level + 1.0, sheet.width - 3)
    _section_name(stage)


def _section_name(stage: ViceStage) -> None:
    sheet = stage.sheet
    near, far = stage.xs(stage.span[1]), stage.xs(stage.span[4])
    high, low = stage.y(stage.height), stage.floor - BED - 4.5
    above = [] if stage.two else [((near + far) / 2, stage.lanes[2] + 2.0, "centre")]
    at_its_side = [(near - gap, high + up, "right") for up in (2.0, 6.0, -2.0) for gap in (3.0, 6.0, 10.0)]
    at_its_side += [(far + gap, high + up, "left") for up in (2.0, 6.0) for gap in (3.0, 8.0, 16.0)]
    below = [(x, low, "centre") for x in ((near + far) / 2, near - 4, far + 4, near - 12, far + 12)]
    free_text(sheet, [*above, *at_its_side, *below], "A–A", lettering.LARGE, mask=False)


def _names(stage: ViceStage, found: list[Note], low: float, high: float) -> None:
    sheet, x = stage.sheet, stage.x(stage.section_x)
    mark = [] if stage.two else [shapely.box(x - 1, stage.floor - BED - 8, x + 11, stage.floor - BED)]
    for note, at, right in lanes.row(found, stage.names_y, low, high, [*sheet.register.in_the_way(), *mark]):
        dim.leader(sheet, note.spot, (at, stage.names_y), note.words, dot=note.dot, right=right)


def marks(stage: ViceStage) -> None:
    """Both ends of the cutting plane A–A, in the plan or in the front view."""
    x, low = stage.x(stage.section_x), stage.plan_room[0] - 0.5 if stage.two else stage.floor - BED - 1.0
    cutting_plane(stage.sheet, (x, low), -1, -1, beside=True)
    cutting_plane(stage.sheet, (x, stage.lanes[2]), 1, -1, beside=True)


def tool(stage: ViceStage, spots: tuple[float, ...], wide: float) -> None:
    """Feed arrow and name of the cutter, where there is room."""
    sheet, spec = stage.sheet, stage.spec
    a, b, y = spots[0], spots[-1], stage.cutter_y
    feed = spec.words("feed", "feed")
    w = lettering.width(feed)
    if spec.plunging:
        tried = [(b + wide + 5, True), (b - wide - 5, False), (b + wide + 12, True), (b - wide - 12, False)]
        x, right = next((at for at in tried if _free_feed(stage, *at, w)), tried[0])
        dim.block_arrow(sheet, (x, y + 9.0), (x, y + 0.5))
        sheet.text(x + (3 if right else -3), y + 3, feed, align="left" if right else "right")
    elif stage.along == "width":
        x = b + wide + 3 if b + wide + 20 < sheet.width else b - wide - 17
        dim.block_arrow(sheet, (x, y + 1.6), (x + 14, y + 1.6))
        sheet.text(x + 6, y + 4.8, feed)
    _tool_name(stage, (a, b), wide)


def _free_feed(stage: ViceStage, x: float, right: bool, wide: float) -> bool:
    """Whether an upright feed arrow at `x` and its word of `wide` mm stand clear there."""
    y = stage.cutter_y
    low, high = (x - 2, x + 4 + wide) if right else (x - 4 - wide, x + 2)
    return stage.level < low and is_free(stage.sheet, shapely.box(low, y, high, y + 9.5))


def _tool_name(stage: ViceStage, spots: tuple[float, float], wide: float) -> None:
    """The cutter's name beside it, over two lines where it is long."""
    sheet, (a, b) = stage.sheet, spots
    name, reach = tool_name(stage.spec), 0.0 if stage.spec.plunging else 0.2 * wide
    for at, top in itertools.product(dict.fromkeys((b, a)), (sheet.height - 4.5, sheet.height - 8.5)):
        low, high = (stage.level, sheet.width - 2.0) if at == b else (2.0, stage.level - 2.0)
        for x, right in ((at + wide + 4, True), (at - wide - 4, False)):
            room = (high - x if right else x - low) - 1.5
            rows = lettering.wrap(name, room) if room < lettering.width(name) else [name]
            long = max(map(lettering.width, rows))
            y = top - (len(rows) - 1) * lettering.HEIGHT * lettering.LEADING
            end = x + (long + 1) * (1 if right else -1)
            box = shapely.box(min(x, end), y, max(x, end), top + 3.6)
            if room >= 10 and len(rows) <= 2 and long <= room and is_free(sheet, box):
                tip = at + (reach if right else -reach), min(y - 1.5, sheet.height - 5)
                dim.leader(sheet, tip, (x, y), "\n".join(rows), dot=True, right=right)
                return
    x = min(b + wide + 4, sheet.width - 3.0 - lettering.width(name))
    dim.leader(sheet, (b + reach, sheet.height - 5.5), (x, sheet.height - 4.5), name, dot=True, right=True)


def tool_name(spec: ViceSetup) -> str:
    """What the tool is called in the figure."""
    if spec.tool_name:
        return spec.tool_name
    name, d = CUTTER_NAMES.get(spec.verb, "cutter"), spec.cutter_diameter or spec.diameter
    return f"{name} Ø{spec.number(d)}" if d and spec.verb not in ("tap", "bore") else name


# ---------------------------------------------------------------------- right column
def right_column(stage: ViceStage) -> None:
    """The list of places, named faces, the pose in words and the metal removed in words."""
    low = stage.column
    high = _lists(stage, low, stage.sheet.width - 3) - 3
    if high - low >= PICTORIAL:
        _pictorial(stage, low, high)


PICTORIAL = 26.0
"""Least width of the pictorial and its captions, mm."""


def _pictorial(stage: ViceStage, low: float, high: float) -> None:
    spec, sheet = stage.spec, stage.sheet
    middle, y = (low + high) / 2, stage.column_foot
    if spec.removed_text:
        swatch(sheet, middle, y, spec.removed_text)
        y += 5.0
    rows = lettering.wrap(spec.words("pose", f"{spec.faces[0]} up, {spec.faces[1]} towards you"), high - low)
    y += (len(rows) - 1) * lettering.HEIGHT * lettering.LEADING
    sheet.text(middle, y, "\n".join(rows))
    y += 4.5
    right, away, up = np.asarray(spec.rotation, float)
    view = pictorial_basis(right, up, -32.0, 28.0)
    a, b = extent(view, [*spec.before, *spec.after])
    k = float(min((high - low - 2) / (b - a)[0], (stage.column_top - y) / (b - a)[1]))
    place = centred(view, k, (middle, y + (b - a)[1] * k / 2), [*spec.before, *spec.after])
    draw_pictorial(sheet, stage.book, spec.after, spec.removed, place)
    for normal, along, upward, words in (
        (up, right, away, spec.faces[0]),
        (-away, right, up, spec.faces[1]),
        (right, away, up, spec.faces[2]),
    ):
        _letter(stage, place, normal, along, upward, words)


def _letter(
    stage: ViceStage, place: Place, normal: np.ndarray, along: np.ndarray, upward: np.ndarray, words: str
) -> None:
    found = face_room(stage.spec.after, normal, along, upward)
    if not found or not words:
        return
    middle, w, h = found
    tall = min(0.8 * w / lettering.width(words, 1.0), 0.55 * h, 5.0 / place.scale)
    if tall * place.scale >= 1.5:
        letter_face(stage.sheet, place, middle, along, upward, words, tall)


def _lists(stage: ViceStage, low: float, high: float) -> float:
    """The list of places at the right in as many columns as there is room for; their left end.

    What finds no room is counted in the last row.
    """
    spec = stage.spec
    rows = spec.rows()
    if not rows:
        return high + 3
    heading = rows[:1] if spec.table_columns or not spec.table_rows else []
    places = rows[len(heading) :]
    top = stage.column_top + 0.5
    tall = max(2, int((top - stage.column_foot) / STEP) - len(heading))
    wide = list_width(rows) + 3
    columns = max(1, min(-(-len(places) // tall), int((high - low) / wide)))
    room = columns * tall
    if len(places) > room:
        more = len(places) - room + 1
        places = [*places[: room - 1], ("…", *[""] * (len(places[0]) - 2), f"+ {more}")]
    left = high + 3 - columns * wide
    for i in range(columns):
        part = places[i * tall : (i + 1) * tall]
        if part:
            x = left + i * wide
            draw_list(stage.sheet, [*heading, *part], x, x + wide - 3, top, heading=bool(heading), step=STEP)
    return left


def numbered(stage: ViceStage) -> int:
    """How many places have their number in the plan: those that the list has room for."""
    return min(len(stage.spec.places), NUMBERED) if stage.spec.rows() else 0


STEP = 4.4
"""Height of a row of a list, mm."""
NUMBERED = 60
"""Most numbers in the plan: beyond that they would stand on each other."""
