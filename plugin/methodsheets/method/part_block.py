"""What does a `part` block draw: which features, of which pieces, in the words of the verbs?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from methodsheets.geometry import Axis, GeometryError, Outline, Solid, SolidKernel
from methodsheets.method.intention import Intended, RunsTrue, Threaded
from methodsheets.method.job import Asked, Job
from methodsheets.method.metal import few_cutters, few_facets
from methodsheets.method.part_features import ADDS, ASKS, read_finish, read_runs_true
from methodsheets.operations.plan import Plan
from methodsheets.operations.qualities import Given
from methodsheets.operations.say import diameter
from methodsheets.operations.setups import face_name
from methodsheets.operations.sizes import sizes_are_sizes
from methodsheets.operations.station import Station
from methodsheets.operations.stock import block_sizes
from methodsheets.operations.strange_key import meant_by
from methodsheets.operations.vocabulary import clauses_of, verb_in_frame, verb_name, verb_names
from methodsheets.operations.words import Clause, Said, read_clauses
from methodsheets.reading.limits import FACETS, FACETS_IN_ALL
from methodsheets.reading.method_file import Block, Entry
from methodsheets.reading.mishap import mishap
from methodsheets.reading.problem import MethodError, Place
from methodsheets.reading.text import Text
from methodsheets.trade.form.errors import NotInTable
from methodsheets.vocabulary.machine import MachineKind
from methodsheets.vocabulary.shape import PartKey, Shape
from methodsheets.workpiece import Ends, Holding, VicePose, Workpiece
from methodsheets.workpiece.bodies import Body
from methodsheets.workpiece.datum import End
from methodsheets.workpiece.state import State
from methodsheets.workshop.machines import Machine


class _Drawing:
    """A part being drawn from its features."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.work = Workpiece(job.kernel, "part")
        self.end: End = "A"
        self.up, self.towards = "", "front"
        self.block_work = False
        self.last = ""
        """Key of the feature before."""
        self.features: list[tuple[str, Solid]] = []
        self.lines: list[int] = []
        self.material = job.material
        self.threads: list[Threaded] = []
        self.asks: list[Given] = []
        self.trues: list[RunsTrue] = []

    def add(self, solid: Solid) -> None:
        """Add metal."""
        bodies = dict(self.work.bodies)
        grown = bodies["work"].solid + solid if "work" in bodies else solid
        bodies["work"] = Body(grown, self.material.name if self.material else "part", 0.00785)
        low, high = grown.bounds
        self.work.state = State(bodies, Ends(low[2], high[2]))

    def count(self, place: Place) -> None:
        """Count the facets after a feature.

        Raises:
            MethodError: there are too many.
        """
        made = sum(body.solid.triangles for body in self.work.bodies.values())
        self.job.log.count(made)
        few_facets(place, FACETS, made)


def part_of_blocks(job: Job, blocks: tuple[Block, ...]) -> Asked:
    """The finished part; what stands behind `piece: pin` is the part of that piece."""
    groups: dict[str, list[Entry]] = {"": []}
    name = ""
    for entry in (entry for block in blocks for entry in block.entries):
        if entry.key.value.lower().strip() == PartKey.PIECE:
            name = entry.text.value.strip()
        groups.setdefault(name, []).append(entry)
    main, pieces = _drawn(job, groups.pop("")), dict[str, Intended]()
    for name, entries in groups.items():
        found = _drawn(job, entries[1:])
        if found is not None:
            pieces[name] = replace(found, line=entries[0].text.place.line)
    return Asked(main, pieces)


def _drawn(job: Job, entries: Iterable[Entry]) -> Intended | None:
    drawing, wrong = _Drawing(job), False
    for entry in entries:
        try:
            few_facets(entry.key.place, FACETS_IN_ALL, job.log.facets)  # before it is planned on what is too much
            _feature(drawing, entry)
            drawing.count(entry.key.place)
            drawing.lines += [entry.key.place.line] * (len(drawing.features) - len(drawing.lines))
        except MethodError as error:
            job.problems.extend([error.problem])
            wrong = True
        except (GeometryError, ValueError, NotInTable) as error:
            job.problems.error(
                entry.key.place,
                f"the feature makes no solid: {error}",
                "its sizes must fit the part",
                "check the sizes",
                code="no-solid",
            )
            wrong = True
        except Exception as error:
            job.problems.extend([mishap(entry.key.place, "this feature could not be worked out", error)])
            wrong = True
    if wrong or not drawing.work.bodies:
        return None
    return Intended(
        drawing.work.state.solid, tuple(drawing.features), drawing.block_work, "", tuple(drawing.lines),
        tuple(drawing.threads), asks=tuple(drawing.asks), trues=tuple(drawing.trues),
    )  # fmt: skip


def _feature(drawing: _Drawing, entry: Entry) -> None:
    key, line = " ".join(entry.key.value.lower().split()), entry.text
    before, drawing.last = drawing.last, key
    if key == PartKey.END:
        drawing.end = _end(line)
    elif key == PartKey.UP:
        _face_up(drawing, line)
    elif key == PartKey.BLOCK:
        _block(drawing, line)
    elif key in ADDS:
        _about_axis(drawing, Shape(key), line)
    elif key in ASKS:
        _ask(drawing, PartKey(key), line)
    elif verb_name(key):
        _cut(drawing, verb_name(key), line)
    else:
        drawing.last = before
        raise MethodError(
            entry.key.place,
            f"unknown feature `{entry.key.value}`",
            "a part is made of round, cone, hexagon, square, block and of verbs that cut",
            meant_by(key, {before: _clauses(before)}, dict.fromkeys((*ADDS, *PartKey, *verb_names()), "")),
            code="unknown-feature",
        )


def _clauses(feature: str) -> Sequence[Clause]:
    """The clauses of a feature; none of a line that is no feature."""
    if feature in ASKS:
        return ASKS[PartKey(feature)][1]
    return ADDS[Shape(feature)][1] if feature in ADDS else clauses_of(verb_name(feature))


def _ask(drawing: _Drawing, key: PartKey, line: Text) -> None:
    """What is asked of surfaces that are there."""
    length = drawing.work.ends.length if drawing.work.bodies else 0.0
    reader, end_b = drawing.job.reader, drawing.end == "B"
    if key is PartKey.FINISH:
        drawing.asks.append(read_finish(line, reader, length, end_b=end_b))
    else:
        drawing.trues.append(read_runs_true(line, reader, length, end_b=end_b))


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
    sizes_are_sizes(said, (first, *clauses) if first else clauses, key)
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
    sizes_are_sizes(said, meaning.all_clauses, name)
    plan: Plan = meaning.make(station, said)
    said.all_asked(name, meaning.all_clauses)
    if plan.cutters:
        few_cutters(drawing.job, line.place, plan)
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
