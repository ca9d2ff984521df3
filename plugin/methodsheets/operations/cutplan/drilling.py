"""Which drills go before a large one?"""

from __future__ import annotations

from collections.abc import Mapping

FROM_SOLID: Mapping[str, float] = {"light": 10.0, "medium": 14.0, "heavy": 22.0}
"""mm: up to here a drill goes into solid metal at once, by the machine's duty (common practice, from memory)."""
STEP: Mapping[str, float] = {"light": 8.0, "medium": 12.0, "heavy": 25.0}
"""mm by which one drill may be larger than the hole before it, so that the machine feeds it (from memory)."""
DRILLS_FIRST = "drills before a large one"
"""What the sizes of those drills rest on, as a footnote names it."""
WEB = 0.2
"""Share of the diameter that the chisel edge of a drill takes; the first hole is no smaller (common practice)."""


def drills_before(diameter: float, there: float, duty: str) -> tuple[float, ...]:
    """The drills to go through first, mm, the smallest first; nothing where the hole needs none.

    Parameters:
        diameter: [mm] of the drill; there: [mm] hole that is there already; duty: light, medium or heavy
    """
    most = FROM_SOLID.get(duty, FROM_SOLID["light"])
    step = STEP.get(duty, STEP["light"])
    if diameter <= most or there >= diameter - step or there >= 0.75 * diameter:
        return ()
    found = [] if there > WEB * diameter else [float(max(3, round(WEB * diameter + 1)))]
    now = found[0] if found else there
    count = 0
    while diameter - now > step * (count + 1) * 1.05:
        count += 1
    between = [float(round(now + (diameter - now) * (i + 1) / (count + 1))) for i in range(count)]
    return (*found, *between)
