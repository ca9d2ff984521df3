"""Is every check one of a kind that has its rule and remedy, and is every holder and every process looked at?"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import methodsheets
from methodsheets.method.checks.holders import CHECKS_OF
from methodsheets.operations.facts import judged
from methodsheets.sheet.check_kinds import CHECK_KINDS
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.process import Process

ROOMS = ("operations", "method")


def keys_in_code() -> dict[str, str]:
    """Every key that is written in a call of `judge` or `judged`, with the file it stands in."""
    found = {}
    for room in ROOMS:
        for path in sorted((Path(methodsheets.__file__).parent / room).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call) and getattr(node.func, "attr", getattr(node.func, "id", "")) in JUDGES:
                    for one in ast.walk(node.args[0]) if node.args else ():
                        if isinstance(one, ast.Constant) and isinstance(one.value, str):
                            found[one.value] = path.name
    return found


JUDGES = ("judge", "judged")


def test_every_check_in_the_code_is_of_a_known_kind() -> None:
    assert {key: file for key, file in keys_in_code().items() if key not in CHECK_KINDS} == {}


def test_every_kind_of_check_is_made_somewhere() -> None:
    assert set(CHECK_KINDS) - set(keys_in_code()) == set()


def test_every_kind_has_a_rule_and_a_remedy_of_its_own() -> None:
    said = [(kind.rule, kind.remedy) for kind in CHECK_KINDS.values()]
    assert all(rule and remedy for rule, remedy in said)
    assert len(set(said)) == len(said)


def test_a_check_of_another_kind_is_refused() -> None:
    with pytest.raises(KeyError):
        judged("luck", True, "it will be all right", 1)


def test_every_way_of_holding_says_what_is_looked_at() -> None:
    assert set(CHECKS_OF) == set(Way)


def test_every_process_says_which_tools_do_it() -> None:
    assert [process for process in Process if process.cuts and not process.row.tools] == []
