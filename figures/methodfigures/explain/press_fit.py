"""What happens in a press fit: how deep is the overlap, what pressure stands in the joint, what stress in the hub?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import scale_for, scale_words
from methodfigures.paper.palette import PAPER, REMOVED
from methodfigures.paper.shapes import Points, arc, polygon
from methodfigures.paper.sheet import FINE, NARROW, Sheet
from methodfigures.specs import Spec


@dataclass(frozen=True, eq=False)
class PressFit(Spec):
    """A shaft (hollow: `bore`) pressed `length` mm deep into a hub of outside diameter `outer`; joint `diameter`.

    `interference` on the diameter in mm, `pressure` in the joint and tangential stresses of the hub in N/mm² (at the
    joint `hub_inside`, at the rim `hub_outside`).  Texts as they are to be written: `diameter_text`, `outer_text`,
    `length_text`, `interference_text`, `pressure_text`, `inside_text`, `outside_text`, `hub_name`, `shaft_name`,
    `force_text` beside the arrow F on the shaft's end; `rows` = lines of numbers below the section.
    """

    diameter: float
    outer: float
    length: float
    interference: float
    pressure: float
    hub_inside: float
    hub_outside: float
    bore: float = 0.0
    diameter_text: str = ""
    outer_text: str = ""
    length_text: str = ""
    interference_text: str = ""
    pressure_text: str = ""
    inside_text: str = ""
    outside_text: str = ""
    hub_name: str = "hub"
    shaft_name: str = "shaft"
    stress_name: str = "tangential stress in the hub"
    force_text: str = ""
    rows: tuple[str, ...] = ()
    title: str = "Press fit"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_press_fit(spec: PressFit) -> Drawing:
    """Lengthwise section with the pressure on the joint, end view with the stress across the hub's wall."""
    texts = [
        t
        for t in (
            spec.interference_text,
            spec.pressure_text,
            spec.inside_text,
            spec.outside_text,
            spec.force_text,
            *spec.rows,
        )
        if t
    ]
    words = (
        spec.description
        or f"{spec.shaft_name} of {spec.diameter_text} pressed into a {spec.hub_name}. " + ". ".join(texts) + "."
    )
    return compose_press_fit(spec).drawing(spec.title, words)


def compose_press_fit(spec: PressFit) -> Sheet:
    """The sheet of `draw_press_fit` before it becomes a drawing."""
    k = scale_for(min(46.0 / spec.outer, 40.0 / spec.length))
    half = spec.outer / 2 * k
    rows = (*((f"F: {spec.force_text}",) if spec.force_text else ()), *spec.rows)
    foot = 14.0 + 4.8 * len(rows)
    y = foot + 9.0 + half
    sheet = Sheet(170.0, y + half + 20.0)
    _section(sheet, spec, np.array([45.0, y]), k)
    words = spec.diameter_text or f"Ø{spec.number(spec.diameter)}"
    beside = 45.0 + spec.length * k / 2 + 11.0 + lettering.width(words) + 3.0 + half  # the leader's text ends before it
    _end(sheet, spec, np.array([min(max(114.0, beside), 121.0), y]), k)
    for i, words in enumerate(rows):
        sheet.text(8.0, foot - 9.0 - 4.8 * i, words, align="left")
    sheet.text(168.0, 1.2, scale_words(k), align="right")
    return sheet


def _section(sheet: Sheet, spec: PressFit, c: Points, k: float) -> None:
    """Shaft through the hub, cut along the axis; pressure as arrows on the joint."""
    w, r, big = spec.length * k / 2, spec.diameter / 2 * k, spec.outer / 2 * k
    x0, x1 = c[0] - w, c[0] + w
    for s in (1, -1):
        ring = shapely.box(x0, min(c[1] + s * r, c[1] + s * big), x1, max(c[1] + s * r, c[1] + s * big))
        sheet.area(ring, PAPER, 2.0)
        sheet.hatch(ring, 45, 2.0, z=2.2)
        sheet.outline(ring, "wide", 4.0)
    ends = (x0 - 9.0, x1 + 9.0)
    left = sheet.break_line((ends[0], c[1] - r), (ends[0], c[1] + r), 0.7, 4.1)
    right = sheet.break_line((ends[1], c[1] - r), (ends[1], c[1] + r), 0.7, 4.1)
    sheet.area(polygon(np.vstack([left, right[::-1]])), PAPER, 3.0)
    for s in (1, -1):
        sheet.lines([[(ends[0], c[1] + s * r), (ends[1], c[1] + s * r)]], 0.5, 4.1)
        if spec.bore > 0:
            b = spec.bore / 2 * k
            sheet.line([(ends[0], c[1] + s * b), (ends[1], c[1] + s * b)], "hidden", 4.0)
        _pressure(sheet, x0, x1, float(c[1]), s, r)
    sheet.centre_line((ends[0], c[1]), (ends[1], c[1]), 3)
    dim.linear(sheet, (x0, c[1] + big), (x1, c[1] + big), c[1] + big + 6, spec.length_text or spec.number(spec.length))
    dim.linear(
        sheet, (x0, c[1] - big), (x0, c[1] + big), x0 - 17, spec.outer_text or f"Ø{spec.number(spec.outer)}", "y"
    )
    tip = (x1 + 5.0, c[1] + r)
    dim.leader(sheet, tip, (x1 + 11.0, c[1] + r + 6.0), spec.diameter_text or f"Ø{spec.number(spec.diameter)}")
    shaft_y = c[1] - max(0.62 * big, r + 3, 6.5)
    hub_y = min(c[1] - big - 3.0, shaft_y - 4.8)
    dim.leader(sheet, (c[0] + 0.6 * w, c[1] - (r + big) / 2), (x1 + 11.0, hub_y), spec.hub_name, dot=True)
    dim.leader(sheet, (x1 + 4.0, c[1] - 0.55 * r), (x1 + 11.0, shaft_y), spec.shaft_name, dot=True)
    if spec.force_text:
        dim.block_arrow(sheet, (x1 + 19.0, c[1]), (x1 + 10.4, c[1]))
        sheet.text(x1 + 20.5, c[1], "F", align="left", level="middle")


def _pressure(sheet: Sheet, x0: float, x1: float, y: float, side: int, r: float) -> None:
    """Arrows of the pressure on one side of the joint."""
    n = max(4, round((x1 - x0) / 4.0))
    reach = min(5.0, 0.7 * r)
    for x in np.linspace(x0 + 1.2, x1 - 1.2, n):
        tip = y + side * (r - 0.4)
        sheet.lines([[(x, y + side * (r - reach)), (x, tip - side * 1.0)]], NARROW, 5.0, ink=False)
        dim.head(sheet, (x, tip), (0, side), 1.6, z=5.1)
    sheet.lines([[(x0 + 1.2, y + side * (r - reach)), (x1 - 1.2, y + side * (r - reach))]], FINE, 5.0, ink=False)


def _end(sheet: Sheet, spec: PressFit, c: Points, k: float) -> None:
    """End view: pressure all round the joint, tangential stress across the wall above."""
    r, big = spec.diameter / 2 * k, spec.outer / 2 * k
    wall = polygon(np.vstack([arc(c, big, 0, 360)])).difference(polygon(arc(c, r, 0, 360)))
    sheet.hatch(wall, 45, 2.0, z=2.2)
    for radius in (big, r):
        sheet.circle(c, radius, "wide", 4.0)
    if spec.bore > 0:
        sheet.circle(c, spec.bore / 2 * k, "wide", 4.0)
    sheet.area(shapely.Point(c).buffer(r), PAPER, 0.9)  # the seat, on which the pressure works
    reach = min(5.0, 0.6 * r)
    for a in np.arange(0, 360, 22.5):
        q = np.array([math.cos(math.radians(a)), math.sin(math.radians(a))])
        sheet.lines([[c + q * (r - reach), c + q * (r - 1.2)]], NARROW, 5.0, ink=False)
        dim.head(sheet, c + q * (r - 0.4), q, 1.6, z=5.1)
    sheet.centre_mark(c, big, 2.5)
    _stress(sheet, spec, c, r, big)
    words = spec.pressure_text
    if words:
        q = np.array([math.cos(math.radians(-33)), math.sin(math.radians(-33))])
        spot = c + q * (r - 0.5 * reach)
        dim.leader(sheet, spot, (c[0] + big + 3.0, c[1] - 0.72 * big), words, dot=True)
    if spec.interference_text:
        tip = c + r * np.array([math.cos(math.radians(238)), math.sin(math.radians(238))])
        dim.leader(sheet, tip, (tip[0] + 3.0, c[1] - big - 7.0), spec.interference_text, right=True)


def _stress(sheet: Sheet, spec: PressFit, c: Points, r: float, big: float) -> None:
    """Stress over the hub's wall, to the right of the vertical axis; a thick-walled tube."""
    peak = max(abs(spec.hub_inside), 1e-9)
    length = min(26.0, 160.0 - c[0] - 8.0)
    radii = np.linspace(r, big, 25)
    ratio = (radii / big) ** 2  # σ(r) = a + b / r², through both given values
    inv = 1 / ratio
    b = (spec.hub_inside - spec.hub_outside) / (inv[0] - 1.0) if inv[0] > 1 else 0.0
    values = spec.hub_outside + b * (inv - 1.0)
    curve = np.c_[c[0] + values / peak * length, c[1] + radii]
    shape = polygon(np.vstack([curve, [[c[0], c[1] + big], [c[0], c[1] + r]]]))
    sheet.area(shape, REMOVED, 4.6)
    sheet.lines([curve], 0.35, 5.2)
    sheet.lines(
        [
            [(c[0], c[1] + v), (c[0] + s / peak * length, c[1] + v)]
            for v, s in ((r, spec.hub_inside), (big, spec.hub_outside))
        ],
        NARROW,
        5.2,
    )
    for v, s, words, lift in (
        (r, spec.hub_inside, spec.inside_text, -1.2),
        (big, spec.hub_outside, spec.outside_text, 3.0),
    ):
        if words:
            x = max(c[0] + s / peak * length, c[0] + math.sqrt(max(big * big - (v + 1.5) ** 2, 0.0)))
            sheet.text(x + 1.5, c[1] + v + lift, words, align="left", mask=True)
    sheet.text(c[0], c[1] + big + 11.0, spec.stress_name)
