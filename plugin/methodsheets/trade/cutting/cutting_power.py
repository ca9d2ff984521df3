"""How much power does a known force, torque or removal rate take?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table

_HP_IN3_MIN = 745.7 * 60 / 16.387064
"""A horsepower for a cubic inch in a minute, as N/mm^2: 2730.3."""


@calculation
def cutting_power(force: float, cutting_speed: float, efficiency: float = 1.0) -> float:
    """Power a cutting force takes at a cutting speed.

    Equation:
        P = F_c * v / eta

    Parameters:
        force: F_c [N] (F_c >= 0) cutting force
        cutting_speed: v [m/min] (v > 0) cutting speed
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work; 1 for the power at the cut

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(cutting_power(1860, 120, efficiency=0.8), 2)
        4.65

    Source:
        Cutting-tool maker's page on cutting power: 1860 N at 120 m/min and 0.8 gives 4.65 kW (page read).

    Trust: exact
    """
    return force * cutting_speed / 60000 / efficiency


@calculation
def turning_power(
    depth: float, feed: float, cutting_speed: float, specific_force: float, efficiency: float = 1.0
) -> float:
    """Power of a turning cut whose specific force is known.

    Equation:
        P = a * f * v * k_c / eta

    Parameters:
        depth: a [mm] (a > 0) depth of cut on the radius
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed
        specific_force: k_c [MPa] (k_c > 0) force on a square millimetre of chip, at this chip thickness
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work; 1 for the power at the cut

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As good as the specific force: makers' tables differ by up to 40 %.

    Example:
        >>> round(turning_power(3, 0.2, 120, 3100, efficiency=0.8), 2)
        4.65

    Source:
        Cutting-tool maker's page on cutting power, its worked example (page read).

    Trust: estimate ±30 %
    """
    return depth * feed * cutting_speed * specific_force / 60000 / efficiency


@calculation
def milling_power(
    depth: float, width: float, feed_rate: float, specific_force: float, efficiency: float = 1.0
) -> float:
    """Power of a milling cut whose specific force is known.

    Equation:
        P = a_p * a_e * v_f * k_c / eta

    Parameters:
        depth: a_p [mm] (a_p > 0) depth along the cutter's axis
        width: a_e [mm] (a_e > 0) width across the cutter
        feed_rate: v_f [mm/min] (v_f > 0) travel of the table in a minute
        specific_force: k_c [MPa] (k_c > 0) force on a square millimetre of chip, at this chip thickness
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work; 1 for the power at the cut

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As good as the specific force, which belongs to the mean chip thickness.

    Example:
        >>> round(milling_power(2, 80, 280, 1800, efficiency=0.8), 2)
        1.68

    Source:
        Cutting-tool maker's page on cutting power, its face-milling example (page read).

    Trust: estimate ±30 %
    """
    return depth * width * feed_rate * specific_force / 60e6 / efficiency


@calculation
def power_of_torque(torque: float, spindle_speed: float) -> float:
    """Power of a torque at a spindle speed.

    Equation:
        P = 2 * pi * n * M

    Parameters:
        torque: M [N*m] (M >= 0) torque at the spindle
        spindle_speed: n [1/min] (n > 0) spindle speed

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        559 lbf in at 350 per minute: 3.1 hp is 2.3 kW.
        >>> round(power_of_torque(63.16, 350), 2)
        2.31

    Source:
        Machining handbook, 31st edition, p. 1152: P = M n / 9550; 350 per minute (formula and start of the example
        read).

    Trust: exact
    """
    return 2 * math.pi * torque * spindle_speed / 60000


@calculation
def torque_of_power(power: float, spindle_speed: float) -> float:
    """Torque a power gives at a spindle speed.

    Equation:
        M = P / (2 * pi * n)

    Parameters:
        power: P [kW] (P >= 0) power at the spindle
        spindle_speed: n [1/min] (n > 0) spindle speed

    Returns:
        M [N*m] torque

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for the power. A drive controlled by frequency or voltage has its full power only near its rated
        speed; belts and gears keep it.

    Example:
        >>> round(torque_of_power(0.37, 350), 1)
        10.1

    Source:
        Definition.

    Trust: exact
    """
    return power * 60000 / (2 * math.pi * spindle_speed)


@calculation
def specific_force_of_unit_power(unit_power: float) -> float:
    """Specific cutting force that stands for a unit power in horsepower, cubic inches and minutes.

    Equation (units as listed):
        k_c = 745.7 * 60 / 16.387064 * K_p

    Parameters:
        unit_power: K_p [1] (K_p > 0) horsepower for a cubic inch in a minute

    Returns:
        k_c [MPa] pressure

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact: 1 hp of 550 ft lbf/s, 1 inch of 25.4 mm.

    Example:
        >>> round(specific_force_of_unit_power(1.0))
        2730

    Source:
        Machining handbook, 31st edition, p. 1147: unit power in both systems (page read).

    Trust: exact
    """
    return unit_power * _HP_IN3_MIN


@dataclass(frozen=True)
class UnitPower:
    """Power to take off a volume in a minute, sharp tool."""

    inch: float
    metric: float
    specific_force: float
    note: str


@calculation
def unit_power(steel: str, hardness: float) -> UnitPower:
    """Unit power of a steel by its kind and hardness.

    Table:
        unit_power

    Parameters:
        steel: [text] (one of plain carbon, free-machining, alloy) plain carbon: AISI 1010 to 1095; free-machining: 1108
            to 1132; alloy: 4140, 4340 and their like
        hardness: [HB] (80 <= hardness <= 400) Brinell hardness

    Returns:
        inch: [1] number  horsepower for a cubic inch in a minute
        metric: u [1] number  kilojoules for a cubic centimetre
        specific_force: k_c [MPa] pressure  the same as a specific cutting force
        note: [text] text  says whether the value was read or is from memory

    Raises:
        OutOfRange: a value lies outside the range given above, or the table has no such hardness for that steel.

    Validity:
        Feed about 0.3 mm, sharp tool. Multiply by a feed factor, by 1.1 to 1.6 for wear (from memory), divide by
        the machine's efficiency.

    Example:
        >>> found = unit_power("plain carbon", 170)
        >>> found.inch, round(found.metric, 2)
        (0.78, 2.13)

    Source:
        Machining handbook, 31st edition, p. 1147: unit power by hardness (page read); rows marked from memory were
        not.

    Trust: table
    """
    kind = steel.strip().lower()
    rows = [row for row in read_table("unit_power").rows if row["steel"] == kind]
    for row in rows:
        if float(row["from"]) <= hardness <= float(row["to"]):
            value, said = float(take(row)["unit_power"]), row.origin("unit_power")
            pressure = specific_force_of_unit_power(value)
            return UnitPower(value, pressure / 1000, pressure, f"{said.source} ({said.trust})")
    least, most = float(rows[0]["from"]), float(rows[-1]["to"])
    raise OutOfRange("hardness", hardness, "HB", f"{least:g} to {most:g} HB for {kind} steel")


@calculation
def unit_power_need(
    removal_rate: float, unit_power: float, efficiency: float = 1.0, feed_factor: float = 1.0, wear: float = 1.0
) -> float:
    """Power of a cut by the unit-power method.

    Equation (units as listed):
        P = 745.7 / 16.387064 * K_p * C * W * Q / 1000 / eta

    Parameters:
        removal_rate: Q [cm^3/min] (Q > 0) metal off in a minute
        unit_power: K_p [1] (K_p > 0) horsepower for a cubic inch in a minute
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work; 1 for the power at the cut
        feed_factor: C [1] (0.5 <= C <= 2) 1 at about 0.3 mm feed; finer feeds need more
        wear: W [1] (1 <= W <= 2) 1 for a sharp edge

    Returns:
        P [kW] power

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        About ±30 %.

    Example:
        4.32 cubic inches a minute at K_p 1 through 0.8: 5.4 hp is 4.03 kW.
        >>> round(unit_power_need(70.79, 1.0, efficiency=0.8), 2)
        4.03

    Source:
        Machining handbook's unit-power example as quoted on a public page, 0.100 in, 0.012 in, 300 ft/min (page
        read).

    Trust: estimate ±30 %
    """
    return _HP_IN3_MIN * unit_power * feed_factor * wear * removal_rate / 60000 / efficiency
