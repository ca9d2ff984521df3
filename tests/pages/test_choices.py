"""Does a reader find what would follow if a cut were taken otherwise, and only columns that have something to say?"""

from dataclasses import replace

from sample_measures import mm

from methodsheets.formula.display import measure
from methodsheets.pages import document as d
from methodsheets.pages.choices import choices_disclosure
from methodsheets.sheet.model import Choice, Operation
from methodsheets.sheet.words import Words

PLAN = Choice("depth", mm(1), planned=True, passes=4, minutes=2.0, force=mm(9))
OPERATION = Operation(10, "op-10", "turn", Words("Turn"), Words("Turn"), 1, 1)


def table(*choices: Choice) -> d.Table:
    (opened,) = choices_disclosure(replace(OPERATION, choices=choices))
    assert opened.later == "Operation 10, taken otherwise"
    (found,) = [block for block in opened.content if isinstance(block, d.Table)]
    return found


def heads(found: d.Table) -> list[str]:
    return [column.words for column in found.columns]


def test_nothing_opens_where_nothing_is_known() -> None:
    assert choices_disclosure(OPERATION) == ()


def test_a_column_stands_where_something_follows() -> None:
    heavier = replace(PLAN, value=mm(2), planned=False, passes=2, minutes=1.0, force=mm(18))
    assert heads(table(PLAN, heavier)) == ["Depth of cut", "Passes", "Cutting", "Force"]
    bent = replace(heavier, passes=4, bends=mm(0.02))
    assert heads(table(PLAN, bent)) == ["Depth of cut", "Cutting", "Bends", "Force"]
    assert all(len(row.cells) == 4 for row in table(PLAN, bent).rows)


def test_what_speaks_against_it_stands_below_and_what_cannot_be_done_only_there() -> None:
    bold = replace(PLAN, value=mm(2), planned=False, heed=Words("more than the motor gives"))
    never = Choice("depth", mm(3), planned=False, heed=Words("the jaws would stand in the way"))
    (opened,) = choices_disclosure(replace(OPERATION, choices=(PLAN, bold, never)))
    (made,) = [block for block in opened.content if isinstance(block, d.Table)]
    (notes,) = [block for block in opened.content if isinstance(block, d.Listing)]
    assert (len(made.rows), len(notes.items)) == (2, 2)


def test_each_number_that_is_known_so_and_so_has_both_its_ends() -> None:
    """A cut of 100 N is one of 70 to 130 N, and two minutes are 1 min 42 s to 2 min 30 s: the ends of the estimates."""
    plan = replace(PLAN, force=measure(100.0, "force"))
    row = table(plan, replace(plan, value=mm(2), passes=2, force=measure(200.0, "force"), minutes=1.0)).rows[0]
    cells = [d.plain(cell) for cell in row.cells]
    assert cells[2:] == [
        "2\u202fmin (1\u202fmin\u00a042\u202fs to 2\u202fmin\u00a030\u202fs)",
        "100\u202fN (70\u202fN to 130\u202fN)",
    ]


def test_each_thing_that_changes_has_a_table_of_its_own() -> None:
    faster = replace(PLAN, changes="speed", minutes=1.0)
    (opened,) = choices_disclosure(replace(OPERATION, choices=(PLAN, faster)))
    assert [block.columns[0].words for block in opened.content if isinstance(block, d.Table)] == [
        "Depth of cut", "Spindle speed"
    ]  # fmt: skip


def test_the_plan_is_marked() -> None:
    planned, other = table(PLAN, replace(PLAN, planned=False)).rows
    assert isinstance(planned.cells[0][0], d.Strong)
    assert not any(isinstance(part, d.Strong) for part in other.cells[0])
