"""What is in a workshop? Its machines with their speeds, its ways of holding, its tools, a speed chart."""

from __future__ import annotations

from methodsheets.handbook.model import Handbook
from methodsheets.handbook.shop_cards import HoldingCard, MachineCard, ToolCard, WallChart, WorkshopCard
from methodsheets.vocabulary.machine import MachineKind

from . import document as d
from . import wording
from .charts import speed_chart
from .pace import pace_table
from .places import Places
from .switches import switches

CUTTING_SPEEDS = ((10.0, "10 m/min"), (25.0, "25 m/min"), (60.0, "60 m/min"), (120.0, "120 m/min"))
"""m/min drawn in the chart: round numbers that span hard steel with HSS to brass with carbide; a chart, not a table."""


def workshop_blocks(handbook: Handbook, key: str, places: Places) -> d.Blocks:
    """Return the page of one workshop."""
    card = handbook.workshops[key]
    body: list[d.Block] = [switches([], key)]
    if card.summary:
        body.append(d.Paragraph(d.words(card.summary), kind="lead-in"))
    body.append(d.Heading(2, d.words("Machines"), "machines"))
    for machine in card.machines:
        body += _machine(machine)
    body += _dividing(card)
    body += _holdings(card.holdings)
    body += _tools(card.tools)
    body += pace_table(handbook.paces(key))
    body += _methods(handbook, card, places)
    body += _wall_charts(handbook.charts(key))
    return (d.Group("workshop", tuple(body)),)


def _machine(machine: MachineCard) -> d.Blocks:
    cells = [d.Pair(d.words(label), d.value(value)) for label, value in machine.facts]
    if machine.speeds:
        cells.append(
            d.Pair(d.words("Spindle speeds, 1/min"), d.words(", ".join(f"{n:g}" for n in machine.speeds)), "wide")
        )
    if machine.speed_ranges:
        ranges = ", ".join(f"{low:g} to {high:g}" for low, high in machine.speed_ranges)
        cells.append(d.Pair(d.words("Spindle speeds, 1/min"), d.words(ranges), "wide"))
    if machine.feeds:
        cells.append(d.Pair(d.words("Feeds"), d.words(machine.feeds), "wide"))
    body: list[d.Block] = [d.Heading(3, d.words(machine.name), f"machine-{machine.key}".lower())]
    body.append(d.Pairs(tuple(cells), kind="facts"))
    if machine.note:
        body.append(d.Paragraph(d.words(machine.note)))
    body += _chart(machine)
    return tuple(body)


def _chart(machine: MachineCard) -> d.Blocks:
    speeds = machine.speeds or tuple(sorted({bound for span in machine.speed_ranges for bound in span}))
    known = machine.kind in [str(kind) for kind in MachineKind]  # a card is words: it may hold any
    diameters = MachineKind(machine.kind).row.chart if known else None
    if len(speeds) < 2 or min(speeds) <= 0 or diameters is None:
        return ()
    chart = speed_chart(speeds, [(words, v) for v, words in CUTTING_SPEEDS], diameters)
    said = "Go up from the diameter to the line of the cutting speed; the next level line below is the speed to set."
    caption = d.Paragraph(d.words(said), kind="caption")
    place = d.Paragraph((d.Markup(chart),), kind="chart-place")
    content = (place, caption)
    return (d.Group("chart", content, attributes=(("data-search-exclude", ""),)),)


def _dividing(card: WorkshopCard) -> d.Blocks:
    if not card.dividing:
        return ()
    columns = (
        d.Column("What"),
        d.Column("Turns for one round", number=True),
        d.Column("Division", number=True),
        d.Column("Plates"),
    )
    rows = tuple(
        d.Row(
            (
                d.words(one.name),
                d.words(f"{one.ratio:g}"),
                d.words(f"{one.division:g}°" if one.division else "–"),
                d.words("; ".join(f"{name}: {', '.join(map(str, circles))}" for name, circles in one.plates) or "none"),
            )
        )
        for one in card.dividing
    )
    return (d.Table("Dividing", columns, rows, kind="dividing"),)


def _facts(facts: tuple[tuple[str, object], ...]) -> d.Inline:
    content: list[object] = []
    for label, value in facts:
        if content:
            content.append(d.Text("; "))
        content.append(d.Text(f"{label.lower()} "))
        content += list(d.value(value))  # type: ignore[arg-type]
    return tuple(content)  # type: ignore[arg-type]


def _holdings(holdings: tuple[HoldingCard, ...]) -> d.Blocks:
    if not holdings:
        return ()
    rows = tuple(d.Row((d.words(one.name), d.words(one.kind), _facts(one.facts))) for one in holdings)
    columns = (d.Column("Name"), d.Column("Kind"), d.Column("What it takes"))
    return (
        d.Heading(2, d.words("Ways of holding"), "holding"),
        d.Table("Ways of holding", columns, rows, caption_shown=False),
    )


def _tools(tools: tuple[ToolCard, ...]) -> d.Blocks:
    if not tools:
        return ()
    rows = []
    for one in tools:
        facts = _facts(one.facts)
        if one.sizes:
            sizes = ", ".join(label for label, _ in one.sizes)
            facts = (*facts, d.Text(("; " if facts else "") + f"{wording.count(len(one.sizes), 'size')}: {sizes}"))
        rows.append(d.Row((d.words(one.name), d.words(one.kind), d.words(one.material), facts)))
    columns = (d.Column("Name"), d.Column("Kind"), d.Column("Made of"), d.Column("Sizes"))
    return (
        d.Heading(2, d.words("Tools"), "tools"),
        d.Table("Tools", columns, tuple(rows), caption_shown=False, kind="tools-table"),
    )


def _wall_charts(charts: tuple[WallChart, ...]) -> d.Blocks:
    """Charts to print and pin up, each on a sheet of its own."""
    if not charts:
        return ()
    links = tuple((d.Link(f"#{chart.key}", d.words(chart.title)),) for chart in charts)
    said = "Made from this workshop's own machines and tools. On paper each begins a new sheet."
    body: list[d.Block] = [d.Heading(2, d.words("Charts for the wall"), "wall-charts")]
    body += [d.Paragraph(d.words(said)), d.Listing(links)]
    for chart in charts:
        body.append(d.Group("wall-chart", _wall_chart(chart), attributes=(("data-search-exclude", ""),)))
    return tuple(body)


def _wall_chart(chart: WallChart) -> d.Blocks:
    columns = tuple(d.Column(words, number=index > 0) for index, words in enumerate(chart.columns))
    rows = tuple(d.Row(tuple(d.value(cell) for cell in row)) for row in chart.rows)
    notes = tuple(d.Paragraph((d.Small(d.words(note)),)) for note in chart.notes)
    heading = d.Heading(3, d.words(chart.title), chart.key)
    table = d.Table(chart.title, columns, rows, kind="wall", caption_shown=False, searched=False)
    return (heading, d.Paragraph(d.words(chart.lead)), table, *notes)


def _methods(handbook: Handbook, card: WorkshopCard, places: Places) -> d.Blocks:
    """What can be made here, and what cannot and why."""
    rows = []
    for entry in handbook.entries.values():
        method = entry.by_workshop.get(card.key)
        if method is None:
            continue
        target = places.method(entry.slug)
        name: d.Inline = (d.Link(target, d.words(method.title)),) if target else d.words(method.title)
        if method.failed:
            said: d.Inline = (d.Span("state failed", d.words("does not agree")), d.Text(f": {method.failed[0].words}"))
        elif any(problem.severity.value == "error" for problem in method.problems):
            said = (d.Span("state failed", d.words("problem")), d.Text(f": {method.problems[0].what}"))
        elif method.unknown:
            said = (d.Span("state unknown", d.words("not known")), d.Text(f": {method.unknown[0].words}"))
        else:
            said = (d.Span("state passed", d.words("the geometry agrees")),)
        time = d.value(wording.minutes(method.totals.one_minutes)) if method.totals else d.words("–")
        rows.append(d.Row((name, said, time)))
    if not rows:
        return ()
    columns = (d.Column("Method"), d.Column("Here"), d.Column("Time for one", number=True))
    table = d.Table("Methods in this workshop", columns, tuple(rows), caption_shown=False, searched=False)
    return (d.Heading(2, d.words("What can be made here"), "methods-here"), table)
