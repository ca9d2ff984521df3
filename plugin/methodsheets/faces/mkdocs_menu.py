"""Where do the made pages stand in MkDocs' menu? In one section, methods of one part together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import takewhile
from pathlib import PurePosixPath

from mkdocs.structure import StructureItem
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation, Section
from mkdocs.structure.pages import Page

from methodsheets.pages.host_words import HostWords, host_words
from methodsheets.pages.site import Site
from methodsheets.pages.texts import MadePage
from methodsheets.trade.form.chapters import by_chapter


def arrange(
    nav: Navigation, site: Site, made: Mapping[str, MadePage], files: Files, title: str, *, named: bool, shown: bool
) -> Navigation:
    """Put the made pages into one section of the menu, and give parents to those that are not in it.

    Parameters:
        nav: the menu as MkDocs made it.
        site: the handbook.
        made: the made pages by their source path.
        files: all files of the site.
        title: name of the section.
        named: whether the author wrote a `nav`; pages named in it stay where they are.
        shown: whether the section is wanted.
    """
    pages = {uri: file.page for uri in made if (file := files.get_file_from_path(uri)) and file.page}
    if not named:
        nav.items = _without(nav.items, set(pages))
    taken = {page.file.src_uri for page in _pages(nav.items)}
    free = {uri: page for uri, page in pages.items() if uri not in taken and made[uri].in_menu}
    if shown and free:
        nav.items.insert(_after_pages(nav.items), _section(site, made, free, title))
    _relink(nav)
    _attach(site, made, pages)
    return nav


def _entitle(page: Page, title: HostWords) -> None:
    """The only place that gives a page its title: the host's templates set it without escaping it."""
    page.title = title


def _titled(title: HostWords, children: Iterable[StructureItem]) -> Section:
    """The only place that names a section, for the same reason."""
    return Section(title, list(children))


def _after_pages(items: Iterable[StructureItem]) -> int:
    """Where our section stands: after the pages that stand by themselves, before the author's first section.

    Who opens the handbook wants a method; how one is written and kept is for few, and comes later.
    """
    return sum(1 for _ in takewhile(lambda item: not isinstance(item, Section), items))


def _without(items: Iterable[StructureItem], pages: set[str]) -> list[StructureItem]:
    kept: list[StructureItem] = []
    for item in items:
        if isinstance(item, Section):
            item.children = _without(item.children, pages)
            if item.children:
                kept.append(item)
        elif not isinstance(item, Page) or item.file.src_uri not in pages:
            kept.append(item)
    return kept


def _pages(items: Iterable[StructureItem]) -> list[Page]:
    found: list[Page] = []
    for item in items:
        if isinstance(item, Page):
            found.append(item)
        elif isinstance(item, Section):
            found += _pages(item.children)
    return found


def _section(site: Site, made: Mapping[str, MadePage], free: Mapping[str, Page], title: str) -> Section:
    """Index first, then the methods by part, then the workshops and the chapters for looking up."""
    by_kind: dict[str, list[Page]] = {}
    for uri, page in free.items():
        _entitle(page, made[uri].title)
        by_kind.setdefault(made[uri].kind, []).append(page)
    children: list[StructureItem] = list(by_kind.get("index", []))
    children += _by_part(site, made, free)
    if by_kind.get("workshop"):
        children.append(_titled(host_words("Workshops"), by_kind["workshop"]))
    if by_kind.get("reference"):
        children.append(_titled(host_words("What it can work out"), _reference(made, free)))
    children += [page for kind in ("glossary", "gallery", "health") for page in by_kind.get(kind, [])]
    return _titled(host_words(title), children)


def _reference(made: Mapping[str, MadePage], free: Mapping[str, Page]) -> list[StructureItem]:
    """The list of everything, then the subjects by the part of the chapter in which they stand."""
    pages = {PurePosixPath(uri).stem: page for uri, page in free.items() if made[uri].kind == "reference"}
    found: list[StructureItem] = [pages.pop("index")] if "index" in pages else []
    for part, subjects in by_chapter(pages).items():
        found.append(_titled(host_words(part), [pages[subject] for subject in subjects]))
    return found


def _by_part(site: Site, made: Mapping[str, MadePage], free: Mapping[str, Page]) -> list[StructureItem]:
    parts: dict[str, list[Page]] = {}
    for uri, page in free.items():
        if made[uri].kind == "method":
            own = site.handbook.entries[made[uri].slug].own
            part = own.part or own.title
            parts.setdefault(part, []).append(page)
    found: list[StructureItem] = []
    for part, pages in sorted(parts.items(), key=lambda item: item[0].lower()):
        if len(pages) > 1:
            found.append(_titled(host_words(part.replace("-", " ").capitalize()), pages))
        else:
            found += pages
    return found


def _relink(nav: Navigation) -> None:
    """Set parents and the ways to the page before and after, as MkDocs does for its own menu."""
    _set_parents(nav.items, None)
    nav.pages = _pages(nav.items)
    for page, before, after in zip(nav.pages, [None, *nav.pages[:-1]], [*nav.pages[1:], None], strict=True):
        page.previous_page, page.next_page = before, after


def _set_parents(items: Iterable[StructureItem], parent: Section | None) -> None:
    for item in items:
        item.parent = parent
        if isinstance(item, Section):
            _set_parents(item.children, item)


def _attach(site: Site, made: Mapping[str, MadePage], pages: Mapping[str, Page]) -> None:
    """A bench sheet stands under its method's section and a comparison under its part's, without being in the menu."""
    for uri, page in pages.items():
        if made[uri].in_menu:
            continue
        _entitle(page, made[uri].title)
        slug = made[uri].slug
        if not slug and made[uri].kind == "comparison":
            part = uri.removesuffix(".md").rpartition("/")[2]
            slug = next(iter(site.handbook.comparisons[part].methods), "") if part in site.handbook.comparisons else ""
        home = pages.get(site.places.methods[slug].page) if slug in site.places.methods else None
        if home is not None:
            page.parent = home.parent
            page.previous_page = home
