import math

import pytest

from methodsheets.geometry import Axis, Outline, SolidKernel
from methodsheets.workpiece import (
    Body,
    Holding,
    TurningFrame,
    Workpiece,
    casting,
    finished_faces,
    flats,
    held_flats,
    held_in_vice,
    held_surface,
    held_taper,
    hexagon_bar,
    plate,
    round_bar,
    round_surfaces,
    skin_left,
    skin_taken,
    square_bar,
    touched_surfaces,
)

from .parts import STEEL, Bench, lathe, one_piece


@pytest.fixture
def kernel():
    return SolidKernel()


@pytest.fixture
def bench(kernel):
    made = Bench(kernel, "bar")
    made.work.start(round_bar(kernel, 20, 60), "steel", STEEL)
    return made


def test_the_whole_bar_is_there_to_be_held(bench):
    assert held_surface(bench.work.state, lathe("A"), 20, 30, 50) == pytest.approx(1, abs=1e-9)
    assert held_surface(bench.work.state, lathe("A"), 20, 50, 70) == pytest.approx(0.5, abs=1e-9)
    assert held_surface(bench.work.state, lathe("A"), 19.9, 30, 50) == 0


def test_a_diameter_finished_from_both_ends_is_held_as_one(bench):
    bench.turn(lathe("A"), 16, 25)
    bench.turn(lathe("B"), 16, 35)
    assert held_surface(bench.work.state, lathe("A"), 16, 10, 50) == pytest.approx(1, abs=1e-9)


@pytest.mark.parametrize("inside", [False, True])
def test_a_taper_is_held_by_its_angle(bench, inside):
    """A cone of 1 in 20 on the diameter: tan(half angle) = 1/40."""
    half = math.degrees(math.atan(1 / 40))
    if inside:
        bench.turned(lathe("A"), [(0, -1), (5.025, -1), (4, 40), (0, 40)])
    else:
        bench.turned(lathe("A"), [(8 - 0.025, -1), (60, -1), (60, 40), (9, 40)])
    assert held_taper(bench.work.state, lathe("A"), half, 5, 35, inside=inside) == pytest.approx(1, abs=1e-4)
    share = 4.25 / (2 * 4) if inside else 8.75 / (2 * 9)
    assert held_taper(bench.work.state, lathe("A"), half, 20, 60, inside=inside) == pytest.approx(share, abs=1e-4)
    assert held_taper(bench.work.state, lathe("A"), half + 0.01, 5, 35, inside=inside) == 0
    assert held_taper(bench.work.state, lathe("A"), half, 5, 35, inside=not inside) == 0


def test_what_was_turned_away_cannot_be_held(bench):
    bench.turn(lathe("A"), 16, 25)
    got = round_surfaces(bench.work.state, lathe("A"), 20, 30)
    assert got == [(16.0, pytest.approx(0.5)), (20.0, pytest.approx(0.5))]
    assert held_surface(bench.work.state, lathe("B"), 20, 0, 35) == pytest.approx(1)


def test_a_flat_takes_its_arc_off_the_grip(bench):
    frame = bench.work.frame(lathe("A"))
    normal, distance = frame.plane(0, 8)
    bench.cut(bench.kernel.half_space(normal, distance, "flat", start=0, end=60))
    lost = 2 * math.acos(0.8) / (2 * math.pi)
    assert held_surface(bench.work.state, lathe("A"), 20, 10, 50) == pytest.approx(1 - lost, abs=0.003)


def test_the_gripped_axis_counts_not_the_axis_of_rotation(kernel):
    work = one_piece(kernel).work
    packed = Holding("lathe", "four-jaw chuck", "A", (6, 0), (0, 0))
    assert held_surface(work.state, packed, 16, 71, 91) == pytest.approx(1)
    assert held_surface(work.state, Holding("lathe", "four-jaw chuck", "A", (6, 0)), 16, 71, 91) == 0


def test_a_bore_is_held_from_inside(bench):
    bench.cut(bench.kernel.cylinder(6, -1, 30, "bore"))
    mandrel = Holding("lathe", "mandrel", "A", inside=True)
    assert held_surface(bench.work.state, mandrel, 12, 0, 20) == pytest.approx(1)
    assert held_surface(bench.work.state, mandrel, 12, 20, 40) == pytest.approx(0.5)
    assert held_surface(bench.work.state, lathe("A"), 12, 0, 20) == 0
    assert held_surface(bench.work.state, lathe("A"), 12, 0, 20, inside=True) == pytest.approx(1)
    assert held_surface(bench.work.state, mandrel, 20, 0, 20) == 0


def test_a_surface_under_a_pressed_on_ring_cannot_be_held(bench):
    bench.work.join("ring", Body(bench.kernel.tube(15, 10, 20, 30, "ring"), "bronze", 8.8e-3))
    assert held_surface(bench.work.state, lathe("A"), 20, 20, 40) == pytest.approx(0.5)
    assert held_surface(bench.work.state, lathe("A"), 30, 20, 30) == pytest.approx(1)
    assert held_surface(bench.work.state, lathe("A"), 20, 20, 30, inside=True) == 0


def test_flats_are_found_by_the_angle_the_shop_sees(bench):
    for out, angle in (("A", 40), ("B", 40)):
        frame = bench.work.frame(lathe(out))
        normal, distance = frame.plane(angle, 8)
        bench.cut(bench.kernel.half_space(normal, distance, out, start=0, end=60))
    frame = bench.work.frame(lathe("A"))
    found = flats(bench.work.state, frame, 10, 30)
    assert [(f.angle, f.distance) for f in found] == [(-40, 8), (40, 8)]
    assert found[0].area == pytest.approx(2 * math.sqrt(100 - 64) * 20, rel=0.005)


def test_a_slot_has_two_walls_that_face_each_other(bench):
    bench.cut(bench.kernel.box((-2, -30, -1), (2, 30, 20), "slot"))
    found = flats(bench.work.state, bench.work.frame(lathe("A")), 0, 20)
    assert {(f.angle, f.distance) for f in found} == {(0, -2), (180, -2)}


@pytest.mark.parametrize(("stock", "sides"), [(hexagon_bar, 6), (square_bar, 4)])
def test_bars_with_flats_are_held_on_their_flats(kernel, stock, sides):
    work = Workpiece(kernel, "bar")
    work.start(stock(kernel, 17, 50), "brass", 8.5e-3)
    assert held_flats(work.state, lathe("A"), 17, sides, 20, 40) == pytest.approx(1)
    assert held_flats(work.state, lathe("A"), 16, sides, 20, 40) == 0
    work.cut(kernel.tube(40, 8, -1, 30, "turn"), "turn")
    assert held_flats(work.state, lathe("A"), 17, sides, 20, 40) == pytest.approx(0.5)


def test_the_jaws_of_a_vice_want_flat_metal(kernel):
    work = Workpiece(kernel, "block")
    work.start(plate(kernel, 60, 40, 24), "steel", STEEL)
    pose = work.state.pose("top", "front")
    assert held_in_vice(work.state, pose, 10) == pytest.approx(1)
    assert held_in_vice(work.state, pose, 10, side="back") == pytest.approx(1)
    work.cut(kernel.box((40, -1, -1), (61, 41, 8), "step"), "step")
    assert held_in_vice(work.state, pose, 10) == pytest.approx(1 - 20 * 8 / (60 * 10))
    upside_down = work.state.pose("bottom", "front")
    assert held_in_vice(work.state, upside_down, 10) == pytest.approx(1)
    work.cut(kernel.cylinder(5, -1, 50, "slot", Axis.upright(20, 0)), "scallop")
    assert held_in_vice(work.state, upside_down, 10) == pytest.approx(1 - 10 / 60, abs=0.001)
    assert held_in_vice(work.state, upside_down, 10, side="back") == pytest.approx(1)


def test_a_round_bar_shows_a_vice_no_flat(bench):
    assert held_in_vice(bench.work.state, bench.work.state.pose("top", "front"), 10) == 0


def test_a_cut_tells_which_finished_surfaces_it_ate_into(bench):
    first = bench.turn(lathe("A"), 16, 30)
    assert touched_surfaces(first) == {}
    assert skin_taken(first) == pytest.approx(math.pi * (20 * 30 + 100 - 64), rel=1e-3)
    second = bench.turn(lathe("A"), 12, 20)
    assert touched_surfaces(second) == {first.operation: pytest.approx(math.pi * 16 * 20, rel=1e-3)}
    assert skin_taken(second) == pytest.approx(math.pi * (64 - 36), rel=1e-3)


def test_running_along_a_finished_surface_does_not_eat_into_it(bench):
    """The skims of a shop: the same diameter again, a little further."""
    first = bench.turn(lathe("A"), 16, 30)
    again = bench.turn(lathe("A"), 16, 32)
    assert again.volume == pytest.approx(math.pi * (100 - 64) * 2)
    shoulder = math.pi * (100 - 64)
    assert touched_surfaces(again) == {first.operation: pytest.approx(shoulder, rel=1e-3)}
    spring_pass = bench.turn(lathe("A"), 16, 32)
    assert not spring_pass.removes
    assert touched_surfaces(spring_pass) == {}


def test_skin_left_of_the_stock(bench):
    whole = skin_left(bench.work.state)
    assert whole == pytest.approx(math.pi * (20 * 60 + 200), rel=1e-3)
    bench.turn(lathe("A"), 16, 30)
    bench.face(lathe("A"), 1)
    assert skin_left(bench.work.state) == pytest.approx(math.pi * (20 * 30 + 100), rel=1e-3)
    assert set(finished_faces(bench.work.state)) == {"stock", "bar 10", "bar 20"}
    assert finished_faces(bench.work.state)["bar 20"] == pytest.approx(math.pi * 64)


def test_a_casting_shows_where_it_is_still_raw(kernel):
    part = Outline((0, 0), (10, 0), (10, 20), (20, 20), (20, 30), (0, 30))
    bench = Bench(kernel, "casting")
    bench.work.start(casting(kernel, part, 2), "cast iron", 7.2e-3)
    assert bench.work.ends.length == 34
    bench.face(lathe("A"), 2)
    bench.turn(lathe("A"), 20, 20)
    assert skin_left(bench.work.state) == pytest.approx(math.pi * (44 * 12 + 22**2), rel=1e-3)


def test_frames_of_other_axes_measure_flats_from_there(kernel):
    work = Workpiece(kernel, "square")
    work.start(square_bar(kernel, 20, 30), "steel", STEEL)
    found = flats(work.state, TurningFrame("B", work.ends, (3, 0)), 0, 30)
    assert {(f.angle, f.distance) for f in found} == {(0, 7), (90, 10), (180, 13), (-90, 10)}
