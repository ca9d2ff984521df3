"""Tests of `pages.site`, `pages.texts`, `pages.places`: all pages of the sample handbook."""

import re
from collections import Counter
from dataclasses import replace
from html.parser import HTMLParser

import pytest
import samples

from methodsheets.pages.elements import to_html
from methodsheets.pages.islands import Islands
from methodsheets.pages.places import MethodPlace, Places
from methodsheets.pages.site import Request, Site
from methodsheets.pages.texts import adorned, body_of, made_pages

VOID = {"br", "hr", "img", "input", "meta", "link"}


@pytest.fixture(scope="module")
def site():
    return Site(samples.handbook(), reference=True)


class Checker(HTMLParser):
    """Finds tags that are not closed in order, and ids."""

    def __init__(self):
        super().__init__()
        self.open, self.ids, self.wrong = [], Counter(), []

    def handle_starttag(self, tag, attrs):
        self.ids.update(value for name, value in attrs if name == "id")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag not in VOID and (not self.open or self.open.pop() != tag):
            self.wrong.append(tag)


def page_html(site, uri, request):
    islands = Islands()
    return islands.fill(to_html(site.tree(request, uri), islands), site.handbook.svg)


def requests(site):
    for page in made_pages(site):
        for fence in re.findall(r"```methodsheet\n(.*?)```", page.text, re.S):
            yield page.uri, Request.read(fence.splitlines())


def test_every_page_is_sound_markup_with_unique_ids(site):
    seen = 0
    for uri, request in requests(site):
        checker = Checker()
        checker.feed(page_html(site, uri, request))
        assert not checker.wrong, (uri, request)
        assert not checker.open, (uri, request)
        assert [key for key, count in checker.ids.items() if count > 1 and not key.endswith(("-t", "-d"))] == [], uri
        seen += 1
    assert seen > 15


def test_every_block_of_every_method_is_shown(site):
    for slug in site.handbook.entries:
        here = site.places.methods[slug].page
        for block in site.blocks_of(slug):
            assert site.block(slug, block, here), (slug, block)


def test_pages_lie_where_they_say(site):
    uris = [page.uri for page in made_pages(site)]
    assert len(uris) == len(set(uris))
    assert {"methods/index.md", "methods/clamp-block.md", "methods/clamp-block/bench.md"} <= set(uris)
    assert "methods/compare/eccentric-spindle.md" in uris
    assert "methods/workshops/osierbank-small.md" in uris
    assert "methods/reference/index.md" in uris


def test_bench_sheets_and_comparisons_are_out_of_menu_and_search(site):
    for page in made_pages(site):
        if page.kind in ("bench", "comparison"):
            assert not page.in_menu
            assert '"exclude": true' in page.text


def test_a_method_that_is_a_page_already_gets_no_second_one():
    site = Site(samples.handbook(), homes={"clamp-block": "parts/clamp.md"})
    pages = {page.uri: page for page in made_pages(site)}
    assert "methods/clamp-block.md" not in pages
    assert "parts/clamp/bench.md" in pages
    assert site.slug_of("parts/clamp.md") == "clamp-block"


def test_the_title_comes_first_then_the_summary_then_the_author_s_words():
    text = adorned("Some prose.\n\n## Turn\n", "slug", "Spindle")
    assert re.search(r"\A# Spindle\n\n```methodsheet\npage: summary\nname: slug\n```\n\nSome prose", text)
    assert text.endswith("```methodsheet\npage: closing\nname: slug\n```\n")


@pytest.mark.parametrize("title", ["# My own title", "My own title\n============"])
def test_a_title_of_the_author_s_own_stays(title):
    text = adorned(f"{title}\n\nProse.\n", "slug", "Spindle")
    assert text.startswith(title)
    assert "# Spindle" not in text
    assert text.index("page: summary") < text.index("Prose.")


def test_front_matter_is_taken_off():
    assert body_of("---\nmethod: x\n---\n\nProse\n").strip() == "Prose"
    assert body_of("\ufeff---\r\nmethod: x\r\n---\r\nProse\r\n") == "Prose\n"
    assert body_of("no front matter") == "no front matter"


def test_unknown_pages_say_what_there_is(site):
    with pytest.raises(KeyError, match="bench"):
        site.tree(Request("bensh"), "x.md")
    with pytest.raises(KeyError, match="no method `gone`"):
        site.tree(Request("bench", "gone"), "x.md")
    with pytest.raises(KeyError, match="no workshop"):
        site.tree(Request("workshop", "gone"), "x.md")


def test_places_of_an_index_page_and_of_another():
    assert MethodPlace("parts/clamp/index.md").bench == "parts/clamp/bench.md"
    assert MethodPlace("methods/flange.md").bench == "methods/flange/bench.md"
    assert MethodPlace("methods/flange.md").data == "methods/flange/flange.json"


def test_relative_paths():
    places = Places({"a": MethodPlace("methods/a.md")}, published=frozenset({"methods/glossary.md"})).at(
        "methods/a/bench.md", "a"
    )
    assert places.method("a") == "../a.md"
    assert places.method("a", "op-10") == "../a.md#op-10"
    assert places.page("glossary", "grip") == "../glossary.md#grip"
    assert places.page("health") == ""
    assert places.method("unknown") == ""


def test_one_drawing_for_workshops_that_look_the_same():
    book = samples.handbook()
    keys = [f"flange--{shop}--setup-1" for shop in ("small", "large", "inch")]
    looks = {keys[0]: "<svg id='{}'>12</svg>", keys[1]: "<svg id='{}'>12</svg>", keys[2]: "<svg id='{}'>0.472</svg>"}
    site = Site(replace(book, draw=lambda key, standalone: looks[key].format(key)))
    assert [site.same_picture(key) for key in keys] == [keys[0], keys[0], keys[2]]


def test_a_method_called_like_a_page_of_the_handbook_keeps_out_of_its_way():
    book = samples.handbook()
    entries = dict(book.entries)
    entries["health"] = entries["clamp-block"]
    site = Site(replace(book, entries=entries))
    assert site.places.methods["health"].page == "methods/health--method.md"


def test_labels_are_trade_words_and_numbers_have_both_systems(site):
    found = page_html(site, "methods/eccentric-two-pieces/bench.md", Request("bench", "eccentric-two-pieces"))
    for words in ("Spindle speed", "Feed", "Depth of cut", "Stick-out", "Grip", "Dial reads", "not over", "not under"):
        assert words in found
    assert 'data-inch="0.728\u202fin"' in found  # stick-out of 18.5 mm
