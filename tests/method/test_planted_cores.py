"""Wrong ways of cutting a core away: each is caught by the check it should, on the right line, and no other check speaks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

SHAFT = (Path(__file__).parents[1] / "methods" / "sieve-shaft.md").read_text(encoding="utf-8")
LINE = "saw out: from 22 mm, wide 20 mm, keep pin"
HELD = "machine: bench\nhold: bench vice, on 12 mm, grip 11 mm, end A out"
IN_VEE = "machine: mill\nhold: vee block, on 12 mm, grip 11 mm, end A out"
IN_CHUCK = "machine: bench\nhold: bench vice, on 12 mm, grip 11 mm, end B out"
BENCH = block("setup", "machine: bench", "hold: bench vice, on 40 mm, grip 15 mm, end A out")


@dataclass(frozen=True)
class Planted:
    """What is changed in a sound method (the words, and what stands there instead), and what must be found."""

    name: str
    text: str
    found: Sequence[tuple[str, str]]
    """(key, words of the line that it points to)."""
    says: str
    """Words of the first of them: the place, the size."""


def changed(name: str, *pairs: tuple[str, str], found: Sequence[tuple[str, str]], says: str) -> Planted:
    """The sieve shaft with some of its words changed."""
    text = SHAFT
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return Planted(name, text, found, says)


def bar(
    name: str, line: str, *found: tuple[str, str], says: str, setup: str = BENCH, more: tuple[str, ...] = ()
) -> Planted:
    """A plain bar of 40 by 60."""
    return Planted(name, method(setup + block("op", line, *more)), found, says)


def _no_part(text: str) -> str:
    return text[: text.index("```part")] + text[text.index("```setup") :]


def _sawn_first(text: str) -> str:
    """The core goes before the pin is in."""
    begin = text.index("```setup\npiece: pin")
    last = text.rindex("```setup")
    saw = text[last:].replace("hold: bench vice", "hold: bench vice").replace(", keep pin", "")
    return text[:begin] + saw.replace("machine: bench", "piece: work\nmachine: bench") + "\n"


FAULTS = [
    changed("the pin is not said to stay", (", keep pin", ""), found=[("carried-ends", "saw out"), ("finished-surface", "saw out")],
            says="nothing is left between"),
    Planted("the core is sawn out before the pin is in", _sawn_first(_no_part(SHAFT)), [("carried-ends", "saw out")],
            "the work is 2 pieces"),
    changed("sawn from the side where the pin stands", ("keep pin", "keep pin, at 0 deg"), found=[("kept", "saw out")],
            says="the blade meets the pin 17 above the axis"),
    changed("sawn from beside the pin", ("keep pin", "keep pin, at 90 deg"), found=[("kept", "saw out")],
            says="it would go through 10 of what is to stay"),
    changed("the gap goes into the web", ("from 22 mm, wide 20 mm", "from 20 mm, wide 22 mm"),
            found=[("finished-surface", "saw out")], says="belong to the finished part"),
    changed("the gap is too narrow", ("wide 20 mm", "wide 17 mm"), found=[("intended-part", "saw out")], says="left on"),
    changed("the pin reaches into one web only", ("to length 40 mm", "to length 28 mm"),
            found=[("carried-ends", "saw out"), ("finished-surface", "retain: pin")], says="the work is 2 pieces"),
    Planted("what is kept does not stand there", _no_part(SHAFT).replace("from 22 mm, wide 20 mm", "from 3 mm, wide 5 mm, bottom 2 mm"),
            [("kept", "saw out")], "nothing of the pin stands between 3 and 8"),
    changed("milled with a cutter too short for the webs", (HELD, IN_VEE), ("keep pin", "cutter 6 mm, keep pin"),
            found=[("reach", "saw out")], says="cut 27 deep"),
    Planted("a cutter wider than the gap", _no_part(SHAFT).replace(HELD, IN_VEE).replace(LINE, "saw out: from 22 mm, wide 6 mm, cutter 10 mm, keep pin"),
            [("tool-size", "saw out"), ("reach", "saw out")], "the gap 6 wide"),
    bar("sawn right through a plain bar", "saw out: from 20 mm, wide 10 mm", ("carried-ends", "saw out"), says="nothing is left between 20 and 30 from the face"),
    bar("narrower than the saw", "saw out: from 20 mm, wide 0.6 mm, bottom 5 mm", ("saw-width", "saw out"), says="the saw cuts 1 wide, the gap is 0.6"),
    bar("a gap in the jaws of the vice", "saw out: from 44 mm, wide 10 mm, bottom 5 mm", ("jaws", "saw out"), says="lies in the grip, 45 to 60"),
    bar("milled along the axis of work that stands", "saw out: from 20 mm, wide 10 mm, bottom 8 mm", ("machine", "saw out"),
        says="does not get between the webs", setup=block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")),
    bar("milled in the lathe", "saw out: from 20 mm, wide 10 mm, bottom 8 mm", ("machine", "saw out"), says="nothing drives the end mill",
        setup=block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out"), more=("tool: 10 mm end mill",)),
]  # fmt: skip


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


@pytest.mark.parametrize("case", FAULTS, ids=[case.name for case in FAULTS])
def test_a_planted_fault(case: Planted) -> None:
    made = work_out(case.text, slug="sieve-shaft").method
    failed = {(check.key, check.line): check for check in made.failed}
    told = [f"{check.line} {check.key}: {check.words}" for check in made.failed]
    assert sorted(failed) == sorted((key, line_of(case.text, words)) for key, words in case.found), told
    first = failed[case.found[0][0], line_of(case.text, case.found[0][1])]
    assert case.says in first.words.metric, told
    assert all(check.advice[1] for check in failed.values())
    assert not [p for p in made.problems if not p.code.startswith("check-")]
