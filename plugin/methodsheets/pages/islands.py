"""Where do drawings and formulas go? Small empty elements that are filled last, when search has read the page.

A drawing put into a page before the search index is made costs time on every build and fills the index with the
glued-together texts of the drawing. So the tree of a page holds only places; `Islands.fill` puts the drawings in.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from xml.etree.ElementTree import Element

from .later import Later, Others, Waiting
from .written import written

_PLACE = re.compile(r'<(span|div) data-ms-island="([a-z0-9-]+)">\s*</\1>')

LIFTED = "data-ms-lifted"
LIFTED_FOR = "data-ms-lifted-for"
"""Marks elements for other workshops until they are taken out: all of one place, and each with its workshops."""

_PLAIN = re.compile(r'(?<=<math) alttext="[^"]*"')
_HEAVY = {
    ' xmlns="http://www.w3.org/1998/Math/MathML"': "",
    ' displaystyle="true"': "",
    "&#x2061;": "\u2061",
    '<mspace width="0.2em"/><mtext>': "<mtext>\u202f",
}


class Islands:
    """The drawings and formulas of one page, by the number of their place.

    Parameters:
        size: gives width, height and style of the drawing of a key, for a page that shows drawings which are files as
            pictures; without it every drawing stands in the page itself.
    """

    def __init__(self, size: Callable[[str], tuple[str, str, str]] | None = None) -> None:
        self.size = size
        self._figures: dict[str, str] = {}
        self._markup: dict[str, str] = {}
        self._numbers: dict[str, str] = {}
        self._later: dict[str, Later] = {}
        self._others: dict[str, Others] = {}
        self._elsewhere: dict[str, tuple[tuple[str, str], ...]] = {}

    @property
    def figures(self) -> tuple[str, ...]:
        """Keys of the drawings that the page shows, in the order of their first places."""
        return tuple(dict.fromkeys(self._figures.values()))

    def figure(self, key: str) -> Element:
        """A place for the drawing with that key."""
        number = f"f{len(self._figures) + 1}"
        self._figures[number] = key
        return Element("div", {"data-ms-island": number})

    def markup(self, html: str, tag: str = "span") -> Element:
        """A place for finished markup, e.g. a formula, which may hold places itself; equal markup is kept once."""
        html = lighter(html) if "<math" in html else html
        number = self._numbers.get(html, "")
        if not number:
            number = f"m{len(self._markup) + 1}"
            self._markup[number] = html
            self._numbers[html] = number
        return Element(tag, {"data-ms-island": number})

    def later(self, later: Later) -> Element:
        """A place for something that opens, whose content may wait beside the page."""
        number = f"l{len(self._later) + 1}"
        self._later[number] = later
        return Element("div", {"data-ms-island": number})

    def others(self, others: Others) -> Element:
        """A place for what readers of other workshops see there, which may wait beside the page."""
        number = f"o{len(self._others) + 1}"
        self._others[number] = others
        return Element("div", {"data-ms-island": number})

    def elsewhere(self, choices: tuple[tuple[str, str], ...]) -> Element:
        """A place for links to the page as other workshops see it: keys and names of all workshops."""
        number = f"e{len(self._elsewhere) + 1}"
        self._elsewhere[number] = choices
        return Element("div", {"data-ms-island": number})

    def lift(self, parent: Element) -> None:
        """Take out what other workshops see, where a host had to see it first: behind places as all the rest."""
        for above in list(parent.iter()):
            for index, child in enumerate(list(above)):
                if child.get(LIFTED) is not None:
                    parts = ((str(part.get(LIFTED_FOR)).split(), "".join(map(written, part))) for part in child)
                    place = self.others(Others(tuple((tuple(shops), html) for shops, html in parts)))
                    place.tail = child.tail
                    above[index] = place

    def fill(self, html: str, drawing: Callable[[str], str], waiting: Waiting | None = None) -> str:
        """Put everything in its place.

        Parameters:
            html: the finished page.
            drawing: gives the SVG text for a key; "" where there is none.
            waiting: takes what may wait beside the page; None puts that in too.
        """
        times: Counter[str] = Counter()

        def filled(text: str) -> str:
            return _PLACE.sub(put, text)

        def put(match: re.Match[str]) -> str:
            number = match.group(2)
            if number in self._later:
                one = self._later[number]
                return one.whole(filled) if waiting is None else waiting.stand_in(one, filled)
            if number in self._others:
                several = self._others[number]
                return several.whole(filled) if waiting is None else waiting.place_of(several, number, filled)
            if number in self._elsewhere:
                return waiting.elsewhere(self._elsewhere[number]) if waiting else ""
            if number in self._figures:
                key = self._figures[number]
                times[key] += 1
                text = drawing(key) or _missing(key)
                # A drawing's ids begin with its key; put in twice, it must not give one id to two elements.
                return text if times[key] == 1 else text.replace(key, f"{key}-{times[key]}")
            kept = self._markup.get(number)
            return match.group(0) if kept is None else _PLACE.sub(put, kept)

        return _PLACE.sub(put, html)


def lighter(html: str) -> str:
    """Set formulas without what a page need not say: a page of many operations holds thousands of them.

    The plain text beside a formula (`alttext`) is for readers that know no MathML; here it would say everything twice.
    """
    for heavy, light in _HEAVY.items():
        html = html.replace(heavy, light)
    return _PLAIN.sub("", html)


def _missing(key: str) -> str:
    return f'<p class="ms-missing">The drawing {key} is not there yet.</p>'
