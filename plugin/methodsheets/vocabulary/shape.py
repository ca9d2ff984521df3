"""Which shapes is a turned part said with, and what does each look like across the axis?"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Shape(StrEnum):
    """A line of the `part` block that adds metal about the axis."""

    ROUND = "round"
    CONE = "cone"
    HEXAGON = "hexagon"
    SQUARE = "square"

    @property
    def sides(self) -> int:
        """How many flats it has; 0 where it is round."""
        return SIDES[self]


SIDES: Mapping[Shape, int] = MappingProxyType({Shape.ROUND: 0, Shape.CONE: 0, Shape.HEXAGON: 6, Shape.SQUARE: 4})
"""Flats of every shape."""


class PartKey(StrEnum):
    """A line of the `part` block that adds and cuts no metal."""

    PIECE = "piece"
    END = "end"
    UP = "up"
    BLOCK = "block"
    FINISH = "finish"
    RUNS_TRUE = "runs true"
