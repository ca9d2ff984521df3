"""Do two units measure the same sort of quantity, and what does a number in the one come to in the other?

A revolution counts as the pure number one and a radian as well, so two units may agree in dimension and still say
different things: 100 rad/s are 955 turns a minute, not 6000. Temperatures and their differences share a dimension, too.
This is the one place where a number passes from one unit to another.
"""

from __future__ import annotations

import math
from functools import lru_cache

import pint

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.units import ANGLES, REGISTRY, TEMPERATURES, Unit, is_inch, parse_unit, powers_of, spell

DIFFERENCES = frozenset({"delta_degC", "delta_degF"})
TURN = 2 * math.pi
"""Radians in one turn."""


@lru_cache(maxsize=1024)
def angle_power(unit: Unit) -> float:
    """How often an angle stands in a unit: 1 for rad/s, -1 for mm/deg, 0 for 1/min."""
    return sum(power for name, power in powers_of(unit).items() if name in ANGLES)


@lru_cache(maxsize=1024)
def agree(given: Unit, wanted: Unit) -> bool:
    """Whether a number in the one unit can be written in the other."""
    if _is_pitch_word(given) or _is_pitch_word(wanted):
        return _as_length(given).dimensionality == _as_length(wanted).dimensionality and not _is_mixed(given, wanted)
    if given.dimensionality != wanted.dimensionality:
        return False
    for one, other in ((given, wanted), (wanted, given)):
        if spell(one) in TEMPERATURES and spell(other) not in (*TEMPERATURES, "K"):
            return False
    if angle_power(given) == angle_power(wanted) or _counts_turns(given, wanted):
        return True
    return _is_an_arc(given) and _is_an_arc(wanted)


def converted(value: float, given: Unit, wanted: Unit) -> float:
    """The number in the other unit: 100 rad/s in 1/min is 954.9, 20 tpi in mm is 1.27.

    Raises FormulaError where the two units do not agree, or nothing to the inch has no pitch.
    """
    if given == wanted:
        return float(value)
    if not agree(given, wanted):
        raise FormulaError(
            f"{spell(given)} cannot be written in {spell(wanted)}", "", "check the units", code="wrong-dimension"
        )
    if _is_pitch_word(given) != _is_pitch_word(wanted):
        return _pitch(value, given, wanted)
    try:
        return float(REGISTRY.Quantity(float(value), given).to(wanted).magnitude) * _turns(given, wanted)
    except pint.PintError as error:
        raise FormulaError(
            f"{spell(given)} cannot be written in {spell(wanted)}", "", "check the units", code="wrong-dimension"
        ) from error


def _pitch(value: float, given: Unit, wanted: Unit) -> float:
    """Threads to the inch as a pitch, and a pitch as threads to the inch."""
    if value == 0:
        raise FormulaError("no thread to the inch is no pitch (got 0)", "", "check what goes in", code="division")
    inch = parse_unit("in")
    if _is_pitch_word(given):
        return float(REGISTRY.Quantity(1 / value, inch).to(wanted).magnitude)
    return float(1 / REGISTRY.Quantity(float(value), given).to(inch).magnitude)


def _is_pitch_word(unit: Unit) -> bool:
    return spell(unit) == "tpi"


def _as_length(unit: Unit) -> Unit:
    """Threads to the inch stand for a length; every other unit for itself."""
    return parse_unit("in") if _is_pitch_word(unit) else unit


def _is_mixed(given: Unit, wanted: Unit) -> bool:
    """An arc (mm*rad) is no pitch."""
    return any(angle_power(unit) for unit in (given, wanted))


def _is_an_arc(unit: Unit) -> bool:
    """Whether a product with an angle is what it is for a radian: mm*rad is a length, N*m*rad/s a power."""
    power, kinds = angle_power(unit), set(unit.dimensionality)
    return power >= 0 and kinds != {"[time]"} and (bool(kinds) or power != 1)


@lru_cache(maxsize=1024)
def _counts_turns(given: Unit, wanted: Unit) -> bool:
    """Whether the one unit counts angles in a time and the other turns: rad/s and 1/min."""
    if set(given.dimensionality) != {"[time]"}:
        return False
    times = float(f"{-given.dimensionality['[time]']}")
    return times > 0 and {angle_power(given), angle_power(wanted)} == {0.0, times}


def _turns(given: Unit, wanted: Unit) -> float:
    """Radians become turns, turns radians; every other pair of units stays as it is."""
    if not _counts_turns(given, wanted):
        return 1.0
    return float(TURN ** (angle_power(wanted) - angle_power(given)))


def difference_remedy(value: float, given: Unit) -> str:
    """What to write where a temperature was given and a difference of temperatures is wanted."""
    word = "delta_degF" if is_inch(given) else "K"
    return f"write `{value:.6g} {word}` for a rise, or take one temperature from the other"
