"""Is a size more than nothing?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError

from .words import Clause, Said

POSITIVE = frozenset({"", "wide", "deep", "over", "pitch", "long", "high", "head", "cutter", "grip", "on", "on circle"})
"""Lengths that are sizes, and so more than nothing; other lengths are places, and may be nothing or negative."""


def sizes_are_sizes(said: Said, clauses: tuple[Clause, ...], what: str) -> None:
    """Refuse a width, a depth, a pitch of nothing: no cut has it."""
    for clause in clauses:
        value = said.values.get(clause.word)
        if clause.kind == "length" and clause.word in POSITIVE and value is not None and value <= 0:
            name = f"`{clause.word}`" if clause.word else "the size"
            got = said.texts[clause.word].value
            words = f"{name} of `{what}` is more than nothing (got {got})"
            raise MethodError(said.where(clause.word), words, "sizes are positive", "check it", code="wrong-value")
