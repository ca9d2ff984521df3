"""The list of verbs is whole, says what every clause is for, and the demo's page is that list."""

from __future__ import annotations

from pathlib import Path
from typing import cast

import pytest

from methodsheets.operations.vocabulary import verb_names, verbs
from methodsheets.operations.word_list import word_list
from methodsheets.operations.words import Reader, read_clauses
from methodsheets.reading.problem import MethodError, Place
from methodsheets.reading.text import Text

PAGE = Path(__file__).parents[2] / "site_demo" / "verbs.md"


def test_every_verb_stands_in_the_list() -> None:
    told = word_list()
    assert [name for name in verb_names() if f"`{name}`" not in told] == []


def test_every_clause_says_what_it_is_for() -> None:
    silent = [
        (name, clause.word)
        for (name, _), verb in verbs().items()
        for clause in (*verb.clauses, *([verb.first] if verb.first else []))
        if not clause.help
    ]
    assert silent == []


@pytest.mark.parametrize("word", ["centre", "spot"])
def test_one_verb_alone_by_any_of_its_names(word: str) -> None:
    told = word_list(word)
    assert told.count("###") == 1
    assert "| *first* | a length | Size of the centre drill: its pilot. |" in told


def test_no_such_verb() -> None:
    assert word_list("fly") == ""


def test_the_page_of_the_demo_is_the_list_of_today() -> None:
    _, _, body = PAGE.read_text(encoding="utf-8").partition("<!-- made by `methodsheets verbs` -->\n\n")
    assert body == word_list()


def test_a_bare_size_is_told_which_clause_it_is() -> None:
    """`bore: 12 mm` wants `to`: each verb that has no bare size, and needs one, says so."""
    told = []
    for (name, _), verb in verbs().items():
        needed = [clause.word for clause in verb.clauses if clause.required]
        if verb.first is None and needed:
            with pytest.raises(MethodError) as caught:
                read_clauses(Text("12 mm", Place("sample.md")), None, verb.clauses, cast(Reader, None), name)
            told.append((f"`{name}: {needed[0]} 12 mm`" in caught.value.problem.remedy, name))
    assert told
    assert [name for right, name in told if not right] == []
