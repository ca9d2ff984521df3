"""Does the set-up hold: is the holder there, is the gripped surface there, is there room to turn?"""

from __future__ import annotations

from methodsheets.method.gripping import gripped_facts
from methodsheets.method.hanging import by_class, setup_run_out
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.spinning import spinning_facts
from methodsheets.operations.facts import told
from methodsheets.operations.say import MM, dim
from methodsheets.operations.setups import Held
from methodsheets.sheet.model import Working
from methodsheets.workpiece import State, VicePose, held_in_vice
from methodsheets.workpiece.datum import FaceName

FLAT_ENOUGH, FLAT_TIGHT = 0.6, 0.75
"""Share of the jaw's face that must meet flat metal (common practice, an estimate)."""
TALL, TOO_TALL = 2.5, 5.0
"""Height above the jaws over the grip: from where cuts are light, and where the work tips out (common practice)."""
OPPOSITE: dict[FaceName, FaceName] = {
    "front": "back", "back": "front", "left": "right", "right": "left", "top": "bottom", "bottom": "top",
}  # fmt: skip


def set_up_facts(setup: OpenSetup) -> None:
    """Facts, checks and cautions of a set-up that has just been made."""
    held, state = setup.held, setup.before
    if held.pose:
        _vice(setup, held.pose, state)
    elif held.holding:
        gripped_facts(setup, held, held.holding, state)
        if held.machine.sort.work_turns:
            spinning_facts(setup, held, held.holding, state)
    _holder_there(setup, held)


def _holder_there(setup: OpenSetup, held: Held) -> None:
    holder, machine = held.holder, held.machine
    run_out = setup_run_out(setup) if held.holding else None
    if run_out is not None:
        note, working = _read_as(setup)
        setup.tell("run_out", "Run-out to expect", run_out, "mm", "size", note=note, working=working)
    if holder is None:
        if not machine.sort.by_hand:
            setup.judge("holding", False, f"this workshop has no {held.words} for the {machine.name}")
        return
    if held.carrier is None and not holder.goes_on(machine.key, machine.kind):
        setup.judge("holding", False, f"the {held.words} does not go on the {machine.name}")


def _read_as(setup: OpenSetup) -> tuple[str, list[Working]]:
    """When a run-out holds, and what it was worked out from."""
    holder, found = setup.held.holder, by_class(setup)
    if found is None or holder is None or setup.held.said.get("run-out") is not None:
        return (holder.run_out_note if holder is not None and holder.run_out_note else "total reading"), []
    at = f"{dim(found[0].test_length)} from its nose"
    return f"total reading of a class {holder.collet_class} collet, {at}; taper and spindle come on top", [found[1]]


def _vice(setup: OpenSetup, pose: VicePose, state: State) -> None:
    length, width, height = pose.size
    size = f"{dim(length)} × {dim(width)} × {dim(height)} {MM}: left to right, to and fro, high"
    setup.found.facts.append(told("size", "Work as it stands", size))
    if not setup.held.grip:
        return
    grip = setup.held.grip[1] - setup.held.grip[0]
    setup.tell("grip", "Between the jaws", grip)
    setup.tell("stick_out", "Above the jaws", height - grip)
    if grip > height:
        setup.judge("grip-length", False, f"the jaws grip {dim(grip)} of work that is only {dim(height)} high")
        return
    for side, words in ((pose.towards, "moving jaw, towards you"), (OPPOSITE[pose.towards], "fixed jaw")):
        share = held_in_vice(state, pose, grip, side=side)
        words = f"{words}: {100 * share:.0f} % of the face is flat metal"
        setup.judge("grip", share > FLAT_ENOUGH, words, tight=share < FLAT_TIGHT)
    _jaws(setup, grip, width, height)


def _jaws(setup: OpenSetup, grip: float, width: float, height: float) -> None:
    holder = setup.held.holder
    if holder and holder.opening:
        words = f"the work is {dim(width)} between the jaws; the vice opens {dim(holder.opening)}"
        setup.judge("holding-range", width <= holder.opening + 1e-6, words)
    if holder and holder.jaw_height and grip > holder.jaw_height + 1e-6:
        words = f"grip {dim(grip)}, but the jaws are {dim(holder.jaw_height)} high"
        setup.judge("grip-length", False, words)
    above = height - grip
    if (grip < 0.2 * height and grip < 5.0) or above > TOO_TALL * grip:
        setup.judge("grip-length", False, f"only {dim(grip)} of {dim(height)} is between the jaws")
    elif above > TALL * grip:
        setup.judge("grip-length", True, f"{dim(grip)} of {dim(height)} is between the jaws: light cuts", tight=True)
    if height - grip > 3 * width:
        words = f"the work stands {dim(height - grip)} above the jaws and is {dim(width)} thick"
        setup.judge("slender", False, words)
