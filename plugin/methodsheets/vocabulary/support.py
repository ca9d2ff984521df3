"""What holds up the work beside its holder: a centre in the tailstock, a steady on the bed or on the saddle?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .spelling import Words


@dataclass(frozen=True, kw_only=True)
class SupportRow:
    """What the rooms ask of a support."""

    words: tuple[str, ...]
    """What it is called, the usual name first."""
    centre: bool = False
    """Whether its point stands in a centre hole of the face."""
    steady: bool = False
    """Whether its fingers bear on the outside of the work."""
    travels: bool = False
    """Whether it moves with the saddle, beside the tool."""
    turns: bool = False
    """Whether its point turns with the work; one that does not rubs and wants grease."""
    clears_face: bool = False
    """Whether it is cut away so that a tool can face down to the centre hole."""
    place_of_its_own: bool = False
    """Whether it stands at a length that the author says."""


class Support(StrEnum):
    """What holds up the work beside its holder; each one is spelled by its usual name."""

    NONE = "none"
    TAILSTOCK_CENTRE = "tailstock centre"
    ROTATING_CENTRE = "rotating centre"
    DEAD_CENTRE = "dead centre"
    HALF_CENTRE = "half centre"
    FIXED_STEADY = "fixed steady"
    TRAVELLING_STEADY = "travelling steady"

    @property
    def row(self) -> SupportRow:
        """All that is known of it."""
        return SUPPORTS[self]

    @property
    def there(self) -> bool:
        """Whether anything holds up the work."""
        return self is not Support.NONE


SUPPORTS: Mapping[Support, SupportRow] = MappingProxyType(
    {
        Support.NONE: SupportRow(words=("none", "no support", "nothing", "without")),
        Support.TAILSTOCK_CENTRE: SupportRow(
            words=("tailstock centre", "centre", "tailstock", "back centre"), centre=True, turns=True
        ),
        Support.ROTATING_CENTRE: SupportRow(
            words=("rotating centre", "live centre", "running centre", "revolving centre", "rotating tailstock centre"),
            centre=True,
            turns=True,
        ),
        Support.DEAD_CENTRE: SupportRow(
            words=("dead centre", "plain centre", "solid centre", "fixed centre", "carbide centre"), centre=True
        ),
        Support.HALF_CENTRE: SupportRow(words=("half centre", "cut-away centre"), centre=True, clears_face=True),
        Support.FIXED_STEADY: SupportRow(
            words=("fixed steady", "steady", "steady rest", "fixed rest", "three-point steady"),
            steady=True,
            place_of_its_own=True,
        ),
        Support.TRAVELLING_STEADY: SupportRow(
            words=("travelling steady", "traveling steady", "moving steady", "follow rest", "follower", "follow steady",
                   "travelling rest", "traveling rest"),
            steady=True,
            travels=True,
        ),
    }
)  # fmt: skip
"""Every support. A new one is a row here, and its polygons in the drawing library."""


SPELLED: Words[Support] = Words({support: row.words for support, row in SUPPORTS.items()})
"""Reads a support in the author's words."""


@dataclass(frozen=True)
class HeldUp:
    """What holds up the work at one moment: a centre, a steady, or both."""

    centre: Support = Support.NONE
    steady: Support = Support.NONE
    at: float | None = None
    """Distance of a fixed steady from the face, mm; None where it is not said."""

    def brought(self, support: Support, at: float | None = None) -> HeldUp:
        """The same after one more is brought up; NONE takes all of them away."""
        if support.row.centre:
            return HeldUp(support, self.steady, self.at)
        return HeldUp(self.centre, support, at) if support.row.steady else HeldUp()

    @property
    def there(self) -> bool:
        """Whether anything holds up the work."""
        return self.centre.there or self.steady.there

    @property
    def words(self) -> str:
        """'tailstock centre and travelling steady'; empty where nothing does."""
        return " and ".join(str(one) for one in (self.centre, self.steady) if one.there)


ALONE = HeldUp()
"""The work in its holder alone."""
