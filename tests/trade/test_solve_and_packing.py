"""Does solve find what there is and say when there is nothing; does packing find the fewest bars?"""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.trade.calculation import OutOfRange
from methodsheets.trade.fits import fit_by_interference
from methodsheets.trade.packing import pack
from methodsheets.trade.press_fits import press_fit
from methodsheets.trade.solve import solve
from methodsheets.trade.stock import bar_area, bar_plan, blank_length, pieces_from_bar


@given(st.floats(0.1, 50), st.floats(0.05, 0.95))
def test_a_rising_function_is_turned_round(scale: float, share: float) -> None:
    wanted = scale * share**3
    found = solve(lambda x: scale * x**3, wanted, 0, 1)
    assert found.value == pytest.approx(share, abs=1e-7)
    assert found.monotone
    assert not found.reason


def test_every_answer_is_found_and_counted() -> None:
    found = solve(math.sin, 0.5, 0, 10)
    assert len(found.values) == 4
    assert found.value == pytest.approx(math.pi / 6)
    assert not found.monotone
    assert "4 inputs" in found.reason


@pytest.mark.parametrize(("wanted", "words"), [(200, "as much as"), (-1, "as little as")])
def test_nothing_is_said_to_be_nothing(wanted: float, words: str) -> None:
    found = solve(lambda x: x**2, wanted, 0, 10)
    assert found.value is None
    assert words in found.reason
    assert found.nearest_input in {0, 10}


def test_a_jump_is_no_answer() -> None:
    for function in (lambda x: 1.0 if x < 3.3 else 5.0, lambda x: 1 / (x - 3.3)):
        found = solve(function, 2 if function(9) == 5 else 0, 0, 10)
        assert found.value is None
        assert "jumps" in found.reason


def test_refused_inputs_are_passed_over() -> None:
    def only_above_two(x: float) -> float:
        if x < 2:
            raise OutOfRange("x", x, "mm", "2 or more")
        return x**2

    assert solve(only_above_two, 9, 0, 10).value == pytest.approx(3)
    assert "worked out" in solve(only_above_two, 9, 0, 1).reason
    with pytest.raises(OutOfRange):
        solve(only_above_two, 9, 5, 5)


def test_ends_count() -> None:
    assert solve(lambda x: x, 0, 0, 1).value == 0
    assert solve(lambda x: x, 1, 0, 1).value == 1


def test_interference_for_a_torque() -> None:
    def torque(interference: float) -> float:
        seat = fit_by_interference(16, interference, interference)
        return press_fit(seat, 12, 34, hub_material="EN1A").torque_min

    found = solve(torque, 20, 0.001, 0.05)
    assert found.value is not None
    assert torque(found.value) == pytest.approx(20)


def _fewest(items: list[int], room: int) -> int:
    """Find the fewest bars by trying every way of parting the items."""
    for count in range(1, len(items) + 1):
        for places in itertools.product(range(count), repeat=len(items)):
            loads = [0] * count
            for item, place in zip(items, places, strict=True):
                loads[place] += item
            if max(loads) <= room:
                return count
    raise AssertionError


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 10), min_size=1, max_size=7))
def test_packing_finds_the_fewest_bars(items: list[int]) -> None:
    ordered = sorted(items, reverse=True)
    bins, best = pack([float(item) for item in ordered], [], 10.0)
    assert best
    assert len(bins) == _fewest(items, 10)
    assert sorted(place for _, places in bins for place in places) == list(range(len(items)))
    assert all(sum(ordered[place] for place in places) <= 10 for _, places in bins)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.sampled_from([57.0, 83.0, 120.0, 214.0, 331.0]), min_size=1, max_size=60),
    st.lists(st.floats(60, 900), max_size=4),
)
def test_a_plan_cuts_every_blank_and_loses_nothing(lengths: list[float], have: list[float]) -> None:
    plan = bar_plan(lengths, [1] * len(lengths), 1000, 2.5, trim=3, remnant=10, have=have)
    assert plan.used == pytest.approx(sum(lengths))
    assert plan.bought == pytest.approx(
        plan.used + plan.lost_to_kerf + sum(plan.offcuts) + 3 * len(plan.cuts), abs=1e-6
    )
    assert plan.lost_to_kerf <= 2.5 * len(lengths) + 1e-9
    assert plan.new_bars >= 0
    least = (sum(lengths) - sum(have)) / 1000
    assert plan.new_bars >= least - 1e-9


def test_offcuts_are_used_first() -> None:
    plan = bar_plan([120], [2], 1000, 2, have=[300])
    assert plan.new_bars == 0
    assert plan.cuts == ("300 mm: 2 x 120",)
    assert plan.offcuts == (56.0,)


def test_greedy_is_not_good_enough_here() -> None:
    """Longest-first needs three bars of 10 for these; two do."""
    bins, best = pack([5, 4, 4, 3, 2, 2], [], 10)
    assert best
    assert len(bins) == 2
    bins, best = pack([6, 5, 5, 4, 4, 3, 3], [], 15)
    assert len(bins) == 2


def test_blanks_too_long_are_refused() -> None:
    with pytest.raises(OutOfRange, match="at most"):
        bar_plan([995], [1], 1000, 2, trim=3, remnant=10)
    with pytest.raises(OutOfRange):
        bar_plan([100], [1.5], 1000, 2)
    with pytest.raises(OutOfRange):
        bar_plan([100, 50], [1], 1000, 2)


def test_pieces_from_a_bar() -> None:
    assert pieces_from_bar(1000, 100, 0) == 10
    assert pieces_from_bar(1000, 98, 2) == 10
    assert pieces_from_bar(1000, 98.3, 2) == 9
    assert pieces_from_bar(50, 98, 2) == 0
    assert blank_length(50, 1, 1, 2, 10) == 63


def test_sections() -> None:
    assert bar_area("flat", 40, 5) == 200
    assert bar_area("tube", 20, 16) == pytest.approx(math.pi / 4 * (400 - 256))
    assert bar_area("octagon", 10) == pytest.approx(82.8427, abs=1e-4)
    with pytest.raises(OutOfRange):
        bar_area("tube", 20, 20)
    with pytest.raises(OutOfRange):
        bar_area("flat", 20)
