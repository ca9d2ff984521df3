"""What does a note look like: words over a landing, a surface with its roughness, a run-out in its frame, a balloon?"""

from __future__ import annotations

from typing import Final

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.clash import Tip
from methodfigures.paper.palette import INK, PAPER
from methodfigures.paper.shapes import circle, polygon
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.part.notes import BALLOON, DATUM, FRAME, SURFACE

SLOPE: Final = 0.5774
"""Run to rise of the legs of the symbol of a surface: they stand at 60 degrees (ISO 1302)."""
SHORT: Final = 3.5
LONG: Final = 7.5
"""mm: heights of its legs beside lettering of 2.5 (ISO 1302, from memory)."""
UNDER: Final = 3.4
"""mm from its bar down to the foot of its words."""
BALLOON_RADIUS: Final = 2.6
RAISED: Final = 2.15
"""mm: the middle of a balloon over the elbow of its leader."""
BOX: Final = 4.4
"""mm: height of the frame of a run-out and of a datum; ISO 1101 has twice the lettering."""
FOOT: Final = 1.3
"""mm: half the width of the triangle of a datum, and its height less a third."""
Spot = tuple[float, float]


def draw_note(sheet: Sheet, tip: Spot, elbow: Spot, words: str, *, right: bool, dot: bool) -> None:
    """A note with its leader from the elbow to the tip; `right` = its lettering runs to the right of the elbow."""
    if words.startswith(SURFACE):
        wide, told = lettering.width(words) + 1.0, words.removeprefix(SURFACE)
        dim.leader(sheet, tip, elbow, SURFACE, right=right, dot=dot)
        left = elbow[0] if right else elbow[0] - wide
        _surface(sheet, left, elbow[1], wide)
        sheet.text(left + wide - 0.5, elbow[1] + LONG - UNDER, told, align="right")
    elif words.startswith(FRAME):
        dim.leader(sheet, tip, elbow, words, right=right, dot=dot)
        _frame(sheet, elbow, words, right=right)
    elif words.startswith(DATUM):
        _datum(sheet, tip, elbow, words, right=right)
    elif words.startswith(BALLOON):
        _balloons(sheet, tip, elbow, words, right=right)
    else:
        dim.leader(sheet, tip, elbow, words, right=right, dot=dot)


def _surface(sheet: Sheet, left: float, y: float, wide: float) -> None:
    """Legs and bar of a surface from which metal is removed, about its words."""
    x = left + 0.5 + SHORT * SLOPE
    legs = [(x - SHORT * SLOPE, y + SHORT), (x, y), (x + LONG * SLOPE, y + LONG), (left + wide, y + LONG)]
    across = [(x - SHORT * SLOPE, y + SHORT), (x + SHORT * SLOPE, y + SHORT)]
    sheet.lines([legs, across], NARROW, Layer.DIMENSION, ink=False)


def _frame(sheet: Sheet, elbow: Spot, words: str, *, right: bool) -> None:
    """The boxes of a circular run-out about its words: an arrow for the symbol, what is allowed, the datum."""
    wide = lettering.width(words) + 1.0
    left, low, high = (elbow[0] if right else elbow[0] - wide), elbow[1], elbow[1] + BOX
    sign = left + lettering.width(FRAME) + 0.1
    letter = left + wide - lettering.width(words.split(DATUM)[-2]) - 2 * lettering.width(DATUM) - 0.2
    edges = [[(left, low), (left, high), (left + wide, high), (left + wide, low)]]
    edges += [[(x, low), (x, high)] for x in (sign, letter)]
    sheet.lines([np.array(edge) for edge in edges], NARROW, Layer.DIMENSION, ink=False)
    foot, point = np.array([left + 0.8, low + 0.8]), np.array([sign - 0.7, high - 0.7])
    sheet.lines([np.array([foot, point])], NARROW, Layer.DIMENSION, ink=False)
    dim.head(sheet, point, point - foot, size=1.8)


def _datum(sheet: Sheet, tip: Spot, elbow: Spot, words: str, *, right: bool) -> None:
    """The letter of a datum in a box; its leader ends in a filled triangle that stands on the surface."""
    wide = max(lettering.width(words) + 1.0, BOX)
    left = elbow[0] if right else elbow[0] - wide
    over = 1.0 if elbow[1] > tip[1] else -1.0
    apex = np.array([tip[0], tip[1] + over * 1.5 * FOOT])
    box = np.array([(left, elbow[1]), (left + wide, elbow[1]), (left + wide, elbow[1] + BOX), (left, elbow[1] + BOX)])
    sheet.lines([np.array([*box, box[0]])], NARROW, Layer.DIMENSION, ink=False)
    leader = np.array([tip, apex, elbow], float)
    sheet.lines([leader], NARROW, Layer.TOOL + 0.5)
    sheet.register.leaders.append(shapely.LineString(leader))
    sheet.register.tips.append(Tip(leader[0], False))
    sheet.area(polygon([(tip[0] - FOOT, tip[1]), (tip[0] + FOOT, tip[1]), tuple(apex)]), INK, Layer.ARROW)
    sheet.text(left + wide / 2, elbow[1] + BOX / 2, words, level="middle")


def _balloons(sheet: Sheet, tip: Spot, elbow: Spot, words: str, *, right: bool) -> None:
    """The numbers of bodies in circles, side by side where several lie behind one another, led to them (ISO 6433)."""
    numbers = [one for one in words.split(BALLOON) if one]
    wide = lettering.width(words)
    each = wide / len(numbers)
    left = elbow[0] + 0.5 if right else elbow[0] - 0.5 - wide
    middles = [np.array([left + (i + 0.5) * each, elbow[1] + RAISED]) for i in range(len(numbers))]
    radius = max(BALLOON_RADIUS, *(lettering.width(one) / 2 + 0.8 for one in numbers))
    nearest = middles[0 if right else -1]
    way = nearest - np.asarray(elbow, float)
    end = nearest - way * min(1.0, radius / max(float(np.hypot(*way)), 1e-9))
    leader = np.array([tip, elbow, end], float)
    sheet.lines([leader], NARROW, Layer.TOOL + 0.5)
    sheet.register.leaders.append(shapely.LineString(leader))
    sheet.register.tips.append(Tip(leader[0], True))
    sheet.area(circle(leader[0], 0.55), INK, Layer.ARROW)
    for middle, one in zip(middles, numbers, strict=True):
        sheet.circle(middle, radius, "narrow", Layer.TEXT - 0.2, fill=PAPER, ink=False)
        sheet.text(float(middle[0]), float(middle[1]), one, level="middle")
