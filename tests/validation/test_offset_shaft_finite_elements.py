"""Does the frame of bars give way as much as the solid itself, worked out with finite elements in three dimensions?

Half of an offset shaft: a square pin held in its middle, and one web, pushed at the axis in each of three directions.
The frame counts pin and web from middle to middle, so it gives more than the solid and never less: a number on the safe
side. A short, thick joint differs most.
"""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np
import pytest

from methodsheets.trade.bending.frames import Bar, Six, Vector, flat_bar, movements

from .record import record

skfem = pytest.importorskip("skfem")

SUBJECT = "Offset shafts"
E, NU = 206000.0, 0.3
CASES = {
    # name: (throw, side of the pin, free half of the pin, web thickness, web width), how much more the frame may give
    "slender": ((60.0, 10.0, 50.0, 8.0, 16.0), 1.16),
    "as in a small workshop": ((25.0, 10.0, 20.0, 10.0, 20.0), 1.28),
}
LOADS: tuple[Six, ...] = ((1, 0, 0, 0, 0, 0), (0, 1, 0, 0, 0, 0), (0, 0, 1, 0, 0, 0))


def _mesh(throw: float, pin: float, free: float, thick: float, wide: float) -> Any:
    """The web from the axis (x = 0) to beyond the pin, and the pin from its middle (z = 0) up to the web."""

    def cuts(places: list[float], longest: float) -> np.ndarray:
        lines = [np.linspace(a, b, max(1, round((b - a) / longest)) + 1)
                 for a, b in itertools.pairwise(places)]  # fmt: skip
        return np.unique(np.concatenate(lines).round(9))

    x = cuts([0.0, throw - pin / 2, throw + pin / 2], 15.0)
    y = cuts([-wide / 2, -pin / 2, pin / 2, wide / 2], 5.0)
    z = cuts([0.0, free, free + thick], 8.0)
    mesh = skfem.MeshHex.init_tensor(x, y, z)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    in_pin = (np.abs(middle[0] - throw) < pin / 2) & (np.abs(middle[1]) < pin / 2)
    return mesh.restrict(np.flatnonzero((middle[2] > free) | in_pin))


def _solid(throw: float, pin: float, free: float, thick: float, wide: float) -> list[float]:
    """How far the end of the web moves, on average, for a force of one N spread over it."""
    from skfem.models.elasticity import lame_parameters, linear_elasticity

    basis = skfem.Basis(_mesh(throw, pin, free, thick, wide), skfem.ElementVector(skfem.ElementHex2()), intorder=4)
    stiffness = skfem.asm(linear_elasticity(*lame_parameters(E, NU)), basis)
    held = basis.get_dofs(lambda at: np.isclose(at[2], 0.0))
    facets = basis.mesh.facets_satisfying(lambda at: np.isclose(at[0], 0.0), boundaries_only=True)
    end = skfem.FacetBasis(basis.mesh, basis.elem, facets=facets, intorder=4)
    out = []
    for way in range(3):
        spread = skfem.LinearForm(lambda v, w, way=way: v[way] / (thick * wide)).assemble(end)
        moved = skfem.solve(*skfem.condense(stiffness, spread, D=held))
        out.append(float(spread @ moved))
    return out


def _frame(throw: float, pin: float, free: float, thick: float, wide: float) -> list[float]:
    joints: list[Vector] = [(throw, 0, 0), (throw, 0, free + thick / 2), (0, 0, free + thick / 2)]
    bars = [Bar(0, 1, flat_bar(pin, pin), (1, 0, 0), E, NU), Bar(1, 2, flat_bar(wide, thick), (0, 1, 0), E, NU)]
    found = movements(joints, bars, {0: range(6)}, [{2: load} for load in LOADS])
    return [moved[2][way] for way, moved in enumerate(found)]


@pytest.mark.parametrize("name", CASES)
def test_webs_and_pin_give_as_the_solid_does(name: str) -> None:
    sizes, most = CASES[name]
    for solid, frame in zip(_solid(*sizes), _frame(*sizes), strict=True):
        record(SUBJECT, "solid of finite elements (20 to 27 nodes a brick), worked out in this test", frame, solid)
        assert solid < frame < most * solid
