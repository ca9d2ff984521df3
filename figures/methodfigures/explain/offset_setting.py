"""How is work set off the axis in the four-jaw chuck?  The jaws as seen from the tailstock, and what the dial reads."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import scale_for
from methodfigures.paper.palette import INK, JAW, TINT
from methodfigures.paper.shapes import Points, circle, point, polygon
from methodfigures.paper.sheet import FINE, NARROW, WIDE, Sheet

BODY = 25.0
"""Radius at which the picture of the chuck breaks off, in mm."""
JAWS = ((0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0))


@dataclass(frozen=True)
class OffsetSetting:
    """Round work of `diameter` mm set `throw` mm below the axis, jaw 1 uppermost; `packing` = there is soft packing.

    Words: `diameter_text`, `throw_text`, `travel_text` (over the whole travel of the dial), `jaws_text`, `dial_text`.
    """

    diameter: float
    throw: float
    packing: bool = False
    diameter_text: str = ""
    throw_text: str = ""
    travel_text: str = ""
    jaws_text: str = "jaws, seen from the tailstock"
    dial_text: str = ""
    title: str = "Setting the offset with a dial gauge"
    description: str = ""

    def key(self) -> str:
        """The content itself: everything is plain."""
        return repr(self)


def dial_reading(diameter: float, throw: float, degrees: float) -> float:
    """Reading in mm of a dial gauge on the round, 0 where jaw 1 is uppermost, after a turn of `degrees`.

    The gauge points at the axis, so it reads how far the surface stands out on one fixed line through the axis:
    ρ(θ) = √(r² − e² sin²θ) − e cos θ, less ρ(0) = r − e.  0 ≤ throw < radius.
    """
    r, a = diameter / 2, math.radians(degrees)
    return math.sqrt(r * r - (throw * math.sin(a)) ** 2) - throw * math.cos(a) - (r - throw)


def draw_offset_setting(spec: OffsetSetting) -> Drawing:
    """Jaws and dial side by side, 170 mm wide."""
    default = (
        f"Round work of diameter {spec.diameter:g} set {spec.throw:g} below the axis; the dial moves over "
        f"{2 * spec.throw:g} in one turn and is at its ends when jaws 1 and 3 are uppermost."
    )
    return compose_offset_setting(spec).drawing(spec.title, spec.description or default)


def compose_offset_setting(spec: OffsetSetting) -> Sheet:
    """The sheet of `draw_offset_setting` before it becomes a drawing."""
    if not 0 <= spec.throw < spec.diameter / 2:
        raise ValueError("the throw must be smaller than the radius of the gripped round")
    sheet = Sheet(170.0, 70.0)
    _jaws(sheet, spec, np.array([44.0, 41.0]))
    _dial(sheet, spec, np.array([98.0, 23.0]), 56.0, 28.0)
    return sheet


# ---------------------------------------------------------------------- jaws
def _jaws(sheet: Sheet, spec: OffsetSetting, c: Points) -> None:
    r = spec.diameter / 2
    k = scale_for(min(9.5 / r, 13.0 / (r + spec.throw)))
    body = _wavy(c)
    sheet.area(polygon(body), TINT, 1.0)
    sheet.lines([body], NARROW, 1.1, ink=False)
    pack = 1.3 if spec.packing else 0.0
    half = 0.62 * r * k
    for i, (dx, dy) in enumerate(JAWS):
        near = _contact(r * k, spec.throw * k, dx, dy, half=half) + pack
        _jaw(sheet, c, (dx, dy), near, half, str(i + 1))
        if pack:
            _strip(sheet, c, (dx, dy), near - pack, near, half)
    centre = c - (0.0, spec.throw * k)
    disc = circle(centre, r * k)
    sheet.area(disc, "paper", 3.5)
    sheet.hatch(disc, 45, 2.0, z=3.6)
    sheet.circle(centre, r * k, "wide", 4.0)
    x, y = float(c[0]), float(c[1])
    sheet.centre_line((x - BODY, y), (x + BODY, y), 2.5)
    sheet.centre_line((x, y - BODY), (x, y + BODY), 2.5)
    if spec.throw > 0:
        sheet.centre_line((x - BODY, centre[1]), (x + r * k, centre[1]), 2.5)
        x -= BODY + 4.5
        words = spec.throw_text or f"{spec.throw:g}"
        dim.linear(sheet, (x, centre[1]), (x, c[1]), x, words, "y", extension=False)
    spot = centre + 0.55 * r * k * np.array([0.8, -0.6])
    elbow = (c[0] + BODY + 5, c[1] - 0.72 * BODY)
    dim.leader(sheet, spot, elbow, spec.diameter_text or f"Ø{spec.diameter:g}", dot=True)
    sheet.text(c[0], 5.0, spec.jaws_text)


def _wavy(c: Points) -> Points:
    t = np.linspace(0, 2 * np.pi, 181)
    r = BODY + 0.3 * np.sin(13 * t) + 0.25 * np.sin(19 * t + 1) + 0.15 * np.sin(31 * t)
    return c + np.c_[r * np.cos(t), r * np.sin(t)]


def _contact(r: float, throw: float, dx: float, dy: float, half: float) -> float:
    """Distance from the axis at which the flat nose of a jaw, `half` wide to each side, meets the work."""
    if dy:
        return r - dy * throw
    return r if throw <= half else math.sqrt(max(r * r - (throw - half) ** 2, 0.0))


def _jaw(sheet: Sheet, c: Points, direction: tuple[float, float], near: float, half: float, number: str) -> None:
    d = np.array(direction)
    n = np.array([-d[1], d[0]])
    far, wide = BODY - 1.5, max(half * 1.5, 5.0)
    shoulder = min(near + (wide - half) * 1.2, far - 2)
    p = [
        d * near + n * half,
        d * shoulder + n * wide,
        d * (far - 2) + n * wide,
        d * far + n * wide * 0.8,
        d * far - n * wide * 0.8,
        d * (far - 2) - n * wide,
        d * shoulder - n * wide,
        d * near - n * half,
    ]
    shape = polygon(c + np.array(p))
    sheet.area(shape, JAW, 2.0)
    sheet.outline(shape, "narrow", 2.1, ink=False)
    beside = np.array([1.0, 0.0]) if d[1] else np.array([0.0, 1.0])
    x, y = c + d * (far - 3.2) + beside * wide * 0.52
    sheet.text(x, y, number, level="middle")


def _strip(sheet: Sheet, c: Points, direction: tuple[float, float], low: float, high: float, half: float) -> None:
    d = np.array(direction)
    n = np.array([-d[1], d[0]]) * half * 1.05
    sheet.area(polygon(c + np.array([d * low + n, d * high + n, d * high - n, d * low - n])), INK, 2.6)


# ---------------------------------------------------------------------- dial
def _dial(sheet: Sheet, spec: OffsetSetting, corner: Points, width: float, height: float) -> None:
    top = 2 * spec.throw or 1.0
    step = _step(top)
    values = np.arange(0, top + 1e-9, step)
    for v in values:
        y = corner[1] + v / top * height
        sheet.lines([[(corner[0], y), (corner[0] + width, y)]], FINE, 2.0)
        if top - v > 0.55 * step or v == values[-1]:
            sheet.text(corner[0] - 1.5, y, f"{v:g}", align="right", level="middle")
    for i in range(5):
        x = corner[0] + i * width / 4
        sheet.lines([[(x, corner[1]), (x, corner[1] + height)]], FINE, 2.0)
        sheet.text(x, corner[1] - 5.4, f"{90 * i}°")
    angles = np.linspace(0, 360, 73)
    readings = [dial_reading(spec.diameter, spec.throw, a) for a in angles]
    curve = np.c_[corner[0] + angles / 360 * width, corner[1] + np.array(readings) / top * height]
    sheet.lines([curve], WIDE, 4.0, ink=False)
    for i in range(4):
        p = point(curve[18 * i])
        sheet.circle(p, 0.8, "narrow", 5.0, fill="paper", ink=False)
        dim.balloon(sheet, (p[0], corner[1] + height + 5.5), str(i + 1), 2.4)
    x = corner[0] + width + 7
    words = spec.travel_text or f"{2 * spec.throw:g} = 2 × {spec.throw:g}"
    dim.linear(sheet, (corner[0] + width, corner[1]), (corner[0] + width, corner[1] + height), x, words, "y")
    what = spec.dial_text or f"reading on Ø{spec.diameter:g}; in the circles the jaw uppermost"
    rows = lettering.wrap(what, 78.0)
    sheet.text(corner[0] + width / 2, 5.0 + (len(rows) - 1) * lettering.HEIGHT * lettering.LEADING, "\n".join(rows))


def _step(top: float) -> float:
    """The smallest round step that divides the height into six at most: the readings stand clear of each other."""
    power = 10 ** math.floor(math.log10(top / 6))
    return next(power * f for f in (1, 2, 5, 10) if top <= 6.001 * power * f)
