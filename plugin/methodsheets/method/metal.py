"""What happens to the metal in an operation: what is cut, what falls off and is kept, what is joined or marked?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from methodsheets.geometry import Solid
from methodsheets.geometry.compare import pairs_that_meet
from methodsheets.method.done import CutOperation, PlannedOperation, cut_as_planned
from methodsheets.method.job import Job
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.plan import Plan
from methodsheets.reading.limits import FACETS, FACETS_IN_ALL, FACETS_JOINED, OVERLAPS, Limit
from methodsheets.reading.problem import MethodError, Place
from methodsheets.workpiece import Cut, towards
from methodsheets.workpiece.bodies import Body, MarkKind
from methodsheets.workpiece.datum import End

MARKS: Mapping[str, MarkKind] = MappingProxyType(
    {"knurl": "knurl", "thread": "thread", "tap": "thread", "cross-tap": "thread"}
)
"""Kind of line that a verb leaves; the others scribe."""


def cut_metal(job: Job, setup: OpenSetup, done: PlannedOperation) -> CutOperation:
    """Carry the plan out on the workpiece.

    Raises:
        MethodError: the work would have more facets than can be drawn.
    """
    work, plan = setup.piece.work, done.plan
    cut, stub = None, tuple[Solid, ...]()
    if plan.cutters:
        few_cutters(job, done.block.place, plan)
        cut, stub = _cut(setup, done)
    if plan.marks:
        work.mark(plan.marks, MARKS.get(done.verb, "scribed"), done.tag)
    if plan.join:
        come = sum(part.solid.triangles for part in plan.join.parts)
        few_facets(done.block.place, FACETS_JOINED, _facets(setup) + come)
        # The ends of the work stay its own: what is pressed on does not move the datum.
        for part in plan.join.parts:
            body = Body(part.solid, part.material, part.density, plan.join.how, part.filler, part.place)
            work.join(part.name, body, search=1.0)
            work.state = work.state.changed(marks=(*work.marks, *part.marks))
    if plan.comes_off:
        _take_off(job, setup, plan.comes_off)
    if plan.cutters or plan.join:
        job.log.count(_facets(setup))
    if plan.gap is not None and cut is not None and cut.removes:
        setup.piece.gaps.append(done.frame.span(plan.gap.start, plan.gap.end))
    if plan.supports is not None:
        setup.now.bring(plan.supports, plan.support_at)
    return cut_as_planned(done, after=work.state, cut=cut, stub=stub)


def _take_off(job: Job, setup: OpenSetup, name: str) -> None:
    """A joined body leaves the work; where it is a piece of the method, that has the shape now that it was cut to."""
    work, piece = setup.piece.work, job.pieces.get(name)
    bodies = dict(work.bodies)
    body = bodies.pop(name)
    work.state = work.state.changed(bodies)
    if piece is None or body.place is None:
        return
    shape = body.solid.moved(body.place.inverse())
    own = piece.work.state
    piece.work.state = own.changed({key: one.with_solid(shape) for key, one in own.bodies.items()})


def _facets(setup: OpenSetup) -> int:
    return sum(body.solid.triangles for body in setup.piece.work.bodies.values())


def few_states(job: Job, place: Place) -> None:
    """Refuse an operation before it is planned, where those before it have left too much to draw.

    Raises:
        MethodError: all states together have more facets than the limit allows.
    """
    few_facets(place, FACETS_IN_ALL, job.log.facets)


def few_cutters(job: Job, place: Place, plan: Plan) -> None:
    """Refuse cuts that the kernel could not join in good time, and count those that are made.

    Raises:
        MethodError: they have too many facets, or too many of the method lie in one another's way.
    """
    cutters = [plan.cutters] if isinstance(plan.cutters, Solid) else list(plan.cutters)
    few_facets(place, FACETS, sum(one.triangles for one in cutters))
    met = pairs_that_meet([one.bounds for one in cutters if one.triangles])
    if job.log.met + met > OVERLAPS:
        raise MethodError(
            place,
            f"{OVERLAPS.said} (got {met:,} pairs{f', and {job.log.met:,} before it' if job.log.met else ''})",
            f"at most {OVERLAPS:,} {OVERLAPS.of}",
            "make fewer of them, or split the method into two",
            code="too-much",
        )
    job.log.join(met)


def few_facets(place: Place, limit: Limit, count: int) -> None:
    """Refuse what could not be drawn in good time.

    Raises:
        MethodError: there are more facets than the limit allows.
    """
    if count > limit:
        raise MethodError(
            place,
            f"{limit.said} too many facets (got {count:,})",
            f"at most {limit:,} {limit.of}",
            "make fewer cuts, or split the method into two",
            code="too-much",
        )


def _cut(setup: OpenSetup, done: PlannedOperation) -> tuple[Cut, tuple[Solid, ...]]:
    """(what the cut did, what came off and is not kept)."""
    plan, ends = done.plan, None
    if plan.face_moves and done.station.holding:
        ends = done.station.turning.faced(plan.face_moves)
    cut = setup.piece.work.cut(plan.cutters, done.tag, splits=plan.splits, spare=plan.spares, ends=ends)
    facets = _facets(setup)
    if facets > FACETS:
        setup.piece.work.state = done.before
    few_facets(done.block.place, FACETS, facets)
    if plan.face_moves and setup.held.pose:
        _lower(setup, plan.face_moves)
    if plan.splits and plan.keeps != "both":
        return cut, _keep(setup, done, cut)
    return cut, ()


def _lower(setup: OpenSetup, off: float) -> None:
    """Depths start at the new upper face."""
    pose = setup.now.face(off)
    work = setup.piece.work
    if pose.up in ("top", "bottom"):
        low, high = work.state.bounds
        work.set_end("A", float(low[2]))
        work.set_end("B", float(high[2]))


def _keep(setup: OpenSetup, done: PlannedOperation, cut: Cut) -> tuple[Solid, ...]:
    """Of a part that was parted or sawn, keep the piece that the plan names; gives the rest."""
    work, stubs = setup.piece.work, list[Solid]()
    chooser = _chooser(done)
    for name in list(cut.removed):
        if name in work.bodies:
            kept = work.keep(chooser, name)
            stubs += kept.scrap.get(name, ())
    return tuple(stubs)


def _chooser(done: PlannedOperation) -> Callable[[Solid], bool]:
    """Which pieces are kept: those in front of the cut or behind it, to the left or to the right of it."""
    plan, holding = done.plan, done.station.holding
    if plan.keeps in ("left", "right"):
        return _beside(done.frame.normal(plan.sketch.angles[0] + 90.0), left=plan.keeps == "left")
    if holding is not None:
        ours: End = holding.out
        other: End = "B" if ours == "A" else "A"
        return towards(ours if plan.keeps == "front" else other, done.frame.z_of(plan.sketch.start))
    pose = done.station.pose  # as it stood before the cut
    assert pose is not None
    up = pose.frame.rotation[:, 2]
    level = float(up @ pose.to_work(0, 0, plan.sketch.start))

    def above(piece: Solid) -> bool:
        low, high = piece.bounds
        return (float(up @ (low + high) / 2) > level) == (plan.keeps == "front")

    return above


def _beside(normal: tuple[float, float, float], *, left: bool) -> Callable[[Solid], bool]:
    def chosen(piece: Solid) -> bool:
        low, high = piece.bounds
        return (float((low + high) / 2 @ normal) > 0) == left

    return chosen
