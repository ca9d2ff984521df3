"""Where do the holes of a pitch circle lie, and how is a rim divided?  Diagrams with coordinates."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.shapes import Points, arc, circle
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.setups.lists import draw_list
from methodfigures.setups.standing import direction, free_leader, free_number, free_text
from methodfigures.specs import Spec


@dataclass(frozen=True, eq=False)
class PitchCircle(Spec):
    """Holes of `diameter` on a circle of `radius` mm at `angles` in degrees, anticlockwise from the right.

    `outer` = diameter of the part, 0 = none; `columns` and `rows` = list beside the circle (number, angle, x, y …) as
    they are to be written; `radius_text`, `hole_text`, `angle_text` (between the first two holes), `zero_text` = names
    of the datum (0, 0).
    """

    radius: float
    diameter: float
    angles: tuple[float, ...]
    columns: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    outer: float = 0.0
    radius_text: str = ""
    hole_text: str = ""
    angle_text: str = ""
    title: str = "Pitch circle"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_pitch_circle(spec: PitchCircle) -> Drawing:
    """Circle with numbered holes and axes, and the list of coordinates; 170 mm wide."""
    listed = "; ".join(", ".join(r) for r in spec.rows[:60])
    words = (
        spec.description
        or f"{spec.hole_text} on radius {spec.radius_text or spec.number(spec.radius)}. "
        f"{', '.join(spec.columns)}: {listed}."
    )
    return compose_pitch_circle(spec).drawing(spec.title, words)


def compose_pitch_circle(spec: PitchCircle) -> Sheet:
    """The sheet of `draw_pitch_circle` before it becomes a drawing."""
    rows = [spec.columns, *spec.rows] if spec.columns else list(spec.rows)
    few = len(rows) <= 19
    blocks = 1 if few else 3
    tall = 0.0 if few else (-(-len(spec.rows) // blocks) + 1) * 5.0 + 8.0
    sheet = Sheet(170.0, 104.0 + tall)
    c = np.array([52.0, 52.0 + tall])
    k = 33.0 / max(spec.radius, (spec.outer or 0.0) / 2 * 0.92)
    _circle(sheet, spec, c, k)
    if rows and few:
        draw_list(sheet, rows, 106.0, 167.0, c[1] + len(rows) * 2.5, heading=bool(spec.columns))
    elif rows:
        _blocks(sheet, spec, blocks, tall)
    return sheet


def _blocks(sheet: Sheet, spec: PitchCircle, blocks: int, tall: float) -> None:
    size = -(-len(spec.rows) // blocks)
    head = [spec.columns] if spec.columns else []
    wide = 164.0 / blocks
    for i in range(blocks):
        part = list(spec.rows[i * size : (i + 1) * size])
        if part:
            draw_list(sheet, [*head, *part], 3 + i * wide, i * wide + wide - 1, tall - 3.0, heading=bool(head))


def _circle(sheet: Sheet, spec: PitchCircle, c: Points, k: float) -> None:
    big, r = spec.radius * k, max(spec.diameter / 2 * k, 0.5)
    if spec.outer:
        sheet.circle(c, spec.outer / 2 * k, "wide", 4.0)
    reach = max(big + r, spec.outer / 2 * k)
    for axis, name in (((1, 0), "x"), ((0, 1), "y")):
        a = np.array(axis, float)
        sheet.centre_line(c - a * (reach + 2), c + a * (reach + 4), 0)
        dim.head(sheet, c + a * (reach + 6.0), a, 2.6)
        x, y = c + a * (reach + 9.0)
        sheet.text(float(x), float(y), name, level="middle")
    sheet.outline(circle(c, big), "centre", 5.0, ink=False)
    for angle in spec.angles:
        q = direction(angle)
        sheet.circle(c + q * big, r, "wide", 5.2)
        sheet.centre_line(c + q * (big - r), c + q * (big + r), 1.2)
    _angle(sheet, spec, c, big, r)
    if spec.radius_text or spec.radius:
        _radius(sheet, spec, c, big)
    close = 2 * math.pi * big / max(len(spec.angles), 1) < 6.5
    for i, angle in enumerate(spec.angles):
        if not close or i % 5 == 0:
            free_number(sheet, c + direction(angle) * big, r + 0.5, str(i + 1), first=angle + 180, weight="bold")
    if spec.hole_text:
        last = c + direction(spec.angles[len(spec.angles) // 3]) * big
        away = direction(spec.angles[len(spec.angles) // 3])
        elbows = [
            (c[0] + x, c[1] + s * (reach + d), right)
            for d in (4.0, 7.0)
            for s in (1, -1)
            for x, right in ((4.0, True), (-4.0, False), (14.0, True), (-14.0, False), (24.0, True))
        ]
        elbows.sort(key=lambda e: math.hypot(e[0] - last[0], e[1] - last[1]))
        free_leader(sheet, last + away * r, elbows, spec.hole_text)


def _radius(sheet: Sheet, spec: PitchCircle, c: Points, big: float) -> None:
    """Radius of the circle, in the widest gap between the holes."""
    a = sorted(x % 360 for x in spec.angles)
    gaps = [((b - p) % 360 or 360.0, p) for p, b in zip(a, a[1:] + a[:1], strict=True)] or [(360.0, 0.0)]
    wide = [g for g in gaps if abs(((g[1] + g[0] / 2) % 90) - 45) < 44] or gaps
    gap, start = max(wide, key=lambda g: (round(g[0], 3), -abs(((g[1] + g[0] / 2) % 360) - 150)))
    q = direction(start + gap / 2)
    sheet.lines([[c, c + q * big]], NARROW, Layer.DIMENSION)
    dim.head(sheet, c + q * big, q)
    words = spec.radius_text or f"R{spec.number(spec.radius)}"
    n = np.array([-q[1], q[0]])
    spots = []
    for t in (0.55, 0.4, 0.7, 0.3):
        for s in (1, -1):
            x, y = c + q * big * t + n * s * (2.2 + abs(n[0]) * lettering.width(words) / 2)
            spots.append((float(x), float(y) - 1.25, "centre"))
    free_text(sheet, spots, words)


def _angle(sheet: Sheet, spec: PitchCircle, c: Points, big: float, r: float) -> None:
    """Angle between the first two holes."""
    if len(spec.angles) < 2 or not spec.angle_text:
        return
    a, b = spec.angles[0], spec.angles[1]
    radius = 0.62 * big
    for v in (a, b):
        q = direction(v)
        sheet.lines([[c + q * 0.2 * radius, c + q * (big - r - 1.2)]], NARROW, Layer.DIMENSION)
    p = arc(c, radius, a, b)
    sheet.lines([p], NARROW, Layer.DIMENSION)
    dim.head(sheet, p[0], p[0] - p[1])
    dim.head(sheet, p[-1], p[-1] - p[-2])
    w = lettering.width(spec.angle_text)
    spots = []
    for share in (0.5, 0.35, 0.65, 1.3, -0.3):
        for s in (-1, 1):
            m = math.radians(a + (b - a) * share)
            reach = radius + s * (1.4 + abs(math.cos(m)) * w / 2 + abs(math.sin(m)) * 1.3)
            spots.append((c[0] + reach * math.cos(m), c[1] + reach * math.sin(m) - 1.25, "centre"))
    free_text(sheet, spots, spec.angle_text)


# ---------------------------------------------------------------------- graduation
@dataclass(frozen=True, eq=False)
class Graduation(Spec):
    """A rim of `diameter` divided into `count`: lines `short`, `fifth` and `tenth` long in mm, numbered by `numbers`
    (every `number_every` lines).  Texts: `pitch_text` (between two lines), `angle_text`, `short_text`, `fifth_text`,
    `tenth_text`, `rim_text`.
    """

    diameter: float
    count: int
    short: float
    fifth: float
    tenth: float
    numbers: tuple[str, ...] = ()
    number_every: int = 10
    width: float = 0.0
    pitch_text: str = ""
    angle_text: str = ""
    short_text: str = ""
    fifth_text: str = ""
    tenth_text: str = ""
    rim_text: str = ""
    title: str = "Graduation"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_graduation(spec: Graduation) -> Drawing:
    """A stretch of the rim laid flat, lines to scale; 170 mm wide."""
    words = (
        spec.description
        or f"A rim of {spec.rim_text} divided into {spec.count}, {spec.angle_text} apart, {spec.pitch_text} along "
        f"the rim; lines {spec.short_text}, each fifth {spec.fifth_text}, each tenth {spec.tenth_text} long."
    )
    return compose_graduation(spec).drawing(spec.title, words)


def compose_graduation(spec: Graduation) -> Sheet:
    """The sheet of `draw_graduation` before it becomes a drawing."""
    lines = min(spec.count, 21)
    pitch = math.pi * spec.diameter / spec.count
    tall = max(spec.width, 1.6 * spec.tenth)
    k = min(112.0 / (pitch * (lines - 1)), 26.0 / tall)
    x0 = 85.0 - pitch * (lines - 1) * k / 2
    low, top = 18.0, 18.0 + tall * k
    sheet = Sheet(170.0, top + 20.0)
    left, right = x0 - 0.8 * pitch * k - 2, x0 + pitch * k * (lines - 0.2) + 2
    for x in (left, right):
        sheet.break_line((x, low), (x, top), 0.6, 4.0)
    for y in (low, top):
        sheet.lines([[(left, y), (right, y)]], 0.5, 4.0)
    for i in range(lines):
        long = spec.tenth if i % 10 == 0 else spec.fifth if i % 5 == 0 else spec.short
        x = x0 + i * pitch * k
        sheet.lines([[(x, top), (x, top - long * k)]], 0.35, 5.0)
        if spec.numbers and i % spec.number_every == 0:
            j = i // spec.number_every
            sheet.text(x, top - spec.tenth * k - 4.4, spec.numbers[j % len(spec.numbers)])
    _graduation_dimensions(sheet, spec, x0, pitch * k, top, k, right)
    return sheet


def _graduation_dimensions(
    sheet: Sheet, spec: Graduation, x0: float, step: float, top: float, k: float, right: float
) -> None:
    words = "  ".join(
        t
        for t in (spec.pitch_text, f"({spec.angle_text})" if spec.angle_text and spec.pitch_text else spec.angle_text)
        if t
    )
    if words:
        dim.linear(sheet, (x0 + 11 * step, top), (x0 + 12 * step, top), top + 7.0, words)
    x = right + 6.0
    for long, text, at in (
        (spec.short, spec.short_text, 9),
        (spec.fifth, spec.fifth_text, 15),
        (spec.tenth, spec.tenth_text, 20),
    ):
        if text:
            side = -1
            dim.linear(sheet, (x0 + at * step, top - long * k), (right, top), x, text, "y", side=side)
            x += 7.5
    if spec.rim_text:
        sheet.text(x0, top + 8.0, spec.rim_text, align="left")
