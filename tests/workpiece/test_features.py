"""Are the features of a solid those that were cut, with the sizes that were said?"""

from __future__ import annotations

import pytest

from methodsheets.geometry import Axis, Outline, SolidKernel
from methodsheets.workpiece.features import at_levels, features_of


@pytest.fixture
def kernel() -> SolidKernel:
    return SolidKernel(96)


def test_a_stepped_shaft(kernel: SolidKernel) -> None:
    shaft = kernel.cylinder(8.0, 0.0, 30.0, "a") + kernel.cylinder(12.0, 30.0, 42.5, "b")
    found = features_of(shaft)
    assert [(r.diameter, r.low, r.high, r.inside, r.operation) for r in found.rounds] == [
        (16.0, pytest.approx(0.0), pytest.approx(30.0), False, "a"),
        (24.0, pytest.approx(30.0), pytest.approx(42.5), False, "b"),
    ]
    assert [round(place, 6) for place, _ in at_levels(found.flats, 2)] == [0.0, 30.0, 42.5]
    assert not any(r.part for r in found.rounds)


def test_a_bore_is_inside_and_a_drilled_hole_ends_in_a_point(kernel: SolidKernel) -> None:
    drill = kernel.revolve(Outline((0, -1), (5, -1), (5, 20), (0, 23)), "drill")
    found = features_of(kernel.cylinder(15.0, 0.0, 40.0, "stock") - drill)
    (bore,) = [r for r in found.rounds if r.inside]
    assert (bore.diameter, bore.low, bore.high) == (10.0, pytest.approx(0.0), pytest.approx(20.0))
    (point,) = found.tapers
    assert point.inside
    assert sorted((point.at_low, point.at_high)) == [pytest.approx(0.0, abs=1e-4), pytest.approx(10.0, abs=1e-3)]


def test_a_chamfer_and_a_rounded_corner(kernel: SolidKernel) -> None:
    outline = Outline((0, 0), (7, 0), (8, 1), (8, 20)).arc((10, 20), 2, 180, 90).to((14, 22)).to((14, 30)).to((0, 30))
    found = features_of(kernel.revolve(outline, "turn"))
    chamfer = next(t for t in found.tapers if t.high - t.low < 2)
    assert (chamfer.at_low, chamfer.at_high) == (pytest.approx(14.0), pytest.approx(16.0))
    assert chamfer.half_angle == pytest.approx(45.0)
    assert [f.radius for f in found.fillets] == [pytest.approx(2.0)]


def test_one_diameter_twice_is_two_stretches(kernel: SolidKernel) -> None:
    ring = kernel.revolve(Outline((4, 10), (9, 10), (9, 13), (4, 13)), "groove")
    found = features_of(kernel.cylinder(8.0, 0.0, 30.0, "turn") - ring)
    assert [(r.diameter, round(r.low, 6), round(r.high, 6)) for r in found.rounds] == [
        (16.0, 0.0, 10.0),
        (8.0, 10.0, 13.0),
        (16.0, 13.0, 30.0),
    ]


def test_a_quarter_of_a_round_is_a_radius_and_a_flat_leaves_a_diameter(kernel: SolidKernel) -> None:
    block = kernel.box((0, 0, 0), (20, 20, 10), "stock")
    corner = kernel.box((-1, -1, -1), (5, 5, 11), "mill") - kernel.cylinder(5, -1, 11, "mill", Axis.upright(5, 5))
    (radius,) = features_of(block - corner).rounds
    assert radius.part
    assert radius.diameter == pytest.approx(10.0)
    flat = kernel.cylinder(10.0, 0, 20, "stock") - kernel.box((7, -20, -1), (30, 20, 21), "flat")
    (shaft,) = features_of(flat).rounds
    assert not shaft.part


def test_a_cross_hole_knows_its_axis(kernel: SolidKernel) -> None:
    hole = kernel.cylinder(2.0, -30.0, 30.0, "cross", Axis.through((0, 0, 12), (0, 1, 0)))
    found = features_of(kernel.cylinder(10.0, 0, 30, "stock") - hole)
    (cross,) = [r for r in found.rounds if r.inside]
    assert cross.diameter == 4.0
    assert abs(cross.axis.direction[1]) == pytest.approx(1.0)
    assert cross.spot()[2] == pytest.approx(12.0)
