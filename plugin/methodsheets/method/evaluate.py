"""What is a method worth in one workshop? Walks its blocks in order, cuts the metal, checks, adds up."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable
from itertools import islice, takewhile

from methodsheets.geometry import GeometryError, SolidKernel
from methodsheets.method.asking import work_functions
from methodsheets.method.assuming import hold_as_said
from methodsheets.method.calculations import quotes, work_out_block
from methodsheets.method.carrying_out import FORESEEN, carry_out, own_word
from methodsheets.method.checks.carriers import check_carrier
from methodsheets.method.checks.castings import check_bearing
from methodsheets.method.checks.holders import check_holder, tell_unchecked
from methodsheets.method.checks.whole import check_whole
from methodsheets.method.choices import choices_of
from methodsheets.method.intended import check_against_part, prove, read_intended
from methodsheets.method.job import DoneSetup, Evaluated, Intended, Job, Piece
from methodsheets.method.mates import pair_up
from methodsheets.method.method_record import method_record
from methodsheets.method.pieces import prove_pieces
from methodsheets.method.run_out import run_out_table
from methodsheets.method.scope import MethodReader
from methodsheets.method.setting import set_up_facts
from methodsheets.method.stages import FAILED_HERE, stage
from methodsheets.method.stiffness import stiffness_facts
from methodsheets.method.support_left_in import tell_supports
from methodsheets.method.totals import setup_minutes
from methodsheets.method.without_core import stiffness_without_core
from methodsheets.operations import say
from methodsheets.operations.facts import judged, told
from methodsheets.operations.hold_clauses import HOLD_CLAUSES, read_hold
from methodsheets.operations.setups import hold, wants_block
from methodsheets.operations.stock import lay_stock, read_stock
from methodsheets.operations.vocabulary import SETUP_KEYS, entry_text, entry_texts
from methodsheets.reading.method_file import Block, MethodFile
from methodsheets.reading.mishap import mishap
from methodsheets.reading.problem import MethodError, Problems, did_you_mean
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Calculation, Caution, Check, Fact, Quote, RunOutRow
from methodsheets.sheet.words import Words
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import Material, material
from methodsheets.workpiece import Workpiece, mass
from methodsheets.workpiece.bodies import Body
from methodsheets.workpiece.state import State
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.model import Workshop

FRONT_CODES = {"missing-stock", "missing-material", "unknown-material"}
"""Problems of the front matter that every set-up would have again."""
LOOK = "compare the work with the part yourself"
FACETS = 96
"""Facets a turn: volumes true to a quarter of a millionth, and fast."""


def evaluate_method(
    file: MethodFile, workshop: Workshop, library: Callable[[str], Evaluated | None], problems: Problems | None = None
) -> Evaluated:
    """Work a method out for a workshop.

    `library` gives other methods of the handbook, worked out for the same workshop, by slug (`stock: from`, `intended`,
    joined pieces). Everything that is wrong is collected in the method's problems; nothing is raised for it.
    `problems` are those that reading has already found.
    """
    job = Job(file, workshop, SolidKernel(FACETS), MethodReader(), Problems(list(problems or ())), library)
    job.reader.functions = job.reader.functions.with_functions(work_functions(job))
    stage(job, "the front matter could not be read", lambda: _front(job), None)
    calculations = _walk(job)
    stage(job, "what is made several times could not be said", lambda: _say_copies(job), None)
    stage(job, "what a support left in is worth could not be worked out", lambda: tell_supports(job), None)
    checks = _judge_whole(job)
    found = stage(job, "the numbers in the prose could not be worked out", lambda: quotes(job), list[Quote]())
    stage(job, "what failed could not be told", lambda: _failures(job, checks), None)
    stage(job, "sizes that belong together could not be found", lambda: pair_up(job), None)
    run_out = stage(job, "the table of run-out could not be made", lambda: run_out_table(job), list[RunOutRow]())
    return Evaluated(method_record(job, calculations, found, run_out, checks), job)


def _judge_whole(job: Job) -> list[Check]:
    """The proof and the checks of the whole method, each a stage of its own."""
    unproved = [judged("intended-part", None, FAILED_HERE, 0, remedy=LOOK)]
    return [
        *stage(job, "the pieces could not be compared with their parts", lambda: prove_pieces(job), unproved),
        *stage(job, "the finished work could not be compared with the part", lambda: _prove(job), unproved),
        *stage(job, "the checks of the whole method could not be made", lambda: check_whole(job), list[Check]()),
    ]


# ------------------------------------------------------------------------------------------------ front matter
def _front(job: Job) -> None:
    front = job.file.front
    if front.makes and front.makes.value.isdigit():
        job.makes = max(1, int(front.makes.value))
    if front.material:
        job.material = _material(job, front.material)
    else:
        job.problems.error(
            front.method.place,
            "no material is named",
            "weights, speeds and forces depend on it",
            "add `material: EN1A` to the front matter",
            code="missing-material",
        )
    if front.stock is None and not any(entry_text(b, "stock") for b in job.file.of_kind("setup")):
        job.problems.error(
            front.method.place,
            "no stock is named",
            "a method starts with its stock",
            "add `stock: round 40 mm x 18 mm` to the front matter",
            code="missing-stock",
        )


def _material(job: Job, text: Text) -> Material | None:
    try:
        return material(text.value)
    except NotInTable as error:
        known = ", ".join(error.suggestions[:4]) if getattr(error, "suggestions", None) else ""
        job.problems.error(
            text.place,
            f"no such material (got `{text.value}`)",
            "materials are named as in the table",
            f"did you mean {known}?" if known else "see the table of materials",
            code="unknown-material",
        )
        return None


# ------------------------------------------------------------------------------------------------ walking the blocks
def _walk(job: Job) -> list[Calculation]:
    calculations: list[Calculation] = []
    setup: DoneSetup | None = None
    broken = part_read = False
    for number, block in enumerate(job.file.blocks):
        if block.kind == "calc":
            doing = f"the calculations of line {block.place.line} could not be worked out"
            calculations += stage(job, doing, functools.partial(work_out_block, job, block), [])
        elif block.kind == "part" and not part_read:  # all of them are read with the first
            job.intended, part_read = _intended(job), True
        elif block.kind == "setup":
            setup = _begin(job, block, _operations_after(islice(job.file.blocks, number + 1, None)))
            broken = setup is None
        elif block.kind == "op":
            if setup is not None:
                _carry_out(job, setup, block)
            elif not broken:
                job.problems.error(
                    block.place,
                    "an operation without a set-up",
                    "work is held before it is cut",
                    "write a `setup` block above it",
                    code="no-setup",
                )
                broken = True
    if not part_read:
        job.intended = _intended(job)
    return calculations


def _intended(job: Job) -> Intended | None:
    return stage(job, "the intended part could not be read", lambda: read_intended(job), None)


def _carry_out(job: Job, setup: DoneSetup, block: Block) -> None:
    """One operation, and what is looked at when its cut is done."""
    done = carry_out(job, setup, block)
    if done is None:
        return
    setup.operations.append(done)
    doing = f"how far the work bends in operation {done.number} could not be worked out"
    bending = stage(job, doing, lambda: stiffness_facts(setup, done), None, of=done)
    stage(job, doing, lambda: stiffness_without_core(setup, done), None, of=done)
    doing = f"what is told of the choices of operation {done.number} could not be made"
    done.choices = stage(job, doing, lambda: choices_of(setup, done, bending), (), of=done)


def _say_copies(job: Job) -> None:
    """A piece of which several go into one part says so where it is begun."""
    for piece in job.pieces.values():
        first = next((setup for setup in job.setups if setup.piece is piece), None)
        if first is not None and job.copies(piece) > 1:
            words = f"{job.copies(piece)} for each part; times and metal count them all"
            first.facts.insert(0, told("copies", "Make of it", words))


def _operations_after(rest: Iterable[Block]) -> tuple[Block, ...]:
    """The operations that are done in a set-up, of all that stands behind it."""
    return tuple(b for b in takewhile(lambda b: b.kind != "setup", rest) if b.kind == "op")


def _begin(job: Job, block: Block, later: tuple[Block, ...]) -> DoneSetup | None:
    """Start a set-up; None (and a problem) where its words are wrong."""
    try:
        return _begin_setup(job, block, later)
    except MethodError as error:
        # What is missing in the front matter has been said there: once is enough.
        known = {problem.code for problem in job.problems}
        if error.problem.code not in ("missing-stock", "follow-up") or not known & FRONT_CODES:
            job.problems.extend([error.problem])
    except (GeometryError, ValueError, NotInTable) as error:
        job.problems.error(block.place, f"the set-up cannot be made: {error}", "", "check its sizes", code="no-solid")
    except Exception as error:
        job.problems.extend([mishap(block.place, "this set-up could not be worked out", error)])
    return None


def _begin_setup(job: Job, block: Block, later: tuple[Block, ...]) -> DoneSetup:
    for entry in block.entries:
        if entry.key.value not in SETUP_KEYS:
            raise MethodError(
                entry.key.place,
                f"unknown key `{entry.key.value}` in the set-up",
                "",
                did_you_mean(entry.key.value, SETUP_KEYS),
                code="unknown-key",
            )
    line = entry_text(block, "hold")
    if line is None:
        raise MethodError(
            block.place,
            "the set-up does not say how the work is held",
            "`hold` is needed",
            "add `hold: three-jaw chuck, on 40 mm, grip 8 mm, end A out`",
            code="missing-hold",
        )
    machine = _machine(job, block)
    said = read_hold(line, job.reader)
    piece = _piece(job, block, upright=not wants_block(said))
    hold_with = functools.partial(hold, machine=machine, workshop=job.workshop, piece=piece.work)
    held = hold_as_said(job, said, piece, hold_with, later)
    if held.holder is not None and "" in said.texts:
        own_word(job, said.texts[""], (*held.holder.known_as(), held.words), held.holder.name)
    number = len(job.setups) + 1
    title = entry_text(block, "title")
    heading = block.heading.text if block.heading and block.heading_is_fresh else ""
    own_words = title.value if title else heading
    words = Words(own_words) if own_words else held.sentence
    setup = DoneSetup(line.place.line, number, f"setup-{number}", words, block, held, piece, piece.work.state)
    setup.held_up = held.held_up
    setup.minutes, setup.loading = setup_minutes(job, setup)
    own = entry_text(block, "time")
    if own:
        setup.minutes = job.reader.minutes(own)
    if len(job.pieces) > 1 and piece.said is not None and all(one.piece is not piece for one in job.setups):
        setup.facts.insert(0, Fact("stock", "Cut from", say.as_written(piece.said.text)))
    doing = f"set-up {number} could not be looked at"
    stage(job, doing, lambda: _look_at(job, setup), None, of=setup, foreseen=FORESEEN)
    said.all_asked("hold", HOLD_CLAUSES)
    setup.notes = [Words(job.reader.words(text)) for text in entry_texts(block, "note")]
    setup.cautions += [Caution("own", text.value) for text in entry_texts(block, "caution")]
    job.setups.append(setup)
    job.main = piece.name
    return setup


def _look_at(job: Job, setup: DoneSetup) -> None:
    """What is told of a set-up, and every check of how the work is held."""
    set_up_facts(setup)
    check_holder(job, setup)
    check_carrier(job.workshop, setup)
    check_bearing(setup)
    tell_unchecked(setup)


def _machine(job: Job, block: Block) -> Machine:
    words = entry_text(block, "machine")
    if words is None:
        if job.setups:
            return job.setups[-1].held.machine
        raise MethodError(
            block.place,
            "the set-up names no machine",
            "the first set-up must",
            "add `machine: lathe`",
            code="missing-machine",
        )
    found = job.workshop.machine(words.value)
    if found is None:
        raise MethodError(
            words.place,
            f"no such machine in {job.workshop.name} (got `{words.value}`)",
            "machines are listed in the workshop's file",
            did_you_mean(words.value, job.workshop.known_machines()),
            code="unknown-machine",
        )
    return found


# ------------------------------------------------------------------------------------------------ pieces and stock
def _piece(job: Job, block: Block, *, upright: bool) -> Piece:
    named, stock_text = entry_text(block, "piece"), entry_text(block, "stock")
    first = job.file.front.piece.value if job.file.front.piece else "work"
    name = named.value if named else (job.setups[-1].piece.name if job.setups else first)
    if not job.pieces and named and not job.file.front.piece and stock_text is None:
        name = named.value
    if name in job.pieces:
        if stock_text:
            raise MethodError(
                stock_text.place,
                f"the piece `{name}` has its stock already",
                "stock is given once",
                "take it away or name another piece",
                code="repeated-stock",
            )
        return job.pieces[name]
    text = stock_text or (job.file.front.stock if not job.pieces else None)
    if text is None:
        known = ", ".join(f"`{n}`" for n in job.pieces)
        raise MethodError(
            named.place if named else block.place,
            f"no stock for the piece `{name}`",
            "every piece starts with its stock",
            f"add `stock: round 20 mm x 96 mm`{', or name one of ' + known if known else ''}",
            code="missing-stock",
        )
    own = entry_text(block, "material")
    made_of = _material(job, own) if own else job.material
    if made_of is None:
        raise MethodError(
            text.place,
            f"the material of the piece `{name}` is not known",
            "weights, speeds and forces depend on it",
            "mend the material first",
            code="follow-up",
        )
    piece = Piece(name, Workpiece(job.kernel, name), made_of)
    _lay(job, piece, text, upright)
    job.pieces[name] = piece
    return piece


def _lay(job: Job, piece: Piece, text: Text, upright: bool) -> None:
    said = read_stock(text, job.reader)
    piece.said = said
    piece.rough, piece.allowance = said.kind.row.rough, said.allowance
    density = piece.material.density * 1e-6
    if said.kind.row.elsewhere:
        other = job.library(said.source)
        if other is None or not other.live.main:
            raise MethodError(
                text.place,
                f"no such method to take stock from (got `{said.source}`)",
                "`from` names a method of this handbook",
                "check the name",
                code="unknown-method",
            )
        whole = other.live.pieces[other.live.main]
        piece.rough, piece.allowance, source = whole.rough, whole.allowance, whole.work
        job.kernel.table.adopt(source.kernel.table)
        piece.work.state = State(
            {n: Body(b.solid, b.material, b.density) for n, b in source.bodies.items()}, source.ends, source.marks
        )
    else:
        try:
            piece.stock = lay_stock(job.kernel, said, upright=upright)
        except ValueError as error:
            raise MethodError(
                text.place, f"the stock makes no solid: {error}", "", "check its sizes", code="no-solid"
            ) from None
        piece.work.start(piece.stock, piece.material.name, density, body=piece.name)
    piece.start = piece.work.state
    piece.grams = mass(piece.work.state).grams


# ------------------------------------------------------------------------------------------------ proof
def _prove(job: Job) -> list[Check]:
    if not job.main or job.main not in job.pieces:
        return []
    if job.intended is None:
        if job.unlooked and (job.file.front.intended or job.file.of_kind("part")):
            return [judged("intended-part", None, FAILED_HERE, 0, remedy=LOOK)]
        words = "nobody says what the finished part is: write a `part` block"
        return [judged("intended-part", None, words, 0, remedy="write a `part` block, or name one: `intended: …`")]
    checks, differences = prove(job, job.intended)
    job.listed = differences
    check_against_part(job)
    return checks


def _failures(job: Job, checks: list[Check]) -> None:
    """A failed check of the author's own workshop is a problem with a line."""
    own = job.file.front.workshop
    if own is not None and own.value != job.workshop.key:
        return
    from methodsheets.reading.problem import Place

    path = job.file.path
    found = [c for s in job.setups for c in s.checks] + [c for o in job.operations for c in o.checks] + checks
    for check in found:
        if check.state == "failed":
            line = check.line or job.file.front.method.place.line
            job.problems.warning(
                Place(path, line),
                f"check `{check.key}` failed: {check.words.in_units(job.workshop.units)}",
                *check.advice,
                code=f"check-{check.key}",
            )
