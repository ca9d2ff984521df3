"""Do the charts for the wall give what the machines have and what the handbook's own calculations say?"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from methodsheets.formula.measure import Measure
from methodsheets.handbook.shop_cards import WallChart
from methodsheets.handbook.wall_charts import DIVISIONS, wall_charts
from methodsheets.reading.problem import Problems
from methodsheets.trade.fits.iso286 import limits
from methodsheets.workshop.machines import StepSpeeds
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import read_workshop

METHODS = Path(__file__).parents[2] / "methods"
SHOPS = ("osierbank-small", "osierbank-large", "osierbank-inch")


@pytest.fixture(scope="module", params=SHOPS)
def shop(request: pytest.FixtureRequest) -> Workshop:
    found = read_workshop(METHODS / "workshops" / f"{request.param}.yml", METHODS, Problems())
    assert found is not None
    return found


def chart(shop: Workshop, key: str) -> WallChart:
    return next(one for one in wall_charts(shop) if one.key == key)


def test_every_row_is_as_wide_as_the_chart(shop: Workshop) -> None:
    charts = wall_charts(shop)
    assert len({one.key for one in charts}) == len(charts)
    for one in charts:
        assert one.rows
        assert {len(row) for row in one.rows} == {len(one.columns)}, one.title


def test_speeds_are_those_of_the_machine_and_fall_with_the_diameter(shop: Workshop) -> None:
    lathe = next(one for one in shop.machines.values() if one.kind == "lathe")
    table = chart(shop, f"speeds-{lathe.key}")
    for column in range(1, len(table.columns)):
        speeds = [float(str(row[column]).rstrip(" !")) for row in table.rows[1:]]
        assert speeds == sorted(speeds, reverse=True)
        if isinstance(lathe.speeds, StepSpeeds):
            assert set(speeds) <= set(lathe.speeds.steps)
        else:
            assert lathe.speeds.low <= min(speeds) <= max(speeds) <= lathe.speeds.high


def test_a_speed_marked_too_fast_is_the_lowest(shop: Workshop) -> None:
    for machine in shop.machines.values():
        if machine.kind not in ("lathe", "mill", "drill"):
            continue
        marked = [str(cell) for row in chart(shop, f"speeds-{machine.key}").rows for cell in row if "!" in str(cell)]
        assert {float(cell.rstrip(" !")) for cell in marked} <= {machine.speeds.low}


def test_fits_are_the_limits_of_the_standard() -> None:
    # ISO 286-2, 18 to 30 mm: H7 +21 / 0, g6 -7 / -20, js6 ±6.5, p6 +35 / +22 (from memory; every cell is held against
    # two libraries in tests/validation).
    metric = read_workshop(METHODS / "workshops" / "osierbank-small.yml", METHODS, Problems())
    assert metric is not None
    fits = chart(metric, "fits")
    row = next(row for row in fits.rows if row[0] == "over 18 to 30\u202fmm")
    found = dict(zip(fits.columns, row, strict=True))
    assert (found["H7"], found["g6"], found["js6"], found["p6"]) == (
        "+21\u00a0/ 0",
        "−7\u00a0/ −20",
        "±6.5",
        "+35\u00a0/ +22",
    )


def test_no_range_of_the_chart_of_fits_hides_a_step_of_the_standard() -> None:
    for low, high in ((1, 3), (3, 6), (6, 10), (10, 18), (18, 30), (30, 50)):
        for name in ("H7", "H8", "f7", "g6", "h6", "h7", "js6", "k6", "m6", "n6", "p6", "r6", "s6"):
            near_ends = {
                (round(found.upper_deviation, 6), round(found.lower_deviation, 6))
                for found in (limits(low + 0.01, name), limits((low + high) / 2, name), limits(high, name))
            }
            assert len(near_ends) == 1, (low, high, name)


def test_tapping_drills_leave_room_for_the_tap(shop: Workshop) -> None:
    taps = chart(shop, "tapping")
    here, left = taps.columns.index("Drill here"), taps.columns.index("Thread left")
    found = {str(row[0]): (row[here], str(row[left])) for row in taps.rows}
    for name, (_, share) in found.items():
        if share != "–":
            assert 40 <= float(share.removesuffix("\u00a0%")) <= 101, name
    if shop.key == "osierbank-small":
        # The usual drill for M6 is 5.0 mm, 92 % of the ISO overlap of 1.0825 mm.
        drill, share = found["M6"]
        assert isinstance(drill, Measure) or str(drill).startswith("5")
        assert share == "92\u00a0%"


def test_exact_divisions_add_up_to_a_whole_turn(shop: Workshop) -> None:
    for table in shop.rotary_tables.values():
        made = chart(shop, f"dividing-{table.key}")
        assert len(made.rows) == len(DIVISIONS)
        exact = [row for row in made.rows if row[-1] == "exact"]
        for row in exact:
            said = str(row[2])
            holes = re.search(r"(\d+) on (\d+)", said)
            turns = Fraction(int(holes[1]), int(holes[2])) if holes else Fraction(0)
            whole = re.match(r"(\d+)(?: \+| turn)", said)
            turns += int(whole[1]) if whole else 0
            assert turns * int(str(row[0])) == round(table.ratio), row
        if table.plates:
            assert len(exact) > 30


def test_what_rests_on_memory_is_marked_and_has_a_footnote(shop: Workshop) -> None:
    for one in wall_charts(shop):
        said = [str(cell) for row in (one.columns, *one.rows) for cell in row]
        marked = any("\N{DAGGER}" in cell for cell in said)
        assert marked == any("from memory" in note for note in one.notes), one.title
        assert not (marked and one.key == "fits"), "the limits of ISO 286 were read"
    assert any("\N{DAGGER}" in head for head in chart(shop, "feeds-drilling").columns)
