"""Where does each page lie, and how is it reached from another one? Source paths; hosts make addresses."""

from __future__ import annotations

import posixpath
from collections.abc import Callable
from dataclasses import dataclass, field, replace


@dataclass(frozen=True)
class MethodPlace:
    """Where a method's pages lie, as source paths: 'methods/flange.md', 'methods/flange/bench.md' …"""

    page: str

    @property
    def folder(self) -> str:
        """Folder of everything that belongs to the method."""
        stem = self.page.removesuffix(".md")
        return posixpath.dirname(stem) if posixpath.basename(stem) == "index" else stem

    @property
    def name(self) -> str:
        """Last part of the folder: the name of the method's files."""
        return posixpath.basename(self.folder) or "method"

    @property
    def bench(self) -> str:
        """The bench sheet."""
        return posixpath.join(self.folder, "bench.md")

    @property
    def data(self) -> str:
        """The evaluated method as JSON."""
        return posixpath.join(self.folder, f"{self.name}.json")

    @property
    def operations(self) -> str:
        """The operations as a table for a spreadsheet."""
        return posixpath.join(self.folder, f"{self.name}.csv")

    @property
    def travelling(self) -> str:
        """The method as one file to take along."""
        return posixpath.join(self.folder, f"{self.name}.html")

    @property
    def workings(self) -> str:
        """How every number came about: a plain page, for a reader who runs no script."""
        return posixpath.join(self.folder, f"{self.name}-workings.html")

    @property
    def workings_script(self) -> str:
        """The same for the script of the page."""
        return self.workings.removesuffix(".html") + ".js"

    def drawing(self, key: str) -> str:
        """A drawing as a file of its own."""
        return posixpath.join(self.folder, f"{key}.svg")


@dataclass(frozen=True)
class Places:
    """All pages of a handbook, seen from one of them (`here`)."""

    methods: dict[str, MethodPlace] = field(default_factory=dict)
    folder: str = "methods"
    here: str = ""
    slug: str = ""
    """The method whose drawings this page shows."""
    same_picture: Callable[[str], str] = str
    """Gives one key for all drawings that look the same, so that they are put in once."""
    alone: bool = False
    """The page travels alone: nothing else can be reached from it."""
    published: frozenset[str] = frozenset()
    """Pages of the handbook that are made; links go only to these."""

    def at(self, page: str, slug: str = "") -> Places:
        """The same, seen from another page."""
        return replace(self, here=page, slug=slug)

    def to(self, target: str, anchor: str = "") -> str:
        """Relative path from here to a source path; '' where the page travels alone."""
        if self.alone:
            return ""
        hash_part = f"#{anchor}" if anchor else ""
        if target == self.here:
            return hash_part or posixpath.basename(target)
        return posixpath.relpath(target, posixpath.dirname(self.here) or ".") + hash_part

    def method(self, slug: str, anchor: str = "") -> str:
        """Relative path to a method's page, or '' if it has none."""
        place = self.methods.get(slug)
        return self.to(place.page, anchor) if place else ""

    def own(self, what: str) -> str:
        """Relative path to 'bench', 'data', 'operations' or 'travelling' of the page's method."""
        place = self.methods.get(self.slug)
        return self.to(getattr(place, what)) if place else ""

    def picture(self, key: str) -> str:
        """The key under which this drawing is put in."""
        return self.same_picture(key)

    def drawing_file(self, key: str) -> str:
        """Relative path of a drawing as a file of its own; '' where there is none."""
        place = self.methods.get(self.slug)
        return self.to(place.drawing(key)) if place and not self.alone else ""

    # Pages of the handbook as a whole

    def named(self, name: str) -> str:
        """Source path of 'index', 'health', 'glossary' …, of 'compare/part', 'workshops/key', 'reference/subject'."""
        return posixpath.join(self.folder, f"{name}.md")

    def page(self, name: str, anchor: str = "") -> str:
        """Relative path to such a page, or '' where it is not made."""
        target = self.named(name)
        return self.to(target, anchor) if target in self.published else ""
