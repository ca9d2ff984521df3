"""What must be known of round work that lies in a vee block or a vice to draw what is cut across it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.specs import Spec
from methodtooling.cutters import PLUNGING
from methodtooling.fixtures import Part

HOLDINGS: Final = ("vee-block", "vice", "drill-vice", "toolmakers-vice", "head", "collet-block")


@dataclass(frozen=True, eq=False)
class CrossSetup(Spec):
    """One operation on round work that lies on its side.  Lengths s in mm from the face that looks at you, before the
    cut; the place of the cut is turned uppermost.

    Work: `before`, `after`, `removed` solids; `end_z` = z of the faces A and B before the cut; `out` = the end from
    which lengths are counted; `axis` (x, y) of the line through which the hole goes.
    Holding: one of `HOLDINGS`; `grip` (from, to) lengths that the block supports, () = in the middle; `grip_diameter`
    of the round that lies in the block.  In a "head" (rotary table or dividing head, its axis level): `holder_parts`
    and `tail_parts` = true polygons in (s, r); `centre_height` mm of the axis above the table, 0 = not known.
    In a "collet-block" that lies in the vice: `holder_parts` of its collet, `block_faces` 4 or 6.
    Cut: `verb` "cross-drill", "cross-ream", "keyway", "slot", "flat" …; `angle` of its place from the 0° mark,
    anticlockwise as you look at the face; holes: `at`, `off` (beside the axis),
    `diameter`, `depth` (0 = `through`); milled: `start`, `end`,
    `width`, `depth` below the top, `cutter_diameter`; `tool_angle`, `pitch`.  `disc`: a cutter on an upright arbor,
    which stands beside the work; the place of the cut is then turned towards it, `floor` mm from the axis.
    Words: `dimension_texts` with "at", "angle", "zero", "hole", "depth", "start", "length", "width", "feed", "holder",
    "table", "end view", "clamp", "parallel", "head", "tailstock", "reading"; missing dimensions are written from the
    numbers.  `tool_name`, `removed_text`, `title`, `description`, `units`.  `projection` "first" or "third": the end
    view left or right of the elevation.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    end_z: tuple[float, float]
    verb: str
    grip_diameter: float
    holding: str = "vee-block"
    out: str = "A"
    axis: tuple[float, float] = (0.0, 0.0)
    grip: tuple[float, ...] = ()
    angle: float = 0.0
    at: float = 0.0
    off: float = 0.0
    diameter: float = 0.0
    depth: float = 0.0
    through: bool = False
    start: float = 0.0
    end: float = 0.0
    width: float = 0.0
    cutter_diameter: float = 0.0
    disc: bool = False
    floor: float = 0.0
    tool_angle: float = 0.0
    pitch: float = 0.0
    holder_parts: tuple[Part, ...] = ()
    tail_parts: tuple[Part, ...] = ()
    centre_height: float = 0.0
    block_faces: int = 0
    dimension_texts: Mapping[str, str] = field(default_factory=dict)
    tool_name: str = ""
    removed_text: str = ""
    title: str = ""
    description: str = ""
    units: str = "mm"
    projection: str = "first"

    @property
    def plunging(self) -> bool:
        """Whether the tool is fed straight down."""
        return self.verb in PLUNGING

    @property
    def span(self) -> tuple[float, float]:
        """(from, to) lengths of the cut."""
        if self.plunging:
            return self.at - self.diameter / 2, self.at + self.diameter / 2
        return self.start, self.end

    @property
    def face(self) -> Floats:
        """Outward direction of the end that looks at you."""
        return np.array([0.0, 0.0, -1.0 if self.out == "A" else 1.0])

    @property
    def upward(self) -> Floats:
        """Direction in the work that is uppermost: from the axis to the place of the cut, or a quarter turn from it."""
        a = np.radians(-self.angle if self.out == "A" else self.angle)
        cut = np.array([np.cos(a), np.sin(a), 0.0])
        return np.cross(self.face, cut) if self.disc else cut

    @property
    def aside(self) -> Floats:
        """From the axis to the line of a hole that goes beside it."""
        return self.off * np.cross([0.0, 0.0, 1.0], self.upward)

    @property
    def face_point(self) -> Floats:
        """Where the axis meets the face."""
        return np.array([*self.axis, self.end_z[0] if self.out == "A" else self.end_z[1]])
