"""Do the ordinary jobs cut what their words say? Volumes against closed forms, places against a drawing's sums."""

from __future__ import annotations

import math

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.method.job import DoneOperation

VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
PLATE = "plate 60 mm x 40 mm x 25 mm"


def done(blocks: str, stock: str = "round 40 mm x 60 mm", material: str = "EN1A") -> list[DoneOperation]:
    made = work_out(method(blocks, stock=stock, material=material))
    assert [str(problem) for problem in made.method.problems] == []
    return made.live.operations


def op(*lines: str) -> str:
    return block("op", *lines)


def ring(outer: float, inner: float, long: float) -> float:
    return math.pi / 4 * (outer**2 - inner**2) * long


def near(found: float, wanted: float) -> None:
    """Facets of a round lie inside it: a thousandth."""
    assert found == pytest.approx(wanted, rel=2e-3)


# ------------------------------------------------------------------------------------------------ rows and grids
def test_a_grid_has_its_holes_where_a_drawing_has_them() -> None:
    line = "drill: 5 mm, through, places (10 mm, 8 mm), row 4, apart 12 mm, rows 2, rows apart 20 mm"
    last = done(VICE + op(line), PLATE)[-1]
    wanted = [(10.0 + 12 * i, 8.0 + 20 * j) for j in range(2) for i in range(4)]
    assert [(round(x, 9), round(y, 9)) for x, y in last.plan.sketch.points] == wanted
    near(last.volume, 8 * math.pi / 4 * 5**2 * 25)


def test_a_row_runs_in_the_direction_that_is_said() -> None:
    points = done(VICE + op("drill: 4 mm, deep 5 mm, places (20 mm, 10 mm), row 3, apart 10 mm, row at 90 deg"), PLATE)[
        -1
    ].plan.sketch.points
    assert [(round(x, 9), round(y, 9)) for x, y in points] == [(20, 10), (20, 20), (20, 30)]


def test_a_bolt_circle_about_a_place() -> None:
    points = done(VICE + op("drill: 4 mm, through, on circle 24 mm, divide 4, about (30 mm, 20 mm)"), PLATE)[
        -1
    ].plan.sketch.points
    assert sorted((round(x, 6), round(y, 6)) for x, y in points) == [(18, 20), (30, 8), (30, 32), (42, 20)]


@pytest.mark.parametrize(
    ("clauses", "code"),
    [("row 0, apart 5 mm", "wrong-value"), ("row 3", "missing-clause"), ("row 3, apart 0 mm", "wrong-value"),
     ("row 500, apart 1 mm, rows 9", "too-many"), ("apart 5 mm", "idle-clause"), ("row at 30 deg", "idle-clause")],
)  # fmt: skip
def test_a_row_that_cannot_be(clauses: str, code: str) -> None:
    made = work_out(method(VICE + op(f"drill: 4 mm, deep 5 mm, places (20 mm, 10 mm), {clauses}"), stock=PLATE))
    assert made.method.problems[0].code == code
    assert made.method.problems[0].remedy


# ------------------------------------------------------------------------------------------------ facing
SHOULDERS = THREE_JAW + op("turn: to 30 mm, over 10 mm") + op("groove: from 20 mm, wide 14 mm, to 26 mm")


def test_a_shoulder_is_faced_down_to_the_hub_in_front_of_it() -> None:
    last = done(SHOULDERS + op("face: 0.5 mm, at 10 mm"))[-1]
    near(last.volume, ring(40, 30, 0.5))
    assert last.plan.face_moves == 0


def test_the_far_side_of_a_collar_with_a_left_hand_tool() -> None:
    last = done(SHOULDERS + op("face: 0.5 mm, at 20 mm, left hand"))[-1]
    near(last.volume, ring(40, 26, 0.5))
    assert "left-hand" in last.tool_name
    assert last.plan.sketch.start == 19.5


def test_the_bottom_of_a_recess() -> None:
    blocks = THREE_JAW + op("drill: 12 mm, deep 30 mm") + op("bore: to 24 mm, deep 10 mm")
    last = done(blocks + op("face: 0.5 mm, at 10 mm, inside"))[-1]
    near(last.volume, ring(24, 12, 0.5))
    assert "boring bar" in last.tool_name


@pytest.mark.parametrize(
    ("line", "code"),
    [("face: 0.5 mm, at 15 mm", "nothing-to-cut"), ("face: at 10 mm", "missing-clause"), ("face: 0.5 mm, inside", "idle-clause"),
     ("face: 0.5 mm, at 10 mm, inside", "nothing-to-cut"), ("face: 0.5 mm, at 10 mm, left hand", "nothing-to-cut")],
)  # fmt: skip
def test_no_shoulder_to_face(line: str, code: str) -> None:
    made = work_out(method(SHOULDERS + op(line)))
    assert made.method.problems[0].code == code


# ------------------------------------------------------------------------------------------------ plastics
@pytest.mark.parametrize(
    ("material", "key"),
    [("delrin", "plastic-heat"), ("nylon", "plastic-heat"), ("PTFE", "plastic-fume"), ("perspex", "brittle-plastic"),
     ("tufnol", "laminate-dust"), ("fibreglass", "laminate-dust"), ("cast iron bar", "iron-dust")],
)  # fmt: skip
def test_a_material_brings_its_caution_to_every_cut(material: str, key: str) -> None:
    for one in done(THREE_JAW + op("turn: to 36 mm, over 20 mm") + op("drill: 8 mm, deep 20 mm"), material=material):
        assert key in {caution.key for caution in one.cautions}


@pytest.mark.parametrize("material", ["delrin", "tufnol", "perspex"])
def test_a_plastic_has_speed_and_time_and_says_that_its_force_is_not_known(material: str) -> None:
    for one in done(THREE_JAW + op("turn: to 36 mm, over 20 mm") + op("drill: 8 mm, deep 20 mm"), material=material):
        assert {"spindle_speed", "feed"} <= {fact.key for fact in one.facts}
        assert one.worked.minutes > 0
        assert any("not known" in str(note) for note in one.notes)
        assert [check.key for check in one.checks if check.state != "passed"] == []
