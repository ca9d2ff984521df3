"""What do the joining verbs add? Another piece, a pin, a joint: bodies that become part of the work."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from methodsheets.geometry import Frame
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Fact
from methodsheets.trade.joining.brazing import bonded_joint, joint_gap
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.joint import Joint, JointRow
from methodsheets.workpiece import Seat, Workpiece

from .facts import fact, looked_up, told, worked
from .mouths import AT_ANGLE, PLACE_CLAUSES, Mouth, Mouths, read_mouths
from .plan import Join, Part, Plan, Sketch
from .say import MM, both, dia, dim, number, resting
from .seating import CLOSE, seat_all
from .station import Station
from .verb import ANY, verb
from .words import Clause, Said

PIECE = Clause("", "text", "name of a piece of this method, or of another method", True)
DEPTH = Clause("at", "length", "depth of its outer end from the face that looks at you", or_angle=AT_ANGLE)
POSE = (
    Clause(
        "end", "text", "end of the other piece that looks at you: A or B; of a block B is its upper side", apart=True
    ),
    Clause("turned", "angle", "angle of its 0° mark from ours", apart=True),
    Clause("offset", "length", "its own axis that comes to lie on ours, off its main axis", apart=True),
    Clause("offset at", "angle", "direction of that offset", apart=True),
)
TIME = Clause("for", "minutes", "how long it takes", changes=(Change.TIME,))

HOW: Mapping[str, Joint] = MappingProxyType({
    "press in": Joint.PRESSED, "press on": Joint.PRESSED, "shrink on": Joint.SHRUNK, "shrink in": Joint.SHRUNK,
    "slide in": Joint.LOOSE, "slide on": Joint.LOOSE, "silver-braze": Joint.BRAZED, "braze": Joint.BRAZED,
    "weld": Joint.WELDED, "retain": Joint.RETAINED, "screw in": Joint.SCREWED, "screw on": Joint.SCREWED,
    "soft-solder": Joint.SOFT_SOLDERED, "glue": Joint.GLUED,
})  # fmt: skip


@verb(*HOW, frame=ANY, family="joining", first=PIECE, clauses=[DEPTH, *POSE, *PLACE_CLAUSES, TIME])
def join(station: Station, said: Said) -> Plan:
    """Join another piece to the work, or several equal ones: press, shrink, slide, braze, weld, retain, screw."""
    how, name = HOW[station.verb], str(said.get(""))
    other = station.other_piece(name, said)
    mouths = read_mouths(station, said, bodies=len(other.bodies))
    laid = _from_corner(station, said, other)
    over = -other.ends.length if laid and not station.verb.endswith(" in") else 0.0
    deep = 0.0 if mouths.across is not None else said.get("at", over)
    parts = _placed(station, said, name, other, mouths, deep, corner=laid)
    row, preposition = how.row, "in" if station.verb.endswith("in") else "on"
    words = f"{row.sentence} the {name} {preposition}" if mouths.count == 1 else (
        f"{row.sentence} {mouths.count} of the {name} {preposition}"
    )  # fmt: skip
    words += mouths.words + (_deep(deep) if "at" in said else "")
    return _plan(station, said, how, name, mouths, parts, words, deep)


def _deep(deep: float) -> str:
    """Where its outer end comes to stand."""
    return f", its face {dim(abs(deep))} {MM} proud of ours" if deep < 0 else f", its face {dim(deep)} from ours"


def _from_corner(station: Station, said: Said, other: Workpiece) -> bool:
    """Whether a block goes on the face of a block: it lies as it is, and its own corner is what is placed.

    A block is told from its corner, a turned piece from its axis, so no metal of a block lies left of or in front of
    where its sizes begin.
    """
    low, _ = other.state.bounds
    return station.pose is not None and "from face" not in said and float(min(low[0], low[1])) >= -CLOSE


def _placed(
    station: Station, said: Said, name: str, other: Workpiece, mouths: Mouths, deep: float, *, corner: bool
) -> list[list[Part]]:
    """The bodies of the piece at every place, each with its own metal and its own lines.

    Parameters:
        corner: whether a place is that of its front left corner as it lies, and not of its axis
    """
    shift, offset = said.get("offset", 0.0), (0.0, 0.0)
    if shift:
        a = math.radians(said.get("offset at", 0.0))
        offset = (shift * math.cos(a), shift * math.sin(a))
    usual = "B" if corner else station.turning.out if station.holding and mouths.across is None else "A"
    out = str(said.get("end", usual)).upper()[:1]
    if out not in ("A", "B"):
        words, rule = f"no such end (got `{said.get('end')}`)", "a piece has two ends, A and B"
        raise MethodError(said.where("end"), words, rule, "write `end B`", code="wrong-value")
    taken: list[str] = []
    found = []
    for mouth in mouths.all:
        frame = mouth.seat(other.ends, "B" if out == "B" else "A", deep, said.get("turned", 0.0), offset)
        if corner and not shift:
            frame = _cornered(mouth, frame, other)
        own, parts = station.free_name(name, taken), list[Part]()
        for body, metal in other.bodies.items():
            called = own if len(other.bodies) == 1 or body == other.name else station.free_name(f"{own}, {body}", taken)
            taken.append(called)
            parts.append(Part(called, metal.solid.moved(frame), metal.material, metal.density, place=frame))
        parts[0] = replace(parts[0], marks=tuple(mark.moved(frame) for mark in other.marks))
        found.append(parts)
    return found


def _cornered(mouth: Mouth, frame: Frame, other: Workpiece) -> Frame:
    """The same, moved until the front left corner of the piece, as it lies turned or flipped, is at the place."""
    bounds = [body.solid.moved(mouth.frame.inverse().compose(frame)).bounds for body in other.bodies.values()]
    left, back = min(float(low[0]) for low, _ in bounds), max(float(high[1]) for _, high in bounds)
    return mouth.frame.compose(Frame.shifted((-left, -back, 0.0))).compose(mouth.frame.inverse()).compose(frame)


def _plan(
    station: Station, said: Said, how: Joint, name: str, mouths: Mouths, placed: list[list[Part]], words: str,
    deep: float,
) -> Plan:  # fmt: skip
    """The checks and the sheet of pieces that stand in their places."""
    row: JointRow = how.row
    seating = seat_all(station, how, name, mouths, placed, said.place)
    every = tuple(part for parts in placed for part in parts)
    first = mouths.all[0]
    made = Join(
        how=how,
        name=name,
        parts=every,
        way=first.way,
        sits=seating.sits,
        count=mouths.count,
        shown=_alike(mouths, placed),
    )
    return Plan(
        words, must_cut=False, join=made, checks=seating.checks,
        facts=[*seating.facts, *_bond(how, seating.sits.seats), *_cure(row)],
        tables=seating.tables, cautions=[*row.cautions], handling=1.0,
        by_hand=said.get("for", row.minutes * mouths.count),
        sketch=_sketch(mouths, first, placed[0], deep), feature=name, tool_words=row.tool,
    )  # fmt: skip


def _cure(row: JointRow) -> list[Fact]:
    """How long the joint sets, where it does not hold at once."""
    return [told("cure", "Leave it to set", row.cure)] if row.cure else []


def _bond(how: Joint, seats: Sequence[Seat]) -> list[Fact]:
    """What the filler carries where the table has a figure to rely on, and why it is not known where it has none."""
    if not how.row.gap:
        return []
    (gap, rests), label = looked_up(joint_gap, how.row.gap), "The joint carries along it"
    if gap.shear_low is None or not seats:
        return [told("bond_force", label, f"not known: {gap.note}")]
    long = sum(seat.length for seat in seats)
    joint, working = worked(bonded_joint, seats[0].shaft, long, gap.shear_low)
    note = f"{resting(both(gap.shear_low, 'stress'), rests)} of shear, the low figure; {gap.note}"
    return [fact("bond_force", label, joint.force, "N", "force", [working], note=note)]


def _alike(mouths: Mouths, placed: list[list[Part]]) -> int:
    """How many bodies go in the same way as the first; 0 where all of them do."""
    into = mouths.all[0].way.into
    same = [m for m in mouths.all if math.dist(m.way.into, into) < 1e-9]
    return 0 if len(same) == mouths.count else len(placed[0])


def _sketch(mouths: Mouths, first: Mouth, parts: list[Part], deep: float) -> Sketch:
    """What the drawing is told of the (first) piece."""
    boxes = [part.solid.moved(first.frame.inverse()).bounds for part in parts]
    low, high = (min(b[0].tolist() for b in boxes), max(b[1].tolist() for b in boxes))
    if mouths.across is not None:
        half = max(high[0] - low[0], high[1] - low[1]) / 2
        return Sketch(mouths.across - half, mouths.across + half, 2 * half, angles=mouths.angles, view="across")
    return Sketch(deep, deep + high[2] - low[2], angles=mouths.angles, radius=mouths.radius, cut_words=number(deep))


@verb(
    "pin",
    frame=ANY,
    family="joining",
    first=Clause("", "length", "diameter of the pin", True),
    clauses=[
        Clause("long", "length", "length of the pin", True),
        DEPTH,
        *PLACE_CLAUSES,
        Clause("material", "text", "what the pin is made of", apart=True),
        Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
        TIME,
    ],
)
def pin(station: Station, said: Said) -> Plan:
    """Drive a pin, or several, into holes of its size: across turned work (`from face`), or square into a face."""
    size, long = said.length(""), said.length("long")
    if size <= 0 or long <= 0:
        words, rule = "a pin has a diameter and a length", "both more than nothing"
        raise MethodError(said.place, words, rule, "check the sizes", code="wrong-value")
    beside = any(said.has(word) for word in ("on radius", "on circle", "places"))
    mouths = read_mouths(station, said, across=not beside)
    deep = 0.0 if mouths.across is not None else said.get("at", 0.0)
    metal = station.material_of(said.get("material", "silver steel"), said.where("material"))
    name, taken, placed = str(said.get("called", "pin")), list[str](), list[list[Part]]()
    for mouth in mouths.all:
        solid = station.piece.kernel.cylinder(size / 2, deep, deep + long, station.operation).moved(mouth.frame)
        taken.append(station.free_name(name, taken))
        placed.append([Part(taken[-1], solid, metal.name, metal.density * 1e-6)])
    count = "the pin" if mouths.count == 1 else f"{mouths.count} pins"
    place = mouths.words + (_deep(deep) if deep else "")
    words = f"Drive in {count} {dia(size)} × {dim(long)}{place}"
    return replace(_plan(station, said, Joint.PINNED, name, mouths, placed, words, deep), handling=0.5)
