"""In which passes does the tool come down to size, and what does each of them set and read?"""

from __future__ import annotations

import math
from dataclasses import replace

from methodsheets.formula.kinds import limit_kind
from methodsheets.formula.measure import Measure
from methodsheets.reading.limits import PASSES
from methodsheets.sheet.model import Pass
from methodsheets.trade.cutting.cutting_data import recommended_feed
from methodsheets.trade.metal.materials import Material
from methodsheets.trade.threads.drilling import peck_depths
from methodsheets.vocabulary.process import Passes
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.tools import Tool

from .chosen import depths_of, passes_of, steps_of
from .cutplan import round_passes, worth_a_change
from .cutters import depth_at_once, finishing_depth, kind_of_cut
from .facts import length_measure, worked
from .plan import CutData, Plan
from .say import MM, dim, resting
from .worked import Wishes, Worked

FACE_INSTEAD, FACE_SHARE = 10, 3.0
"""More passes than so many, and deeper than so many times the length: a step that is better faced."""
FACE_IT = "The step is deeper than it is long: facing it down to the diameter takes fewer passes."
LEAST_TURNED = 0.05
"""mm: a tool is not set to less than this for roughing."""
FIRST_THREAD, FIRST_SHARE = 0.3, 0.28
"""mm, and share of the depth, of the first pass of a thread (common practice)."""
PECK_FROM = 3.0
"""Diameters deep from which on a drill is drawn out to clear the swarf (common practice)."""
SHORTEST_PECK = 0.5
"""Diameters: no peck is shorter (`peck_depths`)."""
MOST_LISTED = 40


def lay_passes(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes
) -> Worked:
    """Passes of the operation, with depth, size and dial; plunges have a depth only."""
    cut = plan.cut
    done = replace(done, passes=())
    way = cut.process.row.passes
    if way is Passes.TURNED:
        done = _turning(done, plan, machine, material, wishes)
    elif way is Passes.MILLED:
        done = _milling(done, plan, machine, tool, material, wishes)
    elif way is Passes.THREADED:
        done = _thread(done, plan, machine, wishes)
    elif way is Passes.PLUNGED:
        done = replace(done, depth=abs(cut.start - cut.end) / 2)
        done = done.telling("plunge", "Plunge", done.depth, note=_dial(machine, cut.slide, done.depth, cut.stop))
    return done


def pecks(done: Worked, plan: Plan) -> Worked:
    """How often a drill is drawn out of a deep hole.

    Raises:
        ValueError: oftener than anybody does.
    """
    deep, size = plan.cut.travel - 2.0, plan.cut.diameter
    if deep <= PECK_FROM * size:
        return done
    if not deep <= PASSES * SHORTEST_PECK * size:
        raise ValueError(f"the drill would be drawn out more than {PASSES:,} times")
    found, working = worked(peck_depths, deep, size)
    done = replace(done, pecks=int(found.count) - 1)
    note = f"the first after {dim(round(found.depths[0], 1))} {MM}"
    return done.telling("pecks", "Draw the drill out", done.pecks, "1", "count", note=note, working=[working])


def _turning(done: Worked, plan: Plan, machine: Machine, material: Material, wishes: Wishes) -> Worked:
    cut = plan.cut
    depths = depths_of(plan, machine, material)
    usual = max(LEAST_TURNED, min(depths.usual, done.most_depth))
    most = wishes.depth if wishes.depth is not None else usual
    laid = passes_of(cut, machine, depths, most, motor=usual == done.most_depth and wishes.depth is None)
    done = replace(done, depth=max(laid))
    notes = [] if cut.process.row.over_face else ["on the radius"]
    notes += ["lighter for the motor"] if usual == done.most_depth and wishes.depth is None and len(laid) > 1 else []
    usual_words = resting(f"{dim(round(usual, 2))} {MM}", depths.working.recalled)
    overruled = usual_words if wishes.depth is not None else ""
    done = done.telling(
        "depth",
        "Depth of cut",
        done.depth,
        "mm",
        "depth_of_cut",
        note="; ".join(notes),
        working=[depths.working],
        overruled=overruled,
    )
    steps = [(str(i + 1), depth, done.feed) for i, depth in enumerate(laid)]
    if depths.last:
        done, fine = _finishing_feed(done, cut, machine, material, wishes)
        steps[-1] = ("finish", laid[-1], fine)
    if len(laid) > FACE_INSTEAD and depths.total > FACE_SHARE * cut.travel and not plan.inside:
        done = done.noting(FACE_IT)
    return _lay(done, cut, machine, steps, fixed=wishes.spindle_speed is not None)


def _finishing_feed(
    done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes
) -> tuple[Worked, float]:
    """Feed of the last pass: the table's finishing feed in the machine's nearest step, not above the roughing feed."""
    if wishes.feed is not None:
        return done, done.feed
    advice, working = worked(recommended_feed, material.name, "finish", 0.0, "hss", 0.4, machine.duty)
    value = min(done.feed, machine.nearest_feed(advice.value * machine.feed_factor, across=cut.across).value)
    if value < done.feed:
        done = done.telling("finishing_feed", "Finishing feed", value, "mm", "feed", working=[working])
    return done, value


def _lay(done: Worked, cut: CutData, machine: Machine, steps: list[tuple[str, float, float]], *, fixed: bool) -> Worked:
    """Passes one after the other; the spindle goes up a step as the work becomes thinner: the cutting speed is kept."""
    wanted_v = math.pi * cut.diameter * done.spindle / 1000.0
    kept = max(wanted_v, done.wanted_speed) if done.spindle < done.wanted_spindle else wanted_v
    thinner = cut.process.row.shaped
    sign = -1.0 if thinner else 1.0
    size, reached, speed, feed, laid = cut.start, 0.0, done.spindle, done.feed, list[Pass]()
    for count, (name, depth, own_feed) in enumerate(steps, 1):
        now = speed
        if thinner and not fixed and speed > 0:
            wanted = min(kept * 1000.0 / (math.pi * size), done.ceiling or math.inf)
            faster = machine.speed_near(wanted, done.ceiling or math.inf).value
            left = sum(cut.travel / (coming * speed) for _, _, coming in steps[count - 1 :] if coming > 0)
            now = faster if worth_a_change(speed, faster, left, done.change_minutes) else speed
        reached += depth
        size += sign * 2 * depth if not cut.process.row.over_face else 0.0
        stop = cut.stop if count == len(steps) else None
        shown = _reached(reached if cut.process.row.over_face else size, stop)
        minutes = cut.travel / (own_feed * now) if own_feed * now > 0 else 0.0
        laid.append(
            Pass(
                number=name,
                size=shown,
                depth=length_measure(depth, "depth_of_cut"),
                dial=_dial(machine, cut.slide, reached, stop),
                dial_inch="",
                speed=f"{now:.0f} 1/min" if now != speed else "",
                feed=length_measure(own_feed, "feed") if own_feed != feed else None,
                minutes=minutes,
                slide=cut.slide,
            )
        )
        speed, feed = now, own_feed
    return replace(done, passes=tuple(laid))


def _milling(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes
) -> Worked:
    cut = plan.cut
    usual, working = depth_at_once(kind_of_cut(plan, tool), cut, machine, material)
    most = wishes.depth if wishes.depth is not None else usual
    usual_words = resting(f"{dim(round(usual, 2))} {MM}", working.recalled if working else ())
    overruled = usual_words if wishes.depth is not None else ""
    last = finishing_depth(cut)
    laid = round_passes(cut.end, most, last, steps_of(machine.dial(cut.slide or "z")))
    done = replace(done, depth=max(laid))
    done = done.telling(
        "depth", "Depth of cut", done.depth, "mm", "depth_of_cut", working=[working], overruled=overruled
    )
    done = done.telling("width", "Width of cut", cut.width)
    reached, listed = 0.0, list[Pass]()
    for count, depth in enumerate(laid, 1):
        reached += depth
        if count < len(laid) and count >= MOST_LISTED:
            continue
        stop = cut.stop if count == len(laid) else None
        name = "finish" if last and count == len(laid) else str(count)
        shown = length_measure(depth, "depth_of_cut")
        slide = cut.slide or "z"
        listed.append(Pass(name, _reached(reached, stop), shown, _dial(machine, slide, reached, stop), slide=slide))
    return replace(done, strokes=len(laid), passes=tuple(listed))


def _thread(done: Worked, plan: Plan, machine: Machine, wishes: Wishes) -> Worked:
    """Each pass takes the same section of chip: the depth after pass i grows as the root of i (common practice)."""
    cut, total = plan.cut, plan.cut.depth_of_thread
    if total <= 0:
        return done
    first = wishes.depth if wishes.depth is not None else min(FIRST_SHARE * total, FIRST_THREAD)
    count = max(3, min(30, math.ceil((total / first) ** 2)))
    sign, base = (1.0, cut.start) if plan.inside else (-1.0, cut.diameter)
    before, listed = 0.0, list[Pass]()
    for i in range(count):
        reached = total * math.sqrt((i + 1) / count)
        name = str(i + 1) if i + 1 < count else "finish"
        stop = cut.stop if i + 1 == count else None
        size, depth = _reached(base + sign * 2 * reached, stop), length_measure(reached - before, "depth_of_cut")
        listed.append(Pass(name, size, depth, _dial(machine, "cross slide", reached, stop), slide="cross slide"))
        before = reached
    return replace(done, depth=first, passes=tuple(listed))


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
