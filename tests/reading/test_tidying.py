"""Does a tidied file look as the guide writes it, and is it read as it was before?"""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from methodsheets.operations.manner import guide
from methodsheets.operations.vocabulary import ALIASES
from methodsheets.reading import old_words
from methodsheets.reading.front_matter import HELP
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.old_words import FRONT, OLD_WORDS, OldWord
from methodsheets.reading.problem import Problems
from methodsheets.reading.tidying import tidied

ROOT = Path(__file__).parents[2]
FILES = {
    file.stem: file.read_text("utf-8")
    for folder in ("methods", "tests/methods")
    for file in (ROOT / folder).glob("*.md")
}
BLOCK = re.compile(r"(?ms)^```(?P<kind>setup|op|part|calc)\n(?P<body>.*?)^```$")
ONE = re.compile(r"(?P<dash>- )?(?P<key>[a-z -]+): (?P<value>.*)")
WORD = r", (?=(?:to|over|from|deep|wide|at|on|grip|end|long|apart) )"
"""A comma in front of a clause."""
OTHERS = {name: [other for other, meant in ALIASES.items() if meant == name] for name in ALIASES.values()}


def test_every_method_of_the_project_is_tidy() -> None:
    """So what a tidied sample comes to is what the sample comes to."""
    manner = guide()
    assert len(FILES) > 70
    assert [name for name, text in FILES.items() if tidied(text, manner) != text] == []


def _untidy(text: str, chance: random.Random) -> str:
    """The same method as a hurried author types it: blanks, order, words."""
    front = text.index("\n---\n", 4) + 1
    head = text[4:front].splitlines()
    chance.shuffle(head)
    return "---\n" + "\n".join(map(str, (_spaced(one, FRONT, chance) for one in head))) + "\n" + BLOCK.sub(
        lambda found: f"```{' ' * chance.randrange(3)}{found['kind']} \n{_body(found['kind'], found['body'], chance)}```  ",
        text[front:],
    ) + "\n" * chance.randrange(3)  # fmt: skip


def _body(kind: str, body: str, chance: random.Random) -> str:
    lines = body.splitlines()
    if kind == "calc":
        return "".join(
            f"{re.sub(' +([=#]) ', lambda one: _blanks(chance) + one[1] + '  ', line, count=2)} \n" for line in lines
        )
    if all(map(ONE.fullmatch, lines)) and kind != "part":
        chance.shuffle(lines)
    empty = "\n" * chance.randrange(2)
    return empty + "".join(_spaced(line, kind, chance) + "\n" for line in lines) + empty


def _blanks(chance: random.Random) -> str:
    return " " * chance.randrange(1, 5)


def _spaced(line: str, kind: str, chance: random.Random) -> str:
    found = ONE.fullmatch(line)
    if not found:
        return line
    key, value = found["key"], found["value"]
    if kind in ("op", "part") and key in OTHERS and key != "check":
        key = chance.choice([key, *OTHERS[key]])
    if guide().is_clauses(kind, key) and '"' not in value:
        value = re.sub(WORD, lambda _: _blanks(chance) + "," + _blanks(chance), value)
    return f"{found['dash'] or ''}{key}:{_blanks(chance)}{value}{' ' * chance.randrange(3)}"


def test_what_was_typed_in_a_hurry_becomes_the_file_of_the_guide() -> None:
    chance, manner = random.Random(1), guide()
    for name, text in FILES.items():
        typed = _untidy(text, chance)
        assert typed != text
        assert tidied(typed, manner) == text, name


def test_a_damaged_file_is_left_in_its_meaning_and_tidied_once() -> None:
    chance, manner = random.Random(7), guide(upgrade=True)
    for text in list(FILES.values())[::3]:
        lines = text.split("\n")
        for _ in range(4):
            at = chance.randrange(len(lines))
            lines[at : at + chance.randrange(3)] = chance.choice(
                [[], ["  - a: b"], ["\tx"], ["```op"], [": ' ,, "], ["a = (1"]]
            )
        first = tidied("\n".join(lines), manner)
        assert tidied(first, manner) == first


@pytest.mark.parametrize(
    ("typed", "made"),
    [
        ("drill:1,5 mm", "drill:1,5 mm"),  # YAML needs its blank: told by `check`, and left
        ("drill:  1,5 mm ,deep 3 mm", "drill: 1,5 mm, deep 3 mm"),
        ("note:  a,b  # c\ndrill: 2 mm,deep 3 mm#4", "drill: 2 mm, deep 3 mm#4\nnote: a,b  # c"),
        ("note: Careful: hot, very  # so\ndrill:   2 mm", "drill: 2 mm\nnote: Careful: hot, very  # so"),
        ("# above\nnote: >\n  one\n  # two\n\nspotting: 2 mm", None),
        ("check:   # three\n- a,b\n-   c\nspot: 2 mm # x", "centre: 2 mm  # x\ncheck: # three\n- a,b\n-   c"),
        ("# the note\nnote: n\n# the verb\nturning: to 3 mm\n# last", "# the verb\nturn: to 3 mm\n# the note\nnote: n\n# last"),
        ('"drill":  "2 mm,deep 3 mm"', '"drill": "2 mm,deep 3 mm"'),
        ("note: n\n\nturn: to 3 mm", "note: n\n\nturn: to 3 mm"),  # groups of the author's own
        ("{drill: 2 mm}", "{drill: 2 mm}"),
        ("turning: to 2 mm\nfacing: 1 mm", "turning: to 2 mm\nfacing: 1 mm"),  # two verbs: told by `check`
        ("polish:  fine,bright", "polish: fine,bright"),  # prose keeps its commas
    ],
)  # fmt: skip
def test_lines_of_an_operation(typed: str, made: str | None) -> None:
    frame = "---\nmethod: T\n---\n\n1. a step\n\n    ```op\n{}\n    ```\n\nProse ,  stays.  \n"
    before, after = (
        frame.format("\n".join(f"    {one}" if one else "" for one in lines.split("\n")))
        for lines in (typed, made or typed)
    )
    assert tidied(before, guide()) == after


@pytest.mark.parametrize(
    ("typed", "made"),
    [
        ("a=1 mm\nlonger   =  2 mm# none\n\nb = 3  #label", "a      = 1 mm\nlonger = 2 mm# none\n\nb = 3   # label"),
        ("a = f(1,\n      2)   # x\nlong = 3 #y", "a    = f(1,\n      2)   # x\nlong = 3   # y"),
        ("  # alone\na = 1 # one\nbb == 2", None),  # cannot be read: told, and left
    ],
)
def test_lines_of_a_calculation(typed: str, made: str | None) -> None:
    frame = "---\nmethod: T\n---\n\n```calc\n{}\n```\n"
    assert tidied(frame.format(typed), guide()) == frame.format(made or typed)


SENTENCE = "---\n{front}\n---\n\n```{kind}\n{line}\n```\n"
OF_EVERY_ROOM = (
    *OLD_WORDS,
    OldWord((FRONT,), "writer", "author", "0.0", "a trial"),
    OldWord(("setup",), "grip", "hold", "0.0", "a trial"),
    OldWord(("op", "part"), "till", "to", "0.0", "a trial", key="turn"),
)


@pytest.mark.parametrize("row", OF_EVERY_ROOM, ids=lambda row: row.old)
def test_an_old_word_is_read_as_todays_told_and_written_anew(row: OldWord, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(old_words, "OLD_WORDS", OF_EVERY_ROOM)
    for kind in row.kinds:
        key, value = (row.key, f"{row.old} 3 mm, over 4 mm, {row.old} 5 mm") if row.key else (row.old, "3 mm")
        front, line = (
            ("method: T", f"{key}: {value}") if kind != FRONT else (f"method: T\n{key}: {value}", "face: 1 mm")
        )
        old = SENTENCE.format(front=front, kind="op" if kind == FRONT else kind, line=line)
        new = re.sub(rf"\b{row.old}\b", row.new, old)
        told, fresh = Problems(), Problems()
        was, now = parse_method(old, "a.md", told), parse_method(new, "a.md", fresh)
        assert was
        assert now
        assert {one.code for one in told} == {"old-word"}
        assert all(row.new in one.rule and "tidy --upgrade" in one.remedy for one in told)
        assert len(fresh) == 0
        assert was.blocks[0].keys == now.blocks[0].keys
        assert [str(one.text) for one in was.blocks[0].entries] == [str(one.text) for one in now.blocks[0].entries]
        assert was.front.author == now.front.author
        assert tidied(old, guide()) == old
        assert tidied(old, guide(upgrade=True)) == new


def test_no_old_word_is_a_word_of_today() -> None:
    for row in OLD_WORDS:
        assert row.old not in {*ALIASES, *HELP}, row
