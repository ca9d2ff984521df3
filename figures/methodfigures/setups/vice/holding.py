"""What holds six-face work, in front view, section and plan: vice, clamps, angle plate, magnet?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper.cropping import Window
from methodfigures.paper.lanes import Note
from methodfigures.paper.palette import JAW, TINT
from methodfigures.paper.sheet import FINE
from methodfigures.setups.standing import OPEN, hexagon, piece
from methodfigures.setups.vice.stage import BED, FIXED, JAW_PLAN, MOVING, ViceStage

NARROW_JAW = 26.0
"""Paper mm: below that the moving jaw has its name in the section, for the cutting plane stands in front of it."""
Found = tuple[BaseGeometry, list[Note]]


def _table(stage: ViceStage, left: float, right: float, z: float = 1.0) -> None:
    """Table or bed under the work, broken off all round."""
    y = stage.floor
    piece(stage.sheet, shapely.box(left - 9, y - 2 * BED, right + 9, y), (left, y - BED, right, 999), TINT, z=z)


def draw_front(stage: ViceStage) -> Found:
    """Holder in the front view; (what it hides of the work, names)."""
    spec = stage.spec
    _table(stage, stage.left - 4, stage.right + 4)
    if spec.jawed:
        return _vice_front(stage)
    none: BaseGeometry = shapely.Polygon()
    if spec.holding == "clamps":
        if stage.under > 0:
            strip = shapely.box(stage.x(stage.span[0]), stage.floor, stage.x(stage.span[3]), stage.y(0))
            piece(stage.sheet, strip, OPEN, JAW, z=1.5)
        return none, _straps_front(stage)
    if spec.holding == "angle-plate":
        jl, jr, _ = stage.jaw
        piece(stage.sheet, shapely.box(jl, stage.floor, jr, _plate_top(stage)), OPEN, TINT, z=1.4)
        return none, []
    if spec.holding == "magnet":
        x = stage.left - 2
        while x < stage.right + 3:
            stage.sheet.lines([[(x, stage.floor - 4.5), (x, stage.floor)]], FINE, 1.2, ink=False)
            x += 2.0
    return none, []


def _named_beside(stage: ViceStage) -> bool:
    """Whether the moving jaw has its name in the section: it is narrow, and there is room for one name more."""
    left, right, _ = stage.jaw
    if stage.two:
        return True
    return right - left < NARROW_JAW and stage.xs(stage.gripped[1]) + FIXED < stage.sheet.width - 30


def _vice_front(stage: ViceStage) -> Found:
    spec, sheet = stage.spec, stage.sheet
    jl, jr, longer = stage.jaw
    far = 9.0 if longer else 0.0
    top = stage.y(spec.grip)
    shape = shapely.box(jl - far, stage.floor, jr + far, top)
    cover = piece(sheet, shape, (jl, 0, jr, 999), TINT, z=5.5)
    a, b = stage.x(stage.span[0]) + 1.5, stage.x(stage.span[3]) - 1.5
    if stage.under > 0.5:
        for x in (max(a, jl + 1), min(b, jr - 1)):
            sheet.line([(x, stage.floor), (x, stage.y(0))], "hidden", 5.9)
    inset = min(6.0, 0.2 * (jr - jl))
    spot = (
        jl + inset if stage.x(stage.section_x) - jl > inset + 3 else jr - inset,
        stage.floor + 0.35 * (top - stage.floor),
    )
    return cover, [] if _named_beside(stage) else [Note(spot, spec.words("moving jaw", "moving jaw"), True)]


def _lap(stage: ViceStage) -> float:
    """How far a strap lies on the work, paper mm."""
    return min(4.0, 0.12 * (stage.span[3] - stage.span[0]) * stage.scale)


@dataclass(frozen=True)
class _Strap:
    """A clamp: the place on the edge of the upper face where it lies, mm, and the direction out."""

    x: float
    y: float
    out: tuple[int, int]


def _straps(stage: ViceStage) -> list[_Strap]:
    """The clamps that are drawn: two on opposite ends where there are such, else all; where none is given, one on the
    middle of each end whose upper face is not cut away.
    """
    given = [_Strap(x, y, (dx, dy)) for x, y, dx, dy in stage.spec.clamps]
    if given:
        ends = [one for one in given if one.out[0]]
        return ends if len(ends) > 1 else given
    x0, _, x1, _, _ = stage.spec.box
    lap, (a, b) = _lap(stage) / stage.scale, (stage.span[0], stage.span[3])
    cut = not stage.spec.plunging and stage.spec.verb != "chamfer"
    sides = [-1] if not cut or x0 >= a + lap - 1e-6 else []
    sides += [1] if not cut or x1 <= b - lap + 1e-6 else []
    middle, apart = (stage.span[1] + stage.span[4]) / 2, 0.25 * (stage.span[4] - stage.span[1])
    apart = max(3.6 / stage.scale, apart)
    at = (middle - apart, middle + apart) if len(sides) == 1 else (middle,)
    return [_Strap(a if side < 0 else b, y, (side, 0)) for side in sides or (-1, 1) for y in at]


def _straps_front(stage: ViceStage) -> list[Note]:
    """Straps over the edges that stay, each on its packing block, with stud and nut."""
    spec, straps = stage.spec, _straps(stage)
    for one in straps:
        if one.out[0]:
            _strap_beside(stage, stage.x(one.x), one.out[0])
        else:
            _strap_across(stage, stage.x(one.x), in_front=one.out[1] < 0)
    top, last = stage.y(stage.height), straps[-1]
    aside = 10.5 * last.out[0] if last.out[0] else 0.0
    high = 0.3 if last.out[0] else 1.0
    spot = (stage.x(last.x) + aside, stage.floor + high * (top - stage.floor) + (0.0 if last.out[0] else 1.7))
    return [Note(spot, spec.words("clamp", "clamp on packing"), True)]


def _strap_beside(stage: ViceStage, edge: float, way: int) -> None:
    """A strap over an end, from its side."""
    sheet, top, lap = stage.sheet, stage.y(stage.height), _lap(stage)

    def slab(a: float, b: float, low: float, high: float) -> shapely.Polygon:
        x0, x1 = sorted((edge + way * a, edge + way * b))
        return shapely.box(x0, low, x1, high)

    piece(sheet, slab(8.5, 12.5, stage.floor, top), OPEN, JAW, z=3.0)
    piece(sheet, slab(4.4, 6.6, stage.floor, top + 9.5), OPEN, JAW, z=2.6)
    piece(sheet, slab(-lap, 13.5, top, top + 3.4), OPEN, JAW, z=5.5)
    piece(sheet, slab(3.0, 8.0, top + 3.4, top + 4.4), OPEN, JAW, z=5.5)
    piece(sheet, slab(3.5, 7.5, top + 4.4, top + 7.6), OPEN, JAW, z=5.6)


def _strap_across(stage: ViceStage, x: float, *, in_front: bool) -> None:
    """A strap over the near or the far edge, end on: its packing block stands before the work or is hidden by it."""
    top, z = stage.y(stage.height), 5.5 if in_front else 1.2
    for wide, low, high in ((2.0, stage.floor, top), (3.2, top, top + 3.4), (2.0, top + 3.4, top + 6.6)):
        piece(stage.sheet, shapely.box(x - wide, low, x + wide, high), OPEN, JAW, z=z)
        z += 0.05


def _plate_top(stage: ViceStage) -> float:
    return stage.y(0.72 * stage.height)


# ---------------------------------------------------------------------- section
def draw_side(stage: ViceStage) -> list[Note]:
    """Holder in section A–A; its names."""
    spec, sheet = stage.spec, stage.sheet
    if spec.jawed:
        return _vice_side(stage)
    left, right = stage.xs(stage.span[1]) - MOVING, stage.xs(stage.span[4]) + FIXED
    y = stage.floor
    base: BaseGeometry = shapely.box(left - 9, y - 2 * BED, right + 9, y)
    if spec.holding == "clamps":
        c = (left + right) / 2
        base = base.difference(
            shapely.union_all(
                [shapely.box(c - 1.6, y - 3.5, c + 1.6, y + 1), shapely.box(c - 3.2, y - 5.6, c + 3.2, y - 3.0)]
            )
        )
    piece(sheet, base, (left, y - BED, right, 999), hatch=(45, 2.8), z=1.0)
    words = spec.words("table", "magnetic table" if spec.holding == "magnet" else "table")
    found = [Note((right - 5, y - 4), words, True)]
    if spec.packed:
        found.insert(0, _packing_side(stage))
    if spec.holding == "angle-plate":
        x, top = stage.xs(stage.gripped[1]), _plate_top(stage)
        shape = shapely.union_all([shapely.box(x, y, x + 4.5, top), shapely.box(x, y, x + FIXED + 9, y + 4)])
        piece(sheet, shape, (0, 0, x + FIXED, 999), hatch=(-45, 2.2), z=1.6)
        found.insert(0, Note((x + 2.2, y + 0.55 * (top - y)), spec.words("angle plate", "angle plate"), True))
        _force(stage, stage.xs(stage.gripped[0]) - 1.0, y + 0.5 * (top - y))
    return found


def _packing_side(stage: ViceStage) -> Note:
    """Two strips along the edges of the work, clear of where the tool comes out."""
    spec, y = stage.spec, stage.floor
    a, b = stage.xs(stage.span[1]), stage.xs(stage.span[4])
    holes = [(stage.xs(v - spec.diameter / 2), stage.xs(v + spec.diameter / 2)) for _, v in spec.places]
    near = min([low for low, _ in holes] + [(a + b) / 2]) - a
    far = b - max([high for _, high in holes] + [(a + b) / 2])
    wide = [max(0.8, min(5.0, 0.3 * (b - a), room - 0.6)) for room in (near, far)]
    for low, high in ((a, a + wide[0]), (b - wide[1], b)):
        piece(stage.sheet, shapely.box(low, y, high, stage.y(0)), hatch=(-45, 1.2), z=1.6)
    return Note((b - wide[1] / 2, y + 0.5 * stage.under), spec.words("packing", "packing"), True)


def _vice_side(stage: ViceStage) -> list[Note]:
    spec, sheet = stage.spec, stage.sheet
    near, far = stage.xs(stage.gripped[0]), stage.xs(stage.gripped[1])
    y, top = stage.floor, stage.y(spec.grip)
    left, right = near - MOVING - 3, far + FIXED
    body = shapely.Polygon(
        [(left - 9, y - 2 * BED), (right + 9, y - 2 * BED), (right + 9, top), (far, top), (far, y), (left - 9, y)]
    )
    piece(sheet, body, (left, y - BED, right, 999), hatch=(45, 2.8), z=1.0)
    slope = min(7.0, 0.45 * (top - y))
    moving = shapely.Polygon(
        [(near - MOVING, y), (near, y), (near, top), (near - MOVING + slope * 0.8, top), (near - MOVING, top - slope)]
    )
    piece(sheet, moving, hatch=(-45, 2.2), z=1.6)
    found = []
    if _named_beside(stage):
        spot = (near - 0.4 * MOVING, y + 0.25 * (top - y))
        found.append(Note(spot, spec.words("moving jaw", "moving jaw"), True))
    if stage.under > 0.5:
        wide = min(4.0, 0.28 * (far - near))
        for a in (near + 1.0, far - 1.0 - wide):
            piece(sheet, shapely.box(a, y, a + wide, stage.y(0)), hatch=(-45, 1.2), z=1.6)
        found.append(Note((near + 1.0 + wide / 2, y + 0.4 * stage.under), spec.words("parallels", "parallels"), True))
    found.append(Note((far + 0.45 * FIXED, y + 0.3 * (top - y)), spec.words("fixed jaw", "fixed jaw"), True))
    _force(stage, near - MOVING - 1.5, y + 0.45 * (top - y))
    return found


def _force(stage: ViceStage, x: float, y: float) -> None:
    """Clamping force, pointing right at x."""
    dim.block_arrow(stage.sheet, (x - 12, y), (x, y), width=1.2)
    stage.sheet.text(x - 6.5, y + 3.2, stage.spec.words("force", "clamp"))


# ---------------------------------------------------------------------- plan
def draw_plan(stage: ViceStage) -> None:
    """Holder from above."""
    spec, sheet = stage.spec, stage.sheet
    jl, jr, longer = stage.jaw
    near, far = stage.yp(stage.gripped[0]), stage.yp(stage.gripped[1])
    if spec.jawed:
        wide = 9.0 if longer else 0.0
        for a, b, low, high in ((near - 20, near, near - JAW_PLAN, 999.0), (far, far + 20, 0.0, far + JAW_PLAN)):
            piece(sheet, shapely.box(jl - wide, a, jr + wide, b), (jl, low, jr, high), TINT, z=1.0)
        return
    window = (jl - 2, near - JAW_PLAN, jr + 2, far + JAW_PLAN)
    piece(sheet, shapely.box(-99, -99, 999, 999), window, TINT, z=0.9)
    if spec.holding == "angle-plate":
        piece(sheet, shapely.box(jl, far, jr, far + 4.5), z=1.4, fill=JAW)
        piece(sheet, shapely.box(jl, far + 4.5, jr, far + 20), (0, 0, 999, far + JAW_PLAN), JAW, z=1.3)
    elif spec.holding == "clamps":
        _straps_plan(stage, (-99.0, near - JAW_PLAN, 999.0, far + JAW_PLAN))


def _straps_plan(stage: ViceStage, window: Window) -> None:
    """Every strap from above, with its nut."""
    sheet, lap = stage.sheet, _lap(stage)
    for one in _straps(stage):
        edge, out = np.array([stage.x(one.x), stage.yp(one.y)]), np.array(one.out, float)
        ends = np.array([edge - out * lap, edge + out * 13.5])
        aside = 3.2 * np.abs(out[::-1])
        piece(sheet, shapely.box(*(ends.min(0) - aside), *(ends.max(0) + aside)), window, JAW, z=5.3)
        c = edge + out * 5.5
        sheet.circle(c, 2.7, "narrow", 5.5, fill=JAW, ink=False)
        piece(sheet, hexagon(c, 4.0), fill=JAW, z=5.6)
        sheet.circle(c, 1.1, "narrow", 5.8, width=FINE, ink=False)
