"""Which verb does a word of the trade mean?"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .scene import SCENES
from .spelling import british

ALIASES: Mapping[str, str] = MappingProxyType({word: verb for verb, row in SCENES.items() for word in row.also})
"""Other words that the trade has for a verb, as its row has them."""


def verb_name(key: str) -> str:
    """The verb that a key means, with or without hyphen, British or American; empty where it is none."""
    plain = british(key)
    for form in (plain, plain.replace("-", " "), plain.replace(" ", "-")):
        verb = ALIASES.get(form, form)
        if verb in SCENES:
            return verb
    return ""
