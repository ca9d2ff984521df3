"""Which picture shows an operation in its set-up? The scenes in order; the first that can draw it does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from methodfigures.paper.drawing import Drawing as Figure
from methodfigures.setups.cross.figure import draw_cross_setup
from methodfigures.setups.joining import draw_joint, draw_saw_cut
from methodfigures.setups.plate.figure import draw_plate_setup
from methodfigures.setups.rotary.figure import draw_rotary_setup
from methodfigures.setups.sawing import draw_saw_gap
from methodfigures.setups.turning.figure import draw_turning_setup
from methodfigures.setups.vice.figure import draw_vice_setup
from methodsheets.drawings import crosswise, dividing, joints, milling, plate, turning
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.method.open_setup import CheckedSetup


@dataclass(frozen=True, kw_only=True)
class Scene:
    """One kind of picture of an operation."""

    kind: str
    """What the page calls it: 'setup', 'joint'."""
    can_draw: Callable[[CheckedSetup, CheckedOperation], bool]
    spec: Callable[[Drawn, CheckedSetup, CheckedOperation], Any]
    draw: Callable[..., Figure]


def _gap(setup: CheckedSetup, done: CheckedOperation) -> bool:
    return joints.can_draw_saw(setup, done) and done.plan.gap is not None


SCENES: tuple[Scene, ...] = (
    Scene(
        kind="setup",
        can_draw=turning.can_draw,
        spec=lambda drawn, setup, done: turning.turning_spec(drawn, setup, done, pictorials=False),
        draw=draw_turning_setup,
    ),
    Scene(
        kind="joint",
        can_draw=lambda _, done: joints.can_draw(done),
        spec=lambda drawn, _, done: joints.joint_spec(drawn, done),
        draw=draw_joint,
    ),
    Scene(kind="setup", can_draw=_gap, spec=joints.gap_spec, draw=draw_saw_gap),
    Scene(kind="setup", can_draw=joints.can_draw_saw, spec=joints.saw_spec, draw=draw_saw_cut),
    Scene(kind="setup", can_draw=plate.can_draw, spec=plate.plate_spec, draw=draw_plate_setup),
    Scene(kind="setup", can_draw=milling.can_draw, spec=milling.vice_spec, draw=draw_vice_setup),
    Scene(kind="setup", can_draw=crosswise.can_draw, spec=crosswise.cross_spec, draw=draw_cross_setup),
    Scene(kind="setup", can_draw=dividing.can_draw, spec=dividing.rotary_spec, draw=draw_rotary_setup),
)
"""Every scene, in the order in which they are tried."""


def scene_of(setup: CheckedSetup, done: CheckedOperation) -> Scene | None:
    """The scene that shows an operation; None where it has no picture."""
    return next((scene for scene in SCENES if scene.can_draw(setup, done)), None)
