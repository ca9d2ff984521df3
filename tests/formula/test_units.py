"""Unit sizes against their definitions: the inch, pound and standard gravity are exact by international agreement
(1959; 3rd CGPM 1901), the mechanical horsepower is 550 ft lbf/s, the bar 100 kPa."""

import subprocess
import sys

import pytest

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.units import (
    dimension_words,
    is_angle,
    is_bare,
    is_inch,
    parse_unit,
    quantity,
    spell,
    tidy_unit,
)


@pytest.mark.parametrize(
    ("value", "unit", "other", "expected"),
    [
        (1, "in", "mm", 25.4),
        (1, "ft", "in", 12),
        (1, "thou", "mm", 0.0254),
        (1, "lb", "g", 453.59237),
        (16, "oz", "lb", 1),
        (1, "lbf", "N", 0.45359237 * 9.80665),
        (1, "psi", "MPa", 0.45359237 * 9.80665 / 25.4**2),
        (1, "bar", "MPa", 0.1),
        (1, "hp", "W", 550 * 0.3048 * 0.45359237 * 9.80665),
        (1, "kg*m/s^2", "N", 1),
        (1, "N*m", "J", 1),
        (1, "J/s", "W", 1),
        (1, "MPa", "N/mm^2", 1),
        (1, "l", "cm^3", 1000),
        (1, "t", "kg", 1000),
        (180, "deg", "rad", 3.141592653589793),
        (60, "arcmin", "deg", 1),
        (3600, "arcsec", "deg", 1),
        (20, "degC", "degF", 68),
        (100, "degC", "K", 373.15),
        (100, "%", "1", 1),
        (100, "ft/min", "m/min", 30.48),
        (1, "kW", "N*m/s", 1000),
    ],
)
def test_sizes(value: float, unit: str, other: str, expected: float) -> None:
    assert quantity(value, unit).to(parse_unit(other)).magnitude == pytest.approx(expected, rel=1e-12)


def test_a_feed_times_a_spindle_speed_is_a_feed_rate_without_any_circle_constant() -> None:
    rate = quantity(0.2, "mm") * quantity(1000, "1/min")
    assert rate.to(parse_unit("mm/min")).magnitude == pytest.approx(200, rel=1e-15)


def test_rpm_is_one_per_minute_exactly() -> None:
    assert parse_unit("rpm") == parse_unit("1/min")
    assert quantity(620, "rpm").to(parse_unit("1/s")).magnitude == pytest.approx(620 / 60, rel=1e-15)


@pytest.mark.parametrize(
    ("word", "length"), [("mm/rev", "mm"), ("in/rev", "in"), ("mm/tooth", "mm"), ("thou/rev", "thou")]
)
def test_feeds_are_lengths(word: str, length: str) -> None:
    assert parse_unit(word) == parse_unit(length)


@pytest.mark.parametrize(
    ("words", "spelled"),
    [
        ("mm", "mm"), ("N*m", "N*m"), ("Nm", "N*m"), ("m/min", "m/min"), ("1/min", "1/min"), ("N/mm^2", "N/mm^2"),
        ("N/mm²", "N/mm^2"), ("cm³/min", "cm^3/min"), ("g*mm", "g*mm"), ("mm*g", "g*mm"), ("W/(m*K)", "W/(m*K)"),
        ("lbf*in", "lbf*in"), ("inch", "in"), ("µm", "µm"), ("um", "µm"), ("°", "deg"), ("%", "%"), ("1", "1"),
        ("tpi", "tpi"), ("mm**2", "mm^2"), ("kg*mm^2", "kg*mm^2"), ("1/K", "1/K"), ("money/kg", "money/kg"),
    ],
)  # fmt: skip
def test_units_are_read_and_spelled(words: str, spelled: str) -> None:
    assert spell(parse_unit(words)) == spelled
    assert parse_unit(spelled) == parse_unit(words)


@pytest.mark.parametrize(
    ("word", "remedy"),
    [("mn", "did you mean `min`?"), ("inchs", "did you mean `inches`?"), ("KN", "did you mean `kN`?")],
)
def test_unknown_units_get_a_suggestion(word: str, remedy: str) -> None:
    with pytest.raises(FormulaError, match=f"unknown unit `{word}`") as caught:
        parse_unit(word)
    assert caught.value.remedy == remedy


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("mm", "a length"), ("ft", "a length"), ("deg", "an angle"), ("1", "a bare number"), ("%", "a bare number"),
        ("1/min", "a spindle speed"), ("m/min", "a speed"), ("kg", "a mass"), ("lbf", "a force"),
        ("N*m", "a torque"), ("psi", "a pressure"), ("hp", "a power"), ("money", "a price"), ("K", "a temperature"),
        ("W/(m*K)", "a quantity in W/(m*K)"),
    ],
)  # fmt: skip
def test_dimensions_in_words(unit: str, words: str) -> None:
    assert dimension_words(parse_unit(unit)) == words


@pytest.mark.parametrize(
    ("unit", "tidy"),
    [
        ("m/min/mm", "1/min"), ("mm*%", "mm"), ("mm*deg", "mm"), ("mm/min", "mm/min"), ("N*mm", "N*mm"),
        ("mm*cm", "mm^2"), ("mm/cm", "1"), ("kN/mm^2", "MPa"), ("mm^2", "mm^2"), ("deg*mm/mm", "deg"), ("kg*g", "g*kg"),
    ],
)  # fmt: skip
def test_worked_out_units_are_ones_that_people_say(unit: str, tidy: str) -> None:
    assert spell(tidy_unit(parse_unit(unit))) == tidy


def test_sorts_of_units() -> None:
    assert is_angle(parse_unit("arcmin"))
    assert not is_angle(parse_unit("1"))
    assert is_bare(parse_unit("%"))
    assert not is_bare(parse_unit("deg"))
    assert is_inch(parse_unit("ft/min"))
    assert not is_inch(parse_unit("m/min"))


@pytest.mark.parametrize("module", ["measure", "display", "kinds", "figures"])
def test_printed_numbers_need_no_units_library(module: str) -> None:
    code = (
        f"import sys; import methodsheets.formula.{module}; assert 'pint' not in sys.modules; "
        "from methodsheets.formula.display import measure; measure(12.5, 'length'); measure(0.3, 'power', 'kW');"
        "measure(663.0, 'spindle_speed', '1/min'); assert 'pint' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
