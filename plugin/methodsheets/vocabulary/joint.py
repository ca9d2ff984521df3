"""Which joints are there, and what does each mean: words, cautions, time, the tool, what it asks of its seats?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class Joint(StrEnum):
    """How one piece is joined to another; the word is how the sheet says it."""

    PRESSED = "pressed"
    SHRUNK = "shrunk"
    LOOSE = "loose"
    PINNED = "pinned"
    BRAZED = "brazed"
    WELDED = "welded"
    RETAINED = "retained"
    SCREWED = "screwed"
    SOFT_SOLDERED = "soft-soldered"
    GLUED = "glued"
    RIVETED = "riveted"

    @property
    def row(self) -> JointRow:
        """What it means for every other room."""
        return JOINTS[self]


@dataclass(frozen=True, kw_only=True)
class JointRow:
    """One way of joining."""

    sentence: str
    """The first word of the operation's sentence."""
    minutes: float
    """Minutes of handwork for one small joint: common practice, an estimate."""
    looks: str
    """What the drawing library calls it."""
    force: str = ""
    """What is done at the arrow of the drawing."""
    cautions: tuple[str, ...] = ()
    tool: str = ""
    held_by_fit: bool = False
    """Whether its seat holds by interference: an overlap of that size is a fit, and a gap holds nothing."""
    filled: bool = False
    """Whether filler shows on the drawing."""
    gap: str = ""
    """Row of the table of joint gaps that says what room it wants; empty where it wants none."""
    threaded: bool = False
    """Whether the nominal shapes share the height of a thread, by convention."""
    cure: str = ""
    """How long it sets before it is worked on; empty where it holds at once."""
    apart: str = ""
    """How it is taken apart again without harm; empty where it is not."""
    hot: bool = False
    """Whether the work is heated for it."""
    softens: bool = False
    """Whether it is heated so far that hardened steel is soft afterwards, near the joint at least."""
    draws: str = ""
    """Why its seat does not say how true the piece sits; empty where the fit of the seat keeps it."""


JOINTS: Mapping[Joint, JointRow] = MappingProxyType({
    Joint.PRESSED: JointRow(sentence="Press", minutes=5.0, looks="press", force="press", cautions=("pressing",),
                            tool="press", held_by_fit=True, apart="press it out"),
    Joint.SHRUNK: JointRow(sentence="Shrink", minutes=10.0, looks="shrink", force="slip on, hot", cautions=("hot",),
                           tool="hearth", held_by_fit=True, hot=True),
    Joint.LOOSE: JointRow(sentence="Slide", minutes=1.0, looks="retain", force="slide", apart="lift it off"),
    Joint.PINNED: JointRow(sentence="Drive", minutes=3.0, looks="pin", force="drive in", tool="hammer",
                           held_by_fit=True, apart="drive it out"),
    Joint.BRAZED: JointRow(sentence="Silver-braze", minutes=25.0, looks="braze", cautions=("brazing", "hot"),
                           tool="hearth", filled=True, gap="silver brazing", hot=True, softens=True,
                           draws="red heat draws the work"),
    Joint.WELDED: JointRow(sentence="Weld", minutes=20.0, looks="weld", cautions=("welding", "hot"), tool="welder",
                           filled=True, hot=True, softens=True, draws="a weld draws the work as it cools"),
    Joint.RETAINED: JointRow(sentence="Fix with retaining compound", minutes=6.0, looks="retain", force="push on",
                             cautions=("retaining",),
                             cure="minutes to be handled and 24 h at 20 °C for full strength, by the maker's sheet"),
    Joint.SOFT_SOLDERED: JointRow(sentence="Soft-solder", minutes=10.0, looks="braze", cautions=("soldering", "hot"),
                                  tool="hearth", filled=True, gap="soft soldering", hot=True,
                                  apart="warm it until the solder runs, slide it off and wipe the faces clean"),
    Joint.GLUED: JointRow(sentence="Glue", minutes=8.0, looks="retain", cautions=("adhesive",), gap="epoxy adhesive",
                          cure="24 h at 20 °C for two-part epoxy, by the maker's sheet; warm is quicker"),
    Joint.RIVETED: JointRow(sentence="Rivet", minutes=3.0, looks="pin", force="set", cautions=("riveting",),
                            tool="rivet snap", draws="a rivet draws the plates as it is closed"),
    Joint.SCREWED: JointRow(sentence="Screw", minutes=2.0, looks="screw", force="turn", threaded=True,
                            apart="unscrew it", draws="a thread has play and seats on a face"),
})  # fmt: skip
"""Every joint."""
