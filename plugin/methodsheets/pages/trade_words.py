"""Where does a page use a word of the trade for the first time? There it points at the meaning."""

from __future__ import annotations

from collections.abc import Callable
from xml.etree.ElementTree import Element

from .glossary import by_spelling, pattern

PROSE = frozenset(
    {"p", "li", "dt", "dd", "em", "strong", "div", "section", "ul", "ol", "dl", "blockquote", "body", "article"}
)
"""Elements that are looked through; nothing else is, so that links, code, headings and tables stay as they are."""

SKIPPED = frozenset(
    {
        "ms-switches",
        "ms-ways-on",
        "ms-bench-controls",
        "ms-other",
        "ms-op-head",
        "ms-setup-head",
        "ms-title-block",
        "ms-box",
        "ms-formula",
        "ms-found-as",
        "ms-provenance",
        "ms-card-title",
    }
)
"""Classes whose contents are left as they are."""


def explain_words(root: Element, target: str, text: Callable[[str], str] = str) -> list[Element]:
    """Turn the first use of each word below `root` into a link; gives the links.

    Parameters:
        root: the page's elements; changed in place.
        target: relative path of the page of words.
        text: wraps every run of words.
    """
    seen: dict[str, Element] = {}
    _walk(root, target, text, seen)
    return list(seen.values())


def _walk(element: Element, target: str, text: Callable[[str], str], seen: dict[str, Element]) -> None:
    if SKIPPED.intersection((element.get("class") or "").split()):
        return
    children = list(element)
    is_prose = element.tag in ("p", "li", "dt")
    if is_prose and element.text:
        element.text, made = _split(element.text, target, text, seen)
        for offset, link in enumerate(made):
            element.insert(offset, link)
    for child in children:
        if child.tag in PROSE:
            _walk(child, target, text, seen)
        if is_prose and child.tail:
            child.tail, made = _split(child.tail, target, text, seen)
            place = list(element).index(child) + 1
            for offset, link in enumerate(made):
                element.insert(place + offset, link)


def _split(words: str, target: str, text: Callable[[str], str], seen: dict[str, Element]) -> tuple[str, list[Element]]:
    """The words in front of the first link, and the links, each with the words behind it as its tail."""
    lead, links, at = None, [], 0
    for match in pattern().finditer(words):
        term = by_spelling()[match.group(1).lower()]
        if term.word in seen:
            continue
        before = words[at : match.start()]
        if lead is None:
            lead = before
        else:
            links[-1].tail = text(before)
        link = Element("a", {"class": "ms-word", "href": f"{target}#{term.anchor}", "title": term.meaning})
        link.text = text(match.group(1))
        links.append(link)
        seen[term.word] = link
        at = match.end()
    if lead is None:
        return words, []
    links[-1].tail = text(words[at:])
    return text(lead), links
