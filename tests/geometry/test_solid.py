import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import Axis, Frame, Outline, Solid, SolidKernel, compare
from methodsheets.geometry.solid import GeometryError, _winding

SIZE = st.floats(0.5, 40)
few = settings(max_examples=30, deadline=None)


@pytest.fixture
def kernel():
    return SolidKernel()


@few
@given(SIZE, SIZE, st.sampled_from([12, 24, 96, 180]), st.floats(-1, 1), st.floats(-1, 1))
def test_round_bars_have_their_true_volume_about_any_axis(radius, length, facets, x, y):
    bar = SolidKernel(facets).cylinder(radius, -1, length, "stock", Axis.through((1, 2, 3), (x, y, 0.7)))
    assert bar.volume == pytest.approx(math.pi * radius**2 * (length + 1), rel=1e-9)


@few
@given(SIZE, SIZE, SIZE)
def test_cones_have_their_true_volume(low, high, length):
    """Frustum: πh/3 (r² + rR + R²) (elementary)."""
    cone = SolidKernel().cone(low, high, 0, length, "taper")
    assert cone.volume == pytest.approx(math.pi * length / 3 * (low**2 + low * high + high**2), rel=1e-9)


def test_a_ball_has_its_volume_within_the_chord_of_its_facets(kernel):
    ball = kernel.ball(10, (1, 2, 3), "ball")
    assert ball.volume == pytest.approx(4 / 3 * math.pi * 1000, rel=2e-4)
    assert ball.mesh().surfaces[0].radius == 10


@few
@given(SIZE, SIZE, SIZE, st.floats(-180, 180))
def test_blocks_have_their_volume_in_any_frame(a, b, c, angle):
    frame = Frame.turned(angle, Axis.through((3, 0, 0), (1, 2, 3)))
    assert SolidKernel().box((0, 0, 0), (a, b, c), "stock", frame).volume == pytest.approx(a * b * c)


def test_a_pocket_with_round_corners_has_its_volume(kernel):
    pocket = kernel.prism(Outline.rectangle((0, 0), (30, 20), 5), -4, 1, "pocket")
    assert pocket.volume == pytest.approx((30 * 20 - (4 - math.pi) * 25) * 5)


def test_a_half_space_takes_what_lies_beyond_its_plane(kernel):
    """Circle segment: r² acos(d/r) - d sqrt(r² - d²) (elementary)."""
    bar = kernel.cylinder(10, 0, 30, "stock")
    taken = bar & kernel.half_space((0.6, 0.8, 0), 7, "flat", start=5, end=25)
    want = 20 * (100 * math.acos(0.7) - 7 * math.sqrt(100 - 49))
    assert taken.volume == pytest.approx(want, rel=2e-3)
    low, high = taken.bounds
    assert (low[2], high[2]) == pytest.approx((5, 25))
    upright = kernel.box((-5, -5, -5), (5, 5, 5), "stock") & kernel.half_space((0, 0, 1), 2, "face")
    assert upright.volume == pytest.approx(300)


def test_a_cross_hole_takes_the_common_part_of_two_cylinders(kernel):
    """Two equal cylinders at right angles have 16/3 r³ in common (Steinmetz solid, handbook formula)."""
    a = kernel.cylinder(5, -20, 20, "bar")
    b = kernel.cylinder(5, -20, 20, "hole", Axis.through((0, 0, 0), (0, 1, 0)))
    assert (a & b).volume == pytest.approx(16 / 3 * 125, rel=2e-3)


@few
@given(st.floats(10, 80))
def test_a_hole_drilled_at_an_angle_through_a_plate(angle):
    """Oblique cylinder between two parallel planes: π r² t / sin(angle) (Cavalieri)."""
    kernel = SolidKernel()
    plate = kernel.box((-200, -50, 0), (200, 50, 8), "stock")
    a = math.radians(angle)
    hole = kernel.cylinder(3, -300, 300, "hole", Axis.through((0, 0, 4), (math.cos(a), 0, math.sin(a))))
    assert (plate & hole).volume == pytest.approx(math.pi * 9 * 8 / math.sin(a), rel=1e-9)


@few
@given(st.floats(1, 20), st.floats(-10, 10), st.floats(0, 20))
def test_what_goes_and_what_stays_add_up(radius, x, z):
    kernel = SolidKernel()
    bar = kernel.cylinder(12, 0, 40, "stock")
    inside, outside = bar.split(kernel.cylinder(radius, z, z + 9, "cut", Axis.upright(x, 1)))
    assert inside.volume + outside.volume == pytest.approx(bar.volume, abs=1e-8)


def test_splitting_at_a_plane_adds_up(kernel):
    bar = kernel.cylinder(12, 0, 40, "stock")
    beyond, before = bar.split(kernel.half_space((0, 0, 1), 15, "cut"))
    assert beyond.volume == pytest.approx(math.pi * 144 * 25)
    assert before.volume == pytest.approx(math.pi * 144 * 15)
    assert {s.operation for s in before.mesh().surfaces} == {"stock", "cut"}


def test_the_same_cuts_in_any_order_give_the_same_part(kernel):
    bar = kernel.cylinder(20, 0, 60, "stock")
    cuts = [
        kernel.tube(40, 15, -1, 30, "10"),
        kernel.tube(40, 11.3, 40, 61, "20"),
        kernel.half_space((0.8, 0.6, 0), 13, "30", start=0, end=25),
        kernel.cylinder(2.5, -60, 60, "40", Axis.through((0, 0, 22), (1, 0.3, 0))),
    ]
    parts = []
    for order in itertools.permutations(cuts):
        part = bar
        for cut in order:
            part = part - cut
        parts.append(part)
    assert max(p.volume for p in parts) - min(p.volume for p in parts) < 1e-9
    assert all(compare(p, parts[0]) == [] for p in parts[1:])


@pytest.mark.parametrize("direction", [(1, 0, 0), (0, 1, 0), (0.5, 0.5, 0), (3, 3, 0), (-1, 2, 0), (1, 2, 0.3)])
def test_a_pin_fills_the_hole_that_was_made_for_it(kernel, direction):
    """Facets that coincide to the last bit but one can leave a film of less than a micron: no metal."""
    bar = kernel.cylinder(8, 0, 40, "stock")
    axis = Axis.through((0, 0, 20), direction)
    drilled = bar - kernel.cylinder(2, -20, 20, "hole", axis)
    pin = kernel.cylinder(2, -20, 20, "pin", axis)
    assert (drilled & pin).volume < 1e-3
    assert (drilled & pin).without_skins(0.002) == []
    assert drilled.gap(pin) < 1e-6
    assert compare(drilled + (pin & bar), bar) == []


def test_two_bores_of_one_size_share_their_facets(kernel):
    bar = kernel.cylinder(10, 0, 40, "stock")
    once = bar - kernel.cylinder(4, -1, 20, "A")
    twice = once - kernel.cylinder(4, 20, 41, "B")
    assert compare(twice, bar - kernel.cylinder(4, -1, 41, "C")) == []
    assert twice.volume == pytest.approx(math.pi * (100 - 16) * 40)


def test_pieces_come_largest_first_and_dust_is_no_piece(kernel):
    bar = kernel.cylinder(10, 0, 40, "stock")
    sawn = bar - kernel.box((-20, -20, 10), (20, 20, 12), "saw")
    assert [round(p.volume / (math.pi * 100), 6) for p in sawn.pieces()] == [28, 10]
    skin = kernel.tube(10.001, 10, 0, 40, "skin")
    assert skin.pieces() == []
    assert len(skin.pieces(0.0005)) == 1
    assert bar.without_skins()[0].volume == pytest.approx(bar.volume)


def test_difference_of_equal_solids_is_nothing_however_it_was_made(kernel):
    one = kernel.cylinder(10, 0, 40, "a") - kernel.cylinder(3, -1, 41, "b", Axis.upright(4.1, 1.7))
    two = kernel.cylinder(10, 0, 15, "a") + kernel.cylinder(10, 15, 40, "a")
    two = two - kernel.cylinder(3, -1, 22.2, "b", Axis.upright(4.1, 1.7))
    two = two - kernel.cylinder(3, 22.2, 41, "b", Axis.upright(4.1, 1.7))
    assert (one - two).without_skins() == []
    assert (two - one).without_skins() == []


def test_moving_keeps_the_volume_and_moves_the_bounds(kernel):
    bar = kernel.cylinder(5, 0, 20, "stock").moved(Frame.of((100, 0, 0), x=(0, 0, 1), z=(0, 1, 0)))
    assert bar.volume == pytest.approx(math.pi * 500)
    low, high = bar.bounds
    assert (low[1], high[1]) == pytest.approx((0, 20))
    assert bar.shifted((0, 1, 0)).bounds[0][1] == pytest.approx(1)


def test_points_inside_and_outside(kernel):
    ring = kernel.tube(10, 6, 0, 20, "ring")
    points = np.array([[8.0, 0, 10], [0.0, 0, 10], [0, -7, 1], [8, 0, 21], [11, 0, 10]])
    assert ring.contains(points).tolist() == [True, False, True, False, False]


def test_an_empty_solid_says_so(kernel):
    bar = kernel.cylinder(5, 0, 20, "stock")
    nothing = bar - kernel.cylinder(6, -1, 21, "all")
    assert nothing.empty
    assert kernel.nothing().volume == 0
    assert kernel.union([]).empty
    assert nothing.pieces() == []
    with pytest.raises(ValueError, match="no bounds"):
        _ = kernel.nothing().bounds


def test_refused_shapes_say_why(kernel):
    with pytest.raises(ValueError, match="one side of its axis"):
        kernel.revolve([(-1, 0), (5, 0), (5, 5)], "x")
    with pytest.raises(ValueError, match="height"):
        kernel.prism([(0, 0), (1, 0), (1, 1)], 3, 3, "x")
    with pytest.raises(ValueError, match="square to its normal"):
        kernel.half_space((1, 0, 0), 3, "x", along=(1, 1, 0))
    for facets in (10, 97, 1000):
        with pytest.raises(ValueError, match="multiple of 4"):
            SolidKernel(facets)
    with pytest.raises(ValueError, match="equal facets"):
        _ = kernel.cylinder(1, 0, 1, "x") - SolidKernel(48).cylinder(1, 0, 1, "x")


def test_a_failed_kernel_body_is_an_error_of_ours(kernel):
    from methodsheets.geometry.shell import turned_shell

    shell = turned_shell(Outline((0, 0), (1, 0), (1, 1), (0, 1)), "x", Axis(), 96)
    object.__setattr__(shell, "triangles", shell.triangles[:-1])
    object.__setattr__(shell, "face", shell.face[:-1])
    with pytest.raises(GeometryError, match="NotManifold"):
        Solid.from_shell(shell, kernel.table)


def test_pieces_of_two_jobs_can_be_joined(kernel):
    other = SolidKernel()
    ring = other.tube(10, 5, 0, 10, "ring")
    both = kernel.cylinder(5, 0, 30, "spindle") + ring
    assert {s.operation for s in both.mesh().surfaces} == {"spindle", "ring"}


def test_inside_is_told_alike_by_a_ray_and_by_solid_angles() -> None:
    """Also on the skin, on edges and at corners, where the ray cannot tell and the angles are asked."""
    kernel, rng = SolidKernel(), np.random.default_rng(1)
    body = kernel.box((0, 0, 0), (30, 20, 10), "stock") - kernel.cylinder(
        4, -1, 7, "hole", Axis.through((12, 10, 0), (0, 0, 1))
    )
    body = body - kernel.cylinder(2, -1, 40, "across", Axis.through((0, 10, 5), (1, 0, 0)))
    grid = np.stack(np.meshgrid([0, 12, 16, 30], [0, 8, 10, 20], [0, 5, 7, 10]), axis=-1).reshape(-1, 3)
    points = np.concatenate([rng.uniform((-1, -1, -1), (31, 21, 11), (300, 3)), grid.astype(float)])
    corners, (low, high) = body.mesh().corners, body.bounds
    in_box = ((points >= low) & (points <= high)).all(axis=1)
    angles = [bool(near) and _winding(corners - point) > 0.5 for point, near in zip(points, in_box, strict=True)]
    assert body.contains(points).tolist() == angles
    assert 100 < sum(angles) < 250
