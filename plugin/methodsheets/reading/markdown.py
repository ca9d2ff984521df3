"""Where in a Markdown text are its headings, its fenced blocks and its placeholders?

The scan follows the Markdown that publishes the page: a fence in a list, an admonition or a tab counts, a fence
quoted by a longer fence, by a block quotation, by indented code or by an HTML comment is only text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from methodsheets.reading.placeholders import Mark, find_marks
from methodsheets.reading.slug import heading_slug

FENCE = re.compile(r"(?P<fence>`{3,}|~{3,})[ \t]*(?P<info>[^`\n]*)$")
MARKER = re.compile(r"(?:[-*+]|\d{1,9}[.)])[ \t]+|(?:!!!|\?\?\?\+?|===[!+]*)[ \t]+|:[ \t]{1,3}|\[\^[^\]]+\]:")
ATX = re.compile(r"(?P<level>#{1,6})(?P<text>[^\n]*)$")
SETEXT = re.compile(r"(?:=+|-+)[ \t]*$")
QUOTE = re.compile(r"[ ]{0,3}>[ ]?")


@dataclass(frozen=True)
class Heading:
    """A heading of the page."""

    level: int
    text: str
    line: int
    slug: str
    """The anchor the page gives it."""


@dataclass(frozen=True)
class Fence:
    """A fenced block; lines count from 1."""

    info: str
    """What stands behind the fence marks: 'calc'."""
    line: int
    """Line of the opening fence."""
    column: int
    """Column of its first mark."""
    end_line: int
    """Line of the closing fence, or of the last line of an open one."""
    indent: int
    """Blanks in front of the fence."""
    body: tuple[str, ...]
    """The lines between the fences as they stand in the file."""
    closed: bool = True
    quoted: bool = False
    """Inside a block quotation, or straight behind a list mark: shown, not worked out."""


@dataclass(frozen=True)
class Scan:
    """What was found in a Markdown text."""

    front: tuple[int, int] | None
    """First and last line of the front matter between its `---` lines; None if there is none."""
    front_closed: bool
    headings: tuple[Heading, ...]
    fences: tuple[Fence, ...]
    marks: tuple[Mark, ...]


@dataclass
class _State:
    lines: list[str]
    at: int = 0
    containers: list[int] = field(default_factory=list)
    """Indents of the list, admonition and tab marks that are open."""
    paragraph: list[tuple[int, str]] = field(default_factory=list)
    """The lines of prose since the last break, with their numbers."""
    in_code: bool = False
    headings: list[Heading] = field(default_factory=list)
    fences: list[Fence] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    last_comment_end: int = -1
    """The last line that ends a comment: behind it there is nothing to look for."""
    slugs: set[str] = field(default_factory=set)
    counters: dict[str, int] = field(default_factory=dict)


def scan(text: str) -> Scan:
    """Find front matter, headings, fenced blocks and `{{ … }}` of a text whose lines end in line feeds."""
    state = _State(text.split("\n"))
    state.last_comment_end = max((at for at, line in enumerate(state.lines) if "-->" in line), default=-1)
    front, closed = _front_matter(state)
    while state.at < len(state.lines):
        _take_line(state)
    _break_paragraph(state)
    return Scan(front, closed, tuple(state.headings), tuple(state.fences), tuple(state.marks))


def indent_of(line: str) -> int:
    """Columns of white space in front of a line; a tab goes to the next multiple of four."""
    width = 0
    for character in line:
        if character == " ":
            width += 1
        elif character == "\t":
            width += 4 - width % 4
        else:
            break
    return width


def _front_matter(state: _State) -> tuple[tuple[int, int] | None, bool]:
    if not re.fullmatch(r"---[ \t]*", state.lines[0]):
        return None, True
    for index in range(1, len(state.lines)):
        if re.fullmatch(r"(?:---|\.\.\.)[ \t]*", state.lines[index]):
            state.at = index + 1
            return (2, index), True
    return (2, len(state.lines)), False


def _take_line(state: _State) -> None:
    line = state.lines[state.at]
    if not line.strip():
        _break_paragraph(state)
        state.at += 1
        return
    indent = indent_of(line)
    if not state.paragraph or indent < 4:
        _leave_containers(state, indent)
    if _is_code(state, indent):
        state.in_code = True
        state.at += 1
        return
    state.in_code = False
    if _take_comment(state, line) or _take_fence(state, line, indent) or _take_heading(state, line):
        return
    _enter_containers(state, line)
    state.paragraph.append((state.at + 1, line))
    state.at += 1


def _leave_containers(state: _State, indent: int) -> None:
    while state.containers and indent <= state.containers[-1]:
        state.containers.pop()


def _enter_containers(state: _State, line: str) -> None:
    marker = MARKER.match(line.lstrip())
    if marker:
        state.containers.append(indent_of(line))


def _is_code(state: _State, indent: int) -> bool:
    """Indented code: four columns deeper than text would stand, and not the continuation of a paragraph."""
    base = state.containers[-1] + 4 if state.containers else 0
    return indent >= base + 4 and not state.paragraph


def _break_paragraph(state: _State) -> None:
    if state.paragraph:
        state.marks.extend(find_marks(state.paragraph))
        state.paragraph = []


def _take_comment(state: _State, line: str) -> bool:
    if not line.lstrip().startswith("<!--") or state.at > state.last_comment_end:
        return False
    for index in range(state.at, len(state.lines)):
        tail = state.lines[index].find("-->", line.index("<!--") + 4 if index == state.at else 0)
        if tail < 0:
            continue
        if state.lines[index][tail + 3 :].strip():
            return False  # Prose goes on behind the comment; the paragraph scan masks comments inside prose.
        _break_paragraph(state)
        state.at = index + 1
        return True
    return False


def _take_fence(state: _State, line: str, indent: int) -> bool:
    prefix = QUOTE.match(line)
    behind = MARKER.match(line.lstrip())
    inner = line
    if prefix:
        inner = _unquote(line)
    elif behind:
        inner = line.lstrip()[behind.end() :]
    opening = FENCE.match(inner.strip() if not prefix else inner.lstrip())
    if not opening or (opening["fence"][0] == "`" and "`" in opening["info"]):
        return False
    _break_paragraph(state)
    if behind:
        _enter_containers(state, line)
    end, closed = _fence_end(state, opening["fence"], quoted=bool(prefix))
    column = line.index(opening["fence"]) + 1
    body = tuple(state.lines[state.at + 1 : end])
    last = end + 1 if closed else end
    state.fences.append(
        Fence(
            info=opening["info"].strip(),
            line=state.at + 1,
            column=column,
            end_line=last,
            indent=indent,
            body=body,
            closed=closed,
            quoted=bool(prefix or behind),
        )
    )
    state.at = last
    return True


def _unquote(line: str) -> str:
    while match := QUOTE.match(line):
        line = line[match.end() :]
    return line


def _fence_end(state: _State, fence: str, *, quoted: bool) -> tuple[int, bool]:
    """Index of the closing fence and True, or index of the first line behind an open one and False."""
    floor = state.containers[-1] if state.containers else -1
    closing = re.compile(rf"{re.escape(fence[0])}{{{len(fence)},}}$")
    for index in range(state.at + 1, len(state.lines)):
        line = state.lines[index]
        if quoted:
            if not QUOTE.match(line):
                return index, False
            line = _unquote(line)
        elif line.strip() and indent_of(line) <= floor:
            return index, False
        if closing.match(line.strip()):
            return index, True
    return len(state.lines), False


def _take_heading(state: _State, line: str) -> bool:
    atx = ATX.match(line.strip())
    if atx:
        words = _without_marks(atx["text"]).strip()
        if not words:
            return False
        _break_paragraph(state)
        _add_heading(state, len(atx["level"]), words, state.at + 1)
        state.at += 1
        return True
    if len(state.paragraph) == 1 and SETEXT.match(line.strip()) and not _starts_container(state.paragraph[0][1]):
        number, words = state.paragraph[0]
        _break_paragraph(state)
        _add_heading(state, 1 if line.strip()[0] == "=" else 2, words.strip(), number, marked=True)
        state.at += 1
        return True
    return False


def _without_marks(words: str) -> str:
    """A heading without the marks that may close it; a mark behind a backslash is meant."""
    bare = words.rstrip(" \t")
    open_end = bare.rstrip("#")
    return bare[: len(open_end) + 1] if open_end.endswith("\\") and open_end != bare else open_end


def _starts_container(line: str) -> bool:
    return bool(MARKER.match(line.lstrip()) or QUOTE.match(line))


def _add_heading(state: _State, level: int, words: str, line: int, *, marked: bool = False) -> None:
    if not marked:
        state.marks.extend(find_marks([(line, state.lines[line - 1])]))
    plain, slug = heading_slug(words, state.slugs, state.counters)
    state.headings.append(Heading(level, plain, line, slug))
