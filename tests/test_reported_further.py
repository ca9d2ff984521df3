"""More of what was once reported wrong: the line that is told, the picture, the numbers; and where each report is held.

`reported.csv` has a line for every report: what it said, the test that holds it, and the case of that test.
The methods are our own; what is compared is geometry with geometry.
"""

from __future__ import annotations

import ast
import csv
import functools
import re
from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out
from tests.test_reported import failed, made, op, setup

from methodsheets.drawings.drawing_room import DrawingRoom
from methodsheets.sheet.model import Fact, Method, Operation

HERE = Path(__file__).parent
REPORTS = list(csv.DictReader((HERE / "reported.csv").read_text(encoding="utf-8").splitlines()))
BLOCK = "plate 60 mm x 40 mm x 25 mm"
WHOLE = setup("three-jaw chuck, on 40 mm, grip 20 mm, end A out")


@functools.cache
def functions(file: str) -> frozenset[str]:
    tree = ast.parse((HERE / file).read_text(encoding="utf-8"))
    return frozenset(node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def test_every_report_is_held_by_a_test_that_is_there() -> None:
    """A test that is renamed or taken away leaves its report without one."""
    lost = []
    for report in REPORTS:
        file, name = report["held by"].split("::")
        if name not in functions(file) or report["case"] not in (HERE / file).read_text(encoding="utf-8"):
            lost.append(report)
    assert lost == []
    assert len(REPORTS) > 130
    assert len({report["what was reported"] for report in REPORTS}) == len(REPORTS)


def fact_of(found: Operation, key: str) -> Fact:
    return next(fact for fact in found.facts if fact.key == key)


def worth(found: Operation, key: str) -> float:
    value = getattr(fact_of(found, key).value, "value", None)
    assert isinstance(value, float)
    return value


def told_lines(found: Method, text: str) -> list[str]:
    """What each failed check points to, as the author wrote it."""
    lines = text.split("\n")
    return [f"{check.key}: {lines[check.line - 1]}" for check in found.failed]


# ------------------------------------------------------------------------------------------------ how the work lies
@pytest.mark.parametrize(
    ("hold", "machine", "stock"),
    [
        ("machine vice", "mill", BLOCK),
        ("machine vice, grip 8 mm", "mill", "flat 40 mm x 20 mm x 60 mm"),
        ("machine vice", "mill", "square 30 mm x 60 mm"),
        ("four-jaw chuck", "lathe", "casting 60 mm x 40 mm x 20 mm"),
        ("brazing bricks", "hearth", BLOCK),
    ],
)
def test_a_block_of_which_no_face_is_said_lies_on_its_bottom(hold: str, machine: str, stock: str) -> None:
    """What is assumed is shown as assumed, and the work is checked and drawn as the block that it is."""
    (held,) = made(setup(hold, machine), stock=stock).setups
    assert "top up, front towards you (assumed)" in held.words.metric
    said = setup(f"{hold}, up top, towards front", machine)
    (spelled_out,) = made(said, stock=stock).setups
    assert [(c.key, c.state) for c in held.checks] == [(c.key, c.state) for c in spelled_out.checks]


def test_a_bar_with_flats_keeps_its_axis_where_the_set_up_speaks_of_one() -> None:
    held = made(setup("four-jaw chuck, end A out"), stock="square 30 mm x 60 mm").setups[0]
    assert "end A out" in held.words.metric


def test_work_that_lies_is_worded_as_lying() -> None:
    held = made(setup("vee block, on 30 mm", "mill"), stock="round 30 mm x 60 mm").setups[0]
    assert "end A out" in held.words.metric


# ------------------------------------------------------------------------------------------------ pictures and words
def test_the_shortest_method_has_a_picture_of_each_set_up() -> None:
    live = work_out(method(setup("three-jaw chuck") + op("turn: to 38 mm, over 20 mm")))
    room = DrawingRoom(live, {})
    room.draw_operation(live.live.setups[0], live.live.operations[0])
    assert len(room.pictures) == 1


def test_a_title_stands_on_the_page_and_on_the_sheet() -> None:
    found = made(WHOLE + op("face: 1 mm", "title: Clean up the first end"))
    assert str(found.operations[0].title) == "Clean up the first end"


def test_an_inside_thread_is_not_measured_over_wires() -> None:
    bored = WHOLE + op("drill: 18 mm, deep 30 mm") + op("groove: at 22 mm, wide 4 mm, to 24 mm, inside")
    (*_, inside) = made(bored + op("thread: M20, inside, over 20 mm")).operations
    assert [fact.key for fact in inside.facts if "wire" in fact.key] == []
    (outside,) = made(WHOLE + op("turn: to 39 mm, over 25 mm") + op("thread: M39, over 15 mm")).operations[1:]
    assert [fact.key for fact in outside.facts if "wire" in fact.key]


# ------------------------------------------------------------------------------------------------ the line that is told
V = "machine vice, up {}, towards {}, grip 10 mm"
SIDES = [("top", "front"), ("bottom", "front"), ("front", "top"), ("back", "top"), ("left", "top"), ("right", "top")]
CUBE = block("part", "- block: 58 mm x 38 mm x 23 mm")


def faced(*, without: str = "", deeper: str = "") -> str:
    return CUBE + "".join(
        setup(V.format(*side), "mill") + op(f"face: {1.4 if side[0] == deeper else 1} mm")
        for side in SIDES
        if side[0] != without
    )


def joined(at: str) -> str:
    ring = block("setup", "piece: ring", "stock: round 40 mm x 12 mm", "machine: lathe",
                 "hold: three-jaw chuck, on 40 mm, grip 8 mm, end A out")  # fmt: skip
    ring += op("drill: 10 mm, through") + op("drill: 20 mm, through") + op("bore: to 24 mm, through")
    shaft = block("setup", "piece: shaft", "stock: round 30 mm x 60 mm", "machine: lathe",
                  "hold: three-jaw chuck, on 30 mm, grip 20 mm, end A out")  # fmt: skip
    press = block("setup", "piece: shaft", "machine: press", "hold: press blocks, end A up")
    part = block(
        "part",
        "- round: 24 mm, over 5 mm\n- round: 40 mm, from 5 mm, over 12 mm\n- round: 30 mm, from 17 mm, over 43 mm",
    )
    return part + ring + shaft + op("turn: to 24 mm, over 17 mm") + press + op(f"press on: ring, at {at}")


TAPER = block("part", "- round: 40 mm, over 59 mm\n- taper: from 30 mm, angle 5 deg, over 20 mm")
BUSH = block("part", "- round: 38 mm, over 28 mm\n- bore: to 12 mm, through")
TURNED = op("face: 1 mm") + op("turn: to 38 mm, over 34 mm") + op("drill: 12 mm, deep 34 mm")
GUILTY = {
    "parted short": (BUSH + WHOLE + TURNED + op("part off: 26 mm"), "round 40 mm x 80 mm", "part off: 26 mm"),
    "included angle": (TAPER + WHOLE + op("face: 1 mm") + op("taper: from 30 mm, angle 10 deg, over 20 mm"),
                       "round 40 mm x 60 mm", "taper: from 30 mm, angle 10 deg"),
    "never milled": (faced(without="back"), BLOCK, "```part"),
    "too low": (faced(deeper="back"), BLOCK, "face: 1.4 mm"),
    "pressed off its place": (joined("0 mm"), "", "press on: ring, at 0 mm"),
}  # fmt: skip


@pytest.mark.parametrize("fault", GUILTY)
def test_the_line_that_is_wrong_is_the_one_that_fails(fault: str) -> None:
    blocks, stock, line = GUILTY[fault]
    text = method(blocks, stock=stock).replace("stock: \n", "")
    told = told_lines(work_out(text).method, text)
    assert told[:1], "nothing fails"
    assert line in " ".join(told), told
    assert all(line in one or one.startswith("intended-part") for one in told), told


@pytest.mark.parametrize("hand", ["never cut", "left hand"])
def test_what_the_part_asks_for_is_cut(hand: str) -> None:
    part = block(
        "part", "- round: 12 mm, over 25 mm\n- round: 40 mm, from 25 mm, over 34 mm\n- thread: M12, over 20 mm"
    )
    cut = op("face: 1 mm") + op("turn: to 12 mm, over 25 mm")
    cut += op("thread: M12, over 20 mm, left hand") if hand == "left hand" else ""
    assert "intended-part" in {key for key, _ in failed(made(part + WHOLE + cut))}


def test_every_piece_that_has_a_part_is_proved() -> None:
    text = method(joined("5 mm"), stock="").replace("stock: \n", "")
    asked = text.replace(
        "- round: 30 mm, from",
        "- piece: ring\n- round: 40 mm, over 11 mm\n- bore: to 24 mm, through\n- round: 30 mm, from",
    )
    short = block("part", "- piece: ring\n- round: 40 mm, over 11 mm\n- bore: to 24 mm, through")
    told = told_lines(work_out(text.replace("```setup", short + "```setup", 1)).method, asked)
    assert any(one.startswith("intended-part") for one in told)


@pytest.mark.parametrize(
    "calculated", ['press = press_fit(seat, length=40 mm, hub=60 mm, hub_material="EN1A", shaft_material="EN1A")', ""]
)
def test_a_press_fit_that_the_press_cannot_give_fails(calculated: str) -> None:
    """The press of the shop gives 20 kN by its file; H7/u6 of ISO 286-2 at 24 mm over 40 mm takes more than that."""
    ring = block("setup", "piece: ring", "stock: round 60 mm x 40 mm", "machine: lathe", "hold: four-jaw chuck")
    ring += op("drill: 13 mm, through") + op("bore: to 24 mm, through")
    shaft = block("setup", "piece: shaft", "stock: round 30 mm x 90 mm", "machine: lathe", "hold: three-jaw chuck")
    press = block("setup", "piece: shaft", "machine: press", "hold: press blocks") + op("press on: ring, at 5 mm")
    calc = block("calc", 'seat = fit(24 mm, "H7/u6")', calculated)
    text = method(calc + ring + shaft + op("turn: to 24 mm, over 45 mm") + press, stock="").replace("stock: \n", "")
    found = work_out(text).method
    (check,) = [c for c in found.all_checks if c.key == "press-force"]
    assert check.state == "failed"


def test_a_size_that_is_not_there_is_told_with_no_grip_said() -> None:
    (check,) = made(setup("three-jaw chuck, on 38 mm, end A out") + op("face: 1 mm")).failed
    assert check.key == "grip"
    assert "write `on 40 mm`" in check.advice[1]


def test_an_expanding_mandrel_has_no_nut_in_the_way() -> None:
    bored = WHOLE + op("face: 1 mm") + op("drill: 12 mm, through") + op("bore: to 20 mm, through")
    held = setup("expanding mandrel, on 20 mm, grip 50 mm, inside, end A out") + op("face: 0.5 mm")
    text = method(bored + held)
    assert [c.key for c in work_out(text, "osierbank-large").method.failed if c.key in ("jaws", "centre")] == []


def test_without_a_part_the_shape_is_counted_as_not_known() -> None:
    assert [check.key for check in made(WHOLE + op("face: 1 mm")).unknown] == ["intended-part"]


# ------------------------------------------------------------------------------------------------ numbers
def test_facing_round_a_spigot_is_no_faster_than_the_rim_allows() -> None:
    stepped = "turned, points (0 mm, 30 mm), (5 mm, 30 mm), (5 mm, 40 mm), (60 mm, 40 mm)"
    hold = setup("three-jaw chuck, on 40 mm, grip 20 mm, end A out")
    (round_it,), (whole,) = (
        made(hold + op("face: 7 mm"), stock=one).operations for one in (stepped, "round 40 mm x 60 mm")
    )
    assert worth(round_it, "spindle_speed") <= worth(whole, "spindle_speed")


def test_a_wide_shoulder_is_turned_in_few_passes() -> None:
    """From 94 to 30 over 2 mm in cast iron is 32 mm of metal on the radius: 44 passes were told."""
    blocks = setup("four-jaw chuck, on 94 mm, grip 8 mm, end A out") + op("turn: to 30 mm, over 2 mm")
    text = method(blocks, stock="round 94 mm x 20 mm", material="EN-GJL-250")
    (turned,) = work_out(text, "osierbank-large").method.operations
    assert 32.0 / worth(turned, "depth") < 20


def test_a_single_last_pass_has_the_finishing_feed() -> None:
    blocks = (
        WHOLE
        + op("turn: to 38.2 mm, over 20 mm")
        + op("turn: to 38 mm, over 20 mm", 'check: limits(38 mm, "h6") with micrometer')
    )
    (*_, last) = made(blocks).operations
    assert worth(last, "finishing_feed") < worth(last, "feed")


def test_an_edge_is_milled_with_a_stout_cutter() -> None:
    blocks = setup("clamps, up top, towards front, packed 15 mm", "mill") + op(
        "step: side front, wide 2.5 mm, deep 12 mm"
    )
    (edge,) = made(blocks, stock="plate 85 mm x 60 mm x 12 mm").operations
    found = re.search(r"[\d.]+", str(edge.tool))
    assert found is not None
    assert float(found[0]) >= 10


def test_the_gap_of_a_brazed_joint_is_judged_by_its_table() -> None:
    plate = block("setup", "piece: plate", f"stock: {BLOCK}", "machine: mill", "hold: machine vice, grip 10 mm")
    plate += op("drill: 10 mm, through, places (30 mm, 20 mm)") + op("bore: to 15.1 mm, through, places (30 mm, 20 mm)")
    tube = block(
        "setup",
        "piece: tube",
        "stock: tube 15 mm x 12 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, grip 15 mm, end A out",
    )
    tube += op("face: 1 mm")
    braze = block("setup", "piece: plate", "machine: hearth", "hold: brazing bricks") + op(
        "silver-braze: tube, places (30 mm, 20 mm)"
    )
    text = method(plate + tube + braze, stock="", material="EN3B").replace("stock: \n", "")
    (gap,) = [c for c in work_out(text).method.all_checks if c.key == "joint-gap"]
    assert gap.state == "passed"
    assert "0.05" in str(gap.words)


# ------------------------------------------------------------------------------------------------ messages
@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ("part off: at 26 mm", "write `part off: 26 mm`"),
        ("taper: from 30 mm, angle 20 deg, over 20 mm", "write `over 13.737 mm`, or `angle 10 deg`"),
        ("profile: points (0 mm, 20 mm), (20 mm, 30 mm), (20 mm, 20 mm), (0 mm, 30 mm)", ""),
    ],
)
def test_no_message_shows_the_dust_of_a_sum(line: str, remedy: str) -> None:
    problems = made(WHOLE + op(line)).problems
    assert problems
    assert [str(one) for one in problems if re.search(r"\d\.\d{5,}", str(one))] == []
    assert remedy in problems[0].remedy


@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ("turn: to 38 mm, length 30 mm", "did you mean `over`, length of the cut?"),
        ("drill: 5 mm, depth 15 mm", "did you mean `deep`, depth to the full diameter"),
        ("groove: diameter 30 mm, at 5 mm, wide 3 mm", "did you mean `to`, diameter at the bottom?"),
        ("deburr", "put a colon behind it: `deburr:`"),
        ("face: 1 mm\ncoolant: oil", "did you mean `with`"),
    ],
)
def test_another_word_for_a_clause_is_told_with_the_clause_that_says_it(line: str, remedy: str) -> None:
    assert remedy in made(WHOLE + op(line)).problems[0].remedy


@pytest.mark.parametrize("key", ["center drill", "Centre-Drill", "centre drill", "center"])
def test_a_verb_is_read_in_either_spelling(key: str) -> None:
    (done,) = made(WHOLE + op(f"{key}: 2.5 mm")).operations
    assert done.words.metric.startswith("Centre")


def test_a_point_in_the_wrong_clause_is_told_with_the_clause_for_places() -> None:
    held = setup("machine vice", "mill") + op("drill: 6 mm, deep 5 mm, at (10 mm, 10 mm)")
    assert made(held, stock=BLOCK).problems[0].remedy == "write `places (10 mm, 10 mm)`"


def test_what_is_wrong_behind_a_set_up_that_is_wrong_is_told_in_the_same_run() -> None:
    found = made(setup("three-jaw chuck, turned round") + op("paint: red") + op("turn: to 38 mm, over 20 mm")).problems
    assert [problem.code for problem in found] == ["unknown-clause", "unknown-key"]


def test_another_word_for_a_key_of_the_front_matter_is_told_with_the_key_that_says_it() -> None:
    (problem,) = made(WHOLE + op("face: 1 mm"), front="quantity: 2\n").problems
    assert "did you mean `makes`" in problem.remedy


def test_a_keyway_inside_is_one_in_the_bore() -> None:
    drilled = WHOLE + op("drill: 12 mm, through")
    (one, other) = (
        made(drilled + op(f"keyway: wide 4 mm, deep 2 mm, {word}, over 20 mm")) for word in ("inside", "in bore")
    )
    assert str(one.operations[-1].words) == str(other.operations[-1].words)
