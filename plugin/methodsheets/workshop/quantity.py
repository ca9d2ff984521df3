"""How much is '0.37 kW' in watts? The workshop's window on the one registry of units."""

from __future__ import annotations

from functools import lru_cache

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.sorts import agree, converted
from methodsheets.formula.units import Unit, parse_unit

SMALLEST_MOTOR = 20
"""Watts; a smaller bare number was meant as kilowatts."""


class QuantityError(Exception):
    """A quantity that is not what was wanted: what is wrong, the rule, what to do."""

    def __init__(self, what: str, rule: str = "", remedy: str = "") -> None:
        self.what = what
        self.rule = rule
        self.remedy = remedy
        super().__init__(what)


def in_unit(value: float, unit: str, wanted: str) -> float:
    """Convert a value to the unit that is wanted.

    Raises:
        QuantityError: unknown unit, wrong dimension, or a bare number where a unit is due.
    """
    if value != value:
        raise QuantityError("a fraction with nothing below its line")
    if not unit.strip() and wanted != "1":
        what = f"a bare number (got {value:g})"
        meant = "kW" if wanted == "W" and value < SMALLEST_MOTOR else wanted
        raise QuantityError(what, "every length, speed, power and time carries its unit", f"write `{value:g} {meant}`")
    written, due = _units(unit.strip(), wanted)
    try:
        # Nine places are far below anything measured, and keep 0.1 in × 25.4 at 2.54 exactly.
        return round(converted(value, written, due), 9)
    except FormulaError as error:
        raise QuantityError(error.what, error.rule, error.remedy) from error


@lru_cache(maxsize=256)
def _units(unit: str, wanted: str) -> tuple[Unit, Unit]:
    """The unit as written and the one that is due; QuantityError where they measure different sorts of things."""
    try:
        written, due = parse_unit(unit), parse_unit(wanted)
    except FormulaError as error:
        raise QuantityError(error.what, "", error.remedy or f"write it in {wanted}") from error
    if not agree(written, due):
        raise QuantityError(f"`{unit}` is no unit for this", "", f"write it in {wanted}")
    return written, due
