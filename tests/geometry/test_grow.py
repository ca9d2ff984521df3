import pytest

from methodsheets.geometry import Arc, Outline, SolidKernel, grown
from methodsheets.geometry.outline import ring_area


def corners(outline):
    return {(round(x, 9) + 0.0, round(y, 9) + 0.0) for x, y in outline.facets(96).points}


@pytest.mark.parametrize("backward", [False, True])
def test_a_stepped_part_grows_all_round_and_stays_on_its_axis(backward):
    points = [(0, 0), (10, 0), (10, 20), (20, 20), (20, 30), (0, 30)]
    got = grown(Outline(*(points[::-1] if backward else points)), 2)
    assert corners(got) == {(0, -2), (12, -2), (12, 18), (22, 18), (22, 32), (0, 32)}


def test_a_bore_shrinks():
    got = grown(Outline((5, 0), (10, 0), (10, 20), (5, 20)), 2)
    assert corners(got) == {(3, -2), (12, -2), (12, 22), (3, 22)}
    with pytest.raises(ValueError, match="hole along the axis closes"):
        grown(Outline((1, 0), (10, 0), (10, 20), (1, 20)), 2)


def test_roundings_follow():
    part = (
        Outline((0, 0), (10, 0), (10, 16))
        .arc((14, 16), 4, 180, 90)
        .to((17, 20))
        .arc((17, 23), 3, -90, 0)
        .to((20, 30), (0, 30))
    )
    arcs = [p for p in grown(part, 1).pieces if isinstance(p, Arc)]
    assert [(a.radius, a.centre) for a in arcs] == [(3, (14, 16)), (4, (17, 23))]
    sharp = [p for p in grown(part, 4.5).pieces if isinstance(p, Arc)]
    assert [a.radius for a in sharp] == [7.5]


def test_an_edge_between_line_and_arc_stays_sharp():
    dome = Outline((0, 0), (10, 0), (10, 5)).arc((0, 5), 10, 0, 90)
    got = grown(dome, 1)
    assert (11, -1) in corners(got)
    assert ring_area(got.facets(96).points) > ring_area(dome.facets(96).points) + 25


def test_the_growth_is_the_allowance_everywhere():
    part = Outline((0, 0), (10, 0), (14, 12), (14, 30), (0, 30))
    kernel = SolidKernel()
    inner, outer = kernel.revolve(part, "part"), kernel.revolve(grown(part, 1.5), "stock")
    assert (inner - outer).volume < 1e-9
    skin_gap = (outer - kernel.revolve(grown(part, 1.4999), "x")).volume
    assert 0 < skin_gap < 1
    hollow = kernel.box((-50, -50, -50), (50, 50, 50), "box") - outer
    assert hollow.gap(inner, 5) == pytest.approx(1.5, rel=1e-3)


def test_what_cannot_grow_is_refused():
    with pytest.raises(ValueError, match="above 0"):
        grown(Outline((0, 0), (1, 0), (1, 1)), 0)
    with pytest.raises(ValueError, match="turns inward"):
        grown(Outline((0, 0), (10, 0), (10, 10)).arc((10, 14), 4, -90, 90).to((0, 18)), 1)
