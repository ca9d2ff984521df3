"""Which whole sets of drills does the trade sell by name?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from methodsheets.trade.threads.drills import drills_of

Sizes = Callable[[], tuple[tuple[str, float], ...]]


def _drills(system: str) -> Sizes:
    return lambda: tuple((one.name, one.diameter) for one in drills_of(system))


STANDARD_SETS: Mapping[str, Sizes] = MappingProxyType(
    {
        "number drills": _drills("number"),
        "letter drills": _drills("letter"),
        "fraction drills": _drills("fraction"),
        "metric drills": _drills("common"),
    }
)
"""'number drills' → function that gives (label, diameter in mm) of every size."""
