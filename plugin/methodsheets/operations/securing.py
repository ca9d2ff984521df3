"""How is a joint secured that stands already: a bead round its mouth, a compound, a pin or a screw across it?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from methodsheets.geometry import Axis, Outline, Solid
from methodsheets.geometry.frame import point
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.sheet.model import Check, Fact
from methodsheets.sheet.spread import WELD_HEAT
from methodsheets.trade.joining.brazing import bonded_joint, joint_gap
from methodsheets.trade.joining.joining import cross_pin_shear
from methodsheets.trade.joining.securing import bead_strength, bead_warms, grub_screw_holding
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.joint import Joint
from methodsheets.vocabulary.securing import SPELLED, Securing
from methodsheets.workpiece import Body, Seat, Sits, mass
from methodsheets.workpiece.seats import SAME, find_seats, rounds

from .facts import fact, judged, looked_up, told, worked
from .joining import TIME
from .mouths import AT_ANGLE, BESIDE, PLACE_CLAUSES, read_mouths
from .places import read_angles
from .plan import Join, Part, Plan, Sketch, WayIn
from .say import MM, both, dia, dim, resting
from .seating import CLOSE, seat_all
from .station import Station
from .verb import ANY, verb
from .words import Clause, Said

FILLER = {Joint.WELDED: 7.85e-3, Joint.BRAZED: 9.2e-3}
"""g/mm³ of what is laid down: steel; a silver brazing alloy (from memory)."""
ROOM = 0.97
"""Share of a fillet's section that must be free for the bead to have its throat."""
LETS_GO = "about 150 °C"
"""Where a retaining compound gives way: the note of the table of joint gaps."""
FAR = 100.0
"""mm up to which a pin may miss what it secures."""
SIDES = ("front", "back", "both", "inner", "all")
TORCH = 12.0
"""mm between two walls below which a torch or an electrode hardly gets at a mouth there: common practice."""


@dataclass(frozen=True, eq=False)
class _Mouth:
    """One mouth of a seat: where the joint line shows."""

    seat: Seat
    at: float
    """Length along the seat's axis, mm."""
    out: float
    """+1 where lengths along the axis lead out of the mouth, else -1."""
    proud: float
    """mm by which the round stands out of its hole there."""
    gap: float = math.inf
    """mm to the next wall; infinite where none stands before it."""

    @property
    def outward(self) -> np.ndarray:
        """Direction out of the mouth."""
        return self.out * np.array(self.seat.axis.direction)


@verb(
    "secure",
    frame=ANY,
    family="joining",
    first=Clause("", "text", "name of the body that stands in the work", True),
    clauses=[
        Clause("with", "text", "weld, silver solder, retainer, cross pin or grub screw", True, choices=SPELLED),
        Clause("throat", "length", "throat of the bead"),
        Clause("side", "text", "mouth with the bead: front, back or both, inner between two walls, or all", apart=True),
        Clause("run", "length", "length of each run of the bead; all round without it"),
        Clause("at", "length", "an angle: where the runs, pins or screws are", or_angle=AT_ANGLE),
        Clause("size", "length", "diameter of the pin or screw"),
        Clause("long", "length", "length of the pin or screw"),
        *(replace(c, apart=c.apart or c.word == AT_ANGLE) for c in PLACE_CLAUSES if c.word not in BESIDE),
        Clause("material", "text", "what the pin is made of", apart=True),
        Clause("called", "text", "name of what is added", changes=(Change.NAME,)),
        TIME,
    ],
)
def secure(station: Station, said: Said) -> Plan:
    """Secure a joint that stands: weld or silver solder its mouth, wick compound in, pin it across, set a screw."""
    name, way = str(said.get("")), said.get("with")
    body = _standing(station, said, name)
    seats = [seat for wall, other in station.piece.bodies.items() if wall != name
             for seat in find_seats(wall, rounds(other.solid), rounds(body.solid))]  # fmt: skip
    line = said.place.line
    there = f"the {name} stands in {len(seats)} seats" if len(seats) > 1 else f"the {name} stands in its seat"
    words = there if seats else f"the {name} has no round seat in the work: nothing is there to secure"
    secured = judged("secured", bool(seats), words, line, remedy="join it first, then secure it")
    if not seats:
        said.looked_no_further()
        return Plan(f"Secure the {name} with a {way}", must_cut=False, checks=[secured])
    if way.row.bead:
        plan = _bead(station, said, way, name, seats)
    elif way.row.across:
        plan = _across(station, said, way, name, seats)
    else:
        plan = _wicked(said, name, seats)
    return replace(
        plan,
        checks=[secured, *plan.checks],
        cautions=list(dict.fromkeys([*way.row.how.row.cautions, *plan.cautions])),
        tool_words=way.row.how.row.tool, by_hand=said.get("for", way.row.minutes), must_cut=False, handling=1.0,
        feature=str(said.get("called", plan.feature)),
    )  # fmt: skip


def _standing(station: Station, said: Said, name: str) -> Body:
    bodies = station.piece.bodies
    if name in bodies and len(bodies) > 1:
        return bodies[name]
    if name in bodies or name in station.pieces:
        raise MethodError(
            said.where(""), f"the {name} is not joined to anything yet", "what is secured stands in the work",
            f"join it first, for instance `press in: {name}, at 0 mm`", code="not-joined",
        )  # fmt: skip
    raise MethodError(
        said.where(""), f"no such body in the work (got `{name}`)", f"the work is {', '.join(bodies)}",
        did_you_mean(name, [*bodies]), code="unknown-piece",
    )  # fmt: skip


# ------------------------------------------------------------------------------------------------ a bead
def _bead(station: Station, said: Said, way: Securing, name: str, seats: Sequence[Seat]) -> Plan:
    throat, line = said.length("throat"), said.place.line
    if throat <= 0:
        remedy = "write e.g. `throat 1.5 mm`"
        raise MethodError(said.where("throat"), "a bead has a throat", "more than nothing", remedy, code="wrong-value")
    mouths = _mouths(station, said, name, seats)
    checks: list[Check] = []
    solids, facts = list[Solid](), list[Fact]()
    for mouth in mouths:
        solid, check = _fillet(station, said, mouth, throat, line)
        checks.append(check)
        solids += [solid] if solid is not None else []
    size = mouths[0].seat.shaft
    share = min(1.0, _runs(said) * said.length("run") / (math.pi * size)) if said.has("run") else 1.0
    many = f" at {len(mouths)} mouths" if len(mouths) > 1 else ""
    round_it = "all round" if share == 1.0 else f"{_runs(said)} × {dim(said.length('run'))} {MM}"
    words = f"Secure the {name} with a {way} bead{many}, throat {dim(throat)} {MM}, {round_it}"
    facts += _strength(way, throat, [mouth.seat.shaft for mouth in mouths], share)
    called = f"{way} of {name}"
    names = [station.free_name(called if i == 0 else f"{called} {i + 1}") for i in range(len(solids))]
    filler = (f"{way} metal", FILLER[way.row.how], True)
    parts = tuple(Part(name, solid, *filler) for name, solid in zip(names, solids, strict=True))
    if way is Securing.WELD and parts:
        grams = sum(part.solid.volume * part.density for part in parts)
        warm, working = worked(bead_warms, grams, mass(station.piece.state).grams)
        label, kind = "The whole work gets warmer by", "temperature_difference"
        facts.append(fact("warms", label, warm, "K", kind, [working], spread=WELD_HEAT))
    checks += _heat(way, name, station.piece.bodies[name].joined, line)
    join = None
    if parts:
        first = mouths[0]
        spot = WayIn(point(-first.outward), _beside(station, first), point(first.seat.axis.at(first.at)))
        join = Join(way.row.how, called, parts, spot, Sits())
    return Plan(words, join=join, checks=checks, facts=facts, cautions=["bead-pulls", "hollow"], feature=called,
                hot_within=way.row.hot_within, sketch=Sketch(size=size, view="across"))  # fmt: skip


def _runs(said: Said) -> int:
    return len(read_angles(said, AT_ANGLE)[0])


def _mouths(station: Station, said: Said, name: str, seats: Sequence[Seat]) -> list[_Mouth]:
    """The mouths of every row of seats on one axis, on the side that is asked for; the front without a word."""
    side = str(said.get("side", "front"))
    if side not in SIDES:
        words, rule = f"no such side (got `{side}`)", ", ".join(SIDES)
        raise MethodError(said.where("side"), words, rule, "write `side front`", code="wrong-value")
    found = [mouth for row in _rows(seats) for mouth in _of_row(station, name, row, side)]
    if not found:
        words, rule = f"the {name} has no mouth between two walls", "it stands in one wall only"
        raise MethodError(said.where("side"), words, rule, "write `side both`", code="wrong-value")
    return found


def _rows(seats: Sequence[Seat]) -> list[list[Seat]]:
    """The seats by their axis."""
    rows: list[list[Seat]] = []
    for seat in seats:
        axis = seat.axis
        own = (
            r for r in rows if axis.parallel(r[0].axis.direction) and r[0].axis.distance(_at(seat, seat.start)) < SAME
        )
        row = next(own, None)
        if row is None:
            rows.append([seat])
        else:
            row.append(seat)
    return rows


def _at(seat: Seat, length: float) -> list[float]:
    at: list[float] = seat.axis.at(length).tolist()
    return at


def _of_row(station: Station, name: str, row: Sequence[Seat], side: str) -> list[_Mouth]:
    """The mouths of seats on one axis; where two seats meet there is none."""
    first = row[0].axis
    ends = sorted(((_along(first, seat, at), seat, at) for seat in row for at in (seat.start, seat.end)),
                  key=lambda end: end[0])  # fmt: skip
    open_ends = [
        end
        for i, end in enumerate(ends)
        if not any(
            0 <= k < len(ends) and ends[k][1] is not end[1] and abs(ends[k][0] - end[0]) < SAME for k in (i - 1, i + 1)
        )
    ]
    low, high, inner = open_ends[0], open_ends[-1], open_ends[1:-1]
    front, back = (low, high) if float(np.array(first.direction) @ _looks(station, first)) < 0 else (high, low)
    wanted = {"front": [front], "back": [back], "both": [front, back], "inner": inner, "all": [front, *inner, back]}
    gaps = {id(end): abs(a[0] - b[0]) for a, b in zip(inner[::2], inner[1::2], strict=False) for end in (a, b)}
    return [_mouth_at(station, name, end[1], end[2], gaps.get(id(end), math.inf)) for end in wanted[side]]


def _along(axis: Axis, seat: Seat, at: float) -> float:
    return float(axis.lengths(seat.axis.at(at)[None, :])[0])


def _looks(station: Station, axis: Axis) -> np.ndarray:
    """Where you look from: at the face, or, at a seat across the work, from outside."""
    if station.pose is not None:
        return np.array(station.pose.frame.rotation[:, 2])
    frame = station.turning
    if Axis().parallel(axis.direction):
        return np.array([0.0, 0.0, -frame.inward])
    return np.array(frame.normal(0.0)) + 1e-3 * np.array(frame.normal(90.0))


def _mouth_at(station: Station, name: str, seat: Seat, at: float, gap: float) -> _Mouth:
    out = 1.0 if at >= (seat.start + seat.end) / 2 else -1.0
    inner = station.piece.bodies[name if seat.goes_in else seat.wall].solid
    proud = 0.0
    for one in rounds(inner):
        if one.hole or abs(one.diameter - seat.shaft) > SAME or one.axis.distance(seat.axis.at(at).tolist()) > 0.5:
            continue
        ends = [float(seat.axis.lengths(one.axis.at(x)[None, :])[0]) for x in (one.start, one.end)]
        if min(ends) - SAME <= at <= max(ends) + SAME:
            proud = max(proud, (max(ends) - at) if out > 0 else (at - min(ends)))
    return _Mouth(seat, at, out, proud, gap)


def _fillet(station: Station, said: Said, mouth: _Mouth, throat: float, line: int) -> tuple[Solid | None, Check]:
    """The bead at one mouth: on a step, or in a groove that a chamfer leaves."""
    leg, seat, kernel = math.sqrt(2) * throat, mouth.seat, station.piece.kernel
    r, e, up = seat.shaft / 2, mouth.at, mouth.at + mouth.out * leg
    metal = station.piece.state.solid
    fillet = kernel.revolve(Outline((r, e), (r + leg, e), (r, up)), station.operation, seat.axis)
    free = fillet - metal
    if mouth.proud < leg - 0.01 or free.volume < ROOM * fillet.volume:
        top = e + mouth.out * min(mouth.proud, leg)
        free = fillet & kernel.nothing()
        if mouth.proud > CLOSE:
            free = kernel.revolve(Outline((r, e), (r + leg, e), (r + leg, top), (r, top)), station.operation, seat.axis)
            free = free - metal
        if mouth.proud < leg - 0.01 or free.volume < 0.4 * fillet.volume:
            step = f"a step or a chamfer of {dim(round(leg, 2))} {MM} at the mouth of the seat {dia(seat.shaft)}"
            stands = f"the round stands out {dim(round(mouth.proud, 2))} {MM}"
            words = f"a throat of {dim(throat)} {MM} wants {step}; {stands}"
            remedy = f"chamfer the hole {dim(round(leg, 1))} {MM} before it is joined, or let the piece stand out"
            return None, judged("bead", False, words, line, remedy=remedy)
    if said.has("run"):
        free = free & kernel.union(_sectors(station, said, mouth, leg))
    words = f"there is room for a bead of {dim(round(leg, 2))} {MM} leg round {dia(seat.shaft)}"
    if mouth.gap < TORCH:
        words += f", but only {dim(round(mouth.gap, 2))} between the walls for the torch"
    return free, judged("bead", True, words, line, tight=mouth.gap < TORCH)


def _sectors(station: Station, said: Said, mouth: _Mouth, leg: float) -> Iterator[Solid]:
    """The parts of the way round in which the runs lie."""
    axis, half = mouth.seat.axis, math.degrees(said.length("run") / mouth.seat.shaft)
    reach = mouth.seat.shaft + 3 * leg
    for angle in read_angles(said, AT_ANGLE)[0]:
        toward = _towards(station, angle)
        middle = math.degrees(math.atan2(float(toward @ axis.side), float(toward @ np.array(axis.zero))))
        steps = np.radians(np.linspace(middle - half, middle + half, 9))
        ring = [(reach * math.cos(a), reach * math.sin(a)) for a in steps.tolist()]
        low, high = sorted((mouth.at - 2 * leg, mouth.at + 2 * leg))
        yield station.piece.kernel.prism(Outline((0.0, 0.0), *ring), low, high, station.operation, axis.frame)


def _towards(station: Station, angle: float) -> np.ndarray:
    """The direction of an angle, as the set-up sees it."""
    if station.pose is None:
        return np.array(station.turning.normal(angle))
    a = math.radians(angle)
    return np.array(station.pose.frame.vectors((math.cos(a), math.sin(a), 0.0)))


def _beside(station: Station, mouth: _Mouth) -> tuple[float, float, float]:
    """What runs to the right on the paper."""
    if station.pose is not None:
        return point(station.pose.frame.rotation[:, 0])
    off = np.array(mouth.seat.axis.point)[:2] - np.array(station.turning.axis)
    if not Axis().parallel(mouth.seat.axis.direction):
        return (0.0, 0.0, -station.turning.inward)
    return point((*(off / np.linalg.norm(off)), 0.0)) if np.linalg.norm(off) > SAME else (1.0, 0.0, 0.0)


def _strength(way: Securing, throat: float, sizes: Sequence[float], share: float) -> list[Fact]:
    """What the beads carry on their own: a stiff bead takes the load before a fit that has been warm does."""
    note = "the bead alone: the fit beside it is not added" if len(sizes) == 1 else (
        f"the {len(sizes)} beads alone: the fit beside them is not added"
    )  # fmt: skip
    if not way.row.shear:
        words = "not known: no figure for the shear of a silver-brazed joint to rely on; lap it three to four times"
        return [told("bead_force", "The bead carries", words)]
    beads = [worked(bead_strength, throat, size, way.row.shear, share) for size in sizes]
    working = beads[0][1]
    source = f"{both(way.row.shear, 'stress')} allowed in the throat: {way.row.source}"
    force, torque = sum(bead.force for bead, _ in beads), sum(bead.torque for bead, _ in beads)
    return [
        fact("bead_leg", "Leg of the bead", round(beads[0][0].leg, 2), "mm", "length"),
        fact("bead_force", "The bead carries along it", force, "N", "force", [working], note=note),
        fact("bead_torque", "and in torque", torque, "N*m", "torque", [working], note=source),
    ]


def _heat(way: Securing, name: str, joined: str, line: int) -> list[Check]:
    """What the heat does to the joint that is there."""
    if joined == Joint.RETAINED:
        words = f"the {name} is held by a retaining compound, which lets go at {LETS_GO}: the {way} destroys it"
        remedy = "secure it with a cross pin or a screw, or bond it afterwards"
        return [judged("heat-after", False, words, line, remedy=remedy)]
    if joined in (Joint.PRESSED, Joint.SHRUNK, Joint.PINNED):
        near = "near the bead" if way is Securing.WELD else "altogether"
        words = f"the fit of the {name} eases {near} in the heat: count the bead, not the fit"
        return [judged("heat-after", True, words, line, tight=True)]
    return []


# ------------------------------------------------------------------------------------------------ the others
def _wicked(said: Said, name: str, seats: Sequence[Seat]) -> Plan:
    (gap, rests), line = looked_up(joint_gap, "retainer low viscosity"), said.place.line
    room = max(-seat.interference for seat in seats)
    there = f"{dim(round(max(room, 0.0), 3))} {MM} of room round the {name}"
    words = f"{there}; the compound fills up to {resting(dim(gap.gap_high), rests)} {MM}"
    checks = [judged("joint-gap", room <= gap.gap_high + 1e-6, words, line)]
    size, long = seats[0].shaft, sum(seat.length for seat in seats)
    joint, working = worked(bonded_joint, size, long, gap.shear_low or 0.0)
    note = "the maker's figure for clean steel; take half, and none where the seat was oiled when it was pressed"
    facts = [
        fact("bond_force", "The compound carries along it", joint.force, "N", "force", [working], note=note),
        fact("bond_torque", "and in torque", joint.torque, "N*m", "torque", [working]),
    ]
    return Plan(f"Secure the {name}: wick retaining compound into its seat", checks=checks, facts=facts,
                feature=f"retainer of {name}")  # fmt: skip


def _across(station: Station, said: Said, way: Securing, name: str, seats: Sequence[Seat]) -> Plan:
    """A pin or a screw across the joint: through the wall, and through or on the piece."""
    size, long, line = said.length("size"), said.length("long"), said.place.line
    mouths = read_mouths(station, said, across=True)
    metal = station.material_of(said.get("material", "silver steel"), said.where("material"))
    called, taken, placed = f"{way} of {name}", list[str](), list[list[Part]]()
    for mouth in mouths.all:
        solid = station.piece.kernel.cylinder(size / 2, 0.0, long, station.operation).moved(mouth.frame)
        taken.append(station.free_name(called, taken))
        placed.append([Part(taken[-1], solid, metal.name, metal.density * 1e-6)])
    how, body = way.row.how, station.piece.bodies[name].solid
    found = seat_all(station, how, called, mouths, placed, said.place)
    met = min(body.gap(parts[0].solid, FAR) for parts in placed)
    off = f"{dim(round(met, 2))} {MM}"
    words = f"the {way} reaches the {name}" if met < CLOSE else f"the {way} ends {off} from the {name}"
    remedy = "make it longer, or set it where the joint is"
    checks = [*found.checks, judged("secured", met < CLOSE, words, line, remedy=remedy)]
    if not any(seat.wall != name for seat in found.sits.seats) and how.row.threaded:
        words = f"no tapped hole is there for the {way}"
        checks.append(judged("overlap", False, words, line, remedy="drill and tap it first"))
    facts = [*found.facts]
    bore = seats[0].shaft
    if way is Securing.GRUB_SCREW:
        force, working = worked(grub_screw_holding, size, min(2, mouths.count))
        note = "at which it slips; divide by 1.5 to 2 for a steady load, by 4 to 8 for a varying one"
        facts.append(fact("screw_force", "The screws hold along it", force, "N", "force", [working], note=note))
        facts.append(fact("screw_torque", "and in torque", force * bore / 2000, "N*m", "torque"))
    elif metal.yield_strength and size < bore:
        per, working = worked(cross_pin_shear, 1.0, bore, size)
        torque = metal.yield_strength / 2 / per
        note = "where the pin yields in shear, at half of its yield in tension (Tresca)"
        facts.append(fact("pin_torque", "The pin carries in torque", torque, "N*m", "torque", [working], note=note))
    middle = mouths.across or 0.0
    return Plan(
        f"Secure the {name} with a {way} {dia(size)} × {dim(long)}{mouths.words}",
        join=Join(how, called, tuple(part for parts in placed for part in parts), mouths.all[0].way, found.sits),
        checks=checks, facts=facts, tables=found.tables, feature=called,
        sketch=Sketch(middle - size / 2, middle + size / 2, size, angles=mouths.angles, view="across"),
    )  # fmt: skip
