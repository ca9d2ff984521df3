"""Do tapers and angles agree with a supplier's table, two old books and workshop pages?"""

from __future__ import annotations

import math

import pytest

from methodsheets.trade.dividing.angles import sine_bar_angle, sine_bar_height
from methodsheets.trade.dividing.taper_measuring import (
    bore_taper_from_balls,
    disc_gauge_centres,
    taper_from_rollers,
    taper_over_rollers,
)
from methodsheets.trade.dividing.tapers import (
    half_angle_of_rate,
    rate_of_angle,
    standard_taper,
    tailstock_set_over,
    taper_rate,
    top_slide_setting,
)

from .cases import INCH, Case, case, cases, number

SUBJECT = "Tapers and angles"
BY_FOOT = tuple(cases("cutting", "compound angle"))
ENDS = tuple(cases("cutting", "taper per foot from"))
INCLUDED = tuple(cases("cutting", "included angle"))
SINE = tuple(cases("cutting", "sine bar"))

NAMES = {"taper-mt0": "MT0", "taper-mt5": "MT5", "taper-mt6": "MT6", "taper-jt2": "JT2", "taper-jt33": "JT33"}


@pytest.mark.parametrize("entry", BY_FOOT, ids=lambda entry: entry.name)
def test_half_angle_from_inch_per_foot(entry: Case) -> None:
    found = half_angle_of_rate(number(entry.inputs["tpf"]) / 12)
    entry.check(SUBJECT, "half_angle", found, number(entry.expected["half_angle"]))
    if entry.name in NAMES:
        entry.check(
            SUBJECT, "half_angle", standard_taper(NAMES[entry.name]).half_angle, number(entry.expected["half_angle"])
        )


@pytest.mark.parametrize(
    ("name", "half"),
    [("MT0", 1.4908), ("MT1", 1.4287), ("MT2", 1.4307), ("MT3", 1.4377), ("MT4", 1.4876), ("MT5", 1.5073)],
)
def test_morse_half_angles(name: str, half: float) -> None:
    found = standard_taper(name)
    assert found.half_angle == pytest.approx(half, abs=1e-4)
    assert found.large is not None
    assert found.small is not None
    assert found.length is not None
    assert (found.large - found.small) / found.length == pytest.approx(found.rate, rel=5e-4)


@pytest.mark.parametrize("entry", ENDS, ids=lambda entry: entry.name)
def test_rate_from_end_diameters(entry: Case) -> None:
    found = taper_rate(*(number(entry.inputs[key]) for key in ("D", "d", "L")))
    entry.check(SUBJECT, "tpf", 12 * found, number(entry.expected["tpf"]))


@pytest.mark.parametrize("entry", INCLUDED, ids=lambda entry: entry.name)
def test_rate_from_included_angle(entry: Case) -> None:
    found = rate_of_angle(number(entry.inputs["included"]))
    entry.check(SUBJECT, "tpi", found, number(entry.expected["tpi"]))


def test_misprints_are_not_followed() -> None:
    # A table of 1902 prints .07984 for 4 degrees and .28330 for 15; a forum gives Morse 2 as .5986 inch per foot.
    assert rate_of_angle(4) == pytest.approx(0.06984, abs=5e-6)
    assert rate_of_angle(15) == pytest.approx(0.26330, abs=5e-6)
    assert standard_taper("Morse 2").rate * 12 == pytest.approx(0.5994)
    # One page says an ER collet has 8 degrees included; it is 8 degrees a side (from memory).
    assert standard_taper("ER25").included_angle == pytest.approx(16, abs=1e-6)


def test_tailstock_set_over() -> None:
    entry = case("cutting", "taper-01")
    found = tailstock_set_over(1 / 12, 9 * INCH)
    entry.check(SUBJECT, "offset", found.usual / INCH, 0.375)
    entry = case("cutting", "taper-07")
    found = tailstock_set_over(0.0625, 15 * INCH)
    entry.check(SUBJECT, "offset", found.usual / INCH, 0.46875)
    assert found.note
    steep = tailstock_set_over(2 * math.tan(math.radians(3.6)), 200)
    assert steep.usual / steep.exact == pytest.approx(1.002, abs=2e-4)


def test_top_slide_scales() -> None:
    entry = case("cutting", "taper-valve45")
    entry.check(SUBJECT, "setting", top_slide_setting(90 / 2, zero_across=True), 45)
    entry = case("cutting", "taper-valve30")
    entry.check(SUBJECT, "setting", top_slide_setting(30, zero_across=True), 60)


def test_disc_gauges() -> None:
    entry = case("cutting", "taper-disk")
    half = half_angle_of_rate(0.75 / 12)
    entry.check(SUBJECT, "half_angle", half, 1.79)
    entry.check(SUBJECT, "C", disc_gauge_centres(1.25, 1.5, half), 4.002)
    entry = case("cutting", "taper-disk20")
    entry.check(SUBJECT, "C", disc_gauge_centres(1, 3, 10), 5.759)


@pytest.mark.parametrize("entry", SINE, ids=lambda entry: entry.name)
def test_sine_bar(entry: Case) -> None:
    angle = number(entry.inputs["angle"])
    found = sine_bar_height(angle, number(entry.inputs["L"]))
    entry.check(SUBJECT, "h", found / INCH, number(entry.expected["h"]) / INCH)
    assert sine_bar_angle(found, number(entry.inputs["L"])) == pytest.approx(angle)


@pytest.mark.parametrize("half", [0.5, 1.4307, 8.0, 30.0])
def test_rollers_find_the_taper_they_measure(half: float) -> None:
    low, high = taper_over_rollers(20, half, 6), taper_over_rollers(20, half, 6, height=30)
    found = taper_from_rollers(low, high, 30, 6)
    assert found.half_angle == pytest.approx(half)
    assert found.diameter == pytest.approx(20)
    # A roller of radius 3 touches plate and side: its centre lies 3 from both lines.
    centre = (low - 6) / 2
    side = abs((centre - 10) * math.cos(math.radians(half)) - 3 * math.sin(math.radians(half)))
    assert side == pytest.approx(3)


@pytest.mark.parametrize("half", [1.5, 5.0, 15.0])
def test_balls_find_the_taper_they_touch(half: float) -> None:
    """Balls put into a bore of 30 mm mouth touch at their radius from the wall."""
    a = math.radians(half)

    def depth_of_top(ball: float) -> float:
        return (15 - ball / 2 / math.cos(a)) / math.tan(a) - ball / 2

    found = bore_taper_from_balls(14, 24, depth_of_top(14), depth_of_top(24))
    assert found.half_angle == pytest.approx(half)
    assert found.diameter == pytest.approx(30)
