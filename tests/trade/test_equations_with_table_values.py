"""Do the printed equations hold where a symbol comes out of a table? The test looks it up and works them out."""

from __future__ import annotations

import inspect
import math
from collections.abc import Mapping
from typing import Any

import pytest
from tests.trade.equation import check_equation

from methodsheets.trade.fits.fits import fit
from methodsheets.trade.form.calculation import catalogue
from methodsheets.trade.metal.materials import material
from methodsheets.trade.threads.screws import cap_screw
from methodsheets.trade.threads.threads import thread

ALL = catalogue()
Values = Mapping[str, tuple[float, str]]

M6, M8 = thread("M6"), thread("M8")
EN8, EN3B = material("EN8"), material("EN3B")
AREA = math.pi / 4 * ((M6.effective + M6.core) / 2) ** 2
SEAT = fit(16, "H7/s6")


def force_of(name: str) -> Values:
    entry = material(name)
    assert entry.specific_force is not None
    assert entry.chip_exponent is not None
    return {"k_c11": (entry.specific_force, "MPa"), "m_c": (entry.chip_exponent, "1")}


CASES: list[tuple[str, tuple[Any, ...], Values, set[str]]] = [
    ("bar_area", ("round", 13), {"k": (math.pi / 4, "1")}, {"A"}),
    ("bar_area", ("hexagon", 13), {"k": (math.sqrt(3) / 2, "1")}, {"A"}),
    ("bar_area", ("square", 13), {"k": (1, "1")}, {"A"}),
    ("bar_mass", ("round", 25, 100, 7850), {"A": (math.pi / 4 * 625, "mm^2")}, {"m"}),
    ("thread_engagement", ("M6", 5.0), {"d": (6, "mm"), "k": (1.082532, "1"), "P": (1, "mm")}, {"e"}),
    ("thread_engagement", ("M6", 5.0, "inch"), {"d": (6, "mm"), "k": (1.299038, "1"), "P": (1, "mm")}, {"e"}),
    ("drill_for_thread", ("M6", 0.7), {"d": (6, "mm"), "k": (1.082532, "1"), "P": (1, "mm")}, {"d_w"}),
    # Leads of taps from memory: taper 8, second 4, plug 2 pitches.
    ("tapped_hole", ("M6", 10), {"z": (4, "1"), "P": (1, "mm")}, {"L_t", "L_d"}),
    ("tapped_hole", ("M8", 10, "plug"), {"z": (2, "1"), "P": (1.25, "mm")}, {"L_t", "L_d"}),
    # ISO 724 for 60 degree threads: 0.649519, 1.082532 and, for the core of the screw, 1.226869 pitches.
    (
        "thread",
        ("M8",),
        {"k_1": (1.082532, "1"), "k_2": (0.649519, "1"), "k_3": (1.226869, "1"), "alpha": (60, "deg")},
        {"d_2", "D_1", "d_3", "h_3", "H_1"},
    ),
    ("stress_area", ("M8",), {"d_2": (M8.effective, "mm"), "d_3": (M8.core, "mm")}, {"A"}),
    (
        "tightening_torque",
        ("M8",),
        {
            "P": (1.25, "mm"),
            "d_2": (M8.effective, "mm"),
            # The head of a cap screw, 13 mm (ISO 4762), rubs on a ring down to the clear hole of 9 mm (ISO 273, medium).
            "D_k": ((13 + 9) / 2, "mm"),
        },
        {"M"},
    ),
    ("tapped_strength", ("M6", 310, "8.8"), {"d": (6, "mm"), "R": (800, "MPa"), "A": (AREA, "mm^2")}, {"L"}),
    ("clearance_drill", ("1/4 BSF", "free"), {"q": (1.057, "1"), "d": (6.35, "mm")}, {"d_w"}),
    ("clearance_drill", ("1/4 BSF", "close"), {"q": (1.028, "1"), "d": (6.35, "mm")}, {"d_w"}),
    (
        "shaft_for_measured_hole",
        (16.03, SEAT),
        {
            "H_max": (SEAT.hole.upper, "mm"),
            "H_min": (SEAT.hole.lower, "mm"),
            "h_max": (SEAT.shaft.upper, "mm"),
            "h_min": (SEAT.shaft.lower, "mm"),
        },
        {"S_max", "S_min", "d_max", "d_min", "d"},
    ),
    ("specific_cutting_force", ("EN8", 0.2), force_of("EN8"), {"k_c", "k_low", "k_high"}),
    ("parting_load", ("EN8", 3, 0.1, 80), force_of("EN8"), {"k_c", "F_c", "P_c"}),
    ("deepest_turning_cut", ("EN8", 0.1, 25, 0.37, 30, 0.8, 20, 500), force_of("EN8"), {"a_l", "a"}),
]


def identity(entry: tuple[str, tuple[Any, ...], Values, set[str]]) -> str:
    return " ".join(map(str, (entry[0], *(value for value in entry[1] if isinstance(value, str | int | float)))))


@pytest.mark.parametrize("entry", CASES, ids=identity)
def test_the_equation_gives_what_the_function_gives(entry: tuple[str, tuple[Any, ...], Values, set[str]]) -> None:
    name, given, table_values, wanted = entry
    calculation = ALL[name]
    arguments = inspect.signature(calculation.function).bind(*given).arguments
    result = calculation.function(*given)
    compared = check_equation(calculation, arguments, result, 2e-4, table_values)
    assert wanted <= set(compared)


def test_what_was_looked_up_above() -> None:
    assert cap_screw("M8").head == 13
    assert (M6.pitch, M8.pitch) == (1.0, 1.25)
    assert EN8.specific_force != EN3B.specific_force
