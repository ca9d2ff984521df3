"""Angles in a time, temperature differences and threads to the inch against their definitions.

One turn is 2 pi rad = 360 deg; 1 degF is 5/9 K and its scale starts at 32 degF = 0 degC; 20 threads in 25.4 mm are 1.27 mm
apart: exact by definition.
"""

import itertools
import math

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.display import shown
from methodsheets.formula.sorts import agree, angle_power, converted
from methodsheets.formula.units import COMPOUND_WORDS, WORDS, dimension_words, parse_unit, spell, tidy_unit
from methodsheets.formula.values import Value, number, to_unit
from methodsheets.reading.problem import MethodError


@pytest.mark.parametrize(
    ("value", "given", "wanted", "expected"),
    [
        (100, "rad/s", "1/min", 100 * 60 / (2 * math.pi)), (360, "deg/s", "1/s", 1), (1, "1/min", "rad/s", math.pi / 30),
        (3000, "1/min", "deg/s", 18000), (6, "deg/s", "rpm", 1), (20, "tpi", "mm", 1.27), (1.27, "mm", "tpi", 20),
        (12, "tpi", "in", 1 / 12), (8, "tpi", "tpi", 8), (1, "1/degF", "1/K", 1.8), (9, "delta_degF", "K", 5),
        (68, "degF", "degC", 20), (1, "W/(m*degF)", "W/(m*K)", 1.8), (10, "mm*rad", "mm", 10), (1, "rad^2/s^2", "1/s^2",
        1 / (4 * math.pi**2)),
    ],
)  # fmt: skip
def test_sizes(value: float, given: str, wanted: str, expected: float) -> None:
    assert converted(value, parse_unit(given), parse_unit(wanted)) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("given", "wanted"),
    [
        ("rad", "1"), ("degC", "delta_degC"), ("degF", "delta_degF"), ("delta_degC", "degC"), ("mm/deg", "mm"),
        ("N*m/rad", "N*m"), ("1/rad", "1"), ("tpi", "rad"), ("tpi", "mm*rad"), ("tpi", "1/mm^2"), ("tpi", "1/mm"),
    ],
)  # fmt: skip
def test_what_only_looks_alike_does_not_agree(given: str, wanted: str) -> None:
    assert not agree(parse_unit(given), parse_unit(wanted))


def every_unit() -> list[str]:
    """Every word alone, over a time, over a length, turned over and with an angle."""
    words = [word for word in (*WORDS, *COMPOUND_WORDS) if word.isascii() and word[0].isalpha()]
    return [*words, *(f"{form}{word}" for word in words for form in ("1/", "mm/", "rad*")), *(f"{w}/s" for w in words)]


def test_any_two_units_agree_or_are_refused_and_there_and_back_is_nothing() -> None:
    """The fuzz of the registry: no pair of units raises anything but a refusal, and conversion has an inverse."""
    for a, b in itertools.product(sorted({parse_unit(word) for word in every_unit()}, key=spell), repeat=2):
        if agree(a, b):
            assert converted(converted(2.5, a, b), b, a) == pytest.approx(2.5, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("word", every_unit())
def test_every_unit_can_be_said_shown_and_tidied(word: str) -> None:
    unit = parse_unit(word)
    assert parse_unit(spell(unit)) == unit
    assert dimension_words(unit)
    assert shown(number(2.5, word))
    tidy = tidy_unit(unit)
    assert agree(unit, tidy)
    if spell(unit) not in ("degC", "degF", "delta_degF"):
        assert to_unit(Value(number(2.5, word).quantity.to(tidy)), unit) == pytest.approx(2.5, rel=1e-9)


def value_or_problem(expression: str) -> None:
    """The expression is worth something that can be printed, or a problem says what is wrong with it."""
    said = ""
    try:
        said = str(shown(value_of(expression)))
    except MethodError as error:
        said = error.problem.what
    assert said, expression


OPERANDS = ("3 mm", "2 tpi", "5 rad/s", "40 deg", "20 degC", "68 degF", "10 K", "9 delta_degF", "6e-6 1/degF", "7 1/min",
            "2", "0 tpi", "3 mm/deg", "150 HB", "4 N*m", "50 %", "0.1 in")  # fmt: skip


@pytest.mark.parametrize("op", ["+", "-", "*", "/", "**", "<", "==", "as"])
def test_arithmetic_of_any_two_units_gives_a_value_or_a_problem(op: str) -> None:
    for a, b in itertools.product(OPERANDS, repeat=2):
        right = b.partition(" ")[2] or "1" if op == "as" else f"({b})"
        value_or_problem(f"({a}) {op} {right}")


@pytest.mark.parametrize("function", ["sqrt", "abs", "round", "floor", "ceil", "sin", "tan", "atan", "exp", "ln"])
def test_functions_of_any_unit_give_a_value_or_a_problem(function: str) -> None:
    for a in OPERANDS:
        value_or_problem(f"{function}({a})")


@pytest.mark.parametrize("function", ["min", "max", "sum", "mean", "hypot", "atan2"])
def test_functions_of_any_two_units_give_a_value_or_a_problem(function: str) -> None:
    for a, b in itertools.product(OPERANDS, repeat=2):
        value_or_problem(f"{function}({a}, {b})")


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("10 mm * 100 rad/s", "m/s", 1.0), ("10 N*m * 105 rad/s", "W", 1050), ("100 rad/s + 60 1/min", "1/s", 16.9155),
        ("90 deg / 1 s", "1/min", 15), ("5 mm / 1 deg * 90 deg", "mm", 450), ("1 / 20 tpi", "mm", 1.27),
        ("20 tpi * 2 in", "1", 40), ("6e-6 1/degF * 100 K", "1", 6e-6 * 180), ("20 degC + 18 delta_degF", "degC", 30),
    ],
)  # fmt: skip
def test_what_people_write(expression: str, unit: str, expected: float) -> None:
    assert value_of(expression).to(unit) == pytest.approx(expected, rel=1e-5)


def test_a_place_on_the_scale_is_no_rise() -> None:
    with pytest.raises(MethodError, match="a difference of temperatures") as caught:
        value_of("650 degC as delta_degC")
    assert caught.value.problem.remedy.startswith("write `650 K` for a rise")


def test_angles_are_counted() -> None:
    assert angle_power(parse_unit("rad/s")) == 1
    assert angle_power(parse_unit("mm/deg")) == -1
    assert angle_power(parse_unit("1/min")) == 0
