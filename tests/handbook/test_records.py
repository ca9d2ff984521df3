"""Are measured sizes and times read, and is what they teach right?"""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.handbook import records
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Record
from methodsheets.handbook.records import (
    HEADING,
    _limit_meant,
    drift_of,
    experience_of,
    methods_said,
    once,
    parse_records,
    slope_of,
)
from methodsheets.reading.problem import Problems
from methodsheets.sheet.model import Limit

from .conftest import Folder, mm

LIMIT = Limit("bore", mm(16), mm(16.018), mm(16.0))


def read(text: str) -> tuple[list[Record], list[str]]:
    problems = Problems()
    found = parse_records(text, "records/bush.csv", "bush", problems)
    return found, [str(one) for one in problems]


def test_a_file_of_records() -> None:
    found, problems = read(
        HEADING
        + "\n2026-03-01,A,bush,10,journal,1,15.991,4.5,a little tight\n2026-03-01,A,,10,journal,2,15.989,,\n\n# a remark\n"
    )
    assert problems == []
    assert found[0] == Record("2026-03-01", "A", "bush", 10, "journal", 1, 15.991, 4.5, "a little tight", 2)
    assert found[1].minutes is None


def test_columns_in_any_order_and_by_other_names() -> None:
    found, problems = read("mm,Day,op,Part Number,size\n15.991,2026-03-01,10,3,journal\n")
    assert problems == []
    assert found[0] == Record("2026-03-01", "", "bush", 10, "journal", 3, 15.991, line=2)


@pytest.mark.parametrize(
    ("said", "size"),
    [("15.991", 15.991), ("15,991", 15.991), ("15.991 mm", 15.991), ("0.63 in", 16.002), ("630 thou", 16.002)],
)
def test_sizes(said: str, size: float) -> None:
    found, problems = read(f'date,operation,measured\n2026-03-01,10,"{said}"\n')
    assert problems == []
    assert found[0].measured == pytest.approx(size)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("yesterday,10,1,,", "not a day (got `yesterday`); a date is YYYY-MM-DD"),
        ("2026-02-30,10,1,,", "not a day (got `2026-02-30`)"),
        ("2026-03-01,ten,1,,", "`operation` is no whole number (got `ten`)"),
        (
            "2026-03-01,10,about 16,,",
            "`measured` is no number (got `about 16`); sizes are in mm, or say `in` or `thou`",
        ),
        ("2026-03-01,10,,3 in,", "`minutes` is no number (got `3 in`)"),
        ("2026-03-01,10,1,,pin", "the line is of another method (got `pin`)"),
    ],
)
def test_a_wrong_line_is_left_out_and_told(line: str, words: str) -> None:
    found, problems = read(f"date,operation,measured,minutes,method\n{line}\n2026-03-01,10,16,,\n")
    assert len(found) == 1
    assert len(problems) == 1
    assert problems[0].startswith("records/bush.csv:2:1: ")
    assert words in problems[0]


def test_a_decimal_comma_between_commas_is_told_and_never_read_as_two_numbers() -> None:
    found, problems = read("date,operation,measured\n2026-03-01,10,15,991\n2026-03-01,20,16,\n")
    assert [one.operation for one in found] == [20]
    assert "the line has more cells than there are headings (got `991`)" in problems[0]


@pytest.mark.parametrize("before", ["\n\n", ",,,\n", "sep=,\n\n", "\ufeff\n"])
def test_blank_lines_before_the_heading_hide_nothing(before: str) -> None:
    found, problems = read(f"{before}date,operation,measured\n2026-03-01,10,15.991\n")
    assert (len(found), problems) == (1, [])
    assert found[0].line == before.count("\n") + 2
    assert methods_said(f"{before}date,method\n2026-03-01,bush\n") == {"bush"}


def test_more_files_than_are_read_are_told(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    folder.method("bush")
    (folder.methods / "records").mkdir()
    for number in range(4):
        (folder.methods / "records" / f"bush--{number}.csv").write_text("date,operation,minutes\n2026-03-01,10,4\n")
    assert build_handbook(folder.options()).problems == ()
    monkeypatch.setattr(records, "RECORD_FILES", 3)
    assert [one.code for one in build_handbook(folder.options()).problems] == ["too-many"]


def test_unknown_and_missing_columns() -> None:
    assert read("date,operation,meassured\n")[1] == [
        "records/bush.csv:1:1: unknown column `meassured`; did you mean `measured`?"
    ]
    assert "there is no column `operation`" in read("date,measured\n2026-03-01,16\n")[1][0]
    assert read("") == ([], [])


@given(st.text(max_size=400))
def test_no_text_breaks_it(text: str) -> None:
    read(text)
    read(HEADING + "\n" + text)


def test_the_last_batch_the_corrected_time_and_the_drift(folder: Folder) -> None:
    folder.method("bush")
    file = folder.methods / "records" / "bush.csv"
    file.parent.mkdir()
    lines = [f"2026-0{batch}-01,{batch},,10,journal,{part},{15.983 + 0.001 * (5 * batch + part):.3f},{6 + batch},"
             for batch in (1, 2) for part in (1, 2, 3, 4, 5)]  # fmt: skip
    file.write_text(HEADING + "\n" + "\n".join(lines) + "\n")
    (folder.methods / "records" / "bush-2026-03-01.csv").write_text(
        HEADING + "\n2026-03-01,3,,10,journal,1,15.999,9,\n"
    )
    (folder.methods / "records" / "bush-two.csv").write_text("of another method\n")
    book = build_handbook(folder.options())
    assert book.problems == ()
    entry = book.entries["bush"]
    assert len(entry.records) == 11
    assert entry.experience is not None
    known = entry.experience
    assert (known.last_batch, known.last_date, known.parts, known.minutes) == ("3", "2026-03-01", 1, 9)
    estimate = entry.own.operations[0].cutting_minutes + 1.0
    mean = (5 * 7 + 5 * 8 + 9) / 11
    assert known.timed == ((10, pytest.approx(estimate), pytest.approx(mean)),)
    assert known.correction == pytest.approx(mean / estimate)
    assert entry.own.totals is not None
    assert known.corrected_one == pytest.approx(entry.own.totals.one_minutes * mean / estimate)
    drift = known.drifts[0]
    assert (drift.operation, drift.limit, drift.towards) == (10, "journal", "upper")
    assert drift.per_part == pytest.approx(0.001, rel=0.01)
    assert drift.parts_left == 1
    assert drift.outside == 0


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("bore", 'limits(bore, "H7")'),
        ("", "26 mm"),
        ('limits(bore, "H7")', 'limits(bore, "H7")'),
        ("limits", "limits"),  # both could be meant
        ("length", "length"),  # none can
    ],
)
def test_a_limit_is_known_by_what_is_written_by_hand(said: str, meant: str) -> None:
    names = ["26 mm"] if not said else ['limits(bore, "H7")', 'limits(outside, "p6")']
    assert _limit_meant(said, names) == meant


def test_records_do_not_make_the_method_be_worked_out_again(folder: Folder) -> None:
    folder.method("bush")
    build_handbook(folder.options())
    folder.worked()
    (folder.methods / "records").mkdir()
    (folder.methods / "records" / "bush.csv").write_text(HEADING + "\n2026-03-01,3,,10,journal,1,15.999,9,\n")
    book = build_handbook(folder.options())
    assert folder.worked() == []
    assert len(book.entries["bush"].records) == 1


def test_problems_of_records_are_problems_of_the_handbook(folder: Folder) -> None:
    folder.method("bush")
    (folder.methods / "records").mkdir()
    (folder.methods / "records" / "bush.csv").write_text(HEADING + "\nnow,3,,10,journal,1,15.999,9,\n")
    told = [str(one) for one in build_handbook(folder.options()).problems]
    assert told == [
        "methods/records/bush.csv:2:1: not a day (got `now`); a date is YYYY-MM-DD; mend the line, or take it out"
    ]


def series(sizes: list[float]) -> tuple[tuple[str, int, float], ...]:
    return tuple(("2026-01-01", number, size) for number, size in enumerate(sizes, 1))


def test_slope_of_a_published_line() -> None:
    # The first of four small data sets of Anscombe (1973), y in the order of x = 4 … 14: slope 0.5001, standard error 0.1179.
    values = [4.26, 5.68, 7.24, 4.82, 6.95, 8.81, 8.04, 8.33, 10.84, 7.58, 9.96]
    slope, uncertain = slope_of(values)
    assert slope == pytest.approx(0.5001, abs=5e-5)
    assert uncertain == pytest.approx(0.1179, abs=5e-5)


def test_scatter_is_not_taken_for_wear() -> None:
    scatter = random.Random(7)
    alarms = 0
    for _ in range(200):
        sizes = [16.009 + scatter.gauss(0, 0.002) for _ in range(12)]
        alarms += bool(drift_of(40, LIMIT, series(sizes)).towards)
    assert alarms < 30  # two standard errors: about one in fourteen with ten degrees of freedom


def test_wear_is_seen_among_scatter() -> None:
    scatter = random.Random(3)
    sizes = [16.004 + 0.001 * number + scatter.gauss(0, 0.001) for number in range(12)]
    drift = drift_of(40, LIMIT, series(sizes))
    assert drift.towards == "upper"
    assert drift.per_part == pytest.approx(0.001, abs=0.0003)
    assert drift.parts_left is not None
    assert 1 <= drift.parts_left <= 5


def test_sizes_outside_are_counted() -> None:
    drift = drift_of(40, LIMIT, series([15.999, 16.0, 16.018, 16.019]))
    assert drift.outside == 2


def test_equal_sizes_go_nowhere() -> None:
    drift = drift_of(40, LIMIT, series([16.01] * 5))
    assert (drift.towards, drift.parts_left, drift.per_part) == ("", None, 0)


def test_a_link_out_of_the_folder_is_refused(folder: Folder, tmp_path: Path) -> None:
    folder.method("bush")
    (folder.methods / "records").mkdir()
    outside = tmp_path / "elsewhere.csv"
    outside.write_text(HEADING + "\n")
    (folder.methods / "records" / "bush.csv").symlink_to(outside)
    assert "outside" in str(build_handbook(folder.options()).problems[0])


# A sheet saved twice, and what a batch took


def rows(*lines: str) -> list[Record]:
    return read(HEADING + "\n" + "\n".join(lines) + "\n")[0]


def test_a_sheet_saved_twice_counts_once_and_as_it_was_saved_last() -> None:
    morning = rows("2026-11-25,3,,10,bore,1,16.004,,", "2026-11-25,3,,10,,,,6,", "2026-11-25,3,,0,,,,,stone the tool")
    evening = rows("2026-11-25,3,,10,bore,1,16.005,,", "2026-11-25,3,,10,bore,2,16.007,,", "2026-11-25,3,,10,,,,7,",
                   "2026-11-25,3,,0,,,,,stone the tool")  # fmt: skip
    found = once([morning, evening])
    assert sorted(one.measured for one in found if one.measured) == [16.005, 16.007]
    assert [one.minutes for one in found if one.minutes] == [7]
    assert len([one for one in found if one.note]) == 1


def test_lines_of_one_file_all_count_and_sizes_without_a_number_are_kept_apart() -> None:
    hand = rows("2026-11-25,3,,10,bore,,16.004,,", "2026-11-25,3,,10,bore,,16.004,,", "2026-11-25,3,,10,bore,,16.009,,")
    assert len(once([hand])) == 3
    assert len(once([hand, rows("2026-11-25,3,,10,bore,,16.011,,")])) == 4


def test_the_later_of_two_saved_files_is_the_one_with_a_number(folder: Folder) -> None:
    folder.method("bush")
    kept = folder.methods / "records"
    kept.mkdir()
    for name, size in (("bush-2026-11-25 (1)", 16.007), ("bush-2026-11-25", 16.004)):
        (kept / f"{name}.csv").write_text(f"{HEADING}\n2026-11-25,3,,10,journal,1,{size},,\n")
    assert [one.measured for one in build_handbook(folder.options()).entries["bush"].records] == [16.007]


@pytest.mark.parametrize(
    ("lines", "took"),
    [
        (["2026-11-25,3,,10,,1,,5,", "2026-11-25,3,,10,,2,,7,"], 12),  # each part timed
        (["2026-11-25,3,,10,,,,5,", "2026-11-25,3,,10,bore,4,16.01,,"], 20),  # what each of the four took
        (["2026-11-25,3,,10,,1,,5,", "2026-11-25,3,,10,bore,4,16.01,,"], None),  # one of four timed
        (["2026-11-25,3,,20,,,,5,"], None),  # another operation
    ],
)
def test_what_a_batch_took(folder: Folder, lines: list[str], took: float | None) -> None:
    folder.method("bush")
    method = build_handbook(folder.options()).entries["bush"].own
    assert len(method.operations) == 1
    known = experience_of(method, rows(*lines))
    assert known is not None
    assert known.minutes == took


@pytest.mark.parametrize("words", ["=1+1", "+2 passes", "-3 too small", "@home", "'quoted'", "plain"])
def test_a_note_that_was_kept_from_being_a_formula_is_read_as_it_was_said(words: str) -> None:
    kept = f"'{words}" if words[0] in "=+-@" else words
    text = f"{HEADING}\n2026-11-01,1,bush,10,,1,,5,{kept}\n"
    assert [one.note for one in parse_records(text, "r.csv", "bush", Problems())] == [words]


@pytest.mark.parametrize(
    "text",
    [
        "\ufeffdate,operation,limit,measured\n2026-11-25,10,bore,7.99\n",
        "date;operation;limit;measured\r\n2026-11-25;10;bore;7,99\r\n",
        '\ufeffdate;operation;limit;measured\n"2026-11-25";"10";"bore";"7,99"\n',
        "date\toperation\tlimit\tmeasured\n2026-11-25\t10\tbore\t7,99\n",
        'date,operation,limit,measured\n2026-11-25,10,bore,"7,99"\n',
    ],
)
def test_what_a_spreadsheet_saved_is_understood(text: str) -> None:
    problems = Problems()
    (found,) = parse_records(text, "records/bush.csv", "bush", problems)
    assert (found.operation, found.limit, found.measured) == (10, "bore", 7.99)
    assert len(problems) == 0


@pytest.mark.parametrize("cell", ["9" * 5000, "1" + "0" * 400, "٣" * 20, "-", "1e999", "inf", "nan"])
@pytest.mark.parametrize("column", ["operation", "measured", "minutes", "part"])
def test_a_number_that_is_none_is_told(column: str, cell: str) -> None:
    problems = Problems()
    others = "10" if column != "operation" else cell
    text = f"date,operation,{column if column != 'operation' else 'note'}\n2026-11-25,{others},{cell}\n"
    parse_records(text, "records/bush.csv", "bush", problems)
    assert [one.code for one in problems] == ["record-line"]
