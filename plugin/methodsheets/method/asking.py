"""What may a formula ask of the work as it stands there: its weight, its balance, its run-out, a balancing cut?"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.errors import FormulaError
from methodsheets.formula.functions import Function
from methodsheets.method.balance import NONE, state_rests
from methodsheets.method.balancing_cuts import balance_flat, balance_hole, present, shop_angle, turned
from methodsheets.method.job import Job
from methodsheets.method.make_to import make_to
from methodsheets.method.run_out import between, named_features
from methodsheets.operations import say
from methodsheets.reading.problem import did_you_mean
from methodsheets.trade.form.calculation import Calculation
from methodsheets.trade.form.docstring import docstring
from methodsheets.trade.form.sheet import Sheet, read_sheet
from methodsheets.workpiece import mass
from methodsheets.workpiece import unbalance as unbalance_of


@dataclass(frozen=True)
class OutOfBalance:
    """How far the work is out of balance, and where the heavy side lies."""

    amount: float
    angle: float
    mass: float
    eccentricity: float
    couple: float


@dataclass(frozen=True)
class RunOut:
    """How far two features run out of truth with each other."""

    worst: float
    likely: float
    why: str


def weight(job: Job, piece: str = "") -> float:
    """Mass of the work as it stands there, of one of its pieces, or of another piece of the method.

    Table:
        materials

    Parameters:
        piece: [text] name of a piece; the work in the present set-up where it is not said

    Returns:
        m [g] mass mass

    Validity:
        The solid as it stands at this line of the method.

    Source:
        Volume of the solid times the density of the material table.

    Trust: exact
    """
    if not piece:
        state_rests(present(job).piece.work.state)
        return mass(present(job).piece.work.state).grams
    if piece in job.pieces:
        state_rests(job.pieces[piece].work.state)
        return mass(job.pieces[piece].work.state).grams
    bodies = job.setups[-1].piece.work.bodies if job.setups else {}
    if piece in bodies:
        return bodies[piece].grams
    raise FormulaError(
        f"no such piece (got `{piece}`)",
        "a piece is there from its first set-up on",
        did_you_mean(piece, (*job.pieces, *bodies)) or "write the line below that set-up",
        code="unknown-piece",
    )


def unbalance(job: Job, about: str = "part") -> OutOfBalance:
    """How far the work is out of balance as it stands there, and where its heavy side lies.

    Equation:
        U = m * e

    Table:
        materials

    Parameters:
        about: [text] (one of part, spindle) about the part's own axis, or about the axis of the present set-up

    Returns:
        amount: U [g*mm] unbalance unbalance
        angle: a [deg] angle direction of the heavy side, as you look at the face that is out
        mass: m [g] mass mass
        eccentricity: e [mm] size distance of the centre of mass from the axis
        couple: C [kg*mm^2] inertia what a single balance weight leaves: the couple that shakes both ends

    Validity:
        The solid as it stands at this line of the method.

    Source:
        Sums over the solid.

    Trust: exact
    """
    setup, frame = turned(job)
    if about not in ("part", "spindle"):
        raise FormulaError(
            f"`about` is part or spindle (got `{about}`)", "", 'write about="spindle"', code="wrong-value"
        )
    state_rests(setup.piece.work.state)  # the densities that it takes up are those of this number
    found = unbalance_of(setup.piece.work.state, frame.axis if about == "spindle" else (0.0, 0.0))
    amount = found.amount if found.amount >= NONE else 0.0
    angle = shop_angle(frame, found.angle) if amount else 0.0
    return OutOfBalance(amount, angle, found.grams, amount / found.grams if found.grams else 0.0, found.couple / 1e3)


def run_out(job: Job, first: str, second: str) -> RunOut:
    """Run-out that builds up between two named features: worst case and likely.

    Parameters:
        first: [text] name of a feature: what the operation says behind `called`
        second: [text] name of the other

    Returns:
        worst: t_w [mm] size sum of the run-outs of the holdings between them
        likely: t [mm] size root of the sum of their squares
        why: [text] text which holdings come in

    Validity:
        Total indicator reading. The run-out of each holding is what the workshop or the set-up says.

    Source:
        Worst case and root-sum-square of independent errors (usual rule).

    Trust: common practice
    """
    known = named_features(job)
    for name in (first, second):
        if name not in known:
            raise FormulaError(
                f"no feature is called `{name}` yet",
                "a feature gets its name with `called` in an operation above",
                did_you_mean(name, known) or 'add e.g. `called "journal A"` to the operation',
                code="unknown-feature",
            )
    chain = between(job, known[first], known[second])
    if chain is None or not chain.known:
        because = "they are not of one part" if chain is None else say.plain(chain.words).removeprefix("not known: ")
        raise FormulaError(
            f"the run-out between `{first}` and `{second}` is not known: {because}",
            "each holding between them needs its run-out, each seat its limits",
            "add `run-out 0.02 mm` to the set-up, or `run out` to the holding in the workshop's file; "
            "give hole and shaft of a seat their limits",
            code="not-known",
        )
    return RunOut(chain.worst, chain.likely, say.plain(chain.words))


# ------------------------------------------------------------------------------------------------ for formulas
ASKED: Mapping[str, Callable[..., Any]] = {
    "weight": weight,
    "unbalance": unbalance,
    "run_out": run_out,
    "balance_hole": balance_hole,
    "balance_flat": balance_flat,
}
"""What formulas may ask of the work, by name."""
PLAIN: Mapping[str, Callable[..., Any]] = {"make_to": make_to}
"""What formulas of a method may ask besides, without looking at the work."""
WRITTEN = {"start": "from"}
"""A parameter's name in formulas, where Python keeps the word for itself."""


def work_functions(job: Job) -> dict[str, Function]:
    """The functions of formulas that look at a method's work."""
    asked = {name: _record(name, partial(function, job)) for name, function in ASKED.items()}
    return from_calculations(asked | {name: _record(name, function) for name, function in PLAIN.items()})


@functools.cache
def _sheet(name: str) -> Sheet:
    """What the docstring of one of them says; read once."""
    function = ASKED.get(name) or PLAIN[name]
    defaults = {
        WRITTEN.get(p.name, p.name): p.default
        for p in inspect.signature(function).parameters.values()
        if p.default is not inspect.Parameter.empty
    }
    return read_sheet(name, docstring(function), defaults)


def _record(name: str, function: Callable[..., Any]) -> Calculation:
    """A function as a calculation that formulas can call and whose working they show."""
    sheet = _sheet(name)
    spoken = {written: own for own, written in WRITTEN.items()}

    def call(**given: Any) -> Any:
        return function(**{spoken.get(key, key): value for key, value in given.items()})

    call.__annotations__["return"] = (ASKED.get(name) or PLAIN[name]).__annotations__["return"]
    return Calculation(name, "the work", call, sheet, remembered=False)
