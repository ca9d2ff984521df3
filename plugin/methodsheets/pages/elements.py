"""How does a document tree become markup? Elements of the standard library's tree, for any host to take over."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from . import document as d
from .element_parts import (
    anchor,
    append_text,
    framed,
    hoisted,
    named,
    needs_host,
    only_pairs,
    quantity_element,
    space,
    with_attributes,
)
from .islands import LIFTED, LIFTED_FOR, Islands
from .later import Later, Others, Piece
from .written import written


def elements(blocks: d.Blocks, islands: Islands, text: Callable[[str], str] = str) -> list[Element]:
    """Return the elements of a tree of blocks.

    Parameters:
        blocks: the tree.
        islands: collects the drawings and formulas, whose places are left empty.
        text: wraps every run of words; a Markdown host passes its own class that forbids further parsing.
    """
    return _Builder(islands, text).blocks(blocks)


def inline_element(content: d.Inline, islands: Islands, text: Callable[[str], str] = str) -> Element:
    """Return inline content within one `span`."""
    builder = _Builder(islands, text)
    return builder.run(Element("span", {"class": "ms-value"}), content)


def to_html(blocks: d.Blocks, islands: Islands) -> str:
    """Return the markup of a tree as text; the places of drawings are still empty."""
    root = Element("div")
    root.extend(elements(blocks, islands))
    islands.lift(root)
    return "\n".join(map(written, root))


FOLDED = frozenset({"index", "limits", "passes", "coordinates", "sheet-passes"})
"""Tables whose rows are folded where there is little room: there each cell says what its column was called."""


class _Builder:
    """Builds elements; remembers whether it is inside a variant that is not shown at first."""

    def __init__(
        self, islands: Islands, text: Callable[[str], str], suffix: str = "", *, unsearched: bool = False
    ) -> None:
        self.islands = islands
        self.text = text
        self.suffix = suffix
        self.unsearched = unsearched
        """Whether search does not see any of it, so that nothing in it need be marked."""

    # Blocks

    def blocks(self, content: Iterable[Any]) -> list[Element]:
        return self._each(content, lambda block: [_BLOCKS[type(block)](self, block)])

    def _each(self, content: Iterable[Any], made: Callable[[Any], list[Element]]) -> list[Element]:
        """The elements of blocks or cells; what other workshops see at one place is put there together."""
        found: list[Element] = []
        for other, run in itertools.groupby(content, lambda one: isinstance(one, d.For) and not one.shown):
            if other:
                found.append(self._others(list(run)))
                continue
            for one in run:
                found += self._variant(one) if isinstance(one, d.For) else made(one)
        return found

    def _others(self, several: list[d.For]) -> Element:
        """What other workshops see: a place, or the elements themselves, if the host has something in them to see."""
        builders = [_Builder(self.islands, str, f"--{one.workshops[0]}", unsearched=self.unsearched) for one in several]
        made = [builder._variant(one) for builder, one in zip(builders, several, strict=True)]
        if not any(needs_host(element) for elements in made for element in elements):
            parts = zip(several, made, strict=True)
            return self.islands.others(
                Others(tuple((one.workshops, "".join(map(written, held))) for one, held in parts))
            )
        whole = Element("div", {LIFTED: ""})
        for builder, one in zip(builders, several, strict=True):
            builder.text = self.text
            SubElement(whole, "div", {LIFTED_FOR: " ".join(one.workshops)}).extend(builder._variant(one))
        return whole

    def _variant(self, block: d.For) -> list[Element]:
        made = self.pairs_cells(block.content) if only_pairs(block.content) else self.blocks(block.content)
        made = [framed(element) for element in made]
        for element in made:
            element.set("data-ms-for", " ".join(block.workshops))
            if not block.shown:
                element.set("class", f"{element.get('class', '')} ms-other".strip())
                if not self.unsearched:
                    element.set("data-search-exclude", "")
        return made

    def heading(self, block: d.Heading) -> Element:
        element = Element(f"h{block.level}", named("ms-heading", block.kind))
        if block.id:
            element.set("id", anchor(block.id + self.suffix))
        return self.run(element, block.content)

    def paragraph(self, block: d.Paragraph) -> Element:
        element = Element("legend" if block.kind == "legend" else "p")
        if block.kind:
            element.set("class", f"ms-{block.kind}")
        return self.run(element, block.content)

    def table(self, block: d.Table) -> Element:
        frame = Element("div", {"class": "ms-scroll", "tabindex": "0", "role": "group", "aria-label": block.caption})
        if not block.searched:
            frame.set("data-search-exclude", "")
        table = SubElement(frame, "table", named("ms-table", block.kind))
        caption = SubElement(table, "caption", {} if block.caption_shown else {"class": "ms-unseen"})
        caption.text = self.text(block.caption)
        head = SubElement(SubElement(table, "thead"), "tr")
        for column in block.columns:
            cell = SubElement(head, "th", {"scope": "col"} | ({"class": "ms-number"} if column.number else {}))
            cell.text = self.text(column.words)
        body = SubElement(table, "tbody")
        for row in block.rows:
            self.row(body, row, block.columns, folded=bool(FOLDED & set(block.kind.split())))
        return frame

    def row(self, body: Element, row: d.Row, columns: tuple[d.Column, ...], *, folded: bool) -> None:
        element = with_attributes(SubElement(body, "tr"), row.attributes)
        if row.kind:
            element.set("class", f"ms-{row.kind}")
        for index, content in enumerate(row.cells):
            is_head = row.head and index == 0
            cell = SubElement(element, "th" if is_head else "td", {"scope": "row"} if is_head else {})
            if index < len(columns):
                if columns[index].number:
                    cell.set("class", "ms-number")
                if folded:
                    cell.set("data-label", columns[index].words)
            hoisted(self.run(cell, content))

    def listing(self, block: d.Listing) -> Element:
        element = Element("ol" if block.ordered else "ul", named("ms-list", block.kind))
        for item in block.items:
            self.run(SubElement(element, "li"), item)
        return element

    def pairs(self, block: d.Pairs) -> Element:
        element = Element("dl", named("ms-pairs", block.kind))
        element.extend(self._each(block.cells, lambda cell: self.pairs_cells((cell,))))
        return element

    def pairs_cells(self, cells: Iterable[Any]) -> list[Element]:
        made = []
        for cell in cells:
            element = Element("div", named("ms-pair", cell.kind))
            if cell.key:
                element.set("data-ms-fact", cell.key)
            self.run(SubElement(element, "dt"), cell.label)
            hoisted(self.run(SubElement(element, "dd"), cell.content))
            made.append(element)
        return made

    def disclosure(self, block: d.Disclosure) -> Element:
        """What opens; put in last if search need not read it and the host has no link in it to check."""
        if not block.searched:
            hidden = _Builder(self.islands, str, self.suffix, unsearched=True)
            waits = hidden._later(block) if block.later and not block.open else None
            if waits is not None:
                return self.islands.later(waits)
            made = hidden._disclosure(block)
            if not needs_host(made):
                return self.islands.markup(written(made), "div")
        return self._disclosure(block)

    def _later(self, block: d.Disclosure) -> Later | None:
        """What opens in pieces that may wait; None if the host has a link in one of them to check."""
        pieces = []
        for held in block.content:
            of = held if isinstance(held, d.For) else d.For((), (held,), shown=True)
            suffix = self.suffix if of.shown else f"--{of.workshops[0]}"
            for element in _Builder(self.islands, str, suffix, unsearched=True).blocks(of.content):
                if needs_host(element):
                    return None
                pieces.append(Piece(written(element), of.workshops, of.shown))
        line = written(self.run(Element("summary"), block.summary))
        return Later(named("ms-more", block.kind)["class"], line, block.later, tuple(pieces))

    def _disclosure(self, block: d.Disclosure) -> Element:
        element = Element("details", named("ms-more", block.kind))
        if block.open:
            element.set("open", "open")
        if not block.searched:
            element.set("data-search-exclude", "")
        self.run(SubElement(element, "summary"), block.summary)
        element.extend(self.blocks(block.content))
        return element

    def box(self, block: d.Box) -> Element:
        element = Element("div", {"class": f"ms-box ms-{block.kind}", "role": "note", "aria-label": block.title})
        if block.id:
            element.set("id", anchor(block.id + self.suffix))
        title = SubElement(element, "p", {"class": "ms-box-title"})
        title.text = self.text(block.title)
        element.extend(self.blocks(block.content))
        return element

    def figure(self, block: d.FigurePlace) -> Element:
        element = Element(
            "figure", {"class": " ".join(["ms-figure", *(f"ms-figure-{word}" for word in block.kind.split())])}
        )
        frame = SubElement(element, "div", {"class": "ms-drawing", "data-search-exclude": ""})
        if block.file and (self.islands.size or self.suffix):
            SubElement(frame, "img", self._picture(block))
        else:
            frame.append(self.islands.figure(block.key))
        caption = SubElement(element, "figcaption")
        self.run(caption, d.words(block.caption))
        if block.file and block.linked:
            space(caption, self.text)
            link = d.Link(block.file, d.words("Open the drawing"), kind="quiet", title=block.caption.metric)
            self.run(caption, (link,))
        return element

    def _picture(self, block: d.FigurePlace) -> dict[str, str]:
        """A drawing that is fetched when it comes into view; its place is kept free until then."""
        found = {"src": block.file, "alt": block.description or block.caption.metric, "loading": "lazy"}
        if self.islands.size:
            found["width"], found["height"], least = self.islands.size(block.key)
            found |= {"style": least} if least else {}
        return {**found, "data-ms-drawing": block.key}

    def group(self, block: d.Group) -> Element:
        element = Element(block.tag, {"class": " ".join(f"ms-{word}" for word in block.kind.split())})
        if block.id:
            element.set("id", anchor(block.id + self.suffix))
        with_attributes(element, block.attributes)
        element.extend(self.blocks(block.content))
        return element

    # Words

    def run(self, element: Element, content: d.Inline) -> Element:
        """Append inline content to an element."""
        for piece in content:
            if isinstance(piece, d.Text):
                append_text(element, piece.words, self.text)
            else:
                element.append(_WORDS[type(piece)](self, piece))
        return element

    def strong(self, piece: d.Strong) -> Element:
        return self.run(Element("strong"), piece.content)

    def small(self, piece: d.Small) -> Element:
        return self.run(Element("small", {"class": "ms-small"}), piece.content)

    def code(self, piece: d.Code) -> Element:
        element = Element("code")
        element.text = self.text(piece.words)
        return element

    def link(self, piece: d.Link) -> Element:
        target = f"#{anchor(piece.target[1:])}" if piece.target.startswith("#") else piece.target
        element = Element("a", {"href": target})
        if piece.kind:
            element.set("class", " ".join(f"ms-{word}" for word in piece.kind.split()))
        if piece.title:
            element.set("title", piece.title)
        if piece.download:
            element.set("download", piece.target.rpartition("/")[2])
        return self.run(element, piece.content)

    def quantity(self, piece: d.Quantity) -> Element:
        return quantity_element(piece.measure, self.text, split=piece.split)

    def sized(self, piece: d.Sized) -> Element:
        element = Element("span", {"class": "ms-q ms-in-words", "data-inch": piece.inch})
        element.text = self.text(piece.metric)
        return element

    def span(self, piece: d.Span) -> Element:
        element = Element("span", {"class": " ".join(f"ms-{word}" for word in piece.kind.split())})
        with_attributes(element, piece.attributes)
        return self.run(element, piece.content)

    def blank(self, piece: d.Blank) -> Element:
        element = Element("label", {"class": f"ms-blank ms-blank-{piece.role}"})
        label = SubElement(element, "span", {"class": "ms-blank-label"})
        label.text = self.text(piece.label)
        box = SubElement(element, "input", {"type": "text", "inputmode": "decimal", "autocomplete": "off"})
        box.set("data-ms-key", piece.key)
        box.set("data-ms-role", piece.role)
        with_attributes(box, piece.attributes)
        return element

    def tick(self, piece: d.Tick) -> Element:
        element = Element("label", {"class": "ms-tick"})
        SubElement(element, "input", {"type": "checkbox", "autocomplete": "off", "data-ms-key": piece.key})
        label = SubElement(element, "span", {"class": "ms-unseen"})
        label.text = self.text(piece.label)
        return element

    def choice(self, piece: d.Choice) -> Element:
        element = Element("label", {"class": "ms-choice"})
        radio = SubElement(element, "input", {"type": "radio", "name": f"ms-{piece.group}", "value": piece.value})
        radio.set("id", anchor(f"ms-{piece.group}-{piece.value}{self.suffix}"))
        radio.set("autocomplete", "off")
        if piece.chosen:
            radio.set("checked", "checked")
        SubElement(element, "span").text = self.text(piece.words)
        return element

    def button(self, piece: d.Button) -> Element:
        element = Element("button", {"type": "button", "class": "ms-button ms-script", "data-ms-do": piece.action})
        if piece.title:
            element.set("title", piece.title)
        element.text = self.text(piece.words)
        return element

    def select(self, piece: d.Select) -> Element:
        element = Element("label", {"class": "ms-select ms-script"})
        SubElement(element, "span").text = self.text(piece.label)
        chosen = SubElement(element, "select", {"data-ms-do": piece.action, "autocomplete": "off"})
        for key, shown in piece.options:
            SubElement(chosen, "option", {"value": key}).text = self.text(shown)
        return element

    def field(self, piece: d.Field) -> Element:
        element = Element("label", {"class": "ms-field ms-script"})
        SubElement(element, "span").text = self.text(piece.label)
        box = SubElement(element, "input", {"type": piece.kind, "data-ms-do": piece.action, "value": piece.value})
        box.set("autocomplete", "off")
        return element

    def markup(self, piece: d.Markup) -> Element:
        return self.islands.markup(piece.html)


_BLOCKS: dict[type, Callable[[_Builder, Any], Element]] = {
    d.Heading: _Builder.heading,
    d.Paragraph: _Builder.paragraph,
    d.Table: _Builder.table,
    d.Listing: _Builder.listing,
    d.Pairs: _Builder.pairs,
    d.Disclosure: _Builder.disclosure,
    d.Box: _Builder.box,
    d.FigurePlace: _Builder.figure,
    d.Group: _Builder.group,
    d.Elsewhere: lambda builder, block: builder.islands.elsewhere(block.choices),
}

_WORDS: dict[type, Callable[[_Builder, Any], Element]] = {
    d.Strong: _Builder.strong,
    d.Small: _Builder.small,
    d.Code: _Builder.code,
    d.Link: _Builder.link,
    d.Quantity: _Builder.quantity,
    d.Sized: _Builder.sized,
    d.Span: _Builder.span,
    d.Blank: _Builder.blank,
    d.Tick: _Builder.tick,
    d.Choice: _Builder.choice,
    d.Button: _Builder.button,
    d.Select: _Builder.select,
    d.Field: _Builder.field,
    d.Markup: _Builder.markup,
}
