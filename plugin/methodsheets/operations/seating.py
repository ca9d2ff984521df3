"""How does a piece sit in the work: is there a hole, is it in line and square, does it hold, is there room?

Nominal shapes are compared. The limits of a fit are the calculation's business; what the solids say is where the seats
are, how long, and whether they agree.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from methodsheets.formula.measure import Measure
from methodsheets.geometry.compare import pairs_that_meet
from methodsheets.geometry.frame import Array
from methodsheets.reading.limits import BODIES_MET
from methodsheets.reading.problem import Place
from methodsheets.sheet.model import Check, Fact, Table
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.joining.brazing import joint_gap
from methodsheets.trade.joining.suitable import joint_suits
from methodsheets.vocabulary.joint import Joint
from methodsheets.workpiece import Clash, Fitting, Seat, Sits
from methodsheets.workpiece.seats import SAME

from .facts import fact, judged, length_measure, looked_up
from .mouths import Mouth, Mouths, few
from .plan import Part
from .say import MM, both, degrees, dia, dim, exact, plural, resting
from .station import Station

FILM, CLOSE = 0.05, 0.02
"""mm³ that nominal shapes may share, and mm that they may stand apart, and still count as fitting exactly."""
SQUARE = 3.0
"""Degrees by which a wall may stand off square to a driven piece: common practice, from memory."""
MOST_ROWS = 12
"""Rows of a table of seats."""


@dataclass(frozen=True, eq=False)
class Seating:
    """What is found out about pieces that stand in their places."""

    sits: Sits
    checks: tuple[Check, ...]
    facts: tuple[Fact, ...]
    tables: tuple[Table, ...]


@dataclass(frozen=True, eq=False)
class _Placed:
    """One piece, its mouth, and how it sits."""

    mouth: Mouth
    sits: Sits


def seat_all(
    station: Station, how: Joint, name: str, mouths: Mouths, placed: Sequence[Sequence[Part]], place: Place
) -> Seating:
    """Put the pieces in, one after the other, and look at every seat.

    A thread overlaps by convention: screw and nut share its height.

    Raises:
        MethodError: too many of them meet.
    """
    line = place.line
    few(place, BODIES_MET, pairs_that_meet([_box(parts) for parts in placed]))
    fitting, done = Fitting.of(station.piece.kernel, station.piece.bodies), list[_Placed]()
    for mouth, parts in zip(mouths.all, placed, strict=True):
        solids = {part.name: part.solid for part in parts}
        done.append(_Placed(mouth, fitting.put(solids, pressed=how.row.held_by_fit)))
    sits = Sits(tuple(s for one in done for s in one.sits.seats), tuple(c for one in done for c in one.sits.clashes),
                max(one.sits.gap for one in done))  # fmt: skip
    checks, facts, tables = list[Check](), list[Fact](), list[Table]()
    if not how.row.threaded:
        checks += _in_line(name, done, line)
    walls = [station.piece.bodies[seat.wall].material for seat in sits.seats if seat.wall in station.piece.bodies]
    walls = walls or [body.material for body in station.piece.bodies.values() if not body.filler]
    checks += takes_joint(how, [*walls, *(part.material for parts in placed for part in parts)], line)
    bent = {id(seat) for seat in sits.seats if not seat.in_line}
    checks.append(_overlap(how, name, done, bent, line))
    checks.append(_touches(how, name, sits, line))
    if how.row.held_by_fit:
        checks += _square(name, sits, line)
    if how.row.gap:
        checks += _room(how, name, sits, line)
    if sits.seats and not how.row.threaded:
        tables.append(_table(name, done))
        whole = sum(seat.length for seat in sits.seats)
        note = f"{plural(len(sits.seats), 'seat')}" if len(sits.seats) > 1 else ""
        facts.append(fact("seat_length", "Length of its seat" + ("s together" if note else ""), whole, "mm",
                                "length", note=note))  # fmt: skip
    return Seating(sits, tuple(checks), tuple(facts), tuple(tables))


def _box(parts: Sequence[Part]) -> tuple[Array, Array]:
    """Lowest and highest corner of a piece that may have several bodies."""
    lows, highs = zip(*(part.solid.bounds for part in parts), strict=True)
    return np.min(lows, axis=0), np.max(highs, axis=0)


def takes_joint(how: Joint, metals: Iterable[str], line: int) -> list[Check]:
    """Whether every material stands the heat, the press or the glue; what stands it well is not told."""
    checks = []
    for metal in dict.fromkeys(metals):
        try:
            found = joint_suits(str(how), metal)
        except NotInTable:
            continue  # a filler, or what the table of materials does not know
        if found.note:
            words = f"{metal}, {how}: {found.note}"
            checks.append(judged("joint-material", found.verdict != "no", words, line, tight=True))
    return checks


# ------------------------------------------------------------------------------------------------ the checks
def _in_line(name: str, done: Sequence[_Placed], line: int) -> list[Check]:
    """Every hole lies on the axis of the piece; said only where it goes through several walls, or one is not."""
    seats = [(one.mouth, seat) for one in done for seat in one.sits.seats]
    wrong = [(mouth, seat) for mouth, seat in seats if not seat.in_line]
    if not wrong:
        several = max(len(one.sits.seats) for one in done)
        if several < 2:
            return []
        return [judged("in-line", True, f"the {several} seats of the {name} lie on one axis", line)]
    mouth, seat = max(wrong, key=lambda found: found[1].aside + found[1].askew)
    where = f"the hole {dia(seat.hole)} in the {seat.wall}, {_from_to(mouth, seat)}"
    if seat.askew >= 0.05:
        words = f"{where}, stands {degrees(round(seat.askew, 2))} oblique to the {name}"
        return [judged("in-line", False, words, line, remedy="bore it in the set-up of the others, in one line")]
    words = f"{where}, lies {exact(seat.aside)} {MM} beside the axis of the {name}"
    return [judged("in-line", False, words, line,
                   remedy="drill and ream all walls in one set-up, or clear this one for the piece")]  # fmt: skip


def _overlap(how: Joint, name: str, done: Sequence[_Placed], bent: set[int], line: int) -> Check:
    """No metal is where metal is already; interference of the size of a fit is a fit."""
    clashes = [(one, clash) for one in done for clash in one.sits.clashes if not _explained(one, clash, bent)]
    if how.row.threaded:
        # A screw and its nut share the height of the thread, a ring; metal on the axis itself is metal without a hole.
        clashes = [(one, clash) for one, clash in clashes if _fills_axis(one.mouth, clash)]
    volume = sum(clash.volume for _, clash in clashes)
    if volume < FILM:
        tight = [seat for one in done for seat in one.sits.seats if seat.interference > SAME / 2]
        words = f"the nominal sizes of {name} and the work close without overlap"
        if tight and how.row.held_by_fit:
            words = f"{name} and the work overlap by their fit only, {both(tight[0].interference, 'clearance')}"
        return judged("overlap", True, words, line)
    one, clash = max(clashes, key=lambda found: found[1].volume)
    low, high = _depths(one.mouth, clash)
    small = next((s for s in one.sits.seats if s.wall == clash.wall and s.interference > SAME), None)
    place = f"in the {clash.wall}, {dim(low)} to {dim(high)} {MM} below its mouth"
    if small is not None:
        words = f"the {name} {dia(small.shaft)} does not go into the hole {dia(small.hole)} {place}"
        remedy = f"make the hole {dim(small.shaft)} {MM}, less the interference of its fit"
    elif clash.wall == name:
        words = f"a {name} stands there already, {both(volume, 'volume')} of it {place}"
        remedy = "one piece goes into one place: take this away, or give it a place of its own"
    else:
        words = f"the {name} overlaps {both(volume, 'volume')} of metal {place}: no hole is there"
        remedy = (
            f"drill the hole first, {dim(high - low)} {MM} deep, at the same place; check size and place of both pieces"
        )
    return judged("overlap", False, words, line, remedy=remedy)


def _fills_axis(mouth: Mouth, clash: Clash) -> bool:
    """Whether metal of both lies on the axis of the mouth."""
    low, high = _depths(mouth, clash)
    steps = np.linspace(low, high, 7)[1:-1]
    spots = mouth.frame.origin + steps[:, None] * mouth.frame.rotation[:, 2]
    return bool(clash.solid.contains(spots).any())


def _explained(one: _Placed, clash: Clash, bent: set[int]) -> bool:
    """Whether a hole out of line is the reason: that is said already."""
    return any(seat.wall == clash.wall and id(seat) in bent for seat in one.sits.seats)


def _touches(how: Joint, name: str, sits: Sits, line: int) -> Check:
    row, tight = how.row, [seat for seat in sits.seats if -seat.interference <= CLOSE]
    words = f"{name} touches its seat" if sits.gap < CLOSE else f"{name} stands {dim(sits.gap)} {MM} clear of the work"
    if row.held_by_fit and sits.seats and not tight:
        loose = min(sits.seats, key=lambda seat: -seat.interference)
        room = f"{exact(-loose.interference)} {MM} of room"
        words = f"{name} {dia(loose.shaft)} hangs in its hole {dia(loose.hole)} with {room}"
        remedy = "make the hole to the piece, or join it in a way that fills the gap"
        return judged("seat", False, words, line, remedy=remedy)
    if row.held_by_fit and len(tight) < len(sits.seats):
        words = f"{name} holds in {len(tight)} of {len(sits.seats)} seats; the others have room"
        return judged("seat", True, words, line, tight=True)
    holds = True if sits.gap < CLOSE else False if row.held_by_fit else None
    room = f"make its hole {dim(round(2 * sits.gap, 2))} {MM} smaller, or check its place: `at`, `offset`, `turned`"
    return judged("seat", holds, words, line, remedy=room if sits.gap >= CLOSE else "")


def _square(name: str, sits: Sits, line: int) -> list[Check]:
    """A driven piece goes in square: a sloping wall bends it, and holds it on one side only."""
    slant = math.tan(math.radians(SQUARE)) / 2
    sloping = [seat for seat in sits.seats if seat.lean > SQUARE and seat.length - seat.least > slant * seat.shaft]
    worst = max(sloping, key=lambda seat: seat.lean, default=None)
    if worst is None:
        return []
    words = f"the {worst.wall} stands {degrees(round(worst.lean, 1))} off square to the {name}: its seat is " \
            f"{dim(round(worst.length, 2))} long on one side and {dim(round(worst.least, 2))} on the other"  # fmt: skip
    return [judged("square", False, words, line, remedy="mill a flat or a spot face square to the hole first")]


def _room(how: Joint, name: str, sits: Sits, line: int) -> list[Check]:
    """Filler wants a gap; both figures per side."""
    gap, rests = looked_up(joint_gap, how.row.gap)
    side = 2.0 if gap.counted == "per side" else 1.0
    wide = [(seat, -seat.interference / side) for seat in sits.seats]
    if not wide:
        return []
    wanted = f"{how} joints want {exact(gap.gap_low)} to {resting(exact(gap.gap_high), rests)} {MM} {gap.counted}"
    seat, room = max(wide, key=lambda one: abs(one[1] - gap.gap_best))
    if abs(room) <= SAME and gap.gap_low > 0:
        return [judged("joint-gap", None, f"{name} is drawn line to line: {wanted}", line)]
    fits = gap.gap_low - 1e-6 <= room <= gap.gap_high + 1e-6
    words = f"{exact(room)} {MM} {gap.counted} round the {name} in the {seat.wall}; {wanted}"
    return [judged("joint-gap", fits, words, line)]


# ------------------------------------------------------------------------------------------------ places and the table
def _span(mouth: Mouth, seat: Seat) -> tuple[float, float]:
    ends = [mouth.below(seat.axis.at(length)) for length in (seat.start, seat.end)]
    return min(ends), max(ends)


def _from_to(mouth: Mouth, seat: Seat) -> str:
    low, high = _span(mouth, seat)
    return f"{dim(round(low, 3))} to {dim(round(high, 3))} {MM} below the mouth"


def _depths(mouth: Mouth, clash: Clash) -> tuple[float, float]:
    along = (clash.solid.mesh().vertices - mouth.frame.origin) @ mouth.frame.rotation[:, 2]
    return round(float(np.min(along)), 2), round(float(np.max(along)), 2)


def _table(name: str, done: Sequence[_Placed]) -> Table:
    """Every wall with its own seat."""
    rows = list[tuple[Measure | str, ...]]()
    for number, one in enumerate(done, 1):
        for seat in sorted(one.sits.seats, key=lambda seat: _span(one.mouth, seat)):
            low, _ = _span(one.mouth, seat)
            own = [str(number)] if len(done) > 1 else []
            sizes = [length_measure(seat.hole, "size"), length_measure(seat.shaft, "size")]
            place = [length_measure(round(low, 4)), length_measure(round(seat.length, 4))]
            rows.append((*own, seat.wall, *place, *sizes, _fit(seat)))
    columns = ("Wall", "Begins below the mouth", "Long", "Hole", "Piece", "Nominal fit")
    return Table(f"Seats of the {name}", (("No.", *columns) if len(done) > 1 else columns), tuple(rows[:MOST_ROWS]))


def _fit(seat: Seat) -> str:
    if abs(seat.interference) <= SAME / 2:
        return "line to line"
    return f"{'interference' if seat.interference > 0 else 'room'} {abs(seat.interference) * 1000:.0f} µm"
