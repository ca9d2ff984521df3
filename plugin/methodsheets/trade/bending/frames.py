"""How far do straight bars move that are joined to a crooked one: bending both ways, torsion, stretch and shear?

A frame of bars in space by the direct stiffness method, exact for bars of even section (Timoshenko's beam with shear).
Joints are rigid. Lengths mm, forces N, moments N·mm, moduli MPa; turns in rad.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

Vector = tuple[float, float, float]
Six = tuple[float, float, float, float, float, float]
"""Three forces and three moments at a joint, or three movements and three turns, along x, y and z."""

ROUND_SHEAR, FLAT_SHEAR = 0.9, 5.0 / 6.0
"""Share of the area that carries shear in a round and in a rectangular section (energy method, from memory)."""
NO_TURN = 1e-12


@dataclass(frozen=True)
class BarSection:
    """The section of a bar; `along_y` and `along_z` are its own axes across the bar."""

    area: float
    """mm²."""
    bends_to_y: float
    """mm⁴: second moment for bending that moves it along its y."""
    bends_to_z: float
    torsion: float
    """mm⁴: torsion constant."""
    shear: float = ROUND_SHEAR
    """Share of the area that carries shear."""


@dataclass(frozen=True)
class Bar:
    """A bar between two joints; `across` is a direction that lies in its x-y plane."""

    start: int
    end: int
    section: BarSection
    across: Vector
    modulus: float
    poisson: float = 0.3


def round_bar(diameter: float) -> BarSection:
    """The section of a solid round bar."""
    moment = math.pi * diameter**4 / 64.0
    return BarSection(math.pi * diameter**2 / 4.0, moment, moment, 2.0 * moment)


def flat_bar(to_y: float, to_z: float) -> BarSection:
    """The section of a rectangular bar, so wide along its y and so wide along its z, mm."""
    torsion = rectangle_constant(to_y, to_z)
    return BarSection(to_y * to_z, to_z * to_y**3 / 12.0, to_y * to_z**3 / 12.0, torsion, FLAT_SHEAR)


def rectangle_constant(one: float, other: float) -> float:
    """Torsion constant of a rectangle [mm⁴], within 0.5 % of the exact series (handbook formula, from memory)."""
    short, long = sorted((one, other))
    return long * short**3 * (1.0 / 3.0 - 0.21 * short / long * (1.0 - short**4 / (12.0 * long**4)))


def movements(
    joints: Sequence[Vector], bars: Iterable[Bar], held: Mapping[int, Sequence[int]], loads: Sequence[Mapping[int, Six]]
) -> list[list[Six]]:
    """How every joint moves and turns, for each of several loads.

    `held` = joint → which of its six movements (0 to 5) are held. ValueError where the frame is loose: it is not held
    enough, or a bar has no length.
    """
    size = 6 * len(joints)
    stiffness = [[0.0] * (row + 1) for row in range(size)]
    for bar in bars:
        _add(stiffness, joints, bar)
    fixed = {6 * joint + way for joint, ways in held.items() for way in ways}
    for index in fixed:
        for column in range(index + 1):
            stiffness[index][column] = 0.0
        for row in range(index + 1, size):
            stiffness[row][index] = 0.0
        stiffness[index][index] = 1.0
    first = _factor(stiffness)
    return [_movement(stiffness, first, fixed, load, len(joints)) for load in loads]


def _movement(
    factor: list[list[float]], first: list[int], fixed: set[int], load: Mapping[int, Six], count: int
) -> list[Six]:
    force = [0.0] * (6 * count)
    for joint, six in load.items():
        for way, value in enumerate(six):
            if 6 * joint + way not in fixed:
                force[6 * joint + way] += value
    moved = _solve(factor, first, force)
    return [(moved[i], moved[i + 1], moved[i + 2], moved[i + 3], moved[i + 4], moved[i + 5])
            for i in range(0, len(moved), 6)]  # fmt: skip


# ------------------------------------------------------------------------------------------------ one bar
def _add(stiffness: list[list[float]], joints: Sequence[Vector], bar: Bar) -> None:
    """Add a bar's own stiffness, turned into the frame's directions, to the lower half of the whole."""
    turn, length = _directions(joints[bar.start], joints[bar.end], bar.across)
    own = _own_stiffness(bar, length)
    places = [6 * bar.start + i for i in range(6)] + [6 * bar.end + i for i in range(6)]
    for row in range(12):
        for column in range(12):
            if places[row] < places[column]:
                continue
            value = 0.0
            for i in range(3):
                left = turn[i][row % 3]
                if left:
                    value += left * sum(
                        own[3 * (row // 3) + i][3 * (column // 3) + j] * turn[j][column % 3] for j in range(3)
                    )
            stiffness[places[row]][places[column]] += value


def _directions(start: Vector, end: Vector, across: Vector) -> tuple[tuple[Vector, Vector, Vector], float]:
    """(the bar's x, y and z as unit vectors, its length)."""
    run = [b - a for a, b in zip(start, end, strict=True)]
    length = math.hypot(*run)
    if length < NO_TURN:
        raise ValueError("a bar without length")
    x = (run[0] / length, run[1] / length, run[2] / length)
    lean = sum(a * b for a, b in zip(across, x, strict=True))
    side = [a - lean * b for a, b in zip(across, x, strict=True)]
    wide = math.hypot(*side)
    if wide < 1e-9 * max(1.0, math.hypot(*across)):
        raise ValueError("`across` runs along its bar")
    y = (side[0] / wide, side[1] / wide, side[2] / wide)
    z = (x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0])
    return (x, y, z), length


def _own_stiffness(bar: Bar, length: float) -> list[list[float]]:
    """Twelve by twelve, in the bar's own directions."""
    section, modulus = bar.section, bar.modulus
    slide = modulus / (2.0 * (1.0 + bar.poisson))
    out = [[0.0] * 12 for _ in range(12)]
    for (one, other), value in (((0, 6), modulus * section.area / length), ((3, 9), slide * section.torsion / length)):
        out[one][one] = out[other][other] = value
        out[one][other] = out[other][one] = -value
    sheared = slide * section.shear * section.area
    for moment, ways, sign in (
        (section.bends_to_y, (1, 5, 7, 11), 1.0),
        (section.bends_to_z, (2, 4, 8, 10), -1.0),
    ):
        share = 12.0 * modulus * moment / (sheared * length**2)
        whole = modulus * moment / ((1.0 + share) * length**3)
        near, far = (4.0 + share) * length**2 * whole, (2.0 - share) * length**2 * whole
        move, lean = 12.0 * whole, 6.0 * length * whole * sign
        a, b, c, d = ways
        for row, column, value in (
            (a, a, move), (c, c, move), (a, c, -move), (b, b, near), (d, d, near), (b, d, far), (a, b, lean),
            (a, d, lean), (b, c, -lean), (c, d, -lean),
        ):  # fmt: skip
            out[row][column] = out[column][row] = value
    return out


# ------------------------------------------------------------------------------------------------ the equations
def _factor(matrix: list[list[float]]) -> list[int]:
    """Cholesky's factor in place of the lower half; first column of each row that is not empty. ValueError if loose."""
    first = [next((j for j, value in enumerate(row) if value), i) for i, row in enumerate(matrix)]
    for i, row in enumerate(matrix):
        for j in range(first[i], i):
            above, start = matrix[j], max(first[i], first[j])
            row[j] = (row[j] - sum(row[k] * above[k] for k in range(start, j))) / above[j]
        left, before = row[i] - sum(row[k] * row[k] for k in range(first[i], i)), row[i]
        if left <= 1e-12 * abs(before):
            raise ValueError("the frame is not held")
        row[i] = math.sqrt(left)
    return first


def _solve(factor: list[list[float]], first: list[int], force: list[float]) -> list[float]:
    out = [*force]
    for i, row in enumerate(factor):
        out[i] = (out[i] - sum(row[k] * out[k] for k in range(first[i], i))) / row[i]
    for i in reversed(range(len(factor))):
        row = factor[i]
        out[i] /= row[i]
        for k in range(first[i], i):
            out[k] -= row[k] * out[i]
    return out
