"""Is a text that nobody could make a page of refused at once, and does reading never go over a line twice?"""

from __future__ import annotations

import copy
import re
import sys
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from methodsheets.reading import limits
from methodsheets.reading.limits import all_limits, limits_page
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems

HEAD = "---\nmethod: A bush\n---\n\n"

TOO_MUCH = {
    "brackets": "[" * 3000,
    "brackets over lines": "[[[[\n" * 200,
    "brackets and words": "[a](" * 800,
    "stars": "*a " * 900,
    "underlines": "_a" * 900,
    "backticks": "`a ``b " * 300,
    "comments": "<!--\n" * 1000,
    "tags": "<b " * 900,
    "marks of a heading": "# " + "#" * 3900,
    "a long heading": "# " + "word " * 200,
    "equal headings": "# Turn\n\n" * 1000,
    "underlined headings": "Turn\n----\n\n" * 1000,
    "lists": "".join("  " * depth + "- a\n" for depth in range(300)),
    "tabs": "".join("\t" * depth + "- a\n" for depth in range(300)),
    "admonitions": "".join("    " * depth + "!!! note\n\n" for depth in range(300)),
    "quotations": ">" * 300 + " a",
    "quotations with blanks": "> " * 300 + " a",
    "a declaration": "<![ foo",
    "a marked section": "a <![CDATA[ b",
    "an instruction": "<?php",
    "a doctype": "<!DOCTYPE html",
    "a line": "word " * 1000,
    "lines": "a\n" * 12_000,
    "a paragraph": ("word " * 100 + "\n") * 50,
    "digits": "9" * 5000,
    "digits in front matter": "9" * 5000,
    "blanks in a note": "```op\nnote: a" + " " * 4000 + "b: c\n```",
    "a value": "```op\nnote: |\n" + ("  " + "word " * 100 + "\n") * 40 + "```",
    "a value in lists": "```op\nnote: [" + "[" * 100 + "]" * 100 + "]\n```",
}


@pytest.mark.parametrize("name", TOO_MUCH)
def test_what_is_beyond_all_measure_is_refused(name: str) -> None:
    problems = Problems()
    text = f"---\nmethod: {TOO_MUCH[name]}\n---\n" if "front" in name else HEAD + TOO_MUCH[name]
    parse_method(text, "methods/bush.md", problems)
    assert len(problems) >= 1
    first = next(iter(problems))
    assert first.code in {"too-much", "not-text", "too-deep"}, str(first)
    assert len(str(first)) < 400


def test_the_demo_methods_are_far_from_every_limit() -> None:
    for file in Path("methods").glob("*.md"):
        problems = Problems()
        assert parse_method(file.read_text("utf-8"), file.as_posix(), problems) is not None
        assert len(problems) == 0


class Counted:
    """Counts the lines of our reading that are gone through."""

    def __enter__(self) -> Counted:
        self.lines, self.before = 0, sys.gettrace()
        sys.settrace(self.call)
        return self

    def __exit__(self, *_: object) -> None:
        sys.settrace(self.before)

    def call(self, frame: FrameType, event: str, value: Any) -> Any:
        return self.line if "reading" in frame.f_globals.get("__name__", "") else None

    def line(self, frame: FrameType, event: str, value: Any) -> Any:
        self.lines += event == "line"
        return self.line


GROWING = {
    "headings": "# Turn\n\n",
    "comments": "<!-- a\n\n",
    "closed comments": "<!-- a --> b\n\n",
    "fences": "~~~\n\n",
    "quoted fences": "> ```calc\n\n",
    "fences in lists": "- a\n\n  ```calc\n  a = 1\n  ```\n\n",
    "open brackets": "```calc\na = (1\n```\n\n",
    "operations": "```op\nturn: to 38 mm, over 13 mm\nnote: a: b\n```\n\n",
    "placeholders": "{{ a }} {{ b\n\n",
    "code spans": "`a` ``b `c\n\n",
    "lists": "- a\n    - b\n\n",
    "words": "word, (word) [word] *word*\n\n",
}


@pytest.mark.parametrize("name", GROWING)
def test_twice_the_text_is_twice_the_work(name: str) -> None:
    work = {}
    for count in (90, 180):
        with Counted() as counted:
            parse_method(HEAD + GROWING[name] * count, "methods/bush.md", Problems())
        work[count] = counted.lines
    assert work[180] <= 2.2 * work[90]


CLOCKS = re.compile(
    r"^\s*(?:import|from) (?:time|signal|sched|threading|resource)\b|^\s*import datetime|\.(?:today|now|utcnow)\(", re.M
)


def test_nothing_that_works_a_file_out_can_ask_what_time_it_is() -> None:
    """What may be written is bounded by counting. The handbook keeps the day of an entry, and faces serve and wait."""
    rooms = [one for one in Path("plugin/methodsheets").iterdir() if one.name not in ("handbook", "faces")]
    files = [file for room in (*rooms, Path("figures/methodfigures")) for file in room.rglob("*.py")]
    assert len(files) > 300
    assert [str(file) for file in files if CLOCKS.search(file.read_text("utf-8"))] == []


def test_the_table_of_limits_is_the_page_in_the_guide() -> None:
    """Made by `methodsheets limits`."""
    assert Path("site_demo/limits.md").read_text("utf-8") == limits_page()


def test_every_limit_says_what_and_why() -> None:
    found = all_limits()
    assert len(found) > 30
    for _, limit in found:
        assert limit > 0
        assert limit.of
        assert limit.why
        assert limit.said
    assert copy.copy(limits.LINES).of == limits.LINES.of


def test_the_limits_of_the_trade_are_those_of_the_table() -> None:
    from methodsheets.trade.form.calculation import MOST_ITEMS, MOST_LINES

    assert (limits.CALCULATION_ITEMS, limits.CALCULATION_LINES) == (MOST_ITEMS, MOST_LINES)
