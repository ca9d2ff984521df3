"""How does a tool take metal: one row for each process, with all that the other rooms need to know of it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType

from .tool import ToolKind


class Passes(StrEnum):
    """How a cut comes down to size."""

    TURNED = "turned"
    """In rings or faces, a roughing depth at a time, a finishing pass where a size is met."""
    MILLED = "milled"
    """In layers, and in paths side by side."""
    THREADED = "threaded"
    """Each pass takes the same section of chip."""
    PLUNGED = "plunged"
    """The blade goes in across the axis in one feed."""
    BORED = "bored through"
    """Fed along the tool's own axis, in one go or in pecks."""
    GUIDED = "guided"
    """The tool guides itself: tap and die."""
    NONE = "none"


class Load(StrEnum):
    """Which force model of the handbook is for it."""

    TURNING = "turning"
    PARTING = "parting"
    DRILLING = "drilling"
    MILLING = "milling"
    NONE = "none"


class Bends(StrEnum):
    """What bends under the cut."""

    WORK = "work"
    BAR = "boring bar"
    CUTTER = "cutter"
    NONE = "nothing"


class Form(StrEnum):
    """Which tool stands in the lathe: the shape that is drawn and tested for reach."""

    KNIFE = "knife"
    FACING = "facing tool"
    BLADE = "blade"
    SHAPE = "form tool"
    THREADING = "threading tool"
    KNURL = "knurl"
    BAR = "boring bar"
    DRILL = "drill"
    CENTRE = "centre drill"
    REAMER = "reamer"
    TAP = "tap"
    PILOTED = "counterbore"
    NONE = "none"


@dataclass(frozen=True, kw_only=True)
class ProcessRow:
    """What the rooms ask of a process. Every field has the answer of a process that does nothing special."""

    table_word: str = ""
    """Its row in the tables of speed and feed; empty where no table has it."""
    passes: Passes = Passes.NONE
    load: Load = Load.NONE
    bends: Bends = Bends.NONE
    form: Form = Form.NONE
    inside_form: Form = Form.NONE
    """The same where it works in a bore; NONE where it does not."""
    own_axis: bool = False
    """Fed along the axis of a tool that is as large as its cut (drill, reamer …): fed by hand in the tailstock."""
    in_tailstock: bool = False
    """Whether its tool stands in the tailstock when the work turns."""
    sized: bool = False
    """Whether the tool must have the size of the cut."""
    near: float = 0.0
    """Share of the size by which a tool may be off and stand in."""
    over_size: bool = False
    """Whether a tool of another size stands in however much it is off in mm (a centre drill's pilot)."""
    in_hole: bool = False
    """Whether it needs a hole that its tool goes into."""
    blade: bool = False
    """Whether the width of the tool is the width of the cut."""
    reach_of: str = ""
    """What must be long enough for the depth of the cut; empty where a tool reaches any depth."""
    reach_inside: str = ""
    """The same where it works in a bore; empty where that makes no difference."""
    thin_shank: bool = False
    """Whether the shank is thinner than what cuts and may follow it into the hole."""
    exact: bool = False
    """Whether the tool's polygon makes exactly what is cut, so that it may not enter the work."""
    from_outside: bool = False
    """Whether it cuts the outside of turned work, and so must end in front of the jaws."""
    across_from_outside: bool = False
    """Whether it does so when it goes in across the axis."""
    on_centre_line: bool = False
    """Whether it needs the room in which a tailstock centre stands."""
    over_face: bool = False
    """Whether it passes over the face in which a tailstock centre stands."""
    work_turns: bool = False
    """Whether the work turns for it, so that it is done in the lathe and nowhere else."""
    comes_off: bool = False
    """Whether the work comes off in two pieces, so that no centre may stand in it."""
    turning_tool: bool = False
    """Whether its tool turns whenever it does not stand on the axis of turned work."""
    milling_feed: bool = False
    """Whether its feed counts by the tooth."""
    pitch_feed: bool = False
    """Whether its feed is the pitch of the thread."""
    pecks: bool = False
    """Whether its tool is drawn out of a deep hole."""
    drops: bool = False
    """Whether the tool comes down into the metal with a chuck above it, on the mill."""
    runs_true: bool = False
    """Whether what it makes is about the spindle's axis, so that run-out is told of it."""
    shaped: bool = False
    """Whether bending under the cut leaves a shape on the diameter."""
    needs_spindle: bool = True
    """Whether a spindle turns for it; a saw has its own speed."""
    hand_turned: bool = False
    """Whether the tool is usually turned by hand, the spindle stopped."""
    noses: bool = False
    """Whether feed and nose radius leave the finish."""
    reams: bool = False
    """Whether a tool for the hand is turned slowly, and one for the machine does not run fast."""
    drawn_as: str = ""
    """What the drawing library calls its tool, where that is not the usual one of the verb."""
    first_hole: bool = False
    """Whether it makes the hole that another tool starts in."""
    out_of_balance: bool = False
    """Whether its tool, where it turns, is out of balance (a boring head)."""
    tools: frozenset[ToolKind] = frozenset()
    """Kinds of tool that do it in the trade, whatever verb it is of."""

    @property
    def takes(self) -> frozenset[str]:
        """Which wishes of the author change anything: `depth` of one cut, `feed`, `speed`."""
        if not self.needs_spindle:
            return frozenset()
        layered = self.passes in (Passes.TURNED, Passes.MILLED, Passes.THREADED)
        found = {"speed", *(["depth"] if layered else []), *([] if self.pitch_feed else ["feed"])}
        return frozenset(found)


def _kinds(words: str) -> frozenset[ToolKind]:
    """Sorts of tool in a line."""
    return frozenset(ToolKind(word) for word in words.split())


class Process(StrEnum):
    """How a tool takes metal."""

    NONE = ""
    TURN = "turn"
    FACE = "face"
    BORE = "bore"
    DRILL = "drill"
    CENTRE = "centre"
    REAM = "ream"
    COUNTERBORE = "counterbore"
    COUNTERSINK = "countersink"
    TAP = "tap"
    DIE = "die"
    THREAD = "thread"
    PART = "part"
    GROOVE = "groove"
    FORM = "form"
    CHAMFER = "chamfer"
    KNURL = "knurl"
    MILL = "mill"
    SAW = "saw"

    @property
    def row(self) -> ProcessRow:
        """All that is known of it."""
        return PROCESSES[self]

    @property
    def cuts(self) -> bool:
        """Whether a machine cuts at all."""
        return self is not Process.NONE


_HOLE = ProcessRow(
    passes=Passes.BORED, own_axis=True, in_tailstock=True, sized=True, reach_of="flutes", on_centre_line=True,
    turning_tool=True,
)  # fmt: skip
"""A tool fed along its own axis."""
_BLADE = ProcessRow(
    passes=Passes.PLUNGED, load=Load.PARTING, bends=Bends.WORK, form=Form.BLADE, blade=True, reach_of="blade",
    exact=True, from_outside=True, work_turns=True,
)  # fmt: skip
"""A narrow tool fed in across the axis."""
_FORMED = ProcessRow(passes=Passes.PLUNGED, form=Form.SHAPE, inside_form=Form.BAR, from_outside=True)
"""A tool that gives its own shape."""

PROCESSES: Mapping[Process, ProcessRow] = MappingProxyType(
    {
        Process.NONE: ProcessRow(needs_spindle=False),
        Process.TURN: ProcessRow(
            table_word="rough",
            passes=Passes.TURNED,
            load=Load.TURNING,
            bends=Bends.WORK,
            form=Form.KNIFE,
            inside_form=Form.BAR,
            exact=True,
            from_outside=True,
            runs_true=True,
            shaped=True,
            noses=True,
            work_turns=True,
            tools=_kinds("knife left-knife round-nose facing form boring-bar parting grooving"),
        ),
        Process.FACE: ProcessRow(
            table_word="face",
            passes=Passes.TURNED,
            load=Load.TURNING,
            form=Form.FACING,
            inside_form=Form.BAR,
            reach_inside="boring bar",
            exact=True,
            noses=True,
            over_face=True,
            tools=_kinds("knife left-knife round-nose facing boring-bar chamfer"),
        ),
        Process.BORE: ProcessRow(
            table_word="bore",
            passes=Passes.TURNED,
            load=Load.TURNING,
            bends=Bends.BAR,
            form=Form.BAR,
            inside_form=Form.BAR,
            in_hole=True,
            reach_of="boring bar",
            exact=True,
            on_centre_line=True,
            drops=True,
            runs_true=True,
            noses=True,
            out_of_balance=True,
            tools=_kinds("boring-bar boring-head d-bit"),
        ),
        Process.DRILL: replace(
            _HOLE,
            table_word="drill",
            form=Form.DRILL,
            load=Load.DRILLING,
            near=0.03,
            exact=True,
            across_from_outside=True,
            pecks=True,
            drops=True,
            tools=_kinds("drill centre-drill spotting-drill d-bit slot-drill"),
        ),
        Process.CENTRE: replace(
            _HOLE,
            table_word="centre",
            form=Form.CENTRE,
            near=0.12,
            over_size=True,
            first_hole=True,
            tools=_kinds("centre-drill spotting-drill"),
        ),
        Process.REAM: replace(
            _HOLE,
            table_word="ream",
            form=Form.REAMER,
            exact=True,
            across_from_outside=True,
            drops=True,
            runs_true=True,
            thin_shank=True,
            reams=True,
            tools=_kinds("reamer hand-reamer d-bit"),
        ),
        Process.COUNTERBORE: replace(
            _HOLE,
            table_word="counterbore",
            form=Form.PILOTED,
            drops=True,
            tools=_kinds("counterbore end-mill slot-drill boring-bar d-bit"),
        ),
        Process.COUNTERSINK: replace(
            _HOLE,
            table_word="countersink",
            form=Form.PILOTED,
            sized=False,
            tools=_kinds("countersink spotting-drill vee-cutter drill centre-drill"),
        ),
        Process.TAP: ProcessRow(
            table_word="tap",
            passes=Passes.GUIDED,
            form=Form.TAP,
            in_tailstock=True,
            reach_of="flutes",
            pitch_feed=True,
            on_centre_line=True,
            hand_turned=True,
            tools=_kinds("tap machine-tap"),
        ),
        Process.DIE: ProcessRow(
            table_word="tap",
            passes=Passes.GUIDED,
            form=Form.NONE,
            drawn_as="die",
            pitch_feed=True,
            hand_turned=True,
            from_outside=True,
            on_centre_line=True,
            tools=_kinds("die"),
        ),
        Process.THREAD: ProcessRow(
            table_word="thread",
            passes=Passes.THREADED,
            form=Form.THREADING,
            inside_form=Form.BAR,
            from_outside=True,
            pitch_feed=True,
            runs_true=True,
            work_turns=True,
            tools=_kinds("threading internal-threading"),
        ),
        Process.PART: replace(_BLADE, table_word="part", comes_off=True, tools=_kinds("parting")),
        Process.GROOVE: replace(
            _BLADE, table_word="groove", inside_form=Form.BAR, tools=_kinds("parting grooving internal-grooving form")
        ),
        Process.FORM: replace(
            _FORMED,
            table_word="form",
            tools=_kinds("form chamfer round-nose knife left-knife boring-bar countersink facing"),
        ),
        Process.CHAMFER: replace(
            _FORMED, table_word="chamfer", tools=_kinds("form chamfer knife left-knife boring-bar countersink facing")
        ),
        Process.KNURL: ProcessRow(
            table_word="knurl", form=Form.KNURL, from_outside=True, work_turns=True, tools=_kinds("knurl")
        ),
        Process.MILL: ProcessRow(
            table_word="mill",
            passes=Passes.MILLED,
            load=Load.MILLING,
            bends=Bends.CUTTER,
            reach_of="cutter",
            across_from_outside=True,
            from_outside=True,
            turning_tool=True,
            milling_feed=True,
            tools=_kinds(
                "end-mill roughing-mill slot-drill ball-nose face-mill fly-cutter vee-cutter slitting-saw "
                "t-slot-cutter dovetail-cutter woodruff-cutter corner-rounding countersink chamfer spotting-drill"
            ),
        ),
        Process.SAW: ProcessRow(needs_spindle=False, tools=_kinds("saw-blade slitting-saw")),
    }
)
"""Every process. A new one is a row here and nothing else."""
