"""On which side of a view do the others stand: first angle or third angle (ISO 5456-2)?

Figures are laid out in first angle, the view from above below the front view; for third angle the finished groups of
views change places as they are, so both arrangements show the same views at the same scale.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final, TypeVar

import numpy as np
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import text as lettering
from methodfigures.paper.marks import Mark, TextMark
from methodfigures.paper.shapes import Points, moved, polygon
from methodfigures.paper.sheet import NARROW, Layer, Sheet

T = TypeVar("T", bound=BaseGeometry)
Shift = Callable[[Points], Points]
"""How far something moves, by its lower left and its upper right corner."""

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
    size, unit = (sheet.width, sheet.height)[i], np.eye(2)[i]

    def shift(corners: Points) -> Points:
        middle = float(corners[:, i].mean())
        return unit * (0.0 if middle < low else foot + (size - level if middle < level else low - level))

    sheet.marks = [_moved_mark(mark, shift) for mark in sheet.marks]
    r = sheet.register
    r.texts = [replace(t, outline=_moved(t.outline, shift)) for t in r.texts]
    r.inks = [replace(ink, line=ink.line + shift(_corners(ink.line))) for ink in r.inks]
    r.fills = [(z, _moved(shape, shift)) for z, shape in r.fills]
    r.leaders = [_moved(line, shift) for line in r.leaders]
    r.barriers = [(name, _moved(line, shift)) for name, line in r.barriers]
    r.arrows = [_moved(shape, shift) for shape in r.arrows]
    r.tips = [replace(tip, spot=tip.spot + shift(_corners(tip.spot[None]))) for tip in r.tips]
    if axis == "y":
        sheet.height += foot


def _corners(points: Points) -> Points:
    return np.array([points.min(0), points.max(0)])


def _moved(shape: T, shift: Shift) -> T:
    dx, dy = shift(np.reshape(shape.bounds, (2, 2)))
    return moved(shape, float(dx), float(dy))  # type: ignore[return-value]


def _moved_mark(mark: Mark, shift: Shift) -> Mark:
    if isinstance(mark, TextMark):
        # Upright lettering may begin outside its group; its middle does not.
        a = np.radians(mark.turn)
        half = np.array([np.cos(a), np.sin(a)]) * mark.width / 2
        here = np.array([mark.x, mark.y])
        dx, dy = shift(np.array([here + half, here + half]))
        return replace(mark, x=mark.x + float(dx), y=mark.y + float(dy))
    return replace(mark, vertices=mark.vertices + shift(_corners(mark.vertices)))
