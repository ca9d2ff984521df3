"""From how many parts on is which of two methods the quicker one?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from methodsheets.sheet.model import Method, Totals
from methodsheets.sheet.spread import CUTTING_TIME, HANDLING_TIME, OWN_TIME

from .model import BreakEven, Pace, TimeLine
from .pace import kind_of

CLOSE = OWN_TIME.also(OWN_TIME).high - 1.0
"""Two times closer than this share of each other are called equal: each has a spread of its own."""
ALIKE = 1e-9
"""Part of the time of one part below which a difference is that of rounding, and two lines never cross."""


def time_line(method: Method, paces: Sequence[Pace] = ()) -> TimeLine:
    """How long a batch of a method takes, as a straight line over the number of parts.

    Parameters:
        paces: by which its times were corrected: how far they may be off takes the place of the ends of an estimate;
            too few timings say no more of it than an estimate does
    """
    totals = method.totals or Totals(method.makes, 0.0, 0.0, 0.0, 0.0, 0.0)
    each, recorded, cut = totals.cutting_minutes + totals.handling_minutes, [], 0.0
    for pace in (one for one in paces if one.factor > 0):
        mine = [one for one in method.operations if kind_of(one) == pace.kind]
        minutes = pace.factor * sum(one.cutting_minutes + one.handling_minutes for one in mine)
        if minutes:
            ends = [end / pace.factor for end in (pace.low, pace.high) if end is not None] or HANDLING_TIME.of(1.0)
            recorded.append((pace.kind, minutes, min(ends), max(ends)))
            cut += pace.factor * sum(one.cutting_minutes for one in mine)
    cutting = max(0.0, totals.cutting_minutes - cut)
    return TimeLine(method.slug, method.title, totals.setting_minutes, each, cutting, tuple(recorded))


def quicker_first(one: TimeLine, other: TimeLine) -> tuple[TimeLine, TimeLine]:
    """The two in the order of what they take for one part."""
    return (one, other) if one.minutes(1) <= other.minutes(1) else (other, one)


def break_even(one: TimeLine, other: TimeLine) -> BreakEven:
    """From how many parts on the method that is slower at first becomes the quicker one, and what nobody can tell."""
    first, second = quicker_first(one, other)
    saved = first.each - second.each
    crosses = saved > ALIKE * max(first.each, second.each)
    parts = math.floor((second.setting - first.setting) / saved + 1e-9) + 1 if crosses else None
    return BreakEven(first.slug, second.slug, parts, _told(first, second))


def _told(first: TimeLine, second: TimeLine) -> str:
    """Which is quicker for how many parts; where an estimate cannot tell them apart, that is said."""
    runs = _runs(first, second)
    said = []
    for index, (start, who) in enumerate(runs):
        end = runs[index + 1][0] - 1 if index + 1 < len(runs) else None
        verdict = f"{who.title} is quicker" if who else f"{first.title} and {second.title} take about the same time"
        if who is None and len(runs) > 1:
            verdict = "they take about the same time"
        said.append(f"{_range_words(start, end)} {verdict}")
    words = ", ".join(said) + "."
    return words[:1].upper() + words[1:]


def _range_words(start: int, end: int | None) -> str:
    if end is None:
        return "for any number of parts" if start == 1 else f"from {start} on"
    if start == end:
        return "for one part" if start == 1 else f"for {start}"
    return f"up to {end} parts" if start == 1 else f"for {start} to {end}"


def _runs(first: TimeLine, second: TimeLine) -> list[tuple[int, TimeLine | None]]:
    """(smallest batch, the quicker one or None) of each run of batch sizes of which the same is said."""
    changes = {1}
    for mine, theirs in _at_the_ends(first, second):
        for sign in (-1.0, 1.0):  # the difference of the times leaves the band on either side
            once, each = (b - a + sign * CLOSE * a for a, b in zip(mine, theirs, strict=True))
            if each and -once / each > 0:
                root = -once / each
                changes |= {max(1, math.floor(root) + step) for step in (0, 1)}
    runs: list[tuple[int, TimeLine | None]] = []
    for parts in sorted(changes):
        who = quicker(first, second, parts)
        if not runs or runs[-1][1] is not who:
            runs.append((parts, who))
    return runs


def quicker(first: TimeLine, second: TimeLine, parts: float) -> TimeLine | None:
    """The quicker of two for a batch; None where the ends of the estimates do not let it be told.

    The shop is as quick or slow with the one as with the other, so that both are taken at the same ends.
    """
    low, high = same_band(first, second, parts)
    apart = second.minutes(parts) - first.minutes(parts)
    if low - 1e-9 <= apart <= high + 1e-9:
        return None
    return first if apart > high else second


def same_band(first: TimeLine, second: TimeLine, parts: float) -> tuple[float, float]:
    """Between which differences of their likely times, second less first in minutes, none of the two is the quicker."""
    apart = second.minutes(parts) - first.minutes(parts)
    ends = [(one + each * parts, once + more * parts) for (one, each), (once, more) in _at_the_ends(first, second)]
    low = min(apart - (theirs - mine) - CLOSE * mine for mine, theirs in ends)
    high = max(apart - (theirs - mine) + CLOSE * mine for mine, theirs in ends)
    return low, high


def quickest(lines: Sequence[TimeLine], parts: int) -> int | None:
    """Index of the one that is quicker than every other for a batch, as sure as the estimates are; None without one."""
    for index, one in enumerate(lines):
        others = [other for place, other in enumerate(lines) if place != index]
        if others and all(quicker(*quicker_first(one, other), parts) is one for other in others):
            return index
    return None


_Line: TypeAlias = tuple[float, float]
"""Minutes once, and for each part."""


def _at_the_ends(first: TimeLine, second: TimeLine) -> Iterator[tuple[_Line, _Line]]:
    """Both times with the pace of the shop at each of its ends: at the cut, at all that is done by hand, and at each
    kind of work that was timed.
    """
    timed = {kind: (low, high) for line in (first, second) for kind, _, low, high in line.recorded}
    ends = [(s.low, 1.0, s.high) for s in (CUTTING_TIME, HANDLING_TIME)]
    for cutting, handling, *shares in itertools.product(*ends, *timed.values()):
        by_kind = dict(zip(timed, shares, strict=True))

        def at(line: TimeLine, cut: float = cutting, hand: float = handling, by: dict[str, float] = by_kind) -> _Line:
            known = sum(minutes for _, minutes, _, _ in line.recorded)
            each = cut * line.cutting + hand * (line.each - known - line.cutting)
            return hand * line.setting, each + sum(by[kind] * minutes for kind, minutes, _, _ in line.recorded)

        yield at(first), at(second)
