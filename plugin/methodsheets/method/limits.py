"""Which sizes are measured, with which limits and which gauge?"""

from __future__ import annotations

import re
from typing import Any

from methodsheets.formula.kinds import limit_kind
from methodsheets.formula.measure import Measure
from methodsheets.formula.values import Record, Value
from methodsheets.method.calculations import show
from methodsheets.method.job import Job
from methodsheets.method.make_to import MakeTo
from methodsheets.operations import say
from methodsheets.operations.facts import length_measure
from methodsheets.operations.say import exact
from methodsheets.reading.clauses import find_word
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Limit
from methodsheets.trade.fits.general_tolerances import general_tolerance
from methodsheets.trade.form.errors import OutOfRange


def read_limits(job: Job, texts: tuple[Text, ...]) -> list[Limit]:
    """Every `check:` line of an operation; one that is wrong is noted."""
    found = []
    for text in texts:
        parts = find_word(text, "with")
        expression, gauge = parts if parts else (text, Text("", text.place))
        try:
            found.append(_limit(expression, job.reader.value(expression), gauge.value))
        except MethodError as error:
            if _is_prose(expression.value):
                found.append(_in_words(expression.value, gauge.value))
            else:
                job.problems.extend([error.problem])
    return found


def _is_prose(words: str) -> bool:
    """Whether a check is words and not a formula: several plain words, no sign of arithmetic."""
    return len(words.split()) > 2 and not set(words) & set('()=+*/"<>')


def _in_words(words: str, gauge: str) -> Limit:
    nothing = Measure(0.0, "", "text", "", "")
    return Limit(words, nothing, nothing, nothing, gauge)


def _limit(text: Text, value: Value, gauge: str) -> Limit:
    if isinstance(value.data, Record):
        return _from_record(text, value.data, gauge)
    if value.is_quantity and value.unit in ("mm", "µm", "in", "thou", "cm", "m"):
        size = value.to("mm", "a size")
        try:
            spread = general_tolerance(size, "m")
        except OutOfRange:
            spread = 0.0
        upper, lower = _limits(size + spread, size - spread)
        return Limit(
            _name(text), length_measure(size, "size"), upper, lower, gauge, "ISO 2768-m" if spread else ""
        )  # fmt: skip
    shown = show(value)
    nominal = shown if isinstance(shown, Measure) else Measure(0.0, "", "text", str(shown), str(shown))
    return Limit(_name(text), nominal, nominal, nominal, gauge)


def _limits(upper: float, lower: float) -> tuple[Measure, Measure]:
    """Both limits, written so that rounding never leads out of them."""
    width = upper - lower
    return length_measure(upper, limit_kind("upper", width)), length_measure(lower, limit_kind("lower", width))


def _from_record(text: Text, record: Record, gauge: str) -> Limit:
    raw: Any = record.raw
    if isinstance(raw, MakeTo):
        return _to_measured(raw, gauge)
    if hasattr(raw, "upper") and hasattr(raw, "lower"):
        nominal = float(getattr(raw, "nominal", getattr(raw, "size", raw.upper)))
        upper, lower = _limits(float(raw.upper), float(raw.lower))
        fit = str(getattr(raw, "name", ""))
        return Limit(_name(text), length_measure(nominal, "size"), upper, lower, gauge, fit)
    raise MethodError(
        text.place,
        f"nothing to measure in `{text.value}`",
        "a check names a size or limits",
        'write e.g. `limits(16 mm, "h6") with micrometer`',
        code="no-limits",
    )


HOLE = "hole"
"""The part of `make_to` that is not a shaft."""


def _to_measured(made: MakeTo, gauge: str) -> Limit:
    """A size made to another, measured one: the sheet leaves a blank and says what to add."""
    nominal = length_measure(made.nominal, "size")
    upper, lower = _limits(made.upper, made.lower)
    low, high = made.add_low, made.add_high
    if low >= 0 and high >= 0:
        added = f"+ {exact(low)} to {exact(high)}"
    elif low <= 0 and high <= 0:
        added = f"\u2212 {exact(-high)} to {exact(-low)}"
    else:
        added = f"\u2212 {exact(-low)} to + {exact(high)}"
    words = say.words(f"{made.measured} measured ____ {added}")
    return Limit(made.name, nominal, upper=upper, lower=lower, gauge=gauge, make_to=words, add_low=low, add_high=high,
                 make_to_name=made.measured, hole=made.part == HOLE)  # fmt: skip


def _name(text: Text) -> str:
    """What is measured, in short: 'journal f7' for `limits(journal, "f7")`, else the formula's own words."""
    words = " ".join(text.value.split())
    limits = re.fullmatch(r'limits\((?P<size>[^,()]+), ?"(?P<zone>\w+)"\)', words)
    return f"{limits['size'].strip()} {limits['zone']}" if limits else words
