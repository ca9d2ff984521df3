"""How far does the metal reach from an axis, and how wide is the hole along it?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from .frame import Array, Axis
from .mesh import Index, Mesh
from .outline import area_factor
from .section import Slicer
from .solid import Solid
from .surface import Surface

HAIR = 1e-6
"""mm: a face that stands exactly at the end of a band belongs to what lies beyond it."""


@dataclass(frozen=True, eq=False)
class Profile:
    """Outer radius, and radius of the hole along the axis (0 where metal stands on it), at lengths along an axis; mm.

    (k,) each, lengths rising. A shoulder has two entries of one length. Between entries the outline runs straight.
    """

    lengths: Array
    outer: Array
    inner: Array

    def inner_at(self, length: float) -> float:
        """Radius of the hole along the axis at a length, the smaller one at a shoulder; 0 outside the metal."""
        return min(self.at(length, self.inner), default=0.0)

    def at(self, length: float, values: Array) -> list[float]:
        """The values at a length: those of entries there, else one between its neighbours; none outside the metal."""
        here = values[np.abs(self.lengths - length) < HAIR].tolist()
        if here or not len(values) or not self.lengths[0] < length < self.lengths[-1]:
            return here
        return [float(np.interp(length, self.lengths, values))]


def swing(solid: Solid, axis: Axis, start: float | None = None, end: float | None = None) -> float:
    """Largest radius (mm) about an axis, of the metal between two lengths along it (all of it without them).

    Exact where a round surface parallel to the axis makes it (read from the surface, not from facet corners,
    which stand a few microns proud). 0 where there is no metal. Faces exactly at the ends do not count.
    """
    mesh = solid.mesh()
    low, high = -math.inf if start is None else start, math.inf if end is None else end
    points, surface = _points_between(mesh, axis, min(low, high) + HAIR, max(low, high) - HAIR)
    return _largest(axis, points, surface, mesh.surfaces, solid.table.facets)


def _points_between(mesh: Mesh, axis: Axis, low: float, high: float) -> tuple[Array, Index]:
    """Corners of the facets as far as they lie in a band, cut at its ends: (k, 3) and the surface of each."""
    corners = mesh.corners
    along = axis.lengths(corners.reshape(-1, 3)).reshape(-1, 3)
    inside = (along >= low) & (along <= high)
    owner = np.broadcast_to(mesh.surface_index[:, None], along.shape)
    points, surface = [corners[inside]], [owner[inside]]
    for level in (v for v in (low, high) if math.isfinite(v)):
        a, b = along, np.roll(along, -1, axis=1)
        hit = (a < level) != (b < level)
        share = (level - a[hit]) / (b[hit] - a[hit])
        first, second = corners[hit], np.roll(corners, -1, axis=1)[hit]
        points.append(first + share[:, None] * (second - first))
        surface.append(owner[hit])
    return np.concatenate(points), np.concatenate(surface)


def _largest(axis: Axis, points: Array, surface: Index, surfaces: tuple[Surface, ...], facets: int) -> float:
    """Largest true radius of skin points (k, 3).

    Surfaces that do not tell their radius (planes, cross holes) count only where no surface that does shares their rim.
    """
    if not len(points):
        return 0.0
    radii = axis.radii(points)
    near = np.flatnonzero(radii >= radii.max() * (1 - (2 * math.pi / facets) ** 2))
    silent, telling, exact = 0.0, 0.0, 0.0
    for number in np.unique(surface[near]):
        mine = near[surface[near] == number]
        top = mine[radii[mine].argmax()]
        raw = float(radii[top])
        told = _true_radius(surfaces[number], raw, points[top], axis, facets)
        if told is None:
            silent = max(silent, raw)
        else:
            telling, exact = max(telling, raw), max(exact, told)
    return silent if silent > telling + 1e-9 else exact


def _true_radius(surface: Surface, raw: float, where: Array, axis: Axis, facets: int) -> float | None:
    """The radius a round surface really reaches where its facets reach `raw`; None where the surface does not tell."""
    offset = axis.distance(surface.point)
    if not surface.turned or not (surface.coaxial(axis) or axis.parallel(surface.direction)):
        return None
    if surface.kind == "torus":
        return raw / area_factor(facets) if offset < HAIR else None
    own = surface.radius
    if surface.kind == "cone":
        depth = abs(float((where - np.array(surface.point)) @ np.array(surface.direction)))
        own = depth * math.tan(math.radians(surface.taper))
    allowed = own * (2 * math.pi / facets) ** 2 / 10 + HAIR
    return own + offset if abs(own + offset - raw) < allowed else None


def profile(
    solid: Solid, axis: Axis, start: float | None = None, end: float | None = None, spacing: float = 0.05
) -> Profile:
    """Outer radius and bore along an axis, just after and just before every length at which the shape changes.

    What the work sweeps when it turns about the axis. Shoulders are always met; other changes (corner roundings,
    cross holes) at most every `spacing` mm.
    """
    mesh = solid.mesh()
    slicer = Slicer(mesh, axis)
    levels = shape_changes(solid, axis, start, end, spacing)
    lengths: list[float] = []
    outer: list[float] = []
    inner: list[float] = []
    for low, high in pairwise(levels):
        hair = min(HAIR, (high - low) / 4)
        for level, at in ((low, low + hair), (high, high - hair)):
            sides, surface = slicer.sides(at)
            if len(sides):
                lengths.append(level)
                outer.append(_outer(axis, at, sides, surface, mesh.surfaces, solid.table.facets))
                inner.append(_inner(axis, sides, surface, mesh.surfaces, solid.table.facets))
    return Profile(np.array(lengths), np.array(outer), np.array(inner))


def shape_changes(
    solid: Solid, axis: Axis, start: float | None = None, end: float | None = None, spacing: float = 0.05
) -> list[float]:
    """Lengths along an axis at which the shape changes: ends, every shoulder, others at most every `spacing` mm."""
    mesh = solid.mesh()
    if not len(mesh.triangles):
        return []
    along = axis.lengths(mesh.vertices)
    low = float(along.min()) if start is None else max(start, float(along.min()))
    high = float(along.max()) if end is None else min(end, float(along.max()))
    square = mesh.on(lambda s: s.kind == "plane" and axis.parallel(s.direction))
    shoulders = {low, high, *np.round(along[mesh.triangles[square].ravel()], 7).tolist()}
    kept = _spread(sorted(v for v in shoulders if low <= v <= high), 1e-5)
    others = np.unique(np.round(along[(along > low) & (along < high)], 7))
    for v in others.tolist():
        place = int(np.searchsorted(kept, v))
        if min(abs(v - n) for n in kept[max(place - 1, 0) : place + 1]) >= spacing:
            kept.insert(place, v)
    return kept


def _spread(values: list[float], least: float) -> list[float]:
    out = values[:1]
    for v in values[1:]:
        if v - out[-1] > least:
            out.append(v)
    return out


def _outer(axis: Axis, at: float, sides: Array, surface: Index, surfaces: tuple[Surface, ...], facets: int) -> float:
    flat = sides.reshape(-1, 2)
    base = np.array(axis.point) + at * np.array(axis.direction)
    points = base + np.outer(flat[:, 0], axis.zero) + np.outer(flat[:, 1], axis.side)
    return _largest(axis, points, np.repeat(surface, 2), surfaces, facets)


def _inner(axis: Axis, sides: Array, surface: Index, surfaces: tuple[Surface, ...], facets: int) -> float:
    """Distance from the axis to the nearest metal of a section; 0 where the axis runs in metal."""
    a, b = sides[:, 0], sides[:, 1]
    turn = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], np.einsum("ij,ij->i", a, b)).sum()
    if turn > math.pi:
        return 0.0
    along = b - a
    length = np.einsum("ij,ij->i", along, along)
    share = np.clip(-np.einsum("ij,ij->i", a, along) / np.where(length > 0, length, 1), 0, 1)
    distance = np.linalg.norm(a + share[:, None] * along, axis=1)
    nearest = int(distance.argmin())
    owner, raw = surfaces[surface[nearest]], float(distance[nearest])
    if not owner.coaxial(axis):
        return raw
    if owner.kind == "cylinder":
        return owner.radius
    return raw / (area_factor(facets) * math.cos(math.pi / facets))
