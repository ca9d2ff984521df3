"""Line types as they stand in the finished file: dashes, gaps and widths are measured in the SVG, not in the program.

ISO 128-2, line group 0.5; dash 12, long dash 24, gap 3, dot at most 0.5 line widths (from memory).
"""

import itertools

import pytest
import svg_reader

from methodfigures import gallery
from methodfigures.paper.sheet import FINE, Sheet

LONG = 90.0


def strokes(svg):
    """(width, straight pieces) of every stroked path; a piece is its two ends."""
    for style, lines in svg_reader.paths(svg):
        if style["stroke"] != "none":
            yield float(style["stroke-width"]), [(line[0], line[-1]) for line in lines]


def level_line(kind):
    """(width, lengths of dashes, lengths of gaps) of a level line of one kind, read back from the file."""
    sheet = Sheet(100, 20)
    sheet.line([(5, 10), (5 + LONG, 10)], kind)
    ((width, pieces),) = list(strokes(sheet.drawing("Line", "One line").svg))
    pieces = sorted(sorted(p) for p in pieces)
    dashes = [b[0] - a[0] for a, b in pieces]
    gaps = [after[0][0] - before[1][0] for before, after in itertools.pairwise(pieces)]
    assert pieces[0][0][0] == pytest.approx(5)
    assert pieces[-1][1][0] == pytest.approx(5 + LONG)
    return width, dashes, gaps


@pytest.mark.parametrize(("kind", "width"), [("wide", 0.5), ("narrow", 0.25)])
def test_continuous_lines(kind, width):
    found, dashes, gaps = level_line(kind)
    assert found == width
    assert dashes == [pytest.approx(LONG)]
    assert gaps == []


@pytest.mark.parametrize(("kind", "pattern"), [("hidden", (12,)), ("centre", (24, 0.5)), ("phantom", (24, 0.5, 0.5))])
def test_broken_lines(kind, pattern):
    """Long dash and dots follow one another in the standard's proportions, stretched by a tenth at most."""
    width, dashes, gaps = level_line(kind)
    assert width == 0.25
    assert len(dashes) > 2 * len(pattern)
    for i, dash in enumerate(dashes):
        wanted = pattern[i % len(pattern)] * width
        assert dash == pytest.approx(wanted, rel=0.1, abs=0.02), (kind, i)
    assert gaps == [pytest.approx(3 * width, rel=0.1, abs=0.03)] * len(gaps)


def test_a_turning_set_up_has_every_line_type():
    """Wide outlines, narrow lines, thinner hatching, and an axis of long dashes and dots."""
    found = list(strokes(gallery.MAKERS["turning"]()[1].svg))
    widths = {width for width, _ in found}
    assert {0.5, 0.25, FINE} <= widths
    lengths = [abs(b[0] - a[0]) for width, pieces in found if width == 0.25 for a, b in pieces if a[1] == b[1]]
    assert any(abs(v - 6.0) < 0.6 for v in lengths), "long dashes of the axis"
    assert any(0.08 < v < 0.2 for v in lengths), "its dots"


def test_dashes_are_drawn_with_square_ends():
    """Round ends would eat the gaps."""
    sheet = Sheet(100, 20)
    sheet.line([(5, 10), (95, 10)], "hidden")
    styles = [style for style, _ in svg_reader.paths(sheet.drawing("Line", "One line").svg)]
    assert [s["stroke-linecap"] for s in styles if s["stroke"] != "none"] == ["butt"]
