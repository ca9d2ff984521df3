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
from methodsheets.method.findings import Findings
from methodsheets.method.intended import check_against_part, prove, read_intended
from methodsheets.method.job import Asked, Evaluated, Job, Library, Log, Proved, ProvedPieces, finished
from methodsheets.method.laying import material_named, piece_of
from methodsheets.method.mates import Limits, pair_up
from methodsheets.method.method_record import method_record
from methodsheets.method.open_setup import OpenSetup, Stand
from methodsheets.method.pieces import prove_pieces
from methodsheets.method.run_out import run_out_table
from methodsheets.method.scope import MethodReader
from methodsheets.method.setting import set_up_facts
from methodsheets.method.stages import FAILED_HERE, stage, unlooked
from methodsheets.method.stiffness import stiffness_facts
from methodsheets.method.support_left_in import tell_supports
from methodsheets.method.totals import setup_minutes
from methodsheets.method.without_core import stiffness_without_core
from methodsheets.operations import say
from methodsheets.operations.by_faces import by_its_faces
from methodsheets.operations.facts import judged, told
from methodsheets.operations.hold_clauses import HOLD_CLAUSES, read_hold
from methodsheets.operations.setups import hold
from methodsheets.operations.strange_key import meant_by
from methodsheets.operations.vocabulary import SETUP_KEYS, entry_text, entry_texts, find_verb
from methodsheets.reading.blocks import KINDS
from methodsheets.reading.method_file import Block, MethodFile
from methodsheets.reading.mishap import mishap
from methodsheets.reading.problem import MethodError, Place, Problems, did_you_mean
from methodsheets.sheet.model import Calculation, Caution, Check, Fact, Quote, RunOutRow
from methodsheets.sheet.words import Words
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.verb_word import verb_name
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
    job = _begun(file, workshop, library, Problems(list(problems or ())))
    _verbs_as_blocks(job)
    asked, calculations = _walk(job)
    stage(job, "what is made several times could not be said", lambda: _say_copies(job), None)
    stage(job, "what a support left in is worth could not be worked out", lambda: tell_supports(job), None)
    proved, checks = _judge_whole(job, asked)
    found = stage(job, "the numbers in the prose could not be worked out", lambda: quotes(job), list[Quote]())
    stage(job, "what failed could not be told", lambda: _failures(job, checks), None)
    limits = stage(job, "sizes that belong together could not be found", lambda: pair_up(job), dict[int, Limits]())
    run_out = stage(job, "the table of run-out could not be made", lambda: run_out_table(job), list[RunOutRow]())
    live = finished(job, limits, asked, proved)
    return Evaluated(method_record(job, live, calculations, found, run_out, checks), live)


def _begun(file: MethodFile, workshop: Workshop, library: Library, problems: Problems) -> Job:
    """A method of which nothing but the front matter was read."""
    material, makes, log = None, 1, Log()
    place, doing = file.front.method.place, "the front matter could not be read"
    try:
        material, makes = _front(file, problems)
    except Exception as error:
        problems.extend([mishap(place, doing, error)])
        log.unlooked.append(unlooked(doing, place.line))
    job = Job(
        file=file,
        workshop=workshop,
        kernel=SolidKernel(FACETS),
        reader=MethodReader(),
        problems=problems,
        library=library,
        material=material,
        makes=makes,
        log=log,
    )
    job.reader.functions = job.reader.functions.with_functions(work_functions(job))
    return job


def _verbs_as_blocks(job: Job) -> None:
    """Tell a block that bears the name of a verb: the verb is a line of an `op` block."""
    told = {problem.place for problem in job.problems}
    for word in job.file.strange:
        verb = verb_name(word.value)
        if verb and word.place not in told:
            what, rule = f"a block of an unknown kind (got `{word.value}`)", f"blocks are {', '.join(KINDS)}"
            remedy = f"write it in an `op` block, as a line `{verb}: …`"
            job.problems.warning(word.place, what, rule, remedy, code="unknown-block")


def _judge_whole(job: Job, asked: Asked) -> tuple[Proved, list[Check]]:
    """The proof and the checks of the whole method, each a stage of its own."""
    unproved = [judged("intended-part", None, FAILED_HERE, 0, remedy=LOOK)]
    doing = "the pieces could not be compared with their parts"
    pieces, of_pieces = stage(job, doing, lambda: prove_pieces(job, asked), (ProvedPieces(), unproved))
    doing = "the finished work could not be compared with the part"
    proved, of_whole = stage(job, doing, lambda: _prove(job, asked, pieces), (Proved(), unproved))
    doing = "the checks of the whole method could not be made"
    laid = {"": proved.laid, **pieces.laid} if proved.laid is not None else pieces.laid
    last = stage(job, doing, lambda: check_whole(job, asked, laid), list[Check]())
    return proved, [*of_pieces, *of_whole, *last]


# ------------------------------------------------------------------------------------------------ front matter
def _front(file: MethodFile, problems: Problems) -> tuple[Material | None, int]:
    """(material, how many are made); what is missing is a problem."""
    front, material = file.front, None
    makes = max(1, int(front.makes.value)) if front.makes and front.makes.value.isdigit() else 1
    if front.material:
        material = material_named(problems, front.material)
    else:
        problems.error(
            front.method.place,
            "no material is named",
            "weights, speeds and forces depend on it",
            "add `material: EN1A` to the front matter",
            code="missing-material",
        )
    if front.stock is None and not any(entry_text(b, "stock") for b in file.of_kind("setup")):
        problems.error(
            front.method.place,
            "no stock is named",
            "a method starts with its stock",
            "add `stock: round 40 mm x 18 mm` to the front matter",
            code="missing-stock",
        )
    return material, makes


# ------------------------------------------------------------------------------------------------ walking the blocks
def _walk(job: Job) -> tuple[Asked, list[Calculation]]:
    asked: Asked | None = None
    calculations: list[Calculation] = []
    setup: OpenSetup | None = None
    broken = False
    for number, block in enumerate(job.file.blocks):
        if block.kind == "calc":
            doing = f"the calculations of line {block.place.line} could not be worked out"
            calculations += stage(job, doing, functools.partial(work_out_block, job, block), [])
        elif block.kind == "part" and asked is None:  # all of them are read with the first
            asked = _asked(job)
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
            if setup is None:
                _only_read(job, block)
    return _asked(job) if asked is None else asked, calculations


def _asked(job: Job) -> Asked:
    return stage(job, "the intended part could not be read", lambda: read_intended(job), Asked())


def _only_read(job: Job, block: Block) -> None:
    """Tell what is wrong with the keys of an operation that nothing holds the work for: all of it in one run."""
    try:
        if block.entries:
            find_verb(block)
    except MethodError as error:
        job.problems.extend([error.problem])


def _carry_out(job: Job, setup: OpenSetup, block: Block) -> None:
    """One operation, and what is looked at when its cut is done."""
    done = carry_out(job, setup, block)
    if done is None:
        return
    setup.now.finish(done)
    doing = f"how far the work bends in operation {done.number} could not be worked out"
    bending = stage(job, doing, lambda: stiffness_facts(setup, done), None, of=done)
    stage(job, doing, lambda: stiffness_without_core(setup, done), None, of=done)
    doing = f"what is told of the choices of operation {done.number} could not be made"
    done.found.choices.extend(stage(job, doing, lambda: choices_of(setup, done, bending), (), of=done))


def _say_copies(job: Job) -> None:
    """A piece of which several go into one part says so where it is begun."""
    for piece in job.pieces.values():
        first = next((setup for setup in job.setups if setup.piece is piece), None)
        if first is not None and job.copies(piece) > 1:
            words = f"{job.copies(piece)} for each part; times and metal count them all"
            first.found.facts.insert(0, told("copies", "Make of it", words))


def _operations_after(rest: Iterable[Block]) -> tuple[Block, ...]:
    """The operations that are done in a set-up, of all that stands behind it."""
    return tuple(b for b in takewhile(lambda b: b.kind != "setup", rest) if b.kind == "op")


def _begin(job: Job, block: Block, later: tuple[Block, ...]) -> OpenSetup | None:
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


def _begin_setup(job: Job, block: Block, later: tuple[Block, ...]) -> OpenSetup:
    for entry in block.entries:
        if entry.key.value not in SETUP_KEYS:
            raise MethodError(
                entry.key.place,
                f"unknown key `{entry.key.value}` in the set-up",
                "",
                meant_by(entry.key.value, {"hold": HOLD_CLAUSES}, SETUP_KEYS),
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
    piece = piece_of(job, block, said)
    said = by_its_faces(said, only_faces=piece.faces, lies=False)
    hold_with = functools.partial(hold, machine=machine, workshop=job.workshop, piece=piece.work)
    held = hold_as_said(job, said, piece, hold_with, later)
    if held.holder is not None and "" in said.texts:
        own_word(job, said.texts[""], (*held.holder.known_as(), held.words), held.holder.name)
    number = len(job.setups) + 1
    title = entry_text(block, "title")
    heading = block.heading.text if block.heading and block.heading_is_fresh else ""
    own_words = title.value if title else heading
    minutes, loading = setup_minutes(job, held)
    own = entry_text(block, "time")
    setup = OpenSetup(
        number=number, id=f"setup-{number}", title=Words(own_words) if own_words else held.sentence, block=block,
        piece=piece, before=piece.work.state, minutes=job.reader.minutes(own) if own else minutes, loading=loading,
        found=Findings(line.place.line), now=Stand(held, held.held_up),
    )  # fmt: skip
    if len(job.pieces) > 1 and all(one.piece is not piece for one in job.setups):
        setup.found.facts.insert(0, Fact("stock", "Cut from", say.as_written(piece.said.text)))
    doing = f"set-up {number} could not be looked at"
    stage(job, doing, lambda: _look_at(job, setup), None, of=setup, foreseen=FORESEEN)
    said.all_asked("hold", HOLD_CLAUSES)
    setup.found.notes.extend(Words(job.reader.words(text)) for text in entry_texts(block, "note"))
    setup.found.cautions.extend(Caution("own", text.value) for text in entry_texts(block, "caution"))
    job.setups.append(setup)
    return setup


def _look_at(job: Job, setup: OpenSetup) -> None:
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


# ------------------------------------------------------------------------------------------------ proof
def _prove(job: Job, asked: Asked, pieces: ProvedPieces) -> tuple[Proved, list[Check]]:
    if not job.main or job.main not in job.pieces:
        return Proved(), []
    if asked.whole is None:
        if job.log.unlooked and (job.file.front.intended or job.file.of_kind("part")):
            return Proved(), [judged("intended-part", None, FAILED_HERE, 0, remedy=LOOK)]
        words = "nobody says what the finished part is: write a part block"
        remedy = "write a `part` block, or name one: `intended: …`"
        return Proved(), [judged("intended-part", None, words, 0, remedy=remedy)]
    proved, checks = prove(job, asked.whole)
    check_against_part(job, proved, pieces.wrong)
    return proved, checks


def _failures(job: Job, checks: list[Check]) -> None:
    """A failed check of the author's own workshop is a problem with a line."""
    own = job.file.front.workshop
    if own is not None and own.value != job.workshop.key:
        return
    path = job.file.path
    of_setups = [check for setup in job.setups for check in setup.found.checks]
    of_operations = [check for done in job.operations for check in done.found.checks]
    for check in [*of_setups, *of_operations, *checks]:
        if check.state == "failed":
            line = check.line or job.file.front.method.place.line
            job.problems.warning(
                Place(path, line),
                f"check `{check.key}` failed: {check.words.in_units(job.workshop.units)}",
                *check.advice,
                code=f"check-{check.key}",
            )
