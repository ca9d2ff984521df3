"""What must be known of round work that stands on the rotary table, or upright on a machine table, to draw it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.specs import Spec
from methodtooling.cutters import PLUNGING
from methodtooling.fixtures import Part

HOLDINGS: Final = ("collet", "three-jaw", "four-jaw", "soft jaws", "mandrel", "clamps")


@dataclass(frozen=True, eq=False)
class RotarySetup(Spec):
    """One operation on round work that stands upright.  Lengths s in mm from the face that is up (before the cut),
    positive downwards; angles in degrees, anticlockwise as you look at that face, from the 0° mark.

    Work: `before`, `after`, `removed` solids; `end_z` = z of the faces A and B before the cut; `out` = the end that is
    up; `axis` (x, y) of the table's axis in the work.
    Holding: one of `HOLDINGS`; `grip` (from, to) lengths; `grip_diameter`; `grip_axis` (x, y) if it is another one;
    `holder_parts` = true polygons in (s, r) to draw instead of symbols; `table_radius` mm; `plain_table` = no rotary
    table.
    Cut: `verb` "drill", "ream", "bore", "tap", "counterbore", "centre", "flat", "round" (the table turns),
    "slot", "keyway", "graduate" …;
    `angles` of all places; `at` = which of them is being cut; `done` = how many are cut already, this one included;
    `radius` of the pitch circle, or distance of a flat or of a slot's bottom from the axis; `start`, `end` of the cut;
    `diameter` of holes; `width` of slots; `cutter_diameter`; `through`; `in_face` = a slot across the face;
    `tool_angle`, `pitch`.
    Words: `dimension_texts` with "reading" (under the index, e.g. "table reads 40°"), "radius", "angle", "zero" (at the
    0° mark), "start", "length", "depth", "note", "feed", "table", "holder", "base"; missing dimensions are written
    from the numbers.  `tool_name`, `removed_text`, `title`, `description`,
    `units`.  `table_columns`, `table_rows`, `table_caption` = settings of the handle.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    end_z: tuple[float, float]
    verb: str
    holding: str
    grip: tuple[float, float]
    grip_diameter: float
    out: str = "A"
    axis: tuple[float, float] = (0.0, 0.0)
    grip_axis: tuple[float, float] | None = None
    holder_parts: tuple[Part, ...] | None = None
    table_radius: float = 60.0
    plain_table: bool = False
    angles: tuple[float, ...] = (0.0,)
    at: int = 0
    done: int = 1
    radius: float = 0.0
    start: float = 0.0
    end: float = 0.0
    diameter: float = 0.0
    width: float = 0.0
    cutter_diameter: float = 0.0
    through: bool = False
    in_face: bool = False
    climb: bool = False
    tool_angle: float = 0.0
    pitch: float = 0.0
    dimension_texts: Mapping[str, str] = field(default_factory=dict)
    tool_name: str = ""
    removed_text: str = ""
    title: str = ""
    description: str = ""
    units: str = "mm"
    table_columns: tuple[str, ...] = ()
    table_rows: tuple[tuple[str, ...], ...] = ()
    table_caption: str = ""

    @property
    def plunging(self) -> bool:
        """Whether the tool is fed straight down."""
        return self.verb in PLUNGING

    @property
    def angle(self) -> float:
        """Angle of the place that is being cut."""
        return self.angles[self.at] if self.angles else 0.0

    @property
    def face(self) -> Floats:
        """Outward direction of the end that is up."""
        return np.array([0.0, 0.0, -1.0 if self.out == "A" else 1.0])

    @property
    def face_z(self) -> float:
        """Z of the face that is up."""
        return self.end_z[0] if self.out == "A" else self.end_z[1]

    @property
    def outward(self) -> Floats:
        """Direction in the work from the axis to the place that is being cut."""
        a = np.radians(-self.angle if self.out == "A" else self.angle)
        return np.array([np.cos(a), np.sin(a), 0.0])
