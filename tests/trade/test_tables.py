"""Are the tables read as they are written?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.trade.form import tables
from methodsheets.trade.form.rows import TRUSTS, take, taking
from methodsheets.trade.form.tables import counted_by_trust, find_row, number, read_table, table_names


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for cached in (read_table, find_row):
        cached.cache_clear()
    monkeypatch.setattr(tables, "FOLDER", tmp_path)
    return tmp_path


GOOD = """# title: A table
# source: ours,
#    and more of it
# key page [read]: a page
# key memory [from memory]: recalled
# A note.
# column name: what it is called
# column size [mm]: how large
# column key: where it comes from
name,size,key
one, 1.5, memory; size=page
"two, quoted",,page+memory
"""


def test_a_table_is_read(folder: Path) -> None:
    (folder / "sample.csv").write_text(GOOD, encoding="utf-8")
    table = read_table("sample")
    assert table.title == "A table"
    assert table.source == "ours, and more of it"
    assert "A note." in table.notes
    assert [(column.name, column.unit) for column in table.columns] == [
        ("name", "text"),
        ("size", "mm"),
        ("key", "text"),
    ]
    assert dict(table.rows[1]) == {"name": "two, quoted", "size": "", "key": "page+memory"}
    assert number(table.rows[0]["size"]) == 1.5
    assert number(table.rows[1]["size"]) is None
    one, two = table.rows
    assert (one.table, one.name) == ("A table", "one")
    assert one.origin("size").trust == "read"
    assert one.origin("name", "size").trust == "from memory"  # as weak as the weakest cell
    assert two.origin().trust == "read"  # as firm as the firmest of sources that agree
    assert two.origin().source == "a page; recalled"


@pytest.mark.parametrize(
    ("change", "into"),
    [
        ("name,size,", "name,width,"),
        ("one, 1.5,", "one, 1.5, 2,"),
        ("one, 1.5,", "one,"),
        ("memory; size=page", "size=page"),
        ("memory; size=page", "nobody"),
        ("[read]", "[hearsay]"),
    ],
)
def test_a_table_out_of_form_is_refused(folder: Path, change: str, into: str) -> None:
    (folder / "sample.csv").write_text(GOOD.replace(change, into), encoding="utf-8")
    with pytest.raises(ValueError, match=r"sample\.csv|hearsay"):
        read_table("sample")


def test_an_unknown_table() -> None:
    with pytest.raises(KeyError):
        read_table("nowhere")


def test_no_table_speaks_of_where_it_was_made() -> None:
    for name in table_names():
        text = (tables.FOLDER / f"{name}.csv").read_text(encoding="utf-8")
        assert "/work" not in text
        assert text.endswith("\n")


def test_rows_are_collected_inside_and_outside(folder: Path) -> None:
    (folder / "sample.csv").write_text(GOOD, encoding="utf-8")
    one, two = read_table("sample").rows
    take(one)  # nobody asks
    with taking() as outer:
        take(one, "size")
        with taking() as inner:
            take(two)
            take(two)
        take(one, "size")
    assert [used.row for used in inner] == ["two, quoted"]
    assert [(used.row, used.trust) for used in outer] == [("one", "read"), ("two, quoted", "read")]


@pytest.mark.parametrize("name", table_names())
def test_every_row_says_where_it_comes_from_and_how_far_to_believe_it(name: str) -> None:
    table = read_table(name)
    for row in table.rows:
        origin = row.origin()
        assert origin.trust in TRUSTS
        assert origin.source
        assert row.name, f"{name}: a row without a name: {dict(row)}"
        assert set(row.origins) - {""} <= set(row.cells), f"{name}, {row.name}: a source for a column that is not there"
    assert len({row.name for row in table.rows}) == len(table.rows) or name in ("metric_drills",), "rows are told apart"


def test_the_count_by_trust_adds_up_to_all_rows() -> None:
    counted = counted_by_trust()
    assert len(counted) == len(table_names())
    assert sum(sum(by.values()) for by in counted.values()) == sum(len(read_table(name).rows) for name in table_names())
