"""Which measured size belongs to which? A shaft is made to one bore, by identity and not by what they are called."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass

from methodsheets.sheet.model import Limit, Method, Operation

from . import wording
from .operation import limit_name

_SAME = 1e-6
"""[mm] Two nominal sizes that are no further apart are one."""


@dataclass(frozen=True)
class Size:
    """One size that is measured on the sheet."""

    key: str
    """Its own name on the sheet: operation and name, with a number where an operation has two of one name."""
    operation: Operation
    limit: Limit


def sizes_of(operation: Operation) -> tuple[Size, ...]:
    """The sizes of an operation, each with a key of its own."""
    found: list[Size] = []
    for limit in operation.limits:
        key = f"{operation.number}-{limit.name}"
        twice = sum(one.limit.name == limit.name for one in found)
        found.append(Size(f"{key} {twice + 1}" if twice else key, operation, limit))
    return tuple(found)


def mate_of(method: Method, size: Size) -> Size | None:
    """The size that is measured first, to which this one is then made; None where the method measures none."""
    if not size.limit.make_to_name:
        return None
    known = {mate.limit for mate in size.limit.mates}
    paired = next((one for one in _others(method, size) if one.limit.id in known), None)
    if paired is not None:  # the record says which size it is; else it is looked for by what the sizes are
        return paired
    could = [one for one in _others(method, size) if _could_mate(one, size.limit)]
    before = [one for one in could if one.operation.number < size.operation.number]
    return max(
        before or could, key=lambda one: (_is_called(one, size.limit.make_to_name), one.operation.number), default=None
    )


def partners(method: Method, size: Size) -> tuple[Size, ...]:
    """The sizes that this one fits, a bore's shafts or a shaft's bore, known by their ids; those of `make_to` left out.

    What is made to a measured partner says so itself.
    """
    if size.limit.make_to:
        return ()
    known = {mate.limit for mate in size.limit.mates}
    return tuple(one for one in _others(method, size) if one.limit.id in known)


def goes_with(method: Method, size: Size) -> str:
    """Which bore and shaft belong together, where neither is made to the other's measured size; '' for a lone size."""
    fits = {mate.limit: f" ({mate.fit})" if mate.fit else "" for mate in size.limit.mates}
    named = [
        f"{limit_name(one.limit)}, operation {one.operation.number}{fits[one.limit.id]}"
        for one in partners(method, size)
    ]
    return f"Goes with {wording.listed(named)}: mark both with the number of their part." if named else ""


def _others(method: Method, size: Size) -> Iterator[Size]:
    for operation in method.operations:
        yield from (one for one in sizes_of(operation) if one.key != size.key)


def _could_mate(one: Size, limit: Limit) -> bool:
    """Of one nominal size, and a hole where a shaft is made, or the other way round."""
    other = one.limit
    if not other.has_limits or other.make_to_name or abs(other.nominal.value - limit.nominal.value) > _SAME:
        return False
    wants_hole = not limit.hole
    is_hole = _is_hole(other)
    return is_hole is None or is_hole == wants_hole


def _is_hole(limit: Limit) -> bool | None:
    """Whether a tolerance class is one of holes: a capital letter (ISO 286-1); None where no class is said."""
    zone = limit.fit.split()[-1] if limit.fit else ""
    return zone[0].isupper() if zone[:1].isalpha() and zone[-1].isdigit() else None


def _is_called(one: Size, name: str) -> bool:
    said = (one.limit.name, one.operation.verb, str(one.operation.words), str(one.operation.title))
    return any(name.lower() in words.lower() for words in said)


def content_digest(method: Method) -> str:
    """Digest of what a sheet has blanks for: its operations, passes and limits; the same where only words changed."""
    said = [
        [
            operation.number,
            str(operation.words),
            [[one.number, one.size.value if one.size else None] for one in operation.passes],
            [
                [one.name, one.lower.value, one.upper.value, one.add_low, one.add_high, one.make_to_name]
                for one in operation.limits
            ],
        ]
        for operation in method.operations
    ]
    return hashlib.sha256(json.dumps(said, ensure_ascii=False).encode()).hexdigest()[:12]
