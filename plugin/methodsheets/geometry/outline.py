"""What is the outline of a cut: straight lines and arcs, and the facets that stand for them?"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .frame import Array, Point2

JOINED = 1e-9
"""mm: points nearer than this are one point."""


def area_factor(facets: int) -> float:
    """Corner radius over true radius of the regular polygon that has the circle's area: sqrt(t / sin t), t = 2π/n."""
    t = 2 * math.pi / facets
    return math.sqrt(t / math.sin(t))


@dataclass(frozen=True)
class Line:
    """A straight piece that ends at `end` (mm)."""

    end: Point2
    label: str = ""


@dataclass(frozen=True)
class Arc:
    """A piece of a circle, from `start` to `stop` degrees about `centre` (mm); falling angles run clockwise."""

    centre: Point2
    radius: float
    start: float
    stop: float
    label: str = ""

    def at(self, angle: float, radius: float | None = None) -> Point2:
        """The point at an angle in degrees."""
        r, a = self.radius if radius is None else radius, math.radians(angle)
        return (self.centre[0] + r * math.cos(a), self.centre[1] + r * math.sin(a))

    @property
    def begin(self) -> Point2:
        """First point."""
        return self.at(self.start)

    @property
    def end(self) -> Point2:
        """Last point."""
        return self.at(self.stop)

    @property
    def span(self) -> float:
        """Degrees swept, without sign."""
        return abs(self.stop - self.start)

    @property
    def whole(self) -> bool:
        """Whether it is a full circle."""
        return self.span > 360 - 1e-9

    def facet_points(self, count: int) -> list[Point2]:
        """The points after the first. Ends are true; inner ones stand a little proud: the sector has the true area."""
        angles = np.linspace(self.start, self.stop, count + 1)[1:]
        if self.whole:
            return [self.at(a, self.radius * area_factor(count)) for a in angles]
        proud = _proud_radius(self.radius, math.radians(self.span) / count, count)
        return [self.at(a, proud) for a in angles[:-1]] + [self.end]


def _proud_radius(radius: float, step: float, count: int) -> float:
    """Radius q of the inner corners of a faceted sector: r·q·sin d + (n-2)/2·q²·sin d = r²·n·d/2."""
    a, b, c = (count - 2) / 2 * math.sin(step), radius * math.sin(step), -radius * radius * count * step / 2
    if count <= 2:
        return -c / b
    return (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)


Piece = Line | Arc


@dataclass(frozen=True, eq=False)
class Facets:
    """A closed polygon, anticlockwise: side i runs from point i to the next and belongs to piece `owner[i]`."""

    points: Array
    owner: npt.NDArray[np.int64]


class Outline:
    """A closed outline of lines and arcs in mm: (radius, length) for turned shapes, (x, y) for milled ones.

    Unchangeable; `to` and `arc` give a longer outline. The closing line need not be written. Either sense.
    """

    __slots__ = ("pieces", "start")

    def __init__(self, *points: Point2) -> None:
        """Straight lines through the points."""
        if not points:
            raise ValueError("an outline needs a first point")
        self.start: Point2 = _pair(points[0])
        self.pieces: tuple[Piece, ...] = tuple(Line(_pair(p)) for p in points[1:])

    @classmethod
    def circle(cls, centre: Point2, radius: float) -> Outline:
        """A full circle about a centre (mm)."""
        return cls((centre[0] + radius, centre[1])).arc(centre, radius, 0, 360)

    @classmethod
    def rectangle(cls, low: Point2, high: Point2, corner: float = 0.0) -> Outline:
        """A rectangle between two corners, rounded by `corner` mm (half the width makes a round-ended slot)."""
        (x0, y0), (x1, y1) = low, high
        if not corner:
            return cls((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        if 2 * corner > min(x1 - x0, y1 - y0) + JOINED:
            raise ValueError(f"corner radius {corner:g} does not fit a rectangle {x1 - x0:g} x {y1 - y0:g}")
        r = corner
        o = cls((x1, y0 + r)).to((x1, y1 - r)).arc((x1 - r, y1 - r), r, 0, 90)
        o = o.to((x0 + r, y1)).arc((x0 + r, y1 - r), r, 90, 180)
        return o.to((x0, y0 + r)).arc((x0 + r, y0 + r), r, 180, 270).to((x1 - r, y0)).arc((x1 - r, y0 + r), r, 270, 360)

    @classmethod
    def regular(cls, sides: int, across_flats: float, centre: Point2 = (0.0, 0.0), turned: float = 0.0) -> Outline:
        """A regular polygon by its size across flats in mm; the middle of a flat lies at `turned` degrees."""
        corner = across_flats / 2 / math.cos(math.pi / sides)
        angles = [math.radians(turned) + math.pi / sides * (2 * i + 1) for i in range(sides)]
        return cls(*((centre[0] + corner * math.cos(a), centre[1] + corner * math.sin(a)) for a in angles))

    def to(self, *points: Point2, label: str = "") -> Outline:
        """The outline continued with straight lines."""
        return self._with(Line(_pair(p), label) for p in points)

    def arc(self, centre: Point2, radius: float, start: float, stop: float, label: str = "") -> Outline:
        """The outline continued with an arc (degrees); a straight line leads to where the arc begins."""
        if radius <= 0 or start == stop:
            raise ValueError(f"an arc needs a radius and a sweep (got {radius:g}, {start:g} to {stop:g})")
        piece = Arc(_pair(centre), float(radius), float(start), float(stop), label)
        lead = [] if math.dist(piece.begin, self.last) < 1e-7 else [Line(piece.begin)]
        return self._with([*lead, piece])

    def _with(self, pieces: Iterable[Piece]) -> Outline:
        longer = Outline(self.start)
        longer.pieces = (*self.pieces, *pieces)
        return longer

    @property
    def last(self) -> Point2:
        """Where the outline stands now."""
        return self.pieces[-1].end if self.pieces else self.start

    @property
    def closed(self) -> Outline:
        """The same outline with its closing line written out."""
        return self if math.dist(self.last, self.start) < 1e-7 else self.to(self.start)

    def placed(self, offset: Point2 = (0.0, 0.0), mirror: bool = False) -> Outline:
        """The outline with its second coordinate reversed (`mirror`), then moved: lengths from a face become z."""
        sign = -1.0 if mirror else 1.0

        def put(p: Point2) -> Point2:
            return (p[0] + offset[0], sign * p[1] + offset[1])

        moved = Outline(put(self.start))
        moved.pieces = tuple(
            Line(put(p.end), p.label)
            if isinstance(p, Line)
            else Arc(put(p.centre), p.radius, sign * p.start, sign * p.stop, p.label)
            for p in self.pieces
        )
        return moved

    def facets(self, per_turn: int, sagitta: float | None = None) -> Facets:
        """The polygon that stands for the outline, anticlockwise; ValueError where it crosses itself.

        Arcs get `per_turn` facets a turn; with `sagitta` (mm) only as many as keep the chords that near the arc.
        The count depends on radius and sweep alone, so the same arc cut twice has the same facets.
        """
        points, owner = self._written(per_turn, sagitta)
        if _crosses(points):
            raise ValueError("the outline crosses itself")
        return _anticlockwise(points, owner)

    @property
    def anticlockwise(self) -> bool:
        """The sense in which it was written."""
        return ring_area(self._written(24, None)[0]) > 0

    def _written(self, per_turn: int, sagitta: float | None) -> tuple[Array, npt.NDArray[np.int64]]:
        points, owner = [self.start], []
        for number, piece in enumerate(self.closed.pieces):
            new = [piece.end] if isinstance(piece, Line) else piece.facet_points(_count(piece, per_turn, sagitta))
            if isinstance(piece, Arc) and piece.whole:
                points[-1] = new[-1]
            for p in new:
                if math.dist(p, points[-1]) > JOINED:
                    points.append(p)
                    owner.append(number)
        if math.dist(points[-1], points[0]) < 1e-7:
            points.pop()
        if len(points) < 3 or len(owner) != len(points):
            raise ValueError(f"the outline encloses nothing (from {self.start})")
        return np.array(points), np.array(owner)


def _pair(p: Point2) -> Point2:
    return (float(p[0]), float(p[1]))


def _count(arc: Arc, per_turn: int, sagitta: float | None) -> int:
    most = math.ceil(per_turn * arc.span / 360 - 1e-9)
    if arc.whole:
        return per_turn
    if sagitta is None or sagitta >= arc.radius:
        needed = most if sagitta is None else 1
    else:
        needed = math.ceil(math.radians(arc.span) / (2 * math.acos(1 - sagitta / arc.radius)))
    return max(2, math.ceil(arc.span / 22.5 - 1e-9), min(needed, most))


def ring_area(points: Array) -> float:
    """Signed area of a polygon (n, 2): positive when anticlockwise; mm²."""
    x, y = points[:, 0], points[:, 1]
    return float(0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def _crosses(points: Array) -> bool:
    """Whether any two sides of a polygon properly cross; touching does not count."""
    along = np.roll(points, -1, axis=0) - points
    x, y = points.T
    # On which side of each line (rows) each corner lies (columns): 0 within a hair, else the sign of this.
    off = along[:, :1] * (y - y[:, None]) - along[:, 1:] * (x - x[:, None])
    side = (off >= JOINED).astype(np.int8) - (off <= -JOINED).astype(np.int8)
    apart = side * np.roll(side, -1, axis=1) < 0  # a side begins at one corner and ends at the next
    return bool((apart & apart.T).any())


def _anticlockwise(points: Array, owner: npt.NDArray[np.int64]) -> Facets:
    if ring_area(points) >= 0:
        return Facets(points, owner)
    return Facets(points[::-1].copy(), np.roll(owner[::-1], -1))
