"""Where do sloping and rounded faces of a block stand, so that size and place of each can be read off?

A vee or a dovetail has a size to its middle and a note in its own words; of a row of equal gaps only the first has that
size, and the note tells the step. Another slope has sizes to both its ends, or a row for each corner of it in a table
of points where it has many. A rounding has a radius, and a size to its centre where the walls beside it do not tell
that.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from methodsheets.drawings.finished.made import NEAR, Made, Spot, spot
from methodsheets.operations.say import number
from methodsheets.workpiece.features import Flat, Round

SAME = 1e-6
MOST_CORNERS = 3
"""More corners of slopes than this on one side of a block go into a table of points."""


@dataclass(frozen=True)
class Point:
    """A place seen in one view that a table names: a corner of a slope, or the centre of a rounding."""

    name: str
    at: Spot
    words: str


@dataclass(frozen=True)
class Milled:
    """The sloping and rounded faces of a block that are seen in one view: `towards` is its axis to the reader."""

    made: Made
    towards: int
    low: Spot
    high: Spot
    levels: tuple[frozenset[float], frozenset[float], frozenset[float]]
    """Places along each axis that have a size already: outer faces, steps, walls."""

    @property
    def across(self) -> tuple[int, int]:
        """The two axes that lie in the paper."""
        first, second = (axis for axis in range(3) if axis != self.towards)
        return first, second

    @cached_property
    def slopes(self) -> list[Flat]:
        """Sloping faces that are seen as lines."""
        flats = self.made.features.flats
        return [f for f in flats if abs(f.normal[self.towards]) < NEAR and max(map(abs, f.normal)) < 1 - SAME]

    @cached_property
    def mirrored(self) -> dict[int, set[float]]:
        """Middles of vees and dovetails, and of the first gap of a row, by the axis across them."""
        found: dict[int, set[float]] = {axis: set() for axis in self.across}
        rows: dict[tuple[str, int], float] = {}
        for flat in self.slopes:
            if (pair := self._middle(flat)) is None:
                continue
            axis, middle = pair
            if self.made.in_a_row(flat.operation):
                rows[flat.operation, axis] = min(middle, rows.get((flat.operation, axis), middle))
            else:
                found[axis].add(middle)
        for (_, axis), middle in rows.items():
            found[axis].add(middle)
        return found

    def _middle(self, flat: Flat) -> tuple[int, float] | None:
        """(axis, place) of the plane in which another slope of the same operation is its mirror image."""
        for i, j in (self.across, self.across[::-1]):
            images = [other for other in self.slopes if self._mirrors(flat, other, i, j)]
            if images and self._bounded(flat, j):
                other = min(images, key=lambda one: abs(one.low[i] - flat.low[i]))
                low, high = min(other.low[i], flat.low[i]), max(other.high[i], flat.high[i])
                return i, round((low + high) / 2, 6)
        return None

    def _mirrors(self, flat: Flat, other: Flat, i: int, j: int) -> bool:
        """Whether two slopes of one operation are mirror images along an axis; in a row, the two walls of one gap."""
        turned = abs(other.normal[i] + flat.normal[i]) < SAME and abs(other.normal[j] - flat.normal[j]) < SAME
        alike = abs(other.low[j] - flat.low[j]) < NEAR and abs(other.high[j] - flat.high[j]) < NEAR
        facing = (other.low[i] - flat.low[i]) * flat.normal[i] > 0 or not self.made.in_a_row(flat.operation)
        return turned and alike and facing and other.operation == flat.operation

    def _bounded(self, flat: Flat, axis: int) -> bool:
        """Whether it runs between faces of the block whose places are known, as the sides of a vee do."""
        known = (self._known(axis, flat.low[axis]), self._known(axis, flat.high[axis]))
        return any(known) and self.made.shaped(flat.operation, flat.normal)

    def _known(self, axis: int, place: float) -> bool:
        return any(abs(place - one) < NEAR for one in self.levels[axis])

    @cached_property
    def corners(self) -> list[Spot]:
        """Ends of slopes that no mirror image and no outer face tells, each once."""
        found: dict[tuple[float, float], Spot] = {}
        a, b = self.across
        for flat in self.slopes:
            if self._middle(flat) is not None or self._edge(flat):
                continue
            falls = flat.normal[a] * flat.normal[b] > 0
            for u, v in ((flat.low[a], flat.high[b] if falls else flat.low[b]),
                         (flat.high[a], flat.low[b] if falls else flat.high[b])):  # fmt: skip
                place = list(flat.high)
                place[a], place[b] = u, v
                found.setdefault((round(u, 4), round(v, 4)), spot(place))
        return list(found.values())

    def _edge(self, flat: Flat) -> bool:
        """Whether it is the chamfer of an outer edge: its note tells its size, the two faces its place."""
        a, b = self.across
        outer = [any(abs(p - q) < NEAR for p in (flat.low[i], flat.high[i]) for q in (self.low[i], self.high[i]))
                 for i in (a, b)]  # fmt: skip
        return all(outer)

    @cached_property
    def roundings(self) -> list[Round]:
        """Roundings seen as arcs."""
        along = [r for r in self.made.features.rounds if r.part]
        return [r for r in along if r.axis.parallel(np.eye(3)[self.towards].tolist())]

    @cached_property
    def centres(self) -> list[Spot]:
        """Centres of roundings, and of round bosses, that the walls beside them do not tell; each once."""
        bosses = [r for r in self.made.outside if not r.part and r.axis.parallel(np.eye(3)[self.towards].tolist())]
        found: dict[tuple[float, float], Spot] = {}
        a, b = self.across
        for r in (*self.roundings, *bosses):
            at = r.axis.at(r.high)
            if not all(self._beside(r, axis) for axis in (a, b)):
                found.setdefault((round(float(at[a]), 4), round(float(at[b]), 4)), spot(at))
        return list(found.values())

    def _beside(self, r: Round, axis: int) -> bool:
        place, radius = r.axis.point[axis], r.diameter / 2
        here = r.part and any(self._known(axis, p) for p in (place - radius, place + radius))
        return here or self._known(axis, place)

    @property
    def listed(self) -> bool:
        """Whether corners and centres go into a table."""
        return len(self.corners) + len(self.centres) > MOST_CORNERS

    @cached_property
    def points(self) -> list[Point]:
        """The rows of the table; () where sizes tell them."""
        if not self.listed:
            return []
        both = [(at, "corner") for at in self.corners] + [(at, "centre") for at in self.centres]
        return [Point(f"P{i}", at, words) for i, (at, words) in enumerate(both, 1)]

    def places(self) -> dict[int, set[float]]:
        """Places along each axis of the paper that get a size in this view."""
        found = {axis: set(middles) for axis, middles in self.mirrored.items()}
        for at in () if self.listed else (*self.corners, *self.centres):
            for axis in self.across:
                found[axis].add(round(at[axis], 6))
        return {axis: {p for p in places if not self._known(axis, p)} for axis, places in found.items()}

    def notes(self, right: np.ndarray, up: np.ndarray) -> Iterable[tuple[Spot, str]]:
        """Slopes in the words of the operation that cut them, once for each; roundings with their radius."""
        told: set[str] = set()
        for flat in self.slopes:
            words = self.made.words_of(flat.operation)
            if words and words not in told:
                told.add(words)
                yield spot((np.array(flat.low) + np.array(flat.high)) / 2), words
        groups: dict[tuple[float, bool], list[Round]] = {}
        for r in self.roundings:
            groups.setdefault((round(r.diameter / 2, 4), r.inside), []).append(r)
        for (radius, _), group in groups.items():
            r = max(group, key=lambda one: float((right + up) @ one.axis.at(one.high)))
            many = f"{len(group)} × " if len(group) > 1 else ""
            yield spot(r.axis.at(r.high) + np.array(r.towards) * radius), f"{many}R{number(radius)}"


def table_rows(low: Spot, across: tuple[int, int], points: Sequence[Point]) -> list[tuple[str, ...]]:
    """Rows (name, place, place, what it is) of a table of points."""
    first, second = across
    return [
        (p.name, number(round(p.at[first] - low[first], 4)), number(round(p.at[second] - low[second], 4)), p.words)
        for p in points
    ]
