"""Do limits and fits keep the standard's rules everywhere, and refuse what it does not give?"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.trade.fits.fits import fit, fit_as_measured, fit_by_interference, fit_from_limits
from methodsheets.trade.fits.general_tolerances import general_limits, general_tolerance_angle, general_tolerance_form
from methodsheets.trade.fits.iso286 import GRADES, letters, limits, tolerance_grade
from methodsheets.trade.fits.made_to_measured import hole_for_measured_shaft, shaft_for_measured_hole
from methodsheets.trade.fits.recommended_fits import recommended_fit, recommended_fits
from methodsheets.trade.form.calculation import NotInTable, OutOfRange

SIZES = (
    0.5,
    1,
    2,
    3,
    3.001,
    6,
    9,
    10,
    14,
    18,
    24,
    30,
    40,
    50,
    65,
    80,
    100,
    120,
    140,
    180,
    225,
    250,
    315,
    355,
    400,
    450,
    500,
)
NUMBERS = tuple(grade.removeprefix("IT") for grade in GRADES)


def _given(size: float, tolerance_class: str) -> tuple[float, float] | None:
    try:
        found = limits(size, tolerance_class)
    except NotInTable:
        return None
    return found.upper_deviation, found.lower_deviation


@pytest.mark.parametrize("letter", letters("hole") + letters("shaft"))
def test_every_class_is_given_or_refused_and_is_as_wide_as_its_grade(letter: str) -> None:
    answered = 0
    for size in SIZES:
        for number in NUMBERS:
            found = _given(size, f"{letter}{number}")
            if found is None:
                continue
            answered += 1
            assert found[0] - found[1] == pytest.approx(tolerance_grade(size, f"IT{number}"), abs=1e-9)
    assert answered, letter


@pytest.mark.parametrize("letter", ["a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h"])
def test_holes_a_to_h_mirror_the_shafts(letter: str) -> None:
    for size in SIZES:
        for number in ("6", "7", "11"):
            shaft, hole = _given(size, f"{letter}{number}"), _given(size, f"{letter.upper()}{number}")
            assert (shaft is None) == (hole is None)
            if shaft is not None and hole is not None:
                assert hole == (pytest.approx(-shaft[1]), pytest.approx(-shaft[0]))


@pytest.mark.parametrize("letter", ["p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc"])
def test_coarse_holes_p_to_zc_mirror_the_shafts(letter: str) -> None:
    for size in SIZES:
        shaft, hole = _given(size, f"{letter}9"), _given(size, f"{letter.upper()}9")
        assert (shaft is None) == (hole is None)
        if shaft is not None and hole is not None:
            assert hole[0] == pytest.approx(-shaft[1])


def test_deviations_grow_with_the_letter() -> None:
    order = [letter for letter in letters("shaft") if letter not in {"cd", "ef", "fg", "j", "js", "t", "v", "y"}]
    for size in (5, 25, 90, 300):
        lower = [limits(size, f"{letter}6").lower_deviation for letter in order]
        assert lower == sorted(lower)


@pytest.mark.parametrize(
    ("size", "tolerance_class"),
    [
        (12, "cd6"), (11, "fg7"), (24, "t6"), (14, "v6"), (18, "y7"), (20, "j9"), (3.5, "j8"), (25, "J5"), (25, "J9"),
        (3.5, "K9"), (1, "a9"), (1, "B11"), (1, "N9"), (1, "h14"), (20, "P2"), (20, "K1"),
    ],
)  # fmt: skip
def test_what_the_standard_does_not_give_is_refused(size: float, tolerance_class: str) -> None:
    with pytest.raises(NotInTable):
        limits(size, tolerance_class)


@pytest.mark.parametrize(
    ("size", "tolerance_class"),
    [(24.1, "t6"), (14.1, "v6"), (18.1, "y7"), (3, "j8"), (3, "K9"), (1.1, "a9"), (1, "N8"), (10, "cd6"), (3, "P3")],
)
def test_what_it_does_give_is_answered(size: float, tolerance_class: str) -> None:
    assert limits(size, tolerance_class).tolerance > 0


@pytest.mark.parametrize("size", [0.0, -3.0, 500.01, float("nan"), float("inf")])
def test_sizes_outside_the_tables_are_refused(size: float) -> None:
    with pytest.raises(OutOfRange):
        limits(size, "H7")


@pytest.mark.parametrize("name", ["", "7H", "Q7", "H", "H19", "o6", "H7.5", "i6", "W8", "L7"])
def test_names_that_are_no_class_are_refused(name: str) -> None:
    with pytest.raises(NotInTable):
        limits(25, name)


@pytest.mark.parametrize("name", ["g6/H7", "H7/H7", "H7", "H7/g", "h7/g6", "H7+g6"])
def test_names_that_are_no_fit_are_refused(name: str) -> None:
    with pytest.raises(NotInTable):
        fit(25, name)


@pytest.mark.parametrize("name", ["H7/g6", "H7-g6", "H7 g6", " H 7 / g 6 ", "H7 /g6"])
def test_a_fit_is_read_as_people_write_it(name: str) -> None:
    assert fit(25, name).name == "H7/g6"


def test_case_decides_hole_or_shaft() -> None:
    assert limits(25, "Js7").part == "hole"
    assert limits(25, "js7").part == "shaft"
    assert limits(8, "js7").upper_deviation == 0.0075, "the exact half of an odd grade"


@given(st.floats(1, 400), st.floats(-0.1, 0.1), st.floats(0, 0.1), st.floats(-0.1, 0.1), st.floats(0, 0.1))
def test_kind_by_the_numbers(base: float, hole: float, hole_t: float, shaft: float, shaft_t: float) -> None:
    found = fit_from_limits(base + hole + hole_t, base + hole, base + shaft + shaft_t, base + shaft)
    least, most = hole - shaft - shaft_t, hole + hole_t - shaft
    if abs(least) > 1e-6 and abs(most) > 1e-6:
        wanted = "clearance" if least > 0 else "interference" if most < 0 else "transition"
        assert found.kind == wanted
    assert found.interference_max == -found.clearance_min


@given(st.floats(10, 40), st.sampled_from(["H7/g6", "H7/p6", "H7/s6", "F8/h7", "K7/h6"]), st.floats(0, 0.004))
def test_a_part_made_to_measure_always_fits(measured: float, name: str, error: float) -> None:
    seat = fit(25, name)
    shaft = shaft_for_measured_hole(measured, seat, error)
    for size in (shaft.lower, shaft.upper):
        for true_hole in (measured - error, measured + error):
            assert seat.clearance_min - 1e-8 <= true_hole - size <= seat.clearance_max + 1e-8
    hole = hole_for_measured_shaft(shaft.aim, seat)
    assert hole.aim == pytest.approx(measured)


def test_a_measuring_error_wider_than_the_fit_is_refused() -> None:
    with pytest.raises(OutOfRange, match="half the width"):
        shaft_for_measured_hole(25, fit(25, "H7/g6"), 0.02)


def test_a_bore_outside_its_limits_is_said_to_be_so() -> None:
    made = shaft_for_measured_hole(25.03, fit(25, "H7/g6"))
    assert not made.other_within_limits
    assert "hole is larger" in made.note


def test_fits_put_in_by_hand() -> None:
    assert fit_by_interference(20, 0.01, 0.02).interference_max == 0.02
    assert fit_as_measured(20, 20.015, 0.002).interference_min == pytest.approx(0.011)
    with pytest.raises(OutOfRange):
        fit_by_interference(20, 0.02, 0.01)
    with pytest.raises(OutOfRange):
        fit_from_limits(20, 20.1, 19, 18)


def test_every_recommended_fit_exists_and_is_what_it_says() -> None:
    for advice in recommended_fits():
        for size in (8, 25, 60, 200):
            found = fit(size, advice.hole_basis)
            if "running" in advice.use or advice.use == "sliding":
                assert found.kind == "clearance"
            if advice.use in {"press", "heavy press", "force"}:
                assert found.kind == "interference"
            if advice.shaft_basis:
                assert fit(size, advice.shaft_basis).shaft.upper_deviation == 0
    with pytest.raises(NotInTable) as caught:
        recommended_fit("slidng")
    assert "sliding" in caught.value.suggestions


def test_general_tolerances_of_angles_and_form() -> None:
    assert general_limits(50, "c").upper == 50.8
    assert general_tolerance_angle(10, "m") == 1
    assert general_tolerance_angle(10.1, "m") == 0.5
    assert general_tolerance_angle(2000, "v") == pytest.approx(20 / 60)
    assert general_tolerance_form("straightness", 25, "H") == 0.05
    assert general_tolerance_form("squareness", 100, "L") == 0.6
    with pytest.raises(OutOfRange):
        general_limits(50, "x")
