"""Cams: their metal against closed forms, the follower's lift read back off the cam, and planted faults.

Laws of motion are those of every text on cams; areas by integrals done by hand, as each test says.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.trade.dividing.cams import LAWS, cam_cusp, cam_lift, table_lifts

TABLE = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
BASE, LIFT, RISE, DWELL = 12.0, 5.0, math.radians(70), math.radians(30)
SAID = "base 12 mm, lift 5 mm, rise 70 deg, dwell 30 deg, fall 70 deg, over 12 mm"


def cut(line: str) -> CheckedOperation:
    made = work_out(method(TABLE + block("op", f"cam: {line}")))
    assert made.live.operations, [str(problem) for problem in made.method.problems]
    return made.live.operations[-1]


def point_area() -> float:
    """Half the integral of r²: a harmonic rise gives b·((B + h/2)² + h²/8), as its cosine adds up to nothing."""
    both = 2 * RISE * ((BASE + LIFT / 2) ** 2 + LIFT**2 / 8)
    return (both + DWELL * (BASE + LIFT) ** 2 + (2 * math.pi - 2 * RISE - DWELL) * BASE**2) / 2


def flat_area() -> float:
    """Half the integral of r² - r'²: that of r'² is (pi h / 2b)² b / 2 for each of rise and fall."""
    return point_area() - 2 * (math.pi * LIFT / (2 * RISE)) ** 2 * RISE / 4


@pytest.mark.parametrize(("follower", "area"), [("point", point_area()), ("flat", flat_area())])
def test_the_metal_of_a_harmonic_cam(follower: str, area: float) -> None:
    done = cut(f"{SAID}, follower {follower}")
    assert done.volume == pytest.approx(12 * (math.pi * 400 - area), rel=2e-3)


def test_a_roller_runs_on_the_cam_as_it_should() -> None:
    """The distance from the middle of the roller to the cam's own points is the roller's radius, at every angle."""
    done = cut(f"{SAID}, follower roller, roller 10 mm")
    solid = done.after.solid
    points = solid.mesh().vertices
    rim = points[(np.hypot(points[:, 0], points[:, 1]) < 19.5)][:, :2]
    off: dict[int, list[float]] = {1: [], -1: []}  # which sense the angle has depends on the end that is seen
    for angle in range(0, 360, 15):
        for way, found in off.items():
            a, far = math.radians(way * angle), BASE + 5 + cam_lift(angle, LIFT, 70, 30, 70).lift
            middle = far * np.array([math.cos(a), math.sin(a)])
            found.append(abs(float(np.hypot(*(rim - middle).T).min()) - 5))
    assert min(max(found) for found in off.values()) < 0.02


def test_a_cutter_as_large_as_the_roller_stands_in_its_middle() -> None:
    done = cut(f"{SAID}, follower roller, roller 10 mm, cutter 10 mm, step 10 deg")
    rows = done.tables[-1].rows
    assert len(rows) == 36
    for row in rows:
        angle = float(row[1].value)  # type: ignore[union-attr]
        assert float(row[4].value) == pytest.approx(17 + cam_lift(angle, LIFT, 70, 30, 70).lift, abs=2e-3)  # type: ignore[union-attr]
    assert done.worked.minutes > 0
    assert done.handling > 36 * 0.3
    assert [check.key for check in done.checks if check.state != "passed"] == []


@pytest.mark.parametrize("law", LAWS)
def test_a_law_begins_at_nothing_and_ends_at_the_lift(law: str) -> None:
    """Half way is half of the lift; its slope is what the lift does in a small step."""
    assert cam_lift(0, 6, 60, 20, 80, law).lift == pytest.approx(0)
    assert cam_lift(30, 6, 60, 20, 80, law).lift == pytest.approx(3)
    assert cam_lift(70, 6, 60, 20, 80, law).lift == pytest.approx(6)
    assert cam_lift(120, 6, 60, 20, 80, law).lift == pytest.approx(3)
    assert cam_lift(200, 6, 60, 20, 80, law).lift == 0
    for angle in (10.0, 25.0, 47.0, 95.0, 140.0):
        low, here, high = (cam_lift(angle + d, 6, 60, 20, 80, law) for d in (-1e-3, 0, 1e-3))
        assert here.slope == pytest.approx((high.lift - low.lift) / math.radians(2e-3), rel=1e-4)
        assert here.bend == pytest.approx((high.slope - low.slope) / math.radians(2e-3), rel=1e-3, abs=1e-6)


def test_a_table_of_lifts_is_met_and_smooth_between() -> None:
    """A cosine of eight points: the spline meets every point and is a thousandth of the lift off between."""
    found = table_lifts([2 - 2 * math.cos(2 * math.pi * i / 24) for i in range(24)])
    for angle in (0.0, 15.0, 45.0, 7.5, 100.0, 333.0):
        assert found(angle).lift == pytest.approx(2 - 2 * math.cos(math.radians(angle)), abs=4e-4)
        assert found(angle).slope == pytest.approx(2 * math.sin(math.radians(angle)), abs=3e-3)


def test_the_ridge_between_two_settings() -> None:
    """Cutter circles beside a round: the ridge stands where two of them meet, found here by Pythagoras."""
    radius, step, cutter = 18.0, 4.0, 10.0
    away, half = radius + cutter / 2, math.radians(step) / 2
    meet = away * math.cos(half) - math.sqrt((cutter / 2) ** 2 - (away * math.sin(half)) ** 2)
    assert cam_cusp(radius, step, cutter) == pytest.approx(meet - radius, rel=0.05)


REFUSED = [("base 12 mm, lift 6 mm, rise 40 deg, follower flat, over 12 mm", "wrong-outline"),
           ("base 5 mm, lift 12 mm, rise 40 deg, follower roller, roller 12 mm, over 12 mm", "wrong-outline"),
           ("base 12 mm, lift 6 mm, rise 200 deg, fall 200 deg, follower point, over 12 mm", "wrong-value"),
           ("base 12 mm, lift 6 mm, follower point, over 12 mm", "missing-clause"),
           ("base 12 mm, lift 6 mm, rise 60 deg, over 12 mm", "missing-clause"),
           ("base 12 mm, lift 6 mm, rise 60 deg, follower roller, over 12 mm", "missing-clause"),
           ("base 12 mm, lift 6 mm, rise 60 deg, follower mouse, over 12 mm", "wrong-value"),
           ("base 12 mm, lift 6 mm, lifts 0 mm, 1 mm, 2 mm, 1 mm, follower point, over 12 mm", "contradiction"),
           ("base 12 mm, lifts 0 mm, 1 mm, 2 mm, follower point, over 12 mm", "wrong-value"),
           ("base 12 mm, lift 3 mm, rise 90 deg, follower flat, roller 8 mm, over 12 mm", "idle-clause"),
           ("base 12 mm, lift 5 mm, rise 70 deg, follower point, step 7 deg, over 12 mm", "wrong-value"),
           ("base 30 mm, lift 5 mm, rise 70 deg, follower point, over 12 mm", "nothing-to-cut")]  # fmt: skip


@pytest.mark.parametrize(("line", "code"), REFUSED)
def test_what_cannot_be_is_refused_with_a_remedy(line: str, code: str) -> None:
    made = work_out(method(TABLE + block("op", f"cam: {line}")))
    assert made.method.problems[0].code == code, str(made.method.problems[0])
    assert made.method.problems[0].remedy


FAULTS = [("base 6 mm, lift 8 mm, rise 45 deg, follower point, over 12 mm, cutter 4 mm", "cam-push"),
          ("base 8 mm, lift 6 mm, rise 45 deg, follower point, over 12 mm, cutter 16 mm", "cam-hollow")]  # fmt: skip


@pytest.mark.parametrize(("line", "key"), FAULTS)
def test_a_planted_fault_is_found(line: str, key: str) -> None:
    assert key in {check.key for check in cut(line).checks if check.state == "failed"}
