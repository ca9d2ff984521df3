"""Which bore and which shaft belong together, so that one is judged against the other as it was really made?

Known by identity: every measured size has a name of its own in the method, and a size that has a partner says which one
and what to add to the partner's measured size. Two sizes are partners where the author says so (`make_to`), or where a
fit of the method has just their limits and no other pair has them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from methodsheets.formula.values import Record
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.reading.slug import slugify
from methodsheets.sheet.model import Limit, Mate
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.iso286 import Limits as FitLimits

Limits = tuple[Limit, ...]
SAME = 1e-6
"""mm."""


@dataclass(eq=False)
class _Measured:
    """A measured size on its way to its partners, and the operation that it stands at."""

    done: WorkedOperation
    limit: Limit

    def learn(self, mate: Mate) -> None:
        """Take a partner."""
        self.limit = replace(self.limit, mates=(*self.limit.mates, mate))


def pair_up(job: Job) -> dict[int, Limits]:
    """The measured sizes of each operation, by its number: each with its name, and its partner where it has one."""
    measured = [*_named(job)]
    for shaft, hole, fit in [*_said(measured), *_by_fit(job, measured)]:
        _marry(shaft, hole, fit)
    return {
        done.number: tuple(one.limit for one in measured if one.done is done) for done in job.operations if done.limits
    }


def _named(job: Job) -> Iterator[_Measured]:
    """Every measured size of the method, each with a name that no other has."""
    taken: set[str] = set()
    for done in job.operations:
        for limit in done.limits:
            plain = f"op-{done.number}-{slugify(limit.name)}"
            names = (plain, *(f"{plain}-{again}" for again in range(2, len(taken) + 3)))
            name = next(name for name in names if name not in taken)
            taken.add(name)
            yield _Measured(done, replace(limit, id=name))


def _said(measured: list[_Measured]) -> Iterator[tuple[_Measured, _Measured, Fit | None]]:
    """Pairs of `make_to`: the partner is the feature that is called so, else the size that is named so."""
    for one in measured:
        wanted = one.limit.make_to_name
        if not wanted:
            continue
        others = [other for other in measured if other != one and other.limit.has_limits and not other.limit.make_to]
        called = [other for other in others if other.done.plan.feature == wanted]
        named = [other for other in others if other.limit.name == wanted or other.limit.name.split(" ")[0] == wanted]
        near = [other for other in called or named or others if _same_nominal(other.limit, one.limit)]
        inside = [other for other in near if _is_hole(other) != _is_hole(one)]
        if len(inside) == 1:
            yield one, inside[0], None


def _same_nominal(one: Limit, other: Limit) -> bool:
    return abs(one.nominal.value - other.nominal.value) <= SAME


def _is_hole(one: _Measured) -> bool:
    """Whether it is measured inside: the size grows as metal goes."""
    made = next((made for made in one.done.plan.makes if made.what == "diameter"), None)
    return made is not None and (made.infeed > 0 or bool(made.by))


def _by_fit(job: Job, measured: list[_Measured]) -> Iterator[tuple[_Measured, _Measured, Fit]]:
    """Pairs that a fit of the method makes: one hole with its limits, and every shaft with its."""
    for fit in _fits(job):
        holes = [one for one in measured if _has(one.limit, fit.hole)]
        shafts = [one for one in measured if _has(one.limit, fit.shaft) and not one.limit.mates]
        if len(holes) == 1:
            yield from ((shaft, holes[0], fit) for shaft in shafts if shaft != holes[0])


def _fits(job: Job) -> Iterable[Fit]:
    for known in job.reader.scope:
        data = known.value.data if known.value is not None else None
        if isinstance(data, Record) and isinstance(data.raw, Fit):
            yield data.raw


def _has(limit: Limit, limits: FitLimits) -> bool:
    return (
        limit.has_limits
        and not limit.make_to
        and abs(limit.upper.value - limits.upper) <= SAME
        and abs(limit.lower.value - limits.lower) <= SAME
    )


def _marry(one: _Measured, other: _Measured, fit: Fit | None) -> None:
    """Each learns what to add to the other's measured size."""
    if fit is not None:
        low, high, name = -fit.clearance_max, -fit.clearance_min, fit.name
    elif one.limit.add_low is not None and one.limit.add_high is not None:
        low, high, name = one.limit.add_low, one.limit.add_high, ""
    else:
        return
    for mine, yours, least, most in ((one, other, low, high), (other, one, -high, -low)):
        if any(mate.limit == yours.limit.id for mate in mine.limit.mates):
            continue
        mine.learn(Mate(yours.limit.id, yours.done.number, yours.limit.name, name, round(least, 9), round(most, 9)))
