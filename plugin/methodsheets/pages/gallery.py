"""What kinds of pictures are there? One of each, on a page to look through."""

from __future__ import annotations

from collections.abc import Iterable

from methodsheets.handbook.gallery import Example
from methodsheets.sheet.words import Words

from . import document as d


def gallery_blocks(examples: Iterable[Example]) -> d.Blocks:
    """One example of each figure; the handbook draws all of them by itself."""
    intro = (
        "One of each kind. No picture is placed by hand: each is laid out from the numbers of a method, to scale, "
        "with wide lines for edges, narrow ones for sizes and hatching, and long-dash-dot lines for axes."
    )
    pictures = [
        block
        for one in examples
        for block in (
            d.Heading(2, d.words(one.title), id=one.key),
            d.FigurePlace(one.key, Words(one.title), one.description, linked=False),
        )
    ]
    return (d.Paragraph(d.words(intro)), *pictures)
