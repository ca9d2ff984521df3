"""Which `{{ … }}` of a paragraph stand in prose, and not in code or in a comment?"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass

RUN = re.compile(r"(?<!\\)`+|\\`(`*)")
OPEN = re.compile(r"(?<!\\)\{\{")


@dataclass(frozen=True)
class Mark:
    """A `{{ … }}` in the prose."""

    expression: str
    """What stands between the braces, without blanks round it; '' with `closed` False where `}}` is missing."""
    line: int
    column: int
    """Where the expression begins."""
    start: int
    """Column of the first brace."""
    closed: bool = True


def find_marks(paragraph: list[tuple[int, str]]) -> list[Mark]:
    """The placeholders of a paragraph given as (line number, line) pairs."""
    joined = "\n".join(line for _, line in paragraph)
    if "{{" not in joined:
        return []
    lines = _mask(joined).split("\n")
    return [
        mark for (number, line), seen in zip(paragraph, lines, strict=True) for mark in _in_line(number, line, seen)
    ]


def _in_line(number: int, line: str, seen: str) -> list[Mark]:
    marks = []
    at = 0
    while opening := OPEN.search(seen, at):
        begin = opening.end()
        end = seen.find("}}", begin)
        if end < 0:
            if seen[begin : begin + 1] == " ":
                marks.append(Mark("", number, begin + 1, opening.start() + 1, closed=False))
            break
        inner = line[begin:end]
        lead = len(inner) - len(inner.lstrip())
        marks.append(Mark(inner.strip(), number, begin + lead + 1, opening.start() + 1))
        at = end + 2
    return marks


def _mask(text: str) -> str:
    """The text with code spans and comments blanked out, every other character at its old place."""
    out = list(text)
    for start, end in [*_comments(text), *_code_spans(text)]:
        for index in range(start, end):
            if out[index] != "\n":
                out[index] = "\0"
    return "".join(out)


def _comments(text: str) -> list[tuple[int, int]]:
    spans = []
    at = text.find("<!--")
    while at >= 0:
        end = text.find("-->", at + 4)
        if end < 0:
            break
        spans.append((at, end + 3))
        at = text.find("<!--", end + 3)
    return spans


def _code_spans(text: str) -> list[tuple[int, int]]:
    """Spans between two runs of equally many backticks."""
    runs = [(match.start(), match.end()) for match in RUN.finditer(text) if text[match.start()] == "`"]
    by_length: dict[int, list[int]] = {}
    for start, end in runs:
        by_length.setdefault(end - start, []).append(start)
    spans = []
    at = 0
    for start, end in runs:
        if start < at:
            continue
        partners = by_length[end - start]
        next_one = bisect_right(partners, start)
        if next_one < len(partners):
            at = partners[next_one] + (end - start)
            spans.append((start, at))
    return spans
