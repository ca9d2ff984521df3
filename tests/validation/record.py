"""Keeps what the validation tests compared, and prints it as a table.

A value is *worked* when a formula of ours was tried on a published case, and *copied* when a table of ours was held
against the page it was taken from, or against another copy: that finds slips of the pen, and says nothing of a formula.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from contextvars import ContextVar
from dataclasses import dataclass

RECORDS: list[Record] = []
COPYING: ContextVar[bool] = ContextVar("copying", default=False)
"""Set while a test marked `copied` runs."""
CALLED: set[str] = set()
"""Calculations that the test which is running has called itself, not through another one."""


@dataclass(frozen=True)
class Record:
    """One value compared with a published one."""

    subject: str
    source: str
    value: float
    expected: float
    copied: bool = False
    calculations: frozenset[str] = frozenset()
    """Calculations that the test had called."""

    @property
    def from_memory(self) -> bool:
        """Whether the source was recalled, not read."""
        return "from memory" in self.source.lower()

    @property
    def deviation(self) -> float:
        """How far off: as a share of the published value, or outright where that is nothing."""
        return abs(self.value - self.expected) / (abs(self.expected) or 1.0)


def record(subject: str, source: str, value: float, expected: float) -> None:
    """Note that a value was compared with a published one."""
    RECORDS.append(Record(subject, source, float(value), float(expected), COPYING.get(), frozenset(CALLED)))


def table(records: tuple[Record, ...], sources: bool = True) -> list[str]:
    """Return the lines of the table: subject, values worked and copied, share from memory, largest deviation, sources."""
    lines = [
        f"{'subject':<30}{'worked':>8}{'copied':>8}{'from memory':>13}{'share':>8}{'largest deviation':>20}{'sources':>9}"
    ]
    for subject in sorted({entry.subject for entry in records}):
        mine = [entry for entry in records if entry.subject == subject]
        names = sorted({entry.source for entry in mine})
        worst = max(mine, key=lambda entry: entry.deviation)
        lines.append(f"{subject:<30}{_counts(mine)}{f'{100 * worst.deviation:.3f} %':>20}{len(names):>9}")
        if sources:
            for name in names:
                lines += textwrap.wrap(name, 110, initial_indent="    - ", subsequent_indent="      ")
    lines.append(f"{'in all':<30}{_counts(records)}")
    lines += [
        "",
        "worked: a formula tried on a published case. copied: a table of ours held against its page, or another copy.",
    ]
    return lines


def checks_of(records: Sequence[Record]) -> dict[str, int]:
    """How many different published values each calculation was held against, by its name."""
    found: dict[str, set[tuple[str, float]]] = {}
    for entry in records:
        for name in entry.calculations:
            found.setdefault(name, set()).add((entry.source, entry.expected))
    return {name: len(values) for name, values in found.items()}


def _counts(records: Sequence[Record]) -> str:
    copied, remembered = sum(entry.copied for entry in records), sum(entry.from_memory for entry in records)
    share = 100 * remembered / (len(records) or 1)
    return f"{len(records) - copied:>8}{copied:>8}{remembered:>13}{share:>6.0f} %"
