"""How is the work gripped where the author does not say: on which size, and how long?

The shortest set-up that a beginner writes, `hold: three-jaw chuck, end A out`, is worked out and drawn like any other:
the work is taken to be gripped at the end that is not out, on the size that is there, over the whole jaw or what is
there of it, but no farther than the cuts of the set-up leave room. What was assumed is shown as assumed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from methodsheets.geometry import GeometryError
from methodsheets.method.gripping import GRIPS_A_SIZE
from methodsheets.method.job import Job
from methodsheets.method.piece import Piece
from methodsheets.operations.by_faces import assuming
from methodsheets.operations.plan import Plan
from methodsheets.operations.setups import Held
from methodsheets.operations.station import Station
from methodsheets.operations.verb import BENCH
from methodsheets.operations.vocabulary import find_verb, verb_in_frame
from methodsheets.operations.words import Said, read_clauses
from methodsheets.reading.method_file import Block
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.holding import Grips
from methodsheets.workpiece import Flat, Holding, State, flats, round_surfaces
from methodsheets.workshop.holding import Holding as Holder

AT_THE_END = 3.0
"""mm at the far end, where the size is looked for that a holder takes hold of."""
MOST_THERE = 0.3
"""Share of a round surface that must be there at the end to be taken for the one that is gripped."""
ROOM_BESIDE = 3.0
"""mm between the last cut and a chuck, where the grip is assumed: a tool is wider than its edge (common practice)."""
ROOM = 1.0
"""mm between the last cut and the jaws of a vice, where the grip is assumed (common practice)."""
SHORT, SHORTEST = 0.35, 8.0
"""Grip over diameter, and mm, below which no grip is assumed: shorter ones do not hold (from memory)."""
FOOT = 0.25
"""Share of the height of a block that stays between the jaws of a vice at least (common practice)."""
CARRIER = 10.0
"""mm of the work's end that a carrier takes (usual size, from memory)."""
JAW = 20.0
"""mm, or a quarter of the chuck's body: length of a jaw where the workshop does not say (from memory)."""
WHOLE, THERE, LEAST, LEFT = "the whole jaw", "all that is there", "the least that holds", "what the cuts leave"
FAR_END = "what is there at that end"

Room = Callable[[Held], float]
"""How far from the face (or the upper face) the cuts of the set-up go, in mm, for work held so."""


def hold_as_said(job: Job, said: Said, piece: Piece, hold_with: Callable[[Said], Held], later: Iterable[Block]) -> Held:
    """The holding of a set-up line, with size and grip assumed where it does not say them.

    Parameters:
        hold_with: reads the clauses of the line and finds holder and surface
        later: the operations of the set-up, which need room in front of the holder
    """
    held = hold_with(said)
    holder = held.holder
    if holder is None or (held.grip and not _size_unsaid(held, holder)):
        return held
    blocks = tuple(later)

    def room(as_held: Held) -> float:
        return max((end for end in _ends(job, as_held, piece, blocks)), default=0.0)

    if held.pose is not None:
        return _in_a_vice(held, holder, said, hold_with, room)
    if held.holding is None:
        return held
    return _about_axis(held, holder, said, piece.work.state, hold_with, room)


def _size_unsaid(held: Held, holder: Holder) -> bool:
    """Whether the author says how long the work is gripped, and not on which size."""
    return held.holding is not None and not held.holding.diameter and holder.sort.grips in GRIPS_A_SIZE


# ------------------------------------------------------------------------------------------------ about an axis
def _about_axis(
    held: Held, holder: Holder, said: Said, state: State, hold_with: Callable[[Said], Held], room: Room
) -> Held:
    holding = held.holding
    assert holding is not None
    if holder.sort.stands and "grip" not in said:
        return held
    size = float(said.get("on", 0.0)) or _size_there(state, holding)
    if not size:
        return held
    reasons = {} if "on" in said else {"on": FAR_END}
    if "stick-out" in said or "grip" in said:
        found = hold_with(assuming(said, {"on": size}))
        return replace(found, assumed=reasons)
    begins, there = _length_there(state, holding, size)
    there = there or state.ends.length  # a size that is not there is told by the check of the grip
    whole, reason = _jaw(held, holder, there)
    grip = min(whole, there)
    reason = reason if whole <= there else THERE
    probe = hold_with(assuming(said, {"on": size, "grip": grip}))
    if not holding.inside and grip > 0 and holder.sort.grips is not Grips.TABLE:
        least = min(grip, SHORT * size, SHORTEST)
        left = begins - room(probe) - ROOM_BESIDE
        if left < grip:
            grip, reason = (max(least, left), LEFT if left >= least else LEAST)
            probe = hold_with(assuming(said, {"on": size, "grip": grip}))
    return replace(probe, assumed={**reasons, "grip": reason})


def _jaw(held: Held, holder: Holder, there: float) -> tuple[float, str]:
    """(longest grip of the holder in mm, in words)."""
    if holder.sort.grips is Grips.CENTRES:
        return holder.jaw_length or CARRIER, "the width of a carrier"
    if holder.sort.grips is Grips.TABLE and not holder.jaw_length:
        return there, "the clamps lie on its shoulder, or on its face"
    if holder.sort.grips is Grips.INSIDE or holder.sort.lies:
        return there, THERE
    if holder.jaw_length or holder.jaw_steps:
        return holder.jaw_length or holder.jaw_steps, WHOLE
    return max(JAW, holder.body_diameter / 4), "a jaw of the usual length"


def _size_there(state: State, holding: Holding) -> float:
    """Diameter, or size across flats, at the end that is not out; 0 where it is neither."""
    length = state.ends.length
    start = 0.0 if holding.inside else max(0.0, length - max(AT_THE_END, 0.1 * length))
    rounds = [d for d, share in round_surfaces(state, holding, start, length) if share > MOST_THERE]
    if rounds:
        return rounds[0]
    if holding.inside:
        return 0.0
    there = flats(state, holding.frame(state.ends), start, length)
    widest = max(
        (f for f in there if any(_opposite(f, g) for g in there)),
        key=lambda f: (round(f.area, 3), f.distance),
        default=None,
    )
    return round(2 * widest.distance, 6) if widest else 0.0


def _opposite(one: Flat, other: Flat) -> bool:
    """Whether two flats are the two sides of one size across the axis."""
    return abs(abs(one.angle - other.angle) % 360.0 - 180.0) < 0.01 and abs(one.distance - other.distance) < 1e-4


def _length_there(state: State, holding: Holding, size: float) -> tuple[float, float]:
    """(from, over): where the gripped size ends at the far end, and how far it goes without other metal in its way."""
    frame, length = holding.frame(state.ends), state.ends.length
    shape = state.profile(frame, 0.0, length)
    reach, begin = 0.0, None
    round_there = any(abs(d - size) < 1e-4 for d, _ in round_surfaces(state, holding, 0.0, length))
    widest = size / 2 if round_there else state.swing(frame, length - 1.0, length)
    for s, outer, inner in zip(shape.lengths[::-1], shape.outer[::-1], shape.inner[::-1], strict=True):
        proud = inner < size / 2 - 0.005 if holding.inside else outer > widest + 0.005
        if proud:
            break
        there = inner <= size / 2 + 0.005 if holding.inside else outer >= size / 2 - 0.005
        begin = float(s) if begin is None and there else begin
        reach = 0.0 if begin is None else begin - float(s)
    return (length if begin is None else begin), max(0.0, min(reach, length))


# ------------------------------------------------------------------------------------------------ in a vice
def _in_a_vice(held: Held, holder: Holder, said: Said, hold_with: Callable[[Said], Held], room: Room) -> Held:
    if not (holder.sort.on_parallels or holder.sort.set_by_dial) or held.pose is None:
        return held
    height = held.pose.size[2]
    jaws = holder.jaw_height if holder.sort.on_parallels else holder.jaw_length
    whole = min(jaws or height, height)
    reason = WHOLE if whole < height else THERE
    least = min(whole, FOOT * height)
    left = height - room(held) - ROOM
    grip = whole
    if left < whole:
        grip, reason = max(least, left), LEFT if left >= least else LEAST
    return replace(hold_with(assuming(said, {"grip": round(grip, 3)})), assumed={"grip": reason})


# ------------------------------------------------------------------------------------------------ what the cuts need
def _ends(job: Job, held: Held, piece: Piece, blocks: Iterable[Block]) -> Iterator[float]:
    """Where each cut of the set-up ends, from the face as it is now; what cannot be planned yet says nothing."""
    faced = 0.0
    for block in blocks:
        plan = _planned(job, held, piece, block)
        if plan is None:
            continue
        if held.pose is not None:
            yield faced + _down_an_edge(held, plan)
        elif _from_outside(plan):
            yield faced + min(plan.sketch.end, piece.work.ends.length)
        faced += plan.face_moves


def _from_outside(plan: Plan) -> bool:
    """Whether the tool comes to the work where the holder stands."""
    if plan.sketch.view == "across":
        return bool(plan.cutters)
    row = plan.cut.process.row
    return not plan.inside and (row.from_outside or row.over_face)


def _planned(job: Job, held: Held, piece: Piece, block: Block) -> Plan | None:
    """An operation planned on the work as it stands at the beginning of the set-up; None where that does not go."""
    try:
        name, line = find_verb(block)
        station = Station(
            piece.work, job.workshop, held.machine, held.holder, held.holding, held.pose, held.stick_out,
            held.table, held.attitude, held.held_up,
            {other: one.work for other, one in job.pieces.items()}, operation="planned", verb=name,
        )  # fmt: skip
        meaning = verb_in_frame(name, station.frame, line)
        if meaning.frame == BENCH:
            return None
        return meaning.make(station, read_clauses(line, meaning.first, meaning.clauses, job.reader, name))
    except (MethodError, GeometryError, ValueError, ZeroDivisionError):
        return None  # it is told where the operation is carried out


def _down_an_edge(held: Held, plan: Plan) -> float:
    """How deep a cut goes that runs out over an edge towards a jaw; 0 for one that stays inside."""
    assert held.pose is not None
    box, width = plan.sketch.box, held.pose.size[1]
    return box[4] if box is not None and (box[1] <= 1e-6 or box[3] >= width - 1e-6) else 0.0
