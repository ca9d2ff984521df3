"""Does the cut suit the way the work stands: turning or at rest, lying or upright, with the centre in its way?"""

from __future__ import annotations

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.say import dia, dim, number
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import Grips, Way
from methodsheets.workpiece import round_surfaces
from methodsheets.workshop.model import Workshop

OF_STEADY = {False: Way.STEADY, True: Way.TRAVELLING_STEADY}
"""The way of holding in the workshop's file that is a fixed or a travelling steady."""
BEARS = 4.0
"""mm to either side of a steady's place over which its fingers bear (usual, from memory)."""
TRUE_ROUND = 0.8
"""Share of the round that must be there under the fingers."""
LONG, TOO_LONG = 4.0, 8.0
"""Stick-out over diameter of work held at one end: from where it bends, and from where it is not turned at all."""
LONG_SUPPORTED, TOO_LONG_SUPPORTED = 12.0, 20.0
"""The same with a centre: from where a steady is due, and from where it is needed (common practice: 10 to 15, 20)."""


def check_standing(workshop: Workshop, setup: OpenSetup, done: WorkedOperation) -> None:
    """Whether this cut can be done on work that stands so."""
    if not done.plan.cut.process.cuts:
        return
    if _driven(setup, done):
        _lies_or_stands(setup, done)
    if setup.held.holding:
        _centre_in_the_way(setup, done)
        _steady(workshop, setup, done)
        _slender(setup, done)


def _driven(setup: OpenSetup, done: WorkedOperation) -> bool:
    """In the lathe the work turns and on the mill the tool: what needs the other cannot be done there."""
    row, machine = done.plan.cut.process.row, setup.held.machine
    if row.needs_spindle and not row.hand_turned and not machine.kind.has_spindle:
        words = f"nothing turns on the {machine.name}, neither work nor tool: no machine cuts there"
        done.judge("machine", False, words, remedy="do it in the lathe or on the mill, in a set-up of its own")
        return False
    beside = done.plan.sketch.view == "across" or bool(done.plan.sketch.radius)
    if machine.sort.work_turns and row.turning_tool and (beside or not row.own_axis):
        words = f"nothing drives the {done.plan.tool_words} in the {machine.name}: do this on the mill"
        done.judge("machine", False, words)
        return False
    if machine.sort.tool_turns and row.work_turns:
        words = f"the work does not turn on the {machine.name}: {done.verb} it in the lathe"
        done.judge("machine", False, words, remedy="hold it in the lathe in a set-up of its own")
        return False
    return True


def _lies_or_stands(setup: OpenSetup, done: WorkedOperation) -> None:
    """The spindle comes down from above: along the axis of work that stands, across that of work that lies."""
    held = setup.held
    if not held.machine.sort.tool_turns or held.holding is None or not done.plan.cut.tool_turns:
        return
    lies = lies_down(setup)
    if lies is None:
        return
    across = done.plan.sketch.view == "across"
    drilled = done.plan.cut.process.row.on_centre_line
    if lies and not across and drilled:
        words = f"the work lies in the {held.words}: the spindle comes down across its axis, not along it"
        done.judge("machine", False, words, remedy="stand it upright in a chuck on the table: `end A up`")
    if not lies and across and drilled:
        words = f"the work stands upright in the {held.words}: the spindle comes down along its axis, not across it"
        done.judge("machine", False, words, remedy="lay it in vee blocks, or tip the rotary table: `axis level`")


def lies_down(setup: OpenSetup) -> bool | None:
    """Whether turned work lies with its axis along the table; None where neither is sure."""
    held = setup.held
    if held.attitude is not None:
        return held.attitude is Attitude.LEVEL
    said = str(held.said.get("end", "")).lower().split()
    stands_on_it = held.holder is not None and held.holder.sort.flat_on_table
    return False if stands_on_it or "up" in said else None


def _centre_in_the_way(setup: OpenSetup, done: WorkedOperation) -> None:
    """A tailstock centre stands where tools go down the axis, and pinches work that is parted off."""
    centre, row, sketch = done.station.held_up.centre, done.plan.cut.process.row, done.plan.sketch
    if not centre.there:
        return
    if row.on_centre_line and sketch.view != "across" and sketch.radius == 0:
        words = f"the {centre} stands where the tool must go: take the support away first"
        done.judge("centre", False, words)
    if row.over_face and sketch.diameter == 0.0 and done.plan.cut.end <= 1e-6:
        done.judge("centre", False, f"the {centre} stands in the way of facing to the middle")
    if row.comes_off:
        words = f"the work is parted off with the {centre} still in it: it is pinched and climbs on the tool"
        done.judge("centre", False, words)


def _steady(workshop: Workshop, setup: OpenSetup, done: WorkedOperation) -> None:
    """A fixed steady bears on a true round within its range; it is told once in a set-up."""
    steady, holding = done.station.held_up.steady, done.station.holding
    if not steady.there or holding is None or setup.has_judged("steady"):
        return
    there = [one for one in workshop.holdings.values() if one.kind is OF_STEADY[steady.row.travels]]
    if not there:
        setup.judge("steady", False, f"this workshop has no {steady}")
        return
    if steady.row.travels:
        return
    at = done.station.steady_at
    size = 2 * done.before.swing(done.frame, max(0.0, at - 1.0), at + 1.0)
    rounds = round_surfaces(done.before, holding, max(0.0, at - BEARS), at + BEARS)
    true = any(abs(d - size) < 0.01 and share > TRUE_ROUND for d, share in rounds)
    span = there[0].outside
    words = f"the {steady} bears on {dia(round(size, 2))}, {dim(round(at, 1))} from the face"
    if span is not None and not span.holds(size):
        setup.judge("steady", False, f"{words}; it takes {span}")
    else:
        setup.judge("steady", true, words if true else f"{words}, where the work is not round all along its fingers")


def _slender(setup: OpenSetup, done: WorkedOperation) -> None:
    """Work that sticks out far is supported before it is turned."""
    holding, row = done.station.holding, done.plan.cut.process.row
    if holding is None or holding.inside or not setup.held.machine.sort.work_turns or done.plan.inside:
        return
    if not row.from_outside or row.turning_tool or not setup.held.grip:
        return
    supported = done.station.held_up.centre.there
    if done.station.held_up.steady.there:
        return
    between = setup.held.holder is not None and setup.held.holder.sort.grips is Grips.CENTRES
    free = done.before.ends.length if between else done.station.stick_out
    least = _thinnest(done, free)
    if least <= 0:
        return
    ratio = free / least
    long, too_long = (LONG_SUPPORTED, TOO_LONG_SUPPORTED) if supported else (LONG, TOO_LONG)
    words = f"{dim(round(free, 1))} of {dia(round(least, 2))} stand free, {number(round(ratio, 1))} diameters"
    words += ", between two supports" if supported else ", held at one end"
    if ratio > too_long:
        remedy = "set a steady" if supported else "bring up the tailstock centre"
        done.judge("slender", False, words, remedy=remedy)
    elif ratio > long:
        done.judge("slender", True, words, tight=True)


def _thinnest(done: WorkedOperation, free: float) -> float:
    """Least diameter of the work as it stands before the cut, over its free length in eight steps."""
    frame, steps = done.frame, 8
    if free <= 0.2:
        return 0.0
    return min(
        2 * done.before.swing(frame, free * i / steps + 0.01, free * (i + 1) / steps - 0.01) for i in range(steps)
    )
