"""How is a number divided that no hole circle divides?"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import NotInTable, calculation
from .dividing import Indexing, circles_of, divide, plates_of, whole

HEAD_GEARS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)
"""Change gears that usually come with a universal dividing head (from memory)."""

Train = tuple[int, int, int, int]
"""Spindle gear, first and second stud gear (0 in a simple train), worm gear: driver, driven, driver, driven."""


@dataclass(frozen=True)
class CompoundIndexing:
    """Two movements for each division, on two circles of one plate."""

    plate: str
    circle: int
    holes: int
    plate_circle: int
    plate_holes: int
    exact: bool
    error: float
    error_all_round: float
    directions: str


@dataclass(frozen=True)
class DifferentialIndexing:
    """Plain indexing for a near number, while gears turn the plate to make up the difference."""

    set_for: int
    turns: int
    holes: int
    circle: int
    gear_ratio: float
    spindle_gear: int
    worm_gear: int
    first_stud_gear: int
    second_stud_gear: int
    idlers: int
    plate_turns: str


@calculation
def compound_indexing(
    divisions: float, ratio: float = 40, plates: str = "three plates", circles: Sequence[float] = ()
) -> CompoundIndexing:
    """Compound indexing: the crank moves on one circle, then crank and plate together on another.

    Equation:
        a = 2 * pi / i * (h_1 / c_1 + h_2 / c_2 - i / N)

    Table: dividing_plates

    Parameters:
        divisions: N [1] (N >= 2, whole number) number of divisions
        ratio: i [1] (i >= 1) turns of the crank for one turn of the work
        plates: [text] set of plates
        circles: [1, ...] (c >= 1, whole number) circles of the one plate you have, over the set named

    Returns:
        plate: [text] text the plate to put on
        circle: c_1 [1] count circle for the crank
        holes: h_1 [1] count spaces the crank moves on it
        plate_circle: c_2 [1] count circle for the plate's own stop
        plate_holes: h_2 [1] count spaces the plate moves with the crank; below nothing the other way
        exact: [flag] flag whether the two make up the division exactly
        error: a [deg] angle error of each division; nothing when exact
        error_all_round: [deg] angle what the errors add up to
        directions: [text] text the two movements in words

    Raises:
        OutOfRange: a value is not a whole number.
        NotInTable: there is no such set of plates, or no plate has two circles.

    Validity:
        Needs a head whose plate can be let go and pinned from behind. Every division is two movements: count twice.
        Nearest pair where none is exact.

    Example:
        >>> step = compound_indexing(69, circles=[23, 33])
        >>> step.circle, step.holes, step.plate_circle, step.plate_holes, step.exact
        (23, 21, 33, -11, True)

    Source:
        21/23 - 11/33 = 40/69: handbook example, from memory; checked by arithmetic.

    Trust: exact
    """
    n, i = whole("divisions", divisions), whole("ratio", ratio)
    on = (("", circles_of(plates, circles)),) if circles else plates_of(plates)
    wanted = Fraction(i, n)
    found = [pair for plate, plate_circles in on for pair in _pairs(wanted, plate, plate_circles)]
    if not found:
        raise NotInTable("two circles", "pair of circles on one plate", ())
    error, _, plate_name, one, one_holes, two, two_holes = min(found)
    exact = error == 0
    off = float((Fraction(one_holes, one) + Fraction(two_holes, two) - wanted) * 360 / i)
    way = "the same way" if two_holes >= 0 else "the other way"
    return CompoundIndexing(
        plate=plate_name,
        circle=one,
        holes=one_holes,
        plate_circle=two,
        plate_holes=two_holes,
        exact=exact,
        error=off,
        error_all_round=off * n,
        directions=f"crank {one_holes} spaces on {one}, then crank and plate {abs(two_holes)} spaces on {two} {way}",
    )


@calculation
def differential_indexing(
    divisions: float,
    ratio: float = 40,
    plates: str = "three plates",
    circles: Sequence[float] = (),
    gears: Sequence[float] = HEAD_GEARS,
) -> DifferentialIndexing:
    """Differential indexing: plain indexing for a near number, with gears that turn the plate.

    Equation:
        N_s = N + j
        g = abs(i * (N_s - N) / N_s)

    Table: dividing_plates

    Parameters:
        divisions: N [1] (N >= 2, whole number) number of divisions
        ratio: i [1] (i >= 1) turns of the crank for one turn of the work
        plates: [text] set of plates
        circles: [1, ...] (c >= 1, whole number) hole circles you have, over the set named
        gears: [1, ...] (z >= 10, whole number) teeth of the change gears you have, each as often as you have it

    Returns:
        set_for: N_s [1] count number the crank is set for
        turns: [1] count whole turns of the crank
        holes: [1] count and this many spaces
        circle: [1] count on this circle
        gear_ratio: g [1] ratio turns of the plate for one turn of the work
        spindle_gear: [1] count teeth of the gear on the spindle
        worm_gear: [1] count teeth of the gear on the worm shaft
        first_stud_gear: [1] count driven gear on the stud; 0 for a simple train
        second_stud_gear: [1] count driving gear on the stud; 0 for a simple train
        idlers: [1] count idlers, on a head whose simple train with one idler turns the plate with the crank
        plate_turns: [text] text whether the plate turns with the crank or against it

    Raises:
        OutOfRange: a value is not a whole number.
        NotInTable: no train of the gears given does it.

    Validity:
        Exact. j is the smallest step to a number that plates and gears can do. The idlers are those of the usual
        pattern of head: check which way the plate turns before you cut. The head cannot be tilted or cut a helix at
        the same time.

    Example:
        >>> step = differential_indexing(127)
        >>> step.set_for, step.holes, step.circle, step.spindle_gear, step.worm_gear, step.plate_turns
        (120, 5, 15, 56, 24, 'against the crank')

    Source:
        Handbook table of differential indexing, from memory: 127 is set for 120 with gears 56 and 24; checked by
        arithmetic, 40 (120 - 127)/120 = -7/3.

    Trust: exact
    """
    n, i = whole("divisions", divisions), whole("ratio", ratio)
    teeth = tuple(whole("gears", gear) for gear in gears)
    have = circles_of(plates, circles)
    for make in (_simple_train, _compound_train):
        for near in _near_numbers(n):
            plain = divide(near, i, circles=have)
            train = make(abs(Fraction(i * (near - n), near)), teeth) if plain.exact else None
            if train is not None:
                return _differential(n, i, near, plain, train)
    raise NotInTable(str(n), "differential indexing with these gears", ())


def _differential(n: int, i: int, near: int, plain: Indexing, train: Train) -> DifferentialIndexing:
    against, compound = near < n, train[1] > 0
    return DifferentialIndexing(
        set_for=near,
        turns=plain.turns,
        holes=plain.holes,
        circle=plain.circle,
        gear_ratio=float(abs(Fraction(i * (near - n), near))),
        spindle_gear=train[0],
        worm_gear=train[3],
        first_stud_gear=train[1],
        second_stud_gear=train[2],
        idlers=(1 if compound else 2) - (0 if against else 1),
        plate_turns="against the crank" if against else "with the crank",
    )


def _pairs(
    wanted: Fraction, plate: str, circles: tuple[int, ...]
) -> Iterator[tuple[Fraction, int, str, int, int, int, int]]:
    """Yield for each pair of circles the two movements nearest the wanted turns, with their error and holes."""
    for one, two in itertools.combinations(circles, 2):
        for one_holes in range(1, int((wanted + 1) * one) + 1):
            rest = wanted - Fraction(one_holes, one)
            two_holes = round(rest * two)
            if two_holes == 0 or abs(two_holes) >= two:
                continue
            error = abs(Fraction(two_holes, two) - rest)
            yield error, one_holes + abs(two_holes), plate, one, one_holes, two, two_holes


def _near_numbers(divisions: int) -> Iterator[int]:
    """Yield numbers round the wanted one, nearest first, the smaller first; within about a fifth."""
    for away in range(1, max(12, divisions // 5) + 1):
        if divisions - away >= 2:
            yield divisions - away
        yield divisions + away


def _simple_train(ratio: Fraction, gears: tuple[int, ...]) -> Train | None:
    """Return the two gears that make a ratio between them."""
    for driver, driven in itertools.permutations(sorted(gears), 2):
        if Fraction(driver, driven) == ratio:
            return driver, 0, 0, driven
    return None


def _compound_train(ratio: Fraction, gears: tuple[int, ...]) -> Train | None:
    """Return the four gears that make a ratio between them."""
    pairs: dict[Fraction, list[tuple[int, int]]] = {}
    for driver, driven in itertools.permutations(sorted(gears), 2):
        pairs.setdefault(Fraction(driver, driven), []).append((driver, driven))
    for first, choices in pairs.items():
        for one, other in itertools.product(choices, pairs.get(ratio / first, ())):
            used = (*one, *other)
            if all(used.count(gear) <= gears.count(gear) for gear in used):
                return one[0], one[1], other[0], other[1]
    return None
