"""How does one line of a comparison stand: its values, whether they differ, and which of them is better?"""

from __future__ import annotations

import math
from collections.abc import Sequence

from methodsheets.formula.display import measure
from methodsheets.formula.measure import Measure
from methodsheets.sheet.words import Words

from .model import Cell, ComparisonRow

NOTHING = Words("–")
NOT_KNOWN = Words("not known")
"""What stands in the field of a method that has no such thing."""

MATTERS = 0.02
"""Two values that are no estimates are called equal within this share of each other."""


def numbers(
    group: str,
    label: str,
    values: Sequence[float | None],
    kind: str,
    *,
    more_is_better: bool | None = False,
    unit: str = "",
    note: Words | str = "",
    currency: str = "",
    recalled: bool = False,
    close: float = MATTERS,
) -> ComparisonRow:
    """One line of numbers.

    Parameters:
        values: in the unit of the kind; None where a method has none
        more_is_better: None where it is no matter of better and worse
        close: share of each other within which values count as the same
    """
    cells: tuple[Cell, ...] = tuple(
        NOTHING if value is None else measure(value, kind, unit, currency=currency) for value in values
    )
    better = None if more_is_better is None else best(values, more=more_is_better, close=close)
    return ComparisonRow(group, label, cells, differ(cells), better, as_words(note), recalled=recalled)


def best(values: Sequence[float | None], *, more: bool, close: float = MATTERS) -> int | None:
    """Index of the one value that is better than every other by more than what can be told; None without one."""
    if any(value is None or not math.isfinite(value) for value in values) or len(values) < 2:
        return None
    known = [value for value in values if value is not None]
    order = sorted(range(len(known)), key=lambda place: known[place], reverse=more)
    first, second = known[order[0]], known[order[1]]
    apart = abs(first - second) > close * max(abs(first), abs(second))
    return order[0] if apart else None


def differ(cells: Sequence[Cell]) -> bool:
    """Whether a reader sees a difference."""
    return len({cell.metric if isinstance(cell, Measure) else cell for cell in cells}) > 1


def worded(group: str, label: str, values: Sequence[Words | str]) -> ComparisonRow:
    """One line of words; a dash where a method has none."""
    cells: tuple[Cell, ...] = tuple(as_words(value) if value else NOTHING for value in values)
    return ComparisonRow(group, label, cells, differ(cells), None)


def as_words(said: Words | str) -> Words:
    """Plain text as words that are the same in both units."""
    return Words(said) if isinstance(said, str) else said


def number_of(found: Measure | None) -> float | None:
    """The bare number of a measure, in its unit; None where there is none."""
    return found.value if found is not None else None
