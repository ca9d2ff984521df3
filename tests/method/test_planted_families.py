"""Wrong methods by family: each is caught by the check it should, on the right line, and no other check speaks.

The methods and their faults are our own; they are small, so that one fault is one fault. Each is told in a machinist's
words. What the checks compare is geometry with geometry, or a size with the workshop's file.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from tests.method.bench import block, method, work_out


def lathe(hold: str) -> str:
    return block("setup", "machine: lathe", f"hold: {hold}")


def mill(hold: str) -> str:
    return block("setup", "machine: mill", f"hold: {hold}")


def drilling(hold: str) -> str:
    return block("setup", "machine: drill", f"hold: {hold}")


def op(*lines: str) -> str:
    return block("op", *lines)


@dataclass(frozen=True)
class Planted:
    """One wrong method: its words, what is wrong with it, and the lines of the file that the checks point to."""

    name: str
    blocks: str
    wrong: tuple[tuple[str, str], ...]
    """(key of the check, words of the line that it points to)."""
    stock: str = "round 40 mm x 60 mm"
    material: str = "EN1A"


def plant(
    name: str, blocks: str, key: str, at: str, stock: str = "round 40 mm x 60 mm", material: str = "EN1A"
) -> Planted:
    return Planted(name, blocks, ((key, at),), stock, material)


JAW = lathe("three-jaw chuck, on 40 mm, grip 15 mm, end A out")
JAW_20 = lathe("three-jaw chuck, on 20 mm, grip 15 mm, end A out")
VICE = mill("machine vice, up top, towards front, grip 10 mm")
FLAT = mill("clamps, up top, towards front, packed 15 mm")
PLATE = "plate 80 mm x 50 mm x 12 mm"
BLOCK = "plate 60 mm x 40 mm x 25 mm"
FACE = op("face: 1 mm")
BOTH_CENTRES = (
    lathe("three-jaw chuck, on 20 mm, grip 30 mm, end A out") + FACE + op("centre: 2 mm")
    + lathe("three-jaw chuck, on 20 mm, grip 30 mm, end B out") + FACE + op("centre: 2 mm")
)  # fmt: skip
BAR_20 = "round 20 mm x 120 mm"
DRILLED = op("drill: 8.5 mm, deep 30 mm")

HOLDING = [
    plant("a bar turned over its whole length, no grip said", lathe("three-jaw chuck, end A out") + op("turn: to 38 mm, over 60 mm"), "jaws", "turn: to 38"),
    plant("a mandrel and no hole, no grip said", lathe("mandrel, end A out") + op("turn: to 38 mm, over 20 mm"), "grip", "hold: mandrel"),
    plant("square in soft jaws", lathe("three-jaw chuck, on 24 mm, grip 15 mm, end A out, soft jaws") + FACE, "holding", "hold: three-jaw", "square 24 mm x 50 mm"),
    plant("square in the three-jaw, no grip said", lathe("three-jaw chuck, end A out") + FACE, "holding", "hold: three-jaw", "square 24 mm x 50 mm"),
    plant("square in the three-jaw", lathe("three-jaw chuck, on 24 mm, grip 20 mm, end A out") + FACE, "holding", "hold: three-jaw", "square 24 mm x 50 mm"),
    plant("oblong in the three-jaw", lathe("three-jaw chuck, on 20 mm, grip 20 mm, end A out") + FACE, "holding", "hold: three-jaw", "flat 30 mm x 20 mm x 50 mm"),
    plant("oblong in soft jaws", lathe("three-jaw chuck, on 20 mm, grip 15 mm, end A out, soft jaws") + FACE, "holding", "hold: three-jaw", "flat 30 mm x 20 mm x 50 mm"),
    plant("block in the three-jaw", lathe("three-jaw chuck, up top, towards front") + op("drill: 10 mm, through, places (20 mm, 20 mm)"), "holding", "hold: three-jaw", "plate 40 mm x 40 mm x 20 mm"),
    plant("block larger than the four-jaw opens", lathe("four-jaw chuck, up top, towards front") + op("drill: 10 mm, through, places (50 mm, 20 mm)"), "holding-range", "hold: four-jaw", "plate 100 mm x 40 mm x 20 mm"),
    plant("block bored in two places at one setting", lathe("four-jaw chuck, up top, towards front") + op("drill: 10 mm, through, places (20 mm, 20 mm)") + op("drill: 10 mm, through, places (40 mm, 20 mm)"), "one-axis", "drill: 10 mm, through, places (40", "plate 60 mm x 40 mm x 20 mm"),
    plant("block off the axis farther than the four-jaw goes", lathe("four-jaw chuck, up top, towards front") + op("drill: 10 mm, through, places (8 mm, 20 mm)"), "throw", "hold: four-jaw", "plate 60 mm x 40 mm x 20 mm"),
    plant("block on the faceplate swings into the bed", lathe("faceplate, up top, towards front") + op("drill: 10 mm, through, places (45 mm, 40 mm)"), "swing", "hold: faceplate", "plate 150 mm x 80 mm x 20 mm"),
    plant("second end held on the fresh thread", JAW_20 + op("turn: to 12 mm, over 25 mm") + op("thread: M12, over 20 mm, die")
          + lathe("three-jaw chuck, on 12 mm, grip 18 mm, end B out") + FACE, "grip", "hold: three-jaw chuck, on 12", "round 20 mm x 60 mm"),
    plant("a slit collar springs shut in the jaws", JAW + op("drill: 18 mm, through")
          + mill("rotary table with three-jaw chuck, on 40 mm, grip 20 mm, end A up") + op("split: one side, wide 3 mm")
          + lathe("three-jaw chuck, on 40 mm, grip 15 mm, end B out") + FACE, "grip", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end B"),
    plant("gripped across a shoulder", JAW + op("turn: to 30 mm, over 25 mm") + lathe("three-jaw chuck, on 30 mm, grip 30 mm, stick-out 30 mm, end B out") + FACE, "grip", "hold: three-jaw chuck, on 30"),
    plant("a grip of four millimetres", lathe("three-jaw chuck, on 40 mm, grip 4 mm, end A out") + FACE, "grip-length", "hold: three-jaw"),
    plant("gripped on half of the surface", JAW + op("turn: to 30 mm, over 20 mm") + lathe("three-jaw chuck, on 30 mm, grip 40 mm, stick-out 15 mm, end B out") + FACE, "grip", "hold: three-jaw chuck, on 30"),
    plant("a tall block held by a little at its foot", mill("machine vice, up top, towards front, grip 8 mm") + FACE, "grip-length", "hold: machine vice", "plate 40 mm x 40 mm x 60 mm"),
    plant("a plate as high as the jaws are deep, gripped too low", mill("machine vice, up top, towards front, grip 2 mm") + FACE, "grip-length", "hold: machine vice", "plate 60 mm x 40 mm x 20 mm"),
    plant("a block laid in vee blocks", mill("vee block, up top, towards front") + op("face: 1 mm"), "holding", "hold: vee block", BLOCK),
    plant("a hexagon rocks in vee blocks", mill("vee block, on 24 mm, grip 40 mm, end A out") + op("cross-drill: 5 mm, from face 6 mm"), "holding", "hold: vee block", "hexagon 24 mm x 60 mm"),
    plant("threaded mandrel without a thread", lathe("mandrel, on 10 mm, grip 20 mm, end A out") + FACE, "grip", "hold: mandrel"),
    plant("vice jaws higher than the work is thick", mill("machine vice, up top, towards front, grip 15 mm") + FACE, "grip-length", "hold: machine vice", "plate 60 mm x 40 mm x 12 mm"),
    plant("collet on a hexagon that is too large", lathe("collet chuck, on 24 mm, grip 20 mm, end A out") + FACE, "holding-range", "hold: collet", "hexagon 24 mm x 50 mm"),
]  # fmt: skip

IN_THE_FOUR_JAW = [
    plant("a block faced into the jaws", lathe("four-jaw chuck, up top, towards front, grip 18 mm") + op("face: 4 mm"), "jaws", "face: 4", "plate 60 mm x 40 mm x 20 mm"),
    plant("a block gripped deeper than it is thick", lathe("four-jaw chuck, up top, towards front, grip 24 mm") + op("face: 1 mm"), "grip-length", "hold: four-jaw", "plate 60 mm x 40 mm x 20 mm"),
    plant("a block held by three millimetres", lathe("four-jaw chuck, up top, towards front, grip 3 mm") + op("face: 1 mm"), "grip-length", "hold: four-jaw", "plate 60 mm x 40 mm x 20 mm"),
]  # fmt: skip

CENTRES = [
    plant("between centres without centre holes", lathe("between centres, on 20 mm, grip 12 mm, end A out") + op("turn: to 18 mm, over 60 mm"), "centre-hole", "hold: between", BAR_20),
    plant("the centre hole at end B is forgotten", lathe("three-jaw chuck, on 20 mm, grip 30 mm, end A out") + FACE + op("centre: 2 mm")
          + lathe("between centres, on 20 mm, grip 12 mm, end A out") + op("turn: to 18 mm, over 60 mm"), "centre-hole", "hold: between", BAR_20),
    plant("turned over the whole length, through the driving dog", BOTH_CENTRES + lathe("between centres, on 20 mm, grip 12 mm, end A out") + op("turn: to 18 mm, over 115 mm"), "carrier", "turn: to 18", BAR_20),
    plant("the dog forgotten in the words, and turned through it", BOTH_CENTRES + lathe("between centres, end A out") + op("turn: to 18 mm, over 117 mm"), "carrier", "turn: to 18", BAR_20),
    plant("a shaft longer than the lathe takes between centres", lathe("three-jaw chuck, on 16 mm, grip 22 mm, stick-out 10 mm, end A out") + op("centre: 2 mm")
          + lathe("three-jaw chuck, on 16 mm, grip 22 mm, stick-out 10 mm, end B out") + op("centre: 2 mm")
          + lathe("between centres, on 16 mm, grip 12 mm, end A out") + op("deburr: the ends"), "between-centres", "hold: between", "round 16 mm x 360 mm"),
    plant("faced with the centre in", BOTH_CENTRES + lathe("between centres, on 20 mm, grip 12 mm, end A out") + op("face: 0.5 mm"), "centre", "face: 0.5", BAR_20),
    plant("parted off with the tailstock centre in the work", JAW_20 + op("centre: 2 mm") + op("support: tailstock centre") + op("part off: 20 mm, wide 2 mm"), "centre", "part off", "round 20 mm x 60 mm"),
    plant("drilled with the centre in", JAW + op("centre: 2 mm") + op("support: tailstock centre") + op("drill: 8 mm, deep 20 mm"), "centre", "drill: 8 mm"),
    plant("a centre where no hole is", JAW + op("support: tailstock centre"), "centre-hole", "support: tail"),
    plant("thin and long without a steady", lathe("three-jaw chuck, on 8 mm, grip 20 mm, end A out") + op("turn: to 7 mm, over 60 mm", "depth: 0.1 mm", "feed: 0.05 mm"), "slender", "turn: to 7", "round 8 mm x 100 mm"),
    plant("work thinner than the steady takes", lathe("three-jaw chuck, on 5 mm, grip 20 mm, end A out, support fixed steady, support at 10 mm") + op("face: 0.5 mm"), "steady", "hold: three-jaw", "round 5 mm x 60 mm"),
    plant("a steady on the flats of a hexagon", lathe("three-jaw chuck, on 24 mm, grip 20 mm, end A out, support fixed steady, support at 20 mm") + op("face: 0.5 mm"), "steady", "hold: three-jaw", "hexagon 24 mm x 90 mm"),
    plant("a travelling steady that is not there", lathe("three-jaw chuck, on 20 mm, grip 20 mm, end A out, support travelling steady") + op("turn: to 19 mm, over 20 mm"), "steady", "hold: three-jaw", "round 20 mm x 90 mm"),
]  # fmt: skip

TOOLS = [
    plant("an end mill named that is not there", VICE + op("step: side front, wide 5 mm, deep 5 mm", "tool: 25 mm end mill"), "tool-size", "step: side", BLOCK),
    plant("a cutter said that is not there", VICE + op("step: side front, wide 5 mm, deep 5 mm, cutter 25 mm"), "tool-size", "step: side", BLOCK),
    plant("a drill named that is not there", JAW + op("drill: 8 mm, deep 20 mm", "tool: 8.7 in drill"), "tool-size", "drill: 8 mm"),
    plant("a knife tool named for drilling", JAW + op("drill: 8 mm, deep 20 mm", "tool: knife tool"), "tool-kind", "drill: 8 mm"),
    plant("a drill named for turning", JAW + op("turn: to 38 mm, over 20 mm", "tool: drills"), "tool-kind", "turn: to 38"),
    plant("a tap named for reaming", JAW + op("drill: 7.8 mm, deep 20 mm") + op("ream: 8 mm, deep 15 mm", "tool: taps"), "tool-kind", "ream: 8"),
    plant("a parting tool named for boring", JAW + op("drill: 20 mm, deep 20 mm") + op("bore: to 24 mm, deep 20 mm", "tool: parting tool"), "tool-kind", "bore: to"),
    plant("a round-nose tool for a square shoulder", JAW + op("turn: to 30 mm, over 20 mm", "tool: round nose"), "corner", "turn: to 30"),
    plant("countersunk larger than the countersink", VICE + op("drill: 8 mm, deep 10 mm, places (20 mm, 20 mm)") + op("countersink: 20 mm, places (20 mm, 20 mm)"), "tool-size", "countersink", BLOCK),
    plant("a 60 degree seat with the 90 degree countersink", JAW + op("drill: 6 mm, deep 20 mm") + op("countersink: 10 mm, angle 60 deg"), "tool-shape", "countersink"),
    plant("a 120 degree seat with the 90 degree countersink", JAW + op("drill: 6 mm, deep 20 mm") + op("countersink: 10 mm, angle 120 deg"), "tool-shape", "countersink"),
    plant("a 60 degree vee with the 90 degree cutter", VICE + op("vee: wide 8 mm, angle 60 deg"), "tool-shape", "vee: wide", BLOCK),
    plant("a slot narrower than the cutter named", VICE + op("slot: wide 10 mm, deep 4 mm, cutter 12 mm"), "tool-size", "slot: wide", BLOCK),
    plant("a keyway for which there is no cutter", mill("rotary table with three-jaw chuck, axis level, on 40 mm, grip 15 mm, end A out") + op("keyway: wide 5.5 mm, deep 3 mm, over 20 mm"), "tool-size", "keyway"),
    plant("a die that is not there", JAW_20 + op("turn: to 14 mm, over 25 mm") + op("thread: M14, over 20 mm, die"), "tool-size", "thread: M14", "round 20 mm x 60 mm"),
    plant("a tap that is not there", JAW + op("drill: 12 mm, deep 30 mm") + op("tap: M14, deep 15 mm"), "tool-size", "tap: M14"),
    plant("the coarse die for a fine thread", JAW_20 + op("turn: to 10 mm, over 25 mm") + op("thread: M10 x 1, over 20 mm, die"), "tool-size", "thread: M10", "round 20 mm x 60 mm"),
    plant("a 55 degree thread with the 60 degree tool", JAW_20 + op("turn: to 12.7 mm, over 25 mm") + op("thread: 1/2 BSF, over 20 mm"), "thread-form", "thread: 1/2", "round 20 mm x 60 mm"),
    plant("a groove narrower than any blade", JAW + op("groove: from 10 mm, wide 1 mm, to 36 mm"), "reach", "groove: from"),
    plant("turning named on the mill", mill("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up") + op("turn: to 38 mm, over 20 mm"), "machine", "turn: to 38"),
    plant("a flat milled in the lathe", JAW + op("flat: 18 mm, over 10 mm"), "machine", "flat: 18"),
    plant("a pitch circle drilled in the lathe", JAW + op("drill: 5 mm, deep 10 mm, on radius 12 mm, divide 4"), "machine", "drill: 5"),
]  # fmt: skip

THREADS = [
    plant("tapped to the bottom of the hole", JAW + DRILLED + op("tap: M10, deep 30 mm"), "thread-end", "tap: M10"),
    plant("tapped one pitch short of the bottom", JAW + DRILLED + op("tap: M10, deep 28.5 mm"), "thread-end", "tap: M10"),
    plant("the hole is shallower than its thread", JAW + DRILLED + op("tap: M10, deep 40 mm"), "tapping-drill", "tap: M10"),
    plant("a block tapped to the bottom", VICE + op("drill: 5 mm, deep 12 mm, places (20 mm, 20 mm)") + op("tap: M6, deep 12 mm, places (20 mm, 20 mm)"), "thread-end", "tap: M6", BLOCK),
    plant("a die right up to a shoulder", JAW_20 + op("turn: to 12 mm, over 25 mm") + op("thread: M12, over 25 mm, die"), "thread-end", "thread: M12", "round 20 mm x 60 mm"),
    plant("a single-point thread into a shoulder without a groove", JAW_20 + op("turn: to 12 mm, over 25 mm") + op("thread: M12, over 25 mm"), "thread-end", "thread: M12", "round 20 mm x 60 mm"),
    plant("a groove too narrow for the thread", JAW_20 + op("turn: to 12 mm, over 25 mm") + op("undercut: at 25 mm, wide 2 mm, deep 1.2 mm") + op("thread: M12, over 25 mm"), "thread-end", "thread: M12", "round 20 mm x 60 mm"),
    plant("threaded at a speed at which nobody disengages", JAW_20 + op("turn: to 12 mm, over 25 mm") + op("thread: M12, over 15 mm", "speed: 1000 1/min"), "speed", "thread: M12", "round 20 mm x 60 mm"),
    plant("blank never turned: the die is to run on the bar", JAW_20 + op("thread: M12, over 20 mm, die"), "blank", "thread: M12", "round 20 mm x 60 mm"),
    plant("blank never turned for a single-point thread", JAW_20 + op("thread: M12, over 20 mm"), "blank", "thread: M12", "round 20 mm x 60 mm"),
    plant("the internal threading tool does not go in the hole", JAW + op("drill: 8.5 mm, deep 30 mm") + op("thread: M10, inside, over 20 mm"), "reach", "thread: M10"),
    plant("an inside thread to the bottom of its bore", JAW + op("drill: 18 mm, deep 20 mm") + op("thread: M20, inside, over 20 mm"), "thread-end", "thread: M20"),
]  # fmt: skip

ROOM = [
    plant("drilled through work clamped flat on the table", mill("clamps, up top, towards front") + op("drill: 8 mm, through, places (20 mm, 20 mm)"), "table", "drill: 8", PLATE),
    plant("an opening milled deeper than the plate, into the table", mill("clamps, up top, towards front") + op("pocket: from (20 mm, 15 mm), to (50 mm, 35 mm), deep 14 mm"), "table", "pocket", PLATE),
    plant("deeper than the packing is high", mill("clamps, up top, towards front, packed 1 mm") + op("pocket: from (20 mm, 15 mm), to (50 mm, 35 mm), deep 14 mm"), "table", "pocket", PLATE),
    plant("an outline right round, with clamps on its edge", FLAT + op("profile: points (10 mm, 10 mm), (70 mm, 10 mm), (70 mm, 40 mm), (10 mm, 40 mm), deep 12 mm"), "clamps", "profile", PLATE),
    plant("an outline milled before the holes that hold it down", FLAT + op("profile: points (10 mm, 10 mm), (70 mm, 10 mm), (70 mm, 40 mm), (10 mm, 40 mm), deep 12 mm")
          + op("drill: 8 mm, through, places (20 mm, 20 mm), (60 mm, 20 mm)"), "order", "profile", PLATE),
    plant("an outline in the vice, below the jaws", mill("machine vice, up top, towards front, grip 20 mm") + op("profile: points (10 mm, 10 mm), (50 mm, 10 mm), (50 mm, 30 mm), (10 mm, 30 mm), deep 8 mm"), "jaws", "profile", BLOCK),
    plant("an outline longer than the table travels", mill("clamps, up top, towards front, packed 10 mm") + op("drill: 8 mm, through, places (20 mm, 20 mm), (310 mm, 20 mm)"), "travel", "drill: 8", "plate 330 mm x 50 mm x 12 mm"),
    plant("rod, chuck and drill together longer than the bed", lathe("three-jaw chuck, on 16 mm, grip 20 mm, stick-out 230 mm, end A out") + op("drill: 8 mm, deep 20 mm"), "bed-length", "drill: 8", "round 16 mm x 250 mm"),
    plant("a pitch circle drilled in work that lies in a vee block", mill("vee block, on 30 mm, grip 40 mm, stick-out 20 mm, end A out") + op("drill: 4 mm, deep 10 mm, on radius 10 mm, divide 4"), "machine", "drill: 4", "round 30 mm x 60 mm"),
    plant("a cross hole in work that stands upright", mill("rotary table with three-jaw chuck, on 30 mm, grip 20 mm, end A up") + op("cross-drill: 4 mm, from face 10 mm"), "machine", "cross-drill", "round 30 mm x 60 mm"),
    plant("wide work turned over the cross-slide", lathe("three-jaw chuck, on 60 mm, grip 20 mm, end A out") + op("turn: to 100 mm, over 35 mm", "depth: 0.5 mm"), "swing-cross-slide", "turn: to 100", "turned, points (0 mm, 110 mm), (40 mm, 110 mm), (40 mm, 60 mm), (70 mm, 60 mm)"),
]  # fmt: skip

BLOCKED = mill("square collet block, on 16 mm, grip 30 mm, end A out")
CLAMPED = [
    plant("a hexagon from a square collet block", BLOCKED + op("flat: across 14 mm, over 10 mm, divide 6"), "index", "flat: across", "round 16 mm x 60 mm"),
    plant("a hexagon block that is not there", BLOCKED.replace("square", "hexagon") + op("flat: across 14 mm, over 10 mm, divide 6"), "holding", "hold: hexagon", "round 16 mm x 60 mm"),
    plant("clamps on a plain ring where it has no shoulder", lathe("faceplate, on 80 mm, grip 10 mm, end A out") + op("bore: to 44 mm, through"), "clamps", "hold: faceplate", "tube 80 mm x 40 mm x 30 mm"),
    plant("a small bar in reversed jaws", lathe("three-jaw chuck, on 20 mm, grip 15 mm, end A out, outside jaws") + op("turn: to 18 mm, over 10 mm"), "holding-range", "hold: three", "round 20 mm x 60 mm"),
    plant("a flange too large for the jaws, reversed or not", lathe("three-jaw chuck, on 80 mm, grip 10 mm, end A out, outside jaws") + op("turn: to 78 mm, over 10 mm", "depth: 0.5 mm"), "holding-range", "hold: three", "round 80 mm x 30 mm"),
    plant("bored so wide that no clamp stands on the faceplate", lathe("faceplate, up top, towards front") + op("drill: 12 mm, through, places (20 mm, 20 mm)")
          + op("bore: to 30 mm, through, places (20 mm, 20 mm)"), "clamps", "bore: to 30", "plate 40 mm x 40 mm x 20 mm"),
    plant("faced all over with the clamps on it", FLAT + op("face: 1 mm"), "clamps", "face: 1", PLATE),
]  # fmt: skip

LEVEL = mill("rotary table with three-jaw chuck, axis level, on 40 mm, grip 15 mm, end A out")
UPRIGHT = mill("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
CENTRED = JAW + FACE + op("centre: 2 mm")
ATTITUDES = [
    plant("a keyway beside upright work", UPRIGHT + op("keyway: wide 6 mm, deep 3 mm, from 5 mm, over 20 mm"), "tool-shape", "keyway: wide"),
    plant("a slot in the face of work that lies level", LEVEL + op("slot: wide 6 mm, deep 3 mm, in face"), "machine", "slot: wide"),
    plant("a pitch circle in work that lies level", LEVEL + op("drill: 5 mm, deep 10 mm, on circle 24 mm, divide 4"), "machine", "drill: 5"),
    plant("a dividing head that is not there", mill("dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A out") + op("flat: 17 mm, over 20 mm"), "holding", "hold: dividing"),
    plant("a tailstock without a centre hole", LEVEL.replace("end A out", "end A out, support tailstock centre") + op("keyway: wide 6 mm, deep 3 mm, from 8 mm, over 20 mm"), "centre-hole", "hold: rotary"),
    plant("a slot that runs out into the tailstock", CENTRED + LEVEL.replace("end A out", "end A out, support tailstock centre") + op("slot: wide 12 mm, to 1 mm, over 20 mm", "tool: end mill"), "centre", "slot: wide"),
    plant("a short cutter whose chuck comes down on the jaws", LEVEL + op("keyway: wide 3 mm, deep 2 mm, from 20 mm, over 24 mm"), "reach", "keyway: wide"),
    plant("a long thin bar milled without the tailstock", mill("rotary table with three-jaw chuck, axis level, on 10 mm, grip 20 mm, end A out") + op("flat: 4 mm, from 5 mm, over 10 mm"), "slender", "hold: rotary", "round 10 mm x 120 mm"),
    plant("table, chuck, work and drill higher than the spindle", UPRIGHT.replace("grip 15 mm", "grip 20 mm") + op("drill: 6 mm, deep 20 mm, on circle 24 mm, divide 4"), "table-height", "drill: 6", "round 40 mm x 180 mm"),
]  # fmt: skip

WISHES = [
    plant("a feed of two millimetres a turn", JAW + op("turn: to 39 mm, over 20 mm", "feed: 2 mm", "depth: 0.1 mm", "speed: 220 1/min"), "feed", "turn: to 39"),
    plant("faster than the faceplate may turn", lathe("faceplate, up top, towards front") + op("drill: 10 mm, through, places (30 mm, 30 mm)", "speed: 1600 1/min"), "speed", "drill: 10", "plate 60 mm x 60 mm x 20 mm"),
    plant("a cut beyond the motor", JAW + op("turn: to 36 mm, over 20 mm", "depth: 2 mm", "feed: 0.2 mm", "speed: 60 m/min"), "power", "turn: to 36", "round 40 mm x 60 mm", "EN8"),
]  # fmt: skip

TOOTHED = mill("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out")
SILVER = lathe("three-jaw chuck, on 12 mm, grip 20 mm, end A out")
BAR_12 = "round 12 mm x 60 mm"
TO_A_SHOULDER = JAW + op("turn: to 10 mm, over 20 mm", "depth: 0.3 mm")
RING_BORE = JAW + op("drill: 18 mm, deep 30 mm") + op("bore: to 20 mm, deep 24 mm")

ORDINARY = [
    plant("a gear blank a millimetre too small", JAW + op("turn: to 39 mm, over 30 mm") + TOOTHED.replace("on 40", "on 40") + op("gear: module 1 mm, teeth 38, over 15 mm"), "gear-blank", "gear: module 1 mm, teeth 38"),
    plant("a gear of a module that no cutter has", TOOTHED + op("gear: module 1.25 mm, teeth 30, over 15 mm"), "tool-size", "gear: module 1.25"),
    plant("a gear cut on work that stands upright", mill("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up") + op("gear: module 1 mm, teeth 38, over 15 mm"), "tool-shape", "gear: module 1 mm"),
    plant("a rack of a module that no cutter has", VICE + op("rack: module 2 mm, teeth 4"), "tool-size", "rack: module 2", BLOCK),
    plant("silver steel hardened at a dull red", SILVER + op("harden: the end, at 680 degC"), "heat-treatment", "harden: the end", BAR_12, "silver steel"),
    plant("gauge plate quenched in water", SILVER + op("harden: all over, at 800 degC, quench water"), "heat-treatment", "harden: all over", BAR_12, "gauge plate"),
    plant("mild steel is to be hardened by quenching", SILVER + op("harden: all over"), "heat-treatment", "harden: all over", BAR_12, "EN3B"),
    plant("silver steel tempered at a dull red", SILVER + op("temper: the end, at 500 degC"), "heat-treatment", "temper: the end", BAR_12, "silver steel"),
    plant("tool steel given a skin", SILVER + op("case-harden: all over, deep 0.4 mm"), "heat-treatment", "case-harden", BAR_12, "silver steel"),
    plant("two tenths left to lap", RING_BORE + op("lap: to 20.2 mm, inside, over 20 mm"), "allowance", "lap: to 20.2"),
    plant("a broach in a hole that is too small", JAW + op("drill: 9 mm, through") + op("broach: square 12 mm"), "broach-hole", "broach: square"),
    plant("a broach that is not there", JAW + op("drill: 9 mm, through") + op("broach: hexagon 9 mm"), "tool", "broach: hexagon"),
    plant("a ring for a larger bore", RING_BORE + op("groove: at 5 mm, ring 22 mm, inside, wide 1.5 mm"), "ring", "groove: at 5"),
    plant("a die to a shoulder, not turned round", TO_A_SHOULDER + op("thread: M10, over 18 mm, die"), "thread-end", "thread: M10"),
    plant("a die turned round, and yet no room", TO_A_SHOULDER + op("thread: M10, over 19.5 mm, die, both sides"), "thread-end", "thread: M10"),
    plant("a taper thread too short to seal", SILVER.replace("12", "16").replace("grip 20", "grip 25") + op("turn: to 13.45 mm, over 22 mm", "depth: 0.3 mm") + op("groove: at 10 mm, wide 6 mm, to 10.5 mm") + op("thread: 1/4 NPT, over 6 mm"), "thread-end", "thread: 1/4", "round 16 mm x 60 mm"),
    plant("a spring that yields before its coils touch", SILVER + op("turn: to 9 mm, over 30 mm", "depth: 0.3 mm") + op("wind: 1 mm, on 9 mm, coils 7, apart 6 mm"), "spring-stress", "wind: 1 mm", BAR_12),
    plant("a spring wound on a mandrel of another size", SILVER + op("turn: to 9 mm, over 30 mm", "depth: 0.3 mm") + op("wind: 1 mm, on 8 mm, coils 7, apart 2.5 mm"), "mandrel-size", "wind: 1 mm", BAR_12),
    plant("two coarse starts run faster than a hand disengages", JAW + op("turn: to 36 mm, over 22 mm") + op("groove: at 22 mm, wide 20 mm, to 28 mm") + op("thread: M36 x 4, over 22 mm, starts 3"), "speed", "thread: M36"),
    plant("a row of holes that overlap", VICE + op("drill: 8 mm, deep 6 mm, places (10 mm, 10 mm), row 4, apart 6 mm"), "repeat", "drill: 8 mm", BLOCK),
]  # fmt: skip

ALL = [*ORDINARY, *HOLDING, *IN_THE_FOUR_JAW, *CENTRES, *TOOLS, *THREADS, *ROOM, *CLAMPED, *ATTITUDES, *WISHES]


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


@pytest.mark.parametrize("case", ALL, ids=[case.name for case in ALL])
def test_a_planted_fault(case: Planted) -> None:
    text = method(case.blocks, stock=case.stock, material=case.material)
    made = work_out(text).method
    found = sorted({(check.key, check.line) for check in made.failed})
    told = [f"{check.line} {check.key}: {check.words}" for check in made.failed]
    told += [str(problem) for problem in made.problems if not problem.code.startswith("check-")]
    assert found == sorted((key, line_of(text, words)) for key, words in case.wrong), told
    marks = [c for check in made.all_checks for c in check.remedy if "\ue000" <= c <= "\uf8ff"]
    assert marks == [], "a remedy bears the marks of a draft"
    assert not [problem for problem in made.problems if not problem.code.startswith("check-")], told


def test_there_are_a_hundred_and_twenty_planted_faults_at_least() -> None:
    from tests.method.test_planted_faults import CHANGED, SMALL

    assert len(ALL) + len(CHANGED) + len(SMALL) >= 120
    names = [case.name for case in ALL]
    assert len(set(names)) == len(names)
