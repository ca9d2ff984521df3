"""What would follow if a cut were taken otherwise: is each neighbour what its own plan would say?

Held against the formulas of the handbooks (a cantilever bends as the cube of its length; power is force times speed)
and against the method written with the neighbour's own value: it must plan what the neighbour foretold.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Choice, Operation

CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out")
MILL = block("setup", "machine: mill", "hold: machine vice, grip 12 mm, up top, towards front")
TURNED = "turn: to 16 mm, over 40 mm"
MILLED = "step: side left, wide 6 mm, deep 5 mm"


def last(*lines: str, setup: str = CHUCK, stock: str = "round 20 mm x 120 mm") -> Operation:
    made = work_out(method(setup + block("op", *lines), stock=stock)).method
    assert made.operations, [str(p) for p in made.problems]
    return made.operations[-1]


@pytest.fixture(scope="module")
def turned() -> Operation:
    return last(TURNED)


@pytest.fixture(scope="module")
def milled() -> Operation:
    return last(MILLED, setup=MILL, stock="plate 60 mm x 40 mm x 25 mm")


def of(operation: Operation, changes: str) -> list[Choice]:
    found = [choice for choice in operation.choices if choice.changes == changes]
    assert len(found) > 2
    return found


def number(operation: Operation, key: str) -> float:
    fact = operation.fact(key)
    assert fact is not None
    assert isinstance(fact.value, Measure)
    return fact.value.value


@pytest.mark.parametrize("which", ["turned", "milled"])
def test_the_plan_stands_among_its_neighbours(which: str, request: pytest.FixtureRequest) -> None:
    operation: Operation = request.getfixturevalue(which)
    for changes in ("depth", "speed", "feed"):
        found = of(operation, changes)
        (planned,) = (choice for choice in found if choice.planned)
        assert planned.force is not None
        assert planned.force.value == pytest.approx(number(operation, "force"))
        assert planned.power is not None
        assert planned.power.value == pytest.approx(number(operation, "power"))
        assert planned.minutes == pytest.approx(operation.cutting_minutes)
        values = [choice.value.value for choice in found]
        assert values == sorted(set(values))


@pytest.mark.parametrize("which", ["turned", "milled"])
def test_which_way_each_number_goes(which: str, request: pytest.FixtureRequest) -> None:
    operation: Operation = request.getfixturevalue(which)
    for changes, force in (("depth", True), ("feed", True), ("speed", False)):
        found = of(operation, changes)
        forces = [choice.force.value for choice in found if choice.force]
        assert forces == sorted(forces)
        assert (forces[0] < 0.999 * forces[-1]) == force
        times = [choice.minutes for choice in found]
        assert times == sorted(times, reverse=True)
    power = [(choice.value.value, choice.power.value) for choice in of(operation, "speed") if choice.power]
    for speed, watts in power:
        assert watts / speed == pytest.approx(power[0][1] / power[0][0], rel=1e-6), "force times speed"


@pytest.mark.parametrize(("changes", "key"), [("depth", "depth"), ("feed", "feed")])
def test_a_neighbour_is_what_the_author_would_get_who_wrote_it(turned: Operation, changes: str, key: str) -> None:
    lighter = of(turned, changes)[0]
    own = last(TURNED, f"{key}: {lighter.value.value:g} mm", f"speed: {number(turned, 'spindle_speed'):g} 1/min")
    assert lighter.force is not None
    assert lighter.force.value == pytest.approx(number(own, "force"), rel=1e-6)
    if changes == "depth":
        assert lighter.passes == len(own.passes)
    assert lighter.minutes == pytest.approx(own.cutting_minutes, rel=0.25)  # handling between passes differs a little


def test_a_longer_bar_bends_as_the_cube_of_its_length() -> None:
    """A cut at the very end of a bar of one thickness: F L³ / (3 E I), L the stick-out (handbook formula)."""
    found = of(last("turn: to 18 mm, over 1 mm"), "stick-out")
    (planned,) = (choice for choice in found if choice.planned)
    assert planned.bends is not None
    for choice in found:
        assert choice.bends is not None
        wanted = (choice.value.value / planned.value.value) ** 3
        assert choice.bends.value / planned.bends.value == pytest.approx(wanted, rel=3e-3)


def test_what_speaks_against_a_neighbour_is_said() -> None:
    bold = last(TURNED, "depth: 1.5 mm")
    heeds = {choice.heed.metric for choice in bold.choices}
    assert any("motor gives" in heed for heed in heeds)
    assert any("too fast for the edge" in heed for heed in heeds)
    held = of(last("turn: to 16 mm, over 90 mm"), "stick-out")
    assert any("jaws would stand in the way" in choice.heed.metric for choice in held)


def test_nothing_is_guessed_where_no_force_is_known() -> None:
    assert last("centre: 2 mm").choices == ()
