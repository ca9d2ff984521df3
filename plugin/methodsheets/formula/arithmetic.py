"""What is the sum, product, power or comparison of two values? Quantities that add must agree in dimension."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Mapping
from typing import Any

import pint

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.sorts import agree, converted
from methodsheets.formula.units import (
    ONE,
    REGISTRY,
    Unit,
    dimension_words,
    is_bare,
    parse_unit,
    spell,
    tidy_unit,
)
from methodsheets.formula.values import Point, Record, Value, checked
from methodsheets.reading.limits import POWER

OFFSETS = (parse_unit("degC"), parse_unit("degF"))
LARGEST_POWER = POWER
CLOSE = 1e-9
"""Two numbers that differ by less than this share count as equal: 0.1 + 0.2 is 0.3."""
NEAR_ZERO = 1e-12


def combine(op: str, left: Value, right: Value) -> Value:
    """The value of `left op right`; op is one of + - * / **."""
    if left.is_quantity and right.is_quantity:
        try:
            return OPERATIONS[op](left, right)
        except pint.OffsetUnitCalculusError as error:
            raise FormulaError(
                f"temperatures in degC cannot be calculated with like this (got {left.words()} {op} {right.words()})",
                "their zero is not the zero of heat",
                "write a difference in K, e.g. 20 degC + 60 K",
                code="temperature",
            ) from error
        except pint.PintError as error:
            raise FormulaError(
                f"these units do not go together (got {left.words()} {op} {right.words()})",
                "",
                "check the units",
                code="wrong-dimension",
            ) from error
        except ZeroDivisionError as error:
            raise _division(left, op, right) from error
        except OverflowError as error:
            raise FormulaError("the result is too large", "", "check the units", code="too-large") from error
    return _combine_items(op, left, right)


def _combine_items(op: str, left: Value, right: Value) -> Value:
    """Lists and points: with a single quantity item by item, with one of the same length pair by pair."""
    for side in (left, right):
        if isinstance(side.data, str | bool | Record):
            remedy = "take one of its fields, e.g. `.force_max`" if isinstance(side.data, Record) else ""
            raise FormulaError(f"`{op}` needs quantities (got {side.words()})", "", remedy, code="wrong-type")
    a, b = left.items, right.items
    if left.is_quantity or right.is_quantity:
        if op not in "*/" and op not in "+-":
            raise FormulaError("a power of a list is not known", "", "", code="wrong-type")
        a, b = (a * len(b), b) if left.is_quantity else (a, b * len(a))
    if len(a) != len(b) or (type(left.data) is not type(right.data) and not (left.is_quantity or right.is_quantity)):
        raise FormulaError(
            f"`{op}` needs two lists of one length (got {len(a)} and {len(b)} items)", "", "", code="wrong-type"
        )
    items = tuple(combine(op, x, y) for x, y in zip(a, b, strict=True))
    is_point = isinstance(left.data, Point) or isinstance(right.data, Point)
    return Value(Point(items) if is_point else items)


def _shared_kind(left: Value, right: Value) -> str:
    return left.kind if left.kind == right.kind or not right.kind else right.kind if not left.kind else ""


def _sum(left: Value, right: Value, sign: int) -> Value:
    a, b = left.data, right.data
    if a.units in OFFSETS or b.units in OFFSETS:
        return _temperature_sum(left, right, sign)
    if a.units is b.units or a.units == b.units:
        return checked(REGISTRY.Quantity(a.magnitude + sign * b.magnitude, a.units), _shared_kind(left, right))
    if not agree(b.units, a.units):
        raise _cannot_add(left, right, sign)
    other = converted(b.magnitude, b.units, a.units)
    return checked(REGISTRY.Quantity(a.magnitude + sign * other, a.units), _shared_kind(left, right))


def _temperature_sum(left: Value, right: Value, sign: int) -> Value:
    """20 degC + 60 K is 80 degC; 80 degC - 20 degC is 60 K; two temperatures do not add."""
    a, b = left.data, right.data
    if a.units.dimensionality != b.units.dimensionality:
        raise _cannot_add(left, right, sign)
    if a.units in OFFSETS and b.units in OFFSETS:
        if sign > 0:
            raise pint.OffsetUnitCalculusError(a.units, b.units)
        return checked(REGISTRY.Quantity(a.to("K").magnitude - b.to("K").magnitude, REGISTRY.Unit("K")))
    base, step = (a, b) if a.units in OFFSETS else (b, a)
    if base is b and sign < 0:
        raise pint.OffsetUnitCalculusError(a.units, b.units)
    size = step.to("delta_degC" if spell(base.units) == "degC" else "delta_degF").magnitude
    return checked(REGISTRY.Quantity(base.magnitude + sign * size, base.units), _shared_kind(left, right))


def _cannot_add(left: Value, right: Value, sign: int) -> FormulaError:
    verb = "added to" if sign > 0 else "subtracted from"
    bare = next((side for side in (left, right) if side.unit == "1"), None)
    other = right if bare is left else left
    remedy = f"write {bare.words()} {other.unit}" if bare else "convert one, or check the formula"
    return FormulaError(
        f"{dimension_words(right.data.units)} cannot be {verb} {dimension_words(left.data.units)} "
        f"(got {left.words()} {'+' if sign > 0 else '-'} {right.words()})",
        "quantities that add agree in dimension",
        remedy,
        code="wrong-dimension",
    )


def _product(left: Value, right: Value) -> Value:
    a, b = left.data, right.data
    kind = left.kind if b.units == ONE else right.kind if a.units == ONE else ""
    if b.units == ONE and a.units not in OFFSETS:
        return checked(REGISTRY.Quantity(a.magnitude * b.magnitude, a.units), kind)
    return _tidied(a * b, kind)


def _quotient(left: Value, right: Value) -> Value:
    a, b = left.data, right.data
    if b.magnitude == 0:
        raise ZeroDivisionError
    if b.units == ONE and a.units not in OFFSETS:
        return checked(REGISTRY.Quantity(a.magnitude / b.magnitude, a.units), left.kind)
    return _tidied(a / b)


def _division(left: Value, op: str, right: Value) -> FormulaError:
    return FormulaError(
        f"division by zero (got {left.words()} {op} {right.words()})", "", "check what goes in", code="division"
    )


def _power(left: Value, right: Value) -> Value:
    a, b = left.data, right.data
    if not is_bare(b.units):
        raise FormulaError(
            f"an exponent is a bare number (got {right.words()})", "", "take the unit away", code="wrong-dimension"
        )
    exponent = float(b.to(ONE).magnitude)
    if abs(exponent) > LARGEST_POWER:
        raise FormulaError(
            f"the exponent is too large (got {exponent:g})", f"exponents reach to {LARGEST_POWER}", "", code="too-large"
        )
    if a.magnitude < 0 and exponent != int(exponent):
        raise FormulaError(
            f"a broken power of a negative number (got {left.words()} ** {exponent:g})",
            "",
            "check the signs",
            code="no-number",
        )
    if exponent == 1:
        return left
    if is_bare(a.units):
        return checked(REGISTRY.Quantity(float(a.to(ONE).magnitude) ** exponent, ONE))
    return _tidied(a**exponent)


def _tidied(result: Any, kind: str = "") -> Value:
    unit: Unit = tidy_unit(result.units)
    return checked(result if unit == result.units else result.to(unit), kind)


OPERATIONS: Mapping[str, Callable[[Value, Value], Value]] = {
    "+": lambda left, right: _sum(left, right, 1),
    "-": lambda left, right: _sum(left, right, -1),
    "*": _product,
    "/": _quotient,
    "**": _power,
}


def negate(value: Value) -> Value:
    """The value with the other sign; lists and points item by item."""
    if value.is_quantity:
        return Value(REGISTRY.Quantity(-value.data.magnitude, value.data.units), value.kind)
    if isinstance(value.data, str | bool | Record):
        raise FormulaError(f"`-` needs a quantity (got {value.words()})", "", "", code="wrong-type")
    items = tuple(negate(item) for item in value.items)
    return Value(Point(items) if isinstance(value.data, Point) else items, value.kind)


COMPARISONS: Mapping[str, Callable[[float, float], bool]] = {
    "<": lambda a, b: a < b and not is_close(a, b),
    "<=": lambda a, b: a < b or is_close(a, b),
    ">": lambda a, b: a > b and not is_close(a, b),
    ">=": lambda a, b: a > b or is_close(a, b),
    "==": lambda a, b: is_close(a, b),
    "!=": lambda a, b: not is_close(a, b),
}


def is_close(a: float, b: float) -> bool:
    """Whether two numbers are equal but for rounding."""
    return math.isclose(a, b, rel_tol=CLOSE, abs_tol=NEAR_ZERO)


def compare(op: str, left: Value, right: Value) -> bool:
    """Whether `left op right` holds; quantities must agree in dimension, words only be equal or not."""
    if left.is_quantity and right.is_quantity:
        a, b = left.data, right.data
        if a.units != b.units:
            if not agree(b.units, a.units):
                raise _cannot_compare(left, right)
            b = REGISTRY.Quantity(converted(b.magnitude, b.units, a.units), a.units)
        return COMPARISONS[op](a.magnitude, b.magnitude)
    same_type = type(left.data) is type(right.data) and isinstance(left.data, str | bool)
    if same_type and op in ("==", "!="):
        return bool((operator.eq if op == "==" else operator.ne)(left.data, right.data))
    raise _cannot_compare(left, right)


def _cannot_compare(left: Value, right: Value) -> FormulaError:
    bare = next((side for side in (left, right) if side.unit == "1"), None)
    other = right if bare is left else left
    remedy = f"write {bare.words()} {other.unit}" if bare and other.is_quantity else ""
    return FormulaError(
        f"these cannot be compared (got {left.words()} and {right.words()})",
        "quantities that are compared agree in dimension",
        remedy,
        code="wrong-dimension",
    )


def convert(value: Value, unit: str) -> Value:
    """The same quantity in another display unit (`as`); lists item by item."""
    if not value.is_quantity and isinstance(value.data, tuple | Point):
        items = tuple(convert(item, unit) for item in value.items)
        return Value(Point(items) if isinstance(value.data, Point) else items, value.kind)
    magnitude = value.to(unit, "what stands before `as`")
    return Value(REGISTRY.Quantity(magnitude, parse_unit(unit)), value.kind)
