"""Rounding by kind. The rules are the handbook's own; conversions are checked against exact unit sizes."""

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.display import measure, show, shown
from methodsheets.formula.figures import decimals, figures, grouped, printed_unit, with_unit
from methodsheets.formula.kinds import KINDS, USUAL_KINDS, write
from methodsheets.trade.form import sheet


def plain(words: str) -> str:
    return words.replace("\u202f", " ").replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("number", "kind", "metric", "inch"),
    [
        (12.5, "length", "12.5 mm", "0.492 in"), (12, "length", "12 mm", "0.472 in"),
        (12.3456, "length", "12.35 mm", "0.486 in"), (9.525, "length", "9.525 mm", "0.375 in"),
        (0.0344, "length", "0.034 mm", "0.0014 in"), (0.0001, "length", "0.0001 mm", "0 in"),
        (12500, "length", "12 500 mm", "492.126 in"), (-3, "length", "−3 mm", "−0.118 in"),
        (0, "length", "0 mm", "0 in"),
        (16.018, "size", "16.018 mm", "0.6306 in"), (16, "size", "16.000 mm", "0.6299 in"),
        (0.018, "deviation", "+18 µm", "+0.0007 in"), (-0.011, "deviation", "−11 µm", "−0.0004 in"),
        (0, "deviation", "0 µm", "0 in"), (0.0065, "deviation", "+6.5 µm", "+0.0003 in"),
        (0.016, "clearance", "16 µm", "0.0006 in"), (-0.002, "clearance", "−2 µm", "−0.00008 in"),
        (1.2, "deviation", "+1.2 mm", "+0.0472 in"),
        (3.2, "roughness", "3.2 µm", "130 µin"), (0.1, "feed", "0.1 mm", "0.0039 in"),
        (0.125, "feed", "0.125 mm", "0.0049 in"), (0.0481, "feed", "0.048 mm", "0.0019 in"),
        (0.1043, "feed", "0.1 mm", "0.0041 in"), (62.34, "feed_rate", "62.3 mm/min", "2.45 in/min"),
        (663.146, "spindle_speed", "663 1/min", "663 1/min"), (8.25, "spindle_speed", "8.3 1/min", "8.3 1/min"),
        (25, "cutting_speed", "25 m/min", "82 ft/min"), (18.849, "cutting_speed", "18.8 m/min", "62 ft/min"),
        (123.45, "cutting_speed", "123 m/min", "405 ft/min"),
        (12.504, "angle", "12.5°", "12.5°"), (0.003, "angle", "0.003°", "0.003°"),
        (12.504166667, "angle_minutes", "12° 30′ 15″", "12° 30′ 15″"), (30, "angle_minutes", "30°", "30°"),
        (-7.5, "angle_minutes", "−7° 30′", "−7° 30′"), (59.99999, "angle_minutes", "60°", "60°"),
        (1234, "force", "1230 N", "277 lbf"), (12345, "force", "12.3 kN", "2780 lbf"), (8e-15, "force", "0 N", "0 lbf"),
        (9.81, "torque", "9.81 N·m", "86.8 lbf·in"), (29.02, "torque", "29 N·m", "21.4 lbf·ft"),
        (0.0451, "torque", "45.1 N·mm", "0.399 lbf·in"), (195.2, "pressure", "195 MPa", "28 300 psi"),
        (210000, "modulus", "210 GPa", "30.5 Mpsi"), (370, "power", "370 W", "0.496 hp"),
        (1500, "power", "1.5 kW", "2.01 hp"), (2950, "stiffness", "2950 N/mm", "16 800 lbf/in"),
        (5.25, "mass", "5.3 g", "0.185 oz"), (123.4, "mass", "123 g", "4.4 oz"), (999.7, "mass", "1 kg", "2.2 lb"),
        (1234.4, "mass", "1.234 kg", "2.72 lb"), (0.03, "mass", "0.03 g", "0.001 oz"),
        (1 / 30, "time", "2 s", "2 s"), (0.07, "time", "4.2 s", "4.2 s"), (0.75, "time", "45 s", "45 s"),
        (10 / 3, "time", "3 min 20 s", "3 min 20 s"), (3, "time", "3 min", "3 min"),
        (65, "time", "1 h 05 min", "1 h 05 min"),
        (59.99 / 60, "time", "1 min", "1 min"), (59.6, "time", "1 h", "1 h"), (0, "time", "0 s", "0 s"),
        (42.04, "percent", "42 %", "42 %"), (220, "temperature", "220 °C", "428 °F"),
        (60, "temperature_difference", "60 K", "108 °F"), (11.5e-6, "expansion", "11.5 × 10⁻⁶ 1/K", "6.39 × 10⁻⁶ 1/°F"),
        (5000, "volume", "5 cm³", "0.305 in³"), (180, "area", "180 mm²", "0.279 in²"),
        (7.85, "density", "7.85 g/cm³", "0.284 lb/in³"), (6, "count", "6", "6"), (7, "money", "7.00", "7.00"),
        (0.30004, "ratio", "0.3", "0.3"), (250, "hardness", "250 HB", "250 HB"),
        (72.0, "unbalance", "72 g·mm", "0.1 oz·in"),
    ],
)  # fmt: skip
def test_kinds(number: float, kind: str, metric: str, inch: str) -> None:
    made = measure(number, kind)
    assert (plain(made.metric), plain(made.inch)) == (metric, inch)
    assert (made.value, made.unit, made.kind) == (number, KINDS[kind].unit, kind)


@pytest.mark.parametrize(
    ("expression", "metric", "inch"),
    [
        ("3/8 in", "9.525 mm", "0.375 in"), ("15 thou", "0.381 mm", "15 thou"), ("250 um", "250 µm", "0.0098 in"),
        ("2 m", "2 m", "78.74 in"), ("1.5 kN", "1.5 kN", "337 lbf"), ("90 s", "1 min 30 s", "1 min 30 s"),
        ("200 ft/min", "61 m/min", "200 ft/min"), ("7850 kg/m^3", "7850 kg/m³", "0.284 lb/in³"),
        ("5 %", "5 %", "5 %"), ("1/3", "0.333333", "0.333333"), ("2.5 money/kg", "2.5 money/kg", "2.5 money/kg"),
        ("3 um/m", "3 µm/m", "3 µm/m"), ("80 degC - 20 degC", "60 K", "108 °F"), ("sqrt(2 mm)", "1.4142 mm^0.5", None),
    ],
)  # fmt: skip
def test_values_of_which_nobody_said_the_kind(expression: str, metric: str, inch: str) -> None:
    made = measure(value_of(expression))
    assert (plain(made.metric), plain(made.inch)) == (metric, inch or metric)


def test_an_unknown_kind_without_a_unit_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="no kind of quantity is called 'nonsense'"):
        measure(3.0, "nonsense")


def test_a_number_in_another_unit_is_brought_to_that_of_its_kind() -> None:
    assert (measure(0.37, "power", "kW").value, measure(0.37, "power", "kW").unit) == (370, "W")
    assert measure(18, "deviation", "um").metric == measure(0.018, "deviation").metric
    assert measure(2, "length", "ft").value == pytest.approx(609.6)
    assert measure(5, "depth_of_cut_of_nobody", "mm").metric == measure(5, "length").metric


def test_a_kind_that_does_not_fit_the_dimension_gives_way() -> None:
    assert plain(measure(value_of("3 N"), "length").metric) == "3 N"


def test_show_chooses_the_system() -> None:
    assert plain(show(25.4, "length", "inch")) == "1 in"
    assert plain(show(value_of("12 money"), currency="crowns")) == "12.00 crowns"


def test_everything_else_in_words(scope, functions) -> None:
    def words(expression):
        return plain(str(shown(value_of(expression, scope, functions))))

    assert words("throw > 1 mm") == "yes"
    assert words('"H7"') == "H7"
    assert words("fit") == "H7/s6"
    assert words("fit.hole") == "upper 16.018 mm"
    assert words("[1 mm, 2 mm]") == "1 mm, 2 mm"
    assert words("(1 mm, 2 mm)") == "(1 mm, 2 mm)"


@pytest.mark.parametrize(
    ("number", "places", "text"),
    [(2.675, 2, "2.68"), (2.67499, 2, "2.67"), (0.005, 2, "0.01"), (-0.004, 2, "0"),
     (1e20, 0, "100 000 000 000 000 000 000"), (float("nan"), 2, "?"), (0.1 + 0.2, 1, "0.3")],
)  # fmt: skip
def test_decimals_round_half_away_from_nothing(number: float, places: int, text: str) -> None:
    assert plain(decimals(number, places)) == text


@pytest.mark.parametrize(
    ("number", "count", "text"),
    [(0.00012345, 3, "0.000123"), (99.96, 3, "100"), (123456, 3, "123 000"), (1.23456e8, 3, "1.23 × 10⁸"),
     (-2.5e-7, 2, "−2.5 × 10⁻⁷"), (1000, 3, "1000"), (0, 3, "0"), (9.999, 3, "10")],
)  # fmt: skip
def test_figures(number: float, count: int, text: str) -> None:
    assert plain(figures(number, count)) == text


def test_typography() -> None:
    assert grouped("1234") == "1234"
    assert grouped("12345.6789") == "12\u202f345.6789"
    assert with_unit("12", "mm") == "12\u202fmm"
    assert with_unit("30", "deg") == "30°"
    assert [printed_unit(unit) for unit in ("N*m", "mm^2", "1/min", "W/(m*K)", "inch", "1", "mm^-1", "kg*mm^2")] == [
        "N·m", "mm²", "1/min", "W/(m·K)", "in", "", "mm⁻¹", "kg·mm²",
    ]  # fmt: skip


def test_tables_of_kinds_hang_together() -> None:
    for unit, kind in USUAL_KINDS.items():
        assert kind in KINDS, unit
    for kind in KINDS:
        assert write(1.0, kind)
        assert write(1.0, kind, "inch")


def test_every_kind_of_the_handbooks_calculations_is_known() -> None:
    assert set(sheet.KINDS) - {"flag", "text", "result"} <= set(KINDS)
