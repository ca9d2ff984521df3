"""Tests of `faces.markdown`: the extension alone, in a plain `Markdown`."""

import re
from types import SimpleNamespace
from xml.etree.ElementTree import fromstring

import markdown
import pytest
import samples

from methodsheets.faces import on_demand
from methodsheets.faces.markdown import MethodSheetsExtension, Page
from methodsheets.pages.site import Site
from methodsheets.pages.texts import body_of, method_text

SLUG = "eccentric-two-pieces"
USUAL = ["admonition", "tables", "toc", "attr_list", "pymdownx.superfences", "pymdownx.tabbed"]


@pytest.fixture
def site():
    return Site(samples.handbook())


def convert(text, site, slug=SLUG, uri="methods/eccentric-two-pieces.md", extensions=USUAL):
    extension = MethodSheetsExtension()
    extension.page = Page(site, slug, uri)
    md = markdown.Markdown(extensions=[*extensions, extension])
    return SimpleNamespace(html=md.convert(text), page=extension.page, md=md)


def test_a_whole_method_page(site):
    made = convert(body_of(method_text(site, SLUG)), site)
    assert made.page.unknown == []
    for number in range(10, 90, 10):
        assert f'data-ms-op="{number}"' in made.html
    for number in range(1, 5):
        assert f'id="setup-{number}"' in made.html
    assert "methodsheets-block" not in made.html
    assert [item["id"] for item in made.md.toc_tokens[0]["children"]][:2] == ["turn-the-disc", "bore-it-off-centre"]


@pytest.mark.parametrize("extensions", [["fenced_code"], ["fenced_code", "admonition"], USUAL, []])
def test_with_other_fence_extensions_or_none(site, extensions):
    made = convert(samples.SOURCE[SLUG].split("---\n", 2)[2], site, extensions=extensions)
    assert 'data-ms-op="10"' in made.html
    assert 'data-ms-op="40"' in made.html


def test_a_block_in_a_list_stays_in_its_item(site):
    made = convert("1. Pack one jaw:\n\n    ```op\n    drill: 14 mm, through\n    ```\n\n2. then\n", site)
    item = re.search(r"<ol>\s*<li>(.*)</li>\s*<li>\s*(?:<p>)?then", made.html, re.S).group(1)
    assert 'data-ms-op="30"' in item


def test_a_block_in_an_admonition_and_in_a_tab(site):
    text = '!!! note "x"\n\n    ```op\n    face: 0.5 mm\n    ```\n\n'
    text += '=== "Tab"\n\n    ```op\n    turn: to 38 mm, over 13 mm\n    ```\n'
    made = convert(text, site)
    assert re.search(r'class="admonition note".*data-ms-op="10".*class="tabbed-set', made.html, re.S)
    assert 'data-ms-op="20"' in made.html


def test_a_block_quoted_by_a_longer_fence_stays_text(site):
    made = convert("````markdown\n```op\nface: 0.5 mm\n```\n````\n", site)
    assert "data-ms-op" not in made.html
    assert "face: 0.5 mm" in re.sub("<[^>]+>", "", made.html)


def test_a_value_in_prose_but_not_in_code(site):
    made = convert("It goes on with {{ press.force_max }}, not `{{ throw }}`.\n\n    {{ throw }}\n", site)
    assert "7400\u202fN</span>" in made.html
    assert made.html.count("{{ throw }}") == 2


def test_a_value_in_a_heading_reads_well_in_the_contents(site):
    made = convert("## A throw of {{ throw }}\n", site)
    assert made.md.toc_tokens[0]["name"] == "A throw of 6 mm"


def test_braces_of_other_tools_are_left_alone(site):
    assert "{{ unknown.thing }}" in convert("a {{ unknown.thing }} b", site).html


def test_links_are_elements_for_the_host_to_resolve(site):
    made = convert("```methodsheet\npage: summary\nname: eccentric-two-pieces\n```\n", site)
    assert 'href="eccentric-two-pieces/bench.md"' in made.html
    assert 'href="compare/eccentric-spindle.md"' in made.html


def test_words_of_generated_parts_are_not_parsed_again(site):
    book = samples.handbook()
    entry = book.entries[SLUG]
    note = entry.own.setups[0].operations[1].notes[0]
    assert note.metric == "Leave the corner sharp."
    made = convert("```op\nturn: to 38 mm, over 13 mm\n```\n\n[ref]: http://x\n", site)
    assert "Leave the corner sharp." in made.html
    assert "<em>" not in made.html


def test_a_block_that_belongs_to_no_method_complains(site):
    made = convert("```op\nface: 9 mm\n```\n", site)
    assert "is not worked out" in made.html
    assert "face: 9 mm" in made.html
    assert len(made.page.unknown) == 1


def test_an_unknown_page_complains(site):
    made = convert("```methodsheet\npage: gone\n```\n", site)
    assert "no page" in made.html
    assert made.page.unknown


def test_without_a_handbook_the_block_complains(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    found = markdown.markdown("```op\nface: 1 mm\n```\n", extensions=[MethodSheetsExtension()])
    assert "is not worked out" in found


def test_on_demand_the_method_is_found_by_its_blocks_and_drawings_are_put_in(tmp_path, monkeypatch, site):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(on_demand.OnDemand, "_handbook", lambda self: site)
    text = samples.SOURCE[SLUG].split("---\n", 2)[2]
    found = markdown.markdown(text, extensions=["pymdownx.superfences", MethodSheetsExtension()])
    assert 'data-ms-op="40"' in found
    assert "<svg" in found
    assert "<math" in found
    assert "data-ms-island" not in found


def test_the_extension_is_found_by_name(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert "not worked out" in markdown.markdown("```op\nface: 1 mm\n```\n", extensions=["methodsheets"])


def test_a_problem_shows_at_its_block(site):
    made = convert(body_of(samples.SOURCE["clamp-block"]), site, "clamp-block", "methods/clamp-block.md")
    summary = convert(
        "```methodsheet\npage: summary\nname: clamp-block\n```\n", site, "clamp-block", "methods/clamp-block.md"
    )
    assert "methods/clamp-block.md:30:7" in made.html + summary.html


def test_a_page_without_blocks_is_left_alone(site):
    assert convert("Plain *words*.", site).html == "<p>Plain <em>words</em>.</p>"


def test_the_same_extension_serves_many_pages_in_turn(site):
    extension = MethodSheetsExtension()
    md = markdown.Markdown(extensions=[extension])
    for slug in (SLUG, "eccentric-one-piece", SLUG):
        extension.page = Page(site, slug, f"methods/{slug}.md")
        md.reset()
        found = md.convert(body_of(samples.SOURCE[slug]))
        assert "data-ms-op" in found
        assert extension.page.unknown == []


def test_trade_words_are_explained_once(site):
    made = convert("The grip is short, and the grip holds.\n", site)
    assert made.html.count('class="ms-word"') == 1
    link = fromstring(made.html).find(".//a")
    assert link.get("href") == "glossary.md#grip"
    assert "held" in link.get("title")


def test_windows_line_ends(site):
    assert 'data-ms-op="10"' in convert("```op\r\nface: 0.5 mm\r\n```\r\n", site).html
