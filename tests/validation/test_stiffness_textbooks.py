"""Do beams, stepped bars, stacks and general tolerances agree with textbooks, a beam finite element and pages?"""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from methodsheets.trade.bending.beams import cantilever, propped_beam, round_section, simple_beam
from methodsheets.trade.bending.stacks import stack
from methodsheets.trade.bending.stiffness import SUPPORTS, bar_deflection, pieces_of, turned_shape, work_bends
from methodsheets.trade.bending.tool_overhang import boring_bar_bends, end_mill_bends
from methodsheets.trade.fits.general_tolerances import general_tolerance, general_tolerance_edge
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.metal.stock import bar_mass

from .cases import case
from .record import record

BEAM = "Beams and bars"
STACK = "Tolerance stacks"


def test_cantilever() -> None:
    entry = case("fits", "beam-cantilever-1")
    given = entry.inputs
    found = cantilever(given["P_N"], given["L_mm"], given["I_mm4"], given["E"])
    entry.check(BEAM, "deflection_mm", found.at_tip)
    entry.check(BEAM, "slope_rad", math.radians(found.slope))


def test_two_loads_add_up() -> None:
    entry = case("fits", "beam-cantilever-two-loads")
    given = entry.inputs
    tip = sum(
        cantilever(force, given["L_mm"], given["I_mm4"], given["E"], at=place).at_tip
        for force, place in zip(given["P_N"], given["a_mm"], strict=True)
    )
    entry.check(BEAM, "tip_deflection_mm", tip)


def test_beam_on_two_rests() -> None:
    """The copy labels 0.0232 (metres) as millimetres."""
    entry = case("fits", "beam-simply-off-centre")
    given = entry.inputs
    found = simple_beam(given["P_N"], given["L_mm"], given["I_mm4"], given["E"], at=given["a_mm"])
    entry.check(BEAM, "max_mm", found.greatest)
    entry.check(BEAM, "at_load_mm", found.at_load)
    mirrored = simple_beam(given["P_N"], given["L_mm"], given["I_mm4"], given["E"], at=given["L_mm"] - given["a_mm"])
    assert mirrored.greatest_at == pytest.approx(given["L_mm"] - found.greatest_at)


def test_bar_standing_out() -> None:
    entry = case("fits", "bar-stickout")
    given = entry.inputs
    found = work_bends(given["F_N"], [given["stickout_mm"]], [given["d_mm"]], modulus=given["E"])
    entry.check(BEAM, "deflection_mm", found.deflection)
    entry.check(BEAM, "diameter_error_mm", found.diameter_error)
    entry = case("cutting", "deflect-01")
    entry.check(BEAM, "delta", boring_bar_bends(100, 10, 50, 205000).deflection, 0.0414)


@pytest.mark.parametrize("place", [50, 100, 150])
def test_chuck_and_centre(place: int) -> None:
    entry = case("fits", f"bar-chuck-centre-{place}")
    given = entry.inputs
    found = work_bends(given["F_N"], [given["L_mm"]], [given["d_mm"]], place, "chuck and centre", given["E"])
    entry.check(BEAM, "deflection_at_load_mm", found.deflection)
    entry.check(BEAM, "centre_reaction_N", found.centre_force)
    closed = propped_beam(given["F_N"], given["L_mm"], round_section(given["d_mm"]), given["E"], at=place)
    assert found.deflection == pytest.approx(closed.at_load)
    assert found.centre_force == pytest.approx(closed.support)


def test_between_centres() -> None:
    entry = case("fits", "bar-between-centres")
    given = entry.inputs
    found = work_bends(given["F_N"], [given["L_mm"]], [given["d_mm"]], None, "between centres", given["E"])
    entry.check(BEAM, "deflection_mm", found.deflection)


def test_stepped_bar() -> None:
    entry = case("fits", "bar-stepped")
    given = entry.inputs
    found = work_bends(given["F_N"], given["len_mm"], given["d_mm"], modulus=given["E"])
    entry.check(BEAM, "tip_deflection_mm", found.deflection)


def test_ratios() -> None:
    entry = case("fits", "bar-ratio")
    tip = work_bends(1, [100], [10]).deflection
    held = work_bends(1, [100], [10], 50, "chuck and centre").deflection
    resting = work_bends(1, [100], [10], 50, "between centres").deflection
    entry.check(BEAM, "cantilever_over_chuck_centre_mid", tip / held)
    entry.check(BEAM, "cantilever_over_between_centres_mid", tip / resting)


STEPPED = ([25.0, 40.0, 15.0, 60.0], [22.0, 12.0, 18.0, 9.0], [6.0, 6.0, 0.0, 0.0])


@pytest.mark.parametrize("support", SUPPORTS)
@pytest.mark.parametrize("place", [20.0, 65.0, 101.3, 139.0])
def test_stepped_bars_against_a_beam_finite_element(support: str, place: float) -> None:
    pieces = pieces_of(*STEPPED)
    ours, centre = bar_deflection(pieces, 80.0, place, 206000.0, support)
    theirs, reaction = _beam_elements(pieces, 80.0, place, 206000.0, support)
    record(BEAM, "beam finite element, worked out here", ours, theirs)
    assert ours == pytest.approx(theirs, rel=1e-6)
    if support != "chuck":
        assert centre == pytest.approx(reaction, rel=1e-6)


def _beam_elements(
    pieces: tuple[tuple[float, float, float], ...], force: float, place: float, modulus: float, support: str
) -> tuple[float, float]:
    """Solve the same bar with cubic beam elements."""
    nodes = sorted({0.0, place, *(end for _, end, _ in pieces)})
    size = 2 * len(nodes)
    stiffness = np.zeros((size, size))
    for k, (low, high) in enumerate(itertools.pairwise(nodes)):
        second = next(i for start, end, i in pieces if start - 1e-9 <= low and high <= end + 1e-9)
        h = high - low
        block = np.array(
            [
                [12, 6 * h, -12, 6 * h],
                [6 * h, 4 * h**2, -6 * h, 2 * h**2],
                [-12, -6 * h, 12, -6 * h],
                [6 * h, 2 * h**2, -6 * h, 4 * h**2],
            ]
        )
        stiffness[2 * k : 2 * k + 4, 2 * k : 2 * k + 4] += modulus * second / h**3 * block
    held = {"chuck": [0, 1], "chuck and centre": [0, 1, size - 2], "between centres": [0, size - 2]}[support]
    free = [dof for dof in range(size) if dof not in held]
    load = np.zeros(size)
    load[2 * nodes.index(place)] = force
    moved = np.zeros(size)
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], load[free])
    reaction = stiffness @ moved - load
    return float(moved[2 * nodes.index(place)]), float(-reaction[size - 2])


def test_shapes_left_by_bending() -> None:
    assert turned_shape(50, [100], [10]).shape == "taper"
    between = turned_shape(50, [100], [10], "between centres")
    assert between.shape == "barrel"
    assert between.greatest_at == pytest.approx(50)
    supported = turned_shape(50, [100], [10], "chuck and centre", cut_start=5)
    assert supported.shape == "barrel"
    # Held at one end and resting at the other, a load bends it most at 2 - sqrt 2 of the length from the held end.
    assert supported.greatest_at / 100 == pytest.approx(2 - math.sqrt(2), abs=0.03)


def test_end_mill_of_one_diameter_is_a_plain_bar() -> None:
    plain = boring_bar_bends(80, 10, 35).deflection
    assert end_mill_bends(80, 10, 20, 35, core=1).deflection == pytest.approx(plain)
    assert end_mill_bends(80, 10, 20, 35).deflection > plain


def test_published_stack_in_inches() -> None:
    entry = case("fits", "stack-inch")
    plates, housing = entry.inputs["plates"], entry.inputs["housing"]
    links = [*plates, housing]
    found = stack([size for size, _ in links], [t for _, t in links], ways=[-1, -1, -1, 1])
    entry.check(STACK, "gap", found.nominal)
    entry.check(STACK, "worst", found.worst)
    entry.check(STACK, "rss", found.likely)
    entry.check(STACK, "gap_worst", found.worst_least, entry.expected["gap_worst"][0])
    entry.check(STACK, "gap_worst", found.worst_greatest, entry.expected["gap_worst"][1])
    entry.check(STACK, "gap_rss", found.likely_least, entry.expected["gap_rss"][0])
    entry.check(STACK, "gap_rss", found.likely_greatest, entry.expected["gap_rss"][1])


def test_own_stack_and_its_throws_of_the_dice() -> None:
    entry = case("fits", "stack-4-own")
    links = [*((*pair, 1) for pair in entry.inputs["plus"]), *((*pair, -1) for pair in entry.inputs["minus"])]
    sizes, tolerances, ways = zip(*links, strict=True)
    found = stack(sizes, tolerances, ways=ways)
    entry.check(STACK, "nominal", found.nominal)
    entry.check(STACK, "worst", found.worst)
    entry.check(STACK, "rss", found.likely)
    entry = case("fits", "stack-mc")
    random = np.random.default_rng(7)
    thrown = sum(random.normal(0, tolerance / 3, 400_000) for tolerance in entry.inputs["normal_3sigma"])
    entry.check(STACK, "three_sigma", stack([0] * 4, entry.inputs["normal_3sigma"]).likely)
    assert 3 * float(np.std(thrown)) == pytest.approx(found.likely, rel=0.01)


def test_unequal_limits_are_moved_to_their_middle() -> None:
    equal = stack([10.05, 20.0], [0.05, 0.1])
    unequal = stack([10.0, 20.0], [0.1, 0.1], [0.0, -0.1])
    assert unequal.middle == pytest.approx(equal.nominal)
    assert unequal.likely == pytest.approx(equal.likely)
    assert unequal.worst_greatest == pytest.approx(30.2)


@pytest.mark.copied
def test_general_tolerances() -> None:
    """Two published pages print 0.15 and 0.20 for coarse 0.5-3 and 3-6 mm: those are DIN 7168, not ISO 2768."""
    entry = case("fits", "iso2768-linear")
    for letter in "fmcv":
        for (over, upto), value in zip(entry.inputs["ranges_mm"], entry.expected[letter], strict=True):
            for size in (over + 0.001, upto):
                if value is None:
                    with pytest.raises(NotInTable):
                        general_tolerance(size, letter)
                else:
                    entry.check("ISO 2768-1", letter, general_tolerance(size, letter), value)
    entry = case("fits", "iso2768-edges")
    for letter in "fmcv":
        for (over, upto), value in zip(entry.inputs["ranges_mm"], entry.expected[letter], strict=True):
            entry.check("ISO 2768-1", letter, general_tolerance_edge(upto or over + 5, letter), value)
    assert general_tolerance(0.5, "m") == 0.1
    with pytest.raises(OutOfRange):
        general_tolerance(0.49, "m")


def test_mass_of_bars() -> None:
    entry = case("fits", "mass-bar")
    given = entry.inputs
    entry.check("Stock", "mass_g", bar_mass("round", given["round_d_mm"], given["length_mm"], given["density"]))
    entry = case("fits", "mass-hex")
    given = entry.inputs
    entry.check("Stock", "mass_g", bar_mass("hexagon", given["across_flats_mm"], given["length_mm"], given["density"]))
