"""Do forces, power, drilling loads and chips agree with makers' tables and handbooks?"""

from __future__ import annotations

import math

import pytest

from methodsheets.trade.cutting.chips import (
    engagement_angle,
    feed_for_chip,
    feed_for_lead,
    mean_chip,
    mean_chip_short,
    round_insert_factor,
    thickest_chip,
)
from methodsheets.trade.cutting.cutting_force import parting_load, specific_cutting_force, turning_load
from methodsheets.trade.cutting.cutting_power import (
    milling_power,
    specific_force_of_unit_power,
    turning_power,
    unit_power,
    unit_power_need,
)
from methodsheets.trade.cutting.deepest_cut import parting_reach
from methodsheets.trade.cutting.drilling_force import (
    drilling_load,
    drilling_load_by_factor,
    drilling_load_by_maker,
    drilling_torque,
)
from methodsheets.trade.cutting.removal import drilling_removal_rate, turning_removal_rate
from methodsheets.trade.cutting.tool_life import life_exponent, tool_life_ratio
from methodsheets.trade.metal.materials import material

from .cases import INCH, Case, case, cases
from .record import record
from .units import agree, ours

FORCE, POWER, DRILLING, CHIPS = "Cutting force", "Cutting power", "Drilling force", "Chip thickness"
TABLE = tuple(cases("cutting", "specific cutting force kc versus feed"))
IN_TABLE = {
    "St42": "St42",
    "St50-2": "St50-2",
    "St60-2": "St60-2",
    "St70-2": "St70-2",
    "42CrMo4": "42CrMo4",
    "16MnCr5": "16MnCr5",
    "Mn/CrNi": "EN16T",
    "Mn-austenitic": "manganese steel",
    "GE240": "GE240",
    "GE260": "GE260",
    "EN-GJL-160": "EN-GJL-160",
}


@pytest.mark.parametrize("entry", TABLE, ids=lambda entry: entry.name)
def test_the_force_law_against_a_published_table(entry: Case) -> None:
    name = IN_TABLE[entry.inputs["material"].split(" ")[0]]
    constants = material(name)
    assert constants.specific_force == pytest.approx(ours(entry.inputs["kc1.1"]))
    assert constants.chip_exponent == pytest.approx(entry.inputs["mc"])
    for key in entry.expected:
        chip = float(key.removeprefix("kc_f")) * math.sin(math.radians(45))
        agree(entry, FORCE, key, specific_cutting_force(name, chip).value)


def test_every_row_of_that_table_is_compared() -> None:
    assert len(TABLE) == len(IN_TABLE)


REMEMBERED = {
    "kc-mem-c15": "C15",
    "kc-mem-c35": "C35",
    "kc-mem-c45": "C45",
    "kc-mem-c60": "C60",
    "kc-mem-100cr6": "100Cr6",
    "kc-mem-x5crni18-10": "X5CrNi18-10",
    "kc-mem-en-gjs-600": "EN-GJS-600",
    "kc-mem-almgsi": "6082-T6",
    "kc-mem-al-si": "LM6",
    "kc-mem-cuzn37-39pb": "CuZn39Pb3",
    "kc-mem-cusn": "PB102",
    "kc-mem-ti6al4v": "Ti6Al4V",
}


@pytest.mark.copied
@pytest.mark.parametrize(("name", "ours_is"), REMEMBERED.items())
def test_force_constants_from_memory(name: str, ours_is: str) -> None:
    entry, constants = case("cutting", name), material(ours_is)
    assert constants.specific_force is not None
    assert constants.chip_exponent is not None
    agree(entry, FORCE, "kc1.1", constants.specific_force)
    assert constants.chip_exponent == pytest.approx(entry.expected["mc"], abs=0.04)


SINGLE_VALUES = {
    "ks-low_carbon_steel": "S235",
    "ks-medium_carbon_steel": "C45",
    "ks-high_carbon_steel": "C60",
    "ks-low_alloy_steel": "16MnCr5",
    "ks-high_alloy_steel": "EN24T",
    "ks-cast_iron": "GJL-250",
    "ks-malleable_iron": "malleable iron",
    "ks-bronze_brass": "CZ121",
}


@pytest.mark.copied
@pytest.mark.parametrize(("name", "ours_is"), SINGLE_VALUES.items())
def test_single_values_of_a_second_maker_lie_within_the_spread_stated(name: str, ours_is: str) -> None:
    """Tool maker's basic formulas, kgf/mm^2 (page read): a coarse chip of 1 mm is meant."""
    published = ours(case("cutting", name).inputs["Ks"])
    agree(case("cutting", name), FORCE, "kc", published)
    found = specific_cutting_force(ours_is, 1.0)
    assert found.low <= published <= found.high


MAKERS_TURNING = {
    "mild_steel_520MPa": "S275",
    "medium_steel_620MPa": "C35",
    "hard_steel_720MPa": "St70-2",
    "tool_steel_670MPa": "silver steel",
    "tool_steel_770MPa": "gauge plate",
    "CrMo_steel_730MPa": "EN19T",
    "NiCrMo_steel_352HB": "EN24T",
    "grey_iron_200HB": "GJL-250",
}
"""Every row of the turning table but two that have no counterpart: iron of 46 HRC and a patent iron."""

MAKERS_MILLING = {
    "kc-mill-table": {
        "mild_steel_520MPa": "S275",
        "medium_steel_620MPa": "C35",
        "hard_steel_720MPa": "St70-2",
        "tool_steel_670MPa": "silver steel",
        "CrMo_steel_730MPa": "EN19T",
        "austenitic_stainless_155HB": "304",
        "grey_iron_200HB": "GJL-250",
        "brass_500": "CZ121",
        "AlMg_160": "5251-H22",
        "AlSi_200": "LM6",
        "AlZnMgCu_570": "7075-T6",
    },
    "kc-mill-table2": {
        "SS400_520MPa": "S275",
        "S55C_770MPa": "EN9",
        "SCM435_730MPa": "EN19T",
        "SKT4_352HB": "EN24T",
        "SC450_520MPa": "GE240",
        "FC250_200HB": "GJL-250",
        "Al_Si": "LM6",
        "brass_500MPa": "CZ121",
    },
}
"""Every row but one that has no counterpart: a cast iron of 520 MPa."""

MAKERS_FEEDS = {
    "kc-turn-table": (0.1, 0.2, 0.3, 0.4, 0.6),
    "kc-mill-table": (0.1, 0.2, 0.3, 0.4, 0.6),
    "kc-mill-table2": (0.1, 0.15, 0.2, 0.3, 0.4),
}
NO_COUNTERPART = {
    "kc-turn-table": {"hard_cast_iron_46HRC", "meehanite"},
    "kc-mill-table": {"cast_iron_520"},
    "kc-mill-table2": set[str](),
}


def excess(name: str, rows: dict[str, str], subject: str) -> dict[str, list[float]]:
    """Return by how much a maker's values exceed ours, as shares, for every row that has a counterpart."""
    entry = case("cutting", name)
    assert set(entry.expected) - set(rows) == NO_COUNTERPART[name], "no row is left out unsaid"
    found: dict[str, list[float]] = {}
    for key, ours_is in rows.items():
        for feed, text in zip(MAKERS_FEEDS[name], entry.expected[key].split(" / "), strict=True):
            value = specific_cutting_force(ours_is, feed).value
            record(subject, entry.source, value, float(text))
            found.setdefault(key, []).append(float(text) / value - 1)
    return found


def test_a_third_makers_turning_table() -> None:
    """Seven of eight rows lie within the spread stated; mild steel at fine feeds does not, and the handbook says so."""
    found = excess("kc-turn-table", MAKERS_TURNING, "Cutting force, turning tables")
    outside = {key for key, shares in found.items() if max(map(abs, shares)) > 0.30}
    assert outside == {"mild_steel_520MPa"}
    assert max(found["mild_steel_520MPa"]) == pytest.approx(0.37, abs=0.005)
    assert [share > 0.30 for share in found["mild_steel_520MPa"]] == [True, True, False, False, False]


def test_makers_milling_tables() -> None:
    """Our law lies above most of them, up to two and a half times: milling_load gives the figures."""
    shares = [
        share
        for name, rows in MAKERS_MILLING.items()
        for row in excess(name, rows, "Cutting force, milling tables").values()
        for share in row
    ]
    assert max(shares) == pytest.approx(0.15, abs=0.01)
    assert min(shares) == pytest.approx(-0.62, abs=0.01)


def test_power_pages() -> None:
    agree(case("cutting", "pow-turn-01"), POWER, "P_motor", turning_power(3, 0.2, 120, 3100, efficiency=0.8))
    load = turning_load("S235", 3, 0.2, 120, efficiency=0.8, specific_force=3100)
    agree(case("cutting", "pow-turn-01"), POWER, "P_motor", load.motor_power)
    assert load.force == pytest.approx(1860)
    agree(case("cutting", "pow-mill-01"), POWER, "P_motor", milling_power(2, 80, 280, 1800, efficiency=0.8))
    agree(case("cutting", "pow-hp-conv"), POWER, "u", specific_force_of_unit_power(1.0) / 1000)


UNIT_POWERS = tuple(cases("cutting", "unit power Kp"))
STEELS = {"kp-plaincarbon": "plain carbon", "kp-free": "free-machining", "kp-4140": "alloy"}


@pytest.mark.copied
@pytest.mark.parametrize("entry", UNIT_POWERS, ids=lambda entry: entry.name)
def test_unit_power(entry: Case) -> None:
    low, high = (float(part) for part in entry.inputs["HB"].split("-"))
    found = unit_power(STEELS[entry.name.rpartition("-")[0]], (low + high) / 2)
    agree(entry, POWER, "Kp_inch", found.inch)
    agree(entry, POWER, "Kp_SI", found.metric)


def test_unit_power_method() -> None:
    entry = case("cutting", "pow-uhp-01")
    removal = turning_removal_rate(*(ours(entry.inputs[key]) for key in ("d", "f", "v")))
    agree(entry, POWER, "Q", removal)
    agree(entry, POWER, "P_cut", unit_power_need(removal, 1.0))
    agree(entry, POWER, "P_motor", unit_power_need(removal, 1.0, efficiency=0.8))
    entry = case("cutting", "hard-kp")
    entry.check(POWER, "ratio", unit_power("plain carbon", 290).inch / unit_power("plain carbon", 170).inch)


def test_drilling_by_the_handbook() -> None:
    entry = case("cutting", "drill-pow-MH")
    diameter, feed = ours(entry.inputs["D"]), ours(entry.inputs["f"])
    load = drilling_load_by_factor(24000, diameter, feed, 350, efficiency=0.8, wear=1.3)
    for key, value in (("T", load.thrust), ("M", load.torque), ("P_cut", load.power), ("P_motor", load.motor_power)):
        agree(entry, DRILLING, key, value)


@pytest.mark.parametrize("entry", tuple(cases("cutting", "drill diameter factors")), ids=lambda entry: entry.name)
def test_drilling_factor_of_diameter(entry: Case) -> None:
    diameter = ours(entry.inputs["D"])
    torques = [drilling_load_by_factor(24000, size, 0.2, 500).torque for size in (diameter, 1.0)]
    entry.check(DRILLING, "FM", torques[0] / torques[1])
    freed = [drilling_load("EN8", size, 0.2, 500, web_share=0.03) for size in (diameter, 1.0)]
    lips = [load.thrust - 0.007 * 24000 * size**2 * 0.001 for load, size in zip(freed, (diameter, 1.0), strict=True)]
    entry.check(DRILLING, "FT", lips[0] / lips[1])


@pytest.mark.parametrize("entry", tuple(cases("cutting", "drill feed factor")), ids=lambda entry: entry.name)
def test_drilling_factor_of_feed(entry: Case) -> None:
    feed = ours(entry.inputs["f"])
    torques = [drilling_load_by_factor(24000, 10, size, 500).torque for size in (feed, 1.0)]
    entry.check(DRILLING, "Ff", torques[0] / torques[1])


def test_drilling_by_the_maker_and_by_the_force_law() -> None:
    entry = case("cutting", "drill-empirical-torque")
    load = drilling_load_by_maker(2.22, 10, 0.2, 1000)
    for key, value in (("M", load.torque), ("T", load.thrust), ("P", load.power)):
        agree(entry, DRILLING, key, value)
    agree(case("cutting", "drill-kienzle"), DRILLING, "M", drilling_torque(2500, 10, 0.2))


def test_published_rules_for_a_10_mm_drill_disagree_and_our_spread_holds_them() -> None:
    """Misprints and mismatches, 18: 15 N m and 2500 N against 12.6 N m and 4550 N at 0.3 mm feed."""
    load = drilling_load("EN3B", 10, 0.3, 600)
    maker = drilling_load_by_maker(2.22, 10, 0.3, 600)
    for torque in (15.0, maker.torque):
        assert load.torque_low <= torque <= load.torque_high
    for thrust in (2500.0, maker.thrust):
        assert load.thrust_low <= thrust <= load.thrust_high
    assert maker.thrust == pytest.approx(4550, rel=0.01)


def test_parting_force_regression() -> None:
    entry = case("cutting", "part-force-derived")
    load = parting_load("C45", 3, 0.1, 80)
    for key, value in (("kc", load.specific_force), ("Fc", load.force), ("P", load.power)):
        agree(entry, FORCE, key, value)


def test_parting_reach() -> None:
    entry = case("cutting", "part-doc")
    reach = parting_reach(3)
    agree(entry, FORCE, "depth", reach.depth)
    agree(entry, FORCE, "max_bar", reach.bar)
    agree(case("cutting", "part-doc-in"), FORCE, "depth", reach.depth)
    assert reach.bar / INCH == pytest.approx(1.890, abs=0.001)  # misprint 12: the page says 1.190


def test_removal_in_drilling() -> None:
    entry = case("cutting", "time-10")
    agree(entry, POWER, "Q", drilling_removal_rate(ours(entry.inputs["D"]), ours(entry.inputs["fN"])))


def test_chip_thinning() -> None:
    entry = case("cutting", "thin-01")
    diameter, width, chip = (ours(entry.inputs[key]) for key in ("D", "ae", "h_target"))
    entry.check(CHIPS, "factor", thickest_chip(1.0, width, diameter))
    agree(entry, CHIPS, "fz", feed_for_chip(chip, width, diameter))
    agree(entry, CHIPS, "engagement", engagement_angle(width, diameter))
    agree(case("cutting", "thin-02"), CHIPS, "hm", mean_chip_short(0.1, 5, 20))
    assert 0.9 < mean_chip(0.1, 5, 20) / mean_chip_short(0.1, 5, 20) < 1.0  # the short form overstates a little
    agree(case("cutting", "thin-03"), CHIPS, "fz", feed_for_lead(0.08, 42))


@pytest.mark.parametrize(
    "name", ["thin-04", "thin-round-0p005", "thin-round-0p01", "thin-round-0p1", "thin-round-0p15"]
)
def test_round_tips(name: str) -> None:
    entry = case("cutting", name)
    factor = round_insert_factor(ours(entry.inputs["DOC"]), 12)
    agree(entry, CHIPS, "factor", factor)
    if "fz" in entry.expected:
        agree(entry, CHIPS, "fz", factor * ours(entry.inputs["h"]))


def test_tool_life() -> None:
    entry = case("cutting", "taylor-n")
    entry.check("Tool life", "n", life_exponent(1.2, 0.5))
    assert tool_life_ratio(1.2) == pytest.approx(0.5, abs=0.002)
    record("Tool life", case("cutting", "taylor").source, tool_life_ratio(1.2), 0.5)


def test_where_two_makers_disagree_the_result_says_so() -> None:
    """The turning table's mild steel at 0.1 and 0.2 mm lies 32 to 37 % over ours, outside the spread of 30 %."""
    published = dict(zip(MAKERS_FEEDS["kc-turn-table"], (3610.0, 3100.0, 2720.0, 2500.0, 2280.0), strict=True))
    assert case("cutting", "kc-turn-table").expected["mild_steel_520MPa"] == " / ".join(
        f"{value:.0f}" for value in published.values()
    )
    for feed, value in published.items():
        found = specific_cutting_force("S275", feed)
        assert bool(found.note) == (value > found.high), feed
    assert specific_cutting_force("EN24T", 0.1).note == ""
