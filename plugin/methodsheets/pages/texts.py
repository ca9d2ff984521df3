"""What is the Markdown text of each page that is made? Front matter, a title and the blocks that hosts expand."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from methodsheets.handbook.model import Entry
from methodsheets.reading.markdown import scan
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Problem

from .host_words import HostWords, front_matter, heading_words, host_words
from .site import Request, Site


@dataclass(frozen=True)
class MadePage:
    """One page that is made: where it lies, its text, and what a host must know about it."""

    uri: str
    text: str
    kind: str
    """'method', 'bench', 'index', 'comparison', 'workshop', 'glossary', 'gallery', 'health', 'reference'."""
    title: HostWords
    in_menu: bool = True
    source: str = ""
    """Path of the method file that the pencil opens."""
    slug: str = ""
    tags: tuple[str, ...] = field(default=())


def made_pages(site: Site, *, tags: bool = True) -> Iterator[MadePage]:
    """Every page that is made for a handbook; methods that are pages of the author's own get no second one."""

    def failed(problem: Problem) -> list[MadePage]:
        site.mishaps.append(problem)
        return []

    for slug, entry in site.handbook.entries.items():
        make = functools.partial(_method_pages, site, slug, tags)
        yield from through(entry.path, "the pages of this method could not be made", make, failed)
    yield from _handbook_pages(site)


def _method_pages(site: Site, slug: str, tags: bool) -> list[MadePage]:
    """The pages of one method."""
    entry, place = site.handbook.entries[slug], site.places.methods[slug]
    bench = host_words(f"Bench sheet: {entry.own.title}")
    pages = [
        MadePage(
            uri=place.bench,
            text=bench_text(entry),
            kind="bench",
            title=bench,
            in_menu=False,
            source=entry.path,
            slug=slug,
        )
    ]
    if slug not in site.homes:
        text, title = method_text(site, slug, tags=tags), host_words(entry.own.title)
        found = tuple(entry.own.tags) if tags else ()
        pages.insert(
            0,
            MadePage(
                uri=place.page,
                text=text,
                kind="method",
                title=title,
                in_menu=True,
                source=entry.path,
                slug=slug,
                tags=found,
            ),
        )
    return pages


def _handbook_pages(site: Site) -> Iterator[MadePage]:
    def page(
        name: str, kind: str, title: str, about: str = "", *, menu: bool = True, searched: bool = True
    ) -> MadePage:
        meta: dict[str, Any] = {"title": title}
        if kind in ("index", "comparison", "reference", "health"):
            meta["hide"] = ["toc"] if kind != "reference" else []
        if not searched:
            meta["search"] = {"exclude": True}
        text = front_matter(meta) + f"\n# {heading_words(title)}\n\n" + Request(kind, about).fence()
        return MadePage(site.places.named(name), text, kind, host_words(title), menu)

    yield page("index", "index", "All methods")
    for part, comparison in site.handbook.comparisons.items():
        yield page(f"compare/{part}", "comparison", f"Compare: {comparison.title}", part, menu=False, searched=False)
    for key, card in site.handbook.workshops.items():
        yield page(f"workshops/{key}", "workshop", card.name, key)
    yield page("glossary", "glossary", "Words of the trade")
    if site.handbook.options.draw:
        yield page("gallery", "gallery", "Kinds of pictures", searched=False)
    if site.reference:
        from methodsheets.trade.form.chapters import subject_title

        yield page("reference/index", "reference", "What it can work out")
        for subject in site.chapter.subjects:
            yield page(f"reference/{subject}", "reference", subject_title(subject), subject)
    yield page("health", "health", "Health of the handbook", searched=False)


def method_text(site: Site, slug: str, *, tags: bool = True) -> str:
    """The text of a method's page: the author's prose and blocks between a summary and an ending."""
    entry = site.handbook.entries[slug]
    return front_matter(method_meta(entry, tags=tags)) + "\n" + adorned(body_of(entry.source), slug, entry.own.title)


def method_meta(entry: Entry, *, tags: bool = True) -> dict[str, Any]:
    """What the page of a method tells its host."""
    meta: dict[str, Any] = {"title": entry.own.title, "description": entry.own.summary, "search": {"boost": 2}}
    if tags and entry.own.tags:
        meta["tags"] = list(entry.own.tags)
        meta["hide"] = ["tags"]  # a row of twenty would stand above the title; the list of methods filters by them
    return meta


def adorned(body: str, slug: str, title: str) -> str:
    """The author's text with the title, the summary at its top and the ending below."""
    found = scan("\n" + body)
    first = found.headings[0] if found.headings and found.headings[0].level == 1 else None
    lines = body.split("\n")
    if first is None:
        head, rest = f"# {heading_words(title)}\n", body
    else:
        cut = first.line - 1  # the scanned text has one line more in front
        if cut < len(lines) and re.fullmatch(r"[ ]{0,3}=+[ \t]*", lines[cut]):
            cut += 1
        head, rest = "\n".join(lines[:cut]) + "\n", "\n".join(lines[cut:])
    return f"{head}\n{Request('summary', slug).fence()}\n{rest.strip(chr(10))}\n\n{Request('closing', slug).fence()}"


def body_of(source: str) -> str:
    """A method file's text without its front matter."""
    text = source.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    found = scan(text)
    if found.front is None or not found.front_closed:
        return text
    return "\n".join(text.split("\n")[found.front[1] + 1 :])


def bench_text(entry: Entry) -> str:
    """The text of a bench sheet's page: no menus beside it, and not in the search index."""
    meta = {
        "title": f"Bench sheet: {entry.own.title}",
        "hide": ["navigation", "toc", "feedback", "tags"],
        "search": {"exclude": True},
    }
    return front_matter(meta) + "\n" + Request("bench", entry.slug).fence()
