"""What must be known of a finished part to draw it as a drawing office does?

Every place is a point of the work (x, y, z) in mm; every text comes from the caller.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from methodfigures.paper.arrangement import FIRST
from methodfigures.paper.sheet import SHEET_WIDTH
from methodfigures.solids.mesh import Mesh
from methodfigures.specs import Spec

Spot = tuple[float, float, float]
Vector = tuple[float, float, float]


CUT_NAME = "A–A"
"""The name of a cut in steps, under its view; its first letter stands at both ends of its line (ISO 128-3)."""


class Side(StrEnum):
    """On which side of its view a dimension stands."""

    LEFT = "left"
    RIGHT = "right"
    ABOVE = "above"
    BELOW = "below"

    @property
    def upright(self) -> bool:
        """Whether its dimension lines run up and down."""
        return self in (Side.LEFT, Side.RIGHT)


class Cutting(StrEnum):
    """How much of the part is cut away in a view."""

    NONE = "none"
    HALF = "half"
    """The lower half shows the cut, the upper half the outside, the axis between them."""
    FULL = "full"


@dataclass(frozen=True)
class Size:
    """A linear dimension between two points of the work, on one side of its view."""

    first: Spot
    second: Spot
    text: str
    side: Side
    at: Spot | None = None
    """Where what it measures is seen, if not at its two points."""
    shown: bool = True
    """Whether what it measures can be seen in its view at all."""


@dataclass(frozen=True)
class Callout:
    """A note with a leader to a place of the work; on the notes' side of its view."""

    spot: Spot
    words: str
    area: bool = False
    """Whether it points at an area (a body of an assembly) and not at an edge."""
    extent: float = 0.0
    """mm: what of the thing that it names must be told apart to see it; 0 where that is no matter."""
    surface: bool = False
    """Whether its words stand in the symbol of a machined surface."""
    frame: str = ""
    """Letter of the datum to which the surface runs true; its words are then how far it may run out (ISO 1101)."""
    datum: bool = False
    """Whether its words are the letter of a datum (ISO 5459), in a box whose leader stands on the surface."""
    item: bool = False
    """Whether its words are the number of a body in the parts list, in a balloon."""


@dataclass(frozen=True)
class Line:
    """A centre line between two points of the work."""

    start: Spot
    end: Spot


@dataclass(frozen=True)
class Circle:
    """A circle seen as such: a pitch circle (`mark` false), or a hole's centre mark of this diameter."""

    centre: Spot
    diameter: float
    mark: bool = False


@dataclass(frozen=True)
class Label:
    """A short name beside a hole of a diameter, for the table of holes."""

    spot: Spot
    words: str
    diameter: float


@dataclass(frozen=True)
class Thread:
    """A thread after ISO 6410-1: a narrow line at its root outside, at its crest inside, a wide line where it ends.

    `start` and `end` on its axis; `major` and `minor` diameters.
    """

    start: Spot
    end: Spot
    major: float
    minor: float
    inside: bool = False


@dataclass(frozen=True)
class View:
    """One view: which way the paper's right and up lie in the work, what is cut, and what is written beside it."""

    right: Vector
    up: Vector
    title: str = ""
    cutting: Cutting = Cutting.NONE
    plane: float = 0.0
    """Where the cut lies, mm towards the reader from the origin of the work."""
    planes: tuple[tuple[float, float], ...] = ()
    """The same of a cut in steps: (where each begins along the paper's right, where it lies); () = one at `plane`."""
    cut_line: tuple[Spot, ...] = ()
    """Ends and bends of the line in which another view is cut, named `CUT_NAME`."""
    axis: Spot | None = None
    """A point of the level axis about which upper and lower half are alike; None where they are not."""
    sizes: tuple[Size, ...] = ()
    callouts: tuple[Callout, ...] = ()
    lines: tuple[Line, ...] = ()
    circles: tuple[Circle, ...] = ()
    threads: tuple[Thread, ...] = ()
    labels: tuple[Label, ...] = ()


@dataclass(frozen=True)
class LimitRow:
    """What a toleranced size may be, in its own words: '16 f7', '15.984', '15.966'."""

    name: str
    upper: str
    lower: str


@dataclass(frozen=True, eq=False)
class PartDrawing(Spec):
    """The finished part: `solids` with their `names`; the front view, and the views beside and below it.

    `beside_left` is the view of the left end, `beside_right` that of the right end, `below` that from above: where
    each stands on the paper follows from `projection` ("first" or "third").
    """

    solids: tuple[Mesh, ...]
    names: tuple[str, ...]
    front: View
    beside_left: View | None = None
    beside_right: View | None = None
    below: View | None = None
    whole: tuple[Mesh, ...] = ()
    """The same for the pictorial, where bodies that touch are one; the solids where it is not given."""
    uncut: frozenset[int] = frozenset()
    """Numbers of the solids that are not cut lengthwise: shafts, pins, screws."""
    pictorial: tuple[Vector, Vector] = ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0))
    """Outward direction of the face that looks at you in the pictorial, and what is up."""
    limits: tuple[LimitRow, ...] = ()
    holes: tuple[tuple[str, ...], ...] = ()
    """Table of holes: the heading, then a row for each hole."""
    items: tuple[tuple[str, ...], ...] = ()
    """Parts list of an assembly: the heading, then a row for each body."""
    apart: tuple[Vector, ...] = ()
    """How far each solid is moved in the pictorial, which is exploded then; as the solids are numbered."""
    remarks: tuple[str, ...] = ()
    block: tuple[tuple[str, str], ...] = ()
    """Title block: (label, words)."""
    projection: str = FIRST
    width: float = SHEET_WIDTH
    """Width of the sheet, mm: a narrow one stands on a phone at a size that can be read."""
    title: str = ""
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


__all__ = [
    "CUT_NAME",
    "Callout",
    "Circle",
    "Cutting",
    "Label",
    "LimitRow",
    "Line",
    "PartDrawing",
    "Side",
    "Size",
    "Thread",
    "View",
]
