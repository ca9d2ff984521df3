"""Reads the published cases kept as data beside the tests."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from .record import record

DATA = Path(__file__).parent / "data"
MEMORY = "memory"
INCH = 25.4


@dataclass(frozen=True)
class Case:
    """One published case: what goes in, what should come out, how near, and who says so."""

    name: str
    topic: str
    inputs: dict[str, Any]
    expected: dict[str, Any]
    tolerance: dict[str, Any]
    source: str
    seen: str

    def check(self, subject: str, key: str, value: float, expected: float | None = None) -> None:
        """Compare a value with what was published under a key, at the tolerance stated; note it for the table."""
        wanted = float(self.expected[key]) if expected is None else expected
        source = f"{self.source} (from memory)" if self.seen == MEMORY and "MEMORY" not in self.source else self.source
        record(subject, source, value, wanted)
        absolute = float(self.tolerance.get("abs", 0.0)) + 1e-9
        relative = float(self.tolerance.get("rel", 0.0)) * abs(wanted)
        assert abs(value - wanted) <= max(absolute, relative), f"{self.name}, {key}: {value} for {wanted}; {source}"


@functools.cache
def all_cases(file: str) -> dict[str, Case]:
    """Return every case of a file by name."""
    read = yaml.safe_load((DATA / f"{file}.yml").read_text(encoding="utf-8"))
    return {
        entry["id"]: Case(
            entry["id"],
            entry["topic"],
            entry["inputs"],
            entry["expected"],
            entry["tolerance"],
            entry["source"],
            entry["seen"],
        )
        for entry in read
    }


def case(file: str, name: str) -> Case:
    """Return one case by name."""
    return all_cases(file)[name]


def cases(file: str, topic: str) -> Iterator[Case]:
    """Yield the cases whose topic begins so."""
    return (entry for entry in all_cases(file).values() if entry.topic.startswith(topic))


def number(text: object) -> float:
    """Return a published figure such as '1.6875 inch' or '12.5 mm' in millimetres, degrees or as it is."""
    found = re.match(r"^\s*([-+]?[\d.]+(?:e[-+]?\d+)?)\s*(.*)$", str(text))
    assert found, text
    value, unit = float(found[1]), found[2].strip()
    return value * {"inch": INCH, "in": INCH, "mm": 1.0, "deg": 1.0, "": 1.0, "inch/ft": 1.0}[unit]
