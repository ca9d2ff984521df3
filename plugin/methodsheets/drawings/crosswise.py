"""What is drawn of a cut across round work that lies in a vee block or a vice?"""

from __future__ import annotations

from methodfigures.setups.cross.spec import CrossSetup
from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import removed_words
from methodsheets.method.done import CheckedOperation
from methodsheets.method.not_drawn import holder_look, stage_of
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.say import degrees
from methodsheets.vocabulary.scene import SCENES, Stage, look

SAW = 63.0
"""Diameter in mm that a slitting saw is drawn with where the workshop does not say: a usual one."""


def can_draw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether round work lies on its side and is cut from above."""
    lies = stage_of(setup.held) is Stage.LYING and bool(holder_look(setup.held, Stage.LYING))
    way, cuts = setup.held.way, done.volume > 0 or SCENES[done.verb].marks
    by_parts = setup.held.carrying is not None or (way is not None and way.row.faces > 0)
    lies = lies and (not by_parts or done.rig is not None)
    return done.station.holding is not None and bool(look(done.verb, Stage.LYING)) and cuts and lies


def cross_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> CrossSetup:
    """The figure of one cut across the work; of several at different angles, the first."""
    holding, sketch = done.station.holding, done.plan.sketch
    assert holding is not None
    frame, first = holding.frame(done.before.ends), holding.frame(setup.before.ends)
    grip = tuple(frame.s_of(first.z_of(s)) for s in setup.held.grip) if setup.held.grip else ()
    hole = SCENES[done.verb].across_hole
    swing = done.before.swing(frame, max(0.0, sketch.start), min(sketch.end, done.before.ends.length))
    return CrossSetup(
        projection=done.station.workshop.projection,
        before=drawn.state(done.before),
        after=(*drawn.state(done.after), *drawn.solids(done.stub)),
        removed=drawn.gone(done.removed),
        end_z=(done.before.ends.a, done.before.ends.b),
        verb=look(done.verb, Stage.LYING),
        grip_diameter=holding.diameter or 2 * swing,
        holding=holder_look(setup.held, Stage.LYING),
        holder_parts=done.rig.holder if done.rig else (),
        tail_parts=done.rig.tail if done.rig else (),
        block_faces=setup.held.way.row.faces if setup.held.way else 0,
        centre_height=setup.held.table.centre_height if setup.held.table else 0.0,
        dimension_texts=_texts(setup, done),
        out=holding.out,
        axis=holding.axis,
        grip=grip,
        angle=sketch.angles[0] if sketch.angles else 0.0,
        at=(sketch.start + sketch.end) / 2 if hole else 0.0,
        off=float(done.said.get("off axis", 0.0)) if hole and done.said else 0.0,
        diameter=sketch.size if hole else 0.0,
        depth=_depth(done) if not sketch.through else 0.0,
        through=sketch.through,
        start=0.0 if hole else sketch.start,
        end=0.0 if hole else sketch.end,
        width=sketch.size if SCENES[done.verb].wide else 0.0,
        cutter_diameter=_cutter_size(done),
        disc=_on_arbor(done),
        floor=sketch.radius if _on_arbor(done) else 0.0,
        pitch=done.plan.cut.pitch if hole else 0.0,
        tool_name=done.tool_name,
        removed_text=removed_words(done),
        title=f"Operation {done.number}: {done.title}",
    )


def _texts(setup: CheckedSetup, done: CheckedOperation) -> dict[str, str]:
    """What the figure calls the head and what stands in it, where the work is not in vees or a vice."""
    texts = _of_the_holder(setup, done)
    return {**texts, "hole": done.plan.sketch.diameter_words} if SCENES[done.verb].designation else texts


def _of_the_holder(setup: CheckedSetup, done: CheckedOperation) -> dict[str, str]:
    held = setup.held
    if held.way is not None and held.way.row.faces:
        count = len(done.plan.sketch.angles)
        reading = f"face 1, 1 of {count}" if count > 1 else "face 1"
        return {"reading": reading, "holder": held.way.row.words[0]}
    if held.carrying is None:
        return {}
    chuck = held.holder.usual_name if held.holder is not None and held.carrier is not None else "chuck"
    sketch = done.plan.sketch
    at = degrees(sketch.angles[0] % 360) if sketch.angles else degrees(0.0)
    first = f", 1 of {len(sketch.angles)}" if len(sketch.angles) > 1 else ""
    texts = {"reading": f"{held.carrying.row.words[0].rsplit(maxsplit=1)[-1]} reads {at}{first}"}
    return {**texts, "head": held.carrying.row.words[0], "holder": chuck, "tailstock": "tailstock"}


def _on_arbor(done: CheckedOperation) -> bool:
    """Whether the cutter is a disc on an upright arbor, beside the work: a form cutter, a slitting saw."""
    return SCENES[done.verb].disc


def _cutter_size(done: CheckedOperation) -> float:
    if SCENES[done.verb].disc and done.tool is not None and done.tool.diameter:
        return done.tool.diameter
    return done.plan.cut.diameter if done.plan.cut.process.row.milling_feed else SAW if _on_arbor(done) else 0.0


def _depth(done: CheckedOperation) -> float:
    """How deep the cut is as it was said: of a hole to the full diameter, without the drill's point."""
    made = next((made.size for made in done.plan.makes if made.what == "depth"), None)
    return done.plan.reach_depth if made is None else made
