"""How does a method file look when it is written as the guide writes it? Spacing, order and words; never the meaning.

Prose is its author's and stays. In a block, in the front matter and in a calculation only what stands between the words
is set: blanks, the order of keys, the columns of `=` and `#`. A block that cannot be read without a problem stays as it
is, remarks stay with their line, and what is read afterwards is what was read before, or nothing is changed at all.
"""

from __future__ import annotations

import itertools
import re
import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, fields

from methodsheets.reading.blocks import KINDS, Block, read_block
from methodsheets.reading.clauses import bare_characters, bracket_depth, strip_remark
from methodsheets.reading.front_matter import FrontMatter
from methodsheets.reading.mapping import Entry
from methodsheets.reading.markdown import Fence, scan
from methodsheets.reading.method_file import MethodFile, parse_method
from methodsheets.reading.old_words import FRONT
from methodsheets.reading.problem import Place, Problems
from methodsheets.reading.text import Text
from methodsheets.reading.written import Written, written_entries

FARTHEST = 40
"""Columns of a calculation up to which its remark stands under those above; behind a longer one it follows at once."""

GAP = "   "
"""Between a calculation and its remark."""


@dataclass(frozen=True)
class Manner:
    """How the keys of a block are written."""

    word: Callable[[str, str, Sequence[str]], str] = lambda kind, key, keys: key
    """Kind of block, key, all keys of the block: the word that the key is written with."""
    rank: Callable[[str, str], int] = lambda kind, key: 0
    """Kind and key: its place in the block; keys of one place stay in their order."""
    is_clauses: Callable[[str, str], bool] = lambda kind, key: False
    """Kind and key: whether its line is clauses with commas between them."""
    clause: Callable[[str, str, str], str] = lambda kind, key, clause: clause
    """Kind, key and a clause: how the clause is written."""


def tidied(text: str, manner: Manner) -> str:
    """A method file as the guide writes it; the same text where that would be read as anything else.

    Parameters:
        text: the file, its lines ended by line feeds
        manner: how keys are written

    Returns:
        the file, which ends with one line feed; tidied again, it stays as it is.
    """
    made = _tidied(text, manner)
    return made if made != text and _same(text, made, manner) else text


def _tidied(text: str, manner: Manner) -> str:
    found = scan(text)
    lines = text.split("\n")
    for fence in reversed(found.fences):
        if not fence.quoted and fence.closed and fence.info in KINDS:
            lines[fence.line - 1 : fence.end_line] = _block(fence, lines, manner)
    if found.front and found.front_closed:
        first, last = found.front
        lines[first - 1 : last] = _mapping(lines[first - 1 : last], FRONT, manner)
    return "\n".join(lines).rstrip("\n") + "\n"


def _block(fence: Fence, lines: list[str], manner: Manner) -> list[str]:
    """The lines of a block with its fences."""
    problems = Problems()
    read_block(fence, 0, (None, False), "", problems)
    whole = lines[fence.line - 1 : fence.end_line]
    if any(one.code != "old-word" for one in problems) or any("\t" in line for line in fence.body):
        return whole
    indent = _indent(fence.body)
    body = textwrap.dedent("\n".join(fence.body)).split("\n")
    while body and not body[0].strip():
        del body[0]
    while body and not body[-1].strip():
        del body[-1]
    made = _calculations(body) if fence.info == "calc" else _mapping(body, fence.info, manner)
    marks = whole[0][: fence.column - 1] + whole[0][fence.column - 1 :].partition(fence.info)[0].rstrip()
    return [marks + fence.info, *(indent + line if line else "" for line in made), whole[-1].rstrip()]


def _indent(body: Sequence[str]) -> str:
    filled = [line for line in body if line.strip()]
    whole = textwrap.dedent("\n".join(filled)).split("\n")
    return filled[0][: len(filled[0]) - len(whole[0])] if filled else ""


# mappings


@dataclass
class _Chunk:
    """A key with the lines that belong to it, and the remarks above it."""

    key: str
    above: list[str] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)


def _mapping(body: list[str], kind: str, manner: Manner) -> list[str]:
    """`key: value` lines, each as it is written, in the order of their keys."""
    found = written_entries("\n".join(body))
    if not found or any(one.line == other.line for one, other in itertools.pairwise(found)):
        return body
    keys = [one.key for one in found]
    chunks: list[_Chunk] = []
    at = 0
    for one in found:
        last = one.end_line
        chunk = _Chunk(manner.word(kind, one.key, keys))
        chunk.above = [line.rstrip() for line in body[at : one.line]]
        first = _line(body[one.line], one, kind, chunk.key, manner)
        chunk.lines = [first, *body[one.line + 1 : last + 1]]
        chunks.append(chunk)
        at = last + 1
    if kind != "part" and all(line for chunk in chunks for line in chunk.above):
        chunks.sort(key=lambda chunk: manner.rank(kind, chunk.key))
    return [line for chunk in chunks for line in (*chunk.above, *chunk.lines)] + [one.rstrip() for one in body[at:]]


def _line(line: str, one: Written, kind: str, key: str, manner: Manner) -> str:
    """The line of a key, spaced as the guide does."""
    front = line[: one.column].rstrip()
    front = f"{front} " if front.endswith("-") else line[: one.column]
    name = key if one.is_plain_key else line[one.column : one.key_end]
    if one.value is None:
        return front + name + ":" + _spaced(line[one.key_end :].partition(":")[2].strip())
    start, end = one.value
    value, behind = line[start:end].strip(), line[end:].strip()
    if one.is_plain and manner.is_clauses(kind, key):
        value = _clauses(value, lambda clause: manner.clause(kind, key, clause))
    return front + name + ":" + (f" {value}" if value else "") + (f"  {behind}" if behind else "")


def _spaced(rest: str) -> str:
    return f" {rest}" if rest else ""


def _clauses(value: str, written: Callable[[str], str]) -> str:
    """Clauses with one blank behind each comma; a comma between two digits may be meant for a point and stays."""
    cuts = [
        index
        for index, sign in bare_characters(value)
        if sign == "," and not (value[index - 1 : index].isdigit() and value[index + 1 : index + 2].isdigit())
    ]
    pieces = [
        value[start:end].strip() for start, end in zip([0, *(one + 1 for one in cuts)], [*cuts, None], strict=True)
    ]
    return ", ".join(map(written, pieces)) if all(pieces) else value


# calculations


def _calculations(body: list[str]) -> list[str]:
    """Lines `name = expression  # label`, with the signs of neighbours below each other."""
    rows = list(_rows(body))
    made: list[str] = []
    for run in _runs(rows):
        names = max((len(row.name) for row in run if row.name), default=0)
        widths = [len(row.code(names)) for row in run if row.name and row.remark]
        column = max((one for one in widths if one <= FARTHEST), default=0)
        for row in run:
            made += row.lines(names, column)
    return made


@dataclass
class _Row:
    """A calculation, a remark that stands alone, or an empty line."""

    name: str = ""
    expression: str = ""
    remark: str = ""
    more: list[str] = field(default_factory=list)
    """The lines in which an open bracket goes on, or the line itself where it is no calculation."""

    def code(self, names: int) -> str:
        """Name and expression."""
        return f"{self.name:<{names}} = {self.expression}"

    def lines(self, names: int, column: int) -> list[str]:
        """The row as it is written."""
        if not self.name:
            return self.more
        code = self.code(names)
        return [f"{code:<{column}}{GAP}{self.remark}" if self.remark else code, *self.more]


_CALCULATION = re.compile(r"\s*(?P<name>[^\W\d]\w*)\s*=(?!=)\s*(?P<expression>.*)$")


def _rows(body: list[str]) -> Iterator[_Row]:
    open_row: _Row | None = None
    depth = 0
    for line in body:
        code, words = strip_remark(line)
        remark = f"# {words}" if words else line[len(code) :].strip()
        if open_row is not None:
            open_row.more.append(line.rstrip())
        elif found := _CALCULATION.match(code):
            open_row = _Row(found["name"], found["expression"].strip(), remark)
        else:
            yield _Row(more=[line.rstrip()])
            continue
        depth += bracket_depth(code)
        if depth <= 0:
            yield open_row
            open_row, depth = None, 0
    if open_row is not None:
        yield open_row


def _runs(rows: list[_Row]) -> Iterator[list[_Row]]:
    """Rows without an empty line between them."""
    run: list[_Row] = []
    for row in rows:
        run.append(row)
        if not row.name and not any(row.more):
            yield run
            run = []
    yield run


# the same meaning


def _same(before: str, after: str, manner: Manner) -> bool:
    """Whether both texts are read as one method, with the same problems."""
    told, tells = Problems(), Problems()
    was, now = parse_method(before, "a.md", told), parse_method(after, "a.md", tells)
    codes = [sorted(one.code for one in problems if one.code != "old-word") for problems in (told, tells)]
    return codes[0] == codes[1] and _meaning(was, manner) == _meaning(now, manner)


def _meaning(file: MethodFile | None, manner: Manner) -> object:
    """What a method file says, without places and without blanks that mean nothing."""
    if file is None:
        return None
    blocks = [_block_meaning(one, manner) for one in file.blocks]
    titles = [(one.level, one.text, one.slug) for one in file.headings]
    return _said(file.front), blocks, titles, _said(tuple(one.expression for one in file.placeholders))


def _block_meaning(block: Block, manner: Manner) -> object:
    heading = (block.heading and block.heading.slug, block.heading_is_fresh)
    items = block.items or (block.entries,)
    said = [
        [(manner.word(block.kind, one.key.value, keys), _said(one.value)) for one in item]
        for item, keys in ((item, [one.key.value for one in item]) for item in items)
    ]
    ordered = said if block.kind == "part" else [sorted(item, key=lambda one: one[0]) for item in said]
    lines = [(_said(one.name), _said(one.expression), one.label) for one in block.lines]
    return block.kind, heading, ordered, lines


def _said(value: object) -> object:
    """A value of the author's words as words, lists and pairs."""
    if isinstance(value, Text):
        return re.sub(r" ?, ?", ",", " ".join(value.value.split()))
    if isinstance(value, Entry):
        return value.key.value, _said(value.value)
    if isinstance(value, tuple):
        return [_said(one) for one in value]
    if isinstance(value, FrontMatter):
        return {one.name: _said(getattr(value, one.name)) for one in fields(value)}
    return None if isinstance(value, Place) else value
