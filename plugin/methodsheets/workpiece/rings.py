"""Is the wall of a ring closed, where the work is bored?"""

from __future__ import annotations

import math

import numpy as np

from ..geometry import Frame, section
from .datum import Array, Place2
from .state import State


def is_slit(state: State, axis: Place2, z: float) -> bool:
    """Whether the work is bored along an axis at a height and the ring round the bore is open there: a slit collar."""
    if bool(state.solid.contains(np.array([[*axis, z]]))[0]):
        return False
    rings = section(state.solid, Frame.shifted((0.0, 0.0, z)))
    return bool(rings) and not any(_goes_round(ring, np.array(axis)) for ring in rings)


def _goes_round(ring: Array, axis: Array) -> bool:
    """Whether a ring of the section goes round the axis."""
    a = ring - axis
    b = np.roll(a, -1, axis=0)
    turn = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], np.einsum("ij,ij->i", a, b)).sum()
    return abs(float(turn)) > math.pi
