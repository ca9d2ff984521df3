"""Run-out that builds up from holding to holding, against sums worked out by hand.

The run-outs of the holdings are those of the small workshop: three-jaw 0.08, four-jaw 0.02, collet 0.02, between
centres 0.01 mm (total indicator reading). Worst case is their sum, likely the root of the sum of squares.
"""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.sheet.model import RunOutRow

RAW = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
FIRST = RAW + block("op", 'turn: to 16 mm, over 20 mm, called "one"')


def row(text: str, first: str, second: str) -> RunOutRow:
    made = work_out(text).method
    assert not [p for p in made.problems if "check" not in p.code], [str(p) for p in made.problems]
    return next(r for r in made.run_out if {r.first, r.second} == {first, second})


def holding(hold: str, *ops: str) -> str:
    return block("setup", "machine: lathe", f"hold: {hold}") + "".join(block("op", op) for op in ops)


def test_cut_in_one_holding_they_run_true() -> None:
    found = row(method(FIRST + block("op", 'turn: to 12 mm, over 10 mm, called "two"')), "one", "two")
    assert (found.worst.value, found.likely.value, found.why.metric) == (0.0, 0.0, "cut in one holding")


def test_held_on_the_first_the_second_has_the_run_out_of_that_holding() -> None:
    text = method(
        FIRST + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
    )
    found = row(text, "one", "two")
    assert found.worst.value == pytest.approx(0.02)
    assert found.why.metric == "collet chuck 0.02"


def test_two_holdings_on_the_raw_bar_both_count() -> None:
    """Turned end for end on the bar's own skin: each holding is out by its own amount."""
    text = method(
        FIRST + holding("four-jaw chuck, on 40 mm, grip 15 mm, end B out", 'turn: to 16 mm, over 10 mm, called "two"')
    )
    found = row(text, "one", "two")
    assert found.worst.value == pytest.approx(0.10)
    assert found.likely.value == pytest.approx(math.hypot(0.08, 0.02))


def test_two_features_held_on_one_that_lies_between_them() -> None:
    """Both hang on the first feature by their own holdings, so their run-outs add up; the raw bar does not come in."""
    text = method(
        FIRST
        + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
        + holding("four-jaw chuck, on 16 mm, grip 18 mm, end B out, run-out 0.03 mm", 'turn: to 36 mm, from 12 mm, over 6 mm, called "three"')
    )  # fmt: skip
    found = row(text, "two", "three")
    assert found.worst.value == pytest.approx(0.05)
    assert found.likely.value == pytest.approx(math.hypot(0.02, 0.03))
    assert row(text, "one", "three").worst.value == pytest.approx(0.03)


def test_a_chain_of_holdings_each_on_the_one_before() -> None:
    text = method(
        FIRST
        + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 20 mm, called "two"')
        + holding("three-jaw chuck, on 30 mm, grip 15 mm, end A out", 'turn: to 12 mm, over 8 mm, called "three"')
    )  # fmt: skip
    assert row(text, "two", "three").worst.value == pytest.approx(0.08)
    found = row(text, "one", "three")
    assert found.worst.value == pytest.approx(0.10)
    assert found.why.metric == "collet chuck 0.02 + three-jaw chuck 0.08"


def test_of_two_journals_of_one_size_the_gripped_one_counts() -> None:
    """The same diameter was turned at both ends; the grip says on which of them the work hangs."""
    base = FIRST + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 16 mm, over 20 mm, called "two"')
    on_two = base + holding(
        "four-jaw chuck, on 16 mm, grip 15 mm, end A out", 'turn: to 36 mm, from 25 mm, over 5 mm, called "collar"'
    )
    on_one = base + holding(
        "four-jaw chuck, on 16 mm, grip 15 mm, end B out", 'turn: to 36 mm, from 25 mm, over 5 mm, called "collar"'
    )
    assert row(method(on_two), "two", "collar").worst.value == pytest.approx(0.02)
    assert row(method(on_two), "one", "collar").worst.value == pytest.approx(0.04)
    assert row(method(on_one), "one", "collar").worst.value == pytest.approx(0.02)
    assert row(method(on_one), "two", "collar").worst.value == pytest.approx(0.04)


def test_an_offset_holding_counts_as_any_other() -> None:
    """What is said to be off the axis is no run-out: only how well the offset was set."""
    text = method(
        FIRST
        + holding(
            "four-jaw chuck, on 16 mm, grip 18 mm, end B out, axis offset 3 mm",
            'turn: to 30 mm, over 10 mm, called "thrown"',
        )
    )
    assert row(text, "one", "thrown").worst.value == pytest.approx(0.02)


def test_between_centres_the_work_hangs_on_its_centre_holes() -> None:
    centred = RAW + block("op", "centre: 2 mm") + block("op", 'turn: to 38 mm, over 30 mm, called "one"')
    other = holding("three-jaw chuck, on 38 mm, grip 20 mm, end B out", "centre: 2 mm")
    text = method(
        centred
        + other
        + holding("between centres, on 38 mm, grip 10 mm, end B out", 'turn: to 30 mm, over 20 mm, called "two"')
    )
    found = row(text, "one", "two")
    assert found.why.metric == "three-jaw chuck 0.08 + between centres 0.01"


def test_a_piece_pressed_on_follows_its_seat() -> None:
    disc = holding(
        "four-jaw chuck, on 40 mm, grip 9 mm, end A out",
        "drill: 15 mm, through",
        'bore: to 16 mm, through, called "bore"',
    )
    rim = holding(
        "three-jaw chuck, on 16 mm, inside, grip 10 mm, end A out, run-out 0.05 mm",
        'turn: to 36 mm, over 10 mm, called "rim"',
    )
    rod = block(
        "setup",
        "piece: rod",
        "stock: round 20 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out",
    )
    seat = block("op", 'turn: to 16 mm, over 30 mm, called "seat"')
    press = block("setup", "machine: press", "hold: press blocks, end A up") + block("op", "press on: disc, at 15 mm")
    text = method(disc + rim + rod + seat + press, stock="round 40 mm x 10 mm", front="piece: disc\n")
    assert row(text, "bore", "seat").worst.value == 0.0
    found = row(text, "rim", "seat")
    assert found.worst.value == pytest.approx(0.05)
    assert found.why.metric == "three-jaw chuck 0.05 + pressed on its seat"


def test_where_a_run_out_is_not_known_there_is_no_row_and_the_question_says_why() -> None:
    on_jig = holding("vee block, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
    made = work_out(method(FIRST + on_jig + block("calc", 'x = run_out("one", "two")'))).method
    assert not made.run_out
    assert any("the run-out between `one` and `two` is not known" in str(p) for p in made.problems)


def test_run_out_can_be_asked_in_a_formula() -> None:
    text = method(
        FIRST
        + holding("four-jaw chuck, on 40 mm, grip 15 mm, end B out", 'turn: to 16 mm, over 10 mm, called "two"')
        + block("calc", 'x = run_out("one", "two")', 'likely = run_out("one", "two").likely')
    )  # fmt: skip
    made = work_out(text).method
    fields = dict(made.calculations[0].fields)
    assert fields["worst"].value == pytest.approx(0.10)  # type: ignore[union-attr]
    assert made.calculations[1].value.value == pytest.approx(math.hypot(0.08, 0.02))  # type: ignore[union-attr]
    wrong = work_out(text.replace('run_out("one", "two").likely', 'run_out("one", "too").likely')).method
    assert "no feature is called `too` yet" in str(wrong.problems[0])
    assert "did you mean `two`?" in str(wrong.problems[0])
