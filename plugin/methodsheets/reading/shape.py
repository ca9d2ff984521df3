"""Has a text a shape that can be read and made a page of, without anything in it being looked at twice?

Markdown tries every open bracket with every other and goes into lists by a recursion. What is beyond all measure is
refused here, after one look at each line, before anything else sees it.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from methodsheets.reading import limits
from methodsheets.reading.limits import Limit
from methodsheets.reading.markdown import scan
from methodsheets.reading.problem import MethodError, Place

SIGNS = re.compile(r"[\[(*_`<~=^|\\&!{]")
LONG_NUMBER = re.compile(rf"\d{{{limits.DIGITS_IN_A_ROW + 1}}}")
FOOTNOTE = re.compile(r"[ \t>]*\[\^[^\]]*\]:")
"""What begins a footnote; in a quotation or a list it is one too."""
KINDS = frozenset({"calc", "setup", "op", "part"})
FRONT = re.compile(r"[ \t]*")
MARKUP = re.compile(r"<!\[|<\?|<![A-Za-z]")
"""What opens a declaration or a processing instruction: no page needs one, and readers of HTML stumble over them."""


def check_lines(text: str, path: str) -> None:
    """Refuse a text with too many lines or too long ones; for every sort of file.

    Raises:
        MethodError: with the place of the first that is too much.
    """
    lines = text.split("\n")
    most = limits.RECORD_LINES if path.endswith(".csv") else limits.LINES
    if len(lines) > most:
        raise _too_much(Place(path), most, "the file has too many lines", len(lines))
    for number, line in enumerate(lines, 1):
        if len(line) > limits.LINE:
            raise _too_much(Place(path, number), limits.LINE, "the line is too long", len(line))
        if len(line) > limits.DIGITS_IN_A_ROW and (found := LONG_NUMBER.search(line)):
            place = Place(path, number, found.start() + 1)
            raise _too_much(place, limits.DIGITS_IN_A_ROW, "a number has too many digits", limits.DIGITS_IN_A_ROW + 1)


def check_page(text: str, path: str) -> None:
    """Refuse a text of which Markdown would not make a page in good time.

    Raises:
        MethodError: with the place of the first thing that is too much.
    """
    lines = text.split("\n")
    _check_fronts(lines, path)
    for fence in scan(text).fences:
        if not fence.quoted and fence.info in KINDS:  # lifted out before Markdown sees it
            lines[fence.line : fence.line + len(fence.body)] = [""] * len(fence.body)
    _check_whole(lines, path)
    for first, paragraph in _paragraphs(lines):
        _check_paragraph(first, paragraph, path)


def _check_whole(lines: list[str], path: str) -> None:
    """What the page has in all."""
    for limit, count in (
        (limits.TAGS, sum(line.count("<") for line in lines)),
        (limits.MARKS_OF_A_PAGE, sum(len(SIGNS.findall(line)) for line in lines)),
        (limits.FOOTNOTES, sum(FOOTNOTE.match(line) is not None for line in lines)),
    ):
        if count > limit:
            raise _too_much(Place(path), limit, limit.said, count)


def _check_fronts(lines: list[str], path: str) -> None:
    """What stands in front of lines: blanks, quotation signs, marks of headings."""
    headings = 0
    for number, line in enumerate(lines, 1):
        front = FRONT.match(line)
        indent = front.end() if front else 0
        if indent > limits.INDENT and indent < len(line):
            raise _too_much(Place(path, number), limits.INDENT, "the line is indented too far", indent)
        quotes = len(line) - len(line.lstrip(" \t>"))
        if quotes > limits.QUOTES and line[:quotes].count(">") > limits.QUOTES:
            raise _too_much(
                Place(path, number), limits.QUOTES, "quotations are nested too deep", line[:quotes].count(">")
            )
        if line[indent : indent + 1] == "#":
            headings += 1
            if len(line) > limits.HEADING:
                raise _too_much(Place(path, number), limits.HEADING, "the heading is too long", len(line))
        elif line[indent : indent + 1] in ("=", "-") and not line.strip("=- \t"):
            headings += 1
        if headings > limits.HEADINGS:
            raise _too_much(Place(path, number), limits.HEADINGS, "the page has too many headings", headings)
        if "<" in line and (found := MARKUP.search(line)):
            raise MethodError(
                Place(path, number, found.start() + 1),
                f"the beginning of a declaration (got `{line[found.start() : found.start() + 20]}`)",
                "a page holds text, and plain tags at most",
                "leave it out, or write `&lt;` for the sign itself",
                code="not-text",
            )


def _paragraphs(lines: list[str]) -> Iterator[tuple[int, list[str]]]:
    """Lines between empty lines, with the number of the first of them."""
    begin = 0
    for at, line in enumerate([*lines, ""]):
        if not line.strip():
            if at > begin:
                yield begin + 1, lines[begin:at]
            begin = at + 1


def _check_paragraph(first: int, paragraph: list[str], path: str) -> None:
    length = sum(map(len, paragraph))
    if length > limits.PARAGRAPH:
        raise _too_much(Place(path, first), limits.PARAGRAPH, "the paragraph is too long", length)
    if length <= limits.MARKS:
        return
    counted: Counter[str] = Counter()
    for line in paragraph:
        counted.update(SIGNS.findall(line))
    for sign, count in counted.items():
        if count > limits.MARKS:
            raise _too_much(Place(path, first), limits.MARKS, f"the paragraph has too many signs `{sign}`", count)


def _too_much(place: Place, limit: Limit, what: str, got: int) -> MethodError:
    return MethodError(
        place,
        f"{what} (got {got:,})",
        f"at most {int(limit):,} {limit.of}",
        "split it, or take it out",
        code="too-much",
    )
