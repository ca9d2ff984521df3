"""What of a page waits beside it until a reader asks for it? Each distinct piece once, in files that work from a disk.

A page holds a line that opens and the numbers of its pieces. The pieces stand in a script file, which tells them to the
script of the page when it is loaded, for a page from a disk may load a script but read no file; and on a plain page,
to which the line leads where no script runs. A page that travels alone holds everything itself.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from html import escape

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


@dataclass
class Waiting:
    """What waits beside one page.

    Parameters:
        address: from that page to the plain page that holds all of it; the script file lies beside that.
    """

    address: str
    _numbers: dict[str, int] = field(default_factory=dict)
    _parts: dict[Later, tuple[int, ...]] = field(default_factory=dict)

    def stand_in(self, later: Later, put: Put) -> str:
        """What stands in the page; what it stands for is kept."""
        if later not in self._parts:
            self._parts[later] = tuple(self._number(put(piece.html)) for piece in later.pieces)
        pairs = zip(self._parts[later], later.pieces, strict=True)
        said = escape(" ".join("@".join((str(number), *piece.workshops)) for number, piece in pairs))
        return (
            f'<details class="{later.kind}" data-search-exclude="" data-ms-later="{said}">{later.line}'
            f'<p class="ms-later"><a href="{escape(self.address)}#{self._place(later)}">{escape(later.title)},'
            " on a page of its own</a></p></details>"
        )

    def _number(self, html: str) -> int:
        return self._numbers.setdefault(html, len(self._numbers))

    def _place(self, later: Later) -> str:
        return f"part-{list(self._parts).index(later) + 1}"

    @property
    def pieces(self) -> tuple[str, ...]:
        """Every distinct piece, by its number."""
        return tuple(self._numbers)

    def script(self) -> str:
        """The file that tells the pieces to the script of the page."""
        return f"methodSheetsTake({json.dumps(self.pieces, ensure_ascii=False, separators=(',', ':'))});\n"

    def plain(self, shops: Callable[[Iterable[str]], str]) -> str:
        """The content of the plain page; a piece that stood further up already is linked to.

        Parameters:
            shops: names workshops by their keys.
        """
        out: list[str] = []
        said: set[int] = set()
        for later, numbers in self._parts.items():
            out.append(f'<section id="{self._place(later)}"><h2>{escape(later.title)}</h2>')
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
