"""Does packing find the fewest bars?"""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.trade.form.calculation import OutOfRange
from methodsheets.trade.metal.packing import pack
from methodsheets.trade.metal.stock import bar_area, bar_plan, blank_length, pieces_from_bar


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
    assert plan.lost_to_kerf <= 2.5 * len(lengths) + 1e-6
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
