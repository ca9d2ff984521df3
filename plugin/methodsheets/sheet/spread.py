"""Between which values does an estimated number lie, and how sure is it that it keeps to a limit?

An estimate is shown with both its ends, and they go along into every number that is made from it. Two estimates that
have nothing to do with each other combine as the root of the sum of their squares (the usual rule).
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Spread:
    """The ends of an estimate as shares of its likely value: 0.7 and 1.3 for ±30 %."""

    low: float
    high: float

    def of(self, value: float) -> tuple[float, float]:
        """Both ends of a value."""
        return value * self.low, value * self.high

    def also(self, other: Spread) -> Spread:
        """The spread of a product of two estimates that have nothing to do with each other."""
        return Spread(
            max(0.0, 1.0 - math.hypot(1.0 - self.low, 1.0 - other.low)),
            1.0 + math.hypot(self.high - 1.0, other.high - 1.0),
        )

    def verdict(self, value: float, limit: float) -> str:
        """How sure it is that a value stays at or below a limit."""
        low, high = self.of(value)
        if high <= limit:
            return "surely within"
        if value <= limit:
            return "likely within, not surely"
        return "likely over, not surely" if low <= limit else "surely over"


FORCE = Spread(0.7, 1.3)
"""Forces and power of a cut: metals of one name, edges and their wear differ by this (as the handbooks say)."""
PUSH_SHARE = Spread(0.7, 1.3)
"""The share of the cutting force that pushes across the work (usual, from memory)."""
BENDING = FORCE.also(PUSH_SHARE)
"""How far work or a boring bar bends: in proportion to the force, and to its share across."""
CUTTER_BENDS = FORCE.also(Spread(0.7, 1.3))
"""How far a milling cutter bends: the force, and the core that its flutes leave."""
WELD_HEAT = Spread(0.7, 1.5)
"""How much a weld warms the work: a fifth to over two fifths of the arc's heat melts metal (estimate, from memory)."""
CUTTING_TIME = Spread(0.85, 1.25)
"""Time of the cut itself: feeds are the machine's or the hand's, run-in and spring cuts are not counted (estimate)."""
OWN_TIME = Spread(0.95, 1.05)
"""What is left of an estimate of time when the pace of the shop is the same for both of two methods (estimate)."""
HANDLING_TIME = Spread(0.6, 1.6)
"""Time to set up, load, measure and change tools: common practice, which differs so from man to man (estimate)."""
