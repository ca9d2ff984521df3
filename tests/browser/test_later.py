"""What waits beside a page, opened from a memory stick: it comes when it is asked for, and is there without scripts."""

import pytest

METHOD = "methods/eccentric-two-pieces.html"
WORKING = ".ms-op details.ms-working"


def test_a_working_is_not_in_the_page_until_it_is_opened(visit):
    page = visit(METHOD)
    assert page.locator("math").count() == 0
    page.locator(f"{WORKING} > summary").first.click()
    page.locator(f"{WORKING}[open] math").first.wait_for()
    assert page.locator(f"{WORKING}[open] .ms-later").count() == 0
    asked = [url for url in page.asked if url.endswith("-workings.js")]
    page.locator(f"{WORKING} > summary").nth(1).click()
    page.locator(f"{WORKING} .ms-working-line").nth(1).wait_for(state="attached")
    page.wait_for_function("!document.querySelector('details.ms-working[open] .ms-later')")
    assert [url for url in page.asked if url.endswith("-workings.js")] == asked
    assert len(asked) == 1
    assert page.said == []


def test_what_comes_later_has_the_readers_units(visit):
    page = visit(METHOD)
    page.locator("input[name=ms-units][value=inch]").check(force=True)
    page.locator("details.ms-checks > summary").first.click()
    page.locator("details.ms-checks[open] li").first.wait_for()
    metric = page.evaluate(
        "[...document.querySelectorAll('details.ms-checks[open] .ms-q[data-inch]')].filter(e => e.textContent !== e.dataset.inch).length"
    )
    assert metric == 0


def test_without_scripts_a_line_leads_to_the_plain_page(visit):
    page = visit(METHOD, scripts=False)
    page.locator(f"{WORKING} > summary").first.click()
    page.locator(f"{WORKING}[open] .ms-later a").first.click()
    page.wait_for_url("**-workings.html#part-*")
    assert page.locator("section:target .ms-formula math").first.is_visible()
    page.get_by_text("Back to the page").click()
    page.wait_for_url(f"**/{METHOD}")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_plain_page_is_readable_in_both_schemes(visit, scheme):
    page = visit("methods/eccentric-two-pieces/eccentric-two-pieces-workings.html", scheme=scheme)
    ink, paper = page.evaluate(
        "[getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor]"
    )
    light = sum(map(int, paper.strip("rgb()").split(","))) > sum(map(int, ink.strip("rgb()").split(",")))
    assert light == (scheme == "light")
    assert page.said == []
