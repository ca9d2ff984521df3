"""What stands in place of each block of the author's page, and of each `{{ name }}` in the prose?"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable, Sequence
from typing import Protocol, TypeAlias, TypeVar

from methodsheets.handbook.model import Entry, Pace
from methodsheets.handbook.shelf import METHODS_AT_HAND
from methodsheets.reading.problem import Problem
from methodsheets.sheet.model import Drawing, Method

from . import document as d
from . import wording
from .operation import operation_blocks
from .places import Places
from .problems import BlockPlace, by_block, changed_box, problem_boxes
from .setup import figure, setup_blocks
from .variants import merge, merge_words
from .working import calculation_blocks


def for_all(entry: Entry, build: Callable[[Method], d.Blocks]) -> d.Blocks:
    """Build a tree for every workshop of a method and merge them."""
    return merge({key: build(method) for key, method in entry.by_workshop.items()}, entry.own_workshop)


class Sorted:
    """What belongs to each block of a file, of every workshop's result: looked for once for the whole page."""

    def __init__(self, blocks: Sequence[BlockPlace]) -> None:
        """Begin.

        Parameters:
            blocks: all blocks of the file, by whose lines problems are told apart
        """
        self.blocks = blocks
        self._made: OrderedDict[int, tuple[Method, _ByBlock]] = OrderedDict()

    def of(self, method: Method) -> _ByBlock:
        """That of one result; it is kept as long as the result is at hand."""
        if id(method) not in self._made:
            self._made[id(method)] = (method, _ByBlock(method, self.blocks))
            while len(self._made) > METHODS_AT_HAND:
                self._made.popitem(last=False)
        return self._made[id(method)][1]


class _ByBlock:
    """What of a method belongs to each of its blocks, by the block's number."""

    def __init__(self, method: Method, blocks: Sequence[BlockPlace]) -> None:
        self.problems = by_block(method.problems, blocks, method.path)
        self.calculations = _sorted(method.calculations)
        self.setups = _sorted(method.setups)
        self.operations = _sorted(method.operations)
        self.quotes = {one.expression.strip(): one for one in reversed(method.quotes)}  # the first of equal ones


class _InABlock(Protocol):
    @property
    def block(self) -> int: ...


Paces: TypeAlias = tuple[Pace, ...]
One = TypeVar("One", bound=_InABlock)


def _sorted(all_: Iterable[One]) -> dict[int, list[One]]:
    found: dict[int, list[One]] = {}
    for one in all_:
        found.setdefault(one.block, []).append(one)
    return found


def block_tree(
    entry: Entry, block: BlockPlace, found: Sorted, places: Places, paces: Callable[[str], Paces] = lambda key: ()
) -> d.Blocks:
    """Return what stands in place of one block, its problems first.

    Parameters:
        entry: the method.
        block: the block.
        found: what belongs to each block of the file.
        places: seen from the page.
        paces: how long work really takes in a workshop, as its records say.
    """
    return for_all(entry, lambda method: _for_one(method, block, found.of(method), places, paces(method.workshop)))


def _for_one(method: Method, block: BlockPlace, found: _ByBlock, places: Places, paces: Paces) -> d.Blocks:
    boxes = problem_boxes(found.problems.get(block.index, ()))
    made: d.Blocks
    if block.kind == "calc":
        lines = found.calculations.get(block.index, [])
        made = (*calculation_blocks(lines), *_drawn(method, [line.name for line in lines], places))
    elif block.kind == "setup":
        setups = found.setups.get(block.index, ())
        made = tuple(piece for setup in setups for piece in setup_blocks(method, setup, places))
    elif block.kind == "op":
        operations = found.operations.get(block.index, ())
        made = tuple(piece for operation in operations for piece in operation_blocks(method, operation, places, paces))
    else:
        made = part_blocks(method, block)
    return (*boxes, *(made or as_written(block)))


def _drawn(method: Method, names: Sequence[str], places: Places) -> d.Blocks:
    """The pictures of fits and press fits of a calc block, behind one line that opens."""
    content = tuple(figure(drawing, places) for drawing in drawn_for(method, names))
    return (d.Disclosure(d.words("Show it drawn"), content, kind="drawn"),) if content else ()


def drawn_for(method: Method, names: Iterable[str]) -> list[Drawing]:
    """The pictures of calculations, by their names; they stand with their calc block and nowhere else."""
    schemes = {f"calc-{name}" for name in names}
    return [drawing for drawing in method.drawings if drawing.scheme in schemes]


def as_written(block: BlockPlace) -> d.Blocks:
    """The block as the author typed it, where nothing could be made of it."""
    lines = tuple((d.Code(line.strip()),) for line in block.body if line.strip())
    return (d.Group("card as-written", (d.Listing(lines, kind="source"),)),) if lines else ()


def part_blocks(method: Method, block: BlockPlace) -> d.Blocks:
    """The intended part, in the author's words, and whether the method makes it."""
    lines = tuple((d.Code(line.strip()),) for line in block.body if line.strip())
    title = d.Paragraph((d.Strong(d.words("The intended part")),), kind="card-title")
    checks = [check for check in method.checks if "intended" in check.key or "part" in check.key]
    said = tuple(
        d.Paragraph(d.words(wording.sentence(check.words)), kind=f"verdict-{check.state.replace(' ', '-')}")
        for check in checks
    )
    return (d.Group("card part", (title, d.Listing(lines, kind="source"), *said)),)


def loose_problems(entry: Entry, blocks: Sequence[BlockPlace]) -> d.Blocks:
    """Boxes for the problems that belong to no block, e.g. those of the front matter."""

    def build(method: Method) -> d.Blocks:
        loose: list[Problem] = by_block(method.problems, blocks, method.path).get(None, [])
        return problem_boxes(loose)

    return (*for_all(entry, build), *problems_beside(entry))


def problems_beside(entry: Entry) -> d.Blocks:
    """What is wrong with what lies beside the method file: its records, the numbers that its author approved."""
    known = set(entry.own.problems)
    beside = [problem for problem in entry.problems if problem not in known]
    changed = [problem for problem in beside if problem.code.startswith("changed-")]
    others = problem_boxes(problem for problem in beside if problem not in changed)
    return (*others, *((changed_box(changed),) if changed else ()))


def quote(entry: Entry, expression: str, found: Sorted) -> d.Inline | None:
    """What a `{{ expression }}` of the prose stands for, for every workshop; None if the method does not know it."""
    values: dict[str, d.Inline] = {}
    for key, method in entry.by_workshop.items():
        one = found.of(method).quotes.get(expression.strip())
        if one is not None:
            values[key] = (*d.value(one.value), *wording.recalled_mark(one.recalled))
    return merge_words(values, entry.own_workshop) or None
