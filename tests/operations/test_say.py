"""Sentences that are ready in millimetres and in inches (25.4 mm, by definition)."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.operations import say
from methodsheets.sheet.words import NOTHING, Words, joined

SIZES = st.floats(min_value=0.001, max_value=500).map(lambda size: round(size, 3))


@pytest.mark.parametrize(
    ("draft", "metric", "inch"),
    [
        (f"Turn to {say.dia(38)} over {say.dim(13)}", "Turn to Ø38 over 13", "Turn to Ø1.496 over 0.512"),
        (f"Drill {say.dia(12.7)} through", "Drill Ø12.7 through", "Drill Ø0.5 through"),
        (f"{say.dim(0.016)} under", "0.016 under", "0.0006 under"),
        (f"takes {say.dim(2)} to {say.dim(70)} {say.MM}", "takes 2 to 70 mm", "takes 0.079 to 2.756 in"),
        (f"+ {say.exact(0.018)}", "+ 0.018", "+ 0.0007"),
        (f"push {say.both(80, 'force')}", "push 80\u202fN", "push 18\u202flbf"),
        (f"wanted {say.both(640, 'spindle_speed')}", "wanted 640\u202f1/min", ""),
        ("end A out", "end A out", ""),
    ],
)
def test_a_draft_becomes_words_in_both_systems(draft: str, metric: str, inch: str) -> None:
    assert say.words(draft) == Words(metric, inch)
    assert say.plain(draft) == metric


def test_words_may_become_part_of_other_words() -> None:
    inner = say.words(f"left on at {say.dia(38)}")
    assert say.words(f"the largest: {say.draft(inner)}, 2 of them") == Words(
        "the largest: left on at Ø38, 2 of them", "the largest: left on at Ø1.496, 2 of them"
    )
    assert say.draft(NOTHING) == ""


@pytest.mark.parametrize(
    ("text", "inch"),
    [
        ("round 28 mm x 31 mm", "round 1.102 in x 1.22 in"),
        ("round 45 mm x 96 mm, axis offset 3 mm at 0 deg", "round 1.772 in x 3.78 in, axis offset 0.118 in at 0 deg"),
        ("round 1 1/8 in x 2 in", ""),
        ("round bar x length", ""),
        ("25 mm^2, M6 and 3 mm/s", ""),
    ],
)
def test_what_the_author_wrote_stays_and_gets_an_inch_form(text: str, inch: str) -> None:
    assert say.as_written(text) == Words(text, inch)


@given(
    st.lists(st.one_of(SIZES.map(say.dim), SIZES.map(say.dia), st.sampled_from(["over", "from the", "×"])), max_size=6)
)
def test_the_parts_of_words_make_up_both_forms(pieces: list[str]) -> None:
    found = say.words(" ".join(pieces))
    parts = found.parts()
    assert "".join(metric for metric, _ in parts) == found.metric
    assert "".join(inch or metric for metric, inch in parts) == (found.inch or found.metric)
    assert all(one[1] != "" or other[1] != "" for one, other in pairwise(parts))


@given(SIZES)
def test_an_inch_form_is_the_same_size(size: float) -> None:
    inches = say.words(say.dim(size)).inch or "0"
    assert float(inches) * 25.4 == pytest.approx(size, abs=0.0005 * 25.4 if size >= 0.254 else 0.00005 * 25.4)


def test_changes_and_rows_keep_both_forms() -> None:
    grip = Words("grip 8", "grip 0.315")
    assert grip.led_by("set-up 1: ") == Words("set-up 1: grip 8", "set-up 1: grip 0.315")
    assert Words("end A out").led_by("set-up 1: ") == Words("set-up 1: end A out")
    assert joined([grip, Words("end A out")], "; ") == Words("grip 8; end A out", "grip 0.315; end A out")
    assert joined([], "; ") == NOTHING
    assert grip
    assert not NOTHING
    assert str(grip) == f"{grip}" == "grip 8"


def test_words_of_unlike_shape_change_as_a_whole() -> None:
    assert Words("wide by 3 mm", "wide by 1/8 of an inch").parts() == [("wide by 3 mm", "wide by 1/8 of an inch")]
