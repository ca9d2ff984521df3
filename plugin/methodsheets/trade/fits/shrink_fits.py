"""How hot, or how cold, must a part be to go on by hand, and what does the joint hold afterwards?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .fits import Fit
from .joint_parts import Said
from .press_fits import PressFit, joint_of, worked_joint

ABSOLUTE_ZERO = -273.15
DRY_ICE = -78.5
LIQUID_NITROGEN = -195.8


@dataclass(frozen=True)
class ShrinkFit:
    """A shrink fit: the temperatures that let it go together, and the joint it makes."""

    clearance: float
    hub_temperature: float
    shaft_temperature: float | None
    grip: PressFit
    note: str


@calculation
def heating_temperature(
    interference: float, diameter: float, expansion: float, clearance: float, ambient: float = 20.0
) -> float:
    """Temperature to which a hub is heated so that it slips over its shaft.

    Equation:
        T = T_0 + (U + S) / (alpha * d)

    Parameters:
        interference: U [mm] (U >= 0) greatest interference on the diameter
        diameter: d [mm] (d > 0) diameter where they meet
        expansion: alpha [1/K] (alpha > 0) expansion of the hub
        clearance: S [mm] (S >= 0) clearance wanted while it is hot; about a thousandth of the diameter
        ambient: T_0 [degC] temperature of the shaft and the shop

    Returns:
        T [degC] temperature temperature of the hub as it goes on

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Even heat. The expansion rises a little with temperature, which is on the sure side. Allow for heat lost on the
        way. Look up what the metal bears: hardened steel softens, brass and aluminium anneal, tin and lead melt.

    Heed:
        T > 300: past 300 degC hardened steel has softened, and brass and aluminium anneal

    Example:
        >>> round(heating_temperature(0.02, 20, 20.9e-6, clearance=0.02), 1)
        115.7

    Source:
        Worked out here; the clearance of a thousandth of the diameter is from memory of DIN 7190 practice.

    Trust: estimate
    """
    return ambient + (interference + clearance) / (expansion * diameter)


@calculation
def cooling_temperature(
    interference: float, diameter: float, expansion: float, clearance: float, ambient: float = 20.0
) -> float:
    """Temperature to which a shaft is cooled so that it slips into its hub.

    Equation:
        T = T_0 - (U + S) / (alpha * d)

    Parameters:
        interference: U [mm] (U >= 0) greatest interference on the diameter
        diameter: d [mm] (d > 0) diameter where they meet
        expansion: alpha [1/K] (alpha > 0) expansion of the shaft
        clearance: S [mm] (S >= 0) clearance wanted while it is cold
        ambient: T_0 [degC] temperature of the hub and the shop

    Returns:
        T [degC] temperature temperature of the shaft as it goes in

    Raises:
        OutOfRange: it would have to be colder than absolute zero.

    Validity:
        Metals shrink less per degree the colder they are: well below -50 degC this promises too much. Dry ice is at
        -78 degC, liquid nitrogen at -196 degC; both burn and drive out the air.

    Heed:
        T < -50: metals shrink less per degree the colder they are: this promises too much
        T < -196: colder than liquid nitrogen: heat the hub instead

    Example:
        >>> round(cooling_temperature(0.01, 20, 11.7e-6, clearance=0.005), 1)
        -44.1

    Source:
        Worked out here, the heating of a hub turned round.

    Trust: estimate
    """
    temperature = ambient - (interference + clearance) / (expansion * diameter)
    if temperature < ABSOLUTE_ZERO:
        raise OutOfRange("interference", interference, "mm", "little enough to be met by cooling; heat the hub instead")
    return temperature


@calculation
def shrink_fit(
    seat: Fit,
    length: float,
    hub: float,
    shaft_bore: float = 0.0,
    hub_material: str = "",
    shaft_material: str = "",
    clearance: float | None = None,
    ambient: float = 20.0,
    friction_low: float = 0.12,
    friction_high: float = 0.20,
    hub_modulus: float | None = None,
    hub_poisson: float | None = None,
    hub_yield: float | None = None,
    hub_expansion: float | None = None,
    shaft_modulus: float | None = None,
    shaft_poisson: float | None = None,
    shaft_yield: float | None = None,
    shaft_expansion: float | None = None,
) -> ShrinkFit:
    """Temperatures for a shrink fit, and the joint it makes.

    Equation:
        S = d / 1000
        T_h = T_0 + (U + S) / (alpha_h * d)
        T_s = T_0 - (U + S) / (alpha_s * d)

    Table:
        materials

    Parameters:
        seat: [Fit] the fit, by name, by its limits, by interference or as measured
        length: L [mm] (L > 0) length of the seat
        hub: D [mm] (D > 0) outside diameter of the hub
        shaft_bore: d_b [mm] (d_b >= 0) bore of the shaft; nothing when it is solid
        hub_material: [text] material of the hub
        shaft_material: [text] material of the shaft; the hub's where it is not said
        clearance: c [mm] (c >= 0) clearance wanted as it goes on; a thousandth of the diameter where it is not said
        ambient: T_0 [degC] temperature of the shop
        friction_low: mu_1 [1] (0 < mu_1 <= 1) least friction to count on
        friction_high: mu_2 [1] (0 < mu_2 <= 1) greatest friction to allow for
        hub_modulus: E_h [MPa] (E_h > 0) modulus of the hub, over the table
        hub_poisson: nu_h [1] (0 <= nu_h <= 0.5) Poisson's ratio of the hub, over the table
        hub_yield: Y_h [MPa] (Y_h > 0) yield of the hub, over the table
        hub_expansion: alpha_h [1/K] (alpha_h > 0) expansion of the hub, over the table
        shaft_modulus: E_s [MPa] (E_s > 0) modulus of the shaft, over the table
        shaft_poisson: nu_s [1] (0 <= nu_s <= 0.5) Poisson's ratio of the shaft, over the table
        shaft_yield: Y_s [MPa] (Y_s > 0) yield of the shaft, over the table
        shaft_expansion: alpha_s [1/K] (alpha_s > 0) expansion of the shaft, over the table

    Returns:
        clearance: S [mm] clearance clearance while it goes on
        hub_temperature: T_h [degC] temperature heat the hub alone to this
        shaft_temperature: T_s [degC] temperature or cool the shaft alone to this; nothing where no cold is enough
        grip: [PressFit] result the joint once both are at one temperature
        note: [text] text what to look out for

    Raises:
        OutOfRange: the fit is a clearance fit, the hub is not larger than the shaft, or a metal is not given.
        NotInTable: the table has no such material.

    Validity:
        Both temperatures are for the tightest pair. Nothing is lost to roughness, as nothing slides. A joint of two
        metals loses or gains grip as it warms in use. Hot metal burns; wear dry leather gloves and eye protection.

    Example:
        >>> from methodsheets.trade.fits.fits import fit_by_interference
        >>> ring = shrink_fit(fit_by_interference(20, 0.01, 0.02), 20, 40, hub_modulus=206000, hub_poisson=0.29,
        ...     hub_expansion=11.7e-6)
        >>> round(ring.hub_temperature, 1), ring.clearance, ring.shaft_temperature is None
        (190.9, 0.02, False)
        >>> round(shrink_fit(fit_by_interference(20, 0.01, 0.02), 20, 40, hub_material="EN8").hub_temperature, 1)
        188.1

    Source:
        Worked out here; clearance from memory of DIN 7190 practice; Lame for the grip.

    Trust: estimate

    Checked: expansion and the pressed joint, each checked by itself; one case is added for the whole.
    """
    hub_said = Said("hub", hub_material, hub_modulus, hub_poisson, hub_yield, hub_expansion)
    shaft_said = Said("shaft", shaft_material, shaft_modulus, shaft_poisson, shaft_yield, shaft_expansion)
    joint = joint_of(seat, length, hub, shaft_bore, hub_said, shaft_said)
    wanted = seat.nominal / 1000 if clearance is None else clearance
    strain = (seat.interference_max + wanted) / seat.nominal
    hot = ambient + strain / _known(joint.hub_metal.expansion, "hub")
    cold = ambient - strain / _known(joint.shaft_metal.expansion, "shaft")
    grip = worked_joint(seat, joint, (friction_low, friction_high), 0.0, pressed=False)
    return ShrinkFit(
        clearance=wanted,
        hub_temperature=hot,
        shaft_temperature=cold if cold >= ABSOLUTE_ZERO else None,
        grip=grip,
        note="; ".join(filter(None, (_heat_note(hot), _cold_note(cold), grip.note))),
    )


@calculation
def held_expansion_stress(expansion: float, temperature_change: float, modulus: float) -> float:
    """Stress in a thin ring or a bar that is held so that it cannot shrink or grow.

    Equation:
        s = alpha * T * E

    Parameters:
        expansion: alpha [1/K] (alpha > 0) expansion of the metal
        temperature_change: T [delta_degC] (T >= 0) how far it cools or warms
        modulus: E [MPa] (E > 0) modulus of elasticity

    Returns:
        s [MPa] stress stress it is left with

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Elastic, what holds it does not give. The greatest stress a shrunk thin ring can have.

    Example:
        >>> round(held_expansion_stress(1.2e-5, 150, 200000), 3)
        360.0

    Source:
        A published textbook of mechanics of solids, chapter 1.

    Trust: exact
    """
    return expansion * temperature_change * modulus


def _known(expansion: float | None, part: str) -> float:
    if expansion is None:
        raise OutOfRange(f"{part}_expansion", "", "text", f"a {part}_material, or {part}_expansion")
    return expansion


def _heat_note(hot: float) -> str:
    if hot > 450:
        return f"{hot:.0f} degC is past every temper colour: take less interference, or cool the shaft as well"
    if hot > 200:
        return f"{hot:.0f} degC draws the temper of hardened steel and softens brass and aluminium"
    return ""


def _cold_note(cold: float) -> str:
    if cold < LIQUID_NITROGEN:
        return "cooling the shaft is not enough by itself"
    if cold < DRY_ICE:
        return "cooling the shaft takes more than dry ice"
    return ""
