"""Rules of drawing practice that no other test holds; DEVELOPERS.md lists all of them with their tests.

Clauses are cited from memory: ISO 128-2 (lines, leaders), ISO 128-3 (cuts), ISO 129-1 (dimensions), ISO 3098-1
(lettering).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper.marks import PathMark
from methodfigures.paper.palette import INK
from methodfigures.paper.sheet import HATCH, NARROW, WIDE, Sheet
from methodfigures.solids.simple_solids import block
from methodfigures.solids.views import Place, ViewBook, basis, draw_cut


def strokes(sheet: Sheet) -> list[PathMark]:
    return [m for m in sheet.marks if isinstance(m, PathMark) and m.style.stroke]


def test_widths_are_those_of_group_05() -> None:
    """ISO 128-2: wide to narrow 2 : 1."""
    assert WIDE == 2 * NARROW
    assert HATCH < NARROW


def test_a_head_is_filled_and_has_twenty_degrees() -> None:
    """Common practice within ISO 129-1: between 15 and 30 degrees."""
    sheet = Sheet(80, 60)
    dim.head(sheet, (40, 30), (1, 0))
    (mark,) = [m for m in sheet.marks if isinstance(m, PathMark)]
    tip, one, other = mark.vertices[np.argsort(-mark.vertices[:, 0])][[0, -1, -2]]
    angle = math.degrees(math.atan2(abs(one[1] - other[1]) / 2, tip[0] - one[0]) * 2)
    assert mark.style.fill == INK
    assert angle == pytest.approx(20, abs=1.5)


def test_extension_lines_leave_the_outline_alone_and_pass_the_dimension() -> None:
    sheet = Sheet(80, 60)
    dim.linear(sheet, (10, 10), (60, 10), 30, "50")
    upright = [m.vertices for m in strokes(sheet) if abs(m.vertices[0, 0] - m.vertices[-1, 0]) < 1e-9]
    assert len(upright) == 2
    for line in upright:
        assert line[:, 1].min() - 10 == pytest.approx(0.8)
        assert line[:, 1].max() - 30 == pytest.approx(1.6)


def test_a_centre_line_passes_the_outline() -> None:
    sheet = Sheet(80, 60)
    sheet.centre_line((20, 30), (60, 30))
    ends = np.concatenate([m.vertices for m in strokes(sheet)])[:, 0]
    assert ends.min() == pytest.approx(17)
    assert ends.max() == pytest.approx(63)


def test_two_bodies_are_hatched_two_ways_and_what_is_left_whole_not_at_all() -> None:
    """ISO 128-3: adjacent parts differ in direction or spacing; shafts and pins are not cut lengthwise."""
    solids = [block((0, 0, 0), (20, 20, 20)), block((20, 0, 0), (40, 20, 20))]
    view, book = basis((1, 0, 0), (0, 0, 1)), ViewBook()
    for whole, ways in ((frozenset(), 2), (frozenset({1}), 1)):
        sheet = Sheet(80, 60)
        cut = book.cut(solids, view, -10.0, whole)
        draw_cut(sheet, cut, Place(view, 1.0, np.array([5.0, 5.0])))
        lines = [m.vertices for m in strokes(sheet) if m.style.width == HATCH]
        angles = {round(math.degrees(math.atan2(*(q[-1] - q[0])[::-1])) % 180) for q in lines}
        assert len(angles) == ways


def test_a_break_line_is_narrow_and_freehand() -> None:
    sheet = Sheet(80, 60)
    line = shapely.LineString(sheet.break_line((10, 10), (10, 50)))
    assert line.length > 40.2
    assert line.hausdorff_distance(shapely.LineString([(10, 10), (10, 50)])) < 1.5
    assert {m.style.width for m in strokes(sheet)} == {NARROW}
