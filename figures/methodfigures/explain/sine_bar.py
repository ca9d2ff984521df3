"""How high is a sine bar packed for an angle?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import JAW, PAPER, TINT
from methodfigures.paper.shapes import Points, polygon
from methodfigures.paper.sheet import FINE, NARROW, Layer, Sheet
from methodfigures.setups.standing import direction, piece
from methodfigures.specs import Spec


@dataclass(frozen=True, eq=False)
class SineBar(Spec):
    """Sine bar of `length` between its rollers, one packed up by `stack` mm, at `angle` degrees; a taper of included
    angle lies on it when `taper` = (large, small, length) mm is given.  Texts: `length_text`, `stack_text`,
    `angle_text`, `note`, `stack_name`, `bar_name`, `plate_name`, `gauge_text` at the dial gauge.
    """

    length: float
    stack: float
    angle: float
    taper: tuple[float, float, float] | None = None
    length_text: str = ""
    stack_text: str = ""
    angle_text: str = ""
    note: str = ""
    stack_name: str = "slip gauges"
    bar_name: str = "sine bar"
    plate_name: str = "surface plate"
    gauge_text: str = ""
    title: str = "Sine bar"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_sine_bar(spec: SineBar) -> Drawing:
    """Sine bar on the surface plate with its packing, 170 mm wide."""
    words = (
        spec.description
        or f"Sine bar {spec.length_text} between the rollers, {spec.stack_text} under one of them, stands at "
        f"{spec.angle_text}. {spec.note}"
    )
    return compose_sine_bar(spec).drawing(spec.title, words)


def compose_sine_bar(spec: SineBar) -> Sheet:
    """The sheet of `draw_sine_bar` before it becomes a drawing."""
    k = 78.0 / spec.length
    a = math.asin(min(spec.stack / spec.length, 0.98))
    deg, r, thick = math.degrees(a), 4.2, 7.5
    rise = spec.stack * k
    floor, left = 22.0 + (6 if spec.note else 0), 34.0
    p = np.array([left, floor + r])
    b = p + 78.0 * np.array([math.cos(a), math.sin(a)])
    taper = spec.taper[0] * k if spec.taper else 0.0
    sheet = Sheet(170.0, floor + rise + r + thick + taper + 26.0)
    piece(sheet, shapely.box(6, floor - 20, 164, floor), (10, floor - 8, 160, floor), TINT, z=1.0)
    q, n = direction(deg), direction(deg + 90)
    bar = polygon(
        [p - q * 7 + n * r * 0.35, b + q * 7 + n * r * 0.35, b + q * 7 + n * (r + thick), p - q * 7 + n * (r + thick)]
    )
    sheet.area(bar, PAPER, 3.0)
    sheet.outline(bar, "wide", 5.0)
    for c in (p, b):
        sheet.circle(c, r, "wide", 5.4, fill=PAPER)
        sheet.centre_mark(c, r, 1.0, deg)
    if rise > 0.4:
        x0, x1 = b[0] - 6.0, b[0] + 6.0
        piece(sheet, shapely.box(x0, floor, x1, b[1] - r), hatch=None, fill=JAW, z=2.0)
        for i in range(1, 3):
            y = floor + (b[1] - r - floor) * (0.62 if i == 1 else 0.86)
            sheet.lines([[(x0, y), (x1, y)]], FINE, 2.2, ink=False)
    _sine_words(sheet, spec, p, b, (deg, r, thick, floor))
    if spec.taper:
        _on_bar(sheet, spec, p + n * (r + thick) + q * 8, k, deg)
    return sheet


def _sine_words(sheet: Sheet, spec: SineBar, p: Points, b: Points, sizes: tuple[float, float, float, float]) -> None:
    deg, r, thick, floor = sizes
    q, n = direction(deg), direction(deg + 90)
    x = b[0] + 17.0
    if b[1] - r - floor > 0.4:
        dim.linear(sheet, (b[0] + 6, floor), (b[0] + 6, b[1] - r), x, spec.stack_text or spec.number(spec.stack), "y")
        dim.leader(
            sheet,
            (b[0] + 3, floor + 0.4 * (b[1] - r - floor)),
            (b[0] + 24, floor + 0.5 * (b[1] - r - floor) + 1),
            spec.stack_name,
            dot=True,
        )
    off = -(r + 5.0) * n  # dimension between the rollers, along the bar, below it
    sheet.lines([[p + off, b + off]], NARROW, Layer.DIMENSION)
    for c, way in ((p, -q), (b, q)):
        dim.head(sheet, c + off, way)
        sheet.lines([[c - n * (r + 0.6), c + off * 1.15]], NARROW, Layer.DIMENSION)
    m = p + 0.68 * (b - p) + off + n * 0.9
    sheet.text(m[0], m[1], spec.length_text or spec.number(spec.length), turn=deg, mask=True)
    angle = spec.angle_text or f"{deg:.4g}°"
    if deg > 12:
        dim.angular(sheet, p, 30.0, 0.0, deg, angle, text_at=0.45 * deg)
        sheet.lines([[(p[0] + r + 1, p[1]), (p[0] + 33, p[1])]], NARROW, Layer.DIMENSION)
    else:  # too flat for an arc: at the upper face
        t = b + n * (r + thick) - q * 14
        dim.leader(sheet, t, (t[0] + 6.0, t[1] + 7.0), angle)
    sheet.text(12.0, floor - 6.5, spec.plate_name, align="left", mask=True)
    dim.leader(
        sheet,
        p + q * 14 + n * (r + thick * 0.5),
        (p[0] - 4.0, p[1] + thick + r + 9.0),
        spec.bar_name,
        dot=True,
        right=False,
    )
    if spec.note:
        sheet.text(85.0, 3.5, spec.note)


def _on_bar(sheet: Sheet, spec: SineBar, corner: Points, k: float, deg: float) -> None:
    """A tapered plug on the bar: its lower flank lies on it, so that the upper flank is level."""
    assert spec.taper is not None
    big, small, long = (v * k for v in spec.taper)
    long = min(long, 58.0)
    half = math.degrees(math.atan2((big - small) / 2, long))
    q, n = direction(deg - half), direction(deg - half + 90)
    foot = corner + direction(deg) * 2
    # large end nearer the low roller, axis at deg − half
    a = foot
    c = a + q * long
    low0, low1 = a, c + n * (big - small) / 2
    up0, up1 = a + n * big, c + n * (big + small) / 2
    body = polygon([low0, low1, up1, up0])
    sheet.area(body, PAPER, 3.2)
    sheet.outline(body, "wide", 5.2)
    m0, m1 = (low0 + up0) / 2, (low1 + up1) / 2
    sheet.centre_line(m0, m1, 2.5)
    if spec.gauge_text:
        _gauge(sheet, (up0 + up1) / 2, spec.gauge_text)


def _gauge(sheet: Sheet, spot: Points, words: str) -> None:
    """A dial gauge that stands on `spot`."""
    x, y = float(spot[0]), float(spot[1])
    sheet.lines([[(x, y + 0.8), (x, y + 7.0)]], NARROW, 6.0)
    sheet.circle((x, y + 0.8), 0.8, "narrow", 6.1, fill=PAPER, ink=False)
    sheet.circle((x, y + 11.5), 4.5, "narrow", 6.1, fill=PAPER)
    sheet.lines([[(x, y + 11.5), (x + 2.2, y + 14.2)]], NARROW, 6.2)
    sheet.text(x + 6.5, y + 10.2, words, align="left")
