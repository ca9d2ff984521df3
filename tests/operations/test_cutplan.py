"""Does the plan of a cut do what a person at the machine would?

What is common practice is marked so; the arithmetic of speed, passes and power is exact.
"""

from __future__ import annotations

import math
from itertools import accumulate

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from methodsheets.operations.cutplan import (
    Cut,
    Motor,
    choose,
    drills_before,
    holding_bound,
    round_passes,
    round_steps,
    screwcutting_bound,
    worth_a_change,
)
from methodsheets.vocabulary.holding import Way

METRIC = round_steps(0.02)
THOU = round_steps(0.0254, inch=True)
BELT = (130.0, 220.0, 400.0, 640.0, 1000.0, 1600.0)


@pytest.mark.parametrize(
    ("total", "most", "last", "passes"),
    [
        (2.0, 0.75, 0.2, [0.6, 0.6, 0.6, 0.2]),
        (1.993, 0.75, 0.2, [0.6, 0.6, 0.6, 0.193]),
        (0.2, 0.75, 0.2, [0.2]),
        (1.0, 0.75, 0.0, [0.5, 0.5]),
        (7.0, 2.0, 0.0, [2.0, 2.0, 2.0, 1.0]),
        (32.0, 1.99, 0.2, [*[2.0] * 15, 1.8, 0.2]),
        (8.51, 0.95, 0.2, [*[0.9] * 9, 0.2, 0.21]),
        (8.5, 1.0, 0.2, [*[1.0] * 8, 0.3, 0.2]),
    ],
)
def test_passes_are_equal_and_round(total: float, most: float, last: float, passes: list[float]) -> None:
    """Common practice: what a person sets on a dial of 0.02 mm."""
    assert round_passes(total, most, last, METRIC) == pytest.approx(passes)


@given(st.floats(0.05, 40.0), st.floats(0.1, 4.0), st.sampled_from([0.0, 0.2]), st.sampled_from([METRIC, THOU]))
@example(17.5234375, 0.3359375, 0.0, THOU)
def test_passes_add_up_and_none_is_too_deep(total: float, most: float, last: float, steps: tuple[float, ...]) -> None:
    last = min(last, total)
    laid = round_passes(total, most, last, steps)
    assert sum(laid) == pytest.approx(total)
    assert min(laid) > 0
    assert max(laid) <= max(1.03 * most, 1.75 * last) + 1e-6 or len(laid) == 1
    rough = math.ceil(max(0.0, total - last) / most - 1e-6)
    whole = math.floor(most / steps[-1]) * steps[-1]  # the deepest pass that stands on a line
    assert len(laid) <= max(rough + max(1, rough // 8), math.ceil((total - last) / whole)) + 1


@given(st.floats(1.0, 40.0), st.floats(0.3, 4.0), st.sampled_from([METRIC, THOU]))
def test_all_but_the_last_pass_are_whole_graduations(total: float, most: float, steps: tuple[float, ...]) -> None:
    """Before a finishing cut the dial stands on a line; what is odd about a size is left to the last pass."""
    reached = list(accumulate(round_passes(total, most, 0.2, steps)))[:-1]
    assert [one for one in reached if abs(one / steps[-1] - round(one / steps[-1])) > 1e-6] == []


def test_steps_are_those_that_the_dial_has() -> None:
    assert all(abs(step / 0.02 - round(step / 0.02)) < 1e-9 for step in METRIC)
    assert 0.25 not in METRIC
    assert 0.25 in round_steps(0.025)
    assert [round(step / 0.0254) for step in THOU] == [50, 25, 20, 10, 5, 2, 1]


def cut(**changed: float) -> Cut:
    given = {"diameter": 20.0, "total": 2.0, "last": 0.2, "travel": 60.0, "feed": 0.1, "most_depth": 0.75}
    return Cut(**(given | changed))


def test_a_strong_motor_takes_the_speed_of_the_table() -> None:
    found = choose(cut(), BELT, Motor(100.0, 0.75, 100.0, 10_000.0))
    assert found is not None
    assert (found.spindle, found.depth, found.why_depth, found.why_speed) == (1600.0, 0.75, "", "")


def test_a_weak_motor_takes_fewer_deeper_passes_at_a_lower_speed() -> None:
    """Carbide in mild steel on 0.37 kW: not 0.2 mm at full speed (common practice)."""
    motor = Motor(1000.0, 0.75, 100.0, 280.0)  # 1 kW for 0.75 mm at 100 m/min; 280 W are planned for
    found = choose(cut(least_speed=25.0, back=0.4), BELT, motor)
    assert found is not None
    assert found.spindle < 1600.0
    assert found.depth > 2 * motor.deepest(100.0)
    assert "motor" in found.why_speed
    v = math.pi * 20.0 * found.spindle / 1000
    assert v >= 25.0
    assert 1000.0 * (found.depth / 0.75) * (v / 100.0) <= 280.0 + 1e-6


@given(st.floats(50.0, 5000.0), st.floats(5.0, 90.0), st.floats(0.3, 20.0))
def test_a_choice_never_takes_more_than_the_motor_has(most: float, diameter: float, total: float) -> None:
    motor = Motor(800.0, 1.0, 60.0, most)
    found = choose(cut(diameter=diameter, total=total), BELT, motor)
    assert found is not None
    speed = math.pi * diameter * found.spindle / 1000
    assert 800.0 * found.depth * speed / 60.0 <= most * (1 + 1e-9)


@given(st.floats(100.0, 3000.0))
def test_a_stronger_motor_is_never_slower(most: float) -> None:
    weak, strong = (choose(cut(), BELT, Motor(800.0, 1.0, 60.0, watts)) for watts in (most, 1.5 * most))
    assert weak is not None
    assert strong is not None
    assert strong.minutes <= weak.minutes * 1.0401


def test_one_speed_unless_changing_pays() -> None:
    assert not worth_a_change(400.0, 440.0, 3.0, 1.0)  # a tenth of three minutes: not worth a belt
    assert not worth_a_change(400.0, 420.0, 3.0, 0.0)  # nor the attention
    assert worth_a_change(400.0, 800.0, 10.0, 1.0)
    assert not worth_a_change(400.0, 400.0, 1e9, 0.0)


@pytest.mark.parametrize(
    ("way", "grip", "out", "most", "why"),
    [
        (Way.CENTRES, 0.0, 200.0, 700.0, "carrier"),
        (Way.FACEPLATE, 0.0, 0.0, 400.0, "faceplate"),
        (Way.FOUR_JAW, 20.0, 20.0, 1000.0, "four-jaw"),
        (Way.THREE_JAW, 20.0, 40.0, math.inf, ""),
        (Way.THREE_JAW, 4.0, 40.0, 600.0, "short grip"),
        (Way.COLLET, 20.0, 150.0, 700.0, "sticks out"),
    ],
)
def test_the_way_of_holding_sets_a_ceiling(way: Way, grip: float, out: float, most: float, why: str) -> None:
    """Common practice, from memory."""
    found = holding_bound(way, 20.0, grip, out)
    assert found.speed == most
    assert why in found.reason


def test_a_thread_stops_in_its_run_out() -> None:
    """The saddle runs n P: 130 1/min of 1.5 mm is 3.25 mm/s, 2.3 mm in the 0.7 s that a hand takes (an estimate)."""
    to_a_shoulder, groove, free = (screwcutting_bound(1.5, run).speed for run in (0.0, 3.0, math.inf))
    assert to_a_shoulder < 60 < groove < 180 < free
    assert groove * 1.5 / 60 * 0.7 == pytest.approx(3.0)
    assert screwcutting_bound(1.5, 0.0, slowest=130.0).speed == 130.0
    assert "by hand" in screwcutting_bound(1.5, 0.0, slowest=130.0).reason


@pytest.mark.parametrize(
    ("size", "there", "duty", "first"),
    [(25.0, 0.0, "light", 3), (25.0, 0.0, "heavy", 0), (8.0, 0.0, "light", 0), (25.0, 19.0, "light", 0)],
)
def test_large_drills_follow_smaller_ones(size: float, there: float, duty: str, first: int) -> None:
    """Common practice: Ø25 from solid is 6, then 12, then 19 on a bench lathe; one go on a heavy one."""
    found = drills_before(size, there, duty)
    assert len(found) == first
    assert list(found) == sorted(found)
    assert all(there < one < size for one in found)
