"""How did a number come about? The formula, the numbers put in, the result, the source and how far to believe it."""

from __future__ import annotations

from collections.abc import Iterable

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Calculation, Fact, Working
from methodsheets.sheet.words import RECALLED

from . import document as d
from . import wording
from .field_words import field_words, with_names


def calculation_blocks(calculations: Iterable[Calculation]) -> d.Blocks:
    """What stands in the page in place of a `calc` block: a table of results that opens to its working."""
    lines = tuple(calculations)
    if not lines:
        return ()
    body: list[d.Block] = []
    rows: list[d.Row] = []
    for line in lines:
        if line.fields:
            body += [*_table(rows), *_result(line)]
            rows = []
        else:
            value = (*d.value(line.value), *wording.recalled_mark(line.working.recalled))
            rows.append(d.Row(((d.Code(line.name),), value, d.words(line.label))))
    body += _table(rows)
    body += [d.Paragraph((d.Strong(d.words("Heed. ")), d.Text(words)), kind="heed") for words in _heeds(lines)]
    workings = tuple(line.working for line in lines if _has_working(line.working))
    title = f"The working of {wording.listed(line.name for line in lines if _has_working(line.working))}"
    return (d.Group("card calc", (*body, *working_disclosure(workings, title))),)


def _heeds(lines: Iterable[Calculation]) -> tuple[str, ...]:
    """Where numbers leave the ground their calculation was made for, each by the name of its line."""
    return tuple(f"{line.name}: {words}" for line in lines for words in heeds_of(line.working))


def heeds_of(working: Working) -> tuple[str, ...]:
    """What there is to heed about a number and the steps it came by."""
    return tuple(dict.fromkeys([*working.heed, *(words for step in working.steps for words in heeds_of(step))]))


def _table(rows: list[d.Row]) -> d.Blocks:
    if not rows:
        return ()
    columns = (d.Column("Name"), d.Column("Value", number=True), d.Column("What it is"))
    return (d.Table("What is worked out here", columns, tuple(rows), kind="calc", caption_shown=False),)


def _result(line: Calculation) -> d.Blocks:
    """A result with several fields, each under the name by which the author may call it."""
    title: d.Inline = ((d.Code(line.name)), d.Text(f" {line.label}" if line.label else ""))
    title = (*title, *wording.recalled_mark(line.working.recalled))
    if line.value:
        title = (*title, d.Text(": "), *d.value(line.value))
    cells = tuple(_field(name, value) for name, value in line.fields)
    return (d.Paragraph(title, kind="result-name"), d.Pairs(cells, kind="result"))


def _field(name: str, value: Measure | str) -> d.Pair:
    """A field in the words of the workshop, and the name by which a formula calls it in small."""
    label = (d.Text(wording.sentence(field_words(name)) + " "), d.Small((d.Code(name),)))
    content = with_names(value) if isinstance(value, str) else d.value(value)
    return d.Pair(label, content, "wide" if isinstance(value, str) and len(value) > 24 else "", name)


def fact_working(facts: Iterable[Fact], of: str) -> d.Blocks:
    """The working behind the facts of an operation (`of`), one disclosure for all of them."""
    workings = tuple(working for fact in facts for working in fact.working if _has_working(working))
    return working_disclosure(workings, f"The working of {of}")


def working_disclosure(workings: tuple[Working, ...], title: str) -> tuple[d.Disclosure, ...]:
    """Workings behind one line that opens, each distinct one once; nothing if there are none."""
    if not workings:
        return ()
    content = tuple(block for working in workings for block in working_blocks(working))
    return (d.Disclosure(d.words("Show the working"), tuple(dict.fromkeys(content)), kind="working", later=title),)


def working_blocks(working: Working, depth: int = 0) -> d.Blocks:
    """One working with the steps beneath it."""
    content: list[d.Block] = []
    title = working.label or working.name
    if title:
        content.append(d.Paragraph((d.Strong(d.words(title)),), kind="working-name"))
    shown = [piece for piece in (working.formula, working.numbers, working.result) if piece]
    if shown:
        content += [d.Paragraph((d.Markup(piece),), kind="formula") for piece in shown]
    elif working.plain:
        content.append(d.Paragraph((d.Code(working.plain),), kind="formula"))
    content += [d.Paragraph((d.Small(d.words(words)),), kind="basis") for words in _basis(working)]
    for step in working.steps:
        content += working_blocks(step, depth + 1)
    return (d.Group("working-step" if depth else "working-line", tuple(content), undivided=True),)


def _basis(working: Working) -> list[str]:
    found = []
    if working.source:
        found.append(f"Source: {working.source}")
    if working.trust:
        found.append(f"How far to believe it: {working.trust}")
    if working.validity:
        found.append(f"Holds where: {working.validity}")
    found += [f"Heed: {words}" for words in working.heed]
    for row in working.rows:
        mark = f" {RECALLED}" if row.trust == "from memory" else ""
        found.append(f"Rests on {row.table}, row {row.row} ({row.trust}{mark}): {row.source}")
    return found


def _has_working(working: Working) -> bool:
    return bool(working.formula or working.plain or working.steps)
