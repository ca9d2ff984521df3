"""What was measured when it was made, how long did it take, and does a size drift towards its limit?"""

from __future__ import annotations

from methodsheets.handbook.model import Drift, Entry, Experience, Record
from methodsheets.sheet.model import Limit, Method, Operation

from . import document as d
from . import wording
from .charts import drift_chart


def record_blocks(entry: Entry, method: Method) -> d.Blocks:
    """The last batch and all that was measured before, with the times corrected by it; nothing without records."""
    if not entry.records:
        return ()
    body: list[d.Block] = [d.Heading(2, d.words("What was measured"), "what-was-measured")]
    if entry.experience:
        body += _experience(method, entry.experience)
        body += _last_batch(method, entry.records, entry.experience.last_batch)
        body += [_drift(drift) for drift in entry.experience.drifts]
    return (d.Group("records", tuple(body)),)


def _experience(method: Method, known: Experience) -> d.Blocks:
    cells = [
        d.Pair(
            d.words("Last batch"), d.words(" of ".join(filter(None, (known.last_batch, known.last_date)))), key="batch"
        ),
        d.Pair(d.words("Parts in it"), d.words(str(known.parts)), key="parts"),
    ]
    if known.minutes is not None:
        cells.append(d.Pair(d.words("It took"), d.value(wording.minutes(known.minutes)), key="took"))
    if known.correction is not None:
        said = f"{known.correction:.2f} times the estimate"
        cells.append(d.Pair(d.words("Measured times are"), d.words(said), key="correction"))
    if known.corrected_one is not None:
        cells.append(
            d.Pair(d.words("So one takes about"), d.value(wording.minutes(known.corrected_one)), key="corrected")
        )
    if known.corrected_batch is not None and method.totals:
        label = f"and {method.totals.batch} about"
        cells.append(d.Pair(d.words(label), d.value(wording.minutes(known.corrected_batch)), key="corrected-batch"))
    found: list[d.Block] = [d.Pairs(tuple(cells), kind="facts")]
    if known.timed:
        found.append(_times(method, known))
    return tuple(found)


def _times(method: Method, known: Experience) -> d.Table:
    titles = {operation.number: operation.title for operation in method.operations}
    rows = tuple(
        d.Row(
            (
                d.words(f"{number} {titles.get(number, '')}".strip()),
                d.value(wording.minutes(estimate)),
                d.value(wording.minutes(taken)),
            )
        )
        for number, estimate, taken in known.timed
    )
    columns = (d.Column("Operation"), d.Column("Estimate", number=True), d.Column("Took", number=True))
    return d.Table("Time taken against the estimate", columns, rows, kind="times")


def _limit_of(method: Method, record: Record) -> tuple[Operation, Limit] | None:
    for operation in method.operations:
        if operation.number == record.operation:
            for limit in operation.limits:
                if limit.name == record.limit:
                    return operation, limit
    return None


def _last_batch(method: Method, records: tuple[Record, ...], batch: str) -> d.Blocks:
    rows = [row for record in records if record.batch == batch for row in _measured_row(method, record)]
    if not rows:
        return ()
    columns = (
        d.Column("Size"),
        d.Column("Part", number=True),
        d.Column("Measured", number=True),
        d.Column("Against its limits"),
        d.Column("Note"),
    )
    return (d.Table(f"Measured in the last batch, {batch}", columns, tuple(rows), kind="last-batch", searched=False),)


def _measured_row(method: Method, record: Record) -> list[d.Row]:
    found = _limit_of(method, record)
    if found is None or record.measured is None:
        return []
    operation, limit = found
    inside = limit.lower.value <= record.measured <= limit.upper.value
    said = d.Span("state " + ("passed" if inside else "failed"), d.words("within" if inside else "outside"))
    cells = (
        d.words(f"{operation.number} {limit.name}"),
        d.words(str(record.part_number) if record.part_number else "–"),
        d.value(wording.length(record.measured)),
        (said,),
        d.words(record.note),
    )
    return [d.Row(cells)]


def _drift(drift: Drift) -> d.Group:
    words = drift_words(drift)
    values = [value for _, _, value in drift.values]
    description = f"{drift.limit}, operation {drift.operation}: {words}"
    chart = drift_chart(values, drift.lower, drift.upper, description)
    caption = d.Paragraph((d.Strong(d.words(f"{drift.operation} {drift.limit}: ")), d.Text(words)), kind="caption")
    return d.Group("chart", (d.Paragraph((d.Markup(chart),), kind="chart-place"), caption))


def drift_words(drift: Drift) -> str:
    """Whether measured sizes run towards a limit, in words."""
    count = len(drift.values)
    outside = f"{drift.outside} of {count} outside the limits; " if drift.outside else ""
    if not drift.towards:
        return f"{outside}{count} sizes, no drift to speak of"
    left = "" if drift.parts_left is None else f"; at this rate {wording.count(drift.parts_left, 'more part')} until it"
    return f"{outside}drifts towards the {drift.towards} limit{left}"
