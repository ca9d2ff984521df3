"""How far does a plain beam bend, and how stiff is its section?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation

STEEL = 206000.0
"""Modulus of steel [MPa], where none is said."""


@dataclass(frozen=True)
class Cantilever:
    """A beam held at one end, loaded somewhere along it."""

    at_load: float
    at_tip: float
    slope: float


@dataclass(frozen=True)
class SimpleBeam:
    """A beam resting on both ends, loaded somewhere between."""

    at_load: float
    greatest: float
    greatest_at: float


@dataclass(frozen=True)
class ProppedBeam:
    """A beam held at one end and resting at the other."""

    at_load: float
    support: float


@calculation
def round_section(diameter: float, bore: float = 0.0) -> float:
    """Second moment of area of a round bar or tube.

    Equation:
        I = pi / 64 * (d ** 4 - d_b ** 4)

    Parameters:
        diameter: d [mm] (d > 0) outside diameter
        bore: d_b [mm] (d_b >= 0) bore; nothing for a solid bar

    Returns:
        I [mm^4] inertia_area second moment of area about a diameter

    Raises:
        OutOfRange: the bore is not smaller than the outside.

    Validity:
        Exact.

    Example:
        >>> round(round_section(10), 1)
        490.9

    Source:
        Handbook formula (from memory).

    Trust: exact
    """
    if bore >= diameter:
        raise OutOfRange("bore", bore, "mm", "smaller than the outside diameter")
    return math.pi / 64 * (diameter**4 - bore**4)


@calculation
def rectangular_section(width: float, height: float) -> float:
    """Second moment of area of a square or flat bar.

    Equation:
        I = b * h ** 3 / 12

    Parameters:
        width: b [mm] (b > 0) width across the load
        height: h [mm] (h > 0) height along the load

    Returns:
        I [mm^4] inertia_area second moment of area

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        Exact; the load along the height.

    Example:
        >>> rectangular_section(6, 12)
        864.0

    Source:
        Handbook formula (from memory).

    Trust: exact
    """
    return width * height**3 / 12


@calculation
def hexagon_section(across_flats: float) -> float:
    """Second moment of area of a hexagon bar; the same about any axis.

    Equation:
        I = 5 * sqrt(3) / 144 * s ** 4

    Parameters:
        across_flats: s [mm] (s > 0) distance across flats

    Returns:
        I [mm^4] inertia_area second moment of area

    Raises:
        OutOfRange: the size is not above nothing.

    Validity:
        Exact for sharp corners.

    Example:
        >>> round(hexagon_section(10), 1)
        601.4

    Source:
        Handbook formula 0.0601 s^4 (from memory).

    Trust: exact
    """
    return 5 * math.sqrt(3) / 144 * across_flats**4


@calculation
def cantilever(
    force: float, length: float, second_moment: float, modulus: float = STEEL, at: float | None = None
) -> Cantilever:
    """Bending of a beam that is held at one end.

    Equation:
        w = F * a ** 3 / (3 * E * I)
        w_t = F * a ** 3 / (3 * E * I) + F * a ** 2 * (L - a) / (2 * E * I)
        s = F * a ** 2 / (2 * E * I)

    Parameters:
        force: F [N] force across the beam
        length: L [mm] (L > 0) free length
        second_moment: I [mm^4] (I > 0) second moment of area
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        at: a [mm] (a > 0) distance of the load from the held end; the tip where it is not said

    Returns:
        at_load: w [mm] clearance deflection under the load
        at_tip: w_t [mm] clearance deflection at the tip
        slope: s [deg] angle slope at the load and beyond

    Raises:
        OutOfRange: the load lies beyond the tip.

    Validity:
        Longer than about five times its depth; the held end does not give (a chuck does).

    Example:
        >>> beam = cantilever(25000, 3000, 1e8, 210000)
        >>> round(beam.at_tip, 2), round(beam.slope, 3)
        (10.71, 0.307)
        >>> round(cantilever(20000, 3000, 2e8, 200000, at=2000).at_tip, 2)
        2.33

    Source:
        A published textbook of strength of materials, 13.1: 10.71 mm and 0.005357 rad. The second load
        is one of two in another, example 5.5.2.

    Trust: exact
    """
    place = length if at is None else at
    if place > length:
        raise OutOfRange("at", place, "mm", "not beyond the free length")
    bends = force / (modulus * second_moment)
    slope = bends * place**2 / 2
    at_load = bends * place**3 / 3
    return Cantilever(at_load, at_load + slope * (length - place), math.degrees(slope))


@calculation
def simple_beam(
    force: float, length: float, second_moment: float, modulus: float = STEEL, at: float | None = None
) -> SimpleBeam:
    """Bending of a beam that rests on both ends, such as work between centres.

    Equation:
        w = F * a ** 2 * (L - a) ** 2 / (3 * E * I * L)
        c = min(a, L - a)
        w_m = F * c * (L ** 2 - c ** 2) ** 1.5 / (9 * sqrt(3) * E * I * L)

    Parameters:
        force: F [N] force across the beam
        length: L [mm] (L > 0) length between the rests
        second_moment: I [mm^4] (I > 0) second moment of area
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        at: a [mm] (a > 0) distance of the load from one end; the middle where it is not said

    Returns:
        at_load: w [mm] clearance deflection under the load
        greatest: w_m [mm] clearance greatest deflection
        greatest_at: x_m [mm] length where that is, from the same end as the load

    Raises:
        OutOfRange: the load lies beyond the other end.

    Validity:
        Longer than about five times its depth; the rests do not give.

    Example:
        >>> beam = simple_beam(18000, 6000, 1.5e7, 200000, at=4000)
        >>> round(beam.at_load, 1), round(beam.greatest, 1)
        (21.3, 23.2)

    Source:
        A published textbook of strength of materials, example 5.5.10 (a copy labels the metres as millimetres).

    Trust: exact
    """
    place = length / 2 if at is None else at
    if place >= length:
        raise OutOfRange("at", place, "mm", "between the two ends")
    other = length - place
    bends = force / (modulus * second_moment)
    near = min(place, other)
    from_far_end = math.sqrt((length**2 - near**2) / 3)
    return SimpleBeam(
        at_load=bends * place**2 * other**2 / (3 * length),
        greatest=bends * near * (length**2 - near**2) ** 1.5 / (9 * math.sqrt(3) * length),
        greatest_at=length - from_far_end if place < other else from_far_end,
    )


@calculation
def propped_beam(
    force: float, length: float, second_moment: float, modulus: float = STEEL, at: float | None = None
) -> ProppedBeam:
    """Bending of a beam held at one end and resting at the other, such as work in a chuck and on a centre.

    Equation:
        c = L - a
        w = F * c ** 2 * a ** 3 * (3 * L + c) / (12 * E * I * L ** 3)
        R = F * a ** 2 * (c + 2 * L) / (2 * L ** 3)

    Parameters:
        force: F [N] force across the beam
        length: L [mm] (L > 0) length from the chuck to the centre
        second_moment: I [mm^4] (I > 0) second moment of area
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        at: a [mm] (a > 0) distance of the load from the held end; the middle where it is not said

    Returns:
        at_load: w [mm] clearance deflection under the load
        support: R [N] force force on the centre

    Raises:
        OutOfRange: the load lies beyond the centre.

    Validity:
        Longer than about five times its depth; chuck and centre do not give (real ones do).

    Example:
        >>> bar = propped_beam(100, 200, 490.874, at=50)
        >>> round(bar.at_load, 5), round(bar.support, 3)
        (0.02173, 8.594)

    Source:
        Handbook formula, from memory; a finite-element beam gives the same to five figures.

    Trust: exact
    """
    place = length / 2 if at is None else at
    if place > length:
        raise OutOfRange("at", place, "mm", "not beyond the centre")
    free = length - place
    bends = force / (modulus * second_moment)
    return ProppedBeam(
        at_load=bends * free**2 * place**3 * (3 * length + free) / (12 * length**3),
        support=force * place**2 * (free + 2 * length) / (2 * length**3),
    )
