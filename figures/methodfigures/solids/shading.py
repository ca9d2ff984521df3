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


def shade_lines(book: ViewBook, mesh: Mesh, view: Floats, dark: float = DARK, light: ArrayLike = LIGHT) -> list[Points]:
    """Facet edges on the dark side of round surfaces, clipped to what is visible; polylines in view coordinates.

    `dark` = cosine to the light below which a surface is shaded.
    """
    sun = np.asarray(light, float)
    sun = sun / np.linalg.norm(sun)
    t, n = mesh.topology, mesh.normals @ view.T
    tone = (n[t.left] + n[t.right]) @ sun / 2
    same = (mesh.surface[t.left] == mesh.surface[t.right]) & mesh.curved[mesh.surface[t.left]]
    bent = np.einsum("ij,ij->i", n[t.left], n[t.right]) < 0.9999
    wanted = same & bent & (n[t.left, 2] > 1e-6) & (n[t.right, 2] > 1e-6) & (tone < dark)
    if not wanted.any():
        return []
    shown = _visible_surfaces(book, mesh, view)
    paper = (mesh.vertices @ view.T)[:, :2]
    out: list[Points] = []
    for surface in np.unique(mesh.surface[t.left[wanted]]):
        if int(surface) not in shown:
            continue
        edges = paper[t.edges[wanted & (mesh.surface[t.left] == surface)]]
        cut = shapely.intersection(shapely.linestrings(edges), shown[int(surface)])
        out += [q for g in np.atleast_1d(cut) for q in strings(g)]
    return out


def _visible_surfaces(book: ViewBook, mesh: Mesh, view: Floats) -> dict[int, shapely.Geometry]:
    """Where each surface shows, by its number."""
    lines = book.look([mesh], view).lines.visible()
    size = float(np.ptp(np.concatenate(lines), axis=0).max())
    cells = cells_between(lines, size)
    facing: Ints = np.nonzero(mesh.normals @ view[2] > 1e-7)[0]
    spots = shapely.get_coordinates(shapely.point_on_surface(np.array(cells)))
    p, f, z = on_top(spots, (mesh.vertices @ view.T)[mesh.triangles[facing]])
    order = np.lexsort((z, p))
    top = order[np.r_[p[order][1:] != p[order][:-1], True]]
    found: dict[int, list[shapely.Polygon]] = {}
    for cell, facet in zip(p[top], f[top], strict=True):
        found.setdefault(int(mesh.surface[facing[facet]]), []).append(cells[cell])
    return {k: _prepared(v) for k, v in found.items()}


def _prepared(cells: Sequence[shapely.Polygon]) -> shapely.Geometry:
    g = shapely.union_all(list(cells))
    shapely.prepare(g)
    return g
