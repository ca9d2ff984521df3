"""Where does a thing stand, and about which line does it turn?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Array: TypeAlias = npt.NDArray[np.float64]
Point: TypeAlias = tuple[float, float, float]
Point2: TypeAlias = tuple[float, float]

PARALLEL = 1e-6
"""Sine of the angle below which two directions count as parallel."""


def unit(vector: Sequence[float] | Array) -> Array:
    """The direction of a vector, length 1; ValueError where it has no length."""
    v = np.asarray(vector, float)
    length = float(np.linalg.norm(v))
    if not length > 1e-12:
        raise ValueError(f"a direction needs a length (got {tuple(v)})")
    return v / length


def point(values: Sequence[float] | Array) -> Point:
    """Three numbers as a plain tuple, with negative zeros removed so that equal points print alike."""
    x, y, z = (float(v) + 0.0 for v in values)
    return (x, y, z)


def cross(a: Sequence[float], b: Sequence[float]) -> Point:
    """The vector product of two plain vectors (much faster than numpy's for one pair)."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


@dataclass(frozen=True)
class Axis:
    """A line with a direction: lengths run along `direction` from `point`, angles turn right-handed from `zero`.

    `point` in mm; `direction` and `zero` are unit vectors at right angles.
    """

    point: Point = (0.0, 0.0, 0.0)
    direction: Point = (0.0, 0.0, 1.0)
    zero: Point = (1.0, 0.0, 0.0)

    def __post_init__(self) -> None:
        """Refuse a frame that is not square: it would shear the work."""
        d, z = np.array(self.direction), np.array(self.zero)
        if abs(d @ d - 1) > 1e-9 or abs(z @ z - 1) > 1e-9 or abs(d @ z) > 1e-9:
            raise ValueError(f"an axis needs unit vectors at right angles (got {self.direction}, {self.zero})")

    @classmethod
    def upright(cls, x: float = 0.0, y: float = 0.0) -> Axis:
        """An axis parallel to z through (x, y) mm; lengths along it are z, 0° is the x direction."""
        return cls((float(x), float(y), 0.0))

    @classmethod
    def through(cls, start: Sequence[float], direction: Sequence[float]) -> Axis:
        """An axis through a point in any direction; 0° is z, or x where the axis itself is parallel to z.

        The choice depends on the line alone, so two holes on one line share their facets.
        """
        d = unit(direction)
        up = np.array([0.0, 0.0, 1.0]) if math.hypot(d[0], d[1]) > PARALLEL else np.array([1.0, 0.0, 0.0])
        across = unit(up - (up @ d) * d)
        return cls(point(start), point(d), point(unit(across - (across @ d) * d)))

    @cached_property
    def side(self) -> Array:
        """The direction of 90°: completes the right-handed frame."""
        return np.array(cross(self.direction, self.zero))

    def at(self, length: float, radius: float = 0.0, angle: float = 0.0) -> Array:
        """The point at a length along the axis, a radius from it and an angle in degrees."""
        a = math.radians(angle)
        across = math.cos(a) * np.array(self.zero) + math.sin(a) * self.side
        return np.array(self.point) + length * np.array(self.direction) + radius * across

    def lengths(self, points: Array) -> Array:
        """Length along the axis of each point (n, 3); (n,) mm."""
        along: Array = (points - np.array(self.point)) @ np.array(self.direction)
        return along

    def radii(self, points: Array) -> Array:
        """Distance from the axis of each point (n, 3); (n,) mm."""
        p = points - np.array(self.point)
        return np.hypot(p @ np.array(self.zero), p @ self.side)

    def parallel(self, direction: Sequence[float]) -> bool:
        """Whether a direction runs along this axis, either way."""
        return math.hypot(*cross(self.direction, direction)) < PARALLEL

    def distance(self, where: Sequence[float]) -> float:
        """Distance of a point from the axis, mm."""
        x, y, z = (float(w) - p for w, p in zip(where, self.point, strict=True))
        return math.hypot(*cross(self.direction, (x, y, z)))

    @property
    def frame(self) -> Frame:
        """The frame whose z is the axis and whose x is 0°."""
        return Frame.of(self.point, x=self.zero, z=self.direction)


Z_AXIS = Axis()
"""The main axis of the work: from end A into the metal, 0° mark along x."""


@dataclass(frozen=True, eq=False)
class Frame:
    """A place to stand: columns of `rotation` (3, 3) are its x, y, z in the outer frame, `origin` (3,) in mm."""

    rotation: Array
    origin: Array

    @classmethod
    def identity(cls) -> Frame:
        """The outer frame itself."""
        return cls(np.eye(3), np.zeros(3))

    @classmethod
    def of(
        cls, origin: Sequence[float] = (0, 0, 0), *, x: Sequence[float] = (1, 0, 0), z: Sequence[float] = (0, 0, 1)
    ) -> Frame:
        """A frame from its origin, its x direction and its z direction (made square on z)."""
        zz = unit(z)
        xx = unit(np.asarray(x, float) - (np.asarray(x, float) @ zz) * zz)
        return cls(np.stack([xx, np.cross(zz, xx), zz], axis=1), np.asarray(origin, float))

    @classmethod
    def shifted(cls, vector: Sequence[float]) -> Frame:
        """A frame moved by a vector without turning."""
        return cls(np.eye(3), np.asarray(vector, float))

    @classmethod
    def turned(cls, angle: float, axis: Axis = Z_AXIS) -> Frame:
        """A frame turned right-handed by an angle in degrees about an axis."""
        a, d = math.radians(angle), np.array(axis.direction)
        turn = np.array([[0, -d[2], d[1]], [d[2], 0, -d[0]], [-d[1], d[0], 0]])
        r = np.eye(3) + math.sin(a) * turn + (1 - math.cos(a)) * (turn @ turn)
        p = np.array(axis.point)
        return cls(r, p - r @ p)

    @property
    def matrix(self) -> Array:
        """(3, 4): the rotation with the origin as fourth column."""
        return np.column_stack([self.rotation, self.origin])

    def points(self, inside: Array | Sequence[float]) -> Array:
        """Points (n, 3) or (3,) given in this frame, seen from the outer frame."""
        out: Array = np.asarray(inside, float) @ self.rotation.T + self.origin
        return out

    def vectors(self, inside: Array | Sequence[float]) -> Array:
        """Directions given in this frame, seen from the outer frame."""
        out: Array = np.asarray(inside, float) @ self.rotation.T
        return out

    def inverse(self) -> Frame:
        """The frame that undoes this one."""
        return Frame(self.rotation.T, -self.rotation.T @ self.origin)

    def compose(self, inner: Frame) -> Frame:
        """`inner`, given in this frame, seen from the outer frame: first `inner`, then this."""
        return Frame(self.rotation @ inner.rotation, self.points(inner.origin))
