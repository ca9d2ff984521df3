"""What shows the method as a whole: its route, its sections, the part in its stock, what it leaves wrong?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from methodfigures.route.proof import Fault, Proof
from methodfigures.route.removed_metal import RemovedMetal
from methodfigures.route.storyboard import Cell, Storyboard
from methodfigures.route.strip import SectionStrip
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Finished
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.workpiece import VicePose

MOST_CELLS = 40
MOST_STEPS, STEP = 3, 56.0
"""Pictorials of one job told alone, and mm of width for each."""
PHONE, TWO = 74.0, 2
"""mm of width, and cells to a row, at which the captions can be read on a phone."""
Way = tuple[float, float, float]


def storyboard(drawn: Drawn, job: Finished, *, narrow: bool = False) -> Storyboard | None:
    """One pictorial for every operation that changes the work; None where there are fewer than two.

    Parameters:
        narrow: for a phone, two to a row
    """
    every = [(setup, done) for setup in job.setups for done in setup.operations if _changes(done)]
    cells = tuple(_cell(drawn, setup, done) for setup, done in every[:MOST_CELLS])
    wide = Storyboard(cells, title="Route of the method", rest=_rest(len(every))) if len(cells) > 1 else None
    return replace(wide, columns=TWO, width=PHONE) if wide is not None and narrow else wide


def last_steps(drawn: Drawn, job: Finished) -> Storyboard:
    """The last operation, whatever it changes, and the steps on its piece that led to it."""
    every = [(setup, done) for setup in job.setups for done in setup.operations]
    last = every[-1][1]
    led = [(s, o) for s, o in every[:-1] if _changes(o) and o.piece is last.piece][1 - MOST_STEPS :]
    cells = tuple(_cell(drawn, setup, done) for setup, done in [*led, every[-1]])
    return Storyboard(cells, columns=len(cells), title=last.words.metric, width=max(STEP * len(cells), PHONE))


def strip(drawn: Drawn, job: Finished) -> SectionStrip | None:
    """One section for every operation that cuts; None where fewer than two do, or where the work is a block."""
    turned = [(s, o) for s in job.setups for o in s.operations if o.volume > 0 and o.station.holding]
    cells = tuple(_cell(drawn, setup, done) for setup, done in turned[:MOST_CELLS])
    axes = tuple(dict.fromkeys(o.station.holding.axis for _, o in turned if o.station.holding))
    return (
        SectionStrip(
            cells, axes=axes or ((0.0, 0.0),), title="Route of the method in sections", rest=_rest(len(turned))
        )
        if len(cells) > 1
        else None
    )


def _rest(count: int) -> str:
    """How many operations found no room; '' where all did."""
    more = count - MOST_CELLS
    return f"and {more} more operation{'' if more == 1 else 's'}, which the sheet has" if more > 0 else ""


def _changes(done: CheckedOperation) -> bool:
    return done.volume > 0 or done.plan.join is not None or bool(done.plan.marks)


def _cell(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> Cell:
    face, up = _stands(setup, done)
    return Cell(
        number=str(done.number),
        words=done.words.metric,
        group=f"{setup.number}  {setup.title}",
        after=drawn.state(done.after),
        removed=drawn.gone(done.removed),
        face=face,
        up=up,
    )


def _stands(setup: CheckedSetup, done: CheckedOperation) -> tuple[Way, Way | None]:
    """(which way the face that looks at you looks, which way is up) in the set-up; turned work has no up."""
    if done.station.holding:
        return (0.0, 0.0, -1.0 if done.station.holding.out == "A" else 1.0), None
    assert setup.held.pose is not None
    return _pose(setup.held.pose)


def _pose(pose: VicePose) -> tuple[Way, Way]:
    """(towards you, up) in the work."""
    return _way(-pose.frame.rotation[:, 1]), _way(pose.frame.rotation[:, 2])


def _way(axis: Iterable[float]) -> Way:
    x, y, z = (float(round(v)) for v in axis)
    return (x, y, z)


def in_stock(drawn: Drawn, job: Finished) -> RemovedMetal | None:
    """The finished part in the stock that it is cut from; None where the work was put together from several pieces."""
    piece = job.pieces.get(job.main)
    if piece is None or piece.start is None or len(job.pieces) > 1 or not piece.work.bodies:
        return None
    stock, part = drawn.state(piece.start), drawn.state(piece.work.state)
    first = next((s.held.pose for s in job.setups if s.held.pose is not None and s.operations), None)
    turned = any(o.station.holding for s in job.setups for o in s.operations)
    face, up = _pose(first) if first is not None and not turned else ((0.0, 0.0, -1.0), None)
    left = 100.0 * piece.work.state.volume / piece.start.volume if piece.start.volume else 0.0
    return RemovedMetal(
        part,
        stock,
        f"The part in its stock:\n{left:.0f} % of the metal stays",
        face,
        up=up,
        title="The part in its stock",
    )


def faults(drawn: Drawn, job: Finished) -> Proof | None:
    """What the method leaves wrong, numbered; None where nothing is."""
    if not job.proved.differences or job.proved.want is None:
        return None
    found = tuple(
        Fault(
            raw.kind,
            drawn.solid(raw.solid),
            raw.name.replace("operation ", "operation "),
            _where(words.words.metric),
            f"{words.volume_mm3:.0f}",
            f"{raw.thickness:.2f}",
        )
        for raw, words in zip(job.proved.differences, job.proved.listed, strict=True)
    )
    return Proof((drawn.solid(job.proved.want),), found[:12])


def _where(words: str) -> str:
    return words.split(": ", 1)[-1].split(", ")[0]
