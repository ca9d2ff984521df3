"""Which tools are there, in which sizes, and which does a verb take when the author names none?"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from methodsheets.trade.threads.any_thread import same_thread
from methodsheets.vocabulary.tool import TOOLS, Hand, SizedBy, ToolKind, ToolRow, Turned

from .said_size import said_size
from .tool_lengths import lengths_of


@dataclass(frozen=True)
class ToolSize:
    """One size of a set: its diameter or width [mm] and the name stamped on it ('6.8', '1/4', 'No. 43', 'M6')."""

    size: float
    label: str = ""


@dataclass(frozen=True)
class Tool:
    """One tool, or a set of one kind. Lengths in mm, angles in degrees; 0 means 'not said'.

    Parameters:
        key: its name in the workshop file
        kind: which sort of tool it is
        name: what the sheet calls it
        turned: whether a hand or a machine turns it
        hand: of the cut that it makes: a left-hand tap, a tool that cuts away from the chuck
        material: 'HSS', 'carbide' or 'carbon steel'
        nose_radius: of a lathe tool
        approach: angle between cutting edge and feed; 90 cuts a square shoulder
        nose_angle: angle of the point between its two edges
        reach: how far a bar or blade sticks out, or a drill reaches, beside its flutes
        shank: height (square shank) or diameter
        width: of a parting, grooving or form tool, a saw
        diameter: of this tool; 0 for a set, until a size is taken from it
        sizes: the sizes of a set
        flute_length, overall_length: of drill, reamer, end mill
        flute_factor: flute length as a multiple of the diameter, where a set gives no single length
        lengths: series of standard lengths that a set has: 'jobber', 'hand reamer' … (see `tool_lengths`)
        teeth: flutes or teeth
        point_angle: of a drill, centre drill, countersink
        min_bore: smallest hole that it goes into
        verbs: what it is used for here, instead of what the trade usually uses it for
        centre_cutting: whether an end mill may be plunged
        fit: what a reamer makes, e.g. 'H7'
    """

    key: str
    kind: ToolKind
    name: str
    words: tuple[str, ...] = ()
    turned: Turned = Turned.EITHER
    hand: Hand = Hand.RIGHT
    material: str = "HSS"
    machines: tuple[str, ...] = ()
    nose_radius: float = 0.0
    approach: float = 90.0
    nose_angle: float = 0.0
    reach: float = 0.0
    shank: float = 0.0
    width: float = 0.0
    diameter: float = 0.0
    sizes: tuple[ToolSize, ...] = ()
    size_label: str = ""
    flute_length: float = 0.0
    flute_factor: float = 0.0
    lengths: str = ""
    overall_length: float = 0.0
    teeth: int = 0
    point_angle: float = 0.0
    min_bore: float = 0.0
    verbs: tuple[str, ...] = ()
    centre_cutting: bool = False
    fit: str = ""
    handling_minutes: float = 0.0
    note: str = ""

    @property
    def sort(self) -> ToolRow:
        """What the trade knows of this sort of tool."""
        return self.kind.row

    @property
    def usual_name(self) -> str:
        """'drill': the usual name, without a size."""
        return self.sort.words[0]

    def known_as(self) -> tuple[str, ...]:
        """Every word by which it may be called."""
        return (self.key, self.name, *self.words, *self.sort.words)

    def used_for(self, verb: str) -> bool:
        """Whether it is the tool for a verb."""
        return verb in (self.verbs or self.sort.verbs)

    def goes_on(self, machine_kind: str) -> bool:
        """Whether that kind of machine takes it."""
        return machine_kind in (self.machines or self.sort.machines)

    @property
    def cutting_length(self) -> float:
        """[mm] length that can be buried: flutes of a drill or cutter, reach of a bar or blade; 0 where not said."""
        if self.flute_length:
            return self.flute_length
        if self.flute_factor and self.diameter:
            return self.flute_factor * self.diameter
        return self.reach

    def nearest(self, size: float) -> Tool:
        """The one tool of the set nearest to a size [mm]; the tool itself where it is no set."""
        if not self.sizes:
            return self
        return self.of(min(self.sizes, key=lambda one: (abs(one.size - size), one.size)))

    def has(self, size: float, within: float = 0.005) -> bool:
        """Whether the size [mm] is there, to within so much."""
        return abs(self._size_of(self.nearest(size)) - size) <= within

    def as_said(self, lengths: Sequence[float]) -> Tool:
        """The one of the set that agrees best with the sizes in an author's words [mm]: '12.5 by 6 mm'."""
        if not self.sizes or not lengths:
            return self
        return min(map(self.of, self.sizes), key=lambda one: (sum(map(one.off, lengths)), one.size))

    def off(self, length: float) -> float:
        """How far a length that an author says of this tool is from the nearest of its own [mm]; 0 where it says none.

        What a tool is called by is its diameter, its width or its shank.
        """
        own = [one for one in (self.diameter, self.width, self.shank) if one]
        return min((abs(one - length) for one in own), default=0.0)

    @property
    def angle(self) -> float:
        """Degrees of its point, of its vee or between its edges; 0 where nobody says them."""
        return self.nose_angle or self.point_angle or self._named_angle or self.sort.usual_angle

    @property
    def says_angle(self) -> bool:
        """Whether the workshop says its angle, so that nobody has to take the usual one."""
        return bool(self.nose_angle or self.point_angle or self._named_angle)

    @property
    def _named_angle(self) -> float:
        """Degrees in its name: '90 degree cutter'."""
        return next((said.angle for one in (self.name, *self.words) if (said := said_size(one)).angle), 0.0)

    def off_angle(self, angle: float) -> float:
        """How far an angle that is wanted is from its own, degrees; 0 where either is not said."""
        return abs(self.angle - angle) if angle and self.angle else 0.0

    def largest_below(self, size: float) -> Tool | None:
        """The largest of the set that is not above a size [mm]; None where all are larger."""
        if not self.sizes:
            return self if self._size_of(self) <= size + 1e-6 else None
        fitting = [one for one in self.sizes if one.size <= size + 1e-6]
        return self.of(max(fitting, key=lambda one: one.size)) if fitting else None

    def for_thread(self, thread: str) -> Tool | None:
        """The one of the set whose label is the name of a thread, however it is spelled; None where there is none.

        A label that says no hand is of the hand of the set, whatever the hand of the thread.
        """
        found = (one for one in self.sizes if same_thread(one.label, thread) or same_thread(f"{one.label} LH", thread))
        return next(map(self.of, found), None)

    def of(self, size: ToolSize) -> Tool:
        """One size of the set, named with it: '6.8 mm drill'."""
        label = size.label or f"{size.size:g}\u202fmm"
        one = replace(self, sizes=(), size_label=label, name=f"{label} {self.usual_name}")
        if self.sort.sized is SizedBy.WIDTH:
            return replace(one, width=size.size)
        standard = lengths_of(self.lengths, size.size) if self.lengths else None
        overall, flutes = standard or (self.overall_length, self.flute_length)
        return replace(one, diameter=size.size, overall_length=overall, flute_length=flutes)

    def _size_of(self, tool: Tool) -> float:
        """The size by which such a tool is chosen [mm]."""
        return tool.width if self.sort.sized is SizedBy.WIDTH else tool.diameter

    @property
    def size(self) -> float:
        """The size by which the tool is chosen [mm]: diameter, or width of a blade; 0 where it has none."""
        return self._size_of(self)


def kinds_for(verb: str) -> tuple[ToolKind, ...]:
    """Kinds of tool for a verb, the most usual first."""
    fitting = [(sort.verbs.index(verb), kind) for kind, sort in TOOLS.items() if verb in sort.verbs]
    return tuple(kind for _, kind in sorted(fitting, key=lambda one: one[0]))


def known_tools(tools: Iterable[Tool]) -> tuple[str, ...]:
    """Names to suggest, without repeats."""
    return tuple(dict.fromkeys(name for tool in tools for name in (tool.name, tool.usual_name)))
