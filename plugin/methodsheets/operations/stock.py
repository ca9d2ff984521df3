"""What does a stock line buy? `round 40 mm x 18 mm`, `hexagon 19 mm x 40 mm`, `from "guide-bush"` …"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from methodsheets.geometry import Outline, SolidKernel
from methodsheets.reading.clauses import bare_characters, split_clauses
from methodsheets.reading.limits import STOCK
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.reading.text import Text
from methodsheets.workpiece import (
    Stock,
    casting,
    flat_bar,
    hexagon_bar,
    plate,
    round_bar,
    square_bar,
    tube,
    turned_blank,
)

from .say import number
from .words import Clause, Reader, Said, read_clauses

SIZES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "round": ("diameter", "length"),
        "hexagon": ("size across flats", "length"),
        "square": ("side", "length"),
        "flat": ("width", "thickness", "length"),
        "tube": ("outside diameter", "bore", "length"),
        "plate": ("length", "width", "thickness"),
        "turned": (),
        "casting": (),
        "from": (),
    }
)
"""Kinds of stock and the sizes each is ordered by, in the order in which they are written, with x between."""

CLAUSES = (
    Clause("axis offset", "length", "where the bar's own axis lies off the part's main axis"),
    Clause("at", "angle", "direction of that offset from the 0° mark"),
    Clause("points", "points", "(length, diameter) pairs of a turned blank or a casting"),
    Clause("allowance", "length", "metal that a casting has over its drawn outline"),
    Clause("kerf", "length", "width of the cut that takes the blank off the bar"),
    Clause("bar", "length", "length of the bar that blanks are cut from"),
    Clause("end allowance", "length", "length lost at the end of each bar"),
    Clause("price", "number", "price of one kilogram, in the workshop's currency"),
)
LARGEST = STOCK
"""mm: larger stock is taken for a slip of the pen on a hobby-size machine."""


@dataclass(frozen=True)
class StockSaid:
    """One stock line, read: its kind, its sizes in mm, its clauses."""

    kind: str
    sizes: tuple[float, ...]
    said: Said
    source: str = ""
    """Slug of the method whose finished piece is the stock."""
    text: str = ""
    named: Mapping[str, float] = field(default_factory=dict)

    @property
    def centre(self) -> tuple[float, float]:
        """Where the stock's own axis lies."""
        import math

        off, at = self.said.get("axis offset", 0.0), math.radians(self.said.get("at", 0.0))
        # End A looks at you in the first set-up: angles run the other way about z of the work.
        return (off * math.cos(at), -off * math.sin(at))

    @property
    def length(self) -> float:
        """Length cut from the bar; 0 where it is not cut from one."""
        return self.sizes[-1] if self.kind in ("round", "hexagon", "square", "flat", "tube") and self.sizes else 0.0


def read_stock(text: Text, reader: Reader) -> StockSaid:
    """Read a stock line; MethodError says what it lacks."""
    first, *rest = split_clauses(text)
    match = re.match(r"[A-Za-z-]+", first.value)
    kind = match.group(0).lower() if match else ""
    kind = {
        "hex": "hexagon",
        "bar": "round",
        "sheet": "plate",
        "block": "plate",
        "cast": "casting",
        "blank": "turned",
    }.get(kind, kind)
    if kind not in SIZES:
        raise MethodError(
            first.place,
            f"no such stock (got `{first.value}`)",
            "stock starts with its kind: " + ", ".join(SIZES),
            did_you_mean(kind, SIZES) if kind else "write e.g. `round 40 mm x 18 mm`",
            code="unknown-stock",
        )
    sizes_text = first.cut(match.end() if match else 0)
    clauses = Text(text.value[len(first.value) :].lstrip(" ,"), rest[0].place if rest else text.place)
    said = read_clauses(clauses, None, CLAUSES, reader, "stock") if rest else Said(text.place, text)
    if kind == "from":
        return StockSaid(kind, (), said, reader.words(sizes_text), text.value)
    sizes = _sizes(kind, sizes_text, reader)
    if kind in ("turned", "casting") and "points" not in said:
        raise MethodError(
            first.place,
            f"a {kind} blank needs its outline (got `{text.value}`)",
            "(length, diameter) pairs from end A",
            "add `points (0 mm, 20 mm), (15 mm, 20 mm)`",
            code="missing-clause",
        )
    return StockSaid(kind, sizes, said, "", text.value, dict(zip(SIZES[kind], sizes, strict=True)))


def _sizes(kind: str, text: Text, reader: Reader) -> tuple[float, ...]:
    wanted = SIZES[kind]
    parts = [part for part in _by_x(text) if part.value]
    if len(parts) != len(wanted):
        example = " x ".join(f"{20 - 4 * i} mm" for i in range(len(wanted)))
        raise MethodError(
            text.place,
            f"{kind} stock has {len(wanted)} sizes: {', '.join(wanted)} (got {len(parts)})"
            if wanted
            else f"{kind} stock has no sizes here (got `{text.value}`)",
            "in that order, x between",
            f"write e.g. `{kind} {example}`",
            code="missing-stock-size",
        )
    sizes = tuple(reader.length(part) for part in parts)
    for part, size, name in zip(parts, sizes, wanted, strict=True):
        if not 0 < size <= LARGEST:
            raise MethodError(
                part.place,
                f"the {name} of the stock is {number(size)} mm (got `{part.value}`)",
                f"more than 0 and at most {LARGEST:,} mm",
                "check the number and its unit",
                code="wrong-value",
            )
    return sizes


def _by_x(text: Text) -> list[Text]:
    """Cut `40 mm x 18 mm` at its x."""
    value = text.value
    cuts = [
        i
        for i, c in bare_characters(value)
        if c in "xX×" and value[i - 1 : i].isspace() and value[i + 1 : i + 2].isspace()
    ]
    starts = [0, *(i + 1 for i in cuts)]
    return [text.cut(a, b) for a, b in zip(starts, [*cuts, None], strict=True)]


def lay_stock(kernel: SolidKernel, stock: StockSaid, *, upright: bool) -> Stock:
    """The stock as a solid. `upright`: along z for turning; else as a block, its length left to right.

    Raises ValueError where the sizes make no solid (a tube without a wall).
    """
    sizes, centre = stock.sizes, stock.centre
    makers: dict[str, Callable[[], Stock]] = {
        "round": lambda: round_bar(kernel, *sizes, centre=centre),
        "hexagon": lambda: hexagon_bar(kernel, *sizes, centre=centre),
        "square": lambda: (
            square_bar(kernel, *sizes, centre=centre) if upright else plate(kernel, sizes[1], sizes[0], sizes[0])
        ),
        "flat": lambda: (
            flat_bar(kernel, *sizes, centre=centre) if upright else plate(kernel, sizes[2], sizes[0], sizes[1])
        ),
        "tube": lambda: tube(kernel, *sizes, centre=centre),
        "plate": lambda: plate(kernel, *sizes),
        "turned": lambda: turned_blank(kernel, _outline(stock), centre=centre),
        "casting": lambda: casting(kernel, _outline(stock), stock.said.get("allowance", 3.0), centre=centre),
    }
    return makers[stock.kind]()


def _outline(stock: StockSaid) -> Outline:
    points = [(d / 2, s) for s, d in (p[:2] for p in stock.said.get("points"))]
    return Outline((0.0, points[0][1]), *points, (0.0, points[-1][1]))
