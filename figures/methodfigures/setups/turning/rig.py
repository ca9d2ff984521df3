"""What stands round the work: holder, tailstock and tool of a turning set-up, as parts in (s, r)?

Parts given by the set-up are used as they are.  Otherwise symbols of usual true size are chosen by rule, kept
between a least and a greatest size on paper so that they can be read at every scale `k` (paper mm per mm).
"""

from __future__ import annotations

from dataclasses import dataclass

from methodfigures.paper.shapes import nearest
from methodfigures.setups.turning.spec import TOOL_NAMES, TurningSetup
from methodtooling import fixtures, tools
from methodtooling.fixtures import Parts

SHANKS = (1.5, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50)
"""Usual shank sizes of lathe tools in mm."""


@dataclass(frozen=True)
class Rig:
    """Parts round the work; `tool` at the end of the cut (or drawn back), `start` = the tool where the cut began."""

    holder: Parts
    tail: Parts
    tool: Parts
    start: Parts
    tool_name: str


def holder_parts(spec: TurningSetup, k: float, bore: float = 0.0) -> Parts:
    """The holder; `bore` = radius that must be clear behind a collet."""
    if spec.holder_parts is not None:
        return spec.holder_parts
    r, grip = spec.grip_diameter / 2, spec.grip
    if spec.grip_inside and spec.holding in ("three-jaw", "soft jaws", "four-jaw"):
        return fixtures.three_jaw_inside(r, grip)
    if spec.holding == "collet":
        return fixtures.collet(r, grip, bore=bore)
    if spec.holding == "four-jaw":
        return fixtures.four_jaw(r, grip, spec.throw, packing=min(spec.packing, 1.2 / k) if spec.packing else 0.0)
    if spec.holding == "soft jaws":
        return fixtures.soft_jaws(r, grip, shoulder=min(8.0, 8 / k))
    if spec.holding == "centres":
        return fixtures.between_centres(r, grip, hole=min(2.0, 0.3 * r), back=spec.back)
    if spec.holding == "mandrel":
        return fixtures.stub_mandrel(r, grip)
    if spec.holding == "faceplate":
        return fixtures.faceplate(r, grip, spec.throw, strap=min(max(6.0, 3 / k), 6 / k))
    return fixtures.three_jaw(r, grip)


def tail_parts(spec: TurningSetup, k: float, radius: float) -> Parts:
    """Tailstock centre or steady; `radius` of the work at the face."""
    if spec.tail_parts is not None:
        return spec.tail_parts
    at = spec.cut_end if spec.verb == "face" else 0.0
    if spec.support == "travelling steady":
        wide = min(max(8.0, 4 / k), 8 / k)
        return fixtures.travelling_steady(max(spec.cut_diameter / 2, 0.5), spec.cut_end - wide, wide)
    if spec.support == "steady":
        where = spec.steady_at if spec.steady_at is not None else 0.25 * spec.grip[0]
        return fixtures.fixed_steady(radius, where, min(max(8.0, 4 / k), 8 / k))
    if spec.support == "centre" or spec.holding == "centres":
        hole = max(0.4, min(2.125, 0.3 * radius, 3.0 / k))
        body = min(max(9.0, 5 / k), 9 / k)
        return fixtures.moved(fixtures.rotating_centre(hole, body, 60 / k), at)
    return ()


def tool_parts(spec: TurningSetup, k: float, swing: float, low: float) -> tuple[Parts, Parts, str]:
    """(tool at the end of the cut, tool at its start or nothing, name); `low` = paper mm it hangs below the axis."""
    name = spec.tool_name or _default_name(spec)
    if spec.tool_parts is not None:
        return spec.tool_parts, (), name
    if spec.axial:
        return _axial(spec, k), (), name
    if spec.bored:
        return _bar(spec, k), (), name
    if spec.verb in ("turn", "taper", "face"):
        end, start = _knife(spec, k, swing, low)
        return end, start, name
    return _outside(spec, k, low), (), name


def _default_name(spec: TurningSetup) -> str:
    name = TOOL_NAMES[spec.verb]
    if spec.tool_kind == "die":
        return "die"
    if spec.verb in ("groove", "part off") and not spec.bored:
        return f"{name} {spec.number(spec.tool_width or spec.cut_end - spec.cut_start)} wide"
    if spec.verb in ("drill", "ream"):
        return f"{name} Ø{spec.number(spec.tool_diameter or spec.cut_diameter)}"
    return name


def _knife(spec: TurningSetup, k: float, swing: float, low: float) -> tuple[Parts, Parts]:
    short = max(5.0, 0.5 * (spec.cut_end - spec.cut_start) * k)
    # a short cut gets a slim tool, so that the removed metal stays in sight
    w = nearest(SHANKS, min(11.0, short if spec.verb != "face" else 11.0) / k)
    last = spec.end_diameter if spec.verb == "taper" and spec.end_diameter is not None else spec.cut_diameter
    tip = (spec.cut_end, 0.0 if spec.verb == "face" else -last / 2)
    nose = spec.tool_nose or min(0.4, 0.1 * w)
    big = spec.from_diameter or 2 * swing
    edge = max(9 / k, (big - (spec.cut_diameter if spec.verb != "face" else 0.0)) / 2 + 3 / k)
    length = (low + 8) / k + tip[1] + 2
    tool = tools.knife(w, max(length, edge + 5 / k), min(nose, 0.3 * w), edge)
    end = fixtures.moved(tool, *tip)
    if spec.verb == "face" or abs(spec.cut_end - spec.cut_start + 4 / k) * k <= w * k + 16:
        return end, ()
    return end, fixtures.moved(tool, spec.cut_start - 4 / k, -spec.cut_diameter / 2)


def _outside(spec: TurningSetup, k: float, low: float) -> Parts:
    w = spec.tool_width or nearest(SHANKS, 9 / k)
    r = spec.cut_diameter / 2
    length = (low + 8) / k + 2
    if spec.verb == "chamfer":
        size = spec.cut_end - spec.cut_start
        at = (spec.cut_start + size / 2, -(spec.from_diameter or spec.cut_diameter) / 2 + size / 2)
        return fixtures.moved(tools.chamfer_tool(nearest(SHANKS, 10 / k), length, spec.tool_angle or 45.0), *at)
    if spec.verb in ("groove", "part off"):
        wide = spec.tool_width or spec.cut_end - spec.cut_start
        reach = max((spec.from_diameter - spec.cut_diameter) / 2 + 4 / k, 6 / k)
        stock = nearest(SHANKS, 8 / k)
        return fixtures.moved(tools.blade(wide, reach, max(length, reach + 10 / k), stock), spec.cut_end - wide, -r)
    if spec.verb == "knurl":
        wide = min(max(spec.tool_width or 8.0, 5 / k), 9 / k)
        middle = min((spec.cut_start + spec.cut_end) / 2, spec.cut_start + 12 / k)
        return fixtures.moved(tools.knurl(14 / k, wide, length), middle - wide / 2, -r)
    if spec.verb == "thread":
        shank = nearest(SHANKS, 9 / k)
        depth = max(spec.pitch, 2.2 / k)
        tip = -max(r - 0.61 * spec.pitch, 0.1 * r)
        return fixtures.moved(tools.threading_tool(shank, length, depth, spec.tool_angle or 60.0), spec.cut_end, tip)
    return fixtures.moved(tools.round_nose(w, length, spec.tool_nose or 0.25 * w), spec.cut_end - 0.25 * w, -r)


def _bar(spec: TurningSetup, k: float) -> Parts:
    """Boring bar drawn back out of the bore: at the end of the cut it would hide what it made."""
    bore = max(spec.cut_diameter, 1.0)
    bar = min(spec.tool_diameter or 0.6 * bore, 0.75 * bore, 13 / k)
    return fixtures.moved(tools.boring_bar(bore, 30 / k, bar), -5 / k, -bore / 2)


def _axial(spec: TurningSetup, k: float) -> Parts:
    """Drills and their like, drawn back, in a drill chuck; a die on the rod's end."""
    d = spec.tool_diameter or spec.cut_diameter
    back = -5 / k
    if spec.tool_kind == "die":
        return fixtures.moved(tools.die(d, 22 / k), back)
    shank, at = d / 2, 16 / k
    if spec.verb == "drill":
        flutes = min(max(16 / k, 1.4 * d), 20 / k)
        parts, at = tools.twist_drill(d, flutes, 3 / k, spec.tool_angle or 118.0), flutes + 3 / k
    elif spec.verb == "centre":
        pilot = spec.tool_diameter or max(0.3 * spec.cut_diameter, 0.5)
        body = max(2.1 * pilot, 1.25 * spec.cut_diameter)
        parts, at, shank = tools.centre_drill(pilot, body, 14 / k), 14 / k, body / 2
    elif spec.verb == "ream":
        parts, at = tools.reamer(d, 13 / k, 5 / k), 17 / k
    elif spec.verb == "tap":
        parts, at = tools.tap(d, 12 / k, spec.pitch or 0.15 * d, 8 / k), 18 / k
    else:
        pilot = spec.from_diameter or 0.5 * d
        parts, at = tools.counterbore(d, pilot, 16 / k), max(16 / k, d)
        parts = fixtures.moved(parts, -0.9 * pilot)
        at = max(16 / k, d) + 0.9 * pilot
        shank = 0.35 * d
    big = max(1.3 * shank, min(max(2.2 * shank + 5, 8 / k), 14 / k))
    return fixtures.moved((*parts, *tools.drill_chuck(shank, at, big, 60 / k)), back)
