"""Do the records of a workshop correct its times by kind of work, with the count behind it?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.handbook.model import Entry, Pace, Record
from methodsheets.handbook.pace import corrected, kind_of, paces
from methodsheets.operations.vocabulary import family_of, verb_names
from methodsheets.pages.document import plain
from methodsheets.pages.pace import operation_pace, pace_block, pace_table, pace_words
from methodsheets.sheet.model import Method, Operation, Setup, Totals
from methodsheets.sheet.words import Words

# (number, verb, minutes of cutting, minutes of handling)
OPERATIONS = [(10, "turn", 3.0, 1.0), (20, "turn", 5.0, 1.0), (30, "drill", 1.0, 1.0), (40, "pocket", 9.0, 1.0)]


def method(slug: str) -> Method:
    made = tuple(
        Operation(
            number, f"op-{number}", verb, Words(verb), Words(verb), 1, 1,
            cutting_minutes=cutting, handling_minutes=handling, family=family_of(verb),
        )
        for number, verb, cutting, handling in OPERATIONS
    )  # fmt: skip
    words = Words("One")
    setup = Setup(1, "setup-1", words, 1, 0, "lathe", "lathe", "three-jaw chuck", words, operations=made)
    totals = Totals(2, 18.0, 4.0, 10.0, 32.0, 54.0)
    return Method(
        slug, f"{slug}.md", slug, "part", "small", "Small", "draft", "", "", "", "EN1A", Words(""), 2, "",
        setups=(setup,), totals=totals,
    )  # fmt: skip


def took(slug: str, operation: int, minutes: float, workshop: str = "") -> Record:
    return Record("2026-05-02", "first", slug, operation, minutes=minutes, workshop=workshop)


def entry(slug: str, *records: Record) -> Entry:
    return Entry(slug, f"{slug}.md", Path(f"{slug}.md"), "", "small", {"small": method(slug)}, records)


BOOK = [
    entry("one", took("one", 10, 5.0), took("one", 20, 6.0), took("one", 30, 1.0)),
    entry("two", took("two", 10, 4.5), took("two", 20, 7.0, "small"), took("two", 40, 99.0, "another")),
]


def test_all_methods_of_a_workshop_count_by_kind_of_work() -> None:
    """Turning: 5 + 6 + 4.5 + 7 minutes for an estimate of 4 + 6 + 4 + 6."""
    found = {pace.kind: pace for pace in paces(BOOK, "small")}
    turning = found["turning"]
    assert (turning.count, turning.factor) == (4, pytest.approx(22.5 / 20))
    assert turning.low is not None
    assert turning.high is not None
    assert turning.low < turning.factor < turning.high
    assert found["holes"] == Pace("holes", 1, 0.5)
    assert "milling" not in found
    assert paces(BOOK, "another") == ()


def test_scatter_is_that_of_a_ratio_of_sums() -> None:
    """Three equal estimates of 4 that took 4, 5 and 6: factor 1.25, standard deviation 1, so 2 / sqrt(3) / 4 off."""
    rows = [took("one", 10, minutes) for minutes in (4.0, 5.0, 6.0)]
    (pace,) = paces([entry("one", *rows)], "small")
    assert pace.high is not None
    assert pace.high - pace.factor == pytest.approx(2 / 3**0.5 / 4)


def test_a_single_operation_is_corrected_by_its_kind_of_work_and_by_no_other() -> None:
    """Turning takes 1.125 times the estimate here: 6 minutes become 6 min 45 s; nothing is known of the pocket."""
    known = paces(BOOK, "small")
    _, second, _, pocket = method("three").operations
    (pair,) = operation_pace(second, known)
    told = plain(pair.content)
    assert "6\u202fmin\u00a045\u202fs" in told
    assert "from 4 timings of turning" in told
    assert operation_pace(pocket, known) == ()


def test_times_are_corrected_where_records_speak_of_them() -> None:
    found = corrected(method("three"), paces(BOOK, "small"))
    assert found is not None
    more = 10 * 0.125 - 2 * 0.5
    assert found.one == pytest.approx(32 + more)
    assert found.batch == pytest.approx(54 + 2 * more)
    assert found.share == pytest.approx(12 / 22)
    assert [pace.kind for pace in found.by] == ["turning", "holes"]
    assert corrected(method("three"), ()) is None


def test_every_verb_is_of_a_kind() -> None:
    assert all(family_of(verb) for verb in verb_names())
    assert {kind_of(one) for one in method("x").operations} == {"turning", "holes", "milling"}


def test_the_count_is_said() -> None:
    known = paces(BOOK, "small")
    assert pace_words(known[0]).endswith("from 4 timings")
    assert pace_words(known[1]) == "0.50 times the estimate, from 1 timing"
    assert pace_table(known)
    assert pace_table(()) == ()
    assert pace_block(method("three"), known)
    assert pace_block(method("three"), ()) == ()
