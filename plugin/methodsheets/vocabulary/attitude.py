"""How does the axis of work on a rotary table or a dividing head stand: upright, or level?"""

from __future__ import annotations

from enum import StrEnum

from .spelling import Words


class Attitude(StrEnum):
    """Which way the axis of the work runs, where the work stands still and the cutter turns."""

    UPRIGHT = "upright"
    """As the spindle's: cutters come down along the axis, or beside it."""
    LEVEL = "level"
    """Along the table: cutters come down across the axis."""


SPELLED: Words[Attitude] = Words(
    {
        Attitude.UPRIGHT: ("upright", "vertical", "standing"),
        Attitude.LEVEL: ("level", "horizontal", "lying"),
    }
)
"""Reads an attitude in the author's words."""
