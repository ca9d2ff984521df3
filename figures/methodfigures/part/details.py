"""Which places of a view are too small to be seen at its scale, and how is each enlarged (ISO 128-3, detail views)?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final

import numpy as np

from methodfigures.paper.lanes import scale_words
from methodfigures.paper.shapes import Points
from methodfigures.part.spec import Callout, Circle, Cutting, Side, Size, Spot, View
from methodfigures.solids.mesh import Floats

SEEN: Final = 1.2
"""mm of paper: two wide lines (0.5) nearer than this have less than 0.7 between them and run together (ISO 128-2)."""
CLEAR: Final = 3.0
"""mm of paper that the smallest measure takes in a detail, if there is room."""
WIDEST: Final = 38.0
"""mm: diameter of a detail at most."""
SCALES: Final = (2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
"""Enlargements of ISO 5455."""
MOST: Final = 8
"""No drawing has more details than this."""
BESIDE: Final = 3.0
"""mm of paper: ends of dimensions that are further apart belong to different places."""


@dataclass(frozen=True, eq=False)
class Small:
    """A place that cannot be seen: its corners in view coordinates, its smallest measure, and what tells its size."""

    low: Points
    high: Points
    least: float
    sizes: tuple[Size, ...] = ()
    callouts: tuple[Callout, ...] = ()
    """As a detail shows them."""
    told: frozenset[Size | Callout] = field(default_factory=frozenset)
    """What the view need not say then."""

    @cached_property
    def centre(self) -> Points:
        """Its middle."""
        middle: Points = (self.low + self.high) / 2
        return middle

    @cached_property
    def reach(self) -> float:
        """Radius of the smallest circle about it that shows something of what lies beside it."""
        return math.hypot(*(self.high - self.low)) * 0.6 + 0.7 * self.least

    @cached_property
    def enlarged(self) -> float:
        """The scale at which it can be read; less where it is too wide for that."""
        wanted = next((k for k in SCALES if self.least * k >= CLEAR), SCALES[-1])
        return min(wanted, max((k for k in SCALES if 2 * self.reach * k <= WIDEST), default=0.0))

    @property
    def kind(self) -> tuple[str, ...]:
        """Places that are told alike are of one kind."""
        return (*(s.text for s in self.sizes), *(c.words for c in self.callouts), f"{self.least:.4f}")

    def joined(self, other: Small) -> Small:
        """Both in one."""
        low, high = np.minimum(self.low, other.low), np.maximum(self.high, other.high)
        return Small(
            low,
            high,
            min(self.least, other.least),
            self.sizes + other.sizes,
            self.callouts + other.callouts,
            self.told | other.told,
        )


@dataclass(frozen=True, eq=False)
class Detail:
    """A detail view: its letter, its scale, the circle that it shows in view coordinates, and all places like it."""

    letter: str
    scale: float
    centre: Points
    radius: float
    places: tuple[Points, ...]
    view: View


def parted(view: View, basis: Floats, scale: float, letters: Iterator[str]) -> tuple[View, list[Detail], list[Small]]:
    """(the view without what is told in details, the details, all places that are too small) at a scale."""
    small = _merged(list(_small(view, basis, scale)))
    kinds: dict[tuple[str, ...], list[Small]] = {}
    for one in small:
        kinds.setdefault(one.kind, []).append(one)
    details: list[Detail] = []
    told: set[Size | Callout] = set()
    for kind in sorted(kinds.values(), key=lambda found: found[0].least):
        enlarged = kind[0].enlarged
        if enlarged > 1.5 * scale and (letter := next(letters, "")):
            details.append(_detail(view, basis, kind, enlarged, letter))
            told.update(*(place.told for place in kind))
    kept = replace(
        view,
        sizes=tuple(s for s in view.sizes if s not in told),
        callouts=tuple(c for c in view.callouts if c not in told),
    )
    return kept, details, small


def _detail(view: View, basis: Floats, kind: Sequence[Small], enlarged: float, letter: str) -> Detail:
    one = kind[0]
    radius = max(one.reach, min(2.5 * one.least, WIDEST / 2 / enlarged))
    near = (c for c in view.circles if c.mark and c.diameter < radius and _apart(basis, c.centre, one.centre) < radius)
    shown = replace(
        view,
        title=f"{letter} ({scale_words(enlarged)})",
        cutting=Cutting.FULL if view.cutting is Cutting.HALF else view.cutting,
        sizes=one.sizes,
        callouts=one.callouts,
        circles=tuple(near),
        lines=(),
        labels=(),
    )
    return Detail(letter, enlarged, one.centre, radius, tuple(place.centre for place in kind), shown)


def _seen(basis: Floats, place: Spot) -> Points:
    seen: Points = (basis @ np.asarray(place, float))[:2]
    return seen


def _apart(basis: Floats, place: Spot, other: Points) -> float:
    return math.hypot(*(_seen(basis, place) - other))


# ------------------------------------------------------------------------------------------------ what is too small
def _small(view: View, basis: Floats, scale: float) -> Iterator[Small]:
    least = SEEN / scale
    for size in (one for one in view.sizes if one.shown):
        shown = _at_it(size, view, basis)
        first, second = _seen(basis, shown.first), _seen(basis, shown.second)
        across = abs(float((second - first)[1 if size.side.upright else 0]))
        if 0 < across < least:
            low, high = np.minimum(first, second), np.maximum(first, second)
            yield Small(low, high, across, (shown,), told=frozenset({size}))
    yield from _close_ends(view, basis, scale)
    yield from _holes(view, basis, least)
    for callout in view.callouts:
        if 0 < callout.extent < least:
            moved = replace(callout, spot=_lowered(callout.spot, view), extent=0.0)
            at = _seen(basis, moved.spot)
            yield Small(at, at, callout.extent, callouts=(moved,), told=frozenset({callout}))


def _close_ends(view: View, basis: Floats, scale: float) -> Iterator[Small]:
    """Two places with dimensions from one datum that lie so close to each other that their edges run together."""
    for side in Side:
        axis = 1 if side.upright else 0
        mine = (_at_it(s, view, basis) for s in view.sizes if s.side is side and s.shown)
        ends = sorted((_seen(basis, s.second) for s in mine), key=lambda p: float(p[axis]))
        for a, b in itertools.pairwise(ends):
            near = float((b - a)[axis])
            if 1e-6 < near < SEEN / scale and math.hypot(*(b - a)) < BESIDE / scale:
                yield Small(np.minimum(a, b), np.maximum(a, b), near)


def _holes(view: View, basis: Floats, least: float) -> Iterator[Small]:
    """Of equal holes the one that has the note, else the first."""
    tiny: dict[float, list[Circle]] = {}
    for circle in view.circles:
        if circle.mark and 0 < circle.diameter < least:
            tiny.setdefault(round(circle.diameter, 6), []).append(circle)
    for diameter, circles in tiny.items():
        rims = [(circle, c) for circle in circles for c in view.callouts if _on_rim(basis, circle, c)]
        shown = rims[0][0] if rims else circles[0]
        notes = tuple(c for circle, c in rims if circle is shown)
        centre, half = _seen(basis, shown.centre), np.full(2, diameter / 2)
        plain = tuple(replace(c, extent=0.0) for c in notes)
        yield Small(centre - half, centre + half, diameter, callouts=plain, told=frozenset(notes))


def _on_rim(basis: Floats, circle: Circle, callout: Callout) -> bool:
    away = math.hypot(*(_seen(basis, callout.spot) - _seen(basis, circle.centre)))
    return abs(away - circle.diameter / 2) < 0.02 * circle.diameter


def _at_it(size: Size, view: View, basis: Floats) -> Size:
    """A size beside what it measures; where the view has an axis, below that: there the cut is, and the notes."""
    if size.at is not None:
        u, at = basis[0 if size.side.upright else 1], np.asarray(size.at)
        first, second = (np.asarray(p) + float(u @ (at - np.asarray(p))) * u for p in (size.first, size.second))
        return replace(size, first=_spot(first), second=_spot(second), at=None)
    if view.axis is None or size.side.upright:
        return size
    return Size(_lowered(size.first, view), _lowered(size.second, view), size.text, Side.BELOW)


def _lowered(place: Spot, view: View) -> Spot:
    if view.axis is None:
        return place
    up = np.asarray(view.up, float)
    up = up / np.linalg.norm(up)
    height = float(up @ (np.asarray(place, float) - np.asarray(view.axis, float)))
    return _spot(np.asarray(place, float) - 2 * max(height, 0.0) * up)


def _spot(place: Floats) -> Spot:
    x, y, z = (float(v) for v in place)
    return (x, y, z)


def _merged(places: list[Small]) -> list[Small]:
    """Places whose circles touch are one place, as long as it can still be enlarged.

    The first that can be joined with a later one is, until none can. Only what has just been joined is looked at
    again: no other pair has changed.
    """
    found = sorted(places, key=lambda one: (float(one.centre[0]), float(one.centre[1])))
    i = 0
    while i < len(found):
        before, after = _near(found, i)
        if (k := next((k for k in before if _meet(found[k], found[i])), None)) is not None:
            found[k] = found[k].joined(found.pop(i))
            i = k
        elif (k := next((k for k in after if _meet(found[i], found[k])), None)) is not None:
            found[i] = found[i].joined(found.pop(k))
        else:
            i += 1
    return found


def _near(found: Sequence[Small], i: int) -> tuple[list[int], list[int]]:
    """Those before and those after one whose circles may touch its own."""
    one = found[i]
    apart = np.hypot(*(np.array([other.centre for other in found]) - one.centre).T)
    near = np.flatnonzero(apart < np.array([other.reach for other in found]) * (1 + 1e-9) + one.reach).tolist()
    return [k for k in near if k < i], [k for k in near if k > i]


def _meet(one: Small, other: Small) -> bool:
    near = math.hypot(*(one.centre - other.centre)) < one.reach + other.reach
    return near and one.joined(other).enlarged * 1.01 > min(one.enlarged, other.enlarged) / 2.5


def letters() -> Iterator[str]:
    """Names of details, from the end of the alphabet: A and B are ends, the first ones are holes."""
    return iter("ZYXWVUTS"[:MOST])


__all__ = ["Detail", "Small", "letters", "parted"]
