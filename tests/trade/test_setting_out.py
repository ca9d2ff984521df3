"""Do dividing, angles, tapers, holding and joints refuse what cannot be, and agree with themselves?"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.trade.bending.holding import collet_for, four_jaw_move, holding_runout, three_jaw_packing
from methodsheets.trade.bending.slender_work import grip_length, support_advice, unbalanced_speed
from methodsheets.trade.bending.stacks import runout_chain, stack, tolerance_share
from methodsheets.trade.bending.stiffness import turned_shape, work_bends
from methodsheets.trade.bending.tool_overhang import longest_overhang
from methodsheets.trade.dividing.angles import (
    compound_angle,
    dovetail_between_pins,
    dovetail_over_pins,
    dovetail_width,
    height_of_arc,
    radius_by_chord,
    radius_over_rollers,
    sine_bar_angle,
)
from methodsheets.trade.dividing.compound_indexing import compound_indexing
from methodsheets.trade.dividing.dividing import divide
from methodsheets.trade.dividing.pitch_circles import graduation, pitch_chord, polygon_flats, polygon_from_bar
from methodsheets.trade.dividing.rotary_table import table_setting
from methodsheets.trade.dividing.tapers import diameter_along_taper, standard_taper, taper_half_angle
from methodsheets.trade.form.calculation import NotInTable, OutOfRange
from methodsheets.trade.joining.brazing import gap_when_hot, joint_gap
from methodsheets.trade.joining.joining import spring_pin_strength
from methodsheets.trade.metal.balance import balance_drill_depth, balance_grade, static_balance, two_plane_balance
from methodsheets.trade.threads.screws import cap_screw, clearance_hole, tapped_strength


@given(st.integers(1, 400), st.sampled_from([40, 60, 72, 90]))
def test_every_division_comes_round_or_says_by_how_much_it_does_not(divisions: int, ratio: int) -> None:
    found = divide(divisions, ratio)
    moved = (found.turns + found.holes / found.circle) * divisions
    assert moved * 360 / ratio == pytest.approx(360 + found.error_all_round, abs=1e-6)
    assert found.exact == (found.error == 0) or abs(found.error) < 1e-12
    assert found.holes < found.circle


def test_dividing_refusals() -> None:
    with pytest.raises(OutOfRange, match="whole number"):
        divide(7.5)
    with pytest.raises(NotInTable):
        divide(7, plates="grandfather's")
    with pytest.raises(NotInTable):
        compound_indexing(7, circles=[21])
    with pytest.raises(OutOfRange):
        pitch_chord(50, 6, apart=6)


@given(st.floats(0, 720), st.sampled_from([40, 60, 72, 90]), st.sampled_from([1 / 60, 1 / 12, 10 / 3600, 0.1]))
def test_handwheel_and_dial_make_the_angle(angle: float, ratio: int, least: float) -> None:
    found = table_setting(angle, ratio, least)
    assert found.turns * 360 / ratio + found.dial == pytest.approx(angle + found.error, abs=1e-9)
    assert abs(found.error) <= least / 2 + 1e-9
    assert 0 <= found.table_reading < 360


@given(st.integers(3, 12), st.floats(5, 100))
def test_polygons_from_a_bar_have_sharp_corners(sides: int, bar: float) -> None:
    found = polygon_from_bar(bar, sides)
    assert found.across_corners == pytest.approx(bar)
    again = polygon_flats(found.across_flats, sides, bar)
    assert again.depth == pytest.approx(found.depth)
    assert again.side == pytest.approx(bar * math.sin(math.pi / sides))


def test_polygon_too_large_for_its_bar() -> None:
    with pytest.raises(OutOfRange, match="across flats"):
        polygon_flats(20, 6, 19)
    assert not polygon_flats(17.5, 6, 20).corners_sharp


def test_scale_lines() -> None:
    rim = graduation(36, 40, long_every=6, middle_every=3)
    assert rim.numbered == (0, 6, 12, 18, 24, 30)
    assert rim.angles[9] == 90


@given(st.floats(1, 100), st.floats(0.01, 1))
def test_arcs(radius: float, share: float) -> None:
    chord = 2 * radius * share
    height = height_of_arc(radius, chord)
    if height > 1e-3:
        assert radius_by_chord(chord, height) == pytest.approx(radius, rel=1e-6)


def test_angle_refusals() -> None:
    with pytest.raises(OutOfRange):
        height_of_arc(5, 11)
    with pytest.raises(OutOfRange):
        sine_bar_angle(101, 100)
    with pytest.raises(OutOfRange):
        radius_over_rollers(20, 10)
    with pytest.raises(OutOfRange):
        dovetail_between_pins(10, 60, 6)
    with pytest.raises(OutOfRange):
        dovetail_width(10, 10, 60)


@given(st.floats(20, 100), st.floats(40, 75), st.floats(3, 12))
def test_a_slide_fits_its_way(width: float, angle: float, pin: float) -> None:
    """Pins in the corners touch at a radius from side and base: checked by their distance from the sloping side."""
    over = dovetail_over_pins(width, angle, pin)
    centre = (over - pin) / 2 - width / 2
    slope = math.radians(angle)
    # The slide's side leans outwards over the pin: it runs up from the corner at this angle with the base.
    distance = abs(centre * math.sin(slope) - pin / 2 * math.cos(slope))
    assert distance == pytest.approx(pin / 2)


def test_compound_angles() -> None:
    assert compound_angle(10, 0).angle == pytest.approx(10)
    assert compound_angle(0, 10).direction == pytest.approx(90)
    assert compound_angle(-5, 0).direction == pytest.approx(180)


def test_tapers() -> None:
    assert standard_taper("2MT") == standard_taper(" morse 2")
    assert standard_taper("7:24").included_angle == pytest.approx(16.594, abs=1e-3)
    assert standard_taper("R8").included_angle == pytest.approx(16.85, abs=0.01)
    with pytest.raises(NotInTable):
        standard_taper("Morse 9")
    with pytest.raises(OutOfRange):
        taper_half_angle(10, 12, 30)
    with pytest.raises(OutOfRange, match="point"):
        diameter_along_taper(10, 0.1, 101)


@given(st.floats(10, 100), st.floats(0.001, 0.49))
def test_packing_bounds(diameter: float, share: float) -> None:
    found = three_jaw_packing(share * diameter, diameter)
    assert found.narrow_jaws <= found.thickness <= found.flat_jaws
    assert ("quarter" in found.note) == (share * diameter > diameter / 4)


def test_holding_refusals() -> None:
    with pytest.raises(OutOfRange):
        three_jaw_packing(10, 20)
    with pytest.raises(OutOfRange):
        collet_for(14, "ER20")
    with pytest.raises(NotInTable):
        collet_for(6, "ER99")
    with pytest.raises(OutOfRange):
        collet_for(40)
    with pytest.raises(NotInTable):
        holding_runout("string")
    assert collet_for(3.2, "ER11").name == 3.5
    assert collet_for(13, "er 20").name == 13
    assert four_jaw_move(0.2).move == pytest.approx(0.1)
    assert support_advice(35, 10).support == "chuck"
    assert support_advice(200, 10).slenderness == 20
    assert grip_length(6) == 6
    assert grip_length(10, 60) == 20


def test_unbalanced_speed_is_where_the_force_is_met() -> None:
    found = unbalanced_speed(5000, 80, 0.1)
    omega = found.spindle_speed * 2 * math.pi / 60
    assert 5000e-6 * omega**2 == pytest.approx(0.1 * 80 * 9.80665)


def test_bending_refusals() -> None:
    with pytest.raises(OutOfRange):
        work_bends(10, [10, 20], [5])
    with pytest.raises(OutOfRange):
        work_bends(10, [], [])
    with pytest.raises(OutOfRange):
        work_bends(10, [50], [5], at=51)
    with pytest.raises(OutOfRange):
        work_bends(10, [50], [5], bores=[1, 2])
    with pytest.raises(OutOfRange):
        turned_shape(10, [50], [5], cut_start=30, cut_end=20)
    with pytest.raises(OutOfRange):
        work_bends(10, [50], [5], support="glue")
    assert work_bends(10, [50], [5], at=0, support="chuck and centre").deflection == 0
    assert work_bends(10, [20], [10]).note
    assert longest_overhang(10, 5, work_bends(10, [50], [5]).deflection) == pytest.approx(50)


def test_stacks() -> None:
    with pytest.raises(OutOfRange):
        stack([1, 2], [0.1])
    with pytest.raises(OutOfRange):
        stack([1], [-0.1], [0.1])
    assert stack([1], [0.1]).note
    assert not stack([1], [0.1], pieces=50).note
    assert tolerance_share(0.2, 4, "statistical") == pytest.approx(0.1)
    assert runout_chain([0.03, 0.04]).likely == pytest.approx(0.05)


def test_balance_edges() -> None:
    assert static_balance([5, 5], [10, 10], [0, 180], 20).mass == pytest.approx(0, abs=1e-12)
    with pytest.raises(OutOfRange):
        static_balance([5], [10, 10], [0], 20)
    with pytest.raises(OutOfRange):
        two_plane_balance([5], [10], [0], [1, 2], 50, 20)
    with pytest.raises(OutOfRange, match="smaller drill"):
        balance_drill_depth(1, 30, 20, 7850, point_angle=118)
    with pytest.raises(NotInTable):
        balance_grade("kite")


def test_joint_tables() -> None:
    with pytest.raises(NotInTable):
        joint_gap("chewing gum")
    with pytest.raises(NotInTable):
        spring_pin_strength(2.2)
    with pytest.raises(OutOfRange, match="cap height"):
        cap_screw("M7")
    with pytest.raises(NotInTable):
        clearance_hole("M9")
    assert clearance_hole("m8x1", "fine") == 8.4
    assert gap_when_hot(0.05, 20, 12e-6, 12e-6, 600) == 0.05
    assert tapped_strength("M6", 200).length > tapped_strength("M6", 400).length


def test_a_dial_typed_as_a_decimal_reads_whole_minutes() -> None:
    # A vernier of 2 minutes is written 0.0333333 degrees: half a turn of a 90:1 table is still 45 turns and nothing.
    setting = table_setting(180, 90, 0.0333333)
    assert (setting.turns, setting.dial) == (45, 0.0)
    assert table_setting(51.428571, 90, 0.0333333).dial_words == "3° 26′ 0″"


def test_collet_tapers_by_the_names_in_use() -> None:
    # From memory: the head of a 5C collet is 10 degrees per side, an ER collet 8.
    assert standard_taper("5C").half_angle == pytest.approx(10, abs=1e-5)
    assert standard_taper("ER32").half_angle == pytest.approx(8, abs=1e-5)
    assert standard_taper("Brown & Sharpe 9").rate == pytest.approx(0.5009 / 12)
