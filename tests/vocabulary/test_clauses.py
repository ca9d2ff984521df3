"""Every clause of every verb in every frame does what it claims to do, or is refused with what to do instead."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Callable, Mapping

import pytest
from tests.method.bench import block, method, work_out
from tests.vocabulary.clause_samples import BLOCK, NOTE, SAME_AS, TURNED, VICE, Sample
from tests.vocabulary.clause_samples_on_blocks import ON_BLOCK

from methodsheets.method.done import CheckedOperation
from methodsheets.operations.verb import ANY, TURNING, Verb
from methodsheets.operations.verb import VICE as ON_A_BLOCK
from methodsheets.operations.vocabulary import verbs
from methodsheets.reading.problem import Problem
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.tool import Hand
from methodsheets.workpiece import mass


def sample_of(verb: Verb, frame: str) -> Sample | None:
    """The sample of a verb in a frame; None where it stands for another with the same clauses."""
    table = TURNED if frame == TURNING else ON_BLOCK
    found = table.get(verb.name)
    if found is None and [c.word for c in verb.all_clauses] == ["", "for"]:
        found = NOTE
    if found is not None and frame == ON_A_BLOCK:
        return dataclasses.replace(found, setup=VICE, stock=BLOCK)
    return found


def frames(verb: Verb) -> tuple[str, ...]:
    return (
        (TURNING, ON_A_BLOCK)
        if verb.frame == ANY
        else (verb.frame,)
        if verb.frame != "bench"
        else (TURNING, ON_A_BLOCK)
    )


CASES = [(verb, frame) for verb in verbs().values() for frame in frames(verb)]
JOINS = {v.name for v in verbs().values() if v.family == "joining" and v.name != "pin"}
COVERED = [(v, f) for v, f in CASES if sample_of(v, f) is not None]
CLAUSES = [(v, f, c.word) for v, f in COVERED for c in v.all_clauses]


@functools.cache
def worked(text: str) -> tuple[CheckedOperation | None, tuple[Problem, ...]]:
    made = work_out(text)
    lines = text[: text.rindex("```op")].count("\n") + 2
    done = next((o for o in made.live.operations if o.line == lines), None)
    return done, made.method.problems


def _solid(done: CheckedOperation) -> object:
    lines = [tuple(map(tuple, line.round(4).tolist())) for line in done.plan.marks]
    weight, (low, high) = mass(done.after), done.after.bounds
    place = [tuple(round(float(v), 4) for v in vector) for vector in (low, high, weight.centre)]
    inertia = tuple(round(float(v), 2) for v in getattr(weight, "moments", ()))
    stubs = [round(solid.volume, 2) for solid in (*done.stub, *done.removed)]
    corners = [(name, *(tuple(v.round(4).tolist()) for v in b.solid.bounds)) for name, b in done.after.bodies.items()]
    return done.volume, weight.grams, place, inertia, stubs, lines, sorted(corners)


def _numbers(done: CheckedOperation) -> object:
    return done.plan.cut, done.plan.tool_size, tuple((f.key, str(f.value)) for f in done.facts)


EFFECTS: Mapping[Change, Callable[[CheckedOperation], object]] = {
    Change.SOLID: _solid,
    Change.WORDS: lambda done: done.plan.words,
    Change.NAME: lambda done: done.plan.feature,
    Change.TIME: lambda done: round(done.worked.minutes, 6),
    Change.NUMBERS: _numbers,
    Change.PICTURE: lambda done: done.plan.sketch,
    Change.CHECKS: lambda done: tuple((c.key, c.state, str(c.words)) for c in done.checks),
}


def test_every_verb_has_a_sample() -> None:
    """A new verb needs one: a line that is good, and one for each clause, in `clause_samples.py`."""
    missing = [
        (v.name, f)
        for v, f in CASES
        if sample_of(v, f) is None and v.name not in SAME_AS and v.name not in JOINS and f == TURNING
    ]
    assert missing == []


@pytest.mark.parametrize(("verb", "frame"), COVERED, ids=[f"{v.name}-{f}" for v, f in COVERED])
def test_every_clause_has_a_sample(verb: Verb, frame: str) -> None:
    sample = sample_of(verb, frame)
    assert sample is not None
    assert {c.word for c in verb.all_clauses} - {*sample.clauses, *sample.idle} == set()


@pytest.mark.parametrize(
    ("verb", "frame", "word"), CLAUSES, ids=[f"{v.name}-{f}-{w or 'first'}" for v, f, w in CLAUSES]
)
def test_a_clause_changes_what_it_claims_or_is_refused(verb: Verb, frame: str, word: str) -> None:
    sample = sample_of(verb, frame)
    assert sample is not None
    clause = next(c for c in verb.all_clauses if c.word == word)
    if word in sample.idle:
        done, problems = worked(sample.text(verb.name, sample.line + sample.idle[word]))
        assert done is None
        assert [p.code for p in problems][:1] in (["idle-clause"], ["contradiction"]), [str(p) for p in problems]
        assert problems[0].remedy
        return
    said = sample.clauses[word]
    lines = (sample.line, sample.line + said) if isinstance(said, str) else said
    found = [worked(sample.text(verb.name, line)) for line in lines]
    for done, problems in found:
        assert done is not None, [str(p) for p in problems]
    without, with_it = (done for done, _ in found)
    assert without is not None
    assert with_it is not None
    same = [str(change) for change in clause.changes if EFFECTS[change](without) == EFFECTS[change](with_it)]
    assert same == [], f"`{word}` changes nothing of {same}"
    if Change.SOLID in clause.changes:
        told = [str(fact.value) for fact in with_it.facts if fact.key == "as_said"]
        sentence = without.plan.words != with_it.plan.words
        assert sentence or (clause.apart and any(word in one for one in told)), f"`{word}` is cut, and told nowhere"


CHUCK = "three-jaw chuck, on 40 mm, grip 15 mm, end A out"
IDLE_IN_A_VICE = ["on 40 mm", "stick-out 10 mm", "end A out", "axis offset 2 mm", "at 30 deg", "inside", "soft jaws",
                  "outside jaws", "packed 2 mm", "support tailstock centre", "support at 20 mm", "run-out 0.02 mm"]  # fmt: skip


@pytest.mark.parametrize("clause", IDLE_IN_A_VICE)
def test_what_means_nothing_in_a_vice_is_refused(clause: str) -> None:
    hold = f"hold: machine vice, up top, towards front, grip 10 mm, {clause}"
    problem = work_out(method(block("setup", "machine: mill", hold), stock=BLOCK)).method.problems[0]
    assert problem.code == "idle-clause"
    assert problem.place.line == 10
    assert problem.place.column > len("hold: machine vice")
    assert problem.remedy


@pytest.mark.parametrize("clause", ["packed 1 mm", "outside jaws", "soft jaws"])
def test_what_means_nothing_in_a_collet_is_refused(clause: str) -> None:
    if clause == "soft jaws":
        return  # they are what holds then, and not the collet
    hold = f"hold: collet chuck, on 12 mm, grip 15 mm, end A out, {clause}"
    made = work_out(method(block("setup", "machine: lathe", hold), stock="round 12 mm x 60 mm"))
    assert made.method.problems[0].code == "idle-clause"


def test_a_support_means_nothing_where_the_work_does_not_turn() -> None:
    hold = "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up, support tailstock centre"
    made = work_out(method(block("setup", "machine: mill", hold)))
    assert made.method.problems[0].code == "idle-clause"


CONTRADICTIONS = [
    "groove: at 10 mm, wide 3 mm, deep 2 mm, to 30 mm",
    "groove: at 10 mm, from 12 mm, wide 3 mm, deep 2 mm",
    "face: 1 mm, to length 55 mm",
    "face: off 1 mm, to length 55 mm",
    "drill: 5 mm, deep 10 mm, through",
    "drill: 5 mm, deep 10 mm, divide 3, on circle 20 mm, on radius 10 mm",
    "drill: 5 mm, deep 10 mm, on circle 20 mm, divide 3, at 30 deg",
    "flat: 15 mm, across 30 mm, over 10 mm",
    "slot: wide 5 mm, deep 3 mm, to 10 mm",
    "slot: wide 5 mm, deep 3 mm, in face, in bore",
    "cross-drill: 5 mm, from face 10 mm, deep 3 mm, through",
]


@pytest.mark.parametrize("line", CONTRADICTIONS)
def test_clauses_that_tell_the_same_are_refused_together(line: str) -> None:
    made = work_out(method(block("setup", "machine: lathe", f"hold: {CHUCK}") + block("op", line)))
    problem = made.method.problems[0]
    assert "are both said" in problem.what
    assert problem.code == "contradiction"
    assert problem.place.line == 14


IDLE_WISHES = [("drill: 5 mm, deep 10 mm", "depth: 1 mm"), ("groove: at 5 mm, wide 3 mm, deep 1 mm", "depth: 1 mm"),
               ("part off: 10 mm", "depth: 1 mm"), ("thread: M40 x 1.5, over 20 mm", "feed: 0.1 mm"),
               ("deburr: edges", "speed: 100 1/min"), ("tap: M6, deep 5 mm", "feed: 0.2 mm")]  # fmt: skip


@pytest.mark.parametrize(("line", "wish"), IDLE_WISHES)
def test_a_wish_that_changes_nothing_is_refused(line: str, wish: str) -> None:
    made = work_out(method(block("setup", "machine: lathe", f"hold: {CHUCK}") + block("op", line, wish)))
    problem = made.method.problems[0]
    assert problem.code == "idle-clause"
    assert problem.place.line == 15


def test_a_clause_written_as_a_key_is_told_where_it_belongs() -> None:
    made = work_out(
        method(block("setup", "machine: lathe", f"hold: {CHUCK}") + block("op", "turn: to 30 mm", "leave: 1 mm"))
    )
    assert "is a clause: write it in the line of `turn`, as `turn: …, leave …`" in made.method.problems[0].remedy


LEFT = ["thread: M40 x 1.5 LH, over 10 mm", "thread: M40 x 1.5, over 10 mm, left hand", "thread: M40x1.5-LH, over 10 mm",
        "tap: M6 LH, deep 10 mm", "tap: M6, deep 10 mm, left hand", "thread: M40 x 1.5 LH, over 10 mm, die",
        "thread: M8 left-hand, over 10 mm, inside"]  # fmt: skip


@pytest.mark.parametrize("line", LEFT)
def test_a_left_hand_thread_is_left_hand_everywhere(line: str) -> None:
    hole = block("op", "drill: 5 mm, deep 20 mm") if "M6" in line else block("op", "drill: 6.8 mm, deep 20 mm")
    made = work_out(method(block("setup", "machine: lathe", f"hold: {CHUCK}") + hole + block("op", line)))
    done = made.live.operations[-1]
    assert "left-hand" in done.plan.words
    assert " LH" in done.plan.words
    assert done.plan.feature.endswith("LH")
    assert done.plan.sketch.diameter_words.endswith("LH")
    assert done.plan.hand is Hand.LEFT
    assert any(fact.key == "hand" for fact in done.facts)
    by_hand = done.plan.cut.process.row.hand_turned
    assert done.plan.left_hand is not by_hand
    if by_hand:
        assert any(c.key == "tool" and c.state == "failed" for c in done.checks), "the workshop has no left-hand one"
    elif not done.plan.inside:
        assert any(c.key == "way-in" for c in done.checks)
