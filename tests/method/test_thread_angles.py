"""A thread has the angle of the tool that cuts it: every angle of tool against every form of thread, in and out.

Angles of the forms: ISO metric and unified 60, Whitworth, R and Rc 55, BA 47.5, trapezoidal 30, NPT 60 degrees, as their
standards have them.
"""

from __future__ import annotations

import functools
from dataclasses import replace

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out, workshop

from methodsheets.method.checks.tools import check_tool
from methodsheets.method.done import CheckedOperation
from methodsheets.method.findings import Findings
from methodsheets.method.open_setup import CheckedSetup

BORED = block("op", "drill: 12 mm, through") + block("op", "bore: to 18 mm, through")
OUTSIDE = {"M39 x 1.5": 60, "1 1/2-12 UNF": 60, "1 1/4 BSF": 55, "G1": 55, "Tr36x6": 30, "R 1": 55, "1 NPT": 60}
INSIDE = {"M20 x 1.5": 60, "3/4 BSF": 55, "G1/2": 55, "Tr24x5": 30}
CASES = [(name, angle, "") for name, angle in OUTSIDE.items()] + [(n, a, ", inside") for n, a in INSIDE.items()]


@functools.cache
def cut(name: str, where: str) -> tuple[CheckedSetup, CheckedOperation]:
    made = work_out(method(THREE_JAW + BORED + block("op", f"thread: {name}, over 17 mm{where}")))
    assert len(made.live.operations) == 3, [str(problem) for problem in made.method.problems]
    return made.live.setups[0], made.live.operations[-1]


def said(name: str, where: str, angle: float) -> set[str]:
    """States of the check of the angle, with a tool of that angle; 0 for one of which it is not said."""
    setup, done = cut(name, where)
    assert done.tool is not None
    again = replace(done, tool=replace(done.tool, nose_angle=angle), found=Findings(done.line))
    check_tool(workshop(), setup, again)
    return {check.state for check in again.found.checks if check.key == "thread-form"}


@pytest.mark.parametrize(("name", "angle", "where"), CASES)
@pytest.mark.parametrize("tool", [60.0, 55.0, 47.5, 30.0])
def test_a_tool_cuts_the_thread_of_its_own_angle(name: str, angle: float, where: str, tool: float) -> None:
    assert said(name, where, tool) == (set() if tool == angle else {"failed"})


@pytest.mark.parametrize(("name", "angle", "where"), CASES)
def test_of_a_tool_of_which_no_angle_is_said_it_is_not_known(name: str, angle: float, where: str) -> None:
    """60 degrees are usual; that such a tool has another angle is not known, and not wrong."""
    assert said(name, where, 0.0) == (set() if angle == 60 else {"not known"})
