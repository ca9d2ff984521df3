"""What is the finished part, or a piece of it, meant to be: its solid, its threads, what else it asks for?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from methodsheets.operations import say
from methodsheets.operations.plan import Plan
from methodsheets.operations.qualities import Given, Span
from methodsheets.vocabulary.process import Process

if TYPE_CHECKING:
    from methodsheets.geometry import Solid


@dataclass(frozen=True)
class Threaded:
    """A thread that a part asks for, or that an operation cuts."""

    name: str
    """With its pitch and hand: 'M12 × 1 LH'."""
    inside: bool
    length: float
    """mm; 0 where it goes right through."""
    pitch: float
    line: int

    @classmethod
    def of(cls, plan: Plan, line: int) -> Threaded | None:
        """The thread that a plan cuts; None where it cuts none."""
        if not plan.cut.pitch or not plan.sketch.diameter_words:
            return None
        inside = plan.inside or plan.cut.process is Process.TAP
        length = 0.0 if plan.sketch.through else abs(plan.sketch.end - plan.sketch.start)
        if plan.sketch.view == "across" and length:
            length = next(made.size for made in plan.makes if made.what == "depth")
        return cls(plan.sketch.diameter_words, inside, length, plan.cut.pitch, line)

    @property
    def words(self) -> str:
        """'M12 inside, 16 long'."""
        return (
            self.name + (" inside" if self.inside else "") + (f", {say.dim(self.length)} long" if self.length else "")
        )

    def off(self, made: Threaded) -> float:
        """Mm by which a thread of that name is longer than this one, below 0 shorter; 0 within its run-out."""
        if not self.length or not made.length:
            return 0.0
        off = made.length - self.length
        return off if off < -0.01 or off > RUN_OUTS * self.pitch else 0.0


@dataclass(frozen=True)
class Round:
    """The round surfaces of one diameter, all of them or those within a span of z."""

    diameter: float
    span: Span | None = None


@dataclass(frozen=True)
class RunsTrue:
    """Round surfaces that are to run true to others of the part."""

    within: float
    """mm, total indicator reading."""
    on: Round
    to: Round
    line: int

    def along(self, shift: float, line: int) -> RunsTrue:
        """The same in a frame that lies `shift` mm further along, told on a line."""
        span = self.on.span
        moved = (span[0] + shift, span[1] + shift) if span is not None else None
        return replace(self, on=replace(self.on, span=moved), line=line)


RUN_OUTS = 2.5
"""Pitches by which a thread may run out beyond its length: usual (ISO 3508 gives about 2.5 pitches; from memory)."""


@dataclass(frozen=True, eq=False)
class Intended:
    """The intended part as a solid in its own frame, and the space that each feature asks to be cut away."""

    solid: Solid
    features: tuple[tuple[str, Solid], ...]
    block_work: bool
    source: str
    """Slug of the method that says it; empty where it is this one."""
    lines: tuple[int, ...] = ()
    """Line of each feature in this method's `part` block."""
    threads: tuple[Threaded, ...] = ()
    """Every thread that the `part` block asks for: once for each hole."""
    asks: tuple[Given, ...] = ()
    """What it asks for that no solid shows: knurls, hardness, finish; lengths in its own frame."""
    trues: tuple[RunsTrue, ...] = ()
    """Which of its round surfaces are to run true to one another; lengths in its own frame."""
    line: int = 0
    """Line of the `part` block that names the piece; 0 where it is the finished part."""
