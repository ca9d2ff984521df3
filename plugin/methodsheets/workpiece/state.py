"""What does the half-made part look like at one moment?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import MappingProxyType

import numpy as np

from ..geometry import Axis, Profile, SectionProperties, Solid, overlap, profile, section_at, swing
from .bodies import Body, Mark
from .datum import Array, Ends, FaceName, TurningFrame, VicePose


@dataclass(frozen=True, eq=False)
class State:
    """The work between two operations: pieces by name, where the ends stand, lines marked on it. Unchangeable."""

    bodies: Mapping[str, Body] = field(default_factory=dict)
    ends: Ends = field(default_factory=lambda: Ends(0.0, 0.0))
    marks: tuple[Mark, ...] = ()

    def __post_init__(self) -> None:
        """Keep a copy that nobody can write to."""
        object.__setattr__(self, "bodies", MappingProxyType(dict(self.bodies)))

    def __iter__(self) -> Iterator[Solid]:
        """The solids of all pieces."""
        return iter([b.solid for b in self.bodies.values()])

    @cached_property
    def solid(self) -> Solid:
        """All pieces as one solid; ValueError where there is no work yet."""
        first, *rest = self._present()
        return first.together(rest)

    @cached_property
    def without_filler(self) -> Solid:
        """The same without beads, which no drawing of a part shows."""
        solids = [body.solid for body in self.bodies.values() if not body.filler]
        return self.solid if len(solids) == len(self.bodies) or not solids else solids[0].together(solids[1:])

    def _present(self) -> list[Solid]:
        if not self.bodies:
            raise ValueError("there is no work yet: a method starts with its stock")
        return [*self]

    @property
    def volume(self) -> float:
        """mm³ of metal."""
        return sum(s.volume for s in self)

    @property
    def bounds(self) -> tuple[Array, Array]:
        """(low, high) corners of the box around the work, mm; ValueError where there is none."""
        boxes = [s.bounds for s in self._present()]
        return np.min([b[0] for b in boxes], axis=0), np.max([b[1] for b in boxes], axis=0)

    def changed(
        self, bodies: Mapping[str, Body] | None = None, ends: Ends | None = None, marks: tuple[Mark, ...] | None = None
    ) -> State:
        """The state with some of its parts replaced."""
        return replace(
            self,
            bodies=self.bodies if bodies is None else bodies,
            ends=self.ends if ends is None else ends,
            marks=self.marks if marks is None else marks,
        )

    def profile(self, frame: TurningFrame, start: float | None = None, end: float | None = None) -> Profile:
        """Outer radius and bore about the set-up's axis by lengths from its face; pieces joined count as one."""
        axis = Axis.upright(*frame.axis)
        low, high = (None, None) if start is None or end is None else frame.span(start, end)
        found = profile(self.solid, axis, low, high)
        order = slice(None, None, 1 if frame.out == "A" else -1)
        return Profile(frame.inward * (found.lengths - frame.face)[order], found.outer[order], found.inner[order])

    def section(self, frame: TurningFrame, s: float) -> SectionProperties:
        """Section square to the set-up's axis at a length from its face: for stiffness; pieces joined count as one.

        x of the result is x of the work (the 0° mark), measured from the set-up's axis.
        """
        return section_at(self.solid, Axis.upright(*frame.axis), frame.z_of(s))

    def pose(self, up: FaceName, towards: FaceName) -> VicePose:
        """The work as it lies in the vice, measured afresh."""
        return VicePose.of(self.bounds, up, towards)

    def overlap(self, body: Solid) -> dict[str, float]:
        """mm³ by which something (a tool at its deepest, a jaw) stands in each piece it meets; films do not count."""
        found = {name: overlap(b.solid, body) for name, b in self.bodies.items() if _meet(b.solid, body)}
        return {name: volume for name, volume in found.items() if volume > 0}

    def swing(self, frame: TurningFrame, start: float | None = None, end: float | None = None) -> float:
        """Largest radius (mm) about the set-up's axis, between two lengths from its face (everywhere without them).

        Read from the surface where a round one makes it; faces exactly at the ends do not count.
        """
        axis = Axis.upright(*frame.axis)
        low, high = (None, None) if start is None or end is None else frame.span(start, end)
        return max((swing(s, axis, low, high) for s in self), default=0.0)


def _meet(one: Solid, other: Solid) -> bool:
    """Whether the boxes around two solids meet."""
    if one.empty or other.empty:
        return False
    (low, high), (other_low, other_high) = one.bounds, other.bounds
    return bool((low <= other_high).all() and (other_low <= high).all())
