"""Has a thread room: for the lead of the tap, for the run-out at a shoulder, for the hand that must disengage?

The numbers of threads that a tap or a die needs for its lead, and the speed at which a hand still disengages, are
common practice, from memory of workshop texts.
"""

from __future__ import annotations

from methodsheets.geometry import Axis, profile
from methodsheets.method.done import WorkedOperation
from methodsheets.operations.say import dia, dim, number

TAP_LEAD, TAP_EASY = 2.0, 4.0
"""Pitches between the end of a thread and the bottom of its hole: what a bottoming tap needs, and a second tap."""
DIE_TURNED = 1.0
"""Pitches that a die turned round leaves in front of a shoulder: its back has next to no lead (common practice)."""
DIE_LEAD = 2.0
"""Pitches in front of a shoulder that a die does not cut to full depth."""
RUN_OUT = 1.5
"""Pitches of run-out, or of a groove, that a single-point tool needs in front of a shoulder."""
FASTEST, EASY = 25.0, 12.0
"""mm/s of the saddle above which nobody disengages a thread, and below which it is easy."""
REACTION = 0.25
"""Seconds that a hand needs in the groove at the end of a thread."""
OVERSIZE = 0.2
"""mm on the diameter by which a blank may be larger than its thread: a die does not start on more."""
SHOULDER = 0.1
"""mm on the radius by which metal stands above the thread and is a shoulder to it."""


def check_thread(done: WorkedOperation) -> None:
    """Everything that a thread needs beside its tool."""
    row, plan = done.plan.cut.process.row, done.plan
    if not row.pitch_feed or not plan.cut.pitch:
        return
    if not row.hand_turned:
        _speed(done)
    if row.from_outside and not plan.inside:
        _blank(done)
        _shoulder(done)
    elif row.hand_turned and not done.has_failed("tapping-drill"):
        if plan.sketch.view == "across":
            _bottom_across(done)
        else:
            _bottom(done)
    elif plan.inside and not done.has_failed("tapping-drill"):
        _inside(done)


# ------------------------------------------------------------------------------------------------ in a hole
def _bottom(done: WorkedOperation) -> None:
    """The tap's lead needs room below the last full thread."""
    deep, sketch = _hole_depth(done), done.plan.sketch
    if deep is not None and not sketch.through:
        _for_the_lead(done, deep, sketch.end)


def _bottom_across(done: WorkedOperation) -> None:
    """The same across the work: depths run from the mouth of the hole."""
    sketch, (axis, deepest, sign) = done.plan.sketch, done.plan.axes[0]
    thread = next(made.size for made in done.plan.makes if made.what == "depth")
    if sketch.through:
        return
    far = 2 * done.before.swing(done.frame) + 1.0
    deep = _depth_along(done, axis, deepest - sign * thread, far, 0.0, sign)
    if deep is not None:
        _for_the_lead(done, deep, thread)


def _for_the_lead(done: WorkedOperation, deep: float, thread: float) -> None:
    """Room below a thread of that depth in a hole of that depth."""
    pitch, room = done.plan.cut.pitch, deep - thread
    pitches = number(round(room / pitch, 1))
    words = f"{dim(round(max(0.0, room), 2))} below the thread, {pitches} pitches, for the tap's lead"
    if room < -1e-6:
        words = f"the thread is {dim(thread)} deep, the hole {dim(round(deep, 2))}"
    done.judge("thread-end", room >= TAP_LEAD * pitch - 0.01, words, tight=room < TAP_EASY * pitch - 0.01)


def _inside(done: WorkedOperation) -> None:
    """A single-point thread in a blind hole needs a run-out at its bottom."""
    deep = _hole_depth(done)
    sketch, pitch = done.plan.sketch, done.plan.cut.pitch
    if deep is None:
        return
    room = deep - sketch.end
    words = f"{dim(round(max(0.0, room), 2))} behind the thread for the tool to run out"
    done.judge("thread-end", room >= RUN_OUT * pitch - 0.01, words)


def _hole_depth(done: WorkedOperation) -> float | None:
    """How deep the hole is at the first place, to where its diameter ends; None where it goes right through."""
    station, sketch = done.station, done.plan.sketch
    if station.pose is not None:
        if not sketch.points:
            return None
        axis, length = station.pose.axis_of(*sketch.points[0]), station.pose.size[2]
        return _depth_along(done, axis, 0.0, length, sketch.start, 1.0)
    frame = done.frame
    axis = frame.axis_of(sketch.radius, sketch.angles[0] if sketch.angles else 0.0)
    return _depth_along(done, axis, frame.face, done.before.ends.length, sketch.start, frame.inward)


def _depth_along(
    done: WorkedOperation, axis: Axis, face: float, length: float, start: float, sign: float
) -> float | None:
    """Depth from the face along an axis at which the hole becomes narrower than it is at its mouth."""
    low, high = sorted((face + sign * (start + 0.02), face + sign * (length - 0.02)))
    shape = profile(done.before.solid, axis, low, high)
    if not len(shape.lengths):
        return None
    along = zip(shape.lengths[:: int(sign)], shape.inner[:: int(sign)], strict=True)  # two radii at each step, in order
    steps = [(sign * (float(at) - face), float(r)) for at, r in along]
    needed, reached = done.plan.sketch.from_diameter / 2 or steps[0][1], start
    for s, r in steps:
        if r < 0.98 * needed:
            return reached
        reached = s
    return None


# ------------------------------------------------------------------------------------------------ outside
def _blank(done: WorkedOperation) -> None:
    there, major = done.plan.sketch.from_diameter, done.plan.sketch.diameter
    if there > major + OVERSIZE:
        words = f"the blank is {dia(round(there, 3))}, the thread {dia(major)}"
        done.judge("blank", False, words)


def _shoulder(done: WorkedOperation) -> None:
    """Room between the end of the thread and a shoulder behind it."""
    pitch, room = done.plan.cut.pitch, _room_to_shoulder(done)
    if room is None:
        return
    die = done.plan.cut.process.row.hand_turned
    needed = (DIE_TURNED if done.plan.cut.close_up else DIE_LEAD if die else RUN_OUT) * pitch
    words = f"{dim(round(room, 2))} between the thread and the shoulder behind it; the {'die' if die else 'tool'} needs"
    words += f" {dim(round(needed, 2))}"
    done.judge("thread-end", room >= needed - 0.01, words, tight=room < needed + pitch)
    rate = done.worked.spindle * pitch / 60.0
    if not die and rate > 0 and room >= needed - 0.01 and room / rate < REACTION and not done.has_failed("speed"):
        words = f"the tool crosses the {dim(round(room, 2))} of run-out in {number(round(room / rate, 2))} s"
        done.judge("speed", False, words, remedy=SLOWER)


SLOWER = "write a slower `speed`, or cut it towards the tailstock with the spindle in reverse"


def _room_to_shoulder(done: WorkedOperation) -> float | None:
    """Room in mm from the last full thread to the shoulder behind it, grooves counted; None without a shoulder."""
    sketch, frame, length = done.plan.sketch, done.frame, done.before.ends.length
    major, core = sketch.diameter / 2, sketch.diameter / 2 - done.plan.cut.depth_of_thread
    shape = done.before.profile(frame, max(0.0, sketch.start), length)
    along, outer = shape.lengths.tolist(), shape.outer.tolist()
    beyond = sketch.end - 0.5
    top = max(major, sketch.from_diameter / 2)
    shoulder = next((s for s, r in zip(along, outer, strict=True) if s > beyond and r > top + SHOULDER), None)
    if shoulder is None:
        return None
    metal = zip(along, outer, strict=True)
    threaded = [s for s, r in metal if s <= shoulder + 1e-6 and core + 0.02 < r <= top + SHOULDER]
    last = min(sketch.end, max(threaded, default=sketch.end))
    return shoulder - last


def _speed(done: WorkedOperation) -> None:
    rate = done.worked.spindle * done.plan.cut.pitch / 60.0
    if rate <= 0:
        return
    words = f"the saddle runs {number(round(rate, 1))} mm a second"
    if rate > FASTEST:
        done.judge("speed", False, f"{words}: nobody disengages that", remedy=SLOWER)
    elif rate > EASY:
        done.judge("speed", True, f"{words}: be quick at the end", tight=True)
