"""How hard does a cut pull: its force, the power that it takes from the motor, the finish that it leaves?"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from methodsheets.formula.measure import Measure
from methodsheets.sheet.spread import FORCE
from methodsheets.trade.cutting.cutting_force import parting_load, turning_load
from methodsheets.trade.cutting.cutting_tables import group_of
from methodsheets.trade.cutting.drilling_force import drilling_load
from methodsheets.trade.cutting.finish import turned_roughness
from methodsheets.trade.cutting.milling_force import milling_load
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.process import Load
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.tools import Tool

from .cutplan import drills_before
from .facts import worked
from .plan import CutData
from .worked import Worked

MOST_POWER = 0.75
"""Share of the motor's power up to which a cut is planned; the force is only known to ±30 %."""
SET = ("spindle_speed", "feed", "depth")
"""What is set at the machine, from which the load follows."""
USUAL_EFFICIENCY = 0.8
"""Share of the motor's power that reaches the tool, where the workshop does not say it (usual, from memory)."""


def motor_can(motor: float, machine: Machine) -> bool:
    """Whether a cut of so many W stays within what is planned for the motor; True where its power is not said."""
    return not machine.power or motor <= MOST_POWER * machine.power


def motor_share(motor: float, machine: Machine) -> float:
    """What is planned for the motor over what the cut takes; below 1 where the cut is too heavy."""
    return MOST_POWER * machine.power / motor if motor else 1.0


def loads(done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material) -> tuple[Worked, float]:
    """Force and power of the cut, as facts; and the motor's power in W, 0 where it is not known."""
    speed = math.pi * cut.diameter * done.spindle / 1000
    if speed <= 0 or done.feed <= 0 or cut.process.row.load is Load.NONE:
        return done, 0.0
    if not force_known(material, cut):
        return done.noting(f"Force and power of this cut are not known for {material.name}."), 0.0
    asked = _load(done, cut, machine, tool, material, speed)
    if asked is None:
        return done, 0.0
    load, working = worked(asked[0], *asked[1], **asked[2])
    force = float(getattr(load, "force", 0.0))
    if force:
        done = replace(done, force=force)
        done = done.telling(
            "force", "Cutting force", force, "N", "force", working=[working], desk=True, spread=FORCE, of=SET
        )
    motor = _watts(load, machine)
    done = done.telling(
        "power", "Power from the motor", motor, "W", "power", working=[working], desk=True, spread=FORCE, of=SET
    )
    return done, motor


def force_known(material: Material, cut: CutData) -> bool:
    """Whether the handbook has a force of this material for a cut: a plastic has none."""
    if cut.process.row.load is not Load.DRILLING:
        return material.specific_force is not None
    group = group_of(material.name)
    return group.drill_torque is not None and group.drill_thrust is not None


def motor_power(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material, depth: float
) -> float:
    """What a pass of so many mm would take from the motor at the speed and feed that stand, W; 0 if not known."""
    return force_and_power(replace(done, depth=depth), cut, machine, tool, material)[1] if depth > 0 else 0.0


def force_and_power(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material
) -> tuple[float, float]:
    """(cutting force in N, power from the motor in W) of the deepest pass as it stands; 0 what is not known."""
    speed = math.pi * cut.diameter * done.spindle / 1000
    if speed <= 0 or done.feed <= 0 or cut.process.row.load is Load.NONE or not force_known(material, cut):
        return 0.0, 0.0
    try:
        asked = _load(done, cut, machine, tool, material, speed)
        load = asked[0](*asked[1], **asked[2]) if asked else None
    except (NotInTable, OutOfRange):
        load = None
    return (float(getattr(load, "force", 0.0)), _watts(load, machine)) if load is not None else (0.0, 0.0)


def _watts(load: Any, machine: Machine) -> float:
    """What the motor gives for a load of the handbook, W."""
    at_the_tool = getattr(load, "power", 0.0) / (machine.efficiency or USUAL_EFFICIENCY)
    return 1000.0 * float(getattr(load, "motor_power", 0.0) or at_the_tool)


def _load(
    done: Worked, cut: CutData, machine: Machine, tool: Tool | None, material: Material, speed: float
) -> tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any]] | None:
    """The handbook's load of the deepest pass: which calculation, of what; None for cuts that it has none for."""
    efficiency = machine.efficiency or USUAL_EFFICIENCY
    model = cut.process.row.load
    if model is Load.TURNING and done.depth > 0:
        approach, nose = (min(100.0, max(10.0, tool.approach)), tool.nose_radius) if tool else (90.0, 0.0)
        sizes = (done.depth, done.feed, speed, cut.diameter, approach, nose)
        return turning_load, (material.name, *sizes, efficiency), {}
    if model is Load.PARTING and cut.width > 0:
        return parting_load, (material.name, cut.width, done.feed, speed, cut.diameter, efficiency), {}
    if model is Load.DRILLING:
        before = (cut.start, *drills_before(cut.diameter, cut.start, machine.duty))
        pilot = min(before[-1], 0.98 * cut.diameter)
        return drilling_load, (material.name, cut.diameter, done.feed, done.spindle, pilot), {}
    if model is Load.MILLING and done.depth > 0:
        wide, a_tooth = min(cut.width, cut.diameter), done.feed / done.teeth
        along, across = (wide, min(done.depth, cut.diameter)) if tool and tool.sort.across_slot else (done.depth, wide)
        sizes = (cut.diameter, along, across, a_tooth, done.teeth, speed)
        return milling_load, (material.name, *sizes), {"efficiency": efficiency}
    return None


def finish(done: Worked, cut: CutData, tool: Tool | None) -> Worked:
    """Roughness from feed and nose radius: what a sharp tool leaves at best."""
    if cut.process.row.noses and tool and tool.nose_radius and done.feed:
        last = done.told("finishing_feed")
        feed = last.value.value if last and isinstance(last.value, Measure) else done.feed
        rough, working = worked(turned_roughness, feed, tool.nose_radius)
        note = "Ra from feed and nose radius alone"
        done = done.telling(
            "roughness",
            "Finish, at best",
            rough.mean,
            "um",
            "roughness",
            note=note,
            working=[working],
            desk=True,
            of=["finishing_feed" if last else "feed"],
        )
    return done
