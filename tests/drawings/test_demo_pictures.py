"""Every picture of the demo methods is drawn, says what it shows, and has nothing lying over anything else."""

from __future__ import annotations

import itertools
import re

import numpy as np
import pytest
from tests.drawings.told import all_untold
from tests.method.bench import demo, work_out
from tests.method.test_planted_faults import ALL, home

from methodfigures.paper.marks import PathMark
from methodfigures.paper.sheet import NARROW, TALLEST
from methodfigures.route.storyboard import compose_storyboard
from methodfigures.setups.vice.figure import compose_vice_setup
from methodfigures.solids.hidden_lines import find_lines
from methodfigures.solids.views import ViewBook, pictorial_basis
from methodsheets.drawings import draw_method, story
from methodsheets.drawings.dividing import rotary_spec
from methodsheets.drawings.finished import portrait_spec
from methodsheets.drawings.milling import can_draw, vice_spec
from methodsheets.drawings.solids import Drawn
from methodsheets.method.checks.clamping import Place, cut_boxes


@pytest.fixture(scope="module", params=ALL)
def drawn(request: pytest.FixtureRequest):
    evaluated, figures = work_out(demo(request.param), home(request.param), request.param), {}
    return evaluated, draw_method(evaluated, figures), figures


def test_no_picture_fails(drawn) -> None:
    evaluated, pictures, _ = drawn
    assert [str(p) for p in evaluated.live.problems if p.code == "no-picture"] == []
    assert pictures


def test_nothing_overlaps(drawn) -> None:
    _, _, figures = drawn
    assert [(figure.title, figure.clashes) for figure in figures.values() if figure.clashes] == []


def test_every_picture_tells_what_it_shows(drawn) -> None:
    _, pictures, _ = drawn
    for drawing, svg in pictures:
        assert drawing.caption
        assert len(drawing.description) > 20
        assert "<title" in svg
        assert "<desc" in svg


def test_every_number_and_count_is_one_of_its_record(drawn) -> None:
    evaluated, pictures, _ = drawn
    assert all_untold(evaluated, pictures) == []


def test_a_wrong_number_or_count_is_found(drawn) -> None:
    """A count of holes that is one too many, a size that has a thousand more: neither passes."""
    evaluated, pictures, _ = drawn
    counted = [(d, re.sub(r"(?<=>)(\d+)(?= × Ø)", lambda m: str(int(m[1]) + 1), s)) for d, s in pictures]
    sized = [(d, re.sub(r">(Ø?)(\d+)(?= deep|<)", r">\g<1>1009\2", s)) for d, s in pictures]
    for wrong in (counted, sized):
        changed = [
            (d, s) for (d, s), (_, right) in zip(wrong, pictures, strict=True) if s != right and d.kind == "setup"
        ]
        assert len(all_untold(evaluated, changed)) == len(changed)


def test_no_set_up_is_so_tall_that_a_page_makes_it_smaller(drawn) -> None:
    _, pictures, _ = drawn
    standing = [drawing for drawing, _ in pictures if drawing.kind in ("setup", "joint")]
    assert standing
    assert [drawing.scheme for drawing in standing if drawing.height_mm > TALLEST] == []


def test_keys_and_ids_are_unique_on_a_page(drawn) -> None:
    _, pictures, _ = drawn
    keys = [drawing.key for drawing, _ in pictures]
    assert len(set(keys)) == len(keys)
    ids = [found for _, svg in pictures for found in re.findall(r'\bid="([^"]+)"', svg)]
    assert len(set(ids)) == len(ids)


def test_every_operation_that_cuts_has_its_picture(drawn) -> None:
    evaluated, pictures, _ = drawn
    shown = {drawing.scheme for drawing, _ in pictures}
    cutting = {f"op-{done.number}" for done in evaluated.live.operations if done.volume > 0 and done.verb != "file"}
    assert cutting - shown == set()


def test_a_second_drawing_is_the_same_to_the_byte(drawn) -> None:
    evaluated, pictures, _ = drawn
    again = draw_method(evaluated)
    assert [svg for _, svg in again] == [svg for _, svg in pictures]


def test_bodies_of_a_picture_do_not_lie_in_one_another(drawn) -> None:
    """A nut has the core of its thread for a bore: drawn with its screw in it, the screw would lose its outline."""
    evaluated, _, _ = drawn
    board = Drawn()
    for done in evaluated.live.operations:
        if done.plan.join is not None:
            bodies = board.apart(*done.after)
            shared = [(a & b).volume for a, b in itertools.combinations(bodies, 2)]
            assert max(shared) < 1.0
            assert sum(b.volume for b in bodies) > 0.9 * done.after.solid.volume


def test_a_tapped_hole_is_drawn_as_a_thread() -> None:
    """ISO 6410-1, from memory: three quarters of a circle at its root in the plan, two narrow lines in the section."""
    evaluated = work_out(demo("tee-nuts"), home("tee-nuts"), "tee-nuts")
    setup, done = next(
        (s, d) for s in evaluated.live.setups for d in s.operations if d.plan.cut.pitch and d.plan.sketch.points
    )
    sheet = compose_vice_setup(vice_spec(Drawn(), setup, done), ViewBook())
    narrow = [ink.vertices for ink in sheet.marks if isinstance(ink, PathMark) and ink.style.width == NARROW]
    open_ends = [line for line in narrow if len(line) > 60 and np.hypot(*(line[0] - line[-1])) > 1.0]
    (root,) = [line for line in open_ends if abs(np.hypot(*(line[0] - line[-1])) / np.ptp(line[:, 1]) - 0.7071) < 0.01]
    wide = float(np.ptp(root[:, 1]))
    across = sorted({round(float(line[0, 0]), 2) for line in narrow if len(line) == 2 and np.ptp(line[:, 0]) < 1e-6})
    assert any(abs(b - a - wide) < 0.02 for a in across for b in across)


def test_metal_that_went_has_no_skin_where_the_cut_ends_on_an_earlier_one() -> None:
    """End B is turned to Ø32 over 24, and the last 10 of that are Ø32 already: 14 of metal go, and no more is tinted."""
    evaluated = work_out(demo("swing-shaft-solid"), home("swing-shaft-solid"), "swing-shaft-solid")
    done = next(d for s in evaluated.live.setups for d in s.operations if d.number == 60)
    board = Drawn()
    long = [float(np.ptp(np.concatenate([m.vertices[:, 2] for m in shown]))) for shown in
            (board.solids(done.removed), board.gone(done.removed))]  # fmt: skip
    assert long == pytest.approx([24.0, 14.0], abs=1e-3)


def test_a_pin_that_is_flush_with_its_web_has_a_whole_outline() -> None:
    """The end of a pressed pin and the face that it lies in: a circle, and no dots."""
    evaluated = work_out(demo("swing-shaft-built-up"), home("swing-shaft-built-up"), "swing-shaft-built-up")
    spec = portrait_spec(Drawn(), evaluated.live)
    assert spec is not None
    _, pin = find_lines(spec.solids, pictorial_basis(spec.face, spec.up), groups=[[0], [1]])
    rings = [line for line in pin.sharp if np.abs(line[0] - line[-1]).max() < 1e-6]
    across = [float(np.linalg.norm(ring[:, None] - ring[None], axis=2).max()) for ring in rings]
    assert any(wide == pytest.approx(8.0, abs=0.02) for wide in across)  # the long axis of an ellipse is true


def test_clamps_are_drawn_where_their_check_found_room() -> None:
    """On the table: beside all that is cut in the set-up, and enough of them to hold."""
    evaluated = work_out(demo("bracket-brazed"), home("bracket-brazed"), "bracket-brazed")
    every = [(s, d) for s in evaluated.live.setups for d in s.operations if can_draw(s, d)]
    clamped = [(s, d) for s, d in every if s.held.way and s.held.way.row.on_block == "clamps"]
    assert clamped
    for setup, done in clamped:
        spec = vice_spec(Drawn(), setup, done)
        assert len(spec.clamps) > 1
        for x, y, dx, dy in spec.clamps:
            low_x, low_y, high_x, high_y = Place(x, y, (dx, dy)).covers
            for a, b, c, d in cut_boxes(setup.operations):
                assert c <= low_x or a >= high_x or d <= low_y or b >= high_y


def test_a_centre_hole_is_told_by_its_mouth() -> None:
    """Only its mouth was said: a depth that follows from it to three decimals is no size to work to."""
    evaluated = work_out(demo("handwheel-flange"), home("handwheel-flange"), "handwheel-flange")
    setup, done = next((s, d) for s in evaluated.live.setups for d in s.operations if d.number == 90)
    assert rotary_spec(Drawn(), setup, done).dimension_texts["note"] == "6 × Ø4.25"
    setup, done = next((s, d) for s in evaluated.live.setups for d in s.operations if d.number == 100)
    assert "note" not in rotary_spec(Drawn(), setup, done).dimension_texts


def test_a_route_that_is_too_long_says_what_it_leaves_out(monkeypatch: pytest.MonkeyPatch) -> None:
    evaluated = work_out(demo("clamp-block"), home("clamp-block"), "clamp-block")
    whole = story.storyboard(Drawn(), evaluated.live)
    assert whole is not None
    assert whole.rest == ""
    monkeypatch.setattr(story, "MOST_CELLS", 2)
    short = story.storyboard(Drawn(), evaluated.live, narrow=True)
    assert short is not None
    sheet = compose_storyboard(short, ViewBook())
    assert f"and {len(whole.cells) - 2} more operations, which the sheet has" in [t.text for t in sheet.register.texts]
    assert sheet.clashes() == ()
