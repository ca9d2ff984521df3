"""Hands out methods and pictures from the store when they are asked for, and keeps only the last few at hand."""

from __future__ import annotations

import zlib
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from typing import TypeVar

from methodsheets.sheet.model import Method
from methodsheets.sheet.records import RecordError, unpack

from .album import picture_of, unpack_picture
from .store import Store
from .work import Brief, Done, Task

T = TypeVar("T")

METHODS_AT_HAND = 32
PICTURES_AT_HAND = 8
"""How many methods, and how many methods' pictures, are kept unpacked: a megabyte each, so that many cost no more."""

Remake = Callable[[Task], Done]
"""Works a task out once more, puts it into the store, and gives it."""

Briefs = Callable[[Task], Brief]
"""The brief of a task's result."""


class Kept:
    """Every result of a build, by task; reads each from the store when it is first wanted."""

    def __init__(self, store: Store, tasks: Mapping[tuple[str, str], Task], remake: Remake, briefs: Briefs) -> None:
        self._store = store
        self._tasks = dict(tasks)
        self._remake = remake
        self._briefs = briefs
        self._holders: dict[str, Task] = {}
        self._methods: OrderedDict[str, Method] = OrderedDict()
        self._pictures: OrderedDict[str, dict[str, str]] = OrderedDict()

    def method(self, slug: str, workshop: str) -> Method:
        """A method worked out for a workshop.

        Raises:
            KeyError: there is no such method or workshop.
        """
        task = self._tasks[slug, workshop]
        return _at_hand(self._methods, METHODS_AT_HAND, task.key, lambda: self._unpacked(task))

    def _unpacked(self, task: Task) -> Method:
        """Unpack a method; a damaged one is worked out again."""
        packed = self._store.method(task.key)
        if packed is not None:
            try:
                return unpack(Method, packed)
            except RecordError:
                self._store.damaged += 1
        return unpack(Method, zlib.decompress(self._remake(task).method))

    def svg(self, key: str) -> str:
        """The picture of a key; '' where there is none.

        Workshops for which a picture comes out alike share its key; any of their results has it.
        """
        if not self._holders:
            for task in self._tasks.values():
                for name in self._briefs(task).drawings:
                    self._holders.setdefault(name, task)
        holder = self._holders.get(key)
        if holder is None:
            return ""
        pictures = _at_hand(self._pictures, PICTURES_AT_HAND, holder.key, lambda: self._drawn(holder))
        return pictures.get(key, "")

    def _drawn(self, task: Task) -> dict[str, str]:
        """The pictures of a result; where one is damaged they are made again."""
        brief = self._briefs(task)
        found = {key: picture_of(self._store, place) for key, place in zip(brief.drawings, brief.pictures, strict=True)}
        whole = {key: svg for key, svg in found.items() if svg is not None}
        if len(whole) == len(found):
            return whole
        done = self._remake(task)
        places = zip(done.brief.drawings, done.brief.pictures, strict=True)
        return {key: unpack_picture(done.notes[place]) for key, place in places}


class ForWorkshops(Mapping[str, Method]):
    """One method by workshop, each read from the store when asked for."""

    def __init__(self, kept: Kept, slug: str, workshops: tuple[str, ...]) -> None:
        self._kept = kept
        self._slug = slug
        self._workshops = workshops

    def __getitem__(self, workshop: str) -> Method:
        """The method for a workshop."""
        if workshop not in self._workshops:
            raise KeyError(workshop)
        return self._kept.method(self._slug, workshop)

    def __iter__(self) -> Iterator[str]:
        """Workshops, the author's first."""
        return iter(self._workshops)

    def __len__(self) -> int:
        """How many workshops."""
        return len(self._workshops)


def _at_hand(kept: OrderedDict[str, T], most: int, key: str, make: Callable[[], T]) -> T:
    """The value of a key, made where it is not at hand; the one longest unused gives way."""
    if key in kept:
        kept.move_to_end(key)
        return kept[key]
    made = make()
    kept[key] = made
    while len(kept) > most:
        kept.popitem(last=False)
    return made
