"""Which parts have several methods? Their comparisons, for every workshop, from the store where nothing changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from methodsheets.reading.slug import file_slug
from methodsheets.sheet.records import RecordError, pack, unpack

from .digests import digest_of
from .model import Comparison, Entry, Pace
from .pace import paces
from .shop_cards import WorkshopCard
from .store import Store
from .work import Task


def compare_all(
    entries: Mapping[str, Entry],
    parts: Mapping[str, str],
    tasks: Mapping[tuple[str, str], Task],
    cards: Mapping[str, WorkshopCard],
    store: Store,
) -> dict[str, dict[str, Comparison]]:
    """Compare the methods of every part that has several.

    Parameters:
        parts: slug → part
        tasks: the results of this build, by (slug, workshop)

    Returns:
        part as it stands in addresses → workshop → comparison; the workshop of the first method's author comes first.
    """
    found: dict[str, dict[str, Comparison]] = {}
    known = cache(lambda workshop: paces(entries.values(), workshop))
    for address, slugs in _groups(entries, parts).items():
        part = parts[slugs[0]]
        own = entries[slugs[0]].own_workshop
        for workshop in (own, *(key for key in cards if key != own)):
            there = [slug for slug in slugs if (slug, workshop) in tasks]
            if len(there) > 1:
                keys = [tasks[slug, workshop].key for slug in there]
                made = _comparison(
                    part, [entries[slug] for slug in there], cards[workshop], known(workshop), keys, store
                )
                found.setdefault(address, {})[workshop] = made
    return found


def _groups(entries: Mapping[str, Entry], parts: Mapping[str, str]) -> dict[str, list[str]]:
    """Part as in addresses → its methods, in the order of the entries; only parts with several."""
    groups: dict[str, list[str]] = {}
    for slug in entries:
        if parts.get(slug):
            groups.setdefault(file_slug(parts[slug]), []).append(slug)
    return {part: slugs for part, slugs in sorted(groups.items()) if len(slugs) > 1}


def _comparison(
    part: str, entries: Iterable[Entry], card: WorkshopCard, known: tuple[Pace, ...], keys: Iterable[str], store: Store
) -> Comparison:
    """One comparison, from the store where the methods, their records and the workshop's rates are the same."""
    kept = list(entries)
    key = digest_of("comparison", part, repr(card), repr(known), *keys, *(repr(entry.experience) for entry in kept))
    stored = store.note(key)
    if stored is not None:
        try:
            return unpack(Comparison, stored)
        except RecordError:
            store.damaged += 1
    from .comparison import Candidate, compare

    candidates = [Candidate(entry.by_workshop[card.key], entry.experience) for entry in kept]
    made = compare(part, candidates, card, known)
    store.keep_note(key, pack(made))
    return made
