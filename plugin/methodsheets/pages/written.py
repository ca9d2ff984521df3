"""How are elements written out? So that every `<` begins an element, and no attribute's words can be taken for one.

HTML allows a bare `<` in an attribute, and the standard library writes it so. What is put in later is found by its
form in the text of the page; an author's words must never have that form.
"""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element, tostring

_ELEMENT = re.compile(r'<[a-zA-Z][^\s<>"]*(?:"[^"]*"|[^"<>])*>')


def written(element: Element) -> str:
    """An element as HTML."""
    return spelt_out(tostring(element, encoding="unicode", method="html"))


def spelt_out(html: str) -> str:
    """Markup in which every `<` and `>` of an attribute is spelt out; in text they are already."""
    return _ELEMENT.sub(_spell, html)


def _spell(found: re.Match[str]) -> str:
    whole = found.group()
    inner = whole[1:-1]
    return f"<{inner.replace('<', '&lt;').replace('>', '&gt;')}>" if "<" in inner or ">" in inner else whole
