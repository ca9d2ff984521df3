"""What stands round the work in a lathe: holder, tailstock and tool in true size, to be drawn and tested for reach?

The parts are those of `methodfigures` in its frame: s runs from the face that looks at you before the cut into the
metal, r across from the axis, the tool below the axis. What the workshop does not say of a tool is a usual size, by
rule: a symbol, not a catalogue part.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from methodsheets.method.done import CutOperation
from methodsheets.method.holders import HOLDERS, Gripped
from methodsheets.method.open_setup import OpenSetup
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import HolderForm
from methodsheets.vocabulary.process import Form

if TYPE_CHECKING:
    from methodsheets.workshop.tools import Tool
    from methodtooling.fixtures import Parts

USUAL_SHANK = 10.0
"""mm: height of a lathe tool's shank where the workshop does not say."""
LONGEST_EDGE = 2.5
"""Longest side edge that is ground on a tool, as a multiple of its shank (from memory)."""
BEHIND = 0.12
"""How far the shank stands behind the side edge, as a share of its width: the shape of the figure's knife tool."""
STEADY_WIDTH = 8.0
"""mm: width of a steady's finger (from memory)."""
OUT = 2.0
"""mm that a tool begins in front of the cut, and stands off the work before it."""
JOBBER = (
    (1.0, 34.0),
    (2.0, 49.0),
    (3.0, 61.0),
    (4.0, 75.0),
    (5.0, 86.0),
    (6.0, 93.0),
    (8.0, 117.0),
    (10.0, 133.0),
    (13.0, 151.0),
)
"""(diameter, length over all) of drills of the usual length, mm: ISO 235, from memory."""
DRILL_CHUCK = 60.0
"""mm: length of a drill chuck in the tailstock, or in the spindle (usual, from memory)."""
TAPER_SHANK = 13.0
"""mm: drills above this have a taper shank and go straight into the tailstock or the spindle (usual)."""


@dataclass(frozen=True)
class Rig:
    """Everything that stands round the work in one turning operation, in (s, r) mm."""

    holder: Parts
    tail: Parts
    tool: Parts
    """In its place at the end of the cut."""
    path: tuple[tuple[float, float], ...] = ()
    """How the tool comes there: what to add to its place, from the first to the last, (0, 0)."""
    drawn_back: float = 0.0
    """mm to draw the tool back along the axis, so that a figure shows what it made; 0 where it stays."""
    follows: Parts = ()
    """What moves with the saddle beside the tool, where it is at the end of the cut."""

    @property
    def shown(self) -> Parts:
        """The tool where a figure shows it."""
        from methodtooling import fixtures

        return fixtures.moved(self.tool, -self.drawn_back) if self.drawn_back else self.tool


def rig_round(setup: OpenSetup, done: CutOperation) -> Rig | None:
    """What stands round the work of a cut; None where no machine cuts, or where the holder stands is not known."""
    if not done.plan.cut.process.cuts or setup.has_failed("grip-length", "grip"):
        return None
    return rig_of(setup, done)


def rig_of(setup: OpenSetup, done: CutOperation) -> Rig | None:
    """Holder, tail and tool of an operation on the lathe; without the tool on a level rotary table or dividing head.

    None elsewhere, and where the work is not gripped.
    """
    if done.station.holding is None or not setup.held.grip:
        return None
    way, level = setup.held.way, setup.held.attitude is Attitude.LEVEL
    if level and (setup.held.carrying is not None or (way is not None and way.row.faces)):
        return Rig(_holder(setup, done), _tail(setup, done), ())  # the cutter turns, and has no polygons here
    if not setup.held.machine.sort.work_turns:
        return None
    made = _tool(done)
    tool, path, back = made if made else ((), (), 0.0)
    return Rig(_holder(setup, done), _tail(setup, done), tool, path, back, _follows(done))


# ------------------------------------------------------------------------------------------------ holder and tail
def _holder(setup: OpenSetup, done: CutOperation) -> Parts:

    holding, holder = done.station.holding, setup.held.holder
    assert holding is not None
    assert setup.held.grip is not None
    # The grip stays where it is in the work while the face moves.
    first, now = holding.frame(setup.before.ends), holding.frame(done.before.ends)
    near, far = (now.s_of(first.z_of(s)) for s in setup.held.grip)
    radius = (holding.diameter or 2 * done.before.swing(now)) / 2
    way = setup.held.way
    turned_round = setup.held.reversed_jaws
    if holder and holder.jaw_steps and way is not None and way.row.jaws_stand_out and not turned_round:
        far = max(far, near + holder.jaw_steps)  # the body begins where the jaws end, not where the work ends
    body = holder.body_diameter / 2 if holder and holder.body_diameter else None
    form = way.row.form if way is not None else HolderForm.NONE
    if way is not None and (way.row.carries or way.row.faces):
        form = HolderForm.JAWS if way.row.carries else HolderForm.COLLET
    make = HOLDERS.get(form)
    if make is None:
        return ()
    return make(
        Gripped(
            radius=radius,
            grip=(near, far),
            throw=holding.throw,
            body=body,
            inside=holding.inside,
            reversed_jaws=turned_round,
            back=done.before.ends.length,
        )
    )


def _tail(setup: OpenSetup, done: CutOperation) -> Parts:
    from methodtooling import fixtures

    up, frame = done.station.held_up, done.frame
    parts: Parts = ()
    if up.centre.there:
        hole = max(0.5, min(2.125, 0.3 * done.before.swing(frame, 0.0, 0.5)))
        row = up.centre.row
        parts = fixtures.rotating_centre(hole) if row.turns else fixtures.dead_centre(hole, half=row.clears_face)
    if up.steady.row.place_of_its_own:
        at = done.station.steady_at
        parts = (*parts, *fixtures.fixed_steady(done.before.swing(frame, max(0.0, at - 1.0), at + 1.0), at))
    return parts


def _follows(done: CutOperation) -> Parts:
    """A travelling steady, beside the tool at the end of the cut: on the diameter just turned, opposite the tool."""
    from methodtooling import fixtures

    plan = done.plan
    if not done.station.held_up.steady.row.travels or plan.inside or not plan.cut.process.row.shaped:
        return ()
    sketch = plan.sketch
    radius = min(sketch.diameter, sketch.end_diameter if sketch.end_diameter is not None else sketch.diameter) / 2
    return fixtures.travelling_steady(max(radius, 0.5), sketch.end - STEADY_WIDTH, STEADY_WIDTH)


# ------------------------------------------------------------------------------------------------ tools
Path: TypeAlias = "tuple[tuple[float, float], ...]"
Made: TypeAlias = "tuple[Parts, Path, float]"


def _tool(done: CutOperation) -> Made | None:
    row, sketch = done.plan.cut.process.row, done.plan.sketch
    if row.in_tailstock and (sketch.radius or sketch.view == "across"):
        return None
    make = MAKERS.get(row.inside_form if done.plan.inside else row.form)
    return make(done) if make else None


def _knife(done: CutOperation) -> Made:
    """A knife tool: along the work from the face, for a taper along its slope, or across the face."""
    from methodtooling import fixtures, tools

    sketch, cut, shank = done.plan.sketch, done.plan.cut, _shank(done.tool)
    swing = max(sketch.from_diameter, cut.start) / 2
    near, far = sketch.diameter / 2, (sketch.end_diameter if sketch.end_diameter is not None else sketch.diameter) / 2
    nose = max(done.tool.nose_radius if done.tool else 0.4, done.plan.corner, 0.1)
    facing = cut.process.row.form is Form.FACING
    if facing:
        near = far = sketch.diameter / 2
    low = min(near, far)
    # A facing tool is set over until its shank clears the face; on a turning tool the edge is ground as long as needed,
    # and as long as it can be where the shank behind it would come up against the jaws.
    beyond = done.before.swing(done.frame, sketch.start, min(sketch.end + shank, done.before.ends.length))
    edge = max(beyond - low + 1.0, 1.2 * shank)
    if not facing:
        beside = done.station.stick_out - sketch.end < BEHIND * shank + 0.5 and not done.plan.left_hand
        edge = LONGEST_EDGE * shank if beside else min(edge, LONGEST_EDGE * shank)
    length = max(swing - low + OUT + 2 * shank, edge + 2 * shank)
    made: Parts = tools.knife(shank, length, min(nose, 0.45 * shank), edge)
    if done.plan.left_hand:
        placed = fixtures.moved(_end_for_end(made), sketch.start, -near)
        if facing:
            return placed, ((0.0, near - swing - OUT), (0.0, 0.0)), 0.0
        return placed, ((sketch.end - sketch.start + OUT, near - far), (0.0, 0.0)), 0.0
    if facing:
        return fixtures.moved(made, sketch.end, -near), ((0.0, near - swing - OUT), (0.0, 0.0)), 0.0
    placed = fixtures.moved(made, sketch.end, -far)
    slope = (far - near) / max(sketch.end - sketch.start, 1e-6)
    begin = (sketch.start - sketch.end - OUT, far - near + OUT * slope)
    return placed, (begin, (0.0, 0.0)), 0.0


@dataclass(frozen=True)
class _Fed:
    """A tool that is fed in across the axis: what all of them need."""

    shank: float
    swing: float
    r: float
    length: float
    off: Path
    """From clear of the work to its place."""

    @classmethod
    def of(cls, done: CutOperation) -> _Fed:
        """For one operation."""
        sketch, shank = done.plan.sketch, _shank(done.tool)
        swing, r = max(sketch.from_diameter, done.plan.cut.start) / 2, sketch.diameter / 2
        length = max(swing - r + OUT + 2 * shank, 30.0)
        return cls(shank, swing, r, length, ((0.0, r - swing - OUT), (0.0, 0.0)))


def _blade(done: CutOperation) -> Made:
    """A parting or grooving blade, its corner nearest the face in place; a wide groove is fed side by side."""
    from methodtooling import fixtures, tools

    fed, sketch, cut = _Fed.of(done), done.plan.sketch, done.plan.cut
    free = done.tool.reach if done.tool and done.tool.reach else fed.swing - fed.r + OUT
    made = tools.blade(cut.width, free, max(fed.length, free + 2 * fed.shank), fed.shank)
    near = fixtures.moved(made, sketch.start, -fed.r)
    aside = sketch.end - sketch.start - cut.width
    wide = ((aside, fed.off[0][1]), (aside, 0.0), (aside, fed.off[0][1]), *fed.off)
    return near, wide if aside > 1e-6 else fed.off, 0.0


def _threading(done: CutOperation) -> Made:
    """A threading tool at the end of its last pass; a left-hand thread is cut away from the chuck."""
    from methodtooling import fixtures, tools

    fed, sketch, cut = _Fed.of(done), done.plan.sketch, done.plan.cut
    made = tools.threading_tool(min(fed.shank, 8.0), fed.length, max(cut.pitch, 1.0))
    if done.plan.left_hand:
        inner = (sketch.end - sketch.start + 0.5 * cut.pitch, 0.0)
        placed = fixtures.moved(made, sketch.start - 0.5 * cut.pitch, -(fed.r - cut.depth_of_thread))
        return placed, (inner, (0.0, 0.0)), 0.0
    start = (sketch.start - sketch.end - OUT, 0.0)
    return fixtures.moved(made, sketch.end, -(fed.r - cut.depth_of_thread)), (start, (0.0, 0.0)), 0.0


def _knurl(done: CutOperation) -> Made:
    from methodtooling import fixtures, tools

    fed, sketch = _Fed.of(done), done.plan.sketch
    wheel = min(done.tool.width if done.tool and done.tool.width else 8.0, sketch.end - sketch.start)
    return fixtures.moved(tools.knurl(20.0, wheel, fed.length), sketch.end - wheel, -fed.swing), fed.off, 0.0


def _shaped(done: CutOperation) -> Made:
    """A chamfering or form tool, its middle on the middle of the edge that it makes."""
    from methodtooling import fixtures, tools

    fed, sketch = _Fed.of(done), done.plan.sketch
    middle = (sketch.start + sketch.end) / 2
    made = tools.chamfer_tool(min(fed.shank, max(4.0, 2.2 * (sketch.end - sketch.start))), fed.length)
    return fixtures.moved(made, middle, -(fed.swing + fed.r) / 2), fed.off, 0.0


def _bar(done: CutOperation) -> Made:
    """A boring bar: along the bore to its end, its edge towards you; it comes in through the hole that is there."""
    from methodtooling import fixtures, tools

    sketch, tool = done.plan.sketch, done.tool
    bore = max(sketch.diameter, 1.0)
    bar = tool.diameter if tool and tool.diameter else min(0.6 * bore, 12.0)
    deep = min(sketch.end, done.before.ends.length)
    length = max(tool.reach if tool and tool.reach else 0.0, deep + 5.0)
    placed = fixtures.moved(tools.boring_bar(bore, length, bar), deep, -bore / 2)
    return placed, ((-deep - OUT, 0.0), (0.0, 0.0)), deep + 5.0


def _axial(done: CutOperation) -> Made:
    """Drills and their like in the tailstock, at their deepest."""
    from methodtooling import fixtures, tools

    sketch, form = done.plan.sketch, done.plan.cut.process.row.form
    d = sketch.size or sketch.diameter
    deep = min(sketch.end, done.before.ends.length)
    parts, reach, shank = FLUTED[form](done, d)
    tip = deep
    if form is Form.DRILL and not sketch.through:
        tip += d / 2 / math.tan(math.radians(done.plan.point / 2))
    if d <= TAPER_SHANK and form is not Form.TAP:
        parts = (*parts, *tools.drill_chuck(shank, reach))
    placed = fixtures.moved(parts, tip)
    return placed, ((-tip - OUT, 0.0), (0.0, 0.0)), tip + 5.0


Fluted: TypeAlias = "tuple[Parts, float, float]"
"""A tool of the tailstock: its parts, how far it stands out, the radius of its shank."""


def _drill(done: CutOperation, d: float) -> Fluted:
    from methodtooling import tools

    fluted, reach = flutes(done.tool, d), stands_out(done.tool, d)
    return tools.twist_drill(d, fluted, reach - fluted, done.plan.point), reach, d / 2


def _centre_drill(_: CutOperation, d: float) -> Fluted:
    from methodtooling import tools

    body = 2.5 * d
    return tools.centre_drill(d, body, 6.0 * d + 8.0), 6.0 * d + 8.0, body / 2


def _reamer(done: CutOperation, d: float) -> Fluted:
    from methodtooling import tools

    fluted = flutes(done.tool, d)
    return tools.reamer(d, fluted, 1.5 * d), fluted + 1.5 * d, 0.4 * d


def _tap(done: CutOperation, d: float) -> Fluted:
    from methodtooling import tools

    return tools.tap(d, 2.5 * d, done.plan.cut.pitch or 0.15 * d, 4.0 * d), 6.5 * d, 0.4 * d


def _piloted(done: CutOperation, d: float) -> Fluted:
    from methodtooling import tools

    pilot = max(1.0, min(done.plan.sketch.from_diameter, 0.9 * d))
    return tools.counterbore(d, pilot, 3.0 * d), 3.0 * d, 0.35 * d


FLUTED: Mapping[Form, Callable[[CutOperation, float], Fluted]] = MappingProxyType(
    {
        Form.DRILL: _drill,
        Form.CENTRE: _centre_drill,
        Form.REAMER: _reamer,
        Form.TAP: _tap,
        Form.PILOTED: _piloted,
    }
)
MAKERS: Mapping[Form, Callable[[CutOperation], Made]] = MappingProxyType(
    {
        Form.KNIFE: _knife,
        Form.FACING: _knife,
        Form.BLADE: _blade,
        Form.SHAPE: _shaped,
        Form.THREADING: _threading,
        Form.KNURL: _knurl,
        Form.BAR: _bar,
        **dict.fromkeys(FLUTED, _axial),
    }
)
"""How each form of tool is put in its place; a process whose form is not here has no polygons of its own."""


def flutes(tool: Tool | None, size: float) -> float:
    """Length of the flutes, mm; a usual one where the workshop does not say."""
    return tool.cutting_length if tool and tool.cutting_length else 8.0 * size


def stands_out(tool: Tool | None, size: float) -> float:
    """Length of a drill, reamer or cutter in front of its chuck, mm: all but the end that the chuck holds."""
    over_all = tool.overall_length if tool and tool.overall_length else _usual_length(size)
    held = min(25.0, 10.0 + 1.2 * size)
    return max(flutes(tool, size) + 2.0, over_all - held)


def _usual_length(size: float) -> float:
    """Length over all of a jobber drill, between the sizes of the table."""
    for (d0, l0), (d1, l1) in pairwise(JOBBER):
        if size <= d1:
            return l0 + (l1 - l0) * max(0.0, size - d0) / (d1 - d0)
    return JOBBER[-1][1] + 5.0 * (size - JOBBER[-1][0])


def _shank(tool: Tool | None) -> float:
    return tool.shank if tool and tool.shank else USUAL_SHANK


def _end_for_end(parts: Parts) -> Parts:
    """A right-hand tool as a left-hand one."""

    def turned(ring: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((-s, r) for s, r in ring)

    return tuple(replace(p, ring=turned(p.ring), detail=tuple(turned(d) for d in p.detail)) for p in parts)
