"""Do the numbers of a method still come out as its author approved them?

Everything is worked out anew at every build, so a better table or a mended formula changes numbers that were proved at
the bench. An author who wants to hear of it keeps the approved numbers in a small file,
`records/<method>.approved.json`. A build never takes a number from it; it only compares.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from methodsheets.formula.measure import Measure
from methodsheets.reading.problem import Place, Problem, Problems, Severity
from methodsheets.reading.source import read_source, shown_path
from methodsheets.sheet.model import Method

from .library import Found
from .records import FOLDER

FORMAT = "method-sheets/approved"
SCHEMA = 1

_FEW = 12
"""So many differences are told one by one; of more, only how many there are."""


@dataclass(frozen=True)
class Number:
    """One number that matters at the bench: where it is said, what it is called, and how the page prints it."""

    key: str
    label: str
    words: str
    line: int = 1


def key_numbers(method: Method) -> Iterator[Number]:
    """The numbers of a method that its author approves: calculations, settings, limits, weights and times."""
    for calculation in method.calculations:
        for name, value in (("", calculation.value), *calculation.fields):
            if isinstance(value, Measure):
                key = f"{calculation.name}.{name}" if name else calculation.name
                yield Number(key, f"`{key}`", value.metric, calculation.line)
    for setup in method.setups:
        for fact in setup.facts:
            if isinstance(fact.value, Measure):
                label = f"{fact.label.lower()} of set-up {setup.number}"
                yield Number(f"setup-{setup.number}.{fact.key}", label, fact.value.metric, setup.line)
        for operation in setup.operations:
            where = f"op-{operation.number}"
            for fact in operation.facts:
                if isinstance(fact.value, Measure):
                    label = f"{fact.label.lower()} of operation {operation.number}"
                    yield Number(f"{where}.{fact.key}", label, fact.value.metric, operation.line)
            for limit in operation.limits:
                words = f"{limit.lower} to {limit.upper}"
                label = f"limits of {limit.name} in operation {operation.number}"
                yield Number(f"{where}.{limit.name}", label, words, operation.line)
    totals = method.totals
    if totals is not None:
        for name, mass in (("stock", totals.stock_mass), ("finished part", totals.finished_mass)):
            if mass is not None:
                yield Number(f"totals.{name}", f"weight of the {name}", mass.metric)


def approved_file(found: Found) -> Path:
    """Where the approved numbers of a method are kept."""
    beside = found.file.parent / FOLDER / f"{found.slug}.approved.json"
    central = found.root / FOLDER / f"{found.slug}.approved.json"
    return beside if beside.is_file() else central


def approved_text(method: Method, day: str) -> str:
    """The approved numbers of a method as they are kept; the same method gives the same text.

    Parameters:
        day: the day of the approval, YYYY-MM-DD
    """
    kept = {
        "format": FORMAT,
        "schema": SCHEMA,
        "method": method.slug,
        "workshop": method.workshop,
        "approved": day,
        "versions": dict(method.versions),
        "numbers": {number.key: _plain(number.words) for number in key_numbers(method)},
    }
    return json.dumps(kept, ensure_ascii=False, indent=1) + "\n"


def changed_numbers(method: Method, found: Found, root: Path) -> tuple[Problem, ...]:
    """What comes out otherwise than it was approved; nothing where nothing was approved.

    Parameters:
        method: worked out for its author's workshop
        root: paths in problems are given from here
    """
    file = approved_file(found)
    if not file.is_file():
        return ()
    problems = Problems()
    kept = _read(file, found, root, problems)
    if kept is None:
        return tuple(problems)
    return tuple(_differences(method, kept))


def _read(file: Path, found: Found, root: Path, problems: Problems) -> dict[str, Any] | None:
    """The file of approved numbers."""
    source = read_source(file, found.root, problems, shown_path(file, root))
    if source is None:
        return None
    try:
        kept = json.loads(source.text)
        numbers = kept["numbers"]
        if kept["format"] != FORMAT or not all(isinstance(words, str) for words in numbers.values()):
            raise ValueError("not of this form")
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        what, rule = "the file of approved numbers cannot be read", f"its form is `{FORMAT}`"
        problems.error(
            Place(source.path), what, rule, "make it again with `methodsheets approve`", code="approved-file"
        )
        return None
    return dict(kept)


def _differences(method: Method, kept: dict[str, Any]) -> Iterator[Problem]:
    """One problem for each number that changed, and one for all the rest where there are many."""
    now = {number.key: number for number in key_numbers(method)}
    before: dict[str, str] = kept["numbers"]
    changed = [number for key, number in now.items() if key in before and _plain(number.words) != before[key]]
    day = kept.get("approved", "")
    rule = f"approved on {day}" if day else "approved before"
    remedy = "look at it; if it is right, `methodsheets approve` the method again"
    for number in changed[:_FEW]:
        what = f"{number.label} was {before[number.key]}, now {number.words}"
        yield Problem(Place(method.path, number.line), what, rule, remedy, Severity.WARNING, "changed-number")
    if len(changed) > _FEW:
        what = f"{len(changed) - _FEW} more numbers come out otherwise"
        yield Problem(Place(method.path), what, rule, remedy, Severity.WARNING, "changed-number")
    gone = [key for key in before if key not in now]
    new = [key for key in now if key not in before]
    if gone or new:
        counts = f"{len(gone)} gone, {len(new)} new"
        what = f"the method has other operations or calculations than those approved (numbers: {counts})"
        yield Problem(Place(method.path), what, rule, remedy, Severity.WARNING, "changed-method")


def _plain(words: str) -> str:
    """Words with ordinary blanks, so that the file can be read and compared by eye."""
    return words.replace("\u202f", " ").replace("\u00a0", " ")
