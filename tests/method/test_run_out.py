"""Run-out that builds up from holding to holding, against sums worked out by hand.

The run-outs of the holdings are those of the small workshop: three-jaw 0.08, four-jaw 0.02, collet 0.02, between
centres 0.01 mm (total indicator reading). Worst case is their sum, likely the root of the sum of squares.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.method.bench import ROOT, block, method, work_out

from methodsheets.method.evaluate import evaluate_method
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems
from methodsheets.sheet.model import RunOutRow
from methodsheets.workshop.reader import read_workshop

RAW = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
FIRST = RAW + block("op", 'turn: to 16 mm, over 20 mm, called "one"')


def row(text: str, first: str, second: str) -> RunOutRow:
    made = work_out(text).method
    assert not [p for p in made.problems if "check" not in p.code], [str(p) for p in made.problems]
    return next(r for r in made.run_out if {r.first, r.second} == {first, second})


def worst(text: str, first: str, second: str) -> float:
    found = row(text, first, second).worst
    assert found is not None
    return found.value


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
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.02)
    assert found.why.metric == "collet chuck 0.02"


def test_two_holdings_on_the_raw_bar_both_count() -> None:
    """Turned end for end on the bar's own skin: each holding is out by its own amount."""
    text = method(
        FIRST + holding("four-jaw chuck, on 40 mm, grip 15 mm, end B out", 'turn: to 16 mm, over 10 mm, called "two"')
    )
    found = row(text, "one", "two")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.10)
    assert found.likely is not None
    assert found.likely.value == pytest.approx(math.hypot(0.08, 0.02))


def test_two_features_held_on_one_that_lies_between_them() -> None:
    """Both hang on the first feature by their own holdings, so their run-outs add up; the raw bar does not come in."""
    text = method(
        FIRST
        + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
        + holding("four-jaw chuck, on 16 mm, grip 18 mm, end B out, run-out 0.03 mm", 'turn: to 36 mm, from 12 mm, over 6 mm, called "three"')
    )  # fmt: skip
    found = row(text, "two", "three")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.05)
    assert found.likely is not None
    assert found.likely.value == pytest.approx(math.hypot(0.02, 0.03))
    assert worst(text, "one", "three") == pytest.approx(0.03)


def test_a_chain_of_holdings_each_on_the_one_before() -> None:
    text = method(
        FIRST
        + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 20 mm, called "two"')
        + holding("three-jaw chuck, on 30 mm, grip 15 mm, end A out", 'turn: to 12 mm, over 8 mm, called "three"')
    )  # fmt: skip
    assert worst(text, "two", "three") == pytest.approx(0.08)
    found = row(text, "one", "three")
    assert found.worst is not None
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
    assert worst(method(on_two), "two", "collar") == pytest.approx(0.02)
    assert worst(method(on_two), "one", "collar") == pytest.approx(0.04)
    assert worst(method(on_one), "one", "collar") == pytest.approx(0.02)
    assert worst(method(on_one), "two", "collar") == pytest.approx(0.04)


def test_an_offset_holding_counts_as_any_other() -> None:
    """What is said to be off the axis is no run-out: only how well the offset was set."""
    text = method(
        FIRST
        + holding(
            "four-jaw chuck, on 16 mm, grip 18 mm, end B out, axis offset 3 mm",
            'turn: to 30 mm, over 10 mm, called "thrown"',
        )
    )
    assert worst(text, "one", "thrown") == pytest.approx(0.02)


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


BORE = 'bore: to 16 mm, through, called "bore"'
SEAT = 'turn: to 16 mm, over 30 mm, called "seat"'
H7, S6 = '\ncheck: limits(16 mm, "H7") with plug gauge', '\ncheck: limits(16 mm, "s6") with micrometer'
F7 = '\ncheck: limits(16 mm, "f7") with micrometer'
ON_PRESS = block("setup", "machine: press", "hold: press blocks, end A up") + block("op", "press on: disc, at 15 mm")
HEARTH = block("setup", "machine: bench", "hold: bench vice, end A up")


def joined(bore: str, seat: str, join: str, *after: str) -> str:
    """A disc with a rim turned on its bore, joined to a rod, and what is done then."""
    disc = holding("four-jaw chuck, on 40 mm, grip 9 mm, end A out", "drill: 15 mm, through", bore)
    rim = holding(
        "three-jaw chuck, on 16 mm, inside, grip 10 mm, end A out, run-out 0.05 mm",
        'turn: to 36 mm, over 7 mm, called "rim"',
    )
    rod = block(
        "setup",
        "piece: rod",
        "stock: round 20 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out",
    )
    text = disc + rim + rod + block("op", seat) + join + "".join(after)
    return method(text, stock="round 40 mm x 10 mm", front="piece: disc\n")


def test_a_seat_keeps_a_piece_as_true_as_its_limits() -> None:
    """H7 of 16 mm is 18 µm wide, s6 11 µm, f7 18 µm with 16 µm of clearance at least (ISO 286-2)."""
    pressed = row(joined(BORE + H7, SEAT + S6, ON_PRESS), "bore", "seat")
    assert pressed.worst is not None
    assert pressed.worst.value == pytest.approx(0.018 + 0.011)
    slid = row(joined(BORE + H7, SEAT + F7, ON_PRESS.replace("press on", "slide on")), "bore", "seat")
    assert slid.worst is not None
    assert slid.worst.value == pytest.approx(0.018 + 0.018 + 0.016)
    far = row(joined(BORE + H7, SEAT + S6, ON_PRESS), "rim", "seat")
    assert far.worst is not None
    assert far.worst.value == pytest.approx(0.05 + 0.029)
    assert far.why.metric == "three-jaw chuck 0.05 + pressed on its seat, by its limits, 0.029"


@pytest.mark.parametrize(("bore", "seat"), [(BORE, SEAT), (BORE + H7, SEAT), (BORE, SEAT + S6)])
def test_of_a_seat_without_limits_nothing_is_known_but_why(bore: str, seat: str) -> None:
    found = row(joined(bore, seat, ON_PRESS), "rim", "seat")
    assert found.worst is None
    assert found.likely is None
    assert found.why.metric == "not known: disc is pressed on a seat without limits, so nothing says how true it sits"


def test_what_is_skimmed_after_the_press_follows_the_last_holding() -> None:
    """Whatever the press did: the rim now runs to the seat as the last holding runs on it."""
    skim = holding(
        "collet chuck, on 16 mm, grip 10 mm, end B out, stick-out 48 mm",
        "turn: to 36 mm, from 35 mm, over 10 mm",
    )
    found = row(joined(BORE, SEAT, ON_PRESS, skim), "rim", "seat")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.02)
    assert "cleans up all round" in found.why.metric
    assert row(joined(BORE, SEAT, ON_PRESS, skim), "rim", "bore").worst is None


DRILLED, BORED = "drill: 15.8 mm, through", "bore: to 15.9 mm, through"
REAMED = 'ream: 16 mm, through, called "bore"'
FOLLOWED = "operation 40 follows a hole that was not bored, and a drill wanders"


def test_a_reamer_is_as_true_as_the_hole_that_it_follows() -> None:
    """Bored first, the reamed hole is true to the boring, though it is reamed in another holding; drilled, not known."""
    outside = block("op", 'turn: to 36 mm, over 15 mm, called "one"')
    here = RAW + outside
    drilled = row(method(here + "".join(block("op", op) for op in ("centre: 2 mm", DRILLED, REAMED))), "one", "bore")
    assert (drilled.worst, drilled.why.metric) == (None, f"not known: {FOLLOWED}")
    bored = row(
        method(here + "".join(block("op", op) for op in ("drill: 14 mm, through", BORED, REAMED))), "one", "bore"
    )
    assert bored.worst is not None
    assert (bored.worst.value, bored.why.metric) == (0.0, "cut in one holding")
    turned = "three-jaw chuck, on 36 mm, grip 12 mm, end B out"
    later = here + "".join(block("op", op) for op in ("drill: 14 mm, through", BORED)) + holding(turned, REAMED)
    found = row(method(later), "one", "bore")
    assert found.worst is not None
    assert found.worst.value == 0.0


def test_what_hangs_on_a_drilled_and_reamed_hole_is_not_known() -> None:
    here = RAW + block("op", 'turn: to 36 mm, over 10 mm, called "one"')
    ops = "".join(block("op", op) for op in ("centre: 2 mm", DRILLED, REAMED))
    hung = holding(
        "three-jaw chuck, on 16 mm, inside, grip 10 mm, end A out, run-out 0.05 mm",
        'turn: to 38 mm, from 10 mm, over 7 mm, called "rim"',
    )
    found = row(method(here + ops + hung), "one", "rim")
    assert (found.worst, found.why.metric) == (None, f"not known: {FOLLOWED}")


SMALL = (ROOT / "workshops" / "osierbank-small.yml").read_text("utf-8")


@pytest.mark.parametrize(("grade", "expected"), [("", 0.02), ("1", 0.015), ("2", 0.02)])
def test_a_collet_runs_out_by_its_class_where_nobody_measured_it(tmp_path: Path, grade: str, expected: float) -> None:
    """A bore of 16 mm, by ISO 15488 (from memory): 0.015 mm in class 1, 0.020 in class 2."""
    text = method(
        FIRST + holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
    )
    measured = "    run out: 0.02 mm\n    jaw length: 30 mm\n    body diameter: 42 mm"
    assert SMALL.count(measured) == 1
    said = SMALL.replace(measured, measured.replace("run out: 0.02 mm", f"collet class: {grade}")) if grade else SMALL
    (tmp_path / "shop.yml").write_text(said, encoding="utf-8")
    problems = Problems()
    file, shop = parse_method(text, "sample.md", problems), read_workshop(tmp_path / "shop.yml", tmp_path, problems)
    assert file is not None
    assert shop is not None
    made = evaluate_method(file, shop, lambda _name: None, problems).method
    found = next(r for r in made.run_out if {r.first, r.second} == {"one", "two"})
    assert found.worst is not None
    assert found.worst.value == pytest.approx(expected)
    told = next(fact for fact in made.setups[1].facts if fact.key == "run_out")
    assert bool(told.recalled) == bool(grade)


AGAIN = "four-jaw chuck, on 30 mm, grip 15 mm, end A out, run-out 0.03 mm"
TURNED_BACK = holding("collet chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 20 mm, called "two"')
CUT_AGAIN = {
    "along at its size": ("turn: to 16 mm, over 25 mm", 0.03, "one as operation 30 leaves it"),
    "smaller, and under no name": ("turn: to 15 mm, over 20 mm", 0.03, "four-jaw chuck 0.03"),
    "smaller, under a name of its own": (
        'turn: to 15 mm, over 20 mm, called "journal"', 0.03, "four-jaw chuck 0.03",
    ),
    "for half its length at its size": ("turn: to 16 mm, from 10 mm, over 15 mm", 0.03, "four-jaw chuck 0.03"),
    "smaller for half its length": ("turn: to 14 mm, over 10 mm", 0.02, "collet chuck 0.02"),
    "as a cone": ("taper: from 14 mm to 16 mm, over 20 mm", 0.03, "four-jaw chuck 0.03"),
}  # fmt: skip


@pytest.mark.parametrize("how", CUT_AGAIN)
def test_a_feature_follows_its_surface_to_the_last_cut(how: str) -> None:
    """One end is turned, the other on it, and then the first again, held on the second."""
    cut, worst, why = CUT_AGAIN[how]
    found = row(method(FIRST + TURNED_BACK + holding(AGAIN, cut)), "one", "two")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(worst)
    assert why in found.why.metric


def test_a_feature_cut_in_two_holdings_is_as_bad_as_its_worse_part() -> None:
    """Half of it is cut again on a jaw that runs out more: to what was cut with the first half it is told by that."""
    base = (
        RAW
        + block("op", 'turn: to 30 mm, over 12 mm, called "mate"')
        + block("op", 'turn: to 16 mm, over 10 mm, called "one"')
    )
    text = method(
        base
        + holding(
            "three-jaw chuck, on 40 mm, grip 15 mm, end A out, run-out 0.03 mm", "turn: to 16 mm, from 5 mm, over 6 mm"
        )
    )
    found = row(text, "one", "mate")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.08 + 0.03)


def test_a_feature_that_is_no_more_there_has_no_row() -> None:
    """An eccentric pin is cut out of it: nothing on its axis is left."""
    gone = holding("four-jaw chuck, on 30 mm, grip 15 mm, end A out, axis offset 3 mm", "turn: to 8 mm, over 20 mm")
    made = work_out(method(FIRST + TURNED_BACK + gone)).method
    assert not [row for row in made.run_out if "one" in (row.first, row.second)]


def test_a_grip_on_what_was_cut_again_hangs_on_the_last_holding() -> None:
    again = holding("four-jaw chuck, on 30 mm, grip 15 mm, end A out", "turn: to 16 mm, over 21 mm")
    third = holding("three-jaw chuck, on 16 mm, grip 18 mm, end B out", 'turn: to 20 mm, over 5 mm, called "three"')
    found = row(method(FIRST + TURNED_BACK + again + third), "two", "three")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.02 + 0.08)


def test_between_centres_of_two_holdings_the_worse_end_counts() -> None:
    """The hole at end A runs true to `one`, that at end B as the jaws left it: one end of `two` shows it."""
    centred = RAW + block("op", "centre: 2 mm") + block("op", 'turn: to 38 mm, over 30 mm, called "one"')
    other = holding("four-jaw chuck, on 38 mm, grip 20 mm, end B out", "centre: 2 mm")
    back = holding("between centres, on 38 mm, grip 10 mm, end B out", 'turn: to 30 mm, over 20 mm, called "two"')
    found = row(method(centred + other + back), "one", "two")
    assert found.worst is not None
    assert found.worst.value == pytest.approx(0.03)
    assert found.why.metric == "four-jaw chuck 0.02 + between centres 0.01"


def test_where_a_run_out_is_not_known_the_row_and_the_question_say_why() -> None:
    on_jig = holding("vee block, on 16 mm, grip 18 mm, end B out", 'turn: to 30 mm, over 10 mm, called "two"')
    made = work_out(method(FIRST + on_jig + block("calc", 'x = run_out("one", "two")'))).method
    assert [(one.worst, one.why.metric) for one in made.run_out] == [
        (None, "not known: nobody says how true the vee block of set-up 2 runs")
    ]
    assert any("the run-out between `one` and `two` is not known: nobody says" in str(p) for p in made.problems)


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
