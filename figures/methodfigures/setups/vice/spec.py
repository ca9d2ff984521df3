"""What must be known of work in the vice, or clamped to the table, to draw its set-up?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from methodfigures.solids.mesh import Mesh
from methodfigures.specs import Spec
from methodtooling.cutters import PLUNGING

JAWED: Final = frozenset({"vice", "drill-vice", "toolmakers-vice", "bench-vice", "saw-vice"})
"""Ways of holding between two jaws."""
HOLDINGS: Final = JAWED | {"clamps", "angle-plate", "magnet", "fixture"}
WORLD: Final = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, eq=False)
class ViceSetup(Spec):
    """One operation on six-face work.  Lengths in mm: x from the left edge, y from the edge towards you, depths from
    the upper face before the cut.

    Work: `before`, `after`, `removed` solids.  `rotation` = directions right, away from you and up in the work;
    `origin` = the point of the work from which x, y and depths are counted (upper, left, towards you).
    Holding: `holding` one of `HOLDINGS`; `grip` = height between the jaws from the lower face; `jaw_length` and
    `jaw_height` of the vice (above its bed).
    Cut: `verb` (face, step, slot, pocket, profile, vee, chamfer, drill, bore, ream, tap, centre, counterbore …); `box`
    (x0, y0, x1, y1, depth); `places` of holes; `diameter` of holes; `through`; `cutter_diameter`; `tool_angle`,
    `pitch`; `cutter` = its sort where it has a shape of its own ("t-slot-cutter" …), `cutter_high` = height of its
    teeth, `cutter_neck` = what its neck goes through; `along` "length" or "width" (the feed; "" = along the longer run
    of the cut).
    `clamps` = (x, y, out along x, out along y) of each on the upper face: the middle of its edge, and which way it
    lies; () = one on each end that stays.
    `disc` = diameter of a form cutter on a level arbor that runs along the work; it is fed across.
    Names: `faces` = of the upper face, the one towards you and the right-hand one.  Texts in `dimension_texts`:
    "above" (the jaws), "grip", "depth", "x0", "width x", "y0", "width y", "hole", "x 1", "y 1" … (places), the words
    "moving jaw", "fixed jaw", "parallels", "packing", "table", "clamp", "angle plate", "feed", "force", "pose"; missing
    dimensions are written from the numbers.  `removed_text`, `tool_name`, `title`, `description`, `units` "mm"/"in".
    `table_columns`, `table_rows` = list of places beside the plan; without it one is written when there are too many
    places to dimension each in the plan.  `projection` "first" or "third": the plan below or above the front view.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    verb: str
    box: tuple[float, float, float, float, float]
    rotation: tuple[tuple[float, float, float], ...] = WORLD
    origin: tuple[float, float, float] = (0.0, 0.0, 0.0)
    holding: str = "vice"
    grip: float = 0.0
    jaw_length: float = 100.0
    jaw_height: float = 32.0
    places: tuple[tuple[float, float], ...] = ()
    diameter: float = 0.0
    through: bool = False
    cutter_diameter: float = 0.0
    tool_angle: float = 0.0
    pitch: float = 0.0
    cutter: str = ""
    cutter_high: float = 0.0
    disc: float = 0.0
    cutter_neck: float = 0.0
    clamps: tuple[tuple[float, float, int, int], ...] = ()
    along: str = ""
    faces: tuple[str, str, str] = ("top", "front", "right")
    dimension_texts: Mapping[str, str] = field(default_factory=dict)
    removed_text: str = ""
    tool_name: str = ""
    title: str = ""
    description: str = ""
    units: str = "mm"
    projection: str = "first"
    table_columns: tuple[str, ...] = ()
    table_rows: tuple[tuple[str, ...], ...] = ()

    @property
    def plunging(self) -> bool:
        """Whether the tool is fed straight down."""
        return self.verb in PLUNGING

    @property
    def jawed(self) -> bool:
        """Whether the work stands between two jaws."""
        return self.holding in JAWED

    @property
    def packed(self) -> bool:
        """Whether it must stand clear of the table: a tool comes out below."""
        return self.holding == "clamps" and self.through

    @property
    def few(self) -> bool:
        """Whether the places are few enough to have their own dimensions in the plan."""
        along, across = ({round(p[i], 6) for p in self.places} for i in (0, 1))
        return len(self.places) <= FEW and max(len(along), len(across)) <= 2

    def rows(self) -> list[tuple[str, ...]]:
        """The list of places beside the plan, heading first; empty when the plan dimensions them all."""
        if self.table_rows:
            return [self.table_columns, *self.table_rows] if self.table_columns else list(self.table_rows)
        if self.few:
            return []
        places = [(str(i + 1), self.number(x), self.number(y)) for i, (x, y) in enumerate(self.places)]
        return [("no.", "x", "y"), *places]


FEW: Final = 4
"""Up to so many places may have their own dimensions in the plan."""
