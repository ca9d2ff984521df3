"""How much is '0.37 kW' in watts? The workshop's window on the one registry of units."""

from __future__ import annotations

_TABLE = {
    "mm": ("mm", 1), "cm": ("mm", 10), "m": ("mm", 1000), "in": ("mm", 25.4), "inch": ("mm", 25.4), "thou": ("mm", 0.0254),
    "um": ("mm", 0.001), "mm/rev": ("mm", 1), "in/rev": ("mm", 25.4),
    "1/min": ("1/min", 1), "mm/min": ("mm/min", 1), "in/min": ("mm/min", 25.4),
    "W": ("W", 1), "kW": ("W", 1000), "hp": ("W", 745.69987), "N": ("N", 1), "kN": ("N", 1000), "t": ("N", 9806.65),
    "min": ("min", 1), "s": ("min", 1 / 60), "h": ("min", 60), "deg": ("deg", 1), "°": ("deg", 1), "arcmin": ("deg", 1 / 60),
    "degC": ("degC", 1), "money": ("money", 1), "": ("1", 1), "%": ("1", 0.01), "kg": ("kg", 1), "g": ("kg", 0.001),
}  # fmt: skip


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
    unit = unit.strip()
    if value != value:
        raise QuantityError("a fraction with nothing below its line")
    known = _TABLE.get(unit)
    if known is None:
        raise QuantityError(f"unknown unit `{unit}`", "", f"write it in {wanted}")
    if known[0] != wanted:
        if not unit:
            raise QuantityError(
                f"a bare number (got {value:g})",
                "every length, speed, power and time carries its unit",
                f"write `{value:g} {wanted}`",
            )
        raise QuantityError(f"`{unit}` is no unit for this", "", f"write it in {wanted}")
    return value * known[1]
