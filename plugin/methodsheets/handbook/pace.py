"""How long does work really take in a workshop, by kind of work, as its records say?

Every operation that was timed gives what it took over what was estimated. All timings of one kind of work in one
workshop, over all methods, give the correction of that kind: the sum of what they took over the sum of the estimates.
The count stands behind it, and from three timings on how far the correction itself may be off.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from methodsheets.sheet.model import Method, Operation

from .model import Entry, Pace

LEAST_FOR_SCATTER = 3
"""Timings below which nothing is said of their scatter."""
OTHER = "other work"


@dataclass(frozen=True)
class Corrected:
    """A method's times as the workshop's records correct them; minutes."""

    one: float
    batch: float
    by: tuple[Pace, ...]
    """The corrections that come in."""
    share: float
    """Share (0 to 1) of the operations' time that they cover."""


def kind_of(operation: Operation) -> str:
    """What kind of work an operation is."""
    return operation.family or OTHER


def paces(entries: Iterable[Entry], workshop: str) -> tuple[Pace, ...]:
    """The corrections of a workshop, by kind of work, the kind with most timings first."""
    timed: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for entry in entries:
        for kind, estimated, taken in _timings(entry, workshop):
            timed[kind].append((estimated, taken))
    return tuple(sorted((_pace(kind, found) for kind, found in timed.items()), key=lambda one: (-one.count, one.kind)))


def _timings(entry: Entry, workshop: str) -> Iterator[tuple[str, float, float]]:
    """(kind of work, minutes estimated, minutes taken) of every timing of a method in one workshop."""
    rows = [
        row for row in entry.records if row.minutes is not None and (row.workshop or entry.own_workshop) == workshop
    ]
    method = entry.by_workshop.get(workshop) if rows else None
    operations = {operation.number: operation for operation in method.operations} if method else {}
    for row in rows:
        operation = operations.get(row.operation)
        if operation is not None and row.minutes is not None and _estimated(operation) > 0:
            yield kind_of(operation), _estimated(operation), row.minutes


def _estimated(operation: Operation) -> float:
    return operation.cutting_minutes + operation.handling_minutes


def _pace(kind: str, timings: Sequence[tuple[float, float]]) -> Pace:
    """The correction, and twice the standard error of a ratio of two sums (usual formula, from memory)."""
    estimated, count = sum(one for one, _ in timings), len(timings)
    factor = sum(taken for _, taken in timings) / estimated
    if count < LEAST_FOR_SCATTER:
        return Pace(kind, count, factor)
    left = sum((taken - factor * one) ** 2 for one, taken in timings)
    off = 2 * math.sqrt(count * left / (count - 1)) / estimated
    return Pace(kind, count, factor, max(0.0, factor - off), factor + off)


def corrected(method: Method, known: Sequence[Pace]) -> Corrected | None:
    """The times of a method by the records of its workshop; None where they say nothing of its kinds of work."""
    totals, by_kind = method.totals, {pace.kind: pace for pace in known}
    met = {kind_of(operation) for operation in method.operations if _estimated(operation) > 0} & by_kind.keys()
    if totals is None or not met:
        return None
    whole = sum(_estimated(operation) for operation in method.operations)
    covered = [operation for operation in method.operations if kind_of(operation) in met]
    more = sum(_estimated(operation) * (by_kind[kind_of(operation)].factor - 1.0) for operation in covered)
    share = sum(_estimated(operation) for operation in covered) / whole
    return Corrected(
        totals.one_minutes + more,
        totals.batch_minutes + totals.batch * more,
        tuple(pace for pace in known if pace.kind in met),
        share,
    )


def by_records(method: Method, known: Sequence[Pace]) -> Method:
    """The method with its times as the records of its workshop correct them; itself where they say nothing of it.

    Setting up is timed by nobody and stays as it is estimated.
    """
    totals, factors = method.totals, {pace.kind: pace.factor for pace in known}
    if totals is None or corrected(method, known) is None:
        return method

    def more(operations: Iterable[Operation], minutes: Callable[[Operation], float]) -> float:
        return sum(minutes(one) * (factors.get(kind_of(one), 1.0) - 1.0) for one in operations)

    cutting = more(method.operations, lambda one: one.cutting_minutes)
    handling = more(method.operations, lambda one: one.handling_minutes)
    machines = tuple(
        (key, once, each + sum(more(setup.operations, _estimated) for setup in method.setups if setup.machine == key))
        for key, once, each in totals.machine_minutes
    )
    return replace(
        method,
        totals=replace(
            totals,
            cutting_minutes=totals.cutting_minutes + cutting,
            handling_minutes=totals.handling_minutes + handling,
            one_minutes=totals.one_minutes + cutting + handling,
            batch_minutes=totals.batch_minutes + totals.batch * (cutting + handling),
            machine_minutes=machines,
        ),
    )
