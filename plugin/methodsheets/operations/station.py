"""Where does a verb work? The piece as it stands in its set-up, and the shapes a tool can sweep there."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from methodsheets.geometry import Axis, Frame, Outline, Solid, profile, section_at
from methodsheets.method.model import Check
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.trade.errors import NotInTable
from methodsheets.trade.hole_making import centre_drill_for
from methodsheets.trade.materials import Material, material
from methodsheets.workpiece import Holding, TurningFrame, VicePose, Workpiece

from .places import Places
from .plan import Join
from .verb import TURNING, VICE

if TYPE_CHECKING:
    from methodsheets.reading.problem import Place
    from methodsheets.workshop.holding import Holding as Holder
    from methodsheets.workshop.machines import Machine
    from methodsheets.workshop.model import Workshop
    from methodsheets.workshop.tools import Tool

    from .words import Said

PROUD = 0.05
"""mm by which a marked line stands outside the surface that it marks."""
HAIR = 1e-4


@dataclass
class Station:
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
    supported: str = ""
    support_at: float | None = None
    pieces: Mapping[str, Workpiece] = field(default_factory=dict)
    """All pieces of the method by name."""
    elsewhere: Callable[[str], Workpiece | None] = lambda _slug: None
    """The finished piece of another method."""
    operation: str = ""
    verb: str = ""
    tool: Tool | None = None

    # ------------------------------------------------------------ the work as it stands
    @property
    def frame(self) -> str:
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
        return self.machine.kind != "lathe"

    @property
    def holder_words(self) -> str:
        """The way of holding in the author's words."""
        return self.holding.holder if self.holding else ""

    def swing(self, start: float | None = None, end: float | None = None) -> float:
        """Largest radius about the axis between two lengths from the face."""
        return self.piece.state.swing(self.turning, start, end)

    def face_diameter(self) -> float:
        """Diameter of the face that looks at you, as far as the tool must travel."""
        return 2 * self.swing(0, 0.05)

    def bore_radius(self, s: float) -> float:
        """Radius of the hole along the axis at a length; 0 where the axis runs in metal."""
        z = self.turning.z_of(s)
        shape = profile(self.piece.state.solid, self.axis, z - 0.02, z + 0.02)
        return shape.inner_at(z) if len(shape.lengths) else 0.0

    def hole_radius(self, places: Places, start: float, end: float) -> float:
        """Radius of the hole that is already there at the first place: the least between two depths, 0 where there is none."""
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
        return Check("centre-hole", "passed" if there else "failed", words, line)

    # ------------------------------------------------------------ what a tool sweeps about the axis
    def turned(self, outline: Outline) -> Solid:
        """An outline of (radius, length from the face) swept about the set-up's axis."""
        return self.piece.kernel.revolve(self.turning.outline(outline), self.operation, self.axis)

    def holes(self, places: Places, outline: Outline) -> list[Solid]:
        """A hole's outline of (radius, depth) at every place."""
        kernel = self.piece.kernel
        if self.pose:
            return [kernel.revolve(outline, self.operation, self.pose.axis_of(x, y)) for x, y in places.points]
        frame, drawn = self.turning, self.turning.outline(outline)
        return [kernel.revolve(drawn, self.operation, frame.axis_of(places.radius, a)) for a in places.angles]

    def across(
        self, radius: float, s: float, angle: float, outer: float, inner: float, tip: float = 0.0, off: float = 0.0
    ) -> list[Solid]:
        """A round hole or pin across the axis at a length and an angle, from `outer` to `inner` mm from the axis."""
        axis = self.turning.cross_axis(s, angle)
        outward = np.array(self.turning.normal(angle))
        sign = 1.0 if np.array(axis.direction) @ outward > 0 else -1.0
        if off:
            side = np.cross([0, 0, 1.0], outward)
            axis = Axis.through((np.array(axis.point) + off * side).tolist(), axis.direction)
        points = [(0.0, sign * outer), (radius, sign * outer), (radius, sign * inner), (0.0, sign * (inner - tip))]
        reach = 1.0 if tip or inner < 0 else 0.0
        points[0], points[1] = (0.0, sign * (outer + reach)), (radius, sign * (outer + reach))
        return [self.piece.kernel.revolve(Outline(*points), self.operation, axis)]

    def metal_across(self, radius: float, s: float, angle: float, off: float = 0.0) -> tuple[float, float]:
        """(outer, inner) distance from the axis between which a round cut across the work at an angle meets metal."""
        reach = self.swing() + 1.0
        probe = self.across(radius, s, angle, reach, -reach, 0.0, off)[0]
        met = self.piece.state.solid & probe
        if met.empty:
            return reach, -reach
        along = (met.mesh().vertices - np.array([*self.turning.axis, 0.0])) @ np.array(self.turning.normal(angle))
        return float(along.max()), float(along.min())

    def half_space(self, distance: float, angle: float, start: float, end: float) -> Solid:
        """All metal beyond a flat at a distance from the axis and an angle, between two lengths from the face."""
        frame = self.turning
        normal = frame.normal(angle)
        offset = distance + normal[0] * frame.axis[0] + normal[1] * frame.axis[1]
        low, high = frame.span(start - (HAIR if start <= 0 else 0), end)
        return self.piece.kernel.half_space(normal, offset, self.operation, start=low, end=high, along=(0, 0, 1))

    def beam(self, angle: float, inner: float, outer: float, wide: float, start: float, end: float) -> Solid:
        """A bar `wide` across, from `inner` to `outer` along the direction of an angle: a slot or a saw cut."""
        frame = self.turning
        low, high = frame.span(start, end)
        place = Frame.of((frame.axis[0], frame.axis[1], 0.0), x=frame.normal(angle))
        return self.piece.kernel.box((inner, -wide / 2, low), (outer, wide / 2, high), self.operation, place)

    def slab(self, start: float, end: float) -> Solid:
        """Everything between two lengths (or depths) from the face: a saw cut right across."""
        if self.pose:
            length, width, _ = self.block
            return self.box(-5.0, -5.0, length + 5.0, width + 5.0, start, end)
        reach = self.swing() + 5.0
        return self.turned(Outline((0, start), (reach, start), (reach, end), (0, end)))

    # ------------------------------------------------------------ what a cutter sweeps on a block
    def _mill_frame(self) -> Frame:
        """X to the right, y away from you, z down: depths are positive."""
        assert self.pose is not None
        return self.pose.frame

    def box(self, x0: float, y0: float, x1: float, y1: float, top: float, bottom: float) -> Solid:
        """A block between two corners and two depths below the upper face."""
        return self.piece.kernel.box((x0, y0, -bottom), (x1, y1, -top), self.operation, self._mill_frame())

    def prism(self, outline: Outline, top: float, bottom: float) -> Solid:
        """An outline on the upper face, from one depth to another."""
        return self.piece.kernel.prism(outline, -bottom, -top, self.operation, self._mill_frame())

    def trough(self, outline: Outline, along: str) -> Solid:
        """An outline of (distance across, depth) pulled along the length or the width: a vee, a chamfer."""
        length, width, _ = self.block
        pose = self._mill_frame()
        down = -pose.rotation[:, 2]
        x, y = pose.rotation[:, 0], pose.rotation[:, 1]
        if along == "length":
            frame, run = Frame(np.stack([y, down, np.cross(y, down)], axis=1), pose.origin), length
            along_axis = x
        else:
            frame, run = Frame(np.stack([x, down, np.cross(x, down)], axis=1), pose.origin), width
            along_axis = y
        sign = float(np.sign(frame.rotation[:, 2] @ along_axis))
        low, high = sorted((-5.0 * sign, (run + 5.0) * sign))
        return self.piece.kernel.prism(outline, low, high, self.operation, frame)

    # ------------------------------------------------------------ lines on the surface
    def surface_line(self, radius: float, angle: float, start: float, end: float) -> np.ndarray:
        """A scribed line along the work."""
        frame = self.turning
        return np.stack([frame.to_work(start, radius + PROUD, angle), frame.to_work(end, radius + PROUD, angle)])

    def ring_line(self, s: float, radius: float = 0.0) -> np.ndarray:
        """A scribed ring at a length from the face."""
        frame = self.turning
        r = (radius or self.swing(max(0.0, s - 0.01), s + 0.01)) + PROUD
        return np.stack([frame.to_work(s, r, a) for a in np.linspace(0, 360, 97)])

    def knurl_lines(self, radius: float, start: float, end: float, pitch: float, *, straight: bool) -> list[np.ndarray]:
        """Lines of a knurl: straight, or two hands of slanting lines; at most 72 each way so that a picture stays clear."""
        count = max(6, min(72, round(2 * math.pi * radius / pitch)))
        lean = 0.0 if straight else math.degrees((end - start) * math.tan(math.radians(30)) / radius)
        lines = []
        for hand in (1.0,) if straight else (1.0, -1.0):
            for i in range(count):
                steps = np.linspace(0, 1, 2 if straight else 9)
                lines.append(np.stack([
                    self.turning.to_work(start + t * (end - start), radius + PROUD, 360.0 * i / count + hand * lean * t) for t in steps
                ]))  # fmt: skip
        return lines

    def outside_thread_lines(self, radius: float, start: float, end: float) -> list[np.ndarray]:
        """The symbol of an outside thread: its end as a ring (the core is drawn by the drawing office's rule)."""
        swing = self.swing(start, end)
        return [self.ring_line(end, swing), *([self.ring_line(start, swing)] if start > 0.01 else [])]

    def thread_lines(self, places: Places, radius: float, start: float, end: float) -> list[np.ndarray]:
        """The symbol of a tapped hole on its face: three quarters of a circle at the major diameter."""
        turn = np.linspace(20, 290, 55)
        lines = []
        if self.pose:
            for x, y in places.points:
                lines.append(
                    np.stack(
                        [
                            self.pose.to_work(
                                x + radius * math.cos(math.radians(a)),
                                y + radius * math.sin(math.radians(a)),
                                start - PROUD,
                            )
                            for a in turn
                        ]
                    )
                )
            return lines
        frame = self.turning
        for angle in places.angles:
            axis = frame.axis_of(places.radius, angle)
            z = frame.z_of(start - PROUD)
            lines.append(np.stack([axis.at(z, radius, a) for a in turn]))
        return lines

    # ------------------------------------------------------------ other pieces
    def other_piece(self, name: str, said: Said) -> Join:
        """A piece of this method, or the finished piece of another one, placed where the clauses say."""
        other = self.pieces.get(name) or self.elsewhere(name)
        if other is None or other is self.piece or not other.bodies:
            known = [n for n, p in self.pieces.items() if p is not self.piece]
            raise MethodError(
                said.where(""),
                f"no such piece (got `{name}`)",
                "a piece of this method, or the name of another method",
                did_you_mean(name, known),
                code="unknown-piece",
            )
        solid = other.state.solid
        first = next(iter(other.bodies.values()))
        return Join("", self.free_name(name), solid.moved(self._seat_frame(other, said)), first.material, first.density)

    def _seat_frame(self, other: Workpiece, said: Said) -> Frame:
        """Where the frame of another piece comes to stand in ours."""
        at, turned = said.get("at", 0.0), said.get("turned", 0.0)
        if self.pose:
            x, y = said.get("places", ((0.0, 0.0),))[0][:2]
            low, _ = other.state.bounds
            origin = self.pose.to_work(x, y, at)
            inward = -self.pose.frame.rotation[:, 2]
            frame = Frame.of(origin, x=self.pose.frame.rotation[:, 0], z=inward)
            return frame.compose(Frame.shifted((0.0, 0.0, -float(low[2]))))
        frame = self.turning
        end = said.get("end", self.turning.out)
        offset = said.get("offset", 0.0)
        a = math.radians(said.get("offset at", 0.0))
        shift = Frame.shifted((-offset * math.cos(a), -offset * math.sin(a), 0.0))
        near = other.ends.a if frame.out == "A" else other.ends.b
        if end != frame.out:
            flip = Frame.turned(180.0, Axis(direction=(1.0, 0.0, 0.0), zero=(0.0, 1.0, 0.0)))
            shift = flip.compose(shift)
            near = -(other.ends.b if frame.out == "A" else other.ends.a)
        seat = Frame.shifted((frame.axis[0], frame.axis[1], frame.z_of(at) - near))
        return seat.compose(Frame.turned(frame.work_angle(turned))).compose(shift)

    def seat(self, solid: Solid) -> tuple[float, float]:
        """How another solid sits in the work: (gap in mm, looked for up to 5; overlap in mm³)."""
        bodies = [body.solid for body in self.piece.bodies.values()]
        for body in bodies:
            body.table.adopt(solid.table)
        overlap = sum((body & solid).volume for body in bodies)
        return min((body.gap(solid, 5.0) for body in bodies), default=5.0), overlap

    def extent(self, solid: Solid) -> float:
        """Length of a solid along the axis."""
        low, high = solid.bounds
        return float(high[2] - low[2])

    def free_name(self, name: str) -> str:
        """A name that no body of the work bears yet."""
        if name not in self.piece.bodies:
            return name
        return next(f"{name} {i}" for i in range(2, 1000) if f"{name} {i}" not in self.piece.bodies)

    def material_of(self, name: str, place: Place) -> Material:
        """A material of the table."""
        try:
            return material(name)
        except NotInTable as error:
            raise MethodError(
                place,
                f"no such material (got `{name}`): {error}",
                "a name of the table of materials",
                "write for instance EN1A, silver steel, CZ121",
                code="unknown-material",
            ) from None

    # ------------------------------------------------------------ tools
    @property
    def blade_width(self) -> float:
        """Width of the parting blade that is there; 2 mm where the workshop does not say."""
        if self.tool and self.tool.width:
            return self.tool.width
        found = self.workshop.default_tool("part off", machine=self.machine)
        return found.width if found and found.width else 2.0

    def cutter_diameter(self, width: float, *, end_mill: bool = True) -> float:
        """Diameter of the milling cutter that suits a width: what the workshop has, not above it where it can be."""
        if self.tool and self.tool.diameter:
            return self.tool.diameter
        kind = "end-mill" if end_mill else "slot-drill"
        found = self.workshop.nearest_of(kind, width, not_above=True) or self.workshop.nearest_of("end-mill", width)
        return found.size if found and found.size else max(3.0, min(20.0, width))

    def usual_centre(self) -> float:
        """Pilot of the centre drill usual for work of this diameter."""
        size = 2 * self.swing(0, 1.0) if self.holding else 20.0
        return centre_drill_for(min(max(size, 3.0), 160.0)).pilot


def overall(points: Sequence[Sequence[float]]) -> tuple[float, float]:
    """Smallest and largest first coordinate."""
    xs = [p[0] for p in points]
    return min(xs), max(xs)
