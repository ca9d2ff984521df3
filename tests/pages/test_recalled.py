"""Does a number that rests on memory say so wherever it is printed, and does one that was read stay unmarked?"""

from __future__ import annotations

from dataclasses import replace

import samples
from sample_measures import mm

from methodsheets.handbook.comparison import Candidate, compare
from methodsheets.operations.facts import call_working, fact
from methodsheets.pages.bench import bench_blocks
from methodsheets.pages.comparison import comparison_blocks
from methodsheets.pages.elements import to_html as html_of
from methodsheets.pages.health import health_blocks
from methodsheets.pages.islands import Islands
from methodsheets.pages.operation import operation_blocks
from methodsheets.pages.places import Places
from methodsheets.pages.working import calculation_blocks, working_blocks
from methodsheets.sheet.model import Calculation, Fact
from methodsheets.sheet.words import Words
from methodsheets.trade.cutting.cutting_data import recommended_depth, recommended_speed
from methodsheets.trade.cutting.finish import turned_roughness
from methodsheets.trade.form.calculation import calculation_of
from methodsheets.trade.form.tables import counted_by_trust

HANDBOOK = samples.handbook()
METHOD = HANDBOOK.entries["eccentric-two-pieces"].own
PLACES = Places()


def to_html(blocks) -> str:
    return html_of(blocks, Islands())


def worked(function, **arguments):
    return call_working(calculation_of(function), arguments, function(**arguments))


READ = worked(recommended_speed, material="mild steel", tool_material="hss", operation="drill")
RECALLED = worked(recommended_speed, material="titanium grade 2", tool_material="hss", operation="drill")


def speed(working) -> Fact:
    return fact("cutting_speed", "Cutting speed", 25.0, "m/min", "cutting_speed", [working])


def with_fact(one: Fact):
    setup = METHOD.setups[0]
    operation = replace(setup.operations[0], facts=(one,))
    return replace(METHOD, setups=(replace(setup, facts=(), operations=(operation,)),))


def test_only_what_was_recalled_is_marked() -> None:
    assert speed(READ).recalled == ()
    (said,) = speed(RECALLED).recalled
    assert said.startswith("Cutting speeds by group of materials, tool and kind of cut: ")
    assert "titanium" in said


def test_a_rule_from_memory_counts_as_well() -> None:
    working = worked(recommended_depth, material="mild steel", machine="heavy")
    assert working.from_memory
    assert speed(working).recalled


def test_what_the_author_wrote_is_his_own() -> None:
    assert replace(speed(RECALLED), overruled=Words("20 m/min")).recalled == ()


def test_the_page_marks_the_number_and_says_why() -> None:
    method = with_fact(speed(RECALLED))
    html = to_html(operation_blocks(method, method.setups[0].operations[0], PLACES))
    assert html.count('ms-recalled"') == 1
    assert "titanium" in html.partition("ms-recalled-note")[2]
    assert "(from memory †)" in to_html(working_blocks(RECALLED))
    plain = with_fact(speed(READ))
    html = to_html(operation_blocks(plain, plain.setups[0].operations[0], PLACES))
    assert "ms-recalled" not in html
    assert "US Navy training manual" in to_html(working_blocks(READ)).partition("Rests on")[2]


def test_the_bench_sheet_has_the_mark_and_one_footnote() -> None:
    shown = replace(speed(RECALLED), key="spindle_speed")
    html = to_html(bench_blocks(with_fact(shown), PLACES))
    assert html.count('ms-recalled"') == 1
    assert html.count("ms-recalled-note") == 1
    assert "ms-recalled" not in to_html(bench_blocks(with_fact(replace(speed(READ), key="spindle_speed")), PLACES))


def test_a_calc_line_is_marked_and_says_what_to_heed() -> None:
    rough = worked(turned_roughness, feed=1.2, nose_radius=0.4)
    lines = (Calculation("speed", "", mm(1), (), RECALLED, 1, 0), Calculation("ra", "", mm(1), (), rough, 2, 0))
    html = to_html(calculation_blocks(lines))
    assert html.count('ms-recalled"') == 1
    assert "ra: The feed is greater than the nose radius" in html.partition("ms-calc-working")[0]


def test_a_comparison_marks_the_times_that_rest_on_memory() -> None:
    part, found = next(iter(HANDBOOK.comparisons.items()))
    card = HANDBOOK.workshops[found.workshop]
    methods = [HANDBOOK.entries[slug].own for slug in found.methods]

    def compared(one: Fact):
        changed = [replace(methods[0], setups=with_fact(one).setups), *methods[1:]]
        made = compare(part, [Candidate(method) for method in changed], card)
        book = replace(HANDBOOK, by_workshop={part: {found.workshop: made}})
        return to_html(comparison_blocks(book, part, PLACES))

    methods[1:] = [replace(method, setups=()) for method in methods[1:]]
    assert "ms-recalled-note" in compared(speed(RECALLED))
    assert "ms-recalled" not in compared(speed(READ))


def test_the_health_page_counts_rows_by_trust() -> None:
    html = to_html(health_blocks(HANDBOOK, PLACES))
    total = sum(sum(by.values()) for by in counted_by_trust().values())
    shown = html.partition("All tables")[2].partition("</tr>")[0]
    numbers = [int(part.partition("<")[0]) for part in shown.replace(">", ">|").split("|") if part[:1].isdigit()]
    assert sum(numbers) == total
