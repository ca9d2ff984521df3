"""What does the heat of a bead do to the work: finished surfaces near it, thin edges, closed hollows?

Distances are common practice. They say what may move or discolour, and what is looked at again; not what will.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodsheets.geometry import Solid
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.operations.facts import judged
from methodsheets.operations.say import MM, both, dim, joined, plural
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.securing import THIN_EDGES

BURNS = 1.0
"""mm from a bead within which a thin edge burns away: common practice."""
HOLLOW = 1.0
"""mm³: a closed hollow smaller than this holds no air worth the name."""


def check_heat(job: Job) -> Iterator[Check]:
    """Every operation that heats the work, against what was done to it before."""
    for done in job.operations:
        join = done.plan.join
        hot = join is not None and (done.plan.hot_within > 0 or join.how.row.hot)
        if not hot or join is None:
            continue
        yield from _hollows(done)
        if done.plan.hot_within > 0:
            yield from _edges(job, done, join.solid)
            yield from _finished(job, done, join.solid)


def _before(job: Job, done: WorkedOperation) -> list[WorkedOperation]:
    return [one for one in job.operations if one.number < done.number and one.piece is done.piece]


def _edges(job: Job, done: WorkedOperation, bead: Solid) -> Iterator[Check]:
    """Edges that would burn away are dressed afterwards."""
    for one in _before(job, done):
        near = min((cut.gap(bead, BURNS + 1.0) for cut in one.removed), default=math.inf)
        if one.verb in THIN_EDGES and 0 < near < BURNS:
            edge = f"operation {one.number} leaves a thin edge {dim(round(near, 2))} {MM} from the bead"
            words = f"{edge}, which burns away"
            remedy = f"do operation {one.number} after it"
            yield judged("order", False, words, done.line, remedy=remedy)
            return


def _finished(job: Job, done: WorkedOperation, bead: Solid) -> Iterator[Check]:
    """Sizes that were measured to limits before, and lie in the heat: measure them again, or make them later."""
    within = done.plan.hot_within
    touched = []
    for one in _before(job, done):
        fine = any(limit.has_limits for limit in one.limits)
        if fine and _distance(done.before.solid, one.tag, bead) <= within and not _again(job, done, one):
            touched.append(one.number)
    if touched:
        far = "all of the work is heated" if math.isinf(within) else f"within {dim(within)} {MM} of the bead"
        names = f"operation{'s' if len(touched) > 1 else ''} {joined([str(n) for n in touched])}"
        words = f"{names} finished sizes to limits before the heat ({far}): measure again, or finish them after"
        yield judged("heat-after", True, words, done.line, tight=True)


def _again(job: Job, done: WorkedOperation, one: WorkedOperation) -> bool:
    """Whether a later operation of the same sort takes the surface down once more."""
    later = [o for o in job.operations if o.number > done.number and o.piece is done.piece and o.verb == one.verb]
    return any(o.plan.sketch.diameter == one.plan.sketch.diameter for o in later)


def _distance(work: Solid, tag: str, bead: Solid) -> float:
    """Mm between the box round what an operation left of its surfaces and the box round the bead."""
    mesh = work.mesh()
    mine = mesh.on(lambda surface: surface.operation == tag)
    if not mine.any():
        return math.inf
    corners = mesh.corners[mine].reshape(-1, 3)
    mine_low, mine_high = corners.min(axis=0), corners.max(axis=0)
    low, high = bead.bounds
    return math.hypot(*(max(0.0, float(mine_low[i] - high[i]), float(low[i] - mine_high[i])) for i in range(3)))


def _hollows(done: WorkedOperation) -> Iterator[Check]:
    """Air that is shut in bursts the work when it is heated."""
    found = [volume for volume in done.after.solid.hollows() if volume > HOLLOW]
    if found:
        words = f"{plural(len(found), 'closed hollow')} of {both(sum(found), 'volume')} would be heated and can burst"
        yield judged("heat-after", False, words, done.line, remedy="drill a vent into it first")
