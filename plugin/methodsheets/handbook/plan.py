"""Which results does a build want, and from what is each made? Every result gets the key of all that goes in."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass, field

from methodsheets.reading.limits import RESULTS
from methodsheets.reading.slug import file_slug

from .circles import circles
from .digests import digest_of
from .library import Library
from .model import Options
from .notes import FileNote
from .shops import Shops
from .work import Task


@dataclass
class Plan:
    """What a build wants.

    Parameters:
        base: digest of the program, its tables and libraries
        notes: of every method
    """

    options: Options
    library: Library
    shops: Shops
    base: str
    notes: Mapping[str, FileNote]
    _keys: dict[str, dict[str, str]] = field(default_factory=dict)

    def tasks(self) -> dict[tuple[str, str], Task]:
        """Every result that is wanted, by (slug, workshop); a method's own workshop comes first."""
        found: dict[tuple[str, str], Task] = {}
        for slug in self.library.methods:
            if self.options.only and slug not in self.options.only:
                continue
            own = self.own_workshop(slug)
            for workshop in self._workshops_for(own) if not self.too_many else (own,):
                found[slug, workshop] = Task(slug, workshop, self.key(slug, workshop), workshop == own)
        return found

    @property
    def too_many(self) -> bool:
        """Whether there are more results than are worked out; then each method has its author's workshop alone."""
        wanted = self.options.only or self.library.methods
        return not self.options.own_only and len(wanted) * len(self.shops.digests) > RESULTS

    def own_workshop(self, slug: str) -> str:
        """The workshop that a method was written for; the first there is where it names none, or one unknown."""
        return self.shops.named(self.notes[slug].workshop) or next(iter(self.shops.digests))

    def is_unknown(self, slug: str) -> bool:
        """Whether a method names a workshop that there is not."""
        named = self.notes[slug].workshop
        return bool(named) and not self.shops.named(named)

    def _workshops_for(self, own: str) -> tuple[str, ...]:
        """The workshops that a method is worked out for, its own one first."""
        if self.options.own_only:
            return (own,)
        chosen = self.options.workshop_keys
        return (own, *(key for key in self.shops.digests if key != own and (not chosen or key in chosen)))

    def key(self, slug: str, workshop: str) -> str:
        """The digest of everything that goes into one result: of the file itself and of what it is made from."""
        if workshop not in self._keys:
            self._keys[workshop] = self._keys_for(workshop)
        return self._keys[workshop][slug]

    def _keys_for(self, workshop: str) -> dict[str, str]:
        """The keys of all methods for a workshop; each file is looked at once."""
        keys: dict[str, str] = {}
        for group in self.groups:
            below = {name for slug in group for name in self.needs[slug] if name not in group}
            made = [f"{name} {keys[name]}" for name in sorted(below)]
            together = digest_of("group", *(self._own(slug, workshop) for slug in group), *made)
            for slug in group:
                keys[slug] = digest_of("result", self._own(slug, workshop), together)
        return keys

    def _own(self, slug: str, workshop: str) -> str:
        """The digest of what goes into a result without what other methods give."""
        found = self.library.methods[slug]
        parts = [self.base, slug, found.path, found.digest, workshop, self.shops.digests[workshop]]
        parts.append(self.own_workshop(slug))
        parts += list(self.shops.digests) if self.is_unknown(slug) else []
        return digest_of("own", *parts, *self.needs[slug])

    @functools.cached_property
    def needs(self) -> dict[str, tuple[str, ...]]:
        """Every method with the others that it is made from."""
        there = self.library.methods
        return {
            slug: tuple(name for name in self.notes[slug].names if name in there and name != slug) for slug in there
        }

    @functools.cached_property
    def groups(self) -> list[tuple[str, ...]]:
        """All methods, those that others are made from first; methods in a circle stand together."""
        return circles(self.needs)

    @functools.cached_property
    def _circles(self) -> dict[str, tuple[str, ...]]:
        return {slug: group for group in self.groups if len(group) > 1 for slug in group}

    def circle(self, slug: str) -> tuple[str, ...]:
        """The methods that are made from each other and this one among them; () where it is in no circle."""
        return self._circles.get(slug, ())

    @functools.cached_property
    def first_titled(self) -> dict[str, str]:
        """Every title, as readers tell titles apart, with the first method that has it."""
        first: dict[str, str] = {}
        for slug, found in self.library.methods.items():
            first.setdefault(in_mind(found.title), slug)
        return first

    @functools.cached_property
    def first_of_part(self) -> dict[str, str]:
        """Every part, as it stands in addresses, with the first method of it."""
        first: dict[str, str] = {}
        for slug, note in self.notes.items():
            if note.part:
                first.setdefault(file_slug(note.part), slug)
        return first

    def sources(self) -> dict[str, tuple[str, ...]]:
        """What each method may take: what it names, less those that would need it in turn."""
        return {
            slug: tuple(name for name in names if name not in self.circle(slug)) for slug, names in self.needs.items()
        }


def in_mind(title: str) -> str:
    """A title as a reader remembers it: large letters and blanks tell no two apart."""
    return " ".join(title.casefold().split())
