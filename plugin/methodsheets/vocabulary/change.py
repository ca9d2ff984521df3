"""What may a clause change: the metal, the sheet, the checks?"""

from __future__ import annotations

from enum import StrEnum


class Change(StrEnum):
    """What giving a clause, or giving it another value, changes at least."""

    SOLID = "solid"
    """The metal, or the lines marked on it."""
    WORDS = "words"
    """The sentence of the operation."""
    NAME = "name"
    """What other lines call what was made."""
    TIME = "time"
    """Minutes."""
    NUMBERS = "numbers"
    """Facts, passes, and what they are worked out from."""
    PICTURE = "picture"
    """What the drawing is told."""
    CHECKS = "checks"
    """A verdict, or its words."""
