"""Does a dial say what the handwheel must be turned by?"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.workshop.dials import Dial

RADIUS = Dial("cross slide", 0.02, "radius", per_turn=1.0)
DIAMETER = Dial("cross slide", 0.02, "diameter", per_turn=4.0)
THOU = Dial("cross slide", 0.0254, "radius", per_turn=2.54, unit="in")
DISPLAY = Dial("x", 0.005, readout=True)


@pytest.mark.parametrize(
    ("dial", "travel", "turns", "reading", "words"),
    [
        (RADIUS, 0.5, 0, 0.50, "0.50\u202fmm"),
        (RADIUS, 1.0, 1, 0.0, "1 turn"),
        (RADIUS, 2.36, 2, 0.36, "2 turns + 0.36\u202fmm"),
        (DIAMETER, 0.5, 0, 1.00, "1.00\u202fmm"),  # half a millimetre of slide takes 1 mm off the diameter
        (DIAMETER, 2.5, 1, 1.00, "1 turn + 1.00\u202fmm"),
        (THOU, 0.254, 0, 0.010, "0.010\u202fin"),
        (THOU, 2.54, 1, 0.0, "1 turn"),
        (DISPLAY, 123.456, 0, 123.455, "123.455\u202fmm"),
        (RADIUS, -0.3, 0, 0.30, "−0.30\u202fmm"),
    ],
)
def test_reading(dial: Dial, travel: float, turns: int, reading: float, words: str) -> None:
    found = dial.for_travel(travel)
    assert (found.turns, found.words) == (turns, words)
    assert found.reading == pytest.approx(reading)


def test_a_dial_is_read_to_its_own_graduation_and_says_what_is_left() -> None:
    found = RADIUS.for_travel(0.33)
    assert found.words == "0.34\u202fmm"
    assert found.error == pytest.approx(0.01)


def test_a_dial_that_reads_the_diameter_errs_half_as_far_on_the_slide() -> None:
    found = DIAMETER.for_travel(0.335)
    assert found.reading == pytest.approx(0.68)
    assert found.error == pytest.approx(0.005)


@pytest.mark.parametrize("travel", [float("nan"), float("inf")])
def test_no_travel_is_refused(travel: float) -> None:
    with pytest.raises(ValueError, match="no travel"):
        RADIUS.for_travel(travel)


def test_what_the_dial_is_like() -> None:
    assert DIAMETER.words == "cross slide reads the diameter, 0.02\u202fmm a division, 4\u202fmm a turn"
    assert (
        THOU.words
        == "cross slide reads the slide's travel (half the diameter), 0.001\u202fin a division, 0.1\u202fin a turn"
    )
    assert DISPLAY.words == "x reads the travel, display, steps of 0.005\u202fmm"


@given(
    travel=st.floats(-50, 50),
    step=st.sampled_from([0.005, 0.01, 0.02, 0.025, 0.05]),
    reads=st.sampled_from(["radius", "diameter", "distance"]),
    divisions=st.integers(20, 300),
)
def test_turns_and_reading_give_back_the_travel(travel: float, step: float, reads: str, divisions: int) -> None:
    dial = Dial("x", step, reads, per_turn=step * divisions)
    found = dial.for_travel(travel)
    shown = abs(found.turns) * dial.per_turn + found.reading
    assert shown == pytest.approx(abs(travel) * dial.factor, abs=step / 2 + 1e-9)
    assert 0 <= found.reading < dial.per_turn
    assert abs(found.error) <= step / 2 / dial.factor + 1e-9


@pytest.mark.parametrize(
    ("dial", "travel", "stop", "words", "between"),
    [
        (RADIUS, 0.5, (0.49, 0.51), "0.50\u202fmm", False),
        (RADIUS, 0.491, (0.48, 0.502), "0.49\u202fmm", True),  # the next line lies too near the edge
        (RADIUS, 1.993, (1.991, 1.995), "1 turn + 0.994\u202fmm", True),
        (DIAMETER, 3.9925, (3.99, 3.995), "1 turn + 3.985\u202fmm", True),
        (THOU, 0.508, (0.502, 0.514), "0.020\u202fin", False),
        (THOU, 1.9945, (1.991, 1.998), "0.0785\u202fin", True),
    ],
)
def test_a_reading_stays_between_two_travels(
    dial: Dial, travel: float, stop: tuple[float, float], words: str, between: bool
) -> None:
    found = dial.within(travel, stop)
    assert stop[0] < travel + found.error < stop[1]
    assert (found.words, found.between_lines) == (words, between)


@given(st.floats(0.1, 80.0), st.floats(0.002, 0.4), st.sampled_from([RADIUS, DIAMETER, THOU]))
def test_a_reading_never_leaves_its_limits(travel: float, width: float, dial: Dial) -> None:
    stop = (travel - width / 2, travel + width / 2)
    found = dial.within(travel, stop)
    assert stop[0] < travel + found.error < stop[1]
    in_mm = found.reading * (25.4 if dial.unit == "in" else 1.0)
    assert (found.turns * dial.per_turn + in_mm) / dial.factor == pytest.approx(travel + found.error, abs=1e-9)
