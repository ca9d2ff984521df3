import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import Z_AXIS, Axis, Outline, SolidKernel, profile, shape_changes, swing


def outer_at(shape, length):
    """Outer radius at a length, the larger one at a shoulder; 0 outside the metal."""
    return max(shape.at(length, shape.outer), default=0.0)


@pytest.fixture
def kernel():
    return SolidKernel()


def stepped(kernel):
    outline = Outline((0, 0), (6, 0), (6, 22), (8, 22), (8, 46), (12, 46), (10, 60), (0, 60))
    return kernel.revolve(outline, "part")


def test_swing_is_exact_on_round_work(kernel):
    part = stepped(kernel)
    assert swing(part, Z_AXIS) == 12
    assert swing(part, Z_AXIS, 0, 22) == 6
    assert swing(part, Z_AXIS, 22, 46) == 8
    assert swing(part, Z_AXIS, 30, 20) == 8
    assert swing(part, Z_AXIS, 23, None) == 12
    assert swing(part, Z_AXIS, 47, 60) == pytest.approx(12 - 2 / 14, abs=1e-5)
    assert swing(part, Z_AXIS, 61, 70) == 0


def test_swing_about_a_thrown_axis_adds_the_throw(kernel):
    eccentric = stepped(kernel) + kernel.cylinder(19, 46, 58, "eccentric", Axis.upright(6, 0))
    assert swing(eccentric, Z_AXIS) == 25
    assert swing(eccentric, Axis.upright(6, 0)) == 19
    assert swing(eccentric, Axis.upright(6, 0), 0, 40) == 14


@settings(max_examples=40, deadline=None)
@given(st.floats(2, 30), st.floats(0, 20), st.floats(-180, 180))
def test_swing_of_a_bar_held_anywhere(radius, throw, angle):
    a = math.radians(angle)
    bar = SolidKernel().cylinder(radius, 0, 10, "stock", Axis.upright(throw * math.cos(a), throw * math.sin(a)))
    assert swing(bar, Z_AXIS) == pytest.approx(radius + throw, abs=1e-9)


def test_swing_of_a_square_bar_goes_over_its_corners(kernel):
    bar = kernel.prism(Outline.regular(4, 20), 0, 30, "stock")
    assert swing(bar, Z_AXIS) == pytest.approx(10 * math.sqrt(2))


def test_a_flat_on_the_far_side_brings_the_swing_down(kernel):
    bar = kernel.cylinder(19, 0, 10, "stock", Axis.upright(6, 0)) - kernel.half_space((1, 0, 0), 20, "flat")
    want = math.hypot(20, math.sqrt(19**2 - 14**2))
    assert swing(bar, Z_AXIS) == pytest.approx(want, rel=3e-4)


def test_a_cross_hole_does_not_change_the_swing(kernel):
    bar = kernel.cylinder(6, 0, 40, "stock") - kernel.cylinder(1.5, -60, 60, "x", Axis.through((0, 0, 7), (0, 1, 0)))
    assert swing(bar, Z_AXIS) == 6


def test_the_profile_of_turned_work_is_its_outline(kernel):
    part = stepped(kernel) - kernel.cylinder(3, -1, 30, "bore") - kernel.cone(3, 0, 30, 31.7, "point")
    got = profile(part, Z_AXIS)
    corners = list(zip(got.lengths.round(4), got.outer.round(4), got.inner.round(4), strict=True))
    assert corners == [
        (0, 6, 3),
        (22, 6, 3),
        (22, 8, 3),
        (30, 8, 3),
        (30, 8, 3),
        (31.7, 8, 0),
        (31.7, 8, 0),
        (46, 8, 0),
        (46, 12, 0),
        (60, 10, 0),
    ]
    assert got.lengths[[0, -1]].tolist() == [0, 60]
    assert (outer_at(got, 0), outer_at(got, 22), outer_at(got, 46), outer_at(got, 60)) == pytest.approx((6, 8, 12, 10))
    assert outer_at(got, 10) == 6
    assert got.inner_at(10) == 3
    assert outer_at(got, 53) == pytest.approx(11, abs=1e-4)
    assert outer_at(got, 70) == 0


def test_lengths_at_which_the_shape_changes(kernel):
    drilled = stepped(kernel) - kernel.cylinder(2, -30, 30, "x", Axis.through((0, 0, 35), (1, 0, 0)))
    assert shape_changes(stepped(kernel), Z_AXIS) == [0, 22, 46, 60]
    assert shape_changes(stepped(kernel), Z_AXIS, 10, 50) == [10, 22, 46, 50]
    assert shape_changes(drilled, Z_AXIS, spacing=3) == pytest.approx([0, 22, 33, 36, 46, 60], abs=0.1)
    assert shape_changes(kernel.nothing(), Z_AXIS) == []


def test_a_profile_of_part_of_the_length(kernel):
    got = profile(stepped(kernel), Z_AXIS, 20, 30)
    assert got.lengths[[0, -1]] == pytest.approx([20, 30], abs=1e-5)
    assert set(got.outer.round(6)) == {6, 8}


def test_the_profile_is_what_the_work_sweeps(kernel):
    part = stepped(kernel) + kernel.cylinder(19, 46, 58, "eccentric", Axis.upright(6, 0))
    got = profile(part, Z_AXIS)
    assert outer_at(got, 50) == 25
    assert outer_at(got, 59) == pytest.approx(12 - 13 * 2 / 14, abs=1e-4)


def test_a_thrown_bore_leaves_its_nearest_wall(kernel):
    disc = kernel.cylinder(20, 0, 10, "stock") - kernel.cylinder(8, -1, 11, "bore", Axis.upright(3, 0))
    assert profile(disc, Z_AXIS).inner == pytest.approx([5, 5], abs=2e-3)
    assert profile(disc, Axis.upright(3, 0)).inner == pytest.approx([8, 8])
    solid_there = profile(disc, Axis.upright(15, 0))
    assert list(solid_there.inner) == [0, 0]


def test_no_metal_no_profile(kernel):
    got = profile(kernel.nothing(), Z_AXIS)
    assert len(got.lengths) == 0
    assert outer_at(got, 3) == 0


def test_corner_roundings_are_followed(kernel):
    part = kernel.revolve(
        Outline((0, 0), (6, 0), (6, 20)).arc((8, 20), 2, 180, 90).to((12, 22), (12, 30), (0, 30)), "x"
    )
    got = profile(part, Z_AXIS)
    for z in np.linspace(20.2, 21.8, 9):
        assert outer_at(got, float(z)) == pytest.approx(8 - math.sqrt(4 - (z - 20) ** 2), abs=0.006)
