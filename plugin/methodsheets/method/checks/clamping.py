"""Where do clamps stand on a block, and how many find a place beside the cuts?

A clamp laps over an edge of the block and is bolted beside it. On each of the four sides the place nearest to its
middle is taken that is clear of what is cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.plan import Edges

LAP = 8.0
"""mm by which a clamp lies on the work (usual, from memory)."""
HALF = 8.0
"""mm: half the width of a clamp (usual)."""
CLEAR = 2.0
"""mm that a tool keeps from a clamp."""
SHARE = (0.5, 0.35, 0.65, 0.2, 0.8)
"""Where along a side a place is looked for, the middle first."""
OPPOSITE, ENOUGH = 2, 3
"""Clamps that hold where they stand on opposite sides, and where they do not."""

Box = tuple[float, float, float, float]
"""(x0, y0, x1, y1) on the upper face, mm."""


@dataclass(frozen=True)
class Place:
    """A clamp on the upper face: the middle of its edge, mm, and the direction out."""

    x: float
    y: float
    out: tuple[float, float]

    @property
    def covers(self) -> Box:
        """What it covers of the face, with the room that a tool keeps."""
        dx, dy = self.out
        side, lap = HALF + CLEAR, LAP + CLEAR
        xs = (self.x - lap * dx, self.x) if dx else (self.x - side, self.x + side)
        ys = (self.y - lap * dy, self.y) if dy else (self.y - side, self.y + side)
        return min(xs), min(ys), max(xs), max(ys)


def cut_boxes(operations: Iterable[WorkedOperation]) -> list[Box]:
    """What the operations cut of the upper face."""
    found: list[Box] = []
    for done in operations:
        sketch = done.plan.sketch
        r = max(sketch.diameter, done.plan.cut.diameter) / 2
        found += [(x - r, y - r, x + r, y + r) for x, y in sketch.points]
        if sketch.box is not None and not sketch.points:
            found.append(sketch.box[:4])
    return found


def clamp_places(length: float, width: float, cuts: Sequence[Box]) -> list[Place]:
    """A place on every side that has one, clear of the cuts."""
    places = []
    for out in ((-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)):
        for share in SHARE:
            x = share * length if not out[0] else (0.0 if out[0] < 0 else length)
            y = share * width if not out[1] else (0.0 if out[1] < 0 else width)
            place = Place(x, y, out)
            if not any(_meet(place.covers, cut) for cut in cuts):
                places.append(place)
                break
    return places


def hold(places: Sequence[Place]) -> bool:
    """Whether that many clamps, standing so, hold the work: two on opposite sides, or three."""
    outs = {place.out for place in places}
    opposite = any((-x, -y) in outs for x, y in outs)
    return len(places) >= (OPPOSITE if opposite else ENOUGH)


def check_clamps(setup: OpenSetup, done: WorkedOperation) -> None:
    """Whether clamps find room beside all that is cut in the set-up so far; told once."""
    pose, holder = done.station.pose, setup.held.holder
    if pose is None or holder is None or not holder.sort.straps or not done.plan.cut.process.cuts:
        return
    if done.plan.edges is Edges.ROUND:
        return  # what is cut right round is held down through holes: that is looked at by itself
    if setup.has_failed("clamps") or any(one.has_failed("clamps") for one in setup.operations):
        return
    cuts = [one for one in (*setup.operations, done) if one.plan.edges is not Edges.ROUND]
    places = clamp_places(pose.size[0], pose.size[1], cut_boxes(cuts))
    if not hold(places):
        count = f"{len(places)} clamp{'' if len(places) == 1 else 's'} find{'s' if len(places) == 1 else ''} a place"
        done.judge("clamps", False, f"{count if places else 'no clamp finds a place'} beside the cuts")


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
