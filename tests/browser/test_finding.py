"""Does a reader find what he looks for, however he spells it: in the search window, in the list, and after Back?"""

from __future__ import annotations

from pathlib import Path

import pytest
from choosing import until

TABLE = Path(__file__).parent / "queries.txt"
QUERIES = [line.split("|") for line in TABLE.read_text("utf-8").splitlines() if line and not line.startswith("#")]
PATIENCE = 180_000
ALL = "queries => Object.fromEntries(queries.map(q => [q, finder(q)]))"


@pytest.fixture(scope="module")
def page(browser, demo):
    """A tab without a network, as a memory stick is read."""
    context = browser.new_context(offline=True, viewport={"width": 1280, "height": 900})
    context.set_default_timeout(PATIENCE)
    yield context.new_page()
    context.close()


def test_the_wanted_answers_lead(page, demo):
    assert len({query for query, _ in QUERIES}) >= 80
    page.goto("about:blank")
    page.evaluate("window.methodSheetsTake = found => { window.finder = found; }; undefined")
    page.add_script_tag(path=str(demo / "assets/methodsheets/find.js"))
    answers = page.evaluate(ALL, [query for query, _ in QUERIES])
    missed = []
    for query, wanted in QUERIES:
        names = [name.strip() for name in wanted.split(";")]
        first = [one["title"] for one in answers[query]][: len(names) + (len(names) > 1)]
        missed += [] if all(any(one.startswith(name) for one in first) for name in names) else [(query, wanted, first)]
    assert missed == []
    four_jaw = [one for one in answers["4 jaw"] if one["kind"] == "Method"]
    assert all("four-jaw" in one["why"].lower() for one in four_jaw)
    for found in answers.values():
        for one in found:
            assert (demo / one["url"].split("#")[0]).exists(), one
            assert not one["picture"] or (demo / one["picture"]).exists(), one


@pytest.mark.parametrize("query", ["excentric", "bronze", "t-nut", "H7"])
def test_the_list_and_the_search_window_agree_and_back_keeps_the_filter(page, demo, query):
    page.goto((demo / "methods/index.html").as_uri())
    page.locator('.ms-filters [data-ms-do="find"]').fill(query)
    until(page, "/find=/.test(location.hash) && document.querySelector('.ms-why:not([hidden]), .ms-part-card[hidden]')")
    shown = "[...document.querySelectorAll('.ms-part-card')].filter(c => !c.hidden).sort((a, b) => a.style.order - b.style.order)"
    titles = page.evaluate(f"{shown}.map(c => c.querySelector('a').textContent)")
    assert titles
    box = page.locator("[data-md-component=search-query]").first
    box.fill(query)
    page.wait_for_selector(".ms-hit", state="attached")
    answers = (
        "[...document.querySelectorAll('.ms-hit')].filter(a => a.querySelector('i').textContent.startsWith('Method'))"
    )
    found = page.evaluate(f"{answers}.map(a => a.querySelector('b').textContent)")
    assert found == titles
    box.fill("")
    page.evaluate(f"{shown}[0].querySelector('a').click()")
    until(page, "!document.querySelector('.ms-filters')")
    page.go_back()
    until(page, "document.querySelector('.ms-part-card')")
    assert page.locator('.ms-filters [data-ms-do="find"]').input_value() == query
    until(page, "document.querySelector('.ms-part-card[hidden]')")
    assert page.evaluate(f"{shown}.map(c => c.querySelector('a').textContent)") == titles
