"""Do the ordinary jobs cut what their words say? Volumes against closed forms, places against a drawing's sums."""

from __future__ import annotations

import math

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.trade.form.tables import read_table
from methodsheets.trade.metal.heat import colour_temperature
from methodsheets.trade.metal.materials import material

VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
PLATE = "plate 60 mm x 40 mm x 25 mm"


def done(blocks: str, stock: str = "round 40 mm x 60 mm", material: str = "EN1A") -> list[CheckedOperation]:
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
    points = done(VICE + op("drill: 4 mm, through, on circle 24 mm about (30 mm, 20 mm), divide 4"), PLATE)[
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


# ------------------------------------------------------------------------------------------------ teeth
HEAD = "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out"
TABLE = block("setup", "machine: mill", HEAD)


def _gap_area(module: float, teeth: int) -> float:
    """Area of one gap, by summing rings: another way than the outline of the cutter."""
    from methodsheets.trade.dividing.gears import gap_half_angle

    root, tip, n = module * (teeth - 2.5) / 2, module * (teeth + 2) / 2, 4000
    step = (tip - root) / n
    return sum(
        2 * gap_half_angle(module, teeth, root + (i + 0.5) * step) * (root + (i + 0.5) * step) * step for i in range(n)
    )


def test_a_gear_has_its_teeth() -> None:
    last = done(TABLE + op("gear: module 1 mm, teeth 38, over 15 mm"))[-1]
    assert last.volume == pytest.approx(38 * 15 * _gap_area(1, 38), rel=5e-3)
    told = {fact.key: str(fact.value) for fact in last.facts}
    assert "No. 6" in told["gear_cutter"]
    assert last.tables[0].rows, "the table of the dividing"


def test_a_rack_steps_by_pi_times_the_module() -> None:
    last = done(VICE + op("rack: module 1 mm, teeth 8"), PLATE)[-1]
    gap = 2.25 * (math.pi / 2 + 2 * (1 - 1.25) / 2 * math.tan(math.radians(20)))
    near(last.volume, 8 * 40 * gap)


# ------------------------------------------------------------------------------------------------ round ends, holes
def test_a_ball_end_leaves_half_a_sphere() -> None:
    last = done(THREE_JAW + op("turn: to 20 mm, over 25 mm", "depth: 0.5 mm") + op("dome: 10 mm"))[-1]
    near(last.volume, math.pi * 10**2 * 10 - 2 / 3 * math.pi * 10**3)
    assert len(last.tables[-1].rows) == 12


def test_a_taper_to_a_point() -> None:
    last = done(THREE_JAW + op("taper: from 0 mm, to 10 mm, over 8.66 mm"))[-1]
    assert last.volume == pytest.approx(math.pi * 8.66 * (20**2 - 5**2 / 3), rel=1e-5)
    assert last.words.metric == "Taper from a point to Ø10 over 8.66"


@pytest.mark.parametrize(("shape", "area"), [("square", 144.0), ("hexagon", 144 * math.sqrt(3) / 2)])
def test_a_broached_hole(shape: str, area: float) -> None:
    last = done(THREE_JAW + op("drill: 12 mm, through") + op(f"broach: {shape} 12 mm"))[-1]
    assert last.volume == pytest.approx(60 * (area - math.pi * 36), rel=6e-3)


def test_lapping_takes_what_was_left() -> None:
    blocks = THREE_JAW + op("drill: 9.7 mm, deep 40 mm") + op("bore: to 9.98 mm, deep 28 mm")
    near(done(blocks + op("lap: to 10 mm, inside, over 28 mm"))[-1].volume, ring(10, 9.98, 28))


def test_a_cut_beside_the_axis() -> None:
    last = done(THREE_JAW + op("split: off axis 12 mm"))[-1]
    near(last.volume, 2 * math.sqrt(20**2 - 12**2) * 1 * 60)


def test_two_starts_run_at_twice_the_pitch() -> None:
    blocks = (
        THREE_JAW + op("turn: to 20 mm, over 30 mm", "depth: 0.5 mm") + op("groove: at 24 mm, wide 6 mm, to 16.5 mm")
    )
    one, two = (
        done(blocks + op(f"thread: M20 x 1.5, over 24 mm{starts}"))[-1] for starts in ("", ", starts 2")
    )  # fmt: skip
    assert (one.worked.feed, two.worked.feed) == (1.5, 3.0)
    assert {"lead", "next_start"} <= {fact.key for fact in two.facts}


def test_a_groove_behind_an_inside_thread_is_its_run_out() -> None:
    blocks = THREE_JAW + op("drill: 16 mm, deep 40 mm") + op("bore: to 18.4 mm, deep 30 mm")
    blocks += op("groove: from 25 mm, wide 5 mm, to 21 mm, inside") + op("thread: M20 x 1.5 LH, over 25 mm, inside")
    assert "5 behind the thread" in " ".join(str(check.words) for check in done(blocks)[-1].checks)


def test_a_hexagon_bar_in_independent_jaws() -> None:
    """Two jaws on flats and two on corners: it can be done, with packing, and the sheet says so."""
    chuck = block("setup", "machine: lathe", "hold: four-jaw chuck, on 24 mm, grip 15 mm, end A out")
    made = work_out(method(chuck + op("face: 1 mm"), stock="hexagon 24 mm x 50 mm"))
    assert [c.words.metric for c in made.method.failed] == []
    assert [c.tight for c in made.method.setups[0].checks if "corners" in c.words.metric] == [True]


# ------------------------------------------------------------------------------------------------ heat, springs, knurls
def test_a_colour_tells_its_temperature() -> None:
    """Every colour of the table, however it is put; what is none is none."""
    for row in read_table("heat_colours").rows:
        assert colour_temperature(f"to {row['colour'].replace(' ', '-').title()}, the thin end") == float(row["at"])
    assert colour_temperature("780 degC") is None
    blocks = THREE_JAW + op("harden: all over, at cherry red, temper dark straw")
    given = {fact.key: str(fact.value) for fact in done(blocks, material="silver steel")[-1].facts}
    assert given["temper_at"].startswith("240")


def test_a_spring_that_pulls() -> None:
    """F = τ π d³ / 8 D with τ = 0.45 R_m: EN 13906-2, from memory. Drawn s = 8 D³ n F / G d⁴."""
    last = done(THREE_JAW + op("turn: to 8 mm, over 24 mm", "depth: 0.3 mm") + op("wind: 1 mm, on 8 mm, coils 10"))[-1]
    told = {fact.key: fact.value for fact in last.facts}
    load = 0.45 * material("music wire").tensile_low * math.pi / (8 * 9)
    assert told["most_load"].value == pytest.approx(load, rel=1e-6)  # type: ignore[union-attr]
    assert told["most_travel"].value == pytest.approx(8 * 9**3 * 10 * load / 81500, rel=1e-3)  # type: ignore[union-attr]
    assert "close_load" not in told


def test_colours_stand_beside_the_temperatures() -> None:
    last = done(THREE_JAW + op("harden: at 780 degC, quench water, temper 230 degC"), material="silver steel")[-1]
    notes = " ".join(str(fact.note) for fact in last.facts)
    assert "cherry" in notes
    assert "straw" in notes


def test_what_is_not_known_of_a_spring_is_said() -> None:
    blocks = (
        THREE_JAW + op("turn: to 8 mm, over 24 mm", "depth: 0.3 mm") + op("wind: 1 mm, on 8 mm, coils 8, apart 2.5 mm")
    )
    told = {fact.key: str(fact.value) for fact in done(blocks)[-1].facts}
    assert told["released"] == "not known"
    assert told["rate"].startswith("1.75")


def test_a_knurl_says_where_it_closes_up() -> None:
    told = {fact.key: str(fact.value) for fact in done(THREE_JAW + op("knurl: over 15 mm, pitch 1 mm"))[-1].facts}
    assert told["closes"].startswith("126 ridges go round Ø40.11")
