"""Where does a short name stand beside what it names, so that it touches nothing?"""

from __future__ import annotations

import itertools
import math
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import text as lettering
from methodfigures.paper.clash import MARGIN
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import FINE, Layer, Sheet

APART: Final = 2 * MARGIN + 0.05
"""mm: least distance of a name from other lettering."""
AWAY: Final = (0.0, 1.2, 2.6, 4.5)
"""mm: how much further than wanted a name may stand."""
FAR: Final = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0)
"""mm: one that stands so far away is led to what it names by a fine line."""
TURNS: Final = (
    0,
    90,
    -90,
    180,
    45,
    -45,
    135,
    -135,
    20,
    -20,
    65,
    -65,
    110,
    -110,
    155,
    -155,
    10,
    -10,
    30,
    -30,
    55,
    -55,
    80,
    -80,
)
"""Degrees from the wanted direction, the best first."""


def name(
    sheet: Sheet, words: str, spot: Points, away: float, towards: float = 45.0, height: float = lettering.HEIGHT
) -> None:
    """Put a name on the sheet, `away` mm from a spot to its nearer edge, `towards` (degrees) if that is free.

    It may break narrow lines. Where nothing is free it stands where it was wanted, and the clash is reported.
    """
    half = np.array([lettering.width(words, height) / 2 + APART, (0.5 + lettering.DESCENT) * height + APART])
    turns = [math.radians(towards + turn) for turn in TURNS]
    near = ((_middle(spot, away + more, a, half), False) for more in AWAY for a in turns)
    far = ((_middle(spot, away + more, a, half), True) for more in FAR for a in turns)
    free = ((m, led) for m, led in itertools.chain(near, far) if _is_free(sheet, m, half))
    wanted = (_middle(spot, away, turns[0], half), False)
    (x, y), led = next(((m, led) for m, led in free if not led or _way(sheet, spot, m)), wanted)
    if led:
        line = _led(spot, np.array([x, y]), half)
        sheet.lines([line], FINE, Layer.DIMENSION)
        sheet.register.leaders.append(shapely.LineString(line))
    sheet.text(float(x), float(y), words, height, level="middle", mask=True)


def _way(sheet: Sheet, spot: Points, middle: Points) -> bool:
    """Whether a line from a spot to a far name crosses no lettering and no leader."""
    line = shapely.LineString([spot, middle])
    crossed = any(text.outline.intersects(line) for text in sheet.register.texts)
    return not crossed and not any(leader.intersects(line) for leader in sheet.register.leaders)


def _led(spot: Points, middle: Points, half: Points) -> Points:
    """The line from a spot to the edge of a name's box."""
    out = middle - spot
    share = min(float(h) / max(abs(float(o)), 1e-9) for h, o in zip(half, out, strict=True))
    return np.array([spot, middle - out * share])


def _middle(spot: Points, away: float, angle: float, half: Points) -> Points:
    """The middle of a box whose nearest edge is that far from a spot."""
    out = np.array([math.cos(angle), math.sin(angle)])
    reach = min(h / max(abs(float(o)), 1e-9) for h, o in zip(half, out, strict=True))
    middle: Points = spot + out * (away + reach)
    return middle


def _is_free(sheet: Sheet, middle: Points, half: Points) -> bool:
    (x0, y0), (x1, y1) = middle - half, middle + half
    if x0 < 1.0 or y0 < 1.0 or x1 > sheet.width - 1.0 or y1 > sheet.height - 1.0:
        return False
    box, register = shapely.box(x0, y0, x1, y1), sheet.register
    near = register.lines().query(box, predicate="intersects")
    if any(register.inks[i].width > 0.3 or register.inks[i].z >= Layer.TOOL for i in near):
        return False
    if any(text.outline.intersects(box) for text in register.texts):
        return False
    return not any(shape.intersects(box) for z, shape in register.fills if z > Layer.TOOL)
