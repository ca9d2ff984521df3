import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodsheets.geometry import Axis, Frame, SolidKernel, mass_properties

few = settings(max_examples=30, deadline=None)
SIZE = st.floats(1, 30)


@few
@given(SIZE, SIZE, SIZE, st.floats(-180, 180))
def test_inertia_of_a_block_in_any_frame(a, b, c, angle):
    """Solid block about its centre: m/12 (b² + c²) … (handbook formula, any table of moments of inertia)."""
    frame = Frame.shifted((3, -4, 5)).compose(Frame.turned(angle, Axis.through((0, 0, 0), (1, 2, 3))))
    got = mass_properties(SolidKernel().box((0, 0, 0), (a, b, c), "x", frame))
    volume = a * b * c
    want = np.diag([b * b + c * c, a * a + c * c, a * a + b * b]) * volume / 12
    assert got.volume == pytest.approx(volume)
    assert got.centre == pytest.approx(frame.points((a / 2, b / 2, c / 2)), abs=1e-9)
    assert got.inertia == pytest.approx(frame.rotation @ want @ frame.rotation.T, rel=1e-9, abs=1e-7 * volume)


@few
@given(SIZE, SIZE)
def test_inertia_of_a_cylinder(radius, length):
    """Solid cylinder: m r²/2 about its axis, m/12 (3r² + h²) across (handbook formula)."""
    got = mass_properties(SolidKernel().cylinder(radius, 0, length, "x"))
    volume = math.pi * radius**2 * length
    assert got.inertia[2, 2] == pytest.approx(volume * radius**2 / 2, rel=3e-6)
    assert got.inertia[0, 0] == pytest.approx(volume / 12 * (3 * radius**2 + length**2), rel=3e-6)
    assert got.centre == pytest.approx([0, 0, length / 2], abs=1e-9)


def test_the_parallel_axis_rule():
    got = mass_properties(SolidKernel().cylinder(5, 0, 20, "x", Axis.upright(12, 0)))
    v = math.pi * 25 * 20
    assert got.about((0, 0, 0))[2, 2] == pytest.approx(v * (12.5 + 144), rel=1e-6)
    assert got.about(got.centre) == pytest.approx(got.inertia)


@few
@given(st.floats(-8, 8), st.floats(1, 12), st.floats(1, 25))
def test_what_goes_and_what_stays_weigh_the_same_together(x, radius, z):
    kernel = SolidKernel()
    bar = kernel.cylinder(12, 0, 30, "stock")
    parts = bar.split(kernel.cylinder(radius, z, 40, "cut", Axis.through((x, 0, 0), (0, 0.2, 1))))
    whole, (a, b) = mass_properties(bar), (mass_properties(p) for p in parts)
    assert a.volume + b.volume == pytest.approx(whole.volume)
    assert a.volume * a.centre + b.volume * b.centre == pytest.approx(
        whole.volume * whole.centre, abs=1e-6 * whole.volume
    )
    assert a.about((0, 0, 0)) + b.about((0, 0, 0)) == pytest.approx(
        whole.about((0, 0, 0)), abs=1e-7 * whole.volume * 900
    )


def test_weighing_is_remembered_and_nothing_weighs_nothing():
    kernel = SolidKernel()
    bar = kernel.cylinder(12, 0, 30, "stock")
    assert mass_properties(bar) is mass_properties(bar)
    assert mass_properties(kernel.nothing()).volume == 0


def test_a_finer_mesh_converges_on_the_closed_form():
    """A disc with a hole off centre: V·x is -V_hole·e exactly; Izz from the formulas above."""
    errors = []
    for facets in (24, 48, 96):
        kernel = SolidKernel(facets)
        part = kernel.cylinder(19, 0, 10, "stock") - kernel.cylinder(8, -1, 11, "bore", Axis.upright(6, 0))
        got = mass_properties(part)
        assert got.volume * got.centre[0] == pytest.approx(-math.pi * 64 * 10 * 6, rel=1e-9)
        want = math.pi * 10 * (361 * 361 / 2 - 64 * (32 + 36))
        errors.append(abs(got.about((0, 0, 0))[2, 2] / want - 1))
    assert errors[2] < errors[1] / 10 < errors[0] / 100
    assert errors[2] < 2e-6
