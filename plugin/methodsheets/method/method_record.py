"""What of the evaluation lasts? The job with its solids becomes plain records for pages, sheets and exports."""

from __future__ import annotations

from methodsheets.formula.measure import Measure
from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Finished, Job
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.method.stages import stage
from methodsheets.method.tags import found_as, tags
from methodsheets.method.totals import totals
from methodsheets.operations import say
from methodsheets.operations.facts import mass_rests, measure_of
from methodsheets.operations.vocabulary import family_of
from methodsheets.sheet.model import Calculation, Check, Method, Operation, Quote, RunOutRow, Setup
from methodsheets.sheet.words import NOTHING


def method_record(
    job: Job, live: Finished, calculations: list[Calculation], quotes: list[Quote], run_out: list[RunOutRow],
    checks: list[Check],
) -> Method:  # fmt: skip
    """The evaluated method as plain data."""
    added = stage(job, "times and metal could not be added up", lambda: totals(job) if job.pieces else None, None)
    tagged = stage(job, "its tags could not be found", lambda: tags(job), tuple[str, ...]())
    found = stage(job, "what it is found as could not be told", lambda: found_as(job), tuple[str, ...]())
    checks = [*checks, *job.log.unlooked]
    front = job.file.front
    own = front.workshop.value if front.workshop else ""
    return Method(
        slug=job.file.slug, path=job.file.path, title=front.method.value, part=front.part.value if front.part else "",
        workshop=job.workshop.key, workshop_name=job.workshop.name,
        status=front.status.value if front.status else "draft",
        revision=front.revision.value if front.revision else "", date=front.date.value if front.date else "",
        summary=front.summary.value if front.summary else "", material=job.material.name if job.material else "",
        stock=say.as_written(front.stock.value) if front.stock else NOTHING, makes=job.makes, digest=job.file.digest,
        calculations=tuple(calculations),
        setups=tuple(_setup(setup, len(job.pieces)) for setup in live.setups), quotes=tuple(quotes),
        totals=added,
        run_out=tuple(run_out), differences=live.proved.listed, checks=tuple(checks), problems=tuple(job.problems),
        tags=tagged,
        found_as=found, own_workshop=own in ("", job.workshop.key),
    )  # fmt: skip


def _setup(setup: CheckedSetup, pieces: int) -> Setup:
    held = setup.held
    sentence = held.sentence
    if pieces > 1:
        sentence = sentence.changed(lambda words: f"{setup.piece.name}: {words[:1].lower()}{words[1:]}")
    return Setup(
        number=setup.number,
        id=setup.id,
        title=setup.title,
        line=setup.line,
        block=setup.block.index,
        machine=held.machine.key,
        machine_name=held.machine.name,
        holding=held.words,
        words=sentence,
        facts=setup.facts,
        checks=setup.checks,
        cautions=setup.cautions,
        notes=setup.notes,
        operations=tuple(_operation(o) for o in setup.operations),
        setting_minutes=setup.minutes,
    )


def _operation(done: CheckedOperation) -> Operation:
    return Operation(
        number=done.number,
        id=done.id,
        verb=done.verb,
        title=done.title,
        words=done.words,
        line=done.line,
        block=done.block.index,
        tool=done.tool_name,
        facts=done.facts,
        passes=tuple(done.worked.passes),
        limits=done.limits,
        checks=done.checks,
        cautions=done.cautions,
        notes=done.notes,
        cutting_minutes=done.worked.minutes,
        handling_minutes=done.handling,
        removed_cm3=done.volume / 1000.0,
        mass_after=_mass(done),
        mass_rests=mass_rests(body.material for body in done.after.bodies.values()),
        figures=(),
        tables=done.tables,
        choices=done.choices,
        family=family_of(done.verb),
    )


def _mass(done: CheckedOperation) -> Measure:
    return measure_of(done.grams_after, "g", "mass")
