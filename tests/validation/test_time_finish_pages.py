"""Do times, drill points and roughness agree with makers' pages and examination papers?"""

from __future__ import annotations

import pytest

from methodsheets.trade.cutting.cutting import spindle_speed
from methodsheets.trade.cutting.cutting_time import turning_time
from methodsheets.trade.cutting.finish import exact_arc_roughness, turned_roughness
from methodsheets.trade.cutting.milling_time import drilling_time
from methodsheets.trade.threads.drilling import drill_point_length, drill_travel
from methodsheets.trade.threads.hole_making import drill_for_reaming

from .cases import INCH, case
from .units import agree, ours

TIME, FINISH, HOLES = "Cutting time", "Roughness", "Drill points and reaming"


def test_drilling_times() -> None:
    agree(case("cutting", "time-03"), TIME, "t", drilling_time(30, 0.2, 1350, holes=5))
    agree(case("cutting", "time-04"), TIME, "t", drilling_time(30, 0.15, spindle_speed(50, 15)))
    travel = drill_travel(50, 15, approach=2, overrun=2)
    assert travel == pytest.approx(58.5, abs=0.01)
    agree(case("cutting", "time-05"), TIME, "t", drilling_time(travel, 0.2, 500))
    agree(case("cutting", "time-07"), TIME, "t", drilling_time(30 + 3 + 3, 0.3, 600))


def test_an_examination_answer_that_multiplies_by_pi_is_a_misprint() -> None:
    """Misprint 3: 20 mm drill, 30 mm plate takes 1.281 min."""
    travel = drill_travel(30, 20, point_angle=120, approach=2, overrun=3)
    agree(case("cutting", "time-08"), TIME, "t", drilling_time(travel, 0.1, spindle_speed(20, 20)))


def test_turning_time() -> None:
    entry = case("cutting", "time-09")
    speed = spindle_speed(ours(entry.inputs["v"]), ours(entry.inputs["D"]))
    agree(entry, TIME, "n", speed)
    agree(entry, TIME, "t", turning_time(ours(entry.inputs["L"]), ours(entry.inputs["f"]), speed))


@pytest.mark.parametrize("name", ["ra-01", "ra-02", "ra-05"])
def test_theoretical_roughness(name: str) -> None:
    entry = case("cutting", name)
    found = turned_roughness(ours(entry.inputs["f"]), ours(entry.inputs["r"]))
    agree(entry, FINISH, "Rt", found.height)


def test_roughness_misprints_are_not_repeated() -> None:
    """Misprints 1 and 4: 258 microinch, not .258; Ra is f^2/(32 r), not f^2/(8 r) times 317500."""
    found = turned_roughness(0.008 * INCH, 0.031 * INCH)
    assert found.height / 0.0254 == pytest.approx(258, abs=0.5)
    sheet = 0.008**2 / (8 * 0.031) * 317500
    assert sheet / (found.mean / 0.0254) == pytest.approx(1.27, abs=0.001)
    assert turned_roughness(0.2, 0.8).mean == pytest.approx(1.5625)
    assert exact_arc_roughness(0.2, 0.8) == pytest.approx(6.25, rel=0.005)


def test_drill_points() -> None:
    for name in ("point-37", "point-13_32"):
        entry = case("cutting", name)
        point = drill_point_length(ours(entry.inputs["D"]), ours(entry.inputs["point"]))
        agree(entry, HOLES, "L", point)
    assert drill_point_length(1, 118) == pytest.approx(0.300, abs=0.0005)
    assert drill_point_length(1, 135) == pytest.approx(0.207, abs=0.0005)


def test_reaming() -> None:
    entry = case("cutting", "ream-drill")
    found = drill_for_reaming(10, undersize=0.2, oversize=0.05)
    agree(entry, HOLES, "drill", found.wanted)
    agree(entry, HOLES, "drill", found.diameter)
