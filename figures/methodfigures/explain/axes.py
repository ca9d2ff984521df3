"""Which values stand on a scale, and how are they written?"""

from __future__ import annotations

import math


def plain(value: float) -> str:
    """A value on a scale."""
    return f"{round(value, 6):g}".replace("-", "−")


def even_steps(low: float, high: float, most: int = 8) -> list[float]:
    """Round values (1, 2, 2.5 or 5 times a power of ten apart) from `low` to `high`, at most `most` + 1 of them."""
    span = max(high - low, 1e-12)
    power = 10.0 ** math.floor(math.log10(span / most))
    step = next(power * f for f in (1, 2, 2.5, 5, 10, 20) if span / (power * f) <= most)
    first = math.ceil(low / step - 1e-9)
    return [round(k * step, 10) + 0.0 for k in range(first, math.floor(high / step + 1e-9) + 1)]
