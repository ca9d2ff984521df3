"""Which of the words that the handbook knows does an author mean, British or American, with or without hyphens?"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import Generic, TypeVar

Word = TypeVar("Word", bound=StrEnum)
_BRITISH: Mapping[str, str] = {
    "center": "centre", "centers": "centres", "vise": "vice", "gray": "grey", "traveling": "travelling",
    "3": "three", "4": "four", "6": "six", "jaws": "jaw",
}  # fmt: skip
_LEFT_OUT = frozenset({"the", "a", "an", "with", "in", "by", "and"})


def plain(text: str) -> str:
    """A name in one spelling: 'The Live Center' and 'live-centre' are both 'live centre'."""
    words = re.findall(r"[a-z]+|[0-9]+", text.lower().replace("'", ""))
    return " ".join(_BRITISH.get(word, word) for word in words if word not in _LEFT_OUT)


def british(text: str) -> str:
    """The same words with British spelling, in small letters and with single blanks."""
    return " ".join(_BRITISH.get(word, word) for word in re.findall(r"[^\s-]+|-", text.lower())).replace(" - ", "-")


def said(words: str) -> tuple[str, ...]:
    """The names in a line: 'lathe, centre lathe'."""
    return tuple(word.strip() for word in words.split(",") if word.strip())


class Words(Generic[Word]):
    """The words of one enumeration, each with its other spellings; no spelling may mean two things."""

    def __init__(self, words: Mapping[Word, Iterable[str]]) -> None:
        self._meant: dict[str, Word] = {}
        self._usual = {word: next(iter(names)) for word, names in words.items()}
        for word, names in words.items():
            for name in (str(word), *names):
                if self._meant.setdefault(plain(name), word) is not word:
                    raise ValueError(f"`{name}` means {self._meant[plain(name)]} and {word}")

    def read(self, text: str) -> Word | None:
        """What the author means; None where the handbook has no such word."""
        return self._meant.get(plain(text))

    def usual(self, word: Word) -> str:
        """The usual name of a word."""
        return self._usual[word]

    @property
    def known(self) -> tuple[str, ...]:
        """The usual names, to list them in a message."""
        return tuple(self._usual.values())

    def remedy(self, text: str) -> str:
        """What to write instead of a word that is not known."""
        near = difflib.get_close_matches(plain(text), list(self._meant), n=1, cutoff=0.6)
        return f"did you mean `{near[0]}`?" if near else "name one"
