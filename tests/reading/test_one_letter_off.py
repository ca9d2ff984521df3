"""Every word that a method file may begin a line or a block with, one letter off, is told with its line and a remedy."""

from __future__ import annotations

import functools
from collections.abc import Iterator

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.operations.vocabulary import ALIASES, OPERATION_KEYS, SETUP_KEYS, verb_names
from methodsheets.reading.blocks import KINDS
from methodsheets.reading.front_matter import HELP, PAGE_KEYS
from methodsheets.reading.problem import Problem

FACE = block("op", "face: 1 mm")
KNOWN = {*verb_names(), *ALIASES, *OPERATION_KEYS, *SETUP_KEYS, *HELP, *PAGE_KEYS, *KINDS, "tags"}


def slips(word: str) -> Iterator[str]:
    """The word with a letter left out, doubled, swapped and changed; none that is a word itself."""
    middle = len(word) // 2
    found = {
        word[:middle] + word[middle + 1 :],
        word[:middle] + word[middle] + word[middle:],
        word[: middle - 1] + word[middle] + word[middle - 1] + word[middle + 1 :],
        word[:-1] + ("q" if word[-1] != "q" else "x"),
    }
    return iter(sorted(one for one in found if one and " ".join(one.split()) not in KNOWN))


@functools.cache
def problems(text: str) -> tuple[Problem, ...]:
    return work_out(text).method.problems


def told(text: str, line: int, right: str) -> None:
    """A problem of that line says what to do, and one of them names the right word."""
    there = [one for one in problems(text) if one.place.line == line]
    assert there, [str(one) for one in problems(text)]
    assert all(one.remedy for one in there), [str(one) for one in there]
    if len(right) > 4:
        assert any(f"`{right}`" in one.remedy or f"`{right}`" in one.rule for one in there), [str(one) for one in there]


KEYS = [("op", key) for key in OPERATION_KEYS] + [("setup", key) for key in SETUP_KEYS]


@pytest.mark.parametrize(("kind", "key"), KEYS, ids=[f"{kind}-{key}" for kind, key in KEYS])
def test_a_key_of_a_block(kind: str, key: str) -> None:
    for slip in slips(key):
        if kind == "op":
            told(method(THREE_JAW + block("op", "face: 1 mm", f"{slip}: 1 mm")), 15, key)
        else:
            told(method(block("setup", f"{slip}: 1 mm", "machine: lathe", "hold: three-jaw chuck") + FACE), 9, key)


@pytest.mark.parametrize("key", sorted(set(HELP) - {"method"}))
def test_a_key_of_the_front_matter(key: str) -> None:
    for slip in slips(key):
        told(method(THREE_JAW + FACE, front=f"{slip}: some\n"), 6, key)


@pytest.mark.parametrize("verb", verb_names())
def test_a_verb(verb: str) -> None:
    for slip in slips(verb):
        told(method(THREE_JAW + block("op", f"{slip}: 1 mm")), 14, verb)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_kind_of_block(kind: str) -> None:
    for slip in (one for one in slips(kind) if len(one) > 2):
        told(method(THREE_JAW + FACE + block(slip, "face: 1 mm")), 17, kind)
