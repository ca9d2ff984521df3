"""Every word that a method file may begin a line or a block with, one letter off, is told with its line and a remedy."""

from __future__ import annotations

import difflib
import functools
import re
from collections.abc import Iterable, Iterator

import pytest
from pygments.lexers import get_all_lexers
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.formula.builtins import builtins
from methodsheets.method.asking import ASKED
from methodsheets.method.part_features import ADDS
from methodsheets.operations.hold_clauses import HOLD_CLAUSES
from methodsheets.operations.strange_key import meant_by
from methodsheets.operations.verb import ANY, TURNING
from methodsheets.operations.vocabulary import ALIASES, OPERATION_KEYS, SETUP_KEYS, clauses_of, verb_names, verbs
from methodsheets.reading.blocks import KINDS, MEANT
from methodsheets.reading.front_matter import HELP, PAGE_KEYS
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problem, Problems
from methodsheets.trade.form.calculation import catalogue
from methodsheets.vocabulary.shape import PartKey

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


Pair = tuple[str, str]


def lots(pairs: list[Pair], most: int = 150) -> list[list[Pair]]:
    """As many as one method may have."""
    return [pairs[start : start + most] for start in range(0, len(pairs), most)]


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


def test_a_verb() -> None:
    """All of them in one method: each operation is a problem of its own."""
    off = [(verb, slip) for verb in verb_names() for slip in slips(verb)]
    for some in lots(off):
        text = method(THREE_JAW + "".join(block("op", f"{slip}: 1 mm") for _, slip in some))
        for count, (verb, _) in enumerate(some):
            told(text, 14 + 4 * count, verb)


def test_a_feature_of_a_part() -> None:
    words = (*ADDS, *PartKey, *verb_names())
    off = [(word, slip) for word in words for slip in slips(word) if slip.split() != word.split()]
    text = method(block("part", *(f"- {slip}: 1 mm" for _, slip in off)) + THREE_JAW + FACE)
    for count, (word, _) in enumerate(off):
        told(text, 9 + count, word)


def test_a_clause_of_a_feature() -> None:
    off = [(f"{key}: 30 mm" if first else f"{key}: over 10 mm", clause.word, slip)
           for key, (first, clauses) in ADDS.items() for clause in clauses
           for slip in slips(clause.word) if len(clause.word) > 2]  # fmt: skip
    text = method(block("part", *(f"- {line}, {slip} 1 mm" for line, _, slip in off)) + THREE_JAW + FACE)
    for count, (_, word, _) in enumerate(off):
        told(text, 9 + count, word)


def test_a_name_in_a_calculation() -> None:
    """Functions of the handbook and of the work, and a name of the block itself."""
    known = {*builtins().functions, *catalogue(), *ASKED}
    off = [(name, next(slips(name))) for name in sorted(known) if len(name) > 4]
    text = method(block("calc", *(f"a{count} = {slip}(1)" for count, (_, slip) in enumerate(off))) + THREE_JAW + FACE)
    for count, (name, _) in enumerate(off):
        nearest(text, 9 + count, name)


def nearest(text: str, line: int, right: str) -> None:
    """Told with a remedy; another name may be as near as the right one, where several differ by a letter."""
    (found,) = [one for one in problems(text) if one.place.line == line]
    named = re.findall(r"`(\w+)`", found.remedy)
    assert named, str(found)
    assert right in named or difflib.SequenceMatcher(None, right, named[0]).ratio() > 0.6, str(found)


# ------------------------------------------------------------------------------------------------ a clause as a key
def test_a_clause_of_a_verb_written_as_a_key() -> None:
    every = [
        (name, clause.word)
        for (name, frame), verb in verbs().items()
        if frame in (TURNING, ANY)
        for clause in verb.clauses
    ]
    asked = [(name, word) for name, word in dict.fromkeys(every) if word and word not in KNOWN]
    for some in lots(asked):
        text = method(THREE_JAW + "".join(block("op", f"{name}: 1 mm", f"{word}: 1 mm") for name, word in some))
        for count, (name, word) in enumerate(some):
            as_a_clause(text, 15 + 5 * count, name, word)


def test_a_clause_of_hold_written_as_a_key() -> None:
    for clause in (one for one in HOLD_CLAUSES if one.word):
        text = method(block("setup", "machine: lathe", "hold: three-jaw chuck", f"{clause.word}: 1 mm") + FACE)
        as_a_clause(text, 11, "hold", clause.word)


def test_a_clause_of_a_feature_written_as_a_feature() -> None:
    asked = [
        (key, c.word) for key, (_, clauses) in ADDS.items() for c in clauses if c.word not in {*ADDS, *PartKey, *KNOWN}
    ]
    lines = [line for key, word in asked for line in (f"- {key}: 30 mm, over 10 mm", f"- {word}: 1 mm")]
    text = method(block("part", *lines) + THREE_JAW + FACE)
    for count, (key, word) in enumerate(asked):
        as_a_clause(text, 10 + 2 * count, key, word)


def test_a_misspelt_clause_written_as_a_key() -> None:
    """A clause of six letters at least is nearer than any key; `grp: 15 mm` is the grip."""
    off = [("hold", "grip", "grp"), ("turn", "over", "ovr")]
    off += [("slot", one.word, slip) for one in verbs()["slot", TURNING].clauses if len(one.word) > 5
            for slip in slips(one.word)]  # fmt: skip
    for owner, word, slip in off:
        clauses = HOLD_CLAUSES if owner == "hold" else clauses_of(owner)
        keys = SETUP_KEYS if owner == "hold" else (*verb_names(), *OPERATION_KEYS)
        assert f"`{owner}: …, {word} …`" in meant_by(slip, {owner: clauses}, dict.fromkeys(keys, "")), (
            owner,
            word,
            slip,
        )
    as_a_clause(
        method(block("setup", "machine: lathe", "hold: three-jaw chuck", "grp: 15 mm") + FACE), 11, "hold", "grip"
    )
    as_a_clause(method(THREE_JAW + block("op", "turn: to 30 mm", "ovr: 15 mm")), 15, "turn", "over")


def as_a_clause(text: str, line: int, owner: str, word: str) -> None:
    told(text, line, "")
    assert any(f"{owner}: …, {word} …" in one.remedy for one in problems(text) if one.place.line == line), word


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_kind_of_block(kind: str) -> None:
    for slip in (one for one in slips(kind) if len(one) > 2):
        told(method(THREE_JAW + FACE + block(slip, "face: 1 mm")), 17, kind)


def fences(words: Iterable[str], *body: str) -> tuple[Problem, ...]:
    """What is told of such fences, read and not worked out."""
    found = Problems()
    parse_method("---\nmethod: Sample\n---\n" + "".join(block(word, *body) for word in words), "sample.md", found)
    return tuple(one for one in found if one.code == "unknown-block")


@pytest.mark.parametrize("line", ["machine: lathe", "round 40 mm x 60 mm"])
def test_a_word_of_the_trade_for_a_block(line: str) -> None:
    """Each is told once, with the block or the line of the front matter that says it, whatever stands in it."""
    words = sorted({*MEANT, *HELP} - set(KINDS))
    found = fences(words, line)
    assert [one.what.split("`")[1] for one in found] == words
    for word, one in zip(words, found, strict=True):
        assert f"`{MEANT.get(word, word)}" in one.remedy, str(one)


def test_a_verb_for_a_block() -> None:
    """Every verb, and every other word for one, is told once, with the verb that belongs into an `op` block."""
    words = sorted({*verb_names(), *ALIASES} - set(KINDS))
    text = method(THREE_JAW + "".join(block(word, "8 mm") for word in words))
    found = [one for one in work_out(text).method.problems if one.code == "unknown-block"]
    found.sort(key=lambda one: one.place.line)
    assert len({one.place.line for one in found}) == len(found)
    told = {word for word, one in zip(words, found, strict=True) if f"`{ALIASES.get(word, word)}: …`" in one.remedy}
    assert {word for word in words if word.split()[0] not in {*MEANT, *KINDS}} <= told


def test_a_misspelt_word_of_the_trade_for_a_block() -> None:
    words = [slip for word in ("operation", "stock", "workshop", "material", "holding") for slip in slips(word)]
    assert len(fences(words, "machine: lathe")) == len(words)


def test_a_fence_of_another_language_is_the_page_s_own() -> None:
    """All that the highlighter knows, and what themes draw; also where its text reads like a block of ours."""
    languages = {alias for _, aliases, _, _ in get_all_lexers(plugins=False) for alias in aliases}
    assert fences(sorted({*languages, "mermaid", "math", "plantuml", "vegalite"}), "all: build") == ()
