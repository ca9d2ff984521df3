"""Is there room on the machine: between chuck and tailstock, within the travel of the slides, below the work?"""

from __future__ import annotations

from methodsheets.method.checks.clamping import check_clamps
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.rig import DRILL_CHUCK, TAPER_SHANK, stands_out
from methodsheets.operations.plan import Edges
from methodsheets.operations.say import dia, dim
from methodsheets.operations.setups import Held
from methodsheets.vocabulary.holding import Grips
from methodsheets.workshop.holding import Holding as Holder

BETWEEN = 40.0
"""mm by which spindle nose and tailstock barrel stand farther apart than their two centres (usual, from memory)."""
IN_FRONT = 20.0
"""mm by which a tool stands out in front of its cross-slide, and so may cut wide work (usual, from memory)."""
BREAKS_OUT = 0.05
"""mm by which a cutter has to come out below the work to meet what lies there."""
TOUCHES = 0.02
"""mm from an edge within which a cut runs out over it."""
CLEAR = 0.5
"""mm that a cutter keeps from the jaws."""


def check_room(setup: OpenSetup, done: WorkedOperation) -> None:
    """Bed, travels, table and jaws."""
    machine = setup.held.machine
    if machine.sort.work_turns:
        _bed(setup, done)
        _cross_slide(setup, done)
    elif machine.sort.tool_turns:
        _travel(setup, done)
    if setup.held.pose is not None:
        _vice_jaws(setup, done)
        check_clamps(setup, done)
        _below(setup, done)


# ------------------------------------------------------------------------------------------------ the lathe's bed
def _bed(setup: OpenSetup, done: WorkedOperation) -> None:
    """Chuck, work, drill and tailstock stand behind each other."""
    machine, holder, plan = setup.held.machine, setup.held.holder, done.plan
    on_axis = plan.sketch.radius == 0 and plan.sketch.view != "across"
    if not machine.between_centres or not plan.cut.process.row.in_tailstock or not on_axis:
        return
    if done.station.holding is None or not setup.held.grip:
        return
    size = plan.tool_size or plan.cut.diameter
    tool = stands_out(done.tool, size) + (DRILL_CHUCK if size <= TAPER_SHANK else 0.0)
    chuck = (holder.body_length + holder.jaw_steps) if holder else 0.0
    needed = chuck + done.station.stick_out + tool
    room = machine.between_centres + BETWEEN
    words = f"chuck {dim(chuck)}, work {dim(round(done.station.stick_out, 1))} and tool {dim(round(tool, 1))} need "
    words += f"{dim(round(needed, 1))}; nose to tailstock there are {dim(room)}"
    if needed > 0.9 * room:
        done.judge("bed-length", needed <= room, words, tight=True)


def _cross_slide(setup: OpenSetup, done: WorkedOperation) -> None:
    """Work that is wider than clears the cross-slide is only cut in front of the slide."""
    over, sketch, holding = setup.held.machine.swing_over_cross_slide, done.plan.sketch, done.station.holding
    if not over or holding is None or not done.plan.cut.process.row.from_outside or done.plan.inside:
        return
    beneath = min(sketch.end, done.before.ends.length) + IN_FRONT
    widest = 2 * done.before.swing(done.frame, 0.0, min(beneath, done.before.ends.length))
    if widest > over + 1e-6:
        words = f"the work sweeps {dia(widest)} beside the tool; only {dia(over)} clears the cross-slide"
        done.judge("swing-cross-slide", sketch.end <= IN_FRONT, words, tight=True)


# ------------------------------------------------------------------------------------------------ travels
def _travel(setup: OpenSetup, done: WorkedOperation) -> None:
    """The table goes as far as its travel, the quill as deep as it comes down."""
    travel, plan = setup.held.machine.travel, done.plan
    box, points = plan.sketch.box, plan.sketch.points
    if setup.held.pose is not None and plan.cut.process.cuts:
        cutter = plan.cut.diameter if box is not None else 0.0
        spans = _spans(box, points)
        over = cutter if _runs_out(setup, done) else 0.0
        for name, span in zip(("x", "y"), spans, strict=True):
            along = plan.edges is Edges.ROUND or span == max(spans)
            _one_travel(done, name, travel.get(name, 0.0), span + (over if along else 0.0))
    deep = plan.reach_depth
    if plan.cut.process.row.drops and travel.get("quill") and "z" not in travel:
        _one_travel(done, "quill", travel["quill"], deep)


def _runs_out(setup: OpenSetup, done: WorkedOperation) -> bool:
    """Whether the cutter runs in and out over an edge of the work."""
    box, edges = done.plan.sketch.box, done.plan.edges
    if box is None or setup.held.pose is None:
        return False
    return edges is Edges.ROUND or (edges is Edges.OVER and (box[0] <= TOUCHES or box[1] <= TOUCHES))


def _spans(
    box: tuple[float, float, float, float, float] | None, points: tuple[tuple[float, float], ...]
) -> tuple[float, float]:
    """How far the table goes along x and y."""
    if box is not None:
        return box[2] - box[0], box[3] - box[1]
    if not points:
        return 0.0, 0.0
    xs, ys = zip(*points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def _one_travel(done: WorkedOperation, name: str, there: float, needed: float) -> None:
    if there and needed > 0.95 * there:
        words = (
            f"the cut needs {dim(round(needed, 1))} along {name}; the {done.station.machine.name} travels {dim(there)}"
        )
        done.judge("travel", needed <= there + 1e-6, words, tight=True)


# ------------------------------------------------------------------------------------------------ jaws of a vice
def _vice_jaws(setup: OpenSetup, done: WorkedOperation) -> None:
    """A cut that runs out over an edge towards a jaw must end above it, or beside it."""
    held, pose = setup.held, done.station.pose
    if not held.grip or pose is None or held.holder is None or not _has_jaws(held.holder):
        return
    if done.plan.guide is not None:
        return  # the vice grips what guides the tool
    if setup.has_failed("grip-length"):
        return  # where the jaws end is not known
    free = pose.size[2] - (held.grip[1] - held.grip[0])
    deepest = _deepest_at_a_jaw(setup, done)
    if deepest is None:
        return
    room = free - deepest
    assumed = f" (grip assumed: {held.assumed['grip']})" if "grip" in held.assumed else ""
    words = f"{dim(round(room, 3))} between the cut and the jaws"
    if room < -1e-6:
        words = f"the cut is {dim(round(deepest, 3))} deep and the jaws begin {dim(round(free, 3))} down{assumed}"
    done.judge("jaws", room >= -1e-6, words, tight=0 <= room < CLEAR)


def _has_jaws(holder: Holder) -> bool:
    """Whether jaws stand beside a block in it: a vice, or a chuck whose jaws move each for itself."""
    return holder.sort.grips is Grips.FACES or holder.sort.set_by_dial


def _deepest_at_a_jaw(setup: OpenSetup, done: WorkedOperation) -> float | None:
    """How deep below the upper face metal goes at an edge that lies against a jaw; None where none goes there."""
    pose, holder = done.station.pose, setup.held.holder
    assert pose is not None
    length, width, _ = pose.size
    jaw = holder.jaw_width if holder and 0 < holder.jaw_width < length else length
    left, right = (length - jaw) / 2, (length + jaw) / 2
    all_round = holder is not None and holder.sort.set_by_dial
    if all_round:
        left, right = 0.0, length
    deepest = None
    for piece in (one for solid in done.removed for one in solid.pieces()):
        low, high = pose.box_of(piece.bounds)
        beside = high[0] < left + TOUCHES or low[0] > right - TOUCHES
        at_an_edge = low[1] < TOUCHES or high[1] > width - TOUCHES
        at_an_end = low[0] < TOUCHES or high[0] > length - TOUCHES
        if (at_an_edge and not beside) or (all_round and at_an_end):
            deepest = max(deepest or 0.0, float(high[2]))
    return deepest


# ------------------------------------------------------------------------------------------------ what lies below
def packing(held: Held) -> float:
    """Height in mm of the packing under a block; 0 where none is said."""
    return float(held.said.get("packed", 0.0))


def _below(setup: OpenSetup, done: WorkedOperation) -> None:
    """A cutter that comes out below goes into the table, or into the packing."""
    held, plan, pose = setup.held, done.plan, done.station.pose
    if held.holder is None or not held.holder.sort.flat_on_table or pose is None or not done.volume:
        return
    if not plan.cut.tool_turns:
        return
    height, packed = pose.size[2], packing(held)
    over = _comes_out(done, height)
    if over <= BREAKS_OUT:
        return
    words = f"the {done.tool_name} comes out {dim(round(over, 2))} below the work"
    if not packed:
        words += f", which lies flat on the table in the {held.words}"
        done.judge("table", False, words, remedy="put packing under it: `packed 10 mm`")
    else:
        done.judge("table", over <= packed, f"{words}; the packing is {dim(packed)} high")


def _comes_out(done: WorkedOperation, height: float) -> float:
    """How far a drill or a cutter comes out below work of that height."""
    sketch = done.plan.sketch
    if sketch.points:
        tip = 0.3 * done.plan.cut.diameter if done.plan.cut.process.row.pecks else 0.0
        deepest = min(sketch.end, height + 1.0) if sketch.through else sketch.end
        return deepest + tip - height if deepest >= height - 1e-6 or sketch.through else 0.0
    return sketch.box[4] - height if sketch.box is not None else 0.0
