"""What does each wall ask of the press, where a piece goes through several, and what does each hold?

A seat takes its fit from the method: the one of its diameter. Where several have it, nobody can say which is meant.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodsheets.formula.values import Record
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.operations.facts import fact, judged, measure_of, metal_rests
from methodsheets.operations.plan import Join
from methodsheets.operations.say import both, plural, resting
from methodsheets.sheet.model import Check, Table
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.press_fits import PressFit, press_fit
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.vocabulary.joint import Joint
from methodsheets.workpiece import Seat
from methodsheets.workpiece.seats import wall_round

SAME, NEAR = 1e-6, 0.05
"""mm: the same size; a size of the same fit."""


def press_fits(job: Job) -> Iterator[tuple[str, int, PressFit]]:
    """(name, line, fit) of every press fit that the method works out."""
    for known in job.reader.scope:
        if known.value is not None and isinstance(known.value.data, Record) and known.line is not None:
            raw = known.value.data.raw
            if isinstance(raw, PressFit):
                yield known.name, known.line.name.place.line, raw


def check_pressing(job: Job) -> Iterator[Check]:
    """Every piece that is pressed into several walls at once, or into one that no calculation names."""
    for setup in job.setups:
        for done in setup.operations:
            join = done.plan.join
            if join is None or join.how is not Joint.PRESSED:
                continue
            fit = _fit(job, join)
            if fit is None:
                continue
            found = [*_walls(done, join, fit)]
            calculated = any(abs(one.diameter - fit.nominal) < NEAR for _, _, one in press_fits(job))
            if found and (len(found) > 1 or not calculated):
                yield from _told(done, found, setup.held.machine.force, setup.held.machine.name)


def _fit(job: Job, join: Join) -> Fit | None:
    """The one fit of the method that has the diameter of the seats, and may have interference."""
    sizes = {round(seat.hole, 3) for seat in join.sits.seats} | {round(seat.shaft, 3) for seat in join.sits.seats}
    known = [one.value.data.raw for one in job.reader.scope if one.value and isinstance(one.value.data, Record)]
    fits = [raw for raw in known if isinstance(raw, Fit) and raw.interference_max > 0]
    mine = [fit for fit in fits if any(abs(fit.nominal - size) < NEAR for size in sizes)]
    return mine[0] if len(mine) == 1 else None


def _walls(done: WorkedOperation, join: Join, fit: Fit) -> Iterator[tuple[Seat, float, PressFit]]:
    """Each seat with the round that its thinnest wall allows, and its press fit."""
    piece = join.parts[0]
    for seat in join.sits.seats:
        work = done.before.bodies.get(seat.wall)
        if work is None:
            continue
        outer, inner = (work, piece) if seat.goes_in else (piece, work)
        hub = 2 * wall_round(outer.solid, seat)
        try:
            yield seat, hub, press_fit(fit, seat.length, hub, 0.0, outer.material, inner.material)
        except (OutOfRange, NotInTable):
            continue


def _outer(seat: Seat, done: WorkedOperation) -> str:
    """The body that goes round the other."""
    return seat.wall if seat.goes_in or done.plan.join is None else done.plan.join.parts[0].name


def _rests(done: WorkedOperation, found: list[tuple[Seat, float, PressFit]]) -> tuple[str, ...]:
    """What was recalled and not read of the metals that are pressed together."""
    walls = [done.before.bodies[seat.wall].material for seat, _, _ in found]
    parts = [part.material for part in done.plan.join.parts] if done.plan.join else []
    return metal_rests([*walls, *parts], "modulus", "poisson", "yield")


def _told(
    done: WorkedOperation, found: list[tuple[Seat, float, PressFit]], force: float | None, press: str
) -> Iterator[Check]:
    rows = tuple(
        (str(i), _outer(seat, done), measure_of(seat.length, "mm", "length"), measure_of(hub, "mm", "length"),
         measure_of(one.force_max, "N", "force"), measure_of(one.torque_min, "N*m", "torque"))
        for i, (seat, hub, one) in enumerate(found, 1)
    )  # fmt: skip
    columns = ("Seat", "Wall", "Long", "Round in its thinnest wall", "Press, at most", "Torque held, at least")
    done.found.tables.append(Table("What each wall asks and holds", columns, rows))
    whole = sum(one.force_max for _, _, one in found)
    note = f"{plural(len(found), 'wall')} at once, the tightest pair" if len(found) > 1 else "the tightest pair"
    rests = _rests(done, found)
    done.found.facts.append(fact("press_force", "Press with, at most", whole, "N", "force", note=note, rests=rests))
    if force:
        what = "all walls together need" if len(found) > 1 else "the seat needs"
        needed = resting(both(whole, "force"), rests)
        words = f"{what} up to {needed}; the {press} gives {both(force, 'force')}"
        yield judged("press-force", whole <= force, words, done.line, tight=whole > 0.8 * force)
    for seat, _, one in found:
        if one.hub_margin is not None and one.hub_margin < 1.0:
            wall, stress = (
                f"the thinnest wall of the {_outer(seat, done)}",
                resting(both(one.hub_stress_max, "stress"), rests),
            )
            words = f"{wall} reaches {stress}, past its yield"
            yield judged("hub", False, words, done.line)
            return
