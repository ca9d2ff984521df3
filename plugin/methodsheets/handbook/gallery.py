"""Which kinds of pictures can the handbook draw? One example of each, kept in the store like any other picture."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass

from .store import Store

MARK = "gallery--"
"""What the keys of these pictures begin with."""


@dataclass(frozen=True)
class Example:
    """One kind of picture."""

    key: str
    title: str
    description: str
    svg: str


def read_gallery(store: Store, base: str, *, fresh: bool = False) -> Mapping[str, Example]:
    """The examples by key; drawn only where the store has none for this state of the program (`base`)."""
    place = f"gallery {base}"
    kept = None if fresh else store.note(place)
    if kept is not None:
        try:
            return {one["key"]: Example(**one) for one in json.loads(kept)}
        except (ValueError, TypeError, KeyError):
            store.damaged += 1
    made = _drawn()
    store.keep_note(place, json.dumps([asdict(one) for one in made.values()]).encode())
    return made


def _drawn() -> dict[str, Example]:
    from methodfigures.gallery import examples

    found = {}
    for name, (title, drawing) in examples().items():
        key = MARK + name
        found[key] = Example(key, title, drawing.description, drawing.inline(key))
    return found
