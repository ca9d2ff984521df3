"""Where does each view of a part stand on the sheet, at which scale, and how far out lies each of its dimensions?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import Final

import numpy as np

from methodfigures.paper import text as lettering
from methodfigures.paper.arrangement import FIRST
from methodfigures.paper.dimensions import TIGHT
from methodfigures.paper.lanes import SCALES, Note
from methodfigures.paper.shapes import Points
from methodfigures.paper.sheet import SHEET_WIDTH
from methodfigures.part.notes import Room, height
from methodfigures.part.spec import Cutting, PartDrawing, Side, Size, View
from methodfigures.solids.mesh import Floats
from methodfigures.solids.views import basis, extent

ISO_SCALES: Final = (10.0, 5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
"""Scales of ISO 5455, paper mm per mm."""
EDGE: Final = 4.0
"""Free border of the sheet, mm."""
FIRST_LANE: Final = 8.5
LANE: Final = 7.0
"""Distance of the first dimension line from its view, and of one from the next (ISO 129-1 asks for 10 and 7; the first
is drawn closer where the sheet is small)."""
HEADS_OUTSIDE: Final = 5.5
"""How far the line of a short dimension, its heads outside, runs beyond each end."""
GAP: Final = 9.0
"""Least distance of two views with all that is written round them."""
COLUMN: Final = 36.0
"""Widest line of a note beside a view."""
LARGEST: Final = 10.0
ENOUGH: Final = 76.0
"""No view is drawn larger than this many times its size, nor enlarged beyond so many mm of paper."""


@dataclass(frozen=True)
class Lane:
    """A dimension with the number of the lane that it lies in, 0 nearest to its view."""

    size: Size
    lane: int


@dataclass
class Placed:
    """One view with its place: the corners of its picture in view coordinates, and its margins."""

    view: View
    basis: Floats
    low: Points
    high: Points
    column: int
    row: int
    lanes: dict[Side, list[Lane]] = field(default_factory=dict)
    margins: dict[Side, float] = field(default_factory=dict)
    notes_side: Side = Side.ABOVE
    by_arrow: bool = False
    """Whether it stands apart, named by an arrow."""
    clear: float = 0.0
    """Room that dimensions take on the side of the notes, mm."""
    origin: Points = field(default_factory=lambda: np.zeros(2))
    """Where the origin of the work lands on the paper."""

    def spot(self, xyz: Sequence[float], scale: float) -> Points:
        """A point of the work on the paper."""
        seen: Points = (self.basis @ np.asarray(xyz, float))[:2] * scale + self.origin
        return seen

    def box(self, scale: float) -> tuple[Points, Points]:
        """Lower left and upper right corner of the picture on the paper."""
        return self.low * scale + self.origin, self.high * scale + self.origin

    def count(self, side: Side) -> int:
        """How many lanes there are on a side."""
        return 1 + max((lane.lane for lane in self.lanes.get(side, ())), default=-1)


def lanes_of(sizes: Iterable[Size], seen: Mapping[Size, tuple[float, float]], side: Side) -> list[Lane]:
    """The dimensions of one side in lanes: what lies within another stands nearer to the view, none overlaps another.

    `seen` = where each begins and ends on the paper, its text included.
    """
    placed: list[Lane] = []
    mine = [size for size in sizes if size.side is side]
    for size in sorted(mine, key=lambda one: (_span(one), seen[one][0])):
        a, b = seen[size]
        under = [p.lane for p in placed if seen[p.size][0] < b - 0.5 and seen[p.size][1] > a + 0.5]
        placed.append(Lane(size, max(under, default=-1) + 1))
    return placed


def _span(size: Size) -> float:
    return math.dist(size.first, size.second)


def reach(size: Size, placed: Placed, scale: float) -> tuple[float, float]:
    """Where a dimension begins and ends on the paper along its own line, with a text that does not fit between."""
    i = 1 if size.side.upright else 0
    a, b = sorted((float(placed.spot(size.first, scale)[i]), float(placed.spot(size.second, scale)[i])))
    over = HEADS_OUTSIDE if b - a < TIGHT else 0.0
    wide = lettering.width(size.text)
    beyond = 5.0 + wide if wide > b - a - 1.8 else over
    return a - over, b + max(over, beyond)


def place(spec: PartDrawing, width: float, tallest: float) -> tuple[list[Placed], float, float]:
    """(views in their places, scale, height that they take) at the largest scale of ISO 5455 that fits the sheet.

    The views stand in their rows and columns (ISO 5456-2); where the ends would make the whole much smaller they stand
    under the front view instead, named by reference arrows (ISO 128-30).
    """
    ends = spec.beside_left or spec.beside_right
    ways = list(Ends) if ends else [Ends.BESIDE]
    found = [_fitted(_views(spec, way), spec, width, tallest) for way in ways]
    best = found[0]
    for other in found[1:]:
        if other.scale > 1.3 * best.scale:
            best = other
    for one in best.views:
        one.origin = one.origin + np.array([(width - best.wide) / 2, 0.0])
    return best.views, best.scale, best.high


@dataclass(frozen=True)
class _Fitted:
    views: list[Placed]
    scale: float
    wide: float
    high: float


def _fitted(views: list[Placed], spec: PartDrawing, width: float, tallest: float) -> _Fitted:
    longest = max(float((v.high - v.low).max()) for v in views)
    scale, wide, high = ISO_SCALES[-1], 0.0, 0.0
    steps = ISO_SCALES if width >= SHEET_WIDTH else SCALES
    for scale in (k for k in steps if k <= 1.0 or (k <= LARGEST and k * longest <= ENOUGH)):
        wide, high = _arranged(views, scale, width)
        if wide <= width - 2 * EDGE and high <= tallest:
            break
    return _Fitted(views, scale, wide, high)


class Ends(Enum):
    """Where the views of the ends stand."""

    BESIDE = "beside the front view, as projected"
    APART = "under it, side by side"
    STACKED = "under it, one under the other"


def _views(spec: PartDrawing, ends: Ends) -> list[Placed]:
    first = spec.projection == FIRST
    apart = ends is not Ends.BESIDE
    left, right = {
        Ends.BESIDE: ((1 if first else -1, 0), (-1 if first else 1, 0)),
        Ends.APART: ((0, -2), (1, -2)),
        Ends.STACKED: ((0, -2), (0, -3)),
    }[ends]
    found = [
        (spec.front, 0, 0, False),
        (spec.beside_left, *left, apart),
        (spec.beside_right, *right, apart),
        (spec.below, 0, -1 if first else 1, False),
    ]
    out = []
    for view, column, line, by_arrow in found:
        if view is None:
            continue
        looking = basis(view.right, view.up)
        low, high = extent(looking, spec.solids)
        both = ends is Ends.APART and spec.beside_left is not None and spec.beside_right is not None
        shown = column if not by_arrow else -1 if both and column == 0 else 1
        side = Side.RIGHT if view is spec.below else _notes_side(view, shown)
        out.append(Placed(view, looking, low, high, column, line, notes_side=side, by_arrow=by_arrow))
    return out


def _notes_side(view: View, column: int) -> Side:
    """Notes of the front view stand above it, below where its lower half is cut; those of others beside it."""
    if column > 0:
        return Side.RIGHT
    if column < 0:
        return Side.LEFT
    return Side.BELOW if view.cutting is Cutting.HALF else Side.ABOVE


def _arranged(views: list[Placed], scale: float, width: float) -> tuple[float, float]:
    """Put every view into its row and column; (width, height) that all take at a scale."""
    for one in views:
        _margins(one, scale, width)
    ordered = [v for v in views if not v.by_arrow]
    wide, across = _tracks(ordered, scale, "column", 0, (Side.LEFT, Side.RIGHT))
    high, up = _tracks(views, scale, "row", 1, (Side.BELOW, Side.ABOVE))
    for one in ordered:
        one.origin = np.array([across[one.column], up[one.row]])
    apart = [v for v in views if v.by_arrow]
    if apart:
        below, along = _tracks(apart, scale, "column", 0, (Side.LEFT, Side.RIGHT))
        shift = max(0.0, (wide - below) / 2)
        for one in apart:
            one.origin = np.array([along[one.column] + shift, up[one.row]])
        for one in ordered:
            one.origin = one.origin + np.array([max(0.0, (below - wide) / 2), 0.0])
        wide = max(wide, below)
    return wide, high


def _tracks(
    views: list[Placed], scale: float, name: str, i: int, sides: tuple[Side, Side]
) -> tuple[float, dict[int, float]]:
    """(size of all, origin of each) of the columns or the rows."""
    at = 0.0
    origins: dict[int, float] = {}
    for track in sorted({getattr(v, name) for v in views}):
        mine = [v for v in views if getattr(v, name) == track]
        before = max(-float(v.low[i]) * scale + v.margins[sides[0]] for v in mine)
        after = max(float(v.high[i]) * scale + v.margins[sides[1]] for v in mine)
        at += GAP if origins else 0.0
        origins[track] = at + before
        at += before + after
    return at, origins


def _margins(one: Placed, scale: float, width: float) -> None:
    """Room round the picture: for its lanes, and for its notes."""
    one.origin = np.zeros(2)
    seen = {size: reach(size, one, scale) for size in one.view.sizes}
    low, high = one.box(scale)
    for side in Side:
        one.lanes[side] = lanes_of(one.view.sizes, seen, side)
        lanes = one.count(side)
        one.margins[side] = FIRST_LANE + LANE * (lanes - 1) + 4.0 if lanes else 2.5
    for size, (start, end) in seen.items():  # heads and text beyond a short dimension may run past the picture
        before, past = (Side.BELOW, Side.ABOVE) if size.side.upright else (Side.LEFT, Side.RIGHT)
        i = 1 if size.side.upright else 0
        one.margins[past] = max(one.margins[past], end - float(high[i]) + 2.0)
        one.margins[before] = max(one.margins[before], float(low[i]) - start + 2.0)
    one.clear = one.margins[one.notes_side]
    if one.view.callouts:
        one.margins[one.notes_side] += _notes_room(one, scale, width)
    if one.view.callouts and one.notes_side.upright:
        notes = notes_of(one, scale, width)
        over = column_step(notes) * len(notes) - float(high[1] - low[1])
        one.margins[Side.ABOVE] = max(one.margins[Side.ABOVE], 4.0 + column_step(notes), over + 9.0)
    if one.view.title:
        one.margins[Side.BELOW] += 6.5


def notes_of(one: Placed, scale: float, width: float) -> list[Note]:
    """The notes of a view with their spots on the paper."""
    room = COLUMN if one.notes_side.upright else max(COLUMN, 0.45 * width)
    out = []
    for callout in one.view.callouts:
        x, y = one.spot(callout.spot, scale)
        words = "\n".join(lettering.wrap(callout.words, room))
        out.append(Note((float(x), float(y)), words, callout.area))
    return out


def column_step(notes: Sequence[Note]) -> float:
    """Distance of two notes of a column, mm: more where one of them has two lines."""
    return LANE if all("\n" not in note.words for note in notes) else LANE + 4.0


def _notes_room(one: Placed, scale: float, width: float) -> float:
    notes = notes_of(one, scale, width)
    if one.notes_side.upright:
        return 7.0 + max(lettering.width(note.words) for note in notes)
    low, high = one.box(scale)
    spare = max(0.0, width - 2 * EDGE - float(high[0] - low[0])) / 2
    middle = float(low[0] + high[0]) / 2
    return height(notes, Room(float(high[1]), middle, float(low[0]) - spare, float(high[0]) + spare))
