"""What is drilled before a reamer, for a screw to pass, and which centre drill suits the work?"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import Row, take
from ..form.tables import read_table
from .drills import nearest_drill
from .screws import clearance_hole
from .thread_names import thread_size

_LARGEST_DRILL = 50.0
"""mm: a larger hole is bored before it is reamed."""
_SERIES: Mapping[str, str] = {"close": "fine", "free": "medium", "loose": "coarse"}
_OVER: Mapping[str, float] = {"close": 1.028, "free": 1.057, "loose": 1.10}
"""Hole over outside diameter: gives the drills of the usual American tables for No. 10, 1/4 and 1/2 in."""


@dataclass(frozen=True)
class ReamingDrill:
    """What to drill before a reamer."""

    wanted: float
    allowance: float
    name: str
    diameter: float
    left: float
    note: str


@calculation
def drill_for_reaming(
    diameter: float, undersize: float | None = None, oversize: float = 0.0, way: str = "machine", system: str = "metric"
) -> ReamingDrill:
    """Drill to use before a reamer.

    Equation:
        d = D - u - o

    Table:
        reaming, drill_gauges, metric_drills

    Parameters:
        diameter: D [mm] (1 <= diameter <= 100) size of the reamer
        undersize: u [mm] (u > 0) what to leave on the diameter; from the table when not given
        oversize: o [mm] (o >= 0) how much the drill cuts large
        way: [text] (one of machine, hand) machine reamer or hand reamer
        system: [text] (one of metric, common, number, letter, fraction, inch, all) which drills to look among

    Returns:
        wanted: d [mm] size  size to drill
        allowance: u [mm] length  left for the reamer
        name: [text] text  drill to use: the next not larger
        diameter: [mm] size  its diameter
        left: [mm] length  what that drill leaves for the reamer, cutting as large as said
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above, or no drill is small enough.

    Validity:
        Straight holes in metal. A reamer follows the hole: it does not correct its place.

    Example:
        10 mm reamer, 0.2 mm left, drill 0.05 mm large: 9.75 mm.
        >>> found = drill_for_reaming(10, undersize=0.2, oversize=0.05)
        >>> found.wanted, found.name
        (9.75, '9.75 mm')

    Source:
        Rule and example worked out; allowances by diameter from memory; US TM 1-420: 0.005 to 0.010 in by machine
        (page read).

    Trust: common practice
    """
    low, high = _reaming_allowance(diameter, way.strip().lower())
    allowance = (low + high) / 2 if undersize is None else undersize
    wanted = diameter - allowance - oversize
    if wanted > _LARGEST_DRILL:
        return ReamingDrill(wanted, allowance, f"bore {wanted:.2f} mm", wanted, allowance, "bored, not drilled")
    found = nearest_drill(wanted, system, "below")
    left = diameter - oversize - found.diameter
    note = "" if left <= 2 * high else "no drill near: this one leaves much; bore or step up first"
    return ReamingDrill(wanted, allowance, found.name, found.diameter, left, note)


@dataclass(frozen=True)
class CentreDrill:
    """A centre drill's measures."""

    name: str
    pilot: float
    body: float
    mouth: float
    pilot_length: float
    note: str


@calculation
def centre_drill(name: str) -> CentreDrill:
    """Measures of a centre drill by its size mark.

    Table:
        centre_drills

    Parameters:
        name: [text] ISO form A "A2", British "BS3", American "US2"

    Returns:
        name: [text] text  size mark
        pilot: d [mm] size  pilot diameter
        body: D [mm] size  body diameter
        mouth: D_2 [mm] size  usual diameter of the cone at the face
        pilot_length: l [mm] length  length of the pilot, about
        note: [text] text  what to know

    Raises:
        NotInTable: no centre drill has that mark.

    Validity:
        Plain type with 60 degrees.

    Example:
        >>> centre_drill("A2.5").body
        6.3

    Source:
        From memory: ISO 866, BS 328 and the American plain series; mouths by ISO 6411 type A, where the series is not
        ISO in the same share of the body.

    Trust: table
    """
    rows = {row["name"].lower(): row for row in read_table("centre_drills").rows}
    key = re.sub(r"\s|no\.?|#", "", name.lower())
    if key not in rows:
        raise NotInTable(name, "centre drill", [row["name"] for row in rows.values()])
    return _centre(rows[key])


@calculation
def centre_drill_for(diameter: float, series: str = "iso") -> CentreDrill:
    """Centre drill that suits work of a diameter.

    Table:
        centre_drills

    Parameters:
        diameter: [mm] (3 <= diameter <= 160) diameter of the work
        series: [text] (one of iso, bs) which series

    Returns:
        name: [text] text  size mark
        pilot: d [mm] size  pilot diameter
        body: D [mm] size  body diameter
        mouth: D_2 [mm] size  usual diameter of the cone at the face
        pilot_length: l [mm] length  length of the pilot, about
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Light work; heavy cuts or a long way between centres want the next larger.

    Example:
        >>> centre_drill_for(25).name
        'A2.5'

    Source:
        From memory: common practice.

    Trust: common practice

    Checked: common practice of the workshop: books give the rule and no cases of it.
    """
    rows = [row for row in read_table("centre_drills").rows if row["series"].lower() == series.strip().lower()]
    fitting = [row for row in rows if float(row["work_from"]) <= diameter <= float(row["work_to"])]
    middle = min(fitting, key=lambda row: abs(float(row["work_from"]) + float(row["work_to"]) - 2 * diameter))
    return _centre(middle, "work_from", "work_to")


def centre_pilots() -> list[float]:
    """Pilots of the ISO centre drills, mm, in order."""
    return [float(row["pilot"]) for row in read_table("centre_drills").rows if row["series"] == "ISO"]


@calculation
def centre_hole_depth(pilot: float, pilot_length: float, mouth: float) -> float:
    """Depth to feed a 60 degree centre drill for a mouth of a given diameter.

    Equation:
        t = l + (D - d) / (2 * tan(30 * pi / 180))

    Parameters:
        pilot: d [mm] (d > 0) pilot diameter
        pilot_length: l [mm] (l > 0) length of the pilot
        mouth: D [mm] (D > 0) diameter of the cone at the face, wider than the pilot

    Returns:
        t [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above, or the mouth is not wider than the pilot.

    Validity:
        Exact for a 60 degree cone.

    Example:
        >>> round(centre_hole_depth(2.0, 2.5, 4.0), 2)
        4.23

    Source:
        Geometry of the cone.

    Trust: exact
    """
    if mouth <= pilot:
        raise OutOfRange("mouth", mouth, "mm", f"wider than the pilot ({pilot:g} mm)")
    return pilot_length + (mouth - pilot) / (2 * math.tan(math.radians(30)))


@dataclass(frozen=True)
class ClearanceDrill:
    """The drill that lets a screw through."""

    wanted: float
    name: str
    diameter: float
    note: str


@calculation
def clearance_drill(name: str, fit: str = "free", system: str = "metric") -> ClearanceDrill:
    """Drill that lets a screw through, close or free, for any thread.

    Equation:
        d_w = q * d

    Table:
        screw_parts, threads, drill_gauges, metric_drills

    Parameters:
        name: [text] a thread as people type it: "M6", "2BA", "1/4 BSF", "10-32"
        fit: [text] (one of close, free, loose) close: parts that must keep their place; free: usual; loose: rough or
            cast holes
        system: [text] (one of metric, common, number, letter, fraction, inch, all) which drills to look among

    Returns:
        wanted: d_w [mm] size  hole wanted
        name: [text] text  drill to use: the next not smaller
        diameter: [mm] size  its diameter
        note: [text] text  where the size comes from

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
        OutOfRange: the fit or the system is none of those above, or no drill is large enough.

    Validity:
        ISO metric sizes of the table by ISO 273; all others 2.8, 5.7 or 10 % over the outside diameter.

    Example:
        2 BA free.
        >>> clearance_drill("2BA").name
        '5.0 mm'

    Source:
        From memory: ISO 273 for metric screws; common practice for the others
        (1/4 in: letter F close, 17/64 or H free).

    Trust: common practice
    """
    size, wanted_fit = thread_size(name), fit.strip().lower()
    try:
        wanted = clearance_hole(f"M{size.major:g}" if size.system in ("M", "M fine") else name, _SERIES[wanted_fit])
        note = f"ISO 273, {_SERIES[wanted_fit]} series"
    except NotInTable:
        wanted = _OVER[wanted_fit] * size.major
        note = f"{100 * (_OVER[wanted_fit] - 1):.1f} % over the outside diameter"
    found = nearest_drill(wanted, system, "above")
    return ClearanceDrill(wanted, found.name, found.diameter, note)


def _reaming_allowance(diameter: float, way: str) -> tuple[float, float]:
    rows = [row for row in read_table("reaming").rows if row["way"] == way]
    row = next(row for row in rows if diameter <= float(row["to"]))
    take(row)
    return float(row["low"]), float(row["high"])


def _centre(row: Row, *more: str) -> CentreDrill:
    take(row, "pilot", "body", "mouth", "pilot_length", *more)
    note = "reckon the speed on the pilot; keep it from the edge of the cone: no mouth wider than the body"
    pilot, body, mouth, length = (float(row[column]) for column in ("pilot", "body", "mouth", "pilot_length"))
    return CentreDrill(row["name"], pilot, body, mouth, length, note)
