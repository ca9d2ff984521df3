"""What only the whole method shows: the order of cuts, threads that nobody cuts, presses that are too weak?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from methodsheets.method.checks.heat import check_heat
from methodsheets.method.checks.pressing import check_pressing, press_fits
from methodsheets.method.checks.qualities import check_qualities
from methodsheets.method.checks.truth import check_truth
from methodsheets.method.done import WorkedOperation
from methodsheets.method.intention import Threaded
from methodsheets.method.job import Asked, Job, Point
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.piece import Piece
from methodsheets.operations.facts import judged
from methodsheets.operations.plan import Edges
from methodsheets.operations.say import MM, both, dim, number, resting
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.joint import Joint

HELD_DOWN = 2
"""Holes right through that hold a plate down while its outline is cut (common practice)."""
TIGHT_MARGIN = 1.2
"""Margin of a hub's strength below which a press fit is a bare one (common practice)."""


def check_whole(job: Job, asked: Asked, laid: Mapping[str, Point]) -> list[Check]:
    """Checks that need the method from its first operation to its last; those of one operation go to it.

    Parameters:
        laid: where the part of each piece lies in it, by the piece's name; the finished part has an empty name
    """
    for setup in job.setups:
        for done in setup.operations:
            _round_the_edge(job, setup, done)
    return [
        *_presses(job),
        *_threads(job, asked),
        *_screwed(job),
        *check_qualities(job, asked, laid),
        *check_truth(job, asked, laid),
        *check_heat(job),
        *check_pressing(job),
    ]


# ------------------------------------------------------------------------------------------------ clamps
def _round_the_edge(job: Job, setup: OpenSetup, done: WorkedOperation) -> None:
    """An outline that is cut right round leaves no edge for clamps: holes hold the work down, drilled before."""
    holder = setup.held.holder
    round_it = done.plan.edges is Edges.ROUND and done.station.pose is not None
    if holder is None or not holder.sort.flat_on_table or not round_it:
        return
    earlier, later = (sum(_through_holes(job, done, later=when)) for when in (False, True))
    words = f"the outline is cut right round, where the {setup.held.words} stand on the edge"
    remedy = "drill two holes through the work first and hold it down through them"
    if earlier >= HELD_DOWN:
        words = f"the work is held down through {earlier} holes while its outline is cut"
        done.judge("clamps", True, words, tight=True)
    elif earlier + later >= HELD_DOWN:
        done.judge("order", False, f"{words}; the holes that could hold it down are drilled later", remedy=remedy)
    else:
        done.judge("clamps", False, words, remedy=remedy)


def _through_holes(job: Job, done: WorkedOperation, *, later: bool) -> Iterator[int]:
    """How many holes right through the upper face other operations on the piece drill."""
    for one in job.operations:
        of_piece = one.piece is done.piece and (one.number > done.number) == later and one is not done
        if of_piece and one.plan.sketch.through and one.plan.cut.process.row.pecks:
            yield len(one.plan.sketch.points)


# ------------------------------------------------------------------------------------------------ press fits
def _presses(job: Job) -> Iterator[Check]:
    """A press fit against the press that the method uses, and its stresses against yield."""
    joined = ((setup, done.plan.join) for setup in job.setups for done in setup.operations)
    pressing = [setup for setup, join in joined if join is not None and join.how is Joint.PRESSED]
    for name, line, fit in press_fits(job):
        if fit.hub_margin is not None:
            share = resting(f"{number(round(100 / fit.hub_margin))} %", job.log.recalled.get(name, ()))
            words = f"`{name}`: the hub's stress reaches {share} of its yield"
            yield judged("hub", fit.hub_margin >= 1.0, words, line, tight=fit.hub_margin < TIGHT_MARGIN)
        for setup in pressing[:1]:
            force = setup.held.machine.force
            if force:
                most = resting(both(fit.force_max, "force"), job.log.recalled.get(name, ()))
                needed = f"{most}; the {setup.held.machine.name} gives {both(force, 'force')}"
                words = f"`{name}` needs up to {needed}"
                yield judged("press-force", fit.force_max <= force, words, line, tight=fit.force_max > 0.8 * force)


# ------------------------------------------------------------------------------------------------ threads
def _screwed(job: Job) -> Iterator[Check]:
    """Two pieces that are screwed together have one thread between them."""
    for done in (one for one in job.operations if one.plan.join is not None and one.plan.join.how.row.threaded):
        other = next((p for name, p in job.pieces.items() if done.said and name == done.said.get("")), None)
        ours, theirs = _thread_names(job, done.piece), _thread_names(job, other)
        if not ours or not theirs:
            continue
        shared = [name for name in ours if name in theirs]
        words = f"both pieces have the thread {shared[0]}" if shared else (
            f"{done.piece.name} has {', '.join(ours)} and {done.plan.feature} has {', '.join(theirs)}"
        )  # fmt: skip
        yield judged("seat", bool(shared), words, done.line, remedy="cut the same thread on both pieces")


def _thread_names(job: Job, piece: Piece | None) -> list[str]:
    """Threads that the method cuts on a piece."""
    return [o.plan.sketch.diameter_words for o in job.operations if o.piece is piece and o.plan.cut.pitch]


def _threads(job: Job, asked: Asked) -> Iterator[Check]:
    """Every thread of the `part` block is one that an operation cuts, on its piece, outside or inside, and as long."""
    every = [(o.piece, made) for o in job.operations if (made := Threaded.of(o.plan, o.line)) is not None]
    for name, part in asked.each():
        piece = job.pieces.get(name)
        cut = [made for owner, made in every if piece is None or owner is piece]
        for wanted in part.threads:
            near = [made for made in cut if (made.name, made.inside) == (wanted.name, wanted.inside)]
            if near:
                best = min(near, key=lambda made: abs(wanted.off(made)))
                cut.remove(best)
                yield from _thread_length(wanted, best)
            else:
                there = f"; the method cuts {', '.join(made.words for made in cut)}" if cut else ""
                remedy = f"add an operation that cuts {wanted.words}, or take it out of the `part` block"
                words = f"nobody cuts the thread {wanted.words}{f' of the {name}' if name else ''}{there}"
                yield judged("intended-part", False, words, wanted.line, remedy=remedy)
    yield from _threads_not_asked(asked, every)


def _threads_not_asked(asked: Asked, every: list[tuple[Piece, Threaded]]) -> Iterator[Check]:
    """Threads that the method cuts on a piece and no part has, neither the whole nor that piece's own."""
    whole = asked.whole.threads if asked.whole is not None else ()
    for piece, made in every if asked.whole is not None else ():
        own = asked.pieces.get(piece.name)
        named = [(one.name, one.inside) for one in (*whole, *(own.threads if own is not None else ()))]
        if (made.name, made.inside) not in named:
            words = f"the thread {made.words}, is cut, and the part does not ask for it"
            remedy = "write the thread with its sizes in the `part` block, or take the operation out"
            yield judged("intended-part", False, words, made.line, remedy=remedy)


def _thread_length(wanted: Threaded, made: Threaded) -> Iterator[Check]:
    off = wanted.off(made)
    if off:
        words = f"the thread {made.words}, is {dim(abs(off))} {MM} {'longer' if off > 0 else 'shorter'} than its part"
        yield judged("intended-part", False, words, made.line, remedy="change `over`, or the `part` block")
