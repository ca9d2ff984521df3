"""What may an editor offer while a method file is written? JSON Schema of the front matter and of the blocks."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from methodsheets.reading.front_matter import FOREIGN, HELP, MOST_MADE, PAGE_KEYS, STATUS

Schema: TypeAlias = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"


@dataclass(frozen=True)
class KeyHelp:
    """One key of a block, as an editor shows it."""

    key: str
    text: str
    """What it means, one sentence."""
    choices: Sequence[str] = ()
    """The words it may be, where they are a closed list."""
    offers: Sequence[str] = ()
    """Words that it may be, among others."""
    examples: Sequence[str] = ()


def front_matter_schema(offers: Mapping[str, Sequence[str]] | None = None) -> Schema:
    """Schema of the front matter; `offers`: words that a key may be, among others."""
    properties: dict[str, Schema] = {
        key: {"type": ["string", "number"], "description": text} for key, text in HELP.items()
    }
    for key, known in (offers or {}).items():
        properties[key] = {"description": HELP[key], **_among(known)}
    properties["method"] = {"type": "string", "minLength": 1, "description": HELP["method"]}
    properties["makes"] |= {"type": "integer", "minimum": 1, "maximum": MOST_MADE}
    properties["status"] = {"enum": list(STATUS), "description": HELP["status"]}
    properties["date"] |= {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
    properties["tags"] = {
        "description": HELP["tags"],
        "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}],
    }
    properties |= {key: {"description": "Belongs to the page and its theme."} for key in sorted(PAGE_KEYS)}
    return {
        "title": "Front matter of a method",
        "type": "object",
        "required": ["method"],
        "properties": properties,
        "patternProperties": {f"^{FOREIGN}": {"description": "Belongs to another plugin of the site."}},
        "additionalProperties": False,
    }


def block_schema(title: str, keys: Sequence[KeyHelp], *, as_list: bool = False, also: Sequence[str] = ()) -> Schema:
    """Schema of a block with these keys.

    Parameters:
        as_list: whether a list of such mappings stands beside a single one
        also: other words for the keys, which are taken and not offered
    """
    mapping: Schema = {
        "type": "object",
        "minProperties": 1,
        "properties": {key.key: _value_schema(key) for key in keys},
        "additionalProperties": False,
    }
    if also:
        mapping["patternProperties"] = {f"^(?:{'|'.join(map(re.escape, also))})$": {}}
    if not as_list:
        return {"title": title, **mapping}
    return {"title": title, "anyOf": [mapping, {"type": "array", "minItems": 1, "items": mapping}]}


def method_schema(
    front: Mapping[str, Sequence[str]],
    setup_keys: Sequence[KeyHelp],
    verbs: Sequence[KeyHelp],
    operation_keys: Sequence[KeyHelp],
    features: Sequence[KeyHelp],
    others: Sequence[str] = (),
) -> Schema:
    """Schema of everything in a method file, with one definition for each kind of block.

    Parameters:
        front: words that a key of the front matter may be, among others
        setup_keys: keys of a set-up
        verbs: the verbs of an operation
        operation_keys: its other keys
        features: what stands in a part block beside verbs
        others: other words for the verbs
    """
    operation = block_schema("Operation", [*verbs, *operation_keys], also=others)
    operation["anyOf"] = [{"required": [word]} for word in (*(verb.key for verb in verbs), *others)]
    return {
        "$schema": DIALECT,
        "title": "Method file",
        "description": "Front matter and blocks of a method; calc blocks are lines of `name = expression  # label`.",
        "$ref": "#/$defs/front_matter",
        "$defs": {
            "front_matter": front_matter_schema(front),
            "calc": calc_schema(),
            "setup": block_schema("Set-up", setup_keys),
            "op": operation,
            "part": block_schema("Intended part", [*features, *verbs], as_list=True, also=others),
        },
    }


def calc_schema() -> Schema:
    """Schema of a calc block: words of which every line is empty, a remark, a calculation or its continuation."""
    return {
        "title": "Calculations",
        "type": "string",
        "pattern": r"^(?:[ \t]*(?:#[^\n]*|[^\W\d]\w*[ \t]*=[^=\n][^\n]*|[ \t]+[^\n]*|\)[^\n]*|)(?:\n|$))+$",
    }


def _among(known: Sequence[str]) -> Schema:
    """A list of words that is offered, and open."""
    return {"anyOf": [{"enum": list(known)}, {"type": ["string", "number", "boolean", "null"]}]}


def _value_schema(key: KeyHelp) -> Schema:
    """Words, a number, a yes or no, nothing, or a list of such; a closed list where there is one."""
    schema: Schema = {"description": key.text}
    if key.examples:
        schema["examples"] = list(key.examples)
    if key.choices:
        return schema | {"enum": list(key.choices)}
    single = _among(key.offers) if key.offers else {"type": ["string", "number", "boolean", "null"]}
    return schema | {"anyOf": [single, {"type": "array", "items": single}]}
