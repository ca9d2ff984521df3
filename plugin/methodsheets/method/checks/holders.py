"""Does this way of holding hold this work? Every kind of holder that a workshop can have is checked as itself.

`CHECKS_OF` has a line for every kind: what is looked at beside size and length of the grip, or nothing where there is
nothing to look at.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from methodsheets.geometry import Axis
from methodsheets.method.job import Job
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.facts import told
from methodsheets.operations.say import dia, dim, number
from methodsheets.vocabulary.holding import Way
from methodsheets.workpiece import Holding, State, TurningFrame, is_slit

Look = Callable[[Job, OpenSetup], None]
"""Looks at one thing in a set-up that has just been made, and notes checks."""

FLATS_OF: Mapping[Way, tuple[int, ...]] = MappingProxyType({
    Way.THREE_JAW: (6,), Way.SOFT_JAWS: (6,), Way.FOUR_JAW: (4, 2), Way.FOUR_JAW_SCROLL: (4,), Way.COLLET: (6, 4),
})  # fmt: skip
"""How many flats a bar may have that such jaws hold: three jaws bear on a hexagon, four on a square or an oblong."""
ON_CORNERS: Mapping[Way, tuple[int, ...]] = MappingProxyType({Way.FOUR_JAW: (6,)})
"""How many flats a bar may have of which such jaws hold two and two corners: each jaw is set by itself (usual)."""
BEARS = 1.0
"""mm of thread within the grip from which on jaws spoil it."""
CENTRE_HOLE = 30.0
"""Degrees between the axis and the side of a 60° centre hole."""
OVERHANG = 1.25
"""Size of a block over that of the faceplate above which clamps find no slot (common practice, an estimate)."""
ON_THE_FACE, LAP = 0.5, 3.0
"""mm from the face within which clamps lie on it, and least width of a shoulder that they lie on (usual)."""
MANDREL_OUT = 25.0
"""mm that a mandrel between centres stands out at either end, for its carrier (usual, from memory)."""
FROM_END = 15.0
"""mm from an end within which its centre hole lies."""


def check_holder(job: Job, setup: OpenSetup) -> None:
    """Everything that belongs to the holder's own kind; nothing where the workshop has no such holder."""
    holder = setup.held.holder
    if holder is None:
        return
    for look in CHECKS_OF[holder.kind]:
        look(job, setup)


def tell_unchecked(setup: OpenSetup) -> None:
    """Where nothing of the holding was checked, the sheet says so, and why."""
    way = setup.held.way
    if not setup.found.checks and way is not None:
        reason = way.row.unchecked or "the workshop's file says nothing of its size"
        setup.found.facts.append(told("unchecked", "Holding", f"not checked: {reason}", desk=True))


# ------------------------------------------------------------------------------------------------ jaws
def _flats(_job: Job, setup: OpenSetup) -> None:
    """A hexagon in three jaws, a square or an oblong in four."""
    held = setup.held
    assert held.holder is not None
    if not held.sides or held.holder.kind not in FLATS_OF or held.sides in FLATS_OF[held.holder.kind]:
        return
    if held.sides in ON_CORNERS.get(held.holder.kind, ()):
        words = "two jaws bear on flats and two on corners: put soft packing under these"
        setup.judge("holding", True, words, tight=True)
        return
    shape = {6: "a hexagon", 4: "a square", 2: "an oblong bar"}[held.sides]
    right = "a three-jaw chuck" if held.sides == 6 else "a four-jaw chuck with independent jaws"
    words = f"{shape} in a {held.holder.usual_name}: not every jaw finds a flat"
    setup.judge("holding", False, words, remedy=f"hold it in {right}")


def _on_a_thread(job: Job, setup: OpenSetup) -> None:
    """Jaws on a finished thread spoil it."""
    held, holding = setup.held, setup.held.holding
    if holding is None or held.grip is None or holding.inside or holding.diameter is None:
        return
    frame = holding.frame(setup.before.ends)
    for done in job.operations:
        plan = done.plan
        outside = plan.cut.process.row.pitch_feed and plan.cut.process.row.from_outside
        if done.piece is not setup.piece or not outside or plan.inside or done.station.holding is None:
            continue
        there = sorted(frame.s_of(done.frame.z_of(s)) for s in (plan.sketch.start, plan.sketch.end))
        shared = min(there[1], held.grip[1]) - max(there[0], held.grip[0])
        if shared > BEARS and abs(plan.sketch.diameter - holding.diameter) < 0.5 * plan.cut.pitch + 0.2:
            words = (
                f"the {held.words} grips {dim(round(shared, 2))} of the finished thread {plan.sketch.diameter_words}"
            )
            remedy = "grip a plain part, or hold it in a split bush with that thread"
            setup.judge("grip", False, words, remedy=remedy)
            return


def _slit(_job: Job, setup: OpenSetup) -> None:
    """A ring that is slit through its wall springs shut in the jaws."""
    held, holding = setup.held, setup.held.holding
    if holding is None or held.grip is None or holding.inside:
        return
    frame, (start, end) = holding.frame(setup.before.ends), held.grip
    heights = [frame.z_of(start + share * (end - start)) for share in (0.2, 0.5, 0.8)]
    if all(is_slit(setup.before, holding.gripped_axis, z) for z in heights):  # a cross hole is open at one only
        words = "the ring is slit through its wall where it is gripped: it springs shut"
        remedy = "grip it before it is slit, or put a plug of the bore's size in it"
        setup.judge("grip", False, words, remedy=remedy)


# ------------------------------------------------------------------------------------------------ between centres
def _both_centre_holes(_job: Job, setup: OpenSetup) -> None:
    """Work between centres has a centre hole in either end."""
    holding = setup.held.holding
    if holding is None:
        return
    missing = [end for end in ("A", "B") if not has_centre_hole(setup.before, holding, setup.before.ends.of(end))]
    words = "both ends have their centre holes"
    if missing:
        ends = " and ".join(missing)
        words = f"end{'s' if len(missing) > 1 else ''} {ends} ha{'ve' if len(missing) > 1 else 's'} no centre hole"
    setup.judge("centre-hole", not missing, words)


def has_centre_hole(state: State, holding: Holding, z: float) -> bool:
    """Whether the end at z has a 60° centre hole on the axis of the set-up."""
    axis = Axis.upright(*holding.axis)
    return any(
        s.kind == "cone" and s.coaxial(axis) and abs(s.taper - CENTRE_HOLE) < 1.0 and abs(s.point[2] - z) < FROM_END
        for solid in state
        for s in solid.mesh().surfaces
    )


def _between_centres(_job: Job, setup: OpenSetup) -> None:
    """The work fits between headstock and tailstock."""
    machine, length = setup.held.machine, setup.before.ends.length
    if not machine.between_centres:
        return
    words = f"the work is {dim(round(length, 2))} long; the lathe takes {dim(machine.between_centres)} between centres"
    setup.judge("between-centres", length <= machine.between_centres, words)


# ------------------------------------------------------------------------------------------------ mandrels
def _mandrel_fits_the_bed(_job: Job, setup: OpenSetup) -> None:
    """A mandrel between centres is longer than the work by what stands out at either end."""
    machine, length = setup.held.machine, setup.before.ends.length
    if machine.between_centres and length + 2 * MANDREL_OUT > machine.between_centres:
        words = f"the work is {dim(round(length, 2))} long and its mandrel {dim(round(length + 2 * MANDREL_OUT, 2))}; "
        words += f"the lathe takes {dim(machine.between_centres)} between centres"
        setup.judge("between-centres", False, words)


def _inside_thread(job: Job, setup: OpenSetup) -> None:
    """A threaded mandrel needs its thread in the work."""
    threads = [
        done for done in job.operations
        if done.piece is setup.piece and done.plan.cut.process.row.pitch_feed
        and (done.plan.inside or not done.plan.cut.process.row.from_outside)
    ]  # fmt: skip
    words = (
        f"the work has {threads[-1].plan.sketch.diameter_words} inside" if threads else "the work has no inside thread"
    )
    setup.judge("grip", bool(threads), f"{words} for the {setup.held.words}")


# ------------------------------------------------------------------------------------------------ blocks in the lathe
def _block_in_jaws(_job: Job, setup: OpenSetup) -> None:
    """Independent jaws hold a block by its two pairs of sides, three jaws do not."""
    held, pose = setup.held, setup.held.pose
    if pose is None or held.holder is None:
        return
    if not held.holder.sort.set_by_dial:
        words = f"a block does not sit in a {held.holder.usual_name}: it needs jaws that move each for itself"
        setup.judge("holding", False, words, remedy="hold it in the four-jaw chuck, or on the faceplate")
        return
    sizes = pose.size[:2]
    for size in sizes:
        if held.holder.outside is not None and not held.holder.outside.holds(size):
            words = f"the block is {dim(size)} across; the {held.words} takes {held.holder.outside}"
            setup.judge("holding-range", False, words)
    grip = held.said.get("grip", 0.0)
    if grip and grip > pose.size[2]:
        setup.judge("grip-length", False, f"the jaws grip {dim(grip)} of a block that is {dim(pose.size[2])} thick")
    elif grip and grip < min(8.0, 0.25 * pose.size[2]):
        setup.judge("grip-length", False, f"only {dim(grip)} of {dim(pose.size[2])} is between the jaws")


def _block_on_the_plate(_job: Job, setup: OpenSetup) -> None:
    """A block on the faceplate lies within it, with room for clamps round it."""
    held, pose = setup.held, setup.held.pose
    if pose is None or held.holder is None or not held.holder.body_diameter:
        return
    corner, plate = math.hypot(*pose.size[:2]), held.holder.body_diameter
    words = f"the work is {dim(round(corner, 1))} from corner to corner; the {held.words} is {dia(plate)}"
    setup.judge("holding-range", corner <= OVERHANG * plate, words, tight=corner > plate)


def _shoulder_for_clamps(_job: Job, setup: OpenSetup) -> None:
    """Clamps on turned work lie on a shoulder that looks at you, or on the face itself."""
    held, holding = setup.held, setup.held.holding
    if holding is None or held.grip is None or holding.diameter is None or held.grip[0] <= ON_THE_FACE:
        return
    frame = TurningFrame(holding.out, setup.before.ends, holding.gripped_axis)
    in_front = 2 * setup.before.swing(frame, 0.0, held.grip[0] - 0.02)
    if in_front > holding.diameter - 2 * LAP:
        words = f"nothing for clamps to lie on {dim(round(held.grip[0], 2))} from the face: the work is "
        words += f"{dia(in_front)} in front of it, and {dia(holding.diameter)} where it is clamped"
        setup.judge("clamps", False, words, remedy="clamp it on its face (`stick-out 0 mm`), or on a shoulder")


# ------------------------------------------------------------------------------------------------ angle plate, vees
def _on_the_angle_plate(job: Job, setup: OpenSetup) -> None:
    """A block on an angle plate stands against it by a good part of its height; in the lathe it is on the faceplate."""
    held, pose = setup.held, setup.held.pose
    if held.machine.sort.work_turns and job.workshop.holding_of(Way.FACEPLATE, held.machine) is None:
        setup.judge("holding", False, f"nothing carries an angle plate in the {held.machine.name}: no faceplate")
        return
    if pose is None or held.holder is None or not held.holder.height:
        return
    height = pose.size[2]
    words = f"the work stands {dim(round(height, 1))} high against an angle plate of {dim(held.holder.height)}"
    setup.judge("slender", height <= 2.5 * held.holder.height, words, tight=height > 1.5 * held.holder.height)


def _in_vees(_job: Job, setup: OpenSetup) -> None:
    """Vee blocks hold round work."""
    held, holding = setup.held, setup.held.holding
    if held.pose is not None:
        words = f"a block does not lie in a {held.words}: vees hold round work"
        setup.judge("holding", False, words, remedy="hold it in the vice, or clamp it to the table")
    elif holding is not None and held.sides:
        words = f"a bar with {number(held.sides)} flats rocks in a vee"
        setup.judge("holding", held.sides == 4, words, tight=True)


JAWS: tuple[Look, ...] = (_flats, _on_a_thread, _slit, _block_in_jaws)
CHECKS_OF: Mapping[Way, tuple[Look, ...]] = MappingProxyType({
    Way.THREE_JAW: JAWS,
    Way.FOUR_JAW: JAWS,
    Way.FOUR_JAW_SCROLL: JAWS,
    Way.SOFT_JAWS: JAWS,
    Way.COLLET: JAWS,
    Way.CENTRES: (_both_centre_holes, _between_centres, _on_a_thread),
    Way.MANDREL: (),
    Way.EXPANDING_MANDREL: (),
    Way.THREADED_MANDREL: (_inside_thread,),
    Way.MANDREL_BETWEEN_CENTRES: (_mandrel_fits_the_bed,),
    Way.FACEPLATE: (_block_on_the_plate, _shoulder_for_clamps),
    Way.FIXTURE: (_shoulder_for_clamps,),
    Way.TAILSTOCK_CENTRE: (),
    Way.STEADY: (),
    Way.TRAVELLING_STEADY: (),
    Way.VICE: (),
    Way.DRILL_VICE: (),
    Way.TOOLMAKERS_VICE: (),
    Way.CLAMPS: (),
    Way.ANGLE_PLATE: (_on_the_angle_plate,),
    Way.VEE_BLOCK: (_in_vees,),
    Way.SQUARE_COLLET_BLOCK: (_on_a_thread, _slit),
    Way.HEXAGON_COLLET_BLOCK: (_on_a_thread, _slit),
    Way.ROTARY_TABLE: (_flats, _on_a_thread, _slit),
    Way.DIVIDING_HEAD: (_on_a_thread, _slit),
    Way.SAW_VICE: (),
    Way.BENCH_VICE: (_on_a_thread, _slit),
    Way.PRESS_BLOCKS: (),
    Way.MAGNET: (),
    Way.BRAZING_BRICKS: (),
    Way.BY_HAND: (),
})  # fmt: skip
"""What is looked at for every kind of holder."""
