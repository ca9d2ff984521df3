"""What a failed check says to do is written down as it says, and then the check holds: the second try succeeds.

The methods are our own: what somebody writes who has nothing but the pages of the handbook.
"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.sheet.model import Check


@dataclass(frozen=True)
class Try:
    """A first try, the check that it fails, and how the words of its remedy are written into it."""

    name: str
    text: str
    key: str
    old: str
    new: str
    """What stands for `old` then: {0} and {1} are what the remedy says between backticks, [0] and [1] its lengths."""


def op(line: str) -> str:
    return block("op", line)


JAWS = block("setup", "machine: lathe", "hold: three-jaw chuck, on 33 mm, grip 15 mm, end A out")
REAMED = op("drill: 9.8 mm, deep 25 mm") + op("ream: 10 mm, deep 20 mm")
KEYWAY = op("keyway: wide 3 mm, deep 1.4 mm, in bore, over 14 mm")
SHORT_HOLE = op("drill: 10 mm, deep 14 mm")
BROACH = "broach: keyway 3 mm, deep 1.4 mm"
HELD = "hold: three-jaw chuck, on 12 mm, grip 20 mm, end A out"
THIN = op("turn: to 6 mm, over 20 mm")
SPINDLE = method(block("setup", "machine: lathe", HELD) + THIN, stock="round 12 mm x 80 mm")
END = op("turn: to 8 mm, over 30 mm")
ROD = method(block("setup", "machine: lathe", HELD) + END, stock="round 12 mm x 100 mm")
BUSH = block("setup", "machine: lathe", "hold: four-jaw chuck, grip 12 mm, up right, towards front")
DRILLED, BORED = "drill: 9 mm, through, places (10 mm, 10 mm)", "bore: to 10 mm, through, places (10 mm, 10 mm)"
LONG_BUSH = method(BUSH + op(DRILLED) + op(BORED), stock="flat 20 mm x 20 mm x 40 mm")
WIDE = op("drill: 9 mm, through") + op("bore: to 16 mm, deep 40 mm")

RAW = block("setup", "machine: lathe", "hold: three-jaw chuck, on 74 mm, grip 8 mm, end A out, outside jaws") + op(
    "face: 2 mm"
)
TRUE = op("bore: to 12 mm, through")
ON_MANDREL = block("setup", "machine: lathe", "hold: mandrel between centres, on 12 mm, inside, end A out")
WHEEL = "casting, points (0 mm, 70 mm), (16 mm, 70 mm), bore {} mm, allowance 2 mm"
FACED = op("turn: to 70 mm, over 16 mm") + op("face: 0.2 mm")
BAR = block("setup", "machine: lathe", "hold: three-jaw chuck, on 30 mm, grip 20 mm, end A out")
NECK = "turn: to 20 mm, from 20 mm, over 15 mm"
LEFT = op("thread: M10 LH, over 15 mm")

TRIES = (
    Try("a keyway that ends in metal", method(JAWS + REAMED + KEYWAY, stock="round 33 mm x 40 mm"), "stroke-end", KEYWAY, op("{0}") + KEYWAY),
    Try("a keyway that ends where its hole does", method(JAWS + SHORT_HOLE + KEYWAY, stock="round 33 mm x 40 mm"), "stroke-end",
        SHORT_HOLE + KEYWAY, op("drill: 10 mm, deep [0]") + op("{0}") + KEYWAY),
    Try("no broach of that width", method(JAWS + op("drill: 10 mm, through") + op(BROACH), stock="round 33 mm x 40 mm"), "tool", BROACH, "{0}"),
    Try("a thin end held shorter", SPINDLE, "stiffness", HELD, HELD + ", {0}"),
    Try("an end with the centre up", ROD, "stiffness", END, op("centre: 2 mm") + op("{1}") + END),
    Try("a thin end in lighter passes", SPINDLE, "stiffness", THIN, block("op", "turn: to 6 mm, over 20 mm", "{1}")),
    Try("a bar too short for its hole: reamed", LONG_BUSH, "reach", op(DRILLED) + op(BORED),
        op("drill: [0], through, places (10 mm, 10 mm)") + op("{0}, through, places (10 mm, 10 mm)")),
    Try("a bar too short for its hole: from both ends", LONG_BUSH, "reach", "bore: to 10 mm, through", "bore: to 10 mm, {1}"),
    Try("a stouter bar, for a larger hole", method(JAWS + WIDE, stock="round 33 mm x 60 mm"), "reach", "drill: 9 mm", "drill: [0]"),
    Try("a bar too stout for a cored hole", method(RAW + TRUE, stock=WHEEL.format(10)), "reach", TRUE, op("drill: [0], through") + TRUE),
    Try("a neck between two collars", method(BAR + op(NECK), stock="round 30 mm x 80 mm"), "way-in", NECK, "{0}"),
    Try("a neck, left-handed", method(BAR + op(NECK + ", left hand"), stock="round 30 mm x 80 mm"), "reach", NECK + ", left hand", "{0}"),
    Try("a left-hand thread with no place to begin", method(BAR + op("turn: to 10 mm, over 20 mm") + LEFT, stock="round 30 mm x 80 mm"), "way-in", LEFT, op("{0}") + LEFT),
    Try("a face on a mandrel", method(RAW + TRUE + ON_MANDREL + FACED, stock=WHEEL.format(12)), "jaws", "face: 0.2 mm", "{0}"),
)  # fmt: skip


@pytest.mark.parametrize("case", TRIES, ids=lambda case: case.name)
def test_the_second_try_succeeds(case: Try) -> None:
    assert case.old in case.text
    (failed,) = failures(case.text)
    assert failed.key == case.key
    new = case.new
    for number, said in enumerate(re.findall(r"`([^`]+)`", failed.remedy)):
        new = new.replace(f"{{{number}}}", said)
    for number, length in enumerate(re.findall(r"[\d.]+ mm", failed.remedy)):
        new = new.replace(f"[{number}]", length)
    assert not re.search(r"[{\[]\d", new), f"the remedy says no such thing: {failed.remedy}"
    assert failures(case.text.replace(case.old, new)) == (), failed.remedy


@functools.cache
def failures(text: str) -> tuple[Check, ...]:
    """The checks that fail in a method; it is read without a problem."""
    made = work_out(text).method
    said = [str(problem) for problem in made.problems if not problem.code.startswith("check-")]
    assert not said, said
    found = [check for done in (*made.setups, *made.operations) for check in done.checks if check.state == "failed"]
    return tuple(found)
