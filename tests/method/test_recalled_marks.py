"""Is each text of a sheet that would change with a recalled number marked, so that a reader knows what it rests on?

Every recalled number of every table is changed a little at once (`shaken`), and what the sheet says then without a mark
must be what it said before. `python -m tests.method.shaken` does it for every method, table by table; here a turned part
that is out of balance stands for all.
"""

from __future__ import annotations

from dataclasses import replace

from tests.method.bench import ROOT
from tests.method.shaken import NAMES, changes, shake, unmarked

from methodsheets.operations.facts import measure_of
from methodsheets.sheet.model import Fact, Method
from methodsheets.trade.form import tables


def test_what_changes_with_a_recalled_number_is_marked() -> None:
    """Cutting data and their loads, passes, choices, threads, weights: nothing is said anew without a mark."""
    text = (ROOT.parent / "tests" / "methods" / "quick-screw.md").read_text("utf-8")
    found = list[Method]()
    assert changes(text, "osierbank-small", "quick-screw", *NAMES, seen=found) == []
    before, after = found
    assert before != after, "the tables were really shaken"
    # a number whose mark is lost is found
    bare = replace(after.operations[0], facts=(Fact("force", "Force", measure_of(12.3, "N", "force")),))
    setup = replace(after.setups[0], operations=(bare,))
    assert set(unmarked(replace(after, setups=(setup,)))) - set(unmarked(before))


def test_the_tables_that_advice_rests_on_are_shaken() -> None:
    kept = {name: (tables.FOLDER / f"{name}.csv").read_text(encoding="utf-8") for name in NAMES}
    changed = {name for name in NAMES if shake(name).splitlines() != kept[name].splitlines()}
    assert {"materials", "cutting_speeds", "cutting_feeds", "mill_feeds", "unit_power"} <= changed
