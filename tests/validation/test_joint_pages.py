"""Do pins, welds, brazing gaps, retained joints and screws agree with textbooks and suppliers' pages?"""

from __future__ import annotations

import math

import pytest

from methodsheets.trade.joining.brazing import bonded_joint, braze_lap, brazed_socket, joint_gap
from methodsheets.trade.joining.joining import (
    bearing_stress,
    cross_pin_shear,
    fillet_weld_length,
    pin_diameter,
    pin_shear,
)
from methodsheets.trade.threads.screws import cap_screw, clearance_hole, stress_area, tightening_torque

from .cases import INCH, case
from .record import record

SUBJECT = "Joints"
KIP = 4448.2216
KSI = 6.894757


def test_pin_in_double_shear() -> None:
    entry = case("fits", "pin-double")
    force, diameter = entry.inputs["P_kip"] * KIP, entry.inputs["d_in"] * INCH
    strut, gusset = (thickness * INCH for thickness in entry.inputs["t_in"])
    entry.check(SUBJECT, "tau_ksi", pin_shear(force, diameter, 2) / KSI)
    entry.check(SUBJECT, "bearing_strut_ksi", bearing_stress(force, diameter, 2 * strut) / KSI)
    entry.check(SUBJECT, "bearing_gusset_ksi", bearing_stress(force, diameter, 2 * gusset) / KSI)
    assert pin_diameter(force, pin_shear(force, diameter, 2), 2) == pytest.approx(diameter)
    assert pin_shear(force, diameter, 1) == pytest.approx(2 * pin_shear(force, diameter, 2))


def test_cross_pin_is_a_pin_in_double_shear() -> None:
    assert cross_pin_shear(5, 10, 3) == pytest.approx(pin_shear(5000 / 5, 3, 2))


def test_fillet_welds() -> None:
    entry = case("fits", "weld-shear")
    given = entry.inputs["P_N"], entry.inputs["leg_mm"], entry.inputs["tau_MPa"]
    entry.check(SUBJECT, "length_mm", fillet_weld_length(*given))
    entry.check(SUBJECT, "length_with_end_mm", fillet_weld_length(*given, end_allowance=12.5))


@pytest.mark.copied
def test_gaps() -> None:
    entry = case("fits", "braze-gap")
    found = joint_gap("silver brazing")
    entry.check(SUBJECT, "optimum_mm", found.gap_best)
    entry.check(SUBJECT, "range_mm", found.gap_low, entry.expected["range_mm"][0])
    entry.check(SUBJECT, "range_mm", found.gap_high, entry.expected["range_mm"][1])
    assert found.shear_low is None, "the strength printed for butt joints is no design value"
    entry = case("fits", "braze-gap-me")
    found = joint_gap("silver soldering")
    entry.check(SUBJECT, "range_mm", found.gap_low, entry.expected["range_mm"][0])
    entry.check(SUBJECT, "range_mm", found.gap_high, entry.expected["range_mm"][1])
    entry = case("fits", "retainer-low")
    found = joint_gap("retainer")
    entry.check(SUBJECT, "max_gap_mm", found.gap_high)
    assert found.shear_low is not None
    entry.check(SUBJECT, "shear_N_mm2", found.shear_low)
    assert found.counted == "on the diameter"
    assert braze_lap(2, 3) == 6
    assert braze_lap(2, 4) == 8


def test_retained_joint() -> None:
    entry = case("fits", "retainer-axial-own")
    found = bonded_joint(entry.inputs["d_mm"], entry.inputs["L_mm"], entry.inputs["shear_N_mm2"])
    entry.check(SUBJECT, "axial_N", found.force)
    entry.check(SUBJECT, "torque_Nm", found.torque)


def test_filler_of_a_fillet_by_adding_up_rings() -> None:
    found = brazed_socket(8, 5, gap=0.05, fillet=1.2)
    steps = 20000
    rings = sum(
        2 * math.pi * (4 + (k + 0.5) * 1.2 / steps) * (1.2 - (k + 0.5) * 1.2 / steps) * 1.2 / steps
        for k in range(steps)
    )
    assert found.fillet_volume == pytest.approx(rings, rel=1e-6)
    assert found.wire_length * math.pi / 4 * 1.5**2 == pytest.approx(found.filler_volume)


# From memory of VDI 2230, class 8.8, friction 0.12: torque [N m]. From memory of ISO 898-1: stress area [mm2].
TORQUE = {"M4": 3.0, "M5": 5.9, "M6": 10.1, "M8": 24.6, "M10": 48.0, "M12": 84.0, "M16": 206.0}
STRESS_AREA = {
    "M3": 5.03,
    "M4": 8.78,
    "M5": 14.2,
    "M6": 20.1,
    "M8": 36.6,
    "M10": 58.0,
    "M12": 84.3,
    "M16": 157.0,
    "M20": 245.0,
}


@pytest.mark.parametrize("size", TORQUE)
def test_tightening_torque_from_memory(size: str) -> None:
    found = tightening_torque(size)
    record("Screws", "VDI 2230 (from memory)", found.torque, TORQUE[size])
    assert found.torque == pytest.approx(TORQUE[size], rel=0.05)
    assert found.torque_low < found.torque < found.torque_high


@pytest.mark.parametrize("size", STRESS_AREA)
def test_stress_area_from_memory(size: str) -> None:
    record("Screws", "ISO 898-1 (from memory)", stress_area(size), STRESS_AREA[size])
    assert stress_area(size) == pytest.approx(STRESS_AREA[size], rel=0.004)


def test_holes_and_heads_are_in_order() -> None:
    for size in ("M2", "M3", "M4", "M5", "M6", "M8", "M10", "M12", "M16", "M20"):
        holes = [clearance_hole(size, series) for series in ("fine", "medium", "coarse")]
        assert float(size[1:]) < holes[0] < holes[1] < holes[2]
        screw = cap_screw(size)
        assert screw.clearance < screw.head < screw.counterbore
        assert screw.head_height < screw.counterbore_depth
