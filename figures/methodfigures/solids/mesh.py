"""What does the drawing library know about a solid?  Its facets, and which facets belong to one surface."""

from __future__ import annotations

import functools
import hashlib
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

SHARP_DEGREES = 25.0
"""Two surfaces that meet at more than this make a visible edge …"""
SMOOTH_DEGREES = 3.0
"""… at more than this a run-out line, drawn narrow; below it none."""


@dataclass(frozen=True, eq=False)
class Mesh:
    """A closed triangle mesh.

    `vertices` (n, 3) in mm; `triangles` (m, 3) vertex indices, anticlockwise from outside; `surface` (m,) - the same
    number = the same geometric surface; `curved` (k,) by surface number - that surface is round and its facet edges
    are no edges of the part; `marks` - (n, 3) polylines of scribed lines, knurls and lettering that lie about
    0.05 mm outside their surface.  Equal content makes equal meshes.
    """

    vertices: Floats
    triangles: Ints
    surface: Ints
    curved: Flags
    marks: tuple[Floats, ...] = ()

    @staticmethod
    def of(
        vertices: ArrayLike,
        triangles: ArrayLike,
        surface: ArrayLike,
        curved: ArrayLike,
        marks: tuple[ArrayLike, ...] = (),
    ) -> Mesh:
        """A mesh from anything that looks like arrays."""
        return Mesh(
            np.asarray(vertices, float).reshape(-1, 3),
            np.asarray(triangles, np.int64).reshape(-1, 3),
            np.asarray(surface, np.int64).reshape(-1),
            np.asarray(curved, bool).reshape(-1),
            tuple(np.asarray(m, float).reshape(-1, 3) for m in marks),
        )

    @functools.cached_property
    def _digest(self) -> str:
        h = hashlib.sha256()
        for a in (self.vertices, self.triangles, self.surface, self.curved, *self.marks):
            h.update(repr((a.shape, a.dtype.str)).encode())
            h.update(np.ascontiguousarray(a).tobytes())
        return h.hexdigest()

    def key(self) -> str:
        """A digest of everything in the mesh."""
        return self._digest

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Mesh) and self.key() == other.key()

    def __hash__(self) -> int:
        return hash(self.key())

    def __getstate__(self) -> dict[str, Any]:
        names = ("vertices", "triangles", "surface", "curved", "marks")
        return {name: self.__dict__[name] for name in names}

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(state)

    def moved(self, by: ArrayLike) -> Mesh:
        """The same solid `by` (dx, dy, dz) mm further."""
        d = np.asarray(by, float)
        return Mesh(self.vertices + d, self.triangles, self.surface, self.curved, tuple(m + d for m in self.marks))

    @property
    def empty(self) -> bool:
        """Whether there are no facets."""
        return not len(self.triangles)

    @functools.cached_property
    def normals(self) -> Floats:
        """Outward unit normals of the facets, (m, 3); zero for a facet without area."""
        a, b, c = (self.vertices[self.triangles[:, i]] for i in range(3))
        n = np.cross(b - a, c - a)
        length = np.linalg.norm(n, axis=1)
        return n / np.where(length > 1e-12, length, 1.0)[:, None]

    @functools.cached_property
    def topology(self) -> Topology:
        """Edges with the two facets that meet there."""
        return Topology.of(self)


@dataclass(frozen=True, eq=False)
class Topology:
    """Edges of a mesh: `edges` (e, 2) vertex indices, `left` and `right` facet, and what the edge may be:
    `sharp` = an edge of the part, `smooth` = a run-out line, otherwise only ever a contour.
    """

    edges: Ints
    left: Ints
    right: Ints
    sharp: Flags
    smooth: Flags

    @staticmethod
    def of(mesh: Mesh) -> Topology:
        """Pair the facets of a mesh and class the edges between them."""
        t = mesh.triangles
        half = np.sort(np.concatenate([t[:, [0, 1]], t[:, [1, 2]], t[:, [2, 0]]]), axis=1)
        owner = np.tile(np.arange(len(t)), 3)
        code = half[:, 0] * np.int64(len(mesh.vertices)) + half[:, 1]
        order = np.argsort(code, kind="stable")
        code, owner = code[order], owner[order]
        i = np.nonzero(code[1:] == code[:-1])[0]
        edges, left, right = half[order[i]], owner[i], owner[i + 1]
        cosine = np.einsum("ij,ij->i", mesh.normals[left], mesh.normals[right])
        same = mesh.surface[left] == mesh.surface[right]
        rounded = same & mesh.curved[mesh.surface[left]]
        sharp = (cosine < np.cos(np.radians(SHARP_DEGREES))) & ~rounded
        smooth = ~sharp & ~same & (cosine < np.cos(np.radians(SMOOTH_DEGREES)))
        return Topology(edges, left, right, sharp, smooth)
