"""What does the handwheel's dial read when the slide has moved so far?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

MM_PER_INCH = 25.4

# A reading that lies within this share of one division counts as on the line.
_ON_THE_LINE = 1e-6
EDGE = 0.1
"""Share of the width of the limits that a reading keeps off their edges."""
PARTS = (2, 4, 10, 20, 50, 100, 1000)
"""Parts of a division that a reading is estimated to, the coarsest that will do."""


@dataclass(frozen=True)
class DialReading:
    """What to turn a dial by.

    `turns` whole turns and then `reading` on the dial, both in the dial's own unit; `error` is what the slide
    then lies beyond [mm, + is deeper] the wanted travel, because a dial is read to its own graduation.
    """

    turns: int
    reading: float
    unit: str
    words: str
    error: float
    between_lines: bool = False
    """Whether no line of the dial lies inside the limits: the reading is to be estimated between two."""


@dataclass(frozen=True)
class Dial:
    """One dial of a machine.

    Parameters:
        slide: 'cross slide', 'top slide', 'saddle', 'quill', 'x', 'y', 'z' …
        graduation: [mm] what one division stands for *as the dial is marked*
        reads: 'distance' (the slide's travel), 'radius' (the same, on a cross slide) or
            'diameter' (twice the slide's travel, so that it reads what comes off the diameter)
        per_turn: [mm] what one turn of the handwheel stands for as the dial is marked; 0 where it is a read-out
        unit: 'mm' or 'in', the unit that the dial is marked in
        readout: True where it is a display that counts through and has no turns
    """

    slide: str
    graduation: float
    reads: str = "distance"
    per_turn: float = 0.0
    unit: str = "mm"
    readout: bool = False

    @property
    def factor(self) -> float:
        """How far the dial's reading goes for one millimetre of the slide."""
        return 2.0 if self.reads == "diameter" else 1.0

    def for_travel(self, travel: float) -> DialReading:
        """Say what to turn the dial by for a travel of the slide.

        Parameters:
            travel: [mm] travel of the slide; on a cross slide half of what comes off the diameter

        Raises:
            ValueError: the travel is not a finite number.
        """
        if not math.isfinite(travel):
            raise ValueError(f"no travel: {travel}")
        sign = -1 if travel < 0 else 1
        marked = abs(travel) * self.factor
        divisions = _nearest(marked / self.graduation)
        shown = divisions * self.graduation
        turns, rest = self._in_turns(divisions)
        error = (shown - marked) / self.factor
        return DialReading(turns * sign, rest, self.unit, self._words(turns, rest, sign), error)

    def within(self, travel: float, stop: tuple[float, float]) -> DialReading:
        """As `for_travel`, but the reading leaves the slide between two travels, and not at the edge of them.

        The nearest line is taken where it lies inside; else the reading is estimated between two lines.

        Parameters:
            travel: [mm] wanted travel
            stop: [mm] least and greatest travel
        """
        low, high = stop
        spare = EDGE * (high - low)
        fine = self
        for parts in (1, *PARTS):
            fine = replace(self, graduation=self.graduation / parts)
            found = fine.for_travel(travel)
            if low + spare <= travel + math.copysign(found.error, found.error * travel) <= high - spare:
                return found if parts == 1 else replace(found, between_lines=True)
        return replace(fine.for_travel(travel), between_lines=True)

    def _in_turns(self, divisions: int) -> tuple[int, float]:
        """Split divisions into whole turns and the reading that is left [the dial's unit]."""
        scale = MM_PER_INCH if self.unit == "in" else 1.0
        if self.readout or self.per_turn <= 0:
            return 0, divisions * self.graduation / scale
        per_turn = _nearest(self.per_turn / self.graduation)
        turns, rest = divmod(divisions, per_turn)
        return turns, rest * self.graduation / scale

    def _words(self, turns: int, rest: float, sign: int) -> str:
        """Word a reading: '1 turn + 0.40' or '0.35', with the unit the dial is marked in."""
        number = f"{rest:.{self._places()}f}\u202f{self.unit}"
        minus = "−" if sign < 0 else ""
        if not turns:
            return f"{minus}{number}"
        turn_words = "1 turn" if turns == 1 else f"{turns} turns"
        return f"{minus}{turn_words}" if rest == 0 else f"{minus}{turn_words} + {number}"

    def _places(self) -> int:
        """Decimal places that show one division: 0.02 mm → 2, 0.025 mm → 3, 0.001 in → 3."""
        step = self.graduation / (MM_PER_INCH if self.unit == "in" else 1.0)
        return next((places for places in range(6) if abs(round(step, places) - step) < 1e-9), 5)

    @property
    def words(self) -> str:
        """Say how the dial is marked: 'cross slide reads the diameter, 0.02 mm a division, 4 mm a turn'."""
        scale = MM_PER_INCH if self.unit == "in" else 1.0
        meaning = {"radius": "reads the slide's travel (half the diameter)", "diameter": "reads the diameter"}
        division = f"{self.graduation / scale:.{self._places()}f}\u202f{self.unit}"
        if self.readout:
            return f"{self.slide} {meaning.get(self.reads, 'reads the travel')}, display, steps of {division}"
        turn = f"{self.per_turn / scale:g}\u202f{self.unit}"
        return f"{self.slide} {meaning.get(self.reads, 'reads the travel')}, {division} a division, {turn} a turn"


def _nearest(count: float) -> int:
    """Round to the nearest whole number, halves away from nought, as one reads a dial."""
    return math.floor(count + 0.5 + _ON_THE_LINE)
