"""What stands in the page in place of an `op` block? What to set, what to read, what to measure, what can hurt."""

from __future__ import annotations

from collections.abc import Iterable

from methodsheets.handbook.model import Pace
from methodsheets.sheet.model import Caution, Fact, Limit, Method, Operation, Pass, Table
from methodsheets.sheet.spread import CUTTING_TIME, HANDLING_TIME

from . import document as d
from . import wording
from .choices import choices_disclosure
from .pace import operation_pace
from .places import Places
from .setup import drawings_of, figure
from .working import fact_working

LEADING = ("spindle_speed", "feed", "feed_rate", "depth", "depth_of_cut", "passes")
"""Facts that are read at the machine, in the order in which they are set."""


def operation_blocks(method: Method, operation: Operation, places: Places, paces: tuple[Pace, ...] = ()) -> d.Blocks:
    """Return the card of an operation for one workshop; its time is corrected by the paces of that workshop."""
    leading, others = split_facts(operation)
    body: list[d.Block] = [_head(operation)]
    if leading:
        body.append(d.Pairs(tuple(wording.fact_pair(fact, split=True) for fact in leading), kind="lead"))
    body += wording.failed_boxes(operation.checks)
    body += [figure(drawing, places) for drawing in drawings_of(method, operation.figures)]
    body += wording.caution_box(*cautions_at(method, operation))
    body += pass_tables(operation.passes)
    body += limit_tables(operation.limits)
    body += [small_table(table) for table in operation.tables]
    if operation.notes:
        body.append(d.Listing(tuple(d.words(note) for note in operation.notes), kind="notes"))
    body.append(d.Pairs((*(wording.fact_pair(fact) for fact in others), *_after(operation, paces)), kind="facts"))
    body += wording.recalled_note((operation,))
    body += fact_working(operation.facts, f"operation {operation.number}")
    body += choices_disclosure(operation)
    body += wording.checks_disclosure(operation.checks, f"operation {operation.number}")
    return (d.Group("card op", tuple(body), id=operation.id, attributes=(("data-ms-op", str(operation.number)),)),)


def cautions_at(method: Method, operation: Operation) -> tuple[tuple[Caution, ...], tuple[tuple[Caution, str], ...]]:
    """The cautions to print in full at an operation, and those printed further up in its set-up, with where."""
    setup = next((one for one in method.setups if operation in one.operations), None)
    said: dict[str, str] = {caution.words: "the set-up" for caution in setup.cautions} if setup else {}
    for before in setup.operations if setup else ():
        if before is operation:
            break
        for caution in before.cautions:
            said.setdefault(caution.words, f"operation {before.number}")
    fresh = tuple(caution for caution in operation.cautions if caution.words not in said)
    again = tuple((caution, said[caution.words]) for caution in operation.cautions if caution.words in said)
    return fresh, again


def split_facts(operation: Operation) -> tuple[list[Fact], list[Fact]]:
    """The facts that are set at the machine, in their order, and all others."""
    leading = [fact for key in LEADING for fact in operation.facts if fact.key == key]
    return leading, [fact for fact in operation.facts if fact.key not in (*LEADING, "tool")]


def _head(operation: Operation) -> d.Group:
    lines: list[d.Block] = [d.Paragraph(d.words(str(operation.number)), kind="balloon op-number")]
    lines.append(d.Paragraph((d.Strong(d.words(operation.words)),), kind="op-words"))
    if operation.tool:
        lines.append(d.Paragraph(d.words(wording.sentence(operation.tool)), kind="op-tool"))
    return d.Group("op-head", tuple(lines))


def _after(operation: Operation, paces: tuple[Pace, ...]) -> list[d.Pair]:
    """What the operation takes, at both ends of the estimate and by the records of the workshop, and what it leaves."""
    found = []
    for label, minutes, spread in (
        ("Cutting", operation.cutting_minutes, CUTTING_TIME),
        ("Handling", operation.handling_minutes, HANDLING_TIME),
    ):
        if minutes:
            time = wording.time_between(minutes, spread.of(minutes))
            found.append(d.Pair(d.words(label), time, key=label.lower()))
    found += operation_pace(operation, paces)
    if operation.removed_cm3:
        found.append(d.Pair(d.words("Metal removed"), d.value(wording.volume(operation.removed_cm3)), key="removed"))
    if operation.mass_after is not None:
        found.append(
            d.Pair(
                d.words("Weighs after"),
                (*d.value(operation.mass_after), *wording.recalled_mark(operation.mass_rests)),
                key="mass_after",
            )
        )
    return found


def pass_tables(passes: tuple[Pass, ...]) -> list[d.Block]:
    """The passes with what the dial reads; nothing for a cut without passes."""
    if not passes:
        return []
    names = ("Reaches", "Depth", dial_of(passes), *(("Change to",) if any(map(pass_change, passes)) else ()))
    columns = (d.Column("Pass"), *(d.Column(name, number=name != "Change to") for name in names))
    rows = []
    for one in passes:
        cells = [d.words(one.number), _or_dash(one.size), _or_dash(one.depth), d.words(one.dial or "–")]
        rows.append(d.Row((*cells, pass_change(one))[: len(columns)]))
    return [d.Table("Passes and what the dial reads", columns, tuple(rows), kind="passes")]


def dial_of(passes: tuple[Pass, ...]) -> str:
    """What stands over the readings: which dial it is, where all passes read one."""
    slides = {one.slide for one in passes}
    (slide,) = slides if len(slides) == 1 else ("",)
    return f"Dial, {slide}" if slide else "Dial reads"


def pass_change(one: Pass) -> d.Inline:
    """What is set anew before a pass: '220 1/min', 'feed 0.05 mm'; empty where all stays as it is."""
    feed: d.Inline = (d.Text("feed "), *d.value(one.feed)) if one.feed else ()
    if one.speed and feed:
        return (d.Text(f"{one.speed}, "), *feed)
    return d.words(one.speed) if one.speed else feed


def limit_tables(limits: tuple[Limit, ...]) -> list[d.Block]:
    """Sizes to measure with what they may be."""
    if not limits:
        return []
    columns = (
        d.Column("Measure"),
        d.Column("Nominal", number=True),
        d.Column("Not over", number=True),
        d.Column("Not under", number=True),
        d.Column("Aim at", number=True),
        d.Column("With"),
    )
    rows = []
    for limit in limits:
        fit = limit_fit(limit)
        name = limit_name(limit) + (f" ({fit})" if fit else "")
        rows.append(
            d.Row(
                (
                    d.words(name),
                    d.value(limit.nominal),
                    d.value(limit.upper) if limit.has_limits else d.words("–"),
                    d.value(limit.lower) if limit.has_limits else d.words("–"),
                    _or_dash(limit.aim),
                    d.words(limit.gauge or "–"),
                )
            )
        )
    made: list[d.Block] = [d.Table("What to measure", columns, tuple(rows), kind="limits")]
    made += [_make_to(limit) for limit in limits if limit.make_to]
    return made


def limit_name(limit: Limit) -> str:
    """What a size is called: the author's word for it, or just 'Size' where that is only a number or a formula."""
    return wording.sentence(limit.name) if limit.is_called else "Size"


def limit_fit(limit: Limit) -> str:
    """The tolerance class of a size, where its name does not say it already."""
    return "" if limit.fit in limit_name(limit).split() else limit.fit


def _make_to(limit: Limit) -> d.Paragraph:
    lead = (d.Strong(d.words("Better, make it to what you measured: ")),)
    return d.Paragraph((*lead, *d.words(limit.make_to)), kind="make-to")


def small_table(table: Table) -> d.Table:
    """A table of the operation as it stands, e.g. the readings of a rotary table."""
    numbers = [
        all(not isinstance(row[index], str) for row in table.rows if index < len(row))
        for index in range(len(table.columns))
    ]
    columns = tuple(d.Column(name, number=index > 0 and numbers[index]) for index, name in enumerate(table.columns))
    rows = tuple(d.Row(tuple(d.value(cell) for cell in row)) for row in table.rows)
    return d.Table(table.title, columns, rows, kind="coordinates", searched=False)


def pieces(operations: Iterable[Operation]) -> float:
    """Minutes of cutting and handling of some operations together."""
    return sum(one.cutting_minutes + one.handling_minutes for one in operations)


def _or_dash(value: object) -> d.Inline:
    return d.words("–") if value is None else d.value(value)  # type: ignore[arg-type]
