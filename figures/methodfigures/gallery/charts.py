"""Examples of charts and of figures that explain fits, balance and deflection, with small built-in data."""

from __future__ import annotations

from methodfigures.explain.balance import (
    Balanced,
    Cut,
    Plane,
    StaticBalance,
    TwoPlaneBalance,
    draw_static_balance,
    draw_two_plane_balance,
)
from methodfigures.explain.deflection import Deflection, Held, draw_deflection
from methodfigures.explain.fit_zones import Fit, FitZones, Zone, draw_fit_zones
from methodfigures.explain.press_fit import PressFit, draw_press_fit
from methodfigures.explain.speed_chart import FeedChart, SpeedChart, draw_feed_chart, draw_speed_chart
from methodfigures.explain.time_chart import DriftChart, TimeChart, Way, draw_drift_chart, draw_time_chart
from methodfigures.paper.drawing import Drawing
from methodfigures.solids.simple_solids import rod, turned


def speed() -> tuple[str, Drawing]:
    """Speeds of a lathe with steps."""
    spec = SpeedChart(
        (10, 15, 20, 25, 30, 40, 50, 60, 80, 100),
        (5.0, 100.0),
        (65, 110, 185, 300, 500, 830, 1400, 2300),
        example=(38.0, 25.0),
        example_step=185,
        example_text="Ø38 at 25 m/min:\n209, take 185",
        steps_text="steps of\nthe lathe",
    )
    return "Spindle-speed chart", draw_speed_chart(spec)


def speed_range() -> tuple[str, Drawing]:
    """Speeds of a mill without steps."""
    spec = SpeedChart(
        (20, 30, 40, 60, 80, 120),
        (2.0, 25.0),
        range=(100, 2500),
        steps_text="range of\nthe mill",
        speed_names={60: "60 free-cutting steel"},
    )
    return "Spindle-speed chart of a machine without steps", draw_speed_chart(spec)


def feed() -> tuple[str, Drawing]:
    """Feeds of a lathe."""
    rows = (
        ("roughing, steel", 0.15, 0.4),
        ("finishing, steel", 0.05, 0.12),
        ("boring", 0.04, 0.1),
        ("parting", 0.02, 0.06),
        ("drilling Ø6", 0.08, 0.14),
        ("drilling Ø12", 0.14, 0.25),
        ("reaming Ø10", 0.25, 0.5),
    )
    notes = {"parting": "by hand", "reaming Ø10": "half the speed of drilling", "finishing, steel": "nose 0.4"}
    spec = FeedChart(rows, (0.04, 0.06, 0.08, 0.1, 0.14, 0.2, 0.28, 0.4), notes, steps_text="feeds of the lathe")
    return "Feed chart", draw_feed_chart(spec)


def time() -> tuple[str, Drawing]:
    """Three methods and where one overtakes another."""
    ways = (Way("from the bar", 34, 58), Way("in two pieces, pressed", 96, 41), Way("brazed", 60, 52))
    spec = TimeChart(ways, 12, ((62 / 17, "from 4 pieces on\nthe press fit is quicker"),))
    return "Time of methods against the batch", draw_time_chart(spec)


def drift() -> tuple[str, Drawing]:
    """A size that grows as the tool wears."""
    sizes = (15.989, 15.990, 15.9885, 15.991, 15.990, 15.992, 15.9915, 15.993, 15.9925, 15.994, 15.9935, 15.9955)
    spec = DriftChart(
        sizes,
        (15.983, 15.994),
        16.0,
        limit_texts=("15.983", "15.994", "16"),
        trend_text="grows by 0.0005 a part: the tool wears",
    )
    return "Drift of a measured size", draw_drift_chart(spec)


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
        16,
        38,
        22,
        0.0235,
        72.7,
        104,
        31.3,
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
            bodies,
            290.7,
            (641, 0),
            "a   turned",
            "290.7 g",
            "e = 2.205",
            33.7,
            "33.7 g",
            "33.74 × 19 = 290.7 × 2.205 g·mm",
        ),
        Balanced(
            bodies[:2],
            233.4,
            (36, 0),
            "b   flats and holes cut",
            "233.4 g",
            "e = 0.155",
            1.9,
            "1.9 g",
            "1.90 × 19 = 233.4 × 0.155 g·mm",
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


def two_plane() -> tuple[str, Drawing]:
    """A rotor with corrections in two planes."""
    rotor = turned([(0, 0), (0, 6), (20, 6), (20, 22), (60, 22), (60, 16), (90, 16), (90, 6), (112, 6), (112, 0)])
    planes = (
        Plane("I", 25.0, 84.0, 40.0, "drill Ø5 × 8.2 deep at 40°"),
        Plane("II", 85.0, 52.0, 205.0, "drill Ø5 × 5.1 deep at 205°"),
    )
    return "Balance in two planes", draw_two_plane_balance(TwoPlaneBalance((rotor,), planes, (10.0, 101.0)))


def deflection() -> tuple[str, Drawing]:
    """A slender bar held in three ways."""
    s = [180.0 * i / 24 for i in range(25)]
    rows = (
        Held(
            "chuck",
            "three-jaw chuck alone",
            tuple((v, 0.31 * ((180 - v) / 180) ** 3) for v in s),
            "0.31 mm at the free end",
            "0.62 thick there",
        ),
        Held(
            "chuck and centre",
            "chuck and tailstock centre",
            tuple((v, 0.0228 * 12.3 * (v / 180) ** 2 * (1 - v / 180) ** 3 * (1 + v / 540)) for v in s),
            "0.01 mm near the middle",
            "0.02 thick",
        ),
        Held(
            "centres",
            "between centres",
            tuple((v, 0.0194 * 16 * (v / 180) ** 2 * (1 - v / 180) ** 2) for v in s),
            "0.019 mm in the middle",
            "0.04 thick",
        ),
    )
    return "Deflection of slender work", draw_deflection(Deflection(rows, 180.0, length_text="180"))
