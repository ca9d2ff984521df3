"""How long is a rivet, how large is its hole, and what does it carry?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation

SNAP_DIAMETER, SNAP_HEIGHT = 1.75, 0.75
COUNTERSUNK_DIAMETER, COUNTERSUNK_HEIGHT = 2.0, 0.5
PAN_DIAMETER, PAN_HEIGHT = 1.6, 0.7
"""Shares of the shank's diameter: proportions of small rivets, BS 641, from memory."""
HOLE_SHARE, HOLE_LEAST = 0.04, 0.1
"""Room of a rivet's hole: a share of the rivet, and mm at least; common practice, from memory."""
MOST_GRIP = 5.0
"""Diameters that a rivet closes up well: beyond, the shank bends and does not fill its hole (common practice)."""


@dataclass(frozen=True)
class Rivet:
    """A closed rivet and what it is made from; mm."""

    head_diameter: float
    head_height: float
    sunk: float
    hole: float
    allowance: float
    length: float


@calculation
def rivet(diameter: float, grip: float, head: str = "snap", hole: float = 0.0) -> Rivet:
    """Head, hole and length of a rivet: what must stand out so that it fills its hole and makes its head.

    Equation:
        a = (V_h + pi / 4 * (d_h ** 2 - d ** 2) * g) / (pi / 4 * d ** 2)
        L = g + a

    Parameters:
        diameter: d [mm] (d > 0) diameter of the rivet before it is closed
        grip: g [mm] (g > 0) thickness of what it holds together, over the countersinks
        head: [text] (one of snap, countersunk, pan) head that is made at its end
        hole: d_h [mm] (d_h >= 0) diameter of its hole; 0 takes the usual one

    Returns:
        head_diameter: [mm] size  diameter of the head
        head_height: [mm] size  how far it stands out
        sunk: [mm] size  how deep it goes into its countersink of 90 degrees
        hole: [mm] size  the usual hole, to the next tenth
        allowance: a [mm] size  what stands out before it is closed
        length: L [mm] length  rivet under its head, or over all where that is countersunk

    Raises:
        OutOfRange: a value lies outside the range given above, or the hole is not larger than the rivet.

    Validity:
        Equal volumes: all that stands out goes into head and hole. Old rules give 1.25 to 1.5 d for a snap head and
        0.75 to 1 d for a countersunk one, of which a little is filed off.

    Example:
        A 4 mm snap head over 10 mm: the head alone takes 1.43 d.
        >>> found = rivet(4, 10, "snap", 4.0001)
        >>> round(found.allowance / 4, 2), round(found.head_diameter, 2)
        (1.43, 7.0)

    Source:
        Worked out here, by volumes. Proportions of heads: BS 641, from memory. Rules: workshop texts, from memory.

    Trust: common practice

    Checked: volumes against closed forms, and the range of the old rules; no worked case is printed.
    """
    usual = math.ceil(10 * (diameter + max(HOLE_LEAST, HOLE_SHARE * diameter)) - 1e-6) / 10
    wide = hole or usual
    if wide <= diameter:
        raise OutOfRange("hole", wide, "mm", f"more than the rivet ({diameter:g} mm)")
    across, high, sunk, volume = _head(head)
    area = math.pi / 4 * diameter**2
    fill = math.pi / 4 * (wide**2 - diameter**2) * grip
    more = (volume * diameter**3 + fill) / area
    return Rivet(across * diameter, high * diameter, sunk * diameter, usual, more, grip + more)


def _head(head: str) -> tuple[float, float, float, float]:
    """(diameter, height outside, depth inside, volume of metal beyond the shank) for a rivet of diameter 1."""
    if head == "snap":
        a, k = SNAP_DIAMETER / 2, SNAP_HEIGHT
        return SNAP_DIAMETER, k, 0.0, math.pi * k * (3 * a * a + k * k) / 6
    if head == "pan":
        wide, k = PAN_DIAMETER, PAN_HEIGHT
        return wide, k, 0.0, math.pi * k * (wide * wide + wide + 1) / 12
    wide, k = COUNTERSUNK_DIAMETER, COUNTERSUNK_HEIGHT
    return wide, 0.0, k, math.pi * k * (wide * wide + wide + 1) / 12 - math.pi / 4 * k


@dataclass(frozen=True)
class RivetStrength:
    """Where riveted plates give way, N."""

    shear: float
    bearing: float
    force: float


@calculation
def rivet_strength(
    hole: float, count: float, planes: float, thinnest: float, rivet_yield: float, plate_yield: float
) -> RivetStrength:
    """Force across rivets at which they shear, or at which a plate gives at its holes.

    Equation:
        F_s = n * m * pi / 4 * d_h ** 2 * R_r / 2
        F_b = n * d_h * t * R_p
        F = min(F_s, F_b)

    Parameters:
        hole: d_h [mm] (d_h > 0) diameter of the hole, which a closed rivet fills
        count: n [1] (n >= 1, whole number) rivets
        planes: m [1] (m >= 1, whole number) planes in which each is sheared: plates less one
        thinnest: t [mm] (t > 0) thickness of the thinner plate, or of those that pull one way together
        rivet_yield: R_r [MPa] (R_r > 0) yield strength of the rivet
        plate_yield: R_p [MPa] (R_p > 0) yield strength of the plate

    Returns:
        shear: F_s [N] force  where the rivets yield in shear, at half of their yield in tension (Tresca)
        bearing: F_b [N] force  where the plate yields at the holes
        force: F [N] force  the smaller of the two

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Even load on all rivets, no bending, holes two diameters from every edge. Divide by 1.5 to 2 for a steady load.
        What bears people or holds pressure is for a qualified designer.

    Example:
        >>> found = rivet_strength(4.2, 2, 1, 3, 200, 215)
        >>> round(found.shear), round(found.bearing)
        (2771, 5418)

    Source:
        Worked out here: area times stress, as in every text on riveted joints.

    Trust: exact

    Checked: area times stress; texts print no case that fits small rivets.
    """
    shear = count * planes * math.pi / 4 * hole**2 * rivet_yield / 2
    bearing = count * hole * thinnest * plate_yield
    return RivetStrength(shear, bearing, min(shear, bearing))
