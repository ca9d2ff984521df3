"""What does a bead or a grub screw add to a joint that stands already, and how warm does the work get?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table


@dataclass(frozen=True)
class Bead:
    """What a bead round a seat carries."""

    leg: float
    volume: float
    force: float
    torque: float


@calculation
def bead_strength(throat: float, diameter: float, allowable_shear: float, share: float = 1.0) -> Bead:
    """Force and torque that an even fillet round a pin or shaft carries.

    Equation:
        z = sqrt(2) * a
        V = pi * s * z ** 2 / 2 * (d + 2 * z / 3)
        F = tau * a * pi * d * s
        M = F * d / 2

    Parameters:
        throat: a [mm] (a > 0) throat: shortest way through the fillet
        diameter: d [mm] (d > 0) diameter of the pin or shaft that the bead goes round
        allowable_shear: tau [MPa] (tau > 0) shear stress you allow in the throat
        share: s [1] (0 < s <= 1) share of the way round that is run

    Returns:
        leg: z [mm] length leg of the fillet
        volume: V [mm^3] volume metal laid down
        force: F [N] force force along the pin that it carries
        torque: M [N*m] torque torque about the pin that it carries

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Flat fillet with equal legs, even stress. What bears people or holds pressure is for a qualified welder.

    Example:
        >>> bead = bead_strength(2, 20, 100)
        >>> round(bead.force), round(bead.torque, 1)
        (12566, 125.7)

    Source:
        Worked out here: the throat's area times its shear stress, as for `fillet_weld_length`. Volume: Pappus.

    Trust: exact
    """
    leg = math.sqrt(2) * throat
    force = allowable_shear * throat * math.pi * diameter * share
    volume = math.pi * share * leg**2 / 2 * (diameter + 2 * leg / 3)
    return Bead(leg, volume, force, force * diameter / 2000)


@calculation
def bead_warms(bead: float, mass: float, heat_to_melt: float = 2600.0, melting_share: float = 0.3) -> float:
    """How much warmer the whole work is when a bead of arc weld has spread its heat.

    Equation:
        T = Q * b / (eta * m)

    Parameters:
        bead: b [g] (b >= 0) mass of the metal laid down
        mass: m [g] (m > 0) mass of the work
        heat_to_melt: Q [K] (Q > 0) heat to warm and melt the metal, as a rise of temperature; steel about 2600
        melting_share: eta [1] (0 < eta <= 1) share of the arc's heat in the work that melts metal; about 0.3 by hand

    Returns:
        T [K] temperature_difference rise above the shop

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Bead and work of one metal; all heat stays in the work, and has spread. Near the bead it is far hotter for some
        seconds.

    Example:
        >>> round(bead_warms(0.8, 300), 1)
        23.1

    Source:
        Heat balance, worked out here. Steel: about 10 J/mm^3 to melt, over 7.85 g/cm^3 and 0.49 J/(g K); the share that
        melts is a welding textbook's, both from memory.

    Trust: estimate

    Checked: an energy balance with a rule of the trade for its one constant; no measured case is printed.
    """
    return heat_to_melt * bead / (melting_share * mass)


@calculation
def grub_screw_holding(diameter: float, screws: int = 1) -> float:
    """Force along a shaft that grub screws with a cup point hold.

    Table: grub_screws

    Parameters:
        diameter: d [mm] (2.9 <= d <= 12.7) major diameter of the screw
        screws: n [1] (1 <= n <= 2, whole number) one, or two at different places

    Returns:
        F [N] force force at which they slip

    Raises:
        OutOfRange: no such screw is in the table.

    Validity:
        Soft shaft, seated to its full torque. Divide by 1.5 to 2 for a steady load, by 4 to 8 for a varying one (from
        memory). Torque: force times the shaft's radius.

    Example:
        >>> grub_screw_holding(6.35)
        4448.0

    Source:
        The table named above, read between its rows along straight lines.

    Trust: table
    """
    rows = read_table("grub_screws").rows
    sizes = [float(row["diameter"]) for row in rows]
    above = next((i for i, size in enumerate(sizes) if size >= diameter - 1e-9), None)
    if above is None or diameter < sizes[0] - 1e-9:
        raise OutOfRange("diameter", diameter, "mm", f"{sizes[0]:g} to {sizes[-1]:g} mm")
    high = float(take(rows[above])["holding"])
    if above == 0 or abs(sizes[above] - diameter) < 1e-9:
        return high * screws
    low, share = (
        float(take(rows[above - 1])["holding"]),
        (diameter - sizes[above - 1]) / (sizes[above] - sizes[above - 1]),
    )
    return (low + share * (high - low)) * screws
