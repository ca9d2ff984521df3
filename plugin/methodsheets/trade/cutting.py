"""How fast does the spindle turn, how fast does metal come off, and in how many cuts?"""

from __future__ import annotations

import math

from .calculation import calculation


@calculation
def spindle_speed(cutting_speed: float, diameter: float) -> float:
    """Spindle speed that gives a cutting speed at a diameter.

    Equation:
        n = v / (pi * d)

    Parameters:
        cutting_speed: v [m/min] (0 < v <= 3000) speed of the work's surface past the tool
        diameter: d [mm] (d > 0) largest diameter of the cut; of the cutter when the tool turns

    Returns:
        n [1/min] spindle_speed

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact. At a constant spindle speed the cutting speed falls to nothing at the centre when facing.

    Example:
        >>> round(spindle_speed(25, 12))
        663

    Source:
        Machine-tool dealer's tips page, 12 mm end mill at 25 m/min (page read).

    Trust: exact
    """
    return 1000 * cutting_speed / (math.pi * diameter)
