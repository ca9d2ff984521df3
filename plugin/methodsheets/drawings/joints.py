"""What is drawn of pieces that are put together, and of work that is sawn?"""

from __future__ import annotations

from collections.abc import Iterable

from methodfigures.setups.joining import Joint, SawCut
from methodfigures.setups.sawing import SawGap
from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import removed_words
from methodsheets.method.done import CheckedOperation
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.plan import Join
from methodsheets.operations.say import degrees, number
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.scene import SCENES

WAY_OF = {Process.MILL: "cutter", Process.NONE: "file"}
"""What cuts a gap out, where it is no saw."""
Vector = tuple[float, float, float]


def can_draw(done: CheckedOperation) -> bool:
    """Whether the operation puts two pieces together, or something to the work that guides the tool."""
    return done.plan.join is not None or done.plan.guide is not None


def joint_spec(drawn: Drawn, done: CheckedOperation) -> Joint:
    """The two pieces before and after."""
    join, sketch = done.plan.join or done.plan.guide, done.plan.sketch
    assert join is not None
    stands = done.after if done.plan.guide is not None else done.before
    fixed = (*drawn.state(stands), *drawn.solids(done.plan.props))
    into, right, at, row = join.way.into, join.way.right, join.way.at, join.how.row
    low, high = join.solid.bounds
    names = " and ".join(stands.bodies)
    apart = drawn.apart(*stands, *(part.solid for part in join.parts))[-len(join.parts) :]
    # Where no hole is there the piece would lie in solid metal: it is drawn whole, where it was meant to go.
    moving = [part.solid if free.volume < part.solid.volume / 2 else free
              for part, free in zip(join.parts, apart, strict=True)]  # fmt: skip
    along = sketch.start > 0 and sketch.view != "across"
    return Joint(
        fixed,
        tuple(drawn.solid(part) for part in moving[: join.shown or None]),
        row.looks,
        into,
        right,
        at,
        apart=drawn.solids(join.apart),
        travel=0.6 * float((high - low).max()),
        uncut=_uncut(done),
        seams=_seams(done, right, at) if row.filled else (),
        force_text=row.force,
        fixed_name=names if len(names) <= 24 else "the work",
        moving_name=_moving_name(join),
        depth=(0.0, sketch.start) if along else (0.0, 0.0),
        depth_text=number(sketch.start) if along else "",
        title=f"Operation {done.number}: {done.title}",
    )


def _moving_name(join: Join) -> str:
    """What stands at the piece that goes in."""
    if join.count == 1:
        return join.name
    return f"first {join.name} of {join.count}" if join.shown else f"{join.name} ({join.count})"


def _uncut(done: CheckedOperation) -> str:
    """Which piece is not cut lengthwise: a shaft, pin or screw; none where two pieces are only laid together."""
    if done.plan.join is not None and done.plan.join.how.row.filled:
        return ""
    return "fixed" if done.verb.endswith(" on") else "moving"


def _seams(done: CheckedOperation, right: Vector, at: Vector) -> tuple[Vector, ...]:
    """Where filler shows: right and left of the piece that comes on, at the face that is up."""
    assert done.plan.join is not None
    low, high = done.plan.join.solid.bounds
    half = sum(abs(r) * float(b - a) for r, a, b in zip(right, low, high, strict=True)) / 2
    return tuple(_three(x + side * half * r for x, r in zip(at, right, strict=True)) for side in (-1, 1))


def _three(values: Iterable[float]) -> Vector:
    x, y, z = (float(v) + 0.0 for v in values)
    return (x, y, z)


def can_draw_saw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether a bar is sawn across."""
    return SCENES[done.verb].sawn and done.volume > 0 and done.station.holding is not None and bool(setup.held.grip)


def saw_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> SawCut:
    """The bar in the vice, the kerf, and the piece that is kept."""
    holding, sketch = done.station.holding, done.plan.sketch
    assert holding is not None
    frame = holding.frame(done.before.ends)
    face = frame.face
    return SawCut(
        before=drawn.state(done.before),
        after=(*drawn.state(done.after), *drawn.solids(done.stub)),
        removed=drawn.gone(done.removed),
        at=sketch.start,
        start=face if holding.out == "A" else -face,
        kerf=sketch.size,
        grip=setup.held.grip or (0.0, 0.0),
        along=(0.0, 0.0, frame.inward),
        length_text=number(sketch.start),
        kept_name="kept",
        saw_name=done.tool_name or "saw blade",
        removed_text=removed_words(done),
        title=f"Operation {done.number}: {done.title}",
    )


def gap_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> SawGap:
    """A core that is cut out of the middle: the tool in the gap, what stays, and how the work is held."""
    holding, gap, cut = done.station.holding, done.plan.gap, done.plan.cut
    assert holding is not None
    assert gap is not None
    frame, first = holding.frame(done.before.ends), holding.frame(setup.before.ends)
    grip = tuple(frame.s_of(first.z_of(s)) for s in setup.held.grip or (0.0, 0.0))
    return SawGap(
        before=drawn.state(done.before),
        after=drawn.state(done.after),
        removed=drawn.gone(done.removed),
        gap=(gap.start, gap.end),
        along=(0.0, 0.0, frame.inward),
        up=frame.normal(gap.angle),
        axis=_three(frame.to_work(0.0)),
        start=frame.face * frame.inward,
        floor=gap.floor,
        grip=(grip[0], grip[1]),
        way=WAY_OF.get(cut.process, "saw"),
        size=cut.diameter if cut.tool_turns else gap.kerf,
        kept_name=" and ".join(gap.kept),
        tool_name=done.tool_name or done.plan.tool_words,
        holder_name=setup.held.words,
        removed_text=removed_words(done),
        side_text=f"{degrees(gap.angle)} is up, seen from end {holding.out}",
        title=f"Operation {done.number}: {done.title}",
    )
