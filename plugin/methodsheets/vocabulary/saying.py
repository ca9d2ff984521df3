"""How does one say it? The plain words of the trade, and the line to write for each; one row an entry.

Each line stands in a set-up of its own, behind the operations that it needs, so that it can really be carried out.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

CHUCK = ("lathe", "three-jaw chuck, on 40 mm, grip 15 mm, end A out")
UPRIGHT = ("mill", "rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
LEVEL = ("mill", "rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out")
VEES = ("mill", "vee block, on 30 mm, end A out")
VICE = ("mill", "machine vice, up top, towards front, grip 10 mm")
LOW = ("mill", "machine vice, up top, towards front, grip 4 mm")
HEARTH = ("hearth", "bricks, end A out")
SAW = ("saw", "saw vice, on 40 mm, end A out")
BENCH = ("bench", "bench vice, on 40 mm, grip 15 mm, end A out")
PRESS = ("press", "press blocks, end A up")
ROUND, THIN, BLOCK = "round 40 mm x 60 mm", "round 30 mm x 60 mm", "plate 60 mm x 40 mm x 25 mm"
TUBE = "tube 30 mm x 12 mm x 60 mm"
HOLE = ("drill: 12 mm, through",)
BORED = ("drill: 12 mm, deep 40 mm", "bore: to 20 mm, deep 30 mm")
ROOMY = ("drill: 12.1 mm, through",)
PROUD = (*HOLE, "press in: plug, at -6 mm")
OFF = "drill: 12 mm, deep 20 mm, on radius 12 mm, at 0 deg"
PRESSED_OFF = "press in: plug, at 0 mm, on radius 12 mm, at 0 deg"
"""A pin off the axis, and its hole."""


_T, _H, _M, _D, _B, _J = (
    "Turning", "Holes and bores", "Milling a block", "Round the work: flats, slots, teeth", "By hand and with heat",
    "Joining",
)  # fmt: skip
"""Families of jobs, in the order of the page."""


@dataclass(frozen=True)
class Other:
    """The other piece of a joint, which is made first."""

    name: str
    stock: str
    set_up: tuple[str, str]
    op: str


PLUG = Other("plug", "round 12 mm x 20 mm", ("lathe", "three-jaw chuck, on 12 mm, grip 12 mm, end A out"),
             "chamfer: 0.5 mm")  # fmt: skip
STRAP = Other("strap", "plate 60 mm x 20 mm x 4 mm", ("mill", "machine vice, up top, towards front, grip 2.5 mm"),
              "drill: 4.2 mm, through, places (10 mm, 10 mm), (50 mm, 10 mm)")  # fmt: skip


@dataclass(frozen=True)
class Saying:
    """One entry: what a machinist wants to do, and the line that says it."""

    family: str
    wants: str
    """In the words of the trade."""
    line: str
    """Verb and clauses, as written in an `op` block."""
    set_up: tuple[str, str] = CHUCK
    before: tuple[str, ...] = ()
    stock: str = ROUND
    material: str = "EN1A"
    joins: bool = False
    """Whether a second piece is made first."""
    other: Other = PLUG
    """The second piece."""
    last: tuple[str, str] | None = None
    """Set-up of the line itself, where it is another than that of what comes before."""

    @property
    def verb(self) -> str:
        """The word in front of the colon."""
        return self.line.partition(":")[0]

    @property
    def key(self) -> str:
        """Name of its picture: 'face-the-end'."""
        return re.sub(r"[^a-z0-9]+", "-", self.wants.lower()).strip("-")

    @property
    def held(self) -> tuple[str, str]:
        """(machine, holding) of the line itself."""
        return self.last or self.set_up


_SHOULDER = ("turn: to 30 mm, over 10 mm", "groove: from 20 mm, wide 14 mm, to 26 mm")
SAYINGS: tuple[Saying, ...] = (
    Saying(_T, "face the end", "face: 1 mm"),
    Saying(_T, "face a shoulder", "face: 0.5 mm, at 10 mm", CHUCK, _SHOULDER),
    Saying(_T, "face the back of a collar with a left-hand tool",
           "face: 0.5 mm, at 20 mm, left hand", CHUCK, _SHOULDER),
    Saying(_T, "face the bottom of a recess", "face: 0.5 mm, at 30 mm, inside", CHUCK, BORED),
    Saying(_T, "turn to a diameter", "turn: to 30 mm, over 20 mm"),
    Saying(_T, "leave something on for later", "turn: to 30 mm, over 20 mm, leave 0.3 mm"),
    Saying(_T, "turn a taper", "taper: from 20 mm, to 30 mm, over 20 mm", CHUCK, ("turn: to 30 mm, over 25 mm",)),
    Saying(_T, "turn a shape by points", "profile: points (0 mm, 20 mm), (10 mm, 30 mm)"),
    Saying(_T, "turn a ball end, or a domed end by coordinates", "dome: 60 mm"),
    Saying(_T, "chamfer an edge", "chamfer: 1 mm"),
    Saying(_T, "round an edge", "round over: 2 mm"),
    Saying(_T, "groove the outside", "groove: at 10 mm, wide 2 mm, to 36 mm"),
    Saying(_T, "groove for a retaining ring", "groove: at 10 mm, ring 40 mm, wide 2 mm"),
    Saying(_T, "run-out groove at a shoulder",
           "undercut: at 20 mm, wide 3 mm, deep 1.2 mm", CHUCK, ("turn: to 20 mm, over 20 mm",)),
    Saying(_T, "cut a thread in the lathe", "thread: M20 x 1.5, over 17 mm", CHUCK,
           ("turn: to 20 mm, over 20 mm", "undercut: at 20 mm, wide 3 mm, deep 1.2 mm")),
    Saying(_T, "thread of several starts", "thread: M20 x 1.5, over 20 mm, starts 2", CHUCK,
           ("turn: to 20 mm, over 20 mm", "groove: at 20 mm, wide 6 mm, to 17 mm")),
    Saying(_T, "run a die up to a shoulder, from both sides", "thread: M10, over 18 mm, die, both sides", CHUCK,
           ("turn: to 10 mm, over 20 mm",)),
    Saying(_T, "taper pipe thread", "thread: 1/2 NPT, over 13.556 mm", CHUCK,
           ("turn: to 21.4 mm, over 24 mm", "groove: at 17 mm, wide 7 mm, to 17 mm")),
    Saying(_T, "knurl", "knurl: over 15 mm, pitch 1 mm"),
    Saying(_T, "part off", "part off: 10 mm, wide 2 mm"),
    Saying(_T, "bring up the tailstock", "support: tailstock centre", CHUCK, ("centre: 3.15 mm",)),
    Saying(_H, "centre drill", "centre: 2.5 mm"),
    Saying(_H, "drill on the axis", "drill: 8 mm, deep 30 mm"),
    Saying(_H, "bore out", "bore: to 20 mm, deep 30 mm", CHUCK, ("drill: 12 mm, deep 40 mm",)),
    Saying(_H, "ream", "ream: 12 mm, deep 30 mm", CHUCK, ("drill: 11.8 mm, deep 40 mm",)),
    Saying(_H, "counterbore", "counterbore: 10 mm, deep 5 mm", CHUCK, ("drill: 6 mm, deep 30 mm",)),
    Saying(_H, "countersink", "countersink: 10 mm", CHUCK, ("drill: 6 mm, deep 30 mm",)),
    Saying(_H, "tap", "tap: M6, deep 15 mm", CHUCK, ("drill: 5 mm, deep 25 mm",)),
    Saying(_H, "tap a taper pipe thread", "tap: Rc 1/8, deep 8 mm", CHUCK, ("drill: 8.4 mm, deep 20 mm",)),
    Saying(_H, "cut an inside taper pipe thread", "thread: 1/4 NPT, over 10.3 mm, inside", CHUCK,
           ("drill: 10.4 mm, deep 30 mm",)),
    Saying(_H, "drill a bolt circle",
           "drill: 5 mm, through, on circle 28 mm, divide 6", UPRIGHT, (), "round 40 mm x 30 mm"),
    Saying(_H, "drill across a shaft", "cross-drill: 5 mm, from face 12 mm, through", VEES, (), THIN),
    Saying(_H, "ream across a shaft", "cross-ream: 5 mm, from face 12 mm, through", VEES,
           ("cross-drill: 4.8 mm, from face 12 mm, through",), THIN),
    Saying(_H, "tap a hole across a shaft, beside its axis", "cross-tap: M5, from face 12 mm, through, off axis 8 mm",
           VEES, ("cross-drill: 4.2 mm, from face 12 mm, through, off axis 8 mm",), THIN),
    Saying(_H, "drill a plate", "drill: 5 mm, through, places (10 mm, 10 mm)", VICE, (), BLOCK),
    Saying(_H, "drill a grid of holes",
           "drill: 5 mm, through, places (10 mm, 10 mm), row 4, apart 13 mm, rows 2, rows apart 20 mm",
           VICE, (), BLOCK),
    Saying(_H, "bolt circle about a place of a plate",
           "drill: 5 mm, through, on circle 24 mm, divide 6, about (30 mm, 20 mm)",
           VICE, (), BLOCK),
    Saying(_H, "square or hexagon hole", "broach: square 12 mm", CHUCK, HOLE),
    Saying(_H, "keyway in a bore", "keyway: wide 5 mm, deep 2.3 mm, in bore, over 25 mm", CHUCK,
           (*BORED, "groove: from 25 mm, wide 3 mm, deep 2.4 mm, inside")),
    Saying(_H, "lap a bore to size", "lap: to 20.01 mm, inside, over 30 mm", CHUCK, BORED),
    Saying(_H, "hone a bore to size", "hone: to 20.03 mm, inside, over 30 mm", CHUCK, BORED),
    Saying(_M, "skim the top", "face: 1 mm", VICE, (), BLOCK),
    Saying(_M, "mill a step", "step: side front, wide 8 mm, deep 5 mm", VICE, (), BLOCK),
    Saying(_M, "mill a slot", "slot: wide 8 mm, deep 5 mm", VICE, (), BLOCK),
    Saying(_M, "mill a pocket", "pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", VICE, (), BLOCK),
    Saying(_M, "mill a vee", "vee: wide 8 mm", VICE, (), BLOCK),
    Saying(_M, "T-slot",
           "t-slot: wide 8 mm, deep 10 mm, head 12.5 mm, high 6 mm", VICE, ("slot: wide 8 mm, deep 10 mm",), BLOCK),
    Saying(_M, "mill a dovetail",
           "dovetail: wide 14 mm, deep 5 mm", VICE, ("slot: wide 12 mm, deep 5 mm",), BLOCK),
    Saying(_M, "cut a rack", "rack: module 1 mm, teeth 8", VICE, (), BLOCK),
    Saying(_M, "saw an opening", "saw out: from (10 mm, 10 mm), to (40 mm, 30 mm)", VICE, (), BLOCK),
    Saying(_D, "mill a flat", "flat: 15 mm, over 20 mm", UPRIGHT),
    Saying(_D, "mill a keyway along a shaft", "keyway: wide 5 mm, deep 3 mm, over 20 mm", VEES, (), THIN),
    Saying(_D, "mill a web with two tapered flanks", "web: hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", UPRIGHT),
    Saying(_D, "mill a cam by dwell and lift",
           "cam: base 12 mm, lift 5 mm, rise 70 deg, dwell 30 deg, follower roller, roller 10 mm, over 12 mm",
           UPRIGHT),
    Saying(_D, "mill a cam from a table of lifts",
           "cam: base 12 mm, lifts 0 mm, 0.6 mm, 2 mm, 3.4 mm, 4 mm, 3.4 mm, 2 mm, 0.6 mm, follower flat, over 12 mm",
           UPRIGHT),
    Saying(_D, "mill round an outline",
           "outline: points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm", UPRIGHT),
    Saying(_D, "cut a gear", "gear: module 1 mm, teeth 38, over 15 mm", LEVEL),
    Saying(_D, "graduate a dial", "graduate: 50", UPRIGHT),
    Saying(_D, "slit a collar on one side", "split: one side, wide 1 mm", LEVEL, (), "tube 40 mm x 12 mm x 30 mm"),
    Saying(_D, "split off the axis", "split: off axis 12 mm, wide 1 mm", LEVEL, (), "round 40 mm x 30 mm"),
    Saying(_B, "saw off a length", "saw off: 20 mm", SAW),
    Saying(_B, "cut a core out between two webs, with a pin that stays", "saw out: from 5 mm, wide 8 mm, keep plug",
           UPRIGHT, (OFF, PRESSED_OFF), joins=True, last=BENCH),
    Saying(_B, "saw a gap down to a core", "saw out: from 10 mm, wide 12 mm, down to 16 mm", BENCH),
    Saying(_B, "mark out", "mark out: a line round it, lines 20 mm"),
    Saying(_B, "file a flat", "file: to 18 mm, over 15 mm"),
    Saying(_B, "round an end with filing buttons", "round end: 10 mm, places (10 mm, 10 mm)", LOW,
           ("drill: 6 mm, through, places (10 mm, 10 mm)",), "plate 60 mm x 20 mm x 6 mm"),
    Saying(_B, "take the burrs off", "deburr: all edges"),
    Saying(_B, "polish", "polish: with fine cloth, over 20 mm"),
    Saying(_B, "harden and temper",
           "harden: all over, at 780 degC, quench water, temper 230 degC", HEARTH, (), THIN, "silver steel"),
    Saying(_B, "temper alone", "temper: to straw, at 230 degC", HEARTH, (), THIN, "silver steel"),
    Saying(_B, "anneal", "anneal: all over, at 740 degC", HEARTH, (), THIN, "silver steel"),
    Saying(_B, "normalise", "normalise: all over, at 840 degC", HEARTH, (), THIN, "EN8"),
    Saying(_B, "case-harden", "case-harden: all over, deep 0.4 mm", HEARTH, (), THIN, "EN32"),
    Saying(_B, "blue", "blue: all over", HEARTH, (), THIN),
    Saying(_B, "wind a spring", "wind: 1 mm, on 9 mm, coils 7, apart 2.5 mm", CHUCK, ("turn: to 9 mm, over 25 mm",)),
    Saying(_B, "measure before going on", "measure: the bore with a plug gauge"),
    Saying(_B, "anything else", "do: grease the thread"),
    Saying(_J, "press a piece in", "press in: plug", CHUCK, HOLE, joins=True),
    Saying(_J, "press a pin in off the axis", PRESSED_OFF, UPRIGHT, (OFF,), joins=True, last=PRESS),
    Saying(_J, "press several pins in on a circle", "press in: plug, at -6 mm, on circle 24 mm, divide 3", UPRIGHT,
           ("drill: 12 mm, deep 20 mm, on circle 24 mm, divide 3",), joins=True, last=PRESS),
    Saying(_J, "press a piece in across a shaft", "press in: plug, from face 20 mm, at 0 deg, in 25 mm", VEES,
           ("cross-drill: 12 mm, from face 20 mm, deep 20 mm",), THIN, joins=True),
    Saying(_J, "press a dowel into a block", "press in: plug, at -8 mm, places (30 mm, 20 mm)", VICE,
           ("drill: 12 mm, deep 20 mm, places (30 mm, 20 mm)",), BLOCK, joins=True),
    Saying(_J, "press a dowel into the side of a block", "press in: plug, from face 12 mm, at 270 deg, in 30 mm",
           ("mill", "machine vice, up front, towards bottom, grip 10 mm"),
           ("drill: 12 mm, deep 20 mm, places (30 mm, 13 mm)",), BLOCK, joins=True,
           last=("press", "press blocks, up top, towards front")),
    Saying(_J, "secure a joint with retaining compound",
           "secure: plug, with retainer", CHUCK, (*HOLE, "press in: plug"), joins=True),
    Saying(_J, "secure a joint with a weld bead",
           "secure: plug, with weld, throat 1.5 mm", CHUCK, PROUD, joins=True, last=BENCH),
    Saying(_J, "secure a joint with silver solder",
           "secure: plug, with silver solder, throat 1 mm", CHUCK, PROUD, joins=True, last=HEARTH),
    Saying(_J, "secure a joint with a cross pin",
           "secure: plug, with cross pin, size 3 mm, long 30 mm, from face 10 mm", VEES,
           ("press in: plug", "cross-drill: 3 mm, from face 10 mm, through"), TUBE, joins=True),
    Saying(_J, "secure a joint with a grub screw",
           "secure: plug, with grub screw, size 5 mm, long 9 mm, from face 10 mm", VEES,
           ("press in: plug", "cross-drill: 5 mm, from face 10 mm, deep 9 mm"), TUBE, joins=True),
    Saying(_J, "pin through a shaft",
           "pin: 4 mm, from face 12 mm, long 30 mm", VEES, ("cross-drill: 4 mm, from face 12 mm, through",), THIN),
    Saying(_J, "rivet plates together", "rivet: 4 mm, head snap, places (10 mm, 10 mm), (50 mm, 10 mm)", LOW,
           ("drill: 4.2 mm, through, places (10 mm, 10 mm), (50 mm, 10 mm)",
            "slide on: strap"), "plate 60 mm x 20 mm x 6 mm", joins=True, other=STRAP),
    Saying(_J, "silver solder", "silver-braze: plug", CHUCK, ROOMY, joins=True),
    Saying(_J, "soft solder", "soft-solder: plug", CHUCK, ROOMY, joins=True),
    Saying(_J, "take pieces apart that were bored as one",
           "take apart: plug", CHUCK, (*ROOMY, "soft-solder: plug"), joins=True),
    Saying(_J, "glue", "glue: plug", CHUCK, ROOMY, joins=True),
    Saying(_J, "fix with retaining compound", "retain: plug", CHUCK, ROOMY, joins=True),
)  # fmt: skip
"""Every entry, in the order of the page."""
