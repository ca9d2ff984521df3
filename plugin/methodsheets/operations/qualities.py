"""What does an operation give the work that no solid shows: a pattern, lines, a hardness, a colour, a finish?

A `part` block asks for it in the words of the verbs that make it, so one record serves both: what is asked for and what
is made are compared figure by figure.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from .say import MM, dia, dim

Span = tuple[float, float]


class Quality(StrEnum):
    """What it is; the word is how a message says it."""

    KNURL = "knurl"
    LINES = "graduation"
    HARD = "hardening"
    CASE = "case-hardening"
    COLOUR = "blueing"
    FINISH = "finish"


@dataclass(frozen=True)
class Figure:
    """A number that belongs to it, and how far another may be off and still be the same."""

    name: str
    value: float
    near: float


@dataclass(frozen=True)
class Given:
    """One quality, where it lies, and its figures."""

    quality: Quality
    words: str
    """'a diamond knurl, pitch 1 mm': a draft (`say`)."""
    pattern: str = ""
    """What must be the same word: 'diamond', 'straight'."""
    figures: tuple[Figure, ...] = ()
    span: Span | None = None
    """From z to z of the piece, mm; None where it is all of it."""
    diameter: float = 0.0
    """mm; 0 where it lies on no one diameter."""
    near: float = 0.5
    """mm by which its ends may lie elsewhere."""
    line: int = 0

    def meets(self, other: Given) -> bool:
        """Whether two of a sort lie on the same place, in part at least."""
        if self.quality is not other.quality:
            return False
        if self.span is None or other.span is None:
            return True
        return min(self.span[1], other.span[1]) - max(self.span[0], other.span[0]) > 0

    def differs(self, made: Given) -> Iterator[str]:
        """In what it is made otherwise than this, which is asked for; its words tell the figures."""
        if self.pattern and made.pattern != self.pattern:
            yield made.pattern
        there = {figure.name: figure for figure in made.figures}
        for wanted in self.figures:
            has = there.get(wanted.name)
            if has is None or abs(has.value - wanted.value) > wanted.near:
                yield wanted.name

    def displaced(self, made: Given) -> Iterator[str]:
        """How it lies elsewhere than it is asked for."""
        if self.diameter and made.diameter and abs(self.diameter - made.diameter) > self.near:
            yield f"it lies on {dia(round(made.diameter, 2))} and not on {dia(round(self.diameter, 2))}"
        if self.span is not None and made.span is not None:
            off = max(abs(a - b) for a, b in zip(self.span, made.span, strict=True))
            long, wanted_long = (round(span[1] - span[0], 2) for span in (made.span, self.span))
            if abs(long - wanted_long) > self.near:
                yield f"it is {dim(long)} long and not {dim(wanted_long)}"
            elif off > self.near:
                yield f"it lies {dim(round(off, 2))} {MM} beside its place"

    def along(self, shift: float, line: int) -> Given:
        """The same in a frame that lies `shift` mm further along, told on a line."""
        span = (self.span[0] + shift, self.span[1] + shift) if self.span is not None else None
        return replace(self, span=span, line=line)

    @property
    def where(self) -> str:
        """' on Ø20', where it lies on one diameter."""
        return f" on {dia(round(self.diameter, 2))}" if self.diameter else ""


__all__ = ["Figure", "Given", "Quality", "Span"]
