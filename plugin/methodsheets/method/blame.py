"""Which operation is to blame where the finished work is not the intended part, and how do the two lie on each other?

One wrong facing moves everything that is measured from that face. The drawing is therefore laid on the work at the end,
or at the face of a block, at which the two differ least: then one wrong size is one difference.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from methodsheets.geometry import Difference as Fault
from methodsheets.geometry import Solid
from methodsheets.method.done import WorkedOperation
from methodsheets.method.intention import Intended
from methodsheets.method.job import Job
from methodsheets.workpiece import Workpiece

SAME_LENGTH = 1e-4
"""mm within which two lengths are one, and either end serves to lay the drawing on."""
Point = tuple[float, float, float]


def laid_on(piece: Workpiece, intended: Intended) -> Point:
    """Where the frame of the drawing lies in the finished work: at the end or the faces where they differ least."""
    done, places = piece.state.solid, [*_places(piece, intended)]
    if len(places) == 1:
        return places[0]
    return min(places, key=lambda place: _unlike(done, intended.solid.shifted(place)))


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


def _unlike(done: Solid, want: Solid) -> float:
    """mm³ in which two solids differ."""
    return done.volume + want.volume - 2.0 * (done & want).volume


def left_by(job: Job, found: Fault) -> WorkedOperation | None:
    """The operation whose surface bounds the metal that is left on; None where it is the stock's own skin."""
    tags = {one.tag: one for one in job.operations}
    areas = found.solid.mesh().areas_by_operation()
    made = {tag: area for tag, area in areas.items() if tag in tags}
    return tags[max(made, key=lambda tag: made[tag])] if made else None
