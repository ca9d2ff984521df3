"""Is the part in balance?  What hangs on what, and the vector sum of the cuts."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.explain.axes import even_steps, plain
from methodfigures.paper import dimensions as dim
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import scale_for
from methodfigures.paper.palette import PAPER, TINT, TOOL
from methodfigures.paper.shapes import Points, polygon
from methodfigures.paper.sheet import FINE, NARROW, Sheet
from methodfigures.setups.standing import direction, free_leader, free_text
from methodfigures.solids.mesh import Mesh
from methodfigures.solids.views import Place, ViewBook, basis, draw_look
from methodfigures.specs import Spec

Vector = tuple[float, float]


@dataclass(frozen=True)
class Balanced:
    """One state of the part: its `solids`, `mass` in g, unbalance `vector` (x, y) in g·mm in the frame of the figure
    (x to the right); texts: `mass_text`, `offset_text` at the centre of mass, `weight` in g on the rim with
    `weight_text`, `equation` and `caption` below.
    """

    solids: tuple[Mesh, ...]
    mass: float
    vector: Vector
    caption: str
    mass_text: str = ""
    offset_text: str = ""
    weight: float = 0.0
    weight_text: str = ""
    equation: str = ""


@dataclass(frozen=True)
class Cut:
    """What one cut takes away: `name` and its vector in g·mm (against the metal that goes)."""

    name: str
    vector: Vector


@dataclass(frozen=True, eq=False)
class StaticBalance(Spec):
    """Static balance on knife-edges.  `right`, `up` = directions in the work of the figure's x and y; `axis` = a point
    of the work on the axis; `bearing` = radius of the journal, `rim` = radius at which the weight hangs, in mm.
    `states` one or two; `cuts` between them; `start_text`, `left_text` at the first and the last vector; `notes`
    beside the vector sum.
    """

    states: tuple[Balanced, ...]
    right: tuple[float, float, float]
    up: tuple[float, float, float]
    bearing: float
    rim: float
    axis: tuple[float, float, float] = (0.0, 0.0, 0.0)
    cuts: tuple[Cut, ...] = ()
    rim_text: str = ""
    start_text: str = ""
    left_text: str = ""
    unit_text: str = "g·mm"
    notes: tuple[str, ...] = ()
    title: str = "Static balance"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_static_balance(spec: StaticBalance, book: ViewBook | None = None) -> Drawing:
    """The part on the knife-edges in each state, and the vectors head to tail; 170 mm wide."""
    out = [
        f"{s.caption}: mass {s.mass_text}, {s.offset_text}, {s.weight_text} at radius {spec.rim_text}."
        for s in spec.states
    ]
    out += [f"{c.name}: {math.hypot(*c.vector):.0f} {spec.unit_text}." for c in spec.cuts]
    words = spec.description or " ".join([*out, spec.left_text, *spec.notes])
    return compose_static_balance(spec, book or ViewBook()).drawing(spec.title, words)


def compose_static_balance(spec: StaticBalance, book: ViewBook) -> Sheet:
    """The sheet of `draw_static_balance` before it becomes a drawing."""
    view = basis(spec.right, spec.up)
    swing = max(
        float(np.hypot(*((m.vertices - spec.axis) @ view[:2].T).T).max()) for s in spec.states for m in s.solids
    )
    k = scale_for(min(22.0 / swing, 20.0 / spec.rim))
    low = _sum_height(spec)
    y = low + 30.0 + max(swing * k, spec.rim * k)
    sheet = Sheet(170.0, y + swing * k + 14.0)
    spots = [42.0, 122.0] if len(spec.states) > 1 else [85.0]
    for state, x in zip(spec.states, spots, strict=False):
        _state(sheet, spec, book, state, np.array([x, y]), k, swing, low)
    if spec.cuts:
        _vectors(sheet, spec, low)
    return sheet


def _state(
    sheet: Sheet, spec: StaticBalance, book: ViewBook, state: Balanced, c: Points, k: float, swing: float, low: float
) -> None:
    view = basis(spec.right, spec.up)
    place = Place(view, k, c - view[:2] @ np.asarray(spec.axis, float) * k)
    draw_look(sheet, book.look(state.solids, view), place, z=3.0)
    r, rim, reach = spec.bearing * k, spec.rim * k, max(swing, spec.rim) * k + 5
    bar = shapely.box(c[0] - reach, c[1] - r - 3.2, c[0] + reach, c[1] - r)
    sheet.area(bar, TINT, 5.6)
    sheet.outline(bar, "narrow", 5.7)
    sheet.centre_line((c[0] - swing * k, c[1]), (c[0] + swing * k, c[1]), 3)
    sheet.centre_line((c[0], c[1] - swing * k), (c[0], c[1] + swing * k), 4)
    at = c + np.array(state.vector) / max(state.mass, 1e-9) * k
    foot = low + 27.0
    if state.weight > 0:
        _weight(sheet, (c[0] - rim, c[1]), foot, state)
        words = spec.rim_text or spec.number(spec.rim)
        dim.linear(sheet, (c[0] - rim, c[1]), (c[0], c[1] + swing * k + 4), c[1] + swing * k + 7, words)
    dim.block_arrow(sheet, (at[0], at[1] - 1.8), (at[0], foot), width=1.0, size=3.6)
    sheet.text(at[0] + 3, foot - 1.5, state.mass_text, align="left", mask=True)
    dim.mass_mark(sheet, at, 1.5)
    if state.offset_text:
        elbows = [
            (c[0] + d, c[1] + e, True)
            for e in (0.75 * swing * k, 0.95 * swing * k, 1.1 * swing * k)
            for d in (swing * k * 0.85 + 3, swing * k + 4)
        ]
        tip = at + direction(40) * 1.6
        free_leader(sheet, tip, elbows, state.offset_text)
    sheet.text(c[0], low + 12.5, state.equation)
    sheet.text(c[0], low + 6.5, state.caption)


def _weight(sheet: Sheet, at: Vector, foot: float, state: Balanced) -> None:
    """A weight on a thread at the rim; its size says how heavy it is."""
    share = min(1.0, 0.45 + 0.55 * state.weight / max(0.1 * state.mass, 1e-9))
    x, y, w = at[0], foot - 0.5, 3.0 * share
    sheet.lines([[at, (x, y)]], NARROW, 6.5)
    shape = polygon([(x - w * 0.75, y), (x + w * 0.75, y), (x + w, y - 6.5 * share), (x - w, y - 6.5 * share)])
    sheet.area(shape, TOOL, 7.0)
    sheet.outline(shape, "narrow", 7.1)
    sheet.text(x - w - 1.5, y - 5.0, state.weight_text, align="right", mask=True)


# ---------------------------------------------------------------------- vector sum
def _polygon(spec: StaticBalance) -> tuple[Points, float]:
    """Corners of the vector polygon in g·mm, first the origin, and its scale on the paper."""
    p = [np.zeros(2), np.asarray(spec.states[0].vector, float)]
    for cut in spec.cuts:
        p.append(p[-1] + np.asarray(cut.vector, float))
    q = np.array(p)
    span = np.ptp(q, axis=0)
    return q, float(min(112.0 / max(span[0], 1e-9), 40.0 / max(span[1], 1e-9)))


def _sum_height(spec: StaticBalance) -> float:
    if not spec.cuts:
        return 0.0
    q, k = _polygon(spec)
    return float(np.ptp(q[:, 1])) * k + 36.0


def _vectors(sheet: Sheet, spec: StaticBalance, top: float) -> None:
    """The vectors head to tail; the first one is drawn lifted, so that the others can be read."""
    q, k = _polygon(spec)
    zero = np.array([14.0, 17.0]) - q.min(axis=0) * k
    p = q * k + zero
    along = p[1] - p[0]
    n = np.array([-along[1], along[0]]) / max(math.hypot(*along), 1e-9)
    n = n if n[1] > 0 else -n
    lift = n * 9.0
    dim.block_arrow(sheet, p[0] + lift, p[1] + lift, width=1.2, size=min(4.2, float(np.hypot(*along)) * 0.6))
    sheet.lines([[v - n * 1.5, v + n * 10.5] for v in (p[0], p[1])], FINE, 4.0)
    for a, b in itertools.pairwise(p[1:]):
        if math.dist(a, b) > 0.3:
            dim.block_arrow(sheet, a, b, width=0.8, size=min(3.4, 0.6 * math.dist(a, b)), fill=PAPER)
    if math.dist(p[0], p[-1]) > 0.6:
        dim.block_arrow(sheet, p[0], p[-1], width=1.2, size=min(3.6, 0.6 * math.dist(p[0], p[-1])))
    middle = (p[0] + p[1]) / 2 + lift
    free_text(sheet, [(middle[0], middle[1] + d, "centre") for d in (2.4, 4.0, -5.0)], spec.start_text)
    for cut, a, b in zip(spec.cuts, p[1:-1], p[2:], strict=True):
        free_text(sheet, _beside(a, b), cut.name)
    if spec.left_text:
        m = (p[0] + p[-1]) / 2
        free_text(
            sheet, [(m[0] - 4, m[1] - d, "left") for d in (5.5, 8.0)] + [(m[0] + 4, m[1] - 5.5, "left")], spec.left_text
        )
    _scale(sheet, spec, zero[0], k, float(np.abs(q).max()))
    for i, words in enumerate(spec.notes):
        sheet.text(167.0, top - 16.0 - 5.5 * i, words, align="right")


def _beside(a: Points, b: Points) -> list[tuple[float, float, str]]:
    """Spots for the name of a vector, near its middle."""
    out = []
    for t in (0.5, 0.62, 0.38):
        m = a + t * (b - a)
        level = abs(b[1] - a[1]) < 0.3 * abs(b[0] - a[0])
        if level:
            out += [(m[0], m[1] + 2.6, "centre"), (m[0], m[1] - 5.2, "centre")]
        out += [
            (m[0] + 3.0, m[1] - 3.5, "left"),
            (m[0] - 3.0, m[1] - 3.5, "right"),
            (m[0] + 3.0, m[1] + 1.0, "left"),
            (m[0] - 3.0, m[1] + 1.0, "right"),
            (m[0], m[1] + 6.0, "centre"),
            (m[0], m[1] - 8.5, "centre"),
        ]
    return [(float(x), float(y), s) for x, y, s in out]


def _scale(sheet: Sheet, spec: StaticBalance, x0: float, k: float, most: float) -> None:
    steps = even_steps(0.0, most, 7)
    y = 8.0
    sheet.lines([[(x0, y), (x0 + steps[-1] * k, y)]], NARROW, 5.0)
    for v in steps:
        sheet.lines([[(x0 + v * k, y), (x0 + v * k, y + 1.6)]], NARROW, 5.0)
        sheet.text(x0 + v * k, y - 4.4, plain(v), 2.2)
    sheet.text(x0 + steps[-1] * k + 6.0, y - 4.4, spec.unit_text, 2.2, align="left")
