"""Spread loads, thin walls, older unified cores and brittle hubs, each against another way of finding it.

Sources: statics worked out afresh by numeric integration of the bending moment; the thick-walled equations, which were
checked against textbooks elsewhere; the sharp height of a 60 degree thread; common practice where that is said.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from methodsheets.trade.bending.spread_loads import spread_load
from methodsheets.trade.fits.fits import fit
from methodsheets.trade.fits.lame import thick_ring_stress
from methodsheets.trade.fits.press_fits import press_fit
from methodsheets.trade.fits.thin_walls import thin_wall_stress
from methodsheets.trade.threads.hole_making import drill_for_reaming
from methodsheets.trade.threads.threads import older_unified_core

from .record import record

W, L, E, AREA_2 = 120.0, 800.0, 206000.0, 9000.0
STATICS = "statics: the bending moment of a spread load integrated twice, no table of beams"


def integrated(reaction: float, moment: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(place, slope, deflection) of a beam that starts level with this reaction and moment at its left end."""
    x = np.linspace(0.0, L, 20001)
    bending = moment + reaction * x - W / L * x**2 / 2
    step = x[1] - x[0]
    slope = np.concatenate([[0.0], np.cumsum((bending[1:] + bending[:-1]) / 2) * step]) / (E * AREA_2)
    bend = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2) * step])
    return x, slope, bend


def greatest(support: str) -> tuple[float, float]:
    """(mm, N*m) by integration; unknown reactions from the ends that do not move."""
    if support == "one end held":
        bend, moment = integrated(W, -W * L / 2)[2], W * L / 2
    elif support == "two ends resting":
        x, _, level = integrated(W / 2, 0.0)
        bend, moment = level - level[-1] * x / L, W * L / 8
    elif support == "both ends held":
        free, unit = integrated(W / 2, 0.0)[1][-1], (L / (E * AREA_2))
        moment = free / unit
        bend = integrated(W / 2, -moment)[2]
    else:  # held at the left, resting at the right: the reaction that brings the right end back
        hanging, lifted = integrated(W, -W * L / 2)[2][-1], L**3 / (3 * E * AREA_2)
        prop = -hanging / lifted
        bend, moment = integrated(W - prop, -(W * L / 2 - prop * L))[2], W * L / 2 - prop * L
    return float(np.max(np.abs(bend))), abs(moment) / 1000


@pytest.mark.parametrize("support", ["one end held", "two ends resting", "held and resting", "both ends held"])
def test_spread_loads_by_integration(support: str) -> None:
    found = spread_load(W, L, AREA_2, support, E)
    bend, moment = greatest(support)
    for value, expected in ((found.deflection, bend), (found.moment, moment)):
        record("Beams and bars", STATICS, value, expected)
        assert value == pytest.approx(expected, rel=5e-4)


@pytest.mark.parametrize("share", [0.001, 0.005, 0.01, 0.02, 0.05])
def test_a_thin_wall_is_the_end_of_a_thick_one(share: float) -> None:
    """Lame's mean stress over the wall is the thin wall's exactly; at the bore it is more by about the wall's share."""
    inside, pressure = 100.0, 1.0
    wall = share * inside
    thin = thin_wall_stress(pressure, inside, wall)
    at = np.linspace(inside, inside + 2 * wall, 401)
    thick = [thick_ring_stress(inside, inside + 2 * wall, float(d), pressure).hoop for d in at]
    mean = float(np.mean((np.array(thick[1:]) + np.array(thick[:-1])) / 2))
    record("Rings", "thick-walled equations (Lame), mean over the wall", thin.hoop, mean)
    assert thin.hoop == pytest.approx(mean, rel=1e-4)
    assert thin.hoop < max(thick) < thin.hoop * (1 + 1.2 * share)
    assert thin.along == thin.hoop / 2
    assert thin_wall_stress(pressure, inside, wall, seam=0.7).hoop == pytest.approx(thin.hoop / 0.7)


@pytest.mark.parametrize(("tpi", "major", "core"), [(20, 0.25, 0.1887), (13, 0.5, 0.4056), (28, 0.25, 0.2062)])
def test_older_unified_cores(tpi: int, major: float, core: float) -> None:
    """The printed cores are from memory of older American tables; 1.22687 is 17/24 of twice the sharp height."""
    found = older_unified_core(major * 25.4, 25.4 / tpi) / 25.4
    record("Threads", "older American thread tables, from memory", found, core)
    assert found == pytest.approx(core, abs=0.00006)
    assert (major - found) * tpi == pytest.approx(17 / 24 * 2 * math.sqrt(3) / 2, rel=1e-5)


def test_a_hub_of_grey_iron_is_told_to_be_brittle() -> None:
    """Common practice, from memory: grey iron cracks before it yields; a third of its strength is the most to ask of it."""
    heavy = press_fit(fit(40, "H7/u6"), 40, 70, hub_material="GJL-200", shaft_material="EN8")
    light = press_fit(fit(40, "H7/p6"), 40, 70, hub_material="GJL-250", shaft_material="EN8")
    assert "cracks without warning" in heavy.note
    assert heavy.hub_stress_max > 200 / 3
    assert ("cracks" in light.note) == (light.hub_stress_max > 250 / 3)
    assert "cracks" not in press_fit(fit(40, "H7/u6"), 40, 70, hub_material="GJS-500", shaft_material="EN8").note


@pytest.mark.parametrize("diameter", [51.0, 60.0, 80.0, 100.0])
def test_reamers_over_50_mm(diameter: float) -> None:
    """From memory: 0.4 to 0.6 mm for the machine, 0.2 to 0.3 mm by hand; the hole before is bored."""
    found = drill_for_reaming(diameter)
    assert 0.35 <= diameter - found.diameter <= 0.65
    assert found.name.startswith("bore ")
