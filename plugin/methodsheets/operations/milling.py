"""What do the milling verbs cut on a block in the vice? Lengths from the left edge, the edge towards you, and down from the top."""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError

from .plan import CutData, Plan, Sketch
from .say import number
from .station import Station
from .verb import VICE, verb
from .words import Clause, Said

CLEAR = 2.0
DEEP = Clause("deep", "length", "depth from the upper face", True)
CUTTER = Clause("cutter", "length", "diameter of the cutter")
SIDES = ("left", "right", "front", "back")


def _mill_cut(station: Station, said: Said, width: float, deep: float, travel: float, end_mill: bool = True) -> CutData:
    """Cutting data of a milled cut `width` wide, `deep` deep and `travel` long, in side-by-side paths of the cutter."""
    cutter = said.get("cutter", station.cutter_diameter(width, end_mill=end_mill))
    engaged = min(width, cutter if width <= cutter else 0.7 * cutter)
    paths = max(1.0, math.ceil(width / engaged - 1e-9))
    return CutData(
        "mill", cutter, 0.0, deep, travel + cutter + 4.0, width=engaged, slide="z", paths=paths, tool_turns=True
    )


def _fits(said: Said, word: str, value: float, most: float, what: str) -> None:
    if not 0 < value <= most + 1e-9:
        raise MethodError(
            said.where(word),
            f"{what} does not fit the work (got {number(value)} mm of {number(most)} mm)",
            "lengths are taken as the work stands in this set-up",
            "check the size",
            code="too-long",
        )


@verb(
    "face",
    frame=VICE,
    family="milling",
    first=Clause("", "length", "how much comes off"),
    tool="end mill",
    clauses=[Clause("to length", "length", "height between upper and lower face afterwards"), CUTTER],
)
def face(station: Station, said: Said) -> Plan:
    """Mill the upper face; the datum moves down to the new face."""
    length, width, height = station.block
    off = said.get("")
    if off is None:
        off = height - said.length("to length")
    _fits(said, "" if "" in said else "to length", off, height, "the cut")
    to = f" to {number(said.get('to length'))} thick" if "to length" in said else f", {number(off)} off"
    return Plan(
        f"Mill the {station.up} face{to}", [station.box(-CLEAR, -CLEAR, length + CLEAR, width + CLEAR, -CLEAR, off)],
        _mill_cut(station, said, min(length, width), off, max(length, width)),
        Sketch(0, off, cut_words=number(off), box=(0, 0, length, width, off)), face_moves=off, cautions=["milling"],
        tool_words="end mill", tool_size=said.get("cutter", 0.0), handling=1.0, feature=f"{station.up} face", reach_depth=off,
    )  # fmt: skip


@verb(
    "step",
    frame=VICE,
    family="milling",
    tool="end mill",
    clauses=[
        Clause("side", "text", "left, right, front or back", True),
        Clause("wide", "length", "width", True),
        DEEP,
        CUTTER,
    ],
)
def step(station: Station, said: Said) -> Plan:
    """Mill a step along one side."""
    length, width, height = station.block
    side, wide, deep = said.get("side"), said.length("wide"), said.length("deep")
    if side not in SIDES:
        raise MethodError(
            said.where("side"),
            f"no such side (got `{side}`)",
            "left, right, front or back as the work stands",
            "name one",
            code="wrong-value",
        )
    across = length if side in ("left", "right") else width
    _fits(said, "wide", wide, across, "the step")
    _fits(said, "deep", deep, height, "the step")
    x0, y0, x1, y1 = {"left": (0, 0, wide, width), "right": (length - wide, 0, length, width), "front": (0, 0, length, wide),
                      "back": (0, width - wide, length, width)}[side]  # fmt: skip
    run = width if side in ("left", "right") else length
    return Plan(
        f"Mill a step {number(wide)} × {number(deep)} along the {side} side",
        [station.box(*_open(x0, y0, x1, y1, length, width), -CLEAR, deep)], _mill_cut(station, said, wide, deep, run),
        Sketch(0, deep, cut_words=number(deep), size=wide, box=(x0, y0, x1, y1, deep)), cautions=["milling"], tool_words="end mill",
        tool_size=said.get("cutter", 0.0), handling=1.5, feature=f"{side} step", reach_depth=deep,
    )  # fmt: skip


def _open(x0: float, y0: float, x1: float, y1: float, length: float, width: float) -> tuple[float, float, float, float]:
    """A box that ends on the edge of the work, carried past that edge."""
    return (x0 - CLEAR if x0 <= 1e-9 else x0, y0 - CLEAR if y0 <= 1e-9 else y0,
            x1 + CLEAR if x1 >= length - 1e-9 else x1, y1 + CLEAR if y1 >= width - 1e-9 else y1)  # fmt: skip


@verb(
    "slot",
    frame=VICE,
    family="milling",
    tool="slot drill",
    clauses=[
        Clause("wide", "length", "width", True),
        DEEP,
        Clause("along", "text", "length (left to right) or width (front to back)"),
        Clause("middle", "length", "middle of the slot, from the left edge or the edge towards you"),
        Clause("from", "length"),
        Clause("to", "length"),
        CUTTER,
    ],
)
def slot(station: Station, said: Said) -> Plan:
    """Mill a slot along or across; closed ends are round."""
    length, width, height = station.block
    wide, deep, along = said.length("wide"), said.length("deep"), said.get("along", "length")
    if along not in ("length", "width"):
        raise MethodError(
            said.where("along"),
            f"a slot runs along the length or the width (got `{along}`)",
            "as the work stands",
            "write `along length`",
            code="wrong-value",
        )
    run, across = (length, width) if along == "length" else (width, length)
    middle, start, end = said.get("middle", across / 2), said.get("from", 0.0), said.get("to", run)
    _fits(said, "wide", wide, across, "the slot")
    _fits(said, "deep", deep, height + CLEAR, "the slot")
    if end <= start:
        raise MethodError(
            said.where("to"),
            f"a slot from {number(start)} to {number(end)} has no length",
            "it runs left to right or front to back",
            "check `from` and `to`",
            code="wrong-value",
        )
    low, high = (start if start > 1e-9 else -CLEAR - wide), (end if end < run - 1e-9 else run + CLEAR + wide)
    corners = (
        (low, middle - wide / 2, high, middle + wide / 2)
        if along == "length"
        else (middle - wide / 2, low, middle + wide / 2, high)
    )
    cutter = said.get("cutter", wide)
    return Plan(
        f"Mill a slot {number(wide)} wide, {number(deep)} deep, along the {along}",
        [station.prism(Outline.rectangle(corners[:2], corners[2:], wide / 2 if cutter <= wide else 0.0), -CLEAR, deep)],
        _mill_cut(station, said, wide, deep, end - start),
        Sketch(0, deep, cut_words=number(deep), size=wide,
               box=(max(0, corners[0]), max(0, corners[1]), min(length, corners[2]), min(width, corners[3]), deep)),
        cautions=["milling"], tool_words="slot drill", tool_size=cutter, handling=1.5, feature=f"slot {number(wide)}", reach_depth=deep,
    )  # fmt: skip


@verb(
    "pocket",
    frame=VICE,
    family="milling",
    tool="slot drill",
    clauses=[
        Clause("from", "points", "(x, y) of the corner next to you on the left", True),
        Clause("to", "points", "(x, y) of the far corner", True),
        DEEP,
        Clause("corner", "length", "radius of the corners"),
        CUTTER,
    ],
)
def pocket(station: Station, said: Said) -> Plan:
    """Mill a pocket with round corners."""
    length, width, height = station.block
    (x0, y0), (x1, y1) = said.get("from")[0][:2], said.get("to")[0][:2]
    deep, corner = (
        said.length("deep"),
        said.get("corner", said.get("cutter", station.cutter_diameter(min(x1 - x0, y1 - y0))) / 2),
    )
    if not (0 <= x0 < x1 <= length and 0 <= y0 < y1 <= width):
        raise MethodError(
            said.where("to"),
            f"the pocket lies outside the face (got ({number(x0)}, {number(y0)}) to ({number(x1)}, {number(y1)}) "
            f"on {number(length)} × {number(width)})",
            "from the left edge and the edge towards you",
            "check the corners",
            code="too-long",
        )
    _fits(said, "corner", 2 * corner, min(x1 - x0, y1 - y0), "the corner radius, twice,")
    _fits(said, "deep", deep, height + CLEAR, "the pocket")
    area_run = (x1 - x0) * (y1 - y0) / max(1e-6, 1.4 * corner)
    cutter = said.get("cutter", 2 * corner)
    return Plan(
        f"Mill a pocket {number(x1 - x0)} × {number(y1 - y0)}, {number(deep)} deep",
        [station.prism(Outline.rectangle((x0, y0), (x1, y1), corner), -CLEAR, deep)],
        CutData("mill", cutter, 0.0, deep, area_run + 2, width=0.7 * cutter, slide="z", tool_turns=True),
        Sketch(0, deep, cut_words=number(deep), size=2 * corner, box=(x0, y0, x1, y1, deep)), cautions=["milling"], tool_words="slot drill",
        tool_size=cutter, handling=2.0, feature="pocket", reach_depth=deep,
    )  # fmt: skip


@verb(
    "profile",
    frame=VICE,
    family="milling",
    tool="end mill",
    clauses=[
        Clause(
            "points", "points", "outline that is left standing: (x, y), or (x, y, r) for a corner rounded by r", True
        ),
        DEEP,
        CUTTER,
        Clause("inside", "flag", "cut away the inside instead"),
    ],
)
def profile(station: Station, said: Said) -> Plan:
    """Mill round a profile given by points; a third number rounds the corner."""
    length, width, height = station.block
    deep, corners = said.length("deep"), said.get("points")
    if len(corners) < 3:
        raise MethodError(
            said.where("points"),
            f"a profile has three corners at least (got {len(corners)})",
            "a closed outline",
            "add points",
            code="wrong-value",
        )
    outline = rounded(corners, said)
    inner = station.prism(outline, -CLEAR, deep)
    cutters = [
        inner
        if said.get("inside")
        else station.box(-CLEAR, -CLEAR, length + CLEAR, width + CLEAR, -CLEAR, deep) - inner
    ]
    run = sum(math.dist(a[:2], b[:2]) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    return Plan(
        f"Mill the {'opening' if said.get('inside') else 'outline'} of {len(corners)} corners, {number(deep)} deep", cutters,
        _mill_cut(station, said, station.cutter_diameter(8.0) * 0.7, deep, run),
        Sketch(0, deep, cut_words=number(deep), box=(min(xs), min(ys), max(xs), max(ys), deep)), cautions=["milling"], tool_words="end mill",
        tool_size=said.get("cutter", 0.0), handling=3.0, feature="profile", reach_depth=deep,
    )  # fmt: skip


def rounded(corners: tuple[tuple[float, ...], ...], said: Said) -> Outline:
    """A closed outline of corners (x, y[, r]); r rounds the corner inside or outside alike."""
    count = len(corners)
    turn = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    if turn < 0:
        corners = tuple(reversed(corners))
    outline: Outline | None = None
    for i, corner in enumerate(corners):
        before, after = corners[i - 1][:2], corners[(i + 1) % count][:2]
        x, y = corner[:2]
        r = corner[2] if len(corner) > 2 else 0.0
        a, b = math.atan2(before[1] - y, before[0] - x), math.atan2(after[1] - y, after[0] - x)
        half = ((a - b) % (2 * math.pi)) / 2
        if r <= 0 or abs(math.sin(half)) < 1e-9 or abs(math.cos(half)) < 1e-9:
            outline = outline.to((x, y)) if outline else Outline((x, y))
            continue
        back = r / abs(math.tan(half))
        if back > min(math.dist((x, y), before), math.dist((x, y), after)):
            raise MethodError(
                said.where("points"),
                f"a corner radius of {number(r)} mm does not fit at ({number(x)}, {number(y)})",
                "the round ends within its two sides",
                "make it smaller",
                code="too-long",
            )
        middle = a + ((b - a + math.pi) % (2 * math.pi) - math.pi) / 2
        convex = half < math.pi / 2
        reach = r / abs(math.sin(half))
        cx, cy = x + reach * math.cos(middle), y + reach * math.sin(middle)
        p0 = (x + back * math.cos(a), y + back * math.sin(a))
        start = math.degrees(math.atan2(p0[1] - cy, p0[0] - cx))
        sweep = 180.0 - math.degrees(2 * half if convex else 2 * math.pi - 2 * half)
        outline = outline.to(p0) if outline else Outline(p0)
        outline = outline.arc((cx, cy), r, start, start + (sweep if convex else -sweep))
    assert outline is not None
    return outline


@verb(
    "vee",
    frame=VICE,
    family="milling",
    tool="vee cutter",
    clauses=[
        Clause("wide", "length", "width at the face", True),
        Clause("middle", "length", "middle, from the left edge or the edge towards you"),
        Clause("along", "text", "length or width"),
        Clause("angle", "angle", "included angle, 90° unless said"),
        CUTTER,
    ],
)
def vee(station: Station, said: Said) -> Plan:
    """Mill a vee along or across the upper face."""
    length, width, height = station.block
    wide, along, angle = said.length("wide"), said.get("along", "width"), said.get("angle", 90.0)
    run, across = (length, width) if along == "length" else (width, length)
    middle = said.get("middle", across / 2)
    deep = wide / 2 / math.tan(math.radians(angle / 2))
    _fits(said, "wide", wide, across, "the vee")
    _fits(said, "wide", deep, height, "the vee's depth")
    slope = math.tan(math.radians(angle / 2))
    outline = Outline(
        (middle - wide / 2 - CLEAR * slope, -CLEAR), (middle + wide / 2 + CLEAR * slope, -CLEAR), (middle, deep)
    )
    return Plan(
        f"Mill a {number(angle)}° vee {number(wide)} wide along the {along}", [station.trough(outline, along)],
        _mill_cut(station, said, wide, deep, run),
        Sketch(0, deep, cut_words=number(deep), size=wide,
               box=(middle - wide / 2, 0, middle + wide / 2, width, deep) if along == "width" else (0, middle - wide / 2, length, middle + wide / 2, deep)),
        cautions=["milling"], tool_words="vee cutter", tool_size=said.get("cutter", 0.0), handling=2.0, feature="vee", reach_depth=deep,
    )  # fmt: skip


@verb(
    "chamfer",
    frame=VICE,
    family="milling",
    first=Clause("", "length", "size", True),
    tool="chamfer",
    clauses=[Clause("side", "text", "left, right, front, back or all", True)],
)
def chamfer(station: Station, said: Said) -> Plan:
    """Chamfer the upper edges, 45°."""
    length, width, _ = station.block
    size, side = said.length(""), said.get("side")
    if side not in (*SIDES, "all"):
        raise MethodError(
            said.where("side"),
            f"no such side (got `{side}`)",
            "left, right, front, back or all",
            "name one",
            code="wrong-value",
        )
    sides = SIDES if side == "all" else (side,)
    c = CLEAR
    low, high = (
        Outline((-c, -c), (size + c, -c), (-c, size + c)),
        Outline((length + c, -c), (length + c, size + c), (length - size - c, -c)),
    )
    back = Outline((width + c, -c), (width + c, size + c), (width - size - c, -c))
    cutters = [
        station.trough(
            {"left": low, "right": high, "front": low, "back": back}[s], "width" if s in ("left", "right") else "length"
        )
        for s in sides
    ]
    run = sum(width if s in ("left", "right") else length for s in sides)
    return Plan(
        f"Chamfer the {'upper edges' if side == 'all' else side + ' edge'} {number(size)} × 45°", cutters,
        CutData("mill", 10.0, 0.0, size, run + 10 * len(sides), width=size, slide="z", tool_turns=True),
        Sketch(0, size, cut_words=number(size), size=size, box=(0, 0, length, width, size)), cautions=["milling"], tool_words="chamfer tool",
        handling=1.0, feature="chamfer", reach_depth=size,
    )  # fmt: skip
