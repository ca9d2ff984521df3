"""Does this cut work: does it take metal, does everything hold together, does the tool get there?

The checks compare geometry with geometry. They say that it agrees or does not; they never say that a job is safe.
"""

from __future__ import annotations

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.reach import check_way
from methodsheets.method.reaching import getting_in, reaching
from methodsheets.operations.say import both, dia, dim, number, recalled_in, resting
from methodsheets.vocabulary.holding import Grips
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.tools import Tool

LEAST = 1e-3
"""mm³: a cut that takes less takes nothing."""
CLEAR = 0.5
"""mm that a tool keeps from the jaws."""


def check_cut(done: WorkedOperation) -> None:
    """Whether the cut removes metal and the work holds together."""
    if done.cut is None:
        if done.plan.must_cut:
            done.judge("removes-metal", False, "the operation cuts nothing")
        return
    volume = done.cut.volume
    words = f"removes {_volume(volume)}" if volume > LEAST else "the tool meets no metal: nothing is cut"
    done.judge("removes-metal", volume > LEAST, words)
    for name in done.cut.fell_apart:
        count = len(done.cut.pieces[name])
        done.judge("piece", False, f"{name} falls into {count} pieces, and nothing says which is kept")
    # A core may be a piece of its own, which was only there to be cut away.
    for name in () if done.plan.gap else done.cut.vanished:
        done.judge("piece", False, f"{name} is cut away altogether")
    if done.plan.splits and done.plan.keeps != "both":
        parted = any(len(pieces) > 1 for pieces in done.cut.pieces.values())
        words = "the piece comes off and is kept" if parted else "the cut does not go right through: nothing comes off"
        done.judge("piece", parted, words)


def _volume(mm3: float) -> str:
    return both(mm3, "volume")


def check_reach(workshop: Workshop, setup: OpenSetup, done: WorkedOperation) -> None:
    """Whether tool, blade, flutes and holder get there without touching jaws, centre, shoulder or table."""
    if not done.plan.cut.process.cuts:
        return
    if done.tool is None:
        done.judge("tool", False, f"this workshop has no {done.plan.tool_words or done.verb}")
    else:
        _size(workshop, setup, done, done.tool)
        _length(workshop, done, done.tool)
    if setup.held.holding:
        _jaws(setup, done)
    check_way(setup, done)


SAME = 0.011
"""mm within which a tool has the size."""
DRILLED = 0.1
"""mm: a twist drill cuts that much over its own size, so the next one may stand in for it (common practice)."""


def _size(workshop: Workshop, setup: OpenSetup, done: WorkedOperation, tool: Tool) -> None:
    cut, wanted, there = done.plan.cut, done.plan.tool_size, done.plan.sketch.from_diameter
    off, row = abs(tool.diameter - wanted), cut.process.row
    if row.sized and wanted and tool.diameter and off > SAME:
        kind, machine = tool.usual_name, setup.held.machine
        words = f"no {kind} {dia(wanted)} here; the nearest is {dia(tool.diameter)}"
        near = off <= row.near * wanted and (off <= DRILLED or row.over_size)
        same = [one for one in workshop.tools_of(tool.kind) if one.has(wanted, SAME)]
        if same and not any(one.goes_on(machine.kind) for one in same):
            refused = f"the {kind} {dia(wanted)} does not go on the {machine.name}"
            words = f"{refused}; the nearest that does is {dia(tool.diameter)}"
        elif near:
            side = "over" if tool.diameter > wanted else "under"
            words = f"take the {tool.name} for {resting(dia(wanted), recalled_in(done.plan.words))}: {dim(off)} {side}"
        done.judge("tool-size", near, words, tight=True)
    if row.hand_turned and tool.hand is not done.plan.hand:
        words = f"a {done.plan.hand}-hand thread needs a {done.plan.hand}-hand {tool.usual_name}"
        done.judge("tool", False, f"{words}; the {tool.name} is {tool.hand}-hand")
    if (row.in_hole or done.plan.inside) and tool.min_bore and there < tool.min_bore - 1e-6:
        words = f"the {tool.usual_name} needs a hole of {dia(tool.min_bore)}; there is {dia(there)}"
        done.judge("reach", False, words, remedy=getting_in(workshop, done, tool))
    if row.blade and tool.width and cut.width and tool.width > cut.width + 1e-6:
        wide = number(tool.width)
        remedy = f"name a blade of {number(cut.width)} mm or less, or cut it as wide as the blade: `wide {wide} mm`"
        done.judge("reach", False, f"the blade is {dim(tool.width)} wide, the cut {dim(cut.width)}", remedy=remedy)


def _length(workshop: Workshop, done: WorkedOperation, tool: Tool) -> None:
    row, deep = done.plan.cut.process.row, done.plan.reach_depth
    reaches = (done.plan.inside and row.reach_inside) or row.reach_of
    if not reaches or deep <= 0:
        return

    def length_of(one: Tool) -> float:
        # The shank of some is thinner than the flutes and may follow them.
        return one.overall_length or 2.0 * one.cutting_length if row.thin_shank else one.cutting_length

    length = length_of(tool)
    if not length:
        words = f"the workshop does not say how far the {tool.usual_name} reaches; the cut is {dim(deep)} deep"
        done.judge("reach", None, words)
        return
    words = f"{reaches} {dim(length)} long, cut {dim(deep)} deep"
    reached = length >= deep - 1e-6
    remedy = "" if reached else reaching(workshop, done, tool, length_of)
    done.judge("reach", reached, words, tight=deep > 0.9 * length, remedy=remedy)


def _jaws(setup: OpenSetup, done: WorkedOperation) -> None:
    """A cut from outside must end in front of the jaws."""
    row, sketch = done.plan.cut.process.row, done.plan.sketch
    across = sketch.view == "across"
    if not setup.held.grip or done.station.holding is None or done.station.holding.inside:
        return
    if not (row.from_outside or (across and row.across_from_outside)):
        return
    stick = done.station.stick_out
    if across:
        beside_jaws(setup, done, stick)
        return
    room = stick - sketch.end
    driven = _in_a_carrier(setup)
    holder = "carrier" if driven else setup.held.words
    words = f"{dim(room)} between cut and {holder}"
    if room < -1e-6:
        assumed = f" (grip assumed: {setup.held.assumed['grip']})" if "grip" in setup.held.assumed else ""
        held = f"the work is held by the {holder}{assumed}"
        words = f"the cut ends {dim(sketch.end)} from the face; from {dim(stick)} on, {held}"
    done.judge("carrier" if driven else "jaws", room >= -1e-6, words, tight=0 <= room < CLEAR)


def _in_a_carrier(setup: OpenSetup) -> bool:
    """Whether the work is driven by a carrier, between centres."""
    return setup.held.holder is not None and setup.held.holder.sort.grips is Grips.CENTRES


def beside_jaws(setup: OpenSetup, done: WorkedOperation, stick: float) -> None:
    """A cut across the work must lie in front of the holder or behind it."""
    assert setup.held.grip is not None
    sketch, far = done.plan.sketch, stick + setup.held.grip[1] - setup.held.grip[0]
    room = max(stick - sketch.end, sketch.start - far)
    words = f"{dim(room)} between cut and {setup.held.words}"
    if room < -1e-6:
        grip = f"{dim(stick)} to {dim(far)} from the face"
        words = f"the cut from {dim(sketch.start)} to {dim(sketch.end)} lies in the grip, {grip}"
    done.judge("jaws", room >= -1e-6, words, tight=0 <= room < CLEAR)
