"""Which pieces of metal is the work made of, and which lines are marked on them?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal, TypeAlias

import numpy as np

from ..geometry import Frame, Solid
from .datum import Array

MarkKind: TypeAlias = Literal["scribed", "knurl", "thread", "lettering"]


@dataclass(frozen=True, eq=False)
class Body:
    """One piece of metal; `density` in g/mm³ (steel about 0.00785)."""

    solid: Solid
    material: str
    density: float
    joined: str = ""
    """How it was joined to the work: 'pressed', 'retained' …; empty for the work itself."""
    filler: bool = False
    """Whether it is a bead of weld or solder, which no drawing of a part shows."""
    place: Frame | None = None
    """Where the frame of the piece that it was stands in the work; None for the work itself."""

    @property
    def grams(self) -> float:
        """Its mass, g."""
        return self.solid.volume * self.density

    def with_solid(self, solid: Solid) -> Body:
        """The same metal in another shape."""
        return replace(self, solid=solid)

    def moved(self, frame: Frame) -> Body:
        """The same piece elsewhere."""
        return self.with_solid(self.solid.moved(frame))


@dataclass(frozen=True, eq=False)
class Mark:
    """A line on the surface that takes no metal worth counting: scribed, knurled, or the symbol of a thread.

    `points` (k, 3) in mm lie a little (about 0.05) outside the surface they mark.
    """

    points: Array
    kind: MarkKind
    operation: str

    def moved(self, frame: Frame) -> Mark:
        """The same line elsewhere."""
        return replace(self, points=frame.points(self.points))

    def after(self, cutter: Solid, step: float = 0.5) -> list[Mark]:
        """What is left of the line when the metal under it is cut away: none, one or several pieces.

        Found to `step` mm along the line.
        """
        low, high = cutter.bounds
        if (self.points.max(axis=0) < low).any() or (self.points.min(axis=0) > high).any():
            return [self]
        fine = _subdivided(self.points, step)
        gone = cutter.contains(fine)
        if not gone.any():
            return [self]
        runs = np.split(np.arange(len(fine)), np.flatnonzero(np.diff(gone)) + 1)
        return [replace(self, points=fine[r]) for r in runs if not gone[r[0]] and len(r) > 1]


def _subdivided(points: Array, step: float) -> Array:
    """The same line with a point at least every `step` mm."""
    out = [points[:1]]
    for a, b in pairwise(points):
        count = max(1, int(np.ceil(np.linalg.norm(b - a) / step)))
        out.append(a + np.linspace(0, 1, count + 1)[1:, None] * (b - a))
    return np.concatenate(out)
