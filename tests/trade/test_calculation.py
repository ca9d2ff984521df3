"""Does the machinery read docstrings, keep to the ranges and notice an equation that lies?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest
from tests.trade.equation import check_equation, work_out

from methodsheets.trade.cutting.cutting import passes
from methodsheets.trade.cutting.cutting_time import facing_time
from methodsheets.trade.form.calculation import NotInTable, OutOfRange, calculation, calculation_of, catalogue, subjects
from methodsheets.trade.form.ranges import Bound
from methodsheets.trade.form.sheet import KINDS, UNITS, SheetError, read_sheet


@calculation
def sample(
    length: float, share: float = 0.5, kind: str = "plain", marked: bool = False, cuts: tuple[float, ...] = ()
) -> float:
    """A length, shared.

    More about it.

    Equation:
        s = L * q

    Parameters:
        length: L [mm] (0 < L <= 100) a length
            that goes on in a second line
        share: q [1] (0 <= q < 1) share of it
        kind: [text] (one of plain, fancy) kind of it
        marked: [flag] whether it is marked
        cuts: [mm, ...] (c > 0) cuts in it

    Returns:
        s [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> sample(10)
        5.0

    Source:
        None: a sample.

    Trust: exact
    """
    return length * share


@dataclass(frozen=True)
class Pair:
    """Two numbers."""

    first: float
    words: str


def test_the_docstring_is_read() -> None:
    entry = calculation_of(sample)
    assert entry.sentence == "A length, shared."
    assert entry.details == "More about it."
    assert entry.equations == ("s = L * q",)
    assert [parameter.name for parameter in entry.parameters] == ["length", "share", "kind", "marked", "cuts"]
    length, share, kind, _, cuts = entry.parameters
    assert (length.symbol, length.unit, length.rule) == ("L", "mm", "0 < L <= 100")
    assert length.range.low == Bound(0.0, "", is_open=True)
    assert length.range.high == Bound(100.0, "", is_open=False)
    assert length.text.endswith("second line")
    assert share.default == 0.5
    assert share.optional
    assert kind.choices == ("plain", "fancy")
    assert cuts.many
    assert entry.results[0].name == "sample"
    assert entry.results[0].kind == "length"
    assert entry.trust == "exact"


@pytest.mark.parametrize("value", [0, -1, 100.001, math.nan, math.inf, True, "ten", None])
def test_values_outside_the_range_are_refused(value: object) -> None:
    with pytest.raises(OutOfRange) as caught:
        sample(value)  # type: ignore[arg-type]
    assert caught.value.parameter == "length"


@pytest.mark.parametrize(("value", "held"), [(1e-9, True), (100, True), (50, True)])
def test_values_inside_the_range_are_taken(value: float, held: bool) -> None:
    assert (sample(value) == value / 2) is held


def test_whole_numbers() -> None:
    assert passes(40, 38, 0.4) == 3
    assert facing_time(50, 0.1, 500, cuts=2.0) == facing_time(50, 0.1, 500, cuts=2)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="whole number"):
        facing_time(50, 0.1, 500, cuts=2.5)  # type: ignore[arg-type]


def test_ends_of_ranges() -> None:
    assert sample(10, 0) == 0
    with pytest.raises(OutOfRange):
        sample(10, 1)


def test_words_flags_and_lists() -> None:
    assert sample(10, kind="FANCY", marked=True, cuts=(1, 2)) == 5
    with pytest.raises(OutOfRange, match="plain, fancy"):
        sample(10, kind="other")
    with pytest.raises(OutOfRange):
        sample(10, marked=1)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="cuts is -2"):
        sample(10, cuts=(1, -2))


def test_a_refusal_says_what_is_wrong_and_the_rule() -> None:
    with pytest.raises(OutOfRange) as caught:
        sample(-3)
    assert str(caught.value) == "length is -3 mm; the rule: 0 < L <= 100"
    assert isinstance(caught.value, ValueError)


def test_a_name_not_in_a_table_brings_suggestions() -> None:
    error = NotInTable("steal", "metal", ["steel", "brass", "copper"])
    assert error.suggestions == ("steel",)
    assert "did you mean steel?" in str(error)


def test_an_equation_that_lies_is_noticed() -> None:
    entry = calculation_of(sample)
    assert check_equation(entry, {"length": 10.0}, 5.0) == ("s",)
    with pytest.raises(AssertionError, match="gives 5"):
        check_equation(entry, {"length": 10.0}, 5.001)


def test_equations_are_worked_out_in_coherent_units() -> None:
    entry = catalogue()["spindle_speed"]
    (step,) = work_out(entry, {"cutting_speed": 25.0, "diameter": 12.0})
    assert step.unit == "1/min"
    assert step.value == pytest.approx(25000 / (math.pi * 12))


def test_a_sheet_that_does_not_keep_to_the_form_is_our_mistake() -> None:
    for line in ("length: L [furlong] a length", "length L mm", "length: L [mm] (somewhere) a length"):
        with pytest.raises(SheetError):
            read_sheet("bad", f"One.\n\nParameters:\n    {line}\n", {})
    with pytest.raises(SheetError):
        read_sheet("bad", "One.\n\nReturns:\n    s [mm] lenght\n", {})
    with pytest.raises(SheetError):
        read_sheet("bad", "", {})


def test_only_calculations_have_a_record() -> None:
    with pytest.raises(TypeError):
        calculation_of(len)


def test_the_catalogue_is_sorted_and_knows_its_subjects() -> None:
    names = list(catalogue())
    assert names == sorted(names)
    assert {"cutting", "threads", "materials", "drills"} <= set(subjects())
    for entry in catalogue().values():
        for result in entry.results:
            assert result.kind in KINDS
            assert result.unit in UNITS or result.unit in {"text", "flag"} or result.unit[0].isupper()
