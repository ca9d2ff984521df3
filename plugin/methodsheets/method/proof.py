"""Does this cut work: does it take metal, does everything hold together, does the tool get there?

The checks compare geometry with geometry. They say that it agrees or does not; they never say that a job is safe.
"""

from __future__ import annotations

from methodsheets.method.job import DoneOperation, DoneSetup
from methodsheets.method.model import Check
from methodsheets.method.reach import check_way
from methodsheets.operations.say import diameter, number
from methodsheets.workshop.tools import Tool

LEAST = 1e-3
"""mm³: a cut that takes less takes nothing."""
CLEAR = 0.5
"""mm that a tool keeps from the jaws."""


def check_cut(done: DoneOperation) -> None:
    """Whether the cut removes metal and the work holds together."""
    line = done.line
    if done.cut is None:
        if done.plan.must_cut:
            done.checks.append(Check("removes-metal", "failed", "the operation cuts nothing", line))
        return
    volume = done.cut.volume
    if volume <= LEAST:
        done.checks.append(Check("removes-metal", "failed", "the tool meets no metal: nothing is cut", line))
    else:
        done.checks.append(Check("removes-metal", "passed", f"removes {_volume(volume)}", line))
    for name in done.cut.fell_apart:
        count = len(done.cut.pieces[name])
        done.checks.append(
            Check("piece", "failed", f"{name} falls into {count} pieces, and nothing says which is kept", line)
        )
    for name in done.cut.vanished:
        done.checks.append(Check("piece", "failed", f"{name} is cut away altogether", line))
    if done.plan.splits and done.plan.keeps != "both":
        parted = any(len(pieces) > 1 for pieces in done.cut.pieces.values())
        words = "the piece comes off and is kept" if parted else "the cut does not go right through: nothing comes off"
        done.checks.append(Check("piece", "passed" if parted else "failed", words, line))


def _volume(mm3: float) -> str:
    return f"{mm3 / 1000:.2f} cm³" if mm3 >= 100 else f"{mm3:.1f} mm³"


def check_reach(setup: DoneSetup, done: DoneOperation) -> None:
    """Whether tool, blade, flutes and holder get there without touching jaws, centre, shoulder or table."""
    if not done.plan.cut.process:
        return
    _tool_there(done)
    if done.tool:
        _size(done, done.tool)
        _length(done, done.tool)
    if setup.held.holding:
        _jaws(setup, done)
        _centre_in_the_way(setup, done)
    if setup.held.pose:
        _vice_jaws(setup, done)
    check_way(setup, done)


def _tool_there(done: DoneOperation) -> None:
    if done.tool is None:
        what = done.plan.tool_words or done.verb
        done.checks.append(Check("tool", "failed", f"this workshop has no {what}", done.line))


SIZED = ("drill", "ream", "tap", "centre", "counterbore")


def _size(done: DoneOperation, tool: Tool) -> None:
    line, wanted = done.line, done.plan.tool_size
    if done.plan.cut.process in SIZED and wanted and tool.diameter and done.plan.cut.process != "tap":
        off = abs(tool.diameter - wanted)
        if off > 0.011:
            done.checks.append(
                Check(
                    "tool-size",
                    "failed",
                    f"no {tool.usual_name} {diameter(wanted)} here; the nearest is {diameter(tool.diameter)}",
                    line,
                )
            )
    if done.plan.cut.process == "bore" and tool.min_bore and done.plan.sketch.from_diameter < tool.min_bore - 1e-6:
        done.checks.append(
            Check(
                "reach",
                "failed",
                f"the boring bar needs a hole of {diameter(tool.min_bore)}; there is {diameter(done.plan.sketch.from_diameter)}",
                line,
            )
        )
    if (
        done.plan.cut.process in ("groove", "part")
        and tool.width
        and done.plan.cut.width
        and tool.width > done.plan.cut.width + 1e-6
    ):
        done.checks.append(
            Check(
                "reach",
                "failed",
                f"the blade is {number(tool.width)} wide, the cut {number(done.plan.cut.width)}",
                line,
            )
        )


def _length(done: DoneOperation, tool: Tool) -> None:
    line, deep = done.line, done.plan.reach_depth
    if done.plan.cut.process in ("turn", "face", "form", "knurl", "thread") or deep <= 0:
        return
    length = tool.cutting_length
    if done.plan.cut.process == "ream":
        length = tool.overall_length or 2.0 * length  # the shank is thinner than the flutes and may follow them
    name = {"groove": "blade", "part": "blade", "bore": "boring bar", "mill": "cutter"}.get(
        done.plan.cut.process, "flutes"
    )
    if not length:
        done.checks.append(
            Check(
                "reach",
                "not known",
                f"the workshop does not say how far the {tool.usual_name} reaches; the cut is {number(deep)} deep",
                line,
            )
        )
        return
    words = f"{name} {number(length)} long, cut {number(deep)} deep"
    done.checks.append(
        Check("reach", "passed" if length >= deep - 1e-6 else "failed", words, line, tight=deep > 0.9 * length)
    )


def _jaws(setup: DoneSetup, done: DoneOperation) -> None:
    """A cut from outside must end in front of the jaws."""
    cut, sketch, line = done.plan.cut, done.plan.sketch, done.line
    if not setup.held.grip or done.station.holding is None or done.station.holding.inside:
        return
    if cut.process not in ("turn", "groove", "part", "form", "knurl", "thread", "mill", "drill", "ream") or (
        cut.process in ("drill", "ream") and sketch.view != "across"
    ):
        return
    stick = done.station.stick_out
    if sketch.view == "across":
        _beside_jaws(setup, done, stick)
        return
    room = stick - sketch.end
    if room < -1e-6:
        done.checks.append(
            Check(
                "jaws",
                "failed",
                f"the cut ends {number(sketch.end)} from the face and the {setup.held.words} begins at {number(stick)}",
                line,
            )
        )
    else:
        done.checks.append(
            Check("jaws", "passed", f"{number(room)} between cut and {setup.held.words}", line, tight=room < CLEAR)
        )


def _beside_jaws(setup: DoneSetup, done: DoneOperation, stick: float) -> None:
    """A cut across the work must lie in front of the holder or behind it."""
    assert setup.held.grip is not None
    sketch, line = done.plan.sketch, done.line
    far = stick + setup.held.grip[1] - setup.held.grip[0]
    room = max(stick - sketch.end, sketch.start - far)
    words = (
        f"{number(room)} between cut and {setup.held.words}"
        if room >= 0
        else (
            f"the cut from {number(sketch.start)} to {number(sketch.end)} lies in the grip, {number(stick)} to {number(far)} from the face"
        )
    )
    done.checks.append(Check("jaws", "passed" if room >= -1e-6 else "failed", words, line, tight=0 <= room < CLEAR))


def _centre_in_the_way(setup: DoneSetup, done: DoneOperation) -> None:
    line = done.line
    if "centre" not in setup.supported:
        return
    process, sketch = done.plan.cut.process, done.plan.sketch
    if (
        process in ("drill", "bore", "ream", "centre", "counterbore", "countersink")
        and sketch.view != "across"
        and sketch.radius == 0
    ):
        done.checks.append(
            Check(
                "centre",
                "failed",
                "the tailstock centre stands where the tool must go: take the support away first",
                line,
            )
        )
    if process == "face" and sketch.diameter == 0.0 and done.plan.cut.end <= 1e-6:
        done.checks.append(
            Check("centre", "failed", "the tailstock centre stands in the way of facing to the middle", line)
        )


def _vice_jaws(setup: DoneSetup, done: DoneOperation) -> None:
    held, box = setup.held, done.plan.sketch.box
    if not held.grip or box is None or held.pose is None:
        return
    free = held.pose.size[2] + (done.plan.face_moves or 0.0) - (held.grip[1] - held.grip[0])
    through_edge = box[1] <= 1e-6 or box[3] >= held.pose.size[1] - 1e-6
    if not through_edge:
        return
    room = free - box[4]
    words = (
        f"{number(room)} between the cut and the jaws"
        if room >= 0
        else f"the cut is {number(box[4])} deep and the jaws begin {number(free)} down"
    )
    done.checks.append(
        Check("jaws", "passed" if room >= -1e-6 else "failed", words, done.line, tight=0 <= room < CLEAR)
    )
