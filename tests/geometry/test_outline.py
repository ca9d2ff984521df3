import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.geometry import Outline
from methodsheets.geometry.outline import Arc, area_factor, ring_area

RADIUS = st.floats(0.1, 100)


@given(st.integers(3, 180).map(lambda k: 4 * k), RADIUS)
def test_the_polygon_of_a_circle_has_the_circles_area(facets, radius):
    """Area of a regular n-gon with corners at q: n/2 q² sin(2π/n) (elementary)."""
    q = radius * area_factor(facets)
    assert facets / 2 * q * q * math.sin(2 * math.pi / facets) == pytest.approx(math.pi * radius**2, rel=1e-12)
    assert ring_area(Outline.circle((3, 4), radius).facets(facets).points) == pytest.approx(math.pi * radius**2)


@given(RADIUS, st.floats(5, 355), st.floats(-180, 180))
def test_a_sector_has_its_true_area_and_its_ends_are_true(radius, span, start):
    arc = Arc((0, 0), radius, start, start + span)
    facets = Outline((0, 0)).to(arc.begin).arc((0, 0), radius, start, start + span).facets(96)
    assert ring_area(facets.points) == pytest.approx(radius**2 * math.radians(span) / 2, rel=1e-9)
    assert min(math.dist(p, arc.end) for p in facets.points) < 1e-9


def test_either_sense_gives_the_same_polygon():
    forward = Outline((0, 0), (10, 0), (10, 4)).arc((6, 4), 4, 0, 90).to((0, 8))
    backward = Outline((0, 0), (0, 8), (6, 8)).arc((6, 4), 4, 90, 0).to((10, 0))
    assert forward.anticlockwise
    assert not backward.anticlockwise
    a, b = forward.facets(96), backward.facets(96)
    assert sorted(map(tuple, a.points.round(9))) == sorted(map(tuple, b.points.round(9)))
    assert ring_area(b.points) == pytest.approx(ring_area(a.points))
    assert ring_area(a.points) > 0


@pytest.mark.parametrize("reverse", [False, True])
def test_every_side_knows_the_piece_it_stands_for(reverse):
    outline = Outline((0, 0), (10, 0), (10, 4)).arc((6, 4), 4, 0, 90, label="corner").to((0, 8))
    if reverse:
        outline = Outline((0, 0), (0, 8), (6, 8)).arc((6, 4), 4, 90, 0, label="corner").to((10, 0))
    facets = outline.facets(96)
    pieces = outline.closed.pieces
    for i, owner in enumerate(facets.owner):
        a, b = facets.points[i], facets.points[(i + 1) % len(facets.points)]
        on_arc = abs(math.dist((a + b) / 2, (6, 4)) - 4) < 0.01 and a[0] > 6 - 1e-9 and b[0] > 6 - 1e-9
        assert isinstance(pieces[owner], Arc) == on_arc


def test_a_slot_with_round_ends_has_its_area():
    slot = Outline.rectangle((0, 0), (40, 9), 4.5).facets(96)
    assert ring_area(slot.points) == pytest.approx(31 * 9 + math.pi * 4.5**2)


@pytest.mark.parametrize(("sides", "share"), [(4, 1.0), (6, math.sqrt(3) / 2)])
def test_bars_by_their_size_across_flats(sides, share):
    """A hexagon of s across flats has an area of s²·√3/2 (elementary)."""
    points = Outline.regular(sides, 20, (1, 1)).facets(96).points
    assert ring_area(points) == pytest.approx(400 * share)
    assert max(points[:, 0]) == pytest.approx(11)


def test_a_flat_of_the_bar_faces_where_it_is_turned_to():
    points = Outline.regular(6, 20, turned=90).facets(96).points
    assert max(points[:, 1]) == pytest.approx(10)


def test_lengths_from_a_face_become_z_from_either_end():
    drawn = Outline((2, 0), (5, 0), (5, 3)).arc((5, 5), 2, -90, -180).to((3, 9))
    turned = drawn.placed((0, 100), mirror=True)
    want = {(round(r, 9), round(100 - s, 9)) for r, s in drawn.facets(96).points}
    assert {(round(r, 9), round(z, 9)) for r, z in turned.facets(96).points} == want


def test_facets_of_a_corner_depend_on_its_size_alone():
    small = Outline((0, 0), (1, 0)).arc((0, 0), 1, 0, 90).facets(96, 0.003)
    large = Outline((0, 0), (50, 0)).arc((0, 0), 50, 0, 90).facets(96, 0.003)
    assert len(small.points) < len(large.points) <= 26


def test_what_cannot_be_an_outline_is_refused():
    with pytest.raises(ValueError, match="first point"):
        Outline()
    with pytest.raises(ValueError, match="encloses nothing"):
        Outline((0, 0), (1, 1)).facets(96)
    for crossing in ([(0, 0), (5, 5), (5, 0), (0, 5)], [(1, 0), (5, 5), (5, 0), (1, 6)]):
        with pytest.raises(ValueError, match="crosses itself"):
            Outline(*crossing).facets(96)
    with pytest.raises(ValueError, match="crosses itself"):
        Outline((0, 0), (10, 0), (10, 10)).arc((5, 10), 5, 0, -180).to((0, 2), (12, 2)).facets(96)
    with pytest.raises(ValueError, match="radius and a sweep"):
        Outline((0, 0)).arc((0, 0), 0, 0, 90)
    with pytest.raises(ValueError, match="does not fit"):
        Outline.rectangle((0, 0), (10, 8), 4.1)
