"""Which triangles bound a solid, and which true surface does each belong to?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from .frame import Array
from .surface import Surface, group_same

Index = npt.NDArray[np.int64]
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Mesh:
    """The skin of a solid: vertices (n, 3) mm; triangles (m, 3) seen anticlockwise from outside; one surface each.

    `surface_index` (m,) points into `surfaces`. Arrays must not be written to: solids share them.
    """

    vertices: Array
    triangles: Index
    surface_index: Index
    surfaces: tuple[Surface, ...]

    @cached_property
    def corners(self) -> Array:
        """(m, 3, 3): the corners of each triangle, mm."""
        return self.vertices[self.triangles]

    @cached_property
    def _cross(self) -> Array:
        c = self.corners
        return np.cross(c[:, 1] - c[:, 0], c[:, 2] - c[:, 0])

    @cached_property
    def areas(self) -> Array:
        """(m,) mm²."""
        return 0.5 * np.linalg.norm(self._cross, axis=1)

    @cached_property
    def normals(self) -> Array:
        """(m, 3) outward unit normals; zero for triangles without area."""
        length = np.linalg.norm(self._cross, axis=1, keepdims=True)
        return self._cross / np.where(length > 0, length, 1.0)

    @cached_property
    def outward(self) -> Mask:
        """(m,) whether each triangle looks the way its surface's true normal does: out of a bar, not into a bore."""
        out = np.zeros(len(self.triangles), bool)
        middles = self.corners.mean(axis=1)
        for number, surface in enumerate(self.surfaces):
            mine = self.surface_index == number
            out[mine] = np.einsum("ij,ij->i", surface.normals_at(middles[mine]), self.normals[mine]) > 0
        return out

    def on(self, test: Callable[[Surface], bool]) -> Mask:
        """(m,) whether each triangle's surface passes the test."""
        passes = np.array([bool(test(s)) for s in self.surfaces], bool)
        return passes[self.surface_index] if len(passes) else np.zeros(0, bool)

    def area_of(self, test: Callable[[Surface], bool]) -> float:
        """Area of all facets whose surface passes the test, mm²."""
        return float(self.areas[self.on(test)].sum())

    def area_between(self, mask: Mask, direction: Sequence[float], low: float, high: float) -> float:
        """Area of the masked facets between two planes square to a unit direction, at `low` and `high` mm along it.

        Exact: triangles that reach beyond are cut off at the planes.
        """
        along = np.sort(self.corners[mask] @ np.asarray(direction, float), axis=1)
        areas = self.areas[mask]
        return float((areas * (_share_below(along, high) - _share_below(along, low))).sum())

    def within(self, low: float, high: float) -> Mask:
        """(m,) whether the middle of each triangle lies between two heights z, mm."""
        middles = self.corners.mean(axis=1)[:, 2]
        inside: Mask = (middles >= low) & (middles <= high)
        return inside

    def areas_by_operation(self, mask: Mask | None = None) -> dict[str, float]:
        """Area each operation's surfaces still have, mm²; of the masked triangles only."""
        areas = self.areas if mask is None else np.where(mask, self.areas, 0.0)
        sums = np.bincount(self.surface_index, areas, len(self.surfaces))
        out: dict[str, float] = {}
        for s, area in zip(self.surfaces, sums, strict=True):
            out[s.operation] = out.get(s.operation, 0.0) + float(area)
        return out

    def drawing(self) -> tuple[Array, Index, Index, Mask]:
        """(vertices, triangles, surface (m,), curved (k,)) for drawing.

        Equal geometry has one number, whichever operations cut it: a diameter finished in two set-ups shows no line.
        """
        groups = np.array(group_same(self.surfaces), np.int64)
        count = int(groups.max()) + 1 if len(groups) else 0
        curved = np.zeros(count, bool)
        for s, g in zip(self.surfaces, groups, strict=True):
            curved[g] = s.curved
        surface = groups[self.surface_index] if len(groups) else np.zeros(0, np.int64)
        return self.vertices, self.triangles, surface, curved


def _share_below(along: Array, level: float) -> Array:
    """Share of each triangle's area below a level; `along` (m, 3) are its corners' heights, sorted."""
    low, middle, high = along.T
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        rising = (level - low) ** 2 / ((middle - low) * (high - low))
        falling = 1 - (high - level) ** 2 / ((high - middle) * (high - low))
    share = np.where(level < middle, rising, falling)
    return np.where(level <= low, 0.0, np.where(level >= high, 1.0, share))
