"""Inside taper pipe threads: the hole, the cone, the gauge, and what is told where something is wrong.

ISO 7-1 (Rc) and ASME B1.20.1 (NPT) from memory, as the table says; the cone's volume against the closed form.
"""

from __future__ import annotations

import math

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.trade.threads.any_thread import same_thread, thread_diameter, thread_title
from methodsheets.trade.threads.taper_threads import taper_thread


def last(*lines: str) -> CheckedOperation:
    made = work_out(method(THREE_JAW + "".join(block("op", line) for line in lines)))
    assert len(made.live.operations) == len(lines), [str(problem) for problem in made.method.problems]
    return made.live.operations[-1]


def failed(done: CheckedOperation) -> set[str]:
    return {check.key for check in done.checks if check.state == "failed"}


def told(done: CheckedOperation) -> dict[str, str]:
    return {fact.key: str(fact.value).replace("\u202f", " ") for fact in done.facts}


def test_a_taper_tap_has_its_hole_its_tool_and_its_gauge() -> None:
    done = last("drill: 8.4 mm, deep 20 mm", "tap: Rc 1/8, deep 8 mm")
    assert failed(done) == set()
    assert done.tool_name == "Rc 1/8 tap"
    assert "Rc 1/8" in done.plan.words
    facts = told(done)
    assert facts["gauge_length"] == "4.000 mm"
    assert facts["tap_drill"] == "8.400 mm"
    assert done.worked.minutes + done.plan.by_hand > 0
    assert done.volume == 0


def test_the_bore_of_an_inside_taper_thread_is_its_cone() -> None:
    over = 10.3
    done = last("drill: 10.4 mm, deep 30 mm", f"thread: 1/4 NPT, over {over} mm, inside")
    found = taper_thread("1/4 NPT")
    mouth = found.gauge_major - 2 * found.depth
    bottom = mouth - over / 16
    cone = math.pi * over / 12 * (mouth**2 + mouth * bottom + bottom**2)
    assert done.volume == pytest.approx(cone - math.pi / 4 * 10.4**2 * over, rel=0.02)
    assert failed(done) == set()
    assert told(done)["half_angle"].startswith("1.79")
    assert "internal threading" in done.tool_name


@pytest.mark.parametrize("name", ["Rc 1/8", "Rc 1/4", "Rc 3/8", "Rc 1/2", "Rc 3/4", "Rc 1", "1/8 NPT", "1/4 NPT", "3/8 NPT",
                                  "1/2 NPT", "3/4 NPT", "1 NPT"])  # fmt: skip
def test_the_usual_drill_lies_between_the_bores_of_its_thread(name: str) -> None:
    """What the check of the hole holds every hole to."""
    found = taper_thread(name)
    high = found.gauge_major - 2 * found.depth
    assert high - found.useful / 16 <= found.drill <= high + 0.05 * found.depth
    assert found.inside.startswith("Rc") is name.startswith("Rc")


FAULTS = [("drill: 7.8 mm, deep 20 mm", "tap: Rc 1/8, deep 8 mm", "tapping-drill"),
          ("drill: 9 mm, deep 20 mm", "tap: Rc 1/8, deep 8 mm", "tapping-drill"),
          ("drill: 8.4 mm, deep 6 mm", "tap: Rc 1/8, deep 8 mm", "tapping-drill"),
          ("drill: 8.4 mm, deep 20 mm", "tap: Rc 1/8, deep 4 mm", "thread-end"),
          ("drill: 8.4 mm, deep 8.2 mm", "tap: Rc 1/8, deep 8 mm", "thread-end"),
          ("drill: 12.5 mm, deep 20 mm", "tap: Rc 3/8, deep 10.2 mm", "tool-size"),
          ("drill: 11.2 mm, deep 30 mm", "thread: Rc 1/4, over 11 mm, inside", "thread-form"),
          ("drill: 10.4 mm, deep 30 mm", "thread: 1/4 NPT, over 5 mm, inside", "thread-end")]  # fmt: skip


@pytest.mark.parametrize(("hole", "line", "key"), FAULTS)
def test_a_planted_fault_is_found(hole: str, line: str, key: str) -> None:
    assert key in failed(last(hole, line))


REFUSED = [("tap: R 1/8, deep 8 mm", "unknown-thread"), ("tap: Rc 5/8, deep 8 mm", "unknown-thread"),
           ("thread: Rc 1/8, over 7 mm", "unknown-thread"), ("thread: 1/4 NPT, over 10 mm, inside", "larger-than-work"),
           ("tap: Rc 1/8, deep 12 mm, from 3 mm", "wrong-value")]  # fmt: skip


@pytest.mark.parametrize(("line", "code"), REFUSED)
def test_what_cannot_be_is_refused_with_a_remedy(line: str, code: str) -> None:
    made = work_out(method(THREE_JAW + block("op", "drill: 13 mm, deep 30 mm") + block("op", line)))
    assert made.method.problems[0].code == code
    assert made.method.problems[0].remedy


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [("M6", "m6x1", True), ("M10", "M10x1", False), ("Rc 1/4", "1/4 BSPT", True), ("2BA", "2 BA", True),
     ("M10 LH", "M10", False), ("1/4 NPT", "Rc 1/4", False), ("G1/4", "Rp 1/4", True), ("G1/4", "Rc 1/4", False),
     ("nonsense", "nonsense", False)],
)  # fmt: skip
def test_two_names_of_one_thread(one: str, other: str, same: bool) -> None:
    assert same_thread(one, other) is same


@pytest.mark.parametrize("name", ["M10", "M10x1", "M12", "M12x1"])
def test_the_tap_is_that_of_the_thread_and_not_of_its_diameter(name: str) -> None:
    size = thread_diameter(name)
    assert size is not None
    pitch = 1.0 if "x" in name else 1.5 if size == 10 else 1.75
    done = last(f"drill: {size - pitch:g} mm, deep 30 mm", f"tap: {name}, deep 15 mm")
    assert done.tool_name == f"{thread_title(name)} tap"
