"""How large a gap does a brazed or bonded joint want, how much filler, and what does it carry?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import take
from ..form.tables import number, read_table


@dataclass(frozen=True)
class JointGap:
    """The gap a way of joining wants."""

    process: str
    gap_low: float
    gap_best: float
    gap_high: float
    counted: str
    shear_low: float | None
    shear_high: float | None
    note: str


@dataclass(frozen=True)
class BrazedJoint:
    """A round brazed socket: sizes and filler."""

    hole: float
    area: float
    gap_volume: float
    fillet_volume: float
    filler_volume: float
    wire_length: float


@dataclass(frozen=True)
class BondedJoint:
    """What a cylindrical bonded or brazed joint carries."""

    area: float
    force: float
    torque: float


@calculation
def joint_gap(process: str) -> JointGap:
    """Gap that a way of joining wants, and whether it is per side or on the diameter.

    Table: joint_gaps

    Parameters:
        process: [text] silver brazing, silver soldering, retainer low viscosity, retainer high viscosity

    Returns:
        process: [text] text the way of joining
        gap_low: [mm] clearance least gap that works
        gap_best: [mm] clearance best gap; the middle of the range where none is named
        gap_high: [mm] clearance greatest gap that works
        counted: [text] text per side, or on the diameter
        shear_low: [MPa] stress low figure for the shear strength; nothing where there is none to rely on
        shear_high: [MPa] stress high figure for the same
        note: [text] text what else to know

    Raises:
        NotInTable: the table has no such way of joining.

    Validity:
        Clean, close-fitting, the gap as it is at brazing temperature. The maker's sheet for your filler goes first.

    Example:
        >>> joint_gap("silver brazing").gap_best
        0.038

    Source:
        Supplier pages named in the table.

    Trust: table
    """
    rows = read_table("joint_gaps").rows
    for row in rows:
        if " ".join(process.lower().split()) in {row["process"], *row["also"].split("|")}:
            low, high = float(take(row)["gap_low"]), float(row["gap_high"])
            best = number(row["gap_best"])
            shear_low, shear_high = number(row["shear_low"]), number(row["shear_high"])
            middle = round((low + high) / 2, 6) if best is None else best
            return JointGap(
                process=row["process"],
                gap_low=low,
                gap_best=middle,
                gap_high=high,
                counted=row["counted"],
                shear_low=shear_low,
                shear_high=shear_high,
                note=row["note"],
            )
    raise NotInTable(process, "way of joining", tuple(row["process"] for row in rows))


@calculation
def brazed_socket(
    diameter: float, lap: float, gap: float = 0.038, fillet: float = 0.0, wire: float = 1.5, waste: float = 0.25
) -> BrazedJoint:
    """Bore, area and filler of a round part brazed into a socket.

    Equation:
        D = d + 2 * g
        A = pi * d * L
        V_g = pi / 4 * (D ** 2 - d ** 2) * L
        V_f = pi * z ** 2 / 2 * (d + 2 * z / 3)
        V = (V_g + V_f) * (1 + w)
        L_w = 4 * V / (pi * d_w ** 2)

    Parameters:
        diameter: d [mm] (d > 0) outside of the part that goes in
        lap: L [mm] (L > 0) length inside the socket
        gap: g [mm] (g > 0) gap per side
        fillet: z [mm] (z >= 0) leg of the flat fillet round the mouth; nothing for none
        wire: d_w [mm] (d_w > 0) diameter of the filler wire
        waste: w [1] (w >= 0) filler that ends elsewhere, as a share

    Returns:
        hole: D [mm] size bore of the socket
        area: A [mm^2] area area of the joint
        gap_volume: V_g [mm^3] volume filler in the gap
        fillet_volume: V_f [mm^3] volume filler in the fillet
        filler_volume: V [mm^3] volume filler to feed, waste included
        wire_length: L_w [mm] length that as wire

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        One mouth. Fumes of flux and of some fillers are poisonous: good draught, no cadmium filler, no cleaning of
        zinc plate by flame.

    Example:
        >>> tube = brazed_socket(6, 10, gap=0.05)
        >>> round(tube.hole, 3), round(tube.area, 1), round(tube.gap_volume, 2)
        (6.1, 188.5, 9.5)

    Source:
        Geometry, worked out here. The share of waste is common practice.

    Trust: exact
    """
    hole = diameter + 2 * gap
    gap_volume = math.pi / 4 * (hole**2 - diameter**2) * lap
    # Triangle z by z turned about the axis; its middle stands z/3 off the part (Pappus).
    fillet_volume = math.pi * fillet**2 / 2 * (diameter + 2 * fillet / 3)
    filler = (gap_volume + fillet_volume) * (1 + waste)
    return BrazedJoint(
        hole=hole,
        area=math.pi * diameter * lap,
        gap_volume=gap_volume,
        fillet_volume=fillet_volume,
        filler_volume=filler,
        wire_length=4 * filler / (math.pi * wire**2),
    )


@calculation
def gap_when_hot(
    gap: float, diameter: float, inner_expansion: float, outer_expansion: float, temperature_rise: float
) -> float:
    """Gap per side between two metals at brazing temperature.

    Equation:
        g_h = g + d * (alpha_o - alpha_i) * T / 2

    Parameters:
        gap: g [mm] gap per side when cold
        diameter: d [mm] (d > 0) diameter of the joint
        inner_expansion: alpha_i [1/K] expansion of the part inside
        outer_expansion: alpha_o [1/K] expansion of the part outside
        temperature_rise: T [delta_degC] from the shop to the brazing temperature; about 650 for easy silver solder

    Returns:
        g_h [mm] deviation gap per side when hot; below nothing it is shut

    Raises:
        OutOfRange: the diameter is not above nothing.

    Validity:
        Both parts at one temperature. Expansion taken as constant, so a tenth or two short at red heat.

    Example:
        >>> round(gap_when_hot(0.05, 20, 20.9e-6, 11.7e-6, 630), 3)
        -0.008

    Source:
        Worked out here: a brass plug of 20 mm in a steel ring shuts a 0.05 mm gap.

    Trust: estimate
    """
    return gap + diameter * (outer_expansion - inner_expansion) * temperature_rise / 2


@calculation
def braze_lap(thickness: float, factor: float = 3.5) -> float:
    """Lap of a brazed joint that is as strong as the thinner part.

    Equation:
        L = k * t

    Parameters:
        thickness: t [mm] (t > 0) thickness of the thinner part
        factor: k [1] (3 <= k <= 4) three to four times

    Returns:
        L [mm] length lap

    Raises:
        OutOfRange: the factor is not between 3 and 4.

    Validity:
        Sheet and tube, silver brazed.

    Example:
        >>> braze_lap(1.2)
        4.2

    Source:
        Supplier pages (read): three to four times the thinner part.

    Trust: common practice

    Checked: a rule of the trade (laps of three to four walls), which makers print without cases.
    """
    return round(factor * thickness, 9)


@calculation
def bonded_joint(diameter: float, length: float, shear_strength: float) -> BondedJoint:
    """Force and torque at which a round bonded, retained or brazed joint gives way.

    Equation:
        A = pi * d * L
        F = tau * A
        M = F * d / 2

    Parameters:
        diameter: d [mm] (d > 0) diameter of the joint
        length: L [mm] (L > 0) length of the joint
        shear_strength: tau [MPa] (tau > 0) shear strength of the compound or filler

    Returns:
        area: A [mm^2] area area of the joint
        force: F [N] force force along the shaft at which it gives way
        torque: M [N*m] torque torque at which it gives way

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Gap inside the compound's range, clean, cured, cool. The maker's figure is for one steel test piece: hot joints,
        stainless, plated and passive metals and long joints hold less. Take a half or less.

    Heed:
        L > 2 * d: longer than two diameters: the far end of the joint carries little

    Example:
        >>> seat = bonded_joint(10, 12, 26)
        >>> round(seat.force, 1), round(seat.torque, 2)
        (9801.8, 49.01)

    Source:
        Worked out here with the shear strength on an adhesive maker's page (26 N/mm^2, low-viscosity retainer).

    Trust: estimate
    """
    area = math.pi * diameter * length
    force = shear_strength * area
    return BondedJoint(area, force, force * diameter / 2000)
