"""Storyboard, strip of sections, proof, removed metal, offset setting."""

import xml.etree.ElementTree as ET

import figure_spindle
import numpy as np
import pytest
from figure_solids import bar, block, tube

from methodfigures.explain.offset_setting import OffsetSetting, dial_reading, draw_offset_setting
from methodfigures.paper import text as lettering
from methodfigures.route.proof import Fault, Proof, compose_proof, draw_proof
from methodfigures.route.removed_metal import RemovedMetal, draw_removed_metal
from methodfigures.route.storyboard import CAPTION, Cell, Grid, Storyboard, compose_storyboard, draw_storyboard
from methodfigures.route.strip import SectionStrip, _choose, draw_section_strip
from methodfigures.solids.shading import shade_lines
from methodfigures.solids.views import ViewBook, pictorial_basis
from methodsheets.drawings.story import PHONE
from methodsheets.drawings.story import TWO as PHONE_COLUMNS

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def route():
    return figure_spindle.cells()


@pytest.fixture(scope="module")
def book():
    return ViewBook()


def texts(drawing):
    return [t.text for t in ET.fromstring(drawing.svg).iter(SVG + "text")]


@pytest.mark.parametrize("columns", [3, 4, 5])
def test_storyboard(route, book, columns):
    drawing = draw_storyboard(Storyboard(route[0], columns), book)
    assert drawing.clashes == ()
    found = texts(drawing)
    assert [c.number for c in route[0]] == [t for t in found if t.isdigit() and t in {c.number for c in route[0]}]
    assert figure_spindle.TABLE.split(",")[0] in " ".join(found)
    assert "Packed 6 off".lower() in drawing.description.lower()


def test_a_storyboard_for_a_phone_has_letters_that_can_be_read(route, book):
    """A screen of 390 px with its margins: captions of 11 px and more, as wide as two cells."""
    sheet = compose_storyboard(Storyboard(route[0], PHONE_COLUMNS, width=PHONE), book)
    drawing = sheet.drawing("Route", "The route of the spindle.")
    assert drawing.clashes == ()
    assert sheet.width == PHONE
    assert CAPTION / lettering.CAPITAL * 358 / PHONE >= 11.0


def test_a_set_up_that_runs_on_is_named_once(route):
    grid = Grid(route[0], 4)
    names = [" ".join(lines) for i in range(grid.rows) for lines, _, _ in grid.named(i) if lines]
    assert names == [
        figure_spindle.FOUR_JAW,
        figure_spindle.COLLET,
        figure_spindle.PACKED,
        figure_spindle.TABLE,
        figure_spindle.VEE,
    ]


def test_removed_metal_shows_in_every_cell(route, book):
    sheet = compose_storyboard(Storyboard(route[0]), book)
    tinted = [m for m in sheet.marks if getattr(m, "style", None) and m.style.fill == "removed"]
    width = 170 / 4
    columns = {int(m.vertices[:, 0].mean() // width) for m in tinted}
    assert columns == {0, 1, 2, 3}
    assert len(tinted) >= 13


def test_strip(route, book):
    drawing = draw_section_strip(SectionStrip(route[0]), book)
    assert drawing.clashes == ()


def test_a_strip_cuts_across_what_is_milled_and_drilled_beside_the_axis(route, book):
    across = {c.number for c in route[0] if _choose(book, c).across}
    assert across == {"11", "12", "14"}


def test_a_ring_that_is_turned_off_is_cut_along_its_axis(book):
    """Though the cut meets a hole in it, and across more of it would be seen."""
    ring = tube(10.6, 10, 40, 48) - block((4, -1, 46), (7, 1, 47))
    shaft = (bar(32, 0, 40).mesh(), bar(10, 40, 60).mesh())
    assert not _choose(book, Cell("1", "Turn to Ø10", "", shaft, (ring.mesh(),))).across


def test_one_cell_and_long_words():
    w, gone = tube(30, 20, 0, 40).mesh(), bar(20, 0, 40).mesh()
    cell = Cell(
        "7",
        "Bore right through with the long bar in several light passes and measure before the last one",
        "A set-up with a name that is much too long for the narrow column over which it stands",
        (w,),
        (gone,),
    )
    assert draw_storyboard(Storyboard((cell,), 5)).clashes == ()
    assert draw_section_strip(SectionStrip((cell,), 3)).clashes == ()


# ---------------------------------------------------------------------- proof
def test_proof(book):
    drawing = draw_proof(figure_spindle.proof(), book)
    assert drawing.clashes == ()
    found = texts(drawing)
    for fault in figure_spindle.proof().faults:
        assert fault.belongs_to in found
        assert fault.where in found
    assert found.count("1") == 2  # once in a circle, once in the table


def test_a_fault_is_shown_where_it_is_thin():
    """A ring 0.6 thick at a shoulder: seen from the side it is a thin strip, from the end a broad ring."""
    ring = tube(38, 16, 45.4, 46).mesh()
    proof = Proof((bar(38, 0, 92).mesh(),), (Fault("left on", ring, "shoulder", "45.4 to 46"),))
    sheet = compose_proof(proof, ViewBook())
    black = [
        m.vertices for m in sheet.marks if getattr(m, "style", None) and m.style.fill == "ink" and len(m.vertices) > 4
    ]
    wide = max(black, key=lambda v: np.ptp(v[:, 1]))
    assert np.ptp(wide[:, 0]) < 1.5
    assert np.ptp(wide[:, 1]) > 15


@pytest.mark.parametrize("n", [0, 1, 8, 14])
def test_any_number_of_faults(n):
    r = np.random.default_rng(n)
    faults = []
    for i in range(n):
        x, y, z = r.uniform((-15, -15, 2), (15, 15, 80))
        s = block((x, y, z), (x + r.uniform(0.3, 3), y + r.uniform(0.3, 3), z + r.uniform(0.3, 6))).mesh()
        faults.append(
            Fault(
                "left on" if i % 2 else "missing",
                s,
                f"feature {i} with quite a long name",
                f"{z:.1f} from A",
                "1.0",
                "0.2",
            )
        )
    drawing = draw_proof(Proof((bar(40, 0, 90).mesh(),), tuple(faults)))
    assert not [c for c in drawing.clashes if "leaders" not in c]
    assert len(drawing.clashes) <= n // 6


# ---------------------------------------------------------------------- removed metal, shading
def test_removed_metal(route):
    cells, w = route
    spec = RemovedMetal(
        (w.mesh(),),
        (bar(45, 0, 96, (3.0, 0.0)).mesh(),),
        "bar 1199 g, part 233 g,\nturnings 966 g",
        after=cells[9].after,
        removed=cells[9].removed,
        off=66,
        off_caption="operation 10\n5.48 cm³",
    )
    assert draw_removed_metal(spec).clashes == ()
    alone = RemovedMetal((w.mesh(),), (bar(45, 0, 96, (3.0, 0.0)).mesh(),), "bar 1199 g")
    assert draw_removed_metal(alone).clashes == ()


def test_shading_lies_on_the_dark_side_only():
    mesh, view = bar(20, 0, 50).mesh(), pictorial_basis((0, 0, 1))
    lines = shade_lines(ViewBook(), [mesh], view)
    assert lines
    middle = (mesh.vertices @ view[:2].T).mean(0)
    across = np.array([view[0, 2], view[1, 2]])
    across = np.array([-across[1], across[0]]) / np.hypot(*across)
    side = [float((p.mean(0) - middle) @ across) for p in lines]
    assert max(side) < 0 or min(side) > 0 or np.ptp(side) < 10  # one flank of the cylinder, not both


# ---------------------------------------------------------------------- offset setting
def test_the_dial_moves_over_twice_the_throw():
    readings = [dial_reading(16, 6, a) for a in range(361)]
    assert max(readings) == pytest.approx(12)
    assert min(readings) == pytest.approx(0)
    assert readings[180] == max(readings)
    assert dial_reading(16, 6, 90) == pytest.approx(
        (8**2 - 6**2) ** 0.5 - 2
    )  # Pythagoras: surface on the line through the axis
    assert dial_reading(16, 6, 30) == pytest.approx(dial_reading(16, 6, 330))


def test_the_dial_reads_what_a_turned_circle_shows():
    """Turn the circle about the axis and look where it meets a fixed line."""
    d, e = 25.0, 4.0
    for a in (17, 64, 120, 201):
        t = np.linspace(0, 2 * np.pi, 200001)
        centre = e * np.array([np.sin(np.radians(a)), -np.cos(np.radians(a))])
        x, y = centre[0] + d / 2 * np.cos(t), centre[1] + d / 2 * np.sin(t)
        top = y[(np.abs(x) < 1e-3) & (y > 0)].mean()
        assert dial_reading(d, e, a) == pytest.approx(top - (d / 2 - e), abs=1e-3)


@pytest.mark.parametrize(("d", "e"), [(16, 6), (60, 1.25), (25, 0.05), (10, 4.4), (80, 20), (45, 3)])
def test_offset_settings_do_not_overlap(d, e):
    assert draw_offset_setting(OffsetSetting(d, e, True)).clashes == ()
    assert draw_offset_setting(OffsetSetting(d, e, False)).clashes == ()


def test_a_throw_beyond_the_round_is_refused():
    with pytest.raises(ValueError, match="smaller than the radius"):
        draw_offset_setting(OffsetSetting(16, 8))
