"""The pair of swing shafts: one part two ways, the same metal in the end, and what the bar left in is worth."""

from __future__ import annotations

import functools
import math

import pytest
from tests.method.bench import demo, work_out

from methodsheets.formula.measure import Measure
from methodsheets.handbook.comparison import Candidate, compare
from methodsheets.handbook.lines import NOTHING
from methodsheets.handbook.shop_cards import WorkshopCard
from methodsheets.method.job import Evaluated

BUILT, SOLID = "swing-shaft-built-up", "swing-shaft-solid"


@functools.cache
def made(slug: str) -> Evaluated:
    return work_out(demo(slug), slug=slug)


def bends(slug: str, title: str) -> float:
    """Millimetres by which the work bends at the tool in the cuts of a feature; what is not said is below a micron."""
    found = [f.value.value for o in made(slug).live.operations if o.plan.feature == title for f in o.facts
             if f.key == "deflection" and isinstance(f.value, Measure)]  # fmt: skip
    return max(found, default=0.0)


@pytest.mark.parametrize("slug", [BUILT, SOLID])
def test_the_part_has_the_volume_of_its_cylinders(slug: str) -> None:
    """V = π/4 (2 · 10² · 14 + 2 · 32² · 8 + 8² · 16), less two centre holes of about 18 mm³ each."""
    closed = math.pi / 4 * (2 * 10**2 * 14 + 2 * 32**2 * 8 + 8**2 * 16)
    job = made(slug).live
    assert closed - 60 < job.pieces[job.main].work.state.volume < closed - 20
    assert not made(slug).method.failed


def test_the_bar_left_in_is_worth_microns_at_the_journals() -> None:
    """The journals of the built-up shaft are finished while the bar still joins the webs; those of the other are not."""
    assert bends(SOLID, "journal A") > 0.003
    assert bends(BUILT, "journal A") < 0.0015


def test_the_pin_is_pressed_into_two_webs_and_stays_whole() -> None:
    job = made(BUILT).live
    (join,) = [o.plan.join for o in job.operations if o.plan.join is not None]
    assert [round(seat.length, 6) for seat in join.sits.seats] == [32.0]  # one hole: the bar is whole as yet
    assert job.pieces["shaft"].work.bodies["pin"].solid.volume == pytest.approx(math.pi / 4 * 64 * 32, rel=1e-6)


def test_the_comparison_says_what_the_bar_left_in_is_worth_and_what_each_costs() -> None:
    """Stock by weight and hours by the workshop's rates: 4 crowns a kilogram of EN8, 12 of silver steel, 15 an hour."""
    methods = [made(slug).method for slug in (BUILT, SOLID)]
    shop = WorkshopCard("small", "Small", "", "metric", "small.yml", currency="crowns", hour=15.0)
    rows = {row.label: row for row in compare("swing-shaft", [Candidate(one) for one in methods], shop).rows}
    worth, with_it, without = (
        rows[label].values for label in ("Support left in is worth", "Bends with the support in", "Would bend without the support")
    )  # fmt: skip
    assert (worth[1], with_it[1], without[1]) == (NOTHING,) * 3, "from solid nothing is left in"
    assert isinstance(worth[0], Measure)
    assert isinstance(with_it[0], Measure)
    assert isinstance(without[0], Measure)
    assert worth[0].value == pytest.approx(without[0].value - with_it[0].value)
    assert without[0].value > 4 * with_it[0].value
    assert "operation 160 takes out" in str(rows["Support left in is worth"].note)
    gram = 7.85e-3 * math.pi / 4
    stock = [
        gram * 35**2 * 64 / 1000 * 4 + (gram * 8**2 * 40 / 1000 * 12 if slug == BUILT else 0) for slug in (BUILT, SOLID)
    ]
    for parts, label in ((1, "one part"), (4, "4 parts")):
        for index, (method, bar) in enumerate(zip(methods, stock, strict=True)):
            assert method.totals is not None
            each = method.totals.cutting_minutes + method.totals.handling_minutes
            cell = rows[f"Cost in all, {label}"].values[index]
            assert isinstance(cell, Measure)
            hours = (method.totals.setting_minutes + parts * each) / 60
            assert cell.value == pytest.approx(15 * hours + parts * bar, rel=1e-3)


def test_a_machine_that_costs_more_is_reckoned_by_its_own_hour() -> None:
    """`rates` may say what an hour at one machine costs: its minutes count by that, all others by the hour."""
    method = made(BUILT).method
    assert method.totals is not None
    minutes = {key: (once, each) for key, once, each in method.totals.machine_minutes}
    assert sum(once for once, _ in minutes.values()) == pytest.approx(method.totals.setting_minutes)
    each = method.totals.cutting_minutes + method.totals.handling_minutes
    assert sum(each for _, each in minutes.values()) == pytest.approx(each)
    (lathe,) = (key for key in minutes if key == "lathe")
    shop = WorkshopCard("small", "Small", "", "metric", "small.yml", hour=15.0, machine_hours=((lathe, 20.0),))
    rows = {row.label: row for row in compare("swing-shaft", [Candidate(method)] * 2, shop).rows}
    found = rows["Cost of the time, 4 parts"].values[0]
    assert isinstance(found, Measure)
    once, each_there = minutes[lathe]
    whole = method.totals.setting_minutes + 4 * each
    assert found.value == pytest.approx((15 * whole + 5 * (once + 4 * each_there)) / 60)
