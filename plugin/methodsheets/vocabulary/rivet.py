"""Which heads has a rivet?"""

from __future__ import annotations

from enum import StrEnum

from .spelling import Words


class RivetHead(StrEnum):
    """A head of a rivet; the word is that of the calculation and of the sheet."""

    SNAP = "snap"
    COUNTERSUNK = "countersunk"
    PAN = "pan"

    @property
    def sunk(self) -> bool:
        """Whether it lies in a countersink of 90 degrees, flush with the plate."""
        return self is RivetHead.COUNTERSUNK


SPELLED: Words[RivetHead] = Words({
    RivetHead.SNAP: ("snap head", "round head", "cup head", "round"),
    RivetHead.COUNTERSUNK: ("countersunk head", "flush", "csk"),
    RivetHead.PAN: ("pan head",),
})  # fmt: skip
"""Reads one in the author's words."""
