"""How far out from its view lies each dimension and each note, and how much room do they take?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from methodfigures.paper import text as lettering
from methodfigures.paper.dimensions import TIGHT
from methodfigures.paper.lanes import Note
from methodfigures.paper.shapes import Points
from methodfigures.part.breaks import AWAY, Squeeze
from methodfigures.part.details import Detail, Small
from methodfigures.part.notes import BALLOON, DATUM, FRAME, SURFACE, Room, height, symbol_room
from methodfigures.part.spec import Callout, Side, Size, Spot, View
from methodfigures.solids.mesh import Floats

EDGE: Final = 4.0
"""Free border of the sheet, mm."""
FIRST_LANE: Final = 8.5
LANE: Final = 7.0
"""Distance of the first dimension line from its view, and of one from the next (ISO 129-1 asks for 10 and 7; the first
is drawn closer where the sheet is small)."""
HEADS_OUTSIDE: Final = 5.5
"""How far the line of a short dimension, its heads outside, runs beyond each end."""
CLEAR_ABOVE: Final = 2.0
"""mm from a view to the first landing over it."""
CUT_MARK: Final = 12.0
"""mm that the end of a cut's line takes outside its view, with arrow and letter."""
OVER: Final = 1.5
"""How far the centre lines of a circle run past it, mm."""
SPOT: Final = 1.2
"""Notes of areas whose dots would touch one another, so many mm apart, are one note."""
COLUMN: Final = 36.0
"""Widest line of a note beside a view."""


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
    squeeze: Squeeze = field(default_factory=Squeeze)
    """What is left out of it."""
    detail: Detail | None = None
    """What it enlarges, where it is a detail."""
    details: list[Detail] = field(default_factory=list)
    """What of it is enlarged elsewhere."""
    small: list[Small] = field(default_factory=list)
    """Places where its lines would run together."""

    @property
    def title(self) -> str:
        """Its name under it; one that stands apart says that its arrow shows whence it is seen."""
        return f"{self.view.title},\nseen from outside" if self.by_arrow and self.view.title else self.view.title

    @property
    def cut_line(self) -> tuple[Spot, ...]:
        """Ends and bends of the line of a cut that it shows; a detail of it shows none."""
        return () if self.detail else self.view.cut_line

    def own(self, scale: float) -> float:
        """Its scale on a sheet of another: that of a detail is its own."""
        return self.detail.scale if self.detail else scale

    def seen(self, place: Points, scale: float) -> Points:
        """A point in view coordinates on the paper."""
        on_paper: Points = self.squeeze.at(place) * scale + self.origin
        return on_paper

    def spot(self, xyz: Sequence[float], scale: float) -> Points:
        """A point of the work on the paper."""
        return self.seen((self.basis @ np.asarray(xyz, float))[:2], scale)

    def tip(self, xyz: Sequence[float], scale: float) -> Points:
        """Where a leader to a point of the work ends: clear of the breaks."""
        on_paper: Points = self.squeeze.beside((self.basis @ np.asarray(xyz, float))[:2], AWAY / scale) * scale
        return on_paper + self.origin

    def box(self, scale: float) -> tuple[Points, Points]:
        """Lower left and upper right corner of the picture on the paper."""
        return self.seen(self.low, scale), self.seen(self.high, scale)

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


def give_margins(one: Placed, scale: float, width: float) -> None:
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
    for ring in one.view.circles:  # centre lines run past it
        centre, rim = one.spot(ring.centre, scale), ring.diameter / 2 * scale + OVER
        for i, (before, past) in enumerate(((Side.LEFT, Side.RIGHT), (Side.BELOW, Side.ABOVE))):
            one.margins[past] = max(one.margins[past], float(centre[i] - high[i]) + rim + 1.0)
            one.margins[before] = max(one.margins[before], float(low[i] - centre[i]) + rim + 1.0)
    if one.cut_line:  # its arrows and letters stand outside
        for side in (Side.LEFT, Side.RIGHT, Side.BELOW):
            one.margins[side] = max(one.margins[side], CUT_MARK)
    one.clear = one.margins[one.notes_side]
    if one.view.callouts:
        one.margins[one.notes_side] += _notes_room(one, scale, width)
    if one.view.callouts and one.notes_side.upright:
        notes = notes_of(one, scale, width)
        over = column_step(notes) * len(notes) - float(high[1] - low[1])
        one.margins[Side.ABOVE] = max(one.margins[Side.ABOVE], 4.0 + column_step(notes), over + 9.0)
    if one.title:
        one.margins[Side.BELOW] += 6.5 + one.title.count("\n") * lettering.HEIGHT * lettering.LEADING
        spare = (lettering.width(one.title) - float(high[0] - low[0])) / 2
        for side in (Side.LEFT, Side.RIGHT):
            one.margins[side] = max(one.margins[side], spare)


def notes_of(one: Placed, scale: float, width: float) -> list[Note]:
    """The notes of a view with their spots on the paper."""
    room = COLUMN if one.notes_side.upright else max(COLUMN, 0.45 * width)
    found: list[tuple[Points, str, bool]] = []
    for callout in one.view.callouts:
        spot, words = one.tip(callout.spot, scale), lettered(callout)
        here = next((n for n in found if callout.area and n[2] and math.hypot(*(n[0] - spot)) < SPOT), None)
        if here is not None:
            found = [note for note in found if note is not here]
            spot, words = here[0], f"{here[1]}, {words}".replace(f"{BALLOON}, {BALLOON}", BALLOON)
        found.append((spot, words, callout.area))
    return [Note((float(x), float(y)), _wrapped(w, room), area) for (x, y), w, area in found]


def lettered(callout: Callout) -> str:
    """The words of a note, with the room that its symbol takes."""
    if callout.frame:
        return f"{FRAME}{callout.words}{DATUM * 2}{callout.frame}{DATUM}"
    if callout.datum:
        return f"{DATUM}{callout.words}{DATUM}"
    if callout.surface:
        return SURFACE + callout.words
    return f"{BALLOON}{callout.words}{BALLOON}" if callout.item else callout.words


def _wrapped(words: str, room: float) -> str:
    return words if words.startswith((BALLOON, DATUM)) else "\n".join(lettering.wrap(words, room))


def beside_view(one: Placed) -> float:
    """Distance of the notes beside a view from it, mm: past the arrow of a cut."""
    return 14.0 if one.cut_line else 5.0


def column_step(notes: Sequence[Note]) -> float:
    """Distance of two notes of a column, mm: more where one of them has several lines."""
    more = (lettering.HEIGHT * lettering.LEADING * note.words.count("\n") + symbol_room(note) for note in notes)
    return LANE + max(more, default=0.0)


def _notes_room(one: Placed, scale: float, width: float) -> float:
    notes = notes_of(one, scale, width)
    if one.notes_side.upright:
        return beside_view(one) + 2.0 + max(lettering.width(note.words) for note in notes)
    low, high = one.box(scale)
    spare = max(0.0, width - 2 * EDGE - float(high[0] - low[0])) / 2
    middle = float(low[0] + high[0]) / 2
    stairs = height(notes, Room(float(high[1]), middle, float(low[0]) - spare, float(high[0]) + spare))
    return stairs + first_stair(one, notes) - CLEAR_ABOVE


def first_stair(one: Placed, notes: Sequence[Note]) -> float:
    """Distance of the first landing from a view and its dimensions, mm; under it words and symbols stand between."""
    if one.notes_side is not Side.BELOW:
        return CLEAR_ABOVE
    return 5.0 + max((symbol_room(note) for note in notes), default=0.0)
