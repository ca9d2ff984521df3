"""How concentric are two features, when each was cut in its own holding?

Features cut in one holding share the spindle's axis: they run true to each other. A holding hangs on the surface that
it grips, with its own run-out between that surface and the spindle; the surface was cut in an earlier holding, or is
the stock's own. A piece that is pressed or shrunk on follows its seat. Between two features lie the holdings on the
way from one to the other. Worst case adds their readings; the likely one is the root of the sum of their squares
(independent, centred errors: the usual rule). All readings are total indicator readings in mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from methodsheets.geometry import Axis, Solid, Surface
from methodsheets.method.job import DoneOperation, DoneSetup, Job
from methodsheets.operations import say
from methodsheets.operations.facts import length_measure
from methodsheets.operations.say import dim
from methodsheets.sheet.model import RunOutRow
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.joint import Joint
from methodsheets.vocabulary.process import Process
from methodsheets.workpiece import State

MOST_ROWS = 15
SAME = 2e-6
"""mm: diameters nearer than this are one size."""

Node: TypeAlias = "int | str"
"""Number of a set-up, or the stock of a piece by its name."""


@dataclass(frozen=True)
class Link:
    """Two holdings that hang together, and the run-out between them."""

    one: Node
    other: Node
    run_out: float
    words: str


@dataclass(frozen=True)
class Chain:
    """The holdings that lie between two features."""

    links: tuple[Link, ...]

    @property
    def worst(self) -> float:
        """Every run-out in one direction, mm."""
        return sum(link.run_out for link in self.links)

    @property
    def likely(self) -> float:
        """Root of the sum of squares, mm."""
        return math.sqrt(sum(link.run_out**2 for link in self.links))

    @property
    def words(self) -> str:
        """A draft: 'collet chuck 0.02 + four-jaw chuck 0.02'."""
        return " + ".join(link.words for link in self.links) or "cut in one holding"


def run_out_table(job: Job) -> list[RunOutRow]:
    """A row for every pair of features that the author has named or that have limits."""
    made = list(named_features(job).items())
    links, rows = list(_links(job)), []
    for i, (first, one) in enumerate(made):
        for second, other in made[i + 1 :]:
            chain = _between(job, links, one, other)
            if chain is not None:
                worst, likely = length_measure(chain.worst, "size"), length_measure(chain.likely, "size")
                rows.append(RunOutRow(first, second, worst, likely, say.words(chain.words)))
    return rows[:MOST_ROWS]


def named_features(job: Job) -> dict[str, DoneOperation]:
    """Turned, bored and reamed features with a name or with limits; cut twice, the last cut counts."""
    return {
        done.plan.feature: done
        for done in job.operations
        if done.station.holding is not None
        and done.plan.cut.process.row.runs_true
        and done.plan.feature
        and (done.limits or done.called)
    }


def between(job: Job, one: DoneOperation, other: DoneOperation) -> Chain | None:
    """The holdings between two features; None where they do not hang together or a run-out is not known."""
    return _between(job, list(_links(job)), one, other)


def _between(job: Job, links: list[Link], one: DoneOperation, other: DoneOperation) -> Chain | None:
    start, end = _setup_of(job, one), _setup_of(job, other)
    return None if start is None or end is None else _way(links, start.number, end.number)


def _way(links: list[Link], start: Node, end: Node) -> Chain | None:
    """The way with the least run-out from one holding to another: grown from the start, nearest first."""
    reached: dict[Node, Chain] = {}
    open_ends: dict[Node, Chain] = {start: Chain(())}
    while open_ends:
        node = min(open_ends, key=lambda n: (open_ends[n].worst, str(n)))
        reached[node] = chain = open_ends.pop(node)
        if node == end:
            return chain
        for link in links:
            if node not in (link.one, link.other):
                continue
            far = link.other if link.one == node else link.one
            longer = Chain((*chain.links, link))
            if far not in reached and (far not in open_ends or longer.worst < open_ends[far].worst):
                open_ends[far] = longer
    return None


def _setup_of(job: Job, done: DoneOperation) -> DoneSetup | None:
    return next((s for s in job.setups if any(done is o for o in s.operations)), None)


# ------------------------------------------------------------------------------------------------ what hangs on what
def _links(job: Job) -> Iterator[Link]:
    makers = {operation.tag: setup for setup in job.setups for operation in setup.operations}
    for setup in job.setups:
        run_out = setup_run_out(setup)
        if setup.held.holding is not None and run_out is not None:
            yield Link(setup.number, _hangs_on(job, setup, makers), run_out, f"{setup.held.words} {dim(run_out)}")
    for setup in job.setups:
        for done in setup.operations:
            if done.plan.join is not None and done.plan.join.how in (Joint.PRESSED, Joint.SHRUNK):
                yield from _seat_link(done, makers)


def _hangs_on(job: Job, setup: DoneSetup, makers: dict[str, DoneSetup]) -> Node:
    """The holding in which the gripped surface was cut; the stock where nobody cut it."""
    holding, stock = setup.held.holding, f"stock of {setup.piece.name}"
    assert holding is not None
    if setup.held.way is Way.CENTRES:
        return _centred_in(job, setup) or stock
    if not holding.diameter:
        return stock
    span = holding.frame(setup.before.ends).span(*(setup.held.grip or (0.0, setup.before.ends.length)))
    maker = makers.get(_gripped(setup.before, holding.diameter, holding.gripped_axis, span))
    return maker.number if maker is not None else stock


def _centred_in(job: Job, setup: DoneSetup) -> int:
    """Number of the last earlier holding in which a centre hole was drilled in this piece; 0 where none was."""
    found = [
        s.number
        for s in job.setups
        for o in s.operations
        if s.number < setup.number
        and o.plan.cut.process is Process.CENTRE
        and o.piece is setup.piece
        and o.plan.sketch.radius == 0
    ]
    return max(found, default=0)


def _gripped(state: State, diameter: float, axis: tuple[float, float], span: tuple[float, float]) -> str:
    """Tag of the operation that cut most of a round surface of that size between two z; '' where there is none."""
    areas: dict[str, float] = {}
    for solid in state:
        mesh = solid.mesh()
        for number, surface in enumerate(mesh.surfaces):
            round_there = surface.kind == "cylinder" and abs(surface.diameter - diameter) < SAME
            if round_there and math.dist(surface.point[:2], axis) < SAME and Axis().parallel(surface.direction):
                area = mesh.area_between(mesh.surface_index == number, (0.0, 0.0, 1.0), *span)
                areas[surface.operation] = areas.get(surface.operation, 0.0) + area
    return max(areas, key=lambda tag: areas[tag]) if areas else ""


def _seat_link(done: DoneOperation, makers: dict[str, DoneSetup]) -> Iterator[Link]:
    """A piece pressed on follows the seat: the two round surfaces that meet tie their holdings together."""
    assert done.plan.join is not None
    ours = [s for solid in done.before for s in _rounds(solid)]
    for theirs in _rounds(done.plan.join.solid):
        for seat in ours:
            meets = seat.cylinder_on(Axis.through(theirs.point, theirs.direction), theirs.radius, SAME)
            one, other = makers.get(seat.operation), makers.get(theirs.operation)
            if meets and one is not None and other is not None and one is not other:
                yield Link(one.number, other.number, 0.0, f"{done.plan.join.how} on its seat")
                return


def _rounds(solid: Solid) -> list[Surface]:
    return [s for s in solid.mesh().surfaces if s.kind == "cylinder"]


def setup_run_out(setup: DoneSetup) -> float | None:
    """Total indicator reading of a holding, mm, as said in the set-up or in the workshop; None where neither says."""
    said = setup.held.said.get("run-out")
    if said is not None:
        return float(said)
    return setup.held.holder.run_out if setup.held.holder and setup.held.holder.run_out else None
