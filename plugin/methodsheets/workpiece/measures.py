"""Which sizes has the work, that a gauge could find: diameters, and distances between faces and axes?"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from ..geometry import Surface
from .state import State

SAME_WAY = 1e-6
"""Sine of the angle below which two directions are one."""
MOST = 300
"""More surfaces than this are not compared with each other: their sizes would be every size."""


def sizes_of(state: State) -> list[float]:
    """Diameters, and distances between parallel faces, parallel axes, and faces and axes, in mm; rising.

    Empty where the work has so many surfaces that they would give any size.
    """
    surfaces = list(dict.fromkeys(_bare(s) for solid in state for s in solid.mesh().surfaces))
    if len(surfaces) > MOST:
        return []
    found = {round(s.diameter, 4) for s in surfaces if s.kind == "cylinder"}
    found |= {round(gap, 4) for a, b in combinations(surfaces, 2) for gap in _between(a, b)}
    return sorted(size for size in found if size > 0)


def _bare(surface: Surface) -> Surface:
    """The surface without the operation that made it: one face finished twice is one face."""
    return Surface(surface.kind, "", surface.point, surface.direction, surface.radius)


def _between(a: Surface, b: Surface) -> Iterator[float]:
    """Distances that can be measured between two surfaces; from a round one also to its nearer and farther side."""
    if a.kind == "cylinder" and b.kind == "plane":
        a, b = b, a
    along = sum(p * q for p, q in zip(a.direction, b.direction, strict=True))
    if a.kind == "plane" and b.kind == "plane" and 1.0 - abs(along) < SAME_WAY:
        yield abs(_off(a, b.point))
    elif a.kind == "plane" and b.kind == "cylinder" and abs(along) < SAME_WAY:
        off = abs(_off(a, b.point))
        yield from (off, off + b.radius, abs(off - b.radius))
    elif a.kind == "cylinder" and b.kind == "cylinder" and 1.0 - abs(along) < SAME_WAY:
        off = _apart(a, b)
        yield from (off, off + a.radius + b.radius, abs(off - a.radius - b.radius), abs(a.radius - b.radius))


def _off(plane: Surface, point: tuple[float, float, float]) -> float:
    """How far a point lies off a plane."""
    return sum(n * (p - q) for n, p, q in zip(plane.direction, point, plane.point, strict=True))


def _apart(a: Surface, b: Surface) -> float:
    """Distance between two parallel axes."""
    d = [p - q for p, q in zip(b.point, a.point, strict=True)]
    along = sum(p * q for p, q in zip(d, a.direction, strict=True))
    return math.sqrt(max(0.0, sum(p * p for p in d) - along * along))
