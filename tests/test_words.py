"""Does a room decide by a literal word? What a word means stands in the vocabulary, and rooms ask its row.

A comparison with a string that is a verb, a process, a way of holding, a support, a machine or a sort of tool, a part
of a sentence (`" inside" in plan.words`, `.endswith`), or a set of such words is a decision by name. There are none.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from methodsheets.operations.vocabulary import ALIASES, verb_names
from methodsheets.vocabulary.holding import WAYS
from methodsheets.vocabulary.machine import MACHINES
from methodsheets.vocabulary.process import PROCESSES
from methodsheets.vocabulary.stock import STOCKS
from methodsheets.vocabulary.support import SUPPORTS
from methodsheets.vocabulary.tool import TOOLS

PLUGIN = Path(__file__).parents[1] / "plugin" / "methodsheets"
ROOMS = ("operations", "method", "drawings", "pages")
WORDS = frozenset(
    {str(word) for table in (WAYS, MACHINES, PROCESSES, STOCKS, SUPPORTS, TOOLS) for word in table}
    | {word for table in (WAYS, MACHINES, STOCKS, SUPPORTS, TOOLS) for row in table.values() for word in row.words}
    | set(verb_names())
    | set(ALIASES)
) - {"", "part", "check", "form", "fit", "do", "from"}  # block kinds; words of fits, checks and clauses
SENTENCES = ("words", "sentence", "holder_words", "tool_words", "tool_name", "name")
"""Attributes that hold English for the reader."""


COLLECTIONS = {"frozenset", "set", "tuple", "list", "MappingProxyType", "said"}
"""What makes a set of words; the word of a `Clause` or of a verb is declared, and decides nothing."""


def _strings(node: ast.expr) -> set[str]:
    """The literal words on one side of a comparison."""
    if isinstance(node, ast.Constant):
        return {node.value} if isinstance(node.value, str) else set()
    if isinstance(node, ast.Tuple | ast.List | ast.Set):
        return {word for one in node.elts for word in _strings(one)}
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in COLLECTIONS and node.args:
        return _strings(node.args[0])
    return set()


def _reads_a_sentence(node: ast.expr) -> bool:
    return isinstance(node, ast.Attribute) and node.attr in SENTENCES


def decisions(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """(line, what) of every decision by name in a module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            words = {word for side in sides for word in _strings(side)}
            if words & WORDS:
                yield node.lineno, ", ".join(sorted(words & WORDS))
            elif words and any(_reads_a_sentence(side) for side in sides):
                yield node.lineno, f"{', '.join(sorted(words))} in a sentence"
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            cut = node.func.attr in ("startswith", "endswith")
            if cut and node.args and _strings(node.args[0]) and _reads_a_sentence(node.func.value):
                yield node.lineno, "the beginning or end of a sentence"
        elif isinstance(node, ast.Assign) and isinstance(node.value, ast.Dict | ast.Set | ast.Tuple | ast.Call):
            keys = node.value.keys if isinstance(node.value, ast.Dict) else [node.value]
            words = {word for key in keys if key is not None for word in _strings(key)}
            if len(words & WORDS) > 1:
                yield node.lineno, f"a set of {', '.join(sorted(words & WORDS))}"


def found(path: Path) -> list[tuple[int, str]]:
    return sorted(decisions(ast.parse(path.read_text(encoding="utf-8"))))


FILES = sorted(path for room in ROOMS for path in (PLUGIN / room).rglob("*.py"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PLUGIN)))
def test_no_room_decides_by_a_literal_word(path: Path) -> None:
    assert found(path) == [], "ask the row of the word instead"


@pytest.mark.parametrize(
    "line",
    [
        'if process == "drill": pass',
        'if kind in ("three-jaw", "four-jaw"): pass',
        'if "inside" in plan.words: pass',
        'x = plan.words.endswith("inside")',
        'KINDS = frozenset({"flat", "slot"})',
        'NAMES = {"turn": 1, "face": 2}',
    ],
)
def test_a_decision_by_name_is_found(line: str) -> None:
    assert list(decisions(ast.parse(line)))
