"""Every size that a sheet says in words is said in inches too, in every method of the demo."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from typing import Any

import pytest

from methodsheets.sheet.model import Fact, Method
from methodsheets.sheet.words import Words

from .bench import ROOT, block, demo, work_out
from .bench import method as written

SLUGS = sorted(path.stem for path in ROOT.glob("*.md") if path.stem != "README")
NUMBER = re.compile(r"(?<![\w.])Ø?(\d+(?:\.\d+)?)(?:\u202f|$|[,;:)]| )")
LENGTH = re.compile(r"Ø\d|\d[ \u202f](mm|µm|cm³|mm³|mm²|N|W)\b")
OWN = ("title", "notes")
"""Fields in which an author may speak."""


ON_DIALS = ("length_dial", "tailstock_depth", "quill_depth")


def _texts(record: Any, field: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(record, Words | str):
        yield field, record
    elif isinstance(record, tuple):
        for item in record:
            yield from _texts(item, field)
    elif isinstance(record, Fact) and record.key == "plunge":
        return  # its note is what the machine's own dial reads
    elif isinstance(record, Fact) and record.key in ON_DIALS and not record.value.inch:  # type: ignore[union-attr]
        yield "note", record.note  # its value is what the machine's own dial reads
    elif dataclasses.is_dataclass(record):
        for one in dataclasses.fields(record):
            yield from _texts(getattr(record, one.name), one.name)


@pytest.fixture(scope="module", params=SLUGS)
def method(request: pytest.FixtureRequest) -> Method:
    return work_out(demo(request.param), "osierbank-small", request.param).method


def test_no_mark_of_a_draft_is_left(method: Method) -> None:
    texts = [str(said) + getattr(said, "inch", "") for _, said in _texts(method)]
    assert len(texts) > 500
    assert not [text for text in texts if re.search("[\ue000-\uf8ff]", text)]


def test_every_size_has_an_inch_form(method: Method) -> None:
    tools = sorted({operation.tool for operation in method.operations if operation.tool}, key=len, reverse=True)

    def without_tools(text: str) -> str:
        for tool in tools:
            text = text.replace(tool, "the tool")  # a 12 mm drill is called so everywhere
        return text

    said = [words for field, words in _texts(method) if isinstance(words, Words) and field not in OWN]
    with_sizes = [words for words in said if LENGTH.search(without_tools(words.metric))]
    assert len(with_sizes) > 10
    for words in with_sizes:
        assert words.inch, words
        assert not LENGTH.search(re.sub(r"Ø\d", "", without_tools(words.inch))), words


def test_an_inch_form_names_the_same_sizes(method: Method) -> None:
    compared = 0
    for _, words in _texts(method):
        if not isinstance(words, Words) or not words.inch:
            continue
        for metric, inch in words.parts():
            ours, theirs = NUMBER.findall(metric), NUMBER.findall(inch)
            if (
                not inch
                or len(ours) != len(theirs)
                or re.search(r"[ \u202f](µm|cm³|mm³|mm²|N|kN|W|in³|oz)", metric + inch)
            ):
                continue
            for one, other in zip(ours, theirs, strict=True):
                rate = 0.01 if "/min" in metric else 0.0  # both are rounded to three figures
                assert float(other) * 25.4 == pytest.approx(float(one), rel=rate, abs=0.013), words
                compared += 1
    assert compared > 40


@pytest.mark.parametrize(
    ("shop", "words"),
    [("osierbank-small", "the cut ends 30 from the face"), ("osierbank-inch", "the cut ends 1.181 from the face")],
)
def test_a_failed_check_is_told_in_the_units_of_the_author(shop: str, words: str) -> None:
    text = written(
        block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 35 mm, end A out")
        + block("op", "turn: to 30 mm, over 30 mm")
    ).replace("osierbank-small", shop)
    told = [str(one) for one in work_out(text, shop).method.problems]
    assert any(words in one for one in told), told
