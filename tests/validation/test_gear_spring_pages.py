"""Gears, springs, taper threads and ring grooves against published cases.

Sources: ISO 53 and ISO 54 (basic rack, modules), DIN 3972 and the set of eight by diametral pitch (cutter numbers),
J. E. Shigley, Mechanical Engineering Design, example on a spring of music wire, ISO 7-1, ASME B1.20.1, DIN 471 and
DIN 472; all from memory.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from methodsheets.trade.bending.springs import coil_spring
from methodsheets.trade.dividing.gears import gap_half_angle, gear_rack, spur_gear
from methodsheets.trade.metal.heat import heat_colour, heat_treatment
from methodsheets.trade.threads.rings import ring_groove
from methodsheets.trade.threads.taper_threads import taper_thread

from .record import record

RACK = "ISO 53 profile A, from memory: addendum 1, dedendum 1.25, 20 degrees"
MODULES = (1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20)
"""ISO 54 series I up to 20, from memory."""
SETS = {12: (1, 8), 13: (1, 8), 14: (2, 7), 16: (2, 7), 17: (3, 6), 20: (3, 6), 21: (4, 5), 25: (4, 5), 26: (5, 4),
        34: (5, 4), 35: (6, 3), 54: (6, 3), 55: (7, 2), 134: (7, 2), 135: (8, 1)}  # fmt: skip


@pytest.mark.parametrize("module", MODULES)
def test_depth_and_blank_follow_the_basic_rack(module: float) -> None:
    gear = spur_gear(module, 40)
    for value, expected in ((gear.depth, 2.25 * module), (gear.blank, 42 * module), (gear.root, 37.5 * module)):
        record("Gears", RACK, value, expected)
        assert value == pytest.approx(expected)
    assert gear_rack(module, 3).pitch == pytest.approx(math.pi * module)


@pytest.mark.parametrize(("teeth", "numbers"), SETS.items())
def test_cutter_numbers_at_both_ends_of_each_range(teeth: int, numbers: tuple[int, int]) -> None:
    gear = spur_gear(1, teeth)
    for said, number in zip((gear.cutter, gear.cutter_by_pitch), numbers, strict=True):
        record("Gears", "sets of eight form cutters, from memory", float(said.split()[1]), number)
        assert said.startswith(f"No. {number} (")


@pytest.mark.parametrize("teeth", [20, 38, 100])
def test_a_tooth_over_its_chord(teeth: int) -> None:
    """The gear-tooth caliper's figures of the handbooks for module 1, from memory; and by coordinates."""
    gear = spur_gear(1, teeth)
    known = {20: (1.5692, 1.0308), 38: (1.5704, 1.0162), 100: (1.5707, 1.0062)}[teeth]
    for value, expected in zip((gear.chord, gear.chord_height), known, strict=True):
        record("Gears", "chordal thickness and height for module 1, from memory", value, expected)
        assert value == pytest.approx(expected, abs=2e-4)


@pytest.mark.parametrize("teeth", [12, 20, 38, 100])
def test_tooth_and_gap_are_equal_on_the_pitch_circle(teeth: int) -> None:
    assert 2 * gap_half_angle(1, teeth, teeth / 2) == pytest.approx(math.pi / teeth, rel=1e-9)


def test_flanks_are_involutes_of_the_base_circle() -> None:
    """A point unwound from the base circle, found by unwinding a thread, lies on the flank."""
    module, teeth = 2.0, 30
    base = module * teeth / 2 * math.cos(math.radians(20))
    for roll in np.linspace(0.2, 0.6, 5):
        x, y = base * (math.cos(roll) + roll * math.sin(roll)), base * (math.sin(roll) - roll * math.cos(roll))
        here, angle = math.hypot(x, y), math.atan2(y, x)
        start = gap_half_angle(module, teeth, base * 1.0000001)
        assert gap_half_angle(module, teeth, here) - start == pytest.approx(angle, abs=1e-5)


def test_a_spring_of_music_wire() -> None:
    """Wire 0.037 in, mean diameter 0.400 in, 10.5 coils, G 11.85 Mpsi: 4.13 lbf/in (textbook, from memory)."""
    inch, psi = 25.4, 0.00689476
    spring = coil_spring(0.037 * inch, 0.4 * inch, 10.5, 10.0, 2.0, 11.85e6 * psi)
    rate = spring.rate / 4.4482216 * inch
    record("Springs", "Shigley, spring of music wire, from memory", rate, 4.13)
    assert rate == pytest.approx(4.13, rel=2e-3)
    record("Springs", "Shigley, Bergstraesser factor, from memory", spring.correction, 1.128)
    assert spring.correction == pytest.approx(1.128, abs=0.01)


def test_spring_stress_is_torsion_of_the_wire() -> None:
    """EN 13906-1: the shear stress is that of a round bar under the moment F D / 2."""
    spring = coil_spring(2, 16, 8, 50)
    expected = 16 * (50 * 16 / 2) / (math.pi * 2**3)
    record("Springs", "torsion of a round bar", spring.stress, expected)
    assert spring.stress == pytest.approx(expected)


PIPES = {"R 1/8": (28, 9.728, 4.0), "R 1/4": (19, 13.157, 6.0), "R 1/2": (14, 20.955, 8.2), "R 1": (11, 33.249, 10.4)}


@pytest.mark.parametrize("name", PIPES)
def test_taper_pipe_threads_at_the_gauge_plane(name: str) -> None:
    tpi, major, gauge = PIPES[name]
    found = taper_thread(name)
    at_gauge = found.small_end + gauge / 16
    for value, expected in ((at_gauge, major), (25.4 / found.pitch, tpi), (found.depth, 0.640327 * 25.4 / tpi)):
        record("Taper threads", "ISO 7-1, from memory", value, expected)
        assert value == pytest.approx(expected)
    assert found.half_angle == pytest.approx(math.degrees(math.atan(1 / 32)), abs=1e-3)


@pytest.mark.parametrize("said", ["1/2 NPT", "1/2-14 NPT", '1/2" NPT', "NPT 1/2"])
def test_names_of_npt(said: str) -> None:
    found = taper_thread(said)
    assert (found.name, round(25.4 / found.pitch)) == ("1/2 NPT", 14)
    # E0 of the standard, 0.75843 in, is the pitch diameter at the small end: major less the height of the thread
    record("Taper threads", "ASME B1.20.1, E0, from memory", found.small_end - found.depth, 0.75843 * 25.4)
    assert found.small_end - found.depth == pytest.approx(0.75843 * 25.4, abs=0.3)


@pytest.mark.parametrize(
    ("size", "where", "groove", "wide"),
    [(20, "shaft", 19.0, 1.3), (20, "bore", 21.0, 1.1), (10, "shaft", 9.6, 1.1), (32, "bore", 33.7, 1.3)],
)
def test_ring_grooves(size: float, where: str, groove: float, wide: float) -> None:
    found = ring_groove(size, where)
    record("Ring grooves", "DIN 471 and DIN 472, from memory", found.groove, groove)
    assert (found.groove, found.wide) == (groove, wide)


def test_tempering_colours_and_heats() -> None:
    assert [heat_colour(t).colour for t in (230, 255, 295)] == ["straw", "brown", "dark blue"]
    steel = heat_treatment("silver steel")
    assert 760 <= steel.harden_low < steel.harden_high <= 800
