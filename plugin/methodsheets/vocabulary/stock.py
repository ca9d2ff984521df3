"""Which kinds of stock are there, which sizes is each ordered by, and what may be said of it?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .spelling import Words, said


class StockKind(StrEnum):
    """A kind of stock, as a stock line begins with it."""

    ROUND = "round"
    HEXAGON = "hexagon"
    SQUARE = "square"
    FLAT = "flat"
    TUBE = "tube"
    PLATE = "plate"
    TURNED = "turned"
    CASTING = "casting"
    FROM = "from"

    @property
    def row(self) -> StockRow:
        """All that is known of it."""
        return STOCKS[self]


@dataclass(frozen=True, kw_only=True)
class StockRow:
    """What the rooms ask of a kind of stock."""

    words: tuple[str, ...]
    """What it is called, the usual name first."""
    sizes: tuple[str, ...] = ()
    """The sizes that it is ordered by, in the order in which they are written, with x between."""
    clauses: frozenset[str]
    """The clauses of a stock line that mean something for it."""
    bar: bool = False
    """Whether blanks are sawn off a bar of it: its last size is the length of a blank."""
    round: bool = False
    """Whether its first size is a diameter."""
    outline: bool = False
    """Whether `points` say its shape, where no sizes do."""
    block_too: bool = False
    """Whether it may be a block by its length, width and thickness instead."""
    rough: bool = False
    """Whether its skin is hard and uneven: the first cut goes under it, and it bears on three points."""
    only_faces: bool = False
    """Whether it has faces only, and no axis that it could turn about of itself."""
    lies: bool = False
    """Whether it is a bar with flats that a vice takes by its faces, its length left to right."""
    elsewhere: bool = False
    """Whether it is what another method has made."""


_OFF = {"axis offset", "at"}
_BAR = frozenset({"kerf", "bar", "end allowance", "price", *_OFF})
_SHAPED = frozenset({"points", "bore", "price", *_OFF})

STOCKS: Mapping[StockKind, StockRow] = MappingProxyType(
    {
        StockKind.ROUND: StockRow(
            words=said("round, bar"), sizes=("diameter", "length"), clauses=_BAR, bar=True, round=True
        ),
        StockKind.HEXAGON: StockRow(
            words=said("hexagon, hex"), sizes=("size across flats", "length"), clauses=_BAR, bar=True
        ),
        StockKind.SQUARE: StockRow(words=said("square"), sizes=("side", "length"), clauses=_BAR, bar=True, lies=True),
        StockKind.FLAT: StockRow(
            words=said("flat"), sizes=("width", "thickness", "length"), clauses=_BAR, bar=True, lies=True
        ),
        StockKind.TUBE: StockRow(
            words=said("tube"), sizes=("outside diameter", "bore", "length"), clauses=_BAR, bar=True, round=True
        ),
        StockKind.PLATE: StockRow(
            words=said("plate, sheet, block"),
            sizes=("length", "width", "thickness"),
            clauses=frozenset({"price"}),
            only_faces=True,
        ),
        StockKind.TURNED: StockRow(words=said("turned, blank"), clauses=_SHAPED, outline=True),
        StockKind.CASTING: StockRow(
            words=said("casting, cast"), clauses=_SHAPED | {"allowance"}, outline=True, block_too=True, rough=True
        ),
        StockKind.FROM: StockRow(words=said("from"), clauses=frozenset({"price"}), elsewhere=True),
    }
)
"""Every kind of stock."""

SPELLED: Words[StockKind] = Words({kind: row.words for kind, row in STOCKS.items()})
"""Reads a kind of stock in the author's words."""
