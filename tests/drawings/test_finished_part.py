"""Does the drawing of the finished part say what the method says, and has it what a drawing office puts on it?"""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import replace

import numpy as np
import pytest
from tests.drawings import random_methods
from tests.method.bench import ROOT, demo, method, work_out
from tests.method.test_planted_faults import ALL, home

from methodfigures.paper.lanes import scale_words
from methodfigures.paper.marks import PathMark
from methodfigures.paper.sheet import NARROW as NARROW_LINE
from methodfigures.paper.sheet import WIDE
from methodfigures.part import PartDrawing, compose_part
from methodfigures.part.arranging import THIN, place
from methodfigures.part.details import SEEN
from methodfigures.part.drawing import TALLEST
from methodfigures.part.spec import CUT_NAME, Cutting, Side
from methodfigures.solids.views import ViewBook
from methodsheets.drawings.drawing_room import DrawingRoom
from methodsheets.drawings.finished import NARROW, part_spec
from methodsheets.drawings.solids import Drawn


def drawing_of(text: str, workshop: str = "osierbank-small", slug: str = "sample") -> PartDrawing:
    found = part_spec(Drawn(), work_out(text, workshop, slug).live)
    assert found is not None
    return found


def words_on(spec: PartDrawing) -> list[str]:
    views = [v for v in (spec.front, spec.beside_left, spec.beside_right, spec.below) if v]
    return [one.text for v in views for one in v.sizes] + [one.words for v in views for one in v.callouts]


@pytest.mark.parametrize("slug", ALL)
def test_every_size_on_it_is_a_size_of_the_solid(slug: str) -> None:
    """Each dimension text is the distance of its two points, to the rounding of the sheet."""
    spec = drawing_of(demo(slug), home(slug), slug)
    for view in (spec.front, spec.beside_left, spec.beside_right, spec.below):
        for size in view.sizes if view else ():
            said = float(re.search(r"[\d.]+", size.text)[0])
            apart = [abs(a - b) for a, b in zip(size.first, size.second, strict=True)]
            if size.text.startswith("Ø") or (size.side in (Side.LEFT, Side.RIGHT) and spec.below is None):
                assert sum(a * a for a in apart) ** 0.5 == pytest.approx(said, abs=1e-3), size
            else:
                assert any(a == pytest.approx(said, abs=1e-3) for a in apart), size


@pytest.mark.parametrize("slug", ALL)
def test_every_toleranced_size_stands_in_the_table(slug: str) -> None:
    evaluated = work_out(demo(slug), home(slug), slug)
    spec = part_spec(Drawn(), evaluated.live)
    asked = {
        (round(limit.upper.value, 3), round(limit.lower.value, 3))
        for operation in evaluated.method.operations
        for limit in operation.limits
        if limit.has_limits and not limit.fit.startswith("ISO 2768")
    }
    shown = {(float(row.upper), float(row.lower)) for row in spec.limits}
    assert asked == shown or len(spec.limits) == 7


def test_the_bush_is_half_in_section_with_its_fits() -> None:
    spec = drawing_of(demo("guide-bush"), home("guide-bush"), "guide-bush")
    assert spec.front.cutting is Cutting.HALF
    assert {"Ø24 p6", "Ø28", "22", "26", "Ø16 H7 through", "1 × 45°", "0.5 × 45° (2 places)"} <= set(words_on(spec))
    assert spec.beside_left is None


def test_solid_work_is_not_cut_and_its_ends_are_shown() -> None:
    spec = drawing_of(demo("eccentric-one-piece"), home("eccentric-one-piece"), "eccentric-one-piece")
    assert spec.front.cutting is Cutting.NONE
    said = words_on(spec)
    assert "Ø10 through on R17.5 at 0°" in said
    assert "2 × Ø10 through on R15.5 at −45° and 45°" in said
    assert "flat 8.5 from the axis at −40° and 40°" in said
    assert "R0.6" in said
    assert "ISO 6411-A2/4.25" in said


def test_equal_holes_on_a_circle_are_one_note() -> None:
    spec = drawing_of(demo("handwheel-flange"), home("handwheel-flange"), "handwheel-flange")
    assert "6 × Ø5.5 through on Ø42" in words_on(spec)
    assert spec.front.cutting is Cutting.FULL


def test_a_tapped_hole_has_its_thread_and_its_drill() -> None:
    spec = drawing_of(demo("clamp-block"), home("clamp-block"), "clamp-block")
    assert "M6 × 12, drill Ø5 × 14 deep" in words_on(spec)
    assert spec.below is not None
    assert [thread.major for thread in spec.below.threads] == [6.0]


def test_an_assembly_names_its_bodies_and_leaves_the_shaft_whole() -> None:
    spec = drawing_of(demo("eccentric-two-piece"), home("eccentric-two-piece"), "eccentric-two-piece")
    assert spec.front.cutting is Cutting.FULL
    balloons = [c.words for c in spec.front.callouts if c.item]
    assert balloons == ["1", "2", "3"]
    assert spec.items[0] == ("Item", "Part", "Material")
    assert [row[:2] for row in spec.items[1:]] == [("1", "spindle"), ("2", "disc"), ("3", "pin")]
    assert {spec.names[i] for i in spec.uncut} >= {"spindle", "pin"}


def test_an_assembly_is_taken_apart_in_its_pictorial() -> None:
    """The largest body stays; the others go along the axis on which they sit, until nothing of them is in another."""
    spec = drawing_of(demo("eccentric-two-piece"), home("eccentric-two-piece"), "eccentric-two-piece")
    spindle, disc, pin = (np.array(by) for by in spec.apart)
    assert np.abs(spindle).max() == 0
    assert np.abs(disc[:2]).max() < 1e-6 < abs(disc[2])
    assert abs(pin[2]) < 1e-6 < np.abs(pin[:2]).max()
    boxes = [
        (m.moved(by).vertices.min(0), m.moved(by).vertices.max(0))
        for m, by in zip(spec.solids, spec.apart, strict=True)
    ]
    for (low, high), (other_low, other_high) in itertools.combinations(boxes, 2):
        assert (low > other_high).any() or (high < other_low).any()
    written = [text.text for text in compose_part(spec, ViewBook()).register.texts]
    assert all(written.count(word) >= 1 for word in ("Item", "spindle", "disc", "pin"))


@pytest.mark.parametrize(("slug", "told"), [("lapped-plunger", "Ra 0.4"), ("knurled-drift", "Ra 1.6")])
def test_a_finish_that_the_part_asks_for_stands_in_its_symbol(slug: str, told: str) -> None:
    """ISO 1302: legs at 60 degrees whose foot stands on the leader to that surface, a bar for metal removed."""
    text = (ROOT.parent / "tests" / "methods" / f"{slug}.md").read_text(encoding="utf-8")
    spec = drawing_of(text, home(slug), slug)
    (note,) = [c for c in spec.front.callouts if c.surface]
    assert note.words == told
    assert math.hypot(*(a - b for a, b in zip(note.spot[:2], (0, 0), strict=True))) == pytest.approx(5)
    sheet = compose_part(spec, ViewBook())
    assert sheet.clashes() == ()
    legs = [
        m.vertices for m in sheet.marks if isinstance(m, PathMark) and m.vertices.shape == (4, 2) and m.codes is None
    ]
    rise = [math.degrees(math.atan2(*(b - a)[::-1])) for line in legs for a, b in itertools.pairwise(line)]
    assert any(abs(angle - 60) < 0.1 for angle in rise)


def test_a_run_out_that_the_part_asks_for_stands_in_its_frame() -> None:
    """ISO 1101, from memory: symbol, amount and letter in boxes, on a leader to the surface; ISO 5459: the datum's letter
    in a box whose triangle stands on its surface. What no view shows is a remark."""
    asks = ("0.03 mm, on 36 mm, to 16 mm", "0.1 mm, on 40 mm, to 16 mm", "0.1 mm, on 41 mm, to 16 mm")
    drawn = (
        "- round: 40 mm, over 60 mm",
        "- round: 16 mm, over 20 mm, only",
        "- round: 36 mm, from 20 mm, over 8 mm, only",
    )
    setup = "```setup\nmachine: lathe\nhold: three-jaw chuck, on 40 mm, grip 25 mm, end A out\n```\n\n"
    cut = "```op\nturn: to 36 mm, over 28 mm\n```\n\n```op\nturn: to 16 mm, over 20 mm\n```\n"
    part = "\n".join([*drawn, *(f"- runs true: {ask}" for ask in asks)])
    spec = drawing_of(method(f"```part\n{part}\n```\n\n{setup}{cut}"))
    framed = {(c.words, c.frame): c.spot for c in spec.front.callouts if c.frame}
    (datum,) = [c for c in spec.front.callouts if c.datum]
    assert {key: spot[0] for key, spot in framed.items()} == {("0.03", datum.words): 18.0, ("0.1", datum.words): 20.0}
    assert datum.spot[0] == 8.0
    assert datum.words not in "AB"
    assert "Ø41 runs true to Ø16 within 0.1." in spec.remarks
    sheet = compose_part(spec, ViewBook())
    assert sheet.clashes() == ()


def test_a_finish_of_a_block_stands_at_its_hole() -> None:
    hole = "drill: 12 mm, through, places (30 mm, 20 mm)"
    part = f"```part\n- block: 60 mm x 40 mm x 20 mm\n- {hole}\n- finish: 1.6 um, on 12 mm\n```\n\n"
    setup = "```setup\nmachine: mill\nhold: machine vice, up top, towards front, grip 8 mm\n```\n\n"
    spec = drawing_of(method(f"{part}{setup}```op\n{hole}\n```\n", stock="flat 40 mm x 20 mm x 60 mm"))
    assert [(c.words, c.surface) for c in spec.below.callouts] == [("Ø12 through", False), ("Ra 1.6", True)]


def test_many_holes_become_a_table() -> None:
    places = ", ".join(f"({6 + 11 * i} mm, {8 + 3 * i} mm)" for i in range(6))
    spec = drawing_of(
        method(
            "```setup\nmachine: mill\nhold: machine vice, up top, towards front, grip 6 mm\n```\n\n"
            f"```op\ndrill: 4 mm, deep 8 mm, places {places}\n```\n",
            stock="flat 40 mm x 20 mm x 80 mm",
        )
    )
    assert spec.holes[0] == ("Hole", "X", "Y", "Size")
    assert len(spec.holes) == 7
    assert spec.holes[1][3] == "Ø4 × 8 deep"


@pytest.mark.parametrize("seed", range(12))
def test_nothing_lies_over_anything_on_random_parts(seed: int) -> None:
    """Pins, shafts, flanges and blocks: the part, and its first cuts; `make bench` draws every figure of 200 of them."""
    evaluated = work_out(random_methods.text_of(seed), "osierbank-large")
    room = DrawingRoom(evaluated, {})
    spec = part_spec(room.drawn, evaluated.live)
    assert spec is not None
    for width in (spec.width, NARROW):
        assert compose_part(replace(spec, width=width), room.book).clashes() == ()
    for setup in evaluated.live.setups:
        for done in setup.operations[:2]:
            room.draw_operation(setup, done)
    assert room.failed == []
    assert room.shared or not any(setup.operations for setup in evaluated.live.setups)
    assert [(one.title, one.clashes) for one in room.shared.values() if one.clashes] == []


# ------------------------------------------------------------------------------------------------ small and long parts
TURNED = "```setup\nmachine: lathe\nhold: three-jaw chuck, on {0} mm, grip 15 mm, end A out\n```\n\n{1}\n"
GROOVED = ("face: 1 mm", "turn: to 16 mm, over 40 mm", "groove: from 20 mm, wide 0.5 mm, to 15.4 mm",
           "groove: from 30 mm, wide 0.5 mm, to 15.4 mm", "groove: from 5 mm, wide 3 mm, to 12 mm")  # fmt: skip
PIERCED = ("drill: 0.8 mm, deep 4 mm, places (10 mm, 10 mm), (20 mm, 10 mm)", "drill: 6 mm, through, places (60 mm, 20 mm)",
           "slot: wide 0.6 mm, deep 0.4 mm, along length, middle 30 mm")  # fmt: skip
BORED = ("face: 1 mm", "drill: 10 mm, deep 30 mm", "groove: from 10 mm, wide 0.4 mm, to 19.4 mm")
LONG = ("face: 1 mm", "turn: to 10 mm, over 40 mm", "groove: from 37 mm, wide 1 mm, to 9 mm")


def ops(*lines: str) -> str:
    return "\n\n".join(f"```op\n{line}\n```" for line in lines)


SMALL = {
    "grooves": (method(TURNED.format(20, ops(*GROOVED)), stock="round 20 mm x 60 mm"), {"0.5", "Ø15.4"}),
    "grooves in section": (method(TURNED.format(20, ops(*BORED)), stock="round 20 mm x 60 mm"), {"0.4", "Ø19.4"}),
    "holes and a slot": (
        method("```setup\nmachine: mill\nhold: machine vice, up top, towards front, grip 6 mm\n```\n\n" + ops(*PIERCED),
               stock="flat 40 mm x 12 mm x 90 mm"),
        {"2 × Ø0.8 × 4 deep", "0.6"},
    ),
    "a groove on a long pin": (method(TURNED.format(12, ops(*LONG)), stock="round 12 mm x 600 mm"), {"1", "Ø9"}),
}  # fmt: skip


@pytest.mark.parametrize("name", SMALL)
def test_what_cannot_be_seen_is_enlarged(name: str) -> None:
    """A detail view with letter and scale (ISO 128-3, from memory); nothing is told twice or lost, on no sheet."""
    text, told = SMALL[name]
    spec = drawing_of(text)
    for width in (spec.width, NARROW):
        laid = place(replace(spec, width=width), width, TALLEST)
        details = [one for one in laid.views if one.detail]
        shown = {s.text for one in details for s in one.view.sizes} | {
            c.words for one in details for c in one.view.callouts
        }
        assert told <= shown
        for one in details:
            assert all(one.detail.scale * small.least >= SEEN for small in one.small)
            assert one.detail.scale > laid.scale
        elsewhere = [s for one in laid.views for s in one.view.sizes if s.shown and not one.detail]
        view = next(one for one in laid.views if not one.detail)
        assert all(math.dist(s.first, s.second) * laid.scale >= SEEN for s in elsewhere)
        assert view.details or len(laid.views) > 2
        sheet = compose_part(replace(spec, width=width), ViewBook())
        assert sheet.clashes() == ()
        written = [text.text for text in sheet.register.texts]
        for one in details:
            assert f"{one.detail.letter} ({scale_words(one.detail.scale)})" in written
            assert written.count(one.detail.letter) == len(one.detail.places)


def test_wide_lines_never_run_together() -> None:
    """Two parallel wide lines leave 0.7 mm between them, or one is narrow (ISO 128-2, from memory)."""
    spec = drawing_of(SMALL["grooves"][0])
    sheet = compose_part(replace(spec, pictorial=((0, 0, 1), (1, 0, 0))), ViewBook())
    upright = [
        ink.line for ink in sheet.register.inks if ink.width == WIDE and len(ink.line) == 2 and ink.line[0][1] > 80
    ]
    places = sorted({round(float(line[0][0]), 3) for line in upright if abs(line[0][0] - line[1][0]) < 1e-6})
    assert len(places) > 5
    assert min(b - a for a, b in itertools.pairwise(places)) > SEEN


def test_a_long_thin_part_is_broken_and_its_sizes_are_true() -> None:
    spec = drawing_of(SMALL["a groove on a long pin"][0])
    for width in (spec.width, NARROW):
        laid = place(spec, width, TALLEST)
        front = laid.views[0]
        (gap,) = front.squeeze.across
        low, high = front.box(laid.scale)
        assert 12 * laid.scale >= THIN
        assert float(high[0] - low[0]) < width < 599 * laid.scale
        assert (gap[1] - gap[0]) * laid.scale > 100
        whole = next(s for s in front.view.sizes if s.text == "599")
        ends = [front.spot(p, laid.scale)[0] for p in (whole.first, whole.second)]
        assert ends == pytest.approx([low[0], high[0]])
        assert front.spot((0, 0, 40 + 1), laid.scale)[0] - ends[0] == pytest.approx(40 * laid.scale)
    waves = [
        m for m in compose_part(spec, ViewBook()).marks if isinstance(m, PathMark) and m.style.width == NARROW_LINE
    ]
    across = [
        m
        for m in waves
        if len(m.vertices) > 8 and np.ptp(m.vertices[:, 1]) > 11 * laid.scale > np.ptp(m.vertices[:, 0])
    ]
    assert len(across) == 2


def test_a_short_thick_part_is_not_broken() -> None:
    spec = drawing_of(SMALL["grooves"][0])
    assert not any(one.squeeze for one in place(spec, spec.width, TALLEST).views)


def test_a_long_name_takes_two_lines_of_the_title_block() -> None:
    evaluated = work_out(demo("tee-nuts"), home("tee-nuts"), "tee-nuts")
    spec = part_spec(Drawn(), evaluated.live, narrow=True)
    assert spec is not None
    name = "Shaft with four keyways, between chuck and tailstock on the level rotary table"
    sheet = compose_part(replace(spec, block=(("Part", name), *spec.block[1:])), ViewBook())
    assert sheet.clashes() == ()
    written = [text.text for text in sheet.register.texts]
    assert all(any(word in line.split() for line in written) for word in name.split())


def test_a_block_is_cut_open_where_its_bores_are() -> None:
    """ISO 128-3, from memory: in one plane through their axes, or in steps with the line of the cut in the plan."""
    for slug, planes in (("clamp-block", 1), ("tee-nuts", 1), ("bracket-brazed", 2)):
        spec = drawing_of(demo(slug), home(slug), slug)
        assert spec.front.cutting is Cutting.FULL
        assert len(spec.front.planes) == planes
        starts = [start for start, _ in spec.front.planes] + [math.inf]
        marks = [ring.centre for ring in spec.below.circles]
        passed = [
            (x, y)
            for (a, b), (_, plane) in zip(itertools.pairwise(starts), spec.front.planes, strict=True)
            for x, y, _ in marks
            if a < x < b and plane == pytest.approx(-y)
        ]
        assert len(passed) >= planes
        assert (spec.front.title == CUT_NAME) == bool(spec.below.cut_line) == (planes > 1)


def test_a_block_is_not_cut_where_a_cut_would_take_a_blind_hole_of_its_front_away() -> None:
    front = "```setup\nmachine: mill\nhold: machine vice, up front, towards bottom, grip 10 mm\n```\n\n"
    top = "```setup\nmachine: mill\nhold: machine vice, up top, towards front, grip 8 mm\n```\n\n"
    hole = "```op\ndrill: 5 mm, deep {} mm, places ({} mm, 8 mm)\n```\n\n"
    text = method(top + hole.format(6, 20) + front + hole.format(4, 8), stock="flat 20 mm x 16 mm x 40 mm")
    spec = drawing_of(text)
    assert spec.front.cutting is Cutting.NONE
    assert [c.words for c in spec.front.callouts] == ["Ø5 × 4 deep"]
