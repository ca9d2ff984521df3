"""Views of known solids: which edges must show."""

import numpy as np
import pytest
import shapely
from figure_solids import FACETS, bar, block, cross_bar, tube, turned

from methodfigures.solids.hidden_lines import find_lines
from methodfigures.solids.mesh import Mesh
from methodfigures.solids.sections import section, silhouette, trimmed
from methodfigures.solids.views import Place, ViewBook, basis, centred, pictorial_basis

FRONT = basis((1, 0, 0), (0, 0, 1))
ALONG = basis((0, 0, 1), (1, 0, 0))
END = basis((1, 0, 0), (0, 1, 0))
ISOMETRIC = np.stack([np.array([1, -1, 0]) / 2**0.5, np.array([-1, -1, 2]) / 6**0.5, np.array([1, 1, 1]) / 3**0.5])


def length(lines):
    return sum(float(np.hypot(*np.diff(p, axis=0).T).sum()) for p in lines)


def cube():
    return block((0, 0, 0), (10, 10, 10)).mesh()


def shaft():
    return turned([(0, 0), (0, 6), (22, 6), (22, 10), (60, 10), (60, 0)])


def test_a_cube_from_the_front_shows_four_edges():
    lines = find_lines([cube()], FRONT)[0]
    assert length(lines.visible()) == pytest.approx(40)


def test_a_cube_in_isometry_shows_nine_edges_and_hides_three():
    lines = find_lines([cube()], ISOMETRIC, hidden=True)[0]
    edge = 10 * (2 / 3) ** 0.5  # ISO 5456-3: foreshortened by the square root of two thirds
    assert length(lines.visible()) == pytest.approx(9 * edge)
    assert length(lines.hidden) == pytest.approx(3 * edge)


def test_a_cube_behind_another_is_hidden_exactly_where_it_is_covered():
    near = block((0, 0, 0), (10, 10, 10)).mesh()
    far = block((5, 20, 5), (15, 30, 15)).mesh()  # seen from −y: up and to the right, behind
    one, two = find_lines([near, far], FRONT, groups=[[0], [1]])
    assert length(one.visible()) == pytest.approx(40)
    assert length(two.visible()) == pytest.approx(40 - 2 * 5)


def test_a_stepped_shaft_from_the_side():
    lines = find_lines([shaft().mesh()], ALONG)[0]
    ends = sorted({round(float(p[0][0]), 3) for p in lines.sharp if abs(p[0][0] - p[-1][0]) < 1e-6})
    assert ends == [0, 22, 60]
    assert lines.smooth == []
    heights = {round(2 * float(abs(p[:, 1]).max())) for p in lines.contour}
    assert heights == {12, 20}


def test_facets_of_a_round_are_no_edges():
    lines = find_lines([bar(20, 0, 50).mesh()], pictorial_basis())[0]
    assert len(lines.contour) == 2  # the two outlines of the cylinder
    assert sum(len(p) for p in lines.sharp) > FACETS / 2  # near rim whole, far rim half


def test_a_cross_hole_shows_only_to_those_who_look_through_it():
    drilled = (bar(16, 0, 60) - cross_bar(5, -20, 20, 30)).mesh()
    across = find_lines([drilled], basis((0, 0, 1), (0, 1, 0)))[0]  # looking along x
    x = np.concatenate([p for p in across.visible() if np.ptp(p[:, 1]) < 14 and np.ptp(p[:, 0]) < 50])
    assert np.ptp(x[:, 0]) == pytest.approx(5, abs=0.05)
    assert np.ptp(x[:, 1]) == pytest.approx(5, abs=0.05)
    square = find_lines([drilled], ALONG, hidden=True)[0]
    inside = [p for p in square.hidden if abs(p[:, 0] - 30).max() < 2.6]
    assert length(inside) > 20  # the two walls of the hole are covered


def brute(meshes, view, spot):
    """Nearest height towards the reader over a spot, by trying every facet."""
    best = -np.inf
    for m in meshes:
        v = m.vertices @ view.T
        for t in m.triangles:
            a, b, c = v[t]
            d = np.array([b[:2] - a[:2], c[:2] - a[:2]]).T
            if abs(np.linalg.det(d)) < 1e-12:
                continue
            l1, l2 = np.linalg.solve(d, spot - a[:2])
            if l1 >= -1e-9 and l2 >= -1e-9 and l1 + l2 <= 1 + 1e-9:
                best = max(best, a[2] + l1 * (b[2] - a[2]) + l2 * (c[2] - a[2]))
    return best


def test_hidden_lines_agree_with_a_search_over_every_facet():
    """Middles of visible edges have nothing nearer; middles of hidden ones have."""
    mesh = (block((0, 0, 0), (20, 12, 8)) - block((5, -1, 4), (11, 13, 9)) - block((14, 3, -1), (17, 8, 9))).mesh()
    r = np.random.default_rng(4)
    for _ in range(4):
        view = basis(r.normal(size=3), r.normal(size=3))
        t, v = mesh.topology, mesh.vertices @ view.T
        lines = find_lines([mesh], view, hidden=True)[0]
        for shown, group in ((True, lines.sharp), (False, lines.hidden)):
            for p in group:
                if np.hypot(*(p[1] - p[0])) < 0.2:
                    continue
                m = (p[0] + p[1]) / 2
                heights = [
                    v[a, 2] + (v[b, 2] - v[a, 2]) * s
                    for a, b in t.edges[t.sharp]
                    for s in [_on(v, a, b, m)]
                    if s is not None
                ]
                covered = [brute([mesh], view, m) > h + 1e-3 for h in heights]
                assert (not all(covered)) if shown else any(covered)


def _on(v, a, b, m):
    d = v[b, :2] - v[a, :2]
    n = d @ d
    if n < 1e-12:
        return None
    s = float((m - v[a, :2]) @ d / n)
    return s if -1e-9 < s < 1 + 1e-9 and np.hypot(*(v[a, :2] + s * d - m)) < 1e-4 else None


# ---------------------------------------------------------------------- sections and silhouettes
def test_section_of_a_tube_has_the_area_of_its_walls():
    m = tube(40, 24, 0, 30).mesh()
    assert section(m, END, 10).area == pytest.approx(np.pi / 4 * (40**2 - 24**2), rel=1e-6)  # equal-area radius
    assert section(m, ALONG, 0).area == pytest.approx(30 * (40 - 24), rel=2e-3)
    assert section(m, END, 99).is_empty


def test_section_through_corners_of_facets_closes():
    """The plane goes exactly through vertices: the loops must still close."""
    m = shaft().mesh()
    for angle in np.arange(0, 90, 360 / FACETS):
        a = np.radians(angle)
        s = section(m, basis((0, 0, 1), (np.cos(a), np.sin(a), 0)), 0.0)
        assert s.area == pytest.approx(22 * 12 + 38 * 20, rel=2e-3)


def test_silhouette_is_the_union_of_the_facets():
    m = (block((0, 0, 0), (20, 12, 8)) - block((5, -1, 2), (11, 13, 9))).mesh()
    for view in (FRONT, ISOMETRIC, pictorial_basis((1, 0, 0), (0, 0, 1))):
        v = (m.vertices @ view.T)[:, :2]
        every = shapely.union_all([shapely.Polygon(v[t]).buffer(0) for t in m.triangles])
        assert silhouette(m, view).symmetric_difference(every).area < 1e-3


def test_what_is_cut_away_is_gone():
    m = trimmed(cube(), FRONT, -4.0)  # keep what lies 4 and more behind the xz plane, looking along +y
    assert m.vertices[np.unique(m.triangles), 1].min() == pytest.approx(4.0)
    assert m.vertices[np.unique(m.triangles), 1].max() == pytest.approx(10.0)


# ---------------------------------------------------------------------- bodies of revolution
@pytest.mark.parametrize(
    "solid",
    [
        bar(20, 0, 50),
        shaft(),
        tube(40, 24, 0, 30),
        turned([(0, 3), (0, 8), (10, 8), (12, 10), (30, 10), (30, 6), (18, 6), (18, 3)]),
        shaft() - turned([(60, 0), (60, 2), (50, 2), (49, 0)]),
        tube(30, 10, 0, 12, (5.0, -3.0)),
    ],
)
def test_the_quick_way_draws_what_the_search_finds(solid):
    mesh, book = solid.mesh(), ViewBook()
    profile = book.profile(mesh)
    assert profile is not None
    for view in (ALONG, basis((0, 0, -1), (0, 1, 0))):
        quick, slow = book.look([mesh], view), find_lines([mesh], view)[0]
        assert quick.silhouette.symmetric_difference(silhouette(mesh, view)).area < 2e-3 * quick.silhouette.area
        net = [shapely.union_all([shapely.LineString(p) for p in a.visible()]) for a in (quick.lines, slow)]
        assert net[0].hausdorff_distance(net[1]) < 0.05
    depth = float(ALONG[2] @ [*profile.axis, 0])
    cut = book.cut([mesh], ALONG, depth)
    assert cut.faces[0].symmetric_difference(section(mesh, ALONG, depth)).area < 5e-3 * cut.faces[0].area


@pytest.mark.parametrize(
    "solid",
    [
        block((0, 0, 0), (10, 10, 10)),
        bar(20, 0, 50) - block((6, -20, 20), (20, 20, 30)),
        bar(20, 0, 50) - cross_bar(4, -20, 20, 25),
        bar(40, 0, 20) - bar(6, -1, 30, (12.0, 0.0)),
        bar(20, 0, 20) + bar(12, 20, 40, (2.0, 0.0)),
    ],
)
def test_others_are_not_taken_for_turned(solid):
    assert ViewBook().profile(solid.mesh()) is None


def test_a_corner_radius_runs_out_in_a_narrow_line():
    t = np.linspace(0, np.pi / 2, 7)[1:-1]
    arc = [(20 - 2 + 2 * np.sin(a), 6 + 2 - 2 * np.cos(a), "corner") for a in t]
    solid = turned([(0, 0), (0, 6), (18, 6, "corner"), *arc, (20, 8), (20, 12), (40, 12), (40, 0)])
    look = ViewBook().look([solid.mesh()], ALONG)
    assert {round(float(p[0][0]), 2) for p in look.lines.smooth} == {18}  # where the corner runs into the cylinder
    assert sorted({round(float(p[0][0]), 2) for p in look.lines.sharp}) == [0, 20, 40]


# ---------------------------------------------------------------------- places, meshes, memory
def test_a_place_scales_and_cuts_to_its_window():
    place = Place(ALONG, 2.0, np.array([10.0, 20.0]), shapely.box(0, 0, 30, 40))
    assert place.spot((1, 0, 3)).tolist() == [16, 22]
    assert place.shape(shapely.box(0, 0, 50, 5)).bounds == (10, 20, 30, 30)
    middle = centred(ALONG, 2.0, (50, 50), [shaft().mesh()])
    assert middle.points((30, 0)).tolist() == pytest.approx([50, 50])


def test_meshes_are_equal_by_content_and_travel_to_workers():
    import pickle

    a, b = cube(), cube()
    assert a == b
    assert hash(a) == hash(b)
    assert a != a.moved((0, 0, 1e-9))
    _ = a.topology, a.normals
    again = pickle.loads(pickle.dumps(a))
    assert again == a
    assert "topology" not in again.__dict__
    assert isinstance(again, Mesh)


def test_a_view_is_worked_out_once():
    book, mesh = ViewBook(limit=3), cube()
    first = book.look([mesh], FRONT)
    assert book.look([cube()], FRONT) is first
    for z in range(5):
        book.look([mesh.moved((0, 0, z))], FRONT)
    assert book.look([mesh], FRONT) is not first  # forgotten: the book keeps three pages


def test_marks_take_part_and_are_hidden_behind_their_own_body():
    t = np.linspace(0, 2 * np.pi, 49)
    ring = np.c_[10.05 * np.cos(t), 10.05 * np.sin(t), np.full(49, 25.0)]
    mesh = bar(20, 0, 50).mesh((ring,))
    seen = find_lines([mesh], pictorial_basis())[0].smooth
    plain = float(np.hypot(*np.diff(ring @ pictorial_basis()[:2].T, axis=0).T).sum())
    assert 0.35 * plain < length(seen) < 0.65 * plain
