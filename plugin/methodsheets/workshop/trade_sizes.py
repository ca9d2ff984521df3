"""Which whole sets of drills does the trade sell by name, and how large is a thread of a name?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.threads.drills import drills_of
from methodsheets.trade.threads.thread_names import thread_size

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


def thread_diameter(name: str) -> float | None:
    """Outside diameter [mm] of a thread by its name; None where there is no thread of that name."""
    try:
        return thread_size(name).major
    except NotInTable:
        return None
