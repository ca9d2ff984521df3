"""What of a page did the program make, and what did an author write? They are kept apart until all is HTML.

Extensions of the host read the elements of a page as if an author had written them: an ending `{: onclick=…}` becomes
an attribute, a number of the host's stash becomes what is kept there. So the program's own elements wait outside the
tree, are put in while the host looks at headings and links, and are taken out again. What is left is the author's and
is cleaned; then the places are filled.
"""

from __future__ import annotations

import re
import secrets
from collections.abc import Iterable
from xml.etree.ElementTree import Element

from markdown.util import AMP_SUBSTITUTE

from methodsheets.pages.islands import Islands
from methodsheets.pages.safe_markup import safe_markup
from methodsheets.pages.written import written

_NAME = "data-ms-own"


class Own:
    """The program's own elements of one page. Their places bear a secret, so that no author can name one."""

    def __init__(self, islands: Islands) -> None:
        self._islands = islands
        self._secret = secrets.token_hex(16)
        self._waiting: dict[str, list[Element]] = {}
        self._in: set[Element] = set()
        self._out: dict[str, str] = {}

    def wait(self, elements: Iterable[Element], tag: str = "div") -> Element:
        """A place for elements that are put in later."""
        name = self._name()
        self._waiting[name] = list(elements)
        return Element(tag, {_NAME: name})

    def put_in(self, root: Element) -> None:
        """Put the elements in, now that extensions have read what the author wrote."""
        for parent in list(root.iter()):
            for place in list(parent):
                made = self._waiting.get(place.get(_NAME) or "")
                if made:
                    _replace(parent, place, made)
                    self._in.update(made)

    def mark(self, element: Element) -> None:
        """An element that was put in by other means is the program's own too."""
        self._in.add(element)

    def take_out(self, root: Element) -> None:
        """Leave only places, now that the host has seen headings and links."""
        for index, child in enumerate(list(root)):
            if child not in self._in:
                self.take_out(child)
                continue
            name, tail = self._name(), child.tail
            child.tail = None
            held = Element("div")
            held.append(child)
            self._islands.lift(held)
            self._out[name] = "".join(map(written, held)).replace(AMP_SUBSTITUTE, "&")
            place = Element("span" if child.tag in ("a", "span") else "div", {_NAME: name})
            place.tail = tail
            root[index] = place

    def join(self, html: str, *, clean: bool) -> str:
        """The page: the author's part, cleaned where that is wanted, and the program's own in its places."""
        if clean:
            html = safe_markup(html, frozenset(self._out))
        return re.sub(
            rf'<(span|div) {_NAME}="({self._secret}-\d+)"></\1>', lambda found: self._out[found.group(2)], html
        )

    def _name(self) -> str:
        return f"{self._secret}-{len(self._waiting) + len(self._out)}"


def _replace(parent: Element, place: Element, made: list[Element]) -> None:
    index = list(parent).index(place)
    made[-1].tail = (made[-1].tail or "") + (place.tail or "")
    parent[index : index + 1] = made
