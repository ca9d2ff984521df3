"""How would work that bends too far under the tool be held, or cut, so that it is left straight enough?

The ways are tried by the same beam that found the fault, and each is told with the number that would do.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeAlias

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.say import number

SURE = 0.9
"""Share of the fault that a way out may leave, so that rounding does not bring the fault back."""
CLEAR_OF_JAWS = 1.0
"""mm between the jaws and the nearest of the cut."""
ROUND = 0.05
"""mm to which a lighter depth is rounded down."""
BESIDE_A_CENTRE = 8.0
"""mm: thinner ends leave a tool no room beside a running centre (from memory)."""
Left: TypeAlias = Callable[[float, bool], float]
"""mm out of parallel on the diameter, held so much shorter (mm), with the tailstock centre or as it is."""


def straighter(setup: OpenSetup, done: WorkedOperation, left: Left, fault: float, near: float) -> str:
    """What to write so that the work bends less; empty where nothing that is tried would do.

    Parameters:
        fault: [mm] that it may not be left out of parallel
        near: [mm] from the holder to the nearest of the cut
    """
    most = SURE * fault
    ways = [_shorter(setup, done, left, most, near), _centred(done, left, most), _lighter(done, left(0.0, False), most)]
    found = [way for way in ways if way]
    return ", or ".join(found)


def _shorter(setup: OpenSetup, done: WorkedOperation, left: Left, most: float, near: float) -> str:
    """The greatest stick-out in whole mm that would do, where the rest of the work has room in the holder."""
    holder, out = setup.held.holder, done.station.stick_out
    least = math.ceil(out - near + CLEAR_OF_JAWS)
    if holder is None or done.station.held_up.centre.there or left(out - least, False) > most:
        return ""
    low, high = least, math.floor(out)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if left(out - middle, False) <= most else (low, middle)
    holding = done.station.holding
    behind = done.before.ends.length - low
    thick = 2 * done.before.swing(done.frame, low, done.before.ends.length) if behind > 0 else 0.0
    if holding is None or (behind > (holder.jaw_length or behind) and holder.bore and thick > holder.bore):
        return ""
    return f"hold it shorter: `stick-out {number(low)} mm` instead of {number(out)}"


def _centred(done: WorkedOperation, left: Left, most: float) -> str:
    """The tailstock centre, where it is not there already and holds the work up enough."""
    small = done.plan.sketch.start < CLEAR_OF_JAWS and done.plan.sketch.diameter < BESIDE_A_CENTRE
    if small or done.station.held_up.centre.there or left(0.0, True) > most:
        return ""
    return "centre drill the end and bring up the centre before this (`support: tailstock centre`)"


def _lighter(done: WorkedOperation, now: float, most: float) -> str:
    """The depth of pass that would do: bending grows with the force, and the force with the depth."""
    depth = ROUND * math.floor(done.worked.depth * most / now / ROUND + 1e-9)
    return f"write `depth: {number(depth)} mm`" if depth > 0 else ""
