"""How concentric are two features, when each was cut in its own holding?

Features cut in one holding share the spindle's axis: they run true to each other. Every change of holding adds the
run-out of the new holding on the surface that it grips. Worst case adds the readings, the likely one is the root of the
sum of squares (independent, centred: the usual rule).
"""

from __future__ import annotations

import math

from methodsheets.method.job import DoneOperation, DoneSetup, Job
from methodsheets.method.model import RunOutRow
from methodsheets.operations.facts import length_measure
from methodsheets.workpiece import State

MOST_ROWS = 15


def run_out_table(job: Job) -> list[RunOutRow]:
    """A row for every pair of features that the author has named or that have limits, on the finished piece."""
    made = _features(job)
    rows = []
    for i, (first, one) in enumerate(made):
        for second, other in made[i + 1 :]:
            row = _row(job, (first, one), (second, other))
            if row:
                rows.append(row)
    return rows[:MOST_ROWS]


def _features(job: Job) -> list[tuple[str, DoneOperation]]:
    found: dict[str, DoneOperation] = {}
    for done in job.operations:
        turned = done.station.holding is not None and done.plan.cut.process in ("turn", "bore", "ream", "thread")
        if turned and done.plan.feature and (done.limits or "called" in _said_called(done)):
            found[done.plan.feature] = done
    return list(found.items())


def _said_called(done: DoneOperation) -> tuple[str, ...]:
    from methodsheets.operations.vocabulary import find_verb

    _, line = find_verb(done.block)
    return ("called",) if "called " in line.value else ()


def _row(job: Job, first: tuple[str, DoneOperation], second: tuple[str, DoneOperation]) -> RunOutRow | None:
    (name, one), (other_name, other) = first, second
    if one.piece is not other.piece:
        return None
    setups = job.setups
    start, end = _setup_of(setups, one), _setup_of(setups, other)
    if start is None or end is None:
        return None
    if start is end:
        zero = length_measure(0.0, "size")
        return RunOutRow(name, other_name, zero, zero, "cut in one holding")
    chain = _chain(setups, end, start)
    parts = [_run_out(setup) for setup in chain]
    if any(part is None for part in parts):
        return None
    known = [p for p in parts if p is not None]
    worst, likely = sum(known), math.sqrt(sum(p * p for p in known))
    why = " + ".join(f"{setup.held.words} {part:.3g}" for setup, part in zip(chain, known, strict=True))
    return RunOutRow(name, other_name, length_measure(worst, "size"), length_measure(likely, "size"), why)


def _setup_of(setups: list[DoneSetup], done: DoneOperation) -> DoneSetup | None:
    return next((s for s in setups if done in s.operations), None)


def _chain(setups: list[DoneSetup], late: DoneSetup, early: DoneSetup) -> list[DoneSetup]:
    """The holdings that lie between two set-ups: from the later one down the surfaces gripped, until the earlier one's surface."""
    chain, current, guard = [late], late, 0
    while guard < 20:
        guard += 1
        maker = _maker_of_grip(setups, current)
        if maker is None or maker is early or maker.number <= early.number:
            break
        chain.append(maker)
        current = maker
    return chain


def _maker_of_grip(setups: list[DoneSetup], setup: DoneSetup) -> DoneSetup | None:
    """The set-up that cut the surface which this one grips."""
    holding = setup.held.holding
    if holding is None or not holding.diameter:
        return None
    number = _operation_of_surface(setup.before, holding.diameter, holding.gripped_axis)
    return next((s for s in setups for o in s.operations if str(o.number) == number and o.piece is setup.piece), None)


def _operation_of_surface(state: State, diameter: float, axis: tuple[float, float]) -> str:
    for solid in state:
        for surface in solid.mesh().surfaces:
            if (
                surface.kind == "cylinder"
                and abs(surface.diameter - diameter) < 2e-6
                and math.dist(surface.point[:2], axis) < 1e-6
            ):
                return surface.operation
    return ""


def _run_out(setup: DoneSetup) -> float | None:
    said = setup.held.said.get("run-out")
    if said is not None:
        return float(said)
    return setup.held.holder.run_out if setup.held.holder and setup.held.holder.run_out else None
