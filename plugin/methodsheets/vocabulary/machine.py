"""Which kinds of machine are there, and what turns in each: the work, the tool, or nothing?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .spelling import Words


@dataclass(frozen=True, kw_only=True)
class MachineRow:
    """What the rooms ask of a kind of machine."""

    words: tuple[str, ...]
    """What it is called, the usual name first."""
    work_turns: bool = False
    """Whether the work turns in it and the tool stands still."""
    tool_turns: bool = False
    """Whether a spindle turns the tool."""
    upright: bool = False
    """Whether work about an axis stands in it, one end up."""
    by_hand: bool = False
    """Whether work may lie on it without a way of holding, and no tool is changed."""
    chart: tuple[float, float] | None = None
    """Diameters, mm, between which its speed chart for the wall runs; None where it has none."""
    minute_area: float = 150.0
    """mm² of section that is sawn through in a minute (common practice, an estimate)."""


class MachineKind(StrEnum):
    """A kind of machine, or the place where work is done by hand."""

    LATHE = "lathe"
    MILL = "mill"
    DRILL = "drill"
    SAW = "saw"
    PRESS = "press"
    BENCH = "bench"
    HEARTH = "hearth"
    GRINDER = "grinder"

    @property
    def row(self) -> MachineRow:
        """All that is known of it."""
        return MACHINES[self]

    @property
    def has_spindle(self) -> bool:
        """Whether cutting data are worked out for it."""
        return self.row.work_turns or self.row.tool_turns


MACHINES: Mapping[MachineKind, MachineRow] = MappingProxyType(
    {
        MachineKind.LATHE: MachineRow(
            words=("lathe", "centre lathe", "turning lathe"), work_turns=True, chart=(5.0, 200.0)
        ),
        MachineKind.MILL: MachineRow(
            words=("mill", "milling machine", "mill drill", "vertical mill", "miller"),
            tool_turns=True,
            upright=True,
            chart=(1.0, 60.0),
        ),
        MachineKind.DRILL: MachineRow(
            words=("drill", "drilling machine", "pillar drill", "bench drill", "drill press"),
            tool_turns=True,
            upright=True,
            chart=(1.0, 60.0),
        ),
        MachineKind.SAW: MachineRow(
            words=("saw", "bandsaw", "band saw", "power hacksaw", "sawing machine"), minute_area=350.0
        ),
        MachineKind.PRESS: MachineRow(
            words=("press", "arbor press", "fly press", "hydraulic press"), upright=True, by_hand=True
        ),
        MachineKind.BENCH: MachineRow(words=("bench", "bench vice", "fitting bench", "by hand"), by_hand=True),
        MachineKind.HEARTH: MachineRow(
            words=("hearth", "brazing hearth", "forge", "muffle", "furnace", "welding bench", "welding set"),
            by_hand=True,
        ),
        MachineKind.GRINDER: MachineRow(words=("grinder", "bench grinder", "grinding machine"), tool_turns=True),
    }
)
"""Every kind of machine."""


SPELLED: Words[MachineKind] = Words({kind: row.words for kind, row in MACHINES.items()})
"""Reads a kind of machine in the words of the trade."""


def on(kinds: str) -> tuple[MachineKind, ...]:
    """The kinds in a line: 'lathe mill'."""
    return tuple(MachineKind(kind) for kind in kinds.split())
