"""In which frame does a verb work: about an axis, on a six-face block, at the bench, anywhere?"""

from __future__ import annotations

from enum import StrEnum


class Frame(StrEnum):
    """What the sizes of a verb are measured from."""

    TURNING = "turning"
    """The axis and the face of work about an axis: in the lathe, on a rotary table."""
    VICE = "vice"
    """The edges and the upper face of a six-face block."""
    BENCH = "bench"
    """Nothing: handwork."""
    ANY = "any"
    """Whichever of them the set-up has."""
