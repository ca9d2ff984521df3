"""What outline do an author's points make: straight sides, rounded corners, arcs through a point?

A corner is (x, y), or (x, y, r) for a corner rounded by r. A point that is named again behind `via` is no corner: the
side from the corner before it to the corner behind it is an arc through it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TypeAlias

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError, Place
from methodsheets.sheet.model import Fact
from methodsheets.vocabulary.change import Change

from .facts import told
from .say import number
from .words import Clause

VIA = Clause("via", "points", "points of the outline that are no corners: an arc goes through them", apart=True)
CLIMB = Clause("climb", "flag", "climb milling: the cutter goes with the work", changes=(Change.WORDS,))
Corner: TypeAlias = tuple[float, ...]
Point: TypeAlias = tuple[float, float]
SAME = 1e-9


def closed_outline(corners: Sequence[Corner], via: Sequence[Corner], place: Place) -> Outline:
    """A closed outline of corners; MethodError where a rounding does not fit or an arc does not meet."""
    ring = [*corners]
    if sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]])) < 0:
        ring.reverse()
    arcs = [_is_via(corner, via) for corner in ring]
    _all_found(corners, via, place)
    if arcs.count(False) < 2:
        raise _wrong(place, "an outline has two corners at least beside its arcs", "add corners")
    first = arcs.index(False)
    ring, arcs = [*ring[first:], *ring[:first]], [*arcs[first:], *arcs[:first]]
    outline: Outline | None = None
    for i, corner in enumerate(ring):
        before, after = ring[i - 1], ring[(i + 1) % len(ring)]
        if arcs[i]:
            assert outline is not None
            outline = outline.arc(*arc_through(_flat(before), _flat(corner), _flat(after), place))
        elif len(corner) > 2 and corner[2] > 0:
            if arcs[i - 1] or arcs[(i + 1) % len(ring)]:
                raise _wrong(place, f"the corner {_words(corner)} beside an arc is not rounded", "take its radius away")
            outline = _rounded(outline, _flat(before), corner, _flat(after), place)
        else:
            outline = outline.to(_flat(corner)) if outline else Outline(_flat(corner))
    assert outline is not None
    return _uncrossed(outline, place)


def _uncrossed(outline: Outline, place: Place) -> Outline:
    try:
        outline.facets(24)
    except ValueError as error:
        words, rule = str(error).partition(" (from")[0], "an outline goes round once"
        raise MethodError(place, words, rule, "check the order of the points", code="wrong-outline") from None
    return outline


def open_path(outline: Outline, points: Sequence[Point], via: Sequence[Corner], place: Place) -> Outline:
    """An outline carried on through points, from its last one: straight, or along arcs through those that are `via`."""
    _all_found(points, via, place)
    if _is_via(points[0], via) or _is_via(points[-1], via):
        raise _wrong(place, "an arc needs a point before it and one behind it", "begin and end with a corner")
    for i, here in enumerate(points):
        if _is_via(here, via):
            outline = outline.arc(*arc_through(points[i - 1], here, points[i + 1], place))
        elif i == 0 or not _is_via(points[i - 1], via):
            outline = outline.to(here)
    return outline


def arc_through(first: Point, middle: Point, last: Point, place: Place) -> tuple[Point, float, float, float]:
    """(centre, radius, start, stop in degrees) of the arc from the first point through the middle to the last."""
    (ax, ay), (bx, by), (cx, cy) = first, middle, last
    twice = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(twice) < 1e-6:
        line = f"it lies on one line with {_words(first)} and {_words(last)}"
        words = f"the arc through {_words(middle)} does not meet: {line}"
        raise _wrong(place, words, "move it off the line, or take it out of `via`")
    a2, b2, c2 = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a2 * (by - cy) + b2 * (cy - ay) + c2 * (ay - by)) / twice
    y = (a2 * (cx - bx) + b2 * (ax - cx) + c2 * (bx - ax)) / twice
    start, through, stop = (math.degrees(math.atan2(p[1] - y, p[0] - x)) for p in (first, middle, last))
    forward = (stop - start) % 360.0
    onward = (through - start) % 360.0 < forward
    return (x, y), math.hypot(ax - x, ay - y), start, start + (forward if onward else forward - 360.0)


def _rounded(outline: Outline | None, before: Point, corner: Corner, after: Point, place: Place) -> Outline:
    """The outline carried on round one corner; the rounding lies inside or outside as the corner does."""
    x, y, r = corner[0], corner[1], corner[2]
    a, b = math.atan2(before[1] - y, before[0] - x), math.atan2(after[1] - y, after[0] - x)
    half = ((a - b) % (2 * math.pi)) / 2
    if abs(math.sin(half)) < SAME or abs(math.cos(half)) < SAME:
        return outline.to((x, y)) if outline else Outline((x, y))
    back = r / abs(math.tan(half))
    if back > min(math.dist((x, y), before), math.dist((x, y), after)):
        words = f"a corner radius of {number(r)} mm does not fit at ({number(x)}, {number(y)})"
        raise MethodError(place, words, "the round ends within its two sides", "make it smaller", code="too-long")
    middle = a + ((b - a + math.pi) % (2 * math.pi) - math.pi) / 2
    convex = half < math.pi / 2
    reach = r / abs(math.sin(half))
    centre = (x + reach * math.cos(middle), y + reach * math.sin(middle))
    begin = (x + back * math.cos(a), y + back * math.sin(a))
    start = math.degrees(math.atan2(begin[1] - centre[1], begin[0] - centre[0]))
    sweep = 180.0 - math.degrees(2 * half if convex else 2 * math.pi - 2 * half)
    outline = outline.to(begin) if outline else Outline(begin)
    return outline.arc(centre, r, start, start + (sweep if convex else -sweep))


def _is_via(point: Sequence[float], via: Sequence[Corner]) -> bool:
    return any(math.dist(point[:2], v[:2]) < SAME for v in via)


def _all_found(points: Sequence[Sequence[float]], via: Sequence[Corner], place: Place) -> None:
    lost = next((v for v in via if not any(math.dist(p[:2], v[:2]) < SAME for p in points)), None)
    if lost is not None:
        raise _wrong(place, f"{_words(lost)} stands behind `via` but not among the points", "write it in both")


def _flat(corner: Corner) -> Point:
    return (corner[0], corner[1])


def _words(corner: Sequence[float]) -> str:
    return f"({number(corner[0])}, {number(corner[1])})"


def _wrong(place: Place, words: str, remedy: str) -> MethodError:
    rule = "a point behind `via` lies on the arc between its two neighbours"
    return MethodError(place, words, rule, remedy, code="wrong-outline")


def way_round(*, climb: bool, inside: bool = False) -> Fact:
    """Which way a right-hand cutter goes round, by side and turning sense; it turns clockwise seen from above."""
    way, side = ("climb", "right") if climb else ("conventional", "left")
    senses = ("clockwise", "anticlockwise")
    sense, table = senses if climb != inside else senses[::-1]
    words = f"{way}: the cutter goes {sense} round the work, seen from above, the work on its {side}"
    return told("way_round", "Way round", f"{words}; where a rotary table turns instead, turn it {table}")
