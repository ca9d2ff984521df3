"""What does a part consist of, as a drawing office lists it: rounds, holes, faces, tapers, fillets and flats?

Read from the true surfaces that the facets remember, so a size is what the operation said and never what a mesh
happens to measure. Lengths in mm in the frame of the work, angles in degrees.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np

from ..geometry import Axis, Mesh, Solid, Surface
from ..geometry.frame import Array, Point
from ..geometry.mesh import Index
from ..geometry.surface import group_same

SPECK = 1e-3
"""mm: stretches shorter than this are dust of the kernel."""
JOINED = 1e-4
"""mm: two stretches of one surface that are no further apart are one stretch."""
WHOLE = 200.0
"""Degrees: a cylinder seen over more of its round than this has a diameter, over less a radius."""


@dataclass(frozen=True)
class Round:
    """A stretch of a cylinder: a journal, a bore, a hole; `part` = it is only a rounding with a radius."""

    axis: Axis
    diameter: float
    low: float
    high: float
    """Lengths along the axis between which metal or hole stands."""
    inside: bool
    part: bool
    operation: str
    towards: Point = (0.0, 0.0, 0.0)
    """From the axis to the middle of the arc of a rounding, as a direction of length 1."""

    @property
    def length(self) -> float:
        """Its length along its axis."""
        return self.high - self.low

    def spot(self, share: float = 0.5) -> Array:
        """A point on its axis, between its ends."""
        return self.axis.at(self.low + share * self.length)


@dataclass(frozen=True)
class Tapered:
    """A stretch of a cone between two lengths: a taper, a chamfer, a countersink, the point of a drill."""

    axis: Axis
    low: float
    high: float
    at_low: float
    """Diameter at its lower end."""
    at_high: float
    half_angle: float
    inside: bool
    operation: str


@dataclass(frozen=True)
class Flat:
    """A plane stretch of skin: `normal` points out of the metal, `level` is its distance from the origin along it."""

    normal: Point
    level: float
    low: Point
    high: Point
    """Corners of the box around it."""
    operation: str

    def along(self, axis: int) -> bool:
        """Whether it is square to the axis 0, 1 or 2."""
        return abs(abs(self.normal[axis]) - 1) < 1e-7


@dataclass(frozen=True)
class Fillet:
    """A rounded corner about an axis: its radius, where its middle stands, and the diameter it runs round on."""

    axis: Axis
    radius: float
    at: float
    diameter: float
    operation: str


@dataclass(frozen=True)
class Features:
    """All features of one solid, each in the order in which it is met along its axis."""

    rounds: tuple[Round, ...]
    tapers: tuple[Tapered, ...]
    flats: tuple[Flat, ...]
    fillets: tuple[Fillet, ...]

    def about(self, axis: Axis) -> tuple[Round, ...]:
        """The rounds about one line."""
        return tuple(r for r in self.rounds if axis.distance(r.axis.point) < 1e-5 and axis.parallel(r.axis.direction))


def features_of(solid: Solid) -> Features:
    """The features of a solid; films thinner than a hundredth of a millimetre and dust are left out."""
    return cast(Features, solid.remembered(_features))


def _features(mesh: Mesh) -> Features:
    groups = np.array(group_same(mesh.surfaces), np.int64)
    rounds: list[Round] = []
    tapers: list[Tapered] = []
    flats: list[Flat] = []
    fillets: list[Fillet] = []
    owner = groups[mesh.surface_index] if len(groups) else np.zeros(0, np.int64)
    for number in np.unique(owner):
        mine = owner == number
        surface = mesh.surfaces[int(mesh.surface_index[np.flatnonzero(mine)[0]])]
        for outward in (True, False):
            facets = np.flatnonzero(mine & (mesh.outward == outward))
            if not len(facets):
                continue
            if surface.kind == "cylinder":
                rounds += _rounds(mesh, facets, surface, outward)
            elif surface.kind == "cone":
                tapers += _tapers(mesh, facets, surface, outward)
            elif surface.kind == "torus":
                fillets.append(_fillet(mesh, facets, surface))
            elif surface.kind == "plane":
                flats += _flats(mesh, facets)
    return Features(
        tuple(sorted(rounds, key=lambda r: (r.low, r.high, r.diameter))),
        tuple(sorted(tapers, key=lambda t: (t.low, t.high, t.at_low))),
        tuple(sorted(flats, key=lambda f: (f.normal, f.level, f.low))),
        tuple(sorted(fillets, key=lambda f: (f.at, f.radius))),
    )


def _axis(surface: Surface) -> Axis:
    """The axis of a round surface; one along z keeps its lengths as z of the work."""
    x, y, z = surface.direction
    if abs(abs(z) - 1) < 1e-9:
        return Axis.upright(surface.point[0], surface.point[1])
    return Axis.through(surface.point, (x, y, z))


def _stretches(low: Array, high: Array) -> Iterator[tuple[float, float, Index]]:
    """(from, to, which facets) of each run of facets that follow one another along a line."""
    order = np.argsort(low)
    start, end = math.inf, -math.inf
    members: list[int] = []
    for i in order.tolist():
        if low[i] > end + JOINED and members:
            yield start, end, np.array(members)
            start, end, members = math.inf, -math.inf, []
        start, end = min(start, float(low[i])), max(end, float(high[i]))
        members.append(i)
    if members:
        yield start, end, np.array(members)


def _along(mesh: Mesh, facets: Index, axis: Axis) -> tuple[Array, Array]:
    lengths = axis.lengths(mesh.corners[facets].reshape(-1, 3)).reshape(-1, 3)
    return lengths.min(axis=1), lengths.max(axis=1)


def _rounds(mesh: Mesh, facets: Index, surface: Surface, outward: bool) -> Iterator[Round]:
    axis = _axis(surface)
    for low, high, members in _stretches(*_along(mesh, facets, axis)):
        if high - low < SPECK:
            continue
        mine = facets[members]
        part = _seen(mesh, mine, axis) < WHOLE
        towards = _towards(mesh, mine, axis) if part else (0.0, 0.0, 0.0)
        yield Round(
            axis=axis,
            diameter=surface.diameter,
            low=low,
            high=high,
            inside=not outward,
            part=part,
            operation=_maker(mesh, mine),
            towards=towards,
        )


def _towards(mesh: Mesh, facets: Index, axis: Axis) -> Point:
    """Direction from the axis to the middle of an arc."""
    corners = mesh.corners[facets].reshape(-1, 3)
    feet = np.array(axis.point) + np.outer(axis.lengths(corners) - axis.lengths(np.array([axis.point])), axis.direction)
    turns = np.unique(np.round((corners - feet), 6), axis=0).sum(axis=0)
    length = float(np.linalg.norm(turns))
    return _point(turns / length) if length > SPECK else (0.0, 0.0, 0.0)


def _seen(mesh: Mesh, facets: Index, axis: Axis) -> float:
    """Degrees of the round that the facets cover, wherever along the axis."""
    p = mesh.corners[facets] - np.array(axis.point)
    turn = np.degrees(np.arctan2(p @ axis.side, p @ np.array(axis.zero)))
    first = turn[:, :1]
    spread = (turn - first + 180.0) % 360.0 - 180.0
    start, end = (first[:, 0] + spread.min(axis=1)) % 360.0, np.ptp(spread, axis=1)
    covered = np.zeros(720, bool)
    for a, width in zip(start, end, strict=True):
        covered[np.arange(round(2 * a), round(2 * (a + width))) % 720] = True
    return float(covered.mean() * 360.0)


def _maker(mesh: Mesh, facets: Index) -> str:
    """The operation that made most of the facets' area."""
    areas: dict[str, float] = {}
    for i in facets.tolist():
        name = mesh.surfaces[int(mesh.surface_index[i])].operation
        areas[name] = areas.get(name, 0.0) + float(mesh.areas[i])
    return max(sorted(areas), key=lambda name: areas[name])


def _tapers(mesh: Mesh, facets: Index, surface: Surface, outward: bool) -> Iterator[Tapered]:
    axis = _axis(surface)
    tip = float(axis.lengths(np.array([surface.point]))[0])
    slope = math.tan(math.radians(surface.taper))
    for low, high, members in _stretches(*_along(mesh, facets, axis)):
        if high - low < SPECK:
            continue
        ends = [2 * slope * abs(z - tip) for z in (low, high)]
        yield Tapered(
            axis=axis,
            low=low,
            high=high,
            at_low=ends[0],
            at_high=ends[1],
            half_angle=surface.taper,
            inside=not outward,
            operation=_maker(mesh, facets[members]),
        )


def _fillet(mesh: Mesh, facets: Index, surface: Surface) -> Fillet:
    axis = _axis(surface)
    at = float(axis.lengths(np.array([surface.point]))[0])
    return Fillet(axis, surface.radius, at, 2 * surface.ring, _maker(mesh, facets))


def _flats(mesh: Mesh, facets: Index) -> Iterator[Flat]:
    """Flats of one plane, parts that do not touch apart from one another."""
    for island in _islands(mesh, facets):
        corners = mesh.corners[island].reshape(-1, 3)
        if float(mesh.areas[island].sum()) < SPECK:
            continue
        normal = mesh.normals[island[int(mesh.areas[island].argmax())]]
        low, high = corners.min(axis=0), corners.max(axis=0)
        x, y, z = (round(float(n), 9) + 0.0 for n in normal)
        yield Flat((x, y, z), float(corners[0] @ normal), _point(low), _point(high), _maker(mesh, island))


def _point(values: Array) -> Point:
    x, y, z = (float(v) for v in values)
    return (x, y, z)


def _islands(mesh: Mesh, facets: Index) -> list[Index]:
    """The facets in groups that hang together by their corners."""
    parent: dict[int, int] = {}

    def root(i: int) -> int:
        while parent.setdefault(i, i) != i:
            parent[i] = parent[parent[i]]
            i = parent[i]
        return i

    for triangle in mesh.triangles[facets].tolist():
        for a, b in itertools.pairwise(triangle):
            parent[root(a)] = root(b)
    found: dict[int, list[int]] = {}
    for i, triangle in zip(facets.tolist(), mesh.triangles[facets].tolist(), strict=True):
        found.setdefault(root(triangle[0]), []).append(i)
    return [np.array(members) for _, members in sorted(found.items())]


def at_levels(flats: Sequence[Flat], axis: int) -> list[tuple[float, Flat]]:
    """(place along an axis 0, 1 or 2, the flat) of the flats square to it, in order."""
    found = [(f.level * f.normal[axis], f) for f in flats if f.along(axis)]
    return sorted(found, key=lambda pair: (round(pair[0], 6), pair[1].low))


__all__ = ["Features", "Fillet", "Flat", "Round", "Tapered", "at_levels", "features_of"]
