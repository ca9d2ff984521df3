"""Which size does an author say in the words of a tool: '6 mm end mill', '63 by 1 mm slitting saw', '1/4 in drill'?"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from .words import plain_words

IN_MM = {"mm": 1.0, "in": 25.4, "inch": 25.4, '"': 25.4, "thou": 0.0254}
"""mm in one of each unit in which the trade sizes tools."""
_NUMBER = r"(?:\d+[- ]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|\.\d+)"
_UNIT = r"(mm|inch|in|\"|thou)(?![a-z0-9])"
_LENGTH = re.compile(rf"(?<![\w./])({_NUMBER})\s*{_UNIT}", re.IGNORECASE)
_FIRST_OF_TWO = re.compile(rf"(?<![\w./])({_NUMBER})(?=\s*(?:by|x|×)\s*{_NUMBER}\s*{_UNIT})", re.IGNORECASE)
_ANGLE = re.compile(r"(?<![\w./])(\d+(?:\.\d+)?)[\s-]*(?:deg|degrees?|°)(?![a-z])", re.IGNORECASE)


@dataclass(frozen=True)
class SaidSize:
    """What the words of a tool say of its size, and what its verb wants beside them."""

    lengths: tuple[float, ...] = ()
    """mm, in the order in which they are said."""
    angle: float = 0.0
    """Degrees; 0 where none is said."""
    thread: str = ""
    """The thread that it is to cut, as the verb has it."""
    rest: str = ""
    """The words without sizes and angles."""

    def numbers_beside(self, known: Iterable[str]) -> list[str]:
        """Words with a figure that are neither a size, nor an angle, nor part of a name that is known."""
        names = {word for name in known for word in plain_words(name)}
        return [word for word in plain_words(self.rest) if any(map(str.isdigit, word)) and word not in names]


@lru_cache(maxsize=4096)
def said_size(words: str) -> SaidSize:
    """Read the sizes in the words of a tool; a bare number is no size, as it may be a name ('No. 43', 'M6')."""
    found = [(one.start(), _mm(one.group(1), one.group(2))) for one in _LENGTH.finditer(words)]
    found += [(one.start(), _mm(one.group(1), one.group(2))) for one in _FIRST_OF_TWO.finditer(words)]
    angle = _ANGLE.search(words)
    rest = _ANGLE.sub(" ", _LENGTH.sub(" ", _FIRST_OF_TWO.sub(" ", words)))
    return SaidSize(tuple(size for _, size in sorted(found)), float(angle.group(1)) if angle else 0.0, rest=rest)


def _mm(number: str, unit: str) -> float:
    """'1-1/4' and 'in' are 31.75 mm."""
    whole, _, part = number.replace(",", ".").replace("-", " ").rpartition(" ")
    top, _, bottom = part.partition("/")
    return (float(whole or 0) + (float(top) / float(bottom) if bottom and float(bottom) else float(top))) * IN_MM[
        unit.lower()
    ]
