"""How is a number divided that no hole circle divides?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import NotInTable, calculation, takes
from .dividing import Indexing, circles_of, divide, plates_of, whole

HEAD_GEARS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)
"""Change gears that usually come with a universal dividing head (from memory)."""

Train = tuple[int, int, int, int]
GearPairs = dict[tuple[int, int], list[tuple[int, int]]]
"""Pairs of gears by their ratio in lowest terms."""
_Pair = tuple[Fraction, int, str, int, int, int, int]
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
@takes(lambda **given: _compound_work(**given))
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
@takes(lambda **given: _differential_work(**given))
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
    can = [near for near in _near_numbers(n) if any(i * circle % near == 0 for circle in have)]
    pairs = _gear_pairs(teeth)
    for make in (_simple_train, _compound_train):
        for near in can:
            train = make(_lowest(i * abs(near - n), near), pairs, teeth)
            if train is not None:
                return _differential(n, i, near, divide(near, i, circles=have), train)
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


def _pairs(wanted: Fraction, plate: str, circles: tuple[int, ...]) -> Iterator[_Pair]:
    """Yield for each pair of circles the two movements nearest the wanted turns, with their error and holes."""
    top, bottom = wanted.numerator, wanted.denominator
    for one, two in itertools.combinations(circles, 2):
        best: tuple[int, int, int, int] | None = None
        for one_holes in range(1, int((wanted + 1) * one) + 1):
            # In whole numbers: two_holes / two is nearest to top / bottom - one_holes / one.
            exact, part = (top * one - one_holes * bottom) * two, bottom * one
            two_holes, over = divmod(exact, part)
            two_holes += 2 * over > part or (2 * over == part and two_holes % 2 == 1)
            found = abs(two_holes * part - exact), one_holes + abs(two_holes), one_holes, two_holes
            if 0 < abs(two_holes) < two and (best is None or found < best):
                best = found
        if best is not None:
            error, holes, one_holes, two_holes = best
            yield Fraction(error, bottom * one * two), holes, plate, one, one_holes, two, two_holes


def _near_numbers(divisions: int) -> Iterator[int]:
    """Yield numbers round the wanted one, nearest first, the smaller first; within about a fifth."""
    for away in range(1, max(12, divisions // 5) + 1):
        if divisions - away >= 2:
            yield divisions - away
        yield divisions + away


def _gear_pairs(gears: tuple[int, ...]) -> GearPairs:
    """Return every pair of gears by the ratio between them, the smaller driver first."""
    pairs: GearPairs = {}
    for driver, driven in sorted(set(itertools.permutations(gears, 2))):
        pairs.setdefault(_lowest(driver, driven), []).append((driver, driven))
    return pairs


def _lowest(top: int, bottom: int) -> tuple[int, int]:
    common = math.gcd(top, bottom)
    return top // common, bottom // common


def _simple_train(ratio: tuple[int, int], pairs: GearPairs, gears: tuple[int, ...]) -> Train | None:
    """Return the two gears that make a ratio between them."""
    driver, driven = pairs.get(ratio, [(0, 0)])[0]
    return (driver, 0, 0, driven) if driver else None


def _compound_train(ratio: tuple[int, int], pairs: GearPairs, gears: tuple[int, ...]) -> Train | None:
    """Return the four gears that make a ratio between them."""
    for (top, bottom), choices in pairs.items():
        others = pairs.get(_lowest(ratio[0] * bottom, ratio[1] * top), ())
        for one, other in itertools.product(choices, others):
            used = (*one, *other)
            if all(used.count(gear) <= gears.count(gear) for gear in used):
                return one[0], one[1], other[0], other[1]
    return None


def _compound_work(divisions: float, ratio: float, plates: str, circles: Sequence[float], **_: object) -> float:
    """Lines: every hole of the first circle is tried with every other circle of its plate."""
    turns = ratio / divisions + 1
    on = [circles] if circles else [on_plate for _, on_plate in plates_of(plates)]
    return sum(
        7 * turns * one * (len(one_plate) - number) for one_plate in on for number, one in enumerate(one_plate, 1)
    )


def _differential_work(
    divisions: float, plates: str, circles: Sequence[float], gears: Sequence[float], **_: object
) -> float:
    """Lines: every near number is tried on every circle, and those that fit with every pair of gears."""
    have = len(circles_of(plates, circles))
    near = 2 * max(12, divisions / 5)
    return near * (2 * have + 10) + (min(near, 2 * have) * 6 + 100) * len(gears) * (len(gears) - 1)
