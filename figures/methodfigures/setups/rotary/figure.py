"""What does round work on the rotary table look like?  Elevation, plan beside it, settings of the handle above that.

The place that is being cut is to the right in both views, so the plane of the elevation holds the axis and the cut.
Holes are shown in section with the drill drawn back; flats and slots from outside with the cutter in its place.
"""

from __future__ import annotations

import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper import lanes
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import Note
from methodfigures.paper.palette import TOOL
from methodfigures.paper.shapes import polygons
from methodfigures.paper.sheet import Layer, Sheet
from methodfigures.setups import inside_thread
from methodfigures.setups.lists import draw_list
from methodfigures.setups.rotary.plan import draw_plan
from methodfigures.setups.rotary.spec import RotarySetup
from methodfigures.setups.rotary.stage import (
    EVERY,
    STEP,
    TABLE,
    WORDS,
    RotaryStage,
    list_blocks,
    list_rows,
    listed,
    staged,
)
from methodfigures.setups.standing import free_leader, piece, put_parts, signed, swatch, table_side, upright
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import ViewBook, centred, draw_cut, draw_look, extent, pictorial_basis
from methodtooling import fixtures, tools
from methodtooling.cutters import CUTTER_NAMES, cutter_parts

NAMES = {
    "collet": "collet chuck",
    "three-jaw": "three-jaw chuck",
    "four-jaw": "four-jaw chuck",
    "soft jaws": "soft jaws",
    "mandrel": "stub mandrel",
    "clamps": "clamps",
}


def draw_rotary_setup(spec: RotarySetup, book: ViewBook | None = None) -> Drawing:
    """The set-up figure of any operation on upright round work, 170 mm wide; `book` shares views with other figures."""
    sheet = compose_rotary_setup(spec, book or ViewBook())
    return sheet.drawing(spec.title or _title(spec), spec.description or describe(spec))


def compose_rotary_setup(spec: RotarySetup, book: ViewBook) -> Sheet:
    """The sheet of `draw_rotary_setup` before it becomes a drawing."""
    stage = staged(spec, book)
    windows = _elevation(stage)
    windows |= _tool(stage)
    draw_plan(stage)
    _lengths(stage)
    _notes(stage, windows)
    _column(stage)
    sheet = stage.sheet
    sheet.text(sheet.width - 2, 1.2, lanes.scale_words(stage.scale), align="right")
    return stage.sheet


# ---------------------------------------------------------------------- elevation
def _elevation(stage: RotaryStage) -> dict[str, BaseGeometry]:
    spec, sheet = stage.spec, stage.sheet
    place = stage.places()[0]
    depth = float(stage.elevation[2] @ stage.axis_point)
    table_side(sheet, stage.x(0), stage.table_y, stage.side, TABLE, ring=not spec.plain_table)
    holder = stage.holder
    if spec.holding == "clamps":
        holder = tuple(p for p in holder if p.bounds[3] <= 0)
    shown = put_parts(sheet, holder, stage.paper, (2.0, stage.table_y - 1, 168.0, 999.0))
    if spec.plunging or spec.holding == "mandrel":
        draw_cut(sheet, stage.book.cut(spec.after, stage.elevation, depth), place, z=3.5)
    else:
        draw_look(sheet, stage.book.look(spec.after, stage.elevation), place, z=3.5)
    if spec.plunging and spec.pitch > 0:
        mouth, end = (stage.cutter_x, stage.y(spec.start)), (stage.cutter_x, stage.y(spec.end))
        wide = inside_thread.root(spec.diameter, spec.pitch, stage.scale)
        inside_thread.along(sheet, mouth, end, wide, through=spec.through)
    if spec.verb != "graduate":
        sheet.removed(place.shape(stage.book.section(spec.removed, stage.elevation, depth)), 5.3, pitch=0.9)
    sheet.centre_line((stage.x(0), stage.table_y - TABLE + 1), (stage.x(0), stage.y(stage.above) + 3), 0)
    return shown


def _tool(stage: RotaryStage) -> dict[str, BaseGeometry]:
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    x, y = stage.cutter_x, stage.y(stage.tool_s)
    if spec.verb == "graduate":
        return _scriber(stage)
    d = spec.diameter if spec.plunging else spec.cutter_diameter or spec.width
    parts = cutter_parts(spec.verb, d, k, angle=spec.tool_angle, pitch=spec.pitch)
    if not spec.plunging:
        parts = tools.end_mill(d, min(max(1.3 * d, 9 / k, spec.end - spec.start + 2 / k), 40 / k), 200 / k)
    shown = put_parts(sheet, parts, upright(x, y, k), (2.0, 0.0, 168.0, sheet.height - 1))
    low = stage.y(spec.end) - 3 if spec.plunging else y
    sheet.centre_line((x, low), (x, sheet.height - 1), 0.5)
    wide = max(g.bounds[2] for g in shown.values()) - x
    if spec.plunging:
        top = min(15.0, max(7.5, 0.75 * (shown["tool"].bounds[3] - y) - 3.5))  # below the leader of the tool
        dim.block_arrow(sheet, (x + wide + 5, y + top), (x + wide + 5, y + max(top - 11.0, 0.5)))
        sheet.text(x + wide + 8.5, y + top - 7.0, spec.words("feed", "feed"), align="left")
    return shown


def _scriber(stage: RotaryStage) -> dict[str, BaseGeometry]:
    """The scriber at the rim, its travel from start to end of the line."""
    spec, sheet = stage.spec, stage.sheet
    x, y = stage.x(stage.swing), stage.y(spec.end)
    point = shapely.Polygon([(x, y), (x + 6.4, y + 2), (x + 26, y + 2), (x + 26, y - 2), (x + 6.4, y - 2)])
    shown = piece(sheet, point, (0, 0, x + 20, 999), TOOL, z=Layer.TOOL)
    top = stage.y(spec.start)
    dim.block_arrow(sheet, (x + 9, max(top, y + 6) + 7), (x + 9, y + 4))
    sheet.text(x + 12, max(top, y + 6) + 2.5, spec.words("feed", "feed"), align="left")
    return {"tool": shown}


def _lengths(stage: RotaryStage) -> None:
    """Left of the work: where the cut begins and how long it is."""
    spec, sheet = stage.spec, stage.sheet
    if spec.plunging and spec.start < 1e-9:
        return
    x = (
        min(
            stage.x(-stage.swing),
            stage.x(fixtures.bounds(stage.holder)[1])
            if stage.holder and fixtures.bounds(stage.holder)[0] < spec.end
            else 999.0,
        )
        - 8
    )
    x = max(x, 8.0)

    def edge(s: float, way: float) -> tuple[float, float]:
        return _left_at(stage, s + way), stage.y(s)

    if spec.start > 1e-9:
        dim.linear(
            sheet,
            edge(0.0, 1e-3),
            edge(spec.start, -1e-3),
            x,
            spec.words("start", spec.number(spec.start)),
            "y",
            side=1,
        )
    if spec.end > spec.start and not spec.plunging:
        words = spec.words("length", spec.number(spec.end - spec.start))
        dim.linear(
            sheet, edge(spec.start, 1e-3), edge(spec.end, -1e-3), x, words, "y", side=-1 if spec.start > 1e-9 else 1
        )


def _left_at(stage: RotaryStage, s: float) -> float:
    """Paper x of the left outline of the work at the length s."""
    shape = stage.book.silhouette(stage.spec.before, stage.elevation)
    at = stage.elevation[:2] @ stage.axis_point
    cut = shape.intersection(shapely.LineString([(at[0] - EVERY, at[1] - s), (at[0] + EVERY, at[1] - s)]))
    return stage.x(-stage.swing if cut.is_empty else cut.bounds[0] - at[0])


# ---------------------------------------------------------------------- notes
def _notes(stage: RotaryStage, windows: dict[str, BaseGeometry]) -> None:
    """Right of the elevation: tool, what is made, holder, table."""
    spec, sheet = stage.spec, stage.sheet
    b = windows["tool"].bounds
    spot = (b[2] - 3.0, (b[1] + b[3]) / 2) if spec.verb == "graduate" else _spot(windows["tool"], 0.75)
    found = [Note(spot, "\n".join(lettering.wrap(tool_name(spec), WORDS)), True)]
    main = next((p.name for p in stage.holder if p.name in windows and p.name not in ("base", "washer")), "")
    order = ("collet chuck body", "chuck body", "soft jaw", "mandrel", "clamp")
    main = next((n for n in order if n in windows), main)
    if main:
        spot, words = _right_spot(stage, windows[main], main), spec.words("holder", NAMES.get(spec.holding, main))
        if main in ("mandrel", "clamp"):  # to the left, clear of the tool
            shape, y = windows[main], spot[1]
            level = shape.intersection(shapely.LineString([(-EVERY, y), (EVERY, y)]))
            x0 = (shape if level.is_empty else level).bounds[0] + 1.2
            elbows = [(x0 - a, y + b, False) for b in (6.0, 9.0, 12.0, 3.0) for a in (7.0, 4.0)]
            elbows += [(x0 + a, y + b, True) for b in (8.0, 11.0) for a in (3.0, 6.0)]
            free_leader(sheet, (x0, y), elbows, words, dot=True)
        else:
            found.append(Note(spot, words, True))
    if "base" in windows:
        b = windows["base"].bounds
        found.append(Note((b[2] - 2.0, (b[1] + b[3]) / 2), spec.words("base", "base"), True))
    found += _cut_note(stage)
    right = max(stage.x(stage.swing), max((g.bounds[2] for g in windows.values()), default=0.0))
    if spec.plunging:
        right = max(
            right,
            max(g.bounds[2] for n, g in windows.items() if n in ("tool", "drill chuck", "holder"))
            + 9
            + lettering.width(spec.words("feed", "feed")),
        )
    wide = max(lettering.width(n.words) for n in found)
    x = min(right + 5, stage.names_to - wide)
    low, high = stage.table_y + 1, sheet.height - 5
    taken = [*sheet.register.in_the_way(), *(t.outline for t in sheet.register.texts)]
    step = 7.5 if not any("\n" in n.words for n in found) else 9.5
    for note, y in lanes.column(found, x, low, high, step, taken):
        dim.leader(sheet, note.spot, (x, y), note.words, dot=note.dot, right=True)
    words = spec.words("table", "table" if spec.plain_table else "rotary table")
    sheet.text(stage.x(0) + stage.side + 3, stage.table_y - 6.0, words, align="left")


def _cut_note(stage: RotaryStage) -> list[Note]:
    spec, k = stage.spec, stage.scale
    if spec.plunging:
        deep = "through" if spec.through else f"× {spec.number(spec.end - spec.start)} deep"
        count = f"{len(spec.angles)} × " if len(spec.angles) > 1 else ""
        words = spec.words("note", f"{count}Ø{spec.number(spec.diameter)} {deep}" if spec.diameter else "")
        spot = stage.cutter_x + spec.diameter / 2 * k, stage.y(spec.start + 0.6 * (spec.end - spec.start))
        depth = float(stage.elevation[2] @ stage.axis_point)
        gone = stage.places()[0].shape(stage.book.section(spec.removed, stage.elevation, depth))
        if not gone.is_empty:  # what is drilled may begin and end inside the depth, as in a lug or in two webs
            _, low, right, high = max(polygons(gone), key=lambda p: p.bounds[3]).bounds
            spot = right, 0.4 * low + 0.6 * high
        return [Note(spot, "\n".join(lettering.wrap(words, WORDS)))] if words else []
    default = f"slot {spec.number(spec.width)} wide" if spec.width else ""
    words = spec.words("note", default)
    if not words:
        return []
    rows = "\n".join(lettering.wrap(words, WORDS))
    if spec.verb == "graduate":
        return [Note((stage.x(stage.swing), stage.y(spec.end) - 1.5), rows)]
    d = spec.cutter_diameter or spec.width
    return [Note((stage.cutter_x + d / 2 * k, stage.y(spec.end)), rows)]


def _spot(shape: BaseGeometry, share: float) -> tuple[float, float]:
    """A spot in the middle of a tool, at `share` of its height."""
    x0, y0, x1, y1 = shape.bounds
    y = y0 + share * (y1 - y0)
    cut = shape.intersection(shapely.LineString([(x0 - 1, y), (x1 + 1, y)]))
    return ((cut.bounds[0] + cut.bounds[2]) / 2, y) if not cut.is_empty else ((x0 + x1) / 2, y)


def _right_spot(stage: RotaryStage, shape: BaseGeometry, name: str) -> tuple[float, float]:
    """A spot on the right half of a holder; on the stud for a mandrel."""
    half = shape.intersection(shapely.box(stage.x(0) + 0.3, -EVERY, EVERY, EVERY))
    half = half if not half.is_empty else shape
    x0, y0, x1, y1 = half.bounds
    y = y1 - 1.0 if name == "mandrel" else y0 + 0.45 * (y1 - y0)
    cut = half.intersection(shapely.LineString([(x0 - 1, y), (x1 + 1, y)]))
    last = max(getattr(cut, "geoms", [cut]), key=lambda g: g.bounds[2]) if not cut.is_empty else half
    b = last.bounds
    return b[0] + 0.6 * (b[2] - b[0]), y


# ---------------------------------------------------------------------- right column
def _column(stage: RotaryStage) -> None:
    """Above the plan: the settings of the handle, or a pictorial of the cut with the metal removed in words."""
    spec, sheet = stage.spec, stage.sheet
    low, high = float(stage.centre[0]) - stage.ring - 6.0, sheet.width - 3.0
    y = sheet.height - stage.upper
    if listed(spec):
        _settings(stage, low, high, y)
    elif stage.upper > 13:
        view = pictorial_basis(spec.outward, spec.face, -50.0, 28.0)
        a, b = extent(view, [*spec.before, *spec.after])
        k = float(min(0.45 * (high - low) / (b - a)[0], (stage.upper - 2.0) / (b - a)[1]))
        wide, tall = ((b - a) * k).tolist()
        place = centred(view, k, (low + wide / 2 + 2, y + 1 + tall / 2), [*spec.before, *spec.after])
        draw_pictorial(sheet, stage.book, spec.after, spec.removed, place, wide=0.35)
        low += wide + 5
    if spec.removed_text and not listed(spec):
        words = lettering.width(spec.removed_text) + 8
        swatch(
            sheet, min(low + words / 2 + 1, high - words / 2), y + max(stage.upper / 2 - 1.5, 2.0), spec.removed_text
        )


def _settings(stage: RotaryStage, low: float, high: float, y: float) -> None:
    """The settings in blocks side by side, with the caption below."""
    spec, sheet = stage.spec, stage.sheet
    head, body = [spec.table_columns] if spec.table_columns else [], list(spec.table_rows)
    blocks, size = list_blocks(spec), list_rows(stage)
    wide = (high - low) / blocks
    if len(body) > blocks * size:
        more = len(body) - blocks * size + 1
        body = [*body[: blocks * size - 1], ("…", *[""] * (len(body[0]) - 2), f"+ {more}")]
    for i in range(blocks):
        part = body[i * size : (i + 1) * size]
        if part:
            x = low + i * wide
            draw_list(sheet, [*head, *part], x, x + wide - 2.0, sheet.height - 1.5, heading=bool(head), step=STEP)
    if spec.table_caption:
        sheet.text((low + high) / 2, y + 1.5, spec.table_caption)


# ---------------------------------------------------------------------- words
def tool_name(spec: RotarySetup) -> str:
    """What the tool is called in the figure."""
    if spec.tool_name:
        return spec.tool_name
    name = CUTTER_NAMES.get(spec.verb, "end mill")
    d = spec.diameter if spec.plunging else spec.cutter_diameter or spec.width
    return f"{name} Ø{spec.number(d)}" if d and spec.verb not in ("tap", "bore", "graduate") else name


def _title(spec: RotarySetup) -> str:
    where = "on the table" if spec.plain_table else f"on the rotary table at {spec.degrees(spec.angle % 360)}"
    return f"{spec.verb.capitalize()} {where}, end {spec.out} up"


def describe(spec: RotarySetup) -> str:
    """What the figure shows, in words, for a reader who cannot see it."""
    n = spec.number
    out = [
        f"The work stands upright, end {spec.out} up, held by the {NAMES.get(spec.holding, spec.holding)} "
        f"on diameter {n(spec.grip_diameter)}."
    ]
    if not spec.plain_table:
        out.append(f"The rotary table stands at {round(spec.angle % 360, 3):g} degrees from the work's 0° mark.")
    what = f"Operation: {spec.verb}"
    if spec.plunging:
        what += f", diameter {n(spec.diameter)}, " + ("through" if spec.through else f"{n(spec.end - spec.start)} deep")
        if spec.radius > 0:
            what += f", on radius {n(spec.radius)}"
    else:
        what += f", from {n(spec.start)} to {n(spec.end)} below the upper face"
        if spec.radius > 0:
            what += f", {n(spec.radius)} from the axis"
    out.append(what + f", with the {tool_name(spec)}.")
    if len(spec.angles) > 1:
        out.append("Places at " + ", ".join(f"{round(signed(a), 3):g}" for a in spec.angles[:36]) + " degrees.")
    if spec.removed_text:
        out.append(f"The metal removed is shown crossed: {spec.removed_text}.")
    return " ".join(out)
