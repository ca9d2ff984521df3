"""Are drills read by any name and found near a size?"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.trade.form.calculation import NotInTable, OutOfRange
from methodsheets.trade.form.tables import read_table
from methodsheets.trade.threads.drills import drill, drills_of, gauge_drills, nearest_drill
from methodsheets.trade.threads.hole_making import (
    centre_drill,
    centre_drill_for,
    centre_hole_depth,
    clearance_drill,
    drill_for_reaming,
)

INCH = 25.4


@pytest.mark.parametrize(
    ("typed", "name", "inches"),
    [
        ("#7", "No. 7", 0.201),
        ("No 7", "No. 7", 0.201),
        ("number 80", "No. 80", 0.0135),
        ("f", "F", 0.257),
        ("letter Z", "Z", 0.413),
        ("13/64", "13/64", 13 / 64),
        ('1 1/8"', "1 1/8", 1.125),
        ("1-1/8 in", "1 1/8", 1.125),
        ("2 in", "2 in", 2.0),
        ("5.2 mm", "5.2 mm", 5.2 / INCH),
        ("5.2", "5.2 mm", 5.2 / INCH),
        ("7", "7.0 mm", 7 / INCH),
    ],
)
def test_names(typed: str, name: str, inches: float) -> None:
    found = drill(typed)
    assert found.name == name
    assert found.diameter == pytest.approx(inches * INCH, abs=1e-5)


@pytest.mark.parametrize("typed", ["#99", "AA", "a drill", "", "1/0"])
def test_no_such_drill(typed: str) -> None:
    with pytest.raises(NotInTable):
        drill(typed)


def test_gauges_run_in_order() -> None:
    numbers = [entry.diameter for entry in gauge_drills() if entry.system == "number"]
    letters = [entry.diameter for entry in gauge_drills() if entry.system == "letter"]
    assert numbers == sorted(numbers, reverse=True)
    assert letters == sorted(letters)
    assert (len(numbers), len(letters)) == (97, 26)
    assert letters[0] > numbers[0]
    assert drill("E").diameter == pytest.approx(drill("1/4").diameter)  # both are 0.250 in


@given(st.floats(0.3, 49.9), st.sampled_from(["metric", "common", "fraction", "inch", "all"]))
def test_the_nearest_is_nearest_and_the_sides_are_kept(size: float, system: str) -> None:
    sizes = [entry.diameter for entry in drills_of(system)]
    if sizes[0] <= size <= sizes[-1]:
        found = nearest_drill(size, system)
        assert abs(found.difference) == pytest.approx(min(abs(entry - size) for entry in sizes))
        assert nearest_drill(size, system, "below").diameter <= size + 1e-6
        assert nearest_drill(size, system, "above").diameter >= size - 1e-6


def test_a_size_no_drill_reaches() -> None:
    with pytest.raises(OutOfRange, match="common"):
        nearest_drill(20, "common", "above")


@pytest.mark.parametrize("size", [2, 5, 6, 10, 16, 20, 25, 50])
def test_what_is_left_for_the_reamer(size: float) -> None:
    machine, hand = drill_for_reaming(size), drill_for_reaming(size, way="hand")
    assert machine.left >= 0.1 - 1e-9
    assert hand.allowance < machine.allowance
    assert machine.diameter <= machine.wanted + 1e-6
    assert machine.left == pytest.approx(size - machine.diameter)


def test_centre_drills() -> None:
    assert centre_drill("bs 3").body == pytest.approx(6.35)
    assert centre_drill("a2").pilot == 2.0
    for size in (3, 10, 25, 60, 120, 160):
        assert centre_drill_for(size).body < size * 1.1
        assert centre_drill_for(size, "bs").name.startswith("BS")
    for row in read_table("centre_drills").rows:
        found = centre_drill(row["name"])
        assert found.pilot < found.mouth < found.body
        assert 1.9 <= found.mouth / found.pilot <= 4.3
    with pytest.raises(NotInTable):
        centre_drill("A3")
    with pytest.raises(OutOfRange):
        centre_hole_depth(2, 2.5, 2)


@pytest.mark.parametrize(
    ("name", "fit", "hole"),
    [("M6", "close", 6.4), ("M6", "free", 6.6), ("M6x0.75", "free", 6.6), ("M12", "loose", 14.5)],
)
def test_clearance_by_iso_273(name: str, fit: str, hole: float) -> None:
    """From memory: ISO 273."""
    assert clearance_drill(name, fit).diameter == pytest.approx(hole)


@pytest.mark.parametrize(
    ("name", "fit", "drill_name"),
    [
        ("10-32", "close", "No. 9"),
        ("10-32", "free", "No. 7"),
        ("1/4-20", "close", "F"),
        ("1/4-20", "free", "17/64"),
        ("1/2-13", "close", "33/64"),
        ("1/2-13", "free", "17/32"),
    ],
)
def test_clearance_of_inch_screws(name: str, fit: str, drill_name: str) -> None:
    """From memory: American tables, close and free (they print H, 0.266 in, beside 17/64 for the free 1/4 in)."""
    assert clearance_drill(name, fit, "inch").name == drill_name
