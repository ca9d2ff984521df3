"""What is measured, what may it be, where does the operation stop, and what does it fit?"""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.formula.measure import Measure

from .words import NOTHING, Words


@dataclass(frozen=True)
class Mate:
    """The partner of a measured size, known by its name in the method and not by its words.

    A sheet that has the partner's measured size judges this one by it: between `measured + add_low` and
    `measured + add_high`.
    """

    limit: str
    """`Limit.id` of the partner."""
    operation: int
    """Number of the operation that makes it."""
    name: str
    """What it is called."""
    fit: str = ""
    """'H7/f7'; empty where `make_to` says it."""
    add_low: float = 0.0
    """mm to add to the partner's measured size, at least."""
    add_high: float = 0.0
    """mm, at most."""


@dataclass(frozen=True)
class Limit:
    """A size to measure, with what it may be."""

    name: str
    nominal: Measure
    upper: Measure
    lower: Measure
    gauge: str = ""
    fit: str = ""
    make_to: Words = NOTHING
    """'hole measured ____ + 0.018 to 0.029' for sizes made to another, measured one."""
    add_low: float | None = None
    add_high: float | None = None
    """mm to add to the measured size of `make_to_name`."""
    make_to_name: str = ""
    hole: bool = False
    """Whether what is made to another, measured size is a hole."""
    aim: Measure | None = None
    """Where the operation stops: inside the limits. None where it does not make this size, or its tool decides."""
    id: str = ""
    """Its own name in the method: 'op-140-shaft-to-the-measured-bore'; stays while operation and words stay."""
    mates: tuple[Mate, ...] = ()
    """The sizes that it fits: a bore has its shafts, a shaft its bore."""

    @property
    def is_called(self) -> bool:
        """Whether its name is a word for it, and not only a number or a formula."""
        return self.name[:1].isalpha() and not set(self.name) & set("()")

    @property
    def has_limits(self) -> bool:
        """Whether it says what may be; else it is a thing to look at or a size without limits."""
        return self.upper.value != self.lower.value
