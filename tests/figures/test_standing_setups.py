"""Set-ups in the vice, on the rotary table and in the vee block: nothing overlaps, lines and places are right."""

from __future__ import annotations

import random
import re
from dataclasses import replace

import numpy as np
import pytest
import standing_random
import standing_setups as setups

from methodfigures.paper.sheet import TALLEST
from methodfigures.setups.cross.figure import compose_cross_setup, draw_cross_setup
from methodfigures.setups.rotary.figure import compose_rotary_setup, draw_rotary_setup
from methodfigures.setups.vice.figure import compose_vice_setup, draw_vice_setup
from methodfigures.setups.vice.layout import staged
from methodfigures.solids.views import ViewBook

DRAW = {
    "vice": (standing_random.random_vice, draw_vice_setup),
    "rotary": (standing_random.random_rotary, draw_rotary_setup),
    "cross": (standing_random.random_cross, draw_cross_setup),
}
NAMED = (
    [(draw_vice_setup, f) for f in setups.EXAMPLES.values()]
    + [(draw_rotary_setup, f) for f in setups.ROTARY.values()]
    + [(draw_cross_setup, f) for f in setups.CROSS.values()]
)


@pytest.mark.parametrize("kind", sorted(DRAW))
@pytest.mark.parametrize("block", range(4))
def test_random_set_ups_have_no_clash(kind, block):
    make, draw = DRAW[kind]
    found = {}
    for i in range(25):
        drawing = draw(make(random.Random(f"{kind} {block} {i}")))
        if drawing.clashes or drawing.height_mm > TALLEST:
            found[i] = drawing.clashes, drawing.height_mm
    assert found == {}


@pytest.mark.parametrize(("draw", "make"), NAMED)
def test_named_set_ups_are_clean_and_the_same_twice(draw, make):
    first, second = draw(make()), draw(make())
    assert first.clashes == ()
    assert first.height_mm <= TALLEST
    assert first.svg == second.svg
    assert make().key() == make().key()


def test_widths_are_those_of_group_05():
    """ISO 128-2: wide and narrow lines 2 : 1; nothing in between but the outline of tools."""
    svg = draw_vice_setup(setups.step_right()).svg
    widths = {float(w) for w in re.findall(r'stroke-width[:=]"?\s*([0-9.]+)', svg)}
    assert {0.5, 0.25} <= widths
    assert max(widths) == 0.5


def test_key_changes_with_every_field():
    a, b, c = setups.step_right(), setups.step_right(units="in"), setups.step_right(tool_name="shell end mill")
    assert len({a.key(), b.key(), c.key()}) == 3
    assert a == setups.step_right()
    assert hash(a) == hash(setups.step_right())


def test_pickles(tmp_path):
    import pickle

    for spec in (setups.step_right(), setups.flange_holes(), setups.keyway()):
        assert pickle.loads(pickle.dumps(spec)) == spec


def _texts(sheet):
    return [t.text for t in sheet.register.texts]


@pytest.mark.parametrize("make", setups.EXAMPLES.values())
def test_the_corner_that_places_are_counted_from_is_drawn(make):
    assert "0, 0" in _texts(compose_vice_setup(make(), ViewBook()))


def test_dimension_texts_win_over_numbers():
    words = {"depth": "0.394", "width x": "0.630", "above": "0.551"}
    texts = _texts(compose_vice_setup(setups.step_right(dimension_texts=words), ViewBook()))
    assert set(words.values()) <= set(texts)
    assert "10" not in texts


def test_jaws_meet_the_work_and_the_cut_is_where_it_is():
    """The step of 16 × 10 on a block of 60 × 36 × 28 begins at 44, the jaws hold 14 of its height."""
    stage = staged(setups.step_right(), ViewBook())
    gone = stage.place(stage.front).shape(stage.book.silhouette(stage.spec.removed, stage.front)).bounds
    wanted = (stage.x(44), stage.y(18), stage.x(60), stage.y(28))
    assert np.allclose(gone, wanted, atol=1e-6)
    assert stage.gripped == pytest.approx((0, 36))
    assert stage.y(14) - stage.y(0) == pytest.approx(14 * stage.scale)


def test_table_reads_the_angle_and_the_cut_lies_to_the_right():
    """The work's 0° mark lies clockwise of the cut by the angle that the table reads."""
    spec = setups.flange_holes()
    book = ViewBook()
    sheet = compose_rotary_setup(spec, book)
    assert "table reads 60°" in _texts(sheet)
    right = spec.outward
    centre = np.concatenate([m.vertices for m in spec.removed]).mean(0)
    assert centre[:2] @ right[:2] == pytest.approx(24, abs=0.05)
    assert abs(centre[0] * right[1] - centre[1] * right[0]) < 0.05


@pytest.mark.parametrize("angle", [0.0, 60.0, 150.0])
def test_cross_hole_is_uppermost(angle):
    spec = setups.cross_hole(angle)
    v = np.concatenate([m.vertices for m in spec.removed])
    assert np.ptp(v @ spec.upward) > 11.5  # through Ø12
    assert np.ptp(v @ np.cross(spec.upward, [0, 0, 1])) == pytest.approx(3, abs=0.05)
    assert compose_cross_setup(spec, ViewBook()).clashes() == ()


def test_description_tells_what_is_shown():
    words = draw_cross_setup(setups.cross_hole(60.0)).description
    for part in ("vee block", "diameter 16", "60 degrees", "diameter 3", "through", "8 from the face of end A"):
        assert part in words


def test_no_strap_lies_on_the_metal_that_is_cut():
    clamped = setups.step_right(holding="clamps", projection="third")
    sheet = compose_vice_setup(clamped, ViewBook())
    stage = staged(clamped, ViewBook())
    cut = stage.x(clamped.box[0])
    straps = [p for z, p in sheet.register.fills if abs(z - 5.5) < 0.01 or abs(z - 5.3) < 0.01]
    assert straps
    assert all(p.bounds[2] <= cut + 1e-6 for p in straps)


def test_what_is_drilled_through_on_the_table_stands_on_packing():
    drilled = replace(setups.holes(), holding="clamps", grip=0.0)
    raised, lying = (staged(replace(drilled, through=through), ViewBook()) for through in (True, False))
    assert raised.y(0) - raised.floor > 2.0
    assert lying.y(0) == lying.floor


@pytest.mark.parametrize("make", setups.EXAMPLES.values())
def test_the_tool_stands_near_the_cut(make):
    stage = staged(make(), ViewBook())
    assert stage.cutter_y - stage.y(stage.height) < 20.0


def test_many_places_end_in_a_list_that_says_what_it_left_out():
    """The list has room for some tens of places; its last row counts the others."""
    places = tuple((2.0 + 0.5 * i, 2.0 + 0.5 * j) for i in range(100) for j in range(50))
    many = replace(setups.holes(), places=places, diameter=0.3, box=(2, 2, 51.5, 26.5, 22))
    sheet = compose_vice_setup(many, ViewBook())
    more = [int(t[2:]) for t in _texts(sheet) if re.fullmatch(r"\+ \d+", t)]
    listed = {t for t in _texts(sheet) if t.isdigit()}
    assert len(more) == 1
    assert 4900 < more[0] < 5000
    assert str(5000 - more[0]) in listed
    assert sheet.height <= TALLEST
