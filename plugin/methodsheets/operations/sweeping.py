"""Which shapes can a tool sweep in a set-up: about the axis, across it, along it, on a block?"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from methodsheets.geometry import Axis, Frame, Outline, Solid

from .places import Places
from .standing import Standing

if TYPE_CHECKING:
    pass

HAIR = 1e-4
"""mm that a flat reaches in front of the face, so that no film is left there."""


class Sweeping(Standing):
    """A set-up in which cutters can be made; lengths in mm, as the set-up counts them."""

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

    def hole_axes(self, places: Places, end: float) -> list[tuple[Axis, float, float]]:
        """For every place the axis of the hole, where it ends along that axis, and which way leads into the metal."""
        if self.pose:
            return [(self.pose.axis_of(x, y), end, 1.0) for x, y in places.points]
        frame = self.turning
        return [(frame.axis_of(places.radius, a), frame.z_of(end), frame.inward) for a in places.angles]

    def across_axes(self, s: float, angle: float, inner: float, off: float = 0.0) -> list[tuple[Axis, float, float]]:
        """The same for a hole across the work that ends `inner` mm from the axis."""
        axis, sign = self._across_axis(s, angle, off)
        return [(axis, sign * inner, -sign)]

    def _across_axis(self, s: float, angle: float, off: float) -> tuple[Axis, float]:
        """(axis across the work, +1 where its lengths grow outward at that angle)."""
        axis = self.turning.cross_axis(s, angle)
        outward = np.array(self.turning.normal(angle))
        if off:
            side = np.cross([0, 0, 1.0], outward)
            axis = Axis.through((np.array(axis.point) + off * side).tolist(), axis.direction)
        return axis, 1.0 if np.array(axis.direction) @ outward > 0 else -1.0

    def across(
        self, radius: float, s: float, angle: float, outer: float, inner: float, tip: float = 0.0, off: float = 0.0
    ) -> list[Solid]:
        """A round hole or pin across the axis at a length and an angle, from `outer` to `inner` mm from the axis."""
        axis, sign = self._across_axis(s, angle, off)
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

    def along_work(self, outline: Outline, angle: float, start: float, end: float) -> Solid:
        """An outline of (outward, across) at an angle, pulled along the work: a gap between teeth."""
        frame = self.turning
        low, high = frame.span(start, end)
        place = Frame.of((frame.axis[0], frame.axis[1], 0.0), x=frame.normal(angle))
        return self.piece.kernel.prism(outline, low, high, self.operation, place)

    def beam(
        self, angle: float, inner: float, outer: float, wide: float, start: float, end: float, off: float = 0.0
    ) -> Solid:
        """A bar `wide` across, from `inner` to `outer` along the direction of an angle, `off` mm beside the axis."""
        frame = self.turning
        low, high = frame.span(start, end)
        place = Frame.of((frame.axis[0], frame.axis[1], 0.0), x=frame.normal(angle))
        return self.piece.kernel.box((inner, off - wide / 2, low), (outer, off + wide / 2, high), self.operation, place)

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

    def seen(self, solid: Solid) -> tuple[tuple[float, float], tuple[float, float]]:
        """Where a solid begins and ends, from the left edge and from the edge towards you."""
        low, high = solid.moved(self._mill_frame().inverse()).bounds
        return (float(low[0]), float(high[0])), (float(low[1]), float(high[1]))

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
