"""First and third angle: the same views at the same scale, on the other side, and the sheet says so by its symbol.

ISO 5456-2: in first angle the view from above stands below and the view from the right on the left; in third angle
above and on the right.  The symbol's cone has its small end to the left, with the circles on the side where the
view from the left stands (from memory).
"""

from __future__ import annotations

import dataclasses
import random
import re

import numpy as np
import pytest
import standing_random
import standing_setups as setups

from methodfigures.paper.arrangement import FIRST, FOOT, THIRD, draw_symbol, exchange
from methodfigures.paper.sheet import Sheet
from methodfigures.setups.cross.figure import compose_cross_setup, draw_cross_setup
from methodfigures.setups.vice.figure import compose_vice_setup, draw_vice_setup
from methodfigures.solids.views import ViewBook

RANDOM = {
    "vice": (standing_random.random_vice, draw_vice_setup),
    "cross": (standing_random.random_cross, draw_cross_setup),
}


def third(spec):
    return dataclasses.replace(spec, projection=THIRD)


def places(sheet):
    """Words to their middle on the paper, and the extent of the shapes that show removed metal."""
    return {t.text: np.array(t.outline.centroid.coords[0]) for t in sheet.register.texts}


@pytest.mark.parametrize("kind", sorted(RANDOM))
def test_random_set_ups_in_third_angle_have_no_clash(kind):
    make, draw = RANDOM[kind]
    found = {}
    for i in range(40):
        drawing = draw(third(make(random.Random(f"{kind} third {i}"))))
        if drawing.clashes:
            found[i] = drawing.clashes
    assert found == {}


def test_the_section_seen_from_the_right_changes_sides():
    """Its arrows look to the left: in first angle it stands left of the front view, in third angle right of it."""
    spec = setups.step_right()
    first, other = (places(compose_vice_setup(s, ViewBook())) for s in (spec, third(spec)))
    assert first["fixed jaw"][0] < first["moving jaw"][0]
    assert other["fixed jaw"][0] > other["moving jaw"][0]
    assert set(first) == set(other)


def test_the_end_view_goes_to_the_right_of_the_elevation():
    spec = next(iter(setups.CROSS.values()))()
    first, other = (places(compose_cross_setup(s, ViewBook())) for s in (spec, third(spec)))
    seen = next(words for words in first if words.startswith("seen from"))
    middle = 85.0
    assert first[seen][0] < middle < other[seen][0]
    assert first["table"][0] - first[seen][0] > 0 > other["table"][0] - other[seen][0]


def test_views_keep_their_scale_and_their_shape():
    """The lines of a third-angle sheet are those of the first-angle sheet, moved."""
    spec = setups.step_right()
    lengths = []
    for one in (spec, third(spec)):
        sheet = compose_vice_setup(one, ViewBook())
        wide = [ink.line for ink in sheet.register.inks if ink.width == 0.5]
        lengths.append(sorted(round(float(np.hypot(*np.diff(line, axis=0).T).sum()), 6) for line in wide))
    assert lengths[0] == lengths[1]


def test_the_description_and_the_key_tell_the_arrangement():
    spec = setups.step_right()
    assert "First-angle projection." in draw_vice_setup(spec).description
    assert "Third-angle projection." in draw_vice_setup(third(spec)).description
    assert spec.key() != third(spec).key()
    with pytest.raises(ValueError, match=r"projection must be first or third \(got 'second'\)"):
        draw_vice_setup(dataclasses.replace(spec, projection="second"))


@pytest.mark.parametrize(("arrangement", "circles_left"), [(FIRST, False), (THIRD, True)])
def test_the_symbol(arrangement, circles_left):
    sheet = Sheet(40, 20)
    draw_symbol(sheet, 30, 5, arrangement)
    outlines = [ink.line for ink in sheet.register.inks if len(ink.line) > 3]
    cone = min(outlines, key=len)
    circles = [line for line in outlines if len(line) > 10]
    assert len(circles) == 2
    assert (circles[0][:, 0].mean() < cone[:, 0].mean()) == circles_left
    ends = {x: np.ptp(cone[np.isclose(cone[:, 0], x), 1]) for x in (cone[:, 0].min(), cone[:, 0].max())}
    assert ends[cone[:, 0].min()] < ends[cone[:, 0].max()]


def test_groups_change_places_without_gap_or_overlap():
    sheet = Sheet(50, 100)
    sheet.text(10, 10, "stays")
    sheet.text(10, 30, "below")
    sheet.text(10, 80, "above", turn=90)
    exchange(sheet, 60, low=20, foot=FOOT)
    y = {t.text: t.outline.centroid.y for t in sheet.register.texts}
    assert sheet.height == 100 + FOOT
    assert y["stays"] < 20
    assert y["below"] == pytest.approx(30 + 40 + FOOT, abs=2)
    assert y["above"] == pytest.approx(80 - 40 + FOOT, abs=4)
    svg = sheet.drawing("Title", "What is shown").svg
    assert {words: float(at) for at, words in re.findall(r'y="([0-9.]+)"[^>]*>(\w+)</text>', svg)}["below"] < 60
