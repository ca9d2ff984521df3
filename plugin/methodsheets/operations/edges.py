"""What do the verbs of edges cut on turned work: chamfers, rounded edges, knurls?"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .facts import told
from .plan import CutData, Made, Plan, Sketch
from .qualities import Figure, Given, Quality
from .say import MM, dia, diameter, dim, number
from .station import Station
from .turned_work import CLEAR, FROM, OVER, inside_work
from .verb import TURNING, verb
from .words import Clause, Said

SMALL_EDGE = 5.0
"""mm: an edge that is no longer than this is broken at turning speed; a longer one is a form cut."""


def _edge(width: float) -> Process:
    """How an edge of that width is cut."""
    return Process.CHAMFER if width <= SMALL_EDGE else Process.FORM


@verb(
    "round over",
    family="turning",
    first=Clause("", "length", "radius", True),
    clauses=[
        Clause("on", "length", "diameter whose edge is rounded"),
        Clause("at", "length", "length of the edge from the face", apart=True),
        Clause("hollow", "flag", "a hollow instead of a round", apart=True),
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
    sweep = (180, 90) if said.get("hollow") else (-90, 0)
    lead = Outline((outer + CLEAR, at - CLEAR), (outer - radius, at - CLEAR), (outer - radius, at))
    outline = lead.arc(centre, radius, *sweep).to((outer + CLEAR, at + radius))
    return Plan(
        f"Form a radius of {dim(radius)} on {dia(2 * outer)}", [station.turned(outline)],
        CutData(Process.FORM, 2 * outer, 2 * outer, 2 * (outer - radius), radius + 0.5, width=1.6 * radius, across=True,
            slide="cross slide"),
        Sketch(at, at + radius, 2 * outer - 2 * radius, 2 * outer, cut_words=f"R{number(radius)}"),
        tool_words="form tool", handling=2.0, makes=(Made("length", radius, by=ToolKind.FORM),),
        feature=f"R{number(radius)}", reach_depth=radius,
    )  # fmt: skip


@verb(
    "chamfer",
    family="turning",
    first=Clause("", "length", "size along the face", True),
    clauses=[
        Clause("on", "length", "diameter whose edge is broken"),
        Clause("at", "length", "length of the edge from the face", apart=True),
        Clause("inside", "flag", "the edge of a bore"),
        Clause("angle", "angle", "angle to the axis, 45° unless said"),
        Clause("away", "flag", "the edge on the far side of a collar", apart=True),
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
    inside = said.get("inside")
    sign = -1.0 if not inside and said.get("away") else 1.0
    if inside:
        return _inside_chamfer(station, said, size, at, along)
    r = said.get("on", 2 * station.swing(at, at + along)) / 2
    slope = size / along
    near = at if sign > 0 else at - along
    tip, top = (r - size - slope * CLEAR, at - sign * CLEAR), (r + slope * CLEAR, at + sign * (along + CLEAR))
    if tip[0] < 0:
        tip = (0.0, at + sign * (along - r / slope))
    outline = Outline(tip, (r + slope * CLEAR, at - sign * CLEAR), top)
    shape = f"{dim(size)} × {number(angle)}°"
    return Plan(
        f"Chamfer {shape} on {dia(2 * r)}", [station.turned(outline)],
        CutData(_edge(1.4 * size), 2 * r, 2 * r, 2 * (r - size), size + 0.5, width=1.4 * size, across=True,
            slide="cross slide"),
        Sketch(near, near + along, 2 * (r - size), 2 * r, size=size, cut_words=shape, diameter_words=diameter(2 * r)),
        tool_words="chamfer tool",
        makes=(Made("length", size, 1.0), Made("diameter", 2 * (r - size), -0.5)),
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
    shape = f"{dim(size)} × 45°"
    return Plan(
        f"Chamfer {shape} in the bore {dia(2 * r)}", [station.turned(outline)],
        CutData(_edge(1.4 * size), 2 * (r + size), 2 * r, 2 * (r + size), size + 0.5, width=1.4 * size, across=True,
            slide="cross slide"),
        Sketch(at, at + along, 2 * (r + size), 2 * r, size=size, cut_words=shape), tool_words="chamfer tool",
        handling=0.5,
        makes=(Made("length", size, 1.0), Made("diameter", 2 * (r + size), 0.5)),
        feature=f"chamfer {diameter(2 * r)} inside", inside=True, straight=False,
    )  # fmt: skip


@verb(
    "knurl",
    family="turning",
    frame=TURNING,
    clauses=[
        OVER,
        FROM,
        Clause("pitch", "length", "pitch of the knurl", changes=(Change.WORDS, Change.PICTURE)),
        Clause("straight", "flag", "straight instead of diamond"),
    ],
)
def knurl(station: Station, said: Said) -> Plan:
    """Knurl the outside; the pattern is drawn, no metal goes."""
    start = said.get("from", 0.0)
    over, pitch = said.get("over", station.length - start), said.get("pitch", 1.0)
    inside_work(station, said, start, start + over)
    swing = station.swing(start, start + over)
    pattern = "straight" if said.get("straight") else "diamond"
    given = Given(
        quality=Quality.KNURL, words=f"a {pattern} knurl, pitch {dim(pitch)} {MM}", pattern=pattern,
        figures=(Figure("pitch", pitch, 0.05 * pitch),),
        span=station.along(start, start + over), diameter=2 * swing, near=pitch,
    )  # fmt: skip
    plan = Plan(
        f"Knurl {dia(2 * swing)} over {dim(over)}, {pattern}, pitch {dim(pitch)}", [],
        CutData(Process.KNURL, 2 * swing, 2 * swing, 2 * swing, over + 5, slide="cross slide"),
        Sketch(start, start + over, 2 * swing, 2 * swing, size=pitch, cut_words=number(over)),
        marks=station.knurl_lines(swing, start, start + over, pitch, straight=bool(said.get("straight"))),
        tool_words="knurling tool",
        handling=2.0, must_cut=False, feature="knurl", gives=(given,),
    )  # fmt: skip
    ridges = max(1, round(2 * math.pi * swing / pitch))
    closes, next_up = ridges * pitch / math.pi, (ridges + 1) * pitch / math.pi
    how = f"{ridges} ridges go round {dia(round(closes, 2))}; one more wants {dia(round(next_up, 2))}"
    return plan.with_more(
        facts=[
            told(
                "closes",
                "The pattern closes up",
                how,
                (),
                "turn the blank to one of them: a knurl between two doubles up",
            )
        ]
    )
