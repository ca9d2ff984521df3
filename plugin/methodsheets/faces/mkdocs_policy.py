"""Which scripts does the theme itself put into a page? Those of the same page without a word of content.

The policy of a page names the theme's own inline scripts. Were they read from the finished page, a script that came
in with the content would be named as well. So the page is set once more, empty, for each form that the theme gives it.
"""

from __future__ import annotations

import copy
from typing import Any

import jinja2
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import get_plugin_logger
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import TableOfContents

from methodsheets.pages.assets import with_first_script
from methodsheets.pages.policy import policy, wanted_by

log = get_plugin_logger(__name__)


class Policies:
    """The policies of one build, one for each form of page; `live` while the host serves and loads pages again."""

    def __init__(self, env: jinja2.Environment, *, live: bool = False) -> None:
        self.env, self.live = env, live
        self._known: dict[tuple[object, ...], str] = {}

    def of(self, page: Page, context: Any) -> str:
        """The policy of a page, '' where the theme cannot set it without content."""
        name = str(page.meta.get("template", "main.html"))
        switches = {key: value for key, value in page.meta.items() if isinstance(value, bool)}
        key = (name, context.get("base_url"), page.is_homepage, *sorted(switches.items()))
        if key not in self._known:
            self._known[key] = self._made(name, page, {**switches, "template": name}, context)
        return self._known[key]

    def _made(self, name: str, page: Page, meta: dict[str, Any], context: Any) -> str:
        blank = copy.copy(page)
        blank.content, blank.title, blank.meta, blank.toc = "", "", meta, TableOfContents([])
        blank.parent = blank.previous_page = blank.next_page = None
        try:
            empty = self.env.get_template(name).render({**context, "page": blank, "nav": _bare(context["nav"])})
        except Exception as error:
            log.warning(
                "%s: no policy is written, as the theme cannot set an empty page (%s)", page.file.src_uri, error
            )
            return ""
        return policy(wanted_by(with_first_script(empty)), live=self.live)


def whole_pages(config: MkDocsConfig) -> None:
    """Let every page be loaded by itself: fetched into another, it would run under that one's policy, or under none."""
    features = config.theme.get("features")
    if not isinstance(features, list):
        return
    kept = [one for one in features if not str(one).startswith("navigation.instant")]
    if kept != features:
        log.info("`navigation.instant` is left out: a policy holds for a page that is loaded by itself")
        config.theme["features"] = kept


def _bare(nav: Navigation) -> Navigation:
    """The menu without the titles of pages, which are content too."""
    bare = copy.copy(nav)
    bare.items, bare.pages = [], []
    if nav.homepage is not None:
        bare.homepage = copy.copy(nav.homepage)
        bare.homepage.title = ""
    return bare
