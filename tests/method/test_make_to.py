"""Sizes made to a measured partner: what the sheet prints beside the blank, against the limits of ISO 286-2.

H7/s6 at 16 mm: hole +18/0, shaft +39/+28 µm. H7/g6 at 10 mm: hole +15/0, shaft -5/-14 µm (tables of ISO 286-2, from memory).
"""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.sheet.model import Limit


def limit(check: str, fit: str = 'fit(16 mm, "H7/s6")', make: str = "turn: to 16 mm, over 25 mm") -> Limit:
    text = method(block("calc", f"seat = {fit}") + THREE_JAW + block("op", make, f"check: {check}"))
    made = work_out(text).method
    assert not made.problems, [str(p) for p in made.problems]
    return made.operations[0].limits[0]


def test_a_shaft_for_a_press_fit_is_larger_than_the_measured_bore() -> None:
    """Interference 10 to 39 µm: the shaft is so much above the bore as it was measured."""
    found = limit('make_to(seat, "bore") with micrometer')
    assert (found.add_low, found.add_high) == (pytest.approx(0.010), pytest.approx(0.039))
    assert found.make_to.metric == "bore measured ____ + 0.010 to 0.039"
    assert (found.make_to_name, found.gauge, found.name) == ("bore", "micrometer", "shaft to the measured bore")
    assert (found.lower.value, found.upper.value) == (pytest.approx(16.010), pytest.approx(16.039))


def test_a_running_shaft_is_smaller() -> None:
    """Clearance 5 to 29 µm."""
    found = limit('make_to(seat, "bore")', 'fit(10 mm, "H7/g6")', "turn: to 10 mm, over 25 mm")
    assert (found.add_low, found.add_high) == (pytest.approx(-0.029), pytest.approx(-0.005))
    assert found.make_to.metric == "bore measured ____ \u2212 0.005 to 0.029"


def test_a_hole_is_made_to_a_measured_shaft() -> None:
    found = limit('make_to(seat, "journal", part="hole")', 'fit(10 mm, "H7/g6")', "turn: to 10 mm, over 25 mm")
    assert (found.add_low, found.add_high) == (pytest.approx(0.005), pytest.approx(0.029))
    assert found.make_to.metric == "journal measured ____ + 0.005 to 0.029"


def test_a_transition_fit_goes_both_ways() -> None:
    """H7/k6 at 16 mm: hole +18/0, shaft +12/+1 µm, so -17 to +12 µm."""
    found = limit('make_to(seat, "bore")', 'fit(16 mm, "H7/k6")')
    assert found.make_to.metric == "bore measured ____ \u2212 0.017 to + 0.012"


def test_the_measuring_error_is_kept_off_both_sides() -> None:
    found = limit('make_to(seat, "bore", measuring_error=0.003 mm)')
    assert (found.add_low, found.add_high) == (pytest.approx(0.013), pytest.approx(0.036))


def test_a_fit_is_due_and_nothing_else() -> None:
    text = method(THREE_JAW + block("op", "turn: to 16 mm, over 25 mm", 'check: make_to(16 mm, "bore")'))
    (problem,) = work_out(text).method.problems
    assert "`seat` is the result of a calculation of the sort Fit (got 16 mm)" in str(problem)


def test_limits_are_named_by_size_and_zone() -> None:
    assert limit('limits(16 mm, "h6") with micrometer').name == "16 mm h6"
