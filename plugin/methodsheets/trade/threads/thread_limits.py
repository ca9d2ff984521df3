"""Between which limits may a thread lie?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import take
from ..form.tables import read_table
from .thread_names import INCH, UNIFIED, ThreadSize, thread_size

_ISO = "ISO 965-1, grade 6, from memory"
_UNIFIED = "formulas of ASME B1.1, from memory; tables round to 0.0001 in"


@dataclass(frozen=True)
class ThreadLimits:
    """Largest and smallest diameters a thread may have."""

    major_max: float | None
    major_min: float | None
    effective_max: float
    effective_min: float
    minor_max: float | None
    minor_min: float | None
    note: str


@calculation
def thread_limits(name: str, tolerance: str = "") -> ThreadLimits:
    """Limits of a screw or nut thread of a tolerance class.

    Table:
        iso965_grade6, threads

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"
        tolerance: [text] 6g or 6h (screw), 6H (nut) for ISO metric; 2A (screw), 2B (nut) for unified; empty for 6g or
            2A

    Returns:
        major_max: [mm] size  outside diameter, screws only
        major_min: [mm] size  outside diameter; the basic size in a nut
        effective_max: [mm] size  effective diameter
        effective_min: [mm] size  effective diameter
        minor_max: [mm] size  minor diameter of a nut
        minor_min: [mm] size  minor diameter of a nut
        note: [text] text  what the limits come from

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested, or no such class is kept for it.

    Validity:
        ISO metric 1 to 90 mm with the pitches of the table; unified threads with a length of engagement of one
        diameter (UNC, UNF) or nine pitches (others).

    Example:
        >>> limits = thread_limits("M6", "6g")
        >>> round(limits.effective_max, 3), round(limits.effective_min, 3)
        (5.324, 5.212)

    Source:
        From memory: ISO 965-1 and ASME B1.1. The 1/4-20 2A window 0.2127 to 0.2164 in was read on a public page and
        agrees.

    Trust: table
    """
    size = thread_size(name)
    metric, unified = size.system in ("M", "M fine"), size.form is UNIFIED
    known = ("6g", "6h", "6H") if metric else ("2A", "2B") if unified else ()
    wanted = tolerance.strip() or (known[0] if known else "a class")
    if wanted not in known:
        raise NotInTable(f"{wanted} of {size.name}", "thread tolerance", [f"{word} of {size.name}" for word in known])
    return _metric(size, wanted) if metric else _unified(size, wanted)


def _metric(size: ThreadSize, wanted: str) -> ThreadLimits:
    row = next(
        (
            row
            for row in read_table("iso965_grade6").rows
            if float(row["above"]) < size.major <= float(row["to"]) and float(row["pitch"]) == size.pitch
        ),
        None,
    )
    columns = ("hole_effective", "hole_minor") if wanted == "6H" else ("screw_major", "screw_effective")
    if row is None or not all(row[column] for column in columns):
        raise NotInTable(f"{wanted} of {size.name}", "thread tolerance", _kept_for(row, size.name))
    take(row)
    effective = size.major - size.form.effective * size.pitch
    minor = size.major - size.form.minor * size.pitch
    step = {
        column: float(cell) / 1000 for column, cell in row.items() if cell and column.startswith(("dev", "sc", "ho"))
    }
    if wanted == "6H":
        return ThreadLimits(
            major_max=None,
            major_min=size.major,
            effective_max=effective + step["hole_effective"],
            effective_min=effective,
            minor_max=minor + step["hole_minor"],
            minor_min=minor,
            note=_ISO,
        )
    below = step["deviation_g"] if wanted == "6g" else 0.0
    top, middle = size.major - below, effective - below
    return ThreadLimits(
        major_max=top,
        major_min=top - step["screw_major"],
        effective_max=middle,
        effective_min=middle - step["screw_effective"],
        minor_max=None,
        minor_min=None,
        note=_ISO,
    )


def _kept_for(row: Mapping[str, str] | None, name: str) -> list[str]:
    """The classes the table does keep; nuts below 0.3 mm pitch are made to finer grades than 6."""
    return [f"6g of {name}", f"6h of {name}"] if row is not None else []


def _unified(size: ThreadSize, wanted: str) -> ThreadLimits:
    """Work the limits out in inches by the formulas of ASME B1.1 and give them in mm."""
    major, pitch = size.major / INCH, size.pitch / INCH
    length = major if size.system in ("UNC", "UNF") else 9 * pitch
    tolerance = 0.0015 * major ** (1 / 3) + 0.0015 * math.sqrt(length) + 0.015 * pitch ** (2 / 3)
    effective = major - size.form.effective * pitch
    minor = major - size.form.minor * pitch
    if wanted == "2B":
        widest = effective + 1.3 * tolerance
        return _in_mm(None, major, widest, effective, minor + _minor_tolerance(major, pitch), minor)
    below = 0.3 * tolerance
    top, middle = major - below, effective - below
    return _in_mm(top, top - 0.06 * pitch ** (2 / 3), middle, middle - tolerance, None, None)


def _in_mm(
    major_max: float | None,
    major_min: float,
    effective_max: float,
    effective_min: float,
    minor_max: float | None,
    minor_min: float | None,
) -> ThreadLimits:
    return ThreadLimits(
        major_max=None if major_max is None else major_max * INCH,
        major_min=major_min * INCH,
        effective_max=effective_max * INCH,
        effective_min=effective_min * INCH,
        minor_max=None if minor_max is None else minor_max * INCH,
        minor_min=None if minor_min is None else minor_min * INCH,
        note=_UNIFIED,
    )


def _minor_tolerance(major: float, pitch: float) -> float:
    """Return the tolerance of a 2B nut's minor diameter, in inches."""
    least = 0.25 * pitch - 0.4 * pitch**2
    if major >= 0.25:
        return least if pitch <= 0.25 else 0.15 * pitch
    return min(max(0.05 * pitch ** (2 / 3) + 0.03 * pitch / major - 0.002, least), 0.394 * pitch)
