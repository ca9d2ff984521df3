"""How hard does a press fit go on, how much does it hold, and does either part yield?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table
from .fits import Fit
from .joint_parts import Metal, Said, metal_of
from .lame import compliance, joint_torque

BRITTLE_MARGIN = 3.0
"""Tensile strength of grey iron over the greatest pull in a hub: it does not yield first (practice, from memory)."""
MOST_INTERFERENCE = 0.02
"""Of the diameter: ten times what strong steel bears before it yields. More is a slip of the pen."""


@dataclass(frozen=True)
class PressFit:
    """A press fit at its tightest and its loosest."""

    diameter: float
    interference_max: float
    interference_min: float
    roughness_loss: float
    pressure_max: float
    pressure_min: float
    hub_hoop_max: float
    hub_hoop_min: float
    hub_stress_max: float
    hub_margin: float | None
    shaft_hoop_max: float
    shaft_stress_max: float
    shaft_margin: float | None
    force_max: float
    force_min: float
    torque_max: float
    torque_min: float
    hub_grows: float
    bore_closes: float
    note: str


@dataclass(frozen=True)
class Friction:
    """The range of friction to count on."""

    low: float
    high: float


@dataclass(frozen=True)
class EccentricHub:
    """The two round hubs that a hub bored off centre lies between."""

    least: float
    greatest: float


@dataclass(frozen=True)
class Joint:
    """The sizes and metals of a joint, all known."""

    diameter: float
    length: float
    hub: float
    shaft_bore: float
    hub_metal: Metal
    shaft_metal: Metal

    def pressure(self, interference: float) -> float:
        """Return the pressure [MPa] an interference [mm] makes; nothing where there is clearance."""
        gives = compliance(
            self.diameter,
            self.hub,
            self.hub_metal.modulus,
            self.hub_metal.poisson,
            shaft_modulus=self.shaft_metal.modulus,
            shaft_poisson=self.shaft_metal.poisson,
            shaft_bore=self.shaft_bore,
        )
        return max(interference, 0.0) / gives


@calculation
def press_fit(
    seat: Fit,
    length: float,
    hub: float,
    shaft_bore: float = 0.0,
    hub_material: str = "",
    shaft_material: str = "",
    friction_low: float = 0.12,
    friction_high: float = 0.20,
    hub_roughness: float = 0.0,
    shaft_roughness: float = 0.0,
    hub_modulus: float | None = None,
    hub_poisson: float | None = None,
    hub_yield: float | None = None,
    shaft_modulus: float | None = None,
    shaft_poisson: float | None = None,
    shaft_yield: float | None = None,
) -> PressFit:
    """Pressure, stress, pressing force and grip of a press fit, at its tightest and at its loosest.

    The tightest pair sets the press and the stress; the loosest pair sets what the joint is sure to hold.

    Equation:
        C_h = (D ** 2 + d ** 2) / (D ** 2 - d ** 2) + nu_h
        C_s = (d ** 2 + d_b ** 2) / (d ** 2 - d_b ** 2) - nu_s
        p = U / (d * (C_h / E_h + C_s / E_s))
        F = mu * p * pi * d * L
        M = F * d / 2
        u = 0.8 * (Rz_h + Rz_s)

    Table:
        materials

    Parameters:
        seat: [Fit] the fit, by name, by its limits, by interference or as measured
        length: L [mm] (L > 0) length of the seat
        hub: D [mm] (D > 0) outside diameter of the hub
        shaft_bore: d_b [mm] (d_b >= 0) bore of the shaft (a bush); nothing when it is solid
        hub_material: [text] material of the hub
        shaft_material: [text] material of the shaft; the hub's where it is not said
        friction_low: mu_1 [1] (0 < mu_1 <= 1) least friction to count on: 0.12 dry, 0.05 oiled
        friction_high: mu_2 [1] (0 < mu_2 <= 1) greatest friction to allow for: 0.20 dry, 0.12 oiled
        hub_roughness: Rz_h [um] (Rz_h >= 0) peak-to-valley roughness of the bore
        shaft_roughness: Rz_s [um] (Rz_s >= 0) peak-to-valley roughness of the shaft
        hub_modulus: E_h [MPa] (E_h > 0) modulus of the hub, over the table
        hub_poisson: nu_h [1] (0 <= nu_h <= 0.5) Poisson's ratio of the hub, over the table
        hub_yield: Y_h [MPa] (Y_h > 0) yield of the hub, over the table
        shaft_modulus: E_s [MPa] (E_s > 0) modulus of the shaft, over the table
        shaft_poisson: nu_s [1] (0 <= nu_s <= 0.5) Poisson's ratio of the shaft, over the table
        shaft_yield: Y_s [MPa] (Y_s > 0) yield of the shaft, over the table

    Returns:
        diameter: d [mm] length diameter where they meet
        interference_max: U_max [mm] clearance greatest interference, nothing lost to roughness
        interference_min: U_min [mm] clearance least interference, the loss to roughness taken off
        roughness_loss: u [mm] clearance peaks flattened as it goes on
        pressure_max: p_max [MPa] pressure pressure at the greatest interference
        pressure_min: p_min [MPa] pressure pressure at the least interference
        hub_hoop_max: s_h [MPa] stress greatest pull round the hub, at its bore
        hub_hoop_min: s_h1 [MPa] stress the same at the least interference
        hub_stress_max: s_hv [MPa] stress greatest stress in the hub by von Mises, to compare with the yield
        hub_margin: n_h [1] ratio lowest yield of the hub over its stress; nothing where the yield is not known
        shaft_hoop_max: s_s [MPa] stress greatest push round the shaft (below nothing), at its bore if it has one
        shaft_stress_max: s_sv [MPa] stress greatest stress in the shaft by von Mises
        shaft_margin: n_s [1] ratio lowest yield of the shaft over its stress; nothing where it is not known
        force_max: F_max [N] force greatest force to press it home: tightest pair, high friction
        force_min: F_min [N] force force along the shaft it is sure to hold: loosest pair, low friction
        torque_max: M_max [N*m] torque greatest torque it may carry
        torque_min: M_min [N*m] torque torque it is sure to carry
        hub_grows: w_o [mm] clearance outside of the hub grows by as much as this
        bore_closes: w_i [mm] clearance bore of the shaft (bush) closes by as much as this
        note: [text] text what lies outside the equation's range

    Raises:
        OutOfRange: the fit is a clearance fit, the hub is not larger than the shaft, or a metal is not given.
        NotInTable: the table has no such material.

    Validity:
        Elastic, ends free, hub of one outside diameter, not shorter than half the shaft diameter, no speed. Friction
        is a range. The roughness loss is 0.8 (Rz + Rz) for a pressed joint, from memory. Above the yield the
        pressure is less than said. Pressing stores energy: guard the press, and stand clear of the line of it.

    Example:
        >>> from methodsheets.trade.fits.fits import fit_by_interference
        >>> disc = press_fit(fit_by_interference(20, 0.02, 0.02), length=20, hub=40, friction_low=0.12,
        ...     friction_high=0.12, hub_modulus=97000, hub_poisson=0.34, shaft_modulus=206000, shaft_poisson=0.29)
        >>> round(disc.pressure_max, 2), round(disc.hub_hoop_max, 2), round(disc.force_max), round(disc.torque_min, 1)
        (41.44, 69.06, 6248, 62.5)
        >>> round(press_fit(fit_by_interference(20, 0.02, 0.02), length=20, hub=40, hub_material="EN8").pressure_max, 1)
        77.2

    Source:
        Lame; a published article on shaft and hub joints (page read). The example is worked out here and agrees with
        finite elements. Friction and roughness loss: from memory of DIN 7190.

    Trust: estimate: pressure and stress 3 %, force and torque by the whole range of friction
    """
    hub_said = Said("hub", hub_material, hub_modulus, hub_poisson, hub_yield)
    shaft_said = Said("shaft", shaft_material, shaft_modulus, shaft_poisson, shaft_yield)
    joint = joint_of(seat, length, hub, shaft_bore, hub_said, shaft_said)
    loss = 0.8 * (hub_roughness + shaft_roughness) / 1000
    return worked_joint(seat, joint, (friction_low, friction_high), loss, pressed=True)


@calculation
def press_friction(condition: str) -> Friction:
    """Friction to count on between the two parts of a press fit.

    Table: press_friction

    Parameters:
        condition: [text] dry or oiled

    Returns:
        low: mu_1 [1] ratio least friction: for what it holds
        high: mu_2 [1] ratio greatest friction: for the press

    Raises:
        NotInTable: the table has no such condition.

    Validity:
        Turned or ground steel and the like. No friction table with a known origin was found.

    Example:
        >>> press_friction("oiled").low
        0.05

    Source:
        From memory of handbooks; two published pages lie inside these ranges.

    Trust: common practice
    """
    rows = read_table("press_friction").rows
    for row in rows:
        if condition.strip().lower() in {row["condition"], *row["also"].split("|")}:
            return Friction(float(take(row)["low"]), float(row["high"]))
    raise NotInTable(condition, "condition of a press fit", tuple(row["condition"] for row in rows))


@calculation
def eccentric_hub(outside: float, offset: float) -> EccentricHub:
    """Round hubs that stand for a disc bored off centre.

    Work the press fit out with both: the true pressure lies between.

    Equation:
        D_1 = D - 2 * a
        D_2 = D + 2 * a

    Parameters:
        outside: D [mm] (D > 0) outside diameter of the disc
        offset: a [mm] (a >= 0) distance of the bore from the middle of the disc

    Returns:
        least: D_1 [mm] length largest round hub about the bore that lies inside the disc
        greatest: D_2 [mm] length smallest round hub about the bore that holds the disc

    Raises:
        OutOfRange: the bore's middle lies outside the disc.

    Validity:
        Metal added to a hub can only stiffen it, so the pressure lies between the two. The stress at the thin side
        is not bounded so: keep the thin wall at least as thick as the least hub says.

    Example:
        >>> disc = eccentric_hub(38, 6)
        >>> disc.least, disc.greatest
        (26, 50)

    Source:
        Geometry, worked out here: a bore 6 mm off the middle of a 38 mm disc is 13 mm from the near edge, 25 mm
        from the far one.

    Trust: exact
    """
    if offset >= outside / 2:
        raise OutOfRange("offset", offset, "mm", "less than half the outside diameter")
    return EccentricHub(outside - 2 * offset, outside + 2 * offset)


def joint_of(seat: Fit, length: float, hub: float, shaft_bore: float, hub_said: Said, shaft_said: Said) -> Joint:
    """Put the sizes and the metals of a joint together; the shaft is of the hub's metal where nothing is said."""
    if seat.interference_max > MOST_INTERFERENCE * seat.nominal:
        most = MOST_INTERFERENCE * seat.nominal
        raise OutOfRange("seat", seat.interference_max, "mm", f"at most {most:.3g} mm larger: no metal bears more")
    if seat.interference_max <= 0:
        raise OutOfRange(
            "seat", seat.name or seat.kind, "", "a fit with some interference; this one always has clearance"
        )
    hub_metal = metal_of(hub_said)
    return Joint(seat.nominal, length, hub, shaft_bore, hub_metal, metal_of(shaft_said, hub_metal))


def worked_joint(seat: Fit, joint: Joint, friction: tuple[float, float], loss: float, pressed: bool) -> PressFit:
    """Work a joint out at both ends of its interference."""
    low, high = min(friction), max(friction)
    d, length = joint.diameter, joint.length
    most, least = joint.pressure(seat.interference_max), joint.pressure(seat.interference_min - loss)
    hoop_factor = (joint.hub**2 + d**2) / (joint.hub**2 - d**2)
    hub_hoop = most * hoop_factor
    hub_stress = math.sqrt(hub_hoop**2 + hub_hoop * most + most**2)
    shaft_hoop = -2 * most * d**2 / (d**2 - joint.shaft_bore**2) if joint.shaft_bore else -most
    seat_area = math.pi * d * length
    return PressFit(
        diameter=d,
        interference_max=seat.interference_max,
        interference_min=round(seat.interference_min - loss, 9),
        roughness_loss=loss,
        pressure_max=most,
        pressure_min=least,
        hub_hoop_max=hub_hoop,
        hub_hoop_min=least * hoop_factor,
        hub_stress_max=hub_stress,
        hub_margin=_margin(joint.hub_metal, hub_stress),
        shaft_hoop_max=shaft_hoop,
        shaft_stress_max=-shaft_hoop,
        shaft_margin=_margin(joint.shaft_metal, -shaft_hoop),
        force_max=high * most * seat_area,
        force_min=low * least * seat_area,
        torque_max=joint_torque(most, d, length, high),
        torque_min=joint_torque(least, d, length, low),
        hub_grows=_hub_grows(joint, most),
        bore_closes=-shaft_hoop * joint.shaft_bore / joint.shaft_metal.modulus,
        note=_note(joint, least, hub_stress, -shaft_hoop, pressed and loss == 0),
    )


def _margin(metal: Metal, stress: float) -> float | None:
    return metal.yield_strength / stress if metal.yield_strength and stress else None


def _hub_grows(joint: Joint, pressure: float) -> float:
    """Return how much the outside diameter of the hub grows: hoop stress outside, over the modulus."""
    d, hub = joint.diameter, joint.hub
    return 2 * pressure * d**2 / (hub**2 - d**2) * hub / joint.hub_metal.modulus


def _note(joint: Joint, least: float, hub_stress: float, shaft_stress: float, roughness_left: bool) -> str:
    """Say what the numbers do not."""
    said: list[str] = []
    if least == 0:
        said.append("the loosest pair has no interference left and holds nothing")
    if joint.length < joint.diameter / 2:
        said.append("the hub is shorter than half the shaft diameter: outside the equation's range")
    for part, metal, stress in (("hub", joint.hub_metal, hub_stress), ("shaft", joint.shaft_metal, shaft_stress)):
        if metal.yield_strength and stress > metal.yield_strength:
            said.append(f"the tightest pair takes the {part} past its yield: the pressure is then less than said")
    brittle = joint.hub_metal.brittle_at
    if brittle and hub_stress > brittle / BRITTLE_MARGIN:
        said.append(
            "the hub is of grey iron, which cracks without warning: keep its pull below"
            f" {brittle / BRITTLE_MARGIN:.0f} MPa, a third of its strength, by a lighter fit"
        )
    if roughness_left:
        said.append("nothing is taken off for roughness: give hub_roughness and shaft_roughness")
    return "; ".join(said)
