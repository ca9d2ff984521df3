"""Numbers as both systems print them, made by hand for the sample methods."""

from __future__ import annotations

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Working

SMALL, LARGE = "osierbank-small", "osierbank-large"
NBSP = "\u202f"


def mm(value: float, digits: int = 2, kind: str = "length") -> Measure:
    """A length as both systems print it."""
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    inch = f"{value / 25.4:.3f}" if kind != "size" else f"{value / 25.4:.4f}"
    return Measure(value, "mm", kind, f"{text}{NBSP}mm", f"{inch}{NBSP}in")


def speed(value: int) -> Measure:
    return Measure(value, "1/min", "spindle_speed", f"{value}{NBSP}1/min", f"{value}{NBSP}1/min")


def cutting_speed(value: float) -> Measure:
    return Measure(value, "m/min", "cutting_speed", f"{value:g}{NBSP}m/min", f"{value * 3.281:.0f}{NBSP}ft/min")


def grams(value: float) -> Measure:
    return Measure(value, "g", "mass", f"{value:.0f}{NBSP}g", f"{value / 28.35:.1f}{NBSP}oz")


def minutes(value: float) -> Measure:
    return Measure(value, "min", "time", f"{value:g}{NBSP}min", f"{value:g}{NBSP}min")


def newtons(value: float) -> Measure:
    return Measure(value, "N", "force", f"{value:.0f}{NBSP}N", f"{value / 4.448:.0f}{NBSP}lbf")


def working_of_speed(v: float, d: float, n: int) -> Working:
    """The working of a spindle speed, with MathML."""
    fraction = "<mfrac><mi>v</mi><mrow><mi>π</mi><mo>⁢</mo><mi>d</mi></mrow></mfrac>"
    return Working(
        "n",
        "Spindle speed",
        f'<math alttext="n = v / (pi d)"><mi>n</mi><mo>=</mo>{fraction}</math>',
        f'<math alttext="n = {v} m/min / (pi {d} mm)"><mi>n</mi><mo>=</mo><mfrac><mrow><mn>{v}</mn>'
        "<mtext> m/min</mtext></mrow>"
        f"<mrow><mi>π</mi><mo>·</mo><mn>{d}</mn><mtext> mm</mtext></mrow></mfrac></math>",
        f'<math alttext="= {n} 1/min"><mo>=</mo><mn>{n}</mn><mtext> 1/min</mtext></math>',
        f"n = v / (π d) = {v} m/min / (π · {d} mm) = {n} 1/min",
        "Definition of cutting speed",
        "exact",
        "At constant spindle speed the cutting speed falls to nothing at the centre when facing.",
    )
