"""Which round surfaces does a body have, between which lengths, and which of them does a cutter run along?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..geometry import Axis, Mesh, Solid, Surface
from ..geometry.surface import group_same
from .state import State

ROUND = ("cylinder", "cone")


@dataclass(frozen=True)
class Skin:
    """A round surface as it stands: its facets in a mesh, and the lengths along its axis between which it stands."""

    surface: Surface
    mesh: Mesh
    facets: np.ndarray
    low: float
    high: float

    @property
    def area(self) -> float:
        """mm²."""
        return float(self.mesh.areas[self.facets].sum())

    def length_of(self, point: np.ndarray) -> float:
        """How far along its direction a point lies, mm."""
        return float(point @ np.array(self.surface.direction))

    def area_within(self, low: float, high: float) -> float:
        """mm² between two lengths along its direction."""
        return self.mesh.area_between(self.facets, self.surface.direction, low, high)


def round_skins(solid: Solid) -> tuple[Skin, ...]:
    """The cylinders and cones of a body; found once and kept with it."""
    found = solid.remembered(_skins)
    assert isinstance(found, tuple)
    return found


def round_tags(state: State) -> frozenset[str]:
    """Marks of the operations whose round surfaces a state has."""
    return frozenset(skin.surface.operation for solid in state for skin in round_skins(solid))


def _skins(mesh: Mesh) -> tuple[Skin, ...]:
    found = []
    for number, surface in enumerate(mesh.surfaces):
        facets = mesh.surface_index == number
        if surface.kind in ROUND and facets.any():
            along = mesh.corners[facets] @ np.array(surface.direction)
            found.append(Skin(surface, mesh, facets, float(along.min()), float(along.max())))
    return tuple(found)


def ran_along(skin: Skin, tool: Skin) -> float:
    """mm² of a surface along which a cutter of the very same form ran."""
    apart = min(skin.high, tool.high) - max(skin.low, tool.low)
    if apart <= 0 or group_same((skin.surface, tool.surface)) != [0, 0]:
        return 0.0
    return skin.area_within(tool.low, tool.high)


def in_place_of(new: Skin, old: Skin) -> bool:
    """Whether a surface stands on the axis of one that was cut, and over some of its length."""
    if not new.surface.coaxial(Axis.through(old.surface.point, old.surface.direction)):
        return False
    way = float(np.dot(old.surface.direction, new.surface.direction))
    low, high = sorted((new.low * way, new.high * way))
    return min(high, old.high) - max(low, old.low) > 0
