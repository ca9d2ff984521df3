"""How hard does a turning or parting tool push, and how much power does it take?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..metal.materials import look_up

SPREAD = 0.30
"""Published specific forces of nominally equal metals differ by about this share either way."""

_DISPUTED_CHIPS, _DISPUTED = (0.05, 0.25), "mild steel"
"""Chips [mm] and group of materials for which two makers' turning tables lie farther apart than the spread."""

THINNEST_CHIP, THICKEST_CHIP = 0.05, 2.5
"""Chip thickness [mm] between which the law of Kienzle was measured."""


@calculation
def kienzle(specific_force: float, chip_exponent: float, chip_thickness: float) -> float:
    """Specific cutting force at a chip thickness, by the law of Kienzle.

    Equation (units as listed):
        k_c = k_c11 * h^(-m_c)

    Parameters:
        specific_force: k_c11 [MPa] (k_c11 > 0) specific force at a chip 1 mm thick and 1 mm wide
        chip_exponent: m_c [1] (0 <= m_c < 1) how the force falls as the chip thickens
        chip_thickness: h [mm] (h > 0) thickness of the chip before it is bent away

    Returns:
        k_c [MPa] pressure

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Chips 0.05 to 2.5 mm thick, sharp carbide, about 100 m/min. Below 0.05 mm the law gives too little.

    Heed:
        h < 0.05: the chip is thinner than 0.05 mm: expect more force than this
        h > 2.5: the chip is thicker than 2.5 mm, where the law was not measured

    Example:
        Steel St42 at 45 degrees and 0.4 mm feed; the table prints 2200.
        >>> round(kienzle(1780, 0.17, 0.4 * 0.70711), -1)
        2210.0

    Source:
        Power-chuck maker's manual, table of specific cutting forces, checks the law within 3.5 % (page read).

    Trust: estimate ±30 %
    """
    return specific_force * chip_thickness**-chip_exponent


@dataclass(frozen=True)
class SpecificForce:
    """Force on each square millimetre of chip, with the spread to reckon with."""

    value: float
    low: float
    high: float
    note: str


@calculation
def specific_cutting_force(material: str, chip_thickness: float) -> SpecificForce:
    """Specific cutting force of a material at a chip thickness.

    Equation (units as listed):
        k_c = k_c11 * h^(-m_c)
        k_low = 0.7 * k_c
        k_high = 1.3 * k_c

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        chip_thickness: h [mm] (h > 0) thickness of the chip before it is bent away

    Returns:
        value: k_c [MPa] pressure  likely value
        low: k_low [MPa] pressure  30 % less
        high: k_high [MPa] pressure  30 % more
        note: [text] text  says when the chip is thinner or thicker than was measured, or the sources disagree

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above.

    Validity:
        Chips 0.05 to 2.5 mm thick; outside, the note says so. Worn edges take 30 to 50 % more (from memory). Of eight
        steels and irons of another maker's turning table seven lie within the spread, mild steel at 0.1 to 0.2 mm
        takes 32 to 37 % more; makers' milling tables lie up to 62 % lower.

    Example:
        >>> round(specific_cutting_force("42CrMo4", 0.16 * 0.70711).value / 1000, 2)
        4.41

    Source:
        Power-chuck maker's manual prints 4.35 kN/mm^2 for it (page read); other metals as the table of materials says.

    Trust: estimate ±30 %
    """
    force, exponent = force_constants(material)
    value = kienzle(force, exponent, chip_thickness)
    return SpecificForce(value, value * (1 - SPREAD), value * (1 + SPREAD), spread_note(material, chip_thickness))


@dataclass(frozen=True)
class TurningLoad:
    """What a turning cut asks of tool, work and motor."""

    chip_thickness: float
    chip_width: float
    specific_force: float
    force: float
    force_low: float
    force_high: float
    force_feed: float
    force_radial: float
    power: float
    power_low: float
    power_high: float
    motor_power: float
    torque: float
    note: str


@calculation
def turning_load(
    material: str,
    depth: float,
    feed: float,
    cutting_speed: float,
    diameter: float = 0.0,
    approach: float = 90.0,
    nose_radius: float = 0.0,
    efficiency: float = 0.8,
    wear: float = 1.0,
    specific_force: float | None = None,
    chip_exponent: float = 0.0,
) -> TurningLoad:
    """Force, torque and power of a turning, facing or boring cut.

    With a nose radius the approach angle is that of the chord from the lowest point of the nose to the surface.

    Equation (units as listed):
        h = f * sin(kappa_e)
        b = a / sin(kappa_e)
        k_c = k_c11 * h^(-m_c)
        F_c = w * k_c * b * h
        F_low = 0.7 * F_c
        F_high = 1.3 * F_c
        F_f = 0.5 * F_c * sin(kappa_e)
        F_p = 0.5 * F_c * cos(kappa_e)
        P_c = F_c * v / 60000
        P_low = 0.7 * P_c
        P_high = 1.3 * P_c
        P_m = P_c / eta
        M = F_c * d / 2000

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        depth: a [mm] (a > 0) depth of cut on the radius
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed
        diameter: d [mm] (d >= 0) diameter at the cut, for the torque
        approach: kappa [deg] (10 <= kappa <= 100) angle between cutting edge and feed; 90 is a knife tool
        nose_radius: r [mm] (r >= 0) radius of the tool's corner
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        wear: w [1] (1 <= w <= 2) 1 for a sharp edge; 1.3 to 1.5 for a worn one
        specific_force: k_c11 [MPa] (k_c11 > 0) instead of the table's, where a maker gives one
        chip_exponent: m_c [1] (0 <= m_c < 1) goes with it; 0 when it holds at this feed already

    Returns:
        chip_thickness: h [mm] length  thickness of the chip
        chip_width: b [mm] length  length of edge in cut
        specific_force: k_c [MPa] pressure  force on a square millimetre of chip
        force: F_c [N] force  cutting force, downwards on the tool
        force_low: F_low [N] force  30 % less
        force_high: F_high [N] force  30 % more: use this to judge strength
        force_feed: F_f [N] force  along the feed; within a factor of two
        force_radial: F_p [N] force  pushes tool and work apart; within a factor of two
        power: P_c [kW] power  at the cut
        power_low: P_low [kW] power  30 % less
        power_high: P_high [kW] power  30 % more
        motor_power: P_m [kW] power  taken from the motor
        torque: M [N*m] torque  at the spindle; nothing without a diameter
        note: [text] text  says when the chip is thinner or thicker than was measured, or the sources disagree

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above.

    Validity:
        Chips 0.05 to 2.5 mm thick, sharp carbide; high-speed steel takes 10 to 20 % more (from memory). The feed and
        radial forces are half the cutting force, parted by the approach angle: common practice, rough. One maker's mild
        steel takes up to 37 % more at 0.1 mm feed: see specific_cutting_force.

    Example:
        >>> cut = turning_load("EN3B", 3, 0.2, 120, efficiency=0.8, specific_force=3100)
        >>> round(cut.force), round(cut.motor_power, 2)
        (1860, 4.65)

    Source:
        Cutting-tool maker's page on cutting power: 3 mm, 0.2 mm, 120 m/min, 3100 N/mm^2, 0.8 gives 4.65 kW (page read).

    Trust: estimate ±30 %
    """
    angle = math.radians(effective_approach(depth, approach, nose_radius))
    thickness, width = feed * math.sin(angle), depth / math.sin(angle)
    force_constant, exponent = force_constants(material) if specific_force is None else (specific_force, chip_exponent)
    pressure = kienzle(force_constant, exponent, thickness)
    force = wear * pressure * width * thickness
    power = force * cutting_speed / 60000
    return TurningLoad(
        chip_thickness=thickness,
        chip_width=width,
        specific_force=pressure,
        force=force,
        force_low=force * (1 - SPREAD),
        force_high=force * (1 + SPREAD),
        force_feed=0.5 * force * math.sin(angle),
        force_radial=0.5 * force * math.cos(angle),
        power=power,
        power_low=power * (1 - SPREAD),
        power_high=power * (1 + SPREAD),
        motor_power=power / efficiency,
        torque=force * diameter / 2000,
        note=spread_note(material, thickness) if specific_force is None else chip_note(thickness),
    )


@dataclass(frozen=True)
class PartingLoad:
    """What parting off or grooving asks of blade and motor."""

    specific_force: float
    force: float
    force_low: float
    force_high: float
    power: float
    motor_power: float
    torque: float
    note: str


@calculation
def parting_load(
    material: str,
    width: float,
    feed: float,
    cutting_speed: float,
    diameter: float = 0.0,
    efficiency: float = 0.8,
    wear: float = 1.0,
    specific_force: float | None = None,
    chip_exponent: float = 0.0,
) -> PartingLoad:
    """Force, torque and power of parting off or grooving.

    Equation (units as listed):
        k_c = k_c11 * f^(-m_c)
        F_c = w * k_c * b * f
        F_low = 0.7 * F_c
        F_high = 1.3 * F_c
        P_c = F_c * v / 60000
        P_m = P_c / eta
        M = F_c * d / 2000

    Table:
        materials

    Parameters:
        material: [text] a material of the table
        width: b [mm] (b > 0) width of the blade
        feed: f [mm] (f > 0) feed in one turn
        cutting_speed: v [m/min] (v > 0) cutting speed
        diameter: d [mm] (d >= 0) diameter of the work, for the torque
        efficiency: eta [1] (0 < eta <= 1) share of the motor's power that reaches the work
        wear: w [1] (1 <= w <= 2) 1 for a sharp edge; 1.3 to 1.5 for a worn one
        specific_force: k_c11 [MPa] (k_c11 > 0) instead of the table's
        chip_exponent: m_c [1] (0 <= m_c < 1) goes with it

    Returns:
        specific_force: k_c [MPa] pressure  force on a square millimetre of chip
        force: F_c [N] force  cutting force, downwards on the blade
        force_low: F_low [N] force  30 % less
        force_high: F_high [N] force  30 % more
        power: P_c [kW] power  at the cut
        motor_power: P_m [kW] power  taken from the motor
        torque: M [N*m] torque  at the spindle; nothing without a diameter
        note: [text] text  says when the chip is thinner or thicker than was measured, or the sources disagree

    Raises:
        NotInTable: no such material, or no specific force is known for it.
        OutOfRange: a value lies outside the range given above.

    Validity:
        As turning. The chip is squeezed between the walls of the groove, which the law does not know: expect more.

    Example:
        >>> cut = parting_load("C45", 3, 0.1, 80)
        >>> round(cut.specific_force), round(cut.force), round(cut.power, 3)
        (3064, 919, 1.226)

    Source:
        Derived from the law of Kienzle with the edge square to the feed; no published worked example was found.

    Trust: estimate ±30 %
    """
    force_constant, exponent = force_constants(material) if specific_force is None else (specific_force, chip_exponent)
    pressure = kienzle(force_constant, exponent, feed)
    force = wear * pressure * width * feed
    power = force * cutting_speed / 60000
    return PartingLoad(
        specific_force=pressure,
        force=force,
        force_low=force * (1 - SPREAD),
        force_high=force * (1 + SPREAD),
        power=power,
        motor_power=power / efficiency,
        torque=force * diameter / 2000,
        note=spread_note(material, feed) if specific_force is None else chip_note(feed),
    )


def force_constants(material: str) -> tuple[float, float]:
    """Return a material's specific force at 1 mm chip [MPa] and its exponent; refuse where they are unknown."""
    entry = look_up(material, "force", "exponent")
    if entry.specific_force is None or entry.chip_exponent is None:
        raise NotInTable(material, "material with a known specific cutting force", ())
    return entry.specific_force, entry.chip_exponent


def chip_note(thickness: float) -> str:
    """Say where a chip is thinner or thicker than the law was measured for."""
    if thickness < THINNEST_CHIP:
        return f"chip {thickness:.3f} mm: below {THINNEST_CHIP} mm the law gives too little; expect more force"
    if thickness > THICKEST_CHIP:
        return f"chip {thickness:.2f} mm: above {THICKEST_CHIP} mm nothing was measured"
    return ""


def spread_note(material: str, thickness: float) -> str:
    """As `chip_note`; and say where a published table lies outside the spread."""
    said = chip_note(thickness)
    low, high = _DISPUTED_CHIPS
    if not said and low <= thickness <= high and look_up(material).group == _DISPUTED:
        return "another maker's table gives up to 37 % more for mild steel at so thin a chip: outside the range"
    return said


def effective_approach(depth: float, approach: float, nose_radius: float) -> float:
    """Return the angle [deg] of the chord of the edge in cut, nose and straight part together."""
    angle = math.radians(approach)
    nose_depth = nose_radius * (1 - math.cos(angle))
    if nose_radius == 0:
        return approach
    if depth <= nose_depth:
        along = math.sqrt(max(0.0, depth * (2 * nose_radius - depth)))
    else:
        along = nose_radius * math.sin(angle) + (depth - nose_depth) / math.tan(angle)
    if along < 0:
        raise OutOfRange("approach", approach, "deg", "an edge that does not lean back over the nose at this depth")
    return math.degrees(math.atan2(depth, along))
