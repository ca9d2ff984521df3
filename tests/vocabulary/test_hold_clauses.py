"""Every clause of `hold` with every way of holding does what it claims to do, or is refused with what to do instead."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Callable, Mapping

import pytest
from tests.method.bench import Evaluated, block, method, work_out

from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.hold_clauses import CLAUSES
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.holding import Grips, Way
from methodsheets.vocabulary.machine import MachineKind

ROUND, BLOCK = "tube 40 mm x 16 mm x 60 mm", "plate 60 mm x 40 mm x 25 mm"
HOLDS = [way for way in Way if not way.row.support]
REFUSALS = {"idle-clause", "contradiction", "wrong-value", "offset-too-large"}
TURN = block("op", "turn: to 38 mm, over 10 mm")

SAID: Mapping[str, tuple[str, str]] = {
    "on": ("on 40 mm", "on 39 mm"),
    "grip": ("grip 15 mm", "grip 12 mm"),
    "stick-out": ("", "stick-out 30 mm"),
    "end": ("end A out", "end B out"),
    "axis": ("axis upright", "axis level"),
    "axis offset": ("", "axis offset 2 mm"),
    "at": ("axis offset 2 mm", "axis offset 2 mm, at 30 deg"),
    "inside": ("", "inside"),
    "outside jaws": ("", "outside jaws"),
    "soft jaws": ("", "soft jaws"),
    "packed": ("packed 2 mm", "packed 3 mm"),
    "support": ("", "support tailstock centre"),
    "support at": ("support fixed steady, support at 12 mm", "support fixed steady, support at 20 mm"),
    "up": ("up top", "up bottom"),
    "towards": ("towards front", "towards left"),
    "run-out": ("run-out 0.02 mm", "run-out 0.05 mm"),
}
"""What is said without the clause (or with another value of it), and with it."""


def lines(way: Way, word: str) -> tuple[str, str]:
    """Two set-up lines that differ in the clause alone."""
    row = way.row
    faces = word in ("up", "towards") or not bool(row.in_lathe or row.on_table or row.across)
    inside = row.grips is Grips.INSIDE
    common = {"up": "up top", "towards": "towards front"} if faces else {
        "on": "on 16 mm" if inside else "on 40 mm", "grip": "grip 15 mm", "end": "end A out"}  # fmt: skip
    if word == "stick-out":
        common.pop("grip", None)
    words = []
    for said in SAID[word]:
        clauses = {**{w: s for w, s in common.items() if w != word}, word: said}
        if word == "on" and inside:
            clauses["on"] = said.replace("40", "16").replace("39", "15")
        words.append(", ".join([row.words[0], *(s for s in clauses.values() if s)]))
    return words[0], words[1]


@functools.cache
def worked(way: Way, hold: str) -> Evaluated:
    kinds = way.row.machines
    machine = MachineKind.LATHE if MachineKind.LATHE in kinds else kinds[0]
    turns = machine is MachineKind.LATHE and "up " not in hold
    text = method(
        block("setup", f"machine: {machine}", f"hold: {hold}") + (TURN if turns else ""),
        stock=BLOCK if "up " in hold else ROUND,
    )
    return work_out(text, "osierbank-large")


def refused(made: Evaluated) -> bool:
    """Whether the set-up was refused, with the place and what to do."""
    problem = next((p for p in made.method.problems if p.code in REFUSALS), None)
    assert problem is None or (problem.remedy and problem.place.line == 10), str(problem)
    return problem is not None


EFFECTS: Mapping[Change, Callable[[CheckedSetup], object]] = {
    Change.WORDS: lambda setup: setup.held.sentence.metric,
    Change.NUMBERS: lambda setup: [(fact.key, str(fact.value), str(fact.note)) for fact in setup.facts],
    Change.CHECKS: lambda setup: [(c.key, c.state, str(c.words)) for one in (setup, *setup.operations) for c in one.checks],
}  # fmt: skip
PAIRS = list(itertools.product(HOLDS, CLAUSES))


def test_every_clause_says_what_it_changes_and_has_a_sample() -> None:
    assert {clause.word for clause in CLAUSES} == set(SAID)
    assert all(set(clause.changes) <= set(EFFECTS) for clause in CLAUSES)


@pytest.mark.parametrize(("way", "clause"), PAIRS, ids=[f"{way}-{clause.word}" for way, clause in PAIRS])
def test_a_clause_changes_what_it_claims_or_is_refused(way: Way, clause) -> None:  # type: ignore[no-untyped-def]
    without, with_it = (worked(way, hold) for hold in lines(way, clause.word))
    if refused(with_it) or refused(without):
        return
    for made in (without, with_it):
        assert made.live.setups, [str(p) for p in made.method.problems]
    one, other = without.live.setups[0], with_it.live.setups[0]
    if clause.word == "inside" and way.row.grips is Grips.INSIDE:
        return  # it says again what a mandrel does
    same = [str(change) for change in clause.changes if EFFECTS[change](one) == EFFECTS[change](other)]
    assert same == [], f"`{clause.word}` changes nothing of {same} in {lines(way, clause.word)}"


CONTRADICTIONS = ["soft jaws, outside jaws", "packed 2 mm, axis offset 3 mm"]


@pytest.mark.parametrize("clauses", CONTRADICTIONS)
def test_two_clauses_that_tell_the_same_are_refused(clauses: str) -> None:
    hold = f"hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out, {clauses}"
    problem = work_out(method(block("setup", "machine: lathe", hold))).method.problems[0]
    assert problem.code == "contradiction"
    assert "are both said" in problem.what


@pytest.mark.parametrize("way", HOLDS)
def test_inside_is_carried_or_refused(way: Way) -> None:
    """What takes hold in a bore does, by every name of it and of the shop's own; the rest says that it cannot."""
    row = way.row
    if not bool(row.in_lathe or row.on_table or row.across):
        return
    size = "on 16 mm" if row.takes_bores else "on 40 mm"
    made = worked(way, f"{row.words[0]}, {size}, grip 15 mm, end A out, inside")
    if not row.takes_bores:
        assert refused(made)
        return
    assert not refused(made), [str(p) for p in made.method.problems]
    holding = made.live.setups[0].held.holding
    assert holding is not None
    assert holding.inside


@pytest.mark.parametrize("name", ["taper mandrels", "stub mandrel turned to size", "mandrel"])
def test_a_mandrel_by_the_shop_s_own_name_holds_inside(name: str) -> None:
    setup = block("setup", "machine: lathe", f"hold: {name}, on 16 mm, grip 15 mm, end A out")
    holding = work_out(method(setup, stock=ROUND)).live.setups[0].held.holding
    assert holding is not None
    assert holding.inside
