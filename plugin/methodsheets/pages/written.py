"""How are elements written out? So that every `<` begins an element, and no attribute's words can be taken for one.

HTML allows a bare `<` in an attribute, and the standard library writes it so. What is put in later is found by its
form in the text of the page; an author's words must never have that form. A page is written in thousands of small
pieces, and the standard library looks through each for namespaces first, which none of ours has: that took half of
the time.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from xml.etree.ElementTree import HTML_EMPTY, Element, tostring

_ELEMENT = re.compile(r'<[a-zA-Z][^\s<>"]*(?:"[^"]*"|[^"<>])*>')
_AS_IT_IS = frozenset({"script", "style"})
"""Elements whose text HTML does not spell out."""


def written(element: Element) -> str:
    """An element as HTML, with what follows it."""
    out: list[str] = []
    _write(out.append, element)
    return "".join(out)


def _write(put: Callable[[str], None], element: Element) -> None:
    tag = element.tag
    if not isinstance(tag, str) or "{" in tag:  # a comment, or an element with a namespace
        put(spelt_out(tostring(element, encoding="unicode", method="html")))
        return
    attributes = "".join([f' {name}="{_quoted(words)}"' for name, words in element.items()])
    put(f"<{tag}{attributes}>")
    if element.text:
        put(element.text if tag in _AS_IT_IS else escape(element.text, quote=False))
    for child in element:
        _write(put, child)
    if tag not in HTML_EMPTY:
        put(f"</{tag}>")
    if element.tail:
        put(escape(element.tail, quote=False))


def _quoted(words: str) -> str:
    """An apostrophe needs no spelling out between double quotes."""
    return escape(words, quote=False).replace('"', "&quot;")


def spelt_out(html: str) -> str:
    """Markup in which every `<` and `>` of an attribute is spelt out; in text they are already."""
    return _ELEMENT.sub(_spell, html)


def _spell(found: re.Match[str]) -> str:
    whole = found.group()
    inner = whole[1:-1]
    return f"<{inner.replace('<', '&lt;').replace('>', '&gt;')}>" if "<" in inner or ">" in inner else whole
