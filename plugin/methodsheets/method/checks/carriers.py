"""Is there room for work on a rotary table or in a dividing head, its axis upright or level?

Level, the work swings above the machine's table, and the cutter's chuck passes over holder and tailstock. Upright, all
stands on each other below the spindle.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from methodsheets.method.checks.holders import has_centre_hole
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.reach import NOSE_OF_SPINDLE, chuck_radius, mill_stands_out
from methodsheets.method.rig import DRILL_CHUCK, stands_out
from methodsheets.operations.say import dia, dim, number
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.scene import SCENES
from methodsheets.workshop.model import Workshop

if TYPE_CHECKING:
    from methodtooling.fixtures import Parts

COLLET_CHUCK = 50.0
"""mm that a collet chuck for cutters stands out of the spindle (usual, from memory)."""
CHUCK_HIGH = 45.0
"""mm: body of a chuck on the table where the workshop does not say (usual, from memory)."""
NEARLY = 0.9
"""Share of the room under the spindle from which on it is told."""
OVER_THE_TABLE = 2.0
"""mm below turning work from which on its room is told."""
OPEN = 0.011
"""mm from the face within which a cut begins on it."""
LONG, TOO_LONG = 4.0, 8.0
"""Stick-out over diameter of work milled level in a chuck: from where it chatters, and from where it is held up.
The rule for turning (common practice), which milling forces do not soften."""


def check_carrier(workshop: Workshop, setup: OpenSetup) -> None:
    """What the work stands on is there, high enough, and has the tailstock that is asked for."""
    held = setup.held
    if held.carrying is None or held.holding is None or held.attitude is None:
        return
    if held.table is None:
        others = [f"`{one.kind.row.words[0]}`, `axis level` or upright" for one in workshop.rotary_tables.values()]
        remedy = f"it has a {others[0]}: write that, or enter yours into the workshop's file" if others else ""
        setup.judge("holding", False, f"this workshop has no {held.carrying.row.words[0]}", remedy=remedy)
        return
    if held.attitude is Attitude.LEVEL:
        _above_the_table(setup)
        _tailstock(workshop, setup)
        _held_up(setup)


def _above_the_table(setup: OpenSetup) -> None:
    """Work and chuck go round above the machine's table."""
    held = setup.held
    assert held.table is not None
    assert held.holding is not None
    high = held.table.centre_height
    if not high:
        words = f"not known: the workshop does not say how high the centre of the {held.table.kind.row.words[0]} lies"
        setup.judge("table-height", None, words, remedy="add its `centre height` to the workshop's file")
        return
    setup.tell("centre_height", "Centre above the table", high)
    swing = setup.before.swing(held.holding.frame(setup.before.ends))
    chuck = held.holder.body_diameter / 2 if held.holder is not None and held.carrier is not None else 0.0
    chuck_name = held.holder.usual_name if held.holder is not None else "chuck"
    what, radius = ("the work sweeps", swing) if swing >= chuck else (f"the {chuck_name} is", chuck)
    words = f"{what} {dia(round(2 * radius, 2))}; the centre lies {dim(high)} above the table"
    setup.judge("table-height", radius < high, words, tight=high - radius < OVER_THE_TABLE)


def _tailstock(workshop: Workshop, setup: OpenSetup) -> None:
    """The centre of a tailstock on the table stands in a centre hole of the face."""
    held = setup.held
    if not held.held_up.centre.there or held.holding is None:
        return
    if workshop.holding_of(Way.TAILSTOCK_CENTRE, held.machine) is None:
        setup.judge("holding", False, f"this workshop has no tailstock for the {held.machine.name}")
        return
    there = has_centre_hole(setup.before, held.holding, setup.before.ends.of(held.holding.out))
    words = f"end {held.holding.out} has {'its' if there else 'no'} centre hole for the tailstock"
    setup.judge("centre-hole", there, words)


def _held_up(setup: OpenSetup) -> None:
    """Work that stands out far is held up before it is milled."""
    held = setup.held
    if held.held_up.there or not held.grip or held.holding is None or held.stick_out <= 0:
        return
    frame, steps = held.holding.frame(setup.before.ends), 8
    spans = [(held.stick_out * i / steps + 0.01, held.stick_out * (i + 1) / steps - 0.01) for i in range(steps)]
    least = 2 * min(setup.before.swing(frame, *span) for span in spans)
    ratio = held.stick_out / least if least > 0 else 0.0
    if ratio > LONG:
        words = f"{dim(round(held.stick_out, 1))} of {dia(round(least, 2))} stand free, "
        words += f"{number(round(ratio, 1))} diameters, held at one end"
        remedy = "bring up the tailstock: `support tailstock centre`"
        setup.judge("slender", ratio <= TOO_LONG, words, tight=True, remedy=remedy)


# ------------------------------------------------------------------------------------------------ one cut
def check_attitude(setup: OpenSetup, done: WorkedOperation) -> None:
    """Whether the cutter makes that shape on work that stands so, and has room above it and beside it."""
    held = setup.held
    if held.holding is None or held.attitude is None or not done.plan.cut.tool_turns or done.volume <= 0:
        return
    _faces(setup, done)
    if _leaves_that_shape(setup, done):
        _under_the_spindle(setup, done)
        if held.attitude is Attitude.LEVEL and done.rig is not None and not done.has_failed("reach"):
            _over_the_holder(done, done.rig.holder, done.rig.tail)


def _faces(setup: OpenSetup, done: WorkedOperation) -> None:
    """A collet block divides by its faces: every angle of the set-up lies whole faces from the first."""
    way = setup.held.way
    angles = [angle for one in (*setup.operations, done) for angle in one.plan.sketch.angles]
    if way is None or not way.row.faces or not angles:
        return
    one_face = 360.0 / way.row.faces
    wrong = [a for a in done.plan.sketch.angles if abs((a - angles[0] + 0.05) % one_face - 0.05) > 0.05]
    if wrong:
        words = f"a {way.row.words[0]} turns the work by {number(one_face)}°; "
        words += f"{number(round((wrong[0] - angles[0]) % 360.0, 2))}° from the first cut is none of its faces"
        done.judge("index", False, words)


def _leaves_that_shape(setup: OpenSetup, done: WorkedOperation) -> bool:
    sketch, level = done.plan.sketch, setup.held.attitude is Attitude.LEVEL
    wide = SCENES[done.verb].wide and done.plan.cut.process.row.milling_feed
    if level and sketch.in_face:
        words = f"the work lies level in the {setup.held.words}: no cutter comes down on its face"
        done.judge("machine", False, words, remedy="stand it upright: `axis upright`")
        return False
    if not level and wide and sketch.view == "across" and not sketch.in_face:
        words = f"the work stands upright: a {done.plan.tool_words} beside it leaves a bottom as round as itself"
        done.judge("tool-shape", False, words, remedy="lay the work down: `axis level`, or vee blocks")
        return False
    return True


def _under_the_spindle(setup: OpenSetup, done: WorkedOperation) -> None:
    """Rotary table or head, chuck, work and cutter stand on each other between the machine's table and its spindle."""
    held, there = setup.held, setup.held.machine.daylight
    if held.table is None or not there:
        return
    out = _tool_stands_out(done)
    if held.attitude is Attitude.LEVEL:
        swing = done.before.swing(done.frame)
        below = held.table.centre_height + swing
        words = f"centre {dim(held.table.centre_height)} above the table, work {dim(round(swing, 1))}"
    else:
        chuck = (held.holder.body_length or CHUCK_HIGH) if held.holder is not None and held.carrier is not None else 0.0
        down = done.plan.sketch.end if done.plan.beside else 0.0
        below = held.table.height + chuck + max(0.0, done.station.stick_out - down)
        words = f"{held.table.kind.row.words[0]} {dim(held.table.height)}, chuck {dim(chuck)}, "
        words += f"work {dim(round(done.station.stick_out - down, 1))}"
    needed = below + out
    if held.table.height + held.table.centre_height and needed > NEARLY * there:
        words += (
            f" and cutter {dim(round(out, 1))} need {dim(round(needed, 1))}; under the spindle there are {dim(there)}"
        )
        done.judge("table-height", needed <= there, words, tight=True)


def _tool_stands_out(done: WorkedOperation) -> float:
    size = done.plan.tool_size or done.plan.cut.diameter
    if done.plan.cut.process.row.drops:
        return stands_out(done.tool, size) + DRILL_CHUCK
    return mill_stands_out(done.tool, size) + COLLET_CHUCK


def _over_the_holder(done: WorkedOperation, holder: Parts, tail: Parts) -> None:
    """The cutter's chuck passes over what holds the work, and the cutter itself over the tailstock's point."""
    sketch, cut = done.plan.sketch, done.plan.cut
    drops = cut.process.row.drops
    size = (done.plan.tool_size or cut.diameter) if drops else cut.diameter
    bottom = done.before.swing(done.frame) - done.plan.reach_depth
    out = stands_out(done.tool, size) if drops else mill_stands_out(done.tool, size)
    nose = chuck_radius(size) if drops else NOSE_OF_SPINDLE
    name = "drill chuck" if drops else "spindle nose"
    middle = (sketch.start + sketch.end) / 2
    first, last = min(middle, sketch.start + size / 2), max(middle, sketch.end - size / 2)
    for part, high in _beneath((*holder, *tail), first - nose, last + nose):
        if high > bottom + out:
            words = f"the {name} comes down to {dim(round(bottom + out, 1))} above the axis; the {part} beside the cut "
            done.judge(
                "reach", False, f"{words}reaches {dim(round(high, 1))}: the cutter stands out {dim(round(out, 1))}"
            )
            return
    slot = SCENES[done.verb].wide
    over = (size / 2 if slot else 0.0) if sketch.start <= OPEN and not drops else -1.0
    for part, high in _beneath(tail, sketch.start - over, sketch.start) if over > 0 else ():
        if high > bottom:
            words = f"the cutter runs {dim(round(over, 1))} out over the face and into the {part}, "
            words += f"which is {dia(round(2 * high, 1))} there; the cut is {dim(round(bottom, 2))} from the axis"
            remedy = "begin the cut behind the face, or take a half centre"
            done.judge("centre", False, words, remedy=remedy)
            return


def _beneath(parts: Parts, start: float, end: float) -> list[tuple[str, float]]:
    """(name, how far it stands from the axis) of each part between two lengths, mm."""
    from methodtooling.fixtures import Part

    band = Part("beneath", ((start, 0.0), (end, 0.0), (end, 9e4), (start, 9e4))).polygon
    met = ((part.name, part.polygon.intersection(band)) for part in parts)
    return [(name, float(shape.bounds[3])) for name, shape in met if not shape.is_empty]
