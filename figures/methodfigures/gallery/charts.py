"""Examples of figures that explain fits and balance, with small built-in data."""

from __future__ import annotations

from methodfigures.explain.balance import (
    Balanced,
    Cut,
    StaticBalance,
    draw_static_balance,
)
from methodfigures.explain.fit_zones import Fit, FitZones, Zone, draw_fit_zones
from methodfigures.explain.press_fit import PressFit, draw_press_fit
from methodfigures.paper.drawing import Drawing
from methodfigures.solids.simple_solids import rod, turned


def fits() -> tuple[str, Drawing]:
    """A press fit and a running fit."""
    hole = Zone("H7", 0, 18, "hole H7   16.000 to 16.018")
    fits = (
        Fit("Ø16 H7/p6", hole, Zone("p6", 18, 29, "shaft p6   16.018 to 16.029"), "interference 0 to 29"),
        Fit("Ø16 H7/g6", hole, Zone("g6", -17, -6, "shaft g6   15.983 to 15.994"), "clearance 6 to 35"),
    )
    return "Fit and tolerance zones", draw_fit_zones(
        FitZones(fits, zero_text="zero line 16.000", title="H7/p6 and H7/g6")
    )


def one_fit() -> tuple[str, Drawing]:
    """A transition fit."""
    fit = Fit(
        "Ø25 H7/k6",
        Zone("H7", 0, 21, "hole H7   25.000 to 25.021"),
        Zone("k6", 2, 15, "shaft k6   25.002 to 25.015"),
        "from interference 15 to clearance 19",
    )
    return "Transition fit", draw_fit_zones(FitZones((fit,), zero_text="zero line 25.000"))


def press() -> tuple[str, Drawing]:
    """Pressure and stress in a press fit."""
    spec = PressFit(
        diameter=16,
        outer=38,
        length=22,
        interference=0.0235,
        pressure=72.7,
        hub_inside=104,
        hub_outside=31.3,
        diameter_text="Ø16 H7/p6",
        outer_text="Ø38",
        length_text="22",
        interference_text="interference 0.018",
        pressure_text="pressure 73 N/mm²",
        inside_text="104 N/mm²",
        outside_text="31 N/mm²",
        hub_name="disc",
        shaft_name="spindle",
        force_text="press with 12.1 kN at most",
        rows=("μ = 0.15 reckoned", "turning moment held 96.6 N·m"),
    )
    return "Press fit", draw_press_fit(spec)


def balance() -> tuple[str, Drawing]:
    """An eccentric part before and after it was lightened."""
    bodies = (turned([(0, 0), (0, 8), (24, 8), (24, 0)]), rod(38, 24, 34), rod(38, 34.01, 46, (6.0, 0.0)))
    states = (
        Balanced(
            solids=bodies,
            mass=290.7,
            vector=(641, 0),
            caption="a   turned",
            mass_text="290.7 g",
            offset_text="e = 2.205",
            weight=33.7,
            weight_text="33.7 g",
            equation="33.74 × 19 = 290.7 × 2.205 g·mm",
        ),
        Balanced(
            solids=bodies[:2],
            mass=233.4,
            vector=(36, 0),
            caption="b   flats and holes cut",
            mass_text="233.4 g",
            offset_text="e = 0.155",
            weight=1.9,
            weight_text="1.9 g",
            equation="1.90 × 19 = 233.4 × 0.155 g·mm",
        ),
    )
    cuts = (
        Cut("flat at 40° 257", (-197, -165)),
        Cut("flat at −40° 202", (-116, 165)),
        Cut("hole 0° 129", (-129, 0)),
        Cut("holes ±45° 162", (-163, 0)),
    )
    spec = StaticBalance(
        states,
        (1, 0, 0),
        (0, 1, 0),
        8.0,
        19.0,
        cuts=cuts,
        rim_text="19",
        start_text="turned 641",
        left_text="left over 36",
        notes=("c   vector sum", "94 % cancelled"),
    )
    return "Static balance with the vector sum", draw_static_balance(spec)
