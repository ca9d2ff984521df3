"""How deep a cut, and how large a drill, can this machine take?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation, takes
from .cutting_force import SPREAD, chip_note, force_constants, kienzle
from .drilling_force import drilling_load
from .milling_force import milling_load

_LARGEST_DRILL = 50.0


@dataclass(frozen=True)
class DeepestCut:
    """Deepest cut a machine can take, and what sets the limit."""

    depth: float
    depth_likely: float
    by_power: float
    by_torque: float | None
    by_force: float | None
    limit: str
    note: str


@calculation
def deepest_turning_cut(
    material: str,
    feed: float,
    cutting_speed: float,
    motor_power: float,
    diameter: float = 0.0,
    efficiency: float = 0.8,
    torque_limit: float | None = None,
    force_limit: float | None = None,
) -> DeepestCut:
    """Deepest turning cut the machine can take at a feed and speed.

    Equation (units as listed):
        k_c = k_c11 * f^(-m_c)
        a_l = min(P * eta * 60000 / (f * v * k_c), 2000 * M / (d * f * k_c), F / (f * k_c))
        a = a_l / 1.3

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed
        motor_power: P [kW] (P > 0) power of the motor
        diameter: d [mm] (d >= 0) diameter at the cut; needed with a torque limit
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        torque_limit: M [N*m] (M > 0) torque at which belt, gear or drive gives way
        force_limit: F [N] (F > 0) greatest cutting force the tool, the holding or the slides may bear

    Returns:
        depth: a [mm] length  careful: with a force 30 % greater than likely
        depth_likely: a_l [mm] length  with the likely force
        by_power: a_P [mm] length  what the power allows, careful
        by_torque: a_M [mm] length  what the torque allows, careful; left out where none was given
        by_force: a_F [mm] length  what the force allows, careful; left out where none was given
        limit: [text] text  power, torque or force: what sets the depth
        note: [text] text  says when the chip is thinner than was measured

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above, or a torque limit comes without a diameter.

    Validity:
        Knife tool with its edge square to the feed. Chatter, slender work or a weak hold often stop the cut before
        the motor does.

    Example:
        0.37 kW bench lathe, mild steel, 0.1 mm feed, 25 m/min.
        >>> cut = deepest_turning_cut("EN3B", 0.1, 25, 0.37)
        >>> round(cut.depth, 1), cut.limit
        (2.1, 'power')

    Source:
        Cutting-tool maker's power formula (page read) turned round; force by the table of materials.

    Trust: estimate ±30 %

    Checked: `turning_load` turned round, which is checked itself; nobody prints the deepest cut of a machine.
    """
    if torque_limit is not None and diameter <= 0:
        raise OutOfRange("diameter", diameter, "mm", "the diameter at the cut, needed with a torque limit")
    area = 1 / (feed * kienzle(*force_constants(material), feed))
    force_of_power = motor_power * efficiency * 60000 / cutting_speed
    force_of_torque = math.inf if torque_limit is None else 2000 * torque_limit / diameter
    return _deepest(area, force_of_power, force_of_torque, force_limit, chip_note(feed))


@calculation
def deepest_milling_cut(
    material: str,
    diameter: float,
    width: float,
    feed: float,
    teeth: int,
    cutting_speed: float,
    motor_power: float,
    efficiency: float = 0.8,
    torque_limit: float | None = None,
    force_limit: float | None = None,
) -> DeepestCut:
    """Deepest milling cut, along the cutter's axis, the machine can take.

    Equation:
        a = a_l / 1.3

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        diameter: D [mm] (D > 0) cutter diameter
        width: a_e [mm] (a_e > 0) width across the cutter, not more than the cutter
        feed: f_z [mm] (f_z > 0) feed for one tooth
        teeth: z [1] (z >= 1, whole number) cutting teeth
        cutting_speed: v [m/min] (v > 0) cutting speed
        motor_power: P [kW] (P > 0) power of the motor
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        torque_limit: M [N*m] (M > 0) torque at which belt, gear or drive gives way
        force_limit: F [N] (F > 0) greatest cutting force the tool, the holding or the slides may bear

    Returns:
        depth: a [mm] length  careful: with a force 30 % greater than likely
        depth_likely: a_l [mm] length  with the likely force
        by_power: a_P [mm] length  what the power allows, careful
        by_torque: a_M [mm] length  what the torque allows, careful; left out where none was given
        by_force: a_F [mm] length  what the force allows, careful; left out where none was given
        limit: [text] text  power, torque or force: what sets the depth
        note: [text] text  says when the chip is thinner than was measured

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        The force is the mean along the rim; by makers' milling tables it is mostly less, see milling_load. Cutter,
        overhang and chatter often stop the cut before the motor does.

    Example:
        0.5 kW mill, mild steel, 12 mm end mill of 3 teeth in a full slot.
        >>> cut = deepest_milling_cut("EN3B", 12, 12, 0.04, 3, 25, 0.5)
        >>> round(cut.depth, 1), cut.limit
        (5.8, 'power')

    Source:
        Power is in proportion to the depth: the load of a cut 1 mm deep, by milling_load.

    Trust: estimate ±30 %

    Checked: `milling_load` turned round, which is checked itself; nobody prints the deepest cut of a machine.
    """
    cut = milling_load(material, diameter, 1.0, width, feed, teeth, cutting_speed=cutting_speed, efficiency=efficiency)
    allowed = {
        "power": motor_power / cut.motor_power,
        "torque": math.inf if torque_limit is None else torque_limit / cut.torque,
        "force": math.inf if force_limit is None else force_limit / cut.force,
    }
    return _limited(allowed, cut.note)


@dataclass(frozen=True)
class LargestDrill:
    """Largest drill a machine can turn and push."""

    diameter: float
    by_torque: float
    by_thrust: float
    limit: str


@calculation
@takes(lambda **_: 50_000)  # every drill there is
def largest_drill(
    material: str, feed: float, torque_limit: float, thrust_limit: float, pilot: float = 0.0
) -> LargestDrill:
    """Largest drill the machine can turn and push at a feed.

    Equation:
        d = min(d_M, d_T)

    Table:
        material_groups, drill_chisel

    Parameters:
        material: [text] a material of the table or a group of materials
        feed: f [mm] (f > 0) feed in one turn
        torque_limit: M [N*m] (M > 0) torque the spindle has: see torque_of_power
        thrust_limit: T [N] (T > 0) push the feed and the table may bear
        pilot: d_0 [mm] (d_0 >= 0) pilot hole

    Returns:
        diameter: d [mm] length  largest drill, careful: with the high torque and thrust
        by_torque: d_M [mm] length  what the torque allows
        by_thrust: d_T [mm] length  what the thrust allows
        limit: [text] text  torque or thrust: what sets the size

    Raises:
        NotInTable: no such material, or no work factor is known for it.
        OutOfRange: a value lies outside the range given above.

    Validity:
        As drilling_load; at most 50 mm.

    Example:
        >>> found = largest_drill("EN3B", 0.15, torque_limit=10, thrust_limit=3000)
        >>> round(found.diameter, 1), found.limit
        (8.3, 'thrust')

    Source:
        drilling_load turned round by halving the interval.

    Trust: estimate ±30 %

    Checked: `drilling_load` turned round, which is checked itself; nobody prints the largest drill of a
        machine.
    """
    cut = (material, feed, pilot)
    by_torque = _room(cut, "torque_high", torque_limit)
    by_thrust = _room(cut, "thrust_high", thrust_limit)
    limit = "torque" if by_torque < by_thrust else "thrust"
    return LargestDrill(min(by_torque, by_thrust), by_torque, by_thrust, limit)


@dataclass(frozen=True)
class PartingReach:
    """How deep a blade may part, and the bar it cuts through."""

    depth: float
    bar: float
    note: str


@calculation
def parting_reach(width: float, bore: float = 0.0) -> PartingReach:
    """Deepest groove and largest bar a parting blade of a width is good for.

    Equation:
        a = 8 * b
        D = 2 * a + d

    Parameters:
        width: b [mm] (b > 0) width of the blade
        bore: d [mm] (d >= 0) hole through the bar

    Returns:
        depth: a [mm] length  deepest groove
        bar: D [mm] length  largest bar parted off
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Shortest possible overhang, blade square and at centre height, its height greater than the overhang. A light
        lathe manages less.

    Example:
        3 mm blade: 24 mm deep.
        >>> reach = parting_reach(3)
        >>> reach.depth, reach.bar
        (24.0, 48.0)

    Source:
        Cut-off maker's page: 3 mm blade, 0.945 in deep (page read). The "1.190 inch bar" beside it should read
        1.890.

    Trust: common practice
    """
    note = "centre height to 0.1 mm; self-grip blades 0.1 to 0.2 mm above (one maker); never between centres"
    return PartingReach(8.0 * width, 16.0 * width + bore, note)


def _room(cut: tuple[str, float, float], field: str, limit: float) -> float:
    """Return the largest drill whose torque or thrust keeps to a limit, for (material, feed, pilot)."""
    material, feed, pilot = cut

    def load(diameter: float) -> float:
        return float(getattr(drilling_load(material, diameter, feed, 1.0, pilot), field))

    low, high = pilot, _LARGEST_DRILL
    if load(high) <= limit:
        return high
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if middle <= pilot or load(middle) <= limit else (low, middle)
    return low


def _deepest(
    depth_per_force: float, by_power: float, by_torque: float, force_limit: float | None, note: str
) -> DeepestCut:
    """Turn the forces [N] allowed into depths; `depth_per_force` is mm for a newton at the likely force."""
    forces = {"power": by_power, "torque": by_torque, "force": math.inf if force_limit is None else force_limit}
    return _limited({name: force * depth_per_force for name, force in forces.items()}, note)


def _limited(likely: Mapping[str, float], note: str) -> DeepestCut:
    """Pick the least of the likely depths and leave room for a force greater than likely."""
    limit = min(likely, key=lambda name: likely[name])
    careful = {name: depth / (1 + SPREAD) for name, depth in likely.items()}
    return DeepestCut(
        depth=careful[limit],
        depth_likely=likely[limit],
        by_power=careful["power"],
        by_torque=careful["torque"] if math.isfinite(careful["torque"]) else None,
        by_force=careful["force"] if math.isfinite(careful["force"]) else None,
        limit=limit,
        note=note,
    )
