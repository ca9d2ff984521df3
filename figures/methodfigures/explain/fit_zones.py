"""Which tolerance zones make a fit, and between which clearances does it lie?  Drawn to scale over the zero line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import shapely

from methodfigures.explain.axes import even_steps
from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import PAPER, TINT
from methodfigures.paper.shapes import strings
from methodfigures.paper.sheet import FINE, NARROW, WIDE, Layer, Sheet
from methodfigures.specs import Spec

CELL = 82.0
TALL = 62.0


@dataclass(frozen=True)
class Zone:
    """A tolerance zone: `name` ("H7"), deviations from the nominal size in the figure's unit, `text` under the figure
    ("hole H7   16.000 to 16.018").
    """

    name: str
    low: float
    high: float
    text: str = ""


@dataclass(frozen=True)
class Fit:
    """One fit: `name` ("Ø16 H7/p6"), its `hole` and `shaft`, what comes of it in words ("interference 0 to 29")."""

    name: str
    hole: Zone
    shaft: Zone
    text: str = ""

    @property
    def clearance(self) -> tuple[float, float]:
        """(least, greatest) clearance; negative = interference."""
        return self.hole.low - self.shaft.high, self.hole.high - self.shaft.low


@dataclass(frozen=True, eq=False)
class FitZones(Spec):
    """Tolerance zones of one to four fits, two in a row, all at one scale.

    Deviations in `unit_text` (micrometres; ten-thousandths of an inch …).  `zero_text` = word at the zero line.
    """

    fits: tuple[Fit, ...]
    unit_text: str = "micrometres"
    zero_text: str = "zero line"
    interference_text: str = "interference"
    clearance_text: str = "clearance"
    title: str = "Fit"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def deviation(value: float) -> str:
    """A deviation as it is written: "+18", "−6", "0"."""
    return "0" if value == 0 else f"{value:+g}".replace("-", "−")


def draw_fit_zones(spec: FitZones) -> Drawing:
    """Zones of the fits and, below, all of them on one scale of clearance; 170 mm wide."""
    return compose_fit_zones(spec).drawing(spec.title, spec.description or describe(spec))


def describe(spec: FitZones) -> str:
    """What the figure shows, in words."""
    out = []
    for fit in spec.fits:
        low, high = fit.clearance
        zones = ", ".join(f"{z.name} {deviation(z.low)} to {deviation(z.high)}" for z in (fit.hole, fit.shaft))
        out.append(
            f"{fit.name}: {zones} {spec.unit_text}; {spec.clearance_text} {deviation(low)} to {deviation(high)}, "
            f"negative is {spec.interference_text}."
        )
    return " ".join(out)


def compose_fit_zones(spec: FitZones) -> Sheet:
    """The sheet of `draw_fit_zones` before it becomes a drawing."""
    zones = [z for f in spec.fits for z in (f.hole, f.shaft)]
    low, high = min(0.0, *(z.low for z in zones)), max(0.0, *(z.high for z in zones))
    u = TALL / (high - low)
    rows = -(-len(spec.fits) // 2)
    cell = TALL + 38.0
    foot = 20.0 + 5.6 * len(spec.fits)
    sheet = Sheet(170.0, foot + rows * cell)
    single = len(spec.fits) == 1
    for i, fit in enumerate(spec.fits):
        x = 8.0 + (44.0 if single else CELL * (i % 2))
        base = foot + (rows - 1 - i // 2) * cell
        _fit(sheet, spec, fit, x, base + 21.0 - low * u, u)
        sheet.text(x + 35, base + 21.0 + TALL + 8.0, fit.name, lettering.LARGE)
    _ranges(sheet, spec)
    return sheet


def _fit(sheet: Sheet, spec: FitZones, fit: Fit, x: float, y0: float, u: float) -> None:
    """One fit: `x` = left end of the zero line, `y0` its height, `u` = paper mm per unit."""
    first = len(sheet.register.texts)
    zone(sheet, x + 3, 17, y0, u, fit.hole, shaft=False)
    zone(sheet, x + 24, 17, y0, u, fit.shaft, shaft=True)
    _gap(sheet, fit.hole.low, fit.shaft.high, x, x + 54, y0, u)
    _gap(sheet, fit.hole.high, fit.shaft.low, x, x + 66, y0, u)
    lowest = min(y0, *(y0 + z.low * u - 4 for z in (fit.hole, fit.shaft)))
    rows = [t for t in (fit.text, fit.hole.text, fit.shaft.text) if t]
    for i, words in enumerate(rows):
        sheet.text(x + 35, lowest - 7.5 - 4.6 * i, words)
    _zero_line(sheet, spec, x, y0, first)


def zone(sheet: Sheet, x: float, wide: float, y0: float, u: float, z: Zone, *, shaft: bool) -> None:
    """One zone with its name and deviations; holes and shafts are hatched in opposite directions."""
    shape = shapely.box(x, y0 + z.low * u, x + wide, y0 + z.high * u)
    sheet.area(shape, PAPER, 3.0)
    sheet.hatch(shape, -45 if shaft else 45, 1.5 if shaft else 2.2, FINE, 3.2)
    sheet.outline(shape, "wide", 4.0, width=0.4)
    if (z.high - z.low) * u > lettering.LARGE + 2.2:
        sheet.text(x + wide / 2, y0 + (z.low + z.high) / 2 * u, z.name, lettering.LARGE, level="middle", mask=True)
        above = deviation(z.high)
    else:
        above = f"{z.name}  {deviation(z.high)}"
    sheet.text(x + wide / 2, y0 + z.high * u + 1.1, above, mask=True)
    sheet.text(x + wide / 2, y0 + z.low * u - 3.7, deviation(z.low), mask=True)


def _gap(sheet: Sheet, hole: float, shaft: float, x: float, at: float, y0: float, u: float) -> None:
    """Clearance or interference between an edge of the hole's zone and one of the shaft's."""
    for v, start in ((hole, x + 20), (shaft, x + 41)):
        sheet.lines([[(start + 0.8, y0 + v * u), (at + 1.6, y0 + v * u)]], NARROW, 2.5)
    words = f"{abs(hole - shaft):g}"
    low, high = y0 + min(hole, shaft) * u, y0 + max(hole, shaft) * u
    if high - low < 0.3:
        sheet.lines([[(at, low - 6), (at, low + 6)]], NARROW, Layer.DIMENSION)
        dim.head(sheet, (at, low), (0, -1))
        dim.head(sheet, (at, low), (0, 1))
        sheet.text(at - 0.9, low + 5.0, words, turn=90, mask=True)
        return
    middle = (high - low) / 2
    if low < y0 < high and abs((low + high) / 2 - y0) < 4:
        middle = (y0 + high) / 2 - low if high - y0 > y0 - low else (low + y0) / 2 - low
    dim.linear(
        sheet, (at, low), (at, high), at, words, "y", extension=False, text_at=middle if high - low > 9 else None
    )


def _zero_line(sheet: Sheet, spec: FitZones, x: float, y0: float, first: int) -> None:
    """The heavy zero line, open where a deviation is written across it."""
    line = shapely.LineString([(x, y0), (x + 70, y0)])
    texts = [t.outline.buffer(0.5, cap_style="square", join_style="mitre") for t in sheet.register.texts[first:]]
    sheet.lines(strings(line.difference(shapely.union_all(texts))), WIDE, 2.2, cap="butt")
    w = lettering.width(spec.zero_text)
    for at, y in ((x + 70 - w / 2, y0 - 3.2), (x + 70 - w / 2, y0 + 1.2), (x + 47.5, y0 - 3.2)):
        box = shapely.box(at - w / 2, y - 0.5, at + w / 2, y + 2.0)
        lines = [shapely.LineString(i.line) for i in sheet.register.inks]
        if not any(box.intersects(t) for t in texts) and not any(box.intersects(g) for g in lines):
            sheet.text(at, y, spec.zero_text)
            return


def _ranges(sheet: Sheet, spec: FitZones) -> None:
    """All fits as bars on one scale: interference to the left, clearance to the right."""
    low = min(0.0, *(f.clearance[0] for f in spec.fits))
    high = max(0.0, *(f.clearance[1] for f in spec.fits))
    steps = even_steps(low * 1.1, high * 1.1 + 1e-9, 8)
    left = lettering.width(spec.interference_text) + 8
    right = 170 - lettering.width(spec.clearance_text) - 8
    a, b = min(low * 1.1, steps[0]), max(high * 1.1, steps[-1])

    def at(v: float) -> float:
        return left + (v - a) / (b - a) * (right - left)

    y = 12.0
    sheet.lines([[(left, y), (right, y)]], NARROW, 3.0)
    for v in steps:
        sheet.lines([[(at(v), y - 1.2), (at(v), y + 1.2)]], NARROW, 3.0)
        sheet.text(at(v), y - 4.8, f"{abs(v):g}", 2.2)
    if low < 0:
        sheet.text(left - 1.5, y - 1, spec.interference_text, align="right")
    if high > 0:
        sheet.text(right + 1.5, y - 1, spec.clearance_text, align="left")
    for i, fit in enumerate(spec.fits):
        p, q = fit.clearance
        bar = shapely.box(at(p), y + 3 + 5.6 * i, max(at(q), at(p) + 0.6), y + 7.4 + 5.6 * i)
        sheet.area(bar, TINT, 3.0)
        sheet.outline(bar, "narrow", 4.0, ink=False)
        wide = lettering.width(fit.name, 2.2)
        inside = at(q) - at(p) > wide + 2
        x = (at(p) + at(q)) / 2 if inside else at(q) + 1.5 if at(q) + wide + 2 < right + 20 else at(p) - 1.5
        align = "centre" if inside else "left" if x > at(q) else "right"
        sheet.text(x, y + 5.2 + 5.6 * i, fit.name, 2.2, level="middle", align=align)
    sheet.text((left + right) / 2, 1.6, spec.unit_text, 2.2)
