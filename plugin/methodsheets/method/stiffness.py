"""How far do the half-made part and the tool bend under the cut, and what taper or barrel does that leave?

The bending of the work is worked out from the sections of the solid along its length, as it stands before and after
the cut: a stepped beam held in the chuck, in chuck and centre, or between centres. The same push at the same place
before and after shows what support the cut takes away. The force is that of the deepest pass; finishing passes bend
less in proportion.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from methodsheets.geometry import Axis, sections_along, shape_changes
from methodsheets.method.crooked import NotModelled
from methodsheets.method.crooked_turning import Stretch, crooked_bends
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.rig import STEADY_WIDTH, flutes
from methodsheets.method.straighter import CLEAR_OF_JAWS, straighter
from methodsheets.operations.facts import material_rests, told, worked
from methodsheets.operations.say import both, resting
from methodsheets.operations.sureness import between
from methodsheets.sheet.model import Caution, Working
from methodsheets.sheet.spread import BENDING, CUTTER_BENDS, Spread
from methodsheets.trade.bending.beams import STEEL
from methodsheets.trade.bending.stiffness import Piece, bar_deflection, pieces_of, turned_shape, work_bends
from methodsheets.trade.bending.tool_overhang import CARBIDE, boring_bar_bends, end_mill_bends
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.process import Bends
from methodsheets.workpiece import State

SHORTEST = 1.0
"""mm between sections, and a share of the stick-out beyond that."""
MOST_STEPS = 24
PLACES = 7
"""Places along the cut at which the tool is tried."""
NOTICE = 0.0005
"""mm: below half a micrometre the bending is not worth a line on the sheet."""
TAPER = 0.005
"""mm on the diameter: below this the shape that is left is not worth a line."""
FAULT = 0.1
"""mm on the diameter out of parallel that no finishing pass takes off: a fault of the method (from memory)."""
PUSH = 0.5
"""Share of the cutting force that pushes across the work: feed and passive force together (usual, ±30 %)."""
ALONE, SUPPORTED = "chuck", "chuck and centre"


@dataclass(frozen=True)
class Beam:
    """The work between its holder and its face, or its support, as a stepped bar."""

    lengths: tuple[float, ...]
    diameters: tuple[float, ...]
    """mm, from the holder outwards: the round bar with the same least second moment of area."""

    def up_to(self, length: float) -> Beam:
        """The part of it next to the holder, that long in mm."""
        lengths, diameters, left = [], [], length
        for step, size in zip(self.lengths, self.diameters, strict=True):
            if left > 0:
                lengths.append(min(step, left))
                diameters.append(size)
            left -= step
        return Beam(tuple(lengths), tuple(diameters))

    def longer(self, by: float) -> Beam:
        """The same held so much longer, in mm, or shorter where negative: the holder takes hold elsewhere."""
        if not by:
            return self
        if by > 0:
            return Beam((by, *self.lengths), (self.diameters[0], *self.diameters))
        lengths, diameters, gone = [], [], -by
        for step, size in zip(self.lengths, self.diameters, strict=True):
            left = step - max(0.0, min(step, gone))
            gone -= step
            if left > 0:
                lengths.append(left)
                diameters.append(size)
        return Beam(tuple(lengths), tuple(diameters))

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The same for the bending integral."""
        return pieces_of(self.lengths, self.diameters)


@dataclass(frozen=True)
class Bending:
    """Work held in a chuck alone, and where the tool pushes it; lengths in mm from the holder."""

    beam: Beam
    push: float
    near: float
    far: float
    modulus: float

    def held_longer(self, by: float) -> float | None:
        """How far it would bend at the tool, mm, held so much longer (shorter where negative).

        None where the jaws would then stand in the way of the cut.
        """
        if self.near + by < CLEAR_OF_JAWS:
            return None
        beam = self.beam.longer(by)
        places = (self.near + by + (self.far - self.near) * i / (PLACES - 1) for i in range(PLACES))
        return max(bar_deflection(beam.pieces, self.push, at, self.modulus, ALONE)[0] for at in places)

    def left(self, support: str, by: float = 0.0) -> tuple[float, str]:
        """How far the cut is left out of parallel, mm on the diameter, and its shape, held so much longer."""
        beam = self.beam.longer(by)
        near, far = self.near + by, min(self.far + by, sum(beam.lengths))
        shape = turned_shape(self.push, beam.lengths, beam.diameters, support, near, far, self.modulus)
        return shape.left_over_cut, shape.shape


def stiffness_facts(setup: OpenSetup, done: WorkedOperation) -> Bending | None:
    """Bending of the work and of the tool, and the shape that it leaves.

    Returns:
        how the work bends, where it is held in a chuck alone and bends enough to notice
    """
    if done.worked.force <= 0:
        return None
    try:
        what = done.plan.cut.process.row.bends
        if bends_in_holding(setup, done):
            return _work(setup, done)
        if what is Bends.BAR and done.station.holding is not None:
            _boring_bar(done)
        elif what is Bends.CUTTER:
            _end_mill(done)
    except (OutOfRange, ValueError):
        pass  # the solid has a section without metal there, or the tool no sizes: nothing to say
    return None


def _tell_bending(
    done: WorkedOperation, key: str, label: str, bends: float, note: str, working: Working, spread: Spread
) -> None:
    """Note how far (mm) something bends under the force of the cut, on the page for the desk."""
    done.tell(
        key, label, bends, "mm", "clearance", note=note, working=[_by_force(done, working)], desk=True, spread=spread
    )


def _by_force(done: WorkedOperation, working: Working) -> Working:
    """The working of a bending, with what the force behind it rests on."""
    return replace(working, by_names=bending_rests(done))


def bending_rests(done: WorkedOperation) -> tuple[str, ...]:
    """What a bending of the work rests on that was recalled: its force, and how stiff the metal is."""
    force = done.worked.told("force")
    metal = material_rests(done.piece.material, "modulus", "poisson") if bends_in(done) else ()
    return (*(force.recalled if force is not None else ()), *metal)


def bends_in(done: WorkedOperation) -> bool:
    """Whether the work bends under the cut, and not the tool."""
    return done.plan.cut.process.row.bends is Bends.WORK


# ------------------------------------------------------------------------------------------------ the work
def _work(setup: OpenSetup, done: WorkedOperation) -> Bending | None:
    stretch = stretch_of(setup, done, setup.piece.gaps)
    if stretch.has_gaps(done):
        _crooked(setup, done, stretch)
        return None
    low, high, support = stretch.low, stretch.high, stretch.support
    before, after = (_beam(state, done, low, high) for state in (done.before, done.after))
    if before is None or after is None:
        return None
    push, modulus = PUSH * done.worked.force, setup.piece.material.modulus
    near = min(max(high - min(done.plan.sketch.end, high), 0.5), high - low - 0.01)
    far = min(max(high - done.plan.sketch.start, near + 0.01), high - low - 0.01)
    places = [near + (far - near) * i / (PLACES - 1) for i in range(PLACES)]
    travels = done.station.held_up.steady.row.travels
    bends = [_bend(after, push, at, modulus, support, travels=travels) for at in places]
    worst = max(range(PLACES), key=lambda i: bends[i])
    if bends[worst] < NOTICE:
        return None
    earlier = _bend(before, push, places[worst], modulus, support, travels=travels)
    beam, held = _propped(after, places[worst], support) if travels else (after, support)
    _, working = worked(work_bends, push, list(beam.lengths), list(beam.diameters), places[worst], held, modulus)
    steady = "; the travelling steady bears behind the tool" if travels else ""
    note = f"push {both(push, 'force')}{steady}; {both(earlier, 'clearance')} before the cut"
    _tell_bending(done, "deflection", "Work bends at the tool", bends[worst], note, working, BENDING)
    if earlier > 0 and earlier < 0.9 * bends[worst]:
        share = 100.0 * earlier / bends[worst]
        note = "of what it was before the cut" + ("; leave this metal in as long as you can" if share < 50 else "")
        done.tell("stiffness_left", "Stiffness left at the tool", share, "%", "percent", note=note, desk=True)
    if done.plan.cut.process.row.shaped and not travels:
        _shape(setup, done, Bending(after, push, near, far, modulus), support)
    return Bending(after, push, near, far, modulus) if support == ALONE and not travels else None


def _crooked(setup: OpenSetup, done: WorkedOperation, stretch: Stretch) -> None:
    """The same of a shaft whose core is cut out: a frame, not a bar."""
    places = places_of(done, stretch)
    try:
        if done.station.held_up.steady.row.travels:
            raise NotModelled("a travelling steady moves with the tool")
        bends = crooked_bends(setup, done, done.after, stretch, places)
    except NotModelled as reason:
        done.found.facts.append(told("deflection", "Work bends at the tool", f"not known, because {reason}", desk=True))
        return
    worst = max(range(len(places)), key=bends.worst.__getitem__)
    if bends.worst[worst] < NOTICE:
        return
    note = f"push {both(stretch.push, 'force')}; {both(bends.least[worst], 'clearance')} in its stiffest direction"
    note += ": the core that held the ends in line is out"
    done.tell(
        "deflection",
        "Work bends at the tool",
        bends.worst[worst],
        "mm",
        "clearance",
        note=note,
        desk=True,
        spread=BENDING,
        rests=bending_rests(done),
    )
    left = 2 * (max(bends.worst) - min(bends.least))
    if done.plan.cut.process.row.shaped and left >= TAPER:
        ends = between(BENDING, left, "clearance")
        said = resting(both(left, "clearance"), bending_rests(done))
        words = f"out of round, and not parallel, by {said} ({ends}) on the diameter, "
        words += "before the finishing pass"
        done.found.facts.append(told("taper_left", "Shape left", words, desk=True))
        if left > FAULT and not done.has_failed("slender"):
            bent = f"without its core the work bends so far that it is left {said} ({ends}) out of "
            bent += f"round: {BENDING.verdict(left, FAULT)} the {both(FAULT, 'clearance')} of a fault"
            done.judge(
                "stiffness", False, bent, remedy="turn the ends before the core is cut out, or write a lighter `depth`"
            )


def _bend(beam: Beam, push: float, at: float, modulus: float, support: str, *, travels: bool) -> float:
    """How far the work moves from the tool, mm."""
    if travels:
        beam, support = _propped(beam, at, support)
    return bar_deflection(beam.pieces, push, at, modulus, support)[0]


def _propped(beam: Beam, at: float, support: str) -> tuple[Beam, str]:
    """The work held by a travelling steady: from the holder to the finger, which bears just behind the tool.

    Before the finger has come onto the work, nothing but the holder and the tailstock holds it.
    """
    prop = at + STEADY_WIDTH
    return (beam, support) if prop >= sum(beam.lengths) else (beam.up_to(prop), SUPPORTED)


def bends_in_holding(setup: OpenSetup, done: WorkedOperation) -> bool:
    """Whether the work bends in its holder under the tool of an operation, as a bar or a frame of bars does."""
    holding = done.station.holding
    work = done.plan.cut.process.row.bends is Bends.WORK and not done.plan.inside and done.worked.force > 0
    if not work or holding is None or holding.inside:
        return False
    return bool(setup.held.grip) and done.station.stick_out > SHORTEST


def stretch_of(setup: OpenSetup, done: WorkedOperation, gaps: Sequence[tuple[float, float]]) -> Stretch:
    """The work that bends in an operation, without the cores of `gaps`."""
    return Stretch(*_held_between(setup, done), PUSH * done.worked.force, tuple(gaps))


def places_of(done: WorkedOperation, stretch: Stretch) -> list[float]:
    """Lengths from the face at which the tool is tried."""
    sketch, low, high = done.plan.sketch, stretch.low, stretch.high
    near, far = max(low, min(sketch.start, high - 0.5)), min(max(sketch.end, low), high - 0.5)
    return [near + (far - near) * i / (PLACES - 1) for i in range(PLACES)] if far - near > 0.01 else [near]


def _held_between(setup: OpenSetup, done: WorkedOperation) -> tuple[float, float, str]:
    """(from, to, support): the stretch of work that bends, in lengths from the face, and how its ends are held."""
    stick, up, at = done.station.stick_out, done.station.held_up, done.station.steady_at
    if setup.held.way is Way.CENTRES:
        return 0.0, done.before.ends.length, "between centres"
    if up.steady.row.place_of_its_own and 0.5 < at < stick:
        in_front = done.plan.sketch.end <= at
        if in_front:
            return 0.0, at, SUPPORTED if up.centre.there else ALONE
        return at, stick, SUPPORTED
    return 0.0, stick, SUPPORTED if up.centre.there else ALONE


def _shape(setup: OpenSetup, done: WorkedOperation, bent: Bending, support: str) -> None:
    left, shape = bent.left(support)
    if left < TAPER:
        return
    ends, said = between(BENDING, left, "clearance"), resting(both(left, "clearance"), bending_rests(done))
    words = f"{shape}, {said} ({ends}) on the diameter, before the finishing pass"
    done.found.facts.append(told("taper_left", "Shape left", words, desk=True))
    if left > FAULT and not done.has_failed("slender"):
        words = f"the work bends so far that it is left {said} ({ends}) out of parallel: "
        words += f"{BENDING.verdict(left, FAULT)} the {both(FAULT, 'clearance')} of a fault"

        def held(shorter: float, centred: bool) -> float:
            return bent.left(SUPPORTED if centred else support, -shorter)[0]

        done.judge("stiffness", False, words, remedy=straighter(setup, done, held, FAULT, bent.near))


def _beam(state: State, done: WorkedOperation, low: float, high: float) -> Beam | None:
    """The work between two lengths from the face as it stood before the cut; None where a section has no metal."""
    frame = done.frame
    axis = Axis.upright(*frame.axis)
    spacing = max(SHORTEST, (high - low) / MOST_STEPS)
    # A face that the cut has moved leaves nothing in front of it.
    levels = shape_changes(state.solid, axis, *frame.span(low, high), spacing=spacing)
    spans = [(a, b) for a, b in pairwise(levels) if b - a > 0.02]
    least = [s.principal[0] for s in sections_along(state.solid, axis, [(a + b) / 2 for a, b in spans])]
    if not spans or min(least) <= 0:
        return None
    steps = [(b - a, (64.0 * moment / math.pi) ** 0.25) for (a, b), moment in zip(spans, least, strict=True)]
    if frame.out == "A":
        steps.reverse()
    merged = _merged(steps)
    return Beam(tuple(length for length, _ in merged), tuple(size for _, size in merged))


def _merged(steps: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Neighbouring steps of one diameter as one."""
    out: list[tuple[float, float]] = []
    for length, size in steps:
        if out and abs(out[-1][1] - size) < 1e-3:
            out[-1] = (out[-1][0] + length, size)
        else:
            out.append((length, size))
    return out


# ------------------------------------------------------------------------------------------------ the tool
def _boring_bar(done: WorkedOperation) -> None:
    tool = done.tool
    if tool is None or not tool.diameter:
        return
    overhang = max(tool.reach, min(done.plan.sketch.end, done.before.ends.length) + 3.0)
    modulus = CARBIDE if tool.material == "carbide" else STEEL
    usual = 10.0 if tool.material == "carbide" else 4.0
    push = PUSH * done.worked.force
    bends, working = worked(boring_bar_bends, push, tool.diameter, overhang, modulus, usual)
    note = "; ".join(
        part for part in (f"push {both(push, 'force')}, {both(overhang, 'length')} out", bends.note) if part
    )
    if bends.note:
        words = f"The boring bar {bends.note}. Take lighter cuts, or a thicker bar."
        done.found.cautions.append(Caution("chatter", words))
    if bends.deflection >= NOTICE:
        _tell_bending(done, "tool_deflection", "Boring bar bends", bends.deflection, note, working, BENDING)


def _end_mill(done: WorkedOperation) -> None:
    size, tool = done.plan.cut.diameter, done.tool
    if size <= 0 or tool is None or not tool.sort.fluted_shank:
        return
    fluted = flutes(tool, size) if tool.cutting_length else 2.0 * size
    overhang = fluted + max(3.0, 0.5 * size)
    modulus = CARBIDE if tool.material == "carbide" else STEEL
    bends, working = worked(end_mill_bends, done.worked.force, size, fluted, overhang, None, modulus)
    note = "; ".join(
        part
        for part in (f"force {both(done.worked.force, 'force')}, {both(overhang, 'length')} out", bends.note)
        if part
    )
    if bends.deflection >= NOTICE:
        _tell_bending(done, "tool_deflection", "Cutter bends", bends.deflection, note, working, CUTTER_BENDS)
