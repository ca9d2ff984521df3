"""Reads published figures with their units, so that ours can be compared in the publication's own unit."""

from __future__ import annotations

import re
from fractions import Fraction

from .cases import Case

FACTORS = {
    # published unit -> factor to the unit our calculations take and give
    "": 1.0,
    "mm": 1.0,
    "mm/rev": 1.0,
    "mm/tooth": 1.0,
    "inch": 25.4,
    "inch/rev": 25.4,
    "inch/tooth": 25.4,
    "deg": 1.0,
    "1/min": 1.0,
    "m/min": 1.0,
    "ft/min": 0.3048,
    "mm/min": 1.0,
    "inch/min": 25.4,
    "inch^3/min": 16.387064,
    "N": 1.0,
    "lbf": 4.4482216152605,
    "N*m": 1.0,
    "lbf*inch": 0.1129848290276167,
    "kW": 1.0,
    "hp": 0.7456998715822702,
    "N/mm**2": 1.0,
    "kN/mm**2": 1000.0,
    "kgf/mm**2": 9.80665,
    "hp*min/inch^3": 1.0,
    "kJ/cm**3": 1.0,
    "um": 1.0,
    "microinch": 0.0254,
    "min": 1.0,
    "s": 1 / 60,
    "%": 0.01,
}


def parts(text: object) -> tuple[float, float]:
    """Return a published figure and the factor of its unit: '1/16 inch' gives 0.0625 and 25.4."""
    found = re.match(r"^\s*(\d+/\d+|[-+]?[\d.]+(?:e[-+]?\d+)?)\s*([^\s(]*)", str(text))
    assert found, text
    return float(Fraction(found[1])) if "/" in found[1] else float(found[1]), FACTORS[found[2]]


def ours(text: object) -> float:
    """Return a published figure in our own unit."""
    figure, factor = parts(text)
    return figure * factor


def agree(entry: Case, subject: str, key: str, value: float) -> None:
    """Compare one of our values with a case's, in the publication's unit and at its tolerance."""
    figure, factor = parts(entry.expected[key])
    entry.check(subject, key, value / factor, figure)


def span(text: str) -> tuple[float, float]:
    """Read '80-110' or '120' as a lowest and a highest figure."""
    low, _, high = text.partition("-")
    return float(low), float(high or low)
