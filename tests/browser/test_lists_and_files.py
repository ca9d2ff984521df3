"""Reading without scripts, lists and search, files that travel, in a real browser; and every way through a handbook."""

import json
import re
from pathlib import Path

import pytest
import samples
import walking
from choosing import choose, until
from seen_pages import KINDS, METHOD


def test_the_working_opens_by_keyboard(visit):
    page = visit(METHOD)
    line = page.locator("details.ms-working > summary").first
    line.focus()
    page.keyboard.press("Enter")
    page.locator("details.ms-working[open] .ms-formula").first.wait_for()


def test_without_scripts_everything_needed_is_there_and_no_dead_buttons(visit):
    page = visit(METHOD, scripts=False)
    assert page.locator(".ms-script:visible").count() == 0
    assert page.locator("[data-ms-op]:visible").count() == 8
    assert page.locator("details.ms-working").count() > 0
    listed = visit("methods/index.html", scripts=False)
    assert listed.locator(".ms-part-card:visible").count() == 3


@pytest.mark.parametrize(
    ("kind", "headings", "words"),
    [
        ("comparison", ["Where they differ", "Time"], ["Set-ups", "Journal to eccentric, worst"]),
        ("health", ["Problems", "Method by method"], ["Clamp block", "the keys of an operation are fixed"]),
        ("workshop", ["Machines", "Ways of holding", "Tools"], ["Bench lathe", "Three-jaw chuck", "Knife tool"]),
        ("words", ["stick-out", "swarf", "witness"], ["The metal that a part begins as."]),
    ],
)
def test_without_scripts_the_other_pages_are_readable_too(visit, kind, headings, words):
    page = visit(KINDS[kind], scripts=False)
    assert page.locator(".ms-script:visible").count() == 0
    content = page.locator(".md-content").inner_text()
    assert page.locator("h1:visible").count() == 1
    for heading in headings:
        assert page.get_by_role("heading", name=re.compile(rf"^{heading}")).first.is_visible(), heading
    for said in words:
        assert said.lower() in content.lower(), said
    if kind != "words":
        assert page.locator(".md-content table.ms-table:visible tbody tr").count() > 2


def test_the_list_filters_and_sorts(visit):
    page = visit("methods/index.html")
    rows = (
        "[...document.querySelectorAll('table.ms-index tbody tr')].filter(r => !r.hidden)"
        ".map(r => r.querySelector('a').textContent)"
    )
    assert len(page.evaluate(rows)) == 3
    page.get_by_label("Find").fill("two pieces")
    until(page, f"{rows}.join() === 'Eccentric spindle, two pieces'")
    assert page.locator(".ms-count").inner_text() == "1 method"
    page.get_by_role("button", name="Show all").click()
    page.get_by_label("Status").select_option("draft")
    until(page, f"{rows}.join() === 'Clamp block'")
    page.get_by_role("button", name="Show all").click()
    page.get_by_label("At most, minutes each").fill("60")
    until(page, f"!{rows}.includes('Eccentric spindle, two pieces')")
    page.get_by_role("button", name="Show all").click()
    page.get_by_text("All methods in one table").click()
    page.get_by_role("button", name="Method").click()
    first = page.evaluate(rows)
    page.get_by_role("button", name="Method").click()
    assert page.evaluate(rows) == first[::-1]
    assert page.locator("th[aria-sort=descending]").count() == 1


SPELLINGS = {
    "eccentric": "Eccentric spindle",
    "H7/s6": "Eccentric spindle",
    "H7": "Eccentric spindle",
    "s6": "Eccentric spindle",
    "16 H7": "Eccentric spindle",
    "16 H7/s6": "Eccentric spindle",
    "H7/g6": "Eccentric spindle, two pieces",
    "g6": "Eccentric spindle, two pieces",
    "8 H7/g6": "Eccentric spindle, two pieces",
    "Ø16": "Eccentric spindle",
    "3/8": "Eccentric spindle",
    "3/8 in": "Eccentric spindle",
    "M6x1": "Eccentric spindle",
    "M6": "Eccentric spindle",
    "ER32": "Eccentric spindle, two pieces",
    "er32": "Eccentric spindle, two pieces",
    "4 jaw": "Eccentric spindle",
    "four-jaw": "Eccentric spindle",
    "EN1A": "Eccentric spindle",
    "boring bar": "Eccentric spindle",
    "spindle_speed": "Cutting",
}


def _found(page, box, results, words, wanted) -> bool:
    """Typed until it is heard: the theme hears nothing that is typed before its search is ready."""
    for _ in range(4):
        box.fill("")
        box.press_sequentially(words, delay=5)
        for _ in range(28):
            if any(wanted in text for text in results.all_inner_texts()):
                return True
            page.wait_for_timeout(25)
    return False


def test_search_from_a_memory_stick_finds_the_usual_spellings(visit):
    page = visit("index.html")
    box, results = page.locator("[data-md-component=search-query]").first, page.locator(".md-search-result__item")
    missed = []
    for words, wanted in SPELLINGS.items():
        box.fill("")
        until(page, "!document.querySelector('.md-search-result__item')")
        if not _found(page, box, results, words, wanted):
            missed.append((words, [text.split("\n")[0] for text in results.all_inner_texts()][:5]))
    assert missed == []
    assert page.said == []


def test_an_anchor_leads_to_its_operation(visit):
    page = visit(METHOD + "#op-40-bore")
    box = page.locator("#op-40-bore").bounding_box()
    assert 0 <= box["y"] < 400


def test_the_travelling_file_works_alone_and_gives_the_method_back(visit, browser, tmp_path, stick):
    from methodsheets.pages.selfcontained import source_of

    alone = tmp_path / "sent by a friend.html"
    alone.write_bytes((stick / KINDS["travelling"]).read_bytes())
    context = browser.new_context(offline=True)
    page = context.new_page()
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.goto(alone.as_uri())
    assert said == []
    assert page.locator("svg").count() > 5
    choose(page, samples.LARGE)
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Take the method file out of this page").click()
    got = Path(waiting.value.path()).read_bytes()
    assert got == source_of(alone.read_text("utf-8"))[1] == samples.SOURCE["eccentric-two-pieces"].encode()
    context.close()


@pytest.mark.parametrize("scripts", [True, False])
def test_the_travelling_file_holds_the_bench_sheet_and_prints_it_alone(visit, scripts):
    """Seen by its link, with or without scripts; the choice of workshop is the page's own; ids stand once."""
    page = visit(KINDS["travelling"], width=390, scripts=scripts)
    sheet, summary = page.locator(".ms-sheet"), page.locator(".ms-summary").first
    assert summary.is_visible()
    assert not sheet.is_visible()
    page.get_by_role("link", name="Go to the bench").click()
    for medium in ("screen", "print"):
        page.emulate_media(media=medium)
        assert sheet.is_visible()
        assert not summary.is_visible()
    page.emulate_media(media="screen")
    if scripts:
        choose(page, samples.LARGE)
    else:
        page.locator(f"input[name=ms-workshop][value={samples.LARGE}]").check(force=True)
    assert "Osierbank, large bench" in sheet.locator("[data-ms-fact=workshop] dd:visible").inner_text()
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(one => one.id)")
    assert sorted(set(ids)) == sorted(ids)
    if scripts:
        page.get_by_role("button", name="At the machine").click()
        assert page.locator("#ms-view").is_visible()
        page.get_by_role("button", name="Back to the sheet").click()
    page.get_by_role("link", name="Back to the method").click()
    assert summary.is_visible()
    assert not sheet.is_visible()


def test_the_data_link_gives_json(stick):
    data = json.loads((stick / "methods/eccentric-two-pieces/eccentric-two-pieces.json").read_text("utf-8"))
    assert data["method"] == "eccentric-two-pieces"


def test_every_journey_ends_where_it_should_with_no_more_taps_than_it_says(visit):
    journeys = walking.read(walking.JOURNEYS.read_text("utf-8"))
    assert len(journeys) >= 10
    for name, taps, start, steps in journeys:
        page = visit(start, width=390, height=844)
        page.evaluate("window.print = () => document.querySelector('h1').append(' printed')")
        page.context.set_default_timeout(20_000)
        page.add_init_script("window.print = () => document.querySelector('h1').append(' printed')")
        for what, words in steps:
            try:
                walking.done(page, what, words)
            except Exception as fault:
                pytest.fail(f"{name}: {what} {words}: {str(fault)[:300]}")
        assert sum(what in ("tap", "take") for what, _ in steps) <= taps, name
        assert page.said == [], name
