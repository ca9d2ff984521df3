"""Which views and sizes does a block need?

The front view with the face that stands in front, the view from above, and the view of the left side where something
can be seen there only. Places are measured from the left, the front and the bottom face, as `places` are said.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np

from methodfigures.part.spec import CUT_NAME, Callout, Circle, Cutting, Label, Line, Side, Size, View
from methodsheets.drawings.finished.cutting import Opened
from methodsheets.drawings.finished.made import NEAR, NECK, Made, Spot, Views, spot
from methodsheets.drawings.finished.milled import Milled, table_rows
from methodsheets.drawings.finished.words import hole_words, roughness_words
from methodsheets.operations.say import diameter, number
from methodsheets.workpiece.features import Flat, Round, at_levels

MOST_PLACES = 4
"""More different places along one edge than this go into a table of holes."""
EVERY = 1e6
X, Y, Z = 0, 1, 2
FRONT, SIDE, TOP = Y, X, Z
"""Each view by the axis of the work that runs towards the reader."""
DIRECTIONS: Mapping[int, tuple[Spot, Spot]] = MappingProxyType(
    {
        FRONT: ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        TOP: ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        SIDE: ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
    }
)
"""Right and up of each view in the work: from the front, from above, from the left."""


def block_views(made: Made) -> Views:
    """Front view, view from above, and view of the left side where it is needed."""
    block = Block(made)
    side = _view(block, SIDE) if block.needs_side else None
    words = "from the front and from above" if side is None else "from the front, from above and from the left"
    return Views(
        _view(block, FRONT),
        ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
        f"The finished part {words}, with its sizes from the left, the front and the bottom face.",
        beside_left=side,
        below=_view(block, TOP),
    )


@dataclass(frozen=True)
class Block:
    """A block as it is laid down for drawing."""

    made: Made

    @cached_property
    def low(self) -> np.ndarray:
        """Corner at the left, the front and the bottom."""
        return np.array(self.made.piece.work.state.bounds[0], float)

    @cached_property
    def high(self) -> np.ndarray:
        """The opposite corner."""
        return np.array(self.made.piece.work.state.bounds[1], float)

    def levels(self, axis: int) -> dict[float, Flat]:
        """Places along an axis of faces that are neither of the two outermost."""
        found: dict[float, Flat] = {}
        for place, flat in at_levels(self.made.features.flats, axis):
            if self.low[axis] + NEAR < place < self.high[axis] - NEAR and not self._bottom_of_hole(flat, axis):
                found.setdefault(round(place, 6), flat)
        return found

    def in_sight(self, flat: Flat, towards: int) -> bool:
        """Whether a face between the outer ones reaches the side from which a view is taken."""
        if towards == TOP:
            return flat.high[Z] > self.high[Z] - NEAR
        return flat.low[towards] < self.low[towards] + NEAR

    def narrow(self, axis: int) -> dict[float, float]:
        """Far walls of narrow grooves with their near ones: such a groove has its width as a size of its own."""
        walls = sorted(self.levels(axis).items())
        return {
            far: near
            for (near, one), (far, other) in itertools.pairwise(walls)
            if far - near <= NECK and one.normal[axis] > 0.999 and other.normal[axis] < -0.999
            and one.operation == other.operation
        }  # fmt: skip

    def _bottom_of_hole(self, flat: Flat, axis: int) -> bool:
        """Whether a face lies within a hole: its depth stands in the hole's note."""
        middle = (np.array(flat.low) + np.array(flat.high)) / 2
        wide = max(b - a for i, (a, b) in enumerate(zip(flat.low, flat.high, strict=True)) if i != axis)
        return any(
            h.axis.parallel(np.eye(3)[axis].tolist())
            and float(h.axis.radii(middle[None])[0]) < NEAR * 10
            and wide < h.diameter + 0.05
            for h in self.made.holes
        )

    def holes(self, axis: int) -> list[Round]:
        """Holes along an axis."""
        return [h for h in self.made.holes if h.axis.parallel(np.eye(3)[axis].tolist()) and not h.part]

    @cached_property
    def needs_side(self) -> bool:
        """Whether something is seen from the left only."""
        if self.holes(X):
            return True
        steps = [f for f in self.levels(Y).values() if f.high[2] - f.low[2] < self.high[2] - self.low[2] - NEAR]
        return bool(steps or self.milled(X).slopes)

    @cached_property
    def known(self) -> tuple[frozenset[float], frozenset[float], frozenset[float]]:
        """Places along each axis that have a size: outer faces and those between them."""
        x, y, z = (frozenset((float(self.low[a]), float(self.high[a]), *self.levels(a))) for a in range(3))
        return x, y, z

    @cached_property
    def opened(self) -> Opened:
        """Where the front view is cut open: not where something that it tells of stands in front of the cut."""
        front = self.milled(FRONT)
        flats = [f for axis in (X, Z) for f in self.levels(axis).values() if _shows(self, axis, f) == FRONT]
        told = [(f.low[X], f.high[X], self._rear(f)) for f in (*flats, *front.slopes)]
        rounds = [*front.roundings, *self.holes(FRONT), *(r for r in self.made.outside if not r.part)]
        for r in rounds:
            x, rear = float(r.axis.point[X]), max(float(r.axis.at(v)[Y]) for v in (r.low, r.high))
            told.append((x - r.diameter / 2, x + r.diameter / 2, rear))
        told += [(float(h.axis.point[X]), float(h.axis.point[X]), -EVERY) for h in self.holes(FRONT) if _blind(self, h)]
        return Opened.of(self.made, spot(self.low), spot(self.high), told)

    def _rear(self, flat: Flat) -> float:
        """How far back a face is seen in the front view, with those that stand in one line with it."""
        same = (f for f in self.made.features.flats if f.normal == flat.normal and abs(f.level - flat.level) < NEAR)
        return max(f.high[Y] for f in same)

    def milled(self, towards: int) -> Milled:
        """Sloping and rounded faces seen in a view."""
        return Milled(self.made, towards, spot(self.low), spot(self.high), self.known)

    def edge(self, axis: int, place: float, side: Side, towards: int) -> Spot:
        """A point on the edge of the view where the dimension stands, at a place along one axis."""
        point = self.low.copy()
        right, up = (np.array(v) for v in DIRECTIONS[towards])
        out = {Side.LEFT: -right, Side.RIGHT: right, Side.ABOVE: up, Side.BELOW: -up}[side]
        point = np.where(out > 0.5, self.high, point)
        point[axis] = place
        return spot(point)


def _view(block: Block, towards: int) -> View:
    right, up = DIRECTIONS[towards]
    holes = block.holes(towards)
    listed = _needs_table(holes)
    milled = block.milled(towards)
    labels = [Label(spot(_mouth(h)), name, h.diameter) for name, h in _named(holes)] if listed else []
    threads = [t for t in block.made.threads if t.axis.parallel(np.eye(3)[towards].tolist())]
    opened = block.opened.stretches if towards == FRONT else ()
    cut_line = block.opened.line(float(block.high[Z])) if towards == TOP else ()
    name = CUT_NAME if len(opened) > 1 else "left side" if towards == SIDE else ""
    return View(
        right,
        up,
        title=name,
        cutting=Cutting.FULL if opened else Cutting.NONE,
        planes=block.opened.planes() if opened else (),
        cut_line=cut_line,
        sizes=tuple(_sizes(block, towards, () if listed else holes)),
        callouts=tuple(_callouts(block, towards, () if listed else holes)),
        lines=tuple(_hole_axes(block, towards)),
        circles=tuple(Circle(spot(_mouth(h)), h.diameter, mark=True) for h in holes),
        labels=(*labels, *(Label(p.at, p.name, 0.0) for p in milled.points)),
        threads=tuple(t.symbol() for t in (*threads, *(block.opened.threads() if opened else ()))),
    )


def _blind(block: Block, h: Round) -> bool:
    """Whether a hole from the front ends within the block: a cut would take its mouth away."""
    ends = [float(h.axis.at(v)[Y]) for v in (h.low, h.high)]
    return max(ends) < block.high[Y] - NEAR


def _needs_table(holes: Iterable[Round]) -> bool:
    places = [h.axis.at(0.0) for h in holes]
    return any(len({round(float(p[i]), 4) for p in places}) > MOST_PLACES for i in range(3))


def _named(holes: list[Round]) -> list[tuple[str, Round]]:
    """'A1', 'A2', 'B1' …: a letter for each kind of hole, a number for each place."""
    names = []
    for letter, group in zip("ABCDEFGHJKLMNPRSTUVWYZ", _groups(holes), strict=False):
        names += [(f"{letter}{i + 1}", h) for i, h in enumerate(group)]
    return names


def hole_table(made: Made) -> tuple[tuple[str, ...], ...]:
    """Rows (name, place, place, words) of the holes of each face that has too many for dimensions; heading first."""
    block = Block(made)
    rows: list[tuple[str, ...]] = []
    for towards in (TOP, FRONT, SIDE):
        holes = block.holes(towards)
        first, second = _across(towards)
        if points := table_rows(spot(block.low), (first, second), block.milled(towards).points):
            rows += [("Point", "XYZ"[first], "XYZ"[second], "What"), *points]
        if not _needs_table(holes):
            continue
        rows.append(("Hole", "XYZ"[first], "XYZ"[second], "Size"))
        for name, h in _named(holes):
            at = np.array(h.axis.at(0.0)) - block.low
            rows.append((name, number(round(at[first], 4)), number(round(at[second], 4)), hole_words(made, h)))
    return tuple(rows)


def _across(towards: int) -> tuple[int, int]:
    return {TOP: (X, Y), FRONT: (X, Z), SIDE: (Y, Z)}[towards]


# ------------------------------------------------------------------------------------------------ sizes
def _sizes(block: Block, towards: int, holes: Iterable[Round]) -> Iterable[Size]:
    """Outer sizes once, steps where they are seen as edges, places of the holes of this face."""
    across, upright = _across(towards)
    places: dict[int, set[float]] = {across: set(), upright: set()}
    for h in holes:
        at = h.axis.at(0.0)
        for axis in places:
            places[axis].add(round(float(at[axis]), 6))
    for axis, found in block.milled(towards).places().items():
        places[axis] |= found
    for axis in places:
        places[axis] |= {place for place, flat in block.levels(axis).items() if _shows(block, axis, flat) == towards}
        if _home(block, axis) == towards:
            places[axis].add(round(float(block.high[axis]), 6))
    for axis, found in places.items():
        side = (Side.BELOW if axis == across else Side.LEFT) if towards != FRONT or axis == X else Side.RIGHT
        seen = _seen(side, towards)
        walls, narrow = block.levels(axis), block.narrow(axis)
        for place in sorted(found):
            start = narrow.get(place, float(block.low[axis]))
            words = number(round(place - start, 4))
            first, second = (block.edge(axis, at, seen, towards) for at in (start, place))
            wall = walls.get(place)
            middle = spot((np.array(wall.low) + wall.high) / 2) if wall else None
            yield Size(first, second, words, seen, middle, wall is None or block.in_sight(wall, towards))


def _seen(side: Side, towards: int) -> Side:
    """The view from the left has the front face at its right: heights are written there."""
    return Side.RIGHT if towards == SIDE and side is Side.LEFT else side


def _home(block: Block, axis: int) -> int:
    """The view in which faces square to an axis are dimensioned."""
    if axis == Y:
        return SIDE if block.needs_side else TOP
    return FRONT


def _shows(block: Block, axis: int, flat: Flat) -> int:
    """The view in which a face between the outer ones is dimensioned: that in which it is not hidden."""
    home = _home(block, axis)
    hidden = flat.low[home] > block.low[home] + NEAR
    if axis == Z and hidden and block.needs_side and flat.low[X] < block.low[X] + NEAR:
        return SIDE
    return TOP if axis != Z and home != TOP and hidden and flat.high[Z] > block.high[Z] - NEAR else home


# ------------------------------------------------------------------------------------------------ notes
def _groups(holes: Iterable[Round]) -> list[list[Round]]:
    groups: dict[tuple[float, ...], list[Round]] = {}
    for h in holes:
        groups.setdefault((round(h.diameter, 4), round(h.low, 3), round(h.high, 3)), []).append(h)
    return list(groups.values())


def _callouts(block: Block, towards: int, holes: Iterable[Round]) -> Iterable[Callout]:
    right, up = (np.array(v) for v in DIRECTIONS[towards])
    for group in _groups(holes):
        group.sort(key=lambda h: -float(right @ h.axis.at(0.0)))
        edge = spot(_mouth(group[0]) + (right + up) * group[0].diameter / 2 * 0.7071)
        many = f"{len(group)} × " if len(group) > 1 else ""
        yield Callout(edge, many + hole_words(block.made, group[0]))
    for asked in block.made.finishes:
        for h in [h for h in holes if asked.diameter and abs(h.diameter - asked.diameter) < NEAR][:1]:
            edge = spot(_mouth(h) + (right - up) * h.diameter / 2 * 0.7071)
            yield Callout(edge, roughness_words(asked), surface=True)
    yield from _bosses(block, towards)
    yield from (Callout(at, words) for at, words in block.milled(towards).notes(right, up))


def _bosses(block: Block, towards: int) -> Iterable[Callout]:
    """Bosses from the side, where nothing hides them."""
    right, up = (np.array(v) for v in DIRECTIONS[towards])
    for r in block.made.outside:
        along = r.axis.parallel(np.eye(3)[towards].tolist())
        if not r.part and not along and towards == (TOP if r.axis.parallel((0, 1, 0)) else FRONT):
            out = right if abs(right @ np.array(r.axis.direction)) < 0.5 else up
            yield Callout(spot(r.spot() + out * r.diameter / 2), diameter(round(r.diameter, 4)))


def _mouth(h: Round) -> np.ndarray:
    return h.axis.at(h.high)


def _hole_axes(block: Block, towards: int) -> Iterable[Line]:
    """Centre lines of holes that are seen from the side, where the view shows their ends."""
    for axis in range(3):
        if axis == towards:
            continue
        seen = set()
        for h in block.holes(axis):
            start, end = h.axis.at(h.low), h.axis.at(h.high)
            key = tuple(round(float(v), 3) for i, v in enumerate((*start, *end)) if i % 3 != towards)
            if key not in seen:
                seen.add(key)
                yield Line(spot(start), spot(end))
