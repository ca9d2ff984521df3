"""Do balance and centroids agree with two textbooks of the theory of machines and one of mechanics?"""

from __future__ import annotations

import math

import numpy as np
import pytest

from methodsheets.trade.metal.balance import (
    balance_drill_depth,
    correction_mass,
    crank_balance,
    permissible_unbalance,
    static_balance,
    two_plane_balance,
    unbalance_force,
)
from methodsheets.trade.metal.centroids import built_up_area, sector, segment

from .cases import Case, case, cases

SUBJECT = "Balance"
CENTROID = "Centroids"
CURVED = tuple(entry for entry in cases("fits", "centroid") if "half_angle_deg" in entry.inputs)


def test_static_balance() -> None:
    entry = case("fits", "bal-static-4")
    given = entry.inputs
    found = static_balance(given["m_kg"], given["r_mm"], given["angle_deg"], given["balance_r_mm"])
    entry.check(SUBJECT, "mass_kg", found.mass)
    entry.check(SUBJECT, "angle_deg", found.angle)


def test_two_planes_for_one_mass_outside_them() -> None:
    """The near plane opposite the mass, the far one on its side."""
    entry = case("fits", "bal-two-plane-single")
    given = entry.inputs
    found = two_plane_balance([given["w_lb"]], [given["r_in"]], [0.0], [-10.0], 50.0, given["balance_r_in"])
    entry.check(SUBJECT, "near_lb", found.near_mass)
    entry.check(SUBJECT, "far_lb", found.far_mass)
    assert abs(found.near_angle) == pytest.approx(180)
    assert found.far_angle == pytest.approx(0)


def test_two_planes_for_four_masses() -> None:
    entry = case("fits", "bal-two-plane-4")
    given = entry.inputs
    found = two_plane_balance(
        given["m_kg"],
        given["r_mm"],
        given["angle_deg"],
        [z + 0.0 for z in given["z_from_X_mm"]],
        given["X_to_Y_mm"],
        given["balance_r_mm"],
    )
    entry.check(SUBJECT, "mX_kg", found.near_mass)
    entry.check(SUBJECT, "mY_kg", found.far_mass)
    entry.check(SUBJECT, "angX_deg", found.near_angle)
    entry.check(SUBJECT, "angY_deg", found.far_angle)
    assert (found.near_mass, found.near_angle) == (pytest.approx(352.97, abs=0.01), pytest.approx(-146.6, abs=0.05))
    assert (found.far_mass, found.far_angle) == (pytest.approx(184.06, abs=0.01), pytest.approx(-12.8, abs=0.05))


def test_a_balanced_rotor_has_no_force_and_no_couple() -> None:
    masses, radii, angles, places = [5.0, 9.0, 2.0], [30.0, 12.0, 44.0], [10.0, 140.0, 260.0], [-20.0, 35.0, 90.0]
    found = two_plane_balance(masses, radii, angles, places, 60, 25, 40)
    masses += [found.near_mass, found.far_mass]
    radii += [25, 40]
    angles += [found.near_angle, found.far_angle]
    places += [0.0, 60.0]
    arrows = np.array(masses) * np.array(radii) * np.exp(1j * np.radians(angles))
    assert abs(arrows.sum()) == pytest.approx(0, abs=1e-9)
    assert abs((arrows * np.array(places)).sum()) == pytest.approx(0, abs=1e-7)


def test_a_crank() -> None:
    entry = case("fits", "bal-recip-2")
    given = entry.inputs
    found = crank_balance(
        given["rotating_lb"],
        given["recip_lb"],
        given["crank_r_in"],
        given["balance_r_in"],
        given["rpm"],
        given["fraction"],
    )
    entry.check(SUBJECT, "balance_lb", found.mass)
    # In pounds the force is m w^2 r / g, with the textbook's g of 32.2 ft/s^2; the calculation takes grams and mm.
    in_pounds = found.residual_max * 1e6 / (32.2 * 12)
    entry.check(SUBJECT, "residual_lb", in_pounds)
    assert found.residual_max == found.residual_min, "at a half the force left is the same all round"


def test_a_couple_of_two_cranks() -> None:
    entry = case("fits", "bal-couple")
    given = entry.inputs
    unbalance = given["recip_kg"] * 1e3 * given["crank_r_m"] * 1e3
    force = unbalance_force(unbalance, given["rpm"])
    entry.check(SUBJECT, "couple_kNm", given["arm_m"] * math.sqrt(2) * force / 1000)


def test_a_counterweight() -> None:
    entry = case("fits", "counterweight-own")
    given = entry.inputs
    web = sector(given["web_sector_R_mm"], given["web_half_angle_deg"])
    mass = correction_mass(given["pin_mass_g"] * given["pin_r_mm"], web.centroid)
    entry.check(SUBJECT, "thickness_mm", mass / (web.area * given["density"] * 1e-6))


@pytest.mark.parametrize("point", [118.0, 90.0, 180.0])
def test_a_balance_hole_takes_out_what_it_should(point: float) -> None:
    depth = balance_drill_depth(300, 25, 6, 7850, holes=2, point_angle=point)
    tip = 0.0 if point == 180 else 3 / math.tan(math.radians(point / 2))
    volume = math.pi * 9 * (depth - tip) + math.pi * 9 * tip / 3
    assert 2 * volume * 7850e-6 * 25 == pytest.approx(300)


def test_balance_grade_from_memory() -> None:
    """ISO 21940-11, from memory: G 6.3 at 3000 1/min leaves 20 um of offset."""
    assert permissible_unbalance(6.3, 1, 3000) == pytest.approx(20.05, abs=0.01)


@pytest.mark.parametrize("entry", CURVED, ids=lambda entry: entry.name)
def test_sectors_and_segments(entry: Case) -> None:
    radius, half, inner = entry.inputs["R_mm"], entry.inputs["half_angle_deg"], entry.inputs.get("r_mm", 0.0)
    found = segment(radius, half) if "segment" in entry.name else sector(radius, half, inner)
    entry.check(CENTROID, "area_mm2", found.area)
    entry.check(CENTROID, "xbar_mm", found.centroid)
    area, middle = _by_adding_up(radius, math.radians(half), inner, "segment" in entry.name)
    assert found.area == pytest.approx(area, rel=1e-5)
    assert found.centroid == pytest.approx(middle, rel=1e-5)


def _by_adding_up(radius: float, half: float, inner: float, is_segment: bool) -> tuple[float, float]:
    """Add up strips (segment) or patches of rings (sector)."""
    if is_segment:
        edges = np.linspace(radius * math.cos(half), radius, 200_001)
        x = (edges[1:] + edges[:-1]) / 2
        pieces = 2 * np.sqrt(radius**2 - x**2) * (edges[1] - edges[0])
        return float(pieces.sum()), float((pieces * x).sum() / pieces.sum())
    ring = np.linspace(inner, radius, 1001)
    turn = np.linspace(-half, half, 1001)
    r, angle = np.meshgrid((ring[1:] + ring[:-1]) / 2, (turn[1:] + turn[:-1]) / 2)
    pieces = r * (ring[1] - ring[0]) * (turn[1] - turn[0])
    return float(pieces.sum()), float((pieces * r * np.cos(angle)).sum() / pieces.sum())


@pytest.mark.parametrize("name", ["centroid-I", "centroid-unequal-I"])
def test_i_sections(name: str) -> None:
    entry = case("fits", name)
    top, web, bottom = (entry.inputs[key] for key in ("top_cm", "web_cm", "bottom_cm"))
    areas = [width * height for width, height in (top, web, bottom)]
    places = [bottom[1] + web[1] + top[1] / 2, bottom[1] + web[1] / 2, bottom[1] / 2]
    found = built_up_area(areas, places)
    entry.check(CENTROID, "y_cm", found.x)
    # A worked copy of the textbook prints 7.5 for the first, having taken the web's area for the flange.
    assert abs(found.x - 7.5) > 0.1


def test_a_mixed_section() -> None:
    """Half disc at the left of a rectangle, an even-sided triangle standing on the right end of it."""
    entry = case("fits", "centroid-mixed")
    r, (width, height), (base, rise) = (entry.inputs[key] for key in ("semicircle_r", "rectangle", "triangle"))
    half_disc = sector(r, 90)
    found = built_up_area(
        [half_disc.area, width * height, base * rise / 2],
        [r - half_disc.centroid, r + width / 2, r + width - base / 2],
        [height / 2, height / 2, height + rise / 3],
    )
    entry.check(CENTROID, "x_cm", found.x)
    entry.check(CENTROID, "y_cm", found.y)
