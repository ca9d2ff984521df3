"""What may a verb ask of the work as it stands in its set-up?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from methodsheets.geometry import Axis, profile, section_at
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.frame import Frame
from methodsheets.vocabulary.support import ALONE, HeldUp
from methodsheets.workpiece import Holding, TurningFrame, VicePose, Workpiece

from .facts import judged
from .places import Places
from .verb import TURNING, VICE

if TYPE_CHECKING:
    from methodsheets.workshop.dividing import RotaryTable
    from methodsheets.workshop.holding import Holding as Holder
    from methodsheets.workshop.machines import Machine
    from methodsheets.workshop.model import Workshop
    from methodsheets.workshop.tools import Tool


USUAL_STEADY = 0.25
"""Share of the stick-out at which a fixed steady stands where nobody says: near the face (usual)."""


@dataclass(frozen=True, eq=False)
class Standing:
    """One set-up at one moment: the verb asks it about the work and lets it make cutters. Lengths in mm."""

    piece: Workpiece
    workshop: Workshop
    machine: Machine
    holder: Holder | None
    holding: Holding | None = None
    """How turned or divided work is held; None on a six-face block."""
    pose: VicePose | None = None
    """How a six-face block stands; None for work about an axis."""
    stick_out: float = 0.0
    """Length in front of the holder, 0 where nothing is gripped."""
    table: RotaryTable | None = None
    """The rotary table or dividing head that the work is on."""
    attitude: Attitude | None = None
    """How the axis of resting work stands, where it matters."""
    held_up: HeldUp = ALONE
    """Centre and steady that support the work."""
    pieces: Mapping[str, Workpiece] = field(default_factory=dict)
    """All pieces of the method by name."""
    elsewhere: Callable[[str], Workpiece | None] = lambda _slug: None
    """The finished piece of another method."""
    operation: str = ""
    verb: str = ""
    tool: Tool | None = None

    # ------------------------------------------------------------ the work as it stands
    @property
    def frame(self) -> Frame:
        """'turning' about an axis or 'vice' on a block."""
        return TURNING if self.holding else VICE

    @property
    def turning(self) -> TurningFrame:
        """Lengths, radii and angles of this set-up."""
        assert self.holding is not None
        return self.piece.frame(self.holding)

    @property
    def length(self) -> float:
        """Between the two faces, or from upper to lower face."""
        return self.piece.ends.length if self.holding else self.block[2]

    @property
    def depth_through(self) -> float:
        """How deep a hole must be to come out."""
        return self.length

    @property
    def axis(self) -> Axis:
        """The set-up's axis; lengths along it are z of the work."""
        return self.turning.axis_of()

    @property
    def tool_turns(self) -> bool:
        """Whether the cutter turns and the work rests."""
        return not self.machine.sort.work_turns

    @property
    def steady_at(self) -> float:
        """Distance of a fixed steady from the face, mm: as said, else a quarter of what sticks out."""
        return self.held_up.at if self.held_up.at is not None else USUAL_STEADY * self.stick_out

    def swing(self, start: float | None = None, end: float | None = None) -> float:
        """Largest radius about the axis between two lengths from the face."""
        return self.piece.state.swing(self.turning, start, end)

    def bore_radius(self, s: float) -> float:
        """Radius of the hole along the axis at a length; 0 where the axis runs in metal."""
        z = self.turning.z_of(s)
        shape = profile(self.piece.state.solid, self.axis, z - 0.02, z + 0.02)
        return shape.inner_at(z) if len(shape.lengths) else 0.0

    def hole_radius(self, places: Places, start: float, end: float) -> float:
        """Radius of the hole that is already there at the first place: the least between two depths; 0 for none."""
        axis = self._hole_axis(places)
        if self.holding:
            low, high = self.turning.span(start + 0.02, min(end, self.length) - 0.02)
        else:
            low, high = start + 0.02, min(end, self.length) - 0.02
        if high <= low:
            return 0.0
        shape = profile(self.piece.state.solid, axis, low, high)
        return float(shape.inner.min()) if len(shape.inner) else 0.0

    def _hole_axis(self, places: Places) -> Axis:
        if self.pose:
            return self.pose.axis_of(*places.points[0])
        return self.turning.axis_of(places.radius, places.angles[0])

    @property
    def block(self) -> tuple[float, float, float]:
        """Length, width and height of six-face work as it stands."""
        assert self.pose is not None
        return self.pose.size

    @property
    def up(self) -> str:
        """Name of the face that is up."""
        return self.pose.up if self.pose else ""

    def area_at(self, s: float) -> float:
        """Area of the section at a length from the face, mm²."""
        if self.pose:
            return section_at(self.piece.state.solid, self.pose.axis_of(0, 0), s).area
        return section_at(self.piece.state.solid, Axis(), self.turning.z_of(s)).area

    def centre_hole_check(self, line: int) -> Check:
        """Whether the face has a centre hole for the tailstock centre."""
        z = self.turning.z_of(0.0)
        cones = [
            s for solid in self.piece.state for s in solid.mesh().surfaces if s.kind == "cone" and s.coaxial(self.axis)
        ]
        there = any(abs(c.point[2] - z) < 15.0 and abs(c.taper - 30.0) < 1.0 for c in cones)
        words = (
            "the face has a 60° centre hole on this axis"
            if there
            else "the face has no centre hole on this axis: centre drill it first"
        )
        return judged("centre-hole", there, words, line)
