"""How wide is this lettering, and how is it broken into lines?

Widths are those of DejaVu Sans, which comes with matplotlib.  Every text in a drawing carries its measured width
(``textLength``), so a reader without that font sees lettering of another cut but of the same size in the same place.
"""

from __future__ import annotations

import functools
import unicodedata
from pathlib import Path
from typing import Final

import matplotlib as mpl
from matplotlib.ft2font import FT2Font, LoadFlags

HEIGHT: Final = 2.5
"""Height of capitals of ordinary lettering in mm (ISO 3098-1 nominal size 2.5); nothing is lettered smaller."""
LARGE: Final = 3.5
LEADING: Final = 1.6
"""Distance of two lines of lettering / height of capitals."""
CAPITAL: Final = 0.729
"""Height of capitals of the font / its em."""
CONDENSED: Final = 0.86
"""Lettering is set this much narrower than the font's own width, as drawing offices do."""
DESCENT: Final = 0.24
"""Depth of descenders / em."""

_FILES: Final = {"normal": "DejaVuSans.ttf", "bold": "DejaVuSans-Bold.ttf"}
_EM: Final = 1000


@functools.lru_cache(maxsize=2)
def _font(weight: str) -> FT2Font:
    font = FT2Font(str(Path(mpl.get_data_path()) / "fonts" / "ttf" / _FILES[weight]))
    font.set_size(_EM, 72)
    return font


@functools.lru_cache(maxsize=1024)
def _advance(letter: str, weight: str) -> float:
    """Advance of one letter in ems; one that the font has not as others commonly have it."""
    if not _font(weight).get_char_index(ord(letter)):
        return _elsewhere(letter)
    glyph = _font(weight).load_char(ord(letter), flags=LoadFlags.NO_HINTING)
    return float(glyph.linearHoriAdvance) / 65536 / _EM


def _elsewhere(letter: str) -> float:
    """Advance in another font: marks take none, letters of full width an em (Unicode annex 11), others as a digit."""
    if unicodedata.combining(letter) or unicodedata.category(letter) in ("Mn", "Me", "Cf"):
        return 0.0
    return (1.0 if unicodedata.east_asian_width(letter) in "WF" else _advance("0", "normal")) / CONDENSED


@functools.lru_cache(maxsize=4096)
def _ems(line: str, weight: str) -> float:
    return sum(_advance(letter, weight) for letter in line)


@functools.lru_cache(maxsize=4096)
def width(text: str, height: float = HEIGHT, weight: str = "normal") -> float:
    """Width in mm of the longest line of `text` in capitals of `height` mm; `weight` "normal" or "bold"."""
    size = height / CAPITAL * CONDENSED
    return max((_ems(line, weight) * size for line in text.split("\n")), default=0.0)


def wrap(words: str, limit: float, height: float = HEIGHT, weight: str = "normal") -> list[str]:
    """`words` broken into lines no wider than `limit` mm; one word that is wider stands alone."""
    rows: list[str] = []
    for word in words.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and width(longer, height, weight) <= limit:
            rows[-1] = longer
        else:
            rows.append(word)
    return rows


def shortened(words: str, limit: float, rows: int, height: float = HEIGHT) -> list[str]:
    """`words` in at most `rows` lines of `limit` mm; what does not fit is replaced by an ellipsis."""
    lines = wrap(words, limit, height)
    if len(lines) <= rows:
        return lines
    last = lines[rows - 1]
    while last and width(last + " …", height) > limit:
        last = last.rpartition(" ")[0]
    return [*lines[: rows - 1], (last + " …").strip()]
