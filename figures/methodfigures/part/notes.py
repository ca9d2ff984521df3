"""Where do the notes of a view stand, so that no leader crosses another's lettering?

Notes over a view stand in two flights of stairs. Those of its left half have their lettering to the left, each higher
than the one left of it; those of its right half the other way about: a leader then rises past the lower notes on the
side where they have no lettering. Under a view the same is mirrored. Where spots lie close together or under one
another, neighbours change places, or sides, as long as fewer lines cross.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import Note

STAIR: Final = 5.4
"""Height of one stair, mm."""
APART: Final = 2.2
"""Least distance of two elbows of one flight, mm."""
TRIES: Final = 40
"""Rounds of changing places, at most."""
LOOKS: Final = 200_000
"""Pairs of lines and letterings that are looked at in all of them; where that is not enough for a round, notes stay."""

BALLOON: Final = "\u2007"
SURFACE: Final = BALLOON * 4
"""Room for a balloon on both sides of a number, and for the symbol of a surface before its words."""
FRAME: Final = BALLOON * 3
"""Room for the symbol of a run-out before its words."""
DATUM: Final = "\u00a0"
"""Room on both sides of the letter of a datum."""
SYMBOL: Final = 8.0
"""Height of the symbol of a surface over its landing with some air, mm."""

Flights = tuple[tuple[Note, ...], tuple[Note, ...]]
"""Notes of the left and of the right flight, each from the lowest to the highest."""


@dataclass(frozen=True)
class Standing:
    """A note in its place: its elbow, and whether its lettering runs to the right of it."""

    note: Note
    x: float
    y: float
    right: bool

    @property
    def far(self) -> float:
        """X of the end of the landing."""
        return self.x + (lettering.width(self.note.words) + 1.0) * (1 if self.right else -1)


@dataclass(frozen=True)
class Room:
    """Where lettering may stand: between `low` and `high`, first landing at `y`, halves parted at `middle`."""

    y: float
    middle: float
    low: float
    high: float


def tall(note: Note) -> float:
    """Height that a note with its landing takes in a flight, mm."""
    return STAIR + note.words.count("\n") * lettering.HEIGHT * lettering.LEADING + symbol_room(note)


def symbol_room(note: Note) -> float:
    """What the symbol of a surface takes more than one line of words, mm."""
    return max(0.0, SYMBOL + 1.2 - STAIR) if note.words.startswith(SURFACE) else 0.0


def flights(notes: Sequence[Note], room: Room) -> list[Standing]:
    """Every note in its place; one that would run off the sheet takes two lines, if that is better."""
    return _standing(min(_possible(notes, room), key=lambda one: _cost(one, room)), room)


def _possible(notes: Sequence[Note], room: Room) -> list[Flights]:
    """As they are; and in two lines those that would run off the sheet."""
    best = _arranged(notes, room)
    off = {one.note for one in _standing(best, room) if not _within(one, room)}
    return [best, _arranged([_in_two(n) if n in off else n for n in notes], room)] if off else [best]


def _within(one: Standing, room: Room) -> bool:
    return min(one.x, one.far) >= room.low and max(one.x, one.far) <= room.high


def _in_two(note: Note) -> Note:
    """A note in two lines of about one length; in one where it has neither blank nor hyphen, or has lines already."""
    words = re.findall(r"[^ -]+[ -]?", note.words)
    if len(words) < 2 or "\n" in note.words:
        return note
    lines = [("".join(words[:i]).rstrip(" "), "".join(words[i:])) for i in range(1, len(words))]
    return replace(note, words="\n".join(min(lines, key=lambda two: max(map(lettering.width, two)))))


def _arranged(notes: Sequence[Note], room: Room) -> Flights:
    """The notes in the two flights: those of each half, changed as long as less is in the way."""
    ordered = sorted(notes, key=lambda n: n.spot)
    left = tuple(n for n in ordered if _goes_left(n, room))
    right = tuple(sorted((n for n in ordered if n not in left), key=lambda n: (-n.spot[0], n.spot[1])))
    best: Flights = (left, right)
    least = _cost(best, room)
    for _ in range(min(TRIES, LOOKS // max(1, _looks(len(notes))))):
        if least[0] == 0:
            break
        found = min(_changed(best), key=lambda one: _cost(one, room), default=best)
        cost = _cost(found, room)
        if cost >= least:
            break
        best, least = found, cost
    return best


def height(notes: Sequence[Note], room: Room) -> float:
    """Height that the notes take over their view, mm."""
    possible = [standing for both in _possible(notes, room) for standing in _standing(both, room)]
    tops = [standing.y + tall(standing.note) for standing in possible]
    return max(tops) - room.y + 3.6 if tops else 0.0


def _standing(both: Flights, room: Room) -> list[Standing]:
    left, right = both
    out: list[Standing] = []
    elbow = room.high
    for note, level in reversed(_levels(left, room)):
        elbow = min(note.spot[0] - 1.0, elbow - APART)
        out.append(Standing(note, elbow, level, False))
    elbow = room.low
    for note, level in reversed(_levels(right, room)):
        elbow = max(note.spot[0] + 1.0, elbow + APART)
        out.append(Standing(note, elbow, level, True))
    return out


def _levels(flight: Sequence[Note], room: Room) -> list[tuple[Note, float]]:
    """The height of each landing of a flight."""
    heights = itertools.accumulate((tall(note) for note in flight), initial=room.y)
    return list(zip(flight, heights, strict=False))


def _goes_left(note: Note, room: Room) -> bool:
    """Whether a note has its lettering to the left: in the left half, if it fits there, or where nothing else does."""
    wide = lettering.width(note.words) + 3.0
    fits_left, fits_right = note.spot[0] - wide >= room.low, note.spot[0] + wide <= room.high
    if note.spot[0] < room.middle:
        return fits_left or not fits_right
    return fits_left and not fits_right


def _changed(both: Flights) -> Iterator[Flights]:
    """Every arrangement in which two neighbours of a flight have changed places, or one note its side."""
    for side, flight in enumerate(both):
        other = both[1 - side]
        for i in range(len(flight)):
            if i + 1 < len(flight):
                swapped = (*flight[:i], flight[i + 1], flight[i], *flight[i + 2 :])
                yield (swapped, other) if side == 0 else (other, swapped)
            rest = (*flight[:i], *flight[i + 1 :])
            for k in range(len(other) + 1):
                joined = (*other[:k], flight[i], *other[k:])
                yield (rest, joined) if side == 0 else (joined, rest)


def _looks(count: int) -> int:
    """Pairs that a round of changing places looks at, at most: the lines and letterings of each arrangement."""
    return 2 * count**2 * (count**2 // 2 + 2 * count + 1)


def _cost(both: Flights, room: Room) -> tuple[int, float]:
    """(crossings and overlaps, length of the leaders: from the spot over the elbow to the end of the landing)."""
    standing = _standing(both, room)
    spots = np.array([one.note.spot for one in standing]).reshape(-1, 2)
    x, y, far, top = np.array([(one.x, one.y, one.far, one.y + tall(one.note)) for one in standing]).reshape(-1, 4).T
    elbows, ends = np.stack([x, y], axis=1), np.stack([far, y], axis=1)
    lines = np.asarray(shapely.linestrings(np.stack([spots, elbows, ends], axis=1)), object)
    boxes = np.asarray(shapely.box(np.minimum(x, far), y + 0.3, np.maximum(x, far), top - 1.2), object)
    first, second = np.triu_indices(len(standing), 1)
    bad = sum(
        int(shapely.intersects(one[first], other[second]).sum())
        for one, other in ((lines, lines), (boxes, boxes), (lines, boxes), (boxes, lines))
    )
    bad += sum(int(not _within(one, room)) for one in standing)
    return bad, float(shapely.length(lines).sum())
