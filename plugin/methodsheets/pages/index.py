"""Which methods are there, and which of them suit? A plain table that a script filters and sorts."""

from __future__ import annotations

import re

from methodsheets.handbook.model import Entry, Handbook
from methodsheets.sheet.model import Method

from . import document as d
from . import wording
from .my_shop import Answer, answer
from .places import Places
from .setup import figure
from .switches import switches
from .trouble import works
from .trouble_box import verdict
from .variants import merge, merge_words

FACETS = (
    ("part", "Part"),
    ("material", "Material"),
    ("machine", "Machine"),
    ("holding", "Held in"),
    ("operation", "Operation"),
    ("status", "Status"),
)


MY_SHOP = (
    ("", "all"),
    ("works", "can be made in my shop"),
    ("changes", "… or with a change, or a tool bought"),
)


def index_blocks(handbook: Handbook, places: Places) -> d.Blocks:
    """Return the list of all methods with its filters."""
    shops = list(handbook.workshops.values())
    entries = sorted(handbook.entries.values(), key=lambda entry: (entry.own.part, entry.own.title))
    own = _usual(entries, [shop.key for shop in shops])
    lead = d.Paragraph(d.words(f"{wording.count(len(entries), 'method')} for {_parts(entries)}."), kind="lead-in")
    body: list[d.Block] = [lead, switches(shops, own, one_author=False), _filters(entries), _status(len(entries))]
    body.append(_cards(entries, places))
    body.append(d.Disclosure(d.words("All methods in one table"), (_table(entries, own, places),), kind="as-table"))
    if handbook.comparisons:
        items = []
        for part, comparison in handbook.comparisons.items():
            target = places.page(f"compare/{part}")
            said = f": {len(comparison.methods)} ways to make it, side by side"
            items.append(
                (d.Link(target, d.words(comparison.title)), d.Text(said)) if target else d.words(comparison.title)
            )
        body += [d.Heading(2, d.words("Compare"), "compare"), d.Listing(tuple(items))]
    return (d.Group("index", tuple(body)),)


def _parts(entries: list[Entry]) -> str:
    return wording.count(len({entry.own.part for entry in entries}), "part")


def facets(method: Method) -> dict[str, tuple[str, ...]]:
    """What a method can be found by."""
    totals = method.totals
    return {
        "part": (method.part.replace("-", " "),) if method.part else (),
        "material": (method.material,) if method.material else (),
        "machine": tuple(dict.fromkeys(setup.machine_name for setup in method.setups if setup.machine_name)),
        "holding": tuple(dict.fromkeys(setup.holding for setup in method.setups if setup.holding))
        or (totals.holdings if totals else ()),
        "operation": tuple(dict.fromkeys(operation.verb for operation in method.operations)),
        "status": (wording.status_where(method),) if method.status else (),
    }


def _filters(entries: list[Entry]) -> d.Group:
    """Drop-down lists for the script; without it the table is simply whole."""
    found: dict[str, set[str]] = {}
    for entry in entries:
        for key, values in facets(entry.own).items():
            found.setdefault(key, set()).update(values)
    pieces: list[d.Select | d.Field | d.Button] = [d.Field("find", "Find", "", "search")]
    for key, label in FACETS:
        known = sorted(found.get(key, ()), key=str.lower)
        if len(known) > 1:
            options = (("", "any"), *((value.lower(), value) for value in known))
            pieces.append(d.Select(f"facet-{key}", label, options))
    pieces.append(d.Select("can-make", "In my workshop", MY_SHOP))
    pieces.append(d.Field("facet-size", "Takes stock up to, mm", ""))
    pieces.append(d.Field("facet-time", "At most, minutes each", ""))
    pieces.append(d.Button("clear-filters", "Show all"))
    return d.Group("filters", (d.Paragraph(tuple(pieces), kind="tools"),), attributes=(("data-search-exclude", ""),))


def _status(count: int) -> d.Paragraph:
    return d.Paragraph(
        (d.Span("count", d.words(wording.count(count, "method")), (("role", "status"), ("aria-live", "polite"))),),
        kind="notice",
    )


def _table(entries: list[Entry], own: str, places: Places) -> d.Table:
    columns = (
        d.Column("Method"),
        d.Column("Part"),
        d.Column("Material"),
        d.Column("Machines"),
        d.Column("Held in"),
        d.Column("Set-ups", number=True),
        d.Column("Time for one", number=True),
        d.Column("Status"),
    )
    return d.Table(
        "All methods",
        columns,
        tuple(_row(entry, own, places) for entry in entries),
        kind="index",
        caption_shown=False,
        searched=False,
    )


def parts_blocks(handbook: Handbook, places: Places) -> d.Blocks:
    """The picture index: every part with its ways to be made, for a page of the keeper's own."""
    entries = sorted(handbook.entries.values(), key=lambda entry: (entry.own.part, entry.own.title))
    shops = list(handbook.workshops.values())
    own = _usual(entries, [shop.key for shop in shops])
    return (d.Group("index parts", (switches(shops, own, one_author=False), _cards(entries, places))),)


def _cards(entries: list[Entry], places: Places) -> d.Group:
    return d.Group("part-cards", tuple(_card(entry, places) for entry in entries))


def _card(entry: Entry, places: Places) -> d.Group:
    """A method as a card: its part in a picture, its name, how long it takes and whether it works in the workshop."""
    here = places.at(places.here, entry.slug)
    said = merge({key: _card_words(there) for key, there in entry.by_workshop.items()}, entry.own_workshop)
    portrait = [figure(one, here, "portrait", linked=False) for one in entry.own.drawings if one.kind == "portrait"]
    link = d.Link(places.method(entry.slug), d.words(entry.own.title), kind="card-link")
    title = d.Paragraph((link,), kind="card-title")
    return d.Group("part-card", (*portrait, title, *said), tag="section", attributes=_attributes(entry))


def _card_words(method: Method) -> d.Blocks:
    time: d.Inline = ()
    if method.totals:
        time = (*d.value(wording.minutes(method.totals.one_minutes)), d.Text(" for one, "))
    state = {Answer.WORKS: "state", Answer.CHANGES: "state unknown", Answer.NOT: "state failed"}[answer(method)]
    return (
        d.Paragraph((*time, d.Text(method.material)), kind="card-facts"),
        d.Paragraph((d.Span(state, d.words(verdict(method))),), kind="card-state"),
    )


def _attributes(entry: Entry) -> tuple[tuple[str, str], ...]:
    """What the filters of the list go by."""
    method = entry.own
    said = [method.stock.metric, *(operation.words.metric for operation in method.operations)]
    words = " ".join([method.title, method.summary, *said, *method.found_as])
    attributes = [
        ("data-ms-slug", entry.slug),
        ("data-ms-words", words.lower()),
        ("data-ms-size", f"{stock_size(method.stock.metric):g}"),
    ]
    for key, there in entry.by_workshop.items():
        if there.totals:
            attributes.append((f"data-ms-minutes-{key}", f"{there.totals.one_minutes:.2f}"))
    able = [key for key, there in entry.by_workshop.items() if works(there)]
    attributes.append(("data-ms-works", "|".join(able)))
    near = [key for key, there in entry.by_workshop.items() if answer(there) is not Answer.NOT]
    attributes.append(("data-ms-changes", "|".join(near)))
    attributes += [(f"data-ms-{key}", "|".join(given).lower()) for key, given in facets(method).items()]
    return tuple(attributes)


def _row(entry: Entry, own: str, places: Places) -> d.Row:
    method = entry.own
    found = facets(method)
    times = {key: there.totals.one_minutes for key, there in entry.by_workshop.items() if there.totals}
    sheet = places.to(places.methods[entry.slug].bench)
    name: d.Inline = (
        d.Link(places.method(entry.slug), d.words(method.title)),
        d.Text(" "),
        d.Link(sheet, d.words("bench sheet"), kind="quiet"),
    )
    states = {key: _state(there) for key, there in entry.by_workshop.items()}
    name = (*name, d.Text(" "), *merge_words(states, own))
    cells: tuple[d.Inline, ...] = (
        name,
        d.words(wording.sentence(method.part.replace("-", " "))),
        d.words(method.material),
        d.words(wording.listed(found["machine"])),
        d.words(wording.listed(found["holding"])),
        d.words(str(len(method.setups))),
        merge_words({key: d.value(wording.minutes(minutes)) for key, minutes in times.items()}, own) or d.words("–"),
        d.words(wording.status_where(method)),
    )
    return d.Row(cells, attributes=_attributes(entry))


def _state(method: Method) -> d.Inline:
    if not works(method):
        return (d.Span("state failed", d.words("does not agree")),)
    return (d.Span("state unknown", d.words("not known")),) if method.unknown else d.words("")


def _usual(entries: list[Entry], keys: list[str]) -> str:
    """The workshop that most methods were written for: it shows until the reader chooses."""
    written = [entry.own_workshop for entry in entries]
    return max(keys, key=lambda key: (written.count(key), -keys.index(key)), default="")


def stock_size(stock: str) -> float:
    """The largest length in mm that the words of the stock name, 0 if they name none."""
    factor = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4}
    sizes = [
        _number(number) * factor[unit]
        for number, unit in re.findall(r"(\d+(?:\.\d+)?(?:\s+\d+/\d+|/\d+)?)\s*(mm|cm|m|in|\")(?![a-z])", stock)
    ]
    return max(sizes, default=0.0)


def _number(text: str) -> float:
    whole = 0.0
    for piece in text.split():
        top, _, bottom = piece.partition("/")
        whole += float(top) / float(bottom) if bottom else float(top)
    return whole
