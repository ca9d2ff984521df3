"""What pressure and stress does a thick ring carry?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation


@dataclass(frozen=True)
class RingStress:
    """Stresses in a thick ring at one diameter; a pull is positive."""

    radial: float
    hoop: float
    equivalent: float


@calculation
def thick_ring_stress(
    inside: float, outside: float, at: float, inner_pressure: float = 0.0, outer_pressure: float = 0.0
) -> RingStress:
    """Stress in a thick ring under pressure inside, outside or both.

    Equation:
        A = (p_i * d_i ** 2 - p_o * d_o ** 2) / (d_o ** 2 - d_i ** 2)
        B = (p_i - p_o) * d_i ** 2 * d_o ** 2 / (d_o ** 2 - d_i ** 2)
        s_r = A - B / d ** 2
        s_t = A + B / d ** 2
        s_v = sqrt(s_r ** 2 - s_r * s_t + s_t ** 2)

    Parameters:
        inside: d_i [mm] (d_i >= 0) bore of the ring; nothing for a solid bar
        outside: d_o [mm] (d_o > 0) outside of the ring
        at: d [mm] (d >= 0) diameter at which the stress is wanted
        inner_pressure: p_i [MPa] (p_i >= 0) pressure in the bore
        outer_pressure: p_o [MPa] (p_o >= 0) pressure on the outside

    Returns:
        radial: s_r [MPa] stress stress along the radius
        hoop: s_t [MPa] stress stress round the ring
        equivalent: s_v [MPa] stress the same by von Mises, to compare with the yield

    Raises:
        OutOfRange: the outside is not larger than the bore, or the diameter lies outside the ring.

    Validity:
        Elastic, ends free (plane stress), no speed, round ring.

    Example:
        >>> ring = thick_ring_stress(20, 100, at=50, inner_pressure=300)
        >>> ring.radial, ring.hoop
        (-37.5, 62.5)

    Source:
        Lame. The example is a published textbook of mechanics of materials, chapter 11, example 1.

    Trust: exact
    """
    if outside <= inside:
        raise OutOfRange("outside", outside, "mm", "larger than the bore")
    if not inside <= at <= outside:
        raise OutOfRange("at", at, "mm", "between the bore and the outside")
    wall = outside**2 - inside**2
    mean = (inner_pressure * inside**2 - outer_pressure * outside**2) / wall
    swing = (inner_pressure - outer_pressure) * inside**2 * outside**2 / wall / at**2 if inside else 0.0
    radial, hoop = mean - swing, mean + swing
    return RingStress(radial, hoop, math.sqrt(radial**2 - radial * hoop + hoop**2))


@calculation
def interface_pressure(
    interference: float,
    diameter: float,
    hub: float,
    hub_modulus: float,
    hub_poisson: float,
    shaft_modulus: float,
    shaft_poisson: float,
    shaft_bore: float = 0.0,
) -> float:
    """Pressure between a hub and a shaft that are held together by interference.

    Equation:
        C_h = (D ** 2 + d ** 2) / (D ** 2 - d ** 2) + nu_h
        C_s = (d ** 2 + d_b ** 2) / (d ** 2 - d_b ** 2) - nu_s
        p = U / (d * (C_h / E_h + C_s / E_s))

    Parameters:
        interference: U [mm] (0 <= U <= 0.02 * d) interference on the diameter
        diameter: d [mm] (d > 0) diameter where they meet
        hub: D [mm] (D > 0) outside diameter of the hub
        hub_modulus: E_h [MPa] (E_h > 0) modulus of elasticity of the hub
        hub_poisson: nu_h [1] (0 <= nu_h <= 0.5) Poisson's ratio of the hub
        shaft_modulus: E_s [MPa] (E_s > 0) modulus of elasticity of the shaft
        shaft_poisson: nu_s [1] (0 <= nu_s <= 0.5) Poisson's ratio of the shaft
        shaft_bore: d_b [mm] (d_b >= 0) bore of the shaft; nothing when it is solid

    Returns:
        p [MPa] pressure pressure between the two

    Raises:
        OutOfRange: the hub is not larger than the shaft, or the shaft not larger than its bore.

    Validity:
        Elastic, ends free (plane stress), hub of one outside diameter and not shorter than about half the shaft
        diameter, no speed. A shaft that goes on past the hub raises the mean pressure by 1 to 3 per cent, more
        at the hub's ends (finite elements).

    Example:
        >>> round(interface_pressure(0.2, 400, 500, 200000, 0.3, 200000, 0.3, shaft_bore=300), 1)
        12.3

    Source:
        Lame. The example is a published textbook of strength and elasticity, chapter 8, example 3 (12.3 MPa; a
        worked copy of it prints 0.31 MPa, which is wrong), and agrees with finite elements.

    Trust: exact
    """
    return interference / compliance(
        diameter,
        hub,
        hub_modulus,
        hub_poisson,
        shaft_modulus=shaft_modulus,
        shaft_poisson=shaft_poisson,
        shaft_bore=shaft_bore,
    )


@calculation
def interference_for_pressure(
    pressure: float,
    diameter: float,
    hub: float,
    hub_modulus: float,
    hub_poisson: float,
    shaft_modulus: float,
    shaft_poisson: float,
    shaft_bore: float = 0.0,
) -> float:
    """Interference that gives a wanted pressure between a hub and a shaft.

    Equation:
        C_h = (D ** 2 + d ** 2) / (D ** 2 - d ** 2) + nu_h
        C_s = (d ** 2 + d_b ** 2) / (d ** 2 - d_b ** 2) - nu_s
        U = p * d * (C_h / E_h + C_s / E_s)

    Parameters:
        pressure: p [MPa] (p >= 0) pressure wanted
        diameter: d [mm] (d > 0) diameter where they meet
        hub: D [mm] (D > 0) outside diameter of the hub
        hub_modulus: E_h [MPa] (E_h > 0) modulus of elasticity of the hub
        hub_poisson: nu_h [1] (0 <= nu_h <= 0.5) Poisson's ratio of the hub
        shaft_modulus: E_s [MPa] (E_s > 0) modulus of elasticity of the shaft
        shaft_poisson: nu_s [1] (0 <= nu_s <= 0.5) Poisson's ratio of the shaft
        shaft_bore: d_b [mm] (d_b >= 0) bore of the shaft; nothing when it is solid

    Returns:
        U [mm] clearance interference on the diameter, before any loss to roughness

    Raises:
        OutOfRange: the hub is not larger than the shaft, or the shaft not larger than its bore.

    Validity:
        As for interface_pressure.

    Example:
        >>> round(interference_for_pressure(61.8, 25, 50, 206000, 0.29, 206000, 0.29), 4)
        0.02

    Source:
        Lame, the other way round. Finite elements give 61.80 MPa for 0.020 mm here.

    Trust: exact
    """
    return pressure * compliance(
        diameter,
        hub,
        hub_modulus,
        hub_poisson,
        shaft_modulus=shaft_modulus,
        shaft_poisson=shaft_poisson,
        shaft_bore=shaft_bore,
    )


@calculation
def pressure_for_force(force: float, diameter: float, length: float, friction: float) -> float:
    """Pressure that a joint needs to hold a force by friction, along the shaft or round it.

    Equation:
        p = F / (mu * pi * d * L)

    Parameters:
        force: F [N] (F >= 0) force along the shaft, or force round its surface
        diameter: d [mm] (d > 0) diameter where they meet
        length: L [mm] (L > 0) length of the seat
        friction: mu [1] (mu > 0) coefficient of friction; the lowest you trust

    Returns:
        p [MPa] pressure pressure needed

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Even pressure. For a torque the force is twice the torque divided by the diameter.

    Example:
        >>> round(pressure_for_force(1.2e6, 150, 75, 0.25), 1)
        135.8

    Source:
        Homework hints of a university course in machine design (page read).

    Trust: exact
    """
    return force / (friction * math.pi * diameter * length)


@calculation
def joint_torque(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Torque that a press or shrink fit carries before it slips.

    Equation:
        M = mu * p * pi * d ** 2 * L / 2

    Parameters:
        pressure: p [MPa] (p >= 0) pressure between the two
        diameter: d [mm] (d > 0) diameter where they meet
        length: L [mm] (L > 0) length of the seat
        friction: mu [1] (mu > 0) coefficient of friction

    Returns:
        M [N*m] torque torque at which it slips

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Even pressure, torque alone. Friction is known to a half at best: work with the lowest you trust.

    Example:
        >>> round(joint_torque(41.436, 20, 20, 0.12), 2)
        62.48

    Source:
        Formulas as in a published article on shaft and hub joints (page read), worked out here.

    Trust: exact
    """
    return friction * pressure * math.pi * diameter**2 * length / 2 / 1000


def compliance(
    diameter: float,
    hub: float,
    hub_modulus: float,
    hub_poisson: float,
    shaft_modulus: float,
    shaft_poisson: float,
    shaft_bore: float,
) -> float:
    """Return the interference [mm] that one MPa between hub and shaft takes up."""
    if hub <= diameter:
        raise OutOfRange("hub", hub, "mm", f"larger than the {diameter:g} mm where they meet")
    if shaft_bore >= diameter:
        raise OutOfRange("shaft_bore", shaft_bore, "mm", f"smaller than the {diameter:g} mm where they meet")
    hub_gives = (hub**2 + diameter**2) / (hub**2 - diameter**2) + hub_poisson
    shaft_gives = (diameter**2 + shaft_bore**2) / (diameter**2 - shaft_bore**2) - shaft_poisson
    return diameter * (hub_gives / hub_modulus + shaft_gives / shaft_modulus)
