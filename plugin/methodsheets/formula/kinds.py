"""How is each sort of quantity rounded and in which unit is it shown, in the metric and in the inch system?

Plain numbers and text, no units library: a page that comes from the store needs only this.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from methodsheets.formula.figures import MINUS, NARROW, NO_BREAK, decimals, figures, with_unit

Writer: TypeAlias = Callable[[float], str]
"""Writes a number, given in the kind's unit, with its unit."""

INCH = 25.4
LBF = 4.4482216152605
LB = 453.59237
OUNCE = LB / 16
PSI = LBF / INCH**2
HP = 745.6998715822702
LBF_IN = LBF * INCH / 1000
WHOLE_MICRONS = 1e-6
DUST = 1e-9


@dataclass(frozen=True)
class Kind:
    """One sort of quantity."""

    name: str
    unit: str
    """The unit its values are kept in."""
    metric: Writer
    inch: Writer | None = None
    """None where the trade has no inch form: spindle speeds, angles, times."""
    words: str = ""
    """What it is rounded to, for the guide."""


def write(value: float, kind: str, system: str = "metric") -> str:
    """A number, given in the unit of its kind, as it is printed: `write(663.1, "spindle_speed")` is '663 1/min'."""
    found = KINDS[kind]
    if system == "inch" and found.inch is not None:
        return found.inch(value)
    return found.metric(value)


def _fixed(places: int, unit: str, per_unit: float = 1.0, *, keep: bool = False, fine: float = 0.0) -> Writer:
    """So many decimals; one more for numbers below `fine`, and another one a tenth of that."""

    def writer(value: float) -> str:
        shown = value / per_unit
        more = sum(abs(shown) < limit for limit in (fine, fine / 10)) if shown else 0
        return with_unit(decimals(shown, places + more, keep=keep), unit)

    return writer


def _settled(value: float) -> float:
    """Nothing in the place of the dust that trigonometry leaves: 8e-15 N."""
    return value if abs(value) >= DUST else 0.0


def _figures(count: int, unit: str, per_unit: float = 1.0) -> Writer:
    return lambda value: with_unit(figures(_settled(value / per_unit), count), unit)


def _steps(count: int, *steps: tuple[float, str, float]) -> Writer:
    """So many figures in the first unit whose limit is not reached: (limit in the kind's unit, unit, its size)."""

    def writer(value: float) -> str:
        value = _settled(value)
        for limit, unit, size in steps:
            if abs(value) < limit:
                return with_unit(figures(value / size, count), unit)
        _, unit, size = steps[-1]
        return with_unit(figures(value / size, count), unit)

    return writer


def _length(value: float) -> str:
    """To 0.01 mm; to 0.001 mm if it is a whole number of micrometres (9.525 mm) or less than 0.1 mm."""
    microns = value * 1000
    places = 3 if abs(value) < 0.1 or abs(microns - round(microns)) < WHOLE_MICRONS else 2
    if 0 < abs(value) < 0.001:
        return with_unit(figures(value, 2), "mm")
    return with_unit(decimals(value, places), "mm")


def _size_fine(value: float) -> str:
    """To the micrometre, and to a tenth of it where the middle of two limits lies between."""
    tenths = value * 10000
    places = 3 if abs(value * 1000 - round(value * 1000)) < WHOLE_MICRONS else 4
    return with_unit(decimals(round(tenths) / 10000, places, keep=True), "mm")


def _inwards(places: int, unit: str, sign: int, per_unit: float = 1.0) -> Writer:
    """A limit, rounded into the tolerance: the lower one up (`sign` 1), the upper one down (`sign` -1)."""

    def writer(value: float) -> str:
        steps = value / per_unit * 10**places
        whole = round(steps) if abs(steps - round(steps)) < WHOLE_MICRONS else math.floor(steps) + (sign > 0)
        return with_unit(decimals(whole / 10**places, places, keep=True), unit)

    return writer


def _limit_fine(sign: int) -> Writer:
    """To the micrometre; to a tenth of it where the limit does not lie on one."""

    def writer(value: float) -> str:
        microns = value * 1000
        places = 3 if abs(microns - round(microns)) < WHOLE_MICRONS else 4
        return _inwards(places, "mm", sign)(value)

    return writer


FINE_LIMITS = 0.05
"""mm between the limits: below it they have a decimal more in inches, or rounding would take a tenth of them."""


def limit_kind(which: str, width: float) -> str:
    """The kind of a limit ('upper', 'lower') or of the size aimed at between them ('aim'), `width` mm apart."""
    name = {"upper": "upper_limit", "lower": "lower_limit", "aim": "size"}[which]
    return f"{name}_fine" if width < FINE_LIMITS else name


def _deviation(value: float) -> str:
    """In micrometres with its sign below 1 mm: +18 µm; no sign at nothing."""
    if abs(value) < 1:
        return with_unit(decimals(value * 1000, 0 if abs(value) >= 0.01 else 1, sign=True), "um")
    return with_unit(decimals(value, 3, sign=True), "mm")


def _clearance(value: float) -> str:
    """In micrometres without a plus: 16 µm."""
    return _deviation(value).removeprefix("+")


def _clearance_inch(value: float) -> str:
    """To a tenth of a thou; what is less than one, to a hundredth: a bending of 2 µm is not nothing."""
    inches = value / INCH
    return with_unit(decimals(inches, 5 if abs(inches) < 1e-4 else 4), "in")


def _deviation_inch(value: float) -> str:
    return with_unit(decimals(value / INCH, 4, sign=True), "in")


def _mass(value: float) -> str:
    """To the gram; below 10 g to 0.1 g; from 1 kg in kilograms, from 100 kg to 0.1 kg."""
    if abs(value) >= 999.5:
        return with_unit(decimals(value / 1000, 3 if abs(value) < 1e4 else 2 if abs(value) < 1e5 else 1), "kg")
    return with_unit(decimals(value, 0 if abs(value) >= 9.95 else 1 if abs(value) >= 0.1 else 3), "g")


def _mass_inch(value: float) -> str:
    ounces = value / OUNCE
    if abs(ounces) >= 16:
        return with_unit(decimals(value / LB, 2), "lb")
    return with_unit(decimals(ounces, 1 if abs(ounces) >= 1 else 3), "oz")


def _torque_inch(value: float) -> str:
    inches = value / LBF_IN
    return (
        with_unit(figures(inches, 3), "lbf*in") if abs(inches) < 120 else with_unit(figures(inches / 12, 3), "lbf*ft")
    )


def _time(minutes: float) -> str:
    """'4.5 s', '45 s', '3 min 20 s', '25 min', '1 h 05 min'."""
    sign = MINUS if minutes < 0 else ""
    seconds = abs(minutes) * 60
    if seconds < 59.5:
        return sign + with_unit(decimals(seconds, 1 if seconds < 9.95 else 0), "s")
    if seconds < 1199.5:
        whole, rest = divmod(int(seconds + 0.5), 60)
        tail = f"{NO_BREAK}{rest}{NARROW}s" if rest else ""
        return f"{sign}{whole}{NARROW}min{tail}"
    total = int(seconds / 60 + 0.5)
    if total < 60:
        return f"{sign}{total}{NARROW}min"
    hours, rest = divmod(total, 60)
    tail = f"{NO_BREAK}{rest:02d}{NARROW}min" if rest else ""
    return f"{sign}{decimals(hours, 0)}{NARROW}h{tail}"


def _angle_minutes(degrees: float) -> str:
    """12° 30′ 15″; seconds only where there are some."""
    total = int(abs(degrees) * 3600 + 0.5)
    minutes, seconds = divmod(total, 60)
    whole, minutes = divmod(minutes, 60)
    parts = [f"{whole}°"]
    if minutes or seconds:
        parts.append(f"{minutes:02d}′")
    if seconds:
        parts.append(f"{seconds:02d}″")
    return (MINUS if degrees < 0 and total else "") + NO_BREAK.join(parts)


def _angle(value: float) -> str:
    return with_unit(decimals(value, 2) if abs(value) >= 0.01 or not value else figures(value, 2), "deg")


def _spindle_speed(value: float) -> str:
    return with_unit(decimals(value, 0 if abs(value) >= 9.95 else 1), "1/min")


def _cutting_speed(value: float) -> str:
    return with_unit(figures(value, 3) if abs(value) < 99.95 else decimals(value, 0), "m/min")


def _temperature(value: float) -> str:
    return with_unit(decimals(value, 0), "degC")


def _temperature_inch(value: float) -> str:
    return with_unit(decimals(value * 1.8 + 32, 0), "degF")


def _expansion(per: float, unit: str) -> Writer:
    return lambda value: f"{figures(value * per * 1e6, 3)}{NARROW}×{NARROW}10⁻⁶{NARROW}{unit}"


def _slope(value: float) -> str:
    return with_unit(figures(value, 3), "mm/m")


def _plain(count: int) -> Writer:
    return lambda value: figures(value, count)


def _count(value: float) -> str:
    return decimals(value, 0) if abs(value - round(value)) < 1e-9 else figures(value, 4)


_FORCE_INCH = _figures(3, "lbf", LBF)
_PRESSURE = _steps(3, (1e4, "MPa", 1), (1e99, "GPa", 1000))
_PRESSURE_INCH = _figures(3, "psi", PSI)
_TORQUE = _steps(3, (0.1, "N*mm", 1e-3), (1e4, "N*m", 1), (1e99, "kN*m", 1000))

_ALL = (
    Kind("length", "mm", _length, _fixed(3, "in", INCH, fine=0.01), "0.01 mm; whole µm as they are"),
    Kind("size", "mm", _fixed(3, "mm", keep=True), _fixed(4, "in", INCH, keep=True), "0.001 mm"),
    Kind("size_fine", "mm", _size_fine, _fixed(5, "in", INCH, keep=True), "0.001 mm, or what is left of it"),
    Kind("upper_limit", "mm", _inwards(3, "mm", -1), _inwards(4, "in", -1, INCH), "0.001 mm, down"),
    Kind("lower_limit", "mm", _inwards(3, "mm", 1), _inwards(4, "in", 1, INCH), "0.001 mm, up"),
    Kind("upper_limit_fine", "mm", _limit_fine(-1), _inwards(5, "in", -1, INCH), "0.001 mm, down; 0.00001 in"),
    Kind("lower_limit_fine", "mm", _limit_fine(1), _inwards(5, "in", 1, INCH), "0.001 mm, up; 0.00001 in"),
    Kind("deviation", "mm", _deviation, _deviation_inch, "1 µm, with its sign"),
    Kind("clearance", "mm", _clearance, _clearance_inch, "1 µm, no sign"),
    Kind("roughness", "um", _figures(2, "um"), _figures(2, "µin", INCH / 1000), "2 figures"),
    Kind("feed", "mm", _length, _fixed(3, "in", INCH, fine=0.01), "0.01 mm; whole µm as they are"),
    Kind("feed_rate", "mm/min", _figures(3, "mm/min"), _figures(3, "in/min", INCH), "3 figures"),
    Kind("depth_of_cut", "mm", _length, _fixed(3, "in", INCH, fine=0.01), "0.01 mm; whole µm as they are"),
    Kind("angle", "deg", _angle, None, "0.01°"),
    Kind("angle_minutes", "deg", _angle_minutes, None, "1″"),
    Kind("slope", "mm/m", _slope, _figures(3, "thou/in"), "3 figures"),
    Kind("spindle_speed", "1/min", _spindle_speed, None, "1 1/min, or the machine's own step"),
    Kind("cutting_speed", "m/min", _cutting_speed, _fixed(0, "ft/min", 0.3048), "3 figures"),
    Kind("speed", "m/min", _cutting_speed, _figures(3, "ft/min", 0.3048), "3 figures"),
    Kind("frequency", "1/s", _figures(3, "1/s"), None, "3 figures"),
    Kind("removal_rate", "cm^3/min", _figures(3, "cm^3/min"), _figures(3, "in^3/min", 16.387064), "3 figures"),
    Kind("force", "N", _steps(3, (1e4, "N", 1), (1e99, "kN", 1000)), _FORCE_INCH, "3 figures"),
    Kind("torque", "N*m", _TORQUE, _torque_inch, "3 figures"),
    Kind("moment", "N*m", _TORQUE, _torque_inch, "3 figures"),
    Kind("pressure", "MPa", _PRESSURE, _PRESSURE_INCH, "3 figures"),
    Kind("stress", "MPa", _PRESSURE, _PRESSURE_INCH, "3 figures"),
    Kind("modulus", "MPa", _figures(3, "GPa", 1000), _figures(3, "Mpsi", PSI * 1e6), "3 figures"),
    Kind("power", "W", _steps(3, (1000, "W", 1), (1e99, "kW", 1000)), _figures(3, "hp", HP), "3 figures"),
    Kind("energy", "J", _steps(3, (1e4, "J", 1), (1e99, "kJ", 1000)), _figures(3, "lbf*ft", LBF_IN * 12), "3 figures"),
    Kind("stiffness", "N/mm", _figures(3, "N/mm"), _figures(3, "lbf/in", LBF / INCH), "3 figures"),
    Kind("mass", "g", _mass, _mass_inch, "1 g; 0.1 g below 10 g"),
    Kind("unbalance", "g*mm", _figures(3, "g*mm"), _figures(3, "oz*in", OUNCE * INCH), "3 figures"),
    Kind("inertia", "kg*mm^2", _figures(3, "kg*mm^2"), _figures(3, "lb*in^2", LB / 1000 * INCH**2), "3 figures"),
    Kind("inertia_area", "mm^4", _figures(3, "mm^4"), _figures(3, "in^4", INCH**4), "3 figures"),
    Kind("density", "g/cm^3", _figures(3, "g/cm^3"), _figures(3, "lb/in^3", LB / 16.387064), "3 figures"),
    Kind("area", "mm^2", _figures(4, "mm^2"), _figures(3, "in^2", INCH**2), "4 figures"),
    Kind(
        "volume", "mm^3", _steps(3, (1e3, "mm^3", 1), (1e99, "cm^3", 1000)), _figures(3, "in^3", INCH**3), "3 figures"
    ),
    Kind("curvature", "1/mm", _figures(3, "1/mm"), _figures(3, "1/in", 1 / INCH), "3 figures"),
    Kind("temperature", "degC", _temperature, _temperature_inch, "1 °C"),
    Kind("temperature_difference", "K", _fixed(0, "K"), _fixed(0, "°F", 1 / 1.8), "1 K"),
    Kind("expansion", "1/K", _expansion(1, "1/K"), _expansion(1 / 1.8, "1/°F"), "3 figures"),
    Kind("time", "min", _time, None, "1 s below 20 min, 1 min above"),
    Kind("percent", "%", _fixed(1, "percent"), None, "0.1 %"),
    Kind("ratio", "1", _plain(4), None, "4 figures"),
    Kind("number", "1", _plain(6), None, "6 figures"),
    Kind("count", "1", _count, None, "whole"),
    Kind("hardness", "HB", _fixed(0, "HB"), None, "whole"),
    Kind("money", "money", lambda value: decimals(value, 2, keep=True), None, "0.01"),
)
KINDS: Mapping[str, Kind] = {kind.name: kind for kind in _ALL}

USUAL_KINDS: Mapping[str, str] = {
    "1": "number", "mm": "length", "mm/m": "slope",
    "deg": "angle", "1/min": "spindle_speed", "m/min": "cutting_speed", "mm/min": "feed_rate",
    "cm^3/min": "removal_rate", "N": "force", "N*m": "torque", "MPa": "pressure", "W": "power", "N/mm": "stiffness",
    "g": "mass", "g*mm": "unbalance", "kg*mm^2": "inertia", "mm^4": "inertia_area", "g/cm^3": "density",
    "mm^2": "area", "mm^3": "volume", "1/mm": "curvature", "degC": "temperature", "K": "temperature_difference",
    "1/K": "expansion", "min": "time", "%": "percent", "HB": "hardness", "money": "money",
}  # fmt: skip
"""The kind of a quantity of which nobody said more than its unit."""

SIZES: Mapping[tuple[str, str], float] = {
    ("kW", "W"): 1e3, ("kN", "N"): 1e3, ("kg", "g"): 1e3, ("um", "mm"): 1e-3, ("mm", "um"): 1e3, ("m", "mm"): 1e3,
    ("cm", "mm"): 10.0, ("s", "min"): 1 / 60, ("h", "min"): 60.0, ("GPa", "MPa"): 1e3, ("N*mm", "N*m"): 1e-3,
    ("cm^3", "mm^3"): 1e3, ("mm^3/min", "cm^3/min"): 1e-3, ("kg/m^3", "g/cm^3"): 1e-3, ("g*mm^2", "kg*mm^2"): 1e-3,
    ("mm/min", "m/min"): 1e-3, ("m/min", "mm/min"): 1e3, ("1", "%"): 100.0, ("%", "1"): 0.01, ("N/mm^2", "MPa"): 1.0,
    ("delta_degC", "K"): 1.0,
}  # fmt: skip
"""Size of the first unit in the second, for those that calculations give most; others go through the registry."""
