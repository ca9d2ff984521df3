"""What can an expression be worth? Quantities, words, yes or no, lists, points, and the results of calculations."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.sorts import DIFFERENCES, agree, converted, difference_remedy
from methodsheets.formula.units import (
    REGISTRY,
    Quantity,
    Unit,
    dimension_words,
    is_bare,
    parse_unit,
    quantity,
    spell,
)
from methodsheets.reading.problem import did_you_mean

LARGEST = 1e100


@dataclass(frozen=True)
class Record:
    """The result of a calculation that has several fields."""

    type: str
    """Name of the kind of result: 'Fit', 'PressFit'."""
    fields: Mapping[str, Value]
    raw: Any = field(default=None, repr=False, compare=False)
    """The object as the calculation gave it; other calculations take it in."""
    labels: Mapping[str, str] = field(default_factory=dict, repr=False)
    """What each field is, in words."""


@dataclass(frozen=True)
class Point:
    """`(x, y)` or `(x, y, z)`."""

    items: tuple[Value, ...]


Data: TypeAlias = "Quantity | str | bool | tuple[Value, ...] | Point | Record"


@dataclass(frozen=True, slots=True)
class Value:
    """What an expression is worth."""

    data: Any
    """A pint quantity in its display unit, words, yes or no, a tuple (list), a `Point` or a `Record`."""
    kind: str = ""
    """Sort of quantity, which decides the rounding: 'length', 'spindle_speed' …; '' where nobody said."""

    @property
    def is_quantity(self) -> bool:
        """Whether it is a number, with or without a unit."""
        return isinstance(self.data, REGISTRY.Quantity)

    @property
    def quantity(self) -> Quantity:
        """The pint quantity; FormulaError if the value is none."""
        if not self.is_quantity:
            raise FormulaError(f"a number with a unit is due (got {self.words()})", code="wrong-type")
        return self.data

    @property
    def unit(self) -> str:
        """The display unit, '1' for a bare number, '' for anything but a number."""
        return spell(self.data.units) if self.is_quantity else ""

    @property
    def magnitude(self) -> float:
        """The number in the display unit."""
        return float(self.quantity.magnitude)

    @property
    def record(self) -> Record:
        """The fields of a calculation's result; FormulaError if the value is none."""
        if not isinstance(self.data, Record):
            raise FormulaError(f"the result of a calculation is due (got {self.words()})", code="wrong-type")
        return self.data

    @property
    def text(self) -> str:
        """The words; FormulaError if the value is something else."""
        if not isinstance(self.data, str):
            raise FormulaError(
                f"words are due (got {self.words()})",
                "words stand in double quotes",
                'write for instance "H7"',
                code="wrong-type",
            )
        return self.data

    @property
    def flag(self) -> bool:
        """Yes or no; FormulaError if the value is something else."""
        if not isinstance(self.data, bool):
            raise FormulaError(
                f"a condition is due (got {self.words()})",
                "a condition is true or false",
                "write a comparison, e.g. `bore > 10 mm`",
                code="wrong-type",
            )
        return self.data

    @property
    def items(self) -> tuple[Value, ...]:
        """The items of a list or the coordinates of a point; of anything else, itself alone."""
        if isinstance(self.data, Point):
            return self.data.items
        return self.data if isinstance(self.data, tuple) else (self,)

    def to(self, unit: str, what: str = "this") -> float:
        """The number in a given unit, such as 'mm', 'deg', '1/min', '1'.

        Raises FormulaError that names the sort of quantity that is due, and what to write.
        """
        return to_unit(self, unit, what)

    def words(self) -> str:
        """The value in plain words, for messages."""
        if self.is_quantity:
            unit = self.unit
            return f"{self.data.magnitude:.6g}" + ("" if unit == "1" else f" {unit}")
        if isinstance(self.data, bool):
            return "true" if self.data else "false"
        if isinstance(self.data, str):
            return f'"{self.data}"'
        if isinstance(self.data, Record):
            return f"a result with the fields {', '.join(self.data.fields)}"
        joined = ", ".join(item.words() for item in self.items[:6])
        return f"({joined})" if isinstance(self.data, Point) else f"[{joined}]"


def number(value: float, unit: str = "1", kind: str = "") -> Value:
    """A value from a number and a unit word: `number(25, "m/min", "cutting_speed")`."""
    return Value(quantity(value, unit), kind)


def of(data: Any, kind: str = "") -> Value:
    """A value from plain data: a quantity, a number without a unit, words, yes or no, a list."""
    if isinstance(data, Value):
        return data
    if isinstance(data, bool | str | Point | Record | REGISTRY.Quantity):
        return Value(data, kind)
    if isinstance(data, int | float):
        return number(float(data), "1", kind)
    if isinstance(data, tuple | list):
        return Value(tuple(of(item, kind) for item in data), kind)
    raise TypeError(f"no value can be made of {data!r}")


def checked(result: Quantity, kind: str = "") -> Value:
    """The value of a quantity that is a finite number within reach; FormulaError otherwise."""
    magnitude = result.magnitude
    if isinstance(magnitude, complex) or math.isnan(magnitude):
        raise FormulaError("the result is no number", "", "check the signs of what goes in", code="no-number")
    if abs(magnitude) > LARGEST:
        raise FormulaError(
            "the result is too large", f"numbers reach to {LARGEST:g}", "check the units", code="too-large"
        )
    return Value(result, kind)


def to_unit(value: Value, unit: str | Unit, what: str = "this") -> float:
    """The number of a value in a unit; bare numbers are neither lengths nor angles, and angles are no numbers."""
    wanted = parse_unit(unit) if isinstance(unit, str) else unit
    unit = unit if isinstance(unit, str) else spell(unit)
    if not value.is_quantity:
        raise FormulaError(
            f"{what} is {dimension_words(wanted)} (got {value.words()})",
            "",
            f"write a number{_with(unit)}",
            code="wrong-type",
        )
    given = value.data.units
    if given == wanted:
        return float(value.data.magnitude)
    if not agree(given, wanted):
        raise wrong_dimension(value, unit, what, wanted)
    return converted(value.data.magnitude, given, wanted)


def wrong_dimension(value: Value, unit: str, what: str, wanted: Unit) -> FormulaError:
    """The error for a quantity of the wrong sort; a bare number gets the unit to write."""
    if is_bare(value.data.units) and not is_bare(wanted):
        got = f"got {value.words()}, a bare number"
        remedy = (
            f"write {value.words().removesuffix(' %')} {unit}" if value.unit in ("1", "%") else f"give it in {unit}"
        )
        return FormulaError(
            f"{what} is {dimension_words(wanted)} ({got})", "a quantity carries its unit", remedy, code="bare-number"
        )
    got = f"got {value.words()}, {dimension_words(value.data.units)}"
    remedy = f"give it{_with(unit)}" if unit != "1" else "divide it by a quantity of its own sort"
    if unit in DIFFERENCES and value.data.units.dimensionality == wanted.dimensionality:
        remedy = difference_remedy(value.magnitude, value.data.units)
    return FormulaError(f"{what} is {dimension_words(wanted)} ({got})", "", remedy, code="wrong-dimension")


def _with(unit: str) -> str:
    return " without a unit" if unit == "1" else f" in {unit}"


def field_of(value: Value, name: str, owner: str) -> Value:
    """The field of a result; FormulaError with a suggestion where there is none."""
    if isinstance(value.data, Point) and name in ("x", "y", "z")[: len(value.data.items)]:
        return value.data.items["xyz".index(name)]
    if not isinstance(value.data, Record):
        raise FormulaError(
            f"`{owner}` has no fields (got {value.words()})",
            "only results of calculations have",
            f"write `{owner}` alone",
            code="unknown-field",
        )
    found = value.data.fields.get(name)
    if found is None:
        raise FormulaError(
            f"`{owner}` has no field `{name}`", "", did_you_mean(name, value.data.fields), code="unknown-field"
        )
    return found


def leaves(value: Value, name: str = "") -> Iterator[tuple[str, Value]]:
    """The single values in a value with their names: fields of results as `a.b`, items of lists as `a 1`."""
    if isinstance(value.data, Record):
        for field_name, item in value.data.fields.items():
            yield from leaves(item, f"{name}.{field_name}" if name else field_name)
    elif isinstance(value.data, tuple):
        for index, item in enumerate(value.data, 1):
            yield from leaves(item, f"{name} {index}".strip())
    else:
        yield name, value
