"""Test solids with named surfaces: turned bodies, blocks, and what is left after cuts.

Radii are true radii; the corners of the facets stand at the equal-area radius, as the model of the project does it.
"""

from __future__ import annotations

import math

import manifold3d as m3
import numpy as np

from methodfigures.solids.mesh import Mesh

FACETS = 96
_T = 2 * math.pi / FACETS
CORNER = math.sqrt(_T / math.sin(_T))


class Solid:
    """A manifold with a table of its surfaces."""

    def __init__(self, shape, table):
        self.shape, self.table = shape, table

    def __sub__(self, other):
        return Solid(self.shape - other.shape, self.table | other.table)

    def __add__(self, other):
        return Solid(self.shape + other.shape, self.table | other.table)

    def __and__(self, other):
        return Solid(self.shape ^ other.shape, self.table | other.table)

    def mesh(self, marks=()):
        m = self.shape.to_mesh64()
        tri = np.asarray(m.tri_verts).astype(int)
        face = np.asarray(m.face_id).astype(int)
        starts = np.asarray(m.run_index).astype(int) // 3
        ids = np.asarray(m.run_original_id).astype(int)
        owner = np.repeat(ids, np.diff(starts))
        pairs, first, which = np.unique(np.stack([owner, face], 1), axis=0, return_index=True, return_inverse=True)
        named = [self.table[(int(o), int(f))] for o, f in pairs]
        number = {n: i for i, n in enumerate(dict.fromkeys(named[at] for at in np.argsort(first)))}
        curved = [n[0] != "plane" for n in number]
        surfaces = np.array([number[n] for n in named])[which.ravel()].tolist()
        return Mesh.of(np.asarray(m.vert_properties)[:, :3], tri, surfaces, curved, tuple(marks))


def _solid(vertices, triangles, face, names):
    oid = m3.Manifold.reserve_ids(1)
    shape = m3.Manifold(
        m3.Mesh64(
            np.ascontiguousarray(vertices, float),
            np.ascontiguousarray(triangles, np.uint64),
            run_index=np.array([0, 3 * len(triangles)], np.uint64),
            run_original_id=np.array([oid], np.uint32),
            face_id=np.ascontiguousarray(face, np.uint64),
        )
    )
    assert shape.status().name == "NoError"
    return Solid(shape, {(oid, i): n for i, n in enumerate(names)})


def turned(outline, axis=(0.0, 0.0)):
    """Closed outline [(z, r), …] turned about a line along z through `axis`; a third item names a smooth surface."""
    p = [(float(q[1]), float(q[0])) for q in outline]
    names_in = [q[2] if len(q) > 2 else None for q in outline]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(p, p[1:] + p[:1], strict=True))
    if area < 0:
        p = p[::-1]
        names_in = names_in[::-1]
        names_in = names_in[1:] + names_in[:1]
    a = np.arange(FACETS) * _T
    circle = np.stack([[math.cos(t) for t in a], [math.sin(t) for t in a]], 1)
    vertices, ring, count = [], [], 0
    for r, z in p:
        n = 1 if r < 1e-9 else FACETS
        ring.append(np.full(FACETS, count) if n == 1 else count + np.arange(FACETS))
        vertices.append(np.column_stack([axis + CORNER * r * circle[:n], np.full(n, z)]))
        count += n
    triangles, face, names = [], [], []
    for i in range(len(p)):
        j = (i + 1) % len(p)
        if p[i][0] < 1e-9 and p[j][0] < 1e-9:
            continue
        (r0, z0), (r1, z1) = p[i], p[j]
        if names_in[i]:
            name = ("torus", names_in[i], axis)
        elif abs(z0 - z1) < 1e-9:
            name = ("plane", round(z0, 6), axis, i)
        elif abs(r0 - r1) < 1e-9:
            name = ("cyl", round(r0, 6), axis)
        else:
            name = ("cone", round(r0, 6), round(z0, 6), round(r1, 6), axis)
        if name not in names:
            names.append(name)
        f = names.index(name)
        here, there = ring[i], ring[j]
        next_here, next_there = np.roll(here, -1), np.roll(there, -1)
        both = np.stack([[here, next_here, next_there], [here, next_there, there]]).transpose(2, 0, 1).reshape(-1, 3)
        flat = (both[:, 0] == both[:, 1]) | (both[:, 1] == both[:, 2]) | (both[:, 0] == both[:, 2])
        triangles.append(both[~flat])
        face.append(np.full((~flat).sum(), f))
    return _solid(np.concatenate(vertices), np.concatenate(triangles), np.concatenate(face), names)


def bar(d, z0, z1, axis=(0.0, 0.0)):
    """Round bar."""
    return turned([(z0, 0), (z0, d / 2), (z1, d / 2), (z1, 0)], axis)


def tube(d, hole, z0, z1, axis=(0.0, 0.0)):
    return turned([(z0, hole / 2), (z0, d / 2), (z1, d / 2), (z1, hole / 2)], axis)


def block(low, high):
    """Rectangular block."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    v = [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    tris, face = [], []
    for i, (a, b, c, d) in enumerate(quads):
        tris += [(a, b, c), (a, c, d)]
        face += [i, i]
    return _solid(v, tris, face, [("plane", i, low, high) for i in range(6)])


def cross_bar(d, x0, x1, z):
    """Round bar along x at height z."""
    b = bar(d, x0, x1)
    table = {k: ("cross", *n) if n[0] != "plane" else ("plane", "cross", *n) for k, n in b.table.items()}
    return Solid(b.shape.rotate((0, 90, 0)).translate((0, 0, z)), table)
