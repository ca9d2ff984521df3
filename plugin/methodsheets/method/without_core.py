"""What is the support worth that a core gave: bending, twist and the opening of the gap, before it is out and after?

The work is held where its set-up holds it. The numbers are those of a frame of bars (`crooked`) with rigid joints;
a joint that is pressed or bonded gives besides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from methodsheets.formula.kinds import write
from methodsheets.geometry import Axis
from methodsheets.method.crooked import ALL_WAYS, Crooked, NotModelled, Throw, Web, crooked, throws_of
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.facts import material_rests, told, worked
from methodsheets.operations.plan import Gap
from methodsheets.operations.say import both, joined, number
from methodsheets.sheet.model import Caution
from methodsheets.trade.bending.frames import Six, flat_bar
from methodsheets.trade.bending.offset_shafts import offset_shaft
from methodsheets.trade.metal.materials import Material

HAND_PUSH = "What a hand puts on a hacksaw"
PUSH = 100.0
"""N: what a hand puts on a hacksaw, down and along (from memory, ±50 %); the bending is told for it too."""
TWIST = 1.0
"""N·m for which the twist is told."""
SCALE = 1000.0
"""N·mm in a N·m, and mm/m in a rad."""


@dataclass(frozen=True)
class Given:
    """How far the work gives, mm and mm/m."""

    end: float
    """Worst movement of its free end under the push across."""
    twist: float
    """Turn of its free end."""


def stiffness_without_core(setup: OpenSetup, done: WorkedOperation) -> None:
    """Tell what a core that was cut out in this operation was worth; nothing for other operations."""
    gap = done.plan.gap
    if gap is None or not setup.piece.gaps or done.has_failed("carried-ends", "removes-metal"):
        return
    try:
        _tell(setup, done, gap)
    except NotModelled as reason:
        done.found.facts.append(told("end_bends", "Stiffness that is left", f"not known, because {reason}"))


def _tell(setup: OpenSetup, done: WorkedOperation, gap: Gap) -> None:
    throws = throws_of(done.after, setup.piece.work.kernel, _axis(done), setup.piece.gaps)
    earlier = throws_of(done.before, setup.piece.work.kernel, _axis(done), setup.piece.gaps[:-1])
    held, free = _ends(setup, done, gap)
    metal = metal_of(setup.piece.material)
    before, after = (
        _given(crooked(state, _axis(done), found, _span(held, free), [], metal), held, free)
        for state, found in ((done.before, earlier), (done.after, throws))
    )
    note = f"under {both(PUSH, 'force')} across it; {both(before.end, 'clearance')} while the core was in"
    note += _times(before.end, after.end)
    rests = material_rests(setup.piece.material, "modulus", "poisson")
    done.tell("end_bends", "Free end bends", after.end, "mm", "clearance", note=note, rests=rests)
    note = f"under {both(TWIST, 'torque')}; {both(before.twist, 'slope')} while the core was in"
    done.tell(
        "end_twists",
        "Free end twists",
        after.twist,
        "mm/m",
        "slope",
        note=f"{note}{_times(before.twist, after.twist)}",
        rests=rests,
    )
    mine = next(one for one in throws if one.gap == done.frame.span(gap.start, gap.end))
    _between_the_webs(done, mine, metal, rests)
    _under_the_saw(done, gap, crooked(done.after, _axis(done), throws, _span(held, free), [], metal), mine, held)


def _times(before: float, after: float) -> str:
    return f", {number(round(after / before, 1))} times as much now" if before > 1e-9 else ""


def _between_the_webs(done: WorkedOperation, one: Throw, metal: tuple[float, float], rests: Sequence[str]) -> None:
    """The handbook's closed form for webs and pin alone, where they are alike and the pin is round."""
    web, section = one.below, one.sections[len(one.sections) // 2][2]
    alike = abs(one.below.thick - one.above.thick) < 0.1 and abs(one.below.width - one.above.width) < 0.5
    size = (64.0 * section.principal[0] / math.pi) ** 0.25
    if not alike or one.throw < 0.5 or abs(section.area - math.pi * size**2 / 4) > 0.02 * section.area:
        return
    found, working = worked(
        offset_shaft, one.throw, size, one.gap[1] - one.gap[0], web.thick, web.width, PUSH, TWIST, *metal
    )
    note = f"under {both(PUSH, 'force')} that spreads the webs at the axis"
    done.tell(
        "gap_opens", "Gap opens", found.opening, "mm", "clearance", note=note, working=[working], desk=True, rests=rests
    )


def _under_the_saw(done: WorkedOperation, gap: Gap, frame: Crooked, one: Throw, held: float) -> None:
    """How far the free web gives under the saw, and with what is left clamped between the webs."""
    mine = next(there for there in frame.throws if there.gap == one.gap)
    webs = (mine.below, mine.above)
    direction = done.frame.normal(gap.angle)
    edges = [frame.with_edge(web.leaves, direction, _edge(done, web), flat_bar(web.width, web.thick)) for web in webs]
    tip = edges[1 if held <= one.gap[0] else 0]
    side = (-direction[1], direction[0], 0.0)
    down = (-direction[0], -direction[1], 0.0)
    loads: list[dict[int, Six]] = [{tip: (PUSH * x, PUSH * y, 0.0, 0.0, 0.0, 0.0)} for x, y, _ in (down, side)]
    at = {frame.at(held): ALL_WAYS}
    clamped = {**at, frame.pins[one.gap]: ALL_WAYS}
    free, firm = (
        max(abs(moved[edges[1]][2] - moved[edges[0]][2]) for moved in frame.moved(hold, loads))
        for hold in (at, clamped)
    )
    moves, still = (max(math.hypot(*moved[tip][:3]) for moved in frame.moved(hold, loads)) for hold in (at, clamped))
    left = joined([name for name in done.after.bodies if name in gap.kept]) or "neck"
    note = f"under the saw's {both(PUSH, 'force')}, from memory; {both(firm, 'clearance')} with the {left} clamped"
    done.tell("gap_under_saw", "Gap gives at its edge", free, "mm", "clearance", note=note, rests=[HAND_PUSH])
    done.found.cautions.append(
        Caution(
            "clamp-what-is-left",
            f"Clamp the {left} while you saw. When the core lets go, the free web moves {write(moves, 'clearance')} "
            f"under the saw's {write(PUSH, 'force')} (from memory) and pinches the blade; with the {left} clamped "
            f"between the webs it moves {write(still, 'clearance')}.",
        )
    )


def _edge(done: WorkedOperation, web: Web) -> float:
    """How far a web reaches from the axis, mm."""
    frame = done.frame
    first, last = sorted((frame.s_of(web.low), frame.s_of(web.high)))
    return done.after.swing(frame, first + 0.01, last - 0.01)


# ------------------------------------------------------------------------------------------------ how it is held
def _given(frame: Crooked, held: float, free: float) -> Given:
    """Worst bending of the free end in any direction across, and its twist."""
    end, hold = frame.at(free), {frame.at(held): ALL_WAYS}
    loads: list[dict[int, Six]] = [
        {end: (PUSH, 0.0, 0.0, 0.0, 0.0, 0.0)},
        {end: (0.0, PUSH, 0.0, 0.0, 0.0, 0.0)},
        {end: (0.0, 0.0, 0.0, 0.0, 0.0, TWIST * SCALE)},
    ]
    one, other, turned = (moved[end] for moved in frame.moved(hold, loads))
    return Given(worst_across((one[0], one[1]), (other[0], other[1])), abs(turned[5]) * SCALE)


def worst_across(one: tuple[float, float], other: tuple[float, float]) -> float:
    """The most that a place moves under a force of one size in any direction across, from two that are square."""
    mean, half = (one[0] + other[1]) / 2, (one[0] - other[1]) / 2
    return mean + math.hypot(half, (one[1] + other[0]) / 2)


def _ends(setup: OpenSetup, done: WorkedOperation, gap: Gap) -> tuple[float, float]:
    """(z where the work is held, z of its free end): held in front of the gap or behind it, or at the far end."""
    frame, length = done.frame, done.before.ends.length
    if setup.held.grip:
        first, now = done.station.holding, frame
        assert first is not None
        near, far = (now.s_of(first.frame(setup.before.ends).z_of(s)) for s in setup.held.grip)
        if near >= gap.end:
            return now.z_of(near), now.z_of(0.0)
        if far <= gap.start:
            return now.z_of(max(far, 0.0)), now.z_of(length)
    return frame.z_of(length), frame.z_of(0.0)


def _span(one: float, other: float) -> tuple[float, float]:
    return min(one, other), max(one, other)


def _axis(done: WorkedOperation) -> Axis:
    return Axis.upright(*done.frame.axis)


def metal_of(material: Material) -> tuple[float, float]:
    """(modulus in MPa, Poisson's ratio)."""
    return material.modulus, material.poisson


__all__: Sequence[str] = ["metal_of", "stiffness_without_core", "worst_across"]
