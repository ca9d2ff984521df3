"""Work on a rotary table or in a dividing head, its axis upright or level: read, checked, divided and drawn as such."""

from __future__ import annotations

import dataclasses

import pytest
from tests.method.bench import THREE_JAW, Evaluated, block, method, work_out, workshop

from methodsheets.drawings import draw_method
from methodsheets.drawings.crosswise import cross_spec
from methodsheets.drawings.solids import Drawn
from methodsheets.method.checks.carriers import check_carrier
from methodsheets.method.findings import Findings
from methodsheets.vocabulary.attitude import Attitude

FLAT = block("op", "flat: 17 mm, over 20 mm, divide 6")


def held(hold: str, key: str = "osierbank-large", stock: str = "round 40 mm x 60 mm") -> Evaluated:
    return work_out(method(block("setup", "machine: mill", f"hold: {hold}") + FLAT, stock=stock), key)


ATTITUDES = [
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A out", Attitude.UPRIGHT),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up", Attitude.UPRIGHT),
    ("rotary table, axis level, on 40 mm, grip 15 mm", Attitude.LEVEL),
    ("rotary table, axis horizontal, on 40 mm, grip 15 mm", Attitude.LEVEL),
    ("dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A out", Attitude.LEVEL),
    ("dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A up", Attitude.UPRIGHT),
    ("dividing head with three-jaw chuck, axis vertical, on 40 mm, grip 15 mm, end A out", Attitude.UPRIGHT),
    ("vee block, on 40 mm, grip 30 mm, end A out", Attitude.LEVEL),
]


@pytest.mark.parametrize(("hold", "attitude"), ATTITUDES, ids=[hold for hold, _ in ATTITUDES])
def test_how_the_axis_stands_is_read(hold: str, attitude: Attitude) -> None:
    made = held(hold)
    assert not made.method.problems, [str(p) for p in made.method.problems]
    setup = made.live.setups[0]
    assert setup.held.attitude is attitude
    words = setup.title.metric
    assert (" up" in words) is (attitude is Attitude.UPRIGHT)
    assert ("axis level" in words) is (attitude is Attitude.LEVEL and setup.held.carrying is not None)


REFUSED = [
    ("dividing head with three-jaw chuck, axis level, on 40 mm, grip 15 mm, end A up", "contradiction"),
    ("rotary table, axis level, on 40 mm, grip 15 mm, support fixed steady", "wrong-value"),
    ("rotary table, on 40 mm, grip 15 mm, support tailstock centre", "idle-clause"),
    ("vee block, axis level, on 40 mm, grip 30 mm", "idle-clause"),
    ("rotary table, axis slanting, on 40 mm, grip 15 mm", "wrong-value"),
]


@pytest.mark.parametrize(("hold", "code"), REFUSED, ids=[hold for hold, _ in REFUSED])
def test_words_that_do_not_agree_are_refused(hold: str, code: str) -> None:
    problem = held(hold).method.problems[0]
    assert problem.code == code
    assert problem.remedy


def test_the_handle_that_is_read_is_that_of_the_head_the_work_is_on() -> None:
    """A sixth of a turn at 40 to 1 is 6 turns and 10 of 15: the rule of every workshop book, 40 over the divisions."""
    table = held("dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A out").live.operations[0].tables[0]
    assert "dividing head 40 to 1" in table.columns[-1]
    assert [str(row[-1]) for row in table.rows][:3] == ["0 turns", "6 turns and 10 of 15", "13 turns and 5 of 15"]
    rotary = held("rotary table, axis level, on 40 mm, grip 15 mm").live.operations[0].tables[0]
    assert [str(row[-1]) for row in rotary.rows][:2] == ["0 turns", "15 turns"]


@pytest.mark.parametrize(("high", "state"), [(0.0, "not known"), (39.0, "failed"), (41.0, "passed"), (65.0, "passed")])
def test_chuck_and_work_go_round_above_the_table(high: float, state: str) -> None:
    """The small shop's chuck is 80 mm across: its centre must lie more than 40 mm above the table."""
    made = held("rotary table with three-jaw chuck, axis level, on 40 mm, grip 15 mm", "osierbank-small")
    setup = made.live.setups[0]
    assert setup.held.table is not None
    table = dataclasses.replace(setup.held.table, centre_height=high)
    held_so = dataclasses.replace(setup.held, table=table)
    again = dataclasses.replace(setup, held=held_so, found=Findings(setup.line))
    check_carrier(workshop(), again)
    assert [check.state for check in again.found.checks if check.key == "table-height"] == [state]


def test_the_picture_is_that_of_a_level_head_with_its_tailstock() -> None:
    face = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 25 mm, end A out")
    hold = "dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A out, support tailstock centre"
    made = work_out(
        method(
            face + block("op", "centre: 2 mm") + block("setup", "machine: mill", f"hold: {hold}")
            + block("op", "keyway: wide 6 mm, deep 3 mm, from 8 mm, over 25 mm")
        ), "osierbank-large",
    )  # fmt: skip
    setup = made.live.setups[-1]
    spec = cross_spec(Drawn(), setup, setup.operations[0])
    assert spec.holding == "head"
    assert spec.centre_height == 125.0
    assert {part.name for part in spec.holder_parts} == {"chuck body", "jaw"}
    assert [part.name for part in spec.tail_parts] == ["rotating centre"]
    assert spec.dimension_texts["head"] == "dividing head"
    svg = next(svg for drawing, svg in draw_method(made) if drawing.scheme == "op-20")
    for words in ("dividing head", "three-jaw chuck", "tailstock", "6 × 3 deep", "head reads 0°"):
        assert words in svg
    assert not [p for p in made.live.problems if p.code == "no-picture"]


FLANKS = "web: hub 14 mm, nose 9 mm, offset 10 mm, "
BESIDE = [
    ("in the open", f"{FLANKS}over 12 mm", ""),
    ("behind smaller work", f"{FLANKS}from 20 mm, over 12 mm, cutter 8 mm", ""),
    ("between collars", f"{FLANKS}from 25 mm, over 5 mm, cutter 10 mm", "the cutter touches the work"),
    ("too deep", "web: hub 4 mm, nose 3 mm, offset 8 mm, from 25 mm, over 12 mm, cutter 4 mm", "cut 16"),
    ("an outline in the open", "outline: points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm", ""),
]


@pytest.mark.parametrize(("name", "line", "says"), BESIDE, ids=[case[0] for case in BESIDE])
def test_a_web_of_work_that_lies_level_is_reached_from_above(name: str, line: str, says: str) -> None:
    """The cutter comes down across the axis: what it goes down counts, and what stands higher beside it."""
    turned = block("op", "turn: to 12 mm, over 20 mm") if name == "behind smaller work" else ""
    lathe = THREE_JAW + turned if turned else ""
    hold = "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out"
    made = work_out(
        method(lathe + block("setup", "machine: mill", hold) + block("op", line), stock="round 40 mm x 70 mm")
    )
    checks = made.live.operations[-1].checks
    assert not [c for c in checks if c.key == "way-in"]
    failed = [c.words.metric for c in checks if c.state == "failed"]
    assert bool(failed) is bool(says), failed
    assert all(says in words for words in failed)
    assert [c for c in checks if c.key == "reach"]


SETS = [
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out", "gear: module 1 mm, teeth 38, over 15 mm", "y"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out", "flat: 17 mm, over 20 mm", "z"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out", "keyway: wide 5 mm, deep 3 mm, over 20 mm", "z"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up", "flat: 17 mm, over 20 mm", "x"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up", "keyway: wide 5 mm, deep 3 mm, over 20 mm", "x"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up", "slot: wide 5 mm, deep 3 mm, in face", "z"),
    ("rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up", "cam: base 12 mm, lift 5 mm, rise 70 deg, dwell 30 deg, follower roller, roller 10 mm, over 12 mm", "x"),
    ("vee block, on 40 mm, grip 30 mm, end A out", "keyway: wide 5 mm, deep 3 mm, over 20 mm", "z"),
    ("machine vice, up top, towards front, grip 10 mm", "slot: wide 8 mm, deep 5 mm", "z"),
    ("machine vice, up top, towards front, grip 10 mm", "rack: module 1 mm, teeth 8", "z"),
]  # fmt: skip
"""How the work is held, a verb, and the slide that brings its cutter nearer to the axis, or to the bottom of the cut."""


@pytest.mark.parametrize(
    ("hold", "line", "slide"), SETS, ids=[f"{line.split(',')[0]} {hold[:60]}" for hold, line, _ in SETS]
)
def test_the_depth_is_set_by_the_slide_that_moves_the_cutter_into_the_work(hold: str, line: str, slide: str) -> None:
    stock = "plate 60 mm x 40 mm x 25 mm" if "vice" in hold else "round 40 mm x 60 mm"
    made = work_out(method(block("setup", "machine: mill", f"hold: {hold}") + block("op", line), stock=stock))
    (done,) = made.live.operations
    assert {one.slide for one in done.worked.passes} == {slide}
