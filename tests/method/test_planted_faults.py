"""Wrong methods that an honest machinist might write: each fails the check it should, on the right line, and no other.

The methods and their faults are our own; what the checks compare is geometry with geometry.
"""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, demo, method, work_out

BLOCK = "flat 32 mm x 25 mm x 54 mm"
MISPLACED = {"finished-surface", "intended-part"}
"""A cut in the wrong place takes metal that belongs to the part and leaves metal that does not."""
LARGE = ("handwheel-flange", "file-holder", "feed-screw-and-nut")


def lathe(hold: str) -> str:
    return block("setup", "machine: lathe", f"hold: {hold}")


def mill(hold: str) -> str:
    return block("setup", "machine: mill", f"hold: {hold}")


def op(*lines: str) -> str:
    return block("op", *lines)


def home(slug: str) -> str:
    return "osierbank-large" if slug in LARGE else "osierbank-small"


ALL = ("bracket-brazed", "clamp-block", "eccentric-one-piece", "eccentric-two-piece", "feed-screw-and-nut", "file-holder",
       "guide-bush", "handwheel-flange", "swing-shaft-built-up", "swing-shaft-solid", "tee-nuts")  # fmt: skip


@pytest.mark.parametrize("slug", ALL)
def test_the_demo_methods_fail_nothing_and_have_no_problems(slug: str) -> None:
    made = work_out(demo(slug), home(slug), slug).method
    assert [(check.key, check.words) for check in made.failed] == []
    assert [str(problem) for problem in made.problems] == []


CHANGED = [
    (
        "shoulder short",
        "eccentric-one-piece",
        "turn: to journal, over first, called",
        "turn: to journal, over 45.4 mm, called",
        {"intended-part", "way-in"},
    ),
    (
        "step short",
        "eccentric-one-piece",
        "turn: to tail, over 22 mm, corner",
        "turn: to tail, over 21.2 mm, corner",
        {"intended-part"},
    ),
    (
        "throw 5.7 for 6",
        "eccentric-one-piece",
        "axis offset throw at 0 deg\nnote",
        "axis offset 5.7 mm at 0 deg\nnote",
        MISPLACED,
    ),
    (
        "flat forgotten",
        "eccentric-one-piece",
        "flat: 8.5 mm, at 40 deg, -40 deg, from 24",
        "flat: 8.5 mm, at 40 deg, from 24",
        {"intended-part"},
    ),
    (
        "flat high",
        "eccentric-one-piece",
        "flat: 8.5 mm, at 40 deg, -40 deg, from 24",
        "flat: 9.6 mm, at 40 deg, -40 deg, from 24",
        {"intended-part"},
    ),
    ("hole forgotten", "eccentric-one-piece", "at 45 deg, -45 deg, from 24", "at 45 deg, from 24", {"intended-part"}),
    (
        "hole turned 10°",
        "eccentric-one-piece",
        "on radius 17.5 mm, at 0 deg, from 24",
        "on radius 17.5 mm, at 10 deg, from 24",
        MISPLACED,
    ),
    (
        "cross hole 0.8 out",
        "eccentric-one-piece",
        "from face 7 mm, at 90 deg\n```\n\n```op\ndeburr",
        "from face 6.2 mm, at 90 deg\n```\n\n```op\ndeburr",
        MISPLACED,
    ),
    (
        "held across the shoulder",
        "eccentric-one-piece",
        "grip 19 mm, stick-out 52 mm, end B out",
        "grip 19 mm, stick-out 40 mm, end B out",
        {"grip"},
    ),
    (
        "chamfer forgotten",
        "eccentric-one-piece",
        "```op\nchamfer: 1 mm\n```\n\n### Turn the flange",
        "### Turn the flange",
        {"intended-part"},
    ),
    (
        "centre hole forgotten",
        "eccentric-one-piece",
        "```op\ncentre: 2 mm\n```\n",
        "",
        {"centre-hole", "intended-part"},
    ),
    (
        "pin hole beside the pin",
        "eccentric-two-piece",
        "pin: 4 mm, from face 63 mm",
        "pin: 4 mm, from face 62 mm",
        {"in-line", "finished-surface"},
    ),
    ("grip too short", "guide-bush", "grip 8 mm, end A out", "grip 3 mm, end A out", {"grip-length"}),
    ("cut into the jaws", "guide-bush", "grip 8 mm, end A out", "grip 12 mm, end A out", {"jaws"}),
    (
        "gripped on a size that is not there",
        "guide-bush",
        "hold: three-jaw chuck, on 28 mm",
        "hold: three-jaw chuck, on 27 mm",
        {"grip"},
    ),
    (
        "too little left for the reamer",
        "guide-bush",
        "bore: to 15.8 mm, through",
        "bore: to 15.98 mm, through",
        {"reaming-allowance"},
    ),
    (
        "too much left for the reamer",
        "guide-bush",
        "bore: to 15.8 mm, through",
        "bore: to 15.3 mm, through",
        {"reaming-allowance"},
    ),
    ("faced too short", "guide-bush", "face: to length 26 mm", "face: to length 25.7 mm", {"finished-surface"}),
    ("faced too long", "guide-bush", "face: to length 26 mm", "face: to length 26.4 mm", {"intended-part"}),
    ("five holes for six", "handwheel-flange", "divide 6\ncheck", "divide 5\ncheck", MISPLACED),
    (
        "vee out of place",
        "clamp-block",
        "middle 15 mm, along width\n```\n\n```op",
        "middle 14 mm, along width\n```\n\n```op",
        MISPLACED,
    ),
    ("gripped over the step", "clamp-block", "towards front, grip 10 mm", "towards front, grip 14 mm", {"jaws"}),
    (
        "step shallow",
        "tee-nuts",
        "op\nstep: side back, wide 4 mm, deep 6 mm",
        "op\nstep: side back, wide 4 mm, deep 5 mm",
        {"intended-part"},
    ),
    ("taper short", "file-holder", "over shank, called", "over 38 mm, called", {"intended-part"}),
]


FAILS_AT = {
    "shoulder short": "turn: to disc, from first",
    "pin hole beside the pin": "pin: 4 mm, from face 62 mm",
    "throw 5.7 for 6": "turn: to disc, from first",
    "cut into the jaws": "turn: to outside",
    "too little left for the reamer": "ream: bore",
    "too much left for the reamer": "ream: bore",
    "faced too short": "face: to length 25.7 mm",
    "gripped over the step": "step: side right, wide 16 mm, deep 10 mm\n```\n\n```op\ndrill",
    "centre hole forgotten": "support: tailstock centre",
}
"""Where the fault shows, when it is not where it was made."""


@pytest.mark.parametrize(("name", "slug", "old", "new", "expected"), CHANGED, ids=[case[0] for case in CHANGED])
def test_a_demo_method_with_one_mistake(name: str, slug: str, old: str, new: str, expected: set[str]) -> None:
    text = demo(slug)
    assert text.count(old) == 1, name
    made = work_out(text.replace(old, new), home(slug), slug).method
    assert {check.key for check in made.failed} == expected
    changed = text.replace(old, new)
    where = FAILS_AT.get(name, new)
    line = changed[: changed.index(where)].count("\n") + 1 + where.startswith("op\n")
    assert any(check.line == line for check in made.failed) or expected == {"intended-part"}, (made.failed, line)
    assert len(made.problems) == len(made.failed)


SMALL = [
    ("bar does not pass the spindle", lathe("three-jaw chuck, on 30 mm, grip 20 mm, stick-out 30 mm, end A out") + op("face: 0.5 mm"), "round 30 mm x 200 mm", "spindle-bore", 10),
    ("no such holder here", lathe("magnetic chuck, on 40 mm, grip 15 mm, end A out") + op("face: 0.5 mm"), "", "holding", 10),
    ("collet off its axis", lathe("collet chuck, on 16 mm, grip 15 mm, end A out, axis offset 2 mm") + op("face: 0.5 mm"), "round 16 mm x 40 mm", "throw", 10),
    ("collet too small", lathe("collet chuck, on 20 mm, grip 15 mm, end A out") + op("face: 0.5 mm"), "round 20 mm x 40 mm", "holding-range", 10),
    ("no such drill", THREE_JAW + op("drill: 13.7 mm, deep 20 mm"), "", "tool-size", 14),
    ("hole too small for the bar", THREE_JAW + op("drill: 5 mm, deep 20 mm") + op("bore: to 6 mm, deep 20 mm"), "", "reach", 18),
    ("drill on the centre", THREE_JAW + op("centre: 2.5 mm") + op("support: tailstock centre") + op("drill: 5 mm, deep 20 mm"), "", "centre", 22),
    ("face on the centre", THREE_JAW + op("centre: 2.5 mm") + op("support: tailstock centre") + op("face: 0.5 mm"), "", "centre", 22),
    ("centre without a hole", THREE_JAW + op("support: tailstock centre"), "", "centre-hole", 14),
    ("cut too heavy", THREE_JAW + op("turn: to 30 mm, over 20 mm", "depth: 5 mm", "feed: 0.4 mm", "speed: 60 m/min"), "", "power", 14),
    ("tapping hole too large", THREE_JAW + op("drill: 5.9 mm, deep 20 mm") + op("tap: M6, deep 12 mm"), "", "tapping-drill", 18),
    ("tapping hole too small", THREE_JAW + op("drill: 4.5 mm, deep 20 mm") + op("tap: M6, deep 12 mm"), "", "tapping-drill", 18),
    ("no hole to tap", THREE_JAW + op("tap: M6, deep 12 mm"), "", "tapping-drill", 14),
    ("no hole to ream", THREE_JAW + op("ream: 8 mm, deep 12 mm"), "", "reaming-allowance", 14),
    ("drilled where a hole is", THREE_JAW + op("drill: 10 mm, deep 20 mm") + op("drill: 8 mm, deep 20 mm"), "", "removes-metal", 18),
    ("tool does not get behind a shoulder", THREE_JAW + op("turn: to 30 mm, from 20 mm, over 10 mm"), "", "way-in", 14),
    ("groove in the jaws", THREE_JAW + op("groove: from 44 mm, wide 3 mm, to 30 mm"), "", "jaws", 14),
    ("work too wide for the vice", mill("machine vice, up top, towards front, grip 10 mm") + op("face: 0.5 mm"), "plate 100 mm x 120 mm x 20 mm", "holding-range", 10),
    ("jaw meets a step", mill("machine vice, up top, towards front, grip 15 mm") + op("step: side front, wide 5 mm, deep 9 mm")
     + mill("machine vice, up bottom, towards front, grip 15 mm") + op("face: 0.5 mm"), BLOCK, "grip", 19),
    ("mandrel without a bore", mill("rotary table with mandrel, on 16 mm, inside, grip 20 mm, end A up") + op("flat: 15 mm, over 10 mm"), "", "grip", 10),
    ("thin bar without support", lathe("three-jaw chuck, on 8 mm, grip 15 mm, end A out") + op("turn: to 6 mm, over 90 mm"), "round 8 mm x 110 mm", "slender", 14),
    ("chuck key side: held on nothing", lathe("three-jaw chuck, on 40 mm, grip 70 mm, end A out") + op("face: 0.5 mm"), "", "grip-length", 10),
]  # fmt: skip


@pytest.mark.parametrize(("name", "blocks", "stock", "key", "line"), SMALL, ids=[case[0] for case in SMALL])
def test_a_small_method_with_one_mistake(name: str, blocks: str, stock: str, key: str, line: int) -> None:
    made = work_out(method(blocks, stock=stock) if stock else method(blocks)).method
    assert [(check.key, check.line) for check in made.failed] == [(key, line)], [c.words for c in made.failed]


def test_there_are_forty_planted_faults_at_least() -> None:
    assert len(CHANGED) + len(SMALL) >= 40
