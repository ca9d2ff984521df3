"""How does a solid of the workpiece reach the drawing board?"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from methodfigures.solids.mesh import Mesh
from methodsheets.geometry import Solid
from methodsheets.workpiece import State


class Drawn:
    """Meshes of one method for drawing; a solid is turned into a mesh once for all figures."""

    def __init__(self) -> None:
        self._meshes: dict[tuple[int, int], tuple[object, Mesh]] = {}

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
        return tuple(self.solid(body.solid, marks if i == 0 else ()) for i, body in enumerate(state.bodies.values()))

    def solids(self, solids: Iterable[Solid]) -> tuple[Mesh, ...]:
        """Several solids; empty ones are left out."""
        return tuple(self.solid(s) for s in solids if not s.empty)
