"""Every verb on every stage: cutting data, a look at the holding, a line on the bench sheet and a picture, or a reason.

The reason is what the reader sees: a note, a check that failed, or a problem with its remedy.
"""

from __future__ import annotations

import dataclasses
import functools
import itertools
from collections.abc import Iterator, Mapping

import pytest
from tests.method.bench import Evaluated, work_out
from tests.vocabulary.clause_samples import CHUCK, SAME_AS, TABLE, TURNED, VICE, Sample
from tests.vocabulary.clause_samples_on_blocks import ON_BLOCK

from methodsheets.drawings.scenes import scene_of
from methodsheets.operations.verb import TURNING
from methodsheets.operations.verb import VICE as ON_A_BLOCK
from methodsheets.operations.vocabulary import verb_names, verbs
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import Grips, Way
from methodsheets.vocabulary.machine import MachineKind
from methodsheets.vocabulary.scene import SCENES, Stage

HELD: dict[Stage, tuple[str, str]] = {
    Stage.LATHE: CHUCK,
    Stage.TABLE: TABLE,
    Stage.LYING: ("machine: mill", "hold: rotary table with three-jaw chuck, axis level, on 40 mm, grip 15 mm, end A out"),
    Stage.BLOCK: VICE,
    Stage.PLATE: ("machine: lathe", "hold: four-jaw chuck, up top, towards front"),
}  # fmt: skip
"""A set-up for each stage."""
SAMPLED = [name for name in verb_names() if SAME_AS.get(name, name) in TURNED or SAME_AS.get(name, name) in ON_BLOCK]
PAIRS = list(itertools.product(SAMPLED, Stage))


def sample_of(verb: str, stage: Stage) -> Sample | None:
    table = ON_BLOCK if stage in (Stage.BLOCK, Stage.PLATE) else TURNED
    return table.get(SAME_AS.get(verb, verb))


@functools.cache
def worked(verb: str, stage: Stage) -> Evaluated | None:
    sample = sample_of(verb, stage)
    if sample is None:
        return None
    return work_out(dataclasses.replace(sample, setup=HELD[stage]).text(verb, sample.line))


@pytest.mark.parametrize(("verb", "stage"), PAIRS, ids=[f"{v}-{s}" for v, s in PAIRS])
def test_a_pair_is_worked_out_or_the_reader_is_told_why(verb: str, stage: Stage) -> None:
    made = worked(verb, stage)
    if made is None:
        frame = ON_A_BLOCK if stage in (Stage.BLOCK, Stage.PLATE) else TURNING
        assert (verb, frame) not in verbs(), "a verb of that frame has no sample"
        return
    complete(verb, made)


def complete(verb: str, made: Evaluated) -> None:
    """Data, a look at the holding, a line and a picture of the last operation, or a reason for each that is not there."""
    problems = [problem for problem in made.method.problems if not problem.code.startswith("check-")]
    if problems:
        assert all(problem.remedy for problem in problems), [str(p) for p in problems]
        return
    done, setup = made.live.operations[-1], made.live.setups[-1]
    assert done.verb == verb
    assert done.plan.words, "nothing stands on the bench sheet"
    assert setup.checks or any(fact.key == "unchecked" for fact in setup.facts), "nothing was looked at of the holding"
    failed = {check.key for check in (*done.checks, *setup.checks) if check.state == "failed"}
    if "speed" in done.plan.cut.process.row.takes and setup.held.machine.kind.has_spindle:
        data = {fact.key for fact in done.facts} & {"spindle_speed", "speed", "cutting_speed"}
        assert data or failed or done.notes, "no cutting data, and no reason"
    elif done.volume > 0:
        assert done.worked.minutes > 0 or failed, "cut by hand, and no time for it"
    told = [note.metric for note in done.notes if note.metric.startswith("No drawing of this operation: ")]
    if done.volume > 0:
        assert bool(told) != bool(scene_of(setup, done)), told


# ------------------------------------------------------------------------------------------------ every holding
ON_IT = (Way.THREE_JAW, Way.COLLET, Way.CLAMPS)
"""What stands on a rotary table or in a dividing head."""


def holdings() -> Iterator[tuple[MachineKind, str, Way]]:
    """(machine, words, what grips) of every way of holding on every machine, and of carriers in every attitude."""
    for way in (one for one in Way if not one.row.support):
        for machine in (kind for kind in way.row.machines if kind is not MachineKind.GRINDER):  # the shop has none
            if not way.row.carries:
                yield machine, way.row.words[0], way
                continue
            for on, attitude in (
                (one, how) for one in ON_IT for how in Attitude if how is way.row.usual or one is ON_IT[0]
            ):
                yield machine, f"{way.row.words[0]} with {on.row.words[0]}, axis {attitude}", on


def line_of(words: str, grips: Grips, *, block: bool) -> str:
    if block:
        stands = grips in (Grips.TABLE, Grips.NOTHING)
        return f"hold: {words.split(', axis')[0]}, up top, towards front{'' if stands else ', grip 10 mm'}"
    sizes = {Grips.INSIDE: ", on 16 mm, grip 40 mm", Grips.TABLE: "", Grips.NOTHING: ""}
    return f"hold: {words}{sizes.get(grips, ', on 40 mm, grip 15 mm')}, end A out"


def kinds_of(table: Mapping[str, Sample]) -> list[str]:
    """One verb for each set of stages on which a verb is drawn, and a joint: rooms ask rows, and these rows differ."""
    there: dict[frozenset[Stage], str] = {}
    for name in sorted(set(SAMPLED) & set(table)):
        there.setdefault(frozenset(SCENES[name].looks), name)
    return [*there.values(), "press in"]


def first_of(verbs_: list[str]) -> list[str]:
    """Where nothing turns, or such work is not held at all, one cut and one joint tell all."""
    return [next(verb for verb in verbs_ if Stage.BLOCK in SCENES[verb].looks), verbs_[-1]]


HOLDINGS = [(*held, block) for held in holdings() for block in (False, True)
            if not (block and "axis level" in held[1])]  # fmt: skip


@pytest.mark.parametrize(
    ("machine", "words", "way", "block"),
    HOLDINGS,
    ids=[f"{m}-{w}-{'block' if b else 'round'}" for m, w, _, b in HOLDINGS],
)
def test_every_holding_is_complete_for_every_sort_of_verb(
    machine: MachineKind, words: str, way: Way, block: bool
) -> None:
    table, grips = (ON_BLOCK if block else TURNED), way.row.grips
    fits = (
        (way.row.holds_blocks or bool(way.row.turns_block))
        if block
        else bool(way.row.in_lathe or way.row.on_table or way.row.across)
    )
    setup = (f"machine: {machine}", line_of(words, grips, block=block))
    every = kinds_of(table)
    for verb in every if machine.has_spindle and fits else first_of(every):
        stock = "tube 40 mm x 16 mm x 60 mm" if grips is Grips.INSIDE and not block else table[verb].stock
        sample = dataclasses.replace(table[verb], setup=setup, stock=stock)
        complete(verb, work_out(sample.text(verb, sample.line), "osierbank-large"))
