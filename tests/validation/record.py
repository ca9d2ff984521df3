"""Keeps what the validation tests compared, so that a table of it can be printed."""

from __future__ import annotations

from dataclasses import dataclass

RECORDS: list[Record] = []


@dataclass(frozen=True)
class Record:
    """One value compared with a published one."""

    subject: str
    source: str
    value: float
    expected: float


def record(subject: str, source: str, value: float, expected: float) -> None:
    """Note that a value was compared with a published one."""
    RECORDS.append(Record(subject, source, float(value), float(expected)))
