"""How strong is a pinned or welded joint?"""

from __future__ import annotations

import math

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table


@calculation
def pin_shear(force: float, diameter: float, planes: int = 1) -> float:
    """Shear stress in a pin or bolt across one or two planes.

    Equation:
        tau = 4 * F / (n * pi * d ** 2)

    Parameters:
        force: F [N] (F >= 0) force the pin carries
        diameter: d [mm] (d > 0) diameter of the pin
        planes: n [1] (1 <= n <= 2, whole number) 1 for single shear, 2 for double shear

    Returns:
        tau [MPa] stress shear stress

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Even stress, close-fitting pin, no bending. Steel shears at about 0.6 of its tensile strength (from memory).

    Example:
        >>> round(pin_shear(12 * 4448.2216, 0.75 * 25.4, planes=2) / 6.894757, 1)
        13.6

    Source:
        A published textbook of mechanics of materials, chapter 1: 12 kip on a 3/4 inch pin in double shear, 13.6 ksi.

    Trust: exact
    """
    return 4 * force / (planes * math.pi * diameter**2)


@calculation
def pin_diameter(force: float, allowable_shear: float, planes: int = 1) -> float:
    """Diameter of a pin that carries a force at an allowable shear stress.

    Equation:
        d = sqrt(4 * F / (n * pi * tau))

    Parameters:
        force: F [N] (F >= 0) force the pin carries
        allowable_shear: tau [MPa] (tau > 0) shear stress you allow
        planes: n [1] (1 <= n <= 2, whole number) 1 for single shear, 2 for double shear

    Returns:
        d [mm] length least diameter

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As for pin_shear. Check the bearing stress as well.

    Example:
        >>> round(pin_diameter(1000, 80), 2)
        3.99

    Source:
        Worked out here, pin_shear turned round.

    Trust: exact
    """
    return math.sqrt(4 * force / (planes * math.pi * allowable_shear))


@calculation
def bearing_stress(force: float, diameter: float, thickness: float) -> float:
    """Pressure of a pin on the side of its hole.

    Equation:
        s = F / (d * t)

    Parameters:
        force: F [N] (F >= 0) force on this plate or side
        diameter: d [mm] (d > 0) diameter of the pin
        thickness: t [mm] (t > 0) thickness of the plate, or of both outer plates together

    Returns:
        s [MPa] stress mean pressure on the projected area

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Close-fitting pin.

    Example:
        >>> round(bearing_stress(12 * 4448.2216, 0.75 * 25.4, 0.75 * 25.4) / 6.894757, 1)
        21.3

    Source:
        A published textbook of mechanics of materials, chapter 1: strut 21.3 ksi (two plates of 3/8 inch).

    Trust: exact
    """
    return force / (diameter * thickness)


@calculation
def cross_pin_shear(torque: float, shaft: float, diameter: float) -> float:
    """Shear stress in a pin driven across a shaft and its hub that carries a torque.

    Equation:
        tau = 4 * M / (pi * d ** 2 * D)

    Parameters:
        torque: M [N*m] (M >= 0) torque the pin carries
        shaft: D [mm] (D > 0) diameter of the shaft
        diameter: d [mm] (d > 0) diameter of the pin

    Returns:
        tau [MPa] stress shear stress in each of the two planes

    Raises:
        OutOfRange: the pin is not smaller than the shaft.

    Validity:
        Even stress; the pin at most about a third of the shaft (common practice), which it weakens.

    Heed:
        d > 0.34 * D: more than a third of the shaft: the hole weakens it

    Example:
        >>> round(cross_pin_shear(2, 8, 2), 1)
        79.6

    Source:
        Worked out here: half the torque at each side of the shaft, on the pin's section.

    Trust: exact
    """
    if diameter >= shaft:
        raise OutOfRange("diameter", diameter, "mm", "less than the shaft's")
    return 4 * torque * 1000 / (math.pi * diameter**2 * shaft)


@calculation
def fillet_throat(leg: float) -> float:
    """Throat of an even fillet weld or braze.

    Equation:
        a = z / sqrt(2)

    Parameters:
        leg: z [mm] (z > 0) length of one leg

    Returns:
        a [mm] length throat: shortest way through the fillet

    Raises:
        OutOfRange: the leg is not above nothing.

    Validity:
        Flat fillet with equal legs. A hollow fillet has less.

    Example:
        >>> round(fillet_throat(10), 2)
        7.07

    Source:
        A published textbook of strength of materials, chapter 17, uses 0.707 of the leg.

    Trust: exact
    """
    return leg / math.sqrt(2)


@calculation
def fillet_weld_length(
    force: float, leg: float, allowable_shear: float, runs: int = 2, end_allowance: float = 0.0
) -> float:
    """Length of each run of fillet weld that carries a force.

    Equation:
        L = F * sqrt(2) / (n * z * tau) + c

    Parameters:
        force: F [N] (F >= 0) force along the welds
        leg: z [mm] (z > 0) leg of the fillet
        allowable_shear: tau [MPa] (tau > 0) shear stress you allow in the throat
        runs: n [1] (n >= 1, whole number) number of runs that share it
        end_allowance: c [mm] (c >= 0) added to each run for its start and stop; published examples add 12.5 mm

    Returns:
        L [mm] length length of each run

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Force along the runs, even stress. What bears people or holds pressure is for a qualified welder.

    Example:
        >>> round(fillet_weld_length(50000, 10, 60), 2), round(fillet_weld_length(50000, 10, 60, 2, 12.5), 2)
        (58.93, 71.43)

    Source:
        A published textbook of strength of materials, chapter 17, example 17.3.

    Trust: exact
    """
    return force * math.sqrt(2) / (runs * leg * allowable_shear) + end_allowance


@calculation
def spring_pin_strength(diameter: float) -> float:
    """Force at which a heavy slotted spring pin breaks in double shear.

    Table: spring_pins

    Parameters:
        diameter: d [mm] (1 <= d <= 12) nominal diameter of the pin and of its hole (drilled, H12)

    Returns:
        F [N] force least breaking force across two planes

    Raises:
        NotInTable: no such pin is made.

    Validity:
        Spring steel, both shear planes clear of the ends. Half of it in single shear.

    Example:
        >>> spring_pin_strength(3)
        6320.0

    Source:
        From memory of ISO 8752.

    Trust: table
    """
    rows = read_table("spring_pins").rows
    for row in rows:
        if float(row["diameter"]) == diameter:
            return float(take(row)["double_shear"])
    raise NotInTable(f"{diameter:g}", "spring pin diameter", tuple(row["diameter"] for row in rows))
