"""Which verb does a word of the trade mean?"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .scene import SCENES

ALIASES: Mapping[str, str] = MappingProxyType({word: verb for verb, row in SCENES.items() for word in row.also})
"""Other words that the trade has for a verb, as its row has them."""


def verb_name(key: str) -> str:
    """The verb that a key means; empty where it is none."""
    plain = " ".join(key.lower().split())
    plain = ALIASES.get(plain, plain)
    return plain if plain in SCENES else ""
