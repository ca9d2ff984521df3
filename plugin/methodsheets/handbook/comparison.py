"""Which of two ways of making a part is better, and by what? One line for every measure that both have."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from methodsheets.formula.display import measure
from methodsheets.formula.measure import Measure
from methodsheets.operations.cautions import topic
from methodsheets.sheet.model import Method, Operation, RunOutRow, Setup
from methodsheets.sheet.words import Words, joined

from .break_even import CLOSE, break_even, quickest, time_line
from .model import Cell, Comparison, ComparisonRow, Experience, Needs
from .shop_cards import WorkshopCard

NOTHING = Words("–")
NOT_KNOWN = Words("not known")
"""What stands in the field of a method that has no such thing."""

MATTERS = 0.02
"""Two values that are no estimates are called equal within this share of each other."""

TRUENESS = "Trueness"
"""The group of lines about run-out between features."""

_STATES = ("storyboard", "strip", "proof")


@dataclass(frozen=True)
class Candidate:
    """One method that is compared: worked out for the workshop in question."""

    method: Method
    experience: Experience | None = None


def compare(part: str, candidates: Sequence[Candidate], workshop: WorkshopCard) -> Comparison:
    """Compare the methods of one part in one workshop; in the order given."""
    methods = [one.method for one in candidates]
    batch = max(method.makes for method in methods)
    lines = tuple(time_line(method) for method in methods)
    return Comparison(
        part=part,
        workshop=workshop.key,
        title=part.replace("-", " ").capitalize(),
        methods=tuple(method.slug for method in methods),
        titles=tuple(method.title for method in methods),
        rows=tuple(_rows(candidates, workshop, batch)),
        needs=tuple(_needs(methods)),
        time_lines=lines,
        break_even=tuple(break_even(first, second) for first, second in itertools.combinations(lines, 2)),
        drawings=tuple(_states(method) for method in methods),
        batch=batch,
    )


# Rows


def _rows(candidates: Sequence[Candidate], workshop: WorkshopCard, batch: int) -> Iterator[ComparisonRow]:
    methods = [one.method for one in candidates]
    yield from _work(methods)
    yield from _time(methods, batch)
    yield from _metal(methods)
    yield from _cost(methods, workshop, batch)
    yield from _trueness(methods)
    yield from _facts(methods)
    yield from _proof(methods)
    yield from _status(candidates)


def _numbers(
    group: str,
    label: str,
    values: Sequence[float | None],
    kind: str,
    *,
    more_is_better: bool | None = False,
    unit: str = "",
    note: Words | str = "",
    currency: str = "",
    recalled: bool = False,
    close: float = MATTERS,
) -> ComparisonRow:
    """One line of numbers.

    Parameters:
        values: in the unit of the kind; None where a method has none
        more_is_better: None where it is no matter of better and worse
        close: share of each other within which values count as the same
    """
    cells: tuple[Cell, ...] = tuple(
        NOTHING if value is None else measure(value, kind, unit, currency=currency) for value in values
    )
    better = None if more_is_better is None else _best(values, more=more_is_better, close=close)
    return ComparisonRow(group, label, cells, _differ(cells), better, _as_words(note), recalled=recalled)


def _best(values: Sequence[float | None], *, more: bool, close: float = MATTERS) -> int | None:
    """Index of the one value that is better than every other by more than what can be told; None without one."""
    if any(value is None or not math.isfinite(value) for value in values) or len(values) < 2:
        return None
    known = [value for value in values if value is not None]
    order = sorted(range(len(known)), key=lambda place: known[place], reverse=more)
    first, second = known[order[0]], known[order[1]]
    apart = abs(first - second) > close * max(abs(first), abs(second))
    return order[0] if apart else None


def _differ(cells: Sequence[Cell]) -> bool:
    """Whether a reader sees a difference."""
    return len({cell.metric if isinstance(cell, Measure) else cell for cell in cells}) > 1


def _words(group: str, label: str, values: Sequence[Words | str]) -> ComparisonRow:
    cells: tuple[Cell, ...] = tuple(_as_words(value) if value else NOTHING for value in values)
    return ComparisonRow(group, label, cells, _differ(cells), None)


def _as_words(said: Words | str) -> Words:
    return Words(said) if isinstance(said, str) else said


def _work(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    def each(count: Callable[[Method], int]) -> list[float | None]:
        return [float(count(method)) for method in methods]

    yield _numbers("Work", "Set-ups", each(lambda method: len(method.setups)), "count")
    yield _numbers("Work", "Operations", each(lambda method: len(method.operations)), "count")
    yield _numbers("Work", "Tools", each(lambda method: len(_tools(method))), "count")
    yield _words("Work", "Stock", [method.stock for method in methods])
    yield _words("Work", "Material", [method.material for method in methods])


def _time(methods: Sequence[Method], batch: int) -> Iterator[ComparisonRow]:
    lines = [time_line(method) for method in methods]
    totals = [method.totals for method in methods]
    guessed = any(fact.recalled for method in methods for one in method.operations for fact in one.facts)

    def times(label: str, minutes: Sequence[float | None], *, recalled: bool = False) -> ComparisonRow:
        return _numbers("Time", label, minutes, "time", recalled=recalled, close=CLOSE)

    for parts in dict.fromkeys((1, batch)):
        label = "Time for one part, set-ups included" if parts == 1 else f"Time for {parts} parts, set-ups once"
        row = times(label, [line.minutes(parts) for line in lines], recalled=guessed)
        yield replace(row, better=quickest(lines, parts))
    yield times("Setting up, once for a batch", [line.setting for line in lines])
    yield times("Cutting, one part", [one.cutting_minutes if one else None for one in totals], recalled=guessed)
    yield times("Handling, one part", [one.handling_minutes if one else None for one in totals])


def _metal(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    totals = [method.totals for method in methods]
    stock = [_value(one.stock_mass) if one else None for one in totals]
    finished = [_value(one.finished_mass) if one else None for one in totals]
    yield _words("Metal", "To buy or cut", [one.bought if one else "" for one in totals])
    yield _numbers("Metal", "Stock, one part", stock, "mass")
    yield _numbers("Metal", "Finished part", finished, "mass", more_is_better=None)
    removed: list[float | None] = [1000 * one.removed_cm3 if one else None for one in totals]
    yield _numbers("Metal", "Metal removed", removed, "volume")
    waste = [
        100 * (bought - made) / bought if bought and made is not None else None
        for bought, made in zip(stock, finished, strict=True)
    ]
    yield _numbers("Metal", "Wasted", waste, "percent", note="of the stock's weight")


def _cost(methods: Sequence[Method], workshop: WorkshopCard, batch: int) -> Iterator[ComparisonRow]:
    """Stock, time at the workshop's rate, and both together."""
    currency = workshop.currency
    stock = [_value(method.totals.price) if method.totals else None for method in methods]
    if any(price is not None for price in stock):
        yield _numbers("Cost", "Cost of the stock", stock, "money", currency=currency, note="as the method reckons it")
    if workshop.hour:
        lines = [time_line(method) for method in methods]
        time: list[float | None] = [workshop.hour * line.minutes(batch) / 60 for line in lines]
        label = "Cost of the time, one part" if batch == 1 else f"Cost of the time, {batch} parts"
        note = f"at {workshop.hour:g} {currency} an hour".replace("  ", " ")
        row = _numbers("Cost", label, time, "money", currency=currency, note=note)
        yield replace(row, better=quickest(lines, batch))


def _value(found: Measure | None) -> float | None:
    return found.value if found is not None else None


def _trueness(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    """Run-out between the same two features of each method."""
    tables = [{frozenset((row.first, row.second)): row for row in method.run_out} for method in methods]
    pairs = dict.fromkeys(pair for table in tables for pair in table)
    for pair in pairs:
        rows = [table.get(pair) for table in tables]
        named = next(row for row in rows if row is not None)
        label = f"{named.first} to {named.second}"
        yield _reading(f"{label}, at worst", rows, [row.worst if row else None for row in rows], _why(rows))
        yield _reading(f"{label}, likely", rows, [row.likely if row else None for row in rows])


def _reading(
    label: str, rows: Sequence[RunOutRow | None], readings: Sequence[Measure | None], note: Words | str = ""
) -> ComparisonRow:
    """A line of run-outs: what is not known stands there in words, and then none is called better."""
    row = _numbers(TRUENESS, label, [_value(reading) for reading in readings], "size", note=note)
    cells = tuple(
        NOT_KNOWN if found is not None and reading is None else cell
        for found, reading, cell in zip(rows, readings, row.values, strict=True)
    )
    return replace(row, values=cells, differs=_differ(cells))


def _why(rows: Sequence[RunOutRow | None]) -> Words:
    return joined(dict.fromkeys(row.why for row in rows if row is not None and row.why), "; ")


def _facts(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    """The worst bending of all cuts, and what is said of the finished parts as a whole."""
    bends = [_largest(method, "deflection") for method in methods]
    if any(one is not None for one in bends):
        note = "largest of all cuts"
        yield _numbers("Stiffness", "Work bends at the tool, at worst", bends, "clearance", note=note)
    ceilings = [_smallest(method, "ceiling") for method in methods]
    if any(one is not None for one in ceilings):
        yield _numbers("Stiffness", "Speed ceiling from balance", ceilings, "spindle_speed", more_is_better=True)
    facts = [{fact.key: fact for fact in totals.facts} if (totals := method.totals) else {} for method in methods]
    for key in dict.fromkeys(key for found in facts for key in found):
        known = next(found[key] for found in facts if key in found)
        cells: tuple[Cell, ...] = tuple(found[key].value if key in found else NOTHING for found in facts)
        better = _best([_value(cell if isinstance(cell, Measure) else None) for cell in cells], more=False)
        yield ComparisonRow("Finished part", known.label, cells, _differ(cells), better if key == "unbalance" else None)


def _amounts(method: Method, key: str) -> list[float]:
    """Values of one fact over all set-ups and operations."""
    found = [fact.value for holder in _holders(method) for fact in holder.facts if fact.key == key]
    return [value.value for value in found if isinstance(value, Measure)]


def _largest(method: Method, key: str) -> float | None:
    return max((abs(value) for value in _amounts(method, key)), default=None)


def _smallest(method: Method, key: str) -> float | None:
    return min(_amounts(method, key), default=None)


def _proof(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    def count(chosen: Callable[[Method], int]) -> list[float | None]:
        return [float(chosen(method)) for method in methods]

    failed = count(lambda method: len(method.failed))
    unknown = count(lambda method: sum(check.state == "not known" for check in method.all_checks))
    tight = count(lambda method: sum(check.tight for check in method.all_checks))
    yield _numbers("Proof", "Checks that fail", failed, "count", note=_first_failures(methods))
    yield _numbers("Proof", "Checks that are tight", tight, "count")
    yield _numbers("Proof", "Checks not known", unknown, "count")
    yield _numbers(
        "Proof", "Differences from the intended part", count(lambda method: len(method.differences)), "count"
    )
    yield _numbers("Cautions", "Cautions", count(lambda method: len(_topics(method))), "count")


def _first_failures(methods: Sequence[Method]) -> Words:
    found = [(method.title, method.failed[0].words) for method in methods if method.failed]
    return joined((words.led_by(f"{title}: ") for title, words in found), "; ")


def _status(candidates: Sequence[Candidate]) -> Iterator[ComparisonRow]:
    yield _words("Status", "Status", [one.method.status for one in candidates])
    yield _words("Status", "Revision", [_revision(one.method) for one in candidates])
    known = [one.experience for one in candidates]
    if any(known):
        yield _words("Records", "Last made", [one.last_date if one else "" for one in known])
        corrected = [one.corrected_one if one else None for one in known]
        yield _numbers("Records", "One part, corrected by what was timed", corrected, "time")


def _revision(method: Method) -> str:
    return ", ".join(word for word in (method.revision, method.date) if word)


# What each needs


def _tools(method: Method) -> tuple[str, ...]:
    named = method.totals.tools if method.totals else ()
    return named or tuple(dict.fromkeys(operation.tool for operation in method.operations if operation.tool))


def _holdings(method: Method) -> tuple[str, ...]:
    return tuple(dict.fromkeys(setup.holding for setup in method.setups if setup.holding))


def _machines(method: Method) -> tuple[str, ...]:
    named = method.totals.machines if method.totals else ()
    return named or tuple(dict.fromkeys(setup.machine_name for setup in method.setups if setup.machine_name))


def _topics(method: Method) -> tuple[str, ...]:
    """What the cautions are about; their sentences stand at the operations."""
    return tuple(dict.fromkeys(topic(caution) for holder in _holders(method) for caution in holder.cautions))


def _holders(method: Method) -> list[Setup | Operation]:
    """Set-ups and operations: everything that has facts, checks and cautions."""
    return [*method.setups, *method.operations]


def _needs(methods: Sequence[Method]) -> Iterator[Needs]:
    sorts: tuple[tuple[str, Callable[[Method], tuple[str, ...]]], ...] = (
        ("machines", _machines),
        ("ways of holding", _holdings),
        ("tools", _tools),
        ("cautions", _topics),
    )
    for sort, take in sorts:
        taken = [take(method) for method in methods]
        everywhere = tuple(name for name in taken[0] if all(name in names for names in taken))
        yield Needs(sort, everywhere, tuple(_only(taken, place) for place in range(len(taken))))


def _only(taken: Sequence[tuple[str, ...]], place: int) -> tuple[str, ...]:
    """What stands in one list and in no other."""
    others = {name for number, names in enumerate(taken) if number != place for name in names}
    return tuple(name for name in taken[place] if name not in others)


def _states(method: Method) -> tuple[str, ...]:
    """Pictures that show how the part comes about: the storyboard, else the set-ups."""
    for kind in _STATES[:2]:
        found = tuple(drawing.key for drawing in method.drawings if drawing.kind == kind)
        if found:
            return found
    return tuple(drawing.key for drawing in method.drawings if drawing.kind == "setup")
