"""What is in the workshop, and what does the author's word stand for in it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Protocol, TypeVar

from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.tool import ToolKind

from .dividing import RotaryTable
from .holding import Holding
from .machines import Machine
from .said_size import SaidSize, said_size
from .tools import Tool, kinds_for, known_tools
from .words import likeness, plain


@dataclass(frozen=True)
class Times:
    """What handling takes, in minutes.

    Parameters:
        load: taking one part out and putting the next in, where the holding does not say otherwise
        tool_change: changing to another tool
        speed_change: changing belt or gear; 0 for a drive that is turned up and down
        measure: one measurement
        approach: bringing the tool up and back for one pass
        setting: preparing a set-up, where the holding does not say otherwise
    """

    load: float = 1.0
    tool_change: float = 1.0
    speed_change: float = 0.0
    measure: float = 0.5
    approach: float = 0.2
    setting: float = 10.0


@dataclass(frozen=True)
class Rates:
    """What time and stock cost.

    Parameters:
        hour: money for one hour at any machine; `machines` has those that differ, by key
        currency: its name or sign, as the reader writes it
        waste: share of the stock's price that is got back for swarf and ends, 0 to 1
        materials: money for one kilogram by material name
    """

    hour: float = 0.0
    currency: str = ""
    machines: Mapping[str, float] = field(default_factory=dict)
    materials: Mapping[str, float] = field(default_factory=dict)


class _Known(Protocol):
    """Anything that has names."""

    @property
    def key(self) -> str:
        """Its key."""
        ...

    def known_as(self) -> tuple[str, ...]:
        """Its names."""
        ...


T = TypeVar("T", bound=_Known)


@dataclass(frozen=True)
class Workshop:
    """One workshop: everything a method is worked out for.

    `units` is 'metric' or 'inch': the system its owner thinks in. `projection` is 'first' or 'third': in which angle
    its drawings arrange their views. `digest` is of the bytes of its file.
    """

    key: str
    name: str
    summary: str = ""
    units: str = "metric"
    projection: str = "first"
    machines: Mapping[str, Machine] = field(default_factory=dict)
    holdings: Mapping[str, Holding] = field(default_factory=dict)
    tools: Mapping[str, Tool] = field(default_factory=dict)
    rotary_tables: Mapping[str, RotaryTable] = field(default_factory=dict)
    rates: Rates = Rates()
    times: Times = Times()
    digest: str = ""
    path: str = ""

    # Machines

    def machine(self, words: str) -> Machine | None:
        """The machine an author means by 'lathe', 'the mill' or its own name; the first listed of several."""
        found = _best(self.machines, words)
        return found[0] if found else None

    def known_machines(self) -> tuple[str, ...]:
        """Names to suggest."""
        return tuple(dict.fromkeys(name for one in self.machines.values() for name in (one.key, one.kind)))

    # Ways of holding

    def holding(
        self, words: str, *, machine: Machine | None = None, size: float = 0.0, inside: bool = False
    ) -> Holding | None:
        """The way of holding an author means by 'three-jaw chuck', '3 jaw', 'self-centring chuck'.

        Parameters:
            machine: the machine it is wanted on; those that go on it come first
            size: [mm] diameter to be held (0: not known yet); those that take it come first, the smallest of them
            inside: whether it takes hold in a bore of that size

        Returns:
            None where the workshop has nothing of that name.
        """
        found = _best(self.holdings, words)
        if not found:
            return None

        def order(one: Holding) -> tuple[bool, bool, float]:
            on_machine = machine is None or one.goes_on(machine.key, machine.kind)
            takes = one.holds_inside(size) if inside else one.holds_outside(size)
            bounds = one.inside if inside else one.outside
            high = bounds.high if bounds and size else 0.0
            # The smallest that takes the work; where none does, the largest, so that the check is about that one.
            too_small = bool(size) and takes is False
            return (not on_machine, too_small, -high if too_small else high)

        return min(found, key=order)

    def holding_of(self, way: Way, machine: Machine) -> Holding | None:
        """What the workshop has of a way of holding for a machine; None where it has none."""
        return next((h for h in self.holdings.values() if h.kind is way and h.goes_on(machine.key, machine.kind)), None)

    def soft_jaws(self, machine: Machine | None) -> Holding | None:
        """The workshop's soft jaws, with their own run-out and setting; for any machine where none is named."""
        jaws = (one for one in self.holdings.values() if one.kind is Way.SOFT_JAWS)
        return next((one for one in jaws if machine is None or one.goes_on(machine.key, machine.kind)), None)

    def collets(self, machine: Machine | None = None) -> tuple[Holding, ...]:
        """The sets of collets, those for a machine where one is named."""
        sets = (one for one in self.holdings.values() if one.sort.closes and not one.sort.faces)
        return tuple(one for one in sets if machine is None or one.goes_on(machine.key, machine.kind))

    # Tools

    def tool(
        self, words: str, size: float = 0.0, *, angle: float = 0.0, thread: str = "", machine: Machine | None = None,
        verb: str = "",
    ) -> Tool | None:  # fmt: skip
        """The tool an author means by 'knife tool', 'boring bar' or '6.8 mm drill'.

        Parameters:
            size: [mm] diameter or width wanted (0: none in particular); of the hole, for a boring bar. A size that the
                words themselves say is wanted more. The nearest one of a set is given; compare `tool.size` with what
                was wanted
            angle: [deg] of its point or between its edges (0: none in particular)
            thread: name of the thread that a tap or a die is to cut
            machine: the machine that it is to go on
            verb: what it is for; decides between several of the name

        Returns:
            None where the workshop has nothing of that name.
        """
        labelled = [one for tool in self.tools.values() if (one := _by_label(tool, words)) is not None]
        said = said_size(words)
        found = labelled or _best(self.tools, words) or _best(self.tools, said.rest)
        said = replace(said, angle=said.angle or angle, thread=thread)
        return self._choose(found, said, size, machine, verb) if found else None

    def default_tool(
        self, verb: str, size: float = 0.0, *, angle: float = 0.0, thread: str = "", machine: Machine | None = None
    ) -> Tool | None:
        """The tool for a verb where the author names none: the trade's usual one that the workshop has.

        `size`, `angle`, `thread` and `machine` as in `tool`. None where the workshop has no tool for it.
        """
        fitting = [one for one in self.tools.values() if one.used_for(verb)]
        if machine is not None:
            fitting = [one for one in fitting if one.goes_on(machine.kind)]
        if not fitting:
            return None
        usual = kinds_for(verb)
        rank = {kind: place for place, kind in enumerate(usual)}
        best = min(rank.get(one.kind, -1) for one in fitting)
        of_kind = [one for one in fitting if rank.get(one.kind, -1) == best]
        return self._choose(of_kind, SaidSize(angle=angle, thread=thread), size, machine, verb)

    def tools_of(self, kind: ToolKind) -> tuple[Tool, ...]:
        """All tools of a kind, e.g. every set of drills."""
        return tuple(one for one in self.tools.values() if one.kind == kind)

    def nearest_of(self, kind: ToolKind, size: float, *, not_above: bool = False) -> Tool | None:
        """Of all sets of a kind the one size nearest to `size` [mm], or the largest that is not above it."""
        sets = self.tools_of(kind)
        if not_above:
            below = [one for tool in sets if (one := tool.largest_below(size)) is not None]
            return max(below, key=lambda one: one.size) if below else None
        found = [tool.nearest(size) for tool in sets]
        return min(found, key=lambda one: (abs(one.size - size), one.size)) if found else None

    def known_tools(self) -> tuple[str, ...]:
        """Names to suggest."""
        return known_tools(self.tools.values())

    def _choose(self, found: list[Tool], said: SaidSize, size: float, machine: Machine | None, verb: str) -> Tool:
        """Of several tools of a name the one that suits best: in the size that is said, else in the one wanted."""

        def order(one: Tool) -> tuple[bool, bool, bool, float, float, bool, float, float]:
            wrong_machine = machine is not None and not one.goes_on(machine.kind)
            wrong_verb = bool(verb) and not one.used_for(verb)
            not_said = sum(one.as_said(said.lengths).off(length) for length in said.lengths)
            not_angle = one.off_angle(said.angle)
            not_thread = bool(said.thread) and one.for_thread(said.thread) is None
            too_big = bool(size) and one.min_bore > size + 1e-9
            # A boring bar is not of the hole's size: the stoutest that goes in is the one to use.
            off = abs(one.nearest(size).size - size) if size and not one.min_bore else 0.0
            stoutest = one.min_bore if too_big else -one.min_bore
            return (wrong_machine, wrong_verb, not_thread, not_said, not_angle, too_big, off, stoutest if size else 0.0)

        best = min(found, key=order)
        if said.thread and not said.lengths and (same := best.for_thread(said.thread)) is not None:
            return same
        if said.lengths:
            return best.as_said(said.lengths)
        return best.nearest(size) if size else best

    # Dividing

    def divider(self, kind: Way) -> RotaryTable | None:
        """The rotary table, or the dividing head; the first where there are several."""
        return next((one for one in self.rotary_tables.values() if one.kind is kind), None)


def _best(things: Mapping[str, T], words: str) -> list[T]:
    """Those that agree best with the words, in the order in which they are listed.

    'tap' means the tap and not the 'T-slot cutter': a thing counts only where its words agree, and of those that
    agree only those that do so best.
    """
    marks = [(likeness(words, one.known_as()), one) for one in things.values()]
    best = max((mark for mark, _ in marks), default=0)
    return [one for mark, one in marks if mark == best] if best else []


def _by_label(tool: Tool, words: str) -> Tool | None:
    """The one size of a set that is called by its label: 'M6 tap', 'No. 43 drill', '1/4 reamer'."""
    if not tool.sizes:
        return None
    known = {plain(word) for word in tool.sort.words}
    for one in tool.sizes:
        label = plain(one.label)
        if label and any(plain(words) in {f"{label} {kind}", f"{kind} {label}"} for kind in known):
            return tool.of(one)
    return None
