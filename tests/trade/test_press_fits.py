"""Do press and shrink fits hold together: bounds, warnings, refusals?"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.trade.fits.fits import fit, fit_by_interference
from methodsheets.trade.fits.lame import interface_pressure, thick_ring_stress
from methodsheets.trade.fits.press_fits import eccentric_hub, press_fit
from methodsheets.trade.fits.shrink_fits import cooling_temperature, shrink_fit
from methodsheets.trade.form.calculation import NotInTable, OutOfRange

STEEL = (206000.0, 0.29)


def test_the_two_piece_spindle_of_the_guide() -> None:
    seat = fit(16, "H7/s6")
    press = press_fit(seat, length=12, hub=34, hub_material="EN1A")
    assert press.interference_max == 0.039
    assert press.interference_min == 0.010
    # Same metal, solid shaft: p = E U (1 - (d/D)^2) / (2 d).
    factor = press.pressure_max / (0.039 * (1 - (16 / 34) ** 2) / 32)
    assert 195_000 < factor < 215_000
    assert press.force_max == pytest.approx(0.20 * press.pressure_max * math.pi * 16 * 12)
    assert press.torque_min == pytest.approx(0.12 * press.pressure_min * math.pi * 16 * 12 * 8 / 1000)
    assert "past its yield" in press.note
    assert press.hub_margin is not None
    assert press.hub_margin < 1


def test_a_transition_fit_may_hold_nothing() -> None:
    press = press_fit(fit(16, "H7/n6"), 12, 34, hub_material="EN1A")
    assert press.pressure_min == press.force_min == press.torque_min == 0
    assert press.pressure_max > 0
    assert "holds nothing" in press.note


def test_refusals() -> None:
    seat = fit(16, "H7/s6")
    with pytest.raises(OutOfRange, match="clearance"):
        press_fit(fit(16, "H7/g6"), 12, 34, hub_material="EN1A")
    with pytest.raises(OutOfRange, match="hub is 16"):
        press_fit(seat, 12, 16, hub_material="EN1A")
    with pytest.raises(OutOfRange, match="shaft_bore"):
        press_fit(seat, 12, 34, 16, hub_material="EN1A")
    with pytest.raises(OutOfRange, match="hub_material"):
        press_fit(seat, 12, 34)
    with pytest.raises(NotInTable):
        press_fit(seat, 12, 34, hub_material="unobtainium")
    with pytest.raises(OutOfRange, match="expansion"):
        shrink_fit(seat, 12, 34, hub_modulus=206000, hub_poisson=0.3)


def test_what_the_caller_says_goes_over_the_table() -> None:
    seat = fit(16, "H7/s6")
    table = press_fit(seat, 12, 34, hub_material="EN1A")
    soft = press_fit(seat, 12, 34, hub_material="EN1A", hub_modulus=100_000)
    assert soft.pressure_max < table.pressure_max
    strong = press_fit(seat, 12, 34, hub_material="EN1A", hub_yield=900)
    assert strong.hub_margin == pytest.approx(900 / strong.hub_stress_max)
    other = press_fit(seat, 12, 34, hub_material="EN1A", shaft_material="CZ121")
    assert other.pressure_max < table.pressure_max
    assert press_fit(seat, 12, 34, hub_modulus=206000, hub_poisson=0.29).hub_margin is None


@given(
    st.floats(5, 100), st.floats(1.1, 5), st.floats(0, 0.9), st.floats(0.001, 0.05),
    st.floats(50_000, 220_000), st.floats(0.2, 0.4),
)  # fmt: skip
def test_interference_is_shared_by_hub_and_shaft(
    d: float, ratio: float, bore_ratio: float, u: float, modulus: float, poisson: float
) -> None:
    """The hub's bore grows and the shaft closes by just the interference: strains from the stresses, by Hooke."""
    hub, bore = d * ratio, d * bore_ratio if bore_ratio > 0.01 else 0.0
    p = interface_pressure(u, d, hub, modulus, poisson, *STEEL, bore)
    in_hub = thick_ring_stress(d, hub, d, inner_pressure=p)
    in_shaft = thick_ring_stress(bore, d, d, outer_pressure=p)
    grows = d / modulus * (in_hub.hoop - poisson * in_hub.radial)
    closes = -d / STEEL[0] * (in_shaft.hoop - STEEL[1] * in_shaft.radial)
    assert grows + closes == pytest.approx(u)
    assert in_hub.radial == pytest.approx(-p)
    assert in_shaft.radial == pytest.approx(-p)


def test_bush_closes_and_hub_grows_by_hooke() -> None:
    press = press_fit(fit_by_interference(12, 0.018, 0.018), 15, 30, 8, hub_modulus=206000, hub_poisson=0.29)
    p = press.pressure_max
    assert press.hub_grows == pytest.approx(30 / 206000 * thick_ring_stress(12, 30, 30, inner_pressure=p).hoop)
    assert press.bore_closes == pytest.approx(-8 / 206000 * thick_ring_stress(8, 12, 8, outer_pressure=p).hoop)
    assert press.shaft_hoop_max == pytest.approx(thick_ring_stress(8, 12, 8, outer_pressure=p).hoop)


def test_shrink_fit_leaves_the_clearance_it_promises() -> None:
    joint = shrink_fit(fit(25, "H7/s6"), 20, 50, hub_material="EN1A")
    alpha = 11.8e-6
    grown = 25 * alpha * (joint.hub_temperature - 20)
    assert grown == pytest.approx(joint.grip.interference_max + joint.clearance, rel=0.05)
    assert joint.clearance == 0.025
    assert joint.shaft_temperature is not None
    assert joint.shaft_temperature < 20


def test_cold_that_does_not_exist_is_refused() -> None:
    with pytest.raises(OutOfRange, match="heat the hub"):
        cooling_temperature(0.05, 10, 11.7e-6, 0.01)
    tight = shrink_fit(fit(10, "H7/u6"), 8, 30, hub_material="EN1A")
    assert tight.shaft_temperature is None


def test_a_disc_bored_off_centre_lies_between_two_hubs() -> None:
    hubs = eccentric_hub(38, 6)
    seat = fit(16, "H7/s6")
    thin, thick = (press_fit(seat, 12, hub, hub_material="EN1A") for hub in (hubs.least, hubs.greatest))
    assert thin.pressure_max < thick.pressure_max
    assert thin.hub_stress_max > 0.9 * thick.hub_stress_max
    with pytest.raises(OutOfRange):
        eccentric_hub(38, 19)


def test_a_short_hub_is_marked() -> None:
    press = press_fit(fit(25, "H7/p6"), 10, 50, hub_material="EN1A")
    assert "outside the equation's range" in press.note
