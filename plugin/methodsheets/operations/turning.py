"""What do the turning verbs cut? Each gives the outline swept about the set-up's axis, in lengths from the face."""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.method.model import Check
from methodsheets.reading.problem import MethodError

from .advice import taper_facts
from .plan import CutData, Plan, Sketch
from .say import diameter, number
from .station import Station
from .verb import TURNING, verb
from .words import Clause, Said

CLEAR = 1.0
"""mm that a cutter reaches past the face and past the swing, so that no skin is left by rounding."""

OVER = Clause("over", "length", "length of the cut")
FROM = Clause("from", "length", "where it starts, from the face")
CORNER = Clause("corner", "length", "radius left in the corner")
LEAVE = Clause("leave", "length", "metal left on the diameter for a later cut")


@verb(
    "face",
    family="turning",
    first=Clause("", "length", "how much comes off"),
    tool="facing",
    clauses=[
        Clause("off", "length", "how much comes off"),
        Clause("to length", "length", "length between the faces afterwards"),
        Clause("down to", "length", "diameter of a pip or centre that is left"),
    ],
)
def face(station: Station, said: Said) -> Plan:
    """Face the end; the datum moves to the new face."""
    length = station.length
    off = said.get("", said.get("off"))
    if off is None:
        off = length - said.length("to length")
    if off <= 0:
        raise MethodError(
            said.place,
            f"nothing to face off (got {number(off)} mm of {number(length)} mm)",
            "the work must be longer than its finished length",
            "check the length or the stock",
            code="nothing-to-cut",
        )
    swing, inner = station.swing(0, off), said.get("down to", 0.0) / 2
    points = [(inner, -CLEAR), (swing + CLEAR, -CLEAR), (swing + CLEAR, off), (inner, off)]
    to_length = said.get("to length")
    words = f"Face to {number(to_length)} long" if to_length else f"Face {number(off)} off"
    start = station.face_diameter()
    return Plan(
        words, [station.turned(Outline(*points))],
        CutData("face", start, start, 2 * inner, start / 2 - inner + 1, width=off, across=True, slide="compound slide"),
        Sketch(0, off, 0.0, start, cut_words=number(off)), face_moves=off, tool_words="knife tool", feature="face",
        handling=0.7, reach_depth=0.0,
    )  # fmt: skip


@verb(
    "turn",
    family="turning",
    tool="turning",
    clauses=[
        Clause("to", "length", "finished diameter", True),
        OVER,
        FROM,
        CORNER,
        LEAVE,
        Clause("left hand", "flag", "left-hand tool"),
        Clause("called", "text", "name of the feature"),
    ],
)
def turn(station: Station, said: Said) -> Plan:
    """Turn to a diameter over a length from the face, or from `from`."""
    start = said.get("from", 0.0)
    over = said.get("over", station.stick_out - start if station.stick_out else station.length - start)
    finished, corner = said.length("to"), said.get("corner", 0.0)
    to = finished + said.get("leave", 0.0)
    end, r = start + over, to / 2
    _inside_work(station, said, start, end)
    swing = station.swing(start, end)
    _removes(said, to, 2 * swing)
    begin = start if start else -CLEAR
    outline = Outline((r, begin), (swing + CLEAR, begin), (swing + CLEAR, end))
    outline = outline.arc((r + corner, end - corner), corner, 90, 180) if corner else outline.to((r, end))
    words = f"Turn to {diameter(to)} over {number(over)}" + (f", from {number(start)}" if start else "")
    if said.get("leave"):
        words += f", {number(said.get('leave'))} left on for a later cut"
    return Plan(
        words, [station.turned(outline)],
        CutData("turn", 2 * swing, 2 * swing, to, over + 2, slide="cross slide"),
        Sketch(start, end, to, 2 * swing, cut_words=number(over), diameter_words=diameter(to)),
        checks=[_clear_in_front(station, start, r, said)], tool_words="knife tool", tool_size=0.0,
        feature=str(said.get("called", diameter(to))), handling=1.0, reach_depth=swing - r,
    )  # fmt: skip


def _inside_work(station: Station, said: Said, start: float, end: float) -> None:
    if start < 0 or end <= start:
        raise MethodError(
            said.place,
            f"a cut from {number(start)} to {number(end)} mm has no length",
            "lengths run from the face into the metal",
            "check `from` and `over`",
            code="wrong-value",
        )
    if end > station.length + 0.5:
        raise MethodError(
            said.where("over"),
            f"the cut ends {number(end)} mm from the face (got {number(end)} mm of {number(station.length)} mm)",
            "the work is no longer than that",
            "shorten `over` or use longer stock",
            code="too-long",
        )


def _removes(said: Said, to: float, there: float) -> None:
    if to <= 0:
        raise MethodError(
            said.where("to"),
            f"a diameter is more than nothing (got {number(to)} mm)",
            "sizes are positive",
            "check the size",
            code="wrong-value",
        )
    if to >= there - 1e-6:
        raise MethodError(
            said.where("to"),
            f"there is no metal to turn away: {diameter(to)} is wanted and the work is {diameter(there)}"
            f" there (got {number(to)} mm)",
            "turning makes the diameter smaller",
            "check the size, the place or the stock",
            code="larger-than-work",
        )


def _clear_in_front(station: Station, start: float, radius: float, said: Said) -> Check:
    """A right-hand tool comes in from the tailstock over everything that lies nearer to you."""
    if start <= 0.011 or said.get("left hand"):
        return Check(
            "way-in",
            "passed",
            "the tool comes in from the face" if start <= 0.011 else "left-hand tool: comes in from the chuck side",
            said.place.line,
        )
    in_front = station.swing(0, start - 0.01)
    if in_front <= radius + 1e-6:
        return Check(
            "way-in", "passed", f"nothing in front of the cut stands above {diameter(2 * radius)}", said.place.line
        )
    return Check(
        "way-in",
        "failed",
        f"metal to {diameter(2 * in_front)} stands in front of the cut to {diameter(2 * radius)}: "
        "a right-hand tool does not get in; groove it or say `left hand`",
        said.place.line,
    )


@verb(
    "taper",
    family="turning",
    tool="turning",
    clauses=[
        Clause("from", "length", "diameter at its near end"),
        Clause("to", "length", "diameter at its far end"),
        Clause("angle", "angle", "half the included angle"),
        Clause("over", "length", "its length along the axis", True),
        Clause("starting", "length", "where it starts, from the face"),
        Clause("called", "text"),
    ],
)
def taper(station: Station, said: Said) -> Plan:
    """Turn a taper, by two diameters or by one diameter and the half angle."""
    start, over = said.get("starting", 0.0), said.length("over")
    near, far = said.get("from"), said.get("to")
    if said.get("angle") is not None:
        change = 2 * over * math.tan(math.radians(said.length("angle")))
        if near is None and far is None:
            far = 2 * station.swing(start, start + over)
        near = far - change if near is None else near
        far = near + change
    if near is None or far is None:
        raise MethodError(
            said.place,
            "a taper needs two diameters, or one and `angle`",
            "`from`, `to`, `angle`: two of them",
            "write e.g. `taper: from 12 mm to 16 mm, over 40 mm`",
            code="missing-clause",
        )
    if near < 0 or far <= 0:
        raise MethodError(
            said.place,
            f"the taper runs past the axis (got {number(near)} mm)",
            "diameters are positive",
            "shorten it or make the angle smaller",
            code="wrong-value",
        )
    end, swing = start + over, station.swing(start, start + over)
    slope = (far - near) / 2 / over
    begin = start if start else -CLEAR
    outline = Outline(
        (max(0.0, near / 2 + slope * (begin - start)), begin),
        (swing + CLEAR, begin),
        (swing + CLEAR, end),
        (far / 2, end),
    )
    half = math.degrees(math.atan(abs(slope)))
    words = f"Taper from {diameter(near)} to {diameter(far)} over {number(over)}"
    plan = Plan(
        words, [station.turned(outline)],
        CutData("turn", 2 * swing, 2 * swing, min(near, far), over / math.cos(math.radians(half)) + 2, slide="compound slide"),
        Sketch(start, end, near, 2 * swing, end_diameter=far, cut_words=number(over), diameter_words=diameter(near)),
        checks=[_clear_in_front(station, start, near / 2, said)], tool_words="knife tool", handling=3.0,
        feature=str(said.get("called", f"taper {diameter(near)} to {diameter(far)}")), reach_depth=swing - min(near, far) / 2,
    )  # fmt: skip
    plan.facts += taper_facts(station, half, near, far, over)
    return plan


@verb(
    "profile",
    family="turning",
    tool="turning",
    clauses=[Clause("points", "points", "(length from the face, diameter) pairs", True), Clause("called", "text")],
)
def profile(station: Station, said: Said) -> Plan:
    """Turn a profile given as lengths from the face and diameters, joined by straight lines."""
    points = [(d / 2, s) for s, d in (p[:2] for p in said.get("points"))]
    if len(points) < 2 or any(b[1] < a[1] for a, b in zip(points, points[1:], strict=False)):
        raise MethodError(
            said.where("points"),
            "the points of a profile run from the face into the metal, two at least",
            "lengths do not fall",
            "write e.g. `points (0 mm, 10 mm), (8 mm, 16 mm)`",
            code="wrong-value",
        )
    start, end = points[0][1], points[-1][1]
    swing = station.swing(start, end)
    first = [(points[0][0], -CLEAR)] if start < 1e-9 else []
    begin = -CLEAR if start < 1e-9 else start
    outline = Outline(*first, *points, (swing + CLEAR, end), (swing + CLEAR, begin))
    least = 2 * min(r for r, _ in points)
    return Plan(
        f"Turn the profile from {number(start)} to {number(end)}, {diameter(least)} at its smallest", [station.turned(outline)],
        CutData("turn", 2 * swing, 2 * swing, least, 1.1 * (end - start) + 2, slide="cross slide"),
        Sketch(start, end, least, 2 * swing, cut_words=number(end - start)), tool_words="round-nose tool", handling=3.0,
        feature=str(said.get("called", "profile")), reach_depth=swing - least / 2,
    )  # fmt: skip


@verb(
    "round over",
    family="turning",
    first=Clause("", "length", "radius", True),
    tool="form",
    clauses=[
        Clause("on", "length", "diameter whose edge is rounded"),
        Clause("at", "length", "length of the edge from the face"),
        Clause("hollow", "flag", "a hollow instead of a round"),
    ],
)
def round_over(station: Station, said: Said) -> Plan:
    """Form a radius on an edge at the face (or at a shoulder); `hollow` makes it concave."""
    radius, at = said.length(""), said.get("at", 0.0)
    outer = said.get("on", 2 * station.swing(at, at + radius)) / 2
    if radius > outer:
        raise MethodError(
            said.place,
            f"the radius is larger than the work (got {number(radius)} mm on {diameter(2 * outer)})",
            "it fits on the edge",
            "make it smaller",
            code="larger-than-work",
        )
    centre = (outer, at) if said.get("hollow") else (outer - radius, at + radius)
    if said.get("hollow"):
        outline = Outline((outer + CLEAR, at - CLEAR), (outer - radius, at - CLEAR), (outer - radius, at)).arc(
            centre, radius, 180, 90
        )
        outline = outline.to((outer + CLEAR, at + radius))
    else:
        outline = Outline((outer + CLEAR, at - CLEAR), (outer - radius, at - CLEAR), (outer - radius, at)).arc(
            centre, radius, -90, 0
        )
        outline = outline.to((outer + CLEAR, at + radius))
    return Plan(
        f"Form a radius of {number(radius)} on {diameter(2 * outer)}", [station.turned(outline)],
        CutData("form", 2 * outer, 2 * outer, 2 * (outer - radius), radius + 0.5, width=1.6 * radius, across=True, slide="cross slide"),
        Sketch(at, at + radius, 2 * outer - 2 * radius, 2 * outer, cut_words=f"R{number(radius)}"), tool_words="form tool", handling=2.0,
        feature=f"R{number(radius)}", reach_depth=radius,
    )  # fmt: skip


@verb(
    "groove",
    family="turning",
    tool="parting",
    clauses=[
        Clause("from", "length", "near side, from the face"),
        Clause("at", "length", "near side, from the face"),
        Clause("wide", "length", "width", True),
        Clause("to", "length", "diameter at the bottom"),
        Clause("deep", "length", "depth"),
        Clause("called", "text"),
    ],
)
def groove(station: Station, said: Said) -> Plan:
    """Cut a groove square to the axis."""
    start, width = said.get("from", said.get("at", 0.0)), said.length("wide")
    _inside_work(station, said, start, start + width)
    swing = station.swing(start, start + width)
    r = swing - said.length("deep") if "deep" in said else said.length("to") / 2
    _removes(said, 2 * r, 2 * swing)
    blade = min(station.blade_width, width)
    plunges = math.ceil(width / blade - 1e-9)
    return Plan(
        f"Groove {number(width)} wide at {number(start)} to {diameter(2 * r)}",
        [station.turned(Outline((r, start), (swing + CLEAR, start), (swing + CLEAR, start + width), (r, start + width)))],
        CutData("groove", 2 * swing, 2 * swing, 2 * r, swing - r + 1, width=blade, holes=plunges, across=True, slide="cross slide"),
        Sketch(start, start + width, 2 * r, 2 * swing, cut_words=number(width), diameter_words=diameter(2 * r), size=blade),
        cautions=["parting"], tool_words="parting blade", feature=str(said.get("called", f"groove {diameter(2 * r)}")), handling=1.5,
        reach_depth=swing - r,
    )  # fmt: skip


@verb(
    "part off",
    family="turning",
    first=Clause("", "length", "length of the piece that falls off", True),
    tool="parting",
    clauses=[
        Clause("wide", "length", "width of the blade"),
        Clause("keep", "text", "front (the piece that falls off) or back"),
    ],
)
def part_off(station: Station, said: Said) -> Plan:
    """Part off; the piece that falls off is kept unless `keep back` is said."""
    at, width = said.length(""), said.get("wide", station.blade_width)
    _inside_work(station, said, at, at + width)
    swing = station.swing(at, at + width)
    hole = station.bore_radius(at + width / 2)
    keep = said.get("keep", "front")
    if keep not in ("front", "back"):
        raise MethodError(
            said.where("keep"),
            f"`keep` names a piece (got `{keep}`)",
            "front or back",
            "write `keep front`",
            code="wrong-value",
        )
    outline = Outline((0, at), (swing + CLEAR, at), (swing + CLEAR, at + width), (0, at + width))
    return Plan(
        f"Part off {number(at)} long", [station.turned(outline)],
        CutData("part", 2 * swing, 2 * swing, 2 * hole, swing - hole + 0.5, width=width, across=True, slide="cross slide"),
        Sketch(at, at + width, 0.0, 2 * swing, cut_words=number(at), size=width), splits=True, keeps=keep, cautions=["parting"],
        tool_words="parting blade", handling=1.5, reach_depth=swing - hole, feature="parted face",
        face_moves=at + width if keep == "back" else 0.0,
    )  # fmt: skip


@verb(
    "chamfer",
    family="turning",
    first=Clause("", "length", "size along the face", True),
    tool="chamfer",
    clauses=[
        Clause("on", "length", "diameter whose edge is broken"),
        Clause("at", "length", "length of the edge from the face"),
        Clause("inside", "flag", "the edge of a bore"),
        Clause("angle", "angle", "angle to the axis, 45° unless said"),
        Clause("away", "flag", "the edge on the far side of a collar"),
    ],
)
def chamfer(station: Station, said: Said) -> Plan:
    """Chamfer an edge at the face, at a shoulder, or in a bore."""
    size, at, angle = said.length(""), said.get("at", 0.0), said.get("angle", 45.0)
    if not 5 <= angle <= 85:
        raise MethodError(
            said.where("angle"),
            f"a chamfer stands between 5° and 85° (got {number(angle)}°)",
            "angle to the axis",
            "check the angle",
            code="wrong-value",
        )
    along = size / math.tan(math.radians(angle))
    sign = -1.0 if said.get("away") else 1.0
    if said.get("inside"):
        return _inside_chamfer(station, said, size, at, along)
    r = said.get("on", 2 * station.swing(at, at + along)) / 2
    slope = size / along
    tip, top = (r - size - slope * CLEAR, at - sign * CLEAR), (r + slope * CLEAR, at + sign * (along + CLEAR))
    if tip[0] < 0:
        tip = (0.0, at + sign * (along - r / slope))
    outline = Outline(tip, (r + slope * CLEAR, at - sign * CLEAR), top)
    shape = f"{number(size)} × {number(angle)}°"
    return Plan(
        f"Chamfer {shape} on {diameter(2 * r)}", [station.turned(outline)],
        CutData("form", 2 * r, 2 * r, 2 * (r - size), size + 0.5, width=1.4 * size, across=True, slide="cross slide"),
        Sketch(at, at + along, 2 * (r - size), 2 * r, size=size, cut_words=shape, diameter_words=diameter(2 * r)), tool_words="chamfer tool",
        handling=0.5, feature=f"chamfer {diameter(2 * r)}", reach_depth=size,
    )  # fmt: skip


def _inside_chamfer(station: Station, said: Said, size: float, at: float, along: float) -> Plan:
    r = said.get("on", 2 * station.bore_radius(at + along / 2)) / 2
    if r <= 0:
        raise MethodError(
            said.place,
            "there is no bore to chamfer here",
            "`inside` breaks the edge of a hole",
            "drill or bore first",
            code="nothing-to-cut",
        )
    slope = size / along
    outline = Outline(
        (0, at - CLEAR),
        (r + size + slope * CLEAR, at - CLEAR),
        (max(0.0, r - slope * CLEAR), at + along + CLEAR),
        (0, at + along + CLEAR),
    )
    shape = f"{number(size)} × 45°"
    return Plan(
        f"Chamfer {shape} in the bore {diameter(2 * r)}", [station.turned(outline)],
        CutData("form", 2 * (r + size), 2 * r, 2 * (r + size), size + 0.5, width=1.4 * size, across=True, slide="cross slide"),
        Sketch(at, at + along, 2 * (r + size), 2 * r, size=size, cut_words=shape), tool_words="chamfer tool", handling=0.5,
        feature=f"chamfer {diameter(2 * r)} inside",
    )  # fmt: skip


@verb(
    "knurl",
    family="turning",
    tool="knurl",
    frame=TURNING,
    clauses=[
        OVER,
        FROM,
        Clause("pitch", "length", "pitch of the knurl"),
        Clause("straight", "flag", "straight instead of diamond"),
    ],
)
def knurl(station: Station, said: Said) -> Plan:
    """Knurl the outside; the pattern is drawn, no metal goes."""
    start = said.get("from", 0.0)
    over, pitch = said.get("over", station.length - start), said.get("pitch", 1.0)
    _inside_work(station, said, start, start + over)
    swing = station.swing(start, start + over)
    pattern = "straight" if said.get("straight") else "diamond"
    return Plan(
        f"Knurl {diameter(2 * swing)} over {number(over)}, {pattern}, pitch {number(pitch)}", [],
        CutData("knurl", 2 * swing, 2 * swing, 2 * swing, over + 5, slide="cross slide"),
        Sketch(start, start + over, 2 * swing, 2 * swing, size=pitch, cut_words=number(over)),
        marks=station.knurl_lines(swing, start, start + over, pitch, straight=bool(said.get("straight"))), tool_words="knurling tool",
        handling=2.0, must_cut=False, feature="knurl",
    )  # fmt: skip
