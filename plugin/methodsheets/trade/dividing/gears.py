"""How large is the blank of a spur gear, how deep are its teeth, and which form cutter cuts them?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import calculation
from ..form.rows import take
from ..form.tables import read_table
from .dividing import whole

PRESSURE_ANGLE = 20.0
"""Degrees: ISO 53, profile A."""
FEW_TEETH = 17
"""With fewer teeth a generated flank of 20 degrees is undercut (theory: 17.1)."""


@dataclass(frozen=True)
class SpurGear:
    """The sizes of a spur gear, mm."""

    pitch_diameter: float
    blank: float
    root: float
    depth: float
    pitch: float
    tooth: float
    chord: float
    chord_height: float
    cutter: str
    cutter_by_pitch: str
    note: str


@dataclass(frozen=True)
class Rack:
    """The sizes of a rack, mm."""

    pitch: float
    depth: float
    tooth: float
    length: float
    cutter: str


@calculation
def spur_gear(module: float, teeth: float) -> SpurGear:
    """Sizes of a straight spur gear: blank, depth of cut, tooth over its chord, and the form cutter's number.

    Equation:
        d = m * z
        d_a = m * (z + 2)
        h = 2.25 * m
        d_f = d_a - 2 * h
        p = pi * m
        s_c = d * sin(pi / (2 * z))

    Table:
        gear_cutters

    Parameters:
        module: m [mm] (0.2 <= m <= 20) module
        teeth: z [1] (12 <= z <= 500, whole number) number of teeth

    Returns:
        pitch_diameter: d [mm] size pitch diameter
        blank: d_a [mm] size diameter of the blank, over the tips
        root: d_f [mm] size diameter at the bottom of the gaps
        depth: h [mm] size whole depth of cut
        pitch: p [mm] size from tooth to tooth round the pitch circle
        tooth: s [mm] size thickness of a tooth round the pitch circle
        chord: s_c [mm] size thickness of a tooth straight across, for the gear-tooth caliper
        chord_height: h_c [mm] size height of that chord below the tip
        cutter: [text] text number of the form cutter in a module set
        cutter_by_pitch: [text] text number in a set by diametral pitch
        note: [text] text what to know

    Raises:
        OutOfRange: a value lies outside the range given above, or the teeth are not whole.

    Validity:
        Full-depth teeth of 20 degrees by ISO 53 (addendum one module, dedendum 1.25), no profile shift, no backlash.

    Example:
        >>> gear = spur_gear(1.0, 38)
        >>> gear.blank, gear.depth, gear.cutter
        (40.0, 2.25, 'No. 6 (35 to 54 teeth)')

    Source:
        ISO 53:1998 profile A and ISO 54:1996 modules, from memory; cutter numbers by the table.

    Trust: exact
    """
    z = whole("teeth", teeth)
    pitch_diameter, blank = module * z, module * (z + 2)
    half = math.pi / (2 * z)
    number, other = _cutter(z)
    note = f"fewer than {FEW_TEETH} teeth: true flanks would be undercut" if z < FEW_TEETH else ""
    return SpurGear(
        pitch_diameter=pitch_diameter,
        blank=blank,
        root=blank - 4.5 * module,
        depth=2.25 * module,
        pitch=math.pi * module,
        tooth=math.pi * module / 2,
        chord=pitch_diameter * math.sin(half),
        chord_height=module + pitch_diameter / 2 * (1 - math.cos(half)),
        cutter=number,
        cutter_by_pitch=other,
        note=note,
    )


@calculation
def gear_rack(module: float, teeth: float) -> Rack:
    """Sizes of a straight rack and the form cutter's number.

    Equation:
        p = pi * m
        h = 2.25 * m
        l = p * z

    Table:
        gear_cutters

    Parameters:
        module: m [mm] (0.2 <= m <= 20) module
        teeth: z [1] (1 <= z <= 1000, whole number) number of teeth

    Returns:
        pitch: p [mm] size from tooth to tooth
        depth: h [mm] size whole depth of cut
        tooth: s [mm] size thickness of a tooth on the pitch line
        length: l [mm] length of so many teeth
        cutter: [text] text number of the form cutter in a module set

    Raises:
        OutOfRange: a value lies outside the range given above, or the teeth are not whole.

    Validity:
        Full-depth teeth of 20 degrees by ISO 53.

    Example:
        >>> round(gear_rack(1, 10).length, 3)
        31.416

    Source:
        ISO 53:1998, from memory: the rack is the basic profile itself.

    Trust: exact
    """
    z = whole("teeth", teeth)
    pitch = math.pi * module
    return Rack(pitch, 2.25 * module, pitch / 2, pitch * z, _cutter(10_000)[0])


def involute(angle: float) -> float:
    """Involute function of an angle in radians."""
    return math.tan(angle) - angle


def gap_half_angle(module: float, teeth: int, radius: float) -> float:
    """Half the angle (radians) of a tooth gap at a radius (mm); below the base circle its flanks run to the axis."""
    base = module * teeth / 2 * math.cos(math.radians(PRESSURE_ANGLE))
    at = math.acos(min(1.0, base / radius)) if radius > base else 0.0
    tooth = math.pi / (2 * teeth) + involute(math.radians(PRESSURE_ANGLE)) - involute(at)
    return math.pi / teeth - tooth


def _cutter(teeth: int) -> tuple[str, str]:
    """(number in a module set, number in a set by diametral pitch), each with the teeth it is for."""
    rows = read_table("gear_cutters").rows
    row = next(r for r in rows if int(r["from"]) <= teeth and (not r["to"] or teeth <= int(r["to"])))
    take(row)
    span = f"({row['from']} to {row['to']} teeth)" if row["to"] else f"({row['from']} teeth to a rack)"
    return f"No. {row['module_number']} {span}", f"No. {row['pitch_number']} {span}"
