"""Bending of the half-made part and of the tool, against the beam formulas of the handbooks.

A round bar held at one end bends F a³ / (3 E I) under a load at a; held at one end and resting at the other,
F a³ b² (3 a + 4 b) / (12 E I L³) with b = L - a (handbook formulas, from memory). Half the cutting force pushes.
"""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Operation
from methodsheets.trade.metal.materials import material

E = material("EN1A").modulus
STEEL = 206000.0
BAR = "round 20 mm x 120 mm"
CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out")


def last(text: str, key: str = "osierbank-small") -> Operation:
    made = work_out(text, key).method
    assert not [p for p in made.problems if not p.code.startswith("check-")], [str(p) for p in made.problems]
    return made.operations[-1]


def number(operation: Operation, key: str) -> float:
    fact = operation.fact(key)
    assert fact is not None, [f.key for f in operation.facts]
    assert isinstance(fact.value, Measure)
    return fact.value.value


def second_moment(diameter: float) -> float:
    return math.pi * diameter**4 / 64


def test_a_bar_in_the_chuck_bends_as_a_cantilever() -> None:
    """Grooved at the very end: the tool stands 0.01 mm from the tip at most, 100 mm out of the jaws."""
    done = last(method(CHUCK + block("op", "turn: to 19.9 mm, over 1 mm"), stock=BAR))
    push = 0.5 * number(done, "force")
    assert number(done, "deflection") == pytest.approx(push * 100**3 / (3 * E * second_moment(20)), rel=2e-3)


def test_a_centre_holds_it_up() -> None:
    supported = CHUCK + block("op", "centre: 2 mm") + block("op", "support: tailstock centre")
    done = last(method(supported + block("op", "groove: from 40 mm, wide 2 mm, deep 0.05 mm"), stock=BAR))
    push = 0.5 * number(done, "force")
    a, length = 100 - 41.0, 100.0
    b = length - a
    expected = push * a**3 * b**2 * (3 * a + 4 * b) / (12 * E * second_moment(20) * length**3)
    assert number(done, "deflection") == pytest.approx(expected, rel=0.03)
    fact = done.fact("stiffness_left")
    assert fact is None, "a groove of 0.05 mm takes no support away"


def test_stiffness_left_is_the_fourth_power_of_the_diameter() -> None:
    """Ø20 turned to Ø10 over its whole stick-out keeps 1/16 of its stiffness."""
    done = last(method(CHUCK + block("op", "turn: to 10 mm, over 100 mm"), stock=BAR))
    assert number(done, "stiffness_left") == pytest.approx(6.25, rel=1e-3)
    fact = done.fact("stiffness_left")
    assert fact is not None
    assert "leave this metal in as long as you can" in fact.note.metric


def test_a_stepped_bar_is_added_up_from_its_steps() -> None:
    """Half the stick-out at Ø10, half at Ø20: ∫ x² dx over each step (the bending integral by hand)."""
    done = last(method(CHUCK + block("op", "turn: to 10 mm, over 50 mm"), stock=BAR))
    push = 0.5 * number(done, "force")
    thin, thick = 50**3 / 3 / second_moment(10), (100**3 - 50**3) / 3 / second_moment(20)
    assert number(done, "deflection") == pytest.approx(push / E * (thin + thick), rel=3e-3)


def test_thin_work_without_support_is_left_as_a_taper() -> None:
    done = last(method(block("setup", "machine: lathe", "hold: collet chuck, on 8 mm, grip 15 mm, end A out")
                       + block("op", "turn: to 7 mm, over 60 mm"), stock="round 8 mm x 80 mm"))  # fmt: skip
    fact = done.fact("taper_left")
    assert fact is not None
    assert str(fact.value).startswith("taper, ")
    assert [c.key for c in done.checks if c.state == "failed"] == ["slender"]


def test_a_fixed_steady_shortens_the_bar() -> None:
    """A steady 20 mm from the face: in front of it the bar is only 20 mm long."""
    steady = CHUCK + block("op", "support: fixed steady, at 20 mm")
    done = last(method(steady + block("op", "turn: to 19.9 mm, over 1 mm"), stock=BAR))
    assert done.fact("deflection") is None
    free = last(method(CHUCK + block("op", "turn: to 19.9 mm, over 1 mm"), stock=BAR))
    assert number(free, "deflection") > 0.001


def test_the_boring_bar_bends_as_a_cantilever() -> None:
    hold = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
    done = last(method(hold + block("op", "drill: 14 mm, deep 40 mm") + block("op", "bore: to 18 mm, deep 40 mm")))
    push = 0.5 * number(done, "force")
    assert number(done, "tool_deflection") == pytest.approx(push * 50**3 / (3 * STEEL * second_moment(10)), rel=1e-6)
    fact = done.fact("tool_deflection")
    assert fact is not None
    assert "4 is usual" in fact.note.metric


def test_the_end_mill_bends_in_two_steps() -> None:
    """Ø10, flutes 22, 27 out; the fluted part is as stiff as 0.8 of its diameter (common practice)."""
    vice = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 12 mm")
    done = last(
        method(
            vice + block("op", "slot: wide 10 mm, deep 3 mm, along length", "tool: end mill"),
            stock="plate 60 mm x 40 mm x 25 mm",
        )
    )
    force = number(done, "force")
    stiff, soft = second_moment(10), second_moment(8)
    expected = force / (3 * STEEL) * ((27**3 - 22**3) / stiff + 22**3 / soft)
    assert number(done, "tool_deflection") == pytest.approx(expected, rel=1e-6)
