"""Which speeds, feeds, dials and sizes has this machine?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from methodsheets.vocabulary.machine import MachineKind, MachineRow

from .dials import Dial

# Two speeds closer than this share of each other are the same speed to anybody at the machine.
_SAME = 1e-9
SLIGHTLY = 1.1
"""A step that lies so little above the wanted speed is taken (common practice)."""


@dataclass(frozen=True)
class Setting:
    """What a machine can really be set to.

    Parameters:
        value: the spindle speed [1/min] or the feed [mm per revolution, or mm/min]
        note: why it differs from what was wanted; empty where it does not matter
        state: 'as wanted', 'lower' (the next step down), 'nearest', 'lowest' (what was wanted lies below the lowest:
            the machine runs FASTER than wanted), 'highest' (what was wanted lies above the highest) or 'hand'
    """

    value: float
    note: str = ""
    state: str = "as wanted"


@dataclass(frozen=True)
class StepSpeeds:
    """Spindle speeds of belts or gears [1/min], rising."""

    steps: tuple[float, ...]

    @property
    def low(self) -> float:
        """The lowest speed [1/min]."""
        return self.steps[0]

    @property
    def high(self) -> float:
        """The highest speed [1/min]."""
        return self.steps[-1]

    def at_most(self, wanted: float) -> Setting:
        """The fastest step that is not above `wanted` [1/min]; the lowest step where all are above it."""
        return _step(self.steps, wanted, "spindle speed", "{:g} 1/min")


@dataclass(frozen=True)
class VariableSpeeds:
    """Ranges of a variable-speed drive [1/min], each (low, high), rising."""

    ranges: tuple[tuple[float, float], ...]
    step: float = 10.0
    """[1/min] to how much one sets it by the display."""

    @property
    def low(self) -> float:
        """The lowest speed [1/min]."""
        return self.ranges[0][0]

    @property
    def high(self) -> float:
        """The highest speed [1/min]."""
        return max(high for _, high in self.ranges)

    def at_most(self, wanted: float) -> Setting:
        """The speed nearest below `wanted` [1/min] that the drive can be set to."""
        if wanted < self.low * (1 - _SAME):
            note = f"wanted {wanted:.0f} 1/min; the lowest this machine has is {self.low:g} 1/min"
            return Setting(self.low, note, "lowest")
        if wanted >= self.high * (1 + _SAME):
            note = f"wanted {wanted:.0f} 1/min; the highest this machine has is {self.high:g} 1/min"
            return Setting(self.high, note, "highest")
        inside = [
            bounds for bounds in self.ranges if bounds[0] <= wanted * (1 + _SAME) and wanted <= bounds[1] * (1 + _SAME)
        ]
        if not inside:
            below = max(high for _, high in self.ranges if high < wanted)
            return Setting(below, f"wanted {wanted:.0f} 1/min lies between two ranges", "lower")
        # Of overlapping ranges the slower gear pulls harder, so it is the one to use.
        low, high = inside[0]
        stepped = self.step * int(wanted / self.step + _SAME)
        return Setting(min(max(stepped, low), high))


@dataclass(frozen=True)
class NoSpindle:
    """A machine without a spindle: a press, a bench, a hearth."""

    low: float = 0.0
    high: float = 0.0

    def at_most(self, wanted: float) -> Setting:
        """Nothing turns; the note says so."""
        return Setting(0.0, "this machine has no spindle", "hand")


@dataclass(frozen=True)
class StepFeeds:
    """Power feeds of a gear box or of change wheels, rising; `per` is 'rev' [mm/rev] or 'min' [mm/min]."""

    steps: tuple[float, ...]
    per: str = "rev"

    def at_most(self, wanted: float) -> Setting:
        """The coarsest feed that is not above `wanted`; the finest where all are above it."""
        return _step(self.steps, wanted, "feed", "{:g} mm")


@dataclass(frozen=True)
class VariableFeeds:
    """A feed drive without steps; `per` is 'rev' [mm/rev] or 'min' [mm/min]."""

    low: float
    high: float
    per: str = "min"

    def at_most(self, wanted: float) -> Setting:
        """The feed wanted, kept within the drive's range."""
        if wanted < self.low * (1 - _SAME):
            return Setting(self.low, f"the finest this machine has is {self.low:g} mm/{self.per}", "lowest")
        if wanted > self.high * (1 + _SAME):
            return Setting(self.high, f"the coarsest this machine has is {self.high:g} mm/{self.per}", "highest")
        return Setting(wanted)


@dataclass(frozen=True)
class HandFeed:
    """Fed by hand: any feed, as evenly as the hand can."""

    per: str = "rev"

    def at_most(self, wanted: float) -> Setting:
        """The feed wanted, by hand."""
        return Setting(wanted, "by hand", "hand")


Speeds = StepSpeeds | VariableSpeeds | NoSpindle
Feeds = StepFeeds | VariableFeeds | HandFeed


def _step(steps: tuple[float, ...], wanted: float, what: str, form: str) -> Setting:
    """The highest of rising steps that is not above `wanted`."""
    shown = form.format(round(wanted, 3) if wanted < 10 else round(wanted))
    if wanted < steps[0] * (1 - _SAME):
        return Setting(
            steps[0], f"wanted {shown}; the lowest {what} this machine has is {form.format(steps[0])}", "lowest"
        )
    value = max(step for step in steps if step <= wanted * (1 + _SAME))
    if value == steps[-1] and wanted > value * 1.02:
        return Setting(value, f"wanted {shown}; the highest {what} this machine has is {form.format(value)}", "highest")
    return Setting(value, "", "as wanted" if abs(value - wanted) <= 0.005 * wanted else "lower")


@dataclass(frozen=True)
class Machine:
    """One machine of the workshop. Lengths in mm, power in W, times in minutes; 0 means 'not said'.

    Parameters:
        key: its name in the workshop file, e.g. 'lathe'
        kind: which kind of machine it is
        words: other names that an author may use
        power: [W] of the motor; `efficiency` of it reaches the tool
        spindle_bore: [mm] largest bar that goes through the headstock
        swing_over_bed, swing_over_cross_slide: [mm] largest DIAMETER that clears
        swing_in_gap: [mm] the same in the gap of the bed; `gap_length` how far it reaches from the spindle nose
        between_centres: [mm] longest work between centres
        travel: [mm] by axis, 'x', 'y', 'z', 'quill', 'top slide' …
        daylight: [mm] largest gap between spindle nose (or ram) and table
        throat: [mm] from the column to the spindle axis, or the reach of a saw or press
        kerf: [mm] width of a saw's cut
        force: [N] a press can give
        duty: 'light', 'medium' or 'heavy': how much the machine bears beside its power
        speed_factor, feed_factor, depth_factor: what to take of the table's cutting speed, feed and depth of cut
        leadscrew: [mm] pitch; `change_wheels` are the numbers of teeth there are
        tailstock_taper, spindle_taper: 'MT2' …
        setting_minutes: extra time for every set-up on it, e.g. for clearing the table
    """

    key: str
    kind: MachineKind
    name: str
    words: tuple[str, ...] = ()
    speeds: Speeds = NoSpindle()
    feeds: Feeds = HandFeed()
    cross_feeds: Feeds | None = None
    power: float = 0.0
    efficiency: float = 0.8
    spindle_bore: float = 0.0
    swing_over_bed: float = 0.0
    swing_over_cross_slide: float = 0.0
    swing_in_gap: float = 0.0
    gap_length: float = 0.0
    between_centres: float = 0.0
    travel: Mapping[str, float] = field(default_factory=dict)
    daylight: float = 0.0
    throat: float = 0.0
    kerf: float = 0.0
    force: float = 0.0
    temperature: float = 0.0
    """[degC] that a hearth or furnace reaches; 0 where not said."""
    duty: str = "medium"
    speed_factor: float = 1.0
    feed_factor: float = 1.0
    depth_factor: float = 1.0
    dials: Mapping[str, Dial] = field(default_factory=dict)
    leadscrew: float = 0.0
    change_wheels: tuple[int, ...] = ()
    threads: tuple[float, ...] = ()
    """[mm] pitches that the gear box cuts without changing wheels."""
    spindle_nose: str = ""
    spindle_taper: str = ""
    tailstock_taper: str = ""
    coolant: bool = False
    reverse: bool = True
    setting_minutes: float = 0.0
    note: str = ""

    def speed_for(self, wanted: float) -> Setting:
        """The spindle speed that the machine really has for a wanted one [1/min].

        Never above what was wanted, unless that lies below the machine's lowest; the note then says so.
        """
        return self.speeds.at_most(wanted)

    def speed_near(self, wanted: float, most: float = math.inf) -> Setting:
        """As `speed_for`, but a step is taken that lies up to a tenth above the wanted speed [1/min].

        A table's cutting speed is not known closer than that (common practice). Never above `most` [1/min], which
        holder or balance set.
        """
        if isinstance(self.speeds, StepSpeeds):
            slightly = [step for step in self.speeds.steps if wanted < step <= min(SLIGHTLY * wanted, most)]
            if slightly:
                return Setting(slightly[0], "", "nearest")
        return self.speed_for(wanted)

    def feed_for(self, wanted: float, *, across: bool = False) -> Setting:
        """The feed that the machine really has for a wanted one [mm/rev, or mm/min where `feeds.per` is 'min'].

        Parameters:
            across: for the cross slide, where it has feeds of its own
        """
        feeds = self.cross_feeds if across and self.cross_feeds is not None else self.feeds
        return feeds.at_most(wanted)

    def nearest_feed(self, wanted: float, *, across: bool = False, most: float = 1.35) -> Setting:
        """The feed step nearest to a wanted one [mm/rev], by ratio, at most `most` times as coarse.

        A feed is no limit as a speed is: the step above is often nearer than the one below.
        """
        feeds = self.cross_feeds if across and self.cross_feeds is not None else self.feeds
        if not isinstance(feeds, StepFeeds):
            return feeds.at_most(wanted)
        fitting = [step for step in feeds.steps if step <= most * wanted] or [feeds.steps[0]]
        value = min(fitting, key=lambda step: abs(math.log(step / wanted)))
        return Setting(value, "", "as wanted" if abs(value - wanted) <= 0.005 * wanted else "nearest")

    def dial(self, slide: str) -> Dial | None:
        """The dial of a slide: 'cross slide', 'top slide', 'saddle', 'x', 'y', 'z', 'quill', 'tailstock'."""
        return self.dials.get(slide_name(slide))

    @property
    def power_at_tool(self) -> float:
        """[W] that reach the tool."""
        return self.power * self.efficiency

    @property
    def sort(self) -> MachineRow:
        """What the trade knows of this kind of machine."""
        return self.kind.row

    def known_as(self) -> tuple[str, ...]:
        """Every word by which the machine may be called."""
        return (self.key, self.name, *self.words, self.kind, *self.kind.row.words)


def slide_name(words: str) -> str:
    """The name under which a slide's dial is kept: 'cross_slide', 'compound' → 'cross slide', 'top slide'."""
    plain = " ".join(words.lower().replace("_", " ").replace("-", " ").split())
    return {"compound": "top slide", "compound slide": "top slide", "topslide": "top slide"}.get(plain, plain)
