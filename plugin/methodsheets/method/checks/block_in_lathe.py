"""How does a block turn in the lathe: about which place of its face, how far does it swing, how far out of balance?

A block in the four-jaw chuck or on the faceplate is set so that the place that is bored runs true. The axis of the
set-up is the place of its first hole; a second place needs a setting of its own.
"""

from __future__ import annotations

import math

from methodsheets.method.balance import MATTERS, balance_ceiling
from methodsheets.method.done import CutOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.cautions import caution
from methodsheets.operations.say import dia, dim
from methodsheets.workpiece import State, VicePose, mass

SAME_PLACE = 0.01
"""mm within which two places lie on one axis."""


def turning_block(setup: OpenSetup, done: CutOperation) -> None:
    """Set the axis of a block in the lathe where its first hole is, and look at what that brings."""
    points, pose = done.plan.sketch.points, done.station.pose
    if pose is None or not setup.held.machine.sort.work_turns or not points:
        return
    about = setup.turns_about
    if about is None:
        about = points[0]
        setup.now.turn_about(about)
        _swing(setup, pose)
        _throw(setup, pose)
        _balance(setup, pose)
    others = [p for p in points if math.dist(p, about) > SAME_PLACE]
    if others:
        place = ", ".join(dim(v) for v in about)
        words = f"the work turns about ({place}); {len(others)} of the places lie off that axis"
        done.judge("one-axis", False, words)


def unbalance_about(state: State, pose: VicePose, place: tuple[float, float]) -> float:
    """g·mm of a block about an axis square to its upper face."""
    weight = mass(state)
    x, y, _ = pose.seen(weight.centre)
    return weight.grams * math.hypot(x - place[0], y - place[1])


def _swing(setup: OpenSetup, pose: VicePose) -> None:
    assert setup.turns_about is not None
    (x, y), (length, width, height) = setup.turns_about, pose.size
    widest = 2 * math.hypot(max(x, length - x), max(y, width - y))
    bed = room_to_swing(setup, height)
    if bed:
        words = f"the corners of the work sweep {dia(round(widest, 1))}; the lathe swings {dia(bed)}"
        setup.judge("swing", widest <= bed, words, tight=widest > 0.95 * bed)


def room_to_swing(setup: OpenSetup, length: float) -> float:
    """Largest diameter, mm, that work standing out so far may have: over the bed, or in its gap; 0 where not said."""
    machine, holder = setup.held.machine, setup.held.holder
    behind = (holder.body_length + holder.jaw_steps) if holder else 0.0
    in_the_gap = machine.swing_in_gap and length + behind <= machine.gap_length
    return machine.swing_in_gap if in_the_gap else machine.swing_over_bed


def _throw(setup: OpenSetup, pose: VicePose) -> None:
    """How far the middle of the block stands off the axis, in jaws or on the plate."""
    assert setup.turns_about is not None
    (x, y), (length, width, _) = setup.turns_about, pose.size
    off = math.hypot(x - length / 2, y - width / 2)
    setup.tell("throw", "Middle of the block off the axis", off)
    holder = setup.held.holder
    if holder is not None and holder.throw and off > holder.throw + 1e-6:
        words = f"the middle of the block lies {dim(round(off, 2))} off the axis; the {setup.held.words} goes to "
        setup.judge("throw", False, words + dim(holder.throw))


def _balance(setup: OpenSetup, pose: VicePose) -> None:
    assert setup.turns_about is not None
    amount = unbalance_about(setup.before, pose, setup.turns_about)
    setup.now.weigh(amount)
    if amount <= MATTERS:
        return
    ceiling, working, pull = balance_ceiling(amount)
    setup.tell(
        "unbalance", "Out of balance", amount, "g*mm", "unbalance", note="about the axis that is bored", desk=True
    )
    setup.tell("ceiling", "Speed ceiling from balance", ceiling, "1/min", "spindle_speed", note=pull, working=[working])
    radius = 0.4 * setup.held.holder.body_diameter if setup.held.holder and setup.held.holder.body_diameter else 0.0
    if radius:
        where = f"at {dim(radius)} from the axis, opposite the heavy side"
        setup.tell("counterweight", "Balance weight that cancels it", amount / radius, "g", "mass", note=where)
    setup.found.cautions.append(caution("unbalanced"))
