"""Which figures are there?  One example of each kind, with small built-in data."""
from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from methodfigures.balance import (
    Balanced,
    Cut,
    Plane,
    StaticBalance,
    TwoPlaneBalance,
    draw_static_balance,
    draw_two_plane_balance,
)
from methodfigures.deflection import Deflection, Held, draw_deflection
from methodfigures.drawing import Drawing
from methodfigures.fit_zones import Fit, FitZones, Zone, draw_fit_zones
from methodfigures import gallery_setups as setups
from methodfigures.joining import Joint, SawCut, draw_joint, draw_saw_cut
from methodfigures.pitch_circle import Graduation, PitchCircle, draw_graduation, draw_pitch_circle
from methodfigures.press_fit import PressFit, draw_press_fit
from methodfigures.simple_solids import rod, tube, turned
from methodfigures.speed_chart import FeedChart, SpeedChart, draw_feed_chart, draw_speed_chart
from methodfigures.taper import CompoundSlide, SetOver, SineBar, draw_compound_slide, draw_set_over, draw_sine_bar
from methodfigures.time_chart import DriftChart, TimeChart, Way, draw_drift_chart, draw_time_chart
from methodfigures.wires import ThreeWires, draw_three_wires

Maker = Callable[[], tuple[str, Drawing]]


def _speed() -> tuple[str, Drawing]:
    spec = SpeedChart((10, 15, 20, 25, 30, 40, 50, 60, 80, 100), (5.0, 100.0), (65, 110, 185, 300, 500, 830, 1400, 2300),
                      example=(38.0, 25.0), example_step=185, example_text="Ø38 at 25 m/min:\n209, take 185",
                      steps_text="steps of\nthe lathe")
    return "Spindle-speed chart", draw_speed_chart(spec)


def _speed_range() -> tuple[str, Drawing]:
    spec = SpeedChart((20, 30, 40, 60, 80, 120), (2.0, 25.0), range=(100, 2500), steps_text="range of\nthe mill",
                      speed_names={60: "60 free-cutting steel"})
    return "Spindle-speed chart of a machine without steps", draw_speed_chart(spec)


def _feed() -> tuple[str, Drawing]:
    rows = (("roughing, steel", 0.15, 0.4), ("finishing, steel", 0.05, 0.12), ("boring", 0.04, 0.1), ("parting", 0.02, 0.06),
            ("drilling Ø6", 0.08, 0.14), ("drilling Ø12", 0.14, 0.25), ("reaming Ø10", 0.25, 0.5))
    spec = FeedChart(rows, (0.04, 0.06, 0.08, 0.1, 0.14, 0.2, 0.28, 0.4), steps_text="feeds of the lathe")
    return "Feed chart", draw_feed_chart(spec)


def _time() -> tuple[str, Drawing]:
    ways = (Way("from the bar", 34, 58), Way("in two pieces, pressed", 96, 41), Way("brazed", 60, 52))
    spec = TimeChart(ways, 12, ((62 / 17, "from 4 pieces on\nthe press fit is quicker"),))
    return "Time of methods against the batch", draw_time_chart(spec)


def _drift() -> tuple[str, Drawing]:
    sizes = (15.989, 15.990, 15.9885, 15.991, 15.990, 15.992, 15.9915, 15.993, 15.9925, 15.994, 15.9935, 15.9955)
    spec = DriftChart(sizes, (15.983, 15.994), 16.0, limit_texts=("15.983", "15.994", "16"), trend_text="grows by 0.0005 a part: the tool wears")
    return "Drift of a measured size", draw_drift_chart(spec)


def _fits() -> tuple[str, Drawing]:
    hole = Zone("H7", 0, 18, "hole H7   16.000 to 16.018")
    fits = (Fit("Ø16 H7/p6", hole, Zone("p6", 18, 29, "shaft p6   16.018 to 16.029"), "interference 0 to 29"),
            Fit("Ø16 H7/g6", hole, Zone("g6", -17, -6, "shaft g6   15.983 to 15.994"), "clearance 6 to 35"))
    return "Fit and tolerance zones", draw_fit_zones(FitZones(fits, zero_text="zero line 16.000", title="H7/p6 and H7/g6"))


def _one_fit() -> tuple[str, Drawing]:
    fit = Fit("Ø25 H7/k6", Zone("H7", 0, 21, "hole H7   25.000 to 25.021"), Zone("k6", 2, 15, "shaft k6   25.002 to 25.015"),
              "from interference 15 to clearance 19")
    return "Transition fit", draw_fit_zones(FitZones((fit,), zero_text="zero line 25.000"))


def _press() -> tuple[str, Drawing]:
    spec = PressFit(16, 38, 22, 0.0235, 72.7, 104, 31.3, diameter_text="Ø16 H7/p6", outer_text="Ø38", length_text="22",
                    interference_text="interference 0.018", pressure_text="pressure 73 N/mm²", inside_text="104 N/mm²",
                    outside_text="31 N/mm²", hub_name="disc", shaft_name="spindle",
                    rows=("pressing force 12.1 kN at μ = 0.15", "turning moment held 96.6 N·m"))
    return "Press fit", draw_press_fit(spec)


def _balance() -> tuple[str, Drawing]:
    bodies = (turned([(0, 0), (0, 8), (24, 8), (24, 0)]), rod(38, 24, 34), rod(38, 34.01, 46, (6.0, 0.0)))
    states = (Balanced(bodies, 290.7, (641, 0), "a   turned", "290.7 g", "e = 2.205", 33.7, "33.7 g", "33.74 × 19 = 290.7 × 2.205 g·mm"),
              Balanced(bodies[:2], 233.4, (36, 0), "b   flats and holes cut", "233.4 g", "e = 0.155", 1.9, "1.9 g",
                       "1.90 × 19 = 233.4 × 0.155 g·mm"))
    cuts = (Cut("flat at 40° 257", (-197, -165)), Cut("flat at −40° 202", (-116, 165)), Cut("hole 0° 129", (-129, 0)),
            Cut("holes ±45° 162", (-163, 0)))
    spec = StaticBalance(states, (1, 0, 0), (0, 1, 0), 8.0, 19.0, cuts=cuts, rim_text="19", start_text="turned 641",
                         left_text="left over 36", notes=("c   vector sum", "94 % cancelled"))
    return "Static balance with the vector sum", draw_static_balance(spec)


def _two_plane() -> tuple[str, Drawing]:
    rotor = turned([(0, 0), (0, 6), (20, 6), (20, 22), (60, 22), (60, 16), (90, 16), (90, 6), (112, 6), (112, 0)])
    planes = (Plane("I", 25.0, 84.0, 40.0, "drill Ø5 × 8.2 deep at 40°"), Plane("II", 85.0, 52.0, 205.0, "drill Ø5 × 5.1 deep at 205°"))
    return "Balance in two planes", draw_two_plane_balance(TwoPlaneBalance((rotor,), planes, (10.0, 101.0)))


def _deflection() -> tuple[str, Drawing]:
    s = [180.0 * i / 24 for i in range(25)]
    rows = (
        Held("chuck", "three-jaw chuck alone", tuple((v, 0.31 * ((180 - v) / 180) ** 3) for v in s), "0.31 mm at the free end",
             "0.62 thick there"),
        Held("chuck and centre", "chuck and tailstock centre",
             tuple((v, 0.0228 * 12.3 * (v / 180) ** 2 * (1 - v / 180) ** 3 * (1 + v / 540)) for v in s), "0.01 mm near the middle", "0.02 thick"),
        Held("centres", "between centres", tuple((v, 0.0194 * 16 * (v / 180) ** 2 * (1 - v / 180) ** 2) for v in s),
             "0.019 mm in the middle", "0.04 thick"),
    )
    return "Deflection of slender work", draw_deflection(Deflection(rows, 180.0, length_text="180"))


def _pitch() -> tuple[str, Drawing]:
    angles = tuple(60.0 * i for i in range(6))
    rows = tuple((str(i + 1), f"{a:g}°", f"{24 * math.cos(math.radians(a)):.3f}".replace("-", "−"),
                  f"{24 * math.sin(math.radians(a)) + 0.0:.3f}".replace("-", "−")) for i, a in enumerate(angles))
    spec = PitchCircle(24.0, 5.5, angles, ("hole", "angle", "x", "y"), rows, 70.0, hole_text="6 × Ø5.5", angle_text="60°")
    return "Pitch circle with coordinates", draw_pitch_circle(spec)


def _graduation() -> tuple[str, Drawing]:
    spec = Graduation(70.0, 60, 3.0, 4.5, 6.0, ("0", "10", "20"), width=10.0, pitch_text="3.665", angle_text="6°", short_text="3",
                      fifth_text="4.5", tenth_text="6", rim_text="rim Ø70, 60 divisions")
    return "Graduation of a rim", draw_graduation(spec)


def _slide() -> tuple[str, Drawing]:
    spec = CompoundSlide(30.0, 18.0, 40.0, 8.531, "Ø30", "Ø18", "40", "8.53°", note="set the slide to half the angle of the taper")
    return "Taper with the compound slide", draw_compound_slide(spec)


def _set_over() -> tuple[str, Drawing]:
    spec = SetOver(22.0, 20.0, 80.0, 140.0, 1.75, "Ø22", "Ø20", "80", "140", "set over 1.75", "140 × (22 − 20) / (2 × 80) = 1.75",
                   "set-over drawn larger")
    return "Taper with the tailstock set over", draw_set_over(spec)


def _sine() -> tuple[str, Drawing]:
    spec = SineBar(100.0, 29.654, 17.25, (26.0, 14.0, 40.0), "100", "29.654", "17.25°", "100 × sin 17.25° = 29.654", gauge_text="reads alike at both ends")
    return "Sine bar", draw_sine_bar(spec)


def _wires() -> tuple[str, Drawing]:
    spec = ThreeWires(1.5, 10.0, 9.026, 8.16, 0.866, 10.325, over_text="10.325", wire_text="wires Ø0.866", pitch_text="1.5",
                      effective_text="9.026", angle_text="60°", thread_text="M10 × 1.5",
                      rows=("over the wires = effective diameter + 3 × wire − 0.866 × pitch", "9.026 + 2.598 − 1.299 = 10.325"))
    return "Measuring over three wires", draw_three_wires(spec)


def _wires_ba() -> tuple[str, Drawing]:
    spec = ThreeWires(1.0, 6.0, 5.4, 4.8, 0.55, 6.06, 47.5, over_text="6.060", wire_text="wires Ø0.55", pitch_text="1", effective_text="5.4",
                      angle_text="47.5°", thread_text="0 BA")
    return "Three wires in a thread of 47.5°", draw_three_wires(spec)


def _joint() -> tuple[str, Drawing]:
    disc = tube(38, 16, 24, 46)
    shaft = turned([(0, 0), (0, 5), (1, 6), (22, 6), (22, 8), (67, 8), (68, 7), (68, 0)])
    spec = Joint((disc,), (shaft,), "press", (0, 0, 1), axis=(0, 0, 24), travel=24, fixed_name="disc", moving_name="spindle", support_name="ring",
                 force_text="12 kN", depth=(0, 22), depth_text="22", notes=("oil the joint and start it square",))
    return "Press fit: before and after", draw_joint(spec)


def _braze() -> tuple[str, Drawing]:
    plate, boss = tube(40, 12, 0, 6), rod(12, -20, 6)
    spec = Joint((plate,), (boss,), "braze", (0, 0, 1), travel=16, seams=((-6, 0, 0), (6, 0, 0)), fixed_name="flange", moving_name="spigot",
                 notes=("gap 0.05 to 0.1, flux on both faces, heat the heavier piece",))
    return "Silver brazing", draw_joint(spec)


def _saw() -> tuple[str, Drawing]:
    left, kerf, right = rod(40, 0, 75), rod(40, 75, 76.5), rod(40, 76.5, 120)
    spec = SawCut((rod(40, 0, 120),), (left, right), (kerf,), 75.0, grip=(10, 60), length_text="75", kept_name="this piece is kept",
                  removed_text="kerf 1.5")
    return "Sawing to length", draw_saw_cut(spec)


MAKERS: Mapping[str, Maker] = {
    "turning": setups.turning, "turning-inside": setups.boring, "turning-centres": setups.between_centres,
    "offset-setting": setups.offset, "vice": setups.vice, "clamps": setups.clamps, "rotary": setups.rotary,
    "cross": setups.cross, "joint-press": _joint, "joint-braze": _braze, "saw-cut": _saw,
    "storyboard": setups.storyboard, "strip": setups.strip, "removed-metal": setups.removed, "proof": setups.proof,
    "fit-zones": _fits, "fit-transition": _one_fit, "press-fit": _press, "balance": _balance,
    "balance-two-planes": _two_plane, "deflection": _deflection, "pitch-circle": _pitch, "graduation": _graduation,
    "taper-slide": _slide, "taper-set-over": _set_over, "sine-bar": _sine, "three-wires": _wires,
    "three-wires-ba": _wires_ba, "speed-chart": _speed, "speed-chart-range": _speed_range, "feed-chart": _feed,
    "time-chart": _time, "drift-chart": _drift,
}
"""Name of an example to the function that draws it: (what it is, the drawing)."""


def examples() -> dict[str, tuple[str, Drawing]]:
    """Every kind of figure once: name to (what it is, the drawing)."""
    return {name: make() for name, make in MAKERS.items()}
