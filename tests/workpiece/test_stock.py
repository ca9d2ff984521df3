import math

import pytest

from methodsheets.geometry import Axis, Outline, SolidKernel
from methodsheets.geometry.section import section_at
from methodsheets.workpiece import (
    casting,
    flat_bar,
    hexagon_bar,
    plate,
    round_bar,
    square_bar,
    tube,
    turned_blank,
)


def section_area(stock):
    """Area of the section half way along z, mm²."""
    return section_at(stock.solid, Axis(), (stock.ends.a + stock.ends.b) / 2).area


@pytest.fixture
def kernel():
    return SolidKernel()


@pytest.mark.parametrize(
    ("make", "sizes", "area"),
    [
        (round_bar, (25,), math.pi * 625 / 4),
        (hexagon_bar, (17,), 17**2 * math.sqrt(3) / 2),
        (square_bar, (12,), 144),
        (flat_bar, (30, 8), 240),
        (tube, (20, 14), math.pi * (100 - 49)),
    ],
)
def test_bars_have_the_section_their_sizes_say(kernel, make, sizes, area):
    """Areas of circle, hexagon (s²·√3/2), square, rectangle, ring (elementary)."""
    got = make(kernel, *sizes, 50, centre=(3, -2))
    assert section_area(got) == pytest.approx(area)
    assert got.solid.volume == pytest.approx(area * 50)
    assert (got.ends.a, got.ends.b, got.length) == (0, 50, 50)
    low, high = got.solid.bounds
    assert (low + high) / 2 == pytest.approx([3, -2, 25])
    assert {s.operation for s in got.solid.mesh().surfaces} == {"stock"}
    assert got.sizes["length"] == 50


def test_a_plate_lies_ready_for_six_face_work(kernel):
    got = plate(kernel, 64, 40, 28)
    assert got.solid.bounds[1] == pytest.approx([64, 40, 28])
    assert got.sizes == {"length": 64, "width": 40, "thickness": 28}
    assert got.ends.b == 28


def test_blanks_and_castings_start_at_the_raw_end(kernel):
    half = Outline((0, 5), (10, 5), (10, 25), (0, 25))
    assert turned_blank(kernel, half).ends.b == 20
    cast = casting(kernel, half, 1.5)
    assert (cast.ends.a, cast.ends.b) == (0, pytest.approx(23))
    assert cast.solid.volume == pytest.approx(math.pi * 11.5**2 * 23)
    assert cast.sizes["allowance"] == 1.5
    assert section_area(cast) == pytest.approx(math.pi * 11.5**2)
    surface = next(s for s in cast.solid.mesh().surfaces if s.kind == "cylinder")
    assert surface.radius == 11.5


def test_impossible_stock_is_refused(kernel):
    with pytest.raises(ValueError, match="wall"):
        tube(kernel, 10, 10, 30)
    for bad in (
        lambda: round_bar(kernel, -5, 30),
        lambda: round_bar(kernel, 5, 0),
        lambda: plate(kernel, 10, 0, 5),
        lambda: hexagon_bar(kernel, 0, 10),
    ):
        with pytest.raises(ValueError, match=r"."):
            bad()
