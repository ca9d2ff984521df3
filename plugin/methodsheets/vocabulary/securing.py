"""What can secure a joint that stands already, and what does each ask: heat, filler, a pin, a screw?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .joint import Joint
from .spelling import Words


class Securing(StrEnum):
    """What secures; the word is how the sheet says it."""

    WELD = "weld"
    SOLDER = "silver solder"
    RETAINER = "retainer"
    CROSS_PIN = "cross pin"
    GRUB_SCREW = "grub screw"

    @property
    def row(self) -> SecuringRow:
        """All that is known of it."""
        return SECURINGS[self]


@dataclass(frozen=True, kw_only=True)
class SecuringRow:
    """One way of securing."""

    words: tuple[str, ...]
    how: Joint
    """The joint that it makes: words, cautions, tool, looks."""
    minutes: float
    """Minutes of handwork for one small joint: common practice, an estimate."""
    bead: bool = False
    """Whether it lays a bead round the mouth of a seat."""
    across: bool = False
    """Whether it goes in across the joint, through its wall."""
    hot_within: float = 0.0
    """mm from the bead within which a finished surface discolours and moves; infinite where all of the work is heated.
    Common practice, from memory."""
    shear: float = 0.0
    """MPa allowed in the throat of its bead; 0 where there is no figure to rely on."""
    source: str = ""


SECURINGS: Mapping[Securing, SecuringRow] = MappingProxyType({
    Securing.WELD: SecuringRow(
        words=("weld", "tack", "weld bead"), how=Joint.WELDED, minutes=12.0, bead=True, hot_within=15.0, shear=124.0,
        source="0.3 of the tensile strength of the usual weld metal, 415 MPa: rule of structural welding, from memory",
    ),
    Securing.SOLDER: SecuringRow(
        words=("silver solder", "silver braze", "braze"), how=Joint.BRAZED, minutes=20.0, bead=True,
        hot_within=float("inf"),
    ),
    Securing.RETAINER: SecuringRow(
        words=("retainer", "retaining compound", "penetrating retainer"), how=Joint.RETAINED, minutes=4.0,
    ),
    Securing.CROSS_PIN: SecuringRow(
        words=("cross pin", "pin", "taper pin"), how=Joint.PINNED, minutes=4.0, across=True,
    ),
    Securing.GRUB_SCREW: SecuringRow(
        words=("grub screw", "set screw", "setscrew"), how=Joint.SCREWED, minutes=2.0, across=True,
    ),
})  # fmt: skip
"""Every way of securing."""
SPELLED: Words[Securing] = Words({one: row.words for one, row in SECURINGS.items()})
"""Reads one in the author's words."""

THIN_EDGES = frozenset({"chamfer", "round over", "thread", "knurl", "graduate"})
"""Verbs that leave a thin edge, which an arc or a flame burns away."""
