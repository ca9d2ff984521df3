"""Is what an editor offers what a method file may hold, no more and no less?"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from methodsheets.operations.offers import Names, block_schema, file_schema, offered, snippets, words
from methodsheets.operations.vocabulary import ALIASES, OPERATION_KEYS, SETUP_KEYS, clauses_of, verb_names
from methodsheets.reading.method_file import Block, read_method
from methodsheets.reading.problem import Problems
from methodsheets.trade.metal.materials import material_names
from methodsheets.vocabulary import tool
from methodsheets.vocabulary.saying import SAYINGS
from methodsheets.vocabulary.shape import PartKey, Shape

ROOT = Path(__file__).parents[2]
WHOLE = file_schema(Names(("club",), ("Big lathe",), ("Left knife",)))


def _mapping(kind: str) -> dict[str, Any]:
    schema = block_schema(WHOLE, kind)
    return schema["anyOf"][0] if kind == "part" else schema


def test_keys_and_words_are_those_of_the_vocabulary() -> None:
    assert set(_mapping("op")["properties"]) == {*verb_names(), *OPERATION_KEYS}
    assert set(_mapping("setup")["properties"]) == set(SETUP_KEYS)
    assert set(_mapping("part")["properties"]) == {*verb_names(), *map(str, (*Shape, *PartKey))}
    taken = re.compile(next(iter(_mapping("op")["patternProperties"])))
    assert all(map(taken.match, ALIASES))
    known = offered(Names(("club",), ("Big lathe",), ("Left knife",)))
    assert known["material"] == material_names()
    assert set(known["tool"]) == {"Left knife", *(kind.row.words[0] for kind in tool.ToolKind)}
    for kind, key in (("op", "tool"), ("setup", "machine"), ("setup", "material"), ("setup", "hold")):
        assert _mapping(kind)["properties"][key]["anyOf"][0]["anyOf"][0]["enum"] == list(known[key])
    assert WHOLE["$defs"]["front_matter"]["properties"]["workshop"]["anyOf"][0]["enum"] == ["club"]
    assert {*material_names(), *verb_names(), *known["tool"], "over", "club"} <= set(
        words(Names(("club",), (), ("Left knife",)))
    )


def test_every_block_of_every_method_of_the_project_is_taken() -> None:
    blocks = 0
    for folder in ("methods", "tests/methods"):
        for file in (ROOT / folder).glob("*.md"):
            method = read_method(file, file.parent, Problems())
            assert method
            for block in method.blocks:
                _holds(block)
                blocks += 1
    assert blocks > 500


def _holds(block: Block) -> None:
    if block.kind == "calc":
        assert re.match(block_schema(WHOLE, "calc")["pattern"], block.source)
        return
    schema = _mapping(block.kind)
    other = re.compile(next(iter(schema.get("patternProperties", {"$.": {}}))))
    for key in block.keys:
        assert key in schema["properties"] or other.match(key), (block.kind, key)


def test_snippets_are_the_lines_of_the_guide() -> None:
    made = snippets()
    assert {one.wants for one in SAYINGS} < set(made)
    for one in SAYINGS:
        line = re.sub(r"\$\{\d+:([^}]*)\}", r"\1", made[one.wants]["body"][1])
        assert line == one.line
        assert one.verb in verb_names()
    for name in verb_names():  # a verb says its clauses where it is offered
        told = _mapping("op")["properties"][name]["description"]
        assert all(clause.word in told for clause in clauses_of(name))
