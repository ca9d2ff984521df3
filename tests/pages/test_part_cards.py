"""Is every method in the picture index, with its part, its time and whether it works in the workshop?"""

from __future__ import annotations

import pytest
import samples

from methodsheets.pages.elements import to_html
from methodsheets.pages.islands import Islands
from methodsheets.pages.site import Request, Site


@pytest.fixture(scope="module", params=["index", "parts"])
def page(request: pytest.FixtureRequest) -> tuple[Site, str]:
    site = Site(samples.handbook())
    return site, to_html(site.tree(Request(request.param), "index.md"), Islands())


def test_every_method_has_its_card(page: tuple[Site, str]) -> None:
    site, html = page
    assert html.count('class="ms-part-card"') == len(site.handbook.entries)
    for slug, entry in site.handbook.entries.items():
        assert f"{slug}.md" in html
        assert entry.own.title in html


def test_a_card_says_where_it_works(page: tuple[Site, str]) -> None:
    site, html = page
    assert html.count("data-ms-works=") >= len(site.handbook.entries)
    assert html.count("ms-card-state") >= len(site.handbook.entries)


def test_the_reader_can_ask_for_what_he_can_make() -> None:
    html = to_html(Site(samples.handbook()).tree(Request("index"), "index.md"), Islands())
    assert "can be made in my shop" in html
