"""Which tools are there, in which sizes, and which does a verb take when the author names none?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from .tool_lengths import lengths_of


@dataclass(frozen=True)
class ToolKind:
    """A sort of tool as the trade knows it.

    Parameters:
        words: what it is called, the usual name first
        verbs: what it is the usual tool for, the most usual verb first
        machines: kinds of machine that take it
        sized: what its size is: 'diameter', 'width', 'thread', 'angle' or ''
    """

    words: tuple[str, ...]
    verbs: tuple[str, ...]
    machines: tuple[str, ...]
    sized: str = ""


def _kind(words: str, verbs: str, machines: str, sized: str = "") -> ToolKind:
    """Write a kind in one line."""
    split = tuple(word.strip() for word in words.split(","))
    return ToolKind(
        split, tuple(verb.strip() for verb in verbs.split(",") if verb.strip()), tuple(machines.split()), sized
    )


TOOL_KINDS: Mapping[str, ToolKind] = MappingProxyType(
    {
        "knife": _kind(
            "knife tool, right-hand knife tool, turning tool, right hand turning tool, lathe tool",
            "turn, face, taper",
            "lathe",
        ),
        "left-knife": _kind("left-hand knife tool, left hand turning tool, left knife tool", "turn", "lathe"),
        "round-nose": _kind("round-nose tool, round nosed tool, finishing tool", "profile, radius, turn", "lathe"),
        "facing": _kind("facing tool", "face", "lathe"),
        "chamfer": _kind("chamfering tool, chamfer tool, 45 degree tool", "chamfer", "lathe"),
        "form": _kind("form tool, radius tool", "radius, profile, round", "lathe", "width"),
        "parting": _kind(
            "parting tool, parting-off tool, parting blade, cut-off tool", "part off, groove", "lathe", "width"
        ),
        "grooving": _kind("grooving tool, recessing tool", "groove", "lathe", "width"),
        "internal-grooving": _kind("internal grooving tool, internal recessing tool", "groove", "lathe", "width"),
        "boring-bar": _kind("boring bar, boring tool", "bore, counterbore, face", "lathe mill", "diameter"),
        "boring-head": _kind("boring head", "bore", "mill drill", "diameter"),
        "threading": _kind(
            "threading tool, screw-cutting tool, screwcutting tool, external threading tool", "thread", "lathe"
        ),
        "internal-threading": _kind("internal threading tool, internal screw-cutting tool", "thread", "lathe"),
        "knurl": _kind("knurling tool, knurl, diamond knurl, straight knurl", "knurl", "lathe"),
        "centre-drill": _kind(
            "centre drill, slocombe drill, combination centre drill", "centre", "lathe mill drill", "diameter"
        ),
        "spotting-drill": _kind("spotting drill", "centre, countersink, chamfer", "lathe mill drill", "diameter"),
        "drill": _kind("drill, twist drill, jobber drill", "drill, cross-drill", "lathe mill drill", "diameter"),
        "reamer": _kind("reamer, machine reamer, hand reamer", "ream", "lathe mill drill bench", "diameter"),
        "d-bit": _kind("d bit", "ream, bore", "lathe", "diameter"),
        "tap": _kind("tap, taps", "tap", "lathe mill drill bench", "thread"),
        "die": _kind("die, button die, split die, dies", "thread, die", "lathe bench", "thread"),
        "countersink": _kind(
            "countersink, countersink bit", "countersink, chamfer, deburr", "lathe mill drill", "diameter"
        ),
        "counterbore": _kind(
            "counterbore, spotfacer, counterbore with pilot", "counterbore", "mill drill lathe", "diameter"
        ),
        "end-mill": _kind("end mill", "profile, face, step, flat, counterbore, pocket, slot", "mill", "diameter"),
        "slot-drill": _kind(
            "slot drill, two flute end mill, 2 flute end mill", "slot, pocket, counterbore", "mill", "diameter"
        ),
        "ball-nose": _kind("ball-nose cutter, ball nose end mill", "profile, slot", "mill", "diameter"),
        "face-mill": _kind("face mill, facing cutter, shell mill", "face, flat", "mill", "diameter"),
        "fly-cutter": _kind("fly cutter", "face, flat", "mill", "diameter"),
        "vee-cutter": _kind("90 degree cutter, vee cutter, chamfer mill", "vee, chamfer", "mill", "diameter"),
        "slitting-saw": _kind("slitting saw", "saw, slot, split", "mill", "diameter"),
        "t-slot-cutter": _kind("t slot cutter", "slot, t-slot", "mill", "diameter"),
        "dovetail-cutter": _kind("dovetail cutter", "dovetail, slot", "mill", "diameter"),
        "woodruff-cutter": _kind("woodruff cutter", "slot, keyway", "mill", "diameter"),
        "corner-rounding": _kind(
            "corner-rounding cutter, corner rounding end mill", "round, radius", "mill", "diameter"
        ),
        "engraving-cutter": _kind("engraving cutter", "graduate, mark out", "mill"),
        "graduating": _kind("graduating tool, scribing tool", "graduate, mark out", "lathe mill"),
        "saw-blade": _kind("saw blade, bandsaw blade, hacksaw", "saw, split", "saw bench", "width"),
        "file": _kind("file, hand file, half-round file, needle file", "file, deburr", "bench lathe"),
        "deburring": _kind("deburring tool, scraper, three-square scraper", "deburr", "bench lathe mill drill"),
        "scriber": _kind("scriber, height gauge, scribing block", "mark out", "bench"),
        "punch": _kind("centre punch, punch, dot punch", "mark out", "bench"),
        "grinding-wheel": _kind("grinding wheel, wheel", "grind", "grinder"),
        "torch": _kind(
            "torch, brazing torch, blowlamp", "braze, silver-braze, harden, temper, blue, heat, shrink on", "hearth"
        ),
        "welder": _kind("welding set, welder", "weld", "hearth bench"),
        "press-tool": _kind("press tool, press pad", "press in, pin", "press bench"),
        "plug-gauge": _kind("plug gauge, plug gauges", "check", "bench lathe", "diameter"),
        "micrometer": _kind("micrometer, outside micrometer, mike", "check", "bench lathe mill"),
        "caliper": _kind("caliper, vernier caliper, digital caliper, calipers", "check", "bench lathe mill"),
        "depth-micrometer": _kind("depth micrometer, depth gauge", "check", "bench lathe mill"),
        "bore-gauge": _kind("bore gauge, telescopic gauge, inside micrometer", "check", "bench lathe", "diameter"),
        "indicator": _kind("dial indicator, dial test indicator, dti, clock", "check, set", "bench lathe mill"),
        "thread-gauge": _kind("thread gauge, thread plug gauge, thread ring gauge", "check", "bench lathe", "thread"),
        "wires": _kind("thread measuring wires, three wires", "check", "bench lathe", "diameter"),
    }
)
"""Every sort of tool the handbook knows. A workshop's list says which of them it has, and in which sizes."""

BLADES = frozenset({"knife", "left-knife", "round-nose", "facing", "chamfer", "form", "threading"})
"""Kinds that are ground on a shank and clamped in the tool post."""


@dataclass(frozen=True)
class ToolSize:
    """One size of a set: its diameter or width [mm] and the name stamped on it ('6.8', '1/4', 'No. 43', 'M6')."""

    size: float
    label: str = ""


@dataclass(frozen=True)
class Tool:
    """One tool, or a set of one kind. Lengths in mm, angles in degrees; 0 means 'not said'.

    Parameters:
        key: its name in the workshop file
        kind: one of `TOOL_KINDS`
        name: what the sheet calls it
        material: 'HSS', 'carbide' or 'carbon steel'
        nose_radius: of a lathe tool
        approach: angle between cutting edge and feed; 90 cuts a square shoulder
        nose_angle: angle of the point between its two edges
        reach: how far a bar or blade sticks out, or a drill reaches, beside its flutes
        shank: height (square shank) or diameter
        width: of a parting, grooving or form tool, a saw
        diameter: of this tool; 0 for a set, until a size is taken from it
        sizes: the sizes of a set
        flute_length, overall_length: of drill, reamer, end mill
        flute_factor: flute length as a multiple of the diameter, where a set gives no single length
        lengths: series of standard lengths that a set has: 'jobber', 'hand reamer' … (see `tool_lengths`)
        teeth: flutes or teeth
        point_angle: of a drill, centre drill, countersink
        min_bore: smallest hole that it goes into
        verbs: what it is used for here, instead of what the trade usually uses it for
        centre_cutting: whether an end mill may be plunged
        fit: what a reamer makes, e.g. 'H7'
    """

    key: str
    kind: str
    name: str
    words: tuple[str, ...] = ()
    material: str = "HSS"
    machines: tuple[str, ...] = ()
    nose_radius: float = 0.0
    approach: float = 90.0
    nose_angle: float = 60.0
    reach: float = 0.0
    shank: float = 0.0
    width: float = 0.0
    diameter: float = 0.0
    sizes: tuple[ToolSize, ...] = ()
    size_label: str = ""
    flute_length: float = 0.0
    flute_factor: float = 0.0
    lengths: str = ""
    overall_length: float = 0.0
    teeth: int = 0
    point_angle: float = 0.0
    min_bore: float = 0.0
    verbs: tuple[str, ...] = ()
    centre_cutting: bool = False
    fit: str = ""
    handling_minutes: float = 0.0
    note: str = ""

    @property
    def sort(self) -> ToolKind:
        """What the trade knows of this sort of tool."""
        return TOOL_KINDS[self.kind]

    @property
    def usual_name(self) -> str:
        """'drill': the usual name, without a size."""
        return self.sort.words[0]

    @property
    def is_set(self) -> bool:
        """Whether it is a set from which a size is still to be taken."""
        return bool(self.sizes)

    def known_as(self) -> tuple[str, ...]:
        """Every word by which it may be called."""
        return (self.key, self.name, *self.words, *self.sort.words)

    def used_for(self, verb: str) -> bool:
        """Whether it is the tool for a verb."""
        return verb in (self.verbs or self.sort.verbs)

    def goes_on(self, machine_kind: str) -> bool:
        """Whether that kind of machine takes it."""
        return machine_kind in (self.machines or self.sort.machines)

    @property
    def cutting_length(self) -> float:
        """[mm] length that can be buried: flutes of a drill or cutter, reach of a bar or blade; 0 where not said."""
        if self.flute_length:
            return self.flute_length
        if self.flute_factor and self.diameter:
            return self.flute_factor * self.diameter
        return self.reach

    def nearest(self, size: float) -> Tool:
        """The one tool of the set nearest to a size [mm]; the tool itself where it is no set."""
        if not self.sizes:
            return self
        return self.of(min(self.sizes, key=lambda one: (abs(one.size - size), one.size)))

    def has(self, size: float, within: float = 0.005) -> bool:
        """Whether the size [mm] is there, to within so much."""
        return abs(self._size_of(self.nearest(size)) - size) <= within

    def largest_below(self, size: float) -> Tool | None:
        """The largest of the set that is not above a size [mm]; None where all are larger."""
        if not self.sizes:
            return self if self._size_of(self) <= size + 1e-6 else None
        fitting = [one for one in self.sizes if one.size <= size + 1e-6]
        return self.of(max(fitting, key=lambda one: one.size)) if fitting else None

    def labelled(self, label: str) -> Tool | None:
        """The one of the set that bears a label ('M6', '1/4', 'No. 43'); None where there is none."""
        wanted = _plain_label(label)
        return next((self.of(one) for one in self.sizes if _plain_label(one.label) == wanted), None)

    def of(self, size: ToolSize) -> Tool:
        """One size of the set, named with it: '6.8 mm drill'."""
        label = size.label or f"{size.size:g}\u202fmm"
        one = replace(self, sizes=(), size_label=label, name=f"{label} {self.usual_name}")
        if self.sort.sized == "width":
            return replace(one, width=size.size)
        standard = lengths_of(self.lengths, size.size) if self.lengths else None
        overall, flutes = standard or (self.overall_length, self.flute_length)
        return replace(one, diameter=size.size, overall_length=overall, flute_length=flutes)

    def _size_of(self, tool: Tool) -> float:
        """The size by which such a tool is chosen [mm]."""
        return tool.width if self.sort.sized == "width" else tool.diameter

    @property
    def size(self) -> float:
        """The size by which the tool is chosen [mm]: diameter, or width of a blade; 0 where it has none."""
        return self._size_of(self)


def _plain_label(label: str) -> str:
    """'M6 x 1' and 'm6x1' are one label."""
    return "".join(label.lower().replace("×", "x").split())


def kinds_for(verb: str) -> tuple[str, ...]:
    """Kinds of tool for a verb, the most usual first."""
    fitting = [(sort.verbs.index(verb), kind) for kind, sort in TOOL_KINDS.items() if verb in sort.verbs]
    return tuple(kind for _, kind in sorted(fitting, key=lambda one: one[0]))


def known_tools(tools: Iterable[Tool]) -> tuple[str, ...]:
    """Names to suggest, without repeats."""
    return tuple(dict.fromkeys(name for tool in tools for name in (tool.name, tool.usual_name)))
