"""What does a cut ask of the machine: spindle speed, feed, passes, force, power, finish and time?

The table says what the material and the tool would like; the machine says what it has; the author has the last word,
and the sheet says where he used it.
"""

from __future__ import annotations

import math

from methodsheets.trade.cutting.cutting import cutting_speed, feed_rate, spindle_speed
from methodsheets.trade.cutting.cutting_data import recommended_feed, recommended_speed
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.process import Passes
from methodsheets.vocabulary.tool import Turned
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.tools import Tool

from .facts import judged, worked
from .loads import MOST_POWER, UNSURE, finish, loads, motor_can, motor_share
from .passes import lay_passes, pecks
from .plan import CutData, Plan
from .say import both, draft
from .worked import Wishes, Worked

HAND_REAMER = 5.0
"""m/min: a hand reamer is turned slowly, whatever the material (common practice)."""
MACHINE_REAMER = 18.0
"""m/min: above this a reamer in a light machine chatters and cuts large, whatever the material (common practice)."""
BORING_HEAD = 350.0
"""1/min: a boring head is out of balance; its maker may say less (common practice)."""
DISENGAGE = 12.0
"""mm/s of the saddle up to which a hand disengages a thread easily (common practice, an estimate)."""
BACK = 0.15
"""Minutes to wind the slide back and set the next pass (common practice, an estimate)."""
DRAW_OUT = 0.1
"""Minutes to draw a drill out, clear it and go in again (common practice, an estimate)."""
LEAST_EASE = 0.6
"""Share of the feed down to which a hand eases a drill before the speed is taken down (common practice)."""

LEAST_LIGHTER = 0.3
"""Share of the table's depth down to which passes are made lighter before the speed is taken down (common practice)."""


def work_out(
    plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int, ceiling: float = 0.0
) -> Worked:
    """Cutting data for a plan on a machine.

    `ceiling` [1/min] is the highest spindle speed that holder and balance allow, 0 where none is known.
    """
    cut, done = plan.cut, Worked()
    done.ceiling = ceiling
    if cut.process.row.pitch_feed and not cut.process.row.hand_turned and cut.pitch > 0:
        most = 60.0 * DISENGAGE / cut.pitch
        done.ceiling = min(ceiling or most, most)
    if cut.process.row.out_of_balance and cut.tool_turns:
        done.ceiling = min(ceiling or BORING_HEAD, BORING_HEAD)
    if not cut.process.row.needs_spindle or not machine.kind.has_spindle:
        by_hand = plan.by_hand or (1.0 if cut.process.cuts and not cut.process.row.needs_spindle else 0.0)
        done.minutes = wishes.minutes if wishes.minutes is not None else by_hand
        return done
    if _turned_by_hand(cut, tool, wishes):
        done.notes.append("Turned by hand, the spindle stopped.")
        done.minutes = wishes.minutes if wishes.minutes is not None else plan.by_hand
        return done
    try:
        _speed(done, plan, machine, tool, material, wishes, line)
        _feed(done, cut, machine, tool, material, wishes)
        lay_passes(done, plan, machine, material, wishes)
        _within_the_motor(done, plan, machine, tool, material, wishes, line)
        if cut.process.row.pecks:
            pecks(done, plan)
        finish(done, cut, tool)
    except (NotInTable, OutOfRange) as error:
        done.checks.append(judged("cutting-data", None, f"no cutting data: {error}", line))
    done.minutes = wishes.minutes if wishes.minutes is not None else _minutes(done, plan)
    return done


def _turned_by_hand(cut: CutData, tool: Tool | None, wishes: Wishes) -> bool:
    """Taps and dies are turned by hand, unless the tool is one for machines or the author gives it a speed."""
    said = wishes.spindle_speed is not None or wishes.cutting_speed is not None
    return cut.process.row.hand_turned and not said and not (tool and tool.turned is Turned.BY_MACHINE)


# ------------------------------------------------------------------------------------------------ spindle speed
def _speed(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int
) -> None:
    cut, said, grade = plan.cut, wishes.cutting_speed, tool.material if tool else "HSS"
    row = cut.process.row
    advice, advice_working = worked(recommended_speed, material.name, grade, row.table_word, machine.coolant)
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
        reason, wanted = f"held down to {done.ceiling:.0f} 1/min", done.ceiling
    done.wanted_spindle, done.wanted_speed = wanted, wanted_v
    setting = machine.speed_near(wanted, done.ceiling or math.inf)
    real = done.spindle = setting.value
    overruled = ""
    if wishes.spindle_speed is not None or said is not None:
        overruled = f"{machine.speed_near(spindle_speed(usual, cut.diameter)).value:.0f} 1/min"
    if setting.state == "highest":
        reason = ""  # the machine ends before the limit does
    notes = [note for note in (setting.note if setting.state != "as wanted" else "", reason) if note]
    workings = [advice_working, n_working]
    done.tell("spindle_speed", "Spindle speed", real, "1/min", "spindle_speed", "; ".join(notes), workings, overruled)
    _real_cutting_speed(done, cut)
    if setting.state == "lowest" and real > 1.15 * wanted:
        good = not (done.ceiling and real > done.ceiling * 1.05) and real <= 2.5 * wanted
        words = f"the machine's lowest speed is {real:.0f} 1/min; wanted {wanted:.0f} 1/min"
        done.checks.append(judged("speed", good, words, line, tight=True))


def _real_cutting_speed(done: Worked, cut: CutData) -> None:
    actual, working = worked(cutting_speed, done.spindle, cut.diameter) if done.spindle else (0.0, None)
    done.tell("cutting_speed", "Cutting speed", actual, "m/min", "cutting_speed", "", [working])


# ------------------------------------------------------------------------------------------------ feed
def _feed(done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes) -> None:
    if cut.process.row.pitch_feed:
        done.feed = cut.pitch
        done.tell("feed", "Feed, a turn", cut.pitch, "mm", "feed", "the pitch")
        return
    row = cut.process.row
    nose, grade = tool.nose_radius if tool and tool.nose_radius else 0.4, tool.material if tool else "HSS"
    size = cut.diameter if cut.tool_turns or row.own_axis else 0.0
    advice, working = worked(recommended_feed, material.name, row.table_word, size, grade, nose, machine.duty)
    usual = done.usual_feed = advice.value * machine.feed_factor
    wanted = wishes.feed if wishes.feed is not None else usual
    teeth = (tool.teeth if tool and tool.teeth else 4 if cut.diameter > 8 else 2) if row.milling_feed else 1
    value, note = _feed_there_is(done, cut, machine, wanted, teeth)
    overruled = both(usual, "feed") if wishes.feed is not None else ""
    per = "a tooth" if row.milling_feed else "a turn"
    done.tell("feed", f"Feed, {per}", value, "mm", "feed", note, [working], overruled)
    done.feed, done.teeth = value * teeth, teeth
    if row.milling_feed:
        _table_feed(done)


def _feed_there_is(done: Worked, cut: CutData, machine: Machine, wanted: float, teeth: int) -> tuple[float, str]:
    """(mm a turn or a tooth, note): the machine's own step, or what the hand gives."""
    by_the_minute = machine.feeds.per == "min"
    row = cut.process.row
    if row.milling_feed or by_the_minute or cut.tool_turns:
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


def _table_feed(done: Worked) -> None:
    rate, working = worked(feed_rate, done.feed / done.teeth, done.spindle, done.teeth)
    done.tell("feed_rate", "Table feed", rate, "mm/min", "feed_rate", "", [working])


# ------------------------------------------------------------------------------------------------ what the motor pulls
def _within_the_motor(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int
) -> None:
    """Take lighter passes or ease a drill, then take the speed down, until the motor pulls it.

    The author's own values stay.
    """
    cut = plan.cut
    motor = loads(done, cut, machine, tool, material)
    free = wishes.spindle_speed is None and wishes.cutting_speed is None
    if cut.process.row.pecks and wishes.feed is None and not motor_can(motor, machine):
        ease = max(LEAST_EASE, motor_share(motor, machine))
        done.feed *= ease
        done.tell("feed", "Feed, a turn", done.feed, "mm", "feed", "by hand, eased for the motor")
        motor = loads(done, cut, machine, tool, material)
    if cut.process.row.passes is Passes.TURNED and wishes.depth is None and not motor_can(motor, machine):
        done.most_depth = done.depth * max(LEAST_LIGHTER, motor_share(motor, machine))
        lay_passes(done, plan, machine, material, wishes)
        motor = loads(done, cut, machine, tool, material)
    while free and not motor_can(motor, machine):
        if not _slow_down(done, cut, machine, motor):
            break
        motor = loads(done, cut, machine, tool, material)
    if machine.power and motor:
        share = motor / machine.power
        words = f"the cut takes about {both(motor, 'power')} ({UNSURE}) of {both(machine.power, 'power')}"
        done.checks.append(judged("power", share <= 1.0, words, line, tight=share > MOST_POWER + 1e-6))


def _slow_down(done: Worked, cut: CutData, machine: Machine, motor: float) -> bool:
    """Take the next lower speed that the motor can pull; False where there is none. The feed per turn stays."""
    share = motor_share(motor, machine)
    setting = machine.speed_for(min(done.spindle * 0.98, done.spindle * share))
    if setting.value >= done.spindle:
        return False
    old, done.spindle = done.told("spindle_speed"), setting.value
    note = f"held down by the motor's {both(machine.power, 'power')}"
    working, overruled = (old.working, draft(old.overruled)) if old else ((), "")
    done.tell("spindle_speed", "Spindle speed", setting.value, "1/min", "spindle_speed", note, working, overruled)
    _real_cutting_speed(done, cut)
    if cut.process.row.milling_feed:
        _table_feed(done)
    return True


# ------------------------------------------------------------------------------------------------ time
def _minutes(done: Worked, plan: Plan) -> float:
    cut, rate = plan.cut, done.feed * done.spindle
    way = cut.process.row.passes
    if rate <= 0 or way is Passes.GUIDED:
        return plan.by_hand
    strokes = float(max(1, len(done.passes)))
    if way is Passes.MILLED:
        strokes *= cut.paths * cut.holes
    elif way in (Passes.BORED, Passes.PLUNGED):
        strokes = float(cut.holes)
    by_pass = sum(one.minutes for one in done.passes)
    cutting = by_pass or cut.travel * strokes / rate
    return cutting + BACK * strokes + DRAW_OUT * cut.holes * done.pecks


__all__ = ["Wishes", "Worked", "work_out"]
