"""What does a cut ask of the machine: spindle speed, feed, passes, force, power, finish and time?

The table says what the material and the tool would like; the machine says what it has; the author has the last word,
and the sheet says where he used it.
"""

from __future__ import annotations

import math
from dataclasses import replace

from methodsheets.operations.sureness import between
from methodsheets.sheet.spread import FORCE
from methodsheets.trade.cutting.cutting import cutting_speed, feed_rate, spindle_speed
from methodsheets.trade.cutting.cutting_data import recommended_feed, recommended_speed
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.process import Passes
from methodsheets.vocabulary.tool import Turned
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.model import Times
from methodsheets.workshop.tools import Tool

from .chosen import choose_speed, nearest_speed, slowest_speed
from .cutplan import DRILLS_FIRST, Bound, blade_bound, drills_before, held_down, screwcutting_bound
from .cutters import FASTEST_HAND, HAND_TURNS, by_hand, chip_rests_on, least_chip, saw_width, table_word, what_to_heed
from .facts import judged, worked
from .loads import MOST_POWER, finish, loads, motor_can, motor_share
from .passes import lay_passes, pecks
from .plan import CutData, Plan
from .say import both, dia, draft, resting
from .worked import Wishes, Worked

HAND_REAMER = 5.0
"""m/min: a hand reamer is turned slowly, whatever the material (common practice)."""
MACHINE_REAMER = 18.0
"""m/min: above this a reamer in a light machine chatters and cuts large, whatever the material (common practice)."""
BORING_HEAD = 350.0
"""1/min: a boring head is out of balance; its maker may say less (common practice)."""
NO_BOUND = Bound()
USUAL_TIMES = Times()
BACK = 0.15
"""Minutes to wind the slide back and set the next pass (common practice, an estimate)."""
DRAW_OUT = 0.1
"""Minutes to draw a drill out, clear it and go in again (common practice, an estimate)."""
LEAST_EASE = 0.6
"""Share of the feed down to which a hand eases a drill before the speed is taken down (common practice)."""

LEAST_LIGHTER = 0.3
"""Share of the table's depth down to which passes are made lighter before the speed is taken down (common practice)."""


def work_out(
    plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int,
    ceiling: Bound = NO_BOUND, times: Times = USUAL_TIMES,
) -> Worked:  # fmt: skip
    """Cutting data for a plan on a machine.

    Parameters:
        ceiling: the highest spindle speed that holder, balance and holding allow, with the reason
        times: what handling takes in this workshop
    """
    cut, done = plan.cut, Worked(change_minutes=times.speed_change)
    bounds = [ceiling]
    if cut.process.row.out_of_balance and cut.tool_turns:
        bounds.append(Bound(BORING_HEAD, "a boring head is out of balance"))
    if cut.process.row.passes is Passes.THREADED:
        bounds.append(screwcutting_bound(cut.pitch, cut.run_out, machine.speeds.low))
    if cut.process.row.blade:
        bounds.append(blade_bound(machine.duty))
    lowest = min(bounds, key=lambda bound: bound.speed)
    done = replace(done, ceiling=lowest.speed if math.isfinite(lowest.speed) else 0.0, ceiling_reason=lowest.reason)
    if not cut.process.row.needs_spindle or not machine.kind.has_spindle:
        at_the_bench = plan.by_hand or (1.0 if cut.process.cuts and not cut.process.row.needs_spindle else 0.0)
        return replace(done, minutes=wishes.minutes if wishes.minutes is not None else at_the_bench)
    if _turned_by_hand(cut, tool, wishes):
        done = done.noting("Turned by hand, the spindle stopped.")
        return replace(done, minutes=wishes.minutes if wishes.minutes is not None else plan.by_hand)
    try:
        done = _speed(done, plan, machine, tool, material, wishes, line)
        done = _feed(done, plan, machine, tool, material, wishes)
        done = _slower_and_deeper(done, plan, machine, tool, material, wishes, times)
        done = lay_passes(done, plan, machine, tool, material, wishes)
        done = _within_the_motor(done, plan, machine, tool, material, wishes, line)
        if cut.process.row.pecks:
            done = pecks(done, plan)
            done, before = _before(done, cut, machine, tool, material)
            done = replace(done, minutes_before=before)
        done = done.judging(*saw_width(plan, tool, line))
        done = done.noting(*what_to_heed(plan, tool))
        done = finish(done, cut, tool)
    except (NotInTable, OutOfRange) as error:
        done = done.judging(judged("cutting-data", None, f"no cutting data: {error}", line))
    return replace(
        done, minutes=wishes.minutes if wishes.minutes is not None else _minutes(done, plan) + done.minutes_before
    )


def _before(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material
) -> tuple[Worked, float]:
    """The drills that go through before a large one; gives the minutes that they cut."""
    first = drills_before(cut.diameter, cut.start, machine.duty)
    if first:
        sizes = resting(", then ".join(dia(size) for size in first), DRILLS_FIRST)
        done = done.noting(f"Drill {sizes} first: {dia(cut.diameter)} is too much at once.")
        done = replace(done, further_tools=len(first))
    return done, sum(_drilled_in(size, done, cut, machine, tool, material) for size in first)


def _drilled_in(
    size: float, done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material
) -> float:
    """Minutes that a smaller drill takes for the same holes, at its own speed and feed."""
    grade = tool.material if tool else "HSS"
    speed = recommended_speed(material.name, grade, cut.process.row.table_word, machine.coolant).value
    wanted = spindle_speed(speed * machine.speed_factor, size)
    turns = nearest_speed(machine, wanted, done.ceiling or math.inf, wanted).value
    advice = recommended_feed(material.name, cut.process.row.table_word, size, grade, 0.4, machine.duty)
    feed = advice.value * machine.feed_factor
    return cut.travel * cut.holes / (feed * turns) + BACK * cut.holes if turns and feed else 0.0


def _turned_by_hand(cut: CutData, tool: Tool | None, wishes: Wishes) -> bool:
    """Taps and dies are turned by hand, unless the tool is one for machines or the author gives it a speed."""
    said = wishes.spindle_speed is not None or wishes.cutting_speed is not None
    return cut.process.row.hand_turned and not said and not (tool and tool.turned is Turned.BY_MACHINE)


# ------------------------------------------------------------------------------------------------ spindle speed
def _speed(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int
) -> Worked:
    cut, said, grade = plan.cut, wishes.cutting_speed, tool.material if tool else "HSS"
    row = cut.process.row
    advice, advice_working = worked(recommended_speed, material.name, grade, table_word(plan, tool), machine.coolant)
    usual, reason = advice.value * machine.speed_factor, ""
    if tool is not None and row.reams and tool.turned is Turned.BY_HAND and usual > HAND_REAMER:
        usual, reason = HAND_REAMER, "a hand reamer turns slowly"
    elif row.reams:
        usual = min(usual, MACHINE_REAMER)
    wanted_v = said if said is not None else usual
    wanted, n_working = worked(spindle_speed, wanted_v, cut.diameter)
    if wishes.spindle_speed is not None:
        wanted = wishes.spindle_speed
    if done.ceiling and wanted > done.ceiling:
        reason, wanted = held_down(done.ceiling, done.ceiling_reason), done.ceiling
    done = replace(done, wanted_spindle=wanted, wanted_speed=wanted_v)
    own = row.own_axis or said is not None or wishes.spindle_speed is not None
    most = wanted if own else spindle_speed(advice.high, cut.diameter)
    setting = nearest_speed(machine, wanted, done.ceiling or math.inf, most)
    real = setting.value
    done = replace(done, spindle=real)
    overruled = ""
    if wishes.spindle_speed is not None or said is not None:
        near = machine.speed_near(spindle_speed(usual, cut.diameter)).value
        overruled = resting(f"{near:.0f} 1/min", advice_working.recalled)
    if setting.state == "highest":
        reason = ""  # the machine ends before the limit does
    notes = [note for note in (setting.note if setting.state != "as wanted" else "", reason) if note]
    workings = [advice_working, n_working]
    done = done.telling(
        "spindle_speed",
        "Spindle speed",
        real,
        "1/min",
        "spindle_speed",
        note="; ".join(notes),
        working=workings,
        overruled=overruled,
    )
    done = _real_cutting_speed(done, cut)
    if setting.state == "lowest" and real > 1.15 * wanted:
        good = not (done.ceiling and real > done.ceiling * 1.05) and real <= 2.5 * wanted
        rests = () if overruled else advice_working.recalled
        words = f"the machine's lowest speed is {real:.0f} 1/min; wanted {resting(f'{wanted:.0f} 1/min', rests)}"
        done = done.judging(judged("speed", good, words, line, tight=True))
    return done


def _slower_and_deeper(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, times: Times
) -> Worked:
    """A turned cut takes speed and depth together; the sheet says why the speed is not the table's."""
    done, reason = choose_speed(done, plan, machine, tool, material, wishes, times)
    if reason:
        old = done.told("spindle_speed")
        done = done.telling("spindle_speed", "Spindle speed", done.spindle, "1/min", "spindle_speed", note=reason,
            working=old.working if old else (), overruled=draft(old.overruled) if old else "")  # fmt: skip
        done = _real_cutting_speed(done, plan.cut)
    return done


def _real_cutting_speed(done: Worked, cut: CutData) -> Worked:
    actual, working = worked(cutting_speed, done.spindle, cut.diameter) if done.spindle else (0.0, None)
    return done.telling(
        "cutting_speed",
        "Cutting speed",
        actual,
        "m/min",
        "cutting_speed",
        working=[working],
        desk=True,
        of=["spindle_speed"],
    )


# ------------------------------------------------------------------------------------------------ feed
def _feed(done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes) -> Worked:
    cut = plan.cut
    if cut.process.row.pitch_feed:
        done = replace(done, feed=cut.pitch)
        return done.telling("feed", "Feed, a turn", cut.pitch, "mm", "feed", note="the pitch")
    row = cut.process.row
    nose, grade = tool.nose_radius if tool and tool.nose_radius else 0.4, tool.material if tool else "HSS"
    size = cut.diameter if cut.tool_turns or row.own_axis else 0.0
    advice, working = worked(recommended_feed, material.name, table_word(plan, tool), size, grade, nose, machine.duty)
    usual = advice.value * machine.feed_factor
    done = replace(done, usual_feed=usual)
    wanted = wishes.feed if wishes.feed is not None else usual
    teeth = (tool.teeth if tool and tool.teeth else 4 if cut.diameter > 8 else 2) if row.milling_feed else 1
    value, note = feed_there_is(done, cut, machine, wanted, teeth)
    if row.milling_feed and value < (least := min(wanted, least_chip(plan, tool))) - 1e-9:
        if wishes.spindle_speed is None and wishes.cutting_speed is None:
            done = _slow_for_the_feed(done, cut, machine, done.spindle * value / least)
            value, note = feed_there_is(done, cut, machine, wanted, teeth)
        if value < least - 1e-9:
            least_words = resting(both(least, "feed"), chip_rests_on(plan, tool))
            done = done.noting(f"Such a tooth wants {least_words} at least: a thinner chip rubs.")
    overruled = resting(both(usual, "feed"), working.recalled) if wishes.feed is not None else ""
    per = "a tooth" if row.milling_feed else "a turn"
    done = done.telling("feed", f"Feed, {per}", value, "mm", "feed", note=note, working=[working], overruled=overruled)
    done = replace(done, feed=value * teeth, teeth=teeth)
    if row.milling_feed:
        if wishes.feed is None and wound_by_hand(machine, wanted * teeth * done.spindle):
            ends = (advice.low * machine.feed_factor, advice.high * machine.feed_factor)
            done = replace(done, hand_between=ends, hand_rests=working.recalled)
        done = _table_feed(done)
    return done


def _slow_for_the_feed(done: Worked, cut: CutData, machine: Machine, most: float) -> Worked:
    """Take the spindle down to what a table can feed: turned faster, its fastest feed leaves each tooth too little."""
    setting = machine.speed_for(most)
    old = done.told("spindle_speed")
    if setting.value >= done.spindle or old is None:
        return done
    done = replace(done, spindle=setting.value)
    note = "as fast as the table feeds it: a thinner chip rubs"
    done = done.telling(
        "spindle_speed", "Spindle speed", setting.value, "1/min", "spindle_speed", note=note, working=old.working
    )
    return _real_cutting_speed(done, cut)


def wound_by_hand(machine: Machine, rate: float) -> bool:
    """Whether the table of a mill is wound by hand: it has no power feed, or none so fine as this one, mm/min."""
    return machine.feeds.per != "min" or machine.feed_for(rate).state == "lowest"


def feed_there_is(done: Worked, cut: CutData, machine: Machine, wanted: float, teeth: int) -> tuple[float, str]:
    """(mm a turn or a tooth, note): the machine's own step, or what the hand gives."""
    by_the_minute = machine.feeds.per == "min"
    row = cut.process.row
    if row.milling_feed or by_the_minute or cut.tool_turns:
        if row.milling_feed and wound_by_hand(machine, wanted * teeth * done.spindle):
            return by_hand(wanted, teeth, done.spindle), "by hand"
        if not by_the_minute or row.own_axis:
            return wanted, "by hand"
        setting = machine.feed_for(wanted * teeth * done.spindle)
        value = setting.value / max(1.0, teeth * done.spindle)
    elif row.own_axis:
        return wanted, "by hand"
    else:
        setting = machine.nearest_feed(wanted, across=cut.across)
        value = setting.value
    return value, "by hand" if setting.state == "hand" else setting.note


def _table_feed(done: Worked) -> Worked:
    rate, working = worked(feed_rate, done.feed / done.teeth, done.spindle, done.teeth)
    return done.telling(
        "feed_rate",
        "Table feed",
        rate,
        "mm/min",
        "feed_rate",
        note=_hand_holds(done),
        working=[working],
        of=["spindle_speed", "feed"],
    )


def _hand_holds(done: Worked) -> str:
    """Between which feeds of the table a hand keeps such a cutter, as a draft; a hand sets no one figure."""
    low, high = (min(end * done.teeth * done.spindle, FASTEST_HAND) for end in done.hand_between)
    if not high:
        return ""
    if low > 0.95 * high:
        return f"by hand, about {resting(both(high, 'feed_rate'), [HAND_TURNS])}: as fast as a hand turns evenly"
    return f"by hand, evenly, {both(low, 'feed_rate')} to {resting(both(high, 'feed_rate'), done.hand_rests)}"


# ------------------------------------------------------------------------------------------------ what the motor pulls
def _within_the_motor(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int
) -> Worked:
    """Take lighter passes or ease a drill, then take the speed down, until the motor pulls it.

    The author's own values stay.
    """
    cut = plan.cut
    done, motor = loads(done, cut, machine, tool, material)
    free = wishes.spindle_speed is None and wishes.cutting_speed is None
    if cut.process.row.pecks and wishes.feed is None and not motor_can(motor, machine):
        ease = max(LEAST_EASE, motor_share(motor, machine))
        done = replace(done, feed=done.feed * ease)
        old, power = done.told("feed"), done.told("power")
        working = [*(old.working if old else ()), *(power.working if power else ())]
        done = done.telling(
            "feed", "Feed, a turn", done.feed, "mm", "feed", note="by hand, eased for the motor", working=working
        )
        done, motor = loads(done, cut, machine, tool, material)
    if cut.process.row.passes is Passes.TURNED and wishes.depth is None and not motor_can(motor, machine):
        done = replace(done, most_depth=done.depth * max(LEAST_LIGHTER, motor_share(motor, machine)))
        done = lay_passes(done, plan, machine, tool, material, wishes)
        done, motor = loads(done, cut, machine, tool, material)
    least = slowest_speed(plan, machine, tool, material) if free and cut.process.row.passes is Passes.TURNED else 0.0
    while free and not motor_can(motor, machine):
        done, slower = _slow_down(done, cut, machine, motor, least)
        if not slower:
            break
        done, motor = loads(done, cut, machine, tool, material)
    if machine.power and motor:
        share = motor / machine.power
        power = done.told("power")
        taken = resting(both(motor, "power"), power.recalled if power else ())
        words = f"the cut takes about {taken} ({between(FORCE, motor, 'power')}) of "
        words += f"{both(machine.power, 'power')}: {FORCE.verdict(motor, machine.power)}"
        done = done.judging(judged("power", share <= 1.0, words, line, tight=share > MOST_POWER + 1e-6))
    return done


def _slow_down(done: Worked, cut: CutData, machine: Machine, motor: float, least: float) -> tuple[Worked, bool]:
    """Take the next lower speed that the motor can pull; False where the machine has none or the tool cuts badly there.

    The feed of a turn stays. `least` [m/min] is the lowest cutting speed that will do.
    """
    share = motor_share(motor, machine)
    setting = machine.speed_for(min(done.spindle * 0.98, done.spindle * share))
    if setting.value >= done.spindle or setting.value < least * 1000.0 / (math.pi * cut.diameter):
        return done, False
    old, done = done.told("spindle_speed"), replace(done, spindle=setting.value)
    note = f"held down by the motor's {both(machine.power, 'power')}"
    working, overruled = (old.working, draft(old.overruled)) if old else ((), "")
    done = done.telling(
        "spindle_speed",
        "Spindle speed",
        setting.value,
        "1/min",
        "spindle_speed",
        note=note,
        working=working,
        overruled=overruled,
    )
    done = _real_cutting_speed(done, cut)
    if cut.process.row.milling_feed:
        done = _table_feed(done)
    return done, True


# ------------------------------------------------------------------------------------------------ time
def _minutes(done: Worked, plan: Plan) -> float:
    cut, rate = plan.cut, done.feed * done.spindle
    way = cut.process.row.passes
    if rate <= 0 or way is Passes.GUIDED:
        return plan.by_hand
    strokes = float(max(1, done.strokes or len(done.passes)))
    if way is Passes.MILLED:
        strokes *= cut.paths * cut.holes
    elif way in (Passes.BORED, Passes.PLUNGED):
        strokes = float(cut.holes)
    by_pass = sum(one.minutes for one in done.passes) * (cut.holes if way is Passes.THREADED else 1)
    cutting = by_pass or cut.travel * strokes / rate
    return cutting + BACK * strokes + DRAW_OUT * cut.holes * done.pecks


__all__ = ["Wishes", "Worked", "work_out"]
