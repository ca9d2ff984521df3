"""Which of two ways is better, and by what? Methods of one part side by side; what differs stands out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from methodsheets.handbook.break_even import CLOSE, quicker_first
from methodsheets.handbook.comparison import TRUENESS
from methodsheets.handbook.lines import NOTHING
from methodsheets.handbook.model import Comparison, ComparisonRow, Handbook, Needs
from methodsheets.sheet.words import RECALLED, Words

from . import document as d
from . import wording
from .answer import answer_blocks, cell_words, short_titles
from .charts import difference_chart, time_chart
from .my_shop import Answer, answer
from .places import Places
from .setup import figure
from .summary import ROUTE_ON_A_PHONE
from .switches import switches
from .trouble import troubles
from .variants import merge


def comparison_blocks(handbook: Handbook, part: str, places: Places) -> d.Blocks:
    """Return the comparison of a part's methods, in every workshop."""
    found = handbook.by_workshop[part]
    own = handbook.comparisons[part].workshop
    shops = [handbook.workshops[key] for key in found if key in handbook.workshops]
    trees = {key: _for_one(handbook, comparison, places) for key, comparison in found.items()}
    return (switches(shops, own), d.Group("comparison", merge(trees, own)))


def _for_one(handbook: Handbook, comparison: Comparison, places: Places) -> d.Blocks:
    body: list[d.Block] = [*answer_blocks(handbook, comparison), *_difference(comparison)]
    body.append(_pictures(handbook, comparison, places))
    body += _verdict(comparison)
    body += _differences(comparison)
    body += _needs(comparison)
    body += _time(comparison)
    body += _quiet(comparison)
    if any(row.recalled for row in comparison.rows):
        words = f"{RECALLED} Rests on speeds and feeds of which some are from memory; each method says which."
        body.append(d.Paragraph((d.Small(d.words(words)),), kind="recalled-note"))
    return tuple(body)


def _pictures(handbook: Handbook, comparison: Comparison, places: Places) -> d.Group:
    cards = []
    for index, slug in enumerate(comparison.methods):
        title = comparison.titles[index] if index < len(comparison.titles) else slug
        target = places.method(slug)
        heading: d.Inline = (d.Link(target, d.words(title)),) if target else d.words(title)
        content: list[d.Block] = [d.Paragraph((d.Strong(heading),), kind="card-title")]
        method = handbook.entries[slug].by_workshop.get(comparison.workshop) if slug in handbook.entries else None
        against = troubles(method) if method is not None else ()
        if method is not None and against:
            _, where, what = against[0]
            title = "Works with changes in" if answer(method) is Answer.CHANGES else "Does not work as written in"
            lead = f"{title} {method.workshop_name}: "
            said = what.led_by(lead + (f"{where}: " if where else ""))
            content.append(d.Paragraph((d.Span("state failed", d.words(said)),)))
        here = places.at(places.here, slug)
        known = {drawing.key: drawing for drawing in method.drawings} if method else {}
        for key in comparison.drawings[index] if index < len(comparison.drawings) else ():
            drawing = known.get(key)
            caption = drawing.caption if drawing else Words("The route")
            picture = here.picture(key)
            narrow = [one for one in known.values() if one.kind == ROUTE_ON_A_PHONE]
            kind = "compared on-a-screen" if narrow else "compared"
            content.append(d.FigurePlace(picture, caption, "", here.drawing_file(picture), kind))
            content += [figure(one, here, "compared on-a-phone", linked=False) for one in narrow]
        cards.append(d.Group("card compared", tuple(content)))
    return d.Group("side-by-side", tuple(cards))


def _verdict(comparison: Comparison) -> d.Blocks:
    """Where each is better, in one line each."""
    lines: list[d.Inline] = []
    for index, title in enumerate(comparison.titles):
        rows = [row for row in comparison.rows if row.better == index]
        better = [row.label[:1].lower() + row.label[1:] for row in rows if row.group != TRUENESS]
        pairs = {row.label.rpartition(",")[0] for row in rows if row.group == TRUENESS}
        if pairs:
            better.append(f"run-out between features, {wording.count(len(pairs), 'pair')} of them")
        if better:
            lines.append((d.Strong(d.words(title)), d.Text(" is better by: " + "; ".join(better))))
    return (d.Listing(tuple(lines), kind="verdict"),) if lines else ()


def _columns(comparison: Comparison) -> tuple[d.Column, ...]:
    return (d.Column("What"), *(d.Column(title) for title in comparison.titles), d.Column("Note"))


def _rows(rows: Iterable[ComparisonRow]) -> tuple[d.Row, ...]:
    """Rows as the table shows them; the first of each group says which group begins."""
    made, group = [], ""
    for row in rows:
        made.append(_row(row, row.group if row.group != group else ""))
        group = row.group
    return tuple(made)


def _not_in_all(row: ComparisonRow) -> bool:
    """Whether it is about features that not every method has, which says nothing of better and worse."""
    return row.group == TRUENESS and NOTHING in row.values


def _row(row: ComparisonRow, group: str) -> d.Row:
    label: d.Inline = (*((d.Span("group-name", d.words(group)),) if group else ()), d.Text(wording.sentence(row.label)))
    label = (*label, *wording.recalled_mark(("",) if row.recalled else ()))
    cells: list[d.Inline] = [label]
    for index, value in enumerate(row.values):
        content = cell_words(row, value)
        if row.better == index:
            content = (d.Strong(content), d.Span("better", d.words(" better")))
        cells.append(content)
    cells.append((d.Small(d.words(row.note)),) if row.note else ())
    return d.Row(tuple(cells), kind=("differs" if row.differs else "same") + (" ms-group-start" if group else ""))


def _differences(comparison: Comparison) -> d.Blocks:
    heading = d.Heading(2, d.words("Where they differ"), "where-they-differ")
    rows = _rows(row for row in comparison.rows if row.differs and not _not_in_all(row))
    if not rows:
        return (heading, d.Paragraph(d.words("By everything that is worked out here they are the same.")))
    return (heading, d.Table("Where they differ", _columns(comparison), rows, kind="compare", caption_shown=False))


def _quiet(comparison: Comparison) -> d.Blocks:
    """What is no matter of choosing between them: what is the same, and what only some have."""
    same = [row for row in comparison.rows if not row.differs]
    some = [row for row in comparison.rows if row.differs and _not_in_all(row)]
    return (
        *_folded(comparison, same, "The same for all", "same"),
        *_folded(comparison, some, "Run-out of features that not all of them have", "some"),
    )


def _folded(comparison: Comparison, rows: list[ComparisonRow], title: str, kind: str) -> d.Blocks:
    if not rows:
        return ()
    table = d.Table(title, _columns(comparison), _rows(rows), kind="compare quiet-table", caption_shown=False)
    return (d.Disclosure(d.words(f"{title}: {wording.count(len(rows), 'line')}"), (table,), kind=kind),)


def _needs(comparison: Comparison) -> d.Blocks:
    rows = tuple(_need_row(need) for need in comparison.needs if any(need.only))
    if not rows:
        return ()
    columns = (d.Column("What"), *(d.Column(f"Only {title}") for title in comparison.titles), d.Column("All need"))
    return (d.Table("What only one of them needs", columns, rows, kind="compare"),)


def _need_row(need: Needs) -> d.Row:
    only = [d.words(_names(need, names)) for names in need.only]
    return d.Row((d.words(wording.sentence(need.sort)), *only, (d.Small(d.words(_names(need, need.all_need))),)))


def _names(need: Needs, names: tuple[str, ...]) -> str:
    """Names in a row; cautions come by their topic, since their full words stand at the operations."""
    shown = (name.lower() for name in names) if need.sort == "cautions" else names
    return wording.sentence(wording.listed(shown)) if names else "–"


def _difference(comparison: Comparison) -> d.Blocks:
    """By how much the second of two methods is quicker or slower, with the band in which nobody can tell."""
    if len(comparison.time_lines) != 2:
        return ()
    lines = quicker_first(*comparison.time_lines)
    names = short_titles([line.title for line in lines])
    first, second = (replace(line, title=name) for line, name in zip(lines, names, strict=True))
    chart = difference_chart(first, second, _most(comparison))
    words = (
        f"Two times count as the same where they differ by less than {100 * CLOSE:.0f} %, or where the other would be "
        "quicker in a shop that cuts or handles as much slower or quicker as these estimates allow."
    )
    return (
        d.Group(
            "chart",
            (d.Paragraph((d.Markup(chart),), kind="chart-place"), d.Paragraph((d.Small(d.words(words)),))),
            attributes=(("data-search-exclude", ""),),
        ),
    )


def _crossings(comparison: Comparison) -> list[float]:
    return [
        (two.setting - one.setting) / (one.each - two.each)
        for index, one in enumerate(comparison.time_lines)
        for two in comparison.time_lines[index + 1 :]
        if not math.isclose(one.each, two.each)
    ]


def _most(comparison: Comparison) -> int:
    """The largest batch of charts and tables: so that where they cross is on the paper."""
    shown = [size for size in _crossings(comparison) if 0 < size < 200]
    return max(10, comparison.batch * 2, *(math.ceil(size * 1.4) for size in shown), 10)


def _time(comparison: Comparison) -> d.Blocks:
    if len(comparison.time_lines) < 2:
        return ()
    most = _most(comparison)
    lines = [(line.title, line.setting, line.each) for line in comparison.time_lines]
    chart: tuple[d.Block, ...] = ()
    if len(lines) > 2:
        picture = d.Paragraph((d.Markup(time_chart(lines, most)),), kind="chart-place")
        chart = (d.Group("chart", (picture,), attributes=(("data-search-exclude", ""),)),)
    rows = tuple(
        d.Row((d.words(str(parts)), *(d.value(wording.minutes(line.minutes(parts))) for line in comparison.time_lines)))
        for parts in dict.fromkeys((1, 2, 5, 10, comparison.batch, most))
    )
    columns = (d.Column("Parts"), *(d.Column(line.title, number=True) for line in comparison.time_lines))
    return (
        d.Heading(2, d.words("Time against the number of parts"), "time"),
        *chart,
        d.Table("Time for a batch, set-ups once", columns, rows, kind="times"),
    )
