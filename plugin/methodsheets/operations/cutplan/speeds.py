"""Which spindle speed and which depth of pass take the least time that motor, holding and tool allow?

The table gives a speed for a tool and a metal, and a motor may not pull a fair depth at it. A person then takes a
deeper pass at a lower speed: the metal goes as fast, and fewer passes are set and measured. So every speed that it has
between the least at which the tool cuts well and the table's is tried with the deepest pass that the motor pulls there;
the one that takes the least time is taken, passes and their handling together.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

LEAST_DEPTH = 0.1
"""mm: no roughing pass is planned thinner than this, or the edge rubs (common practice)."""
AS_GOOD = 1.04
"""A choice that takes no more than so much of the least time is as good; then the one with fewer passes is taken."""


@dataclass(frozen=True)
class Motor:
    """What a cut takes from the motor: `watts` at `depth` mm and `speed` m/min; it grows with both.

    `most` [W] is what is planned for; 0 where the machine's power is not known.
    """

    watts: float = 0.0
    depth: float = 1.0
    speed: float = 1.0
    most: float = 0.0

    def deepest(self, speed: float) -> float:
        """The deepest pass, mm, that it pulls at a cutting speed of so many m/min."""
        if self.most <= 0 or self.watts <= 0 or speed <= 0:
            return math.inf
        return self.depth * (self.most / self.watts) * (self.speed / speed)


@dataclass(frozen=True)
class Cut:
    """A turned cut before it is planned; lengths in mm, times in minutes."""

    diameter: float
    """Largest metal that the tool meets."""
    total: float
    """Of the slide, finishing cut included."""
    last: float
    """Of the finishing cut."""
    travel: float
    feed: float
    most_depth: float
    """That machine, tool and work bear, beside the motor."""
    back: float = 0.2
    """To wind back and set the next pass."""
    least_speed: float = 0.0
    """m/min: below it this tool cuts badly."""


@dataclass(frozen=True)
class Choice:
    """A speed [1/min], the deepest pass at it [mm], what it takes [min] and the reasons."""

    spindle: float
    depth: float
    passes: int
    minutes: float
    why_depth: str = ""
    why_speed: str = ""


def choose(cut: Cut, spindles: Iterable[float], motor: Motor) -> Choice | None:
    """The best speed of those the machine has up to the one wanted; None where there is none.

    Parameters:
        spindles: [1/min] in any order; the fastest is the one that table and holding want
    """
    tried = sorted({spindle for spindle in spindles if spindle > 0})
    if not tried:
        return None
    well = [one for one in tried if _cutting_speed(cut, one) >= cut.least_speed] or [tried[-1]]
    choices = [_at(cut, spindle, motor) for spindle in well]
    fit = [choice for choice in choices if choice.depth >= min(LEAST_DEPTH, cut.total)] or choices[:1]
    least = min(choice.minutes for choice in fit)
    best = min((c for c in fit if c.minutes <= AS_GOOD * least), key=lambda c: (c.passes, -c.spindle))
    slower = best.spindle < tried[-1] - 1e-6
    why = "deeper passes at a lower speed: the motor" if slower else ""
    return Choice(best.spindle, best.depth, best.passes, best.minutes, best.why_depth, why)


def _at(cut: Cut, spindle: float, motor: Motor) -> Choice:
    pulled = motor.deepest(_cutting_speed(cut, spindle))
    depth = min(cut.most_depth, pulled)
    rough = max(0.0, cut.total - cut.last)
    passes = (math.ceil(rough / depth - 1e-6) if rough > 1e-9 else 0) + (1 if cut.last else 0)
    minutes = max(1, passes) * (cut.travel / (cut.feed * spindle) + cut.back)
    return Choice(spindle, depth, passes, minutes, "the motor" if pulled < cut.most_depth else "")


def _cutting_speed(cut: Cut, spindle: float) -> float:
    return math.pi * cut.diameter * spindle / 1000.0


def worth_a_change(now: float, faster: float, minutes_left: float, change: float) -> bool:
    """Whether going up from one spindle speed to another saves more than the change costs.

    Parameters:
        minutes_left: of cutting that is left at the present speed; change: minutes that changing belt or gear takes
    """
    if faster <= now:
        return False
    return minutes_left * (1 - now / faster) > max(change, WHILE)


WHILE = 0.5
"""Minutes that a change must save at least, even on a drive that is turned up: attention costs too (an estimate)."""
