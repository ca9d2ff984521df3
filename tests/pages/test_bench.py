"""Tests of `pages.bench`: what is on a bench sheet."""

import re
from dataclasses import replace

import pytest
import sample_methods
import samples
from tests.method.bench import demo, work_out
from tests.method.test_planted_faults import ALL, home

from methodsheets.pages import document as d
from methodsheets.pages.bench import bench_blocks, footer_words, sheet_attributes
from methodsheets.pages.elements import to_html
from methodsheets.pages.islands import Islands
from methodsheets.pages.places import MethodPlace, Places
from methodsheets.sheet.model import Fact
from methodsheets.sheet.words import Words

PLACES = Places({"eccentric-two-pieces": MethodPlace("methods/e.md")}).at("methods/e/bench.md", "eccentric-two-pieces")


def sheet(**changes):
    method = replace(sample_methods.method("eccentric-two-pieces", samples.SMALL), **changes)
    return to_html((d.Group("sheet", bench_blocks(method, PLACES)),), Islands())


def test_every_operation_is_there_with_a_box_to_tick():
    found = sheet()
    assert re.findall(r'data-ms-key="done-(\d+)"', found) == [str(number) for number in range(10, 90, 10)]


def test_a_blank_for_each_part():
    assert len(re.findall(r'data-ms-key="40-bore-\d+"', sheet())) == 5
    assert len(re.findall(r'data-ms-key="40-bore-\d+"', sheet(makes=12))) == 12


def test_a_huge_batch_has_a_bound():
    assert len(re.findall(r'data-ms-key="40-bore-\d+"', sheet(makes=5000))) == 40


def test_limits_are_plain_numbers_for_the_script():
    assert 'data-ms-low="16" data-ms-high="16.018"' in sheet()


def test_a_size_made_to_another_is_a_sum_on_the_sheet():
    found = sheet()
    assert "bore measured" in found
    assert 'data-ms-add-low="0.018"' in found
    assert len(re.findall(r"data-ms-sum=", found)) == 5


def test_nothing_opens_or_closes_on_a_sheet():
    assert "<details" not in sheet()


def test_each_pass_has_its_dial_reading_and_a_box():
    assert len(re.findall(r'data-ms-key="pass-40-', sheet())) == 3


def test_many_passes_stand_in_two_tables_and_all_are_there():
    method = sample_methods.method("eccentric-two-pieces", samples.SMALL)
    operation = method.setups[0].operations[1]
    passes = tuple(replace(operation.passes[0], number=str(number)) for number in range(1, 16))
    setup = replace(method.setups[0], operations=(method.setups[0].operations[0], replace(operation, passes=passes)))
    found = sheet(setups=(setup,))
    assert re.findall(r'data-ms-key="pass-20-(\d+)"', found) == [str(number) for number in range(1, 16)]
    assert found.count("ms-sheet-passes-all") == 1


def test_cautions_are_in_full_once_in_a_set_up():
    found = sheet()
    assert found.count("Wear eye protection") == 3  # three set-ups have it
    assert "Swarf: as at operation 50." in found


def test_a_sheet_for_a_workshop_where_it_does_not_work_says_so_first():
    method = sample_methods.method("eccentric-two-pieces", samples.LARGE)
    found = to_html(bench_blocks(method, PLACES), Islands())
    assert found.index("Works with these changes in Osierbank, large bench") < found.index("Set-up 1")


def test_the_sheet_says_what_it_is():
    method = sample_methods.method("eccentric-two-pieces", samples.SMALL)
    assert footer_words(method) == "Eccentric spindle, two pieces · revision B · 2026-11-20"
    assert dict(sheet_attributes(method))["data-ms-parts"] == "5"
    assert "draft" not in sheet().lower()
    assert "Draft: not yet tried." in sheet(status="draft")


def test_what_is_set_by_hand_is_on_the_sheet_and_what_only_explains_is_not():
    method = sample_methods.method("eccentric-two-pieces", samples.SMALL)
    operation = method.setups[0].operations[0]
    said = [
        Fact(f"anything-{desk}", f"Label {desk}", Words(f"value {desk}"), note=Words(f"note {desk}"), desk=desk)
        for desk in (False, True)
    ]
    setup = replace(method.setups[0], facts=tuple(said), operations=(replace(operation, facts=tuple(said)),))
    found = sheet(setups=(setup,))
    assert found.count("value False") == found.count("note False") == 2
    assert "value True" not in found


@pytest.mark.parametrize("slug", ALL)
def test_every_fact_of_the_demo_for_the_bench_stands_on_its_sheet(slug):
    """Walks all facts of all demo methods; a key that nobody thought of is on the sheet."""
    method = work_out(demo(slug), home(slug), slug).method
    found = to_html(bench_blocks(method, PLACES), Islands())
    told = [fact for one in (*method.setups, *method.operations) for fact in one.facts]
    assert told
    for fact in told:
        if not fact.desk and fact.key != "tool":
            assert f'data-ms-fact="{fact.key}"' in found, fact.key
    for operation in method.operations:
        for table in operation.tables:
            assert table.title in found


def test_the_dial_is_named_by_its_slide():
    method = sample_methods.method("eccentric-two-pieces", samples.SMALL)
    operation = next(one for one in method.operations if one.passes)
    passes = tuple(replace(one, slide="cross slide") for one in operation.passes)
    setup = replace(method.setups[0], operations=(replace(operation, passes=passes),))
    assert "Dial, cross slide" in sheet(setups=(setup,))
