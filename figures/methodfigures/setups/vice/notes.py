"""Which dimensions, names and captions does work in the vice carry, and where do they go?"""

from __future__ import annotations

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import Note
from methodfigures.paper.palette import INK, PAPER
from methodfigures.paper.sheet import FINE, NARROW, Layer, Sheet
from methodfigures.setups.standing import face_room, free_leader, free_number, free_text, letter_face, swatch
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.setups.vice.stage import BED, CUTTER, FIXED, JAW_PLAN, ViceStage, cut_widths
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import Place, centred, extent, pictorial_basis
from methodfigures.tooling.cutters import CUTTER_NAMES


def heights(stage: ViceStage) -> None:
    """Left lane: height above the jaws and grip; right of the section: depth of the cut."""
    spec, sheet = stage.spec, stage.sheet
    x, edge = stage.left - 8.0, stage.x(stage.span[0])
    if spec.jawed and spec.grip > 0:
        above = spec.words("above", spec.number(stage.height - spec.grip))
        dim.linear(sheet, (stage.jaw[0], stage.y(spec.grip)), (edge, stage.y(stage.height)), x, above, "y", side=1)
        grip = spec.words("grip", spec.number(spec.grip))
        dim.linear(sheet, (edge, stage.y(0)), (stage.jaw[0], stage.y(spec.grip)), x, grip, "y", side=-1)
    else:
        words = spec.words("height", spec.number(stage.height))
        dim.linear(sheet, (edge, stage.y(0)), (edge, stage.y(stage.height)), x, words, "y")
    depth = spec.box[4]
    if spec.plunging or depth <= 0 or spec.verb == "chamfer":
        return
    words = spec.words("depth", spec.number(depth))
    at = max(stage.xs(stage.span[4]), stage.xs(stage.gripped[1]) + FIXED) + 6.0
    _, _, _, y1, _ = spec.box
    cut = min(stage.xs(y1), stage.xs(stage.span[4]))
    top, low = stage.y(stage.h(0.0)), stage.y(stage.h(depth))
    dim.linear(sheet, (cut, low), (stage.xs(stage.span[4]), top), at, words, "y", side=1)


def widths(stage: ViceStage) -> None:
    """Lanes above front view and section: where the cut begins and how wide it is."""
    spec = stage.spec
    x0, y0, x1, y1, _ = spec.box
    closed = cut_widths(stage)
    top = stage.y(stage.height)
    if "x" in closed:
        _chain(stage, (stage.x(0.0), stage.x(x0), stage.x(x1)), (x0, x1 - x0), ("x0", "width x"), top, stage.lanes[0])
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
    for i, (x, y) in enumerate(spec.places if spec.rows() else ()):
        free_number(sheet, (stage.x(x), stage.yp(y)), r, str(i + 1))


def zero_corner(stage: ViceStage) -> None:
    """The corner from which every x and y is counted: a dot in a ring with its name where something is free."""
    sheet, at = stage.sheet, (stage.x(0.0), stage.yp(0.0))
    sheet.circle(at, 1.1, "narrow", Layer.TEXT, fill=PAPER, width=0.35)
    sheet.circle(at, 0.5, None, Layer.TEXT, fill=INK)
    free_number(sheet, at, 1.1, "0, 0", first=150.0)


def _place_dimensions(stage: ViceStage, r: float) -> None:
    """Distances from the left edge below the plan, from the near edge left of it, the shorter nearer."""
    spec, sheet = stage.spec, stage.sheet
    xs = {round(p[0], 6): p for p in reversed(spec.places)}
    ys = {round(p[1], 6): p for p in reversed(spec.places)}
    y = stage.yp(stage.span[1]) - JAW_PLAN - 7.0
    zero = stage.x(0.0), stage.yp(stage.span[1])
    for i, v in enumerate(sorted(xs)):
        if abs(v) > 1e-9:
            words = spec.words(f"x {i + 1}", spec.number(v))
            dim.linear(sheet, zero, (stage.x(v), stage.yp(xs[v][1]) - r), y, words)
            y -= 7.0
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
    top = max(stage.yp(stage.span[4]), stage.yp(stage.gripped[1])) + JAW_PLAN + 1.5
    elbow = max(tip[0] + 4, min(stage.right - 6, tip[0] + 14))
    right = elbow + lettering.width(words) < stage.right + 3
    dim.leader(sheet, tip, (elbow if right else tip[0] + 2, top), words, right=right)


# ---------------------------------------------------------------------- names
def names(stage: ViceStage, found: list[Note]) -> None:
    """Names of the parts that hold, in the lane below front view and section; the section's own name."""
    sheet, spec = stage.sheet, stage.spec
    x = stage.x(stage.section_x)
    mark = shapely.box(x - 1, stage.floor - BED - 8, x + 11, stage.floor - BED)
    block = [*sheet.register.arrows, mark]
    placed = lanes.row(found, stage.names_y, 3.0, sheet.width - 3, block)
    words = spec.words("table", "table")
    if any(
        x + lettering.width(n.words) > sheet.width - 2 for n, x, right in placed if right
    ):  # the table explains itself
        placed = lanes.row([n for n in found if n.words != words], stage.names_y, 3.0, sheet.width - 3, block)
    for note, at, right in placed:
        dim.leader(sheet, note.spot, (at, stage.names_y), note.words, dot=note.dot, right=right)
    near, far = stage.xs(stage.span[1]), stage.xs(stage.span[4])
    high, low = stage.y(stage.height), stage.floor - BED - 5.0
    above = [((near + far) / 2, stage.lanes[2] + 2.0, "centre")]
    beside = [(near - gap, high + 2.0, "right") for gap in (3.0, 6.0, 10.0)]
    below = [(x, low, "centre") for x in ((near + far) / 2, near - 4, far + 4, near - 12, far + 12)]
    free_text(sheet, [*above, *beside, *below], "A–A", lettering.LARGE, mask=False)


def tool(stage: ViceStage, spots: tuple[float, float], wide: float) -> None:
    """Feed arrow and name of the cutter, where there is room."""
    sheet, spec = stage.sheet, stage.spec
    (a, b), y = spots, stage.cutter_y
    feed = spec.words("feed", "feed")
    w = lettering.width(feed)
    if spec.plunging:
        right = b + wide + 9 + w < sheet.width - 2
        x = b + (wide + 5) * (1 if right else -1)
        dim.block_arrow(sheet, (x, y + 9.5), (x, y))
        sheet.text(x + (3 if right else -3), y + 3, feed, align="left" if right else "right")
    elif stage.along == "length":
        x = a + wide + 3 if a + wide + 20 < b - wide else a - wide - 17
        dim.block_arrow(sheet, (x, y + 3), (x + 14, y + 3))
        sheet.text(x + 6, y + 6.4, feed)
    else:
        x = b + wide + 3 if b + wide + 20 < sheet.width else b - wide - 17
        dim.block_arrow(sheet, (x, y + 3), (x + 14, y + 3))
        sheet.text(x + 6, y + 6.4, feed)
    _tool_name(stage, spots, wide)


def _tool_name(stage: ViceStage, spots: tuple[float, float], wide: float) -> None:
    sheet, (a, b) = stage.sheet, spots
    words, y = tool_name(stage.spec), stage.cutter_y + 0.8 * CUTTER
    w = lettering.width(words) + 6
    gap = b - a - 2 * wide
    reach = 0.0 if stage.spec.plunging else 0.2 * wide
    if b + wide + w < sheet.width - 2:
        dim.leader(sheet, (b + reach, y - 1.5), (b + wide + 4, y), words, dot=True)
    elif gap > w + 3:
        dim.leader(sheet, (a + reach, y - 1.5), (a + wide + 4, y), words, dot=True)
    elif a - wide - w > 2:
        dim.leader(sheet, (a - reach, y - 1.5), (a - wide - 4, y), words, dot=True, right=False)
    else:
        rows = lettering.wrap(words, max(gap - 10, 12))
        dim.leader(sheet, (a + reach, y - 5), (a + wide + 4, y - 3), "\n".join(rows[:3]), dot=True)


def tool_name(spec: ViceSetup) -> str:
    """What the tool is called in the figure."""
    if spec.tool_name:
        return spec.tool_name
    name, d = CUTTER_NAMES.get(spec.verb, "cutter"), spec.cutter_diameter or spec.diameter
    return f"{name} Ø{spec.number(d)}" if d and spec.verb not in ("tap", "bore") else name


# ---------------------------------------------------------------------- right column
def right_column(stage: ViceStage) -> None:
    """Named faces, the pose in words, the metal removed in words, and the list of places."""
    spec, sheet = stage.spec, stage.sheet
    low = max(stage.right + 4, stage.path[0][0] and stage.right + 4)
    if stage.along == "width" and not spec.plunging:
        low += 12
    (bx, _) = stage.path[1]
    if not spec.plunging:
        low = max(low, stage.x(bx) + spec.cutter_diameter / 2 * stage.scale + (12 if stage.along == "width" else 4))
    high = sheet.width - 3
    middle = (low + high) / 2
    y = _list(sheet, spec, low, high, 5.0)
    if spec.removed_text:
        swatch(sheet, middle, y, spec.removed_text)
        y += 6.0
    rows = lettering.wrap(spec.words("pose", f"{spec.faces[0]} up, {spec.faces[1]} towards you"), high - low)
    y += (len(rows) - 1) * lettering.HEIGHT * lettering.LEADING
    sheet.text(middle, y, "\n".join(rows))
    y += 8.0
    right, away, up = np.asarray(spec.rotation, float)
    view = pictorial_basis(right, up, -32.0, 28.0)
    a, b = extent(view, [*spec.before, *spec.after])
    room = max(stage.plan_room[1] - 8, y + 27) - y
    k = float(min((high - low - 2) / (b - a)[0], min(room, 46.0) / (b - a)[1]))
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


def _list(sheet: Sheet, spec: ViceSetup, low: float, high: float, y: float) -> float:
    """List of places at the foot of the right column; the height above it."""
    rows = spec.rows()
    if not rows:
        return y
    top = y + 5.0 * len(rows)
    draw_list(sheet, rows, low, high, top, heading=bool(spec.table_columns) or not spec.table_rows)
    return top + 5.0


LIST = 2.2
"""Height of the lettering in lists."""


def _columns(rows: list[tuple[str, ...]]) -> list[float]:
    """Width that each column asks for."""
    return [max(lettering.width(r[i], LIST) for r in rows if i < len(r)) + 4 for i in range(max(map(len, rows)))]


def list_width(rows: list[tuple[str, ...]]) -> float:
    """Width that a list asks for."""
    return sum(_columns(rows)) if rows else 0.0


def draw_list(
    sheet: Sheet,
    rows: list[tuple[str, ...]],
    low: float,
    high: float,
    top: float,
    *,
    heading: bool = True,
    step: float = 5.0,
) -> None:
    """A small table with rules, its upper edge at `top`; columns as wide as their words ask for."""
    small = LIST
    widest = _columns(rows)
    full = min(high - low, sum(widest))
    share = [w * full / sum(widest) for w in widest]
    left = (low + high - full) / 2
    for i, row in enumerate(rows):
        x = left
        for text, w in zip(row, share, strict=False):
            sheet.text(x + w / 2, top - i * step - 3.6, text, small)
            x += w
    for i in range(len(rows) + 1):
        bold = i in (0, len(rows)) or (i == 1 and heading)
        sheet.lines([[(left, top - i * step), (left + full, top - i * step)]], NARROW if bold else FINE, 2.0)
