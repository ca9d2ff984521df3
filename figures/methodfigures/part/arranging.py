"""Where does each view of a part stand on the sheet, at which scale, what is left out, and what is enlarged?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import Final

import numpy as np

from methodfigures.paper.arrangement import FIRST
from methodfigures.paper.lanes import SCALES
from methodfigures.paper.sheet import SHEET_WIDTH
from methodfigures.part.breaks import Gap, Lengths, Squeeze, gaps_in, plain_stretches
from methodfigures.part.details import letters, parted
from methodfigures.part.placing import EDGE, Placed, give_margins
from methodfigures.part.spec import Cutting, PartDrawing, Side, View
from methodfigures.solids.views import basis, extent

ISO_SCALES: Final = (10.0, 5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
"""Scales of ISO 5455, paper mm per mm."""
GAP: Final = 9.0
"""Least distance of two views with all that is written round them."""
SLIM: Final = 120.0
"""mm: on a sheet that is no wider notes stand over a view and not beside it, so that the view is not made smaller; so
they do where the view is broken, for no leader crosses a break."""
LARGEST: Final = 10.0
ENOUGH: Final = 76.0
"""No view is drawn larger than this many times its size, nor enlarged beyond so many mm of paper."""
DETAILS: Final = 75.0
"""mm of paper that the details may take under the views."""
NEAR: Final = 0.01
THIN: Final = 12.0
"""mm of paper: a part that would be drawn thinner than this is broken, if it can be drawn larger then."""


class Ends(Enum):
    """Where the views of the ends stand."""

    BESIDE = "beside the front view, as projected"
    APART = "under it, side by side"
    STACKED = "under it, one under the other"


@dataclass(frozen=True)
class Laid:
    """All views and details in their places at one scale, and the room that they take."""

    views: list[Placed]
    scale: float
    wide: float
    high: float
    under: float
    """What the details take below the views."""

    def over(self, width: float, tallest: float) -> tuple[float, float]:
        """What is lacking for it on a sheet: mm across, mm upright; (0, 0) where it fits."""
        across, upright = self.wide - width + 2 * EDGE, max(self.high - tallest, self.under - DETAILS)
        return (across if across > NEAR else 0.0, upright if upright > NEAR else 0.0)

    def fits(self, width: float, tallest: float) -> bool:
        """Whether it stands on a sheet."""
        return self.over(width, tallest) == (0.0, 0.0)


def place(spec: PartDrawing, width: float, tallest: float) -> Laid:
    """The views and details in their places at the largest scale of ISO 5455 that fits the sheet.

    The views stand in their rows and columns (ISO 5456-2); where the ends would make the whole much smaller they stand
    under the front view instead, named by reference arrows (ISO 128-3). A part that would be too thin is broken.
    """
    ends = spec.beside_left or spec.beside_right
    table = Table(spec, width, tallest)
    found = [table.broken(way, table.whole(way)) for way in (list(Ends) if ends else [Ends.BESIDE])]
    best = found[0]
    for other in found[1:]:
        lacking, now = other.over(width, tallest), best.over(width, tallest)
        if lacking < now or (lacking == now and other.scale > 1.3 * best.scale):
            best = other
    for one in best.views:
        one.origin = one.origin + np.array([(width - best.wide) / 2, 0.0])
    return best


@dataclass(frozen=True)
class Table:
    """A part and the sheet that it is laid out on."""

    spec: PartDrawing
    width: float
    tallest: float
    _measured: dict[int, tuple[np.ndarray, np.ndarray, np.ndarray]] = field(default_factory=dict)

    @property
    def steps(self) -> Sequence[float]:
        """The scales that it may have, the largest first."""
        return ISO_SCALES if self.width >= SHEET_WIDTH else SCALES

    def whole(self, ends: Ends) -> Laid:
        """The largest that shows everything."""
        longest = max(float((high - low).max()) for _, low, high in map(self._measure, self._shown()))
        scales = [k for k in self.steps if k <= 1.0 or (k <= LARGEST and k * longest <= ENOUGH)]
        best = self.laid(ends, scales[0])
        for scale in scales[1:]:
            if best.fits(self.width, self.tallest):
                break
            laid = self.laid(ends, scale)
            if laid.over(self.width, self.tallest) < best.over(self.width, self.tallest):
                best = laid
        return best

    def broken(self, ends: Ends, whole: Laid) -> Laid:
        """A long thin part at a larger scale, some plain stretches left out; the same where that is no help."""
        corners = np.concatenate([m.vertices for m in self.spec.solids])
        sizes = np.ptp(corners, axis=0)
        axis = int(np.argmax(sizes))
        thick = float(np.delete(sizes, axis).max())
        best, stretches = whole, None
        for scale in sorted(k for k in self.steps if whole.scale < k <= LARGEST):
            if thick * best.scale >= THIN:
                break
            if stretches is None:
                stretches = plain_stretches(self.spec.solids, self._shown(), axis)
            found = self._with_gaps(ends, scale, axis, stretches)
            if found is None:
                break
            best = found
        return best

    def _with_gaps(self, ends: Ends, scale: float, axis: int, stretches: Lengths) -> Laid | None:
        """The part at a scale with as much left out as must be; None where that is not enough."""
        laid = self.laid(ends, scale)
        level = abs(self._measure(self.spec.front)[0][0, axis]) > 0.99
        excess = laid.wide - self.width + 2 * EDGE if level else laid.high - self.tallest
        gaps = gaps_in(stretches, axis, excess, scale)
        laid = self.laid(ends, scale, gaps) if gaps else laid
        return laid if laid.fits(self.width, self.tallest) else None

    def laid(self, ends: Ends, scale: float, gaps: Sequence[Gap] = ()) -> Laid:
        """Everything at one scale."""
        names = letters()
        views = [self._parted(one, scale, gaps, names) for one in self._views(ends, broken=bool(gaps))]
        wide, high = _arranged(views, scale, self.width)
        details = [one for view in views for one in _details(view)]
        broad, under = _rows(details, self.width)
        for one in views:
            one.origin = one.origin + np.array([max(0.0, (broad - wide) / 2), under])
        for one in details:
            one.origin = one.origin + np.array([max(0.0, (wide - broad) / 2), 0.0])
        return Laid(views + details, scale, max(wide, broad), high, under)

    def _parted(self, one: Placed, scale: float, gaps: Sequence[Gap], names: Iterator[str]) -> Placed:
        one.view, one.details, one.small = parted(one.view, one.basis, scale, names)
        one.squeeze = Squeeze.of(gaps, one.basis, scale)
        return one

    def _shown(self) -> list[View]:
        spec = self.spec
        return [v for v in (spec.front, spec.beside_left, spec.beside_right, spec.below) if v]

    def _measure(self, view: View) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        if id(view) not in self._measured:
            looking = basis(view.right, view.up)
            self._measured[id(view)] = (looking, *extent(looking, self.spec.solids))
        return self._measured[id(view)]

    def _views(self, ends: Ends, *, broken: bool) -> list[Placed]:
        spec = self.spec
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
            both = ends is Ends.APART and spec.beside_left is not None and spec.beside_right is not None
            shown = column if not by_arrow else -1 if both and column == 0 else 1
            beside = view is spec.below and self.width > SLIM and not broken
            side = Side.RIGHT if beside else _notes_side(view, shown)
            out.append(Placed(view, *self._measure(view), column, line, notes_side=side, by_arrow=by_arrow))
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
        give_margins(one, scale, width)
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
        boxes = [v.box(scale) for v in mine]  # about their own origins
        before = max(-float(low[i]) + v.margins[sides[0]] for v, (low, _) in zip(mine, boxes, strict=True))
        after = max(float(high[i]) + v.margins[sides[1]] for v, (_, high) in zip(mine, boxes, strict=True))
        at += GAP if origins else 0.0
        origins[track] = at + before
        at += before + after
    return at, origins


# ------------------------------------------------------------------------------------------------ details
def _details(view: Placed) -> list[Placed]:
    """The details of a view, as views of their own."""
    out = []
    for detail in view.details:
        half = np.full(2, detail.radius)
        low, high = detail.centre - half, detail.centre + half
        out.append(Placed(detail.view, view.basis, low, high, 0, 0, notes_side=Side.RIGHT, detail=detail))
    return out


def _rows(details: Sequence[Placed], width: float) -> tuple[float, float]:
    """Put the details under the views, in rows from the top; (width, height) that all take."""
    rows: list[list[Placed]] = []
    used = 0.0
    for one in details:
        scale = one.own(1.0)
        give_margins(one, scale, width)
        wide = _wide(one) + GAP
        if not rows or used + wide - GAP > width - 2 * EDGE:
            rows.append([])
            used = 0.0
        rows[-1].append(one)
        used += wide
    y = broad = 0.0
    for row in reversed(rows):
        x = 0.0
        below = max(one.margins[Side.BELOW] for one in row)
        for one in row:
            one.origin = np.array([x + one.margins[Side.LEFT], y + below]) - one.box(one.own(1.0))[0]
            x += _wide(one) + GAP
        broad = max(broad, x - GAP)
        y += below + max(_tall(one) + one.margins[Side.ABOVE] for one in row) + GAP
    return broad, y


def _wide(one: Placed) -> float:
    low, high = one.box(one.own(1.0))
    return float(high[0] - low[0]) + one.margins[Side.LEFT] + one.margins[Side.RIGHT]


def _tall(one: Placed) -> float:
    low, high = one.box(one.own(1.0))
    return float(high[1] - low[1])
