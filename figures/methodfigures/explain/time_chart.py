"""From how many pieces on does a method pay?  And does a measured size drift towards its limits?"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely

from methodfigures.explain.axes import Field, even_steps, plain
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import spread
from methodfigures.paper.palette import TINT
from methodfigures.paper.shapes import dashes
from methodfigures.paper.sheet import NARROW, WIDE, Layer, Sheet
from methodfigures.setups.standing import free_leader
from methodfigures.specs import Spec

STYLES: Final = ("solid", "hidden", "centre", "phantom")
"""Lines of the methods in turn: told apart without colour."""


@dataclass(frozen=True)
class Way:
    """One method: `name`, minutes `once` for the batch and `each` per piece."""

    name: str
    once: float
    each: float

    def minutes(self, pieces: float) -> float:
        """Minutes for a batch."""
        return self.once + self.each * pieces


@dataclass(frozen=True, eq=False)
class TimeChart(Spec):
    """Time of two or more `ways` against the batch up to `most` pieces.  `breaks` = (pieces, words) of the points at
    which one way becomes quicker than another.
    """

    ways: tuple[Way, ...]
    most: float
    breaks: tuple[tuple[float, str], ...] = ()
    across: str = "pieces in the batch"
    up: str = "minutes for the batch"
    title: str = "Time against batch"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_time_chart(spec: TimeChart) -> Drawing:
    """Lines of the ways with their names at the right, break-even points marked; 170 mm wide."""
    words = spec.description or " ".join(
        [
            f"{w.name}: {plain(w.once)} minutes for the batch and {plain(round(w.each, 2))} for each piece."
            for w in spec.ways
        ]
        + [f"At {plain(round(n, 1))} pieces: {t}." for n, t in spec.breaks]
    ).replace("\n", " ")
    return compose_time_chart(spec).drawing(spec.title, words)


def compose_time_chart(spec: TimeChart) -> Sheet:
    """The sheet of `draw_time_chart` before it becomes a drawing."""
    names = max(lettering.width(w.name) for w in spec.ways)
    right = min(names + 8.0, 60.0)
    sheet = Sheet(170.0, 96.0)
    high = max(w.minutes(spec.most) for w in spec.ways) * 1.06
    f = Field(22.0, 18.0, 146.0 - right, 72.0, (0.0, spec.most), (0.0, high))
    f.grid(sheet, even_steps(0, spec.most, 10), even_steps(0, high, 8))
    f.titles(sheet, spec.across, spec.up)
    for way, style in zip(spec.ways, STYLES * 9, strict=False):
        line = f.curve((0, spec.most), (way.once, way.minutes(spec.most)))
        strokes = [line] if style == "solid" else dashes(line, style, 0.35)
        sheet.lines(strokes, WIDE, Layer.EDGE, cap="butt")
    _way_names(sheet, spec, f, right)
    for pieces, words in spec.breaks:
        _break_even(sheet, spec, f, pieces, words)
    return sheet


def _way_names(sheet: Sheet, spec: TimeChart, f: Field, right: float) -> None:
    """Names at the ends of the lines, spread so that they do not overlap."""
    order = sorted(spec.ways, key=lambda w: w.minutes(spec.most))
    rows = [lettering.wrap(w.name, right - 6) for w in order]
    tall = [3.0 + 4.0 * (len(r) - 1) + 1.6 for r in rows]
    ends = [f.y(w.minutes(spec.most)) for w in order]
    lows = spread([e - t / 2 for e, t in zip(ends, tall, strict=True)], tall, f.low - 2, f.top + 6)
    for end, low, t, words in zip(ends, lows, tall, rows, strict=True):
        sheet.lines([[(f.right, end), (f.right + 3.5, low + t / 2)]], NARROW, Layer.DIMENSION, ink=False)
        sheet.text(f.right + 4.5, low + t / 2, "\n".join(words), align="left", level="middle")


def _break_even(sheet: Sheet, spec: TimeChart, f: Field, pieces: float, words: str) -> None:
    """A ring where two lines cross, a line down to the scale, and words where there is room."""
    near = sorted(spec.ways, key=lambda w: w.minutes(pieces))
    values = [w.minutes(pieces) for w in near]
    gaps = [b - a for a, b in itertools.pairwise(values)]
    i = int(np.argmin(gaps)) if gaps else 0
    x, y = f.x(pieces), f.y(values[i])
    sheet.lines(dashes([(x, f.low), (x, y)], "hidden", 0.25), NARROW, 4.0, cap="butt", ink=False)
    sheet.circle((x, y), 1.1, "narrow", 8.0, fill="paper", ink=False)
    w, rows = lettering.width(words) + 4, words.count("\n")
    spots = [
        (x + sx * dx, y + dy, sx > 0)
        for dy in (9, -9, 15, -15, 22, -22, 30, 38, -30, 48)
        for dx in (6, 14, 24, 36)
        for sx in (1, -1)
    ]
    inside = [
        s
        for s in spots
        if f.low + 3 < s[1] < f.top - 5 - 4 * rows and (s[0] + w < f.right - 2 if s[2] else s[0] - w > f.left + 2)
    ]
    away = [(s, np.array(s[:2]) - (x, y)) for s in inside or spots]
    first = [s for s, _ in away]
    free_leader(sheet, (x, y), first, words)


# ---------------------------------------------------------------------- drift
@dataclass(frozen=True, eq=False)
class DriftChart(Spec):
    """A measured size of part after part: `sizes` in the order of making, `limits` (least, greatest), `nominal`.

    `labels` below some of the parts; `limit_texts` (least, greatest, nominal) as they are written; `trend` = draw the
    straight line of least squares; `trend_text` = what it says.
    """

    sizes: tuple[float, ...]
    limits: tuple[float, float]
    nominal: float
    labels: tuple[str, ...] = ()
    limit_texts: tuple[str, str, str] = ("", "", "")
    trend: bool = True
    trend_text: str = ""
    across: str = "parts in the order of making"
    title: str = "Drift of a size"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_drift_chart(spec: DriftChart) -> Drawing:
    """A small chart for records, 170 mm wide and low."""
    out = sum(not spec.limits[0] <= s <= spec.limits[1] for s in spec.sizes)
    words = (
        spec.description
        or (
            f"{len(spec.sizes)} measured sizes between the limits {plain(spec.limits[0])} and {plain(spec.limits[1])}; "
            f"the first {plain(spec.sizes[0])}, the last {plain(spec.sizes[-1])}; {out} outside the limits. "
            f"{spec.trend_text}"
        ).strip()
    )
    return compose_drift_chart(spec).drawing(spec.title, words)


def compose_drift_chart(spec: DriftChart) -> Sheet:
    """The sheet of `draw_drift_chart` before it becomes a drawing."""
    sheet = Sheet(170.0, 62.0 if spec.trend_text else 57.0)
    low, high = min(*spec.sizes, *spec.limits), max(*spec.sizes, *spec.limits)
    spare = 0.12 * (high - low)
    texts = [t or plain(v) for t, v in zip(spec.limit_texts, (*spec.limits, spec.nominal), strict=True)]
    right = max(lettering.width(t) for t in texts) + 6.0
    f = Field(6.0, 16.0, 164.0 - right, 38.0, (0.4, len(spec.sizes) + 0.6), (low - spare, high + spare))
    sheet.area(shapely.box(f.left, f.y(spec.limits[0]), f.right, f.y(spec.limits[1])), TINT, 1.0)
    _limits(sheet, spec, f, texts)
    n = np.arange(1, len(spec.sizes) + 1)
    labels = spec.labels or tuple(str(i) for i in n)
    last = -99.0
    for i, s, name in zip(n, spec.sizes, labels, strict=False):
        x, inside = f.x(float(i)), spec.limits[0] <= s <= spec.limits[1]
        sheet.circle((x, f.y(s)), 0.95, "narrow", 6.0, fill="ink" if inside else "paper", ink=False)
        if not inside:
            sheet.circle((x, f.y(s)), 1.9, "narrow", 5.9, ink=False)
        if x - lettering.width(name, 2.0) / 2 > last + 1.0:
            sheet.text(x, f.low - 4.0, name, 2.0)
            last = x + lettering.width(name, 2.0) / 2
    sheet.lines([f.curve([float(i) for i in n], spec.sizes)], NARROW, 4.0, ink=False)
    if spec.trend and len(n) > 2:
        slope, first = np.polyfit(n, spec.sizes, 1)
        line = f.curve((1.0, float(n[-1])), (first + slope, first + slope * n[-1]))
        sheet.lines(dashes(line, "hidden", 0.3), 0.35, 4.5, cap="butt", ink=False)
    sheet.text(f.left + f.width / 2, 4.0, spec.across)
    if spec.trend_text:
        sheet.text(f.left, f.top + 3.5, spec.trend_text, align="left")
    return sheet


def _limits(sheet: Sheet, spec: DriftChart, f: Field, texts: list[str]) -> None:
    """Limits as heavy lines, the nominal size as a centre line; their values at the right."""
    values = (*spec.limits, spec.nominal)
    for v in spec.limits:
        sheet.lines([[(f.left, f.y(v)), (f.right, f.y(v))]], WIDE, 3.0, cap="butt")
    order = sorted(range(3), key=lambda i: values[i])
    if spec.nominal in spec.limits or not f.up[0] < spec.nominal < f.up[1]:
        order = [i for i in order if i != 2]
    else:
        sheet.line([(f.left, f.y(spec.nominal)), (f.right, f.y(spec.nominal))], "centre", 2.5, ink=False)
    ys = [f.y(values[i]) for i in order]
    for i, y0, low in zip(order, ys, spread([y - 1.7 for y in ys], [3.4] * len(ys), f.low - 4, f.top + 6), strict=True):
        sheet.lines([[(f.right, y0), (f.right + 2.5, low + 1.7)]], NARROW, 3.0, ink=False)
        sheet.text(f.right + 3.2, low + 1.7, texts[i], align="left", level="middle")
