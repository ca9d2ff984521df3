"""Tests of `pages.later`: what waits beside a page, each distinct piece once, and nothing lost."""

import json
import re

import pytest

from methodsheets.pages import document as d
from methodsheets.pages.elements import to_html
from methodsheets.pages.islands import Islands
from methodsheets.pages.later import Waiting, chosen


def paragraph(text, link=""):
    return d.Paragraph((d.Link(link, d.words(text)),) if link else d.words(text))


def more(title, *content):
    return d.Disclosure(d.words("Show the working"), content, kind="working", later=title)


def page(*blocks):
    """The light page, the whole page, and what waits."""
    islands, waiting = Islands(), Waiting("beside/page-workings.html")
    html = to_html(blocks, islands)
    return islands.fill(html, str, waiting), islands.fill(html, str), waiting


def told(waiting):
    return json.loads(re.fullmatch(r"methodSheetsTake\((.*)\);\n", waiting.script(), re.S).group(1))


def told_to(waiting, shop):
    return json.loads(waiting.shop_script(shop).removeprefix("methodSheetsTake(").removesuffix(");\n"))


def test_what_opens_leaves_the_page_and_is_whole_where_nothing_can_be_fetched():
    light, whole, waiting = page(more("The working of operation 10", paragraph("v = 25"), paragraph("n = 400")))
    assert "v = 25" not in light
    assert 'data-ms-later="1"' in light
    assert "Show the working" in light
    assert 'href="beside/page-workings.html#part-1"' in light
    assert told(waiting) == {"places": ["0 1"], "pieces": ["<p>v = 25</p>", "<p>n = 400</p>"]}
    assert "<p>v = 25</p><p>n = 400</p></details>" in whole
    assert "data-ms-later" not in whole


def test_equal_pieces_are_kept_once():
    same = paragraph("v = 25")
    light, _, waiting = page(more("The working of operation 10", same), more("The working of operation 20", same))
    assert told(waiting) == {"places": ["0", "0"], "pieces": ["<p>v = 25</p>"]}
    assert 'data-ms-later="1"' in light
    assert 'data-ms-later="2"' in light
    plain = waiting.plain(", ".join)
    assert plain.count("v = 25") == 1
    assert '<section id="part-2"><h2>The working of operation 20</h2>\n<p><a href="#piece-0">' in plain


def test_pieces_say_which_workshops_they_are_for():
    content = (
        d.For(("small",), (paragraph("n = 400"),), True),
        d.For(("large", "inch"), (paragraph("n = 500"),), False),
    )
    _, whole, waiting = page(more("The working of operation 10", *content))
    assert told(waiting)["places"] == ["0@small 1@large@inch"]
    assert '<div data-ms-for="small"><p>n = 400</p></div>' in whole
    assert '<div data-ms-for="large inch" class="ms-other" data-search-exclude=""><p>n = 500</p></div>' in whole
    assert told(waiting)["pieces"] == ["<p>n = 400</p>", "<p>n = 500</p>"]
    assert "In large and inch:" in waiting.plain(" and ".join)


@pytest.mark.parametrize(
    "block",
    [
        d.Disclosure(d.words("Open"), (paragraph("shown"),), later=""),
        d.Disclosure(d.words("Open"), (paragraph("shown"),), later="x", open=True),
        d.Disclosure(d.words("Open"), (paragraph("shown"),), later="x", searched=True),
        d.Disclosure(d.words("Open"), (paragraph("shown", "other.md"),), later="x"),
    ],
    ids=["not said to wait", "open", "searched", "with a link that the host must see"],
)
def test_anything_else_stays(block):
    light, whole, waiting = page(block)
    assert light == whole
    assert "shown" in light
    assert waiting.pieces == ()


def test_filling_twice_gives_the_same():
    islands, waiting = Islands(), Waiting("w.html")
    html = to_html((more("The working of a", paragraph("a")), more("The working of b", paragraph("b"))), islands)
    first = islands.fill(html, str, waiting)
    script, plain = waiting.script(), waiting.plain(str)
    assert islands.fill(html, str, waiting) == first
    assert (waiting.script(), waiting.plain(str)) == (script, plain)


def test_words_of_strangers_stay_words():
    evil = '</script><img src=x onerror=evil()> "@\u2028'
    light, _, waiting = page(more(evil, paragraph(evil)))
    for html in (light, *told(waiting)["pieces"], waiting.plain(str)):
        assert "<img" not in html
        assert "</script" not in html


def shops(*keys, shown, text):
    return d.For(keys, (paragraph(text),), shown)


BOTH = (
    shops("small", shown=True, text="n = 400"),
    shops("large", "tiny", shown=False, text="n = 500"),
    shops("inch", shown=False, text="n = 600"),
)


@pytest.mark.parametrize("link", ["", "other.md"], ids=["put in last", "with a link that the host must see"])
def test_what_other_workshops_see_waits_in_a_file_for_each(link):
    blocks = (*BOTH[:2], d.For(("inch",), (paragraph("n = 600", link),), False))
    light, whole, waiting = page(paragraph("before"), *blocks, paragraph("behind"))
    assert "n = 400" in light
    assert "n = 500" not in light
    assert "n = 600" not in light
    assert light.count("<!--ms ") == 1, "one place for all other workshops"
    for shop, text in (("large", "n = 500"), ("tiny", "n = 500"), ("inch", "n = 600")):
        ((_, html),) = told_to(waiting, shop).values()
        assert text in html
    assert all(text in whole for text in ("n = 400", "n = 500", "n = 600"))
    assert "<!--ms " not in whole
    assert "data-ms-lifted" not in whole + light


def test_two_workshops_that_see_the_same_have_one_name_for_it():
    _, _, waiting = page(*BOTH)
    assert told_to(waiting, "large") == told_to(waiting, "tiny")
    assert told_to(waiting, "large") != told_to(waiting, "inch")


def test_a_cell_for_another_workshop_waits_too():
    cell = d.Pair(d.words("Time"), d.words("3 min"), key="time")
    other = d.Pair(d.words("Time"), d.words("2 min"), key="time")
    light, _, waiting = page(d.Pairs((d.For(("small",), (cell,), True), d.For(("large",), (other,), False))))
    assert "3 min" in light
    assert "2 min" not in light
    assert "2 min" in waiting.shop_script("large")


def test_the_page_of_a_workshop_shows_what_its_readers_see_and_nothing_that_only_others_do():
    choices = tuple(d.Choice("workshop", key, key, key == "small") for key in ("small", "large", "inch"))
    islands = Islands()
    tree = (d.Paragraph(choices), d.Elsewhere((("small", "Small"), ("large", "Large"))), *BOTH)
    html = f'<html lang="en">{to_html(tree, islands)}</html>'
    own = islands.fill(html, str, Waiting("", beside="page--in-", home="page.html", own="small"))
    assert 'href="page--in-large.html"' in own
    assert '<a href="page.html" aria-current="page">Small</a>' in own
    large = islands.fill(html, str, Waiting("", beside="page--in-", home="page.html", own="small", workshop="large"))
    large = chosen(large, "large")
    assert "n = 500" in large
    assert "n = 400" not in large
    assert "n = 600" not in large
    assert 'data-ms-workshop="large"' in large
    assert re.findall(r'value="(\w+)"[^>]*checked', large) == ["large"]
    assert "data-ms-beside" not in large


def test_elements_within_elements_for_one_workshop_are_taken_out_whole():
    html = (
        '<html lang="en"><div data-ms-for="a"><div>x</div><div>y</div></div><p data-ms-for="b">b</p><div>z</div></html>'
    )
    assert chosen(html, "b").endswith('><p data-ms-for="b">b</p><div>z</div></html>')
