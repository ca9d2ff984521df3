"""Which speed and feed does the machine really have?"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.workshop.machines import (
    HandFeed,
    Machine,
    NoSpindle,
    StepFeeds,
    StepSpeeds,
    VariableFeeds,
    VariableSpeeds,
)

BELT = Machine(
    "lathe", "lathe", "Lathe", speeds=StepSpeeds((130, 220, 400, 640, 1000, 1600)), feeds=StepFeeds((0.05, 0.1, 0.2))
)
DRIVE = Machine(
    "mill", "mill", "Mill", speeds=VariableSpeeds(((40, 500), (150, 2000)), step=10), feeds=VariableFeeds(15, 400)
)


@pytest.mark.parametrize(
    ("wanted", "value", "state"),
    [
        (663, 640, "lower"),
        (640, 640, "as wanted"),
        (640.0000001, 640, "as wanted"),
        (639.9, 400, "lower"),
        (129, 130, "lowest"),
        (1600, 1600, "as wanted"),
        (5000, 1600, "highest"),
    ],
)
def test_belt_speeds(wanted: float, value: float, state: str) -> None:
    setting = BELT.speed_for(wanted)
    assert (setting.value, setting.state) == (value, state)


def test_a_speed_below_the_lowest_says_that_the_machine_runs_faster() -> None:
    assert BELT.speed_for(80).note == "wanted 80 1/min; the lowest spindle speed this machine has is 130 1/min"


@pytest.mark.parametrize(
    ("wanted", "value", "state"),
    [
        (663, 660, "as wanted"),
        (45, 40, "as wanted"),
        (30, 40, "lowest"),
        (2000, 2000, "as wanted"),
        (2500, 2000, "highest"),
    ],
)
def test_variable_speeds(wanted: float, value: float, state: str) -> None:
    setting = DRIVE.speed_for(wanted)
    assert (setting.value, setting.state) == (value, state)


def test_between_two_ranges_the_lower_one_is_taken() -> None:
    gap = VariableSpeeds(((50, 300), (600, 2000)))
    setting = gap.at_most(450)
    assert setting.value == 300
    assert "between two ranges" in setting.note


def test_feeds() -> None:
    assert BELT.feed_for(0.13).value == 0.1
    assert BELT.feed_for(0.01).state == "lowest"
    assert DRIVE.feed_for(60).value == 60
    assert DRIVE.feed_for(5).value == 15
    assert DRIVE.feed_for(1000).value == 400
    assert Machine("b", "bench", "b").feed_for(0.3) == HandFeed().at_most(0.3)


def test_the_cross_slide_has_feeds_of_its_own() -> None:
    lathe = Machine("l", "lathe", "l", feeds=StepFeeds((0.1, 0.2)), cross_feeds=StepFeeds((0.05, 0.1)))
    assert lathe.feed_for(0.09, across=True).value == 0.05
    assert BELT.feed_for(0.09, across=True).value == 0.05


def test_a_press_turns_nothing() -> None:
    assert NoSpindle().at_most(100).value == 0


def test_power_at_the_tool() -> None:
    assert Machine("l", "lathe", "l", power=370, efficiency=0.75).power_at_tool == pytest.approx(277.5)


@given(
    steps=st.lists(st.floats(10, 5000), min_size=1, max_size=9, unique=True),
    wanted=st.floats(1, 10000),
)
def test_never_above_what_was_wanted_unless_there_is_nothing_lower(steps: list[float], wanted: float) -> None:
    speeds = StepSpeeds(tuple(sorted(steps)))
    setting = speeds.at_most(wanted)
    assert setting.value in speeds.steps
    assert setting.value <= wanted * (1 + 1e-8) or setting.value == speeds.low
    assert not any(setting.value < step <= wanted for step in speeds.steps)


@given(low=st.floats(10, 400), span=st.floats(10, 4000), step=st.floats(0.5, 50), wanted=st.floats(1, 9000))
def test_a_drive_stays_in_its_range(low: float, span: float, step: float, wanted: float) -> None:
    speeds = VariableSpeeds(((low, low + span),), step)
    setting = speeds.at_most(wanted)
    assert speeds.low <= setting.value <= speeds.high
    assert setting.value <= wanted * (1 + 1e-8) or setting.state == "lowest"
