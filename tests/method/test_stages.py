"""Does a fault of the program in one stage of a method cost that stage alone, and is it told?

The stages are walked, not listed: every function of ours that the walk through a method calls by name is made to fail.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import pytest

from methodsheets.method import carrying_out, evaluate, method_record
from methodsheets.reading.mishap import CODE

from .bench import THREE_JAW, block, method, work_out

ROOMS = (evaluate, carrying_out, method_record)
"""The modules that lead from stage to stage."""
WHOLE = {
    "evaluate.method_record",
    "evaluate.finished",
    "evaluate.work_functions",
    "evaluate.carry_out",
    "method_record.mass_rests",
    "method_record.measure_of",
}
"""Without the record and the words of formulas there is no method: that goes through the bench's door. `carry_out` is
a door itself."""
FORESEEN_WAYS = {"mishap", "stage", "judged", "told", "did_you_mean"}
"""What tells of a fault can tell nothing when it fails itself."""
TEXT = method(
    block("calc", "seat = 30 mm")
    + "The seat is {{ seat }}.\n\n"
    + block("part", "- round: 40 mm, over 59 mm", "- centre: 2 mm")
    + THREE_JAW
    + block("op", "face: 1 mm")
    + block("op", "turn: to seat, over 20 mm", 'check: limits(seat, "h6") with micrometer')
)


def called(room: ModuleType) -> Iterator[str]:
    """Functions of other rooms of ours that a module calls by their name."""
    for node in ast.walk(ast.parse(inspect.getsource(room))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            one = getattr(room, node.func.id, None)
            elsewhere = inspect.isfunction(one) and one.__module__ != room.__name__
            if elsewhere and one.__module__.startswith("methodsheets."):
                yield node.func.id


STAGES = sorted({f"{room.__name__.rpartition('.')[2]}.{name}" for room in ROOMS for name in called(room)})
STAGES = [one for one in STAGES if one not in WHOLE and one.rpartition(".")[2] not in FORESEEN_WAYS]


class Unforeseen(Exception):
    """A fault that nobody thought of."""


@pytest.mark.parametrize("where", STAGES)
def test_a_fault_costs_its_stage_alone(where: str, monkeypatch: pytest.MonkeyPatch) -> None:
    room, _, name = where.rpartition(".")
    reached: list[str] = []

    def planted(*given: Any, **more: Any) -> Any:
        reached.append(name)
        raise Unforeseen("nobody thought of this")

    monkeypatch.setattr(f"methodsheets.method.{room}.{name}", planted)
    made = work_out(TEXT).method
    crashes = [one for one in made.problems if one.code == CODE]
    if not reached:
        pytest.skip("this method does not come by")
    assert crashes, "the fault is not told"
    assert all("Unforeseen" in one.what for one in crashes)
    assert made.title == "Sample"
    lost = {one.place.line for one in crashes}
    lines = TEXT.split("\n")
    operations = [number for number, line in enumerate(lines, 1) if line.startswith("```op")]
    kept = {one.line for one in made.operations}
    if made.setups:
        for line in operations:  # each is shown, or what became of it is told
            assert kept & {line, line + 1} or lost & {line, line + 1}, (line, lost)
    else:
        assert lost & {number for number, line in enumerate(lines, 1) if line.startswith(("```setup", "hold"))} or (
            lost & {2}
        )
    if made.setups and len(kept) == len(operations):
        assert any("the program failed here" in one.words.metric for one in made.unknown)


def test_the_proof_says_that_it_is_not_known(monkeypatch: pytest.MonkeyPatch) -> None:
    sound = work_out(TEXT).method

    def planted(*given: Any) -> Any:
        raise Unforeseen("nobody thought of this")

    monkeypatch.setattr(evaluate, "prove", planted)
    made = work_out(TEXT).method
    (proof,) = [one for one in made.checks if one.key == "intended-part"]
    assert (proof.state, proof.words.metric) == ("not known", "not known: the program failed here")
    assert [one.words for one in made.operations] == [one.words for one in sound.operations]
    assert [one.limits for one in made.operations] == [one.limits for one in sound.operations]
    assert made.quotes == sound.quotes
    assert made.totals == sound.totals
