"""How would a person at this machine take the cut: at which speed, in how many passes, how deep, and why?

Plain numbers in, a plan and its reasons out. Nothing here knows a method file, a workshop file or a solid.

`bounds` says how fast work may turn as it is held, and a thread may be cut up to a shoulder; `steps` divides a depth
into equal passes of round numbers on a dial; `speeds` chooses speed and depth together, so that the cut takes the least
time that the motor, the holding and the tool allow. What an author wrote himself goes in as the only choice.
"""

from .bounds import (
    HAND_STOPS,
    Bound,
    blade_bound,
    ceiling,
    held_down,
    holding_bound,
    screwcutting_bound,
    stopped_by_hand,
)
from .drilling import DRILLS_FIRST, drills_before
from .speeds import Choice, Cut, Motor, choose, worth_a_change
from .steps import ABOVE, round_passes, round_steps

__all__ = [
    "ABOVE", "DRILLS_FIRST", "HAND_STOPS", "Bound", "Choice", "Cut", "Motor", "blade_bound", "ceiling", "choose",
    "drills_before", "held_down", "holding_bound", "round_passes", "round_steps", "screwcutting_bound",
    "stopped_by_hand", "worth_a_change",
]  # fmt: skip
