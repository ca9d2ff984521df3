"""How are the ends of an estimate said?"""

from __future__ import annotations

from methodsheets.sheet.spread import Spread

from .say import both


def between(spread: Spread, value: float, kind: str) -> str:
    """A draft: '168 W to 312 W'."""
    low, high = spread.of(value)
    return f"{both(low, kind)} to {both(high, kind)}"
