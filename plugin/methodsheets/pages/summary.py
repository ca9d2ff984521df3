"""What is this method, at a glance? The finished part, four figures and one way on; then its route and title block."""

from __future__ import annotations

from methodsheets.sheet.model import Method, Totals
from methodsheets.sheet.words import Words

from . import document as d
from . import wording
from .operation import split_facts
from .places import Places
from .setup import figure
from .trouble_box import trouble_box, verdict

ROUTES, ROUTE_ON_A_PHONE = ("storyboard", "strip"), "storyboard-narrow"
"""Kinds of drawings that show the route, the better first, and the one for narrow screens."""
OPENING = ("part", "part-narrow", "portrait")
"""Kinds of drawings that show the finished part: at the top of its page, and in lists of methods."""


ROUTE = "ms-route"
"""Where the route begins on the page of a method."""


def skips(method: Method) -> d.Group:
    """Ways past the drawing and the switches, for who goes by keyboard: seen when they are come to."""
    first = [(f"#{setup.id}", "Skip to the set-ups") for setup in method.setups[:1]]
    links = [
        d.Link(target, d.words(words), kind="skip") for target, words in [(f"#{ROUTE}", "Skip to the route"), *first]
    ]
    attributes = (("aria-label", "Skip to"), ("data-search-exclude", ""))
    return d.Group("skips", (d.Paragraph(tuple(links)),), tag="nav", attributes=attributes)


def actions(method: Method, places: Places) -> d.Group:
    """The one way on, to the bench; beside it the comparison, and the method as a file."""
    links: list[d.Link] = []
    _add(links, places.own("bench"), "Go to the bench", "action first")
    _add(links, places.page(f"compare/{method.part}"), "Compare the ways to make it", "action")
    _add(links, places.own("travelling"), "Take it along: one file", "action", download=True)
    return _ways(links, "ways-on")


def data_links(method: Method, places: Places) -> d.Group:
    """The method as data, at the foot of its page."""
    links: list[d.Link] = []
    _add(links, places.own("data"), "Data (JSON)", "action", download=True)
    _add(links, places.own("operations"), "Operations (CSV)", "action", download=True)
    return _ways(links, "ways-on as-data")


def _ways(links: list[d.Link], kind: str) -> d.Group:
    label = "This method" if kind == "ways-on" else "This method as data"
    attributes = (("aria-label", label), ("data-search-exclude", ""))
    content = (d.Listing(tuple((link,) for link in links), kind="actions"),) if links else ()
    return d.Group(kind, content, tag="nav", attributes=attributes)


def _add(links: list[d.Link], target: str, words: str, kind: str, *, download: bool = False) -> None:
    if target:
        links.append(d.Link(target, d.words(words), kind=kind, download=download))


def opening_blocks(method: Method, places: Places) -> d.Blocks:
    """The finished part, large, and what a reader asks first: how long, what to buy, on what, and can I make it?"""
    drawings = {drawing.kind: drawing for drawing in method.drawings if drawing.scheme == "method"}
    body: list[d.Block] = []
    if "part" in drawings:
        body.append(figure(drawings["part"], places, "part"))
    if "part-narrow" in drawings:
        body.append(figure(drawings["part-narrow"], places, "part-narrow", linked=False))
    if method.totals:
        body.append(_glance(method, method.totals))
    return (d.Group("opening", tuple(body)),)


def _glance(method: Method, totals: Totals) -> d.Pairs:
    time = [*d.value(wording.minutes(totals.one_minutes)), d.Text(" for one")]
    if totals.batch > 1:
        time += [d.Text(", "), *d.value(wording.minutes(totals.batch_minutes)), d.Text(f" for {totals.batch}")]
    cells = [d.Pair(d.words("Time"), tuple(time), key="glance_time")]
    buy: Words | str = totals.bought or method.stock or "–"
    cells.append(d.Pair(d.words("To buy or cut"), d.words(buy), key="glance_buy"))
    cells.append(d.Pair(d.words("Machines"), d.words(wording.listed(totals.machines)), key="glance_machines"))
    shop = d.words(f"In {method.workshop_name}")
    cells.append(d.Pair(shop, d.words(verdict(method)), key="glance_shop"))
    return d.Pairs(tuple(cells), kind="glance")


def summary_blocks(method: Method, places: Places) -> d.Blocks:
    """Return what stands below the opening of a method's page for one workshop: its route and its title block."""
    body: list[d.Block] = [*trouble_box(method)]
    routes = [drawing for drawing in method.drawings if drawing.kind in ROUTES]
    narrow = [drawing for drawing in method.drawings if drawing.kind == ROUTE_ON_A_PHONE]
    body += [figure(drawing, places, "wide on-a-screen" if narrow else "wide") for drawing in routes[:1]]
    body += [figure(drawing, places, "on-a-phone", linked=False) for drawing in narrow]
    body += [wording.inch_note(), title_block(method)]
    if method.totals:
        body.append(totals_block(method, method.totals))
    if method.operations:
        body.append(d.Disclosure(d.words("The route in one table"), (route_table(method),), kind="route", open=True))
    return (d.Group("card summary", tuple(body), id=ROUTE),)


def title_block(method: Method) -> d.Pairs:
    """Part, material, stock, revision: what the corner of a drawing says."""
    cells = [
        d.Pair(d.words("Part"), d.words(wording.sentence(method.part.replace("-", " "))), key="part"),
        d.Pair(d.words("Material"), d.words(method.material or "–"), key="material"),
        d.Pair(d.words("Stock"), d.words(method.stock or "–"), key="stock"),
        d.Pair(d.words("Makes"), d.words(str(method.makes)), key="makes"),
        d.Pair(d.words("Worked out for"), d.words(method.workshop_name), key="workshop"),
        d.Pair(d.words("Status"), d.words(wording.status(method) or "–"), key="status"),
        d.Pair(d.words("Revision"), d.words(method.revision or "–"), key="revision"),
        d.Pair(d.words("Date"), d.words(method.date or "–"), key="date"),
    ]
    return d.Pairs(tuple(cells), kind="title-block")


def totals_block(method: Method, totals: Totals) -> d.Pairs:
    """Weight, time, metal, and what it takes."""
    one, mark = wording.time_between(totals.one_minutes, totals.one_spread), wording.recalled_mark(totals.mass_rests)
    cells = [d.Pair(d.words("Time for one"), one, "time", "one_minutes")]
    if totals.batch > 1:
        whole = wording.time_between(totals.batch_minutes, totals.batch_spread)
        cells.append(d.Pair(d.words(f"Time for {totals.batch}"), whole, "time", "batch_minutes"))
    if totals.stock_mass is not None:
        cells.append(d.Pair(d.words("Stock weighs"), (*d.value(totals.stock_mass), *mark), key="stock_mass"))
    if totals.finished_mass is not None:
        cells.append(d.Pair(d.words("Finished"), (*d.value(totals.finished_mass), *mark), key="finished_mass"))
    if totals.removed_cm3:
        cells.append(d.Pair(d.words("Metal removed"), d.value(wording.volume(totals.removed_cm3)), key="removed"))
    if totals.bought:
        cells.append(d.Pair(d.words("Buy or cut"), d.words(totals.bought), key="bought"))
    if totals.price is not None:
        cells.append(d.Pair(d.words("Metal costs about"), (*d.value(totals.price), *mark), key="price"))
    cells += [
        d.Pair(d.words("Machines"), d.words(wording.listed(totals.machines)), "wide", "machines"),
        d.Pair(d.words("Held in"), d.words(wording.listed(totals.holdings)), "wide", "holdings"),
        d.Pair(d.words("Tools"), d.words(wording.listed(totals.tools)), "wide", "tools"),
    ]
    return d.Pairs(tuple(cells), kind="totals")


def route_table(method: Method) -> d.Table:
    """Every operation in one line, with the way to its place on the page."""
    columns = (
        d.Column("No."),
        d.Column("Operation"),
        d.Column("Tool"),
        d.Column("Spindle speed", number=True),
        d.Column("Feed", number=True),
        d.Column("Time", number=True),
    )
    rows: list[d.Row] = []
    for setup in method.setups:
        cells: tuple[d.Inline, ...] = (
            (d.Link(f"#{setup.id}", d.words(f"Set-up {setup.number}")),),
            d.words(wording.sentence(setup.words)),
            d.words(setup.machine_name),
            (),
            (),
            d.value(wording.minutes(setup.setting_minutes)),
        )
        rows.append(d.Row(cells, kind="setup-row"))
        for operation in setup.operations:
            facts = {fact.key: fact for fact in split_facts(operation)[0]}
            time = operation.cutting_minutes + operation.handling_minutes
            feed = facts.get("feed") or facts.get("feed_rate")
            rows.append(
                d.Row(
                    (
                        (d.Link(f"#{operation.id}", d.words(str(operation.number))),),
                        d.words(operation.words),
                        d.words(operation.tool),
                        d.value(facts["spindle_speed"].value) if "spindle_speed" in facts else (),
                        d.value(feed.value) if feed else (),
                        d.value(wording.minutes(time)),
                    )
                )
            )
    return d.Table("The route", columns, tuple(rows), kind="route", caption_shown=False, searched=False)
