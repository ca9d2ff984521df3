"""Does the set-up hold: is the gripped surface there, does the bar pass the spindle, does the work clear the bed?"""

from __future__ import annotations

import math

from methodsheets.geometry import Axis
from methodsheets.method.job import DoneSetup, Job
from methodsheets.method.model import Check, Fact
from methodsheets.operations.cautions import caution
from methodsheets.operations.facts import fact, worked
from methodsheets.operations.say import degrees, diameter, number
from methodsheets.operations.setups import Held
from methodsheets.trade.holding import three_jaw_packing
from methodsheets.workpiece import Holding, State, held_flats, held_in_vice, held_surface, unbalance
from methodsheets.workshop.holding import Holding as Holder

WHOLE = 0.98
"""Share of the gripped surface that must be there; the rest may be lost to a cross hole or a keyway."""
SLENDER_CHUCK, SLENDER_CENTRE = 4.0, 12.0
"""Stick-out over diameter: above 4 D without support deflection matters; above 12 D with a centre a steady is due.
Turning practice as published in workshop texts (4 D, 10 to 15 D)."""
UNBALANCE_FORCE = 15.0
"""N: out-of-balance force at which a small lathe starts to shake; common practice, an estimate (from memory)."""
MATTERS = 30.0
"""g·mm below which out-of-balance work is not worth a caution on a hobby lathe (from memory)."""


def set_up_facts(job: Job, setup: DoneSetup) -> None:
    """Facts, checks and cautions of a set-up that has just been made."""
    held, state = setup.held, setup.before
    if held.pose:
        _vice(setup, held, state)
    elif held.holding:
        _gripped(setup, held, held.holding, state)
        if held.machine.kind == "lathe":
            _lathe(job, setup, held, held.holding, state)
    _holder_there(setup, held)


def _holder_there(setup: DoneSetup, held: Held) -> None:
    line = setup.line
    if held.holder is None and held.machine.kind not in ("bench", "press", "hearth"):
        setup.checks.append(
            Check("holding", "failed", f"this workshop has no {held.words} for the {held.machine.name}", line)
        )
        return
    if (
        held.holder
        and not held.words.startswith("rotary table with")
        and not held.holder.goes_on(held.machine.key, held.machine.kind)
    ):
        setup.checks.append(
            Check("holding", "failed", f"the {held.words} does not go on the {held.machine.name}", line)
        )
    if held.holder and held.holder.run_out:
        setup.facts.append(
            fact(
                "run_out",
                "Run-out to expect",
                _run_out(held),
                "mm",
                "size",
                [],
                "",
                held.holder.run_out_note or "total reading",
            )
        )


def _run_out(held: Held) -> float:
    said = held.said.get("run-out")
    return float(said) if said is not None else held.holder.run_out if held.holder else 0.0


def _vice(setup: DoneSetup, held: Held, state: State) -> None:
    pose, line = held.pose, setup.line
    assert pose is not None
    length, width, height = pose.size
    setup.facts.append(
        Fact(
            "size",
            "Work as it stands",
            f"{number(length)} × {number(width)} × {number(height)} mm: left to right, to and fro, high",
        )
    )
    if not held.grip:
        return
    grip = held.grip[1] - held.grip[0]
    setup.facts.append(fact("grip", "Between the jaws", grip, "mm", "length"))
    setup.facts.append(fact("stick_out", "Above the jaws", height - grip, "mm", "length"))
    if grip > height:
        setup.checks.append(
            Check(
                "grip-length",
                "failed",
                f"the jaws grip {number(grip)} of work that is only {number(height)} high",
                line,
            )
        )
        return
    opposite = {"front": "back", "back": "front", "left": "right", "right": "left", "top": "bottom", "bottom": "top"}[
        pose.towards
    ]
    for side, words in ((pose.towards, "moving jaw, towards you"), (opposite, "fixed jaw")):
        share = held_in_vice(state, pose, grip, side=side)  # type: ignore[arg-type]
        state_word = "passed" if share > 0.6 else "failed"
        setup.checks.append(
            Check(
                "grip", state_word, f"{words}: {100 * share:.0f} % of the face is flat metal", line, tight=share < 0.75
            )
        )
    holder = held.holder
    if holder and holder.opening:
        fits = width <= holder.opening + 1e-6
        setup.checks.append(
            Check(
                "holding-range",
                "passed" if fits else "failed",
                f"the work is {number(width)} between the jaws; the vice opens {number(holder.opening)}",
                line,
            )
        )
    if holder and holder.jaw_height and grip > holder.jaw_height + 1e-6:
        setup.checks.append(
            Check(
                "grip-length", "failed", f"grip {number(grip)}, but the jaws are {number(holder.jaw_height)} high", line
            )
        )
    if grip < 0.2 * height and grip < 5.0:
        setup.checks.append(
            Check("grip-length", "failed", f"only {number(grip)} of {number(height)} is between the jaws", line)
        )
    if height - grip > 3 * width:
        setup.checks.append(
            Check(
                "slender",
                "failed",
                f"the work stands {number(height - grip)} above the jaws and is {number(width)} thick",
                line,
            )
        )


def _gripped(setup: DoneSetup, held: Held, holding: Holding, state: State) -> None:
    line, length = setup.line, state.ends.length
    if not held.grip or not holding.diameter:
        return
    start, end = held.grip
    grip = end - start
    setup.facts.append(
        fact(
            "grip",
            "Grip",
            grip,
            "mm",
            "length",
            [],
            "",
            f"on {diameter(holding.diameter)}" + (" in the bore" if holding.inside else ""),
        )
    )
    if not holding.inside:
        setup.facts.append(fact("stick_out", "Stick-out", start, "mm", "length"))
    if end > length + 1e-6 or grip <= 0 or start < -1e-6:
        words = f"grip of {number(grip)} from {number(start)} to {number(end)} on work {number(length)} long"
        setup.checks.append(Check("grip-length", "failed", words, line))
        return
    _surface(setup, held, holding, state, line)
    _range(setup, held, holding, line)
    if holding.throw > 1e-6:
        _offset(setup, held, holding, line)
    if held.machine.kind != "lathe":
        return
    most = held.holder.jaw_length if held.holder and held.holder.jaw_length else 0.0
    if most and grip > most + 1e-6:
        setup.facts.append(Fact("jaws", "Jaws", f"{number(most)} long; the rest of the grip lies inside the chuck"))
    least = 0.35 * holding.diameter
    if grip < min(least, 8.0):
        setup.checks.append(
            Check(
                "grip-length", "failed", f"grip {number(grip)} on {diameter(holding.diameter)}: too short to hold", line
            )
        )
    elif grip < least:
        setup.checks.append(
            Check(
                "grip-length",
                "passed",
                f"grip {number(grip)} on {diameter(holding.diameter)} is short: light cuts",
                line,
                tight=True,
            )
        )
    _slender(setup, holding, start, line)


def _surface(setup: DoneSetup, held: Held, holding: Holding, state: State, line: int) -> None:
    start, end = held.grip or (0.0, 0.0)
    size = holding.diameter or 0.0
    span = f"{number(start)} to {number(end)} from the face"
    if held.sides:
        share = held_flats(state, holding, size, held.sides, start, end)
        words = f"held on {held.sides} flats, {number(size)} across, {span}: {100 * share:.0f} % of them is there"
    else:
        share = held_surface(state, holding, size, start, end)
        words = f"held on {diameter(size)}, {span}: {100 * share:.0f} % of that round surface is there"
    setup.checks.append(Check("grip", "passed" if share > WHOLE else "failed", words, line))


def _range(setup: DoneSetup, held: Held, holding: Holding, line: int) -> None:
    holder, size = held.holder, holding.diameter or 0.0
    if holder is None:
        return
    fits = holder.holds_inside(size) if holding.inside else holder.holds_outside(size)
    if fits is None:
        return
    limits = _range_words(holder, holding.inside)
    setup.checks.append(
        Check(
            "holding-range",
            "passed" if fits else "failed",
            f"{holder.usual_name} on {diameter(size)}" + (f": takes {limits}" if limits else ""),
            line,
        )
    )
    if fits and holder.kind == "collet":
        collet = holder.collet_for(size)
        setup.facts.append(Fact("collet", "Collet", f"{holder.collet_series} {number(collet or size)} mm".strip()))


def _range_words(holder: Holder, inside: bool) -> str:
    if inside:
        return str(holder.inside) if holder.inside else ", ".join(f"{size:g}" for size in holder.sizes)
    if holder.kind == "collet" and holder.sizes:
        return f"{min(holder.sizes) - holder.collapse:g} to {max(holder.sizes):g}\u202fmm"
    return str(holder.outside) if holder.outside else ""


def _offset(setup: DoneSetup, held: Held, holding: Holding, line: int) -> None:
    dx, dy = (a - b for a, b in zip(holding.axis, holding.gripped_axis, strict=True))
    angle = holding.frame(setup.before.ends).work_angle(math.degrees(math.atan2(dy, dx)))
    setup.facts.append(
        fact(
            "throw", "Axis off the gripped surface", holding.throw, "mm", "length", [], "", f"towards {degrees(angle)}"
        )
    )
    setup.facts.append(
        fact(
            "dial_swing",
            "Dial gauge swings",
            2 * holding.throw,
            "mm",
            "size",
            [],
            "",
            "on the gripped surface, in one turn",
        )
    )
    setup.cautions.append(caution("offset"))
    holder = held.holder
    if holder and holder.throw and holding.throw > holder.throw + 1e-6:
        setup.checks.append(
            Check(
                "throw",
                "failed",
                f"the axis lies {number(holding.throw)} off; the {held.words} goes to {number(holder.throw)}",
                line,
            )
        )
    if holder and not holder.sort.offset:
        setup.checks.append(
            Check(
                "throw",
                "failed",
                f"a {held.words} does not hold work off its axis (got {number(holding.throw)} mm)",
                line,
            )
        )
    elif "three-jaw" in held.words:
        packing, working = worked(three_jaw_packing, holding.throw, holding.diameter or 0.0)
        setup.facts.append(
            fact(
                "packing",
                "Packing under one jaw, about",
                packing.thickness,
                "mm",
                "length",
                [working],
                "",
                "then set to the dial gauge",
            )
        )


def _slender(setup: DoneSetup, holding: Holding, stick: float, line: int) -> None:
    least = _thinnest(setup.before, holding, stick)
    if least <= 0 or holding.inside:
        return
    ratio = stick / least
    supported = "centre" in holding.support or "steady" in holding.support
    limit = SLENDER_CENTRE if supported else SLENDER_CHUCK
    setup.facts.append(
        fact(
            "slenderness",
            "Stick-out over diameter",
            ratio,
            "1",
            "ratio",
            [],
            "",
            "supported" if supported else "without support",
        )
    )
    if ratio > 0.75 * limit:
        setup.cautions.append(caution("slender"))


def _thinnest(state: State, holding: Holding, stick: float) -> float:
    """Diameter that resists bending: of the raw work between face and holder, its smallest."""
    if stick <= 0.2:
        return 0.0
    frame = holding.frame(state.ends)
    steps = 8
    return min(2 * state.swing(frame, stick * i / steps + 0.01, stick * (i + 1) / steps - 0.01) for i in range(steps))


def _lathe(job: Job, setup: DoneSetup, held: Held, holding: Holding, state: State) -> None:
    machine, line = held.machine, setup.line
    frame = holding.frame(state.ends)
    widest = 2 * state.swing(frame)
    if machine.swing_over_bed:
        fits = widest <= machine.swing_over_bed
        setup.checks.append(
            Check(
                "swing",
                "passed" if fits else "failed",
                f"the work sweeps {diameter(widest)}; the lathe swings {diameter(machine.swing_over_bed)} over the bed",
                line,
            )
        )
    over = machine.swing_over_cross_slide
    if over and widest > over:
        setup.checks.append(
            Check(
                "swing-cross-slide",
                "failed",
                f"the work sweeps {diameter(widest)}; only {diameter(over)} clears the cross-slide",
                line,
            )
        )
    if held.grip and held.holder and not holding.inside:
        _behind(setup, held, holding, state, line)
    found = unbalance(state, holding.axis)
    setup.unbalance = found.amount
    ceilings = [held.holder.limit_speed] if held.holder and held.holder.limit_speed else []
    if found.amount > MATTERS:
        ceiling = 30.0 / math.pi * math.sqrt(UNBALANCE_FORCE / (found.amount * 1e-6))
        setup.facts.append(fact("unbalance", "Out of balance", found.amount, "g*mm", "unbalance"))
        setup.facts.append(
            fact(
                "ceiling",
                "Speed ceiling from balance",
                10 * math.floor(ceiling / 10),
                "1/min",
                "spindle_speed",
                [],
                "",
                f"where it pulls {UNBALANCE_FORCE:g} N",
            )
        )
        setup.cautions.append(caution("unbalanced"))
        ceilings.append(10.0 * math.floor(ceiling / 10))
    setup.ceiling = min(ceilings) if ceilings else 0.0
    setup.cautions.append(caution("chuck-key"))
    del job


def _behind(setup: DoneSetup, held: Held, holding: Holding, state: State, line: int) -> None:
    """What sticks out behind the jaws must go into the chuck, or through the spindle."""
    assert held.grip is not None
    assert held.holder is not None
    rest = state.ends.length - held.grip[1]
    if rest <= 1.0:
        return
    frame = holding.frame(state.ends)
    wide = 2 * state.swing(frame, held.grip[1] + 0.01, state.ends.length)
    room = held.holder.jaw_length or 20.0
    if rest > room and held.machine.spindle_bore:
        bore = min(b for b in (held.machine.spindle_bore, held.holder.bore or math.inf) if b)
        fits = wide <= bore
        setup.checks.append(
            Check(
                "spindle-bore",
                "passed" if fits else "failed",
                f"{number(rest)} behind the jaws at {diameter(wide)}; the spindle passes {diameter(bore)}",
                line,
            )
        )
        if rest > held.machine.between_centres / 2 > 0:
            setup.cautions.append(caution("stock-behind"))


def spindle_axis(holding: Holding) -> Axis:
    """The axis of rotation in the frame of the work."""
    return Axis.upright(*holding.axis)
