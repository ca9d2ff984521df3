"""Where does a verb work? The piece in its set-up, the shapes a tool can sweep there, lines, other pieces, tools."""

from __future__ import annotations

import math
from collections.abc import Container
from typing import TYPE_CHECKING

import numpy as np

from methodsheets.geometry import Solid
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import Material, material
from methodsheets.trade.threads.hole_making import centre_drill_for
from methodsheets.vocabulary.tool import ToolKind
from methodsheets.workpiece import Workpiece

from .places import Places
from .sweeping import Sweeping

if TYPE_CHECKING:
    from methodsheets.reading.problem import Place

    from .words import Said

LARGEST_CUTTER = {"light": 12.0, "medium": 20.0, "heavy": 32.0}
"""mm: the largest end mill by the machine's duty (common practice, from memory)."""
PATH_SHARE = 0.7
"""Share of a milling cutter that each of several paths side by side takes (common practice)."""
PROUD = 0.05
"""mm by which a marked line stands outside the surface that it marks."""


def paths_over(width: float, cutter: float) -> float:
    """How many paths side by side a cutter takes over a width."""
    return 1.0 if width <= cutter else max(1.0, math.ceil(width / (PATH_SHARE * cutter) - 1e-9))


class Station(Sweeping):
    """One set-up at one moment, as a verb sees it."""

    # ------------------------------------------------------------ lines on the surface
    def surface_line(self, radius: float, angle: float, start: float, end: float) -> np.ndarray:
        """A scribed line along the work."""
        frame = self.turning
        return np.stack([frame.to_work(start, radius + PROUD, angle), frame.to_work(end, radius + PROUD, angle)])

    def along(self, start: float, end: float) -> tuple[float, float]:
        """Two lengths from the face as lengths of the piece, the lower first, mm."""
        low, high = sorted((self.turning.z_of(start), self.turning.z_of(end)))
        return low, high

    def ring_line(self, s: float, radius: float = 0.0) -> np.ndarray:
        """A scribed ring at a length from the face."""
        frame = self.turning
        r = (radius or self.swing(max(0.0, s - 0.01), s + 0.01)) + PROUD
        return np.stack([frame.to_work(s, r, a) for a in np.linspace(0, 360, 97)])

    def knurl_lines(self, radius: float, start: float, end: float, pitch: float, *, straight: bool) -> list[np.ndarray]:
        """Lines of a knurl: straight, or two hands of slanting ones; at most 72 each way, for a clear picture."""
        count = max(6, min(72, round(2 * math.pi * radius / pitch)))
        lean = 0.0 if straight else math.degrees((end - start) * math.tan(math.radians(30)) / radius)
        lines = []
        for hand in (1.0,) if straight else (1.0, -1.0):
            for i in range(count):
                steps = np.linspace(0, 1, 2 if straight else 9)
                lines.append(np.stack([
                    self.turning.to_work(start + t * (end - start), radius + PROUD,
                        360.0 * i / count + hand * lean * t) for t in steps
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
    def other_piece(self, name: str, said: Said) -> Workpiece:
        """A piece of this method, or the finished piece of another one."""
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
        return other

    def extent(self, solid: Solid) -> float:
        """Length of a solid along the axis."""
        low, high = solid.bounds
        return float(high[2] - low[2])

    def free_name(self, name: str, taken: Container[str] = ()) -> str:
        """A name that no body of the work bears yet, and none of those `taken`."""
        names = (name, *(f"{name} {i}" for i in range(2, 1000)))
        return next(one for one in names if one not in self.piece.bodies and one not in taken)

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
        kind = ToolKind.END_MILL if end_mill else ToolKind.SLOT_DRILL
        found = self.workshop.nearest_of(kind, width, not_above=True) or self.workshop.nearest_of(
            ToolKind.END_MILL, width
        )
        return found.size if found and found.size else max(3.0, min(20.0, width))

    def largest_cutter(self) -> float:
        """Diameter of the largest end mill that this machine drives well, for a cut that is open to one side."""
        if self.tool and self.tool.diameter:
            return self.tool.diameter
        most = LARGEST_CUTTER.get(self.machine.duty, LARGEST_CUTTER["light"])
        found = self.workshop.nearest_of(ToolKind.END_MILL, most, not_above=True)
        return found.size if found and found.size else 10.0

    def face_cutter(self, width: float) -> float:
        """Diameter of the face mill for a face that is too wide for one path of an end mill; 0 where none is better.

        The one that covers the face in fewest paths, and of those the smallest: it asks least of the machine.
        """
        if self.tool is not None or width <= self.largest_cutter():
            return 0.0
        there = [one for one in self.workshop.tools_of(ToolKind.FACE_MILL) if one.goes_on(self.machine.kind)]
        sizes = [one.diameter for one in there if one.diameter > self.largest_cutter()]
        return min(sizes, key=lambda size: (paths_over(width, size), size), default=0.0)

    def usual_centre(self) -> float:
        """Pilot of the centre drill usual for work of this diameter."""
        size = 2 * self.swing(0, 1.0) if self.holding else 20.0
        return centre_drill_for(min(max(size, 3.0), 160.0)).pilot
