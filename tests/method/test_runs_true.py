"""A run-out that the part asks for, against the run-out of the holdings in which its surfaces are cut.

The readings are those of the small workshop (three-jaw 0.08, four-jaw 0.02, collet 0.02, between centres 0.01 mm); the
sums are worked out by hand: worst case is their sum, likely the root of the sum of squares.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.sheet.model import Check

RAW = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 25 mm, end A out")
FIRST = RAW + block("op", "turn: to 16 mm, over 20 mm")
BODY = ("- round: 40 mm, over 60 mm", "- round: 16 mm, over 20 mm, only")
ENDS = (*BODY, "- round: 30 mm, from 50 mm, over 10 mm, only")


def holding(hold: str, *ops: str) -> str:
    return block("setup", "machine: lathe", f"hold: {hold}") + "".join(block("op", op) for op in ops)


def asked(text: str, ask: str, *drawn: str) -> Check:
    """The one check of what the part asks."""
    made = work_out(method(block("part", *(drawn or ENDS), f"- runs true: {ask}") + text)).method
    assert not [p for p in made.problems if "check" not in p.code], [str(p) for p in made.problems]
    (found,) = [one for one in made.checks if one.key == "runs-true"]
    return found


COLLET = holding("collet chuck, on 16 mm, grip 18 mm, end B out", "turn: to 30 mm, over 10 mm")
JAWS = holding("three-jaw chuck, on 16 mm, grip 18 mm, end B out", "turn: to 30 mm, over 10 mm")
DIALLED = holding("four-jaw chuck, on 40 mm, grip 18 mm, end B out", "turn: to 30 mm, over 10 mm")
BLOCK = holding("vee block, on 16 mm, grip 18 mm, end B out", "turn: to 30 mm, over 10 mm")
DRILLED = block("op", "drill: 10 mm, through")
HOLES = (*BODY, "- drill: 10 mm, through")

ENDS_CUT = [
    (COLLET, "0.03 mm, on 30 mm, to 16 mm", "passed", "collet chuck 0.02 mm"),
    (COLLET, "0.03 mm, on 16 mm, to 30 mm", "passed", "collet chuck 0.02 mm"),
    (COLLET, "0.01 mm, on 30 mm, to 16 mm", "failed", "hold it otherwise in set-up 2: between centres, 0.01 mm"),
    (JAWS, "0.03 mm, on 30 mm, to 16 mm", "failed", "hold it otherwise in set-up 2: ER25 collet chuck, 0.02 mm"),
    (JAWS, "0.03 mm, on 30 mm, to 16 mm", "failed", "cut both in one holding"),
    (JAWS, "0.09 mm, on 30 mm, to 16 mm", "passed", "three-jaw chuck 0.08 mm"),
    (DIALLED, "0.11 mm, on 30 mm, to 16 mm", "passed", "at worst 0.1 mm, likely 0.082 mm"),
    (DIALLED, "0.09 mm, on 30 mm, to 16 mm", "not known", "put a dial gauge to it"),
    (DIALLED, "0.05 mm, on 30 mm, to 16 mm", "failed", "write `run-out 0.03 mm`"),
    (DIALLED, "0.05 mm, on 30 mm, to 40 mm", "passed", "four-jaw chuck 0.02 mm"),
    (BLOCK, "0.05 mm, on 30 mm, to 16 mm", "not known", "write `run-out` in that set-up"),
    (COLLET, "0.05 mm, on 31 mm, to 16 mm", "failed", "no surface of Ø31 is there"),
    (COLLET, "0.05 mm, on 30 mm, to 17 mm", "failed", "no surface of Ø17 lies on one axis with it"),
]  # fmt: skip


@pytest.mark.parametrize("text", dict.fromkeys(text for text, *_ in ENDS_CUT))
def test_what_is_asked_of_two_ends_is_judged_by_their_holdings(text: str) -> None:
    """Every question of one method at once: they ask of the same metal."""
    asks = [(ask, state, says) for one, ask, state, says in ENDS_CUT if one == text]
    part = block("part", *ENDS, *(f"- runs true: {ask}" for ask, *_ in asks))
    made = work_out(method(part + FIRST + text)).method
    found = [one for one in made.checks if one.key == "runs-true"]
    assert len(found) == len(asks)
    for check, (ask, state, says) in zip(found, asks, strict=True):
        told = f"{check.words.metric} {check.remedy}".replace("\u202f", " ").replace("\u00a0", " ")
        assert (check.state, says in told) == (state, True), (ask, told)
        assert all(check.advice) or state == "passed"


def test_cut_in_one_holding_it_runs_true() -> None:
    both = FIRST + block("op", "turn: to 36 mm, from 20 mm, over 5 mm")
    drawn = (*BODY, "- round: 36 mm, from 20 mm, over 5 mm, only")
    found = asked(both, "0.005 mm, on 36 mm, to 16 mm", *drawn)
    assert (found.state, "cut in one holding" in found.words.metric) == ("passed", True)


def test_after_a_drill_nothing_is_known() -> None:
    found = asked(FIRST + DRILLED, "0.05 mm, on 10 mm, to 16 mm", *HOLES)
    assert (found.state, "not led by the spindle" in found.words.metric) == ("not known", True)


def test_the_remedy_followed_holds() -> None:
    """What the failed check says to write is written into the set-up."""
    wrong = asked(FIRST + JAWS, "0.03 mm, on 30 mm, to 16 mm")
    said = next(part for part in wrong.remedy.split("`") if part.startswith("run-out"))
    assert (
        asked(FIRST + JAWS.replace("end B out", f"end B out, {said}"), "0.03 mm, on 30 mm, to 16 mm").state == "passed"
    )


def test_of_two_of_one_size_the_place_says_which() -> None:
    """Two journals of 16 mm: without a place there is no saying which runs true to which."""
    far = holding("collet chuck, on 16 mm, grip 18 mm, end B out", "turn: to 16 mm, over 20 mm")
    drawn = (*BODY, "- end: B", "- round: 16 mm, from 40 mm, over 20 mm, only")
    found = asked(FIRST + far, "0.03 mm, on 16 mm, to 16 mm, from 0 mm, over 20 mm", *drawn)
    assert (found.state, "collet chuck 0.02" in found.words.metric) == ("passed", True)
    part = block("part", *drawn, "- runs true: 0.03 mm, on 16 mm, to 16 mm")
    problems = work_out(method(part + FIRST + far)).method.problems
    assert any("which of them runs true" in one.what and "from" in one.remedy for one in problems)
    problems = work_out(method(part.replace("0.03", "0") + FIRST + far)).method.problems
    assert any("more than nothing" in one.what for one in problems)
