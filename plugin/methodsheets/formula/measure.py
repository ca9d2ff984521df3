"""A number as the page shows it: its value, its unit, and its words in millimetres and in inches."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Measure:
    """A quantity ready to print in either system; plain data, needs no units library."""

    value: float
    """The value in `unit`."""
    unit: str
    """The unit it is kept in, e.g. 'mm', '1/min', 'g'."""
    kind: str
    """What sort of quantity it is: 'length', 'size', 'spindle_speed', 'mass' …; it decides the rounding."""
    metric: str
    """'12.5 mm'."""
    inch: str
    """'0.492 in'; the same as `metric` where no inch form is used, e.g. '620 1/min'."""

    def __str__(self) -> str:
        return self.metric
