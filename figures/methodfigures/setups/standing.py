"""How does something that stands on a table get onto the paper: holders, tools, table, cutting planes, named faces?

Lengths s of parts run downwards here, radii r to the right.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np
import shapely
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath
from numpy.typing import ArrayLike
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import clash
from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.cropping import Window, cropped
from methodfigures.paper.palette import INK, PAPER, TINT
from methodfigures.paper.shapes import pairs, point, polygon, polygons, strings
from methodfigures.paper.sheet import FINE, NARROW, Layer, Sheet
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.views import Place
from methodtooling.fixtures import Part

ToPaper = Callable[[BaseGeometry], BaseGeometry]
OPEN: Window = (-999.0, -999.0, 999.0, 999.0)


# ---------------------------------------------------------------------- parts
def upright(x: float, y: float, k: float) -> ToPaper:
    """Parts in (s, r) to paper: s = 0, r = 0 at (x, y), s downwards, `k` paper mm per mm."""
    return lambda g: shapely.transform(g, lambda p: pairs(x + p[:, 1] * k, y - p[:, 0] * k))


def put_parts(sheet: Sheet, parts: Iterable[Part], paper: ToPaper, window: Window = OPEN) -> dict[str, BaseGeometry]:
    """Fill, hatch and outline parts, broken off at the window; what shows of each name."""
    shown: dict[str, list[BaseGeometry]] = {}
    for part in parts:
        wide = 0.35 if part.kind == "tool" else NARROW
        for piece in cropped(paper(part.polygon), window):
            sheet.area(piece.area, part.role, part.level)
            if part.hatch:
                sheet.hatch(piece.area, *part.hatch, FINE, part.level + 0.03)
            sheet.lines(piece.outline, wide, part.level + 0.06)
            sheet.lines(piece.breaks, NARROW, part.level + 0.06, ink=False)
            for line in part.detail:
                inner = paper(shapely.LineString(line)).intersection(piece.area)
                sheet.lines(strings(inner), FINE, part.level + 0.05, ink=False)
            shown.setdefault(part.name, []).append(piece.area)
    return {name: shapely.union_all(areas) for name, areas in shown.items()}


def piece(
    sheet: Sheet,
    shape: BaseGeometry,
    window: Window = OPEN,
    fill: str = PAPER,
    hatch: tuple[float, float] | None = None,
    z: float = Layer.HOLDER,
) -> BaseGeometry:
    """One part given on the paper; what shows of it."""
    shown = []
    for part in cropped(shape, window):
        sheet.area(part.area, fill, z)
        if hatch:
            sheet.hatch(part.area, *hatch, FINE, z + 0.03)
        sheet.lines(part.outline, NARROW, z + 0.06)
        sheet.lines(part.breaks, NARROW, z + 0.06, ink=False)
        shown.append(part.area)
    return shapely.union_all(shown)


def hexagon(centre: ArrayLike, across: float, turn: float = 0.0) -> shapely.Polygon:
    """Hexagon `across` flats, a corner at `turn` degrees."""
    t = np.radians(turn + 60.0 * np.arange(6))
    return polygon(point(centre) + across / math.sqrt(3) * np.c_[np.cos(t), np.sin(t)])


def direction(degrees: float) -> Floats:
    """Unit vector at an angle."""
    a = math.radians(degrees)
    return np.array([math.cos(a), math.sin(a)])


def signed(angle: float) -> float:
    """An angle from −180 to 180."""
    a = (angle + 180.0) % 360.0 - 180.0
    return 180.0 if a == -180.0 else a


# ---------------------------------------------------------------------- marks
def cutting_plane(sheet: Sheet, at: ArrayLike, up: int, look: int, letter: str = "A", *, beside: bool = False) -> None:
    """One end of a cutting plane (ISO 128-3, from memory): a thick stroke from `at` `up` (1) or down (-1), an arrow in
    the direction of sight (`look` 1 right, -1 left), its letter beyond it, or `beside` its tail where room is low.
    """
    p = point(at)
    e = p + np.array([0.0, (3.5 if beside else 5.0) * up])
    sheet.lines([[p, e]], 0.5, Layer.TOOL, cap="butt")
    sheet.lines([[e - np.array([6.5 * look, 0.0]), e]], NARROW, Layer.TOOL)
    dim.head(sheet, e, (look, 0), 3.0)
    x, y = e.tolist()
    near = (x - 8.7 * look, y - lettering.LARGE / 2)
    far = (x - 4.5 * look, y + (1.2 if up > 0 else -4.6))
    over = (x + 3.5 * look, y - lettering.LARGE / 2)
    level = [near, (near[0] - 3 * look, near[1]), over, (near[0] - 6 * look, near[1])]
    spots = [*level, far] if beside else [far, near]
    free_text(sheet, [(*spot, "centre") for spot in spots], letter, lettering.LARGE, mask=False)


def table_side(sheet: Sheet, x: float, y: float, radius: float, depth: float, *, ring: bool = False) -> None:
    """A table from the side, its face at y; `ring` = with the graduation of a rotary table."""
    shape = shapely.box(x - radius, y - 2 * depth, x + radius, y)
    piece(sheet, shape, (x - radius - 1, y - depth, x + radius + 1, y + 1), TINT, z=1.0)
    if ring:
        at = [x - radius * math.cos(math.radians(a)) for a in range(5, 180, 5)]
        sheet.lines([[(v, y - 0.2), (v, y - 2.2)] for v in at], FINE, 1.2, ink=False)


def swatch(sheet: Sheet, x: float, y: float, words: str, height: float = lettering.HEIGHT) -> None:
    """Key to the removed metal: a small field of it and `words`, the whole centred at x."""
    w = lettering.width(words, height)
    left = x - (w + 8) / 2
    sheet.removed(shapely.box(left, y - 0.4, left + 6, y + height + 0.3), Layer.REMOVED)
    sheet.text(left + 8, y, words, height, align="left")


# ---------------------------------------------------------------------- free lettering
def box_of(
    x: float, y: float, words: str, height: float, align: str = "centre", weight: str = "normal"
) -> shapely.Polygon:
    """The room of one line of lettering on the base line y."""
    w = lettering.width(words, height, weight)
    left = x - w * {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
    return shapely.box(left, y - lettering.DESCENT * height, left + w, y + height)


def is_free(sheet: Sheet, box: BaseGeometry, *, masked: bool = False) -> bool:
    """Whether lettering in `box` would touch nothing that is on the sheet so far; masked lettering may break narrow
    lines.
    """
    r = sheet.register
    if not shapely.box(0.5, 0.5, sheet.width - 0.5, sheet.height - 0.5).contains(box):
        return False
    grown = box.buffer(0.55, cap_style="square", join_style="mitre")  # see clash.MARGIN
    if any(grown.intersects(t.outline) for t in r.texts) or any(box.intersects(a) for a in r.arrows):
        return False
    if any(z >= Layer.TOOL - 0.2 and box.intersects(shape) for z, shape in r.fills):
        return False
    crossed = r.lines().query(box, predicate="intersects").tolist()
    if any(not (masked and r.inks[i].width < 0.3) for i in crossed):
        return False
    return not any(box.intersects(line) for line in r.leaders)


def free_text(
    sheet: Sheet,
    spots: Iterable[tuple[float, float, str]],
    words: str,
    height: float = lettering.HEIGHT,
    *,
    mask: bool = True,
    weight: str = "normal",
) -> None:
    """Lettering at the first of `spots` (x, base line, align) where it touches nothing, otherwise at the first."""
    tried = list(spots)
    best = next(
        (s for s in tried if is_free(sheet, box_of(s[0], s[1], words, height, s[2], weight), masked=mask)), tried[0]
    )
    sheet.text(best[0], best[1], words, height, align=best[2], mask=mask, weight=weight)


def free_number(
    sheet: Sheet,
    centre: ArrayLike,
    radius: float,
    words: str,
    height: float = lettering.HEIGHT,
    *,
    weight: str = "normal",
    first: float = 45.0,
) -> None:
    """The number of a round place, as near to it as something is free; joined to it by a fine line when that is far.

    Directions are tried from `first` degrees on.
    """
    c = point(centre)
    best, far = c + direction(first) * (radius + 2), False
    for gap in (1.6, 2.6, 4.0, 6.0, 8.5, 11.0, 14.0, 18.0, 23.0, 29.0, 36.0):
        for turn in (0, 90, 180, 270, 45, 135, 225, 315, 20, 110, 200, 290):
            p = c + direction(first + turn) * (radius + gap)
            if is_free(sheet, box_of(p[0], p[1] - height / 2, words, height, "centre", weight), masked=True):
                best, far = p, gap > 5
                break
        else:
            continue
        break
    if far:
        q = (best - c) / math.hypot(*(best - c))
        sheet.lines([[c + q * radius, best - q * 1.5]], FINE, Layer.AXIS, ink=False)
    sheet.text(best[0], best[1] - height / 2, words, height, mask=True, weight=weight)


def is_leader_free(sheet: Sheet, tip: ArrayLike, elbow: tuple[float, float, bool], words: str) -> bool:
    """Whether a leader over an elbow (x, y, text to the right) crosses no lettering, leader, arrow, dimension line or
    break, and its lettering touches nothing.
    """
    x, y, right = elbow
    r, w = sheet.register, lettering.width(words) + 1
    line = shapely.LineString(np.array([point(tip), (x, y), (x + (w if right else -w), y)], float))
    if any(line.intersects(t.outline) for t in r.texts) or any(clash.crosses(line, o) for o in r.in_the_way()):
        return False
    at, align = (x + 0.5, "left") if right else (x - 0.5, "right")
    return is_free(sheet, box_of(at, y + dim.CLEAR, words, lettering.HEIGHT, align))


def free_leader(
    sheet: Sheet, tip: ArrayLike, elbows: Iterable[tuple[float, float, bool]], words: str, *, dot: bool = False
) -> None:
    """A leader to the first of `elbows` (x, y, text to the right) where it is free, otherwise to the first."""
    tried = list(elbows)
    x, y, right = next((e for e in tried if is_leader_free(sheet, tip, e, words)), tried[0])
    dim.leader(sheet, tip, (x, y), words, dot=dot, right=right)


# ---------------------------------------------------------------------- named faces
@functools.lru_cache(maxsize=64)
def _glyphs(words: str) -> BaseGeometry:
    """The area of a word in capitals 10 · `lettering.CAPITAL` high, from its lower left corner."""
    path = TextPath((0, 0), words, size=10.0, prop=FontProperties(family="DejaVu Sans"))
    shape: BaseGeometry = shapely.Polygon()
    for loop in path.to_polygons(closed_only=True):
        ring = np.asarray(loop, float)
        if len(ring) > 3:
            p = shapely.Polygon(ring)
            shape = shape.symmetric_difference(p if p.is_valid else p.buffer(0))
    return shape


def letter_face(
    sheet: Sheet,
    place: Place,
    centre: ArrayLike,
    right: ArrayLike,
    up: ArrayLike,
    words: str,
    height: float,
    z: float = Layer.EDGE + 1,
) -> None:
    """Lettering that lies on a face of a pictorial: `centre`, `right` and `up` in the work, capitals `height` mm of
    the work.
    """
    k = height / (10.0 * lettering.CAPITAL)
    wide = lettering.width(words, height)
    plane = np.stack([np.asarray(right, float), np.asarray(up, float)])

    def on_paper(q: Floats) -> Floats:
        flat = q * (k * lettering.CONDENSED, k) - (wide / 2, height / 2)
        return place.points((np.asarray(centre, float) + flat @ plane) @ place.basis[:2].T)

    sheet.area(shapely.transform(_glyphs(words), on_paper), INK, z)
    frame = np.array(
        [[0, 0], [wide / k / lettering.CONDENSED, 0], [wide / k / lettering.CONDENSED, height / k], [0, height / k]]
    )
    sheet.register.texts.append(clash.TextBox(shapely.Polygon(on_paper(frame)), words, False, z))


def face_room(
    meshes: Sequence[Mesh], normal: ArrayLike, right: ArrayLike, up: ArrayLike
) -> tuple[Floats, float, float] | None:
    """(middle, width, height) of a free rectangle on the outermost face that looks along `normal`; None without one."""
    n, r, u = (np.asarray(v, float) for v in (normal, right, up))
    far = max(float((m.vertices @ n).max()) for m in meshes)
    cells = []
    for m in meshes:
        flat = (m.normals @ n > 0.999) & (np.abs((m.vertices @ n)[m.triangles] - far).max(1) < 1e-3)
        v = np.c_[m.vertices @ r, m.vertices @ u]
        cells += [shapely.Polygon(v[t]) for t in m.triangles[flat]]
    shape = shapely.union_all([c for c in cells if c.area > 1e-9])
    if shape.is_empty:
        return None
    best = max(polygons(shape), key=lambda p: p.area)
    found = _rectangle(best)
    if found is None:
        return None
    (x, y), w, h = found
    return r * x + u * y + n * far, w, h


def _rectangle(shape: shapely.Polygon) -> tuple[tuple[float, float], float, float] | None:
    """Middle, width and height of a large level rectangle in `shape`, from a coarse grid."""
    x0, y0, x1, y1 = shape.bounds
    xs, ys = np.linspace(x0, x1, 13), np.linspace(y0, y1, 13)
    left, low = np.meshgrid(xs[:-1], ys[:-1])
    right, high = np.meshgrid(xs[1:], ys[1:])
    cells = shapely.box(left.ravel(), low.ravel(), right.ravel(), high.ravel())
    inside = np.asarray(shapely.covers(shape.buffer(1e-6), cells)).reshape(left.shape)
    across, upward = xs.tolist(), ys.tolist()
    rows = [sum(1 << i for i in np.flatnonzero(row).tolist()) for row in inside]
    best, worth = None, 0.0
    for j0 in range(12):
        free = -1
        for j1 in range(j0, 12):
            free &= rows[j1]
            for i0, i1 in _runs(free):
                w, h = across[i1] - across[i0], upward[j1 + 1] - upward[j0]
                size = min(w / 2.5, h) + 0.01 * min(w, h)
                if size > worth:
                    middle = (across[i0] + across[i1]) / 2, (upward[j0] + upward[j1 + 1]) / 2
                    best, worth = (middle, w, h), size
    return best


@functools.lru_cache(maxsize=4096)
def _runs(free: int) -> tuple[tuple[int, int], ...]:
    """Stretches of set bits as (first, one past the last)."""
    edges = [i for i in range(free.bit_length() + 1) if (free >> i ^ free << 1 >> i) & 1]
    return tuple(zip(edges[::2], edges[1::2], strict=True))
