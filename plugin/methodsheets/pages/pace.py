"""How long does work really take here, as the records of the workshop say?"""

from __future__ import annotations

from methodsheets.handbook.model import Pace
from methodsheets.handbook.pace import corrected, kind_of
from methodsheets.sheet.model import Method, Operation

from . import document as d
from . import wording


def pace_block(method: Method, paces: tuple[Pace, ...]) -> d.Blocks:
    """The times of a method as the records of its workshop correct them, with the count behind each kind of work."""
    found = corrected(method, paces)
    if found is None or method.totals is None:
        return ()
    said: list[d.Inline] = [(d.Text("By all records of this workshop one takes about "), *_time(found.one))]
    if method.totals.batch > 1:
        said.append((d.Text(f", and {method.totals.batch} about "), *_time(found.batch)))
    by = "; ".join(f"{pace.kind} {pace_words(pace)}" for pace in found.by)
    said.append((d.Text(f" ({by}; that is {100 * found.share:.0f} % of the operations' time)."),))
    return (d.Paragraph(tuple(part for inline in said for part in inline), kind="pace"),)


def operation_pace(operation: Operation, paces: tuple[Pace, ...]) -> tuple[d.Pair, ...]:
    """What one operation takes as the records of its kind of work say; nothing where there are none."""
    pace = next((one for one in paces if one.kind == kind_of(operation)), None)
    estimated = operation.cutting_minutes + operation.handling_minutes
    if pace is None or not estimated:
        return ()
    ends = None if pace.low is None or pace.high is None else (pace.low * estimated, pace.high * estimated)
    count = d.Small(d.words(f", from {wording.count(pace.count, 'timing')} of {pace.kind}"))
    time = (*wording.time_between(pace.factor * estimated, ends), count)
    return (d.Pair(d.words("By the records here"), time, key="by_records"),)


def _time(minutes: float) -> d.Inline:
    return d.value(wording.minutes(minutes))


def pace_words(pace: Pace) -> str:
    """'1.12 times the estimate (1.05 to 1.19), from 25 timings'."""
    between = f" ({pace.low:.2f} to {pace.high:.2f})" if pace.low is not None and pace.high is not None else ""
    return f"{pace.factor:.2f} times the estimate{between}, from {wording.count(pace.count, 'timing')}"


def pace_table(paces: tuple[Pace, ...]) -> d.Blocks:
    """The corrections of a workshop, by kind of work; nothing where nothing was timed."""
    if not paces:
        return ()
    columns = (
        d.Column("Kind of work"),
        d.Column("Timings", number=True),
        d.Column("Took, times the estimate", number=True),
        d.Column("Between"),
    )
    rows = tuple(
        d.Row(
            (
                d.words(wording.sentence(pace.kind)),
                d.words(str(pace.count)),
                d.words(f"{pace.factor:.2f}"),
                d.words("–" if pace.low is None else f"{pace.low:.2f} to {pace.high:.2f}"),
            )
        )
        for pace in paces
    )
    lead = "Times that were kept at the bench, over all methods. The pages of the methods are corrected by them."
    table = d.Table("How long work takes here", columns, rows, kind="paces", caption_shown=False, searched=False)
    return (d.Heading(2, d.words("How long work takes here"), "times-here"), d.Paragraph(d.words(lead)), table)
