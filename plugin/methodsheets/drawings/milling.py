"""What is drawn of an operation on a block: how it stands in the vice, the cutter, the metal that goes?"""

from __future__ import annotations

from collections.abc import Iterable

from methodfigures.setups.vice.spec import ViceSetup
from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import mouth_words, removed_words
from methodsheets.method.checks.clamping import clamp_places, cut_boxes
from methodsheets.method.done import CheckedOperation
from methodsheets.method.not_drawn import stage_of
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.vocabulary.scene import SCENES, Stage, look
from methodsheets.workpiece import FACES, VicePose


def can_draw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether it is a cut on a block that stands in the vice or on the table."""
    cuts = done.volume > 0 or SCENES[done.verb].marks
    way = setup.held.way
    held = setup.held.pose is not None and way is not None and way.row.holds_blocks
    held = held and stage_of(setup.held) is Stage.BLOCK
    there = done.plan.sketch.box is not None or bool(done.plan.sketch.points)
    return held and cuts and there and bool(look(done.verb, Stage.BLOCK))


def vice_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> ViceSetup:
    """The figure of one operation on a block; every number comes from the operation."""
    pose = done.station.pose
    assert pose is not None
    sketch, plan = done.plan.sketch, done.plan
    grip = (setup.held.grip[1] - setup.held.grip[0]) if setup.held.grip else 0.0
    axes, disc = pose.frame.rotation.T, SCENES[done.verb].disc
    size = done.tool.diameter if done.tool and done.tool.diameter else plan.cut.diameter
    return ViceSetup(
        projection=done.station.workshop.projection,
        before=drawn.state(done.before),
        after=(*drawn.state(done.after), *drawn.solids(done.stub)),
        removed=drawn.gone(done.removed),
        verb=done.verb,
        box=sketch.box or _hole_box(done),
        rotation=(three(axes[0]), three(axes[1]), three(axes[2])),
        origin=three(pose.frame.origin),
        holding=setup.held.way.row.on_block if setup.held.way else "",
        grip=grip,
        jaw_length=_jaw_length(setup),
        jaw_height=setup.held.holder.jaw_height if setup.held.holder and setup.held.holder.jaw_height else 32.0,
        places=done.plan.sketch.points,
        diameter=sketch.diameter if done.plan.sketch.points else 0.0,
        through=sketch.through,
        cutter_diameter=sketch.diameter if done.plan.sketch.points else sketch.size if disc else size,
        disc=plan.cut.diameter if disc else 0.0,
        pitch=plan.cut.pitch,
        cutter=_cutter(done),
        cutter_high=sketch.high,
        cutter_neck=sketch.size,
        clamps=_clamps(setup, pose),
        faces=(pose.up, pose.towards, _right_hand(pose.up, pose.towards)),
        removed_text=removed_words(done),
        tool_name=done.tool_name,
        dimension_texts=_texts(done),
        title=f"Operation {done.number}: {done.title}",
    )


def _clamps(setup: CheckedSetup, pose: VicePose) -> tuple[tuple[float, float, int, int], ...]:
    """Where the clamps stand that the check of them found room for, beside all that is cut in the set-up."""
    if setup.held.holder is None or not setup.held.holder.sort.straps:
        return ()
    places = clamp_places(pose.size[0], pose.size[1], cut_boxes(setup.operations))
    return tuple((place.x, place.y, int(place.out[0]), int(place.out[1])) for place in places)


OF_WORDS = {"t-slot cutter": "t-slot-cutter", "dovetail cutter": "dovetail-cutter"}
"""What a verb's own tool looks like where the workshop's tool is not one."""


def _cutter(done: CheckedOperation) -> str:
    """The sort of cutter, where it has a shape of its own."""
    return OF_WORDS.get(done.plan.tool_words, str(done.tool.kind) if done.tool else "")


def three(values: Iterable[float]) -> tuple[float, float, float]:
    """Three plain numbers of a row."""
    x, y, z = (float(v) for v in values)
    return (x, y, z)


def _texts(done: CheckedOperation) -> dict[str, str]:
    if SCENES[done.verb].designation:
        return {"hole": done.plan.sketch.diameter_words}
    mouth = mouth_words(done, len(done.plan.sketch.points))
    return {"hole": mouth} if mouth else {}


def _jaw_length(setup: CheckedSetup) -> float:
    holder = setup.held.holder
    return holder.jaw_width if holder and holder.jaw_width else 100.0


def _hole_box(done: CheckedOperation) -> tuple[float, float, float, float, float]:
    r = done.plan.sketch.diameter / 2
    xs, ys = [x for x, _ in done.plan.sketch.points], [y for _, y in done.plan.sketch.points]
    height = done.station.pose.size[2] if done.station.pose else 0.0
    return (min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r, min(done.plan.sketch.end, height))


def _right_hand(up: str, towards: str) -> str:
    """The face on the right when one is up and another looks towards you."""
    u, t = FACES[up], FACES[towards]  # type: ignore[index]
    right = (u[1] * t[2] - u[2] * t[1], u[2] * t[0] - u[0] * t[2], u[0] * t[1] - u[1] * t[0])
    return next(name for name, way in FACES.items() if way == right)
