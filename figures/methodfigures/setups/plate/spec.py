"""What must be known of a block that turns in the lathe, in the four-jaw chuck or on a plate, to draw it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from methodfigures.solids.mesh import Mesh
from methodfigures.specs import Spec

HOLDINGS: Final = ("four-jaw", "faceplate", "angle-plate")


@dataclass(frozen=True)
class Clamp:
    """One strap: where it lies on an edge of the block, mm from the left and from the edge towards you, and the
    direction in which it goes out from there.
    """

    x: float
    y: float
    out: tuple[float, float]


@dataclass(frozen=True, eq=False)
class PlateSetup(Spec):
    """One operation on six-face work that turns.  Lengths in mm: x from the left edge, y from the edge towards you as
    you look at the face, depths from that face before the cut.

    Work: `before`, `after`, `removed` solids; `rotation`, `origin` as in `ViceSetup`; `size` = length, width, height.
    Holding: one of `HOLDINGS`; `axis` = the place (x, y) through which the spindle's axis runs; `plate_radius` of plate
    or chuck body; `grip` = thickness between the jaws, from the back; `clamps`; `weight` = (angle in degrees, radius,
    grams) of the balance weight, None without one.
    Cut: `verb`, `diameter`, `depth`, `through`, `pitch`.
    Words: `dimension_texts` with "x", "y", "hole", "weight", "holder", "feed", "face view".  `tool_name`,
    `removed_text`, `title`, `description`, `units`, `projection`.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    verb: str
    rotation: tuple[tuple[float, float, float], ...]
    origin: tuple[float, float, float]
    size: tuple[float, float, float]
    axis: tuple[float, float]
    holding: str
    plate_radius: float
    grip: float = 0.0
    clamps: tuple[Clamp, ...] = ()
    weight: tuple[float, float, float] | None = None
    diameter: float = 0.0
    depth: float = 0.0
    through: bool = False
    pitch: float = 0.0
    dimension_texts: Mapping[str, str] = field(default_factory=dict)
    tool_name: str = ""
    removed_text: str = ""
    title: str = ""
    description: str = ""
    units: str = "mm"
    projection: str = "first"
