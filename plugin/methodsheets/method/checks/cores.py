"""When a core is cut out of the middle: was nothing touched that stays, and what still carries the ends?"""

from __future__ import annotations

import math
from collections.abc import Sequence

from methodsheets.geometry import Axis, Solid, section_at
from methodsheets.method.checks.standing import lies_down
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.proof import beside_jaws
from methodsheets.operations.facts import told
from methodsheets.operations.plan import Gap
from methodsheets.operations.say import both, degrees, dia, dim, joined, plural, turned
from methodsheets.vocabulary.process import Process

CLOSE = 0.02
"""mm that nominal shapes may stand apart and still be one joint."""
LEAST = 1e-3
"""mm³: less metal than this is none."""


def check_core(setup: OpenSetup, done: WorkedOperation) -> None:
    """All that is asked of a gap that is cut out in the middle; nothing for other operations."""
    gap = done.plan.gap
    if gap is None or done.cut is None or done.volume <= LEAST:
        return
    _kept(done, gap)
    _from_its_side(done, gap)
    _tool_goes_in(setup, done, gap)
    if not done.plan.cut.process.row.across_from_outside and setup.held.grip:
        beside_jaws(setup, done, done.station.stick_out)
    _carried(done, gap)


# ------------------------------------------------------------------------------------------------ what is kept
def _kept(done: WorkedOperation, gap: Gap) -> None:
    """What is to be kept stands in the gap, and lost nothing."""
    for name in gap.absent:
        words = f"nothing of the {name} stands between {dim(gap.start)} and {dim(gap.end)} from the face"
        done.judge("kept", False, words, remedy="check the place, or take it out of `keep`")
    for name in gap.kept:
        lost = done.before.bodies[name].solid.volume - done.after.bodies[name].solid.volume
        words = f"the {name} loses nothing" if lost <= LEAST else f"the {name} loses {both(lost, 'volume')}"
        if name not in gap.absent:
            done.judge("kept", lost <= LEAST, words)


def _from_its_side(done: WorkedOperation, gap: Gap) -> None:
    """The tool gets at what is to go without sawing through what is to stay."""
    tool = {Process.SAW: "blade", Process.MILL: "cutter"}.get(done.plan.cut.process, "file")
    rest, side = gap.whole - gap.reached, degrees(gap.angle)
    if gap.met is not None:
        name, through = gap.met
        words = (
            f"from {side} the {tool} meets the {name} {_height(gap.floor)}: to take the rest of the core, "
            f"{both(rest, 'volume')}, it would go through {dim(round(through, 2))} of what is to stay"
        )
        done.judge("kept", False, words, remedy=f"come from {degrees(turned(gap.angle + 180.0))}")
    elif rest > LEAST:
        words = f"from {side} the {tool} goes down to {_height(gap.floor)}, where the {joined([*gap.kept])} begins; "
        share = rest / gap.whole
        done.judge("kept", True, words + f"{both(rest, 'volume')} are filed away beside it", tight=share > 0.1)


def _height(floor: float) -> str:
    """Where a height lies, seen from the tool."""
    where = "above" if floor >= 0 else "below"
    return f"{dim(round(abs(floor), 2))} {where} the axis"


def _tool_goes_in(setup: OpenSetup, done: WorkedOperation, gap: Gap) -> None:
    """The gap is as wide as the saw or the cutter at least, and the cutter comes in across the axis."""
    wide, cut, held = gap.end - gap.start, done.plan.cut, setup.held
    if cut.tool_turns and held.machine.sort.tool_turns and lies_down(setup) is False:
        words = f"the work stands upright in the {held.words}: the spindle comes down along its axis"
        words += ", and the cutter does not get between the webs"
        done.judge("machine", False, words, remedy="lay it in vee blocks, or tip the rotary table")
    if gap.kerf > wide + 1e-6:
        words = f"the saw cuts {dim(gap.kerf)} wide, the gap is {dim(wide)}"
        done.judge("saw-width", False, words, remedy="take a thinner saw, or a wider gap")
    if cut.tool_turns and cut.diameter > wide + 0.011:
        words = f"the {done.tool_name} is {dia(cut.diameter)}, the gap {dim(wide)} wide"
        done.judge("tool-size", False, words, remedy="take a smaller cutter, or a wider gap")


# ------------------------------------------------------------------------------------------------ what carries
def _carried(done: WorkedOperation, gap: Gap) -> None:
    """The two ends hang together by what is left between them, and nothing comes loose."""
    pieces = [(name, piece) for name, body in done.after.bodies.items() for piece in body.solid.pieces()]
    groups = sorted(_together(pieces), key=lambda group: -sum(solid.volume for _, solid in group))
    where = f"between {dim(gap.start)} and {dim(gap.end)} from the face"
    if len(groups) > 1:
        loose = ", ".join(_loose(group) for group in groups[1:])
        words = f"without the core the work is {plural(len(groups), 'piece')}: {loose} comes off; {_left(done, gap)}"
        remedy = "`keep` what joins the two webs, or leave part of the section: `down to`, `bottom`"
        done.judge("carried-ends", False, words, remedy=remedy)
        return
    carriers = _carriers(done, gap)
    words = f"{where} the ends are carried by {joined(carriers)}"
    done.judge("carried-ends", True, words)
    done.found.facts.append(told("carried_by", "What carries the ends now", joined(carriers)))


def _together(pieces: Sequence[tuple[str, Solid]]) -> list[list[tuple[str, Solid]]]:
    """Pieces that touch, grouped; two pieces of one body never touch."""
    groups: list[list[tuple[str, Solid]]] = []
    for name, solid in pieces:
        meets = [
            group for group in groups if any(other != name and one.gap(solid, CLOSE) < CLOSE for other, one in group)
        ]
        groups = [group for group in groups if group not in meets]
        groups.append([(name, solid), *(one for group in meets for one in group)])
    return groups


def _loose(group: Sequence[tuple[str, Solid]]) -> str:
    names = joined(sorted({name for name, _ in group}))
    return f"a piece of {names}, {both(sum(solid.volume for _, solid in group), 'volume')},"


def _left(done: WorkedOperation, gap: Gap) -> str:
    """What of the section is left, where it does not hold the ends together."""
    carriers = _carriers(done, gap)
    where = f"between {dim(gap.start)} and {dim(gap.end)} from the face"
    return f"what is left {where}, {joined(carriers)}, joins them no more" if carriers else f"nothing is left {where}"


def _carriers(done: WorkedOperation, gap: Gap) -> list[str]:
    """Each body that crosses the middle of the gap: its section, and the round bar that is as stiff."""
    frame = done.frame
    axis, middle = Axis.upright(*frame.axis), frame.z_of((gap.start + gap.end) / 2)
    found = []
    for name, body in done.after.bodies.items():
        section = section_at(body.solid, axis, middle)
        if section.area > LEAST:
            size = (64.0 * section.principal[0] / math.pi) ** 0.25
            off = math.hypot(*section.centroid)
            found.append(
                f"the {name}, {both(section.area, 'area')}, as stiff as a round bar of {dia(round(size, 2))}"
                + (f", {dim(round(off, 2))} off the axis" if off > 0.01 else "")
            )
    return found
