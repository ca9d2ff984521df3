"""What may an editor offer while a workshop file is written? Made from the readers, so that it is complete."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from methodsheets.reading.problem import Place, Problems

from .fields import Fields, KeyShape
from .read_holding import read_dividing, read_holding
from .read_machine import read_dial, read_machine
from .read_tool import read_tool
from .reader import read_rates, read_times

Schema = dict[str, Any]

_SCALAR: Schema = {"type": ["string", "number", "boolean"]}
_ROW: Schema = {"anyOf": [_SCALAR, {"type": "array", "items": _SCALAR}]}


def workshop_schema() -> Schema:
    """JSON Schema (draft 2020-12) of a workshop file."""
    machine = _mapping("a machine", lambda fields: read_machine("lathe", fields))
    dial = _mapping("a dial", lambda fields: read_dial("x", fields))
    machine["properties"]["dials"] = {"type": "object", "additionalProperties": dial}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A workshop",
        "type": "object",
        "properties": {
            "workshop": {"type": "string", "description": "Name of the workshop."},
            "summary": {"type": "string", "description": "One sentence about it."},
            "units": {"enum": ["metric", "inch"], "description": "What its owner thinks in."},
            "projection": {
                "enum": ["first", "third"],
                "description": "In which angle drawings arrange their views; first unless said.",
            },
            "machines": _named(machine),
            "dividing": _named(
                _mapping("a rotary table or dividing head", lambda fields: read_dividing("table", fields))
            ),
            "holding": _named(_mapping("a way of holding", lambda fields: read_holding("vice", fields))),
            "tools": _named(_mapping("a tool or a set of tools", lambda fields: read_tool("drill", fields))),
            "rates": _mapping("what time and stock cost", read_rates),
            "times": _mapping("what handling takes", read_times),
        },
        "required": ["machines"],
        "additionalProperties": False,
    }


def _named(schema: Schema) -> Schema:
    return {"type": "object", "additionalProperties": schema}


def _mapping(what: str, read: Callable[[Fields], object]) -> Schema:
    """The schema of a mapping: every key that its reader asks for."""
    fields = Fields((), Place("schema"), Problems(), what)
    read(fields)
    return {
        "type": ["object", "null"],
        "description": what,
        "properties": {key: _takes(shape) for key, shape in sorted(fields.shapes.items())},
        "additionalProperties": False,
    }


def _takes(shape: KeyShape) -> Schema:
    """What one key takes."""
    if shape.takes == "choice":
        return {"enum": list(shape.choices)}
    if shape.takes == "flag":
        return {"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no"]}]}
    if shape.takes == "mapping":
        return {"type": "object"}
    if shape.takes in {"words", "amounts"}:
        return {**_ROW, **_unit(shape)}
    return {**_SCALAR, **_unit(shape)}


def _unit(shape: KeyShape) -> Schema:
    if not shape.unit:
        return {}
    words = "a number" if shape.unit == "1" else f"with its unit, e.g. in {shape.unit}"
    return {"description": words}
