"""Do two clauses that say one size agree, and is a size more than nothing?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError

from .words import Clause, Said

POSITIVE = frozenset({"", "wide", "deep", "over", "pitch", "long", "high", "head", "cutter", "grip", "on", "on circle"})
"""Lengths that are sizes, and so more than nothing; other lengths are places, and may be nothing or negative."""
SAME = 0.005
"""mm within which two sizes that say the same thing agree."""


def agree(said: Said, word: str, value: float, other: str, meant: float) -> None:
    """Refuse two clauses that say one size and disagree; nothing where only one of them is said.

    Parameters:
        value: [mm] what the first clause says
        meant: [mm] what the other one comes to, in the same terms
    """
    if word not in said or other not in said or abs(value - meant) <= SAME:
        return
    names = " and ".join(f"`{one}`" if one else "the size" for one in (word, other))
    raise MethodError(
        said.where(other),
        f"{names} disagree (got {value:g} mm and {meant:g} mm)",
        "one of them follows from the other",
        "take one away",
        code="contradiction",
    )


def sizes_are_sizes(said: Said, clauses: tuple[Clause, ...], what: str) -> None:
    """Refuse a width, a depth, a pitch of nothing: no cut has it."""
    for clause in clauses:
        value = said.get(clause.word)
        if clause.kind == "length" and clause.word in POSITIVE and value is not None and value <= 0:
            name = f"`{clause.word}`" if clause.word else "the size"
            got = said.texts[clause.word].value
            words = f"{name} of `{what}` is more than nothing (got {got})"
            raise MethodError(said.where(clause.word), words, "sizes are positive", "check it", code="wrong-value")
