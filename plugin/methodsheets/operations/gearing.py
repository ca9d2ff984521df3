"""How are teeth cut with a form cutter: a gear by dividing, a rack by stepping along?"""

from __future__ import annotations

import math
import re

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check, Fact, Working
from methodsheets.trade.dividing.gears import Rack, gap_half_angle, gear_rack, spur_gear
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .advice import dividing_tables
from .facts import fact, judged, told, worked
from .places import Places
from .plan import CutData, Made, Plan, Sketch
from .say import MM, dia, dim, number
from .station import Station
from .turned_work import CALLED, FROM, OVER, inside_work
from .verb import TURNING, VICE, verb
from .words import Clause, Said

BLANK = 0.1
"""mm by which a blank may differ from its size: general tolerance, and the depth is set from the real outside."""
CUTTER = 50.0
"""mm: diameter of a usual form cutter of module 1 to 2 (from memory)."""
FLANK = 11
"""Points on each flank of a gap."""
MODULE = Clause("module", "length", "module: pitch diameter over the number of teeth; of 20 DP, `25.4 mm / 20`", True)
TEETH = Clause("teeth", "count", "number of teeth", True)


STARTING = Clause("starting", "angle", "angle of the first gap", apart=True)


@verb("gear", frame=TURNING, family="dividing", clauses=[MODULE, TEETH, OVER, FROM, STARTING, CALLED])
def gear(station: Station, said: Said) -> Plan:
    """Cut the teeth of a spur gear with a form cutter, gap by gap, on the dividing head or rotary table."""
    module, teeth, start = said.length("module"), said.get("teeth"), said.get("from", 0.0)
    try:
        sizes, working = worked(spur_gear, module, float(teeth))
    except OutOfRange as error:
        rule, remedy = "module 0.2 to 20 mm, 12 to 500 teeth", "a set of form cutters begins at 12 teeth"
        raise MethodError(said.where("teeth"), str(error), rule, remedy, code="wrong-value") from None
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    blank, root = station.swing(start, start + over), sizes.root / 2
    first = said.get("starting", 0.0)
    angles = tuple(first + 360.0 / teeth * i for i in range(teeth))
    gap = _gap(module, teeth, root, blank + 1.0)
    begin = start if start else -1.0
    there = f"the blank is {dia(2 * blank)}; {teeth} teeth of module {number(module)} want {dia(sizes.blank)}"
    plan = Plan(
        f"Cut {teeth} teeth, module {dim(module)}, {dim(sizes.depth)} deep, over {dim(over)}",
        [station.along_work(gap, a, begin, start + over) for a in angles],
        CutData(Process.MILL, CUTTER, 0.0, sizes.depth, over + math.sqrt(sizes.depth * (CUTTER - sizes.depth)) + 2,
            width=sizes.pitch / 2, slide="z", holes=teeth, tool_turns=True),
        Sketch(start, start + over, sizes.root, 2 * blank, radius=root, angles=angles, divided=teeth,
            size=sizes.pitch / 2, cut_words=number(over), view="across"),
        cautions=["milling"], tool_words="involute gear cutter", handling=2.0 + 0.3 * teeth,
        feature=str(said.get("called", f"{teeth} teeth")), reach_depth=0.0, beside=True,
        checks=[judged("gear-blank", abs(2 * blank - sizes.blank) <= BLANK, there, said.place.line,
                       remedy=f"turn it to {number(sizes.blank)} mm: module times teeth and two")],
        makes=(Made("depth", sizes.depth, 1.0), Made("width", sizes.chord), Made("length", over)),
    )  # fmt: skip
    plan = plan.with_more(facts=[
        told("gear_cutter", "Form cutter", f"module {number(module)}, {sizes.cutter}", [working],
             f"in a set by diametral pitch it is {sizes.cutter_by_pitch}"),
        fact("tooth_depth", "Depth of the teeth", sizes.depth, "mm", "size", [working]),
        fact("pitch_circle", "Pitch circle", sizes.pitch_diameter, "mm", "size", desk=True),
        fact("chord", "Tooth across its chord", sizes.chord, "mm", "size", [working], "",
             f"with the caliper's tongue at {dim(round(sizes.chord_height, 3))} {MM}"),
    ])  # fmt: skip
    return plan.with_more(
        facts=[told("few_teeth", "Few teeth", sizes.note)] if sizes.note else [],
        checks=_cutter_there(station, module, sizes.cutter, said),
        tables=dividing_tables(station, Places(0.0, angles, (), teeth)),
    )


def _gap(module: float, teeth: int, root: float, outer: float) -> Outline:
    """Outline (outward, across) of one gap between involute flanks, from its bottom to beyond the tips."""
    tip = module * (teeth + 2) / 2
    radii = [root + (tip - root) * i / (FLANK - 1) for i in range(FLANK)]
    flank = [(r, gap_half_angle(module, teeth, r)) for r in radii]
    flank.append((outer, flank[-1][1] * tip / outer))
    right = [(r * math.cos(a), -r * math.sin(a)) for r, a in flank]
    left = [(x, -y) for x, y in reversed(right)]
    outline = Outline((root, 0.0))
    for point in (*right, *left):
        outline = outline.to(point)
    return outline


def _cutter_there(station: Station, module: float, number_words: str, said: Said) -> list[Check]:
    """Whether the workshop's form cutters have the module and the number; one that is not there is told elsewhere."""
    names = [tool.name for tool in station.workshop.tools_of(ToolKind.GEAR_CUTTER)]
    if not names:
        return []
    short, wanted = number_words.split(" (")[0], f"module {number(module)}"
    of_module = [name for name in names if re.search(rf"{re.escape(wanted)}(?![\d.])", name.lower())]
    right = [name for name in of_module if short.lower() in name.lower() or "no." not in name.lower()]
    words = f"the {right[0]}: {short}" if right else f"{wanted}, {short} is wanted; there is {', '.join(names[:4])}"
    return [judged("tool-size", bool(right), words, said.place.line)]


@verb(
    "rack",
    frame=VICE,
    family="milling",
    clauses=[
        MODULE,
        TEETH,
        Clause("from", "length", "middle of the first gap, from the left edge", apart=True),
        CALLED,
    ],
)
def rack(station: Station, said: Said) -> Plan:
    """Cut the teeth of a rack across the work with a form cutter, stepping along by the pitch."""
    module, teeth = said.length("module"), said.get("teeth")
    try:
        sizes, working = worked(gear_rack, module, float(teeth))
    except OutOfRange as error:
        raise MethodError(said.place, str(error), "module 0.2 to 20 mm", "check it", code="wrong-value") from None
    length, width, high = station.block
    begin = said.get("from", sizes.pitch / 2)
    middles = [begin + sizes.pitch * i for i in range(teeth)]
    if not (begin >= 0 and middles[-1] <= length and sizes.depth < high):
        run = f"{teeth} gaps from {number(begin)} end at {number(middles[-1])} mm, {number(sizes.depth)} deep"
        words = f"{run}; the work is {number(length)} × {number(high)}"
        rule, remedy = "the teeth of a rack lie on the work", "fewer teeth, or longer stock"
        raise MethodError(said.place, words, rule, remedy, code="too-long")
    slope = math.tan(math.radians(20))
    low, top = sizes.pitch / 4 - 1.25 * module * slope, sizes.pitch / 4 + module * slope
    return Plan(
        f"Cut {teeth} gaps of a 20° rack of module {dim(module)}, {dim(sizes.depth)} deep",
        [station.trough(_rack_gap(at, low, top, sizes.depth), "width") for at in middles],
        CutData(Process.MILL, CUTTER, 0.0, sizes.depth, width + CUTTER + 4, width=sizes.tooth, slide="z", holes=teeth,
            tool_turns=True),
        Sketch(0, sizes.depth, box=(middles[0] - top, 0.0, middles[-1] + top, width, sizes.depth),
            cut_words=number(sizes.length), size=sizes.tooth, pitch=sizes.pitch),
        cautions=["milling"], tool_words="involute gear cutter", handling=2.0 + 0.3 * teeth,
        feature=str(said.get("called", "rack")), reach_depth=0.0,
        makes=(Made("depth", sizes.depth, 1.0), Made("length", sizes.pitch)),
        checks=_cutter_there(station, module, sizes.cutter, said), facts=_rack_facts(module, sizes, working),
    )  # fmt: skip


def _rack_facts(module: float, sizes: Rack, working: Working) -> list[Fact]:
    return [
        told("gear_cutter", "Form cutter", f"module {number(module)}, {sizes.cutter}", [working]),
        fact("tooth_depth", "Depth of the teeth", sizes.depth, "mm", "size", [working]),
        fact("step", "Step from gap to gap", sizes.pitch, "mm", "size", [working], "", "module times π"),
    ]


def _rack_gap(at: float, low: float, top: float, deep: float) -> Outline:
    rise = top + (top - low) / deep
    return Outline((at - rise, -1.0), (at + rise, -1.0), (at + low, deep), (at - low, deep))
