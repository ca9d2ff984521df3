"""Every verb on every stage: cutting data, a look at the holding, a line on the bench sheet and a picture, or a reason.

The reason is what the reader sees: a note, a check that failed, or a problem with its remedy.
"""

from __future__ import annotations

import dataclasses
import functools
import itertools

import pytest
from tests.method.bench import Evaluated, work_out
from tests.vocabulary.clause_samples import CHUCK, ON_BLOCK, SAME_AS, TABLE, TURNED, VICE, Sample

from methodsheets.operations.verb import TURNING
from methodsheets.operations.verb import VICE as ON_A_BLOCK
from methodsheets.operations.vocabulary import verb_names, verbs
from methodsheets.sheet.words import Words
from methodsheets.vocabulary.scene import SCENES, Stage, look

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
    problems = [problem for problem in made.method.problems if not problem.code.startswith("check-")]
    if problems:
        assert all(problem.remedy for problem in problems), [str(p) for p in problems]
        return
    done, setup = made.live.operations[-1], made.live.setups[-1]
    assert done.verb == verb
    assert done.plan.words, "nothing stands on the bench sheet"
    assert setup.facts or setup.checks, "nothing was looked at of the holding"
    failed = {check.key for check in (*done.checks, *setup.checks) if check.state == "failed"}
    if "speed" in done.plan.cut.process.row.takes and setup.held.machine.kind.has_spindle:
        data = {fact.key for fact in done.facts} & {"spindle_speed", "speed", "cutting_speed"}
        assert data or failed or done.notes, "no cutting data, and no reason"
    elif done.volume > 0:
        assert done.worked.minutes > 0, "cut by hand, and no time for it"
    if done.volume > 0 and not look(verb, stage) and not SCENES[verb].sawn:
        told = [Words(str(note)).metric for note in done.notes]
        assert any(note.startswith("No drawing of this operation: ") for note in told), told
