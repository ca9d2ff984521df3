"""Does the comparison answer in one screen, and do its sentence and its chart say the same?"""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st
from samples import handbook

from methodsheets.handbook.comparison import MATTERS, break_even, quicker_first
from methodsheets.handbook.model import TimeLine
from methodsheets.pages.answer import REASONS, reasons, short_titles
from methodsheets.pages.charts import difference_chart

MINUTES = st.floats(1.0, 300.0).map(lambda value: round(value, 1))


def test_what_titles_share_is_left_out() -> None:
    assert short_titles(["Eccentric spindle, one piece", "Eccentric spindle, two pieces"]) == [
        "One piece",
        "Two pieces",
    ]
    assert short_titles(["Bush, turned", "Flange"]) == ["Bush, turned", "Flange"]
    assert short_titles(["Bush", "Bush reamed"]) == ["Bush", "Bush reamed"]
    assert short_titles(["Alone"]) == ["Alone"]


def said_for(words: str, parts: int) -> str:
    """'first', 'same' or 'second': what a sentence about break-even says for a number of parts."""
    if "take the same time" in words:
        return "same"
    if "for any number of parts" in words:
        return "first"
    words = words.lower()
    if "for one they take" in words:
        words = words.replace("for one they", "for 1 they")
    if (found := re.search(r"for (\d+)(?: to (\d+))? they take about", words)) is not None:
        low, high = int(found[1]), int(found[2] or found[1])
        return "first" if parts < low else "same" if parts <= high else "second"
    if (found := re.search(r"from (\d+) on they take about", words)) is not None:
        return "first" if parts < int(found[1]) else "same"
    if re.search(r"for any number they take about", words, re.IGNORECASE):
        return "same"
    found = re.search(r"from (\d+) on", words, re.IGNORECASE)
    assert found is not None, words
    return "first" if parts < int(found[1]) else "second"


@given(MINUTES, MINUTES, MINUTES, MINUTES)
def test_sentence_and_chart_agree(set_a: float, each_a: float, set_b: float, each_b: float) -> None:
    one, other = TimeLine("a", "A way", set_a, each_a), TimeLine("b", "B way", set_b, each_b)
    first, second = quicker_first(one, other)
    words = break_even(one, other).words
    if "for any number of parts" in words:
        return  # told without the band: the first is never slower
    chart = difference_chart(
        (first.title, first.setting, first.each), (second.title, second.setting, second.each), 12, MATTERS
    )
    filled = re.findall(r'<circle [^>]*fill="(var\(--ms-ink|var\(--ms-paper)', chart)
    assert len(filled) == 12
    for parts, fill in enumerate(filled, start=1):
        apart = abs(second.minutes(parts) - first.minutes(parts)) - MATTERS * first.minutes(parts)
        if abs(apart) > 1e-6:
            assert (said_for(words, parts) == "same") == (fill == "var(--ms-paper"), (words, parts)


def test_three_reasons_at_most_and_each_of_another_group() -> None:
    for comparison in handbook().comparisons.values():
        found = reasons(comparison)
        assert len(found) <= REASONS
        assert len({row.group for row in found}) == len(found)
        assert all(row.better is not None for row in found)
