"""Where does each note go, so that nothing overlaps and nothing moves further than it must?"""
from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import shapely

from methodfigures import text as lettering
from methodfigures.shapes import Points

SCALES: Final = (10.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, 1.0, 0.8, 0.75, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1,
                 0.08, 0.05, 0.04, 0.03, 0.02)
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


def column(notes: Sequence[Note], x: float, low: float, high: float, step: float = 7.0,
           obstacles: Sequence[shapely.Geometry] = ()) -> list[tuple[Note, float]]:
    """Notes in a column whose landings start at `x`: (note, height of its landing).

    Rows follow the heights of the spots, `step` or more apart, between `low` and `high` where that is possible.
    All orders of up to five notes are tried; the one with the fewest crossings, then the shortest leaders wins.
    """
    rows: list[float] = []
    y = low
    for i, spot in enumerate(sorted(n.spot[1] for n in notes)):
        y = max(y, min(spot + 4, high - step * (len(notes) - 1 - i)))
        rows.append(y)
        y += step
    ordered = sorted(notes, key=lambda n: n.spot[1])
    orders = itertools.permutations(ordered) if len(notes) <= 5 else [tuple(ordered)]
    best = min(orders, key=lambda order: _cost(order, rows, x, obstacles))
    return list(zip(best, rows, strict=True))


def _cost(order: Sequence[Note], rows: Sequence[float], x: float,
          obstacles: Sequence[shapely.Geometry]) -> tuple[int, float]:
    """(crossings, length) of the leaders when the notes stand in this order."""
    ends = [x + lettering.width(n.words) + 1 for n in order]
    lines = [shapely.LineString([n.spot, (x, y), (e, y)]) for n, y, e in zip(order, rows, ends, strict=True)]
    boxes = [shapely.box(x, y, e, y + 4) for y, e in zip(rows, ends, strict=True)]
    bad = sum(a.intersects(b) for a, b in itertools.combinations(lines, 2))
    bad += sum(a.intersects(b) for i, a in enumerate(lines) for j, b in enumerate(boxes) if i != j)
    bad += sum(a.intersects(b) for a in lines for b in obstacles)
    return bad, sum(a.length for a in lines)


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
