"""Balance of the work and the cuts that bring it about, against closed forms of discs, holes and circular segments.

The moments of a circle and of a circular segment are those of any table of centroids: a segment of half width c has
the first moment 2 c³ / 3 about the axis.
"""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.formula.measure import Measure
from methodsheets.trade.metal.materials import material

DENSITY = material("EN1A").density * 1e-6
DISC = block("setup", "machine: lathe", "hold: three-jaw chuck, on 60 mm, grip 9 mm, end A out")
HEAVY = 10.0 * 20.0 * math.pi * 25.0 * DENSITY
"""g·mm that a hole Ø10, 10 deep, at 20 from the axis leaves opposite itself."""


def holed(*more: str, angle: int = 0) -> str:
    on_mill = block("setup", "machine: mill", "hold: rotary table, on 60 mm, grip 4 mm, end A up")
    hole = block("op", f"drill: 10 mm, through, on radius 20 mm, at {angle} deg")
    return method(on_mill + hole + "".join(more), stock="round 60 mm x 10 mm")


def calc(*lines: str) -> str:
    return block("calc", *lines)


def fields(text: str, name: str = "x") -> dict[str, float]:
    made = work_out(text).method
    assert not made.problems, [str(p) for p in made.problems]
    found = next(c for c in made.calculations if c.name == name)
    return {key: value.value for key, value in found.fields if isinstance(value, Measure)}


def value(text: str, name: str = "x") -> float:
    made = work_out(text).method
    assert not made.problems, [str(p) for p in made.problems]
    found = next(c for c in made.calculations if c.name == name).value
    assert isinstance(found, Measure)
    return found.value


def wrong(text: str) -> str:
    problems = work_out(text).method.problems
    assert len(problems) == 1, [str(p) for p in problems]
    return str(problems[0])


# ------------------------------------------------------------------------------------------------ asking
@pytest.mark.parametrize(("angle", "heavy"), [(0, 180.0), (60, -120.0), (-135, 45.0)])
def test_a_hole_leaves_the_disc_heavy_on_the_other_side(angle: int, heavy: float) -> None:
    found = fields(holed(calc("x = unbalance()"), angle=angle))
    assert found["amount"] == pytest.approx(HEAVY, rel=1e-5)
    assert abs(found["angle"]) % 360 == pytest.approx(abs(heavy), abs=1e-4)
    assert math.copysign(1, found["angle"]) == math.copysign(1, heavy) or abs(heavy) == 180
    assert found["eccentricity"] == pytest.approx(HEAVY / found["mass"], rel=1e-9)


def test_round_work_is_in_balance_and_says_so() -> None:
    made = work_out(
        method(DISC + block("op", "face: 0.5 mm") + calc("x = unbalance().amount"), stock="round 60 mm x 12 mm")
    )
    assert made.method.totals is not None
    told = {fact.key: str(fact.value) for fact in made.method.totals.facts}
    assert told["unbalance"] == "none"
    assert value(method(DISC + calc("x = unbalance().amount"), stock="round 60 mm x 12 mm")) == 0.0
    assert made.method.totals.tables == ()


def test_weight_is_that_of_the_work_at_this_line() -> None:
    stock = math.pi * 900 * 12 * DENSITY
    assert value(method(DISC + calc("x = weight()"), stock="round 60 mm x 12 mm")) == pytest.approx(stock, rel=1e-6)
    later = DISC + block("op", "face: 2 mm") + calc("x = weight()")
    assert value(method(later, stock="round 60 mm x 12 mm")) == pytest.approx(stock * 10 / 12, rel=1e-6)


def test_weight_of_a_piece_by_name() -> None:
    other = block(
        "setup",
        "piece: rod",
        "stock: round 10 mm x 40 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 10 mm, grip 10 mm",
    )
    text = method(DISC + other + calc('x = weight("rod")'), stock="round 60 mm x 12 mm")
    assert value(text) == pytest.approx(math.pi * 25 * 40 * DENSITY, rel=1e-6)
    assert "no such piece (got `stick`)" in wrong(text.replace('weight("rod")', 'weight("stick")'))


def test_before_the_first_set_up_there_is_no_work() -> None:
    text = wrong(method(calc("x = weight()") + DISC, stock="round 60 mm x 12 mm"))
    assert text.startswith("sample.md:9:5: there is no work yet; the work is there from the first set-up on")


# ------------------------------------------------------------------------------------------------ holes that balance
def test_a_flat_bottomed_hole_opposite_balances_the_disc() -> None:
    """Ø10 at 25 from the axis needs 10 · 20 / 25 = 8 mm."""
    found = fields(holed(calc("x = balance_hole(10 mm, 25 mm, 180 deg, point=180 deg)")))
    assert found["deep"] == pytest.approx(8.0, abs=2e-3)
    assert found["unbalance"] < 0.1
    assert found["before"] == pytest.approx(HEAVY, rel=1e-5)
    assert found["mass"] == pytest.approx(8.0 * math.pi * 25 * DENSITY, rel=1e-3)


def test_the_point_of_the_drill_counts() -> None:
    """A 118° point holds a third of its height in volume: the hole is that much less deep."""
    tip = 5.0 / math.tan(math.radians(59.0))
    found = fields(holed(calc("x = balance_hole(10 mm, 25 mm, 180 deg)")))
    assert found["deep"] == pytest.approx(8.0 - tip / 3, abs=5e-3)


def test_the_hole_that_was_worked_out_balances_when_it_is_drilled() -> None:
    drilled = calc("x = balance_hole(10 mm, 25 mm, 180 deg)") + block(
        "op", "drill: 10 mm, deep x.deep, on radius 25 mm, at 180 deg"
    )
    assert fields(holed(drilled, calc("y = unbalance()")), "y")["amount"] < 0.1


def test_a_stated_balance_is_just_met() -> None:
    deep = (HEAVY - 40.0) / (25.0 * math.pi * 25.0 * DENSITY)
    found = fields(holed(calc("x = balance_hole(10 mm, 25 mm, 180 deg, unbalance=40 g*mm, point=180 deg)")))
    assert found["deep"] == pytest.approx(deep, abs=4e-3)
    assert found["unbalance"] == pytest.approx(40.0, abs=0.05)


def test_two_holes_to_one_depth_share_the_work() -> None:
    """Two holes at ±60° of the heavy side count half each: together as much as one."""
    found = fields(holed(calc("x = balance_hole(10 mm, 25 mm, [120 deg, 240 deg], point=180 deg)")))
    assert found["deep"] == pytest.approx(8.0, abs=2e-3)


def test_a_hole_that_is_too_small_says_how_near_it_comes() -> None:
    """Ø4 right through at 25: π · 4 · 10 · 25 · ρ is all that it takes."""
    rest = HEAVY - math.pi * 4 * 10 * 25 * DENSITY
    text = wrong(holed(calc("x = balance_hole(4 mm, 25 mm, 180 deg, unbalance=1 g*mm, point=180 deg)")))
    assert f"the least is {rest:.3g} g*mm at 10 mm deep" in text
    assert "the heavy side lies at 180°" in text
    assert fields(holed(calc("x = balance_hole(4 mm, 25 mm, 180 deg, point=180 deg)")))["unbalance"] == pytest.approx(
        rest, rel=1e-4
    )


def test_a_hole_on_the_light_side_is_refused() -> None:
    assert "makes the balance worse" in wrong(holed(calc("x = balance_hole(6 mm, 25 mm, 0 deg, point=180 deg)")))
    assert "meets no metal" in wrong(holed(calc("x = balance_hole(6 mm, 45 mm, 180 deg)")))


def test_the_working_of_the_hole_gives_the_answer_again() -> None:
    made = work_out(holed(calc("x = balance_hole(10 mm, 25 mm, 180 deg, unbalance=40 g*mm)"))).method
    working = made.calculations[0].working
    assert working.steps
    assert working.steps[0].trust == "exact"
    assert "40 g mm" in working.steps[0].steps[0].plain.replace("·", " ").replace("\u202f", " ")


# ------------------------------------------------------------------------------------------------ flats that balance
def test_a_flat_takes_a_circular_segment() -> None:
    """2 c³ / 3 · length · density = U, distance² = R² - c²."""
    half = (1.5 * HEAVY / (10.0 * DENSITY)) ** (1 / 3)
    found = fields(holed(calc("x = balance_flat(180 deg)")))
    assert found["distance"] == pytest.approx(math.sqrt(900 - half**2), abs=0.02)
    assert found["depth"] == pytest.approx(30 - found["distance"], abs=1e-6)
    assert found["unbalance"] < 0.3


def test_a_flat_over_half_the_length_goes_deeper() -> None:
    half = (1.5 * HEAVY / (5.0 * DENSITY)) ** (1 / 3)
    found = fields(holed(calc("x = balance_flat(180 deg, from=2 mm, over=5 mm)")))
    assert found["distance"] == pytest.approx(math.sqrt(900 - half**2), abs=0.02)
    assert "does not lie on the work" in wrong(holed(calc("x = balance_flat(180 deg, from=6 mm, over=5 mm)")))


# ------------------------------------------------------------------------------------------------ the table
def test_one_plane_and_two_planes_of_a_holed_disc() -> None:
    """The hole runs right through: the middle plane takes it all, the two faces half each, at 0.8 of the radius."""
    totals = work_out(holed()).method.totals
    assert totals is not None
    (table,) = totals.tables
    one, near, far = table.rows
    assert isinstance(one[2], Measure)
    assert one[2].value == pytest.approx(HEAVY / 24.0, rel=1e-4)
    for row in (near, far):
        assert isinstance(row[2], Measure)
        assert row[2].value == pytest.approx(HEAVY / 48.0, rel=1e-4)
    assert all(
        isinstance(row[4], Measure) and abs(row[4].value) == pytest.approx(180.0, abs=1e-3) for row in table.rows
    )
    assert all(isinstance(row[5], Measure) and row[5].value == pytest.approx(0.0, abs=1e-3) for row in table.rows)


def test_a_couple_needs_two_planes() -> None:
    """Two blind holes from both ends on opposite sides: in balance at rest, but not when it turns."""
    up_a = block("setup", "machine: mill", "hold: rotary table, on 40 mm, grip 10 mm, end A up")
    up_b = block("setup", "machine: mill", "hold: rotary table, on 40 mm, grip 10 mm, end B up")
    hole = "drill: 6 mm, deep 10 mm, on radius 14 mm, at {} deg, point 180 deg"
    text = method(
        up_a + block("op", hole.format(0)) + up_b + block("op", hole.format(180)), stock="round 40 mm x 60 mm"
    )
    totals = work_out(text).method.totals
    assert totals is not None
    facts = {fact.key: fact.value for fact in totals.facts}
    taken = math.pi * 9 * 10 * DENSITY * 14
    assert isinstance(facts["couple"], Measure)
    assert facts["couple"].value == pytest.approx(taken * 50 / 1000, rel=1e-4)
    (table,) = totals.tables
    near, far = table.rows
    assert near[0] == "two planes, nearer end A"
    assert isinstance(near[2], Measure)
    assert near[2].value == pytest.approx(taken * 50 / 60 / 16.0, rel=1e-4)
    assert isinstance(near[4], Measure)
    assert isinstance(far[4], Measure)
    assert abs(near[4].value) == pytest.approx(180.0, abs=1e-3)
    assert far[4].value == pytest.approx(0.0, abs=1e-3)


# ------------------------------------------------------------------------------------------------ in the lathe
def test_the_ceiling_follows_the_work_as_it_is_cut_round() -> None:
    """m e ω² = 15 N at the ceiling; turning the offset bar round brings the unbalance down."""
    hold = block("setup", "machine: lathe", "hold: four-jaw chuck, on 40 mm, grip 15 mm, end A out, axis offset 4 mm")
    text = method(hold + block("op", "turn: to 20 mm, over 40 mm"), stock="round 40 mm x 60 mm")
    setup = work_out(text).method.setups[0]
    facts = {fact.key: fact.value for fact in setup.facts}
    grams = math.pi * 400 * 60 * DENSITY
    assert isinstance(facts["unbalance"], Measure)
    assert facts["unbalance"].value == pytest.approx(4 * grams, rel=1e-5)
    assert isinstance(facts["ceiling"], Measure)
    ceiling = 30 / math.pi * math.sqrt(15.0 / (4 * grams * 1e-6))
    assert facts["ceiling"].value == pytest.approx(ceiling, abs=10.0)
    assert facts["ceiling"].value <= ceiling
    assert isinstance(facts["counterweight"], Measure)
    assert facts["counterweight"].value == pytest.approx(4 * grams / 40.0, rel=1e-4)
    after = setup.operations[0].fact("unbalance")
    assert after is not None
    assert isinstance(after.value, Measure)
    assert after.value.value == pytest.approx(4 * math.pi * 400 * 20 * DENSITY, rel=1e-4)


def test_a_hole_goes_no_deeper_than_there_is_metal() -> None:
    """From 2 mm on, through a disc of 10 mm with nothing behind it, and still too little: 8 mm and not a hair more."""
    found = fields(holed(calc("x = balance_hole(4 mm, 25 mm, 180 deg, from=2 mm)")))
    assert found["depth"] == pytest.approx(8.0, abs=0.01)
    assert found["deep"] == pytest.approx(10.0, abs=0.01)
