"""Which hole or flat brings the work to a stated balance, on the solid as it stands at a line of the method?"""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.formula.errors import FormulaError
from methodsheets.geometry import Solid
from methodsheets.method.balance import NONE
from methodsheets.method.job import Job
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.trial_cuts import Taken, TrialCuts, direction
from methodsheets.operations.holes import hole_outline
from methodsheets.operations.say import degrees, dim, number
from methodsheets.operations.say import turned as turned_angle
from methodsheets.workpiece import TurningFrame


@dataclass(frozen=True)
class BalanceCut:
    """A hole or a flat that balances, and what it leaves."""

    deep: float
    depth: float
    distance: float
    mass: float
    radius: float
    direction: float
    before: float
    before_angle: float
    unbalance: float
    angle: float
    note: str


def balance_hole(
    job: Job,
    drill: float,
    radius: float,
    angle: tuple[float, ...],
    start: float = 0.0,
    unbalance: float | None = None,
    point: float = 118.0,
) -> BalanceCut:
    """Depth of a hole along the axis that brings the work to a stated balance, or as near as it can.

    Equation:
        U = sqrt(U_0 ** 2 + (m * r_m) ** 2 - 2 * U_0 * m * r_m * cos(a_0 - a_m))

    Parameters:
        drill: d [mm] (drill > 0) diameter of the drill
        radius: r [mm] (radius > 0) distance of the hole from the axis
        angle: [deg, ...] direction of the hole; several in a list are drilled to one depth
        from: [mm] (from >= 0) where the hole starts, from the face that looks at you
        unbalance: [g*mm] (unbalance >= 0) what may be left; as little as this hole can leave where it is not said
        point: [deg] (60 <= point <= 180) angle of the drill's point; 180 for a flat bottom

    Returns:
        deep: h [mm] length depth to the full diameter, from the face: what the drilling operation takes
        depth: l [mm] length the same from where the hole starts
        mass: m [g] mass metal that goes
        radius: r_m [mm] length distance of its centre of mass from the part's axis
        direction: a_m [deg] angle direction of that
        before: U_0 [g*mm] unbalance unbalance before
        before_angle: a_0 [deg] angle direction of the heavy side before
        unbalance: U [g*mm] unbalance unbalance that is left
        angle: a [deg] angle direction of what is left
        note: [text] text what to say beside it

    Validity:
        Solved on the solid as it stands at this line, about the part's own axis; nothing is cut.

    Source:
        Trial cuts on the solid; the equation checks the answer.

    Trust: exact
    """
    setup, frame = turned(job)
    state, kernel = setup.piece.work.state, job.kernel
    _positive(("drill", drill), ("radius", radius))
    most = frame.ends.length - start
    if most <= 0:
        raise FormulaError(
            f"the hole starts behind the work (got {number(start)} mm of {number(frame.ends.length)} mm)",
            "",
            "check `from`",
            code="too-long",
        )
    outline = hole_outline(drill / 2, start, start + most, point)
    drawn = frame.outline(outline)
    deepest = kernel.union([kernel.revolve(drawn, "trial", frame.axis_of(radius, a)) for a in angle])
    # A hole not so deep is the deepest one drawn back; what lies in front of its start belongs to no trial.
    trials = TrialCuts(state, lambda size: deepest.shifted((0.0, 0.0, frame.inward * (size - most))), most)
    taken = _found(trials, frame, unbalance, f"a hole {dim(drill)} at {dim(radius)} from the axis", "deep")
    note = _note(taken, frame, unbalance, "deep" if taken.size > most - 1e-3 else "")
    return _answer(taken, trials, frame, start + taken.size, taken.size, 0.0, note)


def balance_flat(
    job: Job,
    angle: tuple[float, ...],
    start: float = 0.0,
    over: float | None = None,
    unbalance: float | None = None,
) -> BalanceCut:
    """Distance of a flat from the axis that brings the work to a stated balance, or as near as it can.

    Equation:
        U = sqrt(U_0 ** 2 + (m * r_m) ** 2 - 2 * U_0 * m * r_m * cos(a_0 - a_m))

    Parameters:
        angle: [deg, ...] direction of the flat; several in a list are milled at one distance
        from: [mm] (from >= 0) where the flat starts, from the face that looks at you
        over: [mm] (over > 0) its length; to the far end where it is not said
        unbalance: [g*mm] (unbalance >= 0) what may be left; as little as this flat can leave where it is not said

    Returns:
        distance: h [mm] length distance of the flat from the axis
        depth: l [mm] length depth of the cut below the outside
        mass: m [g] mass metal that goes
        radius: r_m [mm] length distance of its centre of mass from the part's axis
        direction: a_m [deg] angle direction of that
        before: U_0 [g*mm] unbalance unbalance before
        before_angle: a_0 [deg] angle direction of the heavy side before
        unbalance: U [g*mm] unbalance unbalance that is left
        angle: a [deg] angle direction of what is left
        note: [text] text what to say beside it

    Validity:
        Solved on the solid as it stands at this line, about the part's own axis; nothing is cut.

    Source:
        Trial cuts on the solid; the equation checks the answer.

    Trust: exact
    """
    setup, frame = turned(job)
    state, kernel = setup.piece.work.state, job.kernel
    end = start + (frame.ends.length - start if over is None else over)
    if not start < end <= frame.ends.length + 1e-6:
        raise FormulaError(
            f"the flat from {number(start)} to {number(end)} mm does not lie on the work",
            f"it is {number(frame.ends.length)} mm long",
            "check `from` and `over`",
            code="too-long",
        )
    swing = state.swing(frame, start, end)
    low, high = frame.span(start, end)

    def cutter(size: float) -> Solid:
        flats = []
        for a in angle:
            normal, offset = frame.plane(a, swing - size)
            flats.append(kernel.half_space(normal, offset, "trial", start=low, end=high, along=(0, 0, 1)))
        return kernel.union(flats)

    trials = TrialCuts(state, cutter, swing)
    taken = _found(trials, frame, unbalance, "a flat", "far in")
    note = _note(taken, frame, unbalance, "far in" if taken.size > swing - 1e-3 else "")
    return _answer(taken, trials, frame, 0.0, taken.size, swing - taken.size, note)


# ------------------------------------------------------------------------------------------------ answers
def _found(trials: TrialCuts, frame: TurningFrame, wanted: float | None, what: str, far: str) -> Taken:
    """The trial that answers; FormulaError where none does, with how near it comes."""
    heavy = f"the heavy side lies at {degrees(round(shop_angle(frame, direction(trials.before)), 1))}"
    if trials.misses:
        raise FormulaError(
            f"{what} meets no metal there", heavy, "check radius, angle and `from`", code="nothing-to-cut"
        )
    best = trials.best()
    if wanted is not None:
        reached = trials.reaching(wanted)
        if reached is None:
            raise FormulaError(
                f"{what} does not bring it to {wanted:.3g} g*mm: the least is {best.amount:.3g} g*mm at "
                f"{number(round(best.size, 2))} mm {far} (got {abs(trials.before):.3g} g*mm before)",
                heavy,
                "allow more, or take another size, radius or angle",
                code="no-solution",
            )
        return reached
    if best.amount >= abs(trials.before) - 1e-9 and best.size < 1e-3:
        raise FormulaError(
            f"{what} there makes the balance worse", heavy, "put it on the heavy side", code="no-solution"
        )
    return best


def _note(taken: Taken, frame: TurningFrame, wanted: float | None, end: str) -> str:
    if wanted is not None:
        return "already there" if taken.size < 1e-3 else ""
    rest = (
        ""
        if taken.amount < NONE
        else f"what is left points to {degrees(round(shop_angle(frame, direction(taken.left)), 1))}"
    )
    return "; ".join(part for part in (f"as {end} as it goes" if end else "as little as it can leave", rest) if part)


def _answer(
    taken: Taken, trials: TrialCuts, frame: TurningFrame, deep: float, depth: float, distance: float, note: str
) -> BalanceCut:
    arm = abs(taken.moment) / taken.grams if taken.grams else 0.0
    left = taken.amount if taken.amount >= NONE else 0.0
    return BalanceCut(
        deep=deep,
        depth=depth,
        distance=distance,
        mass=taken.grams,
        radius=arm,
        direction=shop_angle(frame, direction(taken.moment)),
        before=abs(trials.before),
        before_angle=shop_angle(frame, direction(trials.before)),
        unbalance=left,
        angle=shop_angle(frame, direction(taken.left)) if left else 0.0,
        note=note,
    )


def shop_angle(frame: TurningFrame, angle: float) -> float:
    """An angle about z of the work as the set-up sees it, from -180 to 180."""
    return turned_angle(frame.work_angle(angle))


def _positive(*values: tuple[str, float]) -> None:
    for name, value in values:
        if value <= 0:
            raise FormulaError(
                f"`{name}` is more than nothing (got {number(value)} mm)",
                "",
                "check it",
                code="out-of-range",
                argument=name,
            )


def present(job: Job) -> OpenSetup:
    """The set-up in which the work stands at this line; FormulaError where there is none yet."""
    if not job.setups:
        raise FormulaError(
            "there is no work yet",
            "the work is there from the first set-up on",
            "write the line below the set-up or the operation that it asks about",
            code="no-work",
        )
    return job.setups[-1]


def turned(job: Job) -> tuple[OpenSetup, TurningFrame]:
    """The same with its lengths and angles; FormulaError where the work is held as a block."""
    setup = present(job)
    holding = setup.held.holding
    if holding is None:
        raise FormulaError(
            "the work is held as a block here: it has no axis",
            "balance is about an axis",
            "write the line in a set-up that says which end is out",
            code="wrong-frame",
        )
    return setup, holding.frame(setup.piece.work.ends)
