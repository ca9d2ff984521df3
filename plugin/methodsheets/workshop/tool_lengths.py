"""How long is a drill, a reamer or a cutter of a size, where the workshop does not say?"""

from __future__ import annotations

import csv
import functools
from pathlib import Path

FOR_HAND = frozenset({"hand reamer", "hand tap"})
"""Series of tools with a square for a tap wrench."""
TABLE = Path(__file__).parent / "tool_lengths.csv"


@functools.cache
def _table() -> dict[str, tuple[tuple[float, float, float], ...]]:
    """Series → (up to diameter, overall length, length of the flutes), all in mm, rising."""
    lines = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    found: dict[str, list[tuple[float, float, float]]] = {}
    for row in csv.DictReader(lines):
        sizes = (float(row["to"]), float(row["overall"]), float(row["flutes"]))
        found.setdefault(row["series"], []).append(sizes)
    return {series: tuple(sorted(rows)) for series, rows in found.items()}


def series() -> tuple[str, ...]:
    """The series of lengths that there are: 'jobber', 'hand reamer' …"""
    return tuple(_table())


def for_hand(name: str) -> bool:
    """Whether a series is of tools that a hand turns."""
    return name in FOR_HAND


def lengths_of(name: str, diameter: float) -> tuple[float, float] | None:
    """Overall length and length of the flutes [mm] of a tool of a series.

    Parameters:
        name: the series
        diameter: [mm]

    Returns:
        None where there is no such series, or where it ends below that diameter.
    """
    rows = _table().get(name, ())
    return next(((overall, flutes) for to, overall, flutes in rows if diameter <= to + 1e-6), None)
