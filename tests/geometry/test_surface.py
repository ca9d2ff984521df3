import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import Axis, Frame, Outline, SolidKernel, Surface
from methodsheets.geometry import surface as true
from methodsheets.geometry.surface import group_same


def surfaces_of(solid, kind):
    return [s for s in solid.mesh().surfaces if s.kind == kind]


def test_tags_survive_cuts():
    kernel = SolidKernel()
    part = kernel.cylinder(20, 0, 60, "stock") - kernel.tube(40, 8, -1, 30, "10")
    part = part - kernel.cylinder(3, -1, 61, "20", Axis.upright(12, 0))
    found = {(s.kind, s.operation, s.radius, s.point[:2]) for s in part.mesh().surfaces if s.kind == "cylinder"}
    assert found == {
        ("cylinder", "stock", 20.0, (0.0, 0.0)),
        ("cylinder", "10", 8.0, (0.0, 0.0)),
        ("cylinder", "20", 3.0, (12.0, 0.0)),
    }


@settings(max_examples=40, deadline=None)
@given(st.floats(-180, 180), st.floats(-50, 50), st.floats(-1, 1), st.floats(0.2, 1))
def test_facets_lie_on_the_surface_they_claim_after_any_move(angle, shift, x, z):
    """The tag is checked against the mesh itself: every corner within the facets' own error of the true surface."""
    kernel = SolidKernel()
    outline = Outline((0, 0), (6, 0), (6, 10)).arc((8, 10), 2, 180, 90).to((12, 12), (15, 20), (0, 20))
    part = kernel.revolve(outline, "a", Axis.through((1, 2, 3), (x, 0.3, z)))
    part = part - kernel.box((0, -20, -20), (30, 20, 7), "b")
    mesh = part.moved(
        Frame.shifted((0, shift, 1)).compose(Frame.turned(angle, Axis.through((0, 1, 0), (1, 1, 1))))
    ).mesh()
    assert {s.kind for s in mesh.surfaces} == {"plane", "cylinder", "cone", "torus"}
    for number, surface in enumerate(mesh.surfaces):
        points = mesh.corners[mesh.surface_index == number].reshape(-1, 3)
        assert np.abs(distance_from(surface, points)).max() < 0.02, surface


def distance_from(surface: Surface, points):
    """Distance of points from a true surface (elementary geometry)."""
    d = points - np.array(surface.point)
    along = d @ np.array(surface.direction)
    across = np.linalg.norm(d - np.outer(along, surface.direction), axis=1)
    if surface.kind == "plane":
        return along
    if surface.kind == "cylinder":
        return across - surface.radius
    if surface.kind == "torus":
        return np.hypot(across - surface.ring, along) - surface.radius
    t = math.radians(surface.taper)
    return across * math.cos(t) - along * math.sin(t)


def test_one_geometry_has_one_number_whatever_cut_it():
    made = [
        true.cylinder("10", (1, 2, 3), (0, 0, 1), 8),
        true.cylinder("20", (1, 2, -7), (0, 0, -1), 8 + 1e-9),
        true.cylinder("30", (1, 2, 3), (0, 0, 1), 8.001),
        true.plane("40", (0, 0, 5), (0, 0, 1)),
        true.plane("50", (9, 9, 5), (0, 0, -1)),
        true.plane("60", (0, 0, -5), (0, 0, 1)),
        true.cone("70", (0, 0, 0), (0, 0, 1), 30),
        true.cone("80", (0, 0, 0), (0, 0, -1), 30),
        true.torus("90", (1, 1, 1), (0, 0, 1), 0.0, 4),
        true.torus("91", (1, 1, 1), (1, 0, 0), 0.0, 4),
        Surface("other", "92", label="knurl"),
        Surface("other", "93", label="knurl"),
    ]
    assert group_same(made) == [0, 0, 1, 2, 2, 3, 4, 5, 6, 6, 7, 8]


def test_a_diameter_finished_from_both_ends_is_one_surface_for_drawing():
    kernel = SolidKernel()
    bar = kernel.cylinder(20, 0, 60, "stock")
    part = bar - kernel.tube(40, 8, -1, 30, "10") - kernel.tube(40, 8, 30, 61, "20")
    mesh = part.mesh()
    _, triangles, surface, curved = mesh.drawing()
    assert len(surface) == len(triangles)
    assert curved[surface].sum() == mesh.on(lambda s: s.kind == "cylinder").sum()
    assert len({int(n) for n in surface[mesh.on(lambda s: s.kind == "cylinder")]}) == 1
    assert len({s.operation for s in surfaces_of(part, "cylinder")}) == 2
    assert len(curved) == 3


def test_a_plane_moves_with_its_solid():
    kernel = SolidKernel()
    box = kernel.box((0, 0, 0), (10, 10, 10), "stock").moved(Frame.shifted((0, 0, 3)))
    heights = {s.point[2] for s in surfaces_of(box, "plane") if abs(s.direction[2]) > 0.9}
    assert heights == {3.0, 13.0}


def test_slots_carry_the_radius_and_axis_of_their_ends():
    kernel = SolidKernel()
    slot = kernel.prism(Outline.rectangle((0, 0), (40, 9), 4.5), -5, 5, "slot")
    ends = surfaces_of(slot, "cylinder")
    assert {(s.radius, *s.point) for s in ends} == {(4.5, 4.5, 4.5, 0.0), (4.5, 35.5, 4.5, 0.0)}
    drilled = kernel.cylinder(4.5, -5, 5, "drill", Axis.upright(4.5, 4.5))
    both = (kernel.box((-9, -9, -4), (50, 20, 4), "stock") - slot - drilled).mesh()
    _, _, _, curved = both.drawing()
    assert curved.sum() == 2


@pytest.mark.parametrize("kind", ["cylinder", "cone", "torus"])
def test_coaxial_means_about_that_very_axis(kind):
    make = {
        "cylinder": lambda: true.cylinder("x", (3, 4, 9), (0, 0, -1), 2),
        "cone": lambda: true.cone("x", (3, 4, 9), (0, 0, -1), 10),
        "torus": lambda: true.torus("x", (3, 4, 9), (0, 0, -1), 5, 1),
    }[kind]()
    assert make.coaxial(Axis.upright(3, 4))
    assert not make.coaxial(Axis.upright(3, 4.001))
    assert not make.coaxial(Axis.through((3, 4, 9), (0.01, 0, 1)))
    assert not true.plane("x", (0, 0, 0), (0, 0, 1)).coaxial(Axis())
