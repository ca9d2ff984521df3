"""Where does the picture break off a part that runs out of it?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.shapes import Points, freehand, polygons

Window = tuple[float, float, float, float]
"""(left, bottom, right, top) on the paper."""


@dataclass(frozen=True)
class Cropped:
    """One piece of a part inside a window: its area, its true outline, and the freehand breaks."""

    area: BaseGeometry
    outline: list[Points]
    breaks: list[Points]


def cropped(shape: BaseGeometry, window: Window, least: float = 1.5) -> list[Cropped]:
    """`shape` inside `window`; edges longer than `least` mm made by the window become freehand break lines."""
    left, low, right, high = window
    x0, y0, x1, y1 = shape.bounds
    if not (x0 > left and y0 > low and x1 < right and y1 < high):
        shape = shape.intersection(shapely.box(*window))
    return [_broken(p, window, least) for p in polygons(shape) if p.area > 1e-4]


def _broken(p: shapely.Polygon, window: Window, least: float) -> Cropped:
    c = shapely.get_coordinates(p.exterior)[:-1]
    n = np.roll(c, -1, 0)
    on = np.zeros(len(c), bool)
    for i, side in ((0, window[0]), (1, window[1]), (0, window[2]), (1, window[3])):
        on |= (np.abs(c[:, i] - side) < 1e-6) & (np.abs(n[:, i] - side) < 1e-6)
    on &= np.hypot(*(n - c).T) > least
    if not on.any():
        whole = shapely.get_coordinates(p.exterior)
        return Cropped(shapely.Polygon(whole), [whole], [])
    k = int(np.argmax(on)) + 1  # start the ring just after a break
    c, on = np.roll(c, -k, 0), np.roll(on, -k)
    ring: list[Points] = []
    outline: list[Points] = []
    breaks: list[Points] = []
    start = 0
    for i in np.flatnonzero(on).tolist():  # the last one closes the ring
        a, b = c[i], c[(i + 1) % len(c)]
        wave = freehand(a, b, min(0.7, 0.05 * float(np.hypot(*(b - a)))))
        ring += [c[start:i], wave[:-1]]
        breaks.append(wave)
        if i > start:
            outline.append(c[start : i + 1])
        start = i + 1
    area = shapely.Polygon(np.concatenate(ring))
    return Cropped(area if area.is_valid else shapely.make_valid(area), outline, breaks)
