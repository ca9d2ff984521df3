"""A good sample of every verb in every frame, and of every clause that it knows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from tests.method.bench import block, method

CHUCK = ("machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
TABLE = ("machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
VICE = ("machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
PRESS = ("machine: press", "hold: press blocks, end A up")
ON_PRESS = ("machine: press", "hold: press blocks, up top, towards front")
ROUND, BLOCK = "round 40 mm x 60 mm", "plate 60 mm x 40 mm x 25 mm"
PLUG = block("setup", "machine: lathe", "piece: plug", "stock: round 16 mm x 30 mm",
             "hold: three-jaw chuck, on 16 mm, grip 12 mm, end A out") + block("op", "turn: to 10 mm, over 12 mm") + block("op", "file: to 4 mm, over 5 mm")  # fmt: skip
ROD = block("setup", "machine: lathe", "piece: plug", "stock: round 10 mm x 100 mm",
            "hold: three-jaw chuck, on 10 mm, grip 12 mm, end A out") + block("op", "part off: 70 mm, wide 2 mm")  # fmt: skip
RUN = "plug, with weld, throat 1.5 mm, run 6 mm"
GRUB = "plug, with cross pin, size 4 mm, long 12 mm, from face 10 mm"
CAM = "base 12 mm, lift 5 mm, rise 70 deg, follower roller, roller 10 mm, over 12 mm"
CAM_TABLE = "base 12 mm, lifts 0 mm, 0.6 mm, 2 mm, 3.4 mm, 4 mm, 3.4 mm, 2 mm, 0.6 mm, follower flat, over 12 mm"
BORED = ("drill: 12 mm, through", "bore: to 16 mm, deep 40 mm")


@dataclass(frozen=True)
class Sample:
    """One verb in one frame: a line that is good, and for each clause what is added to it or written instead."""

    line: str
    clauses: Mapping[str, str | tuple[str, str]] = field(default_factory=dict)
    """What is added to the line; or two whole lines, without the clause (or with another value) and with it."""
    setup: tuple[str, str] = CHUCK
    before: tuple[str, ...] = ()
    stock: str = ROUND
    idle: Mapping[str, str] = field(default_factory=dict)
    """Clauses that mean nothing in this frame: they are refused."""
    front: str = ""

    def text(self, verb: str, line: str) -> str:
        """A whole method that ends with the line."""
        blocks = self.front + block(
            "setup", *self.setup, *(("piece: main", f"stock: {self.stock}") if self.front else ())
        )
        ops = "".join(block("op", op) for op in self.before)
        return method(blocks + ops + block("op", f"{verb}: {line}"), stock=self.stock)


ANGLED = {
    "at": ", at 30 deg",
    "divide": ", divide 3",
    "starting": (", divide 3", ", divide 3, starting 20 deg"),
    "skip": (", divide 3", ", divide 3, skip 2"),
}


def angled(line: str) -> dict[str, str | tuple[str, str]]:
    """The clauses of dividing, behind a line."""
    return {word: said if isinstance(said, str) else (line + said[0], line + said[1]) for word, said in ANGLED.items()}


def hole(size: str, **more: str | tuple[str, str]) -> dict[str, str | tuple[str, str]]:
    """The clauses of a hole on a pitch circle."""
    line = f"{size}, deep 12 mm, on circle 24 mm"
    return {
        **angled(line),
        "": (line, f"7 mm{line[len(size) :]}"),
        "deep": (line, line.replace("12 mm", "15 mm")),
        "through": (line, line.replace("deep 12 mm", "through")),
        "from": ", from 2 mm",
        "called": ", called dowel",
        "on radius": (line, line.replace("on circle 24 mm", "on radius 10 mm")),
        "on circle": (line, line.replace("24 mm", "20 mm")),
        **more,
    }


AROUND = {"at": ", at 30 deg", "divide": ", divide 3", "starting": ", starting 20 deg", "skip": ", skip 2",
          "on radius": ", on radius 5 mm", "on circle": ", on circle 20 mm"}  # fmt: skip
ON_A_FACE = {"places": ", places (20 mm, 10 mm)", "about": ", about (20 mm, 10 mm)", "row": ", row 2", "apart": ", apart 9 mm",
    "row at": ", row at 30 deg", "rows": ", rows 2", "rows apart": ", rows apart 9 mm"}  # fmt: skip
PLACE = ON_A_FACE["places"]


def joined_at(beside: str, across: str) -> dict[str, str | tuple[str, str]]:
    """The clauses of the place of a join: a piece beside the axis, and one across the work."""
    return {
        **{"at angle" if word == "at" else word: said for word, said in angled(beside).items()},
        "at angle": (beside, beside + ", at 30 deg"),
        "divide": (beside, beside + ", divide 3"),
        "on radius": (beside, beside.replace("12 mm", "11 mm")),
        "on circle": (beside, beside.replace("on radius 12 mm", "on circle 22 mm")),
        "places": (beside, beside.replace("on radius 12 mm", "places (3 mm, 12 mm)")),
        "from face": (across, across.replace("10 mm", "14 mm")),
        "in": (across, across + ", in 15 mm"),
        "off axis": (across, across + ", off axis 3 mm"),
    }


def joined_round(place: str) -> dict[str, str | tuple[str, str]]:
    """The same on the face of a block: places on a circle about a place."""
    line = f"{place}, on circle 10 mm"
    return {
        **{"at angle" if word == "at" else word: said for word, said in angled(line).items()},
        "at angle": (line, line + ", at 30 deg"),
        "divide": (line, line + ", divide 3"),
        "on circle": (line, line.replace("circle 10", "circle 12")),
        "on radius": (line, line.replace("on circle 10 mm", "on radius 6 mm")),
    }


def into_a_side(across: str) -> dict[str, str | tuple[str, str]]:
    """The clauses of a piece that goes level into a side of a block."""
    return {
        "from face": (across, across.replace("10 mm", "12 mm")),
        "in": (across, across + ", in 26 mm"),
        "off axis": (across, across + ", off axis 3 mm"),
    }


NOTE = Sample("twice", {"": ("twice", "three times"), "for": ", for 7 min"})


def rows(line: str) -> dict[str, str | tuple[str, str]]:
    """Rows and grids, behind a line with one place."""
    row = line + ", row 2, apart 9 mm"
    return {
        "about": (line, line.replace("places (20 mm", "about (22 mm")), "row": (row, row.replace("row 2", "row 3")),
        "apart": (row, row.replace("9 mm", "10 mm")), "row at": (row, row + ", row at 90 deg"),
        "rows": (row, row + ", rows 2"), "rows apart": (row + ", rows 2", row + ", rows 2, rows apart 12 mm"),
    }  # fmt: skip


def on_face(line: str, **more: str | tuple[str, str]) -> Sample:
    """A hole on the face of a block, whose clauses of dividing mean nothing."""
    clauses = {"places": (line, line.replace("20 mm, 10 mm", "30 mm, 15 mm")), **rows(line), **more}
    return Sample(line, clauses, VICE, stock=BLOCK, idle={w: s for w, s in AROUND.items() if w not in more})


TURNED: dict[str, Sample] = {
    "face": Sample("1 mm", {"": ("1 mm", "2 mm"), "off": ("off 1 mm", "off 2 mm"),
        "to length": ("1 mm", "to length 58 mm"), "down to": ", down to 20 mm", "called": ", called front",
        "at": ("1 mm", "1 mm, at 10 mm"), "inside": ("1 mm, at 10 mm", "1 mm, at 12 mm, inside"),
        "left hand": ("1 mm, at 10 mm", "1 mm, at 20 mm, left hand")},
        before=("turn: to 30 mm, over 10 mm", "groove: from 20 mm, wide 10 mm, to 30 mm", "drill: 10 mm, deep 20 mm",
                "bore: to 16 mm, deep 12 mm")),
    "turn": Sample("to 30 mm, over 20 mm", {"to": ("to 30 mm, over 20 mm", "to 29 mm, over 20 mm"),
        "over": ("to 30 mm, over 20 mm", "to 30 mm, over 21 mm"), "from": ", from 3 mm", "corner": ", corner 2 mm",
        "leave": ", leave 0.5 mm", "called": ", called seat",
        "left hand": ("to 30 mm, over 20 mm, from 5 mm", "to 30 mm, over 20 mm, from 5 mm, left hand")}),
    "taper": Sample("from 20 mm, to 30 mm, over 20 mm", {
        "from": ("from 20 mm, to 30 mm, over 20 mm", "from 22 mm, to 30 mm, over 20 mm"),
        "to": ("from 20 mm, to 30 mm, over 20 mm", "from 20 mm, to 31 mm, over 20 mm"),
        "over": ("from 20 mm, to 30 mm, over 20 mm", "from 20 mm, to 30 mm, over 22 mm"),
        "angle": ("from 20 mm, to 30 mm, over 20 mm", "from 20 mm, angle 5 deg, over 20 mm"),
        "starting": ", starting 2 mm", "called": ", called nose",
        "inside": ("from 20 mm, to 17 mm, over 20 mm", "from 20 mm, to 17 mm, over 20 mm, inside"),
        "left hand": ("starting 5 mm, from 20 mm, to 30 mm, over 20 mm",
                      "starting 5 mm, from 20 mm, to 30 mm, over 20 mm, left hand")}, before=BORED),
    "profile": Sample("points (0 mm, 20 mm), (10 mm, 30 mm)", {
        "points": ("points (0 mm, 20 mm), (10 mm, 30 mm)", "points (0 mm, 22 mm), (10 mm, 30 mm)"),
        "via": ("points (0 mm, 20 mm), (5 mm, 26 mm), (10 mm, 30 mm)",
                "points (0 mm, 20 mm), (5 mm, 26 mm), (10 mm, 30 mm), via (5 mm, 26 mm)"), "called": ", called knob"}),
    "groove": Sample("at 10 mm, wide 4 mm, to 30 mm", {
        "from": ("at 10 mm, wide 4 mm, to 30 mm", "from 12 mm, wide 4 mm, to 30 mm"),
        "at": ("at 10 mm, wide 4 mm, to 30 mm", "at 12 mm, wide 4 mm, to 30 mm"),
        "wide": ("at 10 mm, wide 4 mm, to 30 mm", "at 10 mm, wide 5 mm, to 30 mm"),
        "to": ("at 10 mm, wide 4 mm, to 30 mm", "at 10 mm, wide 4 mm, to 28 mm"),
        "deep": ("at 10 mm, wide 4 mm, to 30 mm", "at 10 mm, wide 4 mm, deep 4 mm"),
        "inside": ("at 10 mm, wide 4 mm, deep 2 mm", "at 10 mm, wide 4 mm, deep 2 mm, inside"),
        "ring": ("at 10 mm, wide 4 mm, to 30 mm", "at 10 mm, wide 4 mm, ring 40 mm"),
        "called": ", called relief"}, before=BORED),
    "undercut": Sample("at 20 mm, wide 3 mm, deep 1 mm", {
        "at": ("at 20 mm, wide 3 mm, deep 1 mm", "at 19 mm, wide 3 mm, deep 1 mm"),
        "wide": ("at 20 mm, wide 3 mm, deep 1 mm", "at 20 mm, wide 2.5 mm, deep 1 mm"),
        "deep": ("at 20 mm, wide 3 mm, deep 1 mm", "at 20 mm, wide 3 mm, deep 1.5 mm"),
        "called": ", called relief"}, before=("turn: to 30 mm, over 20 mm",)),
    "part off": Sample("10 mm", {"": ("10 mm", "11 mm"), "wide": ", wide 3 mm", "keep": ", keep back"}),
    "knurl": Sample("over 10 mm", {"over": ("over 10 mm", "over 12 mm"), "from": ", from 2 mm", "pitch": ", pitch 1.5 mm",
        "straight": ", straight"}),
    "chamfer": Sample("1 mm", {"": ("1 mm", "1.5 mm"), "on": ", on 39 mm", "at": ("1 mm, on 40 mm", "1 mm, on 40 mm, at 1 mm"),
        "angle": ", angle 30 deg", "away": ("1 mm, on 40 mm, at 10 mm", "1 mm, on 40 mm, at 10 mm, away"),
        "inside": ("1 mm", "1 mm, inside")}, before=BORED),
    "round over": Sample("2 mm", {"": ("2 mm", "3 mm"), "on": ", on 39 mm", "at": ("2 mm, on 40 mm", "2 mm, on 40 mm, at 1 mm"),
        "hollow": ", hollow"}),
    "drill": Sample("6 mm, deep 12 mm, on circle 24 mm", hole("6 mm", point=", point 135 deg"), TABLE, idle=ON_A_FACE),
    "ream": Sample("6 mm, deep 12 mm, on circle 24 mm", hole("6 mm"), TABLE, ("drill: 5.8 mm, deep 14 mm, on circle 24 mm",),
        idle=ON_A_FACE),
    "bore": Sample("to 12 mm, deep 12 mm, on circle 24 mm", {**{w: s for w, s in hole("to 12 mm").items() if w},
        "to": ("to 12 mm, deep 12 mm, on circle 24 mm", "to 13 mm, deep 12 mm, on circle 24 mm"),
        "corner": ", corner 1 mm", "leave": ", leave 0.4 mm"}, TABLE,
        ("drill: 10 mm, deep 14 mm, on circle 24 mm",), idle=ON_A_FACE),
    "counterbore": Sample("8 mm, deep 12 mm, on circle 24 mm", {**hole("8 mm"), "": ("8 mm, deep 12 mm, on circle 24 mm",
        "9 mm, deep 12 mm, on circle 24 mm"), "back": ", back"}, TABLE, ("drill: 5 mm, through, on circle 24 mm",),
        idle=ON_A_FACE),
    "countersink": Sample("8 mm, on circle 24 mm", {**angled("8 mm, on circle 24 mm"), "": ("8 mm, on circle 24 mm",
        "9 mm, on circle 24 mm"), "from": ", from 1 mm", "angle": ", angle 60 deg", "called": ", called seat",
        "on radius": ("8 mm, on circle 24 mm", "8 mm, on radius 10 mm"),
        "on circle": ("8 mm, on circle 24 mm", "8 mm, on circle 20 mm")}, TABLE, ("drill: 5 mm, through, on circle 24 mm",),
        idle=ON_A_FACE),
    "centre": Sample("2.5 mm, on circle 24 mm", {**angled("2.5 mm, on circle 24 mm"), "": ("2.5 mm, on circle 24 mm",
        "1.6 mm, on circle 24 mm"), "to": ", to 4 mm", "on radius": ("2.5 mm, on circle 24 mm", "2.5 mm, on radius 10 mm"),
        "on circle": ("2.5 mm, on circle 24 mm", "2.5 mm, on circle 20 mm")}, TABLE, idle=ON_A_FACE),
    "tap": Sample("M6, deep 10 mm, on circle 24 mm", {**hole("M6"), "": ("M6, deep 10 mm, on circle 24 mm",
        "M5, deep 10 mm, on circle 24 mm"), "deep": ("M6, deep 10 mm, on circle 24 mm", "M6, deep 8 mm, on circle 24 mm"),
        "left hand": ", left hand"}, TABLE, ("drill: 5 mm, deep 20 mm, on circle 24 mm",), idle=ON_A_FACE),
    "cross-drill": Sample("5 mm, from face 10 mm, deep 10 mm", {**angled("5 mm, from face 10 mm, deep 10 mm"),
        "": ("5 mm, from face 10 mm, deep 10 mm", "6 mm, from face 10 mm, deep 10 mm"),
        "from face": ("5 mm, from face 10 mm, deep 10 mm", "5 mm, from face 12 mm, deep 10 mm"),
        "deep": ("5 mm, from face 10 mm, deep 10 mm", "5 mm, from face 10 mm, deep 12 mm"),
        "through": ("5 mm, from face 10 mm, deep 10 mm", "5 mm, from face 10 mm, through"),
        "off axis": ", off axis 3 mm", "point": ", point 135 deg", "called": ", called pin hole"},
        ("machine: mill", "hold: vee block, on 40 mm, end A out")),
    "cross-tap": Sample("M6, from face 10 mm, deep 10 mm", {**angled("M6, from face 10 mm, deep 10 mm"),
        "": ("M6, from face 10 mm, deep 10 mm", "M5, from face 10 mm, deep 10 mm"),
        "from face": ("M6, from face 10 mm, deep 10 mm", "M6, from face 12 mm, deep 10 mm"),
        "deep": ("M6, from face 10 mm, deep 10 mm", "M6, from face 10 mm, deep 12 mm"),
        "through": ("M6, from face 10 mm, deep 10 mm", "M6, from face 10 mm, through"),
        "off axis": ", off axis 3 mm", "called": ", called clamp", "left hand": ", left hand"},
        ("machine: mill", "hold: vee block, on 40 mm, end A out")),
    "thread": Sample("M40 x 1.5, over 15 mm", {"": ("M40 x 1.5, over 15 mm", "M39 x 1.5, over 15 mm"),
        "over": ("M40 x 1.5, over 15 mm", "M40 x 1.5, over 12 mm"), "from": ", from 2 mm", "die": ", die",
        "left hand": ", left hand", "called": ", called nose",
        "both sides": ("M40 x 1.5, over 15 mm, die", "M40 x 1.5, over 15 mm, die, both sides"), "starts": ", starts 2",
        "inside": ("M18 x 1.5, over 15 mm, inside", "M40 x 1.5, over 15 mm")}, before=BORED),
    "flat": Sample("15 mm, over 20 mm", {**angled("15 mm, over 20 mm"), "": ("15 mm, over 20 mm", "16 mm, over 20 mm"),
        "across": ("15 mm, over 20 mm", "across 32 mm, over 20 mm"), "over": ("15 mm, over 20 mm", "15 mm, over 22 mm"),
        "from": ", from 2 mm", "cutter": ", cutter 6 mm", "called": ", called key"}, TABLE),
    "slot": Sample("wide 5 mm, deep 3 mm, over 20 mm", {**angled("wide 5 mm, deep 3 mm, over 20 mm"),
        "wide": ("wide 5 mm, deep 3 mm, over 20 mm", "wide 6 mm, deep 3 mm, over 20 mm"),
        "deep": ("wide 5 mm, deep 3 mm, over 20 mm", "wide 5 mm, deep 4 mm, over 20 mm"),
        "to": ("wide 5 mm, deep 3 mm, over 20 mm", "wide 5 mm, to 15 mm, over 20 mm"),
        "over": ("wide 5 mm, deep 3 mm, over 20 mm", "wide 5 mm, deep 3 mm, over 22 mm"), "from": ", from 2 mm",
        "in face": ("wide 5 mm, deep 3 mm", "wide 5 mm, deep 3 mm, in face"),
        "in bore": ("wide 5 mm, deep 3 mm, over 20 mm", "wide 5 mm, deep 3 mm, over 20 mm, in bore"),
        "called": ", called key"}, TABLE, BORED),
    "graduate": Sample("20", {"": ("20", "30"), "from": ", from 2 mm", "line": ", line 2 mm", "fifth": ", fifth 4 mm",
        "tenth": ", tenth 5 mm", "starting": ", starting 5 deg"}, TABLE),
    "gear": Sample("module 1 mm, teeth 38, over 15 mm", {
        "module": ("module 1 mm, teeth 38, over 15 mm", "module 0.8 mm, teeth 38, over 15 mm"),
        "teeth": ("module 1 mm, teeth 38, over 15 mm", "module 1 mm, teeth 30, over 15 mm"),
        "over": ("module 1 mm, teeth 38, over 15 mm", "module 1 mm, teeth 38, over 12 mm"), "from": ", from 2 mm",
        "starting": ", starting 4 deg", "called": ", called wheel"}, TABLE),
    "broach": Sample("square 16 mm", {"square": ("square 16 mm", "square 15.8 mm"), "hexagon": ("square 16 mm", "hexagon 16 mm"),
        "keyway": ("square 16 mm", "keyway 5 mm, deep 2 mm"), "deep": ", deep 10 mm", "at": ", at 30 deg", "for": ", for 7 min",
        "called": ", called socket"}, before=BORED),
    "polish": Sample("to 39.99 mm, over 20 mm", {"": ("bright", "very bright"),
        "to": ("to 39.99 mm, over 20 mm", "to 39.98 mm, over 20 mm"), "over": ("to 39.99 mm, over 20 mm", "to 39.99 mm, over 22 mm"),
        "from": ", from 2 mm", "inside": ("to 39.99 mm, over 20 mm", "to 16.01 mm, over 20 mm, inside"), "for": ", for 7 min"},
        before=BORED),
    "harden": Sample("all over", {"": ("all over", "the end"), "at": ", at 780 degC", "quench": ", quench oil",
        "temper": ", temper 230 degC", "hardness": ", hardness 60 HRC", "for": ", for 7 min"}),
    "temper": Sample("all over", {"": ("all over", "the end"), "at": ", at 230 degC", "hardness": ", hardness 58 HRC", "for": ", for 7 min"}),
    "anneal": Sample("all over", {"": ("all over", "the end"), "at": ", at 750 degC", "for": ", for 7 min"}),
    "case-harden": Sample("all over", {"": ("all over", "the end"), "at": ", at 880 degC", "deep": ", deep 0.4 mm",
        "quench": ", quench brine", "hardness": ", hardness 60 HRC", "for": ", for 7 min"}),
    "dome": Sample("60 mm", {"": ("60 mm", "50 mm"), "on": ", on 30 mm", "steps of": ", steps of 0.5 mm", "called": ", called end"}),
    "wind": Sample("1 mm, on 40 mm, coils 8, apart 9 mm", {"": ("1 mm, on 40 mm, coils 8, apart 9 mm", "2 mm, on 40 mm, coils 8, apart 9 mm"),
        "on": ("1 mm, on 40 mm, coils 8, apart 9 mm", "1 mm, on 38 mm, coils 8, apart 9 mm"),
        "coils": ("1 mm, on 40 mm, coils 8, apart 9 mm", "1 mm, on 40 mm, coils 7, apart 9 mm"),
        "apart": ("1 mm, on 40 mm, coils 8, apart 9 mm", "1 mm, on 40 mm, coils 8, apart 8 mm"), "ends": ", ends 1.5",
        "material": ", material phosphor bronze", "for": ", for 7 min"}),
    "split": Sample("at 0 deg", {"off axis": ", off axis 5 mm","at": ("at 0 deg", "at 30 deg"), "wide": ", wide 2 mm", "keep": ", keep left",
        "one side": ", one side"}),
    "saw out": Sample("from 10 mm, wide 12 mm, bottom 2 mm", {
        "from": ("from 10 mm, wide 12 mm, bottom 2 mm", "from 11 mm, wide 12 mm, bottom 2 mm"),
        "wide": ("from 10 mm, wide 12 mm, bottom 2 mm", "from 10 mm, wide 13 mm, bottom 2 mm"),
        "bottom": ("from 10 mm, wide 12 mm, bottom 2 mm", "from 10 mm, wide 12 mm, bottom 3 mm"),
        "down to": ("from 10 mm, wide 12 mm", "from 10 mm, wide 12 mm, down to 18 mm"),
        "up to": ("from 10 mm, wide 12 mm", "from 10 mm, wide 12 mm, up to 30 mm"),
        "sector": ("from 10 mm, wide 12 mm, down to 18 mm", "from 10 mm, wide 12 mm, down to 18 mm, sector 90 deg"),
        "at": ", at 30 deg", "keep": ", keep plug", "called": ", called window", "for": ", for 7 min",
        "cutter": ("from 10 mm, wide 12 mm\ntool: end mill", "from 10 mm, wide 12 mm, cutter 6 mm\ntool: end mill")},
        CHUCK, ("drill: 10 mm, through", "press in: plug"), front=PLUG),
    "web": Sample("hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", {
        "hub": ("hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", "hub 15 mm, nose 9 mm, offset 10 mm, over 12 mm"),
        "nose": ("hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", "hub 14 mm, nose 8 mm, offset 10 mm, over 12 mm"),
        "offset": ("hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", "hub 14 mm, nose 9 mm, offset 9 mm, over 12 mm"),
        "over": ("hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", "hub 14 mm, nose 9 mm, offset 10 mm, over 13 mm"),
        "from": ", from 2 mm", "at": ", at 30 deg", "flanks only": ", flanks only", "cutter": ", cutter 6 mm",
        "climb": ", climb", "called": ", called arm"}, TABLE),
    "cam": Sample(CAM, {"base": (CAM, CAM.replace("base 12", "base 11")), "lift": (CAM, CAM.replace("lift 5", "lift 4")),
        "lifts": (CAM_TABLE, CAM_TABLE.replace("2 mm, 0.6", "2.1 mm, 0.6")), "rise": (CAM, CAM.replace("rise 70", "rise 80")),
        "dwell": ", dwell 20 deg", "fall": ", fall 90 deg", "motion": ", motion cycloidal",
        "follower": (CAM, CAM.replace("follower roller, roller 10 mm", "follower point")),
        "roller": (CAM, CAM.replace("roller 10 mm", "roller 8 mm")), "step": ", step 3 deg", "from": ", from 2 mm",
        "over": (CAM, CAM.replace("over 12", "over 13")), "at": ", at 30 deg", "cutter": ", cutter 6 mm", "climb": ", climb",
        "called": ", called lobe"}, TABLE),
    "outline": Sample("points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm", {
        "points": ("points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm",
                   "points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 15 mm), over 12 mm"),
        "via": ("points (-12 mm, -12 mm), (0 mm, -15 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm",
                "points (-12 mm, -12 mm), (0 mm, -15 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm, via (0 mm, -15 mm)"),
        "over": ("points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm",
                 "points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 13 mm"),
        "from": ", from 2 mm", "offset": ", offset 2 mm", "at": ", at 30 deg", "cutter": ", cutter 6 mm",
        "climb": ", climb", "called": ", called cam"}, TABLE),
    "saw off": Sample("20 mm", {"": ("20 mm", "21 mm"), "wide": ", wide 2 mm", "keep": ", keep back"}),
    "file": Sample("smooth", {"": ("smooth", "very smooth"), "to": ("to 18 mm, over 10 mm", "to 17 mm, over 10 mm"),
        "at": ("to 18 mm", "to 18 mm, at 30 deg"), "over": ("to 18 mm, over 10 mm", "to 18 mm, over 12 mm"),
        "from": ("to 18 mm, over 10 mm", "to 18 mm, over 10 mm, from 2 mm"), "for": ", for 7 min"}),
    "mark out": Sample("centres", {"": ("centres", "rings"), "for": ", for 7 min", "lines": ", lines 10 mm, 20 mm"}),
    "support": Sample("fixed steady", {"": ("fixed steady", "travelling steady"), "at": ", at 20 mm"}),
    "pin": Sample("4 mm, from face 10 mm, long 30 mm", {"": ("4 mm, from face 10 mm, long 30 mm", "5 mm, from face 10 mm, long 30 mm"),
        "long": ("4 mm, from face 10 mm, long 30 mm", "4 mm, from face 10 mm, long 28 mm"),
        "material": ", material brass", "called": ", called stop", "for": ", for 7 min",
        "at": ("4 mm, on radius 12 mm, long 30 mm", "4 mm, on radius 12 mm, long 30 mm, at 2 mm"),
        **joined_at("4 mm, on radius 12 mm, long 30 mm", "4 mm, from face 10 mm, long 30 mm")}),
    "secure": Sample("plug, with weld, throat 1.5 mm", {
        "": ("plug, with weld, throat 1.5 mm", "main, with weld, throat 1.5 mm"),
        "with": ("plug, with weld, throat 1.5 mm", "plug, with silver solder, throat 1.5 mm"),
        "throat": ("plug, with weld, throat 1.5 mm", "plug, with weld, throat 1.2 mm"), "side": ", side back",
        "run": ", run 6 mm", "for": ", for 7 min", "called": ", called seam",
        "size": (GRUB, GRUB.replace("size 4 mm", "size 5 mm")), "long": (GRUB, GRUB.replace("long 12 mm", "long 11 mm")),
        "material": (GRUB, GRUB + ", material brass"), "from face": (GRUB, GRUB.replace("10 mm", "12 mm")),
        "in": (GRUB, GRUB + ", in 16 mm"), "off axis": (GRUB, GRUB + ", off axis 1 mm"),
        "at angle": (GRUB, GRUB + ", at 30 deg"), "divide": (GRUB, GRUB + ", divide 3"),
        "starting": (GRUB + ", divide 3", GRUB + ", divide 3, starting 20 deg"),
        "skip": (GRUB + ", divide 3", GRUB + ", divide 3, skip 2")},
        CHUCK, ("drill: 10 mm, through", "press in: plug, at -5 mm"), front=ROD, idle={"at": ", at 2 mm"}),
    "rivet": Sample("4 mm, on radius 12 mm", {
        "": ("4 mm, on radius 12 mm", "5 mm, on radius 12 mm"), "head": ", head countersunk", "tail": ", tail pan",
        "long": ", long 16 mm", "material": ", material brass", "called": ", called stay", "for": ", for 7 min",
        **joined_at("4 mm, on radius 12 mm", "4 mm, from face 10 mm")}, idle={"at": ", at 2 mm"}),
    "take apart": Sample("plug", {"": ("plug", "plug 2"), "for": ", for 7 min"}, CHUCK,
        ("drill: 10 mm, through, on radius 12 mm, divide 2", "press in: plug, on radius 12 mm, divide 2"), front=PLUG),
    "press in": Sample("plug", {"": ("plug", "plug, at 5 mm"), "at": ", at 5 mm", "end": ", end B", "turned": ", turned 30 deg",
        "offset": ", offset 2 mm", "offset at": ("plug, offset 2 mm", "plug, offset 2 mm, offset at 90 deg"),
        "for": ", for 7 min", **joined_at("plug, on radius 12 mm", "plug, from face 10 mm")},
        CHUCK, ("drill: 10 mm, through",), front=PLUG),
}  # fmt: skip
"""Samples of work about an axis."""

SAME_AS = {"cross-ream": "cross-drill", "keyway": "slot", "lap": "polish", "hone": "polish", "normalise": "anneal"}
"""Verbs that are read by the same clauses as another one."""
