"""What waits beside a page, opened from a memory stick: it comes when it is asked for, and is there without scripts."""

import pytest
import samples
from choosing import choose, until

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
    until(page, "() => !document.querySelector('details.ms-working[open] .ms-later')")
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
    page.locator(f"{WORKING}[open] .ms-later").first.click()
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


def test_drawings_come_when_they_are_seen_and_nothing_moves(visit):
    page = visit(METHOD, width=390, height=844)
    page.evaluate(
        """() => { window.moved = 0; new PerformanceObserver(list => {
        for (const one of list.getEntries()) if (!one.hadRecentInput) window.moved += one.value;
        }).observe({type: 'layout-shift', buffered: true}); }"""
    )
    there = "[...document.querySelectorAll('img[data-ms-drawing]')]"
    assert page.evaluate(f"{there}.every(i => i.alt && i.width && i.getAttribute('loading') === 'lazy')")
    assert page.evaluate(f"{there}.some(i => !i.complete || !i.naturalWidth)")
    page.evaluate("window.scrollTo(0, document.body.scrollHeight / 2)")
    until(
        page,
        f"() => {there}.filter(i => {{ const b = i.getBoundingClientRect(); return b.height && b.bottom > 0 && b.top < innerHeight; }})"
        ".every(i => i.complete && i.naturalWidth)",
    )
    assert page.evaluate("window.moved") <= 0.05


def test_a_drawing_follows_the_switch_of_the_theme_and_paper_is_white(visit):
    page = visit(METHOD, scheme="dark")
    shade = "getComputedStyle(document.querySelector('img[data-ms-drawing]')).filter"
    assert page.evaluate(shade).startswith("invert")
    page.evaluate("document.body.setAttribute('data-md-color-scheme', 'default')")
    assert page.evaluate(shade) == "none"
    page.evaluate("document.body.setAttribute('data-md-color-scheme', 'slate')")
    page.emulate_media(media="print")
    assert page.evaluate(shade) == "none"


def test_paper_has_every_drawing(visit):
    """The browser fetches for paper what nobody has scrolled to."""
    page = visit(METHOD)
    page.pdf()
    shown = "[...document.querySelectorAll('img[data-ms-drawing]')].filter(i => i.getClientRects().length)"
    assert page.evaluate(f"{shown}.length") > 3
    assert page.evaluate(f"{shown}.every(i => i.complete && i.naturalWidth)")


SHOWN = """() => [...document.querySelectorAll('[data-ms-fact="workshop"]')].filter(e => e.getClientRects().length)
  .map(e => e.querySelector('dd').textContent)"""


@pytest.mark.parametrize("uri", [METHOD, METHOD.replace(".html", "/bench.html")], ids=["page", "sheet"])
def test_another_workshop_comes_when_it_is_chosen(visit, uri):
    page = visit(uri)
    large = samples.handbook().workshops[samples.LARGE].name
    assert page.locator(".ms-other").count() == 0
    choose(page, samples.LARGE)
    assert page.evaluate(SHOWN) in ([large], [])
    assert page.locator(f"[data-ms-for~={samples.LARGE}]:visible").count() > 3
    page.locator("input[name=ms-units][value=inch]").check(force=True)
    shown = page.locator(f"[data-ms-for~={samples.LARGE}] .ms-q[data-inch]:visible")
    assert shown.count() > 0
    assert shown.evaluate_all("all => all.every(e => e.textContent === e.dataset.inch)")
    choose(page, samples.SMALL)
    choose(page, samples.LARGE)
    scripts = [url for url in page.asked if f"--in-{samples.LARGE}.js" in url]
    assert len(scripts) == 1
    again = visit(uri, context=page.context)
    until(again, "shop => document.documentElement.dataset.msWorkshop === shop", arg=samples.LARGE)
    assert again.locator(f"[data-ms-for~={samples.LARGE}]:visible").count() > 3
    assert page.said == again.said == []


def test_a_working_of_another_workshop_opens(visit):
    page = visit(METHOD)
    choose(page, samples.LARGE)
    page.locator(f"{WORKING}:visible > summary").first.click()
    page.locator(f"{WORKING}[open] .ms-working-line:visible").first.wait_for()


def test_without_scripts_other_workshops_are_pages_of_their_own(visit):
    page = visit(METHOD, scripts=False)
    assert page.locator("input[name=ms-workshop]:visible").count() == 0
    large = samples.handbook().workshops[samples.LARGE].name
    page.get_by_role("link", name=large).first.click()
    page.wait_for_url(f"**--in-{samples.LARGE}.html")
    assert page.evaluate(SHOWN) == [large]
    assert page.locator("[data-ms-op]:visible").count() == 8
    page.locator(".ms-plain-choices a").first.click()
    page.wait_for_url(f"**/{METHOD}")


def test_the_page_of_a_workshop_leads_a_reader_with_scripts_home(visit):
    page = visit(METHOD.replace(".html", f"--in-{samples.LARGE}.html"))
    page.wait_for_url(f"**/{METHOD}")
    until(page, "shop => document.documentElement.dataset.msWorkshop === shop", arg=samples.LARGE)
