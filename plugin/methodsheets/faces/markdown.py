"""How do a method file's blocks become page content in any Python-Markdown host? Elements, never stashed text.

The blocks are lifted out before the host looks for fences (priority 26, just above the usual 25), so they work in
lists, admonitions and tabs, and a block quoted by a longer fence stays text. In their place come elements of the
page's own tree, so that the host resolves and checks their links, sees their anchors and lists their headings.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from xml.etree.ElementTree import Element, tostring

from markdown import Markdown
from markdown.blockprocessors import BlockProcessor
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.postprocessors import Postprocessor
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString

from methodsheets.faces.markdown_own import Own
from methodsheets.faces.on_demand import OnDemand
from methodsheets.pages import document as d
from methodsheets.pages.elements import elements, inline_element
from methodsheets.pages.islands import Islands
from methodsheets.pages.later import Waiting
from methodsheets.pages.problems import BlockPlace, blocks_of, kind_of, missing_box
from methodsheets.pages.site import Request, Site
from methodsheets.pages.trade_words import explain_words
from methodsheets.reading.markdown import Fence, scan
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Problem

PRIORITY = 26
"""Just above the fenced code of the usual extensions."""

PUT_IN, TAKEN_OUT = 5.5, -1000
"""Behind the extensions that read what an author wrote, before the tables of contents and links (5); behind all."""

_MARK = "methodsheets-block-{}"
_QUOTE = r"(?<!\\)\{\{\s*([^{}\n]+?)\s*\}\}"


class Page:
    """The page that is being turned into HTML: what it is about, and what was found on it.

    Parameters:
        site: all pages of the handbook; None where no handbook is at hand.
        slug: the method whose file the page is; "" for any other page.
        uri: source path of the page, from which links are made.
        alone: the page travels by itself: links to other pages are left out.
        clean: whether the markup of its prose is kept to what is safe; a keeper's own pages are not touched.
        pictures: whether drawings are fetched as pictures, from files that the host publishes.
    """

    def __init__(
        self,
        site: Site | None,
        slug: str = "",
        uri: str = "",
        *,
        alone: bool = False,
        clean: bool = False,
        pictures: bool = False,
    ) -> None:
        self.site, self.slug, self.uri, self.alone, self.clean = site, slug, uri, alone, clean
        self.islands = Islands(site.picture_size if site and pictures else None)
        self.own = Own(self.islands)
        self.waiting: Waiting | None = None
        """Takes what may wait beside the page, where the host publishes files there."""
        self.policy = ""
        """What a browser may run and fetch on it, where the host writes that into the page."""
        self.unknown: list[str] = []
        """What was asked for and is not there, one sentence each."""

    @property
    def is_method_page(self) -> bool:
        """Whether this is the page of a method's own file, not one made beside it."""
        return bool(self.site and self.slug and self.site.places.methods[self.slug].page == self.uri)

    @property
    def path(self) -> str:
        """The file that the page is about, as problems show it."""
        return self.site.handbook.entries[self.slug].path if self.site and self.slug else self.uri or "this page"

    def failed(self, problem: Problem) -> d.Blocks:
        """Note what the program failed at; what stands in the place of what could not be made."""
        if self.site is not None:
            self.site.mishaps.append(problem)
        return (
            d.Box("problem", "This could not be made", (d.Paragraph((d.Text(f"{problem.what}; {problem.remedy}."),)),)),
        )

    def tree(self, fence: Fence, number: int) -> d.Blocks:
        """What stands in place of a fence; `number` counts the page's own blocks from 0."""
        doing = f"the `{fence.info.split()[0]}` block of the page could not be shown"
        return through(self.path, doing, lambda: self._tree(fence, number), self.failed)

    def _tree(self, fence: Fence, number: int) -> d.Blocks:
        if fence.info.split()[0] == "methodsheet":
            return self._requested(fence)
        kind = kind_of(fence)
        block = self._block(fence, number)
        if self.site is None or block is None:
            self.unknown.append(f"line {fence.line}: the `{kind}` block is not worked out")
            why = "It belongs to no method of the handbook: the page needs a `method:` in its front matter."
            return (missing_box(kind, why), d.Listing(tuple((d.Code(line),) for line in fence.body), kind="source"))
        return self.site.block(self.slug, block, self.uri)

    def _requested(self, fence: Fence) -> d.Blocks:
        request = Request.read(fence.body)
        if self.site is None:
            self.unknown.append(f"line {fence.line}: no handbook is at hand for page `{request.page}`")
            return (missing_box("methodsheet", "No handbook is at hand; name its folder in the option `methods`."),)
        try:
            return self.site.tree(request, self.uri)
        except KeyError as missing:
            self.unknown.append(f"line {fence.line}: {missing.args[0]}")
            return (missing_box("methodsheet", f"There is {missing.args[0]}."),)

    def _block(self, fence: Fence, number: int) -> BlockPlace | None:
        """The block of the method's file that a fence of the page is: the one of its number, if it says the same."""
        if self.site is None or not self.slug:
            return None
        blocks = self.site.blocks_of(self.slug)
        if number < len(blocks) and blocks[number].says(fence.body):
            return blocks[number]
        return next((block for block in blocks if block.kind == kind_of(fence) and block.says(fence.body)), None)

    def quote(self, expression: str) -> d.Inline | None:
        """What a `{{ … }}` stands for; None if it is not one of ours."""
        if self.site is None or not self.slug:
            return None
        return self.site.quote(self.slug, expression)


class MethodSheetsExtension(Extension):
    """Shows the blocks of method files worked out.

    A host that evaluates the handbook itself sets `page` before each page and fills the islands last. Any other host
    gives the options; the handbook is then evaluated when the first block is met.
    """

    def __init__(self, **options: Any) -> None:
        self.config = {
            "methods": ["methods", "Folder of the method files, from the folder the host runs in"],
            "workshops": ["", "Folder of the workshops; by default `workshops` in the folder of the methods"],
            "folder": ["methods", "Folder of the generated pages within the site"],
            "cache": ["", "File that keeps what was worked out; empty keeps nothing"],
            "trust_authors": [False, "Whether all markup of the authors is let through, scripts as well"],
        }
        self.page: Page | None = None
        self.fill: Callable[[str], str] | None = None
        super().__init__(**options)

    def extendMarkdown(self, md: Markdown) -> None:
        """Register with the host's Markdown."""
        on_demand = OnDemand(self.getConfigs())
        current = Current(self, on_demand)
        lifted = Lifted(md, current)
        md.preprocessors.register(lifted, "methodsheets", PRIORITY)
        md.parser.blockprocessors.register(Placed(md.parser, current), "methodsheets", 175)
        md.inlinePatterns.register(Quoted(_QUOTE, md, current), "methodsheets", 185)
        md.treeprocessors.register(PutIn(md, current), "methodsheets", PUT_IN)
        md.treeprocessors.register(TakenOut(md, current), "methodsheets-out", TAKEN_OUT)
        md.postprocessors.register(Joined(md, current), "methodsheets", -1000)
        md.registerExtension(self)
        at_the_door(md, current)


def at_the_door(md: Markdown, current: Current) -> None:
    """Let nothing that happens while one page is made out of it: the page says so, and the others are made."""
    convert = md.convert

    def careful(source: str) -> str:
        def failed(problem: Problem) -> str:
            md.reset()
            page = current.extension.page or current.page
            found = elements(page.failed(problem), page.islands, str)
            return "".join(tostring(one, "unicode", method="html") for one in found)

        page = current.extension.page
        if page is None or not page.slug:
            return convert(source)
        return through(page.path, "the page could not be made", lambda: convert(source), failed)

    setattr(md, "convert", careful)  # noqa: B010  the host calls it by this name


class Current:
    """The page at hand: the one that the host set, or one found from the text by evaluating on demand."""

    def __init__(self, extension: MethodSheetsExtension, on_demand: OnDemand) -> None:
        self.extension, self.on_demand = extension, on_demand
        self.page = Page(None)
        self.trees: dict[str, d.Blocks] = {}

    def start(self, md: Markdown, text: str, *, wanted: bool) -> None:
        """Begin a new text; a handbook is evaluated on demand only if the text wants something of ours."""
        self.trees = {}
        given = self.extension.page
        if given is None:
            given = self.on_demand.page(md, text) if wanted else Page(None)
        self.page = given

    @property
    def filled_here(self) -> bool:
        """Whether drawings are put in by this extension, not later by the host."""
        return self.extension.page is None


class Lifted(Preprocessor):
    """Takes our blocks out of the text and leaves a mark for each."""

    def __init__(self, md: Markdown, current: Current) -> None:
        super().__init__(md)
        self.current = current

    def run(self, lines: list[str]) -> list[str]:
        """Return the lines with marks in place of blocks."""
        text = "\n".join(lines)
        fences = scan("\n" + text).fences if "```" in text or "~~~" in text else ()
        ours = [fence for fence in fences if _is_ours(fence)]
        self.current.start(self.md, text, wanted=bool(ours) or "{{" in text)
        if not ours:
            return lines
        out: list[str] = []
        at, number = 0, 0
        for fence in ours:
            first, last = fence.line - 2, fence.end_line - 1
            out.extend(lines[at:first])
            mark = f"{_MARK.format(len(self.current.trees))}-{_key(fence)}"
            self.current.trees[mark] = self.current.page.tree(fence, number)
            number += fence.info.split()[0] != "methodsheet"
            out += ["", " " * fence.indent + mark, ""]
            at = last
        return [*out, *lines[at:]]


class Placed(BlockProcessor):
    """Puts the elements of a block where its mark stands."""

    def __init__(self, parser: Any, current: Current) -> None:
        super().__init__(parser)
        self.current = current

    def test(self, parent: Element, block: str) -> bool:
        """Whether the block is one of our marks; one that is indented further belongs to the list or note around it."""
        indent = len(block) - len(block.lstrip(" "))
        return indent < (self.tab_length or 4) and block[indent:].rstrip() in self.current.trees

    def run(self, parent: Element, blocks: list[str]) -> None:
        """Put the elements in."""
        tree, page = self.current.trees[blocks.pop(0).strip()], self.current.page
        parent.append(page.own.wait(elements(tree, page.islands, AtomicString)))


class Quoted(InlineProcessor):
    """`{{ name }}` in prose: the value, with its unit; never in code."""

    def __init__(self, pattern: str, md: Markdown, current: Current) -> None:
        super().__init__(pattern, md)
        self.current = current

    def handleMatch(self, m: re.Match[str], data: str) -> tuple[Element | None, int | None, int | None]:  # type: ignore[override]
        page = self.current.page
        content = page.quote(m.group(1))
        if content is None:
            return None, None, None
        return page.own.wait([inline_element(content, page.islands, AtomicString)], "span"), m.start(0), m.end(0)


class PutIn(Treeprocessor):
    """Puts our elements into the tree, so that the host sees their headings and links."""

    def __init__(self, md: Markdown, current: Current) -> None:
        super().__init__(md)
        self.current = current

    def run(self, root: Element) -> None:
        """Put the elements in, and point from words of the trade to their meaning."""
        page = self.current.page
        page.own.put_in(root)
        _plain_headings(root)
        target = page.site.places.at(page.uri).page("glossary") if page.site and page.is_method_page else ""
        if target:
            for link in explain_words(root, target, AtomicString):
                page.own.mark(link)


def _plain_headings(root: Element) -> None:
    """Leave only words in headings, so that the table of contents reads them as they are."""
    for level in ("h1", "h2", "h3", "h4", "h5", "h6"):
        for heading in root.iter(level):
            for parent in list(heading.iter()):
                for child in list(parent):
                    if "ms-other" in (child.get("class") or ""):
                        parent.remove(child)


class TakenOut(Treeprocessor):
    """Takes our elements out again, last of all, so that what is left is the author's."""

    def __init__(self, md: Markdown, current: Current) -> None:
        super().__init__(md)
        self.current = current

    def run(self, root: Element) -> None:
        """Leave places where our elements were."""
        self.current.page.own.take_out(root)


class Joined(Postprocessor):
    """Cleans the author's part and joins ours to it; puts drawings in where the host does not do so itself."""

    def __init__(self, md: Markdown, current: Current) -> None:
        super().__init__(md)
        self.current = current

    def run(self, text: str) -> str:
        """Return the text with everything in its place."""
        page = self.current.page
        whole = page.own.join(text, clean=page.clean)
        if not self.current.filled_here or page.site is None:
            return whole
        return page.islands.fill(whole, page.site.handbook.svg)


def _is_ours(fence: Fence) -> bool:
    words = fence.info.split()
    return bool(words) and not fence.quoted and (bool(kind_of(fence)) or words[0] == "methodsheet")


def _key(fence: Fence) -> str:
    import hashlib

    return hashlib.sha256("\n".join((str(fence.line), *fence.body)).encode()).hexdigest()[:8]


def makeExtension(**options: Any) -> MethodSheetsExtension:
    """What Python-Markdown asks for by the extension's name."""
    return MethodSheetsExtension(**options)


__all__ = ["MethodSheetsExtension", "Page", "blocks_of", "makeExtension"]
