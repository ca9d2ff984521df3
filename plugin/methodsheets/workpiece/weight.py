"""How heavy is the work, where is its middle, and how far out of balance does it run?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry import mass_properties
from .datum import Array, Place2
from .state import State


@dataclass(frozen=True, eq=False)
class Weight:
    """Mass in g, centre of mass (3,) in mm, inertia (3, 3) about it in g·mm²."""

    grams: float
    centre: Array
    inertia: Array

    def about(self, where: Sequence[float] | Array) -> Array:
        """Inertia (3, 3) about another point, g·mm² (parallel-axis rule)."""
        d = self.centre - np.asarray(where, float)
        return self.inertia + self.grams * (d @ d * np.eye(3) - np.outer(d, d))


def mass(state: State) -> Weight:
    """Weight of the work, each piece with its own density; all zero where there is none."""
    parts = [(b.density, mass_properties(b.solid)) for b in state.bodies.values()]
    grams = sum(density * p.volume for density, p in parts)
    if grams <= 0:
        return Weight(0.0, np.zeros(3), np.zeros((3, 3)))
    centre: Array = sum((density * p.volume * p.centre for density, p in parts), np.zeros(3)) / grams
    inertia: Array = sum((density * p.about(centre) for density, p in parts), np.zeros((3, 3)))
    return Weight(grams, centre, inertia)


@dataclass(frozen=True)
class Unbalance:
    """How the work is out of balance about an axis parallel to z.

    `amount` g·mm points to `angle` (degrees about z of the work; a set-up's own angle: `TurningFrame.work_angle`).
    `couple` g·mm² is what is left when the static part is cancelled in the plane of the centre of mass, `couple_angle`
    where it points on the side of larger z. Balancing in one plane needs a small couple.
    """

    amount: float
    angle: float
    couple: float
    couple_angle: float
    grams: float
    plane: float
    """The z of the centre of mass, mm."""

    @property
    def eccentricity(self) -> float:
        """Distance of the centre of mass from the axis, mm."""
        return self.amount / self.grams if self.grams else 0.0


def unbalance(state: State, axis: Place2 = (0.0, 0.0)) -> Unbalance:
    """Static and couple unbalance of the work about an axis at (x, y) of the work."""
    weight = mass(state)
    x, y = (float(weight.centre[i]) - axis[i] for i in range(2))
    about = weight.about((axis[0], axis[1], float(weight.centre[2])))
    xz, yz = -float(about[0, 2]), -float(about[1, 2])
    return Unbalance(
        weight.grams * math.hypot(x, y),
        _angle(x, y),
        math.hypot(xz, yz),
        _angle(xz, yz),
        weight.grams,
        float(weight.centre[2]),
    )


def _angle(x: float, y: float) -> float:
    """Degrees; 0 where there is no direction worth the name."""
    return math.degrees(math.atan2(y, x)) if math.hypot(x, y) > 1e-6 else 0.0
