"""Which way is it to be? One screen: by batch size, three reasons in numbers, what it takes, what can go wrong."""

from __future__ import annotations

from collections.abc import Sequence

from methodsheets.formula.measure import Measure
from methodsheets.handbook.comparison import SUPPORT, TRUENESS
from methodsheets.handbook.costing import COST, IN_ALL
from methodsheets.handbook.lines import NOTHING
from methodsheets.handbook.model import Cell, Comparison, ComparisonRow, Handbook
from methodsheets.sheet.model import Method

from . import document as d
from . import wording
from .trouble_box import verdict

REASONS = 3
"""How many reasons in numbers are given: more is no answer."""
FROM_TIME = ("Time", "Work", COST, IN_ALL, SUPPORT, "Proof", "Cautions", "Records", "Status")
"""Groups that are told elsewhere in the answer, or that count things and weigh nothing."""

TOLD_ALWAYS = (IN_ALL, SUPPORT)
"""Groups of which every line stands in the answer: what it costs, and what is had for it."""


def answer_blocks(handbook: Handbook, comparison: Comparison) -> d.Blocks:
    """The sentence that settles it, and under it one small table."""
    said = [d.Paragraph(d.words(one.words), kind="answer") for one in comparison.break_even]
    methods = [
        handbook.entries[slug].by_workshop.get(comparison.workshop) if slug in handbook.entries else None
        for slug in comparison.methods
    ]
    names = short_titles(comparison.titles)
    columns = (d.Column("What"), *(d.Column(name) for name in names))
    rows = [
        *_times(comparison),
        *(_reason(row) for row in comparison.rows if row.group in TOLD_ALWAYS),
        *(_reason(row) for row in reasons(comparison)),
        _shop(methods),
        _must_own(comparison),
        _can_go_wrong(comparison),
    ]
    title = "The answer at a glance"
    table = d.Table(title, columns, tuple(rows), kind="compare answer", caption_shown=False)
    return (d.Group("card answer", (*said, table)),)


def short_titles(titles: Sequence[str]) -> list[str]:
    """Titles without the words that they all begin with: 'one piece', 'two pieces'."""
    split = [title.split() for title in titles]
    same = 0
    while all(len(words) > same + 1 for words in split) and len({words[same].lower() for words in split}) == 1:
        same += 1
    if same == 0 or len(titles) < 2:
        return list(titles)
    return [wording.sentence(" ".join(words[same:])) for words in split]


def _times(comparison: Comparison) -> list[d.Row]:
    """What a batch takes, the quicker way in bold; where the records correct it, the line says so: the page of a method
    tells the estimate.
    """
    out = []
    corrected = any(row.note for row in comparison.rows if row.group == "Time")
    for parts in dict.fromkeys((1, comparison.batch)):
        minutes = [line.minutes(parts) for line in comparison.time_lines]
        label = "Time for one" if parts == 1 else f"Time for {parts}"
        known = next(
            (row for row in comparison.rows if row.group == "Time" and row.label.startswith(f"{label} part")), None
        )
        cells = [_bold(d.value(wording.minutes(m)), i, known.better if known else None) for i, m in enumerate(minutes)]
        said = f"{label}, as timed here" if corrected else label
        out.append(d.Row((d.words(said), *cells)))
    return out


def _bold(content: d.Inline, index: int, better: int | None) -> d.Inline:
    return (d.Strong(content), d.Span("better", d.words(" better"))) if index == better else content


def reasons(comparison: Comparison) -> list[ComparisonRow]:
    """The lines in which the ways differ most, by the ratio of their values; one of each group."""
    telling = [
        row
        for row in comparison.rows
        if row.better is not None and row.group not in FROM_TIME and NOTHING not in row.values
    ]
    best: dict[str, ComparisonRow] = {}
    for row in sorted(telling, key=_weight, reverse=True):
        best.setdefault(row.group, row)
    return list(best.values())[:REASONS]


def _weight(row: ComparisonRow) -> tuple[float, str]:
    """How far the values lie apart, 0 for equal and 1 where one is nothing beside the other."""
    values = [abs(cell.value) for cell in row.values if isinstance(cell, Measure)]
    if len(values) < 2 or max(values) == 0:
        return 0.0, row.label
    return (max(values) - min(values)) / max(values), row.label


def _reason(row: ComparisonRow) -> d.Row:
    label = row.label if row.group != TRUENESS else f"Run-out, {row.label}"
    cells = [_bold(cell_words(row, value), index, row.better) for index, value in enumerate(row.values)]
    return d.Row((d.words(wording.sentence(label)), *cells))


def cell_words(row: ComparisonRow, value: Cell) -> d.Inline:
    """A value of a comparison; no lathe runs true to nothing, so a run-out of 0 says where it comes from."""
    if row.group == TRUENESS and isinstance(value, Measure) and value.value == 0:
        return d.words("cut in one holding")
    return d.value(value)


def _shop(methods: Sequence[Method | None]) -> d.Row:
    name = next((method.workshop_name for method in methods if method), "this workshop")
    return d.Row((d.words(f"In {name}"), *(d.words(verdict(method) if method else "–") for method in methods)))


def _must_own(comparison: Comparison) -> d.Row:
    """What only one of them needs."""
    return _only(comparison, "Must own, only for this", ("machines", "ways of holding", "tools"))


def _can_go_wrong(comparison: Comparison) -> d.Row:
    return _only(comparison, "Take care of, only here", ("cautions",))


def _only(comparison: Comparison, label: str, sorts: tuple[str, ...]) -> d.Row:
    said = str.lower if "cautions" in sorts else str
    cells: list[d.Inline] = [d.words(label)]
    for index in range(len(comparison.methods)):
        names = [name for need in comparison.needs if need.sort in sorts for name in need.only[index]]
        cells.append(d.words(wording.sentence(wording.listed(said(name) for name in names)) or "–"))
    return d.Row(tuple(cells))
