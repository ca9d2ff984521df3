"""What can a method be told, and what is to be done about it? Read from the program's own text: none is left out.

A message is said where its rule is known, in many rooms, always in one form: what is wrong, the rule, the remedy, and a
`code` for its kind. This list finds those places; what a message takes from the file at hand shows as `…`.
"""

from __future__ import annotations

import ast
import functools
import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import methodsheets
from methodsheets.sheet.check_kinds import CHECK_KINDS

_HOLE = "…"
_WORDS = ("what", "rule", "remedy")
_WITH_PLACE = frozenset({"MethodError", "Problem", "error", "warning"})
"""Their first argument is the place in the file."""
_WITHOUT_PLACE = frozenset({"FormulaError"})


@dataclass(frozen=True, order=True)
class Message:
    """One thing that the program can say: its kind, what is wrong, the rule, the remedy."""

    code: str
    what: str
    rule: str
    remedy: str


@functools.cache
def messages() -> tuple[Message, ...]:
    """Every message, by its code."""
    found: set[Message] = set()
    for file in sorted(Path(methodsheets.__file__).parent.rglob("*.py")):
        found.update(_said_in(ast.parse(file.read_text("utf-8"))))
    return tuple(sorted(found))


def _said_in(tree: ast.Module) -> Iterator[Message]:
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        code = next((one.value for one in node.keywords if one.arg == "code"), None)
        if not isinstance(code, ast.Constant) or name not in _WITH_PLACE | _WITHOUT_PLACE:
            continue
        given = node.args[1:] if name in _WITH_PLACE else node.args
        named = {one.arg: one.value for one in node.keywords}
        words = [given[at] if at < len(given) else named.get(key) for at, key in enumerate(_WORDS)]
        yield Message(str(code.value), *(_plain(one) for one in words))


def _plain(node: ast.expr | None) -> str:
    """The words of an expression, with `…` for what is only known when it is said."""
    match node:
        case None:
            return ""
        case ast.Constant(value=str(words)):
            return words
        case ast.JoinedStr(values=parts):
            return re.sub(rf"(?:`{_HOLE}`|{_HOLE})(?:\s*{_HOLE})*", _HOLE, "".join(_plain(one) for one in parts))
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            return _plain(left) + _plain(right)
        case ast.IfExp(body=body, orelse=other):
            both = [words for words in (_plain(body), _plain(other)) if words not in ("", _HOLE)]
            return " / ".join(both) or _HOLE
        case ast.Call(func=ast.Name(id="did_you_mean")):
            return f"did you mean {_HOLE}?"
        case _:
            return _HOLE


def message_list() -> str:
    """The page of messages, as Markdown."""
    lines = [
        "# What it tells you",
        "",
        "Every message says what is wrong, the rule, and what to do, in that order:",
        "",
        "    path:line:column: what is wrong (got X); the rule; what to do",
        "",
        f"Here are all of them by their code. `{_HOLE}` stands for words of your file. `methodsheets check --json`",
        "gives the code with each. `check` ends with status 0 where all is well, 1 where something is wrong, 2 where",
        "the command was mistyped, and 3 where nothing is wrong but a check of the work could not be made.",
        "",
        "## Problems of a file",
    ]
    for code, said in itertools.groupby(messages(), lambda one: one.code):
        lines += ["", f"### `{code}`", "", "| it says | the rule | what to do |", "|---|---|---|"]
        lines += [_row(one.what, one.rule, one.remedy) for one in said]
    lines += ["", "## Checks of the work", "", "| check | the rule | what to do |", "|---|---|---|"]
    lines += [_row(f"`{key}`", kind.rule, kind.remedy) for key, kind in sorted(CHECK_KINDS.items())]
    return "\n".join(lines) + "\n"


def _row(*cells: str) -> str:
    """A row of a table; a bar or braces in the words would be read as something else."""
    plain = (" ".join(words.replace("|", r"\|").replace("{{", "{ {").split()) for words in cells)
    return f"| {' | '.join(plain)} |"
