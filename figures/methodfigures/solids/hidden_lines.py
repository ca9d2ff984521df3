"""Which lines of a solid does the reader see?  Exact hidden-line removal, as polylines.

Lines of a view are the sharp edges of the part, the run-out lines where surfaces pass smoothly into one another, and
the contours where the solid turns away from the reader.  Facet edges inside one round surface are never lines, so no
crease angle has to be tuned.  Scribed marks take part like run-out lines.

Whether a line is seen can change only where it crosses, on the paper, a contour that is nearer.  Every line is cut
there, the middle of each piece is tested against the facets that face the reader, and the piece is kept or dropped.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from methodfigures.paper.shapes import Points
from methodfigures.solids.chains import chained
from methodfigures.solids.mesh import Flags, Floats, Ints, Mesh

SHARP, CONTOUR, SMOOTH = 0, 1, 2
FEW = 60_000
"""Up to so many pairs, trying all is quicker than a tree."""
AT_ONCE = 1_000
"""Spots that are looked at together: each meets up to some thousand facets."""


@dataclass(frozen=True)
class Lines:
    """Polylines in view coordinates (mm): visible `sharp` edges, `contour`s and `smooth` run-outs; `hidden` ones."""

    sharp: list[Points] = field(default_factory=list)
    contour: list[Points] = field(default_factory=list)
    smooth: list[Points] = field(default_factory=list)
    hidden: list[Points] = field(default_factory=list)

    def visible(self) -> list[Points]:
        """Everything that is seen."""
        return self.sharp + self.contour + self.smooth


@dataclass(frozen=True)
class _Candidates:
    """Lines that may show: ends as vertex indices, class, solid; contours and facets that may hide them."""

    vertices: Floats
    ends: Ints
    kind: Ints
    owner: Ints
    contours: Ints
    facing: Ints


def facing(mesh: Mesh, basis: Floats) -> Flags:
    """Which facets of a mesh face the reader."""
    return mesh.normals @ basis[2] > 1e-7


def _candidates(meshes: Sequence[Mesh], basis: Floats, hidden: bool) -> _Candidates:
    vertices, ends, kind, owner, contours, front = [], [], [], [], [], []
    count = 0
    for i, mesh in enumerate(meshes):
        t, seen = mesh.topology, facing(mesh, basis)
        left, right = seen[t.left], seen[t.right]
        contour = left != right
        shown = left | right | hidden
        plain = contour & ~t.sharp & ~t.smooth
        for k, wanted in ((SHARP, t.sharp & shown), (SMOOTH, t.smooth & shown), (CONTOUR, plain)):
            ends.append(t.edges[wanted] + count)
            kind.append(np.full(int(wanted.sum()), k))
            owner.append(np.full(int(wanted.sum()), i))
        contours.append(t.edges[contour] + count)
        front.append(mesh.triangles[seen] + count)
        vertices.append(mesh.vertices @ basis.T)
        count += len(mesh.vertices)
        for mark in mesh.marks:
            n = np.arange(len(mark) - 1) + count
            ends.append(np.stack([n, n + 1], 1))
            kind.append(np.full(len(n), SMOOTH))
            owner.append(np.full(len(n), i))
            vertices.append(mark @ basis.T)
            count += len(mark)
    return _Candidates(*(np.concatenate(x) for x in (vertices, ends, kind, owner, contours, front)))


def find_lines(
    meshes: Sequence[Mesh], basis: Floats, *, groups: Sequence[Iterable[int]] | None = None, hidden: bool = False
) -> list[Lines]:
    """Lines of a scene whose solids hide one another, one `Lines` per group of solids (None: one for all).

    `basis` = rows right, up, towards the reader; `hidden` = also find what is covered.
    """
    wanted = [list(range(len(meshes)))] if groups is None else [list(g) for g in groups]
    solids = [m for m in meshes if not m.empty]
    index = [i for i, m in enumerate(meshes) if not m.empty]
    if not solids:
        return [Lines() for _ in wanted]
    c = _candidates(solids, basis, hidden)
    size = float(np.ptp(c.vertices, axis=0).max())
    span = c.vertices[c.ends[:, 1], :2] - c.vertices[c.ends[:, 0], :2]
    keep = np.hypot(span[:, 0], span[:, 1]) > size * 1e-6  # edges seen end on are points
    ends, kind, owner = c.ends[keep], c.kind[keep], np.asarray(index)[c.owner[keep]]
    start = c.vertices[ends[:, 0]]
    run = c.vertices[ends[:, 1]] - start
    piece, t0, t1 = _cut(start, run, c.vertices, c.contours, size)
    middle = start[piece] + ((t0 + t1) / 2)[:, None] * run[piece]
    covered = _covered(middle, c.vertices, c.facing, size * 2e-5)
    a = start[piece, :2] + t0[:, None] * run[piece, :2]
    b = start[piece, :2] + t1[:, None] * run[piece, :2]
    k, o = kind[piece], owner[piece]
    out = []
    for group in wanted:
        mine = np.isin(o, group)
        parts = [chained(a[m], b[m], size) for m in (mine & (k == j) & ~covered for j in (SHARP, CONTOUR, SMOOTH))]
        lost = mine & covered & (k != SMOOTH)
        out.append(Lines(parts[0], parts[1], parts[2], chained(a[lost], b[lost], size) if hidden else []))
    return out


def _cut(start: Floats, run: Floats, vertices: Floats, contours: Ints, size: float) -> tuple[Ints, Floats, Floats]:
    """Cut the lines start + t · run where a nearer contour crosses them: (line, t0, t1) of every piece."""
    a = vertices[contours[:, 0]]
    d = vertices[contours[:, 1]] - a
    long = np.hypot(d[:, 0], d[:, 1]) > size * 1e-6
    a, d = a[long], d[long]
    tree = _tree(shapely.linestrings(np.stack([a[:, :2], a[:, :2] + d[:, :2]], 1)))
    i, j = tree.query(shapely.linestrings(np.stack([start[:, :2], start[:, :2] + run[:, :2]], 1)))
    far = start[i, 2] + np.maximum(run[i, 2], 0) > a[j, 2] + np.maximum(d[j, 2], 0) + np.abs(run[i, 2]) + size * 2e-5
    i, j = i[~far], j[~far]  # the whole contour lies behind the whole line
    r, s, w = run[i], d[j], a[j, :2] - start[i, :2]
    det = r[:, 0] * s[:, 1] - r[:, 1] * s[:, 0]
    ok = np.abs(det) > 1e-12
    det = np.where(ok, det, 1.0)
    t = (w[:, 0] * s[:, 1] - w[:, 1] * s[:, 0]) / det
    u = (w[:, 0] * r[:, 1] - w[:, 1] * r[:, 0]) / det
    ok &= a[j, 2] + u * s[:, 2] > start[i, 2] + t * r[:, 2] - size * 2e-5
    ok &= (t > 1e-7) & (t < 1 - 1e-7) & (u > -1e-9) & (u < 1 + 1e-9)
    n = np.arange(len(start))
    line = np.concatenate([n, n, i[ok]])
    at = np.concatenate([np.zeros(len(n)), np.ones(len(n)), t[ok]])
    order = np.lexsort((at, line))
    line, at = line[order], at[order]
    real = (line[1:] == line[:-1]) & (at[1:] - at[:-1] > 1e-9)
    return line[:-1][real], at[:-1][real], at[1:][real]


def _tree(shapes: Any) -> shapely.STRtree:
    return shapely.STRtree(np.atleast_1d(shapes))


def on_top(spots: Points, facets: Floats, above: Floats | None = None) -> tuple[Ints, Ints, NDArray[np.float64]]:
    """(spot, facet, height) for every facet (n, 3, 3) of view coordinates that lies over or under a spot;
    `above` = heights of the spots, when only what lies higher is wanted.
    """
    f, p = _in_boxes(spots, facets)
    if above is not None:
        higher = facets[:, :, 2].max(1)[f] > above[p]
        f, p = f[higher], p[higher]
    a, d1, d2 = facets[f, 0], facets[f, 1] - facets[f, 0], facets[f, 2] - facets[f, 0]
    w = spots[p] - a[:, :2]
    det = d1[:, 0] * d2[:, 1] - d1[:, 1] * d2[:, 0]
    good = np.abs(det) > 1e-14
    det = np.where(good, det, 1.0)
    l1 = (w[:, 0] * d2[:, 1] - w[:, 1] * d2[:, 0]) / det
    l2 = (d1[:, 0] * w[:, 1] - d1[:, 1] * w[:, 0]) / det
    hit = good & (l1 >= -1e-9) & (l2 >= -1e-9) & (l1 + l2 <= 1 + 1e-9)
    height = a[:, 2] + l1 * d1[:, 2] + l2 * d2[:, 2]
    return p[hit], f[hit], height[hit]


def _in_boxes(spots: Points, facets: Floats) -> tuple[Ints, Ints]:
    """(facet, spot) for every spot inside the upright box round a facet."""
    a, b, c = facets[:, 0, :2], facets[:, 1, :2], facets[:, 2, :2]
    low, high = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
    if len(spots) * len(facets) <= FEW:
        x, y = spots.T
        inside = (x >= low[:, :1]) & (x <= high[:, :1])
        inside &= (y >= low[:, 1:]) & (y <= high[:, 1:])
        f, p = np.divmod(np.flatnonzero(inside), max(1, len(spots)))
    else:
        f, p = _tree(shapely.points(spots)).query(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    return f, p


def _covered(middle: Floats, vertices: Floats, front: Ints, eps: float) -> Flags:
    out = np.zeros(len(middle), bool)
    facets = vertices[front]
    for first in range(0, len(middle), AT_ONCE):  # every spot meets many facets; all at once would fill the memory
        some = middle[first : first + AT_ONCE]
        p, _, height = on_top(some[:, :2], facets, some[:, 2] + eps)
        out[first + p[height > some[p, 2] + eps]] = True
    return out
