"""What is on a page, whatever program publishes it? A small tree of frozen records.

The modules of this room build such trees from evaluated methods; `elements` turns a tree into markup elements.
Because the records compare by value, two workshops whose sheets say the same thing give equal trees (`variants`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from methodsheets.formula.measure import Measure
from methodsheets.sheet.words import Words

Attributes: TypeAlias = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Text:
    """Plain words."""

    words: str


@dataclass(frozen=True)
class Strong:
    """Words that matter more than those around them."""

    content: Inline


@dataclass(frozen=True)
class Small:
    """Words that matter less: a source, a unit, an aside."""

    content: Inline


@dataclass(frozen=True)
class Code:
    """Words of a method file, shown as they are typed."""

    words: str


@dataclass(frozen=True)
class Link:
    """A link; `target` is a source path relative to the page ('bench.md', '../glossary.md#grip') or an anchor."""

    target: str
    content: Inline
    title: str = ""
    download: bool = False
    kind: str = ""


@dataclass(frozen=True)
class Quantity:
    """A number with its unit, ready in both systems."""

    measure: Measure
    split: bool = False
    """Whether number and unit are set apart, so that the number can be large."""


@dataclass(frozen=True)
class Sized:
    """Words that name a size, ready in both systems."""

    metric: str
    inch: str


@dataclass(frozen=True)
class Span:
    """A run of words with a class of its own."""

    kind: str
    content: Inline
    attributes: Attributes = ()


@dataclass(frozen=True)
class Blank:
    """A field to write a measured size or a time into, on paper or on a tablet.

    `key` names it within the sheet; `label` says what goes in; `role` tells the script what it is for.
    """

    key: str
    label: str
    role: str = "measured"
    attributes: Attributes = ()


@dataclass(frozen=True)
class Tick:
    """A box to tick."""

    key: str
    label: str


@dataclass(frozen=True)
class Choice:
    """One position of a switch that needs no script: a radio button with its words."""

    group: str
    value: str
    words: str
    chosen: bool = False


@dataclass(frozen=True)
class Button:
    """Something the script does; hidden while no script runs."""

    action: str
    words: str
    title: str = ""


@dataclass(frozen=True)
class Select:
    """A drop-down list; hidden while no script runs."""

    action: str
    label: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Field:
    """A box to type into for the script; hidden while no script runs."""

    action: str
    label: str
    value: str = ""
    kind: str = "number"


@dataclass(frozen=True)
class Markup:
    """Finished markup of a closed vocabulary (MathML or a chart of ours); kept out of the search index."""

    html: str


Inline: TypeAlias = (
    "tuple[Text | Strong | Small | Code | Link | Quantity | Sized | Span | Blank | Tick | Choice | Button | Select"
    " | Field | Markup, ...]"
)


@dataclass(frozen=True)
class Heading:
    """A heading of the page; `id` is its anchor."""

    level: int
    content: Inline
    id: str = ""
    kind: str = ""


@dataclass(frozen=True)
class Paragraph:
    """A paragraph."""

    content: Inline
    kind: str = ""


@dataclass(frozen=True)
class Column:
    """A column of a table; numbers stand to the right."""

    words: str
    number: bool = False
    unit: Measure | None = None


@dataclass(frozen=True)
class Row:
    """A row of a table; `head` makes its first cell a row heading."""

    cells: tuple[Inline, ...]
    head: bool = True
    kind: str = ""
    attributes: Attributes = ()


@dataclass(frozen=True)
class Table:
    """A table with a caption; every column has a heading and cells are never merged."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    kind: str = ""
    caption_shown: bool = True
    searched: bool = True


@dataclass(frozen=True)
class Listing:
    """A list; each item is inline content."""

    items: tuple[Inline, ...]
    ordered: bool = False
    kind: str = ""


@dataclass(frozen=True)
class Pair:
    """A label and what belongs to it, one cell of `Pairs`."""

    label: Inline
    content: Inline
    kind: str = ""
    key: str = ""


@dataclass(frozen=True)
class Pairs:
    """Labels with their values, set as a grid like the title block of a drawing.

    A cell may be a `For`, so that one value alone changes with the workshop.
    """

    cells: tuple[Pair | For, ...]
    kind: str = ""


@dataclass(frozen=True)
class Disclosure:
    """Something that opens when asked for. Never used on a bench sheet."""

    summary: Inline
    content: Blocks
    kind: str = ""
    searched: bool = False
    open: bool = False
    later: str = ""
    """What it is about, if its content may wait beside the page until it is opened: 'The working of operation 10'."""


@dataclass(frozen=True)
class Box:
    """A notice: kind 'caution', 'problem', 'warning', 'failed' or 'note'."""

    kind: str
    title: str
    content: Blocks
    id: str = ""


@dataclass(frozen=True)
class FigurePlace:
    """Where a drawing goes; the drawing itself is put in last, after the search index has been made."""

    key: str
    caption: Words
    description: str = ""
    file: str = ""
    """Relative path of the drawing as a file of its own, for a closer look."""
    kind: str = ""
    linked: bool = True
    """Whether to link to that file."""


@dataclass(frozen=True)
class Group:
    """Blocks that belong together; `tag` may be 'div', 'section', 'nav', 'header', 'footer' or 'form'."""

    kind: str
    content: Blocks
    tag: str = "div"
    id: str = ""
    attributes: Attributes = ()
    undivided: bool = False
    """Whether it differs as a whole from workshop to workshop, never in some of its blocks."""


@dataclass(frozen=True)
class For:
    """What only the named workshops see; `shown` is true for the workshop the author wrote for."""

    workshops: tuple[str, ...]
    content: Blocks | tuple[Pair, ...]
    shown: bool


@dataclass(frozen=True)
class Elsewhere:
    """Where the page lies as the readers of other workshops see it, for those who run no script.

    `choices` are keys and names of all workshops. Nothing stands here where the page holds what all of them see.
    """

    choices: tuple[tuple[str, str], ...]


Block: TypeAlias = (
    Heading | Paragraph | Table | Listing | Pairs | Disclosure | Box | FigurePlace | Group | For | Elsewhere
)
Blocks: TypeAlias = tuple[Block, ...]


def words(said: Words | str) -> Inline:
    """Words as inline content; the sizes in them change with the reader's units."""
    if isinstance(said, str):
        return (Text(said),)
    return tuple(Sized(metric, inch) if inch else Text(metric) for metric, inch in said.parts())


def value(given: Measure | Words | str) -> Inline:
    """A number or words as inline content."""
    return (Quantity(given),) if isinstance(given, Measure) else words(given)


def plain(content: Inline) -> str:
    """The words of inline content without any markup, in millimetres."""
    found = []
    for piece in content:
        if isinstance(piece, Text | Code | Choice | Button):
            found.append(piece.words)
        elif isinstance(piece, Quantity):
            found.append(piece.measure.metric)
        elif isinstance(piece, Sized):
            found.append(piece.metric)
        elif isinstance(piece, Strong | Small | Link | Span):
            found.append(plain(piece.content))
    return "".join(found)
