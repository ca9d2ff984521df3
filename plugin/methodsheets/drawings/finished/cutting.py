"""Where is a block cut open, so that its bores are seen from the side (ISO 128-3, from memory)?

The front view is cut through the axes of the upright holes, one of each kind, in steps where they do not stand in one
plane; a plane is taken only where nothing that is told in the front view would be cut away with the front half.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from methodsheets.drawings.finished.made import NEAR, CutThread, Made, Spot
from methodsheets.workpiece.features import Round

MOST_STEPS = 4
"""More stretches than this in one cut are no help to a reader."""
X, Y, Z = 0, 1, 2


@dataclass(frozen=True)
class Stretch:
    """Part of a cut: from a place along the work to the next, in a plane at a distance from the front."""

    start: float
    end: float
    plane: float


@dataclass(frozen=True)
class Opened:
    """The cut through a block: its stretches from left to right; none where it is not cut."""

    made: Made
    stretches: tuple[Stretch, ...]

    @classmethod
    def of(cls, made: Made, low: Spot, high: Spot, told: Iterable[tuple[float, float, float]]) -> Opened:
        """The cut of a block between two corners; `told` = (first, last place along X, rearmost place) of all that the
        front view tells of.
        """
        upright = [h for h in made.holes if h.axis.parallel((0.0, 0.0, 1.0)) and not h.part]
        level = [h for h in made.holes if h.axis.parallel((1.0, 0.0, 0.0)) and not h.part]
        chosen = _chosen(upright)
        if chosen:
            stretches = _stretches(chosen, low[X], high[X])
        else:
            stretches = (Stretch(low[X], high[X], float(level[0].axis.point[Y])),) if level else ()
        lost = any(rear < s.plane - NEAR and a < s.end and b > s.start for s in stretches for a, b, rear in told)
        return cls(made, () if lost else stretches)

    def planes(self) -> tuple[tuple[float, float], ...]:
        """(start along the paper, where it lies towards the reader) of each stretch of the front view."""
        return tuple((s.start, -s.plane) for s in self.stretches)

    def line(self, z: float) -> tuple[Spot, ...]:
        """The line of the cut, as it is seen from above: its ends and bends; () where the middle of holes tells it."""
        if len(self.stretches) < 2:
            return ()
        return tuple((x, s.plane, z) for s in self.stretches for x in (s.start, s.end))

    def threads(self) -> Iterable[CutThread]:
        """The threads that are cut lengthwise."""
        for thread in self.made.threads:
            x, y, _ = (float(v) for v in thread.axis.point)
            through = [s for s in self.stretches if abs(s.plane - y) < NEAR]
            upright = thread.axis.parallel((0.0, 0.0, 1.0)) and any(s.start < x < s.end for s in through)
            if upright or (thread.axis.parallel((1.0, 0.0, 0.0)) and through):
                yield thread


def _chosen(holes: Sequence[Round]) -> list[list[Round]]:
    """Holes that one cut passes, those about one axis together, from left to right: one of each kind, the widest kinds
    first; of a kind the one that needs no step.
    """
    bores: dict[tuple[float, float], list[Round]] = {}
    for h in holes:
        bores.setdefault((round(float(h.axis.point[X]), 4), round(float(h.axis.point[Y]), 4)), []).append(h)
    kinds: dict[tuple[tuple[float, float, float], ...], list[list[Round]]] = {}
    for bore in bores.values():
        kind = tuple(sorted((round(h.diameter, 3), round(h.low, 3), round(h.high, 3)) for h in bore))
        kinds.setdefault(kind, []).append(bore)
    found: list[list[Round]] = []
    for kind in sorted(kinds, key=lambda kind: (-max(d for d, _, _ in kind), kind)):
        free = [bore for bore in kinds[kind] if all(_apart(bore, other) for other in found)]
        best = min(free, key=lambda bore: (_step(bore, found), _at(bore)), default=None)
        if best is not None and len(found) < MOST_STEPS:
            found.append(best)
    level = {_at(bore)[1] for bore in found}
    found += [b for b in bores.values() if b not in found and _at(b)[1] in level and all(_apart(b, o) for o in found)]
    return sorted(found, key=_at)


def _at(bore: Sequence[Round]) -> tuple[float, float]:
    x, y, _ = (float(v) for v in bore[0].axis.point)
    return x, round(y, 4)


def _step(bore: Sequence[Round], found: Sequence[Sequence[Round]]) -> float:
    """How far the cut steps aside for it from the nearest that is there."""
    return min((abs(_at(bore)[1] - _at(other)[1]) for other in found), default=0.0)


def _apart(one: Sequence[Round], other: Sequence[Round]) -> bool:
    """Whether the cut can step from one to the other: they lie beside each other, or in one plane."""
    wide = sum(max(h.diameter for h in bore) / 2 for bore in (one, other))
    (x, y), (u, v) = _at(one), _at(other)
    return abs(y - v) < NEAR or abs(x - u) > wide + NEAR


def _stretches(bores: Sequence[Sequence[Round]], low: float, high: float) -> tuple[Stretch, ...]:
    """One plane as long as the holes stand in it; a step half way to the next that does not."""
    found: list[Stretch] = []
    start = low
    for one, other in itertools.pairwise(bores):
        if abs(_at(one)[1] - _at(other)[1]) > NEAR:
            a = _at(one)[0] + max(h.diameter for h in one) / 2
            b = _at(other)[0] - max(h.diameter for h in other) / 2
            found.append(Stretch(start, (a + b) / 2, _at(one)[1]))
            start = (a + b) / 2
    return (*found, Stretch(start, high, _at(bores[-1])[1]))
