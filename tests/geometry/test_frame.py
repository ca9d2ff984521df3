import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.geometry import Axis, Frame

ANGLE = st.floats(-360, 360)
COORDINATE = st.floats(-100, 100)


@given(ANGLE, COORDINATE, COORDINATE, COORDINATE)
def test_a_frame_and_its_inverse_undo_each_other(angle, x, y, z):
    frame = Frame.shifted((x, y, z)).compose(Frame.turned(angle, Axis.through((1, 2, 3), (1, 1, 0.5))))
    point = np.array([[3.0, -7.0, 11.0]])
    assert frame.inverse().points(frame.points(point)) == pytest.approx(point, abs=1e-9)


def test_turning_is_right_handed():
    assert Frame.turned(90).points((1, 0, 0)) == pytest.approx([0, 1, 0])
    about = Axis.upright(10, 0)
    assert Frame.turned(180, about).points((0, 0, 5)) == pytest.approx([20, 0, 5])


def test_compose_moves_first_by_the_inner_frame():
    outer, inner = Frame.turned(90), Frame.shifted((1, 0, 0))
    assert outer.compose(inner).points((0, 0, 0)) == pytest.approx([0, 1, 0])


@given(st.floats(-1, 1), st.floats(-1, 1), st.floats(0.1, 1))
def test_an_axis_through_a_point_is_square_and_measures_along_itself(dx, dy, dz):
    axis = Axis.through((1, 2, 3), (dx, dy, dz))
    side = axis.side
    assert np.linalg.norm(side) == pytest.approx(1)
    at = axis.at(7, 4, 30)
    assert axis.lengths(at[None, :])[0] == pytest.approx(7)
    assert axis.radii(at[None, :])[0] == pytest.approx(4)


def test_a_line_has_one_zero_whichever_way_it_is_drilled():
    there, back = Axis.through((0, 0, 5), (0, 1, 0)), Axis.through((0, 0, 5), (0, -1, 0))
    assert there.zero == back.zero == (0, 0, 1)


def test_an_axis_that_is_not_square_is_refused():
    with pytest.raises(ValueError, match="right angles"):
        Axis(direction=(0, 0, 1), zero=(0, 0, 1))
    with pytest.raises(ValueError, match="right angles"):
        Axis(direction=(0, 0, 2))


def test_a_direction_without_length_is_refused():
    with pytest.raises(ValueError, match="direction needs a length"):
        Axis.through((0, 0, 0), (0, 0, 0))


def test_frame_of_an_axis_has_the_axis_as_z():
    axis = Axis.through((5, 0, 0), (1, 0, 0))
    assert axis.frame.points((0, 0, 3)) == pytest.approx([8, 0, 0])
    assert axis.frame.points((2, 0, 0)) == pytest.approx(axis.at(0, 2, 0))
    assert math.isclose(float(np.linalg.det(axis.frame.rotation)), 1)
