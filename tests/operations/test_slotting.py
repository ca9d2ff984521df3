"""A keyway in a bore is slotted with the tool that the shop has: too wide, too narrow, too short or missing is told."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out, workshop

from methodsheets.method.checks.tools import check_tool
from methodsheets.method.done import CheckedOperation
from methodsheets.method.findings import Findings
from methodsheets.method.job import Evaluated
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.workshop.tools import Tool

BORED = tuple(block("op", line) for line in ("drill: 12 mm, deep 40 mm", "bore: to 20 mm, deep 29 mm"))
GROOVE = block("op", "groove: from 25 mm, wide 3 mm, deep 2.4 mm, inside")
LINE = "keyway: wide 5 mm, deep 2.3 mm, in bore, over 25 mm"


def made(line: str = LINE, groove: str = GROOVE, *keys: str) -> Evaluated:
    return work_out(method(THREE_JAW + "".join(BORED) + groove + block("op", line, *keys)))


@pytest.fixture(scope="module")
def keyed() -> tuple[CheckedSetup, CheckedOperation]:
    found = made()
    assert [str(problem) for problem in found.method.problems] == []
    return found.live.setups[0], found.live.operations[-1]


def states(keyed: tuple[CheckedSetup, CheckedOperation], tool: Tool | None) -> set[tuple[str, str, bool]]:
    setup, done = keyed
    again = replace(done, tool=tool, found=Findings(done.line))
    check_tool(workshop(), setup, again)
    return {(check.key, check.state, check.tight) for check in again.found.checks}


def test_the_tool_of_the_shop_is_chosen_and_passes(keyed: tuple[CheckedSetup, CheckedOperation]) -> None:
    tool = keyed[1].tool
    assert tool is not None
    assert tool.width == 5
    assert states(keyed, tool) == {("reach", "passed", False)}
    assert keyed[1].plan.by_hand == pytest.approx(2.3 / 0.05 * 0.08)


CASES = [({"width": 6.0}, ("tool-size", "failed", False)), ({"width": 3.0}, ("tool-size", "passed", True)),
         ({"width": 0.0}, ("tool-size", "not known", False)), ({"reach": 20.0}, ("reach", "failed", False)),
         ({"reach": 0.0}, ("reach", "not known", False)), ({"reach": 26.0}, ("reach", "passed", True)),
         ({"min_bore": 22.0}, ("reach", "failed", False))]  # fmt: skip


@pytest.mark.parametrize(("change", "wanted"), CASES)
def test_a_tool_that_does_not_suit(
    keyed: tuple[CheckedSetup, CheckedOperation], change: dict[str, float], wanted: tuple[str, str, bool]
) -> None:
    tool = keyed[1].tool
    assert tool is not None
    assert wanted in states(keyed, replace(tool, **change))  # type: ignore[arg-type]


def test_a_shop_without_one_is_told(keyed: tuple[CheckedSetup, CheckedOperation]) -> None:
    assert states(keyed, None) == {("tool", "failed", False)}
    assert any(check.key == "tool" and check.state == "failed" for check in inch().checks), "the inch shop has none"


def inch() -> CheckedOperation:
    return work_out(method(THREE_JAW + "".join(BORED) + GROOVE + block("op", LINE)), "osierbank-inch").live.operations[
        -1
    ]


def failed(found: Evaluated) -> set[str]:
    return {check.key for check in found.live.operations[-1].checks if check.state == "failed"}


@pytest.mark.parametrize(
    ("line", "groove", "keys", "key"),
    [(LINE, "", (), "stroke-end"), (LINE, GROOVE.replace("deep 2.4", "deep 1.5"), (), "stroke-end"),
     (LINE, GROOVE, ("tool: 6 mm slotting tool",), "tool-size"), (LINE.replace("5 mm", "1.5 mm", 1), GROOVE, (), "tool-size"),
     (LINE, GROOVE, ("tool: knife tool",), "tool-kind")],
)  # fmt: skip
def test_a_planted_fault_is_found(line: str, groove: str, keys: tuple[str, ...], key: str) -> None:
    assert key in failed(made(line, groove, *keys))


def test_right_through_needs_no_groove() -> None:
    lines = ("drill: 12 mm, through", "bore: to 20 mm, through", "keyway: wide 5 mm, deep 2.3 mm, in bore")
    found = work_out(method(THREE_JAW + "".join(block("op", line) for line in lines), stock="round 40 mm x 45 mm"))
    assert "stroke-end" not in failed(found)
