"""Does the tool get there: edge, shank and holder past jaws, centre, shoulder and work?

In the lathe everything that turns is reduced to what it sweeps about the axis, in the half plane of length and
distance from the axis; the tool's polygons are moved along their path and must not enter it. A tool that turns (drill,
end mill) is a stack of cylinders at its deepest, tested against the solid itself. The work is tested as it stands
after the cut.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Any, TypeAlias

from methodsheets.geometry import Axis, Outline, Solid, profile
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.rig import LONGEST_EDGE, USUAL_SHANK, Rig, flutes, stands_out
from methodsheets.operations.say import both, dim, number
from methodsheets.operations.turned_work import as_groove
from methodsheets.vocabulary.attitude import Attitude

if TYPE_CHECKING:
    from collections.abc import Iterable

    from methodsheets.workshop.tools import Tool
    from methodtooling.fixtures import Part

Shape: TypeAlias = Any
"""An area in the half plane, as `Part.polygon` gives it: with `bounds`, `area`, `buffer` and `intersection`."""
SKIN = 0.03
"""mm by which work and fixtures are shrunk: a cutting edge lies on the surface that it makes, and the corners of
facets stand a few microns proud."""
BESIDE_MANDREL = 1.0
"""mm on the diameter by which a facing cut stays outside a mandrel (common practice)."""
TOUCH = 0.02
"""mm²: less of a tool inside another thing is none."""
FINE = 0.12
"""mm between sections in a rounded corner: its chords then stand a micron or two proud."""
FLAT = 1e-9
"""mm²: a side that moves along itself sweeps nothing."""
CHUCK_BODY = 2.2
"""Radius of a drill chuck over that of its drill, and 5 mm more, up to 25 mm (usual sizes, from memory)."""
NOSE_OF_SPINDLE = 20.0
"""mm: radius of a small mill's collet nut, which comes down beside the cutter (from memory)."""
STUB_ARBOR = 60.0
"""mm: how far a saw or a form cutter stands out on its arbor where the workshop does not say (from memory)."""
BUMP = 0.5
"""mm³ of a tool inside the work that count as touching it."""


def check_way(setup: OpenSetup, done: WorkedOperation) -> None:
    """Whether tool, shank and holder touch nothing on their way; keeps the parts for the drawing."""
    failed = {check.key for check in done.found.checks if check.state == "failed"}
    if setup.has_failed("grip-length", "grip"):
        return  # where the holder stands is not known
    if done.rig is not None and done.rig.tool and done.volume > 0:
        _in_the_lathe(done, done.rig, failed)
    elif done.plan.cut.tool_turns and done.volume > 0 and "reach" not in failed:
        _on_the_mill(done)


# ------------------------------------------------------------------------------------------------ in the lathe
def _in_the_lathe(done: WorkedOperation, rig: Rig, failed: set[str]) -> None:
    way = _swept(rig)
    things: list[tuple[str, str, Shape | None]] = [("jaws", part.name, _folded([part])) for part in rig.holder]
    if "way-in" not in failed and done.plan.cut.process.row.exact and done.plan.straight:
        things.insert(0, ("reach", "work", _work(done, way)))
    things += [("centre", part.name, _folded([part])) for part in rig.tail]
    for key, name, body in things:
        if key in failed or body is None or (key == "jaws" and "carrier" in failed):
            continue
        inside = way.intersection(body.buffer(-SKIN)).area
        if inside > TOUCH:
            words = f"the {_tool_words(rig, body)} touches the {name}: {both(inside, 'area')} of it lie inside"
            done.judge(key, False, words, remedy=_instead(done, key))
            failed.add(key)
    if rig.follows and "jaws" not in failed:
        _steady_clear(done, rig, failed)
    if not failed & {"reach", "jaws", "centre"}:
        done.judge("reach", True, f"tool and shank clear of {_listed(rig)} on the whole way")


def _steady_clear(done: WorkedOperation, rig: Rig, failed: set[str]) -> None:
    """A travelling steady goes where the saddle goes: it must not meet the holder."""
    ends_at = max(part.bounds[2] for part in rig.follows)
    begins_at = min((part.bounds[0] for part in rig.holder), default=math.inf)
    if ends_at > begins_at:
        words = f"the travelling steady runs {dim(round(ends_at - begins_at, 1))} into the {rig.holder[0].name}"
        done.judge("jaws", False, words)
        failed.add("jaws")


def _instead(done: WorkedOperation, key: str) -> str:
    """What to do where a face meets a mandrel, or a knife a shoulder deeper than its edge; empty for the usual."""
    holding, row = done.station.holding, done.plan.cut.process.row
    if key == "jaws" and row.over_face and holding is not None and holding.inside and holding.diameter:
        line = f"`face: {number(done.plan.cut.infeed)} mm, down to {number(holding.diameter + BESIDE_MANDREL)} mm`"
        return f"stop outside what holds the work: {line}, or face that end before it is held in its bore"
    sketch = done.plan.sketch
    if key == "reach" and done.plan.left_hand and row.shaped:
        room = "a left-hand tool needs room on the far side of the cut"
        plain = sketch.end_diameter is None
        return f"{room}: write {as_groove(sketch.start, sketch.end, sketch.diameter)} instead" if plain else room
    shank = done.tool.shank if done.tool and done.tool.shank else USUAL_SHANK
    deep = row.shaped and not done.plan.inside and done.plan.reach_depth > LONGEST_EDGE * shank
    if key != "reach" or not deep:
        return ""
    to, off = number(sketch.diameter), number(sketch.end)
    return f"face the shoulder down to size instead: `face: {off} mm, down to {to} mm`"


def _listed(rig: Rig) -> str:
    names = list(dict.fromkeys(part.name for part in (*rig.holder, *rig.tail)))
    shown = names if len(names) < 4 else [*names[:3], "the rest"]
    return "work, " + ", ".join(shown)


def _tool_words(rig: Rig, body: Shape) -> str:
    """Which part of the tool it is that touches."""
    touching = [p for p in rig.tool if _moved_along([p], rig.path).intersection(body.buffer(-SKIN)).area > TOUCH]
    return touching[0].name if touching else "tool"


def _swept(rig: Rig) -> Shape:
    return _moved_along(rig.tool, rig.path)


def _moved_along(parts: Iterable[Part], path: tuple[tuple[float, float], ...]) -> Shape:
    """What the parts sweep on their way, folded into the half plane: every side carried from place to place."""
    from methodtooling.fixtures import Part

    pieces: list[Part] = []
    for part in parts:
        sides = list(zip(part.ring, (*part.ring[1:], part.ring[0]), strict=True))
        pieces += [part.moved(*place) for place in path]
        for (a0, b0), (a1, b1) in pairwise(path):
            for (s0, r0), (s1, r1) in sides:
                corners = ((s0 + a0, r0 + b0), (s1 + a0, r1 + b0), (s1 + a1, r1 + b1), (s0 + a1, r0 + b1))
                if abs((s1 - s0) * (b1 - b0) - (r1 - r0) * (a1 - a0)) > FLAT:
                    pieces.append(Part("way", corners))
    return _folded(pieces)


def _stands_still(part: Part) -> bool:
    return part.kind == "tail" and not part.turns


def _folded(parts: Iterable[Part]) -> Shape:
    """Both sides of the axis laid on one: what turns sweeps both."""
    from methodtooling.fixtures import Part, outline

    # What stands still is met on the tool's side only: a half centre is cut away there.
    both = [side for part in parts for side in ((part.flipped(),) if _stands_still(part) else (part, part.flipped()))]
    whole = outline(both)
    low_s, _, high_s, high_r = whole.bounds
    upper = ((low_s - 1, 0.0), (high_s + 1, 0.0), (high_s + 1, high_r + 1), (low_s - 1, high_r + 1))
    return whole.intersection(Part("half plane", upper).polygon)


def _work(done: WorkedOperation, way: Shape) -> Shape | None:
    """What the work sweeps after the cut, in lengths from the face before it, near the tool's way."""
    from methodtooling.fixtures import Part

    if not done.after.bodies:
        return None
    frame = done.frame
    low_s, _, high_s, _ = way.bounds
    low, high = frame.span(low_s - 1.0, high_s + 1.0)
    shape = profile(done.after.solid, Axis.upright(*frame.axis), low, high, spacing=FINE)
    if len(shape.lengths) < 2:
        return None
    along = [frame.s_of(float(z)) for z in shape.lengths]
    outer, inner = shape.outer.tolist(), shape.inner.tolist()
    ring = (*zip(along, outer, strict=True), *reversed(list(zip(along, inner, strict=True))))
    return Part("work", ring).polygon


# ------------------------------------------------------------------------------------------------ on mill and drill
def _on_the_mill(done: WorkedOperation) -> None:
    """Chuck or spindle nose, and the shank above the flutes, against the work at the tool's deepest."""
    if done.plan.cut.process.row.drops:
        _drill_stack(done)
    elif done.plan.beside and done.station.holding is not None:
        if done.station.attitude is not Attitude.LEVEL:
            _mill_beside(done)
        elif done.tool is None or not done.tool.sort.across_slot:
            _mill_from_above(done)


def _drill_stack(done: WorkedOperation) -> None:
    size = done.plan.tool_size or done.plan.cut.diameter
    tip = 0.0 if done.plan.sketch.through else size / 2 / math.tan(math.radians(done.plan.point / 2))
    out = stands_out(done.tool, size)
    big = chuck_radius(size)
    for axis, deepest, sign in done.plan.axes:
        mouth = deepest + sign * (tip - out)
        body = _cylinder(done, axis, big, mouth, mouth - sign * 60.0)
        if _bump(done, "the drill chuck", body, f"the {done.tool_name} stands out {dim(round(out, 1))}"):
            return
    if done.plan.axes:
        done.judge(
            "reach",
            True,
            f"{done.tool_name} {dim(round(out, 1))} out of its chuck: the chuck stays clear of the work",
        )


def chuck_radius(size: float) -> float:
    """Radius of a drill chuck that takes a drill of that size, mm (usual)."""
    return min(CHUCK_BODY * size / 2 + 5.0, 25.0)


def mill_stands_out(tool: Tool | None, size: float) -> float:
    """Length of a milling cutter in front of its chuck, mm: flutes and some shank; of a disc, that of its arbor."""
    if tool is not None and tool.sort.across_slot and not tool.cutting_length:
        return STUB_ARBOR
    return flutes(tool, size) + max(5.0, 1.5 * size)


def _mill_beside(done: WorkedOperation) -> None:
    """An end mill that comes down beside the work: its spindle nose must stay clear of what stands in front."""
    frame, sketch, size = done.frame, done.plan.sketch, done.plan.cut.diameter
    if sketch.radius <= 0 or not sketch.angles:
        return
    out = mill_stands_out(done.tool, size)
    nose = sketch.end - out
    if nose <= 0:
        done.judge(
            "reach",
            True,
            f"cutter {dim(round(out, 1))} out of its chuck: the spindle nose stays in front of the work",
        )
        return
    for angle in sketch.angles:
        off = sketch.radius + size / 2
        axis = frame.axis_of(off, angle)
        low, high = frame.span(nose - 60.0, nose)
        body = done.piece.work.kernel.cylinder(NOSE_OF_SPINDLE, low, high, "reach", axis)
        if _bump(
            done,
            "the spindle nose",
            body,
            f"the cutter stands out {dim(round(out, 1))}, the cut ends {dim(sketch.end)} from the face",
        ):
            return
    done.judge("reach", True, f"cutter {dim(round(out, 1))} out of its chuck: the spindle nose stays clear of the work")


def _mill_from_above(done: WorkedOperation) -> None:
    """An end mill that comes down on work that lies level, and its spindle nose, beside what stands higher.

    It is tried at both ends of the cut, where a collar or a web stands next to it.
    """
    frame, sketch, size = done.frame, done.plan.sketch, done.plan.cut.diameter
    if sketch.radius <= 0 or not sketch.angles or done.plan.gap is not None:
        return
    out, low = mill_stands_out(done.tool, size), sketch.radius
    why = f"the {done.tool_name} stands out {dim(round(out, 1))} and goes down to {dim(round(low, 2))} from the axis"
    ends = sorted({max(sketch.start, sketch.end - size / 2), min(sketch.end, sketch.start + size / 2)})
    for at in ends:
        for angle in sketch.angles:
            axis = Axis.through(frame.to_work(at).tolist(), frame.normal(angle))
            kernel = done.piece.work.kernel
            cutter = kernel.cylinder(size / 2 - TOUCH, low + TOUCH, low + out, "reach", axis)
            nose = kernel.cylinder(NOSE_OF_SPINDLE, low + out, low + out + 60.0, "reach", axis)
            if _bump(done, "the cutter", cutter, why) or _bump(done, "the spindle nose", nose, why):
                return
    done.judge("reach", True, f"cutter {dim(round(out, 1))} out of its chuck: it stays clear of the work")


def _bump(done: WorkedOperation, what: str, body: Solid, why: str) -> bool:
    met = sum(done.after.overlap(body).values())
    if met > BUMP:
        done.judge("reach", False, f"{what} touches the work ({both(met, 'volume')}): {why}")
    return met > BUMP


def _cylinder(done: WorkedOperation, axis: Axis, radius: float, start: float, end: float) -> Solid:
    low, high = sorted((start, end))
    return done.piece.work.kernel.revolve(Outline((0, low), (radius, low), (radius, high), (0, high)), "reach", axis)
