"""Does the comparison say which method is better, and only where it is?"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.formula.display import measure
from methodsheets.handbook.break_even import break_even, quicker_first, same_band, time_line
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.comparison import Candidate, compare
from methodsheets.handbook.lines import NOTHING
from methodsheets.handbook.model import Comparison, ComparisonRow, Pace, TimeLine
from methodsheets.handbook.pace import by_records, corrected
from methodsheets.handbook.shop_cards import WorkshopCard
from methodsheets.sheet.model import (
    Caution,
    Check,
    Drawing,
    Fact,
    Method,
    Operation,
    RunOutRow,
    Setup,
    Totals,
)
from methodsheets.sheet.spread import HANDLING_TIME
from methodsheets.sheet.words import Words

from .conftest import Folder

CARD = WorkshopCard("small", "Small", "", "metric", "small.yml", currency="crowns", hour=12.0)


def method(slug: str, *, setting: float = 10, each: float = 30, **said: object) -> Method:
    operation = Operation(
        10, "op-10", "turn", Words("Turn"), Words("Turn"), 1, 1, "knife tool",
        facts=(Fact("deflection", "Bends", measure(0.004 if slug == "one" else 0.011, "deviation")),),
        checks=(Check("reach", "passed", Words("reaches"), tight=slug == "two"),),
        cautions=(Caution("swarf", "Swarf cuts."),),
        cutting_minutes=each - 5, handling_minutes=5,
    )  # fmt: skip
    holding = "three-jaw chuck" if slug == "one" else "four-jaw chuck"
    setup = Setup(1, "setup-1", Words(""), 1, 0, "lathe", "lathe", holding, Words(""), operations=(operation,))
    totals = Totals(
        5, each - 5, 5, setting, setting + each, setting + 5 * each,
        stock_mass=measure(200 if slug == "one" else 300, "mass"), finished_mass=measure(100, "mass"), removed_cm3=12.7,
        bought=Words("bar"), tools=("knife tool", "drill") if slug == "one" else ("knife tool",),
        facts=(Fact("unbalance", "Out of balance", measure(5 if slug == "one" else 50, "unbalance")),),
    )  # fmt: skip
    made = Method(
        slug, f"{slug}.md", slug.capitalize(), "spindle", "small", "Small", "proven", "A", "2026-01-01", "", "EN1A", Words("bar"),
        5, "", setups=(setup,), totals=totals,
        run_out=(RunOutRow("journal", "eccentric", measure(0.02 if slug == "one" else 0.13, "size"), measure(0.02, "size"), Words("one holding")),),
        drawings=(Drawing(f"{slug}--small--setup-1", "setup", Words("")), Drawing(f"{slug}--small--storyboard", "storyboard", Words(""))),
    )  # fmt: skip
    return replace(made, **said)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def compared() -> Comparison:
    return compare("spindle", [Candidate(method("one")), Candidate(method("two", setting=40, each=20))], CARD)


def row(comparison: Comparison, label: str) -> ComparisonRow:
    return next(one for one in comparison.rows if one.label == label)


@pytest.mark.parametrize(
    ("label", "values", "better"),
    [
        ("Time for one part, set-ups included", ("40 min", "1 h"), 0),
        ("Time for 5 parts, set-ups once", ("2 h 40 min", "2 h 20 min"), None),
        ("Setting up, once for a batch", ("10 min", "40 min"), 0),
        ("Stock, one part", ("200 g", "300 g"), 0),
        ("Wasted", ("50 %", "66.7 %"), 0),
        ("journal to eccentric, at worst", ("0.020 mm", "0.130 mm"), 0),
        ("Work bends at the tool, at worst", ("4 µm", "11 µm"), 0),
        ("Out of balance", ("5 g·mm", "50 g·mm"), 0),
        ("Checks that are tight", ("0", "1"), 0),
        ("Cost of the time, 5 parts", ("32.00 crowns", "28.00 crowns"), None),
    ],
)
def test_lines_that_differ(compared: Comparison, label: str, values: tuple[str, ...], better: int) -> None:
    found = row(compared, label)
    plain = tuple(str(value).replace("\u202f", " ").replace("\u00a0", " ") for value in found.values)
    assert plain == values
    assert found.differs
    assert found.better == better


@pytest.mark.parametrize("label", ["Set-ups", "Finished part", "Material", "Checks that fail", "Cautions", "Status"])
def test_lines_that_are_the_same_are_quiet(compared: Comparison, label: str) -> None:
    found = row(compared, label)
    assert not found.differs
    assert found.better is None


def test_a_small_difference_is_shown_but_is_no_advantage() -> None:
    two = compare("x", [Candidate(method("one", each=30.0)), Candidate(method("two", each=30.3))], CARD)
    found = row(two, "Time for 5 parts, set-ups once")
    assert found.better is None


def test_times_are_those_that_the_records_of_the_workshop_correct() -> None:
    """One is turned in 30 minutes and the other milled in 20; here turning takes 1.5 times its estimate."""
    turned = method("one")
    operation = replace(turned.setups[0].operations[0], family="turning")
    turned = replace(turned, setups=(replace(turned.setups[0], operations=(operation,)),))
    pair = [Candidate(turned), Candidate(method("two", each=20.0))]
    label, known = "Time for one part, set-ups included", (Pace("turning", 4, 1.5, 1.4, 1.6),)
    before, after = compare("x", pair, CARD), compare("x", pair, CARD, known)
    assert [str(cell).replace("\u202f", " ") for cell in row(before, label).values] == ["40 min", "30 min"]
    assert [str(cell).replace("\u202f", " ") for cell in row(after, label).values] == ["55 min", "30 min"]
    assert row(after, label).better == 1
    assert "turning × 1.50, timings: 4" in str(row(after, label).note)
    assert not row(before, label).note
    assert [line.each for line in after.time_lines] == [45.0, 20.0]
    told = corrected(turned, known)
    totals = by_records(turned, known).totals
    assert told is not None
    assert totals is not None
    assert (told.one, told.batch) == (
        totals.one_minutes,
        totals.batch_minutes,
    )  # the comparison says what the page says
    assert by_records(turned, ()) is turned


def test_how_far_records_scatter_is_how_far_they_tell() -> None:
    """Turned in 30 minutes or milled in 20: turning was timed at 1.5, so 45 minutes, less or more as it scatters."""
    turned = method("one")
    operation = replace(turned.setups[0].operations[0], family="turning")
    turned = replace(turned, setups=(replace(turned.setups[0], operations=(operation,)),))
    other = method("two", each=40.0)
    told = {}
    for low, high in ((1.48, 1.52), (1.0, 2.0)):
        known = (Pace("turning", 4, 1.5, low, high),)
        line = time_line(by_records(turned, known), known)
        assert (line.each, line.recorded) == (45.0, (("turning", 45.0, low / 1.5, high / 1.5),))
        narrow, wide = same_band(*quicker_first(line, time_line(other)), 50)
        told[low] = wide - narrow
    assert told[1.48] < told[1.0]
    few = (Pace("turning", 2, 1.5),)
    assert time_line(by_records(turned, few), few).recorded == (("turning", 45.0, *HANDLING_TIME.of(1.0)),)


def test_what_a_method_lacks_is_a_dash() -> None:
    bare = replace(method("two"), totals=None, run_out=())
    found = compare("x", [Candidate(method("one")), Candidate(bare)], CARD)
    assert row(found, "Stock, one part").values[1] == NOTHING
    assert row(found, "journal to eccentric, at worst").values[1] == NOTHING
    assert row(found, "Stock, one part").better is None


def test_what_is_not_known_is_said_and_makes_none_better() -> None:
    unknown = RunOutRow("journal", "eccentric", None, None, Words("not known: nobody says how true the disc sits"))
    other = replace(method("two"), run_out=(unknown,))
    found = row(compare("x", [Candidate(method("one")), Candidate(other)], CARD), "journal to eccentric, at worst")
    assert (str(found.values[1]), found.better, found.differs) == ("not known", None, True)
    assert "not known: nobody says how true the disc sits" in str(found.note)


def test_needs(compared: Comparison) -> None:
    needs = {one.sort: one for one in compared.needs}
    assert needs["tools"].all_need == ("knife tool",)
    assert needs["tools"].only == (("drill",), ())
    assert needs["ways of holding"].only == (("three-jaw chuck",), ("four-jaw chuck",))
    assert needs["machines"].all_need == ("lathe",)


def test_pictures_of_the_states(compared: Comparison) -> None:
    assert compared.drawings == (("one--small--storyboard",), ("two--small--storyboard",))
    without = replace(method("one"), drawings=(Drawing("one--small--setup-1", "setup", Words("")),))
    assert compare("x", [Candidate(without), Candidate(without)], CARD).drawings[0] == ("one--small--setup-1",)


def test_break_even(compared: Comparison) -> None:
    found = compared.break_even[0]
    assert (found.first, found.second, found.parts) == ("one", "two", 4)
    assert found.words == (
        "For one part One is quicker, for 2 to 7 they take about the same time, from 8 on Two is quicker."
    )


@pytest.mark.parametrize(
    ("one", "two", "words"),
    [
        (
            (10, 30),
            (40, 20),
            "Up to 2 parts A is quicker, for 3 they take about the same time, from 4 on B is quicker.",
        ),
        (
            (10, 30),
            (45, 20),
            "Up to 2 parts A is quicker, for 3 to 4 they take about the same time, from 5 on B is quicker.",
        ),
        ((10, 30), (25, 20), "For one part A is quicker, from 2 on B is quicker."),
        ((10, 30), (20, 20), "For one part they take about the same time, from 2 on B is quicker."),
        (
            (0, 30),
            (500, 28),
            "Up to 121 parts A is quicker, from 122 on they take about the same time.",
        ),
        ((0, 30), (500, 29.5), "Up to 190 parts A is quicker, from 191 on they take about the same time."),
        ((30, 30), (31, 29.5), "For any number of parts A and B take about the same time."),
    ],
)
def test_the_words_say_where_an_estimate_cannot_tell(
    one: tuple[float, float], two: tuple[float, float], words: str
) -> None:
    assert break_even(TimeLine("a", "A", *one), TimeLine("b", "B", *two)).words == words


def test_three_methods_are_compared_in_pairs() -> None:
    three = [Candidate(method(slug)) for slug in ("one", "two", "three")]
    assert len(compare("x", three, CARD).break_even) == 3


@given(
    settings=st.tuples(st.floats(0, 500), st.floats(0, 500)),
    each=st.tuples(st.floats(0.1, 300), st.floats(0.1, 300)),
)
def test_break_even_is_where_the_lines_cross(settings: tuple[float, float], each: tuple[float, float]) -> None:
    one, two = (TimeLine(name, name, *line) for name, line in zip("ab", zip(settings, each, strict=True), strict=True))
    found = break_even(one, two)
    lines = {"a": one, "b": two}
    first, second = lines[found.first], lines[found.second]
    assert first.minutes(1) <= second.minutes(1)
    if found.parts is None:
        for parts in (1, 10, 1000):
            assert first.minutes(parts) <= second.minutes(parts) * (1 + 1e-6) + 1e-6
    else:
        assert second.minutes(found.parts) < first.minutes(found.parts) + 1e-6
        assert found.parts == 1 or second.minutes(found.parts - 1) >= first.minutes(found.parts - 1) - 1e-6


def test_the_same_time_is_said() -> None:
    same = TimeLine("a", "A", 10, 5)
    assert (
        break_even(same, replace(same, slug="b", title="B")).words
        == "For any number of parts A and B take about the same time."
    )


def test_comparisons_of_a_handbook(folder: Folder) -> None:
    folder.method("one", part="spindle", workshop="large")
    folder.method("two", part="spindle")
    folder.method("alone", part="bush")
    for _ in range(2):  # the second time out of the store
        book = build_handbook(folder.options())
        assert list(book.comparisons) == ["spindle"]
        assert list(book.by_workshop["spindle"]) == ["large", "small"]
        assert book.comparisons["spindle"].methods == ("one", "two")
        assert book.comparison("spindle", "small") is not None
        assert book.comparison("spindle", "none") is None
    before = book.comparisons["spindle"]
    folder.method("two", part="spindle", title="Two, and a much longer way of making it")
    assert build_handbook(folder.options()).comparisons["spindle"] != before
