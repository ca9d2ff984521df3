"""Which units does a workshop use, and what do they make together? The one unit registry of the package.

Spindle speeds are 1/min: a revolution and a tooth count as the pure number one, so `rpm` is 1/min exactly, and a feed
of `0.1 mm/rev` or `0.1 mm/tooth` is the length 0.1 mm. Hence 0.2 mm * 1000 1/min = 200 mm/min.
Angles have no dimension of their own (an arc is a radius times an angle), but a bare number is never taken for one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, TypeAlias

import pint
from pint.facets.plain import PlainUnit
from pint.util import UnitsContainer

from methodsheets.formula.errors import FormulaError
from methodsheets.reading.problem import did_you_mean

Quantity: TypeAlias = "pint.Quantity[float]"
Unit: TypeAlias = PlainUnit

DEFINITIONS = """
mm = [length]
um = 0.001 * mm
cm = 10 * mm
m = 1000 * mm
km = 1000000 * mm
inch = 25.4 * mm
ft = 304.8 * mm
thou = 0.0254 * mm

rad = []
deg = 0.017453292519943295 * rad
arcmin = 0.0002908882086657216 * rad
arcsec = 4.84813681109536e-06 * rad
percent = 0.01

s = [time]
min = 60 * s
h = 3600 * s

g = [mass]
kg = 1000 * g
t = 1000000 * g
lb = 453.59237 * g
oz = 28.349523125 * g

N = 1000000 * g * mm / s ** 2
kN = 1000 * N
lbf = 4.4482216152605 * N
Pa = 1e-6 * N / mm ** 2
kPa = 1e-3 * N / mm ** 2
MPa = N / mm ** 2
GPa = 1000 * N / mm ** 2
bar = 0.1 * N / mm ** 2
psi = lbf / inch ** 2
J = 1000 * N * mm
kJ = 1000 * J
W = J / s
kW = 1000 * W
hp = 745.6998715822702 * W
l = 1000000 * mm ** 3
ml = 1000 * mm ** 3

K = [temperature]; offset: 0
degC = K; offset: 273.15
degF = 5 / 9 * K; offset: 255.37222222222222
HB = [hardness]
money = [money]
tpi = 1 / inch
"""
"""Exact by definition where the trade has one: 1 in = 25.4 mm, 1 lb = 453.59237 g, standard gravity 9.80665 m/s^2."""

WORDS: dict[str, str] = {
    **{
        name: name
        for name in """mm um cm m km ft thou rad deg arcmin arcsec percent s min h g kg t lb oz N kN lbf Pa kPa MPa GPa
        bar psi J kJ W kW hp l ml K degC degF delta_degC delta_degF HB money tpi""".split()  # noqa: SIM905
    },
    "in": "inch", "inch": "inch", "inches": "inch", "foot": "ft", "feet": "ft", "µm": "um", "μm": "um",
    "micron": "um", "°": "deg", "degree": "deg", "degrees": "deg", "'": "arcmin", "′": "arcmin", "″": "arcsec",
    "%": "percent", "sec": "s", "minute": "min", "minutes": "min", "hour": "h", "hours": "h", "cc": "ml", "L": "l",
    "mL": "ml", "°C": "degC", "°F": "degF", "rev": "", "tooth": "", "1": "",
}  # fmt: skip
"""Unit word as written -> unit of the registry; '' is the pure number one."""
COMPOUND_WORDS: dict[str, str] = {
    "rpm": "1/min", "Nm": "N*m", "Nmm": "N*mm", "fpm": "ft/min",
}  # fmt: skip
SPELLED = {"inch": "in", "um": "µm", "percent": "%"}
ANGLES = frozenset({"rad", "deg", "arcmin", "arcsec"})
TEMPERATURES = frozenset({"degC", "degF"})
INCH_UNITS = frozenset({"inch", "ft", "thou", "lb", "oz", "lbf", "psi", "hp", "degF", "delta_degF", "tpi"})

_FACTOR = re.compile(
    r"(?P<word>1|[^\W\d²³⁴]+|°[CF]?|%|['′″])(?:\s*(?:\^|\*\*)\s*(?P<power>-?\d)|(?P<raised>[⁻]?[²³⁴]))?"
)
_RAISED = str.maketrans("⁻²³⁴", "-234")


def _registry() -> Any:
    made: Any = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=False)
    made.load_definitions(DEFINITIONS.splitlines())
    return made


REGISTRY: Any = _registry()
ONE: Unit = REGISTRY.Unit("")


def quantity(value: float, unit: str = "1") -> Quantity:
    """A number with a unit of the workshop: `quantity(25, "m/min")`."""
    return REGISTRY.Quantity(float(value), parse_unit(unit))


def is_unit_word(word: str) -> bool:
    """Whether a word, without powers and products, is a unit."""
    return word in WORDS or word in COMPOUND_WORDS


@lru_cache(maxsize=1024)
def parse_unit(words: str) -> Unit:
    """The unit behind words such as 'mm', 'm/min', 'N*m', 'N/mm^2', '1/min', 'W/(m*K)'.

    Raises FormulaError with a suggestion for an unknown word.
    """
    words = COMPOUND_WORDS.get(words.strip(), words.strip())
    powers: dict[str, int] = {}
    sign, group = 1, 1
    position = 0
    while position < len(words):
        character = words[position]
        if character in "*·/ ()":
            sign = -1 if character == "/" else 1 if character in "*·" else sign
            group = sign if character == "(" else 1 if character == ")" else group
            sign = 1 if character in "()" else sign
            position += 1
            continue
        match = _FACTOR.match(words, position)
        if match is None or not is_unit_word(match["word"]):
            raise unknown_unit(match["word"] if match else words)
        power = int(match["power"] or (match["raised"] or "1").translate(_RAISED))
        _multiply(powers, match["word"], sign * group * power)
        sign = 1
        position = match.end()
    return REGISTRY.Unit(UnitsContainer(_steps_of_warmth({name: power for name, power in powers.items() if power})))


def _steps_of_warmth(powers: dict[str, int]) -> dict[str, int]:
    """In a product a degree is a step of warmth, not a place on the scale: 1/degF, W/(m*degC)."""
    if powers in ({"degC": 1}, {"degF": 1}):
        return powers
    return {f"delta_{name}" if name in TEMPERATURES else name: power for name, power in powers.items()}


def _multiply(powers: dict[str, int], word: str, power: int) -> None:
    if word in COMPOUND_WORDS:
        for name, inner in powers_of(parse_unit(word)).items():
            powers[name] = powers.get(name, 0) + round(inner) * power
    elif WORDS[word]:
        powers[WORDS[word]] = powers.get(WORDS[word], 0) + power


def powers_of(unit: Unit) -> dict[str, float]:
    """The units of the registry that a unit is made of, with their powers."""
    return {name: float(power) for name, power in unit._units.items()}  # type: ignore[arg-type]


def unknown_unit(word: str) -> FormulaError:
    """The error for a word that is no unit."""
    known = [name for name in (*WORDS, *COMPOUND_WORDS) if name.isascii() and name[0].isalpha()]
    return FormulaError(
        f"unknown unit `{word}`",
        "a unit follows a number; a product is written with `*`",
        _slip(word) or did_you_mean(word, known),
        code="unknown-unit",
    )


def _slip(word: str) -> str:
    """What to do where a slip of the pen made part of a number or of a list look like a unit; '' otherwise."""
    if re.match(r"[,.]\d", word):
        return "write decimals with a point: 0.5 mm"
    if word.startswith(";"):
        return "separate the items of a list with commas"
    if re.match(r"[-–]\s*\d", word):
        return "write a range with `to`: 1 mm to 13 mm"
    return ""


@lru_cache(maxsize=1024)
def spell(unit: Unit) -> str:
    """The unit as it is written in a method: 'N*m', 'm/min', '1/min', 'mm^2'; '1' for the pure number."""
    alone = len(powers_of(unit)) == 1 and 1 in powers_of(unit).values()
    up = [_spelled(name, power, alone) for name, power in _ordered(unit) if power > 0]
    down = [_spelled(name, -power, alone) for name, power in _ordered(unit) if power < 0]
    if not up and not down:
        return "1"
    above = "*".join(up) or "1"
    return above if not down else f"{above}/{down[0]}" if len(down) == 1 else f"{above}/({'*'.join(down)})"


def _ordered(unit: Unit) -> Iterable[tuple[str, float]]:
    """Forces and masses before lengths before times, as the trade says them: N*m, g*mm."""
    order = {"[length]": 1, "[time]": 2, "[temperature]": 3}
    return sorted(powers_of(unit).items(), key=lambda pair: (_rank(pair[0], order), pair[0]))


def _rank(name: str, order: dict[str, int]) -> int:
    dimensions = REGISTRY.get_dimensionality(UnitsContainer({name: 1}))
    return order.get(next(iter(dimensions)), 0) if len(dimensions) == 1 else 0


def _spelled(name: str, power: float, alone: bool) -> str:
    word = SPELLED.get(name, name) if alone else SPELLED.get(name, name).removeprefix("delta_")
    return word if power == 1 else f"{word}^{power:g}"


@lru_cache(maxsize=1024)
def is_angle(unit: Unit) -> bool:
    """Whether a unit is an angle: degrees, minutes, seconds or radians, and nothing else that matters."""
    named = {name: power for name, power in powers_of(unit).items() if name in ANGLES}
    return sum(named.values()) == 1 and unit.dimensionless


@lru_cache(maxsize=1024)
def is_bare(unit: Unit) -> bool:
    """Whether a unit is that of a bare number: none, a percentage, or a ratio such as mm/m; not 1/deg."""
    return unit.dimensionless and not is_angle(unit) and not _keeps_its_angle(unit)


@lru_cache(maxsize=1024)
def is_inch(unit: Unit) -> bool:
    """Whether a unit belongs to the inch system."""
    return any(name in INCH_UNITS for name in unit._units)


@lru_cache(maxsize=1024)
def dimension_words(unit: Unit) -> str:
    """What sort of quantity a unit measures, in words: 'a length', 'a force', 'a bare number'."""
    if is_angle(unit):
        return "an angle"
    turning = _turning_words(unit)
    if turning:
        return turning
    for example, words in NAMED_DIMENSIONS:
        if parse_unit(example).dimensionality == unit.dimensionality:
            return words
    return f"a quantity in {spell(unit)}"


def _turning_words(unit: Unit) -> str:
    """What an angle in a time or for a length measures; '' for everything else."""
    names = powers_of(unit)
    if names == {"tpi": 1}:
        return "a pitch in threads to the inch"
    if names.keys() & TEMPERATURES:
        return "a temperature"
    if names.keys() & {"delta_degC", "delta_degF"} and len(names) == 1 and 1 in names.values():
        return "a difference of temperatures"
    angles = sum(power for name, power in names.items() if name in ANGLES)
    if not angles or unit.dimensionless:
        return ""
    return "an angular speed" if unit.dimensionality == ONE_PER_TIME and angles == 1 else f"a quantity in {spell(unit)}"


ONE_PER_TIME = parse_unit("1/min").dimensionality

NAMED_DIMENSIONS = (
    ("1", "a bare number"), ("mm", "a length"), ("mm^2", "an area"), ("mm^3", "a volume"), ("min", "a time"),
    ("1/min", "a spindle speed"), ("m/min", "a speed"), ("mm^3/min", "a removal rate"), ("g", "a mass"),
    ("N", "a force"), ("N*m", "a torque"), ("MPa", "a pressure"), ("W", "a power"), ("N/mm", "a stiffness"),
    ("g/cm^3", "a density"), ("g*mm", "an unbalance"), ("kg*mm^2", "a moment of inertia"), ("mm^4", "a moment of area"),
    ("1/mm", "a curvature"), ("K", "a temperature"), ("1/K", "an expansion per degree"), ("money", "a price"),
    ("money/kg", "a price per mass"), ("money/h", "a price per time"), ("money/m", "a price per length"),
    ("HB", "a hardness"),
)  # fmt: skip

USUAL_UNITS = (
    "mm", "mm^2", "cm^3", "min", "1/min", "mm/min", "cm^3/min", "g", "N", "N*m", "MPa", "W", "N/mm", "g/cm^3", "g*mm",
    "kg*mm^2", "mm^4", "1/mm", "K", "1/K", "money", "money/kg", "money/h", "money/m",
)  # fmt: skip
"""The unit a worked-out value is brought to where the units that met make no unit that people say."""


@lru_cache(maxsize=64)
def _usual(dimensionality: Any) -> Unit | None:
    return next((u for u in map(parse_unit, USUAL_UNITS) if u.dimensionality == dimensionality), None)


@lru_cache(maxsize=1024)
def tidy_unit(unit: Unit) -> Unit:
    """The unit to show a product or quotient in: as it stands if people say it, else the usual one of its dimension.

    `m/min/mm` becomes 1/min, `mm*%` becomes mm, `mm*deg` becomes mm, and `mm*1/min` stays mm/min.
    """
    names = powers_of(unit)
    if len(names) <= 1 and all(_is_said(name, power) for name, power in names.items()):
        return unit
    if is_angle(unit):
        return parse_unit("deg")
    if _keeps_its_angle(unit):
        return unit
    if unit.dimensionless:
        return ONE
    kinds = [REGISTRY.get_dimensionality(UnitsContainer({name: 1})) for name in names]
    repeated = len({str(kind) for kind in kinds}) < len(kinds) or any(not kind for kind in kinds)
    usual = _usual(unit.dimensionality)
    if usual is not None and (repeated or not _is_spoken(unit)):
        return usual
    return unit


def _keeps_its_angle(unit: Unit) -> bool:
    """An angle in a time is no count of turns, and what goes for an angle does not go for a turn: rad/s, mm/deg.

    An arc (mm*rad), the speed of a rim (mm*rad/s) and a power (N*m*rad/s) are what they are for a radian.
    """
    angles = sum(power for name, power in powers_of(unit).items() if name in ANGLES)
    return angles < 0 or (angles > 0 and set(unit.dimensionality) == {"[time]"})


def _is_said(name: str, power: float) -> bool:
    if name == "tpi":
        return power == 1
    return power == 1 or name in {"mm", "cm", "m", "inch", "ft", "um"} or (power == -1 and name not in ANGLES)


SPOKEN = (
    "1/min m/min mm/min mm/s m/s ft/min in/min cm^3/min N*m N*mm lbf*in lbf*ft N/mm N/um N/mm^2 g*mm kg*mm kg*m "
    "kg*mm^2 kg*m^2 g*mm^2 g/cm^3 kg/m^3 kg/m g/mm oz*in lb/in^3 W/(m*K) J/(kg*K) money/kg money/h money/m mm^3/min "
    "1/s 1/h kg/h"
)


@lru_cache(maxsize=1)
def _spoken_units() -> frozenset[Unit]:
    return frozenset(map(parse_unit, SPOKEN.split()))


def _is_spoken(unit: Unit) -> bool:
    return unit in _spoken_units()


@lru_cache(maxsize=1024)
def is_spoken(words: str) -> bool:
    """Whether people say this compound unit: m/min, 1/min, N*m; not mm*m."""
    try:
        return _is_spoken(parse_unit(words))
    except FormulaError:
        return False
