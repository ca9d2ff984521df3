"""Do packing, clocking, collets and slenderness agree with published workshop pages?"""

from __future__ import annotations

import math

import pytest

from methodsheets.trade.bending.holding import (
    collet_for,
    four_jaw_move,
    four_jaw_reading,
    holding_runout,
    three_jaw_packing,
)
from methodsheets.trade.bending.slender_work import support_advice
from methodsheets.trade.form.tables import read_table

from .cases import INCH, Case, case, cases, number

SUBJECT = "Holding"
PACKING = tuple(cases("cutting", "eccentric packing 3-jaw, exact"))


def test_packing_of_a_published_eccentric() -> None:
    entry = case("cutting", "ecc-01")
    found = three_jaw_packing(number(entry.inputs["e"]), 2 * number(entry.inputs["R"]))
    entry.check(SUBJECT, "packing", found.narrow_jaws / INCH, 0.448)


@pytest.mark.parametrize("entry", PACKING, ids=lambda entry: entry.name)
def test_packing_lies_between_two_bounds(entry: Case) -> None:
    radius, throw = number(entry.inputs["R"]), number(entry.inputs["e"])
    found = three_jaw_packing(throw, 2 * radius)
    entry.check(SUBJECT, "exact_point", found.narrow_jaws, number(entry.expected["exact_point"]))
    entry.check(SUBJECT, "flat_jaw", found.flat_jaws, number(entry.expected["flat_jaw"]))
    series = 1.5 * throw * (1 - 0.5 * throw / (2 * radius))
    entry.check(SUBJECT, "series", series, number(entry.expected["series"]))
    assert found.narrow_jaws < found.thickness < found.flat_jaws


@pytest.mark.parametrize(("throw", "diameter"), [(2.0, 25.0), (5.0, 25.0), (6.0, 40.0)])
def test_packing_by_geometry(throw: float, diameter: float) -> None:
    """Three lines 120 degrees apart at one radius; the packing fills the room of one when the work has moved away."""
    radius = diameter / 2
    reach = throw / 2 + math.sqrt(radius**2 - 0.75 * throw**2)  # from the axis to the work, along the two bare jaws
    near = radius - throw  # the same along the packed jaw
    assert three_jaw_packing(throw, diameter).narrow_jaws == pytest.approx(reach - near)


def test_four_jaw() -> None:
    entry = case("cutting", "fourjaw-01")
    found = four_jaw_move(0.030 * INCH, 0.050 * INCH, on_jaw=False)
    entry.check(SUBJECT, "move", found.move / INCH, 0.009)
    entry.check(SUBJECT, "turn", found.screw_turns, 0.18)
    entry = case("cutting", "fourjaw-02")
    entry.check(SUBJECT, "TIR", four_jaw_reading(number(entry.inputs["e"])), 10)
    assert three_jaw_packing(5, 40).dial_reading == 10


def test_collets() -> None:
    ranges = case("cutting", "er-range").expected
    bores = case("cutting", "er-bore").expected
    rows = {row["size"]: row for row in read_table("collets").rows}
    for size, words in ranges.items():
        span, outside, nut = (part.strip() for part in words.split(";"))
        row = rows[size]
        assert span.endswith(f"-{float(row['greatest']):.1f}")
        assert float(row["least"]) >= float(span.split("-")[0].split("(")[0])
        assert float(row["outside"]) == float(outside)
        assert row["nut"] == nut
        assert float(row["seat_bore"]) == float(bores[size.removeprefix("ER")])
    assert collet_for(6, "ER16").name == 6
    assert collet_for(6.2, "ER16").name == 7
    assert collet_for(25).size == "ER40"


def test_run_out() -> None:
    expected = case("cutting", "chuck-runout").expected
    assert expected["three_jaw_general"] == "0.003-0.005 inch"
    found = holding_runout("three-jaw")
    assert found.most == pytest.approx(0.005 * INCH, abs=0.004)
    assert found.usual == pytest.approx(0.003 * INCH, abs=0.005)
    assert holding_runout("four-jaw").most <= 0.001 * INCH
    assert holding_runout("collet").most <= 0.001 * INCH


def test_slenderness() -> None:
    """Danger begins at 4 diameters, a steady is wanted above 10 to 15 (pages read); 3 free is from memory."""
    assert support_advice(30, 10).support == "chuck"
    assert support_advice(41, 10).support == "centre"
    assert support_advice(101, 10).support == "centre and steady"
