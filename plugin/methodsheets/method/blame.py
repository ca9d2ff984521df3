"""Which operation is to blame where the finished work is not the intended part, and how do the two lie on each other?

One wrong facing moves everything that is measured from that face. The drawing is therefore laid on the work at the end,
or at the face of a block, at which the two differ least: then one wrong size is one difference.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from methodsheets.geometry import Difference as Fault
from methodsheets.geometry import Solid
from methodsheets.geometry.surface import STOCK
from methodsheets.method.done import WorkedOperation
from methodsheets.method.intention import Intended
from methodsheets.method.job import Job
from methodsheets.workpiece import Workpiece

SAME_LENGTH = 1e-4
"""mm within which two lengths are one, and either end serves to lay the drawing on."""
LAID_TO, ACROSS = 3, 0.999999
"""Decimals of a mm to which two faces lie on each other; cosine from which a plane is square to an axis."""
ALIKE = 0.01
"""mm³ by which two places differ as much."""
Point = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Laid:
    """A drawing laid on the finished work."""

    shift: Point
    """Where the frame of the drawing lies in the work, mm."""
    done: Solid
    """The work without its beads, which no drawing shows."""
    want: Solid
    """The intended part, in the frame of the work."""
    left_on: Solid
    """What of the work lies outside the part."""


def laid_on(piece: Workpiece, intended: Intended) -> Laid:
    """The drawing laid on the work, at the end or the faces where they differ least; and alike, on what was cut.

    Where an end or a face is still as it was bought, that one is too far out, and not the one that was cut.
    """
    done = piece.state.without_filler
    done.table.adopt(intended.solid.table)
    found = [_laid(place, done, intended) for place in _places(piece, intended)]
    if len(found) == 1:
        return found[0]
    # Work and part are as large wherever they lie: what sticks out of the part says how far they differ.
    least = min(one.left_on.volume for one in found)
    alike = [one for one in found if one.left_on.volume <= least + ALIKE]
    raw = _raw_faces(piece) if len(alike) > 1 else set()
    return min(alike, key=lambda one: _laid_on_raw(one.want, raw))


def _laid(place: Point, done: Solid, intended: Intended) -> Laid:
    want = intended.solid.shifted(place)
    return Laid(place, done, want, done - want)


def _raw_faces(piece: Workpiece) -> set[tuple[int, float]]:
    """(axis, mm along it) of every plane of the finished work across an axis that no operation cut."""
    return {
        (axis, round(surface.point[axis], LAID_TO))
        for solid in piece.state
        for surface in solid.mesh().surfaces
        for axis in range(3)
        if surface.kind == "plane" and surface.operation == STOCK and abs(surface.direction[axis]) > ACROSS
    }


def _laid_on_raw(want: Solid, raw: set[tuple[int, float]]) -> int:
    """How many sides of the drawing, as it is laid, lie on a face as it was bought."""
    return sum((axis, round(float(side[axis]), LAID_TO)) in raw for side in want.bounds for axis in range(3))


def _places(piece: Workpiece, intended: Intended) -> Iterator[Point]:
    """End A first, then end B; for a block the lower and the upper corner along every edge."""
    want_low, want_high = (tuple(float(v) for v in corner) for corner in intended.solid.bounds)
    if not intended.block_work:
        yield (0.0, 0.0, piece.ends.a)
        other = piece.ends.b - want_high[2]
        if abs(other - piece.ends.a) > SAME_LENGTH:
            yield (0.0, 0.0, other)
        return
    low, high = (tuple(float(v) for v in corner) for corner in piece.state.bounds)
    edges = [
        (a - c,) if abs((a - c) - (b - d)) <= SAME_LENGTH else (a - c, b - d)
        for a, b, c, d in zip(low, high, want_low, want_high, strict=True)
    ]
    for x in edges[0]:
        yield from ((x, y, z) for y, z in product(edges[1], edges[2]))


def left_by(job: Job, found: Fault) -> WorkedOperation | None:
    """The operation whose surface bounds the metal that is left on; None where it is the stock's own skin."""
    tags = {one.tag: one for one in job.operations}
    areas = found.solid.mesh().areas_by_operation()
    made = {tag: area for tag, area in areas.items() if tag in tags or tag == STOCK}
    return tags.get(max(made, key=lambda tag: made[tag])) if made else None
