"""Are the tables read as they are written, and does a change of one change the digest?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.trade.form import tables
from methodsheets.trade.form.tables import number, read_table, table_digest, table_keys, table_names


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for cached in (read_table, table_digest, table_keys):
        cached.cache_clear()
    monkeypatch.setattr(tables, "FOLDER", tmp_path)
    return tmp_path


GOOD = """# title: A table
# source: ours,
#    and more of it
# key page: a page (page read)
# A note.
# column name: what it is called
# column size [mm]: how large
name,size
one, 1.5
"two, quoted",
"""


def test_a_table_is_read(folder: Path) -> None:
    (folder / "sample.csv").write_text(GOOD, encoding="utf-8")
    table = read_table("sample")
    assert table.title == "A table"
    assert table.source == "ours, and more of it"
    assert "A note." in table.notes
    assert [(column.name, column.unit) for column in table.columns] == [("name", "text"), ("size", "mm")]
    assert dict(table.rows[1]) == {"name": "two, quoted", "size": ""}
    assert number(table.rows[0]["size"]) == 1.5
    assert number(table.rows[1]["size"]) is None
    assert table_keys("sample") == {"page": "a page (page read)"}


@pytest.mark.parametrize(
    ("change", "into"),
    [("name,size\n", "name,width\n"), ("one, 1.5", "one, 1.5, 2"), ("one, 1.5", "one")],
)
def test_a_table_out_of_form_is_refused(folder: Path, change: str, into: str) -> None:
    (folder / "sample.csv").write_text(GOOD.replace(change, into), encoding="utf-8")
    with pytest.raises(ValueError, match=r"sample\.csv"):
        read_table("sample")


def test_an_unknown_table() -> None:
    with pytest.raises(KeyError):
        read_table("nowhere")


def test_the_digest_follows_the_bytes(folder: Path) -> None:
    (folder / "sample.csv").write_text(GOOD, encoding="utf-8")
    before = table_digest()
    table_digest.cache_clear()
    (folder / "sample.csv").write_text(GOOD.replace("1.5", "1.6"), encoding="utf-8")
    assert table_digest() != before
    table_digest.cache_clear()


def test_no_table_speaks_of_where_it_was_made() -> None:
    for name in table_names():
        text = (tables.FOLDER / f"{name}.csv").read_text(encoding="utf-8")
        assert "/work" not in text
        assert text.endswith("\n")
