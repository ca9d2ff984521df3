"""What do the calc lines and the placeholders come to, and what is their working?"""

from __future__ import annotations

from dataclasses import replace

from methodsheets.formula.display import measure
from methodsheets.formula.functions import Called
from methodsheets.formula.measure import Measure
from methodsheets.formula.syntax import parse
from methodsheets.formula.tree import names_in
from methodsheets.formula.values import Record, Value
from methodsheets.formula.working import line_working
from methodsheets.method.job import Job
from methodsheets.reading.method_file import Block, CalcLine
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Calculation, Quote, Working


def work_out_block(job: Job, block: Block) -> list[Calculation]:
    """Every line of a calc block; a line that is wrong is noted, and the others go on."""
    return [found for line in block.lines if (found := _line(job, block, line)) is not None]


def _line(job: Job, block: Block, line: CalcLine) -> Calculation | None:
    scope, calls = job.reader.scope, list[Called]()
    value: Value | None = None
    working = Working(line.name.value, line.label)
    try:
        value = job.reader.value(line.expression, calls)
        working = line_working(line.name.value, line.label, line.expression, value, scope, calls)
        working = replace(working, by_names=_by_names(job, line.expression))
        job.log.recalled[line.name.value] = working.recalled
    except MethodError as error:
        job.problems.extend([error.problem])
    try:
        scope.define(line.name.value, value, line.name.place, line)
    except MethodError as error:
        job.problems.extend([error.problem])
        return None
    if value is None:
        return None
    shown, fields = _shown(value)
    return Calculation(
        name=line.name.value,
        label=line.label,
        value=shown,
        fields=fields,
        working=working,
        line=line.name.place.line,
        block=block.index,
    )


def _by_names(job: Job, expression: Text) -> tuple[str, ...]:
    """What was recalled and not read in the numbers that an expression takes by their names."""
    names = sorted(set(names_in(parse(expression))))
    return tuple(dict.fromkeys(words for name in names for words in job.log.recalled.get(name, ())))


def _shown(value: Value) -> tuple[Measure | str, tuple[tuple[str, Measure | str], ...]]:
    """A value as the page shows it, and the fields of a result."""
    if isinstance(value.data, Record):
        fields = tuple(
            (name, show(item))
            for name, item in value.data.fields.items()
            if not isinstance(item.data, Record) and not _says_it_again(name, value.data)
        )
        return "", fields
    return show(value), ()


def _says_it_again(name: str, record: Record) -> bool:
    """Whether a field is the negative of another one: a clearance fit needs no interference, and so on."""
    kind = record.fields.get("kind")
    sort = kind.data if kind is not None and isinstance(kind.data, str) else ""
    return (sort == "clearance" and name.startswith("interference")) or (
        sort == "interference" and name.startswith("clearance")
    )


def show(value: Value) -> Measure | str:
    """A value in words for a page: a measure where it is a number, else its words."""
    if value.is_quantity:
        return measure(value)
    if isinstance(value.data, str):
        return value.data
    if isinstance(value.data, Record):
        name = value.data.fields.get("name")
        return show(name) if name is not None else value.words()
    if isinstance(value.data, tuple):
        return ", ".join(str(show(item)) for item in value.items)
    return value.words()


def quotes(job: Job) -> list[Quote]:
    """What the placeholders of the prose stand for; one that is wrong is noted."""
    found = []
    for placeholder in job.file.placeholders:
        text = placeholder.expression
        try:
            calls = list[Called]()
            value = job.reader.value(text, calls)
            recalled = line_working("", "", text, value, job.reader.scope, calls) if calls else None
            words = (*_by_names(job, text), *(recalled.recalled if recalled else ()))
            found.append(Quote(text.value, text.place.line, show(value), tuple(dict.fromkeys(words))))
        except MethodError as error:
            job.problems.extend([error.problem])
    return found
