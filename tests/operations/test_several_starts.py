"""Threads with several starts, by their lead in the name or by `starts`: the same thread, and the part is asked for it.

Designations: `Tr 40 x 14 (P7)` after ISO 2902 and `M16 x Ph3 P1.5` after ISO 965-1, both from memory.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Method
from methodsheets.trade.threads.any_thread import same_thread, thread_title
from methodsheets.trade.threads.thread_names import thread_size, thread_starts

CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out")


@pytest.mark.parametrize(
    ("said", "title", "pitch", "starts"),
    [
        ("Tr40x14(P7)", "Tr40x14(P7)", 7.0, 2),
        ("tr 40 × 14 (p7) LH", "Tr40x14(P7)", 7.0, 2),
        ("M16xPh3P1.5", "M16xPh3P1.5", 1.5, 2),
        ("M16 x Ph4.5 P1.5-6g", "M16xPh4.5P1.5", 1.5, 3),
        ("Tr20x4(P4)", "Tr20x4", 4.0, 1),
        ("M16 x 1.5", "M16x1.5", 1.5, 1),
    ],
)
def test_the_lead_in_a_name(said: str, title: str, pitch: float, starts: int) -> None:
    assert (thread_title(said), thread_size(said).pitch, thread_starts(said)) == (title, pitch, starts)
    assert same_thread(thread_title(said), said) == ("LH" not in said)


def test_a_lead_that_is_no_whole_number_of_pitches() -> None:
    assert thread_title("Tr20x7(P4)") == ""
    with pytest.raises(ValueError, match="whole number of pitches"):
        thread_starts("Tr20x7(P4)")


def made(line: str, asked: str = "") -> Method:
    part = block("part", f"- round: 20 mm, over 80 mm\n- thread: {asked}") if asked else ""
    return work_out(method(part + CHUCK + block("op", f"thread: {line}"), stock="round 20 mm x 80 mm")).method


def test_both_ways_of_saying_it_cut_one_thread() -> None:
    for line in ("M20xPh3P1.5, over 30 mm", "M20x1.5, over 30 mm, starts 2"):
        cut = made(line, "M20 x 1.5, over 30 mm, starts 2")
        assert [str(problem) for problem in cut.problems] == []
        lead = cut.operations[0].fact("lead")
        assert lead is not None
        assert isinstance(lead.value, Measure)
        assert lead.value.value == 3.0
    one = made("M20x1.5, over 30 mm", "M20 x 1.5, over 30 mm, starts 2")
    assert {problem.code for problem in one.problems} == {"check-intended-part"}


def test_two_words_of_different_starts_are_refused() -> None:
    assert made("Tr20x8(P4), over 30 mm, starts 3").problems[0].code == "contradiction"
