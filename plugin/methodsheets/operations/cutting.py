"""What does a cut ask of the machine: spindle speed, feed, passes, force, power, finish and time?

The table says what the material and the tool would like; the machine says what it has; the author has the last word,
and the sheet says where he used it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from methodsheets.method.model import Check, Fact, Pass
from methodsheets.trade.cutting import cutting_speed, even_depth, feed_rate, passes, spindle_speed
from methodsheets.trade.cutting_data import recommended_depth, recommended_feed, recommended_speed
from methodsheets.trade.cutting_force import parting_load, turning_load
from methodsheets.trade.drilling_force import drilling_load
from methodsheets.trade.errors import NotInTable, OutOfRange
from methodsheets.trade.finish import turned_roughness
from methodsheets.trade.materials import Material
from methodsheets.trade.milling_force import milling_load
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.tools import Tool

from .facts import fact, length_measure, worked
from .plan import CutData, Plan
from .say import number

FINISH_DEPTH = 0.2
"""mm on the radius left for the last pass where a size is to be met: common practice."""
MOST_POWER = 0.75
"""Share of the motor's power up to which a cut is planned; the force is only known to ±30 %."""
WORDS = {
    "turn": "rough", "face": "face", "bore": "bore", "drill": "drill", "centre": "centre", "ream": "ream", "counterbore": "counterbore",
    "countersink": "countersink", "tap": "tap", "thread": "thread", "part": "part", "groove": "groove", "form": "form", "knurl": "knurl",
    "mill": "mill", "saw": "saw",
}  # fmt: skip
"""Our processes in the words of the cutting tables."""


@dataclass(frozen=True)
class Wishes:
    """What the author wrote of speed, feed and depth; None where the handbook is to say it."""

    cutting_speed: float | None = None
    """m/min."""
    spindle_speed: float | None = None
    """1/min."""
    feed: float | None = None
    """mm a turn, or a tooth when milling."""
    depth: float | None = None
    """mm of one pass, on the radius when turning."""
    minutes: float | None = None


@dataclass
class Worked:
    """Cutting data of one operation."""

    facts: list[Fact] = field(default_factory=list)
    passes: list[Pass] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    minutes: float = 0.0
    force: float = 0.0
    """N across the work, for its bending; the likely value of the deepest pass."""
    spindle: float = 0.0
    wanted_spindle: float = 0.0
    """1/min that the table asks for at the largest diameter of the cut."""
    wanted_speed: float = 0.0
    """m/min that the table (or the author) asks for."""
    ceiling: float = 0.0
    """Highest spindle speed allowed, 1/min; 0 = no limit."""
    feed: float = 0.0
    depth: float = 0.0


def work_out(
    plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, line: int, ceiling: float = 0.0
) -> Worked:
    """Cutting data for a plan on a machine; `ceiling` [1/min] is the highest speed that holder and balance allow, 0 = none."""
    cut, done = plan.cut, Worked()
    if not cut.process or cut.process == "saw" or machine.kind in ("bench", "press", "hearth", "saw"):
        done.minutes = wishes.minutes if wishes.minutes is not None else plan.by_hand
        if cut.process == "saw" and not done.minutes:
            done.minutes = 1.0
        return done
    grade = tool.material if tool else "HSS"
    try:
        _speed(done, cut, machine, grade, material, wishes, line, ceiling)
        _feed(done, cut, machine, tool, grade, material, wishes)
        _passes(done, cut, machine, tool, material, wishes)
        motor = _loads(done, cut, machine, tool, material)
        while motor > MOST_POWER * machine.power > 0 and wishes.spindle_speed is None and wishes.cutting_speed is None:
            if not _slow_down(done, cut, machine, motor):
                break
            motor = _loads(done, cut, machine, tool, material)
        _power_check(done, machine, motor, line)
        _finish(done, cut, tool)
    except (NotInTable, OutOfRange) as error:
        done.checks.append(Check("cutting-data", "not known", f"no cutting data: {error}", line))
    _time(done, plan, cut, tool, wishes)
    return done


# ------------------------------------------------------------------------------------------------ spindle speed
def _speed(
    done: Worked,
    cut: CutData,
    machine: Machine,
    grade: str,
    material: Material,
    wishes: Wishes,
    line: int,
    ceiling: float,
) -> None:
    advice, advice_working = worked(recommended_speed, material.name, grade, WORDS[cut.process], machine.coolant)
    said = wishes.cutting_speed
    wanted_v = said if said is not None else advice.value * machine.speed_factor
    wanted, n_working = worked(spindle_speed, wanted_v, cut.diameter)
    if wishes.spindle_speed is not None:
        wanted = wishes.spindle_speed
    limited = ""
    if ceiling and wanted > ceiling:
        limited, wanted = f"held down to {ceiling:.0f} 1/min", ceiling
    done.wanted_spindle, done.wanted_speed, done.ceiling = wanted, wanted_v, ceiling
    setting = machine.speed_for(wanted)
    real = setting.value
    actual_v, v_working = worked(cutting_speed, real, cut.diameter) if real else (0.0, None)
    overruled = ""
    if wishes.spindle_speed is not None or said is not None:
        would = machine.speed_for(spindle_speed(advice.value * machine.speed_factor, cut.diameter)).value
        overruled = f"{would:.0f} 1/min"
    notes = [note for note in (setting.note if setting.state != "as wanted" else "", limited) if note]
    done.facts.append(
        fact(
            "spindle_speed",
            "Spindle speed",
            real,
            "1/min",
            "spindle_speed",
            [advice_working, n_working],
            overruled,
            "; ".join(notes),
        )
    )
    done.facts.append(
        fact("cutting_speed", "Cutting speed", actual_v, "m/min", "cutting_speed", [v_working] if v_working else [])
    )
    done.spindle = real
    if setting.state == "lowest" and real > 1.15 * wanted:
        state = "failed" if (ceiling and real > ceiling * 1.05) or real > 2.5 * wanted else "passed"
        done.checks.append(
            Check(
                "speed",
                state,
                f"the machine's lowest speed is {real:.0f} 1/min; wanted {wanted:.0f} 1/min",
                line,
                tight=True,
            )
        )


# ------------------------------------------------------------------------------------------------ feed
def _feed(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, grade: str, material: Material, wishes: Wishes
) -> None:
    if cut.process in ("thread", "tap"):
        done.feed = cut.pitch
        done.facts.append(fact("feed", "Feed, a turn", cut.pitch, "mm", "feed", [], "", "the pitch"))
        return
    nose = tool.nose_radius if tool and tool.nose_radius else 0.4
    advice, working = worked(
        recommended_feed,
        material.name,
        WORDS[cut.process],
        cut.diameter if cut.tool_turns or cut.process in DRILLS else 0.0,
        grade,
        nose,
        machine.duty,
    )
    wanted = wishes.feed if wishes.feed is not None else advice.value * machine.feed_factor
    teeth = (tool.teeth if tool and tool.teeth else 4 if cut.diameter > 8 else 2) if cut.process == "mill" else 1
    per = "a tooth" if cut.process == "mill" else "a turn"
    if cut.process == "mill" or getattr(machine.feeds, "per", "rev") == "min" or cut.tool_turns:
        rate = wanted * teeth * done.spindle
        setting = machine.feed_for(rate) if getattr(machine.feeds, "per", "rev") == "min" else None
        value = setting.value / max(1.0, teeth * done.spindle) if setting else wanted
    else:
        setting = machine.nearest_feed(wanted, across=cut.across) if cut.process not in DRILLS else None
        value = setting.value if setting else wanted
    by_hand = (setting is None) or setting.state == "hand"
    note = "by hand" if by_hand else setting.note if setting else ""
    overruled = f"{advice.value * machine.feed_factor:.2g} mm" if wishes.feed is not None else ""
    done.facts.append(fact("feed", f"Feed, {per}", value, "mm", "feed", [working], overruled, note))
    done.feed = value * teeth
    if cut.process == "mill":
        rate_value, rate_working = worked(feed_rate, value, done.spindle, teeth)
        done.facts.append(fact("feed_rate", "Table feed", rate_value, "mm/min", "feed_rate", [rate_working]))


DRILLS = ("drill", "centre", "ream", "counterbore", "countersink")


# ------------------------------------------------------------------------------------------------ passes
def _passes(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes
) -> None:
    if cut.process in ("turn", "bore", "face"):
        _turning_passes(done, cut, machine, material, wishes)
    elif cut.process == "mill":
        _milling_passes(done, cut, machine, material, wishes)
    elif cut.process == "thread":
        _thread_passes(done, cut, machine, wishes)
    elif cut.process in ("groove", "part", "form"):
        done.depth = abs(cut.start - cut.end) / 2
        dial = _dial(machine, cut.slide, done.depth)
        done.facts.append(fact("plunge", "Plunge", done.depth, "mm", "length", [], "", dial))
    del tool


def _turning_passes(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> None:
    total = cut.width if cut.process == "face" else abs(cut.start - cut.end) / 2
    advice, working = worked(recommended_depth, material.name, WORDS[cut.process], 0.0, machine.duty)
    most = wishes.depth if wishes.depth is not None else max(0.05, advice.depth * machine.depth_factor)
    overruled = f"{number(advice.depth * machine.depth_factor)} mm" if wishes.depth is not None else ""
    finish = min(FINISH_DEPTH, total) if cut.process != "face" and total > 1.5 * FINISH_DEPTH else 0.0
    rough = total - finish
    count, count_working = worked(passes, 2 * rough, 0.0, most) if rough > 1e-9 else (0, None)
    depth = even_depth(2 * rough, 0.0, most) if rough > 1e-9 else finish
    done.depth = depth or finish
    done.facts.append(
        fact(
            "depth",
            "Depth of cut",
            done.depth,
            "mm",
            "length",
            [working, *([count_working] if count_working else [])],
            overruled,
            "on the radius" if cut.process != "face" else "",
        )
    )
    steps = [(str(i + 1), depth, done.feed) for i in range(int(count))]
    if finish:
        steps.append(("finish", finish, _finishing_feed(done, cut, machine, material, wishes)))
    _lay_passes(done, cut, machine, steps, fixed=wishes.spindle_speed is not None)


def _finishing_feed(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> float:
    """Feed of the last pass: the table's finishing feed in the machine's nearest step, never coarser than the roughing feed."""
    if wishes.feed is not None:
        return done.feed
    advice, working = worked(recommended_feed, material.name, "finish", 0.0, "hss", 0.4, machine.duty)
    value = min(done.feed, machine.nearest_feed(advice.value * machine.feed_factor, across=cut.across).value)
    if value < done.feed:
        done.facts.append(fact("finishing_feed", "Finishing feed", value, "mm", "feed", [working]))
    return value


def _lay_passes(
    done: Worked, cut: CutData, machine: Machine, steps: list[tuple[str, float, float]], *, fixed: bool
) -> None:
    """Passes one after the other; as the work becomes thinner the spindle goes up a step, so the cutting speed is kept."""
    wanted_v = math.pi * cut.diameter * done.spindle / 1000.0
    kept = max(wanted_v, done.wanted_speed) if done.spindle < done.wanted_spindle else wanted_v
    sign = -1.0 if cut.process == "turn" else 1.0
    size, reached, speed, feed = cut.start, 0.0, done.spindle, done.feed
    for name, depth, own_feed in steps:
        now = speed
        if cut.process == "turn" and not fixed:
            now = max(speed, machine.speed_for(min(kept * 1000.0 / (math.pi * size), done.ceiling or math.inf)).value)
        reached += depth
        size += sign * 2 * depth if cut.process != "face" else 0.0
        shown = length_measure(reached if cut.process == "face" else size, "size")
        minutes = cut.travel / (own_feed * now) if own_feed * now > 0 else 0.0
        done.passes.append(Pass(
            name, shown, length_measure(depth, "length"), _dial(machine, cut.slide, reached), "",
            f"{now:.0f} 1/min" if now != speed else "", str(length_measure(own_feed, "feed")) if own_feed != feed else "", minutes,
        ))  # fmt: skip
        speed, feed = now, own_feed


def _dial(machine: Machine, slide: str, travel: float) -> str:
    dial = machine.dial(slide) if slide else None
    return dial.for_travel(travel).words if dial else ""


def _milling_passes(done: Worked, cut: CutData, machine: Machine, material: Material, wishes: Wishes) -> None:
    kind = "slot" if cut.width >= 0.9 * cut.diameter and cut.paths <= 1.0 else "mill"
    advice, working = worked(recommended_depth, material.name, kind, cut.diameter, machine.duty)
    usual = advice.depth * machine.depth_factor
    if kind == "mill" and advice.width and cut.width > advice.width:
        usual *= max(0.12, advice.width / cut.width)  # a wide cut is a shallow one: the same section of chip
    most = wishes.depth if wishes.depth is not None else max(0.1, usual)
    overruled = f"{number(round(usual, 2))} mm" if wishes.depth is not None else ""
    count = max(1, math.ceil(cut.end / most - 1e-9))
    done.depth = cut.end / count
    done.facts.append(fact("depth", "Depth of cut", done.depth, "mm", "length", [working], overruled))
    done.facts.append(fact("width", "Width of cut", cut.width, "mm", "length", []))
    for i in range(min(count, 40)):
        reached = done.depth * (i + 1)
        done.passes.append(
            Pass(
                str(i + 1),
                length_measure(reached, "size"),
                length_measure(done.depth, "length"),
                _dial(machine, "z", reached),
            )
        )


def _thread_passes(done: Worked, cut: CutData, machine: Machine, wishes: Wishes) -> None:
    """Each pass takes the same section of chip: depth after pass i is proportional to the root of i (common practice)."""
    total = cut.depth_of_thread
    first = wishes.depth if wishes.depth is not None else min(0.25 * total, 0.2)
    count = max(3, min(30, math.ceil((total / first) ** 2)))
    before = 0.0
    for i in range(count):
        reached = total * math.sqrt((i + 1) / count)
        done.passes.append(
            Pass(
                str(i + 1) if i + 1 < count else "finish",
                length_measure(cut.diameter - 2 * reached, "size"),
                length_measure(reached - before, "length"),
                _dial(machine, "cross slide", reached),
            )
        )
        before = reached
    done.depth = first


# ------------------------------------------------------------------------------------------------ force, power, finish
def _slow_down(done: Worked, cut: CutData, machine: Machine, motor: float) -> bool:
    """Take the next lower speed that the motor can pull; False where there is none. The feed per turn stays."""
    setting = machine.speed_for(min(done.spindle * 0.98, done.spindle * MOST_POWER * machine.power / motor))
    if setting.value >= done.spindle:
        return False
    done.spindle = setting.value
    speed, working = worked(cutting_speed, setting.value, cut.diameter)
    for i, old in enumerate(done.facts):
        if old.key == "spindle_speed":
            done.facts[i] = fact(
                "spindle_speed",
                old.label,
                setting.value,
                "1/min",
                "spindle_speed",
                [*old.working, working],
                old.overruled,
                f"held down by the motor's {machine.power:.0f} W",
            )
        elif old.key == "cutting_speed":
            done.facts[i] = fact("cutting_speed", old.label, speed, "m/min", "cutting_speed", [working])
    done.facts = [f for f in done.facts if f.key not in ("force", "power", "feed_rate")]
    if cut.process == "mill":
        rate = done.feed * done.spindle
        done.facts.append(fact("feed_rate", "Table feed", rate, "mm/min", "feed_rate"))
    return True


def _power_check(done: Worked, machine: Machine, motor: float, line: int) -> None:
    if machine.power and motor:
        share = motor / machine.power
        state = "failed" if share * 0.7 > 1.0 else "passed"
        done.checks.append(
            Check(
                "power",
                state,
                f"the cut takes about {motor:.0f} W of {machine.power:.0f} W",
                line,
                tight=share > MOST_POWER,
            )
        )


def _loads(done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material) -> float:
    """Force and power of the cut, as facts; gives the motor's power in W, 0 where it is not known."""
    if material.specific_force is None and cut.process not in ("drill",):
        return 0.0
    v = math.pi * cut.diameter * done.spindle / 1000
    if v <= 0 or done.feed <= 0:
        return 0.0
    load: Any = None
    approach = min(100.0, max(10.0, tool.approach)) if tool else 90.0
    nose = tool.nose_radius if tool else 0.0
    efficiency = machine.efficiency or 0.8
    if cut.process in ("turn", "bore", "face") and done.depth > 0:
        load, working = worked(
            turning_load, material.name, done.depth, done.feed, v, cut.diameter, approach, nose, efficiency
        )
        done.force = load.force
    elif cut.process in ("groove", "part") and cut.width > 0:
        load, working = worked(parting_load, material.name, cut.width, done.feed, v, cut.diameter, efficiency)
        done.force = load.force
    elif cut.process == "drill":
        load, working = worked(
            drilling_load, material.name, cut.diameter, done.feed, done.spindle, min(cut.start, 0.98 * cut.diameter)
        )
    elif cut.process == "mill" and done.depth > 0:
        teeth = tool.teeth if tool and tool.teeth else 4
        load, working = worked(
            milling_load,
            material.name,
            cut.diameter,
            done.depth,
            min(cut.width, cut.diameter),
            done.feed / teeth,
            teeth,
            v,
            efficiency=efficiency,
        )
        done.force = getattr(load, "force", 0.0)
    if load is None:
        return 0.0
    if getattr(load, "force", 0.0):
        done.facts.append(fact("force", "Cutting force", load.force, "N", "force", [working], "", "±30 %"))
    motor = getattr(load, "motor_power", 0.0) or getattr(load, "power", 0.0) / efficiency
    done.facts.append(fact("power", "Power from the motor", motor * 1000, "W", "power", [working], "", "±30 %"))
    return 1000.0 * motor


def _finish(done: Worked, cut: CutData, tool: Tool | None) -> None:
    if cut.process in ("turn", "bore", "face") and tool and tool.nose_radius and done.feed:
        rough, working = worked(turned_roughness, done.feed, tool.nose_radius)
        done.facts.append(
            fact(
                "roughness",
                "Finish, at best",
                rough.mean,
                "um",
                "roughness",
                [working],
                "",
                "Ra from feed and nose radius alone",
            )
        )


# ------------------------------------------------------------------------------------------------ time
def _time(done: Worked, plan: Plan, cut: CutData, tool: Tool | None, wishes: Wishes) -> None:
    del tool
    if wishes.minutes is not None:
        done.minutes = wishes.minutes
        return
    rate = done.feed * done.spindle
    if rate <= 0:
        done.minutes = plan.by_hand
        return
    strokes = max(1, len(done.passes))
    if cut.process == "mill":
        strokes = max(1, len(done.passes)) * cut.paths * cut.holes
    elif cut.process in DRILLS or cut.process in ("groove", "part", "form"):
        strokes = cut.holes
    if cut.process == "tap":
        done.minutes = plan.by_hand
        return
    # Winding the slide back and setting the next depth takes about so long: common practice, an estimate.
    back = 0.15 * strokes
    by_pass = sum(one.minutes for one in done.passes)
    done.minutes = (by_pass or cut.travel * strokes / rate) + back
