"""Which solids can a job be made of: bars, plates, and the shapes that cutters sweep?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import manifold3d as m3  # type: ignore[import-not-found]
import numpy as np

from .frame import Z_AXIS, Array, Axis, Frame, Point2, point, unit
from .mesh import Index
from .outline import Outline
from .shell import pulled_shell, turned_shell
from .solid import Solid, SurfaceTable

REACH = 500.0
"""mm: how far cutters without a size of their own extend; more than any work on a hobby-size machine."""


class SolidKernel:
    """Makes the solids of one job; owns the table that tells which surface and operation every facet came from.

    One facet count and one phase for the whole job (a corner on the 0° ray of every axis), and corners at the
    equal-area radius: coaxial cuts of one size share their facets, and round bars have their true volume.
    """

    def __init__(self, facets: int = 96) -> None:
        """`facets` a turn: a multiple of 4, 12 to 720."""
        if facets % 4 or not 12 <= facets <= 720:
            raise ValueError(f"facets a turn must be a multiple of 4 from 12 to 720 (got {facets})")
        self.facets = facets
        self.table = SurfaceTable(facets)

    # -------------------------------------------------------------- turned shapes
    def revolve(self, outline: Outline | Sequence[Point2], operation: str, axis: Axis = Z_AXIS) -> Solid:
        """A closed outline of (radius, length along the axis) in mm, turned once about the axis."""
        return Solid.from_shell(turned_shell(_outline(outline), operation, axis, self.facets), self.table)

    def cylinder(self, radius: float, start: float, end: float, operation: str, axis: Axis = Z_AXIS) -> Solid:
        """A round bar between two lengths along its axis."""
        return self.revolve(Outline((0, start), (radius, start), (radius, end), (0, end)), operation, axis)

    def cone(
        self, start_radius: float, end_radius: float, start: float, end: float, operation: str, axis: Axis = Z_AXIS
    ) -> Solid:
        """A tapered bar; either radius may be 0."""
        return self.revolve(Outline((0, start), (start_radius, start), (end_radius, end), (0, end)), operation, axis)

    def tube(self, outer: float, inner: float, start: float, end: float, operation: str, axis: Axis = Z_AXIS) -> Solid:
        """A ring between two radii: what a tool takes off that turns a bar down."""
        return self.revolve(Outline((inner, start), (outer, start), (outer, end), (inner, end)), operation, axis)

    def ball(self, radius: float, centre: Sequence[float], operation: str) -> Solid:
        """A ball about a point."""
        return self.revolve(Outline((0, -radius)).arc((0, 0), radius, -90, 90), operation, Axis(point(centre)))

    # -------------------------------------------------------------- milled shapes
    def prism(
        self, polygon: Outline | Sequence[Point2], start: float, end: float, operation: str, frame: Frame | None = None
    ) -> Solid:
        """An (x, y) outline of a frame pulled along the frame's z from start to end; arcs become cylinders."""
        place = frame or Frame.identity()
        shell = pulled_shell(_outline(polygon), start, end, operation, place, self.facets, _triangulate)
        return Solid.from_shell(shell, self.table)

    def box(self, low: Sequence[float], high: Sequence[float], operation: str, frame: Frame | None = None) -> Solid:
        """A block between two corners of a frame."""
        outline = Outline.rectangle((low[0], low[1]), (high[0], high[1]))
        return self.prism(outline, low[2], high[2], operation, frame)

    def half_space(
        self,
        normal: Sequence[float],
        distance: float,
        operation: str,
        *,
        start: float | None = None,
        end: float | None = None,
        along: Sequence[float] | None = None,
        reach: float = REACH,
    ) -> Solid:
        """All metal beyond the plane square to `normal`, `distance` mm from the origin: the cutter of a flat.

        `start` and `end` bound it along `along` (square to the normal; z by default, x where the normal is z).
        """
        n = unit(normal)
        a = unit(along) if along is not None else _across(n)
        if abs(float(a @ n)) > 1e-9:
            raise ValueError("a flat is bounded square to its normal")
        frame = Frame(np.stack([n, np.cross(a, n), a], axis=1), np.zeros(3))
        low, high = -reach if start is None else start, reach if end is None else end
        return self.box((distance, -reach, low), (distance + reach, reach, high), operation, frame)

    # -------------------------------------------------------------- several at once
    def union(self, solids: Iterable[Solid]) -> Solid:
        """All of them as one solid, in one pass of the kernel; nothing gives an empty solid."""
        first, *rest = [*solids] or [self.nothing()]
        self.table.adopt(first.table)
        return first.together(rest)

    def nothing(self) -> Solid:
        """A solid without metal."""
        return Solid(m3.Manifold(), self.table)


def _outline(shape: Outline | Sequence[Point2]) -> Outline:
    return shape if isinstance(shape, Outline) else Outline(*shape)


def _across(normal: Array) -> Array:
    """Z as far as it lies square to the normal, or x where the normal is z."""
    z = np.array([0.0, 0.0, 1.0])
    if math.hypot(normal[0], normal[1]) < 1e-9:
        return np.array([1.0, 0.0, 0.0])
    return unit(z - (z @ normal) * normal)


def _triangulate(points: Array) -> Index:
    return np.asarray(m3.triangulate([np.ascontiguousarray(points)]), np.int64)
