import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import (
    Z_AXIS,
    Axis,
    Frame,
    Outline,
    SolidKernel,
    cross_section_properties,
    mass_properties,
    section,
    section_at,
    sections_along,
    silhouette,
)
from methodsheets.geometry.outline import ring_area


@pytest.fixture
def kernel():
    return SolidKernel()


def test_outer_rings_are_anticlockwise_and_holes_clockwise(kernel):
    tube = kernel.tube(10, 6, 0, 30, "stock")
    rings = section(tube, Frame.shifted((0, 0, 12)))
    assert sorted(round(ring_area(r) / math.pi, 6) for r in rings) == [-36, 100]


def test_a_section_along_the_axis_shows_the_profile(kernel):
    part = kernel.revolve(Outline((4, 0), (10, 0), (10, 20), (15, 20), (15, 30), (4, 30)), "stock")
    rings = section(part, Frame.of((0, 0, 0), x=(0, 0, 1), z=(0, -1, 0)))
    assert sum(ring_area(r) for r in rings) == pytest.approx(2 * (6 * 20 + 11 * 10), rel=4e-4)
    assert len(rings) == 2
    assert all(len(r) == 6 for r in rings)


def test_a_silhouette_has_the_outline_of_the_whole(kernel):
    part = kernel.cylinder(10, 0, 20, "a") + kernel.cylinder(6, 20, 50, "b")
    rings = silhouette(part, Frame.of((0, 0, 0), x=(0, 0, 1), z=(0, -1, 0)))
    assert sum(ring_area(r) for r in rings) == pytest.approx(20 * 20 + 12 * 30, rel=4e-4)
    end_on = silhouette(part, Frame.identity())
    assert sum(ring_area(r) for r in end_on) == pytest.approx(math.pi * 100)


def test_no_metal_no_rings(kernel):
    assert section(kernel.cylinder(5, 0, 10, "x"), Frame.shifted((0, 0, 11))) == []
    assert cross_section_properties([]).area == 0
    assert section_at(kernel.cylinder(5, 0, 10, "x"), Z_AXIS, 11).area == 0


def test_second_moments_of_a_rectangle():
    """b h³/12 and b³ h/12 (handbook formula)."""
    got = cross_section_properties([np.array([(5, 1), (25, 1), (25, 7), (5, 7)], float)])
    assert (got.area, *got.centroid) == pytest.approx((120, 15, 4))
    assert (got.ixx, got.iyy) == pytest.approx((20 * 6**3 / 12, 20**3 * 6 / 12))
    assert got.ixy == pytest.approx(0, abs=1e-9)
    assert got.principal == pytest.approx((360, 4000, 0))
    assert got.about(90) == pytest.approx(4000)


@settings(max_examples=40, deadline=None)
@given(st.floats(-85, 85), st.floats(1, 5), st.floats(6, 20))
def test_principal_second_moments_turn_with_the_figure(angle, low, wide):
    a = math.radians(angle)
    turn = np.array([[math.cos(a), math.sin(a)], [-math.sin(a), math.cos(a)]])
    ring = np.array([(-wide, -low), (wide, -low), (wide, low), (-wide, low)]) @ turn
    got = cross_section_properties([ring])
    least, most, at = got.principal
    assert least == pytest.approx(2 * wide * (2 * low) ** 3 / 12)
    assert most == pytest.approx(2 * low * (2 * wide) ** 3 / 12)
    assert at == pytest.approx(angle, abs=1e-4)
    assert got.about(at) == pytest.approx(least)
    assert got.about(at + 90) == pytest.approx(most)


@settings(max_examples=30, deadline=None)
@given(st.floats(3, 30), st.floats(0.1, 0.95))
def test_second_moment_of_a_tube(outer, share):
    """π/4 (R⁴ - r⁴) (handbook formula)."""
    tube = SolidKernel().tube(outer, share * outer, 0, 10, "x")
    got = section_at(tube, Z_AXIS, 5)
    assert got.area == pytest.approx(math.pi * outer**2 * (1 - share**2), rel=1e-9)
    assert got.ixx == pytest.approx(math.pi / 4 * outer**4 * (1 - share**4), rel=1e-6)
    assert got.iyy == pytest.approx(got.ixx)


def test_the_two_ways_to_cut_agree(kernel):
    part = kernel.cylinder(12, 0, 40, "stock") - kernel.half_space((0.6, 0.8, 0), 7, "flat")
    part = part - kernel.cylinder(3, -1, 41, "hole", Axis.upright(-4, 2))
    axis = Axis.through((1, 1, 17), (0.3, 0, 1))
    rings = cross_section_properties(section(part, axis.frame))
    sides = section_at(part, axis, 0.0)
    assert (sides.area, *sides.centroid) == pytest.approx((rings.area, *rings.centroid))
    assert (sides.ixx, sides.iyy, sides.ixy) == pytest.approx((rings.ixx, rings.iyy, rings.ixy))


def test_sections_along_the_axis_add_up_to_the_volume(kernel):
    """Cavalieri: the integral of the section over the length is the volume (Gauss points between the shoulders)."""
    part = kernel.cylinder(12, 0, 40, "stock") - kernel.cylinder(5, -30, 30, "x", Axis.through((0, 0, 20), (1, 0, 0)))
    nodes, weights = np.polynomial.legendre.leggauss(60)
    total = sum(
        w * (b - a) / 2 * section_at(part, Z_AXIS, float((b - a) / 2 * n + (a + b) / 2)).area
        for a, b in ((0, 15), (15, 25), (25, 40))
        for n, w in zip(nodes, weights, strict=True)
    )
    assert total == pytest.approx(part.volume, rel=2e-5)
    assert total == pytest.approx(mass_properties(part).volume, rel=2e-5)


def test_many_sections_at_once(kernel):
    part = kernel.cylinder(10, 0, 20, "a") + kernel.cylinder(6, 20, 50, "b")
    got = sections_along(part, Z_AXIS, [10, 30, 60])
    assert [g.area for g in got] == pytest.approx([math.pi * 100, math.pi * 36, 0])
    assert got[0] == section_at(part, Z_AXIS, 10)


def test_a_section_at_a_shoulder_takes_one_side(kernel):
    part = kernel.cylinder(10, 0, 20, "a") + kernel.cylinder(6, 20, 50, "b")
    area = section_at(part, Z_AXIS, 20.0).area
    assert min(abs(area - math.pi * 100), abs(area - math.pi * 36)) < 1e-6
