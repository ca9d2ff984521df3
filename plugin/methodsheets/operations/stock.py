"""What does a stock line buy? `round 40 mm x 18 mm`, `hexagon 19 mm x 40 mm`, `from "guide-bush"` …"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass
from types import MappingProxyType

from methodsheets.geometry import Outline, SolidKernel
from methodsheets.reading.clauses import bare_characters, split_clauses
from methodsheets.reading.limits import STOCK
from methodsheets.reading.problem import MethodError, Place, did_you_mean
from methodsheets.reading.text import Text
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.stock import SPELLED, StockKind
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

_SOLID, _NUMBERS = (Change.SOLID,), (Change.NUMBERS,)
CLAUSES = (
    Clause("axis offset", "length", "where the bar's own axis lies off the part's main axis", changes=_SOLID),
    Clause("at", "angle", "direction of that offset from the 0° mark", changes=_SOLID),
    Clause("points", "points", "(length, diameter) pairs of a turned blank or a casting", changes=_SOLID),
    Clause("allowance", "length", "metal that a casting has over its drawn outline", changes=_SOLID),
    Clause(
        "bore",
        "length",
        "hole through the axis, or the middle of a block; a casting has it cored, smaller by its allowance",
        changes=_SOLID,
    ),
    Clause("kerf", "length", "width of the cut that takes the blank off the bar", changes=_NUMBERS),
    Clause("bar", "length", "length of the bar that blanks are cut from", changes=_NUMBERS),
    Clause("end allowance", "length", "length lost at the end of each bar", changes=_NUMBERS),
    Clause("price", "number", "price of one kilogram, in the workshop's currency", changes=_NUMBERS),
)
"""All that a stock line may say behind its sizes; which of them a kind takes stands in its row."""
BELONGS_TO: Mapping[str, str] = MappingProxyType({"at": "axis offset", "end allowance": "bar"})
"""A clause that says nothing without another one."""
LARGEST = STOCK
"""mm: larger stock is taken for a slip of the pen on a hobby-size machine."""
ALLOWANCE = 3.0
"""mm that a small casting has for machining where nobody says (usual, from memory)."""


@dataclass(frozen=True, kw_only=True)
class StockSaid:
    """One stock line, read: lengths in mm."""

    kind: StockKind
    place: Place
    text: str
    sizes: tuple[float, ...] = ()
    source: str = ""
    """Slug of the method whose finished piece is the stock."""
    centre: tuple[float, float] = (0.0, 0.0)
    """Where the stock's own axis lies."""
    offset: Text | None = None
    """What the author wrote of that."""
    points: tuple[tuple[float, ...], ...] = ()
    """(length, diameter) from end A."""
    allowance: float = 0.0
    """Metal over its drawn outline."""
    bore: float = 0.0
    """Diameter of the hole that is drawn right through it; 0 for none."""
    kerf: float | None = None
    bar: float | None = None
    """Length of the bar that blanks are cut from."""
    end_allowance: float = 0.0
    price: float | None = None
    """Of a kilogram."""

    @property
    def only_faces(self) -> bool:
        """Whether it is a block: a plate, or a casting that is given by its length, width and thickness."""
        return self.kind.row.only_faces or (self.kind.row.block_too and bool(self.sizes))

    @property
    def cored(self) -> float:
        """Diameter of the hole as the stock has it: a casting's is smaller than drawn, by the allowance all round."""
        return self.bore - 2 * self.allowance if self.bore else 0.0

    @property
    def length(self) -> float:
        """Length cut from the bar; 0 where it is not cut from one."""
        return self.sizes[-1] if self.kind.row.bar and self.sizes else 0.0


def read_stock(text: Text, reader: Reader) -> StockSaid:
    """Read a stock line; MethodError says what it lacks."""
    first, *rest = split_clauses(text)
    match = re.match(r"[A-Za-z-]+", first.value)
    word = match.group(0).lower() if match else ""
    kind = SPELLED.read(word)
    if kind is None:
        raise MethodError(
            first.place,
            f"no such stock (got `{first.value}`)",
            "stock starts with its kind: " + ", ".join(StockKind),
            did_you_mean(word, StockKind) if word else "write e.g. `round 40 mm x 18 mm`",
            code="unknown-stock",
        )
    sizes_text = first.cut(match.end() if match else 0)
    clauses = Text(text.value[len(first.value) :].lstrip(" ,"), rest[0].place if rest else text.place)
    said = read_clauses(clauses, None, CLAUSES, reader, "stock") if rest else Said(text.place, text)
    block = kind.row.block_too and bool(sizes_text.value) and not said.has("points")
    _no_idle_clause(StockKind.PLATE.row.clauses | {"allowance", "bore"} if block else kind.row.clauses, said)
    if kind.row.elsewhere:
        price = _not_below(said, "price")
        return StockSaid(kind=kind, place=text.place, text=text.value, source=reader.words(sizes_text), price=price)
    sizes = block_sizes(sizes_text, reader) if block else _sizes(kind, sizes_text, reader)
    if kind.row.outline and not block and "points" not in said:
        raise MethodError(
            first.place,
            f"a {kind} blank needs its outline (got `{text.value}`)",
            "(length, diameter) pairs from end A",
            "add `points (0 mm, 20 mm), (15 mm, 20 mm)`",
            code="missing-clause",
        )
    return _bought_so(kind, text, sizes, said)


def _bought_so(kind: StockKind, text: Text, sizes: tuple[float, ...], said: Said) -> StockSaid:
    """The stock with what its clauses say."""
    off, at = said.get("axis offset", 0.0), math.radians(said.get("at", 0.0))
    stock = StockSaid(
        kind=kind,
        place=text.place,
        text=text.value,
        sizes=sizes,
        # End A looks at you in the first set-up: angles run the other way about z of the work.
        centre=(off * math.cos(at), -off * math.sin(at)),
        offset=said.texts.get("axis offset"),
        points=said.get("points", ()),
        allowance=_allowance(said, rough=kind.row.rough),
        bore=_not_below(said, "bore") or 0.0,
        kerf=_not_below(said, "kerf"),
        bar=_not_below(said, "bar"),
        end_allowance=_not_below(said, "end allowance") or 0.0,
        price=_not_below(said, "price"),
    )
    if stock.bore:
        _with_walls(stock, said)
    if stock.bar is not None and stock.bar - stock.end_allowance < stock.length:
        raise MethodError(
            said.where("bar"),
            f"the bar gives no blank: {number(stock.bar - stock.end_allowance)} mm of it are left, and a blank is "
            f"{number(stock.length)} mm long",
            "a bar is at least as long as one blank",
            "check the length of the bar",
            code="wrong-value",
        )
    return stock


def _with_walls(stock: StockSaid, said: Said) -> None:
    """Refuse a hole that closes with the metal that is left on for machining, or that leaves no wall."""
    least = min((*stock.sizes[:2], *(point[1] for point in stock.points)))
    if stock.cored > 0 and stock.bore < least:
        return
    what = f"a bore of {number(stock.bore)} mm leaves no wall in {number(least)} mm"
    rule, remedy = "a bore is smaller than the work", "check the diameters"
    if stock.cored <= 0:
        what = f"a bore of {number(stock.bore)} mm closes with {number(stock.allowance)} mm left on all round"
        rule = "a hole is cored smaller than it is bored, by the allowance"
        remedy = "leave `bore` out: so small a hole is cast solid and drilled"
    raise MethodError(
        said.where("bore"), f"{what} (got `{said.texts['bore'].value}`)", rule, remedy, code="wrong-value"
    )


def _allowance(said: Said, *, rough: bool) -> float:
    """Metal that a casting has over its outline: what is said, above 0; the usual where nothing is said."""
    value = _not_below(said, "allowance")
    if value is None:
        return ALLOWANCE if rough else 0.0
    if value == 0:
        raise MethodError(
            said.where("allowance"),
            f"a casting without metal over its outline (got `allowance {said.texts['allowance'].value}`)",
            "`allowance` is above 0: its skin is turned or milled away",
            "write what the pattern leaves on, or leave the clause out for the usual",
            code="wrong-value",
        )
    return value


def _not_below(said: Said, word: str) -> float | None:
    """The value of a clause that cannot be below 0; None where it was not said."""
    value = said.get(word)
    if value is not None and value < 0:
        raise MethodError(
            said.where(word),
            f"`{word}` is below 0 (got `{said.texts[word].value}`)",
            "0 or more",
            "check the number",
            code="wrong-value",
        )
    return None if value is None else float(value)


def _no_idle_clause(taken: Set[str], said: Said) -> None:
    """Refuse a clause that means nothing for this kind of stock, or without the clause that it belongs to."""
    for word in said.values:
        needs = BELONGS_TO.get(word, word)
        if word in taken and said.has(needs):
            said.get(word)
    said.all_asked("stock", CLAUSES)


def block_sizes(text: Text, reader: Reader) -> tuple[float, ...]:
    """Length, width and thickness of a block, in mm."""
    return _sizes(StockKind.PLATE, text, reader)


def _sizes(kind: StockKind, text: Text, reader: Reader) -> tuple[float, ...]:
    wanted = kind.row.sizes
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
    if not upright and stock.kind in LYING:
        if stock.offset is not None:
            raise MethodError(
                stock.offset.place,
                f"`axis offset` changes nothing in this `stock` (got `{stock.offset.value}`)",
                "the set-up takes the bar by its faces, and a block has no axis",
                "take it away, or hold the bar about its axis",
                code="idle-clause",
            )
        return LYING[stock.kind](kernel, stock)
    return UPRIGHT[stock.kind](kernel, stock)


def _outline(stock: StockSaid) -> Outline:
    points = [(d / 2, s) for s, d in (p[:2] for p in stock.points)]
    inner = stock.bore / 2
    return Outline((inner, points[0][1]), *points, (inner, points[-1][1]))


def _cast(kernel: SolidKernel, stock: StockSaid) -> Stock:
    """A casting larger all round than it is drawn: a turned one by its outline, or a block by its sizes."""
    if not stock.sizes:
        return casting(kernel, _outline(stock), stock.allowance, centre=stock.centre)
    return plate(kernel, *(size + 2 * stock.allowance for size in stock.sizes), bore=stock.cored)


Maker = Callable[[SolidKernel, StockSaid], Stock]
UPRIGHT: Mapping[StockKind, Maker] = MappingProxyType(
    {
        StockKind.ROUND: lambda kernel, stock: round_bar(kernel, *stock.sizes, centre=stock.centre),
        StockKind.HEXAGON: lambda kernel, stock: hexagon_bar(kernel, *stock.sizes, centre=stock.centre),
        StockKind.SQUARE: lambda kernel, stock: square_bar(kernel, *stock.sizes, centre=stock.centre),
        StockKind.FLAT: lambda kernel, stock: flat_bar(kernel, *stock.sizes, centre=stock.centre),
        StockKind.TUBE: lambda kernel, stock: tube(kernel, *stock.sizes, centre=stock.centre),
        StockKind.PLATE: lambda kernel, stock: plate(kernel, *stock.sizes),
        StockKind.TURNED: lambda kernel, stock: turned_blank(kernel, _outline(stock), centre=stock.centre),
        StockKind.CASTING: _cast,
    }
)
"""Stock along z, as it turns; `from` is laid by the method that it comes from."""
LYING: Mapping[StockKind, Maker] = MappingProxyType(
    {
        StockKind.SQUARE: lambda kernel, stock: plate(kernel, stock.sizes[1], stock.sizes[0], stock.sizes[0]),
        StockKind.FLAT: lambda kernel, stock: plate(kernel, stock.sizes[2], stock.sizes[0], stock.sizes[1]),
    }
)
"""Bars with flats that are held as a block, their length left to right."""
