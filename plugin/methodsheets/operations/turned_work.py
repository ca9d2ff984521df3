"""Which words, limits and checks do the verbs of turned work share?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.change import Change

from .facts import judged
from .say import dia, diameter, number
from .station import Station
from .words import Clause, Said

CLEAR = 1.0
"""mm that a cutter reaches past the face and past the swing, so that no skin is left by rounding."""

OVER = Clause("over", "length", "length of the cut")
FROM = Clause("from", "length", "where it starts, from the face", apart=True)
CORNER = Clause("corner", "length", "radius left in the corner", apart=True)
LEAVE = Clause("leave", "length", "metal left on the diameter for a later cut")
CALLED = Clause("called", "text", "name of the feature", changes=(Change.NAME,))
INSIDE = Clause("inside", "flag", "in the bore")
LEFT_HAND = Clause("left hand", "flag", "left-hand tool", changes=(Change.CHECKS,))


def inside_work(station: Station, said: Said, start: float, end: float) -> None:
    """Refuse a cut that has no length or that ends behind the work."""
    if start < 0 or end <= start:
        raise MethodError(
            said.place,
            f"a cut from {number(start)} to {number(end)} mm has no length",
            "lengths run from the face into the metal",
            "check `from` and `over`",
            code="wrong-value",
        )
    if end > station.length + 0.5:
        raise MethodError(
            said.where("over"),
            f"the cut ends {number(end)} mm from the face (got {number(end)} mm of {number(station.length)} mm)",
            "the work is no longer than that",
            "shorten `over` or use longer stock",
            code="too-long",
        )


def removes(said: Said, to: float, there: float) -> None:
    """Refuse a diameter that is not below the one that is there."""
    if to <= 0:
        raise MethodError(
            said.where("to"),
            f"a diameter is more than nothing (got {number(to)} mm)",
            "sizes are positive",
            "check the size",
            code="wrong-value",
        )
    if to >= there - 1e-6:
        raise MethodError(
            said.where("to"),
            f"there is no metal to turn away: {diameter(to)} is wanted and the work is {diameter(there)}"
            f" there (got {number(to)} mm)",
            "turning makes the diameter smaller",
            "check the size, the place or the stock",
            code="larger-than-work",
        )


def clear_in_front(station: Station, span: tuple[float, float], radius: float, said: Said, *, plain: bool) -> Check:
    """A right-hand tool comes in from the tailstock over everything that lies nearer to you.

    `span` = where the cut begins and ends, mm from the face; `plain`: it is of one diameter, as a groove is.
    """
    start, end = span
    line = said.place.line
    if start <= 0.011 or said.get("left hand"):
        words = "the tool comes in from the face" if start <= 0.011 else "left-hand tool: comes in from the chuck side"
        return judged("way-in", True, words, line)
    in_front = station.swing(0, start - 0.01)
    if in_front <= radius + 1e-6:
        return judged("way-in", True, f"nothing in front of the cut stands above {dia(2 * radius)}", line)
    words = f"metal to {dia(2 * in_front)} stands in front of the cut to {dia(2 * radius)}: "
    ways = ["say `left hand`"] if station.swing(end + 0.01, station.length) <= radius + 1e-6 else []
    ways += [f"cut its whole width: {as_groove(start, end, 2 * radius)}"] if plain else []
    remedy = ", or ".join([*ways, "turn the shape by points with `profile`"])
    return judged("way-in", False, words + "a right-hand tool does not get in", line, remedy=remedy)


def as_groove(start: float, end: float, to: float) -> str:
    """The line that cuts so far with a narrow tool: lengths from the face and a diameter, mm."""
    return f"`groove: from {number(start)} mm, wide {number(end - start)} mm, to {number(to)} mm`"
