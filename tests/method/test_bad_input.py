"""Methods with one thing wrong: each says where, what, the rule and the remedy, in words that are looked up here to the letter."""

from __future__ import annotations

import pytest
from tests.method.bad_input import FIRST
from tests.method.bench import THREE_JAW, block, method, work_out

H = THREE_JAW
VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
B = "plate 60 mm x 40 mm x 25 mm"

WRONG = [
    *FIRST,
    (
        "milling verb on turned work",
        method(H + block("op", "pocket: from (5 mm, 5 mm), to (20 mm, 20 mm), deep 5 mm")),
        "sample.md:14:9: `pocket` is for a six-face block; this set-up holds work about an axis; a verb has its meaning in its own frame; hold the work the other way (`end A out`, or `up top, towards front`), or take another verb",
    ),
    (
        "two faces that are no neighbours",
        method(
            block("setup", "machine: mill", "hold: machine vice, up top, towards bottom, grip 10 mm")
            + block("op", "face: 1 mm"),
            stock=B,
        ),
        "sample.md:10:37: the face towards you cannot be the bottom when the top is up (got up top, towards bottom); the two faces are neighbours; name another face",
    ),
    (
        "face name",
        method(
            block("setup", "machine: mill", "hold: machine vice, up lid, towards front, grip 10 mm")
            + block("op", "face: 1 mm"),
            stock=B,
        ),
        "sample.md:10:24: no such face (got `lid`); a block has six: top, bottom, front, back, right, left; known: `back`, `bottom`, `front`, `left`, `right`, `top`",
    ),
    (
        "no such end",
        method(
            block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end C out")
            + block("op", "face: 1 mm")
        ),
        "sample.md:10:50: no such end (got `C out`); turned work has two ends, A and B; write `end A out`",
    ),
    (
        "axis beside the work",
        method(
            block("setup", "machine: lathe", "hold: four-jaw chuck, on 40 mm, grip 15 mm, axis offset 30 mm")
            + block("op", "face: 1 mm")
        ),
        "sample.md:10:57: the axis lies beside the work (got 30 mm on work 40 mm across); work turns about an axis that runs through it; check the offset",
    ),
    (
        "repeat that overlaps",
        method(
            block("setup", "machine: mill", "hold: rotary table, on 40 mm, grip 15 mm, end A up")
            + block("op", "drill: 10 mm, deep 10 mm, on radius 12 mm, divide 12")
        ),
        "sample.md:14:1: check `repeat` failed: the holes Ø10 overlap: the nearest two lie 6.21 mm apart; holes stand clear of each other; check places, circle and size",
    ),
    (
        "pressed into no hole",
        method(
            H
            + block(
                "setup",
                "piece: rod",
                "stock: round 10 mm x 30 mm",
                "machine: lathe",
                "hold: three-jaw chuck, on 10 mm, grip 10 mm",
            )
            + block("op", "face: 1 mm")
            + block("setup", "machine: press", "hold: press blocks, end A up")
            + block("op", "press in: work, at 0 mm"),
            front="piece: work\n",
        ),
        "sample.md:31:1: check `overlap` failed: the work overlaps 2.28 cm³ of metal in the rod, 0 to 29 mm below its mouth: no hole is there; nominal shapes of mating pieces meet without overlap; drill the hole first, 29 mm deep, at the same place; check size and place of both pieces",
    ),
    (
        "unknown piece",
        method(H + block("op", "press in: cam, at 0 mm")),
        "sample.md:14:11: no such piece (got `cam`); a piece of this method, or the name of another method",
    ),
    (
        "body cut away",
        method(H + block("op", "face: 60 mm")),
        "sample.md:13:1: the cut cannot be made: nothing of the work would be left; its sizes must make a solid; check the sizes of this operation",
    ),
    (
        "repeat both",
        method(H + block("op", "drill: 4 mm, deep 5 mm, on radius 12 mm, at 0 deg, divide 3")),
        "sample.md:14:59: `at` and `divide` are both said; one of them tells the angles; take one away",
    ),
    (
        "no thread",
        method(H + block("op", "tap: M7.3x9, deep 5 mm")),
        "sample.md:14:6: no such thread (got `M7.3x9`): no thread called 'M7.3x9'; did you mean M39?; names as on the tap; write e.g. `M6`, `M12 x 1`, `1/4-20 UNC`, `2 BA`, `1/4 BSF`",
    ),
    (
        "skip",
        method(H + block("op", "drill: 4 mm, deep 5 mm, on radius 12 mm, divide 3, skip 5")),
        "sample.md:14:57: cannot skip 5 of 3; divisions are numbered from 1; check the numbers",
    ),
    (
        "name error",
        method(block("calc", "a = 3 mm + 4 kg") + H + block("op", "turn: to a, over 5 mm")),
        "sample.md:9:10: a mass cannot be added to a length (got 3 mm + 4 kg); quantities that add agree in dimension; convert one, or check the formula",
    ),
    (
        "intended",
        method(H + block("op", "face: 1 mm"), front="intended: nowhere\n"),
        "sample.md:6:11: no such method (got `nowhere`); `intended` names a method of this handbook; check the name",
    ),
    (
        "cut below the jaws",
        method(
            block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 24 mm")
            + block("op", "step: side front, wide 5 mm, deep 9 mm"),
            stock=B,
        ),
        "sample.md:14:1: check `jaws` failed: the cut is 9 deep and the jaws begin 1 down; a cut ends in front of what holds the work; grip less, or cut less deep, or turn the work round",
    ),
    (
        "support",
        method(H + block("op", "support: broom")),
        "sample.md:14:10: no such support (got `broom`); known: none, tailstock centre, rotating centre, dead centre, half centre, fixed steady, travelling steady; name one",
    ),
    (
        "keep",
        method(H + block("op", "part off: 10 mm, keep middle")),
        "sample.md:14:23: `keep` names a piece (got `middle`); front or back; write `keep front`",
    ),
    (
        "negative diameter",
        method(H + block("op", "turn: to -3 mm, over 5 mm")),
        "sample.md:14:10: a diameter is more than nothing (got −3 mm); sizes are positive; check the size",
    ),
    (
        "a cut that leaves two pieces",
        method(H + block("op", "chamfer: 30 mm")),
        "sample.md:14:1: check `piece` failed: work falls into 2 pieces, and nothing says which is kept; a method says what is kept of the work; say what to `keep`, or change the cut",
    ),
    (
        "taper",
        method(H + block("op", "taper: from 10 mm, over 20 mm")),
        "sample.md:14:8: a taper needs two diameters, or one and `angle`; `from`, `to`, `angle`: two of them; write e.g. `taper: from 12 mm to 16 mm, over 40 mm`",
    ),
    (
        "stock twice",
        method(
            H
            + block(
                "setup", "stock: round 10 mm x 20 mm", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm"
            )
        ),
        "sample.md:14:8: the piece `work` has its stock already; stock is given once; take it away or name another piece",
    ),
    (
        "zero hole",
        method(H + block("op", "drill: 0 mm, deep 5 mm")),
        "sample.md:14:8: the size of `drill` is more than nothing (got 0 mm); sizes are positive; check it",
    ),
    (
        "depth both",
        method(H + block("op", "drill: 5 mm, deep 5 mm, through")),
        "sample.md:14:32: `deep` and `through` are both said; one of them tells the depth; take one away",
    ),
    (
        "no depth",
        method(H + block("op", "drill: 5 mm")),
        "sample.md:14:8: how deep? (neither `through` nor `deep`); a hole has a depth; add `through` or e.g. `deep 12 mm`",
    ),
    (
        "places",
        method(VICE + block("op", "drill: 5 mm, through"), stock=B),
        "sample.md:14:8: where on the face?; a hole in the vice needs its place; add `places (10 mm, 8 mm)`: from the left edge and the edge towards you",
    ),
    (
        "a holding misspelt",
        method(block("setup", "machine: lathe", "hold: three jaw chuk, on 40 mm, grip 20 mm, end A out")),
        "sample.md:10:7: this workshop has nothing of that name (got `three jaw chuk`); its three-jaw chuck 80 mm is taken; "
        "tools and ways of holding are listed in the workshop's file; write `three-jaw chuck 80 mm`, or enter it there",
    ),
    (
        "a tool of fancy",
        method(H + block("op", "face: 0.5 mm", "tool: magic knife")),
        "sample.md:15:7: this workshop has nothing of that name (got `magic knife`); its knife tool is taken; "
        "tools and ways of holding are listed in the workshop's file; write `knife tool`, or enter it there",
    ),
    (
        "the part said twice",
        method(
            H + block("op", "face: 1 mm") + block("part", "round: 40 mm, from 0 mm to 59 mm"), front="intended: x\n"
        ),
        "sample.md:6:11: the method says its part twice: here (got `x`) and in a `part` block; a part is said once; "
        "the block counts; take one of the two away",
    ),
    (
        "feed by the minute",
        method(H + block("op", "face: 0.5 mm", "feed: 80 mm/min")),
        "sample.md:15:7: a feed is a length: of one turn, or of one tooth when milling (got 80 mm/min); "
        "its rate follows from the spindle speed and is shown on the sheet; write e.g. `feed: 0.1 mm`",
    ),
    (
        "holes axis",
        method(H + block("op", "drill: 5 mm, through, divide 3")),
        "sample.md:14:8: 3 holes on one axis; several holes need a pitch circle; add `on radius 17.5 mm` or `on circle 35 mm`",
    ),
]


@pytest.mark.parametrize(("name", "text", "message"), WRONG, ids=[case[0] for case in WRONG])
def test_the_message_says_where_what_why_and_what_to_do(name: str, text: str, message: str) -> None:
    problems = [str(problem) for problem in work_out(text).method.problems]
    assert problems[:1] == [message]


def test_one_cause_is_one_problem() -> None:
    """What is missing in the front matter is not said again by every set-up."""
    for text in (
        method(H + block("op", "face: 1 mm"), material="EN1B9"),
        method(H).replace("stock: round 40 mm x 60 mm\n", ""),
    ):
        assert len(work_out(text).method.problems) == 1


def test_the_rest_is_still_worked_out_and_says_what_it_follows() -> None:
    made = work_out(method(H + block("op", "turn: to lost, over 5 mm") + block("op", "face: 1 mm")))
    (done,) = made.method.operations
    assert done.words.metric == "Face 1 off"
    follows = [check for check in done.checks if check.key == "follows-failed"]
    assert [check.state for check in follows] == ["not known"]
    assert follows[0].words.metric == "follows the operation of line 13, which could not be worked out"


def test_every_wrong_line_is_reported_in_one_run() -> None:
    wrong = [block("op", f"turn: to name{i}, over 5 mm") for i in range(5)]
    made = work_out(method(H + "".join(wrong)))
    assert [problem.place.line for problem in made.method.problems] == [14, 18, 22, 26, 30]


def test_more_operations_than_a_method_may_have_are_refused() -> None:
    made = work_out(method(H + "".join(block("op", "deburr: it") for _ in range(201))))
    assert "too many operations (got 201); at most 200 operations" in str(made.method.problems[0])


@pytest.mark.parametrize("key", ["osierbank-small", "osierbank-large"])
def test_a_speed_that_the_machine_has_is_no_problem(key: str) -> None:
    made = work_out(method(H + block("op", "turn: to 30 mm, over 10 mm", "speed: 400 1/min")), key)
    assert not made.method.problems
