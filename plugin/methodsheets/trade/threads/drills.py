"""Which drill is that, and which is nearest a wanted size?"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import Row, take
from ..form.tables import find_row, read_table

INCH = 25.4
_SAME_DRILL = {"metric": 1e-6, "fraction": 1e-6, "inch": 0.00051 * INCH}
"""mm between a size as written and the drill's: inches are printed to three or four decimals."""


@dataclass(frozen=True)
class Drill:
    """One drill: its name, gauge and diameter."""

    name: str
    system: str
    diameter: float


@calculation
def drill(name: str) -> Drill:
    """Diameter of a drill by its name.

    Table:
        drill_gauges

    Parameters:
        name: [text] "5.2 mm", "No. 7", "#7", "F", "13/64", "1 1/8 in"

    Returns:
        name: [text] text  the name as the handbook writes it
        system: [text] text  metric, number, letter or fraction
        diameter: d [mm] size  nominal diameter

    Raises:
        NotInTable: the name is no drill's.

    Validity:
        Number 1 to 97, letter A to Z, sixty-fourths of an inch to 2 in, the metric sizes that are made to 50 mm. A
        number without a unit is in mm. Decimals of an inch name the gauge or fraction drill that they round.

    Example:
        >>> drill("#7").diameter, drill("F").name
        (5.1054, 'F')

    Source:
        Table of gauges, from memory; No. 7 = 0.201 in and others confirmed by tapping tables (pages read).

    Trust: table
    """
    plain = name.strip().strip('"')
    by_name = {_plain(entry.name): entry for entry in gauge_drills()}
    if _plain(plain) in by_name:
        return _used(by_name[_plain(plain)])
    size = _size_of(plain)
    if size is None:
        raise NotInTable(name, "drill", [entry.name for entry in gauge_drills()])
    millimetres, system = size
    found = next((one for one in drills_of(system) if abs(one.diameter - millimetres) < _SAME_DRILL[system]), None)
    if found is None:
        raise NotInTable(name, "drill", _near(millimetres))
    return _used(found)


@dataclass(frozen=True)
class NearestDrill:
    """The drill nearest a wanted size."""

    name: str
    system: str
    diameter: float
    difference: float


@calculation
def nearest_drill(diameter: float, system: str = "metric", side: str = "nearest") -> NearestDrill:
    """Drill nearest a wanted size, or the next below or above it.

    Equation:
        delta = d_n - d

    Table:
        drill_gauges, metric_drills

    Parameters:
        diameter: d [mm] (0.15 <= diameter <= 50.8) wanted size
        system: [text] (one of metric, common, number, letter, fraction, inch, all) which drills to look among; common:
            metric in steps most sets have; inch: number, letter and fraction
        side: [text] (one of nearest, below, above) which side of the wanted size

    Returns:
        name: [text] text  name of the drill
        system: [text] text  metric, number, letter or fraction
        diameter: d_n [mm] size  its diameter
        difference: delta [mm] deviation  drill less wanted size

    Raises:
        OutOfRange: a value lies outside the range given above, or no drill lies on that side.

    Validity:
        Drills cut a little large: 0.05 to 0.1 mm at 6 mm is usual.

    Example:
        0.2013 in wanted: No. 7.
        >>> nearest_drill(5.113, "number").name
        'No. 7'

    Source:
        Tapping table, 75 % thread of 1/4-20: 0.2013 in, No. 7 (page read).

    Trust: table
    """
    drills = drills_of(system.strip().lower())
    fitting = [entry for entry in drills if _on_side(entry.diameter - diameter, side.strip().lower())]
    if not fitting:
        ends = f"{drills[0].diameter:g} to {drills[-1].diameter:g} mm"
        raise OutOfRange("diameter", diameter, "mm", f"a size with a {system} drill {side} it: they run from {ends}")
    found = min(fitting, key=lambda entry: (abs(entry.diameter - diameter), entry.system != "metric"))
    _used(found)
    return NearestDrill(found.name, found.system, found.diameter, found.diameter - diameter)


@functools.cache
def gauge_drills() -> tuple[Drill, ...]:
    """Return the number and letter drills."""
    rows = read_table("drill_gauges").rows
    return tuple(Drill(row["name"], row["system"], _clean(float(row["inch"]) * INCH)) for row in rows)


@functools.cache
def drills_of(system: str) -> tuple[Drill, ...]:
    """Return the drills of a system, smallest first."""
    if system in ("metric", "common"):
        found = _metric_drills(common=system == "common")
    elif system in ("number", "letter"):
        found = tuple(entry for entry in gauge_drills() if entry.system == system)
    elif system == "fraction":
        found = tuple(_fraction_drill(Fraction(count, 64)) for count in range(1, 129))
    elif system == "inch":
        found = drills_of("number") + drills_of("letter") + drills_of("fraction")
    else:
        found = drills_of("metric") + drills_of("inch")
    return tuple(sorted(found, key=lambda entry: entry.diameter))


def _metric_drills(common: bool) -> tuple[Drill, ...]:
    hundredths: set[int] = set()
    for row in read_table("metric_drills").rows:
        if row["common"] == "yes" or not common:
            hundredths.update(_hundredths(row))
    return tuple(_metric_drill(size / 100) for size in sorted(hundredths))


def _metric_drill(size: float) -> Drill:
    return Drill(f"{size:g} mm" if size != int(size) else f"{size:.1f} mm", "metric", size)


def _fraction_drill(inches: Fraction) -> Drill:
    whole, rest = divmod(inches, 1)
    name = " ".join(part for part in (str(whole) if whole else "", str(rest) if rest else "") if part)
    return Drill(f"{name} in" if "/" not in name else name, "fraction", _clean(float(inches) * INCH))


def _used(found: Drill) -> Drill:
    """Take up the row that lists a drill; sixty-fourths of an inch need none."""
    if found.system in ("number", "letter"):
        take(find_row("drill_gauges", name=found.name))
    elif found.system == "metric":
        take(_series_of(found.diameter))
    return found


@functools.cache
def _series_of(size: float) -> Row:
    """Return the row of the series in which a metric drill stands."""
    rows = read_table("metric_drills").rows
    return next(row for row in rows if size in {one / 100 for one in _hundredths(row)})


def _hundredths(row: Row) -> range:
    """The sizes of one series in hundredths of a millimetre."""
    first, last, step = (round(100 * float(row[column])) for column in ("from", "to", "step"))
    return range(first, last + 1, step)


def _size_of(text: str) -> tuple[float, str] | None:
    """Read a size in mm, and among which drills it has to be; nothing where it is no size."""
    inches = _fraction(text)
    if inches is not None:
        return float(inches) * INCH, "fraction"
    found = re.fullmatch(r"(?:Ø|dia\.?)?\s*([0-9]*\.?[0-9]+)\s*(mm|in|inch|\")?", text, re.IGNORECASE)
    if found is None:
        return None
    in_inches = (found[2] or "mm").lower() != "mm"
    return (float(found[1]) * INCH, "inch") if in_inches else (float(found[1]), "metric")


def _near(size: float) -> tuple[str, ...]:
    """Return the drills that lie nearest a size in mm, and nearest the number as if it were inches."""
    every = drills_of("all")
    found = sorted(every, key=lambda entry: abs(entry.diameter - size))[:2]
    in_inches = min(every, key=lambda entry: abs(entry.diameter - size * INCH))
    return tuple(dict.fromkeys(entry.name for entry in (*found, *([in_inches] if size < 1 else []))))


def _fraction(text: str) -> Fraction | None:
    """Read `13/64`, `1 1/8 in`, `1-1/8"`; nothing when it is no fraction of an inch."""
    found = re.fullmatch(r"(?:(\d+)[\s\-]+)?(\d+)/(\d+)\s*(?:in|inch|\")?", text.strip())
    if found is not None and int(found[3]):
        return int(found[1] or 0) + Fraction(int(found[2]), int(found[3]))
    whole = re.fullmatch(r"(\d+)\s*(?:in|inch|\")", text.strip())
    return Fraction(int(whole[1])) if whole else None


def _plain(name: str) -> str:
    """Bring `#7`, `No 7`, `no. 7`, `number 7` to one form."""
    return re.sub(r"^(#|no\.?|number|letter)\s*", "", name.strip().lower().replace("№", "#")) + (
        "#" if re.match(r"(#|no\.?|number|№)\s*\d", name.strip(), re.IGNORECASE) else ""
    )


def _clean(value: float) -> float:
    """Drop the dust of the binary fraction: inch sizes are exact to 0.1 um here."""
    return round(value, 6)


def _on_side(difference: float, side: str) -> bool:
    slack = 1e-6
    return side == "nearest" or (difference <= slack if side == "below" else difference >= -slack)
