"""What does a reader find who wants to take a cut otherwise than planned: lighter, slower, finer, held shorter?"""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby

from methodsheets.formula.measure import Measure
from methodsheets.operations import say
from methodsheets.operations.sureness import between
from methodsheets.sheet.model import Choice, Operation
from methodsheets.sheet.spread import BENDING, CUTTING_TIME, FORCE, Spread

from . import document as d
from . import wording

LEAD = (
    "The plan is in bold; every other line changes one thing of it. "
    f"Force and power are known to ±{100 * (FORCE.high - 1):.0f} %, and bending, to which the share of the force that "
    f"pushes comes in, to ±{100 * (BENDING.high - 1):.0f} %."
)
NAMES = {"depth": "Depth of cut", "speed": "Spindle speed", "feed": "Feed", "stick-out": "Stick-out"}

_COLUMNS: tuple[tuple[str, Callable[[Choice], Measure | None], Spread | None], ...] = (
    ("Cutting", lambda choice: wording.minutes(choice.minutes) if choice.minutes else None, CUTTING_TIME),
    ("Motor", lambda choice: choice.power, FORCE),
    ("Bends", lambda choice: choice.bends, BENDING),
    ("Finish", lambda choice: choice.finish, None),
    ("Force", lambda choice: choice.force, FORCE),
)
"""What follows from a choice, and between which ends it is known; the finish is that of the edge's form alone."""


def choices_disclosure(operation: Operation) -> tuple[d.Disclosure, ...]:
    """The neighbours of the planned cut, behind one line that opens; nothing where none are known."""
    groups = [tuple(found) for _, found in groupby(operation.choices, key=lambda choice: choice.changes)]
    if not groups:
        return ()
    title = f"Operation {operation.number}, taken otherwise"
    content: list[d.Block] = [d.Paragraph(d.words(LEAD), kind="basis")]
    for group in groups:
        content += _neighbours(group)
    return (d.Disclosure(d.words("Take it otherwise"), tuple(content), kind="working", later=title),)


def _neighbours(found: tuple[Choice, ...]) -> d.Blocks:
    """One thing changed: only those columns in which something follows from it, and below what speaks against it."""
    possible = [choice for choice in found if choice.force or choice.power]
    columns = [one for one in _COLUMNS if len({one[1](choice) for choice in possible}) > 1]
    passes = len({choice.passes for choice in possible}) > 1
    name = NAMES[found[0].changes]
    heads = [d.Column(name), *[d.Column("Passes", number=True)] * passes]
    heads += [d.Column(title, number=True) for title, *_ in columns]
    rows = []
    for choice in possible:
        what = d.value(choice.value)
        first = ((d.Strong(what),) if choice.planned else what) + wording.recalled_mark(choice.recalled)
        cells = [first, *[d.words(str(choice.passes or "–"))] * passes]
        rows.append(d.Row((*cells, *(_with_ends(of(choice), spread) for _, of, spread in columns)), head=False))
    table = d.Table(f"{name}, taken otherwise", tuple(heads), tuple(rows), caption_shown=False, searched=False)
    heeds = [(*d.value(choice.value), d.Text(": "), *d.words(choice.heed)) for choice in found if choice.heed.metric]
    return (table, *[d.Listing(tuple(heeds), kind="notes")] * bool(heeds))


def _with_ends(value: Measure | None, spread: Spread | None) -> d.Inline:
    if value is None:
        return d.words("–")
    if spread is None:
        return d.value(value)
    ends = say.words(between(spread, value.value, value.kind))
    return (*d.value(value), d.Text(" ("), *d.words(ends), d.Text(")"))
