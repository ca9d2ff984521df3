"""Which speed and depth does a turned cut take together, and how is its depth divided into passes?

Between the plain numbers of `cutplan` and the operation: what the tables, the machine and the author say goes in, and
the reasons come out as notes on the sheet.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from methodsheets.reading.limits import PASSES
from methodsheets.sheet.model import Working
from methodsheets.trade.cutting.cutting_data import recommended_depth, recommended_speed
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.process import Passes
from methodsheets.workshop.dials import Dial
from methodsheets.workshop.machines import Machine, Setting, StepSpeeds
from methodsheets.workshop.model import Times
from methodsheets.workshop.tools import Tool

from .cutplan import ABOVE, HAND_STOPS, Cut, Motor, choose, round_passes, round_steps, stopped_by_hand
from .facts import worked
from .loads import MOST_POWER, motor_power
from .plan import CutData, Plan
from .worked import Wishes, Worked

FINISH_DEPTH = 0.2
"""mm on the radius left for the last pass where a size is to be met: common practice."""
ONE_PASS = 1.75
"""Up to so many finishing depths a cut is one finishing pass (common practice)."""
SLOWEST_SHARE = 0.5
"""Share of the table's least speed that high-speed steel is slowed down to (from memory)."""
STEP_DOWN = 0.93
"""Ratio of the speeds that are tried on a drive without steps."""


@dataclass(frozen=True)
class Depths:
    """What a turned cut is divided by: mm on the slide."""

    total: float
    usual: float
    """Deepest pass by the table, for this machine."""
    last: float
    """Finishing cut, 0 where nothing is to be met."""
    working: Working


def depths_of(plan: Plan, machine: Machine, material: Material) -> Depths:
    """Depth of the cut, of its deepest pass and of its finishing pass."""
    cut = plan.cut
    advice, working = worked(recommended_depth, material.name, cut.process.row.table_word, 0.0, machine.duty)
    total = cut.infeed
    return Depths(total, max(0.05, advice.depth * machine.depth_factor), _finishing(plan, total), working)


def _finishing(plan: Plan, total: float) -> float:
    """A size is met by a finishing pass; a face only where a check follows; nothing where metal is left on."""
    if any(made.left_on for made in plan.makes) or (plan.cut.process.row.over_face and plan.cut.stop is None):
        return 0.0
    return total if total <= ONE_PASS * FINISH_DEPTH else FINISH_DEPTH


def passes_of(cut: CutData, machine: Machine, depths: Depths, most: float, *, motor: bool = False) -> list[float]:
    """The passes, round numbers on the dial that sets them; none deeper than `most` where a motor sets it.

    Raises:
        ValueError: there would be more than anybody takes.
    """
    if not depths.total <= most * PASSES:
        raise ValueError(f"it would take more than {PASSES:,} passes")
    steps = steps_of(machine.dial(cut.slide) if cut.slide else None)
    return round_passes(depths.total, most, depths.last, steps, 1.0 if motor else ABOVE)


def steps_of(dial: Dial | None) -> tuple[float, ...]:
    """Round amounts of a dial, mm of its slide."""
    return round_steps(dial.graduation / dial.factor if dial else 0.0, inch=bool(dial and dial.unit == "in"))


def choose_speed(
    done: Worked, plan: Plan, machine: Machine, tool: Tool | None, material: Material, wishes: Wishes, times: Times
) -> tuple[Worked, str]:
    """Take speed and depth together; gives also why the speed is not the table's, empty where it is.

    What the author wrote of speed or depth is left alone.
    """
    said = wishes.spindle_speed is not None or wishes.cutting_speed is not None or wishes.depth is not None
    cut = plan.cut
    if said or cut.process.row.passes is not Passes.TURNED or done.spindle <= 0 or done.feed <= 0:
        return done, ""
    depths = depths_of(plan, machine, material)
    speed = math.pi * cut.diameter * done.spindle / 1000.0
    watts = motor_power(done, cut, machine, tool, material, depths.usual)
    motor = Motor(watts, depths.usual, speed, MOST_POWER * machine.power)
    slowest = slowest_speed(plan, machine, tool, material)
    given = Cut(
        diameter=cut.diameter, total=depths.total, last=depths.last, travel=cut.travel, feed=done.feed,
        most_depth=depths.usual, back=times.approach or 0.2, least_speed=slowest,
    )  # fmt: skip
    spindles = _spindles(machine, done.spindle)
    rough = depths.total > depths.last + 1e-9
    stopped = stopped_by_hand(spindles, done.feed) if rough else spindles
    found = choose(given, stopped, motor)
    if found is None:
        return done, ""
    if found.why_depth:
        done = replace(done, most_depth=found.depth)
    if found.spindle >= done.spindle - 1e-6:
        return done, ""
    done = replace(done, spindle=found.spindle, wanted_spindle=found.spindle)
    return done, found.why_speed or HAND_STOPS


def slowest_speed(plan: Plan, machine: Machine, tool: Tool | None, material: Material) -> float:
    """m/min below which the tool cuts badly: carbide as slow as high-speed steel, which bears half of its own."""
    advice = recommended_speed(material.name, "hss", plan.cut.process.row.table_word, machine.coolant)
    least = advice.low * machine.speed_factor
    return float(least if tool is not None and tool.material.lower() == "carbide" else SLOWEST_SHARE * least)


def nearest_speed(machine: Machine, wanted: float, ceiling: float, most: float) -> Setting:
    """The belt step nearest to a wanted speed by ratio; above it no farther than the table's range goes.

    Parameters:
        ceiling: [1/min] of the holding; most: [1/min] at the end of the table's range
    """
    setting = machine.speed_near(wanted, ceiling)
    if not isinstance(machine.speeds, StepSpeeds) or setting.value >= wanted:
        return setting
    above = [step for step in machine.speeds.steps if wanted < step <= min(most, ceiling)]
    return Setting(above[0], "", "nearest") if above and above[0] / wanted < wanted / setting.value else setting


def _spindles(machine: Machine, most: float) -> set[float]:
    """Every speed that the machine has up to one; on a drive without steps, steps of a tenth or so."""
    if isinstance(machine.speeds, StepSpeeds):
        return {step for step in machine.speeds.steps if step <= most * (1 + 1e-9)} | {most}
    found, speed = {most}, most
    while speed > max(machine.speeds.low, 0.1 * most):
        found.add(machine.speed_for(_round(speed)).value)
        speed *= STEP_DOWN
    return {one for one in found if one <= most}


def _round(speed: float) -> float:
    """A speed as one sets it: 640, 1250."""
    step = 10.0 if speed < 500 else 25.0 if speed < 1000 else 50.0
    return step * math.floor(speed / step + 1e-9)
