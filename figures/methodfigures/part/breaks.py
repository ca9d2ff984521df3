"""Which stretches of a long part are left out of its views, and where does everything else stand then (ISO 128-3)?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from methodfigures.paper.shapes import Points
from methodfigures.part.spec import Spot, View
from methodfigures.solids.mesh import Floats, Mesh

BRIDGE: Final = 2.5
"""mm of paper between the two edges of a break."""
KEPT: Final = 4.0
"""mm of paper that stay plain on each side of a break."""
AWAY: Final = 3.0
"""mm of paper from a break to where a leader ends: it may rise aslant, and crosses no break."""
WORTH: Final = 6.0
"""A stretch that gives back less paper than this is not broken."""
SQUARE: Final = 1e-6
PARALLEL: Final = 1e-3
"""How far a facet may lean to the axis in a stretch whose sections are all alike."""


@dataclass(frozen=True)
class Gap:
    """What is left out: a stretch along one axis of the work, mm."""

    axis: int
    low: float
    high: float


@dataclass(frozen=True)
class Pane:
    """A piece of a broken view: its corners in view coordinates, and how far it has moved."""

    low: Points
    high: Points
    shift: Points


Lengths = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Squeeze:
    """How a view closes up where stretches are left out; everything in view coordinates, mm of the work."""

    across: Lengths = ()
    upright: Lengths = ()
    bridge: float = 0.0

    @classmethod
    def of(cls, gaps: Iterable[Gap], basis: Floats, scale: float) -> Squeeze:
        """The gaps as one view shows them: those along its paper; a gap towards the reader is not seen."""
        seen: tuple[list[tuple[float, float]], list[tuple[float, float]]] = ([], [])
        for gap in gaps:
            for i, found in enumerate(seen):
                along = float(basis[i, gap.axis])
                if abs(abs(along) - 1) < SQUARE:
                    a, b = sorted((gap.low * along, gap.high * along))
                    found.append((a, b))
        return cls(tuple(sorted(seen[0])), tuple(sorted(seen[1])), BRIDGE / scale)

    def __bool__(self) -> bool:
        return bool(self.across or self.upright)

    def at(self, place: Points) -> Points:
        """Where a point of the view stands; one in a gap stands on the nearer edge of it."""
        x, y = (float(v) for v in place)
        return np.array([self._one(x, self.across, self.bridge), self._one(y, self.upright, self.bridge)])

    def beside(self, place: Points, away: float) -> Points:
        """The same, but what is in a gap, or nearer than `away` to one, stands so far from its edge."""
        kept = [self._kept(float(v), gaps, away) for v, gaps in zip(place, (self.across, self.upright), strict=True)]
        return self.at(np.array(kept))

    @staticmethod
    def _kept(value: float, gaps: Lengths, away: float) -> float:
        for low, high in gaps:
            if low - away < value < high + away:
                return low - away if value < (low + high) / 2 else high + away
        return value

    @staticmethod
    def _one(value: float, gaps: Lengths, bridge: float) -> float:
        for low, high in gaps:
            if low < value < high:
                value = low if value < (low + high) / 2 else high
        return value - sum(high - low - bridge for low, high in gaps if value >= high)

    def panes(self) -> Iterator[Pane]:
        """Every piece that is drawn."""
        for x0, x1, dx in self._spans(self.across):
            for y0, y1, dy in self._spans(self.upright):
                yield Pane(np.array([x0, y0]), np.array([x1, y1]), np.array([dx, dy]))

    def _spans(self, gaps: Lengths) -> Iterator[tuple[float, float, float]]:
        start, moved = -1e5, 0.0
        for low, high in gaps:
            yield start, low, moved
            start, moved = high, moved - (high - low - self.bridge)
        yield start, 1e5, moved


# ------------------------------------------------------------------------------------------------ what may be left out
def plain_stretches(meshes: Sequence[Mesh], views: Sequence[View], axis: int) -> Lengths:
    """Stretches along an axis in which every section of the part is the same and nothing is dimensioned."""
    places = [m.vertices[:, axis] for m in meshes]
    places += [np.array([mark[0, axis], mark[-1, axis]]) for m in meshes for mark in m.marks]
    places.append(np.array([spot[axis] for view in views for spot in _told(view)]))
    at = np.unique(np.round(np.concatenate(places), 6))
    plain = np.ones(max(len(at) - 1, 0), bool)
    for mesh in meshes:
        along = mesh.vertices[mesh.triangles][:, :, axis]
        leaning = np.abs(mesh.normals[:, axis]) > PARALLEL
        # a leaning facet spoils every stretch between its ends
        first = np.searchsorted(at, along[leaning].min(1) + SQUARE, "right") - 1
        last = np.searchsorted(at, along[leaning].max(1) - SQUARE, "left")
        spoilt = np.zeros(len(at) + 1, np.int64)
        np.add.at(spoilt, np.clip(first, 0, len(at)), 1)
        np.add.at(spoilt, np.clip(np.maximum(last, first), 0, len(at)), -1)
        plain &= np.cumsum(spoilt)[: len(plain)] <= 0
    return tuple((a, b) for a, b, same in zip(at.tolist(), at[1:].tolist(), plain.tolist(), strict=False) if same)


def _told(view: View) -> Iterator[Spot]:
    """Places of a view that must stay: ends of its sizes and lines, holes, names, ends of threads."""
    for size in view.sizes:
        yield from (size.first, size.second)
    for line in view.lines:
        yield from (line.start, line.end)
    for thread in view.threads:
        yield from (thread.start, thread.end)
    yield from (circle.centre for circle in view.circles)
    yield from (label.spot for label in view.labels)


def gaps_in(stretches: Lengths, axis: int, excess: float, scale: float) -> tuple[Gap, ...]:
    """The longest stretches, closed up until `excess` mm of paper are saved; () where they do not save as much."""
    found: list[Gap] = []
    for low, high in sorted(stretches, key=lambda one: one[0] - one[1]):
        spare = (high - low) * scale - 2 * KEPT - BRIDGE
        if spare < WORTH or excess <= 0:
            break
        out = (min(spare, excess) + BRIDGE) / scale
        middle = (low + high) / 2
        found.append(Gap(axis, middle - out / 2, middle + out / 2))
        excess -= spare
    return tuple(found) if excess <= 0 else ()
