"""Where does one piece sit in another: in which walls, how long, how tight, in line and square, or in no hole at all?

A seat is a round hole of one body with a round of another in it, on one axis. Every wall is a seat of its own: a pin
through two webs has two. What overlaps beside the seats is a clash.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from ..geometry import Axis, Solid, SolidKernel, facet_film
from ..geometry.frame import PARALLEL, Array
from ..geometry.mesh import Index
from ..geometry.section import Slicer
from ..geometry.surface import Surface, group_same
from .bodies import Body

SAME = 0.002
"""mm that two axes may stand apart, and two diameters differ, and still be one: below what a small shop measures."""
LEAST = 0.01
"""mm: a seat shorter than this is none."""
LOOSE_SHARE, LOOSE = 0.12, 0.3
"""A round in a hole larger than itself by more than this (a share of it, and mm) does not sit there."""


def most_interference(diameter: float) -> float:
    """Interference in mm up to which an overlap is a fit, for a diameter in mm; beyond it is a clash.

    Source: a little above H7/u6, the tightest of the usual shrink fits (ISO 286-2, from memory: 37 µm at 8 mm, 61 µm at
    24 mm).
    """
    return 0.02 + 0.0025 * diameter


@dataclass(frozen=True, eq=False)
class Round:
    """A stretch of a round surface of one body: a hole, or a round that may go into one; lengths along its axis, mm."""

    axis: Axis
    radius: float
    start: float
    end: float
    hole: bool
    lean: float = 0.0
    """Degrees by which the face at its more oblique end stands off square to the axis."""
    least: float = 0.0
    """Length of its shortest side."""

    @property
    def diameter(self) -> float:
        """Mm."""
        return 2 * self.radius


@dataclass(frozen=True, eq=False)
class Seat:
    """One wall in which a piece sits. `axis` is the hole's, `start` and `end` lie along it, mm."""

    wall: str
    """The body of the work whose wall, or whose round, it is."""
    axis: Axis
    start: float
    end: float
    hole: float
    """Diameter of the hole, mm."""
    shaft: float
    """Diameter of the round in it, mm."""
    goes_in: bool
    """Whether the piece that comes goes into the work; else it goes over it."""
    aside: float = 0.0
    """mm by which the hole stands beside the axis of the piece."""
    lean: float = 0.0
    """Degrees by which the wall's face stands off square to the axis."""
    least: float = 0.0
    """Length of the shortest side, mm."""
    askew: float = 0.0
    """Degrees between the axis of the hole and that of the piece."""

    @property
    def length(self) -> float:
        """Mm."""
        return self.end - self.start

    @property
    def interference(self) -> float:
        """Mm by which the round is larger than the hole; negative is clearance."""
        return self.shaft - self.hole

    @property
    def in_line(self) -> bool:
        """Whether the piece goes into the hole without being bent."""
        return self.askew < 0.05 and 2 * self.aside <= max(-self.interference, 0.0) + 2 * SAME


@dataclass(frozen=True, eq=False)
class Clash:
    """Metal where metal is already: in which body, and which."""

    wall: str
    solid: Solid

    @property
    def volume(self) -> float:
        """mm³."""
        return self.solid.volume


@dataclass(frozen=True, eq=False)
class Sits:
    """How a piece sits in the work."""

    seats: tuple[Seat, ...] = ()
    clashes: tuple[Clash, ...] = ()
    gap: float = 0.0
    """mm to the nearest body, looked for up to the search."""


# ------------------------------------------------------------------------------------------------ rounds of one body
def rounds(solid: Solid) -> list[Round]:
    """Every stretch of every round surface: two webs bored in one go give two."""
    mesh, found = solid.mesh(), list[Round]()
    groups = np.array(group_same(mesh.surfaces), np.int64)
    for number in dict.fromkeys(groups.tolist()):
        surface = mesh.surfaces[int(np.flatnonzero(groups == number)[0])]
        if surface.kind != "cylinder":
            continue
        mine = groups[mesh.surface_index] == number
        axis = Axis.through(surface.point, surface.direction)
        for outward in (False, True):
            faces = np.flatnonzero(mine & (mesh.outward == outward))
            found += _stretches(axis, surface, mesh.corners[faces], hole=not outward)
    return found


def _stretches(axis: Axis, surface: Surface, corners: Array, *, hole: bool) -> Iterator[Round]:
    """The facets of a round surface, in stretches that hang together along the axis."""
    if not len(corners):
        return
    along = axis.lengths(corners.reshape(-1, 3)).reshape(-1, 3)
    low, high = along.min(axis=1), along.max(axis=1)
    for members in _merged(low, high):
        start, end = float(low[members].min()), float(high[members].max())
        if end - start > LEAST:
            lean, least = _rims(axis, surface.radius, corners[members].reshape(-1, 3), (start, end))
            yield Round(axis=axis, radius=surface.radius, start=start, end=end, hole=hole, lean=lean, least=least)


def _merged(low: Array, high: Array) -> list[Index]:
    """Numbers of the stretches, those together that overlap or touch."""
    order, groups, reach = np.argsort(low), list[list[int]](), -math.inf
    for number in order.tolist():
        if low[number] > reach + 1e-6:
            groups.append([])
        groups[-1].append(number)
        reach = max(reach, float(high[number]))
    return [np.array(group, np.int64) for group in groups]


def _rims(axis: Axis, radius: float, points: Array, span: tuple[float, float]) -> tuple[float, float]:
    """(degrees by which the more oblique end stands off square, length of the shortest side).

    A hole across a round bar dips alike on both sides, and is square; a hole in a slope is deeper on one side only.
    """
    off, along = points - np.array(axis.point), axis.lengths(points)
    angle = np.degrees(np.arctan2(off @ axis.side, off @ np.array(axis.zero))) % 360.0
    bins = np.round((angle + 1.875) / 7.5).astype(int) % 48  # corners of facets never lie between two bins
    top, bottom = np.full(48, -math.inf), np.full(48, math.inf)
    np.maximum.at(top, bins, along)
    np.minimum.at(bottom, bins, along)
    met = np.isfinite(top) & np.isfinite(bottom) & np.isfinite(np.roll(top, 24))
    if met.sum() < 12:
        return 0.0, span[1] - span[0]
    unlike = max(float(np.abs(rim - np.roll(rim, 24))[met].max()) for rim in (top, bottom))
    return math.degrees(math.atan2(unlike, 2 * radius)), float((top - bottom)[met].min())


# ------------------------------------------------------------------------------------------------ seats
def find_seats(wall: str, ours: Iterable[Round], theirs: Iterable[Round]) -> Iterator[Seat]:
    """The seats of a piece in one body of the work: its rounds in our holes, and our rounds in its holes."""
    theirs = [*theirs]
    for our in ours:
        for their in theirs:
            if our.hole != their.hole:
                seat = _seat(wall, our, their)
                if seat is not None:
                    yield seat


def _seat(wall: str, our: Round, their: Round) -> Seat | None:
    hole, shaft = (our, their) if our.hole else (their, our)
    room = hole.diameter - shaft.diameter
    if room > max(LOOSE, LOOSE_SHARE * shaft.diameter) or -room > 0.25 * shaft.diameter:
        return None
    askew = _between(hole.axis, shaft.axis)
    if askew > 30.0:
        return None
    across = shaft.axis
    ends = hole.axis.lengths(np.array([across.at(shaft.start), across.at(shaft.end)]))
    start, end = max(hole.start, float(ends.min())), min(hole.end, float(ends.max()))
    if end - start <= LEAST:
        return None
    aside = across.distance(hole.axis.at((start + end) / 2).tolist())
    if aside >= hole.radius:
        return None
    least = max(0.0, min(hole.least, shaft.least, end - start))
    return Seat(
        wall=wall,
        axis=hole.axis,
        start=start,
        end=end,
        hole=hole.diameter,
        shaft=shaft.diameter,
        goes_in=our.hole,
        aside=aside,
        lean=hole.lean,
        least=least,
        askew=askew,
    )


def _between(one: Axis, other: Axis) -> float:
    """Degrees between two lines."""
    if one.parallel(other.direction):
        return 0.0
    cosine = abs(float(np.array(one.direction) @ np.array(other.direction)))
    return math.degrees(math.acos(min(1.0, max(cosine, PARALLEL))))


def wall_round(solid: Solid, seat: Seat) -> float:
    """Radius of the largest round about a seat that lies in its wall, mm: from the hole's axis to the nearest edge."""
    sides, owner = Slicer(solid.mesh(), seat.axis).sides((seat.start + seat.end) / 2)
    surfaces = solid.mesh().surfaces
    other = np.array([not surfaces[n].cylinder_on(seat.axis, seat.hole / 2) for n in owner], bool)
    a, b = sides[other, 0], sides[other, 1]
    if not len(a):
        return seat.hole / 2
    along = b - a
    share = np.clip(-np.einsum("ij,ij->i", a, along) / np.maximum(np.einsum("ij,ij->i", along, along), 1e-12), 0, 1)
    return float(np.linalg.norm(a + share[:, None] * along, axis=1).min())


# ------------------------------------------------------------------------------------------------ a piece in the work
@dataclass(eq=False)
class Fitting:
    """The work into which pieces are put one after the other."""

    kernel: SolidKernel
    bodies: dict[str, Solid]
    search: float = 5.0
    _rounds: dict[str, list[Round]] = field(default_factory=dict)

    @classmethod
    def of(cls, kernel: SolidKernel, bodies: Mapping[str, Body]) -> Fitting:
        """The work as it stands."""
        return cls(kernel, {name: body.solid for name, body in bodies.items()})

    def put(self, parts: Mapping[str, Solid], *, pressed: bool) -> Sits:
        """How a piece, of one body or several, sits; from then on it belongs to the work.

        Where it is `pressed`, interference that a fit has is no clash.
        """
        seats, clashes, gap = list[Seat](), list[Clash](), self.search
        for piece in parts.values():
            self.kernel.table.adopt(piece.table)
            theirs = rounds(piece)
            for wall, solid in self.bodies.items():
                if solid.box_gap(piece) > 0:  # nothing sits where the boxes do not even meet
                    gap = min(gap, solid.gap(piece, gap)) if gap else gap
                    continue
                shared = solid & piece
                if gap:  # the kernel would cut the two once more to find out that they meet
                    gap = 0.0 if shared.triangles else min(gap, solid.gap(piece, gap))
                met = [*find_seats(wall, self._rounds_of(wall), theirs)]
                seats += met
                clashes += self._clashes(wall, shared, piece, met if pressed else ())
        self.bodies.update(parts)
        return Sits(tuple(seats), tuple(clashes), gap)

    def _rounds_of(self, wall: str) -> list[Round]:
        if wall not in self._rounds:
            self._rounds[wall] = rounds(self.bodies[wall])
        return self._rounds[wall]

    def _clashes(self, wall: str, shared: Solid, piece: Solid, fits: Sequence[Seat]) -> Iterator[Clash]:
        if shared.empty:
            return
        film = facet_film(piece)
        for seat in fits:
            if seat.in_line and 0 < seat.interference <= most_interference(seat.shaft):
                inner, outer = seat.hole / 2 - film, seat.shaft / 2 + film
                ring = self.kernel.tube(outer, inner, seat.start - film, seat.end + film, "fit", seat.axis)
                shared = shared - ring
        for part in shared.without_skins(film):
            yield Clash(wall, part)
