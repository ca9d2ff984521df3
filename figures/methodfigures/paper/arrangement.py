"""On which side of a view do the others stand: first angle or third angle (ISO 5456-2)?

Figures are laid out in first angle, the view from above below the front view; for third angle the finished groups of
views change places as they are, so both arrangements show the same views at the same scale.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import clash
from methodfigures.paper import text as lettering
from methodfigures.paper.marks import PathMark, TextMark
from methodfigures.paper.shapes import Points, polygon
from methodfigures.paper.sheet import NARROW, Layer, Sheet

T = TypeVar("T", bound=BaseGeometry)

FIRST: Final = "first"
THIRD: Final = "third"
NAMES: Final[Mapping[str, str]] = {FIRST: "First-angle projection", THIRD: "Third-angle projection"}
FOOT: Final = 5.0
"""Strip at the foot of a third-angle sheet for scale and symbol, mm."""
SYMBOL: Final = 10.0
"""Width of the symbol, mm."""
_LARGE, _SMALL = 3.0, 1.5


def checked(arrangement: str) -> str:
    """The arrangement, if there is one of that name.

    Raises:
        ValueError: it is neither "first" nor "third".
    """
    if arrangement not in NAMES:
        raise ValueError(f"projection must be first or third (got {arrangement!r})")
    return arrangement


def draw_symbol(sheet: Sheet, right: float, low: float, arrangement: str) -> None:
    """The standard's truncated cone, its right end at `right`, its foot at `low`.

    The cone's small end looks left; the view from there stands right of it in first angle, left of it in third.
    """
    y, gap = low + _LARGE / 2, SYMBOL - 2 * _LARGE
    first = checked(arrangement) == FIRST
    cone = right - SYMBOL if first else right - _LARGE
    circles = (right if first else right - SYMBOL + _LARGE) - _LARGE / 2
    small, large = _SMALL / 2, _LARGE / 2
    shape = polygon([(cone, y - small), (cone, y + small), (cone + _LARGE, y + large), (cone + _LARGE, y - large)])
    sheet.outline(shape, "narrow", Layer.EDGE, width=0.35)
    for radius in (small, large):
        sheet.circle((circles, y), radius, "narrow", Layer.EDGE, width=0.35)
    reach = min(0.8, gap / 4)
    for x0, x1 in ((cone - reach, cone + _LARGE + reach), (circles - large - reach, circles + large + reach)):
        sheet.lines([[(x0, y), (x1, y)]], NARROW * 0.6, Layer.AXIS)
    sheet.lines([[(circles, y - large - 0.4), (circles, y + large + 0.4)]], NARROW * 0.6, Layer.AXIS)


def draw_scale(sheet: Sheet, words: str, arrangement: str) -> float:
    """Scale and symbol in the lower right corner; how far they reach to the left."""
    sheet.text(sheet.width - 2, 1.2, words, align="right")
    right = sheet.width - 2 - lettering.width(words) - 3.0
    draw_symbol(sheet, right, 0.6, arrangement)
    return right - SYMBOL - 1.0


def words_of(arrangement: str) -> str:
    """The sentence of a description: "First-angle projection."."""
    return f"{NAMES[checked(arrangement)]}."


# ---------------------------------------------------------------------- change of places
def exchange(sheet: Sheet, level: float, axis: str = "y", *, low: float = 0.0, foot: float = 0.0) -> None:
    """Let all that lies below `level` and all that lies above it change places ("x": left and right of it).

    What lies below `low` stays; then the rest rises by `foot`, and the sheet with it.  Nothing is turned or scaled.
    """
    i = 0 if axis == "x" else 1
    size = (sheet.width, sheet.height)[i]

    def by(middle: Points) -> Points:
        return np.where(middle < low, 0.0, foot + np.where(middle < level, size - level, low - level))

    def lines(found: Sequence[Points]) -> list[Points]:
        if not found:
            return []
        counts = np.array([len(line) for line in found])
        starts = np.concatenate([[0], np.cumsum(counts)[:-1]])
        all_ = np.concatenate(found)
        along = all_[:, i]
        away = by((np.minimum.reduceat(along, starts) + np.maximum.reduceat(along, starts)) / 2)
        all_[:, i] += np.repeat(away, counts)
        return np.split(all_, starts[1:])

    def shapes(found: Sequence[T]) -> list[T]:
        if not len(found):
            return []
        ends, all_ = shapely.bounds(found), np.array(found, object)
        far = by((ends[:, i] + ends[:, i + 2]) / 2)
        for away in np.unique(far[far != 0.0]).tolist():
            all_[far == away] = shapely.transform(all_[far == away], functools.partial(np.add, np.eye(2)[i] * away))
        return all_.tolist()

    paths = iter(lines([mark.vertices for mark in sheet.marks if isinstance(mark, PathMark)]))
    words = iter(by(np.array([_middle(mark, i) for mark in sheet.marks if isinstance(mark, TextMark)])).tolist())
    sheet.marks = [
        PathMark(mark.z, mark.style, next(paths), mark.codes)
        if isinstance(mark, PathMark)
        else _carried(mark, next(words), i)
        for mark in sheet.marks
    ]
    r = sheet.register
    boxes, inks = shapes([t.outline for t in r.texts]), lines([ink.line for ink in r.inks])
    r.texts = [clash.TextBox(box, t.text, t.masked, t.z) for box, t in zip(boxes, r.texts, strict=True)]
    r.inks = [clash.Ink(line, ink.width, ink.z) for line, ink in zip(inks, r.inks, strict=True)]
    r.fills = [(z, shape) for (z, _), shape in zip(r.fills, shapes([shape for _, shape in r.fills]), strict=True)]
    r.leaders = shapes(r.leaders)
    barriers = shapes([line for _, line in r.barriers])
    r.barriers = [(name, line) for (name, _), line in zip(r.barriers, barriers, strict=True)]
    r.arrows = shapes(r.arrows)
    r.tips = [
        clash.Tip(line[0], tip.dot) for line, tip in zip(lines([t.spot[None] for t in r.tips]), r.tips, strict=True)
    ]
    if axis == "y":
        sheet.height += foot


def _middle(mark: TextMark, axis: int) -> float:
    """The middle of lettering: where it is upright it may begin outside its group."""
    a = math.radians(mark.turn)
    return (mark.x, mark.y)[axis] + (math.cos(a), math.sin(a))[axis] * mark.width / 2


def _carried(mark: TextMark, away: float, axis: int) -> TextMark:
    return replace(mark, x=mark.x + away) if axis == 0 else replace(mark, y=mark.y + away)
