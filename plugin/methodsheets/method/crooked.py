"""Which frame of bars is a shaft whose core is cut out: ends on one axis, webs, and what is left off the axis between?

Along the axis the work is a bar of its own sections. At each gap it leaves the axis: a web leads from the middle of its
thickness to the line of what is left, and another one leads back. Joints are rigid. Sections that are not round count
with their least second moment, which is on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from methodsheets.geometry import Axis, Frame, SectionProperties, Solid, SolidKernel, sections_along, shape_changes
from methodsheets.trade.bending.frames import Bar, BarSection, Six, Vector, flat_bar, movements, round_bar
from methodsheets.workpiece import State

SPAN = 1.0
"""mm: shortest stretch along the axis that is a bar of its own."""
SAME = 1e-6
STRAIGHT = 0.05
"""mm off the axis below which what is left counts as lying on it."""
LEAST = 1e-3
"""mm²: a smaller section is no metal."""
INTO = 0.02
"""mm from each wall of a gap to where what is left in it is looked at."""
EVEN = 0.02
"""How nearly the two second moments of a round or square section agree."""
ALL_WAYS = (0, 1, 2, 3, 4, 5)
Span = tuple[float, float]


class NotModelled(ValueError):
    """The work is no such shaft; the words say why."""


class NoShaftYet(NotModelled):
    """Without its core the work would not be there to be cut: nothing joins the ends, or the cut lies between them."""


@dataclass(frozen=True)
class Web:
    """One web beside a gap, lengths along the axis in mm of the work."""

    low: float
    high: float
    width: float
    """Mean width across the throw."""
    leaves: float
    """Where the line leaves the axis: the middle of its thickness, or the wall where what is left lies on the axis."""

    @property
    def thick(self) -> float:
        """Along the axis, mm."""
        return self.high - self.low

    def within(self, span: Span) -> Web:
        """The same, leaving the axis inside a stretch."""
        return replace(self, leaves=min(max(self.leaves, span[0]), span[1]))


@dataclass(frozen=True)
class Throw:
    """What is left in one gap, and the webs at its two ends."""

    gap: Span
    off: tuple[float, float]
    """(x, y) of its middle from the axis, mm."""
    below: Web
    above: Web
    sections: tuple[tuple[float, float, SectionProperties], ...]
    """(from, to, section) along what is left."""

    @property
    def throw(self) -> float:
        """Distance from the axis, mm."""
        return math.hypot(*self.off)


@dataclass(frozen=True)
class Crooked:
    """The frame: joints, bars, and where the places are that somebody asks for."""

    modulus: float
    poisson: float
    joints: list[Vector] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    on_axis: dict[float, int] = field(default_factory=dict)
    """z in mm of the work → joint on the axis."""
    pins: dict[Span, int] = field(default_factory=dict)
    """Gap → joint in the middle of what is left in it."""
    throws: tuple[Throw, ...] = ()

    def joint(self, where: Vector) -> int:
        """A new joint."""
        self.joints.append(where)
        return len(self.joints) - 1

    def at(self, z: float) -> int:
        """The joint on the axis at a length; one that is not there is an error of ours."""
        return min(((abs(place - z), joint) for place, joint in self.on_axis.items()))[1]

    def bar(self, start: int, end: int, section: BarSection, across: Vector) -> None:
        """A bar between two joints."""
        self.bars.append(Bar(start, end, section, across, self.modulus, self.poisson))

    def moved(self, held: Mapping[int, Sequence[int]], loads: Sequence[Mapping[int, Six]]) -> list[list[Six]]:
        """How every joint moves under each load (see `trade.bending.frames`)."""
        return movements(self.joints, self.bars, held, loads)

    def with_edge(self, z: float, direction: Vector, reach: float, section: BarSection) -> int:
        """A joint at the edge of a web, so far from the axis in a direction across it."""
        x, y, here = self.joints[self.at(z)]
        edge = self.joint((x + reach * direction[0], y + reach * direction[1], here))
        self.bar(self.at(z), edge, section, (-direction[1], direction[0], 0.0))
        return edge


# ------------------------------------------------------------------------------------------------ reading the work
def throws_of(state: State, kernel: SolidKernel, axis: Axis, gaps: Sequence[Span]) -> tuple[Throw, ...]:
    """What is left in each gap, along the axis; NotModelled where it is not one piece between two webs."""
    ordered = sorted(gaps)
    bounds = [-math.inf, *(edge for gap in ordered for edge in gap), math.inf]
    return tuple(_throw(state, kernel, axis, gap, (bounds[2 * i], bounds[2 * i + 3])) for i, gap in enumerate(ordered))


def _throw(state: State, kernel: SolidKernel, axis: Axis, gap: Span, room: Span) -> Throw:
    low, high = gap
    if high - low < 2 * INTO + SAME:
        raise NotModelled("the gap is too narrow to see what is left in it")
    slab = kernel.box((-1e3, -1e3, low + INTO), (1e3, 1e3, high - INTO), "probe")
    left = [piece for body in state for piece in (body & slab).pieces()]
    if not left:
        raise NoShaftYet("nothing is left between the webs")
    if len(left) > 1:
        raise NotModelled(f"{len(left)} pieces side by side carry the ends")
    spans = [(a, b) for a, b in pairwise(shape_changes(left[0], axis, low, high, SPAN)) if b - a > SAME]
    found = sections_along(left[0], axis, [(a + b) / 2 for a, b in spans])
    sections = tuple((a, b, section) for (a, b), section in zip(spans, found, strict=True) if section.area > LEAST)
    if not sections:
        raise NotModelled("what is left in the gap is too thin to carry anything")
    middle = min(sections, key=lambda one: abs((one[0] + one[1]) / 2 - (low + high) / 2))[2]
    off = middle.centroid
    below, above = (
        _web(state, kernel, axis, gap, off, middle.area, edge) for edge in ((low, room[0]), (high, room[1]))
    )
    return Throw(gap, off, below, above, sections)


def _web(
    state: State, kernel: SolidKernel, axis: Axis, gap: Span, off: tuple[float, float], area: float, edge: Span
) -> Web:
    """The web that begins at one wall of a gap: as far as metal reaches from the axis to what is left."""
    wall, room = edge
    solid, throw = state.solid, math.hypot(*off)
    bounds = float(solid.bounds[0][2]), float(solid.bounds[1][2])
    end = min(max(room, bounds[0]), bounds[1])
    levels = shape_changes(solid, axis, min(wall, end), max(wall, end), SPAN)
    spans = [(a, b) for a, b in pairwise(levels) if b - a > 0.02]
    ordered = spans if wall < end else [(b, a) for a, b in reversed(spans)]
    last = wall
    for start, stop in ordered:
        if not _joins(solid, axis, off, math.sqrt(area / math.pi), (start + stop) / 2):
            break
        last = stop
    low, high = sorted((wall, last))
    if high - low < 0.1:
        raise NotModelled("no web joins the axis to what is left between them")
    if throw < STRAIGHT:
        return Web(low, high, 2 * math.sqrt(area / math.pi), wall)
    a = math.atan2(off[1], off[0])
    place = Frame.of((axis.point[0], axis.point[1], 0.0), x=(math.cos(a), math.sin(a), 0.0))
    strip = kernel.box((0.0, -1e3, low), (throw, 1e3, high), "probe", place)
    return Web(low, high, (solid & strip).volume / throw / (high - low), (low + high) / 2)


def _joins(solid: Solid, axis: Axis, off: tuple[float, float], radius: float, z: float) -> bool:
    """Whether at this length metal lies all the way from near the axis to what is left."""
    throw = math.hypot(*off)
    shares = (0.5, max(0.25, (throw - radius - 0.2) / throw), 1.0) if throw > STRAIGHT else (1.0,)
    x, y, _ = axis.point
    return all(solid.holds((x + share * off[0], y + share * off[1], z)) for share in shares)


# ------------------------------------------------------------------------------------------------ building the frame
def crooked(
    state: State, axis: Axis, throws: Sequence[Throw], span: Span, places: Sequence[float], metal: tuple[float, float]
) -> Crooked:
    """The frame of the work between two lengths along its axis, with a joint at each of some places.

    `metal` = (modulus in MPa, Poisson's ratio). NotModelled where a stretch on the axis has no metal.
    """
    inside = [
        replace(one, below=one.below.within(span), above=one.above.within(span))
        for one in throws
        if span[0] <= one.gap[0] and one.gap[1] <= span[1]
    ]
    frame = Crooked(*metal, throws=tuple(inside))
    middles = [web.leaves for one in inside for web in (one.below, one.above)]
    skipped = [(one.below.leaves, one.above.leaves) for one in inside]
    wanted = sorted({*span, *middles, *(place for place in places if span[0] <= place <= span[1])})
    for z in wanted:
        if not any(a + SAME < z < b - SAME for a, b in skipped):
            frame.on_axis[z] = frame.joint((axis.point[0], axis.point[1], z))
    for a, b in pairwise(sorted(frame.on_axis)):
        if (a, b) not in skipped and b - a > SAME:
            _along(frame, state.solid, axis, a, b)
    for one in inside:
        _off_axis(frame, axis, one)
    return frame


def _along(frame: Crooked, solid: Solid, axis: Axis, low: float, high: float) -> None:
    """Bars along the axis between two joints: one for each stretch of even section."""
    levels = [z for z in shape_changes(solid, axis, low, high, SPAN) if low + 0.02 < z < high - 0.02]
    spans = [*pairwise([low, *levels, high])]
    start = frame.at(low)
    for (_, b), section in zip(spans, sections_along(solid, axis, [(a + b) / 2 for a, b in spans]), strict=True):
        if section.area <= LEAST:
            raise NotModelled("a stretch on the axis has no metal")
        end = frame.at(high) if b == high else frame.joint((axis.point[0], axis.point[1], b))
        frame.bar(start, end, bar_section(section), (1.0, 0.0, 0.0))
        start = end


def _off_axis(frame: Crooked, axis: Axis, one: Throw) -> None:
    """Web, what is left, web."""
    x, y = axis.point[0] + one.off[0], axis.point[1] + one.off[1]
    ends = []
    for web in (one.below, one.above):
        joint = frame.at(web.leaves)
        if one.throw >= STRAIGHT:
            out = frame.joint((x, y, web.leaves))
            frame.bar(joint, out, flat_bar(web.width, web.thick), (-one.off[1], one.off[0], 0.0))
            joint = out
        ends.append(joint)
    middle = (one.gap[0] + one.gap[1]) / 2
    cuts = sorted({b for _, b, _ in one.sections[:-1]} | {middle})
    spans = [*pairwise([one.below.leaves, *cuts, one.above.leaves])]
    start = ends[0]
    for a, b in spans:
        end = ends[1] if b == one.above.leaves else frame.joint((x, y, b))
        section = min(one.sections, key=lambda part: abs((part[0] + part[1]) / 2 - (a + b) / 2))[2]
        frame.bar(start, end, bar_section(section), (1.0, 0.0, 0.0))
        if b == middle:
            frame.pins[one.gap] = end
        start = end


def bar_section(section: SectionProperties) -> BarSection:
    """A section of the work as that of a bar: the least second moment both ways.

    Torsion: a round or a tube exactly; others by Saint-Venant's A⁴ / 40 I_p, within some per cent for compact ones
    (from memory).
    """
    least, most, _ = section.principal
    if least <= 0:
        raise NotModelled("a section has no stiffness")
    solid = section.area**2 / (2 * math.pi)
    tube = abs(most - least) <= EVEN * most and not 1.02 < section.polar / solid < 1.08
    torsion = section.polar if tube else section.area**4 / (40 * section.polar)
    return BarSection(section.area, least, least, torsion, round_bar(1.0).shear)
