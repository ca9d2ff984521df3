"""Which sorts of tool are there: what each is for, how it is sized, and whether a hand or a machine turns it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .machine import MachineKind, on
from .mill_cut import MillCut as MillCut
from .spelling import Words, said


class SizedBy(StrEnum):
    """What the size of a tool is."""

    DIAMETER = "diameter"
    WIDTH = "width"
    THREAD = "thread"
    NOTHING = ""


class Turned(StrEnum):
    """What turns a tool that could be turned by either."""

    BY_HAND = "by hand"
    BY_MACHINE = "by machine"
    EITHER = "either"


class Hand(StrEnum):
    """The hand of a tool, or of a thread."""

    RIGHT = "right"
    LEFT = "left"


@dataclass(frozen=True, kw_only=True)
class ToolRow:
    """What the rooms ask of a sort of tool."""

    words: tuple[str, ...]
    """What it is called, the usual name first."""
    verbs: tuple[str, ...]
    """What it is the usual tool for, the most usual verb first."""
    machines: tuple[MachineKind, ...]
    """Kinds of machine that take it."""
    sized: SizedBy = SizedBy.NOTHING
    ground: bool = False
    """Whether it is ground on a shank and clamped in the tool post."""
    turned: Turned = Turned.EITHER
    hand: Hand = Hand.RIGHT
    fluted_shank: bool = False
    """Whether it is a fluted rod, so that its bending is worked out."""
    centre_cutting: bool = False
    """Whether it may be plunged, where the workshop does not say."""
    ribbed: bool = False
    """Whether its notched edge leaves ribs on the wall: a cutter for roughing."""
    point_angle: float = 0.0
    """Degrees, where the workshop does not say."""
    usual_angle: float = 0.0
    """Degrees, where neither the workshop nor its name says one; of another angle it is not known then."""
    leaves_angle: bool = False
    """Whether the angle of its point stays in the work."""
    cut: MillCut | None = None
    """The kind of cut it makes, whatever it stands in; None where that depends on the cut."""
    across_slot: bool = False
    """Whether its axis lies across the slot: its width is along its axis, its depth across it."""
    grade: str = ""
    """Grade of ISO 286 that one of nominal size keeps in a hole or slot, from its size upwards; empty where a slide
    sets the size. Reamers are sold for H7; the other grades are common practice for a light machine."""


class ToolKind(StrEnum):
    """A sort of tool; each one is spelled as the workshop file spells its kind."""

    KNIFE = "knife"
    LEFT_KNIFE = "left-knife"
    ROUND_NOSE = "round-nose"
    FACING = "facing"
    CHAMFER = "chamfer"
    FORM = "form"
    PARTING = "parting"
    GROOVING = "grooving"
    INTERNAL_GROOVING = "internal-grooving"
    BORING_BAR = "boring-bar"
    BORING_HEAD = "boring-head"
    THREADING = "threading"
    INTERNAL_THREADING = "internal-threading"
    KNURL = "knurl"
    CENTRE_DRILL = "centre-drill"
    SPOTTING_DRILL = "spotting-drill"
    DRILL = "drill"
    REAMER = "reamer"
    HAND_REAMER = "hand-reamer"
    D_BIT = "d-bit"
    TAP = "tap"
    MACHINE_TAP = "machine-tap"
    DIE = "die"
    COUNTERSINK = "countersink"
    COUNTERBORE = "counterbore"
    GEAR_CUTTER = "gear-cutter"
    SLOTTING = "slotting-tool"
    BROACH = "broach"
    LAP = "lap"
    END_MILL = "end-mill"
    ROUGHING_MILL = "roughing-mill"
    SLOT_DRILL = "slot-drill"
    BALL_NOSE = "ball-nose"
    FACE_MILL = "face-mill"
    FLY_CUTTER = "fly-cutter"
    VEE_CUTTER = "vee-cutter"
    SLITTING_SAW = "slitting-saw"
    T_SLOT_CUTTER = "t-slot-cutter"
    DOVETAIL_CUTTER = "dovetail-cutter"
    WOODRUFF_CUTTER = "woodruff-cutter"
    CORNER_ROUNDING = "corner-rounding"
    ENGRAVING_CUTTER = "engraving-cutter"
    GRADUATING = "graduating"
    SAW_BLADE = "saw-blade"
    FILE = "file"
    DEBURRING = "deburring"
    SCRIBER = "scriber"
    PUNCH = "punch"
    GRINDING_WHEEL = "grinding-wheel"
    TORCH = "torch"
    WELDER = "welder"
    PRESS_TOOL = "press-tool"
    PLUG_GAUGE = "plug-gauge"
    MICROMETER = "micrometer"
    CALIPER = "caliper"
    DEPTH_MICROMETER = "depth-micrometer"
    BORE_GAUGE = "bore-gauge"
    INDICATOR = "indicator"
    THREAD_GAUGE = "thread-gauge"
    WIRES = "wires"

    @property
    def row(self) -> ToolRow:
        """All that is known of it."""
        return TOOLS[self]


TOOLS: Mapping[ToolKind, ToolRow] = MappingProxyType(
    {
        ToolKind.KNIFE: ToolRow(
            words=said("knife tool, right-hand knife tool, turning tool, right hand turning tool, lathe tool"),
            verbs=said("turn, face, taper"), machines=on("lathe"), ground=True,
        ),
        ToolKind.LEFT_KNIFE: ToolRow(
            words=said("left-hand knife tool, left hand turning tool, left knife tool"),
            verbs=said("turn, face, taper"), machines=on("lathe"), ground=True, hand=Hand.LEFT,
        ),
        ToolKind.ROUND_NOSE: ToolRow(
            words=said("round-nose tool, round nosed tool, finishing tool"), verbs=said("profile, round over, turn"),
            machines=on("lathe"), ground=True,
        ),
        ToolKind.FACING: ToolRow(words=said("facing tool"), verbs=said("face"), machines=on("lathe"), ground=True),
        ToolKind.CHAMFER: ToolRow(
            words=said("chamfering tool, chamfer tool, 45 degree tool"), verbs=said("chamfer"), machines=on("lathe"),
            ground=True,
            cut=MillCut.FORM,
        ),
        ToolKind.FORM: ToolRow(
            words=said("form tool, radius tool"), verbs=said("round over, profile"), machines=on("lathe"),
            sized=SizedBy.WIDTH, ground=True, grade="11",
        ),
        ToolKind.PARTING: ToolRow(
            words=said("parting tool, parting-off tool, parting blade, cut-off tool"), verbs=said("part off, groove"),
            machines=on("lathe"), sized=SizedBy.WIDTH, grade="11",
        ),
        ToolKind.GROOVING: ToolRow(
            words=said("grooving tool, recessing tool"), verbs=said("groove"), machines=on("lathe"),
            sized=SizedBy.WIDTH,
        ),
        ToolKind.INTERNAL_GROOVING: ToolRow(
            words=said("internal grooving tool, internal recessing tool"), verbs=said("groove"), machines=on("lathe"),
            sized=SizedBy.WIDTH,
        ),
        ToolKind.BORING_BAR: ToolRow(
            words=said("boring bar, boring tool"), verbs=said("bore, counterbore, face"), machines=on("lathe mill"),
            sized=SizedBy.DIAMETER,
        ),
        ToolKind.BORING_HEAD: ToolRow(
            words=said("boring head"), verbs=said("bore"), machines=on("mill drill"), sized=SizedBy.DIAMETER,
        ),
        ToolKind.THREADING: ToolRow(
            words=said("threading tool, screw-cutting tool, screwcutting tool, external threading tool"),
            verbs=said("thread"), machines=on("lathe"), ground=True, usual_angle=60.0, leaves_angle=True,
        ),
        ToolKind.INTERNAL_THREADING: ToolRow(
            words=said("internal threading tool, internal screw-cutting tool"), verbs=said("thread"),
            machines=on("lathe"), usual_angle=60.0, leaves_angle=True,
        ),
        ToolKind.KNURL: ToolRow(
            words=said("knurling tool, knurl, diamond knurl, straight knurl"), verbs=said("knurl"),
            machines=on("lathe"),
        ),
        ToolKind.CENTRE_DRILL: ToolRow(
            words=said("centre drill, slocombe drill, combination centre drill"), verbs=said("centre"),
            machines=on("lathe mill drill"), sized=SizedBy.DIAMETER, leaves_angle=True,
        ),
        ToolKind.SPOTTING_DRILL: ToolRow(
            words=said("spotting drill"), verbs=said("centre, countersink, chamfer"), machines=on("lathe mill drill"),
            sized=SizedBy.DIAMETER, leaves_angle=True,
        ),
        ToolKind.DRILL: ToolRow(
            words=said("drill, twist drill, jobber drill"), verbs=said("drill, cross-drill"),
            machines=on("lathe mill drill"), sized=SizedBy.DIAMETER, point_angle=118.0, grade="12", leaves_angle=True,
        ),
        ToolKind.REAMER: ToolRow(
            words=said("reamer, machine reamer, chucking reamer"), verbs=said("ream"),
            machines=on("lathe mill drill bench"), sized=SizedBy.DIAMETER, turned=Turned.BY_MACHINE, grade="7",
        ),
        ToolKind.HAND_REAMER: ToolRow(
            words=said("hand reamer, adjustable reamer, expanding reamer"), verbs=said("ream"),
            machines=on("lathe mill drill bench"), sized=SizedBy.DIAMETER, turned=Turned.BY_HAND,
        ),
        ToolKind.D_BIT: ToolRow(
            words=said("d bit"), verbs=said("ream, bore"), machines=on("lathe"), sized=SizedBy.DIAMETER,
        ),
        ToolKind.TAP: ToolRow(
            words=said("tap, taps, hand tap"), verbs=said("tap, cross-tap"), machines=on("lathe mill drill bench"),
            sized=SizedBy.THREAD, turned=Turned.BY_HAND,
        ),
        ToolKind.MACHINE_TAP: ToolRow(
            words=said("machine tap, spiral point tap, spiral flute tap"), verbs=said("tap, cross-tap"),
            machines=on("lathe mill drill bench"), sized=SizedBy.THREAD, turned=Turned.BY_MACHINE,
        ),
        ToolKind.DIE: ToolRow(
            words=said("die, button die, split die, dies"), verbs=said("thread"), machines=on("lathe bench"),
            sized=SizedBy.THREAD, turned=Turned.BY_HAND,
        ),
        ToolKind.COUNTERSINK: ToolRow(
            words=said("countersink, countersink bit"), verbs=said("countersink, chamfer, deburr"),
            machines=on("lathe mill drill"), sized=SizedBy.DIAMETER, leaves_angle=True,
        ),
        ToolKind.COUNTERBORE: ToolRow(
            words=said("counterbore, spotfacer, counterbore with pilot"), verbs=said("counterbore"),
            machines=on("mill drill lathe"), sized=SizedBy.DIAMETER, grade="11",
        ),
        ToolKind.GEAR_CUTTER: ToolRow(
            words=said("gear cutter, involute gear cutter, module cutter"), verbs=said("gear, rack"),
            machines=on("mill"), cut=MillCut.GEAR, across_slot=True,
        ),
        ToolKind.SLOTTING: ToolRow(
            words=said("slotting tool, key-seating tool, shaping tool"), verbs=said("keyway"), machines=on("lathe"),
            sized=SizedBy.WIDTH,
        ),
        ToolKind.BROACH: ToolRow(
            words=said("broach, keyway broach, square broach"), verbs=said("broach"), machines=on("press bench lathe"),
            sized=SizedBy.WIDTH,
        ),
        ToolKind.LAP: ToolRow(
            words=said("lap, expanding lap, hone"), verbs=said("lap, hone"), machines=on("lathe bench"),
            sized=SizedBy.DIAMETER,
        ),
        ToolKind.END_MILL: ToolRow(
            words=said("end mill"),
            verbs=said("profile, face, step, flat, counterbore, pocket, slot, saw out, outline, web, cam"),
            machines=on("mill"), sized=SizedBy.DIAMETER, fluted_shank=True,
        ),
        ToolKind.ROUGHING_MILL: ToolRow(
            words=said("roughing cutter, roughing end mill, ripping cutter"), verbs=said("profile"),
            machines=on("mill"), sized=SizedBy.DIAMETER, fluted_shank=True, ribbed=True,
        ),
        ToolKind.SLOT_DRILL: ToolRow(
            words=said("slot drill, two flute end mill, 2 flute end mill"), verbs=said("slot, pocket, counterbore"),
            machines=on("mill"), sized=SizedBy.DIAMETER, fluted_shank=True, centre_cutting=True, grade="10",
        ),
        ToolKind.BALL_NOSE: ToolRow(
            words=said("ball-nose cutter, ball nose end mill"), verbs=said("profile, slot"), machines=on("mill"),
            sized=SizedBy.DIAMETER, fluted_shank=True, centre_cutting=True,
        ),
        ToolKind.FACE_MILL: ToolRow(
            words=said("face mill, facing cutter, shell mill"), verbs=said("face, flat"), machines=on("mill"),
            sized=SizedBy.DIAMETER, cut=MillCut.FACE,
        ),
        ToolKind.FLY_CUTTER: ToolRow(
            words=said("fly cutter"), verbs=said("face, flat"), machines=on("mill"), sized=SizedBy.DIAMETER,
            cut=MillCut.FLY,
        ),
        ToolKind.VEE_CUTTER: ToolRow(
            words=said("90 degree cutter, vee cutter, chamfer mill"), verbs=said("vee, chamfer"), machines=on("mill"),
            sized=SizedBy.DIAMETER, cut=MillCut.FORM, usual_angle=90.0, leaves_angle=True,
        ),
        ToolKind.SLITTING_SAW: ToolRow(
            words=said("slitting saw"), verbs=said("split, slot, saw off"), machines=on("mill"), sized=SizedBy.DIAMETER,
            cut=MillCut.SAW, across_slot=True,
        ),
        ToolKind.T_SLOT_CUTTER: ToolRow(
            words=said("t slot cutter"), verbs=said("slot, t-slot"), machines=on("mill"), sized=SizedBy.DIAMETER,
            grade="11", cut=MillCut.T_SLOT, across_slot=True,
        ),
        ToolKind.DOVETAIL_CUTTER: ToolRow(
            words=said("dovetail cutter"), verbs=said("dovetail, slot"), machines=on("mill"), sized=SizedBy.DIAMETER,
            cut=MillCut.DOVETAIL, usual_angle=60.0, leaves_angle=True,
        ),
        ToolKind.WOODRUFF_CUTTER: ToolRow(
            words=said("woodruff cutter"), verbs=said("slot, keyway"), machines=on("mill"), sized=SizedBy.DIAMETER,
            cut=MillCut.WOODRUFF, across_slot=True,
        ),
        ToolKind.CORNER_ROUNDING: ToolRow(
            words=said("corner-rounding cutter, corner rounding end mill"), verbs=(),
            machines=on("mill"), sized=SizedBy.DIAMETER, cut=MillCut.FORM,
        ),
        ToolKind.ENGRAVING_CUTTER: ToolRow(
            words=said("engraving cutter"), verbs=said("graduate, mark out"), machines=on("mill"),
        ),
        ToolKind.GRADUATING: ToolRow(
            words=said("graduating tool, scribing tool"), verbs=said("graduate, mark out"), machines=on("lathe mill"),
        ),
        ToolKind.SAW_BLADE: ToolRow(
            words=said("saw blade, bandsaw blade, hacksaw"), verbs=said("saw off, split, saw out"),
            machines=on("saw bench"), sized=SizedBy.WIDTH,
        ),
        ToolKind.FILE: ToolRow(
            words=said("file, hand file, half-round file, needle file"), verbs=said("file, deburr, saw out"),
            machines=on("bench lathe"),
        ),
        ToolKind.DEBURRING: ToolRow(
            words=said("deburring tool, scraper, three-square scraper"), verbs=said("deburr"),
            machines=on("bench lathe mill drill"),
        ),
        ToolKind.SCRIBER: ToolRow(
            words=said("scriber, height gauge, scribing block"), verbs=said("mark out"), machines=on("bench"),
        ),
        ToolKind.PUNCH: ToolRow(
            words=said("centre punch, punch, dot punch"), verbs=said("mark out"), machines=on("bench"),
        ),
        ToolKind.GRINDING_WHEEL: ToolRow(
            words=said("grinding wheel, wheel"), verbs=(), machines=on("grinder"),
        ),
        ToolKind.TORCH: ToolRow(
            words=said("torch, brazing torch, blowlamp"),
            verbs=said("braze, silver-braze, harden, temper, blue, shrink on"), machines=on("hearth"),
        ),
        ToolKind.WELDER: ToolRow(words=said("welding set, welder"), verbs=said("weld"), machines=on("hearth bench")),
        ToolKind.PRESS_TOOL: ToolRow(
            words=said("press tool, press pad"), verbs=said("press in, pin"), machines=on("press bench"),
        ),
        ToolKind.PLUG_GAUGE: ToolRow(
            words=said("plug gauge, plug gauges"), verbs=said("check"), machines=on("bench lathe"),
            sized=SizedBy.DIAMETER,
        ),
        ToolKind.MICROMETER: ToolRow(
            words=said("micrometer, outside micrometer, mike"), verbs=said("check"), machines=on("bench lathe mill"),
        ),
        ToolKind.CALIPER: ToolRow(
            words=said("caliper, vernier caliper, digital caliper, calipers"), verbs=said("check"),
            machines=on("bench lathe mill"),
        ),
        ToolKind.DEPTH_MICROMETER: ToolRow(
            words=said("depth micrometer, depth gauge"), verbs=said("check"), machines=on("bench lathe mill"),
        ),
        ToolKind.BORE_GAUGE: ToolRow(
            words=said("bore gauge, telescopic gauge, inside micrometer"), verbs=said("check"),
            machines=on("bench lathe"), sized=SizedBy.DIAMETER,
        ),
        ToolKind.INDICATOR: ToolRow(
            words=said("dial indicator, dial test indicator, dti, clock"), verbs=said("check"),
            machines=on("bench lathe mill"),
        ),
        ToolKind.THREAD_GAUGE: ToolRow(
            words=said("thread gauge, thread plug gauge, thread ring gauge"), verbs=said("check"),
            machines=on("bench lathe"), sized=SizedBy.THREAD,
        ),
        ToolKind.WIRES: ToolRow(
            words=said("thread measuring wires, three wires"), verbs=said("check"), machines=on("bench lathe"),
            sized=SizedBy.DIAMETER,
        ),
    }
)  # fmt: skip
"""Every sort of tool the handbook knows. A workshop's list says which of them it has, and in which sizes."""


SPELLED: Words[ToolKind] = Words({kind: row.words for kind, row in TOOLS.items()})
"""Reads a sort of tool in the words of the trade."""
