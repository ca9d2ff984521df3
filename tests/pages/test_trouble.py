"""Tests of what a page says of a method that cannot be done as written, and of what lies beside its file."""

from dataclasses import replace

import pytest
import samples
from sample_methods import method

from methodsheets.handbook.model import Entry
from methodsheets.pages import document as d
from methodsheets.pages.author import loose_problems
from methodsheets.pages.bench import bench_blocks
from methodsheets.pages.elements import to_html
from methodsheets.pages.islands import Islands
from methodsheets.pages.problems import BlockPlace, blocks_of, by_block
from methodsheets.pages.site import Site
from methodsheets.pages.summary import summary_blocks
from methodsheets.pages.trouble import troubles, works
from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.sheet.model import Check
from methodsheets.sheet.words import Words

HANDBOOK = samples.handbook()
SLUG = "eccentric-two-pieces"
ENTRY = HANDBOOK.entries[SLUG]


def html(blocks: d.Blocks) -> str:
    return to_html(blocks, Islands())


def fails(words: str = "the spindle passes 16"):
    """The method with a failed check at its third operation."""
    good = method(SLUG, samples.SMALL)
    last = good.setups[0].operations[-1]
    bad = replace(last, checks=(Check("reach", "failed", Words(words)),))
    setup = replace(good.setups[0], operations=(*good.setups[0].operations[:-1], bad))
    return replace(good, setups=(setup, *good.setups[1:])), bad


def test_a_failed_check_is_told_with_its_operation():
    bad, operation = fails()
    assert troubles(bad)[0] == (operation.id, f"Operation {operation.number}", Words("the spindle passes 16"))
    assert not works(bad)
    page, sheet = html(summary_blocks(bad, Site(HANDBOOK).places)), html(bench_blocks(bad, Site(HANDBOOK).places))
    assert f'<a href="#{operation.id}">Operation {operation.number}</a>: the spindle passes 16' in page
    assert f"Operation {operation.number}: the spindle passes 16" in sheet
    assert "Does not work as written in" in page
    assert sheet.index("Does not work as written in") < sheet.index("Set-up 1")


@pytest.mark.parametrize("own", [True, False])
def test_what_cannot_be_worked_out_in_another_workshop_counts(own):
    wrong = Problem(Place("methods/x.md", 12), "there is no milling machine", "", "", Severity.ERROR)
    hint = replace(wrong, severity=Severity.WARNING, what="the file is long")
    there = replace(method(SLUG, samples.SMALL), path="methods/x.md", problems=(wrong, hint), own_workshop=own)
    told = [trouble for trouble in troubles(there) if trouble[1] == "Line 12"]
    assert told == ([] if own else [("", "Line 12", Words("there is no milling machine"))])


def test_the_switch_marks_the_workshops_in_which_it_does_not_work():
    bad, _ = fails()
    shops = {**dict(ENTRY.by_workshop), samples.SMALL: bad, samples.LARGE: method("eccentric-one-piece", samples.SMALL)}
    entry = replace(ENTRY, by_workshop=shops)
    site = Site(replace(HANDBOOK, entries={**HANDBOOK.entries, SLUG: entry}))
    for tree in (site.summary(SLUG, "methods/x.md"), site.bench(SLUG, "methods/x.md")):
        found = html(tree)
        assert found.count("does not work there") == 1
        assert "author’s, does not work there" in found


# What lies beside the method file


def beside(*problems: Problem) -> Entry:
    return replace(ENTRY, problems=(*ENTRY.own.problems, *problems))


def test_problems_of_records_stand_on_the_page_of_the_method():
    wrong = Problem(Place("methods/records/x.csv", 3), "not a day (got `31.2.`)", "", "mend the line", Severity.ERROR)
    found = html(loose_problems(beside(wrong), blocks_of(ENTRY.source)))
    assert found.count("methods/records/x.csv:3") == 1
    assert "31.2." in found


def test_numbers_that_changed_stand_in_one_box():
    changed = [
        Problem(
            Place(ENTRY.path, line),
            f"speed of operation {line} was 130, now 200",
            "approved on 2026-11-01",
            "look at it",
            Severity.WARNING,
            "changed-number",
        )
        for line in (20, 30)
    ]
    found = html(loose_problems(beside(*changed), blocks_of(ENTRY.source)))
    assert found.count("Not as it was approved") == 2  # the title, and the name of the box for readers of screens
    assert "operation 20 was 130" in found
    assert "operation 30 was 130" in found
    assert found.count("Approved on 2026-11-01.") == 1
    assert found.count("look at it") == 1


def test_without_them_nothing_stands_there():
    assert loose_problems(beside(), blocks_of(ENTRY.source)) == loose_problems(ENTRY, blocks_of(ENTRY.source))


def test_a_problem_of_another_file_belongs_to_no_block():
    blocks = [BlockPlace(0, "op", 10, 14, ())]
    problem = Problem(Place("methods/parts/x.md", 12), "there is no `bore`")
    assert list(by_block([problem], blocks, "methods/x.md")) == [None]
    assert list(by_block([replace(problem, place=Place("methods/x.md", 12))], blocks, "methods/x.md")) == [0]
