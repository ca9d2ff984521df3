"""Which of two ways of making a part is better, and by what? One line for every measure that both have."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from methodsheets.formula.measure import Measure
from methodsheets.operations.cautions import topic
from methodsheets.sheet.model import Method, Operation, RunOutRow, Setup
from methodsheets.sheet.words import Words, joined

from .break_even import CLOSE, break_even, quickest, time_line
from .costing import cost_lines
from .lines import NOT_KNOWN, NOTHING, best, differ, number_of, numbers, worded
from .model import Cell, Comparison, ComparisonRow, Experience, Needs, Pace, TimeLine
from .pace import by_records, kind_of
from .shop_cards import WorkshopCard

TRUENESS = "Trueness"
"""The group of lines about run-out between features."""
SUPPORT = "Support left in"
"""The group of lines about what a support is worth that goes last."""

_STATES = ("storyboard", "strip", "proof")


@dataclass(frozen=True)
class Candidate:
    """One method that is compared: worked out for the workshop in question."""

    method: Method
    experience: Experience | None = None


def compare(
    part: str, candidates: Sequence[Candidate], workshop: WorkshopCard, paces: Sequence[Pace] = ()
) -> Comparison:
    """Compare the methods of one part in one workshop; in the order given.

    Parameters:
        paces: what the records of the workshop say of its times; all times that are compared are corrected by them
    """
    candidates = [replace(one, method=by_records(one.method, paces)) for one in candidates]
    methods = [one.method for one in candidates]
    batch = max(method.makes for method in methods)
    lines = tuple(time_line(method, paces) for method in methods)
    return Comparison(
        part=part,
        workshop=workshop.key,
        title=part.replace("-", " ").capitalize(),
        methods=tuple(method.slug for method in methods),
        titles=tuple(method.title for method in methods),
        rows=tuple(_rows(candidates, workshop, batch, paces, lines)),
        needs=tuple(_needs(methods)),
        time_lines=lines,
        break_even=tuple(break_even(first, second) for first, second in itertools.combinations(lines, 2)),
        drawings=tuple(_states(method) for method in methods),
        batch=batch,
    )


# Rows


def _rows(
    candidates: Sequence[Candidate],
    workshop: WorkshopCard,
    batch: int,
    paces: Sequence[Pace],
    lines: Sequence[TimeLine],
) -> Iterator[ComparisonRow]:
    methods = [one.method for one in candidates]
    yield from _work(methods)
    yield from _time(methods, batch, _by_records(methods, paces), lines)
    yield from _metal(methods)
    yield from cost_lines(methods, workshop, batch, lines)
    yield from _trueness(methods)
    yield from _facts(methods)
    yield from _proof(methods)
    yield from _status(candidates)


def _work(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    def each(count: Callable[[Method], int]) -> list[float | None]:
        return [float(count(method)) for method in methods]

    yield numbers("Work", "Set-ups", each(lambda method: len(method.setups)), "count")
    yield numbers("Work", "Operations", each(lambda method: len(method.operations)), "count")
    yield numbers("Work", "Tools", each(lambda method: len(_tools(method))), "count")
    yield worded("Work", "Stock", [method.stock for method in methods])
    yield worded("Work", "Material", [method.material for method in methods])


def _by_records(methods: Sequence[Method], paces: Sequence[Pace]) -> str:
    """By what the times of the comparison are corrected; empty where there are no records."""
    kinds = {kind_of(operation) for method in methods for operation in method.operations}
    by = [f"{one.kind} × {one.factor:.2f}, timings: {one.count}" for one in paces if one.kind in kinds]
    return f"corrected by the records of this workshop: {'; '.join(by)}" if by else ""


def _time(methods: Sequence[Method], batch: int, note: str, lines: Sequence[TimeLine]) -> Iterator[ComparisonRow]:
    totals = [method.totals for method in methods]
    guessed = any(one.rests_on for method in methods for one in method.operations)

    def times(label: str, minutes: Sequence[float | None], *, recalled: bool = False, note: str = "") -> ComparisonRow:
        return numbers("Time", label, minutes, "time", recalled=recalled, close=CLOSE, note=note)

    for parts in dict.fromkeys((1, batch)):
        label = "Time for one part, set-ups included" if parts == 1 else f"Time for {parts} parts, set-ups once"
        row = times(label, [line.minutes(parts) for line in lines], recalled=guessed, note=note)
        yield replace(row, better=quickest(lines, parts))
    yield times("Setting up, once for a batch", [line.setting for line in lines])
    yield times("Cutting, one part", [one.cutting_minutes if one else None for one in totals], recalled=guessed)
    yield times("Handling, one part", [one.handling_minutes if one else None for one in totals])


def _metal(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    totals = [method.totals for method in methods]
    stock = [number_of(one.stock_mass) if one else None for one in totals]
    finished = [number_of(one.finished_mass) if one else None for one in totals]
    yield worded("Metal", "To buy or cut", [one.bought if one else "" for one in totals])
    guessed = any(one.mass_rests for one in totals if one)
    yield numbers("Metal", "Stock, one part", stock, "mass", recalled=guessed)
    yield numbers("Metal", "Finished part", finished, "mass", more_is_better=None, recalled=guessed)
    removed: list[float | None] = [1000 * one.removed_cm3 if one else None for one in totals]
    yield numbers("Metal", "Metal removed", removed, "volume")
    waste = [
        100 * (bought - made) / bought if bought and made is not None else None
        for bought, made in zip(stock, finished, strict=True)
    ]
    yield numbers("Metal", "Wasted", waste, "percent", note="of the stock's weight")


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
    row = numbers(TRUENESS, label, [number_of(reading) for reading in readings], "size", note=note)
    cells = tuple(
        NOT_KNOWN if found is not None and reading is None else cell
        for found, reading, cell in zip(rows, readings, row.values, strict=True)
    )
    return replace(row, values=cells, differs=differ(cells))


def _why(rows: Sequence[RunOutRow | None]) -> Words:
    return joined(dict.fromkeys(row.why for row in rows if row is not None and row.why), "; ")


def _facts(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    """The worst bending of all cuts, and what is said of the finished parts as a whole."""
    bends = [_largest(method, "deflection") for method in methods]
    if any(one is not None for one in bends):
        note = "largest of all cuts"
        yield numbers("Stiffness", "Work bends at the tool, at worst", bends, "clearance", note=note)
    ceilings = [_smallest(method, "ceiling") for method in methods]
    if any(one is not None for one in ceilings):
        yield numbers("Stiffness", "Speed ceiling from balance", ceilings, "spindle_speed", more_is_better=True)
    yield from _supports(methods)
    facts = [{fact.key: fact for fact in totals.facts} if (totals := method.totals) else {} for method in methods]
    for key in dict.fromkeys(key for found in facts for key in found):
        known = next(found[key] for found in facts if key in found)
        cells: tuple[Cell, ...] = tuple(found[key].value if key in found else NOTHING for found in facts)
        better = best([number_of(cell if isinstance(cell, Measure) else None) for cell in cells], more=False)
        yield ComparisonRow("Finished part", known.label, cells, differ(cells), better if key == "unbalance" else None)


def _supports(methods: Sequence[Method]) -> Iterator[ComparisonRow]:
    """What a support is worth that was left in: at that cut of each method at which it is worth most."""
    cuts = [_most_worth(method) for method in methods]
    if not any(cuts):
        return
    told = [(method.title, cut.fact("support_worth")) for method, cut in zip(methods, cuts, strict=True) if cut]
    notes = [fact.note.led_by(f"{title}: ") for title, fact in told if fact is not None]
    lines = (
        ("support_worth", "Support left in is worth", joined(notes, "; ")),
        ("bends_with_support", "Bends with the support in", Words("at that cut")),
        ("bends_without_support", "Would bend without the support", Words("at that cut, under the same push")),
    )
    for key, label, note in lines:
        values = [_at(cut, key) if cut else None for cut in cuts]
        yield numbers(SUPPORT, label, values, "clearance", more_is_better=None, note=note)


def _most_worth(method: Method) -> Operation | None:
    """The cut at which a support left in is worth most; None where none was left in, or nobody can tell."""
    return max((one for one in method.operations if _at(one, "support_worth")),
               key=lambda one: _at(one, "support_worth"), default=None)  # fmt: skip


def _at(operation: Operation, key: str) -> float:
    """The number told of an operation; 0 where there is none."""
    fact = operation.fact(key)
    return fact.value.value if fact is not None and isinstance(fact.value, Measure) else 0.0


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
    yield numbers("Proof", "Checks that fail", failed, "count", note=_first_failures(methods))
    yield numbers("Proof", "Checks that are tight", tight, "count")
    yield numbers("Proof", "Checks not known", unknown, "count")
    yield numbers("Proof", "Differences from the intended part", count(lambda method: len(method.differences)), "count")
    yield numbers("Cautions", "Cautions", count(lambda method: len(_topics(method))), "count")


def _first_failures(methods: Sequence[Method]) -> Words:
    found = [(method.title, method.failed[0].words) for method in methods if method.failed]
    return joined((words.led_by(f"{title}: ") for title, words in found), "; ")


def _status(candidates: Sequence[Candidate]) -> Iterator[ComparisonRow]:
    yield worded("Status", "Status", [one.method.status for one in candidates])
    yield worded("Status", "Revision", [_revision(one.method) for one in candidates])
    known = [one.experience for one in candidates]
    if any(known):
        yield worded("Records", "Last made", [one.last_date if one else "" for one in known])
        corrected = [one.corrected_one if one else None for one in known]
        yield numbers("Records", "One part, corrected by what was timed", corrected, "time")


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
