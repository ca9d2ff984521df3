"""What is the finished part meant to be, and is it what the method makes?

A `part` block lists features in the words of the verbs, as seen from the finished end A (or, for a block, with a face
up): `round` and `block` add metal, the verbs cut it away. Another method's part block, or its finished part, may
stand in for it (`intended: eccentric-one-piece`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from methodsheets.geometry import Difference as Fault
from methodsheets.geometry import Solid, faults
from methodsheets.method.blame import Laid, laid_on, left_by
from methodsheets.method.checks.kept import given
from methodsheets.method.done import WorkedOperation
from methodsheets.method.intention import Intended, Threaded
from methodsheets.method.job import Asked, Job, Proved
from methodsheets.method.part_block import part_of_blocks
from methodsheets.method.piece import Piece
from methodsheets.operations import say
from methodsheets.operations.facts import judged, length_measure
from methodsheets.operations.plan import Part
from methodsheets.operations.say import MM, both, dia, dim, number
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Check, Difference

LEAST = 0.005
"""mm: a difference thinner than this is the kernel's dust."""
Point = tuple[float, float, float]


def read_intended(job: Job) -> Asked:
    """The intended part of the method's own `part` block, or of the one that `intended` names."""
    blocks = job.file.of_kind("part")
    named = job.file.front.intended
    if blocks and named is not None:
        job.problems.warning(
            named.place,
            f"the method says its part twice: here (got `{named.value}`) and in a `part` block",
            "a part is said once; the block counts",
            "take one of the two away",
            code="part-twice",
        )
    if blocks:
        return part_of_blocks(job, blocks)
    return Asked(_elsewhere(job, named)) if named is not None else Asked()


def _elsewhere(job: Job, named: Text) -> Intended | None:
    """The part of another method of the handbook."""
    other = job.library(named.value)
    if other is None:
        job.problems.error(
            named.place,
            f"no such method (got `{named.value}`)",
            "`intended` names a method of this handbook",
            "check the name",
            code="unknown-method",
        )
        return None
    if other.live.asked.whole:
        # Its lines are lines of another file: what is missing here points to the line that names it.
        found, line = other.live.asked.whole, named.place.line
        threads = tuple(replace(one, line=line) for one in found.threads)
        asks = tuple(replace(one, line=line) for one in found.asks)
        trues = tuple(replace(one, line=line) for one in found.trues)
        return replace(found, source=named.value, lines=(), threads=threads, asks=asks, trues=trues)
    if not other.live.main:
        return None
    main = other.live.pieces[other.live.main]
    piece = main.work
    block_work = any(s.held.pose for s in other.live.setups)
    solid = piece.state.solid
    low, _ = solid.bounds
    shift = tuple(-low) if block_work else (0.0, 0.0, -piece.ends.a)
    line = named.place.line
    threads = tuple(t for o in other.live.operations if (t := Threaded.of(o.plan, line)) is not None)
    asks = tuple(one.along(shift[2], line) for one in given(other.live, main))
    return Intended(solid.shifted(shift), (), block_work, named.value, threads=threads, asks=asks)


def prove(job: Job, intended: Intended) -> tuple[Proved, list[Check]]:
    """Whether the finished work is the intended part; every difference with place, size and thickness."""
    laid = laid_on(job.pieces[job.main].work, intended)
    found = compared(job, job.pieces[job.main], intended, laid)
    listed = tuple(_difference(intended, i + 1, d, laid.shift) for i, d in enumerate(found))
    return Proved(laid.want, laid.shift, tuple(found), listed), _verdict(job, intended, found, listed)


def compared(job: Job, piece: Piece, intended: Intended, laid: Laid) -> list[Fault]:
    """What is left on and what is missing of a piece, with the names of features and operations."""
    features = [(name, solid.shifted(laid.shift)) for name, solid in intended.features]
    return faults(laid.done, laid.want, features, owners(job, piece), LEAST, laid.left_on)


def _verdict(job: Job, intended: Intended, found: list[Fault], differences: tuple[Difference, ...]) -> list[Check]:
    of_operations = {_named(done) for done in job.operations}
    others = [d for d in found if not (d.kind == "missing" and d.name in of_operations)]
    if found and not others:
        words = "cuts go into the intended part: see the operations that fail"
        return [judged("intended-part", None, words, 0)]
    if not found:
        where = f"the part of `{intended.source}`" if intended.source else "the intended part"
        words = f"the finished work is {where}: no difference above {both(LEAST, 'clearance')}"
        return [judged("intended-part", True, words, 0)]
    count, largest = len(others), max(others, key=lambda d: d.volume)
    words, line = say.draft(differences[found.index(largest)].words), _line_of(intended, largest)
    guilty = left_by(job, largest) if largest.kind == "left on" else None
    if guilty is not None:
        words, line = f"{words}, as operation {guilty.number} leaves it", guilty.line
    elif largest.kind == "left on":
        line = line or next((b.place.line for b in job.file.of_kind("part") if not intended.source), 0)
        words = f"{words}, as the stock has it: no operation cuts there"
    if count > 1:
        words = f"{count} differences from the intended part; the largest: {words}"
    return [judged("intended-part", False, words, line)]


def owners(job: Job, piece: Piece) -> Iterator[tuple[str, Solid]]:
    """What each operation took, the last first. A hole in which a piece was put is the business of that joint."""
    mine = [o for o in job.operations if o.piece is piece]
    for done in reversed(mine):
        join = done.plan.join
        if join is not None:
            holes = [s for o in mine if o.number < done.number for s in o.removed if _meets(s, join.parts)]
            if holes:
                yield _named(done), job.kernel.union(holes)
        elif done.removed:
            yield _named(done), job.kernel.union(done.removed)


def _meets(hole: Solid, parts: Iterable[Part]) -> bool:
    return any(hole.box_gap(part.solid) == 0 and not (hole & part.solid).empty for part in parts)


def _named(done: WorkedOperation) -> str:
    """What a difference calls the operation that it is the business of."""
    return f"operation {done.number}"


def _difference(intended: Intended, index: int, found: Fault, shift: Point) -> Difference:
    words = told_difference(found, shift, block_work=intended.block_work)
    thickness = length_measure(float(found.thickness), "size")
    return Difference(index, found.kind, say.words(words), float(found.volume), thickness)


def told_difference(found: Fault, shift: Point, *, block_work: bool) -> str:
    """A difference in one line: what, where, how large."""
    low = [float(a - b) for a, b in zip(found.low, shift, strict=True)]
    high = [float(a - b) for a, b in zip(found.high, shift, strict=True)]
    size = [b - a for a, b in zip(low, high, strict=True)]
    owner = found.name.replace("operation ", "op ") if found.name else ""
    place = f"{dim(low[2])} to {dim(high[2])} from end A"
    if block_work:
        place = ", ".join(f"{name} {dim(a)} to {dim(b)}" for name, a, b in zip("xyz", low, high, strict=True))
    what = f"{found.kind} at {owner}" if owner else found.kind
    box, thick = " × ".join(dim(side) for side in size), dim(round(found.thickness, 2))
    return f"{what}: {place}, {box} {MM}, about {thick} thick, {both(found.volume, 'volume')}"


def _line_of(intended: Intended, found: Fault) -> int:
    """Line of the feature of the `part` block that is not there; 0 where none is named."""
    named = (line for (name, _), line in zip(intended.features, intended.lines, strict=False) if name == found.name)
    return next(named, 0)


def check_against_part(job: Job, proved: Proved, wrong: frozenset[str]) -> None:
    """For each cut, whether it takes metal that belongs to the intended part; the check goes to that operation.

    Parameters:
        wrong: pieces that are not what they should be: their joint is not to blame
    """
    missing = [d for d in proved.differences if d.kind == "missing"]
    for done in job.operations:
        if done.piece.work is not job.pieces[job.main].work or not (done.removed or done.plan.join is not None):
            continue
        mine = [d for d in missing if d.name == _named(done)]
        volume = sum(d.volume for d in mine)
        if done.plan.join is not None:
            if mine and done.plan.join.name not in wrong:
                words = f"leaves {both(volume, 'volume')} of its holes empty that belong to the finished part"
                done.judge("finished-surface", False, words, remedy="check place and length of the piece that goes in")
            continue
        words = "takes nothing that belongs to the finished part"
        if mine:
            words = f"cuts {both(volume, 'volume')} that belong to the finished part{_centre_hint(done)}"
        done.judge("finished-surface", not mine, words)


def _centre_hint(done: WorkedOperation) -> str:
    """What to do about a centre hole that the part does not have: the beginner's usual surprise."""
    cut = done.plan.cut
    if not cut.process.row.first_hole:
        return ""
    pilot = number(done.plan.tool_size)
    stay = f"if the centre hole may stay, write `centre: {pilot} mm` in the `part` block"
    return f": its mouth is {dia(cut.diameter)}; {stay}; to start a drill, keep it in the hole with `to`"
