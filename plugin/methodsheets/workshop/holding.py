"""How can the work be held: what fits, how true does it run, what does it look like from the side?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType


@dataclass(frozen=True)
class HoldingKind:
    """A way of holding as the trade knows it.

    Parameters:
        words: what it is called, the usual name first
        machines: kinds of machine that it is used on
        grips: 'outside', 'inside', 'faces', 'table', 'centres' or 'nothing': what of the work it takes hold of
        turns_with_work: whether the work turns about the spindle's axis in it
        self_centring: whether it brings the work to the axis by itself
        support: whether it only supports a work that is held otherwise (tailstock centre, steady)
        offset: whether the work can be set off the axis in it
    """

    words: tuple[str, ...]
    machines: tuple[str, ...]
    grips: str
    turns_with_work: bool = False
    self_centring: bool = False
    support: bool = False
    offset: bool = False


def _kind(words: str, machines: str, grips: str, flags: str = "") -> HoldingKind:
    """Write a kind in one line."""
    said = flags.split()
    return HoldingKind(
        tuple(word.strip() for word in words.split(",")),
        tuple(machines.split()),
        grips,
        turns_with_work="turns" in said,
        self_centring="centring" in said,
        support="support" in said,
        offset="offset" in said,
    )


HOLDING_KINDS: Mapping[str, HoldingKind] = MappingProxyType(
    {
        "three-jaw": _kind(
            "three-jaw chuck, 3 jaw, three jaw, self-centring chuck, scroll chuck, three-jaw self-centring chuck",
            "lathe mill drill",
            "outside",
            "turns centring offset",
        ),
        "four-jaw": _kind(
            "four-jaw chuck, 4 jaw, four jaw, independent chuck, four-jaw independent chuck",
            "lathe mill",
            "outside",
            "turns offset",
        ),
        "four-jaw-scroll": _kind(
            "four-jaw self-centring chuck, four-jaw scroll chuck", "lathe", "outside", "turns centring"
        ),
        "soft-jaws": _kind(
            "soft jaws, three-jaw chuck soft jaws, bored soft jaws", "lathe", "outside", "turns centring"
        ),
        "collet": _kind(
            "collet chuck, collet, collets, spring collet, er collet, er chuck",
            "lathe mill",
            "outside",
            "turns centring",
        ),
        "centres": _kind(
            "between centres, centres, dead centres, centres and dog, centres and carrier",
            "lathe",
            "centres",
            "turns offset",
        ),
        "mandrel": _kind(
            "mandrel, taper mandrel, stub mandrel, plug mandrel", "lathe mill", "inside", "turns centring"
        ),
        "expanding-mandrel": _kind("expanding mandrel, expanding arbor", "lathe mill", "inside", "turns centring"),
        "threaded-mandrel": _kind("threaded mandrel, screwed mandrel", "lathe", "inside", "turns centring"),
        "faceplate": _kind("faceplate, face plate, angle plate faceplate", "lathe", "table", "turns offset"),
        "fixture": _kind("fixture, turning fixture, jig", "lathe mill drill bench", "table", "turns offset"),
        "tailstock-centre": _kind(
            "tailstock centre, live centre, running centre, revolving centre",
            "lathe mill",
            "centres",
            "support centring",
        ),
        "steady": _kind("fixed steady, steady, steady rest", "lathe", "outside", "support"),
        "travelling-steady": _kind("travelling steady, follow rest, follower", "lathe", "outside", "support"),
        "vice": _kind("machine vice, vice, milling vice", "mill drill grinder", "faces"),
        "drill-vice": _kind("drill vice, drilling vice", "drill", "faces"),
        "toolmakers-vice": _kind("toolmaker's vice, screwless vice", "mill grinder", "faces"),
        "clamps": _kind(
            "clamps, clamped to the table, table clamps, bridge clamps, strap clamps", "mill drill", "table"
        ),
        "angle-plate": _kind("angle plate, knee", "mill drill lathe", "table"),
        "vee-block": _kind("vee block, v block, vee blocks", "mill drill bench", "outside", "centring"),
        "rotary-table": _kind(
            "rotary table, rotary table chuck, three-jaw chuck rotary table", "mill drill", "table", "offset"
        ),
        "dividing-head": _kind("dividing head, indexing head, spin indexer", "mill lathe", "outside", "centring"),
        "saw-vice": _kind("saw vice, saw's vice", "saw", "faces"),
        "bench-vice": _kind("bench vice, fitting vice, soft jaw bench vice", "bench", "faces"),
        "press-blocks": _kind("press blocks, press, press plates, arbor press", "press", "table"),
        "brazing-bricks": _kind("brazing bricks, fire bricks, hearth", "hearth", "table"),
        "magnet": _kind("magnetic chuck, magnet", "mill grinder lathe", "table"),
        "by-hand": _kind("by hand, in the hand, loose, on the surface plate", "bench grinder hearth", "nothing"),
    }
)
"""Every way of holding that the handbook knows. A workshop's list says which of them it has, and how big."""


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
        kind: one of `HOLDING_KINDS`
        name: what the sheet calls it, 'three-jaw chuck 80 mm'
        machines: keys or kinds of the machines it goes on
        outside: diameters that it takes from outside; `inside` in a bore (jaws opened outwards)
        run_out: [mm] total indicator reading to expect on round, straight work
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
    kind: str
    name: str
    words: tuple[str, ...] = ()
    machines: tuple[str, ...] = ()
    outside: Range | None = None
    inside: Range | None = None
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
    def sort(self) -> HoldingKind:
        """What the trade knows of this way of holding."""
        return HOLDING_KINDS[self.kind]

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

    def holds_outside(self, diameter: float) -> bool | None:
        """Whether it takes a diameter [mm] from outside; None where the workshop does not say."""
        if self.sizes and self.kind == "collet":
            return self.collet_for(diameter) is not None
        return self.outside.holds(diameter) if self.outside else None

    def holds_inside(self, diameter: float) -> bool | None:
        """Whether it takes a bore of that diameter [mm]; None where the workshop does not say."""
        if self.sizes and self.sort.grips == "inside":
            return any(abs(size - diameter) <= max(self.collapse, 0.02) + 1e-9 for size in self.sizes)
        return self.inside.holds(diameter) if self.inside else None
