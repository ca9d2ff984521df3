"""Which laws of motion has a cam, and which followers?"""

from __future__ import annotations

from enum import StrEnum

from .spelling import Words


class Motion(StrEnum):
    """Law of motion of a follower; the word is that of the calculation."""

    UNIFORM = "uniform"
    HARMONIC = "harmonic"
    PARABOLIC = "parabolic"
    CYCLOIDAL = "cycloidal"


class Follower(StrEnum):
    """What runs on a cam."""

    POINT = "point"
    ROLLER = "roller"
    FLAT = "flat"


MOTIONS: Words[Motion] = Words({
    Motion.UNIFORM: ("uniform motion", "constant speed"),
    Motion.HARMONIC: ("simple harmonic motion", "simple harmonic", "harmonic motion"),
    Motion.PARABOLIC: ("constant acceleration", "uniform acceleration", "parabolic motion"),
    Motion.CYCLOIDAL: ("cycloidal motion",),
})  # fmt: skip
"""Reads a law in the author's words."""
FOLLOWERS: Words[Follower] = Words({
    Follower.POINT: ("pointed follower", "knife edge", "point follower"),
    Follower.ROLLER: ("roller follower", "rolling follower"),
    Follower.FLAT: ("flat follower", "flat faced", "flat foot", "mushroom"),
})  # fmt: skip
"""Reads a follower in the author's words."""
