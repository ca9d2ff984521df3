"""Keeps what the validation tests compared, and prints it as a table."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

RECORDS: list[Record] = []


@dataclass(frozen=True)
class Record:
    """One value compared with a published one."""

    subject: str
    source: str
    value: float
    expected: float

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
    RECORDS.append(Record(subject, source, float(value), float(expected)))


def table(records: tuple[Record, ...], sources: bool = True) -> list[str]:
    """Return the lines of the table: subject, values checked, largest deviation, sources."""
    lines = [f"{'subject':<28}{'values':>8}{'from memory':>13}{'largest deviation':>20}{'sources':>9}"]
    subjects = sorted({entry.subject for entry in records})
    for subject in subjects:
        mine = [entry for entry in records if entry.subject == subject]
        names = sorted({entry.source for entry in mine})
        remembered = sum(entry.from_memory for entry in mine)
        worst = max(mine, key=lambda entry: entry.deviation)
        share = f"{100 * worst.deviation:.3f} %"
        lines.append(f"{subject:<28}{len(mine):>8}{remembered:>13}{share:>20}{len(names):>9}")
        if sources:
            for name in names:
                lines += textwrap.wrap(name, 110, initial_indent="    - ", subsequent_indent="      ")
    lines.append(f"{'in all':<28}{len(records):>8}{sum(entry.from_memory for entry in records):>13}")
    return lines
