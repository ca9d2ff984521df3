"""From how many parts on is which of two methods the quicker one?"""

from __future__ import annotations

import math

from methodsheets.sheet.model import Method, Totals

from .model import BreakEven, TimeLine

MATTERS = 0.02
"""Two values closer than this share of each other are called equal: no estimate of time is better than that."""


def time_line(method: Method) -> TimeLine:
    """How long a batch of a method takes, as a straight line over the number of parts."""
    totals = method.totals or Totals(method.makes, 0.0, 0.0, 0.0, 0.0, 0.0)
    each = totals.cutting_minutes + totals.handling_minutes
    return TimeLine(method.slug, method.title, totals.setting_minutes, each)


def quicker_first(one: TimeLine, other: TimeLine) -> tuple[TimeLine, TimeLine]:
    """The two in the order of what they take for one part."""
    return (one, other) if one.minutes(1) <= other.minutes(1) else (other, one)


def break_even(one: TimeLine, other: TimeLine) -> BreakEven:
    """From how many parts on the method that is slower at first becomes the quicker one, and what nobody can tell."""
    first, second = quicker_first(one, other)
    saved = first.each - second.each
    parts = math.floor((second.setting - first.setting) / saved + 1e-9) + 1 if saved > 0 else None
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
    for sign in (-1.0, 1.0):  # the difference of the times leaves the band on either side
        once = second.setting - first.setting + sign * MATTERS * first.setting
        each = second.each - first.each + sign * MATTERS * first.each
        if each and -once / each > 0:
            root = -once / each
            changes |= {max(1, math.floor(root) + step) for step in (0, 1)}
    runs: list[tuple[int, TimeLine | None]] = []
    for parts in sorted(changes):
        who = _quicker(first, second, parts)
        if not runs or runs[-1][1] is not who:
            runs.append((parts, who))
    return runs


def _quicker(first: TimeLine, second: TimeLine, parts: int) -> TimeLine | None:
    """The quicker of two for a batch; None where they are too close to tell."""
    apart = second.minutes(parts) - first.minutes(parts)
    if abs(apart) <= MATTERS * first.minutes(parts) + 1e-9:
        return None
    return first if apart > 0 else second
