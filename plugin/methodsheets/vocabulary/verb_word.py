"""Which verb does a word of the trade mean?"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .scene import SCENES

ALIASES: Mapping[str, str] = MappingProxyType(
    {
        "part": "part off", "cut off": "part off", "saw": "saw off", "centre drill": "centre", "center": "centre",
        "facing": "face",
        "turning": "turn", "press": "press in", "shrink": "shrink on", "silver braze": "silver-braze",
        "silver solder": "silver-braze", "unsolder": "take apart", "separate": "take apart", "unclamp": "take apart",
        "solder": "soft-solder", "soft solder": "soft-solder", "bond": "glue", "scribe": "graduate",
        "screwcut": "thread", "screw-cut": "thread", "spot": "centre", "cross drill": "cross-drill",
        "crossdrill": "cross-drill", "radius": "round over",
        "slit": "split", "mark": "mark out", "debur": "deburr",
    }
)  # fmt: skip
"""Other words that the trade has for a verb."""


def verb_name(key: str) -> str:
    """The verb that a key means; empty where it is none."""
    plain = " ".join(key.lower().split())
    plain = ALIASES.get(plain, plain)
    return plain if plain in SCENES else ""
