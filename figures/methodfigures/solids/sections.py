"""What does a plane cut out of a solid, and which part of the paper does a solid cover?"""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.shapes import Points, line_shapes
from methodfigures.solids.chains import chained
from methodfigures.solids.hidden_lines import facing, on_top
from methodfigures.solids.mesh import Flags, Floats, Ints, Mesh

EMPTY = shapely.Polygon()


def section(mesh: Mesh, basis: Floats, depth: float = 0.0) -> BaseGeometry:
    """Cut face in view coordinates of the plane that stands `depth` mm towards the reader from the origin.

    A corner that lies in the plane counts as lying towards the reader, so loops always close.
    """
    if mesh.empty:
        return EMPTY
    v = mesh.vertices @ basis.T
    height = v[:, 2] - depth
    height = np.where(np.abs(height) < 1e-9, 0.0, height)
    near = height >= 0
    side = near[mesh.triangles]
    cut = mesh.triangles[side.any(1) & ~side.all(1)]
    if not len(cut):
        return EMPTY
    ends = _crossings(cut, near, v, height)
    return _area(ends, float(np.ptp(v, axis=0).max()))


def _crossings(cut: Ints, near: Flags, v: Floats, height: Floats) -> Floats:
    """(n, 2, 2) segments in which the facets `cut` meet the plane."""
    a, b = cut, np.roll(cut, -1, axis=1)
    crosses = near[a] != near[b]
    i, j = a[crosses], b[crosses]
    low, high = np.minimum(i, j), np.maximum(i, j)  # the same point from both facets of an edge
    t = height[low] / (height[low] - height[high])
    p = v[low, :2] + t[:, None] * (v[high, :2] - v[low, :2])
    return p.reshape(-1, 2, 2)


def _area(ends: Floats, size: float) -> BaseGeometry:
    """Area inside an even number of loops."""
    loops = [shapely.Polygon(p) for p in chained(ends[:, 0], ends[:, 1], size) if len(p) >= 4]
    loops = [p if p.is_valid else p.buffer(0) for p in loops if p.area > 1e-9]
    if not loops:
        return EMPTY
    loops.sort(key=lambda p: -p.area)
    out: BaseGeometry = loops[0]
    for p in loops[1:]:
        out = out.symmetric_difference(p)
    return out


def trimmed(mesh: Mesh, basis: Floats, depth: float = 0.0) -> Mesh:
    """The part of a solid behind the cutting plane, open where it was cut (the cut face is drawn from `section`).

    Facets across the plane are cut; the cut makes an edge of the part only because the section is outlined.
    """
    height = mesh.vertices @ basis[2] - depth
    height = np.where(np.abs(height) < 1e-9, 0.0, height)
    keep = height[mesh.triangles] <= 0
    whole = keep.all(1)
    vertices, triangles, surface = [mesh.vertices], [mesh.triangles[whole]], [mesh.surface[whole]]
    made: dict[tuple[int, int], int] = {}
    extra: list[Floats] = []
    pieces: list[list[int]] = []
    owner: list[int] = []
    for f in np.nonzero(keep.any(1) & ~whole)[0]:
        ring = _clipped(mesh.triangles[f].tolist(), height, made, extra, mesh.vertices)
        pieces += [[ring[0], ring[i], ring[i + 1]] for i in range(1, len(ring) - 1)]
        owner += [int(mesh.surface[f])] * max(0, len(ring) - 2)
    if pieces:
        vertices.append(np.array(extra).reshape(-1, 3))
        triangles.append(np.array(pieces))
        surface.append(np.array(owner))
    marks = tuple(m for m in mesh.marks if (m @ basis[2] <= depth).all())
    return Mesh(np.concatenate(vertices), np.concatenate(triangles), np.concatenate(surface), mesh.curved, marks)


def _clipped(
    corners: list[int], height: Floats, made: dict[tuple[int, int], int], extra: list[Floats], vertices: Floats
) -> list[int]:
    """Corners of one facet behind the plane; new corners are shared by neighbouring facets."""
    out: list[int] = []
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        if height[a] <= 0:
            out.append(a)
        if (height[a] < 0 < height[b]) or (height[b] < 0 < height[a]):
            pair = (a, b) if a < b else (b, a)
            if pair not in made:
                i, j = pair
                t = height[i] / (height[i] - height[j])
                made[pair] = len(vertices) + len(extra)
                extra.append(vertices[i] + t * (vertices[j] - vertices[i]))
            out.append(made[pair])
    return out


def silhouette(mesh: Mesh, basis: Floats, face: BaseGeometry = EMPTY) -> BaseGeometry:
    """The part of the paper that a solid covers, in view coordinates; `face` = where it was cut open."""
    front = mesh.triangles[facing(mesh, basis)]
    if not len(front):
        return face
    v = mesh.vertices @ basis.T
    half = np.sort(np.concatenate([front[:, [0, 1]], front[:, [1, 2]], front[:, [2, 0]]]), axis=1)
    _code, first, count = np.unique(half[:, 0] * np.int64(len(v)) + half[:, 1], return_index=True, return_counts=True)
    edges = half[first[count == 1]]
    size = float(np.ptp(v, axis=0).max())
    lines = chained(v[edges[:, 0], :2], v[edges[:, 1], :2], size)
    return shapely.union_all([covered_area(lines, v[front], size), face])


def covered_area(lines: list[Points], facets: Floats, size: float) -> BaseGeometry:
    """Union of the cells between `lines` that some facet (n, 3, 3) covers."""
    cells = cells_between(lines, size)
    if not cells:
        return EMPTY
    spots = shapely.get_coordinates(shapely.point_on_surface(np.array(cells)))
    p, _, _ = on_top(spots, facets)
    return shapely.union_all([cells[i] for i in np.unique(p)])


def cells_between(lines: list[Points], size: float) -> list[shapely.Polygon]:
    """Cells of the net of `lines`, crossings included."""
    strings = line_shapes([p for p in lines if len(p) > 1])
    if not len(strings):
        return []
    net = shapely.union_all(strings, grid_size=size * 1e-6)
    return list(shapely.polygonize(list(shapely.get_parts(net))).geoms)
