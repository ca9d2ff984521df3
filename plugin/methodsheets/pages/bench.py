"""What lies beside the machine? The bench sheet: spindle speeds, dial readings, limits, ticks, blanks to fill."""

from __future__ import annotations

from methodsheets.formula.measure import Measure
from methodsheets.operations.cautions import DEFER
from methodsheets.sheet.model import Caution, Fact, Limit, Method, Operation, Pass, Setup
from methodsheets.sheet.words import Words

from . import document as d
from . import wording
from .mates import Size, content_digest, goes_with, mate_of, sizes_of
from .operation import cautions_at, dial_of, limit_fit, limit_name, pass_change, small_table, split_facts
from .places import Places
from .setup import drawings_of, figure
from .trouble_box import trouble_box

MOST_BLANKS = 40
"""Blanks for at most so many parts; a larger batch takes a second sheet."""

BIG = ("spindle_speed",)
_WRITTEN: d.Attributes = (("inputmode", "text"),)
FEW_PASSES = 3
"""So many passes stand in one table."""
MANY_PASSES = 10
"""An operation of more passes takes the whole width of the paper: a column would be too long for them."""
SIZES = (("auto", "as the printer is set"), ("a4", "A4"), ("letter", "Letter"), ("a5", "A5 card"))


def bench_blocks(method: Method, places: Places) -> d.Blocks:
    """Return the bench sheet of a method for one workshop."""
    parts = min(max(1, method.makes), MOST_BLANKS)
    body: list[d.Block] = [_sheet_head(method, places)]
    body += trouble_box(method, linked=False)  # before anything else, in a workshop where it cannot be done
    body += [_setup_part(method, setup, places, parts) for setup in method.setups]
    body.append(_remarks())
    body.append(_sheet_foot(method))
    return tuple(body)


def bench_controls(method: Method) -> d.Group:
    """What can be done with the sheet on a screen; not printed, and hidden without scripts."""
    setups = (("all", "all set-ups"), *((str(one.number), f"set-up {one.number}") for one in method.setups))
    first: d.Inline = (
        d.Button("bench", "At the machine", "One step over the whole screen; next and back by thumb, swipe or pedal"),
        d.Button("print", "Print"),
        d.Select("paper", "Paper", SIZES),
        d.Select("only-setup", "Show", setups),
        d.Field("parts", "Parts", str(min(max(1, method.makes), MOST_BLANKS))),
    )
    second: d.Inline = (
        d.Button(
            "large", "Large type", "Larger letters for a tablet beside the machine; keeps the screen awake where it can"
        ),
        d.Button("save", "Save what was measured", "A CSV file to put beside the method, in its records folder"),
        d.Button("clear", "Start afresh", "Clears the ticks and the blanks of this sheet on this device"),
    )
    older = d.Group(
        "older script",
        (
            d.Paragraph((d.Span("older-words", ()),)),
            d.Paragraph(
                (
                    d.Button("take-older", "Take over what was written"),
                    d.Button("leave-older", "Begin afresh"),
                ),
                kind="tools",
            ),
        ),
        attributes=(("hidden", "hidden"), ("role", "status")),
    )
    note = d.Paragraph((d.Span("said", (), (("role", "status"), ("aria-live", "polite"))),), kind="notice")
    content = (d.Paragraph(first, kind="tools"), d.Paragraph(second, kind="tools"), older, note)
    return d.Group("bench-controls", content, attributes=(("data-search-exclude", ""),))


def sheet_attributes(method: Method) -> d.Attributes:
    """What the script must know about the sheet."""
    return (
        ("data-ms-sheet", method.slug),
        ("data-ms-content", content_digest(method)),
        ("data-ms-revision", method.revision),
        ("data-ms-workshop-key", method.workshop),
        ("data-ms-parts", str(min(max(1, method.makes), MOST_BLANKS))),
    )


def footer_words(method: Method) -> str:
    """What identifies a sheet found on the bench."""
    parts = [method.title]
    if method.revision:
        parts.append(f"revision {method.revision}")
    if method.date:
        parts.append(method.date)
    return " · ".join(parts)


def _sheet_head(method: Method, places: Places) -> d.Group:
    back = places.method(method.slug)
    title = d.Heading(1, d.words(method.title), "sheet", "sheet-title")
    cells = [
        d.Pair(d.words("Material"), d.words(method.material or "–"), key="material"),
        d.Pair(d.words("Stock"), d.words(method.stock or "–"), key="stock"),
        d.Pair(d.words("Makes"), (d.Span("parts-count", d.words(str(method.makes))),), key="makes"),
        d.Pair(d.words("Time, one"), _time(method), key="one"),
        d.Pair(d.words("Workshop"), d.words(method.workshop_name), key="workshop"),
        d.Pair(
            d.words("Revision"), d.words(" ".join(filter(None, (method.revision, method.date))) or "–"), key="revision"
        ),
        d.Pair(
            d.words("Batch"),
            (d.Blank("batch", "", "words", (*_WRITTEN, ("aria-label", "Name of the batch"))),),
            "write",
            "batch",
        ),
        d.Pair(
            d.words("Made by"),
            (d.Blank("made-by", "", "words", (*_WRITTEN, ("aria-label", "Made by"))),),
            "write",
            "made-by",
        ),
    ]
    block: list[d.Block] = [title, d.Pairs(tuple(cells), kind="title-block"), wording.inch_note()]
    if method.status != "proven" or not method.own_workshop:
        block.append(d.Paragraph((d.Strong(d.words(f"{wording.status(method)}.")),), kind="status-note"))
    if back:
        block.append(d.Paragraph((d.Link(back, d.words("Back to the method with its working")),), kind="back"))
    return d.Group("sheet-head", tuple(block), tag="header", id="sheet-head")


def _time(method: Method) -> d.Inline:
    return d.value(wording.minutes(method.totals.one_minutes)) if method.totals else d.words("–")


def _setup_part(method: Method, setup: Setup, places: Places, parts: int) -> d.Group:
    head = d.Heading(
        2,
        (d.Span("setup-mark", d.words(f"Set-up {setup.number}")), d.Text(f" {wording.sentence(setup.machine_name)}")),
        f"sheet-{setup.id}",
        "sheet-setup",
    )
    words = d.Paragraph((d.Strong(d.words(wording.sentence(setup.words))),), kind="sheet-words")
    facts = d.Pairs(tuple(_short(fact) for fact in setup.facts if not fact.desk), kind="sheet-facts")
    said: list[d.Block] = [*_cautions(setup.cautions)]
    if setup.notes:
        said.append(d.Listing(tuple(d.words(note) for note in setup.notes), kind="notes"))
    shown = setup.figures or tuple(key for operation in setup.operations for key in operation.figures)
    pictures = tuple(figure(one, places, "sheet", linked=False) for one in drawings_of(method, shown)[:1])
    held = d.Group("sheet-hold", (*pictures, d.Group("sheet-hold-words", (words, facts, *said))))
    intro = d.Group("sheet-intro", (head, held))
    cards = tuple(_operation_part(method, operation, parts) for operation in setup.operations)
    return d.Group(
        "sheet-part",
        (intro, *cards),
        "section",
        f"part-{setup.number}",
        attributes=(("data-ms-setup", str(setup.number)),),
    )


def _operation_part(method: Method, operation: Operation, parts: int) -> d.Group:
    key = f"{operation.number}"
    leading, others = split_facts(operation)
    words = d.Group("sheet-op-words", (_operation_head(operation), *_tool(operation), _own_notes(operation)))
    body: list[d.Block] = [d.Group("sheet-op-main", (words, *_settings(leading)))]
    body += _passes(operation)
    body += _told(others)
    body += [small_table(table) for table in operation.tables]
    body += _cautions(*cautions_at(method, operation))
    if operation.notes:
        body.append(d.Listing(tuple(d.words(note) for note in operation.notes), kind="notes"))
    body += [_limit_part(method, size, parts) for size in sizes_of(operation)]
    attributes = (("data-ms-op", key), ("data-ms-op-id", operation.id))
    kind = "sheet-op wide" if len(operation.passes) > MANY_PASSES else "sheet-op"
    return d.Group(kind, tuple(body), id=f"sheet-{operation.id}", attributes=attributes)


def _operation_head(operation: Operation) -> d.Paragraph:
    """The tick, the number, what is done; and what the author calls it, where that says something else."""
    called: d.Inline = ()
    if operation.title and operation.title != operation.words:
        called = (d.Span("sheet-called", d.words(operation.title)),)
    return d.Paragraph(
        (
            d.Tick(f"done-{operation.number}", f"Operation {operation.number} done"),
            d.Span("balloon", d.words(str(operation.number))),
            d.Span("sheet-what", (d.Strong(d.words(operation.words)), *called)),
        ),
        kind="sheet-op-head",
    )


def _tool(operation: Operation) -> d.Blocks:
    return (d.Paragraph(d.words(wording.sentence(operation.tool)), kind="sheet-tool"),) if operation.tool else ()


def _settings(leading: list[Fact]) -> d.Blocks:
    """What is set at the machine: the spindle speed first and largest."""
    cells = [
        d.Pair(
            d.words(fact.label),
            (*large(fact.value), *wording.recalled_mark(fact.recalled)),
            "big" if fact.key in BIG else "large",
            fact.key,
        )
        for fact in leading
    ]
    return (d.Pairs(tuple(cells), kind="sheet-settings"),) if cells else ()


def _told(others: list[Fact]) -> d.Blocks:
    """All else that is set or read by hand: change wheels, wires, slide angle, withdrawals …"""
    cells = tuple(_short(fact) for fact in others if not fact.desk)
    return (d.Pairs(cells, kind="sheet-facts"),) if cells else ()


def large(given: Measure | Words) -> d.Inline:
    """A value to be read at arm's length: the number apart from its unit."""
    return (d.Quantity(given, split=True),) if isinstance(given, Measure) else d.words(given)


def _short(fact: Fact) -> d.Pair:
    note: d.Inline = (d.Small((d.Text(" "), *d.words(fact.note))),) if fact.note else ()
    content = (*d.value(fact.value), *wording.recalled_mark(fact.recalled), *note)
    return d.Pair(d.words(fact.label), content, key=fact.key)


def _passes(operation: Operation) -> d.Blocks:
    """The passes; many of them in two tables, which stand side by side where there is room."""
    passes = operation.passes
    if not passes:
        return ()
    if len(passes) <= FEW_PASSES:
        return (d.Group("sheet-passes-all", (_pass_table(operation, passes, ""),)),)
    half = (len(passes) + 1) // 2
    tables = (
        _pass_table(operation, passes[:half], ", first half"),
        _pass_table(operation, passes[half:], ", second half"),
    )
    return (d.Group("sheet-passes-all", tables),)


def _pass_table(operation: Operation, passes: tuple[Pass, ...], which: str) -> d.Table:
    columns = (
        d.Column("Pass"),
        d.Column("Reaches", number=True),
        d.Column(dial_of(passes), number=True),
        d.Column("Done"),
    )
    rows = []
    for one in passes:
        tick = d.Tick(f"pass-{operation.number}-{one.number}", f"Pass {one.number} done")
        size: d.Inline = d.value(one.size) if one.size is not None else d.words("–")
        dial: d.Inline = (d.Strong(d.words(one.dial or "–")),)
        change = pass_change(one)
        name = (*d.words(one.number), *((d.Span("pass-change", change),) if change else ()))
        rows.append(d.Row((name, size, dial, (tick,))))
    caption = f"Passes of operation {operation.number}{which}"
    kind = "sheet-passes more" if passes[0] is not operation.passes[0] else "sheet-passes"
    return d.Table(caption, columns, tuple(rows), kind=kind, caption_shown=False)


def _limit_part(method: Method, size: Size, parts: int) -> d.Group:
    """A size with its limits, and a blank for every part."""
    limit, mate = size.limit, mate_of(method, size)
    named: d.Inline = (d.Quantity(limit.nominal),) if limit.nominal.metric else ()
    sizes = (
        d.Strong((*d.words(f"{limit_name(limit)} "), *named)),
        *((d.Text(f" {fit}"),) if (fit := limit_fit(limit)) else ()),
        *(_between(limit, mate) if limit.has_limits else ()),
        *((d.Span("gauge", d.words(limit.gauge)),) if limit.gauge else ()),
    )
    attributes: tuple[tuple[str, str], ...] = (
        ("data-ms-limit", limit.name),
        ("data-ms-size", size.key),
        ("data-ms-op-number", str(size.operation.number)),
    )
    if limit.has_limits:
        attributes += (("data-ms-low", f"{limit.lower.value:.6g}"), ("data-ms-high", f"{limit.upper.value:.6g}"))
    body: list[d.Block] = [d.Paragraph(sizes, kind="sheet-limit-words")]
    if limit.make_to:
        body.append(_make_to(size, mate, parts))
    if said := goes_with(method, size):
        body.append(d.Paragraph(d.words(said), kind="mates"))
    blanks = tuple(
        d.Blank(
            f"{size.key}-{part}",
            str(part),
            "measured",
            (("aria-label", f"{limit.name}, part {part}, mm"), ("data-ms-part", str(part))),
        )
        for part in range(1, parts + 1)
    )
    body.append(d.Paragraph(blanks, kind="blanks"))
    return d.Group("sheet-limit", tuple(body), attributes=attributes)


def _between(limit: Limit, mate: Size | None) -> tuple[d.Span, ...]:
    """Its limits; where it is made to its mate they only hold for a mate of exactly the nominal size."""
    high, low = (d.Strong(d.value(size)) for size in (limit.upper, limit.lower))
    spans = d.Span("limit", (d.Text("not over "), high)), d.Span("limit", (d.Text("not under "), low))
    if mate is not None:
        return (*spans, d.Span("limit", (d.Text(f"if the {limit.make_to_name} is "), d.Quantity(limit.nominal))))
    aim = (d.Span("limit", (d.Text("aim at "), d.Quantity(limit.aim))),) if limit.aim else ()
    return (*spans, *aim)


def _make_to(size: Size, mate: Size | None, parts: int) -> d.Group:
    """The size as a sum on the sheet: measured + so much = make; the script fills it in, or a pencil."""
    limit = size.limit
    if limit.add_low is None or limit.add_high is None:
        return d.Group("make-to", (d.Paragraph(d.words(limit.make_to)),))
    lines = tuple(_make_line(size, part, limit.add_low, limit.add_high) for part in range(1, parts + 1))
    rule: d.Attributes = (
        ("data-ms-make", f"make-{size.key}"),
        ("data-ms-add-low", f"{limit.add_low:.6g}"),
        ("data-ms-add-high", f"{limit.add_high:.6g}"),
    )
    body: list[d.Block] = []
    if mate is not None:
        rule = (*rule, ("data-ms-mate", mate.key))
        where = f"({limit_name(mate.limit)}, operation {mate.operation.number})"
        words = f"Each belongs to the {limit.make_to_name} of its own number {where}: mark both."
        body.append(d.Paragraph(d.words(words), kind="mates"))
    return d.Group("make-to", (*body, d.Listing(lines, kind="make-lines")), attributes=rule)


def _make_line(size: Size, part: int, low: float, high: float) -> d.Inline:
    name = size.limit.make_to_name
    attributes = (("data-ms-part", str(part)), ("aria-label", f"{name} measured, part {part}, mm"))
    return (
        d.Span("part-number", d.words(str(part))),
        d.Blank(f"make-{size.key}-{part}", f"{name} measured", "base", attributes),
        *_added(low, high),
        d.Text(" = make "),
        d.Span("sum", (), (("data-ms-sum", str(part)),)),
    )


def _added(low: float, high: float) -> d.Inline:
    """' + 0.010 mm to 0.018 mm', ' − 0.018 mm to − 0.010 mm': what is added, with its sign."""

    def signed(given: float, *, plus: bool) -> d.Inline:
        sign = "\u2212 " if given < 0 else "+ " if plus else ""
        return (d.Text(sign), d.Quantity(wording.length(abs(given))))

    return (d.Text(" "), *signed(low, plus=True), d.Text(" to "), *signed(high, plus=low < 0))


def _own_notes(operation: Operation) -> d.Paragraph:
    label = (("aria-label", f"Operation {operation.number}, minutes that each part took"),)
    note = (("aria-label", f"Operation {operation.number}, note"), ("inputmode", "text"))
    estimate = wording.minutes(operation.cutting_minutes + operation.handling_minutes)
    return d.Paragraph(
        (
            d.Small((d.Text("Estimate "), d.Quantity(estimate))),
            d.Blank(f"minutes-{operation.number}", "took, min", "minutes", label),
            d.Blank(f"note-{operation.number}", "note", "note", note),
        ),
        kind="sheet-own",
    )


def _cautions(cautions: tuple[Caution, ...], again: tuple[tuple[Caution, str], ...] = ()) -> d.Blocks:
    """Cautions as plain print: nothing that opens or closes."""
    lines = [*dict.fromkeys(caution.words for caution in cautions), *wording.repeated(again)]
    return tuple(d.Paragraph((d.Strong(d.words("Caution. ")), d.Text(words)), kind="sheet-caution") for words in lines)


def _remarks() -> d.Group:
    lines = d.Paragraph(
        (d.Blank("remarks", "Remarks for next time", "note", (("inputmode", "text"),)),), kind="sheet-remarks"
    )
    return d.Group("sheet-remarks-box", (lines,))


def _sheet_foot(method: Method) -> d.Group:
    words = f"{footer_words(method)} · for {method.workshop_name} · input {method.digest[:12]}"
    address = d.Span("address", (), (("data-ms-address", ""),))
    content = (
        *wording.recalled_note((*method.setups, *method.operations)),
        d.Paragraph((d.Text(words + " "), address), kind="sheet-id"),
        d.Paragraph(d.words(f"{wording.IN_MM} {DEFER}"), kind="sheet-defer"),
    )
    return d.Group("sheet-foot", content, tag="footer")
