"""Is the round (or six-sided) surface there that the work is gripped by, and does the holder take it?"""

from __future__ import annotations

import math

from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.cautions import caution
from methodsheets.operations.facts import told, worked
from methodsheets.operations.say import MM, degrees, dia, dim, number, turned
from methodsheets.operations.setups import Held
from methodsheets.trade.bending.holding import three_jaw_packing
from methodsheets.vocabulary.holding import Grips
from methodsheets.workpiece import Holding, State, TurningFrame, flats, held_flats, held_surface, round_surfaces
from methodsheets.workshop.holding import Holding as Holder
from methodsheets.workshop.holding import Range

ENOUGH, WHOLE = 0.7, 0.85
"""Share of the gripped surface that must be there, and below which the grip is a bare one: a chamfer, a keyway or a
cross hole may take the rest (common practice, an estimate)."""
PROUD = 0.01
"""mm on the diameter that stand proud of the gripped size and keep the jaws from closing on it."""
TWO = 2
"""Flats of a rectangular bar that are of one size."""
GRIPS_A_SIZE = frozenset({Grips.OUTSIDE, Grips.INSIDE, Grips.CENTRES})
"""What a holder takes hold of, where it needs a size and a length."""
ALL_OF_IT = 0.75
"""Share of the work's length above which a short grip is that of a thin disc, seated against the jaws' steps."""
SLENDER_CHUCK, SLENDER_CENTRE = 4.0, 12.0
"""Stick-out over diameter: above 4 D without support deflection matters; above 12 D with a centre a steady is due.
Turning practice as published in workshop texts (4 D, 10 to 15 D)."""
SHORT_GRIP, SHORTEST_GRIP = 0.35, 8.0
"""Grip over diameter below which cuts are light, and mm below which a short grip does not hold (from memory)."""


def gripped_facts(setup: OpenSetup, held: Held, holding: Holding, state: State) -> None:
    """Facts and checks of work that is gripped on a diameter, outside or in a bore."""
    if not held.grip or not holding.diameter:
        _nothing_to_grip(setup, held, holding)
        return
    start, end = held.grip
    grip, length = end - start, state.ends.length
    where = f"on {dia(holding.diameter)}" + (" in the bore" if holding.inside else "")
    if held.sides:
        where = f"on {dim(holding.diameter)} across flats"
    assumed = f", assumed: {held.assumed['grip']}" if "grip" in held.assumed else ""
    setup.tell("grip", "Grip", grip, note=f"{where}{' (assumed)' if 'on' in held.assumed else ''}{assumed}")
    if not holding.inside:
        setup.tell("stick_out", "Stick-out", start)
    if end > length + 1e-6 or grip <= 0 or start < -1e-6:
        words = f"grip of {dim(grip)} from {dim(start)} to {dim(end)} on work {dim(length)} long"
        setup.judge("grip-length", False, words)
        return
    share = _surface(setup, holding, state, (start, end))
    _range(setup, held, holding)
    if holding.throw > 1e-6:
        _offset(setup, held, holding)
    if held.machine.sort.work_turns:
        if not setup.has_failed("grip"):
            _grip_long_enough(setup, held, grip * min(1.0, share), holding.diameter)
        _slender(setup, held, holding, start)


def _nothing_to_grip(setup: OpenSetup, held: Held, holding: Holding) -> None:
    """No size and no length: a mandrel without a hole fails, what could be gripped somehow is not known."""
    holder = held.holder
    if holder is None or holder.sort.grips not in GRIPS_A_SIZE:
        return
    if holding.inside and not held.said.get("on"):
        words = f"the work has no hole along its axis for the {held.words}"
        setup.judge("grip", False, words, remedy="drill and bore it first, or hold the work outside")
    else:
        words = f"not known: nothing says on which size and how long the {held.words} holds the work"
        setup.judge("grip", None, words, remedy="write `on` and `grip`: on 40 mm, grip 15 mm")


def _surface(setup: OpenSetup, holding: Holding, state: State, span: tuple[float, float]) -> float:
    """Whether the gripped surface is there; gives the share of it that is."""
    size, sides = holding.diameter or 0.0, setup.held.sides
    where = f"{dim(span[0])} to {dim(span[1])} from the face"
    if sides:
        share = _share_of_flats(state, holding, size, sides, span)
        words = f"held on {sides} flats, {dim(size)} across, {where}: {100 * share:.0f} % of them is there"
    else:
        share = held_surface(state, holding, size, *span)
        words = f"held on {dia(size)}, {where}: {100 * share:.0f} % of that round surface is there"
    proud = 0.0 if sides else _in_the_way(state, holding, size, span)
    if share > ENOUGH and proud:
        side = "is narrower there" if holding.inside else "stands proud of it there"
        setup.judge("grip", False, f"{words}, but metal at {dia(proud)} {side}: the jaws do not close on it")
    else:
        setup.judge(
            "grip", share > ENOUGH, words, tight=share < WHOLE, remedy=_what_is_there(state, holding, span, sides)
        )
    return share


def _what_is_there(state: State, holding: Holding, span: tuple[float, float], sides: int) -> str:
    """What could be written instead: the round that is there; empty where none is."""
    there = [] if sides else [size for size, share in round_surfaces(state, holding, *span) if share > ENOUGH]
    if not there:
        return ""
    return f"a round of {number(there[0])} mm is there: write `on {number(there[0])} mm`, or hold it elsewhere"


def _share_of_flats(state: State, holding: Holding, size: float, sides: int, span: tuple[float, float]) -> float:
    if sides != TWO:
        return held_flats(state, holding, size, sides, *span)
    there = [f for f in flats(state, holding.frame(state.ends), *span) if abs(f.distance - size / 2) < 1e-4]
    low, high = state.bounds
    x, y = float(high[0] - low[0]), float(high[1] - low[1])
    other = y if abs(x - size) < abs(y - size) else x
    return min(1.0, sum(f.area for f in there) / (TWO * other * (span[1] - span[0])))


def _in_the_way(state: State, holding: Holding, size: float, span: tuple[float, float]) -> float:
    """Diameter within the grip that keeps jaws from closing on the size: larger outside, smaller in a bore; or 0."""
    frame = TurningFrame(holding.out, state.ends, holding.gripped_axis)
    start, end = span[0] + 0.02, span[1] - 0.02
    if end <= start:
        return 0.0
    if holding.inside:
        bore = 2 * float(min(state.profile(frame, start, end).inner, default=size / 2))
        return bore if 0 < bore < size - PROUD else 0.0
    widest = 2 * state.swing(frame, start, end)
    return widest if widest > size + PROUD else 0.0


def _range(setup: OpenSetup, held: Held, holding: Holding) -> None:
    holder, size = held.holder, holding.diameter or 0.0
    if holder is None:
        return
    turned_round = setup.held.reversed_jaws
    fits = holder.holds_inside(size) if holding.inside else holder.holds_outside(size, reversed_jaws=turned_round)
    if fits is None:
        return
    limits = _range_words(holder, inside=holding.inside, turned_round=turned_round)
    name = f"{holder.usual_name}, outside jaws," if turned_round else holder.usual_name
    on = f"{dim(size)} across flats" if held.sides else dia(size)
    words = f"{name} on {on}" + (f": takes {limits}" if limits else "")
    setup.judge("holding-range", fits, words)
    if fits and holder.sort.closes:
        collet = holder.collet_for(size)
        setup.found.facts.append(told("collet", "Collet", f"{holder.collet_series} {dim(collet or size)} {MM}".strip()))


def _range_words(holder: Holder, *, inside: bool, turned_round: bool) -> str:
    if turned_round and holder.reversed_jaws is not None:
        return _span(holder.reversed_jaws)
    if inside:
        return _span(holder.inside) if holder.inside else ", ".join(dim(size) for size in holder.sizes)
    if holder.sort.closes and holder.sizes:
        least = min(holder.sizes) - holder.collapse
        return _span(Range(least, max(holder.sizes))) if least > 0 else f"up to {dim(max(holder.sizes))} {MM}"
    return _span(holder.outside) if holder.outside else ""


def _span(sizes: Range) -> str:
    return f"{dim(sizes.low)} to {dim(sizes.high)} {MM}"


def _offset(setup: OpenSetup, held: Held, holding: Holding) -> None:
    dx, dy = (a - b for a, b in zip(holding.axis, holding.gripped_axis, strict=True))
    angle = holding.frame(setup.before.ends).work_angle(math.degrees(math.atan2(dy, dx)))
    towards = f"towards {degrees(turned(angle))}"
    setup.tell("throw", "Axis off the gripped surface", holding.throw, note=towards)
    swing = "on the gripped surface, in one turn"
    setup.tell("dial_swing", "Dial gauge swings", 2 * holding.throw, "mm", "size", note=swing)
    setup.found.cautions.append(caution("offset"))
    holder = held.holder
    if holder and holder.throw and holding.throw > holder.throw + 1e-6:
        words = f"the axis lies {dim(holding.throw)} off; the {held.words} goes to {dim(holder.throw)}"
        setup.judge("throw", False, words)
    if holder and not holder.sort.offset:
        words = f"a {held.words} does not hold work off its axis (got {number(holding.throw)} mm)"
        setup.judge("throw", False, words)
    elif held.way is not None and held.way.row.packs:
        packing, working = worked(three_jaw_packing, holding.throw, holding.diameter or 0.0)
        then = "then set to the dial gauge"
        setup.tell("packing", "Packing under one jaw, about", packing.thickness, note=then, working=[working])


def _grip_long_enough(setup: OpenSetup, held: Held, grip: float, size: float) -> None:
    if held.holder is not None and held.holder.sort.grips is Grips.TABLE:
        return  # clamps do not hold by the length of a grip
    most = held.holder.jaw_length if held.holder and held.holder.jaw_length else 0.0
    if most and grip > most + 1e-6:
        words = f"{dim(most)} long; the rest of the grip lies inside the chuck"
        setup.found.facts.append(told("jaws", "Jaws", words))
    least = SHORT_GRIP * size
    words = f"grip {dim(round(grip, 2))} on {dia(size)}"
    if grip > ALL_OF_IT * setup.before.ends.length and grip < least:
        setup.judge("grip-length", True, f"{words}, a thin disc against the jaws: light cuts", tight=True)
    elif grip < min(least, SHORTEST_GRIP):
        setup.judge("grip-length", False, f"{words}: too short to hold")
    elif grip < least:
        setup.judge("grip-length", True, f"{words} is short: light cuts", tight=True)


def _slender(setup: OpenSetup, held: Held, holding: Holding, stick: float) -> None:
    least = _thinnest(setup.before, holding, stick)
    if least <= 0 or holding.inside:
        return
    ratio = stick / least
    supported = held.held_up.there
    note = "supported" if supported else "without support"
    setup.tell("slenderness", "Stick-out over diameter", round(ratio, 2), "1", "ratio", note=note, desk=True)
    if ratio > 0.75 * (SLENDER_CENTRE if supported else SLENDER_CHUCK):
        setup.found.cautions.append(caution("slender"))


def _thinnest(state: State, holding: Holding, stick: float) -> float:
    """Diameter that resists bending: of the raw work between face and holder, its smallest."""
    if stick <= 0.2:
        return 0.0
    frame = holding.frame(state.ends)
    steps = 8
    return min(2 * state.swing(frame, stick * i / steps + 0.01, stick * (i + 1) / steps - 0.01) for i in range(steps))
