"""What do shaped cutters cut on a block in the vice: vees, dovetails, T-slots, chamfers?"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .milling import CLEAR, CUTTER, DEEP, SIDES, fits, mill_cut
from .plan import CutData, Made, Plan, Sketch
from .say import dim, number
from .station import Station
from .verb import VICE, verb
from .words import Clause, Said

ALONG = Clause("along", "text", "length (left to right) or width (front to back)")
MIDDLE = Clause("middle", "length", "middle, from the left edge or the edge towards you", apart=True)


@verb(
    "vee",
    frame=VICE,
    family="milling",
    clauses=[
        Clause("wide", "length", "width at the face", True),
        MIDDLE,
        ALONG,
        Clause("angle", "angle", "included angle, 90° unless said", within=(1, 179)),
        CUTTER,
    ],
)
def vee(station: Station, said: Said) -> Plan:
    """Mill a vee along or across the upper face."""
    wide, angle, height = said.length("wide"), said.get("angle", 90.0), station.block[2]
    along, run, across, middle = _run(station, said)
    deep = wide / 2 / math.tan(math.radians(angle / 2))
    fits(said, "wide", wide, across, "the vee")
    fits(said, "wide", deep, height, "the vee's depth")
    slope = math.tan(math.radians(angle / 2))
    outline = Outline(
        (middle - wide / 2 - CLEAR * slope, -CLEAR), (middle + wide / 2 + CLEAR * slope, -CLEAR), (middle, deep)
    )
    return Plan(
        f"Mill a {number(angle)}° vee {dim(wide)} wide along the {along}", [station.trough(outline, along)],
        mill_cut(station, said, wide, deep, run),
        Sketch(0, deep, cut_words=number(deep), size=wide,
               box=_box(along, run, middle, wide, deep)),
        cautions=["milling"], tool_words="vee cutter", tool_size=said.get("cutter", 0.0), handling=2.0, feature="vee",
        tool_angle=angle,
        reach_depth=deep, makes=(Made("width", wide, 0.5 / slope), Made("depth", deep, 1.0)),
    )  # fmt: skip


@verb(
    "dovetail",
    frame=VICE,
    family="milling",
    clauses=[
        Clause("wide", "length", "width at the face", True),
        DEEP,
        MIDDLE,
        ALONG,
        Clause("angle", "angle", "angle between side and bottom, 60° unless said"),
        CUTTER,
    ],
)
def dovetail(station: Station, said: Said) -> Plan:
    """Mill a dovetail slot right through: narrow at the face, wide at the bottom."""
    wide, deep, angle, height = said.length("wide"), said.length("deep"), said.get("angle", 60.0), station.block[2]
    along, run, across, middle = _run(station, said)
    if not 30 <= angle < 90:
        words = f"a dovetail stands between 30° and 90° (got {number(angle)}°)"
        raise MethodError(said.where("angle"), words, "angle between side and bottom", "check it", code="wrong-value")
    spread = deep / math.tan(math.radians(angle))
    fits(said, "wide", wide + 2 * spread, across, "the dovetail's bottom")
    fits(said, "deep", deep, height, "the dovetail")
    half, foot = wide / 2, wide / 2 + spread
    outline = Outline(
        (middle - half, -CLEAR), (middle + half, -CLEAR), (middle + half, 0), (middle + foot, deep),
        (middle - foot, deep), (middle - half, 0),
    )  # fmt: skip
    return Plan(
        f"Mill a {number(angle)}° dovetail slot {dim(wide)} wide at the face, "
        f"{dim(deep)} deep, along the {along}",
        [station.trough(outline, along)], mill_cut(station, said, wide + 2 * spread, deep, run),
        Sketch(0, deep, cut_words=number(deep), size=wide, high=deep, box=_box(along, run, middle, wide, deep)),
        cautions=["milling"],
        tool_words="dovetail cutter", tool_size=said.get("cutter", 0.0), handling=3.0, feature="dovetail",
        tool_angle=angle,
        reach_depth=deep, makes=(Made("depth", deep, 1.0), Made("width", wide), Made("width", wide + 2 * spread)),
    )  # fmt: skip


@verb(
    "t-slot",
    frame=VICE,
    family="milling",
    clauses=[
        Clause("wide", "length", "width of the neck", True),
        DEEP,
        Clause("head", "length", "width of the wide part at the bottom", True),
        Clause("high", "length", "height of the wide part", True),
        MIDDLE,
        ALONG,
        CUTTER,
    ],
)
def t_slot(station: Station, said: Said) -> Plan:
    """Mill the wide part of a T-slot and its neck, right through; mill the neck as a slot first."""
    wide, deep, head, high = (said.length(word) for word in ("wide", "deep", "head", "high"))
    along, run, across, middle = _run(station, said)
    fits(said, "head", head, across, "the T-slot's head")
    fits(said, "deep", deep, station.block[2], "the T-slot")
    fits(said, "high", high, deep, "the T-slot's head in its depth")
    if head <= wide:
        words = f"the head of a T-slot is wider than its neck (got {number(head)} mm and {number(wide)} mm)"
        raise MethodError(said.where("head"), words, "the nut hangs in it", "check the sizes", code="wrong-value")
    neck, foot, shoulder = wide / 2, head / 2, deep - high
    outline = Outline(
        (middle - neck, -CLEAR), (middle + neck, -CLEAR), (middle + neck, shoulder), (middle + foot, shoulder),
        (middle + foot, deep), (middle - foot, deep), (middle - foot, shoulder), (middle - neck, shoulder),
    )  # fmt: skip
    return Plan(
        f"Mill a T-slot {dim(wide)} wide, head {dim(head)} × {dim(high)}, "
        f"{dim(deep)} deep, along the {along}",
        [station.trough(outline, along)], mill_cut(station, said, head, high, run),
        Sketch(0, deep, cut_words=number(deep), size=wide, high=high, box=_box(along, run, middle, head, deep)),
        cautions=["milling"],
        tool_words="t-slot cutter", tool_size=said.get("cutter", 0.0), handling=3.0, feature="T-slot", reach_depth=deep,
        makes=(Made("depth", deep, 1.0), Made("width", head, by=ToolKind.T_SLOT_CUTTER),
            Made("width", high, by=ToolKind.T_SLOT_CUTTER),
            Made("width", wide)),
    )  # fmt: skip


def _run(station: Station, said: Said) -> tuple[str, float, float, float]:
    """(along, length of the run, width across it, middle) of a slot right through the block."""
    length, width, _ = station.block
    along = said.get("along", "width")
    if along not in ("length", "width"):
        words = f"a slot runs along the length or the width (got `{along}`)"
        raise MethodError(said.where("along"), words, "as the work stands", "write `along length`", code="wrong-value")
    run, across = (length, width) if along == "length" else (width, length)
    return along, run, across, said.get("middle", across / 2)


def _box(along: str, run: float, middle: float, wide: float, deep: float) -> tuple[float, float, float, float, float]:
    low, high = middle - wide / 2, middle + wide / 2
    return (0.0, low, run, high, deep) if along == "length" else (low, 0.0, high, run, deep)


@verb(
    "chamfer",
    frame=VICE,
    family="milling",
    first=Clause("", "length", "size", True),
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
        f"Chamfer the {'upper edges' if side == 'all' else side + ' edge'} {dim(size)} × 45°", cutters,
        CutData(Process.MILL, 10.0, 0.0, size, run + 10 * len(sides), width=size, slide="z", tool_turns=True),
        Sketch(0, size, cut_words=number(size), size=size, box=(0, 0, length, width, size)), cautions=["milling"],
        tool_words="chamfer tool",
        handling=1.0, feature="chamfer", reach_depth=size, makes=(Made("length", size, 1.0),),
    )  # fmt: skip
