"""Is a size more than nothing, and within reach?"""

from __future__ import annotations

from methodsheets.reading.limits import REACH
from methodsheets.reading.problem import MethodError

from .words import Clause, Said

POSITIVE = frozenset({"", "wide", "deep", "over", "pitch", "long", "high", "head", "cutter", "grip", "on", "on circle"})
"""Lengths that are sizes, and so more than nothing; other lengths are places, and may be nothing or negative."""


def sizes_are_sizes(said: Said, clauses: tuple[Clause, ...], what: str) -> None:
    """Refuse a width, a depth, a pitch of nothing: no cut has it; and any length that no machine reaches."""
    for clause in clauses:
        value = said.values.get(clause.word)
        if clause.within is not None and value is not None and not clause.within[0] <= value <= clause.within[1]:
            least, most = clause.within
            raise MethodError(
                said.where(clause.word),
                f"`{clause.word}` of `{what}` stands between {least:g}° and {most:g}° (got {value:g}°)",
                clause.help,
                "check the angle",
                code="wrong-value",
            )
        if clause.kind == "length" and value is not None and not abs(value) <= REACH:
            got = said.texts[clause.word].value
            raise MethodError(
                said.where(clause.word),
                f"a length of `{what}` is out of reach (got {got})",
                f"at most {REACH:,} {REACH.of}",
                "check the number and its unit",
                code="too-much",
            )
        if clause.kind == "length" and clause.word in POSITIVE and value is not None and value <= 0:
            name = f"`{clause.word}`" if clause.word else "the size"
            got = said.texts[clause.word].value
            words = f"{name} of `{what}` is more than nothing (got {got})"
            raise MethodError(said.where(clause.word), words, "sizes are positive", "check it", code="wrong-value")
