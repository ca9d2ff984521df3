"""What do laps, hones and broaches take: hundredths to a size, square and hexagon holes, keyways?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TypeAlias

from methodsheets.geometry import Solid
from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.finish import BROACHED, HONED, LAPPED, POLISHED
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .benchwork import NOTE, TIME, by_hand, in_the_lathe
from .facts import judged
from .plan import CutData, Made, Plan, Sketch
from .say import MM, dia, diameter, dim, exact, number
from .station import Station
from .turned_work import FROM, INSIDE, OVER, inside_work
from .verb import ANY, TURNING, verb
from .words import Clause, Said


@dataclass(frozen=True)
class _Way:
    """One way of taking hundredths."""

    least: float
    """mm on the diameter that it takes off as a rule: common practice, from memory."""
    most: float
    minutes: float
    """Minutes for each hundredth of a millimetre: an estimate."""
    tool: str
    leaves: tuple[float, float] = (0.0, 0.0)
    """Finish, µm Ra from and to."""


PILOT = 0.03
"""Share by which the hole may be under the broach's flats, so that it still starts."""


SQUARE = 4
Broached: TypeAlias = "tuple[list[Solid], float, str]"
"""Cutters, depth beyond the hole, words."""
FINE = (
    Clause("to", "length", "finished diameter: a few hundredths come off"),
    OVER,
    FROM,
    INSIDE,
    TIME,
)


@verb("polish", frame=ANY, family="bench", first=NOTE, clauses=FINE)
def polish(station: Station, said: Said) -> Plan:
    """Polish; with `to` down to a diameter, `inside` up to one."""
    return _fine(station, said, _Way(0.0, 0.01, 3.0, "emery cloth", POLISHED))


@verb("lap", frame=ANY, family="bench", first=NOTE, clauses=FINE)
def lap(station: Station, said: Said) -> Plan:
    """Lap; with `to` down to a diameter, `inside` up to one: hundredths come off, and no more."""
    return _fine(station, said, _Way(0.003, 0.03, 6.0, "lap", LAPPED))


@verb("hone", frame=ANY, family="bench", first=NOTE, clauses=FINE)
def hone(station: Station, said: Said) -> Plan:
    """Hone; with `to` down to a diameter, `inside` up to one: hundredths come off, and no more."""
    return _fine(station, said, _Way(0.01, 0.1, 2.0, "hone", HONED))


def _fine(station: Station, said: Said, way: _Way) -> Plan:
    """A few hundredths to a size; without one no size changes in the solid."""
    if station.frame != TURNING or "to" not in said:
        plan = by_hand(said, station.verb.capitalize(), 5.0, "emery cloth", in_the_lathe(station))
        plan = replace(plan, leaves=way.leaves)
        if "over" in said and station.frame == TURNING:
            start = said.get("from", 0.0)
            plan = replace(plan, sketch=Sketch(start, start + said.get("over")))
        return plan
    to, start, word = said.length("to"), said.get("from", 0.0), station.verb
    over = said.get("over", station.length - start)
    end = start + over
    inside_work(station, said, start, end)
    hole = bool(said.get("inside"))
    there = 2 * (station.bore_radius(start + over / 2) if hole else station.swing(start, end))
    left = to - there if hole else there - to
    if left <= 0:
        words, rule = (
            f"nothing to {word} off (got {number(to)} mm, it is {number(there)} mm)",
            "it takes a few hundredths",
        )
        raise MethodError(said.where("to"), words, rule, "leave an allowance on it before", code="nothing-to-cut")
    begin = start if start else -1.0
    inner, outer = (0.0, to / 2) if hole else (to / 2, there / 2 + 1.0)
    least, most = way.least, way.most
    span = f"{exact(left)} {MM} on the diameter to {word}"
    how = f"{word.capitalize()} {'the bore ' if hole else ''}to {dia(to)} over {dim(over)}"
    return Plan(
        how + (f": {said.get('')}" if "" in said else ""),
        [station.turned(Outline((inner, begin), (outer, begin), (outer, end), (inner, end)))],
        CutData(Process.NONE, there, there, to),
        Sketch(start, end, to, there, cut_words=number(over)), tool_words=way.tool,
        by_hand=said.get("for", 3.0 + way.minutes * left / 0.01), handling=1.0, inside=hole,
        makes=(Made("diameter", to),), feature=f"{word} {diameter(to)}", leaves=way.leaves,
        cautions=in_the_lathe(station),
        checks=[judged("allowance", least - 1e-6 <= left <= most + 1e-6, f"{span}; usual are {exact(least)} to {exact(most)}", said.place.line)],  # noqa: E501
    )  # fmt: skip


@verb("broach", frame=TURNING, family="bench", clauses=[
    Clause("square", "length", "size across the flats of a square hole", says="which shape"),
    Clause("hexagon", "length", "size across the flats of a hexagon hole", says="which shape"),
    Clause("keyway", "length", "width of a keyway", says="which shape"),
    Clause("deep", "length", "depth of the hole from the face; of a keyway, from the bore"),
    Clause("at", "angle", "angle of the keyway, or of a flat", apart=True),
    TIME,
    Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
])  # fmt: skip
def broach(station: Station, said: Said) -> Plan:
    """Press a broach through a hole: a square, a hexagon, or a keyway."""
    angle, bore = said.get("at", 0.0), 2 * station.bore_radius(0.5)
    keyed = said.get("keyway")
    sides = 4 if said.get("square") else 6
    size = keyed or said.get("square", said.get("hexagon"))
    if not size:
        rule, remedy = "a broach has a shape", "write e.g. `broach: square 8 mm` or `broach: keyway 5 mm, deep 2.3 mm`"
        raise MethodError(said.place, "which shape?", rule, remedy, code="missing-clause")
    length = station.length if keyed else min(said.get("deep", station.length), station.length)
    solids, deep, words = (
        _keyed(station, said, size, angle, bore) if keyed else _cornered(station, sides, size, angle, bore, length)
    )
    there = f"the hole is {dia(bore)}; the broach wants {dia(size)} at least, for its pilot"
    fits = bore > 0 if keyed else size * (1 - PILOT) <= bore < size * 1.2
    plan = Plan(
        words, solids, CutData(Process.NONE, bore, bore),
        Sketch(0, length, size, bore, size=size, angles=(angle,), cut_words=number(length), radius=bore / 2 + deep),
        tool_words="broach", inside=True, handling=3.0, by_hand=said.get("for", 4.0 + 0.1 * length),
        makes=(Made("width", size), Made("depth", deep)), feature=str(said.get("called", f"broached {number(size)}")),
        cautions=["pressing"], leaves=BROACHED, checks=[judged("broach-hole", fits, there, said.place.line)],
    )  # fmt: skip
    sizes = [one.size for tool in station.workshop.tools_of(ToolKind.BROACH) for one in (tool.nearest(size),)]
    has = any(abs(one - size) < 0.01 for one in sizes)
    words = f"a broach of {dim(size)}" if has else f"there is no broach of {dim(size)} here"
    slotted = f"`keyway: wide {number(size)} mm, deep {number(deep)} mm, in bore`"
    remedy = f"slot it, the spindle locked: {slotted}" if keyed and not has else ""
    return plan.with_more(checks=[judged("tool", has, words, said.place.line, remedy=remedy)])


def _keyed(station: Station, said: Said, size: float, angle: float, bore: float) -> Broached:
    deep = said.length("deep")
    cut = [station.beam(angle, 0.0, bore / 2 + deep, size, start=-1.0, end=station.length + 1.0)]
    return cut, deep, f"Broach a keyway {dim(size)} wide, {dim(deep)} deep, through the bore"


def _cornered(station: Station, sides: int, size: float, angle: float, bore: float, length: float) -> Broached:
    """A square, or a hexagon of three bars across each other."""
    end = length + 1.0 if length >= station.length - 1e-6 else length
    half, side = size / 2, size * math.tan(math.pi / sides)
    turns = (0.0,) if sides == SQUARE else (0.0, 60.0, 120.0)
    cut = [station.beam(angle + t, -half, half, side, start=-1.0, end=end) for t in turns]
    corner = half / math.cos(math.pi / sides) - bore / 2
    deep_words = "through" if end > station.length else f"{dim(length)} deep"
    what = "square" if sides == SQUARE else "hexagon"
    return cut, corner, f"Broach a {what} hole {dim(size)} across the flats, {deep_words}"
