"""What is drawn of a turning operation: its set-up with holder, tool, metal that goes, and the sizes that are made?"""

from __future__ import annotations

from methodfigures.setups.turning.spec import TurningSetup
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.say import number
from methodsheets.vocabulary.holding import Grips
from methodsheets.vocabulary.scene import SCENES, Stage, look

LEAST_GRIP = 0.05
"""mm: a shorter grip is none."""
NOSE = 0.4
"""mm: nose radius drawn on every tool. Its true size does not show at this scale, and one picture then serves all
workshops."""


def can_draw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether it is a turning operation with a holder that the drawing knows."""
    held = setup.held
    drawn = held.way is not None and bool(held.way.row.in_lathe) and bool(held.grip)
    on_lathe = held.machine.sort.work_turns and done.station.holding is not None and drawn
    on_axis = done.plan.sketch.radius == 0 and done.plan.sketch.view != "across"
    return on_lathe and on_axis and bool(look(done.verb, Stage.LATHE)) and (done.volume > 0 or SCENES[done.verb].marks)


def turning_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation, *, pictorials: bool) -> TurningSetup | None:
    """The figure of one turning operation; every number comes from the operation, none from the mesh.

    None where the holder would not meet the work at all.
    """
    holding, sketch, plan = done.station.holding, done.plan.sketch, done.plan
    assert holding is not None
    frame = holding.frame(done.before.ends)
    first = holding.frame(setup.before.ends)
    grip = setup.held.grip or (0.0, 0.0)
    # What reaches beyond the work is told by a check; the holder is drawn where there is work.
    start, end = (min(max(frame.s_of(first.z_of(s)), 0.0), done.before.ends.length) for s in grip)
    if end - start < LEAST_GRIP:
        return None
    tool = done.tool
    after = (*drawn.state(done.after), *drawn.solids(done.stub))
    way = setup.held.way
    assert way is not None
    return TurningSetup(
        holder_parts=done.rig.holder if done.rig else None,
        tail_parts=(*done.rig.tail, *done.rig.follows) or None if done.rig else None,
        tool_parts=done.rig.shown or None if done.rig else None,
        before=drawn.state(done.before),
        after=after,
        removed=drawn.gone(done.removed),
        verb=look(done.verb, Stage.LATHE),
        holding=way.row.in_lathe,
        grip=(start, end),
        grip_diameter=holding.diameter or 2 * done.before.swing(frame),
        end_z=(done.before.ends.a, done.before.ends.b),
        out=holding.out,
        body_names=tuple(done.after.bodies),
        axis=holding.axis,
        grip_axis=holding.gripped_axis,
        support=_support(done),
        cut_start=sketch.start,
        cut_end=min(sketch.end, done.before.ends.length),
        cut_diameter=sketch.diameter,
        end_diameter=sketch.end_diameter,
        from_diameter=sketch.from_diameter,
        through=sketch.through,
        inside=plan.inside,
        feed="out" if plan.left_hand else "",
        pitch=plan.cut.pitch,
        tool_kind=plan.cut.process.row.drawn_as,
        tool_name=done.tool_name,
        tool_width=plan.cut.width if plan.cut.process.row.blade else (tool.width if tool else 0.0),
        tool_diameter=sketch.size if plan.cut.process.row.in_tailstock else (tool.diameter if tool else 0.0),
        tool_nose=NOSE,
        dimension_texts=_texts(setup, done),
        removed_text=removed_words(done),
        holder_name=_holder_name(setup, done),
        title=f"Operation {done.number}: {done.title}",
        pictorials=pictorials,
    )


def _holder_name(setup: CheckedSetup, done: CheckedOperation) -> str:
    """What holds the work; between centres what drives it, as its polygons are called."""
    way = setup.held.way
    if way is not None and way.row.grips is Grips.CENTRES and done.rig is not None and done.rig.holder:
        return done.rig.holder[0].name
    return setup.held.words


def _support(done: CheckedOperation) -> str | None:
    """What the figure calls the support: a steady before a centre, which shows by its parts."""
    up = done.station.held_up
    if up.steady.there:
        return "travelling steady" if up.steady.row.travels else "steady"
    return "centre" if up.centre.there else None


def _texts(setup: CheckedSetup, done: CheckedOperation) -> dict[str, str]:
    texts = {}
    held = setup.held
    if held.sides and held.grip:
        texts["grip"] = f"grip {number(held.grip[1] - held.grip[0])} on {number(held.across)} across flats"
    if SCENES[done.verb].designation:
        texts["diameter"] = done.plan.sketch.diameter_words
    return texts


def mouth_words(done: CheckedOperation, count: int = 1) -> str:
    """What holes are called of which only the mouth was said, as those of a centre drill; '' for others."""
    made, sketch = {one.what for one in done.plan.makes}, done.plan.sketch
    sunk = "depth" in made or sketch.through or done.plan.cut.process.row.milling_feed
    if sunk or "diameter" not in made or SCENES[done.verb].designation:
        return ""
    return f"{count} × {sketch.diameter_words}" if count > 1 else sketch.diameter_words


def removed_words(done: CheckedOperation) -> str:
    """How much metal the operation cuts away, in words for the drawing."""
    volume = done.volume
    if volume <= 0:
        return ""
    return (
        f"cut away {volume / 1000:.1f} cm³"
        if volume >= 95
        else f"cut away {volume:.0f} mm³"
        if volume >= 1
        else "cut away"
    )
