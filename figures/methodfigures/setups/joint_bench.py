"""What holds two pieces and pushes them together: blocks, bricks, a ram that clears what stands beside it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from methodfigures.paper import dimensions as dim
from methodfigures.paper.palette import JAW, TINT
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import Sheet
from methodfigures.setups.standing import piece
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import Place, ViewBook, extent

if TYPE_CHECKING:
    from methodfigures.setups.joining import Joint

ASIDE: Final = 0.5
"""Paper mm by which a joint must lie beside the middle to be drawn with supports of its own."""
ROOM: Final = 0.6
"""Paper mm beside the axis from which on a thin ram goes down past what stands there."""


@dataclass
class Bench:
    """What is fixed before drawing: views, scale, height of the support on the paper."""

    spec: Joint
    book: ViewBook
    view: Floats
    scale: float
    floor: float
    low: float
    high: float
    wide: float
    aside: float = 0.0
    """Paper mm by which the middle of the fixed piece lies beside the axis of the joint."""


def placed(bench: Bench, at: Points, lift: float, zero: Points) -> Place:
    """The lower face of the fixed piece at the height of `at`, the axis at its x."""
    origin = at - np.array([zero[0], bench.low]) * bench.scale + (0.0, lift * bench.scale)
    return Place(bench.view, bench.scale, origin)


def support(sheet: Sheet, bench: Bench, at: Points) -> None:
    """Blocks of the press, or bricks of the hearth, under the fixed piece."""
    spec, half = bench.spec, bench.wide / 2
    if abs(bench.aside) > ASIDE:
        _support_aside(sheet, bench, at)
        return
    if spec.kind in ("braze", "weld", "shrink"):
        room = _reach_below(bench)
        for side in (-1, 1):
            for i in range(2):
                a, b = sorted((at[0] + side * (room + i * 11), at[0] + side * (room + i * 11 + 11)))
                piece(sheet, shapely.box(a, bench.floor, b, at[1]), fill=TINT, z=1.0)
        return
    open_half = min(max(0.52 * half, 3.0), half - 1.5) if half > 4.5 else 0.4 * half
    reach = _reach_below(bench)
    if 0 < reach < half:
        open_half = reach
    for s in (-1, 1):
        a, b = sorted((at[0] + s * open_half, at[0] + s * (half + 3)))
        piece(sheet, shapely.box(a, bench.floor, b, at[1]), fill=TINT, hatch=(-45, 2.6), z=1.0)


def _support_aside(sheet: Sheet, bench: Bench, at: Points) -> None:
    """The same where the joint lies beside the middle: blocks under the first face that is nearly as wide as the work.

    The press then bears on the wall that the piece goes through, and not on the thin end below it.
    """
    shape = placed(bench, at, 0.0, np.array([0.0, 0.0])).shape(bench.book.silhouette(bench.spec.fixed, bench.view))
    shape = translate(shape, -float((bench.view[:2] @ np.asarray(bench.spec.axis, float))[0]) * bench.scale)
    left, bottom, right, top = shape.bounds
    face, inner = bottom, (left + 0.26 * (right - left), right - 0.26 * (right - left))
    for y in sorted({round(float(v), 3) for v in shapely.get_coordinates(shape)[:, 1]}):
        here = shape.intersection(shapely.box(left, y + 0.02, right, y + 0.06))
        if not here.is_empty and here.bounds[2] - here.bounds[0] > 0.8 * (right - left):
            face = y
            break
    below = shape.intersection(shapely.box(left, bottom, right, face - 0.05)) if face > bottom + 0.1 else shape
    if face > bottom + 0.1:
        inner = (below.bounds[0] - 1.0, below.bounds[2] + 1.0)
    for a, b in ((left - 3.0, inner[0]), (inner[1], right + 3.0)):
        if b - a > 1.0:
            piece(sheet, shapely.box(a, bench.floor, b, face), fill=TINT, hatch=(-45, 2.6), z=1.0)
    del top


def _reach_below(bench: Bench) -> float:
    """Half of the room that the moving piece needs where it comes out below the fixed one, mm on paper; 0 if it does
    not.
    """
    below = bench.book.silhouette(bench.spec.moving, bench.view)
    if below.bounds[1] >= bench.low - 1e-6:
        return 0.0
    return float(below.bounds[2] - below.bounds[0]) * bench.scale / 2 + 1.0


def comes_through(bench: Bench) -> float:
    """Half the width on paper of what of the fixed piece comes out above the moving one; 0 if nothing does."""
    top = float(extent(bench.view, bench.spec.moving)[1][1])
    above = bench.book.silhouette(bench.spec.fixed, bench.view).intersection(shapely.box(-9e4, top + 0.1, 9e4, 9e4))
    return 0.0 if above.is_empty else float(above.bounds[2] - above.bounds[0]) * bench.scale / 2


def _room_beside(bench: Bench) -> float:
    """Room on paper between the axis and what of the fixed piece stands above the moving one, beside it; 0 for none."""
    top = float(extent(bench.view, bench.spec.moving)[1][1])
    zero = float((bench.view[:2] @ np.asarray(bench.spec.axis, float))[0])
    above = bench.book.silhouette(bench.spec.fixed, bench.view).intersection(shapely.box(-9e4, top + 0.1, 9e4, 9e4))
    return float(above.distance(shapely.LineString([(zero, -9e4), (zero, 9e4)]))) * bench.scale


def _punch(bench: Bench, x: float, top: float, tall: float) -> BaseGeometry:
    """The ram where something stands beside the joint: a thin nose that goes down past it."""
    wide = bench.book.silhouette(bench.spec.moving, bench.view).bounds
    half = max(0.8, min((wide[2] - wide[0]) * bench.scale / 2, _room_beside(bench) - 0.5))
    nose = shapely.box(x - half, top, x + half, top + tall)
    return nose.union(shapely.box(x - half - 4.0, top + tall - 3.0, x + half + 4.0, top + tall + 23))


def press_ram(sheet: Sheet, bench: Bench, x: float, top: float, *, press: bool, arrow: bool) -> None:
    """Ram of the press on the moving piece, arrow of the force."""
    y = top
    if press:
        hollow = comes_through(bench)
        tall = max(7.0, float(bench.high - extent(bench.view, bench.spec.moving)[1][1]) * bench.scale + 5.0)
        ram: BaseGeometry = shapely.box(x - hollow - 5, top, x + hollow + 5, top + tall + 23)
        if hollow and _room_beside(bench) > ROOM:
            ram = _punch(bench, x, top, tall)
        elif hollow:  # a tube that goes over the shaft
            ram = ram.difference(shapely.box(x - hollow - 0.8, top - 1, x + hollow + 0.8, top + tall - 3.0))
        piece(sheet, ram, (0, 0, 999, top + tall), JAW, hatch=(-45, 2.4) if hollow else None, z=5.6)
        y = top + tall
    if arrow:
        dim.block_arrow(sheet, (x, y + 12.5), (x, y + 2.0))
        if bench.spec.force_text:
            sheet.text(x + 3.0, y + 6.5, bench.spec.force_text, align="left")
