"""Which mathematics does every formula know? min, max, roots, angles and the like."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache, reduce

from methodsheets.formula.arithmetic import combine, compare
from methodsheets.formula.errors import FormulaError
from methodsheets.formula.functions import Arguments, Function, FunctionTable, Parameter
from methodsheets.formula.units import ONE, REGISTRY, is_bare
from methodsheets.formula.values import Value, checked, number, to_unit

A, X, Y = Parameter("a"), Parameter("x"), Parameter("y")


def _spread(arguments: Arguments) -> tuple[Value, ...]:
    """The values of a variadic call, lists taken apart."""
    return tuple(item for value in arguments["values"].items for item in value.items)


def _extreme(op: str) -> Callable[[Arguments], Value]:
    return lambda arguments: reduce(lambda a, b: b if compare(op, b, a) else a, _spread(arguments))


def _total(arguments: Arguments) -> Value:
    return reduce(lambda a, b: combine("+", a, b), _spread(arguments))


def _mean(arguments: Arguments) -> Value:
    return combine("/", _total(arguments), number(float(len(_spread(arguments)))))


def _hypot(arguments: Arguments) -> Value:
    squares = [combine("*", value, value) for value in _spread(arguments)]
    kind = _spread(arguments)[0].kind
    return Value(combine("**", reduce(lambda a, b: combine("+", a, b), squares), number(0.5)).data, kind)


def _sqrt(arguments: Arguments) -> Value:
    value = arguments["x"]
    if value.quantity.magnitude < 0:
        raise FormulaError(
            f"the root of a negative number (got {value.words()})", "", "check the signs", code="no-number"
        )
    return combine("**", value, number(0.5))


def _each(make: Callable[[float], float]) -> Callable[[Arguments], Value]:
    """A function of the number alone that keeps the unit."""

    def call(arguments: Arguments) -> Value:
        value = arguments["x"]
        return checked(REGISTRY.Quantity(make(value.quantity.magnitude), value.data.units), value.kind)

    return call


def _rounded(make: Callable[[float], float]) -> Callable[[Arguments], Value]:
    """Rounding to a multiple of `step`; without one, to whole numbers of the display unit."""

    def call(arguments: Arguments) -> Value:
        value = arguments["x"]
        step = arguments.get("step")
        if step is None:
            size, unit = 1.0, value.quantity.units
        else:
            size, unit = step.quantity.magnitude, step.data.units
        if size <= 0:
            raise FormulaError(f"a step is larger than nothing (got {size:g})", "", "", code="out-of-range")
        steps = to_unit(value, unit, "the value to round") / size
        return checked(REGISTRY.Quantity(make(_settled(steps)) * size, unit), value.kind)

    return call


def _settled(value: float) -> float:
    """The number without the dust of floating point, so that ceil(0.3 / 0.1) is 3."""
    nearest = round(value)
    return float(nearest) if math.isclose(value, nearest, rel_tol=1e-12, abs_tol=1e-12) else value


def _half_up(value: float) -> float:
    """Round half away from nothing, as the workshop does."""
    return math.copysign(math.floor(abs(value) + 0.5), value)


def _angle_function(
    make: Callable[[float], float], name: str, *, bare_is_radians: bool = False
) -> Callable[[Arguments], Value]:
    def call(arguments: Arguments) -> Value:
        if bare_is_radians and is_number(arguments["x"]):
            return number(make(arguments["x"].to("1")))
        angle = arguments["x"].to("deg", f"the argument of `{name}`")
        if name == "tan" and math.isclose(abs(angle) % 180, 90, abs_tol=1e-12):
            raise FormulaError(f"the tangent of {angle:g} deg has no value", "", "", code="no-number")
        exact = _EXACT.get((name, angle % 360))
        return number(make(math.radians(angle)) if exact is None else exact)

    return call


_EXACT: dict[tuple[str, float], float] = {
    ("sin", 0): 0.0, ("sin", 30): 0.5, ("sin", 90): 1.0, ("sin", 150): 0.5, ("sin", 180): 0.0, ("sin", 270): -1.0,
    ("cos", 0): 1.0, ("cos", 60): 0.5, ("cos", 90): 0.0, ("cos", 180): -1.0, ("cos", 270): 0.0, ("cos", 300): 0.5,
    ("tan", 0): 0.0, ("tan", 45): 1.0, ("tan", 180): 0.0,
}  # fmt: skip
"""Values that floating point misses by a hair, by function and degrees."""


def _inverse(make: Callable[[float], float], name: str, low: float, high: float) -> Callable[[Arguments], Value]:
    def call(arguments: Arguments) -> Value:
        x = arguments["x"].to("1", f"the argument of `{name}`")
        if not low <= x <= high:
            raise FormulaError(
                f"`{name}` has no value here (got {x:g})",
                f"its argument lies from {low:g} to {high:g}",
                "check the formula",
                code="out-of-range",
            )
        return number(math.degrees(make(x)), "deg", "angle")

    return call


def _atan2(arguments: Arguments) -> Value:
    ratio_y, x = arguments["y"], arguments["x"]
    y = to_unit(ratio_y, x.quantity.units, "the first argument of `atan2`")
    if y == 0 and x.magnitude == 0:
        raise FormulaError("`atan2` of two noughts has no value", "", "", code="no-number")
    return number(math.degrees(math.atan2(y, x.magnitude)), "deg", "angle")


def _of_number(make: Callable[[float], float], name: str, positive: bool = False) -> Callable[[Arguments], Value]:
    def call(arguments: Arguments) -> Value:
        x = arguments["x"].to("1", f"the argument of `{name}`")
        if positive and x <= 0:
            raise FormulaError(
                f"`{name}` has no value here (got {x:g})",
                "its argument is larger than nothing",
                "",
                code="out-of-range",
            )
        try:
            return checked(REGISTRY.Quantity(make(x), ONE))
        except OverflowError as error:
            raise FormulaError("the result is too large", "", "check what goes in", code="too-large") from error

    return call


def _count(arguments: Arguments) -> Value:
    return number(float(len(arguments["a"].items)), "1", "count")


def _never(arguments: Arguments) -> Value:
    raise AssertionError("worked out by the evaluator")


STEP = Parameter("step", required=False, text="multiple to round to; 1 of the display unit where it is not said")


@lru_cache(maxsize=1)
def builtins() -> FunctionTable:
    """The functions and constants that need no handbook."""
    values = (Parameter("values", many=True),)
    deg, one = Parameter("x", "deg"), Parameter("x", "1")
    table = (
        Function("min", values, _extreme("<"), "The least of several values or of a list.", variadic=True),
        Function("max", values, _extreme(">"), "The greatest of several values or of a list.", variadic=True),
        Function("sum", values, _total, "The sum of several values or of a list.", variadic=True),
        Function("mean", values, _mean, "The mean of several values or of a list.", variadic=True),
        Function(
            "hypot",
            values,
            _hypot,
            "The root of the sum of squares: the longest side of a right triangle.",
            variadic=True,
        ),
        Function("count", (A,), _count, "How many items a list has."),
        Function("abs", (X,), _each(abs), "The value without its sign."),
        Function("sqrt", (X,), _sqrt, "The square root."),
        Function("round", (X, STEP), _rounded(_half_up), "The nearest multiple of `step`; halves go up."),
        Function("floor", (X, STEP), _rounded(math.floor), "The next multiple of `step` below."),
        Function("ceil", (X, STEP), _rounded(math.ceil), "The next multiple of `step` above."),
        Function("sin", (deg,), _angle_function(math.sin, "sin"), "The sine of an angle."),
        Function("cos", (deg,), _angle_function(math.cos, "cos"), "The cosine of an angle."),
        Function("tan", (deg,), _angle_function(math.tan, "tan"), "The tangent of an angle."),
        Function("asin", (one,), _inverse(math.asin, "asin", -1, 1), "The angle that has this sine."),
        Function("acos", (one,), _inverse(math.acos, "acos", -1, 1), "The angle that has this cosine."),
        Function("atan", (one,), _inverse(math.atan, "atan", -math.inf, math.inf), "The angle that has this tangent."),
        Function("atan2", (Y, X), _atan2, "The angle of the point with these coordinates, from -180 to 180 deg."),
        Function("exp", (one,), _of_number(math.exp, "exp"), "e to this power."),
        Function("ln", (one,), _of_number(math.log, "ln", positive=True), "The natural logarithm."),
        Function("log", (one,), _of_number(math.log, "log", positive=True), "The natural logarithm, as `ln`."),
        Function("log10", (one,), _of_number(math.log10, "log10", positive=True), "The logarithm to base 10."),
        Function(
            "when",
            (
                Parameter("condition", "expression"),
                Parameter("then", "expression"),
                Parameter("otherwise", "expression"),
            ),
            _never,
            "The second value where the condition holds, else the third; only that one is worked out.",
            lazy=True,
        ),
        Function(
            "solve",
            (
                Parameter("unknown", "expression", text="a new name"),
                Parameter("equation", "expression", text="two sides with `==` between"),
                Parameter("low", "expression", text="least value to try"),
                Parameter("high", "expression", text="greatest value to try"),
            ),
            _never,
            "The value of the unknown between `low` and `high` that makes both sides equal.",
            lazy=True,
        ),
    )
    return FunctionTable({function.name: function for function in table}, {"pi": number(math.pi), "e": number(math.e)})


@lru_cache(maxsize=1)
def equation_builtins() -> FunctionTable:
    """The same for the handbook's own equation lines, in which a bare number under a sine is radians: sin(pi / N)."""
    table = builtins()
    makes = {"sin": math.sin, "cos": math.cos, "tan": math.tan}
    trigonometry = {
        name: replace(table.find(name), call=_angle_function(make, name, bare_is_radians=True))
        for name, make in makes.items()
    }
    return FunctionTable({**table.functions, **trigonometry}, table.constants)


def is_number(value: Value) -> bool:
    """Whether a value is a bare number or a percentage."""
    return value.is_quantity and is_bare(value.data.units)
