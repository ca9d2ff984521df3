"""Does every calculation that reads tables say which rows its answer rests on?"""

from __future__ import annotations

import pytest

from methodsheets.trade.form.calculation import catalogue
from methodsheets.trade.form.rows import taking
from methodsheets.trade.form.tables import read_table

from .examples import examples

ALL = catalogue()


@pytest.mark.parametrize("name", [name for name, entry in ALL.items() if entry.tables])
def test_the_answer_rests_on_rows_of_its_tables(name: str) -> None:
    entry = ALL[name]
    titles = {read_table(table).title for table in entry.tables}
    needed = {parameter.name for parameter in entry.parameters if not parameter.optional}
    rows = [
        row
        for arguments in examples()[name]
        for said in (arguments, {key: value for key, value in arguments.items() if key in needed})
        for row in entry.rows(said)
    ]
    assert rows, f"{name} names tables and takes up no row"
    assert {row.table for row in rows} <= titles, "it reads a table that its sheet does not name"
    for row in rows:
        assert row.source


@pytest.mark.parametrize("name", [name for name, entry in ALL.items() if not entry.tables])
def test_a_calculation_without_tables_reads_none(name: str) -> None:
    for arguments in examples()[name]:
        with taking() as rows:
            ALL[name].function(**arguments)
        assert not rows, f"{name} rests on {rows} and does not name the table"
