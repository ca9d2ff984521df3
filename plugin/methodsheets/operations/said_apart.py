"""What did the author say that the sentence of an operation leaves out? It stands in a line of its own on the sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Any

from methodsheets.sheet.model import Fact

from .facts import told
from .say import MM, degrees, dim
from .words import Clause, Said


def said_apart(said: Said, clauses: Iterable[Clause]) -> list[Fact]:
    """One line with every clause that was said and that no sentence tells; none where there is none.

    Parameters:
        clauses: those that the verb knows, in the order in which they are told
    """
    written = [_written(clause, said) for clause in clauses if clause.apart and clause.word in said.texts]
    return [told("as_said", "As said", ", ".join(written))] if written else []


def _written(clause: Clause, said: Said) -> str:
    """'off axis 3 mm', 'hollow', 'via (30, 5), (50, 10) mm'."""
    value = VALUES.get(clause.kind)
    # Not by `get`: to say a clause again makes no use of it.
    words = said.texts[clause.word].value if value is None else value(said.values[clause.word])
    return f"{clause.word} {words}".strip()


def _points(points: Iterable[Iterable[float]]) -> str:
    return f"{', '.join('(' + ', '.join(dim(v) for v in point) + ')' for point in points)} {MM}"


VALUES: Mapping[str, Callable[[Any], str]] = MappingProxyType({
    "length": lambda value: f"{dim(value)} {MM}",
    "lengths": lambda values: f"{', '.join(dim(v) for v in values)} {MM}",
    "angle": degrees,
    "angles": lambda values: ", ".join(degrees(v) for v in values),
    "points": _points,
    "flag": lambda _: "",
})  # fmt: skip
"""How a value is written, by its kind; of the other kinds the author's own words stand."""
