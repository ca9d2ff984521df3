"""Does dividing agree with an army milling course, a rotary-table manual and workshop pages?"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from methodsheets.trade.dividing.compound_indexing import HEAD_GEARS, compound_indexing, differential_indexing
from methodsheets.trade.dividing.dividing import circles_of, divide, divide_angle, index_table, plates_of
from methodsheets.trade.dividing.pitch_circles import pitch_chord, pitch_circle
from methodsheets.trade.dividing.rotary_table import (
    angle_from_minutes,
    degrees_minutes_seconds,
    table_positions,
    table_setting,
)

from .cases import INCH, Case, case, cases

INDEXING = tuple(cases("cutting", "indexing"))
SUBJECT = "Dividing"


@pytest.mark.parametrize("entry", INDEXING, ids=lambda entry: entry.name)
def test_plain_indexing(entry: Case) -> None:
    divisions, ratio = float(entry.inputs["divisions"]), float(entry.inputs["ratio"])
    circle = int(entry.expected["circle"])
    own = divide(divisions, ratio, circles=[circle])
    assert own.exact
    entry.check(SUBJECT, "turns", own.turns)
    entry.check(SUBJECT, "holes", own.holes)
    entry.check(SUBJECT, "crank_turns", own.crank_turns)
    for plates in ("three plates", "two sides"):
        found = divide(divisions, ratio, plates)
        if circle in circles_of(plates, ()):
            assert f"{entry.expected['holes']} on {circle}" in found.choices
        if found.exact:
            moved = (found.turns + Fraction(found.holes, found.circle)) * int(divisions)
            assert moved == int(ratio)


def test_the_plates_are_the_published_ones() -> None:
    three, two = case("cutting", "plates-bs").expected, case("cutting", "plates-cinc").expected
    assert [set(circles) for _, circles in plates_of("three plates")] == [
        {int(circle) for circle in three[f"plate{number}"].split()} for number in (1, 2, 3)
    ]
    assert [set(circles) for _, circles in plates_of("two sides")] == [
        {int(circle) for circle in two[side].split()} for side in ("side1", "side2")
    ]


def test_a_prime_above_the_plates() -> None:
    entry = case("cutting", "idx-127")
    found = divide(127)
    entry.check(SUBJECT, "crank_turns", found.crank_turns)
    assert not found.exact
    assert found.error != 0
    assert "differential" in found.note


ANGLES = {
    # case: angle [deg], set of plates or circles, holes and circle published
    "ang-8-50": (8 + 50 / 60, {"plates": "two sides"}, 0, 53, 54),
    "ang-54min": (54 / 60, {"plates": "three plates"}, 0, 2, 20),
    "ang-35": (35.0, {"circles": [18]}, 3, 16, 18),
    "ang-11-5": (11.5, {"circles": [18]}, 1, 5, 18),
    "ang-48-40": (48 + 40 / 60, {"circles": [27]}, 5, 11, 27),
}


@pytest.mark.parametrize("name", ANGLES)
def test_angular_indexing(name: str) -> None:
    angle, have, turns, holes, circle = ANGLES[name]
    entry = case("cutting", name)
    found = divide_angle(angle, 40, **have)
    entry.check(SUBJECT, "turns", found.crank_turns)
    assert found.exact
    assert found.turns == turns
    assert Fraction(found.holes, found.circle) == Fraction(holes, circle)
    assert f"{holes} on {circle}" in found.choices


def test_whole_turns_and_minutes_of_a_turn() -> None:
    entry = case("cutting", "ang-45")
    found = divide_angle(45, 40)
    entry.check(SUBJECT, "turns", found.turns + found.holes / found.circle)
    entry = case("cutting", "ang-min-per-turn")
    entry.check(SUBJECT, "minutes", 360 / entry.inputs["ratio"] * 60)
    assert divide_angle(9, 40).turns == 1


def test_the_nearest_circle_and_its_error() -> None:
    """24 minutes: 1 hole on 23 gives 23.478 minutes (US Army OD1644)."""
    entry = case("cutting", "ang-24min")
    for plates in ("three plates", "two sides"):
        found = divide_angle(24 / 60, 40, plates)
        assert Fraction(found.holes, found.circle) == Fraction(1, 23)
        assert not found.exact
        entry.check(SUBJECT, "error", 24 + found.error * 60, 540 / 23)
    entry.check(SUBJECT, "circle_exact", 540 / 24)


def test_degrees_minutes_and_seconds() -> None:
    entry = case("cutting", "dms-26")
    angle = 360 / entry.inputs["divisions"]
    assert abs(angle - 13.646) > 0.1, "13.646 is the page's misprint"
    entry.check(SUBJECT, "decimal", angle, 13.846154)
    found = degrees_minutes_seconds(angle, 3)
    assert (found.degrees, found.minutes, found.seconds) == (13, 50, 46.154)
    assert angle_from_minutes(13, 50, 46.154) == pytest.approx(angle, abs=1e-7)
    assert degrees_minutes_seconds(9.9999999).words == "10° 0′ 0″"


# Handbook tables of differential indexing, from memory: gears that turn the plate by the fraction that is missing.
DIFFERENTIAL = {
    61: (60, Fraction(2, 3)),
    97: (100, Fraction(6, 5)),
    127: (120, Fraction(7, 3)),
    59: (60, Fraction(2, 3)),
}


@pytest.mark.parametrize(
    "divisions", [51, 53, 57, 59, 61, 63, 67, 69, 71, 73, 79, 83, 87, 89, 91, 93, 97, 99, 101, 127]
)
def test_differential_indexing_comes_out_at_one_turn(divisions: int) -> None:
    found = differential_indexing(divisions)
    if divisions in DIFFERENTIAL:
        near, ratio = DIFFERENTIAL[divisions]
        assert found.set_for == near
        assert Fraction(found.spindle_gear, found.worm_gear) == ratio
    train = Fraction(found.spindle_gear, found.worm_gear)
    if found.first_stud_gear:
        train *= Fraction(found.second_stud_gear, found.first_stud_gear)
    plate = train if found.plate_turns == "with the crank" else -train
    crank_on_plate = divisions * (found.turns + Fraction(found.holes, found.circle))
    assert crank_on_plate + plate == 40, "the worm has turned 40 times when the work has turned once"
    used = [found.spindle_gear, found.worm_gear, found.first_stud_gear, found.second_stud_gear]
    assert all(used.count(gear) <= HEAD_GEARS.count(gear) for gear in used if gear)


@pytest.mark.parametrize("divisions", [51, 63, 69, 77, 91, 99])
def test_compound_indexing_adds_up(divisions: int) -> None:
    found = compound_indexing(divisions)
    moved = Fraction(found.holes, found.circle) + Fraction(found.plate_holes, found.plate_circle)
    assert found.exact == (moved * divisions == 40)
    assert found.error == pytest.approx(float(moved - Fraction(40, divisions)) * 9)
    same_plate = dict(plates_of("three plates"))[found.plate]
    assert {found.circle, found.plate_circle} <= set(same_plate)


def test_setting_each_line_to_its_nearest_hole_bounds_the_error() -> None:
    table = index_table(127, 49, 40)
    for k, (turns, holes, error) in enumerate(zip(table.turns, table.holes, table.errors, strict=True)):
        reached = (turns + holes / 49) * 9
        assert reached - 360 * k / 127 == pytest.approx(error, abs=1e-9)
        assert abs(error) <= 9 / 49 / 2 + 1e-12


def test_rotary_table_settings_reach_their_angles() -> None:
    for ratio, least in ((90, 1 / 60), (40, 1 / 12), (72, 10 / 3600), (60, 1 / 60)):
        found = table_positions(7, ratio, least)
        for angle, turns, dial, error in zip(found.angles, found.turns, found.dials, found.errors, strict=True):
            assert turns * 360 / ratio + dial == pytest.approx(angle + error)
            assert abs(error) <= least / 2 + 1e-12
            assert dial < 360 / ratio
    assert table_setting(30, 90).words == "7 turns + 2° 0′ 0″"


def test_pitch_circles() -> None:
    entry = case("cutting", "bc-5")
    found = pitch_circle(50, 5)
    entry.check("Pitch circles", "x2", found.x[1], 7.7254)
    entry.check("Pitch circles", "y2", found.y[1], 23.7764)
    entry = case("cutting", "bc-12")
    found = pitch_circle(8 * INCH, 12, start=75)
    entry.check("Pitch circles", "x1", found.x[0] / INCH, 1.0353)
    entry.check("Pitch circles", "y1", found.y[0] / INCH, 3.8637)
    entry = case("cutting", "bc-3")
    found = pitch_circle(4 * INCH, 3, start=90, clockwise=True)
    entry.check("Pitch circles", "x2", found.x[1] / INCH, 1.7321)
    entry.check("Pitch circles", "y2", found.y[1] / INCH, -1.0)
    entry = case("cutting", "bc-chord")
    entry.check("Pitch circles", "chord", pitch_chord(50, 6), 25)


def test_moves_add_up_to_places() -> None:
    found = pitch_circle(60, 7, start=13, centre_x=5, centre_y=-2)
    assert 5 + sum(found.moves_x) == pytest.approx(found.x[-1])
    assert -2 + sum(found.moves_y) == pytest.approx(found.y[-1])
    for k in range(1, 7):
        assert math.hypot(found.moves_x[k], found.moves_y[k]) == pytest.approx(found.chord)
