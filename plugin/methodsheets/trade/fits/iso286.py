"""Which limits does a tolerance class such as H7 give at a size?"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import Row, take
from ..form.tables import read_table

LARGEST = 500.0
"""The tables end here [mm]."""

GRADES = ("IT01", "IT0", *(f"IT{number}" for number in range(1, 19)))

_CLASS = re.compile(r"^\s*([A-Za-z]{1,2})\s*(01|\d{1,2})\s*$")


@dataclass(frozen=True)
class Limits:
    """The two sizes a hole or shaft must lie between, and the deviations that make them."""

    name: str
    part: str
    nominal: float
    upper: float
    lower: float
    upper_deviation: float
    lower_deviation: float
    tolerance: float
    middle: float


@dataclass(frozen=True)
class _Row:
    """One row of the deviation table, numbers read."""

    over: float
    upto: float
    grades: str
    which: str
    value: float
    note: str
    row: Row

    def covers(self, size: float) -> bool:
        return self.over < size <= self.upto


@calculation
def limits(size: float, tolerance_class: str) -> Limits:
    """Limits of size of a hole or shaft by its ISO 286 tolerance class.

    A capital letter is a hole, a small letter a shaft: `H7`, `js6`, `ZC10`, `h01`.

    Table: iso286_deviations, iso286_grades

    Parameters:
        size: D [mm] (0 < D <= 500) nominal size
        tolerance_class: [text] letter and grade

    Returns:
        name: [text] text the class as it is written
        part: [text] text hole or shaft
        nominal: D [mm] length nominal size
        upper: D_max [mm] size largest size allowed
        lower: D_min [mm] size smallest size allowed
        upper_deviation: d_u [mm] deviation upper deviation (ES, es)
        lower_deviation: d_l [mm] deviation lower deviation (EI, ei)
        tolerance: T [mm] clearance upper less lower deviation
        middle: D_m [mm] size the size to aim at

    Raises:
        OutOfRange: the size is not over 0 and up to 500 mm.
        NotInTable: the standard gives no such class at that size.

    Validity:
        At 20 degC. A band is over its first size and up to and including its second: 30 mm belongs to 18-30.
        js and JS are the exact half of the tolerance; some older tables round an odd IT7 to IT11 down to even.
        Holes K to ZC in grades finer than IT3 are refused: the standard gives no delta there.

    Example:
        >>> seat = limits(180, "f6")
        >>> seat.upper_deviation, seat.lower_deviation, seat.upper, seat.lower
        (-0.043, -0.068, 179.957, 179.932)

    Source:
        ISO 286-1 rules and tables as in the table files; the example is printed on a toolmaker's page of ISO 286-2
        shafts (page read). Corrigendum 1 (2006) to ISO 286-2 is followed.

    Trust: table
    """
    letter, grade = parse_class(tolerance_class)
    upper, lower = deviations(size, letter, grade)
    return make_limits(size, f"{letter}{grade.removeprefix('IT')}", _part(letter), upper, lower)


@calculation
def tolerance_grade(size: float, grade: str) -> float:
    """Width of a standard tolerance grade at a size.

    Table: iso286_grades

    Parameters:
        size: D [mm] (0 < D <= 500) nominal size
        grade: [text] IT01, IT0, IT1 to IT18

    Returns:
        T [mm] clearance width of the tolerance

    Raises:
        OutOfRange: the size is not over 0 and up to 500 mm.
        NotInTable: there is no such grade, or it is not used at that size (IT14 to IT18 up to 1 mm).

    Validity:
        Table values, not the formula they were once rounded from.

    Example:
        >>> tolerance_grade(25, "IT7")
        0.021

    Source:
        ISO 286-1; the value is printed in a published textbook of machine drawing and a component maker's table.

    Trust: table
    """
    return _mm(_grade_width(size, _grade_name(grade)))


@calculation
def tolerance_unit(over: float, upto: float) -> float:
    """Standard tolerance unit i of a band of sizes, from which the grades were once worked out.

    Equation (units as listed):
        D = sqrt(D_1 * D_2)
        i = 0.45 * D ** (1 / 3) + 0.001 * D

    Parameters:
        over: D_1 [mm] (0 < D_1 < 500) the band begins above this size
        upto: D_2 [mm] (0 < D_2 <= 500) the band ends with this size

    Returns:
        i [um] deviation tolerance unit; IT6 is 10 i, IT7 16 i, IT8 25 i

    Raises:
        OutOfRange: a size lies outside the range, or the band ends before it begins.

    Validity:
        IT5 to IT16 only, before rounding: for understanding, never for a limit. Take limits from the tables.

    Example:
        >>> round(tolerance_unit(50, 80), 3)
        1.856

    Source:
        A published textbook of production engineering, example 9.4 (its printed 0.011 mm comes from whole-number
        powers; 25 i is 0.046 mm).

    Trust: estimate
    """
    if upto <= over:
        raise OutOfRange("upto", upto, "mm", "more than the size the band begins above")
    mean = (over * upto) ** 0.5
    return 0.45 * mean ** (1 / 3) + 0.001 * mean


def make_limits(nominal: float, name: str, part: str, upper: float, lower: float) -> Limits:
    """Put limits together from a nominal size and two deviations [mm]."""
    return Limits(
        name=name,
        part=part,
        nominal=nominal,
        upper=_tidy(nominal + upper),
        lower=_tidy(nominal + lower),
        upper_deviation=_tidy(upper),
        lower_deviation=_tidy(lower),
        tolerance=_tidy(upper - lower),
        middle=_tidy(nominal + (upper + lower) / 2),
    )


def parse_class(tolerance_class: str) -> tuple[str, str]:
    """Read a tolerance class as its letter and its grade: `H7` gives `H` and `IT7`.

    Raises:
        NotInTable: it is not a letter of the standard followed by a grade.
    """
    found = _CLASS.match(tolerance_class)
    if found is None:
        raise NotInTable(tolerance_class, "tolerance class", ("H7", "h6", "js6", "JS7", "za8"))
    letter = found[1].upper() if found[1][0].isupper() else found[1].lower()
    known = letters(_part(letter))
    if letter not in known:
        raise NotInTable(letter, f"{_part(letter)} letter in ISO 286", known)
    return letter, _grade_name(found[2])


def deviations(size: float, letter: str, grade: str) -> tuple[float, float]:
    """Return the upper and lower deviation [mm] of a class.

    Raises:
        OutOfRange: the size is not over 0 and up to 500 mm.
        NotInTable: the standard gives no such class at that size.
    """
    width = _grade_width(size, grade)
    if letter.lower() == "js":
        return _mm(width / 2), _mm(-width / 2)
    row = _row(size, letter, grade)
    take(row.row, "value_um")
    base = row.value + _delta(size, letter, grade, row)
    if row.which in {"es", "ES"}:
        return _mm(base), _mm(base - width)
    return _mm(base + width), _mm(base)


def _part(letter: str) -> str:
    return "hole" if letter[0].isupper() else "shaft"


def _mm(micrometres: float) -> float:
    """Return micrometres as millimetres, without the dust of binary fractions."""
    return _tidy(micrometres / 1000)


def _tidy(millimetres: float) -> float:
    return round(millimetres, 9) + 0.0


def _grade_name(grade: str) -> str:
    name = "IT" + grade.strip().upper().removeprefix("IT")
    if name not in GRADES:
        raise NotInTable(grade, "tolerance grade", GRADES)
    return name


def _order(grade: str) -> int:
    """Place of a grade: IT01 is -1, IT0 is 0, IT7 is 7."""
    return GRADES.index(grade) - 1


def _grade_width(size: float, grade: str) -> float:
    """Return the width [um] of a grade at a size."""
    if not 0 < size <= LARGEST:
        raise OutOfRange("size", size, "mm", "over 0 and up to 500 mm: the tables end there")
    if size <= 1 and _order(grade) >= 14:
        raise NotInTable(grade, "tolerance grade for sizes up to 1 mm", GRADES[:15])
    for over, upto, width, row in _grade_rows()[grade]:
        if over < size <= upto:
            take(row, "tolerance_um")
            return width
    raise AssertionError(f"the grade table has a hole at {size}")


def _row(size: float, letter: str, grade: str) -> _Row:
    """Return the row of the deviation table that gives a class its fundamental deviation."""
    rows = [row for row in _deviation_rows()[letter] if _row_is_for(row.grades, grade)]
    # A row for one grade of one band (M6 over 250 mm) is an exception and goes before the rule.
    rows.sort(key=lambda row: not row.grades.endswith("only"))
    for row in rows:
        if _holds(row, size):
            return row
    number = grade.removeprefix("IT")
    raise NotInTable(f"{letter}{number}", f"{_part(letter)} class at {size:g} mm", _classes_at(size, letter, number))


def _holds(row: _Row, size: float) -> bool:
    """Return whether a row gives a value at a size; some are not used up to 1 mm."""
    return row.covers(size) and not (size <= 1 and "not used" in row.note)


def _classes_at(size: float, letter: str, number: str) -> tuple[str, ...]:
    """Return the classes of the same grade that the standard does give at a size."""
    grade = _grade_name(number)

    def is_given(other: str) -> bool:
        rows = _deviation_rows().get(other, ())
        return any(_holds(row, size) and _row_is_for(row.grades, grade) for row in rows)

    return tuple(f"{other}{number}" for other in letters(_part(letter)) if is_given(other))


def _row_is_for(grades: str, grade: str) -> bool:
    """Return whether a row's grades, as written in the table, take in a grade."""
    order = _order(grade)
    if grades == "all":
        return True
    if grades == "<=3 and >=8":
        return order <= 3 or order >= 8
    if grades.startswith("<="):
        return order <= int(grades[2:])
    if grades.startswith(">"):
        return order > int(grades[1:])
    first, _, last = grades.removesuffix(" only").partition("-")
    return int(first) <= order <= int(last or first)


def _delta(size: float, letter: str, grade: str, row: _Row) -> float:
    """Return what is added [um] to a hole K to ZC in a fine grade, so that H7/p6 and P7/h6 fit alike."""
    coarsest = {"K": 8, "M": 8, "N": 8}.get(letter, 7)
    if row.which != "ES" or letter == "J" or row.grades.endswith("only") or _order(grade) > coarsest:
        return 0.0
    if _order(grade) < 3:
        number = grade.removeprefix("IT")
        known = tuple(f"{letter}{order}" for order in range(3, 19))
        raise NotInTable(f"{letter}{number}", "hole class (the standard's delta begins at IT3)", known)
    for delta in _deviation_rows()["DELTA"]:
        if delta.grades == grade and delta.covers(size):
            take(delta.row, "value_um")
            return delta.value
    raise AssertionError(f"the delta table has a hole at {size}")


@functools.cache
def _grade_rows() -> dict[str, tuple[tuple[float, float, float, Row], ...]]:
    found: dict[str, list[tuple[float, float, float, Row]]] = {}
    for row in read_table("iso286_grades").rows:
        band = (float(row["over_mm"]), float(row["upto_mm"]), float(row["tolerance_um"]), row)
        found.setdefault(row["grade"], []).append(band)
    return {grade: tuple(rows) for grade, rows in found.items()}


@functools.cache
def _deviation_rows() -> dict[str, tuple[_Row, ...]]:
    found: dict[str, list[_Row]] = {}
    for row in read_table("iso286_deviations").rows:
        if row["letter"].lower() == "js":
            continue
        read = _Row(
            over=float(row["over_mm"]),
            upto=float(row["upto_mm"]),
            grades=row["grades"],
            which=row["which"],
            value=float(row["value_um"]),
            note=row["note"],
            row=row,
        )
        found.setdefault(row["letter"], []).append(read)
    return {letter: tuple(rows) for letter, rows in found.items()}


@functools.cache
def letters(part: str) -> tuple[str, ...]:
    """Return the letters of the standard for `hole` or `shaft`, in order."""
    found = dict.fromkeys(row["letter"] for row in read_table("iso286_deviations").rows if row["kind"] == part)
    found.pop("DELTA", None)
    return tuple(found)
