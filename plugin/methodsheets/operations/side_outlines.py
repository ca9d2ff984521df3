"""What is milled round the side of turned work: webs, cams and counterweights, to an outline over part of the length?

Outlines are drawn as one looks at the face: x along an angle from the 0° mark, y a quarter turn on, about a centre that
may lie off the axis. The cutter stands along the axis and cuts with its side.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from methodsheets.geometry import Frame, Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.attitude import Attitude

from .facts import judged
from .milling import CUTTER, mill_cut
from .outlines import CLIMB, VIA, closed_outline, way_round
from .plan import Edges, Made, Plan, Sketch
from .say import degrees, dim, number, turned
from .station import Station
from .turned_work import CALLED, FROM, OVER, inside_work
from .verb import TURNING, verb
from .words import Clause, Said

if TYPE_CHECKING:
    from methodsheets.geometry import Solid

CLEAR = 5.0
"""mm beyond the swing to which a cutter clears everything."""
PAST = 1.0
"""mm by which an outline is carried past both ends of the cut, so that no film is left there."""
LEAST = 1e-3
"""mm³: less metal than this stands in nobody's way."""
OFFSET = Clause("offset", "length", "distance of the outline's centre from the axis")
AT = Clause("at", "angle", "direction of that centre, and of the outline's x, from the 0° mark")


@verb(
    "outline",
    frame=TURNING,
    family="milling",
    clauses=[
        Clause(
            "points",
            "points",
            "outline that is left standing: (x, y), or (x, y, r) for a rounded corner",
            True,
            apart=True,
        ),
        VIA,
        FROM,
        OVER,
        OFFSET,
        AT,
        CUTTER,
        CLIMB,
        CALLED,
    ],
)
def outline(station: Station, said: Said) -> Plan:
    """Mill the side to an outline of lines and arcs about a centre, over part of the length: a cam, a counterweight."""
    corners = said.get("points")
    if len(corners) < 3:
        words = f"an outline has three corners at least (got {len(corners)})"
        raise MethodError(said.where("points"), words, "a closed outline", "add points", code="wrong-value")
    shape = closed_outline(corners, said.get("via", ()), said.where("points"))
    offset = float(said.get("offset", 0.0))
    moved = _moved(shape, offset)
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    plan = side_plan(
        station, said, moved, f"the side to an outline of {len(corners)} corners" + _about(offset, said),
        "outline", sum(math.dist(a[:2], b[:2]) for a, b in pairwise([*corners, corners[0]])),
    )  # fmt: skip
    return replace(plan, makes=(*plan.makes, Made("width", max(xs) - min(xs)), Made("width", max(ys) - min(ys))))


@verb(
    "web",
    frame=TURNING,
    family="milling",
    clauses=[
        Clause("hub", "length", "radius about the axis", True),
        Clause("nose", "length", "radius about the other centre", True),
        Clause("offset", "length", "distance of the other centre from the axis", True),
        Clause("at", "angle", "direction of the other centre from the 0° mark"),
        FROM,
        OVER,
        Clause("flanks only", "flag", "only the two tapered flanks, not the rounds"),
        CUTTER,
        CLIMB,
        CALLED,
    ],
)
def web(station: Station, said: Said) -> Plan:
    """Mill a web: two rounds about two centres and the two tapered flanks that touch both."""
    hub, nose, offset = said.length("hub"), said.length("nose"), said.length("offset")
    if min(hub, nose, offset) <= 0 or abs(hub - nose) >= offset:
        words = f"no flank touches both rounds (got radii {number(hub)} and {number(nose)}, {number(offset)} apart)"
        rule = "of two rounds neither lies inside the other, and both have a radius"
        raise MethodError(said.where("offset"), words, rule, "check the radii and the offset", code="wrong-value")
    lean = math.degrees(math.acos((hub - nose) / offset))
    at, long = float(said.get("at", 0.0)), offset * math.sin(math.radians(lean))
    what = f"a web, hub R{dim(hub)}, nose R{dim(nose)}, {dim(offset)} apart at {degrees(at)}"
    if said.get("flanks only"):
        shape, run = _strip(hub, nose, offset, lean, station.swing() + CLEAR), 2 * (long + hub + nose)
        what = "the two flanks of " + what
    else:
        shape = Outline(_on(0.0, hub, lean)).arc((0.0, 0.0), hub, lean, 360.0 - lean)
        shape = shape.arc((offset, 0.0), nose, -lean, lean)
        run = 2 * long + math.radians(360.0 - 2 * lean) * hub + math.radians(2 * lean) * nose
    plan = side_plan(station, said, shape, what, "web", run)
    return replace(
        plan,
        sketch=_sketch(plan.sketch, hub, (turned(at + lean), turned(at - lean))),
        makes=(*plan.makes, Made("width", 2 * hub), Made("width", 2 * nose), Made("length", offset + hub + nose)),
    )


def _strip(hub: float, nose: float, offset: float, lean: float, reach: float) -> Outline:
    """Everything between the two flanks, as far as the work goes."""
    along = (-math.sin(math.radians(lean)), math.cos(math.radians(lean)))
    near, far = _on(0.0, hub, lean), _on(offset, nose, lean)
    a = (near[0] + 4 * reach * along[0], near[1] + 4 * reach * along[1])
    b = (far[0] - 4 * reach * along[0], far[1] - 4 * reach * along[1])
    corners = [a, b, (b[0], -b[1]), (a[0], -a[1])]
    if b[1] < 0:  # the flanks meet beyond the nose
        tip = far[0] + far[1] * math.tan(math.radians(lean)) if abs(lean - 90.0) > 1e-9 else reach
        corners = [a, (tip, 0.0), (a[0], -a[1])]
    elif a[1] < 0:
        tip = near[0] + near[1] * math.tan(math.radians(lean))
        corners = [b, (b[0], -b[1]), (tip, 0.0)]
    return Outline(*corners)


def _on(x: float, radius: float, angle: float) -> tuple[float, float]:
    a = math.radians(angle)
    return (x + radius * math.cos(a), radius * math.sin(a))


def _moved(shape: Outline, offset: float) -> Outline:
    """The same about a centre so far along x."""
    return shape.placed((offset, 0.0)) if offset else shape


def _about(offset: float, said: Said) -> str:
    at = degrees(float(said.get("at", 0.0)))
    return f" about a centre {dim(offset)} off the axis at {at}" if offset else f" from {at}" if "at" in said else ""


# ------------------------------------------------------------------------------------------------ the plan of both
def side_plan(station: Station, said: Said, shape: Outline, what: str, name: str, run: float) -> Plan:
    """Everything outside the outline goes, between two lengths from the face."""
    start = float(said.get("from", 0.0))
    over = float(said.get("over", station.length - start))
    end = start + over
    inside_work(station, said, start, end)
    left, low, high = _prism(station, said, shape, start - PAST, end + PAST), max(0.0, start), min(end, station.length)
    swept = station.slab(start, end) - left
    metal = station.piece.state.solid
    if (metal & swept).volume <= LEAST:
        words = "no metal stands outside the outline"
        raise MethodError(said.place, words, "an outline is cut from work that is larger", "check sizes and place",
                          code="nothing-to-cut")  # fmt: skip
    level = station.attitude is Attitude.LEVEL
    least, direction = _nearest(shape)
    depth = max(0.5, station.swing(low, high) - least)
    cut = mill_cut(station, said, depth, over, run, open_side=True)
    climb = bool(said.get("climb"))
    plan = Plan(
        f"Mill {what}, {dim(over)} long" + (f", {dim(start)} from the face" if start else "")
        + (", climb milling" if climb else ""),
        [swept], cut,
        Sketch(start, end, 2 * least, 2 * station.swing(low, high), radius=least,
            angles=(turned(float(said.get("at", 0.0)) + direction),), size=cut.diameter, cut_words=number(over),
            view="across"),
        cautions=["milling", *(["climb"] if climb else [])], tool_words="end mill", tool_size=cut.diameter,
        beside=True, handling=3.0, feature=str(said.get("called", name)), reach_depth=depth if level else over,
        edges=Edges.OVER, facts=[way_round(climb=climb)], climb=climb,
        makes=(Made("length", over), Made("depth", over, 1.0)),
    )  # fmt: skip
    if start > 0.01 and not level:
        in_front = _in_front(station, said, shape, start)
        plan = plan.with_more(checks=[_way_in(in_front, said.place.line, start)])
    return plan


def _sketch(sketch: Sketch, radius: float, angles: tuple[float, ...]) -> Sketch:
    """The drawing of a web shows the cutter at its flanks."""
    return Sketch(
        sketch.start, sketch.end, 2 * radius, sketch.from_diameter, radius=radius, angles=angles, size=sketch.size,
        cut_words=sketch.cut_words, view=sketch.view,
    )  # fmt: skip


def _prism(station: Station, said: Said, shape: Outline, start: float, end: float) -> Solid:
    """The outline between two lengths from the face, x along the angle that is said."""
    frame = station.turning
    place = Frame.of(
        frame.to_work(0.0).tolist(), x=frame.normal(float(said.get("at", 0.0))), z=(0.0, 0.0, -frame.inward)
    )
    return station.piece.kernel.prism(shape, -end, -start, station.operation, place)


def _in_front(station: Station, said: Said, shape: Outline, start: float) -> float:
    """mm³ of metal nearer to the face that stands outside the outline, where the cutter comes down."""
    if start <= 0.01:
        return 0.0
    room = station.slab(-PAST, start - 0.01) - _prism(station, said, shape, -2 * PAST, start)
    return (station.piece.state.solid & room).volume


def _way_in(in_front: float, line: int, start: float) -> Check:
    """Whether the cutter comes down beside what stands in front."""
    clear = in_front <= LEAST
    words = f"nothing in the first {dim(start)} stands outside the outline" if clear else (
        f"metal in the first {dim(start)} stands outside the outline, where the cutter comes down along the axis"
    )  # fmt: skip
    remedy = "mill it from the other end, or lay the work level and mill across its axis"
    return judged("way-in", clear, words, line, remedy="" if clear else remedy)


def _nearest(shape: Outline) -> tuple[float, float]:
    """(distance in mm, direction in degrees) of the side next to the axis; 0 mm where the axis lies outside."""
    points = shape.facets(96).points.tolist()
    found = []
    for (ax, ay), (bx, by) in pairwise([*points, points[0]]):
        long = math.dist((ax, ay), (bx, by))
        away = (ax * by - ay * bx) / long if long > 1e-9 else math.hypot(ax, ay)
        found.append((away, math.degrees(math.atan2(ax - bx, by - ay)) if long > 1e-9 else 0.0))
    distance, direction = min(found)
    return max(0.0, round(distance, 3)), direction
