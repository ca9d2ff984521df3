"""What is left at the end of what was given to the work: its knurl, its lines, its hardness, its hard skin, its colour?

A later operation may spoil it: a cut through the lines, a cut deeper than the skin, a heat that draws the hardness.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Finished, Job
from methodsheets.method.piece import Piece
from methodsheets.operations.heating import DEPTH, SOFT, TEMPERED
from methodsheets.operations.qualities import Given, Quality
from methodsheets.operations.say import MM, dim
from methodsheets.workpiece import State

LEAST = 1.0
"""mm² of new surface below which a later cut is none."""
SPOILS: Mapping[Quality, str] = MappingProxyType({
    Quality.KNURL: "cuts it away",
    Quality.LINES: "cuts them away",
    Quality.HARD: "makes it soft",
    Quality.CASE: "goes through it",
    Quality.COLOUR: "leaves bright metal there",
    Quality.FINISH: "cuts it away",
})  # fmt: skip
"""What a later operation does to each, in words."""


@dataclass(frozen=True)
class Standing:
    """Something given to the work, as it stands after the operations so far."""

    made: Given
    by: WorkedOperation
    spoilt_by: WorkedOperation | None = None
    """The operation that took some of it, or all."""
    gone: bool = False


def standing(job: Job | Finished, piece: Piece | None) -> list[Standing]:
    """What the method gives a piece, or all of them, as it is at the end; what is gone again too."""
    found: list[Standing] = []
    for done in (one for one in job.operations if piece is None or _touches(one, piece)):
        found = [WEARS[one.made.quality](one, done) if not one.gone else one for one in found]
        for made in done.plan.gives if piece is None or done.piece is piece else ():
            found = _folded(found, made, done)
    return found


def given(job: Job | Finished, piece: Piece) -> list[Given]:
    """What a method gives a piece and leaves on it: what a part asks for that is meant by its name."""
    return [one.made for one in standing(job, piece) if one.by.piece is piece and not one.gone]


def _touches(done: WorkedOperation, piece: Piece) -> bool:
    """Whether an operation is one on the piece, or on the work that it was joined into."""
    joins = done.plan.join is not None and done.plan.join.name == piece.name
    return done.piece is piece or joins or piece.name in done.before.bodies


def _folded(found: list[Standing], made: Given, done: WorkedOperation) -> list[Standing]:
    """A later heat takes the place of an earlier one; tempering draws what was hard, and nothing else."""
    if made.quality is not Quality.HARD:
        return [*found, Standing(made, done)]
    before = [one for one in found if one.made.quality is Quality.HARD and one.by.piece is done.piece]
    rest = [one for one in found if one not in before]
    if made.pattern == TEMPERED:
        return [*rest, *(Standing(replace(one.made, figures=made.figures), done) for one in before[-1:])]
    if made.pattern == SOFT:
        rest = [_softened(one, done) if one.by.piece is done.piece else one for one in rest]
    return [*rest, Standing(made, done)]


# ------------------------------------------------------------------------------------------------ how each is spoilt
def _softened(one: Standing, done: WorkedOperation) -> Standing:
    """A heat that makes steel soft; the rest bears it."""
    if one.made.quality not in (Quality.HARD, Quality.CASE) or one.made.pattern == SOFT:
        return one
    words = f"{one.made.words}, which the heat of operation {done.number} makes soft again"
    return replace(one, made=replace(one.made, words=words, pattern=SOFT, figures=()), spoilt_by=done)


def _through(one: Standing, done: WorkedOperation) -> Standing:
    """Hardness goes right through: only a joint made hot takes it."""
    join = done.plan.join
    return _softened(one, done) if join is not None and join.how.row.softens else one


def _skin(one: Standing, done: WorkedOperation) -> Standing:
    """A hard skin of a depth: a cut that takes more of the surface goes through it, a hole or a slot too."""
    deep = next((figure.value for figure in one.made.figures if figure.name == DEPTH), 0.0)
    taken = _taken(one, done)
    if taken > deep > 0:
        return replace(one, spoilt_by=done, gone=True)
    return _through(one, done)


def _film(one: Standing, done: WorkedOperation) -> Standing:
    """A colour is thinner than any cut, and than what a polish takes; red heat burns it."""
    join = done.plan.join
    rubbed = any(done.plan.leaves) and done.piece is one.by.piece
    if rubbed or _taken(one, done) > 0 or (join is not None and join.how.row.softens):
        return replace(one, spoilt_by=done, gone=True)
    return one


def _taken(one: Standing, done: WorkedOperation) -> float:
    """Mm that a later operation took of the surface of its piece, as a mean; 0 where it cut none."""
    if not done.removed or (done.piece is not one.by.piece and one.by.piece.name not in done.before.bodies):
        return 0.0
    area = sum(body.solid.mesh().areas_by_operation().get(done.tag, 0.0) for body in done.after.bodies.values())
    return sum(solid.volume for solid in done.removed) / area if area > LEAST else 0.0


def _lines(one: Standing, done: WorkedOperation) -> Standing:
    """Knurls and scribed lines are drawn on the surface: what is left of them is what no cut has taken."""
    before, after = (_along(state, one.by.tag) for state in (done.before, done.after))
    if before is None or before == after:
        return one
    if after is None:
        return replace(one, spoilt_by=done, gone=True)
    near = max(one.made.near, 1.0)
    if one.made.span is None or max(abs(a - b) for a, b in zip(before, after, strict=True)) <= near:
        return one
    low, high = (edge + new - old for edge, new, old in zip(one.made.span, after, before, strict=True))
    words = f"{one.made.words}, of which operation {done.number} leaves {dim(round(high - low, 2))} {MM}"
    return replace(one, made=replace(one.made, words=words, span=(low, high)), spoilt_by=done)


def _along(state: State, tag: str) -> tuple[float, float] | None:
    """(from, to) along the work of the lines that an operation drew, mm; None where none are left."""
    lines = [mark.points[:, 2] for mark in state.marks if mark.operation == tag]
    if not lines:
        return None
    return min(float(z.min()) for z in lines), max(float(z.max()) for z in lines)


WEARS: Mapping[Quality, Callable[[Standing, WorkedOperation], Standing]] = MappingProxyType({
    Quality.KNURL: _lines,
    Quality.LINES: _lines,
    Quality.HARD: _through,
    Quality.CASE: _skin,
    Quality.COLOUR: _film,
    Quality.FINISH: _film,
})  # fmt: skip
"""How a later operation may spoil each. A finish is asked of the surface itself, which tells who cut it last."""

__all__ = ["SPOILS", "WEARS", "Standing", "given", "standing"]
