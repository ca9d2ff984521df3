"""What do the other dials read: those that set a length, a depth, and the place of a cutter over the table?

The passes say what the slide reads that takes the metal off. Here are the slides that are set once: saddle or top slide
for a length along the work, tailstock or quill for the depth of a hole, x and y for the middle of a cutter, from
the (0, 0) corner, at the left of the edge towards you. Where a check has limits the aim is told, not the nominal size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from methodsheets.formula.kinds import limit_kind
from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Fact, Limit, Table
from methodsheets.vocabulary.process import Passes, Process
from methodsheets.workshop.dials import Dial
from methodsheets.workshop.machines import Machine

from .facts import length_measure, told
from .plan import CutData, Plan
from .say import MM, dim, recalled_in, resting
from .station import Station
from .verb import VICE

NEAR = 1e-4
ALONG = ("saddle", "leadscrew", "top slide")
"""Slides that set a length along the work, the one that is taken first at the front."""
QUILLS = ("quill", "z")
APPROACH = 2.0
"""mm of approach that every drilled hole has in its travel (`holes._travel`)."""
TURNED_LENGTHS = (Process.TURN, Process.BORE, Process.THREAD)


@dataclass(frozen=True)
class Aimed:
    """A length to be set [mm], and between which travels where a check says so."""

    length: float
    stop: tuple[float, float] | None = None


def readings(plan: Plan, station: Station, machine: Machine, limits: Sequence[Limit]) -> tuple[list[Fact], list[Table]]:
    """Facts and tables of an operation about the slides that its passes do not name.

    Parameters:
        limits: the sizes that the operation checks, with the aim of each
    """
    cut = plan.cut
    if not cut.process.cuts or not machine.kind.has_spindle or cut.process.row.hand_turned:
        return [], []
    if cut.process.row.own_axis and not cut.tool_turns:
        return [_depth("tailstock_depth", "Tailstock", machine, ("tailstock",), plan)], []
    if cut.tool_turns:
        tables = _walls(plan, station, machine, limits) if station.frame == VICE else []
        return ([_depth("quill_depth", "Quill", machine, QUILLS, plan)] if cut.process.row.own_axis else []), tables
    if cut.process in TURNED_LENGTHS and cut.slide == "cross slide" and not plan.sketch.through:
        return [_length(plan, station, machine, limits)], []
    return [], []


def _depth(key: str, label: str, machine: Machine, slides: Sequence[str], plan: Plan) -> Fact:
    """How far a drill, reamer or counterbore goes from where it touches."""
    deep = max(plan.cut.travel - APPROACH, plan.sketch.end - plan.sketch.start)
    if plan.cut.process is Process.DRILL:
        deep -= plan.cut.start / 2 / math.tan(math.radians(plan.point / 2))  # its lips touch the edge of the hole first
    dial = _dial_of(machine, slides)
    read = dial.for_travel(deep).words if dial else f"{dim(round(deep, 2))} {MM}"
    note = f"{dim(round(deep, 2))} {MM} from where it touches" if dial else "from where it touches"
    room = machine.travel.get(dial.slide if dial else slides[0], 0.0)
    if 0 < room < deep:
        note += f"; it goes {dim(room)} {MM} at a time: bring it up again between"
    read = resting(read, recalled_in(plan.words))
    return told(key, f"{label} {'dial' if dial else 'goes in'}", read, note=note)


def _length(plan: Plan, station: Station, machine: Machine, limits: Sequence[Limit]) -> Fact:
    """How far the saddle goes from the face, to the shoulder."""
    end, start = plan.sketch.end, plan.sketch.start
    found = aimed(
        limits, ((end, 0.0, 1.0), (end - start, start, 1.0), (station.length - end, station.length, -1.0)), end
    )
    slides = [slide for slide in ALONG if slide != "top slide" or machine.travel.get(slide, 0.0) >= found.length]
    dial = _dial_of(machine, slides)
    far = f"{dim(round(found.length, 3))} {MM} from the face"
    if dial is None:
        return told("length_stop", "Stop the saddle at", far, note="a stop, or a line on the work")
    return told("length_dial", f"Length, {dial.slide} dial", _read(dial, found), note=far)


def aimed(limits: Sequence[Limit], ways: Sequence[tuple[float, float, float]], nominal: float) -> Aimed:
    """The length to set, led to the aim of the check that is about it.

    Parameters:
        ways: (size, base, sign) of each size that the length makes: the length is base + sign × size
    """
    for limit in limits:
        if limit.aim is None or limit.nominal.unit != "mm":
            continue
        for size, base, sign in ways:
            if abs(size - limit.nominal.value) <= NEAR:
                ends = sorted(base + sign * edge.value for edge in (limit.lower, limit.upper))
                return Aimed(base + sign * limit.aim.value, (ends[0], ends[1]))
    return Aimed(nominal)


def _read(dial: Dial, wanted: Aimed) -> str:
    if wanted.stop is None:
        return dial.for_travel(wanted.length).words
    found = dial.within(wanted.length, wanted.stop)
    return f"{found.words}, between two lines" if found.between_lines else found.words


def _dial_of(machine: Machine, slides: Sequence[str]) -> Dial | None:
    return next((dial for slide in slides if (dial := machine.dial(slide))), None)


# ------------------------------------------------------------------------------------------------ over the table
def _walls(plan: Plan, station: Station, machine: Machine, limits: Sequence[Limit]) -> list[Table]:
    """Where the middle of the cutter stands at each wall that it makes."""
    box, cut = plan.sketch.box, plan.cut
    if box is None or cut.process.row.passes is not Passes.MILLED:
        return []
    rows: list[tuple[Measure | str, ...]] = []
    for axis, low, high, size in (("x", box[0], box[2], station.block[0]), ("y", box[1], box[3], station.block[1])):
        dial = machine.dial(axis)
        for wall, found in _middles(plan, cut, low, high, size, limits):
            kind = limit_kind("aim", found.stop[1] - found.stop[0]) if found.stop else "size"
            read = _read(dial, found) if dial else "–"
            rows.append((f"{axis}, {wall}", length_measure(found.length, kind), read))
    title = "Middle of the cutter, from the (0, 0) corner"
    return [Table(title, ("Slide and wall", "At", "Dial"), tuple(rows))] if rows else []


def _middles(
    plan: Plan, cut: CutData, low: float, high: float, size: float, limits: Sequence[Limit]
) -> list[tuple[str, Aimed]]:
    """(which wall, place of the cutter's middle) along one slide; nothing where the cut runs right across."""
    starts, ends = low > NEAR, high < size - NEAR
    r = min(cut.diameter, high - low) / 2
    middle = (low + high) / 2
    shaped = plan.sketch.high > 0 or any(made.what == "width" and made.infeed for made in plan.makes)
    if shaped or (starts and ends and high - low <= cut.diameter + NEAR):
        return [("middle", Aimed(middle))] if starts and ends else []
    if starts and ends:
        lower = _half(limits, high - low, middle, -1.0, low)
        upper = _half(limits, high - low, middle, 1.0, high)
        return [("lower wall", _moved(lower, r)), ("upper wall", _moved(upper, -r))]
    if starts:
        return [("wall", _moved(aimed(limits, ((low, 0.0, 1.0), (high - low, high, -1.0)), low), r))]
    if ends:
        return [("wall", _moved(aimed(limits, ((high, 0.0, 1.0), (size - high, size, -1.0)), high), -r))]
    return []


def _half(limits: Sequence[Limit], wide: float, middle: float, sign: float, nominal: float) -> Aimed:
    """A wall of two: half of what the width's check allows."""
    found = aimed(limits, ((wide, 0.0, 1.0),), wide)
    if found.stop is None:
        return Aimed(nominal)
    ends = sorted(middle + sign * edge / 2 for edge in found.stop)
    return Aimed(middle + sign * found.length / 2, (ends[0], ends[1]))


def _moved(wall: Aimed, by: float) -> Aimed:
    stop = (wall.stop[0] + by, wall.stop[1] + by) if wall.stop else None
    return Aimed(wall.length + by, stop)
