"""How is a piece cut away in the middle of the work: the core between two webs, sawn, filed or milled out?

What is named behind `keep` stays untouched, and the tool comes from the side where it is not in the way. What then
still carries the ends is looked at when the metal is gone (`method/checks/cores.py`).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from methodsheets.geometry import Outline, Solid
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .plan import CutData, Gap, Plan, Sketch
from .say import degrees, dia, dim, joined, number, turned
from .station import Station
from .turned_work import CALLED, inside_work
from .verb import TURNING, verb
from .words import Clause, Said

if TYPE_CHECKING:
    from collections.abc import Sequence

KERF = 1.5
"""mm: usual kerf of a hacksaw or small bandsaw, common practice."""
FILED = 250.0
"""mm³ of mild steel that a hand takes off with a file in a minute (common practice, from memory, ±50 %)."""
MOST = 0.5
"""Share of the cut that a tool must reach from its side: of less, that side is the wrong one."""
HOW_FAR = "how far it goes"


@verb(
    "saw out",
    frame=TURNING,
    family="bench",
    clauses=[
        Clause("from", "length", "where the gap begins, from the face", True),
        Clause("wide", "length", "width of the gap", True),
        Clause("bottom", "length", "distance of its flat bottom from the axis; negative beyond it", says=HOW_FAR),
        Clause("down to", "length", "diameter about the axis that is left standing", says=HOW_FAR),
        Clause("up to", "length", "diameter about the axis of the core that goes", says=HOW_FAR),
        Clause("sector", "angle", "how much of the turn goes, about the side of the cut"),
        Clause("at", "angle", "side that the tool comes from", changes=(Change.PICTURE,)),
        Clause("keep", "prose", "bodies that stay as they are: `keep pin`, `keep pin and key`"),
        Clause("cutter", "length", "diameter of the cutter, where it is milled", changes=(Change.NUMBERS,)),
        CALLED,
        Clause("for", "minutes", "how long it takes", changes=(Change.TIME,)),
    ],
)
def saw_out_of_turned_work(station: Station, said: Said) -> Plan:
    """Saw, file or mill a piece out of the middle: from a length, so wide; the whole section unless more is said."""
    start = said.length("from")
    end = start + said.length("wide")
    inside_work(station, said, start, end)
    kept = _kept(station, said)
    region = _Region.of(station, said, start, end, kept)
    gap = _gap(station, said, region, kept)
    way = _way(station)
    name = str(said.get("called", "gap"))
    word = {Process.SAW: "Saw", Process.MILL: "Mill", Process.NONE: "File"}[way]
    cut, minutes, tool, size = _how(station, said, way, gap, region)
    reach = round(station.swing(max(0.0, start - 1.0), min(end + 1.0, station.length)) - gap.floor, 2)
    return Plan(
        f"{word} out a gap {dim(end - start)} wide, {dim(start)} from the face, from {degrees(gap.angle)}: "
        + region.words + (f"; the {joined([*kept])} stays" if kept else ""),
        [region.swept], cut,
        Sketch(start, end, angles=(gap.angle,), size=gap.kerf, view="across", cut_words=number(end - start)),
        splits=True, keeps="both", spares=kept, gap=gap, cautions=["milling" if cut.tool_turns else "sawing"],
        tool_words=tool, tool_size=size, handling=1.0, by_hand=said.get("for", minutes), feature=name, beside=True,
        reach_depth=reach,
    )  # fmt: skip


def _kept(station: Station, said: Said) -> tuple[str, ...]:
    """The bodies that the author keeps."""
    words = re.split(r"\s*,\s*|\s+and\s+", str(said.get("keep", "")))
    names = tuple(dict.fromkeys(word.strip().removeprefix("the ") for word in words if word.strip()))
    for name in names:
        if name not in station.piece.bodies:
            what, rule = f"the work has no piece of that name (got `{name}`)", "`keep` names pieces of the work"
            known = [*station.piece.bodies]
            raise MethodError(said.where("keep"), what, f"{rule}: {', '.join(known)}", did_you_mean(name, known),
                              code="unknown-piece")  # fmt: skip
    if names and len(names) == len(station.piece.bodies):
        what, remedy = "every piece of the work is kept", "keep those that are to stay"
        raise MethodError(said.where("keep"), what, "sawing out takes metal of one piece at least", remedy,
                          code="nothing-to-cut")  # fmt: skip
    return names


@dataclass(frozen=True)
class _Region:
    """What is to go."""

    swept: Solid
    """Everything that is swept between the two lengths, metal or not."""
    metal: Solid
    """What of it is metal that is not kept."""
    stays: dict[str, Solid]
    """What of the kept bodies stands between the two lengths, by name."""
    words: str
    angle: float
    floor_area: float = 0.0
    """mm² of a flat bottom, which is cut besides the two walls."""

    @classmethod
    def of(cls, station: Station, said: Said, start: float, end: float, kept: Sequence[str]) -> _Region:
        """The region that the clauses tell, in the work as it stands."""
        slab = station.slab(start, end)
        parts = {name: station.piece.bodies[name].solid & slab for name in kept}
        stays = {name: part for name, part in parts.items() if not part.empty}
        angle = float(said.get("at", _away_from(station, [*stays.values()])))
        swept, words, floor = _swept(station, said, slab, (start, end), angle)
        others = [body.solid for name, body in station.piece.bodies.items() if name not in kept]
        metal = others[0].together(others[1:]) & swept
        if metal.empty:
            what = f"there is no metal to saw out between {number(start)} and {number(end)} mm from the face"
            rule = "what is kept does not count"
            raise MethodError(said.place, what, rule, "check place and size", code="nothing-to-cut")
        return cls(swept, metal, stays, words, angle, floor)


def _swept(
    station: Station, said: Said, slab: Solid, span: tuple[float, float], angle: float
) -> tuple[Solid, str, float]:
    """(what is swept, how far it goes in words, mm² of its flat bottom)."""
    start, end = span
    reach = station.swing() + 5.0
    if "bottom" in said:
        bottom, swing = float(said.get("bottom")), station.swing(start, end)
        chord = 2 * math.sqrt(max(0.0, swing * swing - bottom * bottom))
        beyond = "beyond" if bottom < 0 else "from"
        words = f"down to {dim(abs(bottom))} {beyond} the axis"
        return station.half_space(bottom, angle, start, end), words, chord * (end - start)
    if "down to" in said:
        left = _diameter(said, "down to") / 2
        swept = station.turned(Outline((left, start), (reach, start), (reach, end), (left, end)))
        words = f"down to {dia(2 * left)}"
    elif "up to" in said:
        core = _diameter(said, "up to") / 2
        swept = station.turned(Outline((0, start), (core, start), (core, end), (0, end)))
        words = f"the core {dia(2 * core)}"
    else:
        return slab, "the whole section", 0.0
    if "sector" not in said:
        return swept, words, 0.0
    return _sector(station, said, swept, span, angle), f"{words}, over {degrees(said.get('sector'))} of the turn", 0.0


def _diameter(said: Said, word: str) -> float:
    """A diameter that is more than nothing."""
    value = said.length(word)
    if value <= 0:
        words = f"a diameter is more than nothing (got {number(value)} mm)"
        raise MethodError(said.where(word), words, "sizes are positive", "check the size", code="wrong-value")
    return value


def _sector(station: Station, said: Said, swept: Solid, span: tuple[float, float], angle: float) -> Solid:
    """The part of a ring or core that lies within an angle about the side of the cut."""
    wide = float(said.get("sector"))
    if not 0 < wide < 360:
        words = f"a sector lies between 0° and 360° (got {number(wide)}°)"
        raise MethodError(said.where("sector"), words, "part of a turn", "take it away for all round",
                          code="wrong-value")  # fmt: skip
    one, other = (station.half_space(0.0, angle + side * (wide / 2 - 90.0), *span) for side in (1.0, -1.0))
    return swept & (one & other if wide <= 180.0 else one + other)


def _away_from(station: Station, stays: Sequence[Solid]) -> float:
    """The side where what is kept is not in the way: opposite its middle; the 0° mark where nothing is kept."""
    if not stays:
        return 0.0
    middle = np.concatenate([solid.mesh().vertices for solid in stays]).mean(axis=0)
    _, radius, angle = station.turning.to_shop(middle.tolist())
    return round(turned(angle + 180.0), 3) if radius > 1e-3 else 0.0


def _heights(station: Station, solid: Solid, angle: float) -> tuple[float, float]:
    """(lowest, highest) distance from the axis along the direction of an angle, mm."""
    along = (solid.mesh().vertices - np.array([*station.turning.axis, 0.0])) @ np.array(station.turning.normal(angle))
    return float(along.min()), float(along.max())


def _gap(station: Station, said: Said, region: _Region, kept: tuple[str, ...]) -> Gap:
    """How far the tool gets from its side, and what is in its way."""
    start, end = said.length("from"), said.length("from") + said.length("wide")
    low, high = _heights(station, region.metal, region.angle)
    stand = {name: _heights(station, solid, region.angle) for name, solid in region.stays.items()}
    way, whole = _way(station), region.metal.volume
    tallest = max(stand, key=lambda name: stand[name][1], default="")
    # Round what is left standing in the middle the work is turned on as it is cut.
    low = max(low, float(said.get("down to", 2 * low)) / 2)
    floor, reached, met = low, whole, None
    if tallest and stand[tallest][1] > low + 1e-6:
        floor = min(stand[tallest][1], high)
        reached = _reached(station, region, floor, saw=way is Process.SAW, span=(start, end))
        through = min(stand[tallest][1], high) - max(stand[tallest][0], low)
        met = (tallest, through) if reached < MOST * whole and through > 0 else None
    return Gap(
        start=start,
        end=end,
        angle=region.angle,
        kept=kept,
        kerf=_kerf(station) if way is Process.SAW else 0.0,
        floor=floor,
        whole=whole,
        reached=reached,
        met=met,
        absent=tuple(name for name in kept if name not in region.stays),
    )


def _reached(station: Station, region: _Region, floor: float, *, saw: bool, span: tuple[float, float]) -> float:
    """mm³ that the tool reaches: a saw goes straight across above what is kept, a cutter or a file beside it too."""
    if saw:
        return (region.metal & station.half_space(floor, region.angle, *span)).volume
    beside = [_heights(station, solid, region.angle + 90.0) for solid in region.stays.values()]
    half = max(max(abs(a), abs(b)) for a, b in beside)
    shadow = station.beam(region.angle, -station.swing() - 5.0, floor, 2 * half, start=span[0], end=span[1])
    return region.metal.volume - (region.metal & shadow).volume


def _way(station: Station) -> Process:
    """How the metal goes: as the author's tool does it; else milled on a mill, and sawn anywhere else."""
    tool = station.tool
    if tool is None:
        return Process.MILL if station.machine.sort.tool_turns else Process.SAW
    return Process.MILL if tool.sort.fluted_shank else Process.NONE if tool.kind is ToolKind.FILE else Process.SAW


def _kerf(station: Station) -> float:
    """Width of the saw's cut: of the author's tool, of a sawing machine, or of the blade that is there."""
    if station.tool and station.tool.width:
        return station.tool.width
    there = next((one.width for one in station.workshop.tools_of(ToolKind.SAW_BLADE) if one.width), KERF)
    return station.machine.kerf or there


def _how(station: Station, said: Said, way: Process, gap: Gap, region: _Region) -> tuple[CutData, float, str, float]:
    """(cutting data, minutes of handwork, tool, its size)."""
    wide = gap.end - gap.start
    area, rest = gap.whole / wide, gap.whole - gap.reached
    if way is Process.MILL:
        cutter = float(said.get("cutter", station.cutter_diameter(wide)))
        low, high = _heights(station, region.metal, gap.angle + 90.0)
        deep = _heights(station, region.metal, gap.angle)[1] - gap.floor
        cut = CutData(
            way, cutter, 0.0, max(deep, 0.1), high - low + cutter + 4.0, width=min(cutter, wide), slide="z",
            paths=max(1.0, math.ceil(wide / cutter - 1e-9)), tool_turns=True,
        )  # fmt: skip
        return cut, rest / FILED, "end mill", cutter
    if way is Process.NONE:
        return CutData(), gap.whole / FILED, "file", 0.0
    # Two cuts at the walls, and one along a flat bottom; what the blade does not reach is filed.
    minutes = (2 * area + region.floor_area) / station.machine.sort.minute_area + rest / FILED
    return CutData(way, 0.0, 0.0, gap.end, area, width=gap.kerf), max(0.5, minutes), "saw", 0.0


__all__ = ["saw_out_of_turned_work"]
