"""Which fit is usual for a use?"""

from __future__ import annotations

import functools
from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import take
from ..form.tables import find_row, read_table


@dataclass(frozen=True)
class FitAdvice:
    """A fit that is usual for a use."""

    use: str
    hole_basis: str
    shaft_basis: str
    feel: str
    examples: str


@calculation
def recommended_fit(use: str) -> FitAdvice:
    """Fit that is usual for a use, on the hole basis and on the shaft basis.

    Table: recommended_fits

    Parameters:
        use: [text] running, close running, sliding, locating, push, light press, press, heavy press, dowel ...

    Returns:
        use: [text] text the use, as the table words it
        hole_basis: [text] text fit with an H hole: one reamer serves
        shaft_basis: [text] text fit with an h shaft: bright bar or ground stock serves; empty where it is not usual
        feel: [text] text how it goes together
        examples: [text] text where it is met

    Raises:
        NotInTable: the table has no such use.

    Validity:
        Usual in workshops, not part of the standard. Work the press fits out before you rely on them.

    Example:
        >>> recommended_fit("sliding").hole_basis
        'H7/g6'

    Source:
        From memory: preferred fits of ISO 286-1 and ANSI B4.2, and workshop practice.

    Trust: common practice

    Checked: words for a use: the pairs are those of the usual lists, and a list is no measurement.
    """
    wanted = " ".join(use.lower().replace("fit", "").split())
    table = _advice()
    if wanted not in table:
        raise NotInTable(use, "use of a fit", tuple(dict.fromkeys(advice.use for advice in table.values())))
    take(find_row("recommended_fits", use=table[wanted].use))
    return table[wanted]


def recommended_fits() -> tuple[FitAdvice, ...]:
    """Return the whole table of fits by use, loosest first."""
    return tuple(dict.fromkeys(_advice().values()))


@functools.cache
def _advice() -> dict[str, FitAdvice]:
    """Return the advice by every word it answers to."""
    found: dict[str, FitAdvice] = {}
    for row in read_table("recommended_fits").rows:
        advice = FitAdvice(row["use"], row["hole_basis"], row["shaft_basis"], row["feel"], row["examples"])
        for word in (row["use"], *row["also"].split("|")):
            if word.strip():
                found[word.strip()] = advice
    return found
