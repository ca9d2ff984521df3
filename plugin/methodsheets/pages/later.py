"""What of a page waits beside it until a reader asks for it? Each distinct piece once, in files that work from a disk.

A page holds a line that opens and the numbers of its pieces. The pieces stand in a script file, which tells them to the
script of the page when it is loaded, for a page from a disk may load a script but read no file; and on a plain page,
to which the line leads where no script runs. A page that travels alone holds everything itself.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from html import escape

_FOR = re.compile(r'<([a-z][a-z0-9]*)\b[^>]*\sdata-ms-for="([^"]*)"[^>]*>')
_RADIO = re.compile(r'<input\b[^>]*\bname="ms-workshop"[^>]*>')

PLACE = "ms "
"""Begins a comment in the page: here stands what other workshops see. A comment costs no element."""

Put = Callable[[str], str]
"""Fills the places of drawings and formulas within some markup."""


@dataclass(frozen=True)
class Piece:
    """Markup that waits, and the workshops that it is for; none where all share it."""

    html: str
    workshops: tuple[str, ...] = ()
    shown: bool = True
    """Whether it is for the workshop that the author wrote for."""

    def marked(self, html: str) -> str:
        """Markup with the workshops that it is for."""
        if not self.workshops:
            return html
        other = "" if self.shown else ' class="ms-other" data-search-exclude=""'
        return f'<div data-ms-for="{escape(" ".join(self.workshops))}"{other}>{html}</div>'


@dataclass(frozen=True)
class Later:
    """Something that opens, whose content may wait.

    Parameters:
        kind: its classes.
        line: markup of the line that opens it.
        title: what it is about, in words: 'The working of operation 10'.
        pieces: what it holds, in order.
    """

    kind: str
    line: str
    title: str
    pieces: tuple[Piece, ...]

    def whole(self, put: Put) -> str:
        """The thing with all that it holds."""
        held = "".join(piece.marked(put(piece.html)) for piece in self.pieces)
        return f'<details class="{self.kind}" data-search-exclude="">{self.line}{held}</details>'


@dataclass(frozen=True)
class Others:
    """What readers of other workshops see at one place of a page: markup for some workshops each."""

    variants: tuple[tuple[tuple[str, ...], str], ...]

    def whole(self, put: Put) -> str:
        """All of it, for a page that holds everything."""
        return "".join(put(html) for _, html in self.variants)


@dataclass
class Waiting:
    """What waits beside one page.

    Parameters:
        address: from that page to the plain page that holds what opens; the script file lies beside that. '' where
            what opens does not wait.
        beside: beginning of the addresses of the files for other workshops, to which a key and an ending come.
        home: address of the page itself, and `own`, the workshop that it shows.
        workshop: key of another workshop whose variants are put into the page after all; '' for none.
    """

    address: str
    beside: str = ""
    home: str = ""
    own: str = ""
    workshop: str = ""
    _numbers: dict[str, int] = field(default_factory=dict)
    _parts: dict[Later, tuple[int, ...]] = field(default_factory=dict)
    _variants: dict[str, dict[str, tuple[str, str]]] = field(default_factory=dict)

    def place_of(self, others: Others, place: str, put: Put) -> str:
        """What stands in the page where other workshops see something else; what they see is kept."""
        here = ""
        for number, (shops, html) in enumerate(others.variants):
            filled = put(html)
            for shop in shops:
                self._variants.setdefault(shop, {})[place] = (f"{place}-{number}", filled)
            if self.workshop in shops:
                here += filled
        return here if self.workshop else f"<!--{PLACE}{place}-->"

    def elsewhere(self, choices: tuple[tuple[str, str], ...]) -> str:
        """Where the script finds what other workshops see, and links to their pages where no script runs."""
        shown = self.workshop or self.own
        links = []
        for key, name in choices:
            address = self.home if key == self.own else f"{self.beside}{key}.html"
            here = ' aria-current="page"' if key == shown else ""
            links.append(f'<a href="{escape(address)}"{here}>{escape(name)}</a>')
        said = f'data-ms-beside="{escape(self.beside)}" data-ms-there="{escape(self.own)}"'
        if self.workshop:  # a reader with scripts belongs on the page itself, with this workshop chosen
            said = f'data-ms-home="{escape(self.home)}" data-ms-shop="{escape(self.workshop)}"'
        return f'<span class="ms-elsewhere" {said} hidden></span><p class="ms-plain-choices">{" ".join(links)}</p>'

    def shop_script(self, shop: str) -> str:
        """The file that tells the variants of a workshop to the script of the page, by their places."""
        return _told(self._variants.get(shop, {}))

    def stand_in(self, later: Later, put: Put) -> str:
        """What stands in the page; what it stands for is kept."""
        if not self.address:
            return later.whole(put)
        if later not in self._parts:
            self._parts[later] = tuple(self._number(put(piece.html)) for piece in later.pieces)
        number = self._place(later)
        return (
            f'<details class="{later.kind}" data-ms-later="{number}">{later.line}'
            f'<a class="ms-later" href="{escape(self.address)}#part-{number}">{escape(later.title)},'
            " on a page of its own</a></details>"
        )

    def _number(self, html: str) -> int:
        return self._numbers.setdefault(html, len(self._numbers))

    def _place(self, later: Later) -> int:
        return list(self._parts).index(later) + 1

    @property
    def pieces(self) -> tuple[str, ...]:
        """Every distinct piece, by its number."""
        return tuple(self._numbers)

    def script(self) -> str:
        """The file that tells the script of the page all pieces, and which of them are for each place, counted from 1.

        A place names its pieces by number, each with the workshops that it is for: "0@small 1@large@inch".
        """
        places = [
            " ".join(
                "@".join((str(number), *piece.workshops)) for number, piece in zip(numbers, later.pieces, strict=True)
            )
            for later, numbers in self._parts.items()
        ]
        return _told({"places": places, "pieces": self.pieces})

    def plain(self, shops: Callable[[Iterable[str]], str]) -> str:
        """The content of the plain page; a piece that stood further up already is linked to.

        Parameters:
            shops: names workshops by their keys.
        """
        out: list[str] = []
        said: set[int] = set()
        for later, numbers in self._parts.items():
            out.append(f'<section id="part-{self._place(later)}"><h2>{escape(later.title)}</h2>')
            for number, piece in zip(numbers, later.pieces, strict=True):
                if piece.workshops:
                    out.append(f"<p><em>In {escape(shops(piece.workshops))}:</em></p>")
                if number in said:
                    out.append(f'<p><a href="#piece-{number}">As further up</a></p>')
                else:
                    out.append(f'<div id="piece-{number}">{self.pieces[number]}</div>')
                said.add(number)
            out.append("</section>")
        return "\n".join(out)


def _told(what: object) -> str:
    return f"methodSheetsTake({json.dumps(what, ensure_ascii=False, separators=(',', ':'))});\n"


def chosen(html: str, workshop: str) -> str:
    """A page that shows what readers of a workshop see, and nothing that only others do, also where no script runs."""
    html = _RADIO.sub(lambda found: found.group().replace(' checked="checked"', ""), _without_others(html, workshop))
    one = f' value="{escape(workshop)}"'
    html = _RADIO.sub(lambda found: found.group().replace(one, one + ' checked="checked"'), html)
    return html.replace("<html ", f'<html data-ms-workshop="{escape(workshop)}" ', 1)


def _without_others(html: str, workshop: str) -> str:
    """The page without the elements that are for other workshops."""
    out, at = [], 0
    for found in _FOR.finditer(html):
        if found.start() < at or escape(workshop) in found.group(2).split():
            continue
        out.append(html[at : found.start()])
        at = _end_of(html, found.group(1), found.start())
    return "".join((*out, html[at:]))


def _end_of(html: str, tag: str, start: int) -> int:
    """Where the element that begins at `start` ends."""
    depth = 0
    for found in re.finditer(rf"<(/?){tag}\b[^>]*>", html[start:]):
        depth += -1 if found.group(1) else 1
        if depth == 0:
            return start + found.end()
    return len(html)
