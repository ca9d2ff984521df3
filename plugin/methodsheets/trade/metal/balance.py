"""What balances a part that runs out of truth, and how well need it be balanced?"""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import read_table


@dataclass(frozen=True)
class Correction:
    """A mass that balances."""

    mass: float
    angle: float
    unbalance: float


@dataclass(frozen=True)
class TwoPlanes:
    """Two masses, one in each of two planes, that balance force and couple."""

    near_mass: float
    near_angle: float
    far_mass: float
    far_angle: float


@dataclass(frozen=True)
class CrankBalance:
    """Balance weight of a crank and the force that is left."""

    mass: float
    residual_max: float
    residual_min: float


@calculation
def static_balance(
    masses: Sequence[float], radii: Sequence[float], angles: Sequence[float], balance_radius: float
) -> Correction:
    """Mass that balances several masses turning in one plane.

    Equation:
        X = m_a * r_a * cos(a_a) + m_n * r_n * cos(a_n)
        Y = m_a * r_a * sin(a_a) + m_n * r_n * sin(a_n)
        U = sqrt(X ** 2 + Y ** 2)
        m = U / r

    Parameters:
        masses: m_i [g, ...] (m_i >= 0) masses
        radii: r_i [mm, ...] (r_i >= 0) distance of each from the axis
        angles: a_i [deg, ...] direction of each, anticlockwise
        balance_radius: r [mm] (r > 0) distance at which the balance mass goes

    Returns:
        mass: m [g] mass balance mass
        angle: a [deg] angle its direction, 0 to 360, anticlockwise
        unbalance: U [g*mm] unbalance unbalance of the masses without it

    Raises:
        OutOfRange: the lists differ in length.

    Validity:
        Static balance: the part then rests in any position. Long parts want two planes.

    Example:
        >>> weight = static_balance([12e3, 10e3, 18e3, 15e3], [40, 50, 60, 30], [0, 60, 130, 270], 100)
        >>> round(weight.mass / 1000, 2), round(weight.angle, 1)
        (8.11, 267.5)

    Source:
        A published textbook of the theory of machines, chapter 8, example 1: 8.1 kg at 267.5 degrees.

    Trust: exact
    """
    total = _sum(masses, radii, angles)
    return Correction(abs(total) / balance_radius, _degrees(-total), abs(total))


@calculation
def two_plane_balance(
    masses: Sequence[float],
    radii: Sequence[float],
    angles: Sequence[float],
    places: Sequence[float],
    plane_distance: float,
    near_radius: float,
    far_radius: float | None = None,
) -> TwoPlanes:
    """Masses in two planes that balance masses along a shaft, both their force and their couple.

    Equation:
        X = m_a * r_a * z_a * cos(a_a) + m_n * r_n * z_n * cos(a_n)
        Y = m_a * r_a * z_a * sin(a_a) + m_n * r_n * z_n * sin(a_n)
        m_2 = sqrt(X ** 2 + Y ** 2) / (r_2 * L)

    Parameters:
        masses: m [g, ...] (m >= 0) masses
        radii: r [mm, ...] (r >= 0) distance of each from the axis
        angles: a [deg, ...] direction of each, anticlockwise
        places: z [mm, ...] place of each along the shaft, from the near plane towards the far one
        plane_distance: L [mm] (L > 0) distance from the near plane to the far plane
        near_radius: r_1 [mm] (r_1 > 0) distance from the axis of the near balance mass
        far_radius: r_2 [mm] (r_2 > 0) the same for the far one; as the near one where it is not said

    Returns:
        near_mass: m_1 [g] mass balance mass in the near plane
        near_angle: a_1 [deg] angle its direction, -180 to 180
        far_mass: m_2 [g] mass balance mass in the far plane
        far_angle: a_2 [deg] angle its direction, -180 to 180

    Raises:
        OutOfRange: the lists differ in length.

    Validity:
        Stiff shaft, well under its whirling speed.

    Example:
        >>> rotor = two_plane_balance([200e3, 300e3, 400e3, 200e3], [80, 70, 60, 80], [0, 45, 115, 235],
        ...     [-100, 200, 300, 600], 400, 100)
        >>> round(rotor.near_mass / 1000, 2), round(rotor.near_angle, 1), round(rotor.far_mass / 1000, 2)
        (352.97, -146.6, 184.06)

    Source:
        A published textbook of the theory of machines, chapter 8, example 3; its drawing gives 355 kg at 146 degrees
        and 182.5 kg. Plane distances from memory of the same problem.

    Trust: exact
    """
    if len(places) != len(masses):
        raise OutOfRange("places", len(places), "count", f"one for each of the {len(masses)} masses")
    moments = [mass * place for mass, place in zip(masses, places, strict=True)]
    far = -_sum(moments, radii, angles) / plane_distance
    near = -_sum(masses, radii, angles) - far
    far_arm = near_radius if far_radius is None else far_radius
    return TwoPlanes(abs(near) / near_radius, _signed(near), abs(far) / far_arm, _signed(far))


@calculation
def unbalance_force(unbalance: float, spindle_speed: float) -> float:
    """Force of an unbalance that goes round with the spindle.

    Equation:
        F = U * (2 * pi * n) ** 2

    Parameters:
        unbalance: U [g*mm] (U >= 0) mass times distance off the axis
        spindle_speed: n [1/min] (n >= 0) spindle speed

    Returns:
        F [N] force force, turning with the work

    Raises:
        OutOfRange: a value is below nothing.

    Validity:
        Stiff spindle.

    Example:
        >>> round(unbalance_force(2400, 500), 2)
        6.58

    Source:
        Force of a mass going round, m w^2 r; worked out here.

    Trust: exact
    """
    return unbalance * 1e-6 * (2 * math.pi * spindle_speed / 60) ** 2


@calculation
def correction_mass(unbalance: float, radius: float) -> float:
    """Mass to add opposite, or to take off on the heavy side, at a radius.

    Equation:
        m = U / r

    Parameters:
        unbalance: U [g*mm] (U >= 0) unbalance
        radius: r [mm] (r > 0) distance of the correction's centre of mass from the axis

    Returns:
        m [g] mass mass

    Raises:
        OutOfRange: the radius is not above nothing.

    Validity:
        Exact.

    Example:
        >>> correction_mass(360, 30)
        12.0

    Source:
        Definition of unbalance: 30 g at 12 mm balance 12 g at 30 mm.

    Trust: exact
    """
    return unbalance / radius


@calculation
def balance_drill_depth(
    unbalance: float, radius: float, drill: float, density: float, holes: float = 1, point_angle: float = 180.0
) -> float:
    """Depth of hole, drilled along the axis, that takes out an unbalance.

    Equation:
        h_p = d / (2 * tan(phi / 2))
        h = U / (N * r * rho * pi * d ** 2 / 4) + 2 * h_p / 3

    Parameters:
        unbalance: U [g*mm] (U > 0) unbalance to take out
        radius: r [mm] (r > 0) distance of the holes from the axis, in the heavy direction
        drill: d [mm] (d > 0) diameter of the drill
        density: rho [kg/m^3] (rho > 0) density of the metal
        holes: N [1] (N >= 1, whole number) number of equal holes at that radius and direction
        point_angle: phi [deg] (60 <= phi <= 180) angle of the drill point; 180 for a flat bottom

    Returns:
        h [mm] length depth to the tip of the point

    Raises:
        OutOfRange: the hole is so shallow that the point has not entered.

    Validity:
        Holes side by side at a small angle count a little less: their radius times the cosine of the angle off. A
        radial hole changes its own radius as it deepens: solve that with the solid.

    Example:
        >>> round(balance_drill_depth(400, 30, 8, 7850), 2)
        33.79

    Source:
        Geometry, worked out here: 13.33 g is 1699 mm^3 of steel.

    Trust: exact
    """
    point = 0.0 if point_angle >= 180 else drill / 2 / math.tan(math.radians(point_angle) / 2)
    area = math.pi * drill**2 / 4
    volume = unbalance / (holes * radius * density * 1e-6)
    if volume < area * point / 3:
        raise OutOfRange("drill", drill, "mm", "a smaller drill: the point alone takes out more than this")
    return volume / area + 2 * point / 3


@calculation
def permissible_unbalance(grade: float, mass: float, spindle_speed: float) -> float:
    """Unbalance that a balance grade allows.

    Equation (units as listed):
        U = 1000 * G * m / (2 * pi * n / 60)

    Parameters:
        grade: G [mm/s] (G > 0) balance grade: 2.5, 6.3, 16 ...
        mass: m [kg] (m > 0) mass of the part
        spindle_speed: n [1/min] (n > 0) fastest speed in use

    Returns:
        U [g*mm] unbalance unbalance that may be left, in both planes together

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Stiff parts. Share it out half and half over two planes when the part is even.

    Example:
        >>> round(permissible_unbalance(6.3, 2, 3000), 1)
        40.1

    Source:
        From memory of ISO 21940-11: grade is speed of the centre of mass in mm/s.

    Trust: exact
    """
    return 1000 * grade * mass / (2 * math.pi * spindle_speed / 60)


@calculation
def balance_grade(use: str) -> float:
    """Balance grade that is usual for a kind of part.

    Table: balance_grades

    Parameters:
        use: [text] machine tool drive, grinding spindle, flywheel, fan, crankshaft, hand tool ...

    Returns:
        G [mm/s] speed grade

    Raises:
        NotInTable: the table has no such part.

    Validity:
        A guide; what shakes at the bench decides.

    Example:
        >>> balance_grade("flywheel")
        6.3

    Source:
        From memory of ISO 21940-11.

    Trust: common practice
    """
    rows = read_table("balance_grades").rows
    wanted = " ".join(use.lower().split())
    for row in rows:
        if wanted in {row["use"], *row["also"].split("|")}:
            return float(take(row)["grade"])
    raise NotInTable(use, "part with a balance grade", tuple(row["use"] for row in rows))


@calculation
def crank_balance(
    rotating: float,
    reciprocating: float,
    crank_radius: float,
    balance_radius: float,
    spindle_speed: float,
    share: float = 0.5,
) -> CrankBalance:
    """Balance weight of a single crank, and the shaking force left in and across the stroke.

    Equation:
        m = (m_1 + c * m_2) * r / b
        w = 2 * pi * n
        F_1 = m_2 * w ** 2 * r * max(c, 1 - c)
        F_2 = m_2 * w ** 2 * r * min(c, 1 - c)

    Parameters:
        rotating: m_1 [g] (m_1 >= 0) mass that goes round with the crank pin
        reciprocating: m_2 [g] (m_2 >= 0) mass that goes to and fro
        crank_radius: r [mm] (r > 0) throw of the crank
        balance_radius: b [mm] (b > 0) distance of the balance weight's centre from the axis
        spindle_speed: n [1/min] (n >= 0) speed
        share: c [1] (0 <= c <= 1) share of the to-and-fro mass that is balanced: a half to two thirds

    Returns:
        mass: m [g] mass balance weight, opposite the crank pin
        residual_max: F_1 [N] force greatest force left over
        residual_min: F_2 [N] force least force left over

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Long connecting rod or yoke: the first order only. At a share of a half the force left is the same all round.

    Example:
        >>> crank = crank_balance(180, 150, 7.5, 6, 300)
        >>> crank.mass
        318.75

    Source:
        A published textbook of the theory of machines, chapter 14, example 5: 318.8 lb.

    Trust: exact
    """
    whole = reciprocating / 1000 * (2 * math.pi * spindle_speed / 60) ** 2 * crank_radius / 1000
    mass = (rotating + share * reciprocating) * crank_radius / balance_radius
    return CrankBalance(mass, whole * max(share, 1 - share), whole * min(share, 1 - share))


def _sum(masses: Sequence[float], radii: Sequence[float], angles: Sequence[float]) -> complex:
    """Add unbalances up as arrows."""
    for name, values in (("radii", radii), ("angles", angles)):
        if len(values) != len(masses):
            raise OutOfRange(name, len(values), "count", f"one for each of the {len(masses)} masses")
    arrows = zip(masses, radii, angles, strict=True)
    return sum((m * r * cmath.exp(1j * math.radians(a)) for m, r, a in arrows), 0j)


def _degrees(arrow: complex) -> float:
    return round(math.degrees(cmath.phase(arrow)), 9) % 360 if arrow else 0.0


def _signed(arrow: complex) -> float:
    return math.degrees(cmath.phase(arrow)) if arrow else 0.0
