"""On which earlier holdings does a holding hang, and how truly does a piece follow its seat?

A grip hangs on the holding in which the gripped surface got its last cut. Between centres the work hangs on both centre
holes: where they were drilled in two holdings, it hangs on each at one end. A seat keeps its piece as true as its sizes
do: a round surface that keeps to its limits may be out of true by their whole width (the envelope rule, ISO 14405-1,
from memory), and a piece may lie over to one side of its clearance. The reading between the two is then at most the
two tolerances, with the least clearance where there is one. Without limits nothing is known of a seat.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from methodsheets.geometry import Axis, Solid
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.method.last_cut import LastCuts
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.facts import worked
from methodsheets.operations.say import dim, resting
from methodsheets.sheet.limit import Limit
from methodsheets.sheet.model import Working
from methodsheets.trade.bending.holding import ColletRunOut, collet_runout
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.process import Process
from methodsheets.workpiece.seats import Seat
from methodsheets.workpiece.skins import round_skins

SAME = 0.002
"""mm: axes and diameters nearer than this are one, as for seats: below what a small shop measures."""
WORTH = 0.01
"""mm²: less than this is no grip."""

Node: TypeAlias = "int | str"
"""Number of a set-up, or the stock of a piece by its name."""


@dataclass(frozen=True)
class Link:
    """Two holdings that hang together, and the run-out between them."""

    one: Node
    other: Node
    run_out: float | None
    """mm, total indicator reading; None where it is not known."""
    words: str
    """'collet chuck 0.02', or why it is not known."""
    setup: int = 0
    """Number of the set-up whose holding it is; 0 for a seat."""


@dataclass(frozen=True)
class Hang:
    """A holding, what it hangs on, and its own run-out; more than one where the gripped surface is of more holdings."""

    of: int
    on: tuple[Node, ...]
    run_out: float | None
    words: str


def hangs(job: Job, last: LastCuts) -> Iterator[Hang]:
    """What every holding of work that turns hangs on."""
    setup_of = {done.tag: setup.number for setup in job.setups for done in setup.operations}
    before = 0
    for setup in job.setups:
        if setup.held.holding is not None:
            run_out = setup_run_out(setup)
            unknown = f"nobody says how true the {setup.held.words} of set-up {setup.number} runs"
            words = unknown if run_out is None else f"{setup.held.words} {_read(setup, run_out)}"
            on, lost = _hangs_on(job, setup, last, setup_of, before)
            hung = on or (f"stock of {setup.piece.name}",)
            yield Hang(setup.number, hung, None if lost else run_out, lost or words)
        before += len(setup.operations)


def _read(setup: OpenSetup, run_out: float) -> str:
    """A reading, with the row that it rests on where nobody measured it."""
    known = setup.held.said.get("run-out") is None and by_class(setup)
    return resting(dim(run_out), known[1].recalled if known else ())


def _hangs_on(
    job: Job, setup: OpenSetup, last: LastCuts, setup_of: dict[str, int], before: int
) -> tuple[tuple[Node, ...], str]:
    """The holdings in which the gripped surface was cut, none where nobody cut it; and why that says nothing."""
    holding = setup.held.holding
    assert holding is not None
    if setup.held.way is Way.CENTRES:
        return _centred_in(job, setup), ""
    if not holding.diameter:
        return (), ""
    span = holding.frame(setup.before.ends).span(*(setup.held.grip or (0.0, setup.before.ends.length)))
    tag = _gripped(setup.before, Axis.upright(*holding.gripped_axis), holding.diameter, span)
    cuts = last.of_tag(tag, before)
    lost = next((words for done in cuts if (words := last.wanders(done))), "")
    return tuple(dict.fromkeys(setup_of[led.tag] for done in cuts for led in last.led_by(done))), lost


def _centred_in(job: Job, setup: OpenSetup) -> tuple[Node, ...]:
    """The last earlier holding in which a centre hole was drilled in each end of this piece."""
    found: dict[str, Node] = {}
    for earlier in job.setups:
        for done in earlier.operations:
            ours = earlier.number < setup.number and done.piece is setup.piece and done.station.holding is not None
            if ours and done.plan.cut.process is Process.CENTRE and done.plan.sketch.radius == 0:
                assert done.station.holding is not None
                found[done.station.holding.out] = earlier.number
    return tuple(dict.fromkeys(found.values()))


def _gripped(solids: Iterable[Solid], axis: Axis, diameter: float, span: tuple[float, float]) -> str:
    """Tag of the operation that cut most of a cylinder on an axis between two lengths along it; '' where none is."""
    areas: dict[str, float] = {}
    for solid in solids:
        for skin in round_skins(solid):
            s = skin.surface
            of_that_size = s.kind == "cylinder" and abs(s.diameter - diameter) < SAME
            if of_that_size and axis.parallel(s.direction) and axis.distance(s.point) < SAME:
                there = sorted(skin.length_of(axis.at(length)) for length in span)
                areas[s.operation] = areas.get(s.operation, 0.0) + skin.area_within(*there)
    found = max(areas, key=lambda tag: areas[tag], default="")
    return found if areas.get(found, 0.0) > WORTH else ""


def setup_run_out(setup: OpenSetup) -> float | None:
    """Total indicator reading of a holding, mm, as said in the set-up or in the workshop; None where neither says."""
    said = setup.held.said.get("run-out")
    if said is not None:
        return float(said)
    holder = setup.held.holder
    if holder is None:
        return None
    found = by_class(setup)
    return found[0].run_out if found is not None else holder.run_out or None


def by_class(setup: OpenSetup) -> tuple[ColletRunOut, Working] | None:
    """Run-out of the collet by its class, where nobody measured it and the workshop says the class."""
    holder, holding = setup.held.holder, setup.held.holding
    if holder is None or holding is None or not holder.collet_class or holder.run_out or not holding.diameter:
        return None
    try:
        return worked(collet_runout, holder.collet_for(holding.diameter) or holding.diameter, holder.collet_class)
    except OutOfRange:
        return None  # no class goes to that size: nobody says how true it runs


# ------------------------------------------------------------------------------------------------ seats
def seats(job: Job, last: LastCuts) -> Iterator[Link]:
    """The seats of pieces that were joined: each ties the holding of its hole to the holding of its shaft."""
    setup_of = {done.tag: setup.number for setup in job.setups for done in setup.operations}
    for place, done in enumerate(job.operations):
        if done.plan.join is None:
            continue
        theirs = (done.plan.join.solid,)
        for seat in done.plan.join.sits.seats:
            span = (seat.start, seat.end)
            inside, outside = (done.before, theirs) if seat.goes_in else (theirs, done.before)
            hole = last.of_tag(_gripped(inside, seat.axis, seat.hole, span), place)
            shaft = last.of_tag(_gripped(outside, seat.axis, seat.shaft, span), place)
            run_out, words = _keeps(done, seat, hole, shaft)
            if lost := next((why for one in (*hole, *shaft) if (why := last.wanders(one))), ""):
                run_out, words = None, lost
            ins, outs = ({setup_of[led.tag] for cut in cuts for led in last.led_by(cut)} for cuts in (hole, shaft))
            ends = itertools.product(ins, outs)
            yield from (Link(one, other, run_out, words) for one, other in sorted(ends) if one != other)


def _keeps(
    done: WorkedOperation, seat: Seat, hole: Sequence[WorkedOperation], shaft: Sequence[WorkedOperation]
) -> tuple[float | None, str]:
    """The reading that a seat may add, mm, with its words; None with the reason where it is not known."""
    assert done.plan.join is not None
    join = done.plan.join
    if join.how.row.draws:
        return None, f"{join.name} is {join.how} on, and {join.how.row.draws}"
    found = [bound for one in hole for other in shaft if (bound := _bound(one, other, seat)) is not None]
    if not found:
        return (
            None,
            f"{join.name} is {join.how} on a seat without limits, so nothing says how true it sits",
        )
    return max(found), f"{join.how} on its seat, by its limits, {dim(max(found))}"


def _bound(hole: WorkedOperation, shaft: WorkedOperation, seat: Seat) -> float | None:
    """Width of the limits of hole and shaft, and the least clearance, mm; None where one has no limits."""
    one, other = _limit(hole, seat.hole), _limit(shaft, seat.shaft)
    if one is None or other is None:
        return None
    wide = [limit.upper.value - limit.lower.value for limit in (one, other)]
    made_to = next((limit for limit in (other, one) if limit.add_high is not None and limit.add_low is not None), None)
    if made_to is None:
        clearance = one.lower.value - other.upper.value
    else:
        assert made_to.add_high is not None
        assert made_to.add_low is not None
        clearance = -made_to.add_high if made_to is other else made_to.add_low
    return sum(wide) + max(0.0, clearance)


def _limit(done: WorkedOperation, diameter: float) -> Limit | None:
    near = [one for one in done.limits if one.has_limits and abs(one.nominal.value - diameter) < 0.1]
    return near[0] if near else None
