"""What does a page say of a workshop: its machines, ways of holding, tools, dividing, and charts for the wall?"""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.formula.measure import Measure
from methodsheets.reading.problem import Problem


@dataclass(frozen=True)
class MachineCard:
    """What a page says of one machine."""

    key: str
    kind: str
    name: str
    facts: tuple[tuple[str, Measure | str], ...]
    """(label, value): power, bore, swing, dials …"""
    speeds: tuple[float, ...] = ()
    """[1/min] steps, where it has steps."""
    speed_ranges: tuple[tuple[float, float], ...] = ()
    """[1/min] ranges, where it has none."""
    feeds: str = ""
    note: str = ""


@dataclass(frozen=True)
class DividingCard:
    """What a page says of one rotary table or dividing head."""

    key: str
    name: str
    ratio: float
    division: float
    """[deg]"""
    vernier: float
    """[deg]"""
    plates: tuple[tuple[str, tuple[int, ...]], ...]


@dataclass(frozen=True)
class HoldingCard:
    """What a page says of one way of holding."""

    key: str
    kind: str
    name: str
    facts: tuple[tuple[str, Measure | str], ...]


@dataclass(frozen=True)
class ToolCard:
    """What a page says of one tool or set of tools."""

    key: str
    kind: str
    name: str
    material: str
    facts: tuple[tuple[str, Measure | str], ...]
    sizes: tuple[tuple[str, float], ...] = ()
    """(label, mm) of a set."""


ChartCell = Measure | str
"""What stands in one field of a wall chart."""


@dataclass(frozen=True)
class WallChart:
    """A chart of a workshop's own, to print and pin up: every row begins with what one looks for."""

    key: str
    title: str
    lead: str
    columns: tuple[str, ...]
    rows: tuple[tuple[ChartCell, ...], ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class WallCharts:
    """All charts of one workshop, as the store keeps them."""

    charts: tuple[WallChart, ...] = ()
    lasting: bool = True
    """Whether they may be kept: not where the program or the machine failed on them."""


@dataclass(frozen=True)
class WorkshopCard:
    """What a page says of one workshop."""

    key: str
    name: str
    summary: str
    units: str
    """'metric' or 'inch': what its owner thinks in."""
    path: str
    machines: tuple[MachineCard, ...] = ()
    holdings: tuple[HoldingCard, ...] = ()
    tools: tuple[ToolCard, ...] = ()
    dividing: tuple[DividingCard, ...] = ()
    currency: str = ""
    hour: float = 0.0
    """Money for an hour at a machine; 0 where not said."""
    machine_hours: tuple[tuple[str, float], ...] = ()
    """(key, money for an hour) of the machines that differ."""
    problems: tuple[Problem, ...] = ()
