"""How much metal is it, where is its middle, and how hard is it to spin?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

import numpy as np

from .frame import Array
from .mesh import Mesh
from .solid import Solid


@dataclass(frozen=True, eq=False)
class MassProperties:
    """Of a solid of density 1: volume mm³, centre (3,) mm, inertia (3, 3) about the centre in mm⁵."""

    volume: float
    centre: Array
    inertia: Array

    def about(self, where: Sequence[float] | Array) -> Array:
        """Inertia tensor (3, 3) about another point, mm⁵ (parallel-axis rule)."""
        d = self.centre - np.asarray(where, float)
        return self.inertia + self.volume * (d @ d * np.eye(3) - np.outer(d, d))


def mass_properties(solid: Solid) -> MassProperties:
    """Volume, centre and inertia of a solid; kept with it after the first time. All zero where there is no metal."""
    return cast(MassProperties, solid.remembered(_weigh))


def _weigh(mesh: Mesh) -> MassProperties:
    """Sum over the tetrahedra between each facet and a middle point, with sign (divergence theorem)."""
    if not len(mesh.triangles):
        return MassProperties(0.0, np.zeros(3), np.zeros((3, 3)))
    middle = mesh.vertices.mean(axis=0)
    a, b, c = (mesh.corners[:, i] - middle for i in range(3))
    six = np.einsum("ij,ij->i", a, np.cross(b, c))
    volume = float(six.sum() / 6)
    if abs(volume) < 1e-15:
        return MassProperties(0.0, middle, np.zeros((3, 3)))
    total = a + b + c
    centre = (six @ total) / 24 / volume
    second = sum(np.einsum("i,ij,ik->jk", six, p, p) for p in (a, b, c, total)) / 120
    spread = second - volume * np.outer(centre, centre)
    return MassProperties(volume, centre + middle, np.trace(spread) * np.eye(3) - spread)
