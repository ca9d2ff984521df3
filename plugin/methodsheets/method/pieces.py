"""Is each piece its own intended part, so that a wrong one is found before it is joined?

The `part` block says it behind `piece: pin`. A piece is compared as it is when its own operations are done; the piece
that the method ends with by its own body, without what was put into it.
"""

from __future__ import annotations

from methodsheets.geometry import Difference as Fault
from methodsheets.method.blame import Laid, laid_on, left_by
from methodsheets.method.done import WorkedOperation
from methodsheets.method.intended import LEAST, compared, told_difference
from methodsheets.method.intention import Intended
from methodsheets.method.job import Asked, Job, Point, ProvedPieces
from methodsheets.method.piece import Piece
from methodsheets.operations.facts import judged
from methodsheets.operations.say import MM, dim, plural
from methodsheets.reading.problem import Place, did_you_mean
from methodsheets.sheet.model import Check
from methodsheets.workpiece import Workpiece


def prove_pieces(job: Job, asked: Asked) -> tuple[ProvedPieces, list[Check]]:
    """The verdict on every piece whose part is said; a piece that nobody makes is a problem."""
    checks, laid, wrong = list[Check](), dict[str, Point](), set[str]()
    for name, part in asked.pieces.items():
        piece = job.pieces.get(name)
        if piece is None:
            job.problems.error(
                Place(job.file.path, part.line),
                f"no such piece (got `{name}`)",
                "the part of a piece bears the name that its set-up gives it",
                did_you_mean(name, list(job.pieces)),
                code="unknown-piece",
            )
        elif piece.work.bodies:
            work = _alone(job, piece)
            at = laid_on(work, part)
            laid[name] = at.shift
            checks.append(_verdict(job, piece, part, work, at))
            wrong |= {name} if checks[-1].state == "failed" else set()
    return ProvedPieces(laid, frozenset(wrong)), checks


def _verdict(job: Job, piece: Piece, part: Intended, work: Workpiece, laid: Laid) -> Check:
    found = compared(job, piece, part, laid)
    if not found:
        return judged("intended-part", True, f"the {piece.name} is its intended part", part.line)
    largest = max(found, key=lambda fault: fault.volume)
    guilty = _guilty(job, piece, largest)
    told = told_difference(largest, laid.shift, block_work=part.block_work)
    words = f"the {piece.name} is not its intended part{_short(work, part)}: {told}"
    words += f" ({plural(len(found), 'difference')})" if len(found) > 1 else ""
    goes_in = next((o for o in job.operations if o.plan.join is not None and o.plan.join.name == piece.name), None)
    if goes_in is not None:
        words += f"; operation {goes_in.number} joins it"
    return judged("intended-part", False, words, guilty.line if guilty else part.line,
                  remedy="make the piece right before it is joined, or change its part")  # fmt: skip


def _alone(job: Job, piece: Piece) -> Workpiece:
    """The piece without what was put into it."""
    if piece.name not in piece.work.bodies or len(piece.work.bodies) == 1:
        return piece.work
    alone = Workpiece(job.kernel, piece.name)
    alone.state = piece.work.state.changed({piece.name: piece.work.bodies[piece.name]})
    return alone


def _short(work: Workpiece, part: Intended) -> str:
    """', 4 mm too short', where its length is what is wrong."""
    (low, high), (want_low, want_high) = work.state.bounds, part.solid.bounds
    off = float((high[2] - low[2]) - (want_high[2] - want_low[2]))
    if abs(off) <= LEAST or part.block_work:
        return ""
    return f", {dim(round(abs(off), 3))} {MM} too {'long' if off > 0 else 'short'}"


def _guilty(job: Job, piece: Piece, fault: Fault) -> WorkedOperation | None:
    """The operation that took what is missing, or left what is left on; what came off whole was parted off."""
    if fault.kind == "left on":
        return left_by(job, fault)
    mine = [o for o in job.operations if o.piece is piece]
    named = next((o for o in mine if fault.name == f"operation {o.number}"), None)
    return named or next((o for o in reversed(mine) if o.plan.splits), None)
