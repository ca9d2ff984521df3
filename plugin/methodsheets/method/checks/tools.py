"""Is it the right tool: of the right kind for the cut, there in that size, with that angle and form?"""

from __future__ import annotations

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.facts import told
from methodsheets.operations.say import degrees, dia, dim, number
from methodsheets.trade.threads.any_thread import thread_title
from methodsheets.vocabulary.tool import SizedBy
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.said_size import said_size
from methodsheets.workshop.tools import Tool

BLUNT = 0.5
"""mm by which a tool's nose may be rounder than the corner that it is to leave (common practice)."""
SAME_ANGLE = 1.0
"""Degrees within which a tool has the angle."""
SAME = 0.011
"""mm within which a tool has the size."""


def check_tool(workshop: Workshop, setup: OpenSetup, done: WorkedOperation) -> None:
    """Kind, size, angle and form of the tool; nothing where the workshop has none at all."""
    tool = done.tool
    if not done.plan.cut.process.cuts:
        _slotting(done, tool)
        return
    if tool is None:
        return
    if not _right_kind(done, tool):
        return
    _named_size(done, tool)
    _cutter(setup, done, tool)
    _angle(done, tool)
    _thread_tool(workshop, done, tool)
    _corner(done, tool)
    _roughing(done, tool)


def _slotting(done: WorkedOperation, tool: Tool | None) -> None:
    """A tool that a hand pushes through leaves its own width, and must get in and reach the end."""
    plan, wide = done.plan, done.plan.opening
    if not wide:
        return
    if tool is None:
        done.judge("tool", False, f"this workshop has no {plan.tool_words}")
        return
    if not _right_kind(done, tool):
        return
    _named_size(done, tool)
    name, there = tool.usual_name, plan.sketch.from_diameter
    if not tool.width:
        words = f"not known: the workshop does not say how wide its {name} is; {dim(wide)} is wanted"
        done.judge("tool-size", None, words, remedy="write its `width` or `sizes` into the workshop's file")
    elif tool.width > wide + SAME:
        done.judge("tool-size", False, f"the {name} is {dim(tool.width)} wide, the keyway {dim(wide)}")
    elif tool.width < wide - SAME:
        words = f"the {name} is {dim(tool.width)} wide, the keyway {dim(wide)}: cut it side by side"
        done.judge("tool-size", plan.widens, words, tight=True)
    if tool.min_bore and there < tool.min_bore - 1e-6:
        done.judge("reach", False, f"the {name} needs a bore of {dia(tool.min_bore)}; there is {dia(there)}")
    elif not tool.reach:
        words = f"the workshop does not say how far the {name} reaches; the cut is {dim(plan.reach_depth)} deep"
        done.judge("reach", None, words)
    else:
        words = f"the {name} reaches {dim(tool.reach)}, the cut is {dim(plan.reach_depth)} deep"
        done.judge("reach", tool.reach >= plan.reach_depth - 1e-6, words, tight=plan.reach_depth > 0.9 * tool.reach)


def _roughing(done: WorkedOperation, tool: Tool) -> None:
    """A roughing cutter takes less force than is told, nobody here knows how much, and leaves a ribbed wall."""
    if not tool.sort.ribbed:
        return
    words = "that of a plain cutter; how much less its notched edge takes is not known: no source was found"
    done.found.facts.append(told("roughing_force", "Force of the roughing cutter", words, desk=True))
    if done.limits:
        words = f"the {tool.usual_name} leaves ribs on the wall, and a size is checked there"
        done.judge("tool-shape", False, words, remedy="leave a little and finish with an end mill")


def _right_kind(done: WorkedOperation, tool: Tool) -> bool:
    """Whether the tool that the author names does such work at all."""
    fitting = tool.kind in done.plan.cut.process.row.tools or tool.used_for(done.verb)
    if not fitting and done.tool_said:
        usual = tool.usual_name
        words = f"a {usual} does not {done.verb}: it is for {_listed(tool.sort.verbs)}"
        done.judge("tool-kind", False, words)
    return fitting or not done.tool_said


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(words[:3]) or "other work"


def _named_size(done: WorkedOperation, tool: Tool) -> None:
    """What the author's own words say of the tool is so: its size, its angle, the name of its thread."""
    said = said_size(done.tool_said)
    wrong = [length for length in said.lengths if tool.off(length) > SAME]
    if wrong:
        words = f"no {tool.usual_name} of {dim(round(wrong[0], 3))} here; the nearest is {dim(tool.size or tool.shank)}"
        done.judge("tool-size", False, words)
    elif said.angle and tool.off_angle(said.angle) > SAME_ANGLE:
        words = f"no {tool.usual_name} of {degrees(said.angle)} here; the nearest is {degrees(tool.angle)}"
        done.judge("tool-shape", False, words)
    elif strange := said.numbers_beside((*tool.known_as(), tool.size_label)):
        words = f"no {tool.usual_name} `{strange[0]}` here; the {tool.name} is taken"
        done.judge("tool-size", False, words, remedy="write a size with its unit, such as `6 mm end mill`")


# ------------------------------------------------------------------------------------------------ milling cutters
def _cutter(setup: OpenSetup, done: WorkedOperation, tool: Tool) -> None:
    """A cutter goes into its slot, and a keyway is as wide as its cutter."""
    plan = done.plan
    if not plan.cut.process.row.milling_feed or not tool.diameter or not tool.sort.fluted_shank:
        return
    opening = plan.opening
    if opening and tool.diameter > opening + SAME:
        words = f"the {tool.usual_name} is {dia(tool.diameter)}, the opening {dim(opening)} wide"
        done.judge("tool-size", False, words, remedy="take a smaller cutter, or a wider slot")
    elif opening and abs(tool.diameter - opening) > SAME:
        tight = plan.widens
        words = f"no cutter of {dim(opening)} here; the nearest below is {dia(tool.diameter)}"
        words += ": two runs side by side" if tight else ""
        done.judge("tool-size", tight, words, tight=True)
    elif done.cutter_said and abs(tool.diameter - done.cutter_said) > SAME:
        words = f"no {tool.usual_name} {dia(done.cutter_said)} here; the nearest is {dia(tool.diameter)}"
        done.judge("tool-size", False, words)


# ------------------------------------------------------------------------------------------------ angles
def _angle(done: WorkedOperation, tool: Tool) -> None:
    """A countersink, a vee or a dovetail has the angle of its cutter; a countersink is no larger than it."""
    wanted, least = done.plan.tool_angle, done.plan.least_tool
    if tool.diameter and least > tool.diameter + SAME:
        words = f"{dia(least)} is wanted with the {tool.name}, which is {dia(tool.diameter)}"
        done.judge("tool-size", False, words)
    if not wanted or not tool.sort.leaves_angle:
        return
    there, kind = tool.angle, tool.usual_name
    threads = done.plan.cut.process.row.pitch_feed
    what = "thread" if threads else "cut"
    if abs(there - wanted) <= SAME_ANGLE:
        return
    if tool.says_angle:
        words = f"{degrees(wanted)} is wanted for the {what}; the {tool.name} is {degrees(there)}"
        ground = f"grind one to that angle, and write it into the workshop's file: `nose angle: {number(wanted)} deg`"
        remedy = ground if tool.sort.ground else ""
        done.judge("thread-form" if threads else "tool-shape", False, words, remedy=remedy)
    else:
        usual = f" (usual is {degrees(there)})" if there else ""
        words = f"not known: the workshop does not say the angle of its {kind}{usual}; {degrees(wanted)} is wanted"
        angle = "nose angle" if tool.sort.ground else "point angle"
        done.judge(
            "thread-form" if threads else "tool-shape",
            None,
            words,
            remedy=f"write its `{angle}` into the workshop's file",
        )


# ------------------------------------------------------------------------------------------------ threads
def _thread_tool(workshop: Workshop, done: WorkedOperation, tool: Tool) -> None:
    """Tap and die are those of the thread; a tool that bears no name of a thread is not looked at."""
    wanted = done.plan.thread
    if not wanted or tool.sort.sized is not SizedBy.THREAD or not tool.size_label:
        return
    if thread_title(tool.size_label) == thread_title(wanted):
        return
    labels = [one.label for found in workshop.tools_of(tool.kind) for one in found.sizes if one.label]
    words = f"no {tool.usual_name} {wanted} here; there are {', '.join(labels[:12])}"
    if done.tool_said and any(thread_title(label) == thread_title(wanted) for label in labels):
        words = f"the {tool.name} does not cut {wanted}; there is one that does"
    done.judge("tool-size", False, words)


# ------------------------------------------------------------------------------------------------ corners
def _corner(done: WorkedOperation, tool: Tool) -> None:
    """A nose leaves its radius in the corner in front of a shoulder."""
    plan, sketch = done.plan, done.plan.sketch
    if not plan.cut.process.row.shaped or not plan.straight or plan.inside or not done.after.bodies:
        return
    if tool.nose_radius <= plan.corner + BLUNT:
        return
    radius = (sketch.end_diameter if sketch.end_diameter is not None else sketch.diameter) / 2
    frame = done.frame
    behind = sketch.start - 0.05 if plan.left_hand else sketch.end + 0.05
    if not 0 < behind < done.before.ends.length:
        return
    if done.after.swing(frame, behind - 0.04, behind + 0.04) > radius + BLUNT:
        corner = f"a corner of {number(plan.corner)}" if plan.corner else "a square corner"
        words = f"the {tool.name} leaves a radius of {number(tool.nose_radius)} where {corner} is wanted"
        done.judge("corner", False, words)
