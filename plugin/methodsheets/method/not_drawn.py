"""On which stage does the work stand: which slide sets a depth there, and why has an operation no picture of it?

The reader is told the reason where the picture would be.
"""

from __future__ import annotations

from methodsheets.method.done import CutOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.plan import Plan
from methodsheets.operations.setups import Held
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.process import Passes
from methodsheets.vocabulary.scene import SCENES, Stage, why_not


def stage_of(held: Held) -> Stage:
    """Where the work of a set-up is drawn."""
    if held.pose is not None:
        return Stage.PLATE if held.machine.sort.work_turns else Stage.BLOCK
    if held.machine.sort.work_turns:
        return Stage.LATHE
    if held.attitude is not None:
        return Stage.LYING if held.attitude is Attitude.LEVEL else Stage.TABLE
    return Stage.LYING if held.way is not None and held.way.row.across else Stage.TABLE


def depth_slide(held: Held, verb: str, plan: Plan) -> str:
    """The slide that sets the depth of a cut, by how work and cutter stand.

    A verb says how deep; whether the cutter comes down on the work or stands beside it is the set-up's business. A disc
    on an upright arbor stands beside work that lies level, towards you, and the cross slide sets it (y). An end mill
    stands beside upright work, to the right of it, and the table sets it (x). Everything else comes down (z).
    """
    cut = plan.cut
    if cut.process.row.passes is not Passes.MILLED:
        return cut.slide
    stage = stage_of(held)
    if stage is Stage.LYING and SCENES[verb].disc:
        return "y"
    if stage is Stage.TABLE and Stage.TABLE in SCENES[verb].looks and not plan.sketch.in_face:
        return "x"
    return "z"


def holder_look(held: Held, stage: Stage) -> str:
    """What the drawing library calls a way of holding on a stage; empty where it has no picture of it there."""
    way = held.carrying if stage is Stage.LYING and held.carrying is not None else held.way
    if way is None:
        return ""
    row = way.row
    looks = {Stage.LATHE: row.in_lathe, Stage.TABLE: row.on_table, Stage.LYING: row.across, Stage.BLOCK: row.on_block}
    looks[Stage.PLATE] = row.turns_block
    return looks[stage]


def not_drawn(setup: OpenSetup, done: CutOperation) -> str:
    """The reason in a sentence; empty where there is a picture, and where nothing happens to the metal."""
    held, stage = setup.held, stage_of(setup.held)
    if done.plan.join is not None or done.plan.guide is not None or not (done.volume > 0 or done.plan.marks):
        return ""
    if SCENES[done.verb].sawn and held.grip and held.holding is not None:
        return ""
    reason = why_not(done.verb, stage)
    if not reason and not holder_look(held, stage):
        reason = f"work held so is not drawn {stage} (held: {held.words})"
    if not reason and not held.grip and stage in (Stage.LATHE, Stage.TABLE, Stage.LYING):
        reason = "nothing says where the work is gripped"
    reason = reason or _not_shown_there(setup, done, stage)
    return f"No drawing of this operation: {reason}." if reason else ""


def _not_shown_there(setup: OpenSetup, done: CutOperation, stage: Stage) -> str:
    """Why this one cut is not shown on a stage on which its verb usually is."""
    sketch = done.plan.sketch
    if stage is Stage.LATHE and (sketch.radius or sketch.view == "across"):
        return "it lies off the axis about which the work turns"
    if stage is Stage.PLATE and setup.turns_about is None:
        return "nothing says about which place the block turns"
    if stage is Stage.BLOCK and sketch.box is None and not sketch.points:
        return "it has no outline on the face that is up"
    return ""
