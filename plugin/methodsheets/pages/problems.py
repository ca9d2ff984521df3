"""Where does a problem show? In a box at the block it belongs to, or at the top of its page."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from methodsheets.reading.markdown import Fence, scan
from methodsheets.reading.problem import Problem, Severity

from . import document as d
from .wording import with_code

KINDS = ("calc", "setup", "op", "part")
"""The fenced blocks of a method file."""


@dataclass(frozen=True)
class BlockPlace:
    """One block of a method file: its number, its kind, its lines and what it says."""

    index: int
    kind: str
    line: int
    end_line: int
    body: tuple[str, ...]

    def says(self, body: Iterable[str]) -> bool:
        """Whether lines are those of this block, whatever stands in front of them."""
        return [line.strip() for line in self.body] == [line.strip() for line in body]


def kind_of(fence: Fence) -> str:
    """'calc', 'setup', 'op', 'part', or '' for a fence that is only text."""
    return fence.info if fence.info in KINDS and not fence.quoted else ""


def blocks_of(source: str) -> tuple[BlockPlace, ...]:
    """The blocks of a method file's text, in order."""
    text = source.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    found = [fence for fence in scan(text).fences if kind_of(fence)]
    return tuple(
        BlockPlace(index, kind_of(fence), fence.line, fence.end_line, fence.body) for index, fence in enumerate(found)
    )


def by_block(
    problems: Iterable[Problem], blocks: Iterable[BlockPlace], path: str = ""
) -> dict[int | None, list[Problem]]:
    """The problems by the number of their block; under None those that belong to no block.

    Parameters:
        path: of the method file; a problem of another file belongs to no block, whatever its line.
    """
    known = sorted(blocks, key=lambda block: block.line)
    begins = [block.line for block in known]
    found: dict[int | None, list[Problem]] = {}
    for problem in problems:
        line = problem.place.line if not path or problem.place.path == path else 0
        last = bisect_right(begins, line) - 1
        inside = last >= 0 and line <= known[last].end_line
        found.setdefault(known[last].index if inside else None, []).append(problem)
    return found


def changed_box(problems: Iterable[Problem]) -> d.Box:
    """Numbers that come out otherwise than they were approved, in one box."""
    found = tuple(problems)
    items = tuple(with_code(_sentence(one.what)) for one in found)
    said = [one for one in dict.fromkeys(one.rule for one in found) if one]
    ending: list[d.Block] = [d.Paragraph(with_code(_sentence(words))) for words in said]
    remedies = dict.fromkeys(one.remedy for one in found if one.remedy)
    ending += [d.Paragraph((d.Strong(d.words("What to do: ")), *with_code(words)), kind="remedy") for words in remedies]
    return d.Box("warning", "Not as it was approved", (d.Listing(items), *ending))


def problem_boxes(problems: Iterable[Problem]) -> d.Blocks:
    """A box for each problem: where, what, the rule, what to do."""
    return tuple(problem_box(problem) for problem in problems)


def problem_box(problem: Problem) -> d.Box:
    """One problem as the page shows it."""
    error = problem.severity is Severity.ERROR
    content: list[d.Block] = [d.Paragraph(with_code(_sentence(problem.what)))]
    if problem.rule:
        content.append(d.Paragraph(with_code(_sentence(problem.rule))))
    if problem.remedy:
        content.append(d.Paragraph((d.Strong(d.words("What to do: ")), *with_code(problem.remedy)), kind="remedy"))
    where = (d.Code(f"{problem.place.path}:{problem.place.line}:{problem.place.column}"),)
    content.append(d.Paragraph(where, kind="where"))
    title = "This is not worked out" if error else "Look at this"
    return d.Box("problem" if error else "warning", title, tuple(content))


def missing_box(kind: str, why: str) -> d.Box:
    """A block that could not be worked out for want of something outside it."""
    said = d.Paragraph(with_code(f"This `{kind}` block is not worked out. {why}"))
    return d.Box("problem", "This is not worked out", (said,))


def _sentence(words: str) -> str:
    text = words[:1].upper() + words[1:]
    return text if text.endswith((".", "?", "!", ":")) else f"{text}."
