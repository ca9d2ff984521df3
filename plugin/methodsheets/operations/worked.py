"""What is worked out for one cut, and what did the author wish of it?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from methodsheets.sheet.model import Check, Fact, Pass, Working
from methodsheets.sheet.spread import Spread

from .facts import fact


@dataclass(frozen=True)
class Wishes:
    """What the author wrote of speed, feed and depth; None where the handbook is to say it."""

    cutting_speed: float | None = None
    """m/min."""
    spindle_speed: float | None = None
    """1/min."""
    feed: float | None = None
    """mm a turn, or a tooth when milling."""
    depth: float | None = None
    """mm of one pass, on the radius when turning."""
    minutes: float | None = None


@dataclass(frozen=True)
class Worked:
    """Cutting data of one operation, as far as they are worked out: each step makes the next record."""

    facts: tuple[Fact, ...] = ()
    passes: tuple[Pass, ...] = ()
    checks: tuple[Check, ...] = ()
    notes: tuple[str, ...] = ()
    """What the sheet says beside the author's own remarks."""
    minutes: float = 0.0
    force: float = 0.0
    """N across the work, for its bending; the likely value of the deepest pass."""
    spindle: float = 0.0
    wanted_spindle: float = 0.0
    """1/min that the table asks for at the largest diameter of the cut."""
    wanted_speed: float = 0.0
    """m/min that the table (or the author) asks for."""
    ceiling: float = 0.0
    """Highest spindle speed allowed, 1/min; 0 = no limit."""
    usual_feed: float = 0.0
    """mm a turn, or a tooth when milling, that the table says."""
    ceiling_reason: str = ""
    feed: float = 0.0
    """mm a turn: of all teeth when milling."""
    teeth: int = 1
    hand_between: tuple[float, float] = (0.0, 0.0)
    """mm a tooth between which a hand keeps a milled feed; zeros where the machine feeds it, or the author says it."""
    hand_rests: tuple[str, ...] = ()
    """What that range rests on that was recalled and not read."""
    depth: float = 0.0
    most_depth: float = math.inf
    """mm: the deepest pass that the motor pulls at a good speed."""
    strokes: int = 0
    """Passes of a milled cut, those not listed included."""
    change_minutes: float = 0.0
    """Minutes that a change of the spindle speed takes on this machine."""
    minutes_before: float = 0.0
    """Minutes that the drills before a large one cut."""
    further_tools: int = 0
    """Drills that go through before, each to be put in and taken out."""
    pecks: int = 0
    """How often a drill is drawn out of each hole."""

    def telling(
        self, key: str, label: str, value: float, unit: str = "mm", kind: str = "length", note: str = "",
        working: Sequence[Working | None] = (), overruled: str = "", *, desk: bool = False,
        spread: Spread | None = None, of: Sequence[str] = (),
    ) -> Worked:  # fmt: skip
        """With a number for the operation's table; a number of that key that is there already is replaced.

        `of` names the numbers told before from which it follows: what was recalled in them is recalled in it.
        """
        rests = [words for one in of if (there := self.told(one)) is not None for words in there.recalled]
        working = [replace(one, by_names=(*one.by_names, *rests)) if one and rests else one for one in working]
        new = fact(
            key, label, value, unit, kind, working=working, overruled=overruled, note=note, desk=desk, spread=spread
        )
        if self.told(key) is None:
            return replace(self, facts=(*self.facts, new))
        return replace(self, facts=tuple(new if old.key == key else old for old in self.facts))

    def noting(self, *notes: str) -> Worked:
        """With remarks for the sheet, each once."""
        return replace(self, notes=tuple(dict.fromkeys([*self.notes, *notes])))

    def judging(self, *checks: Check) -> Worked:
        """With more checks."""
        return replace(self, checks=(*self.checks, *checks))

    def told(self, key: str) -> Fact | None:
        """The number of that key, where it is there."""
        return next((one for one in self.facts if one.key == key), None)
