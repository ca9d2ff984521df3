"""Has the work room to turn in the lathe, and how fast may it turn when it is out of balance?"""

from __future__ import annotations

import math

from methodsheets.method.balance import BEARS, MATTERS, balance_ceiling, counterweight, state_rests
from methodsheets.method.checks.block_in_lathe import room_to_swing, unbalance_about
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.cautions import caution
from methodsheets.operations.cutplan import Bound, holding_bound
from methodsheets.operations.say import dia, dim
from methodsheets.operations.setups import Held
from methodsheets.workpiece import Holding, State, unbalance


def spinning_facts(setup: OpenSetup, held: Held, holding: Holding, state: State) -> None:
    """Swing, bar behind the spindle, balance: facts, checks and cautions of a set-up on the lathe."""
    machine = held.machine
    widest = 2 * state.swing(holding.frame(state.ends))
    bed = room_to_swing(setup, state.ends.length)
    if bed:
        where = "in its gap" if bed > machine.swing_over_bed else "over the bed"
        words = f"the work sweeps {dia(widest)}; the lathe swings {dia(bed)} {where}"
        setup.judge("swing", widest <= bed, words, tight=widest > 0.97 * bed)
    if held.grip and held.holder and not holding.inside:
        _behind(setup, held, holding, state)
    _balance(setup, held, holding, state)
    setup.found.cautions.append(caution("chuck-key"))


def _balance(setup: OpenSetup, held: Held, holding: Holding, state: State) -> None:
    found = unbalance(state, holding.axis)
    setup.now.weigh(found.amount)
    if found.amount <= MATTERS:
        return
    frame = holding.frame(state.ends)
    ceiling, working, pull = balance_ceiling(found.amount)
    metal = state_rests(state)
    setup.tell(
        "unbalance",
        "Out of balance",
        found.amount,
        "g*mm",
        "unbalance",
        note="about the spindle's axis",
        desk=True,
        rests=metal,
    )
    setup.tell(
        "ceiling",
        "Speed ceiling from balance",
        ceiling,
        "1/min",
        "spindle_speed",
        note=pull,
        working=[working],
        rests=(*metal, BEARS),
    )
    radius = 0.4 * held.holder.body_diameter if held.holder and held.holder.body_diameter else 0.0
    if radius:
        weight, where, its_working = counterweight(found, frame, radius)
        setup.tell(
            "counterweight",
            "Balance weight that cancels it",
            weight,
            "g",
            "mass",
            note=where,
            working=[its_working],
            rests=metal,
        )
    setup.found.cautions.append(caution("unbalanced"))


def speed_ceiling(setup: OpenSetup, state: State) -> float:
    """Highest spindle speed that the holder and the balance of the work in this state allow, 1/min; 0 = none known."""
    held = setup.held
    ceilings = [held.holder.limit_speed] if held.holder and held.holder.limit_speed else []
    if held.machine.sort.work_turns and state.bodies:
        amount = _unbalance(setup, state)
        if amount > MATTERS:
            ceilings.append(balance_ceiling(amount)[0])
    return min(ceilings, default=0.0)


def _unbalance(setup: OpenSetup, state: State) -> float:
    """g·mm about the axis of rotation; 0 where that is not known yet."""
    held = setup.held
    if held.holding is not None:
        return unbalance(state, held.holding.axis).amount
    if held.pose is not None and setup.turns_about is not None:
        return unbalance_about(state, held.pose, setup.turns_about)
    return 0.0


def turning_bound(setup: OpenSetup, state: State) -> Bound:
    """The highest spindle speed for the work as it stands, with the reason: holder, balance, way of holding."""
    most = speed_ceiling(setup, state)
    found = [Bound(most, "holder and balance")] if most else []
    held, holding = setup.held, setup.held.holding
    if holding is not None and held.machine.sort.work_turns and state.bodies:
        widest = 2 * state.swing(holding.frame(state.ends))
        grip = held.grip[1] - held.grip[0] if held.grip else 0.0
        found.append(holding_bound(held.way, widest, abs(grip), held.stick_out, setup.held_up.there))
    return min(found, key=lambda bound: bound.speed, default=Bound())


def balance_after(setup: OpenSetup, done: WorkedOperation) -> None:
    """What the operation leaves out of balance, where the set-up began out of balance or the cut brought it about."""
    holding = setup.held.holding
    if holding is None or not setup.held.machine.sort.work_turns or not done.volume or not done.after.bodies:
        return
    left = unbalance(done.after, holding.axis).amount
    if max(left, setup.unbalance) > MATTERS:
        note = f"the speed ceiling is then {balance_ceiling(left)[0]:.0f} 1/min" if left > MATTERS else ""
        done.tell(
            "unbalance",
            "Out of balance after the cut",
            left,
            "g*mm",
            "unbalance",
            note=note,
            desk=True,
            rests=state_rests(done.after),
        )


def _behind(setup: OpenSetup, held: Held, holding: Holding, state: State) -> None:
    """What sticks out behind the jaws must go into the chuck, or through the spindle."""
    assert held.grip is not None
    assert held.holder is not None
    rest = state.ends.length - held.grip[1]
    if rest <= 1.0:
        return
    wide = 2 * state.swing(holding.frame(state.ends), held.grip[1] + 0.01, state.ends.length)
    room = held.holder.jaw_length or 20.0
    if rest > room and held.machine.spindle_bore:
        bore = min(b for b in (held.machine.spindle_bore, held.holder.bore or math.inf) if b)
        words = f"{dim(rest)} behind the jaws at {dia(wide)}; the spindle passes {dia(bore)}"
        setup.judge("spindle-bore", wide <= bore, words)
        if rest > held.machine.between_centres / 2 > 0:
            setup.found.cautions.append(caution("stock-behind"))
