"""How large must a hole or a flat become to bring the work to a stated balance? Trial cuts on the solid, none kept."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from methodsheets.geometry import Solid, mass_properties
from methodsheets.workpiece import State, mass

LOOKS = 11
"""Sizes at which the range is looked at before closing in: a hole through steps and bores has few turns."""
CLOSE = 2e-3
"""mm to which a size is found: finer than any depth stop; each trial costs some milliseconds."""
MOST_TRIALS = 10
"""Trials in closing in on a size, each for the least and for the crossing: a formula has a quarter of a second."""
ENOUGH = 1e-4
"""g·mm above the least that count as the least: well below what any scale shows."""
GOLDEN = (math.sqrt(5) - 1) / 2


@dataclass(frozen=True)
class Taken:
    """What one trial takes and what it leaves.

    Arrows are complex numbers in the plane across the axis: g·mm, x + iy of the work.
    """

    size: float
    """mm: how far the cut has gone."""
    grams: float
    moment: complex
    """Unbalance of the metal that goes."""
    left: complex
    """Unbalance of the work that stays."""

    @property
    def amount(self) -> float:
        """g·mm that are left."""
        return abs(self.left)


class TrialCuts:
    """One cut of growing size on one state of the work.

    `cutter` gives what the tool sweeps at a size in mm from 0 to `most`; a larger one holds the smaller ones.
    """

    def __init__(self, state: State, cutter: Callable[[float], Solid], most: float) -> None:
        """Set the metal apart that the largest cut can meet: every trial then works on a small solid."""
        weight = mass(state)
        self.before = weight.grams * complex(float(weight.centre[0]), float(weight.centre[1]))
        self.most = most
        self._cutter = cutter
        whole = cutter(most)
        met = [(body.solid & whole, body.density) for body in state.bodies.values()]
        self._known: list[Taken] = []
        self._lowest: Taken | None = None
        self._metal = [(solid, density) for solid, density in met if not solid.empty]

    @property
    def misses(self) -> bool:
        """Whether even the largest cut meets no metal."""
        return not self._metal

    def at(self, size: float) -> Taken:
        """What a cut of a size takes and leaves."""
        swept, grams, moment = self._cutter(size), 0.0, 0j
        for solid, density in self._metal:
            part = mass_properties(solid & swept)
            grams += density * part.volume
            moment += density * part.volume * complex(float(part.centre[0]), float(part.centre[1]))
        return Taken(size, grams, moment, self.before - moment)

    def best(self) -> Taken:
        """The smallest size that leaves the least unbalance: a hole goes no deeper than there is metal."""
        return self.reaching(self._least().amount + ENOUGH) or self._least()

    def reaching(self, wanted: float) -> Taken | None:
        """The smallest size that leaves no more than so many g·mm; None where no size does."""
        looked = sorted([*self._looked(), self._least()], key=lambda taken: taken.size)
        if looked[0].amount <= wanted:
            return looked[0]
        crossing = next((pair for pair in pairwise(looked) if pair[1].amount <= wanted), None)
        return self._crossing(*crossing, wanted) if crossing else None

    def _least(self) -> Taken:
        """A size that leaves the least unbalance; worked out once."""
        if self._lowest is None:
            looked = self._looked()
            place = min(range(LOOKS), key=lambda i: looked[i].amount)
            place = min(max(place, 1), LOOKS - 2)
            self._lowest = min(*looked, self._narrowed(*looked[place - 1 : place + 2]), key=lambda taken: taken.amount)
        return self._lowest

    def _looked(self) -> list[Taken]:
        if not self._known:
            self._known = [self.at(self.most * i / (LOOKS - 1)) for i in range(LOOKS)]
        return self._known

    def _narrowed(self, low: Taken, middle: Taken, high: Taken) -> Taken:
        """The lowest place of a valley: the vertex of the parabola through three places, or the wider side's middle.

        Between two steps of the work the square of the unbalance is a parabola of the size, so few trials do.
        """
        for _ in range(MOST_TRIALS):
            size = _vertex(low, middle, high)
            if not low.size + CLOSE < size < high.size - CLOSE or abs(size - middle.size) < CLOSE:
                side = low if middle.size - low.size > high.size - middle.size else high
                if abs(side.size - middle.size) < 2 * CLOSE:
                    break
                size = middle.size + (1 - GOLDEN) * (side.size - middle.size)
            new = self.at(size)
            if new.amount < middle.amount:
                low, high = (low, middle) if size < middle.size else (middle, high)
                middle = new
            else:
                low, high = (new, high) if size < middle.size else (low, new)
        return middle

    def _crossing(self, above: Taken, below: Taken, wanted: float) -> Taken:
        """Close in on where the unbalance falls to what is wanted; the answer lies on the good side."""
        for i in range(MOST_TRIALS):
            if below.size - above.size <= CLOSE:
                break
            share = (above.amount - wanted) / max(above.amount - below.amount, 1e-12)
            # A straight line through the two, but now and then the middle, so that neither end stays for ever.
            level = below.amount > wanted - 2 * ENOUGH  # where the metal ends the unbalance stays as it is
            share = 0.5 if level or i % 3 == 2 else min(0.98, max(0.02, share + CLOSE / (below.size - above.size)))
            new = self.at(above.size + share * (below.size - above.size))
            above, below = (above, new) if new.amount <= wanted else (new, below)
        return below


def _vertex(low: Taken, middle: Taken, high: Taken) -> float:
    """Where the parabola through three squares of unbalance has its lowest place; the middle where it has none."""
    a, b = middle.size - low.size, middle.size - high.size
    fa, fb = middle.amount**2 - high.amount**2, middle.amount**2 - low.amount**2
    below = a * fa - b * fb
    return middle.size if abs(below) < 1e-12 else middle.size - 0.5 * (a * a * fa - b * b * fb) / below


def direction(arrow: complex) -> float:
    """Degrees about z of the work; 0 where there is no direction worth the name."""
    return math.degrees(cmath.phase(arrow)) if abs(arrow) > 1e-6 else 0.0
