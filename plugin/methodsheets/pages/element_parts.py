"""Which small things do many elements share? Numbers with their units, anchors, attributes, words within."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from methodsheets.formula.measure import Measure

from . import document as d


def quantity_element(measure: Measure, text: Callable[[str], str] = str, *, split: bool = False) -> Element:
    """A number that the reader's switch turns into inches; without scripts it stays metric."""
    element = Element("span", {"class": "ms-q ms-split" if split else "ms-q"})
    if measure.inch and measure.inch != measure.metric:
        element.set("data-inch", measure.inch)
    number, gap, unit = measure.metric.partition("\u202f")
    if not split or not gap:
        element.text = text(measure.metric)
        return element
    for kind, words in (("num", number), ("unit", unit)):
        part = SubElement(element, "span", {"class": f"ms-{kind}"})
        part.text = text(words)
        part.tail = text("\u202f") if kind == "num" else None
    return element


def hoisted(cell: Element) -> Element:
    """A cell that holds nothing but a number with its unit is that number itself: one element less, many times."""
    only = cell[0] if len(cell) == 1 and not cell.text else None
    if only is None or only.tail or len(only) or only.get("class") not in ("ms-q", "ms-q ms-in-words"):
        return cell
    cell.remove(only)
    cell.text = only.text
    cell.set("class", f"{cell.get('class', '')} {only.get('class')}".strip())
    if only.get("data-inch"):
        cell.set("data-inch", only.get("data-inch", ""))
    return cell


def needs_host(element: Element) -> bool:
    """Whether there is something in it that the host must resolve: a link to another page, or a picture to fetch."""
    return any(
        piece.tag == "img" or (piece.tag == "a" and not (piece.get("href") or "#").startswith("#"))
        for piece in element.iter()
    )


def framed(element: Element) -> Element:
    """A place that will be filled keeps no attributes, so it gets an element round it that does."""
    if element.get("data-ms-island") is None:
        return element
    frame = Element("div")
    frame.append(element)
    return frame


def anchor(name: str) -> str:
    """An anchor as hosts may write it into links and tables of contents, where they escape nothing."""
    return re.sub(r"[^\w:.-]+", "-", name)


def with_attributes(element: Element, attributes: d.Attributes) -> Element:
    """The element with its attributes; a name of one can hold nothing but small letters, digits and hyphens."""
    for name, content in attributes:
        element.set(re.sub(r"[^a-z0-9-]+", "-", name), content)
    return element


def only_pairs(content: tuple[Any, ...]) -> bool:
    """Whether a variant holds cells of `Pairs`."""
    return bool(content) and isinstance(content[0], d.Pair)


def named(base: str, kind: str) -> dict[str, str]:
    """The classes of an element as attributes."""
    return {"class": f"{base} {' '.join(f'ms-{word}' for word in kind.split())}".strip()}


def append_text(element: Element, words: str, text: Callable[[str], str]) -> None:
    """Put words behind everything that an element holds."""
    last = element[-1] if len(element) else None
    if last is None:
        element.text = text((element.text or "") + words)
    else:
        last.tail = text((last.tail or "") + words)


def space(element: Element, text: Callable[[str], str]) -> None:
    """Put a space behind everything that an element holds."""
    append_text(element, " ", text)
