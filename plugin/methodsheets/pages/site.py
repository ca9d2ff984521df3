"""Which pages does a handbook have, where do they lie and what is on each? One answer for every host."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from methodsheets.handbook.model import Entry, Handbook
from methodsheets.handbook.shop_cards import WorkshopCard
from methodsheets.reading.problem import Problem

from . import document as d
from .author import Sorted, block_tree, for_all, loose_problems, quote
from .bench import bench_blocks, bench_controls, sheet_attributes
from .chapter import Chapter, read_chapter
from .closing import closing_blocks
from .my_shop import Answer, answer
from .places import MethodPlace, Places
from .policy import POLICY
from .problems import BlockPlace, blocks_of
from .summary import actions, opening_blocks, skips, summary_blocks
from .switches import switches

RESERVED = frozenset({"gallery", "index", "compare", "workshops", "reference", "glossary", "health"})
"""Names of pages of the handbook itself, which no method's page may take."""

_SIZE = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
_LEAST = re.compile(r'<svg [^>]*style="(--ms-least:\d+px)"')
"""How wide a drawing must be on a screen for its lettering to be read."""


@dataclass(frozen=True)
class Request:
    """What a `methodsheet` block asks for: a page and the thing that it is about."""

    page: str
    name: str = ""

    @classmethod
    def read(cls, lines: list[str] | tuple[str, ...]) -> Request:
        """From the lines of the block: `page: bench`, `name: flange`."""
        found = dict(line.split(":", 1) for line in lines if ":" in line)
        said = {key.strip().lower(): content.strip() for key, content in found.items()}
        return cls(said.get("page", ""), said.get("name", said.get("method", "")))

    def fence(self) -> str:
        """The block as Markdown text."""
        name = f"name: {self.name}\n" if self.name else ""
        return f"```methodsheet\npage: {self.page}\n{name}```\n"


class Site:
    """All pages of one handbook.

    Parameters:
        handbook: the evaluated methods; see `handbook.model`.
        folder: folder of the generated pages within the site.
        homes: source paths of methods that are pages already, by slug; all others get one in `folder`.
        reference: whether to make the chapter on everything that can be worked out.
        trusted: whether all markup of the authors is let through; the page of the handbook's health says which.
        policy: what holds a browser to the scripts of the site, for that page too.
        kept: folder in which that chapter is kept between builds; None keeps nothing.
    """

    def __init__(
        self,
        handbook: Handbook,
        folder: str = "methods",
        homes: dict[str, str] | None = None,
        *,
        reference: bool = False,
        trusted: bool = False,
        policy: str = POLICY,
        kept: Path | None = None,
    ) -> None:
        self.handbook = handbook
        self.folder = folder
        self.homes = dict(homes or {})
        self.reference = reference
        self.trusted = trusted
        self.policy = policy
        self.kept = kept
        self.mishaps: list[Problem] = []
        """What the program failed at while pages were made."""
        self._sources: dict[str, tuple[BlockPlace, ...]] = {}
        self._sorted: tuple[str, Sorted] = "", Sorted(())
        self._same: dict[str, str] = {}
        self._looks: dict[tuple[str, str], str] = {}

    # Places

    @cached_property
    def places(self) -> Places:
        """All places, seen from nowhere in particular."""
        methods = {slug: MethodPlace(self.homes.get(slug) or self._home(slug)) for slug in self.handbook.entries}
        names = self.page_names()
        bare = Places(methods, self.folder)
        return Places(
            methods,
            self.folder,
            same_picture=self.same_picture,
            published=frozenset(bare.named(name) for name in names),
        )

    def _home(self, slug: str) -> str:
        name = f"{slug}--method" if slug in RESERVED else slug  # two hyphens: no method's own name has them
        return f"{self.folder}/{name}.md"

    def page_names(self) -> tuple[str, ...]:
        """Names of the handbook's own pages: 'index', 'glossary', 'compare/eccentric-spindle' …"""
        names = ["index", "glossary", "gallery", "health"]
        names += [f"compare/{part}" for part in self.handbook.comparisons]
        names += [f"workshops/{key}" for key in self.handbook.workshops]
        if self.reference:
            names += ["reference/index", *(f"reference/{subject}" for subject in self.chapter.subjects)]
        return tuple(names)

    @cached_property
    def chapter(self) -> Chapter:
        """Everything that can be worked out."""
        return read_chapter(self.kept / "reference.json" if self.kept else None)

    def slug_of(self, uri: str) -> str:
        """The method whose page lies at a source path, or ''."""
        return next((slug for slug, place in self.places.methods.items() if place.page == uri), "")

    def holds(self, uri: str) -> bool:
        """Whether a page is one of the handbook's: a method's, its bench sheet, or one about all of them."""
        methods = self.places.methods.values()
        return uri in self.places.published or any(uri in (place.page, place.bench) for place in methods)

    def uri_of(self, request: Request) -> str:
        """Source path of the page that is made for a request; '' where none is."""
        places, page, name = self.places, request.page, request.name
        place = places.methods.get(name)
        own = {"summary": place.page, "closing": place.page, "bench": place.bench} if place else {}
        if page in own:
            return own[page]
        below = {"comparison": f"compare/{name}", "workshop": f"workshops/{name}"}
        below["reference"] = f"reference/{name or 'index'}"
        target = places.named(below.get(page, page))
        return target if target in places.published else ""

    def same_picture(self, key: str) -> str:
        """One key for all drawings of a method that look the same, whatever workshop they were drawn for."""
        if key not in self._same:
            text = self.handbook.svg(key)
            alike = (key.split("--")[0], text.replace(key, "") if text else key)
            self._same[key] = self._looks.setdefault(alike, key)
        return self._same[key]

    def picture_size(self, key: str) -> tuple[str, str, str]:
        """Width and height of a drawing as a picture, in whole pixels of its ratio; the style of its root."""
        svg = self.handbook.svg(key)
        found, said = _SIZE.search(svg), _LEAST.search(svg)
        width, height = (float(found[1]), float(found[2])) if found else (4.0, 3.0)
        return f"{width * 10:.0f}", f"{height * 10:.0f}", said[1] if said else ""

    # Trees

    def blocks_of(self, slug: str) -> tuple[BlockPlace, ...]:
        """The blocks of a method's file."""
        if slug not in self._sources:
            self._sources[slug] = blocks_of(self.handbook.entries[slug].source)
        return self._sources[slug]

    def block(self, slug: str, block: BlockPlace, here: str) -> d.Blocks:
        """What stands in place of one block of a method."""
        entry, places = self.handbook.entries[slug], self.places.at(here, slug)
        return block_tree(entry, block, self._found(slug), places, self.handbook.paces)

    def quote(self, slug: str, expression: str) -> d.Inline | None:
        """What a `{{ … }}` of a method's prose stands for."""
        return quote(self.handbook.entries[slug], expression, self._found(slug))

    def _found(self, slug: str) -> Sorted:
        """What belongs to each block of a method; kept for the page that is being made."""
        if self._sorted[0] != slug:
            self._sorted = slug, Sorted(self.blocks_of(slug))
        return self._sorted[1]

    def tree(self, request: Request, here: str) -> d.Blocks:
        """What a `methodsheet` block stands for.

        Raises:
            KeyError: there is no such page, or nothing of that name; the message says what there is.
        """
        builders = {
            "summary": self.summary,
            "closing": self.closing,
            "bench": self.bench,
            "index": self._index,
            "parts": self._parts,
            "comparison": self._comparison,
            "workshop": self._workshop,
            "glossary": self._glossary,
            "gallery": self._gallery,
            "health": self._health,
            "reference": self._reference,
        }
        if request.page not in builders:
            raise KeyError(f"no page `{request.page}`; there are {', '.join(sorted(builders))}")
        return builders[request.page](request.name, here)

    def _entry(self, slug: str) -> Entry:
        if slug not in self.handbook.entries:
            raise KeyError(f"no method `{slug}` in the handbook")
        return self.handbook.entries[slug]

    def _shops(self, entry: Entry) -> list[WorkshopCard]:
        return [self.handbook.workshops[key] for key in entry.by_workshop if key in self.handbook.workshops]

    def _switches(self, entry: Entry) -> d.Group:
        said = {key: answer(method) for key, method in entry.by_workshop.items()}
        failing, changing = (
            [key for key, one in said.items() if one is state] for state in (Answer.NOT, Answer.CHANGES)
        )
        return switches(self._shops(entry), entry.own_workshop, failing=failing, changing=changing)

    def summary(self, slug: str, here: str) -> d.Blocks:
        """The top of a method's page."""
        entry, places = self._entry(slug), self.places.at(here, slug)
        body: list[d.Block] = [skips(entry.own), *for_all(entry, lambda method: opening_blocks(method, places))]
        body += [actions(entry.own, places), self._switches(entry)]
        body += loose_problems(entry, self.blocks_of(slug))
        body += for_all(entry, lambda method: summary_blocks(method, places))
        return tuple(body)

    def closing(self, slug: str, here: str) -> d.Blocks:
        """The end of a method's page."""
        entry, places = self._entry(slug), self.places.at(here, slug)
        paces = self.handbook.paces
        return for_all(entry, lambda method: closing_blocks(entry, method, places, paces(method.workshop)))

    def bench(self, slug: str, here: str) -> d.Blocks:
        """The page of a method's bench sheet."""
        return (self._switches(self._entry(slug)), *self.sheet(slug, here))

    def sheet(self, slug: str, here: str) -> d.Blocks:
        """The bench sheet alone, for a page that has the switches already."""
        entry, places = self._entry(slug), self.places.at(here, slug)
        sheet = for_all(entry, lambda method: bench_blocks(method, places))
        article = d.Group("sheet", sheet, tag="article", attributes=sheet_attributes(entry.own))
        return (bench_controls(entry.own), article)

    def _index(self, name: str, here: str) -> d.Blocks:
        from .index import index_blocks

        return index_blocks(self.handbook, self.places.at(here))

    def _parts(self, name: str, here: str) -> d.Blocks:
        from .index import parts_blocks

        return parts_blocks(self.handbook, self.places.at(here))

    def _comparison(self, part: str, here: str) -> d.Blocks:
        from .comparison import comparison_blocks

        if part not in self.handbook.comparisons:
            raise KeyError(f"nothing to compare for part `{part}`")
        return comparison_blocks(self.handbook, part, self.places.at(here))

    def _workshop(self, key: str, here: str) -> d.Blocks:
        from .workshop import workshop_blocks

        if key not in self.handbook.workshops:
            raise KeyError(f"no workshop `{key}` in the handbook")
        return workshop_blocks(self.handbook, key, self.places.at(here))

    def _gallery(self, name: str, here: str) -> d.Blocks:
        from .gallery import gallery_blocks

        return gallery_blocks(self.handbook.gallery().values())

    def _glossary(self, name: str, here: str) -> d.Blocks:
        from .glossary import glossary_blocks

        return glossary_blocks()

    def _health(self, name: str, here: str) -> d.Blocks:
        from .health import health_blocks

        return health_blocks(self.handbook, self.places.at(here), trusted=self.trusted, policy=self.policy)

    def _reference(self, subject: str, here: str) -> d.Blocks:
        from .reference import reference_blocks

        return reference_blocks(self.chapter, subject, self.places.at(here))
