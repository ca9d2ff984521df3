"""Turning set-ups: nothing overlaps, everything is where the numbers say, and the same input gives the same bytes."""

import dataclasses
import os
import random
import re
import xml.etree.ElementTree as ET

import figure_random
import figure_setups
import numpy as np
import pytest
import shapely

from methodfigures.setups.turning.figure import compose_turning_setup, describe, draw_turning_setup
from methodfigures.setups.turning.spec import HOLDER_NAMES, VERBS
from methodfigures.setups.turning.stage import staged
from methodfigures.solids.views import ViewBook
from methodtooling import fixtures, tools
from methodtooling.fixtures import Part

SVG = "{http://www.w3.org/2000/svg}"
RANDOM = int(os.environ.get("METHODFIGURES_RANDOM", "240"))


def texts(drawing):
    return [t.text for t in ET.fromstring(drawing.svg).iter(SVG + "text")]


@pytest.mark.parametrize("case", figure_setups.CASES, ids=lambda c: c.__name__)
def test_no_set_up_of_the_gallery_overlaps(case):
    drawing = draw_turning_setup(case())
    assert drawing.clashes == ()
    assert drawing.width_mm == 170
    assert len(drawing.svg) < 60_000


def test_random_set_ups_do_not_overlap():
    r = random.Random(20251125)
    bad = []
    for i in range(RANDOM):
        spec = figure_random.at_random(r)
        drawing = draw_turning_setup(spec)
        if drawing.clashes:
            bad.append((i, spec.holding, spec.verb, drawing.clashes))
    assert bad == []


def test_long_words_inches_and_pictorials_do_not_overlap_either():
    r = random.Random(77)
    bad = []
    for i in range(RANDOM // 3):
        spec = figure_random.at_random(r)
        texts = {"grip": "gripped 19.05 on Ø20.64 (0.8125 in)"} if i % 2 else {}
        spec = dataclasses.replace(
            spec,
            tool_name="carbide-tipped " + (spec.tool_name or "tool") + ", right hand",
            removed_text=spec.removed_text + ", 98.4 g",
            holder_name="independent four-jaw chuck",
            pictorials=i % 5 == 0,
            units="in" if i % 3 == 0 else "mm",
            dimension_texts={**spec.dimension_texts, **texts, "mark": "0° mark"},
        )
        drawing = draw_turning_setup(spec)
        if drawing.clashes:
            bad.append((i, spec.holding, spec.verb, drawing.clashes))
    assert bad == []


def test_a_wrong_set_up_says_everything_that_is_wrong():
    with pytest.raises(ValueError, match=r"holding must be one of .*three-jaw.*got 'glue'.*; out must be A or B"):
        dataclasses.replace(figure_setups.facing(), holding="glue", out="C")


def test_marks_on_turned_work_are_drawn():
    t = np.linspace(0, 2 * np.pi, 49)
    ring = np.c_[10.05 * np.cos(t), 10.05 * np.sin(t), np.full(49, 30.0)]
    spec = figure_setups.with_centre()
    mesh = dataclasses.replace(spec.after[0], marks=(ring,))
    stage = staged(spec, ViewBook(), 0.0)
    sheet = compose_turning_setup(dataclasses.replace(spec, after=(mesh,)), ViewBook())
    x = stage.x(30.0)
    line = [m.vertices for m in sheet.marks if getattr(m, "style", None) and abs(m.vertices[:, 0] - x).max() < 0.01]
    assert max(np.ptp(p[:, 1]) for p in line) == pytest.approx(2 * 10.05 * stage.scale, rel=0.01)


def test_the_gallery_shows_every_verb_and_every_way_of_holding():
    specs = [c() for c in figure_setups.CASES]
    assert {s.verb for s in specs} >= VERBS - {"profile"}
    assert {s.holding for s in specs} == set(HOLDER_NAMES)


@pytest.mark.parametrize("case", [figure_setups.with_centre, figure_setups.thrown])
def test_with_pictorials_below(case):
    drawing = draw_turning_setup(case(pictorials=True))
    assert drawing.clashes == ()
    assert {"before", "after"} <= set(texts(drawing))
    assert drawing.height_mm > draw_turning_setup(case()).height_mm + 25


def test_profile_and_inside_cuts():
    w = figure_setups.Work(40, 60)
    w.cut(w.hole(16, 0, 61))
    spec = w.spec(
        w.hole(22, 8, 14),
        verb="groove",
        holding="three-jaw",
        grip=(40, 60),
        grip_diameter=40,
        inside=True,
        cut_start=8,
        cut_end=14,
        cut_diameter=22,
        from_diameter=16,
        tool_name="internal grooving tool",
    )
    assert draw_turning_setup(spec).clashes == ()
    w = figure_setups.Work(30, 60)
    spec = w.spec(
        w.outside(24, 0, 20),
        verb="profile",
        holding="collet",
        grip=(36, 60),
        grip_diameter=30,
        cut_end=20,
        cut_diameter=24,
        from_diameter=30,
    )
    assert draw_turning_setup(spec).clashes == ()


# ---------------------------------------------------------------------- words
def test_dimensions_are_the_words_of_the_operation():
    spec = dataclasses.replace(
        figure_setups.with_centre(),
        dimension_texts={"diameter": "Ø16 h7", "length": "70 + 0.2", "stick-out": "76 out", "grip": "gripped 19"},
        holder_name="big chuck",
        tool_name="tool T1",
    )
    assert {"Ø16 h7", "70 + 0.2", "76 out", "gripped 19", "big chuck", "tool T1", "cut away 7.9 cm³"} <= set(
        texts(draw_turning_setup(spec))
    )


def test_default_words_come_from_the_numbers_not_from_the_mesh():
    spec = dataclasses.replace(figure_setups.with_centre(), cut_diameter=16.04, grip_diameter=20.2)
    found = texts(draw_turning_setup(spec))
    assert "Ø16.04" in found
    assert "grip 19 on Ø20.2" in found


def test_inches():
    found = texts(draw_turning_setup(dataclasses.replace(figure_setups.with_centre(), units="in")))
    assert "stick-out 2.992" in found  # 76 / 25.4
    assert "Ø0.630" in found


def test_scale_and_break_are_stated():
    assert "1 : 1.25, shortened" in texts(draw_turning_setup(figure_setups.slender()))
    assert "1 : 1.25" in texts(draw_turning_setup(figure_setups.with_centre()))


def test_the_description_tells_what_is_shown():
    words = describe(figure_setups.thrown())
    for part in ("four-jaw chuck", "diameter 60", "8 off the axis", "turn to diameter 25", "from 0 to 30"):
        assert part in words
    assert "centre in the tailstock" in describe(figure_setups.with_centre())


# ---------------------------------------------------------------------- true to scale
def wide_lines(sheet):
    return [m.vertices for m in sheet.marks if getattr(m, "style", None) and m.style.stroke and m.style.width == 0.5]


def test_the_work_is_to_scale():
    spec, book = figure_setups.with_centre(), ViewBook()
    stage = staged(spec, book, 0.0)
    p = np.concatenate(wide_lines(compose_turning_setup(spec, book)))
    k = stage.scale
    near = p[np.abs(p[:, 0] - stage.face_x) < 0.02]
    assert np.ptp(near[:, 1]) == pytest.approx(16 * k, rel=1e-3)  # the turned end
    step = p[np.abs(p[:, 0] - (stage.face_x - 70 * k)) < 0.02]
    assert np.ptp(step[:, 1]) == pytest.approx(20 * k, rel=1e-3)


def test_a_broken_piece_keeps_its_true_diameters_and_loses_length():
    spec = figure_setups.slender()
    stage = staged(spec, ViewBook(), 0.0)
    assert stage.gap is not None
    a, b = stage.gap
    assert 20 < a < b < 270 or 270 < a < b < 305  # within a plain stretch
    assert stage.x(0) - stage.x(305) == pytest.approx((305 - (b - a)) * stage.scale + 3, rel=1e-9)


@pytest.mark.parametrize("case", [figure_setups.facing, figure_setups.drilled, figure_setups.parted])
def test_removed_metal_is_shown_where_it_was(case):
    spec, book = case(), ViewBook()
    stage = staged(spec, book, 0.0)
    sheet = compose_turning_setup(spec, book)
    drawn = shapely.union_all(
        [shapely.Polygon(m.vertices) for m in sheet.marks if getattr(m, "style", None) and m.style.fill == "removed"]
    )
    true = stage.local(book.section(spec.removed, stage.view, 0.0))
    place = shapely.transform(
        true, lambda p: np.c_[stage.face_x - p[:, 0] * stage.scale, stage.axis_y + p[:, 1] * stage.scale]
    )
    assert drawn.symmetric_difference(place).area < 0.02 * place.area


def test_given_polygons_are_drawn_as_they_are():
    mine = Part("special jaw", fixtures.ring([(70, 10), (70, 22), (95, 22), (95, 10)]), role="jaw")
    spec, book = (
        dataclasses.replace(figure_setups.with_centre(), holder_parts=(mine,), holder_name="own fixture"),
        ViewBook(),
    )
    stage = staged(spec, book, 0.0)
    sheet = compose_turning_setup(spec, book)
    area = next(m.vertices for m in sheet.marks if getattr(m, "style", None) and m.style.fill == "jaw")
    width = np.ptp(area[:, 0]) / stage.scale
    assert width == pytest.approx(25 if width > 20 else width)
    assert "own fixture" in [t.text for t in sheet.register.texts]


# ---------------------------------------------------------------------- output
def test_byte_identical_on_a_second_run_and_with_a_shared_book():
    book = ViewBook()
    one = draw_turning_setup(figure_setups.thrown(), book)
    two = draw_turning_setup(figure_setups.thrown(), book)
    three = draw_turning_setup(figure_setups.thrown())
    assert one.svg == two.svg == three.svg


def test_specs_are_equal_by_content_and_travel_to_workers():
    import pickle

    a, b = figure_setups.with_centre(), figure_setups.with_centre()
    assert a == b
    assert a.key() == b.key()
    assert pickle.loads(pickle.dumps(a)).key() == a.key()
    assert dataclasses.replace(a, cut_end=69.0).key() != a.key()
    assert dataclasses.replace(a, dimension_texts={"diameter": "x"}).key() != a.key()


def test_line_widths_in_the_file():
    svg = draw_turning_setup(figure_setups.drilled()).svg
    used = {float(w) for w in re.findall(r"stroke-width:([0-9.]+)", svg)}
    assert {0.5, 0.25, 0.18, 0.13} <= used
    assert max(used) == 0.5


# ---------------------------------------------------------------------- fixtures and tools
GRIP = (40.0, 60.0)


@pytest.mark.parametrize(
    "parts",
    [
        fixtures.three_jaw(12.5, GRIP),
        fixtures.soft_jaws(12.5, GRIP),
        fixtures.four_jaw(12.5, GRIP),
        fixtures.collet(12.5, GRIP),
    ],
)
def test_a_holder_touches_the_work_and_does_not_cut_into_it(parts):
    work = shapely.box(0, -12.5, 60, 12.5)
    shape = fixtures.outline(parts)
    assert shape.intersection(work).area < 1e-9
    touch = shape.intersection(shapely.LineString([(GRIP[0], 12.5), (GRIP[1], 12.5)]))
    assert touch.length == pytest.approx(20.0)


def test_an_offset_four_jaw_grips_above_and_below_the_axis_unequally():
    parts = fixtures.four_jaw(8.0, GRIP, 6.0, packing=1.0)
    jaws = sorted((p.bounds for p in parts if p.name == "jaw"), key=lambda b: b[1])
    assert jaws[0][3] == pytest.approx(-(8 + 6 + 1))
    assert jaws[1][1] == pytest.approx(8 - 6 + 1)
    strips = [p for p in parts if p.name == "packing"]
    assert len(strips) == 2
    assert not any(p.polygon.intersection(j.polygon).area > 1e-9 for p in strips for j in parts if j.name == "jaw")


def test_a_centre_is_sixty_degrees():
    ring = np.array(fixtures.rotating_centre(2.0, 9.0)[0].ring)
    a, b = ring[0], ring[1]
    assert np.degrees(np.arctan2(b[1] - a[1], a[0] - b[0])) == pytest.approx(30)


@pytest.mark.parametrize(
    ("parts", "tip"),
    [
        (tools.knife(), (0.0, 0.0)),
        (tools.blade(2, 10), (0.0, 0.0)),
        (tools.twist_drill(10, 30), (0.0, 0.0)),
        (tools.threading_tool(), (0.0, 0.0)),
        (tools.boring_bar(30, 40), (0.0, 0.0)),
        (tools.reamer(10, 20), (0.0, 0.0)),
    ],
)
def test_tools_have_their_point_at_the_origin(parts, tip):
    shape = fixtures.outline(parts)
    assert shape.distance(shapely.Point(tip)) < 0.8
    _, _, x1, y1 = shape.bounds
    assert y1 <= 1e-9 or x1 <= 1e-9  # nothing beyond the cut


def test_a_drill_is_as_wide_as_its_hole_and_pointed_as_asked():
    drill = tools.twist_drill(10, 30, 5, 118.0)[0]
    assert drill.bounds[1::2] == pytest.approx((-5, 5))
    ring = np.array(drill.ring)
    corner = ring[1]
    assert 2 * np.degrees(np.arctan2(abs(corner[1]), abs(corner[0]))) == pytest.approx(118)


def test_parts_are_plain_data():
    import pickle

    parts = fixtures.collet(8, GRIP)
    assert pickle.loads(pickle.dumps(parts)) == parts
    assert hash(parts) == hash(fixtures.collet(8, GRIP))
    assert fixtures.moved(fixtures.moved(parts, 3, 1), -3, -1)[0].bounds == pytest.approx(parts[0].bounds)


def test_between_centres_the_work_is_seen_whole_wherever_the_dog_stands():
    """The dog may stand on a web before the far journal: the driving centre is in the far face all the same."""
    spec = dataclasses.replace(figure_setups.between_centres(), grip=(106.0, 114.0))
    drawing = draw_turning_setup(spec)
    assert drawing.clashes == ()
    assert "between centres 140" in texts(drawing)
    holder = fixtures.between_centres(11.0, (106.0, 114.0), back=140.0)
    centre = next(part for part in holder if "centre" in part.name)
    assert centre.bounds[0] == pytest.approx(140.0, abs=3.0)
    assert spec.back == 140.0
