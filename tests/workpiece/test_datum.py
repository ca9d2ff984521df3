import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.geometry import Outline
from methodsheets.workpiece import FACES, Ends, Holding, TurningFrame, VicePose

ENDS = Ends(1.0, 93.0)
AXIS = st.tuples(st.floats(-20, 20), st.floats(-20, 20))


@given(st.sampled_from("AB"), AXIS, st.floats(0, 92), st.floats(0.1, 30), st.floats(-179, 179))
def test_shop_words_and_work_coordinates_undo_each_other(out, axis, s, radius, angle):
    frame = TurningFrame(out, ENDS, axis)
    got = frame.to_shop(frame.to_work(s, radius, angle))
    assert got == pytest.approx((s, radius, angle), abs=1e-6)
    assert frame.s_of(frame.z_of(s)) == pytest.approx(s)


@pytest.mark.parametrize(("out", "look"), [("A", (0, 0, 1)), ("B", (0, 0, -1))])
def test_angles_run_anticlockwise_as_you_look_at_the_face(out, look):
    """Right-hand rule: anticlockwise seen against the viewing direction."""
    frame = TurningFrame(out, ENDS)
    a, b = frame.to_work(0, 10, 0), frame.to_work(0, 10, 30)
    turn = np.cross(a - [0, 0, a[2]], b - [0, 0, b[2]])
    assert turn @ np.array(look) < 0
    assert (a[:2] == (10, 0)).all()


def test_turned_end_for_end_plus_and_minus_swap():
    a, b = TurningFrame("A", ENDS), TurningFrame("B", ENDS)
    assert a.to_work(0, 10, 40)[:2] == pytest.approx(b.to_work(0, 10, -40)[:2])
    assert a.to_work(0, 10, 0)[:2] == pytest.approx(b.to_work(0, 10, 0)[:2])


def test_lengths_run_from_the_face_into_the_metal():
    a, b = TurningFrame("A", ENDS), TurningFrame("B", ENDS)
    assert (a.z_of(0), a.z_of(10)) == (1, 11)
    assert (b.z_of(0), b.z_of(10)) == (93, 83)
    assert b.span(10, 2) == (83, 91)


def test_facing_moves_the_datum():
    assert TurningFrame("A", ENDS).faced(0.5) == Ends(1.5, 93)
    assert TurningFrame("B", ENDS).faced(0.5) == Ends(1, 92.5)
    assert ENDS.length == 92


def test_a_pitch_circle_lies_about_the_axis_of_the_set_up():
    frame = TurningFrame("B", ENDS, (6, 0))
    assert frame.axis_of(10, 90).point == pytest.approx((6, 10, 0))
    assert frame.axis_of().point == (6, 0, 0)


def test_a_cross_hole_starts_on_the_axis_and_points_outward():
    axis = TurningFrame("A", ENDS).cross_axis(7, 90)
    assert axis.point == pytest.approx((0, 0, 8))
    assert axis.direction == pytest.approx((0, -1, 0))


def test_a_flat_keeps_its_distance_from_the_axis_of_the_set_up():
    normal, distance = TurningFrame("B", ENDS, (6, 2)).plane(90, 8.5)
    assert normal == pytest.approx((0, 1, 0))
    assert distance == pytest.approx(10.5)
    assert TurningFrame("B", ENDS, (6, 2)).plane(0, 8.5)[1] == pytest.approx(14.5)
    assert TurningFrame("A", ENDS, (6, 2)).plane(90, 8.5)[1] == pytest.approx(6.5)


def test_profiles_are_written_from_the_face():
    shape = Outline((3, 0), (5, 0), (5, 4))
    assert [p.end for p in TurningFrame("A", ENDS).outline(shape).pieces] == [(5, 1), (5, 5)]
    assert [p.end for p in TurningFrame("B", ENDS).outline(shape).pieces] == [(5, 93), (5, 89)]


def test_throw_is_what_the_packing_has_to_make():
    assert Holding("lathe", "four-jaw chuck", "A", (6, 0), (0, 0)).throw == 6
    plain = Holding("lathe", "collet", "B", (2, 1))
    assert (plain.throw, plain.gripped_axis) == (0, (2, 1))


BLOCK = (np.array([0.0, 0.0, 0.0]), np.array([64.0, 40.0, 28.0]))


@pytest.mark.parametrize(
    ("up", "towards", "size", "zero"),
    [
        ("top", "front", (64, 40, 28), (0, 0, 28)),
        ("front", "bottom", (64, 28, 40), (0, 0, 0)),
        ("back", "top", (64, 28, 40), (0, 40, 28)),
        ("bottom", "front", (64, 40, 28), (64, 0, 0)),
        ("left", "front", (28, 40, 64), (0, 0, 0)),
        ("right", "front", (28, 40, 64), (64, 0, 28)),
    ],
)
def test_six_faces_measure_from_the_left_and_the_edge_towards_you(up, towards, size, zero):
    """Zero corners worked out by hand with a block in the hand: upper left corner next to you."""
    pose = VicePose.of(BLOCK, up, towards)
    assert pose.size == pytest.approx(size)
    assert pose.to_work(0, 0, 0) == pytest.approx(zero)
    inside = pose.to_work(size[0] / 2, size[1] / 2, size[2] / 2)
    assert inside == pytest.approx((32, 20, 14))


@pytest.mark.parametrize("up", FACES)
def test_every_pose_is_right_handed_and_faces_you(up):
    for towards in FACES:
        if abs(np.dot(FACES[up], FACES[towards])) == 1:
            with pytest.raises(ValueError, match="towards you"):
                VicePose.of(BLOCK, up, towards)
            continue
        pose = VicePose.of(BLOCK, up, towards)
        assert np.linalg.det(pose.frame.rotation) == pytest.approx(1)
        assert pose.frame.rotation[:, 2] == pytest.approx(FACES[up])
        assert -pose.frame.rotation[:, 1] == pytest.approx(FACES[towards])


def test_depths_follow_the_milled_face_and_holes_run_down():
    pose = VicePose.of(BLOCK, "top", "front").faced(2)
    assert pose.to_work(5, 6, 3) == pytest.approx((5, 6, 23))
    assert pose.size == (64, 40, 26)
    axis = pose.axis_of(8, 18)
    assert axis.at(10) == pytest.approx((8, 18, 16))
