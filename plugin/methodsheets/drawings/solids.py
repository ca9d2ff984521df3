"""How does a solid of the workpiece reach the drawing board?"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from methodfigures.solids.mesh import Mesh
from methodsheets.geometry import Solid
from methodsheets.workpiece import State

LEAST = 0.05
"""mm³: less than that of two bodies in one place is the rounding of their facets."""
PLANES = 1e4
"""Steps to a mm, and to a whole normal, in which planes are told apart."""


class Drawn:
    """Meshes of one method for drawing; a solid is turned into a mesh once for all figures."""

    def __init__(self) -> None:
        self._meshes: dict[tuple[int, int], tuple[object, Mesh]] = {}
        self._apart: dict[tuple[int, ...], tuple[object, tuple[Solid, ...]]] = {}
        self._gone: dict[tuple[int, ...], tuple[object, tuple[Mesh, ...]]] = {}

    def solid(self, solid: Solid, marks: tuple[np.ndarray, ...] = ()) -> Mesh:
        """The mesh of a solid, with the lines marked on it."""
        key = (id(solid), len(marks))
        known = self._meshes.get(key)
        if known is not None:
            return known[1]
        vertices, triangles, surface, curved = solid.mesh().drawing()
        mesh = Mesh.of(vertices, triangles, surface, curved, marks)
        self._meshes[key] = (solid, mesh)  # the solid is kept so that its id is not used again
        return mesh

    def state(self, state: State) -> tuple[Mesh, ...]:
        """The bodies of a state; the first of them carries its marks."""
        marks = tuple(mark.points for mark in state.marks)
        bodies = self.apart(*(body.solid for body in state.bodies.values()))
        return tuple(self.solid(body, marks if i == 0 else ()) for i, body in enumerate(bodies) if not body.empty)

    def seen(self, state: State) -> tuple[bool, ...]:
        """Which of the bodies are among those that `state` gives: one that lies wholly in another is not."""
        return tuple(not body.empty for body in self.apart(*(body.solid for body in state.bodies.values())))

    def apart(self, *bodies: Solid) -> tuple[Solid, ...]:
        """Bodies without the metal that another one before them has too.

        A nut is bored to the core of its thread, so it and its screw lie in one another; lines of what is seen end
        where two bodies meet, and there must be a surface to end on. A body that lies wholly in another one leaves
        an empty solid: nothing of it is seen.
        """
        key = tuple(map(id, bodies))
        if key not in self._apart:
            free: list[Solid] = []
            for body in bodies:
                for other in free:
                    if (body & other).volume > LEAST:
                        body = body - other
                free.append(body)
            self._apart[key] = (bodies, tuple(free))
        return self._apart[key][1]

    def solids(self, solids: Iterable[Solid]) -> tuple[Mesh, ...]:
        """Several solids; empty ones are left out."""
        return tuple(self.solid(s) for s in solids if not s.empty)

    def gone(self, solids: Iterable[Solid]) -> tuple[Mesh, ...]:
        """Metal that a cut took, without the skins that cling to it where the cut ends on an earlier one.

        Such a skin has no thickness, and the lines of its crumbs would be a dark bar on the paper.
        """
        key = tuple(map(id, given := tuple(solids)))
        if key not in self._gone:
            freed = [bare for s in given for bare in (s.without_skins() if _may_have_skin(self.solid(s)) else [s])]
            self._gone[key] = (given, self.solids(freed))
        return self._gone[key][1]


def _may_have_skin(mesh: Mesh) -> bool:
    """Whether two facets lie back to back in one plane: those of a skin do."""
    offset = np.einsum("ij,ij->i", mesh.normals, mesh.vertices[mesh.triangles[:, 0]])
    planes = np.round(np.c_[mesh.normals, offset] * PLANES).astype(np.int64)
    one_way = {row.tobytes() for row in planes}
    return any((-row).tobytes() in one_way for row in planes)
