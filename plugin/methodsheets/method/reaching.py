"""A tool is too short for its hole: which one of the shop would reach, or how else is the hole made?"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from methodsheets.method.done import WorkedOperation
from methodsheets.operations.say import diameter, number
from methodsheets.vocabulary.tool import ToolKind
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.tools import Tool

SAME = 0.011
"""mm within which a tool has the size."""
REAMED, MOST_REAMED = 0.2, 0.5
"""mm on the diameter that a drill leaves for a reamer, and leaves at most (common practice)."""
Length = Callable[[Tool], float]
"""mm that a tool reaches; 0 where nobody says."""


def reaching(workshop: Workshop, done: WorkedOperation, tool: Tool, length: Length) -> str:
    """What would reach, the easiest first; a draft for the remedy of the check."""
    deep = done.plan.reach_depth
    ways = [*_another(workshop, done, tool, length), *_reamed(workshop, done, tool)]
    if done.plan.sketch.through and deep <= 2 * length(tool) + SAME:
        rest = number(round(deep - length(tool), 2))
        ways.append(f"go `deep {number(length(tool))} mm` from here, and the last {rest} mm from the other end")
    goes_in = f" and goes into {diameter(done.plan.sketch.from_diameter)}" if tool.min_bore else ""
    ways.append(f"write a {tool.usual_name} that reaches {number(deep)} mm{goes_in} into the workshop's file")
    return ", or ".join(ways[:3])


def getting_in(workshop: Workshop, done: WorkedOperation, tool: Tool) -> str:
    """What to do where the tool does not go into the hole; a draft, empty where nothing better is known."""
    there, to = done.plan.sketch.from_diameter, done.plan.sketch.diameter
    if tool.min_bore < to - SAME:
        return f"drill {number(tool.min_bore)} mm first"
    smaller = [
        one for one in workshop.tools_of(tool.kind)
        if one.min_bore <= there + SAME and one.goes_on(done.station.machine.kind)
    ]  # fmt: skip
    if smaller:
        return f"take the {smaller[0].name}: `tool: {smaller[0].name}`"
    return next(_reamed(workshop, done, tool), "")


def _another(workshop: Workshop, done: WorkedOperation, tool: Tool, length: Length) -> Iterator[str]:
    """Another tool of the sort that reaches, as it is or when the hole is drilled larger first."""
    plan, machine = done.plan, done.station.machine
    there, to = plan.sketch.from_diameter, plan.sketch.diameter
    for one in workshop.tools_of(tool.kind):
        sized = one.nearest(plan.tool_size) if plan.cut.process.row.sized else one
        fits = not plan.cut.process.row.sized or abs(sized.diameter - tool.diameter) < SAME
        if not fits or not one.goes_on(machine.kind) or length(sized) < plan.reach_depth:
            continue
        if not one.min_bore or one.min_bore <= there + SAME:
            yield f"take the {one.name}, which reaches {number(length(sized))} mm: `tool: {one.name}`"
        elif one.min_bore < to - SAME:
            reaches = f"the {one.name} goes in there and reaches {number(length(sized))} mm"
            yield f"drill {number(one.min_bore)} mm first: {reaches}"


def _reamed(workshop: Workshop, done: WorkedOperation, tool: Tool) -> Iterator[str]:
    """A reamer of the size instead of a bar."""
    plan, to = done.plan, done.plan.sketch.diameter
    if not (tool.min_bore and plan.straight):
        return
    drill = workshop.nearest_of(ToolKind.DRILL, to - REAMED, not_above=True)
    if drill is None or to - drill.size > MOST_REAMED:
        return
    for one in workshop.tools_of(ToolKind.REAMER):
        reaches = one.nearest(to).overall_length >= plan.reach_depth
        if reaches and one.has(to, SAME) and one.goes_on(done.station.machine.kind):
            drilled = f"drill {number(drill.size)} mm"
            yield f"{drilled} and write `ream: {number(to)} mm` instead: the {one.name} reach"
