"""Does the comparison answer in one screen, and do its sentence and its chart say the same?"""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from samples import handbook

from methodsheets.formula.measure import Measure
from methodsheets.handbook.break_even import break_even, quicker, quicker_first, same_band
from methodsheets.handbook.comparison import TRUENESS
from methodsheets.handbook.lines import NOTHING
from methodsheets.handbook.model import ComparisonRow, TimeLine
from methodsheets.pages import document as d
from methodsheets.pages.answer import REASONS, TOLD_ALWAYS, answer_blocks, cell_words, reasons, short_titles
from methodsheets.pages.charts import difference_chart
from methodsheets.sheet.spread import CUTTING_TIME, HANDLING_TIME

MINUTES = st.floats(1.0, 300.0).map(lambda value: round(value, 1))


def test_what_titles_share_is_left_out() -> None:
    assert short_titles(["Eccentric spindle, one piece", "Eccentric spindle, two pieces"]) == [
        "One piece",
        "Two pieces",
    ]
    assert short_titles(["Bush, turned", "Flange"]) == ["Bush, turned", "Flange"]
    assert short_titles(["Bush", "Bush reamed"]) == ["Bush", "Bush reamed"]
    assert short_titles(["Alone"]) == ["Alone"]


def test_nothing_is_said_to_run_true_to_nothing() -> None:
    """A run-out of 0 is one of the model: both were cut in one holding. The spindle's own is in no such figure."""
    none, some = (
        Measure(0.0, "mm", "size", "0.000 mm", "0.0000 in"),
        Measure(0.02, "mm", "size", "0.020 mm", "0.0008 in"),
    )
    row = ComparisonRow(TRUENESS, "journal to flange, likely", (none, some), True, 0)
    assert d.plain(cell_words(row, none)) == "cut in one holding"
    assert "0.020" in d.plain(cell_words(row, some))
    assert "0.000" in d.plain(cell_words(replace(row, group="Stiffness"), none))


def said_for(words: str, parts: int) -> str:
    """'same' or 'told': what a sentence about break-even says for a number of parts."""
    for said in words.lower().rstrip(".").split(", "):
        numbers = [int(found) for found in re.findall(r"\b(\d+)\b", said.split("way")[0])]
        low, high = {
            "for any": (1, 10**9), "for one": (1, 1), "up to": (1, numbers[0] if numbers else 0),
        }.get(" ".join(said.split()[:2]), (numbers[0] if numbers else 0, numbers[-1] if numbers else 0))  # fmt: skip
        if said.startswith("from"):
            high = 10**9
        if low <= parts <= high:
            return "same" if "about the same time" in said else "told"
    raise AssertionError(words)


@given(MINUTES, MINUTES, MINUTES, MINUTES, st.floats(0, 1), st.floats(0, 1))
def test_sentence_and_chart_agree(
    set_a: float, each_a: float, set_b: float, each_b: float, cut_a: float, cut_b: float
) -> None:
    one = TimeLine("a", "A way", set_a, each_a, cut_a * each_a)
    other = TimeLine("b", "B way", set_b, each_b, cut_b * each_b)
    first, second = quicker_first(one, other)
    words = break_even(one, other).words
    chart = difference_chart(first, second, 12)
    filled = re.findall(r'<circle [^>]*fill="(var\(--ms-ink|var\(--ms-paper)', chart)
    assert len(filled) == 12
    for parts, fill in enumerate(filled, start=1):
        apart = second.minutes(parts) - first.minutes(parts)
        if min(abs(apart - end) for end in same_band(first, second, parts)) > 1e-6:
            assert (said_for(words, parts) == "same") == (fill == "var(--ms-paper"), (words, parts)


@given(MINUTES, MINUTES, MINUTES, MINUTES, st.floats(0, 1), st.floats(0, 1), st.integers(1, 50))
def test_the_quicker_one_is_so_in_every_shop_that_the_estimates_allow(
    set_a: float, each_a: float, set_b: float, each_b: float, cut_a: float, cut_b: float, parts: int
) -> None:
    first, second = TimeLine("a", "A", set_a, each_a, cut_a * each_a), TimeLine("b", "B", set_b, each_b, cut_b * each_b)
    found = quicker(first, second, parts)
    if found is not None:
        slow = second if found is first else first
        for cutting in (CUTTING_TIME.low, 1.0, CUTTING_TIME.high):
            for handling in (HANDLING_TIME.low, 1.0, HANDLING_TIME.high):

                def time(line: TimeLine, cut: float = cutting, hand: float = handling) -> float:
                    return hand * (line.setting + parts * (line.each - line.cutting)) + cut * parts * line.cutting

                assert time(found) < time(slow)


def test_three_reasons_at_most_and_each_of_another_group() -> None:
    for comparison in handbook().comparisons.values():
        found = reasons(comparison)
        assert len(found) <= REASONS
        assert len({row.group for row in found}) == len(found)
        assert all(row.better is not None for row in found)


def test_what_it_costs_and_what_a_support_is_worth_stand_in_the_answer() -> None:
    """However little the ways differ by it: a reason is chosen, these two are always told."""
    book = handbook()
    comparison = next(iter(book.comparisons.values()))
    rows = [ComparisonRow(group, f"the line of {group}", (NOTHING, NOTHING), False) for group in TOLD_ALWAYS]
    said = str(answer_blocks(book, replace(comparison, rows=(*comparison.rows, *rows))))
    assert all(f"line of {group}" in said for group in TOLD_ALWAYS)


def test_times_that_the_records_correct_are_told_as_such() -> None:
    """The page of a method tells the estimate; two numbers of one name would be a riddle."""
    book = handbook()
    two = next(iter(book.comparisons.values()))
    for note, wanted in (
        ("", "Time for one"),
        ("corrected by the records of this workshop", "Time for one, as timed here"),
    ):
        rows = tuple(replace(one, note=note) if one.group == "Time" else one for one in two.rows)
        (answer,) = answer_blocks(book, replace(two, rows=rows))
        (table,) = [one for one in answer.content if isinstance(one, d.Table)]
        assert d.plain(table.rows[0].cells[0]) == wanted
