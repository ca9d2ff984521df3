"""Is this solid a body of revolution, and what is its profile?  The quick way to draw turned parts.

Seen square to its axis a body of revolution needs no hidden-line search: its outline is the profile, and every edge
is a straight line across.  A solid counts as revolved when its facets have the same corners all the way round.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.shapes import Points, mirrored, polygons
from methodfigures.solids.hidden_lines import Lines
from methodfigures.solids.mesh import Floats, Ints, Mesh

LEAST_CORNERS = 24
"""Fewer corners round the axis are taken for a prism."""


@dataclass(frozen=True)
class Ring:
    """An edge round the axis: at length `z`, radius `r`; `smooth` = a run-out line."""

    z: float
    r: float
    smooth: bool


@dataclass(frozen=True)
class Profile:
    """Half section of a body of revolution about a line along z through `axis`: `half` in (z, r), and its edges."""

    axis: tuple[float, float]
    half: BaseGeometry
    rings: tuple[Ring, ...]

    def radius_at(self, z: float) -> float:
        """Outer radius at length z (the larger one at a step); 0 outside the body."""
        cut = self.half.intersection(shapely.LineString([(z, -1.0), (z, 1e5)]))
        return 0.0 if cut.is_empty else float(cut.bounds[3])


def profile_of(mesh: Mesh) -> Profile | None:
    """The profile of a mesh, or None when it is not a body of revolution about a line along z."""
    v = mesh.vertices
    if len(v) < LEAST_CORNERS:
        return None
    centre = (v[:, :2].max(0) + v[:, :2].min(0)) / 2
    r = np.hypot(v[:, 0] - centre[0], v[:, 1] - centre[1])
    where = np.round(np.stack([v[:, 2], r], 1), 4)
    _, first, ring, count = np.unique(where, axis=0, return_index=True, return_inverse=True, return_counts=True)
    ring = ring.reshape(-1)
    off_axis = r[first] > 1e-3
    if not off_axis.any() or count[off_axis].min() < LEAST_CORNERS or np.ptp(count[off_axis]) > 0:
        return None
    angle = np.degrees(np.arctan2(v[:, 1] - centre[1], v[:, 0] - centre[0]))
    half = _half_section(mesh, centre, float(angle[first[off_axis][0]]))
    if half is None:
        return None
    return Profile((float(centre[0]), float(centre[1])), half, _rings(mesh, ring, v[first, 2], r[first]))


def _half_section(mesh: Mesh, centre: Floats, angle: float) -> BaseGeometry | None:
    """(z, r) polygon of the cut by the half plane at `angle` degrees, through corners of the facets."""
    from methodfigures.solids.sections import section

    a = np.radians(angle)
    out = np.array([np.cos(a), np.sin(a), 0.0])
    basis = np.stack([[0.0, 0.0, 1.0], out, np.cross([0.0, 0.0, 1.0], out)])
    depth = float(basis[2] @ [*centre, 0.0])
    lift = float(out[:2] @ centre)
    whole = shapely.transform(section(mesh, basis, depth), lambda xy: xy - (0.0, lift))
    half = whole.intersection(shapely.box(-1e6, 0.0, 1e6, 1e6))
    return shapely.union_all(polygons(half)) if polygons(half) else None


def _rings(mesh: Mesh, ring: Ints, z: Floats, r: Floats) -> tuple[Ring, ...]:
    """Edges of the part that run round the axis."""
    t = mesh.topology
    a, b = ring[t.edges[:, 0]], ring[t.edges[:, 1]]
    round_ = (a == b) & (t.sharp | t.smooth)
    found = {int(i): bool(s) for i, s in zip(a[round_], t.smooth[round_], strict=True)}
    return tuple(Ring(float(z[i]), float(r[i]), s) for i, s in sorted(found.items()))


def elevation(profile: Profile, direction: float, lift: float) -> tuple[BaseGeometry, Lines]:
    """(silhouette, lines) seen square to the axis: view x = `direction` · z (±1), the axis at view y = `lift`."""

    def place(p: Points) -> Points:
        return p * (direction, 1.0) + (0.0, lift)

    half = _filled(profile.half)
    body = shapely.transform(shapely.union_all([half, mirrored(half)]), place)
    sharp: list[Points] = []
    smooth: list[Points] = []
    for ring in profile.rings:
        outer = profile.radius_at(ring.z)
        if ring.r < outer - 1e-3 or ring.r < 1e-3:
            continue
        (smooth if ring.smooth else sharp).append(place(np.array([[ring.z, -ring.r], [ring.z, ring.r]])))
    contour = [shapely.get_coordinates(p.exterior) for p in polygons(body)]
    return body, Lines(_unique(sharp), contour, _unique(smooth))


def marks_in_front(mesh: Mesh, view: Floats, axis: tuple[float, float]) -> list[Points]:
    """Marks of a body of revolution on the side of the reader, in view coordinates."""
    middle = float(view[2] @ [*axis, 0.0])
    out: list[Points] = []
    for mark in mesh.marks:
        p = mark @ view.T
        near = (p[1:, 2] + p[:-1, 2]) / 2 > middle
        starts = np.nonzero(near & ~np.r_[False, near[:-1]])[0]
        ends = np.nonzero(near & ~np.r_[near[1:], False])[0]
        out += [p[a : b + 2, :2] for a, b in zip(starts, ends, strict=True)]
    return out


def lengthwise(profile: Profile, direction: float, lift: float) -> tuple[BaseGeometry, BaseGeometry, Lines]:
    """(cut face, silhouette of the half that is left, lines behind the cut) of the section along the axis."""

    def place(p: Points) -> Points:
        return p * (direction, 1.0) + (0.0, lift)

    cut = shapely.transform(shapely.union_all([profile.half, mirrored(profile.half)]), place)
    filled = _filled(profile.half)
    hollow = filled.difference(profile.half).buffer(1e-3)
    sharp: list[Points] = []
    smooth: list[Points] = []
    for ring in profile.rings:
        if ring.r > 1e-3 and hollow.intersects(shapely.Point(ring.z, ring.r)):
            (smooth if ring.smooth else sharp).append(place(np.array([[ring.z, -ring.r], [ring.z, ring.r]])))
    body = shapely.transform(shapely.union_all([filled, mirrored(filled)]), place)
    return cut, body, Lines(_unique(sharp), [], _unique(smooth))


def _filled(half: BaseGeometry) -> BaseGeometry:
    """The half profile with everything between it and the axis: the body without its bores."""
    out = []
    for p in polygons(half):
        c = shapely.get_coordinates(p.exterior)
        top = [
            shapely.Polygon([(a[0], 0), tuple(a), tuple(b), (b[0], 0)])
            for a, b in itertools.pairwise(c)
            if abs(b[0] - a[0]) > 1e-9 and max(a[1], b[1]) > 1e-9
        ]
        out += [p, *(q if q.is_valid else q.buffer(0) for q in top)]
    return shapely.union_all(out, grid_size=1e-6)


def _unique(lines: list[Points]) -> list[Points]:
    seen: dict[tuple[float, ...], Points] = {}
    for p in lines:
        seen.setdefault(tuple(np.round(p.ravel(), 4)), p)
    return list(seen.values())
