"""Which files lie beside the page of a method, with what waits there until a reader asks for it?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mkdocs.structure.pages import Page as HostPage
from mkdocs.utils import get_relative_url

from methodsheets.faces.markdown import Page
from methodsheets.pages.assets import SCRIPT_URI, STYLE_URI
from methodsheets.pages.later import Waiting
from methodsheets.pages.plain import plain_page
from methodsheets.pages.site import Site


def beside(site: Site, ours: Page, html: str, page: HostPage) -> Iterator[tuple[str, str]]:
    """Take from a method's page what may wait; gives the files that hold it, by their place in the site.

    Parameters:
        site: the handbook.
        ours: the page as we know it; from now on it is filled without what waits.
        html: its content, the places of drawings and formulas still empty.
        page: the page as the host knows it.
    """
    place, shops = site.places.methods[ours.slug], site.handbook.workshops

    def names(keys: Iterable[str]) -> str:
        return " and in ".join(shops[key].name if key in shops else key for key in keys)

    ours.waiting = Waiting(get_relative_url(place.workings, page.url))
    ours.islands.fill(html, site.handbook.svg, ours.waiting)
    yield place.workings_script, ours.waiting.script()
    yield (
        place.workings,
        plain_page(
            f"Workings: {site.handbook.entries[ours.slug].own.title}",
            ours.waiting.plain(names),
            back=get_relative_url(page.url, place.workings),
            style=get_relative_url(STYLE_URI, place.workings),
            script=get_relative_url(SCRIPT_URI, place.workings),
        ),
    )
