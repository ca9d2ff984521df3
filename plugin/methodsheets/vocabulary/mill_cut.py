"""Which kinds of milling cut are there, in the words of the tables of speed, feed and depth?"""

from __future__ import annotations

from enum import StrEnum


class MillCut(StrEnum):
    """Kind of milling cut, in the words of the tables of speed, feed and depth."""

    SIDE = "mill"
    SLOT = "slot"
    SAW = "saw"
    T_SLOT = "t-slot"
    WOODRUFF = "woodruff"
    DOVETAIL = "dovetail"
    FLY = "fly-cut"
    FACE = "face-mill"
    FORM = "form-mill"
    GEAR = "gear"

    @property
    def at_full_depth(self) -> bool:
        """Whether such a cutter comes in from the side, its whole depth at once."""
        return self in (MillCut.T_SLOT, MillCut.WOODRUFF)

    @property
    def depth_word(self) -> MillCut:
        """Its word in the table of depths: a form cutter goes as deep as one that mills along a side."""
        return self if self in (MillCut.SLOT, MillCut.FLY, MillCut.FACE) else MillCut.SIDE
