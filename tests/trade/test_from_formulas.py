"""Can an author call the handbook with units, and can a page show what comes of it?"""

from __future__ import annotations

import math

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.functions import FunctionTable
from methodsheets.formula.kinds import KINDS
from methodsheets.formula.units import parse_unit
from methodsheets.formula.values import to_unit
from methodsheets.reading.problem import MethodError
from methodsheets.trade.form.calculation import catalogue
from methodsheets.trade.form.sheet import UNITS


@pytest.fixture(scope="module")
def table() -> FunctionTable:
    return builtins().with_functions(from_calculations(catalogue()))


NUMBERS = [
    ("spindle_speed(25 m/min, 12 mm)", "1/min", 25000 / (math.pi * 12)),
    ("spindle_speed(100 ft/min, 1/2 in)", "1/min", 30480 / (math.pi * 12.7)),
    ('thread("M6").tap_drill', "mm", 5.0),
    ('thread("1/4x32 ME").core', "mm", 6.35 - 1.280654 * 25.4 / 32),
    ('drill_for_thread("M6", engagement=75 %, definition="iso").diameter', "mm", 5.2),
    ('thread_engagement("M6", 5 mm, "british")', "%", 81.508),
    ("passes(40 mm, 38 mm, 0.4 mm)", "1", 3),
    ("feed_rate(0.065 mm/tooth, 663 rpm, 3)", "mm/min", 129.285),
    ('material("EN1A").density', "g/cm^3", 7.86),
    ('material("EN1A").modulus', "GPa", 206),
    ('recommended_speed("EN3B", "hss", "drill").value', "ft/min", 95),
    ('recommended_feed("EN3B", "drill", 5 mm, machine="heavy").high', "thou", 4),
    ('turning_load("EN3B", 3 mm, 0.2 mm/rev, 120 m/min, specific_force=3100 N/mm^2).motor_power', "kW", 4.65),
    ('deepest_turning_cut("EN3B", 0.1 mm, 25 m/min, 370 W).depth', "mm", 2.0756),
    ('drill("#7").diameter', "in", 0.201),
    ('nearest_drill(5.113 mm, "number").diameter', "mm", 5.1054),
    ("drill_travel(50 mm, 15 mm, approach=2 mm, overrun=2 mm)", "mm", 58.506),
    ("turned_roughness(0.2 mm, 0.8 mm).height", "um", 6.25),
    ("turning_time(100 mm, 0.1 mm, 500 1/min)", "s", 120),
    ('thread_over_wires("M10", wire=0.866 mm).over', "mm", 10.325),
    ("change_gears(1 mm, 3 mm, [20, 30, 40, 60]).pitch", "mm", 1.0),
    ('thread_limits("M6", "6H").minor_max', "mm", 5.1535),
    ('tapped_hole("M6", 10 mm).drill_depth', "mm", 15),
    ("parting_reach(3 mm).bar", "mm", 48),
    ('unit_power("plain carbon", 170 HB).specific_force', "MPa", 2129.65),
    ("deep_hole_factors(50 mm, 10 mm).speed", "%", 70),
    ("tool_life_ratio(1.2)", "1", 0.5),
]


@pytest.mark.parametrize(("formula", "unit", "wanted"), NUMBERS)
def test_numbers(table: FunctionTable, formula: str, unit: str, wanted: float) -> None:
    assert to_unit(value_of(formula, functions=table), unit, formula) == pytest.approx(wanted, rel=2e-4)


def test_words_and_lists(table: FunctionTable) -> None:
    assert value_of('thread("2 BA").tap_drill_name', functions=table).text == "4.0 mm"
    assert len(value_of("peck_depths(30 mm, 8 mm).depths", functions=table).items) == 3
    assert len(value_of("threading_infeeds(0.613 mm, 5)", functions=table).items) == 5


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ("spindle_speed(25 mm, 12 mm)", "cutting_speed"),
        ("spindle_speed(25 m/min, -12 mm)", "out of range"),
        ('material("EN1B").density', "EN1B"),
        ('thread("M99").pitch', "M99"),
        ('recommended_speed("EN3B", "hss", "hammer").value', "hammer"),
        ('thread_engagement("M6", 5 mm, "german")', "german"),
    ],
)
def test_what_is_wrong_is_said(table: FunctionTable, formula: str, says: str) -> None:
    with pytest.raises(MethodError, match=says):
        value_of(formula, functions=table)


def test_every_unit_and_kind_is_known_to_the_formula_language() -> None:
    for unit in UNITS:
        parse_unit(unit)
    for entry in catalogue().values():
        for result in entry.results:
            if result.unit in UNITS and result.kind != "number":
                assert result.kind in KINDS, (entry.name, result.name, result.kind)
                made, kept = parse_unit(result.unit), parse_unit(KINDS[result.kind].unit)
                assert made.is_compatible_with(kept), (entry.name, result.name, result.unit, result.kind)
