"""What does the page print for a value, in millimetres and in inches, rounded as its kind asks?

A float in the unit of its kind needs no units library; pint is imported only where a unit must be changed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from methodsheets.formula.figures import figures, with_unit
from methodsheets.formula.kinds import KINDS, SIZES, USUAL_KINDS, write
from methodsheets.formula.measure import Measure

if TYPE_CHECKING:
    from methodsheets.formula.units import Quantity, Unit
    from methodsheets.formula.values import Value

OWN_FIGURES = 5
"""Figures of a value that stays in the unit its author chose: 1.5 kN, 250 µm."""


def show(
    value: Value | Quantity | float, kind: str = "", system: str = "metric", *, unit: str = "", currency: str = ""
) -> str:
    """A quantity as it is printed.

    value: a `Value`, a pint quantity, or a float in `unit` (without one, in the unit of the kind).
    kind: sort of quantity; without one, that of the value, or the usual one of its dimension.
    system: 'metric' or 'inch'. currency: what to write behind money.
    """
    made = measure(value, kind, unit, currency=currency)
    return made.inch if system == "inch" else made.metric


def measure(value: Value | Quantity | float, kind: str = "", unit: str = "", *, currency: str = "") -> Measure:
    """A quantity ready to print; see `show`.

    The `Measure` keeps the number in the unit of its kind ('mm', 'g', '1/min' …), or in its own unit where the
    dimension has no kind. A float without kind and unit is a bare number.
    """
    if isinstance(value, int | float):
        name = kind if kind in KINDS else USUAL_KINDS.get(unit, kind) if unit else kind or "number"
        if not unit or (name in KINDS and unit == KINDS[name].unit):
            return _of_kind(float(value), name, currency)
        size = SIZES.get((unit, KINDS[name].unit)) if kind and name in KINDS else None
        if size is not None:
            return _of_kind(float(value) * size, name, currency)
    return _of_quantity(value, kind, unit, currency)


def _of_kind(number: float, kind: str, currency: str = "") -> Measure:
    if kind not in KINDS:
        raise ValueError(f"no kind of quantity is called {kind!r}")
    metric = write(number, kind)
    if kind == "money" and currency:
        metric = with_unit(metric, currency)
    inch = metric if KINDS[kind].inch is None else write(number, kind, "inch")
    return Measure(number, KINDS[kind].unit, kind, metric, inch)


def _of_quantity(value: Value | Quantity | float, kind: str, unit: str, currency: str) -> Measure:
    from methodsheets.formula import units, values

    if isinstance(value, values.Value):
        quantity, kind = value.quantity, kind or value.kind
    elif isinstance(value, int | float):
        quantity = units.quantity(float(value), unit)
    else:
        quantity = value
    own_unit = units.spell(quantity.units)
    if own_unit == "tpi":  # Threads to the inch stay so in either system.
        words = with_unit(figures(float(quantity.magnitude), OWN_FIGURES), own_unit)
        return Measure(float(quantity.magnitude), own_unit, kind, words, words)
    chosen = kind if kind in KINDS and _same_sort(quantity.units, KINDS[kind].unit) else _kind_of(quantity.units)
    if not chosen:
        words = with_unit(figures(float(quantity.magnitude), OWN_FIGURES), own_unit)
        return Measure(float(quantity.magnitude), own_unit, kind, words, words)
    if chosen == "temperature" and own_unit in ("K", "delta_degC", "delta_degF"):
        kind = chosen = "temperature_difference"
    wanted = KINDS[chosen].unit
    number = float(quantity.magnitude if own_unit == wanted else _converted(quantity, wanted))
    made = _of_kind(number, chosen, currency)
    return made if kind and kind == chosen else _in_own_unit(made, quantity)


def _kind_of(unit: Unit) -> str:
    """The usual kind of a unit; '' where there is none."""
    from methodsheets.formula import units

    found = USUAL_KINDS.get(units.spell(unit))
    return found or next((kind for word, kind in USUAL_KINDS.items() if _same_sort(unit, word)), "")


def _same_sort(unit: Unit, word: str) -> bool:
    from methodsheets.formula import sorts, units

    return sorts.agree(unit, units.parse_unit(word))


def _converted(quantity: Quantity, word: str) -> float:
    from methodsheets.formula import sorts, units

    return sorts.converted(quantity.magnitude, quantity.units, units.parse_unit(word))


def _in_own_unit(made: Measure, quantity: Quantity) -> Measure:
    """A value of which nobody said the kind stays in the unit its author chose, in the system that unit belongs to."""
    from methodsheets.formula import units

    own_unit = units.spell(quantity.units)
    if own_unit in (made.unit, "m/min", "mm/min", "in", "h", "s", "1"):
        return made
    words = with_unit(figures(float(quantity.magnitude), OWN_FIGURES), own_unit)
    if units.is_inch(quantity.units):
        return Measure(made.value, made.unit, made.kind, made.metric, words)
    same = made.inch == made.metric
    return Measure(made.value, made.unit, made.kind, words, words if same else made.inch)


def shown(value: Value, currency: str = "") -> Measure | str:
    """What the page prints for any value: a `Measure` for a quantity, words for everything else.

    A result prints its name (a fit: '16 H7/s6'), else its first fields; a list its items; a point its coordinates.
    """
    from methodsheets.formula.values import Point, Record

    if value.is_quantity:
        return measure(value, currency=currency)
    if isinstance(value.data, bool):
        return "yes" if value.data else "no"
    if isinstance(value.data, str):
        return value.data
    if isinstance(value.data, Record):
        name = value.data.fields.get("name")
        if name is not None and name.data:
            return str(shown(name))
        first = [(field, item) for field, item in value.data.fields.items() if field != "name"][:4]
        return ", ".join(f"{field.replace('_', ' ')} {shown(item)}" for field, item in first)
    joined = ", ".join(str(shown(item, currency)) for item in value.items)
    return f"({joined})" if isinstance(value.data, Point) else joined
