"""Which pictures explain the calculations: the zones of a fit, the section of a press fit with its pressure?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from methodfigures.explain.fit_zones import Fit as FitFigure
from methodfigures.explain.fit_zones import FitZones, Zone
from methodfigures.explain.press_fit import PressFit as PressFigure
from methodsheets.formula.functions import Called
from methodsheets.formula.values import Record
from methodsheets.method.job import Finished
from methodsheets.operations.say import diameter, number
from methodsheets.reading.blocks import CalcLine
from methodsheets.reading.problem import MethodError
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.iso286 import Limits
from methodsheets.trade.fits.press_fits import PressFit, press_fit
from methodsheets.trade.form.calculation import calculation_of


def calculated(job: Finished) -> Iterator[tuple[str, CalcLine, Any]]:
    """(name, its line, the object) of every calculation with a result of several fields."""
    for known in job.reader.scope:
        if known.value is not None and isinstance(known.value.data, Record) and known.line is not None:
            yield known.name, known.line, known.value.data.raw


def calls_of(job: Finished, line: CalcLine) -> list[Called] | None:
    """The calls that made it; None where it is worth nothing any more."""
    calls: list[Called] = []
    try:
        job.reader.value(line.expression, calls)
    except MethodError:
        return None
    return calls


def fit_spec(found: Fit, label: str) -> FitZones:
    """The tolerance zones of one fit over the zero line, in micrometres."""
    name = f"{diameter(found.nominal)} {found.name}".strip()
    zones = [_zone("hole", found.hole), _zone("shaft", found.shaft)]
    return FitZones(
        (FitFigure(name, zones[0], zones[1], _between(found)),), title=f"Fit {name}" + (f": {label}" if label else "")
    )


def _zone(part: str, limits: Limits) -> Zone:
    sizes = f"{part} {limits.name}   {limits.lower:.3f} to {limits.upper:.3f}".replace("  ", " ")
    return Zone(limits.name or part, _micrometres(limits.lower_deviation), _micrometres(limits.upper_deviation), sizes)


def _micrometres(mm: float) -> float:
    return round(1000.0 * mm, 1)


def _between(found: Fit) -> str:
    if found.kind == "interference":
        return f"interference {_micrometres(found.interference_min):g} to {_micrometres(found.interference_max):g}"
    if found.kind == "clearance":
        return f"clearance {_micrometres(found.clearance_min):g} to {_micrometres(found.clearance_max):g}"
    return (
        f"from {_micrometres(found.interference_max):g} interference to {_micrometres(found.clearance_max):g} clearance"
    )


PRESS_FIT = calculation_of(press_fit).name


def press_spec(found: PressFit, label: str, calls: list[Called]) -> PressFigure | None:
    """The section of a press fit at its tightest; None where the call does not tell length and hub."""
    call = next((c for c in reversed(calls) if c.function.name == PRESS_FIT), None)
    if call is None:
        return None
    length, hub = (call.arguments[name].to("mm") for name in ("length", "hub"))
    bore = call.arguments["shaft_bore"].to("mm") if "shaft_bore" in call.arguments else 0.0
    ratio = (found.diameter / hub) ** 2
    outside = found.pressure_max * 2 * ratio / (1 - ratio)
    return PressFigure(
        diameter=found.diameter,
        outer=hub,
        length=length,
        interference=found.interference_max,
        pressure=found.pressure_max,
        hub_inside=found.hub_hoop_max,
        hub_outside=outside,
        bore=bore,
        diameter_text=diameter(found.diameter),
        outer_text=diameter(hub),
        length_text=number(length),
        interference_text=f"interference {_micrometres(found.interference_max):g} µm at most",
        pressure_text=f"{found.pressure_max:.0f} N/mm²",
        inside_text=f"{found.hub_hoop_max:.0f}",
        outside_text=f"{outside:.0f}",
        force_text=f"press with {found.force_max / 1000:.1f} kN at most",
        rows=(
            f"interference {_micrometres(found.interference_min):g} to {_micrometres(found.interference_max):g} µm",
            f"pressure {found.pressure_min:.0f} to {found.pressure_max:.0f} N/mm²",
            f"pressing force {found.force_min / 1000:.1f} to {found.force_max / 1000:.1f} kN",
            f"holds at least {found.torque_min:.3g} N·m",
        ),
        title="Press fit" + (f": {label}" if label else ""),
    )
