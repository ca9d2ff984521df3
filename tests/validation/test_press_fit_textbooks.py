"""Do press and shrink fits agree with published textbooks and hints?"""

from __future__ import annotations

import pytest

from methodsheets.trade.fits.fits import fit_by_allowance, fit_by_interference, fit_from_limits
from methodsheets.trade.fits.lame import (
    interface_pressure,
    interference_for_pressure,
    joint_torque,
    pressure_for_force,
    thick_ring_stress,
)
from methodsheets.trade.fits.press_fits import press_fit, press_friction
from methodsheets.trade.fits.shrink_fits import heating_temperature, held_expansion_stress

from .cases import case

LAME = "Press fits (Lame)"


def test_a_thick_ring_under_pressure() -> None:
    entry = case("fits", "lame-200-300")
    inside, outside, pressure = 2 * entry.inputs["ri_mm"], 2 * entry.inputs["ro_mm"], entry.inputs["p_MPa"]
    entry.check(LAME, "hoop_bore", thick_ring_stress(inside, outside, inside, pressure).hoop)
    entry.check(LAME, "hoop_outer", thick_ring_stress(inside, outside, outside, pressure).hoop)


def test_a_very_thick_ring_under_pressure() -> None:
    entry = case("fits", "thick-10-50")
    for key, diameter in (("r10", 20), ("r25", 50), ("r50", 100)):
        found = thick_ring_stress(20, 100, diameter, entry.inputs["p"])
        entry.check(LAME, key, found.radial, entry.expected[key][0])
        entry.check(LAME, key, found.hoop, entry.expected[key][1])


def test_a_thin_wall_value_is_not_printed_for_a_thick_wall() -> None:
    """A worked copy of a strength textbook (chapter 8, cell 22) prints 28.0 where 36.4 is right."""
    # Whatever the sizes, the hoop stress at the bore exceeds the pressure by the stress outside.
    ring = thick_ring_stress(100, 200, 100, 10)
    assert ring.hoop - thick_ring_stress(100, 200, 200, 10).hoop == pytest.approx(10)


def test_shrunk_rings_in_inches_and_tons() -> None:
    entry = case("fits", "shrink-in-3-6-9")
    bore, joint, outside = (2 * radius for radius in entry.inputs["r_in"])
    modulus = entry.inputs["E_ton_in2"]
    pressure = interface_pressure(
        entry.inputs["diametral_interference_in"], joint, outside, modulus, 0.3, modulus, 0.3, bore
    )
    entry.check(LAME, "outer_junction_hoop", thick_ring_stress(joint, outside, joint, pressure).hoop)
    entry.check(LAME, "outer_outer_hoop", thick_ring_stress(joint, outside, outside, pressure).hoop)
    entry.check(LAME, "inner_bore_hoop", thick_ring_stress(bore, joint, bore, 0, pressure).hoop)
    entry.check(LAME, "inner_junction_hoop", thick_ring_stress(bore, joint, joint, 0, pressure).hoop)


def test_shrunk_rings_of_an_elasticity_textbook() -> None:
    entry = case("fits", "shrink-150-200-250")
    modulus = entry.inputs["E"]
    seat = fit_by_interference(400, 0.2, 0.2)
    found = press_fit(seat, 100, 500, 300, hub_modulus=modulus, hub_poisson=0.3)
    entry.check(LAME, "p_MPa", found.pressure_max)
    # A worked copy prints 0.31 MPa and calls the textbook wrong.
    assert found.pressure_max > 12
    entry.check(LAME, "outer_junction_hoop", found.hub_hoop_max)
    entry.check(LAME, "inner_bore_hoop", found.shaft_hoop_max)
    entry.check(LAME, "outer_outer_hoop", thick_ring_stress(400, 500, 500, found.pressure_max).hoop)
    entry.check(LAME, "inner_junction_hoop", thick_ring_stress(300, 400, 400, 0, found.pressure_max).hoop)


def test_pressure_for_a_torque() -> None:
    entry = case("fits", "torque-hint-1")
    diameter, length = 2 * entry.inputs["interface_r_mm"], entry.expected["length_mm"]
    force, friction = entry.inputs["circumferential_force_N"], entry.expected["mu"]
    pressure = pressure_for_force(force, diameter, length, friction)
    entry.check(LAME, "p_MPa", pressure)
    assert joint_torque(pressure, diameter, length, friction) == pytest.approx(90e3, rel=1e-3)


@pytest.mark.parametrize("name", ["press-steel20-brass40", "press-steel25-steel50"])
def test_hub_on_a_solid_shaft(name: str) -> None:
    entry = case("fits", name)
    given = entry.inputs
    u = given["diametral_interference_mm"]
    found = press_fit(
        fit_by_interference(given["shaft_d_mm"], u, u),
        given["hub_length_mm"],
        given["hub_od_mm"],
        friction_low=given["mu"],
        friction_high=given["mu"],
        hub_modulus=given["E_hub"],
        hub_poisson=given["nu_hub"],
        shaft_modulus=given["E_shaft"],
        shaft_poisson=given["nu_shaft"],
    )
    entry.check(LAME, "p_MPa", found.pressure_max)
    entry.check(LAME, "hub_bore_hoop_MPa", found.hub_hoop_max)
    entry.check(LAME, "shaft_hoop_MPa", found.shaft_hoop_max)
    entry.check(LAME, "axial_force_N", found.force_min)
    entry.check(LAME, "torque_Nm", found.torque_max)


def test_plane_stress_not_plane_strain() -> None:
    """Plane strain appears in public answers; it is wrong for ordinary hubs."""
    entry = case("fits", "press-plane-strain-trap")
    given = entry.inputs
    e, nu = given["E"], given["nu"]
    u, d, hub = given["diametral_interference_mm"], given["shaft_d_mm"], given["hub_od_mm"]
    entry.check(LAME, "p_plane_stress_MPa", interface_pressure(u, d, hub, e, nu, e, nu))
    strained = interface_pressure(u, d, hub, e / (1 - nu**2), nu / (1 - nu), e / (1 - nu**2), nu / (1 - nu))
    entry.check(LAME, "p_plane_strain_MPa", strained)


def test_friction_is_a_range() -> None:
    """From memory of handbooks; published pages lie inside."""
    entry = case("fits", "press-friction")
    for condition, key in (("dry", "mu_dry"), ("oiled", "mu_oiled")):
        found = press_friction(condition)
        entry.check("Press fits (friction)", key, found.low, entry.expected[key][0])
        entry.check("Press fits (friction)", key, found.high, entry.expected[key][1])


def test_roughness_loss() -> None:
    """From memory of DIN 7190."""
    entry = case("fits", "press-smoothing")
    one, other = entry.inputs["Rz_um"]
    steel = {"hub_modulus": 206000.0, "hub_poisson": 0.29}
    found = press_fit(fit_by_interference(20, 0.02, 0.04), 20, 40, hub_roughness=one, shaft_roughness=other, **steel)
    entry.check("Press fits (roughness)", "loss_um", found.roughness_loss * 1000)
    assert found.interference_min == pytest.approx(0.02 - 0.01008)
    assert found.interference_max == 0.04


def test_stress_of_a_ring_that_cannot_shrink() -> None:
    entry = case("fits", "shrink-ring-thin")
    given = entry.inputs
    entry.check("Shrink fits", "stress_MPa", held_expansion_stress(given["alpha"], given["delta_T"], given["E"]))


def test_heating() -> None:
    entry = case("fits", "shrink-heat-own")
    given = entry.inputs
    sizes = given["interference_mm"], given["bore_d_mm"]
    hot = heating_temperature(*sizes, given["alpha_brass"], given["clearance_mm"], given["ambient_C"])
    entry.check("Shrink fits", "brass_hub_T_C", hot)
    hot = heating_temperature(*sizes, given["alpha_steel"], given["clearance_mm"], given["ambient_C"])
    entry.check("Shrink fits", "steel_hub_T_C", hot)


def test_interference_is_pressure_turned_round() -> None:
    steel, brass = (206000.0, 0.29), (97000.0, 0.34)
    pressure = interface_pressure(0.013, 12, 30, *brass, *steel, 5)
    assert interference_for_pressure(pressure, 12, 30, *brass, *steel, 5) == pytest.approx(0.013)


def test_fit_of_given_limits() -> None:
    """A published textbook of production engineering, examples 9.5 and 9.2."""
    entry = case("fits", "fit-9.5")
    basic, shaft, hole = entry.inputs["basic"], entry.inputs["shaft_mm"], entry.inputs["hole_mm"]
    found = fit_from_limits(basic + hole[1], basic + hole[0], basic + shaft[1], basic + shaft[0])
    entry.check("Fits by limits", "max_clearance_mm", found.clearance_max)
    entry.check("Fits by limits", "min_clearance_mm", found.clearance_min)
    entry.check("Fits by limits", "hole_tol", found.hole.tolerance)
    entry.check("Fits by limits", "shaft_tol", found.shaft.tolerance)
    entry = case("fits", "fit-9.2")
    given = entry.inputs
    found = fit_by_allowance(given["basic"], given["tolerance"], given["tolerance"], given["allowance"])
    for limits, key in ((found.hole, "hole"), (found.shaft, "shaft")):
        entry.check("Fits by limits", key, limits.lower, entry.expected[key][0])
        entry.check("Fits by limits", key, limits.upper, entry.expected[key][1])
