"""In which shape do methods and problems leave the program for other programs?

Every such text says what it is (`format`) and which version of its shape it has (`schema`). The version rises when a
field goes away or changes its meaning; a new field does not raise it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from methodsheets.reading.problem import Problem
from methodsheets.sheet.model import SCHEMA, Method
from methodsheets.sheet.records import json_schema, to_data

from .model import Entry

METHOD_FORMAT = "method-sheets/method"
PROBLEMS_FORMAT = "method-sheets/problems"
VALUE_FORMAT = "method-sheets/value"


def method_data(entry: Entry, workshops: Iterable[str] | None = None) -> dict[str, Any]:
    """A method worked out, as JSON data.

    Parameters:
        workshops: keys of the workshops that are wanted; all where None
    """
    wanted = entry.by_workshop if workshops is None else list(workshops)
    return {
        "format": METHOD_FORMAT,
        "schema": SCHEMA,
        "method": entry.slug,
        "own_workshop": entry.own_workshop,
        "workshops": {key: to_data(entry.by_workshop[key]) for key in wanted},
    }


def problem_data(problems: Iterable[Problem], unknown: Iterable[Problem] = ()) -> dict[str, Any]:
    """Problems, as JSON data; `unknown` are checks that could not be made because something was not said."""
    return {
        "format": PROBLEMS_FORMAT,
        "schema": SCHEMA,
        "problems": [_problem(one) for one in problems],
        "not_known": [_problem(one) for one in unknown],
    }


def _problem(one: Problem) -> dict[str, Any]:
    return {
        "path": one.place.path,
        "line": one.place.line,
        "column": one.place.column,
        "severity": one.severity.value,
        "code": one.code,
        "what": one.what,
        "rule": one.rule,
        "remedy": one.remedy,
    }


def method_schema() -> dict[str, Any]:
    """JSON Schema of `method_data`."""
    inner = json_schema(Method)
    return {
        "$schema": inner["$schema"],
        "title": "A method worked out",
        "type": "object",
        "properties": {
            "format": {"const": METHOD_FORMAT},
            "schema": {"const": SCHEMA},
            "method": {"type": "string", "description": "name of the method in addresses"},
            "own_workshop": {"type": "string", "description": "the workshop that the author wrote it for"},
            "workshops": {"type": "object", "additionalProperties": {"$ref": "#/$defs/Method"}},
        },
        "required": ["format", "schema", "method", "own_workshop", "workshops"],
        "$defs": inner["$defs"],
    }
