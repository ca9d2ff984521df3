"""What is a support worth that is left in to the last: how far would the work bend at each cut if it were out already?

Each core that is cut out is taken out of the work as it stood at the cuts before, in thought, and what is to carry the
ends then is put in; the same push at the same places tells the one bending from the other. Both are those of one frame
of bars (`crooked`). Only cuts that leave a surface of the finished work count: a roughing cut may bend.
"""

from __future__ import annotations

import functools
import operator

from methodsheets.method.crooked import NoShaftYet, NotModelled, Span
from methodsheets.method.crooked_turning import Stretch, crooked_bends
from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.stiffness import NOTICE, bending_rests, bends_in_holding, places_of, stretch_of
from methodsheets.operations.facts import told
from methodsheets.operations.say import both, number
from methodsheets.sheet.spread import BENDING
from methodsheets.workpiece import State
from methodsheets.workpiece.skins import round_tags

LABEL = "Support left in is worth"


def tell_supports(job: Job) -> None:
    """Tell at each cut what the core is worth that a later operation cuts out."""
    made = [(setup, done) for setup in job.setups for done in setup.operations]
    for index, (_, core) in enumerate(made):
        if core.plan.gap is None or core.cut is None or not core.cut.removes or core.has_failed("carried-ends"):
            continue
        for setup, done in made[:index]:
            stands = done.tag in round_tags(done.piece.work.state)
            if stands and done.piece is core.piece and bends_in_holding(setup, done):
                _tell(setup, done, core, _gaps(made, done))


def _gaps(made: list[tuple[OpenSetup, WorkedOperation]], done: WorkedOperation) -> tuple[Span, ...]:
    """The cores that are out when an operation begins."""
    return tuple(
        _span(one)
        for _, one in made
        if one.number < done.number and one.piece is done.piece and one.plan.gap and one.cut and one.cut.removes
    )


def _span(core: WorkedOperation) -> Span:
    """From where to where a core was cut out, z in mm of the work."""
    gap = core.plan.gap
    assert gap is not None
    return core.frame.span(gap.start, gap.end)


def _tell(setup: OpenSetup, done: WorkedOperation, core: WorkedOperation, gaps: tuple[Span, ...]) -> None:
    before, after = (stretch_of(setup, done, found) for found in (gaps, (*gaps, _span(core))))
    if not Stretch(after.low, after.high, after.support, after.push, after.gaps[-1:]).has_gaps(done):
        return  # the core lies in the holder, or beyond the steady: it holds nothing here
    places = places_of(done, before)
    try:
        without = max(crooked_bends(setup, done, _without(done.after, core), after, places).worst)
        has = max(crooked_bends(setup, done, done.after, before, places).worst)
    except NoShaftYet:
        return
    except NotModelled as reason:
        done.found.facts.append(told("support_worth", LABEL, f"not known, because {reason}", desk=True))
        return
    worth = without - has
    if worth < NOTICE:
        return
    push, rests = both(before.push, "force"), bending_rests(done)
    done.tell(
        "bends_with_support",
        "Bends with the support in",
        has,
        "mm",
        "clearance",
        note=f"push {push}",
        desk=True,
        rests=rests,
    )
    note = f"push {push}, as if operation {core.number} came first"
    done.tell(
        "bends_without_support", "Would bend without it", without, "mm", "clearance", note=note, desk=True, rests=rests
    )
    times = f", {number(round(without / has, 1))} times as much" if has > 1e-9 else ""
    note = f"{both(has, 'clearance')} with what operation {core.number} takes out, {both(without, 'clearance')} without"
    done.tell("support_worth", LABEL, worth, "mm", "clearance", note=note + times, spread=BENDING, rests=rests)


def _without(state: State, core: WorkedOperation) -> State:
    """The work as it stood, with a later core out of it and in it what is to carry the ends then."""
    kept = {name: core.before.bodies[name] for name in core.plan.spares}
    gone = [*core.plan.cutters, *(body.solid for name, body in kept.items() if name not in state.bodies)]
    bodies = {
        name: body if name in kept else body.with_solid(functools.reduce(operator.sub, gone, body.solid))
        for name, body in state.bodies.items()
    }
    return state.changed({**kept, **bodies})


__all__ = ["tell_supports"]
