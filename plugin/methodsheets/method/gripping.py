"""Is the round (or six-sided) surface there that the work is gripped by, and does the holder take it?"""

from __future__ import annotations

import math

from methodsheets.method.job import DoneSetup
from methodsheets.operations.cautions import caution
from methodsheets.operations.facts import told, worked
from methodsheets.operations.say import MM, degrees, dia, dim, number, turned
from methodsheets.operations.setups import Held
from methodsheets.trade.bending.holding import three_jaw_packing
from methodsheets.workpiece import Holding, State, held_flats, held_surface
from methodsheets.workshop.holding import Holding as Holder
from methodsheets.workshop.holding import Range

WHOLE = 0.98
"""Share of the gripped surface that must be there; the rest may be lost to a cross hole or a keyway."""
SLENDER_CHUCK, SLENDER_CENTRE = 4.0, 12.0
"""Stick-out over diameter: above 4 D without support deflection matters; above 12 D with a centre a steady is due.
Turning practice as published in workshop texts (4 D, 10 to 15 D)."""
SHORT_GRIP, SHORTEST_GRIP = 0.35, 8.0
"""Grip over diameter below which cuts are light, and mm below which a short grip does not hold (from memory)."""


def gripped_facts(setup: DoneSetup, held: Held, holding: Holding, state: State) -> None:
    """Facts and checks of work that is gripped on a diameter, outside or in a bore."""
    if not held.grip or not holding.diameter:
        return
    start, end = held.grip
    grip, length = end - start, state.ends.length
    where = f"on {dia(holding.diameter)}" + (" in the bore" if holding.inside else "")
    if held.sides:
        where = f"on {dim(holding.diameter)} across flats"
    setup.tell("grip", "Grip", grip, note=where)
    if not holding.inside:
        setup.tell("stick_out", "Stick-out", start)
    if end > length + 1e-6 or grip <= 0 or start < -1e-6:
        words = f"grip of {dim(grip)} from {dim(start)} to {dim(end)} on work {dim(length)} long"
        setup.judge("grip-length", False, words)
        return
    _surface(setup, holding, state, (start, end))
    _range(setup, held, holding)
    if holding.throw > 1e-6:
        _offset(setup, held, holding)
    if held.machine.kind == "lathe":
        _grip_long_enough(setup, held, grip, holding.diameter)
        _slender(setup, holding, start)


def _surface(setup: DoneSetup, holding: Holding, state: State, span: tuple[float, float]) -> None:
    size, sides = holding.diameter or 0.0, setup.held.sides
    where = f"{dim(span[0])} to {dim(span[1])} from the face"
    if sides:
        share = held_flats(state, holding, size, sides, *span)
        words = f"held on {sides} flats, {dim(size)} across, {where}: {100 * share:.0f} % of them is there"
    else:
        share = held_surface(state, holding, size, *span)
        words = f"held on {dia(size)}, {where}: {100 * share:.0f} % of that round surface is there"
    setup.judge("grip", share > WHOLE, words)


def _range(setup: DoneSetup, held: Held, holding: Holding) -> None:
    holder, size = held.holder, holding.diameter or 0.0
    if holder is None:
        return
    fits = holder.holds_inside(size) if holding.inside else holder.holds_outside(size)
    if fits is None:
        return
    limits = _range_words(holder, inside=holding.inside)
    on = f"{dim(size)} across flats" if held.sides else dia(size)
    words = f"{holder.usual_name} on {on}" + (f": takes {limits}" if limits else "")
    setup.judge("holding-range", fits, words)
    if fits and holder.kind == "collet":
        collet = holder.collet_for(size)
        setup.facts.append(told("collet", "Collet", f"{holder.collet_series} {dim(collet or size)} {MM}".strip()))


def _range_words(holder: Holder, *, inside: bool) -> str:
    if inside:
        return _span(holder.inside) if holder.inside else ", ".join(dim(size) for size in holder.sizes)
    if holder.kind == "collet" and holder.sizes:
        least = min(holder.sizes) - holder.collapse
        return _span(Range(least, max(holder.sizes))) if least > 0 else f"up to {dim(max(holder.sizes))} {MM}"
    return _span(holder.outside) if holder.outside else ""


def _span(sizes: Range) -> str:
    return f"{dim(sizes.low)} to {dim(sizes.high)} {MM}"


def _offset(setup: DoneSetup, held: Held, holding: Holding) -> None:
    dx, dy = (a - b for a, b in zip(holding.axis, holding.gripped_axis, strict=True))
    angle = holding.frame(setup.before.ends).work_angle(math.degrees(math.atan2(dy, dx)))
    towards = f"towards {degrees(turned(angle))}"
    setup.tell("throw", "Axis off the gripped surface", holding.throw, note=towards)
    swing = "on the gripped surface, in one turn"
    setup.tell("dial_swing", "Dial gauge swings", 2 * holding.throw, "mm", "size", swing)
    setup.cautions.append(caution("offset"))
    holder = held.holder
    if holder and holder.throw and holding.throw > holder.throw + 1e-6:
        words = f"the axis lies {dim(holding.throw)} off; the {held.words} goes to {dim(holder.throw)}"
        setup.judge("throw", False, words)
    if holder and not holder.sort.offset:
        words = f"a {held.words} does not hold work off its axis (got {number(holding.throw)} mm)"
        setup.judge("throw", False, words)
    elif "three-jaw" in held.words:
        packing, working = worked(three_jaw_packing, holding.throw, holding.diameter or 0.0)
        then = "then set to the dial gauge"
        setup.tell("packing", "Packing under one jaw, about", packing.thickness, note=then, working=[working])


def _grip_long_enough(setup: DoneSetup, held: Held, grip: float, size: float) -> None:
    most = held.holder.jaw_length if held.holder and held.holder.jaw_length else 0.0
    if most and grip > most + 1e-6:
        words = f"{dim(most)} long; the rest of the grip lies inside the chuck"
        setup.facts.append(told("jaws", "Jaws", words))
    least = SHORT_GRIP * size
    if grip < min(least, SHORTEST_GRIP):
        setup.judge("grip-length", False, f"grip {dim(grip)} on {dia(size)}: too short to hold")
    elif grip < least:
        setup.judge("grip-length", True, f"grip {dim(grip)} on {dia(size)} is short: light cuts", tight=True)


def _slender(setup: DoneSetup, holding: Holding, stick: float) -> None:
    least = _thinnest(setup.before, holding, stick)
    if least <= 0 or holding.inside:
        return
    ratio = stick / least
    supported = "centre" in holding.support or "steady" in holding.support
    note = "supported" if supported else "without support"
    setup.tell("slenderness", "Stick-out over diameter", round(ratio, 2), "1", "ratio", note)
    if ratio > 0.75 * (SLENDER_CENTRE if supported else SLENDER_CHUCK):
        setup.cautions.append(caution("slender"))


def _thinnest(state: State, holding: Holding, stick: float) -> float:
    """Diameter that resists bending: of the raw work between face and holder, its smallest."""
    if stick <= 0.2:
        return 0.0
    frame = holding.frame(state.ends)
    steps = 8
    return min(2 * state.swing(frame, stick * i / steps + 0.01, stick * (i + 1) / steps - 0.01) for i in range(steps))
