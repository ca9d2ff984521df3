"""What must be known of a turning set-up to draw it?"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Final

from methodfigures.solids.mesh import Mesh
from methodtooling.fixtures import Part

ALONG_AXIS: Final = frozenset({"drill", "centre", "ream", "tap", "counterbore"})
"""Operations whose tool stands in the tailstock."""
INSIDE: Final = ALONG_AXIS | {"bore"}
CROSSWISE: Final = frozenset({"face", "groove", "part off", "chamfer", "knurl"})
"""Operations fed towards the axis unless the set-up says otherwise."""
VERBS: Final = frozenset(
    {
        "face",
        "turn",
        "taper",
        "groove",
        "part off",
        "bore",
        "drill",
        "centre",
        "ream",
        "tap",
        "thread",
        "knurl",
        "chamfer",
        "counterbore",
        "profile",
    }
)
STEADIES: Final = frozenset({"steady", "travelling steady"})
SUPPORTS: Final = ("centre", "steady", "travelling steady")
HOLDER_NAMES: Final[Mapping[str, str]] = {
    "three-jaw": "three-jaw chuck",
    "soft jaws": "soft jaws",
    "four-jaw": "four-jaw chuck",
    "collet": "collet chuck",
    "centres": "driving plate",
    "mandrel": "mandrel",
    "faceplate": "faceplate",
}
"""Ways of holding and what their holder is called when the set-up gives no name."""
TOOL_NAMES: Final[Mapping[str, str]] = {
    "face": "facing tool",
    "turn": "knife tool",
    "taper": "knife tool",
    "groove": "grooving tool",
    "part off": "parting blade",
    "bore": "boring tool",
    "drill": "drill",
    "centre": "centre drill",
    "ream": "reamer",
    "tap": "tap",
    "thread": "threading tool",
    "knurl": "knurling wheel",
    "chamfer": "chamfer tool",
    "counterbore": "counterbore",
    "profile": "round-nosed tool",
}


@dataclass(frozen=True, eq=False)
class TurningSetup:
    """One turning operation in its set-up.  Lengths in mm from the face that looks at you before the cut, positive
    into the metal; diameters in mm about the axis of rotation.

    Work: `before`, `after`, `removed` solids (after parting off: both pieces); `body_names` of the solids in `after`.
    `end_z` = z of the faces A and B before the cut; `out` = the end that looks at you.
    Holding: `holding` one of `HOLDER_NAMES`; `grip` from … to; `grip_diameter`; `axis` and `grip_axis` (x, y) of the
    axis of rotation and of the gripped round; `packing` mm under the jaws; `grip_inside` = jaws spread in a bore;
    `support` None, "centre", "steady" or "travelling steady";
    `steady_at`.  `holder_parts`, `tail_parts` and `tool_parts` = true polygons to draw instead of symbols, the tool
    in its place at the end of the cut.
    Cut: `verb` one of `VERBS`; `cut_start`, `cut_end`; `cut_diameter` made (for a taper at `cut_start`, with
    `end_diameter` at `cut_end`); `from_diameter` before; `through`; `inside` for cuts that are usually outside;
    `pitch` of a thread; `tool_width`, `tool_diameter`, `tool_nose`, `tool_angle` (degrees), `tool_kind` ("die" …).
    Words: `dimension_texts` with the keys "start", "length", "depth", "stick-out", "grip", "diameter", "from",
    "throw", "note", "mark" (where the 0° mark is, shown on the upper side) and "end diameter"; what is missing is
    written from the numbers, "note" and "mark" are left out.  `removed_text`, `tool_name`,
    `holder_name`, `tail_name`, `title`, `description`.  `feed` "along", "in" or
    "out" (away from the holder); `units` "mm" or "in".
    `pictorials` = show before and after below the set-up.
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    verb: str
    holding: str
    grip: tuple[float, float]
    grip_diameter: float
    end_z: tuple[float, float]
    out: str = "A"
    body_names: tuple[str, ...] = ()
    axis: tuple[float, float] = (0.0, 0.0)
    grip_axis: tuple[float, float] | None = None
    packing: float = 0.0
    grip_inside: bool = False
    support: str | None = None
    steady_at: float | None = None
    holder_parts: tuple[Part, ...] | None = None
    tail_parts: tuple[Part, ...] | None = None
    tool_parts: tuple[Part, ...] | None = None
    cut_start: float = 0.0
    cut_end: float = 0.0
    cut_diameter: float = 0.0
    end_diameter: float | None = None
    from_diameter: float = 0.0
    through: bool = False
    inside: bool = False
    pitch: float = 0.0
    tool_kind: str = ""
    tool_name: str = ""
    tool_width: float = 0.0
    tool_diameter: float = 0.0
    tool_nose: float = 0.0
    tool_angle: float = 0.0
    dimension_texts: Mapping[str, str] = field(default_factory=dict)
    removed_text: str = ""
    holder_name: str = ""
    tail_name: str = ""
    title: str = ""
    description: str = ""
    feed: str = ""
    units: str = "mm"
    pictorials: bool = False

    def __post_init__(self) -> None:
        checks = (
            ("verb", self.verb in VERBS, f"one of {', '.join(sorted(VERBS))}"),
            ("holding", self.holding in HOLDER_NAMES, f"one of {', '.join(HOLDER_NAMES)}"),
            ("support", self.support in (None, *SUPPORTS), f"None or one of {', '.join(SUPPORTS)}"),
            ("out", self.out in ("A", "B"), "A or B"),
            ("units", self.units in ("mm", "in"), "mm or in"),
            ("grip", 0 <= self.grip[0] < self.grip[1], "from the nearer to the farther length behind the face"),
            ("grip_diameter", self.grip_diameter > 0, "more than 0"),
            ("before", bool(self.before), "at least one solid"),
            ("after", bool(self.after), "at least one solid"),
        )
        wrong = [f"{name} must be {rule} (got {getattr(self, name)!r})" for name, right, rule in checks if not right]
        if wrong:
            raise ValueError("; ".join(wrong))

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        h = hashlib.sha256()
        for f in fields(self):
            value = getattr(self, f.name)
            if f.name in ("before", "after", "removed"):
                value = [m.key() for m in value]
            elif f.name == "dimension_texts":
                value = sorted(value.items())
            h.update(f"{f.name}={value!r};".encode())
        return h.hexdigest()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, TurningSetup) and self.key() == other.key()

    def __hash__(self) -> int:
        return hash(self.key())

    @property
    def bored(self) -> bool:
        """Whether the cut is inside the work."""
        return self.inside or self.verb in INSIDE

    @property
    def axial(self) -> bool:
        """Whether the tool stands in the tailstock."""
        return self.verb in ALONG_AXIS or self.tool_kind == "die"

    @property
    def cut_open(self) -> bool:
        """Whether the work is shown in section."""
        return self.bored or self.holding == "mandrel" or self.grip_inside

    @property
    def back(self) -> float:
        """Where the work that is seen ends: between centres at its far face, else where the grip ends."""
        whole = abs(self.end_z[1] - self.end_z[0])
        return max(self.grip[1], whole) if self.holding == "centres" else self.grip[1]

    @property
    def steadied(self) -> bool:
        """Whether a steady bears on the work."""
        return self.support in STEADIES

    @property
    def centred(self) -> bool:
        """Whether a centre stands in the tailstock."""
        of_steady = ("steady", "finger", "finger tip")
        given = any(part.name not in of_steady for part in self.tail_parts or ())
        return self.support == "centre" or self.holding == "centres" or given

    @property
    def throw(self) -> float:
        """How far the axis of rotation lies from that of the gripped round."""
        g = self.grip_axis or self.axis
        return float(((self.axis[0] - g[0]) ** 2 + (self.axis[1] - g[1]) ** 2) ** 0.5)

    @property
    def crosswise(self) -> bool:
        """Whether the feed is towards the axis."""
        return (self.feed or ("in" if self.verb in CROSSWISE and not self.bored else "along")) == "in"

    def number(self, value: float) -> str:
        """A length as it is written: metric as it is, inches to a thousandth."""
        return f"{value / 25.4:.3f}" if self.units == "in" else f"{round(value, 3):g}"

    def words(self, name: str, default: str) -> str:
        """The given dimension text, or the default."""
        return self.dimension_texts.get(name, default)
