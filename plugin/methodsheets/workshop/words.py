"""Do two people mean the same thing? Loose matching of shop words, British or American, with or without hyphens."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType

_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        "center": "centre",
        "centers": "centres",
        "vise": "vice",
        "gray": "grey",
        "aluminum": "aluminium",
        "three": "3",
        "four": "4",
        "six": "6",
        "two": "2",
        "jaws": "jaw",
        "chucks": "chuck",
        "collets": "collet",
        "endmill": "end mill",
        "slotdrill": "slot drill",
        "dbit": "d bit",
        "lhs": "left hand",
        "rh": "right hand",
        "lh": "left hand",
        "dia": "diameter",
        "spot": "spotting",
    }
)

_LEFT_OUT = frozenset({"the", "a", "an", "my", "our", "with", "in", "on", "of", "standard", "type"})

_WORD = re.compile(r"[a-z0-9.]+(?:/[0-9]+)?")


@lru_cache(maxsize=4096)
def plain_words(text: str) -> tuple[str, ...]:
    """Take a name apart into plain words: 'The 3-Jaw Chuck' and 'three jaw chuck' both give ('3', 'jaw', 'chuck')."""
    found: list[str] = []
    for word in _WORD.findall(text.lower().replace("'s", "").replace("°", " ")):
        found.extend(_SPELLINGS.get(word, word).split())
    return tuple(word for word in found if word not in _LEFT_OUT)


def plain(text: str) -> str:
    """The same as one line, for use as a key."""
    return " ".join(plain_words(text))


def likeness(wanted: str, names: Iterable[str]) -> int:
    """Say how well a thing's names agree with the words wanted.

    Returns:
        3 if one of the names is the words wanted; 2 if a name holds every word wanted ('chuck' and 'three-jaw chuck');
        1 if the words wanted hold every word of a name ('80 mm three-jaw chuck' and 'three-jaw chuck'); 0 otherwise.
    """
    words = plain_words(wanted)
    if not words:
        return 0
    best = 0
    for name in names:
        known = plain_words(name)
        if known == words:
            return 3
        if known and set(words) <= set(known):
            best = max(best, 2)
        elif known and set(known) <= set(words):
            best = max(best, 1)
    return best


def kind_named(names: Iterable[str], kinds: Mapping[str, Iterable[str]]) -> str:
    """The kind that the first telling name of a thing says best; '' where none of its names tells.

    Parameters:
        kinds: kind → the words by which it is known
    """
    for name in names:
        marks = {kind: likeness(name, words) for kind, words in kinds.items()}
        best = max(marks, key=lambda kind: marks[kind])
        if marks[best]:
            return best
    return ""
