"""What stands in one `calc`, `setup`, `op` or `part` block?"""

from __future__ import annotations

import difflib
import re
import textwrap
from dataclasses import dataclass, field, replace

from methodsheets.reading.clauses import bracket_depth, strip_remark
from methodsheets.reading.front_matter import HELP
from methodsheets.reading.limits import EXPRESSION
from methodsheets.reading.mapping import Entry, find_entry, read_items, read_mapping
from methodsheets.reading.markdown import Fence, Heading
from methodsheets.reading.old_words import renewed
from methodsheets.reading.problem import Place, Problems, did_you_mean
from methodsheets.reading.text import Text

KINDS = ("calc", "setup", "op", "part")
MEANT = {
    spelling: kind
    for kind, spellings in {
        "calc": "calcs calculation calculations calculate formula formulas formulae",
        "setup": "set-up setups set-ups hold holds holding fixture fixturing clamping machine",
        "op": "ops operation operations step steps stage stages cut cuts pass passes job jobs tool",
        "part": "parts drawing feature features dimension dimensions workpiece",
    }.items()
    for spelling in spellings.split()
}
"""Words that people write for the kinds of block."""
NAME = re.compile(r"[^\W\d]\w*")
READS_LIKE_OURS = re.compile(r"\s*(?:-\s*)?[A-Za-z][\w -]*(?::\s|:$|\s=\s)")
"""A first line of a block: `machine: lathe`, `seat = 16 mm`."""
OPENING = re.compile(rf"\s*(?:```+|~~~+)\s*(?:{'|'.join(KINDS)})\s*$")
RESERVED = frozenset({"and", "or", "not", "true", "false", "as", "pi"})


@dataclass(frozen=True)
class CalcLine:
    """One line `name = expression  # label` of a calc block."""

    name: Text
    expression: Text
    label: str


@dataclass(frozen=True)
class Block:
    """One of our fenced blocks, in the order of the file."""

    kind: str
    """'calc', 'setup', 'op' or 'part'."""
    index: int
    """0, 1, 2 … over all kinds."""
    place: Place
    """The opening fence."""
    end_line: int
    indent: int
    """Blanks in front of the opening fence."""
    heading: Heading | None = None
    """The nearest heading above; a lone first heading of level 1 is the page's title and does not count."""
    heading_is_fresh: bool = False
    """Whether no set-up or operation has taken that heading as its title before."""
    lines: tuple[CalcLine, ...] = ()
    """Of a calc block."""
    entries: tuple[Entry, ...] = ()
    """Of the other kinds; of a part block written as a list, the entries of all items one after another."""
    items: tuple[tuple[Entry, ...], ...] = ()
    """Of a part block: the entries of each item of its list; one item if it is no list."""
    source: str = field(default="", repr=False)
    """The lines between the fences without their common indent."""

    def entry(self, key: str) -> Entry | None:
        """The first entry of that key, or None."""
        return find_entry(self.entries, key)

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys in the author's order."""
        return tuple(entry.key.value for entry in self.entries)


def is_block(fence: Fence, path: str, problems: Problems) -> bool:
    """Whether a fence is one of our blocks; notes a problem where one was meant but is written wrongly."""
    if fence.quoted:
        return False
    word, _, more = fence.info.partition(" ")
    place = Place(path, fence.line, fence.column)
    if word not in KINDS:
        _report_unknown(fence, word, place, problems)
        return False
    if more.strip():
        problems.error(
            place,
            f"words behind the kind of a block (got `{more.strip()}`)",
            "only the kind stands there",
            f"write ```{word} alone",
            code="unknown-block",
        )
    _report_open(fence, word, place, problems)
    return True


def _report_unknown(fence: Fence, word: str, place: Place, problems: Problems) -> None:
    """Note a fence that was meant for a block of ours; those of other languages are the page's own."""
    said = word.lower()
    meant = MEANT.get(said) or (said if said in {*KINDS, *HELP} else _near(said, fence))
    if meant:
        on_top = f"write `{meant}: …` between the `---` lines at the top"
        remedy = did_you_mean(meant, KINDS) if meant in KINDS else on_top
        problems.warning(
            place,
            f"a block of an unknown kind (got `{word}`)",
            f"blocks are {', '.join(KINDS)}",
            remedy,
            code="unknown-block",
        )


def _near(word: str, fence: Fence) -> str:
    """What a misspelt kind was meant for, where the block reads like one of ours and is in no other language."""
    first = next((line for line in fence.body if line.strip()), "")
    near = next(
        (one for words in (KINDS, (*MEANT, *HELP)) for one in difflib.get_close_matches(word, words, 1, 0.74)), ""
    )
    if not near or not READS_LIKE_OURS.match(first) or _is_a_language(word):
        return ""
    return MEANT.get(near, near)


def _is_a_language(word: str) -> bool:
    """Whether the highlighter of the pages knows a language of that name."""
    from pygments.lexers import get_all_lexers  # late: few files have such a word, and it takes its time

    return any(word in aliases for _, aliases, _, _ in get_all_lexers(plugins=False))


def _report_open(fence: Fence, word: str, place: Place, problems: Problems) -> None:
    """Note a block whose closing mark is missing, at the end of the file or in front of the next block."""
    next_block = _next_block(fence)
    if next_block is not None:
        problems.error(
            place,
            f"the {word} block is not closed: another block begins in line {fence.line + 1 + next_block}",
            "it ends with a line of the same marks, indented alike",
            "add a line ``` where it ends; what stands behind it comes back then",
            code="open-block",
        )
    elif not fence.closed:
        problems.error(
            place,
            f"the {word} block is not closed",
            "it ends with a line of the same marks, indented alike",
            f"add a line ``` behind line {fence.end_line}",
            code="open-block",
        )


def read_block(fence: Fence, index: int, heading: tuple[Heading | None, bool], path: str, problems: Problems) -> Block:
    """Read the lines of a block; problems are noted and what could be read is kept."""
    next_block = _next_block(fence)
    if next_block is not None:
        fence = replace(fence, body=fence.body[:next_block])
    dedented = textwrap.dedent("\n".join(fence.body))
    place = Place(path, fence.line + 1, _common_indent(fence.body) + 1)
    kind = fence.info.partition(" ")[0]
    lines: tuple[CalcLine, ...] = ()
    entries: tuple[Entry, ...] = ()
    items: tuple[tuple[Entry, ...], ...] = ()
    before = len(problems)
    if kind == "calc":
        lines = _calc_lines(fence, path, problems)
    elif kind == "part":
        items = tuple(
            renewed(item, kind, problems) for item in read_items(dedented, place, problems, what="part block")
        )
        entries = tuple(entry for item in items for entry in item)
    else:
        entries = renewed(read_mapping(dedented, place, problems, what=f"{kind} block"), kind, problems)
    if not lines and not entries and len(problems) == before:
        problems.warning(
            Place(path, fence.line, fence.column),
            f"the {kind} block is empty",
            "",
            "fill it or take it away",
            code="empty-block",
        )
    return Block(
        kind=kind,
        index=index,
        place=Place(path, fence.line, fence.column),
        end_line=fence.end_line,
        indent=fence.indent,
        heading=heading[0],
        heading_is_fresh=heading[1],
        lines=lines,
        entries=entries,
        items=items,
        source=dedented,
    )


def _next_block(fence: Fence) -> int | None:
    """Index of the body line that opens another of our blocks: the mark that closes this one was forgotten."""
    return next((index for index, line in enumerate(fence.body) if OPENING.match(line)), None)


def _common_indent(body: tuple[str, ...]) -> int:
    filled = [line for line in body if line.strip()]
    whole = textwrap.dedent("\n".join(filled)).split("\n")
    return len(filled[0]) - len(whole[0]) if filled else 0


def _calc_lines(fence: Fence, path: str, problems: Problems) -> tuple[CalcLine, ...]:
    lines = []
    at = 0
    while at < len(fence.body):
        raw, remark = strip_remark(fence.body[at])
        number = fence.line + 1 + at
        at += 1
        if not raw.strip():
            continue
        first_indent = len(raw) - len(raw.lstrip())
        while (
            len(raw) <= EXPRESSION
            and bracket_depth(raw) > 0
            and at < len(fence.body)
            and _continues(fence.body[at], first_indent)
        ):
            more, further = strip_remark(fence.body[at])
            raw, remark = f"{raw}\n{more}", remark or further
            at += 1
        line = _calc_line(Text(raw, Place(path, number)), remark, problems)
        if line:
            lines.append(line)
    return tuple(lines)


def _continues(line: str, indent: int) -> bool:
    """A line inside open brackets goes on if it is indented deeper, or only closes the brackets."""
    return not line.strip() or len(line) - len(line.lstrip()) > indent or line.lstrip()[0] in ")]"


def _calc_line(raw: Text, remark: str, problems: Problems) -> CalcLine | None:
    match = re.match(r"\s*(?P<name>[^=\n]*?)\s*=(?!=)", raw.value)
    whole = raw.cut(0)
    if not match:
        colon = re.match(r"\s*(?P<name>[^\W\d]\w*)\s*:(?=\s*\S)", raw.value)
        problems.error(
            whole.place,
            f"not a calculation (got `{whole.value[:60]}`)",
            "a line is `name = expression  # label`",
            "write `=` in place of `:`" if colon else "give the result a name",
            code="not-a-calculation",
        )
        if not colon or colon["name"] in RESERVED:
            return None
        return CalcLine(raw.cut(colon.start("name"), colon.end("name")), raw.cut(colon.end()), remark)
    name, expression = raw.cut(match.start("name"), match.end("name")), raw.cut(match.end())
    if not NAME.fullmatch(name.value) or name.value in RESERVED:
        why = "the language needs this word itself" if name.value in RESERVED else "a name is letters, digits and _"
        problems.error(
            name.place,
            f"not a name (got `{name.value[:60]}`)",
            why,
            "choose another name, e.g. `hub_length`",
            code="bad-name",
        )
        return None
    if not expression:
        problems.error(
            name.place,
            f"`{name.value}` has no expression",
            "a line is `name = expression  # label`",
            "write its value behind the `=`",
            code="not-a-calculation",
        )
        return None
    return CalcLine(name, expression, "".join(filter(str.isprintable, remark)))
