"""How far does the work bend away from the tool, and what shape does that leave?"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .beams import STEEL, round_section

SUPPORTS = ("chuck", "chuck and centre", "between centres")

Piece = tuple[float, float, float]
"""One stretch of a bar: where it begins and ends [mm from the chuck], its second moment of area [mm^4]."""
Line = Callable[[float], float]


@dataclass(frozen=True)
class WorkBends:
    """How far work bends under the tool."""

    deflection: float
    diameter_error: float
    stiffness: float | None
    centre_force: float
    slenderness: float
    note: str


@dataclass(frozen=True)
class TurnedShape:
    """The shape that bending leaves on a bar meant to be parallel."""

    places: tuple[float, ...]
    diameter_errors: tuple[float, ...]
    greatest: float
    greatest_at: float
    left_over_cut: float
    shape: str


@calculation
def work_bends(
    force: float,
    lengths: Sequence[float],
    diameters: Sequence[float],
    at: float | None = None,
    support: str = "chuck",
    modulus: float = STEEL,
    bores: Sequence[float] = (),
) -> WorkBends:
    """Bending of plain or stepped work in the lathe under a force across it.

    Lengths and diameters run from the chuck (or the headstock centre) outwards.

    Equation:
        w = F * a ** 3 / (3 * E * I)
        k = F / w
        d_e = 2 * w

    Parameters:
        force: F [N] (F > 0) force across the work: the part of the cutting force that pushes it from the tool
        lengths: L [mm, ...] (L > 0) length of each step, from the chuck outwards
        diameters: d [mm, ...] (d > 0) diameter of each step
        at: a [mm] (a >= 0) distance of the tool from the chuck; the end (chuck) or the middle where it is not said
        support: [text] (one of chuck, chuck and centre, between centres) how it is held
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        bores: d_b [mm, ...] (d_b >= 0) bore of each step; none where it is not said

    Returns:
        deflection: w [mm] clearance how far the work moves from the tool
        diameter_error: d_e [mm] deviation how much larger that leaves the diameter
        stiffness: k [N/mm] stiffness force for each millimetre; nothing where it does not bend
        centre_force: R [N] force force on the centre; nothing in the chuck alone
        slenderness: n [1] ratio length over the mean diameter
        note: [text] text where the equation stops

    Raises:
        OutOfRange: the lists differ in length, or the tool is not on the work.

    Validity:
        The first line is for a plain bar in the chuck; steps and a centre are worked out exactly from step to step.
        Chuck and centre do not give (real ones do, often as much again); short work (under five diameters) also
        shears. Static mean force.

    Example:
        >>> stub = work_bends(150, lengths=[60, 40], diameters=[16, 8])
        >>> round(stub.deflection, 5)
        0.14788

    Source:
        Integration of the bending equation. The example is derived from a two-step formula and agrees with a
        finite-element beam; no published stepped example was found.

    Trust: estimate: exact for the bar, the holding gives besides
    """
    pieces = pieces_of(lengths, diameters, bores)
    total = pieces[-1][1]
    place = _place(at, total, support)
    deflection, centre = bar_deflection(pieces, force, place, modulus, support)
    slenderness = total / (sum(length * d for length, d in zip(lengths, diameters, strict=True)) / total)
    note = "" if slenderness >= 5 else "shorter than five diameters: it bends a little more, and the holding gives more"
    stiffness = force / deflection if deflection else None
    return WorkBends(deflection, 2 * deflection, stiffness, centre, slenderness, note)


@calculation
def turned_shape(
    force: float,
    lengths: Sequence[float],
    diameters: Sequence[float],
    support: str = "chuck",
    cut_start: float | None = None,
    cut_end: float | None = None,
    modulus: float = STEEL,
    bores: Sequence[float] = (),
) -> TurnedShape:
    """Taper or barrel that bending leaves on work turned by one even cut.

    Equation:
        d_e = 2 * w

    Parameters:
        force: F [N] (F > 0) force that pushes the work from the tool
        lengths: L [mm, ...] (L > 0) length of each step, from the chuck outwards
        diameters: d [mm, ...] (d > 0) diameter of each step
        support: [text] (one of chuck, chuck and centre, between centres) how it is held
        cut_start: a_1 [mm] (a_1 >= 0) where the cut begins, from the chuck; the chuck where it is not said
        cut_end: a_2 [mm] (a_2 > 0) where the cut ends, from the chuck; the end where it is not said
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said
        bores: d_b [mm, ...] (d_b >= 0) bore of each step; none where it is not said

    Returns:
        places: x [mm, ...] length 25 places along the cut, from the chuck
        diameter_errors: d_e [mm, ...] deviation how much larger the diameter is left there
        greatest: d_m [mm] clearance greatest of them
        greatest_at: x_m [mm] length where that is
        left_over_cut: d_v [mm] clearance greatest less least: what a micrometer finds along the cut
        shape: [text] text taper, barrel or parallel

    Raises:
        OutOfRange: the lists differ in length, or the cut does not lie on the work.

    Validity:
        As for work_bends; even force. Passes at the same setting (spring passes) take some of it off again.

    Example:
        >>> bar = turned_shape(100, [200], [10], support="between centres")
        >>> bar.shape, round(bar.greatest, 4), round(bar.greatest_at)
        ('barrel', 0.3296, 100)

    Source:
        Work between centres bends most in the middle, F L^3/(48 E I) = 0.1648 mm there (handbook, from memory).

    Trust: estimate: exact for the bar, the holding gives besides
    """
    pieces = pieces_of(lengths, diameters, bores)
    total = pieces[-1][1]
    first, last = 0.0 if cut_start is None else cut_start, total if cut_end is None else cut_end
    if not first < last <= total + 1e-9:
        raise OutOfRange("cut_end", last, "mm", f"beyond cut_start and not beyond the end of the work ({total:g} mm)")
    places = tuple(first + (last - first) * step / 24 for step in range(25))
    errors = tuple(2 * bar_deflection(pieces, force, place, modulus, support)[0] for place in places)
    peak = max(range(25), key=errors.__getitem__)
    spread = max(errors) - min(errors)
    return TurnedShape(places, errors, errors[peak], places[peak], spread, _shape(errors, peak))


def bar_deflection(
    pieces: Sequence[Piece], force: float, at: float, modulus: float, support: str
) -> tuple[float, float]:
    """Return the deflection [mm] under a load and the force [N] on the centre, by exact integration.

    `pieces` run from the chuck outwards; `at` is the load's distance from the chuck; `support` is one of `SUPPORTS`.
    """
    support = support.strip().lower()
    total = pieces[-1][1]
    if support == "between centres":
        arm = _simple_arm(total, at)
        deflection = force / modulus * _integral(pieces, arm, arm, (at,))
        return deflection, force * at / total
    load = _cantilever_arm(at)
    deflection = force / modulus * _integral(pieces, load, load, (at,))
    if support == "chuck" or at == 0:
        return deflection, 0.0
    tip = _cantilever_arm(total)
    together = _integral(pieces, load, tip, (at,))
    share = together / _integral(pieces, tip, tip, ())
    return deflection - force / modulus * share * together, force * share


def pieces_of(lengths: Sequence[float], diameters: Sequence[float], bores: Sequence[float] = ()) -> tuple[Piece, ...]:
    """Put steps one after another from the chuck.

    Raises:
        OutOfRange: there are no steps, or the lists differ in length.
    """
    if not lengths:
        raise OutOfRange("lengths", "", "text", "at least one step")
    if len(diameters) != len(lengths):
        raise OutOfRange("diameters", len(diameters), "count", f"one for each length ({len(lengths)})")
    if bores and len(bores) != len(lengths):
        raise OutOfRange("bores", len(bores), "count", f"one for each length ({len(lengths)})")
    pieces: list[Piece] = []
    start = 0.0
    for length, diameter, bore in zip(lengths, diameters, bores or (0.0,) * len(lengths), strict=True):
        pieces.append((start, start + length, round_section(diameter, bore)))
        start += length
    return tuple(pieces)


def _place(at: float | None, total: float, support: str) -> float:
    if at is None:
        return total if support.strip().lower() == "chuck" else total / 2
    if at > total + 1e-9:
        raise OutOfRange("at", at, "mm", f"on the work, which ends at {total:g} mm")
    return min(at, total)


def _cantilever_arm(at: float) -> Line:
    """Bending moment along a bar held at 0 for a load of one at `at`."""
    return lambda x: max(at - x, 0.0)


def _simple_arm(total: float, at: float) -> Line:
    """Bending moment along a bar resting on both ends for a load of one at `at`."""
    return lambda x: x * (total - at) / total if x <= at else at * (total - x) / total


def _integral(pieces: Sequence[Piece], one: Line, other: Line, breaks: tuple[float, ...]) -> float:
    """Integrate the product of two broken lines over the second moment; Simpson is exact between the breaks."""
    total = 0.0
    for start, end, second_moment in pieces:
        cuts = sorted({start, end, *(place for place in breaks if start < place < end)})
        for low, high in itertools.pairwise(cuts):
            middle = (low + high) / 2
            product = one(low) * other(low) + 4 * one(middle) * other(middle) + one(high) * other(high)
            total += product * (high - low) / 6 / second_moment
    return total


def _shape(errors: Sequence[float], peak: int) -> str:
    """Name the shape: a taper grows from one end to the other, a barrel is fattest between its ends."""
    if max(errors) - min(errors) < 1e-6:
        return "parallel"
    return "taper" if peak in {0, len(errors) - 1} else "barrel"
