"""Every process has a row, and the row agrees with the tables and polygons that it leads to."""

from __future__ import annotations

import pytest

from methodsheets.method.rig import FLUTED, MAKERS
from methodsheets.trade.cutting.cutting_data import recommended_feed, recommended_speed
from methodsheets.vocabulary.process import PROCESSES, Form, Load, Passes, Process


def test_every_process_has_a_row() -> None:
    assert set(PROCESSES) == set(Process)


@pytest.mark.parametrize("process", [p for p in Process if p.row.table_word], ids=str)
def test_the_tables_know_its_word(process: Process) -> None:
    assert recommended_speed("EN1A", "HSS", process.row.table_word).value > 0
    if not process.row.pitch_feed:
        assert recommended_feed("EN1A", process.row.table_word, 10.0).value > 0


@pytest.mark.parametrize("process", [p for p in Process if p.row.needs_spindle], ids=str)
def test_what_needs_a_spindle_has_a_row_in_the_tables(process: Process) -> None:
    assert process.row.table_word


@pytest.mark.parametrize("form", [f for f in Form if f is not Form.NONE], ids=str)
def test_every_form_of_tool_has_its_polygons(form: Form) -> None:
    assert form in MAKERS


@pytest.mark.parametrize("process", list(Process), ids=str)
def test_a_row_does_not_contradict_itself(process: Process) -> None:
    row = process.row
    assert not row.own_axis or row.in_tailstock, "a tool as large as its hole stands in the tailstock"
    assert not row.in_tailstock or row.form in FLUTED
    assert not row.blade or row.load is Load.PARTING
    assert not row.near or row.sized
    assert not row.pecks or row.passes is Passes.BORED
    assert not row.milling_feed or row.passes is Passes.MILLED
