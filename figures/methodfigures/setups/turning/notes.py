"""Which dimensions and notes does a turning set-up carry, and where do they go?"""

from __future__ import annotations

import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import clash, lanes
from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import Note
from methodfigures.paper.shapes import polygons
from methodfigures.paper.sheet import WIDE
from methodfigures.setups.standing import is_leader_free
from methodfigures.setups.turning.spec import HOLDER_NAMES
from methodfigures.setups.turning.stage import EVERY, GAP, STAIR, Stage, cut_text, grip_text, reach_text
from methodtooling import fixtures

STEP = 7.0
LINE = 4.0
"""What a second line of a note needs more."""
SELF_EXPLAINING = ("clamp", "dog")
"""Names that are left out where there is no room."""


def lengths(stage: Stage) -> None:
    """Lanes above the work: the cut, the stick-out, the grip."""
    sheet, spec = stage.sheet, stage.spec
    y1, y2, y3 = (stage.axis_y + y for y in stage.lanes)

    def linear(a: float, b: float, y: float, words: str, side: int = 1) -> None:
        dim.linear(sheet, (stage.x(a), _top(stage, a, 1e-3)), (stage.x(b), _top(stage, b, -1e-3)), y, words, side=side)

    text = cut_text(spec)
    if text:
        a, b, words = text
        if a > 1e-9:
            linear(0.0, a, y1, spec.words("start", spec.number(a)))
        linear(a, b, y1, words, stage.cut_side if a < 1e-9 else -1)
    reach = reach_text(spec)
    if reach and reach[2]:
        linear(reach[0], reach[1], y2, reach[2])
    if spec.holding == "centres":
        return
    if reach and reach[2]:
        _grip(stage, y2 + 2.6, y3)
    else:  # the second lane is free: nothing sticks out
        _grip(stage, _top(stage, spec.grip[0], 1e-3), y2)


def _grip(stage: Stage, foot: float, y: float) -> None:
    """Grip and gripped diameter in one dimension, over the holder."""
    spec = stage.spec
    s0, s1 = spec.grip
    words = grip_text(spec)
    jaw = max((p.bounds[3] for p in stage.rig.holder if p.name in ("jaw", "soft jaw", "collet", "clamp")), default=0.0)
    low = stage.axis_y + min(jaw * stage.scale, stage.crop)
    w = lettering.width(words)
    narrow, far = not dim.fits_inside(words, stage.x(s0) - stage.x(s1)), stage.x(s0) + w + 6 > stage.face_x - 4
    side = -1 if far and stage.x(s1) > w + 7 else 1
    if narrow and far and side == 1 and y > stage.axis_y + stage.lanes[1] + 1:
        stage.datum_y = y + 4.6  # the text runs on under the letter of the face
    dim.linear(stage.sheet, (stage.x(s0), foot), (stage.x(s1), low), y, words, side=side)


def _top(stage: Stage, s: float, inward: float) -> float:
    """Paper y of the work's upper outline just inside the length s."""
    return stage.y(stage.radius_at(max(s, 0.0) + (abs(inward) if s <= 0 else inward)))


# ---------------------------------------------------------------------- diameters
def diameters(stage: Stage) -> list[Note]:
    """Upright dimensions in free slots; what finds no slot comes back as a note."""
    spec, verb = stage.spec, stage.spec.verb
    d, a, b = spec.cut_diameter, spec.cut_start, spec.cut_end
    notes: list[Note] = []
    words = spec.words("diameter", f"Ø{spec.number(d)}" if d > 0 else "")
    if verb == "chamfer":
        text = spec.words("note", f"{spec.number(b - a)} × {spec.tool_angle or 45:g}°")
        r = spec.cut_diameter / 2
        notes.append(_note(stage, (a + b) / 2, r - (b - a) / 2 if not spec.bored else r + (b - a) / 2, text))
    elif verb in ("turn", "bore", "thread", "knurl", "taper") or (verb in ("groove", "profile") and not spec.bored):
        end = min(b, spec.grip[1])
        placed = bool(words) and verb not in ("groove", "profile") and _upright(stage, _slot(stage, a, end), d, words)
        if words and not placed:
            share = {"bore": 0.3, "groove": 0.5}.get(verb, 0.06)
            notes.append(_note(stage, a + share * (end - a), d / 2, words))
        if verb == "turn" and spec.from_diameter > 0 and not spec.throw and _as_wide(stage, b, spec.from_diameter):
            big = spec.words("from", f"Ø{spec.number(spec.from_diameter)}")
            _upright(stage, _slot(stage, b, spec.grip[0]), spec.from_diameter, big)
        if verb == "taper" and spec.end_diameter is not None:
            last = spec.words("end diameter", f"Ø{spec.number(spec.end_diameter)}")
            notes.append(_note(stage, b, spec.end_diameter / 2, last))
    if "note" in spec.dimension_texts and verb != "chamfer":
        s = (a + b) / 2 if verb != "face" else b
        notes.append(_note(stage, min(s, spec.grip[1]), d / 2, spec.dimension_texts["note"]))
    if "mark" in spec.dimension_texts:
        s = 0.5 * (b + spec.grip[0]) if spec.grip[0] - b > a else 0.5 * a
        after = stage.after.intersection(shapely.LineString([(s, 0), (s, EVERY)]))
        notes.append(_note(stage, s, 0.0 if after.is_empty else after.bounds[3], spec.dimension_texts["mark"]))
    return notes


def _note(stage: Stage, s: float, r: float, words: str) -> Note:
    if stage.gap and stage.gap[0] < s < stage.gap[1]:
        s = stage.gap[0]
    return Note(lanes.corner(stage.at(s, r)), words)


def _slot(stage: Stage, a: float, b: float) -> float | None:
    """Paper x for an upright dimension between two lengths: the text stands left of its line, clear of edges."""
    taken = None
    if stage.gap:
        taken = (stage.x(stage.gap[1]) - GAP / 2, stage.x(stage.gap[0]) + GAP / 2)
    free = lanes.slot(lanes.without((stage.x(b), stage.x(a)), taken), 7.0)
    return None if free is None else free[0] + max(4.6, 0.6 * (free[1] - free[0]))


def _upright(stage: Stage, x: float | None, d: float, words: str) -> bool:
    """Dimension across the work; beside the axis when there is room; False when there is none at all."""
    w, tall = lettering.width(words), d * stage.scale
    if x is None or tall < max(w + 3.5, 10):
        return False
    share = 0.74 if tall > 2 * w + 8 else 0.5
    if stage.spec.holding == "mandrel" or (stage.spec.grip_inside and not stage.spec.bored):
        wall = (d - stage.spec.grip_diameter) / 2 * stage.scale
        if wall >= w + 1.5:
            share = 1 - wall / 2 / tall
        elif stage.spec.grip_diameter * stage.scale >= w + 2:
            share = 0.5
        else:
            return False
    clear = next((part for part in (share, 0.74, 0.26, 0.62, 0.38) if _clear(stage, x, d, words, part)), None)
    if clear is None:
        return False
    ends = (x, stage.y(-d / 2)), (x, stage.y(d / 2))
    dim.linear(stage.sheet, *ends, x, words, "y", extension=False, outside=False, text_at=tall * clear)
    return True


def _clear(stage: Stage, x: float, d: float, words: str, share: float) -> bool:
    """Whether upright lettering at a share of a diameter keeps off its ends and off visible edges of the work."""
    half, tall = lettering.width(words) / 2, d * stage.scale
    if min(share, 1 - share) * tall < half + 1.0:
        return False
    y = stage.y(-d / 2) + share * tall
    left, right = x - dim.CLEAR - lettering.HEIGHT - 0.2, x - dim.CLEAR + lettering.DESCENT * lettering.HEIGHT + 0.2
    box = shapely.box(left, y - half - 0.2, right, y + half + 0.2)
    register = stage.sheet.register
    return not any(register.inks[i].width >= WIDE for i in register.lines().query(box, predicate="intersects"))


def _as_wide(stage: Stage, s: float, d: float) -> bool:
    """Whether the work after the cut is `d` wide and centred just behind the length s."""
    cut = stage.after.intersection(shapely.LineString([(s + 0.5, -EVERY), (s + 0.5, EVERY)]))
    return not cut.is_empty and abs(cut.bounds[1] + d / 2) < 0.05 and abs(cut.bounds[3] - d / 2) < 0.05


# ---------------------------------------------------------------------- notes
def right_column(stage: Stage, notes: list[Note], removed: BaseGeometry) -> None:
    """Notes right of the face, above the tailstock."""
    sheet, spec = stage.sheet, stage.spec
    gone = _removed_spot(stage, removed)
    if gone and spec.removed_text:
        notes.append(Note(gone, spec.removed_text, True))
    finger = next((p for p in stage.rig.tail if p.name == "finger"), None)
    if finger is not None and spec.support == "travelling steady":  # it has none below the axis
        s0, r0, s1, _ = finger.bounds
        notes.append(Note(lanes.corner(stage.at((s0 + s1) / 2, r0 + 3 / stage.scale)), spec.support, True))
    low = stage.axis_y + 13
    centre = [p for p in stage.rig.tail if p.name not in ("steady", "finger", "finger tip")]
    if centre:
        low = max(low, stage.axis_y + min(fixtures.bounds(centre)[3] * stage.scale, stage.crop) + 4.5)
    if spec.bored or spec.axial:
        low = stage.axis_y + max(13.0, min(fixtures.bounds(stage.rig.tool)[3] * stage.scale, stage.crop) + 5)
    tail_name = spec.tail_name or (centre[0].name if centre else "")
    notes = _together(notes)
    step = STEP + (LINE if any("\n" in n.words for n in notes) else 0.0)
    rows = [*notes, Note((0, 0), tail_name, True)] if tail_name else notes
    if not rows:
        return
    x = sheet.width - 3 - max(lettering.width(n.words) for n in rows)
    front = max(stage.face_x, stage.x(fixtures.bounds(stage.rig.holder)[0]))
    if spec.holding == "mandrel":
        low = max(low, stage.axis_y + min(1.5 * spec.grip_diameter / 2 * stage.scale, stage.crop) + 4)
        front = stage.face_x
    if spec.holding == "faceplate" and x < front + 3:  # no room beside the clamps: above them
        low = stage.axis_y + max(stage.crop + 4, stage.lanes[1] + 5 if stage.beside else 0.0)
    x = max(min(x, front + 22), min(front + 9, x))
    if tail_name and centre:
        notes.append(Note(_tail_spot(stage, centre, x), tail_name, True))
    high = stage.axis_y + (stage.lanes[0] - 5 if stage.beside else stage.lanes[1] - 2)
    high = max(high, low + step * (len(notes) - 1))
    sheet.height = max(sheet.height, high + 5 + step - STEP)
    for note, y in _reaching(stage, notes, x, (low, high, step)):
        dim.leader(sheet, note.spot, (x, y), note.words, dot=note.dot, right=True)


def _reaching(stage: Stage, notes: list[Note], x: float, rows: tuple[float, float, float]) -> list[tuple[Note, float]]:
    """The column of those notes that reach it; one that does not, the farthest first, is put beside its spot."""
    register = stage.sheet.register
    column = lanes.column(notes, x, *rows, way := register.in_the_way())
    for note, y in sorted(column, key=lambda placed: placed[0].spot[0]):
        if _blocked(note, (x, y), way) and _beside_its_spot(stage, note):
            return _reaching(stage, [other for other in notes if other is not note], x, rows)
    return column


def _blocked(note: Note, elbow: tuple[float, float], way: list[BaseGeometry]) -> bool:
    line = shapely.LineString([note.spot, elbow])
    return any(clash.crosses(line, other) for other in way)


def _beside_its_spot(stage: Stage, note: Note) -> bool:
    """Whether a note that cannot reach the column finds room over the work beside its spot, under the lengths."""
    x, y = note.spot
    s = (stage.face_x - x) / stage.scale
    top = max(y, *(stage.y(stage.radius_at(s + d / stage.scale)) for d in (-12.0, 0.0, 12.0)))
    for up in (2.5, 4.5, 7.0, 10.0):
        for aside in (2.5, -2.5, 0.7, -0.7, 6.0, -6.0, 11.0, -11.0):
            elbow = (x + aside, top + up, aside > 0)
            if is_leader_free(stage.sheet, note.spot, elbow, note.words):
                dim.leader(stage.sheet, note.spot, elbow[:2], note.words, dot=note.dot, right=elbow[2])
                return True
    return False


def _together(notes: list[Note]) -> list[Note]:
    """The notes, those of one spot with one leader: two heads in one spot cannot be told, and one beside it points at
    nothing.
    """
    out: list[Note] = []
    for note in notes:
        x, y = note.spot
        same = [i for i, o in enumerate(out) if abs(x - o.spot[0]) + abs(y - o.spot[1]) < 1.0]
        if same:
            first = out[same[0]]
            out[same[0]] = Note(first.spot, f"{first.words}\n{note.words}", first.dot)
        else:
            out.append(note)
    return out


def _tail_spot(stage: Stage, tail: list[fixtures.Part], x: float) -> tuple[float, float]:
    """A spot on the tailstock that lies left of the lettering."""
    front = fixtures.bounds(tail)[2]
    s = front - min(20.0, x - stage.x(front) - 1.5) / stage.scale
    cut = fixtures.outline(tail).intersection(shapely.LineString([(s, 0), (s, EVERY)]))
    return lanes.corner(stage.at(s, 0.55 * (cut.bounds[3] if not cut.is_empty else 0.0)))


def _removed_spot(stage: Stage, removed: BaseGeometry) -> tuple[float, float] | None:
    """A spot in the largest removed area above the axis, rather far to the right."""
    upper = stage.local(removed).intersection(shapely.box(-EVERY, 0, EVERY, EVERY))
    pieces = sorted(polygons(upper), key=lambda p: -p.area)
    if not pieces:
        return None
    s0, _, s1, _ = pieces[0].bounds
    share = 0.72 if stage.spec.verb in ("face", "part off", "drill") else 0.5
    for t in (0.14, 0.3, 0.5, 0.7):
        s = s0 + t * (s1 - s0)
        if stage.gap and stage.gap[0] - 1 < s < stage.gap[1] + 1:
            continue
        cut = pieces[0].intersection(shapely.LineString([(s, -EVERY), (s, EVERY)]))
        if not cut.is_empty:
            b = max(getattr(cut, "geoms", [cut]), key=lambda q: q.length).bounds
            return lanes.corner(stage.at(s, b[1] + share * (b[3] - b[1])))
    p = pieces[0].representative_point()
    return lanes.corner(stage.at(p.x, p.y))


# ---------------------------------------------------------------------- names
def names(stage: Stage, windows: dict[str, BaseGeometry]) -> bool:
    """Names of holder, packing, dog, steady and tool in the bottom lane; False = they do not fit into one row.

    `windows` = what shows of each named part, on the paper.
    """
    spec, sheet = stage.spec, stage.sheet
    tool = shapely.union_all([windows[p.name] for p in stage.rig.tool if p.name in windows])
    found: list[Note] = []
    main = next((p.name for p in stage.rig.holder if p.name in windows), "")
    wanted = [
        (main, spec.holder_name or HOLDER_NAMES[spec.holding], True),
        ("packing", "packing", False),
        ("dog", "dog", True),
        ("clamp", "clamp", True),
        ("finger", "steady", True),
    ]
    for name, words, dot in wanted:
        if name in windows and not (name == "packing" and spec.holding == "faceplate"):
            free = windows[name].difference(tool)
            if not free.is_empty:
                spot = _low_spot(free, stage.axis_y)
                if name == main or spot[1] < stage.axis_y - 2:
                    found.append(Note(spot, words, dot))
    found.append(Note(_tool_spot(stage, windows), stage.rig.tool_name, True))
    scale = lanes.scale_words(stage.scale) + (", shortened" if stage.gap else "")
    sheet.text(sheet.width - 2, stage.names_y, scale, align="right")
    high = sheet.width - 5 - lettering.width(scale)
    if stage.crowded:
        steps = lanes.stairs(found, stage.names_y, STAIR, high)
        if not all(right for *_, right in steps):  # nothing may come down through the last name
            steps = lanes.stairs([n for n in found if n.words not in SELF_EXPLAINING], stage.names_y, STAIR, high)
        for note, x, level, right in steps:
            dim.leader(sheet, note.spot, (x, level), note.words, dot=note.dot, right=right)
        return True
    y, arrows = stage.names_y, sheet.register.in_the_way()
    placed = lanes.row(found, y, 3.0, high, arrows)
    if lanes.crossings(placed, y, arrows):  # too crowded: the clamps and the dog explain themselves
        placed = lanes.row([n for n in found if n.words not in SELF_EXPLAINING], y, 3.0, high, arrows)
    for note, x, right in placed:
        dim.leader(sheet, note.spot, (x, y), note.words, dot=note.dot, right=right)
    left = min((x - lettering.width(n.words) - 1 for n, x, right in placed if not right), default=1.0)
    return left >= 1.0 and not lanes.crossings(placed, y, arrows)


def _low_spot(shape: BaseGeometry, axis_y: float) -> tuple[float, float]:
    """A spot in the lower part of what shows of a part."""
    x0, y0, x1, y1 = shape.bounds
    for y in (axis_y - 0.8 * (axis_y - y0), y0 + 0.1 * (min(y1, axis_y) - y0), y0 + 0.3 * (y1 - y0)):
        cut = shape.intersection(shapely.LineString([(x0 - 1, y), (x1 + 1, y)]))
        if not cut.is_empty:
            b = max(getattr(cut, "geoms", [cut]), key=lambda q: q.length).bounds
            return (b[0] + b[2]) / 2, y
    p = shape.representative_point()
    return p.x, p.y


def _tool_spot(stage: Stage, windows: dict[str, BaseGeometry]) -> tuple[float, float]:
    """A spot on the tool: near its lower end when it stands below the work, on its lower edge when drawn back."""
    tool = windows.get("tool") or windows["holder"]
    if stage.spec.bored or stage.spec.axial:
        x0, _, x1, _ = tool.bounds
        x = min(x0 + 0.35 * (x1 - x0), max(stage.face_x + 12, x0 + 0.2 * (x1 - x0)))
        cut = tool.intersection(shapely.LineString([(x, -EVERY), (x, EVERY)]))
        _, low, _, high = (tool if cut.is_empty else cut).bounds
        return x, low + min(0.8, (high - low) / 2)
    both = shapely.union_all([windows[n] for n in ("tool", "holder") if n in windows])
    y = stage.axis_y - stage.tool_low + 5
    cut = both.intersection(shapely.LineString([(0, y), (stage.sheet.width, y)]))
    if cut.is_empty:
        p = both.representative_point()
        return p.x, p.y
    b = max(getattr(cut, "geoms", [cut]), key=lambda q: q.length).bounds  # not between the wheel and its fork
    return (b[0] + b[2]) / 2, y
