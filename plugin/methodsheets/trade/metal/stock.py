"""How long is each blank, how many bars does a batch want, what does it weigh and cost?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..dividing.dividing import whole
from ..form.calculation import OutOfRange, calculation, takes
from .packing import pack

SHAPES = ("round", "hexagon", "square", "flat", "tube", "octagon")


@dataclass(frozen=True)
class BarPlan:
    """How a batch of blanks is cut from bars."""

    new_bars: int
    cuts: tuple[str, ...]
    offcuts: tuple[float, ...]
    used: float
    bought: float
    lost_to_kerf: float
    share_used: float
    best: bool
    note: str


@calculation
def blank_length(
    finished: float, facing: float = 1.0, ends: float = 2, parting: float = 0.0, grip: float = 0.0
) -> float:
    """Length to cut a blank so that it can be faced, parted and held.

    Equation:
        L = l + n * f + w + g

    Parameters:
        finished: l [mm] (l > 0) finished length
        facing: f [mm] (f >= 0) allowance to clean up each end
        ends: n [1] (0 <= n <= 2, whole number) ends that are faced
        parting: w [mm] (w >= 0) width of the parting tool, when it is parted from the bar
        grip: g [mm] (g >= 0) length lost in the chuck

    Returns:
        L [mm] length length of the blank

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        A sawn end wants 1 mm or more, a cleanly parted one a few tenths (common practice).

    Example:
        >>> blank_length(50, 1, 2, parting=3)
        55.0

    Source:
        Sum of what is cut away, worked out here.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    return finished + ends * facing + parting + grip


@calculation
def pieces_from_bar(bar: float, piece: float, kerf: float, trim: float = 0.0, remnant: float = 0.0) -> float:
    """Number of equal blanks that a bar gives.

    Equation:
        n = floor((L - c - g + k) / (l + k))

    Parameters:
        bar: L [mm] (L > 0) length of the bar
        piece: l [mm] (l > 0) length of each blank
        kerf: k [mm] (k >= 0) width of the saw cut or the parting tool
        trim: c [mm] (c >= 0) cut from the end of the bar first
        remnant: g [mm] (g >= 0) end that cannot be used, such as what the chuck or saw vice holds

    Returns:
        n [1] count number of blanks

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        The last blank needs no cut when it comes out even.

    Example:
        >>> pieces_from_bar(1000, 57, 2)
        16

    Source:
        Worked out here: 16 blanks and 15 cuts are 942 mm, 17 blanks would be 1001 mm.

    Trust: exact
    """
    return max(0, math.floor(round((bar - trim - remnant + kerf) / (piece + kerf), 9)))


@calculation
@takes(lambda counts, **_: 80_000 + sum(counts) ** 2 / 4)
def bar_plan(
    lengths: Sequence[float],
    counts: Sequence[float],
    bar: float,
    kerf: float,
    trim: float = 0.0,
    remnant: float = 0.0,
    have: Sequence[float] = (),
) -> BarPlan:
    """Cutting plan for a batch of blanks: fewest new bars, offcuts in the rack used first.

    Equation:
        U = l_a * n_a + l_b * n_b + l_m * n_m
        B = N * L + h_a + h_b
        q = U / B

    Parameters:
        lengths: l [mm, ...] (l > 0) length of each kind of blank
        counts: n [1, ...] (n >= 0, whole number) number of each
        bar: L [mm] (L > 0) length of a new bar
        kerf: k [mm] (k >= 0) width of the saw cut
        trim: c [mm] (c >= 0) cut from the end of every bar first
        remnant: g [mm] (g >= 0) end of every bar that cannot be used
        have: h [mm, ...] (h > 0) offcuts in the rack, used before a new bar is

    Returns:
        new_bars: N [1] count new bars to buy
        cuts: [text, ...] text what is cut from each piece of stock
        offcuts: [mm, ...] length what is left of each
        used: U [mm] length length of all the blanks together
        bought: B [mm] length length of the stock cut into, new and old
        lost_to_kerf: [mm] length length turned to sawdust
        share_used: q [1] ratio blanks over stock
        best: [flag] flag whether no plan with fewer bars exists
        note: [text] text how sure that is

    Raises:
        OutOfRange: a blank is longer than a bar gives, the lists differ in length, or a count is not whole.

    Validity:
        Exact for small batches and whenever the bars cannot be fewer by length alone; otherwise a good plan, marked so.

    Example:
        >>> plan = bar_plan([400, 300, 250], [2, 2, 2], bar=1000, kerf=2)
        >>> plan.new_bars, plan.best
        (2, True)

    Source:
        Worked out here: 400 + 300 + 250 and two cuts are 954 mm, twice.

    Trust: exact

    Checked: bars are cut up by counting, and no plan is printed; small cases were tried against every other
        plan.
    """
    blanks = _blanks(lengths, counts)
    longest = max(bar, *have) - trim - remnant if have else bar - trim - remnant
    for length in blanks:
        if length > longest + 1e-9:
            raise OutOfRange("lengths", length, "mm", f"at most the {longest:g} mm that a bar gives")
    room = [stock - trim - remnant + kerf for stock in (*have, bar)]
    bins, best = pack([length + kerf for length in blanks], room[:-1], room[-1])
    stocks = [(*have, bar)[min(number, len(have))] for number, _ in bins]
    held = [[blanks[item] for item in items] for _, items in bins]
    left = [_left(stock - trim, pieces, kerf) for stock, pieces in zip(stocks, held, strict=True)]
    used, bought = math.fsum(blanks), math.fsum(stocks)
    return BarPlan(
        new_bars=sum(number >= len(have) for number, _ in bins),
        cuts=tuple(f"{stock:g} mm: {_words(pieces)}" for stock, pieces in zip(stocks, held, strict=True)),
        offcuts=tuple(left),
        used=used,
        bought=bought,
        lost_to_kerf=bought - used - math.fsum(left) - trim * len(stocks),
        share_used=used / bought if bought else 0.0,
        best=best,
        note="" if best else "a good plan; one with a bar less may exist",
    )


@calculation
def bar_area(shape: str, size: float, second: float = 0.0) -> float:
    """Area of a bar's section.

    Equation:
        A = k * s ** 2

    Parameters:
        shape: [text] (one of round, hexagon, square, flat, tube, octagon) shape of the bar
        size: s [mm] (s > 0) diameter, across flats, side, or width of a flat
        second: b [mm] (b >= 0) thickness of a flat, or bore of a tube

    Returns:
        A [mm^2] area area of the section

    Raises:
        OutOfRange: a flat has no thickness, or a tube's bore is not smaller than its outside.

    Validity:
        Sharp corners. k is 0.7854 for round, 0.8660 for hexagon, 0.8284 for octagon, 1 for square; a flat is its width
        times its thickness, a tube its outside less its bore.

    Example:
        >>> round(bar_area("hexagon", 13), 2)
        146.36

    Source:
        Geometry: a hexagon has sqrt(3)/2 of the square across its flats.

    Trust: exact
    """
    kind = shape.strip().lower()
    if kind == "flat":
        if second <= 0:
            raise OutOfRange("second", second, "mm", "the thickness of the flat")
        return size * second
    if kind == "tube" and not 0 < second < size:
        raise OutOfRange("second", second, "mm", "the bore, smaller than the outside")
    factor = {"round": math.pi / 4, "tube": math.pi / 4, "square": 1.0}.get(kind)
    if kind == "hexagon":
        factor = math.sqrt(3) / 2
    elif kind == "octagon":
        factor = 2 * (math.sqrt(2) - 1)
    assert factor is not None, kind
    return factor * (size**2 - (second**2 if kind == "tube" else 0.0))


@calculation
def bar_mass(shape: str, size: float, length: float, density: float, second: float = 0.0) -> float:
    """Mass of a length of bar.

    Equation:
        m = rho * A * L

    Parameters:
        shape: [text] (one of round, hexagon, square, flat, tube, octagon) shape of the bar
        size: s [mm] (s > 0) diameter, across flats, side, or width of a flat
        length: L [mm] (L >= 0) length
        density: rho [kg/m^3] (rho > 0) density of the metal
        second: b [mm] (b >= 0) thickness of a flat, or bore of a tube

    Returns:
        m [g] mass mass

    Raises:
        OutOfRange: a flat has no thickness, or a tube's bore is not smaller than its outside.

    Validity:
        Sharp corners, nominal size. Densities of one metal differ by 1 per cent or less.

    Example:
        >>> round(bar_mass("round", 25, 100, 7850), 1)
        385.3

    Source:
        Worked out here: area, length and density.

    Trust: exact
    """
    return bar_area(shape, size, second) * length * density * 1e-6


@calculation
def price_by_mass(mass: float, price: float, cuts: float = 0, cut_price: float = 0.0) -> float:
    """Price of stock that is sold by weight.

    Equation:
        P = m * p + n * p_c

    Parameters:
        mass: m [kg] (m >= 0) mass bought
        price: p [money/kg] (p >= 0) price of a kilogram
        cuts: n [1] (n >= 0, whole number) number of saw cuts the seller charges for
        cut_price: p_c [money] (p_c >= 0) price of a cut

    Returns:
        P [money] money price

    Raises:
        OutOfRange: a value is below nothing.

    Validity:
        Your own prices, in your own money.

    Example:
        >>> price_by_mass(2.5, 4.0, 2, 1.5)
        13.0

    Source:
        Worked out here.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    return mass * price + cuts * cut_price


@calculation
def price_by_length(length: float, price: float, cuts: float = 0, cut_price: float = 0.0) -> float:
    """Price of stock that is sold by length.

    Equation:
        P = L * p + n * p_c

    Parameters:
        length: L [m] (L >= 0) length bought
        price: p [money/m] (p >= 0) price of a metre
        cuts: n [1] (n >= 0, whole number) number of saw cuts the seller charges for
        cut_price: p_c [money] (p_c >= 0) price of a cut

    Returns:
        P [money] money price

    Raises:
        OutOfRange: a value is below nothing.

    Validity:
        Your own prices, in your own money.

    Example:
        >>> price_by_length(3, 12.0)
        36.0

    Source:
        Worked out here.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    return length * price + cuts * cut_price


def _blanks(lengths: Sequence[float], counts: Sequence[float]) -> list[float]:
    """Return every blank of a batch, longest first."""
    if len(counts) != len(lengths):
        raise OutOfRange("counts", len(counts), "count", f"one for each of the {len(lengths)} lengths")
    pairs = zip(lengths, counts, strict=True)
    return sorted((length for length, count in pairs for _ in range(whole("counts", count))), reverse=True)


def _left(length: float, pieces: list[float], kerf: float) -> float:
    """Return what is left of a bar; the last cut takes its kerf from it."""
    return max(0.0, round(length - math.fsum(pieces) - kerf * len(pieces), 9))


def _words(pieces: list[float]) -> str:
    """Word what is cut from one bar: '2 x 400 + 1 x 150'."""
    return " + ".join(f"{pieces.count(length)} x {length:g}" for length in dict.fromkeys(pieces))
