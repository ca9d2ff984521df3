"""Do the smaller calculations agree with printed tables, with geometry done another way, and with sums done in pieces?

`OTHER WAY` is an answer that was reached without the equation of the calculation: by adding up small pieces, by a
special case that plane geometry gives, or by a law that another trade prints. Table values say where they come from.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable
from typing import Any

import pytest

from methodsheets.trade.fits.fits import fit_by_interference
from methodsheets.trade.form.calculation import catalogue

from .record import record

PLANE = "plane geometry: a special case, by another way"
PIECES = "added up in small pieces, without the equation"
OF_LAW = "laws of mechanics in other units, from memory"
HANDBOOK = "machining handbooks, from memory"
GENERAL = "ISO 2768-1 and -2, tables, from memory"
ISO = "ISO standard of the part, dimension table, from memory"
BENDING = "handbook of stress formulas, from memory"
FINISH = "makers' tables of feed, nose radius and finish, from memory"
BALANCE = "ISO 1940-1, table and chart, from memory"
HARDNESS = "ISO 18265, table for steel, from memory"
MORSE = "handbook table of Morse and steep tapers, from memory"
SLICES = 20000
ALL = catalogue()


def call(name: str, *arguments: Any, **named: Any) -> Any:
    return ALL[name].function(*arguments, **named)


def _named(arguments: tuple[Any, ...] | str) -> tuple[tuple[Any, ...], dict[str, Any]]:
    """Arguments that are too many to be read in a row."""
    if arguments == "ring":
        steel = {"hub_modulus": E_STEEL, "hub_poisson": 0.29, "hub_yield": 300.0, "hub_expansion": 11.7e-6,
                 "shaft_modulus": E_STEEL, "shaft_poisson": 0.29, "shaft_yield": 300.0, "shaft_expansion": 11.7e-6}  # fmt: skip
        return (fit_by_interference(50, 0.01, 0.02), 40, 100), steel
    if arguments == "face":
        return ("S235", 250, 2, 80, 280 / (101.859 * 12), 12, 80), {"specific_force": 1800.0, "chip_exponent": 0.0}
    assert isinstance(arguments, tuple)
    return arguments, {}


def field(found: Any, name: str) -> float:
    value = found
    for part in name.split("."):
        if part:
            value = value[int(part)] if part.isdecimal() else getattr(value, part)
    return float(value)


def summed(slice_at: Callable[[float], float], low: float, high: float) -> float:
    """The sum of a quantity over a length, slice by slice, at their middles."""
    step = (high - low) / SLICES
    return sum(slice_at(low + (i + 0.5) * step) for i in range(SLICES)) * step


def bent(force: float, length: float, inertia: Callable[[float], float], modulus: float) -> float:
    """mm that the free end of a bar gives: the work of a unit load, slice by slice from the held end."""
    return summed(lambda x: force * (length - x) ** 2 / (modulus * inertia(x)), 0.0, length)


def second_moment(width_at: Callable[[float], float], half: float) -> float:
    return summed(lambda y: width_at(y) * y * y, -half, half)


def hexagon_width(y: float, flats: float = 20.0) -> float:
    """Width of a hexagon that stands on a flat, at a height from its middle."""
    return 2 * (flats / math.sqrt(3) - abs(y) / math.sqrt(3))


def drilled_moment(diameter: float, depth: float, point: float, radius: float, density: float) -> float:
    """g·mm that a drilled hole takes away, its cone included."""
    tip = diameter / 2 / math.tan(math.radians(point / 2))
    cone = summed(lambda z: math.pi * (diameter / 2 * (1 - z / tip)) ** 2, 0.0, tip)
    whole = math.pi * diameter**2 / 4 * (depth - tip) + cone
    return whole * density * 1e-6 * radius


E_STEEL = 206000.0
FACING = functools.partial(summed, low=5.0, high=25.0)
STEP = functools.partial(bent, 100.0, 30.0)

# (calculation, arguments, field of the result, value, source)
CASES: list[tuple[str, tuple[Any, ...] | str, str, float, str]] = [
    ("compound_angle", (45, 45), "angle", 54.7356, "corner of a cube, solid geometry"),
    ("compound_angle", (30, 0), "angle", 30.0, PLANE),
    ("dovetail_over_pins", (30, 60, 10), "", 30 + 2.73205 * 10, HANDBOOK + ": 2.73205 pins at 60 deg"),
    ("dovetail_over_pins", (30, 55, 10), "", 30 + 2.92098 * 10, HANDBOOK + ": 2.92098 pins at 55 deg"),
    ("dovetail_between_pins", (50, 60, 10), "", 50 - 27.3205, HANDBOOK + ": 2.73205 pins at 60 deg"),
    ("dovetail_between_pins", (50, 45, 10), "", 50 - 34.14214, HANDBOOK + ": 3.41421 pins at 45 deg"),
    ("dovetail_width", (50, 10, 45), "", 30.0, PLANE),
    ("dovetail_width", (50, 10, 60), "", 50 - 20 * 0.57735, HANDBOOK + ": cotangent of 60 deg"),
    ("height_of_arc", (13, 24), "", 8.0, PLANE + ": 5, 12, 13"),
    ("height_of_arc", (5, 6), "", 1.0, PLANE + ": 3, 4, 5"),
    ("radius_by_chord", (24, 8), "", 13.0, PLANE + ": 5, 12, 13"),
    ("radius_by_chord", (6, 1), "", 5.0, PLANE + ": 3, 4, 5"),
    ("radius_over_rollers", (78, 18), "", 25.0, PLANE + ": circles that touch, 9 and 25"),
    ("radius_over_rollers", (48, 16), "", 8.0, PLANE + ": three equal circles side by side on a plane"),
    ("balance_grade", ("flywheel",), "", 6.3, BALANCE),
    ("balance_grade", ("grinding spindle",), "", 1.0, BALANCE),
    ("permissible_unbalance", (2.5, 1.0, 3000), "", 8.0, BALANCE),
    ("permissible_unbalance", (6.3, 1.0, 3000), "", 20.0, BALANCE),
    ("unbalance_force", (720.08, 1000), "", 1.775 * 4.44822, OF_LAW + ": 1.77 lbf an ounce-inch at 1000 rpm"),
    ("correction_mass", (720.08, 25.4), "", 28.3495, OF_LAW + ": an ounce-inch at an inch is an ounce"),
    ("hexagon_section", (20,), "", second_moment(hexagon_width, 10.0), PIECES),
    ("hexagon_section", (10,), "", 0.0601 * 10**4, HANDBOOK + ": 0.0601 of the flats to the fourth"),
    ("rectangular_section", (7, 11), "", second_moment(lambda y: 7.0, 5.5), PIECES),
    ("rectangular_section", (10, 10), "", 833.33, HANDBOOK + ": a square, side to the fourth over 12"),
    ("segment_height", (10, 90), "", 10.0, PLANE),
    ("segment_height", (13, math.degrees(math.asin(12 / 13))), "", 8.0, PLANE + ": 5, 12, 13"),
    ("diameter_at_speed", (30.48, 764), "", 12.7, HANDBOOK + ": 3.82 times the feet over the inches"),
    ("diameter_at_speed", (110, 700), "", 50.0, "cutting-tool maker, formula for turning, worked example, from memory"),
    ("cutting_power", (4448.22, 10.0584, 1.0), "", 0.7457, OF_LAW + ": 33,000 ft lbf a minute"),
    ("cutting_power", (1000, 60, 1.0), "", 1.0, OF_LAW + ": a kilowatt is a thousand N m a second"),
    ("power_of_torque", (1.35582, 5252), "", 0.7457, OF_LAW + ": lbf ft times rpm over 5252"),
    ("power_of_torque", (10, 9549), "", 10.0, OF_LAW + ": N m times rpm over 9549"),
    ("torque_of_power", (0.7457, 5252), "", 1.35582, OF_LAW + ": lbf ft times rpm over 5252"),
    ("torque_of_power", (10, 9549), "", 10.0, OF_LAW + ": N m times rpm over 9549"),
    ("facing_time", (50, 0.1, 500, 10), "", FACING(lambda r: 1 / (0.1 * 500)), PIECES),
    ("facing_time", (100, 0.25, 200), "", 1.0, OF_LAW + ": 200 turns of a quarter at 200 a minute"),
    ("facing_time_at_speed", (50, 0.1, 50, 5000, 10), "", FACING(lambda r: 2 * math.pi * r / (0.1 * 50000)), PIECES),
    (
        "facing_time_at_speed", (50, 0.1, 50, 600, 10), "",
        FACING(lambda r: 1 / (0.1 * min(600.0, 50000 / (2 * math.pi * r)))), PIECES,
    ),
    ("drilling_power", (2500, 10, 0.2, 31.4159, 1.0), "",
     2 * math.pi * 1000 / 60 * 2 * summed(lambda r: 2500 * 0.1 * r, 0.0, 5.0) / 1e6, PIECES),
    ("drilling_power", (2000, 20, 0.3, 20, 1.0), "",
     2 * summed(lambda r: 2000 * 0.15 * (20 / 60) * r / 10, 0.0, 10.0) / 1000, PIECES),
    ("feed_for_roughness", (0.78, 0.4), "", 0.1, FINISH),
    ("feed_for_roughness", (1.6, 0.8), "", 0.2, FINISH),
    ("nose_radius_for_roughness", (0.78, 0.1), "", 0.4, FINISH),
    ("nose_radius_for_roughness", (1.6, 0.2), "", 0.8, FINISH),
    ("milled_roughness", (0.5, 10), "", 1000 * (5 - math.sqrt(25 - 0.0625)), PLANE + ": Pythagoras"),
    ("milled_roughness", (1.0, 20), "", 1000 * (10 - math.sqrt(100 - 0.25)), PLANE + ": Pythagoras"),
    ("exact_arc_roughness", (0.6, 0.5), "", 100.0, PLANE + ": 3, 4, 5"),
    ("exact_arc_roughness", (2.4, 1.3), "", 800.0, PLANE + ": 5, 12, 13"),
    ("general_limits", (50, "m"), "upper", 50.3, GENERAL),
    ("general_limits", (50, "c"), "lower", 49.2, GENERAL),
    ("general_tolerance", (50, "f"), "", 0.15, GENERAL),
    ("general_tolerance", (200, "m"), "", 0.5, GENERAL),
    ("general_tolerance_edge", (5, "m"), "", 0.5, GENERAL),
    ("general_tolerance_edge", (10, "m"), "", 1.0, GENERAL),
    ("general_tolerance_angle", (8, "m"), "", 1.0, GENERAL),
    ("general_tolerance_angle", (100, "m"), "", 1 / 3, GENERAL),
    ("general_tolerance_form", ("runout", 20, "H"), "", 0.1, GENERAL),
    ("general_tolerance_form", ("straightness", 20, "K"), "", 0.1, GENERAL),
    ("centre_drill", ("A2",), "body", 5.0, ISO + ": ISO 866"),
    ("centre_drill", ("A4",), "body", 10.0, ISO + ": ISO 866"),
    ("centre_drill", ("A1",), "mouth", 2.12, ISO + ": ISO 6411 type A"),
    ("centre_drill", ("A3.15",), "mouth", 6.7, ISO + ": ISO 6411 type A"),
    ("centre_hole_depth", (2, 2.5, 2 + 2 * 3 * math.tan(math.radians(30))), "", 5.5, PLANE),
    ("centre_hole_depth", (3, 4, 3 + 2 / math.sqrt(3)), "", 5.0, PLANE),
    ("clearance_drill", ("M6",), "wanted", 6.6, ISO + ": ISO 273 medium"),
    ("clearance_drill", ("M10",), "wanted", 11.0, ISO + ": ISO 273 medium"),
    ("clearance_hole", ("M8",), "", 9.0, ISO + ": ISO 273 medium"),
    ("clearance_hole", ("M12",), "", 13.5, ISO + ": ISO 273 medium"),
    ("cap_screw", ("M6",), "head", 10.0, ISO + ": ISO 4762"),
    ("cap_screw", ("M8",), "key", 6.0, ISO + ": ISO 4762"),
    ("countersink", ("M6",), "", 13.44, ISO + ": ISO 10642"),
    ("countersink", ("M8",), "", 17.92, ISO + ": ISO 10642"),
    ("hexagon_parts", ("M10",), "nut_height", 8.4, ISO + ": ISO 4032"),
    ("hexagon_parts", ("M8",), "across_flats", 13.0, ISO + ": ISO 4014"),
    ("spring_pin_strength", (5,), "", 17540.0, ISO + ": ISO 8752"),
    ("spring_pin_strength", (8,), "", 42760.0, ISO + ": ISO 8752"),
    ("grub_screw_holding", (6.35,), "", 1000 * 4.448, HANDBOOK + ": cup points"),
    ("grub_screw_holding", (9.525,), "", 2000 * 4.448, HANDBOOK + ": cup points"),
    ("collet_for", (9.5, "ER20"), "least", 9.0, ISO + ": ISO 15488, one mm of travel"),
    ("collet_for", (19.5, "ER32"), "greatest", 20.0, ISO + ": ISO 15488, one mm of travel"),
    ("collet_runout", (6, 1), "run_out", 0.010, ISO + ": ISO 15488, class 1 to 10 mm"),
    ("collet_runout", (16, 2), "run_out", 0.020, ISO + ": ISO 15488, class 2 over 10 mm"),
    ("collet_runout", (16, 2), "test_length", 40.0, ISO + ": ISO 15488"),
    ("tolerance_grade", (25, "IT6"), "", 0.013, ISO + ": ISO 286-1"),
    ("tolerance_grade", (60, "IT8"), "", 0.046, ISO + ": ISO 286-1"),
    ("limits", (25, "H7"), "upper_deviation", 0.021, ISO + ": ISO 286-2"),
    ("limits", (25, "f7"), "lower_deviation", -0.041, ISO + ": ISO 286-2"),
    ("fillet_throat", (6,), "", 4.24, HANDBOOK + ": 0.707 of the leg"),
    ("fillet_throat", (10,), "", 7.07, HANDBOOK + ": 0.707 of the leg"),
    ("tensile_from_hardness", (152,), "", 510.0, HARDNESS),
    ("tensile_from_hardness", (285,), "", 965.0, HARDNESS),
    ("arc_milling_time", (50, 360, 157.08), "", 1.0, PLANE + ": once round"),
    ("arc_milling_time", (100, 60, 52.36), "", 1.0, PLANE + ": an arc of 60 deg is 1.0472 of the radius"),
    ("side_milling_run_in", (10, 20), "", 10.0, PLANE + ": half the cutter"),
    ("side_milling_run_in", (4, 29), "", 10.0, PLANE + ": mean proportional of 4 and 25"),
    ("rectangle_torsion", (2, 1), "", 0.229 * 2, BENDING + ": 0.229 for two to one"),
    ("rectangle_torsion", (10, 1), "", 0.312 * 10, BENDING + ": 0.312 for ten to one"),
    ("rectangle_torsion", (1, 1), "", 0.1406, BENDING + ": 0.1406 for a square"),
    ("chord", (100, 72), "", 58.779, HANDBOOK + ": constant of five divisions"),
    ("chord", (100, 90), "", 70.711, HANDBOOK + ": constant of four divisions"),
    ("polygon_flats", (10, 6), "across_corners", 11.547, HANDBOOK + ": 1.1547"),
    ("polygon_flats", (10, 8), "across_corners", 10.824, HANDBOOK + ": 1.0824"),
    ("polygon_from_bar", (20, 6), "across_flats", 17.32, HANDBOOK + ": 0.866"),
    ("polygon_from_bar", (20, 4), "across_flats", 14.142, HANDBOOK + ": 0.7071"),
    ("bar_area", ("hexagon", 10), "", 86.60, HANDBOOK + ": 0.866"),
    ("bar_area", ("round", 10), "", 78.54, HANDBOOK + ": 0.7854"),
    ("milling_removal_rate", (2, 80, 280), "", 44.8, "cutting-tool maker, milling power, worked example, from memory"),
    ("milling_removal_rate", (5, 10, 200), "", 10.0, PLANE + ": ten cubic centimetres"),
    ("drilling_removal_rate", (10, 100), "", 7.854, HANDBOOK + ": 0.7854 of the square"),
    ("change_gears", (1.0, 3.175, (20, 40, 50, 60, 127)), "ratio", 40 / 127, HANDBOOK + ": 40 and 127 on eight threads"),
    ("change_gears", (25.4 / 20, 25.4 / 8, (20, 30, 40, 50)), "ratio", 0.4, HANDBOOK + ": 20 and 50 cut 20 on 8"),
    ("infeed_along_slide", (0.64952, 30), "", 0.75, HANDBOOK + ": three quarters of the pitch along the slide"),
    ("infeed_along_slide", (1.0, 29), "", 1.143, HANDBOOK + ": secant of 29 deg"),
    ("thread_dial", (25.4 / 12, 25.4 / 8), "every", 1, "inches counted out: 12 and 8 threads meet every quarter inch"),
    ("thread_dial", (25.4 / 11, 25.4 / 8), "every", 4, "inches counted out: 11 and 8 threads meet every inch"),
    ("threading_infeeds", (1.0, 4), "0", 0.5, PLANE + ": half as deep is a quarter of the triangle"),
    ("threading_infeeds", (0.9, 9), "3", 0.6, PLANE + ": two thirds as deep is four ninths of the triangle"),
    ("diameter_along_taper", (12.065, 0.59858 / 12, 53.975), "", 9.373, MORSE + ": No. 1"),
    ("diameter_along_taper", (17.780, 0.59941 / 12, 65.0875), "", 14.529, MORSE + ": No. 2"),
    ("taper_advance", (0.1, 0.59858 / 12), "", 2.0047, MORSE + ": No. 1, 1 in 20.047"),
    ("taper_advance", (0.1, 0.59941 / 12), "", 2.0020, MORSE + ": No. 2, 1 in 20.020"),
    ("taper_half_angle", (31.75, 2.5833333, 100), "", 8.2971, MORSE + ": 7 in 24"),
    ("taper_half_angle", (0.700, 0.572, 2.5625), "", 1.4307, MORSE + ": No. 2, 1 deg 25 min 50 s"),
    ("speed_ratio_for_life", (16, 0.25), "", 0.5, HANDBOOK + ": Taylor, half the speed at a quarter is 16 times the life"),
    ("speed_ratio_for_life", (0.5,), "", 1.2, "open lesson on tool life: a fifth faster is half the life, from memory"),
    ("lathe_tool_bends", (300, 2, 20, 20), "deflection", bent(300, 20, lambda x: 2 * 20**3 / 12, E_STEEL), PIECES),
    ("lathe_tool_bends", (500, 12, 12, 30), "deflection", bent(500, 30, lambda x: 12**4 / 12, E_STEEL), PIECES),
    ("longest_overhang", (200, 20, bent(200, 100, lambda x: math.pi * 20**4 / 64, E_STEEL)), "", 100.0, PIECES),
    ("longest_overhang", (50, 8, bent(50, 30, lambda x: math.pi * 8**4 / 64, E_STEEL)), "", 30.0, PIECES),
    ("turned_shape", (100, [200], [10], "between centres"), "greatest",
     2 * 100 * 200**3 / (48 * E_STEEL * 490.874), BENDING + ": a beam on two rests"),
    ("turned_shape", (100, [80], [10]), "greatest", 2 * 100 * 80**3 / (3 * E_STEEL * 490.874), BENDING + ": one end held"),
    ("balance_drill_depth", (drilled_moment(8, 20, 118, 30, 7850), 30, 8, 7850, 1, 118), "", 20.0, PIECES),
    ("balance_drill_depth", (drilled_moment(10, 12, 90, 25, 7200), 25, 10, 7200, 1, 90), "", 12.0, PIECES),
    ("turning_time_at_speed", (100, 50, 0.2, 157.08), "", 0.5, PLANE + ": 500 turns at 1000 a minute"),
    ("angle_from_minutes", (14, 30), "", 14.5, PLANE),
    ("degrees_minutes_seconds", (14.2525,), "seconds", 9.0, PLANE),
    ("held_expansion_stress", (11.7e-6, 1.0, 206000), "", 2.41, BENDING + ": 2.4 MPa a degree for steel"),
    ("cross_pin_shear", (2, 8, 2), "", 2000 / 8 / (math.pi * 1.0), OF_LAW + ": two faces share the force at the rim"),
    ("cross_pin_shear", (10, 20, 5), "", 500 / (math.pi * 6.25), OF_LAW + ": two faces share the force at the rim"),
    ("brazed_socket", (6, 10, 0.05), "gap_volume", math.pi * (3.05**2 - 3.0**2) * 10, PLANE + ": a tube"),
    ("brazed_socket", (12, 8, 0.1), "area", 2 * math.pi * 6 * 8, PLANE + ": a tube"),
    ("parting_time", (20, 0.05, 400), "", summed(lambda r: 1 / (0.05 * 400), 0.0, 10.0), PIECES),
    ("parting_time", (20, 0.05, 400, 0.0, 5.0, 0.5), "",
     summed(lambda r: 1 / (0.05 * 400 * (1.0 if r > 2.5 else 0.5)), 0.0, 10.0), PIECES),
    ("joint_torque", (10, 100, 100, 0.1), "", 10 * 0.1 * math.pi * 100 * 100 * 50 / 1000, OF_LAW + ": force at the rim"),
    ("pressure_for_force", (math.pi * 1e4, 100, 100, 0.1), "", 10.0, OF_LAW + ": force over the rubbing face"),
    ("drill_for_reaming", (10,), "diameter", 9.75, HANDBOOK + ": 0.2 to 0.3 mm for reaming"),
    ("gap_when_hot", (0.05, 20, 20.9e-6, 11.7e-6, 630), "",
     (20.1 * (1 + 11.7e-6 * 630) - 20 * (1 + 20.9e-6 * 630)) / 2, PLANE + ": both diameters grown by themselves"),
    ("gap_when_hot", (0.08, 12, 11.7e-6, 18.7e-6, 700), "",
     (12.16 * (1 + 18.7e-6 * 700) - 12 * (1 + 11.7e-6 * 700)) / 2, PLANE + ": both diameters grown by themselves"),
    ("bore_taper_from_balls", (10, 15, 47.5, 2.5), "half_angle", math.degrees(math.asin(2.5 / 42.5)), PLANE),
    ("taper_from_rollers", (32, 34, 40, 6), "rate", 0.05, PLANE + ": two in forty"),
    ("taper_from_rollers", (20, 27, 24, 6), "rate", 7 / 24, MORSE + ": 7 in 24"),
    ("taper_over_rollers", (20, 0, 6), "", 32.0, PLANE + ": a cylinder between its rollers"),
    ("taper_over_rollers", (20, 45, 6), "", 20 + 6 * (1 + 2.414214), HANDBOOK + ": cotangent of 22.5 deg"),
    ("angle_from_minutes", (0, 6, 36), "", 0.11, PLANE),
    ("degrees_minutes_seconds", (8.5083333,), "minutes", 30.0, PLANE),
    ("bore_taper_from_balls", (10, 20, 50, 3), "half_angle", math.degrees(math.asin(5 / 42)), PLANE),
    ("boring_bar_bends", (200, 16, 80), "deflection", bent(200, 80, lambda x: math.pi * 16**4 / 64, E_STEEL), PIECES),
    ("effective_from_wires", (12.0, 1.0, 0.57735), "", 12.0 - 0.866025, HANDBOOK + ": best wires, 0.866 of the pitch"),
    ("feed_for_lead", (0.1, 45), "", 0.14142, HANDBOOK + ": 1.4142 at 45 deg"),
    ("feed_for_lead", (0.1, 90), "", 0.1, PLANE),
    ("tolerance_share", (0.3, 3), "", 0.1, PLANE + ": three that add up"),
    ("four_jaw_reading", (3.175,), "", 6.35, HANDBOOK + ": twice the throw"),
    ("gear_rack", (1, 10), "pitch", 3.1416, HANDBOOK + ": pi modules"),
    ("gear_rack", (2, 10), "depth", 4.5, HANDBOOK + ": 2.25 modules"),
    ("mean_chip", (0.2, 20, 20), "", summed(lambda a: 0.2 * math.sin(a), 0.0, math.pi) / math.pi, PIECES),
    ("mean_chip", (0.1, 5, 20), "", summed(lambda a: 0.1 * math.sin(a), 0.0, math.pi / 3) * 3 / math.pi, PIECES),
    ("pin_diameter", (80 * math.pi * 4, 80), "", 4.0, OF_LAW + ": force over the section"),
    ("pin_diameter", (2 * 60 * math.pi * 2.25, 60, 2), "", 3.0, OF_LAW + ": force over both sections"),
    ("pitch_chord", (100, 5), "", 58.779, HANDBOOK + ": constant of five divisions"),
    ("pitch_chord", (100, 6, 2), "", 86.603, HANDBOOK + ": every second of six"),
    ("propped_beam", (100, 200, 500, E_STEEL, 100), "support", 31.25, BENDING + ": 5/16 of a load in the middle"),
    ("propped_beam", (100, 200, 500, E_STEEL, 100), "at_load", 7 * 100 * 200**3 / (768 * E_STEEL * 500), BENDING + ": 7/768"),
    ("round_section", (20,), "", second_moment(lambda y: 2 * math.sqrt(max(0.0, 100 - y * y)), 10.0), PIECES),
    ("round_section", (10,), "", 0.0491 * 1e4, HANDBOOK + ": 0.0491 of the diameter to the fourth"),
    ("sine_bar_angle", (1.7365, 10), "", 10.0, HANDBOOK + ": sine of 10 deg"),
    ("sine_bar_angle", (2.5, 5), "", 30.0, PLANE),
    ("specific_force_of_unit_power", (1.0,), "", 33000 * 12 * 6.894757e-3, OF_LAW + ": 33,000 ft lbf a minute in a cubic inch"),
    ("tool_life_ratio", (2.0, 0.25), "", 1 / 16, HANDBOOK + ": Taylor, double speed at a quarter is a sixteenth"),
    ("drilling_torque", (2000, 16, 0.25), "", 2 * summed(lambda r: 2000 * 0.125 * r, 0.0, 8.0) / 1000, PIECES),
    ("turning_time", (120, 0.2, 600), "", 1.0, PLANE + ": 600 turns of a fifth"),
    ("nearest_drill", (5.113, "number"), "diameter", 5.1054, HANDBOOK + ": No. 7 is 0.201 in"),
    ("nearest_drill", (6.5, "letter"), "diameter", 6.528, HANDBOOK + ": F is 0.257 in"),
    ("shrink_fit", "ring", "hub_temperature", 20 + 0.07 / (11.7e-6 * 50), PLANE + ": the ring grown until it goes over"),
    ("end_mill_bends", (100, 10, 20, 30, 10, 600000, 0.8), "deflection",
     STEP(lambda x: math.pi * (10.0 if x < 10 else 8.0) ** 4 / 64, 600000), PIECES),
    ("end_mill_bends", (100, 6, 10, 30, 10, 210000, 0.8), "deflection",
     STEP(lambda x: math.pi * (10.0 if x < 20 else 4.8) ** 4 / 64, 210000), PIECES),
    ("bead_strength", (2, 20, 100), "torque", 12566 * 10 / 1000, OF_LAW + ": force at the rim"),
    ("bead_strength", (3, 30, 80), "force", 80 * 3 * math.pi * 30, OF_LAW + ": force over the throat"),
    ("held_slip_torque", (10000, 40, 0.1), "", 20.0, OF_LAW + ": a tenth of the force at the rim"),
    ("held_slip_torque", (5000, 30, 0.2), "", 15.0, OF_LAW + ": a fifth of the force at the rim"),
    ("unbalanced_speed", (720.08, 100, 7.896 / 980.665), "spindle_speed", 1000.0, OF_LAW + ": 1.77 lbf an ounce-inch"),
    ("unbalanced_speed", (720.08, 100, 4 * 7.896 / 980.665), "spindle_speed", 2000.0, OF_LAW + ": four times, twice as fast"),
    ("joint_torque", (20, 50, 40, 0.15), "", 20 * 0.15 * math.pi * 50 * 40 * 25 / 1000, OF_LAW + ": force at the rim"),
    ("runout_chain", ([0.03, 0.04],), "likely", 0.05, PLANE + ": 3, 4, 5"),
    ("runout_chain", ([0.05, 0.12],), "likely", 0.13, PLANE + ": 5, 12, 13"),
    ("tolerance_share", (0.2, 4, "statistical"), "", 0.1, PLANE + ": four equal ones add up to twice one"),
    ("cooling_temperature", (0.02, 20, 10e-6, 0.0, 20), "", 20 - 100.0, PLANE + ": a thousandth of the size in a hundred degrees"),
    ("cooling_temperature", (0.05, 50, 11.7e-6, 0.0, 20), "", 20 - 85.47, PLANE + ": a thousandth of the size"),
    ("kienzle", (1780, 0.17, 0.4 * 0.70711), "", 2200.0, "cutting force table for St42 at 45 deg, one cell, page read"),
    ("kienzle", (2110, 0.17, 1.0), "", 2110.0, PLANE + ": by definition the force of a square millimetre"),
    ("milling_load", "face", "power", 2 * 80 * 280 * 1800 / 60e6, "cutting-tool maker, milling power, worked example, from memory"),
    ("milling_load", "face", "feed_rate", 280.0, "cutting-tool maker, milling power, worked example, from memory"),
    ("interference_for_pressure", (61.8, 25, 50, 206000, 0.29, 206000, 0.29), "", 2 * 61.8 * 25 * 4 / 3 / 206000 , BENDING + ": solid shaft in a ring of its own metal twice as wide"),
    ("interference_for_pressure", (50, 40, 80, 200000, 0.3, 200000, 0.3), "", 2 * 50 * 40 * 4 / 3 / 200000, BENDING + ": solid shaft in a ring of its own metal twice as wide"),
    ("eccentric_hub", (38, 6), "greatest", 50.0, PLANE + ": a hub whose radius is the thickest place"),
    ("eccentric_hub", (38, 6), "least", 26.0, PLANE + ": a hub whose radius is the thinnest place"),
    ("pieces_from_bar", (100, 9, 1), "", 10, "sawn off one by one, counted"),
    ("pieces_from_bar", (1000, 57, 2), "", 16, "sawn off one by one, counted"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "arguments", "of", "value", "source"), CASES, ids=lambda one: str(one)[:40])
def test_further_checks(name: str, arguments: tuple[Any, ...] | str, of: str, value: float, source: str) -> None:
    given, named = _named(arguments)
    found = field(call(name, *given, **named), of)
    record(ALL[name].subject.replace("_", " ").capitalize(), source, found, value)
    rounded = "estimate" in ALL[name].trust or source in (FINISH, HARDNESS, BALANCE)
    assert found == pytest.approx(value, rel=0.025 if rounded else 0.004, abs=5e-4)


TURNS = {(69, (23, 33)): ((21, 23), (-11, 33)), (77, (21, 33)): ((9, 21), (3, 33))}


@pytest.mark.parametrize("case", TURNS)
def test_compound_indexing_of_the_handbook(case: tuple[int, tuple[int, int]]) -> None:
    """69 by 21/23 less 11/33, 77 by 9/21 and 3/33 on a worm of 40: handbook table, from memory."""
    divisions, circles = case
    found = call("compound_indexing", divisions, circles=list(circles))
    turns = found.holes / found.circle + found.plate_holes / found.plate_circle
    wanted = sum(holes / circle for holes, circle in TURNS[case])
    record("Indexing", HANDBOOK, turns, wanted)
    assert turns == pytest.approx(wanted)


GEARS = (24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)


@pytest.mark.parametrize("divisions", [127, 63])
def test_differential_indexing_drives_to_the_true_step(divisions: int) -> None:
    """The crank's step and the plate's own turn together make 40/N of a turn: counted out."""
    found = call("differential_indexing", divisions, gears=list(GEARS))
    step = found.holes / found.circle + found.turns
    by_crank = found.set_for * step / 40
    record("Indexing", PLANE + ": the step for the number set is 40 over it", by_crank, 1.0)
    assert by_crank == pytest.approx(1.0)
    true = (found.set_for - divisions) * 40 / found.set_for
    record("Indexing", HANDBOOK + ": gear ratio of differential indexing", found.gear_ratio, abs(true))
    assert found.gear_ratio == pytest.approx(abs(true))
