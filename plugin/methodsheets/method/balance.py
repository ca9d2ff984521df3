"""What brings the work into balance: which mass, taken off or added, at which radius and angle, in one plane or two?"""

from __future__ import annotations

import math

from methodsheets.formula.measure import Measure
from methodsheets.geometry import Axis, profile
from methodsheets.method.job import Job
from methodsheets.operations.facts import fact, length_measure, mass_rests, measure_of, told, worked
from methodsheets.operations.say import MM, both, degrees, dim, resting, turned
from methodsheets.sheet.model import Fact, Table, Working
from methodsheets.trade.metal.balance import static_balance, two_plane_balance, unbalance_force
from methodsheets.workpiece import State, TurningFrame, Unbalance, unbalance

NONE = 0.05
"""g·mm: less is no unbalance, but the dust of the sums; a good hobby part has some tens."""
NONE_COUPLE = 1.0
"""g·mm²: the same for the couple."""
PULL = 15.0
"""N: out-of-balance force at which a small lathe starts to shake; common practice, an estimate (from memory)."""
BEARS = "The pull at which a small lathe starts to shake"
"""What a ceiling from balance rests on that nobody looked up."""
MATTERS = 30.0
"""g·mm below which out-of-balance work is not worth a caution on a hobby lathe (from memory)."""
WIDE = 0.7
"""Share of the largest radius from which on a stretch of the part counts as its rim, where metal may be taken."""
REACH = 0.8
"""Share of that radius at which the middle of a balancing cut usually comes to lie."""


def state_rests(state: State) -> tuple[str, ...]:
    """What the weight of the work rests on that was recalled and not read."""
    return mass_rests(body.material for body in state.bodies.values())


def balance_ceiling(amount: float) -> tuple[float, Working, str]:
    """(1/min, working, words): speed at which so many g·mm pull as hard as a small lathe bears."""
    speed = 30.0 / math.pi * math.sqrt(PULL / (amount * 1e-6))
    ceiling = max(10.0, 10.0 * math.floor(speed / 10.0))
    _, working = worked(unbalance_force, amount, ceiling)
    return ceiling, working, f"where it pulls {both(PULL, 'force')}"


def counterweight(found: Unbalance, frame: TurningFrame, radius: float) -> tuple[float, str, Working]:
    """(g, where, working) of the weight that cancels the unbalance of work in a chuck or on a faceplate."""
    heavy = frame.work_angle(found.angle)
    weight, working = worked(static_balance, [found.amount], [1.0], [heavy], radius)
    return (
        weight.mass,
        f"at {dim(radius)} {MM} from the axis, {degrees(round(turned(weight.angle), 1))}, where one can be fixed",
        working,
    )


def part_balance(job: Job) -> tuple[list[Fact], list[Table]]:
    """Facts and table of the finished part's balance about its own axis; nothing for work that is not turned."""
    piece = job.pieces.get(job.main)
    if piece is None or not piece.work.bodies or not any(s.held.holding for s in job.setups if s.piece is piece):
        return [], []
    state = piece.work.state
    found = unbalance(state)
    if found.amount < NONE and found.couple < NONE_COUPLE:
        return [told("unbalance", "Out of balance about its axis", "none", desk=True)], []
    frame = TurningFrame("A", state.ends)
    where = f"heavy side at {degrees(round(frame.work_angle(found.angle), 1))} as you look at end A"
    amount = found.amount if found.amount >= NONE else 0.0
    note = f"{dim(round(found.eccentricity, 3))} {MM} off centre, {where}" if amount else ""
    facts = [fact("unbalance", "Out of balance about its axis", amount, "g*mm", "unbalance", note=note, desk=True,
                  rests=state_rests(state))]  # fmt: skip
    couple = found.couple / 1000.0
    facts.append(
        fact(
            "couple",
            "Couple that is left when one weight balances it",
            couple,
            "kg*mm^2",
            "inertia",
            rests=state_rests(state),
        )
    )
    table, workings = _corrections(state, found, frame)
    shown = resting("the balancing table gives it in one plane and in two", state_rests(state))
    facts.append(told("correction", "To balance it", shown, workings))
    return facts, [table]


def _corrections(state: State, found: Unbalance, frame: TurningFrame) -> tuple[Table, list[Working]]:
    """What to take off, in one plane through the centre of mass or in the two faces of the rim."""
    start, end, outer = _rim(state, frame)
    radius, span = REACH * outer, end - start
    heavy = turned(frame.work_angle(found.angle))
    middle = frame.s_of(found.plane)
    rows: list[tuple[Measure | str, ...]] = []
    workings = []
    if found.amount >= NONE:
        one, working = worked(static_balance, [found.amount], [1.0], [heavy], radius)
        rows.append(_row("one plane", middle, one.mass, radius, one.angle + 180.0))
        workings.append(working)
    # The couple as two equal and opposite arrows, one on each side of the centre of mass.
    twist, arm = turned(frame.work_angle(found.couple_angle)), frame.inward * span / 2
    masses, radii = [1.0, 1.0, 1.0], [found.amount, found.couple / span, found.couple / span]
    places = [middle - start, middle - start + arm, middle - start - arm]
    angles = [heavy, twist, turned(twist + 180.0)]
    two, working = worked(two_plane_balance, masses, radii, angles, places, span, radius)
    rows.append(_row("two planes, nearer end A", start, two.near_mass, radius, two.near_angle + 180.0))
    rows.append(_row("two planes, nearer end B", end, two.far_mass, radius, two.far_angle + 180.0))
    workings.append(working)
    columns = ("Correction", "From end A", "Take off", "Centred at radius", "At angle", "Or add, at angle")
    return Table("Balancing the finished part", columns, tuple(rows)), workings


def _row(words: str, place: float, grams: float, radius: float, angle: float) -> tuple[Measure | str, ...]:
    taken, added = (measure_of(turned(a), "deg", "angle") for a in (angle, angle + 180.0))
    return words, length_measure(place), measure_of(grams, "g", "mass"), length_measure(radius), taken, added


def _rim(state: State, frame: TurningFrame) -> tuple[float, float, float]:
    """(from, to, radius): the stretch of the part, in lengths from end A, where it is nearly as large as anywhere."""
    shape = profile(state.solid, Axis(), spacing=1.0)
    outer = float(shape.outer.max())
    wide = [frame.s_of(float(z)) for z in shape.lengths[shape.outer >= WIDE * outer]]
    start, end = min(wide), max(wide)
    return (start, end, outer) if end - start > 1.0 else (0.0, frame.ends.length, outer)
