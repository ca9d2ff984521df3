"""What can be found in the handbook, under which words, and why was it found?

Made once for the search window and the list of methods, which therefore agree. Matching, misspellings and ranking are a
small open library's (`static/find/minisearch.js`); the words of the trade that mean the same stand in `alike.txt`.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from importlib.resources import files

from methodsheets.handbook.model import Entry
from methodsheets.sheet.model import Method
from methodsheets.trade.form.chapters import subject_title
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import material, material_names

from .glossary import terms
from .site import Site
from .wording import sentence

FIND_URI = "assets/methodsheets/find.js"
Line = tuple[str, str]
"""(what it tells, the words): 'held' → 'Held in four-jaw chuck'; the words are shown as the reason."""


def find_text(site: Site, url_of: Callable[[str], str]) -> str:
    """The script file that brings all that can be found, and what finds it.

    Parameters:
        url_of: address below the site of a page or file by its source path; '' where it is not published
    """
    found = [_method(site, entry, url_of) for entry in site.handbook.entries.values()]
    found += _others(site, url_of)
    pieces = json.dumps({"docs": found, "alike": alike()}, ensure_ascii=False, separators=(",", ":"))
    closed = pieces.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"{_text('minisearch.js')}\n{_text('engine.js')}\nmethodSheetsTake(methodSheetsFinder({closed}));\n"


def alike() -> list[list[str]]:
    """Groups of words that mean the same, the one that stands for all first."""
    lines = (line for line in _text("alike.txt").splitlines() if line.strip() and not line.startswith("#"))
    return [[word.strip() for word in line.split("|")] for line in lines]


def _text(name: str) -> str:
    return (files("methodsheets.pages") / "static" / "find" / name).read_text(encoding="utf-8")


def _method(site: Site, entry: Entry, url_of: Callable[[str], str]) -> dict[str, object]:
    own, place = entry.own, site.places.methods[entry.slug]
    portrait = next((one.key for one in own.drawings if one.kind == "portrait"), "")
    picture = url_of(place.drawing(site.same_picture(portrait))) if portrait else ""
    return {
        "u": url_of(place.page),
        "t": own.title,
        "k": "Method",
        "p": sentence(own.part.replace("-", " ")),
        "i": picture,
        "s": entry.slug,
        "l": list(dict.fromkeys(_lines(own))),
    }


def _lines(method: Method) -> Iterable[Line]:
    """All that a method says of itself, the most telling first."""
    if method.summary:
        yield "what", method.summary
    if method.material:
        yield "material", _metal(method.material)
    if method.stock.metric:
        yield "stock", f"Stock: {method.stock.metric}"
    for setup in method.setups:
        yield "held", f"Held in {setup.words.metric or setup.holding}"
        yield "machine", f"On the {setup.machine_name}"
    for operation in method.operations:
        yield "done", f"{operation.number} {operation.words.metric}"
        if operation.tool:
            yield "tool", f"{operation.number} with {operation.tool}"
        for limit in operation.limits:
            if limit.fit:
                yield "fit", f"{operation.number} {limit.name}: {limit.nominal.value:g} {limit.fit}"
        for fact in operation.facts:
            if fact.note.metric:
                yield "more", f"{operation.number} {fact.label}: {fact.note.metric}"
        for note in (*operation.notes, *(caution.words for caution in operation.cautions)):
            yield "more", f"{operation.number} {note}"
    for fact in method.totals.facts if method.totals else ():
        yield "more", fact.label
    if method.found_as:
        yield "also", ", ".join(method.found_as)


def _metal(name: str) -> str:
    """'PB1, phosphor bronze, also CuSn11P …': a metal under every name that people say."""
    try:
        found = material(name)
    except NotInTable:
        return name
    return ", ".join(dict.fromkeys([found.name, found.group, found.form, *found.equivalents]))


def _others(site: Site, url_of: Callable[[str], str]) -> Iterable[dict[str, object]]:
    """Chapters, comparisons, workshops and words of the trade."""
    places = site.places
    for part, comparison in site.handbook.comparisons.items():
        words = [("what", f"{len(comparison.methods)} ways to make it, side by side")]
        yield _page(url_of(places.named(f"compare/{part}")), comparison.title, "Comparison", words)
    for key, card in site.handbook.workshops.items():
        lines = [("machine", machine.name) for machine in card.machines]
        facts = [(machine.name, *fact) for machine in card.machines for fact in machine.facts]
        lines += [("machine", f"{name}: {label} {said}") for name, label, said in facts if isinstance(said, str)]
        lines += [("held", holding.name) for holding in card.holdings] + [("tool", tool.name) for tool in card.tools]
        lines += [("tool", f"{tool.name} {size}") for tool in card.tools for size, _ in tool.sizes]
        yield _page(url_of(places.named(f"workshops/{key}")), card.name, "Workshop", lines)
    if site.reference:
        for subject in site.chapter.subjects:
            sheets = site.chapter.of(subject)
            lines = [("what", sheet.sentence) for sheet in sheets]
            lines += [("also", sheet.name.replace("_", " ")) for sheet in sheets]
            lines += [("material", _metal(name)) for name in material_names()] if subject == "materials" else []
            yield _page(url_of(places.named(f"reference/{subject}")), subject_title(subject), "Chapter", lines)
    glossary = url_of(places.named("glossary"))
    for term in terms():
        also = [("also", ", ".join(term.also))] if term.also else []
        yield _page(f"{glossary}#{term.anchor}", sentence(term.word), "Word", [("what", term.meaning), *also])


def _page(url: str, title: str, kind: str, lines: Iterable[Line]) -> dict[str, object]:
    return {"u": url, "t": title, "k": kind, "p": "", "i": "", "s": "", "l": list(lines)}
