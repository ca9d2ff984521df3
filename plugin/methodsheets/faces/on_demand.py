"""Which method does a text belong to when no host has said so? Found from the text; evaluated when first needed.

Hosts that run Markdown extensions but no plugins would otherwise show the blocks as plain code, without a word.
"""

from __future__ import annotations

import contextlib
import functools
import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from methodsheets.pages.policy import NO_POLICY
from methodsheets.pages.problems import blocks_of
from methodsheets.pages.site import Request, Site
from methodsheets.reading.inside import real
from methodsheets.reading.markdown import scan
from methodsheets.reading.source import LARGEST

if TYPE_CHECKING:
    from markdown import Markdown

    from methodsheets.faces.markdown import Page


PREPARED = ".methodsheets-prepared"
"""Names the files that `prepare` wrote; lies at the root of the site's pages."""
_FRONT = re.compile(r"\A---[ \t]*\r?\n.*?^(?:---|\.\.\.)[ \t]*(?:\r?\n|\Z)", re.DOTALL | re.MULTILINE)


@dataclass(frozen=True)
class Asked:
    """Which handbook is asked for, and how its files stand: the same while nobody has saved one."""

    here: Path
    methods: Path
    workshops: Path | None
    folder: str
    store: Path | None
    trusted: bool
    stand: tuple[tuple[str, int, int], ...]
    """Name, moment of the last change [ns] and bytes of every file below the folders."""


@functools.lru_cache(maxsize=1)
def handbook_of(asked: Asked) -> Site:
    """The site of a handbook; a host makes a new Markdown, with new extensions, for every page."""
    from methodsheets.handbook.build import build_handbook
    from methodsheets.handbook.model import Options

    options = Options(asked.here, (asked.methods,), asked.workshops, store=asked.store)
    book = build_handbook(options)
    return Site(book, asked.folder, reference=True, trusted=asked.trusted, policy=NO_POLICY)


def stand_of(folders: Iterable[Path]) -> Iterator[tuple[str, int, int]]:
    """Name, moment of the last change [ns] and bytes of every file below some folders."""
    for folder in folders:
        for here, _, names in sorted(os.walk(folder)):
            for name in sorted(names):
                with contextlib.suppress(OSError):
                    found = Path(here, name).stat()
                    yield str(Path(here, name)), found.st_mtime_ns, found.st_size


class OnDemand:
    """Evaluates a handbook when it is first wanted and finds the method of each text.

    Parameters:
        options: `methods`, `workshops`, `folder`, `cache` of the extension.
    """

    def __init__(self, options: dict[str, Any]) -> None:
        self.options = options

    def page(self, md: Markdown, text: str) -> Page:
        """The page that a text is.

        What lies in the handbook's folder is kept to what is safe, also where it is no page that we know: a method that
        was prepared from among the site's own pages is not in the folder of methods, and may be a stranger's.
        """
        from methodsheets.faces.markdown import Page

        site = self._handbook()
        uri = _path_from_host(md)
        if site is None:
            return Page(None, "", uri)
        uri = uri or _by_file(text) or _by_request(site, text)
        slug = site.slug_of(uri) if uri else ""
        slug = slug or _by_blocks(site, text)
        here = uri or (site.places.methods[slug].page if slug else f"{site.folder}/index.md")
        ours = site.holds(here) or (bool(site.folder) and here.startswith(f"{site.folder}/"))
        return Page(site, slug, here, clean=ours and not self.options["trust_authors"])

    def _handbook(self) -> Site | None:
        folder = Path(str(self.options["methods"]))
        if not folder.is_dir():
            return None
        shops, store = str(self.options["workshops"]), str(self.options["cache"])
        methods, workshops = real(folder), real(Path(shops)) if shops else None
        stand = tuple(stand_of((methods, workshops) if workshops else (methods,)))
        kept = real(Path(store)) if store else None
        trusted = bool(self.options["trust_authors"])
        return handbook_of(
            Asked(
                here=Path.cwd(),
                methods=methods,
                workshops=workshops,
                folder=str(self.options["folder"]),
                store=kept,
                trusted=trusted,
                stand=stand,
            )
        )


def _by_blocks(site: Site, text: str) -> str:
    """The method whose blocks a text has, all of them and in their order."""
    bodies = [[line.strip() for line in block.body] for block in blocks_of("\n" + text)]
    if not bodies:
        return ""
    for slug in site.handbook.entries:
        own = site.blocks_of(slug)
        if len(own) == len(bodies) and all(block.says(body) for block, body in zip(own, bodies, strict=True)):
            return slug
    return ""


def _by_file(text: str) -> str:
    """Source path of the page among the pages that `prepare` wrote and those beside them; '' for no one."""
    listed = next(iter(sorted(Path.cwd().glob(f"*/{PREPARED}"))), Path.cwd() / PREPARED)
    if "methodsheet" not in text or not listed.is_file():
        return ""
    return _files_by_text(listed.parent, tuple(stand_of((listed.parent,)))).get(text.strip(), "")


@functools.lru_cache(maxsize=1)
def _files_by_text(pages: Path, stand: tuple[tuple[str, int, int], ...]) -> dict[str, str]:
    """The source path of each page by its text below the front matter; `stand`: how the files stand."""
    found: dict[str, list[str]] = {}
    for name, _, size in stand:
        file = Path(name)
        if name.endswith(".md") and size <= LARGEST and file.is_file() and not file.is_symlink():
            with contextlib.suppress(OSError, UnicodeDecodeError):
                body = _FRONT.sub("", file.read_text("utf-8"), count=1).strip()
                found.setdefault(body, []).append(file.relative_to(pages).as_posix())
    return {body: names[0] for body, names in found.items() if len(names) == 1}


def _by_request(site: Site, text: str) -> str:
    """Source path of the made page that a text is, by the first thing it asks for; '' for any other text.

    `methodsheets prepare` writes such pages, and their links are right only from the place that they were made for.
    """
    asked = [
        fence for fence in scan("\n" + text).fences if fence.info.split()[:1] == ["methodsheet"] and not fence.quoted
    ]
    return site.uri_of(Request.read(asked[0].body)) if asked else ""


def _path_from_host(md: Markdown) -> str:
    """The page's source path, from a host that tells its extensions about it."""
    for name in ("rendering_context", "zensical"):
        if name in md.preprocessors:
            page = getattr(md.preprocessors[name], "page", None)
            path = getattr(page, "path", "")
            if path:
                return str(path)
    return ""
