"""How long may work stand out, how much must be gripped, and how fast may unbalanced work turn?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import calculation


@dataclass(frozen=True)
class SupportAdvice:
    """Whether work wants a centre or a steady."""

    slenderness: float
    advice: str
    support: str


@dataclass(frozen=True)
class SpeedCeiling:
    """Fastest speed for unbalanced work."""

    spindle_speed: float
    force: float
    note: str


@calculation
def support_advice(overhang: float, diameter: float) -> SupportAdvice:
    """Whether work that stands out of the chuck wants a centre or a steady.

    Equation:
        n = L / d

    Parameters:
        overhang: L [mm] (L > 0) length that stands out of the chuck
        diameter: d [mm] (d > 0) diameter of the work; the thinnest part of it

    Returns:
        slenderness: n [1] ratio length over diameter
        advice: [text] text what is usual
        support: [text] text chuck, centre, or centre and steady

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        A rule of thumb for steel: up to 3 diameters in the chuck alone, 4 for light cuts, a centre up to 10, a steady
        beyond 10 to 15. work_bends says by how much.

    Example:
        >>> support_advice(60, 10).support
        'centre'

    Source:
        Part-supplier articles (4, 10 and 15 diameters; read); 3 diameters from memory.

    Trust: common practice

    Checked: common practice of the workshop: books give the rule and no cases of it.
    """
    slenderness = overhang / diameter
    steps = (
        (3.0, "chuck", "stiff enough in the chuck alone"),
        (4.0, "chuck", "in the chuck alone for light cuts only"),
        (10.0, "centre", "support the end with a centre"),
        (15.0, "centre and steady", "a centre, light cuts, and better a travelling steady"),
    )
    for most, support, advice in steps:
        if slenderness <= most:
            return SupportAdvice(slenderness, advice, support)
    return SupportAdvice(slenderness, "a centre and a fixed or travelling steady", "centre and steady")


@calculation
def grip_length(diameter: float, overhang: float = 0.0, least: float = 6.0) -> float:
    """Length to grip in the jaws.

    Equation:
        g = max(d / 2, L / 3, g_0)

    Parameters:
        diameter: d [mm] (d > 0) diameter that is gripped
        overhang: L [mm] (L >= 0) length that stands out of the jaws
        least: g_0 [mm] (g_0 > 0) never less than this

    Returns:
        g [mm] length least length in the jaws

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Half the diameter, a third of the overhang, never under 6 mm: a rule of the house, from workshop practice.
        Heavy cuts, interrupted cuts and thin tube want more. The chuck's manual goes first.

    Example:
        >>> grip_length(40, 20)
        20.0

    Source:
        From memory of workshop practice.

    Trust: common practice

    Checked: common practice of the workshop: books give the rule and no cases of it.
    """
    return max(diameter / 2, overhang / 3, least)


@calculation
def unbalanced_speed(unbalance: float, machine_mass: float, share: float = 0.1) -> SpeedCeiling:
    """Fastest spindle speed at which unbalanced work shakes with no more than a share of the machine's weight.

    Equation:
        F = q * m * 9.80665
        n = sqrt(F / U) / (2 * pi)

    Parameters:
        unbalance: U [g*mm] (U > 0) mass times distance off the axis, of work, packing and plate together
        machine_mass: m [kg] (m > 0) mass of the machine and what it is bolted to
        share: q [1] (0 < q <= 1) share of the weight you let it shake with

    Returns:
        spindle_speed: n [1/min] spindle_speed fastest speed
        force: F [N] force shaking force at that speed
        note: [text] text what to do

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        The force that turns round with the work. A tenth of the weight is a rule of the house: begin at the lowest
        speed and go up only while nothing shakes. Balance the plate first.

    Example:
        >>> ceiling = unbalanced_speed(2400, 60)
        >>> round(ceiling.spindle_speed)
        1495

    Source:
        Force of a mass going round, m w^2 r; the share is common practice, from memory.

    Trust: estimate
    """
    force = share * machine_mass * 9.80665
    omega = math.sqrt(force / (unbalance * 1e-6))
    return SpeedCeiling(
        omega * 30 / math.pi, force, "begin slowly and stop if it shakes; balance it with a weight opposite"
    )


@calculation
def held_slip_torque(grip_force: float, diameter: float, friction: float = 0.15) -> float:
    """Torque at which round work turns in its jaws.

    Equation:
        M = mu * F * d / 2

    Parameters:
        grip_force: F [N] (F >= 0) force of all jaws together
        diameter: d [mm] (d > 0) diameter that is gripped
        friction: mu [1] (0 < mu <= 1) friction of jaw and work: about 0.15 smooth, 0.25 and more for serrated jaws

    Returns:
        M [N*m] torque torque at which it slips

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Grip falls with speed, as the jaws are flung outwards. Take a third or less.

    Example:
        >>> held_slip_torque(10000, 40)
        30.0

    Source:
        Definition of friction; the coefficients are from memory.

    Trust: estimate
    """
    return friction * grip_force * diameter / 2 / 1000
