"""What did the author write, and exactly where: words that remember their place."""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.reading.problem import Place

BLANKS = str.maketrans(dict.fromkeys("\u00a0\u2007\u2009\u202f", " "))
"""Blanks that look like any other and come along when text is copied from a page or typed on a telephone."""


@dataclass(frozen=True)
class Text:
    """Words of the author with the place of their first character."""

    value: str
    place: Place

    def __str__(self) -> str:
        return self.value

    def __bool__(self) -> bool:
        return bool(self.value)

    def at(self, offset: int) -> Place:
        """The place of the character at `offset`; later lines of the text count from column 1."""
        before = self.value[:offset]
        breaks = before.count("\n")
        if not breaks:
            return self.place.right(offset)
        return Place(self.place.path, self.place.line + breaks, offset - before.rfind("\n"))

    def cut(self, start: int, end: int | None = None) -> Text:
        """The part from `start` to `end` without the blanks round it, at its own place."""
        piece = self.value[start:end]
        lead = len(piece) - len(piece.lstrip())
        return Text(piece.strip(), self.at(start + lead))


def text(value: str, path: str = "expression", line: int = 1, column: int = 1) -> Text:
    """Words that come from no file, such as a line typed on the command line or a test."""
    return Text(value, Place(path, line, column))
