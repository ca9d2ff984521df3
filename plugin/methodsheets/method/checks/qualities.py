"""Has the work what its part asks for and no solid shows: its knurl, its hardness, its colour, its finish?

What was made is followed through the method (`kept`): steel that was hardened and then brazed is soft again, a knurl
that is turned over is gone. What no part asks for and is there all the same is found too. A finish is asked of the
operation that left the surface, which every facet remembers; a finer one than is asked for is no fault.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from methodsheets.formula.measure import Measure
from methodsheets.geometry import Solid
from methodsheets.geometry.surface import STOCK
from methodsheets.method.checks.kept import SPOILS, Standing, standing
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Asked, Job, Point
from methodsheets.method.piece import Piece
from methodsheets.operations.facts import judged
from methodsheets.operations.heating import SCALES, SOFT
from methodsheets.operations.qualities import Given, Quality
from methodsheets.operations.say import both, joined
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.finish import LEAVES, Range

SIZE = 0.02
"""mm on the diameter within which a surface is the one that is meant."""
AT_BEST = 2.0
"""Times the finish from feed and nose radius that a tool in good order leaves: common practice, from memory."""
SHARE = 0.02
"""Share of the surfaces that may be another's: the rest of a corner."""


def check_qualities(job: Job, asked: Asked, laid: Mapping[str, Point]) -> Iterator[Check]:
    """Every quality that a part asks for, against what the method gives its piece.

    Parameters:
        laid: where each part lies in its piece; one that could not be compared is left out
    """
    for name, part in ((name, part) for name, part in asked.each() if name in laid):
        piece = job.pieces.get(name)
        there = standing(job, piece)
        for wanted in part.asks:
            own = wanted.along(laid[name][2], wanted.line)
            if wanted.quality is Quality.FINISH:
                yield from _finish(job, piece or job.pieces[job.main], own, name)
            else:
                yield _asked(own, there, name)
    yield from _not_asked(job, asked, laid)


# ------------------------------------------------------------------------------------------------ asked for and made
def _asked(wanted: Given, there: list[Standing], name: str) -> Check:
    """A quality that is made as it is asked for, made otherwise, spoilt, or not made."""
    of = f" of the {name}" if name else ""
    met = [one for one in there if wanted.meets(one.made)]
    near = [one for one in met if not one.gone]
    if not near:
        return _lacking(wanted, met, of)
    best = min(near, key=lambda one: len([*wanted.differs(one.made), *wanted.displaced(one.made)]))
    made, done, blamed = best.made, best.by, best.spoilt_by or best.by
    displaced = [*wanted.displaced(made)]
    unsaid = {one.name for one in wanted.figures if one.name in SCALES} - {one.name for one in made.figures}
    if unsaid and not displaced and {*wanted.differs(made)} == unsaid:
        words = f"operation {done.number} makes {made.words}{of}, and {wanted.words} is asked for: not known, " \
                "because the operation does not say its hardness"  # fmt: skip
        return judged("intended-part", None, words, done.line, remedy="write `hardness` in the operation, and test it")
    if not displaced and not [*wanted.differs(made)]:
        words = f"{wanted.words}{of}, as the part asks for: operation {done.number}"
        return judged("intended-part", True, words, done.line)
    asked = f", and {wanted.words} is asked for" if [*wanted.differs(made)] else ""
    after = f", as operation {blamed.number} leaves it" if blamed is not done else ""
    beside = f": {joined(displaced)}{after}" if displaced else ""
    words = f"operation {done.number} makes {made.words}{of}{asked}{beside}"
    return judged("intended-part", False, words, blamed.line, remedy="change the operation, or the `part` block")


def _lacking(wanted: Given, spoilt: list[Standing], of: str) -> Check:
    """Asked for, and nothing of it is there at the end."""
    words = f"the part asks for {wanted.words}{wanted.where}{of}, and no operation makes it"
    for one in spoilt:
        if one.spoilt_by is not None:
            words = f"operation {one.by.number} makes {one.made.words}{of}, and operation {one.spoilt_by.number} "
            words += f"{SPOILS[one.made.quality]}; the part asks for it"
            remedy = f"make it behind operation {one.spoilt_by.number}, or take it out of the `part` block"
            return judged("intended-part", False, words, one.spoilt_by.line, remedy=remedy)
    remedy = f"add an operation for the {wanted.quality}, or take it out of the `part` block"
    return judged("intended-part", False, words, wanted.line, remedy=remedy)


def _not_asked(job: Job, asked: Asked, laid: Mapping[str, Point]) -> Iterator[Check]:
    """What the method makes and no part asks for; what is soft, or gone again, is nothing to ask for."""
    if "" not in laid:
        return
    for one in standing(job, None):
        if one.gone or one.made.pattern == SOFT or any(_is_for(wanted, one, job) for wanted in _asks(asked, laid, one)):
            continue
        words = f"operation {one.by.number} makes {one.made.words}{one.made.where}, and the part does not ask for it"
        remedy = f"write `{one.by.verb}` with its sizes in the `part` block, or take the operation out"
        yield judged("intended-part", False, words, one.by.line, remedy=remedy)


def _asks(asked: Asked, laid: Mapping[str, Point], one: Standing) -> Iterator[Given]:
    """What is asked of the finished work, and of the piece that something was given to."""
    for name, part in asked.each():
        if name in laid and name in ("", one.by.piece.name):
            yield from (wanted.along(laid[name][2], wanted.line) for wanted in part.asks)


def _is_for(wanted: Given, one: Standing, job: Job) -> bool:
    """Whether that is what is asked for; places are compared where the frame of both is that of the finished work."""
    same_frame = one.by.piece is job.pieces[job.main]
    return wanted.meets(one.made) if same_frame else wanted.quality is one.made.quality


# ------------------------------------------------------------------------------------------------ finish
def _finish(job: Job, piece: Piece, wanted: Given, name: str) -> Iterator[Check]:
    """A finish, asked of each operation that left some of the surface."""
    rough, of = wanted.figures[0].value, f" of the {name}" if name else ""
    areas = _areas(piece.work.state.without_filler, wanted)
    whole = sum(areas.values())
    if not whole:
        words = f"the part asks for {wanted.words}{wanted.where}{of}, and no such surface is there"
        yield judged("intended-part", False, words, wanted.line, remedy="check its place: `on`, `from`, `over`")
        return
    makers = {one.tag: one for one in job.operations}
    for tag, area in sorted(areas.items(), key=lambda one: -one[1]):
        if area < SHARE * whole:
            continue
        done = makers.get(tag)
        if done is None:
            remedy = "machine it, or say `on` which diameter the finish is for"
            yield judged("intended-part", False, _skin(wanted, of, tag, area / whole), wanted.line, remedy=remedy)
            continue
        low, high, known = _leaves(job, done, wanted)
        left = f"operation {done.number} leaves {_range(low, high)} Ra {'at best' if known else 'as a rule'}"
        words = f"{left}, the part asks for {both(rough, 'roughness')}{wanted.where}{of}"
        if not high:
            words = f"no figure for the finish that operation {done.number} leaves: measure it"
        fits = None if not high else low <= rough + 1e-9
        tight = bool(fits) and rough < (AT_BEST if known else 1.0) * high - 1e-9
        remedy = "a finer `feed`, a larger nose, or polish it"
        yield judged("intended-part", fits, words, done.line, tight=tight, remedy=remedy)


def _areas(solid: Solid, wanted: Given) -> dict[str, float]:
    """mm² that each operation left of the surfaces that are meant."""
    mesh, size = solid.mesh(), wanted.diameter
    mine = mesh.on(lambda s: not size or (s.kind == "cylinder" and abs(s.diameter - size) < SIZE))
    if wanted.span is not None:
        mine = mine & mesh.within(wanted.span[0] - SIZE, wanted.span[1] + SIZE)
    return mesh.areas_by_operation(mine)


def _skin(wanted: Given, of: str, tag: str, share: float) -> str:
    what = "the skin of the stock" if tag == STOCK else "a surface of another piece"
    where = f"{100 * share:.0f} % of that surface{of} is {what}"
    return f"the part asks for {wanted.words}{wanted.where}: {where}, which no operation cuts"


def _leaves(job: Job, done: WorkedOperation, wanted: Given) -> tuple[float, float, bool]:
    """(best, usual) µm Ra that the operation leaves, or the last polish of it, and whether it is worked out."""
    later = [one for one in job.operations if one.number > done.number and one.piece is done.piece
             and any(one.plan.leaves) and not one.removed and _over(one, wanted)]  # fmt: skip
    if later:
        return (*later[-1].plan.leaves, False)
    told = done.worked.told("roughness")
    if told is not None and isinstance(told.value, Measure):
        return told.value.value, told.value.value, True
    low, high = _usual(done)
    return low, high, False


def _usual(done: WorkedOperation) -> Range:
    return done.plan.leaves if any(done.plan.leaves) else LEAVES[done.plan.cut.process]


def _over(done: WorkedOperation, wanted: Given) -> bool:
    """Whether handwork lies on what is meant."""
    sketch = done.plan.sketch
    if wanted.span is None or sketch.end <= sketch.start or done.station.holding is None:
        return True
    low, high = done.station.along(sketch.start, sketch.end)
    return min(high, wanted.span[1]) - max(low, wanted.span[0]) > 0


def _range(low: float, high: float) -> str:
    return both(low, "roughness") if low == high else f"{both(low, 'roughness')} to {both(high, 'roughness')}"
