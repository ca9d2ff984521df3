"""Are the ends of an estimate carried on, and is a verdict as sure as they allow?"""

from __future__ import annotations

import pytest

from methodsheets.operations.sureness import between
from methodsheets.sheet.spread import BENDING, FORCE, Spread


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (70.0, "surely within"),
        (76.0, "surely within"),
        (80.0, "likely within, not surely"),
        (100.0, "likely within, not surely"),
        (120.0, "likely over, not surely"),
        (150.0, "surely over"),
    ],
)
def test_a_verdict_is_as_sure_as_both_ends_allow(value: float, verdict: str) -> None:
    assert FORCE.verdict(value, 100.0) == verdict


def test_independent_spreads_combine_as_the_root_of_their_squares() -> None:
    """3, 4, 5: thirty and forty percent give fifty."""
    both = Spread(0.7, 1.3).also(Spread(0.6, 1.4))
    assert (both.low, both.high) == (pytest.approx(0.5), pytest.approx(1.5))
    assert BENDING.high > FORCE.high
    assert BENDING.low < FORCE.low
    assert Spread(0.1, 2.0).also(Spread(0.1, 2.0)).low == 0.0


def test_the_words_name_both_ends_in_both_systems() -> None:
    from methodsheets.operations import say

    found = say.words(between(FORCE, 100.0, "force"))
    assert found.metric == "70\u202fN to 130\u202fN"
    assert "lbf" in found.inch
