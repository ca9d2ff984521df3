"""Line types, lettering and output of a sheet.

Line widths: ISO 128-2 line group 0.5 (wide 0.5, narrow 0.25) and dash lengths in line widths, from memory.
"""

import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
import shapely
import svg_reader

from methodfigures.paper import dimensions as dim
from methodfigures.paper import palette, shapes, text
from methodfigures.paper.sheet import Sheet

SVG = "{http://www.w3.org/2000/svg}"


def drawn(sheet, title="Title", description="What is shown"):
    return sheet.drawing(title, description)


def widths(drawing):
    return {float(s["stroke-width"]) for s, _ in svg_reader.paths(drawing.svg) if s["stroke"] != "none"}


def test_what_is_written_lies_where_it_was_drawn():
    """Read back without the program: every line and area within rounding and thinning, and nothing more."""
    rng = np.random.default_rng(5)
    sheet = Sheet(100, 80)
    drawn_lines = [rng.uniform(5, 75, (n, 2)) for n in (2, 2, 3, 17, 200)]
    sheet.lines(drawn_lines, 0.5)
    ring = shapely.Point(40, 40).buffer(20, 64).difference(shapely.Point(40, 40).buffer(7, 64))
    sheet.area(ring, palette.TINT)
    found = svg_reader.paths(sheet.drawing("Title", "What is shown").svg)
    (lines,) = [lines for style, lines in found if style["stroke"] != "none"]
    turned = [np.array(line) * (1, -1) + (0, 80) for line in lines]
    assert len(turned) == len(drawn_lines)
    for got, want in zip(turned, drawn_lines, strict=True):
        assert shapely.hausdorff_distance(shapely.LineString(got), shapely.LineString(want)) < 0.03
    areas = [lines for style, lines in found if "--ms-tint" in style["fill"]]
    outer, inner = (shapely.Polygon(np.array(line) * (1, -1) + (0, 80)) for line in areas[0])
    got = shapely.symmetric_difference(outer, inner)
    assert shapely.hausdorff_distance(got.boundary, ring.boundary) < 0.03
    assert sum(len(line) for line in areas[0]) < 0.5 * len(shapely.get_coordinates(ring)), "thinned"


def test_visible_outlines_are_wide_and_everything_else_narrow():
    sheet = Sheet(60, 40)
    sheet.line([(5, 5), (50, 5)], "wide")
    sheet.line([(5, 10), (50, 10)], "narrow")
    sheet.line([(5, 15), (50, 15)], "hidden")
    sheet.line([(5, 20), (50, 20)], "centre")
    assert widths(drawn(sheet)) == {0.5, 0.25}


@pytest.mark.parametrize(("kind", "first"), [("hidden", 12.0), ("centre", 24.0), ("phantom", 24.0)])
def test_a_broken_line_begins_and_ends_with_a_dash(kind, first):
    pieces = shapes.dashes([(0, 0), (80, 0)], kind, 0.25)
    assert pieces[0][0].tolist() == [0, 0]
    assert pieces[-1][-1].tolist() == pytest.approx([80, 0])
    lengths = [np.hypot(*(p[-1] - p[0])) for p in (pieces[0], pieces[-1])]
    assert lengths[0] == pytest.approx(lengths[1])
    assert lengths[0] == pytest.approx(first * 0.25, rel=0.1)


def test_a_phantom_line_has_two_dots_between_dashes():
    lengths = [np.hypot(*(p[-1] - p[0])) for p in shapes.dashes([(0, 0), (80, 0)], "phantom", 0.25)]
    longest = max(lengths)
    kinds = ["-" if v > 0.5 * longest else "." for v in lengths]
    assert "".join(kinds[:7]) == "-..-..-"


def test_hatching_stays_inside_and_runs_at_its_angle():
    shape = shapely.Polygon([(0, 0), (30, 0), (30, 20), (0, 20)], [[(10, 5), (20, 5), (20, 15), (10, 15)]])
    lines = shapes.hatch_lines(shape, 45, 2.0)
    assert len(lines) > 20
    for p in lines:
        assert shape.buffer(1e-6).contains(shapely.LineString(p))
        d = p[-1] - p[0]
        assert abs(d[0] - d[1]) < 1e-6 * max(1.0, abs(d[0]))
    ruled = {round(float((p[0] @ (-1, 1)) / np.sqrt(2) / 2.0), 6) for p in lines}
    assert all(abs(v - round(v)) < 1e-6 for v in ruled)  # 2 mm apart


def test_widths_of_lettering_are_those_of_the_outlines():
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import TextPath

    for words in ("Ø16 H7/p6", "grip 19 on Ø20", "cut away 7.9 cm³", "0.25 × 45°"):
        size = text.HEIGHT / text.CAPITAL
        path = TextPath((0, 0), words, size=size, prop=FontProperties(family="DejaVu Sans"))
        inked = float(path.vertices[:, 0].max()) * text.CONDENSED
        assert text.width(words) == pytest.approx(inked, abs=0.35)  # side bearings, kerning


def test_lettering_of_any_script_has_a_width():
    """Our font has no such letters: full width is an em (Unicode Standard Annex 11), marks take none."""
    em = text.HEIGHT / text.CAPITAL
    assert text.width("軸受") == pytest.approx(2 * em)
    assert text.width("क्षि") < text.width("कषइक")
    assert text.width("Втулка") > 0.0 < text.width("שלום")


def test_lettering_is_text_with_its_measured_width():
    sheet = Sheet(80, 20)
    sheet.text(40, 8, "Ø16 <h7> & more")
    drawing = drawn(sheet)
    element = next(ET.fromstring(drawing.svg).iter(SVG + "text"))
    assert element.text == "Ø16 <h7> & more"
    assert float(element.get("textLength")) == pytest.approx(text.width("Ø16 <h7> & more"), abs=0.01)
    assert element.get("lengthAdjust") == "spacingAndGlyphs"
    middle = float(element.get("x")) + float(element.get("textLength")) / 2
    assert middle == pytest.approx(40, abs=0.02)


def test_words_are_broken_and_shortened_to_their_room():
    rows = text.wrap("Mill a flat 8.5 from the axis at minus forty degrees", 40, 2.5)
    assert len(rows) > 1
    assert all(text.width(r) <= 40 for r in rows)
    short = text.shortened("Mill a flat 8.5 from the axis at minus forty degrees", 30, 2)
    assert len(short) == 2
    assert short[-1].endswith("…")
    assert all(text.width(r) <= 30 for r in short)


def test_title_and_description_are_there_for_those_who_cannot_see():
    drawing = drawn(Sheet(20, 20), "A <bar>", "Held & turned")
    root = ET.fromstring(drawing.inline("p1"))
    assert root.get("role") == "img"
    title, desc = root.find(SVG + "title"), root.find(SVG + "desc")
    assert (title.text, desc.text) == ("A <bar>", "Held & turned")
    assert root.get("aria-labelledby").split() == [title.get("id"), desc.get("id")]


def test_two_drawings_on_a_page_share_no_id():
    drawing = drawn(Sheet(20, 20))
    one, two = (re.findall(r'id="([^"]+)"', drawing.inline(p)) for p in ("a", "b"))
    assert len(one) == 2
    assert not set(one) & set(two)


def test_nothing_global_and_no_date_in_the_drawing():
    sheet = Sheet(40, 40)
    sheet.circle((20, 20), 10)
    sheet.text(20, 5, "x")
    drawing = drawn(sheet)
    assert "<style" not in drawing.svg
    assert "metadata" not in drawing.svg
    assert not re.search(r"\d{4}-\d\d-\d\d", drawing.svg)


def test_colours_are_roles_in_a_page_and_fixed_in_a_file():
    sheet = Sheet(40, 40)
    for i, role in enumerate(palette.ROLES):
        sheet.area(shapely.box(i * 5, 5, i * 5 + 4, 9), role)
    drawing = drawn(sheet)
    for role in palette.ROLES:
        assert f"var(--ms-{role},{palette.LIGHT[role]})" in drawing.svg
    file = drawing.standalone(palette.DARK)
    assert "var(" not in file
    assert palette.DARK["tool"] in file
    assert 'width="40mm"' in file
    ET.fromstring(file.split("?>", 1)[1])


def luminance(colour):
    """Relative luminance after WCAG 2.2."""
    values = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.parametrize("scheme", [palette.LIGHT, palette.DARK])
def test_lines_and_lettering_stand_out_on_every_colour(scheme):
    """WCAG 2.2: text 4.5 : 1 (1.4.3), graphics 3 : 1 (1.4.11)."""
    ink = luminance(scheme["ink"])
    for role in palette.ROLES[1:]:
        pair = sorted((ink, luminance(scheme[role])))
        assert (pair[1] + 0.05) / (pair[0] + 0.05) >= 4.5, role


def test_the_same_marks_give_the_same_bytes_in_another_process():
    code = (
        "from methodfigures.paper.sheet import Sheet\n"
        "s = Sheet(50, 30); s.circle((20, 15), 8, fill='tint'); s.text(25, 5, 'Ø8'); s.centre_mark((20, 15), 8)\n"
        "import sys; sys.stdout.write(s.drawing('t', 'd').svg)"
    )
    root = str(Path(__file__).parents[2] / "figures")
    runs = [
        subprocess.run(
            [sys.executable, "-c", code],
            check=True,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": root},
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]
    assert runs[0].startswith("<svg")


# ---------------------------------------------------------------------- the overlap test finds overlaps
def test_a_clean_sheet_is_clean():
    sheet = Sheet(80, 60)
    dim.linear(sheet, (10, 10), (60, 10), 30, "50")
    dim.leader(sheet, (15, 30), (30, 50), "note")
    assert drawn(sheet).clashes == ()


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (lambda s: (s.text(40, 20, "one"), s.text(42, 21, "two")), "'one' over 'two'"),
        (lambda s: s.text(79, 20, "at the edge"), "off the sheet"),
        (lambda s: (s.text(40, 20, "word"), s.line([(30, 21), (50, 21)])), "a line crosses 'word'"),
        (lambda s: (s.text(40, 20, "word", mask=True), s.line([(30, 21), (50, 21)], "wide")), "a line crosses 'word'"),
        (lambda s: (s.text(40, 20, "word"), s.area(shapely.box(30, 10, 50, 30), "tint", 9.5)), "an area covers 'word'"),
        (
            lambda s: (dim.leader(s, (10, 10), (30, 40), "a"), dim.leader(s, (30, 10), (5, 40), "b", right=False)),
            "leaders cross",
        ),
        (
            lambda s: (dim.block_arrow(s, (10, 30), (40, 30)), dim.leader(s, (25, 10), (26, 50), "a")),
            "a leader crosses an arrow",
        ),
        (lambda s: (dim.block_arrow(s, (10, 30), (40, 30)), s.text(20, 29, "a")), "an arrow over 'a'"),
        (
            lambda s: (dim.linear(s, (10, 20), (40, 20), 30, "30"), dim.leader(s, (25, 10), (26, 50), "a")),
            "a leader crosses a dimension line",
        ),
        (
            lambda s: (s.break_line((10, 30), (40, 30)), dim.leader(s, (25, 10), (26, 50), "a")),
            "a leader crosses a break",
        ),
        (lambda s: dim.leader(s, (10, 10), (30, 40), "a"), "a leader ends in the air"),
        (
            lambda s: (s.line([(5, 10), (20, 10)]), dim.leader(s, (10, 10), (30, 40), "a", dot=True)),
            "a leader ends in the air",
        ),
    ],
)
def test_every_kind_of_overlap_is_found(spoil, what):
    sheet = Sheet(80, 60)
    spoil(sheet)
    assert any(what in c for c in drawn(sheet).clashes), drawn(sheet).clashes


def test_a_narrow_line_below_masked_lettering_is_no_clash():
    sheet = Sheet(80, 60)
    sheet.text(40, 20, "word", mask=True)
    sheet.line([(30, 21), (50, 21)], "narrow")
    assert drawn(sheet).clashes == ()


# ---------------------------------------------------------------------- dimensions
def heads(sheet):
    """Tips and directions of arrow heads: filled triangles in ink."""
    out = []
    for m in sheet.marks:
        if getattr(m, "style", None) and m.style.fill == "ink" and m.style.stroke is None and len(m.vertices) == 4:
            v = m.vertices[:3]
            sides = [np.hypot(*(v[(i + 1) % 3] - v[(i + 2) % 3])) for i in range(3)]
            tip = int(np.argmin(sides))
            base = v[[i for i in range(3) if i != tip]].mean(0)
            out.append((v[tip], (v[tip] - base) / np.hypot(*(v[tip] - base))))
    return sorted(out, key=lambda h: (h[0][0], h[0][1]))


def test_heads_point_outwards_when_there_is_room_and_inwards_when_not():
    wide = Sheet(80, 60)
    dim.linear(wide, (10, 10), (60, 10), 30, "50")
    (a, da), (b, db) = heads(wide)
    assert a.tolist() == pytest.approx([10, 30])
    assert b.tolist() == pytest.approx([60, 30])
    assert da[0] == pytest.approx(-1)
    assert db[0] == pytest.approx(1)
    tight = Sheet(80, 60)
    dim.linear(tight, (30, 10), (34, 10), 30, "4")
    (_, da), (_, db) = heads(tight)
    assert da[0] == pytest.approx(1)
    assert db[0] == pytest.approx(-1)


def test_an_upright_dimension_reads_from_the_right():
    sheet = Sheet(60, 60)
    dim.linear(sheet, (10, 10), (10, 50), 30, "40", "y")
    mark = next(m for m in sheet.marks if hasattr(m, "text"))
    assert mark.turn == 90
    assert mark.x < 30  # the text stands above the line as seen from the right
