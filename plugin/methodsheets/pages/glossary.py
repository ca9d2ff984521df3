"""What do the words of the trade mean? Short explanations, in our own words, that pages can point at."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from methodsheets.reading.slug import slugify

from . import document as d


@dataclass(frozen=True)
class Term:
    """One word with its meaning and its other spellings."""

    word: str
    meaning: str
    also: tuple[str, ...] = ()

    @property
    def anchor(self) -> str:
        """Its place on the page of words."""
        return slugify(self.word)


@cache
def terms() -> tuple[Term, ...]:
    """All words, in the order of the alphabet; read from `static/words.txt`."""
    text = (files("methodsheets.pages") / "static" / "words.txt").read_text(encoding="utf-8")
    found = []
    for line in text.splitlines():
        if line.strip() and not line.startswith("#"):
            names, _, meaning = line.partition(":")
            word, *also = [name.strip() for name in names.split("|")]
            found.append(Term(word, meaning.strip(), tuple(also)))
    return tuple(sorted(found, key=lambda term: term.word.lower()))


@cache
def by_spelling() -> dict[str, Term]:
    """Every spelling, in lower case, with its word."""
    return {name.lower(): term for term in terms() for name in (term.word, *term.also)}


@cache
def pattern() -> re.Pattern[str]:
    """Finds the words in prose, the longest first."""
    names = sorted(by_spelling(), key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(re.escape(name) for name in names)})(?![\w-])", re.I)


def glossary_blocks() -> d.Blocks:
    """Return the page of words."""
    body: list[d.Block] = []
    for term in terms():
        content: list[d.Block] = [d.Heading(2, d.words(term.word), term.anchor, "term")]
        if term.also:
            content.append(d.Paragraph((d.Small(d.words("also: " + ", ".join(term.also))),)))
        content.append(d.Paragraph(d.words(term.meaning)))
        body.append(d.Group("term", tuple(content)))
    return (d.Group("glossary", tuple(body)),)
