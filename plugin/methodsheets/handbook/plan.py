"""Which results does a build want, and from what is each made? Every result gets the key of all that goes in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .digests import digest_of
from .library import Found, Library
from .model import Options
from .notes import FileNote
from .shops import Shops
from .work import Task

_PART = "part of "
"""Set before the name of a file of `parts/`, which may bear the name of a method."""


@dataclass
class Plan:
    """What a build wants.

    Parameters:
        base: digest of the program, its tables and libraries
        notes: of every method and every part
        part_notes: of every part
    """

    options: Options
    library: Library
    shops: Shops
    base: str
    notes: Mapping[str, FileNote]
    part_notes: Mapping[str, FileNote]
    _keys: dict[tuple[str, str], str] = field(default_factory=dict)

    def tasks(self) -> dict[tuple[str, str], Task]:
        """Every result that is wanted, by (slug, workshop); a method's own workshop comes first."""
        found: dict[tuple[str, str], Task] = {}
        for slug in self.library.methods:
            if self.options.only and slug not in self.options.only:
                continue
            own = self.own_workshop(slug)
            for workshop in self._workshops_for(own):
                found[slug, workshop] = Task(slug, workshop, self.key(slug, workshop), workshop == own)
        return found

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

    def key(self, slug: str, workshop: str, above: tuple[str, ...] = ()) -> str:
        """The digest of everything that goes into one result; `above` are the methods that led here."""
        place = (slug, workshop)
        if place in self._keys:
            return self._keys[place]
        found = self._found(slug)
        parts = [self.base, slug, found.path, found.digest, workshop, self.shops.digests[workshop]]
        if slug in self.library.methods:
            parts.append(self.own_workshop(slug))
            parts += list(self.shops.digests) if self.is_unknown(slug) else []
        for name in self.refers_to(slug):
            circle = name == slug or name in above
            parts += [name, "in a circle" if circle else self.key(name, workshop, (*above, slug))]
        made = digest_of("result", *parts)
        if not above:  # below others, a circle may have been cut short
            self._keys[place] = made
        return made

    def _found(self, slug: str) -> Found:
        if slug.startswith(_PART):
            return self.library.parts[slug.removeprefix(_PART)]
        return self.library.methods[slug]

    def refers_to(self, slug: str) -> list[str]:
        """The other files whose names stand in the blocks of a file; files of parts with a mark before the name."""
        part = slug.startswith(_PART)
        names = (self.part_notes[slug.removeprefix(_PART)] if part else self.notes[slug]).names
        methods = [name for name in names if name in self.library.methods and name != slug]
        return methods + [f"{_PART}{name}" for name in names if name in self.library.parts and f"{_PART}{name}" != slug]

    def wanted_by_others(self) -> frozenset[str]:
        """Methods that others are made from."""
        found = {name for slug in self.library.methods for name in self.refers_to(slug)}
        found |= {name for part in self.library.parts for name in self.refers_to(f"{_PART}{part}")}
        return frozenset(found)
