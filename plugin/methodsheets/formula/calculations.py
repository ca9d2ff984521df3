"""How does a formula call one of the handbook's calculations? Quantities become floats in the declared units, and back.

Works with any catalogue of records shaped like `trade.form.calculation.Calculation`; nothing of trade is imported here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.functions import Arguments, Function, Parameter, Result
from methodsheets.formula.values import Record, Value, number, to_unit

PLAIN = ("text", "flag", "any")
FEW_LINES = 500
"""Lines of a program that a calculation takes in the middle, its units worked out and back among them."""


def from_calculations(catalogue: Mapping[str, Any]) -> dict[str, Function]:
    """A function of the formula language for each calculation, by name."""
    shapes = _shapes(catalogue)
    return {name: from_calculation(record, shapes) for name, record in catalogue.items()}


def from_calculation(record: Any, shapes: Mapping[str, Any] | None = None) -> Function:
    """The function for one calculation; `shapes` gives the results of a named sort of result."""
    parameters = tuple(
        Parameter(
            name=p.name,
            unit=p.unit,
            required=not p.optional,
            default=p.default,
            many=p.many,
            rule=p.rule,
            text=p.text,
            symbol=p.symbol,
        )
        for p in record.parameters
    )
    results = tuple(Result(r.name, r.unit, r.kind, r.text, r.symbol) for r in record.results)
    known = shapes if shapes is not None else _shapes({record.name: record})

    def call(arguments: Arguments) -> Value:
        raw = {p.name: _argument(p, arguments[p.name]) for p in parameters if p.name in arguments}
        return wrap(_called(record, lambda: record.function(**raw)), record.results, known)

    def lines(arguments: Arguments) -> int:
        if not hasattr(record, "lines") or (record.work is None and not any(p.many for p in parameters)):
            return FEW_LINES
        raw = {p.name: _argument(p, arguments[p.name]) for p in parameters if p.name in arguments}
        return int(_called(record, lambda: record.lines(raw)))

    return Function(record.name, parameters, call, record.sentence, results, calculation=record, lines=lines)


def _shapes(catalogue: Mapping[str, Any]) -> dict[str, Any]:
    """Name of each sort of result -> what its fields are, from the first calculation that gives it."""
    shapes: dict[str, Any] = {}
    for record in catalogue.values():
        annotation = getattr(record.function, "__annotations__", {}).get("return", "")
        name = annotation if isinstance(annotation, str) else getattr(annotation, "__name__", "")
        if name not in ("float", "int", "str", "bool", ""):
            shapes.setdefault(name.split("|")[0].strip(), record.results)
    return shapes


def _argument(parameter: Parameter, value: Value) -> Any:
    try:
        return to_plain(parameter, value)
    except FormulaError as error:
        error.argument = parameter.name
        raise


def to_plain(parameter: Parameter, value: Value) -> Any:
    """The argument as the calculation takes it: a float in its unit, a str, a bool, a result object, a tuple."""
    if parameter.many:
        return tuple(_one(parameter, item) for item in value.items)
    if isinstance(value.data, tuple):
        raise FormulaError(
            f"`{parameter.name}` is a single value (got a list)", "", "take one of the list", code="wrong-type"
        )
    return _one(parameter, value)


def _one(parameter: Parameter, value: Value) -> Any:
    if parameter.unit == "any":
        return value
    if parameter.unit == "text":
        return value.text
    if parameter.unit == "flag":
        return value.flag
    if parameter.unit[0].isupper() and parameter.unit != "HB" and not _is_unit(parameter.unit):
        return _result_object(parameter, value)
    if parameter.unit == "degC" and value.unit == "degC":
        return value.magnitude
    return to_unit(value, parameter.unit, f"`{parameter.name}`")


def _is_unit(word: str) -> bool:
    from methodsheets.formula.units import parse_unit

    try:
        parse_unit(word)
    except FormulaError:
        return False
    return True


def _result_object(parameter: Parameter, value: Value) -> Any:
    if not isinstance(value.data, Record) or parameter.unit not in _sorts(value.data.raw):
        got = value.data.type if isinstance(value.data, Record) else value.words()
        raise FormulaError(
            f"`{parameter.name}` is the result of a calculation of the sort {parameter.unit} (got {got})",
            "",
            parameter.text or "give the result of such a calculation",
            code="wrong-type",
        )
    return value.data.raw


def _sorts(raw: Any) -> set[str]:
    return {sort.__name__ for sort in type(raw).__mro__}


def _called(record: Any, ask: Callable[[], Any]) -> Any:
    """Ask something of the calculation; its refusals become FormulaErrors that keep their words."""
    try:
        return ask()
    except FormulaError:
        raise
    except ZeroDivisionError as error:
        raise FormulaError(
            f"`{record.name}` divides by zero for these values", "", "check what goes in", code="division"
        ) from error
    except OverflowError as error:
        raise FormulaError(
            f"`{record.name}` gives too large a number", "", "check the units", code="too-large"
        ) from error
    except LookupError as error:
        raise _not_in_table(record, error) from error
    except (ValueError, TypeError) as error:
        raise _refusal(record, error) from error


def _refusal(record: Any, error: Exception) -> FormulaError:
    if not hasattr(error, "parameter"):
        return FormulaError(f"`{record.name}` refuses: {error}", record.validity, "", code="out-of-range")
    parameter: Any = error
    shown = f"{parameter.value:g}" if isinstance(parameter.value, float | int) else f"{parameter.value}"
    unit = "" if parameter.unit in ("1", "text", "flag", "") else f" {parameter.unit}"
    return FormulaError(
        f"`{parameter.parameter}` of `{record.name}` is out of range (got {shown}{unit})",
        f"the range is {parameter.rule}{f' [{parameter.unit}]' if unit else ''}",
        "",
        code="out-of-range",
        argument=parameter.parameter,
    )


def _not_in_table(record: Any, error: LookupError) -> FormulaError:
    if not hasattr(error, "known"):
        return FormulaError(f"`{record.name}` does not find {error}", "", "", code="not-in-table")
    found: Any = error
    hint = str(error).partition("; ")[2]
    return FormulaError(
        f"no {found.what} called `{found.name}` (asked by `{record.name}`)", "", hint, code="not-in-table"
    )


def calculation_notes(record: Any, arguments: Mapping[str, Any], value: Value) -> list[str]:
    """What there is to heed about these very numbers: where they leave the ground the calculation was made for.

    arguments: by parameter name, as `Value`s or as plain numbers in the listed units.
    """
    if not hasattr(record, "notes"):
        return []
    plain = {p.name: _number_of(p, arguments[p.name]) for p in record.parameters if p.name in arguments}
    raw = value.data.raw if isinstance(value.data, Record) else _number_of(record.results[0], value)
    return list(record.notes({name: one for name, one in plain.items() if one is not None}, raw))


def calculation_rows(record: Any, arguments: Mapping[str, Any]) -> tuple[Any, ...]:
    """The rows of tables that the answer to these arguments rests on; () where the calculation reads none."""
    if not hasattr(record, "rows"):
        return ()
    plain = {}
    for parameter in record.parameters:
        given = arguments.get(parameter.name)
        if given is not None:
            plain[parameter.name] = to_plain(parameter, given) if isinstance(given, Value) else given
    return tuple(record.rows(plain))


def _number_of(entry: Any, given: Any) -> float | None:
    """A single number in the entry's unit; None for everything that is none."""
    if isinstance(given, Value):
        try:
            return to_unit(given, entry.unit) if given.is_quantity else None
        except FormulaError:
            return None
    return float(given) if isinstance(given, int | float) and not isinstance(given, bool) else None


def wrap(raw: Any, results: Any, shapes: Mapping[str, Any]) -> Value:
    """The value of what a calculation gave: a number with unit and kind, or a record of its fields."""
    if hasattr(raw, "__dataclass_fields__"):
        return Value(_record(raw, results, shapes))
    return _wrap_one(raw, results[0], shapes)


def _record(raw: Any, results: Any, shapes: Mapping[str, Any]) -> Record:
    fields = {
        r.name: _wrap_one(getattr(raw, r.name), r, shapes) for r in results if getattr(raw, r.name, None) is not None
    }
    return Record(type(raw).__name__, fields, raw, {r.name: r.text for r in results})


def _wrap_one(raw: Any, result: Any, shapes: Mapping[str, Any]) -> Value:
    if isinstance(raw, tuple | list):
        return Value(tuple(_wrap_one(item, result, shapes) for item in raw), result.kind)
    if isinstance(raw, bool | str):
        return Value(raw, result.kind)
    if hasattr(raw, "__dataclass_fields__"):
        return Value(_record(raw, shapes.get(type(raw).__name__) or shapes.get(result.unit, ()), shapes))
    value = float(raw)
    if not math.isfinite(value):
        raise FormulaError(
            f"`{result.name}` has no finite value here (got {value:g})", "", "check what goes in", code="no-number"
        )
    return number(value, result.unit, result.kind)
