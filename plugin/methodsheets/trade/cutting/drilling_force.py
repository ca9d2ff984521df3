"""How hard does a drill twist and push, and how much power does it take?"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import find_row, read_table
from .cutting_force import SPREAD
from .cutting_power import power_of_torque
from .cutting_tables import group_of

_Pair = tuple[float, float]


@dataclass(frozen=True)
class DrillingLoad:
    """What a drill asks of the work's hold, the feed and the motor."""

    torque: float
    torque_low: float
    torque_high: float
    thrust: float
    thrust_low: float
    thrust_high: float
    power: float
    motor_power: float
    note: str


@calculation
def drilling_load(
    material: str,
    diameter: float,
    feed: float,
    spindle_speed: float,
    pilot: float = 0.0,
    web_share: float = 0.18,
    efficiency: float = 0.8,
    wear: float = 1.0,
) -> DrillingLoad:
    """Torque, thrust and power of a twist drill in a material of the table.

    A pilot hole as wide as the chisel edge takes away the chisel's own thrust, the last term.

    Equation (units as listed):
        M = 0.000025 * K_d * f^0.8 * (d^1.8 - d_0^1.8) * A * W
        T = W * (0.05 * K_t * f^0.8 * (d^0.8 - d_0^0.8) * B + 0.007 * K_t * d^2 * J)
        P_c = pi * M * n / 30000
        M_low = 0.7 * M
        M_high = 1.3 * M
        T_low = 0.6 * T
        T_high = 1.5 * T
        P_m = P_c / eta

    Table:
        material_groups, drill_chisel

    Parameters:
        material: [text] a material of the table or a group of materials
        diameter: d [mm] (d > 0) drill diameter
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        pilot: d_0 [mm] (d_0 >= 0) pilot hole: takes away the chisel edge's thrust and the share of the torque inside it
        web_share: [1] (0.03 <= web_share <= 0.4) length of the chisel edge over the diameter; 0.18 for a common drill
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        wear: W [1] (1 <= W <= 2) 1 for a sharp drill; 1.3 is usual, 1.5 for a blunt one

    Returns:
        torque: M [N*m] torque  likely
        torque_low: M_low [N*m] torque  30 % less
        torque_high: M_high [N*m] torque  30 % more: hold the work against this
        thrust: T [N] force  likely
        thrust_low: T_low [N] force  0.6 of it
        thrust_high: T_high [N] force  1.5 times it: published rules differ by 80 %
        power: P_c [kW] power  at the drill
        motor_power: P_m [kW] power  taken from the motor
        note: [text] text  what to know

    Raises:
        NotInTable: no such material, or no work factor is known for it.
        OutOfRange: a value lies outside the range given above, or the pilot is as large as the drill.

    Validity:
        Drills of 1 to 50 mm, 118 degree points, sharp. The material's factor is that of its group, from memory.

    Heed:
        d < 1: below 1 mm a drill's web is thick for its size: expect more thrust than this
        d > 50: the handbook's factors end at 50 mm

    Example:
        10 mm drill in medium carbon steel, 0.2 mm feed.
        >>> load = drilling_load("EN8", 10, 0.2, 1000)
        >>> round(load.torque, 1), round(load.thrust, -1)
        (11.3, 3340.0)

    Source:
        Machining handbook, 31st edition, p. 1152: formulas and factors (read); work factors of most groups from
        memory.

    Trust: estimate ±30 %
    """
    group = group_of(material)
    if group.drill_torque is None or group.drill_thrust is None:
        raise NotInTable(material, "material with a known work factor for drilling", ())
    if pilot >= diameter:
        raise OutOfRange("pilot", pilot, "mm", f"smaller than the drill ({diameter:g} mm)")
    freed = pilot >= web_share * diameter
    web = (*_web_factors(0.03)[:2], 0.0) if freed else _web_factors(web_share)
    take(find_row("material_groups", group=group.name), "drill_torque", "drill_thrust")
    factors = (group.drill_torque, group.drill_thrust)
    torque, thrust = _handbook(diameter, feed, factors, web, wear, pilot)
    note = "" if freed else "a pilot hole as wide as the chisel edge takes much of the thrust away"
    return _load(torque, thrust, spindle_speed, efficiency, note)


@calculation
def drilling_load_by_factor(
    work_factor: float,
    diameter: float,
    feed: float,
    spindle_speed: float,
    web_share: float = 0.18,
    efficiency: float = 0.8,
    wear: float = 1.3,
) -> DrillingLoad:
    """Torque, thrust and power of a twist drill from the handbook's work-material factor.

    Equation (units as listed):
        M = 0.000025 * K_d * f^0.8 * d^1.8 * A * W
        T = W * (0.05 * K_d * f^0.8 * d^0.8 * B + 0.007 * K_d * d^2 * J)
        P_c = pi * M * n / 30000
        M_low = 0.7 * M
        M_high = 1.3 * M
        T_low = 0.6 * T
        T_high = 1.5 * T
        P_m = P_c / eta

    Table:
        drill_chisel

    Parameters:
        work_factor: K_d [1] (1000 <= K_d <= 60000) the handbook's factor: steel of 200 HB 24000
        diameter: d [mm] (d > 0) drill diameter
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        web_share: [1] (0.03 <= web_share <= 0.4) length of the chisel edge over the diameter
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        wear: W [1] (1 <= W <= 2) 1 for a sharp drill; 1.3 is the handbook's usual

    Returns:
        torque: M [N*m] torque  likely
        torque_low: M_low [N*m] torque  30 % less
        torque_high: M_high [N*m] torque  30 % more: hold the work against this
        thrust: T [N] force  likely
        thrust_low: T_low [N] force  0.6 of it
        thrust_high: T_high [N] force  1.5 times it: published rules differ by 80 %
        power: P_c [kW] power  at the drill
        motor_power: P_m [kW] power  taken from the motor
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Steel, iron and light alloys with high-speed drills.

    Heed:
        d < 1: below 1 mm a drill's web is thick for its size: expect more thrust than this
        d > 50: the handbook's factors end at 50 mm

    Example:
        7/8 in drill, 200 HB steel, 0.008 in feed, 350 per minute: 559 lbf in and 2313 lbf.
        >>> load = drilling_load_by_factor(24000, 22.225, 0.2032, 350)
        >>> round(load.torque * 8.8507, -1), round(load.thrust / 4.448, -1)
        (560.0, 2320.0)

    Source:
        Machining handbook, 31st edition, p. 1152: formulas, factors and the start of the example read; feed, work
        factor and results from memory.

    Trust: estimate ±30 %
    """
    web = _web_factors(web_share)
    torque, thrust = _handbook(diameter, feed, (work_factor, work_factor), web, wear, 0.0)
    return _load(torque, thrust, spindle_speed, efficiency, "")


@calculation
def drilling_load_by_maker(
    maker_factor: float, diameter: float, feed: float, spindle_speed: float, efficiency: float = 0.8
) -> DrillingLoad:
    """Torque, thrust and power of a twist drill by a drill maker's formula.

    Equation (units as listed):
        M = K * d^2 * (0.630 + 16.84 * f) / 100
        T = 570 * K * d * f^0.85
        P_c = K * d^2 * n * (0.647 + 17.29 * f) * 10^(-6)
        M_low = 0.7 * M
        M_high = 1.3 * M
        T_low = 0.6 * T
        T_high = 1.5 * T
        P_m = P_c / eta

    Parameters:
        maker_factor: K [1] (0.1 <= K <= 10) the maker's factor: low carbon steel of 160 HB 2.22
        diameter: d [mm] (d > 0) drill diameter
        feed: f [mm] (f > 0) feed in one turn
        spindle_speed: n [1/min] (n > 0) spindle speed
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work

    Returns:
        torque: M [N*m] torque  likely
        torque_low: M_low [N*m] torque  30 % less
        torque_high: M_high [N*m] torque  30 % more: hold the work against this
        thrust: T [N] force  likely
        thrust_low: T_low [N] force  0.6 of it
        thrust_high: T_high [N] force  1.5 times it: published rules differ by 80 %
        power: P_c [kW] power  at the drill
        motor_power: P_m [kW] power  taken from the motor
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        The maker's own power lies 2 % below that of its torque.

    Heed:
        d < 1: below 1 mm a drill's web is thick for its size: expect more thrust than this
        d > 50: the handbook's factors end at 50 mm

    Example:
        10 mm, 0.2 mm, 1000 per minute, low carbon steel: 8.88 N m.
        >>> load = drilling_load_by_maker(2.22, 10, 0.2, 1000)
        >>> round(load.torque, 2), round(load.thrust), round(load.power, 3)
        (8.88, 3222, 0.911)

    Source:
        Drill maker's technical page (formulas and factor read, example worked out).

    Trust: estimate ±30 %
    """
    torque = maker_factor * diameter**2 * (0.630 + 16.84 * feed) / 100
    thrust = 570 * maker_factor * diameter * feed**0.85
    power = maker_factor * diameter**2 * spindle_speed * (0.647 + 17.29 * feed) * 1e-6
    return _load(torque, thrust, spindle_speed, efficiency, "", power)


@calculation
def drilling_torque(specific_force: float, diameter: float, feed: float) -> float:
    """Torque of a twist drill from a specific cutting force.

    Equation:
        M = k_c * f * d^2 / 8

    Parameters:
        specific_force: k_c [MPa] (k_c > 0) force on a square millimetre of chip; the chip of a 118 degree drill is 0.43
            of the feed thick
        diameter: d [mm] (d > 0) drill diameter
        feed: f [mm] (f > 0) feed in one turn

    Returns:
        M [N*m] torque

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Lips only; chisel edge, margins and chips in the flutes add to it.

    Heed:
        f > 0.1 * d: more feed than a tenth of the drill: no drill of that size stands it

    Example:
        >>> drilling_torque(2500, 10, 0.2)
        6.25

    Source:
        From memory: handbook formula; example worked out.

    Trust: estimate ±30 %
    """
    return specific_force * feed * diameter**2 / 8000


@calculation
def drilling_power(
    specific_force: float, diameter: float, feed: float, cutting_speed: float, efficiency: float = 1.0
) -> float:
    """Power of a twist drill from a specific cutting force.

    Equation:
        P = f * v * d * k_c / (4 * eta)

    Parameters:
        specific_force: k_c [MPa] (k_c > 0) force on a square millimetre of chip
        diameter: d [mm] (d > 0) drill diameter
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) speed at the drill's rim
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As drilling_torque.

    Example:
        >>> round(drilling_power(2500, 10, 0.2, 31.4159), 3)
        0.654

    Source:
        From memory: handbook formula P = f v d k_c / 240000; it is the power of drilling_torque.

    Trust: estimate ±30 %
    """
    return feed * cutting_speed * diameter * specific_force / 240000 / efficiency


def _handbook(
    diameter: float, feed: float, factors: _Pair, web: tuple[float, float, float], wear: float, pilot: float
) -> _Pair:
    """Return torque [N m] and thrust [N] by the handbook's formulas; `factors` for torque and thrust."""
    feed_factor = feed**0.8
    torque_web, thrust_web, chisel = web
    rim = diameter**1.8 - pilot**1.8
    torque = 0.000025 * factors[0] * feed_factor * rim * torque_web * wear
    lips = 0.05 * factors[1] * feed_factor * (diameter**0.8 - pilot**0.8) * thrust_web
    point = 0.007 * factors[1] * diameter**2 * chisel
    return torque, (lips + point) * wear


def _web_factors(share: float) -> tuple[float, float, float]:
    """Return the chisel-edge factors for torque, thrust and the chisel's own thrust, interpolated."""
    columns = ("share", "torque", "thrust", "chisel")
    table = itertools.pairwise(read_table("drill_chisel").rows)
    pair = next(pair for pair in table if share <= float(pair[1]["share"]))
    left, right = (tuple(float(take(row)[column]) for column in columns) for row in pair)
    part = (share - left[0]) / (right[0] - left[0])
    torque, thrust, chisel = (left[at] + part * (right[at] - left[at]) for at in (1, 2, 3))
    return torque, thrust, chisel


def _load(
    torque: float, thrust: float, speed: float, efficiency: float, note: str, power: float | None = None
) -> DrillingLoad:
    power = power_of_torque(torque, speed) if power is None else power
    return DrillingLoad(
        torque=torque,
        torque_low=torque * (1 - SPREAD),
        torque_high=torque * (1 + SPREAD),
        thrust=thrust,
        thrust_low=0.6 * thrust,
        thrust_high=1.5 * thrust,
        power=power,
        motor_power=power / efficiency,
        note=note,
    )
