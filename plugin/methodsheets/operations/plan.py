"""What does a verb hand over? Its cutters, its cutting data, its words: everything the method needs to carry it out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

from methodsheets.vocabulary.joint import Joint
from methodsheets.vocabulary.process import Passes, Process
from methodsheets.vocabulary.tool import Hand, ToolKind

if TYPE_CHECKING:
    import numpy as np

    from methodsheets.geometry.frame import Axis, Frame
    from methodsheets.geometry.solid import Solid
    from methodsheets.sheet.model import Check, Fact, Limit, Table
    from methodsheets.vocabulary.support import Support
    from methodsheets.workpiece.bodies import Mark
    from methodsheets.workpiece.seats import Sits

    from .qualities import Given

Point = tuple[float, float]


@dataclass(frozen=True)
class CutData:
    """How the tool takes the metal: all that spindle speed, feed, passes, force and time are worked out from.

    Lengths in mm. `process` is how the tool takes metal; NONE means that no machine cuts.
    """

    process: Process = Process.NONE
    diameter: float = 0.0
    """Diameter that the cutting speed is worked out from: the largest of the cut, or the cutter's own."""
    start: float = 0.0
    """Diameter (turning), or depth 0 (drilling, milling), before the cut."""
    end: float = 0.0
    """Diameter, or depth, after the cut."""
    travel: float = 0.0
    """Length of feed of one pass, approach included."""
    width: float = 0.0
    """Width of the blade, or width of engagement of a milling cutter."""
    holes: int = 1
    """How often the cut is repeated."""
    pitch: float = 0.0
    """Lead of a thread."""
    depth_of_thread: float = 0.0
    across: bool = False
    """Whether the feed runs across the axis (facing, parting)."""
    slide: str = ""
    """Slide whose dial sets the cut: 'cross slide', 'leadscrew', 'tailstock', 'z' …"""
    paths: float = 1.0
    """Milling: side-by-side paths to cover the width."""
    tool_turns: bool = False
    """Whether the cutter turns and the work rests."""
    run_out: float = math.inf
    """Of a thread: mm from its end to what stands in the tool's way; infinite where nothing does."""
    close_up: bool = False
    """Whether a die is turned round at the end of its thread, so that it cuts up to a shoulder."""
    stop: tuple[float, float] | None = None
    """Travels of the slide from the touch-off between which the last pass must stop; None where no check says so."""

    @property
    def infeed(self) -> float:
        """How far the slide goes in from the touch-off to the last pass, mm."""
        row = self.process.row
        if row.over_face:
            return self.width
        if row.passes is Passes.MILLED:
            return self.end
        return self.depth_of_thread if row.passes is Passes.THREADED else abs(self.start - self.end) / 2

    def with_infeed(self, infeed: float) -> CutData:
        """The same cut, gone in so far."""
        row = self.process.row
        if row.over_face:
            return replace(self, width=infeed)
        if row.passes is Passes.MILLED:
            return replace(self, end=infeed)
        if row.passes is Passes.THREADED:
            return replace(self, depth_of_thread=infeed)
        return replace(self, end=self.start + (2 * infeed if self.end > self.start else -2 * infeed))


@dataclass(frozen=True)
class Made:
    """A size that an operation makes, mm."""

    what: str
    """'diameter', 'length', 'depth', 'width' or 'over wires'."""
    size: float
    infeed: float = 0.0
    """mm that the slide of the passes goes further in as the size grows by one; 0 where the passes do not set it."""
    by: ToolKind | None = None
    """The tool that decides the size; None where a slide does."""
    by_standard: tuple[float, float, str] | None = None
    """(least, greatest deviation, class) of a size whose own standard sets its limits, as that of a thread does."""
    left_on: bool = False
    """Whether metal was left on for a later cut: a check of the finished size is not about it."""


class Edges(StrEnum):
    """Where a milling cutter leaves the work."""

    OVER = "out over the edges that it meets"
    ROUND = "right round the outside"
    WHOLE = "over the whole face, half the cutter still on it"
    WITHIN = "nowhere"


@dataclass(frozen=True)
class Sketch:
    """What the drawing of the operation is told; lengths in mm from the face that looks at you."""

    start: float = 0.0
    end: float = 0.0
    diameter: float = 0.0
    from_diameter: float = 0.0
    end_diameter: float | None = None
    through: bool = False
    in_face: bool = False
    """Whether a slot lies in the face that looks at you."""
    radius: float = 0.0
    angles: tuple[float, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    """Holes on the face of a block: (x, y) from the left edge and the edge towards you."""
    divided: int = 0
    """N of `divide N`, 0 where the angles were written out."""
    size: float = 0.0
    cut_words: str = ""
    """Text of the cut's own length dimension."""
    diameter_words: str = ""
    high: float = 0.0
    """Height of the teeth of a cutter with a shape of its own: the wide part of a T-slot, the flank of a dovetail."""
    view: str = ""
    box: tuple[float, float, float, float, float] | None = None
    """Milling: x0, y0, x1, y1, depth in the lengths of the set-up."""
    pitch: float = 0.0
    """Step from middle to middle of a row of equal gaps, which the first words of the operation tell; 0 for others."""


@dataclass(frozen=True)
class Gap:
    """A piece cut away in the middle of the work, between two lengths from the face that looks at you; mm."""

    start: float
    end: float
    angle: float
    """Side that the tool comes from, degrees from the 0° mark."""
    kept: tuple[str, ...] = ()
    """Bodies that are left untouched."""
    kerf: float = 0.0
    """Width of the saw's cut; 0 where a file or a cutter does it."""
    floor: float = 0.0
    """Height above the axis, towards the tool, down to which the tool goes (negative: beyond the axis)."""
    whole: float = 0.0
    """mm³ of the cut."""
    reached: float = 0.0
    """mm³ of it that the tool reaches from its side in one set, without touching what is kept."""
    met: tuple[str, float] | None = None
    """What is kept and stands in the tool's way: its name, and the mm of it that would be cut through."""
    absent: tuple[str, ...] = ()
    """Of the kept bodies those of which nothing stands between the two lengths."""


@dataclass(frozen=True, eq=False)
class Plan:
    """One operation, ready to be carried out on the workpiece."""

    words: str
    """The operation in one sentence: a draft (`say`), its sizes in both systems."""
    cutters: Sequence[Solid] = ()
    cut: CutData = field(default_factory=CutData)
    sketch: Sketch = field(default_factory=Sketch)
    splits: bool = False
    """Whether the work is meant to fall into pieces."""
    keeps: str = ""
    """Which piece is kept after a split: 'front' or 'back', seen from the face that looks at you."""
    spares: tuple[str, ...] = ()
    """Bodies that the cut leaves as they are."""
    gap: Gap | None = None
    """What is cut away between two webs, where that is what the operation does."""
    marks: Sequence[np.ndarray] = ()
    """Lines on the surface, (k, 3) in work coordinates."""
    face_moves: float = 0.0
    """How far the datum face moves into the metal (facing, parting)."""
    checks: Sequence[Check] = ()
    cautions: Sequence[str] = ()
    facts: Sequence[Fact] = ()
    limits: Sequence[Limit] = ()
    tables: Sequence[Table] = ()
    join: Join | None = None
    guide: Join | None = None
    """What is put to the work for this operation only and guides the tool: a filing button, as it goes in."""
    props: tuple[Solid, ...] = ()
    """What else stands at the work then."""
    comes_off: str = ""
    """Name of the piece that comes off the work again."""
    hot_within: float = 0.0
    """mm from what is joined within which the work is made hot; infinite where all of it is."""
    tool_words: str = ""
    """Tool that the verb uses where the author names none."""
    tool_size: float = 0.0
    thread: str = ""
    """Name of the thread that a tap or a die must have; empty for other tools."""
    handling: float = 0.5
    """Minutes to change the tool, touch off and measure: common practice, an estimate."""
    by_hand: float = 0.0
    """Minutes of handwork of verbs that no machine times."""
    reach_depth: float = 0.0
    """How deep the tool must reach from the swing or the face (blade, drill flute, boring bar, end mill)."""
    inside: bool = False
    """Whether the tool works inside a bore."""
    straight: bool = True
    """Whether the tool goes in a straight line; a profile tool follows its outline."""
    beside: bool = False
    """Whether a cutter comes down beside the work and cuts with its side."""
    climb: bool = False
    """Whether a milling cutter goes with the work and not against it."""
    hand: Hand = Hand.RIGHT
    """Hand of the thread that is made."""
    left_hand: bool = False
    """Whether a left-hand tool comes in from the chuck side."""
    corner: float = 0.0
    """Radius that is left in the corner."""
    edges: Edges = Edges.OVER
    opening: float = 0.0
    """Width, mm, that a milling cutter must go into; 0 where it has room."""
    widens: bool = False
    """Whether a cutter that is narrower than the opening may take it in two runs side by side."""
    tool_angle: float = 0.0
    """Degrees that the tool's point must have, because they stay in the work; 0 where any will do."""
    least_tool: float = 0.0
    """Diameter, mm, below which a tool cannot do it; 0 where any can."""
    point: float = 118.0
    """Included angle of a drill's point, degrees."""
    axes: Sequence[tuple[Axis, float, float]] = ()
    """Holes made by a tool that turns: axis, length along it where the full diameter ends, +1 or -1 into the metal."""
    supports: Support | None = None
    """Support that is brought up; NONE where all are taken away."""
    support_at: float | None = None
    must_cut: bool = True
    """Whether a cut that removes nothing is a fault."""
    makes: tuple[Made, ...] = ()
    """The sizes that it makes, those first that a check is likely to be about."""
    gives: tuple[Given, ...] = ()
    """What it gives the work that no solid shows: a knurl, a hardness, a colour."""
    leaves: tuple[float, float] = (0.0, 0.0)
    """Finish, µm Ra from and to, of a tool that has no process of its own; (0, 0) where it leaves none."""
    feature: str = ""
    """Name by which run-out and differences refer to what this operation makes."""

    def with_more(
        self, *, facts: Iterable[Fact] = (), checks: Iterable[Check] = (), tables: Iterable[Table] = (),
        cautions: Iterable[str] = (), marks: Iterable[np.ndarray] = (),
    ) -> Plan:  # fmt: skip
        """The same plan with more told of it."""
        return replace(
            self, facts=(*self.facts, *facts), checks=(*self.checks, *checks), tables=(*self.tables, *tables),
            cautions=(*self.cautions, *cautions), marks=(*self.marks, *marks),
        )  # fmt: skip


@dataclass(frozen=True, eq=False)
class Part:
    """One body that a joint adds to the work."""

    name: str
    solid: Solid
    material: str
    density: float
    """g/mm³."""
    filler: bool = False
    """Whether it is a bead: no drawing of a part shows it."""
    marks: tuple[Mark, ...] = ()
    place: Frame | None = None
    """Where the frame of the piece that it was stands in the work."""


@dataclass(frozen=True)
class WayIn:
    """How the drawing shows a joint; directions and a point of the work."""

    into: tuple[float, float, float]
    right: tuple[float, float, float]
    """What runs to the right on the paper."""
    at: tuple[float, float, float]
    """A point on the axis of the (first) piece, in the plane of the section."""


@dataclass(frozen=True, eq=False)
class Join:
    """Other bodies that become part of the work."""

    how: Joint
    name: str
    parts: tuple[Part, ...]
    way: WayIn
    sits: Sits
    """How they sit in the walls of the work."""
    count: int = 1
    """How many equal pieces."""
    shown: int = 0
    """How many of the bodies go in the way that is drawn; 0 = all of them."""
    apart: tuple[Solid, ...] = ()
    """What goes in as it is before it is joined, where joining changes it: rivets with one head."""

    @cached_property
    def solid(self) -> Solid:
        """All of them as one."""
        return self.parts[0].solid.together([part.solid for part in self.parts[1:]])
