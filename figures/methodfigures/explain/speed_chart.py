"""Which spindle speed goes with a diameter and a cutting speed on this machine?  And which feed with a cut?

Both scales are logarithmic, so lines of equal cutting speed are straight and parallel.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.explain.axes import Field, log_steps
from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import TINT
from methodfigures.paper.sheet import NARROW, WIDE, Layer, Sheet
from methodfigures.specs import Spec


@dataclass(frozen=True, eq=False)
class SpeedChart(Spec):
    """Speed chart of one machine.

    `speeds` = cutting speeds of the lines in m/min (feet per minute when `units` is "in"; diameters are inches then);
    `diameters` = (least, greatest); `steps` = spindle speeds of the machine in 1/min; `range` = (least, greatest) of
    a machine without steps.  `speed_names` = words beside some lines, by cutting speed (materials …).
    `example` = (diameter, cutting speed) worked out, with `example_text` beside it and `example_step` the speed taken.
    Words: `across`, `up`, `steps_text` over the steps, `unit_text` of the first line.
    """

    speeds: tuple[float, ...]
    diameters: tuple[float, float]
    steps: tuple[float, ...] = ()
    range: tuple[float, float] | None = None
    speed_names: Mapping[float, str] = field(default_factory=dict)
    example: tuple[float, float] | None = None
    example_step: float = 0.0
    example_text: str = ""
    across: str = "diameter, mm"
    up: str = "spindle speed, 1/min"
    steps_text: str = "steps of\nthe machine"
    unit_text: str = "m/min"
    title: str = "Spindle speeds"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)

    def turns(self, speed: float, diameter: float) -> float:
        """Spindle speed in 1/min: n = 1000 v / (π d), or 12 v / (π d) in feet and inches."""
        return (12.0 if self.units == "in" else 1000.0) * speed / (math.pi * diameter)

    @property
    def limits(self) -> tuple[float, float]:
        """Least and greatest spindle speed of the scale."""
        known = self.range or (min(self.steps), max(self.steps)) if self.steps or self.range else None
        d0, d1 = self.diameters
        low, high = known or (self.turns(min(self.speeds), d1), self.turns(max(self.speeds), d0))
        return low / 1.35, high * 1.25


def draw_speed_chart(spec: SpeedChart) -> Drawing:
    """A chart to pin on the wall, 170 mm wide."""
    return compose_speed_chart(spec).drawing(spec.title, spec.description or describe(spec))


def compose_speed_chart(spec: SpeedChart) -> Sheet:
    """The sheet of `draw_speed_chart` before it becomes a drawing."""
    sheet = Sheet(170.0, 160.0)
    f = Field(
        left=22.0,
        low=18.0,
        width=122.0,
        height=132.0,
        across=spec.diameters,
        up=spec.limits,
        log_across=True,
        log_up=True,
    )
    f.grid(sheet, log_steps(*spec.diameters), log_steps(*spec.limits))
    f.titles(sheet, spec.across, spec.up)
    _machine(sheet, spec, f)
    for v in spec.speeds:
        _speed_line(sheet, spec, f, v)
    if spec.example:
        _example(sheet, spec, f)
    return sheet


def _machine(sheet: Sheet, spec: SpeedChart, f: Field) -> None:
    """Steps of the machine as heavy lines, or its range as a field."""
    last = -99.0
    for s in sorted(spec.steps):
        y = f.y(s)
        sheet.lines([[(f.left, y), (f.right + 2.5, y)]], WIDE, 4.0, cap="butt")
        if y - last > 3.2:
            sheet.text(f.right + 4, y, f"{s:g}", align="left", level="middle", weight="bold")
            last = y
    if spec.range and not spec.steps:
        for s in spec.range:
            y = f.y(s)
            sheet.lines([[(f.left, y), (f.right + 2.5, y)]], WIDE, 4.0, cap="butt")
            sheet.text(f.right + 4, y, f"{s:g}", align="left", level="middle", weight="bold")
    if spec.steps or spec.range:
        sheet.text(f.right + 4, f.top + 3.6, spec.steps_text, 2.2, align="left")


def _speed_line(sheet: Sheet, spec: SpeedChart, f: Field, v: float) -> None:
    """One line of equal cutting speed, its label where it is farthest from any heavy line."""
    (d0, d1), (n0, n1) = spec.diameters, spec.limits
    k = spec.turns(v, 1.0)
    a, b = max(d0, k / n1), min(d1, k / n0)
    if b <= a:
        return
    ends = [(f.x(a), f.y(k / a)), (f.x(b), f.y(k / b))]
    sheet.lines([ends], NARROW, 4.5, ink=False)
    slope = math.degrees(math.atan2(ends[1][1] - ends[0][1], ends[1][0] - ends[0][0]))
    words = spec.speed_names.get(v, f"{v:g}" + (f" {spec.unit_text}" if v == min(spec.speeds) else ""))
    heavy = [f.y(s) for s in (*spec.steps, *(spec.range or ()))] + [f.top, f.low]
    w = lettering.width(words, 2.2)
    reach = math.hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1])
    if reach < w + 8:
        return
    taken = [t.outline.buffer(1.0) for t in sheet.register.texts]
    spots = np.linspace((w / 2 + 4) / reach, min(0.75, 1 - (w / 2 + 4) / reach), 60)

    def worth(t: float) -> tuple[int, float]:
        x, y = (ends[0][i] + t * (ends[1][i] - ends[0][i]) for i in (0, 1))
        half = abs(math.sin(math.radians(slope))) * w / 2 + 1.6
        near = min(abs(y - h) for h in heavy)
        hit = any(o.distance(shapely.Point(x, y)) < w / 2 + 1 for o in taken)
        return int(near > half) - 2 * int(hit), -t if near > half else near

    t = max(spots, key=worth)
    x, y = (ends[0][i] + t * (ends[1][i] - ends[0][i]) for i in (0, 1))
    sheet.text(x, y, words, 2.2, level="middle", turn=slope, mask=True)


def _example(sheet: Sheet, spec: SpeedChart, f: Field) -> None:
    """From the diameter up to the cutting speed, on to the step that is taken, and out to the right."""
    assert spec.example is not None
    d, v = spec.example
    n = spec.turns(v, d)
    s = spec.example_step or max([t for t in spec.steps if t <= n * 1.001], default=n)
    x, y, ys = f.x(d), f.y(n), f.y(s)
    sheet.lines([[(x, f.low), (x, y)]], 0.7, 6.0, ink=False)
    sheet.lines([[(x, ys), (f.right, ys)]], 0.9, 6.0, ink=False)
    dim.head(sheet, (f.right, ys), (1, 0), 3.4)
    sheet.circle((x, y), 1.0, "narrow", 8.2, fill="paper", ink=False)
    sheet.circle((x, ys), 1.0, None, 8.3, fill="ink")
    if spec.example_text:
        _example_words(sheet, spec, f, (x, y))


def _example_words(sheet: Sheet, spec: SpeedChart, f: Field, spot: tuple[float, float]) -> None:
    """The worked example in words, where no heavy line or label is."""
    words = spec.example_text
    w, rows = lettering.width(words), words.count("\n")
    tall = lettering.HEIGHT * (1 + rows * lettering.LEADING)
    heavy = [f.y(s) for s in (*spec.steps, *(spec.range or ()))]
    taken = [t.outline for t in sheet.register.texts]
    best, worth = (f.left + 6.0, f.low + 8.0), (99.0, 999.0)
    for ex in np.arange(f.left + 4, f.right - w - 4, 3.0):
        for ey in np.arange(f.low + 4, f.top - tall - 4, 1.5):
            box = shapely.box(ex - 1, ey, ex + w + 1, ey + tall + 1.5)
            bad = sum(ey - 0.6 < h < ey + tall + 2.2 for h in heavy) + sum(box.intersects(t) for t in taken)
            bad += 3 * (ex - 2 < spot[0] < ex + w + 2)
            end = ex + w if spot[0] > ex + w else ex
            found = (float(bad), math.hypot(end - spot[0], ey - spot[1]))
            if found < worth and (spot[0] > ex + w + 3 or spot[0] < ex - 3):
                best, worth = (float(ex), float(ey)), found
    ex, ey = best
    right = spot[0] < ex
    elbow = (ex, ey) if right else (ex + w + 1, ey)
    away = np.array(elbow) - spot
    tip = np.array(spot) + away / np.hypot(*away) * 1.0
    dim.leader(sheet, tip, elbow, words, right=right, mask=True)


def describe(spec: SpeedChart) -> str:
    """What the chart shows, in words."""
    out = (
        f"Lines of equal cutting speed, {', '.join(f'{v:g}' for v in spec.speeds)} {spec.unit_text}, over diameters "
        f"from {spec.diameters[0]:g} to {spec.diameters[1]:g}."
    )
    if spec.steps:
        out += " The machine's spindle speeds are " + ", ".join(f"{s:g}" for s in spec.steps) + " per minute."
    elif spec.range:
        out += f" The machine runs from {spec.range[0]:g} to {spec.range[1]:g} per minute."
    return out + (f" Example: {spec.example_text}.".replace("\n", " ") if spec.example_text else "")


# ---------------------------------------------------------------------- feeds
@dataclass(frozen=True, eq=False)
class FeedChart(Spec):
    """Feeds of one machine for the wall: `rows` = (what is cut, least feed, greatest feed in `unit_text`), drawn as
    bars over a logarithmic scale, the machine's own feeds (`steps`) as upright lines; `notes` right of some rows, by
    what is cut.
    """

    rows: tuple[tuple[str, float, float], ...]
    steps: tuple[float, ...] = ()
    notes: Mapping[str, str] = field(default_factory=dict)
    across: str = "feed, mm per revolution"
    steps_text: str = "feeds of the machine"
    title: str = "Feeds"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_feed_chart(spec: FeedChart) -> Drawing:
    """A chart to pin on the wall, 170 mm wide, as high as it has rows."""
    said = (f"{name}: {a:g} to {b:g}" + _in_brackets(spec.notes.get(name)) for name, a, b in spec.rows)
    return compose_feed_chart(spec).drawing(spec.title, spec.description or "; ".join(said) + f". {spec.across}.")


def _in_brackets(words: str | None) -> str:
    return f" ({words})" if words else ""


def compose_feed_chart(spec: FeedChart) -> Sheet:
    """The sheet of `draw_feed_chart` before it becomes a drawing."""
    step = 8.0
    left = max(lettering.width(r[0]) for r in spec.rows) + 6.0
    tall = step * len(spec.rows) + 2
    sheet = Sheet(170.0, 18.0 + tall + 11.0)
    low = min([r[1] for r in spec.rows] + list(spec.steps)) / 1.15
    high = max([r[2] for r in spec.rows] + list(spec.steps)) * 1.15
    beside = max((lettering.width(words, 2.2) for words in spec.notes.values()), default=-2.0) + 3.0
    f = Field(
        left=left,
        low=18.0,
        width=165.0 - left - beside,
        height=tall,
        across=(low, high),
        up=(0.0, 1.0),
        log_across=True,
    )
    f.grid(sheet, log_steps(low, high), [])
    sheet.text(left + f.width / 2, 4.0, spec.across)
    last = -99.0
    for s in spec.steps:
        sheet.lines([[(f.x(s), f.low), (f.x(s), f.top + 2)]], WIDE, 4.0, cap="butt")
        words = f"{s:g}"
        if f.x(s) - lettering.width(words, 2.2, "bold") / 2 > last + 1:
            sheet.text(f.x(s), f.top + 3, words, 2.2, weight="bold")
            last = f.x(s) + lettering.width(words, 2.2, "bold") / 2
    if spec.steps:
        sheet.text(left - 2, f.top + 3, lettering.shortened(spec.steps_text, left - 4, 1, 2.2)[0], 2.2, align="right")
    for i, (name, a, b) in enumerate(spec.rows):
        y = f.top - 1 - step * (i + 0.5)
        sheet.text(left - 2.5, y, name, align="right", level="middle")
        bar = shapely.box(f.x(a), y - 2.2, f.x(b), y + 2.2)
        sheet.area(bar, TINT, 2.0)
        sheet.hatch(bar, 45, 1.6, z=2.1)
        sheet.outline(bar, "narrow", Layer.EDGE, ink=False)
        if name in spec.notes:
            sheet.text(f.right + 3.0, y, spec.notes[name], 2.2, align="left", level="middle")
    return sheet
