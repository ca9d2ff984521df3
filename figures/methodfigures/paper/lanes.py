"""Where does each note go, so that nothing overlaps and nothing moves further than it must?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import clash
from methodfigures.paper import text as lettering
from methodfigures.paper.shapes import Points

SCALES: Final = (
    *(10.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, 1.0),
    *(1 / n for n in (1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 30.0, 50.0)),
)
"""Scales a drawing may have, paper mm per mm: those of ISO 5455 and the usual steps between."""


def scale_for(limit: float) -> float:
    """The largest step of `SCALES` that is not larger than `limit`."""
    return max((k for k in SCALES if k <= limit * 1.0001), default=SCALES[-1])


def scale_words(scale: float) -> str:
    """A scale as it is written on a drawing: "1 : 2", "2 : 1"."""
    big, small = (scale, 1.0) if scale >= 1 else (1.0, 1 / scale)
    return f"{round(big, 2):g} : {round(small, 2):g}"


def spread(wanted: Sequence[float], widths: Sequence[float], low: float, high: float) -> list[float]:
    """Left ends of items in a row, in the given order, none overlapping, least moved from where they want to be.

    Least squares under the order (pool adjacent violators), then pushed into [low, high]; if the row is longer than
    that it starts at `low` and runs over, which the overlap test reports.
    """
    offsets = list(itertools.accumulate(widths, initial=0.0))
    pools: list[list[float]] = []
    for want, offset in zip(wanted, offsets, strict=False):
        pools.append([want - offset, 1.0])
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            b, n = pools.pop()
            a, m = pools.pop()
            pools.append([(a * m + b * n) / (m + n), m + n])
    free = [x for x, n in pools for _ in range(int(n))]
    room = max(low, high - offsets[len(widths)])
    return [min(max(x, low), room) + o for x, o in zip(free, offsets, strict=False)]


@dataclass(frozen=True)
class Note:
    """A note with the spot it points at; `dot` = the spot lies in an area, else on a line."""

    spot: tuple[float, float]
    words: str
    dot: bool = False


def column(
    notes: Sequence[Note],
    x: float,
    low: float,
    high: float,
    step: float = 7.0,
    obstacles: Sequence[BaseGeometry] = (),
) -> list[tuple[Note, float]]:
    """Notes in a column whose landings start at `x`: (note, height of its landing).

    Rows follow the heights of the spots, `step` or more apart, between `low` and `high` where that is possible.
    All orders of up to five notes are tried; the one with the fewest crossings, then the shortest leaders wins.
    """
    ordered = sorted(notes, key=lambda n: n.spot[1])
    orders = list(itertools.permutations(ordered)) if len(notes) <= 5 else [tuple(ordered)]
    best: tuple[tuple[int, float], list[tuple[Note, float]]] | None = None
    way = _together(obstacles)
    for higher in (4.0, 8.0, 12.0, 1.0, -3.0):
        rows = _rows(ordered, higher, low, high, step)
        order = min(orders, key=lambda order: _cost(order, rows, x, way))
        cost = _cost(order, rows, x, way)
        if best is None or (cost[0] < best[0][0] and rows[-1] <= high):
            best = cost, list(zip(order, rows, strict=True))
        if best[0][0] == 0:
            break
    return best[1] if best else []


def _together(obstacles: Sequence[BaseGeometry]) -> BaseGeometry:
    """All obstacles as one shape that is quickly asked."""
    way = shapely.GeometryCollection(list(obstacles))
    shapely.prepare(way)
    return way


def _rows(ordered: Sequence[Note], higher: float, low: float, high: float, step: float) -> list[float]:
    rows: list[float] = []
    y = low
    for i, note in enumerate(ordered):
        y = max(y, min(note.spot[1] + higher, high - step * (len(ordered) - 1 - i)))
        rows.append(y)
        y += step
    return rows


def _cost(order: Sequence[Note], rows: Sequence[float], x: float, way: BaseGeometry) -> tuple[int, float]:
    """(crossings, length) of the leaders when the notes stand in this order."""
    ends = [x + lettering.width(n.words) + 1 for n in order]
    lines = [shapely.LineString([n.spot, (x, y), (e, y)]) for n, y, e in zip(order, rows, ends, strict=True)]
    boxes = [shapely.box(x, y, e, y + 4) for y, e in zip(rows, ends, strict=True)]
    bad = sum(a.intersects(b) for a, b in itertools.combinations(lines, 2))
    bad += sum(a.intersects(b) for i, a in enumerate(lines) for j, b in enumerate(boxes) if i != j)
    bad += sum(clash.crosses(line, way) for line in lines)
    return bad, sum(a.length for a in lines)


def row(
    notes: Sequence[Note], y: float, low: float, high: float, obstacles: Sequence[BaseGeometry] = ()
) -> list[tuple[Note, float, bool]]:
    """Notes in a row of landings at height `y` between `low` and `high`: (note, x of its elbow, text to the right).

    The orders of up to four notes are tried; fewest crossings, then shortest leaders wins.  A last note that would
    run out of the row has its text left of the elbow.
    """
    ordered = sorted(notes, key=lambda n: n.spot[0])
    orders = list(itertools.permutations(ordered)) if len(notes) <= 4 else [tuple(ordered)]
    best: list[tuple[Note, float, bool]] = []
    worth, way = (99, 0.0), _together(obstacles)
    for left in range(len(notes) + 1):  # how many of the first notes have their text left of the elbow
        for order in orders:
            placed = _in_row(order, low, high, left)
            cost = _row_cost(placed, y, (low, high), way)
            if cost < worth:
                best, worth = placed, cost
        if worth[0] == 0:
            break
    return best


def stairs(notes: Sequence[Note], y: float, step: float, high: float) -> list[tuple[Note, float, float, bool]]:
    """Long names one above the other, rising to the right: (note, x of its elbow, height, text to the right).

    Each landing lies above those of the notes left of it, so no leader meets another's lettering; a last note that
    does not fit to the right of its spot takes the lowest place, its text to the left.
    """
    out: list[tuple[Note, float, float, bool]] = []
    ordered = sorted(notes, key=lambda n: n.spot[0])
    if ordered[-1].spot[0] + 3 + lettering.width(ordered[-1].words) > high:
        ordered = [ordered[-1], *ordered[:-1]]
    for note in ordered:
        right = note.spot[0] + 3 + lettering.width(note.words) <= high
        clear = max([note.spot[0] + 2, *(x + 2 for _, x, _, r in out if r)])
        elbow = clear if right else min(note.spot[0] - 1, high)
        out.append((note, elbow, y, right))
        y += step
    return out


def _in_row(notes: Sequence[Note], low: float, high: float, left: int) -> list[tuple[Note, float, bool]]:
    front: list[tuple[Note, float, bool]] = []
    start = high
    for note in reversed(notes[:left]):
        elbow = min(note.spot[0] - 1, start)
        low = max(low, elbow + 3)
        front.insert(0, (note, elbow, False))
        start = elbow - lettering.width(note.words) - 4
    rest, last = list(notes[left:]), []
    if rest and rest[-1].spot[0] + 2 + lettering.width(rest[-1].words) > high:
        end = rest.pop()
        elbow = min(end.spot[0] - 1, high)
        last = [(end, elbow, False)]
        high = elbow - lettering.width(end.words) - 4
    wide = [lettering.width(n.words) + 4 for n in rest]
    out: list[tuple[Note, float, bool]] = []
    done = -9.0
    for note, x in zip(rest, spread([n.spot[0] + 4 for n in rest], wide, low, high), strict=True):
        x = max(x, note.spot[0] + 1, done + 3)  # a leader must not come back over its own lettering
        out.append((note, x, True))
        done = x + lettering.width(note.words) + 1
    return front + out + last


def _row_cost(
    placed: Sequence[tuple[Note, float, bool]],
    y: float,
    within: tuple[float, float],
    way: BaseGeometry,
) -> tuple[int, float]:
    """(crossings, length) of a row of landings; a text that runs out of the row counts as a crossing."""
    lines, boxes = [], []
    for note, x, right in placed:
        far = x + (lettering.width(note.words) + 1) * (1 if right else -1)
        lines.append(shapely.LineString([note.spot, (x, y), (far, y)]))
        boxes.append(shapely.box(min(x, far), y, max(x, far), y + 4 * (note.words.count("\n") + 1)))
    bad = sum(a.intersects(b) for a, b in itertools.combinations(lines, 2))
    bad += sum(a.intersects(b) for i, a in enumerate(lines) for j, b in enumerate(boxes) if i != j)
    bad += sum(a.intersects(b) for a, b in itertools.combinations(boxes, 2))
    bad += sum(b.bounds[0] < within[0] - 2 or b.bounds[2] > within[1] + 2 for b in boxes)
    bad += sum(clash.crosses(line, way) for line in lines)
    return bad, sum(a.length for a in lines)


def crossings(placed: Sequence[tuple[Note, float, bool]], y: float, obstacles: Sequence[BaseGeometry] = ()) -> int:
    """How often the leaders of a row cross one another, a text or an obstacle."""
    return _row_cost(placed, y, (-math.inf, math.inf), _together(obstacles))[0]


def slot(spans: Sequence[tuple[float, float]], need: float) -> tuple[float, float] | None:
    """The widest of `spans` if it is at least `need` wide."""
    widest = max(spans, key=lambda s: s[1] - s[0], default=(0.0, 0.0))
    return widest if widest[1] - widest[0] >= need else None


def without(span: tuple[float, float], gap: tuple[float, float] | None) -> list[tuple[float, float]]:
    """`span` with the stretch `gap` taken out."""
    if gap is None or gap[1] <= span[0] or gap[0] >= span[1]:
        return [span]
    return [s for s in ((span[0], gap[0]), (gap[1], span[1])) if s[1] > s[0]]


def corner(p: Points) -> tuple[float, float]:
    """A point as a plain pair, for notes."""
    return float(p[0]), float(p[1])
