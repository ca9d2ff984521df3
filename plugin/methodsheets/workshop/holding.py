"""How can the work be held: what fits, how true does it run, what does it look like from the side?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodsheets.vocabulary.holding import Grips, Way, WayRow


@dataclass(frozen=True)
class Range:
    """From `low` to `high` [mm], both included."""

    low: float
    high: float

    def holds(self, size: float) -> bool:
        """Whether a size [mm] lies in the range, to a thousandth of a millimetre."""
        return self.low - 1e-3 <= size <= self.high + 1e-3

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g}\u202fmm"


@dataclass(frozen=True)
class Holding:
    """One way of holding the workshop has. Lengths in mm; 0 or None means 'not said'.

    Parameters:
        key: its name in the workshop file, e.g. 'three_jaw'
        kind: which way of holding it is
        name: what the sheet calls it, 'three-jaw chuck 80 mm'
        machines: keys or kinds of the machines it goes on
        outside: diameters that it takes from outside; `inside` in a bore (jaws opened outwards)
        reversed_jaws: diameters that it takes from outside with its jaws reversed
        run_out: [mm] total indicator reading to expect on round, straight work
        collet_class: class of the collets, 1 or 2, by which they run out where no run-out was measured; 0 is not said
        run_out_note: when that holds, e.g. 'after setting with a dial indicator'
        jaw_length: [mm] longest grip along the axis
        jaw_steps: how far the jaws stand in front of the body [mm]
        jaw_width: [mm] width of a jaw's face
        body_diameter, body_length: [mm] of what turns, for the drawing and the swing
        bore: [mm] through the body
        limit_speed: [1/min] the maker's limit
        sizes: nominal sizes of a collet or mandrel set [mm]; `collapse` is how far a collet closes below its size
        opening, jaw_height: [mm] of a vice; `jaw_width` is the width of its jaws
        height: [mm] above the table
        throw: [mm] farthest that the work's axis can be set off; 0 means not said
        setting_minutes: usual time to set up the work in it; `loading_minutes` to change one part for the next
    """

    key: str
    kind: Way
    name: str
    words: tuple[str, ...] = ()
    machines: tuple[str, ...] = ()
    outside: Range | None = None
    inside: Range | None = None
    reversed_jaws: Range | None = None
    run_out: float = 0.0
    run_out_note: str = ""
    jaw_length: float = 0.0
    jaw_steps: float = 0.0
    jaw_width: float = 0.0
    body_diameter: float = 0.0
    body_length: float = 0.0
    bore: float = 0.0
    limit_speed: float = 0.0
    sizes: tuple[float, ...] = ()
    collapse: float = 0.0
    collet_series: str = ""
    collet_class: int = 0
    opening: float = 0.0
    jaw_height: float = 0.0
    height: float = 0.0
    throw: float = 0.0
    setting_minutes: float = 10.0
    loading_minutes: float = 1.0
    table: str = ""
    """Key of the rotary table or dividing head that it is."""
    note: str = ""
    facts: Mapping[str, str] = field(default_factory=dict)

    @property
    def sort(self) -> WayRow:
        """What the trade knows of this way of holding."""
        return self.kind.row

    @property
    def usual_name(self) -> str:
        """'three-jaw chuck': the usual name, without the size of this one."""
        return self.sort.words[0]

    @property
    def self_centring(self) -> bool:
        """Whether it brings the work to the axis by itself."""
        return self.sort.self_centring

    def known_as(self) -> tuple[str, ...]:
        """Every word by which it may be called."""
        return (self.key, self.name, *self.words, *self.sort.words)

    def goes_on(self, machine_key: str, machine_kind: str) -> bool:
        """Whether it goes on a machine of that key or kind; where the workshop does not say, the trade's usual."""
        return bool({machine_key, machine_kind} & set(self.machines or self.sort.machines))

    def collet_for(self, diameter: float) -> float | None:
        """The collet (nominal size, mm) that takes a diameter: the nearest one that is not smaller.

        Returns None where no collet of the set closes on it.
        """
        fitting = [size for size in self.sizes if size - self.collapse - 1e-3 <= diameter <= size + 1e-3]
        return min(fitting) if fitting else None

    def holds_outside(self, diameter: float, *, reversed_jaws: bool = False) -> bool | None:
        """Whether it takes a diameter [mm] from outside; None where the workshop does not say."""
        if reversed_jaws and self.reversed_jaws is not None:
            return self.reversed_jaws.holds(diameter)
        if self.sizes and self.sort.closes:
            return self.collet_for(diameter) is not None
        return self.outside.holds(diameter) if self.outside else None

    def holds_inside(self, diameter: float) -> bool | None:
        """Whether it takes a bore of that diameter [mm]; None where the workshop does not say."""
        if self.sizes and self.sort.grips is Grips.INSIDE:
            return any(abs(size - diameter) <= max(self.collapse, 0.02) + 1e-9 for size in self.sizes)
        return self.inside.holds(diameter) if self.inside else None
