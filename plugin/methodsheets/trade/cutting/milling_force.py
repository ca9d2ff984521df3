"""How hard does a milling cutter push, and how much power does it take?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .cutting import feed_rate, spindle_speed
from .cutting_force import SPREAD, chip_note, force_constants, kienzle
from .cutting_power import torque_of_power
from .removal import milling_removal_rate


@dataclass(frozen=True)
class MillingLoad:
    """What a milling cut asks of cutter, work and motor."""

    feed_rate: float
    engagement: float
    teeth_in_cut: float
    chip_thickness: float
    chip_thickness_max: float
    specific_force: float
    removal_rate: float
    power: float
    power_low: float
    power_high: float
    motor_power: float
    torque: float
    force: float
    force_tooth: float
    note: str


@calculation
def milling_load(
    material: str,
    diameter: float,
    depth: float,
    width: float,
    feed: float,
    teeth: int,
    cutting_speed: float,
    approach: float = 90.0,
    centred: bool = False,
    efficiency: float = 0.8,
    wear: float = 1.0,
    specific_force: float | None = None,
    chip_exponent: float = 0.0,
) -> MillingLoad:
    """Force, torque and power of a milling cut.

    Equation:
        n = v / (pi * D)
        v_f = f_z * z * n
        Q = a_p * a_e * v_f
        P_c = w * k_c * Q
        P_low = 0.7 * P_c
        P_high = 1.3 * P_c
        P_m = P_c / eta
        M = P_c / (2 * pi * n)
        F_t = 2 * M / D

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        diameter: D [mm] (D > 0) cutter diameter
        depth: a_p [mm] (a_p > 0) depth along the cutter's axis
        width: a_e [mm] (a_e > 0) width across the cutter, not more than the cutter
        feed: f_z [mm] (f_z > 0) feed for one tooth
        teeth: z [1] (z >= 1, whole number) cutting teeth
        cutting_speed: v [m/min] (v > 0) cutting speed
        approach: kappa [deg] (10 <= kappa <= 90) angle of the edge to the feed plane; 90 for an end mill
        centred: [flag] whether the cut lies centrally under a face mill, not at one side
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        wear: w [1] (1 <= w <= 2) 1 for a sharp edge; 1.3 to 1.5 for a worn one
        specific_force: k_c11 [MPa] (k_c11 > 0) instead of the table's
        chip_exponent: m_c [1] (0 <= m_c < 1) goes with it; 0 when it holds at this feed already

    Returns:
        feed_rate: v_f [mm/min] feed_rate  travel of the table
        engagement: phi [deg] angle  arc over which a tooth cuts
        teeth_in_cut: z_e [1] ratio  teeth in the metal on average
        chip_thickness: h_m [mm] length  mean thickness of the chip
        chip_thickness_max: h_x [mm] length  thickest chip
        specific_force: k_c [MPa] pressure  at the mean chip
        removal_rate: Q [cm^3/min] removal_rate  metal off in a minute
        power: P_c [kW] power  at the cut
        power_low: P_low [kW] power  30 % less
        power_high: P_high [kW] power  30 % more
        motor_power: P_m [kW] power  taken from the motor
        torque: M [N*m] torque  mean, at the spindle
        force: F_t [N] force  mean force along the cutter's rim, all teeth together
        force_tooth: F_z [N] force  greatest force of one tooth
        note: [text] text  says when the chip is thinner than was measured

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above, or the cut is wider than the cutter.

    Validity:
        Mean chip 0.05 to 2.5 mm; hobby cuts are often thinner: then expect more force, and the note says so. Climb
        and up-cut milling alike. Two makers' milling tables give from 15 % more (a cast steel) to 60 % less
        (aluminium) than this law at the same feed, most steels 20 to 45 % less: it errs to the careful side.

    Example:
        Face milling 2 mm deep, 80 mm wide, 280 mm/min, 1800 N/mm^2, efficiency 0.8: 1.68 kW.
        >>> cut = milling_load("S235", 250, 2, 80, 280 / (101.859 * 12), 12, 80, specific_force=1800)
        >>> round(cut.motor_power, 2)
        1.68

    Source:
        Cutting-tool maker's page on cutting power, its face-milling example (page read); mean chip by the integral
        over the arc.

    Trust: estimate +15 to -60 % against makers' milling tables
    """
    if width > diameter:
        raise OutOfRange("width", width, "mm", f"not more than the cutter ({diameter:g} mm)")
    rate = feed_rate(feed, spindle_speed(cutting_speed, diameter), teeth)
    arc = _arc(width / diameter, centred)
    lead = math.sin(math.radians(approach))
    mean = 2 * feed * lead * width / (diameter * arc)
    thickest = feed * lead * (math.sin(arc) if arc < math.pi / 2 and not centred else 1.0)
    constants = force_constants(material) if specific_force is None else (specific_force, chip_exponent)
    pressure = wear * kienzle(*constants, mean)
    removal = milling_removal_rate(depth, width, rate)
    power = removal * pressure / 60000
    torque = torque_of_power(power, spindle_speed(cutting_speed, diameter))
    return MillingLoad(
        feed_rate=rate,
        engagement=math.degrees(arc),
        teeth_in_cut=teeth * arc / (2 * math.pi),
        chip_thickness=mean,
        chip_thickness_max=thickest,
        specific_force=pressure / wear,
        removal_rate=removal,
        power=power,
        power_low=power * (1 - SPREAD),
        power_high=power * (1 + SPREAD),
        motor_power=power / efficiency,
        torque=torque,
        force=2000 * torque / diameter,
        force_tooth=wear * kienzle(*constants, thickest) * thickest * depth / lead,
        note=chip_note(mean),
    )


def _arc(share: float, centred: bool) -> float:
    """Return the arc [rad] a tooth is in cut, from the width as a share of the diameter."""
    return 2 * math.asin(share) if centred else math.acos(1 - 2 * share)
