"""What is cut on turned work that stands still: flats, slots and graduations on the rotary table, repeated by angle?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeAlias

from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .advice import dividing_tables
from .facts import judged
from .places import ANGLE_CLAUSES, Places, read_angles
from .plan import CutData, Made, Plan, Sketch
from .qualities import Figure, Given, Quality
from .say import degrees, dia, diameter, dim, joined, number, plural
from .station import Station
from .turned_work import FROM, OVER, inside_work
from .verb import TURNING, verb
from .words import Clause, Said

if TYPE_CHECKING:
    from methodsheets.geometry import Solid

STROKE, STROKE_MINUTES = 0.05, 0.08
"""mm and minutes a stroke when a keyway is slotted by hand with the saddle (common practice, an estimate)."""
RUN_OUT, SAME = 0.5, 0.05
"""mm behind the end of a stroke at which it must be free; mm within which it counts as free."""
GROOVE = 3.0
"""mm: width of a groove into which a slotting tool runs out (common practice)."""


def _angle_words(places: Places) -> str:
    if places.divided:
        return f", {plural(places.count, 'time')} of {places.divided} round the circle"
    return f" at {joined([degrees(a) for a in places.angles])}"


@verb(
    "flat",
    frame=TURNING,
    family="dividing",
    first=Clause("", "length", "distance of the flat from the axis", says="how far from the axis"),
    clauses=[
        Clause("across", "length", "size across two opposite flats", says="how far from the axis"),
        OVER,
        FROM,
        *ANGLE_CLAUSES,
        Clause("cutter", "length", "diameter of the cutter", changes=(Change.NUMBERS,)),
        Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
    ],
)
def flat(station: Station, said: Said) -> Plan:
    """Mill a flat at a distance from the axis and an angle; repeated by `at` or `divide`."""
    distance = said.get("", said.get("across", 0.0) / 2 if "across" in said else None)
    if distance is None:
        said.length("")
    start = said.get("from", 0.0)
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    swing = station.swing(start, start + over)
    if distance >= swing:
        raise MethodError(
            said.place,
            f"the flat misses the work (got {number(distance)} mm from the axis, the work reaches {number(swing)} mm)",
            "a flat lies nearer to the axis than the outside",
            _flat_remedy(distance, swing),
            code="nothing-to-cut",
        )
    angles, divided = read_angles(said)
    places = Places(distance, angles, (), divided)
    width = 2 * math.sqrt(max(0.0, swing * swing - distance * distance))
    cutter = said.get("cutter", station.cutter_diameter(min(width, over)))
    plan = Plan(
        f"Mill a flat {dim(distance)} from the axis over {dim(over)}" + _angle_words(places),
        [station.half_space(distance, a, start, start + over) for a in angles],
        CutData(Process.MILL, cutter, 0.0, swing - distance, max(width, over) + cutter + 4,
            width=min(over, width, cutter), slide="z",
                holes=len(angles), paths=max(1.0, math.ceil(min(over, width) / cutter)), tool_turns=True),
        Sketch(start, start + over, 2 * distance, 2 * swing, radius=distance, angles=angles, size=cutter,
            cut_words=number(over),
               diameter_words=number(distance), view="across"),
        cautions=["milling"], tool_words="end mill", tool_size=cutter, beside=True, handling=1.0 + 0.4 * len(angles),
        feature=str(said.get("called", "flat")), reach_depth=swing - distance,
        makes=(Made("width", 2 * distance, -0.5), Made("length", distance, -1.0),
            Made("length", swing + distance, -1.0),
            Made("depth", swing - distance, 1.0), Made("length", over)),
    )  # fmt: skip
    return plan.with_more(tables=dividing_tables(station, places))


def _flat_remedy(distance: float, swing: float) -> str:
    """A size across two flats written for the distance of one is the usual slip."""
    if distance / 2 < swing:
        return f"for a size across two flats write `across {number(distance)} mm`"
    return "check the distance and the place"


@verb(
    "slot",
    "keyway",
    frame=TURNING,
    family="dividing",
    clauses=[
        Clause("wide", "length", "width", True),
        Clause("deep", "length", "depth from the outside", says="the depth"),
        Clause("to", "length", "distance of its bottom from the axis", says="the depth"),
        OVER,
        FROM,
        *ANGLE_CLAUSES,
        Clause("in face", "flag", "in the face that looks at you, right across", says="where it is cut"),
        Clause(
            "in bore",
            "flag",
            "in the bore: slotted with the saddle, stroke by stroke, or broached",
            says="where it is cut",
            also=("inside",),
        ),
        Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
    ],
)
def slot(station: Station, said: Said) -> Plan:
    """Mill a slot or keyway along the work, across the face, or slot it in the bore; repeated by angle."""
    wide = said.length("wide")
    angles, divided = read_angles(said)
    places = Places(0.0, angles, (), divided)
    if said.get("in bore"):
        return _in_bore(station, said, wide, places)
    across = _across_face if said.get("in face") else _along_work
    words, solids, run, cut_to, sketch = across(station, said, wide, angles)
    plan = Plan(
        words + _angle_words(places), solids,
        CutData(Process.MILL, wide, 0.0, cut_to, run + 2, width=wide, slide="z", holes=len(angles), tool_turns=True),
        sketch,
        cautions=["milling"], tool_words="slot drill", tool_size=wide, handling=1.5 + 0.4 * len(angles),
        feature=str(said.get("called", f"slot {number(wide)}")), reach_depth=cut_to, opening=wide,
        makes=(Made("width", wide, by=ToolKind.SLOT_DRILL), Made("depth", cut_to, 1.0),
            *((Made("length", sketch.radius, -1.0), Made("length", sketch.radius + sketch.radius + cut_to, -1.0))
              if sketch.radius else ())),
    )  # fmt: skip
    return plan.with_more(tables=dividing_tables(station, places))


def _in_bore(station: Station, said: Said, wide: float, places: Places) -> Plan:
    """A keyway in the bore: cut lengthwise by hand, the spindle locked; its depth counts from the bore."""
    start = said.get("from", 0.0)
    over = said.get("over", station.length - start)
    bore = station.bore_radius(start + over / 2)
    bottom = bore + said.length("deep") if "deep" in said else said.length("to")
    if not 0 < bore < bottom < station.swing(start, start + over):
        sizes = f"bore {diameter(2 * bore)}, bottom {number(bottom)} from the axis"
        rule = "a keyway starts in a bore and ends inside the work"
        raise MethodError(said.place, f"no keyway there (got {sizes})", rule, "check the depth", code="nothing-to-cut")
    deep, angles, end = bottom - bore, places.angles, start + over
    free = end >= station.length - SAME or station.bore_radius(end + RUN_OUT) >= bottom - SAME
    plan = Plan(
        f"Slot a keyway {dim(wide)} wide, {dim(deep)} deep, in the bore" + _angle_words(places),
        [station.beam(a, 0.0, bottom, wide, start=start if start else -1.0, end=start + over) for a in angles],
        CutData(Process.NONE, 2 * bottom, 2 * bore),
        Sketch(start, start + over, 2 * bottom, 2 * bore, radius=bottom, angles=angles, size=wide,
            cut_words=number(over), diameter_words=number(deep)),
        tool_words="slotting tool", tool_size=wide, handling=3.0, inside=True, opening=wide, widens=True,
        reach_depth=end,
        makes=(Made("width", wide, by=ToolKind.FORM), Made("depth", deep), Made("length", bottom),
            Made("length", bottom + bore)),
        by_hand=len(angles) * deep / STROKE * STROKE_MINUTES, feature=str(said.get("called", f"keyway {number(wide)}")),
    )  # fmt: skip
    words = f"at {dim(end)} the stroke ends in " + ("free room" if free else f"metal, {dim(deep)} deep")
    runs_out = judged("stroke-end", free, words, said.place.line, remedy=_run_out(station, end, bottom))
    return plan.with_more(checks=[runs_out], tables=dividing_tables(station, places))


def _run_out(station: Station, end: float, bottom: float) -> str:
    """How a slotting tool gets free room behind its stroke: a groove there, or a bore that goes on to the end."""
    bored = station.bore_radius(end + GROOVE - SAME)
    groove = f"`groove: from {number(end)} mm, wide {number(GROOVE)} mm, to {number(2 * bottom)} mm, inside`"
    drilled = "" if bored > 0 else f"drill on to {number(end + GROOVE)} mm from the face, and "
    fits = end + GROOVE <= station.length
    first = f"write above this operation: {drilled}{groove}, or cross-drill a hole there; " if fits else ""
    return f"{first}where the bore goes right through, as when the piece is parted off, leave `over` away"


Slot: TypeAlias = "tuple[str, list[Solid], float, float, Sketch]"
"""Words, cutters, length of feed, depth and sketch of a slot."""


def _across_face(station: Station, said: Said, wide: float, angles: tuple[float, ...]) -> Slot:
    """A slot right across the face that looks at you."""
    deep = said.length("deep")
    swing = station.swing(0, deep)
    solids = [station.beam(a, -swing - 2, swing + 2, wide, start=-1.0, end=deep) for a in angles]
    sketch = Sketch(0, deep, 0, 2 * swing, angles=angles, size=wide, in_face=True, cut_words=f"{number(deep)} deep")
    return f"Mill a slot {dim(wide)} wide, {dim(deep)} deep, across the face", solids, 2 * swing, deep, sketch


def _along_work(station: Station, said: Said, wide: float, angles: tuple[float, ...]) -> Slot:
    """A slot along the outside, down to a depth or to a distance from the axis."""
    start = said.get("from", 0.0)
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    swing = station.swing(start, start + over)
    bottom = swing - said.length("deep") if "deep" in said else said.length("to")
    if not 0 <= bottom < swing:
        words = f"the slot has no depth (got bottom {number(bottom)} mm from the axis, outside {number(swing)} mm)"
        rule = "its bottom lies between axis and outside"
        raise MethodError(said.place, words, rule, "check the depth", code="nothing-to-cut")
    solids = [
        station.beam(a, bottom, swing + 2, wide, start=start if start else -1.0, end=start + over) for a in angles
    ]
    sketch = Sketch(
        start, start + over, 2 * bottom, 2 * swing, radius=bottom, angles=angles, size=wide, cut_words=number(over),
        view="across",
    )  # fmt: skip
    words = f"Mill a slot {dim(wide)} wide, {dim(swing - bottom)} deep, over {dim(over)}"
    return words, solids, over, swing - bottom, sketch


@verb(
    "graduate",
    frame=TURNING,
    family="dividing",
    first=Clause("", "count", "number of lines round the rim", True),
    clauses=[
        FROM,
        Clause("line", "length", "length of each line"),
        Clause("fifth", "length", "length of each fifth line"),
        Clause("tenth", "length", "length of each tenth line"),
        Clause("starting", "angle", "angle of the first", apart=True),
    ],
)
def graduate(station: Station, said: Said) -> Plan:
    """Scribe graduation lines on the rim: marks, no metal goes."""
    count, start = said.get(""), said.get("from", 0.0)
    if not 1 <= count <= 1000:
        raise MethodError(
            said.place,
            f"a rim is divided into 1 to 1000 (got {count})",
            "a whole number",
            "check it",
            code="wrong-value",
        )
    every = said.get("line", 3.0)
    fifth, tenth = said.get("fifth", every), said.get("tenth", said.get("fifth", every))
    swing = station.swing(start, start + tenth)
    lines = []
    for i in range(count):
        length = tenth if i % 10 == 0 else fifth if i % 5 == 0 else every
        a = said.get("starting", 0.0) + 360.0 / count * i
        lines.append(station.surface_line(swing, a, start, start + length))
    places = Places(swing, tuple(said.get("starting", 0.0) + 360.0 / count * i for i in range(count)), (), count)
    given = Given(Quality.LINES, f"{count} graduations", "", (Figure("number of lines", count, 0.0),),
                  station.along(start, start + tenth), 2 * swing)  # fmt: skip
    plan = Plan(
        f"Divide {count} and scribe the rim {dia(2 * swing)}, "
        f"lines {dim(every)}, {dim(fifth)} and {dim(tenth)} long", [],
        CutData(), Sketch(start, start + tenth, 2 * swing, 2 * swing, angles=places.angles[:2], size=every,
            cut_words=number(tenth), view="across"),
        marks=lines, must_cut=False, tool_words="scriber", feature="graduations", handling=2.0, by_hand=0.35 * count,
        gives=(given,),
    )  # fmt: skip
    return plan.with_more(tables=dividing_tables(station, places))
