"""How does a record go to JSON or into the store, and how does it come back unchanged?

Any frozen dataclass made of text, numbers, tuples, options (`X | None`), choices (`Measure | str`) and other such
dataclasses. `to_data` is for people and other programs, and `json_schema` describes it; `pack` is for the store.
"""

from __future__ import annotations

import ast
import dataclasses
import inspect
import itertools
import math
import textwrap
import typing
from collections.abc import Callable
from functools import cache
from typing import Any, TypeVar

import msgspec

from methodsheets.formula.measure import Measure
from methodsheets.sheet.words import Shown, Words

T = TypeVar("T")
EITHER: Any = Shown
"""A field that holds a number or a sentence."""
NOT_FINITE = ("Infinity", "-Infinity", "NaN")
"""What JSON has instead of a number that is none."""


class RecordError(ValueError):
    """Data that does not have the shape it should have; says where."""


def _not_plain(value: Any) -> Any:
    """A number of another library as its plain self; nothing else has a place in a record."""
    if isinstance(value, float):
        return float(value)
    raise RecordError(f"a {type(value).__name__} has no place in a record")


def one_of(wanted: type, data: Any) -> Any:
    """Make the one of several records that the data is of: a number has a unit, and words have none."""
    if wanted is not EITHER or not isinstance(data, dict):
        raise msgspec.ValidationError(f"{wanted.__name__} wanted, got {type(data).__name__}")
    return msgspec.convert(data, Measure if "unit" in data else Words)


# ------------------------------------------------------------------------------------------------ for the store
_ENCODER = msgspec.msgpack.Encoder(enc_hook=_not_plain)


@cache
def _decoder(record_type: Any) -> Callable[[bytes], Any]:
    return msgspec.msgpack.Decoder(record_type, dec_hook=one_of).decode


def pack(record: Any) -> bytes:
    """Turn a record into bytes for the store, which presses them."""
    return _ENCODER.encode(record)


def unpack(record_type: type[T], data: bytes) -> T:
    """Turn what `pack` made back into the record.

    Raises:
        RecordError: the data is damaged, or has not the shape of the record.
    """
    try:
        decode = _decoder(typing.cast(typing.Hashable, record_type))
        return typing.cast(T, decode(data))
    except (msgspec.MsgspecError, RecursionError, UnicodeDecodeError) as error:
        raise RecordError(f"no {record_type.__name__}: {error}") from error


# ------------------------------------------------------------------------------------------------ for other programs
def to_data(record: Any) -> Any:
    """Turn a record into dicts, lists, text and numbers, every field by its name."""
    return _finite(msgspec.to_builtins(record, enc_hook=_not_plain))


def _finite(data: Any) -> Any:
    if isinstance(data, dict):
        return {name: _finite(item) for name, item in data.items()}
    if isinstance(data, list | tuple):
        return [_finite(item) for item in data]
    if isinstance(data, float) and not math.isfinite(data):
        return "NaN" if math.isnan(data) else "Infinity" if data > 0 else "-Infinity"
    return data


def json_schema(record_type: type, title: str = "") -> dict[str, Any]:
    """Describe what `to_data` makes of a record as JSON Schema (draft 2020-12)."""
    hook = _either
    (top,), found = msgspec.json.schema_components([record_type], ref_template="#/$defs/{name}", schema_hook=hook)
    described = {name: _whole(name, one, _records(record_type)) for name, one in found.items()}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title or record_type.__name__,
        **top,
        "$defs": dict(sorted(described.items())),
    }


def _either(wanted: type) -> dict[str, Any]:
    if wanted is not EITHER:
        raise NotImplementedError
    return {"anyOf": [{"$ref": f"#/$defs/{one.__name__}"} for one in (Measure, Words)]}


def _whole(name: str, described: dict[str, Any], records: dict[str, type]) -> dict[str, Any]:
    """A record's schema, with what its source says below each field; every field is always there."""
    described = _numbers(described)
    if "properties" not in described:
        return described
    notes = _field_notes(records[name])
    fields = {
        field: {key: value for key, value in one.items() if key != "default"}
        | ({"description": notes[field]} if field in notes else {})
        for field, one in described["properties"].items()
    }
    return {**described, "properties": fields, "required": list(fields), "additionalProperties": False}


def _numbers(described: Any) -> Any:
    """The schema with what JSON has for numbers that are none."""
    if isinstance(described, list):
        return [_numbers(one) for one in described]
    if not isinstance(described, dict):
        return described
    if described.get("type") == "number":
        return {"anyOf": [{"type": "number"}, {"enum": list(NOT_FINITE)}]}
    return {key: _numbers(one) for key, one in described.items()}


def _records(record_type: Any, found: dict[str, type] | None = None) -> dict[str, type]:
    """Every record that one is made of, by name."""
    found = {} if found is None else found
    if record_type is EITHER:
        _records(Measure, found)
        _records(Words, found)
    elif dataclasses.is_dataclass(record_type) and isinstance(record_type, type):
        if record_type.__name__ not in found:
            found[record_type.__name__] = record_type
            for hint in typing.get_type_hints(record_type).values():
                _records(hint, found)
    else:
        for inner in typing.get_args(record_type):
            _records(inner, found)
    return found


def _field_notes(record_type: type) -> dict[str, str]:
    """What the source says below each field, by field."""
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(record_type)))
    except (OSError, TypeError, SyntaxError):
        return {}
    body = typing.cast(ast.ClassDef, tree.body[0]).body
    notes: dict[str, str] = {}
    for above, below in itertools.pairwise(body):
        if isinstance(above, ast.AnnAssign) and isinstance(above.target, ast.Name) and isinstance(below, ast.Expr):
            words = below.value.value if isinstance(below.value, ast.Constant) else None
            if isinstance(words, str):
                notes[above.target.id] = inspect.cleandoc(words)
    return notes
