"""How did a number come about: the formula, the numbers put in, the result, with source and trust?"""

from __future__ import annotations

import math as mathematics
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from methodsheets.formula.builtins import equation_builtins
from methodsheets.formula.calculations import calculation_notes, calculation_rows, wrap
from methodsheets.formula.display import shown
from methodsheets.formula.equations import Equation, read_equation
from methodsheets.formula.errors import FormulaError
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.functions import Called
from methodsheets.formula.measure import Measure
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.tree import Field, Name, Node, Number
from methodsheets.formula.typeset import Piece, called, equation, math, spoken, symbol, typeset, value_piece
from methodsheets.formula.values import Record, Value, field_of, of
from methodsheets.formula.values import number as number_value
from methodsheets.formula.work import TableRow, Working
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import Text


def line_working(
    name: str, label: str, expression: Text | str | Node, value: Value, scope: Scope, calls: Sequence[Called] = ()
) -> Working:
    """The working of one calc line or of a typed expression.

    name: '' for an expression without a name. scope: the names as they were when it was worked out.
    calls: the calls that `evaluate` took up; each becomes a step with the equations of its calculation.
    """
    node = parse(expression) if isinstance(expression, Text | str) else expression
    formula = typeset(node)
    numbers = typeset(node, lambda inner: _put_in(inner, scope))
    left = symbol(name) if name else None
    result = _result(value)
    steps = tuple(called_working(call) for call in calls if call.function.calculation is not None)
    return _assemble(name, label, left, formula, numbers, result, steps=steps)


def called_working(call: Called) -> Working:
    """The working of a call that a formula made."""
    return calculation_working(call.function.calculation, call.arguments, call.value)


def calculation_working(
    record: Any, arguments: Mapping[str, Any], result: Any, name: str = "", label: str = ""
) -> Working:
    """The working of one calculation of the handbook.

    record: its `Calculation`. arguments: by parameter name, as `Value`s or as plain floats in the declared units, words
    and result objects. result: what the function gave, or the `Value` made of it.
    One equation is set into the line itself; several become its steps.
    """
    value = result if isinstance(result, Value) else wrap(result, record.results, {})
    given = _given(record, arguments)
    results = _results_by_symbol(record, value)
    lines = _equation_lines(record, given, results)
    facts = _facts(record, arguments, value)
    title = label or record.sentence
    if len(lines) == 1 and not isinstance(value.data, Record):
        line = lines[0]
        return Working(name or record.name, title, line.formula, line.numbers, line.result, line.plain, **facts)
    call = called(record.name, _call_pieces(record, arguments, given))
    shown_symbols = {line.name for line in lines if line.result}
    working = _assemble(name or record.name, title, None, call, call, _result(value), steps=tuple(lines), **facts)
    return working if working.result else _with_fields(working, record, results, shown_symbols)


def _facts(record: Any, arguments: Mapping[str, Any], value: Value) -> dict[str, Any]:
    """Where the calculation comes from, how far to believe it, where it holds, and what it rests on here."""
    rows = tuple(TableRow(row.table, row.row, row.source, row.trust) for row in calculation_rows(record, arguments))
    recalled = bool(getattr(record, "from_memory", False)) or any(row.trust == "from memory" for row in rows)
    return {
        "source": record.source,
        "trust": record.trust,
        "validity": _validity(record, value),
        "heed": tuple(_sentence(note) for note in calculation_notes(record, arguments, value)),
        "rows": rows,
        "from_memory": recalled,
    }


def _validity(record: Any, value: Value) -> str:
    """Where the calculation holds, after what it noted about these very numbers."""
    note = value.data.fields.get("note") if isinstance(value.data, Record) else None
    said = note.data if note is not None and isinstance(note.data, str) else ""
    return f"{_sentence(said)} {record.validity}".strip() if said else str(record.validity)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}."


def _with_fields(working: Working, record: Any, results: Mapping[str, Value], shown_before: set[str]) -> Working:
    """The working with the results that no equation line has shown, each under its name."""
    pieces = [
        equation(spoken(result.name.replace("_", " ")), piece)
        for result in record.results
        if result.symbol in results
        and result.symbol not in shown_before
        and results[result.symbol].is_quantity
        and (piece := _result(results[result.symbol]))
    ]
    plain = "; ".join([working.plain, *(piece.plain for piece in pieces)])
    return replace(working, result=math(pieces), plain=plain)


def _call_pieces(record: Any, arguments: Mapping[str, Any], given: Mapping[str, Value]) -> list[Piece]:
    """The arguments that were given, those that may be left out with their names."""
    pieces = []
    for parameter in record.parameters:
        if parameter.name not in given or parameter.name not in arguments:
            continue
        piece = value_piece(given[parameter.name])
        pieces.append(equation(spoken(parameter.name.replace("_", " ")), piece) if parameter.optional else piece)
    return pieces


def _assemble(
    name: str,
    label: str,
    left: Piece | None,
    formula: Piece,
    numbers: Piece,
    result: Piece | None,
    *,
    steps: tuple[Working, ...] = (),
    **facts: Any,
) -> Working:
    """Put the three parts together; a part that says what the one before it said is left out."""
    first = equation(left, formula) if left else formula
    second = equation(None, numbers) if numbers.plain != formula.plain else None
    last = numbers.plain if second else formula.plain
    third = equation(None, result) if result is not None and result.plain != last else None
    plain = " ".join(part.plain for part in (first, second, third) if part is not None)
    return Working(
        name, label, math(first), math(second) if second else "", math(third) if third else "", plain,
        steps=steps, **facts,
    )  # fmt: skip


def _result(value: Value) -> Piece | None:
    """A value as the page rounds it; None for a result of many fields without a name."""
    if isinstance(value.data, Record) and "name" not in value.data.fields:
        return None
    if value.is_quantity:
        return _measure_piece(shown(value))
    if isinstance(value.data, Record | str):
        return spoken(str(shown(value)))
    return value_piece(value)


def _measure_piece(made: Measure | str) -> Piece:
    """A printed quantity; its unit is set apart from its number as it is in the text."""
    from html import escape

    from methodsheets.formula.figures import NARROW

    words = str(made)
    number, gap, unit = words.rpartition(NARROW)
    plain = words.replace(NARROW, " ").replace("\u00a0", " ")
    if not gap or unit[:1].isdigit() or "\u00a0" in words:
        return Piece(f"<mn>{escape(words)}</mn>", plain)
    return Piece(f'<mn>{escape(number)}</mn><mspace width="0.2em"/><mtext>{escape(unit)}</mtext>', plain)


def _put_in(node: Node, scope: Scope) -> Piece | None:
    """What stands for a name or a field once the numbers are put in; None to leave the node as it is."""
    if not isinstance(node, Name | Field):
        return None
    try:
        return value_piece(_looked_up(node, scope))
    except FormulaError:
        return None


def _looked_up(node: Node, scope: Scope) -> Value:
    if isinstance(node, Field):
        return field_of(_looked_up(node.owner, scope), node.field, "")
    if not isinstance(node, Name) or node.name not in scope:
        raise FormulaError("not a name of this method")
    return scope.value(node.name)


def _given(record: Any, arguments: Mapping[str, Any]) -> dict[str, Value]:
    """The arguments as values by parameter name, defaults included where they are numbers."""
    given: dict[str, Value] = {}
    for parameter in record.parameters:
        raw = arguments.get(parameter.name, parameter.default if parameter.optional else None)
        if raw is None or (parameter.optional and _is_nothing(raw) and _is_nothing(parameter.default)):
            continue  # A default of nothing stands for 'from the table' or 'not there': the symbol says more.
        given[parameter.name] = _as_value(raw, parameter.unit)
    return given


def _is_nothing(raw: Any) -> bool:
    if isinstance(raw, Value):
        return raw.is_quantity and raw.magnitude == 0
    return raw is None or raw == "" or (isinstance(raw, int | float) and raw == 0)


def _as_value(raw: Any, unit: str) -> Value:
    if isinstance(raw, Value):
        return raw
    if isinstance(raw, bool | str):
        return Value(raw)
    if isinstance(raw, tuple | list):
        return Value(tuple(_as_value(item, unit) for item in raw))
    if hasattr(raw, "__dataclass_fields__"):
        name = getattr(raw, "name", "")
        return Value(Record(type(raw).__name__, {"name": of(name)} if isinstance(name, str) and name else {}, raw))
    return number_value(float(raw), unit)


def _results_by_symbol(record: Any, value: Value) -> dict[str, Value]:
    if not isinstance(value.data, Record):
        return {record.results[0].symbol: value}
    fields = value.data.fields
    return {result.symbol: fields[result.name] for result in record.results if result.name in fields}


def _equation_lines(record: Any, given: Mapping[str, Value], results: Mapping[str, Value]) -> list[Working]:
    """Each equation with the numbers put in, as far as its symbols are known."""
    stated = bool(getattr(record, "equation_in_stated_units", False))
    known = Scope()
    for parameter in record.parameters:
        if parameter.name in given and given[parameter.name].is_quantity:
            known.define(parameter.symbol, _in_equation(given[parameter.name], parameter.unit, stated))
    read = [read_equation(text) for text in record.equations]
    worked_out = {line.symbol for line in read}
    for result in record.results:  # A result that no line works out goes into the others: the seat's diameter.
        if result.symbol in results and result.symbol not in worked_out and result.symbol not in known:
            known.define(result.symbol, results[result.symbol])
    return [_equation_working(line, results.get(line.symbol), known, stated) for line in read]


def _in_equation(value: Value, unit: str, stated: bool) -> Value:
    """In the unit listed; without it where the equation holds only for the numbers, but angles stay angles."""
    if not stated or unit == "deg":
        return value
    try:
        return number_value(value.to(unit))
    except FormulaError:
        return value


def _equation_working(line: Equation, value: Value | None, known: Scope, stated: bool) -> Working:
    if line.node is None:
        return Working("", "", math(line.set), plain=line.set.plain)
    formula = typeset(line.node)
    numbers = typeset(line.node, lambda inner: _put_in(inner, known) if not isinstance(inner, Number) else None)
    worked_out = _intermediate(line.node, known)
    if value is None or not value.is_quantity:
        value = worked_out
    elif worked_out is not None and not _agree(worked_out, value, stated):
        numbers = formula  # Not the numbers that the result came from: a greatest and a least share one equation.
    if value is not None and line.symbol and line.symbol not in known:
        known.define(line.symbol, _bare(value) if stated else value)
    left = symbol(line.symbol) if line.symbol else None
    result = None if value is None else value_piece(value, 4) if stated and value.is_quantity else _result(value)
    return _assemble(line.symbol, "", left, formula, numbers, result)


def _agree(worked_out: Value, value: Value, stated: bool) -> bool:
    """Whether the numbers that were put in give the result."""
    try:
        number = worked_out.magnitude if stated else worked_out.to(value.unit)
    except FormulaError:
        return False
    return mathematics.isclose(number, value.magnitude, rel_tol=1e-3, abs_tol=1e-9)


def _bare(value: Value) -> Value:
    return number_value(value.magnitude) if value.is_quantity and value.unit != "deg" else value


def _intermediate(node: Node, known: Scope) -> Value | None:
    """What an equation line comes to whose symbol is no result; None where some symbol is not known."""
    try:
        return evaluate(node, known, equation_builtins())
    except MethodError:
        return None
