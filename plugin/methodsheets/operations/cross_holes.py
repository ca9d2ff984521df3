"""What do the verbs of cross holes cut: holes square to the axis of turned work?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .holes import CALLED, CLEAR, DEEP, POINT, SIZE, THROUGH, positive_size
from .places import Places, read_angles
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number
from .station import Station
from .verb import TURNING, verb
from .words import Clause, Said

ACROSS = (
    Clause("from face", "length", "distance of the hole from the face that looks at you", True),
    DEEP,
    THROUGH,
    CALLED,
    Clause("at", "angles", "angle of the hole's mouth from the 0° mark"),
    Clause("divide", "count", "so many, equally spaced"),
    Clause("starting", "angle", "angle of the first", apart=True),
    Clause("skip", "counts", "numbers of the divisions that are left out"),
    Clause("off axis", "length", "distance of the hole from the axis", apart=True),
    Clause("point", "angle", "angle of the drill's point", within=(1, 180), apart=True),
)


@verb("cross-drill", frame=TURNING, family="holes", first=SIZE, clauses=ACROSS)
def cross_drill(station: Station, said: Said) -> Plan:
    """Drill a hole square to the axis."""
    return _across(station, said, Process.DRILL, ToolKind.DRILL)


@verb("cross-ream", frame=TURNING, family="holes", first=SIZE, clauses=ACROSS)
def cross_ream(station: Station, said: Said) -> Plan:
    """Ream a hole square to the axis."""
    return _across(station, said, Process.REAM, ToolKind.REAMER)


@dataclass(frozen=True)
class Across:
    """Where something goes in across the axis."""

    along: float
    angles: tuple[float, ...]
    divided: int
    off: float


def place_across(station: Station, said: Said) -> Across:
    """The place of a hole square to the axis."""
    along = said.length("from face")
    if not 0 <= along <= station.length:
        raise MethodError(
            said.where("from face"),
            f"the hole lies beside the work (got {number(along)} mm of {number(station.length)} mm)",
            "lengths run from the face into the metal",
            "check the length",
            code="too-long",
        )
    return Across(along, *read_angles(said), said.get("off axis", 0.0))


def _across(station: Station, said: Said, process: Process, tool: ToolKind) -> Plan:
    """A hole square to the axis, through the wall that it meets."""
    size, where = positive_size(said), place_across(station, said)
    along, angles, divided, off = where.along, where.angles, where.divided, where.off
    through = bool(said.get("through")) or "deep" not in said
    met = [station.metal_across(size / 2, along, a, off) for a in angles]
    deep = max(outer - inner for outer, inner in met) if through else said.length("deep")
    reaming = process is Process.REAM
    tip = 0.0 if through or reaming else size / 2 / math.tan(math.radians(said.get("point", POINT) / 2))
    solids = [
        s
        for a, (outer, inner) in zip(angles, met, strict=True)
        for s in station.across(size / 2, along, a, outer, inner - CLEAR if through else outer - deep, tip, off)
    ]
    places = Places(0.0, angles, (), divided)
    how_deep = "through" if through else f"{dim(deep)} deep"
    words = f"{station.verb.capitalize()} {dia(size)} {how_deep}, {dim(along)} from the face"
    there = size - 0.2 if reaming else 0.0
    return Plan(
        words + (f" at {', '.join(f'{number(a)}°' for a in angles)}" if any(angles) else ""), solids,
        CutData(process, size, there, size, deep + tip + 2, holes=len(angles), slide="z", tool_turns=True),
        Sketch(along - size / 2, along + size / 2, size, 0, through=through, angles=places.angles,
            diameter_words=diameter(size), size=size, view="across"),
        cautions=["drilling"], tool_words=tool.row.words[0], tool_size=size,
        feature=str(said.get("called", f"cross hole {diameter(size)}")), handling=1.5, reach_depth=deep + tip,
        makes=(Made("diameter", size, by=tool), Made("length", along),
            Made("depth", deep)),
        axes=[x for a, (outer, _) in zip(angles, met, strict=True) for x in station.across_axes(along, a,
            outer - deep, off)],
    )  # fmt: skip
