"""How concentric are two features, when each was cut in its own holding?

Features cut in one holding share the spindle's axis: they run true to each other. A feature belongs to the holding of
the last cut that made its surface (`last_cut`); a reamed hole to that of the boring which the reamer followed, and
after a drill nothing is known of it. A holding hangs on the surface that it grips, with its own run-out
between that surface and the spindle (`hanging`); the surface was cut in an earlier holding, or is the stock's own. A
piece that is pressed, shrunk or slid on follows its seat as truly as the fit of the seat keeps it. Between two features
lie the holdings on the way from one to the other. Worst case adds their readings; the likely one is the root of the sum
of their squares (independent, centred errors: the usual rule). All readings are total indicator readings in mm.

Where a feature, or what a holding grips, was cut in more than one holding, the worst of the ways is told. Where one
step of the way is not known, nothing is known but why.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from methodsheets.method.done import WorkedOperation
from methodsheets.method.hanging import Link, Node, hangs, seats
from methodsheets.method.job import Job
from methodsheets.method.last_cut import LastCuts
from methodsheets.operations import say
from methodsheets.operations.facts import length_measure
from methodsheets.sheet.model import RunOutRow

MOST_ROWS = 15
MOST_WAYS = 256
"""Choices of what hangs on what that are looked at for one relation."""


@dataclass(frozen=True)
class Chain:
    """The holdings that lie between two features."""

    links: tuple[Link, ...] = ()
    aside: str = ""
    """What is to be known beside it, as a draft."""
    lost: str = ""
    """Why nothing is known, where it is no link's fault."""

    @property
    def known(self) -> bool:
        """Whether every step has a reading."""
        return not self.lost and all(link.run_out is not None for link in self.links)

    @property
    def worst(self) -> float:
        """Every run-out in one direction, mm; of what is known."""
        return sum(link.run_out or 0.0 for link in self.links)

    @property
    def likely(self) -> float:
        """Root of the sum of squares, mm."""
        return math.sqrt(sum((link.run_out or 0.0) ** 2 for link in self.links))

    @property
    def words(self) -> str:
        """A draft: 'collet chuck 0.02 + four-jaw chuck 0.02', or why it is not known."""
        if not self.known:
            unknown = [link.words for link in self.links if link.run_out is None]
            return "not known: " + (self.lost or "; ".join(dict.fromkeys(unknown)))
        return (" + ".join(link.words for link in self.links) or "cut in one holding") + self.aside

    @property
    def order(self) -> tuple[int, float]:
        """The better, the less: unknown steps count before any reading."""
        return (sum(link.run_out is None for link in self.links) + bool(self.lost), self.worst)


def run_out_table(job: Job) -> list[RunOutRow]:
    """A row for every pair of features that the author has named or that have limits; those that are known first."""
    made = list(named_features(job).items())
    ways, known, unknown = _Ways(job), list[RunOutRow](), list[RunOutRow]()
    for (first, one), (second, other) in itertools.combinations(made, 2):
        chain = ways.between(one, other)
        if chain is None:
            continue
        words = say.words(chain.words)
        if chain.known:
            worst, likely = length_measure(chain.worst, "size"), length_measure(chain.likely, "size")
            known.append(RunOutRow(first, second, worst, likely, words))
        else:
            unknown.append(RunOutRow(first, second, None, None, words))
    return [*known, *unknown][:MOST_ROWS]


def named_features(job: Job) -> dict[str, WorkedOperation]:
    """Turned, bored and reamed features with a name or with limits; of one name, the last counts."""
    return {
        done.plan.feature: done
        for done in job.operations
        if done.station.holding is not None
        and done.plan.cut.process.row.runs_true
        and done.plan.feature
        and (done.limits or done.called)
    }


def between_surfaces(job: Job, piece: str, one: Iterable[str], other: Iterable[str]) -> Chain | None:
    """The holdings between two surfaces of a piece by the marks of the operations that cut them; worst of the ways.

    None where they hang together by nothing.
    """
    return _Ways(job).between_surfaces(f"stock of {piece}", one, other)


def between(job: Job, one: WorkedOperation, other: WorkedOperation) -> Chain | None:
    """The holdings between two features; None where they are not of one part, or one of them is no more there."""
    return _Ways(job).between(one, other)


class _Ways:
    """What hangs on what in a method, and the ways from feature to feature."""

    def __init__(self, job: Job) -> None:
        self._setup_of = {done.tag: setup.number for setup in job.setups for done in setup.operations}
        self._last = LastCuts(job)
        self._hangs = list(hangs(job, self._last))
        self._seats = list(seats(job, self._last))

    def between(self, one: WorkedOperation, other: WorkedOperation) -> Chain | None:
        """The worst of the ways between what stands of two features."""
        ends = [self._last.of(feature) for feature in (one, other)]
        if lost := self._lost(ends):
            return Chain(lost=lost)
        worst = self._worst(*(self._nodes(cuts) for cuts in ends))
        known = worst is not None and worst.known
        return replace(worst, aside=self._aside((one, other), ends)) if worst is not None and known else worst

    def between_surfaces(self, stock: str, one: Iterable[str], other: Iterable[str]) -> Chain | None:
        """The worst of the ways between surfaces by their marks; what no operation cut is the stock's own skin."""
        ends = [[self._last.of_tag(tag, len(self._last.operations)) for tag in tags] for tags in (one, other)]
        if lost := self._lost([cuts for each in ends for cuts in each]):
            return Chain(lost=lost)
        return self._worst(*([node for cuts in each for node in self._nodes(cuts) or [stock]] for each in ends))

    def _lost(self, ends: Sequence[Sequence[WorkedOperation]]) -> str:
        """Why the spindle does not say where one of the surfaces lies; empty where it does."""
        return next((words for cuts in ends for cut in cuts if (words := self._not_true(cut))), "")

    def _nodes(self, cuts: Sequence[WorkedOperation]) -> list[Node]:
        """The holdings in which a surface was cut."""
        return [self._setup_of[led.tag] for cut in cuts for led in self._last.led_by(cut)]

    def _worst(self, starts: Sequence[Node], goals: Sequence[Node]) -> Chain | None:
        """The worst of the ways between holdings; None where one of them leads nowhere."""
        choices = [hang.on for hang in self._hangs]
        if math.prod(map(len, [starts, goals, *choices])) > MOST_WAYS:
            return Chain(lost="it hangs on surfaces that were cut in too many holdings")
        found = []
        for start, goal, *world in itertools.product(starts, goals, *choices):
            hung = zip(self._hangs, world, strict=True)
            links = [Link(hang.of, on, hang.run_out, hang.words, hang.of) for hang, on in hung]
            found.append(_way([*links, *self._seats], start, goal))
        if not found or any(chain is None for chain in found):
            return None
        return max((chain for chain in found if chain is not None), key=lambda chain: chain.order)

    def _not_true(self, cut: WorkedOperation) -> str:
        """Why the spindle does not say where a surface lies; empty where it does."""
        if cut.station.holding is None or not cut.plan.cut.process.row.runs_true:
            return f"the last cut on it, operation {cut.number}, is not led by the spindle"
        return self._last.wanders(cut)

    def _aside(self, features: Sequence[WorkedOperation], ends: Sequence[Sequence[WorkedOperation]]) -> str:
        """Of a surface that a later cut ran along at its own size: the figure holds where that cut cleans up."""
        skimmed = [
            f"; {feature.plan.feature} as operation {cut.number} leaves it, where that cut cleans up all round"
            for feature, cuts in zip(features, ends, strict=True)
            for cut in cuts
            if cut is not feature and self._last.ran_along(cut)
        ]
        return "".join(dict.fromkeys(skimmed))


def _way(links: Sequence[Link], start: Node, end: Node) -> Chain | None:
    """The way with the least run-out from one holding to another: grown from the start, nearest first."""
    reached: set[Node] = set()
    open_ends: dict[Node, Chain] = {start: Chain()}
    while open_ends:
        node = min(open_ends, key=lambda n: (open_ends[n].order, str(n)))
        chain = open_ends.pop(node)
        reached.add(node)
        if node == end:
            return chain
        for link in links:
            if node not in (link.one, link.other):
                continue
            far = link.other if link.one == node else link.one
            longer = Chain((*chain.links, link))
            if far not in reached and (far not in open_ends or longer.order < open_ends[far].order):
                open_ends[far] = longer
    return None
