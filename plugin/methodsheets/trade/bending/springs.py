"""How stiff is a coil spring, what does it bear, and how long is it when its coils touch?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation

SHEAR_MODULUS = 81_500.0
"""MPa: patented cold drawn wire, EN 13906-1 (from memory)."""


@dataclass(frozen=True)
class CoilSpring:
    """A helical compression or tension spring."""

    index: float
    rate: float
    stress: float
    corrected: float
    correction: float
    solid: float
    travel: float
    wire: float
    note: str


@calculation
def coil_spring(
    wire: float,
    mean_diameter: float,
    coils: float,
    load: float,
    end_coils: float = 2.0,
    shear_modulus: float = SHEAR_MODULUS,
) -> CoilSpring:
    """Rate and stress of a helical spring of round wire.

    Equation (units as listed):
        w = D / d
        R = G * d ** 4 / (8 * D ** 3 * n)
        tau = 8 * D * F / (pi * d ** 3)
        k = (w + 0.5) / (w - 0.75)
        tau_k = k * tau
        L_c = (n + n_e) * d
        s = F / R

    Parameters:
        wire: d [mm] (0.1 <= d <= 20) diameter of the wire
        mean_diameter: D [mm] (D > 0) mean diameter of the coils: inside diameter and one wire
        coils: n [1] (n >= 1) coils that work
        load: F [N] (F >= 0) force on the spring
        end_coils: n_e [1] (0 <= n_e <= 4) coils at the ends that do not work: two where they are closed
        shear_modulus: G [MPa] (G > 0) of the wire: 81500 for cold drawn spring wire, 70000 for stainless

    Returns:
        index: w [1] ratio  coil to wire
        rate: R [N/mm] stiffness  force for each millimetre
        stress: tau [MPa] stress  shear in the wire
        corrected: tau_k [MPa] stress  the same where the wire is bent most: for a spring that works often
        correction: k [1] ratio  for the bend of the wire (Bergstraesser)
        solid: L_c [mm] length  length when the coils touch, ends ground
        travel: s [mm] length  how far the load moves it
        wire: [mm] length  wire that it takes, ends not counted twice
        note: [text] text  what to know

    Raises:
        OutOfRange: a value lies outside the range given above, or the coils are no wider than the wire.

    Validity:
        Cold wound round wire, even pitch, index 4 to 20.

    Heed:
        d > 17: thick wire is wound hot, and is reckoned otherwise

    Example:
        >>> spring = coil_spring(2, 16, 8, 50)
        >>> round(spring.rate, 2), round(spring.stress), spring.solid
        (4.97, 255, 20.0)

    Source:
        EN 13906-1:2013, formulas for rate, stress and correction, from memory.

    Trust: exact
    """
    if mean_diameter <= 1.5 * wire:
        raise OutOfRange("mean_diameter", mean_diameter, "mm", f"well above the wire ({wire:g} mm)")
    index = mean_diameter / wire
    rate = shear_modulus * wire**4 / (8 * mean_diameter**3 * coils)
    stress = 8 * mean_diameter * load / (math.pi * wire**3)
    correction = (index + 0.5) / (index - 0.75)
    note = "" if 4 <= index <= 20 else "index outside 4 to 20: hard to wind true"
    return CoilSpring(
        index=index,
        rate=rate,
        stress=stress,
        corrected=correction * stress,
        correction=correction,
        solid=(coils + end_coils) * wire,
        travel=load / rate,
        wire=math.pi * mean_diameter * (coils + end_coils),
        note=note,
    )
