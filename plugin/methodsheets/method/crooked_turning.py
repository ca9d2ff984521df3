"""How far does a shaft without its core bend under the turning tool, all round the turn?

The ends lie on the axis of the set-up; webs and what is left between them carry on (`crooked`). The tool pushes the
same way all the time while the shaft turns, so the worst direction counts, and the work comes out of round by the
difference between the stiff and the soft direction.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from methodsheets.geometry import Axis
from methodsheets.method.crooked import ALL_WAYS, Crooked, NoShaftYet, NotModelled, Span, crooked, throws_of
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.without_core import metal_of, worst_across
from methodsheets.trade.bending.frames import Six
from methodsheets.trade.bending.stiffness import SUPPORTS
from methodsheets.workpiece import State

ON_AXIS = 0.05
"""mm by which the axis of the set-up may lie off that of the ends."""
CHUCK, _, BETWEEN = SUPPORTS
ACROSS, DRIVEN = (0, 1), (0, 1, 2, 5)


@dataclass(frozen=True)
class Stretch:
    """The work that bends: from where to where, seen from the face; how its ends are held; the tool's push."""

    low: float
    high: float
    support: str
    """One of `trade.bending.stiffness.SUPPORTS`."""
    push: float
    """N."""
    gaps: tuple[Span, ...] = ()
    """(from, to) of each core that is out, z in mm of the work."""

    def has_gaps(self, done: WorkedOperation) -> bool:
        """Whether a core is cut out of it."""
        spans = (sorted((done.frame.s_of(a), done.frame.s_of(b))) for a, b in self.gaps)
        return any(self.low < begin and end < self.high for begin, end in spans)


@dataclass(frozen=True)
class Bends:
    """How far the work moves at each place of the tool, mm."""

    worst: tuple[float, ...]
    least: tuple[float, ...]


def crooked_bends(
    setup: OpenSetup, done: WorkedOperation, state: State, stretch: Stretch, places: Sequence[float]
) -> Bends:
    """The bending at each length from the face; NotModelled, with the reason, where the frame does not serve."""
    frame = done.frame
    if math.hypot(*frame.axis) > ON_AXIS:
        raise NotModelled("the work turns about an axis that is not that of its ends")
    axis = Axis.upright(*frame.axis)
    throws = throws_of(state, setup.piece.work.kernel, axis, stretch.gaps)
    low, high = frame.span(stretch.low, stretch.high)
    at = [frame.z_of(s) for s in places]
    made = crooked(state, axis, throws, (low, high), at, metal_of(setup.piece.material))
    if any(one.below.leaves < z < one.above.leaves for one in made.throws for z in at):
        raise NoShaftYet("the tool cuts between the webs")
    held = _held(made, frame.z_of(stretch.low), frame.z_of(stretch.high), stretch.support)
    joints = [made.at(z) for z in at]
    loads: list[dict[int, Six]] = []
    for joint in joints:
        loads += [{joint: (stretch.push, 0.0, 0.0, 0.0, 0.0, 0.0)}, {joint: (0.0, stretch.push, 0.0, 0.0, 0.0, 0.0)}]
    moved = made.moved(held, loads)
    pairs = [(moved[2 * i][joint], moved[2 * i + 1][joint]) for i, joint in enumerate(joints)]
    worst = tuple(worst_across((a[0], a[1]), (b[0], b[1])) for a, b in pairs)
    least = tuple(a[0] + b[1] - most for (a, b), most in zip(pairs, worst, strict=True))
    return Bends(worst, least)


def _held(frame: Crooked, free: float, firm: float, support: str) -> dict[int, Sequence[int]]:
    """Which movements the holder and the centre keep from the work."""
    if support == BETWEEN:
        return {frame.at(firm): DRIVEN, frame.at(free): ACROSS}
    if support == CHUCK:
        return {frame.at(firm): ALL_WAYS}
    return {frame.at(firm): ALL_WAYS, frame.at(free): ACROSS}
