"""How is a chart ruled: a field with straight or logarithmic scales, its grid and its figures?"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import text as lettering
from methodfigures.paper.sheet import FINE, Sheet

LOG_STEPS: Final = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
"""Ruled values of a decade, common practice."""


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


def log_steps(low: float, high: float) -> list[float]:
    """Round values of a logarithmic scale from `low` to `high`."""
    out = []
    for decade in range(math.floor(math.log10(low)) - 1, math.ceil(math.log10(high)) + 1):
        out += [round(f * 10.0**decade, 10) for f in LOG_STEPS]
    return [v for v in out if low * 0.9999 <= v <= high * 1.0001]


@dataclass(frozen=True)
class Field:
    """The ruled field of a chart: lower left corner, size on the paper, ranges of both scales."""

    left: float
    low: float
    width: float
    height: float
    across: tuple[float, float]
    up: tuple[float, float]
    log_across: bool = False
    log_up: bool = False

    def x(self, value: float) -> float:
        """Paper x of a value."""
        return self.left + self.width * _share(value, self.across, self.log_across)

    def y(self, value: float) -> float:
        """Paper y of a value."""
        return self.low + self.height * _share(value, self.up, self.log_up)

    @property
    def right(self) -> float:
        """Right edge."""
        return self.left + self.width

    @property
    def top(self) -> float:
        """Upper edge."""
        return self.low + self.height

    @property
    def box(self) -> shapely.Polygon:
        """The field itself."""
        return shapely.box(self.left, self.low, self.right, self.top)

    def curve(self, xs: Sequence[float], ys: Sequence[float]) -> np.ndarray:
        """Points of a curve on the paper."""
        return np.array([[self.x(a), self.y(b)] for a, b in zip(xs, ys, strict=True)])

    def grid(
        self,
        sheet: Sheet,
        xs: Sequence[float],
        ys: Sequence[float],
        *,
        x_words: Callable[[float], str] = plain,
        y_words: Callable[[float], str] = plain,
    ) -> None:
        """Fine lines with their values; a value that has no room is left out."""
        last = -99.0
        for v in xs:
            x, words = self.x(v), x_words(v)
            sheet.lines([[(x, self.low), (x, self.top)]], FINE, 1.0, ink=False)
            if x - lettering.width(words, 2.2) / 2 > last + 1.2:
                sheet.text(x, self.low - 4.4, words, 2.2)
                last = x + lettering.width(words, 2.2) / 2
        last = -99.0
        for v in ys:
            y = self.y(v)
            sheet.lines([[(self.left, y), (self.right, y)]], FINE, 1.0, ink=False)
            if y - 1.1 > last + 0.6:
                sheet.text(self.left - 1.8, y, y_words(v), 2.2, align="right", level="middle")
                last = y + 1.1
        sheet.outline(self.box, "narrow", 3.0, ink=False)

    def titles(self, sheet: Sheet, across: str, up: str, x: float = 5.5) -> None:
        """What the scales mean: below, and turned at the left."""
        sheet.text(self.left + self.width / 2, self.low - 10.5, across)
        sheet.text(x, self.low + self.height / 2, up, turn=90)


def _share(value: float, scale: tuple[float, float], log: bool) -> float:
    low, high = scale
    return math.log(value / low) / math.log(high / low) if log else (value - low) / (high - low)
