"""What do the milling verbs cut on a block in the vice?

Lengths run from the left edge, from the edge towards you, and down from the upper face.
"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .outlines import CLIMB, VIA, closed_outline, way_round
from .plan import CutData, Edges, Made, Plan, Sketch
from .say import dim, number
from .station import PATH_SHARE, Station, paths_over
from .verb import VICE, verb
from .words import Clause, Said

CLEAR = 2.0
DEEP = Clause("deep", "length", "depth from the upper face", True)
CUTTER = Clause("cutter", "length", "diameter of the cutter", changes=(Change.NUMBERS,))
SIDES = ("left", "right", "front", "back")


def mill_cut(
    station: Station,
    said: Said,
    width: float,
    deep: float,
    travel: float,
    *,
    open_side: bool = False,
    cutter: float = 0.0,
) -> CutData:
    """Cutting data of a milled cut `width` wide, `deep` deep and `travel` long, in side-by-side paths of the cutter.

    A cut that is open to one side takes the largest cutter; another one the largest that fits its width, unless the
    `cutter` is chosen already.
    """
    fitting = station.largest_cutter() if open_side else station.cutter_diameter(width)
    cutter = said.get("cutter", cutter or fitting)
    engaged, paths = min(width, cutter if width <= cutter else PATH_SHARE * cutter), paths_over(width, cutter)
    return CutData(
        Process.MILL,
        cutter,
        0.0,
        deep,
        travel + cutter + 4.0,
        width=engaged,
        slide="z",
        paths=paths,
        tool_turns=True,
    )


def fits(said: Said, word: str, value: float, most: float, what: str) -> None:
    """Refuse a size that the work has no room for."""
    if not 0 < value <= most + 1e-9:
        raise MethodError(
            said.where(word),
            f"{what} does not fit the work (got {number(value)} mm of {number(most)} mm)",
            "lengths are taken as the work stands in this set-up",
            "check the size",
            code="too-long",
        )


ACROSS_FACES = {"left": "long", "right": "long", "front": "wide", "back": "wide"}
"""What the size between a face of a block and the one opposite is called; of the others, how thick it is."""


@verb(
    "face",
    frame=VICE,
    family="milling",
    first=Clause("", "length", "how much comes off", says="how much comes off"),
    clauses=[
        Clause("to length", "length", "height between upper and lower face afterwards", says="how much comes off"),
        CUTTER,
    ],
)
def face(station: Station, said: Said) -> Plan:
    """Mill the upper face, or turn it in the lathe; the datum moves down to the new face."""
    length, width, height = station.block
    off = said.get("")
    if off is None:
        off = height - said.length("to length")
    fits(said, "" if "" in said else "to length", off, height, "the cut")
    called = ACROSS_FACES.get(station.up, "thick")
    to = f" to {dim(said.get('to length'))} {called}" if "to length" in said else f", {dim(off)} off"
    turned = station.machine.sort.work_turns
    narrow, run = min(length, width), max(length, width)
    wide = 0.0 if turned or "cutter" in said else station.face_cutter(narrow)
    cut = _turned_face(length, width, off) if turned else mill_cut(station, said, narrow, off, run, cutter=wide)
    word, tool = ("Face", "knife tool") if turned else ("Mill", "face mill" if wide else "end mill")
    return Plan(
        f"{word} the {station.up} face{to}", [station.box(-CLEAR, -CLEAR, length + CLEAR, width + CLEAR, -CLEAR, off)],
        cut,
        Sketch(0, off, cut_words=number(off), box=(0, 0, length, width, off)), face_moves=off,
        cautions=[] if turned else ["milling"], tool_words=tool,
        tool_size=0.0 if turned else cut.diameter, handling=1.0, feature=f"{station.up} face", reach_depth=off,
        makes=(Made("length", height - off, -1.0), Made("depth", off, 1.0)), edges=Edges.WHOLE,
    )  # fmt: skip


def _turned_face(length: float, width: float, off: float) -> CutData:
    """A block that turns in the four-jaw chuck or on the faceplate is faced from corner to middle."""
    corner = math.hypot(length, width)
    return CutData(Process.FACE, corner, corner, 0.0, corner / 2 + 1.0, width=off, across=True, slide="compound slide")


@verb(
    "step",
    frame=VICE,
    family="milling",
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
    fits(said, "wide", wide, across, "the step")
    fits(said, "deep", deep, height, "the step")
    x0, y0, x1, y1 = {"left": (0, 0, wide, width), "right": (length - wide, 0, length, width),
        "front": (0, 0, length, wide),
                      "back": (0, width - wide, length, width)}[side]  # fmt: skip
    run = width if side in ("left", "right") else length
    cut = mill_cut(station, said, wide, deep, run, open_side=True)
    return Plan(
        f"Mill a step {dim(wide)} × {dim(deep)} along the {side} side",
        [station.box(*_open(x0, y0, x1, y1, length, width), -CLEAR, deep)], cut,
        Sketch(0, deep, cut_words=number(deep), size=wide, box=(x0, y0, x1, y1, deep)), cautions=["milling"],
        tool_words="end mill",
        tool_size=cut.diameter, handling=1.5, feature=f"{side} step", reach_depth=deep,
        makes=(Made("depth", deep, 1.0), Made("width", wide), Made("length", height - deep, -1.0),
            *_left_standing(station, side, wide, deep)),
    )  # fmt: skip


def _left_standing(station: Station, side: str, wide: float, deep: float) -> tuple[Made, ...]:
    """What stands between the new wall and the wall opposite, half-way down: the tongue that two steps leave."""
    length, width, _ = station.block
    flat = side in ("left", "right")
    across, run = (length, width) if flat else (width, length)
    wall, low, high = (wide, wide, across) if side in ("left", "front") else (across - wide, 0.0, across - wide)
    ends = (run / 2 - 0.05, run / 2 + 0.05)
    corners = (low, ends[0], high, ends[1]) if flat else (ends[0], low, ends[1], high)
    met = station.piece.state.solid & station.box(*corners, deep / 2 - 0.05, deep / 2 + 0.05)
    for piece in met.pieces() if not met.empty else ():
        near, far = station.seen(piece)[0 if flat else 1]
        if near - 1e-3 <= wall <= far + 1e-3:
            return (Made("width", round(far - near, 6)),)
    return ()


def _open(x0: float, y0: float, x1: float, y1: float, length: float, width: float) -> tuple[float, float, float, float]:
    """A box that ends on the edge of the work, carried past that edge."""
    return (x0 - CLEAR if x0 <= 1e-9 else x0, y0 - CLEAR if y0 <= 1e-9 else y0,
            x1 + CLEAR if x1 >= length - 1e-9 else x1, y1 + CLEAR if y1 >= width - 1e-9 else y1)  # fmt: skip


@verb(
    "slot",
    frame=VICE,
    family="milling",
    clauses=[
        Clause("wide", "length", "width", True),
        DEEP,
        Clause("along", "text", "length (left to right) or width (front to back)"),
        Clause("middle", "length", "middle of the slot, from the left edge or the edge towards you", apart=True),
        Clause("from", "length", "where it starts, from the edge", apart=True),
        Clause("to", "length", "where it ends, from the edge", apart=True),
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
    fits(said, "wide", wide, across, "the slot")
    fits(said, "deep", deep, height + CLEAR, "the slot")
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
        f"Mill a slot {dim(wide)} wide, {dim(deep)} deep, along the {along}",
        [station.prism(Outline.rectangle(corners[:2], corners[2:], wide / 2 if cutter <= wide else 0.0), -CLEAR, deep)],
        mill_cut(station, said, wide, deep, end - start),
        Sketch(0, deep, cut_words=number(deep), size=wide,
               box=(max(0, corners[0]), max(0, corners[1]), min(length, corners[2]), min(width, corners[3]), deep)),
        cautions=["milling"], tool_words="slot drill", tool_size=cutter, handling=1.5, feature=f"slot {number(wide)}",
        reach_depth=deep,
        makes=(Made("width", wide, by=ToolKind.SLOT_DRILL if cutter >= wide else None), Made("depth", deep, 1.0),
            Made("length", end - start), Made("length", height - deep, -1.0)),
        opening=wide, widens=True,
    )  # fmt: skip


@verb(
    "pocket",
    frame=VICE,
    family="milling",
    clauses=[
        Clause("from", "points", "(x, y) of the corner next to you on the left", True),
        Clause("to", "points", "(x, y) of the far corner", True),
        DEEP,
        Clause("corner", "length", "radius of the corners", apart=True),
        CUTTER,
    ],
)
def pocket(station: Station, said: Said) -> Plan:
    """Mill a pocket with round corners."""
    length, width, height = station.block
    (x0, y0), (x1, y1) = said.get("from")[0][:2], said.get("to")[0][:2]
    deep, corner = (
        said.length("deep"),
        said.get("corner", said.get("cutter", station.cutter_diameter(min(x1 - x0, y1 - y0), end_mill=False)) / 2),
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
    fits(said, "corner", 2 * corner, min(x1 - x0, y1 - y0), "the corner radius, twice,")
    fits(said, "deep", deep, height + CLEAR, "the pocket")
    area_run = (x1 - x0) * (y1 - y0) / max(1e-6, 1.4 * corner)
    cutter = said.get("cutter", 2 * corner)
    return Plan(
        f"Mill a pocket {dim(x1 - x0)} × {dim(y1 - y0)}, {dim(deep)} deep",
        [station.prism(Outline.rectangle((x0, y0), (x1, y1), corner), -CLEAR, deep)],
        CutData(Process.MILL, cutter, 0.0, deep, area_run + 2, width=0.7 * cutter, slide="z", tool_turns=True),
        Sketch(0, deep, cut_words=number(deep), size=2 * corner, box=(x0, y0, x1, y1, deep)), cautions=["milling"],
        tool_words="slot drill",
        tool_size=cutter, handling=2.0, feature="pocket", reach_depth=deep, edges=Edges.WITHIN,
        makes=(Made("depth", deep, 1.0), Made("width", x1 - x0), Made("width", y1 - y0),
            Made("length", height - deep, -1.0)),
    )  # fmt: skip


@verb(
    "profile",
    frame=VICE,
    family="milling",
    clauses=[
        Clause(
            "points",
            "points",
            "outline that is left standing: (x, y), or (x, y, r) for a corner rounded by r",
            True,
            apart=True,
        ),
        DEEP,
        CUTTER,
        VIA,
        Clause("inside", "flag", "cut away the inside instead"),
        CLIMB,
    ],
)
def profile(station: Station, said: Said) -> Plan:
    """Mill round a profile given by points; a third number rounds the corner, `via` makes a side an arc."""
    length, width, _ = station.block
    deep, corners = said.length("deep"), said.get("points")
    if len(corners) < 3:
        raise MethodError(
            said.where("points"),
            f"a profile has three corners at least (got {len(corners)})",
            "a closed outline",
            "add points",
            code="wrong-value",
        )
    outline = closed_outline(corners, said.get("via", ()), said.where("points"))
    inner = station.prism(outline, -CLEAR, deep)
    cutters = [
        inner
        if said.get("inside")
        else station.box(-CLEAR, -CLEAR, length + CLEAR, width + CLEAR, -CLEAR, deep) - inner
    ]
    run = sum(math.dist(a[:2], b[:2]) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    # Round an outline the largest cutter goes; inside one, what its corners let in is not known: a middling one.
    cutter = station.cutter_diameter(8.0) if said.get("inside") else station.largest_cutter()
    cut = mill_cut(station, said, cutter * 0.7, deep, run, open_side=not said.get("inside"))
    climb = bool(said.get("climb"))
    return Plan(
        f"Mill the {'opening' if said.get('inside') else 'outline'} of {len(corners)} corners, {dim(deep)} deep"
        + (", climb milling" if climb else ""),
        cutters,
        cut,
        Sketch(0, deep, cut_words=number(deep), box=(min(xs), min(ys), max(xs), max(ys), deep)),
        cautions=["milling", *(["climb"] if climb else [])], tool_words="end mill", climb=climb,
        facts=[way_round(climb=climb, inside=bool(said.get("inside")))],
        tool_size=cut.diameter, handling=3.0, feature="profile", reach_depth=deep,
        edges=Edges.WITHIN if said.get("inside") else Edges.ROUND,
        makes=(Made("depth", deep, 1.0), Made("width", max(xs) - min(xs)), Made("width", max(ys) - min(ys))),
    )  # fmt: skip
