"""What do the narrow tools cut on turned work: grooves outside and inside, undercuts, parting off?"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.rings import RingGroove, ring_groove
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .facts import judged, looked_up
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number, resting
from .station import Station
from .turned_work import CALLED, CLEAR, INSIDE, inside_work, removes
from .verb import verb
from .words import Clause, Said

RING_NEAR = 0.1
"""mm by which shaft or bore may differ from the ring's size."""


@verb(
    "groove",
    family="turning",
    clauses=[
        Clause("from", "length", "near side, from the face", says="where it begins"),
        Clause("at", "length", "near side, from the face", says="where it begins"),
        Clause("wide", "length", "width"),
        Clause("to", "length", "diameter at the bottom", says="how deep it is"),
        Clause("deep", "length", "depth", says="how deep it is"),
        Clause(
            "ring",
            "length",
            "for a retaining ring of that size: width and diameter from the table",
            says="how deep it is",
        ),
        INSIDE,
        CALLED,
    ],
)
def groove(station: Station, said: Said) -> Plan:
    """Cut a groove square to the axis, outside or `inside` a bore."""
    start = said.get("from", said.get("at", 0.0))
    ring, rests = looked_up(_for_ring, station, said) if "ring" in said else (None, ())
    width = said.get("wide", ring.wide) if ring else said.length("wide")
    inside_work(station, said, start, start + width)
    if said.get("inside"):
        return _inside_groove(station, said, start, width, ring.groove / 2 if ring else 0.0, rests)
    swing = station.swing(start, start + width)
    if ring:
        wide = dim(width) if "wide" in said else resting(dim(width), rests)
        words = f"Groove for a ring {dim(said.length('ring'))}, {wide} wide at {dim(start)}"
        plan = _outside_groove(station, said, (start, width), (swing, ring.groove / 2), words)
        return plan.with_more(checks=[_ring_fits(said, 2 * swing, "shaft")])
    r = swing - said.length("deep") if "deep" in said else said.length("to") / 2
    return _outside_groove(station, said, (start, width), (swing, r), f"Groove {dim(width)} wide at {dim(start)}")


def _for_ring(station: Station, said: Said) -> RingGroove:
    """The groove that the table says for a ring."""
    del station
    kind = "bore" if said.get("inside") else "shaft"
    try:
        return ring_groove(said.length("ring"), kind)
    except (NotInTable, OutOfRange) as error:
        rule, remedy = "rings go by the diameter of shaft or bore", "write `wide` and `to` from the ring's own sheet"
        raise MethodError(said.where("ring"), str(error), rule, remedy, code="unknown-ring") from None


def _ring_fits(said: Said, there: float, kind: str) -> Check:
    """Whether the ring is one for the shaft or bore that is there."""
    words = f"a ring for {kind} {dia(said.length('ring'))} on {dia(there)}"
    return judged("ring", abs(there - said.length("ring")) <= RING_NEAR, words, said.place.line)


@verb(
    "undercut",
    family="turning",
    clauses=[
        Clause("at", "length", "length of the shoulder from the face", True),
        Clause("wide", "length", "width", True),
        Clause("deep", "length", "depth below the diameter in front of the shoulder", True),
        CALLED,
    ],
)
def undercut(station: Station, said: Said) -> Plan:
    """Undercut the corner in front of a shoulder, so that a ring or a thread runs up to it."""
    at, width = said.length("at"), said.length("wide")
    inside_work(station, said, at - width, at)
    journal = station.swing(max(0.0, at - width - 0.2), at - 0.5 * width)
    words = f"Undercut {dim(width)} wide, {dim(said.length('deep'))} deep, at the shoulder {dim(at)} from the face"
    return _outside_groove(station, said, (at - width, width), (journal, journal - said.length("deep")), words)


def _outside_groove(
    station: Station, said: Said, along: tuple[float, float], radii: tuple[float, float], words: str
) -> Plan:
    """A groove from its near side over a width, from the outer radius down to the inner."""
    (start, width), (swing, r) = along, radii
    removes(said, 2 * r, 2 * swing)
    blade = min(station.blade_width, width)
    reach = swing + CLEAR if said.get("at") is None or "deep" not in said else swing + 1e-3
    return Plan(
        f"{words} to {dia(2 * r)}",
        [station.turned(Outline((r, start), (reach, start), (reach, start + width), (r, start + width)))],
        CutData(Process.GROOVE, 2 * swing, 2 * swing, 2 * r, swing - r + 1, width=blade,
            holes=math.ceil(width / blade - 1e-9), across=True,
                slide="cross slide"),
        Sketch(start, start + width, 2 * r, 2 * swing, cut_words=number(width), diameter_words=diameter(2 * r),
            size=blade),
        cautions=["parting"], tool_words="parting blade", feature=str(said.get("called",
            f"groove {diameter(2 * r)}")), handling=1.5,
        makes=(Made("diameter", 2 * r, -0.5), _groove_width(blade, width), Made("depth", swing - r, 1.0)),
        reach_depth=swing - r,
    )  # fmt: skip


def _groove_width(blade: float, width: float) -> Made:
    """A groove as wide as its blade is what the blade makes; a wider one is set by the slide."""
    return Made("width", width, by=None if width > blade + 1e-9 else ToolKind.PARTING)


def _inside_groove(
    station: Station, said: Said, start: float, width: float, of_ring: float = 0.0, rests: tuple[str, ...] = ()
) -> Plan:  # fmt: skip
    there = station.bore_radius(start + width / 2)
    if there <= 0:
        words = "there is no bore to groove here"
        raise MethodError(said.place, words, "`inside` is in a hole", "drill or bore first", code="nothing-to-cut")
    r = of_ring or (there + said.length("deep") if "deep" in said else said.length("to") / 2)
    if r <= there + 1e-6:
        words = f"the groove is no larger than the bore (got {diameter(2 * r)} in {diameter(2 * there)})"
        raise MethodError(
            said.where("to"), words, "a groove inside is larger", "check the size", code="smaller-than-hole"
        )
    wide = dim(width) if "wide" in said else resting(dim(width), rests)
    return Plan(
        f"Groove {wide} wide at {dim(start)} to {resting(dia(2 * r), rests)} inside",
        [station.turned(Outline((0, start), (r, start), (r, start + width), (0, start + width)))],
        CutData(Process.GROOVE, 2 * r, 2 * there, 2 * r, r - there + 1,
            width=min(station.blade_width, width), across=True, slide="cross slide"),
        Sketch(start, start + width, 2 * r, 2 * there, cut_words=number(width), diameter_words=diameter(2 * r),
            size=width),
        cautions=["parting"], tool_words="internal grooving tool",
        feature=str(said.get("called", f"groove {diameter(2 * r)} inside")),
        handling=2.0, inside=True, straight=False, reach_depth=0.0,
        makes=(Made("diameter", 2 * r, 0.5), _groove_width(min(station.blade_width, width), width),
            Made("depth", r - there, 1.0)), checks=[_ring_fits(said, 2 * there, "bore")] if of_ring else [],
    )  # fmt: skip


@verb(
    "part off",
    family="turning",
    first=Clause("", "length", "length of the piece that falls off", True),
    clauses=[
        Clause("wide", "length", "width of the blade", apart=True),
        Clause("keep", "text", "front (the piece that falls off) or back", apart=True),
    ],
)
def part_off(station: Station, said: Said) -> Plan:
    """Part off; the piece that falls off is kept unless `keep back` is said."""
    at, width = said.length(""), said.get("wide", station.blade_width)
    inside_work(station, said, at, at + width)
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
        f"Part off {dim(at)} long", [station.turned(outline)],
        CutData(Process.PART, 2 * swing, 2 * swing, 2 * hole, swing - hole + 0.5, width=width, across=True,
            slide="cross slide"),
        Sketch(at, at + width, 0.0, 2 * swing, cut_words=number(at), size=width), splits=True, keeps=keep,
        cautions=["parting"],
        tool_words="parting blade", handling=1.5, reach_depth=swing - hole, feature="parted face",
        makes=(Made("length", at), Made("width", width, by=ToolKind.PARTING)),
        face_moves=at + width if keep == "back" else 0.0,
    )  # fmt: skip
