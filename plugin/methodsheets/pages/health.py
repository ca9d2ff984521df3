"""How is the handbook? For its keeper: every method with its problems, checks, age, missing data and records."""

from __future__ import annotations

from methodsheets.handbook.model import Entry, Handbook
from methodsheets.trade.form.rows import TRUSTS
from methodsheets.trade.form.tables import counted_by_trust

from . import document as d
from . import wording
from .places import Places
from .problems import problem_boxes
from .trouble import troubles, works

MARKUP = {
    False: "kept to a safe list",
    True: "let through as it is written, scripts and outside pictures as well (`trust_authors`)",
}
"""What is said of the markup in the prose of methods."""


def health_blocks(handbook: Handbook, places: Places, *, trusted: bool = False, policy: str = "") -> d.Blocks:
    """Return the page for the keeper of the handbook.

    Parameters:
        trusted: whether all markup of the authors is let through
        policy: what holds a browser to the scripts of the site
    """
    entries = list(handbook.entries.values())
    failed = sum(not works(entry.own) for entry in entries)
    cells = (
        d.Pair(d.words("Methods"), d.words(str(len(entries))), key="methods"),
        d.Pair(d.words("Workshops"), d.words(str(len(handbook.workshops))), key="workshops"),
        d.Pair(d.words("Worked out"), d.words(wording.count(_worked_out(entries), "time")), key="worked-out"),
        d.Pair(d.words("Drawings"), d.words(str(_drawings(entries))), key="drawings"),
        d.Pair(d.words("Problems"), d.words(str(len(handbook.problems))), key="problems"),
        d.Pair(d.words("Methods with a failed check"), d.words(str(failed)), key="failed"),
        d.Pair(
            d.words("Methods with something not known"),
            d.words(str(sum(bool(entry.own.unknown) for entry in entries))),
            key="unknown",
        ),
        d.Pair(d.words("Methods with records"), d.words(str(sum(bool(e.records) for e in entries))), key="records"),
        d.Pair(d.words("Drafts"), d.words(str(sum(e.own.status == "draft" for e in entries))), key="drafts"),
        d.Pair(d.words("Markup in the prose"), wording.with_code(MARKUP[trusted]), "wide", key="markup"),
        d.Pair(d.words("Policy for the browser"), wording.with_code(policy), "wide", key="policy"),
    )
    body: list[d.Block] = [d.Pairs(cells, kind="facts")]
    body.append(d.Heading(2, d.words("Method by method"), "method-by-method"))
    body.append(_methods(entries, handbook, places))
    body.append(_elsewhere(entries, handbook, places))
    body.append(_made(entries))
    body.append(d.Heading(2, d.words("How far to believe the tables"), "tables"))
    body.append(_tables())
    body.append(d.Heading(2, d.words("Problems"), "problems"))
    if handbook.problems:
        body += problem_boxes(handbook.problems)
    else:
        body.append(d.Paragraph(d.words("None. Every method could be worked out.")))
    return (d.Group("health", tuple(body)),)


def _tables() -> d.Table:
    """How many rows of each table of the handbook were read, are common practice, or are from memory."""
    columns = (d.Column("Table"), *(d.Column(trust.capitalize(), number=True) for trust in TRUSTS))
    counted = counted_by_trust()
    total = {trust: sum(by[trust] for by in counted.values()) for trust in TRUSTS}
    rows = [
        d.Row((d.words(title), *(d.words(str(by[trust])) for trust in TRUSTS)))
        for title, by in (*sorted(counted.items()), ("All tables", total))
    ]
    return d.Table("Rows of the handbook’s tables by trust", columns, tuple(rows), kind="health", searched=False)


def _worked_out(entries: list[Entry]) -> int:
    return sum(len(entry.by_workshop) for entry in entries)


def _drawings(entries: list[Entry]) -> int:
    return sum(len(method.drawings) for entry in entries for method in entry.by_workshop.values())


def _methods(entries: list[Entry], handbook: Handbook, places: Places) -> d.Table:
    columns = (
        d.Column("Method"),
        d.Column("Status"),
        d.Column("Revision"),
        d.Column("Problems", number=True),
        d.Column("Checks", number=True),
        d.Column("Failed", number=True),
        d.Column("Tight", number=True),
        d.Column("Not known", number=True),
        d.Column("Not given"),
        d.Column("Last made"),
    )
    rows = tuple(_method_row(entry, places) for entry in entries)
    return d.Table("Every method in its author’s workshop", columns, rows, kind="health", caption_shown=False)


def _method_row(entry: Entry, places: Places) -> d.Row:
    method = entry.own
    checks = method.all_checks
    target = places.method(entry.slug)
    name: d.Inline = (d.Link(target, d.words(method.title)),) if target else d.words(method.title)
    revision: d.Inline = d.words(method.revision or ("" if method.date else "–"))
    if method.date:
        day = d.Span("whole", d.words(method.date))
        revision = (*revision, d.Text(" "), day, d.Text(" "), d.Span("age", (), (("data-ms-date", method.date),)))
    made = entry.experience.last_date if entry.experience else "never recorded"
    cells: tuple[d.Inline, ...] = (
        name,
        d.words(wording.status_where(method) or "–"),
        revision,
        _count(len(entry.problems or method.problems), bad=True),
        _count(len(checks)),
        _count(sum(check.state == "failed" for check in checks), bad=True),
        _count(sum(check.verdict == "tight" for check in checks)),
        _count(sum(check.state == "not known" for check in checks)),
        d.words(wording.listed(missing(entry))),
        (*d.words(made), *((d.Text(" "), d.Span("age", (), (("data-ms-date", made),))) if made[0].isdigit() else ())),
    )
    return d.Row(cells)


def missing(entry: Entry) -> list[str]:
    """What a complete method would say and this one does not."""
    method = entry.own
    found = [name for name in ("material", "stock", "revision", "date", "summary", "part") if not getattr(method, name)]
    if method.setups and not method.operations:
        found.append("operations")
    if not any("intended" in check.key for check in method.checks):
        found.append("intended part")
    return found


def _count(number: int, *, bad: bool = False) -> d.Inline:
    if bad and number:
        return (d.Span("state failed", d.words(str(number))),)
    return d.words(str(number))


def _made(entries: list[Entry]) -> d.Table:
    """What this build holds of each method, over all workshops."""
    columns = (
        d.Column("Method"),
        d.Column("Workshops", number=True),
        d.Column("Set-ups", number=True),
        d.Column("Operations", number=True),
        d.Column("Calculations", number=True),
        d.Column("Drawings", number=True),
        d.Column("Input"),
    )
    rows = tuple(
        d.Row(
            (
                d.words(entry.own.title),
                d.words(str(len(entry.by_workshop))),
                d.words(str(len(entry.own.setups))),
                d.words(str(len(entry.own.operations))),
                d.words(str(len(entry.own.calculations))),
                d.words(str(_drawings([entry]))),
                (d.Code(entry.own.digest[:12]),),
            )
        )
        for entry in entries
    )
    return d.Table("What was worked out and drawn", columns, rows, kind="health")


def _elsewhere(entries: list[Entry], handbook: Handbook, places: Places) -> d.Table:
    """Where each method can be made: one column for each workshop."""
    keys = list(handbook.workshops)
    columns = (d.Column("Method"), *(d.Column(handbook.workshops[key].name) for key in keys))
    rows = []
    for entry in entries:
        cells: list[d.Inline] = [d.words(entry.own.title)]
        for key in keys:
            method = entry.by_workshop.get(key)
            if method is None:
                cells.append(d.words("not worked out"))
            elif against := troubles(method):
                _, where, what = against[0]
                said = f": {where}: {what}" if where else f": {what}"
                more = f" (and {len(against) - 1} more)" if len(against) > 1 else ""
                cells.append((d.Span("state failed", d.words("does not agree")), d.Text(said + more)))
            elif any(problem.severity.value == "error" for problem in method.problems):
                cells.append((d.Span("state failed", d.words("problem")), d.Text(f": {method.problems[0].what}")))
            elif method.unknown:
                said = f": {method.unknown[0].words}, {_time(method)}"
                cells.append((d.Span("state unknown", d.words("not known")), d.Text(said)))
            else:
                cells.append((d.Span("state passed", d.words("agrees")), d.Text(f", {_time(method)}")))
        rows.append(d.Row(tuple(cells)))
    return d.Table("Where each can be made", columns, tuple(rows), kind="health")


def _time(method: object) -> str:
    totals = getattr(method, "totals", None)
    return wording.minutes(totals.one_minutes).metric if totals else "no time"
