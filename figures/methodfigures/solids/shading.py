"""Which ruled lines shade the round surfaces of a pictorial?"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import ArrayLike

from methodfigures.paper.shapes import Points, strings
from methodfigures.solids.hidden_lines import on_top
from methodfigures.solids.mesh import Floats, Ints, Mesh
from methodfigures.solids.sections import cells_between
from methodfigures.solids.views import ViewBook

LIGHT = (-0.45, 0.75, 0.6)
"""Direction from which the light comes: over the reader's left shoulder."""
DARK = 0.25


def shade_lines(
    book: ViewBook, meshes: Sequence[Mesh], view: Floats, dark: float = DARK, light: ArrayLike = LIGHT
) -> list[Points]:
    """Facet edges on the dark side of round surfaces of a scene, clipped to what is visible; polylines in view
    coordinates.

    `dark` = cosine to the light below which a surface is shaded.
    """
    sun = np.asarray(light, float)
    sun = sun / np.linalg.norm(sun)
    found = [_dark_edges(mesh, view, dark, sun) for mesh in meshes]
    if not any(len(edges) for edges, _ in found):
        return []
    shown = _visible_surfaces(book, meshes, view)
    out: list[Points] = []
    for i, (edges, surfaces) in enumerate(found):
        for surface in np.unique(surfaces).tolist():
            if (i, surface) in shown:
                cut = shapely.intersection(shapely.linestrings(edges[surfaces == surface]), shown[i, surface])
                out += [q for g in np.atleast_1d(cut) for q in strings(g)]
    return out


def _dark_edges(mesh: Mesh, view: Floats, dark: float, sun: Floats) -> tuple[Floats, Ints]:
    """Facet edges (n, 2, 2) of round surfaces that turn away from the light, and the surface of each."""
    t, n = mesh.topology, mesh.normals @ view.T
    tone = (n[t.left] + n[t.right]) @ sun / 2
    same = (mesh.surface[t.left] == mesh.surface[t.right]) & mesh.curved[mesh.surface[t.left]]
    bent = np.einsum("ij,ij->i", n[t.left], n[t.right]) < 0.9999
    wanted = same & bent & (n[t.left, 2] > 1e-6) & (n[t.right, 2] > 1e-6) & (tone < dark)
    return (mesh.vertices @ view.T)[:, :2][t.edges[wanted]], mesh.surface[t.left[wanted]]


def _visible_surfaces(book: ViewBook, meshes: Sequence[Mesh], view: Floats) -> dict[tuple[int, int], shapely.Geometry]:
    """Where each surface shows, by the number of its solid and its own."""
    lines = book.look(meshes, view).lines.visible()
    size = float(np.ptp(np.concatenate(lines), axis=0).max())
    cells = cells_between(lines, size)
    facets, owner = [], []
    for i, mesh in enumerate(meshes):
        facing = np.nonzero(mesh.normals @ view[2] > 1e-7)[0]
        facets.append((mesh.vertices @ view.T)[mesh.triangles[facing]])
        owner += [(i, surface) for surface in mesh.surface[facing].tolist()]
    spots = shapely.get_coordinates(shapely.point_on_surface(np.array(cells)))
    p, f, z = on_top(spots, np.concatenate(facets))
    order = np.lexsort((z, p))
    top = order[np.r_[p[order][1:] != p[order][:-1], True]]
    found: dict[tuple[int, int], list[shapely.Polygon]] = {}
    for cell, facet in zip(p[top], f[top], strict=True):
        found.setdefault(owner[facet], []).append(cells[cell])
    return {k: _prepared(v) for k, v in found.items()}


def _prepared(cells: Sequence[shapely.Polygon]) -> shapely.Geometry:
    g = shapely.union_all(list(cells))
    shapely.prepare(g)
    return g
