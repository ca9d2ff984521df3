"""How large must a hole or a flat become to bring the work to a stated balance? Trial cuts on the solid, none kept."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from methodsheets.geometry import Solid, mass_properties
from methodsheets.workpiece import State, mass

LOOKS = 13
"""Sizes at which the range is looked at before closing in: a hole through steps and bores has few turns."""
CLOSE = 1e-4
"""mm to which a size is found: finer than any depth stop."""
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
        """The size that leaves the least unbalance."""
        looked = self._looked()
        place = min(range(LOOKS), key=lambda i: looked[i].amount)
        low, high = looked[max(place - 1, 0)].size, looked[min(place + 1, LOOKS - 1)].size
        return min(looked[place], self._narrowed(low, high), key=lambda taken: taken.amount)

    def reaching(self, wanted: float) -> Taken | None:
        """The smallest size that leaves no more than so many g·mm; None where no size does."""
        looked = [*self._looked(), self.best()]
        looked.sort(key=lambda taken: taken.size)
        if looked[0].amount <= wanted:
            return looked[0]
        crossing = next((pair for pair in pairwise(looked) if pair[1].amount <= wanted), None)
        return self._crossing(*crossing, wanted) if crossing else None

    def _looked(self) -> list[Taken]:
        if not hasattr(self, "_known"):
            self._known = [self.at(self.most * i / (LOOKS - 1)) for i in range(LOOKS)]
        return self._known

    def _narrowed(self, low: float, high: float) -> Taken:
        """Golden section: of three places inside a valley keep the two beside the lowest."""
        a, b = self.at(high - GOLDEN * (high - low)), self.at(low + GOLDEN * (high - low))
        while high - low > CLOSE:
            if a.amount < b.amount:
                high, b = b.size, a
                a = self.at(high - GOLDEN * (high - low))
            else:
                low, a = a.size, b
                b = self.at(low + GOLDEN * (high - low))
        return min(a, b, key=lambda taken: taken.amount)

    def _crossing(self, above: Taken, below: Taken, wanted: float) -> Taken:
        """Close in on where the unbalance falls to what is wanted; the answer lies on the good side."""
        while below.size - above.size > CLOSE:
            middle = self.at((above.size + below.size) / 2)
            above, below = (above, middle) if middle.amount <= wanted else (middle, below)
        return below


def direction(arrow: complex) -> float:
    """Degrees about z of the work; 0 where there is no direction worth the name."""
    return math.degrees(cmath.phase(arrow)) if abs(arrow) > 1e-6 else 0.0
