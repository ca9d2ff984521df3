"""Does the frame of bars bend as the closed forms say, and as nature must: reciprocal, monotone, the same from any side?"""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import numpy as np
import pytest

from methodsheets.trade.bending.frames import (
    Bar,
    BarSection,
    Six,
    Vector,
    flat_bar,
    movements,
    rectangle_constant,
    round_bar,
)
from methodsheets.trade.bending.offset_shafts import offset_shaft

E, NU = 206000.0, 0.3
G = E / (2 * (1 + NU))
UNIT: tuple[Six, ...] = tuple(tuple(float(i == j) for j in range(6)) for i in range(6))  # type: ignore[misc]
FIXED = range(6)


def _compliance(joints: list[Vector], bars: list[Bar], at: int) -> np.ndarray:
    """6 × 6: movements of a joint for a force or a moment of one on it, the first joint held."""
    found = movements(joints, bars, {0: FIXED}, [{at: six} for six in UNIT])
    return np.array([moved[at] for moved in found])


def test_a_cantilever_bends_twists_and_stretches() -> None:
    """w = F L³ / 3 E I + F L / (κ G A), T L / G J and F L / E A (handbook formulas, from memory)."""
    d, length = 12.0, 80.0
    moves = _compliance([(0, 0, 0), (length, 0, 0)], [Bar(0, 1, round_bar(d), (0, 1, 0), E)], 1)
    area, bend = math.pi * d**2 / 4, math.pi * d**4 / 64
    across = length**3 / (3 * E * bend) + length / (0.9 * G * area)
    assert moves[0, 0] == pytest.approx(length / (E * area))
    assert moves[1, 1] == pytest.approx(across)
    assert moves[2, 2] == pytest.approx(across)
    assert moves[3, 3] == pytest.approx(length / (G * 2 * bend))
    assert moves[5, 1] == pytest.approx(length**2 / (2 * E * bend))
    assert moves[4, 2] == pytest.approx(-(length**2) / (2 * E * bend))


def test_a_bent_bar_pushed_out_of_its_plane() -> None:
    """Castigliano on a bar a long with an arm of b: F a³/3EI + F b³/3EI + F a b²/GJ, and shear (textbook case)."""
    d, a, b = 10.0, 60.0, 40.0
    section = round_bar(d)
    moves = _compliance([(0, 0, 0), (a, 0, 0), (a, b, 0)], [Bar(0, 1, section, (0, 1, 0), E), Bar(1, 2, section, (1, 0, 0), E)], 2)  # fmt: skip
    bend, area = math.pi * d**4 / 64, math.pi * d**2 / 4
    expected = (a**3 + b**3) / (3 * E * bend) + a * b * b / (G * 2 * bend) + (a + b) / (0.9 * G * area)
    assert moves[2, 2] == pytest.approx(expected)


@pytest.mark.parametrize(("e", "d", "g", "t", "b"), [(13, 10, 20, 10, 25), (6, 16, 8, 12, 40), (25, 8, 60, 6, 12)])
def test_two_webs_and_a_pin(e: float, d: float, g: float, t: float, b: float) -> None:
    """The handbook's closed form (Castigliano) and the frame of three bars."""
    joints: list[Vector] = [(0, 0, 0), (e, 0, 0), (e, 0, g + t), (0, 0, g + t)]
    web = flat_bar(b, t)
    bars = [Bar(0, 1, web, (0, 1, 0), E), Bar(1, 2, round_bar(d), (1, 0, 0), E), Bar(2, 3, web, (0, 1, 0), E)]
    moves, found = _compliance(joints, bars, 3), offset_shaft(e, d, g, t, b, 1.0, 1.0, E, NU)
    assert found.in_plane == pytest.approx(moves[0, 0], rel=1e-9)
    assert found.across_plane == pytest.approx(moves[1, 1], rel=1e-9)
    assert found.opening == pytest.approx(moves[2, 2], rel=1e-9)
    assert found.twist == pytest.approx(math.degrees(1000 * moves[5, 5]), rel=1e-9)


# ------------------------------------------------------------------------------------------------ any crooked bar
def _crooked(seed: int) -> tuple[list[Vector], list[Bar]]:
    """A bar with four bends in space."""
    draw = random.Random(seed)
    joints: list[Vector] = [(0.0, 0.0, 0.0)]
    for _ in range(5):
        x, y, z = joints[-1]
        joints.append((x + draw.uniform(5, 40), y + draw.uniform(-30, 30), z + draw.uniform(-30, 30)))
    bars = [
        Bar(i, i + 1, draw.choice((round_bar(draw.uniform(6, 14)), flat_bar(draw.uniform(6, 20), draw.uniform(4, 12)))),
            (draw.uniform(-1, 1), 1.0, draw.uniform(-1, 1)), E, NU)
        for i in range(5)
    ]  # fmt: skip
    return joints, bars


def _virtual_work(joints: list[Vector], bars: list[Bar]) -> np.ndarray:
    """The same movements of the last joint by the principle of virtual work: ∫ of the products of what each load does.

    Independent of stiffness matrices: equilibrium gives forces and moments along each bar, Simpson's rule the integral.
    """
    end, out = np.array(joints[-1]), np.zeros((6, 6))
    for bar in bars:
        a, b = np.array(joints[bar.start]), np.array(joints[bar.end])
        length = float(np.linalg.norm(b - a))
        x = (b - a) / length
        y = np.array(bar.across) - (np.array(bar.across) @ x) * x
        y /= np.linalg.norm(y)
        turn, s = np.stack([x, y, np.cross(x, y)]), bar.section
        gives = np.diag([1 / (E * s.area), *[1 / (s.shear * G * s.area)] * 2, 1 / (G * s.torsion),
                         1 / (E * s.bends_to_z), 1 / (E * s.bends_to_y)])  # fmt: skip
        for share, weight in ((0.0, 1 / 6), (0.5, 4 / 6), (1.0, 1 / 6)):
            arm = end - (a + share * (b - a))
            inside = np.zeros((6, 6))
            for way in range(3):
                push = np.eye(3)[way]
                inside[:, way] = [*(turn @ push), *(turn @ np.cross(arm, push))]
                inside[3:, 3 + way] = turn @ push
            out += weight * length * inside.T @ gives @ inside
    return out


@pytest.mark.parametrize("seed", range(6))
def test_it_agrees_with_virtual_work(seed: int) -> None:
    joints, bars = _crooked(seed)
    assert np.allclose(_compliance(joints, bars, 5), _virtual_work(joints, bars), rtol=1e-8, atol=1e-15)


@pytest.mark.parametrize("seed", range(3))
def test_what_one_load_does_to_another_place_that_one_does_to_the_first(seed: int) -> None:
    """Maxwell's law: the movement at i for a load of one at j is that at j for a load of one at i."""
    joints, bars = _crooked(seed)
    ways = [(joint, way) for joint in (2, 4, 5) for way in range(6)]
    found = movements(joints, bars, {0: FIXED}, [{joint: UNIT[way]} for joint, way in ways])
    for (i, (a, p)), (j, (b, q)) in itertools.combinations(enumerate(ways), 2):
        assert found[i][b][q] == pytest.approx(found[j][a][p], rel=1e-7, abs=1e-16)


@pytest.mark.parametrize("seed", range(3))
def test_it_bends_the_same_whichever_way_it_lies(seed: int) -> None:
    """Turned in space as a whole, it moves as much under a load that is turned with it."""
    joints, bars = _crooked(seed)
    turn = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))[0]
    turn *= np.sign(np.linalg.det(turn))
    laid = [tuple(float(v) for v in turn @ np.array(joint)) for joint in joints]
    turned = [replace(bar, across=tuple(float(v) for v in turn @ np.array(bar.across))) for bar in bars]
    six = np.kron(np.eye(2), turn)
    plain, other = _compliance(joints, bars, 5), _compliance(laid, turned, 5)  # type: ignore[arg-type]
    assert np.allclose(six @ plain @ six.T, other, rtol=1e-7, atol=1e-14)


@pytest.mark.parametrize("thicker", [lambda s: replace(s, bends_to_y=1.2 * s.bends_to_y),
                                     lambda s: replace(s, torsion=1.2 * s.torsion),
                                     lambda s: replace(s, area=1.2 * s.area)])  # fmt: skip
def test_a_stiffer_bar_never_gives_more(thicker) -> None:  # type: ignore[no-untyped-def]
    joints, bars = _crooked(1)
    plain = np.diag(_compliance(joints, bars, 5))
    for i, bar in enumerate(bars):
        stiffer = [*bars[:i], replace(bar, section=thicker(bar.section)), *bars[i + 1 :]]
        assert (np.diag(_compliance(joints, stiffer, 5)) <= plain * (1 + 1e-12)).all()


def test_more_holds_never_give_more() -> None:
    joints, bars = _crooked(2)
    load = {4: UNIT[1]}
    free = movements(joints, bars, {0: FIXED}, [load])[0][4][1]
    propped = movements(joints, bars, {0: FIXED, 5: (0, 1)}, [load])[0][4][1]
    clamped = movements(joints, bars, {0: FIXED, 5: FIXED}, [load])[0][4][1]
    assert free > propped > clamped > 0


def test_a_frame_that_is_not_held_is_refused() -> None:
    joints, bars = _crooked(0)
    with pytest.raises(ValueError, match="not held"):
        movements(joints, bars, {0: (0, 1, 2)}, [{5: UNIT[1]}])
    with pytest.raises(ValueError, match="without length"):
        movements([(0, 0, 0), (0, 0, 0)], [Bar(0, 1, round_bar(5), (0, 1, 0), E)], {0: FIXED}, [{}])
    with pytest.raises(ValueError, match="along its bar"):
        movements([(0, 0, 0), (5, 0, 0)], [Bar(0, 1, round_bar(5), (1, 0, 0), E)], {0: FIXED}, [{}])


# ------------------------------------------------------------------------------------------------ torsion of a rectangle
SERIES = [(1.0, 0.1406), (1.2, 0.166), (1.5, 0.196), (2.0, 0.229), (2.5, 0.249), (3.0, 0.263), (4.0, 0.281), (5.0, 0.291), (10.0, 0.312)]  # fmt: skip
"""Sides and J / (long · short³): table of the exact series in textbooks of elasticity, from memory."""


@pytest.mark.parametrize(("ratio", "factor"), SERIES)
def test_the_torsion_constant_of_a_rectangle(ratio: float, factor: float) -> None:
    assert rectangle_constant(8.0, 8.0 * ratio) == pytest.approx(factor * 8.0 * ratio * 8.0**3, rel=5e-3)
    assert rectangle_constant(8.0 * ratio, 8.0) == pytest.approx(rectangle_constant(8.0, 8.0 * ratio))
    exact = 1 / 3 - 64 / math.pi**5 / ratio * sum(math.tanh(n * math.pi * ratio / 2) / n**5 for n in range(1, 60, 2))
    assert rectangle_constant(8.0, 8.0 * ratio) == pytest.approx(exact * ratio * 8.0**4, rel=5e-3)


def test_a_section_says_what_it_is() -> None:
    assert flat_bar(20.0, 6.0) == BarSection(120.0, 6 * 20**3 / 12, 20 * 6**3 / 12, rectangle_constant(20, 6), 5 / 6)
