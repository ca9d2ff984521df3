"""In which passes does the tool come down to size, and what does each of them set and read?"""

from __future__ import annotations

import math

from methodsheets.formula.kinds import limit_kind
from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Pass
from methodsheets.trade.cutting.cutting import even_depth, passes
from methodsheets.trade.cutting.cutting_data import recommended_depth, recommended_feed
from methodsheets.trade.metal.materials import Material
from methodsheets.trade.threads.drilling import peck_depths
from methodsheets.vocabulary.process import Passes
from methodsheets.workshop.machines import Machine

from .facts import length_measure, worked
from .plan import CutData, Plan
from .say import MM, dim
from .worked import Wishes, Worked

FINISH_DEPTH = 0.2
"""mm on the radius left for the last pass where a size is to be met: common practice."""
LEAST_MILLED = 0.3
"""mm: a milling pass is not planned thinner than this, or the teeth rub (common practice)."""
FIRST_THREAD, FIRST_SHARE = 0.3, 0.28
"""mm, and share of the depth, of the first pass of a thread (common practice)."""
PECK_FROM = 3.0
"""Diameters deep from which on a drill is drawn out to clear the swarf (common practice)."""
MOST_LISTED = 40


def lay_passes(done: Worked, plan: Plan, machine: Machine, material: Material, wishes: Wishes) -> None:
    """Passes of the operation, with depth, size and dial; plunges have a depth only."""
    cut = plan.cut
    done.passes.clear()
    way = cut.process.row.passes
    if way is Passes.TURNED:
        _turning(done, cut, machine, material, wishes)
    elif way is Passes.MILLED:
        _milling(done, cut, machine, material, wishes)
    elif way is Passes.THREADED:
        _thread(done, plan, machine, wishes)
    elif way is Passes.PLUNGED:
        done.depth = abs(cut.start - cut.end) / 2
        done.tell("plunge", "Plunge", done.depth, note=_dial(machine, cut.slide, done.depth, cut.stop))


def pecks(done: Worked, plan: Plan) -> None:
    """How often a drill is drawn out of a deep hole."""
    deep, size = plan.cut.travel - 2.0, plan.cut.diameter
    if deep <= PECK_FROM * size:
        return
    found, working = worked(peck_depths, deep, size)
    done.pecks = int(found.count) - 1
    note = f"the first after {dim(round(found.depths[0], 1))} {MM}"
    done.tell("pecks", "Draw the drill out", done.pecks, "1", "count", note, [working])


def _turning(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> None:
    facing = cut.process.row.over_face
    total = cut.width if facing else abs(cut.start - cut.end) / 2
    advice, working = worked(recommended_depth, material.name, cut.process.row.table_word, 0.0, machine.duty)
    usual = max(0.05, min(advice.depth * machine.depth_factor, done.most_depth))
    most = wishes.depth if wishes.depth is not None else usual
    last = min(FINISH_DEPTH, total) if not facing and total > 1.5 * FINISH_DEPTH else 0.0
    rough = total - last
    count, count_working = worked(passes, 2 * rough, 0.0, most) if rough > 1e-9 else (0, None)
    depth = even_depth(2 * rough, 0.0, most) if rough > 1e-9 else last
    done.depth = depth or last
    notes = ["on the radius"] if not facing else []
    notes += ["lighter for the motor"] if usual == done.most_depth and wishes.depth is None else []
    overruled = f"{dim(round(usual, 2))} {MM}" if wishes.depth is not None else ""
    workings = [working, count_working]
    done.tell("depth", "Depth of cut", done.depth, "mm", "depth_of_cut", "; ".join(notes), workings, overruled)
    steps = [(str(i + 1), depth, done.feed) for i in range(int(count))]
    if last:
        steps.append(("finish", last, _finishing_feed(done, cut, machine, material, wishes)))
    _lay(done, cut, machine, steps, fixed=wishes.spindle_speed is not None)


def _finishing_feed(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> float:
    """Feed of the last pass: the table's finishing feed in the machine's nearest step, not above the roughing feed."""
    if wishes.feed is not None:
        return done.feed
    advice, working = worked(recommended_feed, material.name, "finish", 0.0, "hss", 0.4, machine.duty)
    value = min(done.feed, machine.nearest_feed(advice.value * machine.feed_factor, across=cut.across).value)
    if value < done.feed:
        done.tell("finishing_feed", "Finishing feed", value, "mm", "feed", "", [working])
    return value


def _lay(done: Worked, cut: CutData, machine: Machine, steps: list[tuple[str, float, float]], *, fixed: bool) -> None:
    """Passes one after the other; the spindle goes up a step as the work becomes thinner: the cutting speed is kept."""
    wanted_v = math.pi * cut.diameter * done.spindle / 1000.0
    kept = max(wanted_v, done.wanted_speed) if done.spindle < done.wanted_spindle else wanted_v
    thinner = cut.process.row.shaped
    sign = -1.0 if thinner else 1.0
    size, reached, speed, feed = cut.start, 0.0, done.spindle, done.feed
    for count, (name, depth, own_feed) in enumerate(steps, 1):
        now = speed
        if thinner and not fixed:
            wanted = min(kept * 1000.0 / (math.pi * size), done.ceiling or math.inf)
            now = max(speed, machine.speed_near(wanted, done.ceiling or math.inf).value)
        reached += depth
        size += sign * 2 * depth if cut.process != "face" else 0.0
        stop = cut.stop if count == len(steps) else None
        shown = _reached(reached if cut.process == "face" else size, stop)
        minutes = cut.travel / (own_feed * now) if own_feed * now > 0 else 0.0
        done.passes.append(Pass(
            name, shown, length_measure(depth, "depth_of_cut"), _dial(machine, cut.slide, reached, stop), "",
            f"{now:.0f} 1/min" if now != speed else "",
            length_measure(own_feed, "feed") if own_feed != feed else None, minutes,
        ))  # fmt: skip
        speed, feed = now, own_feed


def _milling(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> None:
    kind = "slot" if cut.width >= 0.9 * cut.diameter and cut.paths <= 1.0 else "mill"
    advice, working = worked(recommended_depth, material.name, kind, cut.diameter, machine.duty)
    usual = advice.depth * machine.depth_factor
    if kind == "mill" and advice.width and cut.width > advice.width:
        usual *= max(0.12, advice.width / cut.width)  # a wide cut is a shallow one: the same section of chip
    usual = max(LEAST_MILLED, usual)
    most = wishes.depth if wishes.depth is not None else usual
    overruled = f"{dim(round(usual, 2))} {MM}" if wishes.depth is not None else ""
    count = max(1, math.ceil(cut.end / most - 1e-9))
    done.depth = cut.end / count
    done.tell("depth", "Depth of cut", done.depth, "mm", "depth_of_cut", "", [working], overruled)
    done.tell("width", "Width of cut", cut.width)
    for i in [*range(min(count, MOST_LISTED) - 1), count - 1]:
        reached, stop = done.depth * (i + 1), cut.stop if i == count - 1 else None
        depth = length_measure(done.depth, "depth_of_cut")
        done.passes.append(Pass(str(i + 1), _reached(reached, stop), depth, _dial(machine, "z", reached, stop)))


def _thread(done: Worked, plan: Plan, machine: Machine, wishes: Wishes) -> None:
    """Each pass takes the same section of chip: the depth after pass i grows as the root of i (common practice)."""
    cut, total = plan.cut, plan.cut.depth_of_thread
    if total <= 0:
        return
    first = wishes.depth if wishes.depth is not None else min(FIRST_SHARE * total, FIRST_THREAD)
    count = max(3, min(30, math.ceil((total / first) ** 2)))
    sign, base = (1.0, cut.start) if plan.inside else (-1.0, cut.diameter)
    before = 0.0
    for i in range(count):
        reached = total * math.sqrt((i + 1) / count)
        name = str(i + 1) if i + 1 < count else "finish"
        stop = cut.stop if i + 1 == count else None
        size, depth = _reached(base + sign * 2 * reached, stop), length_measure(reached - before, "depth_of_cut")
        done.passes.append(Pass(name, size, depth, _dial(machine, "cross slide", reached, stop)))
        before = reached
    done.depth = first


def _reached(size: float, stop: tuple[float, float] | None) -> Measure:
    """The size after a pass; fine enough for the limits that it must stop in."""
    return length_measure(size, limit_kind("aim", stop[1] - stop[0]) if stop else "size")


def _dial(machine: Machine, slide: str, travel: float, stop: tuple[float, float] | None = None) -> str:
    """What the dial reads, between the travels that a check allows where there is one."""
    dial = machine.dial(slide) if slide else None
    if dial is None:
        return ""
    if stop is None:
        return dial.for_travel(travel).words
    found = dial.within(travel, stop)
    return f"{found.words}, between two lines" if found.between_lines else found.words
