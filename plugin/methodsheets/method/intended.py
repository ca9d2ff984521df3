"""What is the finished part meant to be, and is it what the method makes?

A `part` block lists features in the words of the verbs, as seen from the finished end A (or, for a block, with a face
up): `round` and `block` add metal, the verbs cut it away. Another method's part block, or its finished part, may
stand in for it (`intended: eccentric-one-piece`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from methodsheets.geometry import Axis, GeometryError, Outline, Solid, SolidKernel, faults
from methodsheets.geometry import Difference as Fault
from methodsheets.method.blame import laid_on, left_by
from methodsheets.method.checks.qualities import given
from methodsheets.method.job import DoneOperation, Intended, Job, Piece, Threaded
from methodsheets.method.part_features import ADDS, FINISH, read_finish
from methodsheets.operations import say
from methodsheets.operations.facts import judged, length_measure
from methodsheets.operations.plan import Plan
from methodsheets.operations.qualities import Given
from methodsheets.operations.say import MM, both, dia, diameter, dim, number
from methodsheets.operations.setups import face_name
from methodsheets.operations.station import Station
from methodsheets.operations.stock import block_sizes
from methodsheets.operations.vocabulary import verb_in_frame, verb_name, verb_names
from methodsheets.operations.words import Clause, Said, read_clauses
from methodsheets.reading.method_file import Block, Entry
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Check, Difference
from methodsheets.vocabulary.machine import MachineKind
from methodsheets.vocabulary.shape import PartKey, Shape
from methodsheets.workpiece import Ends, Holding, VicePose, Workpiece
from methodsheets.workpiece.bodies import Body
from methodsheets.workpiece.datum import End
from methodsheets.workpiece.state import State
from methodsheets.workshop.machines import Machine

LEAST = 0.005
"""mm: a difference thinner than this is the kernel's dust."""
Point = tuple[float, float, float]


def read_intended(job: Job) -> Intended | None:
    """The intended part of the method's own `part` block, or of the one that `intended` names; None where none says."""
    blocks = job.file.of_kind("part")
    named = job.file.front.intended
    if blocks and named is not None:
        job.problems.warning(
            named.place,
            f"the method says its part twice: here (got `{named.value}`) and in a `part` block",
            "a part is said once; the block counts",
            "take one of the two away",
            code="part-twice",
        )
    if blocks:
        return _from_blocks(job, blocks)
    if named is None:
        return None
    other = job.library(named.value)
    if other is None:
        job.problems.error(
            named.place,
            f"no such method (got `{named.value}`)",
            "`intended` names a method of this handbook",
            "check the name",
            code="unknown-method",
        )
        return None
    if other.live.intended:
        # Its lines are lines of another file: what is missing here points to the line that names it.
        found, line = other.live.intended, named.place.line
        threads = tuple(replace(one, line=line) for one in found.threads)
        asks = tuple(replace(one, line=line) for one in found.asks)
        return replace(found, source=named.value, lines=(), threads=threads, asks=asks, laid=None)
    if not other.live.main:
        return None
    main = other.live.pieces[other.live.main]
    piece = main.work
    block_work = any(s.held.pose for s in other.live.setups)
    solid = piece.state.solid
    low, _ = solid.bounds
    shift = tuple(-low) if block_work else (0.0, 0.0, -piece.ends.a)
    line = named.place.line
    threads = tuple(t for o in other.live.operations if (t := Threaded.of(o.plan, line)) is not None)
    asks = tuple(one.along(shift[2], line) for one, by in given(other.live, main) if by.piece is main)
    return Intended(solid.shifted(shift), [], block_work, named.value, threads=threads, asks=asks)


# ------------------------------------------------------------------------------------------------ the part block
class _Drawing:
    """A part being drawn from its features."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.work = Workpiece(job.kernel, "part")
        self.end: End = "A"
        self.up, self.towards = "", "front"
        self.block_work = False
        self.features: list[tuple[str, Solid]] = []
        self.lines: list[int] = []
        self.material = job.material
        self.threads: list[Threaded] = []
        self.asks: list[Given] = []

    def add(self, solid: Solid) -> None:
        """Add metal."""
        bodies = dict(self.work.bodies)
        grown = bodies["work"].solid + solid if "work" in bodies else solid
        bodies["work"] = Body(grown, self.material.name if self.material else "part", 0.00785)
        low, high = grown.bounds
        self.work.state = State(bodies, Ends(low[2], high[2]))


def _from_blocks(job: Job, blocks: tuple[Block, ...]) -> Intended | None:
    """The finished part; what stands behind `piece: pin` is the part of that piece, and kept with the job."""
    groups: dict[str, list[Entry]] = {"": []}
    name = ""
    for entry in (entry for block in blocks for entry in block.entries):
        if entry.key.value.lower().strip() == PartKey.PIECE:
            name = entry.text.value.strip()
        groups.setdefault(name, []).append(entry)
    main = _drawn(job, groups.pop(""))
    for name, entries in groups.items():
        found = _drawn(job, entries[1:])
        if found is not None:
            job.parts[name] = replace(found, line=entries[0].text.place.line)
    return main


def _drawn(job: Job, entries: Iterable[Entry]) -> Intended | None:
    drawing, wrong = _Drawing(job), False
    for entry in entries:
        try:
            _feature(drawing, entry)
            drawing.lines += [entry.key.place.line] * (len(drawing.features) - len(drawing.lines))
        except MethodError as error:
            job.problems.extend([error.problem])
            wrong = True
        except (GeometryError, ValueError) as error:
            job.problems.error(
                entry.key.place,
                f"the feature makes no solid: {error}",
                "its sizes must fit the part",
                "check the sizes",
                code="no-solid",
            )
            wrong = True
    if wrong or not drawing.work.bodies:
        return None
    return Intended(
        drawing.work.state.solid, drawing.features, drawing.block_work, "", tuple(drawing.lines),
        tuple(drawing.threads), asks=tuple(drawing.asks),
    )  # fmt: skip


def _feature(drawing: _Drawing, entry: Entry) -> None:
    key, line = " ".join(entry.key.value.lower().split()), entry.text
    if key == PartKey.END:
        drawing.end = _end(line)
    elif key == PartKey.UP:
        _face_up(drawing, line)
    elif key == PartKey.BLOCK:
        _block(drawing, line)
    elif key in ADDS:
        _about_axis(drawing, Shape(key), line)
    elif key == FINISH:
        length = drawing.work.ends.length if drawing.work.bodies else 0.0
        drawing.asks.append(read_finish(line, drawing.job.reader, length, end_b=drawing.end == "B"))
    elif verb_name(key):
        _cut(drawing, verb_name(key), line)
    else:
        raise MethodError(
            entry.key.place,
            f"unknown feature `{entry.key.value}`",
            "a part is made of round, cone, hexagon, square, block and of verbs that cut",
            did_you_mean(key, (*ADDS, *PartKey, *verb_names())),
            code="unknown-feature",
        )


def _end(line: Text) -> End:
    name = line.value.strip().upper()[:1]
    if name not in ("A", "B"):
        words, rule = f"no such end (got `{line.value}`)", "a turned part has two ends, A and B"
        raise MethodError(line.place, words, rule, "write `end: B`", code="wrong-value")
    return "A" if name == "A" else "B"


def _face_up(drawing: _Drawing, line: Text) -> None:
    said = read_clauses(
        line, Clause("", "text", "face that is up", True), (Clause("towards", "text"),), drawing.job.reader, "up"
    )
    drawing.up, drawing.towards = str(said.get("")).lower(), str(said.get("towards", "front")).lower()


def _block(drawing: _Drawing, line: Text) -> None:
    length, width, height = block_sizes(line, drawing.job.reader)
    drawing.block_work, drawing.up = True, drawing.up or "top"
    drawing.add(drawing.job.kernel.box((0, 0, 0), (length, width, height), "part"))


def _about_axis(drawing: _Drawing, key: Shape, line: Text) -> None:
    first, clauses = ADDS[key]
    said = read_clauses(line, first, clauses, drawing.job.reader, key)
    start = said.get("from", 0.0) if key is not Shape.CONE else said.get("starting", 0.0)
    end = start + said.length("over")
    a = -math.radians(said.get("at", 0.0))
    off = said.get("axis offset", 0.0)
    axis = Axis.upright(off * math.cos(a), off * math.sin(a))
    kernel = drawing.job.kernel
    if key is Shape.ROUND:
        radius, corner = said.length("") / 2, said.get("corner", 0.0)
        if said.get("only"):
            _only(drawing, radius, start, end, corner, axis)
            return
        drawing.add(kernel.cylinder(radius, start, end, "part", axis))
        drawing.features.append((diameter(2 * radius), _around(kernel, radius, start, end, corner, axis)))
    elif key is Shape.CONE:
        near, far = said.length("from") / 2, said.length("to") / 2
        drawing.add(kernel.cone(near, far, start, end, "part", axis))
    else:
        outline = Outline.regular(key.sides, said.length(""))
        drawing.add(kernel.prism(outline, start, end, "part"))


def _only(drawing: _Drawing, radius: float, start: float, end: float, corner: float, axis: Axis) -> None:
    """`only`: nothing but this diameter stands over the length; what stood there before is cut down."""
    ring = _around(drawing.job.kernel, radius, start, end, corner, axis)
    drawing.work.cut(ring, "part")
    drawing.features.append((diameter(2 * radius), ring))


def _around(kernel: SolidKernel, radius: float, start: float, end: float, corner: float, axis: Axis) -> Solid:
    """The space round a diameter that must be empty, its corner at the far end rounded."""
    big = 500.0
    outline = Outline((radius, start), (big, start), (big, end))
    outline = outline.arc((radius + corner, end - corner), corner, 90, 180) if corner else outline.to((radius, end))
    return kernel.revolve(outline, "part", axis)


PART_BENCH = Machine("drawing", MachineKind.BENCH, "drawing board")


def _cut(drawing: _Drawing, name: str, line: Text) -> None:
    if not drawing.work.bodies:
        raise MethodError(
            line.place,
            f"`{name}` has nothing to cut",
            "metal comes before what is cut from it",
            "start with `round` or `block`",
            code="missing-stock",
        )
    holding, pose = None, None
    if drawing.up:
        pose = VicePose.of(
            drawing.work.state.bounds, face_name(drawing.up, line.place), face_name(drawing.towards, line.place)
        )
    else:
        holding = Holding("drawing", "drawing", drawing.end)
    station = Station(
        drawing.work, drawing.job.workshop, PART_BENCH, None, holding, pose, 0.0, operation="part", verb=name
    )
    meaning = verb_in_frame(name, station.frame, line)
    said: Said = read_clauses(line, meaning.first, meaning.clauses, drawing.job.reader, name)
    plan: Plan = meaning.make(station, said)
    said.all_asked(name, meaning.all_clauses)
    if plan.cutters:
        cut = drawing.work.cut(plan.cutters, "part")
        if not cut.removes:
            raise MethodError(
                line.place,
                f"`{name}` cuts nothing off the part",
                "a feature meets the metal",
                "check its place",
                code="nothing-to-cut",
            )
        drawing.features.append((plan.feature or name, drawing.job.kernel.union(plan.cutters)))
    if plan.join is not None:
        drawing.add(plan.join.solid)
    if plan.marks:
        drawing.work.mark(plan.marks, "scribed", "part")
    drawing.asks += [replace(given, line=line.place.line) for given in plan.gives]
    thread = Threaded.of(plan, line.place.line)
    drawing.threads += [thread] if thread is not None else []


# ------------------------------------------------------------------------------------------------ compare
def prove(job: Job, intended: Intended) -> tuple[list[Check], list[Difference]]:
    """Whether the finished work is the intended part; every difference with place, size and thickness."""
    piece = job.pieces[job.main].work
    done = piece.state.without_filler
    done.table.adopt(intended.solid.table)
    shift = laid_on(piece, intended)
    want = intended.solid.shifted(shift)
    job.want, intended.laid = want, shift
    features = [(name, solid.shifted(shift)) for name, solid in intended.features]
    found = faults(done, want, features, owners(job, job.pieces[job.main]), LEAST)
    job.differences = found
    differences = [_difference(job, i + 1, d, shift) for i, d in enumerate(found)]
    of_operations = {_named(done) for done in job.operations}
    others = [d for d in found if not (d.kind == "missing" and d.name in of_operations)]
    if found and not others:
        words = "cuts go into the intended part: see the operations that fail"
        return [judged("intended-part", None, words, 0)], differences
    if not found:
        where = f"the part of `{intended.source}`" if intended.source else "the intended part"
        words = f"the finished work is {where}: no difference above {both(LEAST, 'clearance')}"
        return [judged("intended-part", True, words, 0)], differences
    count, largest = len(others), max(others, key=lambda d: d.volume)
    words, line = say.draft(differences[found.index(largest)].words), _line_of(intended, largest)
    guilty = left_by(job, largest) if largest.kind == "left on" else None
    if guilty is not None:
        words, line = f"{words}, as operation {guilty.number} leaves it", guilty.line
    if count > 1:
        words = f"{count} differences from the intended part; the largest: {words}"
    return [judged("intended-part", False, words, line)], differences


def owners(job: Job, piece: Piece) -> Iterator[tuple[str, Solid]]:
    """What each operation took, the last first. A hole in which a piece was put is the business of that joint."""
    mine = [o for o in job.operations if o.piece is piece]
    for done in reversed(mine):
        join = done.plan.join
        if join is not None:
            holes = [s for o in mine if o.number < done.number for s in o.removed if not (s & join.solid).empty]
            if holes:
                yield _named(done), job.kernel.union(holes)
        elif done.removed:
            yield _named(done), job.kernel.union(done.removed)


def _named(done: DoneOperation) -> str:
    """What a difference calls the operation that it is the business of."""
    return f"operation {done.number}"


def _difference(job: Job, index: int, found: Fault, shift: Point) -> Difference:
    words = told_difference(found, shift, block_work=bool(job.intended and job.intended.block_work))
    thickness = length_measure(float(found.thickness), "size")
    return Difference(index, found.kind, say.words(words), float(found.volume), thickness)


def told_difference(found: Fault, shift: Point, *, block_work: bool) -> str:
    """A difference in one line: what, where, how large."""
    low = [float(a - b) for a, b in zip(found.low, shift, strict=True)]
    high = [float(a - b) for a, b in zip(found.high, shift, strict=True)]
    size = [b - a for a, b in zip(low, high, strict=True)]
    owner = found.name.replace("operation ", "op ") if found.name else ""
    place = f"{dim(low[2])} to {dim(high[2])} from end A"
    if block_work:
        place = ", ".join(f"{name} {dim(a)} to {dim(b)}" for name, a, b in zip("xyz", low, high, strict=True))
    what = f"{found.kind} at {owner}" if owner else found.kind
    box, thick = " × ".join(dim(side) for side in size), dim(round(found.thickness, 2))
    return f"{what}: {place}, {box} {MM}, about {thick} thick, {both(found.volume, 'volume')}"


def _line_of(intended: Intended, found: Fault) -> int:
    """Line of the feature of the `part` block that is not there; 0 where none is named."""
    named = (line for (name, _), line in zip(intended.features, intended.lines, strict=False) if name == found.name)
    return next(named, 0)


def check_against_part(job: Job) -> None:
    """For each cut, whether it takes metal that belongs to the intended part; the check goes to that operation."""
    if job.want is None:
        return
    missing = [d for d in job.differences if d.kind == "missing"]
    for done in job.operations:
        if done.piece.work is not job.pieces[job.main].work or not (done.removed or done.plan.join is not None):
            continue
        mine = [d for d in missing if d.name == _named(done)]
        volume = sum(d.volume for d in mine)
        if done.plan.join is not None:
            if mine and done.plan.join.name not in job.wrong:
                words = f"leaves {both(volume, 'volume')} of its holes empty that belong to the finished part"
                done.judge("finished-surface", False, words, remedy="check place and length of the piece that goes in")
            continue
        words = "takes nothing that belongs to the finished part"
        if mine:
            words = f"cuts {both(volume, 'volume')} that belong to the finished part{_centre_hint(done)}"
        done.judge("finished-surface", not mine, words)


def _centre_hint(done: DoneOperation) -> str:
    """What to do about a centre hole that the part does not have: the beginner's usual surprise."""
    cut = done.plan.cut
    if not cut.process.row.first_hole:
        return ""
    pilot = number(done.plan.tool_size)
    stay = f"if the centre hole may stay, write `centre: {pilot} mm` in the `part` block"
    return f": its mouth is {dia(cut.diameter)}; {stay}; to start a drill, keep it in the hole with `to`"
