"""How far does a shaft bend, twist and open that has two webs and a pin off its axis?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import calculation
from .beams import STEEL
from .frames import rectangle_constant


@dataclass(frozen=True)
class OffsetShaft:
    """What the webs and the pin of a shaft give way."""

    in_plane: float
    across_plane: float
    twist: float
    opening: float


@calculation
def rectangle_torsion(width: float, thickness: float) -> float:
    """Torsion constant of a bar of rectangular section.

    Equation:
        s = min(b, t)
        l = max(b, t)
        J = l * s ** 3 * (1 / 3 - 0.21 * s / l * (1 - s ** 4 / (12 * l ** 4)))

    Parameters:
        width: b [mm] (b > 0) one side
        thickness: t [mm] (t > 0) the other side

    Returns:
        J [mm^4] inertia_area torsion constant

    Raises:
        OutOfRange: a side is not above nothing.

    Validity:
        Within 0.5 % of the exact series; the ends are free to warp.

    Example:
        >>> round(rectangle_torsion(10, 10), 0)
        1408.0

    Source:
        Handbook formula (from memory); the table of the exact series has 0.1406 for a square, 0.229 for two to one.

    Trust: estimate: within 0.5 %
    """
    return rectangle_constant(width, thickness)


@calculation
def offset_shaft(
    throw: float,
    pin: float,
    gap: float,
    web_thickness: float,
    web_width: float,
    force: float = 100.0,
    torque: float = 1.0,
    modulus: float = STEEL,
    poisson: float = 0.3,
) -> OffsetShaft:
    """Bending, twist and opening of two webs that a pin off the axis joins.

    One web is held at the axis; force and torque act on the other one at the axis, in the middle of its thickness.
    Journals that follow bend besides.

    Equation:
        L = g + t
        G = E / (2 * (1 + nu))
        A = pi * d ** 2 / 4
        I = pi * d ** 4 / 64
        I_p = pi * d ** 4 / 32
        A_w = b * t
        I_b = t * b ** 3 / 12
        I_t = b * t ** 3 / 12
        s = min(b, t)
        l = max(b, t)
        J_w = l * s ** 3 * (1 / 3 - 0.21 * s / l * (1 - s ** 4 / (12 * l ** 4)))
        w_i = F * (L ** 3 / (3 * E * I) + L ** 2 * e / (E * I_t) + 10 * L / (9 * G * A) + 2 * e / (E * A_w))
        w_b = L ** 3 / (3 * E * I) + 2 * e ** 3 / (3 * E * I_b)
        w_s = 10 * L / (9 * G * A) + 12 * e / (5 * G * A_w)
        w_a = F * (w_b + w_s + L * e ** 2 / (G * I_p) + L ** 2 * e / (G * J_w))
        phi = M * (L / (G * I_p) + 2 * e / (E * I_b))
        w_o = F * (2 * e ** 3 / (3 * E * I_t) + e ** 2 * L / (E * I) + L / (E * A) + 12 * e / (5 * G * A_w))

    Parameters:
        throw: e [mm] (e > 0) distance of the pin's axis from the axis
        pin: d [mm] (d > 0) diameter of the pin
        gap: g [mm] (g > 0) width between the webs
        web_thickness: t [mm] (t > 0) thickness of each web, along the axis
        web_width: b [mm] (b > 0) width of each web, across the throw
        force: F [N] (F >= 0) force across the shaft, or between the webs
        torque: M [N*m] (M >= 0) torque about the axis
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        poisson: nu [1] (0 <= nu < 0.5) Poisson's ratio

    Returns:
        in_plane: w_i [mm] clearance how far the free web moves under the force in the plane of the throw
        across_plane: w_a [mm] clearance how far it moves under the force square to that plane
        twist: phi [deg] angle how far it turns under the torque
        opening: w_o [mm] clearance how far the gap opens at the axis under the force that spreads the webs

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Webs of even section; rigid joints, which a press fit or a joint with compound only nears. The pin bends over
        the length between the middles of the webs, which is on the safe side.

    Example:
        >>> shaft = offset_shaft(13, 10, 20, 10, 25)
        >>> round(shaft.in_plane, 4), round(shaft.across_plane, 4), round(shaft.opening, 4)
        (0.0122, 0.0185, 0.0057)

    Source:
        Castigliano's theorem on three straight bars, with shear (10/9 for a round, 6/5 for a rectangle: energy method,
        from memory). A frame of beam elements, and the principle of virtual work, give the same.

    Trust: estimate: the joints give besides

    Checked: a frame of bars, held against finite elements in three dimensions; nobody prints such a shaft.
    """
    slide, length = modulus / (2 * (1 + poisson)), gap + web_thickness
    area, bend = math.pi * pin**2 / 4, math.pi * pin**4 / 64
    web, own, flat = (
        web_width * web_thickness,
        web_thickness * web_width**3 / 12,
        web_width * web_thickness**3 / 12,
    )
    torsion = rectangle_constant(web_width, web_thickness)
    bent = length**3 / (3 * modulus * bend)
    pin_shear, web_shear = 10 * length / (9 * slide * area), 12 * throw / (5 * slide * web)
    in_plane = bent + length**2 * throw / (modulus * flat) + pin_shear + 2 * throw / (modulus * web)
    across = bent + 2 * throw**3 / (3 * modulus * own) + pin_shear + web_shear
    across += length * throw**2 / (slide * 2 * bend) + length**2 * throw / (slide * torsion)
    opening = 2 * throw**3 / (3 * modulus * flat) + throw**2 * length / (modulus * bend)
    opening += length / (modulus * area) + web_shear
    twist = 1000 * torque * (length / (slide * 2 * bend) + 2 * throw / (modulus * own))
    return OffsetShaft(force * in_plane, force * across, math.degrees(twist), force * opening)
