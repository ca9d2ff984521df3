"""Which surface does a facet belong to, and which operation made it?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

import numpy as np

from .frame import Array, Axis, Frame, Point, point, unit

Kind: TypeAlias = Literal["plane", "cylinder", "cone", "torus", "other"]
KINDS: tuple[Kind, ...] = ("plane", "cylinder", "cone", "torus", "other")

STOCK = "stock"
"""The operation id of the skin that came with the bar, plate or casting."""

SAME = 1e-6
"""mm: two surfaces whose numbers differ by less than this are one surface."""


@dataclass(frozen=True)
class Surface:
    """The true surface behind a set of facets, where it stands, and the operation that made it.

    The same geometry always has the same numbers, however it was cut (see the constructors below):
    `point` is the point of the plane or axis nearest the origin, the tip of a cone, the middle of a torus.
    """

    kind: Kind
    operation: str
    point: Point = (0.0, 0.0, 0.0)
    direction: Point = (0.0, 0.0, 1.0)
    """Normal of a plane, axis of a round surface (unit vector; a cone's runs from its tip into the cone)."""
    radius: float = 0.0
    """mm: radius of a cylinder; radius of the rounding of a torus (a ball is a torus whose ring is 0)."""
    ring: float = 0.0
    """mm: torus only, distance of the middle of the rounding from the axis."""
    taper: float = 0.0
    """Degrees: cone only, angle between axis and side."""
    label: str = ""

    @property
    def curved(self) -> bool:
        """Whether edges between facets of this surface are no edges of the part."""
        return self.kind != "plane"

    @property
    def turned(self) -> bool:
        """Whether it is a surface about an axis."""
        return self.kind in ("cylinder", "cone", "torus")

    @property
    def diameter(self) -> float:
        """mm: twice the radius."""
        return 2 * self.radius

    def coaxial(self, axis: Axis) -> bool:
        """Whether this is a round surface about the given axis."""
        return self.turned and axis.distance(self.point) < SAME and (axis.parallel(self.direction) or self._ball)

    def cylinder_on(self, axis: Axis, radius: float, tolerance: float = SAME) -> bool:
        """Whether this is the cylinder of that radius (mm) about that axis."""
        return self.kind == "cylinder" and abs(self.radius - radius) < tolerance and self.coaxial(axis)

    @property
    def _ball(self) -> bool:
        return self.kind == "torus" and self.ring < SAME

    def normals_at(self, points: Array) -> Array:
        """True normals (n, 3) at points of it: away from the axis, along a plane's direction; 0 for 'other'."""
        if self.kind == "plane":
            return np.broadcast_to(np.array(self.direction), points.shape)
        if not self.turned:
            return np.zeros(points.shape)
        d = points - np.array(self.point)
        along = d @ np.array(self.direction)
        across = d - np.outer(along, self.direction)
        across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-12)
        if self.kind == "cone":
            t = math.radians(self.taper)
            return math.cos(t) * across - math.sin(t) * np.array(self.direction)
        if self.kind == "torus":
            across = d - self.ring * across
            across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-12)
        return across

    def moved(self, frame: Frame) -> Surface:
        """The same surface carried along by a move (frame = where the old outer frame now stands)."""
        p, d = frame.points(self.point), frame.vectors(self.direction)
        made = {"plane": plane, "cylinder": cylinder}.get(self.kind)
        if made is plane:
            return plane(self.operation, p, d, self.label)
        if made is cylinder:
            return cylinder(self.operation, p, d, self.radius, self.label)
        d = d if self.kind == "cone" else _one_way(d)
        return replace(self, point=point(p), direction=point(d))

    @property
    def numbers(self) -> tuple[float, ...]:
        """What two surfaces are compared by; direction does not count for a ball."""
        direction = (0.0, 0.0, 0.0) if self._ball else self.direction
        return (float(KINDS.index(self.kind)), *self.point, *direction, self.radius, self.ring, self.taper)


def _one_way(direction: Array) -> Array:
    """Of the two directions of a line the one whose first clear component is positive."""
    clear = direction[np.abs(direction) > 1e-9]
    return -direction if len(clear) and clear[0] < 0 else direction


def plane(
    operation: str, through: Sequence[float] | Array, normal: Sequence[float] | Array, label: str = ""
) -> Surface:
    """The plane through a point, square to a normal."""
    n = _one_way(unit(normal))
    return Surface("plane", operation, point((np.asarray(through, float) @ n) * n), point(n), label=label)


def cylinder(
    operation: str, through: Sequence[float] | Array, direction: Sequence[float] | Array, radius: float, label: str = ""
) -> Surface:
    """The cylinder of a radius (mm) about the line through a point."""
    d, p = _one_way(unit(direction)), np.asarray(through, float)
    return Surface("cylinder", operation, point(p - (p @ d) * d), point(d), float(radius), label=label)


def cone(
    operation: str, tip: Sequence[float] | Array, direction: Sequence[float] | Array, taper: float, label: str = ""
) -> Surface:
    """The cone that opens from its tip along a direction; `taper` degrees between axis and side."""
    return Surface("cone", operation, point(tip), point(unit(direction)), taper=float(taper), label=label)


def torus(
    operation: str,
    middle: Sequence[float] | Array,
    direction: Sequence[float] | Array,
    ring: float,
    radius: float,
    label: str = "",
) -> Surface:
    """The ring surface of a corner rounding: `ring` mm from the axis to the middle of a rounding of `radius` mm."""
    axis = point(_one_way(unit(direction)))
    return Surface("torus", operation, point(middle), axis, float(radius), float(ring), label=label)


def group_same(surfaces: Sequence[Surface]) -> list[int]:
    """For each surface the number of its geometry: one number for equal geometry, whatever operation cut it.

    Numbers count from 0 in order of first appearance. 'other' surfaces are equal only when operation and label are.
    """
    groups: list[int] = []
    kept: list[Surface] = []
    table: list[tuple[float, ...]] = []
    for surface in surfaces:
        numbers = surface.numbers
        found = next((i for i, known in enumerate(table) if _same(numbers, known, surface, kept[i])), None)
        if found is None:
            found = len(table)
            table.append(numbers)
            kept.append(surface)
        groups.append(found)
    return groups


def _same(a: tuple[float, ...], b: tuple[float, ...], first: Surface, second: Surface) -> bool:
    if a[0] != b[0]:
        return False
    if first.kind == "other" and (first.operation, first.label) != (second.operation, second.label):
        return False
    return all(math.isclose(p, q, rel_tol=1e-9, abs_tol=SAME) for p, q in zip(a, b, strict=True))
