"""Which files lie beside a page of a method, with what waits there until a reader asks for it?"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator
from dataclasses import replace

from mkdocs.structure.pages import Page as HostPage
from mkdocs.utils import get_relative_url

from methodsheets.faces.markdown import Page
from methodsheets.pages.assets import SCRIPT_URI, STYLE_URI
from methodsheets.pages.later import Waiting, chosen
from methodsheets.pages.plain import plain_page
from methodsheets.pages.site import Site


def beside(site: Site, ours: Page, html: str, page: HostPage) -> Iterator[tuple[str, str]]:
    """Take from a method's page or sheet what may wait; gives the files that hold it, by their place in the site.

    Parameters:
        site: the handbook.
        ours: the page as we know it; from now on it is filled without what waits.
        html: its content, the places of drawings and formulas still empty.
        page: the page as the host knows it.
    """
    place, entry = site.places.methods[ours.slug], site.handbook.entries[ours.slug]
    name = place.name if ours.is_method_page else "bench"
    ours.waiting = Waiting(
        get_relative_url(place.workings, page.url) if ours.is_method_page else "",
        beside=f"{name}--in-",  # two hyphens: no method's own name has them
        home=posixpath.basename(page.url) or "./",
        own=entry.own_workshop,
    )
    ours.islands.fill(html, site.handbook.svg, ours.waiting)
    for shop in _others(site, ours):
        yield _lies_beside(page, f"{name}--in-{shop}.js"), ours.waiting.shop_script(shop)
    if ours.is_method_page:
        yield place.workings_script, ours.waiting.script()
        yield place.workings, _workings(site, ours, page, ours.waiting)


def for_other_workshops(site: Site, ours: Page, output: str, page: HostPage) -> Iterator[tuple[str, str]]:
    """The whole page as readers of other workshops see it, for those who run no script; by its place in the site."""
    if ours.waiting is None:
        return
    for shop in _others(site, ours):
        html = ours.islands.fill(output, site.handbook.svg, replace(ours.waiting, workshop=shop))
        yield _lies_beside(page, f"{ours.waiting.beside}{shop}.html"), chosen(html, shop)


def _others(site: Site, ours: Page) -> list[str]:
    entry = site.handbook.entries[ours.slug]
    return [shop for shop in entry.by_workshop if shop != entry.own_workshop]


def _lies_beside(page: HostPage, name: str) -> str:
    """In the folder of the page, so that every address on it is right there too."""
    return posixpath.join(posixpath.dirname(page.file.dest_uri), name)


def _workings(site: Site, ours: Page, page: HostPage, waiting: Waiting) -> str:
    shops, uri = site.handbook.workshops, site.places.methods[ours.slug].workings

    def names(keys: Iterable[str]) -> str:
        return " and in ".join(shops[key].name if key in shops else key for key in keys)

    return plain_page(
        f"Workings: {site.handbook.entries[ours.slug].own.title}",
        waiting.plain(names),
        back=get_relative_url(page.url, uri),
        style=get_relative_url(STYLE_URI, uri),
        script=get_relative_url(SCRIPT_URI, uri),
    )
