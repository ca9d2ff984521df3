"""How is the thread of a tapped hole drawn in a set-up?

ISO 6410-1, from memory: along its axis the root is a narrow line on each side and the end of a blind thread a wide one;
seen from its end the root is three quarters of a narrow circle.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from methodfigures.paper.shapes import arc, point
from methodfigures.paper.sheet import NARROW, THREAD, WIDE, Layer, Sheet

CREST: Final = 0.54
"""Depth of an inside thread / its pitch (ISO 724: half of 1.0825)."""


def root(major: float, pitch: float, scale: float) -> float:
    """Radius on the paper of the narrow line at the root, clear of its crest; `major` and `pitch` in mm of the work."""
    return max(major / 2 * scale, (major / 2 - CREST * pitch) * scale + THREAD)


def from_its_end(sheet: Sheet, centre: ArrayLike, radius: float, z: float = Layer.EDGE + 0.1) -> None:
    """Three quarters of a narrow circle."""
    sheet.lines([arc(centre, radius, 80, 350)], NARROW, z, ink=False)


def along(
    sheet: Sheet, mouth: ArrayLike, end: ArrayLike, radius: float, *, through: bool, z: float = Layer.EDGE + 0.1
) -> None:
    """A narrow line on each side of the axis from `mouth` to `end`, and a wide one across the end of a blind thread."""
    a, b = point(mouth), point(end)
    along = (b - a) / max(float(np.hypot(*(b - a))), 1e-9)
    aside = radius * np.array([-along[1], along[0]])
    sheet.lines([[a + aside, b + aside], [a - aside, b - aside]], NARROW, z, ink=False)
    if not through:
        sheet.lines([[b + aside, b - aside]], WIDE, z, ink=False)
