import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import Axis, Frame, SolidKernel


@pytest.fixture
def kernel():
    return SolidKernel()


def test_areas_by_operation_add_up_to_the_whole_skin(kernel):
    part = (
        kernel.cylinder(20, 0, 60, "stock")
        - kernel.tube(40, 8, -1, 30, "10")
        - kernel.box((-30, 5, 40), (30, 30, 70), "20")
    )
    by_operation = part.mesh().areas_by_operation()
    assert set(by_operation) == {"stock", "10", "20"}
    assert sum(by_operation.values()) == pytest.approx(part.area)
    chord = 2 * math.sqrt(400 - 25)
    segment = 400 * math.acos(5 / 20) - 5 * math.sqrt(400 - 25)
    assert by_operation["20"] == pytest.approx(chord * 20 + segment, rel=1e-3)


def test_area_of_a_kind_of_surface(kernel):
    bar = kernel.cylinder(10, 0, 30, "stock")
    assert bar.mesh().area_of(lambda s: s.kind == "plane") == pytest.approx(2 * math.pi * 100)
    assert bar.mesh().area_of(lambda s: s.kind == "cylinder") == pytest.approx(2 * math.pi * 10 * 30, rel=2e-4)


@settings(max_examples=50, deadline=None)
@given(st.floats(-10, 50), st.floats(0, 60), st.floats(-1, 1), st.floats(-1, 1))
def test_area_in_a_band_is_the_area_of_the_cut_out_band(low, height, x, y):
    """Checked against the kernel's own cut along the same planes."""
    kernel = SolidKernel()
    axis = Axis.through((0, 0, 0), (x, y, 1))
    cone = kernel.cone(15, 5, 0, 40, "taper")
    direction, high = axis.direction, low + height
    band = kernel.box((-200, -200, low), (200, 200, high), "band", axis.frame) if height > 0.01 else kernel.nothing()
    mesh = cone.mesh()
    got = mesh.area_between(mesh.on(lambda s: s.kind == "cone"), direction, low, high)
    want = (cone & band).mesh().area_of(lambda s: s.operation == "taper" and s.kind == "cone")
    assert got == pytest.approx(want, rel=1e-6, abs=10 if height <= 0.01 else 1e-6)


def test_a_face_square_to_the_band_counts_with_the_side_it_lies_on(kernel):
    mesh = kernel.cylinder(10, 0, 30, "stock").mesh()
    face = mesh.on(lambda s: s.kind == "plane")
    assert mesh.area_between(face, (0, 0, 1), -1, 1) == pytest.approx(math.pi * 100)
    assert mesh.area_between(face, (0, 0, 1), 1, 29) == 0
    assert mesh.area_between(face, (0, 0, 1), -1, 31) == pytest.approx(2 * math.pi * 100)


def test_normals_look_outward(kernel):
    mesh = kernel.box((0, 0, 0), (10, 10, 10), "stock").moved(Frame.shifted((5, 5, 5))).mesh()
    outward = np.einsum("ij,ij->i", mesh.normals, mesh.corners.mean(axis=1) - 10)
    assert (outward > 0).all()


def test_the_mesh_is_worked_out_once_and_cannot_be_written_to(kernel):
    bar = kernel.cylinder(10, 0, 30, "stock")
    assert bar.mesh() is bar.mesh()
    with pytest.raises(ValueError, match="read-only"):
        bar.mesh().vertices[0, 0] = 1.0


def test_an_empty_mesh_answers_too(kernel):
    mesh = kernel.nothing().mesh()
    assert mesh.area_of(lambda s: True) == 0
    assert mesh.areas_by_operation() == {}
    assert [len(a) for a in mesh.drawing()] == [0, 0, 0, 0]
