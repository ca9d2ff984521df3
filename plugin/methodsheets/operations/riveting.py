"""How are plates riveted: which rivet, how much is left for its head, does it sit, what does it carry?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from methodsheets.geometry import Outline, Solid
from methodsheets.sheet.model import Check, Fact
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.joining.rivets import MOST_GRIP, Rivet, rivet_strength
from methodsheets.trade.joining.rivets import rivet as rivet_of
from methodsheets.trade.metal.materials import material
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.joint import Joint
from methodsheets.vocabulary.rivet import SPELLED, RivetHead
from methodsheets.workpiece.seats import Round, rounds, wall_round

from .facts import fact, judged, told, worked
from .holes import positive_size
from .joining import TIME
from .mouths import AT_ANGLE, PLACE_CLAUSES, Mouth, read_mouths
from .plan import Join, Part, Plan, Sketch
from .say import MM, dia, dim, number
from .seating import CLOSE, Seating, seat_all
from .station import Station
from .verb import ANY, verb
from .words import Clause, Said

FAR = 300.0
"""mm to both sides of the mouth in which the plates are looked for."""
ROOMY = 0.1
"""Share of its diameter by which a hole may be larger than its rivet, 0.2 mm at least (common practice)."""
EDGE, EDGE_BEST = 1.5, 2.0
"""Diameters from the middle of a rivet to an edge: at least, and as is usual (common practice)."""
LIES, SUNK = 0.9, 0.05
"""Share of the ring under a head that must be metal; share of a sunk head that may still be metal."""
SNAP_TOOL = 5.0
"""Diameters of room above a head for the snap and the hammer (common practice)."""
OVER, UNDER = 1.25, 0.9
"""Share of what is wanted for the head that the end of a rivet may stand out."""


@dataclass(frozen=True, eq=False)
class _Plate:
    """One of the pieces that a rivet holds, at its mouth."""

    name: str
    hole: Round
    low: float
    """mm below the mouth at which its metal begins round the hole, and ends."""
    high: float
    aside: float
    solid: Solid
    metal: str


@dataclass(frozen=True, eq=False)
class _Grip:
    """What one rivet goes through; lengths below its mouth, mm."""

    mouth: Mouth
    plates: tuple[_Plate, ...]
    hole: float
    low: float = 0.0
    high: float = 0.0

    @property
    def length(self) -> float:
        """Thickness of what is held."""
        return self.high - self.low

    @property
    def gap(self) -> float:
        """Air between two plates."""
        ends = sorted((plate.low, plate.high) for plate in self.plates)
        return max((b[0] - a[1] for a, b in pairwise(ends)), default=0.0)


HEAD = Clause("head", "text", "head that it has: snap, countersunk or pan; snap without it", choices=SPELLED)
TAIL = Clause("tail", "text", "head that is made at its end; the same as `head` without it", choices=SPELLED)


@verb(
    "rivet",
    frame=ANY,
    family="joining",
    first=Clause("", "length", "diameter of the rivet", True),
    clauses=[
        HEAD,
        TAIL,
        Clause("long", "length", "length of the rivet as it is bought or cut", changes=(Change.WORDS, Change.CHECKS)),
        Clause("at", "length", "an angle: where the rivets are", or_angle=AT_ANGLE),
        *PLACE_CLAUSES,
        Clause("material", "text", "what the rivet is made of; mild steel without it", apart=True),
        Clause("called", "text", "name of the rivets", changes=(Change.NAME,)),
        TIME,
    ],
)
def rivet(station: Station, said: Said) -> Plan:
    """Rivet pieces together that lie on each other: rivets put through their holes and closed."""
    size, line, how = positive_size(said), said.place.line, Joint.RIVETED
    head = said.get("head", RivetHead.SNAP)
    tail = said.get("tail", head)
    mouths = read_mouths(station, said)
    metal = station.material_of(said.get("material", "EN3B"), said.where("material"))
    grips = [_grip(station, mouth, size, head, tail) for mouth in mouths.all]
    first = grips[0]
    found, working = worked(rivet_of, size, first.length, str(tail), first.hole if first.hole > size else 0.0)
    own, _ = worked(rivet_of, size, first.length, str(head), 0.0)
    name, taken, placed = str(said.get("called", "rivet")), list[str](), list[list[Part]]()
    for grip in grips:
        solid = station.piece.kernel.revolve(_closed(grip, own, found, head, tail), station.operation)
        taken.append(station.free_name(name, taken))
        placed.append([Part(taken[-1], solid.moved(grip.mouth.frame), metal.name, metal.density * 1e-6)])
    seating = seat_all(station, how, name, mouths, placed, said.place)
    checks = [_holds(first, line), *_sizes(size, grips, line)]
    for grip in grips:
        checks += _heads(station, grip, own, found, head, tail, line)
    checks += _edges(station, seating, size, line)
    if "long" in said:
        checks.append(_long_enough(said.length("long"), found, line))
    count = f"{mouths.count} rivets" if mouths.count > 1 else "a rivet"
    closed = f", closed {_head_words(tail)}" if tail is not head else ""
    long = f" × {dim(said.get('long'))}" if "long" in said else ""
    words = f"Rivet with {count} {dia(size)}{long}, {_head_words(head)}{closed}{mouths.words}"
    loose = [_loose(station, grip, own, found, head).moved(grip.mouth.frame) for grip in grips]
    join = Join(how, name, tuple(part for parts in placed for part in parts), mouths.all[0].way, seating.sits,
                mouths.count, apart=tuple(loose))  # fmt: skip
    facts = [
        fact("grip", "Thickness that it holds", round(first.length, 3), "mm", "length"),
        fact("rivet_hole", "Usual hole", found.hole, "mm", "size", [working]),
        fact("rivet_allowance", "Leave for the head", round(found.allowance, 2), "mm", "size", [working],
             note=f"{number(round(found.allowance / size, 2))} diameters, which fill hole and head; file off the rest"),
        fact("rivet_length", "Rivet", round(found.length, 2), "mm", "size", [working], note=_under(head)),
        fact("rivet_head", "Head", round(found.head_diameter, 2), "mm", "size", [working]),
        *_strength(first, mouths.count, metal.yield_strength or 0.0),
    ]  # fmt: skip
    row = how.row
    return Plan(
        words, must_cut=False, join=join, checks=[*seating.checks, *checks], facts=[*facts, *seating.facts],
        tables=seating.tables, cautions=[*row.cautions], handling=1.0, tool_words=row.tool, feature=name,
        by_hand=said.get("for", row.minutes * mouths.count),
        sketch=Sketch(0.0, first.length, size, size=size, angles=mouths.angles, radius=mouths.radius,
                      view="across" if mouths.across is not None else ""),
    )  # fmt: skip


def _head_words(head: RivetHead) -> str:
    return "flush in countersinks" if head.sunk else f"{head} heads"


def _under(head: RivetHead) -> str:
    return "over all" if head.sunk else "under its head"


# ------------------------------------------------------------------------------------------------ what it goes through
def _grip(station: Station, mouth: Mouth, size: float, head: RivetHead, tail: RivetHead) -> _Grip:
    """The pieces that have a hole for the rivet at its mouth, and where their metal begins and ends there."""
    kernel, inverse = station.piece.kernel, mouth.frame.inverse()
    reach = max(rivet_of(size, 1.0, str(one)).head_diameter for one in (head, tail)) / 2
    probe = kernel.cylinder(reach, -FAR, FAR, station.operation).moved(mouth.frame)
    plates = []
    for name, body in station.piece.bodies.items():
        hole = _hole_for(mouth, size, rounds(body.solid))
        near = body.solid & probe
        if hole is None or near.empty:
            continue
        low, high = (float(b[2]) for b in near.moved(inverse).bounds)
        aside = hole.axis.distance(mouth.frame.origin.tolist())
        plates.append(
            _Plate(name=name, hole=hole, low=low, high=high, aside=aside, solid=body.solid, metal=body.material)
        )
    holes = [plate.hole.diameter for plate in plates if plate.hole.diameter >= size - CLOSE]
    low = min((plate.low for plate in plates), default=0.0)
    high = max((plate.high for plate in plates), default=size)
    return _Grip(mouth, tuple(plates), max(size, min(holes, default=size)), low, high)


def _hole_for(mouth: Mouth, size: float, found: Sequence[Round]) -> Round | None:
    """The hole that stands nearest to the mouth's own axis; None where there is none of about that size."""
    way, spot = mouth.frame.rotation[:, 2].tolist(), mouth.frame.origin.tolist()
    near = [one for one in found if one.hole and one.axis.parallel(way) and one.axis.distance(spot) <= size / 2
            and abs(one.diameter - size) <= max(0.3 * size, 0.3)]  # fmt: skip
    return min(near, key=lambda one: one.axis.distance(spot), default=None)


# ------------------------------------------------------------------------------------------------ its shape
def _closed(grip: _Grip, own: Rivet, made: Rivet, head: RivetHead, tail: RivetHead) -> Outline:
    """A closed rivet: (radius, length below the mouth)."""
    shank = grip.hole / 2
    outline = _end(Outline((0.0, grip.low - own.head_height)), own, head, shank, grip.low, 1.0)
    return _end(outline, made, tail, shank, grip.high, -1.0)


def _end(outline: Outline, size: Rivet, head: RivetHead, shank: float, at: float, into: float) -> Outline:
    """One head, from the tip to the shank where it looks down (`into` +1), or from the shank to the tip."""
    wide, high = size.head_diameter / 2, size.head_height
    if head.sunk:
        points = [(0.0, at), (wide, at), (shank, at + into * (wide - shank))]
    elif head is RivetHead.PAN:
        points = [(0.0, at - into * high), (size.hole / 2, at - into * high), (wide, at), (shank, at)]
    else:
        ball = (wide * wide + high * high) / (2 * high)
        rim = math.degrees(math.atan2(high - ball, wide))
        centre = (0.0, at + into * (ball - high))
        if into > 0:
            return outline.arc(centre, ball, -90.0, rim).to((shank, at))
        return outline.to((shank, at)).to((wide, at)).arc(centre, ball, -rim, 90.0)
    for spot in points if into > 0 else points[::-1]:
        outline = outline.to(spot)
    return outline


def _loose(station: Station, grip: _Grip, own: Rivet, made: Rivet, head: RivetHead) -> Solid:
    """The rivet as it goes in: one head, a straight shank, and what stands out for the other head."""
    end = grip.high + made.allowance
    outline = _end(Outline((0.0, grip.low - own.head_height)), own, head, grip.hole / 2, grip.low, 1.0)
    return station.piece.kernel.revolve(outline.to((grip.hole / 2, end)).to((0.0, end)), station.operation)


# ------------------------------------------------------------------------------------------------ the checks
def _holds(grip: _Grip, line: int) -> Check:
    """At least two pieces, one upon the other."""
    names = [plate.name for plate in grip.plates]
    if len(names) < 2:
        words = f"only the {names[0]} has a hole for the rivet" if names else "no hole is there for the rivet"
        remedy = "lay the pieces together first (`slide on`), and drill them together"
        return judged("rivet", False, words, line, remedy=remedy)
    words = f"the rivet holds {' and '.join(names)}, {dim(round(grip.length, 2))} {MM} together"
    if grip.gap > CLOSE:
        words = f"{dim(round(grip.gap, 2))} {MM} of air lie between {' and '.join(names)}"
        return judged("rivet", False, words, line, remedy="lay them close, or put a distance piece between")
    return judged("rivet", True, words, line)


def _sizes(size: float, grips: Sequence[_Grip], line: int) -> list[Check]:
    """Hole and grip suit the rivet."""
    holes = [plate for grip in grips for plate in grip.plates]
    checks = []
    worst = max(holes, key=lambda plate: abs(plate.hole.diameter - size * 1.03), default=None)
    if worst is not None:
        room = worst.hole.diameter - size
        words = f"hole {dia(round(worst.hole.diameter, 3))} in the {worst.name} for a rivet {dia(size)}"
        checks.append(judged("rivet-hole", CLOSE < room <= max(0.2, ROOMY * size) + 1e-6, words, line))
    askew = max(holes, key=lambda plate: plate.aside, default=None)
    if askew is not None and askew.aside > max(0.0, askew.hole.diameter - size) / 2 + CLOSE:
        words = f"the hole in the {askew.name} lies {dim(round(askew.aside, 2))} {MM} beside the rivet"
        checks.append(judged("in-line", False, words, line))
    longest = max((grip.length for grip in grips if grip.plates), default=0.0)
    words = f"{dim(round(longest, 2))} {MM} of grip are {number(round(longest / size, 1))} diameters"
    checks.append(judged("rivet-grip", longest <= MOST_GRIP * size, words, line, tight=longest > 4 * size))
    return checks


def _heads(
    station: Station, grip: _Grip, own: Rivet, made: Rivet, head: RivetHead, tail: RivetHead, line: int
) -> list[Check]:
    """Each head lies on its plate, or in its countersink, with room for the snap over it."""
    if not grip.plates:
        return []
    metal = station.piece.state.solid
    ends = ((own, head, grip.low, 1.0), (made, tail, grip.high, -1.0))
    found = [_head(station, grip, metal, *end, line) for end in ends]
    return [check for check in found if check is not None]


def _head(
    station: Station, grip: _Grip, metal: Solid, size: Rivet, head: RivetHead, at: float, into: float, line: int
) -> Check | None:
    kernel, wide, shank = station.piece.kernel, size.head_diameter / 2, grip.hole / 2
    outer = max(shank, max(plate.hole.diameter for plate in grip.plates) / 2) + CLOSE
    side = "the head" if into > 0 else "the end"

    def tube(radius: float, hole: float, start: float, end: float) -> Solid:
        low, high = sorted((at + into * start, at + into * end))
        return kernel.revolve(
            Outline((hole, low), (radius, low), (radius, high), (hole, high)), station.operation
        ).moved(grip.mouth.frame)  # fmt: skip

    if head.sunk:
        ring = kernel.revolve(Outline((shank, at), (wide, at), (shank, at + into * (wide - shank))), station.operation)
        ring = ring.moved(grip.mouth.frame)
        if (ring & metal).volume > SUNK * ring.volume:
            words = f"no countersink {dia(round(2 * wide, 2))} of 90° is there for {side}"
            remedy = f"countersink to {number(round(2 * wide, 1))} mm"
            return judged("rivet-head", False, words, line, remedy=remedy)
    else:
        ring = tube(wide, outer, 0.0, 0.1)
        if (ring & metal).volume < LIES * ring.volume:
            words = f"{side} {dia(round(2 * wide, 2))} does not lie on metal all round"
            remedy = "move it from the edge, mill a flat, or take a countersunk one"
            return judged("rivet-head", False, words, line, remedy=remedy)
    above = tube(wide, 0.0, -CLOSE, -size.head_height - SNAP_TOOL * 2 * shank)
    if (above & metal).volume > 0.01 * above.volume:
        words = f"no room over {side} for the snap: {dia(round(2 * wide, 1))} for {dim(round(10 * shank, 1))} {MM}"
        remedy = "put the rivet farther from the wall, or close it from the other side"
        return judged("rivet-head", False, words, line, remedy=remedy)
    return None


def _edges(station: Station, seating: Seating, size: float, line: int) -> list[Check]:
    """How far the nearest edge, or the next hole, is from the middle of a rivet."""
    bodies = station.piece.bodies
    near = [(wall_round(bodies[seat.wall].solid, seat), seat.wall) for seat in seating.sits.seats
            if seat.wall in bodies]  # fmt: skip
    if not near:
        return []
    room, wall = min(near)
    words = f"{dim(round(room, 2))} {MM} from the middle of a rivet to the nearest edge of the {wall}"
    remedy = f"keep {number(round(EDGE_BEST * size, 1))} mm from every edge, and three diameters from rivet to rivet"
    holds = room >= EDGE * size - CLOSE
    return [judged("rivet-edge", holds, words, line, tight=room < EDGE_BEST * size - CLOSE, remedy=remedy)]


def _long_enough(long: float, found: Rivet, line: int) -> Check:
    stands = long - (found.length - found.allowance)
    words = f"{dim(round(stands, 2))} {MM} stand out for the head; {dim(round(found.allowance, 2))} are wanted"
    holds = UNDER * found.allowance <= stands <= OVER * found.allowance
    remedy = f"take one of {number(math.ceil(found.length))} mm and cut it to {number(round(found.length, 1))}"
    return judged("rivet-length", holds, words, line, remedy=remedy)


def _strength(grip: _Grip, count: int, own: float) -> list[Fact]:
    """What the joint carries across its rivets."""
    label = "Across the rivets it holds"
    yields = [_yield(plate.metal) for plate in grip.plates]
    if len(yields) < 2 or not own or not all(yields):
        unsaid = [plate.metal for plate, known in zip(grip.plates, yields, strict=True) if not known]
        words = f"not known: no yield strength of {unsaid[0] if unsaid else 'the rivet'} in the table"
        return [told("rivet_force", label, words)]
    thin = min(grip.plates, key=lambda plate: plate.high - plate.low)
    found, working = worked(
        rivet_strength, grip.hole, float(count), float(len(yields) - 1), thin.high - thin.low, own, min(yields)
    )  # fmt: skip
    where = "the rivets shear first" if found.shear <= found.bearing else f"the {thin.name} gives at its holes first"
    note = f"{where}; divide by 1.5 to 2 for a steady load"
    return [fact("rivet_force", label, found.force, "N", "force", [working], note=note)]


def _yield(name: str) -> float:
    """MPa; 0 where the table does not say it."""
    try:
        return material(name).yield_strength or 0.0
    except NotInTable:
        return 0.0
