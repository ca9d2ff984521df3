"""What did the author write in a method file, and on which line?"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from methodsheets.reading.blocks import KINDS, Block, CalcLine, is_block, read_block
from methodsheets.reading.front_matter import FrontMatter, read_front_matter
from methodsheets.reading.limits import CALCULATIONS, FEATURES, OPERATIONS, SETUPS, Limit
from methodsheets.reading.mapping import Entry
from methodsheets.reading.markdown import Fence, Heading, Scan, scan
from methodsheets.reading.problem import MethodError, Place, Problems
from methodsheets.reading.shape import check_lines, check_page
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import LARGEST, Source, read_source, unify_lines
from methodsheets.reading.text import Text

__all__ = [
    "Block",
    "CalcLine",
    "Entry",
    "FrontMatter",
    "Heading",
    "MethodFile",
    "Placeholder",
    "Text",
    "is_method",
    "parse_method",
    "read_method",
]

COUNTED: tuple[tuple[Limit, Callable[[Block], int]], ...] = (
    (OPERATIONS, lambda block: block.kind == "op"),
    (SETUPS, lambda block: block.kind == "setup"),
    (FEATURES, lambda block: len(block.entries) if block.kind == "part" else 0),
    (CALCULATIONS, lambda block: len(block.lines)),
)
"""What is counted over the blocks of a method: the limit, and how much of it one block is."""
METHOD_KEY = re.compile(r"\ufeff?---[ \t]*\r?\n(?:(?!---|\.\.\.)[^\n]*\n)*?[\"']?method[\"']?[ \t]*:", re.ASCII)


@dataclass(frozen=True)
class Placeholder:
    """A `{{ expression }}` in the prose."""

    expression: Text


@dataclass(frozen=True)
class MethodFile:
    """A method file as it was read; nothing is worked out yet."""

    path: str
    slug: str
    """File name without ending, lower case, safe in a URL."""
    digest: str
    """SHA-256 of the bytes of the file."""
    text: str = field(repr=False)
    front: FrontMatter
    blocks: tuple[Block, ...]
    headings: tuple[Heading, ...]
    placeholders: tuple[Placeholder, ...]
    strange: tuple[Text, ...] = ()
    """The words of the other fenced blocks, of which the words of the trade may be one that was meant for ours."""

    def of_kind(self, kind: str) -> tuple[Block, ...]:
        """The blocks of one kind, in order."""
        return tuple(block for block in self.blocks if block.kind == kind)


def is_method(text: str) -> bool:
    """Whether a Markdown text is a method file: whether its front matter has the key `method`."""
    return text.lstrip("\ufeff").startswith("---") and METHOD_KEY.match(text) is not None


def read_method(path: Path, root: Path, problems: Problems, shown: str | None = None) -> MethodFile | None:
    """Read the method file at `path`, which must lie under `root`.

    Gives None where there is no text to read or no front matter with `method`; every problem is noted.
    `shown` is the path that problems show; without it the path below `root`.
    """
    source = read_source(path, root, problems, shown)
    return _parse(source, problems) if source else None


def parse_method(text: str, path: str, problems: Problems) -> MethodFile | None:
    """Read a method file from a text that was read elsewhere; `path` is what problems show."""
    raw = text.encode("utf-8", "surrogatepass")
    if len(raw) > LARGEST:
        problems.error(
            Place(path),
            f"the file is too large (got {len(raw):,} bytes)",
            f"a file may have {LARGEST:,} bytes",
            "write one file for each method",
            code="too-large",
        )
        return None
    plain = unify_lines(text.removeprefix("\ufeff"))
    try:
        check_lines(plain, path)
        check_page(plain, path)
    except MethodError as error:
        problems.extend([error.problem])
        return None
    return _parse(Source(path, plain, hashlib.sha256(raw).hexdigest()), problems)


def _parse(source: Source, problems: Problems) -> MethodFile | None:
    found = scan(source.text)
    front = _front(source, found, problems)
    if front is None:
        return None
    blocks = _limit(_blocks(found, source.path, problems), problems)
    placeholders = _placeholders(found, source.path, problems)
    stem = PurePosixPath(source.path.replace("\\", "/")).stem
    return MethodFile(
        path=source.path,
        slug=file_slug(stem),
        digest=source.digest,
        text=source.text,
        front=front,
        blocks=blocks,
        headings=found.headings,
        placeholders=placeholders,
        strange=tuple(
            Text(fence.info, Place(source.path, fence.line, fence.column))
            for fence in found.fences
            if fence.info and not fence.quoted and fence.info not in KINDS
        ),
    )


def _front(source: Source, found: Scan, problems: Problems) -> FrontMatter | None:
    if found.front is None:
        problems.error(
            Place(source.path),
            "the file has no front matter",
            "a method file begins with `---`, its keys, and `---`",
            "write `method:` and its title between two lines `---`",
            code="no-front-matter",
        )
        return None
    if not found.front_closed:
        problems.error(
            Place(source.path),
            "the front matter is not closed",
            "it ends with a line `---`",
            "add that line",
            code="no-front-matter",
        )
        return None
    first, last = found.front
    return read_front_matter(source.text.split("\n")[first - 1 : last], Place(source.path, first), problems)


def _blocks(found: Scan, path: str, problems: Problems) -> list[Block]:
    blocks: list[Block] = []
    used: set[int] = set()
    title = _page_title(found.headings)
    for fence in found.fences:
        if not is_block(fence, path, problems):
            _report_open(fence, path, problems)
            continue
        kind = fence.info.partition(" ")[0]
        heading = next((h for h in reversed(found.headings) if h.line < fence.line and h is not title), None)
        fresh = heading is not None and heading.line not in used
        if heading is not None and kind in ("setup", "op"):
            used.add(heading.line)
        blocks.append(read_block(fence, len(blocks), (heading, fresh), path, problems))
    return blocks


def _page_title(headings: tuple[Heading, ...]) -> Heading | None:
    """The first heading, if it is the only one of level 1; it names the page and no set-up."""
    level_one = [heading for heading in headings if heading.level == 1]
    return level_one[0] if len(level_one) == 1 and headings[0] is level_one[0] else None


def _report_open(fence: Fence, path: str, problems: Problems) -> None:
    if not fence.closed and not fence.quoted:
        problems.error(
            Place(path, fence.line, fence.column),
            "a fenced block is not closed",
            "everything behind it is taken as code",
            "close it with a line of the same marks",
            code="open-block",
        )


def _limit(blocks: list[Block], problems: Problems) -> tuple[Block, ...]:
    """The blocks up to the first one that is too many."""
    counts = [0] * len(COUNTED)
    for number, block in enumerate(blocks):
        for index, (limit, count) in enumerate(COUNTED):
            counts[index] += count(block)
            if counts[index] > limit:
                problems.error(
                    block.place,
                    f"the method {limit.said} (got {sum(map(count, blocks)):,})",
                    f"at most {limit:,} {limit.of}",
                    "split it into two methods",
                    code="too-many",
                )
                return tuple(blocks[:number])
    return tuple(blocks)


def _placeholders(found: Scan, path: str, problems: Problems) -> tuple[Placeholder, ...]:
    placeholders = []
    for mark in found.marks:
        if mark.closed and mark.expression:
            placeholders.append(Placeholder(Text(mark.expression, Place(path, mark.line, mark.column))))
        else:
            problems.warning(
                Place(path, mark.line, mark.start),
                "`{{` without a name and `}}`",
                "a placeholder is `{{ name }}`",
                "write the name and close it, or write \\{{ for the braces themselves",
                code="placeholder",
            )
    return tuple(sorted(placeholders, key=lambda placeholder: placeholder.expression.place))
