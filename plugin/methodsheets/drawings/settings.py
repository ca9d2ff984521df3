"""Which pictures explain a setting: an offset in the four-jaw, the top slide, wires in a thread, the balance?"""

from __future__ import annotations

import math
from collections.abc import Iterable

from methodfigures.explain.balance import Balanced, StaticBalance
from methodfigures.explain.balance import Cut as BalanceCut
from methodfigures.explain.offset_setting import OffsetSetting
from methodfigures.explain.taper import CompoundSlide
from methodfigures.explain.wires import ThreeWires
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Finished
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.say import degrees, diameter, number
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.thread_measuring import thread_over_wires
from methodsheets.trade.threads.threads import thread
from methodsheets.vocabulary.process import Passes
from methodsheets.vocabulary.scene import SCENES
from methodsheets.workpiece import State, mass, unbalance

BALANCED = 30.0
"""g·mm: less is not worth a picture (the same figure from which a caution is printed)."""


def offset_spec(setup: CheckedSetup) -> OffsetSetting | None:
    """What the dial gauge reads while work is set off the axis in the four-jaw; None where it is not."""
    holding = setup.held.holding
    four_jaw = setup.held.way is not None and setup.held.way.row.set_by_dial
    if holding is None or not four_jaw or holding.throw < 1e-6 or not holding.diameter:
        return None
    if holding.throw >= holding.diameter / 2:
        return None  # the jaws would lie beside the axis: the figure is for work that the axis still goes through
    throw = holding.throw
    return OffsetSetting(
        holding.diameter,
        throw,
        packing=True,
        diameter_text=diameter(holding.diameter),
        throw_text=number(throw),
        travel_text=number(2 * throw),
        title=f"Set-up {setup.number}: setting the offset with a dial gauge",
    )


def slide_spec(done: CheckedOperation) -> CompoundSlide | None:
    """The top slide set over for a taper; None where the operation is none."""
    sketch = done.plan.sketch
    far = sketch.end_diameter
    if (
        not SCENES[done.verb].slide_set_over
        or far is None
        or sketch.end <= sketch.start
        or abs(far - sketch.diameter) < 1e-9
    ):
        return None
    large, small, length = max(sketch.diameter, far), min(sketch.diameter, far), sketch.end - sketch.start
    half = math.degrees(math.atan((large - small) / 2 / length))
    return CompoundSlide(
        large,
        small,
        length,
        half,
        large_text=diameter(large),
        small_text=diameter(small),
        length_text=number(length),
        angle_text=degrees(round(half, 2)),
        slide_text="top slide",
        title=f"Operation {done.number}: setting the top slide",
    )


def wires_spec(done: CheckedOperation) -> ThreeWires | None:
    """The thread measured over three wires; None where there is no wire measurement for it."""
    if done.plan.cut.process.row.passes is not Passes.THREADED or done.plan.inside:
        return None
    try:
        name = done.plan.sketch.diameter_words
        found, check = thread(name), thread_over_wires(name)
    except (NotInTable, OutOfRange, ValueError):
        return None
    return ThreeWires(
        pitch=found.pitch,
        major=found.major,
        effective=found.effective,
        minor=found.core,
        wire=check.wire,
        over=check.over,
        angle=found.angle,
        over_text=f"{check.over:.3f}",
        wire_text=diameter(round(check.wire, 3)),
        pitch_text=f"P {number(found.pitch)}",
        effective_text=diameter(round(found.effective, 3)),
        angle_text=degrees(found.angle),
        thread_text=name,
        title=f"Operation {done.number}: {name} over three wires",
    )


def balance_spec(drawn: Drawn, job: Finished) -> StaticBalance | None:
    """What hangs on what before and after the balancing cuts; None for a part that never was out of balance."""
    cuts = _balancing_cuts(job)
    main = job.pieces.get(job.main)
    if not cuts or main is None or not main.work.bodies:
        return None
    whole = cuts[0].piece is main
    before, after = cuts[0].before, main.work.state if whole else cuts[-1].after
    first = unbalance(before)
    if first.amount < BALANCED:
        return None
    a = math.radians(first.angle)
    right, up = (-math.sin(a), math.cos(a), 0.0), (-math.cos(a), -math.sin(a), 0.0)
    low, high = before.bounds
    rim = float(max(abs(low[:2]).max(), abs(high[:2]).max()))
    states = (
        _state(drawn, before, "before the balancing cuts", right, up, rim),
        _state(drawn, after, "finished" if whole else "after them", right, up, rim),
    )
    steps = tuple(BalanceCut(str(o.number), _vector_of(o, right, up)) for o in cuts)
    return StaticBalance(
        states,
        right,
        up,
        bearing=0.3 * rim,
        rim=rim,
        cuts=steps,
        rim_text=f"R{number(round(rim, 1))}",
        notes=(
            f"out of balance at first: {first.amount:.0f} g·mm",
            f"left: {unbalance(after).amount:.0f} g·mm",
            *(() if whole else (f"left in the finished part: {unbalance(main.work.state).amount:.0f} g·mm",)),
            "the cuts bear the numbers of their operations",
        ),
        title="Balance of the finished part",
    )


def _balancing_cuts(job: Finished) -> list[CheckedOperation]:
    """The cuts off the axis of the piece from whose unbalance they take most: the part itself, or one that it is put
    together from and that was balanced before.
    """
    best: list[CheckedOperation] = []
    most = 0.0
    for piece in job.pieces.values():
        made = [o for o in job.operations if o.piece is piece and o.station.holding and o.volume > 0]
        cuts = [o for o in made if SCENES[o.verb].balances and _off_axis(o)]
        taken = unbalance(cuts[0].before).amount - unbalance(cuts[-1].after).amount if cuts else 0.0
        if cuts and (not best or taken > most):
            best, most = cuts, taken
    return best


def _off_axis(done: CheckedOperation) -> bool:
    sketch = done.plan.sketch
    return sketch.radius > 1e-6 or SCENES[done.verb].off_axis


def _state(
    drawn: Drawn, state: State, caption: str, right: Iterable[float], up: Iterable[float], rim: float
) -> Balanced:
    weight, found = mass(state), unbalance(state)
    vector = _along((found.amount, found.angle), right, up)
    hung = found.amount / rim
    return Balanced(
        drawn.state(state),
        weight.grams,
        vector,
        caption,
        mass_text=f"{weight.grams:.0f} g",
        offset_text=f"{found.eccentricity:.2f} mm",
        weight=hung,
        weight_text=f"{hung:.1f} g",
        equation=f"{found.amount:.0f} g·mm",
    )


def _along(polar: tuple[float, float], right: Iterable[float], up: Iterable[float]) -> tuple[float, float]:
    """(amount, degrees about z) as a vector in the figure's own directions."""
    x, y = (polar[0] * f(math.radians(polar[1])) for f in (math.cos, math.sin))
    (rx, ry, _), (ux, uy, _) = tuple(right), tuple(up)
    return (x * rx + y * ry, x * ux + y * uy)


def _vector_of(done: CheckedOperation, right: Iterable[float], up: Iterable[float]) -> tuple[float, float]:
    """What a cut takes from the unbalance, g·mm."""
    before, after = (unbalance(state) for state in (done.before, done.after))
    one, other = (_along((u.amount, u.angle), right, up) for u in (before, after))
    return (other[0] - one[0], other[1] - one[1])
