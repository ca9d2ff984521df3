"""How do two pieces become one, or one piece two: pressed, pinned, shrunk, brazed, sawn?  Before and after."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import SCALES, scale_for, scale_words
from methodfigures.paper.palette import INK, PAPER, TINT, TOOL
from methodfigures.paper.shapes import Points, polygon
from methodfigures.paper.sheet import TALLEST, Layer, Sheet
from methodfigures.setups.joint_bench import Bench, comes_through, placed, press_ram, support
from methodfigures.setups.standing import free_leader, piece, swatch
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.pictorial import draw_pictorial
from methodfigures.solids.views import Place, ViewBook, basis, centred, draw_cut, draw_look, extent, pictorial_basis
from methodfigures.specs import Spec

KINDS: Final = ("press", "pin", "shrink", "braze", "retain", "screw", "weld")
Vector = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Joint(Spec):
    """Two pieces that become one.  `fixed` and `moving` = their solids in the joined position; the moving one goes in
    along `into` (direction in the work); `right` = direction in the work that runs to the right on the paper; `axis` =
    a point of the work in the plane of the section; `travel` mm by which it is drawn out before.

    `kind` one of `KINDS`.  `uncut` = the solids that are not cut lengthwise: "moving", "fixed" or "".
    `apart` = the moving solids as they go in, in the joined position, where joining changes their shape: a rivet with
    one head.  `seams` = points of the work at which filler (brazing, weld) or compound shows.
    Texts: `fixed_name`, `moving_name`, `force_text` (beside the arrow), `depth_text` over `depth` = (from, to)
    distances along `into` from `axis`, `notes` = lines below, `before_text`, `after_text`, `support_name`.
    """

    fixed: tuple[Mesh, ...]
    moving: tuple[Mesh, ...]
    kind: str
    into: Vector = (0.0, 0.0, 1.0)
    right: Vector = (1.0, 0.0, 0.0)
    axis: Vector = (0.0, 0.0, 0.0)
    travel: float = 0.0
    uncut: str = "moving"
    apart: tuple[Mesh, ...] = ()
    seams: tuple[Vector, ...] = ()
    fixed_name: str = ""
    moving_name: str = ""
    support_name: str = ""
    force_text: str = ""
    depth: tuple[float, float] = (0.0, 0.0)
    depth_text: str = ""
    notes: tuple[str, ...] = ()
    before_text: str = "before"
    after_text: str = "after"
    title: str = "Joining"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_joint(spec: Joint, book: ViewBook | None = None) -> Drawing:
    """Section before, section after, pictorial of the joined pieces; 170 mm wide."""
    words = (
        spec.description
        or f"{spec.moving_name} and {spec.fixed_name} before and after: {spec.kind}. {spec.force_text}. "
        f"{spec.depth_text}. "
        + " ".join(spec.notes)
    )
    return compose_joint(spec, book or ViewBook()).drawing(spec.title, words)


def compose_joint(spec: Joint, book: ViewBook) -> Sheet:
    """The sheet of `draw_joint` before it becomes a drawing."""
    view = basis(spec.right, tuple(-v for v in spec.into))
    zero = view[:2] @ np.asarray(spec.axis, float)
    low, high = extent(view, [*spec.fixed, *spec.moving])
    travel = spec.travel or 0.45 * float(high[1] - low[1])
    wide, tall = (float(v) for v in high - low)
    largest = scale_for(min(38.0 / wide, 74.0 / (tall + travel), 4.0))
    for k in (step for step in SCALES if step <= largest):
        sheet = _joint_at(spec, book, view, zero, travel, k)
        if sheet.height <= TALLEST:
            break
    return sheet


def _joint_at(spec: Joint, book: ViewBook, view: Floats, zero: Points, travel: float, k: float) -> Sheet:
    """The sheet at one scale."""
    low, high = extent(view, [*spec.fixed, *spec.moving])
    low_fixed, high_fixed = extent(view, spec.fixed)
    foot = 12.0 + 4.6 * len(spec.notes) if spec.notes else 1.5
    stand = max(6.0, float(low_fixed[1] - low[1]) * k + 5.0)
    bench = Bench(
        spec=spec,
        book=book,
        view=view,
        scale=k,
        floor=foot + 7.0,
        low=float(low_fixed[1]),
        high=float(high[1]),
        wide=float(high_fixed[0] - low_fixed[0]) * k,
        aside=(float(low_fixed[0] + high_fixed[0]) / 2 - float(zero[0])) * k,
    )
    base = bench.floor + stand
    tube = comes_through(bench) and spec.kind == "press"
    over = float(high[1] - extent(view, spec.moving)[1][1]) * k if tube else 0.0
    sheet = Sheet(170.0, base + (float(high[1] - low_fixed[1]) + travel) * k + 24.0 + over)
    if sheet.height > TALLEST and k > SCALES[-1]:
        return sheet  # it is drawn smaller
    for x, lift in ((36.0, travel), (94.0, 0.0)):
        _stage(sheet, bench, np.array([x, base]), lift, zero)
    _words(sheet, bench, base, travel, zero)
    _pictorial(sheet, bench, sheet.height)
    for i, words in enumerate(spec.notes):
        sheet.text(3.0, foot - 10.0 - 4.6 * i, words, align="left")
    sheet.text(168.0, 1.2, scale_words(k), align="right")
    return sheet


def _stage(sheet: Sheet, bench: Bench, at: Points, lift: float, zero: Points) -> None:
    """One of the two sections: support, fixed piece, moving piece `lift` mm up, tool."""
    spec, book = bench.spec, bench.book
    depth = float(bench.view[2] @ np.asarray(spec.axis, float))
    down, up = placed(bench, at, 0.0, zero), placed(bench, at, lift, zero)
    if lift or not spec.apart:  # a rivet is closed in a dolly: nothing stands under its head
        support(sheet, bench, at)
    for name, solids, place, angles, z in (
        ("fixed", spec.fixed, down, (45.0, 30.0, 60.0), 3.0),
        ("moving", (spec.apart if lift else ()) or spec.moving, up, (-45.0,), 3.3),
    ):
        if spec.uncut == name:
            draw_look(sheet, book.look(solids, bench.view), place, z=z + 0.1)
        else:
            draw_cut(sheet, book.cut(solids, bench.view, depth), place, angles=angles, pitches=(1.8,), z=z)
    top = float(up.points(extent(bench.view, spec.moving)[1])[1])
    sheet.centre_line((at[0], bench.floor + 1), (at[0], top), 2.5)
    if spec.kind in ("press", "pin", "shrink", "retain", "screw"):
        press_ram(sheet, bench, float(at[0]), top, press=spec.kind == "press", arrow=lift > 0)
    if not lift:
        for seam in spec.seams:
            _filler(sheet, down.spot(seam), float(at[0]))
        if spec.kind in ("braze", "weld"):
            _torch(sheet, down.spot(spec.seams[0]) if spec.seams else at)


def _filler(sheet: Sheet, spot: Points, axis_x: float) -> None:
    """A fillet of filler at a seam."""
    x, y = float(spot[0]), float(spot[1])
    way = 1.0 if x >= axis_x else -1.0
    sheet.area(polygon([(x, y), (x + 1.8 * way, y), (x, y + 1.8)]), INK, 6.0)


def _torch(sheet: Sheet, spot: Points) -> None:
    """Nozzle and flame pointing at the seam from the left."""
    tip = spot + np.array([-7.0, 3.5])
    d = (spot - tip) / float(np.hypot(*(spot - tip)))
    n = np.array([-d[1], d[0]])
    nozzle = polygon([tip + n * 1.0, tip - n * 1.0, tip - d * 9 - n * 1.6, tip - d * 9 + n * 1.6])
    sheet.area(nozzle, TOOL, 7.0)
    sheet.outline(nozzle, "narrow", 7.1, ink=False)
    flame = polygon([tip + n * 0.8, tip + d * 2.5 + n * 1.5, tip + d * 6.6, tip + d * 2.5 - n * 1.5, tip - n * 0.8])
    sheet.area(flame, PAPER, 7.0)
    sheet.outline(flame, "narrow", 7.1, ink=False)


def _words(sheet: Sheet, bench: Bench, base: float, travel: float, zero: Points) -> None:
    """Names of the pieces, captions, depth of the seat."""
    spec = bench.spec
    for x, words in ((36.0, spec.before_text), (94.0, spec.after_text)):
        sheet.text(x, bench.floor - 5.5, words)
    at = np.array([36.0, base])
    up, down = placed(bench, at, travel, zero), placed(bench, at, 0.0, zero)
    cover = bench.book.silhouette(spec.moving, bench.view)
    seat = bench.book.silhouette(spec.fixed, bench.view)
    for shape, place, words, share in ((cover, up, spec.moving_name, 0.7), (seat, down, spec.fixed_name, 0.5)):
        if words:
            b = place.shape(shape).bounds
            y = b[1] + share * (b[3] - b[1])
            bare = place.shape(shape)
            if place is down and not bare.difference(up.shape(cover)).is_empty:
                bare = bare.difference(up.shape(cover))  # the dot lies on what is seen of it
            spot = _inside(bare, y, right=True)
            elbows = [(max(b[2], spot[0]) + d, y + e, True) for d in (3.0, 5.0) for e in (4.0, 1.0, -3.0, 8.0)]
            free_leader(sheet, spot, elbows, words, dot=True)
    if spec.support_name:
        spot = (94.0 + bench.wide / 2 + 1.5, (bench.floor + base) / 2)
        free_leader(
            sheet, spot, [(spot[0] + 5, spot[1] - d, True) for d in (3.0, 0.0, 6.0)], spec.support_name, dot=True
        )
    if spec.depth_text and spec.depth[1] > spec.depth[0]:
        here = placed(bench, np.array([94.0, base]), 0.0, zero)
        top, low = (float(here.spot(np.asarray(spec.axis) + np.asarray(spec.into) * s)[1]) for s in spec.depth)
        x = 94.0 - max(bench.wide / 2, 6.0)
        dim.linear(sheet, (x, low), (x, top), x - 6.0, spec.depth_text, "y")


def _inside(shape: BaseGeometry, y: float, *, right: bool) -> tuple[float, float]:
    """A spot inside a shape at the height y, near its right side."""
    b = shape.bounds
    cut = shape.intersection(shapely.LineString([(b[0] - 1, y), (b[2] + 1, y)]))
    if cut.is_empty:
        p = shape.representative_point()
        return p.x, p.y
    last = max(getattr(cut, "geoms", [cut]), key=lambda g: g.bounds[2]).bounds
    return last[0] + 0.72 * (last[2] - last[0]), y


def _pictorial(sheet: Sheet, bench: Bench, high: float) -> None:
    """The joined pieces at the right."""
    spec = bench.spec
    scene = [*spec.fixed, *spec.moving]
    view = pictorial_basis(spec.right, tuple(-v for v in spec.into), -32.0, 24.0)
    a, b = extent(view, scene)
    k = float(min(38.0 / (b - a)[0], (high - bench.floor - 26) / (b - a)[1], 1.2 * bench.scale))
    place = centred(view, k, (145.0, (bench.floor + high - 12) / 2), scene)
    draw_pictorial(sheet, bench.book, scene, (), place, wide=0.35)


# ---------------------------------------------------------------------- saw
@dataclass(frozen=True, eq=False)
class SawCut(Spec):
    """Sawing bar or plate: `before`, and what the saw leaves, `after`; `removed` = the kerf.  `along` = direction in
    the work that runs to the right on the paper, `up` upwards; the cut is at `at` mm along it from `start`, the kerf
    `kerf` mm wide; the work is gripped between `grip` (from, to).  Texts: `length_text`, `kept_name`, `saw_name`,
    `vice_name`, `removed_text`, `notes`.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    at: float
    start: float = 0.0
    kerf: float = 1.5
    grip: tuple[float, float] = (0.0, 0.0)
    along: Vector = (0.0, 0.0, 1.0)
    up: Vector = (1.0, 0.0, 0.0)
    length_text: str = ""
    kept_name: str = ""
    saw_name: str = "saw blade"
    vice_name: str = "vice"
    removed_text: str = ""
    notes: tuple[str, ...] = ()
    title: str = "Sawing"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_saw_cut(spec: SawCut, book: ViewBook | None = None) -> Drawing:
    """Elevation with the blade in the kerf and the vice, 170 mm wide."""
    words = (
        spec.description
        or f"The work is sawn {spec.length_text or spec.number(spec.at)} from its end. " + " ".join(spec.notes)
    )
    return compose_saw_cut(spec, book or ViewBook()).drawing(spec.title, words)


def compose_saw_cut(spec: SawCut, book: ViewBook) -> Sheet:
    """The sheet of `draw_saw_cut` before it becomes a drawing."""
    view = basis(spec.along, spec.up)
    low, high = extent(view, spec.before)
    foot = 12.0 + 4.6 * len(spec.notes) + (6.0 if spec.removed_text else 0.0)
    base = foot + 9.0
    room = min(40.0, TALLEST - base - 38.0)
    k = scale_for(min(120.0 / (high - low)[0], room / (high - low)[1], 4.0))
    tall = float((high - low)[1]) * k
    sheet = Sheet(170.0, base + tall + 38.0)
    place = Place(view, k, np.array([(170.0 - (high - low)[0] * k) / 2, base]) - low * k)
    _saw_vice(sheet, spec, place, float(low[0]), base, tall)
    draw_look(sheet, book.look(spec.after, view), place, z=3.0)
    sheet.removed(place.shape(book.silhouette(spec.removed, view)), 4.4, pitch=0.9)
    x = float(place.points((low[0] + spec.at - spec.start, 0))[0])
    _blade(sheet, spec, x, base, tall, k)
    left = float(place.points(low)[0])
    ends, words = ((left, base + tall), (x, base + tall)), spec.length_text or spec.number(spec.at)
    dim.linear(sheet, *ends, base + tall + 7.0, words, side=-1)  # the feed stands to the right
    _saw_names(sheet, spec, (left, x), base, tall, foot)
    sheet.text(168.0, 1.2, scale_words(k), align="right")
    return sheet


def _saw_vice(sheet: Sheet, spec: SawCut, place: Place, low: float, base: float, tall: float) -> None:
    a, b = (float(place.points((low + s - spec.start, 0))[0]) for s in spec.grip)
    if b - a > 1:
        piece(sheet, shapely.box(a, base - 30, b, base + 0.62 * tall), (0, base - 6, 999, 999), TINT, z=5.5)


def _blade(sheet: Sheet, spec: SawCut, x: float, base: float, tall: float, k: float) -> None:
    """Blade from above in the kerf, teeth down, and its stroke."""
    wide = max(spec.kerf * k, 1.0)
    y = base + 0.35 * tall
    blade = shapely.box(x, y, x + wide, base + tall + 17.0)
    piece(sheet, blade, (0, 0, 999, base + tall + 13.0), TOOL, z=Layer.TOOL)
    dim.block_arrow(sheet, (x + wide + 5.0, base + tall + 20.0), (x + wide + 5.0, base + tall + 9.5))
    sheet.text(x + wide + 8.5, base + tall + 13.0, spec.words("feed", "feed"), align="left")


def _saw_names(sheet: Sheet, spec: SawCut, ends: tuple[float, float], base: float, tall: float, foot: float) -> None:
    left, x = ends
    top = base + tall
    free_leader(
        sheet,
        (x + 0.6, top + 11.0),
        [(x - 5.0, top + 16.0, False), (x - 5.0, top + 20.0, False), (x + 8, top + 25, True)],
        spec.saw_name,
        dot=True,
    )
    if spec.kept_name:
        free_leader(
            sheet,
            (left + 0.35 * (x - left), base + 0.8 * tall),
            [
                (left - 5.0, top + 2.0, False),  # beside the length, which lies over the work
                (left + 0.2 * (x - left), base - 9.0, False),
                (left + 0.2 * (x - left), top + 13.0, False),
                (left + 0.2 * (x - left), top + 13.0, True),
                (left + 4, top + 18, True),
            ],
            spec.kept_name,
            dot=True,
        )
    jaw = [g for g in (spec.grip,) if g[1] > g[0]]
    if jaw and spec.vice_name:
        share = ((jaw[0][0] + jaw[0][1]) / 2 - spec.start) / max(spec.at - spec.start, 1e-9)
        spot = (left + share * (x - left), base - 3.0)
        free_leader(sheet, spot, [(spot[0] + d, base - 8.5, d > 0) for d in (5.0, -5.0)], spec.vice_name, dot=True)
    y = foot - 10.0
    if spec.removed_text:
        swatch(sheet, 4.0 + (lettering.width(spec.removed_text) + 8) / 2, y, spec.removed_text)
        y -= 6.0
    for i, words in enumerate(spec.notes):
        sheet.text(3.0, y - 4.6 * i, words, align="left")
