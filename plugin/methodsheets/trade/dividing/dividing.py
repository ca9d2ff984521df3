"""How is a number of divisions, or an angle, set on a dividing head with hole plates?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import NotInTable, OutOfRange, calculation, takes
from ..form.rows import take
from ..form.tables import read_table


@dataclass(frozen=True)
class Indexing:
    """Crank movement for each division: whole turns and holes on a circle."""

    turns: int
    holes: int
    circle: int
    crank_turns: float
    exact: bool
    error: float
    error_all_round: float
    choices: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class IndexTable:
    """Crank positions for every division, each set to the nearest hole so that errors do not add up."""

    turns: tuple[int, ...]
    holes: tuple[int, ...]
    circle: int
    errors: tuple[float, ...]
    greatest_error: float


@calculation
def divide(
    divisions: float, ratio: float = 40, plates: str = "three plates", circles: Sequence[float] = ()
) -> Indexing:
    """Crank turns and holes for equal divisions on a dividing head.

    Equation:
        n = i / N

    Table: dividing_plates

    Parameters:
        divisions: N [1] (N >= 1, whole number) number of divisions
        ratio: i [1] (i >= 1) turns of the crank for one turn of the work
        plates: [text] set of plates: three plates (15 to 49), two sides (24 to 66)
        circles: [1, ...] (c >= 1, whole number) hole circles you have, over the set named

    Returns:
        turns: [1] count whole turns of the crank
        holes: [1] count and this many spaces on the circle; the sector arms span one hole more
        circle: [1] count the circle to use: the one with fewest holes to count
        crank_turns: n [1] ratio turns of the crank, as a number
        exact: [flag] flag whether the circles divide it exactly
        error: [deg] angle error of each division; nothing when exact
        error_all_round: [deg] angle what the errors add up to after the last division
        choices: [text, ...] text every circle that does it exactly
        note: [text] text what to do when no circle does

    Raises:
        OutOfRange: divisions, ratio or a circle is not a whole number.
        NotInTable: there is no such set of plates.

    Validity:
        Exact where a circle is a multiple of the reduced denominator. Turn one way only, to keep the slack out.

    Example:
        >>> step = divide(7, 40)
        >>> step.turns, step.holes, step.circle, step.exact
        (5, 15, 21, True)

    Source:
        US Army milling course OD1644 for the rule (40 over the divisions); the example worked out here.

    Trust: exact
    """
    turns = Fraction(whole("ratio", ratio), whole("divisions", divisions))
    return _indexing(
        turns, Fraction(360) / whole("ratio", ratio), circles_of(plates, circles), whole("divisions", divisions)
    )


@calculation
def divide_angle(
    angle: float, ratio: float = 40, plates: str = "three plates", circles: Sequence[float] = ()
) -> Indexing:
    """Crank turns and holes for an angle on a dividing head, with the nearest circle where none is exact.

    Equation:
        n = a * i / (2 * pi)

    Table: dividing_plates

    Parameters:
        angle: a [deg] (a > 0) angle between two positions of the work
        ratio: i [1] (i >= 1) turns of the crank for one turn of the work
        plates: [text] set of plates: three plates (15 to 49), two sides (24 to 66)
        circles: [1, ...] (c >= 1, whole number) hole circles you have, over the set named

    Returns:
        turns: [1] count whole turns of the crank
        holes: [1] count and this many spaces on the circle
        circle: [1] count the circle to use
        crank_turns: n [1] ratio turns of the crank, as a number
        exact: [flag] flag whether the circle gives the angle exactly
        error: [deg] angle angle set less angle wanted; nothing when exact
        error_all_round: [deg] angle the same
        choices: [text, ...] text every circle that does it exactly
        note: [text] text what to do when no circle does

    Raises:
        OutOfRange: ratio or a circle is not a whole number.
        NotInTable: there is no such set of plates.

    Validity:
        The angle is taken to the nearest tenth of a second. Exact where a circle fits.

    Example:
        >>> step = divide_angle(24 / 60, 40)
        >>> step.holes, step.circle, round(step.error * 60, 2)
        (1, 23, -0.52)

    Source:
        US Army milling course OD1644: 24 minutes on the 23-hole circle is 23.48 minutes.

    Trust: exact
    """
    i = whole("ratio", ratio)
    turns = Fraction(round(angle * 36000), 36000) * i / 360
    return _indexing(turns, Fraction(360, i), circles_of(plates, circles), 1)


@calculation
@takes(lambda divisions, **_: 150 * divisions)
def index_table(divisions: float, circle: float, ratio: float = 40) -> IndexTable:
    """Crank positions for every division on one circle, each at the nearest hole so that errors do not add up.

    For numbers that no circle divides and where a small error from line to line is allowed.

    Equation:
        s = round(i * c * k / N)
        a = 2 * pi / (i * c) * (s - i * c * k / N)

    Parameters:
        divisions: N [1] (N >= 1, whole number) number of divisions
        circle: c [1] (c >= 1, whole number) holes in the circle; the largest you have is best
        ratio: i [1] (i >= 1) turns of the crank for one turn of the work

    Returns:
        turns: [1, ...] count whole turns of the crank from the start, for each division
        holes: [1, ...] count and this many spaces on the circle
        circle: [1] count holes in the circle
        errors: a [deg, ...] angle position set less position wanted, for line k = 0, 1, 2 ...
        greatest_error: [deg] angle greatest of them, either way

    Raises:
        OutOfRange: a value is not a whole number.

    Validity:
        No error is greater than half a hole: 180 degrees over the ratio and the circle.

    Example:
        >>> table = index_table(127, 49, 40)
        >>> table.turns[1], table.holes[1], table.greatest_error <= 180 / 40 / 49
        (0, 15, True)

    Source:
        Worked out here: 40/127 turn is 15.43 spaces of 49.

    Trust: exact

    Checked: the nearest hole of every step is counted out; the exact ones are held against printed indexing
        tables elsewhere.
    """
    n, c, i = whole("divisions", divisions), whole("circle", circle), whole("ratio", ratio)
    steps = [round(Fraction(i * k * c, n)) for k in range(n)]
    errors = tuple(float((steps[k] - Fraction(i * k * c, n)) * Fraction(360, i * c)) for k in range(n))
    return IndexTable(
        turns=tuple(step // c for step in steps),
        holes=tuple(step % c for step in steps),
        circle=c,
        errors=errors,
        greatest_error=max(abs(error) for error in errors),
    )


def plates_of(name: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Return the plates of a set by name: each its own name and circles.

    Raises:
        NotInTable: there is no such set.
    """
    rows = read_table("dividing_plates").rows
    wanted = " ".join(name.lower().split())
    found = tuple(
        (take(row)["plate"], tuple(int(circle) for circle in row["circles"].split()))
        for row in rows
        if wanted in {row["set"], *row["also"].split("|")}
    )
    if not found:
        raise NotInTable(name, "set of dividing plates", tuple(dict.fromkeys(row["set"] for row in rows)))
    return found


def circles_of(plates: str, circles: Sequence[float]) -> tuple[int, ...]:
    """Return the circles the caller has, or those of the set named."""
    if circles:
        return tuple(sorted({whole("circles", circle) for circle in circles}))
    return tuple(sorted({circle for _, on_plate in plates_of(plates) for circle in on_plate}))


def whole(name: str, value: float) -> int:
    """Return a value as a whole number.

    Raises:
        OutOfRange: it is none.
    """
    if value != int(value):
        raise OutOfRange(name, value, "1", "a whole number")
    return int(value)


def _indexing(turns: Fraction, one_turn: Fraction, circles: tuple[int, ...], divisions: int) -> Indexing:
    """Choose the circle with fewest holes to count, or the nearest one where none is exact."""
    complete, rest = divmod(turns, 1)
    fits = [circle for circle in circles if (rest * circle).denominator == 1]
    circle = min(fits) if fits else min(circles, key=lambda c: (abs(Fraction(round(rest * c), c) - rest), c))
    holes = round(rest * circle)
    error = float((Fraction(holes, circle) - rest) * one_turn)
    # A rest that rounds to the whole circle is one turn more.
    carry, holes = divmod(holes, circle)
    return Indexing(
        turns=int(complete) + carry,
        holes=holes,
        circle=circle,
        crank_turns=float(turns),
        exact=bool(fits),
        error=error,
        error_all_round=error * divisions,
        choices=tuple(f"{int(rest * c)} on {c}" for c in fits),
        note="" if fits else _note(divisions),
    )


def _note(divisions: int) -> str:
    if divisions == 1:
        return "no circle gives this angle exactly; this is the nearest"
    return "no circle divides this exactly: try compound or differential indexing, or set each line to its nearest hole"
