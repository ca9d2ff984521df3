"""Do two names mean one thread, parallel or taper, and how large is it?"""

from __future__ import annotations

import functools

from ..form.errors import NotInTable, OutOfRange
from .taper_threads import is_taper, taper_thread
from .thread_names import left_hand, of_starts, thread_size, thread_starts


@functools.lru_cache(maxsize=4096)
def thread_title(name: str) -> str:
    """The one name of a thread that people spell in several ways; empty where there is no such thread.

    The hand does not count. A tap and a die of one taper pipe size have one name, as the drawer does not hold both.
    """
    try:
        return taper_thread(name).name if is_taper(name) else of_starts(thread_size(name), thread_starts(name))
    except (NotInTable, OutOfRange, ValueError):
        return ""


def same_thread(name: str, other: str) -> bool:
    """Whether two names are of one thread of one hand."""
    title = thread_title(name)
    return bool(title) and title == thread_title(other) and left_hand(name) == left_hand(other)


def thread_diameter(name: str) -> float | None:
    """Outside diameter [mm] of a thread by its name, of a taper one at its gauge plane; None where there is none."""
    try:
        return taper_thread(name).gauge_major if is_taper(name) else thread_size(name).major
    except (NotInTable, OutOfRange, ValueError):
        return None
