"""Into how few bars do pieces go?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

SLACK = 1e-9
TRIES = 10_000
"""Placings tried before a plan is given as good instead of best."""
MOST_SEARCHED = 150
"""Items up to which a better plan is looked for."""

Bin = tuple[int, list[int]]
"""Which stock (its place among the offcuts, or a number past them for new bars), and the items put in it."""


def pack(items: Sequence[float], offcuts: Sequence[float], room: float) -> tuple[list[Bin], bool]:
    """Put items into offcuts and as few new bars as can be.

    `items` are lengths, longest first; `offcuts` and `room` the lengths of the stock. Returns the stock used with the
    places of its items, and whether fewer new bars are shown to be impossible.

    Example:
        >>> pack([6, 5, 5, 4], [], 10)
        ([(0, [0, 3]), (1, [1, 2])], True)
    """
    first = _fit_longest_first(items, offcuts, room)
    least = max(0, math.ceil((math.fsum(items) - math.fsum(offcuts)) / room - SLACK))
    if _new_bars(first, len(offcuts)) <= least:
        return first, True
    if len(items) > MOST_SEARCHED:
        return first, False
    search = _Search(tuple(items), tuple(offcuts), room, least, first)
    search.run()
    done = search.finished or _new_bars(search.best, len(offcuts)) <= least
    return search.best, done


@dataclass
class _Search:
    """Tries every placing of the items, longest first, that could beat the best plan so far."""

    items: tuple[float, ...]
    offcuts: tuple[float, ...]
    room: float
    least: int
    best: list[Bin]
    finished: bool = False
    tried: int = 0
    left: list[float] = field(default_factory=list)
    held: list[list[int]] = field(default_factory=list)
    behind: list[float] = field(default_factory=list)
    """What the items from each place on come to together."""

    def run(self) -> None:
        self.left = list(self.offcuts)
        self.held = [[] for _ in self.offcuts]
        self.behind = list(itertools.accumulate(reversed(self.items), initial=0.0))[::-1]
        self.finished = self._place(0)

    def _place(self, item: int) -> bool:
        """Place an item and those after it; false when the tries ran out."""
        self.tried += 1
        limit = _new_bars(self.best, len(self.offcuts))
        if len(self.left) - len(self.offcuts) >= limit or limit <= self.least:
            return True
        if item == len(self.items):
            self.best = [(number, list(items)) for number, items in enumerate(self.held) if items]
            return True
        if self.tried > TRIES or not self._can_beat(item, limit):
            return self.tried <= TRIES
        return self._place_in_each(item)

    def _place_in_each(self, item: int) -> bool:
        """Try an item in every bar begun, and then in a new one; bars with equal room are tried once."""
        length = self.items[item]
        rooms: set[float] = set()
        for number, left in enumerate(self.left):
            self.tried += 1
            if left + SLACK < length or left in rooms:
                continue
            rooms.add(left)
            if not self._put(item, number):
                return False
        if self.room + SLACK < length:
            return True
        self.left.append(self.room)
        self.held.append([])
        done = self._put(item, len(self.left) - 1)
        self.left.pop()
        self.held.pop()
        return done

    def _put(self, item: int, number: int) -> bool:
        self.left[number] -= self.items[item]
        self.held[number].append(item)
        done = self._place(item + 1)
        self.held[number].pop()
        self.left[number] += self.items[item]
        return done

    def _can_beat(self, item: int, limit: int) -> bool:
        """Return whether what is still to place can go into fewer bars than the best plan."""
        room_left = math.fsum(self.left)
        more = math.ceil((self.behind[item] - room_left) / self.room - SLACK)
        return len(self.left) - len(self.offcuts) + max(0, more) < limit


def _fit_longest_first(items: Sequence[float], offcuts: Sequence[float], room: float) -> list[Bin]:
    """Put each item, longest first, where it leaves least over."""
    left = list(offcuts)
    held: list[list[int]] = [[] for _ in offcuts]
    for item, length in enumerate(items):
        fits = [number for number, over in enumerate(left) if over + SLACK >= length]
        if fits:
            number = min(fits, key=lambda place: left[place])
        else:
            number = len(left)
            left.append(room)
            held.append([])
        left[number] -= length
        held[number].append(item)
    return [(number, placed) for number, placed in enumerate(held) if placed]


def _new_bars(bins: Sequence[Bin], offcuts: int) -> int:
    return sum(number >= offcuts for number, _ in bins)
