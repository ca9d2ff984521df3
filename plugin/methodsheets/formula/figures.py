"""How is a number written: how many figures, with a true minus, in groups of three, with its unit behind it?"""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import lru_cache

MINUS = "\u2212"
NARROW = "\u202f"
"""Narrow no-break space: between a number and its unit, and between groups of three digits."""
NO_BREAK = "\u00a0"
_SETTLE = Context(prec=12)
_SPELLED = {
    "deg": "°", "rad": "rad", "arcmin": "′", "arcsec": "″", "percent": "%", "degC": "°C", "degF": "°F", "um": "µm",
    "delta_degC": "K", "delta_degF": "°F", "inch": "in", "1": "", "thou": "thou",
}  # fmt: skip
_RAISED = {"2": "²", "3": "³", "4": "⁴", "-1": "⁻¹", "-2": "⁻²"}
GLUED = frozenset({"°", "′", "″"})
"""Signs that stand right behind the number."""


def decimals(value: float, places: int, *, keep: bool = False, sign: bool = False) -> str:
    """A number with at most `places` decimals, halves away from nothing; `keep` keeps noughts at the end.

    Dust of floating point beyond twelve figures is dropped first: 2.6749999999999998 is 2.675. `sign` writes a plus.
    """
    if not math.isfinite(value):
        return "?"
    settled = _SETTLE.create_decimal_from_float(value)
    rounded = settled.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP, _QUANTIZE)
    digits = f"{abs(rounded):f}"
    if places > 0 and not keep:
        digits = digits.rstrip("0").rstrip(".")
    if not rounded:
        return digits
    return (MINUS if rounded < 0 else "+" if sign else "") + grouped(digits)


_QUANTIZE = Context(prec=120)


def figures(value: float, count: int) -> str:
    """A number with `count` significant figures and no noughts at the end; beyond 10 million as 1.23 × 10⁷."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else "?"
    order = math.floor(math.log10(abs(value)) + 1e-12)
    if order >= 7 or order < -4:
        return f"{decimals(value / 10**order, count - 1)}{NARROW}×{NARROW}10{_power(order)}"
    places = count - 1 - order
    if places >= 0:
        return decimals(value, places)
    step = 10.0**-places
    return decimals(float(decimals(value / step, 0).replace(MINUS, "-").replace(NARROW, "")) * step, 0)


def grouped(digits: str) -> str:
    """Digits in groups of three from five on: 12 500; decimals are left as they are."""
    whole, dot, rest = digits.partition(".")
    if len(whole) < 5:
        return digits
    head = len(whole) % 3
    groups = [whole[:head]] if head else []
    groups += [whole[index : index + 3] for index in range(head, len(whole), 3)]
    return NARROW.join(groups) + dot + rest


def _power(order: int) -> str:
    return str(order).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))


def with_unit(number: str, unit: str) -> str:
    """A number with its unit as it is printed: '12 mm', '30°', '9.8 N·m', '40 %'; the unit word as in `units`."""
    printed = printed_unit(unit)
    if not printed:
        return number
    return f"{number}{printed}" if printed in GLUED else f"{number}{NARROW}{printed}"


@lru_cache(maxsize=512)
def printed_unit(unit: str) -> str:
    """A unit word as it is printed: 'N*m' is N·m, 'mm^2' is mm², 'deg' is °, '1' is nothing."""
    if unit in _SPELLED:
        return _SPELLED[unit]
    out = []
    index = 0
    while index < len(unit):
        character = unit[index]
        if character == "^":
            end = index + 2 if unit[index + 1] == "-" else index + 1
            while end + 1 < len(unit) and (unit[end + 1].isdigit() or unit[end + 1] == "."):
                end += 1
            power = unit[index + 1 : end + 1]
            out.append(_RAISED.get(power, f"^{power}"))
            index = end + 1
        elif character.isalpha():
            end = index
            while end < len(unit) and (unit[end].isalpha() or unit[end] == "_"):
                end += 1
            out.append(_SPELLED.get(unit[index:end], unit[index:end]))
            index = end
        else:
            out.append("·" if character == "*" else character)
            index += 1
    return "".join(out)
