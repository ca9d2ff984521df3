"""How does an evaluated method go to JSON and come back unchanged?

Two forms of the same data. `to_data` names every field, for people and other programs; `pack` leaves the names out,
for the store, which keeps thousands. Both work on any frozen dataclass made of text, numbers, tuples, options
(`X | None`), choices (`Measure | str`) and other such dataclasses. `json_schema` describes the named form.
"""

from __future__ import annotations

import ast
import dataclasses
import inspect
import itertools
import json
import math
import textwrap
import types
import typing
from collections.abc import Callable
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union

T = TypeVar("T")
Decoder = Callable[[Any], Any]

_NOT_FINITE = {"Infinity": math.inf, "-Infinity": -math.inf, "NaN": math.nan}


class RecordError(ValueError):
    """Data that does not have the shape it should have; says where."""


# Named form


def to_data(record: Any) -> Any:
    """Turn a record into dicts, lists, text and numbers, every field by its name."""
    if dataclasses.is_dataclass(record) and not isinstance(record, type):
        return {name: to_data(getattr(record, name)) for name in _names(type(record))}
    if isinstance(record, tuple | list):
        return [to_data(item) for item in record]
    return _plain(record)


def from_data(record_type: type[T], data: Any) -> T:
    """Turn data in the named form back into a record.

    Raises:
        RecordError: a field is missing, unknown, or of the wrong sort.
    """
    return typing.cast(T, _checked(record_type, data, record_type.__name__))


def _plain(value: Any) -> Any:
    """A number, a text, yes or no, or nothing, as JSON has it."""
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float) and not math.isfinite(value):
        return "NaN" if math.isnan(value) else "Infinity" if value > 0 else "-Infinity"
    if value is None or isinstance(value, str | int | float | bool):
        return value
    raise RecordError(f"a {type(value).__name__} has no place in a record")


def _checked(wanted: Any, data: Any, where: str) -> Any:
    """Data of a wanted type, made into it; complains with the place in the data."""
    origin = typing.get_origin(wanted)
    if origin in (Union, types.UnionType):
        return _checked_choice(typing.get_args(wanted), data, where)
    if origin is tuple:
        return _checked_tuple(typing.get_args(wanted), data, where)
    if dataclasses.is_dataclass(wanted):
        return _checked_record(wanted, data, where)
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        if data in {one.value for one in wanted}:
            return wanted(data)
        raise RecordError(f"{where}: {data!r} is not one of {', '.join(str(one.value) for one in wanted)}")
    if wanted is float:
        if isinstance(data, str) and data in _NOT_FINITE:
            return _NOT_FINITE[data]
        if isinstance(data, int | float) and not isinstance(data, bool):
            return float(data)
    elif isinstance(data, wanted) and (wanted is not int or not isinstance(data, bool)):
        return data
    raise RecordError(f"{where}: {wanted.__name__} wanted, got {data!r:.60}")


def _checked_choice(choices: tuple[Any, ...], data: Any, where: str) -> Any:
    """One of several types: the first that the data fits."""
    for choice in choices:
        if choice is types.NoneType:
            if data is None:
                return None
            continue
        try:
            return _checked(choice, data, where)
        except RecordError:
            continue
    raise RecordError(
        f"{where}: {data!r:.60} fits none of {', '.join(getattr(one, '__name__', '?') for one in choices)}"
    )


def _checked_tuple(items: tuple[Any, ...], data: Any, where: str) -> tuple[Any, ...]:
    """A tuple of any length of one type, or of a type for each place."""
    if not isinstance(data, list | tuple):
        raise RecordError(f"{where}: a list wanted, got {data!r:.60}")
    if len(items) == 2 and items[1] is Ellipsis:
        return tuple(_checked(items[0], item, f"{where}[{place}]") for place, item in enumerate(data))
    if len(items) != len(data):
        raise RecordError(f"{where}: {len(items)} items wanted, got {len(data)}")
    return tuple(
        _checked(one, item, f"{where}[{place}]") for place, (one, item) in enumerate(zip(items, data, strict=True))
    )


def _checked_record(record_type: Any, data: Any, where: str) -> Any:
    """A record from a dict of its fields; those with a default may be missing."""
    if not isinstance(data, dict):
        raise RecordError(f"{where}: fields of a {record_type.__name__} wanted, got {data!r:.60}")
    hints = _hints(record_type)
    unknown = set(data) - set(hints)
    if unknown:
        raise RecordError(f"{where}: unknown field {min(unknown)!r}")
    values = {name: _checked(hints[name], item, f"{where}.{name}") for name, item in data.items()}
    try:
        return record_type(**values)
    except TypeError as error:
        raise RecordError(f"{where}: {error}") from error


# Form without names


def pack(record: Any) -> bytes:
    """Turn a record into compact JSON without field names."""
    return json.dumps(_listed(record), ensure_ascii=False, separators=(",", ":")).encode()


def unpack(record_type: type[T], data: bytes) -> T:
    """Turn what `pack` made back into the record.

    The store keeps a digest beside the data, so the shape is not checked field by field.

    Raises:
        RecordError: the data is no JSON or has not the shape of the record.
    """
    try:
        decode: Decoder = _decoder(typing.cast(typing.Hashable, record_type))
        return typing.cast(T, decode(json.loads(data)))
    except (ValueError, TypeError, IndexError, KeyError, AttributeError, RecursionError) as error:
        raise RecordError(f"no {record_type.__name__}: {error}") from error


def _listed(value: Any) -> Any:
    kind = type(value)
    if kind is str or kind is int or kind is bool or value is None:
        return value
    if kind is tuple or kind is list:
        return [_listed(item) for item in value]
    names = _names(kind) if dataclasses.is_dataclass(kind) else None
    if names is not None:
        return [_listed(getattr(value, name)) for name in names]
    return _plain(value)


@cache
def _names(record_type: type) -> tuple[str, ...]:
    return tuple(one.name for one in dataclasses.fields(record_type))


@cache
def _hints(record_type: type) -> dict[str, Any]:
    hints = typing.get_type_hints(record_type)
    return {name: hints[name] for name in _names(record_type)}


@cache
def _decoder(wanted: Any) -> Decoder:
    """A function that makes the wanted type of its listed form."""
    origin = typing.get_origin(wanted)
    if origin in (Union, types.UnionType):
        return _choice_decoder(typing.get_args(wanted))
    if origin is tuple:
        return _tuple_decoder(typing.get_args(wanted))
    if dataclasses.is_dataclass(wanted):
        return _record_decoder(wanted)
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        return wanted
    if wanted is float:
        return lambda data: data if type(data) is float else _NOT_FINITE[data] if type(data) is str else float(data)
    return _same


def _same(data: Any) -> Any:
    return data


def _choice_decoder(choices: tuple[Any, ...]) -> Decoder:
    """Records come as lists, everything else as it is: that tells `Measure | str | None` apart.

    Two records tell themselves apart by their number of fields: `Measure | Words`.
    """
    decoders = {len(_names(one)): _decoder(typing.cast(typing.Hashable, one)) for one in choices if _is_record(one)}
    if decoders:
        return lambda data: decoders[len(data)](data) if type(data) is list else data
    rest = [one for one in choices if one is not types.NoneType]
    if len(rest) == 1:
        return lambda data: None if data is None else _decoder(rest[0])(data)
    return _same


def _is_record(wanted: Any) -> bool:
    return dataclasses.is_dataclass(wanted)


def _tuple_decoder(items: tuple[Any, ...]) -> Decoder:
    if len(items) == 2 and items[1] is Ellipsis:
        each = items[0]
        if each in (str, int, bool):
            return tuple
        # The decoder is looked up when it is first used: a Working holds Workings.
        return lambda data: tuple(map(_decoder(each), data)) if data else ()
    return lambda data: tuple(_decoder(one)(item) for one, item in zip(items, data, strict=True))


def _record_decoder(record_type: Any) -> Decoder:
    """Fills a new record's fields at once: a frozen dataclass' own `__init__` takes four times as long."""
    names = _names(record_type)
    plain = (str, int, bool)
    special = [(name, hint) for name, hint in _hints(record_type).items() if hint not in plain]
    make = object.__new__
    ready: list[tuple[str, Decoder]] = []

    def decode(data: Any) -> Any:
        if type(data) is not list or len(data) != len(names):
            raise RecordError(f"no {record_type.__name__}: {data!r:.60}")
        if not ready:
            ready.extend((name, _decoder(hint)) for name, hint in special)
        record = make(record_type)
        fields = record.__dict__
        fields.update(zip(names, data, strict=True))
        for name, decoder in ready:
            fields[name] = decoder(fields[name])
        return record

    return decode


# What the named form looks like


def json_schema(record_type: type, title: str = "") -> dict[str, Any]:
    """Describe the named form of a record as JSON Schema (draft 2020-12)."""
    definitions: dict[str, Any] = {}
    _describe_record(record_type, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title or record_type.__name__,
        "$ref": f"#/$defs/{record_type.__name__}",
        "$defs": dict(sorted(definitions.items())),
    }


def _describe(wanted: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    origin = typing.get_origin(wanted)
    if origin in (Union, types.UnionType):
        return {"anyOf": [_describe(one, definitions) for one in typing.get_args(wanted)]}
    if origin is tuple:
        items = typing.get_args(wanted)
        if len(items) == 2 and items[1] is Ellipsis:
            return {"type": "array", "items": _describe(items[0], definitions)}
        fixed = [_describe(one, definitions) for one in items]
        return {"type": "array", "prefixItems": fixed, "minItems": len(fixed), "maxItems": len(fixed)}
    if dataclasses.is_dataclass(wanted):
        return _describe_record(typing.cast(type, wanted), definitions)
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        return {"enum": [one.value for one in wanted]}
    if wanted is float:
        return {"anyOf": [{"type": "number"}, {"enum": list(_NOT_FINITE)}]}
    return {"type": {str: "string", int: "integer", bool: "boolean", types.NoneType: "null"}[wanted]}


def _describe_record(record_type: type, definitions: dict[str, Any]) -> dict[str, Any]:
    reference = {"$ref": f"#/$defs/{record_type.__name__}"}
    if record_type.__name__ in definitions:
        return reference
    definitions[record_type.__name__] = {}
    notes = _field_notes(record_type)
    properties = {}
    for name, hint in _hints(record_type).items():
        properties[name] = _describe(hint, definitions) | ({"description": notes[name]} if name in notes else {})
    definitions[record_type.__name__] = {
        "description": inspect.getdoc(record_type) or "",
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }
    return reference


def _field_notes(record_type: type) -> dict[str, str]:
    """What the source says below each field, by field."""
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(record_type)))
    except (OSError, TypeError, SyntaxError):
        return {}
    body = typing.cast(ast.ClassDef, tree.body[0]).body
    notes: dict[str, str] = {}
    for above, below in itertools.pairwise(body):
        if isinstance(above, ast.AnnAssign) and isinstance(above.target, ast.Name):
            words = _words(below)
            if words:
                notes[above.target.id] = words
    return notes


def _words(statement: ast.stmt) -> str:
    """The text of a statement that is nothing but a text."""
    if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
        value = statement.value.value
        return inspect.cleandoc(value) if isinstance(value, str) else ""
    return ""
