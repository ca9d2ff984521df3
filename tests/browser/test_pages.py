"""Pages in a real browser: clean, accessible, within the window; switches change what they should and nothing else."""

import re
from pathlib import Path

import axe_core_python
import pytest
import samples
from choosing import choose, until
from seen_pages import BENCH, KINDS, METHOD, seen

from methodsheets.pages import wording

WITHIN = {"travelling": ".ms-alone-body", "workings": ".ms-alone-body", "view": ".ms-view"}
"""What of a page is ours; elsewhere it is what stands between the theme's head and foot."""
AXE = next(Path(axe_core_python.__file__).parent.rglob("axe.min.js")).read_text("utf-8")


SMALL_TARGETS = """(where) => [...document.querySelectorAll(`${where} :is(a[href], button, input, select, summary)`)]
  .filter(one => one.getClientRects().length && !one.matches('.headerlink')).map(one => {
    const box = (one.matches('input') && one.closest('label') || one).getBoundingClientRect();
    const runs = getComputedStyle(one).display === 'inline' && one.parentElement.textContent.trim() !== one.textContent.trim();
    return [runs ? 24 : Math.min(box.width, box.height), one.outerHTML.slice(0, 120)];
  }).filter(([size]) => size > 1 && size < 23.9).map(([size, html]) => `${size}: ${html}`)"""
"""What is pressed, and not a word within a line of text, has 24 px each way; a mark that only the pointer sees has not."""


SMALL_TYPE = """(where) => [...document.querySelectorAll(`${where} :is(svg text, img[style*="--ms-least"])`)]
  .filter(one => one.getClientRects().length).map(one => {
    const seen = one.getCTM && one.getCTM(), style = getComputedStyle(one);
    const size = seen ? parseFloat(style.fontSize) * Math.hypot(seen.a, seen.b)
      : 11 * one.getBoundingClientRect().width / parseFloat(style.getPropertyValue('--ms-least'));
    return [size, seen ? one.textContent : one.src];
  }).filter(([size]) => size < 10.95).map(([size, what]) => `${size}: ${what}`)"""
"""Lettering of drawings and charts under 11 px; a drawing that is a picture says how wide it must be for that."""


MOVED = """() => new Promise(done => { new PerformanceObserver(list => done(list.getEntries().reduce((sum, one) =>
  sum + one.value, 0))).observe({type: 'layout-shift', buffered: true}); setTimeout(() => done(0), 100); })"""
"""How much of the window moved while the page came: the sum of the layout shifts."""
LATE_LETTERING = """(() => { const load = FontFaceSet.prototype.load, later = window.setTimeout;
  const come = new Promise(done => { window.letteringComes = done; });
  FontFaceSet.prototype.load = function (...asked) { return Promise.all([load.apply(this, asked), come]); };
  window.setTimeout = (what, ms, ...rest) => ms >= 3000 ? 0 : later(what, ms, ...rest); })()"""
"""The lettering comes when the test says so; and nobody loses patience."""
PAINTED = "performance.getEntriesByName('first-contentful-paint').length"
AT_THE_FOOT = re.compile(r"/(javascripts/[^/]+|methodsheets)\.js$")
"""The scripts that a page asks for when all its words are there."""
TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


def come_in_the_worst_order(visit, uri, settled, *, width):
    """The page is there, then its lettering, then what was painted stands still, then the scripts at its foot."""
    held = []

    def before(page):
        page.add_init_script(LATE_LETTERING)
        page.route(AT_THE_FOOT, lambda route: route.continue_() if page.whole else held.append(route))
        page.whole = False

    page = visit(uri, width=width, before=before)
    until(page, "window.letteringComes && document.querySelector('footer, main > *')")
    page.evaluate(TWO_FRAMES)
    assert not page.evaluate(PAINTED), "something is seen before its lettering has come"
    page.evaluate("letteringComes()")
    until(page, PAINTED)
    page.whole = True
    for route in held:
        route.continue_()
    page.wait_for_load_state()
    page.evaluate(settled)
    return page


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_said_in_the_console_nothing_moves_and_no_other_host_is_asked(visit, settled, kind):
    """However late its lettering and its scripts come, and however slow the machine is."""
    for width in (1280, 390):
        page = come_in_the_worst_order(visit, KINDS[kind], settled, width=width)
        assert page.said == []
        assert page.evaluate(MOVED) <= 0.05, width
        assert [url for url in page.asked if not url.startswith(("file:", "data:", "blob:", "about:"))] == []


@pytest.mark.parametrize("kind", ["method", "bench", "list"])
def test_the_same_from_a_server(visit, address, kind):
    uri = KINDS[kind].replace("index.html", "").replace(".html", "/")
    page = visit(uri, base=address, settled=True)
    assert page.said == []
    assert {url.split("/")[2] for url in page.asked if url.startswith("http")} == {address.split("/")[2]}


AXE_ASKS = {"light": {}, "dark": {"runOnly": ["color-contrast"]}}
"""A scheme changes colours and nothing else: all else is asked once."""


@pytest.mark.parametrize("scheme", AXE_ASKS)
@pytest.mark.parametrize("kind", [*KINDS, "view"])
def test_axe_finds_nothing(visit, kind, scheme):
    """On a phone, a tablet and a desktop, however slight."""
    page = visit(KINDS.get(kind, BENCH), scheme=scheme)
    inside = WITHIN.get(kind, ".md-content")  # the theme's own header and search are the theme's to mend
    if kind == "view":
        page.get_by_role("button", name="At the machine").click()
    if inside != ".ms-alone-body":
        assert page.evaluate("document.body.dataset.mdColorScheme") == {"light": "default", "dark": "slate"}[scheme]
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    page.evaluate(AXE)
    for width in (390, 820, 1440):
        page.set_viewport_size({"width": width, "height": 900})
        asked = {"resultTypes": ["violations"], "selectors": False, "preload": False, **AXE_ASKS[scheme]}
        found = page.evaluate("([where, asked]) => axe.run(where, asked)", [inside, asked])
        told = [
            (one["id"], one["nodes"][0]["html"][:160], one["nodes"][0].get("failureSummary", "")[:300])
            for one in found["violations"]
        ]
        assert told == [], width
        if scheme == "light":
            assert page.evaluate(SMALL_TARGETS, inside) == [], width
            assert width > 390 or page.evaluate(SMALL_TYPE, inside) == []


def test_whole_pages_have_landmarks_and_names_for_what_opens(visit):
    """The theme's search window has no name of its own; and no two landmarks of a page are called alike."""
    page = visit(METHOD)
    page.evaluate(AXE)
    rules = ["aria-dialog-name", "landmark-unique", "region", "page-has-heading-one"]
    found = page.evaluate("(rules) => axe.run(document, {runOnly: rules})", rules)
    assert [(one["id"], one["nodes"][0]["html"][:160]) for one in found["violations"]] == []


def test_who_goes_by_keyboard_is_at_each_set_up_within_three_stops_of_the_last(visit):
    page = visit(METHOD)
    setups = samples.handbook().entries["eccentric-two-pieces"].own.setups
    assert len(setups) > 1
    onward = [f"Skip to set-up {setup.number}" for setup in setups[1:]]
    for words in ("Skip to content", "Skip to the set-ups", *onward):
        passed = []
        while words not in passed and len(passed) < 3:
            page.keyboard.press("Tab")
            passed.append(page.evaluate("document.activeElement.textContent.trim()"))
        assert words in passed
        shown = page.evaluate("document.activeElement.getBoundingClientRect().toJSON()")
        assert min(shown["width"], shown["height"]) >= 24
        page.keyboard.press("Enter")
    assert page.url.endswith(f"#{setups[-1].id}")
    assert page.said == []


def test_a_formula_that_is_too_wide_is_scrolled_by_keyboard(visit):
    page = visit(METHOD, width=360)
    page.add_style_tag(content=".ms-working p.ms-formula { width: 3em; }")
    page.evaluate("document.querySelector('.ms-op details.ms-working').open = true")
    line = page.locator(".ms-op details.ms-working[open] p.ms-formula").first
    line.scroll_into_view_if_needed()
    until(page, "document.querySelector('.ms-op details.ms-working[open] p.ms-formula').tabIndex === 0")
    assert line.get_attribute("aria-label") == "Formula"


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_sticks_out_sideways(visit, kind):
    page = visit(KINDS[kind], width=360, height=800)
    out = "document.documentElement.scrollWidth - innerWidth"
    other = page.locator(f"input[name=ms-workshop][value={samples.LARGE}]")  # fails there, and thinks in inches
    own = page.locator(f"input[name=ms-workshop][value={samples.SMALL}]")
    for width in (360, 390, 820, 1440):
        page.set_viewport_size({"width": width, "height": 800})
        for choice in (own, other):
            if choice.count():
                choice.first.check(force=True)
            assert page.evaluate(out) <= 0, width


def test_inches_change_every_number_that_has_them_and_no_other(visit):
    page = visit(METHOD)
    numbers = "[...document.querySelectorAll('.ms-q')].map(e => [e.textContent, e.dataset.inch || ''])"
    before = page.evaluate(numbers)
    page.get_by_label("inch", exact=True).check()
    after = page.evaluate(numbers)
    assert len(before) > 150
    for (metric, inch), (now, _) in zip(before, after, strict=True):
        assert now == (inch or metric)
    page.get_by_label("mm", exact=True).check()
    assert page.evaluate(numbers) == before


def test_a_reader_of_inches_is_told_that_drawings_are_in_mm(visit):
    page = visit(METHOD)
    note = "getComputedStyle(document.querySelector('figure.ms-figure figcaption'), '::after').content"
    assert page.evaluate(note) == "none"
    page.locator('input[name="ms-units"][value="inch"]').check(force=True)
    assert "in mm" in page.evaluate(note)
    for uri in (METHOD, BENCH):
        other = visit(uri, context=page.context)
        assert other.get_by_text("Drawings and workings are in mm.").first.is_visible()
    page.locator('input[name="ms-units"][value="metric"]').check(force=True)
    assert not page.get_by_text("Drawings and workings are in mm.").first.is_visible()
    assert "Drawings are in mm." in page.locator(".ms-provenance").first.inner_text()


@pytest.mark.parametrize(("uri", "places"), [(METHOD, ".ms-op-words"), (BENCH, ".ms-sheet-what strong")])
def test_sentences_change_with_the_units_as_the_core_words_them(visit, uri, places):
    own = samples.handbook().entries["eccentric-two-pieces"].own
    page = visit(uri)
    assert seen(page, places) == [operation.words.metric for operation in own.operations]
    page.get_by_label("inch", exact=True).check()
    assert seen(page, places) == [operation.words.inch or operation.words.metric for operation in own.operations]
    assert own.setups[0].words.inch in seen(page, ".ms-setup-words, .ms-sheet-words")


def test_who_chose_a_workshop_but_no_units_thinks_in_its_own(visit):
    page = visit(METHOD)
    shown = "document.documentElement.dataset.msUnits"
    assert page.evaluate(shown) == "metric"
    choose(page, samples.LARGE)
    assert page.evaluate(shown) == "inch"
    assert page.locator("input[name=ms-units][value=inch]").is_checked()
    assert visit("methods/index.html", context=page.context).evaluate(shown) == "inch"
    page.get_by_label("mm", exact=True).check()
    again = visit(BENCH, context=page.context)
    assert again.evaluate(shown) == "metric"
    assert again.evaluate("document.documentElement.dataset.msWorkshop") == samples.LARGE


def test_the_units_that_are_shown_already_can_be_chosen(visit):
    page = visit(METHOD)
    page.locator("label.ms-choice", has=page.locator("input[name=ms-units][value=metric]")).click()
    choose(page, samples.LARGE)
    assert page.evaluate("document.documentElement.dataset.msUnits") == "metric"


def test_the_choice_of_units_is_kept_on_the_next_page_and_in_the_other_tab(visit):
    first = visit(METHOD)
    second = visit(BENCH, context=first.context)
    first.get_by_label("inch", exact=True).check()
    until(second, "document.documentElement.dataset.msUnits === 'inch'")
    assert second.locator("input[name=ms-units][value=inch]").is_checked()
    third = visit("methods/eccentric-one-piece.html", context=first.context)
    assert third.locator("input[name=ms-units][value=inch]").is_checked()
    second.get_by_label("mm", exact=True).check()
    until(first, "document.documentElement.dataset.msUnits === 'metric'")


@pytest.mark.parametrize("uri", [METHOD, BENCH])
@pytest.mark.parametrize("scripts", [True, False])
def test_choosing_a_workshop_changes_what_it_should(visit, uri, scripts):
    """Speeds as the sample method for that workshop has them; works with scripts off."""
    page = visit(uri, scripts=scripts)
    book = samples.handbook()

    def speeds():
        """Spindle speeds as they stand in the facts, in order; read without scripts of the page."""
        found = page.locator("[data-ms-fact=spindle_speed] dd .ms-num")
        return [found.nth(index).text_content() for index in range(found.count()) if found.nth(index).is_visible()]

    def expected(key):
        operations = book.entries["eccentric-two-pieces"].by_workshop[key].operations
        return [f"{one.fact('spindle_speed').value.value:g}" for one in operations if one.fact("spindle_speed")]

    assert expected(samples.SMALL) != expected(samples.LARGE)
    assert speeds() == expected(samples.SMALL)
    for shop in (samples.LARGE, samples.SMALL):
        if scripts:
            choose(page, shop)
        else:
            page.get_by_role("link", name=book.workshops[shop].name).first.click()
            page.wait_for_load_state()
        assert speeds() == expected(shop)


def shown_for_the_workshop(page) -> dict:
    """What stands on a method's page or its bench sheet now, as the eye has it."""
    figures = """[...document.querySelectorAll('[data-ms-setup] figure')].filter(e => e.getClientRects().length)
      .map(e => e.querySelector('svg, img')).map(e => e.dataset.msDrawing || e.querySelector('title').textContent)"""
    against = """(part) => [...document.querySelectorAll(`${part} > :is(.ms-failed, .ms-warning)[data-ms-for] li`)]
      .filter(e => e.getClientRects().length).map(e => e.textContent)"""
    sheet = page.locator("[data-ms-sheet]").count() > 0
    return {
        "feeds": [one.split() for one in seen(page, "[data-ms-op] [data-ms-fact=feed] dd")],
        "dials": seen(page, "[data-ms-op] td[data-label^='Dial']"),
        "times": seen(page, "[data-ms-fact=one] dd" if sheet else ".ms-totals .ms-time dd"),
        "failed": page.evaluate(against, ".ms-sheet" if sheet else ".ms-summary"),
        "figures": [samples.svg(key).replace(key, "") for key in page.evaluate(figures)],
    }


def wanted_for_the_workshop(method, *, sheet: bool) -> dict:
    """The same as the core has it."""
    totals, operations = method.totals, method.operations
    times = [totals.one_minutes] if sheet else [totals.one_minutes, totals.batch_minutes]
    figures = [key for setup in method.setups for key in setup.figures]
    return {
        "feeds": [one.fact("feed").value.metric.split() for one in operations if one.fact("feed")],
        "dials": [row.dial for one in operations for row in one.passes],
        "times": [wording.minutes(time).metric for time in times],
        "failed": [
            f"Operation {one.number}: {check.words.metric} Buy or borrow what is wanted, or {check.advice[1]}."
            for one in operations
            for check in one.checks
            if check.state == "failed"
        ],
        "figures": [samples.svg(key).replace(key, "") for key in figures],
    }


@pytest.mark.parametrize("uri", [METHOD, BENCH])
def test_a_workshop_s_own_numbers_are_shown_and_nothing_else_changes(visit, uri):
    """Feeds, dials, times, failed checks and figures are the core's; what does not depend on the workshop stays."""
    by = samples.handbook().entries["eccentric-two-pieces"].by_workshop
    wanted = {key: wanted_for_the_workshop(by[key], sheet=uri == BENCH) for key in (samples.SMALL, samples.LARGE)}
    for what, small in wanted[samples.SMALL].items():
        assert small != wanted[samples.LARGE][what], f"the sample workshops have the same {what}"
    page = visit(uri)
    for units in ("inch", "mm"):  # mm by choice: else the large bench turns the page to inches
        page.get_by_label(units, exact=True).check()
    rest = """() => {
      const walker = document.createTreeWalker(document.querySelector('.md-content'), NodeFilter.SHOW_TEXT), found = [];
      while (walker.nextNode()) {
        const about = walker.currentNode.parentElement;
        if (!about.closest('[data-ms-for], .ms-variant') && about.getClientRects().length)
          found.push(walker.currentNode.data);
      }
      return found; }"""
    wrong = """(key) => [...document.querySelectorAll('[data-ms-for]')].filter(e =>
      (getComputedStyle(e).display === 'none') === e.dataset.msFor.split(' ').includes(key)).map(e => e.textContent)"""
    before = page.evaluate(rest)
    assert len(before) > 300
    for key in (samples.SMALL, samples.LARGE, samples.SMALL):
        choose(page, key)
        assert shown_for_the_workshop(page) == wanted[key]
        assert page.evaluate(wrong, key) == []
        assert page.evaluate(rest) == before


def test_the_workshop_is_kept_and_says_where_the_method_fails(visit):
    page = visit(METHOD)
    choose(page, samples.LARGE)
    failed = "Works with these changes in Osierbank, large bench"
    assert failed in seen(page, ".ms-summary .ms-box-title")
    sheet = visit(BENCH, context=page.context)
    assert failed in seen(sheet, ".ms-box-title")
    compared = visit("methods/compare/eccentric-spindle.html", context=page.context)
    assert compared.locator(f"input[name=ms-workshop][value={samples.LARGE}]").is_checked()
    choose(page, samples.SMALL)
    until(sheet, "shop => document.documentElement.dataset.msWorkshop === shop", arg=samples.SMALL)
    assert failed not in seen(sheet, ".ms-box-title")


def test_the_drawing_of_the_chosen_workshop_is_fetched_when_it_is_seen(visit):
    page = visit(METHOD)
    choose(page, samples.LARGE)
    drawing = page.locator(f"[data-ms-for~={samples.LARGE}] img[data-ms-drawing]:visible").first
    drawing.scroll_into_view_if_needed()
    until(page, "picture => picture.complete && picture.naturalWidth", arg=drawing.element_handle())
