"""How fast may work turn that is held so, and how fast may a thread run up to a shoulder?

All of it is common practice from memory, for sound holders on a light lathe. A maker's own limit and the machine's
manual go before it. It says how fast a careful person would run, never that a speed is safe.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from methodsheets.operations.say import resting
from methodsheets.vocabulary.holding import Way


@dataclass(frozen=True)
class Bound:
    """A highest spindle speed [1/min] with its reason; infinite where nothing is known that limits it."""

    speed: float = math.inf
    reason: str = ""


SHORT_GRIP, SHORT_SPEED = 0.35, 600.0
"""Grip over diameter below which jaws hold badly, and the highest speed then [1/min] (common practice, from memory)."""
LONG_OUT, LONG_SPEED = 5.0, 700.0
"""Stick-out over diameter from which free work whips, and the highest speed then [1/min] (from memory)."""
IRON_RIM = 25.0
"""m/s at the rim of what is held off centre or clamped: half of what sound cast iron rims were run at (from memory)."""
REACTION = 0.7
"""Seconds in which a hand sees the mark, opens the half nuts and draws the tool out (an estimate)."""
FREE_RUN, LEAST_RUN = 25.0, 1.0
"""mm that a thread may run out where nothing stands in its way, and the least that counts where a shoulder does."""
FASTEST_THREAD = 250.0
"""1/min: above this no thread is cut by hand on the half nuts (common practice)."""


CEILINGS = "highest spindle speeds"
BY_HAND = "the last turns by hand: no speed is slow enough to stop at the shoulder"


def ceiling(speed: float, reason: str) -> str:
    """A draft: '600 1/min', marked, since all these ceilings are common practice from memory."""
    return resting(f"{speed:.0f} 1/min", (f"{CEILINGS}: {reason}",))


def held_down(speed: float, reason: str) -> str:
    """A draft: 'held down to 600 1/min: a short grip'."""
    return f"held down to {ceiling(speed, reason)}" + (f": {reason}" if reason else "")


def holding_bound(
    way: Way | None, diameter: float, grip: float = 0.0, stick_out: float = 0.0, supported: bool = False
) -> Bound:
    """The highest speed for work held so.

    Parameters:
        way: how it is held; None for a way that the handbook does not know
        diameter: [mm] of the work; grip: [mm] length held, 0 where not known; stick_out: [mm] free length
        supported: whether a centre or a steady carries its end
    """
    row = way.row if way is not None else None
    supported = supported or (row is not None and row.carrier_turns)
    found = [Bound(*most) for most in row.at_most] if row is not None else []
    if row is not None and row.jaws and 0 < grip < SHORT_GRIP * diameter and not supported:
        found.append(Bound(SHORT_SPEED, "a short grip"))
    if stick_out > LONG_OUT * diameter > 0 and not supported:
        found.append(Bound(LONG_SPEED, "the work sticks out far"))
    return min(found, key=lambda bound: bound.speed, default=Bound())


FASTEST_FEED = 180.0
"""mm/min: a saddle that runs faster is not stopped at a shoulder by hand (common practice, from memory)."""
HAND_STOPS = "a hand must stop the feed at the shoulder"
BLADES: Mapping[str, float] = {"light": 350.0, "medium": 600.0, "heavy": 1200.0}
"""1/min: a blade is not fed into faster work, by the machine's duty (common practice, from memory)."""


def stopped_by_hand(spindles: Iterable[float], feed: float) -> set[float]:
    """Of some spindle speeds [1/min] those at which a hand stops a feed of so many mm a turn; the lowest always."""
    tried = sorted(spindles)
    return {one for one in tried if one * feed <= FASTEST_FEED} | set(tried[:1])


def blade_bound(duty: str) -> Bound:
    """The highest speed at which a parting or grooving blade goes in, by the machine's duty."""
    return Bound(BLADES.get(duty, BLADES["light"]), "a blade chatters")


def screwcutting_bound(pitch: float, run_out: float, slowest: float = 0.0) -> Bound:
    """The highest speed at which a hand stops a thread in its run-out.

    The saddle moves n P a minute; in the time of reaction it may not run farther than the run-out.

    Parameters:
        pitch: [mm] lead of the thread
        run_out: [mm] from the end of the thread to what stands in its way; infinite where nothing does
        slowest: [1/min] lowest speed of the machine: where that is too fast, the last turns are made by hand
    """
    room = min(FREE_RUN, max(LEAST_RUN, run_out))
    speed = 60.0 * room / (REACTION * pitch)
    if speed >= FASTEST_THREAD:
        return Bound(FASTEST_THREAD, "the half nuts are worked by hand")
    if speed < slowest:
        return Bound(slowest, BY_HAND)
    return Bound(speed, "a hand must stop it in its run-out")
