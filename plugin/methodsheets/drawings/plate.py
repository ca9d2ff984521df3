"""What is drawn of a block that turns in the lathe: chuck or plate, clamps, balance weight?"""

from __future__ import annotations

import math

from methodfigures.setups.plate.spec import Clamp, PlateSetup
from methodsheets.drawings.milling import three
from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import mouth_words, removed_words
from methodsheets.method.balance import MATTERS
from methodsheets.method.checks.clamping import clamp_places, cut_boxes
from methodsheets.method.done import CheckedOperation
from methodsheets.method.not_drawn import holder_look, stage_of
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.say import number
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.scene import SCENES, Stage, look
from methodsheets.workpiece import mass

SMALLEST = 40.0
"""mm: radius of a plate or a chuck where the workshop does not say."""


def can_draw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether a block turns about a place of its face, and the tool comes down that axis."""
    cuts = done.volume > 0 or SCENES[done.verb].marks
    there = stage_of(setup.held) is Stage.PLATE and bool(holder_look(setup.held, Stage.PLATE))
    return there and cuts and setup.turns_about is not None and bool(look(done.verb, Stage.PLATE))


def plate_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> PlateSetup:
    """The figure of one operation on a block in the lathe; clamps stand clear of all that is cut in the set-up."""
    pose, sketch = done.station.pose, done.plan.sketch
    assert pose is not None
    assert setup.turns_about is not None
    axes, radius = pose.frame.rotation.T, _plate_radius(setup, done)
    corner = math.hypot(*pose.size[:2]) / 2
    places = clamp_places(pose.size[0], pose.size[1], cut_boxes(setup.operations))
    return PlateSetup(
        before=drawn.state(done.before),
        after=(*drawn.state(done.after), *drawn.solids(done.stub)),
        removed=drawn.gone(done.removed),
        verb=look(done.verb, Stage.PLATE),
        rotation=(three(axes[0]), three(axes[1]), three(axes[2])),
        origin=three(pose.frame.origin),
        size=three(pose.size),
        axis=setup.turns_about,
        holding=holder_look(setup.held, Stage.PLATE),
        plate_radius=radius or max(SMALLEST, 1.4 * corner),
        grip=setup.held.grip[1] - setup.held.grip[0] if setup.held.grip else 0.0,
        clamps=tuple(Clamp(place.x, place.y, place.out) for place in places),
        weight=_weight(setup, radius),
        diameter=sketch.diameter,
        depth=sketch.end,
        through=sketch.through,
        pitch=done.plan.cut.pitch,
        dimension_texts=_texts(setup, done),
        tool_name=done.tool_name,
        removed_text=removed_words(done),
        title=f"Operation {done.number}: {done.title}",
        projection=done.station.workshop.projection,
    )


def _plate_radius(setup: CheckedSetup, done: CheckedOperation) -> float:
    """Radius of the chuck or the plate, mm; of the faceplate where an angle plate is bolted to it; 0 = not said."""
    holder = setup.held.holder
    if holder is not None and not holder.body_diameter:
        holder = done.station.workshop.holding_of(Way.FACEPLATE, setup.held.machine)
    return holder.body_diameter / 2 if holder is not None else 0.0


def _texts(setup: CheckedSetup, done: CheckedOperation) -> dict[str, str]:
    named = done.plan.sketch.diameter_words if SCENES[done.verb].designation else mouth_words(done)
    texts = {"hole": named} if named else {}
    weight = _weight(setup, _plate_radius(setup, done))
    if weight is not None:
        texts["weight"] = f"balance weight {weight[2]:.0f} g, {number(round(weight[1], 1))} from the axis"
    return texts


def _weight(setup: CheckedSetup, radius: float) -> tuple[float, float, float] | None:
    """(angle, radius, grams) of the balance weight, opposite the heavy side; None where none is needed or known."""
    pose = setup.held.pose
    if setup.unbalance <= MATTERS or not radius or pose is None or setup.turns_about is None:
        return None
    x, y, _ = pose.seen(mass(setup.before).centre)
    angle = math.degrees(math.atan2(setup.turns_about[1] - y, setup.turns_about[0] - x))
    at = 0.4 * 2 * radius
    return angle, at, setup.unbalance / at
